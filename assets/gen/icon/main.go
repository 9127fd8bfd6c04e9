// Command icon draws the program's icon: an eave with a low copper sun under it, in the colours of the window's two themes.
//
// Run it in the folder assets: go run ./gen/icon > icon.png
//
// With -size it draws the icon in another size, from the shapes again and not from the picture, as a release needs it.
package main

import (
	"flag"
	"image"
	"image/color"
	"image/png"
	"log"
	"math"
	"os"
)

const (
	plane = 512 // the shapes' side
	fine  = 8   // samples a side of each pixel
)

// A shape says whether it covers a point of the plane, y down.
type shape func(x, y float64) bool

func disc(cx, cy, r float64) shape {
	return func(x, y float64) bool { return math.Hypot(x-cx, y-cy) <= r }
}

func rounded(left, top, right, bottom, r float64) shape {
	return func(x, y float64) bool {
		if x < left || x > right || y < top || y > bottom {
			return false
		}
		cx := min(max(x, left+r), right-r)
		cy := min(max(y, top+r), bottom-r)
		return math.Hypot(x-cx, y-cy) <= r
	}
}

// polygon covers the inside of a convex polygon whose corners run clockwise on the screen.
func polygon(corners ...[2]float64) shape {
	return func(x, y float64) bool {
		for i, a := range corners {
			b := corners[(i+1)%len(corners)]
			if (b[0]-a[0])*(y-a[1])-(b[1]-a[1])*(x-a[0]) < 0 {
				return false
			}
		}
		return true
	}
}

var (
	paper  = color.NRGBA{0xFA, 0xF4, 0xE8, 0xFF}
	glow   = color.NRGBA{0xF3, 0xD2, 0xAE, 0xFF}
	copper = color.NRGBA{0xB8, 0x5C, 0x2B, 0xFF}
	night  = color.NRGBA{0x1B, 0x26, 0x3D, 0xFF}
	dusk   = color.NRGBA{0x33, 0x41, 0x5E, 0xFF}
)

var (
	tile   = rounded(16, 16, 496, 496, 108)
	sun    = disc(318, 362, 70)
	ground = polygon([2]float64{0, 404}, [2]float64{512, 404}, [2]float64{512, 512}, [2]float64{0, 512})
	wall   = polygon([2]float64{0, 250}, [2]float64{172, 150}, [2]float64{172, 512}, [2]float64{0, 512})
	back   = polygon([2]float64{-40, 212}, [2]float64{172, 92}, [2]float64{172, 164}, [2]float64{-40, 284})
	eave   = polygon([2]float64{172, 92}, [2]float64{436, 241}, [2]float64{436, 298}, [2]float64{408, 298}, [2]float64{172, 164})
)

// at is the colour of the point, and false outside the tile.
func at(x, y float64) (color.NRGBA, bool) {
	switch {
	case !tile(x, y):
		return color.NRGBA{}, false
	case eave(x, y) || back(x, y):
		return night, true
	case ground(x, y):
		return night, true
	case wall(x, y):
		return dusk, true
	case sun(x, y):
		return copper, true
	}
	return mix(paper, glow, (y-120)/(404-120)), true
}

// mix goes from a at 0 to b at 1.
func mix(a, b color.NRGBA, t float64) color.NRGBA {
	t = min(max(t, 0), 1)
	between := func(p, q uint8) uint8 { return uint8(math.Round(float64(p)*(1-t) + float64(q)*t)) }
	return color.NRGBA{between(a.R, b.R), between(a.G, b.G), between(a.B, b.B), 0xFF}
}

// draw makes a picture of so many pixels a side. It averages the samples of each pixel in whole numbers, so that every machine
// draws the same.
func draw(size int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, size, size))
	for py := range size {
		for px := range size {
			img.SetNRGBA(px, py, pixel(px, py, plane/float64(size)))
		}
	}
	return img
}

// pixel is the colour of a pixel that is so wide on the plane.
func pixel(px, py int, wide float64) color.NRGBA {
	var r, g, b, n int
	for i := range fine * fine {
		x := (float64(px) + (float64(i%fine)+0.5)/fine) * wide
		y := (float64(py) + (float64(i/fine)+0.5)/fine) * wide
		if c, ok := at(x, y); ok {
			r, g, b, n = r+int(c.R), g+int(c.G), b+int(c.B), n+1
		}
	}
	if n == 0 {
		return color.NRGBA{}
	}
	return color.NRGBA{uint8(r / n), uint8(g / n), uint8(b / n), uint8(n * 255 / (fine * fine))}
}

func main() {
	size := flag.Int("size", plane, "pixels a side")
	flag.Parse()
	if err := png.Encode(os.Stdout, draw(*size)); err != nil {
		log.Fatal(err)
	}
}
