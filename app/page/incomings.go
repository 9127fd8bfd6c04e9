package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// incomings is the list of the people of a file, each with a tick and what would be done with them. Only the lines in sight
// are made, so that a thousand are as quick as ten.
type incomings struct {
	changed func()
	any     bool            // who has nothing new can be ticked too
	all     []view.Incoming // the panel's own, so that a tick is seen there
	rows    []int           // those shown
	noted   bool            // one of them at least has a note: then all lines have room for one, as a list is slow with lines of many heights
	kind    view.IncomingKind
	kinds   []view.IncomingKind // behind the options of only; "" is everybody

	find    *widget.Entry
	list    *widget.List
	only    *widget.Select
	empty   *widget.Label
	bar     *fyne.Container
	object  *fyne.Container
	setting bool
}

func newIncomings(changed func()) *incomings {
	s := &incomings{changed: changed, find: widget.NewEntry(), empty: widget.NewLabel(tongue.Say("Nobody is found."))}
	s.find.SetPlaceHolder(tongue.Say("Find: a name, a part, a note"))
	s.find.OnChanged = func(string) {
		s.filter()
		s.list.ScrollToTop()
	}
	s.list = widget.NewList(func() int { return len(s.rows) }, s.newLine, s.fill)
	s.list.OnSelected = func(i widget.ListItemID) { // a press beside the tick, or the blank of the keyboard
		s.list.UnselectAll()
		if in := s.at(i); in != nil && s.ticks(in) {
			s.turn(i, !in.On)
			s.list.RefreshItem(i)
		}
	}
	s.only = newSelect(nil, func(string) {
		if i := s.only.SelectedIndex(); i >= 0 && !s.setting {
			s.kind = s.kinds[i]
			s.filter()
			s.list.ScrollToTop()
		}
	})
	sure := widget.NewButton(tongue.Say("Tick all that are sure"), func() { s.tickAll(true) })
	none := widget.NewButton(tongue.Say("Tick none"), func() { s.tickAll(false) })
	s.bar = container.NewHBox(widget.NewLabel(tongue.Say("Show")), framed(s.only), sure, none)
	s.empty.Importance = widget.LowImportance
	s.object = container.NewBorder(s.find, nil, nil, nil, container.NewStack(s.list, s.empty))
	return s
}

// clear shows nobody, and looks for nobody.
func (s *incomings) clear() {
	s.find.SetText("")
	s.show(nil)
}

// show shows other people, of all kinds where there is nobody of the kind shown.
func (s *incomings) show(all []view.Incoming) {
	s.all = all
	n := view.CountIncoming(all)
	if n[s.kind] == 0 {
		s.kind = ""
	}
	names, at := []string{tongue.Say("everybody")}, 0
	s.kinds = []view.IncomingKind{""}
	for _, k := range view.IncomingKinds {
		if n[k] == 0 {
			continue
		}
		if k == s.kind {
			at = len(s.kinds)
		}
		s.kinds, names = append(s.kinds, k), append(names, view.IncomingCount(k, n[k]))
	}
	s.setting = true
	s.only.SetOptions(names)
	s.only.SetSelectedIndex(at)
	s.setting = false
	s.filter()
}

func (s *incomings) filter() {
	s.rows, s.noted = s.rows[:0], false
	for i, in := range s.all {
		if (s.kind == "" || in.Kind == s.kind) && in.Has(s.find.Text) {
			s.rows = append(s.rows, i)
			s.noted = s.noted || in.Note != ""
		}
	}
	setVisible(s.empty, len(s.rows) == 0)
	s.list.Refresh()
}

// at is the person on a line, nil where there is none.
func (s *incomings) at(line int) *view.Incoming {
	if line < 0 || line >= len(s.rows) {
		return nil
	}
	return &s.all[s.rows[line]]
}

func (s *incomings) turn(line int, on bool) {
	in := s.at(line)
	if in == nil {
		return
	}
	in.On = on
	if on {
		view.TickGuardian(s.all, s.rows[line])
		s.list.Refresh()
	}
	s.changed()
}

// ticks reports whether somebody can be ticked.
func (s *incomings) ticks(in *view.Incoming) bool { return s.any || len(in.Offers) > 0 }

// tickAll ticks whoever of those shown is in no doubt, or nobody of them.
func (s *incomings) tickAll(on bool) {
	for i := range s.rows {
		in := s.at(i)
		in.On = on && len(in.Offers) > 0 && (in.On || in.Sure())
	}
	s.list.Refresh()
	s.changed()
}

// incomingLine is one line of the list.
type incomingLine struct {
	widget.BaseWidget
	tick  *widget.Check
	name  *widget.Label
	note  *widget.Label
	facts *widget.Label
	said  *fyne.Container // name, facts, and the note where there is one
	what  *widget.Label   // where there is one thing to be done
	offer *widget.Select  // where there are several
}

func (s *incomings) newLine() fyne.CanvasObject {
	label := func() *widget.Label {
		l := widget.NewLabel("")
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	l := &incomingLine{tick: widget.NewCheck("", nil), name: label(), note: label(), facts: label(), what: label(), offer: newSelect(nil, nil)}
	l.name.TextStyle.Bold = true
	for _, small := range []*widget.Label{l.note, l.facts} {
		small.SizeName = theme.SizeNameCaptionText
	}
	l.said = container.New(tight{}, l.name, l.facts)
	if s.noted {
		l.said.Add(l.note)
	}
	l.ExtendBaseWidget(l)
	return l
}

// says shows words in a label, which measures them only where they are others.
func says(l *widget.Label, words string, importance widget.Importance) {
	if l.Text != words || l.Importance != importance {
		l.Text, l.Importance = words, importance
		l.Refresh()
	}
}

// noted shows the note under the facts, or leaves it out.
func (l *incomingLine) noted(on bool) {
	if with := len(l.said.Objects) == 3; with == on {
		return
	}
	l.said.Objects = []fyne.CanvasObject{l.name, l.facts}
	if on {
		l.said.Objects = append(l.said.Objects, l.note)
	}
	l.said.Refresh()
}

// CreateRenderer is Fyne's.
func (l *incomingLine) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(incomingRow{}, l.tick, l.said, container.NewStack(l.what, l.offer)))
}

// incomingRow lays a tick at the left, and what is to be done at the right, however long its words are.
type incomingRow struct{}

func (incomingRow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(300, objects[1].MinSize().Height)
}

func (incomingRow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	tick := objects[0].MinSize()
	right := (size.Width - tick.Width) * 0.42
	put := func(o fyne.CanvasObject, x, width, height float32) {
		o.Move(fyne.NewPos(x, (size.Height-height)/2))
		o.Resize(fyne.NewSize(width, height))
	}
	put(objects[0], 0, tick.Width, tick.Height)
	put(objects[1], tick.Width, size.Width-tick.Width-right, size.Height)
	put(objects[2], size.Width-right, right, objects[2].MinSize().Height)
}

// offers shows what can be chosen.
func (l *incomingLine) offers(in *view.Incoming) {
	var words []string
	for _, offer := range in.Offers {
		words = append(words, offer.Words)
	}
	l.offer.SetOptions(words)
	l.offer.SetSelectedIndex(in.Chosen)
}

func (s *incomings) fill(i widget.ListItemID, o fyne.CanvasObject) {
	in := s.at(i)
	if in == nil {
		return
	}
	l := o.(*incomingLine)
	l.tick.OnChanged, l.offer.OnChanged = nil, nil // what is set here is not the user's
	importance := widget.LowImportance
	if in.Kind == view.Undecided {
		importance = widget.WarningImportance
	}
	says(l.name, in.Name, widget.MediumImportance)
	says(l.facts, in.Facts, widget.LowImportance)
	says(l.note, in.Note, importance)
	l.noted(in.Note != "")
	setVisible(l.offer, len(in.Offers) > 1)
	setVisible(l.what, len(in.Offers) < 2)
	l.tick.SetChecked(in.On)
	if !s.ticks(in) {
		l.tick.Disable()
		says(l.what, tongue.Say("nothing new"), widget.MediumImportance)
		return
	}
	l.tick.Enable()
	switch len(in.Offers) {
	case 0:
		says(l.what, tongue.Say("nothing new"), widget.MediumImportance)
	case 1:
		says(l.what, in.Offers[0].Words, widget.MediumImportance)
	default:
		l.offers(in)
	}
	l.tick.OnChanged = func(on bool) { s.turn(i, on) }
	l.offer.OnChanged = func(string) {
		if at := l.offer.SelectedIndex(); at >= 0 {
			in.Chosen = at
			s.turn(i, true) // who says what to do wants it done
			s.list.RefreshItem(i)
		}
	}
}
