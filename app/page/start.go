package page

import (
	"slices"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Start is what one sees before a plan is open: the demo, earlier plans, and the three steps to a new one. What is said in the
// steps are edits of the plan like any other.
type Start struct {
	edit   Editor
	do     StartActions
	form   *form         // the fields of all steps
	light  *widget.Label // what the date is like
	recent *fyne.Container
	ready  []*ticked // the scenes that are offered
	sets   []plan.ReadySet
	pick   []*widget.Button // a button a set
	sum    *widget.Label    // what is ticked
	sides  []fyne.CanvasObject
	at     int // of the sides: 0 before the steps
	head   *widget.Label
	next   *widget.Button
	object *fyne.Container
}

// StartActions are what the window does for the page.
type StartActions struct {
	Demo, Open func()
	Recent     func() []string
	OpenRecent func(path string)
	Leave      func(to view.Page)
}

// NewStart builds the page.
func NewStart(edit Editor, async Async, do StartActions) *Start {
	s := &Start{edit: edit, do: do, form: newForm(edit, nil), recent: container.NewVBox(), head: widget.NewLabel("")}
	s.head.TextStyle.Bold = true
	s.sides = []fyne.CanvasObject{s.first(), s.where(async), s.when(), s.scenes()}
	steps := stack(s.head)
	for _, side := range s.sides[1:] {
		steps.Add(side)
	}
	steps.Add(s.buttons())
	s.object = container.NewStack(container.NewVScroll(container.New(middle(760), s.sides[0])), container.NewVScroll(container.New(middle(760), steps)))
	s.turn(0)
	return s
}

// first is what one sees first.
func (s *Start) first() fyne.CanvasObject {
	title := widget.NewLabelWithStyle("Eavelight", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	title.SizeName = theme.SizeNameHeadingText
	says := wrapped()
	says.SetText(tongue.Say("Plan a day of filming in a house, by the light it has. Everything stays on this computer."))
	fresh := widget.NewButtonWithIcon(tongue.Say("New plan"), theme.DocumentCreateIcon(), func() { s.turn(1) })
	fresh.Importance = widget.HighImportance
	open := widget.NewButtonWithIcon(tongue.Say("Open…"), theme.FolderOpenIcon(), s.do.Open)
	demo := widget.NewButtonWithIcon(tongue.Say("Open the demo"), theme.MediaVideoIcon(), s.do.Demo)
	empty := widget.NewButton(tongue.Say("Start empty"), func() { s.do.Leave(view.Brief) })
	empty.Importance = widget.LowImportance
	hint := wrapped()
	hint.Importance = widget.LowImportance
	hint.SetText(tongue.Say("A new plan asks for three things: where, when and what. The demo is a whole plan to look around in."))
	return container.NewVBox(title, says, flowing(fresh, open, demo, empty), hint, widget.NewLabel(""), s.recent)
}

func (s *Start) buttons() fyne.CanvasObject {
	back := widget.NewButton(tongue.Say("Back"), func() { s.turn(s.at - 1) })
	s.next = widget.NewButton("", func() {
		if s.at < len(s.sides)-1 {
			s.turn(s.at + 1)
			return
		}
		s.finish()
	})
	s.next.Importance = widget.HighImportance
	skip := widget.NewButton(tongue.Say("Skip the rest"), func() { s.do.Leave(view.Brief) })
	skip.Importance = widget.LowImportance
	return flowing(back, s.next, skip)
}

// stepHeads are over the steps.
var stepHeads = []string{"", say.Mark("Where is the house?"), say.Mark("When is the shoot?"), say.Mark("What is filmed?")}

// turn shows what one sees first, or a step.
func (s *Start) turn(to int) {
	s.at = to
	halves := s.object.Objects
	setVisible(halves[0], to == 0)
	setVisible(halves[1], to > 0)
	for i, side := range s.sides[1:] {
		setVisible(side, i+1 == to)
	}
	if to > 0 {
		s.head.SetText(tongue.Say("Step %d of %d: %s", to, len(s.sides)-1, tongue.Marked(stepHeads[to])))
	}
	s.next.SetText(tongue.Say("Next"))
	if to == len(s.sides)-1 {
		s.next.SetText(tongue.Say("Done"))
	}
	s.object.Refresh()
}

// step makes the fields of one step, with words under them.
func (s *Start) step(words string, fields func(f *form)) fyne.CanvasObject {
	f := newForm(s.edit, nil)
	fields(f)
	s.form.syncs = append(s.form.syncs, func(p *plan.Plan) { f.show(p) })
	s.form.fields = append(s.form.fields, f.fields...)
	says := wrapped()
	says.Importance = widget.LowImportance
	says.SetText(words)
	return stack(f.box, says)
}

func (s *Start) where(async Async) fyne.CanvasObject {
	return s.step(tongue.Say("Faces, windows, spaces and what shades them have their place on the page Property."), func(f *form) {
		f.text(tongue.Say("Title"), tongue.Say("what the film is called"), func(p *plan.Plan) *string { return &p.Title })
		f.long(tongue.Say("Address"), tongue.Say("as it stands on the call sheet"), 2, func(p *plan.Plan) *string { return &p.Property.Address })
		f.row(tongue.Say("Find it"), newFinder(s.edit, async).object)
		f.says(tongue.Say("place|Position"), func(p *plan.Plan) string { return view.PositionLine(*p) })
	})
}

func (s *Start) when() fyne.CanvasObject {
	return s.step(tongue.Say("More dates to choose among have their place on the page Day; it says which keeps the most light."), func(f *form) {
		f.parsed(tongue.Say("Date"), tongue.Say("2027-05-22 or 22 May 2027"), func(p *plan.Plan) string {
			if len(p.Shooting.Dates) == 0 {
				return ""
			}
			return p.Shooting.Dates[0].String()
		}, func(text string) (func(*plan.Plan), error) {
			d, err := parseDate(text)
			return func(p *plan.Plan) { setFirstDate(p, d) }, err
		})
		s.light = wrapped()
		f.row("", s.light)
	})
}

// setFirstDate puts a date in the place of the first one; none takes it away.
func setFirstDate(p *plan.Plan, d plan.Date) {
	var rest []plan.Date
	for i, other := range p.Shooting.Dates {
		if i > 0 && other != d {
			rest = append(rest, other)
		}
	}
	if !d.IsZero() {
		rest = append([]plan.Date{d}, rest...)
	}
	p.Shooting.Dates = rest
}

// scenes offers the ready-made ones, and sets of them that tick theirs. Those that a film hardly does without are ticked first.
func (s *Start) scenes() fyne.CanvasObject {
	s.sum = wrapped()
	grid := container.New(&ranks{most: 2})
	for _, r := range view.ReadyScenes() {
		c := newTicked(view.ReadyLine(r), func(bool) { s.count() })
		s.ready = append(s.ready, c)
		grid.Add(c.object)
	}
	begin := wrapped()
	begin.SetText(tongue.Say("Begin with a set, and change it as you like:"))
	s.sets = view.ReadySets()
	buttons := make([]fyne.CanvasObject, len(s.sets))
	for i, set := range s.sets {
		b := widget.NewButtonWithIcon(set.Name, theme.RadioButtonIcon(), func() { s.tick(set) })
		s.pick, buttons[i] = append(s.pick, b), b
	}
	s.tick(s.sets[len(s.sets)-1])
	says := wrapped()
	says.Importance = widget.LowImportance
	says.SetText(tongue.Say("Each comes with the light it wants, its times and what to look out for. Change them, and add your own, on the page Scenes."))
	return stack(begin, flowing(buttons...), grid, s.sum, says)
}

// tick ticks the scenes of a set, and no others.
func (s *Start) tick(set plan.ReadySet) {
	for i, r := range view.ReadyScenes() {
		s.ready[i].tick.SetChecked(slices.Contains(set.Scenes, r.ID))
	}
	s.count()
}

// count says what is ticked, and marks the set that it is.
func (s *Start) count() {
	chosen := s.chosen()
	s.sum.SetText(view.ReadySum(chosen))
	for i, b := range s.pick {
		is := len(chosen) == len(s.sets[i].Scenes) && !slices.ContainsFunc(chosen, func(r plan.ReadyScene) bool { return !slices.Contains(s.sets[i].Scenes, r.ID) })
		icon := theme.RadioButtonIcon()
		if is {
			icon = theme.RadioButtonCheckedIcon()
		}
		b.SetIcon(icon)
	}
}

// chosen are the scenes ticked.
func (s *Start) chosen() []plan.ReadyScene {
	var out []plan.ReadyScene
	for i, r := range view.ReadyScenes() {
		if i < len(s.ready) && s.ready[i].tick.Checked {
			out = append(out, r)
		}
	}
	return out
}

func (s *Start) finish() {
	chosen := s.chosen()
	if len(chosen) == 0 {
		s.do.Leave(view.Brief)
		return
	}
	s.edit(tongue.Say("add ready-made scenes"), "", func(p *plan.Plan) { p.AddReady(chosen...) })
	s.do.Leave(view.Scenes)
}

// Object is the page.
func (s *Start) Object() fyne.CanvasObject { return s.object }

// Revert is Reverter's.
func (s *Start) Revert() bool { return s.form.Revert() }

// Show brings the page up to the state.
func (s *Start) Show(st session.State) {
	s.form.show(&st.Plan)
	s.light.SetText(view.FirstLight(st))
	s.recent.RemoveAll()
	for i, path := range s.do.Recent() {
		if i == 0 {
			s.recent.Add(widget.NewLabelWithStyle(tongue.Say("Recent plans"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		}
		name, where := view.RecentNames(path)
		b := widget.NewButton(name, func() { s.do.OpenRecent(path) })
		b.Importance, b.Alignment = widget.LowImportance, widget.ButtonAlignLeading
		folder := widget.NewLabel(where)
		folder.Importance = widget.LowImportance
		s.recent.Add(flowing(b, folder))
	}
}

// middle gives its object a width that grows with the text, in the middle, and some air above where there is room for it.
type middle float32

func (middle) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

func (m middle) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	wide := min(size.Width, float32(m)*theme.TextSize()/13)
	objects[0].Resize(fyne.NewSize(wide, objects[0].MinSize().Height)) // words wrap by it, and make it high
	air := min(4*theme.TextSize(), max(0, size.Height-objects[0].MinSize().Height))
	objects[0].Move(fyne.NewPos((size.Width-wide)/2, air))
	objects[0].Resize(fyne.NewSize(wide, size.Height-air))
}
