package day

import (
	"context"
	"slices"

	"eavelight/plan"
	"eavelight/plan/place"
)

// Waiting is why one person waits, and whether they need.
type Waiting struct {
	Person  plan.ID
	Waits   plan.Minutes
	Between []Wait   // in the order of the day
	Without *Without // nil where the search could not tell
}

// Wait is the waiting between two scenes of one person.
type Wait struct {
	After, Before plan.ID      // the scenes
	Waits         plan.Minutes // which is all of Filled, but for what of it the person is away
	Filled        []Filling    // with what, in order; a meal is not waiting
}

// Filling is a stretch of a wait in which one thing goes on.
type Filling struct {
	plan.Span
	Kind   FillingKind
	Scene  plan.ID // the one set up or shot, or the next one after idle time
	Sooner *Shift  // of idle time: the best day with that scene made so much sooner; nil where the search could not tell
}

// FillingKind is what goes on while somebody waits.
type FillingKind string

// The kinds of Filling. Nobody waits through a meal.
const (
	Eating    FillingKind = "meal"
	Shooting  FillingKind = "shooting"
	SettingUp FillingKind = "set-up"
	Moving    FillingKind = "move"
	Idle      FillingKind = "idle"
)

// Without is the best day in which a person waits as little as can be, with all the scenes that this day has.
type Without struct {
	Waits  plan.Minutes // what is left
	Cost   Difference   // what that day loses more than this one
	Proven bool         // they can't wait less
}

// WhyWaiting tells for everybody who waits, in the plan's order, what they wait for, and what it would cost to spare them:
// verified by placing the day again with their waiting made dear. When the context ends, it returns those done by then and
// the context's error.
func (d Day) WhyWaiting(ctx context.Context) ([]Waiting, error) {
	if d.made == nil {
		return nil, nil
	}
	var out []Waiting
	for _, pr := range d.People {
		if pr.Waits > 0 {
			out = append(out, Waiting{Person: pr.Person, Waits: pr.Waits})
		}
	}
	base, line := d.Figures(), d.timeline()
	err := stream(ctx, len(line), func(n int) (*Shift, error) { return d.sooner(ctx, base, line[n]) },
		func(n int, s *Shift) { line[n].Sooner = s })
	if err == nil {
		err = stream(ctx, len(out), func(i int) (*Without, error) { return d.without(ctx, base, out[i].Person) },
			func(i int, w *Without) { out[i].Without = w })
	}
	if err != nil {
		out = slices.DeleteFunc(out, func(w Waiting) bool { return w.Without == nil })
	}
	for i := range out {
		pr, _ := d.Presence(out[i].Person)
		out[i].Between = pr.between(line)
	}
	return out, err
}

// sooner places the day with the scene after idle time made that much sooner.
func (d Day) sooner(ctx context.Context, base Figures, f Filling) (*Shift, error) {
	slots := int(f.Minutes()) / d.made.grid
	if f.Kind != Idle || slots == 0 {
		return nil, nil
	}
	i := slices.IndexFunc(d.made.scenes, func(s plan.Scene) bool { return s.ID == f.Scene })
	return d.shift(ctx, base, i, 0, d.made.result.Start[i]-slots)
}

// without places the day with one person's waiting made dearer than all that the day loses.
func (d Day) without(ctx context.Context, base Figures, person plan.ID) (*Without, error) {
	p := d.keeping()
	q := slices.IndexFunc(d.made.people, func(who plan.Person) bool { return who.ID == person })
	p.People = slices.Clone(p.People)
	p.People[q].Wait = dear(p)
	r, err := look(ctx, p, tellLooks)
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	day, err := d.placedBy(r)
	if err != nil {
		return nil, err
	}
	pr, _ := day.Presence(person)
	return &Without{Waits: pr.Waits, Cost: Compare(base, day.Figures()), Proven: r.Status == place.Proven}, nil
}

// keeping is the problem of a day that has at least the scenes of this one.
func (d Day) keeping() place.Problem {
	p := d.made.problem
	p.Scenes = slices.Clone(p.Scenes)
	for _, i := range d.made.result.Order {
		p.Scenes[i].Leave = place.Never
	}
	return p
}

// dear is what a slot must cost to weigh more than anything else that a day can gain, but for its scenes. It leaves room
// for a whole day of such slots, for everybody, under the price of a scene.
func dear(p place.Problem) int64 {
	return place.Never / int64(16*p.Slots*max(1, len(p.People)))
}

// timeline is what goes on between the first set-up and the last shooting, with the idle time in between.
func (d Day) timeline() []Filling {
	var goes []Filling
	for _, m := range d.Moves {
		goes = append(goes, Filling{Span: m.Span, Kind: Moving})
	}
	for _, m := range d.Meals {
		goes = append(goes, Filling{Span: m, Kind: Eating})
	}
	for _, s := range d.Scenes {
		goes = append(goes, Filling{Span: plan.Span{From: s.Setup, To: s.Start}, Kind: SettingUp, Scene: s.Scene},
			Filling{Span: plan.Span{From: s.Start, To: s.End}, Kind: Shooting, Scene: s.Scene})
	}
	slices.SortStableFunc(goes, func(a, b Filling) int { return a.From.Compare(b.From) })
	var out []Filling
	for i, g := range goes {
		if i > 0 && g.From.After(goes[i-1].To) {
			next := slices.IndexFunc(goes[i:], func(g Filling) bool { return g.Scene != "" })
			if next >= 0 {
				out = append(out, Filling{Span: plan.Span{From: goes[i-1].To, To: g.From}, Kind: Idle, Scene: goes[i+next].Scene})
			}
		}
		if g.To.After(g.From) {
			out = append(out, g)
		}
	}
	return out
}

// between cuts from the timeline what fills the gaps between a person's scenes.
func (p Presence) between(line []Filling) []Wait {
	var out []Wait
	for i := 1; i < len(p.OnCamera); i++ {
		a, b := p.OnCamera[i-1], p.OnCamera[i]
		w := Wait{After: a.Scene, Before: b.Scene}
		for _, span := range p.Waiting {
			if span.From.Before(a.To) || span.To.After(b.From) {
				continue
			}
			w.Waits += span.Minutes()
			for _, f := range line {
				if f.From.Before(span.From) {
					f.From = span.From
				}
				if f.To.After(span.To) {
					f.To = span.To
				}
				if f.To.After(f.From) {
					w.Filled = append(w.Filled, f)
				}
			}
		}
		if w.Waits > 0 {
			out = append(out, w)
		}
	}
	return out
}
