package day

import (
	"cmp"
	"context"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/place"
)

// Shoot is a film on the days that it is shot on: one, or up to three with a rest between them.
type Shoot struct {
	Days    []Day // in the order of their dates, those with scenes; at least one
	Again   float64
	Opening float64 // points, as Again: of people who come on a further day, and of the further days
	Gap     float64 // points that the scenes could lose less if they were shared out among the days in another way, at most
	Status  place.Status
}

// Total is what the shoot loses, in points. Every day tells what is left out of the film; it counts once.
func (s Shoot) Total() float64 {
	sum := s.Again + s.Opening
	for i, d := range s.Days {
		sum += d.Loss.Total()
		if i > 0 {
			sum -= d.Loss.LeftOut
		}
	}
	return sum
}

// LeftOut are the scenes on no day, and why, by the first day.
func (s Shoot) LeftOut() []LeftOut { return s.Days[0].LeftOut }

// mostShoots is how many choices of dates are placed, the most promising ones.
const mostShoots = 4

// ChosenShoot places the plan on as many of its candidate dates as it has days, the chosen one among them, and returns the
// shoot that loses least. A plan without dates gives a day that says so. Told, if it is not nil, hears how many of the dates are
// placed so far; the days are chosen among them then.
func ChosenShoot(ctx context.Context, p *plan.Plan, told func(placed, of int)) (Shoot, error) {
	if p.Shooting.DayCount() == 1 {
		d, err := chosen(ctx, p, told)
		return Shoot{Days: []Day{d}, Gap: d.Gap, Status: d.Status}, err
	}
	days, err := candidateDays(ctx, p, told)
	if len(days) == 0 || err != nil {
		d, err := Chosen(ctx, p)
		return Shoot{Days: []Day{d}, Gap: d.Gap, Status: d.Status}, err
	}
	return BestShoot(ctx, p, days)
}

// BestShoot chooses from days that the plan was placed on, each by itself, those to share its scenes out among.
func BestShoot(ctx context.Context, p *plan.Plan, days []Day) (Shoot, error) {
	best, _ := Best(p, days)
	alone := Shoot{Days: []Day{best}, Gap: best.Gap, Status: best.Status}
	count := min(p.Shooting.DayCount(), len(days), place.MaxDays)
	if count == 1 || slices.ContainsFunc(days, func(d Day) bool { return d.made == nil }) {
		return alone, nil
	}
	choices := choose(days, count)
	if chosen := p.Shooting.Date; !chosen.IsZero() {
		choices = slices.DeleteFunc(choices, func(c []Day) bool {
			return !slices.ContainsFunc(c, func(d Day) bool { return d.Date == chosen })
		})
	}
	choices = withPinned(p, choices)
	loss := func(c []Day) (sum float64) {
		for _, d := range c {
			sum += d.Loss.Total()
		}
		return sum
	}
	slices.SortStableFunc(choices, func(a, b []Day) int { return cmp.Compare(loss(a), loss(b)) })
	choices = choices[:min(len(choices), mostShoots)]
	shoots := make([]*Shoot, len(choices))
	err := stream(ctx, len(choices), func(i int) (Shoot, error) {
		var dates []plan.Date
		for _, d := range choices[i] {
			dates = append(dates, d.Date)
		}
		return PlaceShoot(ctx, p, dates)
	}, func(i int, s Shoot) { shoots[i] = &s })
	found, pinnedElsewhere := alone, !hasPinned(p, []Day{best})
	for _, s := range shoots {
		if s != nil && (s.Total() < found.Total() || pinnedElsewhere && len(found.Days) == 1) {
			found = *s
		}
	}
	return found, err
}

// withPinned are the choices that have every date a scene is pinned to, where there are such.
func withPinned(p *plan.Plan, choices [][]Day) [][]Day {
	kept := slices.DeleteFunc(slices.Clone(choices), func(c []Day) bool { return !hasPinned(p, c) })
	if len(kept) > 0 {
		return kept
	}
	return choices
}

// hasPinned tells whether every candidate date that a scene is pinned to is among some days.
func hasPinned(p *plan.Plan, days []Day) bool {
	return !slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool {
		return s.Pin.Start.IsSet() && !s.Pin.Date.IsZero() && slices.Contains(Candidates(p), s.Pin.Date) &&
			!slices.ContainsFunc(days, func(d Day) bool { return d.Date == s.Pin.Date })
	})
}

// choose lists all ways to take some of the days.
func choose(days []Day, count int) [][]Day {
	if count == 0 {
		return [][]Day{nil}
	}
	var out [][]Day
	for i := range days {
		for _, rest := range choose(days[i+1:], count-1) {
			out = append(out, append([]Day{days[i]}, rest...))
		}
	}
	return out
}

// PlaceShoot shares the plan's scenes out among dates, and places each day. The dates are distinct, at most place.MaxDays.
func PlaceShoot(ctx context.Context, p *plan.Plan, dates []plan.Date) (Shoot, error) {
	own, dates := p.Clone(), slices.Clone(dates)
	slices.SortFunc(dates, func(a, b plan.Date) int { return cmp.Compare(a.String(), b.String()) })
	var days []Day
	var models []*model
	step := 0
	for _, date := range dates {
		d, m := begin(&own, date)
		if m == nil {
			return Shoot{Days: []Day{d}}, nil
		}
		days, models = append(days, d), append(models, m)
		step = gcd(step, m.grid)
	}
	problem := place.Days{
		Rest:    (int(own.Shooting.Rest) + step - 1) / step,
		Again:   cost(own.Shooting.Weights.Again),
		Opening: cost(own.Shooting.Weights.Day),
	}
	for i, m := range models {
		if m.grid != step {
			models[i] = buildModel(&own, m.sky, m.date, step, m.score)
		}
		problem.Days = append(problem.Days, models[i].onOneOf(dates))
		problem.Offset = append(problem.Offset, int(m.sky.Start.Sub(models[0].sky.Start)/time.Minute)/step)
	}
	r, err := place.SolveDays(ctx, problem, nil)
	if err != nil {
		return Shoot{}, err
	}
	return readShoot(ctx, r, days, models)
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// onOneOf is the problem of a day of a shoot on several dates: a scene pinned to another of them is not on this one.
func (m *model) onOneOf(dates []plan.Date) place.Problem {
	p := m.problem
	p.Scenes = slices.Clone(p.Scenes)
	for i, s := range m.scenes {
		if at := s.Pin.Date; at != m.date && slices.Contains(dates, at) {
			p.Scenes[i].Light = slices.Repeat([]int64{place.Forbidden}, p.Slots)
		}
		if slices.ContainsFunc(dates, s.PinnedOn) { // its price is one for all days
			p.Scenes[i].Leave = m.leave(s, true)
		}
	}
	return p
}

// readShoot turns the solver's answer into days. Each is the day of a plan without the scenes of the others.
func readShoot(ctx context.Context, r place.DaysResult, days []Day, models []*model) (Shoot, error) {
	s := Shoot{
		Again: float64(r.Again) / point, Opening: float64(r.Opening) / point,
		Gap: float64(r.Total()-r.Bound) / point, Status: r.Status,
	}
	used := func(one place.Result) bool { return len(one.Order) > 0 }
	for k, one := range r.Days {
		if !used(one) && (k > 0 || slices.ContainsFunc(r.Days, used)) {
			continue
		}
		m := models[k].without(func(i int) bool {
			return slices.ContainsFunc(r.Days, func(other place.Result) bool { return other.Start[i] >= 0 }) && one.Start[i] < 0
		})
		d := days[k]
		result := m.taken(one, models[k])
		result.Loss.LeftOut = r.LeftOut
		result.Bound += r.LeftOut
		m.read(result, &d)
		if err := m.explain(ctx, &d); err != nil {
			return s, err
		}
		d.Problems = append(d.Problems, m.warnings(&d)...)
		s.Days = append(s.Days, d)
	}
	for i := range s.Days {
		s.Days[i].Number, s.Days[i].Of = i+1, len(s.Days)
	}
	return s, nil
}

// without is the model of the plan without some of its scenes.
func (m *model) without(gone func(scene int) bool) *model {
	p := m.plan.Clone()
	removeScenes(&p, func(s plan.Scene) bool {
		i := slices.IndexFunc(m.scenes, func(o plan.Scene) bool { return o.ID == s.ID })
		return i >= 0 && gone(i)
	})
	out := buildModel(&p, m.sky, m.date, m.grid, m.score)
	out.whole = m.whole
	return out
}

// taken is a placement by another model's scenes in the numbers of this one.
func (m *model) taken(r place.Result, from *model) place.Result {
	number := func(i int) int {
		return slices.IndexFunc(m.scenes, func(s plan.Scene) bool { return s.ID == from.scenes[i].ID })
	}
	start := slices.Repeat([]int{-1}, len(m.scenes))
	order := make([]int, len(r.Order))
	for k, i := range r.Order {
		order[k] = number(i)
		start[order[k]] = r.Start[i]
	}
	r.Start, r.Order = start, order
	return r
}
