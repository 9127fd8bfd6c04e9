package draw

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

// shownYear is the sample year in a window, and the days it reports.
func shownYear(t *testing.T) (w *YearMap, selected *[]int, c fyne.Canvas) {
	use(t, look.New(false))
	w, selected = NewYearMap(), new([]int)
	w.OnSelect = func(day int) { *selected = append(*selected, day) }
	w.Set(sampleYear(48))
	win := test.NewTempWindow(t, w)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(1000, 220))
	return w, selected, win.Canvas()
}

func TestYearMapSelectsByPress(t *testing.T) {
	w, selected, c := shownYear(t)
	for _, day := range []int{0, 200, 364} {
		press(w, w.box.mid(day), w.box.top+20)
	}
	press(w, 2, w.box.top+20)           // left of the plot
	press(w, w.box.mid(9), w.box.top-5) // over it
	w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(w.box.mid(30), 100)}, Button: desktop.MouseButtonSecondary})
	if want := []int{0, 200, 364}; !slices.Equal(*selected, want) {
		t.Errorf("selected %v, want %v", *selected, want)
	}
	if c.Focused() != w {
		t.Error("a press does not take the keyboard")
	}
}

func TestYearMapKeysMoveAndReturnSelects(t *testing.T) {
	w, selected, _ := shownYear(t)
	for _, c := range []struct {
		keys []fyne.KeyName
		want int
	}{
		{nil, 133}, // the chosen mark
		{[]fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft}, 134},
		{[]fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyUp}, 141},
		{[]fyne.KeyName{fyne.KeyPageDown}, 169},
		{[]fyne.KeyName{fyne.KeyHome, fyne.KeyLeft, fyne.KeyPageUp}, 0},
		{[]fyne.KeyName{fyne.KeyEnd, fyne.KeyRight, fyne.KeyDown}, 364},
	} {
		key(w, c.keys...)
		if w.cursor != c.want {
			t.Errorf("after %v the cursor is on day %d, want %d", c.keys, w.cursor, c.want)
		}
	}
	if len(*selected) != 0 {
		t.Errorf("moving selects %v", *selected)
	}
	key(w, fyne.KeyReturn, fyne.KeyHome, fyne.KeySpace, fyne.KeyRight, fyne.KeyEnter)
	if want := []int{364, 0, 1}; !slices.Equal(*selected, want) {
		t.Errorf("selected %v, want %v", *selected, want)
	}
}

func TestYearMapCursorFollowsTheChosenDateOnly(t *testing.T) {
	w, _, _ := shownYear(t)
	key(w, fyne.KeyHome)
	w.Set(sampleYear(48)) // computed anew: the cursor stays where the user left it
	if w.cursor != 0 {
		t.Errorf("new data moves the cursor to %d", w.cursor)
	}
	d := sampleYear(48)
	d.Marks[0].Chosen, d.Marks[2].Chosen = false, true
	w.Set(d)
	if w.cursor != 250 {
		t.Errorf("another chosen date puts the cursor on %d, want 250", w.cursor)
	}
	w.Set(YearData{Year: 2028, Days: d.Days, Marks: []YearMark{{Day: 365, Label: "last"}}})
	if w.cursor != 365 {
		t.Errorf("in another year the cursor is on %d, want its first mark's 365", w.cursor)
	}
	w.Set(YearData{Year: 2027, Days: d.Days})
	if w.cursor != 364 {
		t.Errorf("the cursor is on %d in a year of 365 days", w.cursor)
	}
}

// A pointer that moves changes the caption and the column, not the picture.
func TestYearMapHoverKeepsThePicture(t *testing.T) {
	w, selected, c := shownYear(t)
	drawn := 0
	draw := w.pic.draw
	w.pic.draw = func(p *pen) { drawn++; draw(p) }
	w.Refresh()
	c.Capture()
	for day := range 20 {
		w.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(w.box.mid(day), 100)}})
		c.Capture()
	}
	if drawn != 1 {
		t.Errorf("hovering draws the year %d times", drawn)
	}
	if texts := textsOf(w); !slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, "Wed 20 January: ") }) {
		t.Errorf("the caption does not tell of 20 January: %q", texts)
	}
	if w.Cursor() != desktop.PointerCursor || len(*selected) != 0 {
		t.Error("no hand over the plot, or hovering selects")
	}
	w.MouseOut()
	if texts := textsOf(w); !slices.ContainsFunc(texts, func(s string) bool { return strings.HasPrefix(s, "Fri 14 May: ") }) {
		t.Errorf("after the pointer has left, the caption does not tell of the cursor: %q", texts)
	}
}

func TestEmptyYearMapTakesEverything(t *testing.T) {
	use(t, look.New(false))
	w := NewYearMap()
	w.OnSelect = func(day int) { t.Errorf("selected %d", day) }
	w.Resize(fyne.NewSize(500, 220))
	key(w, fyne.KeyRight, fyne.KeyEnd, fyne.KeyReturn)
	press(w, 250, 100)
}

// The calendar is Go's time package.
func TestYearBoxHoldsEveryDayOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &YearMap{data: YearData{Year: rapid.IntRange(1, 3000).Draw(t, "year")}}
		b := yearBox{x: rapid.Float32Range(0, 100).Draw(t, "x"), width: rapid.Float32Range(366, 2000).Draw(t, "width"), days: w.days()}
		if want := w.date(0).AddDate(1, 0, 0).Sub(w.date(0)).Hours() / 24; float64(b.days) != want {
			t.Fatalf("%d has %d days, want %v", w.data.Year, b.days, want)
		}
		day := rapid.IntRange(0, b.days-1).Draw(t, "day")
		if got := b.day(b.mid(day)); got != day {
			t.Fatalf("day %d stands where day %d is", day, got)
		}
		month := w.date(day).Month()
		from, to := w.month(int(month) - 1)
		if day < from || day >= to || w.date(from).Day() != 1 || w.date(to).Day() != 1 || w.date(to-1).Month() != month {
			t.Fatalf("day %d is in month %v, from %d to %d", day, month, from, to)
		}
		if b.day(b.x-0.1) != -1 || b.day(b.x+b.width+0.1) != -1 {
			t.Fatal("a day outside the plot")
		}
	})
}

func TestHourStepsFollowTheHeight(t *testing.T) {
	for _, c := range []struct {
		height float32
		want   []int
	}{{200, []int{0, 180, 360, 540, 720, 900, 1080, 1260, 1440}}, {100, []int{0, 360, 720, 1080, 1440}}, {30, []int{0, 720, 1440}}, {0, []int{0, 720, 1440}}} {
		if got := hourSteps(c.height, 15); !slices.Equal(got, c.want) {
			t.Errorf("%v high: %v, want %v", c.height, got, c.want)
		}
	}
}

func TestSpansOfADay(t *testing.T) {
	for _, c := range []struct {
		name            string
		in, whole, clip []MinuteSpan
	}{
		{"none", nil, nil, nil},
		{"in order", []MinuteSpan{{60, 120}, {300, 400}}, []MinuteSpan{{60, 120}, {300, 400}}, []MinuteSpan{{60, 120}, {300, 400}}},
		{"out of order, touching, within", []MinuteSpan{{300, 400}, {60, 120}, {120, 200}, {310, 320}}, []MinuteSpan{{60, 200}, {300, 400}}, []MinuteSpan{{60, 200}, {300, 400}}},
		{"empty ones", []MinuteSpan{{5, 5}, {9, 3}}, nil, nil},
		{"past midnight", []MinuteSpan{{1380, 1500}}, []MinuteSpan{{1380, 1500}}, []MinuteSpan{{1380, 1440}}},
		{"from the day before", []MinuteSpan{{-30, 60}}, []MinuteSpan{{-30, 60}}, []MinuteSpan{{0, 60}}},
		{"wholly of the next day", []MinuteSpan{{1500, 1600}}, []MinuteSpan{{1500, 1600}}, nil},
	} {
		whole := sorted(c.in)
		if got := clip(whole); !slices.Equal(whole, c.whole) || !slices.Equal(got, c.clip) {
			t.Errorf("%s: %v, clipped %v", c.name, whole, got)
		}
	}
}

// Minute by minute: what is left of a span is what the others do not hold.
func TestWithoutLeavesWhatIsNotCovered(t *testing.T) {
	spans := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) MinuteSpan {
		from := rapid.IntRange(0, 100).Draw(t, "from")
		return MinuteSpan{from, from + rapid.IntRange(0, 30).Draw(t, "length")}
	}), 0, 6)
	holds := func(spans []MinuteSpan, m int) bool {
		return slices.ContainsFunc(spans, func(s MinuteSpan) bool { return m >= s.From && m < s.To })
	}
	rapid.Check(t, func(t *rapid.T) {
		others, s := spans.Draw(t, "others"), MinuteSpan{rapid.IntRange(0, 60).Draw(t, "from"), rapid.IntRange(60, 140).Draw(t, "to")}
		left := s.without(sorted(others))
		for m := range 150 {
			if want := holds([]MinuteSpan{s}, m) && !holds(others, m); holds(left, m) != want {
				t.Fatalf("minute %d of %v without %v: %v in %v", m, s, others, !want, left)
			}
		}
	})
}

// The area's size is arithmetic: days times minutes. A step of the clock shows as an upright piece of the edge.
func TestYearAreaCoversWhatHolds(t *testing.T) {
	b := yearBox{width: 730, height: 288, days: 365}
	holds := make([][]MinuteSpan, 365)
	for day := range holds {
		at := 1000
		if day >= 86 && day < 303 {
			at = 1060
		}
		holds[day] = []MinuteSpan{{at, at + 100}}
	}
	areas, edges := yearArea(b, holds)
	p := newPen(730, 288, 1)
	p.fill(ink, areas...)
	if want := 730 * 288 * 100.0 / 1440; math.Abs(area(p)-want) > 0.01*want {
		t.Errorf("the area covers %.0f, want %.0f", area(p), want)
	}
	upright := func(day int) (high float32) {
		for _, e := range edges {
			if w := e[1].x - e[0].x; w < 1.9 && e[0].x >= b.dayX(day)-0.01 && e[1].x <= b.dayX(day+1)+0.01 {
				high += e[2].y - e[1].y
			}
		}
		return high
	}
	for day, want := range map[int]float32{0: 20, 50: 0, 85: 12, 86: 12, 200: 0, 302: 12, 364: 20} { // 288 units for 1440 minutes
		if got := upright(day); math.Abs(float64(got-want)) > 0.01 {
			t.Errorf("day %d has %v of upright edge, want %v", day, got, want)
		}
	}
}

func TestFewMinutesAreStillSeen(t *testing.T) {
	b := yearBox{width: 365, height: 144, days: 365}
	areas, _ := yearArea(b, [][]MinuteSpan{{{600, 601}}})
	if high := areas[0][2].y - areas[0][0].y; high < 2 {
		t.Errorf("one minute is %v high", high)
	}
}

func TestCaptionTellsTheDay(t *testing.T) {
	w := &YearMap{data: YearData{Year: 2028, Days: make([]YearDay, 366), Marks: []YearMark{{Day: 59, Label: "29 February"}, {Day: 59, Label: "best so far"}}}}
	for _, c := range []struct {
		day  int
		d    YearDay
		want string
	}{
		{59, YearDay{[]MinuteSpan{{1090, 1131}}, MinuteSpan{407, 1079}}, "Tue 29 February: 18:10–18:51, 41 min. Sun 06:47–17:59. best so far"},
		{0, YearDay{}, "Sat 1 January: not on this date. The sun stays down"},
		{1, YearDay{[]MinuteSpan{{1350, 1530}, {60, 90}}, MinuteSpan{0, 1440}}, "Sun 2 January: 01:00–01:30, 22:30–01:30, 3 h 30. The sun stays up"},
		{2, YearDay{[]MinuteSpan{{0, 1440}}, MinuteSpan{400, 1440}}, "Mon 3 January: all day. Sun 06:40–24:00"},
		{3, YearDay{[]MinuteSpan{{1, 2}, {3, 4}, {5, 6}, {7, 8}}, MinuteSpan{60, 65}}, "Tue 4 January: 4 times, 4 min in all, the first 00:01–00:02. Sun 01:00–01:05"},
	} {
		w.data.Days[c.day] = c.d
		if got := w.caption(c.day); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	w.data.Days = w.data.Days[:1]
	if got := w.caption(200); !strings.Contains(got, "not on this date") {
		t.Errorf("a day without data: %q", got)
	}
}

func TestMinuteSpansReadAsClockTimes(t *testing.T) {
	at := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC)
	for m := range dayMinutes {
		if want := at.Add(time.Duration(m) * time.Minute).Format("15:04"); clock(m) != want || clock(m+2*dayMinutes) != want || clock(m-dayMinutes) != want {
			t.Fatalf("minute %d: %s, %s, %s, want %s", m, clock(m), clock(m+2*dayMinutes), clock(m-dayMinutes), want)
		}
	}
}
