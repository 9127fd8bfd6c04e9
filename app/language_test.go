package app

import (
	"testing"
	"time"

	"eavelight/app/tongue"
	"eavelight/app/view"
)

// TestLanguageClockAndWeek: what is chosen in the settings holds at once, for the menu, the page and what a calendar and Fyne's own
// dialogs say; the next window has it too, and English comes back whole.
func TestLanguageClockAndWeek(t *testing.T) {
	d, _ := openDemo(t)
	t.Cleanup(func() { tongue.Use("en"); tongue.UseClock12(false); tongue.UseWeekStart(time.Monday) })
	d.goTo(view.Scenes)
	d.menuItem("Settings…").Action()
	d.turnTo("Español")
	d.settle()
	if d.menu.main.Items[0].Label != "Archivo" || d.current != view.Scenes || !d.says("Ajustes") || !d.says("Idioma") {
		t.Errorf("the menu begins with %q, the page is %q", d.menu.main.Items[0].Label, d.current)
	}
	d.turnTo("12 horas")
	d.turnTo("domingo")
	if got := tongue.Hour(time.Date(2027, 10, 16, 18, 5, 0, 0, time.UTC)); got != "6:05\u00a0pm" || tongue.WeekStart() != time.Sunday {
		t.Errorf("five past six is %q, the week begins on %v", got, tongue.WeekStart())
	}
	tongue.Use("en")
	next := New(Config{App: d.app, Post: func(func()) {}, Now: d.Window.now})
	if next.menu.main.Items[0].Label != "Archivo" || next.menu.theme.Label != "Oscuro" {
		t.Errorf("the next window says %q", next.menu.main.Items[0].Label)
	}
	d.turnTo("English")
	d.settle()
	if d.menu.main.Items[0].Label != "File" || !d.says("Settings") || d.says("Ajustes") {
		t.Error("English does not come back whole")
	}
	d.asking.Hide()
	d.app.Preferences().SetString(prefLanguage, "xx")
	d.takeTongue()
	if tongue.Code() != tongue.System() {
		t.Error("nonsense among the preferences is believed")
	}
}
