package draw

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
	"eavelight/app/tongue"
)

// HistogramData is what a histogram shows.
type HistogramData struct {
	Bars  []HistogramBar // from left to right
	Over  float64        // what lies right of it is drawn dark: where it goes wrong
	Marks []ValueMark    // up to three, drawn over the bars
	Scale []ValueMark    // figures under the bars; the first are the most wanted
	Empty string         // shown instead when there are no bars
}

// HistogramBar is how many cases lie between two figures.
type HistogramBar struct {
	From, To float64
	Count    int
}

// Histogram shows how the cases lie, with some figures marked.
type Histogram struct {
	widget.BaseWidget
	data HistogramData
}

// NewHistogram returns an empty one.
func NewHistogram() *Histogram {
	w := &Histogram{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine. What is no number is left out.
func (w *Histogram) Set(d HistogramData) {
	d.Bars = slices.DeleteFunc(slices.Clone(d.Bars), func(b HistogramBar) bool {
		return !countable(b.From) || !countable(b.To) || b.To < b.From || b.Count < 0
	})
	d.Marks, d.Scale = countableMarks(d.Marks), countableMarks(d.Scale)
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *Histogram) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *Histogram) least() fyne.Size {
	f := small(w.Theme())
	return fyne.NewSize(20*f.size, 110*f.size/11+float32(len(w.data.Marks)+1)*f.height())
}

func (w *Histogram) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Bars) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	f, c, gap := small(th), look.Of(th), th.Size(theme.SizeNamePadding)
	var figures []float64
	most := 1
	for _, b := range w.data.Bars {
		figures, most = append(figures, b.From, b.To), max(most, b.Count)
	}
	v := over(gap, size.Width-2*gap, append(figures, w.inSight(figures)...)...)
	top, bottom := float32(len(w.data.Marks))*f.height()+gap, size.Height-f.height()-6
	p.rect(v.x, top, v.width, bottom-top, c.Lane)
	for _, b := range w.data.Bars {
		w.paintBar(p, v, b, bottom, (bottom-top)*float32(b.Count)/float32(most), c)
	}
	p.line(v.x, bottom, v.x+v.width, bottom, 1, c.Muted)
	paintMarks(p, th, v, w.farOff(v), 0, bottom)
	paintFigures(p, th, v, w.data.Scale, bottom)
}

// inSight are the marked figures, brought as near as one width of the bars, so that a price far off does not make them a hair.
func (w *Histogram) inSight(figures []float64) []float64 {
	low, high := slices.Min(figures), slices.Max(figures)
	var out []float64
	for _, m := range w.data.Marks {
		out = append(out, min(max(m.At, low-(high-low)), high+(high-low)))
	}
	return out
}

// farOff are the marks, with a word on those that stand at an edge of the picture and not at their place.
func (w *Histogram) farOff(v values) []ValueMark {
	marks := slices.Clone(w.data.Marks)
	for i, m := range marks {
		if m.At < v.from || m.At > v.to {
			marks[i].Label = tongue.Say("%s, outside the picture", m.Label)
		}
	}
	return marks
}

// paintBar draws a bar, in two parts where the line between right and wrong goes through it.
func (w *Histogram) paintBar(p *pieces, v values, b HistogramBar, bottom, height float32, c *look.Palette) {
	if height <= 0 {
		return
	}
	from, to, cut := v.at(b.From), v.at(b.To), v.at(b.To)
	if w.data.Over < b.To {
		cut = min(max(v.at(w.data.Over), from), to)
	}
	const thin = 2 // a bar of no width is still seen
	to = max(to, from+thin)
	if cut > from {
		p.box(from, bottom-height, max(cut-from, thin), height, c.Nice.Area, c.Nice.Edge, 1, 0)
	}
	if cut < to && w.data.Over < b.To {
		p.rect(cut, bottom-height, to-cut, height, c.Bad)
	}
}
