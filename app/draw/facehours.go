package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// FaceData is what the face hours show.
type FaceData struct {
	Axis  Axis
	Rows  []FaceRow
	Empty string // shown instead when there are no rows
}

// FaceRow is one face of the house over the day.
type FaceRow struct {
	Name, Total string // "Front, 212° SSW" at the left, "3 h 40" at the right
	Start       time.Time
	Step        time.Duration // between values of Strength
	Strength    []float64     // cosine of the angle of incidence where the sun is on the face, 0 where it is not
}

// strength returns the strength at a moment, 0 outside the values.
func (r FaceRow) strength(t time.Time) float64 {
	if r.Step <= 0 || t.Before(r.Start) {
		return 0
	}
	i := int(t.Sub(r.Start) / r.Step)
	if i >= len(r.Strength) {
		return 0
	}
	return max(0, min(1, r.Strength[i]))
}

// FaceHours shows a row a face: a bright area as high as the sun is strong on it, so that it reads without colour too.
type FaceHours struct {
	widget.BaseWidget
	pointing
	data FaceData
	pic  picture
	row  float32 // height of a row as last placed, for drawing the picture
}

// NewFaceHours returns an empty widget.
func NewFaceHours() *FaceHours {
	w := &FaceHours{}
	w.pic.draw = w.drawAreas
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *FaceHours) Set(d FaceData) {
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *FaceHours) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *FaceHours) rowHeight() float32 {
	return plain(w.Theme()).height() + w.Theme().Size(theme.SizeNamePadding)
}

func (w *FaceHours) least() fyne.Size {
	a, row := w.data.Axis, w.rowHeight()
	return fyne.NewSize(a.Left+a.Right+6*row, float32(max(1, len(w.data.Rows)))*row)
}

func (w *FaceHours) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, a := look.Of(th), w.data.Axis
	if len(w.data.Rows) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	w.row = w.rowHeight()
	for i, r := range w.data.Rows {
		paintRow(p, th, a, r.Name, r.Total, float32(i)*w.row, w.row, size.Width)
	}
	a.drawHours(p, c, size.Width, 0, w.row*float32(len(w.data.Rows)))
	p.pic(a.Left, 0, a.plot(size.Width), w.row*float32(len(w.data.Rows)))
}

// paintRow draws what all rows share: the name, the lane, the total.
func paintRow(p *pieces, th fyne.Theme, a Axis, name, total string, top, height, width float32) {
	c, f, gap := look.Of(th), plain(th), th.Size(theme.SizeNamePadding)
	y := top + (height-f.height())/2
	p.text(name, gap, y, a.Left-3*gap, f, c.Ink)
	p.rect(a.Left, top+1, a.plot(width), height-2, c.Lane)
	p.textRight(total, width-2*gap, y, a.Right-3*gap, f, c.Ink) // clear of a scroll bar
}

// drawAreas draws the picture over all rows.
func (w *FaceHours) drawAreas(p *pen) {
	c, a := look.Of(w.Theme()), w.data.Axis
	a.Left, a.Right = 0, 0
	for i, r := range w.data.Rows {
		base, full := float32(i+1)*w.row-1, w.row-3
		for _, area := range litAreas(r, a, w.pic.width, base, full) {
			p.fill(c.Sun.Area, area)
			p.stroke(area[1:len(area)-1], 1.5, c.Sun.Edge)
		}
	}
}

// litAreas returns the outline of each stretch of sun on a face, from its lower left corner over the top to its lower right.
func litAreas(r FaceRow, a Axis, width, base, full float32) [][]point {
	var areas [][]point
	var area []point
	for x := float32(0); x <= width; x++ {
		s := r.strength(a.Time(x, width))
		if s > 0 && area == nil {
			area = []point{{x, base}, {x, base}}
		}
		if s > 0 {
			area = append(area, point{x, base - full*float32(s)})
		}
		if area != nil && (s == 0 || x+1 > width) {
			last := area[len(area)-1].x
			areas, area = append(areas, append(area, point{last, base}, point{last, base})), nil
		}
	}
	return areas
}
