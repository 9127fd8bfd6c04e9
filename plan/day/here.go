package day

import (
	"context"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// anHour is how far a scene is moved to tell why it is where it is.
const anHour plan.Minutes = 60

// Here is why a scene is where it is: what would be lost if it were shot at least an hour earlier, or later.
type Here struct {
	Scene          plan.ID
	Earlier, Later *Shift // nil where the search could not tell
}

// Shift is the best day with one scene moved.
type Shift struct {
	Start  time.Time  // of the scene's shooting then
	Cost   Difference // what that day loses more than this one
	Proven bool       // no such day loses less; otherwise the search found none that does
	Cannot say.Text   // why there is no such day, after "cannot be, "; empty where there is one
}

// WhyHere tells for every placed scene, in the order of the day, why it is not an hour earlier or later: each is verified by
// placing the day again with the scene kept there. When the context ends, it returns the scenes done by then and the
// context's error. A day that could not be computed has none.
func (d Day) WhyHere(ctx context.Context) ([]Here, error) {
	if d.made == nil {
		return nil, nil
	}
	m, r, base := d.made.model, d.made.result, d.Figures()
	hour := m.slots(anHour)
	shifts := make([]*Shift, 2*len(r.Order))
	err := stream(ctx, len(shifts), func(n int) (*Shift, error) {
		i := r.Order[n/2]
		if n%2 == 0 {
			return d.shift(ctx, base, i, 0, r.Start[i]-hour)
		}
		return d.shift(ctx, base, i, r.Start[i]+hour, m.problem.Slots-1)
	}, func(n int, s *Shift) { shifts[n] = s })
	var out []Here
	for k, i := range r.Order {
		here := Here{m.scenes[i].ID, shifts[2*k], shifts[2*k+1]}
		if err == nil || here.Earlier != nil && here.Later != nil {
			out = append(out, here)
		}
	}
	return out, err
}

// shift places the day with a scene that starts from one slot to another. That scene may not be left out; others may, at
// their price. It is nil where the search could not tell, or the context ended.
func (d Day) shift(ctx context.Context, base Figures, i, from, to int) (*Shift, error) {
	m, later := d.made.model, from > d.made.result.Start[i]
	p := m.problem
	p.Scenes = slices.Clone(p.Scenes)
	s := &p.Scenes[i]
	s.Leave, s.Light = place.Never, only(s.Light, from, to)
	if !slices.ContainsFunc(s.Light, func(c int64) bool { return c != place.Forbidden }) {
		return &Shift{Cannot: m.whyBarred(i, from, to, later)}, nil
	}
	r, err := look(ctx, p, tellLooks)
	switch {
	case err != nil || ctx.Err() != nil:
		return nil, err
	case r.Start[i] >= 0:
		day, err := d.placedBy(r)
		if err != nil {
			return nil, err
		}
		return &Shift{Start: m.time(r.Start[i]), Cost: Compare(base, day.Figures()), Proven: r.Status == place.Proven}, nil
	case r.Bound >= place.Never:
		return &Shift{Cannot: say.That("because of %s", m.ruleAgainst(ctx, p, i))}, nil
	}
	return nil, nil
}

// placedBy makes the day of a placement that was found for other losses: what it loses is counted by the plan's own.
func (d Day) placedBy(r place.Result) (Day, error) {
	m := d.made.model
	loss, err := place.Judge(m.problem, r)
	if err != nil {
		return Day{}, err
	}
	r.Loss, r.Bound, r.Status = loss, min(d.made.result.Bound, loss.Total()), place.Within
	if r.Bound == loss.Total() {
		r.Status = place.Proven
	}
	out := Day{Date: d.Date, Zone: d.Zone, Sky: d.Sky, Windows: d.Windows}
	m.read(r, &out)
	return out, nil
}

// only forbids all starts but those from one slot to another.
func only(costs []int64, from, to int) []int64 {
	out := slices.Clone(costs)
	for t := range out {
		if t < from || t > to {
			out[t] = place.Forbidden
		}
	}
	return out
}

func (m *model) endOfDay(later bool) say.Text {
	if later {
		return say.That("the day wraps by %s", latestWrap(m.plan))
	}
	return say.That("the day has not begun then")
}

// whyBarred says why no start from one slot to another suits a scene: one thing that is against all of them, or else all
// things that are against some.
func (m *model) whyBarred(i, from, to int, later bool) say.Text {
	s := m.scenes[i]
	var some []say.Text
	for _, b := range m.bars(s, m.scores[i]) {
		allowed := 0
		for t := from; t <= to; t++ {
			if b.allows(t * m.grid) {
				allowed++
			}
		}
		words := b.why
		if b.light {
			words = m.lightEdge(i, from, to, later)
		}
		switch allowed {
		case 0:
			return words
		case to - from + 1:
		default:
			some = append(some, words)
		}
	}
	if len(some) == 0 {
		return m.endOfDay(later)
	}
	return say.Join(", ", some...)
}

// lightEdge says where the light of a scene ends, or begins, on the way to where it was to be moved.
func (m *model) lightEdge(i, from, to int, later bool) say.Text {
	kind := m.scenes[i].Wish.Kind.Or()
	near := from
	if !later {
		near = to
	}
	w, ok := light.Window(m.windowsOf(i), m.time(near))
	switch {
	case !ok:
		return say.That("its light (%s) does not come", kind)
	case later && w.To.Before(m.time(near).Add(time.Duration(m.scenes[i].Shoot)*time.Minute)):
		return say.That("its light (%s) ends at %s", kind, m.sky.Clock(m.sky.MinuteOf(w.To)))
	case !later && w.From.After(m.time(near)):
		return say.That("its light (%s) begins at %s", kind, m.sky.Clock(m.sky.MinuteOf(w.From)))
	}
	return say.That("its light (%s) does not hold for %s then", kind, m.scenes[i].Shoot)
}
