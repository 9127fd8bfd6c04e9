package page

import (
	"strconv"
	"time"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// month is a leaf of a calendar whose days can be pressed. Fyne's own has its months in English and takes the first day of the
// week from the region of the computer.
type month struct {
	first  plan.Date // the first day of the month shown
	pick   func(plan.Date)
	name   *widget.Label
	days   *fyne.Container
	object fyne.CanvasObject
}

// newMonth shows the month of a date.
func newMonth(of plan.Date, pick func(plan.Date)) *month {
	m := &month{first: plan.Date{Year: of.Year, Month: of.Month, Day: 1}, pick: pick}
	m.name = widget.NewLabelWithStyle("", fyne.TextAlignCenter, fyne.TextStyle{Bold: true})
	m.days = container.New(layout.NewGridLayoutWithColumns(7))
	turn := func(months int) func() {
		return func() {
			m.first = plan.DateOf(time.Date(m.first.Year, m.first.Month+time.Month(months), 1, 12, 0, 0, 0, time.UTC))
			m.fill()
		}
	}
	head := container.NewBorder(nil, nil, widget.NewButtonWithIcon("", theme.NavigateBackIcon(), turn(-1)),
		widget.NewButtonWithIcon("", theme.NavigateNextIcon(), turn(1)), m.name)
	m.fill()
	m.object = container.NewBorder(head, nil, nil, nil, m.days)
	return m
}

// fill writes the days of the month, under the names of the days of the week.
func (m *month) fill() {
	m.name.SetText(tongue.Say("month and year|%s %d", say.Month(m.first.Month), m.first.Year))
	m.days.RemoveAll()
	start := tongue.WeekStart()
	for i := range 7 {
		m.days.Add(widget.NewLabelWithStyle(tongue.Of(say.ShortWeekday((start+time.Weekday(i))%7)), fyne.TextAlignCenter, fyne.TextStyle{}))
	}
	lead := (int(m.first.Weekday()) - int(start) + 7) % 7
	for range lead {
		m.days.Add(widget.NewLabel(""))
	}
	cells := lead
	for day := m.first; day.Month == m.first.Month; day = day.AddDays(1) {
		b := widget.NewButton(strconv.Itoa(day.Day), func() { m.pick(day) })
		b.Importance = widget.LowImportance
		m.days.Add(b)
		cells++
	}
	for ; cells < 6*7; cells++ { // always six rows, so that nothing jumps from month to month
		m.days.Add(widget.NewLabel(""))
	}
	m.days.Refresh()
}
