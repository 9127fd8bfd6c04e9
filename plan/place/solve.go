package place

import (
	"context"
	"fmt"
	"math/bits"
	"slices"
)

// Widths of the walks and the most labels that one may keep in a layer before the search gives up proving.
const (
	firstWidth  = 48
	wideLabels  = 40 << 10 // shared among the layers of the wide first walk
	narrowWidth = 64
	widestWidth = 128 << 10
)

// Solve finds the order and the starts that lose the least. It calls progress, if that is not nil, with each better
// placement as it is found, on its own goroutine and before it returns; the Results it gives away are not changed later.
//
// The same problem gives the same Result, always: the search is limited by counts, not by a clock. When those counts are
// reached, or the context ends first, it returns the best placement so far with an honest Bound and the Status that says
// so. The error is that of Validate; Solve has no other.
func Solve(ctx context.Context, p Problem, progress func(Result)) (Result, error) {
	if err := p.Validate(); err != nil {
		return Result{}, fmt.Errorf("place: %w", err)
	}
	r := &run{ctx: ctx, m: newModel(&p), progress: progress}
	r.offer(r.m.empty())
	base, _ := r.m.simpleChoice()
	r.raise(base)
	firstPlans(ctx, r.m, firstWidth, r.found)
	r.prove()
	return r.result(), nil
}

// run is what one Solve knows so far.
type run struct {
	ctx      context.Context
	m        *model
	progress func(Result)
	best     Result
	has      bool
	bound    int64
	limit    int64 // only placements that lose less are of use; 0 is no limit
}

// offer takes a placement if it is better than the best.
func (r *run) offer(found Result) {
	if r.has && found.Loss.Total() >= r.best.Loss.Total() {
		return
	}
	first := !r.has
	r.best, r.has = found, true
	if r.progress != nil && !first {
		r.progress(r.result())
	}
}

func (r *run) found(way []label, mealAfter bool) { r.offer(r.m.placement(way, mealAfter)) }

// raise takes a bound on every placement.
func (r *run) raise(bound int64) { r.bound = max(r.bound, bound) }

func (r *run) loss() int64 { return r.best.Loss.Total() }

// target is what a placement must lose less than to be of use.
func (r *run) target() int64 {
	if r.limit > 0 {
		return min(r.limit, r.loss())
	}
	return r.loss()
}

// result is the best placement with what is known of it.
func (r *run) result() Result {
	out := r.best
	out.Start, out.Order, out.Meals = slices.Clone(out.Start), slices.Clone(out.Order), slices.Clone(out.Meals)
	out.Bound = min(r.bound, r.loss())
	switch {
	case out.Bound == r.loss():
		out.Status = Proven
	case r.ctx.Err() != nil:
		out.Status = Cancelled
	}
	return out
}

// prove builds the tables and walks labels through them, until the best placement is proven or a limit is reached.
func (r *run) prove() {
	list, floor := r.m.starts(r.target())
	loose, ok := r.table(list, nil, floor)
	if !ok {
		firstPlans(r.ctx, r.m, wideLabels/max(1, bits.OnesCount64(r.m.open)), r.found)
		return
	}
	r.labels(loose, floor, narrowWidth)
	last := loose
	if len(r.m.p.Moves) > 1 && r.bound < r.target() {
		if tight, ok := r.table(list, loose, floor); ok {
			last = tight
		}
	}
	for width := narrowWidth; width <= widestWidth && r.bound < r.target() && r.ctx.Err() == nil; width *= 8 {
		r.labels(last, floor, width)
	}
}

// table builds a table and raises the bound by what it shows. It is false if the table could not be finished.
func (r *run) table(list []start, prior *table, floor int64) (*table, bool) {
	t := newTable(r.m, list, prior, r.target())
	whole, frontier := t.forward(r.ctx)
	if !whole {
		r.raise(min(frontier, floor, r.target()))
		return nil, false
	}
	bound, whole := t.backward(r.ctx)
	if whole {
		r.raise(min(bound, floor, r.target()))
	}
	return t, whole
}

// labels walks labels of a width through a table and raises the bound by what the walk did not have to leave aside.
func (r *run) labels(t *table, floor int64, width int) {
	cut := labels(r.ctx, t, r.target(), width, r.found)
	r.raise(min(cut, floor, r.target()))
}

// empty is the day with every scene left out.
func (m *model) empty() Result {
	r := Result{Start: make([]int, len(m.scenes)), Call: m.p.Earliest, Wrap: m.p.Earliest}
	for i := range r.Start {
		r.Start[i] = -1
		r.Loss.LeftOut += m.p.Scenes[i].Leave
	}
	return r
}

// placement turns a way into a Result with its losses counted afresh.
func (m *model) placement(way []label, mealAfter bool) Result {
	r := m.empty()
	last := way[len(way)-1]
	r.Call, r.Wrap = int(last.call), int(last.free)+m.p.PackUp
	for i, l := range way {
		s := &m.p.Scenes[l.scene]
		r.Start[l.scene] = int(l.begin)
		r.Order = append(r.Order, int(l.scene))
		r.Loss.Light += s.Light[l.begin]
		r.Loss.LeftOut -= s.Leave
		if i == 0 {
			continue
		}
		before := way[i-1]
		move := m.move(m.p.Scenes[before.scene].Space, int(l.scene))
		r.Loss.Moves += int64(move) * m.p.MoveCost
		full := int(l.begin) - s.Setup - move
		r.Meals = append(r.Meals, m.mealStarts(int(before.since), int(before.free), full, int(l.meals-before.meals))...)
	}
	if mealAfter {
		r.Meals = append(r.Meals, Span{int(last.free), int(last.free) + m.p.Meal.Length})
		r.Wrap += m.p.Meal.Length
	}
	r.Loss.Length = int64(r.Wrap-r.Call) * m.p.DayCost
	r.Loss.Waiting = m.waiting(&r)
	return r
}

// waiting is what the placement's waiting costs: each group's time from its first start to its last end, less its own
// shooting and the meals.
func (m *model) waiting(r *Result) int64 {
	sum := int64(0)
	for g, weight := range m.weights {
		from, to, busy := -1, -1, 0
		for _, j := range r.Order {
			if m.scenes[j].who&(1<<g) == 0 {
				continue
			}
			if from < 0 {
				from = r.Start[j]
			}
			to, busy = r.Start[j]+m.p.Scenes[j].Shoot, busy+m.p.Scenes[j].Shoot
		}
		for _, meal := range r.Meals {
			if from <= meal.From && meal.To <= to {
				busy += m.p.Meal.Length
			}
		}
		sum += weight * int64(to-from-busy)
	}
	return sum
}
