//go:build cgo && linux

package main

import (
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"slices"

	"eavelight/app/look"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/theme"
)

// The window is watched as a person watches it: by the words on the screen. A text is drawn once without the window, and
// looked for in the screenshot by the correlation of the two, which does not mind colours, a dark theme, or a text that
// stands between two pixels.

// alike is the least square of the correlation that counts. Measured on screenshots of the window: the same words are above
// 0.91 wherever they stand, other words of some letters below 0.84. Words that differ in a letter or a figure are too alike.
const alike = 0.88

// contrast is the least part of black on white's contrast at which a text is looked for.
const contrast = 0.02

// screen is a screenshot made ready for find: grey, blurred, and with the sums over everything above and left of each pixel,
// which tell at once where there is nothing but ground.
type screen struct {
	*image.Gray
	sums, squares []int // one column and one row more than there are pixels
}

func newScreen(img image.Image) *screen {
	g := image.NewGray(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(g, g.Bounds(), img, img.Bounds().Min, draw.Src)
	wide, high := g.Bounds().Dx()+1, g.Bounds().Dy()+1
	s := &screen{blur(g), make([]int, wide*high), make([]int, wide*high)}
	for y := 1; y < high; y++ {
		for x := 1; x < wide; x++ {
			v, at := int(s.Pix[(y-1)*s.Stride+x-1]), y*wide+x
			s.sums[at] = v + s.sums[at-1] + s.sums[at-wide] - s.sums[at-wide-1]
			s.squares[at] = v*v + s.squares[at-1] + s.squares[at-wide] - s.squares[at-wide-1]
		}
	}
	return s
}

// variance is the mean square of how far the pixels of an area are from their mean.
func (s *screen) variance(r image.Rectangle) float64 {
	wide := s.Bounds().Dx() + 1
	over := func(sums []int) float64 {
		return float64(sums[r.Max.Y*wide+r.Max.X]-sums[r.Min.Y*wide+r.Max.X]-sums[r.Max.Y*wide+r.Min.X]+sums[r.Min.Y*wide+r.Min.X]) /
			float64(r.Dx()*r.Dy())
	}
	mean := over(s.sums)
	return over(s.squares) - mean*mean
}

// find returns where a text stands in a picture, from top to bottom.
func (s *screen) find(text string) []image.Rectangle {
	var all []image.Rectangle
	for _, style := range []struct {
		size fyne.ThemeSizeName
		bold bool
	}{
		{theme.SizeNameText, false},
		{theme.SizeNameText, true},
		{theme.SizeNameCaptionText, false},
	} {
		all = append(all, s.matches(lettering(text, style.size, style.bold))...)
	}
	slices.SortFunc(all, func(a, b image.Rectangle) int { return a.Min.Y - b.Min.Y })
	return all
}

// lettering is a text as the window draws it, black on white, cut to its ink.
func lettering(text string, size fyne.ThemeSizeName, bold bool) *image.Gray {
	th := look.New(false)
	words := canvas.NewText(text, color.Black)
	words.TextSize, words.TextStyle.Bold = th.Size(size), bold
	drawn := software.Render(words, th)
	ground := image.NewGray(drawn.Bounds())
	draw.Draw(ground, ground.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(ground, ground.Bounds(), drawn, image.Point{}, draw.Over)
	return blur(ground)
}

// blur takes the mean of nine pixels, so that half a pixel of shift changes little.
func blur(g *image.Gray) *image.Gray {
	b := g.Bounds()
	out := image.NewGray(b)
	for y := b.Min.Y + 1; y < b.Max.Y-1; y++ {
		for x := b.Min.X + 1; x < b.Max.X-1; x++ {
			sum := 0
			for v := y - 1; v <= y+1; v++ {
				i := g.PixOffset(x-1, v)
				sum += int(g.Pix[i]) + int(g.Pix[i+1]) + int(g.Pix[i+2])
			}
			out.SetGray(x, y, color.Gray{Y: uint8(sum / 9)})
		}
	}
	return out
}

// sample is one pixel of a lettering, at a place in it.
type sample struct {
	x, y  int
	value float64
}

// matches looks a lettering up everywhere on the screen. Few places are worth more than a look at every fifth sample.
func (s *screen) matches(letters *image.Gray) []image.Rectangle {
	all, few := sampled(letters, 1), sampled(letters, 5)
	size := letters.Bounds().Size()
	type match struct {
		at  image.Rectangle
		how float64
	}
	var found []match
	for y := range max(0, s.Bounds().Dy()-size.Y) {
		for x := range max(0, s.Bounds().Dx()-size.X) {
			at := image.Rect(x, y, x+size.X, y+size.Y)
			if s.variance(at) < contrast*all.variance || s.correlation(at.Min, few) < alike/2 {
				continue
			}
			if how := s.correlation(at.Min, all); how >= alike {
				found = append(found, match{at, how})
			}
		}
	}
	slices.SortFunc(found, func(a, b match) int { return cmp.Compare(b.how, a.how) })
	var best []image.Rectangle
	for _, m := range found {
		if !slices.ContainsFunc(best, m.at.Overlaps) {
			best = append(best, m.at)
		}
	}
	return best
}

// samples are pixels of a lettering: where they are in it, and how far from their mean.
type samples struct {
	at       []image.Point
	value    []float64
	variance float64
}

// sampled takes one of some pixels, inside the border that blur left blank.
func sampled(letters *image.Gray, oneOf int) samples {
	var s samples
	var mean float64
	b := letters.Bounds()
	for y := 1; y < b.Dy()-1; y++ {
		for x := 1 + (y*7)%oneOf; x < b.Dx()-1; x += oneOf {
			v := float64(letters.GrayAt(x, y).Y)
			s.at, s.value = append(s.at, image.Pt(x, y)), append(s.value, v)
			mean += v
		}
	}
	mean /= float64(len(s.at))
	for i := range s.value {
		s.value[i] -= mean
		s.variance += s.value[i] * s.value[i] / float64(len(s.at))
	}
	return s
}

// correlation is the square of how samples go with the screen at a place, 0 to 1.
func (s *screen) correlation(at image.Point, of samples) float64 {
	var sum, squares, cross float64
	for i, p := range of.at {
		v := float64(s.Pix[(at.Y+p.Y)*s.Stride+at.X+p.X])
		sum += v
		squares += v * v
		cross += v * of.value[i]
	}
	n := float64(len(of.at))
	own := squares/n - sum*sum/n/n
	if own <= 0 {
		return 0
	}
	return cross * cross / n / n / own / of.variance
}

// changed is the part of the pixels, 0 to 1, that differ between two pictures of one size within an area.
func changed(a, b *screen, area image.Rectangle) float64 {
	n := 0
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if d := int(a.GrayAt(x, y).Y) - int(b.GrayAt(x, y).Y); d > 8 || d < -8 {
				n++
			}
		}
	}
	return float64(n) / float64(area.Dx()*area.Dy())
}
