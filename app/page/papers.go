package page

import (
	"context"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Papers is the page of what leaves the house: the papers as they will be, what is missing before they are sent, the writing, and the
// facts that only they need.
type Papers struct {
	*form
	lister  *latest
	now     func() time.Time
	missing *widget.Label
	shelf   *shelf
	preview *preview
	writing *writing
	state   session.State
	bench   *fyne.Container // with the papers on it
	halves  *halves
}

// Writer writes papers of some kinds into a folder, or an archive where the path ends in .zip, off the UI goroutine. told hears on it of
// how far it is, done how it ended. stop ends it, with nothing written.
type Writer func(order Order, told func(words string), done func(Outcome)) (stop func())

// Outcome is how a writing ended.
type Outcome struct {
	Words  string
	Exists bool // a paper of that name is there already
	Err    error
	Sent   func() // for when the user says that they have sent them: the plan remembers what they say; nil where there is nothing to it
}

// Order is what is to be written.
type Order struct {
	Shelf     view.Shelf
	Doc       int // the document that it is of
	Kinds     []string
	Path      string
	Overwrite bool
}

// NewPapers builds the page. browse lets the user choose a folder.
func NewPapers(edit Editor, now func() time.Time, async Async, writer Writer, browse func(chosen func(folder string))) *Papers {
	s := &Papers{form: newForm(edit, nil), lister: newLatest(async), now: now, missing: wrapped(), preview: newPreview(async)}
	s.shelf = newShelf(s.look, s.count)
	s.writing = newWriting(writer, browse, s.order)
	s.fields()
	s.missing.Importance = widget.WarningImportance
	left := container.New(wide(330), s.shelf.list)
	s.bench = container.NewBorder(s.missing, s.writing.object, container.NewBorder(nil, nil, nil, widget.NewSeparator(), left), nil, s.preview.object)
	s.halves = newHalves([]string{tongue.Say("Papers"), tongue.Say("What they say")}, s.bench, container.NewVScroll(measure(s.form.box)))
	s.halves.onTurn = s.list
	return s
}

// SetFolder proposes a folder to write into, unless one was chosen.
func (s *Papers) SetFolder(folder string) { s.writing.propose(folder) }

// Object is the page.
func (s *Papers) Object() fyne.CanvasObject { return s.halves.object }

// Show brings the page up to the state. The papers are listed off the UI goroutine.
func (s *Papers) Show(st session.State) {
	if st.Results.Chosen.Date != s.state.Results.Chosen.Date { // what was said is about another day's papers
		s.writing.forget()
	}
	s.state = st
	s.form.show(&st.Plan)
	s.writing.ready(false) // until the papers are those of the plan as it stands
	s.list()
}

// list lists the papers while they are in sight: they are not made anew at every letter that is typed for them.
func (s *Papers) list() {
	if s.halves.front != 0 {
		return
	}
	st, made := s.state, s.now()
	s.lister.run(func(context.Context) func() {
		found := view.ShelfOf(st, made)
		return func() { s.found(found) }
	})
}

func (s *Papers) found(v view.Shelf) {
	s.missing.SetText(missingWords(v.Missing))
	setVisible(s.missing, len(v.Missing) > 0)
	s.shelf.show(v)
	s.look()
	s.count()
	s.writing.ready(!s.state.Results.Busy)
	s.bench.Refresh()
}

// mostMissing is how many lines of what is missing there is room for over the papers.
const mostMissing = 4

func missingWords(missing []string) string {
	if more := len(missing) - (mostMissing - 1); more > 1 {
		missing = append(missing[:mostMissing-1:mostMissing-1], tongue.Count(more, "And %d more, on the pages of people and property.", "And %d more, on the pages of people and property."))
	}
	return strings.Join(missing, "\n")
}

func (s *Papers) look() { s.preview.show(s.shelf.shown, s.shelf.chosen, s.shelf.about()) }

func (s *Papers) count() { s.writing.count(s.shelf.shown.Count(s.shelf.ticked())) }

// order is what is to be written now.
func (s *Papers) order() Order {
	return Order{Shelf: s.shelf.shown, Doc: s.state.Doc, Kinds: s.shelf.ticked()}
}

func (s *Papers) fields() {
	f := s.form
	f.choice(tongue.Say("Paper"), words(plan.PaperSizes), func(p *plan.Plan) string { return string(p.Papers.Size.Or()) },
		func(p *plan.Plan, v string) { p.Papers.Size = plan.PaperSize(v) })
	f.choice(tongue.Say("Dates"), languageOptions, func(p *plan.Plan) string { return string(p.Papers.Dates.Or()) },
		func(p *plan.Plan, v string) { p.Papers.Dates = plan.DateWords(v) })
	f.choice(tongue.Say("Clock"), func(*plan.Plan) []option {
		return []option{{string(plan.Clock24), "18:05"}, {string(plan.Clock12), "6:05 pm"}}
	},
		func(p *plan.Plan) string { return string(p.Papers.Clock.Or()) }, func(p *plan.Plan, v string) { p.Papers.Clock = plan.HourClock(v) })
	f.text(tongue.Say("Producer"), tongue.Say("who makes the film, as it stands in the releases"), func(p *plan.Plan) *string { return &p.Papers.Producer })
	f.long(tongue.Say("Getting there"), tongue.Say("the way to the door, the gate code"), 3, func(p *plan.Plan) *string { return &p.Papers.Access })
	f.long(tongue.Say("Parking"), tongue.Say("who parks where"), 2, func(p *plan.Plan) *string { return &p.Papers.Parking })
	f.long(tongue.Say("Hospital"), tongue.Say("the nearest, with address and phone"), 2, func(p *plan.Plan) *string { return &p.Papers.Hospital })
	lines := func(p *plan.Plan) string { return strings.Join(p.Papers.Safety, "\n") }
	safety := newArea(4)
	f.add(tongue.Say("Safety"), safety, &safety.Entry, tongue.Say("one caution a line"), lines, func(text string) (func(*plan.Plan), error) {
		return func(p *plan.Plan) { p.Papers.Safety = splitLines(text) }, nil
	})
	f.long(tongue.Say("Notes"), tongue.Say("printed on the call sheet"), 3, func(p *plan.Plan) *string { return &p.Papers.Notes })
}

// languageOptions are the languages of dates, by the same date in each.
func languageOptions(*plan.Plan) []option {
	var out []option
	for _, l := range plan.DateLanguages {
		out = append(out, option{string(l), view.DateExample(l)})
	}
	return out
}

// writing is where the papers are written to, and what came of it.
type writing struct {
	writer   Writer
	order    func() Order
	papers   int // that are ticked
	able     bool
	proposed string // the folder proposed last, which another proposal may replace
	folder   *widget.Entry
	zip      *widget.Check
	write    *widget.Button
	halt     *widget.Button
	again    *widget.Button
	sent     *widget.Button
	told     *widget.Label
	said     *fyne.Container // told and what can be done then, hidden until there is something to tell
	object   fyne.CanvasObject
}

func newWriting(writer Writer, browse func(chosen func(folder string)), order func() Order) *writing {
	s := &writing{writer: writer, order: order, folder: widget.NewEntry(), told: wrapped()}
	s.folder.SetPlaceHolder(tongue.Say("the folder to write into"))
	s.zip = widget.NewCheck(tongue.Say("One archive (.zip)"), nil)
	s.write = widget.NewButtonWithIcon("", theme.DocumentSaveIcon(), func() { s.run(false) })
	s.write.Importance = widget.HighImportance
	s.halt = widget.NewButtonWithIcon(tongue.Say("Stop"), theme.MediaStopIcon(), nil)
	s.halt.Hide()
	s.again = widget.NewButton(tongue.Say("Replace them"), func() { s.run(true) })
	s.again.Hide()
	choose := widget.NewButtonWithIcon("", theme.FolderOpenIcon(), func() { browse(func(folder string) { s.folder.SetText(folder) }) })
	s.sent = widget.NewButton(tongue.Say("I have sent these"), nil)
	s.sent.Hide()
	s.said = container.NewBorder(nil, nil, nil, container.NewHBox(s.again, s.sent), s.told)
	s.said.Hide()
	bar := container.NewBorder(nil, nil, nil, container.NewHBox(choose, s.zip, s.write, s.halt), s.folder)
	s.object = container.NewVBox(widget.NewSeparator(), bar, s.said)
	s.count(0)
	return s
}

func (s *writing) propose(folder string) {
	if s.folder.Text == s.proposed {
		s.folder.SetText(folder)
		s.proposed = folder
	}
}

// forget takes back what was said.
func (s *writing) forget() {
	s.again.Hide()
	s.sent.Hide()
	s.said.Hide()
}

// ready tells whether the papers are those of the plan as it stands.
func (s *writing) ready(able bool) {
	s.able = able
	s.count(s.papers)
}

func (s *writing) count(papers int) {
	s.papers = papers
	s.write.SetText(tongue.Count(papers, "Write %d paper", "Write %d papers"))
	if s.able && papers > 0 {
		s.write.Enable()
	} else {
		s.write.Disable()
	}
}

func (s *writing) run(overwrite bool) {
	o := s.order()
	o.Overwrite, o.Path = overwrite, strings.TrimSpace(s.folder.Text)
	if o.Path != "" && s.zip.Checked && !strings.HasSuffix(strings.ToLower(o.Path), ".zip") {
		o.Path += ".zip"
	}
	s.forget()
	s.tell(tongue.Say("Writing…"), widget.LowImportance)
	s.under(true)
	s.halt.OnTapped = s.writer(o, func(words string) { s.tell(words, widget.LowImportance) }, s.done)
}

func (s *writing) done(o Outcome) {
	s.under(false)
	switch {
	case o.Exists:
		s.again.Show()
		s.tell(tongue.Error(o.Err), widget.WarningImportance)
	case o.Err != nil:
		s.tell(tongue.Error(o.Err), widget.DangerImportance)
	default:
		s.tell(o.Words, widget.SuccessImportance)
	}
	if o.Sent != nil {
		s.sent.OnTapped = func() {
			s.sent.Hide()
			o.Sent()
			s.tell(tongue.Say("The plan remembers what these papers say; save it."), widget.SuccessImportance)
		}
		s.sent.Show()
	}
}

// under shows the button that stops while something is under way.
func (s *writing) under(way bool) {
	setVisible(s.write, !way)
	setVisible(s.halt, way)
}

func (s *writing) tell(words string, importance widget.Importance) {
	s.told.Importance = importance
	s.told.SetText(words)
	s.said.Show()
}
