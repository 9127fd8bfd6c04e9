package light

import (
	"math"
	"slices"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// anySky draws a sky over a house with one face, one space and its windows.
func anySky(t *rapid.T) *Sky {
	p := plan.New()
	p.Property = anyHouse(t)
	bearing := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))
	head := plan.Metres(rapid.SampledFrom([]float64{0, 2.2, 4}).Draw(t, "head"))
	p.Property.Faces = []plan.Face{{ID: "front", Bearing: bearing}}
	p.Property.Spaces = []plan.Space{{ID: "room", Faces: []plan.ID{"front"}, Head: head}}
	return NewSky(&p, time.UTC, anyDate(t))
}

// wishes are scenes that say everything their wish can need, one a kind.
func wishes(camera plan.Bearing) []plan.Scene {
	var out []plan.Scene
	for _, k := range plan.WishKinds {
		w := plan.Wish{Kind: k}
		for _, f := range k.Uses() {
			switch f {
			case plan.FigureFace:
				w.Face = "front"
			case plan.FigureCamera:
				w.Camera = &camera
			}
		}
		out = append(out, plan.Scene{ID: plan.ID(k), Space: "room", Wish: w})
		if k == plan.GoldenMorning || k == plan.GoldenEvening {
			w.Direct = true
			out = append(out, plan.Scene{ID: plan.ID(k) + "-direct", Space: "room", Wish: w})
		}
	}
	return out
}

// TestEveryWish: whatever the place and the date, a value lies within 0..1 and is 1 exactly where the wish holds, and the
// windows join exactly the minutes that hold.
func TestEveryWish(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySky(t)
		for _, sc := range wishes(plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))) {
			score := s.Score(sc)
			in := make([]bool, len(s.Minutes))
			for _, w := range s.Windows(score) {
				for i := s.MinuteOf(w.From); i < s.MinuteOf(w.To); i++ {
					in[i] = true
				}
			}
			for i, v := range score.Value {
				if !(v >= 0 && v <= 1) || (v == 1) != score.Holds[i] || in[i] != score.Holds[i] {
					t.Fatalf("%s at %v: value %v, holds %v, in a window %v", sc.ID, s.Time(i), v, score.Holds[i], in[i])
				}
			}
		}
	})
}

// plainly tells by the definitions of the design (section 4), without a shoulder, whether a wish holds at a minute with
// limits that much wider, and whether the minute is so far from it that nothing of its light is left.
func plainly(s *Sky, sc plan.Scene, i int, wider float64) (holds, far bool) {
	m, face := s.Minutes[i], s.house.Faces[0].Bearing
	at, w := s.Time(i), sc.Wish
	altitude, seen, over := float64(m.Altitude), float64(m.Apparent), float64(m.Apparent-m.Skyline)
	incidence := float64(m.Incidence(face))
	slack := time.Duration(wider * float64(time.Hour))
	between := func(from, to time.Time) bool { return !at.Before(from.Add(-slack)) && !at.After(to.Add(slack)) }
	morning, evening := between(s.Events.Before, s.Events.Noon), between(s.Events.Noon, s.Events.After)
	direct := over >= -wider
	switch w.Kind {
	case plan.GoldenMorning, plan.GoldenEvening, plan.BlueMorning, plan.BlueEvening:
		low, high, half := -4.0, 6.0, evening
		if w.Kind == plan.BlueMorning || w.Kind == plan.BlueEvening {
			low, high = -6, -4
		}
		if w.Kind == plan.GoldenMorning || w.Kind == plan.BlueMorning {
			half = morning
		}
		holds = altitude >= low-wider && altitude <= high+wider && half
		return holds && (!w.Direct || direct), altitude < low-1 || altitude > high+1 || w.Direct && over < -0.27
	case plan.Sunrise:
		return morning && math.Abs(over) <= 1+wider, math.Abs(over) > 2
	case plan.Sunset:
		return evening && math.Abs(over) <= 1+wider, math.Abs(over) > 2
	case plan.FaceLit:
		return direct && incidence <= 80+wider, over < -0.27 || incidence > 85
	case plan.FaceShade, plan.SoftWindow:
		bright := altitude >= float64(RiseAltitude)-wider
		return bright && (over <= wider || incidence >= 90-wider), altitude < -4 || over > 5 && incidence < 85
	case plan.Backlit, plan.SideLit, plan.FrontLit:
		ahead := float64(m.Azimuth.Apart(*w.Camera))
		side, away := ahead <= 45+wider, ahead-45
		switch w.Kind {
		case plan.FrontLit:
			side, away = ahead >= 135-wider, 135-ahead
		case plan.SideLit:
			side, away = ahead >= 45-wider && ahead <= 135+wider, max(45-ahead, ahead-135)
		}
		return side && direct && altitude <= 35+wider, over < -0.27 || altitude > 40 || away > 10
	case plan.SunPatch:
		if s.house.Spaces[0].Head == 0 {
			return direct && incidence <= 80+wider, over < -0.27 || incidence > 85
		}
		reach := float64(s.house.Spaces[0].Head) / math.Tan(max(seen, 0.5)/deg) * math.Cos(float64(m.Azimuth-face)/deg)
		return direct && reach >= 0.5-wider, over < -0.27 || reach < 0
	case plan.HighSun:
		return direct && altitude >= 35-wider, over < -0.27 || altitude < 30
	case plan.Daylight:
		return altitude >= float64(RiseAltitude)-wider, altitude < -4
	case plan.Dark:
		return altitude <= -6+wider, altitude > -4
	}
	return true, false
}

// TestWishesPlainly holds every score against a plain reading of the definitions; a minute within a hair of a limit may fall
// to either side.
func TestWishesPlainly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySky(t)
		for _, sc := range wishes(plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))) {
			score := s.Score(sc)
			for i, v := range score.Value {
				surely, far := plainly(s, sc, i, -1e-6)
				perhaps, _ := plainly(s, sc, i, 1e-6)
				if score.Holds[i] && !perhaps || !score.Holds[i] && surely {
					t.Fatalf("%s at %v %+v: holds %v", sc.ID, s.Time(i), s.Minutes[i], score.Holds[i])
				}
				if far && v > 1e-9 {
					t.Fatalf("%s at %v %+v: value %v so far outside", sc.ID, s.Time(i), s.Minutes[i], v)
				}
			}
		}
	})
}

// TestValuesGlide: the sun moves a quarter of a degree a minute, so from one minute to the next a value changes by no more
// than that over its shoulder. Left out: wishes with direct sun, whose value may drop at once where the disc goes behind a
// step of the skyline; sun patches, which run away as the sun touches the horizon; and bearings near the zenith.
func TestValuesGlide(t *testing.T) {
	const minute = 0.2508 // 360 degrees of hour angle in 1436 minutes, of a little less than a star's day
	steps := map[plan.WishKind]float64{
		plan.GoldenMorning: minute / altitudeShoulder, plan.GoldenEvening: minute / altitudeShoulder,
		plan.BlueMorning: minute / altitudeShoulder, plan.BlueEvening: minute / altitudeShoulder,
		plan.Daylight: minute / daylightShoulder, plan.Dark: minute / darkShoulder, plan.Any: 0,
	}
	rapid.Check(t, func(t *rapid.T) {
		s := anySky(t)
		for _, sc := range wishes(0) {
			most, ok := steps[sc.Wish.Kind]
			if !ok || sc.Wish.Direct {
				continue
			}
			score := s.Score(sc)
			for i := 1; i < len(score.Value); i++ {
				if step := math.Abs(score.Value[i] - score.Value[i-1]); step > most+1e-9 {
					t.Fatalf("%s at %v: from %.4f to %.4f", sc.ID, s.Time(i), score.Value[i-1], score.Value[i])
				}
			}
		}
	})
}

// TestFaceValuesGlide: over a level horizon the wishes with direct sun glide too: incidence by 0.26 degrees a minute
// (refraction adds a little), the camera's bearing by 1.5 while the sun is below 80 degrees.
func TestFaceValuesGlide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		p.Property.Position = new(anyPosition(t))
		p.Property.Faces = []plan.Face{{ID: "front", Bearing: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))}}
		s := NewSky(&p, time.UTC, anyDate(t))
		camera := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))
		for _, c := range []struct {
			wish plan.Wish
			most float64
		}{
			{plan.Wish{Kind: plan.FaceLit, Face: "front"}, max(0.26/incidenceShoulder, 0.26/discShoulder)},
			{plan.Wish{Kind: plan.FaceShade, Face: "front"}, 0.26 / daylightShoulder},
			{plan.Wish{Kind: plan.Backlit, Camera: &camera}, 0.26 / discShoulder},
			{plan.Wish{Kind: plan.FrontLit, Camera: &camera}, 0.26 / discShoulder},
		} {
			score := s.Score(plan.Scene{Wish: c.wish})
			for i := 1; i < len(score.Value); i++ {
				if s.Minutes[i].Altitude > 80 {
					continue
				}
				if step := math.Abs(score.Value[i] - score.Value[i-1]); step > c.most {
					t.Fatalf("%s at %v: from %.4f to %.4f", c.wish.Kind, s.Time(i), score.Value[i-1], score.Value[i])
				}
			}
		}
	})
}

// TestIncompleteWish: a wish that lacks a figure it needs never holds and is worth nothing, at any minute.
func TestIncompleteWish(t *testing.T) {
	p, zone := at(t, "LAX")
	p.Property.Faces = []plan.Face{{ID: "front", Bearing: 200}}
	p.Property.Spaces = []plan.Space{{ID: "cellar"}, {ID: "hall", Faces: []plan.ID{"gone"}}}
	s := NewSky(p, zone, date(t, "2026-06-21"))
	for _, sc := range []plan.Scene{
		{Wish: plan.Wish{Kind: plan.FaceLit}}, {Wish: plan.Wish{Kind: plan.FaceLit, Face: "gone"}},
		{Wish: plan.Wish{Kind: plan.FaceShade}},
		{Wish: plan.Wish{Kind: plan.Backlit}}, {Wish: plan.Wish{Kind: plan.SideLit}}, {Wish: plan.Wish{Kind: plan.FrontLit}},
		{Wish: plan.Wish{Kind: plan.SunPatch}}, {Space: "cellar", Wish: plan.Wish{Kind: plan.SunPatch}},
		{Space: "hall", Wish: plan.Wish{Kind: plan.SoftWindow}}, {Space: "nowhere", Wish: plan.Wish{Kind: plan.SoftWindow}},
	} {
		score := s.Score(sc)
		if slices.Contains(score.Holds, true) || slices.Max(score.Value) > 0 {
			t.Errorf("%s without its figures is worth %v", sc.Wish.Kind, slices.Max(score.Value))
		}
		if value, holds := score.Mean(600, 20); value != 0 || holds {
			t.Errorf("%s without its figures keeps %v of its light", sc.Wish.Kind, value)
		}
	}
}

// TestMean are means and windows by hand.
func TestMean(t *testing.T) {
	score := Score{Value: []float64{0, 0.5, 1, 1, 0.25}, Holds: []bool{false, false, true, true, false}}
	for _, c := range []struct {
		start, minutes int
		value          float64
		holds          bool
	}{
		{0, 2, 0.25, false}, {2, 2, 1, true}, {1, 4, 0.6875, false}, {2, 3, 0.75, false},
		{3, 3, 0, false}, {-1, 2, 0, false}, {0, 0, 0, false}, {2, -1, 0, false}, {5, 1, 0, false},
	} {
		if v, holds := score.Mean(c.start, c.minutes); v != c.value || holds != c.holds {
			t.Errorf("%d minutes from %d: %v %v, want %v %v", c.minutes, c.start, v, holds, c.value, c.holds)
		}
	}
}

func TestWindow(t *testing.T) {
	noon := utc(t, "2027-10-16T12:00:00Z")
	after := func(m int) time.Time { return noon.Add(time.Duration(m) * time.Minute) }
	windows := []plan.Span{{From: after(0), To: after(30)}, {From: after(100), To: after(120)}}
	for minute, want := range map[int]int{-500: 0, 0: 0, 29: 0, 60: 0, 70: 1, 110: 1, 900: 1} {
		if got, ok := Window(windows, after(minute)); !ok || got != windows[want] {
			t.Errorf("minute %d lies nearest to %v", minute, got)
		}
	}
	if got, ok := Window(nil, noon); ok {
		t.Errorf("a window %v among none", got)
	}
}

// BenchmarkNewSky is a day's sky by the minute, skyline and all.
func BenchmarkNewSky(b *testing.B) {
	p, zone := at(b, "LAX")
	p.Property.Skyline = []plan.SkyPoint{{Bearing: 0, Altitude: 6}, {Bearing: 95, Altitude: 1}, {Bearing: 200, Altitude: 4}, {Bearing: 320, Altitude: 7}}
	p.Property.Obstacles = []plan.Obstacle{{Height: 4, Distance: 160, From: 254, To: 270}}
	day := date(b, "2027-10-16")
	b.ReportAllocs()
	for b.Loop() {
		NewSky(p, zone, day)
	}
}

// BenchmarkScores are the score tables of 20 scenes, one a wish and a second one of some, for one day.
func BenchmarkScores(b *testing.B) {
	p, zone := at(b, "LAX")
	p.Property.Faces = []plan.Face{{ID: "front", Bearing: 200}}
	p.Property.Spaces = []plan.Space{{ID: "room", Faces: []plan.ID{"front"}, Head: 2.4}}
	s := NewSky(p, zone, date(b, "2027-10-16"))
	scenes := wishes(225)
	scenes = append(scenes, scenes...)[:20]
	b.ReportAllocs()
	for b.Loop() {
		for _, sc := range scenes {
			s.Score(sc)
		}
	}
}

// BenchmarkYearOf is a year of windows for one wish: the terrace against the light, under a skyline with trees and a wing.
func BenchmarkYearOf(b *testing.B) {
	p, zone := at(b, "LAX")
	p.Property.Skyline = []plan.SkyPoint{{Bearing: 0, Altitude: 6}, {Bearing: 95, Altitude: 1}, {Bearing: 200, Altitude: 4}, {Bearing: 320, Altitude: 7}}
	p.Property.Obstacles = []plan.Obstacle{{Height: 4, Distance: 160, From: 254, To: 270}}
	p.Property.Spaces = []plan.Space{{ID: "terrace", Kind: plan.Outdoor, Wings: []plan.Wing{{From: 180, To: 215, Altitude: 40}}}}
	sc := plan.Scene{Space: "terrace", Wish: plan.Wish{Kind: plan.Backlit, Camera: new(plan.Bearing(250))}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := YearOf(b.Context(), p, zone, sc, 2027); err != nil {
			b.Fatal(err)
		}
	}
}
