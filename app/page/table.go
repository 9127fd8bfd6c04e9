package page

import (
	"cmp"
	"fmt"

	"eavelight/app/tongue"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// column is one column of a small table: what it is called, how wide it is against the others, and how item i of the plan is
// read and changed there. Its cells are entries, with words to pick from where it suggests some; or drop-downs, where it has
// options; or ticks, where it ticks.
type column struct {
	head    string
	called  string // what an edit calls it, where the head says more
	hint    string
	share   float32
	get     func(p *plan.Plan, i int) string
	exact   func(p *plan.Plan, i int) string // where get rounds: see bound
	parse   func(text string) (func(p *plan.Plan, i int), error)
	suggest []string
	options func(*plan.Plan) []option
	ticks   bool // get and parse speak of yes, or of nothing
}

// table is a list of like things, one a row, each cell an entry, with buttons to add one, to move one up and to take one out.
type table struct {
	item    string // what one row is called: "face"
	count   func(*plan.Plan) int
	add     func(*plan.Plan)
	raise   func(*plan.Plan, int) // moves a row one up; nil where the order means nothing
	remove  func(*plan.Plan, int)
	columns []column
}

// raised makes a raise of a list in the plan.
func raised[T any](list func(*plan.Plan) []T) func(*plan.Plan, int) {
	return func(p *plan.Plan, i int) { plan.Shift(list(p), i, -1) }
}

func (f *form) table(label string, t table) {
	v := &tableView{form: f, table: t, rows: container.NewVBox()}
	room := v.buttons(-1) // of the rows, so that the heads stand over their columns
	v.heads = t.line(overCells{&cells{columns: t.columns}}, t.heads(), container.New(onlyRoom{}, room))
	add := widget.NewButtonWithIcon(tongue.Say("Add %s", t.item), theme.ContentAddIcon(), func() { f.edit(tongue.Say("add %s", t.item), "", t.add) })
	add.Importance = widget.LowImportance
	f.syncs = append(f.syncs, v.show)
	f.row(label, container.NewVBox(v.heads, v.rows, container.NewHBox(add)))
}

// line lays cells out by their columns, with something small at the right end.
func (t table) line(how fyne.Layout, objects []fyne.CanvasObject, end fyne.CanvasObject) *fyne.Container {
	return container.NewBorder(nil, nil, nil, container.NewVBox(end), container.New(how, objects...))
}

// tableView is a table on screen: its rows are made when first needed and hidden when not.
type tableView struct {
	form  *form
	table table
	heads fyne.CanvasObject
	rows  *fyne.Container
	shown int // how many of the rows
	cells [][]*bound
	syncs [][]func(*plan.Plan) // of the cells that are no entries
}

func (v *tableView) show(p *plan.Plan) {
	n := v.table.count(p)
	for len(v.cells) < n {
		v.addRow(len(v.cells))
	}
	subject := v.form.subject()
	for i, row := range v.rows.Objects {
		setVisible(row, i < n)
		if i >= n {
			continue
		}
		for _, cell := range v.cells[i] {
			cell.sync(p, subject)
		}
		for _, sync := range v.syncs[i] {
			sync(p)
		}
	}
	setVisible(v.heads, n > 0)
	setVisible(v.rows, n > 0) // they would take a gap, and the label stand higher than the button
	if n != v.shown {         // what takes other room within a row the form sees to
		v.shown = n
		v.rows.Refresh()
	}
}

func (v *tableView) addRow(i int) {
	v.cells, v.syncs = append(v.cells, nil), append(v.syncs, nil)
	var shown, complaints []fyne.CanvasObject
	for _, c := range v.table.columns {
		o, wrong := v.cell(i, c)
		shown, complaints = append(shown, o), append(complaints, wrong)
	}
	v.rows.Add(container.NewVBox(append([]fyne.CanvasObject{v.table.line(&cells{columns: v.table.columns}, append(shown, v.table.ownHeads()...), v.buttons(i))}, complaints...)...))
}

// cell makes the cell of a column in row i, and the line for why it was refused.
func (v *tableView) cell(i int, c column) (cell, wrong fyne.CanvasObject) {
	read := func(get func(*plan.Plan, int) string) func(*plan.Plan) string {
		return func(p *plan.Plan) string {
			if i >= v.table.count(p) {
				return ""
			}
			return get(p, i)
		}
	}
	get := read(c.get)
	label := tongue.Say("in a table|%s %s", v.table.item, lower(cmp.Or(c.called, c.head)))
	change := func(text string) (func(*plan.Plan), error) {
		change, err := c.parse(text)
		return v.within(i, func(p *plan.Plan) { change(p, i) }), err
	}
	if c.options == nil && !c.ticks {
		e := widget.NewEntry()
		cell = e
		if c.suggest != nil {
			s := widget.NewSelectEntry(c.suggest)
			e, cell = &s.Entry, s
		}
		b := newBound(e, c.hint, get, func(text string) string {
			return v.form.commit(label, fmt.Sprint(label, i), text, change)
		})
		if c.exact != nil {
			b.exact = read(c.exact)
		}
		v.cells[i] = append(v.cells[i], b)
		v.form.fields = append(v.form.fields, b)
		return cell, b.wrong
	}
	why := told()
	choose := func(value string) {
		edit, _ := change(value) // one of the values that it gave
		v.form.attempt(label, why, edit)
	}
	var sync func(*plan.Plan)
	if c.ticks {
		cell, sync = tick("", func(p *plan.Plan) bool { return get(p) == yes }, func(on bool) { choose(yesIf(on)) })
	} else {
		cell, sync = dropDown(c.options, get, choose)
	}
	v.syncs[i] = append(v.syncs[i], sync)
	return cell, why
}

// within keeps an edit of row i from a plan that has no such row: undo takes rows away under the cursor.
func (v *tableView) within(i int, edit func(*plan.Plan)) func(*plan.Plan) {
	return func(p *plan.Plan) {
		if i < v.table.count(p) {
			edit(p)
		}
	}
}

// buttons are what stands at the end of row i.
func (v *tableView) buttons(i int) fyne.CanvasObject {
	button := func(icon fyne.ThemeIconName, name string, do func(*plan.Plan, int)) *widget.Button {
		b := widget.NewButtonWithIcon("", theme.Icon(icon), func() {
			for _, row := range v.cells { // the rows change places: what was not taken goes with none of them
				for _, cell := range row {
					cell.fresh = true
				}
			}
			v.form.edit(name, "", v.within(i, func(p *plan.Plan) { do(p, i) }))
		})
		b.Importance = widget.LowImportance
		return b
	}
	bar := container.NewHBox()
	if v.table.raise != nil {
		up := button(theme.IconNameMoveUp, tongue.Say("move %s", v.table.item), v.table.raise)
		if i == 0 {
			up.Disable()
		}
		bar.Add(up)
	}
	bar.Add(button(theme.IconNameDelete, tongue.Say("delete %s", v.table.item), v.table.remove))
	return bar
}

// onlyRoom takes the room of what is in it and shows nothing.
type onlyRoom struct{}

func (onlyRoom) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(objects[0].MinSize().Width, 0)
}

func (onlyRoom) Layout(objects []fyne.CanvasObject, _ fyne.Size) { objects[0].Hide() }

// byShare lays objects out side by side, each as wide as its share.
type byShare []float32

func (s byShare) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		size.Height = max(size.Height, o.MinSize().Height)
		size.Width += 40 + theme.Padding()
	}
	return size
}

func (s byShare) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	var all float32
	for _, share := range s {
		all += share
	}
	room := size.Width - theme.Padding()*float32(len(objects)-1)
	x := float32(0)
	for i, o := range objects {
		w := room * s[i] / all
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w, size.Height))
		x += w + theme.Padding()
	}
}
