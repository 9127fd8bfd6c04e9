package light

import (
	"math"
	"slices"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestIncidenceOnSlopes: the tilted surface of the worked example in NREL/TP-560-34302 (slope 30, 10 degrees east of south, so
// that it looks toward 170): 25.18700 degrees. A level plane has the zenith angle, 50.11162; a wall is Incidence.
func TestIncidenceOnSlopes(t *testing.T) {
	sun := Sun{Apparent: 90 - 50.1116220240, Azimuth: 194.3402405102}
	close(t, "slope of 30", float64(sun.IncidenceOn(30, 170)), 25.1870002004, 1e-6)
	close(t, "level", float64(sun.IncidenceOn(0, 77)), 50.1116220240, 1e-6)
	close(t, "straight on", float64(sun.IncidenceOn(50.1116220240, 194.3402405102)), 0, 1e-5)
	rapid.Check(t, func(t *rapid.T) {
		sun := Sun{Apparent: plan.Angle(rapid.Float64Range(-5, 90).Draw(t, "altitude")), Azimuth: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "azimuth"))}
		wall := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "wall"))
		if a, b := sun.Incidence(wall), sun.IncidenceOn(90, wall); !(math.Abs(float64(a-b)) < 1e-6) {
			t.Fatalf("%+v on a wall toward %v: %v and %v", sun, wall, a, b)
		}
	})
}

// TestPatchRows: the sun of the same example through a window from 0.9 to 2.4 m: height over the tangent of the profile angle,
// 40.7832 degrees on a south wall, 44.1749 on one to the south-west, 73.4932 to the west (computed in Python); the sun is 14.34
// degrees clockwise of south, so on the south wall its light runs that much to the right as one looks in.
func TestPatchRows(t *testing.T) {
	sun := Sun{Apparent: 39.88838, Azimuth: 194.34024}
	for _, c := range []struct {
		wall            plan.Bearing
		from, to, slant float64
	}{
		{180, 1.04328, 2.78208, 14.34024}, {225, 0.92630, 2.47014, -30.65976}, {270, 0.26671, 0.71122, -75.65976},
	} {
		p, ok := sun.Patch(c.wall, 0.9, 2.4)
		if !ok {
			t.Errorf("no patch behind the wall toward %v", c.wall)
		}
		close(t, "from", float64(p.From), c.from, 0.0001)
		close(t, "to", float64(p.To), c.to, 0.0001)
		close(t, "slant", float64(p.Slant), c.slant, 0.0001)
	}
	for _, wall := range []plan.Bearing{0, 90, 20} {
		if p, ok := sun.Patch(wall, 0.9, 2.4); ok {
			t.Errorf("a patch %+v behind the wall toward %v, with the sun behind it", p, wall)
		}
	}
}

// cabin is a plan with one space of each kind on the property drawn, each looking out by the face "front".
func cabin(t *rapid.T) plan.Plan {
	p := plan.New()
	p.Property = anyHouse(t)
	p.Property.Faces = []plan.Face{{ID: "front", Bearing: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))}}
	front := []plan.ID{"front"}
	p.Property.Spaces = []plan.Space{
		{ID: "room", Kind: plan.Indoor, Faces: front, Sill: 0.9, Head: 2.2}, {ID: "cellar", Kind: plan.Indoor},
		{ID: "terrace", Kind: plan.Outdoor, Faces: front}, {ID: "lawn", Kind: plan.Outdoor}, {ID: "air", Kind: plan.Aerial},
	}
	for range rapid.IntRange(0, 3).Draw(t, "wings") {
		w := plan.Wing{From: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "from")), To: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "to")),
			Altitude: plan.Angle(rapid.Float64Range(0, 60).Draw(t, "altitude"))}
		for i := range p.Property.Spaces {
			p.Property.Spaces[i].Wings = append(p.Property.Spaces[i].Wings, w)
		}
	}
	return p
}

// in tells which minutes lie in spans.
func in(s *Sky, spans []plan.Span) []bool {
	out := make([]bool, len(s.Minutes))
	for _, w := range spans {
		for i := s.MinuteOf(w.From); i < s.MinuteOf(w.To); i++ {
			out[i] = true
		}
	}
	return out
}

// TestSunlitSpaces: the plain definitions, minute by minute. Wings stand in the way of every space but the air above; a space
// that looks out by a face has sun only before it; a room without windows has none.
func TestSunlitSpaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := cabin(t)
		s := NewSky(&p, time.UTC, anyDate(t))
		wings := p.Property.Spaces[0].Wings
		lit := map[plan.ID][]bool{}
		for _, sp := range p.Property.Spaces {
			lit[sp.ID] = in(s, s.Sunlit(sp.ID))
		}
		for i, m := range s.Minutes {
			seen := m.Apparent >= m.Skyline
			under := slices.ContainsFunc(wings, func(w plan.Wing) bool {
				all := w.To != w.From && (w.To-w.From).Norm() == 0 // from 0 to 360
				return m.Apparent < w.Altitude && (all || (m.Azimuth-w.From).Norm() <= (w.To-w.From).Norm())
			})
			before := m.Incidence(p.Property.Faces[0].Bearing) < 90
			for id, want := range map[plan.ID]bool{"air": seen, "lawn": seen && !under, "terrace": seen && !under && before, "room": seen && !under && before, "cellar": false} {
				if lit[id][i] != want {
					t.Fatalf("%s at %v %+v: sunlit %v", id, s.Time(i), m, lit[id][i])
				}
				shade := m.Altitude >= s.Events.RiseAltitude && !want
				if s.OpenShade(id, i) != shade {
					t.Fatalf("%s at %v: open shade %v", id, s.Time(i), !shade)
				}
			}
			if patches := s.Patches("room", i); (len(patches) == 1) != lit["room"][i] || len(s.Patches("terrace", i)) > 0 {
				t.Fatalf("%+v with the room sunlit %v", patches, lit["room"][i])
			}
		}
	})
}

// TestWingsOnlyTakeLight: a wing more never adds sun to a space, nor value to a wish that asks for the sun there; the wishes of
// other spaces stay as they are.
func TestWingsOnlyTakeLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := cabin(t)
		q := p
		q.Property.Spaces = slices.Clone(p.Property.Spaces)
		terrace := &q.Property.Spaces[2]
		terrace.Wings = append(slices.Clone(terrace.Wings), plan.Wing{From: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "wing from")),
			To: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "wing to")), Altitude: plan.Angle(rapid.Float64Range(0, 90).Draw(t, "wing altitude"))})
		day := anyDate(t)
		s, dim := NewSky(&p, time.UTC, day), NewSky(&q, time.UTC, day)
		before, after := in(s, s.Sunlit("terrace")), in(dim, dim.Sunlit("terrace"))
		for i := range before {
			if after[i] && !before[i] {
				t.Fatalf("sun at minute %d only behind the wing", i)
			}
		}
		for _, sc := range wishes(plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))) {
			if !NeedsSun(sc.Wish) || sc.Wish.Kind == plan.Sunrise || sc.Wish.Kind == plan.Sunset {
				continue // a higher skyline moves these two
			}
			for _, space := range []plan.ID{"terrace", "lawn"} {
				sc.Space = space
				a, b := s.Score(sc), dim.Score(sc)
				for i := range a.Value {
					if b.Value[i] > a.Value[i] || space == "lawn" && b.Value[i] != a.Value[i] {
						t.Fatalf("%s on the %s at minute %d: %v, with the wing %v", sc.ID, space, i, a.Value[i], b.Value[i])
					}
				}
			}
		}
	})
}

// TestFaceHoursAddUp: two walls back to back share the sun's hours between them, whatever way they look, but for the minutes
// in which it stands in line with both.
func TestFaceHoursAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		p.Property = anyHouse(t)
		s := NewSky(&p, time.UTC, anyDate(t))
		face := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))
		sum := func(spans []plan.Span) (n plan.Minutes) {
			for _, w := range spans {
				n += w.Minutes()
			}
			return n
		}
		if both, all := sum(s.FaceHours(face))+sum(s.FaceHours(face+180)), sum(s.SunOver()); both != all {
			t.Fatalf("%d minutes on two sides of a wall, %d of sun", both, all)
		}
	})
}

// TestUnknownSpace: a space that is not described is a place under the property's skyline.
func TestUnknownSpace(t *testing.T) {
	p, zone := at(t, "LAX")
	s := NewSky(p, zone, date(t, "2027-03-06"))
	if !slices.Equal(s.Sunlit("gone"), s.SunOver()) {
		t.Errorf("sunlit %v, want %v", s.Sunlit("gone"), s.SunOver())
	}
	if p := s.Patches("gone", 700); p != nil {
		t.Errorf("patches %v", p)
	}
	for _, i := range []int{-1, len(s.Minutes)} {
		if s.OpenShade("gone", i) || s.Patches("gone", i) != nil || s.Daylight("gone", i) != (Daylight{}) {
			t.Errorf("light at minute %d, outside the sky", i)
		}
	}
}

// TestValuesMirrorAtNoon: over a level site in the days of a solstice, when the sun's declination stands still, a wish that
// looks due south (or straight up) is worth as much before noon as after, and the morning's light as the evening's.
func TestValuesMirrorAtNoon(t *testing.T) {
	south := plan.Bearing(180)
	for _, day := range []string{"2026-06-21", "2027-12-21"} {
		p, zone := at(t, "LAX")
		p.Property.Faces = []plan.Face{{ID: "front", Bearing: south}}
		p.Property.Spaces = []plan.Space{{ID: "room", Faces: []plan.ID{"front"}, Sill: 0.9, Head: 2.2}}
		s := NewSky(p, zone, date(t, day))
		scenes := map[plan.ID]Score{}
		for _, sc := range wishes(south) {
			scenes[sc.ID] = s.Score(sc)
		}
		mirror := map[plan.ID]plan.ID{"golden morning": "golden evening", "golden morning-direct": "golden evening-direct", "blue morning": "blue evening", "sunrise": "sunset"}
		noon := s.Events.Noon.Sub(s.Start).Minutes()
		for id, score := range scenes {
			other := score
			if m, ok := mirror[id]; ok {
				other = scenes[m]
			} else if slices.Contains([]plan.ID{"golden evening", "golden evening-direct", "blue evening", "sunset"}, id) {
				continue
			}
			if !mirrored(score.Value, other.Value, noon) {
				t.Errorf("%s %s is not the same before noon and after", day, id)
			}
		}
	}
}

// mirrored compares the values before noon with others after. The mirrored moment falls between two minutes, so it may lie
// anywhere between their values and those beside.
func mirrored(a, b []float64, noon float64) bool {
	for i := 2; float64(i) < noon-2; i++ {
		j := int(2*noon - float64(i))
		if j+2 >= len(b) {
			continue
		}
		around := b[j-1 : j+3]
		if a[i] < slices.Min(around)-0.02 || a[i] > slices.Max(around)+0.02 {
			return false
		}
	}
	return true
}
