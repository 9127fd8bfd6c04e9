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
	open   uint64  // scenes that have any start at all
	shut   int64   // what the others cost, left out
	due    []int   // open scenes by their latest end
	parts  []part  // the open scenes in small lots, for bounds
	cheap  []int   // open scenes by their price a slot

	ends []int // scratch of addStay

	within, apart, meals int // the meal rule; without one, within is out of reach and meals is 0
}

type sceneModel struct {
	light  []int64 // by start, Forbidden where the scene cannot start on any legal day
	next   []int   // the first permitted start from a slot on, or len(light)
	over   []int   // the earliest end if set-up begins no earlier than a slot, or len(light) + Shoot
	who    uint64  // groups of people
	before uint64  // scenes that must come before it
	dur    int     // set-up and shooting
	last   int     // latest start
	end    int     // latest end
	enter  int     // the shortest move into its space from another open scene's
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
	m.enterMoves()
	slices.SortStableFunc(m.due, func(a, b int) int { return m.scenes[a].end - m.scenes[b].end })
	m.cheap = slices.Clone(m.due)
	slices.SortStableFunc(m.cheap, func(a, b int) int {
		return cmp.Compare(p.Scenes[a].Leave*int64(m.scenes[b].dur), p.Scenes[b].Leave*int64(m.scenes[a].dur))
	})
	m.within = 4 * MaxSlots
	if p.Meal.Length > 0 {
		m.within, m.apart = p.Meal.Within, p.Meal.Within/2
		m.meals = max(0, (min(p.Longest, p.Latest-p.Earliest)-1)/p.Meal.Within)
	}
	m.parts = newParts(m)
	return m
}

func newSceneModel(p *Problem, i int) sceneModel {
	s := &p.Scenes[i]
	m := sceneModel{
		light: make([]int64, p.Slots), next: make([]int, p.Slots+1), dur: s.Setup + s.Shoot, last: -1,
	}
	for _, a := range s.After {
		m.before |= 1 << a
	}
	earliest, latest := p.Earliest+p.Prepare+s.Setup, p.Latest-p.PackUp-s.Shoot
	if p.Prepare+m.dur+p.PackUp > p.Longest {
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
	for setup := range m.next {
		m.over = append(m.over, m.next[min(setup+s.Setup, p.Slots)]+s.Shoot)
	}
	return m
}

func (m *model) enterMoves() {
	for j := range each(m.open) {
		m.scenes[j].enter = MaxSlots
		for i := range each(m.open &^ (1 << j)) {
			m.scenes[j].enter = min(m.scenes[j].enter, m.p.Moves[m.p.Scenes[i].Space][m.p.Scenes[j].Space])
		}
	}
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
		sum += m.scenes[j].dur
		if started {
			sum += m.scenes[j].enter
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

// move is the slots from one space to a scene's; from is negative when the day has not started.
func (m *model) move(from, scene int) int {
	if from < 0 {
		return 0
	}
	return m.p.Moves[from][m.p.Scenes[scene].Space]
}

// work is what a scene costs apart from its light and the gap before it: the day's slots, and those who wait for its set-up
// and its shooting. Here are the groups who wait before it.
func (m *model) work(scene int, here uint64) int64 {
	s, wait := &m.scenes[scene], m.wait(here)
	return m.p.DayCost*int64(s.dur) + wait*int64(s.dur) - m.wait(here&s.who)*int64(m.p.Scenes[scene].Shoot)
}

// lastMeal is the latest start of the last of k meals in a gap that is free from slot free to slot full and has room for
// them, when the stretch before began at since. It is false when the first would come too late. The latest is the best: it
// makes the next stretch end last.
func (m *model) lastMeal(since, free, full, k int) (int, bool) {
	length := m.p.Meal.Length
	return min(full-length, since+m.within+(k-1)*(length+m.within)), free <= since+m.within
}

// mealStarts lists the k meals whose last is at lastMeal, each as late as those after it permit.
func (m *model) mealStarts(since, free, full, k int) []Span {
	at, _ := m.lastMeal(since, free, full, k)
	meals := make([]Span, k)
	for i := k - 1; i >= 0; i-- {
		meals[i] = Span{at, at + m.p.Meal.Length}
		at = min(at-m.p.Meal.Length-m.apart, since+m.within+(i-1)*(m.p.Meal.Length+m.within))
	}
	return meals
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
