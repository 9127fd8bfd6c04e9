package draw

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// OffersData is what a line of offers shows.
type OffersData struct {
	Offers    []ValueMark
	Quartiles [3]float64
	Ours      ValueMark
	Empty     string // shown instead when there are no offers
}

// Offers shows what others ask as ticks on a line, with the middle half of them as a box, and our figure marked.
type Offers struct {
	widget.BaseWidget
	data OffersData
}

// NewOffers returns an empty one.
func NewOffers() *Offers {
	w := &Offers{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine. What is no number is left out.
func (w *Offers) Set(d OffersData) {
	d.Offers = countableMarks(d.Offers)
	if !countable(d.Ours.At) || slices.ContainsFunc(d.Quartiles[:], func(q float64) bool { return !countable(q) }) {
		d.Offers = nil
	}
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *Offers) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *Offers) least() fyne.Size {
	f := small(w.Theme())
	return fyne.NewSize(20*f.size, 2*f.height()+48*f.size/11)
}

func (w *Offers) paint(p *pieces, size fyne.Size) {
	th, d := w.Theme(), w.data
	if len(d.Offers) == 0 {
		paintEmpty(p, th, size, d.Empty)
		return
	}
	f, c, gap := small(th), look.Of(th), th.Size(theme.SizeNamePadding)
	figures := []float64{d.Ours.At}
	for _, o := range d.Offers {
		figures = append(figures, o.At)
	}
	v := over(gap, size.Width-2*gap, figures...)
	top, bottom := f.height()+gap, size.Height-f.height()-gap
	w.paintBox(p, v, top, bottom, c)
	var labels []label
	for i, o := range d.Offers {
		most := 0.85 * v.width / float32(max(3, len(d.Offers)))
		labels = append(labels, label{mid: v.at(o.At), width: min(f.measure(o.Label).Width, most), rank: i})
	}
	x, placed := spread(labels, v.x, v.x+v.width, 2*gap)
	for i, o := range d.Offers {
		p.line(v.at(o.At), top-3, v.at(o.At), top+9, 2, c.Ink)
		if placed[i] {
			p.text(o.Label, x[i], 0, labels[i].width+1, f, c.Muted)
		}
	}
	ours, words := v.at(d.Ours.At), f.bold().measure(d.Ours.Label).Width
	paintMark(p, ours, top-3, size.Height, d.Ours.Dashed, c)
	if right := v.x + v.width - ours - gap; words <= right || right > ours-v.x {
		p.text(d.Ours.Label, ours+gap, bottom+gap, right, f.bold(), c.Ink)
	} else {
		p.textRight(d.Ours.Label, ours-gap, bottom+gap, ours-gap-v.x, f.bold(), c.Ink)
	}
}

// paintBox draws the line, the box of the middle half and the median in it.
func (w *Offers) paintBox(p *pieces, v values, top, bottom float32, c *look.Palette) {
	q, mid := w.data.Quartiles, (top+bottom)/2
	low, high := v.at(q[0]), v.at(q[2])
	p.rect(v.x, top, v.width, bottom-top, c.Lane)
	p.box(low, top+9, max(1, high-low), bottom-top-14, c.Nice.Area, c.Nice.Edge, 1, 0)
	p.line(v.x, mid, low, mid, 1, c.Muted)
	p.line(high, mid, v.x+v.width, mid, 1, c.Muted)
	p.line(v.at(q[1]), top+9, v.at(q[1]), bottom-5, 3, c.Nice.Edge)
}
