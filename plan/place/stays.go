package place

import "slices"

// How long people may stay is known to the labels only: a table does not carry when each of them came. Where that leaves the
// bound low, the arrivals of those people are taken apart as the calls are: if somebody comes within some slots, all their
// scenes lie from the first of these to the last and their hours after it, and the day with so much less light is searched
// by itself. A day on which they do not come is in every part.

// box is a part of the arrivals, by limit, and the least that a placement in it can lose.
type box struct {
	come  []Span
	bound int64
}

// leastSpan is the slots of arrivals that are not taken apart any more.
const leastSpan = 3

// stays proves the best placement, or raises the bound, by taking arrivals apart. The least bound comes first.
func (r *run) stays() {
	queue, stuck := []box{{r.m.arrivals(), r.bound}}, inf
	for len(queue) > 0 && r.cells > 0 && r.ctx.Err() == nil {
		var b box
		b, queue = least(queue, func(b box) int64 { return b.bound })
		r.raise(min(stuck, b.bound))
		if r.bound >= r.loss() {
			return
		}
		for _, half := range r.m.halves(b) {
			if half.bound = max(b.bound, r.within(half.come)); half.bound >= r.loss() {
				continue
			}
			if r.m.widest(half.come) < 0 {
				stuck = min(stuck, half.bound)
			} else {
				queue = append(queue, half)
			}
		}
	}
	if len(queue) == 0 {
		r.raise(min(stuck, r.loss()))
	}
}

// least takes the element of the least bound out of a queue, the first of equals.
func least[T any](queue []T, bound func(T) int64) (T, []T) {
	best := 0
	for i := range queue {
		if bound(queue[i]) < bound(queue[best]) {
			best = i
		}
	}
	t := queue[best]
	return t, slices.Delete(queue, best, best+1)
}

// arrivals is when the people of each limit can come at all.
func (m *model) arrivals() []Span {
	come := make([]Span, len(m.limits))
	for x, l := range m.limits {
		come[x].From = m.p.Slots
		for j := range each(l.scenes & m.open) {
			come[x] = Span{min(come[x].From, m.scenes[j].next[0]), max(come[x].To, m.scenes[j].last+1)}
		}
	}
	return come
}

// widest is the limit whose arrivals are the least known, of those that may still bind, or -1.
func (m *model) widest(come []Span) int {
	at, most := -1, leastSpan
	for x, c := range come {
		if n := c.To - c.From; n > most && m.limits[x].long < MaxSlots {
			at, most = x, n
		}
	}
	return at
}

// halves takes the widest arrivals of a box apart; none if there are none to take.
func (m *model) halves(b box) []box {
	x := m.widest(b.come)
	if x < 0 {
		return nil
	}
	early, late := slices.Clone(b.come), slices.Clone(b.come)
	mid := (b.come[x].From + b.come[x].To) / 2
	early[x].To, late[x].From = mid, mid
	return []box{{early, b.bound}, {late, b.bound}}
}

// within searches the placements with arrivals in these spans and returns a bound on them.
func (r *run) within(come []Span) int64 {
	p := *r.m.p
	p.Scenes = slices.Clone(p.Scenes)
	for x, l := range r.m.limits {
		if l.long == MaxSlots {
			continue
		}
		for j := range each(l.scenes) {
			s := &p.Scenes[j]
			s.Light = slices.Clone(s.Light)
			for t := range s.Light {
				if t < come[x].From || t+s.Shoot > come[x].To-1+l.long {
					s.Light[t] = Forbidden
				}
			}
		}
	}
	sub := &run{ctx: r.ctx, m: newModel(&p), floor: inf, cells: r.cells, tries: r.tries, room: firstCells, width: r.width, best: r.best, has: true}
	sub.raise(sub.m.simpleBound())
	if sub.bound < sub.loss() {
		firstPlans(r.ctx, sub.m, firstWidth, sub.found)
		sub.narrow(firstCells, sub.loss(), firstCells)
	}
	r.cells, r.tries = sub.cells, sub.tries
	r.offer(sub.best)
	return sub.bound
}
