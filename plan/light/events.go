package light

import (
	"math"
	"time"

	"eavelight/plan"
)

// Crossing is when the sun's centre passes an altitude on its way up and on its way down. A zero time means that it does
// not happen that day; then Above tells on which side the sun stays.
type Crossing struct {
	Up, Down time.Time
	Above    bool // where a time is zero, even if only one of them: the sun stays above
}

// Events are the moments of one day's light at one place, before weather and without a skyline. The day's own sunrise is
// the one before its noon, its sunset the one after, whatever date the clock shows by then.
type Events struct {
	Date         plan.Date
	Noon         time.Time // upper transit of the sun's centre
	NoonAltitude plan.Angle
	Before       time.Time  // the lower transit before noon
	After        time.Time  // the lower transit after noon
	RiseAltitude plan.Angle // of the centre at rise and set, by the property's air and horizon
	Rise         Crossing   // of the upper limb
	Civil        Crossing   // 6 degrees under
	Nautical     Crossing   // 12
	Astronomical Crossing   // 18
	GoldenLow    Crossing
	GoldenHigh   Crossing
	BlueLow      Crossing
	BlueHigh     Crossing
}

// EventsOf computes the events of a date at a property, whose position must be set.
func EventsOf(h plan.Property, zone *time.Location, d plan.Date, limits plan.LightLimits) Events {
	midday := plan.Instant(d, plan.ClockAt(12*60), zone)
	return NewTrack(h, midday.Add(-36*time.Hour), midday.Add(36*time.Hour)).events(d, midday, RiseAltitudeOf(h), limits)
}

// events finds the day's moments around midday on a track that reaches a day and a half to either side.
func (t *Track) events(d plan.Date, midday time.Time, rise plan.Angle, limits plan.LightLimits) Events {
	e := Events{Date: d, RiseAltitude: rise}
	e.Noon = t.transit(midday, 0)
	e.NoonAltitude = t.At(e.Noon).Altitude
	e.Before = t.transit(e.Noon.Add(-12*time.Hour), 180)
	e.After = t.transit(e.Noon.Add(12*time.Hour), 180)
	cross := func(h plan.Angle) Crossing { return t.crossing(e, h) }
	e.Rise, e.Civil, e.Nautical, e.Astronomical = cross(rise), cross(-6), cross(-12), cross(-18)
	e.GoldenLow, e.GoldenHigh = cross(limits.GoldenLow), cross(limits.GoldenHigh)
	e.BlueLow, e.BlueHigh = cross(limits.BlueLow), cross(limits.BlueHigh)
	return e
}

// transit finds when the local hour angle is target, in degrees, nearest to a moment.
func (t *Track) transit(near time.Time, target float64) time.Time {
	const day = 24 * float64(time.Hour)
	for range 3 { // the sun's own motion makes each step leave a 365th of the one before
		off := math.Remainder(target-t.ray(t.steps(near)).hourAngle-t.observer.lon, 360)
		near = near.Add(time.Duration(off / 360 * day))
	}
	return near
}

// crossing looks for the way up between the lower transit and noon, and for the way down after it.
func (t *Track) crossing(e Events, h plan.Angle) Crossing {
	up, upSide := t.meet(e.Before, e.Noon, h)
	down, downSide := t.meet(e.After, e.Noon, h)
	return Crossing{Up: up, Down: down, Above: upSide || downSide} // both below, or else none is
}

// meet finds by bisection when the altitude is h between a low and a high moment. Where it is not, the time is zero and the
// bool tells whether the sun stays above.
func (t *Track) meet(low, high time.Time, h plan.Angle) (time.Time, bool) {
	if t.At(high).Altitude <= h {
		return time.Time{}, false
	}
	if t.At(low).Altitude >= h {
		return time.Time{}, true
	}
	for high.Sub(low).Abs() > 100*time.Millisecond {
		mid := low.Add(high.Sub(low) / 2)
		if t.At(mid).Altitude < h {
			low = mid
		} else {
			high = mid
		}
	}
	return high.Round(time.Second), false
}

// Band is the stretch of a morning or an evening that lies between two altitudes, cut at noon and midnight where the sun
// does not reach them. It is empty where the sun never is between them.
type Band = plan.Span

// MorningBand is when the sun, rising, stands between the altitudes of two crossings.
func (e Events) MorningBand(low, high Crossing) Band {
	return band(e.Before, e.Noon, low.Up, high.Up, low.Above, high.Above)
}

// EveningBand is when the sun, sinking, stands between the altitudes of two crossings.
func (e Events) EveningBand(low, high Crossing) Band {
	b := band(e.After, e.Noon, low.Down, high.Down, low.Above, high.Above)
	return Band{From: b.To, To: b.From}
}

// band works from the dark end (a lower transit) to the bright end (noon); in the evening that is backward in time.
func band(dark, bright, low, high time.Time, lowAbove, highAbove bool) Band {
	if low.IsZero() && !lowAbove || high.IsZero() && highAbove {
		return Band{}
	}
	if low.IsZero() {
		low = dark
	}
	if high.IsZero() {
		high = bright
	}
	return Band{From: low, To: high}
}
