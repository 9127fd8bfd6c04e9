package place

import (
	"math/rand/v2"
	"testing"
)

// TestBoundsNeverExceedAWay: along random legal days, what is said to be still to come is never more than what did come.
func TestBoundsNeverExceedAWay(t *testing.T) {
	tight := map[string]int{}
	for seed := range uint64(20000) {
		r := rand.New(rand.NewPCG(seed, 13))
		p := tiny(r, 2+r.IntN(5), 30)
		p.Meal, p.DayCost, p.Moves, p.MoveCost = Meal{}, 0, [][]int{{0}}, 0
		for i := range p.Scenes {
			p.Scenes[i].Space, p.Scenes[i].After = 0, nil
		}
		day, ok := randomDay(r, p)
		if !ok {
			continue
		}
		m := newModel(&p)
		left, here := m.open, uint64(0)
		for k, j := range day.Order[:len(day.Order)-1] {
			left &^= 1 << j
			here = (here | m.scenes[j].who) & m.cast(left)
			free := day.Start[j] + p.Scenes[j].Shoot
			light, waiting := stillToCome(p, day, k+1)
			parts := int64(0)
			for i := range m.parts {
				parts += m.parts[i].must[m.parts[i].subset(left)][free]
			}
			for name, b := range map[string][2]int64{
				"parts": {parts, light}, "stay": {m.stay(left, here, free, 0), waiting}, "rivals": {m.rivals(left, here), waiting},
			} {
				if b[0] > b[1] {
					t.Fatalf("seed %d after scene %d: %s says %d, and %d came\n%+v\n%+v", seed, j, name, b[0], b[1], day, p)
				}
				if b[0] == b[1] && b[0] > 0 {
					tight[name]++
				}
			}
		}
	}
	if tight["parts"] < 100 || tight["stay"] < 100 || tight["rivals"] < 20 {
		t.Errorf("too few cases in which a bound is reached: %v", tight)
	}
}

// randomDay places all scenes in random order, each at one of its next few slots.
func randomDay(r *rand.Rand, p Problem) (Result, bool) {
	day := Result{Start: make([]int, len(p.Scenes)), Order: r.Perm(len(p.Scenes))}
	free := p.Earliest + p.Prepare
	for _, j := range day.Order {
		s := p.Scenes[j]
		start := free + s.Setup + max(0, r.IntN(4)-2)
		for start < p.Slots && s.Light[start] == Forbidden {
			start++
		}
		day.Start[j], free = start, start+s.Shoot
		if free > p.Slots {
			return day, false
		}
	}
	first := day.Order[0]
	day.Call, day.Wrap = day.Start[first]-p.Scenes[first].Setup-p.Prepare, free+p.PackUp
	_, err := Judge(p, day)
	return day, err == nil
}

// stillToCome is the light and the waiting of a day after its first k scenes.
func stillToCome(p Problem, day Result, k int) (light, waiting int64) {
	for _, j := range day.Order[k:] {
		light += p.Scenes[j].Light[day.Start[j]]
	}
	last := day.Order[k-1]
	for q, who := range p.People {
		for t := day.Start[last] + p.Scenes[last].Shoot; t < p.Slots; t++ {
			if waitsAt(p, day, q, t) {
				waiting += who.Wait
			}
		}
	}
	return light, waiting
}

// waitsAt says whether a person waits in a slot.
func waitsAt(p Problem, day Result, person, slot int) bool {
	seen, comes := false, false
	for _, j := range day.Order {
		for _, q := range p.Scenes[j].People {
			if q != person {
				continue
			}
			from, to := day.Start[j], day.Start[j]+p.Scenes[j].Shoot
			if from <= slot && slot < to {
				return false
			}
			seen, comes = seen || to <= slot, comes || from > slot
		}
	}
	return seen && comes
}
