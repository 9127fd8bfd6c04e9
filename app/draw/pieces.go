package draw

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// painter is a widget of this package, as its renderer sees it.
type painter interface {
	fyne.Widget
	Theme() fyne.Theme
	least() fyne.Size                // the smallest size it can be read at
	paint(p *pieces, size fyne.Size) // lists everything it shows, from bottom to top within each kind of piece
}

// drawing is the renderer of all our widgets.
type drawing struct {
	widget painter
	pieces pieces
	least  fyne.Size // in the case below
	of     leastCase
}

// leastCase is what a widget's least size depends on beside its content.
type leastCase struct {
	size  fyne.Size
	theme fyne.Theme
}

// newDrawing makes a renderer; a picture, if the widget has one, lies over the rectangles and under lines and texts.
func newDrawing(w painter, pic *picture) fyne.WidgetRenderer {
	d := &drawing{widget: w}
	if pic != nil {
		d.pieces.picture = pic
		d.pieces.raster = canvas.NewRaster(pic.generate)
	}
	d.sync(w.Size())
	return d
}

// MinSize is asked for with every frame, of every widget in sight; new content comes with a refresh.
func (d *drawing) MinSize() fyne.Size {
	if now := (leastCase{d.widget.Size(), d.widget.Theme()}); now != d.of {
		d.least, d.of = d.widget.least(), now
	}
	return d.least
}

func (d *drawing) Objects() []fyne.CanvasObject { return d.pieces.objects }
func (d *drawing) Destroy()                     {}
func (d *drawing) Layout(size fyne.Size)        { d.sync(size) }

// Refresh follows new content, a new theme, or a new choice; see picture.touch for what need not be drawn again.
func (d *drawing) Refresh() {
	d.of = leastCase{}
	if pic := d.pieces.picture; pic != nil {
		pic.moved, pic.stale = true, pic.stale || !pic.keep
	}
	d.sync(d.widget.Size())
	canvas.Refresh(d.widget)
}

func (d *drawing) sync(size fyne.Size) {
	d.pieces.begin()
	if size.Width > 0 && size.Height > 0 {
		d.widget.paint(&d.pieces, size)
	}
	d.pieces.end()
}

// pieces is a pool of canvas objects: the first rectangle listed takes the first rectangle of last time, and so on, and what
// is left over is hidden. Nothing is moved or resized that already lies right.
type pieces struct {
	rects []*canvas.Rectangle
	lines []*canvas.Line
	texts []*canvas.Text

	hatches []*hatch

	picture *picture
	raster  *canvas.Raster

	usedRects, usedLines, usedTexts, usedHatches int
	rasterUsed, grown                            bool
	objects                                      []fyne.CanvasObject
}

func (p *pieces) begin() {
	p.usedRects, p.usedLines, p.usedTexts, p.usedHatches, p.rasterUsed = 0, 0, 0, 0, false
}

// end hides the rest, and lists the objects anew if the pool has grown.
func (p *pieces) end() {
	for _, r := range p.rects[p.usedRects:] {
		r.Hidden = true
	}
	for _, l := range p.lines[p.usedLines:] {
		l.Hidden = true
	}
	for _, t := range p.texts[p.usedTexts:] {
		t.Hidden = true
	}
	for _, h := range p.hatches[p.usedHatches:] {
		h.raster.Hidden = true
	}
	if p.raster != nil {
		p.raster.Hidden = !p.rasterUsed
	}
	if p.grown || p.objects == nil {
		p.list()
	}
}

func (p *pieces) list() {
	p.grown = false
	p.objects = make([]fyne.CanvasObject, 0, len(p.rects)+len(p.hatches)+len(p.lines)+len(p.texts)+1)
	for _, r := range p.rects {
		p.objects = append(p.objects, r)
	}
	if p.raster != nil {
		p.objects = append(p.objects, p.raster)
	}
	for _, h := range p.hatches {
		p.objects = append(p.objects, h.raster)
	}
	for _, l := range p.lines {
		p.objects = append(p.objects, l)
	}
	for _, t := range p.texts {
		p.objects = append(p.objects, t)
	}
}

// rect lists a filled rectangle with square corners.
func (p *pieces) rect(x, y, w, h float32, fill color.Color) *canvas.Rectangle {
	if p.usedRects == len(p.rects) {
		p.rects, p.grown = append(p.rects, canvas.NewRectangle(fill)), true
	}
	r := p.rects[p.usedRects]
	p.usedRects++
	r.FillColor, r.StrokeColor, r.StrokeWidth, r.CornerRadius, r.Hidden = fill, color.Transparent, 0, 0, false
	r.Move(fyne.NewPos(x, y))
	r.Resize(fyne.NewSize(max(0, w), max(0, h)))
	return r
}

// box lists a rectangle with an edge drawn inside it and rounded corners.
func (p *pieces) box(x, y, w, h float32, fill, edge color.Color, width, radius float32) {
	r := p.rect(x, y, w, h, fill)
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = edge, width, radius
}

// ring lists an edge without a filling: a choice or the focus.
func (p *pieces) ring(x, y, w, h float32, edge color.Color, width, radius float32) {
	p.box(x, y, w, h, nil, edge, width, radius)
}

func (p *pieces) line(x1, y1, x2, y2, width float32, c color.Color) {
	if p.usedLines == len(p.lines) {
		p.lines, p.grown = append(p.lines, canvas.NewLine(c)), true
	}
	l := p.lines[p.usedLines]
	p.usedLines++
	l.StrokeColor, l.StrokeWidth, l.Hidden = c, width, false
	if a, b := fyne.NewPos(x1, y1), fyne.NewPos(x2, y2); l.Position1 != a || l.Position2 != b {
		l.Position1, l.Position2 = a, b
	}
}

// text lists a text in its upper left corner, cut to a width, and returns the width it takes; no room lists nothing.
func (p *pieces) text(s string, x, y, room float32, f font, c color.Color) float32 {
	s = f.fit(s, room)
	if s == "" {
		return 0
	}
	if p.usedTexts == len(p.texts) {
		p.texts, p.grown = append(p.texts, canvas.NewText(s, c)), true
	}
	t := p.texts[p.usedTexts]
	p.usedTexts++
	t.Text, t.Color, t.TextSize, t.TextStyle, t.Hidden = s, c, f.size, f.style, false
	size := f.measure(s)
	t.Move(fyne.NewPos(x, y))
	t.Resize(size)
	return size.Width
}

// textRight is text that ends at x.
func (p *pieces) textRight(s string, x, y, room float32, f font, c color.Color) {
	s = f.fit(s, room)
	p.text(s, x-f.measure(s).Width, y, room+1, f, c)
}

// textMid is text with its middle at x.
func (p *pieces) textMid(s string, x, y, room float32, f font, c color.Color) {
	s = f.fit(s, room)
	p.text(s, x-f.measure(s).Width/2, y, room+1, f, c)
}

// pic lists the picture.
func (p *pieces) pic(x, y, w, h float32) {
	p.rasterUsed = true
	p.picture.width = w
	p.raster.Hidden = false
	p.raster.Move(fyne.NewPos(x, y))
	p.raster.Resize(fyne.NewSize(max(0, w), max(0, h)))
}

// hatch is a hatched rectangle: a picture of its own, for most of what lies between such rectangles is empty, and an empty pixel
// takes as long to paint as any. It is drawn once for a size and its colours.
type hatch struct {
	picture
	raster      *canvas.Raster
	ground, ink color.NRGBA
}

// hatched lists a hatched rectangle.
func (p *pieces) hatched(x, y, w, h float32, ground, ink color.NRGBA) {
	if p.usedHatches == len(p.hatches) {
		one := &hatch{}
		one.draw = func(q *pen) {
			width, height := one.width, float32(q.img.Rect.Dy())/q.scale
			q.rect(0, 0, width, height, one.ground)
			q.hatch(0.5, 0.5, width-1, height-1, 5, 1.2, one.ink)
		}
		one.raster = canvas.NewRaster(one.generate)
		p.hatches, p.grown = append(p.hatches, one), true
	}
	one := p.hatches[p.usedHatches]
	p.usedHatches++
	one.stale = one.stale || one.ground != ground || one.ink != ink
	one.width, one.ground, one.ink, one.raster.Hidden = w, ground, ink, false
	one.raster.Move(fyne.NewPos(x, y))
	one.raster.Resize(fyne.NewSize(max(0, w), max(0, h)))
}
