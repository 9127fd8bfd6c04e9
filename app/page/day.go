package page

import (
	"slices"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Day is the heart of the window: the candidate dates, the sky and the faces through the day, the scenes on the board, the
// people under them, and what is wrong.
type Day struct {
	edit     Editor
	open     func(view.Hit)
	today    func() plan.Date
	asker    Asker
	async    Async
	pick     func(chosen func(path string))
	state    session.State
	selected plan.ID // scene
	hand     *hand
	dates    *dates
	gutters  [2]float32 // room beside the rows

	strip   *draw.DateStrip
	days    *fyne.Container // a button a day of a longer shoot
	sky     *draw.SkyRibbon
	faces   *draw.FaceHours
	board   *draw.Board
	people  *draw.PeopleRows
	loss    *draw.LossRow
	wrongs  *wrongs // on the selected scene, and what is wrong
	rules   *form
	year    *year
	telling *telling
	rows    *wheelScroll
	foot    *fyne.Container // what is said of the day under the board
	none    *widget.Label   // in place of it and of the rows, while there is no day
	split   *container.Split
	other   float64 // where the split is to stand when the telling is opened, or closed
	side    *container.Scroll
	ruleAt  map[plan.ID]*widget.Entry // fields of the rules, by their paths in the plan
	object  fyne.CanvasObject
}

// NewDay builds the page. open shows something on its own page, and pick asks for a file of minors' hours.
func NewDay(edit Editor, open func(view.Hit), today func() plan.Date, async Async, asker Asker, pick func(chosen func(path string))) *Day {
	d := &Day{
		edit: edit, open: open, today: today, asker: asker, async: async, pick: pick,
		strip: draw.NewDateStrip(), sky: draw.NewSkyRibbon(), faces: draw.NewFaceHours(), board: draw.NewBoard(), people: draw.NewPeopleRows(),
		days: container.NewHBox(), loss: draw.NewLossRow(),
		telling: newTelling(asker, edit), other: 0.52, ruleAt: map[plan.ID]*widget.Entry{},
	}
	d.days.Hide()
	d.hand = newHand(d)
	d.dates = newDates(d)
	d.strip.OnSelect, d.strip.OnCompare = d.ChooseDate, d.dates.pressed
	d.strip.OnRemove = func(string) { d.dates.takeOut(d.state.Results.Chosen.Date) }
	d.wrongs = newWrongs(d.follow)
	d.board.OnSelect = func(id string) { d.selectScene(plan.ID(id)) }
	d.board.OnOpen = func(id string) { d.open(view.Hit{Kind: view.SceneHit, Page: view.Scenes, ID: plan.ID(id)}) }
	// The weather's lines without a date are for the date shown; so with another date the fields are written anew.
	d.rules = newForm(edit, func() string { return d.state.Results.Chosen.Date.String() })
	d.dateFields()
	d.ruleFields()
	d.flyingFields()
	d.weightFields()
	d.side = container.NewVScroll(measure(d.rules.box))
	d.side.Hide()
	d.year = newYear(async, today, d.proposeDate)
	d.object = d.build()
	return d
}

// build lays the page out.
func (d *Day) build() fyne.CanvasObject {
	toggle := widget.NewButtonWithIcon(tongue.Say("Dates and rules"), theme.SettingsIcon(), func() {
		setVisible(d.side, !d.side.Visible())
		d.object.Refresh()
	})
	look := widget.NewButtonWithIcon(tongue.Say("Year"), theme.GridIcon(), func() {
		d.year.toggle()
		d.object.Refresh()
	})
	top := container.NewBorder(nil, nil, nil, container.NewVBox(container.NewHBox(layout.NewSpacer(), look, toggle), container.NewHBox(layout.NewSpacer(), d.dates.buttons)), d.strip)
	rows := container.New(growing{d.board}, d.sky, d.faces, widget.NewSeparator(), d.board, widget.NewSeparator(), d.people)
	d.rows = newWheelScroll(container.NewStack(rows, d.hand.cursor.object), d.hand.wheeled)
	why := widget.NewButtonWithIcon(tongue.Say("Why this day"), theme.QuestionIcon(), d.toggleTelling)
	line := container.NewBorder(nil, nil, nil, container.NewCenter(why), d.loss)
	d.foot = container.NewVBox(d.hand.row, line)
	d.none = widget.NewLabelWithStyle(tongue.Say("No day is placed yet."), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	d.none.Hide()
	d.split = container.NewVSplit(d.rows, container.NewBorder(container.NewVBox(d.foot, d.none), nil, nil, nil, container.New(instead{}, d.telling.object, d.wrongs.scroll)))
	d.split.Offset = 0.79
	return container.NewBorder(container.NewVBox(top, d.dates.panel, d.year.object, d.days), nil, nil, container.New(rulesWidth{}, d.side), d.split)
}

// toggleTelling opens the telling and makes room for it, with the board still in sight, or closes it. Either way the foot gets
// the height that it had so before.
func (d *Day) toggleTelling() {
	d.telling.toggle()
	at := d.split.Offset
	d.split.SetOffset(d.other)
	d.other = at
	d.object.Refresh()
	d.rows.Offset = fyne.Position{}
	if d.telling.object.Visible() {
		d.rows.Offset.Y = max(0, min(d.board.Position().Y, d.rows.Content.Size().Height-d.rows.Size().Height))
	}
	d.rows.Refresh()
}

// instead shows its first object in place of the second, while it is visible.
type instead struct{}

func (instead) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if objects[0].Visible() {
		return objects[0].MinSize()
	}
	return objects[1].MinSize()
}

func (instead) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		o.Resize(size)
	}
	setVisible(objects[1], !objects[0].Visible())
}

// growing stacks objects like a box, and gives one of them up to twice its height of the room that is left.
type growing struct{ it fyne.CanvasObject }

func (growing) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(0, theme.Padding()*float32(len(objects)-1))
	for _, o := range objects {
		least := o.MinSize()
		size = fyne.NewSize(max(size.Width, least.Width), size.Height+least.Height)
	}
	return size
}

func (g growing) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	spare := max(0, size.Height-g.MinSize(objects).Height)
	y := float32(0)
	for _, o := range objects {
		h := o.MinSize().Height
		if o == g.it {
			h += min(spare, h)
		}
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, h))
		y += h + theme.Padding()
	}
}

// wide gives its object at least a width, or none while it is hidden.
type wide float32

func (w wide) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if !objects[0].Visible() {
		return fyne.Size{}
	}
	least := objects[0].MinSize()
	return fyne.NewSize(max(float32(w)*theme.TextSize()/14, least.Width), least.Height)
}

func (w wide) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// rulesWidth is how wide the rules are beside the day: they grow slower than the text, so that the day keeps some room.
type rulesWidth struct{}

func (rulesWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if !objects[0].Visible() {
		return fyne.Size{}
	}
	least := objects[0].MinSize()
	return fyne.NewSize(max(130+11.4*theme.TextSize(), least.Width), least.Height)
}

func (rulesWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

func wrapped() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

// Object is the page.
func (d *Day) Object() fyne.CanvasObject { return d.object }

// Revert is Reverter's.
func (d *Day) Revert() bool { return d.rules.Revert() }

// Show brings the page up to the state.
func (d *Day) Show(st session.State) {
	d.state, d.hand.cannot = st, ""
	if _, ok := st.Plan.Scene(d.selected); !ok {
		d.selected = ""
	}
	d.rules.show(&st.Plan)
	d.year.show(st, "")
	d.show()
}

// proposeDate adds a candidate date.
func (d *Day) proposeDate(date plan.Date) {
	if !slices.Contains(d.state.Plan.Shooting.Dates, date) {
		d.edit(tongue.Say("propose a date"), "", func(p *plan.Plan) { p.Shooting.Dates = append(p.Shooting.Dates, date) })
	}
}

func (d *Day) show() {
	p, day := d.state.Plan, d.state.Results.Chosen
	names, totals := []string{tongue.Say("Sky")}, []string{}
	for _, s := range p.Property.Spaces {
		names = append(names, view.SpaceName(s))
	}
	for _, f := range p.Property.Faces {
		names = append(names, view.FaceName(f))
	}
	for _, pr := range day.People {
		who, _ := p.Person(pr.Person)
		names, totals = append(names, who.Called()), append(totals, view.Waits(pr))
	}
	d.gutters = [2]float32{draw.Gutter(names...), draw.Gutter(append(totals, "10 h 00")...) + 2*theme.Padding()}
	axis := d.axis()
	d.dates.show()
	d.strip.Set(cards(d.state, d.dates.beside))
	d.showDays()
	d.sky.Set(skyData(d.state, day, axis))
	d.faces.Set(faceData(p, day, axis))
	d.board.Set(boardData(d.state, axis, d.selected, d.hand.also))
	d.people.Set(peopleData(p, day, axis))
	d.wrongs.show(view.DayLines(d.state, d.selected), d.selected)
	d.loss.Set(lossData(d.state))
	d.telling.show(d.state, d.selected)
	d.hand.show()
	if none := day.Sky == nil; !none || !d.state.Results.Busy { // every placing of a plan that has no day would show an empty board
		d.showNone(none)
	}
}

// showNone leaves of the page what a day still lacks, while there is none.
func (d *Day) showNone(none bool) {
	if none == d.none.Visible() {
		return
	}
	if none && d.telling.object.Visible() { // there is nothing to tell, and what would close it goes
		d.toggleTelling()
	}
	setVisible(d.none, none)
	setVisible(d.foot, !none)
	setVisible(d.rows, !none)
	d.object.Refresh()
}

// axis is the part of the day that is looked at, and wholeAxis all of it.
func (d *Day) axis() draw.Axis { return d.hand.closer(d.wholeAxis(), d.state.Results.Chosen) }

func (d *Day) wholeAxis() draw.Axis {
	return dayAxis(d.state.Results.Chosen, d.gutters[0], d.gutters[1])
}

// selectScene selects a scene, here and in the year.
func (d *Day) selectScene(id plan.ID) {
	d.selected, d.hand.cannot = id, ""
	d.year.show(d.state, d.selected)
	d.show()
}

// showDays shows a button a day where the shoot has several.
func (d *Day) showDays() {
	shoot := d.state.Results.Shoot.Days
	setVisible(d.days, len(shoot) > 1)
	for len(d.days.Objects) < len(shoot) {
		n := len(d.days.Objects)
		d.days.Add(widget.NewButton("", func() { d.asker.ShowDay(n) }))
	}
	for i, o := range d.days.Objects {
		b := o.(*widget.Button)
		setVisible(b, i < len(shoot))
		if i >= len(shoot) {
			continue
		}
		markShown(b, shoot[i].Sky == d.state.Results.Chosen.Sky)
		b.SetText(view.DayLabel(shoot[i]))
	}
}

// ChooseDate fixes the day's date by hand, or lets the best date win again when the fixed one is pressed once more.
func (d *Day) ChooseDate(id string) {
	date, err := plan.ParseDate(id)
	if err != nil {
		return
	}
	if d.state.Plan.Shooting.Date == date {
		d.edit(tongue.Say("let the best date win"), "", func(p *plan.Plan) { p.Shooting.Date = plan.Date{} })
		return
	}
	d.edit(tongue.Say("choose the date"), "", func(p *plan.Plan) { p.Shooting.Date = date })
}
