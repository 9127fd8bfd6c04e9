package app

import (
	"image/png"
	"os"
	"strings"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"
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

func TestPictures(t *testing.T) {
	d, b, _ := handDesk(t)
	d.handSet()
	at := spot(t, b, "8")
	grip(b, at, at.AddXY(10, 0), at.AddXY(60, 0), at.AddXY(-60, -33))
	capture(t, d, "/tmp/board-drag.png")
	release(b, at.AddXY(-60, -33))
	capture(t, d, "/tmp/board-dropped.png")
	d.settle()
	capture(t, d, "/tmp/board-offer.png")
	_ = store.Read
	_ = time.Now
}

func (d *desk) handSet() {
	if os.Getenv("BOARD_DARK") != "" {
		d.menuItem("Dark").Action()
	}
}

func capture(t *testing.T, d *desk, path string) {
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	png.Encode(f, d.win.Canvas().Capture())
}
