package app

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/look"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// stripDesk is the demo on its Day page, and the dates there: 9, 16 and 23 October, of which the sixteenth is the best.
func stripDesk(t *testing.T) (*desk, *draw.DateStrip) {
	t.Helper()
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	return d, seen(d, func(*draw.DateStrip) bool { return true })[0]
}

// comparing lists the dates that are set beside each other.
func (d *desk) comparing() (out []string) {
	if !d.says("Light kept") {
		return nil
	}
	for _, l := range seen(d, func(l *widget.Label) bool { return strings.HasSuffix(l.Text, " Oct 2027") }) {
		out = append(out, l.Text)
	}
	return out
}

func ctrl(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl}
}

func TestCompareTwoDates(t *testing.T) {
	d, strip := stripDesk(t)
	check := func(what string, want ...string) {
		t.Helper()
		if got := d.comparing(); !slices.Equal(got, want) {
			t.Errorf("%s: %v are compared, want %v", what, got, want)
		}
	}
	const ninth, sixteenth, last = "Sat 9 Oct 2027", "Sat 16 Oct 2027", "Sat 23 Oct 2027"
	check("at first")
	d.press("Compare")
	check("the button", sixteenth, ninth) // the second best
	d.press("Compare")
	check("the button again")
	strip.TypedShortcut(ctrl(fyne.KeyRight))
	check("Ctrl and Right", sixteenth, last)
	strip.TypedShortcut(ctrl(fyne.KeyLeft))
	check("Ctrl and Left goes past the one shown", sixteenth, ninth)
	strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	check("Escape")
	x := strip.Size().Width / 8 // on the first card, whatever the cards' width
	strip.MouseDown(mouse(fyne.NewPos(x/2, 30), fyne.KeyModifierShift))
	check("a press with Shift", sixteenth, ninth)
	if d.plan().Shooting.Date != (plan.Date{}) {
		t.Error("to compare chose a date")
	}
	strip.MouseDown(mouse(fyne.NewPos(x/2, 30), 0))
	d.settle()
	check("the other one chosen: they change places", ninth, sixteenth)
	d.press("Remove date")
	d.settle()
	check("one removed")
	if dates := d.plan().Shooting.Dates; len(dates) != 2 || d.session.State().Undo != "remove the date 9 Oct" {
		t.Errorf("%v stay, undo %q", dates, d.session.State().Undo)
	}
	d.undo()
	if got := d.plan().Shooting; len(got.Dates) != 3 || got.Date.Day != 9 {
		t.Errorf("undone, the dates are %v, chosen %v", got.Dates, got.Date)
	}
	d.settle()
	const alone = "Each date alone"
	if d.press("Compare"); d.says(alone) {
		t.Error("for a film of one day it is said that each date is meant alone")
	}
	d.session.Edit("two days", "", func(p *plan.Plan) { p.Shooting.Days = 2 })
	d.settle()
	if !d.says(alone) {
		t.Error("for a film of two days it is not said that each date is meant alone")
	}
}

func TestRemoveADateByKey(t *testing.T) {
	d, strip := stripDesk(t)
	for _, want := range []int{2, 1, 0, 0} {
		strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
		d.settle()
		if got := len(d.plan().Shooting.Dates); got != want {
			t.Fatalf("%d dates, want %d", got, want)
		}
	}
	if b := seen(d, func(b *widget.Button) bool { return b.Text == "Remove date" || b.Text == "Compare" }); !b[0].Disabled() || !b[1].Disabled() {
		t.Error("there is something to compare or to remove still")
	}
}

func TestProposeADateFromTheCalendar(t *testing.T) {
	d, _ := stripDesk(t)
	over := d.win.Canvas().Overlays()
	d.press("Add date")
	if len(over.List()) != 1 || !d.says("Press a date") {
		t.Fatal("no calendar opens")
	}
	d.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if len(over.List()) != 0 {
		t.Fatal("Escape leaves it open")
	}
	d.press("Add date") // by keys alone: Tab to the thirtieth, and Space
	for range 100 {
		d.win.Canvas().FocusNext()
		if b, ok := d.win.Canvas().Focused().(*widget.Button); ok && b.Text == "30" {
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			break
		}
	}
	d.settle()
	want := plan.Date{Year: 2027, Month: 10, Day: 30}
	if dates := d.plan().Shooting.Dates; len(over.List()) != 0 || len(dates) != 4 || dates[3] != want || d.session.State().Undo != "propose a date" {
		t.Errorf("the dates are %v, undo %q", dates, d.session.State().Undo)
	}
	d.press("Add date")
	day := seen(d, func(b *widget.Button) bool { return b.Text == "30" })
	test.Tap(day[0])
	if dates := d.plan().Shooting.Dates; len(dates) != 4 {
		t.Errorf("a date stands there twice: %v", dates)
	}
}

// TestComparisonFitsLargeText: at one and a half times the text the dates beside each other fit a small screen.
func TestComparisonFitsLargeText(t *testing.T) {
	d, _ := stripDesk(t)
	d.app.Settings().SetTheme(look.New(false).Scaled(1.5))
	d.changed()
	d.press("Compare")
	if least := d.win.Content().MinSize(); least.Width > 1280 || least.Height > 800 {
		t.Errorf("the window needs %v", least)
	}
}

// TestComparedDatesTakeNoMoreRoomThanTheirWords: what is under them begins where they end, as soon as they are shown.
func TestComparedDatesTakeNoMoreRoomThanTheirWords(t *testing.T) {
	d, _ := openDemo(t)
	d.goTo(view.Day)
	d.press("Compare")
	d.settle()
	heads := seen(d, func(l *widget.Label) bool { return l.Text == "Golden light" })
	if len(heads) != 1 {
		t.Fatalf("%d heads of the light", len(heads))
	}
	path := pathTo(d.win.Content(), heads[0])
	above := path[len(path)-3] // what stacks the dates, their table and the year
	if above.Size().Height > above.MinSize().Height+1 {
		t.Errorf("they take %v and need %v", above.Size(), above.MinSize())
	}
}
