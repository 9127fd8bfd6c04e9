package place

import (
	"context"
	"fmt"
	"slices"
)

// Widths of the walks, in labels a layer.
const (
	firstWidth  = 8
	quickWidth  = 8 // while many calls are still to be told apart
	narrowWidth = 64
	widestWidth = 128 << 10
)

// Limits of one Solve, together a few seconds at most. A state counts as much as stateCells cells for each scene of the day.
const (
	firstCells = 1 << 20 // of one table at the first attempt, on a day of usualSlots
	usualSlots = 288
	tableCells = 8 << 20  // of one table later
	allCells   = 40 << 20 // of all tables
	stateCells = 2
	allTries   = 24 << 20 // labels looked at
)

// Solve finds the order and the starts that lose the least. It calls progress, if that is not nil, with each better
// placement as it is found, on its own goroutine and before it returns; the Results it gives away are not changed later.
//
// The same problem gives the same Result, always: the search is limited by counts, not by a clock. When those counts are
// reached, or the context ends first, it returns the best placement so far with an honest Bound and the Status that says
// so: a first plan at least, even where the context ended before the call. The error is that of Validate; Solve has no other.
func Solve(ctx context.Context, p Problem, progress func(Result)) (Result, error) {
	if err := p.Validate(); err != nil {
		return Result{}, fmt.Errorf("place: %w", err)
	}
	r := newRun(ctx, &p)
	r.progress = progress
	r.raise(r.m.simpleBound())
	r.follow(p.Hint)
	if len(r.best.Order) == 0 || !r.m.settled() {
		firstPlans(context.WithoutCancel(ctx), r.m, firstWidth, r.found) // short enough, and an empty day helps nobody
	}
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
	floor    int64 // a bound on the placements of the starts that were too many to look at
	width    int   // labels a layer in a walk that is to be quick
	room     int   // cells that one table may have
	cells    int   // that tables may still have
	tries    int   // labels that may still be looked at
	limit    int64 // only placements that lose less are of use; 0 is no limit
}

// newRun knows the empty day.
func newRun(ctx context.Context, p *Problem) *run {
	r := &run{ctx: ctx, m: newModel(p), floor: inf, cells: allCells, tries: allTries, room: tableCells, width: narrowWidth}
	r.offer(r.m.empty())
	return r
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

// raise takes a bound on every placement but those of the starts that were too many to look at. What is lost is whole grains,
// as long as nothing is left out at any price.
func (r *run) raise(bound int64) {
	bound = min(bound, r.floor, r.target())
	if r.loss() < Never {
		bound = min((bound+r.m.grain-1)/r.m.grain*r.m.grain, r.loss())
	}
	r.bound = max(r.bound, bound)
}

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

// prove proves the best placement or comes as near as the limits allow: with small tables, with those near the best
// placement, with arrivals taken apart, and with big ones.
func (r *run) prove() {
	open := func() bool { return r.bound < r.loss() && r.ctx.Err() == nil }
	small := min(tableCells, firstCells*max(1, r.m.p.Slots/usualSlots))
	r.narrow(small, r.loss(), allCells/10)
	if open() {
		r.improve(nearRounds)
		r.narrow(small, r.loss(), allCells/10)
	}
	if open() && r.m.widest(r.m.arrivals()) >= 0 {
		r.stays()
	}
	if open() {
		r.narrow(tableCells, r.bound+(r.loss()-r.bound+1)/2, allCells)
	}
}

// narrow looks for placements that lose less than a limit, with tables of so many cells, as long as some are left to spend.
// None raises the bound to the limit, and the best of them is proven. A lower limit makes smaller tables: if it was too high
// for them, half of what is above the bound comes next, and if it was not, half of what is above the limit. Two in a row
// that are too high end it.
func (r *run) narrow(room int, limit int64, spend int) {
	kept := max(0, r.cells-spend)
	r.cells -= kept
	r.room = room
	for failed := 0; failed < 2 && r.cells > 0 && r.bound < r.loss() && r.ctx.Err() == nil; {
		r.limit = limit
		most := r.loss()
		if r.attempt() {
			failed = 0
		} else {
			most, failed = limit, failed+1
		}
		limit = r.bound + (min(most, r.loss())-r.bound+1)/2
	}
	r.cells = max(0, r.cells) + kept
}

// attempt proves that no placement loses less than the target, finding better ones as it goes. It is false if a limit came
// first.
func (r *run) attempt() bool {
	var list []start
	list, r.floor = r.m.starts(r.target())
	loose, bound := r.table(list, nil, Span{r.m.p.Earliest, r.m.p.Latest + 1})
	r.raise(bound)
	if loose != nil {
		r.split(list, loose)
	}
	return r.bound >= r.target()
}

// table builds a table and returns a bound on the placements that it covers. The table is nil if it could not be finished.
func (r *run) table(list []start, prior *table, calls Span) (t *table, bound int64) {
	t = newTable(r.m, list, prior, calls, r.target(), min(r.room, r.cells))
	whole, bound := t.forward(r.ctx)
	r.cells -= t.size()
	if whole {
		bound, whole = t.backward(r.ctx)
	}
	if !whole {
		return nil, bound
	}
	return t, bound
}

// span is a table and the least that a placement with one of its calls can lose.
type span struct {
	t     *table
	bound int64
}

// split proves the table's placements, or takes its calls in two halves and does the same with each, the least bound first.
// The calls matter because a table knows of a call only the latest it can have been: with few calls to tell apart, it knows
// the longest day and the first stretch without a meal exactly.
func (r *run) split(list []start, root *table) {
	stuck := inf
	queue := []span{{root, r.bound}}
	if r.bound < r.target() && len(r.m.modes) > 1 {
		if tight, bound := r.table(list, root, root.alive()); tight != nil {
			queue[0] = span{tight, max(bound, r.bound)}
		}
	}
	for len(queue) > 0 && r.ctx.Err() == nil {
		var s span
		s, queue = least(queue, func(s span) int64 { return s.bound })
		r.raise(min(stuck, s.bound))
		if s.bound >= r.target() {
			return
		}
		calls := s.t.alive()
		width := quickWidth
		if calls.To-calls.From <= 2 {
			width = r.width
		}
		cut := labels(r.ctx, s.t, r.target(), width, &r.tries, r.found)
		if cut >= r.target() {
			continue
		}
		if calls.To-calls.From <= 1 {
			stuck = min(stuck, max(s.bound, r.widen(s.t)))
			continue
		}
		mid := (calls.From + calls.To) / 2
		for _, half := range []Span{{calls.From, mid}, {mid, calls.To}} {
			t, bound := r.table(list, s.t, half)
			if t == nil {
				stuck = min(stuck, s.bound)
			} else if bound = max(bound, s.bound); bound < r.target() {
				queue = append(queue, span{t, bound})
			}
		}
	}
	if len(queue) == 0 {
		r.raise(stuck)
	}
}

// widen walks more and more labels until none that matters is cut, and returns the bound reached.
func (r *run) widen(t *table) int64 {
	cut := int64(0)
	for width := 8 * r.width; width <= widestWidth && cut < r.target() && r.tries > 0 && r.ctx.Err() == nil; width *= 8 {
		cut = max(cut, labels(r.ctx, t, r.target(), width, &r.tries, r.found))
	}
	return cut
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
	var gaps []gap
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
		step := m.modes[m.scenes[before.scene].mode].steps[l.scene]
		r.Loss.Moves += int64(step.move) * m.p.MoveCost
		gaps = append(gaps, gap{int(before.free), int(l.begin - step.lead), int(l.meals - before.meals), before.meal()})
	}
	if mealAfter {
		r.Wrap += m.p.Meal.Length
		gaps = append(gaps, gap{int(last.free), int(last.free) + m.p.Meal.Length, 1, last.meal()})
	}
	r.Meals = m.mealTimes(gaps, r.Wrap)
	r.Loss.Length = int64(r.Wrap-r.Call) * m.p.DayCost
	r.Loss.Overtime = m.overtime(r.Wrap - r.Call)
	r.Loss.Waiting = m.waiting(&r)
	return r
}

// waiting is what the placement's waiting costs: each group's time from its first start to its last end, less its own
// shooting and the meals.
func (m *model) waiting(r *Result) int64 {
	sum := int64(0)
	for g, group := range m.groups {
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
		sum += group.cost * int64(to-from-busy)
	}
	return sum
}
