package draw

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"golang.org/x/image/vector"
)

// picture is the free-drawn part of a widget: drawn once for a content and a size, then reused. What moves often lies over
// it, and is drawn afresh on a copy of what is kept.
type picture struct {
	draw  func(p *pen) // in Fyne units from the picture's upper left corner
	over  func(p *pen) // what moves, on top; nil for nothing
	width float32      // in Fyne units, set when the picture is placed; gives the device scale
	stale bool         // draw has to run
	moved bool         // over has to run
	keep  bool         // the next refresh leaves draw's part as it is
	base  *image.RGBA  // by draw
	img   *image.RGBA  // base with over on it
}

// generate is called by Fyne with the size in device pixels.
func (p *picture) generate(w, h int) image.Image {
	size := image.Rect(0, 0, w, h)
	if p.base == nil || p.stale || p.base.Rect != size {
		p.base, p.stale, p.moved = image.NewRGBA(size), false, true
		p.run(p.draw, p.base)
	}
	if p.over == nil {
		return p.base
	}
	if p.img == nil || p.img.Rect != size {
		p.img, p.moved = image.NewRGBA(size), true
	}
	if p.moved {
		p.moved = false
		copy(p.img.Pix, p.base.Pix)
		p.run(p.over, p.img)
	}
	return p.img
}

func (p *picture) run(draw func(*pen), img *image.RGBA) {
	if p.width > 0 && !img.Rect.Empty() {
		draw(&pen{img: img, scale: float32(img.Rect.Dx()) / p.width})
	}
}

// touch refreshes a widget whose cursor, hover, focus or moment changed: its texts and what moves, not what is kept.
func (p *picture) touch(w fyne.Widget) {
	p.keep = true
	w.Refresh()
	p.keep = false
}

// point is a place in a picture, in Fyne units.
type point struct{ x, y float32 }

// pen draws antialiased shapes, given in Fyne units, into an image at device scale.
type pen struct {
	img    *image.RGBA
	scale  float32
	raster vector.Rasterizer
}

// column paints one device pixel from top to bottom: the sky has no shape to be smoothed.
func (p *pen) column(x, top, bottom int, at func(y int) color.NRGBA) {
	for y := max(0, top); y < min(bottom, p.img.Rect.Dy()); y++ {
		c := at(y)
		i := p.img.PixOffset(x, y)
		p.img.Pix[i], p.img.Pix[i+1], p.img.Pix[i+2], p.img.Pix[i+3] = c.R, c.G, c.B, 0xff
	}
}

// fill paints the polygons as one shape; those that overlap must turn the same way.
func (p *pen) fill(c color.NRGBA, polygons ...[]point) {
	box := p.bounds(polygons)
	if box.Empty() {
		return
	}
	p.raster.Reset(box.Dx(), box.Dy())
	ox, oy := float32(box.Min.X), float32(box.Min.Y)
	for _, polygon := range polygons {
		for i, q := range polygon {
			if i == 0 {
				p.raster.MoveTo(q.x*p.scale-ox, q.y*p.scale-oy)
			} else {
				p.raster.LineTo(q.x*p.scale-ox, q.y*p.scale-oy)
			}
		}
		p.raster.ClosePath()
	}
	p.raster.Draw(p.img, box, image.NewUniform(c), image.Point{})
}

// bounds is the part of the image that the polygons touch.
func (p *pen) bounds(polygons [][]point) image.Rectangle {
	x0, y0 := float32(math.MaxInt32), float32(math.MaxInt32)
	x1, y1 := float32(0), float32(0)
	for _, polygon := range polygons {
		for _, q := range polygon {
			x0, y0, x1, y1 = min(x0, q.x), min(y0, q.y), max(x1, q.x), max(y1, q.y)
		}
	}
	box := image.Rect(floor(x0*p.scale), floor(y0*p.scale), floor(x1*p.scale)+1, floor(y1*p.scale)+1)
	if x0 > x1 || y0 > y1 {
		return image.Rectangle{}
	}
	return box.Intersect(p.img.Rect)
}

func floor(v float32) int { return int(math.Floor(float64(v))) }

// rect paints a rectangle with square corners.
func (p *pen) rect(x, y, w, h float32, c color.NRGBA) {
	p.fill(c, []point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}})
}

// stroke paints a line through the points, with flat ends and mitred corners.
func (p *pen) stroke(points []point, width float32, c color.NRGBA) {
	if len(points) > 1 {
		p.fill(c, outline(points, width/2))
	}
}

// dash is stroke in pieces, on units drawn and off units not.
func (p *pen) dash(points []point, width, on, off float32, c color.NRGBA) {
	var outlines [][]point
	for _, piece := range dashes(points, on, off) {
		outlines = append(outlines, outline(piece, width/2))
	}
	p.fill(c, outlines...)
}

// dashes cuts a line into the pieces that are drawn; on and off are above 0.
func dashes(points []point, on, off float32) (pieces [][]point) {
	left, drawing := on, true
	var piece []point
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for {
			length := hypot(b.x-a.x, b.y-a.y)
			if drawing && len(piece) == 0 {
				piece = []point{a}
			}
			if length <= left {
				left -= length
				break
			}
			a = point{a.x + (b.x-a.x)*left/length, a.y + (b.y-a.y)*left/length}
			if drawing {
				pieces, piece = append(pieces, append(piece, a)), nil
			}
			drawing = !drawing
			left = on
			if !drawing {
				left = off
			}
		}
		if drawing {
			piece = append(piece, b)
		}
	}
	if len(piece) > 1 {
		pieces = append(pieces, piece)
	}
	return pieces
}

// outline returns the shape of a stroke: along one side and back along the other. It is one shape, since shapes that
// overlap would darken each other's smoothed edges.
func outline(points []point, half float32) []point {
	n := len(points)
	shape := make([]point, 2*n)
	for i, q := range points {
		before, after := points[max(0, i-1)], points[min(n-1, i+1)]
		d := corner(before, q, after, half)
		shape[i], shape[2*n-1-i] = point{q.x + d.x, q.y + d.y}, point{q.x - d.x, q.y - d.y}
	}
	return shape
}

// corner is the way from a point of a line to the side of its stroke: across the line, and further out in a bend.
func corner(before, q, after point, half float32) point {
	u, v := unit(before, q), unit(q, after)
	if u == (point{}) {
		u = v
	}
	if v == (point{}) {
		v = u
	}
	across := unit(point{}, point{u.y + v.y, -u.x - v.x})
	bend := max(0.5, across.x*v.y-across.y*v.x) // the cosine of half the turn; a sharper corner is blunted
	return point{across.x * half / bend, across.y * half / bend}
}

// unit is the direction from a to b, one unit long, or zero where they meet.
func unit(a, b point) point {
	length := hypot(b.x-a.x, b.y-a.y)
	if length == 0 {
		return point{}
	}
	return point{(b.x - a.x) / length, (b.y - a.y) / length}
}

// disc paints a circle.
func (p *pen) disc(at point, radius float32, c color.NRGBA) { p.fill(c, circle(at, radius)) }

// circle is a polygon that looks like a circle.
func circle(at point, radius float32) []point {
	const corners = 24
	shape := make([]point, corners)
	for i := range shape {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		shape[i] = point{at.x + radius*float32(sin), at.y - radius*float32(cos)}
	}
	return shape
}

// frame draws the edge of a rectangle, half of its width inside.
func (p *pen) frame(x, y, w, h, width float32, c color.NRGBA) {
	o, i := width/2, -width/2
	p.fill(c, []point{{x - o, y - o}, {x + w + o, y - o}, {x + w + o, y + h + o}, {x - o, y + h + o}},
		[]point{{x - i, y - i}, {x - i, y + h + i}, {x + w + i, y + h + i}, {x + w + i, y - i}}) // turning the other way: a hole
}

// hatch fills a rectangle with slanted lines and frames it.
func (p *pen) hatch(x, y, w, h, step, width float32, c color.NRGBA) {
	var lines [][]point
	for at := x - h; at < x+w; at += step {
		if a, b, ok := slant(at, x, y, w, h); ok {
			lines = append(lines, outline([]point{a, b}, width/2))
		}
	}
	p.fill(c, lines...)
	p.frame(x, y, w, h, width, c)
}

// slant is the part inside a rectangle of the rising line that meets the rectangle's lower edge at x = at.
func slant(at, x, y, w, h float32) (a, b point, ok bool) {
	from, to := max(at, x), min(at+h, x+w)
	if to-from < 0.01 {
		return a, b, false
	}
	return point{from, y + h - (from - at)}, point{to, y + h - (to - at)}, true
}

func hypot(x, y float32) float32 { return float32(math.Hypot(float64(x), float64(y))) }
