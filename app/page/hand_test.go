package page

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
)

// watched is a Day page on the demo, in a window, and the first and last hour that its time-line shows.
func watched(t *testing.T) (d *Day, hours func() string) {
	d, _, _ = asking(t)
	d.rows.Refresh() // as the desktop driver lays it out when there is more in it
	return d, func() string {
		var shown []string
		for _, o := range test.WidgetRenderer(d.sky).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Visible() && len(text.Text) == 5 && strings.HasSuffix(text.Text, ":00") {
				shown = append(shown, text.Text)
			}
		}
		slices.Sort(shown)
		return shown[0] + " to " + shown[len(shown)-1]
	}
}

// Control and the wheel zoom about the pointer; the wheel alone scrolls the page; sideways it goes along the time.
func TestZoomAndPan(t *testing.T) {
	d, hours := watched(t)
	all := hours()
	wheel := func(mod fyne.KeyModifier, dx, dy, x float32) {
		d.hand.modifiers = func() fyne.KeyModifier { return mod }
		d.rows.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 200)}, Scrolled: fyne.NewDelta(dx, dy)})
	}
	wheel(0, 0, -40, 500)
	if d.rows.Offset.Y != 40 || hours() != all {
		t.Errorf("the wheel scrolls by %v and shows %s", d.rows.Offset.Y, hours())
	}
	wheel(0, -100, 0, 500)
	if hours() != all {
		t.Error("all of the day is gone along")
	}
	axis := d.axis()
	x := float32(700)
	under := axis.Time(x, d.board.Size().Width)
	wheel(fyne.KeyModifierControl, 0, 10, x)
	wheel(fyne.KeyModifierControl, 0, 10, x)
	near := d.axis()
	if now := near.Time(x, d.board.Size().Width); now.Sub(under).Abs() > time.Minute {
		t.Errorf("under the pointer was %v, is %v", under, now)
	}
	if span, was := near.To.Sub(near.From), axis.To.Sub(axis.From); span >= was/2 || hours() == all {
		t.Errorf("%v of %v are shown: %s", span, was, hours())
	}
	wheel(0, -100, 0, x)
	if later := d.axis(); !later.From.After(near.From) || later.To.Sub(later.From) != near.To.Sub(near.From) {
		t.Errorf("sideways, it goes from %v to %v", near.From, later.From)
	}
	wheel(0, -1e6, 0, x)
	if d.axis().To != axis.To {
		t.Errorf("the day ends at %v, and %v is shown", axis.To, d.axis().To)
	}
	for range 20 {
		d.board.TypedRune('+')
	}
	if span := d.axis().To.Sub(d.axis().From); span != closest {
		t.Errorf("the closest look is %v", span)
	}
	d.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageUp})
	for range 20 {
		d.board.TypedRune('-')
	}
	if hours() != all || d.axis() != axis {
		t.Errorf("the widest look is %s, all is %s", hours(), all)
	}
	d.board.TypedRune('+')
	d.board.TypedRune('0')
	if d.axis() != axis {
		t.Error("a nought does not show all")
	}
}

// One line runs through all rows, with what the sun does then; outside the time-line there is none.
func TestCursorRunsThroughTheRows(t *testing.T) {
	d, _ := watched(t)
	for _, w := range []desktop.Hoverable{d.sky, d.faces, d.board, d.people} {
		w.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(600, 5)}})
		c := d.hand.cursor
		if !c.object.Visible() || c.line.Position().X != 600 || c.line.Size().Height < d.people.Position().Y {
			t.Errorf("over %T the line is at %v, %v high", w, c.line.Position(), c.line.Size().Height)
		}
		want := d.axis().Time(600, d.board.Size().Width).In(d.state.Results.Chosen.Zone).Format("15:")
		if !strings.HasPrefix(c.words.Text, want) || !strings.Contains(c.words.Text, "sun ") {
			t.Errorf("it says %q, at %s", c.words.Text, want)
		}
		if end := c.words.Position().X + c.words.MinSize().Width; end > d.board.Size().Width {
			t.Error("the words leave the page")
		}
		w.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, 5)}})
		if c.object.Visible() {
			t.Errorf("over the names of %T there is a line", w)
		}
		w.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(600, 5)}})
		w.MouseOut()
		if c.object.Visible() {
			t.Error("the line stays when the pointer is gone")
		}
	}
}

// An empty page has no day to take hold of.
func TestHandOnNothing(t *testing.T) {
	test.NewTempApp(t)
	d := NewDay(nil, func(view.Hit) {}, nil, nil, &clerk{}, nil)
	test.NewTempWindow(t, d.Object()).Resize(fyne.NewSize(900, 700))
	d.Show(session.State{Plan: plan.New()})
	d.hand.pointed(400)
	d.hand.grabbed(draw.Grab{IDs: []string{"x"}, By: time.Hour, Row: -1})
	d.hand.zoom(1, 0.5)
	d.hand.pan(1)
	d.rows.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(5, 0)})
	if d.hand.cursor.object.Visible() || d.hand.arranged != nil {
		t.Error("something is held where there is nothing")
	}
}

// large is the demo with 20 scenes and 10 people.
func large(t testing.TB) (plan.Plan, day.Day) {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	for len(p.People) < 10 {
		p.DuplicatePerson(0, nil)
	}
	p.Shooting.Dates, p.Shooting.EarliestCall, p.Shooting.LatestWrap, p.Shooting.Longest = p.Shooting.Dates[1:2], plan.ClockAt(4*60), plan.ClockAt(24*60), 18*60
	for n := 0; len(p.Scenes) < 21; n++ {
		i := p.AddScene(len(p.Scenes))
		s := &p.Scenes[i]
		s.Setup, s.Shoot, s.People = 5, 10, []plan.ID{p.People[n%10].ID, p.People[(n+5)%10].ID}
	}
	d, err := day.Chosen(context.Background(), &p)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Scenes) < 20 || len(d.People) < 10 {
		t.Fatalf("%d scenes and %d people on the day", len(d.Scenes), len(d.People))
	}
	return p, d
}

// BenchmarkDrag is a step of a drag on a day of 20 scenes and 10 people, and on one of three days of 60 scenes and 40 people: the day
// as it would be, the words, the price, and the pieces of board, people and losses; then painting these by the software painter, as large
// as they are in the window. Painting nothing on a ground as large as the board is what the canvas of the tests takes beside; no window does.
func BenchmarkDrag(b *testing.B) {
	p, chosen := large(b)
	benchmarkDrag(b, "20 scenes", p, day.Shoot{Days: []day.Day{chosen}})
	p, shoot := larger(b)
	benchmarkDrag(b, "60 scenes", p, shoot)
}

// larger is the demo with 60 scenes and 40 people on three days.
func larger(t testing.TB) (plan.Plan, day.Shoot) {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	for len(p.People) < 40 {
		p.DuplicatePerson(0, nil)
	}
	p.Shooting.Days, p.Shooting.EarliestCall, p.Shooting.LatestWrap, p.Shooting.Longest = 3, plan.ClockAt(4*60), plan.ClockAt(24*60), 18*60
	for n := 0; len(p.Scenes) < 60; n++ {
		i := p.AddScene(len(p.Scenes))
		s := &p.Scenes[i]
		s.Setup, s.Shoot, s.People = 5, 10, []plan.ID{p.People[n%40].ID, p.People[(n+13)%40].ID}
		s.Pin = plan.Pin{Date: p.Shooting.Dates[n%3], Start: plan.ClockAt(8*60 + 20*(n/3)), Held: true} // or the placing takes a minute
	}
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	shoot, _ := day.PlaceShoot(ctx, &p, p.Shooting.Dates)
	if len(shoot.Days) != 3 {
		t.Fatalf("%d days", len(shoot.Days))
	}
	return p, shoot
}

func benchmarkDrag(b *testing.B, name string, p plan.Plan, shoot day.Shoot) {
	test.NewTempApp(b)
	chosen := shoot.Days[0]
	d := NewDay(nil, func(view.Hit) {}, nil, nil, &clerk{}, nil)
	test.NewTempWindow(b, d.Object()).Resize(fyne.NewSize(1080, 760))
	d.Show(session.State{Plan: p, Results: session.Results{Chosen: chosen, Days: shoot.Days, Shoot: shoot}})
	d.rows.Refresh() // as the desktop driver lays it out when there is more in it
	id := string(chosen.Scenes[8].Scene)
	step := func(i int) {
		d.hand.grabbed(draw.Grab{IDs: []string{id}, Row: -1, By: time.Duration(5*(i%12)-30) * time.Minute})
	}
	b.Run(name+" step", func(b *testing.B) {
		for i := range b.N {
			step(i)
		}
	})
	for _, part := range []struct {
		name string
		fyne.Widget
	}{{"board", d.board}, {"people", d.people}, {"nothing", draw.NewBoard()}} {
		size := part.Size()
		if size.IsZero() {
			size = d.board.Size()
		}
		c := software.NewCanvas()
		c.SetPadded(false)
		c.SetContent(part.Widget) // which makes it as small as can be
		c.Resize(size)
		b.Run(name+" paint "+part.name, func(b *testing.B) {
			for i := range b.N {
				b.StopTimer()
				step(i)
				b.StartTimer()
				c.Capture()
			}
		})
	}
}
