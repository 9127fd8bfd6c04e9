package light

import (
	"math"
	"strconv"

	"eavelight/plan"
	"eavelight/plan/say"
)

// LampAt is the light of a lamp on its subject, in lux: the rated light by the inverse square of the distances, halved by
// each stop that the modifier takes. A lamp whose distances were not said gives none.
func LampAt(l plan.Lamp) float64 {
	if !(l.Rated > 0) || !(l.Subject > 0) {
		return 0
	}
	ratio := float64(l.Rated / l.Subject)
	return l.Lux * ratio * ratio * math.Exp2(-l.Loss)
}

// Against is a lamp held against the light that is there anyway.
type Against struct {
	Lux     float64     // of the lamp, on the subject
	Subject plan.Metres // from it
	Ambient float64     // lux
	Called  say.Text    // what that light is: "the window light"
	Stops   float64     // the lamp is over the ambient light, below 0 under it
}

// LampHolds holds a lamp against an ambient light in lux, which is called so in sentences.
func LampHolds(l plan.Lamp, ambient float64, called say.Text) Against {
	lux := LampAt(l)
	return Against{Lux: lux, Subject: l.Subject, Ambient: ambient, Called: called, Stops: math.Log2(lux / max(ambient, 1e-6))}
}

// Holds reports whether the lamp gives at least as much as the ambient light, so that it can lead: common practice, no
// published source. Small lamps seldom do by day.
func (a Against) Holds() bool { return a.Stops >= 0 }

// String says it with numbers, in English.
func (a Against) String() string { return a.In(nil) }

// In says it with numbers.
func (a Against) In(tongue say.Tongue) string { return a.said().In(tongue) }

func (a Against) said() say.Text {
	lamp, from, ambient := lux(a.Lux), say.RoughLength(a.Subject), lux(a.Ambient)
	switch {
	case a.Lux <= 0:
		return say.That("the lamp gives no light as it is described")
	case math.Abs(a.Stops) < 0.05:
		return say.That("the lamp gives %s lux at %s, %s %s lux: as much", lamp, from, a.Called, ambient)
	case a.Stops < 0:
		return say.That("the lamp gives %s lux at %s, %s %s lux: %.1f stops under", lamp, from, a.Called, ambient, -a.Stops)
	}
	return say.That("the lamp gives %s lux at %s, %s %s lux: %.1f stops over", lamp, from, a.Called, ambient, a.Stops)
}

// lux prints a light by two digits, as nobody can foretell more.
func lux(v float64) say.Text {
	if v <= 0 {
		return say.Number("0")
	}
	unit := math.Pow(10, math.Floor(math.Log10(v))-1)
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(math.Round(v/unit)*unit, 'g', 2, 64), 64)
	return say.Number(strconv.FormatFloat(rounded, 'f', -1, 64))
}

// Lamp holds a scene's lamp against the light of its space at a minute. ok is false where the scene has none, or the
// minute lies outside the sky.
func (s *Sky) Lamp(sc plan.Scene, minute int) (a Against, ok bool) {
	if sc.Lamp == nil || !s.within(minute) {
		return Against{}, false
	}
	light := s.Daylight(sc.Space, minute)
	called := say.That("lit by|the daylight")
	switch indoor := s.spot(sc.Space).space.Kind == plan.Indoor; {
	case light.Sun > 0 && indoor:
		called = say.That("lit by|the sun in the room")
	case light.Sun > 0:
		called = say.That("lit by|the sun")
	case indoor:
		called = say.That("lit by|the window light")
	}
	return LampHolds(*sc.Lamp, light.Total(), called), true
}
