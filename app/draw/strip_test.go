package draw

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"eavelight/app/look"
)

// shownStrip is a strip of some dates in a window that shows six of them, and what it reports.
func shownStrip(t *testing.T, dates int) (*DateStrip, *[]string) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	w, chosen := NewDateStrip(), new([]string)
	w.OnSelect = func(id string) { *chosen = append(*chosen, id) }
	win := test.NewTempWindow(t, w)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(2*w.buttonWidth()+6.5*w.cardWidth(), 64))
	d := StripData{}
	for i := range dates {
		d.Cards = append(d.Cards, Card{ID: fmt.Sprint(i), Date: fmt.Sprint("Day ", i), Kept: 0.5, Note: "best"})
	}
	w.Set(d)
	return w, chosen
}

// inSight lists the dates that are drawn.
func inSight(w *DateStrip) (dates []string) {
	for _, o := range test.WidgetRenderer(w).Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() && len(text.Text) > 4 && text.Text[:4] == "Day " {
			dates = append(dates, text.Text)
		}
	}
	return dates
}

func TestStripChoosesByPress(t *testing.T) {
	w, chosen := shownStrip(t, 5)
	s := w.lay(w.Size().Width)
	for _, i := range []float32{3, 0, 0} {
		press(w, s.x+(i+0.5)*s.step, 30)
	}
	press(w, s.x+5.2*s.step, 30) // right of the last card
	if !slices.Equal(*chosen, []string{"3", "0"}) {
		t.Errorf("chose %v", *chosen)
	}
}

func TestStripKeepsTheChosenDateInSight(t *testing.T) {
	w, chosen := shownStrip(t, 20)
	key(w, fyne.KeyRight, fyne.KeyRight, fyne.KeyEnd, fyne.KeyRight, fyne.KeyLeft)
	if !slices.Equal(*chosen, []string{"0", "1", "19", "18"}) {
		t.Errorf("chose %v", *chosen)
	}
	if s := inSight(w); len(s) != 6 || s[0] != "Day 14" {
		t.Errorf("in sight: %v", s)
	}
	key(w, fyne.KeyHome)
	if s := inSight(w); s[0] != "Day 0" {
		t.Errorf("after Home in sight: %v", s)
	}
	d := w.data
	d.Chosen = "12"
	w.Set(d)
	if s := inSight(w); !slices.Contains(s, "Day 12") {
		t.Errorf("after Set in sight: %v", s)
	}
}

func TestStripScrollsWithoutChoosing(t *testing.T) {
	w, chosen := shownStrip(t, 20)
	press(w, w.Size().Width-3, 30)
	if s := inSight(w); s[0] != "Day 6" {
		t.Errorf("after the right button: %v", s)
	}
	w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: -10}})
	w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DX: -10}})
	if s := inSight(w); s[0] != "Day 8" {
		t.Errorf("after the wheel: %v", s)
	}
	for range 30 {
		w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: 10}})
	}
	press(w, 3, 30)
	if s := inSight(w); s[0] != "Day 0" || len(*chosen) != 0 {
		t.Errorf("at the start: %v, chose %v", s, *chosen)
	}
	press(w, w.Size().Width-3, 30)
	if s := inSight(w); s[0] != "Day 6" {
		t.Errorf("wheel turns beyond the start are kept: %v", s)
	}
}

func TestEmptyStripTakesEverything(t *testing.T) {
	w, chosen := shownStrip(t, 0)
	key(w, fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyEnd)
	press(w, 30, 30)
	w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: 10}})
	if len(*chosen) != 0 || w.Cursor() != desktop.DefaultCursor {
		t.Errorf("chose %v", *chosen)
	}
}

// TestStripComparesAndRemoves: by mouse with Control or Shift, and by keys; none of it chooses.
func TestStripComparesAndRemoves(t *testing.T) {
	w, chosen := shownStrip(t, 4)
	w.data.Chosen = "1"
	var compared, removed []string
	w.OnCompare = func(id string) {
		compared = append(compared, id)
		w.data.Beside = id
	}
	w.OnRemove = func(id string) { removed = append(removed, id) }
	s := w.lay(w.Size().Width)
	for i, mod := range []fyne.KeyModifier{fyne.KeyModifierControl, 0, fyne.KeyModifierShift} {
		if mod == 0 {
			continue
		}
		w.MouseDown(pressed(fyne.NewPos(s.x+(float32(i)+0.5)*s.step, 30), mod))
	}
	w.MouseDown(pressed(fyne.NewPos(s.x+1.5*s.step, 30), fyne.KeyModifierShift)) // the chosen one with itself
	for _, name := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeyLeft, fyne.KeyUp} {
		w.TypedShortcut(&desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierControl})
	}
	key(w, fyne.KeyEscape, fyne.KeyDelete)
	if want := []string{"0", "2", "3", "2", "0", ""}; !slices.Equal(compared, want) || !slices.Equal(removed, []string{"1"}) || len(*chosen) > 0 {
		t.Errorf("compared %q, want %q; removed %q, chose %q", compared, want, removed, *chosen)
	}
}
