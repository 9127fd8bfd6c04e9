package light

import (
	"math"
	"time"

	"eavelight/plan"

	"github.com/soniakeys/meeus/v3/base"
	"github.com/soniakeys/meeus/v3/moonillum"
	"github.com/soniakeys/meeus/v3/moonposition"
	"github.com/soniakeys/meeus/v3/nutation"
	"github.com/soniakeys/meeus/v3/solar"
	"github.com/soniakeys/unit"
)

// Moon is where the moon stands, and how much of its disc is lit (0..1).
type Moon struct {
	Altitude plan.Angle // of the disc's centre, without an atmosphere
	Azimuth  plan.Bearing
	Radius   plan.Angle // half its apparent width
	Lit      float64
}

// MoonAt returns the moon at t: Meeus ch. 47 for its place, right to 0.05 degrees, ch. 48 for the lit share, ch. 55 for its
// radius. The parallax that its nearness makes, nearly a degree, is taken off like the sun's.
func MoonAt(p plan.Position, t time.Time) Moon {
	o := newObserver(p, nil)
	return moonFrom(&o, t)
}

func moonFrom(o *observer, t time.Time) Moon {
	const kmPerAU = 149597870
	jd, jde := days(t)
	λ, β, Δ := moonposition.Position(jde)
	T := base.J2000Century(jde)
	sunLongitude, _ := solar.True(T)
	i := moonillum.PhaseAngleEcl(λ, β, Δ, sunLongitude, solar.Radius(T)*kmPerAU)
	Δψ, Δε := nutation.Nutation(jde)
	at := o.look(equatorial(jd, λ+Δψ, β, nutation.MeanObliquity(jde)+Δε, Δ/kmPerAU).split())
	radius := unit.Angle(math.Asin(.272481 * 6378.14 / Δ))
	return Moon{Altitude: at.Altitude, Azimuth: at.Azimuth, Radius: plan.Angle(radius.Deg()), Lit: base.Illuminated(i)}
}

// Moon is the moon at a minute of the sky.
func (s *Sky) Moon(minute int) Moon {
	if s.house.Position == nil {
		return Moon{Altitude: noSun}
	}
	return MoonAt(*s.house.Position, s.Time(minute))
}

// MoonDay is the moon of one civil day, from midnight to midnight at the property.
type MoonDay struct {
	Rise, Set time.Time // of the upper limb over the free horizon; zero where it does not come that day
	Up        bool      // at the day's first moment
	Lit       float64   // at 21:00, for the evening's scenes
}

// MoonDayOf computes the moon of a date at a property, whose position must be set. It rises about 50 minutes later each
// day, so once a month a day has no moonrise, and another no moonset; in high latitudes many days in a row have neither.
func MoonDayOf(h plan.Property, zone *time.Location, d plan.Date) MoonDay {
	const step = 10 * time.Minute
	o := newObserver(*h.Position, h.Air)
	horizon := -horizonRefraction*plan.Angle(o.air) - Dip(h)
	over := func(t time.Time) plan.Angle {
		m := moonFrom(&o, t)
		return m.Altitude + m.Radius - horizon
	}
	start, end := plan.Instant(d, plan.ClockAt(0), zone), plan.Instant(d.AddDays(1), plan.ClockAt(0), zone)
	out := MoonDay{Up: over(start) >= 0, Lit: moonFrom(&o, plan.Instant(d, plan.ClockAt(21*60), zone)).Lit}
	up := out.Up
	for from := start; from.Before(end); {
		to := from.Add(step)
		if to.After(end) {
			to = end
		}
		if then := over(to) >= 0; then != up {
			at := turning(from, to, func(t time.Time) bool { return over(t) >= 0 }).Round(time.Second)
			if then && out.Rise.IsZero() {
				out.Rise = at
			}
			if !then && out.Set.IsZero() {
				out.Set = at
			}
			up = then
		}
		from = to
	}
	return out
}

// turning finds by bisection the moment between two at which something that differs at both changes.
func turning(from, to time.Time, is func(time.Time) bool) time.Time {
	first := is(from)
	for to.Sub(from) > 100*time.Millisecond {
		if mid := from.Add(to.Sub(from) / 2); is(mid) == first {
			from = mid
		} else {
			to = mid
		}
	}
	return to
}
