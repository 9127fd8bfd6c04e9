package light

import (
	"math"
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

	zone  *time.Location
	house plan.Property
	limit plan.LightLimits
}

// Minute is what the sky is like at one minute.
type Minute struct {
	Sun
	Skyline plan.Angle // at the sun's bearing
}

// Direct reports whether the sun reaches the property: its centre is seen above the skyline.
func (m Minute) Direct() bool { return m.Apparent >= m.Skyline }

// NewSky computes the sky of a date. The plan's position must be set.
func NewSky(p *plan.Plan, zone *time.Location, d plan.Date) *Sky {
	pos := *p.Property.Position
	s := &Sky{
		Events: EventsOf(pos, zone, d, p.Shooting.Light),
		Start:  plan.Instant(d, plan.ClockAt(0), zone),
		zone:   zone,
		house:  p.Property,
		limit:  p.Shooting.Light,
	}
	s.Minutes = make([]Minute, max(s.MinuteOf(s.Events.After), s.MinuteAt(p.Shooting.LatestWrap)))
	track := NewTrack(pos, s.Start, s.Time(len(s.Minutes)))
	line := NewSkyline(p.Property)
	for i := range s.Minutes {
		sun := track.At(s.Time(i))
		s.Minutes[i] = Minute{Sun: sun, Skyline: line.At(sun.Azimuth)}
	}
	return s
}

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
// degrees the sun is behind the wall. cos i = cos(altitude) cos(azimuth - bearing): equation 47 of Reda & Andreas,
// NREL/TP-560-34302, for a slope of 90 degrees.
func (s Sun) Incidence(face plan.Bearing) plan.Angle {
	const rad = math.Pi / 180
	c := math.Cos(float64(s.Apparent)*rad) * math.Cos(float64(s.Azimuth-face)*rad)
	return plan.Angle(math.Acos(c) / rad)
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
