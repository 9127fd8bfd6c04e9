package draw

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
	"eavelight/app/tongue"
)

// A signature pad's own units, and what it takes: enough for the longest of names.
const (
	PadWide     = 2000
	PadHigh     = 600
	mostStrokes = 200
	mostSpots   = 20_000 // of all strokes together
	apart       = 4      // spots of a stroke are no closer than this
)

// Spot is a place on a signature pad, in whole units from its left and its top; both edges are on the pad.
type Spot struct{ X, Y int }

// SignData is what a signature pad shows.
type SignData struct {
	Strokes    [][]Spot // each from pen down to pen up: corners of a line, or a single spot
	Wide, High int      // of the pad in its units; 0 is PadWide and PadHigh
	Note       string   // under the base line, instead of how to sign
	ReadOnly   bool     // the strokes are shown and can't be changed
	Disabled   bool     // not yet: drawn back
}

// SignPad takes a signature drawn with a mouse, a pen or a finger, and shows one. Delete clears it and Backspace takes the
// last stroke back; a signature itself can't be made by keys, which the pad says.
//
// What is drawn is kept in the pad's units, so that it is the same whatever the size on the screen.
type SignPad struct {
	widget.BaseWidget
	OnChange func() // the strokes were changed here

	data    SignData
	now     []Spot // the stroke being drawn; nil while there is none
	barred  bool   // another button is held: its drag draws nothing
	focused bool
	pic     picture
	lies    rect // where the pad lay when it was painted, for drawing on it
}

var (
	_ fyne.Focusable     = (*SignPad)(nil)
	_ fyne.Disableable   = (*SignPad)(nil) // so that Tab goes past a pad that takes nothing
	_ fyne.Draggable     = (*SignPad)(nil)
	_ desktop.Mouseable  = (*SignPad)(nil)
	_ desktop.Cursorable = (*SignPad)(nil)
)

// NewSignPad returns an empty pad.
func NewSignPad() *SignPad {
	w := &SignPad{}
	w.pic.draw, w.pic.over = w.drawStrokes, w.drawNow
	w.Set(SignData{})
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, without telling OnChange; a stroke being drawn is given up. Spots off the pad are brought to its
// edge. Call it on the UI goroutine.
func (w *SignPad) Set(d SignData) {
	if d.Wide <= 0 || d.High <= 0 {
		d.Wide, d.High = PadWide, PadHigh
	}
	strokes := d.Strokes
	w.data, w.data.Strokes, w.now = d, nil, nil
	for _, stroke := range strokes {
		if len(stroke) > 0 {
			stroke = slices.Clone(stroke)
			for i, s := range stroke {
				stroke[i] = w.onPad(s)
			}
			w.data.Strokes = append(w.data.Strokes, stroke)
		}
	}
	w.Refresh()
}

func (w *SignPad) onPad(s Spot) Spot {
	return Spot{max(0, min(w.data.Wide, s.X)), max(0, min(w.data.High, s.Y))}
}

// Strokes are what was drawn, in the pad's units.
func (w *SignPad) Strokes() [][]Spot {
	var out [][]Spot
	for _, stroke := range w.data.Strokes {
		out = append(out, slices.Clone(stroke))
	}
	return out
}

// Clear takes everything off the pad.
func (w *SignPad) Clear() { w.keep(0) }

// keep takes off the pad what was drawn after the first n strokes, and tells of it if there was any.
func (w *SignPad) keep(n int) {
	if n < 0 || w.Disabled() || n == len(w.data.Strokes) && w.now == nil {
		return
	}
	w.data.Strokes, w.now = w.data.Strokes[:min(n, len(w.data.Strokes))], nil
	w.changed()
}

func (w *SignPad) changed() {
	w.Refresh()
	if w.OnChange != nil {
		w.OnChange()
	}
}

// Disabled reports that nothing can be drawn: the pad waits, or shows what was drawn.
func (w *SignPad) Disabled() bool { return w.data.Disabled || w.data.ReadOnly }

// Enable lets the pad be drawn on, unless it only shows.
func (w *SignPad) Enable() { w.able(true) }

// Disable draws the pad back; what is drawn on it stays.
func (w *SignPad) Disable() { w.able(false) }

func (w *SignPad) able(on bool) {
	if w.data.Disabled == on {
		w.data.Disabled, w.now = !on, nil
		w.Refresh()
	}
}

// CreateRenderer is Fyne's.
func (w *SignPad) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *SignPad) least() fyne.Size {
	wide := 24 * small(w.Theme()).height()
	return fyne.NewSize(wide, w.HeightFor(wide))
}

// HeightFor is how high the pad is in its own shape at a width.
func (w *SignPad) HeightFor(width float32) float32 {
	return (width-2*margin)*float32(w.data.High)/float32(w.data.Wide) + 2*margin
}

// margin is the rim of the pad on which the pen's width has room.
const margin = 3

// sheet is where the pad lies: as large as the size lets it be without being pulled out of shape.
func (w *SignPad) sheet(size fyne.Size) rect {
	scale := min((size.Width-2*margin)/float32(w.data.Wide), (size.Height-2*margin)/float32(w.data.High))
	wide, high := scale*float32(w.data.Wide)+2*margin, scale*float32(w.data.High)+2*margin
	return rect{(size.Width - wide) / 2, (size.Height - high) / 2, max(0, wide), max(0, high)}
}

// unit is how large one of the pad's units is on the screen.
func (w *SignPad) unit(sheet rect) float32 { return (sheet.w - 2*margin) / float32(w.data.Wide) }

// spot is the place on the pad under a point of the widget; a point off the pad is brought to its edge.
func (w *SignPad) spot(p fyne.Position) Spot {
	sheet := w.sheet(w.Size())
	unit := w.unit(sheet)
	if unit <= 0 {
		return Spot{}
	}
	whole := func(v float32, most int) int { return int(math.Round(float64(max(0, min(float32(most), v))))) }
	return Spot{whole((p.X-sheet.x-margin)/unit, w.data.Wide), whole((p.Y-sheet.y-margin)/unit, w.data.High)}
}

// base is how far down the pad its base line is.
const base = 0.77

func (w *SignPad) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	w.lies = w.sheet(size)
	b, ground, radius := w.lies, c.Card, th.Size(theme.SizeNameInputRadius)
	if w.data.Disabled {
		ground = c.Lane
	}
	p.box(b.x, b.y, b.w, b.h, ground, c.Muted, 1, radius)
	line := rect{b.x + 4*gap, b.y + base*b.h, b.w - 8*gap, 1}
	if w.data.Disabled { // broken, since its colour alone would not tell
		for x := line.x; x < line.x+line.w; x += 3 * gap {
			p.rect(x, line.y, min(1.5*gap, line.x+line.w-x), 1, c.Muted)
		}
	} else {
		p.rect(line.x, line.y, line.w, 1, c.Muted)
	}
	p.pic(b.x, b.y, b.w, b.h)
	if y := b.y + b.h - f.height() - gap; y > line.y { // at the foot, where few letters reach
		p.text(w.note(f, line.w), line.x, y, line.w, f, c.Muted)
	}
	if w.focused && !w.Disabled() {
		p.ring(b.x, b.y, b.w, b.h, c.Accent, 2, radius)
	}
}

// note is what stands under the base line: what the pad waits for, or how to sign, in as many words as find room.
func (w *SignPad) note(f font, room float32) string {
	switch {
	case w.data.Note != "":
		return w.data.Note
	case w.Disabled():
		return ""
	case w.full():
		return tongue.Say("the pad is full; Delete clears it")
	}
	for _, how := range w.how() {
		if f.measure(how).Width <= room {
			return how
		}
	}
	return ""
}

// how is how to go on, the most telling first.
func (w *SignPad) how() []string {
	pointer, here := tongue.Say("sign here with the mouse, a pen or a finger"), tongue.Say("sign here")
	switch {
	case len(w.data.Strokes) > 0 && w.focused:
		return []string{tongue.Say("Delete clears, Backspace takes back a stroke"), tongue.Say("Delete clears")}
	case len(w.data.Strokes) > 0: // nothing between the lines of the signature
		return nil
	case w.focused:
		return []string{
			tongue.Say("sign here with the mouse, a pen or a finger; keys can't sign. Delete clears, Backspace takes back a stroke"),
			tongue.Say("sign here with the mouse, a pen or a finger; keys can't sign"), pointer, here}
	}
	return []string{pointer, here}
}

func (w *SignPad) drawStrokes(p *pen) {
	for _, stroke := range w.data.Strokes {
		w.drawStroke(p, stroke)
	}
}

func (w *SignPad) drawNow(p *pen) { w.drawStroke(p, w.now) }

// drawStroke draws a stroke as a pen would, rounded where its spots lie far apart.
func (w *SignPad) drawStroke(p *pen, stroke []Spot) {
	c, unit := look.Of(w.Theme()), w.unit(w.lies)
	line := c.Ink
	if w.data.Disabled {
		line = c.Muted
	}
	points := make([]point, len(stroke))
	for i, s := range stroke {
		points[i] = point{margin + unit*float32(s.X), margin + unit*float32(s.Y)}
	}
	half := max(0.8, w.lies.w/600)
	if len(points) == 1 {
		p.disc(points[0], 1.3*half, line)
		return
	}
	p.fill(line, inked(rounded(points), half)...)
}

// inked is the shapes of a pen's line: its pieces between sharp turns, and a round tip at the ends of each.
func inked(points []point, half float32) [][]point {
	var shapes [][]point
	from := 0
	for i := range points {
		if i > 0 && i < len(points)-1 {
			u, v := unit(points[i-1], points[i]), unit(points[i], points[i+1])
			if u.x*v.x+u.y*v.y > 0.5 { // less than 60 degrees
				continue
			}
		}
		shapes = append(shapes, circle(points[i], half))
		if i > from {
			shapes = append(shapes, outline(points[from:i+1], half))
		}
		from = i
	}
	return shapes
}

// rounded runs a line through the middles of its pieces, each corner between two of them the pull of a curve.
func rounded(points []point) []point {
	if len(points) < 3 {
		return points
	}
	middle := func(a, b point) point { return point{(a.x + b.x) / 2, (a.y + b.y) / 2} }
	out := []point{points[0]}
	last := len(points) - 1
	for i := 1; i < last; i++ {
		a, b := middle(points[i-1], points[i]), middle(points[i], points[i+1])
		steps := max(1, min(16, int(hypot(b.x-a.x, b.y-a.y)/2)))
		for k := min(i, 2) - 1; k <= steps; k++ { // but for the first, a curve begins where the one before ends
			t := float32(k) / float32(steps)
			out = append(out, point{
				(1-t)*(1-t)*a.x + 2*t*(1-t)*points[i].x + t*t*b.x,
				(1-t)*(1-t)*a.y + 2*t*(1-t)*points[i].y + t*t*b.y,
			})
		}
	}
	return append(out, points[last])
}

// full reports that no more can be drawn.
func (w *SignPad) full() bool {
	spots := 0
	for _, stroke := range w.data.Strokes {
		spots += len(stroke)
	}
	return len(w.data.Strokes) >= mostStrokes || spots+len(w.now) >= mostSpots
}

// add draws on to a spot, unless it is too close to the last one to make a difference.
func (w *SignPad) add(s Spot) {
	if n := len(w.now); n > 0 {
		dx, dy := s.X-w.now[n-1].X, s.Y-w.now[n-1].Y
		if dx*dx+dy*dy < apart*apart {
			return
		}
	}
	if !w.full() {
		w.now = append(w.now, s)
		w.pic.touch(w)
	}
}

// lift ends the stroke being drawn.
func (w *SignPad) lift() {
	if w.now != nil {
		w.data.Strokes, w.now = append(w.data.Strokes, w.now), nil
		w.changed()
	}
}

// MouseDown takes the focus and begins a stroke.
func (w *SignPad) MouseDown(e *desktop.MouseEvent) {
	if w.Disabled() {
		return
	}
	takeFocus(w)
	if e.Button != desktop.MouseButtonPrimary {
		w.barred = w.now == nil
	} else if w.sheet(w.Size()).holds(e.Position) {
		w.lift()
		w.add(w.spot(e.Position))
	}
}

// MouseUp ends the stroke.
func (w *SignPad) MouseUp(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		w.lift()
	} else {
		w.barred = false
	}
}

// Dragged draws on; where no button began the stroke, as with a finger, it begins where the drag did.
func (w *SignPad) Dragged(e *fyne.DragEvent) {
	if w.Disabled() || w.barred {
		return
	}
	if from := e.Position.Subtract(e.Dragged); w.now == nil && w.sheet(w.Size()).holds(from) {
		w.add(w.spot(from))
	}
	if w.now != nil {
		w.add(w.spot(e.Position))
	}
}

// DragEnd ends the stroke.
func (w *SignPad) DragEnd() { w.lift() }

// Cursor is a cross where one can sign.
func (w *SignPad) Cursor() desktop.Cursor {
	if w.Disabled() {
		return desktop.DefaultCursor
	}
	return desktop.CrosshairCursor
}

// FocusGained is Fyne's.
func (w *SignPad) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *SignPad) FocusLost() { w.setFocus(false) }

func (w *SignPad) setFocus(on bool) {
	w.focused = on
	w.pic.touch(w)
}

// TypedRune is Fyne's; the pad takes no text.
func (w *SignPad) TypedRune(rune) {}

// TypedKey clears the pad by Delete and takes the last stroke back by Backspace.
func (w *SignPad) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyDelete:
		w.Clear()
	case fyne.KeyBackspace:
		w.keep(len(w.data.Strokes) - 1)
	}
}
