package page

import (
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/people"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// wordings is the panel in which the text for all releases of a kind is changed. What is typed is a draft until it is used, for
// a change may cost signatures: it says whose before.
type wordings struct {
	edit    Editor
	state   session.State
	kind    plan.ReleaseKind
	drafts  map[plan.ReleaseKind]string // what was typed and not used
	setting bool

	title, wrong, loses *widget.Label
	entry               *area
	use, drop, back     *widget.Button
	object              fyne.CanvasObject
}

func newWordings(edit Editor) *wordings {
	s := &wordings{edit: edit, drafts: map[plan.ReleaseKind]string{}, title: wrapped(), wrong: told(), loses: wrapped(), entry: newArea(8)}
	s.title.TextStyle.Bold = true
	caution := wrapped()
	caution.Importance = widget.WarningImportance
	caution.SetText(view.ReleaseCaution() + " " + tongue.Say("It is printed on every release, whatever the text says."))
	fields := wrapped()
	fields.Importance = widget.LowImportance
	fields.SetText(tongue.Say("Filled in for each release: %s.", "{"+strings.Join(plan.WordingFields, "}, {")+"}"))
	s.entry.SetPlaceHolder(tongue.Say("the text of the release"))
	s.entry.OnChanged = func(text string) {
		if !s.setting {
			s.typed(text)
		}
	}
	s.use = widget.NewButton(tongue.Say("Use this wording"), s.commit)
	s.use.Importance = widget.HighImportance
	s.drop = widget.NewButton(tongue.Say("Drop the changes"), func() { s.typed(s.now()) })
	s.back = widget.NewButton(tongue.Say("Back to the built-in wording"), func() { s.typed(view.BuiltInWording(s.kind)) })
	foot := stack(s.wrong, s.loses, flowing(s.use, s.drop, s.back), fields)
	s.object = container.NewBorder(container.New(tight{}, s.title, caution), foot, nil, nil, s.entry)
	return s
}

// now is the wording that the plan has.
func (s *wordings) now() string { return people.Wording(&s.state.Plan, s.kind) }

// show brings the panel up to a kind of release in a state; a draft stays a draft.
func (s *wordings) show(st session.State, kind plan.ReleaseKind) {
	s.state, s.kind = st, kind
	s.title.SetText(wordingName(kind))
	s.refresh()
}

// wordingName is what the panel is about, and what its button says.
func wordingName(kind plan.ReleaseKind) string {
	return tongue.Say("The wording for all %s releases", tongue.Of(kind))
}

func (s *wordings) typed(text string) {
	s.drafts[s.kind] = text
	s.refresh()
}

// refresh shows the draft, or the plan's text where there is none, and what the draft would do.
func (s *wordings) refresh() {
	text, draft := s.drafts[s.kind]
	if draft && text == s.now() {
		delete(s.drafts, s.kind)
		draft = false
	}
	if !draft {
		text = s.now()
	}
	if s.entry.Text != text {
		s.setting = true
		s.entry.SetText(text)
		s.setting = false
	}
	var trial view.WordingTrial
	if draft {
		trial = view.TryWording(&s.state.Plan, s.kind, text, s.state.Results.Chosen.Date)
	}
	s.wrong.SetText(strings.Join(trial.Wrong, "\n"))
	setVisible(s.wrong, len(trial.Wrong) > 0)
	s.loses.Importance = widget.MediumImportance
	if len(trial.Loses) > 0 {
		s.loses.Importance = widget.WarningImportance
	}
	s.loses.SetText(trial.LosesWords())
	setVisible(s.loses, draft && len(trial.Wrong) == 0)
	able(s.use, draft && len(trial.Wrong) == 0)
	setVisible(s.drop, draft)
	able(s.back, text != view.BuiltInWording(s.kind))
	s.object.Refresh()
}

func (s *wordings) commit() {
	kind, text := s.kind, s.drafts[s.kind]
	wrong := s.edit(tongue.Say("change the wording of %s releases", tongue.Of(kind)), "", func(p *plan.Plan) { view.SetWording(p, kind, text) })
	if len(wrong) > 0 {
		s.wrong.SetText(tongue.Of(wrong[0]))
		s.wrong.Show()
	}
}

// revert takes back what was typed last in a draft.
func (s *wordings) revert() bool {
	before := s.entry.Text
	if _, draft := s.drafts[s.kind]; draft {
		s.entry.Undo()
	}
	return s.entry.Text != before
}

// known tells a kind that there are wordings for.
func known(kind plan.ReleaseKind) bool { return slices.Contains(plan.ReleaseKinds, kind) }
