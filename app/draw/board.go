package draw

import (
	"sort"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// BoardData is what a day board shows.
type BoardData struct {
	Axis     Axis
	Rows     []string // a space each, from the top
	Blocks   []Block  // in any order
	Moves    []Move
	Meals    []Span
	Limits   []Mark // call and wrap
	Selected string // ID of the selected block, or ""
	Empty    string // shown instead when there are no rows
}

// Importance of a block's scene.
type Importance int

// The importances: a must has a broad left edge, a should a narrow one, a nice none.
const (
	Nice Importance = iota
	Should
	Must
)

// Block is one scene on the board: set-up from SetUp to Start, then shooting to End.
type Block struct {
	ID                string
	Row               int // index into Rows
	SetUp, Start, End time.Time
	Number, Title     string  // "7", "Evening toast"
	Note              string  // "92 % of its light"; where it does not fit, the percentage of Kept
	Kept              float64 // share of its light that the scene keeps, 0..1; below 0: it asks for none, no bar
	Importance        Importance
	Pinned            bool
	Problem           bool   // an exclamation mark beside the number
	Windows           []Span // its light windows, shown behind its row while it is selected
}

// Move is the way of the kit from one space to another.
type Move struct {
	From, To       time.Time
	FromRow, ToRow int
}

// Board shows the day: a row a space, scenes as blocks, moves between the rows, meals across them, call and wrap as lines.
// A press or the arrow keys select a block; Return or a double press opens it.
type Board struct {
	widget.BaseWidget
	OnSelect func(id string) // a block was selected here
	OnOpen   func(id string)

	data    BoardData
	order   []int // indices of blocks in the order of time
	focused bool
	hover   fyne.Position
}

var (
	_ fyne.Focusable      = (*Board)(nil)
	_ fyne.DoubleTappable = (*Board)(nil)
	_ desktop.Mouseable   = (*Board)(nil)
	_ desktop.Hoverable   = (*Board)(nil)
	_ desktop.Cursorable  = (*Board)(nil)
)

// NewBoard returns an empty board.
func NewBoard() *Board {
	w := &Board{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *Board) Set(d BoardData) {
	w.data = d
	w.order = w.order[:0]
	for i := range d.Blocks {
		w.order = append(w.order, i)
	}
	sort.SliceStable(w.order, func(a, b int) bool {
		x, y := d.Blocks[w.order[a]], d.Blocks[w.order[b]]
		if !x.SetUp.Equal(y.SetUp) {
			return x.SetUp.Before(y.SetUp)
		}
		return x.Row < y.Row
	})
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *Board) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

// grid is where rows lie on a board of a size.
type grid struct{ top, row float32 }

// grid gives rows the room there is, up to what two lines of text take with some air. They need no more than one line and
// the bar of the light kept.
func (w *Board) grid(size fyne.Size) grid {
	f, gap := small(w.Theme()), w.Theme().Size(theme.SizeNamePadding)
	g := grid{top: f.height() + gap, row: f.height() + 3*gap + 6}
	if n := float32(len(w.data.Rows)); n > 0 {
		g.row = max(g.row, min(3*f.height()+4*gap, (size.Height-g.top)/n))
	}
	return g
}

func (w *Board) least() fyne.Size {
	g, a := w.grid(fyne.Size{}), w.data.Axis
	return fyne.NewSize(a.Left+a.Right+6*g.row, g.top+g.row*float32(max(1, len(w.data.Rows))))
}

// rect is a place on the board.
type rect struct{ x, y, w, h float32 }

func (r rect) holds(p fyne.Position) bool {
	return p.X >= r.x && p.X < r.x+r.w && p.Y >= r.y && p.Y < r.y+r.h
}

// place returns where a block lies; ok is false outside the axis or the rows. No block is thinner than can be hit.
func (w *Board) place(b Block, size fyne.Size) (r rect, ok bool) {
	const thinnest = 6
	g, a := w.grid(size), w.data.Axis
	x0, x1, ok := a.shown(Span{From: b.SetUp, To: b.End}, size.Width)
	if !ok || b.Row < 0 || b.Row >= len(w.data.Rows) {
		return rect{}, false
	}
	const inset = 3
	return rect{x0, g.top + float32(b.Row)*g.row + inset, max(thinnest, x1-x0), g.row - 2*inset}, true
}

// blockAt returns the index of the block under a point, the later one where two overlap, or -1.
func (w *Board) blockAt(p fyne.Position) int {
	for i := len(w.order) - 1; i >= 0; i-- {
		if r, ok := w.place(w.data.Blocks[w.order[i]], w.Size()); ok && r.holds(p) {
			return w.order[i]
		}
	}
	return -1
}

// selected is the selected block's place in the order of time, or -1.
func (w *Board) selected() int {
	for i, b := range w.order {
		if w.data.Blocks[b].ID == w.data.Selected {
			return i
		}
	}
	return -1
}

// pick selects a block by its index, if it is another than before.
func (w *Board) pick(block int) {
	if id := w.data.Blocks[block].ID; id != w.data.Selected {
		w.data.Selected = id
		w.Refresh()
		if w.OnSelect != nil {
			w.OnSelect(id)
		}
	}
}

// FocusGained is Fyne's.
func (w *Board) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *Board) FocusLost() { w.setFocus(false) }

func (w *Board) setFocus(on bool) {
	w.focused = on
	w.Refresh()
}

// TypedRune is Fyne's; the board takes no text.
func (w *Board) TypedRune(rune) {}

// TypedKey selects the earlier or later block by Left and Right, the first and last by Home and End, and opens by Return.
func (w *Board) TypedKey(e *fyne.KeyEvent) {
	last := len(w.order) - 1
	if last < 0 {
		return
	}
	switch at := w.selected(); e.Name {
	case fyne.KeyLeft:
		w.pick(w.order[max(0, at-1)])
	case fyne.KeyRight:
		w.pick(w.order[min(last, at+1)])
	case fyne.KeyHome:
		w.pick(w.order[0])
	case fyne.KeyEnd:
		w.pick(w.order[last])
	case fyne.KeyReturn, fyne.KeyEnter:
		w.open()
	}
}

func (w *Board) open() {
	if w.selected() >= 0 && w.OnOpen != nil {
		w.OnOpen(w.data.Selected)
	}
}

// MouseDown takes the focus and selects the block under the pointer.
func (w *Board) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if i := w.blockAt(e.Position); i >= 0 && e.Button == desktop.MouseButtonPrimary {
		w.pick(i)
	}
}

// MouseUp is Fyne's; the choice is made on MouseDown.
func (w *Board) MouseUp(*desktop.MouseEvent) {}

// DoubleTapped opens the block under the pointer.
func (w *Board) DoubleTapped(e *fyne.PointEvent) {
	if i := w.blockAt(e.Position); i >= 0 {
		w.pick(i)
		w.open()
	}
}

// MouseIn is Fyne's.
func (w *Board) MouseIn(e *desktop.MouseEvent) { w.hover = e.Position }

// MouseMoved is Fyne's.
func (w *Board) MouseMoved(e *desktop.MouseEvent) { w.hover = e.Position }

// MouseOut is Fyne's.
func (w *Board) MouseOut() {}

// Cursor is a hand over a block.
func (w *Board) Cursor() desktop.Cursor {
	if w.blockAt(w.hover) >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// tone is the colours of an importance.
func tone(c *look.Palette, i Importance) look.Block {
	switch i {
	case Must:
		return c.Must
	case Should:
		return c.Should
	}
	return c.Nice
}
