package page

import (
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
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
	sides   *halves // what is agreed, and reading and signing it
	object  fyne.CanvasObject
}

func newReleases(edit Editor, now func() time.Time) *releases {
	s := &releases{today: func() plan.Date { return plan.DateOf(now()) }, cleared: wrapped()}
	s.signing = NewSigning(now, func(sg Signed) plan.Problems {
		return edit("sign the release", "", func(p *plan.Plan) { s.take(p, sg) })
	})
	s.items = newItems("release", "No release yet: add those of the house, the music, the drone. A person's own comes with their status.", edit,
		func(p *plan.Plan) []plan.Release { return p.Releases },
		func(r *plan.Release) plan.ID { return r.ID },
		listOps{add: (*plan.Plan).AddRelease, duplicate: (*plan.Plan).DuplicateRelease, remove: (*plan.Plan).RemoveRelease})
	s.fields()
	s.listPane.onSelect = func() {
		s.detail.ScrollToTop()
		s.showRelease()
	}
	s.sides = newHalves([]string{"What is agreed", "Read and sign"}, s.detail, s.signing.Object())
	split := container.NewHSplit(s.listPane.object, s.sides.object)
	split.Offset = 0.34
	s.object = container.NewBorder(s.cleared, nil, nil, nil, split)
	return s
}

func (s *releases) show(st session.State) {
	s.state = st
	s.cleared.SetText(strings.Join(view.ClearedLines(st), "  "))
	setVisible(s.cleared, len(st.Plan.Brief.Deliverables) > 0)
	s.showItems(&st.Plan, view.ReleaseRows(st))
	s.showRelease()
}

// showRelease brings the right side up to the selected release.
func (s *releases) showRelease() {
	s.showDetail()
	r := s.at(&s.state.Plan)
	setVisible(s.sides.object, r != nil)
	if r != nil {
		s.signing.Show(&s.state.Plan, *r, s.state.Results.Chosen.Date)
	}
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
	s.form.says("How it stands", func(*plan.Plan) string { return view.ReleaseStanding(s.state, s.selected) })
	s.choice("Kind", words(plan.ReleaseKinds), func(r *plan.Release) string { return string(r.Kind) },
		func(r *plan.Release, v string) { r.Kind = plan.ReleaseKind(v) })
	s.choice("Party", func(p *plan.Plan) []option {
		return slices.Concat([]option{{"", "nobody in the plan"}}, personOptions(p))
	},
		func(r *plan.Release) string { return string(r.Party) }, func(r *plan.Release, v string) { r.Party = plan.ID(v) })
	s.text("About", "the house, the song, the painting", func(r *plan.Release) *string { return &r.Subject })
	s.first = s.form.newest()
	s.choice("Status", words(plan.ReleaseStatuses), func(r *plan.Release) string { return string(r.Status.Or()) }, func(r *plan.Release, v string) {
		r.Status, r.Changed = plan.ReleaseStatus(v), s.today()
	})
	s.text("Signed by", "the name on the paper", func(r *plan.Release) *string { return &r.SignedBy })
	s.text("Relation", "of who signed to the party: mother; empty: themselves", func(r *plan.Release) *string { return &r.Relation })
	s.text("Media", "web and social", func(r *plan.Release) *string { return &r.Media })
	s.text("Territory", "worldwide", func(r *plan.Release) *string { return &r.Territory })
	s.text("Term", "three years", func(r *plan.Release) *string { return &r.Term })
	s.text("Compensation", "a copy of the film; empty: none", func(r *plan.Release) *string { return &r.Compensation })
	s.parsed("Lapses after", "2030-09-20; empty: never", func(r *plan.Release) string { return r.Until.String() }, func(text string) (func(*plan.Release), error) {
		d, err := parseDate(text)
		return func(r *plan.Release) { r.Until = d }, err
	})
	s.form.ticks("Only for scenes", "No scene yet.", 1, sceneOptions, read(s.items, func(r *plan.Release) *[]plan.ID { return &r.Scenes }))
}

// ownStatus is how far a person's own release is, whatever the scene.
func ownStatus(p *plan.Plan, q *plan.Person) string {
	return string(people.OwnRelease(p, *q, "", plan.Date{}))
}

// halves are two objects of which a button each brings one to the front.
type halves struct {
	buttons []*widget.Button
	objects []fyne.CanvasObject
	front   int
	object  *fyne.Container
}

func newHalves(names []string, objects ...fyne.CanvasObject) *halves {
	h := &halves{objects: objects}
	row := container.NewHBox()
	for i, name := range names {
		h.buttons = append(h.buttons, widget.NewButton(name, func() { h.turn(i) }))
		row.Add(h.buttons[i])
	}
	h.object = container.NewBorder(row, nil, nil, nil, container.NewStack(objects...))
	h.turn(0)
	return h
}

func (h *halves) turn(to int) {
	h.front = to
	for i, b := range h.buttons {
		b.Importance, b.Icon = widget.LowImportance, nil
		if i == to {
			b.Importance, b.Icon = widget.MediumImportance, theme.NavigateNextIcon()
		}
		b.Refresh()
		setVisible(h.objects[i], i == to)
	}
	h.object.Refresh() // what was hidden is laid out anew, and the buttons with their new icons
}
