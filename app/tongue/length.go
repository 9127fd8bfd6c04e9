package tongue

import (
	"sync/atomic"

	"eavelight/plan/say"
)

// Lengths lie in the plan in metres, whatever the window shows.

var feet atomic.Bool

// UseFeet has the window show and read lengths in feet, or in metres.
func UseFeet(on bool) { feet.Store(on) }

// Feet reports whether the window shows lengths in feet.
func Feet() bool { return feet.Load() }

// LengthUnit is the symbol of the unit that lengths are shown in, which is the same in every language.
func LengthUnit() string { return say.Tongue(lookup).Form(say.LengthUnit) }

// metresOfUnit is how long the unit is that lengths are shown in.
func metresOfUnit() float64 {
	if Feet() {
		return say.Foot
	}
	return 1
}

// InUnit is a length in metres as a number of the unit that lengths are shown in; Metres goes the other way.
func InUnit(metres float64) float64 { return metres / metresOfUnit() }

// Metres is a number of the unit that lengths are shown in, in metres.
func Metres(number float64) float64 { return number * metresOfUnit() }
