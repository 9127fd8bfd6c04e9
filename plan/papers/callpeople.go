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
	s.Table.Columns = []Column{{"Call", 23}, {"Who", 87}, {"Scenes", 34}, {"Phone", 36}}
	unsigned := people.Missing(c.Plan, c.date)
	for _, called := range c.day.People {
		who, ok := c.Person(called.Person)
		if !ok {
			who.ID = called.Person
		}
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{
			{Strong: c.clock(called.Call), Text: "until " + c.clock(called.Release)},
			{Strong: who.Called(), Text: lines(c.part(who), c.release(who, called, unsigned))},
			{Text: c.scenesOf(who, called)},
			{Text: c.phone(who)},
		}})
	}
	return s
}

// part is what somebody is there for.
func (c caller) part(who plan.Person) string {
	out := string(who.Role.Or())
	if job := strings.TrimSpace(who.Job); job != "" {
		out = job + " (" + out + ")"
	}
	if who.Minor {
		out += ", a minor"
	}
	return out
}

func (c caller) guardian(who plan.Person) string {
	if who.Guardian == "" {
		return "the guardian (" + notFilledIn + ")"
	}
	return together(c.name(who.Guardian))
}

// phone is where to reach an adult; a minor is reached through the guardian only.
func (c caller) phone(who plan.Person) string {
	if who.Minor {
		return "through " + c.guardian(who)
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
	return "not on camera"
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
	if who.Minor {
		kind = "minor's release"
	}
	if len(open) < len(called.OnCamera) {
		kind += " for scene " + strings.Join(open, ", ")
	}
	return fmt.Sprintf("%s: %s – %s", kind, u.Status, c.ask(who, u.Status))
}

func (c caller) ask(who plan.Person, s plan.ReleaseStatus) string {
	again := ""
	switch s {
	case plan.Declined:
		return "not to be filmed"
	case plan.Lapsed:
		again = " again"
	}
	if who.Minor {
		return "guardian, please sign" + again + " before you arrive"
	}
	return "please sign" + again + " before you arrive"
}

// notCalled lists those in the plan who are not needed on the day, and where to reach the adults among them.
func (c caller) notCalled() Section {
	s := Section{Heading: "Not called on this day"}
	for _, who := range c.People {
		if _, called := c.day.Presence(who.ID); called {
			continue
		}
		s.Facts = append(s.Facts, Fact{who.Called(), cmp.Or(c.part(who)) + ", " + phoneWord(who) + c.phone(who)})
	}
	return s
}

func phoneWord(who plan.Person) string {
	if who.Minor {
		return ""
	}
	return "phone "
}
