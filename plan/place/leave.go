package place

import (
	"cmp"
	"container/heap"
	"math/bits"
	"slices"
)

// A set of scenes to be left out is decided before the first scene is placed, because it says who is still waited for.
// The search therefore starts from one state for each set that may still lead to a better placement. After that the ways
// run together: what is to come depends on the scenes left and the people here, not on what was left out.

// start is one choice of the scenes to place.
type start struct {
	place uint64
	leave int64 // what the others cost
}

// Limits of the choices looked at, so that many cheap scenes cannot fill the memory.
const (
	maxStarts = 4096
	maxTried  = 1 << 16
)

// starts lists the choices whose simple bound is under best, from the least bound up, without the empty one and without
// those that Jackson's rule refutes. When there are too many, floor is the bound of the first not listed, else it is inf.
func (m *model) starts(best int64) (list []start, floor int64) {
	base, gains := m.simpleChoice()
	place := uint64(0)
	var turns []gain
	for j := range each(m.open) {
		if gains[j] > 0 {
			place |= 1 << j
		}
		turns = append(turns, gain{scene: j, cost: max(gains[j], -gains[j])})
	}
	slices.SortStableFunc(turns, func(a, b gain) int { return cmp.Compare(a.cost, b.cost) })
	queue := &choices{{bound: base, next: -1}}
	for tried := 0; queue.Len() > 0; tried++ {
		c := heap.Pop(queue).(choice)
		if c.bound >= best {
			return list, inf
		}
		if tried == maxTried || len(list) == maxStarts {
			return list, c.bound
		}
		set := place
		for k := range each(c.turned) {
			set ^= 1 << turns[k].scene
		}
		if set != 0 && m.ready(set, false) >= m.p.Earliest+m.p.Prepare && m.length(set)+m.p.Prepare+m.p.PackUp <= m.p.Longest {
			list = append(list, start{place: set, leave: m.leave(m.open &^ set)})
		}
		queue.pushNext(c, turns)
	}
	return list, inf
}

// leave is the price of leaving out the scenes of a set and those that have no start at all.
func (m *model) leave(set uint64) int64 {
	sum := m.shut
	for j := range each(set) {
		sum += m.p.Scenes[j].Leave
	}
	return sum
}

// simpleChoice is the least that any non-empty day loses by the simplest count, scene by scene, and for each scene how
// much more it costs there to leave it out than to place it.
func (m *model) simpleChoice() (base int64, gains []int64) {
	base = m.shut + m.p.DayCost*int64(m.p.Prepare+m.p.PackUp)
	gains = make([]int64, len(m.scenes))
	for j := range each(m.open) {
		s := &m.scenes[j]
		placed := s.low[0] + m.p.DayCost*int64(s.dur)
		gains[j] = m.p.Scenes[j].Leave - placed
		base += min(placed, m.p.Scenes[j].Leave)
	}
	return base, gains
}

type gain struct {
	scene int
	cost  int64
}

// choice is a set of turns against the simple choice, in the usual walk over all subsets by rising sum: from a set whose
// highest member is next, add the one after, or put the one after in its place.
type choice struct {
	bound  int64
	turned uint64
	next   int
}

type choices []choice

func (q choices) Len() int { return len(q) }
func (q choices) Less(a, b int) bool {
	if q[a].bound != q[b].bound {
		return q[a].bound < q[b].bound
	}
	return bits.Reverse64(q[a].turned) < bits.Reverse64(q[b].turned)
}
func (q choices) Swap(a, b int) { q[a], q[b] = q[b], q[a] }
func (q *choices) Push(c any)   { *q = append(*q, c.(choice)) }
func (q *choices) Pop() any {
	old := *q
	c := old[len(old)-1]
	*q = old[:len(old)-1]
	return c
}

func (q *choices) pushNext(c choice, turns []gain) {
	k := c.next + 1
	if k >= len(turns) {
		return
	}
	heap.Push(q, choice{bound: c.bound + turns[k].cost, turned: c.turned | 1<<k, next: k})
	if c.next >= 0 {
		heap.Push(q, choice{bound: c.bound + turns[k].cost - turns[c.next].cost, turned: c.turned&^(1<<c.next) | 1<<k, next: k})
	}
}
