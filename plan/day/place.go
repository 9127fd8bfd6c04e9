package day

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/place"
)

// Place computes the day of a plan on a date. A plan that lacks what it takes gives a day without scenes whose Problems say
// what is missing. An ended context gives the best day found by then, or its error when there is none yet.
func Place(ctx context.Context, p *plan.Plan, date plan.Date) (Day, error) {
	return PlaceAgain(ctx, p, date, Day{})
}

// PlaceAgain is Place after an edit: the search begins with the order of the day before it, which changes only how fast it is.
func PlaceAgain(ctx context.Context, p *plan.Plan, date plan.Date, before Day) (Day, error) {
	own := p.Clone() // what explains the day on demand must not see later changes
	d, m := begin(&own, date)
	if m == nil {
		return d, nil
	}
	for _, s := range before.Scenes {
		if i := slices.IndexFunc(m.scenes, func(o plan.Scene) bool { return o.ID == s.Scene }); i >= 0 {
			m.problem.Hint = append(m.problem.Hint, i)
		}
	}
	r, err := place.Solve(ctx, m.problem, nil)
	if err != nil {
		return d, err
	}
	m.read(r, &d)
	if err := m.explain(ctx, &d); err != nil {
		return d, err
	}
	d.Problems = append(d.Problems, m.warnings(&d)...)
	return d, nil
}

// begin makes the model of a plan on a date, and the day with its light. Where there can be no day, the model is nil and the
// day's Problems say why.
func begin(p *plan.Plan, date plan.Date) (Day, *model) {
	d := Day{Date: date, Number: 1, Of: 1, Zone: time.UTC}
	if wrong := plan.Validate(*p).At(plan.Wrong); len(wrong) > 0 {
		d.Problems = wrong
		return d, nil
	}
	zone, lacks := siteLacks(p)
	d.Zone, d.Problems = zone, lacks
	if len(lacks) > 0 || date.IsZero() {
		return d, nil
	}
	if n := len(p.Scenes); n > place.MaxScenes {
		d.Problems = plan.Problems{warning(plan.TooManyScenes, n, place.MaxScenes)}
		return d, nil
	}
	d.Sky = light.NewSky(p, zone, date)
	m := newModel(p, d.Sky, date)
	d.Windows = map[plan.ID][]plan.Span{}
	for i, s := range m.scenes {
		d.Windows[s.ID] = d.Sky.Windows(m.scores[i])
	}
	for _, out := range m.idle {
		s, _ := p.Scene(out.Scene)
		d.Windows[s.ID] = d.Sky.Windows(d.Sky.Score(s))
	}
	switch err := m.problem.Validate(); { // what a valid plan can ask too much of
	case errors.Is(err, place.ErrLimits):
		d.Problems = plan.Problems{warning(plan.TooManyHours, place.MaxLimits)}
		return d, nil
	case err != nil:
		d.Problems = plan.Problems{warning(plan.TooManyPeople)}
		return d, nil
	}
	return d, m
}

// siteLacks says what the light at the address cannot do without.
func siteLacks(p *plan.Plan) (*time.Location, plan.Problems) {
	var lacks plan.Problems
	if p.Property.Position == nil && p.NeedsSun() {
		lacks = append(lacks, plan.Problem{Code: plan.LackPosition, Level: plan.Lack, Path: "property.position"})
	}
	zone, err := time.LoadLocation(p.Property.Zone)
	if err != nil || p.Property.Zone == "" && p.NeedsSun() {
		lacks = append(lacks, plan.Problem{Code: plan.LackZone, Level: plan.Lack, Path: "property.zone"})
		zone = time.UTC
	}
	return zone, lacks
}

// Zone is the time zone at the property, UTC where none is set.
func Zone(p *plan.Plan) *time.Location {
	zone, _ := siteLacks(p)
	return zone
}

// Candidates are the dates that a day can be on: those proposed, and the chosen one where it is not among them.
func Candidates(p *plan.Plan) []plan.Date {
	dates := slices.Clone(p.Shooting.Dates)
	if chosen := p.Shooting.Date; !chosen.IsZero() && !slices.Contains(dates, chosen) {
		dates = append(dates, chosen)
	}
	return dates
}

// Dates places the plan on every candidate date, on all cores, and hands the days over in the order of the candidates, each as
// soon as it can be. When the context ends, the days under way are handed over as far as they came, and the error is the
// context's.
func Dates(ctx context.Context, p *plan.Plan, each func(Day)) error {
	return DatesAgain(ctx, p, nil, each)
}

// DatesAgain is Dates after an edit: the search of each date begins with the order that the day had before it.
func DatesAgain(ctx context.Context, p *plan.Plan, before []Day, each func(Day)) error {
	again := func(date plan.Date) Day {
		for _, d := range before {
			if d.Date == date {
				return d
			}
		}
		return Day{}
	}
	dates := Candidates(p)
	days := make([]*Day, len(dates))
	next := 0
	return stream(ctx, len(dates), func(i int) (Day, error) { return PlaceAgain(ctx, p, dates[i], again(dates[i])) }, func(i int, d Day) {
		days[i] = &d
		for ; next < len(days) && days[next] != nil; next++ {
			each(*days[next])
		}
	})
}

// Best is the day to show: the one on the date that the plan has chosen, or else the one that loses least, the earlier of
// equals. ok is false where there is no day.
func Best(p *plan.Plan, days []Day) (best Day, ok bool) {
	for _, d := range days {
		if d.Date == p.Shooting.Date {
			return d, true
		}
		if !ok || d.Loss.Total() < best.Loss.Total() {
			best, ok = d, true
		}
	}
	return best, ok
}

// Chosen places the plan on its chosen date, or on every candidate to find the best. A plan without dates gives a day
// that says so. An ended context gives the best of the days found by then, or its error when there is none yet.
func Chosen(ctx context.Context, p *plan.Plan) (Day, error) { return chosen(ctx, p, nil) }

func chosen(ctx context.Context, p *plan.Plan, told func(placed, of int)) (Day, error) {
	if !p.Shooting.Date.IsZero() {
		return Place(ctx, p, p.Shooting.Date)
	}
	days, err := candidateDays(ctx, p, told)
	if best, ok := Best(p, days); ok {
		return best, nil
	}
	if err != nil {
		return Day{}, err
	}
	d, err := Place(ctx, p, plan.Date{})
	d.Problems = append(d.Problems, plan.Problem{Code: plan.LackDates, Level: plan.Lack, Path: "shooting.dates"})
	return d, err
}

// candidateDays are the days on the candidate dates, as Dates hands them over.
func candidateDays(ctx context.Context, p *plan.Plan, told func(placed, of int)) (days []Day, err error) {
	if told == nil {
		told = func(placed, of int) {}
	}
	of := len(Candidates(p))
	told(0, of)
	err = Dates(ctx, p, func(d Day) {
		days = append(days, d)
		told(len(days), of)
	})
	return days, err
}

// read turns the solver's answer into the day.
func (m *model) read(r place.Result, d *Day) {
	d.made = &made{model: m, result: r}
	d.Call, d.Wrap = m.time(r.Call), m.time(r.Wrap)
	d.Status = r.Status
	d.Gap = float64(r.Loss.Total()-r.Bound) / point
	d.Loss = inPoints(r.Loss)
	for _, meal := range r.Meals {
		d.Meals = append(d.Meals, plan.Span{From: m.time(meal.From), To: m.time(meal.To)})
	}
	for k, i := range r.Order {
		s := m.placed(i, r.Start[i])
		if k > 0 && m.shareLighting(r.Order[k-1], i) {
			s.Setup = s.Start
		}
		d.Scenes = append(d.Scenes, s)
	}
	d.Flights = m.flights(d)
	m.addMoves(d)
	m.addPeople(d)
}

// inPoints turns the solver's whole numbers back into points.
func inPoints(l place.Loss) Loss {
	return Loss{
		Light:    float64(l.Light) / point,
		Waiting:  float64(l.Waiting) / point,
		Moves:    float64(l.Moves) / point,
		Length:   float64(l.Length) / point,
		Overtime: float64(l.Overtime) / point,
		LeftOut:  float64(l.LeftOut) / point,
	}
}

func (m *model) placed(i, slot int) Placed {
	s := m.scenes[i]
	kept, _ := m.scores[i].Mean(slot*m.grid, int(s.Shoot))
	start := m.time(slot)
	return Placed{
		Scene:  s.ID,
		Setup:  start.Add(-time.Duration(s.Setup) * time.Minute),
		Start:  start,
		End:    start.Add(time.Duration(s.Shoot) * time.Minute),
		Kept:   kept,
		Pinned: s.PinnedOn(m.date) && !s.Pin.Held,
		Held:   s.PinnedOn(m.date) && s.Pin.Held,
	}
}

// shareLighting says that a scene right after another needs no set-up of its own.
func (m *model) shareLighting(before, after int) bool {
	a, b := &m.problem.Scenes[before], &m.problem.Scenes[after]
	return a.Lights != 0 && a.Lights == b.Lights && a.Space == b.Space
}

// addMoves puts each move right after the scene before it, or after the meal that follows that scene.
func (m *model) addMoves(d *Day) {
	for i := 1; i < len(d.Scenes); i++ {
		a, _ := m.plan.Scene(d.Scenes[i-1].Scene)
		b, _ := m.plan.Scene(d.Scenes[i].Scene)
		if a.Space == b.Space || a.Space == "" || b.Space == "" {
			continue
		}
		from := d.Scenes[i-1].End
		for _, meal := range d.Meals {
			if !meal.From.Before(from) && meal.To.Before(d.Scenes[i].Setup.Add(time.Minute)) {
				from = meal.To
			}
		}
		took := time.Duration(m.plan.MoveMinutes(a.Space, b.Space)) * time.Minute
		d.Moves = append(d.Moves, Move{From: a.Space, To: b.Space, Span: plan.Span{From: from, To: from.Add(took)}})
	}
}

func (m *model) path(id plan.ID) string {
	return fmt.Sprintf("scenes[%d]", slices.IndexFunc(m.whole.Scenes, func(s plan.Scene) bool { return s.ID == id }))
}
