package light

import (
	"cmp"
	"math"
	"slices"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Skyline is the altitude of what blocks the sky, for every bearing: the higher of the line drawn by hand and of the
// obstacles. The zero Skyline is the level horizon.
type Skyline struct {
	free      plan.Angle      // where nothing is drawn
	corners   []plan.SkyPoint // by bearing
	obstacles []blocked
}

// blocked is a span of bearings closed up to an altitude.
type blocked struct {
	name     string
	from     plan.Bearing
	span     plan.Bearing
	altitude plan.Angle
}

func newBlocked(name string, from, to plan.Bearing, altitude plan.Angle) blocked {
	span := (to - from).Norm()
	if span == 0 && to != from { // from 0 to 360 is all round
		span = 360
	}
	return blocked{name, from.Norm(), span, altitude}
}

// hides tells whether a bearing within 0..360 lies in the span.
func (o blocked) hides(b plan.Bearing) bool { return turn(o.from, b) <= o.span }

// turn is the way clockwise from one bearing within 0..360 to another; in half a million minutes it must be quick.
func turn(from, to plan.Bearing) plan.Bearing {
	if to < from {
		return to - from + 360
	}
	return to - from
}

// apart is the angle between two bearings within 0..360.
func apart(a, b plan.Bearing) float64 {
	d := math.Abs(float64(a - b))
	return min(d, 360-d)
}

// NewSkyline builds the skyline of a property.
func NewSkyline(h plan.Property) Skyline {
	var s Skyline
	if dip := Dip(h); dip > 0 {
		s.free = -dip
	}
	for _, p := range h.Skyline {
		s.corners = append(s.corners, plan.SkyPoint{Bearing: p.Bearing.Norm(), Altitude: p.Altitude})
	}
	slices.SortStableFunc(s.corners, func(a, b plan.SkyPoint) int { return cmp.Compare(a.Bearing, b.Bearing) })
	for _, o := range h.Obstacles {
		s.obstacles = append(s.obstacles, newBlocked(o.Name, o.From, o.To, ObstacleAltitude(o.Height, o.Distance)))
	}
	return s
}

// ObstacleAltitude is the angle under which something that high, that far away, stands above the eye: a spruce of 14 m
// (12.4 m over the eye) 40 m away stands 17 degrees high. What a clinometer shows needs no turning: its reading is already
// such an altitude.
func ObstacleAltitude(height, distance plan.Metres) plan.Angle {
	return plan.Angle(math.Atan2(float64(height), float64(distance)) * 180 / math.Pi)
}

// CompassBearing is the bearing from true north of what a compass shows, at a place where its needle points that far east
// of true north (west: below 0).
func CompassBearing(reading plan.Bearing, declination plan.Angle) plan.Bearing {
	return (reading + plan.Bearing(declination)).Norm()
}

// At returns the skyline's altitude at a bearing. Between two corners it runs straight, also across north; where no corner
// is drawn it is the free horizon: level, or lower by its dip over the sea.
func (s Skyline) At(b plan.Bearing) plan.Angle {
	if !(b >= 0 && b < 360) {
		b = b.Norm()
	}
	top := s.drawn(b)
	for i := range s.obstacles {
		if o := &s.obstacles[i]; o.altitude > top && o.hides(b) {
			top = o.altitude
		}
	}
	return top
}

// hiding is what hides the sun: by its name, or by a form where it has none. The zero hiding is the free horizon.
type hiding struct{ name, form string }

func (h hiding) said() say.Text { return called(h.name, say.Marked(h.form)) }

// hider tells what stands highest at a bearing: the obstacle, or the line drawn by hand; nothing at the free horizon.
func (s Skyline) hider(b plan.Bearing) (by hiding, top plan.Angle) {
	top = s.drawn(b)
	if len(s.corners) > 0 {
		by.form = say.Mark("hides|the skyline")
	}
	for _, o := range s.obstacles {
		if o.altitude > top && o.hides(b) {
			by, top = hiding{o.name, say.Mark("an obstacle")}, o.altitude
		}
	}
	return by, top
}

func (s Skyline) drawn(b plan.Bearing) plan.Angle {
	n := len(s.corners)
	if n == 0 {
		return s.free
	}
	next := 0 // the first corner beyond b; past the last one, the first again
	for next < n && s.corners[next].Bearing <= b {
		next++
	}
	left, right := s.corners[(next+n-1)%n], s.corners[next%n]
	gap := turn(left.Bearing, right.Bearing)
	if gap == 0 {
		return left.Altitude
	}
	return left.Altitude + plan.Angle(turn(left.Bearing, b)/gap)*(right.Altitude-left.Altitude)
}
