package light

import (
	"iter"
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
			r.hourAngle += 360 * math.Round((t.nodes[i-1].hourAngle+90-r.hourAngle)/360)
		}
		t.nodes[i] = r
	}
	return t
}

// At returns the sun's place at a moment.
func (t *Track) At(at time.Time) Sun { return t.observer.look(t.ray(t.steps(at))) }

// Minutes goes through the sun's places minute by minute, faster than At for each.
func (t *Track) Minutes(from time.Time, count int) iter.Seq2[int, Sun] {
	return func(yield func(int, Sun) bool) {
		first := t.steps(from)
		for i := range count {
			if !yield(i, t.observer.look(t.ray(first+float64(i)*float64(time.Minute)/float64(nodeStep)))) {
				return
			}
		}
	}
}

// steps counts a moment in nodes.
func (t *Track) steps(at time.Time) float64 { return float64(at.Sub(t.start)) / float64(nodeStep) }

func (t *Track) ray(x float64) splitRay {
	mid := min(max(int(x+0.5), 1), len(t.nodes)-2)
	near := t.nodes[mid-1 : mid+2]
	a, b, c := &near[0], &near[1], &near[2]
	n := x - float64(mid)
	before, after := n*(n-1)/2, n*(n+1)/2 // Lagrange's form of the parabola (Meeus (3.3)), shared by the three
	middle := 1 - n*n
	return splitRay{
		hourAngle: before*a.hourAngle + middle*b.hourAngle + after*c.hourAngle,
		sinDec:    before*a.sinDec + middle*b.sinDec + after*c.sinDec,
		cosDec:    before*a.cosDec + middle*b.cosDec + after*c.cosDec,
		parallax:  b.parallax,
	}
}
