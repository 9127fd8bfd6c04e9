package papers

import (
	"cmp"
	"fmt"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
)

// ScheduleBook lists the scenes of all days, each with what it takes, and then those that have no place yet.
func ScheduleBook(p *plan.Plan, days []day.Day) Book {
	b := newBook(p, days, "schedule", "Schedule")
	l := leaf{name: "Schedule", columns: []leafColumn{{"Date", 18, false}, {"Scene", 8, false}, {"Title", 36, false}, {"Set-up", 10, true},
		{"Start", 10, true}, {"End", 10, true}, {"Minutes", 9, true}, {"Space", 22, false}, {"People", 36, false}, {"Light wish", 30, false},
		{"Kept", 6, true}, {"Kit", 30, false}}}
	for _, d := range days {
		c := newCaller(p, d)
		from := l.next()
		for _, placed := range d.Scenes {
			l.add(false, c.scheduled(placed, l.next())...)
		}
		l.add(true, c.dated(d.Date), bookCell{}, words(c.inAll()), bookCell{}, bookCell{}, bookCell{}, l.subtotal(6, from))
	}
	if len(days) > 1 {
		l.add(true, bookCell{}, bookCell{}, words(counted(len(days), "day", "days")), bookCell{}, bookCell{}, bookCell{}, l.subtotal(6, 2))
	}
	l.notPlaced(p, days)
	b.leaves = []leaf{l}
	return b
}

// newBook is a book that says whose it is, and in which zone its times are.
func newBook(p *plan.Plan, days []day.Day, name, kind string) Book {
	c := newCaller(p, day.Day{})
	if len(days) > 0 {
		c = newCaller(p, days[0])
	}
	return Book{Name: name, title: cmp.Or(oneLine(p.Title), "Untitled plan"), kind: kind, foot: spaces.Replace(c.foot()), zone: c.zone}
}

// scheduled is one placed scene's row, which has the number that its formula needs.
func (c caller) scheduled(placed day.Placed, row int) []bookCell {
	sc, ok := c.Scene(placed.Scene)
	if !ok {
		sc.ID = placed.Scene
	}
	shot := plan.Span{From: placed.Start, To: placed.End}
	out := c.sceneCells(sc)
	out[0], out[3], out[4], out[5] = c.dated(c.date), c.moment(placed.Setup), c.moment(placed.Start), c.moment(placed.End)
	out[6] = c.lasting(shot, fmt.Sprintf("E%d", row), fmt.Sprintf("F%d", row))
	if sc.Wish.Kind.Or() != plan.Any {
		out[10] = percent(day.Percent(placed.Kept))
	}
	return out
}

// sceneCells are what of a scene's row is known before it is placed.
func (c caller) sceneCells(sc plan.Scene) []bookCell {
	var names []string
	for _, id := range sc.People {
		names = append(names, c.name(id))
	}
	return []bookCell{{}, sceneNumber(sc.Number), words(cmp.Or(sc.Title, sc.Name())), {}, {}, {}, {}, words(c.space(sc.Space)),
		words(strings.Join(names, ", ")), words(spaces.Replace(c.wish(sc.Wish))), {}, words(strings.Join(sc.Kit, ", "))}
}

// inAll are a day's scenes and fixed times.
func (c caller) inAll() string {
	text := counted(len(c.day.Scenes), "scene", "scenes")
	if !c.day.Call.IsZero() {
		text += fmt.Sprintf("; call %s, wrap %s", c.clock(c.day.Call), c.clock(c.day.Wrap))
	}
	return text
}

// notPlaced adds the scenes that no day has.
func (l *leaf) notPlaced(p *plan.Plan, days []day.Day) {
	c := newCaller(p, day.Day{})
	for _, sc := range p.Scenes {
		placed := false
		for _, d := range days {
			placed = placed || caller{day: d}.placed(sc.ID)
		}
		if !placed {
			cells := c.sceneCells(sc)
			cells[3] = words("not placed")
			l.add(false, cells...)
		}
	}
}
