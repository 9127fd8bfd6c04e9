package look

import (
	"image/color"
	"math"
)

// skyStop is the colour of a clear sky overhead and low down, for one altitude of the sun in degrees.
type skyStop struct {
	altitude float64
	zenith   color.NRGBA
	horizon  color.NRGBA
}

// skyStops are our own choice by eye; only the altitudes have a meaning: the ends of the twilights (-18, -12, -6), the
// horizon, and the usual end of golden light (+6).
var skyStops = []skyStop{
	{-18, hex(0x0A0F24), hex(0x10172F)},
	{-12, hex(0x121B3F), hex(0x27315C)},
	{-8, hex(0x1A2A5C), hex(0x55558A)},
	{-6, hex(0x22386F), hex(0x80658F)},
	{-4, hex(0x304B84), hex(0xB67A80)},
	{-1, hex(0x466596), hex(0xE9986A)},
	{2, hex(0x5D80AE), hex(0xF6B568)},
	{6, hex(0x7599C6), hex(0xF8D08E)},
	{12, hex(0x79A6D8), hex(0xE9DDBE)},
	{25, hex(0x74ABE0), hex(0xCCDFEC)},
	{60, hex(0x79B2EA), hex(0xC4DEF3)},
}

// TagOpacity is that of a Casing ground under a word in Curve over the sky.
const TagOpacity = 0.75

// Sky returns the colour of a clear sky overhead and at the horizon when the sun's centre is at an altitude in degrees. It
// changes without a jump; beyond full night and high noon, and for NaN, it stays what it was.
func Sky(altitude float64) (zenith, horizon color.NRGBA) {
	last := len(skyStops) - 1
	if !(altitude > skyStops[0].altitude) {
		return skyStops[0].zenith, skyStops[0].horizon
	}
	for i, s := range skyStops[:last] {
		next := skyStops[i+1]
		if altitude < next.altitude {
			share := (altitude - s.altitude) / (next.altitude - s.altitude)
			return mix(s.zenith, next.zenith, share), mix(s.horizon, next.horizon, share)
		}
	}
	return skyStops[last].zenith, skyStops[last].horizon
}

// SkyAt returns the colour of the sky at a height between the horizon (0) and overhead (1): most of the change is low down.
func SkyAt(zenith, horizon color.NRGBA, height float64) color.NRGBA {
	return mix(horizon, zenith, math.Sqrt(max(0, min(1, height))))
}
