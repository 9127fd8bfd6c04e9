package page

import (
	"context"
	"reflect"
	"time"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// year shows for one scene when in a year its light comes, to choose a date months ahead. It is computed off the UI
// goroutine while it is in sight, and again when something it depends on changes.
type year struct {
	async  Async
	today  func() plan.Date
	scene  *widget.Select
	shows  *draw.YearMap
	state  session.State
	scenes []plan.ID
	at     plan.ID // the scene shown
	year   int
	from   basis
	cancel context.CancelFunc
	asked  int // counts computings, so that a late one is dropped
	object *fyne.Container
}

func newYear(async Async, today func() plan.Date, pick func(plan.Date)) *year {
	y := &year{async: async, today: today, shows: draw.NewYearMap(), cancel: func() {}}
	y.shows.OnSelect = func(n int) { pick(plan.Date{Year: y.year, Month: time.January, Day: 1}.AddDays(n)) }
	y.scene = newSelect(nil, func(string) {
		if i := y.scene.SelectedIndex(); i >= 0 && y.scenes[i] != y.at {
			y.at = y.scenes[i]
			y.compute()
		}
	})
	advice := widget.NewLabel(tongue.Say("Press a date to propose it."))
	advice.Importance = widget.LowImportance
	y.object = container.NewBorder(container.NewBorder(nil, nil, widget.NewLabel(tongue.Say("The year for scene")), advice, framed(y.scene)), nil, nil, nil, y.shows)
	y.object.Hide()
	return y
}

// toggle shows or hides the year.
func (y *year) toggle() {
	setVisible(y.object, !y.object.Visible())
	y.show(y.state, y.at)
}

// show brings the year up to a state. selected is the scene selected elsewhere on the page, if any.
func (y *year) show(st session.State, selected plan.ID) {
	y.state = st
	if !y.object.Visible() {
		y.cancel()
		y.from = basis{}
		return
	}
	if selected != "" {
		y.at = selected
	}
	y.scenes = nil
	var names []string
	for _, o := range distinct(sceneOptions(&st.Plan)) {
		y.scenes, names = append(y.scenes, plan.ID(o.value)), append(names, o.name)
	}
	if _, ok := st.Plan.Scene(y.at); !ok && len(y.scenes) > 0 {
		y.at = y.scenes[0]
	}
	y.scene.SetOptions(names)
	for i, id := range y.scenes {
		if id == y.at && y.scene.SelectedIndex() != i {
			y.scene.SetSelectedIndex(i)
		}
	}
	y.compute()
}

// basis is what a year is computed from, and what is shown with it.
type basis struct {
	house  plan.Property
	scene  plan.Scene
	limits plan.LightLimits
	dates  []plan.Date
	chosen plan.Date
	year   int
}

func (y *year) compute() {
	sc, ok := y.state.Plan.Scene(y.at)
	from := basis{y.state.Plan.Property, sc, y.state.Plan.Shooting.Light, day.Candidates(&y.state.Plan),
		y.state.Results.Chosen.Date, view.YearShown(y.state, y.today())}
	if ok && reflect.DeepEqual(from, y.from) {
		return
	}
	y.from = from
	y.cancel()
	ctx, cancel := context.WithCancel(context.Background())
	y.cancel = cancel
	y.asked++
	mine, st := y.asked, y.state
	if !ok || st.Plan.Property.Position == nil {
		y.shows.Set(draw.YearData{Empty: tongue.Say("Set the position and add a scene, and the year is drawn.")})
		return
	}
	y.year = from.year
	year := y.year
	y.async(func() func() {
		found, err := light.YearOf(ctx, &st.Plan, day.Zone(&st.Plan), sc, year)
		return func() {
			if err == nil && mine == y.asked {
				y.shows.Set(yearData(st, sc, year, found))
			}
		}
	})
}

func yearData(st session.State, sc plan.Scene, year int, found light.Year) draw.YearData {
	out := draw.YearData{Year: year, Title: view.YearTitle(st.Plan, sc)}
	for _, d := range found {
		var shown draw.YearDay
		if d.Rise.IsSet() && d.Set.IsSet() {
			shown.Light = draw.MinuteSpan{From: d.Rise.Minutes(), To: d.Set.Minutes()}
		} else if d.SunUp {
			shown.Light = draw.MinuteSpan{To: 24 * 60}
		}
		for _, s := range d.Holds {
			shown.Holds = append(shown.Holds, draw.MinuteSpan{From: s.From.Minutes(), To: s.To.Minutes()})
		}
		out.Days = append(out.Days, shown)
	}
	for _, date := range day.Candidates(&st.Plan) {
		if date.Year == year {
			n := time.Date(date.Year, date.Month, date.Day, 0, 0, 0, 0, time.UTC).YearDay() - 1
			out.Marks = append(out.Marks, draw.YearMark{Day: n, Label: tongue.Of(date.SaidDayMonth()), Chosen: date == st.Results.Chosen.Date})
		}
	}
	return out
}
