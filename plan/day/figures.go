package day

import (
	"cmp"
	"math"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/place"
)

// Figures are what one day is held against another by. Its loss is in the plan's own weights, whatever the day was found by.
type Figures struct {
	Date     plan.Date
	Problems plan.Problems // what kept the day from being computed: then there is nothing else
	Call     time.Time
	Wrap     time.Time
	Light    []SceneLight // of the placed scenes, in the plan's order
	Wished   plan.Minutes // of light, by all scenes of the plan together
	People   []PersonWait // of everybody called, in the plan's order
	Moves    int
	Moving   plan.Minutes // of kit
	LeftOut  []plan.ID    // in the plan's order
	Loss     Loss
	Gap      float64 // points that a better day could save at most
	Status   place.Status
}

// SceneLight is how many minutes of its light a placed scene keeps, of those it shoots.
type SceneLight struct {
	Scene plan.ID
	Kept  float64
	Of    plan.Minutes
}

// PersonWait is how long one person waits.
type PersonWait struct {
	Person plan.ID
	Waits  plan.Minutes
}

// Computed tells a day from one that says only what it lacks.
func (f Figures) Computed() bool { return !f.Date.IsZero() && len(f.Problems) == 0 }

// KeptMinutes is how many minutes of the light wished for the day keeps, over all scenes.
func (f Figures) KeptMinutes() float64 {
	sum := 0.0
	for _, s := range f.Light {
		sum += s.Kept
	}
	return sum
}

// KeptShare is that as a share of what is wished for; a scene left out keeps none.
func (f Figures) KeptShare() float64 {
	if f.Wished == 0 {
		return 0
	}
	return f.KeptMinutes() / float64(f.Wished)
}

// Waiting is how long everybody waits together.
func (f Figures) Waiting() plan.Minutes {
	sum := plan.Minutes(0)
	for _, q := range f.People {
		sum += q.Waits
	}
	return sum
}

// Length is the day from call to wrap.
func (f Figures) Length() plan.Minutes { return plan.Span{From: f.Call, To: f.Wrap}.Minutes() }

// Figures are the day's. A day that could not be computed has only its date and its problems.
func (d Day) Figures() Figures {
	f := Figures{Date: d.Date, Call: d.Call, Wrap: d.Wrap, Moves: len(d.Moves), Loss: d.Loss, Gap: d.Gap, Status: d.Status}
	if d.made == nil {
		f.Problems = d.Problems
		return f
	}
	for _, s := range d.made.plan.Scenes {
		f.Wished += s.Shoot
		if at, ok := d.Placed(s.ID); ok {
			f.Light = append(f.Light, SceneLight{s.ID, at.Kept * float64(s.Shoot), s.Shoot})
		} else {
			f.LeftOut = append(f.LeftOut, s.ID)
		}
	}
	for _, pr := range d.People {
		f.People = append(f.People, PersonWait{pr.Person, pr.Waits})
	}
	for _, m := range d.Moves {
		f.Moving += m.Minutes()
	}
	return f
}

// Difference is what one day loses more than another; below 0 it loses less.
type Difference struct {
	Points  Loss         // by the parts of the loss
	Light   []SceneLost  // minutes of light, of scenes that both days place; the largest first
	Waiting []PersonWait // minutes more, of those who wait longer or shorter; the largest first
	Moving  plan.Minutes
	Length  plan.Minutes
	Out     []plan.ID    // scenes that only the other day places
	In      []SceneLight // scenes that only this day places, with the light that they keep in it
}

// SceneLost is how many minutes of its light a scene loses more.
type SceneLost struct {
	Scene   plan.ID
	Minutes float64
}

// leastLight is what light counts as different, in minutes.
const leastLight = 0.5

// Compare tells what b loses more than a.
func Compare(a, b Figures) Difference {
	x := Difference{Points: b.Loss.less(a.Loss), Moving: b.Moving - a.Moving, Length: b.Length() - a.Length()}
	x.Out = lacking(b.LeftOut, a.LeftOut)
	x.In = slices.DeleteFunc(slices.Clone(b.Light), func(s SceneLight) bool { return !slices.Contains(a.LeftOut, s.Scene) })
	for _, s := range a.Light {
		i := slices.IndexFunc(b.Light, func(o SceneLight) bool { return o.Scene == s.Scene })
		if i < 0 {
			continue
		}
		if lost := s.Kept - b.Light[i].Kept; math.Abs(lost) >= leastLight {
			x.Light = append(x.Light, SceneLost{s.Scene, lost})
		}
	}
	for _, q := range mergePeople(a.People, b.People) {
		if q.Waits != 0 {
			x.Waiting = append(x.Waiting, q)
		}
	}
	slices.SortStableFunc(x.Light, func(s, t SceneLost) int { return cmp.Compare(math.Abs(t.Minutes), math.Abs(s.Minutes)) })
	slices.SortStableFunc(x.Waiting, func(q, r PersonWait) int { return cmp.Compare(magnitude(r.Waits), magnitude(q.Waits)) })
	return x
}

func (l Loss) less(o Loss) Loss {
	return Loss{
		l.Light - o.Light, l.Waiting - o.Waiting, l.Moves - o.Moves, l.Length - o.Length, l.Overtime - o.Overtime, l.LeftOut - o.LeftOut,
	}
}

// lacking are the ids of list that other has not.
func lacking(list, other []plan.ID) []plan.ID {
	return slices.DeleteFunc(slices.Clone(list), func(id plan.ID) bool { return slices.Contains(other, id) })
}

// mergePeople is how much longer everybody waits in b. Somebody who is not called waits for nothing.
func mergePeople(a, b []PersonWait) []PersonWait {
	out := slices.Clone(b)
	for _, q := range a {
		i := slices.IndexFunc(out, func(o PersonWait) bool { return o.Person == q.Person })
		if i < 0 {
			i = len(out)
			out = append(out, PersonWait{Person: q.Person})
		}
		out[i].Waits -= q.Waits
	}
	return out
}

func magnitude(m plan.Minutes) plan.Minutes { return max(m, -m) }
