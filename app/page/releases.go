package page

import (
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// releases is the other half of the page of people: every permission in writing, what it says, and how far it is.
type releases struct {
	*items[plan.Release]
	today   func() plan.Date
	state   session.State
	cleared *widget.Label
	object  fyne.CanvasObject
}

func newReleases(edit Editor, today func() plan.Date) *releases {
	s := &releases{today: today, cleared: wrapped()}
	s.items = newItems("release", "No release yet: add those of the house, the music, the drone. A person's own comes with their status.", edit,
		func(p *plan.Plan) []plan.Release { return p.Releases },
		func(r *plan.Release) plan.ID { return r.ID },
		listOps{add: (*plan.Plan).AddRelease, duplicate: (*plan.Plan).DuplicateRelease, remove: (*plan.Plan).RemoveRelease})
	s.fields()
	split := container.NewHSplit(s.listPane.object, s.detail)
	split.Offset = 0.34
	s.object = container.NewBorder(s.cleared, nil, nil, nil, split)
	return s
}

func (s *releases) show(st session.State) {
	s.state = st
	s.cleared.SetText(strings.Join(view.ClearedLines(st), "  "))
	setVisible(s.cleared, len(st.Plan.Brief.Deliverables) > 0)
	s.showItems(&st.Plan, view.ReleaseRows(st))
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
	s.form.says("The text", func(*plan.Plan) string { return view.ReleaseText(s.state, s.selected) })
	s.form.says("", func(p *plan.Plan) string {
		if s.at(p) == nil {
			return ""
		}
		return view.ReleaseCaution
	})
}

// ownStatus is how far a person's own release is, whatever the scene.
func ownStatus(p *plan.Plan, q *plan.Person) string {
	return string(people.OwnRelease(p, *q, "", plan.Date{}))
}
