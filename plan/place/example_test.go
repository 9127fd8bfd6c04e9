package place_test

import (
	"context"
	"fmt"
	"slices"

	"eavelight/plan/place"
)

// window is a light table of 30 slots: free of cost in [from, to), forbidden outside.
func window(from, to int) []int64 {
	light := slices.Repeat([]int64{place.Forbidden}, 30)
	for t := from; t < to; t++ {
		light[t] = 0
	}
	return light
}

// A kitchen scene at any time, and two on the terrace in the evening. The child is in the kitchen and in one of the others, so
// these two come next to each other, with the move between them.
func ExampleSolve() {
	p := place.Problem{
		Slots: 30, Latest: 30, Longest: 30, DayCost: 1, Prepare: 1, PackUp: 1,
		People: []place.Person{{Wait: 50}}, // the child
		Moves:  [][]int{{0, 2}, {2, 0}},    // kitchen, terrace
		Scenes: []place.Scene{
			{Space: 0, Setup: 1, Shoot: 4, Light: window(0, 30), Leave: 1000, People: []int{0}},
			{Space: 1, Setup: 1, Shoot: 3, Light: window(20, 24), Leave: 1000},
			{Space: 1, Setup: 1, Shoot: 3, Light: window(18, 19), Leave: 1000, People: []int{0}},
		},
	}
	r, err := place.Solve(context.Background(), p, nil)
	if err != nil {
		panic(err)
	}
	fmt.Println("order", r.Order, "start", r.Start, "call", r.Call, "wrap", r.Wrap)
	fmt.Printf("%+v, %v\n", r.Loss, r.Status)
	// Output:
	// order [0 2 1] start [11 22 18] call 9 wrap 26
	// {Light:0 Waiting:150 Moves:0 Length:17 Overtime:0 LeftOut:0}, proven
}

func ExampleClash() {
	p := place.Problem{Slots: 30, Latest: 30, Longest: 30, Moves: [][]int{{0}}}
	for range 3 { // three scenes of four slots that must all start in the same six
		p.Scenes = append(p.Scenes, place.Scene{Shoot: 4, Light: window(20, 26), Leave: place.Never})
	}
	p.Scenes = append(p.Scenes, place.Scene{Shoot: 4, Light: window(0, 30), Leave: place.Never})
	c, err := place.Clash(context.Background(), p, 0, []int{1, 2, 3})
	if err != nil {
		panic(err)
	}
	fmt.Println(c.Kind == place.Together, c.Others)
	// Output:
	// true [1 2]
}
