package papers

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/mail"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// Calendars are the shooting days as files that calendar programs open (RFC 5545). An event has the same UID as long as it is the same
// person's same day of the shoot, and a SEQUENCE that rises with whatever it says, so that a file sent later moves it. What was written
// before and is no more, because somebody does not come or a day fell away, stays in the files as called off until its time has passed:
// only that takes it out of a calendar.
//
// They are published (RFC 5546, section 3.2.1) and not requested: a request would need everybody's address, and ask for answers that
// mail programs send in a form that nobody here reads. What is published has an organizer; where none is known, it goes without a METHOD.
type Calendars struct {
	Files []CalendarFile // that for all first
	Sent  plan.Calendar  // what they say, for the plan to remember
}

// CalendarFile is the calendar of one reader: their own days, and those of the minors whose guardian they are.
type CalendarFile struct {
	Person  plan.ID // empty: for all
	Name    string
	Off     bool // it holds nothing but what is called off
	Content []byte
	method  string // "PUBLISH" or ""
}

// NewCalendars writes the days of a shoot that are placed, on what the plan remembers of those written before.
func NewCalendars(p *plan.Plan, days []day.Day, made time.Time) Calendars {
	m := newCalendarMaker(p, days, made)
	live := m.events()
	m.last = p.Papers.Calendar
	if m.last.Key == "" || m.anew(live) {
		m.last = plan.Calendar{Key: calendarKey(p, days)}
	}
	all := append(live, m.gone(live)...)
	if len(all) == 0 {
		return Calendars{Sent: p.Papers.Calendar}
	}
	out := Calendars{Sent: plan.Calendar{Key: m.last.Key}}
	for i := range all {
		m.number(&all[i])
		all[i].guardian = m.guardianOf(all[i].Event)
		out.Sent.Events = append(out.Sent.Events, all[i].Event)
	}
	out.Sent.Events = out.Sent.Events[:min(len(all), plan.MaxItems)] // of who is beyond it, the later DTSTAMP alone tells
	for _, reader := range m.readers(all) {
		if f, ok := m.file(reader, all); ok {
			out.Files = append(out.Files, f)
		}
	}
	return out
}

// CalledOff are the calendars of a shoot that is called off as a whole: all that was written before and is not past, cancelled. They are
// published as the ones before were, and not sent by METHOD:CANCEL, which answers a request (RFC 5546, section 3.2.5). There are none
// where no calendar was written before. A shoot that is on again after all gets its events back from NewCalendars.
func CalledOff(p *plan.Plan, made time.Time) Calendars { return NewCalendars(p, nil, made) }

// attached is the file as it goes with a mail, its method beside its type (RFC 6047, section 2.4).
func (f CalendarFile) attached() attachment {
	params := map[string]string{"charset": "utf-8"}
	if f.method != "" {
		params["method"] = f.method
	}
	return attachment{f.Name, "text/calendar", params, f.Content}
}

// of is the calendar of one reader.
func (c Calendars) of(reader plan.ID) (CalendarFile, bool) {
	i := slices.IndexFunc(c.Files, func(f CalendarFile) bool { return f.Person == reader })
	if i < 0 {
		return CalendarFile{}, false
	}
	return c.Files[i], true
}

func calendarFile(reader plan.ID) string {
	if reader == "" {
		return "calendar.ics"
	}
	return "calendar-" + fileName(string(reader)) + ".ics"
}

// calendarKey is what the UIDs of a job's first calendars are made from. It is not drawn by chance, so that the same plan gives the same
// files; once remembered it stays, whatever is renamed and moved.
func calendarKey(p *plan.Plan, days []day.Day) string {
	parts := []string{p.Title, p.Property.Name, p.Property.Address, p.Property.Zone}
	if on := dates(days); len(on) > 0 {
		parts = append(parts, on[0].String())
	}
	return digestOf(parts)
}

func digestOf(parts []string) string {
	sum := sha256.Sum256([]byte(strings.Join(parts, "\x00")))
	return hex.EncodeToString(sum[:])
}

// calendarUID is a UUID of version 8 (RFC 9562, section 5.8), as RFC 7986, section 5.3, would have it: nobody's name is in it.
func calendarUID(key string, e plan.Event) string {
	u := sha256.Sum256(fmt.Appendf(nil, "%s\x00%s\x00%d", key, e.Person, e.Day))
	u[6] = u[6]&0x0f | 0x80
	u[8] = u[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:16])
}

// calendarEvent is an event and what it says, in content lines; all but its UID, its SEQUENCE and its DTSTAMP.
type calendarEvent struct {
	plan.Event
	lines    []string
	off      bool
	guardian plan.ID // of a minor: who gets it as well
}

// calendarMaker has what the events of all calendars share.
type calendarMaker struct {
	*plan.Plan
	days  []day.Day
	made  time.Time
	zone  *time.Location
	last  plan.Calendar // what was written before
	from  mail.Address  // the organizer, where there is an address
	maker plan.Person
}

func newCalendarMaker(p *plan.Plan, days []day.Day, made time.Time) *calendarMaker {
	m := &calendarMaker{Plan: p, days: days, made: made, zone: zoneOf(p)}
	if len(days) > 0 {
		m.zone = newCaller(p, days[0]).zone
	}
	m.maker, _ = people.Maker(p)
	if address, err := mailAddress(m.maker.Email); err == nil {
		m.from = mail.Address{Name: m.maker.Name, Address: address}
	}
	return m
}

// anew reports whether all that was written before is over, and all that is to be written lies ahead. Then it is another shoot, as of a
// plan that was copied from the last job's: moved events would take that one out of everybody's past.
func (m *calendarMaker) anew(live []calendarEvent) bool {
	past := func(e plan.Event) bool { return e.To.Before(m.made) }
	ahead := func(e calendarEvent) bool { return e.From.After(m.made) }
	every := func(n int) bool { return n == 0 }
	return len(live) > 0 && every(len(slices.DeleteFunc(slices.Clone(m.last.Events), past))) && every(len(slices.DeleteFunc(slices.Clone(live), ahead)))
}

// events are the days as they stand, those of all before each person's.
func (m *calendarMaker) events() []calendarEvent {
	var all, own []calendarEvent
	for _, d := range m.days {
		if d.Call.IsZero() {
			continue
		}
		t := dayTeller{newCaller(m.Plan, d), m}
		all = append(all, t.event("", plan.Span{From: d.Call, To: d.Wrap}, t.forAll()))
		for _, called := range d.People {
			own = append(own, t.event(called.Person, plan.Span{From: called.Call, To: called.Release}, t.forOne(called)))
		}
	}
	return append(all, own...)
}

// gone are the events that were written before and are no more.
func (m *calendarMaker) gone(live []calendarEvent) []calendarEvent {
	var out []calendarEvent
	for _, e := range m.last.Events {
		if slices.ContainsFunc(live, func(o calendarEvent) bool { return o.Person == e.Person && o.Day == e.Day }) {
			continue
		}
		lines := append(m.when(e), "SUMMARY:"+calendarText("Called off: "+filmTitle(m.Plan)), "STATUS:CANCELLED", "TRANSP:TRANSPARENT")
		out = append(out, calendarEvent{Event: e, lines: append(lines, m.organizer()...), off: true})
	}
	return out
}

// number gives an event its digest, and the SEQUENCE that follows from what was written before (RFC 5545, section 3.8.7.4).
func (m *calendarMaker) number(e *calendarEvent) {
	e.Digest, e.Sequence = digestOf(e.lines), 0
	for _, before := range m.last.Events {
		if before.Person == e.Person && before.Day == e.Day {
			if e.Sequence = before.Sequence; before.Digest != e.Digest {
				e.Sequence++
			}
		}
	}
}

// when are the times of an event. One that would not end after its start has no end (RFC 5545, section 3.8.2.2).
func (m *calendarMaker) when(e plan.Event) []string {
	out := []string{dateTime("DTSTART", e.From, m.zone)}
	if e.To.After(e.From) {
		out = append(out, dateTime("DTEND", e.To, m.zone))
	}
	return out
}

func (m *calendarMaker) organizer() []string {
	if m.from.Address == "" {
		return nil
	}
	return []string{organizer(m.from)}
}

// readers are all, those in the plan, and those who have left it since.
func (m *calendarMaker) readers(all []calendarEvent) []plan.ID {
	out := []plan.ID{""}
	for _, who := range m.People {
		out = append(out, who.ID)
	}
	for _, e := range all {
		if !slices.Contains(out, e.Person) {
			out = append(out, e.Person)
		}
	}
	return out
}

// file is what one reader gets, if anything.
func (m *calendarMaker) file(reader plan.ID, all []calendarEvent) (CalendarFile, bool) {
	f := CalendarFile{Person: reader, Name: calendarFile(reader), Off: true}
	var events []calendarEvent
	for _, e := range all {
		over := e.off && e.To.Before(m.made)
		if !over && (e.Person == reader || reader != "" && e.guardian == reader) {
			events, f.Off = append(events, e), f.Off && e.off
		}
	}
	if len(events) == 0 {
		return f, false
	}
	if m.from.Address != "" {
		f.method = "PUBLISH"
	}
	f.Content = m.content(f.method, events)
	return f, true
}

func (m *calendarMaker) guardianOf(e plan.Event) plan.ID {
	if who, ok := m.Person(e.Person); ok && people.Minor(m.Plan, who, plan.DateOf(e.From.In(m.zone))) {
		return who.Guardian
	}
	return ""
}

func (m *calendarMaker) content(method string, events []calendarEvent) []byte {
	lines := []string{"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Eavelight//Papers//EN", "CALSCALE:GREGORIAN"}
	if method != "" {
		lines = append(lines, "METHOD:"+method)
	}
	from, to := events[0].From, events[0].To
	for _, e := range events {
		if e.From.Before(from) {
			from = e.From
		}
		if e.To.After(to) {
			to = e.To
		}
	}
	lines = append(lines, timeZone(m.zone, from, to)...)
	for _, e := range events {
		lines = append(lines, "BEGIN:VEVENT", "UID:"+calendarUID(m.last.Key, e.Event), "DTSTAMP:"+m.made.UTC().Format(utcForm), fmt.Sprintf("SEQUENCE:%d", e.Sequence))
		lines = append(append(lines, e.lines...), "END:VEVENT")
	}
	var out bytes.Buffer
	for _, line := range append(lines, "END:VCALENDAR") {
		calendarLine(&out, line)
	}
	return out.Bytes()
}
