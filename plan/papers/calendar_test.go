package papers

import (
	"bytes"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// The words are our own; these tests hold what has to be in them, and RFC 5545 and 5546 where a section is named.

// calendarOf reads one reader's calendar strictly.
func calendarOf(t testing.TB, c Calendars, reader plan.ID) icsComponent {
	t.Helper()
	f, ok := c.of(reader)
	if !ok {
		t.Fatalf("no calendar for %q", reader)
	}
	return strictly(t, f.Content)
}

// remembered is the plan after its calendars were written.
func remembered(t testing.TB, p plan.Plan, c Calendars) plan.Plan {
	t.Helper()
	p = p.Clone()
	p.Papers.Calendar = c.Sent
	if wrong := plan.Validate(p).At(plan.Wrong).Under("papers"); len(wrong) > 0 {
		t.Fatalf("the plan can't remember it: %v", wrong)
	}
	return p
}

// movedBy is a day so much later, with everything on it.
func movedBy(d day.Day, by time.Duration) day.Day {
	shift := func(t *time.Time) { *t = t.Add(by) }
	d.Date = plan.DateOf(d.Call.Add(by).In(d.Zone))
	shift(&d.Call)
	shift(&d.Wrap)
	d.Scenes, d.People, d.Meals = slices.Clone(d.Scenes), slices.Clone(d.People), slices.Clone(d.Meals)
	for i := range d.Scenes {
		s := &d.Scenes[i]
		shift(&s.Setup)
		shift(&s.Start)
		shift(&s.End)
	}
	for i := range d.Meals {
		shift(&d.Meals[i].From)
		shift(&d.Meals[i].To)
	}
	for i := range d.People {
		shift(&d.People[i].Call)
		shift(&d.People[i].Release)
	}
	return d
}

func TestCalendarForAll(t *testing.T) {
	p, days := toWrite(t)
	c := NewCalendars(&p, days, madeAt)
	cal := calendarOf(t, c, "")
	if cal.get("VERSION") != "2.0" || cal.get("METHOD") != "PUBLISH" { // RFC 5545, section 3.7.4; RFC 5546, section 3.2.1
		t.Errorf("%+v", cal.lines)
	}
	if zones := cal.named("VTIMEZONE"); len(zones) != 1 || zones[0].get("TZID") != "America/Los_Angeles" { // section 3.2.19
		t.Errorf("zones: %+v", zones)
	}
	events := cal.named("VEVENT")
	if len(events) != 1 {
		t.Fatalf("%d events", len(events))
	}
	e := events[0]
	for name, want := range map[string]string{
		"DTSTAMP": "20270302T220500Z", "DTSTART": "20270306T052500", "DTEND": "20270306T195000", "SEQUENCE": "0", "STATUS": "CONFIRMED",
		"SUMMARY": "A day at Quillfern House", "LOCATION": "Quillfern House, 418 Sandgrouse Lane, Lower Marl", "GEO": "34.123400;-116.432100", // 3.8.1.6
		"ORGANIZER": "mailto:noor@example.org",
	} {
		if got := e.get(name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	for _, words := range []string{"General call 05:25, meal 11:25–12:10, wrap 19:50.", "- 07:40–08:20: 3 Breakfast, Kitchen\n", "second gate on the left", "right side only; the drive",
		"Lower Marl General", "Noor Halvardsen, +1 760 555 0101", "cactus spines"} {
		if !strings.Contains(e.get("DESCRIPTION"), words) {
			t.Errorf("%q is not in %s", words, e.get("DESCRIPTION"))
		}
	}
	var rings []string
	for _, a := range e.named("VALARM") {
		rings = append(rings, a.get("ACTION")+" "+a.get("TRIGGER")+" "+a.get("DESCRIPTION"))
	}
	// Seven in the evening before and two hours before: common practice, no published source.
	if want := []string{"DISPLAY -PT10H25M Tomorrow: general call 05:25", "DISPLAY -PT2H In two hours: general call 05:25"}; !slices.Equal(rings, want) {
		t.Errorf("alarms: %q", rings)
	}
}

func TestCalendarForOne(t *testing.T) {
	p, days := toWrite(t)
	c := NewCalendars(&p, days, madeAt)
	for _, w := range []struct {
		reader plan.ID
		events []string // start, end, summary
		has    []string
		lacks  []string
	}{
		{"grete", []string{"20270306T072000 20270306T173500 A day at Quillfern House"},
			[]string{"Your call: 07:20, until about 17:35.", "You are in\n- 07:40–08:20: 3 Breakfast, Kitchen", "What to wear\n- apron (scenes 3 and 9)", "second gate"}, []string{"Piano", "grey suit", "Mia", "call of"}},
		{"amara", []string{"20270306T063000 20270306T181500 A day at Quillfern House", "20270306T072000 20270306T164500 Mia Sandoval: A day at Quillfern House",
			"20270306T072000 20270306T164500 Jon Sandoval: A day at Quillfern House"},
			[]string{"Your call: 06:30, until about 18:15.", "The call of Mia Sandoval: 07:20, until about 16:45.", "Jon Sandoval is in\n- 07:40"}, []string{"apron"}},
		{"mia", []string{"20270306T072000 20270306T164500 Mia Sandoval: A day at Quillfern House"}, []string{"10:45–11:15: 5 Swim, Pool"}, []string{"Your call", "Jon"}},
		{"teo", []string{"20270306T052500 20270306T195000 A day at Quillfern House"}, []string{"Your call: 05:25", "Schedule\n- 06:10–06:30: 1 First light"}, []string{"You are in", "What to wear"}},
	} {
		var events []string
		words := ""
		for _, e := range calendarOf(t, c, w.reader).named("VEVENT") {
			events = append(events, e.get("DTSTART")+" "+e.get("DTEND")+" "+e.get("SUMMARY"))
			words += e.get("DESCRIPTION") + "\n"
		}
		if !slices.Equal(events, w.events) {
			t.Errorf("%s: %q", w.reader, events)
		}
		for _, s := range w.has {
			if !strings.Contains(words, s) {
				t.Errorf("%s: %q is not in\n%s", w.reader, s, words)
			}
		}
		for _, s := range w.lacks {
			if strings.Contains(words, s) {
				t.Errorf("%s: %q is in\n%s", w.reader, s, words)
			}
		}
	}
	if _, ok := c.of("otto"); ok {
		t.Error("a calendar for somebody who is not called")
	}
	uid := func(reader plan.ID, i int) string { return calendarOf(t, c, reader).named("VEVENT")[i].get("UID") }
	if uid("amara", 1) != uid("mia", 0) || uid("amara", 0) == uid("mia", 0) || uid("", 0) == uid("teo", 0) {
		t.Error("a minor's day is another one for the guardian, or two people's is one")
	}
}

// TestCalendarGuardianElsewhere: a guardian who is not called gets the minors' days, and nobody the days of a grown-up they once answered for.
func TestCalendarGuardianElsewhere(t *testing.T) {
	p, days := toWrite(t)
	for i := range p.People {
		if p.People[i].Minor {
			p.People[i].Guardian = "otto"
		}
		if p.People[i].ID == "teo" {
			p.People[i].Guardian = "otto"
		}
	}
	if got := calendarOf(t, NewCalendars(&p, days, madeAt), "otto").named("VEVENT"); len(got) != 2 || !strings.HasPrefix(got[0].get("SUMMARY"), "Mia Sandoval: ") {
		t.Errorf("%+v", got)
	}
}

// TestCalendarMoves: SEQUENCE rises with what an event says and with nothing else; a moved date moves the event (RFC 5545, sections
// 3.8.4.7 and 3.8.7.4; RFC 5546, section 2.1.4).
func TestCalendarMoves(t *testing.T) {
	p, days := toWrite(t)
	first := NewCalendars(&p, days, madeAt)
	p = remembered(t, p, first)
	event := func(c Calendars, who plan.ID) icsComponent { return calendarOf(t, c, who).named("VEVENT")[0] }

	later := NewCalendars(&p, days, madeAt.Add(time.Hour))
	if a, b := event(first, "grete"), event(later, "grete"); b.get("SEQUENCE") != "0" || b.get("UID") != a.get("UID") || b.get("DTSTAMP") != "20270302T230500Z" {
		t.Errorf("nothing changed but the clock: %+v", b.lines)
	}
	if !reflect.DeepEqual(later.Sent, first.Sent) {
		t.Error("nothing changed, and the plan is to remember something else")
	}

	moved := []day.Day{movedBy(days[0], 7*24*time.Hour)}
	second := NewCalendars(&p, moved, madeAt)
	a, b := event(first, "grete"), event(second, "grete")
	if b.get("UID") != a.get("UID") || b.get("SEQUENCE") != "1" || b.get("DTSTART") != "20270313T072000" {
		t.Errorf("moved by a week: %+v", b.lines)
	}
	p = remembered(t, p, second)
	p.Title = "Another name"
	if c := event(NewCalendars(&p, moved, madeAt), "grete"); c.get("SEQUENCE") != "2" || c.get("UID") != a.get("UID") {
		t.Errorf("renamed: %+v", c.lines)
	}
	p.Title = "A day at Quillfern House"
	p.Scenes[2].Looks = nil // s3, in which Grete has one
	third := NewCalendars(&p, moved, madeAt)
	if g, o := event(third, "grete").get("SEQUENCE"), event(third, "teo").get("SEQUENCE"); g != "2" || o != "1" {
		t.Errorf("another look of hers: %s, and %s for who has none", g, o)
	}
	p = remembered(t, p, third)
	if back := event(NewCalendars(&p, days, madeAt), "grete"); back.get("SEQUENCE") != "3" || back.get("DTSTART") != "20270306T072000" {
		t.Errorf("moved back: %+v", back.lines)
	}
}

// TestCalendarCallsOff: who is dropped, and a day that falls away, is taken out of calendars that have it, under the same UID and with a
// higher SEQUENCE (RFC 5546, section 3.2.1: STATUS), until it is past; who comes after all gets it back.
func TestCalendarCallsOff(t *testing.T) {
	p, days := toWrite(t)
	second := movedBy(days[0], 48*time.Hour)
	second.Number, second.Of = 2, 2
	days[0].Number, days[0].Of = 1, 2
	both := []day.Day{days[0], second}
	before := NewCalendars(&p, both, madeAt)
	p = remembered(t, p, before)
	was := calendarOf(t, before, "grete").named("VEVENT")
	if len(was) != 2 || was[1].get("SUMMARY") != "A day at Quillfern House, day 2 of 2" || was[0].get("UID") == was[1].get("UID") {
		t.Fatalf("two days: %+v", was)
	}

	days[0].Of = 1
	days[0].People = slices.DeleteFunc(slices.Clone(days[0].People), func(q day.Presence) bool { return q.Person == "grete" })
	p.People = slices.DeleteFunc(p.People, func(q plan.Person) bool { return q.ID == "grete" }) // out of the plan altogether
	after := NewCalendars(&p, days[:1], madeAt)
	off := calendarOf(t, after, "grete").named("VEVENT")
	if len(off) != 2 {
		t.Fatalf("called off: %+v", off)
	}
	for i, e := range off {
		if e.get("UID") != was[i].get("UID") || e.get("SEQUENCE") != "1" || e.get("STATUS") != "CANCELLED" || e.get("DTSTART") != was[i].get("DTSTART") || len(e.named("VALARM")) > 0 {
			t.Errorf("called off: %+v", e)
		}
	}
	if f, _ := after.of("grete"); !f.Off {
		t.Error("nobody is told that it only calls off")
	}
	if f, _ := after.of("teo"); f.Off || len(calendarOf(t, after, "teo").named("VEVENT")) != 2 {
		t.Error("who comes on one day of two")
	}
	p = remembered(t, p, after)
	if again := NewCalendars(&p, days[:1], madeAt); !reflect.DeepEqual(again.Sent, after.Sent) {
		t.Error("called off once more, and it is something else")
	}
	if _, ok := NewCalendars(&p, days[:1], was2027(9)).of("grete"); ok {
		t.Error("called off after it is past")
	}
	p.People = append(p.People, plan.Person{ID: "grete", Name: "Grete Sandoval"})
	for i, e := range calendarOf(t, NewCalendars(&p, both, madeAt), "grete").named("VEVENT") {
		if e.get("UID") != was[i].get("UID") || e.get("SEQUENCE") != "2" || e.get("STATUS") != "CONFIRMED" {
			t.Errorf("she comes after all: %+v", e.lines)
		}
	}
}

func was2027(day int) time.Time { return time.Date(2027, 3, day, 23, 0, 0, 0, time.UTC) }

// TestCalendarOfTheNextJob: what is over is not moved to a new shoot, but one that goes on is.
func TestCalendarOfTheNextJob(t *testing.T) {
	p, days := toWrite(t)
	before := NewCalendars(&p, days, madeAt)
	p = remembered(t, p, before)
	next := []day.Day{movedBy(days[0], 28*24*time.Hour)}
	uid := func(c Calendars) string { return calendarOf(t, c, "grete").named("VEVENT")[0].get("UID") }
	if uid(NewCalendars(&p, next, madeAt)) != uid(before) {
		t.Error("postponed before it began, and it is another event")
	}
	after := NewCalendars(&p, next, was2027(8))
	if uid(after) == uid(before) || len(after.Sent.Events) != len(before.Sent.Events) {
		t.Error("planned anew when it was over, and it moves the old one")
	}
	if uid(NewCalendars(&p, days, was2027(8))) != uid(before) {
		t.Error("the same days once more, afterwards, and they are others")
	}
}

// TestCalendarNotFinal: RFC 5545, section 3.8.1.11.
func TestCalendarNotFinal(t *testing.T) {
	p, days := toWrite(t)
	p.Shooting.Dates = []plan.Date{days[0].Date, days[0].Date.AddDays(1)}
	e := calendarOf(t, NewCalendars(&p, days, madeAt), "grete").named("VEVENT")[0]
	if e.get("STATUS") != "TENTATIVE" || !strings.HasPrefix(e.get("DESCRIPTION"), "The date is not final yet.\n") {
		t.Errorf("%+v", e.lines)
	}
	p.Shooting.Date = days[0].Date
	if e := calendarOf(t, NewCalendars(&p, days, madeAt), "grete").named("VEVENT")[0]; e.get("STATUS") != "CONFIRMED" {
		t.Errorf("%+v", e.lines)
	}
}

// TestCalendarOfLittle: without a maker there is no organizer and so no method (RFC 5546, section 3.2.1, asks for one), without a place
// none is told, without a zone times are in UTC, and without a day there is no file, for a calendar needs a part (RFC 5545, section 3.6).
func TestCalendarOfLittle(t *testing.T) {
	p := plan.New()
	for _, days := range [][]day.Day{nil, {{}}} {
		if got := NewCalendars(&p, days, madeAt); len(got.Files) > 0 || got.Sent.Key != "" {
			t.Errorf("of nothing: %+v", got)
		}
	}
	call := moment(t, "2027-03-06T09:00:00Z")
	d := day.Day{Date: plan.Date{Year: 2027, Month: 3, Day: 6}, Call: call, Wrap: call, People: []day.Presence{{Person: "gone", Call: call, Release: call}}}
	c := NewCalendars(&p, []day.Day{d}, madeAt)
	e := calendarOf(t, c, "gone").named("VEVENT")[0]
	if e.get("DTSTART") != "20270306T090000Z" || len(e.all("DTEND")) > 0 || e.get("SUMMARY") != "Our film" || len(e.all("LOCATION"))+len(e.all("GEO"))+len(e.all("ORGANIZER")) > 0 {
		t.Errorf("%+v", e.lines)
	}
	cal := calendarOf(t, c, "")
	if len(cal.named("VTIMEZONE")) > 0 || len(cal.all("METHOD")) > 0 {
		t.Errorf("%+v", cal)
	}
	remembered(t, p, c)
}

// TestCalendarsOfHostileNames: whatever names and titles hold, each calendar has its own events and no property of theirs.
func TestCalendarsOfHostileNames(t *testing.T) {
	for _, s := range append(injections, "x\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:evil", `x\nATTENDEE:mailto:evil@example.org`, `";x="y`, strings.Repeat("שלום 家 👩‍👩‍👧 ", 60), "\u202egnp.exe") {
		p, days := toWrite(t)
		p.Title, p.Property.Name, p.Property.Address, p.Papers.Producer = s, s, s, s
		p.Papers.Access, p.Papers.Parking, p.Papers.Hospital, p.Papers.Notes = s, s, s, s
		for i := range p.People {
			p.People[i].Name, p.People[i].Phone = s, s
		}
		for i := range p.Scenes {
			p.Scenes[i].Title, p.Scenes[i].Number = s, s
			for j := range p.Scenes[i].Looks {
				p.Scenes[i].Looks[j].Look = s
			}
		}
		c := NewCalendars(&p, days, madeAt)
		if len(c.Files) != 10 {
			t.Fatalf("%q: %d files", s, len(c.Files))
		}
		for _, f := range c.Files {
			want := 1
			if f.Person == "amara" {
				want = 3
			}
			cal := strictly(t, f.Content)
			if got := cal.named("VEVENT"); len(got) != want || len(cal.parts) != want+1 {
				t.Errorf("%q in %s: %d events, %d parts", s, f.Name, len(got), len(cal.parts))
			}
		}
	}
}

// TestCalendarsLeakNothing: the calendar for all names nobody but who makes the film, and holds no phone, no mail, no fee, no date of
// birth, no health note and no private note; nor does one person's, but for what is theirs. What is private changes no calendar.
func TestCalendarsLeakNothing(t *testing.T) {
	p, days := toWrite(t)
	before := NewCalendars(&p, days, madeAt)
	secret := p.Clone()
	secret.Brief.Notes, secret.Brief.Purpose, secret.Brief.Client, secret.Brief.Agent = "LEAK brief", "LEAK purpose", "LEAK client", "LEAK agent"
	for i := range secret.People {
		q := &secret.People[i]
		q.Notes, q.Diet, q.Pronouns, q.Job, q.Sizes, q.Paid = "LEAK notes", "LEAK diet", "LEAK pronouns", "LEAK job", "LEAK sizes", !q.Paid
		q.Born = plan.Date{Year: 1984, Month: 2, Day: 5}
		if q.Minor {
			q.Born.Year = 2017
		}
		if q.ID != "noor" {
			q.Phone, q.Email = "LEAK phone", "leak@example.org"
		}
	}
	for i := range secret.Releases {
		secret.Releases[i].Compensation = "USD 4711 LEAK"
	}
	after := NewCalendars(&secret, days, madeAt)
	if !reflect.DeepEqual(after, before) {
		t.Error("what is private changes a calendar")
	}
	if len(after.Files) != 10 {
		t.Fatalf("%d files", len(after.Files))
	}
	for _, f := range after.Files {
		whole := unescaped(unfolded(string(f.Content)))
		for _, word := range []string{"LEAK", "leak@", "1984", "2017", "4711", "USD"} {
			if strings.Contains(whole, word) {
				t.Errorf("%s is in %s", word, f.Name)
			}
		}
		for _, q := range secret.People {
			theirs := q.ID == "noor" || q.Minor && (f.Person == q.ID || f.Person == q.Guardian)
			if !theirs && strings.Contains(whole, q.Name) {
				t.Errorf("%s is named in %s", q.Name, f.Name)
			}
		}
	}
}

// TestCalendarsAreTheSame: the same plan and clock give the same octets.
func TestCalendarsAreTheSame(t *testing.T) {
	p, days := toWrite(t)
	q := p.Clone()
	if a, b := NewCalendars(&p, days, madeAt), NewCalendars(&q, days, madeAt); !reflect.DeepEqual(a, b) {
		t.Error("another one the second time")
	}
}

// TestCalendarNames: ids that differ in signs that no file name has get files of their own.
func TestCalendarNames(t *testing.T) {
	p, days := toWrite(t)
	days[0].People[0].Person, days[0].People[1].Person = "a:b", "A?b"
	w, err := NewSet(Job{Plan: &p, Days: days, Made: madeAt}).Only(KindCallSheets, KindCalendars).Write(t.Context(), t.TempDir(), Writing{})
	if err != nil || w.Papers != 20 {
		t.Fatalf("%v, %v", w.Paths, err)
	}
	for i, path := range w.Paths {
		if slices.ContainsFunc(w.Paths[:i], func(o string) bool { return strings.EqualFold(o, path) }) {
			t.Errorf("%s twice", path)
		}
	}
}

// TestCalendarOfManyPeople: what the plan can remember is as much as its file can hold.
func TestCalendarOfManyPeople(t *testing.T) {
	p, days := toWrite(t)
	many(&p, days, plan.MaxItems)
	c := NewCalendars(&p, days, madeAt)
	remembered(t, p, c)
	if len(c.Sent.Events) != plan.MaxItems || len(c.Files) <= plan.MaxItems {
		t.Errorf("%d events remembered of %d files", len(c.Sent.Events), len(c.Files))
	}
}

func many(p *plan.Plan, days []day.Day, n int) {
	for i := range n {
		who := plan.ID(fmt.Sprint("p", i))
		p.People = append(p.People, plan.Person{ID: who, Name: fmt.Sprint("Person ", i), Role: plan.Talent})
		days[0].People = append(days[0].People, day.Presence{Person: who, Call: days[0].Call, Release: days[0].Wrap})
	}
}

// BenchmarkCalendars60 is a film of seventy people on a day.
func BenchmarkCalendars60(b *testing.B) {
	p, days := toWrite(b)
	many(&p, days, 60)
	for b.Loop() {
		if got := NewCalendars(&p, days, madeAt); len(got.Files) < 60 || !bytes.HasPrefix(got.Files[0].Content, []byte("BEGIN")) {
			b.Fatal(len(got.Files))
		}
	}
}

// TestCalledOff: the whole shoot is called off for everybody who was sent a calendar, a guardian and who has left the plan included, under
// the same UIDs and with a later DTSTAMP and a higher SEQUENCE (RFC 5546, sections 2.1.5 and 3.2.1); what is past stays as it was; a shoot
// that is on again gets its events back.
func TestCalledOff(t *testing.T) {
	p, days := toWrite(t)
	if c := CalledOff(&p, madeAt); len(c.Files) > 0 || c.Sent.Key != "" {
		t.Errorf("called off before anything was written: %+v", c)
	}
	second := movedBy(days[0], 48*time.Hour)
	second.Number, second.Of = 2, 2
	days[0].Number, days[0].Of = 1, 2
	both := []day.Day{days[0], second}
	before := NewCalendars(&p, both, madeAt)
	p = remembered(t, p, before)
	p.People = slices.DeleteFunc(p.People, func(q plan.Person) bool { return q.ID == "paul" })

	later := madeAt.Add(time.Hour)
	off := CalledOff(&p, later)
	if len(off.Files) != len(before.Files) {
		t.Fatalf("%d calendars, %d before", len(off.Files), len(before.Files))
	}
	for _, f := range before.Files {
		was, is := strictly(t, f.Content).named("VEVENT"), calendarOf(t, off, f.Person)
		now := is.named("VEVENT")
		if g, _ := off.of(f.Person); len(now) != len(was) || !g.Off || is.get("METHOD") != "PUBLISH" {
			t.Fatalf("%s: %d events, %d before", f.Name, len(now), len(was))
		}
		uids := map[string]string{}
		for _, e := range was {
			uids[e.get("UID")] = e.get("DTSTART")
		}
		for _, e := range now {
			if e.get("STATUS") != "CANCELLED" || e.get("SEQUENCE") != "1" || e.get("DTSTAMP") != "20270302T230500Z" || uids[e.get("UID")] != e.get("DTSTART") || len(e.named("VALARM")) > 0 {
				t.Errorf("%s: %+v", f.Name, e.lines)
			}
			delete(uids, e.get("UID"))
		}
	}
	p = remembered(t, p, off)
	if again := CalledOff(&p, later); !reflect.DeepEqual(again.Sent, off.Sent) {
		t.Error("called off once more, and it is something else")
	}
	if half := calendarOf(t, CalledOff(&p, days[0].Wrap.Add(time.Hour)), "teo").named("VEVENT"); len(half) != 1 || half[0].get("DTSTART") != "20270308T052500" {
		t.Errorf("after the first day: %+v", half)
	}
	if c := CalledOff(&p, was2027(9)); len(c.Files) > 0 {
		t.Error("called off when all is past")
	}
	for _, e := range calendarOf(t, NewCalendars(&p, both, later), "teo").named("VEVENT") {
		if e.get("STATUS") != "CONFIRMED" || e.get("SEQUENCE") != "2" {
			t.Errorf("on again: %+v", e.lines)
		}
	}
}
