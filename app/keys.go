package app

import (
	"runtime"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
)

// keyWords say a shortcut as it stands on the keys of this system; nothing where there is none.
func keyWords(s fyne.Shortcut) string {
	k, ok := s.(fyne.KeyboardShortcut)
	if !ok {
		return ""
	}
	return keysOn(runtime.GOOS, k.Mod(), k.Key())
}

// modifiers are named in the order in which a system writes them.
var modifiers = []struct {
	mod       fyne.KeyModifier
	name, mac string
}{
	{fyne.KeyModifierControl, "Ctrl", "Control"},
	{fyne.KeyModifierAlt, "Alt", say.Mark("key|Option")},
	{fyne.KeyModifierShift, say.Mark("key|Shift"), say.Mark("key|Shift")},
	{fyne.KeyModifierSuper, "Super", "Cmd"},
}

func keysOn(system string, mod fyne.KeyModifier, key fyne.KeyName) string {
	var words []string
	for _, m := range modifiers {
		switch {
		case mod&m.mod == 0:
		case system == "darwin":
			words = append(words, tongue.Marked(m.mac))
		default:
			words = append(words, tongue.Marked(m.name))
		}
	}
	return strings.Join(append(words, keyName(key)), "+")
}

// keyName is what stands on a key.
func keyName(key fyne.KeyName) string {
	switch key {
	case fyne.KeyUp:
		return tongue.Say("keys|Up")
	case fyne.KeyDown:
		return tongue.Say("keys|Down")
	case fyne.KeyDelete:
		return tongue.Say("keys|Delete")
	}
	return string(key)
}
