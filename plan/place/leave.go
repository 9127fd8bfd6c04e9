package place

import (
	"container/heap"
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

// Limits of the choices looked at, so that many cheap scenes cannot fill the memory: starts, their cells, and choices tried.
const (
	maxStarts  = 4096
	startCells = tableCells
	maxTried   = 1 << 16
)

// choice is a subset of a part's scenes to be placed.
type choice struct {
	place uint64
	cost  int64 // of placing them at the least and leaving out the others
}

// starts lists the choices whose simple bound is under best, from the least bound up, without the empty one and without
// those that do not fit the day. When there are too many, floor is the bound of the first not listed, else it is inf.
func (m *model) starts(best int64) (list []start, floor int64) {
	q, most := &combinations{}, min(maxStarts, startCells/m.p.Slots)
	for i := range m.parts {
		list := m.parts[i].choices(m.p.Earliest + m.p.Prepare)
		may, must := m.open&m.parts[i].mask, m.fixed&m.parts[i].mask
		list = slices.DeleteFunc(list, func(c choice) bool { return c.place&^may != 0 || c.place&must != must })
		if len(list) == 0 {
			return nil, inf
		}
		q.lists = append(q.lists, list)
	}
	base := m.shut + m.p.DayCost*int64(m.p.Prepare+m.p.PackUp)
	q.add(make([]int, len(q.lists)))
	for tried := 0; q.Len() > 0; tried++ {
		c := heap.Pop(q).(combination)
		if base+c.cost >= best {
			return list, inf
		}
		if tried == maxTried || len(list) == most {
			return list, base + c.cost
		}
		set := q.union(c)
		if m.worthStarting(set, best-base-c.cost) {
			list = append(list, start{place: set, leave: m.leave(m.open &^ set)})
		}
		q.after(c)
	}
	return list, inf
}

// worthStarting says that the scenes may fit the day, and that waiting for them may cost less than spare.
func (m *model) worthStarting(set uint64, spare int64) bool {
	from := m.p.Earliest + m.p.Prepare
	return set != 0 && m.works(set) && m.ready(set, false) >= from && m.length(set)+m.p.Prepare+m.p.PackUp <= m.p.Longest &&
		m.stay(set, 0, from, m.meals) < spare
}

// leave is the price of leaving out the scenes of a set and those that have no start at all.
func (m *model) leave(set uint64) int64 {
	sum := m.shut
	for j := range each(set) {
		sum += m.p.Scenes[j].Leave
	}
	return sum
}

// combination takes one choice from each part's list. combinations hands them out by rising cost.
type combination struct {
	cost int64
	at   []int
}

type combinations struct {
	lists [][]choice
	queue []combination
}

func (q *combinations) Len() int { return len(q.queue) }
func (q *combinations) Less(a, b int) bool {
	if q.queue[a].cost != q.queue[b].cost {
		return q.queue[a].cost < q.queue[b].cost
	}
	return slices.Compare(q.queue[a].at, q.queue[b].at) < 0
}
func (q *combinations) Swap(a, b int) { q.queue[a], q.queue[b] = q.queue[b], q.queue[a] }
func (q *combinations) Push(c any)    { q.queue = append(q.queue, c.(combination)) }
func (q *combinations) Pop() any {
	last := len(q.queue) - 1
	c := q.queue[last]
	q.queue = q.queue[:last]
	return c
}

func (q *combinations) add(at []int) {
	c := combination{at: at}
	for i, k := range at {
		c.cost += q.lists[i][k].cost
	}
	heap.Push(q, c)
}

// after adds the combinations that come after one: each is reached from one other only, the one that steps back in its last
// part that is not at its first choice.
func (q *combinations) after(c combination) {
	for i := len(c.at) - 1; i >= 0; i-- {
		if c.at[i]+1 < len(q.lists[i]) {
			at := slices.Clone(c.at)
			at[i]++
			q.add(at)
		}
		if c.at[i] > 0 {
			return
		}
	}
}

func (q *combinations) union(c combination) uint64 {
	set := uint64(0)
	for i, k := range c.at {
		set |= q.lists[i][k].place
	}
	return set
}
