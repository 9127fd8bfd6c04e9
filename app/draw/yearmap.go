package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
	"eavelight/app/tongue"
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
// behind it the daylight. A press selects a date, and so does Return at the cursor, which the arrow keys move by a day or a
// week and Page Up and Page Down by four.
type YearMap struct {
	widget.BaseWidget
	OnSelect func(day int) // a date was selected here; days since 1 January

	data    YearData
	cursor  int // day
	hover   int // day under the pointer, or -1
	focused bool
	pic     picture
	box     yearBox // where the picture lies, for drawing it
}

var (
	_ fyne.Focusable     = (*YearMap)(nil)
	_ desktop.Mouseable  = (*YearMap)(nil)
	_ desktop.Hoverable  = (*YearMap)(nil)
	_ desktop.Cursorable = (*YearMap)(nil)
)

// NewYearMap returns an empty map.
func NewYearMap() *YearMap {
	w := &YearMap{hover: -1}
	w.pic.draw = w.drawYear
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. The cursor goes to the chosen date when that is another than before, or to the first mark of another
// year. Call it on the UI goroutine.
func (w *YearMap) Set(d YearData) {
	before, year := chosenDay(w.data.Marks), w.data.Year
	w.data = d
	switch chosen := chosenDay(d.Marks); {
	case chosen >= 0 && chosen != before:
		w.cursor = chosen
	case year != d.Year && len(d.Marks) > 0 && chosen < 0:
		w.cursor = d.Marks[0].Day
	}
	w.cursor = w.clamp(w.cursor)
	w.Refresh()
}

// chosenDay is the day of the chosen mark, or -1.
func chosenDay(marks []YearMark) int {
	for _, m := range marks {
		if m.Chosen {
			return m.Day
		}
	}
	return -1
}

// days is how many days the map's year has.
func (w *YearMap) days() int { return time.Date(w.data.Year, 12, 31, 0, 0, 0, 0, time.UTC).YearDay() }

func (w *YearMap) clamp(day int) int { return max(0, min(w.days()-1, day)) }

// date is the date of a day of the map's year.
func (w *YearMap) date(day int) time.Time {
	return time.Date(w.data.Year, 1, 1+day, 0, 0, 0, 0, time.UTC)
}

// CreateRenderer is Fyne's.
func (w *YearMap) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, &w.pic) }

func (w *YearMap) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(20*line, 12*line)
}

// FocusGained is Fyne's.
func (w *YearMap) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *YearMap) FocusLost() { w.setFocus(false) }

func (w *YearMap) setFocus(on bool) {
	w.focused = on
	w.pic.touch(w)
}

// TypedRune is Fyne's; the map takes no text.
func (w *YearMap) TypedRune(rune) {}

// TypedKey moves the cursor, and selects its date by Return or Space.
func (w *YearMap) TypedKey(e *fyne.KeyEvent) {
	const week = 7
	switch e.Name {
	case fyne.KeyLeft:
		w.move(w.cursor - 1)
	case fyne.KeyRight:
		w.move(w.cursor + 1)
	case fyne.KeyUp:
		w.move(w.cursor - week)
	case fyne.KeyDown:
		w.move(w.cursor + week)
	case fyne.KeyPageUp:
		w.move(w.cursor - 4*week)
	case fyne.KeyPageDown:
		w.move(w.cursor + 4*week)
	case fyne.KeyHome:
		w.move(0)
	case fyne.KeyEnd:
		w.move(w.days() - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		w.choose()
	}
}

// move puts the cursor on a day, brought into the year; the caption tells of the cursor from then on.
func (w *YearMap) move(day int) {
	w.cursor, w.hover = w.clamp(day), -1
	w.pic.touch(w)
}

func (w *YearMap) choose() {
	if len(w.data.Days) > 0 && w.OnSelect != nil {
		w.OnSelect(w.cursor)
	}
}

// MouseDown takes the focus and selects the date under the pointer.
func (w *YearMap) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if day := w.dayAt(e.Position); day >= 0 && e.Button == desktop.MouseButtonPrimary {
		w.move(day)
		w.choose()
	}
}

// MouseUp is Fyne's; the choice is made on MouseDown.
func (w *YearMap) MouseUp(*desktop.MouseEvent) {}

// MouseIn is Fyne's.
func (w *YearMap) MouseIn(e *desktop.MouseEvent) { w.MouseMoved(e) }

// MouseMoved tells of the date under the pointer.
func (w *YearMap) MouseMoved(e *desktop.MouseEvent) { w.point(w.dayAt(e.Position)) }

// MouseOut is Fyne's.
func (w *YearMap) MouseOut() { w.point(-1) }

func (w *YearMap) point(day int) {
	if day != w.hover {
		w.hover = day
		w.pic.touch(w)
	}
}

// dayAt is the day under a point of the plot, or -1.
func (w *YearMap) dayAt(at fyne.Position) int {
	b := w.box
	if len(w.data.Days) == 0 || at.Y < b.top || at.Y >= b.top+b.height {
		return -1
	}
	return b.day(at.X)
}

// Cursor is a hand over the plot.
func (w *YearMap) Cursor() desktop.Cursor {
	if w.hover >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// yearBox is the plot's place in the widget: days across, minutes down.
type yearBox struct {
	x, top, width, height float32 // Fyne units
	days                  int
}

// dayX is the left edge of a day's column; that of the day after the last is the plot's right edge.
func (b yearBox) dayX(day int) float32 { return b.x + b.width*float32(day)/float32(max(1, b.days)) }

// mid is the middle of a day's column.
func (b yearBox) mid(day int) float32 { return (b.dayX(day) + b.dayX(day+1)) / 2 }

// day is the day whose column holds an x, or -1.
func (b yearBox) day(x float32) int {
	if x < b.x || x >= b.x+b.width {
		return -1
	}
	return min(b.days-1, int((x-b.x)/b.width*float32(b.days)))
}

// y is where a minute of the day stands.
func (b yearBox) y(minute int) float32 { return b.top + b.height*float32(minute)/dayMinutes }

const dayMinutes = 24 * 60

// lay places the plot: above it the title and the marks' words, at its left the hours, below the months and the caption.
func (w *YearMap) lay(size fyne.Size) yearBox {
	th := w.Theme()
	f, gap := small(th), th.Size(theme.SizeNamePadding)
	b := yearBox{x: f.measure(tongue.FullHour(midnight)).Width + 3*gap, top: plain(th).height() + f.height() + gap, days: w.days()}
	b.width = max(0, size.Width-b.x-gap)
	b.height = max(0, size.Height-b.top-f.height()-plain(th).height()-2*gap)
	return b
}

func (w *YearMap) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Days) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
	} else {
		w.box = w.lay(size)
		p.pic(w.box.x, w.box.top, w.box.width, w.box.height)
		w.paintTitle(p, size)
		w.paintAxes(p)
		w.paintMarks(p)
		w.paintCursor(p)
		gap := th.Size(theme.SizeNamePadding)
		day := w.hover
		if day < 0 {
			day = w.cursor
		}
		p.text(w.caption(day), gap, size.Height-plain(th).height()-gap/2, size.Width-2*gap, plain(th), look.Of(th).Ink)
	}
	if w.focused {
		p.ring(0, 0, size.Width, size.Height, look.Of(th).Accent, 2, th.Size(theme.SizeNameInputRadius))
	}
}
