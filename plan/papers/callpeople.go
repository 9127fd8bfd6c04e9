package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// people lists everybody who is called, with their own times.
func (c caller) people() Section {
	s := Section{Heading: "People"}
	if len(c.day.People) == 0 {
		s.Text = []string{"Nobody is called yet."}
		return s
	}
	s.Table.Columns = []Column{{"Call – until", c.times(30)}, {"Name", 46}, {"Part", 50}, {"Scenes", 26}, {"Phone", 30}}
	unsigned := people.Missing(c.Plan, c.date, people.Stale(c.Plan, c.date))
	for _, called := range c.day.People {
		who, ok := c.Person(called.Person)
		if !ok {
			who.ID = called.Person
		}
		s.Table.Rows = append(s.Table.Rows, Row{
			Cells: []Cell{
				{Strong: c.span(plan.Span{From: called.Call, To: called.Release})},
				{Strong: who.Called()},
				{Text: c.part(who)},
				{Text: c.scenesOf(who, called)},
				{Text: c.phone(who)},
			},
			Note:      c.note(who, called, unsigned),
			sheetPart: sheetPart{personKey + string(who.ID), who.Called(), plan.Span{From: called.Call, To: called.Release}},
		})
	}
	return s
}

// part is what somebody is there for.
func (c caller) part(who plan.Person) string {
	out := string(who.Role.Or())
	if job := strings.TrimSpace(who.Job); job != "" {
		out = job + " (" + out + ")"
	}
	return out
}

// note names a minor's guardian and asks for what is not signed.
func (c caller) note(who plan.Person, called day.Presence, unsigned []people.Unsigned) string {
	var out []string
	for _, s := range []string{c.guardian(who), c.release(who, called, unsigned)} {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, "; ")
}

// guardian names a minor's guardian, and is empty for everybody else.
func (c caller) guardian(who plan.Person) string {
	switch {
	case !c.minor(who):
		return ""
	case who.Guardian == "":
		return "guardian: " + notFilledIn
	}
	return "guardian: " + c.name(who.Guardian)
}

// minor goes by the day; before it is settled, by the last that it may be.
func (c caller) minor(who plan.Person) bool { return people.Minor(c.Plan, who, c.date) }

// phone is where to reach an adult; a minor is reached through the guardian only.
func (c caller) phone(who plan.Person) string {
	if c.minor(who) {
		return "ask guardian"
	}
	return orEmpty(who.Phone, notFilledIn)
}

func (c caller) scenesOf(who plan.Person, called day.Presence) string {
	var numbers []string
	for _, o := range called.OnCamera {
		numbers = append(numbers, c.sceneName(o.Scene))
	}
	switch {
	case len(numbers) > 0:
		return strings.Join(numbers, ", ")
	case who.Role == plan.Crew:
		return "all"
	}
	return "none"
}

// release asks for the signature that is still missing for the scenes somebody is called for, or is empty.
func (c caller) release(who plan.Person, called day.Presence, unsigned []people.Unsigned) string {
	i := slices.IndexFunc(unsigned, func(u people.Unsigned) bool { return u.Person == who.ID })
	if i < 0 {
		return ""
	}
	u := unsigned[i]
	var open []string
	for _, o := range called.OnCamera {
		if slices.Contains(u.Scenes, o.Scene) {
			open = append(open, c.sceneName(o.Scene))
		}
	}
	if len(open) == 0 {
		return ""
	}
	kind := "model release"
	if c.minor(who) {
		kind = "minor's release"
	}
	if len(open) < len(called.OnCamera) {
		kind += " for scene " + strings.Join(open, ", ")
	}
	if u.Doubt != nil {
		return kind + ": signed, but it no longer holds – please sign again before you arrive"
	}
	return fmt.Sprintf("%s: %s – %s", kind, u.Status, ask(u.Status))
}

func ask(s plan.ReleaseStatus) string {
	switch s {
	case plan.Declined:
		return "not to be filmed"
	case plan.Lapsed:
		return "please sign again before you arrive"
	}
	return "please sign before you arrive"
}

// absent lists the scenes that found no place, and why; then those who are not needed on the day, and where to reach the
// adults among them.
func (c caller) absent() Section {
	s := Section{Heading: "Not on this day"}
	for _, l := range c.day.LeftOut {
		sc, _ := c.Scene(l.Scene)
		s.List = append(s.List, cmp.Or(sc.Title, "No title")+" – "+c.clocks(l.Why.String())+".")
	}
	for _, who := range c.People {
		if _, called := c.day.Presence(who.ID); called {
			continue
		}
		reach := c.guardian(who)
		if !c.minor(who) {
			reach = "phone " + c.phone(who)
		}
		s.List = append(s.List, fmt.Sprintf("%s, %s, is not called; %s.", who.Called(), c.part(who), reach))
	}
	return s
}
