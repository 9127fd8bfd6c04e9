package draw

import (
	"fmt"
	"image/color"
	"math"
	"sort"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// SkyData is what a sky ribbon shows.
type SkyData struct {
	Axis    Axis
	Name    string      // at the left, a word or two
	Samples []SkySample // in the order of time, a few minutes apart
	Windows []Span      // golden and blue hours
	Marks   []Mark      // sunrise, noon, sunset
	Empty   string      // shown instead when there are no samples

	Moon      []SkySample // the moon's path, which is drawn where it is up; its Skyline is not looked at
	MoonLabel string      // at the highest point of that path: "moon 62 %"
	Cloud     []SpanValue // expected cloud, 0 for a clear sky to 1 for a covered one
}

// SpanValue is a value over an interval of time.
type SpanValue struct {
	Span
	Value float64
}

// SkySample is the sun at a moment: altitudes in degrees above the horizontal.
type SkySample struct {
	At       time.Time
	Altitude float64 // of the sun's centre
	Skyline  float64 // of what blocks it, at the sun's bearing; 0 or less for a free horizon
}

// SkyRibbon shows a day's sky: its colour from hour to hour, the sun's altitude as a curve, and the skyline as a dark shape
// that bites into it. Under the horizon stand the marks, above the sky the brackets of golden and blue hours, below the hours.
type SkyRibbon struct {
	widget.BaseWidget
	pointing
	data SkyData
	pic  picture
	sky  skyBox // where the picture lies, for drawing it
	tags []rect // dark grounds under words over the sky, for drawing them
}

// NewSkyRibbon returns an empty ribbon.
func NewSkyRibbon() *SkyRibbon {
	w := &SkyRibbon{}
	w.pic.draw = w.drawSky
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, without the samples that are no numbers. Call it on the UI goroutine.
func (w *SkyRibbon) Set(d SkyData) {
	w.data = d
	w.data.Samples, w.data.Moon = numbers(d.Samples), numbers(d.Moon)
	w.Refresh()
}

// numbers returns the samples without those that are no numbers.
func numbers(samples []SkySample) (kept []SkySample) {
	for _, s := range samples {
		if finite(s.Altitude + s.Skyline) {
			kept = append(kept, s)
		}
	}
	return kept
}

// CreateRenderer is Fyne's.
func (w *SkyRibbon) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

// skyBox is the sky's place in the widget, and its scale of altitudes.
type skyBox struct {
	x, top, width, horizon, bottom float32 // Fyne units
	highest                        float64 // altitude at top, degrees
}

// y is where an altitude stands.
func (b skyBox) y(altitude float64) float32 {
	return b.horizon - float32(altitude/b.highest)*(b.horizon-b.top)
}

// highest returns the altitude at the top of the scale: the same for most days, so that they compare, and more where the sun
// climbs higher.
func highest(samples []SkySample) float64 {
	top := 66.0
	for _, s := range samples {
		top = max(top, s.Altitude+5)
	}
	return min(top, 95)
}

func (w *SkyRibbon) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(w.data.Axis.Left+w.data.Axis.Right+8*line, 3*line+w.bracket()+5*line)
}

// bracket is the height of the brackets over the sky.
func (w *SkyRibbon) bracket() float32 { return 2 * w.Theme().Size(theme.SizeNamePadding) }

func (w *SkyRibbon) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, f, a := look.Of(th), small(th), w.data.Axis
	if len(w.data.Samples) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	line := f.height()
	w.sky = skyBox{x: a.Left, top: line + w.bracket(), width: a.plot(size.Width),
		horizon: size.Height - 2*line - 4, bottom: size.Height - line - 2, highest: max(highest(w.data.Samples), highest(w.data.Moon))}
	p.pic(w.sky.x, w.sky.top, w.sky.width, w.sky.bottom-w.sky.top)
	w.paintScale(p, c, th)
	w.paintWindows(p, c, f, size.Width)
	w.paintTags(p, c, f)
	w.paintMarks(p, c, f, size.Width)
	paintHours(p, a, size.Width, w.sky.bottom, f, c)
}

// paintScale puts the altitudes 0, 30 and 60 degrees at the left of the sky, and the ribbon's name further left.
func (w *SkyRibbon) paintScale(p *pieces, c *look.Palette, th fyne.Theme) {
	f, room := small(th), w.sky.x
	for altitude := 0; altitude <= 90; altitude += 30 {
		y := w.sky.y(float64(altitude))
		if y < w.sky.top {
			break
		}
		p.line(w.sky.x-4, y, w.sky.x, y, 1, c.Muted)
		p.textRight(fmt.Sprintf("%d°", altitude), w.sky.x-6, y-f.height()/2, room, f, c.Muted)
	}
	scale := f.measure("90°").Width + 10
	gap := th.Size(theme.SizeNamePadding)
	p.text(w.data.Name, gap, (w.sky.top+w.sky.bottom-plain(th).height())/2, room-scale-gap, plain(th), c.Ink)
}

// paintWindows draws a bracket over each window and a word over the bracket, where there is room for it.
func (w *SkyRibbon) paintWindows(p *pieces, c *look.Palette, f font, width float32) {
	a, drop := w.data.Axis, w.bracket()-2
	var labels []label
	var words []string
	for _, s := range w.data.Windows {
		x0, x1, ok := a.shown(s, width)
		if !ok {
			continue
		}
		y := w.sky.top - drop
		p.line(x0+0.5, y, x1-0.5, y, 2, c.Light.Edge)
		p.line(x0+0.5, y, x0+0.5, w.sky.top-1, 1, c.Light.Edge)
		p.line(x1-0.5, y, x1-0.5, w.sky.top-1, 1, c.Light.Edge)
		labels = append(labels, label{mid: (x0 + x1) / 2, width: f.measure(s.Label).Width, rank: -int(x1 - x0)})
		words = append(words, s.Label)
	}
	x, placed := spread(labels, 0, width, f.size/2)
	for i, word := range words {
		if placed[i] {
			p.text(word, x[i], 0, labels[i].width+1, f, c.Ink)
		}
	}
}

// paintMarks writes the marks on the dark ground under the horizon, each with a tick at its moment.
func (w *SkyRibbon) paintMarks(p *pieces, c *look.Palette, f font, width float32) {
	a := w.data.Axis
	var labels []label
	var words []string
	for _, m := range w.data.Marks {
		if m.At.Before(a.From) || m.At.After(a.To) {
			continue
		}
		x := a.X(m.At, width)
		p.line(x, w.sky.horizon-5, x, w.sky.horizon+3, 3, c.Casing)
		p.line(x, w.sky.horizon-5, x, w.sky.horizon+3, 1.5, c.Curve)
		labels = append(labels, label{mid: x, width: f.measure(m.Label).Width})
		words = append(words, m.Label)
	}
	x, placed := spread(labels, w.sky.x+2, w.sky.x+w.sky.width-2, f.size)
	for i, word := range words {
		if placed[i] {
			p.text(word, x[i], w.sky.horizon+2, labels[i].width+1, f, c.Curve)
		}
	}
}

// drawSky draws the picture; its upper left corner is the sky's.
func (w *SkyRibbon) drawSky(p *pen) {
	c := look.Of(w.Theme())
	samples, box := w.data.Samples, w.sky
	if len(samples) == 0 {
		return
	}
	box.horizon, box.bottom, box.top = box.horizon-box.top, box.bottom-box.top, 0
	w.drawColors(p, box)
	w.drawCloud(p, c, box)
	for altitude := 30.0; altitude < box.highest; altitude += 30 {
		p.dash([]point{{0, box.y(altitude)}, {box.width, box.y(altitude)}}, 1, 2, 4, look.Alpha(c.Curve, 0.5))
	}
	sun, ridge := w.trace(box)
	ground := append([]point{{0, box.bottom}}, ridge...)
	p.fill(c.Ground, append(ground, point{box.width, box.bottom}))
	p.stroke(ridge, 1, c.Ridge)
	p.stroke([]point{{0, box.horizon}, {box.width, box.horizon}}, 1, c.Ridge)
	w.drawMoon(p, c)
	for _, part := range sun {
		if part.hidden {
			p.dash(part.points, 1.5, 4, 3, c.Curve)
			continue
		}
		p.stroke(part.points, 5, c.Casing)
		p.stroke(part.points, 2.5, c.Curve)
	}
	for _, r := range w.tags {
		p.rect(r.x-w.sky.x-3, r.y-w.sky.top+1, r.w+6, r.h-2, look.Alpha(c.Casing, look.TagOpacity))
	}
}

// drawColors paints each column of device pixels in the colour of its moment, paler and warmer toward the horizon.
func (w *SkyRibbon) drawColors(p *pen, box skyBox) {
	horizon := int(math.Ceil(float64(box.horizon * p.scale)))
	for x := range p.img.Rect.Dx() {
		zenith, low := look.Sky(w.at((float32(x)+0.5)/p.scale + box.x).Altitude)
		p.column(x, 0, horizon, func(y int) color.NRGBA {
			return look.SkyAt(zenith, low, 1-float64(y)/float64(horizon))
		})
	}
}

// at is the sample at an x of the widget, between its neighbours.
func (w *SkyRibbon) at(x float32) SkySample {
	return sampleAt(w.data.Samples, w.data.Axis.Time(x, w.sky.x+w.sky.width+w.data.Axis.Right))
}

// sampleAt interpolates; before the first and after the last sample it returns those.
func sampleAt(samples []SkySample, t time.Time) SkySample {
	i := sort.Search(len(samples), func(i int) bool { return !samples[i].At.Before(t) })
	switch i {
	case 0:
		return samples[0]
	case len(samples):
		return samples[i-1]
	}
	a, b := samples[i-1], samples[i]
	share := t.Sub(a.At).Seconds() / b.At.Sub(a.At).Seconds()
	return SkySample{t, a.Altitude + (b.Altitude-a.Altitude)*share, a.Skyline + (b.Skyline-a.Skyline)*share}
}

// arc is a stretch of the sun's path above the horizon, seen or hidden behind the skyline.
type arc struct {
	hidden bool
	points []point
}

// trace follows the sun and the skyline across the picture, a point for each Fyne unit.
func (w *SkyRibbon) trace(box skyBox) (sun []arc, ridge []point) {
	up := false
	for x := float32(0); x <= box.width; x++ {
		s := w.at(x + box.x)
		ridge = append(ridge, point{x, max(0, box.y(max(0, s.Skyline)))})
		if s.Altitude < 0 {
			up = false
			continue
		}
		q, hidden := point{x, box.y(s.Altitude)}, s.Altitude < s.Skyline
		if n := len(sun); !up || sun[n-1].hidden != hidden {
			if up { // the new stretch begins where the old one ends
				last := sun[n-1].points
				sun = append(sun, arc{hidden, []point{last[len(last)-1]}})
			} else {
				sun = append(sun, arc{hidden: hidden})
			}
		}
		up = true
		sun[len(sun)-1].points = append(sun[len(sun)-1].points, q)
	}
	return sun, ridge
}

// paintEmpty writes a line in the middle of a widget that has nothing to show.
func paintEmpty(p *pieces, th fyne.Theme, size fyne.Size, text string) {
	f := plain(th)
	p.textMid(text, size.Width/2, (size.Height-f.height())/2, size.Width-2*th.Size(theme.SizeNamePadding), f, look.Of(th).Muted)
}
