package draw

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"eavelight/app/look"
)

func TestSampleBetweenNeighbours(t *testing.T) {
	samples := []SkySample{{at(6, 0), 0, 10}, {at(6, 10), 2, 20}, {at(6, 20), 5, 0}}
	for _, c := range []struct {
		at                time.Time
		altitude, skyline float64
	}{{at(5, 0), 0, 10}, {at(6, 0), 0, 10}, {at(6, 5), 1, 15}, {at(6, 10), 2, 20}, {at(6, 15), 3.5, 10}, {at(8, 0), 5, 0}} {
		if s := sampleAt(samples, c.at); s.Altitude != c.altitude || s.Skyline != c.skyline {
			t.Errorf("%v: %v, %v, want %v, %v", c.at, s.Altitude, s.Skyline, c.altitude, c.skyline)
		}
	}
}

func TestSkyScale(t *testing.T) {
	box := skyBox{top: 20, horizon: 120, highest: 50}
	for altitude, want := range map[float64]float32{0: 120, 50: 20, 25: 70, -5: 130} {
		if got := box.y(altitude); got != want {
			t.Errorf("%v degrees at %v, want %v", altitude, got, want)
		}
	}
	for altitude, want := range map[float64]float64{-3: 66, 40: 66, 70: 75, 90: 95} {
		if got := highest([]SkySample{{Altitude: altitude}}); got != want {
			t.Errorf("a sun up to %v has a scale to %v, want %v", altitude, got, want)
		}
	}
}

// A sun that rises behind a hill, comes out, and sets on a free horizon has one hidden and one seen stretch, joined.
func TestSunPathIsSplitByTheSkyline(t *testing.T) {
	test.NewTempApp(t)
	w := NewSkyRibbon()
	w.data = SkyData{Axis: Axis{From: at(6, 0), To: at(16, 0)}}
	for h := 6.0; h <= 16; h += 0.1 {
		s := SkySample{At: at(0, 0).Add(time.Duration(h * float64(time.Hour))), Altitude: 30 - math.Abs(h-11)*8}
		if h < 10 {
			s.Skyline = 15
		}
		w.data.Samples = append(w.data.Samples, s)
	}
	w.sky = skyBox{width: 1000, horizon: 100, bottom: 120, highest: 60}
	sun, ridge := w.trace(w.sky)
	if len(sun) != 2 || !sun[0].hidden || sun[1].hidden {
		t.Fatalf("%d stretches", len(sun))
	}
	x := func(h float64) float64 { return (h - 6) * 100 }
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"rises", float64(sun[0].points[0].x), x(11 - 30.0/8)},
		{"comes out", float64(sun[1].points[0].x), x(11 - 15.0/8)},
		{"joins", float64(sun[0].points[len(sun[0].points)-1].x), float64(sun[1].points[0].x)},
		{"sets", float64(sun[1].points[len(sun[1].points)-1].x), x(11 + 30.0/8)},
		{"ridge over the hill", float64(ridge[200].y), 75},
		{"ridge in the open", float64(ridge[900].y), 100},
	} {
		if math.Abs(c.got-c.want) > 2 {
			t.Errorf("%s at %.1f, want %.1f", c.name, c.got, c.want)
		}
	}
}

// The moon is drawn while it is up, and no longer than it is told of.
func TestMoonPathIsThatAboveTheHorizon(t *testing.T) {
	use(t, look.New(false))
	w := NewSkyRibbon()
	w.data = SkyData{Axis: Axis{From: at(0, 0), To: at(20, 0)}}
	for h := 3; h <= 18; h++ { // up from 3, where it is first told of, to 6, and from 12 to 18, where it is last told of
		w.data.Moon = append(w.data.Moon, SkySample{At: at(h, 0), Altitude: math.Abs(float64(h)-9)*10 - 30})
	}
	w.sky = skyBox{x: 10, top: 5, width: 1000, horizon: 105, highest: 100}
	w.data.Axis.Left = 10
	lines := w.moonPath(w.sky)
	if len(lines) != 2 {
		t.Fatalf("%d stretches, want 2", len(lines))
	}
	for i, want := range [][2]float32{{160, 310}, {610, 910}} {
		from, to := lines[i][0].x, lines[i][len(lines[i])-1].x
		if from < want[0] || from > want[0]+1 || to > want[1] || to < want[1]-1 {
			t.Errorf("stretch %d runs from %v to %v, want %v", i, from, to, want)
		}
	}
	if top, ok := highestPoint(lines, 0, 9999); !ok || top.x < 909 || math.Abs(float64(top.y)-45) > 0.5 {
		t.Errorf("the highest point is %v, want 60 degrees at the end", top)
	}
	if top, ok := highestPoint(lines, 0, 860); !ok || top.x != 860 {
		t.Errorf("the highest point up to 860 is %v", top)
	}
	if top, ok := highestPoint(lines, 400, 500); ok {
		t.Errorf("%v is a point of a moon that is down", top)
	}
}

// More cloud lays more grey further down the sky, and only over its hours.
func TestCloudVeilsItsHours(t *testing.T) {
	use(t, look.New(false))
	veiled := func(value float64) (inside, outside float64, depth int) {
		w := NewSkyRibbon()
		w.data = SkyData{Axis: Axis{From: at(0, 0), To: at(10, 0)}, Cloud: []SpanValue{{span(2, 0, 6, 0, ""), value}}}
		w.sky = skyBox{width: 200, horizon: 100}
		p := newPen(200, 100, 1)
		w.drawCloud(p, look.Of(w.Theme()), w.sky)
		for y := range 100 {
			for x := range 200 {
				cover := float64(p.img.RGBAAt(x, y).A) / 255
				switch {
				case x < 40 || x >= 120:
					outside += cover
				default:
					inside += cover
					if cover > 0.02 {
						depth = y
					}
				}
			}
		}
		return inside, outside, depth
	}
	before, beforeDepth := 0.0, 0
	for _, value := range []float64{0.1, 0.4, 0.7, 1} {
		in, out, depth := veiled(value)
		if in < before+80 || depth < beforeDepth+8 || depth > 60 || out > 2 { // 2 for smoothed edges
			t.Errorf("%v of cloud covers %.0f of its sky, %d down, and %.0f beside; less covered %.0f, %d down", value, in, depth, out, before, beforeDepth)
		}
		before, beforeDepth = in, depth
	}
	for _, value := range []float64{0, -1, nan()} {
		if in, out, _ := veiled(value); in+out > 0 {
			t.Errorf("%v of cloud covers something", value)
		}
	}
}

func TestLitAreas(t *testing.T) {
	a := Axis{From: at(0, 0), To: at(1, 0)}
	row := func(strength ...float64) FaceRow {
		return FaceRow{Start: at(0, 0), Step: 10 * time.Minute, Strength: strength}
	}
	for _, c := range []struct {
		name string
		row  FaceRow
		want [][2]float32 // first and last x at 10 units a value
		top  []float32    // height of the middle
	}{
		{"never lit", row(0, 0, 0, 0, 0, 0), nil, nil},
		{"no values", FaceRow{Start: at(0, 0)}, nil, nil},
		{"once", row(0, 0, 1, 1, 0, 0), [][2]float32{{20, 39}}, []float32{100}},
		{"twice", row(0.5, 0, 0, 0.25, 0, 0), [][2]float32{{0, 9}, {30, 39}}, []float32{50, 25}},
		{"to the end", row(0, 0, 0, 0, 0, 1, 1), [][2]float32{{50, 60}}, []float32{100}},
		{"too strong and no number", row(7, math.NaN(), -1), [][2]float32{{0, 9}}, []float32{100}},
	} {
		areas := litAreas(c.row, a, 60, 100, 100)
		if len(areas) != len(c.want) {
			t.Errorf("%s: %d areas, want %d", c.name, len(areas), len(c.want))
			continue
		}
		for i, got := range areas {
			if got[0].x != c.want[i][0] || got[len(got)-1].x != c.want[i][1] || 100-got[len(got)/2].y != c.top[i] {
				t.Errorf("%s: area %d from %v to %v, %v high", c.name, i, got[0].x, got[len(got)-1].x, 100-got[len(got)/2].y)
			}
		}
	}
}

func TestStripFitsCardsWithOrWithoutButtons(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	w := NewDateStrip()
	w.data = sampleStrip()
	card, button := w.cardWidth(), w.buttonWidth()
	for _, c := range []struct {
		name         string
		width        float32
		first        int // asked for
		want, count  int
		buttons, all bool
	}{
		{"all, just", 5*card + 1, 0, 0, 5, false, true},
		{"all, with much room", 50 * card, 3, 0, 5, false, true},
		{"three from the start", 2*button + 3.5*card, 0, 0, 3, true, false},
		{"three from the second", 2*button + 3.5*card, 1, 1, 3, true, false},
		{"three at the end", 2*button + 3.5*card, 9, 2, 3, true, false},
		{"less than one", 10, 2, 2, 1, true, false},
	} {
		w.first = c.first
		s := w.lay(c.width)
		if s.first != c.want || s.count != c.count || (s.x > 0) != c.buttons || c.all && float32(s.count)*s.step > c.width {
			t.Errorf("%s: %+v", c.name, s)
		}
	}
}

func TestBoardRowsUseTheRoom(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	w := NewBoard()
	w.Set(sampleBoard())
	least := w.grid(fyne.Size{})
	most := w.grid(fyne.NewSize(900, 9999)).row
	if least.row < 30 || least.row > 36 || most < 55 || most > 65 {
		t.Errorf("a row is %v high, which the page's height does not allow for, or at most %v", least.row, most)
	}
	for _, c := range []struct{ height, want float32 }{{0, least.row}, {least.top + 5*least.row*1.2, least.row * 1.2}, {9999, most}} {
		if got := w.grid(fyne.NewSize(900, c.height)).row; math.Abs(float64(got-c.want)) > 0.01 {
			t.Errorf("%v high: rows of %v, want %v", c.height, got, c.want)
		}
	}
}
