package app

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// handDesk is the demo on its Day page, and the board there.
func handDesk(t *testing.T) (*desk, *draw.Board, string) {
	t.Helper()
	d, path := openDemo(t)
	d.menuItem("Day").Action()
	return d, seen(d, func(*draw.Board) bool { return true })[0], path
}

// spot is a point on a scene's block: where its number stands, in the board's own measure.
func spot(t *testing.T, b *draw.Board, number string) fyne.Position {
	t.Helper()
	for _, o := range test.WidgetRenderer(b).Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() && (text.Text == number || strings.HasPrefix(text.Text, number+" ")) {
			return text.Position().AddXY(4, 6)
		}
	}
	t.Fatalf("scene %s is not on the board", number)
	return fyne.Position{}
}

func mouse(at fyne.Position, mod fyne.KeyModifier) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary, Modifier: mod}
}

// grip replays the events of a drag up to before the button is let go, as the desktop driver sends them.
func grip(b *draw.Board, from fyne.Position, to ...fyne.Position) {
	b.MouseIn(mouse(from, 0))
	b.MouseMoved(mouse(from, 0))
	b.MouseDown(mouse(from, 0))
	last := from
	for _, at := range to {
		b.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(at.X-last.X, at.Y-last.Y)})
		last = at
	}
}

func release(b *draw.Board, at fyne.Position) {
	b.MouseUp(mouse(at, 0))
	b.DragEnd()
}

// startOf is when a scene is shot on the day shown, by the wall clock.
func (d *desk) startOf(number string) string {
	st := d.session.State()
	for _, s := range st.Results.Chosen.Scenes {
		if sc, _ := st.Plan.Scene(s.Scene); sc.Number == number {
			return view.Clock(st.Results.Chosen, s.Start)
		}
	}
	return ""
}

func (d *desk) scene(number string) plan.Scene {
	for _, s := range d.plan().Scenes {
		if s.Number == number {
			return s
		}
	}
	d.t.Fatalf("no scene %s", number)
	return plan.Scene{}
}

// What is dropped is pinned there and named, what it met has made way, and the file says so: whoever opens it gets the day
// that the window shows. Undo takes it back.
func TestDragAScene(t *testing.T) {
	d, b, path := handDesk(t)
	before, board := d.plan(), strings.Join(d.board(), ", ")
	at := spot(t, b, "8")
	to := at.AddXY(-60, -33) // an hour or so earlier, and one row up: from the living room to the kitchen
	grip(b, at, at.AddXY(5, 0), at.AddXY(-20, -10), to)
	if !d.says("Light 92 % · waiting 15 h 25 (+1 h 10) · overtime 297.00 USD · price 8,750.00 USD") {
		t.Error("what the day would come to is not told")
	}
	if texts := strings.Join(boardTexts(b), "|"); !strings.Contains(texts, "15:15–15:35 · 100 % of its light, which ends 18:14") {
		t.Errorf("the time and the light are not told over the block: %s", texts)
	}
	if !reflect.DeepEqual(d.plan(), before) {
		t.Error("the plan changes before the hand lets go")
	}
	release(b, to)
	shown := strings.Join(d.board(), ", ")
	if d.startOf("8") != "15:15" || shown == board {
		t.Errorf("let go, the board shows %s", shown)
	}
	d.settle()
	if now := strings.Join(d.board(), ", "); now != shown {
		t.Errorf("placed, the board jumps from %s to %s", shown, now)
	}
	s := d.scene("8")
	if s.Pin != (plan.Pin{Date: d.plan().Shooting.Date, Start: plan.ClockAt(15*60 + 15)}) || s.Space != "kitchen" || !d.scene("9").Pin.Held {
		t.Errorf("pinned %+v in %s; scene 9 %+v", s.Pin, s.Space, d.scene("9").Pin)
	}
	if undo := d.session.State().Undo; undo != "move scene 8" {
		t.Errorf("undo is of %q", undo)
	}
	d.session.Save(func(err error) {
		if err != nil {
			t.Error(err)
		}
	})
	d.settle()
	read, _, err := store.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	shoot, err := day.ChosenShoot(context.Background(), &read, nil)
	if err != nil || len(shoot.Days) != 1 {
		t.Fatal(err)
	}
	if got := strings.Join(listed(read, shoot.Days[0]), ", "); got != shown {
		t.Errorf("the file gives %s, the window shows %s", got, shown)
	}
	d.session.Undo()
	d.settle()
	if !reflect.DeepEqual(d.plan(), before) || strings.Join(d.board(), ", ") != board {
		t.Error("undo does not bring the day back")
	}
}

func TestDragThatIsNone(t *testing.T) {
	d, b, _ := handDesk(t)
	before, board := d.plan(), strings.Join(boardTexts(b), "|")
	at := spot(t, b, "8")
	grip(b, at, at.AddXY(40, 0), at.AddXY(60, 0))
	if strings.Join(boardTexts(b), "|") == board {
		t.Fatal("nothing is shown of the drag")
	}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	b.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(80, 0)}})
	release(b, at.AddXY(80, 0))
	if got := strings.Join(boardTexts(b), "|"); got != board || !reflect.DeepEqual(d.plan(), before) {
		t.Errorf("after Escape the board shows\n%s, before\n%s", got, board)
	}
	at = spot(t, b, "7") // limited to 11:30-14:30
	grip(b, at, at.AddXY(90, 0))
	release(b, at.AddXY(90, 0))
	if !d.says("Scene 7 can't be shot at 15:05: it is limited to 11:30-14:30.") || !reflect.DeepEqual(d.plan(), before) {
		t.Error("a scene is dropped where it can't be, or nobody says why it isn't")
	}
	grip(b, at, at.AddXY(3, 0), at.AddXY(30, 0), at)
	release(b, at)
	if !reflect.DeepEqual(d.plan(), before) {
		t.Error("a scene that is put back is pinned")
	}
}

func TestStretchAScene(t *testing.T) {
	d, b, _ := handDesk(t)
	at := spot(t, b, "3") // set-up 9:50, shooting 10:15 to 10:45
	left, _ := edges(t, b, "3")
	grip(b, fyne.NewPos(left+1, at.Y), fyne.NewPos(left-10, at.Y))
	release(b, fyne.NewPos(left-10, at.Y))
	d.settle()
	if s := d.scene("3"); s.Setup != 35 || d.session.State().Undo != "set-up of scene 3" || d.startOf("3") != "10:15" {
		t.Errorf("set-up %d from %q, shot at %s", s.Setup, d.session.State().Undo, d.startOf("3"))
	}
	d.session.Undo()
	d.settle()
	at = spot(t, b, "4") // 11:55 to 12:15; scene 6 is at 12:40, with 20 minutes of set-up and 5 of a move
	_, right := edges(t, b, "4")
	grip(b, fyne.NewPos(right-2, at.Y), fyne.NewPos(right+18, at.Y))
	release(b, fyne.NewPos(right+18, at.Y))
	d.settle()
	if s := d.scene("4"); s.Shoot != 40 || d.session.State().Undo != "shooting of scene 4" || d.startOf("4") != "11:55" || d.startOf("6") != "13:00" {
		t.Errorf("shooting %d from %q, shot at %s, scene 6 at %s", s.Shoot, d.session.State().Undo, d.startOf("4"), d.startOf("6"))
	}
}

// Everything that the mouse does, the keys do.
func TestBoardByKeys(t *testing.T) {
	d, b, _ := handDesk(t)
	d.win.Canvas().Focus(b)
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			b.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	with := func(mod fyne.KeyModifier, name fyne.KeyName) {
		b.TypedShortcut(&desktop.CustomShortcut{KeyName: name, Modifier: mod})
	}
	if !d.says(view.KeyRule()) {
		t.Error("the keys are not told")
	}
	key(fyne.KeyHome, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown) // the fourth scene of the day is number 3, at 10:15
	key(fyne.KeyLeft, fyne.KeyLeft)
	b.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(fyne.KeyRight)
	b.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	if d.startOf("3") != "10:06" {
		t.Errorf("two steps back and a minute on, it is %s", d.startOf("3"))
	}
	with(fyne.KeyModifierControl, fyne.KeyLeft)
	with(fyne.KeyModifierAlt, fyne.KeyRight)
	with(fyne.KeyModifierAlt|fyne.KeyModifierShift, fyne.KeyLeft)
	with(fyne.KeyModifierControl, fyne.KeyDown)
	d.settle()
	if s := d.scene("3"); s.Pin.Start != plan.ClockAt(10*60+1) || s.Shoot != 35 || s.Setup != 30 || s.Space != "living" {
		t.Errorf("pinned to %s, shooting %d, set-up %d, in %s", s.Pin.Start, s.Shoot, s.Setup, s.Space)
	}
	d.session.Undo()
	d.session.Undo()
	d.session.Undo()
	d.session.Undo()
	if s := d.scene("3"); s.Pin.Start.IsSet() {
		t.Errorf("the steps of a run are not one step of undo: %+v", s.Pin)
	}
	d.settle()
	key(fyne.KeySpace)
	d.settle()
	if s := d.scene("3"); s.Pin.Start != plan.ClockAt(10*60+15) || s.Pin.Held || d.session.State().Undo != "pin scene 3" {
		t.Errorf("Space pins %+v by %q", s.Pin, d.session.State().Undo)
	}
	key(fyne.KeySpace)
	d.settle()
	if s := d.scene("3"); !s.Pin.Held || d.session.State().Undo != "unpin scene 3" {
		t.Errorf("Space unpins %+v by %q", s.Pin, d.session.State().Undo)
	}
	key(fyne.KeyReturn)
	if d.current != view.Scenes {
		t.Error("Return does not edit the scene")
	}
}

// A frame takes several blocks, Shift takes one more, and they move together.
func TestMoveSeveral(t *testing.T) {
	d, b, _ := handDesk(t)
	four, six := spot(t, b, "4"), spot(t, b, "6")
	grip(b, fyne.NewPos(four.X-40, four.Y-12), fyne.NewPos(six.X+20, six.Y+10))
	release(b, fyne.NewPos(six.X+20, six.Y+10))
	seven := spot(t, b, "7")
	b.MouseDown(mouse(seven, fyne.KeyModifierShift))
	b.MouseUp(mouse(seven, fyne.KeyModifierShift))
	grip(b, six, six.AddXY(5, 0), six.AddXY(10.3, 0)) // 10 minutes
	release(b, six.AddXY(10.3, 0))
	d.settle()
	if got := [3]string{d.startOf("4"), d.startOf("6"), d.startOf("7")}; got != [3]string{"12:05", "12:50", "13:45"} || d.session.State().Undo != "move 3 scenes" {
		t.Errorf("moved to %v by %q", got, d.session.State().Undo)
	}
}

// The demo's scene 11 finds no place. It is dragged from the shelf to another light, and has one.
func TestDragOffTheShelf(t *testing.T) {
	d, b, _ := handDesk(t)
	at := spot(t, b, "11")
	if d.startOf("11") != "" {
		t.Fatal("scene 11 is on the day")
	}
	grip(b, at, at.AddXY(20, 0), at.AddXY(700, 0))
	release(b, at.AddXY(700, 0))
	if d.startOf("11") != "" {
		t.Error("it is dropped on no row, and has a place")
	}
	to := spot(t, b, "9").AddXY(70, 0)
	grip(b, at, at.AddXY(20, -10), to)
	release(b, to)
	d.settle()
	if s := d.scene("11"); d.startOf("11") == "" || s.Pin.Start.String() != d.startOf("11") || s.Space != d.scene("9").Space {
		t.Errorf("it is at %q in %s, pinned %+v", d.startOf("11"), s.Space, s.Pin)
	}
}

// A better day is offered, never forced: left, the day stays as it is; taken, the rest moves.
func TestOffer(t *testing.T) {
	d, b, _ := handDesk(t)
	best := strings.Join(d.board(), ", ")
	at := spot(t, b, "3")
	grip(b, at, at.AddXY(-20, 0), at.AddXY(-60, 0))
	release(b, at.AddXY(-60, 0))
	d.settle()
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) // not pinned any more, only held
	d.settle()
	moved := strings.Join(d.board(), ", ")
	if !d.says("The search offers: 1 scene moves, ") || !d.says("less lost.") {
		t.Fatal("nothing is offered")
	}
	d.press("Leave it")
	if d.says("The search offers") || !d.says("held where they were") || strings.Join(d.board(), ", ") != moved {
		t.Error("the offer was left, and it is still there or the day is another")
	}
	d.press("Let them move")
	d.settle()
	if got := strings.Join(d.board(), ", "); got != best {
		t.Errorf("let go, the scenes are %s, before %s", got, best)
	}
	d.session.Undo()
	d.settle()
	d.press("Take it")
	if got := strings.Join(d.board(), ", "); got != best {
		t.Errorf("taken, the day is %s, want %s", got, best)
	}
	d.settle()
	if got := strings.Join(d.board(), ", "); got != best || d.session.State().Undo != "take the offer" || d.says("held") {
		t.Errorf("placed, the day is %s, want %s", got, best)
	}
}

// What is only held says so in its form; a time that is typed there is meant.
func TestTypedPinIsMeant(t *testing.T) {
	d, b, _ := handDesk(t)
	at := spot(t, b, "8")
	grip(b, at, at.AddXY(-60, 0))
	release(b, at.AddXY(-60, 0))
	d.settle()
	nine := spot(t, b, "9")
	b.MouseDown(mouse(nine, 0))
	b.MouseUp(mouse(nine, 0))
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if d.current != view.Scenes || !d.says("It is only held there") {
		t.Fatal("the form does not say that the scene is only held")
	}
	d.entry("fixes the start by hand, as in 17:40").SetText("15:55")
	d.settle()
	if s := d.scene("9"); s.Pin.Held || s.Pin.Start != plan.ClockAt(15*60+55) || d.says("It is only held there") {
		t.Errorf("typed, it is %+v", s.Pin)
	}
}

// board lists the day shown as "7 13:35".
func (d *desk) board() []string {
	st := d.session.State()
	return listed(st.Plan, st.Results.Chosen)
}

func listed(p plan.Plan, shown day.Day) (out []string) {
	for _, s := range shown.Scenes {
		sc, _ := p.Scene(s.Scene)
		out = append(out, sc.Number+" "+view.Clock(shown, s.Start))
	}
	return out
}

func boardTexts(b *draw.Board) (out []string) {
	for _, o := range test.WidgetRenderer(b).Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() {
			out = append(out, fmt.Sprint(text.Text, " at ", text.Position().X))
		}
	}
	return out
}

// edges are the left and right end of a scene's block: of the narrowest thing drawn around its number.
func edges(t *testing.T, b *draw.Board, number string) (left, right float32) {
	t.Helper()
	at, width := spot(t, b, number), float32(200)
	for _, o := range test.WidgetRenderer(b).Objects() {
		r, ok := o.(*canvas.Rectangle)
		if p := o.Position(); ok && r.Visible() && r.StrokeWidth == 1 && p.X <= at.X && p.X+r.Size().Width >= at.X &&
			p.Y <= at.Y && p.Y+r.Size().Height >= at.Y && r.Size().Width < width {
			left, right, width = p.X, p.X+r.Size().Width, r.Size().Width
		}
	}
	return left, right
}
