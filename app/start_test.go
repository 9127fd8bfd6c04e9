package app

import (
	"fmt"
	"path/filepath"
	"slices"
	"testing"

	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// TestThreeStepsToAPlan goes from the start through the three steps: position, date, scenes.
func TestThreeStepsToAPlan(t *testing.T) {
	d := newDesk(t)
	d.Start()
	d.settle()
	if d.current != view.Start || d.rail.Visible() && d.left.Visible() {
		t.Fatalf("it starts on page %s", d.current)
	}
	d.press("New plan")
	if !d.says("Step 1 of 3") {
		t.Fatal("the first step is not shown")
	}
	test.Type(d.entry("what the film is called"), "A house by the harbour")
	where := d.entry("a town, ZIP, 39.23 -120.91, map link…")
	where.SetText("geo:64.1466,-21.9426")
	where.OnSubmitted(where.Text)
	d.until("the position is set", func() bool { return d.plan().Property.Position != nil })
	d.press("Next")
	date := d.entry("2027-05-22 or 22 May 2027")
	date.SetText("someday")
	if !d.says("someday") {
		t.Error("a date that is none is not told")
	}
	date.SetText("22 Jun 2028")
	d.until("the light of the day is told", func() bool { return d.says("Thu 22 Jun 2028: the sun is over the skyline") })
	date.SetText("21 Jun 2028")
	d.press("Next")
	d.press("Back")
	d.press("Next")
	ticks := seen(d, func(c *widget.Check) bool { return c.Visible() })
	musts := 0
	for _, c := range ticks {
		if c.Checked {
			musts++
		}
	}
	if len(ticks) != len(plan.ReadyScenes()) || musts == 0 || musts == len(ticks) {
		t.Fatalf("%d scenes are offered, %d ticked", len(ticks), musts)
	}
	ticks[0].SetChecked(!ticks[0].Checked)
	first := 0
	if ticks[0].Checked {
		first = 1
	} else {
		first = -1
	}
	d.press("Done")
	d.settle()
	p := d.plan()
	if d.current != view.Scenes || !d.left.Visible() || len(p.Scenes) != musts+first || p.Title != "A house by the harbour" ||
		len(p.Shooting.Dates) != 1 || p.Shooting.Dates[0] != (plan.Date{Year: 2028, Month: 6, Day: 21}) {
		t.Errorf("on page %s: %d scenes, %q on %v", d.current, len(p.Scenes), p.Title, p.Shooting.Dates)
	}
	if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 || !d.session.State().Dirty {
		t.Errorf("wrong: %v", wrong)
	}
}

func TestTheStartIsLeft(t *testing.T) {
	path := demoCopy(t)
	for name, leave := range map[string]func(*desk){
		"Start empty":   func(d *desk) { d.press("Start empty") },
		"Escape":        func(d *desk) { d.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape}) },
		"Skip the rest": func(d *desk) { d.press("New plan"); d.press("Skip the rest") },
		"the menu":      func(d *desk) { d.menuItem("Brief").Action() },
		"New":           func(d *desk) { d.menuItem("New").Action() },
		"a recent plan": func(d *desk) { d.press(filepath.Base(path)) },
		"the demo":      func(d *desk) { d.press("Open the demo") },
	} {
		d := newDesk(t)
		d.remember(path)
		d.Start()
		d.settle()
		leave(d)
		d.settle()
		if d.current != view.Brief || !d.left.Visible() || d.session.State().Dirty {
			t.Errorf("%s leads to page %s", name, d.current)
		}
		want := map[string]string{"a recent plan": path, "the demo": ""}[name]
		if got := d.session.State().Path; got != want {
			t.Errorf("%s opens %q", name, got)
		}
		if titled := d.plan().Title != ""; titled != (name == "a recent plan" || name == "the demo") {
			t.Errorf("%s shows the plan %q", name, d.plan().Title)
		}
		d.menuItem("Start page").Action()
		d.settle()
		if d.current != view.Start || d.plan().Title != "" {
			t.Errorf("after %s the menu leads to page %s", name, d.current)
		}
		d.session.Close()
	}
}

// TestTheDemoIsAPlan: what is built in reads back as the plan that the tests read.
func TestTheDemoIsAPlan(t *testing.T) {
	d := newDesk(t)
	d.openDemo()
	d.settle()
	p, _, err := store.Read("../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	if string(must(store.Encode(d.plan()))) != string(must(store.Encode(p))) {
		t.Error("the demo is another plan than that of the tests")
	}
}

// TestSetsTickTheirScenes: a set ticks its scenes and no others, is marked while it is what is ticked, and the user's ticks count.
func TestSetsTickTheirScenes(t *testing.T) {
	d := newDesk(t)
	d.Start()
	d.settle()
	for _, b := range []string{"New plan", "Next", "Next"} {
		d.press(b)
	}
	marked := func() (names []string) {
		for _, b := range seen(d, func(b *widget.Button) bool {
			return b.Icon != nil && b.Icon.Name() == theme.RadioButtonCheckedIcon().Name()
		}) {
			names = append(names, b.Text)
		}
		return names
	}
	if got := marked(); !slices.Equal(got, []string{"The usual ones"}) {
		t.Errorf("at first %q is marked", got)
	}
	for _, set := range plan.ReadySets() {
		d.press(set.Name)
		var ticked []plan.ID
		for i, c := range seen(d, func(c *widget.Check) bool { return c.Visible() }) {
			if c.Checked {
				ticked = append(ticked, plan.ReadyScenes()[i].ID)
			}
		}
		if !slices.Equal(ticked, set.Scenes) || !slices.Equal(marked(), []string{set.Name}) || !d.says(fmt.Sprintf("%d scenes: set-up", len(set.Scenes))) {
			t.Errorf("%s ticks %v, and %q is marked", set.Name, ticked, marked())
		}
	}
	d.press("Short morning") // aerial 35 min, coffee 35, breakfast 45, door 35: the table in plan/ready.go
	if !d.says("4 scenes: set-up and shooting take 2 h 30.") {
		t.Error("what the short morning takes is not told")
	}
	ticks := seen(d, func(c *widget.Check) bool { return c.Visible() })
	ticks[0].SetChecked(false)
	if len(marked()) != 0 || !d.says("3 scenes: ") {
		t.Errorf("%q is marked though its scenes are changed", marked())
	}
	for _, c := range ticks {
		c.SetChecked(false)
	}
	if !d.says("No scene is ticked.") {
		t.Error("that nothing is ticked is not told")
	}
	d.press("Short morning")
	d.press("Done")
	d.settle()
	if n := len(d.plan().Scenes); n != 4 {
		t.Errorf("%d scenes come into the plan", n)
	}
}
