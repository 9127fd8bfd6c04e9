package place

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
)

// MaxDays is the most days that SolveDays takes.
const MaxDays = 3

// Days is one film shot on several days. Every Problem has the same People and the same Scenes, with the light and the limits
// of its own date; each scene is shot on one of the days or left out once. Nobody waits in a night, and every day starts
// afresh: its own call, meals, hours, and the kit where its first scene is.
type Days struct {
	Days    []Problem
	Offset  []int // by day: slots from slot 0 of the first day to slot 0 of this one, never falling
	Rest    int   // slots from one wrap to the next call at least
	Again   int64 // cost of each further day on which a person is called
	Opening int64 // cost of each further day with scenes
}

// DaysResult is what SolveDays found. What a day leaves out is in no day's Loss but in LeftOut.
type DaysResult struct {
	Days    []Result // Start is -1 for what another day has
	LeftOut int64
	Again   int64
	Opening int64
	Bound   int64 // nothing loses less
	Status  Status
}

// Total is the one number that SolveDays makes small.
func (r DaysResult) Total() int64 {
	sum := r.LeftOut + r.Again + r.Opening
	for _, d := range r.Days {
		sum += d.Loss.Total()
	}
	return sum
}

// Validate returns the first thing that makes the days malformed, or nil.
func (p Days) Validate() error {
	if n := len(p.Days); n < 1 || n > MaxDays || len(p.Offset) != n {
		return fmt.Errorf("%d days and %d offsets; want 1 to %d, and one each", n, len(p.Offset), MaxDays)
	}
	if !inRange(MaxSlots, p.Rest) || !affordable(p.Again) || !affordable(p.Opening) || !slices.IsSorted(p.Offset) {
		return errors.New("Rest, Again or Opening out of range, or Offset falls")
	}
	first := &p.Days[0]
	for d := range p.Days {
		day := &p.Days[d]
		if err := day.Validate(); err != nil {
			return fmt.Errorf("Days[%d]: %w", d, err)
		}
		if !slices.Equal(day.People, first.People) || !slices.EqualFunc(day.Scenes, first.Scenes, alike) {
			return fmt.Errorf("Days[%d] has other people or scenes than the first", d)
		}
	}
	return nil
}

// alike says that two days' scenes differ in their light only.
func alike(a, b Scene) bool {
	return a.Space == b.Space && a.Setup == b.Setup && a.Shoot == b.Shoot && a.Lights == b.Lights && a.Leave == b.Leave &&
		slices.Equal(a.People, b.People) && slices.Equal(a.Looks, b.Looks) && slices.Equal(a.After, b.After)
}

// SolveDays finds days that lose little. It searches: it hands scenes from day to day, and places each day by Solve's means.
// Its bound comes from prices: each day may have every scene for a price, and no prices cost more than the best plan.
// Progress, the answer to the same problem, and an ended context are as with Solve.
func SolveDays(ctx context.Context, p Days, progress func(DaysResult)) (DaysResult, error) {
	if err := p.Validate(); err != nil {
		return DaysResult{}, fmt.Errorf("place: %w", err)
	}
	least := inf
	better := func(r DaysResult) {
		if progress != nil && r.Total() < least {
			least = r.Total()
			progress(r)
		}
	}
	var s *shoot
	for _, cut := range p.cuts() { // a first look at each way to keep the rest
		other := newShoot(ctx, p, cut, better)
		if other.spread(); s == nil || other.best < s.best {
			s = other
		}
		if ctx.Err() != nil {
			break
		}
	}
	s.bound = p.priced(ctx, s.best)
	s.search()
	return s.result(), nil
}

// cuts are ways to limit the wraps and the calls so that the rest is kept, where it could be broken: all of it taken from the
// evening, all from the morning, or half from each.
func (p Days) cuts() []Days {
	out := []Days{p}
	for d := 0; d+1 < len(p.Days); d++ {
		night := p.Offset[d+1] - p.Offset[d]
		var next []Days
		for _, q := range out {
			latest, earliest := q.Days[d].Latest, q.Days[d+1].Earliest
			short := latest + p.Rest - night - earliest
			if short <= 0 {
				next = append(next, q)
				continue
			}
			for _, evening := range []int{0, short / 2, short} {
				c := q
				c.Days = slices.Clone(q.Days)
				c.Days[d].Latest = max(c.Days[d].Earliest, latest-evening)
				c.Days[d+1].Earliest = min(c.Days[d+1].Latest, earliest+short-evening)
				next = append(next, c)
			}
		}
		out = next
	}
	return out
}

// shoot is the state of one SolveDays: which scenes each day has, and what that loses.
type shoot struct {
	ctx    context.Context
	asked  Days
	p      Days // the same with wraps and calls that keep the rest
	better func(DaysResult)
	memo   []map[uint64]Result // by day and its scenes
	sets   []uint64            // by day, the best so far
	best   int64
	bound  int64
}

func newShoot(ctx context.Context, asked, p Days, better func(DaysResult)) *shoot {
	s := &shoot{ctx: ctx, asked: asked, p: p, better: better, best: inf, sets: make([]uint64, len(p.Days))}
	for range p.Days {
		s.memo = append(s.memo, map[uint64]Result{})
	}
	return s
}

// day places some scenes on a day, near an order that they had before. What it leaves out has no cost yet.
func (s *shoot) day(d int, set uint64, hint []int) Result {
	if r, ok := s.memo[d][set]; ok {
		return r
	}
	sub, scenes := only(s.p.Days[d], set)
	for _, j := range hint {
		if at := slices.Index(scenes, j); at >= 0 {
			sub.Hint = append(sub.Hint, at)
		}
	}
	r := newRun(s.ctx, &sub)
	if r.follow(sub.Hint); len(r.best.Order) == 0 || len(sub.Hint) == 0 {
		firstPlans(s.ctx, r.m, firstWidth, r.found)
	}
	if len(scenes) <= fewScenes && len(r.best.Order) > 0 {
		r.raise(r.m.simpleBound())
		r.narrow(nearCells, r.loss(), nearCells)
	}
	out := whole(s.p.Days[d], r.result(), scenes)
	s.memo[d][set] = out
	return out
}

// only is a day with only some of its scenes, and which these are.
func only(p Problem, set uint64) (Problem, []int) {
	var scenes []int
	for j := range each(set) {
		scenes = append(scenes, j)
	}
	all := p.Scenes
	p.Scenes, p.Hint = nil, nil
	for _, j := range scenes {
		sc := all[j]
		sc.After = nil
		for _, a := range all[j].After {
			if at := slices.Index(scenes, a); at >= 0 {
				sc.After = append(sc.After, at)
			}
		}
		p.Scenes = append(p.Scenes, sc)
	}
	return p, scenes
}

// whole says the answer for some scenes in the numbers of all, without the prices of what is left out.
func whole(p Problem, r Result, scenes []int) Result {
	start := slices.Repeat([]int{-1}, len(p.Scenes))
	for i, j := range scenes {
		start[j] = r.Start[i]
	}
	r.Order = slices.Clone(r.Order)
	for i, at := range r.Order {
		r.Order[i] = scenes[at]
	}
	r.Start = start
	r.Bound -= r.Loss.LeftOut
	r.Loss.LeftOut = 0
	return r
}

// lost is what days with these scenes lose; inf if scenes that must come before others are on a later day.
func (s *shoot) lost(sets []uint64) int64 {
	r := s.read(sets)
	shot := uint64(0)
	for d := range sets {
		for _, j := range r.Days[d].Order {
			for _, a := range s.p.Days[0].Scenes[j].After {
				if slices.ContainsFunc(r.Days[d+1:], func(later Result) bool { return later.Start[a] >= 0 }) {
					return inf
				}
			}
			shot |= 1 << j
		}
	}
	return r.Total()
}

// read gathers the days with these scenes.
func (s *shoot) read(sets []uint64) DaysResult {
	r := DaysResult{Bound: s.bound}
	people := make([]int, len(s.p.Days[0].People))
	shot, used := uint64(0), 0
	for d, set := range sets {
		day := s.day(d, set, nil)
		r.Days = append(r.Days, day)
		called := make([]bool, len(people))
		for _, j := range day.Order {
			shot |= 1 << j
			for _, q := range s.p.Days[0].Scenes[j].People {
				called[q] = true
			}
		}
		for q, is := range called {
			if is {
				people[q]++
			}
		}
		if len(day.Order) > 0 {
			used++
		} else {
			r.Days[d].Call, r.Days[d].Wrap = s.asked.Days[d].Earliest, s.asked.Days[d].Earliest
		}
	}
	for j, sc := range s.p.Days[0].Scenes {
		if shot&(1<<j) == 0 {
			r.LeftOut += sc.Leave
		}
	}
	for _, n := range people {
		r.Again += s.p.Again * int64(max(0, n-1))
	}
	r.Opening = s.p.Opening * int64(max(0, used-1))
	return r
}

// offer takes the sets if they lose less.
func (s *shoot) offer(sets []uint64) bool {
	lost := s.lost(sets)
	if lost >= s.best {
		return false
	}
	s.best, s.sets = lost, slices.Clone(sets)
	s.better(s.result())
	return true
}

// result is the best so far.
func (s *shoot) result() DaysResult {
	r := s.read(s.sets)
	r.Bound = min(s.bound, r.Total())
	switch {
	case r.Bound == r.Total():
		r.Status = Proven
	case s.ctx.Err() != nil:
		r.Status = Cancelled
	}
	return r
}

// spread gives every scene to a day, those with the least choice first: where its light costs least, with a price on what the
// day already has and on people who would come for it alone. If one day could hold them all, each day alone is tried too.
func (s *shoot) spread() {
	scenes := s.p.Days[0].Scenes
	order, choice := make([]int, len(scenes)), make([]int, len(scenes))
	least := make([][]int64, len(scenes))
	all, length := uint64(0), 0
	for j := range scenes {
		order[j], least[j] = j, slices.Repeat([]int64{inf}, len(s.p.Days))
		all, length = all|1<<j, length+scenes[j].Shoot
		for d := range s.p.Days {
			for _, c := range newSceneModel(&s.p.Days[d], j).light {
				if c != Forbidden {
					choice[j]++
					least[j][d] = min(least[j][d], c)
				}
			}
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return choice[a] - choice[b] })
	sets, load := make([]uint64, len(s.p.Days)), make([]int64, len(s.p.Days))
	for _, j := range order {
		at, most := -1, inf
		for d := range s.p.Days {
			cost := min(inf/2, least[j][d]) + load[d]
			for _, q := range scenes[j].People {
				if sets[d]&s.scenesOf(q) == 0 {
					cost += s.p.Again
				}
			}
			if least[j][d] < inf && cost < most {
				at, most = d, cost
			}
		}
		if at >= 0 {
			sets[at] |= 1 << j
			load[at] += scenes[j].Leave / int64(len(scenes))
		}
	}
	s.offer(sets)
	for d := range s.p.Days {
		if length <= s.p.Days[d].Longest {
			alone := make([]uint64, len(s.p.Days))
			alone[d] = all
			s.offer(alone)
		}
	}
}

// scenesOf is the scenes that a person is in.
func (s *shoot) scenesOf(person int) uint64 {
	set := uint64(0)
	for j, sc := range s.p.Days[0].Scenes {
		if slices.Contains(sc.People, person) {
			set |= 1 << j
		}
	}
	return set
}

// A search that takes only what is better ends where no small step helps. So it also takes what is no worse than where it was
// some steps ago (late acceptance, Burke and Bykov 2017, cited from memory).
const (
	daysRounds = 300 // without anything better than the best, and twice as many in all
	daysMemory = 25  // steps
	fewScenes  = 14  // can be placed by tables at each step
)

// search hands scenes from day to day until nothing better turns up, and then places each day as well as it can be.
func (s *shoot) search() {
	random := rand.New(rand.NewPCG(2, uint64(len(s.p.Days[0].Scenes))))
	now, at := s.best, slices.Clone(s.sets)
	ago := slices.Repeat([]int64{now}, daysMemory)
	for round, failed := 0, 0; failed < daysRounds && round < 2*daysRounds && s.ctx.Err() == nil && s.best > s.bound; round, failed = round+1, failed+1 {
		sets := s.hand(random, at)
		if lost := s.lost(sets); lost <= now || lost <= ago[round%daysMemory] {
			now, at = lost, sets
			if s.offer(sets) {
				failed = 0
			}
		}
		ago[round%daysMemory] = now
	}
	for s.handOne() {
	}
	s.polish()
}

// handOne moves one scene to another day, if that is any better.
func (s *shoot) handOne() bool {
	for j := range s.p.Days[0].Scenes {
		for to := range s.sets {
			sets := slices.Clone(s.sets)
			for d := range sets {
				sets[d] &^= 1 << j
			}
			if sets[to] |= 1 << j; s.ctx.Err() == nil && !slices.Equal(sets, s.sets) && s.offer(sets) {
				return true
			}
		}
	}
	return false
}

// hand moves a few scenes: any, those left out, some that follow each other, or all of a person on a day; some to one day,
// some in exchange.
func (s *shoot) hand(random *rand.Rand, from []uint64) []uint64 {
	sets, n := slices.Clone(from), len(s.p.Days[0].Scenes)
	now := s.read(from)
	where := func(j int) int {
		return slices.IndexFunc(now.Days, func(r Result) bool { return r.Start[j] >= 0 })
	}
	move := func(j, to int) {
		for d := range sets {
			sets[d] &^= 1 << j
		}
		sets[to] |= 1 << j
	}
	to := random.IntN(len(sets))
	switch people, kind := s.p.Days[0].People, random.IntN(4); {
	case kind == 0:
		if order := now.Days[random.IntN(len(sets))].Order; len(order) > 0 {
			at := random.IntN(len(order))
			for _, j := range order[at:min(len(order), at+2+random.IntN(5))] {
				move(j, to)
			}
		}
	case kind == 1 && len(people) > 0:
		from, mine := random.IntN(len(sets)), s.scenesOf(random.IntN(len(people)))
		for j := range each(mine & sets[from]) {
			move(j, to)
		}
	default:
		for range 1 + random.IntN(3) {
			j := random.IntN(n)
			if out := s.leftOut(now); len(out) > 0 && random.IntN(2) == 0 {
				j = out[random.IntN(len(out))]
			}
			from := where(j)
			move(j, to)
			if from >= 0 && random.IntN(2) == 0 { // in exchange
				if back := now.Days[to].Order; len(back) > 0 {
					move(back[random.IntN(len(back))], from)
				}
			}
		}
	}
	for d := range sets {
		s.day(d, sets[d], now.Days[d].Order)
	}
	return sets
}

// leftOut are the scenes on no day.
func (s *shoot) leftOut(now DaysResult) []int {
	var out []int
	for j := range s.p.Days[0].Scenes {
		if !slices.ContainsFunc(now.Days, func(r Result) bool { return r.Start[j] >= 0 }) {
			out = append(out, j)
		}
	}
	return out
}

// polish places each day of the best by the whole solver.
func (s *shoot) polish() {
	for d, set := range s.sets {
		if s.ctx.Err() != nil {
			return
		}
		now := s.memo[d][set]
		sub, scenes := only(s.p.Days[d], set)
		for _, j := range now.Order {
			sub.Hint = append(sub.Hint, slices.Index(scenes, j))
		}
		if r, err := Solve(s.ctx, sub, nil); err == nil {
			before := s.best
			s.memo[d][set] = whole(s.p.Days[d], r, scenes)
			if s.best = s.lost(s.sets); s.best > before { // a scene left out for less than it costs a day's rule
				s.memo[d][set], s.best = now, before
			}
		}
	}
	s.better(s.result())
}
