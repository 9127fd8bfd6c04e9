package look

import (
	"image/color"
	"math"
)

// Luminance returns the relative luminance of an opaque colour, 0 (black) to 1 (white), as WCAG 2.2 defines it.
func Luminance(c color.Color) float64 {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	return 0.2126*linear(n.R) + 0.7152*linear(n.G) + 0.0722*linear(n.B)
}

// linear undoes the sRGB transfer curve for one channel.
func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// Contrast returns the WCAG 2.2 contrast ratio of two opaque colours, 1 (the same) to 21 (black and white).
func Contrast(a, b color.Color) float64 {
	la, lb := Luminance(a), Luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// mix goes from a (share 0) to b (share 1) in the sRGB space, opaque.
func mix(a, b color.NRGBA, share float64) color.NRGBA {
	m := func(a, b uint8) uint8 { return uint8(float64(a) + (float64(b)-float64(a))*share + 0.5) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 0xff}
}
