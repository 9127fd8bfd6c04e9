package page

import (
	"math"
	"slices"
	"testing"

	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"pgregory.net/rapid"
)

// slab is an object of a fixed least size.
func slab(wide, high float32) *canvas.Rectangle {
	r := canvas.NewRectangle(nil)
	r.SetMinSize(fyne.NewSize(wide, high))
	return r
}

func TestFieldsGoUnderTheirLabels(t *testing.T) {
	test.NewTempApp(t)
	label, field := slab(80, 20), slab(200, 30)
	box := container.New(&fields{}, label, field, slab(5, 20), slab(100, 30))
	box.Resize(fyne.NewSize(600, 200))
	if field.Position().X <= 80 || field.Position().Y != 0 {
		t.Errorf("with room the field is at %v", field.Position())
	}
	box.Resize(fyne.NewSize(220, 200))
	if field.Position().X != 0 || field.Position().Y <= 0 || field.Size().Width != 220 {
		t.Errorf("without room the field is at %v, %v", field.Position(), field.Size())
	}
	if least := box.MinSize(); least.Width != 200 {
		t.Errorf("the form is at least %v wide", least.Width)
	}
}

// TestFieldsWithoutLabels begin at the left: what no label names, such as a table that is the whole form, stands under what is above it.
func TestFieldsWithoutLabels(t *testing.T) {
	test.NewTempApp(t)
	field := slab(100, 30)
	box := container.New(&fields{}, widget.NewLabel(""), field)
	box.Resize(fyne.NewSize(600, 200))
	if field.Position().X != 0 || field.Size().Width != 600 {
		t.Errorf("the field is at %v, %v", field.Position(), field.Size())
	}
}

// TestHalvesStayInPlace: whichever button has the mark, now or before, all stay where they are.
func TestHalvesStayInPlace(t *testing.T) {
	test.NewTempApp(t)
	h := newHalves([]string{"Everybody", "Releases", "Cleared"}, slab(10, 10), slab(10, 10), slab(10, 10))
	w := test.NewTempWindow(t, h.object)
	w.Resize(fyne.NewSize(800, 300))
	places := func() (out []fyne.Position) {
		for _, b := range h.buttons {
			out = append(out, b.Position())
		}
		return out
	}
	first := places()
	for _, to := range []int{1, 2, 0} {
		test.Tap(h.buttons[to])
		if got := places(); !slices.Equal(got, first) {
			t.Errorf("turned to %d, the buttons are at %v, not at %v", to, got, first)
		}
	}
}

func TestTurning(t *testing.T) {
	test.NewTempApp(t)
	one, other := slab(100, 50), slab(150, 50)
	box := newTurning(one, other, 0.3, 0.6, 20)
	for _, c := range []struct {
		wide float32
		side bool
	}{{800, true}, {200, false}, {900, true}, {260, false}} {
		box.Resize(fyne.NewSize(c.wide, 400))
		if side := other.Position().X > 0; side != c.side || side == (other.Position().Y > 0) {
			t.Errorf("%v wide: side by side %v", c.wide, side)
		}
	}
	if least := box.MinSize(); least.Width != 150 || least.Height < 100 {
		t.Errorf("it is at least %v", least)
	}
}

func TestTicksWrap(t *testing.T) {
	test.NewTempApp(t)
	told := 0
	k := newTicked("a name that is as long as names of scenes sometimes are", func(bool) { told++ })
	k.object.Resize(fyne.NewSize(900, 40))
	if k.tick.Text != k.text || k.words.Visible() {
		t.Error("it wraps though there is room")
	}
	k.object.Resize(fyne.NewSize(150, 40))
	if k.tick.Text != "" || !k.words.Visible() || k.words.Text != k.text {
		t.Error("it does not wrap though there is no room")
	}
	if least := k.object.MinSize(); least.Width > 150 || least.Height <= k.tick.MinSize().Height {
		t.Errorf("it is at least %v", least)
	}
	test.Tap(k.tick)
	if told != 1 {
		t.Error("the tick tells nothing")
	}
	k.able(false)
	if !k.tick.Disabled() || k.words.Importance != widget.LowImportance {
		t.Error("disabled, its words do not look so")
	}
	k.able(true)
	if k.tick.Disabled() || k.words.Importance != widget.MediumImportance {
		t.Error("enabled again, its words do not look so")
	}
}

// TestCellsStayApart: whatever the columns and the width, no cell of a rank overlaps another, each is as wide as it needs, and none
// leaves the width, if that has room for the widest.
func TestCellsStayApart(t *testing.T) {
	test.NewTempApp(t)
	rapid.Check(t, func(rt *rapid.T) {
		var columns []column
		var objects, heads []fyne.CanvasObject
		for range rapid.IntRange(1, 9).Draw(rt, "columns") {
			head := rapid.StringN(0, 14, 40).Draw(rt, "head")
			columns = append(columns, column{head: head, share: rapid.Float32Range(1, 6).Draw(rt, "share"), ticks: rapid.Bool().Draw(rt, "ticks")})
			objects, heads = append(objects, slab(20, 30)), append(heads, widget.NewLabel(head))
		}
		c := &cells{columns: columns}
		wide := max(c.narrowest(), rapid.Float32Range(50, 1500).Draw(rt, "width"))
		box := container.New(c, slices.Concat(objects, heads)...)
		box.Resize(fyne.NewSize(wide, 300))
		for i, o := range objects {
			if o.Size().Width < columns[i].least()-0.5 || o.Position().X+o.Size().Width > wide+0.5 || o.Position().Y+30 > box.MinSize().Height+0.5 {
				rt.Errorf("cell %d is at %v, %v in %v", i, o.Position(), o.Size(), wide)
			}
			if i > 0 && o.Position().Y == objects[i-1].Position().Y && o.Position().X < objects[i-1].Position().X+objects[i-1].Size().Width {
				rt.Errorf("cell %d lies over the one before", i)
			}
		}
	})
}

// TestLinedKeepsWords whole, and texts in one line where there is room.
func TestLinedKeepsWords(t *testing.T) {
	test.NewTempApp(t)
	label := func(s string) fyne.CanvasObject {
		l := wrapped()
		l.SetText(s)
		return l
	}
	l := &lined{columns: 3}
	box := container.New(l, label("Light kept"), label("Overtime"), label("Price"), label("92 %, 4 h 05"), label("297.00 USD"), label("8,750.00 USD"))
	line := widget.NewLabel("x").MinSize().Height
	for _, wide := range []float32{box.MinSize().Width, 250, 400, 900} {
		box.Resize(fyne.NewSize(max(wide, box.MinSize().Width), 200))
		words, _ := l.needs(box.Objects)
		for i, o := range box.Objects {
			if o.Size().Width < words[i%3] {
				t.Errorf("%v wide: %q has %v of %v", wide, o.(*widget.Label).Text, o.Size().Width, words[i%3])
			}
			if wide == 900 && o.MinSize().Height != line {
				t.Errorf("%q wraps though there is room", o.(*widget.Label).Text)
			}
		}
	}
}

// TestFieldsInTwoColumns: what follows stands beside what came before where there is room, and under it elsewhere, no wider than a
// comfortable line.
func TestFieldsInTwoColumns(t *testing.T) {
	test.NewTempApp(t)
	f := newForm(nil, nil)
	one, other := slab(100, 30), slab(300, 60)
	f.row("Title", one)
	f.beside(0.4)
	f.row("To deliver", other)
	for wide, beside := range map[float32]bool{1100: false, 1700: true, 500: false} {
		f.box.Resize(fyne.NewSize(wide, 400))
		is := other.Position().X > one.Position().X+one.Size().Width && other.Position().Y == one.Position().Y
		under := other.Position().X == one.Position().X && other.Position().Y > one.Position().Y
		if is != beside || under == beside {
			t.Errorf("%v wide: they are at %v and %v", wide, one.Position(), other.Position())
		}
		if end := other.Position().X + other.Size().Width; end > wide || !beside && end > comfortable.width() || beside && end < wide {
			t.Errorf("%v wide: the fields end at %v", wide, end)
		}
		if beside != (f.box.MinSize().Height < 90) {
			t.Errorf("%v wide: they are %v high", wide, f.box.MinSize().Height)
		}
	}
}

// TestEmptyTableStandsByItsLabel: the button that adds the first row is in line with the label.
func TestEmptyTableStandsByItsLabel(t *testing.T) {
	test.NewTempApp(t)
	f := newForm(nil, func() string { return "" })
	f.table("Faces", table{item: "face", count: func(*plan.Plan) int { return 0 }, columns: []column{{head: "Name", share: 1}}})
	f.show(&plan.Plan{})
	f.box.Resize(fyne.NewSize(600, 300))
	label := f.box.Objects[0].(*fyne.Container).Objects[0]
	parts := f.box.Objects[1].(*fyne.Container).Objects
	add := parts[len(parts)-1]
	if got, want := add.Position().Y+add.Size().Height/2, label.Position().Y+label.Size().Height/2; math.Abs(float64(got-want)) > 1 {
		t.Errorf("the middle of the button is at %v, of its label at %v", got, want)
	}
}
