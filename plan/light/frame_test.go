package light

import (
	"math"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestFrameRows, by hand: a lens of 60 degrees across sees 30 to either side and, at 16 to 9, 16.9 up. A shadow of 1.8 m is longer
// than 3 m under a sun below arctan(1.8/3) = 30.96 degrees.
func TestFrameRows(t *testing.T) {
	for _, c := range []struct {
		altitude    plan.Angle
		azimuth     plan.Bearing
		view        plan.Angle
		sun, shadow bool
	}{
		{10, 90, 60, true, false}, {10, 119, 60, true, false}, {10, 121, 60, false, false}, {10, 61, 60, true, false},
		{16.8, 90, 60, true, false}, {17, 90, 60, false, false}, {0, 90, 60, true, false}, {-1, 90, 60, false, false},
		{20, 270, 60, false, true}, {30.9, 270, 60, false, true}, {31, 270, 60, false, false}, {20, 241, 60, false, true},
		{20, 239, 60, false, false}, {-1, 270, 60, false, false}, {10, 90, 0, false, false}, {20, 270, 0, false, false},
		{10, 180, 60, false, false}, {10, 90, 180, true, false},
	} {
		sun, shadow := Frame(Sun{Apparent: c.altitude, Azimuth: c.azimuth}, 90, c.view)
		if sun != c.sun || shadow != c.shadow {
			t.Errorf("%+v: sun in frame %v, shadow in frame %v", c, sun, shadow)
		}
	}
	across := func(azimuth plan.Bearing) bool {
		sun, _ := Frame(Sun{Apparent: 5, Azimuth: azimuth}, 355, 60)
		return sun
	}
	if !across(20) || !across(330) || across(30) || across(320) {
		t.Error("a lens that looks over north")
	}
}

// TestShadow: the shadow factors are cotangents (10 degrees: 5.6713, 45: 1, computed in Python).
func TestShadow(t *testing.T) {
	close(t, "at 10 degrees", float64(Shadow(2, Sun{Apparent: 10, Azimuth: 77})), 2*5.6713, 0.0001)
	close(t, "at 45 degrees", float64(Shadow(2, Sun{Apparent: 45, Azimuth: 300})), 2, 0.0001)
}

// TestFrameWarnings: a lens that looks into the evening's sun has it in the picture until it goes, one that turns its back to it
// has its own shadow there; hidden, it does neither.
func TestFrameWarnings(t *testing.T) {
	p, zone := at(t, "LAX")
	p.Property.Spaces = []plan.Space{{ID: "lawn", Kind: plan.Outdoor}, {ID: "court", Kind: plan.Outdoor, Wings: []plan.Wing{{From: 0, To: 360, Altitude: 60}}},
		{ID: "terrace", Kind: plan.Outdoor, Faces: []plan.ID{"east"}}}
	p.Property.Faces = []plan.Face{{ID: "east", Bearing: 117}}
	s := NewSky(p, zone, date(t, "2026-06-21"))
	// the sun sets at 03:07:39Z near 299 degrees, having passed 6 degrees at 02:30:41 (testdata/tables/sun-events.tsv)
	from, to := utc(t, "2026-06-22T02:30:00Z"), utc(t, "2026-06-22T04:00:00Z")
	look := func(space plan.ID, b plan.Bearing, view plan.Angle) []FrameWarning {
		return s.FrameWarnings(plan.Scene{Space: space, View: view, Wish: plan.Wish{Camera: &b}}, from, to)
	}
	for kind, camera := range map[FrameKind]plan.Bearing{SunInFrame: 297, OwnShadow: 117} {
		got := look("lawn", camera, 60)
		if len(got) != 1 || got[0].Kind != kind {
			t.Fatalf("looking %v: %v", camera, got)
		}
		near(t, "from", got[0].From, from, time.Minute)
		near(t, "to", got[0].To, utc(t, "2026-06-22T03:05:30Z"), 3*time.Minute) // the centre goes before the upper limb
		if got := look("court", camera, 60); got != nil {
			t.Errorf("in the court, looking %v: %v", camera, got)
		}
	}
	if got := look("terrace", 117, 60); got != nil {
		t.Errorf("in the shade of the house: %v", got)
	}
	if got := look("lawn", 27, 60); got != nil {
		t.Errorf("looking across the light: %v", got)
	}
	if got := look("lawn", 297, 0); got != nil {
		t.Errorf("without a view: %v", got)
	}
	if got := s.FrameWarnings(plan.Scene{View: 60}, from, to); got != nil {
		t.Errorf("without a camera: %v", got)
	}
}

// TestLitFromIsTheWishThatHolds: under any sun that is seen and low enough, the wishes that go by the camera hold just as it tells,
// but where two meet.
func TestLitFromIsTheWishThatHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, camera := anySky(t), plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))
		highest := plan.Angle(90)
		for _, kind := range []plan.WishKind{plan.Backlit, plan.SideLit, plan.FrontLit} {
			score := s.Score(plan.Scene{Space: "room", Wish: plan.Wish{Kind: kind, Camera: &camera, MaxAltitude: &highest}})
			for i, m := range s.Minutes {
				ahead := float64(m.Azimuth.Apart(camera))
				edge := math.Abs(ahead-cameraCone) < 1e-6 || math.Abs(ahead-180+cameraCone) < 1e-6
				if m.Direct() && !edge && score.Holds[i] != (LitFrom(m.Sun, camera) == kind) {
					t.Fatalf("the sun %v, the camera %v: it is told as %s, %s holds %v", m.Azimuth, camera, LitFrom(m.Sun, camera), kind, score.Holds[i])
				}
			}
		}
	})
}
