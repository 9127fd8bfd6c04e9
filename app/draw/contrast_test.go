package draw

import (
	"fmt"
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"eavelight/app/look"
)

// laid is a word or a mark as a widget shows it, and where.
type laid struct {
	what  string
	color color.NRGBA
	at    []image.Point // of its ground, in pixels
}

// bare takes the words, the lines and the edges off a widget, so that what is left is their ground.
func bare(w fyne.Widget) (words, marks []laid) {
	within := func(o fyne.CanvasObject, x, y float32) image.Point {
		p := o.Position()
		return image.Pt(int(p.X+x), int(p.Y+y))
	}
	for _, o := range test.WidgetRenderer(w).Objects() {
		if !o.Visible() {
			continue
		}
		switch o := o.(type) {
		case *canvas.Text:
			one := laid{what: fmt.Sprintf("the word %q", o.Text), color: o.Color.(color.NRGBA)}
			size := fyne.MeasureText(o.Text, o.TextSize, o.TextStyle)
			for x := float32(0); x < size.Width; x++ {
				for y := 0.25 * size.Height; y < 0.75*size.Height; y++ { // where its letters are, whatever room their lines keep
					one.at = append(one.at, within(o, x, y))
				}
			}
			words = append(words, one)
			o.Hidden = true
		case *canvas.Line:
			mid := fyne.NewPos((o.Position1.X+o.Position2.X)/2, (o.Position1.Y+o.Position2.Y)/2)
			one := laid{what: fmt.Sprintf("the line at %v", o.Position1), color: o.StrokeColor.(color.NRGBA)}
			one.at = []image.Point{image.Pt(int(mid.X), int(mid.Y))}
			marks = append(marks, one)
			o.Hidden = true
		case *canvas.Rectangle:
			edge, ok := o.StrokeColor.(color.NRGBA)
			if !ok || o.StrokeWidth == 0 || edge.A == 0 {
				continue
			}
			size, out := o.Size(), o.StrokeWidth+1
			x, y := size.Width/2, size.Height/2
			marks = append(marks, laid{fmt.Sprintf("the edge of %v at %v", size, o.Position()), edge, []image.Point{
				within(o, -out, y), within(o, out, y), within(o, size.Width-out, y), within(o, size.Width+out, y), within(o, x, -out), within(o, x, out)}})
			o.StrokeWidth = 0
			if o.FillColor == nil { // which Fyne paints with an edge only
				o.FillColor = color.Transparent
			}
		}
	}
	return words, marks
}

// WCAG 2.2, 1.4.3 and 1.4.11: a word has 4.5:1 on what lies under it, whichever widget drew it there; a line has 3:1, and an edge has 3:1
// on one of its sides. A hair line of Rule is only a help to the eye, and Casing only lies about a line of Curve. A word may touch
// marks with a tenth of itself at most.
func TestContrastOfWhatIsDrawn(t *testing.T) {
	size := fyne.NewSize(900, 0)
	for _, dark := range []bool{false, true} {
		th := look.New(dark)
		use(t, th)
		seen := 0
		for name, w := range samples() {
			size.Height = w.MinSize().Height
			w.Resize(size)
			if f, ok := w.(fyne.Focusable); ok {
				f.FocusGained()
			}
			capture(th, w, size, 1)
			words, marks := bare(w)
			ground := capture(th, container.NewWithoutLayout(test.WidgetRenderer(w).Objects()...), size, 1) // not the widget: it would put them on again
			for _, one := range words {
				seen++
				low, worst := 0, 21.0
				for _, p := range one.at {
					if r := look.Contrast(one.color, ground.At(p.X, p.Y)); p.In(ground.Bounds()) && r < 4.5 {
						low, worst = low+1, min(worst, r)
					}
				}
				if low*10 > len(one.at) {
					t.Errorf("dark %v, %s: %s has %.2f on %d of %d of its ground", dark, name, one.what, worst, low, len(one.at))
				}
			}
			for _, one := range marks {
				if one.color == look.Of(th).Rule || one.color == look.Of(th).Casing {
					continue
				}
				seen++
				best := 0.0
				for _, p := range one.at {
					if p.In(ground.Bounds()) {
						best = max(best, look.Contrast(one.color, ground.At(p.X, p.Y)))
					}
				}
				if best < 3 {
					t.Errorf("dark %v, %s: %s in %v has %.2f", dark, name, one.what, one.color, best)
				}
			}
		}
		if seen < 300 {
			t.Errorf("only %d words and marks were looked at", seen)
		}
	}
}
