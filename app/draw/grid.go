package draw

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// GridData is what a grid shows.
type GridData struct {
	Columns []GridColumn
	Rows    [][]string // as many texts in each as there are columns
	Faint   func(row, column int) bool
	Row     int    // the selected one; -1: none
	Empty   string // shown instead when there are no rows
}

// GridColumn is a column: what stands over it, its share of the width, whether it holds figures, and whether words are offered.
type GridColumn struct {
	Head   string
	Share  float32
	Figure bool
	Offers bool
}

// Grid is a table of texts with a cursor, as a spreadsheet has one. A press or the arrow keys move the cursor; Return, F2, typing
// or a press on the cursor asks for an editor over the cell; Delete empties it; Control and C copy it; a row is dragged to another
// place. With Shift, Up, Down or a press mark the rows from the selected one on. The heads stay while the rows are scrolled.
type Grid struct {
	widget.BaseWidget
	OnSelect func(row int)                  // another row was selected here
	OnEdit   func(column int, typed string) // of the selected row; typed is what is to stand in place of its text, if anything
	OnClear  func(column int)               // of the selected row
	OnDrop   func(from, before int)         // a row was dragged to before another, or to behind the last
	OnPaste  func()                         // what is on the clipboard
	OnCopy   func(column int)               // of the selected row, to the clipboard
	Hold     func() bool                    // asked before a press moves the cursor: does it have to stay where it is?
	OnMoved  func()                         // the cells lie elsewhere now

	data    GridData
	column  int  // of the cursor
	other   int  // the row at the other end of those that are marked
	shift   bool // the key is down
	top     int  // the first row in sight
	pull    float32
	grab    gridGrab
	from    int  // the row that is dragged
	before  int  // the row before which it would land; -1: nowhere
	again   bool // the press was on the cursor
	focused bool
}

type gridGrab int

const (
	gridGrabNothing gridGrab = iota
	gridGrabRow
	gridGrabBar
	gridGrabGivenUp
)

var (
	_ fyne.Focusable    = (*Grid)(nil)
	_ fyne.Scrollable   = (*Grid)(nil)
	_ fyne.Draggable    = (*Grid)(nil)
	_ fyne.Shortcutable = (*Grid)(nil)
	_ desktop.Mouseable = (*Grid)(nil)
	_ desktop.Keyable   = (*Grid)(nil)
)

// NewGrid returns an empty grid.
func NewGrid() *Grid {
	g := &Grid{before: -1, data: GridData{Row: -1}}
	g.ExtendBaseWidget(g)
	return g
}

// Set shows other data. The cursor keeps its column, and comes into sight when it is in another row; then, and where rows came or
// went, no other row is marked any more. Call it on the UI goroutine.
func (g *Grid) Set(d GridData) {
	d.Row = clampInt(d.Row, -1, len(d.Rows)-1)
	moved := d.Row != g.data.Row
	if moved || len(d.Rows) != len(g.data.Rows) {
		g.other = d.Row
	}
	g.data = d
	g.column = clampInt(g.column, 0, max(0, len(d.Columns)-1))
	if g.grab == gridGrabRow && g.before > len(d.Rows) {
		g.giveUp()
	}
	g.top = clampInt(g.top, 0, g.last())
	if moved {
		g.reveal()
	}
	g.Refresh()
}

// Cursor is the selected row, -1 for none, and the column of the cursor.
func (g *Grid) Cursor() (row, column int) { return g.data.Row, g.column }

// Marked are the rows that are marked, from one up to another that is none of them: the selected one, and those up to where Shift
// went down.
func (g *Grid) Marked() (from, to int) {
	if g.data.Row < 0 {
		return 0, 0
	}
	return min(g.data.Row, g.other), max(g.data.Row, g.other) + 1
}

// MarkOne leaves no row marked but the selected one.
func (g *Grid) MarkOne() {
	if g.other != g.data.Row {
		g.other = g.data.Row
		g.Refresh()
	}
}

// Point moves the cursor as the keys do.
func (g *Grid) Point(row, column int) { g.point(row, column, false) }

// point moves the cursor, and marks the rows on the way if it is to.
func (g *Grid) point(row, column int, mark bool) {
	if len(g.data.Rows) == 0 {
		return
	}
	row, column = clampInt(row, 0, len(g.data.Rows)-1), clampInt(column, 0, len(g.data.Columns)-1)
	other := row != g.data.Row
	if !mark || g.data.Row < 0 {
		g.other = row
	}
	g.data.Row, g.column = row, column
	g.reveal()
	g.Refresh()
	if other && g.OnSelect != nil {
		g.OnSelect(row)
	}
}

// Cell is where the cell under the cursor lies, and whether it is in sight.
func (g *Grid) Cell() (at fyne.Position, size fyne.Size, ok bool) {
	row := g.data.Row - g.top
	if g.data.Row < 0 || row < 0 || row >= g.inSight() {
		return at, size, false
	}
	x, w := g.across(g.column)
	return fyne.NewPos(x, g.headHeight()+float32(row)*g.rowHeight()), fyne.NewSize(w, g.rowHeight()), true
}

// CreateRenderer is Fyne's.
func (g *Grid) CreateRenderer() fyne.WidgetRenderer { return newDrawing(g, nil) }

const gridBar = 8 // how thick the bar is

func (g *Grid) pad() float32        { return g.Theme().Size(theme.SizeNamePadding) }
func (g *Grid) rowHeight() float32  { return whole(plain(g.Theme()).height() + 2.5*g.pad()) }
func (g *Grid) headHeight() float32 { return whole(small(g.Theme()).height() + 2*g.pad()) }

// whole rounds up: letters that lie between two pixels are blurred.
func whole(v float32) float32 { return float32(math.Ceil(float64(v))) }

func (g *Grid) least() fyne.Size {
	scaled := g.Theme().Size(theme.SizeNameText) / 14
	return fyne.NewSize(560*scaled, g.headHeight()+3*g.rowHeight())
}

// inSight is how many whole rows there is room for.
func (g *Grid) inSight() int {
	return clampInt(int((g.Size().Height-g.headHeight())/g.rowHeight()), 0, len(g.data.Rows))
}

// last is the furthest row to begin with.
func (g *Grid) last() int { return max(0, len(g.data.Rows)-g.inSight()) }

// edges are where the columns begin, and where the last one ends. None is narrower than its head, as far as there is room for that.
func (g *Grid) edges() []float32 {
	n, room, heads := len(g.data.Columns), g.Size().Width-gridBar-g.pad(), float32(0)
	shares, leasts, out := make([]float32, n), make([]float32, n), make([]float32, n+1)
	for i, c := range g.data.Columns {
		shares[i], leasts[i] = c.Share, whole(small(g.Theme()).measure(c.Head).Width+3*g.pad())
		heads += leasts[i]
	}
	if heads > room {
		shares, leasts = leasts, make([]float32, n)
	}
	for i, w := range ShareOut(room, shares, leasts) {
		out[i+1] = float32(math.Floor(float64(out[i] + w)))
	}
	out[n] = room
	return out
}

// ShareOut shares a room out by shares; whoever would get less than their least gets that first.
func ShareOut(room float32, shares, leasts []float32) []float32 {
	out, first := make([]float32, len(shares)), make([]bool, len(shares))
	for again := true; again; {
		again = false
		left, all := room, float32(0)
		for i, share := range shares {
			if first[i] {
				left -= leasts[i]
			} else {
				all += share
			}
		}
		for i, share := range shares {
			if first[i] {
				continue
			}
			if out[i] = left * share / all; out[i] < leasts[i] {
				out[i], first[i], again = leasts[i], true, true
			}
		}
	}
	return out
}

// across is where a column begins, and how wide it is.
func (g *Grid) across(column int) (x, width float32) {
	edges := g.edges()
	if column+1 >= len(edges) {
		return 0, 0
	}
	return edges[column], edges[column+1] - edges[column]
}

// reveal scrolls until the cursor is in sight.
func (g *Grid) reveal() {
	if n := g.inSight(); g.data.Row >= 0 && n > 0 {
		g.scrollTo(clampInt(g.top, g.data.Row-n+1, g.data.Row))
	}
}

func (g *Grid) scrollTo(top int) {
	if top = clampInt(top, 0, g.last()); top != g.top {
		g.top = top
		g.Refresh()
		g.moved()
	}
}

func (g *Grid) moved() {
	if g.OnMoved != nil {
		g.OnMoved()
	}
}

// Resize is Fyne's.
func (g *Grid) Resize(size fyne.Size) {
	if size == g.Size() {
		return
	}
	g.BaseWidget.Resize(size)
	g.reveal()
	g.Refresh()
	g.moved()
}

// Scrolled is Fyne's.
func (g *Grid) Scrolled(e *fyne.ScrollEvent) { g.pulled(-e.Scrolled.DY / g.rowHeight()) }

// pulled scrolls by a part of rows: whole ones at once, the rest when more comes.
func (g *Grid) pulled(rows float32) {
	g.pull += rows
	whole := int(g.pull)
	g.pull -= float32(whole)
	g.scrollTo(g.top + whole)
}

// rowAt is the row under a height, as far as there is one.
func (g *Grid) rowAt(y float32) int {
	row := int((y - g.headHeight()) / g.rowHeight())
	if y < g.headHeight() || row >= g.inSight() {
		return -1
	}
	return g.top + row
}

func (g *Grid) columnAt(x float32) int {
	for i := range g.data.Columns {
		if from, width := g.across(i); x < from+width {
			return i
		}
	}
	return len(g.data.Columns) - 1
}

// MouseDown moves the cursor and takes the focus.
func (g *Grid) MouseDown(e *desktop.MouseEvent) {
	g.grab, g.again = gridGrabNothing, false
	if g.Hold != nil && g.Hold() {
		g.grab = gridGrabGivenUp
		return
	}
	focused := g.focused
	if c := fyne.CurrentApp().Driver().CanvasForObject(g); c != nil {
		c.Focus(g)
	}
	row := g.rowAt(e.Position.Y)
	if row < 0 || e.Position.X >= g.Size().Width-gridBar {
		return
	}
	column := g.columnAt(e.Position.X)
	mark := e.Modifier&fyne.KeyModifierShift != 0
	g.again = focused && !mark && e.Button == desktop.MouseButtonPrimary && row == g.data.Row && column == g.column
	g.point(row, column, mark)
}

// MouseUp asks for an editor where the press was on the cursor, and nothing was dragged.
func (g *Grid) MouseUp(*desktop.MouseEvent) {
	if g.again && g.grab == gridGrabNothing {
		g.edit("")
	}
	g.again = false
}

// Dragged takes a row to another place, or moves the bar.
func (g *Grid) Dragged(e *fyne.DragEvent) {
	if g.grab == gridGrabNothing {
		start := e.Position.Subtract(e.Dragged)
		switch row := g.rowAt(start.Y); {
		case start.X >= g.Size().Width-gridBar:
			g.grab = gridGrabBar
		case row >= 0 && g.OnDrop != nil:
			g.grab, g.from = gridGrabRow, row
		default:
			g.grab = gridGrabGivenUp
		}
	}
	switch g.grab {
	case gridGrabBar:
		if n := g.inSight(); n > 0 {
			g.pulled(e.Dragged.DY * float32(len(g.data.Rows)) / (float32(n) * g.rowHeight()))
		}
	case gridGrabRow:
		switch y := e.Position.Y; {
		case y < g.headHeight():
			g.scrollTo(g.top - 1)
		case y > g.headHeight()+float32(g.inSight())*g.rowHeight():
			g.scrollTo(g.top + 1)
		}
		row := (e.Position.Y - g.headHeight()) / g.rowHeight()
		g.before = g.top + clampInt(int(row+0.5), 0, g.inSight())
		g.Refresh()
	}
}

// DragEnd lets a row go where it is.
func (g *Grid) DragEnd() {
	grab, before := g.grab, g.before
	g.grab, g.before, g.again, g.pull = gridGrabNothing, -1, false, 0
	if grab == gridGrabRow && before >= 0 && before != g.from && before != g.from+1 {
		g.OnDrop(g.from, before)
	}
	g.Refresh()
}

// giveUp leaves a dragged row where it was.
func (g *Grid) giveUp() {
	g.grab, g.before = gridGrabGivenUp, -1
	g.Refresh()
}

// FocusGained is Fyne's.
func (g *Grid) FocusGained() { g.focused = true; g.Refresh() }

// FocusLost is Fyne's.
func (g *Grid) FocusLost() { g.focused, g.shift = false, false; g.Refresh() }

// KeyDown is Fyne's; it tells of Shift, which comes with no other event.
func (g *Grid) KeyDown(e *fyne.KeyEvent) {
	g.shift = g.shift || e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight
}

// KeyUp is Fyne's.
func (g *Grid) KeyUp(e *fyne.KeyEvent) {
	g.shift = g.shift && e.Name != desktop.KeyShiftLeft && e.Name != desktop.KeyShiftRight
}

func (g *Grid) edit(typed string) {
	if g.data.Row >= 0 && g.OnEdit != nil {
		g.reveal()
		g.OnEdit(g.column, typed)
	}
}

// TypedRune begins to write in the cell.
func (g *Grid) TypedRune(r rune) {
	if r == ' ' { // which chooses, elsewhere in the window
		g.edit("")
		return
	}
	g.edit(string(r))
}

// TypedKey moves the cursor, and asks for an editor.
func (g *Grid) TypedKey(e *fyne.KeyEvent) {
	row, column := g.Cursor()
	page := max(1, g.inSight()-1)
	switch e.Name {
	case fyne.KeyUp:
		g.point(row-1, column, g.shift)
	case fyne.KeyDown:
		g.point(row+1, column, g.shift)
	case fyne.KeyLeft:
		g.Point(row, column-1)
	case fyne.KeyRight:
		g.Point(row, column+1)
	case fyne.KeyHome:
		g.Point(row, 0)
	case fyne.KeyEnd:
		g.Point(row, len(g.data.Columns)-1)
	case fyne.KeyPageUp:
		g.Point(row-page, column)
	case fyne.KeyPageDown:
		g.Point(row+page, column)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		g.edit("")
	case fyne.KeyDelete, fyne.KeyBackspace:
		if row >= 0 && g.OnClear != nil {
			g.OnClear(column)
		}
	case fyne.KeyEscape:
		if g.grab == gridGrabRow {
			g.giveUp()
			return
		}
		g.Point(row, column) // alone
	}
}

// TypedShortcut takes what is pasted, and has the cell under the cursor copied.
func (g *Grid) TypedShortcut(s fyne.Shortcut) {
	switch s.(type) {
	case *fyne.ShortcutPaste:
		if g.OnPaste != nil {
			g.OnPaste()
		}
	case *fyne.ShortcutCopy:
		if g.data.Row >= 0 && g.OnCopy != nil {
			g.OnCopy(g.column)
		}
	}
}

func (g *Grid) paint(p *pieces, size fyne.Size) {
	g.top = clampInt(g.top, 0, g.last()) // a larger size has room for more rows
	th := g.Theme()
	c, pad, head, row := look.Of(th), g.pad(), g.headHeight(), g.rowHeight()
	wide := size.Width - gridBar - pad
	p.rect(0, 0, wide, head, c.Lane)
	f, edges := small(th), g.edges()
	for i, column := range g.data.Columns {
		x, w := edges[i], edges[i+1]-edges[i]
		if column.Figure {
			p.textRight(column.Head, x+w-2*pad, pad, w-2*pad, f, c.Muted)
		} else {
			p.text(column.Head, x+2*pad, pad, w-2*pad, f, c.Muted)
		}
	}
	if len(g.data.Rows) == 0 {
		p.text(g.data.Empty, 2*pad, head+2*pad, wide-4*pad, plain(th), c.Muted)
		return
	}
	for i := range g.inSight() {
		g.paintRow(p, g.top+i, head+float32(i)*row, edges)
	}
	if g.before >= 0 {
		y := head + float32(g.before-g.top)*row
		p.rect(0, y-1.5, wide, 3, c.Accent)
	}
	if n, all := float32(g.inSight()), float32(len(g.data.Rows)); n < all {
		room := n * row
		p.box(size.Width-gridBar, head+room*float32(g.top)/all, gridBar-2, room*n/all, c.Present, c.Present, 0, 3)
	}
}

func (g *Grid) paintRow(p *pieces, i int, y float32, edges []float32) {
	th := g.Theme()
	c, pad, row, wide := look.Of(th), g.pad(), g.rowHeight(), edges[len(edges)-1]
	if from, to := g.Marked(); i >= from && i < to {
		p.rect(0, y, wide, row, c.Lane)
		if to-from > 1 { // nothing is told by colour alone
			p.rect(0, y, 3, row, c.Accent)
		}
	}
	if g.grab == gridGrabRow && i == g.from {
		p.rect(0, y, wide, row, c.Shade)
	}
	p.line(0, y+row, wide, y+row, 1, c.Rule)
	f := plain(th)
	for j, text := range g.data.Rows[i] {
		x, w := edges[j], edges[j+1]-edges[j]
		ink := c.Ink
		if g.data.Faint != nil && g.data.Faint(i, j) {
			ink = c.Muted
		}
		room := w - 3*pad
		cursor := i == g.data.Row && j == g.column
		if cursor && g.data.Columns[j].Offers { // there are words to choose from
			end, mid := x+w-2*pad, y+row/2
			p.line(end-8, mid-2, end-4, mid+2, 1.5, c.Accent)
			p.line(end-4, mid+2, end, mid-2, 1.5, c.Accent)
			room -= 8 + pad
		}
		if g.data.Columns[j].Figure {
			p.textRight(text, x+w-2*pad, y+whole(1.25*pad), room, f, ink)
		} else {
			p.text(text, x+2*pad, y+whole(1.25*pad), room, f, ink)
		}
		if cursor {
			edge := c.Muted
			if g.focused {
				edge = c.Accent
			}
			width := float32(1)
			if g.focused {
				width = 2
			}
			p.ring(x+1, y+1, w-2, row-1, edge, width, 3)
		}
	}
}
