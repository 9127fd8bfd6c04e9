package page

import (
	"slices"
	"strings"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Day is the heart of the window: the candidate dates, the sky and the faces through the day, the scenes on the board, the
// people under them, and what is wrong.
type Day struct {
	edit     Editor
	open     func(scene plan.ID)
	today    func() plan.Date
	state    session.State
	selected plan.ID // scene

	strip    *draw.DateStrip
	sky      *draw.SkyRibbon
	faces    *draw.FaceHours
	board    *draw.Board
	people   *draw.PeopleRows
	scene    *widget.Label
	loss     *widget.Label
	troubles *widget.Label
	rules    *form
	year     *year
	side     fyne.CanvasObject
	object   fyne.CanvasObject
}

// NewDay builds the page. open shows a scene on its own page.
func NewDay(edit Editor, open func(plan.ID), today func() plan.Date, async Async) *Day {
	d := &Day{
		edit: edit, open: open, today: today,
		strip: draw.NewDateStrip(), sky: draw.NewSkyRibbon(), faces: draw.NewFaceHours(), board: draw.NewBoard(), people: draw.NewPeopleRows(),
		scene: wrapped(), loss: wrapped(), troubles: wrapped(),
	}
	d.loss.Importance = widget.LowImportance
	d.strip.OnSelect = d.ChooseDate
	d.board.OnSelect = func(id string) {
		d.selected = plan.ID(id)
		d.year.show(d.state, d.selected)
		d.show()
	}
	d.board.OnOpen = func(id string) { d.open(plan.ID(id)) }
	// The weather's lines without a date are for the date shown; so with another date the fields are written anew.
	d.rules = newForm(edit, func() string { return d.state.Results.Chosen.Date.String() })
	d.dateFields()
	d.ruleFields()
	d.weightFields()
	d.side = container.NewVScroll(measure(d.rules.box))
	d.side.Hide()
	var toggle *widget.Button
	toggle = widget.NewButtonWithIcon("Dates and rules", theme.SettingsIcon(), func() {
		setVisible(d.side, !d.side.Visible())
		d.object.Refresh()
	})
	d.year = newYear(async, today, d.proposeDate)
	look := widget.NewButtonWithIcon("Year", theme.GridIcon(), func() {
		d.year.toggle()
		d.object.Refresh()
	})
	top := container.NewBorder(nil, nil, nil, container.NewHBox(container.NewVBox(look), container.NewVBox(toggle)), d.strip)
	rows := container.NewVScroll(container.New(growing{d.board}, d.sky, d.faces, widget.NewSeparator(), d.board, widget.NewSeparator(), d.people))
	foot := container.NewVScroll(container.NewVBox(d.loss, d.scene, d.troubles))
	split := container.NewVSplit(rows, foot)
	split.Offset = 0.83
	d.object = container.NewBorder(container.NewVBox(top, d.year.object), nil, nil, container.New(wide(300), d.side), split)
	return d
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
	d.state = st
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
		d.edit("propose a date", "", func(p *plan.Plan) { p.Shooting.Dates = append(p.Shooting.Dates, date) })
	}
}

func (d *Day) show() {
	p, day := d.state.Plan, d.state.Results.Chosen
	names, totals := []string{"Sky"}, []string{}
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
	axis := dayAxis(day, draw.Gutter(names...), draw.Gutter(append(totals, "10 h 00")...)+2*theme.Padding())
	d.strip.Set(cards(d.state))
	d.sky.Set(skyData(day, axis))
	d.faces.Set(faceData(p, day, axis))
	d.board.Set(boardData(p, day, axis, d.selected))
	d.people.Set(peopleData(p, day, axis))
	d.scene.SetText(view.SelectedScene(d.state, d.selected))
	setVisible(d.scene, d.selected != "")
	d.troubles.SetText(strings.Join(view.Troubles(day), "\n"))
	d.loss.SetText(view.LossLine(day))
}

// ChooseDate fixes the day's date by hand, or lets the best date win again when the fixed one is pressed once more.
func (d *Day) ChooseDate(id string) {
	date, err := plan.ParseDate(id)
	if err != nil {
		return
	}
	if d.state.Plan.Shooting.Date == date {
		d.edit("let the best date win", "", func(p *plan.Plan) { p.Shooting.Date = plan.Date{} })
		return
	}
	d.edit("choose the date", "", func(p *plan.Plan) { p.Shooting.Date = date })
}
