package day

import (
	"math"
	"slices"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/people"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// point is what one point of loss is to the solver, which counts in whole numbers.
const point = 1000

// How much more a scene's light and its being left out weigh, by importance. What is pinned weighs five musts more: somebody
// has said that it is shot then, and the search is not to trade it for what it thinks better.
var (
	lightFactor   = map[plan.Importance]float64{plan.Nice: 1, plan.Should: 2, plan.Must: 4}
	leftOutFactor = map[plan.Importance]float64{plan.Nice: 1, plan.Should: 4, plan.Must: 20}
)

// model is a plan on a date, put into the solver's numbers, with the way back.
type model struct {
	plan    *plan.Plan // what is on this day
	whole   *plan.Plan // the user's, which the paths of problems speak of
	date    plan.Date
	sky     *light.Sky
	grid    int // minutes a slot
	problem place.Problem
	scenes  []plan.Scene // those the solver sees, in its order
	scores  []light.Score
	people  []plan.Person // those the solver sees
	idle    []LeftOut     // scenes it does not see, because they say too little
}

func newModel(p *plan.Plan, sky *light.Sky, d plan.Date) *model {
	return buildModel(p, sky, d, grid(p, sky, d), sky.Score)
}

// buildModel takes the scores from wherever they are known.
func buildModel(p *plan.Plan, sky *light.Sky, d plan.Date, grid int, score func(plan.Scene) light.Score) *model {
	m := &model{plan: p, whole: p, date: d, sky: sky, grid: grid}
	for _, s := range p.Scenes {
		if s.Shoot <= 0 {
			why := plan.Problem{Code: plan.LackMinutesOf, Level: plan.Lack, Path: m.path(s.ID) + ".shoot", Facts: []any{s.Name()}}
			m.idle = append(m.idle, LeftOut{Scene: s.ID, Why: why})
			continue
		}
		m.scenes = append(m.scenes, s)
	}
	for _, who := range p.People {
		if slices.ContainsFunc(m.scenes, func(s plan.Scene) bool { return slices.Contains(s.People, who.ID) }) {
			m.people = append(m.people, who)
		}
	}
	m.setRules()
	m.moves()
	for _, s := range m.scenes {
		m.addScene(s, score(s))
	}
	return m
}

// with is the model of the same plan with a change, on the same date or another. The light is computed anew only where it
// can differ: on another date, or for a later wrap.
func (m *model) with(change func(*plan.Plan), date plan.Date) *model {
	p := m.plan.Clone()
	change(&p)
	if date != m.date || m.sky.MinuteAt(latestWrap(&p)) > len(m.sky.Minutes) {
		return newModel(&p, light.NewSky(&p, Zone(&p), date), date)
	}
	return buildModel(&p, m.sky, date, grid(&p, m.sky, date), m.score)
}

// score is a scene's, from what is known.
func (m *model) score(s plan.Scene) light.Score {
	i := slices.IndexFunc(m.scenes, func(o plan.Scene) bool { return o.ID == s.ID })
	if i < 0 {
		return m.sky.Score(s)
	}
	return m.scores[i]
}

// grid is the plan's grid, or a finer one where a scene is pinned between its lines: a pin is kept to the minute. The lines
// are real minutes, so a change of the clock can move a pin off them. It is never coarser than the meal rule.
func grid(p *plan.Plan, sky *light.Sky, d plan.Date) int {
	g := int(min(p.Shooting.Grid, p.Shooting.MealWithin))
	for _, s := range p.Scenes {
		if s.PinnedOn(d) {
			for b := sky.MinuteAt(s.Pin.Start); b != 0; {
				g, b = b, g%b
			}
		}
	}
	return max(g, 1)
}

// slots turns minutes into slots, rounding up: a scene never gets less time than it asks for.
func (m *model) slots(minutes plan.Minutes) int { return (int(minutes) + m.grid - 1) / m.grid }

func (m *model) time(slot int) time.Time { return m.sky.Time(slot * m.grid) }

// cost puts points into the solver's whole numbers, held within what it can add up.
func cost(points float64) int64 {
	return int64(math.Round(min(points*point, float64(place.MaxCost))))
}

// latestWrap is the plan's, or the usual one where it was taken out.
func latestWrap(p *plan.Plan) plan.Clock {
	return p.Shooting.LatestWrap.Or(plan.UsualShooting().LatestWrap)
}

func (m *model) setRules() {
	r := m.plan.Shooting
	perSlot := func(points float64) int64 { return cost(points * float64(m.grid)) }
	slots := len(m.sky.Minutes) / m.grid
	latest := min(m.sky.MinuteAt(latestWrap(m.plan))/m.grid, slots)
	m.problem = place.Problem{
		Slots:    slots,
		MoveCost: perSlot(r.Weights.Moving),
		Prepare:  m.slots(r.Prepare),
		PackUp:   m.slots(r.PackUp),
		Earliest: min(max((m.sky.MinuteAt(r.EarliestCall)+m.grid-1)/m.grid, 0), latest),
		Latest:   latest,
		Longest:  int(r.Longest) / m.grid,
		DayCost:  perSlot(r.Weights.Length / 60),
		Meal:     place.Meal{Within: int(r.MealWithin) / m.grid, Length: m.slots(r.MealLength)},
	}
	m.problem.Meal.Apart = min(m.slots(r.MealApart), m.problem.Meal.Within)
	m.setOvertime()
	m.problem.Scarce = m.scarce()
	for _, who := range m.people {
		weight := who.Weight
		switch {
		case who.Role == plan.Crew:
			weight = 0 // the crew works between the scenes
		case who.MinorOn(m.date):
			weight *= r.Weights.Minor
		}
		q := place.Person{Wait: perSlot(r.Weights.Waiting * weight), Change: m.slots(who.Change)}
		limit, _ := people.Limited(m.plan, who, m.date)
		if limit.Place > 0 { // counted from their call, which is Ready before their first scene
			q.Longest = max(1, int(limit.Place-r.Ready)/m.grid)
		}
		if limit.Work > 0 {
			q.Work = max(1, int(limit.Work)/m.grid)
		}
		m.problem.People = append(m.problem.People, q)
	}
}

// scarce is the golden and blue light of the day, which no meal should take if it can be helped.
func (m *model) scarce() []place.Span {
	e := m.sky.Events
	var out []place.Span
	for _, b := range []light.Band{
		e.MorningBand(e.BlueLow, e.BlueHigh), e.MorningBand(e.GoldenLow, e.GoldenHigh),
		e.EveningBand(e.GoldenLow, e.GoldenHigh), e.EveningBand(e.BlueLow, e.BlueHigh),
	} {
		if b.To.After(b.From) {
			out = append(out, place.Span{From: m.sky.MinuteOf(b.From) / m.grid, To: m.sky.MinuteOf(b.To)/m.grid + 1})
		}
	}
	return out
}

// setOvertime fills the table of what a long day costs on top, by its length in slots.
func (m *model) setOvertime() {
	steps := m.plan.Shooting.Overtime
	if len(steps) == 0 {
		return
	}
	m.problem.Overtime = make([]int64, m.problem.Longest+1)
	for slots := range m.problem.Overtime {
		points := 0.0
		for _, step := range steps {
			points += step.Points * float64(max(0, slots*m.grid-int(step.After))) / 60
		}
		m.problem.Overtime[slots] = cost(points)
	}
}

// moves fills the table of moves between spaces; the last row stands for scenes that name no space yet, which cost no move.
func (m *model) moves() {
	spaces := m.plan.Property.Spaces
	m.problem.Moves = make([][]int, len(spaces)+1)
	for a := range m.problem.Moves {
		m.problem.Moves[a] = make([]int, len(spaces)+1)
	}
	for a := range spaces {
		for b := range spaces {
			m.problem.Moves[a][b] = m.slots(m.plan.MoveMinutes(spaces[a].ID, spaces[b].ID))
		}
	}
}

func (m *model) addScene(s plan.Scene, score light.Score) {
	m.scores = append(m.scores, score)
	spaces := m.plan.Property.Spaces
	out := place.Scene{
		Space: len(spaces),
		Setup: m.slots(s.Setup),
		Shoot: m.slots(s.Shoot),
		Leave: m.leave(s, s.PinnedOn(m.date)),
		Light: make([]int64, m.problem.Slots),
	}
	if i := slices.IndexFunc(spaces, func(sp plan.Space) bool { return sp.ID == s.Space }); i >= 0 {
		out.Space = i
	}
	for i, who := range m.people {
		if slices.Contains(s.People, who.ID) {
			out.People = append(out.People, i)
		}
	}
	out.Looks = m.looks(s, out.People)
	if name := strings.ToLower(strings.TrimSpace(s.Lights)); name != "" {
		out.Lights = 1 + slices.IndexFunc(m.scenes, func(o plan.Scene) bool { return strings.ToLower(strings.TrimSpace(o.Lights)) == name })
	}
	for i, other := range m.scenes {
		if slices.Contains(s.After, other.ID) {
			out.After = append(out.After, i)
		}
	}
	full := m.plan.Shooting.Weights.Light * lightFactor[s.Importance.Or()] * float64(s.Shoot)
	bars := m.bars(s, score)
	for slot := range out.Light {
		start := slot * m.grid
		out.Light[slot] = place.Forbidden
		if !slices.ContainsFunc(bars, func(b bar) bool { return !b.allows(start) }) {
			value, _ := score.Mean(start, int(s.Shoot))
			out.Light[slot] = cost(full * (1 - value))
		}
	}
	m.problem.Scenes = append(m.problem.Scenes, out)
}

// leave is the price of leaving a scene out.
func (m *model) leave(s plan.Scene, pinned bool) int64 {
	factor := leftOutFactor[s.Importance.Or()]
	if pinned {
		factor += 5 * leftOutFactor[plan.Must]
	}
	return cost(m.plan.Shooting.Weights.LeftOut * factor)
}

// looks numbers what the people of a scene wear in it: the same name is the same number. It is nil where nothing is said.
func (m *model) looks(s plan.Scene, people []int) []int {
	if len(s.Looks) == 0 {
		return nil
	}
	out := make([]int, len(people))
	for x, q := range people {
		for _, l := range s.Looks {
			if l.Person == m.people[q].ID {
				out[x] = m.lookNumber(l)
			}
		}
	}
	return out
}

// lookNumber is 1 more than the first scene in which the person wears that.
func (m *model) lookNumber(look plan.Look) int {
	same := func(l plan.Look) bool {
		return l.Person == look.Person && strings.EqualFold(strings.TrimSpace(l.Look), strings.TrimSpace(look.Look))
	}
	return 1 + slices.IndexFunc(m.scenes, func(s plan.Scene) bool { return slices.ContainsFunc(s.Looks, same) })
}

// pinWords tell a scene that is pinned from one that is only held where it was.
func pinWords(s plan.Scene) say.Text {
	if s.Pin.Held {
		return say.That("it is held at %s", s.Pin.Start)
	}
	return say.That("it is pinned to %s", s.Pin.Start)
}

// bar is one thing that forbids a scene to start at some minutes, with the words for it.
type bar struct {
	allows func(start int) bool
	why    say.Text // after "scene 7 wants its light, but ..."
	light  bool     // it is the light itself
	person string   // it is this person's time
}

// bars lists what limits a scene's start, each by itself, so that one can be told from another when nothing is left.
func (m *model) bars(s plan.Scene, score light.Score) []bar {
	length := int(s.Shoot)
	var out []bar
	if s.From.IsSet() || s.To.IsSet() {
		from, to := s.From.Or(plan.ClockAt(0)), s.To.Or(plan.ClockAt(plan.LastClock))
		first, last := m.sky.MinuteAt(from), m.sky.MinuteAt(to)
		out = append(out, bar{
			allows: func(start int) bool { return start >= first && start+length <= last },
			why:    say.That("it is limited to %s-%s", from, to),
		})
	}
	if s.PinnedOn(m.date) {
		at := m.sky.MinuteAt(s.Pin.Start)
		out = append(out, bar{
			allows: func(start int) bool { return start == at },
			why:    pinWords(s),
		})
	} else if s.Importance.Or() == plan.Must {
		out = append(out, bar{
			allows: func(start int) bool { _, holds := score.Mean(start, length); return holds },
			light:  true,
		})
	}
	var cast []*plan.Person
	for i := range m.people {
		if who := &m.people[i]; slices.Contains(s.People, who.ID) {
			cast = append(cast, who)
		}
	}
	for _, who := range cast {
		if free, whole := people.Free(*who, m.date); !whole {
			// Their call, some minutes before their first scene, must lie in it too: a scene that starts sooner after they
			// are free could only be their first, so barring it for all is exact.
			b := m.times(who.Called(), freeForms, free, int(m.plan.Shooting.Ready), length)
			b.person = who.Called()
			out = append(out, b)
		}
	}
	for _, who := range cast {
		if limit, ok := people.Limited(m.plan, *who, m.date); ok {
			from, to := limit.Earliest.Or(plan.ClockAt(0)), limit.Latest.Or(plan.ClockAt(plan.LastClock))
			b := m.times(who.Called(), minorForms, []people.Stretch{{From: from, To: to}}, int(m.plan.Shooting.Ready), length)
			b.person = who.Called()
			out = append(out, b)
		}
	}
	for _, kit := range m.plan.Limited(s) {
		if there, whole := people.Times(kit.Availability, m.date); !whole {
			out = append(out, m.times(kit.Name, thereForms, there, int(s.Setup), length))
		}
	}
	return out
}

// timeForms say when somebody is free or something is there, and that it is not at all that day.
type timeForms struct{ at, never string }

var (
	freeForms  = timeForms{say.Mark("%s is free %s"), say.Mark("%s is not free that day")}
	thereForms = timeForms{say.Mark("%s is there %s"), say.Mark("%s is not there that day")}
	minorForms = timeForms{say.Mark("%s is by the table of minors' hours there %s"), say.Mark("%s is not by the table of minors' hours there that day")}
)

// times keeps a scene, and the minutes before its start, within the times at which somebody is free or something is there.
func (m *model) times(name string, forms timeForms, free []people.Stretch, before, length int) bar {
	var spans [][2]int
	var words []say.Text
	for _, f := range free {
		spans = append(spans, [2]int{m.sky.MinuteAt(f.From), m.sky.MinuteAt(f.To)})
		words = append(words, say.Plain(f.From.String()+"-"+f.To.String()))
	}
	why := say.Marked(forms.never, name)
	if len(words) > 0 {
		why = say.Marked(forms.at, name, eachAnd(words))
	}
	return bar{
		allows: func(start int) bool {
			return slices.ContainsFunc(spans, func(s [2]int) bool { return start-before >= s[0] && start+length <= s[1] })
		},
		why: why,
	}
}
