package page

import (
	"strings"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Papers is the page of what leaves the house: the facts that only the papers need, what is missing, a preview in words, and
// the writing.
type Papers struct {
	*form
	missing *widget.Label
	preview *widget.Label
	folder  *widget.Entry
	told    *widget.Label
	said    *fyne.Container // told and again, hidden until there is something to tell
	again   *widget.Button
	write   *widget.Button
	writer  Writer
	// proposed is the folder proposed last, which another proposal may replace.
	proposed string
	state    session.State
	object   fyne.CanvasObject
}

// Writer writes the papers of a shoot into a folder, off the UI goroutine; done hears on it what to say of it. exists is told when a
// paper of that name is there already.
type Writer func(folder string, overwrite bool, done func(words string, exists bool, err error))

// NewPapers builds the page. browse lets the user choose a folder.
func NewPapers(edit Editor, writer Writer, browse func(chosen func(folder string))) *Papers {
	s := &Papers{writer: writer, missing: wrapped(), preview: wrapped(), folder: widget.NewEntry(), told: wrapped()}
	s.form = newForm(edit, nil)
	s.fields()
	s.folder.SetPlaceHolder("the folder to write into")
	s.write = widget.NewButtonWithIcon("Write call sheet and calendars", theme.DocumentSaveIcon(), func() { s.run(false) })
	s.write.Importance = widget.HighImportance
	s.again = widget.NewButton("Replace them", func() { s.run(true) })
	s.again.Hide()
	choose := widget.NewButtonWithIcon("", theme.FolderOpenIcon(), func() { browse(func(folder string) { s.folder.SetText(folder) }) })
	s.said = container.NewBorder(nil, nil, nil, s.again, s.told)
	s.said.Hide()
	bar := container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewHBox(choose, s.write), s.folder),
		s.said,
		s.missing,
	)
	right := container.NewBorder(bar, nil, nil, nil, container.NewVScroll(s.preview))
	split := container.NewHSplit(container.NewVScroll(measure(s.form.box)), right)
	split.Offset = 0.42
	s.object = split
	return s
}

// SetFolder proposes a folder to write into, unless one was chosen.
func (s *Papers) SetFolder(folder string) {
	if s.folder.Text == s.proposed {
		s.folder.SetText(folder)
		s.proposed = folder
	}
}

// Object is the page.
func (s *Papers) Object() fyne.CanvasObject { return s.object }

// Show brings the page up to the state.
func (s *Papers) Show(st session.State) {
	if st.Results.Chosen.Date != s.state.Results.Chosen.Date { // what was said is about another day's paper
		s.again.Hide()
		s.said.Hide()
	}
	s.state = st
	s.form.show(&st.Plan)
	s.missing.SetText(strings.Join(view.Unready(st), "\n"))
	setVisible(s.missing, s.missing.Text != "")
	s.preview.SetText(view.SheetText(st))
	if view.CanWrite(st) {
		s.write.Enable()
	} else {
		s.write.Disable()
	}
}

func (s *Papers) run(overwrite bool) {
	s.again.Hide()
	s.tell("Writing…", widget.LowImportance)
	s.writer(s.folder.Text, overwrite, func(words string, exists bool, err error) {
		switch {
		case exists:
			s.again.Show()
			s.tell(err.Error(), widget.WarningImportance)
		case err != nil:
			s.tell(err.Error(), widget.DangerImportance)
		default:
			s.tell(words, widget.SuccessImportance)
		}
	})
}

func (s *Papers) tell(words string, importance widget.Importance) {
	s.told.Importance = importance
	s.told.SetText(words)
	s.said.Show()
}

func (s *Papers) fields() {
	f := s.form
	f.choice("Paper", words(plan.PaperSizes), func(p *plan.Plan) string { return string(p.Papers.Size.Or()) },
		func(p *plan.Plan, v string) { p.Papers.Size = plan.PaperSize(v) })
	f.text("Producer", "who makes the film, as it stands in the releases", func(p *plan.Plan) *string { return &p.Papers.Producer })
	f.long("Getting there", "the way to the door, the gate code", 3, func(p *plan.Plan) *string { return &p.Papers.Access })
	f.long("Parking", "who parks where", 2, func(p *plan.Plan) *string { return &p.Papers.Parking })
	f.long("Hospital", "the nearest, with address and phone", 2, func(p *plan.Plan) *string { return &p.Papers.Hospital })
	lines := func(p *plan.Plan) string { return strings.Join(p.Papers.Safety, "\n") }
	safety := newArea(4)
	f.add("Safety", safety, &safety.Entry, "one caution a line", lines, func(text string) (func(*plan.Plan), error) {
		return func(p *plan.Plan) { p.Papers.Safety = splitLines(text) }, nil
	})
	f.long("Notes", "printed on the call sheet", 3, func(p *plan.Plan) *string { return &p.Papers.Notes })
}
