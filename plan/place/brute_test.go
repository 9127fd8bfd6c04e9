package place

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// brute tries every subset, order, start and place of meals, and judges each: the slow oracle for tiny days.
type brute struct {
	p     Problem
	r     Result
	best  int64
	tried int
}

func bruteForce(p Problem) (best int64, tried int) {
	b := &brute{p: p, best: inf}
	b.r.Start = make([]int, len(p.Scenes))
	for i := range b.r.Start {
		b.r.Start[i] = -1
	}
	b.r.Call, b.r.Wrap = p.Earliest, p.Earliest
	b.judge()
	b.extend(0)
	return b.best, b.tried
}

func (b *brute) judge() {
	b.tried++
	if loss, err := Judge(b.p, b.r); err == nil {
		b.best = min(b.best, loss.Total())
	}
}

// extend places each scene not yet placed at each slot from free on, with up to three meals before it.
func (b *brute) extend(free int) {
	for i, s := range b.p.Scenes {
		if b.r.Start[i] >= 0 {
			continue
		}
		setup := s.Setup
		if n := len(b.r.Order); n > 0 && s.Lights != 0 {
			if last := b.p.Scenes[b.r.Order[n-1]]; last.Lights == s.Lights && last.Space == s.Space {
				setup = 0
			}
		}
		for start := free + setup; start+s.Shoot <= b.p.Slots; start++ {
			if s.Light[start] == Forbidden {
				continue
			}
			b.r.Start[i] = start
			b.r.Order = append(b.r.Order, i)
			if len(b.r.Order) == 1 {
				b.r.Call = start - s.Setup - b.p.Prepare
				b.wrap(start + s.Shoot)
			} else {
				b.meals(free, start-setup, start+s.Shoot, 3)
			}
			b.r.Order = b.r.Order[:len(b.r.Order)-1]
			b.r.Start[i] = -1
		}
	}
}

// meals tries no meal and each next meal in the gap, then goes on.
func (b *brute) meals(free, setup, end, more int) {
	b.wrap(end)
	if b.p.Meal.Length == 0 || more == 0 {
		return
	}
	for at := free; at+b.p.Meal.Length <= setup; at++ {
		b.r.Meals = append(b.r.Meals, Span{at, at + b.p.Meal.Length})
		b.meals(at+b.p.Meal.Length, setup, end, more-1)
		b.r.Meals = b.r.Meals[:len(b.r.Meals)-1]
	}
}

// wrap judges the day that ends here, with and without a meal after, and goes on with more scenes.
func (b *brute) wrap(end int) {
	b.r.Wrap = end + b.p.PackUp
	b.judge()
	if b.p.Meal.Length > 0 {
		b.r.Meals = append(b.r.Meals, Span{end, end + b.p.Meal.Length})
		b.r.Wrap += b.p.Meal.Length
		b.judge()
		b.r.Meals = b.r.Meals[:len(b.r.Meals)-1]
	}
	b.extend(end)
}

// tiny makes a random day that brute can try out.
func tiny(r *rand.Rand, scenes, slots int) Problem {
	p := Problem{
		Slots: slots, MoveCost: r.Int64N(4), DayCost: r.Int64N(4), Prepare: r.IntN(2), PackUp: r.IntN(2),
		Earliest: r.IntN(2), Latest: slots - r.IntN(2), Longest: slots - r.IntN(slots/2),
	}
	spaces := 1 + r.IntN(3)
	for a := range spaces {
		p.Moves = append(p.Moves, make([]int, spaces))
		for b := range spaces {
			if a != b {
				p.Moves[a][b] = r.IntN(3)
			}
		}
	}
	for range r.IntN(5) {
		p.People = append(p.People, Person{Wait: r.Int64N(6)})
	}
	if r.IntN(3) > 0 {
		p.Meal = Meal{Within: 2 + r.IntN(slots/2), Length: 1 + r.IntN(2)}
		p.Meal.Apart = r.IntN(p.Meal.Within/2 + 2)
		p.Meal.Apart = min(p.Meal.Apart, p.Meal.Within)
	}
	for i := range scenes {
		p.Scenes = append(p.Scenes, tinyScene(r, p, i, scenes))
	}
	return p
}

// enrich adds what a day may have beyond the plainest: lightings shared, looks, people's hours, overtime.
func enrich(r *rand.Rand, p Problem) Problem {
	for q := range p.People {
		who := &p.People[q]
		who.Change = r.IntN(4)
		if r.IntN(3) == 0 {
			who.Longest = 2 + r.IntN(p.Slots)
		}
		if r.IntN(4) == 0 {
			who.Work = 2 + r.IntN(5)
		}
	}
	for i := range p.Scenes {
		s := &p.Scenes[i]
		s.Lights = r.IntN(3)
		if r.IntN(2) == 0 {
			for range s.People {
				s.Looks = append(s.Looks, r.IntN(3))
			}
		}
	}
	if r.IntN(2) == 0 {
		p.Overtime = make([]int64, p.Longest+1)
		for i := p.Longest / 2; i <= p.Longest; i++ {
			p.Overtime[i] = p.Overtime[max(0, i-1)] + r.Int64N(2)*r.Int64N(12)
		}
	}
	return p
}

func tinyScene(r *rand.Rand, p Problem, i, scenes int) Scene {
	s := Scene{Space: r.IntN(len(p.Moves)), Setup: r.IntN(2), Shoot: 1 + r.IntN(2), Leave: r.Int64N(90), Light: make([]int64, p.Slots)}
	if r.IntN(2) == 0 {
		s.Leave = 1000
	}
	from, to := r.IntN(p.Slots), 1+r.IntN(p.Slots)
	if r.IntN(2) == 0 {
		from, to = 0, p.Slots
	}
	for t := range s.Light {
		s.Light[t] = Forbidden
		if from < to == (from <= t && t < to) && r.IntN(4) > 0 {
			s.Light[t] = r.Int64N(20)
		}
	}
	for q := range p.People {
		if r.IntN(2) == 0 {
			s.People = append(s.People, q)
		}
	}
	if i > 0 && r.IntN(4) == 0 {
		s.After = append(s.After, r.IntN(i))
	}
	if i+1 < scenes && r.IntN(8) == 0 {
		s.After = append(s.After, i+1+r.IntN(scenes-i-1))
	}
	return s
}

// TestAgainstBruteForce holds Solve against trying everything.
func TestAgainstBruteForce(t *testing.T) {
	for _, size := range []struct{ scenes, slots, cases int }{{2, 14, 1500}, {3, 11, 4500}, {4, 9, 3000}, {5, 9, 700}, {6, 8, 250}, {7, 8, 50}} {
		for seed := range size.cases {
			r := rand.New(rand.NewPCG(uint64(seed), uint64(size.scenes)))
			p := tiny(r, size.scenes, size.slots)
			if seed%4 > 0 {
				p = enrich(r, p)
			}
			mustBeBest(t, fmt.Sprintf("%d scenes, seed %d", size.scenes, seed), p)
		}
	}
}

// TestSettledAgainstBruteForce does the same where each scene has one start, as while a hand moves one of them.
func TestSettledAgainstBruteForce(t *testing.T) {
	const slots = 20
	for seed := range 600 {
		r := rand.New(rand.NewPCG(uint64(seed), slots))
		p := tiny(r, 3+r.IntN(6), slots)
		if seed%4 > 0 {
			p = enrich(r, p)
		}
		if p.Meal.Length > 0 {
			p.Meal.Within = max(p.Meal.Within, slots/4) // or a gap takes more meals than brute tries
		}
		for i := range p.Scenes {
			light := slices.Repeat([]int64{Forbidden}, slots)
			light[(i*slots/len(p.Scenes)+r.IntN(6))%slots] = r.Int64N(20)
			p.Scenes[i].Light = light
		}
		if !newModel(&p).settled() {
			t.Fatalf("seed %d is not settled", seed)
		}
		mustBeBest(t, fmt.Sprintf("seed %d", seed), p)
	}
}

// mustBeBest solves, and has brute force say that it is proven best.
func mustBeBest(t *testing.T, name string, p Problem) {
	t.Helper()
	if err := p.Validate(); err != nil {
		t.Fatal(err)
	}
	want, _ := bruteForce(p)
	got, err := Solve(context.Background(), p, nil)
	if err != nil {
		t.Fatal(err)
	}
	loss, err := Judge(p, got)
	if err != nil || loss != got.Loss {
		t.Fatalf("%s: judge says %+v, %v; result %+v\n%+v", name, loss, err, got, p)
	}
	if got.Status != Proven || got.Bound != want || loss.Total() != want {
		t.Fatalf("%s: lost %d, bound %d, %v; want %d\n%+v\n%+v", name, loss.Total(), got.Bound, got.Status, want, got, p)
	}
}
