package page

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// TestFlow lays three boxes of 100 x 20, one of them hidden for a while, into rows.
func TestFlow(t *testing.T) {
	test.NewTempApp(t)
	gap := theme.Padding()
	box := func() fyne.CanvasObject {
		r := canvas.NewRectangle(color.Black)
		r.SetMinSize(fyne.NewSize(100, 20))
		return r
	}
	a, b, c := box(), box(), box()
	row := container.New(&flow{}, a, b, c)
	for _, test := range []struct {
		wide, high float32
		at         fyne.Position // of the last
	}{
		{300 + 2*gap, 20, fyne.NewPos(200+2*gap, 0)},
		{299 + 2*gap, 40 + gap, fyne.NewPos(0, 20+gap)},
		{100, 60 + 2*gap, fyne.NewPos(0, 40+2*gap)},
		{50, 60 + 2*gap, fyne.NewPos(0, 40+2*gap)}, // too narrow for any: one a row
	} {
		row.Resize(fyne.NewSize(test.wide, 500))
		if got := row.MinSize(); c.Position() != test.at || got != fyne.NewSize(100, test.high) {
			t.Errorf("in %v the last is at %v, all want %v", test.wide, c.Position(), got)
		}
	}
	b.Hide()
	row.Resize(fyne.NewSize(200+gap, 500))
	if c.Position() != fyne.NewPos(100+gap, 0) {
		t.Errorf("what is hidden takes room: the last is at %v", c.Position())
	}
}

// TestFlowOfRest: what takes the rest of a row fills it, and goes into a row of its own where too little is left.
func TestFlowOfRest(t *testing.T) {
	test.NewTempApp(t)
	box, field := canvas.NewRectangle(color.Black), canvas.NewRectangle(color.Black)
	box.SetMinSize(fyne.NewSize(100, 20))
	field.SetMinSize(fyne.NewSize(30, 20))
	row := container.New(&flow{rest: true}, box, field)
	gap, least := theme.Padding(), leastField*theme.TextSize()
	for _, test := range []struct {
		wide float32
		at   fyne.Position
		size float32
	}{
		{800, fyne.NewPos(100+gap, 0), 700 - gap},
		{100 + gap + least, fyne.NewPos(100+gap, 0), least},
		{99 + gap + least, fyne.NewPos(0, 20+gap), 99 + gap + least},
	} {
		row.Resize(fyne.NewSize(test.wide, 500))
		if field.Position() != test.at || field.Size() != fyne.NewSize(test.size, 20) {
			t.Errorf("in %v it is %v at %v", test.wide, field.Size(), field.Position())
		}
	}
}
