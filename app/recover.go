package app

import (
	"fmt"
	"os"
	"path/filepath"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
)

// AsideFolder is where changes are kept that are not saved yet: among the user's settings.
func AsideFolder() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder to keep unsaved changes in: %w", err)
	}
	return filepath.Join(dir, "eavelight", "unsaved"), nil
}

// Start begins without a plan: on the page for that, and with what an earlier run could not save, if there is any.
func (w *Window) Start() {
	w.goTo(view.Start)
	w.askLost("")
}

// askLost asks about the changes to a plan, or to any, that were not saved when an earlier run ended.
func (w *Window) askLost(path string) {
	doc := w.session.State().Doc
	w.session.FindLost(path, func(lost []session.Lost) {
		if w.session.State().Doc != doc || w.win.Canvas().Overlays().Top() != nil { // the user is at something else already
			for _, l := range lost {
				w.session.Leave(l)
			}
			return
		}
		w.askEach(lost)
	})
}

func (w *Window) askEach(lost []session.Lost) {
	if len(lost) == 0 {
		return
	}
	l, others := lost[0], lost[1:]
	later := func() { w.session.Leave(l); w.askEach(others) } // it is asked another time
	w.question(tongue.Say("Changes that were not saved"), view.LostWords(l, w.now()), fyne.NewSize(560, 200), later,
		answer{tongue.Say("Throw them away"), func() { w.session.ThrowAway(l); w.askEach(others) }},
		answer{tongue.Say("Bring them back"), func() {
			for _, o := range others { // there is one window for one plan
				w.session.Leave(o)
			}
			w.bringBack(l)
		}})
}

func (w *Window) bringBack(l session.Lost) {
	w.session.BringBack(l, tongue.Say("bring back the unsaved changes"), func(err error) {
		if err != nil {
			w.complain(tongue.Say("The changes were not brought back"), err)
		} else if path := w.session.State().Path; path != "" {
			w.remember(path)
		}
		w.changed()
	})
}
