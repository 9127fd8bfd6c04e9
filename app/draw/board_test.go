package draw

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

// press replays the events of one click as the desktop driver sends them: in, moved, down, up.
func press(w interface {
	desktop.Hoverable
	desktop.Mouseable
}, x, y float32) {
	e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Button: desktop.MouseButtonPrimary}
	w.MouseIn(e)
	w.MouseMoved(e)
	w.MouseDown(e)
	w.MouseUp(e)
}

func key(w fyne.Focusable, names ...fyne.KeyName) {
	for _, n := range names {
		w.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// shownBoard is the sample board in a window, and what it reports.
func shownBoard(t *testing.T) (w *Board, selected, opened *[]string, c fyne.Canvas) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	w, selected, opened = NewBoard(), new([]string), new([]string)
	w.OnSelect = func(id string) { *selected = append(*selected, id) }
	w.OnOpen = func(id string) { *opened = append(*opened, id) }
	w.Set(sampleBoard())
	win := test.NewTempWindow(t, w)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(1060, 300))
	return w, selected, opened, win.Canvas()
}

func middle(t *testing.T, w *Board, id string) (x, y float32) {
	t.Helper()
	for _, b := range w.data.Blocks {
		if b.ID == id {
			r, ok := w.place(b, w.Size())
			if !ok {
				t.Fatalf("%s is not shown", id)
			}
			return r.x + r.w/2, r.y + r.h/2
		}
	}
	t.Fatalf("no block %s", id)
	return 0, 0
}

func TestBoardSelectsByPress(t *testing.T) {
	w, selected, _, c := shownBoard(t)
	for _, id := range []string{"s2", "s4", "s4", "s6"} {
		x, y := middle(t, w, id)
		press(w, x, y)
	}
	press(w, 5, 5) // no block there: the choice stays
	if want := []string{"s2", "s4", "s6"}; !slices.Equal(*selected, want) {
		t.Errorf("selected %v, want %v", *selected, want)
	}
	if c.Focused() != w {
		t.Error("a press does not take the keyboard")
	}
	x, y := middle(t, w, "s2")
	w.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}, Button: desktop.MouseButtonSecondary})
	if len(*selected) != 3 {
		t.Error("the second mouse button selects")
	}
}

func TestBoardSelectsByKeysInTheOrderOfTime(t *testing.T) {
	w, selected, opened, c := shownBoard(t)
	c.Focus(w)
	key(w, fyne.KeyDown) // the selected block is the last: it stays
	key(w, fyne.KeyHome, fyne.KeyUp, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnd, fyne.KeyUp, fyne.KeyEnter)
	if want := []string{"s1", "s2", "s4", "s3", "s7", "s6"}; !slices.Equal(*selected, want) {
		t.Errorf("selected %v, want %v", *selected, want)
	}
	if want := []string{"s3", "s6"}; !slices.Equal(*opened, want) {
		t.Errorf("opened %v, want %v", *opened, want)
	}
}

func TestBoardOpensByDoublePress(t *testing.T) {
	w, _, opened, _ := shownBoard(t)
	x, y := middle(t, w, "s5")
	press(w, x, y)
	press(w, x, y)
	w.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)})
	w.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(3, 3)})
	if !slices.Equal(*opened, []string{"s5"}) {
		t.Errorf("opened %v", *opened)
	}
}

func TestBoardWithoutBlocksTakesKeys(t *testing.T) {
	test.NewTempApp(t)
	w := NewBoard()
	w.OnSelect = func(id string) { t.Errorf("selected %q", id) }
	w.OnOpen = func(id string) { t.Errorf("opened %q", id) }
	w.Set(BoardData{Rows: []string{"Pool"}})
	key(w, fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyReturn, fyne.KeySpace, fyne.KeyEscape)
	press(w, 10, 10)
}

func TestBoardShowsAHandOverBlocks(t *testing.T) {
	w, _, _, _ := shownBoard(t)
	x, y := middle(t, w, "s4")
	press(w, x, y)
	if w.Cursor() != desktop.PointerCursor {
		t.Error("no hand over a block")
	}
	w.MouseMoved(&desktop.MouseEvent{})
	if w.Cursor() != desktop.DefaultCursor {
		t.Error("a hand over nothing")
	}
}

// The focus must be seen: some piece that was not there before.
func TestFocusShows(t *testing.T) {
	w, _, _, _ := shownBoard(t)
	count := func() (n int) {
		for _, o := range test.WidgetRenderer(w).Objects() {
			if r, ok := o.(*canvas.Rectangle); ok && r.Visible() && r.StrokeColor == look.Of(w.Theme()).Accent && r.StrokeWidth >= 2 {
				n++
			}
		}
		return n
	}
	before := count()
	w.FocusGained()
	if count() != before+2 {
		t.Errorf("the focus adds %d rings, want one around the board and one around the block", count()-before)
	}
	w.FocusLost()
	if count() != before {
		t.Error("the rings stay")
	}
}

// Pieces are reused: the same content makes no object, less content hides some, and nothing shown stays behind.
func TestBoardReusesItsPieces(t *testing.T) {
	w, _, _, _ := shownBoard(t)
	r := test.WidgetRenderer(w)
	before := slices.Clone(r.Objects())
	w.Set(sampleBoard())
	if !slices.Equal(before, r.Objects()) {
		t.Error("the same content lists other objects")
	}
	less := sampleBoard()
	less.Blocks, less.Moves = less.Blocks[:1], nil
	w.Set(less)
	if !slices.Equal(before, r.Objects()) {
		t.Error("less content lists other objects")
	}
	for _, o := range r.Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() && text.Text == "5 Piano" {
			t.Error("a text of the old content is still shown")
		}
	}
}

// Whatever the data, at any width and text size, nothing panics, no text leaves the board, and no two texts of a block's
// row overlap when the blocks do not.
func TestBoardTextsKeepTheirPlace(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		th := look.New(false).Scaled(rapid.Float32Range(0.9, 1.5).Draw(rt, "scale"))
		app := test.NewTempApp(t)
		app.Settings().SetTheme(th)
		d := BoardData{Axis: sampleAxis(), Rows: []string{"A", longText}}
		start := at(4, 0)
		for i := range rapid.IntRange(0, 12).Draw(rt, "blocks") {
			step := func(name string, most int) time.Duration {
				return time.Duration(rapid.IntRange(0, most).Draw(rt, name)) * time.Minute
			}
			b := Block{ID: string(rune('a' + i)), Number: rapid.StringMatching(`[0-9]{1,3}`).Draw(rt, "number"), Row: rapid.IntRange(-1, 2).Draw(rt, "row"),
				Title: longText[:rapid.IntRange(0, 20).Draw(rt, "title")], Note: "92 % of its light", Kept: rapid.Float64Range(-1, 1).Draw(rt, "kept"),
				Pinned: rapid.Bool().Draw(rt, "pinned"), Problem: rapid.Bool().Draw(rt, "problem"), Importance: Importance(rapid.IntRange(0, 2).Draw(rt, "importance"))}
			b.SetUp = start.Add(20*time.Minute + step("gap", 60))
			b.Start = b.SetUp.Add(step("setup", 60))
			b.End = b.Start.Add(step("shoot", 120))
			start = b.End
			d.Blocks = append(d.Blocks, b)
		}
		w := NewBoard()
		w.Set(d)
		w.Resize(fyne.NewSize(rapid.Float32Range(w.MinSize().Width, 1600).Draw(rt, "width"), 200))
		checkTexts(rt, w)
	})
}

// TestNarrowBlocksKeepTheirMark: a block's margins give way before the mark that tells what its colour does.
func TestNarrowBlocksKeepTheirMark(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	shown := 0
	for minutes := 10; minutes < 90; minutes++ {
		b := Block{ID: "a", Number: "58", SetUp: at(8, 0), Start: at(8, 5), End: at(8, 0).Add(time.Duration(minutes) * time.Minute), Kept: 0.2, Importance: Must, Problem: true}
		w := NewBoard()
		w.Set(BoardData{Axis: sampleAxis(), Rows: []string{"A"}, Blocks: []Block{b}})
		w.Resize(fyne.NewSize(1060, w.MinSize().Height))
		r, _ := w.place(b, w.Size())
		const edge, line = 5, 1 // of what must be shot, and around the block
		need := small(w.Theme()).measure("58").Width + w.markRoom()
		if has := slices.Contains(textsOf(w), "!"); has != (need <= r.w-edge-2*line) {
			t.Errorf("%v wide, and %v are needed: marked %v", r.w, need, has)
		} else if has {
			shown++
		}
	}
	if shown == 0 || shown == 80 {
		t.Errorf("%d of 80 are marked", shown)
	}
}

// checkTexts reports texts that leave their widget or lie on each other.
func checkTexts(t interface{ Fatalf(string, ...any) }, w fyne.Widget) {
	var shown []*canvas.Text
	for _, o := range test.WidgetRenderer(w).Objects() {
		text, ok := o.(*canvas.Text)
		if !ok || !text.Visible() {
			continue
		}
		a, size := text.Position(), text.MinSize()
		if a.X < -0.5 || a.Y < -0.5 || a.X+size.Width > w.Size().Width+1 || a.Y+size.Height > w.Size().Height+3 {
			t.Fatalf("%q at %v, %v wide, leaves the %v", text.Text, a, size.Width, w.Size())
		}
		for _, other := range shown {
			b, s := other.Position(), other.MinSize()
			if a.X+1 < b.X+s.Width && b.X+1 < a.X+size.Width && a.Y+2 < b.Y+s.Height && b.Y+2 < a.Y+size.Height {
				t.Fatalf("%q and %q lie on each other in %v", text.Text, other.Text, w.Size())
			}
		}
		shown = append(shown, text)
	}
}

// textsOf lists the texts a widget shows.
func textsOf(w fyne.Widget) (texts []string) {
	for _, o := range test.WidgetRenderer(w).Objects() {
		if text, ok := o.(*canvas.Text); ok && text.Visible() {
			texts = append(texts, text.Text)
		}
	}
	return texts
}
