package draw

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

func facing(bearings ...float64) (faces []HouseFace) {
	for _, b := range bearings {
		faces = append(faces, HouseFace{Bearing: b})
	}
	return faces
}

func TestWallsCloseTheHouse(t *testing.T) {
	for _, c := range []struct {
		name  string
		faces []HouseFace
		want  []float64 // bearings of the walls, going round
		named int       // how many of them show a face
	}{
		{"none", nil, nil, 0},
		{"one", facing(200), []float64{200, 290, 20, 110}, 1},
		{"two at a corner", facing(90, 180), []float64{90, 180, 270, 0}, 2},
		{"two back to back", facing(180, 0), []float64{0, 90, 180, 270}, 2},
		{"three", facing(225, 45, 135), []float64{45, 135, 225, 315}, 3},
		{"four, turned", facing(122, 212, 302, 32), []float64{32, 122, 212, 302}, 4},
		{"five, a bay", facing(0, 90, 150, 210, 270), []float64{0, 90, 150, 210, 270}, 5},
		{"two of one bearing share a wall", facing(180, 0, 180, 270, 90), []float64{0, 90, 180, 270}, 4},
		{"over north", facing(350, 80, 170, 260), []float64{80, 170, 260, 350}, 4},
	} {
		var bearings []float64
		named := 0
		for _, one := range wallsOf(c.faces) {
			bearings = append(bearings, one.bearing)
			named += min(1, len(one.faces))
		}
		if !slices.Equal(bearings, c.want) || named != c.named {
			t.Errorf("%s: walls %v, %d of them with faces; want %v, %d", c.name, bearings, named, c.want, c.named)
		}
	}
}

// Whatever the bearings: every face has its one wall, square to its bearing and one unit out; the walls meet end to end,
// clockwise, and no corner runs far away.
func TestWallsStandSquareToTheirBearings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		faces := facing(rapid.SliceOfN(rapid.Float64Range(0, 359.99), 1, 12).Draw(t, "bearings")...)
		walls := wallsOf(faces)
		shown := make([]int, len(faces))
		for i, one := range walls {
			n := way(one.bearing)
			for _, end := range []point{one.a, one.b} {
				if off := end.x*n.x + end.y*n.y - 1; math.Abs(float64(off)) > 1e-3 {
					t.Fatalf("a wall at %v ends %v off its line", one.bearing, off)
				}
			}
			if next := walls[(i+1)%len(walls)].a; hypot(next.x-one.b.x, next.y-one.b.y) > 1e-3 {
				t.Fatalf("walls %d and %d do not meet", i, i+1)
			}
			if cross(point{}, one.a, one.b) < -1e-6 {
				t.Fatalf("wall %d runs anticlockwise", i)
			}
			for _, face := range one.faces {
				shown[face]++
				if d := faces[face].Bearing - one.bearing; d < 0 || d >= 1 {
					t.Fatalf("a face at %v is shown on a wall at %v", faces[face].Bearing, one.bearing)
				}
			}
		}
		if slices.ContainsFunc(shown, func(n int) bool { return n != 1 }) {
			t.Fatalf("faces are shown %v times", shown)
		}
		if far := reach(walls); len(walls) < 3 || far > 2 {
			t.Fatalf("%d walls reach %v", len(walls), far)
		}
	})
}

func TestSheetKeepsBearings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := planBox{mid: point{200, 150}, wide: rapid.Float32Range(50, 300).Draw(t, "wide"), high: rapid.Float32Range(50, 300).Draw(t, "high"), rim: 30}
		bearing, altitude := rapid.Float64Range(0, 360).Draw(t, "bearing"), rapid.Float64Range(0, 89).Draw(t, "altitude")
		q := b.at(bearing, altitude)
		got := turn(math.Atan2(float64(q.x-b.mid.x), float64(b.mid.y-q.y)) * 180 / math.Pi)
		if d := math.Abs(got - bearing); d > 0.1 && d < 359.9 {
			t.Fatalf("%v degrees is drawn at %v", bearing, got)
		}
		share := hypot(q.x-b.mid.x, q.y-b.mid.y) / b.horizon(bearing)
		if math.Abs(float64(share)-(1-altitude/90)) > 1e-3 {
			t.Fatalf("altitude %v is %v of the way out", altitude, share)
		}
		if b.edge(bearing, altitude) < b.horizon(bearing) || b.edge(bearing, altitude+1) < b.edge(bearing, altitude) {
			t.Fatal("a higher skyline makes a narrower rim")
		}
	})
	b := planBox{wide: 200, high: 100, rim: 30}
	for bearing, want := range map[float64]float32{0: 100, 90: 200, 180: 100, 270: 200} {
		if got := b.horizon(bearing); math.Abs(float64(got-want)) > 0.01 {
			t.Errorf("the horizon at %v is %v out, want %v", bearing, got, want)
		}
	}
	if q := b.at(123, 90); q != b.mid {
		t.Errorf("the zenith is at %v", q)
	}
	if got := b.edge(0, 90) - b.horizon(0); got != 30 {
		t.Errorf("the steepest skyline has a rim of %v", got)
	}
}

func TestSkylineBetweenItsValues(t *testing.T) {
	for _, c := range []struct {
		skyline       []float64
		bearing, want float64
	}{
		{nil, 100, 0}, {[]float64{7}, 200, 7},
		{[]float64{0, 10, 20, 30}, 90, 10}, {[]float64{0, 10, 20, 30}, 135, 15}, {[]float64{0, 10, 20, 30}, 315, 15}, {[]float64{0, 10, 20, 30}, -90, 30},
		{[]float64{0, nan(), 20, 30}, 45, 0}, {[]float64{0, nan(), 20, 30}, 225, 25},
	} {
		if got := skylineAt(c.skyline, c.bearing); got != c.want {
			t.Errorf("%v at %v: %v, want %v", c.skyline, c.bearing, got, c.want)
		}
	}
}

func TestTurn(t *testing.T) {
	for in, want := range map[float64]float64{0: 0, 360: 0, -90: 270, 725: 5, -1e-20: 0, math.Inf(1): 0} {
		if got := turn(in); got != want {
			t.Errorf("%v turns to %v, want %v", in, got, want)
		}
	}
}

// inside reports that a convex polygon, clockwise or not, holds a point.
func inside(shape []point, q point) bool {
	left, right := false, false
	for i, a := range shape {
		c := cross(a, shape[(i+1)%len(shape)], q)
		left, right = left || c < -0.05, right || c > 0.05
	}
	return !left || !right
}

func TestHullHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) point {
			return point{float32(rapid.IntRange(0, 20).Draw(t, "x")), float32(rapid.IntRange(0, 20).Draw(t, "y"))}
		}), 1, 15).Draw(t, "points")
		shape := hull(points)
		for _, q := range points {
			if len(shape) > 2 && !inside(shape, q) {
				t.Fatalf("%v lies outside the hull %v of %v", q, shape, points)
			}
		}
		for i := range shape {
			if n := len(shape); n > 2 && cross(shape[i], shape[(i+1)%n], shape[(i+2)%n]) <= 0 {
				t.Fatalf("the hull %v of %v is dented", shape, points)
			}
		}
	})
}

// The shadow holds the house, falls away from the sun, is the longer the lower the sun, and stays on the sheet. Where it is
// not cut it is as long as shadows are: the height times the cotangent of the altitude.
func TestShadowFallsAwayFromTheSun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		walls := wallsOf(facing(rapid.SliceOfN(rapid.Float64Range(0, 359), 1, 6).Draw(t, "bearings")...))
		b := planBox{mid: point{200, 150}, wide: 150, high: 120}
		b.house = 0.4 * b.high / reach(walls)
		now := PathPoint{Azimuth: rapid.Float64Range(0, 360).Draw(t, "azimuth"), Altitude: rapid.Float64Range(0.1, 90).Draw(t, "altitude")}
		shape, away := b.shadow(walls, now), way(now.Azimuth+180)
		far := func(points []point) (most float32) {
			for _, q := range points {
				most = max(most, (q.x-b.mid.x)*away.x+(q.y-b.mid.y)*away.y)
			}
			return most
		}
		var corners []point
		for _, one := range walls {
			corner := b.mid.along(one.a, b.house)
			corners = append(corners, corner)
			if !inside(shape, corner) {
				t.Fatalf("the corner %v is not in the shadow %v", corner, shape)
			}
		}
		want := 0.7 * float64(b.house) / math.Tan(now.Altitude*math.Pi/180)
		got := float64(far(shape) - far(corners))
		if now.Altitude > 30 && math.Abs(got-want) > 0.1 || got > want+0.1 {
			t.Fatalf("a sun at %v casts %v, want %v", now.Altitude, got, want)
		}
		for _, q := range shape {
			if !b.holds(rect{q.x, q.y, 0, 0}) {
				t.Fatalf("the shadow leaves the sheet at %v", q)
			}
		}
	})
}

// A square house, one unit from the middle to its walls: what a ray meets is plain geometry.
func TestRaysEndAtTheHouse(t *testing.T) {
	square := wallsOf(facing(0, 90, 180, 270))
	for _, c := range []struct{ azimuth, offset, want float64 }{{180, 0, 1}, {180, 0.9, 1}, {90, -0.5, 1}, {135, 0, math.Sqrt2}, {135, 0.5, math.Sqrt2 - 0.5}, {135, -0.5, math.Sqrt2 - 0.5},
		{110, 0.5, 1.246}, {110, -0.5, 0.882}} { // the east wall's line, by hand: (1 ± 0.5 sin 20°) / cos 20°
		toward := way(c.azimuth)
		if got := front(square, toward, float32(c.offset)); math.Abs(float64(got)-c.want) > 1e-3 {
			t.Errorf("a ray from %v, %v aside, ends %v out, want %v", c.azimuth, c.offset, got, c.want)
		}
	}
	if got := halfWidth(square, way(45)); math.Abs(float64(got)-math.Sqrt2) > 1e-3 {
		t.Errorf("seen over a corner the house reaches %v aside", got)
	}
}

// planOf lays out a plan without showing it.
func planOf(d HouseData) *HousePlan {
	w := NewHousePlan()
	w.Set(d)
	w.box = w.lay(fyne.NewSize(500, 380))
	return w
}

func TestPathRunsWhereTheSunDoes(t *testing.T) {
	use(t, look.New(false))
	for _, c := range []struct {
		name     string
		latitude float64
		day      int
		noon     float64 // where it passes over the middle's meridian: 1 north, -1 south, 0 overhead
		hours    int     // beads
	}{
		{"north", 48, 133, -1, 15}, {"south", -34, 11, -1, 14}, {"south in winter", -34, 171, 1, 9}, {"equator, equinox", 0, 80, 0, 11},
		{"polar day", 70, 171, -1, 24}, {"polar night", 70, 354, 0, 0},
	} {
		w := planOf(sampleHouse(c.latitude, c.day, 12))
		beads := w.beads()
		if n := len(beads); n < c.hours-1 || n > c.hours+1 {
			t.Errorf("%s: %d full hours, want about %d", c.name, n, c.hours)
		}
		for _, bead := range beads {
			if q := between(w.box.mid, bead.at, 0.999); !w.box.holds(rect{q.x, q.y, 0, 0}) { // a rising sun stands on its edge
				t.Errorf("%s: the sun leaves the sheet at %d h", c.name, bead.hour)
			}
			north := float64(w.box.mid.y - bead.at.y)
			if bead.hour == 12 && (c.noon == 0 && math.Abs(north) > 3 || c.noon != 0 && north*c.noon < 3) && c.name != "south" {
				t.Errorf("%s: at noon the sun stands %v north of the middle", c.name, north)
			}
			east := float64(bead.at.x - w.box.mid.x)
			if bead.hour > 12 == (east > 0) && bead.hour%12 != 0 {
				t.Errorf("%s: at %d h the sun stands %v east", c.name, bead.hour, east)
			}
		}
	}
}

// Kathmandu's clock is 5 h 45 ahead of UTC (IANA time zone database): its full hours fall on :15 UTC.
func TestBeadsAreFullHoursOnTheWall(t *testing.T) {
	use(t, look.New(false))
	d := HouseData{Faces: facing(0), Zone: time.FixedZone("Kathmandu", 5*3600+45*60)}
	start := time.Date(2027, 5, 14, 0, 0, 0, 0, time.UTC)
	for m := 0; m <= 120; m += 10 {
		d.Path = append(d.Path, PathPoint{At: start.Add(time.Duration(m) * time.Minute), Azimuth: 180, Altitude: float64(m) / 2})
	}
	w := planOf(d)
	beads := w.beads()
	if len(beads) != 2 || beads[0].hour != 6 || beads[1].hour != 7 {
		t.Fatalf("beads %+v, want 6 and 7 h", beads)
	}
	if want := w.box.at(180, 7.5); hypot(beads[0].at.x-want.x, beads[0].at.y-want.y) > 0.01 {
		t.Errorf("6 h is at %v, want %v", beads[0].at, want)
	}
}

func TestThreadIsEven(t *testing.T) {
	use(t, look.New(false))
	w := planOf(sampleHouse(48, 133, 12))
	dots := w.thread()
	for i := 1; i < len(dots); i++ {
		if d := hypot(dots[i].at.x-dots[i-1].at.x, dots[i].at.y-dots[i-1].at.y); d < 4 || d > 5.01 {
			t.Fatalf("dots %d and %d are %v apart", i-1, i, d)
		}
	}
	if !slices.ContainsFunc(dots, func(d bead) bool { return d.hidden }) || len(dots) < 50 {
		t.Errorf("%d dots, none behind the skyline", len(dots))
	}
}

// A moment moves the sun and the light; the sheet is kept, and the caller's faces are left alone.
func TestMomentKeepsTheSheet(t *testing.T) {
	use(t, look.New(false))
	w, drawn, moved := NewHousePlan(), 0, 0
	draw, over := w.pic.draw, w.pic.over
	w.pic.draw = func(p *pen) { drawn++; draw(p) }
	w.pic.over = func(p *pen) { moved++; over(p) }
	d := sampleHouse(48, 133, 17)
	before := slices.Clone(d.Faces)
	w.Set(d)
	win := test.NewTempWindow(t, w)
	win.Resize(fyne.NewSize(500, 380))
	win.Canvas().Capture()
	for hour := 6.0; hour < 16; hour++ {
		now := sampleHouse(48, 133, hour)
		w.SetMoment(now.Now, []float64{0.5, 0.5}, "at "+now.Caption)
		win.Canvas().Capture()
	}
	if drawn != 1 || moved != 11 {
		t.Errorf("ten moments draw the sheet %d times and the light %d times, want 1 and 11", drawn, moved)
	}
	if !slices.Equal(d.Faces, before) {
		t.Error("a moment changes the faces that were set")
	}
	if texts := textsOf(w); !slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, "at ") }) {
		t.Errorf("the caption is not shown: %q", texts)
	}
}

// Going to another moment and back gives the same picture: nothing of the light stays behind.
func TestMomentLeavesNothingBehind(t *testing.T) {
	use(t, look.New(false))
	w := NewHousePlan()
	w.Resize(fyne.NewSize(500, 380))
	test.WidgetRenderer(w)
	pixels := func(hour float64) []byte {
		d := sampleHouse(48, 133, hour)
		var strengths []float64
		for _, f := range d.Faces {
			strengths = append(strengths, f.Strength)
		}
		w.SetMoment(d.Now, strengths, "")
		return slices.Clone(w.pic.generate(500, 350).(*image.RGBA).Pix)
	}
	w.Set(sampleHouse(48, 133, 9))
	morning, evening, again := pixels(9), pixels(17), pixels(9)
	if !slices.Equal(morning, again) || slices.Equal(morning, evening) {
		t.Error("the light of the evening stays, or does not come")
	}
}

// Words never lie on each other, nor off the sheet where they belong on it, whatever the house.
func TestPlanWordsKeepTheirPlace(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		use(t, look.New(false).Scaled(rapid.Float32Range(0.9, 1.5).Draw(rt, "scale")))
		d := sampleHouse(rapid.Float64Range(-90, 90).Draw(rt, "latitude"), rapid.IntRange(0, 364).Draw(rt, "day"), 12)
		d.Faces, d.Obstacles = nil, nil
		for range rapid.IntRange(0, 9).Draw(rt, "faces") {
			d.Faces = append(d.Faces, HouseFace{Name: longText[:rapid.IntRange(0, 40).Draw(rt, "name")], Bearing: rapid.Float64Range(0, 359).Draw(rt, "bearing")})
		}
		for range rapid.IntRange(0, 9).Draw(rt, "obstacles") {
			d.Obstacles = append(d.Obstacles, HouseMark{longText[:rapid.IntRange(0, 60).Draw(rt, "obstacle")], rapid.Float64Range(0, 359).Draw(rt, "where")})
		}
		w := NewHousePlan()
		w.Set(d)
		w.Resize(fyne.NewSize(w.MinSize().Width+rapid.Float32Range(0, 900).Draw(rt, "more"), w.MinSize().Height+rapid.Float32Range(0, 300).Draw(rt, "higher")))
		checkTexts(rt, w)
		for _, r := range w.words {
			if !w.box.holds(r) {
				rt.Fatalf("a word at %v is off the sheet", r)
			}
		}
	})
}
