package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

// shownPad is an empty pad in a window, on which one unit is 0.3 of Fyne's; told counts the changes it tells of.
func shownPad(t testing.TB) (w *SignPad, told *int, c fyne.Canvas) {
	use(t, look.New(false))
	w, told = NewSignPad(), new(int)
	w.OnChange = func() { *told++ }
	win := test.NewTempWindow(t, w)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(0.3*PadWide+2*margin, 0.3*PadHigh+2*margin))
	return w, told, win.Canvas()
}

func place(s Spot) fyne.Position {
	return fyne.NewPos(margin+0.3*float32(s.X), margin+0.3*float32(s.Y))
}

// sign replays a stroke as the desktop driver sends it: down, dragged, up, end.
func sign(w *SignPad, spots ...Spot) {
	event := func(s Spot) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: place(s)}, Button: desktop.MouseButtonPrimary}
	}
	w.MouseDown(event(spots[0]))
	for i, s := range spots[1:] {
		w.Dragged(dragged(place(spots[i]), place(s)))
	}
	w.MouseUp(event(spots[len(spots)-1]))
	if len(spots) > 1 {
		w.DragEnd()
	}
}

func dragged(from, to fyne.Position) *fyne.DragEvent {
	return &fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}, Dragged: fyne.Delta{DX: to.X - from.X, DY: to.Y - from.Y}}
}

func holds(t *testing.T, w *SignPad, strokes ...[]Spot) {
	t.Helper()
	if !slices.EqualFunc(w.Strokes(), strokes, slices.Equal) {
		t.Errorf("strokes %v, want %v", w.Strokes(), strokes)
	}
}

func TestPadTakesWhatIsDrawn(t *testing.T) {
	w, told, c := shownPad(t)
	one := []Spot{{100, 400}, {200, 100}, {300, 420}}
	sign(w, one...)
	holds(t, w, one)
	if c.Focused() != w {
		t.Error("a press does not take the keyboard")
	}
	sign(w, Spot{350, 50}) // the dot on an i
	holds(t, w, one, []Spot{{350, 50}})
	sign(w, Spot{1900, 500}, Spot{2500, 800}, Spot{1990, -70}) // out at the corner, and out at the top
	holds(t, w, one, []Spot{{350, 50}}, []Spot{{1900, 500}, {2000, 600}, {1990, 0}})
	if *told != 3 {
		t.Errorf("told %d changes of three strokes", *told)
	}
}

func TestPadKeepsNoSpotsThatMakeNoDifference(t *testing.T) {
	w, _, _ := shownPad(t)
	sign(w, Spot{100, 100}, Spot{100, 101}, Spot{103, 102}, Spot{104, 100}, Spot{104, 103}, Spot{107, 103})
	holds(t, w, []Spot{{100, 100}, {104, 100}, {107, 103}})
}

// A finger's drag comes without a button, as Fyne's mobile drivers send it.
func TestPadTakesAFingersDrag(t *testing.T) {
	w, told, _ := shownPad(t)
	w.Dragged(dragged(place(Spot{500, 300}), place(Spot{600, 310})))
	w.Dragged(dragged(place(Spot{600, 310}), place(Spot{700, 200})))
	w.DragEnd()
	holds(t, w, []Spot{{500, 300}, {600, 310}, {700, 200}})
	if *told != 1 {
		t.Errorf("told %d changes of one stroke", *told)
	}
}

func TestOtherButtonsDrawNothing(t *testing.T) {
	w, told, _ := shownPad(t)
	other := func(s Spot) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: place(s)}, Button: desktop.MouseButtonTertiary}
	}
	w.MouseDown(other(Spot{500, 300}))
	w.Dragged(dragged(place(Spot{500, 300}), place(Spot{600, 300})))
	w.MouseUp(other(Spot{600, 300}))
	w.DragEnd()
	holds(t, w)
	if *told != 0 {
		t.Error("told of no change")
	}
	line := []Spot{{500, 300}, {600, 300}}
	sign(w, line...)
	holds(t, w, line)
}

func TestKeysClearAndTakeBack(t *testing.T) {
	w, told, c := shownPad(t)
	one, two := []Spot{{100, 400}, {200, 100}}, []Spot{{300, 300}, {400, 300}}
	sign(w, one...)
	sign(w, two...)
	c.Focus(w)
	key(w, fyne.KeyBackspace)
	holds(t, w, one)
	sign(w, two...)
	holds(t, w, one, two)
	key(w, fyne.KeyDelete)
	holds(t, w)
	before := *told
	key(w, fyne.KeyDelete, fyne.KeyBackspace, fyne.KeyReturn)
	if holds(t, w); before != 5 || *told != before {
		t.Errorf("told %d changes, then %d on an empty pad; want 5 and no more", before, *told-before)
	}
}

func TestShownAndWaitingPadsTakeNothing(t *testing.T) {
	stroke := []Spot{{100, 400}, {200, 100}}
	for _, d := range []SignData{{ReadOnly: true}, {Disabled: true}} {
		w, told, _ := shownPad(t)
		d.Strokes = [][]Spot{stroke}
		w.Set(d)
		sign(w, Spot{500, 300}, Spot{600, 300})
		w.FocusGained()
		w.Dragged(dragged(place(Spot{500, 300}), place(Spot{600, 300})))
		w.DragEnd()
		w.Clear()
		key(w, fyne.KeyDelete, fyne.KeyBackspace)
		holds(t, w, stroke)
		for _, o := range test.WidgetRenderer(w).Objects() {
			if r, ok := o.(*canvas.Rectangle); ok && r.Visible() && r.StrokeColor == look.Of(w.Theme()).Accent {
				t.Errorf("%+v: shows the focus, though no key does anything", d)
			}
		}
		if *told != 0 || w.Cursor() != desktop.DefaultCursor {
			t.Errorf("%+v: told %d changes, cursor %v", d, *told, w.Cursor())
		}
	}
	w, _, _ := shownPad(t)
	w.Set(SignData{Disabled: true})
	w.Enable()
	sign(w, stroke...)
	holds(t, w, stroke)
	if w.Cursor() != desktop.CrosshairCursor {
		t.Error("no cross where one can sign")
	}
	w.Set(SignData{ReadOnly: true})
	if w.Enable(); !w.Disabled() {
		t.Error("a pad that only shows can be drawn on")
	}
}

func TestTabReachesAPadThatTakesASignature(t *testing.T) {
	use(t, look.New(false))
	shown, open := NewSignPad(), NewSignPad()
	shown.Set(SignData{ReadOnly: true})
	win := test.NewTempWindow(t, container.NewVBox(shown, open))
	win.Canvas().FocusNext()
	if win.Canvas().Focused() != open {
		t.Errorf("Tab reaches %v", win.Canvas().Focused())
	}
	open.Resize(fyne.NewSize(900, 270))
	if texts := textsOf(open); len(texts) != 1 || !strings.Contains(texts[0], "keys can't sign") {
		t.Errorf("focused, the pad says %q", texts)
	}
}

func TestAPadIsFull(t *testing.T) {
	w, _, _ := shownPad(t)
	for i := range mostStrokes + 5 {
		sign(w, Spot{i, 300})
	}
	if n := len(w.Strokes()); n != mostStrokes {
		t.Errorf("%d strokes are taken", n)
	}
	if texts := textsOf(w); len(texts) != 1 || texts[0] != "the pad is full; Delete clears it" {
		t.Errorf("a full pad says %q", texts)
	}
	w.Set(SignData{Strokes: [][]Spot{make([]Spot, mostSpots-3)}})
	sign(w, Spot{0, 0}, Spot{100, 0}, Spot{200, 0}, Spot{300, 0}, Spot{400, 0})
	if s := w.Strokes(); len(s) != 2 || len(s[1]) != 3 {
		t.Errorf("%d strokes, %d spots in the last, want 3", len(s), len(s[len(s)-1]))
	}
}

func TestSetTakesAnyStrokes(t *testing.T) {
	w, told, _ := shownPad(t)
	given := [][]Spot{{{-5, 900}, {math.MaxInt, math.MinInt}}, {}, {{7, 8}}}
	w.Set(SignData{Strokes: given})
	holds(t, w, []Spot{{0, 600}, {2000, 0}}, []Spot{{7, 8}})
	w.Strokes()[1][0] = Spot{9, 9}
	given[2][0] = Spot{9, 9}
	holds(t, w, []Spot{{0, 600}, {2000, 0}}, []Spot{{7, 8}})
	w.Set(SignData{Strokes: [][]Spot{{{50, 50}}}, Wide: 100, High: 40})
	holds(t, w, []Spot{{50, 40}})
	w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: place(Spot{100, 100})}, Button: desktop.MouseButtonPrimary})
	w.Set(SignData{})
	w.DragEnd()
	if holds(t, w); *told != 0 {
		t.Errorf("told %d changes that were not made here", *told)
	}
}

// Whatever way the pointer goes, the spots of a stroke lie on the pad, none closer to the next than is told apart, and the
// pointer was never further from one of them than that and the rounding to whole units.
func TestThinningLosesNothingThatShows(t *testing.T) {
	w, _, _ := shownPad(t)
	rapid.Check(t, func(rt *rapid.T) {
		w.Set(SignData{})
		way := []Spot{{rapid.IntRange(0, PadWide).Draw(rt, "x"), rapid.IntRange(0, PadHigh).Draw(rt, "y")}}
		for range rapid.IntRange(1, 200).Draw(rt, "events") {
			last := way[len(way)-1]
			step := rapid.IntRange(-12, 12)
			way = append(way, Spot{last.X + step.Draw(rt, "dx"), last.Y + step.Draw(rt, "dy")})
		}
		sign(w, way...)
		strokes := w.Strokes()
		if len(strokes) != 1 || strokes[0][0] != way[0] {
			rt.Fatalf("%v became %v", way, strokes)
		}
		for i, s := range strokes[0] {
			if s != w.onPad(s) {
				rt.Fatalf("%v is off the pad", s)
			}
			if i > 0 && distance(strokes[0][i-1], s) < apart {
				rt.Fatalf("%v and %v are closer than %d", strokes[0][i-1], s, apart)
			}
		}
		for _, s := range way {
			near := func(o Spot) bool { return distance(w.onPad(s), o) < apart+1 }
			if !slices.ContainsFunc(strokes[0], near) {
				rt.Fatalf("nothing is drawn near %v: %v", s, strokes[0])
			}
		}
	})
}

func distance(a, b Spot) float64 { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) }

// The same way across the pad is the same signature at any size of the widget, to a unit's rounding.
func TestASignatureDoesNotDependOnTheSizeOfThePad(t *testing.T) {
	w, _, _ := shownPad(t)
	for _, size := range []fyne.Size{{Width: 300, Height: 96}, {Width: 700, Height: 100}, {Width: 320, Height: 500}, {Width: 2400, Height: 700}} {
		w.Set(SignData{})
		w.Resize(size)
		sheet := w.sheet(size)
		for i, s := range []Spot{{0, 0}, {2000, 600}, {1000, 300}, {123, 456}} {
			unit := (sheet.w - 2*margin) / PadWide
			p := fyne.NewPos(sheet.x+margin+unit*float32(s.X), sheet.y+margin+unit*float32(s.Y))
			w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: p}, Button: desktop.MouseButtonPrimary})
			w.DragEnd()
			if got := w.Strokes()[i][0]; distance(got, s) > 1 {
				t.Errorf("at %v: got %v, want %v", size, got, s)
			}
		}
		if ratio := float64((sheet.w - 2*margin) / (sheet.h - 2*margin)); math.Abs(ratio-float64(PadWide)/PadHigh) > 0.01 {
			t.Errorf("at %v the pad is pulled to %.2f", size, ratio)
		}
	}
}

// The areas are geometry's: a line of a width covers its length times its width, and its tips.
func TestInkCoversItsLine(t *testing.T) {
	tips := math.Pi * 4
	for name, c := range map[string]struct {
		points []point
		want   float64
	}{
		"level":        {[]point{{10, 20}, {50, 20}}, 40*4 + tips},
		"there & back": {[]point{{10, 20}, {50, 20}, {10, 20}}, 40*4 + tips},
		// less the square that both pieces cover, and a quarter of a tip at the corner
		"right angle": {[]point{{10, 10}, {50, 10}, {50, 30}}, 60*4 - 4 + tips + math.Pi},
	} {
		p := newPen(240, 160, 4)
		p.fill(ink, inked(c.points, 2)...)
		if got := area(p) / 16; math.Abs(got-c.want) > 2.5 {
			t.Errorf("%s covers %.1f, want %.1f", name, got, c.want)
		}
	}
}

// A rounded line keeps its ends, and stays within the corners that it rounds.
func TestRoundedStaysWithinItsCorners(t *testing.T) {
	points := []point{{0, 0}, {40, 0}, {40, 40}, {80, 40}}
	out := rounded(points)
	if out[0] != points[0] || out[len(out)-1] != points[3] || len(out) < 20 {
		t.Fatalf("%v", out)
	}
	for i, q := range out {
		if q.x < 0 || q.x > 80 || q.y < 0 || q.y > 40 {
			t.Errorf("%v leaves the corners", q)
		}
		if i > 0 && q.x < out[i-1].x {
			t.Errorf("%v goes back", q)
		}
	}
}

// scrawl is an invented signature: loops that shrink along a slope, a flourish under them, and a dot.
func scrawl() [][]Spot {
	var loops, flourish []Spot
	for t := 0.0; t < 1; t += 0.004 {
		size := 190 * (1 - 0.6*t) * (1 + 0.3*math.Sin(31*t))
		loops = append(loops, Spot{260 + int(1250*t+0.7*size*math.Sin(50*t)), 300 - int(60*t+size*math.Cos(50*t))})
	}
	for t := 0.0; t < 1; t += 0.02 {
		flourish = append(flourish, Spot{1650 - int(1300*t), 470 + int(40*math.Sin(9*t)-90*t)})
	}
	flourish = append(flourish, Spot{700, 330}, Spot{330, 400}) // a sharp turn back
	return [][]Spot{loops, flourish, {{1720, 170}}}
}

// The images were looked at, at 100 % and 150 %, before they became the measure.
func TestPadImages(t *testing.T) {
	for _, c := range []struct {
		name  string
		dark  bool
		text  float32
		data  SignData
		focus bool
	}{
		{"empty-light", false, 1, SignData{}, false},
		{"empty-dark", true, 1, SignData{}, false},
		{"focused-light-150", false, 1.5, SignData{}, true},
		{"signed-light", false, 1, SignData{Strokes: scrawl()}, true},
		{"signed-dark", true, 1, SignData{Strokes: scrawl()}, true},
		{"shown-light", false, 1, SignData{Strokes: scrawl(), ReadOnly: true, Note: "Nina Calloway-Ruiz"}, false},
		{"waiting-light", false, 1, SignData{Strokes: scrawl(), Disabled: true, Note: "fill in the name first"}, false},
		{"waiting-dark", true, 1, SignData{Disabled: true, Note: "fill in the name first"}, false},
	} {
		th := look.New(c.dark).Scaled(c.text)
		use(t, th)
		w := NewSignPad()
		w.Set(c.data)
		w.focused = c.focus
		test.AssertImageMatches(t, fmt.Sprintf("sign-%s.png", c.name), capture(th, w, fyne.NewSize(640, 200), 1))
	}
}

func TestPadTextsKeepTheirPlace(t *testing.T) {
	for _, text := range []float32{0.9, 1, 1.25, 1.5} {
		use(t, look.New(false).Scaled(text))
		for _, focused := range []bool{false, true} {
			for _, note := range []string{"", longText} {
				w := NewSignPad()
				w.Set(SignData{Note: note})
				w.focused = focused
				for width := w.MinSize().Width; width < 1700; width += 61 {
					w.Resize(fyne.NewSize(width, w.MinSize().Height))
					checkTexts(t, w)
				}
			}
		}
	}
}

// At no size, and at a size nothing fits, the pad draws without harm, and takes a press.
func TestPadOfNoSize(t *testing.T) {
	th := look.New(true)
	use(t, th)
	for _, size := range []fyne.Size{{}, {Width: 1, Height: 1}, {Width: 5, Height: 300}, {Width: 900, Height: 2}} {
		w := NewSignPad()
		w.Set(SignData{Strokes: scrawl()})
		capture(th, w, size, 2)
		w.Resize(size)
		sign(w, Spot{0, 0}, Spot{100, 100})
	}
}

// One step of drawing, as its frame costs: a stroke of 400 spots on a name, at scale 2.
func BenchmarkPadDrawing(b *testing.B) {
	use(b, look.New(false))
	w := NewSignPad()
	w.Set(SignData{Strokes: scrawl()})
	w.Resize(fyne.NewSize(640, 200))
	test.WidgetRenderer(w)
	w.now = slices.Concat(w.data.Strokes[0], w.data.Strokes[0])[:400]
	w.pic.generate(1280, 400)
	for b.Loop() {
		w.pic.touch(w)
		w.pic.generate(1280, 400)
	}
}
