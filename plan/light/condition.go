package light

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"eavelight/plan"
)

// condition is one thing a wish asks of a minute: how far inside (above 0) or outside it the minute is, and over what
// distance outside its value falls from 1 to 0. So a little early costs a little.
type condition struct {
	margin   func(minute int) float64
	shoulder float64
	asks     func() string // what it asks for, after "there is never"
	// tells is what happens as it begins or ends to hold, by a minute outside.
	tells func(minute int, begins bool) string
}

// worth is the value of a minute, 1 where every condition holds.
func worth(asks []condition, minute int) float64 {
	value := 1.0
	for i := range asks {
		if m := asks[i].margin(minute); m < 0 {
			if value = min(value, 1+m/asks[i].shoulder); value <= 0 {
				return 0
			}
		}
	}
	return value
}

// holds tells whether every condition holds at a minute.
func holds(asks []condition, minute int) bool {
	for i := range asks {
		if asks[i].margin(minute) < 0 {
			return false
		}
	}
	return true
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

// conditions translates a wish. known is false where a needed figure is missing.
func (at *spot) conditions(w plan.Wish) (asks []condition, known bool) {
	limit := at.limit
	switch w.Kind.Or() {
	case plan.GoldenMorning, plan.GoldenEvening:
		asks = []condition{at.between(limit.GoldenLow, limit.GoldenHigh), at.half(w.Kind == plan.GoldenMorning)}
		if w.Direct {
			asks = append(asks, at.seen())
		}
	case plan.BlueMorning, plan.BlueEvening:
		asks = []condition{at.between(limit.BlueLow, limit.BlueHigh), at.half(w.Kind == plan.BlueMorning)}
	case plan.Sunrise, plan.Sunset:
		asks = []condition{at.onSkyline(), at.half(w.Kind == plan.Sunrise)}
	case plan.FaceLit, plan.FaceShade:
		face, ok := faceOf(at.house, w.Face)
		if !ok {
			return nil, false
		}
		if w.Kind == plan.FaceLit {
			return []condition{at.seen(), at.incidence(face, plan.OrUsual(w.Incidence, plan.UsualIncidence))}, true
		}
		asks = []condition{at.shade([]plan.Face{face}), at.bright()}
	case plan.Backlit, plan.SideLit, plan.FrontLit:
		if w.Camera == nil {
			return nil, false
		}
		asks = []condition{at.seen(), at.camera(w.Kind, *w.Camera), at.below(plan.OrUsual(w.MaxAltitude, plan.UsualMaxAltitude), highSunShoulder)}
	case plan.SunPatch, plan.SoftWindow:
		if len(at.faces) == 0 {
			return nil, false
		}
		if w.Kind == plan.SunPatch {
			return []condition{at.seen(), at.patch()}, true
		}
		asks = []condition{at.shade(at.faces), at.bright()}
	case plan.HighSun:
		asks = []condition{at.seen(), at.above(plan.OrUsual(w.MinAltitude, plan.UsualMinAltitude), highSunShoulder)}
	case plan.Daylight:
		asks = []condition{at.bright()}
	case plan.Dark:
		asks = []condition{at.below(plan.OrUsual(w.Below, plan.UsualDark), darkShoulder)}
	}
	return asks, true
}

// passes tells that the sun climbs or sinks past an altitude around a minute outside a condition.
func (at *spot) passes(h plan.Angle) func(int, bool) string {
	return func(i int, _ bool) string {
		if at.Time(i).Before(at.Events.Noon) {
			return fmt.Sprintf("the sun climbs to %s", degrees(h))
		}
		return fmt.Sprintf("the sun sinks to %s", degrees(h))
	}
}

// bright asks for the sun to be up, seen or not: it is day.
func (at *spot) bright() condition {
	c := at.above(at.Events.RiseAltitude, daylightShoulder)
	c.asks = func() string { return "the day" }
	c.tells = func(i int, _ bool) string {
		if at.Time(i).Before(at.Events.Noon) {
			return "sunrise"
		}
		return "sunset"
	}
	return c
}

func (at *spot) above(h plan.Angle, shoulder float64) condition {
	return condition{
		margin:   func(i int) float64 { return float64(at.Minutes[i].Altitude - h) },
		shoulder: shoulder,
		asks:     func() string { return fmt.Sprintf("the sun above %s", degrees(h)) },
		tells:    at.passes(h),
	}
}

func (at *spot) below(h plan.Angle, shoulder float64) condition {
	return condition{
		margin:   func(i int) float64 { return float64(h - at.Minutes[i].Altitude) },
		shoulder: shoulder,
		asks:     func() string { return fmt.Sprintf("the sun below %s", degrees(h)) },
		tells:    at.passes(h),
	}
}

func (at *spot) between(low, high plan.Angle) condition {
	return condition{
		margin: func(i int) float64 {
			h := at.Minutes[i].Altitude
			return float64(min(h-low, high-h))
		},
		shoulder: altitudeShoulder,
		asks:     func() string { return fmt.Sprintf("the sun between %s and %s", degrees(low), degrees(high)) },
		tells: func(i int, begins bool) string {
			if at.Minutes[i].Altitude > high {
				return at.passes(high)(i, begins)
			}
			return at.passes(low)(i, begins)
		},
	}
}

// half asks for the day's own morning (lower transit to noon) or evening (noon to lower transit).
func (at *spot) half(morning bool) condition {
	from, to, name, last := at.Events.Noon, at.Events.After, "the evening", "the sun is at its lowest"
	if morning {
		from, to, name = at.Events.Before, at.Events.Noon, "the morning"
	}
	first, end := from.Sub(at.Start).Minutes(), to.Sub(at.Start).Minutes()
	return condition{
		margin:   func(i int) float64 { return min(float64(i)-first, end-float64(i)) / 60 },
		shoulder: hourShoulder,
		asks:     func() string { return name },
		tells: func(_ int, begins bool) string {
			if begins == morning {
				return last
			}
			return "solar noon"
		},
	}
}

// seen asks that the sun's centre be seen above the skyline; the value falls to 0 as the rest of the disc goes.
func (at *spot) seen() condition {
	return condition{
		margin:   func(i int) float64 { return float64(at.over(i)) },
		shoulder: discShoulder,
		asks:     func() string { return "the sun itself over the skyline" },
		tells: func(i int, begins bool) string {
			switch by := at.hider(i); {
			case by == "" && begins:
				return "the sun rises"
			case by == "":
				return "the sun sets"
			case begins:
				return "the sun comes out from behind " + by
			default:
				return "the sun goes behind " + by
			}
		},
	}
}

func (at *spot) onSkyline() condition {
	return condition{
		margin:   func(i int) float64 { return skylineBand - math.Abs(float64(at.over(i))) },
		shoulder: altitudeShoulder,
		asks:     func() string { return "the sun within a degree of the skyline" },
		tells: func(i int, begins bool) string {
			where := "over"
			if at.over(i) < 0 {
				where = "under"
			}
			return fmt.Sprintf("the sun is a degree %s the skyline", where)
		},
	}
}

func (at *spot) incidence(face plan.Face, largest plan.Angle) condition {
	return condition{
		margin:   func(i int) float64 { return float64(largest - at.Minutes[i].Incidence(face.Bearing)) },
		shoulder: incidenceShoulder,
		asks: func() string {
			return fmt.Sprintf("the sun within %s of straight on %s", degrees(largest), faceName(face))
		},
		tells: func(_ int, begins bool) string {
			if begins {
				return "the sun comes onto " + faceName(face)
			}
			return "the sun leaves " + faceName(face)
		},
	}
}

// shade asks that the sun be on none of the faces: behind the wall or behind the skyline.
func (at *spot) shade(faces []plan.Face) condition {
	inShade := func(i int, f plan.Face) plan.Angle { return max(at.Minutes[i].Incidence(f.Bearing)-90, -at.over(i)) }
	return condition{
		margin: func(i int) float64 {
			least := plan.Angle(math.Inf(1))
			for _, f := range faces {
				least = min(least, inShade(i, f))
			}
			return float64(least)
		},
		shoulder: incidenceShoulder,
		asks:     func() string { return "shade on " + faceNames(faces) },
		tells: func(i int, begins bool) string { // what the sun does, by the minute inside where it is hidden there
			inside := i - 1
			if begins {
				inside = i + 1
			}
			if at.within(inside) && at.over(inside) < 0 {
				return at.seen().tells(inside, !begins)
			}
			f := slices.MinFunc(faces, func(a, b plan.Face) int { return cmp.Compare(inShade(i, a), inShade(i, b)) })
			return at.incidence(f, 90).tells(i, !begins)
		},
	}
}

// camera asks that the sun stand ahead of the lens (backlit), behind it (front-lit) or beside it, by bearing: within 45
// degrees ahead, within 45 behind, else.
func (at *spot) camera(kind plan.WishKind, looks plan.Bearing) condition {
	looks = looks.Norm()
	where := map[plan.WishKind]string{plan.Backlit: "ahead of the lens", plan.FrontLit: "behind the lens", plan.SideLit: "beside the lens"}[kind]
	return condition{
		margin: func(i int) float64 {
			ahead := apart(at.Minutes[i].Azimuth, looks)
			switch kind {
			case plan.Backlit:
				return cameraCone - ahead
			case plan.FrontLit:
				return ahead - (180 - cameraCone)
			}
			return min(ahead-cameraCone, 180-cameraCone-ahead)
		},
		shoulder: cameraShoulder,
		asks:     func() string { return "the sun " + where },
		tells: func(_ int, begins bool) string {
			if begins {
				return "the sun comes " + where
			}
			return "the sun is no more " + where
		},
	}
}

// patch asks for sun on the floor: it reaches head * cot(altitude) * cos(azimuth - bearing) into the room. Where the
// windows' head height was not said, it is enough that the sun strikes the glass within the usual incidence.
func (at *spot) patch() condition {
	c := condition{
		shoulder: patchShoulder,
		asks:     func() string { return fmt.Sprintf("sun %g m into the room", shortestPatch) },
		tells: func(_ int, begins bool) string {
			if begins {
				return fmt.Sprintf("the sun reaches %g m into the room", shortestPatch)
			}
			return fmt.Sprintf("the sun reaches less than %g m into the room", shortestPatch)
		},
	}
	inside := func(m *Minute, f plan.Face) float64 {
		return float64(m.Reach(f.Bearing, at.space.Head)) - shortestPatch
	}
	if at.space.Head == 0 {
		c = at.incidence(plan.Face{Name: "the windows"}, plan.UsualIncidence)
		inside = func(m *Minute, f plan.Face) float64 { return float64(plan.UsualIncidence - m.Incidence(f.Bearing)) }
	}
	c.margin = func(i int) float64 {
		best := math.Inf(-1)
		for _, f := range at.faces {
			best = max(best, inside(&at.Minutes[i], f))
		}
		return best
	}
	return c
}
