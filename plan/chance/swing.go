package chance

import (
	"cmp"
	"math"
	"slices"
)

// Swing is how far one input moves the total, in money, with all the others at their likely value.
type Swing struct {
	Name   string
	Chance float64 // that it happens at all
	// Base is the total with every input at its likely value, and without what likely does not happen. It is the same in all swings.
	Base float64
	// Low and High are the totals with the input at the figure it stays under in 1 case of 10, and in 9 of 10. For what may not
	// happen (Chance below 1): the totals without it, and with it at its likely value.
	Low, High float64
	// From and To are those figures of the input, in its own unit; both the likely one for what may not happen.
	From, To float64
}

// Size is how far apart the two totals are.
func (s Swing) Size() float64 { return math.Abs(s.High - s.Low) }

// Swings returns the swing of each input, the widest first. Tenths are taken and not the ends, for the ends hardly ever come.
// What may not happen is shown at its full size, however rare: say its Chance beside it.
func Swings(fixed float64, inputs []Input) ([]Swing, error) {
	if err := check(fixed, inputs); err != nil {
		return nil, err
	}
	base := fixed
	swings := make([]Swing, len(inputs))
	for i, in := range inputs {
		s, likely, err := in.swing()
		if err != nil {
			return nil, err
		}
		base += likely
		s.Low, s.High = s.Low-likely, s.High-likely
		swings[i] = s
	}
	for i := range swings {
		s := &swings[i]
		s.Base, s.Low, s.High = base, base+s.Low, base+s.High
	}
	slices.SortStableFunc(swings, func(a, b Swing) int { return cmp.Compare(b.Size(), a.Size()) })
	return swings, nil
}

// swing is that of the input alone, without the rest of the total, and what it likely adds.
func (in Input) swing() (s Swing, likely float64, err error) {
	s = Swing{Name: in.Name, Chance: in.Chance, From: in.Range.Likely, To: in.Range.Likely}
	likely, err = in.cost(in.Range.Likely)
	if err != nil || in.Chance < 1 {
		s.High = likely
		if in.Chance < 0.5 {
			likely = 0
		}
		return s, likely, err
	}
	s.From, s.To = in.Range.Quantile(0.1), in.Range.Quantile(0.9)
	if s.Low, err = in.cost(s.From); err == nil {
		s.High, err = in.cost(s.To)
	}
	return s, likely, err
}
