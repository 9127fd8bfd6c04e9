package app

import (
	"fmt"
	"slices"

	"eavelight/app/look"

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
	w.menu.theme.Label = "Dark"
	if w.dark {
		w.menu.theme.Label = "Light"
	}
}

// settings asks how the window is to look. What is chosen is shown at once.
func (w *Window) settings() {
	themes := []string{lightTheme, darkTheme, systemTheme}
	look := widget.NewRadioGroup([]string{"Light", "Dark", "As the system"}, nil)
	look.Required, look.Horizontal = true, true
	look.SetSelected(look.Options[max(0, slices.Index(themes, w.app.Preferences().String(prefTheme)))])
	look.OnChanged = func(name string) {
		w.app.Preferences().SetString(prefTheme, themes[slices.Index(look.Options, name)])
		w.dress()
	}
	size := widget.NewRadioGroup(nil, nil)
	for _, s := range textSizes {
		size.Options = append(size.Options, fmt.Sprintf("%d %%", s))
	}
	size.Required, size.Horizontal = true, true
	size.SetSelected(size.Options[slices.Index(textSizes, w.textSize())])
	size.OnChanged = func(name string) {
		w.app.Preferences().SetInt(prefText, textSizes[slices.Index(size.Options, name)])
		w.dress()
	}
	note := widget.NewLabel("The paper, the language of dates and the clock of what you send out belong to each plan: page Papers.")
	note.Wrapping = fyne.TextWrapWord
	note.Importance = widget.LowImportance
	rows := container.New(layout.NewFormLayout(), widget.NewLabel("Colours"), look, widget.NewLabel("Size of text"), size)
	w.ask(dialog.NewCustom("Settings", "Close", container.NewVBox(rows, note), w.win), fyne.NewSize(480, 240))
}
