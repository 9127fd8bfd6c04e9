package day

import (
	"cmp"
	"context"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/place"
	"eavelight/plan/say"
)

// ByHand is the day as somebody arranges it. The plan is the one that the day was placed from, with the scenes named changed:
// pinned elsewhere, in another space, longer. They stay where they are pinned, or where they were. The others are held where
// they were; what is met makes way, just as far as it must: what was before moves earlier, what was after moves later, told
// apart by the middles. Scenes pinned by hand don't. A scene that finds no room so, or no light that it must have, is left to
// the search, which may leave it out.
//
// What comes back is the plan with all that (its pins, those held among them) and the day that it gives: the same that Place
// gives, but that Place may find room for a scene that was left out before. The problem says why it can't be; then there is
// no day. It is quick: next to nothing is left to search.
func (d Day) ByHand(p *plan.Plan, scenes ...plan.ID) (plan.Plan, Day, *plan.Problem) {
	out := p.Clone()
	if d.made == nil {
		return out, d, &plan.Problem{Code: plan.LeftOutUnknown, Level: plan.Warning, Facts: []any{""}}
	}
	d.Hold(&out)
	m := d.handModel(&out, scenes)
	d.makeWay(m, scenes, &out)
	m = d.handModel(&out, scenes)
	if m.problem.Validate() != nil {
		return out, d, &plan.Problem{Code: plan.TooManyHours, Level: plan.Warning, Facts: []any{place.MaxLimits}}
	}
	for _, id := range scenes {
		i := m.index(id)
		if i >= 0 && !m.ever(i) {
			why := m.whyNever(i)
			return out, d, &why
		}
	}
	d.leaveOut(m, scenes)
	for _, s := range d.Scenes {
		if i := m.index(s.Scene); i >= 0 {
			m.problem.Hint = append(m.problem.Hint, i)
		}
	}
	ctx := context.Background()
	r, err := look(ctx, m.problem, handLooks)
	if err != nil {
		why := warning(plan.LeftOutUnknown, "")
		return out, d, &why
	}
	day := Day{Date: d.Date, Number: d.Number, Of: d.Of, Zone: d.Zone, Sky: d.Sky, Windows: d.Windows}
	m.read(r, &day)
	day.made.clashes = map[int]place.Conflict{}
	if why := d.against(ctx, m, day.made, scenes); why != nil {
		return out, d, why
	}
	day.LeftOut = slices.Clone(m.idle)
	for i, s := range m.scenes {
		if r.Start[i] < 0 {
			day.LeftOut = append(day.LeftOut, LeftOut{Scene: s.ID, Why: warning(plan.LeftOutUnknown, s.Name())})
		}
	}
	day.Problems = m.warnings(&day)
	return out, day, nil
}

// Hold holds the scenes of the day where they are, in a plan; those pinned by hand stay pinned. Call it on a Clone.
func (d Day) Hold(p *plan.Plan) {
	for _, s := range d.Scenes {
		if sc := p.SceneAt(s.Scene); sc != nil && !sc.PinnedOn(d.Date) && !d.left(*sc) {
			sc.Pin = d.pin(s.Start)
		}
	}
}

// left tells that a scene is pinned to another day of the shoot, and so has left this one.
func (d Day) left(s plan.Scene) bool {
	return d.Of > 1 && s.Pin.Start.IsSet() && !s.Pin.Held && !s.Pin.Date.IsZero() && s.Pin.Date != d.Date
}

// handLooks is the search's effort for what is left to it while a hand moves.
const handLooks = rankLooks

// pin holds a scene at a time on the day.
func (d Day) pin(start time.Time) plan.Pin {
	return plan.Pin{Date: d.pinDate(), Start: plan.ClockOn(d.Date, start, d.Zone), Held: true}
}

// pinDate is the date that a pin made on this day is for: where there is no other, it holds on any.
func (d Day) pinDate() plan.Date {
	if len(Candidates(d.made.whole)) > 1 {
		return d.Date
	}
	return plan.Date{}
}

// handModel is the model of what is on this day of a changed plan. The light is looked up where the change left it alone.
func (d Day) handModel(p *plan.Plan, changed []plan.ID) *model {
	whole := p
	gone := func(s plan.Scene) bool {
		_, here := d.made.plan.Scene(s.ID)
		return !here && !slices.Contains(changed, s.ID) || d.left(s)
	}
	if slices.ContainsFunc(p.Scenes, gone) {
		own := p.Clone()
		removeScenes(&own, gone)
		p = &own
	}
	m := buildModel(p, d.Sky, d.Date, grid(p, d.Sky, d.Date), func(s plan.Scene) light.Score {
		if was, ok := d.made.plan.Scene(s.ID); ok && was.Space == s.Space {
			return d.made.score(s)
		}
		return d.Sky.Score(s)
	})
	m.whole = whole
	return m
}

// index is a scene's place in the model, or -1.
func (m *model) index(id plan.ID) int {
	return slices.IndexFunc(m.scenes, func(s plan.Scene) bool { return s.ID == id })
}

// leaveOut keeps out of a placement the scenes that are not on the day and were not put there: what is left to search would
// be too much for a hand. When the plan is placed, one of them may find room all the same.
func (d Day) leaveOut(m *model, moved []plan.ID) {
	for i, s := range m.scenes {
		if _, was := d.Placed(s.ID); !was && !slices.Contains(moved, s.ID) {
			m.problem.Scenes[i].Light = slices.Repeat([]int64{place.Forbidden}, m.problem.Slots)
		}
	}
}

// against says what keeps a scene that was moved, or one that was on the day and is pinned by hand, out of a placement.
func (d Day) against(ctx context.Context, m *model, made *made, moved []plan.ID) *plan.Problem {
	for i, s := range m.scenes {
		_, was := d.Placed(s.ID)
		byHand := was && s.PinnedOn(m.date) && !s.Pin.Held
		if made.result.Start[i] >= 0 || !byHand && !slices.Contains(moved, s.ID) {
			continue
		}
		words := say.That("beside the others, the day would break its rules: how long it may be, its meals, or somebody's hours")
		if c, err := place.Clash(&effort{ctx, handLooks}, m.problem, i, nil); err == nil && c.Kind == place.Alone {
			words = say.That("it does not fit into the day, because of %s", m.ruleAgainst(ctx, m.problem, i))
		} else if names := m.pinnedAt(i, made.result.Start); len(names) > 0 {
			words = say.Count(len(names), "scene %[2]s is pinned there", "scenes %[2]s are pinned there", say.Names(names))
		}
		why := warning(plan.PinForbidden, s.Name(), s.Pin.Start.String(), words)
		return &why
	}
	return nil
}

// pinnedAt names the scenes pinned by hand that a scene at its pin meets, with the kit's way to them.
func (m *model) pinnedAt(i int, starts []int) (names []string) {
	block := func(j, start int) (from, to int) {
		return start - m.problem.Scenes[j].Setup, start + m.problem.Scenes[j].Shoot
	}
	from, to := block(i, m.sky.MinuteAt(m.scenes[i].Pin.Start)/m.grid)
	for j, s := range m.scenes {
		if j == i || !s.PinnedOn(m.date) || s.Pin.Held || starts[j] < 0 {
			continue
		}
		a, b := block(j, starts[j])
		way := m.problem.Moves[m.problem.Scenes[i].Space][m.problem.Scenes[j].Space]
		if from < b+way && a < to+way {
			names = append(names, s.Name())
		}
	}
	slices.SortFunc(names, plan.ByNumber)
	return names
}

// item is something on the day that makes way, or doesn't: a scene with its set-up, or a meal. In slots.
type item struct {
	scene           int // place in the model; -1 is a meal
	from, start, to int
	fixed           bool
}

func (i item) at(from int) item {
	by := from - i.from
	i.from, i.start, i.to = i.from+by, i.start+by, i.to+by
	return i
}

// makeWay moves the held scenes out of the way of those that were changed, and lets go those that find no room.
func (d Day) makeWay(m *model, changed []plan.ID, p *plan.Plan) {
	items := d.items(m, changed)
	for {
		moved, stuck := m.pushed(items)
		if stuck < 0 {
			items = moved
			break
		}
		if i := items[stuck].scene; i >= 0 {
			p.SceneAt(m.scenes[i].ID).Pin = plan.Pin{}
		}
		items = slices.Delete(items, stuck, stuck+1)
	}
	for _, it := range items {
		if it.scene >= 0 && !it.fixed {
			p.SceneAt(m.scenes[it.scene].ID).Pin = d.pin(m.time(it.start))
		}
	}
}

// items are the scenes and meals of the day in the order of their middles.
func (d Day) items(m *model, changed []plan.ID) []item {
	var out []item
	slot := func(t time.Time) int { return int(t.Sub(d.Sky.Start)/time.Minute) / m.grid }
	for i, s := range m.scenes {
		if !s.PinnedOn(m.date) {
			continue
		}
		of, start := m.problem.Scenes[i], m.sky.MinuteAt(s.Pin.Start)/m.grid
		out = append(out, item{i, start - of.Setup, start, start + of.Shoot, !s.Pin.Held || slices.Contains(changed, s.ID)})
	}
	for _, meal := range d.Meals {
		from := slot(meal.From)
		out = append(out, item{-1, from, from, from + m.problem.Meal.Length, false})
	}
	slices.SortStableFunc(out, func(a, b item) int { return cmp.Compare(a.from+a.to, b.from+b.to) })
	return out
}

// gap is how many slots the kit's way between the scenes around the gap before an item takes: before a meal none, for the meal
// comes first.
func (m *model) gap(items []item, k int) int {
	if items[k].scene < 0 {
		return 0
	}
	for j := k - 1; j >= 0; j-- {
		if items[j].scene >= 0 {
			return m.problem.Moves[m.problem.Scenes[items[j].scene].Space][m.problem.Scenes[items[k].scene].Space]
		}
	}
	return 0
}

// setup is the set-up of an item: none right after a scene with its lighting in its space.
func (m *model) setup(items []item, k int) int {
	if items[k].scene >= 0 && k > 0 && items[k-1].scene >= 0 && m.shareLighting(items[k-1].scene, items[k].scene) {
		return 0
	}
	return items[k].start - items[k].from
}

// pushed moves items as far as they must, later from the front and then earlier from the back. stuck is the place of one that
// still has no room, or -1.
func (m *model) pushed(items []item) (out []item, stuck int) {
	out = slices.Clone(items)
	first, last := m.problem.Earliest+m.problem.Prepare, m.problem.Latest-m.problem.PackUp
	end := first
	for k := range out {
		spare := out[k].start - out[k].from - m.setup(out, k) // of a set-up that is not needed
		if need := end + m.gap(out, k) - spare; !out[k].fixed && out[k].from < need {
			out[k] = out[k].at(need)
		}
		end = out[k].to
	}
	bound := last
	for k := len(out) - 1; k >= 0; k-- {
		if !out[k].fixed && out[k].to > bound {
			out[k] = out[k].at(bound - (out[k].to - out[k].from))
		}
		bound = out[k].start - m.setup(out, k) - m.gap(out, k)
	}
	end = first
	for k, it := range out {
		late := it.start-m.setup(out, k) < end+m.gap(out, k)
		switch {
		case late && !it.fixed:
			return out, k
		case late && k > 0 && !out[k-1].fixed:
			return out, k - 1
		case it.scene >= 0 && it.start != items[k].start && !m.mayStart(it.scene, it.start):
			return out, k
		}
		end = it.to
	}
	return out, -1
}

// mayStart tells whether a scene could start at a slot if it were not pinned.
func (m *model) mayStart(i, slot int) bool {
	s := m.scenes[i]
	s.Pin = plan.Pin{}
	return slot >= 0 && slot < m.problem.Slots &&
		!slices.ContainsFunc(m.bars(s, m.scores[i]), func(b bar) bool { return !b.allows(slot * m.grid) })
}

// Offer is the shoot as the search would have it if the scenes that are only held were let go, on the same dates; ok is false
// where none is held, or it loses no less worth telling.
func Offer(ctx context.Context, p *plan.Plan, shoot Shoot) (better Shoot, ok bool, err error) {
	if !slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return s.Pin.Held }) || len(shoot.Days) == 0 || shoot.Days[0].made == nil {
		return Shoot{}, false, nil
	}
	free := p.Clone()
	free.LetGo()
	if len(shoot.Days) == 1 && p.Shooting.DayCount() == 1 {
		var d Day
		d, err = PlaceAgain(ctx, &free, shoot.Days[0].Date, shoot.Days[0])
		better = Shoot{Days: []Day{d}, Gap: d.Gap, Status: d.Status}
	} else {
		var dates []plan.Date
		for _, d := range shoot.Days {
			dates = append(dates, d.Date)
		}
		better, err = PlaceShoot(ctx, &free, dates)
	}
	if err != nil || len(better.Days) == 0 || better.Days[0].made == nil {
		return Shoot{}, false, err
	}
	return better, noticeable(shoot.Total()-better.Total(), shoot.Total()), nil
}
