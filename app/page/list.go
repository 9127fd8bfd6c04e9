package page

import (
	"slices"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Lister is a page with a list that the Edit menu works on.
type Lister interface {
	Add()
	Duplicate()
	Shift(by int)
	Delete()
}

// RowCopier is a page with a table, a row of which can be copied for a spreadsheet.
type RowCopier interface{ CopyRow() }

// listPane is a list of the plan's things with its buttons, at the left of a page. It remembers what is selected by id, so
// that undo and reordering keep it.
type listPane struct {
	item     string // what one line is called
	edit     Editor
	ops      listOps
	onSelect func()

	rows     []view.Row
	selected plan.ID
	wanted   plan.ID // to be selected as soon as it is there: what an edit just made
	filling  bool
	first    *widget.Entry // where one types the name of a new thing
	list     *widget.List
	marked   func() []plan.ID // what Duplicate and Delete are about beside the selected thing; may be nil
	fill     func(at int)     // brings what shows the rows up to them, with one selected or -1
	empty    *widget.Label
	bar      *fyne.Container
	drawn    []view.Row // as they were drawn last; none while the list is not laid out
	drawnAt  int
	needRow  []*widget.Button
	object   fyne.CanvasObject
}

// listOps are the edits behind the buttons. add and duplicate return where the new thing is.
type listOps struct {
	id        func(p *plan.Plan, i int) plan.ID
	add       func(p *plan.Plan, at int) int
	duplicate func(p *plan.Plan, i int, in say.Tongue) int
	shift     func(p *plan.Plan, i, by int)
	remove    func(p *plan.Plan, i int)
}

func newListPane(item, empty string, edit Editor, ops listOps, onSelect func()) *listPane {
	l := &listPane{item: item, edit: edit, ops: ops, onSelect: onSelect, empty: widget.NewLabel(empty)}
	l.empty.Wrapping = fyne.TextWrapWord
	l.list = widget.NewList(func() int { return len(l.rows) }, newLine, l.fillLine)
	l.list.OnSelected = func(i widget.ListItemID) {
		if !l.filling && i < len(l.rows) {
			l.selected, l.drawnAt = l.rows[i].ID, i
			l.onSelect()
		}
	}
	button := func(icon fyne.ThemeIconName, do func()) *widget.Button {
		b := widget.NewButtonWithIcon("", theme.Icon(icon), do)
		b.Importance = widget.LowImportance
		return b
	}
	add := widget.NewButtonWithIcon(tongue.Say("Add %s", item), theme.ContentAddIcon(), l.Add)
	add.Importance = widget.HighImportance
	l.needRow = []*widget.Button{
		button(theme.IconNameContentCopy, l.Duplicate),
		button(theme.IconNameMoveUp, func() { l.Shift(-1) }),
		button(theme.IconNameMoveDown, func() { l.Shift(1) }),
		button(theme.IconNameDelete, l.Delete),
	}
	l.bar = flowing(add)
	for _, b := range l.needRow {
		l.bar.Add(b)
	}
	l.fill = l.fillList
	l.object = container.NewBorder(l.bar, nil, nil, nil, container.NewStack(container.NewVBox(l.empty), l.list))
	return l
}

// newLine is one line of the list: title and mark, and a smaller line under them.
func newLine() fyne.CanvasObject {
	title := widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.Truncation = fyne.TextTruncateEllipsis
	mark := widget.NewLabel("")
	mark.Importance = widget.HighImportance
	sub := widget.NewLabel("")
	sub.Truncation = fyne.TextTruncateEllipsis
	sub.SizeName = theme.SizeNameCaptionText
	sub.Importance = widget.LowImportance
	return container.New(tight{}, container.NewBorder(nil, nil, nil, mark, title), sub)
}

func (l *listPane) fillLine(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(l.rows) {
		return
	}
	fillRow(o, l.rows[i])
}

// fillRow writes a row into the line that newLine made.
func fillRow(o fyne.CanvasObject, row view.Row) {
	line := o.(*fyne.Container)
	top := line.Objects[0].(*fyne.Container)
	top.Objects[0].(*widget.Label).SetText(row.Title)
	top.Objects[1].(*widget.Label).SetText(row.Mark)
	line.Objects[1].(*widget.Label).SetText(row.Sub)
	top.Refresh() // the mark takes as much room as its text now wants
}

// show brings the list up to the state and keeps something selected as long as there is something.
func (l *listPane) show(rows []view.Row) {
	before := l.index()
	l.rows = rows
	if l.wanted != "" {
		l.selected, l.wanted = l.wanted, ""
	}
	if l.index() < 0 && len(rows) > 0 {
		l.selected = rows[min(max(before, 0), len(rows)-1)].ID
	}
	if l.index() < 0 {
		l.selected = ""
	}
	l.fill(l.index())
	for _, b := range l.needRow {
		if len(rows) == 0 {
			b.Disable()
		} else {
			b.Enable()
		}
	}
}

// fillList draws the rows. Where they are as they were drawn last, it leaves the list alone: every key typed beside it comes here.
func (l *listPane) fillList(at int) {
	laidOut := l.list.Size().Height >= 4*theme.TextSize()
	if laidOut && l.drawnAt == at && slices.Equal(l.drawn, l.rows) {
		return
	}
	l.drawn, l.drawnAt = nil, at
	if laidOut {
		l.drawn = slices.Clone(l.rows)
	}
	l.filling = true
	setVisible(l.empty, len(l.rows) == 0)
	l.list.Refresh()
	if at >= 0 {
		l.list.Select(at)
		if !laidOut { // it would scroll to nowhere
			l.list.ScrollToTop()
		}
	} else {
		l.list.UnselectAll()
	}
	l.filling = false
}

func (l *listPane) index() int {
	for i, r := range l.rows {
		if r.ID == l.selected {
			return i
		}
	}
	return -1
}

// do runs one of the list's edits and selects what it made.
func (l *listPane) do(name string, f func(p *plan.Plan) int) {
	wrong := l.edit(name, "", func(p *plan.Plan) {
		if at := f(p); at >= 0 {
			l.wanted = l.ops.id(p, at)
		}
	})
	if len(wrong) > 0 {
		l.wanted = ""
	}
}

// Add puts a new thing after the selected one.
func (l *listPane) Add() {
	at := l.index() + 1
	if l.index() < 0 {
		at = len(l.rows)
	}
	l.do(tongue.Say("add %s", l.item), func(p *plan.Plan) int { return l.ops.add(p, at) })
	if l.first != nil { // type its name at once
		if c := fyne.CurrentApp().Driver().CanvasForObject(l.first); c != nil {
			c.Focus(l.first)
		}
	}
}

// chosen is where those things are that Duplicate and Delete are about.
func (l *listPane) chosen() (at []int) {
	ids := []plan.ID{l.selected}
	if l.marked != nil {
		ids = append(ids, l.marked()...)
	}
	for i, r := range l.rows {
		if slices.Contains(ids, r.ID) {
			at = append(at, i)
		}
	}
	return at
}

// doAll makes one edit of what is chosen, if anything is, by the name for one thing or for several.
func (l *listPane) doAll(chosen []int, one, several string, f func(*plan.Plan) int) {
	switch len(chosen) {
	case 0:
	case 1:
		l.do(one, f)
	default:
		l.do(several, f)
	}
}

// Duplicate copies what is chosen, each thing to right after it.
func (l *listPane) Duplicate() {
	chosen := l.chosen()
	l.doAll(chosen, tongue.Say("duplicate %s", l.item), tongue.Say("duplicate %d rows", len(chosen)), func(p *plan.Plan) (at int) {
		for made, i := range chosen {
			at = l.ops.duplicate(p, i+made, tongue.Current())
		}
		return at
	})
}

// Shift moves the selected thing up or down.
func (l *listPane) Shift(by int) {
	if i := l.index(); i >= 0 && i+by >= 0 && i+by < len(l.rows) {
		l.do(tongue.Say("move %s", l.item), func(p *plan.Plan) int { l.ops.shift(p, i, by); return -1 })
	}
}

// Delete takes out what is chosen. It can be undone, so it asks nothing.
func (l *listPane) Delete() {
	chosen := l.chosen()
	l.doAll(chosen, tongue.Say("delete %s", l.item), tongue.Say("delete %d rows", len(chosen)), func(p *plan.Plan) int {
		for _, i := range slices.Backward(chosen) {
			l.ops.remove(p, i)
		}
		return min(chosen[0], len(l.rows)-len(chosen)-1) // what stands there now, or is the last
	})
}

// tight stacks objects with less air than a box does, for two lines of text that belong together.
type tight struct{}

func (tight) overlap() float32 { return 2 * theme.InnerPadding() * 0.6 }

func (t tight) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size.Width = max(size.Width, o.MinSize().Width)
		size.Height += o.MinSize().Height
	}
	size.Height -= t.overlap() * float32(len(objects)-1)
	return size
}

func (t tight) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		h := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h - t.overlap()
	}
}
