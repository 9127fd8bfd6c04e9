package light

import (
	"context"
	"time"

	"eavelight/plan"
)

// Year is when one scene's wish holds through the dates of a year, for a picture of date by hour.
type Year []YearDay

// YearDay is one date of it. Clocks are the wall clock's at the property and run on past 24:00, like the day's light.
type YearDay struct {
	Date      plan.Date
	Rise, Set plan.Clock // NoClock where there is none
	SunUp     bool       // where there is none: the sun stays up
	Holds     []ClockSpan
}

// ClockSpan is a stretch of a day by the wall clock.
type ClockSpan struct{ From, To plan.Clock }

// YearOf finds when a scene's wish holds on every date of a year, whatever the weather. The plan's position must be set. It
// ends early with the context's error.
func YearOf(ctx context.Context, p *plan.Plan, zone *time.Location, sc plan.Scene, year int) (Year, error) {
	first, next := plan.Date{Year: year, Month: time.January, Day: 1}, plan.Date{Year: year + 1, Month: time.January, Day: 1}
	midnight := plan.ClockAt(0)
	track := NewTrack(p.Property, plan.Instant(first, midnight, zone).Add(-36*time.Hour), plan.Instant(next, midnight, zone).Add(36*time.Hour))
	line := NewSkyline(p.Property)
	out := make(Year, 0, 366)
	var room []Minute
	for d := first; d != next; d = d.AddDays(1) {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s := newSky(p, zone, d, track, line, room)
		room = s.Minutes
		out = append(out, s.yearDay(sc))
	}
	return out, nil
}

func (s *Sky) yearDay(sc plan.Scene) YearDay {
	clock := func(t time.Time) plan.Clock {
		if t.IsZero() {
			return plan.NoClock
		}
		return s.Clock(s.MinuteOf(t))
	}
	day := YearDay{Date: s.Events.Date, Rise: clock(s.Events.Rise.Up), Set: clock(s.Events.Rise.Down), SunUp: s.Events.Rise.Above}
	asks, known := s.spot(sc.Space).conditions(sc.Wish)
	if !known {
		return day
	}
	for _, w := range s.spans(func(i int) bool { return holds(asks, i) }) {
		day.Holds = append(day.Holds, ClockSpan{clock(w.From), clock(w.To)})
	}
	return day
}
