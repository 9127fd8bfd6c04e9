package draw

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// PeopleData is what the people's rows show.
type PeopleData struct {
	Axis  Axis
	Rows  []PersonRow
	Empty string // shown instead when there are no rows
}

// PersonRow is one person's day.
type PersonRow struct {
	Name          string // at the left
	Total         string // at the right: "waits 40 min"
	Call, Release string // before the first and after the last of Present: "07:30"
	Present       []Span // thin line
	OnCamera      []Span // thick bar
	Waiting       []Span // hatched
}

// PeopleRows shows a row a person: a thin line while they are at the property, a thick bar on it while they are on camera,
// a hatched one while they wait.
type PeopleRows struct {
	widget.BaseWidget
	pointing
	data PeopleData
}

// NewPeopleRows returns an empty widget.
func NewPeopleRows() *PeopleRows {
	w := &PeopleRows{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *PeopleRows) Set(d PeopleData) {
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *PeopleRows) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *PeopleRows) rowHeight() float32 {
	return plain(w.Theme()).height() + 1.5*w.Theme().Size(theme.SizeNamePadding)
}

func (w *PeopleRows) least() fyne.Size {
	a, row := w.data.Axis, w.rowHeight()
	return fyne.NewSize(a.Left+a.Right+6*row, float32(max(1, len(w.data.Rows)))*row)
}

func (w *PeopleRows) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, a := look.Of(th), w.data.Axis
	if len(w.data.Rows) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	row := w.rowHeight()
	for i, r := range w.data.Rows {
		paintRow(p, th, a, r.Name, r.Total, float32(i)*row, row, size.Width)
	}
	a.drawHours(p, c, size.Width, 0, row*float32(len(w.data.Rows)))
	for i, r := range w.data.Rows {
		w.paintPerson(p, c, r, rect{0, float32(i) * row, size.Width, row})
	}
}

// paintPerson draws a person's line, bars and times; times without room before or after the line are left out.
func (w *PeopleRows) paintPerson(p *pieces, c *look.Palette, r PersonRow, at rect) {
	a, f := w.data.Axis, small(w.Theme())
	top, mid, width := at.y, at.y+at.h/2, at.w
	first, last := width, float32(0)
	for _, s := range r.Present {
		if x0, x1, ok := a.shown(s, width); ok {
			p.rect(x0, mid-1.5, x1-x0, 3, c.Present)
			first, last = min(first, x0), max(last, x1)
		}
	}
	for _, s := range r.OnCamera {
		if x0, x1, ok := a.shown(s, width); ok {
			p.rect(x0, top+5, x1-x0, at.h-10, c.OnCamera)
		}
	}
	for _, s := range r.Waiting {
		if x0, x1, ok := a.shown(s, width); ok {
			p.hatched(x0, top+7, x1-x0, at.h-14, c.Lane, c.Waiting)
		}
	}
	if last == 0 {
		return
	}
	gap := w.Theme().Size(theme.SizeNamePadding)
	if need := f.measure(r.Call).Width; first-gap-need >= a.Left {
		p.text(r.Call, first-gap-need, mid-f.height()/2, need+1, f, c.Ink)
	}
	if need := f.measure(r.Release).Width; last+gap+need <= a.Left+a.plot(width) {
		p.text(r.Release, last+gap, mid-f.height()/2, need+1, f, c.Ink)
	}
}
