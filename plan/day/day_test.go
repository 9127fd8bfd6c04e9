package day

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/people"
	"eavelight/plan/place"
	"eavelight/plan/store"
)

func demo(t testing.TB) *plan.Plan {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	return &p
}

func date(t testing.TB, s string) plan.Date {
	t.Helper()
	d, err := plan.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func clock(t testing.TB, s string) plan.Clock {
	t.Helper()
	c, err := plan.ParseClock(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func placed(t testing.TB, p *plan.Plan, d plan.Date) Day {
	t.Helper()
	got, err := Place(context.Background(), p, d)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// check recounts a day from the plan by plain reading, sharing no code with the package but the light's values: nobody is in
// two places, every rule of the plan is kept, and every figure is what its name says. It returns what is wrong.
func check(p *plan.Plan, d Day) (faults []string) {
	fault := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if d.Sky == nil {
		if len(d.Problems) == 0 && !d.Date.IsZero() || len(d.Scenes) > 0 {
			fault("a day without a sky says %v and has %d scenes", d.Problems, len(d.Scenes))
		}
		return faults
	}
	checkEverySceneOnce(p, d, fault)
	for i, at := range d.Scenes {
		checkScene(p, d, at, fault)
		checkSetUp(p, d, i, fault)
		checkLooks(p, d, i, fault)
		checkKit(p, d, at, fault)
		if i > 0 {
			checkGap(p, d, i, fault)
		}
	}
	checkLimits(p, d, fault)
	checkMeals(p, d, fault)
	checkPeople(p, d, fault)
	l := d.Loss
	if sum := l.Light + l.Waiting + l.Moves + l.Length + l.Overtime + l.LeftOut; math.Abs(sum-l.Total()) > 1e-9 || l.Total() < 0 {
		fault("the parts of %+v add up to %v", l, sum)
	}
	if d.Gap < 0 || d.Gap > l.Total()+1e-9 || d.Status == place.Proven && d.Gap > 0 {
		fault("%v with a gap of %v of %v", d.Status, d.Gap, l.Total())
	}
	return faults
}

type faulting = func(format string, args ...any)

func checkEverySceneOnce(p *plan.Plan, d Day, fault faulting) {
	seen := map[plan.ID]int{}
	for _, at := range d.Scenes {
		seen[at.Scene]++
	}
	for _, out := range d.LeftOut {
		seen[out.Scene]++
		if out.Why.Path == "" || out.Why.Code == "" {
			fault("scene %s is left out with %+v", out.Scene, out.Why)
		}
	}
	for _, s := range p.Scenes {
		if seen[s.ID] != 1 {
			fault("scene %s is there %d times", s.ID, seen[s.ID])
		}
		if _, ok := d.Windows[s.ID]; !ok {
			fault("scene %s has no entry in Windows", s.ID)
		}
	}
}

func checkScene(p *plan.Plan, d Day, at Placed, fault faulting) {
	s, _ := p.Scene(at.Scene)
	if at.End.Sub(at.Start) != time.Duration(s.Shoot)*time.Minute {
		fault("scene %s has %v, %v", s.ID, at.Start, at.End)
	}
	pinned := s.Pin.Start.IsSet() && (s.Pin.Date == plan.Date{} || s.Pin.Date == d.Date)
	if at.Pinned != pinned || pinned && !at.Start.Equal(plan.Instant(d.Date, s.Pin.Start, d.Zone)) {
		fault("scene %s, pinned to %v, starts at %v", s.ID, s.Pin.Start, at.Start.In(d.Zone))
	}
	if s.From.IsSet() && at.Start.Before(plan.Instant(d.Date, s.From, d.Zone)) || s.To.IsSet() && at.End.After(plan.Instant(d.Date, s.To, d.Zone)) {
		fault("scene %s at %v is outside its clock limits", s.ID, at.Start.In(d.Zone))
	}
	score, kept := d.Sky.Score(s), 0.0
	from := d.Sky.MinuteOf(at.Start)
	for i := from; i < from+int(s.Shoot); i++ {
		kept += score.Value[i]
		if s.Importance == plan.Must && !pinned && !score.Holds[i] {
			fault("scene %s, a must, is out of its light at %v", s.ID, d.Sky.Clock(i))
			break
		}
	}
	if math.Abs(kept/float64(s.Shoot)-at.Kept) > 1e-9 {
		fault("scene %s keeps %v, counted %v", s.ID, at.Kept, kept/float64(s.Shoot))
	}
	for _, before := range s.After {
		for _, other := range d.Scenes {
			if other.Scene == before && !other.Start.Before(at.Start) {
				fault("scene %s comes before %s", s.ID, before)
			}
		}
	}
	for _, id := range s.People {
		who, _ := p.Person(id)
		ready := at.Start.Add(-time.Duration(p.Shooting.Ready) * time.Minute)
		free := len(who.Availability) == 0
		stretches, _ := people.Free(who, d.Date)
		for _, f := range stretches {
			free = free || !ready.Before(plan.Instant(d.Date, f.From, d.Zone)) && !at.End.After(plan.Instant(d.Date, f.To, d.Zone))
		}
		if !free {
			fault("%s is not free for scene %s at %v", id, s.ID, at.Start.In(d.Zone))
		}
	}
}

// checkSetUp: a set-up of its own, but right after a scene with the same lighting in the same space.
func checkSetUp(p *plan.Plan, d Day, i int, fault faulting) {
	at := d.Scenes[i]
	s, _ := p.Scene(at.Scene)
	want := s.Setup
	if i > 0 && s.Lights != "" {
		if before, _ := p.Scene(d.Scenes[i-1].Scene); before.Lights == s.Lights && before.Space == s.Space {
			want = 0
		}
	}
	if at.Start.Sub(at.Setup) != time.Duration(want)*time.Minute {
		fault("scene %s has %v of set-up, want %v", s.ID, at.Start.Sub(at.Setup), want)
	}
}

// checkLooks: who wears something else than in an earlier scene had the time to change.
func checkLooks(p *plan.Plan, d Day, i int, fault faulting) {
	s, _ := p.Scene(d.Scenes[i].Scene)
	for _, l := range s.Looks {
		who, _ := p.Person(l.Person)
		for _, at := range d.Scenes[:i] {
			before, _ := p.Scene(at.Scene)
			for _, o := range before.Looks {
				if o.Person == l.Person && o.Look != l.Look && d.Scenes[i].Start.Sub(at.End) < time.Duration(who.Change)*time.Minute {
					fault("%s changes from %s to %s in %v", who.ID, o.Look, l.Look, d.Scenes[i].Start.Sub(at.End))
				}
			}
		}
	}
}

// checkKit: hired kit is there from the set-up on.
func checkKit(p *plan.Plan, d Day, at Placed, fault faulting) {
	s, _ := p.Scene(at.Scene)
	for _, k := range p.Shooting.Kit {
		if !slices.Contains(s.Kit, k.Name) || len(k.Availability) == 0 {
			continue
		}
		there := false
		for _, a := range k.Availability {
			there = there || (a.Date.IsZero() || a.Date == d.Date) && !at.Setup.Before(plan.Instant(d.Date, a.From, d.Zone)) &&
				!at.End.After(plan.Instant(d.Date, a.To, d.Zone))
		}
		if !there {
			fault("scene %s at %v is without the %s", s.ID, at.Setup.In(d.Zone), k.Name)
		}
	}
}

// checkGap: scenes do not overlap, and the drawn move fits between them beside the meals.
func checkGap(p *plan.Plan, d Day, i int, fault faulting) {
	before, after := d.Scenes[i-1], d.Scenes[i]
	a, _ := p.Scene(before.Scene)
	b, _ := p.Scene(after.Scene)
	if after.Setup.Before(before.End) {
		fault("scenes %s and %s overlap", a.ID, b.ID)
	}
	var moves []Move
	for _, m := range d.Moves {
		if !m.Span.From.Before(before.End) && !m.Span.To.After(after.Setup) {
			moves = append(moves, m)
		}
	}
	want := 1
	if a.Space == b.Space || a.Space == "" || b.Space == "" {
		want = 0
	}
	if len(moves) != want {
		fault("%d moves between %s and %s, want %d", len(moves), a.ID, b.ID, want)
		return
	}
	for _, m := range moves {
		if m.From != a.Space || m.To != b.Space || m.Minutes() != p.MoveMinutes(a.Space, b.Space) {
			fault("the move between %s and %s is %+v", a.ID, b.ID, m)
		}
		for _, meal := range d.Meals {
			if m.Span.From.Before(meal.To) && meal.From.Before(m.Span.To) {
				fault("the move %v runs into the meal %v", m.Span, meal)
			}
		}
	}
}

// checkLimits: call and wrap, and the day between them.
func checkLimits(p *plan.Plan, d Day, fault faulting) {
	r := p.Shooting
	if len(d.Scenes) == 0 {
		if len(d.Meals)+len(d.Moves)+len(d.People) > 0 || d.Length() != 0 {
			fault("an empty day has %v, %v, %v, %v", d.Meals, d.Moves, d.People, d.Length())
		}
		return
	}
	first, end := d.Scenes[0].Setup, d.Scenes[len(d.Scenes)-1].End
	for _, m := range d.Meals {
		if m.To.After(end) {
			end = m.To
		}
	}
	if first.Sub(d.Call) < time.Duration(r.Prepare)*time.Minute || d.Wrap.Sub(end) < time.Duration(r.PackUp)*time.Minute {
		fault("call %v for %v, wrap %v after %v", d.Call, first, d.Wrap, end)
	}
	latest := r.LatestWrap.Or(plan.ClockAt(24 * 60))
	if d.Call.Before(plan.Instant(d.Date, r.EarliestCall, d.Zone)) || d.Wrap.After(plan.Instant(d.Date, latest, d.Zone)) || d.Length() > r.Longest {
		fault("the day is %v to %v", d.Call.In(d.Zone), d.Wrap.In(d.Zone))
	}
}

// checkMeals: no stretch is longer than the rule from call to a meal, from a meal to the next, to the wrap; no meal meets a
// scene, and none stands before the first.
func checkMeals(p *plan.Plan, d Day, fault faulting) {
	if p.Shooting.MealLength == 0 || len(d.Scenes) == 0 {
		if len(d.Meals) > 0 {
			fault("meals %v without a rule", d.Meals)
		}
		return
	}
	within := time.Duration(p.Shooting.MealWithin) * time.Minute
	grid := min(p.Shooting.Grid, p.Shooting.MealWithin)
	apart := min(p.Shooting.MealApart, p.Shooting.MealWithin/grid*grid) // what is within comes first, in whole slots
	since := d.Call
	for _, m := range d.Meals {
		if m.From.Sub(since) > within || m.From.Before(since) || m.Minutes() < p.Shooting.MealLength {
			fault("meal %v after %v", m, since)
		}
		if since != d.Call && m.From.Sub(since) < time.Duration(apart)*time.Minute {
			fault("meal %v follows the one before after %v", m, m.From.Sub(since))
		}
		if m.From.Before(d.Scenes[0].End) {
			fault("a meal at %v before the first scene is over", m)
		}
		for _, at := range d.Scenes {
			if at.Setup.Before(m.To) && m.From.Before(at.End) {
				fault("meal %v in scene %s", m, at.Scene)
			}
		}
		since = m.To
	}
	if d.Wrap.Sub(since) > within {
		fault("wrap at %v, %v after the last meal or the call", d.Wrap, d.Wrap.Sub(since))
	}
}

// checkPeople counts everybody's minutes one by one.
func checkPeople(p *plan.Plan, d Day, fault faulting) {
	called := map[plan.ID]Presence{}
	for _, pr := range d.People {
		called[pr.Person] = pr
	}
	if len(called) != len(d.People) {
		fault("somebody is called twice: %v", d.People)
	}
	for _, who := range p.People {
		pr, ok := called[who.ID]
		var mine []Placed
		for _, at := range d.Scenes {
			if s, _ := p.Scene(at.Scene); slices.Contains(s.People, who.ID) {
				mine = append(mine, at)
			}
		}
		crew := who.Role == plan.Crew && len(d.Scenes) > 0
		if ok != (crew || len(mine) > 0) {
			fault("%s is called: %v, with %d scenes", who.ID, ok, len(mine))
		}
		if !ok {
			continue
		}
		filmed, waits := countMinutes(d, who, mine)
		if len(mine) > 0 && who.Longest > 0 && pr.Release.Sub(pr.Call) > time.Duration(max(who.Longest, p.Shooting.Ready+p.Shooting.Grid))*time.Minute && !crew {
			fault("%s is there %v to %v", who.ID, pr.Call, pr.Release)
		}
		if who.Work > 0 && filmed > max(who.Work, p.Shooting.Grid) {
			fault("%s is filmed %v of %v", who.ID, filmed, who.Work)
		}
		call := d.Call // and not before the crew
		if len(mine) > 0 {
			if early := mine[0].Start.Add(-time.Duration(p.Shooting.Ready) * time.Minute); early.After(call) {
				call = early
			}
		}
		switch {
		case crew:
			if !pr.Call.Equal(d.Call) || !pr.Release.Equal(d.Wrap) || pr.Waits != 0 || len(pr.Waiting) > 0 {
				fault("crew %s is called %v to %v, waits %v", who.ID, pr.Call, pr.Release, pr.Waits)
			}
		case !pr.Call.Equal(call) || !pr.Release.Equal(mine[len(mine)-1].End):
			fault("%s is called %v to %v for %v", who.ID, pr.Call, pr.Release, mine)
		case pr.Waits != waits:
			fault("%s waits %v, counted %v", who.ID, pr.Waits, waits)
		}
		if pr.Filmed != filmed || len(pr.OnCamera) != len(mine) {
			fault("%s is filmed %v in %d scenes, counted %v in %d", who.ID, pr.Filmed, len(pr.OnCamera), filmed, len(mine))
		}
		sum := plan.Minutes(0)
		for _, w := range pr.Waiting {
			sum += w.Minutes()
		}
		if sum != pr.Waits {
			fault("%s waits %v, drawn %v", who.ID, pr.Waits, sum)
		}
	}
}

// countMinutes walks from somebody's first scene to their last.
func countMinutes(d Day, who plan.Person, mine []Placed) (filmed, waits plan.Minutes) {
	if len(mine) == 0 {
		return 0, 0
	}
	stretches, whole := people.Free(who, d.Date)
	for t := mine[0].Start; t.Before(mine[len(mine)-1].End); t = t.Add(time.Minute) {
		in := func(s plan.Span) bool { return s.Contains(t) }
		free := whole || slices.ContainsFunc(stretches, func(f people.Stretch) bool {
			return in(plan.Span{From: plan.Instant(d.Date, f.From, d.Zone), To: plan.Instant(d.Date, f.To, d.Zone)})
		})
		switch {
		case slices.ContainsFunc(mine, func(at Placed) bool { return in(plan.Span{From: at.Start, To: at.End}) }):
			filmed++
		case free && !slices.ContainsFunc(d.Meals, in):
			waits++
		}
	}
	return filmed, waits
}

// checkLoss counts the points where the plan's minutes all lie on the grid: there the solver's slots and the plan's minutes
// are the same. The solver rounds each slot's price to a thousandth of a point.
func checkLoss(p *plan.Plan, d Day, fault faulting) {
	w, importance := p.Shooting.Weights, map[plan.Importance]float64{plan.Nice: 1, plan.Should: 2, "": 2, plan.Must: 4}
	price := map[plan.Importance]float64{plan.Nice: 1, plan.Should: 4, "": 4, plan.Must: 20}
	var want Loss
	want.Length = w.Length * float64(d.Length()) / 60
	for _, step := range p.Shooting.Overtime {
		if late := d.Length() - step.After; late > 0 {
			want.Overtime += step.Points * float64(late) / 60
		}
	}
	for _, m := range d.Moves {
		want.Moves += w.Moving * float64(m.Minutes())
	}
	for _, pr := range d.People {
		who, _ := p.Person(pr.Person)
		weight := w.Waiting * who.Weight
		if who.MinorOn(d.Date) {
			weight *= w.Minor
		}
		want.Waiting += weight * float64(pr.Waits)
	}
	for _, at := range d.Scenes {
		s, _ := p.Scene(at.Scene)
		want.Light += w.Light * importance[s.Importance] * float64(s.Shoot) * (1 - at.Kept)
	}
	for _, out := range d.LeftOut {
		if s, _ := p.Scene(out.Scene); s.Shoot > 0 {
			if s.PinnedOn(d.Date) {
				want.LeftOut += w.LeftOut * 5 * price[plan.Must] // somebody has said that it is shot then
			}
			want.LeftOut += w.LeftOut * price[s.Importance]
		}
	}
	got := reflect.ValueOf(d.Loss)
	for i := range got.NumField() {
		g, v := got.Field(i).Float(), reflect.ValueOf(want).Field(i).Float()
		if math.Abs(g-v) > 0.5 {
			fault("loss by %s is %.3f, counted %.3f", got.Type().Field(i).Name, g, v)
		}
	}
}

// judged lets the solver's own judge recount the model's placement.
func judged(p *plan.Plan, d plan.Date) error {
	zone := Zone(p)
	m := newModel(p, light.NewSky(p, zone, d), d)
	r, err := place.Solve(context.Background(), m.problem, nil)
	if err != nil {
		return err
	}
	loss, err := place.Judge(m.problem, r)
	if err == nil && loss != r.Loss {
		err = fmt.Errorf("judged %+v, solved %+v", loss, r.Loss)
	}
	return err
}

// TestDemo places the demo plan on each of its dates and recounts the days.
func TestDemo(t *testing.T) {
	p := demo(t)
	for _, d := range Candidates(p) {
		got := placed(t, p, d)
		faults := check(p, got)
		checkLoss(p, got, func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) })
		for _, f := range faults {
			t.Errorf("%s: %s", d, f)
		}
		if err := judged(p, d); err != nil {
			t.Errorf("%s: %v", d, err)
		}
		if got.Status != place.Proven || len(got.Scenes) < 10 {
			t.Errorf("%s: %v with %d scenes", d, got.Status, len(got.Scenes))
		}
	}
}
