package draw

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// ClearanceData is what a clearance shows.
type ClearanceData struct {
	Rows, Columns []ClearanceHead
	Cells         [][]Standing        // a row each, as many in it as there are columns
	Words         map[Standing]string // what each is called
	Row, Column   int                 // the selected cell; Row -1 selects the column
	Empty         string              // shown instead when there are no rows or no columns
}

// ClearanceHead is what a row or a column is called, and a few words on how it stands.
type ClearanceHead struct{ Name, Note string }

// Standing is how a permission stands for a scene.
type Standing int

// The standings: each has a mark of its own shape, but for NotNeeded, which has none.
const (
	NotNeeded Standing = iota
	Signed             // a tick
	Sent               // a ring with a dot
	Needed             // an open ring
	Doubted            // an exclamation mark
	Lapsed             // an hourglass
	Declined           // a cross
)

var standings = []Standing{Signed, Sent, Needed, Doubted, Lapsed, Declined}

// Clearance shows scenes against permissions, a mark where one is needed. The heads stay while the marks are scrolled. A press
// selects a cell, or a column by its name; so do the arrow keys, and Return opens what is selected.
type Clearance struct {
	widget.BaseWidget
	OnSelect func(row, column int) // a cell was selected here, or with row -1 a column
	OnOpen   func()

	data      ClearanceData
	top, left int // the first row and column in sight
	hover     spot
	pull      point // what was scrolled and is less than a row or a column yet, in cells
	grab      grab
	focused   bool
	pic       picture
	box       clearBox
	slanted   slantedNames
	stamps    map[Standing]stamp
	stamped   stampKey // what the stamps were made for
}

// spot is a row and a column. Row -1 is the column's head.
type spot struct{ row, column int }

var nowhere = spot{-2, -2}

// grab is what a drag moves.
type grab int

const (
	grabNothing grab = iota
	grabCells
	grabRows    // the bar beside the rows
	grabColumns // the bar under the columns
)

var (
	_ fyne.Focusable      = (*Clearance)(nil)
	_ fyne.Scrollable     = (*Clearance)(nil)
	_ fyne.Draggable      = (*Clearance)(nil)
	_ fyne.DoubleTappable = (*Clearance)(nil)
	_ desktop.Mouseable   = (*Clearance)(nil)
	_ desktop.Hoverable   = (*Clearance)(nil)
	_ desktop.Cursorable  = (*Clearance)(nil)
)

// NewClearance returns an empty clearance.
func NewClearance() *Clearance {
	w := &Clearance{hover: nowhere}
	w.pic.draw = w.drawMarks
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, scrolled as before where it can be. Call it on the UI goroutine.
func (w *Clearance) Set(d ClearanceData) {
	d.Row, d.Column = clampInt(d.Row, -1, len(d.Rows)-1), clampInt(d.Column, 0, len(d.Columns)-1)
	moved := spot{d.Row, d.Column} != spot{w.data.Row, w.data.Column}
	w.data, w.hover = d, nowhere
	if moved && !w.blank() && !w.Size().IsZero() {
		w.reveal(w.lay(w.Size()))
	}
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *Clearance) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

// clearBox is where the cells lie in a size.
type clearBox struct {
	x, y, cell    float32 // upper left corner of the cells, and their size
	rows, columns int     // in sight
	beside, below float32 // where the bars begin
	foot          float32 // where the caption begins
	room          float32 // that columns and their names have
}

const (
	clearBar   = 8   // how thick the bars are
	widestName = 260 // of a column; what is longer is cut
	widestHead = 250 // of a row, where the whole is narrow
)

// name is how much room the longest name of a column takes.
func (w *Clearance) name() float32 {
	f, widest := small(w.Theme()), float32(0)
	for _, c := range w.data.Columns {
		widest = max(widest, f.measure(c.Name).Width)
	}
	return min(widest, widestName*w.scaled())
}

// scaled is how large text is against its usual size.
func (w *Clearance) scaled() float32 { return w.Theme().Size(theme.SizeNameText) / 14 }

// heads is how wide the names of the rows and their notes are in a width.
func (w *Clearance) heads(width float32) (name, note float32) {
	f := small(w.Theme())
	for _, r := range w.data.Rows {
		name, note = max(name, plain(w.Theme()).measure(r.Name).Width), max(note, f.measure(r.Note).Width)
	}
	return min(name, max(0, max(widestHead*w.scaled(), 0.3*width)-note)), note
}

func (w *Clearance) lay(size fyne.Size) clearBox {
	th := w.Theme()
	f, gap := small(th), th.Size(theme.SizeNamePadding)
	name, note := w.heads(size.Width)
	b := clearBox{x: name + note + 5*gap, cell: plain(th).height() + gap}
	b.y = slantedHeight(w.name(), f) + gap
	bottom := size.Height - f.height()*float32(1+len(w.legend(size.Width))) - 2*gap - clearBar // of the cells
	b.rows = clampInt(int((bottom-b.y)/b.cell), 1, len(w.data.Rows))
	b.room = size.Width - b.x - gap
	b.columns = w.fit(b, w.left)
	b.below = b.y + b.cell*float32(b.rows) + gap
	b.foot = b.below + clearBar + gap
	b.beside = b.x + b.cell*float32(b.columns) + gap
	return b
}

// fit is how many columns from one on have room with their names, and at least one.
func (w *Clearance) fit(b clearBox, from int) int {
	f, n := small(w.Theme()), 0
	for n < len(w.data.Columns)-from {
		name := min(f.measure(w.data.Columns[from+n].Name).Width, w.name())
		end := (float32(n)+0.5)*b.cell - slant45*f.height()/2 + slantedHeight(name, f)
		if n > 0 && (end > b.room || float32(n+1)*b.cell+clearBar > b.room) {
			break
		}
		n++
	}
	return n
}

// last is the furthest column to begin with: the last one is in sight then.
func (w *Clearance) last(b clearBox) int {
	left := max(0, len(w.data.Columns)-1)
	for left > 0 && left-1+w.fit(b, left-1) >= len(w.data.Columns) {
		left--
	}
	return left
}

// Full is the width at which all columns are in sight, and the legend stands in one line. More helps only long names of rows.
func (w *Clearance) Full() float32 {
	th := w.Theme()
	f, gap := small(th), th.Size(theme.SizeNamePadding)
	name, note := w.heads(0)
	legend := gap
	for _, s := range standings {
		legend += w.legendRoom(s)
	}
	right := max(2*gap+clearBar, slantedHeight(w.name(), f))
	return max(legend, name+note+5*gap+float32(len(w.data.Columns))*(plain(th).height()+gap)+right)
}

// clampInt holds v between two bounds; of bounds that cross, the low one holds.
func clampInt(v, low, high int) int { return max(min(v, high), low) }

func (w *Clearance) least() fyne.Size {
	th := w.Theme()
	f, gap := small(th), th.Size(theme.SizeNamePadding)
	name, note := w.heads(0)
	cell, slant := plain(th).height()+gap, slantedHeight(w.name(), f)
	width := name + note + 6*gap + 3*cell + slant + clearBar
	return fyne.NewSize(width, slant+3*cell+3*gap+clearBar+f.height()*float32(1+len(w.legend(width))))
}

// at is the spot under a point; nowhere outside the cells and the names of columns.
func (w *Clearance) at(p fyne.Position) spot {
	b := w.box
	if w.blank() || p.Y < 0 || b.cell == 0 {
		return nowhere
	}
	x, row := p.X, -1
	switch down := p.Y - b.y; {
	case down < 0:
		x -= -down // a name rises to the right by 45 degrees
	case int(down/b.cell) >= b.rows:
		return nowhere
	default:
		row = w.top + int(down/b.cell)
	}
	column := int(math.Floor(float64((x - b.x) / b.cell)))
	if column < 0 || column >= b.columns {
		return nowhere
	}
	return spot{row, w.left + column}
}

func (w *Clearance) blank() bool { return len(w.data.Rows) == 0 || len(w.data.Columns) == 0 }

// pick selects a spot, brought into the table and into sight, if it is another than before.
func (w *Clearance) pick(to spot) {
	to = spot{clampInt(to.row, -1, len(w.data.Rows)-1), clampInt(to.column, 0, len(w.data.Columns)-1)}
	if w.blank() || to == (spot{w.data.Row, w.data.Column}) {
		return
	}
	w.data.Row, w.data.Column, w.hover = to.row, to.column, nowhere
	if w.reveal(w.box) {
		w.Refresh()
	} else {
		w.pic.touch(w)
	}
	if w.OnSelect != nil {
		w.OnSelect(to.row, to.column)
	}
}

// reveal scrolls until the selected spot is in sight, and reports whether it had to.
func (w *Clearance) reveal(b clearBox) bool {
	top, left := w.top, w.left
	if row := max(w.data.Row, 0); w.data.Row >= 0 {
		w.top = clampInt(w.top, row-b.rows+1, row)
	}
	w.left = min(w.left, w.data.Column)
	for w.left+w.fit(b, w.left) <= w.data.Column {
		w.left++
	}
	return top != w.top || left != w.left
}

// scroll moves what is in sight by a part of cells: whole ones at once, the rest when more comes.
func (w *Clearance) scroll(columns, rows float32) {
	w.pull.x, w.pull.y = w.pull.x+columns, w.pull.y+rows
	across, down := int(w.pull.x), int(w.pull.y)
	w.pull.x, w.pull.y = w.pull.x-float32(across), w.pull.y-float32(down)
	top := clampInt(w.top+down, 0, max(0, len(w.data.Rows)-w.box.rows))
	left := clampInt(w.left+across, 0, w.last(w.box))
	if top != w.top || left != w.left {
		w.top, w.left, w.hover = top, left, nowhere
		w.Refresh()
	}
}

// Scrolled is Fyne's.
func (w *Clearance) Scrolled(e *fyne.ScrollEvent) {
	if cell := w.box.cell; cell > 0 {
		w.scroll(-e.Scrolled.DX/cell, -e.Scrolled.DY/cell)
	}
}

// Dragged moves a bar, or the cells under the pointer.
func (w *Clearance) Dragged(e *fyne.DragEvent) {
	b := w.box
	if b.cell <= 0 {
		return
	}
	if w.grab == grabNothing {
		w.grab = w.held(e.Position.Subtract(e.Dragged))
	}
	switch w.grab {
	case grabRows:
		w.scroll(0, e.Dragged.DY*float32(len(w.data.Rows))/(b.cell*float32(b.rows)))
	case grabColumns:
		w.scroll(e.Dragged.DX*float32(len(w.data.Columns))/(b.cell*float32(b.columns)), 0)
	default:
		w.scroll(-e.Dragged.DX/b.cell, -e.Dragged.DY/b.cell)
	}
}

func (w *Clearance) held(from fyne.Position) grab {
	switch {
	case from.X >= w.box.beside && from.X < w.box.beside+clearBar && from.Y < w.box.below:
		return grabRows
	case from.Y >= w.box.below && from.Y < w.box.foot:
		return grabColumns
	}
	return grabCells
}

// DragEnd is Fyne's.
func (w *Clearance) DragEnd() { w.grab, w.pull = grabNothing, point{} }

// FocusGained is Fyne's.
func (w *Clearance) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *Clearance) FocusLost() { w.setFocus(false) }

func (w *Clearance) setFocus(on bool) {
	w.focused = on
	w.pic.touch(w)
}

// TypedRune is Fyne's; the clearance takes no text.
func (w *Clearance) TypedRune(rune) {}

// TypedKey moves the selection by the arrow keys, a screen of rows by Page Up and Page Down, and to the first and last column
// by Home and End. Return opens it.
func (w *Clearance) TypedKey(e *fyne.KeyEvent) {
	to := spot{w.data.Row, w.data.Column}
	switch e.Name {
	case fyne.KeyLeft:
		to.column--
	case fyne.KeyRight:
		to.column++
	case fyne.KeyUp:
		to.row--
	case fyne.KeyDown:
		to.row++
	case fyne.KeyPageUp:
		to.row -= w.box.rows
	case fyne.KeyPageDown:
		to.row += w.box.rows
	case fyne.KeyHome:
		to.column = 0
	case fyne.KeyEnd:
		to.column = len(w.data.Columns) - 1
	case fyne.KeyReturn, fyne.KeyEnter:
		w.open()
		return
	}
	w.pick(to)
}

func (w *Clearance) open() {
	if !w.blank() && w.OnOpen != nil {
		w.OnOpen()
	}
}

// MouseDown takes the focus and selects what is under the pointer.
func (w *Clearance) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if at := w.at(e.Position); at != nowhere && e.Button == desktop.MouseButtonPrimary {
		w.pick(at)
	}
}

// MouseUp is Fyne's; the choice is made on MouseDown.
func (w *Clearance) MouseUp(*desktop.MouseEvent) {}

// DoubleTapped opens what is under the pointer.
func (w *Clearance) DoubleTapped(e *fyne.PointEvent) {
	if at := w.at(e.Position); at != nowhere {
		w.pick(at)
		w.open()
	}
}

// MouseIn is Fyne's.
func (w *Clearance) MouseIn(e *desktop.MouseEvent) { w.MouseMoved(e) }

// MouseMoved tells in the caption what is under the pointer.
func (w *Clearance) MouseMoved(e *desktop.MouseEvent) { w.point(w.at(e.Position)) }

// MouseOut is Fyne's.
func (w *Clearance) MouseOut() { w.point(nowhere) }

func (w *Clearance) point(to spot) {
	if to != w.hover {
		w.hover = to
		w.pic.touch(w)
	}
}

// Cursor is a hand over what can be selected.
func (w *Clearance) Cursor() desktop.Cursor {
	if w.hover != nowhere {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// caption tells a spot in words: what it is of, and how it stands.
func (w *Clearance) caption(at spot) string {
	if at.column < 0 || at.column >= len(w.data.Columns) || at.row >= len(w.data.Rows) {
		return ""
	}
	column := w.data.Columns[at.column]
	if at.row < 0 {
		return column.Name + ": " + column.Note
	}
	return w.data.Rows[at.row].Name + " – " + column.Name + ": " + w.data.Words[w.standing(at)]
}

// standing is that of a cell; what the data leaves out is not needed.
func (w *Clearance) standing(at spot) Standing {
	if at.row >= len(w.data.Cells) || at.column >= len(w.data.Cells[at.row]) {
		return NotNeeded
	}
	return w.data.Cells[at.row][at.column]
}

// clearKey is a mark with its word in the legend.
type clearKey struct {
	standing Standing
	x        float32
}

// legend lays the marks and their words out in lines of a width.
func (w *Clearance) legend(width float32) [][]clearKey {
	gap := w.Theme().Size(theme.SizeNamePadding)
	lines, x := [][]clearKey{nil}, gap
	for _, s := range standings {
		need := w.legendRoom(s)
		if x > gap && x+need > width {
			lines, x = append(lines, nil), gap
		}
		last := len(lines) - 1
		lines[last] = append(lines[last], clearKey{s, x})
		x += need
	}
	return lines
}

// legendRoom is the width of a mark and its word, with the gap after it.
func (w *Clearance) legendRoom(s Standing) float32 {
	f, gap := small(w.Theme()), w.Theme().Size(theme.SizeNamePadding)
	return f.height() + 5*gap + f.measure(w.data.Words[s]).Width
}

// tint is the colour of a standing's mark, which never stands alone for it.
func tint(c *look.Palette, s Standing) color.NRGBA {
	switch s {
	case Signed:
		return c.Good
	case Sent, Needed:
		return c.Warning
	}
	return c.Bad
}
