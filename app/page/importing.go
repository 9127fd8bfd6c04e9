package page

import (
	"reflect"
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// importing reads a file of people, lets the user say what its columns are and whom to take, and takes them in one edit. All
// reading and comparing is done off the UI goroutine; nothing in the plan changes before.
type importing struct {
	edit    Editor
	async   Async
	today   func() plan.Date
	plan    []plan.Person // the people in the plan
	file    *contacts.File
	all     []view.Incoming
	asked   int // counts what is asked for, so that a late answer is dropped
	busy    bool
	tooMany string // said of those ticked; empty where all fit
	taken   bool   // people were just taken: the change of the plan that follows is ours

	path    *widget.Entry
	told    *widget.Label
	columns *matching
	people  *incomings
	wrong   *widget.Label
	faults  *fyne.Container
	take    *widget.Button
	chosen  *fyne.Container // all that needs a file
	object  *fyne.Container
}

var importHint = say.Mark("Name a vCard file (.vcf), as phones and address books write it, or a table (.csv, .tsv) with a person a row. " +
	"You see who would come in before anything changes.")

func newImporting(edit Editor, async Async, pick func(func(string)), today func() plan.Date) *importing {
	s := &importing{edit: edit, async: async, today: today, path: widget.NewEntry(), told: wrapped(), wrong: wrapped()}
	s.path.SetPlaceHolder(tongue.Say("the file with its folder"))
	s.path.OnSubmitted = func(string) { s.read() }
	choose := widget.NewButtonWithIcon("", theme.FolderOpenIcon(), func() {
		pick(func(path string) {
			s.path.SetText(path)
			s.read()
		})
	})
	read := widget.NewButton(tongue.Say("Read it"), s.read)
	s.columns = newMatching(s.match)
	s.people = newIncomings(s.refresh)
	s.take = widget.NewButtonWithIcon("", theme.ConfirmIcon(), s.takeThem)
	s.take.Importance = widget.HighImportance
	s.faults = newFaults(tongue.Say("What could not be taken as it stands"), s.wrong)
	list := container.New(asideThird{}, s.people.object, s.faults)
	foot := container.NewBorder(nil, nil, s.people.bar, s.take)
	s.chosen = container.NewBorder(s.columns.object, foot, nil, nil, list)
	top := container.NewVBox(container.NewBorder(nil, nil, nil, container.NewHBox(choose, read), s.path), s.told)
	s.object = container.NewBorder(top, nil, nil, nil, s.chosen)
	s.drop()
	return s
}

// asideThird lays a second object into the right third, where it is to be seen.
type asideThird struct{}

func (asideThird) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

func (asideThird) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	width := size.Width
	if objects[1].Visible() {
		width *= 0.68
		objects[1].Move(fyne.NewPos(width+theme.Padding(), 0))
		objects[1].Resize(fyne.NewSize(size.Width-width-theme.Padding(), size.Height))
	}
	objects[0].Resize(fyne.NewSize(width, size.Height))
}

// show brings the panel up to a state: who is in the plan by now is asked anew.
func (s *importing) show(st session.State) {
	if reflect.DeepEqual(st.Plan.People, s.plan) {
		return
	}
	s.plan = st.Plan.People
	words := tongue.Say("Comparing…")
	if s.taken { // what it did is told already
		words, s.taken = "", false
	}
	if s.file != nil {
		file := *s.file
		s.ask(words, func() (contacts.File, error) { return file, nil })
	}
}

// match reads the columns another way.
func (s *importing) match(m contacts.Match) {
	if s.file != nil {
		file, today := *s.file, s.today()
		s.ask(tongue.Say("Reading…"), func() (contacts.File, error) { return file.Matched(m, today), nil })
	}
}

// drop forgets the file.
func (s *importing) drop() {
	s.asked++
	s.file, s.all, s.busy = nil, nil, false
	s.people.clear()
	s.chosen.Hide()
	s.tell("", widget.LowImportance)
}

// tell says something under the path; the hint, where there is nothing to say.
func (s *importing) tell(words string, importance widget.Importance) {
	if words == "" {
		words = tongue.Marked(importHint)
	}
	s.told.Importance = importance
	s.told.SetText(words)
}

func (s *importing) read() {
	path := strings.TrimSpace(s.path.Text)
	if path == "" {
		s.drop()
		return
	}
	s.drop()
	today := s.today()
	s.ask(tongue.Say("Reading…"), func() (contacts.File, error) { return contacts.ReadFile(path, today) })
}

// ask gets the file, or another reading of it, and compares it with the plan.
func (s *importing) ask(words string, get func() (contacts.File, error)) {
	s.asked++
	mine, people := s.asked, s.plan
	s.busy = true
	if words != "" {
		s.tell(words, widget.LowImportance)
	}
	s.refresh()
	s.async(func() func() {
		file, err := get()
		all := view.Incomings(view.FileToPlan, people, file.Contacts)
		return func() {
			if mine == s.asked {
				s.busy = false
				s.got(file, all, err, words != "")
			}
		}
	})
}

// got shows what was read; said tells whether what stands under the path is about this reading.
func (s *importing) got(file contacts.File, all []view.Incoming, err error, said bool) {
	if err != nil {
		s.drop()
		s.tell(strings.TrimSpace(tongue.Error(err)+"\n"+view.ProblemLines(file.Problems)), widget.DangerImportance)
		return
	}
	another := s.file == nil
	s.all = view.Keep(s.all, all)
	s.file = &file
	if another {
		s.columns.show(file)
	}
	s.columns.dates(file)
	s.wrong.SetText(view.ProblemLines(file.Problems))
	setVisible(s.faults, len(file.Problems) > 0)
	s.people.show(s.all)
	if said {
		s.summary()
	}
	s.chosen.Show()
	s.refresh()
	s.object.Refresh()
}

func (s *importing) summary() {
	s.tell(strings.TrimSpace(view.IncomingSummary(view.FileToPlan, s.all)+" "+view.TableWords(*s.file)), widget.MediumImportance)
}

// refresh names what the button does now, and says when more are ticked than there is room for. Rows that are being compared with another
// plan say nothing of that: those just taken would count twice.
func (s *importing) refresh() {
	n := len(view.Proposed(s.all))
	s.take.SetText(view.TakeWords(view.FileToPlan, n))
	if s.busy {
		s.take.Disable()
		return
	}
	before := s.tooMany
	s.tooMany = view.TooMany(view.FileToPlan, len(s.plan), s.all)
	setEnabled(s.take, n > 0 && s.tooMany == "")
	switch {
	case s.tooMany != "":
		s.tell(s.tooMany, widget.WarningImportance)
	case before != "" && s.file != nil:
		s.summary()
	}
}

func (s *importing) takeThem() {
	chosen := view.Proposed(s.all)
	s.taken = true
	wrong := s.edit(view.ImportName(len(chosen)), "", func(p *plan.Plan) { contacts.Apply(p, chosen) })
	if len(wrong) > 0 {
		s.taken = false
		s.tell(tongue.Say("Nothing was taken: %s", tongue.Of(wrong[0])), widget.DangerImportance)
		return
	}
	s.tell(view.Imported(chosen)+" "+tongue.Say("Undo takes it back."), widget.SuccessImportance)
}

// matching is the row of columns of a table, each with what it holds.
type matching struct {
	changed func(contacts.Match)
	match   contacts.Match
	cells   *fyne.Container
	order   *widget.Select
	births  *fyne.Container
	object  *fyne.Container
	setting bool
}

// dateOrders are what can be said of the dates in a file; the first is read from it.
var dateOrders = []contacts.DateOrder{contacts.NotSaid, contacts.DayFirst, contacts.MonthFirst}

func newMatching(changed func(contacts.Match)) *matching {
	m := &matching{changed: changed, cells: container.NewHBox()}
	orders := []string{tongue.Say("as the file shows")}
	for _, o := range dateOrders[1:] {
		orders = append(orders, tongue.Of(o))
	}
	m.order = newSelect(orders, func(string) {
		if !m.setting {
			m.match.Dates = dateOrders[m.order.SelectedIndex()]
			m.changed(m.match)
		}
	})
	m.births = container.NewHBox(widget.NewLabel(tongue.Say("Dates of birth such as 03/04/2015 have")), container.New(wide(190), framed(m.order)))
	head := container.NewBorder(nil, nil, widget.NewLabelWithStyle(tongue.Say("What the columns hold"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), m.births)
	m.object = container.NewVBox(head, container.NewHScroll(container.New(layout.NewCustomPaddedLayout(0, 8, 0, 0), m.cells)), widget.NewSeparator())
	return m
}

// show makes a cell for each column of another file.
func (m *matching) show(f contacts.File) {
	m.match = f.Match
	m.match.Fields = slices.Clone(f.Match.Fields)
	var cells []fyne.CanvasObject
	for _, c := range view.Columns(f) {
		cells = append(cells, m.cell(c))
	}
	m.cells.Objects = cells // all at once: each Add would lay all of them out
	m.cells.Refresh()
	setVisible(m.object, f.Table != nil)
}

// dates shows the order of dates while a column holds them.
func (m *matching) dates(f contacts.File) {
	setVisible(m.births, view.HasBirths(f))
	m.setting = true
	m.order.SetSelectedIndex(slices.Index(dateOrders, f.Match.Dates))
	m.setting = false
}

func (m *matching) cell(c view.ContactColumn) fyne.CanvasObject {
	label := func(text string, importance widget.Importance) *widget.Label {
		l := widget.NewLabel(text)
		l.Truncation, l.Importance = fyne.TextTruncateEllipsis, importance
		return l
	}
	head := label(c.Heading, widget.MediumImportance)
	head.TextStyle.Bold = true
	var fields []string
	for _, f := range contacts.Fields {
		fields = append(fields, tongue.Of(f))
	}
	field := newSelect(fields, nil)
	field.Selected = tongue.Of(m.match.Fields[c.At])
	field.OnChanged = func(string) {
		m.match.Fields = slices.Clone(m.match.Fields) // the file's own reading keeps what it has
		m.match.Fields[c.At] = contacts.Fields[field.SelectedIndex()]
		m.changed(m.match)
	}
	samples := container.New(tight{})
	for i := range 2 {
		text := ""
		if i < len(c.Samples) {
			text = c.Samples[i]
		}
		samples.Add(label(text, widget.LowImportance))
	}
	return container.New(wide(180), container.NewVBox(container.New(tight{}, head, samples), framed(field)))
}
