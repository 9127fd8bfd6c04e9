package place

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// byHand is a day worked out by hand: two spaces 2 slots apart, three scenes, one meal of 3 slots in at most 13.
func byHand() (Problem, Result) {
	p := Problem{
		Slots: 40, People: []Person{{Wait: 10}, {Wait: 7}}, Moves: [][]int{{0, 2}, {1, 0}}, MoveCost: 4, Prepare: 2, PackUp: 1,
		Earliest: 1, Latest: 30, Longest: 25, DayCost: 3, Meal: Meal{Within: 13, Length: 3},
	}
	for i := range 3 {
		p.Scenes = append(p.Scenes, Scene{Setup: 1, Shoot: 3, Light: slices.Repeat([]int64{5}, 40), Leave: 100, People: []int{i % 2}})
	}
	p.Scenes[1].Space, p.Scenes[1].Light[13] = 1, 6
	p.Scenes[2].After = []int{0}
	p.Scenes[0].Light[35] = Forbidden
	r := Result{
		// call 2; scene 0 is 4-8; meal 8-11; move 11-13; scene 1 is 13-17 if it starts at 14; move 17-18; scene 2 is 19-23
		Start: []int{5, 14, 20}, Order: []int{0, 1, 2}, Meals: []Span{{8, 11}}, Call: 2, Wrap: 24,
	}
	return p, r
}

// TestJudgeByHand: person 0 is there from 5 to 23, 18 slots, shoots 6 and eats 3: waits 9. Person 1 never waits.
func TestJudgeByHand(t *testing.T) {
	p, r := byHand()
	loss, err := Judge(p, r)
	want := Loss{Light: 15, Waiting: 90, Moves: 4 * (2 + 1), Length: 3 * 22}
	if err != nil || loss != want {
		t.Errorf("%+v, %v; want %+v", loss, err, want)
	}
}

// looks has person 0 in two looks, in scenes 0 and 2, between which are 12 slots.
func looks(p *Problem, a, b int) { p.Scenes[0].Looks, p.Scenes[2].Looks = []int{a}, []int{b} }

// TestJudgeRichByHand: in one lighting the second scene needs no set-up, so it may follow a slot sooner; 12 slots are enough
// to change, and one look needs no change; 22 slots of day cost what the table says for 22.
func TestJudgeRichByHand(t *testing.T) {
	p, r := byHand()
	looks(&p, 1, 2)
	p.People[0] = Person{Wait: 10, Change: 12, Longest: 18, Work: 6}
	p.Overtime = make([]int64, 26)
	copy(p.Overtime[22:], []int64{11, 12, 13, 14})
	p.Scenes[1].Lights, p.Scenes[2].Lights, p.Scenes[2].Space = 1, 1, 1
	r.Start[2], r.Wrap = 17, 21
	loss, err := Judge(p, r) // person 0: 5 to 20, 15 slots, shoots 6, eats 3
	if want := (Loss{Light: 15, Waiting: 60, Moves: 4 * 2, Length: 3 * 19}); err == nil || !strings.Contains(err.Error(), "cannot change") {
		t.Errorf("%+v, %v; 9 slots are not enough to change", loss, err)
	} else if p.People[0].Change = 9; true {
		if loss, err = Judge(p, r); err != nil || loss != want {
			t.Errorf("%+v, %v; want %+v", loss, err, want)
		}
	}
	r.Start[2], r.Wrap = 20, 24
	if loss, err = Judge(p, r); err != nil || loss != (Loss{Light: 15, Waiting: 90, Moves: 8, Length: 66, Overtime: 11}) {
		t.Errorf("%+v, %v", loss, err)
	}
}

func TestJudgeNamesTheRule(t *testing.T) {
	for rule, spoil := range map[string]func(*Problem, *Result){
		"Start has 2 entries":       func(p *Problem, r *Result) { r.Start = r.Start[:2] },
		"repeated":                  func(p *Problem, r *Result) { r.Order[2] = 0 },
		"not in Order":              func(p *Problem, r *Result) { r.Order = r.Order[:2] },
		"may not start":             func(p *Problem, r *Result) { r.Start[0] = 35 },
		"comes before":              func(p *Problem, r *Result) { p.Scenes[0].After = []int{2} },
		"no room between":           func(p *Problem, r *Result) { r.Start[1] = 13 },
		"not Prepare before":        func(p *Problem, r *Result) { r.Call = 1 },
		"not PackUp after":          func(p *Problem, r *Result) { r.Wrap = 25 },
		"outside":                   func(p *Problem, r *Result) { p.Latest = 23 },
		"more than":                 func(p *Problem, r *Result) { p.Longest = 21 },
		"the longest permitted day": func(p *Problem, r *Result) { p.Meal.Within, p.Longest = 22, 22 },
		"right length":              func(p *Problem, r *Result) { r.Meals[0].To = 10 },
		"during a scene":            func(p *Problem, r *Result) { r.Meals[0] = Span{7, 10} },
		"before the first scene":    func(p *Problem, r *Result) { r.Meals[0] = Span{0, 3} },
		"starts 6 slots after":      func(p *Problem, r *Result) { p.Meal.Within = 5 },
		"too soon": func(p *Problem, r *Result) {
			r.Meals = append(r.Meals, Span{23, 26})
			r.Wrap, p.Longest, p.Meal.Apart = 27, 27, 13
		},
		"cannot change between":      func(p *Problem, r *Result) { looks(p, 1, 2); p.People[0].Change = 13 },
		"person 0 is there for 18":   func(p *Problem, r *Result) { p.People[0].Longest = 17 },
		"person 0 shoots for 6":      func(p *Problem, r *Result) { p.People[0].Work = 5 },
		"wrap is 13 slots":           func(p *Problem, r *Result) { p.Meal.Within = 12 },
		"a meal without a meal rule": func(p *Problem, r *Result) { p.Meal = Meal{} },
		"Slots is 0":                 func(p *Problem, r *Result) { p.Slots = 0 },
		"an empty day has its call":  func(p *Problem, r *Result) { r.Start = []int{-1, -1, -1}; r.Order = nil },
	} {
		p, r := byHand()
		spoil(&p, &r)
		_, err := Judge(p, r)
		if err == nil || !strings.Contains(err.Error(), rule) {
			t.Errorf("want an error with %q, got %v", rule, err)
		}
		if rule != "Slots is 0" && !errors.Is(err, ErrRule) {
			t.Errorf("%q does not wrap ErrRule", rule)
		}
	}
}

func TestValidate(t *testing.T) {
	for want, spoil := range map[string]func(*Problem){
		"Slots is":               func(p *Problem) { p.Slots = MaxSlots + 1 },
		"scenes; a day holds":    func(p *Problem) { p.Scenes = make([]Scene, MaxScenes+1) },
		"Earliest 31":            func(p *Problem) { p.Earliest = 31 },
		"Latest 41":              func(p *Problem) { p.Latest = 41 },
		"Prepare, PackUp":        func(p *Problem) { p.Prepare = -1 },
		"Meal is {Within:0":      func(p *Problem) { p.Meal.Within = 0 },
		"Apart:14}":              func(p *Problem) { p.Meal.Apart = 14 },
		"Overtime has 3":         func(p *Problem) { p.Overtime = make([]int64, 3) },
		"Overtime[25]":           func(p *Problem) { p.Overtime = make([]int64, 26); p.Overtime[24] = 1 },
		"People[0] is":           func(p *Problem) { p.People[0].Change = -1 },
		"Scenes[0]: Looks":       func(p *Problem) { p.Scenes[0].Looks = []int{1, 2} },
		"MoveCost":               func(p *Problem) { p.MoveCost = -1 },
		"People[1]":              func(p *Problem) { p.People[1].Wait = MaxCost + 1 },
		"Moves[0] has":           func(p *Problem) { p.Moves[0] = nil },
		"Moves[1][1]":            func(p *Problem) { p.Moves[1][1] = 1 },
		"Moves[1] wants":         func(p *Problem) { p.Moves[1][0] = -1 },
		"Scenes[2]: Space":       func(p *Problem) { p.Scenes[2].Space = 2 },
		"Scenes[1]: Setup":       func(p *Problem) { p.Scenes[1].Shoot = 0 },
		"Scenes[0]: Light has":   func(p *Problem) { p.Scenes[0].Light = nil },
		"Scenes[0]: Light[3]":    func(p *Problem) { p.Scenes[0].Light[3] = -2 },
		"Scenes[0]: Leave":       func(p *Problem) { p.Scenes[0].Leave = -1 },
		"Scenes[0]: People":      func(p *Problem) { p.Scenes[0].People = []int{0, 0} },
		"Scenes[2]: After names": func(p *Problem) { p.Scenes[2].After = []int{2} },
	} {
		p, _ := byHand()
		spoil(&p)
		if err := p.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want an error with %q, got %v", want, err)
		}
	}
}
