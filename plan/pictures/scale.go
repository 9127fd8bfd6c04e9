package pictures

import (
	"context"
	"image"
	"image/draw"
)

// Fit is the size of a picture whose longest side is to have at most so many pixels. It is never larger than it was.
func Fit(wide, high, longest int) (int, int) {
	long := max(wide, high)
	if long <= longest {
		return wide, high
	}
	scaled := func(side int) int { return max(1, (2*side*longest+long)/(2*long)) } // to the nearest
	return scaled(wide), scaled(high)
}

// shrink makes a picture smaller, on white where it is transparent. Each pixel is the mean of what it covers, to the last share of
// one: no pattern of roof tiles or blinds comes out of that, as from picking some pixels. Only a row of the source is converted at
// a time.
func shrink(ctx context.Context, src image.Image, wide, high int) (*image.RGBA, error) {
	from := src.Bounds()
	row := image.NewRGBA(image.Rect(0, 0, from.Dx(), 1))
	out := image.NewRGBA(image.Rect(0, 0, wide, high))
	columns := splits(from.Dx(), wide)
	line, sum := make([]uint32, 3*wide+3), make([]uint64, 3*wide)
	whole := uint64(from.Dx()) * uint64(from.Dy()) // what the shares of a pixel add up to
	for y, s := range splits(from.Dy(), high) {
		if y%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		draw.Draw(row, row.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(row, row.Rect, src, image.Pt(from.Min.X, from.Min.Y+y), draw.Over)
		across(line, row.Pix, columns)
		for i := range sum {
			sum[i] += uint64(line[i]) * uint64(s.share)
		}
		if !s.last {
			continue
		}
		set(out.Pix[out.PixOffset(0, s.to):], sum, whole)
		for i := range sum {
			sum[i] = uint64(line[i]) * uint64(s.rest)
		}
	}
	return out, nil
}

// part tells to which pixel of the result one of the source goes, with which shares to that one and to the next, and whether it is
// the last that goes there.
type part struct {
	to          int
	share, rest uint32
	last        bool
}

// splits tells it of each pixel of a row, or of each row, where so many become many.
func splits(of, many int) []part {
	out := make([]part, of)
	for i := range out {
		begin, end := i*many, (i+1)*many // where one pixel of the result is of wide
		to := begin / of
		border := (to + 1) * of
		out[i] = part{to, uint32(min(end, border) - begin), uint32(max(end, border) - border), end >= border}
	}
	return out
}

// across adds up a row of pixels into the pixels of the result, behind which there is room for one that gets nothing. No sum is
// more than 255 times the longest side there may be.
func across(line []uint32, pix []uint8, columns []part) {
	clear(line)
	for x, s := range columns {
		from, to := pix[4*x:4*x+3:4*x+3], line[3*s.to:3*s.to+6:3*s.to+6]
		for c, v := range from {
			to[c] += uint32(v) * s.share
			to[c+3] += uint32(v) * s.rest
		}
	}
}

// set writes a row of means.
func set(pix []uint8, sum []uint64, whole uint64) {
	for x := range len(sum) / 3 {
		for c := range 3 {
			pix[4*x+c] = uint8((sum[3*x+c] + whole/2) / whole)
		}
		pix[4*x+3] = 0xff
	}
}

// upright turns a picture as its EXIF orientation asks for: TIFF 6.0, field 274, tells where the first row and column belong.
func upright(img *image.RGBA, turn int) *image.RGBA {
	if turn <= 1 {
		return img
	}
	w, h := img.Rect.Dx(), img.Rect.Dy()
	lies := turn >= 5 // on its side: its rows are columns
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if lies {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			to := image.Pt(x, y)
			if turn == 2 || turn == 3 || turn == 7 || turn == 8 { // the first column is not at the left, or at the top
				to.X = w - 1 - x
			}
			if turn == 3 || turn == 4 || turn == 6 || turn == 7 { // the first row is not at the top, or at the left
				to.Y = h - 1 - y
			}
			if lies {
				to.X, to.Y = to.Y, to.X
			}
			copy(out.Pix[out.PixOffset(to.X, to.Y):][:4], img.Pix[img.PixOffset(x, y):][:4])
		}
	}
	return out
}
