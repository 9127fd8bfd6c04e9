package day

import (
	"context"
	"slices"
	"sort"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/place"
)

// mostFreed is how far a time or a length is changed at most to free a scene: what is more is another plan.
const mostFreed plan.Minutes = 4 * 60

// Freeing is what would give a scene that is left out its place.
type Freeing struct {
	Scene   plan.ID
	Changes []Freed // each by itself is enough; empty where no single change is
}

// Freed is a change by which a scene is placed, with the day that it gives. Nothing is left out then that was placed before.
type Freed struct {
	Change
	Figures Figures
}

// Freeing tells for every scene left out which single changes to the plan would free it: a scene of those that clash
// shortened, weighed or pinned less, a longer day, more of somebody's time, another candidate date. Minutes are the fewest on
// the grid, 4 hours at most. Each is verified by placing the changed plan. When the context ends, it returns what it has by
// then and the context's error.
func (d Day) Freeing(ctx context.Context) ([]Freeing, error) {
	if d.made == nil {
		return nil, nil
	}
	var out []Freeing
	type try struct {
		of int
		trial
	}
	var tries []try
	for _, left := range d.LeftOut {
		i := slices.IndexFunc(d.made.scenes, func(s plan.Scene) bool { return s.ID == left.Scene })
		if i < 0 {
			continue // it says too little to be placed at all
		}
		for _, t := range d.trials(i) {
			tries = append(tries, try{len(out), t})
		}
		out = append(out, Freeing{Scene: left.Scene})
	}
	found := make([]*Freed, len(tries))
	err := stream(ctx, len(tries), func(n int) (*Freed, error) {
		return d.free(ctx, tries[n].trial), nil
	}, func(n int, f *Freed) { found[n] = f })
	for n, f := range found {
		if f != nil {
			of := &out[tries[n].of]
			of.Changes = append(of.Changes, *f)
		}
	}
	if err != nil { // what was not tried can't be said to be no use
		out = slices.DeleteFunc(out, func(f Freeing) bool { return len(f.Changes) == 0 })
	}
	return out, err
}

// trial is a change to be tried for a scene, beside the scenes that it clashes with. Where most is set, the change is tried
// by as few minutes of the grid as will do, up to most.
type trial struct {
	scene  int
	others []int
	change Change
	most   plan.Minutes
}

// trials are the changes that could free a scene. A change that touches neither the scene nor those that it clashes with
// can't.
func (d Day) trials(i int) []trial {
	m, clash := d.made.model, d.made.clashes[i]
	var out []trial
	add := func(c Change, most plan.Minutes) {
		if c.Date.IsZero() {
			c.Date = d.Date
		}
		out = append(out, trial{i, clash.Others, c, most})
	}
	concerned := append([]int{i}, clash.Others...)
	if clash.Kind == place.None { // there is room; it is only not worth it
		for _, as := range heavier(m.scenes[i].Importance.Or()) {
			add(Change{Kind: Weigh, Scene: m.scenes[i].ID, As: as}, 0)
		}
	} else {
		for _, j := range concerned {
			m.sceneTrials(m.scenes[j], add)
		}
		for _, kind := range []ChangeKind{LongerDay, LaterWrap, EarlierCall} {
			add(Change{Kind: kind}, mostFreed)
		}
		for q, who := range m.people {
			if slices.ContainsFunc(concerned, func(j int) bool { return slices.Contains(m.problem.Scenes[j].People, q) }) {
				m.personTrials(who, add)
			}
		}
	}
	for _, date := range Candidates(m.plan) {
		if date != d.Date {
			add(Change{Kind: OtherDate, Date: date}, 0)
		}
	}
	return out
}

func heavier(i plan.Importance) []plan.Importance {
	at := slices.Index(plan.Importances, i)
	out := slices.Clone(plan.Importances[:max(at, 0)])
	slices.Reverse(out)
	return out
}

func (m *model) sceneTrials(s plan.Scene, add func(Change, plan.Minutes)) {
	if most := s.Shoot - plan.Minutes(m.grid); most > 0 {
		add(Change{Kind: Shorten, Scene: s.ID}, most)
	}
	if s.Importance.Or() == plan.Must && !s.PinnedOn(m.date) {
		add(Change{Kind: Weigh, Scene: s.ID, As: plan.Should}, 0)
	}
	if s.PinnedOn(m.date) {
		add(Change{Kind: Unpin, Scene: s.ID}, 0)
	}
	if s.From.IsSet() || s.To.IsSet() {
		add(Change{Kind: LiftLimits, Scene: s.ID}, 0)
	}
	for _, before := range s.After {
		add(Change{Kind: AnyOrder, Scene: s.ID, Other: before}, 0)
	}
}

func (m *model) personTrials(who plan.Person, add func(Change, plan.Minutes)) {
	free, whole := people.Free(who, m.date)
	if whole {
		return
	}
	if len(free) == 0 {
		add(Change{Kind: FreeAllDay, Person: who.ID}, 0)
	}
	for _, f := range free {
		if f.From.Minutes() > 0 {
			add(Change{Kind: FreeFrom, Person: who.ID, At: f.From}, mostFreed)
		}
		if f.To.Minutes() < plan.LastClock {
			add(Change{Kind: FreeUntil, Person: who.ID, At: f.To}, mostFreed)
		}
	}
}

// free tries a change, by the fewest minutes that do where it is by minutes, and is nil where it frees nothing.
func (d Day) free(ctx context.Context, t trial) *Freed {
	if t.most == 0 {
		return d.tried(ctx, t, true)
	}
	step := plan.Minutes(d.made.grid)
	steps := int(t.most / step)
	by := func(n int, whole bool) *Freed {
		t.change.By = plan.Minutes(n+1) * step
		return d.tried(ctx, t, whole)
	}
	best := by(steps-1, true)
	if best == nil {
		return nil
	}
	// The few scenes that clash tell quickly what is too little, nearly always: a further scene can give a meal its place.
	// Only the whole day tells what is enough.
	least := sort.Search(steps-1, func(n int) bool { return by(n, false) != nil })
	if f := by(least, true); f != nil {
		for n := least; f != nil; n-- {
			best, f = f, nil
			if n > 0 {
				f = by(n-1, true)
			}
		}
		return unlessEnded(ctx, best)
	}
	sort.Search(steps-2-least, func(n int) bool {
		f := by(least+1+n, true)
		if f != nil {
			best = f
		}
		return f != nil
	})
	return unlessEnded(ctx, best)
}

// unlessEnded is what was found, or nothing where the context ended: then it may not be the least.
func unlessEnded(ctx context.Context, f *Freed) *Freed {
	if ctx.Err() != nil {
		return nil
	}
	return f
}

// tried does the change and places the scenes that clash, or the whole day. It is nil where the scene is not placed, or
// another one is left out that was placed before, or the context ended.
func (d Day) tried(ctx context.Context, t trial, whole bool) *Freed {
	m := d.made.with(t.change.Apply, t.change.Date)
	if m.problem.Validate() != nil || !m.ever(t.scene) {
		return nil
	}
	if !whole {
		c, err := place.Clash(ctx, m.problem, t.scene, t.others)
		if err != nil || c.Kind == place.Alone || c.Kind == place.Together {
			return nil
		}
		return &Freed{Change: t.change}
	}
	r, err := place.Solve(ctx, m.problem, nil)
	if err != nil || ctx.Err() != nil {
		return nil
	}
	f := m.figures(r)
	left := func(id plan.ID) bool {
		return slices.ContainsFunc(d.LeftOut, func(l LeftOut) bool { return l.Scene == id })
	}
	for _, id := range f.LeftOut {
		if id == m.scenes[t.scene].ID || !left(id) {
			return nil
		}
	}
	return &Freed{t.change, f}
}

// figures are those of a placement, without a day that is kept.
func (m *model) figures(r place.Result) Figures {
	d := Day{Date: m.date, Sky: m.sky}
	m.read(r, &d)
	return d.Figures()
}
