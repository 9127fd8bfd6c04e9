package papers

import (
	"fmt"
	"time"

	"eavelight/plan"
)

// wall tells times as the wall clock at the property shows them on a shooting day.
type wall struct {
	style
	date plan.Date
	zone *time.Location
}

// clock prints "18:05", "00:20 +1" on the next date, "23:50 -1" on the one before, and words for no time at all.
func (w wall) clock(t time.Time) string {
	if t.IsZero() {
		return "not set"
	}
	local := t.Round(time.Minute).In(w.zone)
	return w.hour(local) + w.apart(local)
}

// apart marks a local time that is not of the shooting day's date.
func (w wall) apart(local time.Time) string {
	if days := w.days(local); days != 0 {
		return fmt.Sprintf("\u00a0%+d", days)
	}
	return ""
}

// days counts the midnights from the shooting day's date to a local time's.
func (w wall) days(local time.Time) int {
	noon := func(d plan.Date) time.Time { return time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC) }
	return int(noon(plan.DateOf(local)).Sub(noon(w.date)) / (24 * time.Hour))
}

// span prints "18:05–18:40"; a mark that both ends share stands once.
func (w wall) span(s plan.Span) string {
	from, to := s.From.Round(time.Minute).In(w.zone), s.To.Round(time.Minute).In(w.zone)
	if !s.From.IsZero() && !s.To.IsZero() && plan.DateOf(from) == plan.DateOf(to) {
		return w.hours(from, to) + w.apart(to)
	}
	return w.clock(s.From) + "–" + w.clock(s.To)
}

// offset prints the zone's distance from UTC at a moment: "UTC-7", "UTC+5:45".
func (w wall) offset(t time.Time) string {
	_, seconds := t.In(w.zone).Zone()
	sign := '+'
	if seconds < 0 {
		sign, seconds = '-', -seconds
	}
	hours, minutes := seconds/3600, seconds/60%60
	switch {
	case seconds < 60:
		return "UTC"
	case minutes == 0:
		return fmt.Sprintf("UTC%c%d", sign, hours)
	}
	return fmt.Sprintf("UTC%c%d:%02d", sign, hours, minutes)
}
