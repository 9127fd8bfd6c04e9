package app

import (
	"fmt"
	"slices"
	"time"

	"eavelight/app/look"
	"eavelight/app/tongue"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// The choices of the preference prefTheme. Light is what holds while nothing is said.
const (
	lightTheme  = "light"
	darkTheme   = "dark"
	systemTheme = "system"
)

// textSizes are the sizes of text that can be chosen, in percent.
var textSizes = []int{100, 125, 150}

// textSize is the chosen one, in percent.
func (w *Window) textSize() int {
	if size := w.app.Preferences().Int(prefText); slices.Contains(textSizes, size) {
		return size
	}
	return 100
}

// wantsDark tells which of the two themes is chosen, or is the system's where that is followed.
func (w *Window) wantsDark() bool {
	switch w.app.Preferences().String(prefTheme) {
	case darkTheme:
		return true
	case systemTheme:
		return w.systemDark()
	}
	return false
}

// takeLook sets the theme that the preferences ask for.
func (w *Window) takeLook() {
	w.dark = w.wantsDark()
	w.app.Settings().SetTheme(look.New(w.dark).Scaled(float32(w.textSize()) / 100))
}

// dress shows everything in the theme that the preferences ask for.
func (w *Window) dress() {
	w.takeLook()
	w.ground.FillColor = theme.Color(theme.ColorNameBackground)
	w.ground.Refresh()
	w.nameTheme()
	w.menu.main.Refresh()
	w.changed()
	w.win.Content().Refresh() // what grew with the text is laid out anew
}

// systemChanged follows the system from light to dark and back, where that is wanted.
func (w *Window) systemChanged() {
	if w.wantsDark() != w.dark {
		w.dress()
	}
}

func (w *Window) switchTheme() {
	other := darkTheme
	if w.dark {
		other = lightTheme
	}
	w.app.Preferences().SetString(prefTheme, other)
	w.dress()
}

func (w *Window) nameTheme() {
	w.menu.theme.Label = tongue.Say("theme|Dark")
	if w.dark {
		w.menu.theme.Label = tongue.Say("theme|Light")
	}
}

// settings asks how the window is to look and to speak. What is chosen is shown at once.
func (w *Window) settings() {
	prefs := w.app.Preferences()
	rows := container.New(layout.NewFormLayout())
	row := func(name string, options []string, chosen int, take func(int)) {
		r := widget.NewRadioGroup(options, nil)
		r.Required, r.Horizontal = true, true
		r.SetSelected(options[max(0, chosen)])
		r.OnChanged = func(name string) { take(slices.Index(options, name)) }
		rows.Add(widget.NewLabel(name))
		rows.Add(r)
	}
	themes := []string{lightTheme, darkTheme, systemTheme}
	row(tongue.Say("Colours"), []string{tongue.Say("theme|Light"), tongue.Say("theme|Dark"), tongue.Say("theme|As the system")},
		slices.Index(themes, prefs.String(prefTheme)), func(i int) {
			prefs.SetString(prefTheme, themes[i])
			w.dress()
		})
	var sizes []string
	for _, s := range textSizes {
		sizes = append(sizes, fmt.Sprintf("%d %%", s))
	}
	row(tongue.Say("Size of text"), sizes, slices.Index(textSizes, w.textSize()), func(i int) {
		prefs.SetInt(prefText, textSizes[i])
		w.dress()
	})
	codes, names := []string{""}, []string{tongue.Say("language|As the system")}
	for _, l := range tongue.Languages {
		codes, names = append(codes, l.Code), append(names, l.Name)
	}
	row(tongue.Say("Language"), names, slices.Index(codes, prefs.String(prefLanguage)), func(i int) {
		prefs.SetString(prefLanguage, codes[i])
		w.speak()
	})
	row(tongue.Say("Clock"), []string{tongue.Say("24 hours"), tongue.Say("12 hours")}, slices.Index([]int{24, 12}, w.clock()), func(i int) {
		prefs.SetInt(prefClock, []int{24, 12}[i])
		w.speak()
	})
	row(tongue.Say("Lengths"), []string{tongue.Say("Metres"), tongue.Say("Feet")}, slices.Index(lengthUnits, prefs.String(prefLength)), func(i int) {
		prefs.SetString(prefLength, lengthUnits[i])
		w.speak()
	})
	days := []string{tongue.Of(say.Weekday(time.Monday)), tongue.Of(say.Weekday(time.Sunday))}
	row(tongue.Say("The week begins on"), days, slices.Index(weekStarts, w.weekStart()), func(i int) {
		prefs.SetString(prefWeek, weekNames[i])
		w.speak()
	})
	note := widget.NewLabel(tongue.Say("The paper, the language of dates and the clock of what you send out belong to each plan: page Papers."))
	note.Wrapping = fyne.TextWrapWord
	note.Importance = widget.LowImportance
	w.ask(dialog.NewCustom(tongue.Say("Settings"), tongue.Say("Close"), container.NewVBox(rows, note), w.win), fyne.NewSize(560, 360))
}

// weekStarts are the days that a week can begin on, and weekNames what the preferences call them.
var (
	weekStarts = []time.Weekday{time.Monday, time.Sunday}
	weekNames  = []string{"monday", "sunday"}
)

func (w *Window) weekStart() time.Weekday {
	return weekStarts[max(0, slices.Index(weekNames, w.app.Preferences().String(prefWeek)))]
}

// clock is how many hours the clock of the window has.
func (w *Window) clock() int {
	if w.app.Preferences().Int(prefClock) == 12 {
		return 12
	}
	return 24
}

// lengthUnits are what lengths can be shown in, as the preferences call it. Metres are what holds while nothing is said.
var lengthUnits = []string{"m", say.Feet}

// takeTongue has the window speak as the preferences ask for.
func (w *Window) takeTongue() {
	code := w.app.Preferences().String(prefLanguage)
	if !slices.ContainsFunc(tongue.Languages, func(l tongue.Language) bool { return l.Code == code }) {
		code = tongue.System()
	}
	if err := tongue.Use(code); err != nil {
		fyne.LogError("the language was not changed", err) // its words are built in: this is a fault of ours, and English goes on
	}
	tongue.UseClock12(w.clock() == 12)
	tongue.UseFeet(w.app.Preferences().String(prefLength) == say.Feet)
	tongue.UseWeekStart(w.weekStart())
}

// speak builds everything that has words anew, in the language, by the clock and in the units that the preferences ask for.
func (w *Window) speak() {
	w.takeTongue()
	current := w.current
	if w.asking != nil {
		w.asking.Hide()
	}
	w.build()
	w.current = ""
	w.goTo(current)
	w.settings()
}
