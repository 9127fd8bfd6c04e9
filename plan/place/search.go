package place

import (
	"cmp"
	"context"
	"math/bits"
	"slices"
)

// label is one exact way to a state: everything that the rules can still ask about it.
type label struct {
	lost   int64 // so far
	bound  int64 // with the least still to come
	state  int32
	parent int32 // in search.kept, -1 before the first scene
	free   int16 // the slot at which the crew is free
	soon   int16 // the last meal can have ended, at the earliest
	since  int16 // the stretch without a meal began, at the latest
	call   int16
	begin  int16            // the last scene's shooting start
	meals  int8             // taken so far
	scene  int8             // the last one placed, -1 before the first
	looks  bool             // somebody may still be changing from a scene before the last
	came   [MaxLimits]int16 // when those with limits came
}

// notYet in label.came says that nobody of a limit is there.
const notYet = 2 * MaxSlots

// never is when a meal that nobody had ended.
const never = -2 * MaxSlots

func newLabel() label {
	l := label{parent: -1, scene: -1, soon: never}
	for x := range l.came {
		l.came[x] = notYet
	}
	return l
}

func (l *label) meal() meal { return meal{int(l.soon), int(l.since)} }

// search walks labels through a table, layer by layer, the best ones of each layer if there are too many.
type search struct {
	t     *table
	best  int64
	width int       // labels kept in a layer
	cut   int64     // the least bound of a label not kept
	kept  []label   // every label expanded, for the way back
	open  [][]label // by state, those not expanded yet
	count []int     // labels in open, by layer
	tries *int      // labels that may still be made
	found func(way []label, mealAfter bool)
}

// slack is how far beyond its width a layer may grow before it is cut for the first time.
const slack = 8

// labels looks for placements that lose less than best, keeping at most width labels a layer, and calls found with each
// better one. It returns the least bound of what it did not look at: inf if it looked at everything, 0 if the context ended
// or the tries did. It takes what it used from tries.
func labels(ctx context.Context, t *table, best int64, width int, tries *int, found func(way []label, mealAfter bool)) int64 {
	s := &search{
		t: t, best: best, width: width, cut: inf, tries: tries, found: found,
		open: make([][]label, len(t.states)), count: make([]int, len(t.layers)),
	}
	for n := len(t.layers) - 1; n >= 0; n-- {
		s.addStarts(n)
		s.trim(n, s.width)
		for i, at := range t.layers[n] {
			if *tries <= 0 || i%64 == 0 && ctx.Err() != nil {
				return 0
			}
			for _, l := range s.open[at] {
				s.expand(l)
			}
			s.open[at] = nil
		}
		s.count[n] = 0
	}
	return s.cut
}

func (s *search) addStarts(n int) {
	for _, at := range s.t.layers[n] {
		st := &s.t.states[at]
		if st.mode != nowhere || st.from >= st.to || st.bound >= s.best {
			continue
		}
		l := newLabel()
		l.lost, l.bound, l.state = slices.Min(st.g), st.bound, at
		s.open[at] = []label{l}
		s.count[n]++
	}
}

// trim cuts a layer to its best labels and remembers the least bound of the others.
func (s *search) trim(n, width int) {
	if s.count[n] <= width {
		return
	}
	var all []label
	for _, at := range s.t.layers[n] {
		all = append(all, s.open[at]...)
		s.open[at] = nil
	}
	slices.SortStableFunc(all, func(a, b label) int { return cmp.Compare(a.bound, b.bound) })
	if len(all) > width {
		s.cut = min(s.cut, all[width].bound)
		all = all[:width]
	}
	for _, l := range all {
		s.open[l.state] = append(s.open[l.state], l)
	}
	s.count[n] = len(all)
}

// expand places each possible next scene after a label, at every start and with every number of meals in the gap that may
// still lead to a better placement.
func (s *search) expand(l label) {
	if l.bound >= s.best {
		return
	}
	parent := int32(len(s.kept))
	s.kept = append(s.kept, l)
	from := &s.t.states[l.state]
	for _, e := range from.edges {
		if from.mode == nowhere {
			s.first(l, parent, e)
			continue
		}
		for k := 0; k <= s.t.m.meals-int(l.meals); k++ {
			s.next(l, parent, e, k)
		}
	}
}

// first places the first scene of the day at each start. Each start is another call, so none replaces another.
func (s *search) first(l label, parent int32, e edge) {
	m := s.t.m
	j := int(e.scene)
	from, scene := &s.t.states[l.state], &m.p.Scenes[j]
	fixed := l.lost + m.p.DayCost*int64(scene.Setup) + m.shooting(j, 0)
	last := from.lo + from.width - 1 + scene.Setup
	for begin := m.scenes[j].next[min(from.lo+scene.Setup, m.p.Slots)]; begin < m.p.Slots && begin <= last; begin = m.scenes[j].next[begin+1] {
		n := l
		n.lost = fixed + m.scenes[j].light[begin]
		n.state, n.parent = e.to, parent
		n.call = int16(begin - scene.Setup - m.p.Prepare)
		n.since = n.call
		s.add(n, j, begin)
	}
}

// next places a scene after a label with k meals in the gap. With none, a later start is of use only if it beats every
// earlier one that then idles.
func (s *search) next(l label, parent int32, e edge, k int) {
	m := s.t.m
	j, free := int(e.scene), int(l.free)
	from, to := &s.t.states[l.state], &s.t.states[e.to]
	at, ok := m.mealsIn(l.meal(), free, m.p.Slots, k)
	if !ok {
		return
	}
	step := m.modes[m.scenes[l.scene].mode].steps[j]
	early := free + int(step.lead)
	if k > 0 {
		early = at.soon + int(step.lead)
	}
	early = max(early, m.changed(s.kept, &l, j))
	eaten := int64(k * m.p.Meal.Length)
	fixed := l.lost + m.shooting(j, from.here) + int64(step.move)*m.p.MoveCost - eaten*(from.rate-m.p.DayCost)
	record, plain := inf, m.limits == nil && m.apart == nil // else who comes later, or has changed, is better off
	for begin := m.scenes[j].next[min(early, m.p.Slots)]; begin < m.p.Slots; begin = m.scenes[j].next[begin+1] {
		n := l
		n.lost = fixed + int64(begin-free)*from.rate + m.scenes[j].light[begin]
		n.state, n.parent = e.to, parent
		if k > 0 {
			at, ok := m.mealsIn(l.meal(), free, begin-int(step.lead), k)
			if !ok {
				return
			}
			n.soon, n.since, n.meals = int16(at.soon), int16(at.late), l.meals+int8(k)
			s.add(n, j, begin)
			continue
		}
		if ahead := n.lost - int64(begin+m.p.Scenes[j].Shoot)*to.rate; (ahead < record || !plain) && s.add(n, j, begin) {
			record = ahead
		}
	}
}

// mealsIn is when the last of k meals in a gap can end, after the meal before it.
func (m *model) mealsIn(last meal, free, full, k int) (meal, bool) {
	ok := true
	for i := 0; i < k && ok; i++ {
		last, ok = m.next(last, free, full)
	}
	return last, ok
}

// changed is the first slot at which everybody in a scene can have the look for it, after the scenes of a label. It walks back
// over those that are so near that somebody may still be changing from them.
func (m *model) changed(kept []label, l *label, scene int) int {
	ready := 0
	if m.apart == nil {
		return ready
	}
	for at := l; at.scene >= 0 && int(at.free)+m.change > int(l.free); at = &kept[at.parent] {
		if apart := int(m.apart[at.scene][scene]); apart > 0 {
			ready = max(ready, int(at.free)+apart)
		}
	}
	return ready
}

// changing says that somebody may still be changing, from a scene before the last to one that is left, when the crew could
// already shoot it.
func (m *model) changing(kept []label, l *label, left uint64) bool {
	if m.apart == nil || l.parent < 0 {
		return false
	}
	before := &kept[l.parent]
	if before.scene < 0 || int(before.free)+m.change <= int(l.free) {
		return false
	}
	for j := range each(left) {
		if m.changed(kept, before, j) > int(l.free)+int(m.modes[m.scenes[l.scene].mode].steps[j].lead) {
			return true
		}
	}
	return false
}

// add offers the label of a scene's start to its state. It is false if the label breaks a rule or cannot lead to a better
// placement.
func (s *search) add(l label, scene, begin int) bool {
	m, to := s.t.m, &s.t.states[l.state]
	*s.tries--
	l.bound = l.lost + s.t.toCome(l.state, int(l.meals), begin+m.p.Scenes[scene].Shoot)
	if l.bound >= s.best || !m.put(&l, scene, begin, to.left) || !m.canEnd(&l, to.need, to.wrap) {
		return false
	}
	if to.left == 0 {
		return s.finish(l)
	}
	l.looks = m.changing(s.kept, &l, to.left)
	list := s.open[l.state]
	for i := range list {
		if s.t.m.dominates(&list[i], &l, to.rate) {
			return false
		}
	}
	before := len(list)
	list = append(slices.DeleteFunc(list, func(b label) bool { return s.t.m.dominates(&l, &b, to.rate) }), l)
	s.open[l.state] = list
	n := bits.OnesCount64(to.left)
	if s.count[n] += len(list) - before; s.count[n] > slack*s.width {
		s.trim(n, s.width)
	}
	return true
}

// put notes a scene's start in a label. It is false when somebody would be there for too long.
func (m *model) put(l *label, scene, begin int, left uint64) bool {
	end := begin + m.p.Scenes[scene].Shoot
	l.scene, l.begin, l.free = int8(scene), int16(begin), int16(end)
	if m.limits == nil {
		return true
	}
	for x := range each(m.scenes[scene].stay) {
		l.came[x] = min(l.came[x], int16(begin))
	}
	for x, limit := range m.limits {
		mine := left & limit.scenes
		switch {
		case l.came[x] == notYet:
			continue
		case mine == 0 && m.scenes[scene].stay&(1<<x) == 0:
			l.came[x] = notYet // they have gone
			continue
		}
		last, own := end, 0
		for j := range each(mine) {
			last, own = max(last, m.scenes[j].over[end]), own+m.p.Scenes[j].Shoot
		}
		if max(last, end+own)-int(l.came[x]) > limit.long {
			return false
		}
		if mine == 0 {
			l.came[x] = notYet
		}
	}
	return true
}

// canEnd says that a day may still keep the longest day and the meal rule, if what is left takes need slots and cannot be
// wrapped before wrap.
func (m *model) canEnd(l *label, need, wrap int) bool {
	wrap = max(wrap, int(l.free)+need)
	return int(l.free-l.since) <= m.within && wrap-int(l.call) <= m.p.Longest && int(l.since) >= m.mealEnd(wrap, int(l.meals))
}

// mealEnd is the earliest end of the meal that is number meals of the day, if the wrap is no earlier than wrap: any earlier,
// and the meals still permitted do not reach that far.
func (m *model) mealEnd(wrap, meals int) int {
	return wrap - m.within - (m.meals-meals)*(m.within+m.p.Meal.Length)
}

// dominates says that whatever can follow b can follow a, after idling if need be, and loses no more.
func (m *model) dominates(a, b *label, rate int64) bool {
	if a.free > b.free || a.lost+rate*int64(b.free-a.free) > b.lost || a.since < b.since || a.soon > b.soon ||
		a.call < b.call || a.meals > b.meals || a.looks || m.scenes[a.scene].mode != m.scenes[b.scene].mode || m.scenes[a.scene].looks != m.scenes[b.scene].looks {
		return false
	}
	for x := range m.limits {
		if a.came[x] < b.came[x] {
			return false
		}
	}
	return true
}

// finish ends the day after a label with no scene left, with a meal after the last scene if the rule forces it.
func (s *search) finish(l label) bool {
	meal, ok := s.t.m.mealAfter(l)
	if !ok {
		return false
	}
	lost := l.lost + s.t.m.ending(&l, meal)
	if lost >= s.best {
		return false
	}
	s.best = lost
	s.found(wayTo(s.kept, l), meal > 0)
	return true
}

// mealAfter is the slots of the meal that the rule forces after the last scene, 0 if none; false if the day cannot end.
func (m *model) mealAfter(l label) (slots int, ok bool) {
	wrap := int(l.free) + m.p.PackUp
	if wrap > m.p.Latest || wrap-int(l.call) > m.p.Longest || int(l.free-l.since) > m.within {
		return 0, false
	}
	if wrap-int(l.since) <= m.within {
		return 0, true
	}
	length := m.p.Meal.Length
	return length, int(l.meals) < m.meals && m.p.PackUp <= m.within && int(l.free-l.soon) >= m.p.Meal.Apart &&
		wrap+length <= m.p.Latest && wrap+length-int(l.call) <= m.p.Longest
}

// ending is what the end of a day costs: the slots of a meal after the last scene, the packing up, the overtime.
func (m *model) ending(l *label, meal int) int64 {
	wrap := int(l.free) + meal + m.p.PackUp
	return m.p.DayCost*int64(wrap-int(l.free)) + m.overtime(wrap-int(l.call))
}

// wayTo lists the labels of a way that place a scene, in order.
func wayTo(kept []label, last label) []label {
	way := []label{last}
	for l := last; l.parent >= 0; {
		if l = kept[l.parent]; l.scene >= 0 {
			way = append(way, l)
		}
	}
	slices.Reverse(way)
	return way
}
