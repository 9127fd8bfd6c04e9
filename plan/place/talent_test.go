package place

import (
	"context"
	"encoding/json"
	"os"
	"testing"
)

// talent is a file of testdata, see the README there.
type talent struct {
	Duration []int
	Cost     []int64
	Presence [][]int
	Hold     int64 `json:"hold_cost_optimum"`
}

// problem is the talent scheduling problem as a day: any order, no gaps, no moves, nothing costs but waiting.
func (tal talent) problem() Problem {
	p := Problem{Moves: [][]int{{0}}}
	for _, d := range tal.Duration {
		p.Slots += d
	}
	for _, cost := range tal.Cost {
		p.People = append(p.People, Person{Wait: cost})
	}
	p.Latest, p.Longest = p.Slots, p.Slots
	for i, d := range tal.Duration {
		s := Scene{Shoot: d, Light: make([]int64, p.Slots), Leave: Never}
		for q := range tal.Presence {
			if tal.Presence[q][i] == 1 {
				s.People = append(s.People, q)
			}
		}
		p.Scenes = append(p.Scenes, s)
	}
	return p
}

func readTalent(t testing.TB, name string) talent {
	raw, err := os.ReadFile("testdata/csplib039-" + name + ".json")
	if err != nil {
		t.Fatal(err)
	}
	var tal talent
	if err := json.Unmarshal(raw, &tal); err != nil {
		t.Fatal(err)
	}
	return tal
}

// TestTalentScheduling holds Solve against the published optima of CSPLib problem 039.
func TestTalentScheduling(t *testing.T) {
	for _, name := range []string{"rehearsal", "film1", "film2"} {
		tal := readTalent(t, name)
		p := tal.problem()
		r, err := Solve(context.Background(), p, nil)
		if err != nil {
			t.Fatal(err)
		}
		if loss, err := Judge(p, r); err != nil || loss != r.Loss {
			t.Errorf("%s: judge says %+v, %v; result %+v", name, loss, err, r.Loss)
		}
		if r.Status != Proven || r.Loss != (Loss{Waiting: tal.Hold}) {
			t.Errorf("%s: %+v, bound %d, %v; published waiting cost %d", name, r.Loss, r.Bound, r.Status, tal.Hold)
		}
	}
}

func BenchmarkTalent(b *testing.B) {
	for _, name := range []string{"rehearsal", "film1", "film2"} {
		p := readTalent(b, name).problem()
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(context.Background(), p, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
