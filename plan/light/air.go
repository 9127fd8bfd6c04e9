package light

import (
	"math"

	"eavelight/plan"

	"github.com/soniakeys/meeus/v3/refraction"
	"github.com/soniakeys/unit"
)

// RiseAltitude is the centre's airless altitude at sunrise and sunset over a level horizon in standard air: 34' of refraction
// and 16' of radius (US Naval Observatory, Rise, Set, and Twilight Definitions).
const RiseAltitude = -horizonRefraction - SunRadius

const horizonRefraction plan.Angle = 34.0 / 60

// RiseAltitudeOf is the centre's airless altitude at sunrise and sunset at a property: RiseAltitude, with refraction by its
// air and lower by the dip of its horizon.
func RiseAltitudeOf(h plan.Property) plan.Angle {
	return -horizonRefraction*plan.Angle(density(h.Air)) - SunRadius - Dip(h)
}

// Dip is how far under the horizontal the free horizon of a property lies: nothing over land, 1.76' times the square root
// of the eye's height in metres over the sea (The Nautical Almanac, altitude correction tables; Bowditch, The American
// Practical Navigator, table 14; from memory). Average refraction is in it.
func Dip(h plan.Property) plan.Angle {
	if !h.SeaHorizon || h.Elevation <= 0 {
		return 0
	}
	return plan.Angle(1.76 / 60 * math.Sqrt(float64(h.Elevation)))
}

// density is how much more than standard air (1010 hPa, 10 C) an air refracts: Meeus ch. 16, p. 107; the same in equation
// 42 of Reda & Andreas, NREL/TP-560-34302. Figures no air can have count as standard.
func density(a *plan.Air) float64 {
	if a == nil || !(a.Pressure > 0) || !(a.Temperature > -273) {
		return 1
	}
	return a.Pressure / 1010 * 283 / (273 + a.Temperature)
}

// Refraction is what air adds to an airless altitude (Saemundsson, Meeus (16.4)); a nil air is standard. Below -1 degree,
// where the formula is not meant to be used and nothing is seen any more, it fades out toward -5.
func Refraction(airless plan.Angle, air *plan.Air) plan.Angle {
	h := max(airless, -1)
	r := plan.Angle(max(refraction.Saemundsson(unit.AngleFromDeg(float64(h))).Deg(), 0))
	return r * min(max((airless+5)/4, 0), 1) * plan.Angle(density(air))
}

// refractions tabulates Refraction in standard air by altitude, because the sun of half a million minutes is looked up in
// it. Between two entries it runs straight, which is right to 0.00001 degrees.
type refractions [(90+5)*refractionSteps + 2]float64

const refractionSteps = 32 // a degree

var standard = func() (t refractions) {
	for i := range t {
		t[i] = float64(Refraction(plan.Angle(i)/refractionSteps-5, nil))
	}
	return t
}()

// at returns the refraction at an airless altitude in degrees.
func (t *refractions) at(altitude float64) float64 {
	x := (altitude + 5) * refractionSteps
	if !(x > 0) {
		return 0
	}
	i := min(int(x), len(t)-2)
	return t[i] + (x-float64(i))*(t[i+1]-t[i])
}
