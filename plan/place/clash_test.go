package place

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"
)

// evening makes n scenes of shoot slots, all of which must start in [from, to) of a 40-slot day.
func evening(n, shoot, from, to int) Problem {
	p := Problem{Slots: 40, Moves: [][]int{{0}}, Latest: 40, Longest: 40}
	for range n {
		s := Scene{Shoot: shoot, Light: make([]int64, 40), Leave: Never}
		for t := range s.Light {
			if t < from || t >= to {
				s.Light[t] = Forbidden
			}
		}
		p.Scenes = append(p.Scenes, s)
	}
	return p
}

// TestClashPigeons: scenes of 3 slots whose starts are within 7 slots: three fit (starts 0, 3, 6), four never do.
func TestClashPigeons(t *testing.T) {
	p := evening(6, 3, 20, 27)
	for among, want := range map[int]Conflict{
		3: {Kind: None}, 4: {Kind: Together, Others: []int{1, 2, 3}, Least: true}, 6: {Kind: Together, Others: []int{3, 4, 5}, Least: true},
	} {
		got, err := Clash(context.Background(), p, 0, []int{0, 1, 2, 3, 4, 5}[:among])
		if err != nil || got.Kind != want.Kind || got.Least != want.Least || !slices.Equal(got.Others, want.Others) {
			t.Errorf("among %d: %+v, %v; want %+v", among, got, err, want)
		}
	}
}

func TestClashAlone(t *testing.T) {
	p := evening(2, 3, 38, 40)
	if got, err := Clash(context.Background(), p, 0, []int{1}); err != nil || got.Kind != Alone {
		t.Errorf("%+v, %v; want Alone", got, err)
	}
	if _, err := Clash(context.Background(), p, 2, nil); err == nil {
		t.Error("an unknown scene was accepted")
	}
}

// TestClashAgainstBruteForce: the set cannot be placed whole, and can without any one of its scenes.
func TestClashAgainstBruteForce(t *testing.T) {
	clashes := 0
	for seed := range 300 {
		p := tiny(rand.New(rand.NewPCG(uint64(seed), 7)), 4, 9)
		got, err := Clash(context.Background(), p, 0, []int{1, 2, 3})
		if err != nil {
			t.Fatal(err)
		}
		all := []int{0, 1, 2, 3}
		switch got.Kind {
		case Unknown:
			t.Errorf("seed %d: unknown", seed)
		case None:
			if !bruteFits(p, all) {
				t.Errorf("seed %d: no clash, yet they do not fit", seed)
			}
		case Alone:
			if bruteFits(p, all[:1]) {
				t.Errorf("seed %d: the scene fits alone", seed)
			}
		case Together:
			clashes++
			if set := append([]int{0}, got.Others...); bruteFits(p, set) {
				t.Errorf("seed %d: %v fit together", seed, set)
			}
			for _, o := range got.Others {
				rest := slices.DeleteFunc(append([]int{0}, got.Others...), func(i int) bool { return i == o })
				if !bruteFits(p, rest) {
					t.Errorf("seed %d: %v can be spared", seed, o)
				}
			}
		}
	}
	if clashes < 50 {
		t.Errorf("only %d clashes; the cases are too easy", clashes)
	}
}

// bruteFits asks brute whether scenes can be placed together, with the others not there at all.
func bruteFits(p Problem, scenes []int) bool {
	p.Scenes = slices.Clone(p.Scenes)
	for i := range p.Scenes {
		if slices.Contains(scenes, i) {
			p.Scenes[i].Leave = Never
			continue
		}
		p.Scenes[i].Leave = 0
		p.Scenes[i].Light = slices.Repeat([]int64{Forbidden}, p.Slots)
	}
	best, _ := bruteForce(p)
	return best < Never
}
