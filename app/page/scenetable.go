package page

import (
	"slices"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// sceneTable is the table of the scenes: a grid of texts with one editor that is laid over the cell being written in. What is
// typed there becomes an edit when the cell is left; what makes no sense stays, with the reason, until it is put right or given up.
type sceneTable struct {
	edit    Editor
	pick    func(plan.ID)
	columns []view.SceneColumn
	grid    *draw.Grid
	entry   *cellEntry
	wrong   *widget.Label
	object  fyne.CanvasObject

	plan   *plan.Plan
	lines  []view.SceneLine
	cell   *openCell // nil: nothing is being written
	copied string    // of a cell here
}

// openCell is the cell that is being written in.
type openCell struct {
	scene  plan.ID
	column int
	text   string // of the plan
}

// newSceneTable builds the table. pick hears of the scene that is selected in it; drop moves a scene to before another, or with
// no other to the end; paste takes what is on the clipboard.
func newSceneTable(edit Editor, pick func(plan.ID), drop func(scene, before plan.ID), paste func()) *sceneTable {
	t := &sceneTable{edit: edit, pick: pick, columns: view.TableColumns(), grid: draw.NewGrid(), wrong: told(), plan: &plan.Plan{}}
	t.entry = newCellEntry(t)
	t.entry.Hide()
	g := t.grid
	g.Hold = func() bool {
		if t.Commit() {
			return false
		}
		t.focus(t.entry)
		return true
	}
	g.OnSelect = func(row int) { t.pick(t.lines[row].ID) }
	g.OnEdit = t.open
	g.OnClear = func(column int) {
		if row, _ := g.Cursor(); column < len(t.columns) {
			t.complain(t.set(t.lines[row].ID, column, ""))
		}
	}
	g.OnDrop = func(from, before int) {
		to := plan.ID("")
		if before < len(t.lines) {
			to = t.lines[before].ID
		}
		drop(t.lines[from].ID, to)
	}
	g.OnCopy = t.copyCell
	g.OnPaste = func() {
		if !t.pasteCell() {
			paste()
		}
	}
	g.OnMoved = t.place
	t.object = container.New(overCell{t}, t.grid, t.entry)
	return t
}

// show brings the table up to a state, of which a filter leaves some scenes; the selected one stays in sight.
func (t *sceneTable) show(st session.State, filter string, selected plan.ID) {
	t.plan = &st.Plan
	marked := t.marked()
	t.lines = view.SceneLines(st, filter, selected)
	d := draw.GridData{Row: -1, Empty: tongue.Say("No scene yet.")}
	for _, c := range t.columns {
		d.Columns = append(d.Columns, draw.GridColumn{Head: c.Heading(), Share: c.Share, Figure: c.Figure, Offers: c.Offer != nil})
	}
	d.Columns = append(d.Columns, draw.GridColumn{Head: tongue.Say("Starts"), Share: 5})
	for i, l := range t.lines {
		if l.ID == selected {
			d.Row = i
		}
		d.Rows = append(d.Rows, append(l.Cells, l.Mark))
	}
	d.Faint = func(row, column int) bool { return t.lines[row].Faint(column) }
	if t.cell != nil && t.cell.scene != selected { // undone, or another is selected meanwhile
		t.close()
	}
	t.grid.Set(d)
	if !slices.Equal(t.marked(), marked) { // as many rows, but others
		t.grid.MarkOne()
	}
	t.place()
}

// scene is a scene of the plan as it is shown.
func (t *sceneTable) scene(id plan.ID) (*plan.Scene, bool) {
	s, ok := t.plan.Scene(id)
	return &s, ok
}

// open begins to write in a cell of the selected row: with words to choose from where there are some and nothing is typed yet.
func (t *sceneTable) open(column int, typed string) {
	row, _ := t.grid.Cursor()
	if column < len(t.columns) && t.columns[column].Offer != nil && typed == "" {
		t.offer(t.lines[row].ID, column)
		return
	}
	t.write(column, typed)
}

// write lays the editor over a cell of the selected row.
func (t *sceneTable) write(column int, typed string) {
	row, _ := t.grid.Cursor()
	if column >= len(t.columns) || row < 0 {
		return
	}
	id := t.lines[row].ID
	s, ok := t.scene(id)
	if !ok {
		return
	}
	t.complain("")
	t.cell = &openCell{id, column, t.columns[column].Text(t.plan, s)}
	t.entry.SetText(t.cell.text)
	t.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	t.entry.Show()
	t.place()
	t.focus(t.entry)
	for _, r := range typed { // in place of what is selected
		t.entry.TypedRune(r)
	}
}

// offer lists what a cell can say.
func (t *sceneTable) offer(id plan.ID, column int) {
	s, ok := t.scene(id)
	at, size, seen := t.grid.Cell()
	c := fyne.CurrentApp().Driver().CanvasForObject(t.grid)
	if !ok || !seen || c == nil {
		return
	}
	now := t.columns[column].Text(t.plan, s)
	var items []*fyne.MenuItem
	for _, word := range t.columns[column].Offer(t.plan) {
		item := fyne.NewMenuItem(word, func() { t.complain(t.set(id, column, word)) })
		item.Checked = word == now
		items = append(items, item)
	}
	if len(items) == 0 {
		t.complain(tongue.Say("No space yet: add spaces on the page of the property."))
		return
	}
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), c, at.AddXY(0, size.Height), t.grid)
}

// set says a thing of a scene as its cell would, and returns why it was refused, if it was.
func (t *sceneTable) set(id plan.ID, column int, text string) string {
	c := t.columns[column]
	s, ok := t.scene(id)
	if !ok || c.Text(t.plan, s) == text {
		return ""
	}
	change, err := c.Read(t.plan, text)
	if err != nil {
		return tongue.Error(err)
	}
	wrong := t.edit(tongue.Say("change %s", c.Name()), "", func(p *plan.Plan) {
		if s := p.SceneAt(id); s != nil {
			change(s)
		}
	})
	if len(wrong) > 0 {
		return tongue.Of(wrong[0])
	}
	return ""
}

// marked are the scenes whose rows are marked, the selected one among them.
func (t *sceneTable) marked() (ids []plan.ID) {
	from, to := t.grid.Marked()
	for _, l := range t.lines[from:to] {
		ids = append(ids, l.ID)
	}
	return ids
}

// copyCell puts the text of a cell of the selected row on the clipboard, as it would be typed there; or all the rows that are marked.
func (t *sceneTable) copyCell(column int) {
	if len(t.marked()) > 1 {
		t.copyRows()
		return
	}
	row, _ := t.grid.Cursor()
	t.copied = t.lines[row].Mark
	if s, ok := t.scene(t.lines[row].ID); ok && column < len(t.columns) {
		t.copied = t.columns[column].Text(t.plan, s)
	}
	fyne.CurrentApp().Clipboard().SetContent(t.copied)
}

// pasteCell says what was copied from a cell here in the one under the cursor, as a spreadsheet does. It reports whether the clipboard
// still has it: anything else is rows.
func (t *sceneTable) pasteCell() bool {
	row, column := t.grid.Cursor()
	if t.copied == "" || row < 0 || fyne.CurrentApp().Clipboard().Content() != t.copied {
		return false
	}
	if column < len(t.columns) {
		t.complain(t.set(t.lines[row].ID, column, t.copied))
	}
	return true
}

// copyRows puts the rows that are marked on the clipboard, with their headings.
func (t *sceneTable) copyRows() {
	if ids := t.marked(); len(ids) > 0 {
		t.copied = ""
		fyne.CurrentApp().Clipboard().SetContent(view.CopyScenes(t.plan, ids...))
	}
}

// Commit makes an edit of what is being written, and reports whether nothing is any more.
func (t *sceneTable) Commit() bool {
	if t.cell == nil {
		return true
	}
	cell := *t.cell
	t.cell = nil // the edit shows the page anew, and the editor loses the focus
	words := t.set(cell.scene, cell.column, t.entry.Text)
	t.complain(words)
	if words != "" {
		t.cell = &cell
		t.place()
		return false
	}
	t.close()
	return true
}

// close takes the editor away.
func (t *sceneTable) close() {
	t.cell = nil
	t.complain("")
	t.entry.Hide()
}

// Revert gives up what was refused.
func (t *sceneTable) Revert() bool {
	if t.cell == nil || !t.wrong.Visible() {
		return false
	}
	t.close()
	return true
}

func (t *sceneTable) complain(words string) {
	if words == t.wrong.Text && t.wrong.Visible() == (words != "") {
		return
	}
	t.wrong.SetText(words)
	setVisible(t.wrong, words != "")
}

func (t *sceneTable) focus(o fyne.Focusable) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(t.grid); c != nil {
		c.Focus(o)
	}
}

// place lays the editor over its cell. A cell that is scrolled out of sight is left.
func (t *sceneTable) place() {
	if t.cell == nil {
		t.entry.Hide()
		return
	}
	at, size, ok := t.grid.Cell()
	if !ok {
		t.Commit()
		return
	}
	least := t.entry.MinSize()
	at.Y -= max(0, least.Height-size.Height) / 2
	size.Height, size.Width = max(size.Height, least.Height), max(size.Width, 110)
	at.X = max(0, min(at.X, t.grid.Size().Width-size.Width))
	t.entry.Resize(size)
	t.entry.Move(at)
	t.entry.Show()
}

// key is what the editor does not do by itself: it leaves the cell, for another one or for none.
func (t *sceneTable) key(name fyne.KeyName, shift bool) bool {
	row, column := t.grid.Cursor()
	switch name {
	case fyne.KeyEscape:
		t.close()
		t.focus(t.grid)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown:
		t.leave(row+1, column)
	case fyne.KeyUp:
		t.leave(row-1, column)
	case fyne.KeyTab:
		t.next(row, column, shift)
	default:
		return false
	}
	return true
}

// leave commits and moves the cursor; what was refused stays to be put right.
func (t *sceneTable) leave(row, column int) {
	if t.Commit() {
		t.focus(t.grid)
		t.grid.Point(row, column)
	}
}

// next commits and goes on writing in the cell after, or before; at either end of the table writing ends.
func (t *sceneTable) next(row, column int, back bool) {
	step := 1
	if back {
		step = -1
	}
	at := row*len(t.columns) + column + step
	if at < 0 || at >= len(t.lines)*len(t.columns) {
		t.leave(row, column)
		return
	}
	if t.Commit() { // the focus stays in the editor, which knows whether Shift is down
		t.grid.Point(at/len(t.columns), at%len(t.columns))
		t.write(at%len(t.columns), "")
	}
}

// overCell gives the grid all the room, and lays the editor over its cell.
type overCell struct{ table *sceneTable }

func (l overCell) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

func (l overCell) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Resize(size)
	l.table.place()
}

// cellEntry is the editor: Return, Tab, Up and Down leave the cell, Escape gives up.
type cellEntry struct {
	widget.Entry
	table *sceneTable
	shift bool
}

func newCellEntry(t *sceneTable) *cellEntry {
	e := &cellEntry{table: t}
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab tells Fyne to send Tab here.
func (*cellEntry) AcceptsTab() bool { return true }

// KeyDown is Fyne's; it knows of Shift, which the key events do not tell.
func (e *cellEntry) KeyDown(k *fyne.KeyEvent) {
	if k.Name == desktop.KeyShiftLeft || k.Name == desktop.KeyShiftRight {
		e.shift = true
	}
	e.Entry.KeyDown(k)
}

// KeyUp is Fyne's.
func (e *cellEntry) KeyUp(k *fyne.KeyEvent) {
	if k.Name == desktop.KeyShiftLeft || k.Name == desktop.KeyShiftRight {
		e.shift = false
	}
	e.Entry.KeyUp(k)
}

// TypedKey is Fyne's.
func (e *cellEntry) TypedKey(k *fyne.KeyEvent) {
	if !e.table.key(k.Name, e.shift) {
		e.Entry.TypedKey(k)
	}
}

// FocusLost is Fyne's: a cell that is left is done.
func (e *cellEntry) FocusLost() {
	e.Entry.FocusLost()
	e.shift = false
	e.table.Commit()
}
