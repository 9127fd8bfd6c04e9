//go:build cgo && linux

package main

import (
	"bytes"
	"encoding/json"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/store"
)

// TestWindow builds the program and works its real window as a person does, on a display of its own. It is skipped where the
// tools for that are missing, unless EAVELIGHT_WINDOW_TEST=1 asks for it.
func TestWindow(t *testing.T) {
	for _, tool := range tools {
		if _, err := exec.LookPath(tool); err == nil {
			continue
		}
		if os.Getenv("EAVELIGHT_WINDOW_TEST") == "1" {
			t.Fatalf("%s is missing; sh cmd/test.sh installs it", tool)
		}
		t.Skipf("the real window is not tested: %s is missing; sh cmd/test.sh installs it", tool)
	}
	if shots != "" {
		if err := os.MkdirAll(shots, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	program := filepath.Join(t.TempDir(), "eavelight")
	if out, err := exec.Command("go", "build", "-tags", "no_emoji", "-buildvcs=false", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	for _, test := range []struct {
		name string
		do   func(*testing.T, string)
	}{
		{"pages", testPages},
		{"large", testLarge},
		{"dark", testDark},
		{"scene", testScene},
		{"why", testWhy},
		{"board", testBoard},
		{"sign", testSign},
		{"contacts", testContacts},
		{"drop", testDrop},
		{"unsaved", testUnsaved},
		{"size", testSize},
		{"second", testSecond},
		{"recover", testRecover},
		{"tour", testTour},
		{"least", testLeast},
	} {
		t.Run(test.name, func(t *testing.T) { test.do(t, program) })
	}
}

// pages are the window's, each with words that no other one shows of the demo plan.
var pages = []struct{ name, sign string }{
	{"brief", "To deliver"},
	{"property", "Time zone"},
	{"scenes", "Importance"},
	{"people", "Part or job"},
	{"day", "Dates and rules"},
	{"price", "Floor"},
	{"papers", "What they say"},
}

// leaf goes through the pages by their keys and sees that each shows itself, and nothing but itself.
func (w *window) leaf() {
	w.desk.Helper()
	var seen []*shot
	for i, p := range pages {
		s := w.page(i+1, p.sign)
		w.keep(p.name, s)
		for j, other := range pages {
			if j != i && len(s.find(other.sign)) > 0 {
				w.Errorf("the %s page shows %q, which is the %s page's", p.name, other.sign, other.name)
			}
		}
		seen = append(seen, s)
	}
	for i, s := range seen {
		for j := range i {
			if part := changed(s.screen, seen[j].screen, s.Bounds()); part < 0.02 {
				w.Errorf("the %s page looks like the %s page: %.1f %% of it differ", pages[i].name, pages[j].name, 100*part)
			}
		}
	}
	if w.title() != demoTitle {
		w.Errorf("looking at the pages changed the plan: the title is %q", w.title())
	}
}

func testPages(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	w := d.open(d.copyDemo(), demoTitle)
	if class := w.do("xprop", "-id", w.id, "WM_CLASS"); !strings.Contains(class, `"`+appID+`"`) {
		t.Errorf("a desktop cannot tell whose window this is: %s", class)
	}
	w.leaf()
	w.page(1, "To deliver")
	w.click("Property", 0) // in the rail
	w.see("Time zone")
	w.press("ctrl+q")
	w.untilEnded()
}

func testLarge(t *testing.T, program string) {
	d := newDesk(t, program, 1920, 1080)
	w := d.open(d.copyDemo(), demoTitle)
	w.do("wmctrl", "-i", "-r", w.id, "-b", "add,maximized_vert,maximized_horz")
	w.until("the window is as large as the screen", func() bool { return w.size().X > 1900 })
	w.leaf()
}

// testDark turns the window dark by the mouse, and finds it dark when it comes again.
func testDark(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	middle := image.Pt(640, 600)
	light := w.still().GrayAt(middle.X, middle.Y).Y
	w.click("View", 0)
	w.click("Dark", 0)
	w.until("the window is dark", func() bool { return w.screen().GrayAt(middle.X, middle.Y).Y < light/2 })
	w.press("ctrl+q")
	w.untilEnded()
	w = d.open(file, demoTitle)
	if w.still().GrayAt(middle.X, middle.Y).Y >= light/2 {
		t.Error("the dark theme is forgotten")
	}
	w.leaf()
}

// testScene adds a scene, writes its row in the table without a mouse, sees it on the day, saves, and finds it when it opens the plan
// again.
func testScene(t *testing.T, program string) {
	const title, wish = "Reeds in the wind", "blue morning"
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	before := w.page(5, "Dates and rules")
	w.page(3, "Add scene")
	w.press("ctrl+shift+a")
	w.click("untitled scene", 0)
	w.write(title)
	w.press("Tab", "Tab", "Tab") // over space and people
	w.write("blue m")
	w.press("Return")
	w.see(title)
	w.see(wish)
	w.untilTitle("• " + demoTitle)
	w.keep("added", w.still())
	after := w.page(5, "Dates and rules")
	w.keep("day", after)
	if part := changed(before.screen, after.screen, after.Bounds()); part < 0.002 {
		t.Errorf("the day looks as before the new scene: %.2f %% of it differ", 100*part)
	}
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	w.press("ctrl+q")
	w.untilEnded()

	p, _, err := store.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.Title == title })
	if i < 0 || len(p.Scenes) != 15 {
		t.Fatalf("the file has %d scenes, and the new one at %d", len(p.Scenes), i)
	}
	if p.Scenes[i].Wish.Kind != wish {
		t.Errorf("the new scene wishes %q, want %q", p.Scenes[i].Wish.Kind, wish)
	}
	if !placed(d, file, p.Scenes[i].ID) {
		t.Error("eavelight place does not name the new scene")
	}
	w = d.open(file, demoTitle)
	w.page(3, "Add scene")
	w.see(title)
	w.keep("again", w.still())
}

// placed reports whether the program, asked without its window, places a scene of a file or tells why it is left out.
func placed(d *desk, file string, scene plan.ID) bool {
	d.Helper()
	out, err := d.command(d.program, "place", "--json", file).Output() // ends with 1 where the demo leaves a scene out
	var report placeReport
	if json.Unmarshal(out, &report) != nil {
		d.Fatalf("eavelight place: %v\n%s", err, out)
	}
	return slices.ContainsFunc(report.Scenes, func(s sceneReport) bool { return s.ID == scene }) ||
		slices.ContainsFunc(report.LeftOut, func(s leftReport) bool { return s.ID == scene })
}

// testUnsaved closes the window on an unsaved plan and presses each of the three answers.
// testWhy asks why the day is so, reads what would give the scene left out a place, does it, and takes it back; then takes the
// day of least waiting.
func testWhy(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	w.page(5, "Dates and rules")
	w.click("Why this day", 0)
	w.see("Why this date")
	w.keep("why-date", w.still())
	w.click("Left out (1)", 0)
	w.click("Do it", 0)
	w.press("ctrl+s")
	w.until("scene 11 or 12 is no must any more", func() bool {
		p, _, err := store.Read(file)
		if err != nil {
			return false
		}
		toast, _ := p.Scene("toast")
		jetty, _ := p.Scene("jetty")
		return toast.Importance == plan.Should || jetty.Importance == plan.Should
	})
	w.keep("why-done", w.still())
	w.press("ctrl+z")
	w.click("Other days", 0)
	w.see("Take this day")
	w.keep("why-others", w.still())
	w.click("Take this day", 0)
	w.press("ctrl+s")
	w.until("the day of least waiting is pinned", func() bool {
		p, _, err := store.Read(file)
		pinned := func(s plan.Scene) bool { return !s.Pin.Date.IsZero() }
		return err == nil && len(p.Scenes)-1 == len(slices.DeleteFunc(slices.Clone(p.Scenes), func(s plan.Scene) bool { return !pinned(s) }))
	})
	w.untilTitle(demoTitle)
	w.press("ctrl+q")
	w.untilEnded()
}

func testUnsaved(t *testing.T, program string) {
	const question = "Save the changes?"
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	original := read(t, file)
	edited := func() *window {
		w := d.open(file, demoTitle)
		w.click("Client", 60)
		w.press("End")
		w.write(" and sons")
		w.untilTitle("• " + demoTitle)
		return w
	}

	w := edited()
	w.press("ctrl+q")
	w.see(question)
	w.keep("question", w.still())
	w.click("Go on working", 0)
	w.unsee(question)
	if !w.running() {
		t.Fatal("the window closed although the user went on working")
	}
	w.press("ctrl+q")
	w.click("Don't save", 0)
	w.untilEnded()
	if !bytes.Equal(read(t, file), original) {
		t.Fatal("the file changed although the user did not save")
	}

	w = edited()
	w.do("wmctrl", "-i", "-c", w.id) // the cross of the window manager
	w.see(question)
	w.click("Don't save", 60) // the button beside it, which saves
	w.untilEnded()
	p, _, err := store.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	if p.Brief.Client != "Harrow Lane Estates and sons" {
		t.Errorf("the client in the file is %q", p.Brief.Client)
	}
}

// testSize changes the window's size and finds it when the window comes again.
func testSize(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	w.do("wmctrl", "-i", "-r", w.id, "-e", "0,-1,-1,1110,690")
	want := image.Pt(1110, 690)
	w.until("the window has the new size", func() bool { return w.size() == want })
	w.keep("small", w.still())
	w.press("ctrl+q")
	w.untilEnded()
	w = d.open(file, demoTitle)
	w.until("the window has its old size again", func() bool { return w.size() == want })
}

// testSecond opens a plan in two windows: the second is told so, and stands there with an empty plan.
func testSecond(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	original := read(t, file)
	first := d.open(file, demoTitle)
	second := d.open(file, "Untitled plan – Eavelight")
	second.see("The plan was not opened")
	second.see("is open in another window")
	second.keep("told", second.still())
	second.click("Close", 0)
	second.unsee("The plan was not opened")
	if !first.running() || !second.running() {
		t.Fatal("one of the two windows ended")
	}
	second.press("ctrl+q")
	second.untilEnded()
	if err := first.Process.Signal(os.Interrupt); err != nil { // as Ctrl+C in the terminal that it was started from
		t.Fatal(err)
	}
	first.untilEnded()
	if !bytes.Equal(read(t, file), original) {
		t.Error("the file changed although nobody saved")
	}
}
