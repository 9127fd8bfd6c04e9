package draw

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// SwingsData is what a picture of swings shows.
type SwingsData struct {
	Base       string // the figure in the middle, in words
	Less, More string // what the two sides mean
	Rows       []SwingRow
	Empty      string // shown instead when there are no rows
}

// SwingRow is how far one thing moves the result.
type SwingRow struct {
	Name, Note string
	Low, High  float64 // as they differ from the middle
	Less, More string  // the same in words
}

// Swings shows how far each of several things moves a result, to the left and to the right of what is likely: the left side as a
// frame, the right side filled.
type Swings struct {
	widget.BaseWidget
	data SwingsData
}

// NewSwings returns an empty one.
func NewSwings() *Swings {
	w := &Swings{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine. What is no number is left out.
func (w *Swings) Set(d SwingsData) {
	d.Rows = slices.DeleteFunc(slices.Clone(d.Rows), func(r SwingRow) bool { return !countable(r.Low) || !countable(r.High) })
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *Swings) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *Swings) rowHeight() float32 {
	th := w.Theme()
	return plain(th).height() + small(th).height() + th.Size(theme.SizeNamePadding)
}

func (w *Swings) least() fyne.Size {
	f := small(w.Theme())
	return fyne.NewSize(28*f.size, 2*f.height()+float32(max(1, len(w.data.Rows)))*w.rowHeight())
}

func (w *Swings) paint(p *pieces, size fyne.Size) {
	th, d := w.Theme(), w.data
	if len(d.Rows) == 0 {
		paintEmpty(p, th, size, d.Empty)
		return
	}
	f, c, gap := small(th), look.Of(th), th.Size(theme.SizeNamePadding)
	names, words, low, high := float32(0), float32(0), 0.0, 0.0
	for _, r := range d.Rows {
		names = max(names, plain(th).measure(r.Name).Width, f.measure(r.Note).Width)
		words = max(words, f.measure(r.Less).Width, f.measure(r.More).Width)
		low, high = min(low, r.Low, r.High), max(high, r.Low, r.High)
	}
	names, words = min(names, size.Width*0.34), min(words, size.Width*0.16)
	x := names + 3*gap
	v := values{low, high, x + words + gap, max(0, size.Width-x-2*words-3*gap)}
	if high == low {
		v.to = low + 1
	}
	mid, head := v.at(0), 2*f.height()
	base := f.bold().measure(d.Base).Width
	p.text(d.Base, max(x, min(mid-base/2, size.Width-gap-base)), 0, size.Width-x-gap, f.bold(), c.Ink)
	p.textRight(d.Less, mid-gap, f.height(), mid-gap-x, f, c.Muted)
	p.text(d.More, mid+gap, f.height(), size.Width-mid-gap, f, c.Muted)
	for i, r := range d.Rows {
		y := head + float32(i)*w.rowHeight()
		p.text(r.Name, gap, y, names, plain(th), c.Ink)
		p.text(r.Note, gap, y+plain(th).height(), names, f, c.Muted)
		w.paintSwing(p, r, v, y, words)
	}
	p.line(mid, head, mid, head+float32(len(d.Rows))*w.rowHeight(), 1, c.Muted)
}

func (w *Swings) paintSwing(p *pieces, r SwingRow, v values, y, words float32) {
	th := w.Theme()
	f, c, gap := small(th), look.Of(th), th.Size(theme.SizeNamePadding)
	left, mid, right := v.at(min(r.Low, r.High)), v.at(0), v.at(max(r.Low, r.High))
	top, height := y+gap, f.height()
	if left < mid {
		p.box(left, top, max(1, min(mid, right)-left), height, c.Nice.Area, c.Nice.Edge, 1, 0)
		p.textRight(r.Less, left-gap, top, words+1, f, c.Ink)
	}
	if right > mid {
		p.rect(max(mid, left), top, max(1, right-max(mid, left)), height, c.Accent)
		p.text(r.More, right+gap, top, words+1, f, c.Ink)
	}
}
