package place

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"
)

// tinyDays is one film on two or three tiny days, each with its own light, near enough for the rest between them to matter.
func tinyDays(r *rand.Rand) Days {
	first := tiny(r, 1+r.IntN(4), 10)
	if r.IntN(2) == 0 {
		first = enrich(r, first)
	}
	p := Days{Rest: r.IntN(6), Again: r.Int64N(8), Opening: r.Int64N(12)}
	for d := range 2 + r.IntN(2) {
		day := first
		day.Scenes = nil
		for _, s := range first.Scenes {
			light := make([]int64, day.Slots)
			for t := range light {
				if light[t] = Forbidden; r.IntN(3) > 0 {
					light[t] = r.Int64N(20)
				}
			}
			s.Light = light
			day.Scenes = append(day.Scenes, s)
		}
		p.Days, p.Offset = append(p.Days, day), append(p.Offset, d*12)
	}
	return p
}

// bestOfDays tries every way to hand the scenes to the days, without the rest and the order between days, so it is never above
// the best; free says that neither could have mattered.
func bestOfDays(p Days) (best int64, free bool) {
	n, days := len(p.Days[0].Scenes), len(p.Days)
	memo := map[[2]int]int64{}
	lost := func(d, set int) int64 {
		if v, ok := memo[[2]int{d, set}]; ok {
			return v
		}
		sub, _ := only(p.Days[d], uint64(set))
		for i := range sub.Scenes {
			sub.Scenes[i].Leave = Never // it is this set or none
		}
		v := slowBest(sub)
		memo[[2]int{d, set}] = v
		return v
	}
	ways := 1
	for range n {
		ways *= days + 1
	}
	best = inf
	for way := range ways {
		sets, sum, code := make([]int, days), int64(0), way
		for j := range n {
			if d := code % (days + 1); d < days {
				sets[d] |= 1 << j
			} else {
				sum += p.Days[0].Scenes[j].Leave
			}
			code /= days + 1
		}
		used := 0
		comes := make([]int, len(p.Days[0].People))
		for d, set := range sets {
			sum += lost(d, set)
			if set != 0 {
				used++
			}
			called := map[int]bool{}
			for j, s := range p.Days[0].Scenes {
				for _, q := range s.People {
					if set&(1<<j) != 0 && !called[q] {
						called[q] = true
						comes[q]++
					}
				}
			}
		}
		for _, c := range comes {
			sum += p.Again * int64(max(0, c-1))
		}
		best = min(best, sum+p.Opening*int64(max(0, used-1)))
	}
	free = p.Rest <= 2
	for _, s := range p.Days[0].Scenes {
		free = free && len(s.After) == 0
	}
	return best, free
}

// TestDaysAgainstAllWays: legal by the judge, never better than the best of all ways, with a bound never above it, and where
// nothing binds the days together nearly always the best itself.
func TestDaysAgainstAllWays(t *testing.T) {
	same, free := 0, 0
	for seed := range uint64(300) {
		p := tinyDays(rand.New(rand.NewPCG(seed, 21)))
		r := mustSolveDays(t, p)
		best, unbound := bestOfDays(p)
		if r.Total() < best || unbound && r.Bound > best {
			t.Fatalf("seed %d: lost %d, bound %d; the best without rest is %d\n%+v\n%+v", seed, r.Total(), r.Bound, best, r, p)
		}
		if unbound {
			free++
			if r.Total() == best {
				same++
			}
		}
		if again := mustSolveDays(t, p); !reflect.DeepEqual(again, r) {
			t.Fatalf("seed %d: another answer the second time", seed)
		}
	}
	t.Logf("%d of %d best", same, free)
	if free < 60 || same*100 < free*97 {
		t.Errorf("%d of %d are the best of all ways", same, free)
	}
}

func mustSolveDays(t testing.TB, p Days) DaysResult {
	t.Helper()
	before := inf
	r, err := SolveDays(context.Background(), p, func(r DaysResult) {
		if total, err := JudgeDays(p, r); err != nil || total != r.Total() || total >= before {
			t.Fatalf("progress from %d to %d: judge says %d, %v", before, r.Total(), total, err)
		}
		before = r.Total()
	})
	if err != nil {
		t.Fatal(err)
	}
	if total, err := JudgeDays(p, r); err != nil || total != r.Total() || r.Bound > total {
		t.Fatalf("judge says %d, %v; result %d, bound %d\n%+v", total, err, r.Total(), r.Bound, r)
	}
	return r
}

// autumnDays is a film of many scenes on three days in a row, of which each scene has its light on every one.
func autumnDays(seed uint64, scenes int) Days {
	p := Days{Rest: 132, Again: 60_000, Opening: 150_000}
	for d := range 3 {
		day := autumnDay(seed, scenes/3)
		r := rand.New(rand.NewPCG(seed, 7))
		for len(day.Scenes) < scenes {
			day.Scenes = append(day.Scenes, autumnScene(r, day, scenes/3))
		}
		p.Days, p.Offset = append(p.Days, day), append(p.Offset, d*288)
	}
	return p
}

// TestManyScenesOnThreeDays: most are placed, with an honest bound. No source outside tells what is best; what is lost must not grow
// unnoticed: it was 4.94 million when this was written, and 5.39 with a narrower first plan that stood in for the loose one.
func TestManyScenesOnThreeDays(t *testing.T) {
	p := autumnDays(2, 60)
	r := mustSolveDays(t, p)
	placed := 0
	for _, d := range r.Days {
		placed += len(d.Order)
	}
	if placed < 50 || r.Bound <= 0 || r.Total() > 5_000_000 {
		t.Errorf("%d of 60 placed, lost %d, bound %d", placed, r.Total(), r.Bound)
	}
}

func BenchmarkSolveDays(b *testing.B) {
	for seed := range uint64(3) {
		p := autumnDays(seed, 60)
		b.Run(fmt.Sprintf("first/seed=%d", seed), func(b *testing.B) {
			for b.Loop() {
				ctx, cancel := context.WithCancel(context.Background())
				_, _ = SolveDays(ctx, p, func(DaysResult) { cancel() })
				cancel()
			}
		})
		b.Run(fmt.Sprintf("whole/seed=%d", seed), func(b *testing.B) {
			var r DaysResult
			for b.Loop() {
				r, _ = SolveDays(context.Background(), p, nil)
			}
			b.ReportMetric(float64(r.Total()), "loss")
			b.ReportMetric(float64(r.Bound), "bound")
		})
	}
}
