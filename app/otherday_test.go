package app

import (
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// twoDays is the demo as a shoot of two days, on its Day page, with the day of the most scenes shown.
func twoDays(t *testing.T) (*desk, *draw.Board, plan.Date) {
	t.Helper()
	d, _ := openDemo(t)
	p := d.plan().Clone()
	p.Shooting.Days = 2
	d.session.Fresh(p)
	d.settle()
	d.goTo(view.Day)
	days := d.session.State().Results.Shoot.Days
	if len(days) != 2 || len(days[0].Scenes) >= len(days[1].Scenes) {
		t.Fatalf("the shoot has %d days", len(days))
	}
	d.press(view.DayLabel(days[1]))
	return d, seen(d, func(*draw.Board) bool { return true })[0], days[0].Date
}

func (d *desk) shownDate() plan.Date { return d.session.State().Results.Chosen.Date }

// TestDragToAnotherDay carries scene 4 over the button of the other day: what would come of it is told, and let go there it is pinned on
// that day, which is shown. Undo takes it back; a key does the same.
func TestDragToAnotherDay(t *testing.T) {
	d, board, other := twoDays(t)
	here := d.shownDate()
	button := seen(d, func(b *widget.Button) bool { return b.Text == view.DayLabel(d.session.State().Results.Shoot.Days[0]) })[0]
	driver := fyne.CurrentApp().Driver()
	over := driver.AbsolutePositionForObject(button).Subtract(driver.AbsolutePositionForObject(board)).AddXY(9, 9)
	from := spot(t, board, "4")

	grip(board, from, fyne.NewPos(from.X, -4)) // above the board, over nothing
	if d.says("goes to") || d.session.State().Dirty {
		t.Error("over nothing it goes somewhere")
	}
	board.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: over}})
	if !d.says("Scene 4 goes to "+other.DayMonth()) || button.Importance != widget.HighImportance {
		t.Error("over the other day nothing is told")
	}
	release(board, over)
	d.settle()
	if pin := d.scene("4").Pin; pin.Date != other || pin.Held || d.shownDate() != other {
		t.Fatalf("scene 4 is pinned %+v, %s is shown", pin, d.shownDate())
	}
	if undo := d.session.State().Undo; undo != "move scene 4 to "+other.DayMonth() {
		t.Errorf("undo would take back %q", undo)
	}
	d.session.Undo()
	d.settle()
	if pin := d.scene("4").Pin; pin != (plan.Pin{}) {
		t.Errorf("undone, it is pinned %+v", pin)
	}

	d.press(view.DayLabel(d.session.State().Results.Shoot.Days[1]))
	grip(board, from, fyne.NewPos(from.X, -4)) // let go over nothing, it stays
	release(board, fyne.NewPos(from.X, -4))
	if d.session.State().Dirty || d.shownDate() != here {
		t.Error("let go over nothing, something changed")
	}
	board.MouseDown(mouse(spot(t, board, "4"), 0))
	board.MouseUp(mouse(spot(t, board, "4"), 0))
	board.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyPageUp, Modifier: fyne.KeyModifierControl})
	d.settle()
	if pin := d.scene("4").Pin; pin.Date != other || d.shownDate() != other {
		t.Errorf("by the key it is pinned %+v, %s is shown", pin, d.shownDate())
	}
}

// TestHeldSceneComesAlong looks along the day while a hand holds a scene beyond the end of what is shown: the scene stays under the hand.
func TestHeldSceneComesAlong(t *testing.T) {
	_, board, _ := handDesk(t)
	board.OnZoom(1)
	board.OnZoom(1)
	var reached []int
	was := board.OnReach
	board.OnReach = func(by int) { reached = append(reached, by); was(by) }
	before := board.Axis()
	from := spot(t, board, "4")
	end := fyne.NewPos(board.Size().Width-2, from.Y)
	grip(board, from, end)
	if len(reached) != 1 || reached[0] != 1 {
		t.Fatalf("beyond the end the board tells of %v", reached)
	}
	var grabs []draw.Grab
	grab := board.OnGrab
	board.OnGrab = func(g draw.Grab) { grabs = append(grabs, g); grab(g) }
	later := before
	later.From, later.To = later.From.Add(time.Hour), later.To.Add(time.Hour)
	board.Look(later)
	if len(grabs) != 1 || grabs[0].By < time.Hour {
		t.Errorf("looked along by an hour, the scene is held at %v", grabs)
	}
	release(board, end)
	if len(reached) != 2 || reached[1] != 0 {
		t.Errorf("let go, the board still looks along: %v", reached)
	}
}
