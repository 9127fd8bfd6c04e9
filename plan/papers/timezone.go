package papers

import (
	"fmt"
	"time"
)

const (
	localForm = "20060102T150405"  // RFC 5545, section 3.3.5, form 1 and 3
	utcForm   = "20060102T150405Z" // form 2
)

// dateTime is a property with the moment that it names: on the property's wall clock, or in UTC where its zone is UTC. So is a moment
// of the hour that the clock shows twice, in the night that clocks are set back: a local time there means the first (RFC 5545, section
// 3.3.5), and some readers take it for the second.
func dateTime(name string, t time.Time, zone *time.Location) string {
	t = t.In(zone)
	if isUTC(zone) || shownTwice(t) {
		return name + ":" + t.UTC().Format(utcForm)
	}
	return name + ";TZID=" + zone.String() + ":" + t.Format(localForm)
}

func isUTC(zone *time.Location) bool {
	switch zone.String() {
	case "UTC", "Etc/UTC", "":
		return true
	}
	return false
}

// shownTwice reports whether the wall clock shows the same at another moment, an hour or so earlier or later.
func shownTwice(t time.Time) bool {
	start, next := t.ZoneBounds()
	again := !start.IsZero() && t.Sub(start) < offset(start.Add(-time.Second))-offset(t)
	return again || !next.IsZero() && next.Sub(t) <= offset(t)-offset(next)
}

func offset(t time.Time) time.Duration {
	_, seconds := t.Zone()
	return time.Duration(seconds) * time.Second
}

// timeZone is the VTIMEZONE of a zone (RFC 5545, section 3.6.5): what holds on New Year of from's year, and every change until the end
// of the year after to's. A change is told by itself and not by a rule, because only what has been decided is known.
func timeZone(zone *time.Location, from, to time.Time) []string {
	if isUTC(zone) {
		return nil
	}
	out := []string{"BEGIN:VTIMEZONE", "TZID:" + zone.String()}
	at := time.Date(from.In(zone).Year(), time.January, 1, 0, 0, 0, 0, zone)
	end := time.Date(to.In(zone).Year()+2, time.January, 1, 0, 0, 0, 0, zone)
	for {
		start, next := at.ZoneBounds()
		out = append(out, observance(at, start)...)
		if next.IsZero() || !next.Before(end) {
			return append(out, "END:VTIMEZONE")
		}
		at = next
	}
}

// observance is what holds at a moment, and since when by the clock as it went before. What has held for longer than anybody's calendar
// goes back is told to hold since 1970; some readers can't take the local mean times before, with their seconds.
func observance(at, start time.Time) []string {
	kind, before, onset := "STANDARD", offset(at), "19700101T000000"
	if start.Year() >= 1970 {
		before = offset(start.Add(-time.Second))
		onset = start.UTC().Add(before).Format(localForm)
	}
	if at.IsDST() {
		kind = "DAYLIGHT"
	}
	name, _ := at.Zone()
	return []string{"BEGIN:" + kind, "DTSTART:" + onset, "TZOFFSETFROM:" + utcOffset(before), "TZOFFSETTO:" + utcOffset(offset(at)),
		"TZNAME:" + calendarText(name), "END:" + kind}
}

// utcOffset is an offset as RFC 5545, section 3.3.14, has it: "-0800", with seconds only where there are some.
func utcOffset(d time.Duration) string {
	sign, s := "+", int(d/time.Second)
	if s < 0 {
		sign, s = "-", -s
	}
	out := fmt.Sprintf("%s%02d%02d", sign, s/3600, s/60%60)
	if s%60 != 0 {
		out += fmt.Sprintf("%02d", s%60)
	}
	return out
}

// durationBefore is a stretch before something, as RFC 5545, section 3.3.6, has it, in exact hours and minutes: a "day" would be 23 or 25
// hours where clocks change.
func durationBefore(d time.Duration) string {
	minutes := int(d / time.Minute)
	out := "-PT"
	if h := minutes / 60; h > 0 {
		out += fmt.Sprintf("%dH", h)
	}
	if m := minutes % 60; m > 0 {
		out += fmt.Sprintf("%dM", m)
	}
	return out
}
