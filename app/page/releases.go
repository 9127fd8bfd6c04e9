package page

import (
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// releases is the other half of the page of people: every permission in writing, what it says, and how far it is.
type releases struct {
	*items[plan.Release]
	today   func() plan.Date
	state   session.State
	cleared *widget.Label
	signing *Signing
	filing  *filing
	wording *wordings
	write   ReleaseWriter
	told    *widget.Label
	again   *widget.Button // writes over a paper that is there
	sides   *halves        // what is agreed, reading and signing it, and the wording of its kind
	side    fyne.CanvasObject
	object  fyne.CanvasObject
}

// ReleaseWriter writes the paper of a release beside the plan. done hears of its path, or that it exists already.
type ReleaseWriter func(release plan.ID, overwrite bool, done func(path string, exists bool, err error))

func newReleases(edit Editor, now func() time.Time, write ReleaseWriter, async Async, pick func(chosen func(path string))) *releases {
	s := &releases{today: func() plan.Date { return plan.DateOf(now()) }, cleared: wrapped(), write: write, told: wrapped()}
	s.signing = NewSigning(now, func(sg Signed) plan.Problems {
		return edit(tongue.Say("sign the release"), "", func(p *plan.Plan) { s.take(p, sg) })
	})
	s.items = newItems(tongue.Say("release"), tongue.Say("No release yet: add those of the house, the music, the drone. A person's own comes with their status."), edit,
		func(p *plan.Plan) []plan.Release { return p.Releases },
		func(r *plan.Release) plan.ID { return r.ID },
		listOps{add: (*plan.Plan).AddRelease, duplicate: (*plan.Plan).DuplicateRelease, remove: (*plan.Plan).RemoveRelease})
	s.filing = newFiling(edit, async, pick, func() {
		s.form.box.Refresh()
		s.detail.Refresh()
	})
	s.wording = newWordings(edit)
	s.fields()
	s.listPane.onSelect = func() {
		s.detail.ScrollToTop()
		s.again.Hide() // what was said is about another release
		s.told.Hide()
		s.side.Refresh()
		s.showRelease()
	}
	s.sides = newHalves([]string{tongue.Say("What is agreed"), tongue.Say("Read and sign"), ""}, s.detail, s.signing.Object(), s.wording.object)
	paper := widget.NewButtonWithIcon(tongue.Say("Write as PDF"), theme.DocumentSaveIcon(), func() { s.run(false) })
	s.again = widget.NewButton(tongue.Say("Write over it"), func() { s.run(true) })
	s.again.Hide()
	s.told.Hide()
	foot := stack(s.told, flowing(paper, s.again))
	s.side = container.NewBorder(nil, foot, nil, nil, s.sides.object)
	split := newTurning(s.listPane.object, s.side, 0.34, 0.3, 40)
	s.object = container.NewBorder(s.cleared, nil, nil, nil, split)
	return s
}

func (s *releases) show(st session.State) {
	s.state = st
	s.cleared.SetText(strings.Join(view.ClearedLines(st, 4), "  "))
	setVisible(s.cleared, s.cleared.Text != "")
	s.showItems(&st.Plan, view.ReleaseRows(st))
	s.showRelease()
}

// open shows a release.
func (s *releases) open(id plan.ID) {
	s.wanted = id
	s.sides.turn(0)
	s.show(s.state)
}

// showRelease brings the right side up to the selected release.
func (s *releases) showRelease() {
	s.showDetail()
	r := s.at(&s.state.Plan)
	setVisible(s.side, r != nil)
	if r != nil {
		s.signing.Show(&s.state.Plan, *r, s.state.Results.Chosen.Date)
		s.filing.show(s.state, *r)
		s.showWording(r.Kind)
	}
}

// showWording brings the third side up to a kind of release; one without a kind has no wording.
func (s *releases) showWording(kind plan.ReleaseKind) {
	button := s.sides.buttons[2]
	setVisible(button, known(kind))
	if !known(kind) && s.sides.front == 2 {
		s.sides.turn(0)
	}
	if known(kind) {
		button.SetText(wordingName(kind))
		s.wording.show(s.state, kind)
	}
}

// revertDraft takes back what was typed last in a wording, where one is in sight.
func (s *releases) revertDraft() bool {
	return s.side.Visible() && s.sides.front == 2 && s.wording.revert()
}

// drop files what was dropped on the window as the scan of the release that is open, and reports whether there is one.
func (s *releases) drop(path string) bool {
	if !s.side.Visible() {
		return false
	}
	s.sides.turn(0)
	s.filing.file(path)
	return true
}

// run writes the selected release and says what became of it.
func (s *releases) run(overwrite bool) {
	s.again.Hide()
	s.say(tongue.Say("Writing…"), widget.LowImportance)
	s.write(s.selected, overwrite, func(path string, exists bool, err error) {
		setVisible(s.again, exists)
		switch {
		case exists:
			s.say(tongue.Error(err), widget.WarningImportance)
		case err != nil:
			s.say(tongue.Error(err), widget.DangerImportance)
		default:
			s.written(path)
		}
	})
}

// written tells where the paper is, and what of it could not be printed.
func (s *releases) written(path string) {
	if lost := view.Boxes(s.state, s.selected); lost != "" {
		s.say(tongue.Say("Written: %s", path)+"\n"+lost, widget.WarningImportance)
		return
	}
	s.say(tongue.Say("Written: %s", path), widget.SuccessImportance)
}

func (s *releases) say(words string, importance widget.Importance) {
	s.told.Importance = importance
	s.told.SetText(words)
	s.told.Show()
	s.side.Refresh() // the foot is higher now
}

// take puts a signature made in the window into the plan.
func (s *releases) take(p *plan.Plan, sg Signed) {
	i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == sg.Release })
	if i < 0 {
		return
	}
	r := &p.Releases[i]
	r.Signature, r.SignedBy, r.Relation = &sg.Signature, sg.Signature.Name, sg.Relation
	r.Status, r.Changed = plan.Signed, s.today()
}

func (s *releases) fields() {
	s.form.says(tongue.Say("How it stands"), func(*plan.Plan) string { return view.ReleaseStanding(s.state, s.selected) })
	s.choice(tongue.Say("Kind"), words(plan.ReleaseKinds), func(r *plan.Release) string { return string(r.Kind) },
		func(r *plan.Release, v string) { r.Kind = plan.ReleaseKind(v) })
	s.choice(tongue.Say("Party"), func(p *plan.Plan) []option {
		return slices.Concat([]option{{"", tongue.Say("nobody in the plan")}}, personOptions(p))
	},
		func(r *plan.Release) string { return string(r.Party) }, func(r *plan.Release, v string) { r.Party = plan.ID(v) })
	s.text(tongue.Say("release|About"), tongue.Say("the house, the song, the painting"), func(r *plan.Release) *string { return &r.Subject })
	s.first = s.form.newest()
	s.choice(tongue.Say("Status"), words(plan.ReleaseStatuses), func(r *plan.Release) string { return string(r.Status.Or()) }, func(r *plan.Release, v string) {
		r.Status, r.Changed = plan.ReleaseStatus(v), s.today()
	})
	s.parsed(tongue.Say("Since"), tongue.Say("the day it was signed, sent or declined"), func(r *plan.Release) string { return r.Changed.String() }, func(text string) (func(*plan.Release), error) {
		d, err := parseDate(text)
		return func(r *plan.Release) { r.Changed = d }, err
	})
	s.text(tongue.Say("Signed by"), tongue.Say("the name on the paper"), func(r *plan.Release) *string { return &r.SignedBy })
	s.text(tongue.Say("Relation"), tongue.Say("of who signed to the party: mother; empty: themselves"), func(r *plan.Release) *string { return &r.Relation })
	s.form.row(tongue.Say("Scan"), s.filing.object)
	s.text(tongue.Say("Media"), tongue.Say("web and social"), func(r *plan.Release) *string { return &r.Media })
	s.text(tongue.Say("Territory"), tongue.Say("worldwide"), func(r *plan.Release) *string { return &r.Territory })
	s.text(tongue.Say("Term"), tongue.Say("three years"), func(r *plan.Release) *string { return &r.Term })
	s.text(tongue.Say("Compensation"), tongue.Say("a copy of the film; empty: none"), func(r *plan.Release) *string { return &r.Compensation })
	s.parsed(tongue.Say("Lapses after"), tongue.Say("2030-09-20; empty: never"), func(r *plan.Release) string { return r.Until.String() }, func(text string) (func(*plan.Release), error) {
		d, err := parseDate(text)
		return func(r *plan.Release) { r.Until = d }, err
	})
	s.form.ticks(tongue.Say("Only for scenes"), tongue.Say("No scene yet."), 1, sceneOptions, read(s.items, func(r *plan.Release) *[]plan.ID { return &r.Scenes }))
}

// ownStatus is how far a person's own release is, whatever the scene.
func ownStatus(p *plan.Plan, q *plan.Person) string {
	return string(people.OwnRelease(p, *q, "", plan.Date{}))
}

// halves are some objects of which a button each brings one to the front.
type halves struct {
	buttons []*widget.Button
	objects []fyne.CanvasObject
	front   int
	onTurn  func() // hears after another one came to the front
	row     *fyne.Container
	object  *fyne.Container
}

func newHalves(names []string, objects ...fyne.CanvasObject) *halves {
	h := &halves{onTurn: func() {}, row: container.New(&flow{})}
	for _, o := range objects { // in a box of its own, so that what shows and hides itself there stays with its half
		h.objects = append(h.objects, container.NewStack(o))
	}
	for i, name := range names {
		h.buttons = append(h.buttons, widget.NewButton(name, func() { h.turn(i) }))
		h.row.Add(h.buttons[i])
	}
	h.object = container.NewBorder(h.row, nil, nil, nil, container.NewStack(h.objects...))
	h.turn(0)
	return h
}

// blank takes the room of an icon and shows nothing.
var blank = fyne.NewStaticResource("blank.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24"/>`))

// markShown marks a button as the one of several whose part is shown. The others keep the room of the mark, so that none moves when
// another is pressed: a button of Fyne's keeps that of an icon that is taken away, but has none before.
func markShown(b *widget.Button, is bool) {
	b.Importance, b.Icon = widget.LowImportance, blank
	if is {
		b.Importance, b.Icon = widget.MediumImportance, theme.NavigateNextIcon()
	}
}

func (h *halves) turn(to int) {
	h.front = to
	for i, b := range h.buttons {
		markShown(b, i == to)
		b.Refresh()
		setVisible(h.objects[i], i == to)
	}
	h.object.Refresh() // what was hidden is laid out anew
	h.onTurn()
}
