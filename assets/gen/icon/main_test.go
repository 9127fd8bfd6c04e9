package main

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"sync"
	"testing"

	"eavelight/assets"
)

var large = sync.OnceValue(func() *image.NRGBA { return draw(plane) })

// The icon that is built in is the one drawn here.
func TestIconIsDrawnHere(t *testing.T) {
	img, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	want := large()
	for y := range plane {
		for x := range plane {
			if got := color.NRGBAModel.Convert(img.At(x, y)); got != want.NRGBAAt(x, y) {
				t.Fatalf("pixel %d,%d is %v in icon.png, drawn %v; run the command again", x, y, got, want.NRGBAAt(x, y))
			}
		}
	}
}

// A smaller icon is the large one, seen from further away: each of its pixels has the mean colour of those it stands for. They are
// drawn from different samples, so an edge may differ by one sample in eight either way.
func TestSmallIconsLookLikeTheLargeOne(t *testing.T) {
	large := large()
	for _, size := range []int{16, 32, 64, 128, 256} {
		small, n := draw(size), plane/size
		for y := range size {
			for x := range size {
				var r, g, b, a int
				for i := range n * n {
					p := large.NRGBAAt(x*n+i%n, y*n+i/n)
					r, g, b, a = r+int(p.R)*int(p.A), g+int(p.G)*int(p.A), b+int(p.B)*int(p.A), a+int(p.A)
				}
				got := small.NRGBAAt(x, y)
				if d := int(got.A) - a/(n*n); max(d, -d) > 32 {
					t.Fatalf("size %d: pixel %d,%d covers %d of 255, want %d", size, x, y, got.A, a/(n*n))
				}
				if a < 64*n*n { // hardly to be seen
					continue
				}
				for i, d := range []int{int(got.R) - r/a, int(got.G) - g/a, int(got.B) - b/a} {
					if max(d, -d) > 32 {
						t.Fatalf("size %d: pixel %d,%d is %v, and colour %d differs by %d", size, x, y, got, i, d)
					}
				}
			}
		}
	}
}
