package papers

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"sync"
	"time"

	"eavelight/plan"

	"github.com/srwiley/rasterx"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Pages are the pages of a sheet, to be looked at before it is printed: laid out as the PDF is, line by line.
type Pages struct{ layout layout }

// Pages lays the sheet out to be drawn as pictures.
func (s Sheet) Pages(size plan.PaperSize, made time.Time) Pages { return Pages{s.lay(size, made)} }

// Len is how many pages there are.
func (p Pages) Len() int { return len(p.layout.pages) }

// Shape is the width of a page over its height.
func (p Pages) Shape() float64 { return p.layout.wide / p.layout.tall }

// Picture draws one page, counted from 0, so many pixels wide.
func (p Pages) Picture(page, width int) *image.RGBA {
	c := newCanvas(p.layout.wide, p.layout.tall, width)
	p.layout.draw(c, page)
	return c.picture
}

// canvas is the surface of a picture.
type canvas struct {
	picture *image.RGBA
	scale   float64                  // pixels a millimetre
	faces   map[[2]float64]font.Face // by size in points and weight
}

// newCanvas is white paper of a size in millimetres, so many pixels wide.
func newCanvas(wide, tall float64, width int) *canvas {
	scale := float64(width) / wide
	c := &canvas{image.NewRGBA(image.Rect(0, 0, width, int(tall*scale+0.5))), scale, map[[2]float64]font.Face{}}
	draw.Draw(c.picture, c.picture.Rect, image.White, image.Point{}, draw.Src)
	return c
}

func (t tint) colour() color.Color {
	return color.RGBA{uint8(t.r), uint8(t.g), uint8(t.b), 0xff}
}

func (c *canvas) fill(corners []point, t tint) {
	on := c.part(corners, 0)
	f := rasterx.NewFiller(on.wide, on.tall, on)
	f.Start(on.at(corners[0]))
	for _, p := range corners[1:] {
		f.Line(on.at(p))
	}
	f.Stop(true)
	on.paint(t)
}

func (c *canvas) stroke(p path, thick float64, t tint) {
	on := c.part(p.points(), thick)
	s := rasterx.NewStroker(on.wide, on.tall, on)
	s.SetStroke(fixed.Int26_6(thick*c.scale*64), 0, rasterx.RoundCap, rasterx.RoundCap, rasterx.RoundGap, rasterx.Round)
	s.Start(on.at(p.from))
	for _, next := range p.steps {
		if next.curved {
			s.CubeBezier(on.at(next.c1), on.at(next.c2), on.at(next.to))
		} else {
			s.Line(on.at(next.to))
		}
	}
	s.Stop(false)
	on.paint(t)
}

// part is the rectangle of a picture that something is drawn in: to go over the whole of it for every hairline would take longer than
// all the rest.
type part struct {
	*rasterx.ScannerGV
	canvas     *canvas
	min        image.Point
	wide, tall int
}

// part holds all of the points, and around them what a pen is thick.
func (c *canvas) part(points []point, thick float64) part {
	low, high := points[0], points[0]
	for _, p := range points {
		low, high = point{min(low.x, p.x), min(low.y, p.y)}, point{max(high.x, p.x), max(high.y, p.y)}
	}
	pixel := func(mm float64) int { return int(math.Floor(mm * c.scale)) }
	r := image.Rect(pixel(low.x-thick), pixel(low.y-thick), pixel(high.x+thick)+1, pixel(high.y+thick)+1).Intersect(c.picture.Rect)
	on := part{canvas: c, min: r.Min, wide: r.Dx(), tall: r.Dy()}
	on.ScannerGV = rasterx.NewScannerGV(on.wide, on.tall, c.picture.SubImage(r).(*image.RGBA), r)
	return on
}

func (p part) paint(t tint) {
	if p.wide > 0 && p.tall > 0 { // else it is off the page
		p.SetColor(t.colour())
		p.Draw()
	}
}

func (p part) at(q point) fixed.Point26_6 {
	return rasterx.ToFixedP(q.x*p.canvas.scale-float64(p.min.X), q.y*p.canvas.scale-float64(p.min.Y))
}

func (c *canvas) text(x, y float64, l line) {
	d := font.Drawer{Dst: c.picture, Src: image.NewUniform(l.face.tint.colour()), Face: c.face(l.face)}
	for _, r := range l.text { // each letter where the print puts it, or long lines would run apart
		d.Dot = rasterx.ToFixedP(x*c.scale, y*c.scale)
		d.DrawString(string(r))
		x += widthOf(string(r), l.face)
	}
}

// face is the type in the picture's size. Pictures are drawn in the background, some at once, and a font.Face serves one at a time.
func (c *canvas) face(f face) font.Face {
	key := [2]float64{f.size, 0}
	if f.bold {
		key[1] = 1
	}
	if c.faces[key] == nil {
		made, err := opentype.NewFace(weights()[int(key[1])], &opentype.FaceOptions{Size: f.size, DPI: c.scale * 25.4, Hinting: font.HintingNone})
		if err != nil {
			panic("the built-in font is damaged: " + err.Error()) // a fault of the build, not of a plan
		}
		c.faces[key] = made
	}
	return c.faces[key]
}

// widthOf measures a text in millimetres, as the print library does: by whole thousandths of the type's size.
func widthOf(text string, f face) float64 {
	table := &advances()[0]
	if f.bold {
		table = &advances()[1]
	}
	sum := 0
	for _, r := range text {
		if r <= 0xFFFF {
			sum += int(table[r])
		}
	}
	return float64(sum) * f.size * millimetres / 1000
}

// advances are the widths of the characters of the basic plane, in thousandths of the type's size, for both weights.
var advances = sync.OnceValue(func() *[2][0x10000]uint16 {
	var out [2][0x10000]uint16
	for i, f := range weights() {
		var buffer sfnt.Buffer
		units := f.UnitsPerEm()
		for r := range rune(0x10000) {
			g, err := f.GlyphIndex(&buffer, r)
			if err != nil {
				continue
			}
			wide, err := f.GlyphAdvance(&buffer, g, fixed.I(int(units)), font.HintingNone)
			if err == nil {
				out[i][r] = uint16((wide.Round()*1000 + int(units)/2) / int(units))
			}
		}
	}
	return &out
})
