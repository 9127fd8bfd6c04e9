package day

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/place"
)

// rule is one limit of the day, with its words and how to lift it from a problem.
type rule struct {
	words string
	lift  func(*place.Problem)
}

// rules are those that can keep a single scene out of a day. A person's hours are rules where they have a limit.
func (m *model) rules(scene int) []rule {
	r := m.plan.Shooting
	out := []rule{
		{fmt.Sprintf("the earliest call (%s)", r.EarliestCall.Or(plan.ClockAt(0))), func(p *place.Problem) { p.Earliest = 0 }},
		{fmt.Sprintf("the latest wrap (%s)", latestWrap(m.plan)), func(p *place.Problem) { p.Latest = p.Slots }},
		{fmt.Sprintf("the longest day (%s)", r.Longest), func(p *place.Problem) { p.Longest, p.Overtime = p.Slots, nil }},
		{fmt.Sprintf("the meal rule (a meal within %s)", r.MealWithin), func(p *place.Problem) { p.Meal = place.Meal{} }},
	}
	for _, q := range m.problem.Scenes[scene].People {
		if who := m.problem.People[q]; who.Longest > 0 || who.Work > 0 {
			out = append(out, rule{"the hours of " + m.limited(m.people[q]), func(p *place.Problem) {
				p.People = slices.Clone(p.People)
				p.People[q].Longest, p.People[q].Work = 0, 0
			}})
		}
	}
	return out
}

// limited names somebody with the limits of their hours, and the table that they are from where it is not their own word.
func (m *model) limited(who plan.Person) string {
	limit, _ := people.Limited(m.plan, who, m.date)
	var most []string
	if limit.Place > 0 {
		most = append(most, limit.Place.String()+" there")
	}
	if limit.Work > 0 {
		most = append(most, limit.Work.String()+" in front of the camera")
	}
	from := ""
	if t, _ := people.HourTableOf(m.plan, m.plan.Shooting.Minors); limit.Place != who.Longest || limit.Work != who.Work {
		from = "; " + t.Name
	}
	return fmt.Sprintf("%s (at most %s%s)", who.Called(), strings.Join(most, " and "), from)
}

// ruleAgainst names what keeps a scene out of a day that it would have for itself: each rule that would do it alone, or
// else a smallest set of rules that together do. Each is verified by placing the scene without them.
func (m *model) ruleAgainst(ctx context.Context, p place.Problem, scene int) string {
	rules := m.rules(scene)
	fits := func(without []rule) bool {
		free := p
		for _, r := range without {
			r.lift(&free)
		}
		c, err := place.Clash(ctx, free, scene, nil)
		return err == nil && c.Kind == place.None
	}
	var alone, together []string
	for _, r := range rules {
		if fits([]rule{r}) {
			alone = append(alone, r.words)
		}
	}
	switch {
	case len(alone) == 1:
		return alone[0]
	case len(alone) > 1:
		return strings.Join(alone, " or ") + ", one of which would have to give"
	case !fits(rules):
		return "the rules of the day"
	}
	for i := 0; i < len(rules); {
		if rest := slices.Concat(rules[:i], rules[i+1:]); fits(rest) {
			rules = rest
			continue
		}
		together = append(together, rules[i].words)
		i++
	}
	return listed(together) + ", which would " + map[bool]string{true: "both", false: "all"}[len(together) == 2] + " have to give"
}
