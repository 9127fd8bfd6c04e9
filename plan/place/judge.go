package place

import (
	"errors"
	"fmt"
	"slices"
)

// ErrRule is wrapped by every error of Judge that says which rule a placement breaks.
var ErrRule = errors.New("the placement breaks a rule")

// Judge recomputes what a placement loses from its Start, Order, Meals, Call and Wrap alone, slot by slot, and checks
// every rule. It shares no code with Solve: it is the slow, plain reading of the package comment. The error wraps ErrRule
// and names the rule, or is that of Validate. Loss, Bound and Status of the Result are not read.
func Judge(p Problem, r Result) (Loss, error) {
	if err := p.Validate(); err != nil {
		return Loss{}, err
	}
	if err := judgeOrder(p, r); err != nil {
		return Loss{}, fmt.Errorf("%w: %w", ErrRule, err)
	}
	for _, rule := range []func(Problem, Result) error{judgeScenes, judgeGaps, judgeDay, judgeMeals, judgeLooks, judgeHours} {
		if err := rule(p, r); err != nil {
			return Loss{}, fmt.Errorf("%w: %w", ErrRule, err)
		}
	}
	return judgeLoss(p, r), nil
}

// JudgeDays does for several days what Judge does for one.
func JudgeDays(p Days, r DaysResult) (total int64, err error) {
	if err := p.Validate(); err != nil {
		return 0, err
	}
	if len(r.Days) != len(p.Days) {
		return 0, fmt.Errorf("%w: %d days for %d", ErrRule, len(r.Days), len(p.Days))
	}
	used, wrap := 0, -MaxSlots
	day := make([]int, len(p.Days[0].Scenes)) // by scene, from 1; 0 where it is left out
	for d, one := range r.Days {
		loss, err := Judge(p.Days[d], one)
		if err != nil {
			return 0, fmt.Errorf("day %d: %w", d, err)
		}
		total += loss.Total() - loss.LeftOut
		if len(one.Order) == 0 {
			continue
		}
		if used++; one.Call+p.Offset[d] < wrap+p.Rest {
			return 0, fmt.Errorf("%w: day %d is called before the rest is over", ErrRule, d)
		}
		wrap = one.Wrap + p.Offset[d]
		for _, j := range one.Order {
			if day[j] > 0 {
				return 0, fmt.Errorf("%w: scene %d is on two days", ErrRule, j)
			}
			day[j] = d + 1
		}
	}
	between, err := judgeBetween(p, day)
	return total + between + p.Opening*int64(max(0, used-1)), err
}

// judgeBetween is what the days lose together beside their number: scenes on none of them, people who come again. No scene
// is on an earlier day than one that must come before it.
func judgeBetween(p Days, day []int) (lost int64, err error) {
	for j, s := range p.Days[0].Scenes {
		for _, a := range s.After {
			if day[j] > 0 && day[a] > day[j] {
				return 0, fmt.Errorf("%w: scene %d is on an earlier day than scene %d", ErrRule, j, a)
			}
		}
		if day[j] == 0 {
			lost += s.Leave
		}
	}
	for q := range p.Days[0].People {
		comes := make([]int64, len(p.Days)+1)
		for j, s := range p.Days[0].Scenes {
			if slices.Contains(s.People, q) {
				comes[day[j]] = 1
			}
		}
		sum := int64(0)
		for _, n := range comes[1:] {
			sum += n
		}
		lost += p.Again * max(0, sum-1)
	}
	return lost, nil
}

func judgeOrder(p Problem, r Result) error {
	if len(r.Start) != len(p.Scenes) {
		return fmt.Errorf("Start has %d entries for %d scenes", len(r.Start), len(p.Scenes))
	}
	seen := make([]bool, len(p.Scenes))
	for i, s := range r.Order {
		if s < 0 || s >= len(p.Scenes) || seen[s] || r.Start[s] < 0 {
			return fmt.Errorf("Order[%d] names scene %d, unknown, repeated or left out", i, s)
		}
		seen[s] = true
	}
	for s, start := range r.Start {
		if start >= 0 && !seen[s] {
			return fmt.Errorf("scene %d has a start and is not in Order", s)
		}
	}
	return nil
}

// judgeScenes: every scene starts where it may and after those that must come before it.
func judgeScenes(p Problem, r Result) error {
	for _, i := range r.Order {
		s, start := p.Scenes[i], r.Start[i]
		if start >= p.Slots || s.Light[start] == Forbidden {
			return fmt.Errorf("scene %d may not start at slot %d", i, start)
		}
		for _, a := range s.After {
			if r.Start[a] >= 0 && r.Start[a] >= start {
				return fmt.Errorf("scene %d comes before scene %d", i, a)
			}
		}
	}
	return nil
}

// judgeGaps: between two scenes there is room for the meals, then the move, then the set-up.
func judgeGaps(p Problem, r Result) error {
	for k := 1; k < len(r.Order); k++ {
		a, b := r.Order[k-1], r.Order[k]
		free := r.Start[a] + p.Scenes[a].Shoot
		setup := r.Start[b] - judgeSetup(p, r, k)
		for _, m := range r.Meals {
			if m.To > free && m.From < setup {
				free = m.To
			}
		}
		if free+p.Moves[p.Scenes[a].Space][p.Scenes[b].Space] > setup {
			return fmt.Errorf("no room between scenes %d and %d", a, b)
		}
	}
	return nil
}

// judgeSetup is the set-up of the scene at a place in the order: none right after one with its lighting, in its space.
func judgeSetup(p Problem, r Result, k int) int {
	s := p.Scenes[r.Order[k]]
	if k > 0 && s.Lights != 0 {
		if before := p.Scenes[r.Order[k-1]]; before.Lights == s.Lights && before.Space == s.Space {
			return 0
		}
	}
	return s.Setup
}

// judgeLooks: from the end of each scene of a person to the shooting of each later one in another look they have their time
// to change.
func judgeLooks(p Problem, r Result) error {
	look := func(scene, person int) int {
		s := p.Scenes[scene]
		if at := slices.Index(s.People, person); at >= 0 && s.Looks != nil {
			return s.Looks[at]
		}
		return 0
	}
	for q, who := range p.People {
		for k, a := range r.Order {
			for _, b := range r.Order[k+1:] {
				if look(a, q) != 0 && look(b, q) != 0 && look(a, q) != look(b, q) && r.Start[a]+p.Scenes[a].Shoot+who.Change > r.Start[b] {
					return fmt.Errorf("person %d cannot change between scenes %d and %d", q, a, b)
				}
			}
		}
	}
	return nil
}

// judgeHours: nobody is there or shoots for longer than they may.
func judgeHours(p Problem, r Result) error {
	for q, who := range p.People {
		from, to, work := p.Slots, 0, 0
		for _, i := range r.Order {
			if s := p.Scenes[i]; slices.Contains(s.People, q) {
				from, to, work = min(from, r.Start[i]), max(to, r.Start[i]+s.Shoot), work+s.Shoot
			}
		}
		if who.Longest > 0 && to-from > who.Longest {
			return fmt.Errorf("person %d is there for %d slots, more than %d", q, to-from, who.Longest)
		}
		if who.Work > 0 && work > who.Work {
			return fmt.Errorf("person %d shoots for %d slots, more than %d", q, work, who.Work)
		}
	}
	return nil
}

// judgeDay: call and wrap are where the scenes put them, and inside the limits.
func judgeDay(p Problem, r Result) error {
	if len(r.Order) == 0 {
		if r.Call != p.Earliest || r.Wrap != p.Earliest || len(r.Meals) > 0 {
			return errors.New("an empty day has its call and wrap at Earliest and no meal")
		}
		return nil
	}
	first, last := r.Order[0], r.Order[len(r.Order)-1]
	end := r.Start[last] + p.Scenes[last].Shoot
	for _, m := range r.Meals {
		end = max(end, m.To)
	}
	switch {
	case r.Call != r.Start[first]-p.Scenes[first].Setup-p.Prepare:
		return fmt.Errorf("call at %d is not Prepare before the first set-up", r.Call)
	case r.Wrap != end+p.PackUp:
		return fmt.Errorf("wrap at %d is not PackUp after the last scene or meal", r.Wrap)
	case r.Call < p.Earliest || r.Wrap > p.Latest:
		return fmt.Errorf("call %d to wrap %d is outside %d to %d", r.Call, r.Wrap, p.Earliest, p.Latest)
	case r.Wrap-r.Call > p.Longest:
		return fmt.Errorf("the day has %d slots, more than %d", r.Wrap-r.Call, p.Longest)
	}
	return nil
}

// judgeMeals: the stretches, the number and the places of the meals.
func judgeMeals(p Problem, r Result) error {
	if p.Meal.Length == 0 {
		if len(r.Meals) > 0 {
			return errors.New("a meal without a meal rule")
		}
		return nil
	}
	day := min(p.Longest, p.Latest-p.Earliest)
	if most := max(0, (day-1)/p.Meal.Within); len(r.Meals) > most {
		return fmt.Errorf("%d meals; the longest permitted day has at most %d", len(r.Meals), most)
	}
	since := r.Call
	for i, m := range r.Meals {
		before := scenesBefore(p, r, m)
		switch {
		case m.To-m.From != p.Meal.Length:
			return fmt.Errorf("meal %d is not of the right length", i)
		case before < 1:
			return fmt.Errorf("meal %d is before the first scene, or during a scene", i)
		case m.From-since > p.Meal.Within:
			return fmt.Errorf("meal %d starts %d slots after the last", i, m.From-since)
		case i > 0 && m.From < since:
			return fmt.Errorf("meal %d overlaps the one before", i)
		case i > 0 && m.From-since < p.Meal.Apart:
			return fmt.Errorf("meal %d follows the one before too soon", i)
		case i > 0 && before == len(r.Order) && scenesBefore(p, r, r.Meals[i-1]) == before:
			return errors.New("two meals after the last scene")
		case before == len(r.Order) && m.From != r.Start[r.Order[before-1]]+p.Scenes[r.Order[before-1]].Shoot:
			return errors.New("the meal after the last scene does not follow it at once")
		}
		since = m.To
	}
	if r.Wrap-since > p.Meal.Within {
		return fmt.Errorf("wrap is %d slots after the last meal or call", r.Wrap-since)
	}
	return nil
}

// scenesBefore counts the scenes that are over when the meal starts, or is -1 if the meal meets a scene's slots.
func scenesBefore(p Problem, r Result, m Span) int {
	n := 0
	for k, i := range r.Order {
		from, to := r.Start[i]-judgeSetup(p, r, k), r.Start[i]+p.Scenes[i].Shoot
		switch {
		case to <= m.From:
			n++
		case from < m.To:
			return -1
		}
	}
	return n
}

func judgeLoss(p Problem, r Result) Loss {
	loss := Loss{Length: p.DayCost * int64(r.Wrap-r.Call)}
	if p.Overtime != nil && len(r.Order) > 0 {
		loss.Overtime = p.Overtime[r.Wrap-r.Call]
	}
	for i, s := range p.Scenes {
		if r.Start[i] < 0 {
			loss.LeftOut += s.Leave
		} else {
			loss.Light += s.Light[r.Start[i]]
		}
	}
	for k := 1; k < len(r.Order); k++ {
		from, to := p.Scenes[r.Order[k-1]].Space, p.Scenes[r.Order[k]].Space
		loss.Moves += p.MoveCost * int64(p.Moves[from][to])
	}
	for q, who := range p.People {
		loss.Waiting += who.Wait * judgeWaiting(p, r, q)
	}
	return loss
}

// judgeWaiting counts, slot by slot, how long a person is there and neither in the scene being shot nor at a meal.
func judgeWaiting(p Problem, r Result, person int) int64 {
	from, to := p.Slots, 0
	busy := make([]bool, p.Slots)
	for _, i := range r.Order {
		if !slices.Contains(p.Scenes[i].People, person) {
			continue
		}
		end := r.Start[i] + p.Scenes[i].Shoot
		from, to = min(from, r.Start[i]), max(to, end)
		for t := r.Start[i]; t < end; t++ {
			busy[t] = true
		}
	}
	for _, m := range r.Meals {
		for t := m.From; t < m.To; t++ {
			busy[t] = true
		}
	}
	waits := int64(0)
	for t := from; t < to; t++ {
		if !busy[t] {
			waits++
		}
	}
	return waits
}
