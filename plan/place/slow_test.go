package place

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
)

// slow is a second oracle, for days too long to try everything: for each choice of scenes a plain recursion over all that the
// rules ask about, remembered, with no bound, no dominance, and no sharing between choices. It has no code of Solve.
type slow struct {
	p      Problem
	placed int // a set
	most   int // meals
	memo   map[slowState]int64
}

type slowState struct {
	done, last, free, since, call, meals int

	came  [4]int    // by person, 1 more than their first start
	wears [4][3]int // by person and look, the end of the last scene in it
}

func slowBest(p Problem) int64 {
	best := inf
	for placed := range 1 << len(p.Scenes) {
		s := slow{p: p, placed: placed, memo: map[slowState]int64{}}
		if p.Meal.Length > 0 {
			s.most = max(0, (min(p.Longest, p.Latest-p.Earliest)-1)/p.Meal.Within)
		} else {
			s.p.Meal.Within = 1000
		}
		left := int64(0)
		for i, scene := range p.Scenes {
			if placed&(1<<i) == 0 {
				left += scene.Leave
			}
		}
		if placed == 0 {
			best = min(best, left)
		} else {
			best = min(best, left+s.begin())
		}
	}
	return best
}

// begin tries each first scene at each start.
func (s *slow) begin() int64 {
	best := inf
	for j, scene := range s.p.Scenes {
		for start := range s.p.Slots {
			call := start - scene.Setup - s.p.Prepare
			if s.may(0, j, start) && call >= s.p.Earliest {
				cost := scene.Light[start] + s.p.DayCost*int64(s.p.Prepare+scene.Setup+scene.Shoot)
				next := slowState{done: 1 << j, last: j, free: start + scene.Shoot, since: call, call: call}
				if s.seen(&next, j, start) {
					best = min(best, cost+s.rest(next))
				}
			}
		}
	}
	return best
}

func (s *slow) may(done, j, start int) bool {
	if s.placed&(1<<j) == 0 || done&(1<<j) != 0 || start < 0 || s.p.Scenes[j].Light[start] == Forbidden {
		return false
	}
	return !slices.ContainsFunc(s.p.Scenes[j].After, func(a int) bool { return s.placed&^done&(1<<a) != 0 })
}

// rest is the least that is lost after a state.
func (s *slow) rest(at slowState) int64 {
	if at.free-at.since > s.p.Meal.Within || at.free+s.p.PackUp > min(s.p.Latest, at.call+s.p.Longest) {
		return inf
	}
	if at.done == s.placed {
		return s.end(at)
	}
	if v, ok := s.memo[at]; ok {
		return v
	}
	best := inf
	s.gap(at, at.free, at.since, 0, &best)
	s.memo[at] = best
	return best
}

// gap tries each next scene after the meals so far in this gap, and each next meal.
func (s *slow) gap(at slowState, free, since, eaten int, best *int64) {
	for j, scene := range s.p.Scenes {
		move := s.p.Moves[s.p.Scenes[at.last].Space][scene.Space]
		setup := scene.Setup
		if last := s.p.Scenes[at.last]; last.Lights > 0 && last.Lights == scene.Lights && last.Space == scene.Space {
			setup = 0
		}
		for start := free + move + setup; start < s.p.Slots; start++ {
			next := at
			next.done, next.last, next.free, next.since, next.meals = at.done|1<<j, j, start+scene.Shoot, since, at.meals+eaten
			if s.may(at.done, j, start) && s.seen(&next, j, start) {
				idle := start - at.free - eaten*s.p.Meal.Length
				cost := scene.Light[start] + int64(move)*s.p.MoveCost + s.p.DayCost*int64(start+scene.Shoot-at.free) +
					s.waiting(at.done, -1)*int64(idle) + s.waiting(at.done, j)*int64(scene.Shoot)
				*best = min(*best, cost+s.rest(next))
			}
		}
	}
	if at.meals+eaten == s.most {
		return
	}
	from := free
	if at.meals+eaten > 0 {
		from = max(from, since+s.p.Meal.Apart)
	}
	for meal := from; meal <= since+s.p.Meal.Within && meal < s.p.Slots; meal++ {
		s.gap(at, meal+s.p.Meal.Length, meal+s.p.Meal.Length, eaten+1, best)
	}
}

// seen notes who is in a scene; false if somebody still changes, or is there or shoots for too long.
func (s *slow) seen(at *slowState, j, start int) bool {
	for x, q := range s.p.Scenes[j].People {
		who, look, work := s.p.People[q], 0, 0
		if s.p.Scenes[j].Looks != nil {
			look = s.p.Scenes[j].Looks[x]
		}
		for i, scene := range s.p.Scenes {
			if at.done&(1<<i) != 0 && slices.Contains(scene.People, q) {
				work += scene.Shoot
			}
		}
		for other, end := range at.wears[q] {
			if look > 0 && other > 0 && other != look && end > 0 && end+who.Change > start {
				return false
			}
		}
		if at.came[q] == 0 {
			at.came[q] = start + 1
		}
		if who.Longest > 0 && at.free-at.came[q]+1 > who.Longest || who.Work > 0 && work > who.Work {
			return false
		}
		at.wears[q][look] = at.free
	}
	return true
}

// waiting is the cost of a slot for those who were in a scene done and are in one to come, but not in the one being shot.
func (s *slow) waiting(done, shooting int) int64 {
	sum := int64(0)
	for q, who := range s.p.People {
		seen, comes, busy := false, false, false
		for i, scene := range s.p.Scenes {
			if slices.Contains(scene.People, q) {
				seen = seen || done&(1<<i) != 0
				comes = comes || s.placed&^done&(1<<i) != 0
				busy = busy || i == shooting
			}
		}
		if seen && comes && !busy {
			sum += who.Wait
		}
	}
	return sum
}

func (s *slow) end(at slowState) int64 {
	late := func(wrap int) int64 {
		if s.p.Overtime == nil {
			return 0
		}
		return s.p.Overtime[wrap-at.call]
	}
	if at.free+s.p.PackUp-at.since <= s.p.Meal.Within {
		return s.p.DayCost*int64(s.p.PackUp) + late(at.free+s.p.PackUp)
	}
	wrap := at.free + s.p.Meal.Length + s.p.PackUp
	if at.meals == s.most || at.meals > 0 && at.free-at.since < s.p.Meal.Apart || s.p.PackUp > s.p.Meal.Within || wrap > min(s.p.Latest, at.call+s.p.Longest) {
		return inf
	}
	return s.p.DayCost*int64(wrap-at.free) + late(wrap)
}

// longer makes a day of morning, noon and evening scenes whose people wait between them, with a tight longest day or several
// meals, so that calls, stretches and gaps matter.
func longer(r *rand.Rand) Problem {
	slots := 18 + r.IntN(14)
	p := tiny(r, 0, slots)
	p.Longest = slots - r.IntN(slots/3)
	if p.Meal.Length > 0 {
		p.Meal = Meal{Within: slots/4 + r.IntN(slots/2), Length: 1 + r.IntN(3)}
		p.Meal.Apart = r.IntN(p.Meal.Within)
	}
	for range 2 + r.IntN(4) {
		s := tinyScene(r, p, len(p.Scenes), 0)
		s.Leave += 60
		from := []int{0, slots / 3, slots * 2 / 3}[r.IntN(3)]
		for t := range s.Light {
			s.Light[t] = Forbidden
			if from <= t && t < from+slots/4 {
				s.Light[t] = r.Int64N(12)
			}
		}
		p.Scenes = append(p.Scenes, s)
	}
	if r.IntN(2) == 0 {
		p = enrich(r, p)
	}
	return p
}

// TestAgainstSlowRecursion holds Solve against the second oracle.
func TestAgainstSlowRecursion(t *testing.T) {
	var meals, two, full int
	for seed := range uint64(1500) {
		p := longer(rand.New(rand.NewPCG(seed, 11)))
		got := mustSolve(t, context.Background(), p, nil)
		if want := slowBest(p); got.Status != Proven || got.Loss.Total() != want {
			t.Fatalf("seed %d: lost %d, bound %d, %v; want %d\n%+v\n%+v", seed, got.Loss.Total(), got.Bound, got.Status, want, got, p)
		}
		meals += min(1, len(got.Meals))
		two += len(got.Meals) / 2
		if got.Wrap-got.Call == p.Longest {
			full++
		}
	}
	t.Logf("%d days with a meal, %d with two, %d of the longest length", meals, two, full)
	if meals < 300 || two < 100 || full < 50 {
		t.Error("the cases are too easy")
	}
}

// TestLimitsAreHonest: with hardly any cells, labels or tries, the bound is still one and the placement still legal; and calls
// are taken apart when a walk is too narrow to prove anything.
func TestLimitsAreHonest(t *testing.T) {
	proven := 0
	for seed := range uint64(1500) {
		r := rand.New(rand.NewPCG(seed, 12))
		p := longer(r)
		run := newRun(context.Background(), &p)
		run.width = 1
		if seed%2 == 0 {
			run.cells, run.tries = 1<<r.IntN(16), 1<<r.IntN(12)
		}
		firstPlans(run.ctx, run.m, 1, run.found)
		run.prove()
		got, want := run.result(), slowBest(p)
		mustHold(t, p, got)
		if got.Bound > want || got.Loss.Total() < want {
			t.Fatalf("seed %d: lost %d, bound %d; the best is %d\n%+v", seed, got.Loss.Total(), got.Bound, want, p)
		}
		if seed%2 == 1 && got.Status != Proven {
			t.Fatalf("seed %d: lost %d, bound %d, and no limit was near", seed, got.Loss.Total(), got.Bound)
		}
		if got.Status == Proven {
			proven++
		}
	}
	if proven > 1450 {
		t.Errorf("%d of 1500 proven; the limits are too wide", proven)
	}
}
