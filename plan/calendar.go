package plan

import (
	"fmt"
	"time"

	"eavelight/plan/say"
)

// Calendar is what the calendars said that were written last: so that the next ones move their events and don't double them.
type Calendar struct {
	Key    string // SHA-256 in hex, which the events' names are made from; empty: none was written yet
	Events []Event
}

// Event is a shooting day as it was written into calendars.
type Event struct {
	Person   ID // whose day; empty: for all. They may have left the plan since
	Day      int
	Sequence int    // how often it has changed
	Digest   string // SHA-256 of what it said, in hex
	From, To time.Time
}

func (v *validator) calendar() {
	c := v.plan.Papers.Calendar
	if c.Key != "" || len(c.Events) > 0 {
		v.digest("papers.calendar.key", c.Key)
	}
	type name struct {
		person ID
		day    int
	}
	seen := map[name]bool{}
	for i, e := range c.Events {
		at := fmt.Sprintf("papers.calendar.events[%d]", i)
		if e.Person != "" && !isID(e.Person) {
			v.wrong(at+".person", BadID, string(e.Person))
		}
		if seen[name{e.Person, e.Day}] {
			v.wrong(at, NamedTwice, say.That("%s day %d", string(e.Person), e.Day))
		}
		seen[name{e.Person, e.Day}] = true
		v.within(at+".day", float64(e.Day), 1, maxDays)
		v.within(at+".sequence", float64(e.Sequence), 0, maxCount)
		v.digest(at+".digest", e.Digest)
		v.instant(at+".from", e.From)
		v.instant(at+".to", e.To)
	}
}

func (v *validator) instant(at string, t time.Time) {
	if t.IsZero() {
		v.wrong(at, MissingInstant)
		return
	}
	v.within(at, float64(t.UTC().Year()), 1900, 2100)
}
