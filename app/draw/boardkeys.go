package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// What Left and Right move the selected blocks by: with Shift by a minute, with Control by a slot of the grid. With Alt they
// stretch the shooting, with Alt and Shift the set-up.
const (
	step     = 5 * time.Minute
	fineStep = time.Minute
)

// TypedRune zooms by plus and minus, and shows all by a nought.
func (w *Board) TypedRune(r rune) {
	in, ok := map[rune]int{'+': 1, '=': 1, '-': -1, '0': 0}[r]
	if ok && w.OnZoom != nil {
		w.OnZoom(in)
	}
}

// KeyDown is Fyne's; it tells of Shift, which comes with no other event.
func (w *Board) KeyDown(e *fyne.KeyEvent) {
	w.shift = w.shift || e.Name == desktop.KeyShiftLeft || e.Name == desktop.KeyShiftRight
}

// KeyUp is Fyne's.
func (w *Board) KeyUp(e *fyne.KeyEvent) {
	w.shift = w.shift && e.Name != desktop.KeyShiftLeft && e.Name != desktop.KeyShiftRight
}

// TypedKey selects the earlier or later block by Up and Down, the first and last by Home and End, and opens by Return. Left
// and Right move what is selected, Space pins it, Page Up and Page Down go through the day. Escape takes back what a hand does.
func (w *Board) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		w.letGo()
		return
	}
	if pan, ok := map[fyne.KeyName]int{fyne.KeyPageUp: -1, fyne.KeyPageDown: 1}[e.Name]; ok && w.OnPan != nil {
		w.OnPan(pan)
	}
	last := len(w.order) - 1
	if last < 0 || w.hand.holds() {
		return
	}
	by := step
	if w.shift {
		by = fineStep
	}
	switch at := w.selected(); e.Name {
	case fyne.KeyUp:
		w.pick(w.order[max(0, at-1)])
	case fyne.KeyDown:
		w.pick(w.order[min(last, at+1)])
	case fyne.KeyHome:
		w.pick(w.order[0])
	case fyne.KeyEnd:
		w.pick(w.order[last])
	case fyne.KeyLeft:
		w.nudge(Grab{By: -by})
	case fyne.KeyRight:
		w.nudge(Grab{By: by})
	case fyne.KeyReturn, fyne.KeyEnter:
		w.open()
	case fyne.KeySpace:
		if at >= 0 && w.OnPin != nil {
			w.OnPin()
		}
	}
}

// TypedShortcut takes the arrows with Control and with Alt, and selects all by Control and A.
func (w *Board) TypedShortcut(s fyne.Shortcut) {
	if _, ok := s.(*fyne.ShortcutSelectAll); ok && len(w.order) > 0 && !w.hand.holds() {
		if w.selected() < 0 {
			w.pick(w.order[0])
		}
		w.also(w.ids(func(i int) bool { return i < len(w.data.Blocks) && w.all[i].ID != w.data.Selected }))
	}
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || w.hand.holds() {
		return
	}
	sign := map[fyne.KeyName]time.Duration{fyne.KeyLeft: -1, fyne.KeyRight: 1}[c.KeyName]
	row := map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1}[c.KeyName]
	day := map[fyne.KeyName]int{fyne.KeyPageUp: -1, fyne.KeyPageDown: 1}[c.KeyName]
	switch {
	case day != 0 && c.Modifier == fyne.KeyModifierControl && len(w.chosen()) > 0 && w.OnDay != nil:
		w.OnDay(day)
	case sign == 0 && row == 0:
	case c.Modifier == fyne.KeyModifierControl && sign != 0:
		w.nudge(Grab{By: sign * w.slot()})
	case c.Modifier == fyne.KeyModifierControl:
		w.nudge(Grab{Row: row})
	case c.Modifier == fyne.KeyModifierAlt && sign != 0:
		w.nudge(Grab{Part: EndEdge, By: sign * step})
	case c.Modifier == fyne.KeyModifierAlt|fyne.KeyModifierShift && sign != 0:
		w.nudge(Grab{Part: SetUpEdge, By: sign * step})
	}
}

// nudge tells what a key does to the selected blocks.
func (w *Board) nudge(g Grab) {
	if g.IDs = w.chosen(); len(g.IDs) > 0 && w.OnNudge != nil {
		w.OnNudge(g)
	}
}

func (w *Board) open() {
	if w.selected() >= 0 && w.OnOpen != nil {
		w.OnOpen(w.data.Selected)
	}
}

// ids are those of some blocks, in the order of time.
func (w *Board) ids(is func(i int) bool) (out []string) {
	for _, i := range w.order {
		if is(i) {
			out = append(out, w.all[i].ID)
		}
	}
	return out
}
