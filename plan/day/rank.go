package day

import (
	"cmp"
	"context"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"eavelight/plan"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// MostDates is how many dates can be ranked at once.
const MostDates = 366

// fewDates are so few that each may have the search's full effort.
const fewDates = 10

// Rank places the plan on every date of a list, on all cores, and hands each day's figures over as they come, in any order but
// one at a time. Then it returns them, the one that loses least first, the earlier of equals, and those that could not be
// computed last. Where the dates are many, each has only some of the search's effort: its Gap is honest all the same, and
// Place may find better on the date that is shown.
//
// The same plan and dates give the same ranking, on any machine. When the context ends, it returns what it has by then and
// the context's error.
func Rank(ctx context.Context, p *plan.Plan, dates []plan.Date, each func(Figures)) ([]Figures, error) {
	if len(dates) > MostDates {
		return nil, say.Error("%d dates are more than can be ranked at once (%d at most)", len(dates), MostDates)
	}
	looks := math.MaxInt
	if len(dates) > fewDates {
		looks = rankLooks
	}
	one := func(i int) (Figures, error) {
		d, m := begin(p, dates[i])
		if m == nil {
			return d.Figures(), nil
		}
		r, err := look(ctx, m.problem, looks)
		if err != nil {
			return Figures{}, err
		}
		m.read(r, &d)
		return d.Figures(), nil
	}
	var out []Figures
	err := stream(ctx, len(dates), one, func(_ int, f Figures) {
		out = append(out, f)
		if each != nil {
			each(f)
		}
	})
	slices.SortFunc(out, func(a, b Figures) int {
		return cmp.Or(
			cmp.Compare(len(a.Problems), len(b.Problems)),
			cmp.Compare(a.Loss.Total(), b.Loss.Total()),
			cmp.Compare(a.Date.String(), b.Date.String()),
		)
	})
	return out, err
}

// How often the search may look whether it is to end: a measure of its effort that is the same on every machine. Fourteen
// scenes with little to hold them take 200 to 400 looks until they are proven.
const (
	rankLooks    = 400  // for one of many dates
	tellLooks    = 4000 // for one thing that is told of a day
	explainLooks = 8000 // for why the scenes are left out that a day leaves out; those that come last may be told no reason
)

// effort is a context for the solver that ends after a number of looks at it. The solver looks at regular steps of its own
// work, on one goroutine, so the same problem ends at the same step, as it would not by a clock.
type effort struct {
	context.Context
	looks int
}

// look solves a problem with so much effort at most.
func look(ctx context.Context, p place.Problem, looks int) (place.Result, error) {
	r, err := place.Solve(&effort{ctx, looks}, p, nil)
	if r.Status == place.Cancelled && ctx.Err() == nil {
		r.Status = place.Within
	}
	return r, err
}

// Err counts the look.
func (e *effort) Err() error {
	if e.looks--; e.looks < 0 {
		return context.DeadlineExceeded
	}
	return e.Context.Err()
}

// stream does n things on all cores and hands over what comes of them as it comes, on the caller's goroutine. What was begun
// when the context ends or something fails is still handed over. The error is the first failure, or the context's.
func stream[T any](ctx context.Context, n int, do func(i int) (T, error), each func(i int, t T)) error {
	type made struct {
		i   int
		t   T
		err error
	}
	out := make(chan made)
	var next atomic.Int64
	var failed atomic.Bool
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		workers.Go(func() {
			for i := int(next.Add(1)) - 1; i < n && ctx.Err() == nil && !failed.Load(); i = int(next.Add(1)) - 1 {
				t, err := do(i)
				out <- made{i, t, err}
			}
		})
	}
	go func() {
		workers.Wait()
		close(out)
	}()
	var err error
	for one := range out {
		if one.err != nil {
			err = cmp.Or(err, one.err)
			failed.Store(true)
			continue
		}
		each(one.i, one.t)
	}
	return cmp.Or(err, ctx.Err())
}
