package light

import "math"

// The sun of half a million minutes needs its sines and arc tangents quickly, and to a millionth of a degree only. Both come
// from a table and the first terms of the series around its nearest entry.

const (
	rad = math.Pi / 180 // radians in a degree
	deg = 180 / math.Pi

	tangents = 64 // steps of the table of arc tangents
)

var (
	sines = func() (t [360 + 90 + 1]float64) {
		for i := range t {
			t[i] = math.Sin(float64(i) * rad)
		}
		return t
	}()
	arcs = func() (t [tangents + 1]float64) {
		for i := range t {
			t[i] = math.Atan(float64(i)/tangents) * deg
		}
		return t
	}()
)

// sincosOf is the sine and the cosine of an angle in degrees, to 1e-12.
func sincosOf(angle float64) (sin, cos float64) {
	whole := math.Floor(angle + 0.5)
	i := int(whole) % 360
	if i < 0 {
		i += 360
	}
	d := (angle - whole) * rad
	s, c := sines[i], sines[i+90]
	sd, cd := d*(1-d*d/6), 1-d*d*(1-d*d/12)/2
	return s*cd + c*sd, c*cd - s*sd
}

// arcOf is the direction of a point in degrees, counted from x toward y, -180..180, to 1e-9; 0 for no direction.
func arcOf(y, x float64) float64 {
	small, large := math.Abs(y), math.Abs(x)
	steep := small > large
	if steep {
		small, large = large, small
	}
	q := small / large
	if !(q <= 1) {
		return 0
	}
	i := int(q*tangents + 0.5)
	base := float64(i) / tangents
	d := (q - base) / (1 + q*base)
	a := arcs[i] + d*(1-d*d/3)*deg
	if steep {
		a = 90 - a
	}
	if x < 0 {
		a = 180 - a
	}
	if y < 0 {
		return -a
	}
	return a
}
