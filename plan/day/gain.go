package day

import (
	"cmp"
	"context"
	"slices"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/place"
)

// Gain is something that would make a better day, and by how much.
type Gain struct {
	Change
	Points  float64 // that the day would lose less
	Figures Figures // of the day that it gives
	// Second is the further day, where the gain is a second date (SecondDate): Scenes are shot on it, Figures are what
	// is left of this day.
	Second *SecondDay
}

// SecondDay is what is shot on a further date.
type SecondDay struct {
	Scenes  []plan.ID
	Figures Figures
}

// SecondDate is a further day, on Change.Date, for scenes that are left out or lose light on the first. Apply can't do it.
const SecondDate ChangeKind = "second date"

// Gains tells what more would buy, the largest gain first: another hour of the day, somebody's time all day, kit of its own
// in two spaces or in all, one person's waiting ignored, a second one of the candidate dates. Each is verified by placing
// the changed plan, and told only where it gains more than a point or a hundredth, and more than a better search could.
// When the context ends, it returns what it has by then and the context's error.
func (d Day) Gains(ctx context.Context) ([]Gain, error) {
	if d.made == nil || len(d.Scenes) == 0 {
		return nil, nil
	}
	changes := d.purchases()
	var out []Gain
	found := make([]*Gain, len(changes))
	err := stream(ctx, len(changes), func(n int) (*Gain, error) {
		if changes[n].Kind == SecondDate {
			return d.secondGain(ctx, changes[n]), nil
		}
		return d.gain(ctx, changes[n]), nil
	}, func(n int, g *Gain) { found[n] = g })
	for _, g := range found {
		if g != nil && g.Points > d.Gap && noticeable(g.Points, d.Loss.Total()) {
			out = append(out, *g)
		}
	}
	slices.SortStableFunc(out, func(a, b Gain) int { return cmp.Compare(b.Points, a.Points) })
	return out, err
}

// noticeable is what is worth telling of a loss, in points.
func noticeable(points, of float64) bool { return points > 1 || points > 0.01*of }

// purchases are the changes that could gain something.
func (d Day) purchases() []Change {
	m := d.made.model
	out := []Change{{Kind: MoreEvening, By: anHour}, {Kind: MoreMorning, By: anHour}}
	for _, who := range m.people {
		if _, whole := people.Free(who, d.Date); !whole {
			out = append(out, Change{Kind: FreeAllDay, Person: who.ID})
		}
		if pr, _ := d.Presence(who.ID); pr.Waits > 0 {
			out = append(out, Change{Kind: NoWaiting, Person: who.ID})
		}
	}
	pairs := 0
	for _, move := range d.Moves {
		same := func(c Change) bool {
			return c.From == move.From && c.To == move.To || c.From == move.To && c.To == move.From
		}
		if move.Minutes() > 0 && !slices.ContainsFunc(out, same) {
			out = append(out, Change{Kind: NoMove, From: move.From, To: move.To})
			pairs++
		}
	}
	if pairs > 1 {
		out = append(out, Change{Kind: NoMoves})
	}
	for _, date := range Candidates(m.plan) {
		if date != d.Date {
			out = append(out, Change{Kind: SecondDate, Date: date})
		}
	}
	for i := range out {
		if out[i].Date.IsZero() {
			out[i].Date = d.Date
		}
	}
	return out
}

// gain places the changed plan. Waiting that is ignored is not counted before either: what it gains is what else becomes
// better.
func (d Day) gain(ctx context.Context, c Change) *Gain {
	m := d.made.with(c.Apply, c.Date)
	r, ok := m.solve(ctx)
	if !ok {
		return nil
	}
	before := d.Loss.Total()
	if c.Kind == NoWaiting {
		loss, err := place.Judge(m.problem, d.made.result)
		if err != nil {
			return nil
		}
		before = inPoints(loss).Total()
	}
	f := m.figures(r)
	return &Gain{Change: c, Points: before - f.Loss.Total(), Figures: f}
}

// solve is look for a whole model; ok is false where it could not be solved, or the context ended.
func (m *model) solve(ctx context.Context) (r place.Result, ok bool) {
	if m.problem.Validate() != nil {
		return r, false
	}
	r, err := look(ctx, m.problem, tellLooks)
	return r, err == nil && ctx.Err() == nil
}

// secondGain moves to a second date what is left out, or that and what loses light, whichever gains more.
func (d Day) secondGain(ctx context.Context, c Change) *Gain {
	var left, poor []plan.ID
	for i, s := range d.made.scenes {
		at := d.made.result.Start[i]
		switch {
		case at < 0:
			left, poor = append(left, s.ID), append(poor, s.ID)
		case noticeable(float64(d.made.problem.Scenes[i].Light[at])/point, d.Loss.Total()):
			poor = append(poor, s.ID)
		}
	}
	var best *Gain
	for _, scenes := range slices.CompactFunc([][]plan.ID{left, poor}, slices.Equal) {
		if g := d.split(ctx, c, scenes); g != nil && (best == nil || g.Points > best.Points) {
			best = g
		}
	}
	return best
}

// split places some scenes on another date and the rest on this one. Scenes that find no place there stay here. It is nil
// where the scenes' order forbids it, or a scene would be left out that is not.
func (d Day) split(ctx context.Context, c Change, scenes []plan.ID) *Gain {
	second := func(s plan.Scene) bool { return slices.Contains(scenes, s.ID) }
	if len(scenes) == 0 || !d.orderAllows(c.Date, second) {
		return nil
	}
	there := d.made.with(func(p *plan.Plan) { removeScenes(p, func(s plan.Scene) bool { return !second(s) }) }, c.Date)
	b, ok := there.solve(ctx)
	if !ok {
		return nil
	}
	further := there.figures(b)
	if len(further.LeftOut) > 0 {
		return d.split(ctx, c, lacking(scenes, further.LeftOut))
	}
	here := d.made.with(func(p *plan.Plan) { removeScenes(p, second) }, d.Date)
	a, ok := here.solve(ctx)
	if !ok {
		return nil
	}
	first, base := here.figures(a), d.Figures()
	if len(lacking(first.LeftOut, base.LeftOut)) > 0 {
		return nil
	}
	w := d.made.plan.Shooting.Weights
	points := base.Loss.Total() - first.Loss.Total() - further.Loss.Total() - w.Day - w.Again*float64(d.comeTwice(first, further))
	return &Gain{Change: c, Points: points, Figures: first, Second: &SecondDay{scenes, further}}
}

// orderAllows tells whether some scenes can be shot on another date, as far as their order with the rest goes.
func (d Day) orderAllows(date plan.Date, second func(plan.Scene) bool) bool {
	for _, s := range d.made.scenes {
		for _, id := range s.After {
			before, _ := d.made.plan.Scene(id)
			if second(s) != second(before) && second(s) == date.Before(d.Date) {
				return false
			}
		}
	}
	return true
}

// comeTwice counts the people, but for the crew, who are called on both days.
func (d Day) comeTwice(a, b Figures) int {
	n := 0
	for _, q := range a.People {
		who, _ := d.made.plan.Person(q.Person)
		if who.Role != plan.Crew && slices.ContainsFunc(b.People, func(o PersonWait) bool { return o.Person == q.Person }) {
			n++
		}
	}
	return n
}

func removeScenes(p *plan.Plan, gone func(plan.Scene) bool) {
	for i := len(p.Scenes) - 1; i >= 0; i-- {
		if gone(p.Scenes[i]) {
			p.RemoveScene(i)
		}
	}
}
