package draw

import (
	"slices"
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
	Also     []string
	Empty    string // shown instead when there are no rows

	Shelf     []Block // those that found no place, on a lane of their own under the rows; their times are where they could be put
	ShelfName string
	Grid      time.Duration // what is moved by hand comes to lie on multiples of this from Origin; 0 is a minute
	Origin    time.Time
	Tag       Mark // words over a moment, while a hand moves something there; no words: none
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
	Held              bool   // kept where it was; the mark is an empty pin
	Lifted            bool   // a hand moves it
	Problem           bool   // an exclamation mark beside the number
	Windows           []Span // its light windows, shown behind its row while it is selected
}

// Move is the way of the kit from one space to another.
type Move struct {
	From, To       time.Time
	FromRow, ToRow int
}

// Board shows the day: a row a space, scenes as blocks, moves between the rows, meals across them, call and wrap as lines.
// A press or Up and Down select a block; Return or a double press opens it. A hand moves and stretches the selected blocks:
// by dragging, or by Left and Right; the board only tells what it does (Grab), and shows what it is given then.
type Board struct {
	widget.BaseWidget
	pointing
	OnSelect func(id string)    // a block was selected here, alone
	OnAlso   func(ids []string) // the blocks selected beside it are others now
	OnOpen   func(id string)
	OnPin    func()       // the selected blocks are to be pinned, or not any more
	OnGrab   func(g Grab) // a hand holds blocks there now
	OnDrop   func(g Grab) // it lets them go there
	OnCancel func()       // it lets them go where they were
	OnNudge  func(g Grab) // a key moves or stretches the selected blocks; Row counts rows down from where the block is
	OnZoom   func(in int) // a key asks for a closer look (1), a wider one (-1), or all (0)
	OnPan    func(by int) // a key asks for an earlier part of the day (-1), or a later one
	OnDay    func(by int) // a key takes the selected blocks to the day before (-1), or to the next one
	OnReach  func(by int) // a hand that holds blocks is beyond the left end of the axis (-1), the right one (1), or neither any more (0)
	OnFocus  func(on bool)

	data    BoardData
	all     []Block // those in their rows, then those on the shelf
	order   []int   // indices of all in the order of time, those on the shelf last
	focused bool
	hover   fyne.Position
	hand    hand
	shift   bool // the key is down
}

var (
	_ fyne.Focusable      = (*Board)(nil)
	_ fyne.DoubleTappable = (*Board)(nil)
	_ fyne.Draggable      = (*Board)(nil)
	_ fyne.Shortcutable   = (*Board)(nil)
	_ desktop.Keyable     = (*Board)(nil)
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
	w.all, w.order = append(append(w.all[:0], d.Blocks...), d.Shelf...), w.order[:0]
	for i := range w.all {
		w.order = append(w.order, i)
	}
	sort.SliceStable(w.order, func(a, b int) bool {
		if p, q := w.order[a] >= len(d.Blocks), w.order[b] >= len(d.Blocks); p != q {
			return q
		}
		x, y := w.all[w.order[a]], w.all[w.order[b]]
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
	if n := float32(w.lanes()); n > 0 {
		g.row = max(g.row, min(3*f.height()+4*gap, (size.Height-g.top)/n))
	}
	return g
}

// lanes counts the rows and the shelf.
func (w *Board) lanes() int {
	if len(w.data.Shelf) > 0 {
		return len(w.data.Rows) + 1
	}
	return len(w.data.Rows)
}

func (w *Board) least() fyne.Size {
	g, a := w.grid(fyne.Size{}), w.data.Axis
	return fyne.NewSize(a.Left+a.Right+6*g.row, g.top+g.row*float32(max(1, w.lanes())))
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

// spot is where a block of all lies. On the shelf they stand side by side; those that have no room there aren't shown.
func (w *Board) spot(i int, size fyne.Size) (r rect, ok bool) {
	if i < len(w.data.Blocks) {
		return w.place(w.all[i], size)
	}
	const gap, thinnest = 6, 44
	a, g := w.data.Axis, w.grid(size)
	r = rect{a.Left, g.top + float32(len(w.data.Rows))*g.row + 3, 0, g.row - 6}
	for j := len(w.data.Blocks); j <= i; j++ {
		r.x += r.w
		if r.w > 0 {
			r.x += gap
		}
		r.w = max(thinnest, a.X(w.all[j].End, size.Width)-a.X(w.all[j].SetUp, size.Width))
	}
	return r, r.x+r.w <= a.Left+a.plot(size.Width)
}

// Where is the place of a block; ok is false where it is not in sight.
func (w *Board) Where(id string) (at fyne.Position, size fyne.Size, ok bool) {
	i := w.index(id)
	if i < 0 {
		return at, size, false
	}
	r, ok := w.spot(i, w.Size())
	return fyne.NewPos(r.x, r.y), fyne.NewSize(r.w, r.h), ok
}

// blockAt returns the index of the block under a point, the later one where two overlap, or -1.
func (w *Board) blockAt(p fyne.Position) int {
	for i := len(w.order) - 1; i >= 0; i-- {
		if r, ok := w.spot(w.order[i], w.Size()); ok && r.holds(p) {
			return w.order[i]
		}
	}
	return -1
}

// selected is the selected block's place in the order of time, or -1.
func (w *Board) selected() int {
	for i, b := range w.order {
		if w.all[b].ID == w.data.Selected {
			return i
		}
	}
	return -1
}

// index is where a block is in all, or -1.
func (w *Board) index(id string) int {
	return slices.IndexFunc(w.all, func(b Block) bool { return b.ID == id })
}

// chosen are the IDs of all selected blocks, that of the one shown most first.
func (w *Board) chosen() []string {
	if w.data.Selected == "" {
		return nil
	}
	return append([]string{w.data.Selected}, w.data.Also...)
}

// isChosen tells whether a block is among those selected.
func (w *Board) isChosen(id string) bool { return slices.Contains(w.chosen(), id) }

// pick selects a block by its index, alone, if it is another than before.
func (w *Board) pick(block int) {
	w.also(nil)
	if id := w.all[block].ID; id != w.data.Selected {
		w.data.Selected = id
		w.Refresh()
		if w.OnSelect != nil {
			w.OnSelect(id)
		}
	}
}

// also selects blocks beside the one selected.
func (w *Board) also(ids []string) {
	if slices.Equal(ids, w.data.Also) {
		return
	}
	w.data.Also = ids
	w.Refresh()
	if w.OnAlso != nil {
		w.OnAlso(ids)
	}
}

// add selects a block beside those that are, or lets go of it.
func (w *Board) add(block int) {
	id := w.all[block].ID
	switch {
	case w.data.Selected == "":
		w.pick(block)
	case !w.isChosen(id):
		w.also(append(slices.Clone(w.data.Also), id))
	case id != w.data.Selected:
		w.also(slices.DeleteFunc(slices.Clone(w.data.Also), func(s string) bool { return s == id }))
	}
}

// FocusGained is Fyne's.
func (w *Board) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *Board) FocusLost() { w.setFocus(false) }

func (w *Board) setFocus(on bool) {
	w.focused, w.shift = on, false
	w.Refresh()
	if w.OnFocus != nil {
		w.OnFocus(on)
	}
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

// Axis is the part of the day that is shown.
func (w *Board) Axis() Axis { return w.data.Axis }
