package light

import (
	"math"
	"time"

	"eavelight/plan"
)

// Daylight is the light that falls on a level surface, in lux: from the sun itself, and from the rest of the sky.
type Daylight struct{ Sun, Sky float64 }

// Total is the light of both, in lux.
func (d Daylight) Total() float64 { return d.Sun + d.Sky }

// DaylightAt is the light outdoors on open level ground by the sun's airless altitude, the date and the share of the sky that
// is covered (0..1), without the moon and lamps.
//
// By day it is the model of the Illuminating Engineering Society's Recommended Practice for the Calculation of Daylight
// Availability (IES RP-21; Journal of the IES, July 1984): the sun 127.5 klx at the mean distance, dimmed by exp(-0.21/sin h)
// of clear air; the sky 0.8 + 15.5 sqrt(sin h) klx clear and 0.3 + 21 sin h klx overcast. Between clear and overcast it is
// mixed by the cloud. Below the horizon it fades as in Janiczek & DeYoung, Computer Programs for Sun and Moon Illuminance,
// US Naval Observatory Circular 171 (1987). The figures are from memory and agree with stored programs that cite both.
// A real sky easily gives half or double.
func DaylightAt(altitude plan.Angle, d plan.Date, cloud float64) Daylight {
	cloud = min(max(cloud, 0), 1)
	sin := max(math.Sin(float64(altitude)*math.Pi/180), 0)
	clear, overcast := 800+15500*math.Sqrt(sin), 300+21000*sin
	out := Daylight{Sky: (clear*(1-cloud) + overcast*cloud) * fading(altitude)}
	if sin > 0 {
		day := time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC).YearDay()
		orbit := 1 + 0.034*math.Cos(2*math.Pi*float64(day-2)/365)
		out.Sun = 127500 * orbit * math.Exp(-0.21/sin) * sin * (1 - cloud)
	}
	return out
}

// fading is how the light falls from 1 as the sun sinks under the horizon, to that of the stars at -18 degrees: the ratios
// of the logarithms' polynomials in Circular 171.
func fading(altitude plan.Angle) float64 {
	x := max(float64(altitude), -18) / 90
	var a, b, c, d float64
	switch {
	case x >= 0:
		return 1
	case x > -0.8/90:
		a, b, c, d = 2.88, 22.26, -207.64, 1034.30
	case x > -5.0/90:
		a, b, c, d = 2.88, 21.81, -258.11, -858.36
	case x > -12.0/90:
		a, b, c, d = 2.70, 12.17, -431.69, -1899.83
	default:
		a, b, c, d = 13.84, 262.72, 1447.42, 2797.93
	}
	return math.Pow(10, a-2.88+x*(b+x*(c+x*d)))
}

// ExposureValue is the exposure value at ISO 100 for a light in lux on the subject: the base-two logarithm of lux * 100 / 250,
// with the calibration of a flat receptor, C = 250 (ISO 2720).
func ExposureValue(lux float64) float64 { return math.Log2(lux * 100 / 250) }

// windowShare is what reaches the middle of a usual room of the light of the open sky: common practice, no published source.
// Rooms differ by ten times.
const windowShare = 0.02

// Daylight is the light on level ground in a space at a minute, by the cloud expected. Outdoors it is the sky's, and the
// sun's while it reaches the space; indoors the share of the sky's light that is usual in the middle of a room, and
// the sun's for a subject who stands in the patch, while there is one.
func (s *Sky) Daylight(space plan.ID, minute int) Daylight {
	if !s.within(minute) {
		return Daylight{}
	}
	at := s.spot(space)
	out := DaylightAt(s.Minutes[minute].Altitude, s.Events.Date, s.Cloud(minute))
	if at.space.Kind == plan.Indoor {
		out.Sky *= windowShare
	}
	if !at.sunlit(minute) {
		out.Sun = 0
	}
	return out
}
