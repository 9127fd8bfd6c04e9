package place

import (
	"cmp"
	"math/bits"
	"math/rand/v2"
	"slices"
)

// Beyond some scenes the whole day is too much for tables as long as its best placement is not nearly known. So the day is
// searched nearby: a few scenes are set free, the others keep their order, and the tables find the best of all ways to put
// the few among the others, or to leave them out. A chain of scenes has few sets, so this takes a moment.

// Limits of one such search.
const (
	nearRounds = 30 // without anything better
	nearScenes = 6
	nearCells  = 1 << 18
	nearTries  = 1 << 17
)

// improve searches near the best placement until nothing better turns up, always in the same manner.
func (r *run) improve(rounds int) {
	random := rand.New(rand.NewPCG(1, uint64(bits.OnesCount64(r.m.open))))
	for failed := 0; failed < rounds && r.ctx.Err() == nil && r.loss() > r.bound; failed++ {
		before := r.loss()
		r.near(r.some(random))
		if r.loss() < before {
			failed = 0
		}
	}
}

// some picks the scenes to set free, in turn neighbours in the order, any few, or those of one person; and some of those
// left out.
func (r *run) some(random *rand.Rand) uint64 {
	free, order := uint64(0), r.best.Order
	if n := len(order); n > 0 {
		at, turn := random.IntN(n), random.IntN(3)
		for i := range min(nearScenes, n) {
			switch {
			case turn == 0:
				free |= 1 << order[(at+i)%n]
			case turn == 1 && i < nearScenes/2:
				free |= 1 << order[random.IntN(n)]
			case turn == 2 && len(r.m.groups) > 0:
				scenes := r.m.groups[at%len(r.m.groups)].scenes
				if j := order[random.IntN(n)]; scenes&(1<<j) != 0 {
					free |= 1 << j
				}
			}
		}
	}
	var out []int
	for j := range each(r.m.open) {
		if r.best.Start[j] < 0 {
			out = append(out, j)
		}
	}
	for range min(2, len(out)) {
		free |= 1 << out[random.IntN(len(out))]
	}
	return free
}

// near finds the best placement in which only these scenes change their place among the others.
func (r *run) near(free uint64) {
	m := r.m.chained(r.best.Order, free)
	for j := range each(m.open) {
		if r.best.Start[j] >= 0 && free&(1<<j) == 0 {
			m.fixed |= 1 << j
		}
	}
	m.shut = r.m.leave(m.open &^ (m.fixed | free))
	m.open = m.fixed | free
	sub := &run{ctx: r.ctx, m: m, floor: inf, cells: nearCells, tries: nearTries, room: nearCells, width: quickWidth, best: r.best, has: true}
	sub.attempt()
	r.offer(sub.best)
}

// chained is the model with the scenes of an order, but for the free ones, kept in it.
func (m *model) chained(order []int, free uint64) *model {
	c, last := *m, -1
	c.scenes = slices.Clone(m.scenes)
	for _, j := range order {
		if free&(1<<j) == 0 {
			if last >= 0 {
				c.scenes[j].before |= 1 << last
			}
			last = j
		}
	}
	return &c
}

// follow begins with the order of an earlier placement: what of it still holds, and the best places for what is not in it. Where no
// scene has more than one start, all is in the order of the starts.
func (r *run) follow(order []int) {
	settled := r.m.settled()
	if settled {
		order = slices.SortedStableFunc(slices.Values(r.m.due), func(a, b int) int { return cmp.Compare(r.m.scenes[a].last, r.m.scenes[b].last) })
	}
	if len(order) == 0 {
		return
	}
	f := &first{m: r.m.chained(order, 0), width: quickWidth, found: r.found}
	if settled {
		f.order = order
	}
	f.walk(r.ctx)
	free := r.m.open
	for _, j := range r.best.Order {
		free &^= 1 << j
	}
	if bits.OnesCount64(free) <= nearScenes {
		r.near(free)
	}
}
