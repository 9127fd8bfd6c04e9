package say

import (
	"math"
	"strconv"
)

// Foot is the international foot in metres: exactly so by the agreement of 1959 (NIST SP 811, appendix B.6).
const Foot = 0.3048

// LengthUnit is the form by which a tongue is asked what its reader measures lengths in: "m", as here, or Feet.
const LengthUnit = "length unit|m"

// Feet is what a tongue says for LengthUnit whose reader measures in feet.
const Feet = "ft"

// Length is a length in metres, said in the reader's unit: "1.8 m", or "5.9 ft".
type Length float64

// In says it in a tongue.
func (l Length) In(tongue Tongue) string {
	return LengthFigure(l).In(tongue) + " " + tongue.Form(LengthUnit)
}

// RoughLength is a Length of which nobody wants more than one decimal in either unit.
type RoughLength float64

// In says it in a tongue.
func (l RoughLength) In(tongue Tongue) string {
	if tongue.Form(LengthUnit) == Feet {
		return Length(l).In(tongue)
	}
	return Length(math.Round(float64(l)*10) / 10).In(tongue)
}

// LengthFigure is a length in metres whose unit is said somewhere else: "1.8", or "5.9".
type LengthFigure float64

// In says it in a tongue.
func (l LengthFigure) In(tongue Tongue) string {
	if tongue.Form(LengthUnit) == Feet {
		return tongue.Number(FeetFigure(float64(l) / Foot))
	}
	return tongue.Number(strconv.FormatFloat(float64(l), 'f', -1, 64))
}

// FeetFigure prints a number of feet with one decimal. What would be nothing by that, and is something, keeps its first digit.
func FeetFigure(feet float64) string {
	if s := strconv.FormatFloat(feet, 'f', 1, 64); feet == 0 || s != "0.0" && s != "-0.0" {
		return s
	}
	return strconv.FormatFloat(feet, 'g', 1, 64)
}
