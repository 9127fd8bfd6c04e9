package draw

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"eavelight/app/look"
)

// shownSlider is a slider over the sample day in a window, and the wall-clock times it reports.
func shownSlider(t *testing.T, d SliderData) (w *TimeSlider, told *[]string, c fyne.Canvas) {
	use(t, look.New(false))
	w, told = NewTimeSlider(), new([]string)
	w.OnChange = func(at time.Time) { *told = append(*told, at.In(d.Axis.Zone).Format("15:04")) }
	w.Set(d)
	win := test.NewTempWindow(t, w)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(1000, 60))
	return w, told, win.Canvas()
}

func daySlider() SliderData {
	return SliderData{Axis: Axis{From: at(4, 0), To: at(22, 0), Zone: zone}, Value: at(17, 32)}
}

func TestSliderMovesByKeys(t *testing.T) {
	w, told, _ := shownSlider(t, daySlider())
	key(w, fyne.KeyRight, fyne.KeyUp, fyne.KeyLeft, fyne.KeyDown, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyHome, fyne.KeyLeft, fyne.KeyEnd, fyne.KeyPageUp, fyne.KeyLeft)
	if want := []string{"17:37", "17:42", "17:37", "17:32", "18:32", "17:32", "04:00", "22:00", "21:55"}; !slices.Equal(*told, want) {
		t.Errorf("told %v, want %v", *told, want)
	}
}

// drag replays a drag as the desktop driver sends it: down, dragged from the second unit on, up, end.
func drag(w *TimeSlider, xs ...float32) {
	point := func(x float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, 20)} }
	down := &desktop.MouseEvent{PointEvent: point(xs[0]), Button: desktop.MouseButtonPrimary}
	w.MouseDown(down)
	for _, x := range xs[1:] {
		w.Dragged(&fyne.DragEvent{PointEvent: point(x)})
	}
	w.MouseUp(&desktop.MouseEvent{PointEvent: point(xs[len(xs)-1]), Button: desktop.MouseButtonPrimary})
	w.DragEnd()
}

func TestSliderFollowsThePointer(t *testing.T) {
	w, told, c := shownSlider(t, daySlider())
	a, _ := w.lay()
	x := func(hour, minute int) float32 { return a.X(at(hour, minute), 1000) }
	drag(w, x(9, 0))                       // a press on the track brings the handle there
	drag(w, x(9, 0)+5, x(10, 0)+5)         // the handle is held where it was taken
	drag(w, x(10, 0), x(12, 0), -50)       // beyond the end
	drag(w, x(4, 0)-3, x(4, 0)-4, 5000)    // held beside the end, to the other end
	drag(w, x(22, 0), x(22, 0)+1, x(1, 0)) // out on the left
	if want := []string{"09:00", "10:00", "12:00", "04:00", "22:00", "04:00"}; !slices.Equal(*told, want) {
		t.Errorf("told %v, want %v", *told, want)
	}
	if c.Focused() != w {
		t.Error("a press does not take the keyboard")
	}
	w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(500, 20)}, Button: desktop.MouseButtonSecondary})
	if len(*told) != 6 {
		t.Error("the second mouse button moves the handle")
	}
}

func TestSliderMovesByTheWheel(t *testing.T) {
	w, told, _ := shownSlider(t, daySlider())
	for _, d := range []fyne.Delta{{DY: 10}, {DX: -10}, {}} {
		w.Scrolled(&fyne.ScrollEvent{Scrolled: d})
	}
	if want := []string{"17:37", "17:32"}; !slices.Equal(*told, want) {
		t.Errorf("told %v, want %v", *told, want)
	}
}

// Berlin, 25 October 2026: 03:00 becomes 02:00 (IANA time zone database), so three hours after 01:30 the wall shows 03:30.
func TestSliderCountsRealTimeWhenTheClockChanges(t *testing.T) {
	a := local(t, "Europe/Berlin", "2026-10-25T00:00:00+02:00", "2026-10-25T12:00:00+01:00")
	w, told, _ := shownSlider(t, SliderData{Axis: a, Value: a.From.Add(90 * time.Minute)})
	key(w, fyne.KeyPageUp, fyne.KeyPageUp, fyne.KeyPageUp)
	if want := []string{"02:30", "02:30", "03:30"}; !slices.Equal(*told, want) {
		t.Errorf("told %v, want %v", *told, want)
	}
}

func TestSliderSetTellsNothing(t *testing.T) {
	w, told, _ := shownSlider(t, daySlider())
	d := daySlider()
	d.Value = at(2, 0)
	w.Set(d)
	if len(*told) != 0 || !w.Value().Equal(at(4, 0)) {
		t.Errorf("told %v, shows %v; want a value brought inside, silently", *told, w.Value())
	}
}

func TestEmptySliderTakesEverything(t *testing.T) {
	w, told, _ := shownSlider(t, SliderData{Axis: Axis{From: at(4, 0), To: at(4, 0), Zone: zone}, Empty: "no day"})
	key(w, fyne.KeyRight, fyne.KeyPageDown, fyne.KeyEnd)
	drag(w, 20, 50, 900)
	w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: 10}})
	if len(*told) != 0 || w.Cursor() != desktop.DefaultCursor {
		t.Errorf("told %v", *told)
	}
}
