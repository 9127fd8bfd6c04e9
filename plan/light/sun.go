package light

import (
	"math"
	"time"

	"eavelight/plan"

	"github.com/soniakeys/meeus/v3/base"
	"github.com/soniakeys/meeus/v3/deltat"
	"github.com/soniakeys/meeus/v3/julian"
	"github.com/soniakeys/meeus/v3/nutation"
	"github.com/soniakeys/meeus/v3/sidereal"
	"github.com/soniakeys/meeus/v3/solar"
	"github.com/soniakeys/unit"
)

// Sun is where the sun stands in the sky of a place.
type Sun struct {
	Altitude plan.Angle   // of the disc's centre, without an atmosphere
	Apparent plan.Angle   // of the disc's centre, as seen: lifted by refraction
	Azimuth  plan.Bearing // clockwise from true north
}

// SunRadius is the sun's mean semidiameter, 16' (Meeus ch. 15 and 55).
const SunRadius plan.Angle = 16.0 / 60

// SunAt returns the sun's place at t, seen through standard air. It is right to 0.01 degrees from 1950 to 2100 away from
// refraction's whims near the horizon.
func SunAt(p plan.Position, t time.Time) Sun {
	o := newObserver(p, nil)
	return o.look(apparentSun(t).split())
}

// ray is the sun's or the moon's place as the whole Earth sees it: its hour angle at Greenwich, its declination, both in radians, and
// its distance in astronomical units.
type ray struct{ hourAngle, declination, distance float64 }

// apparentSun computes a ray from the theory: low accuracy solar coordinates of Meeus ch. 25, with his ch. 12 for sidereal
// time. The larger pulls of Venus, Jupiter and the Moon are added to the longitude, because without them it is off by up
// to 0.01 degrees; their figures are Newcomb's as Meeus gives them in Astronomical Formulae for Calculators, ch. 18
// (from memory, held against modern ephemerides in the tests).
func apparentSun(t time.Time) ray {
	jd, jde := days(t)
	T := base.J2000Century(jde)
	λ := solar.ApparentLongitude(T) + pulls(jde)
	ε := nutation.MeanObliquity(jde) + unit.AngleFromDeg(.00256*math.Cos((125.04-1934.136*T)*math.Pi/180)) // (25.8) p. 165
	return equatorial(jd, λ, 0, ε, solar.Radius(T))
}

// equatorial turns a place by the ecliptic into a ray: Meeus (13.3) and (13.4).
func equatorial(jd float64, λ, β, ε unit.Angle, distance float64) ray {
	sλ, cλ := λ.Sincos()
	sβ, cβ := β.Sincos()
	sε, cε := ε.Sincos()
	return ray{
		hourAngle:   sidereal.Apparent(jd).Rad() - math.Atan2(sλ*cε*cβ-sβ*sε, cλ*cβ),
		declination: math.Asin(sβ*cε + cβ*sε*sλ),
		distance:    distance,
	}
}

// days counts an instant in Julian days, by the turning Earth (jd) and by the even time of the theories (jde): Meeus ch. 10.
func days(t time.Time) (jd, jde float64) {
	jd = julian.TimeToJD(t.UTC())
	year := base.JDEToJulianYear(jd)
	if year < 2000 {
		return jd, jd + 60.0/86400 // within 30 s of the truth from 1950 to 2000, worth 0.0004 degrees
	}
	return jd, jd + deltat.PolyAfter2000(year).Day()
}

// pulls is what Venus, Jupiter and the Moon add to the sun's longitude, and one long-period term.
func pulls(jde float64) unit.Angle {
	T := (jde - 2415020) / 36525 // centuries from 1900 January 0.5, as Newcomb counts
	sum := 0.0
	for _, p := range [...]struct{ amplitude, phase, speed float64 }{
		{.00134, 153.23 + 90, 22518.7541}, // Venus
		{.00154, 216.57 + 90, 45037.5082}, // Venus
		{.00200, 312.69 + 90, 32964.3577}, // Jupiter
		{.00179, 350.74, 445267.1142},     // Moon
		{.00178, 231.19, 20.20},
	} {
		sum += p.amplitude * math.Sin(math.Mod(p.phase+p.speed*T, 360)*math.Pi/180)
	}
	return unit.AngleFromDeg(sum)
}

// split is a ray as looking needs it, so that it is split once for many looks: the hour angle in degrees, the declination by
// its sine and cosine, and the parallax at the horizon in degrees (Meeus ch. 40).
func (r ray) split() splitRay {
	s, c := math.Sincos(r.declination)
	return splitRay{r.hourAngle * deg, s, c, 8.794 / 3600 / r.distance}
}

type splitRay struct{ hourAngle, sinDec, cosDec, parallax float64 }

// observer is a place prepared for looking: its latitude's sine and cosine, its longitude in degrees, and how much more
// than standard air its own refracts.
type observer struct{ sinLat, cosLat, lon, air float64 }

func newObserver(p plan.Position, air *plan.Air) observer {
	s, c := math.Sincos(p.Lat * rad)
	return observer{s, c, p.Lon, density(air)}
}

// look turns a ray into the sun's place in the observer's sky (Meeus ch. 13, with west-counted azimuth turned to north).
func (o *observer) look(r splitRay) Sun {
	sinH, cosH := sincosOf(r.hourAngle + o.lon)
	up := o.sinLat*r.sinDec + o.cosLat*r.cosDec*cosH
	west, south := sinH*r.cosDec, cosH*o.sinLat*r.cosDec-r.sinDec*o.cosLat
	level := math.Sqrt(west*west + south*south)
	altitude := arcOf(up, level) - r.parallax*level
	azimuth := arcOf(west, south) + 180
	if azimuth >= 360 {
		azimuth = 0
	}
	return Sun{
		Altitude: plan.Angle(altitude),
		Apparent: plan.Angle(altitude + o.air*standard.at(altitude)),
		Azimuth:  plan.Bearing(azimuth),
	}
}
