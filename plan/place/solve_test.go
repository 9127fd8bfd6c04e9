package place

import (
	"context"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// drawDay draws a random small day; the seed makes the rest, so that a failure can be made again.
func drawDay(t *rapid.T) (Problem, *rand.Rand) {
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
	p := tiny(r, rapid.IntRange(0, 8).Draw(t, "scenes"), rapid.IntRange(8, 40).Draw(t, "slots"))
	if rapid.Bool().Draw(t, "rich") {
		p = enrich(r, p)
	}
	return p, r
}

// mustSolve solves and has the answer judged: legal, of the loss it says, with a bound no greater.
func mustSolve(t rapid.TB, ctx context.Context, p Problem, progress func(Result)) Result {
	t.Helper()
	r, err := Solve(ctx, p, progress)
	if err != nil {
		t.Fatal(err)
	}
	mustHold(t, p, r)
	return r
}

func mustHold(t rapid.TB, p Problem, r Result) {
	t.Helper()
	loss, err := Judge(p, r)
	if err != nil || loss != r.Loss {
		t.Fatalf("judge says %+v, %v; result %+v", loss, err, r)
	}
	if total := loss.Total(); r.Bound > total || (r.Status == Proven) != (r.Bound == total) {
		t.Fatalf("loss %d, bound %d, %v", total, r.Bound, r.Status)
	}
}

func TestSolveIsLegalAndSteady(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := drawDay(t)
		before, last := inf, Result{}
		first := mustSolve(t, context.Background(), p, func(r Result) {
			mustHold(t, p, r)
			if r.Loss.Total() >= before {
				t.Fatalf("progress from %d to %d", before, r.Loss.Total())
			}
			before, last = r.Loss.Total(), r
		})
		if before < inf && last.Loss != first.Loss {
			t.Fatalf("the last progress lost %+v, the result %+v", last.Loss, first.Loss)
		}
		if again := mustSolve(t, context.Background(), p, nil); !reflect.DeepEqual(first, again) {
			t.Fatalf("the same problem gave\n%+v\n%+v", first, again)
		}
	})
}

// TestFreedomNeverHurts: permitting one more start, or making a precedence go away, never makes the best worse.
func TestFreedomNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, r := drawDay(t)
		if len(p.Scenes) == 0 {
			return
		}
		before := mustSolve(t, context.Background(), p, nil)
		s := &p.Scenes[r.IntN(len(p.Scenes))]
		s.After = nil
		if at := r.IntN(p.Slots); s.Light[at] == Forbidden {
			s.Light[at] = r.Int64N(20)
		}
		after := mustSolve(t, context.Background(), p, nil)
		if before.Status == Proven && after.Bound > before.Loss.Total() {
			t.Fatalf("lost %d, then at least %d", before.Loss.Total(), after.Bound)
		}
	})
}

// TestHintChangesNothing: whatever order the search begins with, what is proven loses the same.
func TestHintChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, r := drawDay(t)
		before := mustSolve(t, context.Background(), p, nil)
		p.Hint = r.Perm(len(p.Scenes))[:r.IntN(len(p.Scenes)+1)]
		after := mustSolve(t, context.Background(), p, nil)
		if before.Status != Proven || after.Status != Proven || before.Loss.Total() != after.Loss.Total() {
			t.Fatalf("lost %d, %v, and with the hint %v %d, %v", before.Loss.Total(), before.Status, p.Hint, after.Loss.Total(), after.Status)
		}
	})
}

// TestCancelled stops at every moment at which something better is found, and before the start.
func TestCancelled(t *testing.T) {
	for seed := range uint64(3) {
		p := windowedDay(seed, 12)
		best := mustSolve(t, context.Background(), p, nil)
		for stop := 0; ; stop++ {
			ctx, cancel := context.WithCancel(context.Background())
			found := 0
			if stop == 0 {
				cancel()
			}
			r := mustSolve(t, ctx, p, func(Result) {
				if found++; found == stop {
					cancel()
				}
			})
			cancel()
			if r.Bound > best.Loss.Total() {
				t.Errorf("seed %d, stopped at %d: bound %d is over the best, %d", seed, stop, r.Bound, best.Loss.Total())
			}
			if r.Status == Within {
				t.Errorf("seed %d, stopped at %d: status %v", seed, stop, r.Status)
			}
			if len(r.Order) == 0 {
				t.Errorf("seed %d, stopped at %d: an empty day", seed, stop)
			}
			if found < stop {
				break
			}
		}
	}
}

// TestWindowedDaysAreProven is the promise of this package: an ordinary day is proven best.
func TestWindowedDaysAreProven(t *testing.T) {
	for _, n := range []int{6, 10, 14} {
		for seed := range uint64(8) {
			if r := mustSolve(t, context.Background(), windowedDay(seed, n), nil); r.Status != Proven {
				t.Errorf("n=%d, seed %d: lost %d, bound %d", n, seed, r.Loss.Total(), r.Bound)
			}
		}
	}
}

// TestDaysTooBigToProve: a legal plan that places something, an honest bound, and the same again.
func TestDaysTooBigToProve(t *testing.T) {
	for _, n := range []int{40, MaxScenes} {
		p := windowedDay(1, n)
		r := mustSolve(t, context.Background(), p, nil)
		if len(r.Order) < n/3 || r.Bound <= 0 {
			t.Errorf("n=%d: %d placed, bound %d", n, len(r.Order), r.Bound)
		}
		if n == 40 && !reflect.DeepEqual(r, mustSolve(t, context.Background(), p, nil)) {
			t.Errorf("n=%d: another answer the second time", n)
		}
	}
}

func TestNothingToPlace(t *testing.T) {
	p := Problem{Slots: 10, Earliest: 3, Latest: 10, Longest: 10}
	r := mustSolve(t, context.Background(), p, nil)
	if r.Call != 3 || r.Wrap != 3 || r.Status != Proven || r.Loss != (Loss{}) {
		t.Errorf("an empty day: %+v", r)
	}
	p = evening(3, 2, 10, 20)
	for i := range p.Scenes {
		p.Scenes[i].Light[15] = 5
		p.Scenes[i].Leave = 1
	}
	p.DayCost = 1 // each scene costs at least its two slots, so leaving it out is cheaper
	if r = mustSolve(t, context.Background(), p, nil); len(r.Order) != 0 || r.Loss != (Loss{LeftOut: 3}) {
		t.Errorf("a day not worth its length: %+v", r)
	}
}

// TestMealKeepsOutOfWhatIsScarce: the meal of a long gap is as late as it can be, but not in the slots that are scarce, unless
// there is nothing else; and what it loses is the same.
func TestMealKeepsOutOfWhatIsScarce(t *testing.T) {
	at := func(slot int) Scene {
		s := Scene{Shoot: 2, Light: slices.Repeat([]int64{Forbidden}, 40), Leave: Never}
		s.Light[slot] = 0
		return s
	}
	p := Problem{
		Slots: 40, Latest: 40, Longest: 40, Moves: [][]int{{0}}, Scenes: []Scene{at(2), at(25)}, DayCost: 1, Meal: Meal{Within: 20, Length: 3},
	}
	for _, c := range []struct {
		scarce []Span
		meal   Span
	}{
		{nil, Span{22, 25}}, {[]Span{{23, 24}}, Span{20, 23}}, {[]Span{{20, 30}}, Span{17, 20}}, {[]Span{{0, 40}}, Span{22, 25}},
		{[]Span{{8, 40}}, Span{5, 8}}, {[]Span{{6, 40}}, Span{22, 25}}, // any earlier, and the wrap is too far
	} {
		p.Scarce = c.scarce
		r := mustSolve(t, context.Background(), p, nil)
		if len(r.Meals) != 1 || r.Meals[0] != c.meal || r.Loss.Total() != 25 {
			t.Errorf("scarce %v: meals %v, lost %+v; want %v", c.scarce, r.Meals, r.Loss, c.meal)
		}
	}
}
