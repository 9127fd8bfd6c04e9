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

// Message is a shooting day in a few plain lines, to be pasted into a chat: for one person and the minors they answer for, or for all
// where who is empty. Chats are passed on and shown on locked screens, so that the one for all names no minor, unless the title of a scene
// does, and none has anybody's phone but the maker's.
func Message(p *plan.Plan, d day.Day, who plan.ID) string {
	c := newCaller(p, d)
	maker, _ := people.Maker(p)
	when := c.long(d.Date)
	if when == "" {
		when = "Date not set"
	}
	words := []string{lines(c.title(), when, c.perhaps())}
	switch {
	case d.Call.IsZero():
		words = append(words, "The day is not placed yet.")
	case who == "":
		words = append(words, fmt.Sprintf("General call %s, %s", c.clock(d.Call), c.hours()), strings.Join(c.callTimes(), "\n"), c.whereabouts(maker),
			strings.Join(append([]string{"Scenes"}, c.titles()...), "\n"), list("What to wear", c.wardrobe()))
	default:
		words = append(words, c.shares(who)...)
		words = append(words, c.whereabouts(maker))
	}
	return spaces.Replace(sections(append(words, c.clockNote())...)) + "\n"
}

// perhaps warns of a date that may still be another.
func (c caller) perhaps() string {
	if dateIsFinal(c.Plan, max(1, c.day.Of)) {
		return ""
	}
	return "The date is not final yet."
}

// callTimes are the calls in their order, with who is called: adults by name, minors by number.
func (c caller) callTimes() []string {
	var out []string
	called := slices.Clone(c.day.People)
	slices.SortStableFunc(called, func(a, b day.Presence) int { return a.Call.Compare(b.Call) })
	for len(called) > 0 {
		n := 1
		for n < len(called) && c.clock(called[n].Call) == c.clock(called[0].Call) {
			n++
		}
		var names []string
		minors := 0
		for _, q := range called[:n] {
			if who, _ := c.Person(q.Person); c.minor(who) {
				minors++
			} else {
				names = append(names, oneLine(c.name(q.Person)))
			}
		}
		switch minors {
		case 0:
		case 1:
			names = append(names, "1 minor")
		default:
			names = append(names, fmt.Sprint(minors, " minors"))
		}
		out = append(out, c.clock(called[0].Call)+" "+strings.Join(names, ", "))
		called = called[n:]
	}
	return out
}

// titles are the scenes in a few words each: in which space and with whom, the call sheet says.
func (c caller) titles() []string {
	var out []string
	for _, placed := range c.day.Scenes {
		sc, ok := c.Scene(placed.Scene)
		if !ok {
			sc.ID = placed.Scene
		}
		out = append(out, c.span(plan.Span{From: placed.Start, To: placed.End})+" "+oneLine(cmp.Or(sc.Title, sc.Name())))
	}
	return out
}

// wardrobe is what the adults who are called wear; in which scenes, their own message says.
func (c caller) wardrobe() []string {
	var out []string
	for _, called := range c.day.People {
		who, _ := c.Person(called.Person)
		var wears []string
		for _, placed := range c.day.Scenes {
			sc, _ := c.Scene(placed.Scene)
			for _, l := range sc.Looks {
				if look := oneLine(l.Look); l.Person == who.ID && look != "" && slices.Contains(sc.People, who.ID) && !slices.Contains(wears, look) {
					wears = append(wears, look)
				}
			}
		}
		if len(wears) > 0 && !c.minor(who) {
			out = append(out, oneLine(c.name(called.Person))+": "+strings.Join(wears, ", "))
		}
	}
	return out
}

// shares are the parts of the day of one person and of the minors they answer for.
func (c caller) shares(who plan.ID) []string {
	var calls, rest []string
	for _, called := range c.day.People {
		q, _ := c.Person(called.Person)
		if called.Person != who && !(c.minor(q) && q.Guardian == who) {
			continue
		}
		s := c.share(called)
		wear := "What to wear"
		if s.minor != "" {
			wear = s.minor + " wears"
		}
		calls, rest = append(calls, s.call), append(rest, list(s.in, s.scenes), list(wear, s.looks))
	}
	if len(calls) == 0 {
		return []string{oneLine(c.name(who)) + " is not called on this day."}
	}
	return append([]string{strings.Join(calls, "\n")}, rest...)
}

// whereabouts is how to get there, and whom to ask.
func (c caller) whereabouts(maker plan.Person) string {
	position := ""
	if at := c.Property.Position; at != nil && at.Valid() {
		position = at.String()
	}
	var out []string
	for _, f := range []fact{{name: "Address", text: fullAddress(c.Plan)}, {name: "Position", text: position}, {name: "Parking", text: c.Papers.Parking},
		{name: "Nearest hospital", text: c.Papers.Hospital}, {name: "Questions", text: whoToAsk(maker)}} {
		if text := oneLine(f.text); text != "" {
			out = append(out, f.name+": "+text)
		}
	}
	return strings.Join(out, "\n")
}

func (c caller) clockNote() string {
	if !c.named {
		return "Times are in UTC: the time zone is not set. The call sheet has the rest, and safety."
	}
	return "Local times. The call sheet has the rest, and safety."
}
