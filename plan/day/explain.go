package day

import (
	"context"
	"slices"

	"eavelight/plan"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// explain says for every scene left out why, in the user's words.
func (m *model) explain(ctx context.Context, d *Day) error {
	d.LeftOut = slices.Clone(m.idle)
	d.made.clashes = map[int]place.Conflict{}
	told := &effort{ctx, explainLooks}
	for i, s := range m.scenes {
		if d.made.result.Start[i] >= 0 {
			continue
		}
		why, err := m.why(told, i, d.made)
		if err != nil {
			return err
		}
		why.Path = m.path(s.ID)
		d.LeftOut = append(d.LeftOut, LeftOut{Scene: s.ID, Why: why})
	}
	return nil
}

// why finds the reason from the nearest to the farthest: the scene by itself, then beside those that were placed.
func (m *model) why(ctx context.Context, i int, d *made) (plan.Problem, error) {
	if !m.ever(i) {
		return m.whyNever(i), nil
	}
	c, err := place.Clash(ctx, m.problem, i, d.result.Order)
	if err != nil {
		return plan.Problem{}, err
	}
	d.clashes[i] = c
	s := m.scenes[i]
	switch c.Kind {
	case place.Unknown:
		return warning(plan.LeftOutUnknown, s.Name()), nil
	case place.Alone:
		return warning(plan.LeftOutAlone, s.Name(), m.ruleAgainst(ctx, m.problem, i)), nil
	case place.None:
		return warning(plan.LeftOutCheap, s.Name(), s.Importance.Or()), nil
	}
	if p, ok := m.windowFull(append([]int{i}, c.Others...)); ok {
		return p, nil
	}
	if whose := m.hoursAgainst(ctx, i, c.Others); !whose.IsZero() {
		return warning(plan.LeftOutHours, s.Name(), m.names(c.Others), whose), nil
	}
	return warning(plan.LeftOutClash, s.Name(), m.names(c.Others)), nil
}

// hoursAgainst names whoever keeps a scene from a place beside others by their hours alone: without these, all would fit.
func (m *model) hoursAgainst(ctx context.Context, scene int, others []int) say.Text {
	for q, who := range m.problem.People {
		if who.Longest == 0 && who.Work == 0 || !slices.Contains(m.problem.Scenes[scene].People, q) {
			continue
		}
		p := m.problem
		p.People = slices.Clone(p.People)
		p.People[q].Longest, p.People[q].Work = 0, 0
		if c, err := place.Clash(ctx, p, scene, others); err == nil && c.Kind == place.None {
			return m.limited(m.people[q])
		}
	}
	return say.Text{}
}

// ever tells whether any start suits a scene.
func (m *model) ever(i int) bool {
	return slices.ContainsFunc(m.problem.Scenes[i].Light, func(c int64) bool { return c != place.Forbidden })
}

func warning(code plan.Code, facts ...any) plan.Problem {
	return plan.Problem{Code: code, Level: plan.Warning, Facts: facts}
}

// whyNever explains a scene that no start suits: one bar that never lifts by itself, or else all of them together.
func (m *model) whyNever(i int) plan.Problem {
	s := m.scenes[i]
	bars := m.bars(s, m.scores[i])
	ever := func(b bar) bool {
		return slices.ContainsFunc(m.starts(), b.allows)
	}
	var words []say.Text
	for _, b := range bars {
		switch {
		case !ever(b) && b.light:
			return m.whyNoLight(i)
		case !ever(b) && b.person != "":
			return warning(plan.NeverFree, s.Name(), b.person, m.date.SaidShort(), b.why)
		case !b.light:
			words = append(words, b.why)
		}
	}
	if s.PinnedOn(m.date) {
		return m.whyNotPinned(s, bars)
	}
	return m.neverBoth(i, say.Join(", ", words...))
}

// whyNoLight tells light that does not come from light that comes for too short.
func (m *model) whyNoLight(i int) plan.Problem {
	s := m.scenes[i]
	windows := m.windowsOf(i)
	if len(windows) == 0 {
		return warning(plan.NeverLight, s.Name(), s.Wish.Kind.Or(), m.date.SaidShort())
	}
	if slices.ContainsFunc(windows, func(w plan.Span) bool { return w.Minutes() >= s.Shoot }) {
		return m.neverBoth(i, say.That("no start on the grid of %s keeps it for all of %s", plan.Minutes(m.grid), s.Shoot))
	}
	return m.neverBoth(i, say.That("it shoots for %s", s.Shoot))
}

func (m *model) neverBoth(i int, but say.Text) plan.Problem {
	s := m.scenes[i]
	return warning(plan.NeverBoth, s.Name(), s.Wish.Kind.Or(), m.windowWords(i), but)
}

// whyNotPinned names what forbids the pinned minute.
func (m *model) whyNotPinned(s plan.Scene, bars []bar) plan.Problem {
	at := m.sky.MinuteAt(s.Pin.Start)
	var words []say.Text
	for _, b := range bars {
		if !b.allows(at) {
			words = append(words, b.why)
		}
	}
	if len(words) == 0 { // the pin lies beyond the day
		words = []say.Text{m.endOfDay(true)}
	}
	return warning(plan.PinForbidden, s.Name(), s.Pin.Start.String(), say.Join(", ", words...))
}

// starts are the minutes at which a scene could start.
func (m *model) starts() []int {
	out := make([]int, m.problem.Slots)
	for slot := range out {
		out[slot] = slot * m.grid
	}
	return out
}

// windowFull tells when the clashing scenes are all after the same light and it is simply too short for them: even the
// stretch from the first one's window to the last one's holds fewer minutes than they shoot.
func (m *model) windowFull(clash []int) (plan.Problem, bool) {
	kind := m.scenes[clash[0]].Wish.Kind
	var all plan.Span
	var need plan.Minutes
	for _, i := range clash {
		s, windows := m.scenes[i], m.windowsOf(i)
		if s.Importance.Or() != plan.Must || s.Wish.Kind != kind || s.PinnedOn(m.date) || len(windows) != 1 {
			return plan.Problem{}, false
		}
		need += s.Shoot
		w := windows[0]
		if all.From.IsZero() || w.From.Before(all.From) {
			all.From = w.From
		}
		if w.To.After(all.To) {
			all.To = w.To
		}
	}
	have := all.Minutes()
	if need <= have {
		return plan.Problem{}, false
	}
	return warning(plan.WindowFull, m.names(clash), kind, m.span(all), int(need), int(have), int(need-have)), true
}

func (m *model) windowsOf(i int) []plan.Span { return m.sky.Windows(m.scores[i]) }

// windowWords lists when a scene's wish holds: "17:31-18:24".
func (m *model) windowWords(i int) say.Text {
	var words []say.Text
	for _, w := range m.windowsOf(i) {
		words = append(words, m.span(w))
	}
	if len(words) == 0 {
		return say.That("which does not come")
	}
	return eachAnd(words)
}

func (m *model) span(s plan.Span) say.Text {
	return say.Plain(m.sky.Clock(m.sky.MinuteOf(s.From)).String() + "-" + m.sky.Clock(m.sky.MinuteOf(s.To)).String())
}

// names lists scenes for a sentence: "7, 9 and 12".
func (m *model) names(scenes []int) say.Text {
	var names []string
	for _, i := range scenes {
		names = append(names, m.scenes[i].Name())
	}
	slices.SortFunc(names, plan.ByNumber)
	return say.Names(names)
}
