package page

import (
	"testing"
	"time"

	"eavelight/app/tongue"
	"eavelight/plan"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestMonth holds the columns of a leaf against time.Weekday of the standard library, for every month of four years and both
// beginnings of a week.
func TestMonth(t *testing.T) {
	test.NewTempApp(t)
	defer tongue.UseWeekStart(tongue.WeekStart())
	for _, start := range []time.Weekday{time.Monday, time.Sunday} {
		tongue.UseWeekStart(start)
		var picked plan.Date
		m := newMonth(plan.Date{Year: 2027, Month: time.January, Day: 31}, func(d plan.Date) { picked = d })
		for range 48 {
			days := 0
			for i, o := range m.days.Objects[7:] {
				b, ok := o.(*widget.Button)
				if !ok {
					continue
				}
				days++
				b.OnTapped()
				if picked.Day != days || picked.Month != m.first.Month || picked.Weekday() != (start+time.Weekday(i%7))%7 {
					t.Fatalf("cell %d of %v gives %v, a %v", i, m.first, picked, picked.Weekday())
				}
			}
			if next := m.first.AddDays(days); next.Day != 1 || len(m.days.Objects) != 7*7 {
				t.Fatalf("%v has %d days in %d cells", m.first, days, len(m.days.Objects))
			}
			m.first = m.first.AddDays(days)
			m.fill()
		}
	}
}
