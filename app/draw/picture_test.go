package draw

import (
	"image"
	"image/color"
	"math"
	"slices"
	"testing"

	"eavelight/app/look"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func newPen(w, h int, scale float32) *pen {
	return &pen{img: image.NewRGBA(image.Rect(0, 0, w, h)), scale: scale}
}

// area is the painted area in device pixels.
func area(p *pen) float64 {
	sum := 0
	for i := 3; i < len(p.img.Pix); i += 4 {
		sum += int(p.img.Pix[i])
	}
	return float64(sum) / 255
}

var ink = color.NRGBA{A: 0xff}

// The areas are geometry's: a shape drawn with smooth edges covers as many pixels as it has area.
func TestShapesCoverTheirArea(t *testing.T) {
	for _, c := range []struct {
		name string
		draw func(p *pen)
		want float64 // at scale 1
	}{
		{"rectangle off the pixels", func(p *pen) { p.rect(3.25, 4.5, 10.5, 6.25, ink) }, 10.5 * 6.25},
		{"triangle", func(p *pen) { p.fill(ink, []point{{2, 2}, {32, 2}, {2, 22}}) }, 300},
		{"two shapes", func(p *pen) { p.rect(1, 1, 4, 4, ink); p.rect(20, 20, 3, 3, ink) }, 25},
		{"two overlapping in one", func(p *pen) {
			p.fill(ink, []point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, []point{{5, 0}, {15, 0}, {15, 10}, {5, 10}})
		}, 150},
		{"partly outside", func(p *pen) { p.rect(-5, -5, 10, 10, ink) }, 25},
		{"wholly outside", func(p *pen) { p.rect(100, 100, 10, 10, ink) }, 0},
		{"level stroke", func(p *pen) { p.stroke([]point{{5, 10}, {35, 10}}, 2, ink) }, 60},
		{"slanted stroke", func(p *pen) { p.stroke([]point{{5, 5}, {35, 35}}, 2, ink) }, 60 * math.Sqrt2},
		{"right angle, mitred", func(p *pen) { p.stroke([]point{{5, 5}, {35, 5}, {35, 35}}, 2, ink) }, 120},
		{"many short pieces", func(p *pen) { p.stroke([]point{{5, 9.5}, {6, 9.5}, {7, 9.5}, {7, 9.5}, {9, 9.5}}, 3, ink) }, 12},
		{"dashes", func(p *pen) { p.dash([]point{{0, 10}, {32, 10}}, 1, 4, 4, ink) }, 16},
		{"dashes round a corner", func(p *pen) { p.dash([]point{{1, 10}, {3, 10}, {3, 10}, {3, 30}}, 1, 3, 2, ink) }, 14},
		{"frame", func(p *pen) { p.frame(5, 5, 20, 10, 2, ink) }, 22*12 - 18*8},
		{"no points", func(p *pen) { p.stroke(nil, 2, ink); p.fill(ink); p.stroke([]point{{3, 3}, {3, 3}}, 2, ink) }, 0},
	} {
		for _, scale := range []float32{1, 2} {
			p := newPen(int(40*scale), int(40*scale), scale)
			c.draw(p)
			want := c.want * float64(scale*scale)
			if got := area(p); math.Abs(got-want) > 0.02*want+1 {
				t.Errorf("%s at scale %v covers %.2f, want %.2f", c.name, scale, got, want)
			}
		}
	}
}

func TestHatchStaysInItsFrame(t *testing.T) {
	p := newPen(60, 40, 1)
	p.hatch(10.5, 8.5, 31, 15, 5, 1.2, ink)
	for y := range 40 {
		for x := range 60 {
			inside := x >= 9 && x <= 42 && y >= 7 && y <= 24
			if !inside && p.img.RGBAAt(x, y).A > 0 {
				t.Fatalf("ink at %d, %d", x, y)
			}
		}
	}
	if share := area(p) / (31 * 15); share < 0.25 || share > 0.7 {
		t.Errorf("the hatch covers %.2f of its frame: it reads as empty or as full", share)
	}
}

func TestPictureIsDrawnOnceForAContentAndASize(t *testing.T) {
	drawn := 0
	p := picture{width: 20, draw: func(*pen) { drawn++ }}
	first := p.generate(40, 20)
	if p.generate(40, 20) != first || drawn != 1 {
		t.Errorf("drawn %d times for one content", drawn)
	}
	p.stale = true
	p.generate(40, 20)
	p.generate(80, 40)
	if drawn != 3 {
		t.Errorf("drawn %d times, want once more for new content and once for a new size", drawn)
	}
	if empty := p.generate(0, 0); !empty.Bounds().Empty() || drawn != 3 {
		t.Error("a picture of no size is drawn")
	}
}

// A hatched rectangle is drawn once for its size and its colours, and anew for others.
func TestHatchIsDrawnOnceForASizeAndColours(t *testing.T) {
	p := &pieces{}
	list := func(w float32, ground, ink color.NRGBA) *hatch {
		p.begin()
		p.hatched(3, 4, w, 12, ground, ink)
		p.end()
		return p.hatches[0]
	}
	white, red := color.NRGBA{0xff, 0xff, 0xff, 0xff}, color.NRGBA{R: 0xff, A: 0xff}
	h := list(40, white, ink)
	first := h.generate(40, 12)
	pixels := slices.Clone(first.(*image.RGBA).Pix)
	if len(p.hatches) != 1 || list(40, white, ink).generate(40, 12) != first {
		t.Error("it is drawn again for the same")
	}
	for name, again := range map[string]image.Image{
		"another ground": list(40, red, ink).generate(40, 12), "other ink": list(40, white, red).generate(40, 12),
	} {
		if slices.Equal(again.(*image.RGBA).Pix, pixels) {
			t.Errorf("%s shows what was there", name)
		}
	}
	if got := list(60, white, ink).generate(60, 12).Bounds(); got != image.Rect(0, 0, 60, 12) || h.raster.Size() != fyne.NewSize(60, 12) {
		t.Errorf("a longer one is %v, in %v", got, h.raster.Size())
	}
	p.begin()
	p.end()
	if h.raster.Visible() {
		t.Error("what is not listed any more is shown")
	}
}

// The least size is kept between frames, and follows other content, another width and another size of text all the same.
func TestLeastSizeFollows(t *testing.T) {
	a := test.NewTempApp(t)
	a.Settings().SetTheme(look.New(false))
	const short, long = "Some words.", "More words than find room in one line of the width that there is, which is why they take some more lines."
	lead, rows := NewLead(nil), NewPeopleRows()
	lead.Set(LeadData{Text: short})
	lead.Resize(fyne.NewSize(300, 100))
	one, none := lead.MinSize().Height, rows.MinSize().Height
	lead.Set(LeadData{Text: long})
	rows.Set(PeopleData{Rows: make([]PersonRow, 3)})
	several := lead.MinSize().Height
	if several <= one || rows.MinSize().Height <= none {
		t.Errorf("with more to say a line is %v high and not %v, rows %v and not %v", several, one, rows.MinSize().Height, none)
	}
	lead.Resize(fyne.NewSize(1200, 100))
	if got := lead.MinSize().Height; got >= several {
		t.Errorf("with more room the line is %v high still", got)
	}
	lead.Resize(fyne.NewSize(300, 100))
	a.Settings().SetTheme(look.New(false).Scaled(1.5))
	if got := lead.MinSize().Height; got <= several {
		t.Errorf("in larger letters the line is %v high still", got)
	}
}
