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
	since  int16 // the stretch without a meal began
	call   int16
	begin  int16 // the last scene's shooting start
	meals  int8  // taken so far
	scene  int8  // the last one placed, -1 before the first
}

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
		if st.space != nowhere || st.from >= st.to || st.bound >= s.best {
			continue
		}
		s.open[at] = []label{{lost: slices.Min(st.g), bound: st.bound, state: at, parent: -1, scene: -1}}
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
		if from.space == nowhere {
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
	from, to, scene := &s.t.states[l.state], &s.t.states[e.to], &m.p.Scenes[j]
	cost := m.work(j, 0)
	last := from.lo + from.width - 1 + scene.Setup
	for begin := m.scenes[j].next[min(from.lo+scene.Setup, m.p.Slots)]; begin < m.p.Slots && begin <= last; begin = m.scenes[j].next[begin+1] {
		call := begin - scene.Setup - m.p.Prepare
		s.add(to, label{
			lost: l.lost + cost + m.scenes[j].light[begin], state: e.to, parent: parent, free: int16(begin + scene.Shoot),
			since: int16(call), call: int16(call), begin: int16(begin), scene: int8(j),
		})
	}
}

// next places a scene after a label with k meals in the gap. With none, a later start is of use only if it beats every
// earlier one that then idles.
func (s *search) next(l label, parent int32, e edge, k int) {
	m := s.t.m
	j, free, meals := int(e.scene), int(l.free), k*m.p.Meal.Length
	from, to, scene := &s.t.states[l.state], &s.t.states[e.to], &m.p.Scenes[j]
	move := m.move(m.p.Scenes[l.scene].Space, j)
	setup := free + move + meals + max(0, k-1)*m.apart
	fixed := l.lost + m.work(j, from.here) + int64(move)*m.p.MoveCost - int64(meals)*(from.rate-m.p.DayCost)
	record := inf
	for begin := m.scenes[j].next[min(setup+scene.Setup, m.p.Slots)]; begin < m.p.Slots; begin = m.scenes[j].next[begin+1] {
		n := l
		n.lost = fixed + int64(begin-scene.Setup-free)*from.rate + m.scenes[j].light[begin]
		n.state, n.parent, n.scene, n.begin, n.free = e.to, parent, int8(j), int16(begin), int16(begin+scene.Shoot)
		if k > 0 {
			last, ok := m.lastMeal(int(l.since), free, begin-scene.Setup-move, k)
			if !ok {
				return
			}
			n.since, n.meals = int16(last+m.p.Meal.Length), l.meals+int8(k)
			s.add(to, n)
			continue
		}
		if ahead := n.lost - int64(n.free)*to.rate; ahead < record && s.add(to, n) {
			record = ahead
		}
	}
}

// add offers a label to its state. It is false if the label breaks a rule or cannot lead to a better placement.
func (s *search) add(to *state, l label) bool {
	m := s.t.m
	*s.tries--
	if !m.canEnd(&l, to.need, to.wrap) {
		return false
	}
	l.bound = l.lost + s.t.toCome(l.state, int(l.meals), int(l.free))
	if l.bound >= s.best {
		return false
	}
	if to.left == 0 {
		return s.finish(l)
	}
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
	return a.free <= b.free && a.lost+rate*int64(b.free-a.free) <= b.lost &&
		a.since >= b.since && a.call >= b.call && a.meals <= b.meals &&
		m.p.Scenes[a.scene].Space == m.p.Scenes[b.scene].Space
}

// finish ends the day after a label with no scene left, with a meal after the last scene if the rule forces it.
func (s *search) finish(l label) bool {
	meal, ok := s.t.m.mealAfter(l)
	if !ok {
		return false
	}
	lost := l.lost + s.t.m.p.DayCost*int64(meal+s.t.m.p.PackUp)
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
	return length, int(l.meals) < m.meals && m.p.PackUp <= m.within &&
		wrap+length <= m.p.Latest && wrap+length-int(l.call) <= m.p.Longest
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
