package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
	"eavelight/app/tongue"
)

// Axis is the stretch of time that the rows of a page share, and the room beside it. Values compare; a zero axis puts
// everything at Left.
type Axis struct {
	From, To    time.Time
	Zone        *time.Location // of the hour labels; nil is UTC
	Left, Right float32        // room in Fyne units for names before the plot and for totals after it
}

// Span is an interval of time with a few words about it.
type Span struct {
	From, To time.Time
	Label    string
}

// Mark is a moment with a few words about it.
type Mark struct {
	At    time.Time
	Label string
}

// hour is one hour line of an axis.
type hour struct {
	at    time.Time
	label string // wall clock, "07:00" or "7 am"
}

// X returns where a moment stands in a widget of a width; moments outside the axis get the x they would have on a longer one.
func (a Axis) X(t time.Time, width float32) float32 {
	whole := a.To.Sub(a.From)
	if whole <= 0 {
		return a.Left
	}
	return a.Left + float32(t.Sub(a.From).Seconds()/whole.Seconds())*a.plot(width)
}

// Time returns the moment that stands at an x, to the second; it undoes X.
func (a Axis) Time(x, width float32) time.Time {
	plot := a.plot(width)
	if plot <= 0 {
		return a.From
	}
	seconds := float64((x-a.Left)/plot) * a.To.Sub(a.From).Seconds()
	return a.From.Add(time.Duration(seconds * float64(time.Second))).Round(time.Second)
}

// plot is the width of the part that time runs over, never negative.
func (a Axis) plot(width float32) float32 { return max(0, width-a.Left-a.Right) }

// clampX is X brought inside the plot.
func (a Axis) clampX(t time.Time, width float32) float32 {
	return max(a.Left, min(a.Left+a.plot(width), a.X(t, width)))
}

// shown is the part of a span inside the plot; ok is false when there is none.
func (a Axis) shown(s Span, width float32) (x0, x1 float32, ok bool) {
	x0, x1 = a.clampX(s.From, width), a.clampX(s.To, width)
	return x0, x1, x1 > x0
}

// hours returns the whole hours on the wall clock, every one, second, third, fourth or sixth so that neighbours stay a gap
// apart. On the day a clock is set back an hour shows twice, as it does on the wall; on the day it is set forward one is missing.
func (a Axis) hours(width, gap float32) []hour {
	perHour := a.plot(width) / float32(max(a.To.Sub(a.From).Hours(), 1e-6))
	every := 1
	for _, n := range []int{1, 2, 3, 4, 6, 12} {
		every = n
		if perHour*float32(n) >= gap {
			break
		}
	}
	var list []hour
	for t := nextHour(a.in(a.From).Add(-time.Nanosecond)); !t.After(a.To) && len(list) < 100; t = nextHour(t) {
		if t.Hour()%every == 0 {
			list = append(list, hour{t, tongue.FullHour(t)})
		}
	}
	return list
}

func (a Axis) in(t time.Time) time.Time {
	if a.Zone == nil {
		return t.UTC()
	}
	return t.In(a.Zone)
}

// nextHour returns the next moment after t at which the wall clock shows a whole hour. A zone may change its clock by less
// than an hour, so one step may land beside the hour and the next one corrects it.
func nextHour(t time.Time) time.Time {
	for {
		past := time.Duration(t.Minute())*time.Minute + time.Duration(t.Second())*time.Second + time.Duration(t.Nanosecond())
		t = t.Add(time.Hour - past)
		if t.Minute() == 0 && t.Second() == 0 {
			return t
		}
	}
}

// Gutter returns the room that the widest of some names or totals needs beside the plot, with its gap, in the current
// theme's text size; never more than a fifth of a 1280 wide window, beyond which names are cut.
func Gutter(texts ...string) float32 {
	const most = 256
	widest := float32(0)
	for _, s := range texts {
		widest = max(widest, fyne.MeasureText(s, theme.TextSize(), fyne.TextStyle{}).Width)
	}
	return min(most, widest+3*theme.Padding())
}

// drawHours puts an hour line through a height for each hour of the axis.
func (a Axis) drawHours(p *pieces, c *look.Palette, width, top, height float32) {
	for _, h := range a.hours(width, hourGap()) {
		p.rect(a.X(h.at, width), top, 1, height, c.Rule)
	}
}

// hourGap is the least distance of two hour labels, which all rows must agree on.
func hourGap() float32 {
	return fyne.MeasureText(tongue.FullHour(midnight), theme.CaptionTextSize(), fyne.TextStyle{}).Width + 2*theme.Padding()
}

// midnight is the hour whose label is as wide as any.
var midnight time.Time
