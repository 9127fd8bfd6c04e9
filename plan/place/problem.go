package place

import (
	"errors"
	"fmt"
	"slices"
)

// Forbidden in Scene.Light marks a slot where the scene may not start.
const Forbidden int64 = -1

// Never is a Scene.Leave price that no plan pays willingly. Solve still leaves such a scene out when it cannot be placed
// at all, and Loss.LeftOut then shows it; a caller that must know compares LeftOut with Never.
const Never int64 = 1 << 40

// ErrLimits is wrapped by the error of Validate that tells of too many people with limits.
var ErrLimits = errors.New("people with different scenes have a limit of hours")

// MaxLimits is the most groups of people, those in the same scenes being one, that can have Longest or Work.
const MaxLimits = 6

// Limits of a Problem. They keep a set of scenes or of people in one machine word and every sum inside an int64.
const (
	MaxScenes = 64
	MaxSlots  = 4096
	MaxCost   = Never
)

// Problem is one shooting day to be filled: one crew, one scene at a time. All times are slots, counted from 0, and all
// costs are whole numbers in one unit of the caller's choice. Solve only reads it.
type Problem struct {
	Slots    int     // the day is slots 0..Slots-1; nothing happens outside
	Scenes   []Scene // at most MaxScenes
	People   []Person
	Moves    [][]int // slots to move the kit from space a to b; [a][a] is 0; need not be symmetric
	MoveCost int64   // cost of one slot spent moving, on top of what that slot costs anyway
	Prepare  int     // slots from call to the first set-up's start
	PackUp   int     // slots from the last scene's end to wrap
	Earliest int     // call is no earlier than this slot
	Latest   int     // wrap is no later than this slot; at most Slots
	Longest  int     // call to wrap is at most this many slots
	DayCost  int64   // cost of one slot from call to wrap
	Overtime []int64 // what a day of so many slots costs beyond DayCost, by its length; never falling; nil is nothing
	Meal     Meal    // the zero Meal is no rule
	Scarce   []Span  // slots that a meal keeps out of where it can without losing anything, such as those of the best light
	Hint     []int   // scenes in the order of an earlier placement, to begin with: it changes how fast, not how good
}

// Person is somebody who is in scenes.
type Person struct {
	Wait    int64 // cost of one slot of waiting
	Change  int   // slots that another look takes, from the end of a scene in one to the shooting in the other
	Longest int   // slots from their first shooting start to their last end at most; 0 is no limit
	Work    int   // slots of shooting that they are in at most; 0 is no limit
}

// Scene is one scene to be placed. It occupies the slots [start-Setup, start+Shoot), where start is its shooting start.
type Scene struct {
	Space  int     // row of Problem.Moves
	Setup  int     // slots of set-up, right before the shooting
	Lights int     // 0, or a lighting that scenes of one space share: right after another with it, no set-up is needed
	Shoot  int     // slots of shooting, at least 1
	Light  []int64 // cost by shooting-start slot, Forbidden where it may not start; len is Problem.Slots
	Leave  int64   // cost of leaving it out
	People []int   // who is in it: indices into Problem.People, each once
	Looks  []int   // nil, or by place in People the look they wear; 0 is any look
	After  []int   // scenes that must come before it, if both are placed: indices into Problem.Scenes
}

// Meal is the meal rule: no stretch longer than Within slots without a meal, measured from call to a meal's start, from a
// meal's end to the next meal's start, and from the last meal's end (or call) to wrap; and none shorter than Apart between
// two meals. Length 0 is no rule and no meals. See the package comment for how many meals a day may have and where.
type Meal struct {
	Within, Length, Apart int
}

// Span is a half-open run of slots.
type Span struct {
	From, To int
}

// Loss is what a placement loses, by its parts.
type Loss struct {
	Light, Waiting, Moves, Length, Overtime, LeftOut int64
}

// Total is the one number that Solve makes least.
func (l Loss) Total() int64 { return l.Light + l.Waiting + l.Moves + l.Length + l.Overtime + l.LeftOut }

// Status says how far a Result can be trusted to be the best.
type Status int

// Proven: no placement loses less. Within: none loses less than Bound. Cancelled: the context ended first; the placement
// is legal and the bound honest, but another run may find better.
const (
	Within Status = iota
	Proven
	Cancelled
)

// String is the status as one lower-case word.
func (s Status) String() string {
	switch s {
	case Proven:
		return "proven"
	case Cancelled:
		return "cancelled"
	}
	return "within"
}

// Result is one legal placement and what is known about it.
type Result struct {
	Start  []int  // shooting start slot per scene, -1 where left out
	Order  []int  // the placed scenes in order
	Meals  []Span // in order
	Call   int    // first set-up's start less Prepare; Earliest when nothing is placed
	Wrap   int    // last scene's end, or the end of a meal after it, plus PackUp; Earliest when nothing is placed
	Loss   Loss
	Bound  int64 // no placement loses less than this
	Status Status
}

// Validate returns the first thing that makes the problem malformed, naming the field, or nil.
func (p Problem) Validate() error {
	switch {
	case p.Slots < 1 || p.Slots > MaxSlots:
		return fmt.Errorf("Slots is %d; want 1 to %d", p.Slots, MaxSlots)
	case len(p.Scenes) > MaxScenes:
		return fmt.Errorf("%d scenes; a day holds at most %d", len(p.Scenes), MaxScenes)
	case p.Earliest < 0 || p.Earliest > p.Latest || p.Latest > p.Slots:
		return fmt.Errorf("Earliest %d and Latest %d; want 0 <= Earliest <= Latest <= Slots (%d)", p.Earliest, p.Latest, p.Slots)
	case !inRange(MaxSlots, p.Prepare, p.PackUp, p.Longest, p.Meal.Within, p.Meal.Length, p.Meal.Apart):
		return fmt.Errorf("Prepare, PackUp, Longest and Meal want 0 to %d slots", MaxSlots)
	case p.Meal.Length > 0 && (p.Meal.Within < 1 || p.Meal.Apart > p.Meal.Within):
		return fmt.Errorf("Meal is %+v; want Within at least 1 and no less than Apart", p.Meal)
	case !affordable(p.MoveCost) || !affordable(p.DayCost):
		return fmt.Errorf("MoveCost %d and DayCost %d want 0 to MaxCost", p.MoveCost, p.DayCost)
	}
	for i, j := range p.Hint {
		if j < 0 || j >= len(p.Scenes) || slices.Contains(p.Hint[:i], j) {
			return fmt.Errorf("Hint names scene %d, which is unknown or there twice", j)
		}
	}
	for i, q := range p.People {
		if !affordable(q.Wait) || !inRange(MaxSlots, q.Change, q.Longest, q.Work) {
			return fmt.Errorf("People[%d] is %+v; want Wait 0 to MaxCost and the rest 0 to %d slots", i, q, MaxSlots)
		}
	}
	if err := p.validateOvertime(); err != nil {
		return err
	}
	if err := p.validateMoves(); err != nil {
		return err
	}
	for i := range p.Scenes {
		if err := p.validateScene(i); err != nil {
			return fmt.Errorf("Scenes[%d]: %w", i, err)
		}
	}
	if groups := len(waitingGroups(p)); groups > 64 {
		return fmt.Errorf("%d people with different scenes may wait; at most 64", groups)
	}
	if n := len(limits(p)); n > MaxLimits {
		return fmt.Errorf("%w: %d; at most %d", ErrLimits, n, MaxLimits)
	}
	return nil
}

func (p Problem) validateOvertime() error {
	if p.Overtime != nil && len(p.Overtime) != p.Longest+1 {
		return fmt.Errorf("Overtime has %d entries; want one for each length of 0 to Longest, %d", len(p.Overtime), p.Longest+1)
	}
	for i, c := range p.Overtime {
		if !affordable(c) || i > 0 && c < p.Overtime[i-1] {
			return fmt.Errorf("Overtime[%d] is %d; want 0 to MaxCost and no less than the one before", i, c)
		}
	}
	return nil
}

func (p Problem) validateMoves() error {
	for a, row := range p.Moves {
		if len(row) != len(p.Moves) {
			return fmt.Errorf("Moves[%d] has %d entries; want %d", a, len(row), len(p.Moves))
		}
		if row[a] != 0 {
			return fmt.Errorf("Moves[%d][%d] is %d; want 0", a, a, row[a])
		}
		if !inRange(MaxSlots, row...) {
			return fmt.Errorf("Moves[%d] wants 0 to %d slots", a, MaxSlots)
		}
	}
	return nil
}

func (p Problem) validateScene(i int) error {
	s := p.Scenes[i]
	switch {
	case s.Space < 0 || s.Space >= len(p.Moves):
		return fmt.Errorf("Space %d is not a row of Moves", s.Space)
	case s.Looks != nil && len(s.Looks) != len(s.People):
		return fmt.Errorf("Looks has %d entries; want none or one for each of %d People", len(s.Looks), len(s.People))
	case s.Shoot < 1 || !inRange(MaxSlots, s.Setup, s.Shoot):
		return fmt.Errorf("Setup %d and Shoot %d; want 0 or more and 1 or more, up to %d", s.Setup, s.Shoot, MaxSlots)
	case len(s.Light) != p.Slots:
		return fmt.Errorf("Light has %d entries; want one a slot, %d", len(s.Light), p.Slots)
	case !affordable(s.Leave):
		return fmt.Errorf("Leave is %d; want 0 to Never", s.Leave)
	}
	for t, c := range s.Light {
		if c != Forbidden && !affordable(c) {
			return fmt.Errorf("Light[%d] is %d; want Forbidden or 0 to MaxCost", t, c)
		}
	}
	seen := map[int]bool{}
	for _, q := range s.People {
		if q < 0 || q >= len(p.People) || seen[q] {
			return fmt.Errorf("People names %d, which is unknown or there twice", q)
		}
		seen[q] = true
	}
	for _, a := range s.After {
		if a < 0 || a >= len(p.Scenes) || a == i {
			return fmt.Errorf("After names %d, which is unknown or the scene itself", a)
		}
	}
	return nil
}

func inRange(most int, values ...int) bool {
	for _, v := range values {
		if v < 0 || v > most {
			return false
		}
	}
	return true
}

func affordable(cost int64) bool { return cost >= 0 && cost <= MaxCost }
