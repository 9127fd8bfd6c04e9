package light

import (
	"math"
	"time"

	"eavelight/plan"
)

// Score is how well each minute of a Sky fulfils one scene's wish.
type Score struct {
	Value []float64 // 0..1 for each minute, lowered by the cloud expected where the wish needs the sun itself
	Holds []bool    // whether the minute lies in the wish's window, whatever the cloud; Value may be above 0 a little outside it
}

// condition is one thing a wish asks of a minute: how far inside (above 0) or outside it the minute is, and over what
// distance outside its value falls from 1 to 0. So a little early costs a little.
type condition struct {
	margin   func(minute int) float64
	shoulder float64
}

// The shoulders, in degrees unless said otherwise: a choice of ours, no published source, but for the disc's own radius.
const (
	altitudeShoulder  = 1.0
	highSunShoulder   = 5.0
	daylightShoulder  = 3.0
	darkShoulder      = 2.0
	incidenceShoulder = 5.0
	cameraShoulder    = 10.0
	discShoulder      = float64(SunRadius)
	hourShoulder      = 0.5 // hours past noon or midnight
	patchShoulder     = 0.5 // metres of sun on the floor
	shortestPatch     = 0.5 // metres that make a sun patch worth filming: common practice, no published source
	skylineBand       = 1.0 // sunrise and sunset: the disc within a degree of the visible skyline
	cameraCone        = 45.0
)

// Score evaluates a scene's wish for every minute. A wish that lacks a figure it needs (a face, a camera bearing, windows)
// never holds; Lacks of package plan names the figure.
func (s *Sky) Score(sc plan.Scene) Score {
	asks, known := s.conditions(sc)
	out := Score{Value: make([]float64, len(s.Minutes)), Holds: make([]bool, len(s.Minutes))}
	if !known {
		return out
	}
	sun := NeedsSun(sc.Wish)
	for i := range s.Minutes {
		value, holds := 1.0, true
		for _, c := range asks {
			m := c.margin(i)
			if m >= 0 {
				continue
			}
			holds = false
			value = min(value, max(0, 1+m/c.shoulder))
		}
		if sun {
			value *= 1 - s.Cloud(i)
		}
		out.Value[i], out.Holds[i] = value, holds
	}
	return out
}

// Windows are the stretches in which a scene's wish holds.
func (s *Sky) Windows(score Score) []plan.Span {
	return s.spans(func(i int) bool { return score.Holds[i] })
}

// conditions translates a wish. known is false where a needed figure is missing.
func (s *Sky) conditions(sc plan.Scene) (asks []condition, known bool) {
	w, at := sc.Wish, s.spot(sc.Space)
	bright := s.above(s.Events.RiseAltitude, daylightShoulder)
	switch w.Kind.Or() {
	case plan.GoldenMorning, plan.GoldenEvening:
		asks = []condition{s.between(s.limit.GoldenLow, s.limit.GoldenHigh), s.half(w.Kind == plan.GoldenMorning)}
		if w.Direct {
			asks = append(asks, at.seen())
		}
	case plan.BlueMorning, plan.BlueEvening:
		asks = []condition{s.between(s.limit.BlueLow, s.limit.BlueHigh), s.half(w.Kind == plan.BlueMorning)}
	case plan.Sunrise, plan.Sunset:
		asks = []condition{at.onSkyline(), s.half(w.Kind == plan.Sunrise)}
	case plan.FaceLit, plan.FaceShade:
		face, ok := faceOf(s.house, w.Face)
		if !ok {
			return nil, false
		}
		if w.Kind == plan.FaceLit {
			return []condition{at.seen(), s.incidence(face, plan.OrUsual(w.Incidence, plan.UsualIncidence))}, true
		}
		asks = []condition{at.shade([]plan.Face{face}), bright}
	case plan.Backlit, plan.SideLit, plan.FrontLit:
		if w.Camera == nil {
			return nil, false
		}
		asks = []condition{at.seen(), s.camera(w.Kind, *w.Camera), s.below(plan.OrUsual(w.MaxAltitude, plan.UsualMaxAltitude), highSunShoulder)}
	case plan.SunPatch, plan.SoftWindow:
		if len(at.faces) == 0 {
			return nil, false
		}
		if w.Kind == plan.SunPatch {
			return []condition{at.seen(), at.patch()}, true
		}
		asks = []condition{at.shade(at.faces), bright}
	case plan.HighSun:
		asks = []condition{at.seen(), s.above(plan.OrUsual(w.MinAltitude, plan.UsualMinAltitude), highSunShoulder)}
	case plan.Daylight:
		asks = []condition{bright}
	case plan.Dark:
		asks = []condition{s.below(plan.OrUsual(w.Below, plan.UsualDark), darkShoulder)}
	}
	return asks, true
}

func (s *Sky) above(h plan.Angle, shoulder float64) condition {
	return condition{func(i int) float64 { return float64(s.Minutes[i].Altitude - h) }, shoulder}
}

func (s *Sky) below(h plan.Angle, shoulder float64) condition {
	return condition{func(i int) float64 { return float64(h - s.Minutes[i].Altitude) }, shoulder}
}

func (s *Sky) between(low, high plan.Angle) condition {
	return condition{func(i int) float64 {
		h := s.Minutes[i].Altitude
		return float64(min(h-low, high-h))
	}, altitudeShoulder}
}

// half asks for the day's own morning (lower transit to noon) or evening (noon to lower transit).
func (s *Sky) half(morning bool) condition {
	from, to := s.Events.Noon, s.Events.After
	if morning {
		from, to = s.Events.Before, s.Events.Noon
	}
	return condition{func(i int) float64 {
		t := s.Time(i)
		return min(t.Sub(from), to.Sub(t)).Hours()
	}, hourShoulder}
}

// seen asks that the sun's centre be seen above the skyline; the value falls to 0 as the rest of the disc goes.
func (at *spot) seen() condition {
	return condition{func(i int) float64 { return float64(at.over(i)) }, discShoulder}
}

func (at *spot) onSkyline() condition {
	return condition{func(i int) float64 { return skylineBand - math.Abs(float64(at.over(i))) }, altitudeShoulder}
}

func (s *Sky) incidence(face plan.Face, largest plan.Angle) condition {
	return condition{func(i int) float64 { return float64(largest - s.Minutes[i].Incidence(face.Bearing)) }, incidenceShoulder}
}

// shade asks that the sun be on none of the faces: behind the wall or behind the skyline.
func (at *spot) shade(faces []plan.Face) condition {
	return condition{func(i int) float64 {
		least := math.Inf(1)
		for _, f := range faces {
			least = min(least, float64(max(at.Minutes[i].Incidence(f.Bearing)-90, -at.over(i))))
		}
		return least
	}, incidenceShoulder}
}

// camera asks that the sun stand ahead of the lens (backlit), behind it (front-lit) or beside it, by bearing: within 45
// degrees ahead, within 45 behind, else.
func (s *Sky) camera(kind plan.WishKind, looks plan.Bearing) condition {
	return condition{func(i int) float64 {
		ahead := float64(s.Minutes[i].Azimuth.Apart(looks))
		switch kind {
		case plan.Backlit:
			return cameraCone - ahead
		case plan.FrontLit:
			return ahead - (180 - cameraCone)
		}
		return min(ahead-cameraCone, 180-cameraCone-ahead)
	}, cameraShoulder}
}

// patch asks for sun on the floor: it reaches head * cot(altitude) * cos(azimuth - bearing) into the room. Where the
// windows' head height was not said, it is enough that the sun strikes the glass within the usual incidence.
func (at *spot) patch() condition {
	inside, shoulder := func(m *Minute, f plan.Face) float64 {
		return float64(m.Reach(f.Bearing, at.space.Head)) - shortestPatch
	}, patchShoulder
	if at.space.Head == 0 {
		inside, shoulder = func(m *Minute, f plan.Face) float64 {
			return float64(plan.UsualIncidence - m.Incidence(f.Bearing))
		}, incidenceShoulder
	}
	return condition{func(i int) float64 {
		best := math.Inf(-1)
		for _, f := range at.faces {
			best = max(best, inside(&at.Minutes[i], f))
		}
		return best
	}, shoulder}
}

// Reach is how far into a room the sun falls through a window of that head height in a wall that looks toward a bearing;
// below 0 where the sun is behind the wall. The sun on the horizon would reach without end: it counts as half a degree up.
func (s Sun) Reach(face plan.Bearing, head plan.Metres) plan.Metres {
	const rad = math.Pi / 180
	alt := max(float64(s.Apparent), 0.5) * rad
	return head * plan.Metres(math.Cos(float64(s.Azimuth-face)*rad)/math.Tan(alt))
}

// Mean is the scene's light value for a shooting of some minutes that starts at a minute, and whether its window holds
// throughout. Outside the sky it is 0.
func (sc Score) Mean(start, minutes int) (value float64, holds bool) {
	if minutes <= 0 || start < 0 || start+minutes > len(sc.Value) {
		return 0, false
	}
	holds = true
	for i := start; i < start+minutes; i++ {
		value += sc.Value[i]
		holds = holds && sc.Holds[i]
	}
	return value / float64(minutes), holds
}

// Window is the window of a wish that a moment lies in, or else the nearest one. ok is false where there is none.
func Window(windows []plan.Span, t time.Time) (best plan.Span, ok bool) {
	nearest := time.Duration(math.MaxInt64)
	for _, w := range windows {
		d := max(w.From.Sub(t), t.Sub(w.To), 0)
		if d < nearest {
			best, nearest, ok = w, d, true
		}
	}
	return best, ok
}
