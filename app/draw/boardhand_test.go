package draw

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

func pressed(at fyne.Position, mod fyne.KeyModifier) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary, Modifier: mod}
}

// hold replays a drag as the desktop driver sends it, and lets go in the end.
func hold(w *Board, points ...fyne.Position) {
	w.MouseIn(pressed(points[0], 0))
	w.MouseMoved(pressed(points[0], 0))
	w.MouseDown(pressed(points[0], 0))
	for _, at := range points[1:] {
		w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}})
	}
	w.MouseUp(pressed(points[len(points)-1], 0))
	w.DragEnd()
}

// handBoard is the sample board on a grid of 5 minutes, and a line for each thing it tells.
func handBoard(t *testing.T) (*Board, *[]string) {
	w, _, _, _ := shownBoard(t)
	told := &[]string{}
	say := func(format string, args ...any) { *told = append(*told, fmt.Sprintf(format, args...)) }
	w.OnGrab = func(g Grab) { say("grab %v %d %v %d", g.IDs, g.Part, g.By, g.Row) }
	w.OnDrop = func(g Grab) { say("drop %v %d %v %d", g.IDs, g.Part, g.By, g.Row) }
	w.OnCancel = func() { say("cancel") }
	w.OnNudge = func(g Grab) { say("nudge %v %d %v %d", g.IDs, g.Part, g.By, g.Row) }
	w.OnAlso = func(ids []string) { say("also %v", ids) }
	w.OnSelect = func(id string) { say("select %s", id) }
	w.OnPin = func() { say("pin") }
	w.OnZoom = func(in int) { say("zoom %d", in) }
	w.OnPan = func(by int) { say("pan %d", by) }
	d := sampleBoard()
	d.Grid, d.Origin, d.Selected = 5*time.Minute, at(0, 0), ""
	d.ShelfName, d.Shelf = "No place yet", []Block{
		{ID: "s8", SetUp: at(10, 0), Start: at(10, 10), End: at(10, 40), Number: "8", Title: "Attic"},
		{ID: "s9", SetUp: at(11, 0), Start: at(11, 10), End: at(11, 40), Number: "9", Title: "Attic"},
	}
	w.Set(d)
	return w, told
}

func expectTold(t *testing.T, what string, told *[]string, want ...string) {
	t.Helper()
	if !slices.Equal(*told, want) {
		t.Errorf("%s: it tells %q, want %q", what, *told, want)
	}
	*told = nil
}

// along is how far so many minutes are on a board.
func along(w *Board, n float32) float32 {
	a := w.data.Axis
	return n * a.plot(w.Size().Width) / float32(a.To.Sub(a.From).Minutes())
}

func TestBoardTellsADrag(t *testing.T) {
	w, told := handBoard(t)
	x, y := middle(t, w, "s4")
	row := w.grid(w.Size()).row
	from := fyne.NewPos(x, y)
	hold(w, from, fyne.NewPos(x+along(w, 1), y), fyne.NewPos(x+along(w, 7), y), fyne.NewPos(x+along(w, 8), y), fyne.NewPos(x+along(w, 23), y-row))
	expectTold(t, "moved", told, "select s4", "grab [s4] 0 0s -1", "grab [s4] 0 5m0s -1", "grab [s4] 0 10m0s -1", "grab [s4] 0 25m0s 1", "drop [s4] 0 25m0s 1")
	hold(w, from, fyne.NewPos(x+along(w, 20), y), from)
	expectTold(t, "put back", told, "grab [s4] 0 20m0s -1", "grab [s4] 0 0s -1", "cancel")
	r, _ := w.place(w.data.Blocks[2], w.Size()) // 9:00, 9:30 to 11:00
	left, right := fyne.NewPos(r.x+2, y), fyne.NewPos(r.x+r.w-2, y)
	hold(w, left, left.AddXY(along(w, -12), 40))
	expectTold(t, "the left edge", told, "grab [s4] 1 -10m0s -1", "drop [s4] 1 -10m0s -1")
	hold(w, left, left.AddXY(along(w, 300), 0))
	expectTold(t, "the left edge beyond the start", told, "grab [s4] 1 30m0s -1", "drop [s4] 1 30m0s -1")
	hold(w, right, right.AddXY(along(w, -300), 0))
	expectTold(t, "the right edge before the start", told, "grab [s4] 2 -1h25m0s -1", "drop [s4] 2 -1h25m0s -1")
}

func TestBoardTakesADragBack(t *testing.T) {
	w, told := handBoard(t)
	x, y := middle(t, w, "s4")
	w.MouseDown(pressed(fyne.NewPos(x, y), 0))
	w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x+50, y)}})
	if !w.Holds() {
		t.Error("the board does not know that it is held")
	}
	*told = nil
	key(w, fyne.KeyRight) // not while a hand holds it
	key(w, fyne.KeyEscape)
	w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x+90, y)}})
	w.MouseUp(pressed(fyne.NewPos(x+90, y), 0))
	w.DragEnd()
	expectTold(t, "Escape", told, "cancel")
	key(w, fyne.KeyEscape)
	w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}}) // of a press elsewhere
	w.DragEnd()
	w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Button: desktop.MouseButtonTertiary})
	w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x+90, y)}})
	w.DragEnd()
	expectTold(t, "no drag", told)
}

func TestBoardSelectsSeveral(t *testing.T) {
	w, told := handBoard(t)
	five, six := w.data.Blocks[4], w.data.Blocks[5]
	a, _ := w.place(five, w.Size())
	b, _ := w.place(six, w.Size())
	hold(w, fyne.NewPos(a.x-5, a.y-1), fyne.NewPos(a.x+5, a.y+4), fyne.NewPos(b.x+b.w-1, b.y+b.h-2))
	expectTold(t, "a frame", told, "select s5", "also [s6]")
	x, y := middle(t, w, "s2")
	w.MouseDown(pressed(fyne.NewPos(x, y), fyne.KeyModifierShift))
	w.MouseUp(pressed(fyne.NewPos(x, y), fyne.KeyModifierShift))
	expectTold(t, "Shift", told, "also [s6 s2]")
	x, y = middle(t, w, "s6")
	w.MouseDown(pressed(fyne.NewPos(x, y), fyne.KeyModifierControl))
	w.MouseUp(pressed(fyne.NewPos(x, y), fyne.KeyModifierControl))
	expectTold(t, "Control", told, "also [s2]")
	x, y = middle(t, w, "s5")
	hold(w, fyne.NewPos(x, y), fyne.NewPos(x+along(w, 10), y+60))
	expectTold(t, "moved together", told, "grab [s5 s2] 0 10m0s -1", "drop [s5 s2] 0 10m0s -1")
	x, y = middle(t, w, "s2")
	hold(w, fyne.NewPos(x, y), fyne.NewPos(x+along(w, 5), y))
	expectTold(t, "moved by another of them", told, "grab [s2 s5] 0 5m0s -1", "drop [s2 s5] 0 5m0s -1")
	x, y = middle(t, w, "s5")
	press(w, x, y)
	expectTold(t, "a press on one of them", told, "also []")
	w.TypedShortcut(&fyne.ShortcutSelectAll{})
	expectTold(t, "all", told, "also [s1 s2 s4 s3 s6 s7]")
	hold(w, fyne.NewPos(a.x-5, a.y-1), fyne.NewPos(a.x-4, a.y))
	expectTold(t, "a frame around nothing", told)
}

func TestBoardKeysTell(t *testing.T) {
	w, told := handBoard(t)
	key(w, fyne.KeyRight, fyne.KeySpace)
	expectTold(t, "nothing selected", told)
	key(w, fyne.KeyHome, fyne.KeyRight, fyne.KeyLeft, fyne.KeySpace, fyne.KeyPageDown)
	w.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	key(w, fyne.KeyRight)
	w.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftRight})
	expectTold(t, "keys", told, "select s1", "nudge [s1] 0 5m0s 0", "nudge [s1] 0 -5m0s 0", "pin", "pan 1", "nudge [s1] 0 1m0s 0")
	for _, s := range []desktop.CustomShortcut{
		{KeyName: fyne.KeyRight, Modifier: fyne.KeyModifierControl}, {KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierControl},
		{KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierAlt}, {KeyName: fyne.KeyLeft, Modifier: fyne.KeyModifierAlt | fyne.KeyModifierShift},
		{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt}, {KeyName: fyne.KeyS, Modifier: fyne.KeyModifierControl},
	} {
		w.TypedShortcut(&s)
	}
	expectTold(t, "shortcuts", told, "nudge [s1] 0 5m0s 0", "nudge [s1] 0 0s 1", "nudge [s1] 2 -5m0s 0", "nudge [s1] 1 -5m0s 0")
	for _, r := range "+-0x" {
		w.TypedRune(r)
	}
	expectTold(t, "runes", told, "zoom 1", "zoom -1", "zoom 0")
	key(w, fyne.KeyEnd, fyne.KeyUp)
	expectTold(t, "the shelf comes last", told, "select s9", "select s8")
}

// From the shelf, a block is dragged to where it is dropped, not from the time that it could have.
func TestBoardDragsOffTheShelf(t *testing.T) {
	w, told := handBoard(t)
	r, ok := w.spot(8, w.Size())
	if !ok {
		t.Fatal("the second block of the shelf is not shown")
	}
	from, g := fyne.NewPos(r.x+4, r.y+4), w.grid(w.Size())
	x := w.data.Axis.X(at(14, 0), w.Size().Width) + along(w, 10) // its set-up takes 10 minutes, so its start is there
	hold(w, from, fyne.NewPos(x-along(w, 10)+4, g.top+1.5*g.row))
	expectTold(t, "dropped", told, "select s9", "grab [s9] 0 3h0m0s 1", "drop [s9] 0 3h0m0s 1")
	hold(w, from, from.AddXY(100, 2))
	if got := (*told)[len(*told)-1]; got != "cancel" {
		t.Errorf("dropped on the shelf: %q", got)
	}
}

// Whatever the hand does, what it drops lies on the grid, no set-up and no shooting is turned round, and nothing stays held.
func TestBoardHandAlways(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	rapid.Check(t, func(rt *rapid.T) {
		w := NewBoard()
		d := sampleBoard()
		d.Grid, d.Origin, d.Shelf = time.Duration(rapid.SampledFrom([]int{0, 1, 5, 15}).Draw(rt, "grid"))*time.Minute, at(0, 0), []Block{{ID: "s8", SetUp: at(10, 0), Start: at(10, 10), End: at(10, 40), Number: "8"}}
		w.Set(d)
		w.Resize(fyne.NewSize(rapid.Float32Range(200, 1500).Draw(rt, "width"), 300))
		point := func() fyne.Position {
			return fyne.NewPos(rapid.Float32Range(-50, 1600).Draw(rt, "x"), rapid.Float32Range(-50, 400).Draw(rt, "y"))
		}
		w.OnDrop = func(g Grab) {
			b := w.all[w.index(g.IDs[0])]
			var moved time.Time
			switch g.Part {
			case SetUpEdge:
				if moved = b.SetUp.Add(g.By); moved.After(b.Start) {
					rt.Fatalf("a set-up ends before it begins: %+v", g)
				}
				if moved.Equal(b.Start) {
					return
				}
			case EndEdge:
				if moved = b.End.Add(g.By); moved.Before(b.Start.Add(w.slot())) {
					rt.Fatalf("a shooting of nothing: %+v", g)
				}
			default:
				moved = b.Start.Add(g.By)
			}
			if g.By == 0 && g.Row < 0 || moved.Sub(d.Origin)%w.slot() != 0 && g.By != 0 || g.Row >= len(d.Rows) {
				rt.Fatalf("dropped %+v, at %v", g, moved)
			}
		}
		hold(w, point(), point(), point())
		if w.Holds() || w.hand.pressed {
			rt.Fatal("it is still held")
		}
	})
}
