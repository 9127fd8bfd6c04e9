package light

import (
	"cmp"
	"math"
	"slices"

	"eavelight/plan"
)

// Skyline is the altitude of what blocks the sky, for every bearing: the higher of the line drawn by hand and of the
// obstacles. The zero Skyline is the level horizon.
type Skyline struct {
	corners   []plan.SkyPoint // by bearing
	obstacles []blocked
}

type blocked struct {
	from     plan.Bearing
	span     plan.Angle
	altitude plan.Angle
}

// NewSkyline builds the skyline of a property.
func NewSkyline(h plan.Property) Skyline {
	var s Skyline
	for _, p := range h.Skyline {
		s.corners = append(s.corners, plan.SkyPoint{Bearing: p.Bearing.Norm(), Altitude: p.Altitude})
	}
	slices.SortStableFunc(s.corners, func(a, b plan.SkyPoint) int { return cmp.Compare(a.Bearing, b.Bearing) })
	for _, o := range h.Obstacles {
		span := plan.Angle((o.To - o.From).Norm())
		if span == 0 && o.To != o.From { // from 0 to 360 is all round
			span = 360
		}
		s.obstacles = append(s.obstacles, blocked{
			from:     o.From.Norm(),
			span:     span,
			altitude: ObstacleAltitude(o.Height, o.Distance),
		})
	}
	return s
}

// ObstacleAltitude is the angle under which something that high, that far away, stands above the eye.
func ObstacleAltitude(height, distance plan.Metres) plan.Angle {
	return plan.Angle(math.Atan2(float64(height), float64(distance)) * 180 / math.Pi)
}

// At returns the skyline's altitude at a bearing. Between two corners it runs straight, also across north; where no corner
// is drawn it is the level horizon.
func (s Skyline) At(b plan.Bearing) plan.Angle {
	b = b.Norm()
	top := s.drawn(b)
	for _, o := range s.obstacles {
		if o.altitude > top && plan.Angle((b-o.from).Norm()) <= o.span {
			top = o.altitude
		}
	}
	return top
}

func (s Skyline) drawn(b plan.Bearing) plan.Angle {
	n := len(s.corners)
	if n == 0 {
		return 0
	}
	next := 0 // the first corner beyond b; past the last one, the first again
	for next < n && s.corners[next].Bearing <= b {
		next++
	}
	left, right := s.corners[(next+n-1)%n], s.corners[next%n]
	gap := float64((right.Bearing - left.Bearing).Norm())
	if gap == 0 {
		return left.Altitude
	}
	share := float64((b - left.Bearing).Norm()) / gap
	return left.Altitude + plan.Angle(share)*(right.Altitude-left.Altitude)
}
