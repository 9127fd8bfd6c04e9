package pictures

import (
	"context"
	"hash/crc32"
	"image"
	"image/color"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func crc(data []byte) uint32 { return crc32.ChecksumIEEE(data) }

// TestFit: the longest side is at most what is asked for, the shape is kept within a pixel, and nothing is made larger.
func TestFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.IntRange(1, 100_000)
		wide, high, longest := side.Draw(t, "wide"), side.Draw(t, "high"), rapid.IntRange(1, 5_000).Draw(t, "longest")
		w, h := Fit(wide, high, longest)
		if max(w, h) > longest || min(w, h) < 1 || w > wide || h > high {
			t.Fatalf("%d × %d in %d is %d × %d", wide, high, longest, w, h)
		}
		if max(wide, high) <= longest && (w != wide || h != high) {
			t.Fatalf("%d × %d has room in %d and is %d × %d", wide, high, longest, w, h)
		}
		scale := float64(max(w, h)) / float64(max(wide, high))
		if math.Abs(float64(wide)*scale-float64(w)) > 1 || math.Abs(float64(high)*scale-float64(h)) > 1 {
			t.Fatalf("%d × %d is squeezed to %d × %d", wide, high, w, h)
		}
	})
}

// TestShrinkIsTheMean holds shrink against the mean worked out share by share.
func TestShrinkIsTheMean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.IntRange(1, 12).Draw(t, "wide"), rapid.IntRange(1, 12).Draw(t, "high")
		w, h := rapid.IntRange(1, wide).Draw(t, "w"), rapid.IntRange(1, high).Draw(t, "h")
		img := image.NewGray(image.Rect(3, -2, 3+wide, -2+high)) // not at the origin
		for i := range img.Pix {
			img.Pix[i] = rapid.Byte().Draw(t, "grey")
		}
		got, err := shrink(context.Background(), img, w, h)
		if err != nil {
			t.Fatal(err)
		}
		overlap := func(i, of, j, many int) float64 { // of pixel i of the source with pixel j of the result, in pixels of the source
			each := float64(of) / float64(many)
			return max(0, min(float64(i+1), float64(j+1)*each)-max(float64(i), float64(j)*each))
		}
		for y := range h {
			for x := range w {
				var sum, all float64
				for sy := range high {
					for sx := range wide {
						share := overlap(sx, wide, x, w) * overlap(sy, high, y, h)
						sum += share * float64(img.GrayAt(3+sx, -2+sy).Y)
						all += share
					}
				}
				if c := got.RGBAAt(x, y); math.Abs(float64(c.G)-sum/all) > 0.51 || c.R != c.G || c.B != c.G || c.A != 255 {
					t.Fatalf("%d × %d to %d × %d: at %d, %d is %v, not %.2f", wide, high, w, h, x, y, c, sum/all)
				}
			}
		}
	})
}

// TestOnWhite: what is transparent stands on white, as it does on paper.
func TestOnWhite(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 4, 1))
	img.SetNRGBA(0, 0, color.NRGBA{0, 0, 0, 255})
	img.SetNRGBA(1, 0, color.NRGBA{0, 0, 0, 255})
	got, err := shrink(context.Background(), img, 2, 1)
	if err != nil || got.RGBAAt(0, 0) != (color.RGBA{0, 0, 0, 255}) || got.RGBAAt(1, 0) != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("%v, %v", got.Pix, err)
	}
}

func BenchmarkShrink(b *testing.B) {
	img := image.NewYCbCr(image.Rect(0, 0, 6000, 4000), image.YCbCrSubsampleRatio420)
	for b.Loop() {
		shrink(context.Background(), img, 1200, 800)
	}
}
