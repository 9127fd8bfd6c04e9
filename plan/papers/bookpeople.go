package papers

import (
	"fmt"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
)

// PeopleBook lists who is called when, day by day. All may read it, as they may a call sheet: it has no minor's contact, nobody's fee
// and nothing private.
func PeopleBook(p *plan.Plan, days []day.Day) Book {
	b := newBook(p, days, "people", "People")
	l := leaf{name: "People", columns: []leafColumn{{"Date", 18, false}, {"Name", 28, false}, {"Part", 32, false}, {"Call", 10, true},
		{"Until", 10, true}, {"Minutes there", 9, true}, {"On camera", 9, true}, {"Waiting", 9, true}, {"Scenes", 24, false},
		{"Phone", 20, false}, {"Guardian", 28, false}}}
	for _, d := range days {
		c := newCaller(p, d)
		from := l.next()
		for _, called := range d.People {
			l.add(false, c.calledCells(called, l.next())...)
		}
		l.add(true, c.dated(d.Date), words(fmt.Sprintf("%d called", len(d.People))), bookCell{}, bookCell{}, bookCell{}, l.subtotal(5, from),
			l.subtotal(6, from), l.subtotal(7, from))
	}
	b.leaves = []leaf{l}
	return b
}

// calledCells are one person's row on a day, which has the number that its formula needs.
func (c caller) calledCells(called day.Presence, row int) []bookCell {
	who, ok := c.Person(called.Person)
	if !ok {
		who.ID = called.Person
	}
	there := c.lasting(plan.Span{From: called.Call, To: called.Release}, fmt.Sprintf("D%d", row), fmt.Sprintf("E%d", row))
	return []bookCell{c.dated(c.date), words(who.Called()), words(c.part(who)), c.moment(called.Call), c.moment(called.Release), there,
		whole(called.Filmed, ""), whole(called.Waits, ""), words(c.scenesOf(who, called)), words(c.phone(who)),
		words(strings.TrimPrefix(c.guardian(who), "guardian: "))}
}
