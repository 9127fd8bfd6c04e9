package light

import (
	"time"

	"eavelight/plan"
)

// forecast is a row of the plan's weather laid over the sky's minutes, as shares.
type forecast struct {
	from, to    int
	cloud, rain float64
}

// forecasts picks the rows that speak of the sky's date, those of the date itself after those of every date, so that the
// last one that covers a minute is the one that holds. A row is about the shooting day, whose clock runs on past 24:00;
// where it says no beginning or end it is open there.
func (s *Sky) forecasts(rows []plan.Weather) (out []forecast) {
	for _, date := range []plan.Date{{}, s.Events.Date} {
		for _, w := range rows {
			if w.Date != date {
				continue
			}
			out = append(out, forecast{
				from:  s.MinuteAt(w.From.Or(plan.ClockAt(0))),
				to:    s.MinuteAt(w.To.Or(plan.ClockAt(plan.LastClock))),
				cloud: share(w.Cloud),
				rain:  share(w.Rain),
			})
		}
	}
	return out
}

func share(hundredths int) float64 { return min(max(float64(hundredths)/100, 0), 1) }

func (s *Sky) forecast(minute int) forecast {
	for i := len(s.weather) - 1; i >= 0; i-- {
		if w := s.weather[i]; minute >= w.from && minute < w.to {
			return w
		}
	}
	return forecast{}
}

// Cloud is how much of the sky is expected to be covered at a minute, 0..1; clear where the plan says nothing.
func (s *Sky) Cloud(minute int) float64 { return s.forecast(minute).cloud }

// Rain is the chance of rain expected at a minute, 0..1; none where the plan says nothing.
func (s *Sky) Rain(minute int) float64 { return s.forecast(minute).rain }

// Expect is the mean cloud and the mean chance of rain from one moment to another, each 0..1.
func (s *Sky) Expect(from, to time.Time) (cloud, rain float64) {
	first, last := s.MinuteOf(from), s.MinuteOf(to)
	if last <= first {
		last = first + 1
	}
	for i := first; i < last; i++ {
		w := s.forecast(i)
		cloud += w.cloud
		rain += w.rain
	}
	n := float64(last - first)
	return cloud / n, rain / n
}

// NeedsSun reports whether a wish asks for the sun itself, so that cloud takes its light away.
func NeedsSun(w plan.Wish) bool {
	switch w.Kind {
	case plan.GoldenMorning, plan.GoldenEvening:
		return w.Direct
	case plan.Sunrise, plan.Sunset, plan.FaceLit, plan.Backlit, plan.SideLit, plan.FrontLit, plan.SunPatch, plan.HighSun:
		return true
	}
	return false
}
