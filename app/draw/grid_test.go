package draw

import (
	"fmt"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"
)

// TestGridHeadsAreWhole: whatever the shares, no head is shortened where all have room, the columns fill the width, and begin at whole
// pixels.
func TestGridHeadsAreWhole(t *testing.T) {
	test.NewTempApp(t)
	g := NewGrid()
	test.NewTempWindow(t, g)
	f, pad := small(g.Theme()), g.pad()
	rapid.Check(t, func(rt *rapid.T) {
		d, heads := GridData{Row: -1}, float32(0)
		for range rapid.IntRange(1, 10).Draw(rt, "columns") {
			head := rapid.StringMatching(`[A-Za-z]{0,12}`).Draw(rt, "head")
			d.Columns = append(d.Columns, GridColumn{Head: head, Share: rapid.Float32Range(1, 12).Draw(rt, "share")})
			heads += whole(f.measure(head).Width + 3*pad)
		}
		g.Set(d)
		g.Resize(fyne.NewSize(rapid.Float32Range(0, 1500).Draw(rt, "width"), 300))
		room, end := g.Size().Width-gridBar-pad, float32(0)
		for i, c := range d.Columns {
			x, w := g.across(i)
			if x != end || x != whole(x) {
				rt.Errorf("column %d begins at %v, the one before ends at %v", i, x, end)
			}
			if end = x + w; heads <= room && f.fit(c.Head, w-2*pad) != c.Head {
				rt.Errorf("%q is shortened in %v of %v", c.Head, w, room)
			}
		}
		if math.Abs(float64(end-room)) > 0.01 {
			rt.Errorf("the columns end at %v of %v", end, room)
		}
	})
}

// TestGridKeepsTheCursorInSight: whatever keys move it, and however large the grid is, the cell under the cursor lies within it, and
// so does everything drawn; the wheel and another size take the rows no further than there are any.
func TestGridKeepsTheCursorInSight(t *testing.T) {
	test.NewTempApp(t)
	g := NewGrid()
	d := GridData{Row: -1, Columns: []GridColumn{{Head: "No.", Share: 1, Figure: true}, {Head: "Title", Share: 4}, {Head: "Light", Share: 2, Offers: true}}}
	for i := range 40 {
		d.Rows = append(d.Rows, []string{fmt.Sprint(i), "Ärger mit einem sehr langen Titel, der nicht hineinpasst", "golden morning"})
	}
	w := test.NewTempWindow(t, g)
	w.SetPadded(false)
	for _, size := range []fyne.Size{{Width: 600, Height: 300}, {Width: 900, Height: 140}, {Width: 560, Height: 2000}} {
		w.Resize(size)
		g.Set(d)
		for _, key := range []fyne.KeyName{fyne.KeyDown, fyne.KeyEnd, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageUp, fyne.KeyRight, fyne.KeyPageDown, fyne.KeyPageDown,
			fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyHome, fyne.KeyUp, fyne.KeyLeft} {
			g.TypedKey(&fyne.KeyEvent{Name: key})
			at, cell, ok := g.Cell()
			if at.X != float32(int(at.X)) || at.Y != float32(int(at.Y)) {
				t.Fatalf("the letters at %v lie between pixels, and are blurred", at)
			}
			if !ok || at.X < 0 || at.Y < g.headHeight() || at.X+cell.Width > size.Width || at.Y+cell.Height > size.Height {
				t.Fatalf("%v: after %s the cursor is at %v, %v (%v)", size, key, at, cell, ok)
			}
		}
		g.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -1e5)})
		if g.top != g.last() || g.top+g.inSight() != 40 {
			t.Errorf("%v: scrolled to row %d with %d in sight", size, g.top, g.inSight())
		}
		for _, o := range test.WidgetRenderer(g).Objects() {
			p, s := o.Position(), o.Size()
			if o.Visible() && (p.X < -1 || p.Y < -1 || p.X+s.Width > g.Size().Width+1 || p.Y+s.Height > g.Size().Height+1) {
				t.Errorf("%v: %T at %v, %v lies outside", size, o, p, s)
			}
		}
	}
}
