package draw

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// YearData is what a year map shows: when in a year one wish holds.
type YearData struct {
	Year  int
	Days  []YearDay // from 1 January; days beyond the year are not shown
	Marks []YearMark
	Title string // the wish and the space, in a few words
	Empty string // shown instead when there are no days
}

// YearDay is one date, in minutes of its wall clock.
type YearDay struct {
	Holds []MinuteSpan // when the wish holds, in any order
	Light MinuteSpan   // sunrise to sunset: 0 to 1440 where the sun does not set, nothing where it does not rise
}

// MinuteSpan is a span of minutes since midnight. One that ends after 1440 reaches into the next day; the map draws it to
// midnight, and tells its true end.
type MinuteSpan struct{ From, To int }

// YearMark is a date with a few words about it: a candidate, or the chosen one.
type YearMark struct {
	Day    int // since 1 January, which is 0
	Label  string
	Chosen bool
}

// YearMap shows a year at a glance: the dates across, the hours of the wall clock down, an area where the wish holds, and
// behind it the daylight. A press, or Return at the cursor that the arrow keys move, selects a date.
type YearMap struct {
	widget.BaseWidget
	OnSelect func(day int) // a date was selected here; days since 1 January

	data    YearData
	cursor  int // day
	hover   int // day under the pointer, or -1
	focused bool
	pic     picture
}

// NewYearMap returns an empty map.
func NewYearMap() *YearMap {
	w := &YearMap{hover: -1}
	w.pic.draw = w.drawYear
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *YearMap) Set(d YearData) {
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *YearMap) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *YearMap) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(22*line, 13*line)
}

func (w *YearMap) paint(p *pieces, size fyne.Size) {
	if len(w.data.Days) == 0 {
		paintEmpty(p, w.Theme(), size, w.data.Empty)
	}
}

func (w *YearMap) drawYear(p *pen) { _ = look.Of(w.Theme()) }
