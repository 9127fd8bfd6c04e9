package page

import (
	"slices"
	"strings"
	"time"

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
	d.rules = newForm(edit, nil)
	d.ruleFields()
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
	rows := container.NewVScroll(container.NewVBox(d.sky, d.faces, widget.NewSeparator(), d.board, widget.NewSeparator(), d.people))
	foot := container.NewVScroll(container.NewVBox(d.scene, d.troubles, d.loss))
	split := container.NewVSplit(rows, foot)
	split.Offset = 0.83
	d.object = container.NewBorder(container.NewVBox(top, d.year.object), nil, nil, container.New(wide(300), d.side), split)
	return d
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
	axis := dayAxis(day, draw.Gutter(names...), draw.Gutter(append(totals, "10 h 00")...))
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

func (d *Day) ruleFields() {
	f := d.rules
	f.table("Dates", table{
		item:   "date",
		count:  func(p *plan.Plan) int { return len(p.Shooting.Dates) },
		add:    d.addDate,
		raise:  raised(func(p *plan.Plan) []plan.Date { return p.Shooting.Dates }),
		remove: func(p *plan.Plan, i int) { p.Shooting.Dates = removed(p.Shooting.Dates, i) },
		columns: []column{
			dateColumn("Candidate", 1, func(p *plan.Plan, i int) *plan.Date { return &p.Shooting.Dates[i] }),
		},
	})
	f.choice("The date", func(p *plan.Plan) []option {
		out := []option{{"", "the best of them"}}
		for _, date := range p.Shooting.Dates {
			if !date.IsZero() {
				out = append(out, option{date.String(), date.Short()})
			}
		}
		if c := p.Shooting.Date; !c.IsZero() && !slices.Contains(p.Shooting.Dates, c) {
			out = append(out, option{c.String(), c.Short()})
		}
		return out
	}, func(p *plan.Plan) string { return p.Shooting.Date.String() }, func(p *plan.Plan, v string) {
		p.Shooting.Date, _ = plan.ParseDate(v) // one of the options, or none
	})
	clock := func(label string, at func(*plan.Shooting) *plan.Clock) {
		f.parsed(label, "", func(p *plan.Plan) string { return at(&p.Shooting).String() }, func(text string) (func(*plan.Plan), error) {
			c, err := plan.ParseClock(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = c }, err
		})
	}
	minutes := func(label string, at func(*plan.Shooting) *plan.Minutes) {
		f.parsed(label, "minutes", func(p *plan.Plan) string { return printNumber(float64(*at(&p.Shooting))) }, func(text string) (func(*plan.Plan), error) {
			v, err := parseWhole(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = plan.Minutes(v) }, err
		})
	}
	number := func(label string, at func(*plan.Shooting) *float64) {
		f.parsed(label, "", func(p *plan.Plan) string { return printNumber(*at(&p.Shooting)) }, func(text string) (func(*plan.Plan), error) {
			v, err := parseNumber(text)
			return func(p *plan.Plan) { *at(&p.Shooting) = v }, err
		})
	}
	weather := widget.NewMultiLineEntry()
	weather.SetMinRowsVisible(3)
	f.add("Weather", weather, "type or paste, a line each:\n06:00-11:00 cloud 70 rain 20", func(p *plan.Plan) string { return printWeather(p.Shooting.Weather) },
		func(text string) (func(*plan.Plan), error) {
			list, err := parseWeather(text, d.state.Results.Chosen.Date)
			return func(p *plan.Plan) { p.Shooting.Weather = list }, err
		})
	f.says("", func(*plan.Plan) string { return view.WeatherAdvice })
	f.heading("Rules of the day")
	clock("Earliest call", func(s *plan.Shooting) *plan.Clock { return &s.EarliestCall })
	clock("Latest wrap", func(s *plan.Shooting) *plan.Clock { return &s.LatestWrap })
	minutes("Longest day", func(s *plan.Shooting) *plan.Minutes { return &s.Longest })
	minutes("Call to set-up", func(s *plan.Shooting) *plan.Minutes { return &s.Prepare })
	minutes("Talent early by", func(s *plan.Shooting) *plan.Minutes { return &s.Ready })
	minutes("Pack-up", func(s *plan.Shooting) *plan.Minutes { return &s.PackUp })
	minutes("Meal within", func(s *plan.Shooting) *plan.Minutes { return &s.MealWithin })
	minutes("Meal length", func(s *plan.Shooting) *plan.Minutes { return &s.MealLength })
	minutes("Starts every", func(s *plan.Shooting) *plan.Minutes { return &s.Grid })
	f.says("", func(*plan.Plan) string { return view.HoursCaution })
	f.heading("What costs how many points")
	number("Light, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Light })
	number("Waiting, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Waiting })
	number("A minor, times", func(s *plan.Shooting) *float64 { return &s.Weights.Minor })
	number("Moving, a minute", func(s *plan.Shooting) *float64 { return &s.Weights.Moving })
	number("The day, an hour", func(s *plan.Shooting) *float64 { return &s.Weights.Length })
	number("A scene left out", func(s *plan.Shooting) *float64 { return &s.Weights.LeftOut })
	f.heading("Sun's altitude, degrees")
	angle := func(label string, at func(*plan.LightLimits) *plan.Angle) {
		number(label, func(s *plan.Shooting) *float64 { return (*float64)(at(&s.Light)) })
	}
	angle("Golden from", func(l *plan.LightLimits) *plan.Angle { return &l.GoldenLow })
	angle("Golden to", func(l *plan.LightLimits) *plan.Angle { return &l.GoldenHigh })
	angle("Blue from", func(l *plan.LightLimits) *plan.Angle { return &l.BlueLow })
	angle("Blue to", func(l *plan.LightLimits) *plan.Angle { return &l.BlueHigh })
}

// addDate proposes the same weekday a week after the last date, or the second Saturday from now.
func (d *Day) addDate(p *plan.Plan) {
	next := d.today().AddDays(7)
	for next.Weekday() != time.Saturday {
		next = next.AddDays(1)
	}
	if n := len(p.Shooting.Dates); n > 0 {
		next = p.Shooting.Dates[n-1].AddDays(7)
	}
	for slices.Contains(p.Shooting.Dates, next) {
		next = next.AddDays(7)
	}
	p.Shooting.Dates = append(p.Shooting.Dates, next)
}
