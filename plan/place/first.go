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
	placed uint64
}

// first is one such walk.
type first struct {
	m     *model
	width int
	order []int // of these only the next two that are left may come next; nil for no order
	kept  []label
	found func(way []label, mealAfter bool)
}

// firstPlans walks with the given width and calls found with every placement that looks better than those before.
func firstPlans(ctx context.Context, m *model, width int, found func(way []label, mealAfter bool)) {
	(&first{m: m, width: width, found: found}).walk(ctx)
}

func (f *first) walk(ctx context.Context) {
	m := f.m
	begin := firstLabel{key: key{left: m.open, mode: nowhere}, label: newLabel()}
	begin.lost = m.shut + m.p.DayCost*int64(m.p.Prepare)
	best := inf
	for layer := []firstLabel{begin}; len(layer) > 0 && ctx.Err() == nil; {
		var next []firstLabel
		for _, l := range layer {
			best = f.end(l, best)
			parent := int32(len(f.kept))
			f.kept = append(f.kept, l.label)
			for j := range each(f.coming(l.left)) {
				next = f.next(next, l, parent, j)
			}
		}
		layer = f.trim(next)
	}
}

// coming are those of the scenes left that may come next.
func (f *first) coming(left uint64) uint64 {
	later, n := uint64(0), 0
	for _, j := range f.order {
		if left&(1<<j) != 0 {
			if n++; n > 2 {
				later |= 1 << j
			}
		}
	}
	return left &^ later
}

// end offers the day that ends after a label and leaves out all that is left.
func (f *first) end(l firstLabel, best int64) int64 {
	if l.scene < 0 {
		return best
	}
	meal, ok := f.m.mealAfter(l.label)
	lost := l.lost + f.m.ending(&l.label, meal)
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
		setup := m.p.Scenes[j].Setup
		fixed := m.p.DayCost*int64(setup) + m.shooting(j, 0)
		for begin := m.scenes[j].next[min(m.p.Earliest+m.p.Prepare+setup, m.p.Slots)]; begin < m.p.Slots; begin = m.scenes[j].next[begin+1] {
			n := l
			n.call = int16(begin - setup - m.p.Prepare)
			n.since = n.call
			list = f.add(list, n, parent, j, begin, fixed)
		}
		return list
	}
	step := m.modes[l.mode].steps[j]
	wait, free := m.wait(l.here), int(l.free)
	for k := 0; k <= 1 && k+int(l.meals) <= m.meals; k++ {
		n, eaten := l, k*m.p.Meal.Length
		at, ok := m.mealsIn(l.meal(), free, m.p.Slots, k)
		if !ok {
			break
		}
		early := free + int(step.lead)
		if k > 0 {
			early = at.soon + int(step.lead)
		}
		early = m.scenes[j].next[min(max(early, m.changed(f.kept, &l.label, j)), m.p.Slots)]
		for i, begin := range [2]int{early, f.cheapest(early, j, m.p.DayCost+wait)} {
			if begin == m.p.Slots || i == 1 && begin == early {
				break
			}
			at, ok := m.mealsIn(l.meal(), free, begin-int(step.lead), k)
			if !ok {
				break
			}
			n.meals, n.soon, n.since = l.meals+int8(k), int16(at.soon), int16(at.late)
			lead := int64(begin - free)
			cost := lead*m.p.DayCost + (lead-int64(eaten))*wait + int64(step.move)*m.p.MoveCost + m.shooting(j, l.here)
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
	l.parent, l.left, l.placed = parent, l.left&^(1<<j), l.placed|1<<j
	end := begin + m.p.Scenes[j].Shoot
	for i := range each(l.left) {
		if gone := m.scenes[j].before&(1<<i) != 0; gone || end+m.scenes[i].dur > m.scenes[i].end || !m.works(l.placed|1<<i) {
			l.left &^= 1 << i
			l.lost += m.p.Scenes[i].Leave
		}
	}
	l.left, l.lost = f.stay(&l, j, begin, end)
	if !m.put(&l.label, j, begin, l.left) || !m.canEnd(&l.label, m.p.PackUp, 0) {
		return list
	}
	l.looks = m.changing(f.kept, &l.label, l.left)
	l.mode = m.scenes[j].mode
	l.here |= m.scenes[j].who
	l.bound = m.overtime(end+m.p.PackUp-int(l.call)) + m.p.DayCost*int64(m.p.PackUp)
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

// stay leaves out each scene left that would keep somebody longer than they may stay, even if it came next.
func (f *first) stay(l *firstLabel, j, begin, end int) (left uint64, lost int64) {
	m := f.m
	left, lost = l.left, l.lost
	for x, limit := range m.limits {
		came := int(l.came[x])
		if m.scenes[j].stay&(1<<x) != 0 {
			came = min(came, begin)
		}
		for i := range each(left & limit.scenes) {
			if m.scenes[i].over[end]-came > limit.long {
				left &^= 1 << i
				lost += m.p.Scenes[i].Leave
			}
		}
	}
	return left, lost
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
