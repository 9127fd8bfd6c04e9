//go:build cgo && linux

package main

import (
	"fmt"
	"image"
	"strings"
)

// window is the program at work on a desk, and the hand at its keyboard and mouse.
type window struct {
	*desk
	*process
	id string
}

const demoTitle = "A day at Tarn Ledge – Eavelight"

// open starts the program on a plan and waits for its window, with the focus in it and its title as expected.
func (d *desk) open(plan, title string) *window {
	d.Helper()
	args := []string{plan}
	if plan == "" { // the program started by itself
		args = nil
	}
	w := &window{desk: d, process: d.start(d.program, args...)}
	d.until("the window is there", func() bool {
		if !w.running() {
			d.Fatal("the program ended before it had a window")
		}
		out, err := d.ask("xdotool", "search", "--onlyvisible", "--all", "--pid", fmt.Sprint(w.Process.Pid), "--name", "Eavelight")
		w.id, _, _ = strings.Cut(out, "\n")
		return err == nil && w.id != ""
	})
	w.untilTitle(title)
	w.untilFocused()
	return w
}

func (w *window) untilFocused() {
	w.desk.Helper()
	w.until("the window has the focus", func() bool {
		if active, err := w.ask("xdotool", "getactivewindow"); err == nil && active == w.id {
			return true
		}
		w.ask("xdotool", "windowactivate", w.id)
		return false
	})
}

func (w *window) title() string {
	name, _ := w.ask("xdotool", "getwindowname", w.id)
	return name
}

func (w *window) untilTitle(title string) {
	w.desk.Helper()
	w.until("the title is "+title, func() bool { return w.title() == title })
}

// size is the window's, in pixels, without what the window manager puts round it.
func (w *window) size() image.Point {
	w.desk.Helper()
	var p image.Point
	for _, line := range strings.Split(w.do("xdotool", "getwindowgeometry", "--shell", w.id), "\n") {
		fmt.Sscanf(line, "WIDTH=%d", &p.X)
		fmt.Sscanf(line, "HEIGHT=%d", &p.Y)
	}
	return p
}

// press presses keys, one after the other, each as xdotool writes it: "ctrl+s".
func (w *window) press(keys ...string) {
	w.desk.Helper()
	w.do("xdotool", append([]string{"key", "--delay", "60"}, keys...)...)
}

// write types a text where the focus is.
func (w *window) write(text string) {
	w.desk.Helper()
	w.do("xdotool", "type", "--delay", "40", text)
}

// see waits until words are on the screen and tells where. Where they stand more than once, it is the lowest.
func (w *window) see(words string) image.Rectangle {
	w.desk.Helper()
	var at []image.Rectangle
	w.until(fmt.Sprintf("%q is on the screen", words), func() bool {
		at = w.screen().find(words)
		return len(at) > 0
	})
	return at[len(at)-1]
}

// unsee waits until words are gone.
func (w *window) unsee(words string) {
	w.desk.Helper()
	w.until(fmt.Sprintf("%q is no longer on the screen", words), func() bool { return len(w.screen().find(words)) == 0 })
}

// click presses the mouse on words, or beside them as far to the right as told: a field stands beside its name.
func (w *window) click(words string, beside int) {
	w.desk.Helper()
	at := w.see(words)
	x, y := (at.Min.X+at.Max.X)/2, (at.Min.Y+at.Max.Y)/2
	if beside > 0 {
		x = at.Max.X + beside
	}
	w.do("xdotool", "mousemove", fmt.Sprint(x-3), fmt.Sprint(y))
	w.do("xdotool", "mousemove", fmt.Sprint(x), fmt.Sprint(y), "sleep", "0.1", "mousedown", "1", "sleep", "0.1", "mouseup", "1")
}

// drag presses the mouse at a place, leads it along steps, and lets go.
func (w *window) drag(x, y int, steps [][2]int) {
	w.desk.Helper()
	args := []string{"mousemove", fmt.Sprint(x), fmt.Sprint(y), "sleep", "0.2", "mousedown", "1", "sleep", "0.2"}
	for _, s := range steps {
		for i := 1; i <= 5; i++ {
			args = append(args, "mousemove", fmt.Sprint(x+s[0]*i/5), fmt.Sprint(y+s[1]*i/5), "sleep", "0.03")
		}
		x, y = x+s[0], y+s[1]
	}
	w.do("xdotool", append(args, "sleep", "0.2", "mouseup", "1")...)
}

// page goes to a page by its number and waits until it stands still. sign are words that no other page has.
func (w *window) page(number int, sign string) *shot {
	w.desk.Helper()
	w.press(fmt.Sprintf("ctrl+%d", number))
	w.see(sign)
	return w.still()
}

// still waits until the day is placed and the picture no longer changes. The cursor in a field may blink.
func (w *window) still() *shot {
	w.desk.Helper()
	var now *shot
	before := w.screen()
	w.until("the picture stands still", func() bool {
		now = w.screen()
		same := changed(before.screen, now.screen, now.Bounds()) < 0.0005
		before = now
		return same && len(now.find("Placing the scenes")) == 0
	})
	return now
}

// untilEnded waits until the program has ended by itself, and without a complaint.
func (w *window) untilEnded() {
	w.desk.Helper()
	w.until("the program has ended", func() bool { return !w.running() })
	if !w.ProcessState.Success() {
		w.Fatalf("the program ended with %v", w.ProcessState)
	}
}
