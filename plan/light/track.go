package light

import (
	"math"
	"time"

	"eavelight/plan"
)

// Track gives the sun's place over a stretch of time many times faster than SunAt: the slow part, the sun's place as the
// whole Earth sees it, is computed every six hours and a parabola laid through three such nodes (Meeus ch. 3, second
// differences; the third differences left out stay under a thousandth of an arc second).
type Track struct {
	observer observer
	start    time.Time
	nodes    []splitRay
}

const nodeStep = 6 * time.Hour

// NewTrack prepares a track from from to to at a property whose position is set. Asked outside, it still answers,
// extrapolating.
func NewTrack(h plan.Property, from, to time.Time) *Track {
	t := &Track{observer: newObserver(*h.Position, h.Air), start: from}
	count := max(3, int(to.Sub(from)/nodeStep)+2)
	t.nodes = make([]splitRay, count)
	for i := range t.nodes {
		r := apparentSun(from.Add(time.Duration(i) * nodeStep)).split()
		if i > 0 { // keep the hour angle rising, a quarter turn a step
			before := t.nodes[i-1].hourAngle
			r.hourAngle += 2 * math.Pi * math.Round((before+math.Pi/2-r.hourAngle)/(2*math.Pi))
		}
		t.nodes[i] = r
	}
	return t
}

// At returns the sun's place at a moment.
func (t *Track) At(at time.Time) Sun { return t.observer.look(t.ray(at)) }

func (t *Track) ray(at time.Time) splitRay {
	x := float64(at.Sub(t.start)) / float64(nodeStep)
	mid := min(max(int(x+0.5), 1), len(t.nodes)-2)
	a, b, c := &t.nodes[mid-1], &t.nodes[mid], &t.nodes[mid+1]
	n := x - float64(mid)
	return splitRay{
		hourAngle: parabola(a.hourAngle, b.hourAngle, c.hourAngle, n),
		sinDec:    parabola(a.sinDec, b.sinDec, c.sinDec, n),
		cosDec:    parabola(a.cosDec, b.cosDec, c.cosDec, n),
		distance:  b.distance,
	}
}

// parabola interpolates between three equidistant values, n counted from the middle one (Meeus (3.3)).
func parabola(a, b, c, n float64) float64 {
	return b + n/2*(c-a+n*(a+c-2*b))
}
