package place

import (
	"cmp"
	"context"
	"slices"
)

// The first plan comes before any table: a narrow walk forward that decides as it goes which scenes it has to leave out.
// It proves nothing. It gives the tables a loss to beat, and is all there is when a day is too big for them.

// firstLabel is a label with its own key; lost counts the scenes left out so far, and waiting for them until they were.
type firstLabel struct {
	label
	key
}

// first is one such walk.
type first struct {
	m     *model
	width int
	kept  []label
	found func(way []label, mealAfter bool)
}

// firstPlans walks with the given width and calls found with every placement that looks better than those before.
func firstPlans(ctx context.Context, m *model, width int, found func(way []label, mealAfter bool)) {
	f := &first{m: m, width: width, found: found}
	begin := firstLabel{key: key{left: m.open, space: nowhere}}
	begin.lost, begin.parent, begin.scene = m.shut+m.p.DayCost*int64(m.p.Prepare), -1, -1
	best := inf
	for layer := []firstLabel{begin}; len(layer) > 0 && ctx.Err() == nil; {
		var next []firstLabel
		for _, l := range layer {
			best = f.end(l, best)
			parent := int32(len(f.kept))
			f.kept = append(f.kept, l.label)
			for j := range each(l.left) {
				next = f.next(next, l, parent, j)
			}
		}
		layer = f.trim(next)
	}
}

// end offers the day that ends after a label and leaves out all that is left.
func (f *first) end(l firstLabel, best int64) int64 {
	if l.scene < 0 {
		return best
	}
	meal, ok := f.m.mealAfter(l.label)
	lost := l.lost + f.m.p.DayCost*int64(meal+f.m.p.PackUp)
	for j := range each(l.left) {
		lost += f.m.p.Scenes[j].Leave
	}
	if !ok || lost >= best {
		return best
	}
	f.found(wayTo(f.kept, l.label), meal > 0)
	return lost
}

// next places a scene after a label: as early as can be, and where its light and the wait for it cost least; with no meal
// in the gap and with one.
func (f *first) next(list []firstLabel, l firstLabel, parent int32, j int) []firstLabel {
	m := f.m
	if l.scene < 0 {
		for begin := m.scenes[j].next[0]; begin < m.p.Slots; begin = m.scenes[j].next[begin+1] {
			n := l
			n.call = int16(begin - m.p.Scenes[j].Setup - m.p.Prepare)
			n.since = n.call
			list = f.add(list, n, parent, j, begin, m.work(j, 0))
		}
		return list
	}
	move := m.move(l.space, j)
	wait := m.wait(l.here)
	for k := 0; k <= 1 && k+int(l.meals) <= m.meals; k++ {
		n, meals := l, k*m.p.Meal.Length
		early := m.scenes[j].next[min(int(l.free)+meals+move+m.p.Scenes[j].Setup, m.p.Slots)]
		for i, begin := range [2]int{early, f.cheapest(early, j, m.p.DayCost+wait)} {
			if begin == m.p.Slots || i == 1 && begin == early {
				break
			}
			gap := begin - m.p.Scenes[j].Setup - int(l.free)
			if k > 0 {
				last, ok := m.lastMeal(int(l.since), int(l.free), int(l.free)+gap-move, 1)
				if !ok {
					break
				}
				n.meals, n.since = l.meals+1, int16(last+m.p.Meal.Length)
			}
			cost := int64(gap)*m.p.DayCost + int64(gap-meals)*wait + int64(move)*m.p.MoveCost + m.work(j, l.here)
			list = f.add(list, n, parent, j, begin, cost)
		}
	}
	return list
}

// cheapest is the start from early on where light and idling until then cost least.
func (f *first) cheapest(early, j int, rate int64) int {
	s, best := &f.m.scenes[j], inf
	at := early
	for begin := early; begin < f.m.p.Slots; begin = s.next[begin+1] {
		if c := s.light[begin] + rate*int64(begin-early); c < best {
			best, at = c, begin
		}
	}
	return at
}

// add appends the label after a scene, with what can no longer come left out, unless it breaks a rule.
func (f *first) add(list []firstLabel, l firstLabel, parent int32, j, begin int, cost int64) []firstLabel {
	m := f.m
	l.lost += cost + m.scenes[j].light[begin]
	l.parent, l.scene, l.begin, l.free = parent, int8(j), int16(begin), int16(begin+m.p.Scenes[j].Shoot)
	l.space = m.p.Scenes[j].Space
	if !m.canEnd(&l.label, m.p.PackUp, 0) {
		return list
	}
	l.left &^= 1 << j
	l.here |= m.scenes[j].who
	l.bound = m.p.DayCost * int64(m.p.PackUp)
	for i := range each(l.left) {
		if gone := m.scenes[j].before&(1<<i) != 0; gone || int(l.free)+m.scenes[i].dur > m.scenes[i].end {
			l.left &^= 1 << i
			l.lost += m.p.Scenes[i].Leave
		}
	}
	alone := int64(0)
	for i := range m.parts {
		p := &m.parts[i]
		alone += p.may[p.subset(l.left)][l.free]
	}
	l.bound += max(alone, m.shed(l.left, min(m.p.Latest, int(l.call)+m.p.Longest)-m.p.PackUp-int(l.free)))
	l.here &= m.cast(l.left)
	l.bound += l.lost + max(m.rivals(l.left, l.here), m.stay(l.left, l.here, int(l.free), m.meals-int(l.meals)))
	return append(list, l)
}

// trim keeps the best labels of a layer, and of those with one key only those that none dominates.
func (f *first) trim(list []firstLabel) []firstLabel {
	slices.SortStableFunc(list, func(a, b firstLabel) int { return cmp.Compare(a.bound, b.bound) })
	seen := map[key][]label{}
	out := list[:0]
	for _, l := range list {
		if len(out) == f.width {
			break
		}
		rate := f.m.p.DayCost + f.m.wait(l.here)
		worse := func(a label) bool { return f.m.dominates(&a, &l.label, rate) }
		if slices.ContainsFunc(seen[l.key], worse) {
			continue
		}
		seen[l.key] = append(seen[l.key], l.label)
		out = append(out, l)
	}
	return out
}
