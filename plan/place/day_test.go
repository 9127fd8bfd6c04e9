package place

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// windowedDay makes a synthetic shoot day on a 5-minute grid from 4:00 to 24:00 (240 slots): windows of light at dawn, by
// day and at dusk with soft shoulders, eight people of whom each scene has some, six spaces, one meal in six hours. The
// figures are those of the program's usual day, in thousandths of a point; common practice, no published source.
func windowedDay(seed uint64, scenes int) Problem {
	r := rand.New(rand.NewPCG(seed, uint64(scenes)))
	p := Problem{
		Slots: 240, MoveCost: 500, DayCost: 170, Prepare: 6, PackUp: 4, Latest: 240, Longest: 168,
		Meal: Meal{Within: 72, Length: 9},
	}
	for a := range 6 {
		p.Moves = append(p.Moves, make([]int, 6))
		for b := range a {
			move := 1 + r.IntN(3)
			p.Moves[a][b], p.Moves[b][a] = move, move
		}
	}
	for q := range 8 {
		p.People = append(p.People, Person{Wait: 1000})
		if q == 0 {
			p.People[q].Wait = 3000 // a child
		}
	}
	for range scenes {
		s := windowedScene(r)
		if scenes > 20 { // so many fit one day only if they are short
			s.Setup, s.Shoot = r.IntN(2), 1+r.IntN(3)
		}
		p.Scenes = append(p.Scenes, s)
	}
	return p
}

func windowedScene(r *rand.Rand) Scene {
	s := Scene{Space: r.IntN(6), Setup: 1 + r.IntN(3), Shoot: 3 + r.IntN(5), Light: make([]int64, 240)}
	s.Leave = []int64{100_000, 400_000, 400_000, 2_000_000}[r.IntN(4)]
	from, to := 24, 216 // any daylight
	switch r.IntN(6) {
	case 0:
		from, to = 20, 38 // golden morning
	case 1:
		from, to = 174, 196 // golden evening
	case 2, 3:
		from = 40 + r.IntN(80) // a face in the sun
		to = from + 20 + r.IntN(40)
	}
	most := int64(s.Shoot * 5 * 1000 * (1 + r.IntN(4)))
	for t := range s.Light {
		s.Light[t] = Forbidden
		late := min(t-from, to-t)
		if late >= 0 {
			s.Light[t] = most * int64(max(0, 6-late)) / 6
		}
	}
	for q := range 8 {
		if r.IntN(3) == 0 {
			s.People = append(s.People, q)
		}
	}
	return s
}

// autumnDay makes a synthetic shoot day that a good owner would plan: near the equinox, so that dawn and dusk lie within one
// day, with 4 to 8 people, 5 to 8 spaces, and scenes that take three quarters of it.
func autumnDay(seed uint64, scenes int) Problem {
	r := rand.New(rand.NewPCG(seed, 100+uint64(scenes)))
	p := windowedDay(seed, 0)
	p.People, p.Moves = p.People[:4+r.IntN(5)], nil
	spaces := 5 + r.IntN(4)
	for a := range spaces {
		p.Moves = append(p.Moves, make([]int, spaces))
		for b := range a {
			move := 1 + r.IntN(2)
			p.Moves[a][b], p.Moves[b][a] = move, move
		}
	}
	for range scenes {
		p.Scenes = append(p.Scenes, autumnScene(r, p, scenes))
	}
	return p
}

func autumnScene(r *rand.Rand, p Problem, scenes int) Scene {
	slots := 105 / scenes // for the set-up and the shooting
	s := Scene{Space: r.IntN(len(p.Moves)), Setup: r.IntN(slots/3 + 1), Light: make([]int64, 240)}
	s.Shoot = max(1, slots-s.Setup-r.IntN(2))
	s.Leave = []int64{100_000, 400_000, 400_000, 2_000_000}[r.IntN(4)]
	from, to := 40, 172 // any daylight
	switch r.IntN(6) {
	case 0:
		from, to = 34, 50 // golden morning
	case 1:
		from, to = 160, 178 // golden evening
	case 2, 3:
		from = 45 + r.IntN(80) // a face in the sun
		to = from + 20 + r.IntN(40)
	}
	most := int64(s.Shoot * 5 * 1000 * (1 + r.IntN(4)))
	for t := range s.Light {
		s.Light[t] = Forbidden
		if late := min(t-from, to-t); late >= 0 {
			s.Light[t] = most * int64(max(0, 6-late)) / 6
		}
	}
	for q := range p.People {
		if r.IntN(3) == 0 {
			s.People = append(s.People, q)
		}
	}
	return s
}

func BenchmarkSolve(b *testing.B) {
	for name, day := range map[string]func(uint64, int) Problem{"autumn": autumnDay, "crowded": windowedDay} {
		for _, n := range []int{10, 14, 20, 40} {
			for seed := range uint64(4) {
				b.Run(fmt.Sprintf("%s/n=%d/seed=%d", name, n, seed), func(b *testing.B) {
					p := day(seed, n)
					var r Result
					for b.Loop() {
						r, _ = Solve(context.Background(), p, nil)
					}
					b.ReportMetric(float64(r.Loss.Total()), "loss")
					b.ReportMetric(float64(r.Bound), "bound")
					b.ReportMetric(float64(len(r.Order)), "placed")
				})
			}
		}
	}
}

// finer is the same day on a grid five times as fine.
func finer(p Problem) Problem {
	const by = 5
	for _, v := range []*int{&p.Slots, &p.Prepare, &p.PackUp, &p.Earliest, &p.Latest, &p.Longest, &p.Meal.Within, &p.Meal.Length, &p.Meal.Apart} {
		*v *= by
	}
	p.MoveCost, p.DayCost = p.MoveCost/by, p.DayCost/by
	people, moves, scenes := p.People, p.Moves, p.Scenes
	p.People, p.Moves, p.Scenes = nil, nil, nil
	for _, q := range people {
		q.Wait /= by
		p.People = append(p.People, q)
	}
	for _, row := range moves {
		var fine []int
		for _, m := range row {
			fine = append(fine, m*by)
		}
		p.Moves = append(p.Moves, fine)
	}
	for _, s := range scenes {
		s.Setup, s.Shoot = s.Setup*by, s.Shoot*by
		light := make([]int64, p.Slots)
		for t := range light {
			light[t] = s.Light[t/by]
			if next := t/by + 1; light[t] != Forbidden && next < len(s.Light) {
				if s.Light[next] == Forbidden && t%by > 0 {
					light[t] = Forbidden
				} else if s.Light[next] != Forbidden {
					light[t] += (s.Light[next] - light[t]) * int64(t%by) / by
				}
			}
		}
		s.Light = light
		p.Scenes = append(p.Scenes, s)
	}
	return p
}

// BenchmarkGrid compares a 5-minute grid with a 1-minute grid.
func BenchmarkGrid(b *testing.B) {
	for _, n := range []int{10, 14, 20} {
		coarse := autumnDay(0, n)
		for name, p := range map[string]Problem{"5min": coarse, "1min": finer(coarse)} {
			b.Run(fmt.Sprintf("n=%d/%s", n, name), func(b *testing.B) {
				var r Result
				for b.Loop() {
					r, _ = Solve(context.Background(), p, nil)
				}
				b.ReportMetric(float64(r.Loss.Total()), "loss")
				b.ReportMetric(float64(r.Bound), "bound")
			})
		}
	}
}

// BenchmarkFirst is the time to a first plan, and BenchmarkEdit that to the proof after a scene has become longer, with the
// order before and without it.
func BenchmarkFirst(b *testing.B) {
	for _, n := range []int{10, 14, 20, 40} {
		p := autumnDay(0, n)
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			for b.Loop() {
				ctx, cancel := context.WithCancel(context.Background())
				_, _ = Solve(ctx, p, func(Result) { cancel() })
				cancel()
			}
		})
	}
}

func BenchmarkEdit(b *testing.B) {
	for seed := range uint64(4) {
		p := autumnDay(seed, 20)
		before, _ := Solve(context.Background(), p, nil)
		p.Scenes = slices.Clone(p.Scenes)
		p.Scenes[3].Shoot++
		for name, hint := range map[string][]int{"afresh": nil, "again": before.Order} {
			b.Run(fmt.Sprintf("seed=%d/%s", seed, name), func(b *testing.B) {
				p.Hint = hint
				for b.Loop() {
					_, _ = Solve(context.Background(), p, nil)
				}
			})
		}
	}
}

// BenchmarkOpen is days without any window.
func BenchmarkOpen(b *testing.B) {
	for _, n := range []int{10, 14, 20} {
		p := autumnDay(0, n)
		for i := range p.Scenes {
			p.Scenes[i].Light = make([]int64, p.Slots)
		}
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			var r Result
			for b.Loop() {
				r, _ = Solve(context.Background(), p, nil)
			}
			b.ReportMetric(float64(r.Loss.Total()), "loss")
			b.ReportMetric(float64(r.Bound), "bound")
		})
	}
}
