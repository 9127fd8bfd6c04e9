package light

import (
	"time"

	"eavelight/plan"

	"github.com/soniakeys/meeus/v3/base"
	"github.com/soniakeys/meeus/v3/moonillum"
	"github.com/soniakeys/meeus/v3/moonposition"
	"github.com/soniakeys/meeus/v3/nutation"
	"github.com/soniakeys/meeus/v3/solar"
)

// Moon is where the moon stands, and how much of its disc is lit (0..1).
type Moon struct {
	Altitude plan.Angle // of the disc's centre, without an atmosphere
	Azimuth  plan.Bearing
	Lit      float64
}

// MoonAt returns the moon at t: Meeus ch. 47 for its place, right to 0.05 degrees, ch. 48 for the lit share. The parallax
// that its nearness makes, nearly a degree, is taken off like the sun's.
func MoonAt(p plan.Position, t time.Time) Moon {
	const kmPerAU = 149597870
	jd, jde := days(t)
	λ, β, Δ := moonposition.Position(jde)
	T := base.J2000Century(jde)
	sunLongitude, _ := solar.True(T)
	i := moonillum.PhaseAngleEcl(λ, β, Δ, sunLongitude, solar.Radius(T)*kmPerAU)
	Δψ, Δε := nutation.Nutation(jde)
	at := newObserver(p).look(equatorial(jd, λ+Δψ, β, nutation.MeanObliquity(jde)+Δε, Δ/kmPerAU))
	return Moon{Altitude: at.Altitude, Azimuth: at.Azimuth, Lit: base.Illuminated(i)}
}
