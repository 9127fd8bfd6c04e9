package app

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// TestFreeALeftOutScene: what is offered for a scene left out is one edit, by its own name, and gives the scene its place.
func TestFreeALeftOutScene(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	d.press("Why this day")
	if !d.says("Rather than Sat 9 Oct 2027: ") || !d.says("No other order of these scenes") {
		t.Error("why this date, or how sure it is, is not told")
	}
	d.press("Left out (1)")
	offered := func() bool { return len(seen(d, func(b *widget.Button) bool { return b.Text == "Do it" })) > 1 }
	d.until("changes are offered", offered)
	before := d.plan()
	d.press("Do it")
	if got := d.session.State().Undo; !strings.HasPrefix(got, "count scene 1") {
		t.Errorf("the edit is called %q", got)
	}
	d.until("the scene has its place", func() bool { return d.says("No scene is left out.") })
	d.undo()
	if p := d.plan(); !slices.EqualFunc(p.Scenes, before.Scenes, func(a, b plan.Scene) bool { return a.Importance == b.Importance }) {
		t.Error("undo does not take it back")
	}
}

// TestTakeAnotherDay: its scenes are pinned where it has them, by one edit, and its date stays.
func TestTakeAnotherDay(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	d.press("Why this day")
	d.press("Other days")
	d.until("another day is offered", func() bool {
		return len(seen(d, func(b *widget.Button) bool { return b.Text == "Take this day" })) > 0
	})
	if !d.says("Least waiting: ") || !d.says("Points lost") {
		t.Error("its figures are not shown")
	}
	d.press("Take this day")
	d.until("it is taken", func() bool { return d.says("scenes are pinned to this day") })
	st := d.session.State()
	if st.Undo != "take the day of least waiting" || st.Plan.Shooting.Date.String() != "2027-10-16" {
		t.Errorf("the edit is called %q, the date is %s", st.Undo, st.Plan.Shooting.Date)
	}
	d.press("Take out the pins")
	d.settle()
	if slices.ContainsFunc(d.plan().Scenes, func(s plan.Scene) bool { return s.Pin != plan.Pin{} }) {
		t.Error("pins are left")
	}
}

// TestTellingByKeyboard: Tab reaches the button that opens the panel, its parts, and what they offer.
func TestTellingByKeyboard(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	press := func(text string) {
		t.Helper()
		c := d.win.Canvas()
		c.Unfocus()
		for range 100 {
			c.FocusNext()
			if b, ok := c.Focused().(*widget.Button); ok && b.Visible() && b.Text == text {
				b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
				return
			}
		}
		t.Fatalf("Tab never reaches %q", text)
	}
	press("Why this day")
	board := seen(d, func(*draw.Board) bool { return true })[0]
	board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome}) // selects scene 1
	press("Scene 1")
	d.until("why it is here is told", func() bool { return d.says("An hour later: cannot be, its light (golden morning) ends at 07:51.") })
	press("Left out (1)")
	d.until("changes are offered", func() bool { return d.says("Count scene 1") })
	press("Do it")
	if !strings.HasPrefix(d.session.State().Undo, "count scene 1") {
		t.Errorf("the last edit is %q", d.session.State().Undo)
	}
	press("Why this day")
	if d.says("What would give them a place") {
		t.Error("the panel stays open")
	}
}

// TestTellingFitsAnything: every part of the panel, of a day without scenes, of the demo on two days, and of long names.
func TestTellingFitsAnything(t *testing.T) {
	d, _ := openDemo(t)
	none, two, long := plan.New(), d.plan().Clone(), d.plan().Clone()
	none.Property, none.Shooting.Dates = two.Property, two.Shooting.Dates
	two.Shooting.Days = 2
	for i := range long.Scenes {
		long.Scenes[i].Title = strings.Repeat("Åßæ ", 60)
		long.Scenes[i].Number = long.Scenes[i].Number + strings.Repeat("W", 30)
	}
	for i := range long.People {
		long.People[i].Name = strings.Repeat("Wölfeschlegel", 15)
	}
	d.menuItem("Day").Action()
	for _, p := range []plan.Plan{none, two, long} {
		d.session.Fresh(p)
		d.settle()
		d.press("Why this day")
		if len(p.Scenes) > 0 {
			board := seen(d, func(*draw.Board) bool { return true })[0]
			board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
		}
		for _, part := range view.Parts {
			st := d.session.State()
			d.press(part.Label(st, firstScene(st)))
			d.until("it is told", func() bool { return len(seen(d, func(b *widget.Button) bool { return b.Text == "Stop" })) == 0 })
			if got := d.win.Canvas().Capture().Bounds(); got.Dx() != 1280 || got.Dy() != 800 {
				t.Errorf("%s of %q does not fit 1280x800: %v", part, p.Title, got)
			}
		}
	}
}

// firstScene is the scene shot first.
func firstScene(st session.State) plan.ID {
	if s := st.Results.Chosen.Scenes; len(s) > 0 {
		return s[0].Scene
	}
	return ""
}
