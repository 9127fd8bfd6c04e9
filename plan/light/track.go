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
	nodes    []ray
}

const nodeStep = 6 * time.Hour

// NewTrack prepares a track from from to to. Asked outside, it still answers, extrapolating.
func NewTrack(p plan.Position, from, to time.Time) *Track {
	t := &Track{observer: newObserver(p), start: from}
	count := max(3, int(to.Sub(from)/nodeStep)+2)
	t.nodes = make([]ray, count)
	for i := range t.nodes {
		r := apparentSun(from.Add(time.Duration(i) * nodeStep))
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

func (t *Track) ray(at time.Time) ray {
	x := float64(at.Sub(t.start)) / float64(nodeStep)
	mid := min(max(int(math.Round(x)), 1), len(t.nodes)-2)
	a, b, c := t.nodes[mid-1], t.nodes[mid], t.nodes[mid+1]
	n := x - float64(mid)
	return ray{
		hourAngle:   parabola(a.hourAngle, b.hourAngle, c.hourAngle, n),
		declination: parabola(a.declination, b.declination, c.declination, n),
		distance:    b.distance,
	}
}

// parabola interpolates between three equidistant values, n counted from the middle one (Meeus (3.3)).
func parabola(a, b, c, n float64) float64 {
	return b + n/2*(c-a+n*(a+c-2*b))
}
