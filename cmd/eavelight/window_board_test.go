//go:build cgo && linux

package main

import (
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/store"
)

// testBoard drags a scene an hour earlier, nudges it by a key, pins and unpins it, takes all of it back, and each time looks
// into the file.
func testBoard(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	w.page(5, "Dates and rules")
	eight := func() (pin plan.Pin, others int) {
		p, _, err := store.Read(file)
		if err != nil {
			return pin, -1
		}
		for _, s := range p.Scenes {
			if s.ID == "piano" {
				pin = s.Pin
			} else if s.Pin.Held {
				others++
			}
		}
		return pin, others
	}
	saved := func(what string, is func(pin plan.Pin, others int) bool) {
		t.Helper()
		w.press("ctrl+s")
		w.until(what, func() bool { return is(eight()) })
		w.untilTitle(demoTitle)
	}
	row, call, wrap := w.see("Living room"), w.see("call 06:10"), w.see("wrap 19:10")
	hour := (wrap.Min.X + wrap.Max.X - call.Min.X - call.Max.X) / 2 / 13
	x, y := (call.Min.X+call.Max.X)/2+10*hour, (row.Min.Y+row.Max.Y)/2 // scene 8 is set up from 16:00, and shot from 16:15
	w.drag(x, y, [][2]int{{-hour / 2, 2}, {-hour / 2, -2}})
	w.keep("board-dropped", w.still())
	first := plan.Clock{}
	saved("scene 8 is pinned an hour earlier, and the others are held", func(pin plan.Pin, others int) bool {
		first = pin.Start
		return others > 8 && !pin.Held && pin.Start.IsSet() && pin.Start.Minutes() >= 15*60+5 && pin.Start.Minutes() <= 15*60+25
	})
	w.press("Left", "Left")
	saved("two keys move it by ten minutes", func(pin plan.Pin, _ int) bool { return pin.Start.Minutes() == first.Minutes()-10 })
	w.press("shift+Right")
	saved("with Shift it moves by one", func(pin plan.Pin, _ int) bool { return pin.Start.Minutes() == first.Minutes()-9 })
	w.press("ctrl+Right")
	saved("with Control it moves by a slot", func(pin plan.Pin, _ int) bool { return pin.Start.Minutes() == first.Minutes()-4 })
	w.press("space")
	saved("Space takes its pin out, and holds it", func(pin plan.Pin, _ int) bool { return pin.Held })
	w.keep("board-held", w.still())
	w.press(strings.Fields("ctrl+z ctrl+z ctrl+z ctrl+z ctrl+z ctrl+z ctrl+z ctrl+z")...)
	saved("all of it is taken back", func(pin plan.Pin, others int) bool { return pin == plan.Pin{} && others == 0 })
	w.press("ctrl+q")
	w.untilEnded()
}
