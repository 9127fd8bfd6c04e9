package draw

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

// shownClearance makes a clearance of a size, drawn once, and what it tells of.
func shownClearance(t testing.TB, d ClearanceData, size fyne.Size) (*Clearance, *[]spot, *int) {
	use(t, look.New(false))
	w, picked, opened := NewClearance(), &[]spot{}, new(int)
	w.OnSelect = func(row, column int) { *picked = append(*picked, spot{row, column}) }
	w.OnOpen = func() { *opened++ }
	w.Set(d)
	test.NewTempWindow(t, w)
	w.Resize(size)
	return w, picked, opened
}

func pressAt(w *Clearance, x, y float32) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = fyne.NewPos(x, y)
	w.MouseDown(e)
}

// TestClearancePress: a press in the middle of a cell selects it, one on the slanted name its column, and one elsewhere nothing.
func TestClearancePress(t *testing.T) {
	w, picked, opened := shownClearance(t, sampleClearance(), fyne.NewSize(900, 500))
	b := w.box
	mid := func(row, column int) (x, y float32) {
		return b.x + (float32(column)+0.5)*b.cell, b.y + (float32(row)+0.5)*b.cell
	}
	x, y := mid(4, 6)
	pressAt(w, x, y)
	pressAt(w, x, y) // no other one
	x, _ = mid(0, 1)
	pressAt(w, x+60, b.y-60) // along the name, which rises by 45 degrees
	for _, beside := range []fyne.Position{{X: 3, Y: b.y + 3}, {X: x, Y: b.foot + 2}, {X: b.x + 8.5*b.cell, Y: b.y + 3}, {X: 5, Y: 5}} {
		pressAt(w, beside.X, beside.Y)
	}
	if want := []spot{{4, 6}, {-1, 1}}; len(*picked) != 2 || (*picked)[0] != want[0] || (*picked)[1] != want[1] {
		t.Errorf("picked %v, want %v", *picked, want)
	}
	x, y = mid(0, 0)
	w.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(x, y)})
	if *opened != 1 || w.data.Row != 0 || w.data.Column != 0 {
		t.Errorf("a double press opened %d times, at %d, %d", *opened, w.data.Row, w.data.Column)
	}
}

// TestClearanceKeys: the arrow keys go from cell to cell and up into the column's head, never out, and Return opens.
func TestClearanceKeys(t *testing.T) {
	w, picked, opened := shownClearance(t, sampleClearance(), fyne.NewSize(900, 500)) // at 2, 3 of 6 by 8
	for _, c := range []struct {
		key  fyne.KeyName
		want spot
	}{
		{fyne.KeyRight, spot{2, 4}}, {fyne.KeyDown, spot{3, 4}}, {fyne.KeyHome, spot{3, 0}}, {fyne.KeyLeft, spot{3, 0}},
		{fyne.KeyEnd, spot{3, 7}}, {fyne.KeyRight, spot{3, 7}}, {fyne.KeyPageDown, spot{5, 7}}, {fyne.KeyPageUp, spot{-1, 7}},
		{fyne.KeyUp, spot{-1, 7}}, {fyne.KeyLeft, spot{-1, 6}}, {fyne.KeyDown, spot{0, 6}},
	} {
		w.TypedKey(&fyne.KeyEvent{Name: c.key})
		if got := (spot{w.data.Row, w.data.Column}); got != c.want {
			t.Fatalf("after %s at %v, want %v", c.key, got, c.want)
		}
	}
	if len(*picked) != 8 {
		t.Errorf("%d choices were told, want 8: those that went nowhere are none", len(*picked))
	}
	w.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if *opened != 1 {
		t.Errorf("Return opened %d times", *opened)
	}
}

// TestClearanceKeepsTheChoiceInSight: whatever keys are pressed and however it is scrolled and resized, what is in sight is in
// the table; and the cell that a key leads to is in sight.
func TestClearanceKeepsTheChoiceInSight(t *testing.T) {
	w, _, _ := shownClearance(t, largeClearance(60, 40), fyne.NewSize(700, 500))
	keys := []fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyPageUp, fyne.KeyPageDown}
	rapid.Check(t, func(t *rapid.T) {
		for range 20 {
			switch rapid.IntRange(0, 4).Draw(t, "what") {
			case 0:
				w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(rapid.Float32Range(-900, 900).Draw(t, "dx"), rapid.Float32Range(-900, 900).Draw(t, "dy"))})
			case 1:
				w.Resize(fyne.NewSize(rapid.Float32Range(1, 1500).Draw(t, "width"), rapid.Float32Range(1, 1000).Draw(t, "height")))
			default:
				was := spot{w.data.Row, w.data.Column}
				w.TypedKey(&fyne.KeyEvent{Name: rapid.SampledFrom(keys).Draw(t, "key")})
				d, b := w.data, w.box
				below := d.Row >= 0 && (d.Row < w.top || d.Row >= w.top+b.rows)
				if now := (spot{d.Row, d.Column}); now != was && (below || d.Column < w.left || d.Column >= w.left+b.columns) {
					t.Fatalf("%v is chosen, in sight are %d rows from %d and %d columns from %d", now, b.rows, w.top, b.columns, w.left)
				}
			}
			if w.top < 0 || w.top+w.box.rows > 60 || w.left < 0 || w.left+w.box.columns > 40 {
				t.Fatalf("in sight are %d rows from %d and %d columns from %d", w.box.rows, w.top, w.box.columns, w.left)
			}
		}
	})
}

// TestClearanceScrolls: by the wheel, a part of a cell at a time, and by the bars, whose ends are the table's.
func TestClearanceScrolls(t *testing.T) {
	w, _, _ := shownClearance(t, largeClearance(60, 40), fyne.NewSize(700, 500))
	w.scroll(-1000, -1000)
	for range 4 {
		w.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -w.box.cell/2)})
	}
	if w.top != 2 || w.left != 0 {
		t.Errorf("two cells down is row %d, column %d", w.top, w.left)
	}
	b := w.box
	drag := func(x, y, dx, dy float32) {
		w.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x+dx, y+dy)}, Dragged: fyne.NewDelta(dx, dy)})
		w.DragEnd()
	}
	drag(b.beside+2, b.y+5, 0, b.cell*float32(b.rows))
	drag(b.x+5, b.below+2, b.cell*float32(b.columns), 0)
	if w.top != 60-b.rows || w.left != w.last(w.box) || w.left+w.box.columns != 40 {
		t.Errorf("at the ends of the bars: row %d, column %d", w.top, w.left)
	}
	drag(b.x+200, b.y+100, 2*b.cell+1, 3*b.cell+1)
	if w.top != 60-b.rows-3 || w.left != w.last(w.box)-2 {
		t.Errorf("with the cells under the pointer: row %d, column %d", w.top, w.left)
	}
}

// TestClearanceNamesHaveRoom: at every width from the least, the names of the columns in sight end inside; and a
// column more would not have room.
func TestClearanceNamesHaveRoom(t *testing.T) {
	w, _, _ := shownClearance(t, sampleClearance(), fyne.NewSize(900, 500))
	f := small(w.Theme())
	end := func(i int) float32 { // where the name of a column ends: its upper right corner
		return w.box.x + (float32(i-w.left)+0.5)*w.box.cell + slant45*(f.measure(w.data.Columns[i].Name).Width+f.height()/2)
	}
	for width := w.MinSize().Width; width < 900; width += 7 {
		w.left = 0
		w.Resize(fyne.NewSize(width, 500))
		for range w.data.Columns {
			in := w.left + w.box.columns
			for i := w.left; i < in; i++ {
				if end(i) > width {
					t.Fatalf("%.0f wide, from column %d: the name of %d ends at %.0f", width, w.left, i, end(i))
				}
			}
			if in < len(w.data.Columns) && end(in) < width-30 {
				t.Fatalf("%.0f wide, from column %d: %d has room, and is not in sight", width, w.left, in)
			}
			w.scroll(1, 0)
		}
		if w.left+w.box.columns != len(w.data.Columns) {
			t.Fatalf("%.0f wide: the last column never comes into sight", width)
		}
	}
	w.Resize(fyne.NewSize(w.Full(), 500))
	if w.box.columns != len(w.data.Columns) {
		t.Errorf("at its full width %d columns are in sight", w.box.columns)
	}
}

// TestClearanceTellsUnderThePointer: the caption is of the cell under the pointer, else of the chosen one.
func TestClearanceTellsUnderThePointer(t *testing.T) {
	w, _, _ := shownClearance(t, sampleClearance(), fyne.NewSize(900, 500))
	d := w.data
	if got, want := w.caption(spot{2, 3}), "3  Coffee – Per Sandvik: "+d.Words[d.Cells[2][3]]; got != want {
		t.Errorf("the chosen cell: %q, want %q", got, want)
	}
	if got, want := w.caption(spot{-1, 1}), "Tom (9): two scenes wait"; got != want {
		t.Errorf("a column: %q, want %q", got, want)
	}
	e := &desktop.MouseEvent{}
	e.Position = fyne.NewPos(w.box.x+2, w.box.y+2)
	w.MouseMoved(e)
	if w.hover != (spot{0, 0}) || w.Cursor() != desktop.PointerCursor {
		t.Errorf("under the pointer is %v", w.hover)
	}
	w.MouseOut()
	if w.hover != nowhere || w.Cursor() != desktop.DefaultCursor {
		t.Error("the pointer is gone, and its cell is still told")
	}
}

// TestStandingsDifferByShapeAlone: two marks of one colour differ in a good part of their pixels, and each reaches 3:1 on every
// ground it stands on (WCAG 2.2, 1.4.11; a "good part", a tenth of the larger, is from common practice, no published source).
func TestStandingsDifferByShapeAlone(t *testing.T) {
	var drawn []*image.RGBA
	for _, s := range standings {
		img := image.NewRGBA(image.Rect(0, 0, 24, 24))
		drawStanding(&pen{img: img, scale: 1}, s, point{12, 12}, 6.5, look.Of(look.New(false)).Ink)
		drawn = append(drawn, img)
		for _, dark := range []bool{false, true} {
			c := look.Of(look.New(dark))
			for name, ground := range map[string]image.Image{"paper": image.NewUniform(c.Paper), "lane": image.NewUniform(c.Lane)} {
				if r := look.Contrast(tint(c, s), ground.At(0, 0)); r < 3 {
					t.Errorf("mark %d on %s, dark %v: %.2f", s, name, dark, r)
				}
			}
		}
	}
	inked := func(img *image.RGBA, i int) bool { return img.Pix[4*i+3] > 127 }
	for i := range drawn {
		for j := range i {
			differ, most := 0, 0
			for k := range 24 * 24 {
				a, b := inked(drawn[i], k), inked(drawn[j], k)
				if a != b {
					differ++
				}
				if a || b {
					most++
				}
			}
			if most == 0 || differ*10 < most {
				t.Errorf("marks %d and %d differ in %d of %d pixels", standings[i], standings[j], differ, most)
			}
		}
	}
}

func BenchmarkClearanceScroll(b *testing.B) {
	w, _, _ := shownClearance(b, largeClearance(60, 40), fyne.NewSize(1400, 800))
	down := 0
	for b.Loop() { // a frame of scrolling: other rows, other columns, everything drawn at scale 2
		down++
		w.top, w.left = down%20, down%3
		w.Refresh()
		w.pic.generate(2800, 1600)
	}
}
