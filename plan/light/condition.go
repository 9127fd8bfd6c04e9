package light

import (
	"cmp"
	"math"
	"slices"

	"eavelight/plan"
	"eavelight/plan/say"
)

// condition is one thing a wish asks of a minute: how far inside (above 0) or outside it the minute is, and over what
// distance outside its value falls from 1 to 0. So a little early costs a little.
type condition struct {
	margin   func(minute int) float64
	shoulder float64
	asks     func() say.Text // what it asks for, after "there is never"
	// tells is what happens as it begins or ends to hold, by a minute outside.
	tells func(minute int, begins bool) say.Text
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
func (at *spot) passes(h plan.Angle) func(int, bool) say.Text {
	return func(i int, _ bool) say.Text {
		if at.Time(i).Before(at.Events.Noon) {
			return say.That("the sun climbs to %s", degrees(h))
		}
		return say.That("the sun sinks to %s", degrees(h))
	}
}

// bright asks for the sun to be up, seen or not: it is day.
func (at *spot) bright() condition {
	c := at.above(at.Events.RiseAltitude, daylightShoulder)
	c.asks = func() say.Text { return say.That("asks for|the day") }
	c.tells = func(i int, _ bool) say.Text {
		if at.Time(i).Before(at.Events.Noon) {
			return say.That("event|sunrise")
		}
		return say.That("event|sunset")
	}
	return c
}

func (at *spot) above(h plan.Angle, shoulder float64) condition {
	return condition{
		margin:   func(i int) float64 { return float64(at.Minutes[i].Altitude - h) },
		shoulder: shoulder,
		asks:     func() say.Text { return say.That("the sun above %s", degrees(h)) },
		tells:    at.passes(h),
	}
}

func (at *spot) below(h plan.Angle, shoulder float64) condition {
	return condition{
		margin:   func(i int) float64 { return float64(h - at.Minutes[i].Altitude) },
		shoulder: shoulder,
		asks:     func() say.Text { return say.That("the sun below %s", degrees(h)) },
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
		asks:     func() say.Text { return say.That("the sun between %s and %s", degrees(low), degrees(high)) },
		tells: func(i int, begins bool) say.Text {
			if at.Minutes[i].Altitude > high {
				return at.passes(high)(i, begins)
			}
			return at.passes(low)(i, begins)
		},
	}
}

// half asks for the day's own morning (lower transit to noon) or evening (noon to lower transit).
func (at *spot) half(morning bool) condition {
	from, to, name := at.Events.Noon, at.Events.After, say.That("asks for|the evening")
	if morning {
		from, to, name = at.Events.Before, at.Events.Noon, say.That("asks for|the morning")
	}
	first, end := from.Sub(at.Start).Minutes(), to.Sub(at.Start).Minutes()
	return condition{
		margin:   func(i int) float64 { return min(float64(i)-first, end-float64(i)) / 60 },
		shoulder: hourShoulder,
		asks:     func() say.Text { return name },
		tells: func(_ int, begins bool) say.Text {
			if begins == morning {
				return say.That("the sun is at its lowest")
			}
			return say.That("solar noon")
		},
	}
}

// seen asks that the sun's centre be seen above the skyline; the value falls to 0 as the rest of the disc goes.
func (at *spot) seen() condition {
	return condition{
		margin:   func(i int) float64 { return float64(at.over(i)) },
		shoulder: discShoulder,
		asks:     func() say.Text { return say.That("the sun itself over the skyline") },
		tells: func(i int, begins bool) say.Text {
			switch by := at.hider(i); {
			case by == hiding{} && begins:
				return say.That("the sun rises")
			case by == hiding{}:
				return say.That("the sun sets")
			case begins:
				return say.That("the sun comes out from behind %s", by.said())
			default:
				return say.That("the sun goes behind %s", by.said())
			}
		},
	}
}

func (at *spot) onSkyline() condition {
	return condition{
		margin:   func(i int) float64 { return skylineBand - math.Abs(float64(at.over(i))) },
		shoulder: altitudeShoulder,
		asks:     func() say.Text { return say.That("the sun within a degree of the skyline") },
		tells: func(i int, begins bool) say.Text {
			if at.over(i) < 0 {
				return say.That("the sun is a degree under the skyline")
			}
			return say.That("the sun is a degree over the skyline")
		},
	}
}

func (at *spot) incidence(face plan.Face, largest plan.Angle) condition {
	return at.strikes(face.Bearing, faceName(face), largest)
}

// strikes is incidence on whatever looks toward a bearing.
func (at *spot) strikes(bearing plan.Bearing, what say.Text, largest plan.Angle) condition {
	return condition{
		margin:   func(i int) float64 { return float64(largest - at.Minutes[i].Incidence(bearing)) },
		shoulder: incidenceShoulder,
		asks: func() say.Text {
			return say.That("the sun within %s of straight on %s", degrees(largest), what)
		},
		tells: func(_ int, begins bool) say.Text {
			if begins {
				return say.That("the sun comes onto %s", what)
			}
			return say.That("the sun leaves %s", what)
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
		asks:     func() say.Text { return say.That("shade on %s", faceNames(faces)) },
		tells: func(i int, begins bool) say.Text { // what the sun does, by the minute inside where it is hidden there
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

// lensWords tell where the sun stands by the lens, as forms.
var lensWords = map[plan.WishKind]struct{ is, comes, goes string }{
	plan.Backlit:  {say.Mark("the sun ahead of the lens"), say.Mark("the sun comes ahead of the lens"), say.Mark("the sun is no more ahead of the lens")},
	plan.FrontLit: {say.Mark("the sun behind the lens"), say.Mark("the sun comes behind the lens"), say.Mark("the sun is no more behind the lens")},
	plan.SideLit:  {say.Mark("the sun beside the lens"), say.Mark("the sun comes beside the lens"), say.Mark("the sun is no more beside the lens")},
}

// camera asks that the sun stand ahead of the lens (backlit), behind it (front-lit) or beside it, by bearing: within 45
// degrees ahead, within 45 behind, else.
func (at *spot) camera(kind plan.WishKind, looks plan.Bearing) condition {
	looks = looks.Norm()
	words := lensWords[kind]
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
		asks:     func() say.Text { return say.Marked(words.is) },
		tells: func(_ int, begins bool) say.Text {
			if begins {
				return say.Marked(words.comes)
			}
			return say.Marked(words.goes)
		},
	}
}

// patch asks for sun on the floor: it reaches head * cot(altitude) * cos(azimuth - bearing) into the room. Where the
// windows' head height was not said, it is enough that the sun strikes the glass within the usual incidence.
func (at *spot) patch() condition {
	c := condition{
		shoulder: patchShoulder,
		asks:     func() say.Text { return say.That("sun %s into the room", say.Length(shortestPatch)) },
		tells: func(_ int, begins bool) say.Text {
			if begins {
				return say.That("the sun reaches %s into the room", say.Length(shortestPatch))
			}
			return say.That("the sun reaches less than %s into the room", say.Length(shortestPatch))
		},
	}
	inside := func(m *Minute, f plan.Face) float64 {
		return float64(m.Reach(f.Bearing, at.space.Head)) - shortestPatch
	}
	if at.space.Head == 0 {
		c = at.strikes(0, say.That("lit|the windows"), plan.UsualIncidence) // its margin is not used
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
