package draw

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
)

// ValueMark is a figure on a line of figures, with words that tell what it is.
type ValueMark struct {
	At     float64
	Label  string
	Dashed bool // so that two marks differ by more than their words
}

// values is a line of figures laid along a width.
type values struct {
	from, to float64
	x, width float32
}

// over makes the line that holds all the figures, with some air at both ends. Of none it is empty.
func over(x, width float32, figures ...float64) values {
	if len(figures) == 0 {
		return values{x: x, width: width, to: 1}
	}
	v := values{slices.Min(figures), slices.Max(figures), x, width}
	air := (v.to - v.from) * 0.04
	if air == 0 { // one figure: in the middle
		air = math.Max(1, math.Abs(v.from)*0.1)
	}
	v.from, v.to = v.from-air, v.to+air
	return v
}

func (v values) at(figure float64) float32 {
	share := (figure - v.from) / (v.to - v.from)
	return v.x + v.width*float32(min(max(share, 0), 1))
}

// countable reports a figure that a drawing can place: a number, and not so large that its differences are none.
func countable(figure float64) bool { return math.Abs(figure) <= 1e18 } // false for what is no number

// countableMarks are the marks that can be placed.
func countableMarks(marks []ValueMark) []ValueMark {
	return slices.DeleteFunc(slices.Clone(marks), func(m ValueMark) bool { return !countable(m.At) })
}

// paintFigures writes the figures of a scale under their places, as many as there is room for.
func paintFigures(p *pieces, th fyne.Theme, v values, marks []ValueMark, y float32) {
	f, c := small(th), look.Of(th)
	var labels []label
	for i, m := range marks {
		labels = append(labels, label{mid: v.at(m.At), width: f.measure(m.Label).Width, rank: i})
	}
	x, placed := spread(labels, v.x, v.x+v.width, 2*th.Size(theme.SizeNamePadding))
	for i, m := range marks {
		if at := v.at(m.At); placed[i] {
			p.line(at, y, at, y+4, 1, c.Muted)
			p.text(m.Label, x[i], y+4, labels[i].width+1, f, c.Muted)
		}
	}
}

// paintMarks draws marks from their words at the top down to a bottom: each in a row of its own, the words on the side of the
// line that is away from the other marks, if there is room.
func paintMarks(p *pieces, th fyne.Theme, v values, marks []ValueMark, top, bottom float32) {
	f, c, gap := small(th).bold(), look.Of(th), th.Size(theme.SizeNamePadding)
	sorted := slices.SortedStableFunc(slices.Values(marks), func(a, b ValueMark) int {
		if a.At < b.At {
			return -1
		}
		return 1
	})
	row := 0
	for i, m := range sorted {
		at, width := v.at(m.At), f.measure(m.Label).Width
		left, right := at-gap-v.x, v.x+v.width-at-gap
		before := i < len(sorted)/2 // the words stand before the line
		if before && width > left && right > left || !before && width > right && left > right {
			before = !before
		}
		y := top + float32(row)*f.height()
		row++
		if before {
			p.textRight(m.Label, at-gap, y, left, f, c.Ink)
		} else {
			p.text(m.Label, at+gap, y, right, f, c.Ink)
		}
		paintMark(p, at, y, bottom, m.Dashed, c)
	}
}

func paintMark(p *pieces, x, top, bottom float32, dashed bool, c *look.Palette) {
	if !dashed {
		p.line(x, top, x, bottom, 2, c.Accent)
		return
	}
	const on, off = 5, 4
	for y := top; y < bottom; y += on + off {
		p.line(x, y, x, min(y+on, bottom), 2, c.Accent)
	}
}
