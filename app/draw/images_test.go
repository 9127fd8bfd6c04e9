package draw

import (
	"fmt"
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
)

// use makes a theme the current one, before widgets are made.
func use(t testing.TB, th fyne.Theme) { test.NewTempApp(t).Settings().SetTheme(th) }

// capture renders a widget on the page's ground as a window would show it.
func capture(th fyne.Theme, o fyne.CanvasObject, size fyne.Size, scale float32) image.Image {
	c := software.NewCanvas()
	c.SetPadded(false)
	c.SetScale(scale)
	c.SetContent(container.NewStack(canvas.NewRectangle(th.Color(theme.ColorNameBackground, 0)), o))
	c.Resize(size)
	return c.Capture()
}

// samples makes every widget with the sample day in it.
func samples() map[string]fyne.Widget {
	sky, faces, board, people, strip := NewSkyRibbon(), NewFaceHours(), NewBoard(), NewPeopleRows(), NewDateStrip()
	s, f, b, p := sampleSky(), sampleFaces(), sampleBoard(), samplePeople()
	a := sampleAxis()
	a.Left, a.Right = Gutter("Right, 212° SSW", "Back, 302° WNW"), Gutter("45 min", "5 h 50")
	s.Axis, f.Axis, b.Axis, p.Axis = a, a, a, a
	sky.Set(s)
	faces.Set(f)
	board.Set(b)
	people.Set(p)
	strip.Set(sampleStrip())
	cloudy, year, house, slider := NewSkyRibbon(), NewYearMap(), NewHousePlan(), NewTimeSlider()
	k := sampleCloudySky()
	k.Axis = a
	cloudy.Set(k)
	year.Set(sampleYear(48))
	house.Set(sampleHouse(48, 133, 17))
	slider.Set(SliderData{Axis: sampleAxis(), Value: at(17, 0)})
	loss := NewLossRow()
	loss.Set(sampleLoss())
	cleared := NewClearance()
	cleared.Set(sampleClearance())
	costs, swings, offers := NewHistogram(), NewSwings(), NewOffers()
	costs.Set(sampleCosts())
	swings.Set(sampleSwings())
	offers.Set(sampleOffers())
	lead := NewLead(nil)
	lead.Set(LeadData{Text: "Scenes 11 and 12 need the same golden evening window. Together 40 minutes into 26: shorten by 14, move one to another light, " +
		"or add a second day.", Word: "Show"})
	said := NewSaid("The day is 13 h from call to wrap; overtime and meal rules may apply (local law decides).")
	return map[string]fyne.Widget{"lead": lead, "said": said, "sky": sky, "faces": faces, "board": board, "people": people, "strip": strip,
		"cloudy": cloudy, "year": year, "house": house, "slider": slider, "loss": loss, "cleared": cleared,
		"costs": costs, "swings": swings, "offers": offers}
}

// The images were looked at, at 100 % and 150 %, before they became the measure.
func TestImages(t *testing.T) {
	for _, c := range []struct {
		variant string
		dark    bool
		text    float32
		widgets []string
	}{
		{"light", false, 1, []string{"sky", "faces", "board", "people", "strip", "cloudy", "year", "house", "slider", "loss", "cleared", "costs", "swings", "offers"}},
		{"dark", true, 1, []string{"sky", "faces", "board", "people", "strip", "year", "house", "loss", "cleared", "costs", "swings", "offers"}},
		{"light-150", false, 1.5, []string{"sky", "board", "house", "loss", "costs", "swings", "offers"}},
	} {
		th := look.New(c.dark).Scaled(c.text)
		use(t, th)
		all := samples()
		for _, name := range c.widgets {
			w := all[name]
			test.AssertImageMatches(t, fmt.Sprintf("%s-%s.png", name, c.variant), capture(th, w, fyne.NewSize(900, w.MinSize().Height), 1))
		}
	}
}

// Every widget keeps its texts apart and inside, at every width from its least and every text size on offer.
func TestTextsKeepTheirPlace(t *testing.T) {
	for _, text := range []float32{0.9, 1, 1.25, 1.5} {
		use(t, look.New(false).Scaled(text))
		for name, w := range samples() {
			for width := w.MinSize().Width; width < 1700; width += 61 {
				w.Resize(fyne.NewSize(width, w.MinSize().Height))
				t.Run(fmt.Sprintf("%s %.0f %%, %.0f wide", name, 100*text, width), func(t *testing.T) { checkTexts(t, w) })
			}
		}
	}
}

func TestEmptyWidgetsSaySo(t *testing.T) {
	use(t, look.New(true))
	sky, faces, board, people, strip := NewSkyRibbon(), NewFaceHours(), NewBoard(), NewPeopleRows(), NewDateStrip()
	sky.Set(SkyData{Empty: "nothing"})
	faces.Set(FaceData{Empty: "nothing"})
	board.Set(BoardData{Empty: "nothing"})
	people.Set(PeopleData{Empty: "nothing"})
	strip.Set(StripData{Empty: "nothing"})
	rows := NewBoard()
	rows.Set(BoardData{Rows: []string{"Pool"}, Empty: "nothing"})
	year, house, slider := NewYearMap(), NewHousePlan(), NewTimeSlider()
	year.Set(YearData{Empty: "nothing"})
	house.Set(HouseData{Empty: "nothing"})
	slider.Set(SliderData{Empty: "nothing"})
	loss := NewLossRow()
	loss.Set(LossData{Empty: "nothing"})
	cleared := NewClearance()
	cleared.Set(ClearanceData{Empty: "nothing"})
	costs, swings, offers := NewHistogram(), NewSwings(), NewOffers()
	costs.Set(HistogramData{Empty: "nothing"})
	swings.Set(SwingsData{Empty: "nothing"})
	offers.Set(OffersData{Empty: "nothing"})
	for i, w := range []fyne.Widget{sky, faces, board, people, strip, rows, year, house, slider, loss, cleared, costs, swings, offers} {
		w.Resize(fyne.NewSize(500, 100))
		said := false
		for _, o := range test.WidgetRenderer(w).Objects() {
			text, ok := o.(*canvas.Text)
			said = said || ok && text.Visible() && text.Text == "nothing"
		}
		if !said {
			t.Errorf("widget %d says nothing", i)
		}
	}
}

// Before any Set, at no size, and at a size nothing fits, the widgets draw without harm.
func TestWidgetsBeforeAnyData(t *testing.T) {
	th := look.New(false)
	use(t, th)
	for _, w := range []fyne.Widget{NewSkyRibbon(), NewFaceHours(), NewBoard(), NewPeopleRows(), NewDateStrip(),
		NewYearMap(), NewHousePlan(), NewTimeSlider(), NewLossRow(), NewClearance(), NewHistogram(), NewSwings(), NewOffers()} {
		capture(th, w, fyne.NewSize(200, 80), 1)
	}
	for _, w := range samples() {
		for _, size := range []fyne.Size{{}, {Width: 1, Height: 1}, {Width: 60, Height: 300}, {Width: 900, Height: 2}} {
			capture(th, w, size, 2)
		}
	}
}

func TestFiguresThatAreNoNumbers(t *testing.T) {
	th := look.New(false)
	use(t, th)
	nan := nan()
	sky := NewSkyRibbon()
	d := sampleSky()
	d.Samples[10].Altitude, d.Samples[20].Skyline, d.Samples[30].Skyline = nan, nan, 1/zero()
	sky.Set(d)
	if got, want := len(sky.data.Samples), len(d.Samples)-3; got != want {
		t.Errorf("%d samples are shown, want %d", got, want)
	}
	capture(th, sky, fyne.NewSize(900, 140), 1)
	b := sampleBoard()
	b.Blocks[0].Kept, b.Blocks[1].Kept, b.Blocks[2].End = nan, 17, b.Blocks[2].SetUp
	board := NewBoard()
	board.Set(b)
	capture(th, board, fyne.NewSize(900, 240), 1)
}

func TestPlacesThatAreNoNumbers(t *testing.T) {
	th := look.New(false)
	use(t, th)
	for _, bad := range []float64{nan(), 1 / zero(), -1 / zero(), 1e300} {
		d := sampleHouse(48, 133, 17)
		d.Faces[0].Bearing, d.Faces[1].Strength, d.Skyline[7], d.Obstacles[0].Bearing = bad, bad, bad, bad
		d.Path[60].Azimuth, d.Path[90].Altitude, d.Now.Azimuth = bad, bad, bad
		house := NewHousePlan()
		house.Set(d)
		capture(th, house, fyne.NewSize(500, 380), 1)
		d = sampleHouse(48, 133, 17)
		house.SetMoment(PathPoint{At: d.Now.At, Azimuth: 100, Altitude: bad}, []float64{bad}, "")
		capture(th, house, fyne.NewSize(500, 380), 1)
		sky := sampleCloudySky()
		sky.Moon[3].Altitude, sky.Cloud[1].Value = bad, bad
		w := NewSkyRibbon()
		w.Set(sky)
		capture(th, w, fyne.NewSize(900, 140), 1)
	}
	year := NewYearMap()
	year.Set(YearData{Year: -7, Days: []YearDay{{Holds: []MinuteSpan{{-99999, 99999}, {5, 5}, {9, 3}}, Light: MinuteSpan{math.MaxInt, math.MinInt}}},
		Marks: []YearMark{{-1, "before", true}, {400, "after", false}}})
	capture(th, year, fyne.NewSize(500, 220), 1)
}

// The ribbon keeps its picture while nothing changes, and redraws it for new data and a new theme.
func TestRibbonRedrawsOnlyOnChange(t *testing.T) {
	light := look.New(false)
	use(t, light)
	w, drawn := NewSkyRibbon(), 0
	draw := w.pic.draw
	w.pic.draw = func(p *pen) { drawn++; draw(p) }
	w.Set(sampleSky())
	win := test.NewTempWindow(t, w)
	win.Resize(fyne.NewSize(900, 140))
	for range 3 {
		win.Canvas().Capture()
	}
	if drawn != 1 {
		t.Errorf("three frames drew the sky %d times", drawn)
	}
	w.Set(sampleSky())
	win.Canvas().Capture()
	fyne.CurrentApp().Settings().SetTheme(look.New(true))
	win.Canvas().Capture()
	if drawn < 3 {
		t.Errorf("new data and a new theme drew it %d times", drawn-1)
	}
}

func BenchmarkSkyRibbonRedraw(b *testing.B) {
	use(b, look.New(false))
	w := samples()["sky"].(*SkyRibbon)
	w.Resize(fyne.NewSize(1060, 130))
	test.WidgetRenderer(w)
	scale := float32(2)
	for b.Loop() {
		w.pic.stale = true
		w.pic.generate(int(w.pic.width*scale), int((w.sky.bottom-w.sky.top)*scale))
	}
}

func BenchmarkBoardRefresh20Blocks(b *testing.B) {
	use(b, look.New(false))
	w := NewBoard()
	w.Resize(fyne.NewSize(1060, 260))
	d := sampleBoard()
	one := d.Blocks[1]
	d.Blocks = nil
	for i := range 20 {
		one.ID, one.Row = fmt.Sprint(i), i%5
		one.SetUp, one.Start, one.End = at(5, 40*i), at(5, 40*i+10), at(5, 40*i+35)
		d.Blocks = append(d.Blocks, one)
	}
	for b.Loop() {
		w.Set(d)
	}
}

// One step of a slider drag, as its frame costs: the sun moves, the words are placed again, the picture is drawn at scale 2.
func BenchmarkHousePlanMoment(b *testing.B) {
	use(b, look.New(false))
	w := NewHousePlan()
	w.Set(sampleHouse(48, 133, 17))
	w.Resize(fyne.NewSize(500, 380))
	test.WidgetRenderer(w)
	noon := sampleHouse(48, 133, 12)
	w.pic.generate(1000, 720)
	i := 0
	for b.Loop() {
		i++
		now := noon.Path[80+i%120]
		w.SetMoment(now, []float64{0.2, 0.9, 0, 0}, noon.Caption)
		w.pic.generate(1000, 720)
	}
}

func BenchmarkHousePlanRedraw(b *testing.B) {
	use(b, look.New(false))
	w := NewHousePlan()
	d := sampleHouse(48, 133, 17)
	w.Resize(fyne.NewSize(500, 380))
	for b.Loop() {
		w.Set(d)
		w.pic.generate(1000, 720)
	}
}

func BenchmarkYearMapRedraw(b *testing.B) {
	use(b, look.New(false))
	w := NewYearMap()
	d := sampleYear(48)
	w.Resize(fyne.NewSize(1000, 220))
	test.WidgetRenderer(w)
	for b.Loop() {
		w.Set(d)
		w.pic.generate(1900, 290)
	}
}

func BenchmarkYearMapCursor(b *testing.B) {
	use(b, look.New(false))
	w := NewYearMap()
	w.Set(sampleYear(48))
	w.Resize(fyne.NewSize(1000, 220))
	test.WidgetRenderer(w)
	day := 0
	for b.Loop() {
		day++
		w.move(day % 365)
		w.pic.generate(1900, 290)
	}
}
