package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// readyScenes offers ready-made scenes with a tick each, and adds those ticked in one edit.
type readyScenes struct {
	edit   Editor
	done   func()
	made   func(plan.ID) // hears of the first one added, before it is shown
	rows   []view.ReadyRow
	ticks  []*widget.Check
	subs   []*widget.Label
	wrong  *widget.Label
	add    *widget.Button
	foot   *fyne.Container
	object fyne.CanvasObject
}

func newReadyScenes(edit Editor, done func(), made func(plan.ID)) *readyScenes {
	r := &readyScenes{edit: edit, done: done, made: made, wrong: told()}
	said := wrapped()
	said.SetText(tongue.Say("Scenes as such films often have them: common practice, and yours to change. Each goes into the space of your house that suits it, " +
		"at the end of the list. Who is in it, you say."))
	said.Importance = widget.LowImportance
	lines := container.NewVBox()
	for _, row := range view.ReadyRows(&plan.Plan{}) {
		tick := widget.NewCheck(row.Title, func(bool) { r.count() })
		sub, action := smallLine(""), smallLine(row.Scene.Action)
		sub.Importance = widget.LowImportance
		r.ticks, r.subs = append(r.ticks, tick), append(r.subs, sub)
		lines.Add(container.New(tight{}, tick, container.New(indented{}, container.New(tight{}, action, sub))))
	}
	r.add = widget.NewButtonWithIcon("", theme.ConfirmIcon(), r.take)
	r.add.Importance = widget.HighImportance
	none := widget.NewButton(tongue.Say("scenes|Tick none"), func() { r.tick(func(int) bool { return false }) })
	none.Importance = widget.LowImportance
	missing := widget.NewButton(tongue.Say("Tick all that you do not have"), func() { r.tick(func(i int) bool { return !r.rows[i].There }) })
	missing.Importance = widget.LowImportance
	back := widget.NewButtonWithIcon(tongue.Say("Back to the scenes"), theme.NavigateBackIcon(), done)
	head := widget.NewLabelWithStyle(tongue.Say("Ready-made scenes"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	top := container.NewVBox(container.NewBorder(nil, nil, nil, back, head), said)
	r.foot = container.NewVBox(r.wrong, container.NewBorder(nil, nil, container.NewHBox(none, missing), r.add))
	r.object = container.NewBorder(top, r.foot, nil, nil, container.NewVScroll(measure(lines)))
	return r
}

// smallLine is a small line, cut where there is no room for it.
func smallLine(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.SizeName, l.Truncation = theme.SizeNameCaptionText, fyne.TextTruncateEllipsis
	return l
}

// indented keeps what is said of a tick under its words.
type indented struct{}

func (indented) indent() float32 { return tickWidth() }

func (i indented) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return objects[0].MinSize().AddWidthHeight(i.indent(), 0)
}

func (i indented) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Move(fyne.NewPos(i.indent(), 0))
	objects[0].Resize(fyne.NewSize(size.Width-i.indent(), size.Height))
}

// show brings what is offered up to a plan.
func (r *readyScenes) show(p *plan.Plan) {
	r.rows = view.ReadyRows(p)
	for i, row := range r.rows {
		words := row.Sub
		if row.There {
			words += " · " + tongue.Say("in the list already")
		}
		r.subs[i].SetText(words)
	}
	r.count()
}

func (r *readyScenes) tick(on func(i int) bool) {
	for i, t := range r.ticks {
		t.SetChecked(on(i))
	}
}

// chosen are the scenes ticked.
func (r *readyScenes) chosen() []plan.ReadyScene {
	var out []plan.ReadyScene
	for i, t := range r.ticks {
		if t.Checked {
			out = append(out, r.rows[i].Scene)
		}
	}
	return out
}

func (r *readyScenes) count() {
	n := len(r.chosen())
	r.add.SetText(view.AddScenesWords(n))
	setEnabled(r.add, n > 0)
	r.foot.Refresh() // the button takes as much room as its words now want
}

func (r *readyScenes) take() {
	chosen := r.chosen()
	wrong := r.edit(view.AddScenesName(len(chosen)), "", func(p *plan.Plan) { r.made(p.AddReady(chosen...)[0]) })
	if len(wrong) > 0 {
		r.made("")
		r.wrong.SetText(tongue.Say("Nothing was added: %s", wrong[0]))
		r.wrong.Show()
		return
	}
	r.wrong.Hide()
	r.tick(func(int) bool { return false })
	r.done()
}
