package app

import (
	"testing"

	"eavelight/app/look"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// turnTo presses one of some round buttons, wherever they stand.
func (d *desk) turnTo(name string) {
	d.t.Helper()
	for _, r := range seen(d, func(*widget.RadioGroup) bool { return true }) {
		for _, o := range r.Options {
			if o == name {
				r.SetSelected(name)
				return
			}
		}
	}
	d.t.Fatalf("no choice %q is to be seen", name)
}

// TestSettingsAreTakenAndKept: what is chosen is seen at once, and by the next window too.
func TestSettingsAreTakenAndKept(t *testing.T) {
	d := newDesk(t)
	d.menuItem("Settings…").Action()
	d.turnTo("Dark")
	d.turnTo("150 %")
	for _, w := range []*Window{d.Window, New(Config{App: d.app, Post: func(func()) {}, Now: d.Window.now})} {
		got, ok := w.app.Settings().Theme().(*look.Theme)
		if !ok || !got.Dark() || got.Size(theme.SizeNameText) != 1.5*look.New(true).Size(theme.SizeNameText) || w.menu.theme.Label != "Light" {
			t.Errorf("dark %v, text %v, the menu offers %q", got.Dark(), got.Size(theme.SizeNameText), w.menu.theme.Label)
		}
	}
	d.turnTo("Light")
	d.turnTo("100 %")
	if got := d.app.Settings().Theme().(*look.Theme); got.Dark() || got.Size(theme.SizeNameText) != look.New(false).Size(theme.SizeNameText) {
		t.Error("light text of the usual size does not come back")
	}
	d.app.Preferences().SetInt(prefText, 7000)
	d.app.Preferences().SetString(prefTheme, "purple")
	d.dress()
	if d.textSize() != 100 || d.dark {
		t.Error("nonsense among the preferences is believed")
	}
}

// TestSystemIsFollowed from light to dark while the window is open, and no longer once a theme is chosen.
func TestSystemIsFollowed(t *testing.T) {
	d := newDesk(t)
	night := false
	d.systemDark = func() bool { return night }
	d.menuItem("Settings…").Action()
	d.turnTo("As the system")
	if d.dark {
		t.Fatal("dark while the system is light")
	}
	night = true
	d.systemChanged()
	if !d.dark {
		t.Fatal("light while the system is dark")
	}
	d.asking.Hide()
	d.menuItem("Light").Action()
	d.systemChanged()
	if d.dark {
		t.Error("the system is followed though a theme was chosen")
	}
	d.settle() // a change of theme comes back from Fyne as a change of settings, and must end there
}

// TestLargeTextFits: at one and a half times the text every page fits a small screen.
func TestLargeTextFits(t *testing.T) {
	d, _ := openDemo(t)
	d.app.Preferences().SetInt(prefText, 150)
	d.dress()
	for _, p := range append([]view.Page{view.Start}, view.Pages...) {
		d.goTo(p)
		d.settle()
		d.win.Resize(fyne.NewSize(1280, 800))
		if min := d.win.Content().MinSize(); min.Width > 1280 || min.Height > 800 {
			t.Errorf("%s needs %v", p, min)
		}
	}
	d.menuItem("Keyboard").Action()
	if min := d.win.Canvas().Overlays().Top().MinSize(); min.Width > 1280 || min.Height > 800 {
		t.Errorf("the keys need %v", min)
	}
}
