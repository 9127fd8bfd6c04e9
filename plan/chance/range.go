package chance

import (
	"fmt"
	"math"
	"strconv"
)

// Most is the largest figure taken, in any unit: a float64 still holds tenths there, and no sum of them grows out of hand.
const Most = 1e15

// Range is a value known as low, likely and high: a triangular distribution, whose density rises in a straight line
// from Low to Likely and falls in one to High. All three in the same unit (hours, rounds, money). Low = High is a value that is known.
//
// Source of Mean, Variance and Quantile: S. Kotz and J. R. van Dorp, Beyond Beta (2004), chapter 1 (from memory).
type Range struct {
	Low, Likely, High float64
}

// Check says in words what is wrong with the three figures, or nil.
func (r Range) Check() error {
	for _, f := range []struct {
		name  string
		value float64
	}{{"low", r.Low}, {"likely", r.Likely}, {"high", r.High}} {
		switch {
		case math.IsNaN(f.value) || math.IsInf(f.value, 0):
			return fmt.Errorf("the %s figure is not a number", f.name)
		case f.value < 0:
			return fmt.Errorf("the %s figure is %s; it cannot be less than 0", f.name, figure(f.value))
		case f.value > Most:
			return fmt.Errorf("the %s figure is %s; that is more than can be counted", f.name, figure(f.value))
		}
	}
	if r.Low > r.Likely {
		return fmt.Errorf("the low figure %s is above the likely one, %s", figure(r.Low), figure(r.Likely))
	}
	if r.Likely > r.High {
		return fmt.Errorf("the likely figure %s is above the high one, %s", figure(r.Likely), figure(r.High))
	}
	return nil
}

// Mean is the average, (a+b+c)/3. It is not Likely, unless both sides are equally long.
func (r Range) Mean() float64 {
	return r.Low + ((r.Likely-r.Low)+(r.High-r.Low))/3
}

// Variance is the mean square of what a value lies off the mean, (a²+b²+c²-ab-ac-bc)/18, in the unit squared. It is
// written as a sum of squares here, which loses nothing when the three are large and close together.
func (r Range) Variance() float64 {
	a, b, c := r.Likely-r.Low, r.High-r.Likely, r.High-r.Low
	return (a*a + b*b + c*c) / 36
}

// Quantile is the value that a share u of all values stays under, 0 <= u <= 1.
func (r Range) Quantile(u float64) float64 {
	u = min(max(u, 0), 1)
	width := r.High - r.Low
	if width == 0 || u == 1 { // known, or the end itself, which rounding could miss
		return r.High
	}
	left, right := (r.Likely-r.Low)/width, (r.High-r.Likely)/width
	if u <= left { // the bounds keep rounding from carrying one side past the other
		return min(r.Low+width*math.Sqrt(u*left), r.Likely)
	}
	return max(r.High-width*math.Sqrt((1-u)*right), r.Likely)
}

// figure writes a number for a message.
func figure(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
