package page

import (
	"strings"

	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"
)

// budget is the part of the page of the price with every line: the list at the left, the selected line at the right.
type budget struct {
	edit     Editor
	shown    view.Priced
	rows     []view.BudgetRow
	selected string // the line's id in the budget
	wanted   string // to be selected as soon as it is there
	filling  bool

	list   *widget.List
	start  fyne.CanvasObject // in place of the list while there is no rate card
	text   *widget.Entry     // of a typed line
	more   *widget.Button
	remove *widget.Button
	forget *widget.Button // the changes of lines that are gone
	form   *form
	hours  *grid
	detail *container.Scroll
	object fyne.CanvasObject
}

func newBudget(edit Editor, cards Cards) *budget {
	b := &budget{edit: edit, hours: newGrid()}
	b.list = widget.NewList(func() int { return len(b.rows) }, newBudgetLine, b.fillLine)
	b.list.OnSelected = b.choose
	b.more = widget.NewButtonWithIcon(tongue.Say("Add line"), theme.ContentAddIcon(), b.add)
	b.remove = widget.NewButtonWithIcon(tongue.Say("Delete line"), theme.DeleteIcon(), b.delete)
	b.remove.Importance = widget.LowImportance
	b.forget = widget.NewButton("", b.forgetGone)
	b.forget.Importance = widget.LowImportance
	none := wrapped()
	none.SetText(view.CardLine(plan.Plan{}))
	starter, open := cards.buttons(edit)
	starter.Importance = widget.HighImportance
	b.start = container.NewVBox(none, flowing(starter, open))
	b.form = newForm(edit, func() string { return b.selected })
	b.fields()
	b.detail = container.NewVScroll(measure(b.form.box))
	left := container.NewBorder(container.NewVBox(flowing(b.more, b.remove), container.NewHBox(b.forget)), nil, nil, nil, container.NewStack(b.list, b.start))
	b.object = newTurning(left, b.detail, 0.55, 0.45, 30)
	return b
}

// Object is pricePart's.
func (b *budget) Object() fyne.CanvasObject { return b.object }

// Revert is Reverter's.
func (b *budget) Revert() bool { return b.form.Revert() }

func (b *budget) show(p view.Priced) {
	before := b.index()
	b.shown, b.rows = p, view.BudgetRows(p)
	if b.wanted != "" {
		b.selected, b.wanted = b.wanted, ""
	}
	if b.index() < 0 {
		b.selected = b.near(before)
	}
	gone := view.GoneLines(p)
	b.forget.SetText(view.DropWords(gone))
	setVisible(b.forget, len(gone) > 0)
	setVisible(b.start, len(b.rows) == 0 && p.Plan.Pricing.Card.Empty())
	b.more.Importance = widget.HighImportance
	if b.start.Visible() { // a card comes first
		b.more.Importance = widget.MediumImportance
	}
	b.more.Refresh()
	b.list.Refresh()
	b.mark()
	b.showDetail()
}

// near is a line close to row i; the first where there was none.
func (b *budget) near(i int) string {
	for at := min(max(i, 0), len(b.rows)-1); at >= 0 && at < len(b.rows); at++ {
		if b.rows[at].ID != "" {
			return b.rows[at].ID
		}
	}
	for at := len(b.rows) - 1; at >= 0; at-- {
		if b.rows[at].ID != "" {
			return b.rows[at].ID
		}
	}
	return ""
}

// mark shows in the list which line is selected.
func (b *budget) mark() {
	b.filling = true
	if i := b.index(); i >= 0 {
		b.list.Select(i)
		if i <= 1 { // the head of the first group with it; and not laid out yet, it would scroll to nowhere
			b.list.ScrollToTop()
		}
	} else {
		b.list.UnselectAll()
	}
	b.filling = false
}

func (b *budget) showDetail() {
	setVisible(b.detail, b.selected != "")
	setEnabled(b.remove, b.typed(&b.shown.Plan) != nil)
	b.form.show(&b.shown.Plan)
}

func (b *budget) index() int {
	for i, r := range b.rows {
		if r.ID != "" && r.ID == b.selected {
			return i
		}
	}
	return -1
}

// choose selects the line of a row; the head of a group can't be selected.
func (b *budget) choose(i widget.ListItemID) {
	switch {
	case b.filling || i >= len(b.rows):
	case b.rows[i].ID == "":
		b.mark()
	default:
		b.selected = b.rows[i].ID
		b.detail.ScrollToTop()
		b.showDetail()
	}
}

// newBudgetLine is a row of the list: text and amount, and under them how the amount comes about and what is special.
func newBudgetLine() fyne.CanvasObject {
	text, amount, how, mark := widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
	text.Truncation, how.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	how.SizeName, how.Importance = theme.SizeNameCaptionText, widget.LowImportance
	mark.SizeName, mark.Importance = theme.SizeNameCaptionText, widget.HighImportance
	return container.New(snug{}, container.NewBorder(nil, nil, nil, amount, text), container.NewBorder(nil, nil, nil, mark, how))
}

// snug puts two lines of text close under each other, so that a long budget is seen at a glance.
type snug struct{}

func (snug) MinSize(objects []fyne.CanvasObject) fyne.Size {
	top, foot := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(max(top.Width, foot.Width), top.Height+foot.Height-3*theme.InnerPadding())
}

func (snug) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	half := theme.InnerPadding() / 2
	top, foot := objects[0].MinSize().Height, objects[1].MinSize().Height
	objects[0].Move(fyne.NewPos(0, -half))
	objects[0].Resize(fyne.NewSize(size.Width, top))
	objects[1].Move(fyne.NewPos(0, size.Height-foot+half))
	objects[1].Resize(fyne.NewSize(size.Width, foot))
}

func (b *budget) fillLine(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(b.rows) {
		return
	}
	row := b.rows[i]
	quiet := widget.MediumImportance
	if row.Quiet {
		quiet = widget.LowImportance
	}
	top, foot := o.(*fyne.Container).Objects[0].(*fyne.Container), o.(*fyne.Container).Objects[1].(*fyne.Container)
	head := fyne.TextStyle{Bold: row.ID == ""}
	fill := func(line *fyne.Container, left, right string, style fyne.TextStyle, of [2]widget.Importance) {
		changed := relabel(line.Objects[0].(*widget.Label), left, style, of[0])
		if relabel(line.Objects[1].(*widget.Label), right, style, of[1]) || changed {
			line.Refresh() // what stands at the right takes as much room as its text now wants
		}
	}
	fill(top, row.Text, row.Amount, head, [2]widget.Importance{widget.MediumImportance, quiet})
	fill(foot, row.How, row.Mark, fyne.TextStyle{}, [2]widget.Importance{widget.LowImportance, widget.HighImportance})
}

// relabel shows other words on a label and reports whether they are other ones: to lay words out takes longer than all the
// reckoning, so that only what changed is laid out anew.
func relabel(l *widget.Label, text string, style fyne.TextStyle, importance widget.Importance) bool {
	if l.Text == text && l.TextStyle == style && l.Importance == importance {
		return false
	}
	l.TextStyle, l.Importance = style, importance
	l.SetText(text)
	return true
}

// typed is the selected line in a plan where it is a typed one, else nil.
func (b *budget) typed(p *plan.Plan) *plan.TypedLine {
	for i := range p.Pricing.Lines {
		if p.Pricing.Lines[i].BudgetLine() == b.selected {
			return &p.Pricing.Lines[i]
		}
	}
	return nil
}

// add puts a typed line into the group of the selected one, where one types its text at once.
func (b *budget) add() {
	line, ok := view.BudgetLine(b.shown, b.selected)
	if !ok {
		line.Group = plan.OtherGroup
	}
	if wrong := b.edit(tongue.Say("add line"), "", func(p *plan.Plan) {
		b.wanted = p.Pricing.Lines[p.AddLine(line.Group)].BudgetLine()
	}); len(wrong) > 0 {
		b.wanted = ""
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(b.text); c != nil {
		c.Focus(b.text)
	}
}

// delete takes a typed line out. It can be undone, so it asks nothing.
func (b *budget) delete() {
	id := b.selected
	b.edit(tongue.Say("delete line"), "", func(p *plan.Plan) {
		for i := range p.Pricing.Lines {
			if p.Pricing.Lines[i].BudgetLine() == id {
				p.RemoveLine(i)
				return
			}
		}
	})
}

// forgetGone takes back what was said of lines that are not in the budget any more.
func (b *budget) forgetGone() {
	gone := view.GoneLines(b.shown)
	b.edit(tongue.Say("forget changes"), "", func(p *plan.Plan) {
		for _, line := range gone {
			p.SetOverride(plan.Override{Line: line})
		}
	})
}

func (b *budget) fields() {
	f := b.form
	isTyped := func(p *plan.Plan) bool { return b.typed(p) != nil }
	f.says(tongue.Say("Comes from"), func(*plan.Plan) string { return view.LineSource(b.shown, b.selected) })
	f.says(tongue.Say("Comes to"), func(*plan.Plan) string { return view.LineAmount(b.shown, b.selected) })
	f.only(func(*plan.Plan) bool { return view.LineComputed(b.shown, b.selected) != "" }, func() {
		f.says(tongue.Say("Computed"), func(*plan.Plan) string { return view.LineComputed(b.shown, b.selected) })
	})
	f.only(isTyped, b.typedFields)
	f.only(func(p *plan.Plan) bool { return !isTyped(p) }, b.changeFields)
	f.toggle(tongue.Say("Take it out"), tongue.Say("it counts for nothing"), func(p *plan.Plan) bool { return b.override(p).Out },
		b.setOverride(func(o *plan.Override, on bool) { o.Out = on }))
	f.only(func(p *plan.Plan) bool { _, ok := p.OverrideOf(b.selected); return ok }, func() {
		back := widget.NewButtonWithIcon(tongue.Say("Back to the computed figure"), theme.ContentUndoIcon(), func() {
			id := b.selected
			b.edit(tongue.Say("go back to the computed figure"), "", func(p *plan.Plan) { p.SetOverride(plan.Override{Line: id}) })
		})
		f.row("", container.NewHBox(back))
	})
	hasHours := func(*plan.Plan) bool { return len(b.hours.texts) > 0 }
	f.syncs = append(f.syncs, func(*plan.Plan) { b.hours.set(view.HoursGrid(b.shown, b.selected)) })
	f.only(hasHours, func() {
		f.row(tongue.Say("Hours"), b.hours.object)
		f.says(tongue.Say("Overtime"), func(*plan.Plan) string { return view.LineRule(b.shown, b.selected) })
	})
}

// override is what was said of the selected line.
func (b *budget) override(p *plan.Plan) plan.Override {
	o, _ := p.OverrideOf(b.selected)
	o.Line = b.selected
	return o
}

// setOverride makes an edit of what is said of the selected line.
func (b *budget) setOverride(change func(*plan.Override, bool)) func(*plan.Plan, bool) {
	return func(p *plan.Plan, on bool) {
		o := b.override(p)
		change(&o, on)
		p.SetOverride(o)
	}
}

// changeFields are what the user can say over a computed line.
func (b *budget) changeFields() {
	b.figure(tongue.Say("Quantity"), func(o *plan.Override) **decimal.Decimal { return &o.Quantity })
	b.figure(tongue.Say("Rate"), func(o *plan.Override) **decimal.Decimal { return &o.Rate })
	b.form.choice(tongue.Say("Who pays"), func(p *plan.Plan) []option {
		return append([]option{{"", tongue.Say("as computed")}}, words(plan.Payers)(p)...)
	}, func(p *plan.Plan) string { return string(b.override(p).Pays) }, func(p *plan.Plan, v string) {
		o := b.override(p)
		o.Pays = plan.Payer(v)
		p.SetOverride(o)
	})
	b.form.parsed(tongue.Say("Note"), tongue.Say("why it is otherwise"), func(p *plan.Plan) string { return b.override(p).Note }, func(text string) (func(*plan.Plan), error) {
		return func(p *plan.Plan) {
			o := b.override(p)
			o.Note = text
			p.SetOverride(o)
		}, nil
	})
}

// figure adds a field for a figure in place of a computed one; empty means as computed, and 0 means none.
func (b *budget) figure(label string, at func(*plan.Override) **decimal.Decimal) {
	b.form.parsed(label, tongue.Say("empty: as computed"), func(p *plan.Plan) string {
		o := b.override(p)
		if v := *at(&o); v != nil {
			return printFigure(*v)
		}
		return ""
	}, func(text string) (func(*plan.Plan), error) {
		v, err := parseDecimal(text)
		return func(p *plan.Plan) {
			o := b.override(p)
			*at(&o) = &v
			if strings.TrimSpace(text) == "" {
				*at(&o) = nil
			}
			p.SetOverride(o)
		}, err
	})
}

// typedFields are a typed line itself.
func (b *budget) typedFields() {
	f := b.form
	line := func(p *plan.Plan) *plan.TypedLine {
		if l := b.typed(p); l != nil {
			return l
		}
		return &plan.TypedLine{} // read and written to no purpose while another line is selected
	}
	f.choice(tongue.Say("Group"), words(plan.Groups), func(p *plan.Plan) string { return string(line(p).Group.Or()) },
		func(p *plan.Plan, v string) { line(p).Group = plan.Group(v) })
	f.text(tongue.Say("Text"), tongue.Say("what it is for"), func(p *plan.Plan) *string { return &line(p).Text })
	b.text = f.newest()
	f.decimal(tongue.Say("Quantity"), tongue.Say("how many; empty: none"), func(p *plan.Plan) *decimal.Decimal { return &line(p).Quantity })
	f.text(tongue.Say("Unit"), tongue.Say("day, basket, h"), func(p *plan.Plan) *string { return &line(p).Unit })
	f.decimal(tongue.Say("Rate"), tongue.Say("for each of them"), func(p *plan.Plan) *decimal.Decimal { return &line(p).Rate })
	f.check(tongue.Say("Untaxed"), tongue.Say("its share of the price is not taxed"), func(p *plan.Plan) *bool { return &line(p).Untaxed })
	f.choice(tongue.Say("Who pays"), words(plan.Payers), func(p *plan.Plan) string { return string(line(p).Pays.Or()) },
		func(p *plan.Plan, v string) { line(p).Pays = plan.Payer(v) })
	f.text(tongue.Say("Note"), tongue.Say("for you"), func(p *plan.Plan) *string { return &line(p).Note })
}

// decimal adds a field for an amount or a figure; empty is 0.
func (f *form) decimal(label, hint string, at func(*plan.Plan) *decimal.Decimal) {
	f.parsed(label, hint, func(p *plan.Plan) string { return printDecimal(*at(p)) }, func(text string) (func(*plan.Plan), error) {
		v, err := parseDecimal(text)
		return func(p *plan.Plan) { *at(p) = v }, err
	})
}
