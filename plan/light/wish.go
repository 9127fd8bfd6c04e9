package light

import (
	"math"
	"time"

	"eavelight/plan"
)

// Score is how well each minute of a Sky fulfils one scene's wish.
type Score struct {
	Value []float64 // 0..1 for each minute, lowered by the cloud expected where the wish needs the sun itself
	Holds []bool    // whether the minute lies in the wish's window, whatever the cloud; Value may be above 0 a little outside it
}

// Score evaluates a scene's wish for every minute. A wish that lacks a figure it needs (a face, a camera bearing, windows)
// never holds; Lacks of package plan names the figure.
func (s *Sky) Score(sc plan.Scene) Score {
	if len(sc.Values) > 0 {
		return s.byClock(sc.Values)
	}
	asks, known := s.spot(sc.Space).conditions(sc.Wish)
	out := Score{Value: make([]float64, len(s.Minutes)), Holds: make([]bool, len(s.Minutes))}
	if !known {
		return out
	}
	sun := NeedsSun(sc.Wish)
	for i := range s.Minutes {
		value := worth(asks, i)
		out.Holds[i] = value == 1
		if sun {
			value *= 1 - s.Cloud(i)
		}
		out.Value[i] = value
	}
	return out
}

// byClock is a score that the plan itself says, minute by minute. It holds where there is any light.
func (s *Sky) byClock(values []plan.Value) Score {
	out := Score{Value: make([]float64, len(s.Minutes)), Holds: make([]bool, len(s.Minutes))}
	for _, v := range values {
		for i := max(0, s.MinuteAt(v.From)); i < min(len(s.Minutes), s.MinuteAt(v.To)); i++ {
			out.Value[i], out.Holds[i] = v.Share, v.Share > 0
		}
	}
	return out
}

// Windows are the stretches in which a scene's wish holds.
func (s *Sky) Windows(score Score) []plan.Span {
	return s.spans(func(i int) bool { return score.Holds[i] })
}

// Mean is the scene's light value for a shooting of some minutes that starts at a minute, and whether its window holds
// throughout. Outside the sky it is 0.
func (sc Score) Mean(start, minutes int) (value float64, holds bool) {
	if minutes <= 0 || start < 0 || start+minutes > len(sc.Value) {
		return 0, false
	}
	holds = true
	for i := start; i < start+minutes; i++ {
		value += sc.Value[i]
		holds = holds && sc.Holds[i]
	}
	return value / float64(minutes), holds
}

// Window is the window of a wish that a moment lies in, or else the nearest one. ok is false where there is none.
func Window(windows []plan.Span, t time.Time) (best plan.Span, ok bool) {
	nearest := time.Duration(math.MaxInt64)
	for _, w := range windows {
		d := max(w.From.Sub(t), t.Sub(w.To), 0)
		if d < nearest {
			best, nearest, ok = w, d, true
		}
	}
	return best, ok
}
