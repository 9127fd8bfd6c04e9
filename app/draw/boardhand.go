package draw

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Part is what of a block a hand holds.
type Part int

// The parts: all of a block is moved; by its left edge its set-up gets longer or shorter, by its right edge its shooting.
const (
	Whole Part = iota
	SetUpEdge
	EndEdge
)

// Grab is what a hand does to blocks.
type Grab struct {
	IDs  []string // the one under the pointer first
	Part Part
	By   time.Duration // later; for a block off the shelf, than the time it could be put
	Row  int           // where one whole block is dragged to; -1: it stays in its row
	Out  fyne.Position // where the pointer is while it carries whole blocks above the board; zero on it
}

// hand is what the pointer does between a press and its end.
type hand struct {
	pressed   bool // on a block, or on the ground
	dragged   bool
	stopped   bool // by Escape: nothing counts until the button is up
	from, to  fyne.Position
	block     int   // index in all at the press; -1: the ground, so a frame is drawn
	held      Block // as it was then
	part      Part
	start     time.Time // where its start stood on the axis
	pressedAt time.Time // on the axis
	reach     int       // beyond which end of the axis the pointer is: -1, 1, or 0
	last      Grab
}

// holds tells that a hand moves or stretches blocks.
func (h *hand) holds() bool { return h.dragged && !h.stopped && h.block >= 0 }

// Holds tells that a hand moves or stretches blocks.
func (w *Board) Holds() bool { return w.hand.holds() }

// frames tells that a hand draws a frame around blocks.
func (h *hand) frames() bool { return h.dragged && !h.stopped && h.block < 0 }

// edge is how near to a block's edge the pointer takes the edge.
const edge = 6

// partAt is what of a block the pointer would take.
func (w *Board) partAt(i int, p fyne.Position) Part {
	r, _ := w.spot(i, w.Size())
	near := min(edge, r.w/4)
	switch {
	case i >= len(w.data.Blocks):
		return Whole
	case p.X < r.x+near:
		return SetUpEdge
	case p.X >= r.x+r.w-near:
		return EndEdge
	}
	return Whole
}

// MouseDown takes the focus and selects the block under the pointer; with Shift or Control beside the others.
func (w *Board) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	i := w.blockAt(e.Position)
	w.hand = hand{pressed: true, from: e.Position, to: e.Position, block: i}
	if i < 0 {
		return
	}
	w.hand.pressedAt = w.data.Axis.Time(e.Position.X, w.Size().Width)
	w.hand.held, w.hand.part, w.hand.start = w.all[i], w.partAt(i, e.Position), w.all[i].Start
	if i >= len(w.data.Blocks) {
		r, _ := w.spot(i, w.Size())
		a, width := w.data.Axis, w.Size().Width
		w.hand.start = a.Time(r.x, width).Add(w.all[i].Start.Sub(w.all[i].SetUp))
	}
	switch {
	case e.Modifier&(fyne.KeyModifierShift|fyne.KeyModifierControl) != 0:
		w.add(i)
	case !w.isChosen(w.all[i].ID): // one of several stays among them: they may be dragged
		w.pick(i)
	}
}

// MouseUp is Fyne's: a press without a drag is over. It comes before DragEnd.
func (w *Board) MouseUp(e *desktop.MouseEvent) {
	if h := w.hand; h.pressed && !h.dragged {
		w.hand = hand{}
		if i := w.index(h.held.ID); h.block >= 0 && e.Modifier == 0 && i >= 0 {
			w.pick(i)
		}
	}
}

// Dragged moves what was pressed, or draws a frame.
func (w *Board) Dragged(e *fyne.DragEvent) {
	h := &w.hand
	if !h.pressed || h.stopped {
		return
	}
	h.dragged, h.to = true, e.Position
	w.hover = e.Position
	w.point(e.Position.X)
	if h.block < 0 {
		w.Refresh()
		return
	}
	w.feel()
	w.reach(w.beyond(e.Position.X))
}

// feel tells of what a hand does, if that has changed.
func (w *Board) feel() {
	if g := w.grab(); !same(g, w.hand.last) {
		w.hand.last = g
		if w.OnGrab != nil {
			w.OnGrab(g)
		}
	}
}

// beyond is the end of the axis that an x lies beyond: -1 or 1; 0 for none.
func (w *Board) beyond(x float32) int {
	switch a := w.data.Axis; {
	case x < a.Left:
		return -1
	case x > w.Size().Width-a.Right:
		return 1
	}
	return 0
}

func (w *Board) reach(by int) {
	if w.hand.reach != by && w.OnReach != nil {
		w.hand.reach = by
		w.OnReach(by)
	}
}

// Look shows another part of the day; what a hand holds comes along.
func (w *Board) Look(a Axis) {
	w.data.Axis = a
	if w.hand.holds() {
		w.feel()
	}
	w.Refresh()
}

// DragEnd lets go.
func (w *Board) DragEnd() {
	w.reach(0)
	h := w.hand
	w.hand = hand{}
	switch {
	case h.frames():
		w.frame(cornered(h.from, h.to))
	case !h.holds():
	case h.last.Out.IsZero() && (h.last.By == 0 && h.last.Row < 0 || w.shelved(h)):
		w.cancel()
	case w.OnDrop != nil:
		w.OnDrop(h.last)
	}
	w.Refresh()
}

// shelved tells that a block off the shelf is let go where no row is.
func (w *Board) shelved(h hand) bool { return h.block >= len(w.data.Blocks) && h.last.Row < 0 }

// letGo takes back what a hand does.
func (w *Board) letGo() {
	if h := &w.hand; h.dragged && !h.stopped {
		w.reach(0)
		held := h.holds()
		h.stopped = true
		if held {
			w.cancel()
		}
		w.Refresh()
	}
}

func (w *Board) cancel() {
	if w.OnCancel != nil {
		w.OnCancel()
	}
}

// grab is what the hand does now. The edge or the start that it moves comes to lie on the grid, and no shooting gets shorter
// than a slot.
func (w *Board) grab() Grab {
	h, a, width := &w.hand, w.data.Axis, w.Size().Width
	by := a.Time(h.to.X, width).Sub(h.pressedAt)
	g := Grab{IDs: []string{h.held.ID}, Part: h.part, Row: -1}
	switch h.part {
	case SetUpEdge:
		at := w.snap(h.held.SetUp.Add(by))
		g.By = min(at.Sub(h.held.SetUp), h.held.Start.Sub(h.held.SetUp))
		return g
	case EndEdge:
		at := w.snap(h.held.End.Add(by))
		g.By = max(at.Sub(h.held.End), h.held.Start.Add(w.slot()).Sub(h.held.End))
		return g
	}
	g.By = w.snap(h.start.Add(by)).Sub(h.held.Start)
	if h.start.Equal(h.held.Start) && by.Abs() < w.slot()/2 {
		g.By = 0 // a start off the grid stays there until it is moved
	}
	if w.isChosen(h.held.ID) && h.block < len(w.data.Blocks) {
		if ids := w.chosen(); len(ids) > 1 { // the one under the pointer first
			g.IDs = append(g.IDs, slices.DeleteFunc(ids, func(id string) bool { return id == h.held.ID })...)
			if h.to.Y < 0 {
				g.By, g.Out = 0, h.to
			}
			return g
		}
	}
	if h.to.Y < 0 {
		g.By, g.Out = 0, h.to
		return g
	}
	if row := w.rowAt(h.to.Y); row >= 0 && (row != h.held.Row || h.block >= len(w.data.Blocks)) {
		g.Row = row
	}
	return g
}

func same(a, b Grab) bool {
	return a.By == b.By && a.Row == b.Row && a.Part == b.Part && a.Out == b.Out && len(a.IDs) == len(b.IDs)
}

func (w *Board) slot() time.Duration { return max(w.data.Grid, time.Minute) }

// snap brings a moment to the nearest line of the grid.
func (w *Board) snap(t time.Time) time.Time {
	slot := w.slot()
	return w.data.Origin.Add(t.Sub(w.data.Origin).Round(slot))
}

// rowAt is the row at a height, or -1.
func (w *Board) rowAt(y float32) int {
	g := w.grid(w.Size())
	if row := int((y - g.top) / g.row); y >= g.top && row < len(w.data.Rows) {
		return row
	}
	return -1
}

// cornered is the rectangle with two corners.
func cornered(a, b fyne.Position) rect {
	return rect{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X) - min(a.X, b.X), max(a.Y, b.Y) - min(a.Y, b.Y)}
}

// frame selects the blocks that a frame meets.
func (w *Board) frame(f rect) {
	in := w.ids(func(i int) bool {
		r, ok := w.spot(i, w.Size())
		return ok && i < len(w.data.Blocks) && r.x < f.x+f.w && f.x < r.x+r.w && r.y < f.y+f.h && f.y < r.y+r.h
	})
	if len(in) == 0 {
		return
	}
	w.pick(w.index(in[0]))
	w.also(in[1:])
}

// DoubleTapped opens the block under the pointer.
func (w *Board) DoubleTapped(e *fyne.PointEvent) {
	if i := w.blockAt(e.Position); i >= 0 {
		w.pick(i)
		w.open()
	}
}

// MouseIn is Fyne's.
func (w *Board) MouseIn(e *desktop.MouseEvent) { w.MouseMoved(e) }

// MouseMoved is Fyne's.
func (w *Board) MouseMoved(e *desktop.MouseEvent) {
	w.hover = e.Position
	w.pointing.MouseMoved(e)
}

// Cursor is a hand over a block, and tells its edges.
func (w *Board) Cursor() desktop.Cursor {
	i := w.blockAt(w.hover)
	switch {
	case i < 0:
		return desktop.DefaultCursor
	case w.partAt(i, w.hover) != Whole:
		return desktop.HResizeCursor
	}
	return desktop.PointerCursor
}
