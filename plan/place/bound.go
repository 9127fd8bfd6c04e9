package place

import (
	"cmp"
	"math/bits"
	"slices"
)

// partSize is the most scenes in a part: 2 to that power sets, each with a value a slot, stay a matter of milliseconds.
const partSize = 8

// part is a few scenes whose light windows lie near each other, solved for every subset as if the others did not exist. What
// the parts lose in light, length and leaving out adds up to a bound, for each scene is in one part only. Waiting does not
// add up in this way (a scene of another part may be what a person is not waiting for) and is left to the tables.
type part struct {
	scenes []int     // which scene each bit of a subset stands for
	mask   uint64    // the same as a set
	must   [][]int64 // by subset and slot: the least to place them all from that slot on, or inf
	may    [][]int64 // by subset and slot: the least to place any of them and leave out the others
	short  []int     // by subset: the slots they take
	leave  []int64   // by subset: the price of leaving them out
}

// newParts cuts the open scenes into parts, by the middle of the time in which they may start.
func newParts(m *model) []part {
	order := slices.Clone(m.due)
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(m.scenes[a].next[0]+m.scenes[a].last, m.scenes[b].next[0]+m.scenes[b].last)
	})
	size := partSize
	if m.settled() { // none has anything to choose beside the others
		size = 1
	}
	count := (len(order) + size - 1) / size
	var parts []part
	for i := range count {
		parts = append(parts, newPart(m, order[i*len(order)/count:(i+1)*len(order)/count]))
	}
	return parts
}

func newPart(m *model, scenes []int) part {
	n := 1 << len(scenes)
	p := part{scenes: scenes, must: make([][]int64, n), may: make([][]int64, n), short: make([]int, n), leave: make([]int64, n)}
	for _, j := range scenes {
		p.mask |= 1 << j
	}
	p.must[0], p.may[0] = make([]int64, m.p.Slots+1), make([]int64, m.p.Slots+1)
	for set := 1; set < n; set++ {
		low := bits.TrailingZeros(uint(set))
		p.short[set] = p.short[set&(set-1)] + m.scenes[scenes[low]].dur
		p.leave[set] = p.leave[set&(set-1)] + m.p.Scenes[scenes[low]].Leave
		p.fill(m, set)
	}
	return p
}

// fill computes must and may of a set from those of the sets with one scene fewer.
func (p *part) fill(m *model, set int) {
	must, may := slices.Repeat([]int64{inf}, m.p.Slots+1), slices.Repeat([]int64{inf}, m.p.Slots+1)
	whole := p.whole(set)
	for b, j := range p.scenes {
		if set&(1<<b) == 0 {
			continue
		}
		scene, spec, without := &m.scenes[j], &m.p.Scenes[j], set&^(1<<b)
		fixed := m.p.DayCost * int64(scene.dur)
		late := scene.before&whole != 0
		for t := range may {
			may[t] = min(may[t], p.may[without][t]+spec.Leave)
		}
		for begin := scene.next[0]; begin < m.p.Slots; begin = scene.next[begin+1] {
			t, end, cost := begin-scene.setup, begin+spec.Shoot, fixed+scene.light[begin]
			may[t] = min(may[t], p.may[without][end]+cost)
			if !late {
				must[t] = min(must[t], p.must[without][end]+cost)
			}
		}
	}
	for t := m.p.Slots - 1; t >= 0; t-- {
		must[t], may[t] = min(must[t], must[t+1]), min(may[t], may[t+1])
	}
	p.must[set], p.may[set] = must, may
}

// whole turns a subset of the part into a set of scenes, and subset turns it back.
func (p *part) whole(subset int) uint64 {
	set := uint64(0)
	for b, j := range p.scenes {
		if subset&(1<<b) != 0 {
			set |= 1 << j
		}
	}
	return set
}

func (p *part) subset(set uint64) int {
	subset := 0
	for b, j := range p.scenes {
		if set&(1<<j) != 0 {
			subset |= 1 << b
		}
	}
	return subset
}

// choices lists the subsets by what they cost at least, with the others of the part left out.
func (p *part) choices(from int) []choice {
	var list []choice
	all := len(p.must) - 1
	for set := range p.must {
		if c := p.must[set][from]; c < inf {
			list = append(list, choice{place: p.whole(set), cost: c + p.leave[all&^set]})
		}
	}
	slices.SortStableFunc(list, func(a, b choice) int { return cmp.Compare(a.cost, b.cost) })
	return list
}

// simpleBound is the least that any day loses, by the parts and by the slots that the longest day has.
func (m *model) simpleBound() int64 {
	price := make([]int64, len(m.scenes))
	for j := range price {
		price[j] = m.p.Scenes[j].Leave
	}
	bound, _ := m.pricedDay(price)
	return bound
}

// addStay adds to rest the least that waiting still costs, if these scenes are left and these groups are here. Rest has rows
// of width cells: cell x of row r is slot from+x with meals-r meals that may still be taken. Whoever is here stays to the
// end of their last scene. Whoever is still to come with two scenes or more comes no later than the first of them can
// start. Their own shooting and the meals are not waiting.
func (m *model) addStay(rest []int64, width int, left, here uint64, from, meals int) {
	for g := range m.groups {
		mine, isHere := left&m.groups[g].scenes, here&(1<<g) != 0
		if mine == 0 || !isHere && mine&(mine-1) == 0 {
			continue
		}
		own, comes := 0, m.p.Slots
		m.ends = append(m.ends[:0], make([]int, width)...)
		for ; mine != 0; mine &= mine - 1 {
			j := bits.TrailingZeros64(mine)
			own, comes = own+m.p.Scenes[j].Shoot, min(comes, m.scenes[j].last)
			for x, over := range m.scenes[j].over[from : from+width] {
				m.ends[x] = max(m.ends[x], over)
			}
		}
		step := 0 // how much later a person is here for each later slot
		if isHere {
			comes, step = from, 1
		}
		for row := 0; row*width < len(rest); row++ {
			free := comes + own + (meals-row)*m.p.Meal.Length
			for x, end := range m.ends {
				if waits := end - free - step*x; waits > 0 {
					rest[row*width+x] += m.groups[g].cost * int64(waits)
				}
			}
		}
	}
}

// stay is addStay for one slot.
func (m *model) stay(left, here uint64, slot, meals int) int64 {
	var rest [1]int64
	m.addStay(rest[:], 1, left, here, slot, meals)
	return rest[0]
}

// rivals is another least that waiting still costs, from who keeps whom: of two groups here, with scenes left that only the
// one or only the other is in, the one that goes last sits through the other's. Pairs are taken in order of what they cost
// and each group is in one pair only, so that no slot of waiting is counted twice.
func (m *model) rivals(left, here uint64) int64 {
	sum := int64(0)
	for here&(here-1) != 0 {
		var most int64
		var pair uint64
		for a := range each(here) {
			for b := range each(here >> (a + 1) << (a + 1)) {
				onlyA, onlyB := left&m.groups[a].scenes&^m.groups[b].scenes, left&m.groups[b].scenes&^m.groups[a].scenes
				cost := min(m.groups[a].cost*int64(m.length(onlyB)), m.groups[b].cost*int64(m.length(onlyA)))
				if cost > most {
					most, pair = cost, 1<<a|1<<b
				}
			}
		}
		if most == 0 {
			return sum
		}
		sum, here = sum+most, here&^pair
	}
	return sum
}

// shed is the least that it costs to leave out scenes until the others take no more than room slots, if a part of a scene
// could be left out for a part of its price.
func (m *model) shed(left uint64, room int) int64 {
	over, sum := m.length(left)-room, int64(0)
	for _, j := range m.cheap {
		if over <= 0 {
			break
		}
		if left&(1<<j) == 0 {
			continue
		}
		dur := m.scenes[j].dur
		sum += m.p.Scenes[j].Leave * int64(min(over, dur)) / int64(dur)
		over -= dur
	}
	return sum
}
