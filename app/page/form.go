// Package page holds the window's pages. A page builds its widgets once, shows a state, and sends named edits; it keeps no
// truth of its own but what is selected and how far it is scrolled.
package page

import (
	"slices"
	"strconv"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Page is one page of the window.
type Page interface {
	Object() fyne.CanvasObject
	Show(session.State)
}

// Dropper is a page that may take a file dropped on the window.
type Dropper interface {
	// Drop takes a file, and reports whether it did.
	Drop(path string) bool
}

// Escaper is a page over which something may lie that Escape closes.
type Escaper interface {
	// Escape closes it, and reports whether there was anything.
	Escape() bool
}

// Editor sends a named edit to the session and hears what would be wrong with it.
type Editor func(name, key string, f func(*plan.Plan)) plan.Problems

// newSelect is Fyne's, which says "(Select one)" in English alone.
func newSelect(options []string, chosen func(string)) *widget.Select {
	s := widget.NewSelect(options, chosen)
	s.PlaceHolder = tongue.Say("(Select one)")
	return s
}

// form is a column of labelled fields, each bound to one place in the plan. Every keystroke that makes sense is an edit;
// one that does not leaves the plan as it is and says why under the field.
type form struct {
	edit    Editor
	subject func() string // what the fields are about: changes when another scene is selected
	box     *fyne.Container
	syncs   []func(p *plan.Plan)
	fields  []*bound
	last    *plan.Plan  // as shown last
	room    []fyne.Size // that the objects took when they were laid out last; negative: not shown
	again   bool        // complaining fields are being tried again
}

// Reverter is a page on which text can stand that made no sense and was not taken.
type Reverter interface {
	// Revert puts back what the plan says wherever such text stands, and reports whether there was any.
	Revert() bool
}

// Committer is a page on which something can be half written, that is no edit yet.
type Committer interface {
	// Commit makes an edit of it, and reports whether nothing is half written any more.
	Commit() bool
}

// Revert is Reverter's.
func (f *form) Revert() bool {
	any := false
	for _, b := range f.fields {
		any = b.revert() || any
	}
	return any
}

func newForm(edit Editor, subject func() string) *form {
	if subject == nil {
		subject = func() string { return "" }
	}
	return &form{edit: edit, subject: subject, box: container.New(&fields{})}
}

// show brings every field up to the plan.
func (f *form) show(p *plan.Plan) {
	f.last = p
	for _, sync := range f.syncs {
		sync(p)
	}
	f.lay()
}

// lay lays the fields out where one of them came, went or takes other room than before. To do so with every key would draw all of them
// anew: what changed in a field it draws itself.
func (f *form) lay() {
	var room []fyne.Size
	for _, o := range f.box.Objects {
		size := fyne.NewSize(-1, -1)
		if o.Visible() {
			size = o.MinSize()
		}
		room = append(room, size)
	}
	if !slices.Equal(room, f.room) {
		f.room = room
		f.box.Refresh()
	}
}

func (f *form) row(label string, o fyne.CanvasObject) {
	l := widget.NewLabel(label)
	l.Alignment = fyne.TextAlignTrailing
	f.put(container.NewVBox(l), o)
}

// beside puts the fields that follow beside those before, where there is room for two columns; those before take a share of it.
func (f *form) beside(share float32) {
	l := f.box.Layout.(*fields)
	l.second, l.first = len(f.box.Objects), share
}

// put adds objects while the page is built. The container's own Add would lay out all fields anew for each: half of the time that it
// takes to open a plan.
func (f *form) put(objects ...fyne.CanvasObject) { f.box.Objects = append(f.box.Objects, objects...) }

// only adds the fields that fill builds, and shows them when the plan says so.
func (f *form) only(when func(*plan.Plan) bool, fill func()) {
	from := len(f.box.Objects)
	fill()
	mine := slices.Clone(f.box.Objects[from:])
	f.syncs = append(f.syncs, func(p *plan.Plan) {
		on := when(p)
		for _, o := range mine {
			setVisible(o, on)
		}
	})
}

// newest is the entry of the field added last.
func (f *form) newest() *widget.Entry { return f.fields[len(f.fields)-1].Entry }

// heading starts a group of fields.
func (f *form) heading(text string) {
	f.put(widget.NewLabel(""), widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
}

// area is an entry of some lines that lets Tab through to the next field, as a form is walked by keyboard.
type area struct{ widget.Entry }

func newArea(lines int) *area {
	a := &area{}
	a.MultiLine = true
	a.Wrapping = fyne.TextWrapWord
	a.ExtendBaseWidget(a)
	a.SetMinRowsVisible(lines)
	return a
}

// AcceptsTab tells Fyne to move the focus on.
func (*area) AcceptsTab() bool { return false }

// bound is an entry that shows one value of the plan and edits it.
type bound struct {
	*widget.Entry
	wrong   *widget.Label
	get     func(*plan.Plan) string
	exact   func(*plan.Plan) string // the value, where get shows it rounded; nil otherwise
	shown   string
	value   string // what exact said of what is shown
	subject string
	fresh   bool // nothing shown yet
	own     bool // the plan has its value from this entry
	typing  bool // the edit under way is this entry's own: leave its text alone
	setting bool // the change under way is ours, not the user's
}

func newBound(e *widget.Entry, hint string, get func(*plan.Plan) string, commit func(text string) string) *bound {
	b := &bound{Entry: e, get: get, fresh: true, wrong: told()}
	e.SetPlaceHolder(hint)
	e.OnChanged = func(text string) {
		if b.setting {
			return
		}
		if b.exact != nil && text == b.shown && !b.own && !b.fresh { // what was shown rounded is kept as it is
			b.complain("")
			return
		}
		b.typing = true
		complaint := commit(text)
		b.own = b.own || complaint == ""
		b.complain(complaint)
		b.typing = false
	}
	return b
}

func (b *bound) complain(words string) {
	if words != b.wrong.Text {
		b.wrong.SetText(words)
	}
	setVisible(b.wrong, words != "")
}

// revert puts back the plan's value in place of text that was not taken.
func (b *bound) revert() bool {
	if !b.wrong.Visible() {
		return false
	}
	b.complain("")
	b.setting = true
	b.SetText(b.shown)
	b.setting = false
	return true
}

// sync shows the plan's value, unless it is what the entry shows already or what the user is just typing.
func (b *bound) sync(p *plan.Plan, subject string) {
	now, value := b.get(p), ""
	if b.exact != nil {
		value = b.exact(p)
	}
	if !b.fresh && subject == b.subject && now == b.shown && value == b.value {
		return
	}
	b.fresh, b.subject, b.shown, b.value = false, subject, now, value
	if b.typing {
		return
	}
	b.own = false
	b.complain("")
	if b.Text != now {
		b.setting = true
		b.SetText(now)
		b.setting = false
	}
}

// parsed adds an entry whose text is read by parse, which gives the edit to make or the reason why the text makes no sense.
func (f *form) parsed(label, hint string, get func(*plan.Plan) string, parse func(string) (func(*plan.Plan), error)) {
	e := widget.NewEntry()
	f.add(label, e, e, hint, get, parse)
}

// text adds a one-line entry for a text.
func (f *form) text(label, hint string, at func(*plan.Plan) *string) {
	f.parsed(label, hint, textOf(at), setText(at))
}

// long adds an entry of some lines for a text.
func (f *form) long(label, hint string, lines int, at func(*plan.Plan) *string) {
	e := newArea(lines)
	f.add(label, e, &e.Entry, hint, textOf(at), setText(at))
}

// textOf reads the place that at points to; at returns nil where there is nothing selected.
func textOf(at func(*plan.Plan) *string) func(*plan.Plan) string {
	return func(p *plan.Plan) string {
		if s := at(p); s != nil {
			return *s
		}
		return ""
	}
}

func setText(at func(*plan.Plan) *string) func(string) (func(*plan.Plan), error) {
	return func(text string) (func(*plan.Plan), error) {
		return func(p *plan.Plan) {
			if s := at(p); s != nil {
				*s = text
			}
		}, nil
	}
}

// add adds a field; shown is the entry itself or what extends it.
func (f *form) add(label string, shown fyne.CanvasObject, e *widget.Entry, hint string, get func(*plan.Plan) string, parse func(string) (func(*plan.Plan), error)) {
	f.row(label, container.NewVBox(shown, f.bind(label, e, hint, get, parse).wrong))
}

// bind has an entry show a value of the plan and edit it.
func (f *form) bind(label string, e *widget.Entry, hint string, get func(*plan.Plan) string, parse func(string) (func(*plan.Plan), error)) *bound {
	b := newBound(e, hint, get, func(text string) string { return f.commit(label, label, text, parse) })
	f.syncs = append(f.syncs, func(p *plan.Plan) { b.sync(p, f.subject()) })
	f.fields = append(f.fields, b)
	return b
}

// commit parses a text and makes the edit. It returns the complaint, or nothing.
func (f *form) commit(label, key, text string, parse func(string) (func(*plan.Plan), error)) string {
	change, err := parse(text)
	if err != nil {
		return tongue.Error(err)
	}
	if wrong := f.edit(tongue.Say("change %s", lower(label)), key+"/"+f.subject(), change); len(wrong) > 0 {
		return tongue.Of(wrong[0])
	}
	f.retry()
	return ""
}

// retry tries the fields again whose text was refused: one of a pair may fit now that the other has changed.
func (f *form) retry() {
	if f.again {
		return
	}
	f.again = true
	for _, b := range f.fields {
		if b.wrong.Visible() && b.Visible() && b.Text != b.shown {
			b.OnChanged(b.Text)
		}
	}
	f.again = false
}

// told is a line for why a choice was refused, hidden while there is nothing to say.
func told() *widget.Label {
	l := widget.NewLabel("")
	l.Importance = widget.DangerImportance
	l.Wrapping = fyne.TextWrapWord
	l.Hide()
	return l
}

// attempt makes an edit that a choice asks for. A refused one is told, and the field shows the plan's value again.
func (f *form) attempt(label string, why *widget.Label, change func(*plan.Plan)) {
	wrong := f.edit(tongue.Say("change %s", lower(label)), "", change)
	why.Hide()
	if len(wrong) > 0 {
		why.SetText(tongue.Of(wrong[0]))
		why.Show()
		f.show(f.last)
	}
}

// choice adds a drop-down. options gives, for the plan as it is, the values and how they are called.
func (f *form) choice(label string, options func(*plan.Plan) []option, get func(*plan.Plan) string, set func(*plan.Plan, string)) {
	why := told()
	s, sync := dropDown(options, get, func(value string) {
		f.attempt(label, why, func(p *plan.Plan) { set(p, value) })
	})
	f.syncs = append(f.syncs, sync)
	f.row(label, container.NewVBox(s, why))
}

// dropDown makes a drop-down, and what brings it up to the plan. choose hears of the user's choice.
func dropDown(options func(*plan.Plan) []option, get func(*plan.Plan) string, choose func(value string)) (fyne.CanvasObject, func(*plan.Plan)) {
	var values []option
	setting := false
	s := newSelect(nil, nil)
	s.OnChanged = func(string) {
		if i := s.SelectedIndex(); !setting && i >= 0 {
			choose(values[i].value)
		}
	}
	return framed(s), func(p *plan.Plan) {
		values = distinct(options(p))
		names, at := make([]string, len(values)), -1
		for i, o := range values {
			names[i] = o.name
			if o.value == get(p) {
				at = i
			}
		}
		setting = true
		if !slices.Equal(names, s.Options) {
			s.SetOptions(names)
		}
		switch {
		case at < 0 && s.Selected != "": // it may be no option any more
			s.ClearSelected()
		case at != s.SelectedIndex():
			s.SetSelectedIndex(at)
		}
		setting = false
	}
}

// tick makes a tick, and what brings it up to the plan. choose hears of the user's choice.
func tick(text string, is func(*plan.Plan) bool, choose func(on bool)) (fyne.CanvasObject, func(*plan.Plan)) {
	setting := false
	c := newTicked(text, func(on bool) {
		if !setting {
			choose(on)
		}
	})
	return c.object, func(p *plan.Plan) {
		setting = true
		c.tick.SetChecked(is(p))
		setting = false
	}
}

// option is one thing to choose: its value in the plan and its name on screen.
type option struct{ value, name string }

// distinct makes the names of options differ, as a drop-down knows its options by name only.
func distinct(in []option) []option {
	seen := map[string]int{}
	for i := range in {
		name := in[i].name
		if seen[name]++; seen[name] > 1 {
			in[i].name = name + " (" + strconv.Itoa(seen[name]) + ")"
		}
	}
	return in
}

// value is a word of the plan file that can be said in the reader's tongue.
type value interface {
	~string
	In(say.Tongue) string
}

// words makes options of the words that a value can be.
func words[T value](all []T) func(*plan.Plan) []option {
	out := make([]option, len(all))
	for i, w := range all {
		out[i] = option{string(w), tongue.Of(w)}
	}
	return func(*plan.Plan) []option { return out }
}

// check adds a tick for a truth of the plan.
func (f *form) check(label, text string, at func(*plan.Plan) *bool) {
	f.toggle(label, text, func(p *plan.Plan) bool {
		b := at(p)
		return b != nil && *b
	}, func(p *plan.Plan, on bool) {
		if b := at(p); b != nil {
			*b = on
		}
	})
}

// toggle adds a tick that is on when the plan says so.
func (f *form) toggle(label, text string, is func(*plan.Plan) bool, set func(*plan.Plan, bool)) {
	why := told()
	c, sync := tick(text, is, func(on bool) {
		f.attempt(label, why, func(p *plan.Plan) { set(p, on) })
	})
	f.syncs = append(f.syncs, sync)
	f.row(label, container.NewVBox(c, why))
}

// ticks adds a tick for each thing that can be in a list of the plan.
func (f *form) ticks(label, empty string, columns int, options func(*plan.Plan) []option, list func(*plan.Plan) *[]plan.ID) {
	f.ticksOf(label, empty, columns, options, func(p *plan.Plan, id plan.ID) bool {
		ids := list(p)
		return ids != nil && slices.Contains(*ids, id)
	}, func(p *plan.Plan, id plan.ID, on bool) {
		if ids := list(p); ids != nil {
			*ids = switched(*ids, id, on)
		}
	})
}

// ticksOf adds a tick for each of some options, of which any number can be on. empty is said where there are no options.
func (f *form) ticksOf(label, empty string, columns int, options func(*plan.Plan) []option,
	is func(*plan.Plan, plan.ID) bool, set func(*plan.Plan, plan.ID, bool)) {
	grid := container.New(&ranks{most: columns})
	none := widget.NewLabel(empty)
	none.Importance = widget.LowImportance
	var checks []*ticked
	var values []option
	setting, why := false, told()
	toggle := func(i int) func(bool) {
		return func(on bool) {
			if !setting && i < len(values) {
				id := plan.ID(values[i].value)
				f.attempt(label, why, func(p *plan.Plan) { set(p, id, on) })
			}
		}
	}
	f.syncs = append(f.syncs, func(p *plan.Plan) {
		values = options(p)
		for len(checks) < len(values) {
			c := newTicked("", toggle(len(checks)))
			checks = append(checks, c)
			grid.Add(c.object)
		}
		setting = true
		for i, c := range checks {
			setVisible(c.object, i < len(values))
			if i < len(values) {
				c.say(values[i].name)
				c.tick.SetChecked(is(p, plan.ID(values[i].value)))
			}
		}
		setting = false
		setVisible(none, len(values) == 0)
	})
	f.row(label, container.NewVBox(container.NewStack(none, grid), why))
}

// switched puts an id into a list or takes it out; the others keep their order.
func switched(ids []plan.ID, id plan.ID, on bool) []plan.ID {
	var out []plan.ID
	for _, x := range ids {
		if x != id {
			out = append(out, x)
		}
	}
	if on {
		out = append(out, id)
	}
	return out
}

// says adds a line of text that follows the plan.
func (f *form) says(label string, text func(*plan.Plan) string) {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	f.syncs = append(f.syncs, func(p *plan.Plan) { l.SetText(text(p)) })
	f.row(label, l)
}

func setVisible(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}
