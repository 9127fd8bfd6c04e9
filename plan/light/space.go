package light

import (
	"math"
	"slices"

	"eavelight/plan"
)

// spot is a space under one sky: what of the house hides the sun from it, and which faces it looks out by.
type spot struct {
	*Sky
	space plan.Space
	faces []plan.Face
	wings []blocked
}

// spot finds a space. One that is not described is a place under the property's skyline.
func (s *Sky) spot(id plan.ID) *spot {
	at := &spot{Sky: s}
	i := slices.IndexFunc(s.house.Spaces, func(sp plan.Space) bool { return sp.ID == id })
	if i < 0 || id == "" {
		at.space.Kind = plan.Outdoor
		return at
	}
	at.space = s.house.Spaces[i]
	at.space.Kind = at.space.Kind.Or()
	for _, id := range at.space.Faces {
		if f, found := faceOf(s.house, id); found {
			at.faces = append(at.faces, f)
		}
	}
	if at.space.Kind != plan.Aerial { // the air above is over the wings
		for _, w := range at.space.Wings {
			at.wings = append(at.wings, newBlocked("", w.From, w.To, w.Altitude))
		}
	}
	return at
}

func faceOf(h plan.Property, id plan.ID) (plan.Face, bool) {
	i := slices.IndexFunc(h.Faces, func(f plan.Face) bool { return f.ID == id })
	if i < 0 {
		return plan.Face{}, false
	}
	return h.Faces[i], true
}

// skyline is the altitude of what hides the sun from the space at a minute: the property's skyline, or a wing over it.
func (at *spot) skyline(minute int) plan.Angle {
	m := &at.Minutes[minute]
	top := m.Skyline
	for _, w := range at.wings {
		if w.altitude > top && w.hides(m.Azimuth) {
			top = w.altitude
		}
	}
	return top
}

// over is how far the sun's centre is seen above what hides it.
func (at *spot) over(minute int) plan.Angle { return at.Minutes[minute].Apparent - at.skyline(minute) }

func (at *spot) direct(minute int) bool { return at.over(minute) >= 0 }

// before tells whether the sun stands before one of the space's faces.
func (at *spot) before(minute int) bool {
	return slices.ContainsFunc(at.faces, func(f plan.Face) bool { return at.Minutes[minute].Incidence(f.Bearing) < 90 })
}

func (at *spot) sunlit(minute int) bool {
	switch {
	case !at.direct(minute):
		return false
	case at.space.Kind == plan.Aerial, at.space.Kind == plan.Outdoor && len(at.faces) == 0:
		return true
	}
	return at.before(minute)
}

// Sunlit are the stretches in which direct sun reaches a space. The sun stands above the skyline and, but for the air above,
// above the space's wings; and before one of the faces that the space looks out by: through their windows indoors, on
// their side of the house outdoors.
func (s *Sky) Sunlit(space plan.ID) []plan.Span {
	return s.spans(s.spot(space).sunlit)
}

// OpenShade reports whether a space lies in open shade at a minute: the sun is up, and does not reach it.
func (s *Sky) OpenShade(space plan.ID, minute int) bool {
	return s.within(minute) && s.Minutes[minute].Altitude >= s.Events.RiseAltitude && !s.spot(space).sunlit(minute)
}

// within tells whether the sky holds a minute.
func (s *Sky) within(minute int) bool { return minute >= 0 && minute < len(s.Minutes) }

// Patch is the sun on the floor behind the windows of one face, in metres from the wall.
type Patch struct {
	Face     plan.ID
	From, To plan.Metres
	// Slant is how far aside of straight in the light runs, as one looks in from outside: to the right, or below 0 to the
	// left. Over the floor the patch lies shifted by its distance from the wall times the tangent.
	Slant plan.Angle
}

// Patches are the sun patches in a space at a minute, one for each of its faces that the sun comes in by. There are none
// where the head height of the windows was not said.
func (s *Sky) Patches(space plan.ID, minute int) []Patch {
	if !s.within(minute) {
		return nil
	}
	at := s.spot(space)
	if at.space.Head <= 0 || !at.direct(minute) {
		return nil
	}
	var out []Patch
	for _, f := range at.faces {
		if p, ok := s.Minutes[minute].Patch(f.Bearing, at.space.Sill, at.space.Head); ok {
			p.Face = f.ID
			out = append(out, p)
		}
	}
	return out
}

// Reach is how far into a room the sun falls through a window of that head height in a wall that looks toward a bearing;
// below 0 where the sun is behind the wall. The sun on the horizon would reach without end: it counts as half a degree up.
func (s Sun) Reach(face plan.Bearing, head plan.Metres) plan.Metres {
	alt := max(float64(s.Apparent), 0.5) * rad
	return head * plan.Metres(math.Cos(float64(s.Azimuth-face)*rad)/math.Tan(alt))
}

// Patch is where the sun falls on the floor through a window between sill and head in a wall that looks toward a bearing:
// from sill to head, each times cot(altitude) cos(azimuth - bearing), which is the height over the tangent of the profile
// angle. ok is false where the sun is behind the wall. The wall counts as thin, the floor as level and without an end.
func (s Sun) Patch(face plan.Bearing, sill, head plan.Metres) (p Patch, ok bool) {
	far := s.Reach(face, head)
	slant := plan.Angle((s.Azimuth - face + 180).Norm() - 180)
	return Patch{From: s.Reach(face, sill), To: far, Slant: slant}, far > 0
}
