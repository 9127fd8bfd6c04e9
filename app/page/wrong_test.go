package page

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// leadWith is the line of what is wrong that has some words.
func leadWith(t *testing.T, d *Day, words string) *draw.Lead {
	t.Helper()
	for _, o := range d.wrongs.box.Objects {
		if l, ok := o.(*draw.Lead); ok && strings.Contains(l.Data().Text, words) {
			return l
		}
	}
	t.Fatalf("no line with %q leads anywhere", words)
	return nil
}

// TestWrongLeads: a press on what is wrong with a scene selects it on the board, and a second one opens it. Space does the same, and
// the line keeps the keyboard though another comes in before it.
func TestWrongLeads(t *testing.T) {
	d, _, _ := asking(t)
	var opened []view.Hit
	d.open = func(h view.Hit) { opened = append(opened, h) }
	lead := leadWith(t, d, "Scene 12 has the sun in the frame")
	canvas := fyne.CurrentApp().Driver().CanvasForObject(lead)
	before, y := len(d.wrongs.box.Objects), fyne.CurrentApp().Driver().AbsolutePositionForObject(lead).Y
	test.Tap(lead)
	s, _ := d.state.Plan.Scene(d.selected)
	if s.Number != "12" || len(opened) > 0 || len(d.wrongs.box.Objects) != before+1 {
		t.Errorf("the first press selects %q and opens %v", s.Number, opened)
	}
	if now := fyne.CurrentApp().Driver().AbsolutePositionForObject(lead).Y; now != y {
		t.Errorf("the line was at %v and is at %v", y, now)
	}
	if leadWith(t, d, "Scene 12 has the sun") != lead || canvas.Focused() != lead || lead.Data().Word != "Open" {
		t.Errorf("the keyboard is at %T, and the word is %q", canvas.Focused(), lead.Data().Word)
	}
	lead.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if len(opened) != 1 || opened[0].Kind != view.SceneHit || opened[0].ID != s.ID {
		t.Errorf("the second press opens %v", opened)
	}
	test.Tap(leadWith(t, d, "12  "))
	if len(opened) != 2 || opened[1].ID != s.ID {
		t.Errorf("the line of the scene itself opens %v", opened)
	}
}

// TestWrongAsks where to, when a line is about more than one.
func TestWrongAsks(t *testing.T) {
	d, _, _ := asking(t)
	var opened []view.Hit
	d.open = func(h view.Hit) { opened = append(opened, h) }
	lead := leadWith(t, d, " waits ")
	lead.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	menu, ok := fyne.CurrentApp().Driver().CanvasForObject(lead).Focused().(*widget.PopUpMenu)
	if !ok {
		t.Fatal("nothing is asked")
	}
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	menu.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(opened) != 1 || opened[0].Kind != view.PersonHit || !strings.HasPrefix(lead.Data().Text, opened[0].Title) {
		t.Errorf("it opens %+v", opened)
	}
}

// TestWrongRule opens the rules of the day.
func TestWrongRule(t *testing.T) {
	d, _, _ := asking(t)
	for _, path := range []plan.ID{"flying", "dates"} {
		d.side.Hide()
		d.follow(view.Hit{Kind: view.RuleHit, Page: view.Day, ID: path})
		if !d.side.Visible() {
			t.Errorf("%s: the rules stay away", path)
		}
	}
}

// TestWrongsStayWhileDragged: a drag on the board leaves the list as it was, the widgets and where they lie.
func TestWrongsStayWhileDragged(t *testing.T) {
	d, _, _ := asking(t)
	id := d.state.Results.Chosen.Scenes[5].Scene
	d.board.OnSelect(string(id))
	d.wrongs.scroll.ScrollToOffset(fyne.NewPos(0, 20))
	old, at := slices.Clone(d.wrongs.box.Objects), d.wrongs.scroll.Offset
	for i := range 6 {
		d.board.OnGrab(draw.Grab{IDs: []string{string(id)}, Row: -1, By: time.Duration(5*i) * time.Minute})
		d.show() // as when a placing ends meanwhile
		if !slices.Equal(d.wrongs.box.Objects, old) || d.wrongs.scroll.Offset != at {
			t.Fatalf("step %d makes another list", i)
		}
	}
	d.board.OnCancel()
}
