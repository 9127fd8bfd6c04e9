package page

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// TestDropDownIsFramedLikeAnEntry: it is as high, and along its edges it looks the same, in either theme.
func TestDropDownIsFramedLikeAnEntry(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(look.New(false))
	drop, entry := framed(newSelect([]string{"talent"}, nil)), widget.NewEntry()
	if got, want := drop.MinSize().Height, entry.MinSize().Height; got != want {
		t.Errorf("it is %v high, an entry %v", got, want)
	}
	w := test.NewTempWindow(t, nil)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(200, 40))
	for _, dark := range []bool{false, true} {
		a.Settings().SetTheme(look.New(dark))
		w.SetContent(drop)
		drop.Refresh()
		got := w.Canvas().Capture()
		w.SetContent(entry)
		entry.Refresh()
		want := w.Canvas().Capture()
		for at := 6; at < 30; at++ {
			for _, xy := range [][2]int{{at, 0}, {0, at}, {at, 1}, {1, at}, {199 - at, 39}, {199, 36 - at}, {100 + at, 3}} {
				if a, b := got.At(xy[0], xy[1]), want.At(xy[0], xy[1]); look.Contrast(a, b) > 1.1 { // the line is soft, and not all under it is the same
					t.Fatalf("dark %v: at %v it is %v, an entry %v", dark, xy, a, b)
				}
			}
		}
	}
}
