package light

import (
	"math"
	"slices"
	"sync"
	"time"

	"eavelight/plan"
)

// Sky is the light over a property through one shooting day, minute by minute: from midnight of its date to the end of the
// night's first half (the sun's lower transit), or to the latest wrap where that is later. Build it once a day and ask it
// for every scene.
type Sky struct {
	Events  Events
	Start   time.Time // minute 0: the first moment of the date
	Minutes []Minute

	zone    *time.Location
	house   plan.Property
	limit   plan.LightLimits
	line    Skyline
	weather []forecast

	official func() []Events
}

// Minute is what the sky is like at one minute.
type Minute struct {
	Sun
	Skyline plan.Angle // at the sun's bearing
}

// Direct reports whether the sun reaches the property: its centre is seen above the skyline.
func (m Minute) Direct() bool { return m.Apparent >= m.Skyline }

// NewSky computes the sky of a date. Without a position it has no sun and no moon: minutes in which only the clock tells.
func NewSky(p *plan.Plan, zone *time.Location, d plan.Date) *Sky {
	if p.Property.Position == nil {
		return newClock(p, zone, d)
	}
	start := plan.Instant(d, plan.ClockAt(0), zone)
	return newSky(p, zone, d, NewTrack(p.Property, start.Add(-36*time.Hour), start.Add(60*time.Hour)), NewSkyline(p.Property), nil)
}

// newSky builds a sky from a track that reaches a day and a half to either side of the date. The minutes are written into
// room where it is large enough.
func newSky(p *plan.Plan, zone *time.Location, d plan.Date, track *Track, line Skyline, room []Minute) *Sky {
	midday := plan.Instant(d, plan.ClockAt(12*60), zone)
	s := &Sky{
		Events: track.events(d, midday, RiseAltitudeOf(p.Property), p.Shooting.Light),
		Start:  plan.Instant(d, plan.ClockAt(0), zone),
		zone:   zone,
		house:  p.Property,
		limit:  p.Shooting.Light,
		line:   line,
	}
	count := max(s.MinuteOf(s.Events.After), s.MinuteAt(p.Shooting.LatestWrap))
	s.Minutes = slices.Grow(room[:0], count)[:count]
	for i, sun := range track.Minutes(s.Start, count) {
		s.Minutes[i] = Minute{Sun: sun, Skyline: line.At(sun.Azimuth)}
	}
	s.weather = s.forecasts(p.Shooting.Weather)
	s.official = sync.OnceValue(s.officials)
	return s
}

// Official are the events by which the law tells day and night, on a free horizon at the height of the sea, whatever stands around
// the property: of the date before the sky's (where the clock is far from the sun, that day may end after midnight), of its own,
// and of the two after it. There are none without a position. They are worked out when they are asked for first.
func (s *Sky) Official() []Events {
	if s.official == nil {
		return nil
	}
	return s.official()
}

func (s *Sky) officials() (out []Events) {
	for days := -1; days <= 2; days++ {
		out = append(out, EventsOf(plan.Property{Position: s.house.Position}, s.zone, s.Events.Date.AddDays(days), s.limit))
	}
	return out
}

// newClock builds a sky with nothing in it.
func newClock(p *plan.Plan, zone *time.Location, d plan.Date) *Sky {
	s := &Sky{
		Events: Events{Date: d, Noon: plan.Instant(d, plan.ClockAt(12*60), zone)},
		Start:  plan.Instant(d, plan.ClockAt(0), zone),
		zone:   zone, house: p.Property, limit: p.Shooting.Light, line: NewSkyline(p.Property),
	}
	s.Minutes = make([]Minute, max(s.MinuteAt(p.Shooting.LatestWrap), 24*60))
	for i := range s.Minutes {
		s.Minutes[i].Altitude, s.Minutes[i].Apparent = noSun, noSun
	}
	s.weather = s.forecasts(p.Shooting.Weather)
	return s
}

// noSun is the sun's altitude where there is no position to see it from.
const noSun = -90

// Time is the instant of a minute of the sky. Minutes are real minutes: on a day when the clock changes they part from the
// wall clock, which is why callers convert by Time and MinuteOf and never by adding clock times.
func (s *Sky) Time(minute int) time.Time { return s.Start.Add(time.Duration(minute) * time.Minute) }

// MinuteOf is the sky's minute at an instant, which may lie outside the sky.
func (s *Sky) MinuteOf(t time.Time) int { return int(math.Round(t.Sub(s.Start).Minutes())) }

// MinuteAt is the sky's minute at a wall-clock time.
func (s *Sky) MinuteAt(c plan.Clock) int {
	return s.MinuteOf(plan.Instant(s.Events.Date, c, s.zone))
}

// Clock is what the wall clock at the property shows at a minute of the sky.
func (s *Sky) Clock(minute int) plan.Clock {
	return plan.ClockOn(s.Events.Date, s.Time(minute), s.zone)
}

// Incidence is the angle between the sun's ray and the normal of a vertical wall that looks toward a bearing; over 90
// degrees the sun is behind the wall: cos i = cos(altitude) cos(azimuth - bearing), IncidenceOn for a slope of 90 degrees.
func (s Sun) Incidence(face plan.Bearing) plan.Angle {
	return plan.Angle(math.Acos(math.Cos(float64(s.Apparent)*rad)*math.Cos(float64(s.Azimuth-face)*rad)) / rad)
}

// IncidenceOn is the angle between the sun's ray and the normal of a plane: how far it slopes from the level (a wall: 90),
// and the bearing it looks toward. Equation 47 of Reda & Andreas, NREL/TP-560-34302, counted from north.
func (s Sun) IncidenceOn(slope plan.Angle, looks plan.Bearing) plan.Angle {
	sinAlt, cosAlt := math.Sincos(float64(s.Apparent) * rad)
	sinSlope, cosSlope := math.Sincos(float64(slope) * rad)
	c := sinAlt*cosSlope + cosAlt*sinSlope*math.Cos(float64(s.Azimuth-looks)*rad)
	return plan.Angle(math.Acos(min(max(c, -1), 1)) / rad)
}

// Lit reports whether the sun shines on a face at a minute.
func (m Minute) Lit(face plan.Bearing) bool { return m.Direct() && m.Incidence(face) < 90 }

// FaceHours are the stretches in which the sun is on a face.
func (s *Sky) FaceHours(face plan.Bearing) []plan.Span {
	return s.spans(func(i int) bool { return s.Minutes[i].Lit(face) })
}

// SunOver are the stretches in which the sun stands above the skyline.
func (s *Sky) SunOver() []plan.Span {
	return s.spans(func(i int) bool { return s.Minutes[i].Direct() })
}

// spans joins the minutes that hold into stretches of time.
func (s *Sky) spans(holds func(minute int) bool) []plan.Span {
	var out []plan.Span
	from := -1
	for i := 0; i <= len(s.Minutes); i++ {
		in := i < len(s.Minutes) && holds(i)
		switch {
		case in && from < 0:
			from = i
		case !in && from >= 0:
			out = append(out, plan.Span{From: s.Time(from), To: s.Time(i)})
			from = -1
		}
	}
	return out
}
