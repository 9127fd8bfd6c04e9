package day

import (
	"context"
	"errors"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"eavelight/plan"
	"eavelight/plan/place"
)

// freeForAll is the demo plan with everybody free on every day, so that every date has all its scenes to place.
func freeForAll(t testing.TB) *plan.Plan {
	p := demo(t)
	for i := range p.People {
		p.People[i].Availability = nil
	}
	return p
}

func datesFrom(t testing.TB, first string, n, step int) []plan.Date {
	var out []plan.Date
	for i := range n {
		out = append(out, date(t, first).AddDays(i*step))
	}
	return out
}

// onCores runs something as on a machine with so many cores.
func onCores(n int, f func()) {
	before := runtime.GOMAXPROCS(n)
	defer runtime.GOMAXPROCS(before)
	f()
}

// TestRankIsWhatPlaceSays: the figures of a ranking are those of each date's day, best first, and each came by the callback.
func TestRankIsWhatPlaceSays(t *testing.T) {
	p := demo(t)
	var came []plan.Date
	ranked, err := Rank(context.Background(), p, Candidates(p), func(f Figures) { came = append(came, f.Date) })
	if err != nil || len(ranked) != 3 || len(came) != 3 {
		t.Fatalf("%d ranked, %v came, %v", len(ranked), came, err)
	}
	for i, f := range ranked {
		want := placed(t, p, f.Date)
		got, figures := f, want.Figures()
		got.Call, got.Wrap = figures.Call, figures.Wrap // their zones are loaded anew; see below
		if !reflect.DeepEqual(got, figures) || !f.Call.Equal(want.Call) || !f.Wrap.Equal(want.Wrap) || !f.Computed() {
			t.Errorf("%s: ranked %+v\nplaced %+v", f.Date, f, figures)
		}
		if f.KeptShare() != want.LightKept(p) || f.Length() != want.Length() {
			t.Errorf("%s: keeps %v in %v, the day %v in %v", f.Date, f.KeptShare(), f.Length(), want.LightKept(p), want.Length())
		}
		if i > 0 && f.Loss.Total() < ranked[i-1].Loss.Total() {
			t.Errorf("%s loses less than %s before it", f.Date, ranked[i-1].Date)
		}
	}
}

// TestRankOnAnyMachine: many dates give the same ranking on one core and on four, and none says it is better than it is.
func TestRankOnAnyMachine(t *testing.T) {
	p, dates := freeForAll(t), datesFrom(t, "2027-01-03", fewDates+2, 30)
	var one, four []Figures
	onCores(1, func() { one, _ = Rank(context.Background(), p, dates, nil) })
	onCores(4, func() { four, _ = Rank(context.Background(), p, dates, nil) })
	if len(one) != len(dates) || len(four) != len(dates) {
		t.Fatalf("%d and %d dates ranked of %d", len(one), len(four), len(dates))
	}
	for i := range one {
		if one[i].Date != four[i].Date || one[i].Loss != four[i].Loss || one[i].Gap != four[i].Gap {
			t.Errorf("place %d: %s loses %v on one core, %s %v on four", i, one[i].Date, one[i].Loss, four[i].Date, four[i].Loss)
		}
	}
	for _, f := range one[:3] {
		if best := placed(t, p, f.Date).Loss.Total(); best < f.Loss.Total()-f.Gap-1e-6 || f.Loss.Total() < best-1e-6 {
			t.Errorf("%s loses %v with a gap of %v, and %v at best", f.Date, f.Loss.Total(), f.Gap, best)
		}
	}
}

// TestEffort: a search that ends early ends at the same step each time, with a legal day and an honest bound.
func TestEffort(t *testing.T) {
	p, on := freeForAll(t), date(t, "2027-10-16")
	_, m := begin(p, on)
	best, err := place.Solve(context.Background(), m.problem, nil)
	if err != nil || best.Status != place.Proven {
		t.Fatalf("%v, %v", best.Status, err)
	}
	early := 0
	for _, looks := range []int{0, 1, 5, 25, 100} {
		r, err := place.Solve(&effort{Context: context.Background(), looks: looks}, m.problem, nil)
		again, _ := place.Solve(&effort{Context: context.Background(), looks: looks}, m.problem, nil)
		if err != nil || !reflect.DeepEqual(r, again) {
			t.Errorf("%d looks: %+v, then %+v, %v", looks, r, again, err)
		}
		if loss, err := place.Judge(m.problem, r); err != nil || loss != r.Loss {
			t.Errorf("%d looks: judged %v, %v", looks, loss, err)
		}
		if total := best.Loss.Total(); r.Bound > total || r.Loss.Total() < total {
			t.Errorf("%d looks: %d to %d, at best %d", looks, r.Bound, r.Loss.Total(), total)
		}
		if r.Status != place.Proven {
			early++
		}
	}
	if early == 0 {
		t.Error("no number of looks ended the search early")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := (&effort{Context: ctx, looks: 5}).Err(); !errors.Is(err, context.Canceled) {
		t.Errorf("an ended context under it says %v", err)
	}
}

// TestRankCancelled: it stops with what it has, says so, and hands over nothing it does not return.
func TestRankCancelled(t *testing.T) {
	p, dates := demo(t), datesFrom(t, "2027-01-01", 60, 1)
	ctx, cancel := context.WithCancel(context.Background())
	came := 0
	ranked, err := Rank(ctx, p, dates, func(Figures) {
		came++
		cancel()
	})
	if !errors.Is(err, context.Canceled) || len(ranked) != came || came == 0 || came > 1+2*runtime.GOMAXPROCS(0) {
		t.Errorf("%d ranked, %d came, %v", len(ranked), came, err)
	}
	if ranked, err := Rank(ctx, p, dates, nil); !errors.Is(err, context.Canceled) || len(ranked) != 0 {
		t.Errorf("after the end, %d ranked, %v", len(ranked), err)
	}
}

// TestRankWhatCannotBe: too many dates are an error; a plan that lacks its position has figures that say so, last.
func TestRankWhatCannotBe(t *testing.T) {
	p := demo(t)
	if _, err := Rank(context.Background(), p, datesFrom(t, "2027-01-01", MostDates+1, 1), nil); err == nil {
		t.Error("367 dates are ranked")
	}
	ranked, err := Rank(context.Background(), p, nil, nil)
	if err != nil || len(ranked) != 0 {
		t.Errorf("no dates: %v, %v", ranked, err)
	}
	p.Property.Position = nil
	ranked, err = Rank(context.Background(), p, Candidates(p), nil)
	if err != nil || len(ranked) != 3 {
		t.Fatalf("%v, %v", ranked, err)
	}
	for _, f := range ranked {
		if f.Computed() || len(f.Problems) == 0 || f.Date.IsZero() {
			t.Errorf("without a position: %+v", f)
		}
	}
}

// TestDatesInOrder: however many cores there are, the days come in the order of the candidates.
func TestDatesInOrder(t *testing.T) {
	p := demo(t)
	p.Shooting.Dates = append(datesFrom(t, "2027-06-01", 6, 11), p.Shooting.Dates...)
	for _, cores := range []int{1, 2, 5} {
		var got []plan.Date
		var err error
		onCores(cores, func() {
			err = Dates(context.Background(), p, func(d Day) { got = append(got, d.Date) })
		})
		if err != nil || !slices.Equal(got, Candidates(p)) {
			t.Errorf("on %d cores: %v, %v", cores, got, err)
		}
	}
}

// TestStreamFails: the first failure stops it, and what was begun is waited for.
func TestStreamFails(t *testing.T) {
	bad := errors.New("bad")
	got := 0
	err := stream(context.Background(), 100, func(i int) (int, error) {
		if i == 3 {
			return 0, bad
		}
		return i, nil
	}, func(i, v int) {
		if i != v {
			t.Errorf("%d came as %d", v, i)
		}
		got++
	})
	if !errors.Is(err, bad) || got > 99 {
		t.Errorf("%v after %d", err, got)
	}
}

// BenchmarkYear ranks 365 dates: of the demo, whose people have only some days, and with everybody always free.
func BenchmarkYear(b *testing.B) {
	dates := datesFrom(b, "2027-01-01", 365, 1)
	for name, p := range map[string]*plan.Plan{"demo": demo(b), "everybody free": freeForAll(b)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Rank(context.Background(), p, dates, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkLight makes the light and the model of one date, without placing.
func BenchmarkLight(b *testing.B) {
	p, on := demo(b), date(b, "2027-10-16")
	b.ReportAllocs()
	for b.Loop() {
		begin(p, on)
	}
}
