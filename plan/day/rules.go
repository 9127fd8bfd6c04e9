package day

import (
	"context"
	"slices"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// rule is one limit of the day, with its words and how to lift it from a problem.
type rule struct {
	words say.Text
	lift  func(*place.Problem)
}

// rules are those that can keep a single scene out of a day. A person's hours are rules where they have a limit.
func (m *model) rules(scene int) []rule {
	r := m.plan.Shooting
	out := []rule{
		{say.That("the earliest call (%s)", r.EarliestCall.Or(plan.ClockAt(0))), func(p *place.Problem) { p.Earliest = 0 }},
		{say.That("the latest wrap (%s)", latestWrap(m.plan)), func(p *place.Problem) { p.Latest = p.Slots }},
		{say.That("the longest day (%s)", r.Longest), func(p *place.Problem) { p.Longest, p.Overtime = p.Slots, nil }},
		{say.That("the meal rule (a meal within %s)", r.MealWithin), func(p *place.Problem) { p.Meal = place.Meal{} }},
	}
	for _, q := range m.problem.Scenes[scene].People {
		if who := m.problem.People[q]; who.Longest > 0 || who.Work > 0 {
			out = append(out, rule{say.That("the hours of %s", m.limited(m.people[q])), func(p *place.Problem) {
				p.People = slices.Clone(p.People)
				p.People[q].Longest, p.People[q].Work = 0, 0
			}})
		}
	}
	return out
}

// limited names somebody with the limits of their hours, and the table that they are from where it is not their own word.
func (m *model) limited(who plan.Person) say.Text {
	limit, _ := people.Limited(m.plan, who, m.date)
	var most []say.Text
	if limit.Place > 0 {
		most = append(most, say.That("%s there", limit.Place))
	}
	if limit.Work > 0 {
		most = append(most, say.That("%s in front of the camera", limit.Work))
	}
	if t, _ := people.HourTableOf(m.plan, m.plan.Shooting.Minors); limit.Place != who.Longest || limit.Work != who.Work {
		return say.That("%s (at most %s; %s)", who.Called(), say.List(most...), t.Name)
	}
	return say.That("%s (at most %s)", who.Called(), say.List(most...))
}

// ruleAgainst names what keeps a scene out of a day that it would have for itself: each rule that would do it alone, or
// else a smallest set of rules that together do. Each is verified by placing the scene without them.
func (m *model) ruleAgainst(ctx context.Context, p place.Problem, scene int) say.Text {
	rules := m.rules(scene)
	fits := func(without []rule) bool {
		free := p
		for _, r := range without {
			r.lift(&free)
		}
		c, err := place.Clash(ctx, free, scene, nil)
		return err == nil && c.Kind == place.None
	}
	var alone, together []say.Text
	for _, r := range rules {
		if fits([]rule{r}) {
			alone = append(alone, r.words)
		}
	}
	switch {
	case len(alone) == 1:
		return alone[0]
	case len(alone) > 1:
		return say.That("%s, one of which would have to give", either(alone))
	case !fits(rules):
		return say.That("the rules of the day")
	}
	for i := 0; i < len(rules); {
		if rest := slices.Concat(rules[:i], rules[i+1:]); fits(rest) {
			rules = rest
			continue
		}
		together = append(together, rules[i].words)
		i++
	}
	if len(together) == 2 {
		return say.That("%s, which would both have to give", say.List(together...))
	}
	return say.That("%s, which would all have to give", say.List(together...))
}

// either puts "or" between any two.
func either(parts []say.Text) say.Text {
	out := parts[0]
	for _, p := range parts[1:] {
		out = say.That("%s or %s", out, p)
	}
	return out
}
