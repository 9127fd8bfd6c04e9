package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// dayTeller tells a shooting day as events. Calendars are synchronised, shared and shown on locked screens, so that they say less than
// the call sheet: nobody's name but a minor's to their guardian and the maker's, no phone but the maker's.
type dayTeller struct {
	caller
	maker *calendarMaker
}

// told is what an event says besides when and where.
type told struct{ summary, call, text string }

// event has its moments to the minute, as the clock and the plan's memory have them.
func (t dayTeller) event(who plan.ID, s plan.Span, say told) calendarEvent {
	e := plan.Event{Person: who, Day: max(1, t.day.Number), From: s.From.Round(time.Minute).UTC(), To: s.To.Round(time.Minute).UTC()}
	status := "STATUS:CONFIRMED"
	if !dateIsFinal(t.Plan, len(dates(t.maker.days))) {
		status = "STATUS:TENTATIVE"
	}
	lines := append(t.maker.when(e), "SUMMARY:"+calendarText(say.summary), status)
	lines = append(lines, t.where()...)
	lines = append(lines, t.maker.organizer()...)
	lines = append(lines, "DESCRIPTION:"+calendarText(strings.ReplaceAll(say.text, "\u00a0", " ")))
	return calendarEvent{Event: e, lines: append(lines, t.alarms(e, say)...)}
}

// where are the property and its position, latitude first (RFC 5545, sections 3.8.1.6 and 3.8.1.7).
func (t dayTeller) where() []string {
	var out []string
	if at := fullAddress(t.Plan); at != "" {
		out = append(out, "LOCATION:"+calendarText(at))
	}
	if at := t.Property.Position; at != nil {
		out = append(out, fmt.Sprintf("GEO:%.6f;%.6f", at.Lat, at.Lon))
	}
	return out
}

// The evening alarm, and how long before a call the other one rings: common practice, no published source.
const (
	eveningAlarm = 19 * 60
	lateAlarm    = 2 * time.Hour
)

// alarms ring on the evening before and two hours before (RFC 5545, section 3.6.6).
func (t dayTeller) alarms(e plan.Event, say told) []string {
	evening := plan.Instant(plan.DateOf(e.From.In(t.zone)).AddDays(-1), plan.ClockAt(eveningAlarm), t.zone)
	call := say.call + t.hour(e.From.In(t.zone))
	alarm := func(before time.Duration, words string) []string {
		return []string{"BEGIN:VALARM", "ACTION:DISPLAY", "DESCRIPTION:" + calendarText(words), "TRIGGER:" + durationBefore(before), "END:VALARM"}
	}
	return append(alarm(e.From.Sub(evening), "Tomorrow: "+call), alarm(lateAlarm, "In two hours: "+call)...)
}

func (c caller) title() string {
	title := filmTitle(c.Plan)
	if c.day.Of > 1 {
		title += fmt.Sprintf(", day %d of %d", max(1, c.day.Number), c.day.Of)
	}
	return title
}

func (t dayTeller) forAll() told {
	return told{t.title(), "general call ", sections(
		t.tentative(),
		fmt.Sprintf("General call %s, %s.", t.clock(t.day.Call), t.hours()),
		list("Schedule", t.scenes(t.everything())),
		t.practical(),
	)}
}

// forOne is for one person; that of a minor is told to the guardian as well, and so names the minor.
func (t dayTeller) forOne(called day.Presence) told {
	s := t.share(called)
	summary, call := t.title(), "your call "
	if s.minor != "" {
		summary, call = s.minor+": "+summary, "the call of "+s.minor+" "
	}
	return told{summary, call, sections(
		t.tentative(),
		s.call+".",
		list(s.in, s.scenes),
		list("What to wear", s.looks),
		t.practical(),
	)}
}

// share is one person's part of a day, in words for them; that of a minor is for the guardian to read.
type share struct {
	minor  string // the name, where it is one
	call   string // "Your call: 07:20, until about 17:35"
	in     string // "You are in", over the scenes
	scenes []string
	looks  []string
}

func (c caller) share(called day.Presence) share {
	who, ok := c.Person(called.Person)
	if !ok {
		who.ID = called.Person
	}
	out := share{call: "Your call", in: "You are in"}
	if c.minor(who) {
		out.minor = oneLine(who.Called())
		out.call, out.in = "The call of "+out.minor, out.minor+" is in"
	}
	out.call += fmt.Sprintf(": %s, until about %s", c.clock(called.Call), c.clock(called.Release))
	var scenes []plan.ID
	for _, o := range called.OnCamera {
		scenes = append(scenes, o.Scene)
	}
	if len(scenes) == 0 && who.Role == plan.Crew {
		out.in, scenes = "Schedule", c.everything()
	}
	var here []plan.Scene
	for _, s := range c.Scenes {
		if slices.Contains(scenes, s.ID) {
			here = append(here, s)
		}
	}
	out.scenes, out.looks = c.scenes(scenes), looks(here, who.ID)
	return out
}

func (t dayTeller) tentative() string {
	if dateIsFinal(t.Plan, len(dates(t.maker.days))) {
		return ""
	}
	return "The date is not final yet."
}

func (c caller) everything() []plan.ID {
	var out []plan.ID
	for _, placed := range c.day.Scenes {
		out = append(out, placed.Scene)
	}
	return out
}

// scenes are those of a list, in the order they are shot.
func (c caller) scenes(list []plan.ID) []string {
	var out []string
	for _, placed := range c.day.Scenes {
		if !slices.Contains(list, placed.Scene) {
			continue
		}
		sc, ok := c.Scene(placed.Scene)
		if !ok {
			sc.ID = placed.Scene
		}
		name := oneLine(strings.ReplaceAll(titled(sc), "\u2002", " "))
		out = append(out, fmt.Sprintf("%s: %s, %s", c.span(plan.Span{From: placed.Start, To: placed.End}), name, oneLine(c.space(sc.Space))))
	}
	return out
}

// practical is what everybody has to know who comes.
func (t dayTeller) practical() string {
	var out []string
	say := func(name, text string) {
		if text = strings.TrimSpace(text); text != "" {
			out = append(out, name+": "+text)
		}
	}
	say("Getting there", t.Papers.Access)
	say("Parking", t.Papers.Parking)
	say("Nearest hospital", t.Papers.Hospital)
	say("Note", t.Papers.Notes)
	say("Questions", whoToAsk(t.maker.maker))
	return sections(strings.Join(out, "\n"), list("Safety", t.safety(false).List), "The call sheet says the rest; times are local.")
}

// whoToAsk is the maker with their phone, or nothing where there is none.
func whoToAsk(maker plan.Person) string {
	name, phone := oneLine(maker.Name), oneLine(maker.Phone)
	if name != "" && phone != "" {
		return name + ", " + phone
	}
	return phone
}

// list is points under a heading, or nothing where there is none.
func list(heading string, items []string) string {
	if len(items) == 0 {
		return ""
	}
	return piece{head: heading, list: items}.text()
}

// sections puts texts one below the other with a line between them, and leaves the empty ones out.
func sections(texts ...string) string {
	texts = slices.DeleteFunc(texts, func(s string) bool { return s == "" })
	return strings.Join(texts, "\n\n")
}

// dateIsFinal reports whether nobody can choose another date any more without changing the plan.
func dateIsFinal(p *plan.Plan, days int) bool {
	return !p.Shooting.Date.IsZero() || len(p.Shooting.Dates) <= days
}

// fullAddress is where the property is, on one line.
func fullAddress(p *plan.Plan) string {
	name, address := oneLine(p.Property.Name), oneLine(p.Property.Address)
	switch {
	case address == "":
		return name
	case name == "" || strings.Contains(address, name):
		return address
	}
	return name + ", " + address
}

// filmTitle is the film's name, whatever the plan says.
func filmTitle(p *plan.Plan) string { return cmp.Or(oneLine(p.Title), "Our film") }
