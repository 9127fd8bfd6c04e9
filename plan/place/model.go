package place

import (
	"cmp"
	"math/bits"
	"slices"
)

// inf is more than any loss: 64 scenes at MaxCost a slot for a whole day stay far below it.
const inf = int64(1) << 61

// model is a Problem made ready for the search: sets as machine words, starts clipped to the day, meals as plain numbers.
type model struct {
	p      *Problem
	scenes []sceneModel
	groups []group // people who share their scenes
	limits []limit // people who may stay only so long
	modes  []mode  // the ways in which a scene can leave the set behind
	open   uint64  // scenes that have any start at all
	fixed  uint64  // of them, those that are not left out
	shut   int64   // what the others cost, left out
	due    []int   // open scenes by their latest end
	parts  []part  // the open scenes in small lots, for bounds
	cheap  []int   // open scenes by their price a slot

	apart [][]int16 // by two scenes: slots from the end of the one to the shooting of the other, for looks; nil if none.
	// A change goes on while the crew idles, eats or moves, so the tables, which do not know for how long, leave it out.
	change int   // the most of apart
	ends   []int // scratch of addStay

	grain int64 // every loss is a multiple of it, but for prices of Never

	within, meals int // the meal rule; without one, within is out of reach and meals is 0
}

type sceneModel struct {
	light  []int64 // by start, Forbidden where the scene cannot start on any legal day
	next   []int   // the first permitted start from a slot on, or len(light)
	over   []int   // the earliest end if set-up begins no earlier than a slot, or len(light) + Shoot
	who    uint64  // groups of people
	stay   uint64  // limits of people
	before uint64  // scenes that must come before it
	setup  int     // the least set-up: none if another scene may leave its lighting
	dur    int     // that and the shooting
	last   int     // latest start
	end    int     // latest end
	mode   int     // in which it leaves the set behind
	looks  int     // the first scene after which the same changes follow
	enter  step    // the least way to it from another open scene
}

// step is what lies between a scene and the next: the slots of moving, and those with the set-up after it.
type step struct {
	move, lead int16
}

// mode is what matters of a scene for the kit's way to the next: where it is and what lighting stands. Scenes in one mode
// have the same steps to all others.
type mode struct {
	space int
	steps []step // by next scene
}

func newModel(p *Problem) *model {
	m := &model{p: p, scenes: make([]sceneModel, len(p.Scenes))}
	for i := range p.Scenes {
		m.scenes[i] = newSceneModel(p, i)
		if m.scenes[i].last >= 0 {
			m.open |= 1 << i
			m.due = append(m.due, i)
		} else {
			m.shut += p.Scenes[i].Leave
		}
	}
	for g, group := range waitingGroups(*p) {
		m.groups = append(m.groups, group)
		for i := range each(group.scenes) {
			m.scenes[i].who |= 1 << g
		}
	}
	for x, l := range limits(*p) {
		m.limits = append(m.limits, l)
		for i := range each(l.scenes) {
			m.scenes[i].stay |= 1 << x
		}
	}
	m.addLooks()
	m.addModes()
	slices.SortStableFunc(m.due, func(a, b int) int { return m.scenes[a].end - m.scenes[b].end })
	m.cheap = slices.Clone(m.due)
	slices.SortStableFunc(m.cheap, func(a, b int) int {
		return cmp.Compare(p.Scenes[a].Leave*int64(m.scenes[b].dur), p.Scenes[b].Leave*int64(m.scenes[a].dur))
	})
	m.within = 4 * MaxSlots
	if p.Meal.Length > 0 {
		m.within = p.Meal.Within
		m.meals = max(0, (min(p.Longest, p.Latest-p.Earliest)-1)/p.Meal.Within)
	}
	m.parts = newParts(m)
	m.grain = p.grain()
	return m
}

// settled says that no scene has more than one start, as while a hand moves one of them: what is left to find is the meals, and
// what to leave out.
func (m *model) settled() bool {
	return !slices.ContainsFunc(m.due, func(j int) bool { return m.scenes[j].next[0] < m.scenes[j].last })
}

// grain is the greatest number that divides all costs but Never.
func (p *Problem) grain() int64 {
	g := int64(0)
	take := func(c int64) {
		for c > 0 && c != Never {
			g, c = c, g%c
		}
	}
	take(p.MoveCost)
	take(p.DayCost)
	for _, q := range p.People {
		take(q.Wait)
	}
	for _, c := range p.Overtime {
		take(c)
	}
	for i := range p.Scenes {
		take(p.Scenes[i].Leave)
		for _, c := range p.Scenes[i].Light {
			take(c)
		}
	}
	return max(g, 1)
}

func newSceneModel(p *Problem, i int) sceneModel {
	s := &p.Scenes[i]
	m := sceneModel{
		light: make([]int64, p.Slots), next: make([]int, p.Slots+1), over: make([]int, p.Slots+1), setup: s.Setup, last: -1,
	}
	for j, other := range p.Scenes {
		if j != i && s.Lights != 0 && other.Lights == s.Lights && other.Space == s.Space {
			m.setup = 0
		}
	}
	m.dur = m.setup + s.Shoot
	for _, a := range s.After {
		m.before |= 1 << a
	}
	earliest, latest := p.Earliest+p.Prepare+m.setup, p.Latest-p.PackUp-s.Shoot
	if p.Prepare+m.dur+p.PackUp > p.Longest || p.tooLong(i) {
		latest = -1
	}
	for t, c := range s.Light {
		m.light[t] = Forbidden
		if c != Forbidden && earliest <= t && t <= latest {
			m.light[t], m.last, m.end = c, t, t+s.Shoot
		}
	}
	m.next[p.Slots] = p.Slots
	for t := p.Slots - 1; t >= 0; t-- {
		m.next[t] = m.next[t+1]
		if m.light[t] != Forbidden {
			m.next[t] = t
		}
	}
	for setup := range m.over {
		m.over[setup] = m.next[min(setup+m.setup, p.Slots)] + s.Shoot
	}
	return m
}

// tooLong says that a scene by itself is more than somebody in it may do.
func (p *Problem) tooLong(scene int) bool {
	s := &p.Scenes[scene]
	return slices.ContainsFunc(s.People, func(q int) bool {
		who := p.People[q]
		return who.Longest > 0 && s.Shoot > who.Longest || who.Work > 0 && s.Shoot > who.Work
	})
}

// addLooks fills apart, where anybody has to change at all.
func (m *model) addLooks() {
	for i := range each(m.open) {
		for j := range each(m.open &^ (1 << i)) {
			if change := m.p.changeBetween(i, j); change > 0 {
				if m.apart == nil {
					m.apart = make([][]int16, len(m.scenes))
					for k := range m.apart {
						m.apart[k] = make([]int16, len(m.scenes))
					}
				}
				m.apart[i][j] = int16(change)
				m.change = max(m.change, change)
			}
		}
	}
	for i := range m.apart {
		m.scenes[i].looks = slices.IndexFunc(m.apart, func(row []int16) bool { return slices.Equal(row, m.apart[i]) })
	}
}

// changeBetween is the most slots that anybody who is in both scenes needs between them to change their look.
func (p *Problem) changeBetween(i, j int) int {
	a, b, most := &p.Scenes[i], &p.Scenes[j], 0
	for x, q := range a.People {
		y := slices.Index(b.People, q)
		if y >= 0 && a.Looks != nil && b.Looks != nil && a.Looks[x] != 0 && b.Looks[y] != 0 && a.Looks[x] != b.Looks[y] {
			most = max(most, p.People[q].Change)
		}
	}
	return most
}

// addModes gives each open scene its mode and its least way in.
func (m *model) addModes() {
	for i := range each(m.open) {
		steps := make([]step, len(m.scenes))
		for j := range each(m.open) {
			steps[j] = m.step(i, j)
		}
		space := m.p.Scenes[i].Space
		at := slices.IndexFunc(m.modes, func(o mode) bool { return o.space == space && slices.Equal(o.steps, steps) })
		if at < 0 {
			at = len(m.modes)
			m.modes = append(m.modes, mode{space, steps})
		}
		m.scenes[i].mode = at
	}
	for j := range each(m.open) {
		least := step{MaxSlots, MaxSlots}
		for i := range each(m.open &^ (1 << j)) {
			s := m.modes[m.scenes[i].mode].steps[j]
			least = step{min(least.move, s.move), min(least.lead, s.lead)}
		}
		m.scenes[j].enter = least
	}
}

// step works out the step from one scene to another.
func (m *model) step(from, to int) step {
	a, b := &m.p.Scenes[from], &m.p.Scenes[to]
	move, setup := m.p.Moves[a.Space][b.Space], b.Setup
	if a.Lights != 0 && a.Lights == b.Lights && a.Space == b.Space {
		setup = 0
	}
	return step{int16(move), int16(move + setup)}
}

// ready is the latest slot from which the scenes left could be placed one after another, each by its latest end and the
// day by its wrap; negative if they cannot. Started says that a scene was placed before, so that each needs a move.
// Taking the scenes by their latest end is the best order for this, Jackson's rule (1955) for one machine.
func (m *model) ready(left uint64, started bool) int {
	ready, sum := m.p.Latest-m.p.PackUp, 0
	for _, j := range m.due {
		if left&(1<<j) == 0 {
			continue
		}
		if started {
			sum += int(m.scenes[j].enter.lead) + m.p.Scenes[j].Shoot
		} else {
			sum += m.scenes[j].dur
		}
		ready = min(ready, m.scenes[j].end-sum)
	}
	return ready
}

// earliestWrap is the wrap before which the scenes left cannot all be over, each for itself.
func (m *model) earliestWrap(left uint64) int {
	end := 0
	for j := range each(left) {
		end = max(end, m.scenes[j].next[0]+m.p.Scenes[j].Shoot)
	}
	return end + m.p.PackUp
}

// length is the least number of slots that the scenes left occupy.
func (m *model) length(left uint64) int {
	sum := 0
	for j := range each(left) {
		sum += m.scenes[j].dur
	}
	return sum
}

// cast is every group in any of the scenes.
func (m *model) cast(scenes uint64) uint64 {
	who := uint64(0)
	for j := range each(scenes) {
		who |= m.scenes[j].who
	}
	return who
}

// wait is what one slot of waiting costs for the groups.
func (m *model) wait(groups uint64) int64 {
	sum := int64(0)
	for g := range each(groups) {
		sum += m.groups[g].cost
	}
	return sum
}

// shooting is what the slots of a scene's shooting cost: the day's, and those who wait meanwhile. Here are the groups who
// wait before it.
func (m *model) shooting(scene int, here uint64) int64 {
	return (m.p.DayCost + m.wait(here&^m.scenes[scene].who)) * int64(m.p.Scenes[scene].Shoot)
}

// overtime is what a day of so many slots costs beyond DayCost.
func (m *model) overtime(length int) int64 {
	if m.p.Overtime == nil {
		return 0
	}
	return m.p.Overtime[min(max(length, 0), len(m.p.Overtime)-1)]
}

// meal is when the last meal can have ended: any slot from soon to late. Before the first meal the stretch without one
// begins at the call, late, and soon is long before it.
type meal struct {
	soon, late int
}

// next is when the next meal can end, if it lies in a gap that is free from slot free to slot full; false if none can.
// Every end between the two can be had by some time for the meal before: what two meals must lie apart, and may, and the
// gap, are intervals, and so is what comes of them.
func (m *model) next(last meal, free, full int) (meal, bool) {
	from := max(free, last.soon+m.p.Meal.Apart)
	to := min(full-m.p.Meal.Length, last.late+m.within)
	return meal{from + m.p.Meal.Length, to + m.p.Meal.Length}, from <= to
}

// gap is a stretch between two scenes in which so many meals are.
type gap struct {
	free, full, meals int
	before            meal // the meal before the gap
}

// mealTimes settles the meals of a day that has its wrap then, each as late as those after it permit and out of what is
// scarce where it can be.
func (m *model) mealTimes(gaps []gap, wrap int) []Span {
	var ends []meal
	for _, g := range gaps {
		last := g.before
		for range g.meals {
			last, _ = m.next(last, g.free, g.full)
			ends = append(ends, last)
		}
	}
	spans := make([]Span, len(ends))
	from, to := wrap-m.within, MaxSlots*2 // when a meal may end, by what comes after it
	for i := len(ends) - 1; i >= 0; i-- {
		latest := min(ends[i].late, to)
		end := latest
		for end > max(ends[i].soon, from) && m.scarce(end) {
			end--
		}
		if m.scarce(end) {
			end = latest
		}
		spans[i] = Span{end - m.p.Meal.Length, end}
		from, to = end-m.p.Meal.Length-m.within, end-m.p.Meal.Length-m.p.Meal.Apart
	}
	return spans
}

// scarce says that a meal that ends then takes slots of what is scarce.
func (m *model) scarce(end int) bool {
	return slices.ContainsFunc(m.p.Scarce, func(s Span) bool { return s.From < end && end-m.p.Meal.Length < s.To })
}

// group is people who are in the same scenes and so wait together.
type group struct {
	scenes uint64
	cost   int64 // of one slot
}

// waitingGroups joins the people who are in the same scenes, and drops those who can never wait.
func waitingGroups(p Problem) []group {
	scenes := make([]uint64, len(p.People))
	for i, s := range p.Scenes {
		for _, q := range s.People {
			scenes[q] |= 1 << i
		}
	}
	var groups []group
	for q, set := range scenes {
		if bits.OnesCount64(set) < 2 || p.People[q].Wait == 0 {
			continue
		}
		at := slices.IndexFunc(groups, func(g group) bool { return g.scenes == set })
		if at < 0 {
			groups = append(groups, group{scenes: set, cost: p.People[q].Wait})
		} else {
			groups[at].cost += p.People[q].Wait
		}
	}
	return groups
}

// limit is people who are in the same scenes and may be there only so long.
type limit struct {
	scenes uint64
	long   int // slots from their first shooting start to their last end; at least MaxSlots for no limit
	work   int // slots of shooting in all; the same
}

// limits joins the people with limits who are in the same scenes, and drops those whose limits can never bind.
func limits(p Problem) []limit {
	scenes, all := make([]uint64, len(p.People)), make([]int, len(p.People))
	for i, s := range p.Scenes {
		for _, q := range s.People {
			scenes[q] |= 1 << i
			all[q] += s.Shoot
		}
	}
	var out []limit
	for q, set := range scenes {
		l := limit{scenes: set, long: MaxSlots, work: MaxSlots * MaxScenes}
		if p.People[q].Longest > 0 && p.People[q].Longest < p.Slots {
			l.long = p.People[q].Longest
		}
		if p.People[q].Work > 0 && p.People[q].Work < all[q] {
			l.work = p.People[q].Work
		}
		if bits.OnesCount64(set) < 2 || l.long == MaxSlots && l.work == MaxSlots*MaxScenes {
			continue
		}
		at := slices.IndexFunc(out, func(o limit) bool { return o.scenes == set })
		if at < 0 {
			out = append(out, l)
		} else {
			out[at].long, out[at].work = min(out[at].long, l.long), min(out[at].work, l.work)
		}
	}
	return out
}

// works says that nobody shoots longer than they may, if these scenes are placed.
func (m *model) works(placed uint64) bool {
	for _, l := range m.limits {
		sum := 0
		for j := range each(placed & l.scenes) {
			sum += m.p.Scenes[j].Shoot
		}
		if sum > l.work {
			return false
		}
	}
	return true
}

// each ranges over the members of a set, lowest first.
func each(set uint64) func(yield func(int) bool) {
	return func(yield func(int) bool) {
		for ; set != 0; set &= set - 1 {
			if !yield(bits.TrailingZeros64(set)) {
				return
			}
		}
	}
}
