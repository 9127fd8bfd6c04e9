// Package day makes a shooting day out of a plan: it asks the light for each scene's value at each start, tells the solver
// what may not be, and turns its answer back into calls, scenes, moves, meals, presence and waiting, with the problems
// explained.
//
// A placed day can tell more of itself when it is asked (WhyHere, WhyWaiting, Freeing, Gains, Others), and dates can be held
// against each other (Rank, Compare, Beats). All of that is found by placing the day again with something changed, never by a
// rule of thumb; it takes a context and returns what it has when that ends. What it finds are facts, with Words beside them.
//
// Invariants: it knows no window and no file. The same plan and date give the same day.
package day

import (
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/place"
)

// Day is one shooting day as placed. A day that could not be computed (no position yet) has no Sky and says why in Problems.
type Day struct {
	Date     plan.Date
	Number   int // which day of the shoot it is, from 1
	Of       int // how many it has
	Zone     *time.Location
	Sky      *light.Sky
	Windows  map[plan.ID][]plan.Span // for every scene, when its wish holds on this date
	Call     time.Time               // the crew's, and the general one
	Wrap     time.Time
	Scenes   []Placed // in the order they are shot
	LeftOut  []LeftOut
	Moves    []Move
	Meals    []plan.Span
	Flights  []Flight   // the scenes shot from a drone, in their order
	People   []Presence // everybody who is called, in the plan's order
	Loss     Loss
	Gap      float64 // points that a better day could save at most; 0 when Status is proven
	Status   place.Status
	Problems plan.Problems

	made *made // nil where the day could not be computed
}

// made is what a day was made from. What explains it on demand starts there and need not compute the light again.
type made struct {
	*model
	result  place.Result
	clashes map[int]place.Conflict // of the scenes left out that the solver knows, by their place in model.scenes
}

// Placed is a scene on the day.
type Placed struct {
	Scene  plan.ID
	Setup  time.Time // its set-up begins
	Start  time.Time // shooting begins
	End    time.Time // shooting ends
	Kept   float64   // the share of its light that it keeps, 0..1
	Pinned bool      // by hand, on this date
	Held   bool      // only kept where it was while another scene was moved by hand
}

// LeftOut is a scene that found no place, and why.
type LeftOut struct {
	Scene plan.ID
	Why   plan.Problem
}

// Move is the kit on its way between two spaces.
type Move struct {
	From, To plan.ID
	plan.Span
}

// Presence is one person's day.
type Presence struct {
	Person   plan.ID
	Call     time.Time // when they are to be at the property
	Release  time.Time // when they may go
	OnCamera []OnCamera
	Waiting  []plan.Span // between their first scene and their last, in no scene; a meal is not waiting, nor is time they are not free
	Filmed   plan.Minutes
	Waits    plan.Minutes
}

// OnCamera is one scene of one person.
type OnCamera struct {
	Scene plan.ID
	plan.Span
}

// Loss is what the day loses, in points, by its parts; the plan's weights say what a point is.
type Loss struct{ Light, Waiting, Moves, Length, Overtime, LeftOut float64 }

// Total is the sum of the parts.
func (l Loss) Total() float64 {
	return l.Light + l.Waiting + l.Moves + l.Length + l.Overtime + l.LeftOut
}

// Stopped tells that the search for this day ended before it was done.
func (d Day) Stopped() bool { return d.Status == place.Cancelled }

// Length is the day from call to wrap.
func (d Day) Length() plan.Minutes { return plan.Span{From: d.Call, To: d.Wrap}.Minutes() }

// LightKept is the share of the wished-for light, over all scenes and weighed by their shooting minutes, that the day
// keeps; a scene left out keeps none. The scenes of another day of the shoot are not this one's.
func (d Day) LightKept(p *plan.Plan) float64 {
	if d.Of > 1 {
		p = d.made.plan
	}
	kept, all := 0.0, 0.0
	for _, s := range p.Scenes {
		all += float64(s.Shoot)
	}
	for _, s := range d.Scenes {
		kept += s.Kept * s.End.Sub(s.Start).Minutes()
	}
	if all == 0 {
		return 0
	}
	return kept / all
}

// Placed returns one scene's place on the day.
func (d Day) Placed(id plan.ID) (Placed, bool) {
	for _, s := range d.Scenes {
		if s.Scene == id {
			return s, true
		}
	}
	return Placed{}, false
}

// Presence returns one person's day.
func (d Day) Presence(id plan.ID) (Presence, bool) {
	for _, p := range d.People {
		if p.Person == id {
			return p, true
		}
	}
	return Presence{}, false
}
