package page

import (
	"reflect"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Asker is what the Day page needs of the session: answers about the day shown, another day to show, edits that are known to
// give a day, and what becomes of an offer.
type Asker interface {
	Ask(q session.Question, done func(session.Answer)) (stop func())
	ShowDay(n int)
	EditDay(name, key string, f func(*plan.Plan), days ...day.Day) plan.Problems
	TakeOffer(name string)
	LeaveOffer()
}

// telling is the panel that tells why the day is as it is, a part at a time. The day is asked only while the panel is in sight,
// and only for the part in sight; what it answered is kept until another day is shown.
type telling struct {
	asker    Asker
	edit     Editor
	state    session.State
	selected plan.ID
	part     view.Part

	sky     *light.Sky // the day that the answers are of: each has a sky of its own
	answers map[session.Question]*session.Answer
	looking session.Question // "" for none
	stop    func()
	asked   int // counts questions, so that an answer that nobody waits for is dropped

	shown   view.Told
	parts   []*widget.Button
	head    *widget.Label
	status  *widget.Label
	stopper *widget.Button
	again   *widget.Button
	body    *fyne.Container
	scroll  *container.Scroll
	object  *fyne.Container
}

func newTelling(asker Asker, edit Editor) *telling {
	t := &telling{asker: asker, edit: edit, part: view.TellDay, stop: func() {}, body: container.NewVBox()}
	nav := container.NewVBox()
	for _, part := range view.Parts {
		b := widget.NewButton("", func() { t.choose(part) })
		b.Alignment = widget.ButtonAlignLeading
		b.IconPlacement = widget.ButtonIconTrailingText
		t.parts = append(t.parts, b)
		nav.Add(b)
	}
	t.head = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	t.head.Truncation = fyne.TextTruncateEllipsis
	t.status = widget.NewLabel("")
	t.status.Importance = widget.LowImportance
	t.stopper = widget.NewButtonWithIcon(tongue.Say("Stop"), theme.MediaStopIcon(), func() { t.stop() })
	t.again = widget.NewButtonWithIcon(tongue.Say("Look again"), theme.ViewRefreshIcon(), func() {
		q, _ := t.question()
		delete(t.answers, q)
		t.refresh()
	})
	right := container.NewHBox(t.status, t.stopper, t.again)
	t.scroll = container.NewVScroll(container.New(noWider(900), t.body))
	told := container.NewBorder(container.NewBorder(nil, nil, nil, right, t.head), nil, nil, nil, t.scroll)
	left := container.NewBorder(nil, nil, nil, widget.NewSeparator(), container.New(wide(150), nav))
	t.object = container.NewBorder(nil, nil, left, nil, told)
	t.object.Hide()
	return t
}

// toggle shows or hides the panel.
func (t *telling) toggle() {
	setVisible(t.object, !t.object.Visible())
	t.refresh()
}

// choose shows another part.
func (t *telling) choose(part view.Part) {
	t.part = part
	t.scroll.ScrollToTop()
	t.refresh()
}

// show brings the panel up to a state and to what is selected on the board.
func (t *telling) show(st session.State, selected plan.ID) {
	t.state, t.selected = st, selected
	t.refresh()
}

func (t *telling) question() (session.Question, bool) { return t.part.Question(t.state, t.selected) }

func (t *telling) refresh() {
	if sky := t.state.Results.Chosen.Sky; sky != t.sky || t.state.Results.Busy {
		t.sky, t.answers = sky, map[session.Question]*session.Answer{}
		t.quit()
	}
	q, ok := t.question()
	if t.looking != "" && (t.looking != q || !t.object.Visible()) {
		t.quit()
	}
	if !t.object.Visible() {
		return
	}
	if ok && t.answers[q] == nil && t.looking == "" && !t.state.Results.Busy {
		t.ask(q)
	}
	t.render()
}

// quit gives up what is being looked for.
func (t *telling) quit() {
	t.stop()
	t.stop, t.looking = func() {}, ""
	t.asked++
}

func (t *telling) ask(q session.Question) {
	t.asked++
	mine := t.asked
	t.looking = q
	t.stop = t.asker.Ask(q, func(a session.Answer) {
		if mine == t.asked {
			t.looking, t.stop = "", func() {}
			t.answers[q] = &a
			t.refresh()
		}
	})
}

func (t *telling) render() {
	for i, part := range view.Parts {
		b := t.parts[i]
		markShown(b, part == t.part)
		b.SetText(part.Label(t.state, t.selected))
	}
	q, _ := t.question()
	answer := t.answers[q]
	now := t.part.Tell(view.Asking{State: t.state, Scene: t.selected, Answer: answer, Looking: t.looking != ""})
	t.head.SetText(now.Head)
	t.status.SetText(now.Status)
	setVisible(t.stopper, t.looking != "")
	setVisible(t.again, answer != nil && answer.Stopped)
	if !reflect.DeepEqual(now, t.shown) {
		t.shown = now
		t.fill()
	}
	t.object.Refresh()
}

// fill makes the body anew.
func (t *telling) fill() {
	t.body.RemoveAll()
	if len(t.shown.Table.Rows) > 0 {
		t.body.Add(t.table(t.shown.Table))
	}
	for _, it := range t.shown.Items {
		box := container.New(tight{})
		if it.Title != "" {
			l := wrapped()
			l.TextStyle.Bold = true
			l.SetText(it.Title)
			box.Add(l)
		}
		for _, line := range it.Lines {
			l := wrapped()
			l.SetText(line)
			box.Add(l)
		}
		t.body.Add(box)
		for _, c := range it.Choices {
			if c.Do.Button == "" {
				box.Add(t.choice(c))
			} else { // buttons must not lie on each other
				t.body.Add(t.choice(c))
			}
		}
	}
}

// choice is a line with its worth, or its button, before it.
func (t *telling) choice(c view.Choice) fyne.CanvasObject {
	text := wrapped()
	text.SetText(c.Text)
	if c.Do.Button != "" {
		return container.NewBorder(nil, nil, container.NewVBox(t.button(c.Do)), nil, text)
	}
	worth := widget.NewLabelWithStyle(c.Worth, fyne.TextAlignTrailing, fyne.TextStyle{Bold: true})
	return container.NewBorder(nil, nil, container.New(wide(110), worth), nil, text)
}

func (t *telling) button(do view.Do) *widget.Button {
	return widget.NewButton(do.Button, func() { t.edit(do.Name, "", do.Edit) })
}

// table holds days against each other, one a column.
func (t *telling) table(data view.Table) fyne.CanvasObject {
	shares := byShare{0.8}
	for range data.Heads {
		shares = append(shares, 1)
	}
	line := func(cells ...fyne.CanvasObject) fyne.CanvasObject { return container.New(shares, cells...) }
	cell := func(text string, bold bool) *widget.Label {
		l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: bold})
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	rows := container.New(tight{})
	heads := []fyne.CanvasObject{cell("", false)}
	for _, h := range data.Heads {
		heads = append(heads, cell(h, true))
	}
	for _, r := range data.Rows {
		name := cell(r.Name, false)
		name.Importance = widget.LowImportance
		cells := []fyne.CanvasObject{name}
		for i, text := range r.Cells {
			cells = append(cells, cell(text, r.Best[i]))
		}
		rows.Add(line(cells...))
	}
	buttons := []fyne.CanvasObject{cell("", false)}
	for _, do := range data.Do {
		if do.Button == "" {
			buttons = append(buttons, cell("", false))
			continue
		}
		buttons = append(buttons, container.NewHBox(t.button(do)))
	}
	return container.NewVBox(line(heads...), line(buttons...), rows) // the buttons first: on a small screen the last rows are out of sight
}

// noWider gives its object the room there is, up to a width.
type noWider float32

func (noWider) MinSize(objects []fyne.CanvasObject) fyne.Size { return objects[0].MinSize() }

func (w noWider) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Resize(fyne.NewSize(min(size.Width, float32(w)*theme.TextSize()/14), size.Height))
}
