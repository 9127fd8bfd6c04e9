package chance

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
)

// MaxDraws is the most that Run takes: a hundred times what a page needs, and a second or two of work.
const MaxDraws = 1_000_000

// Input is one thing that is not sure.
type Input struct {
	// Name is for messages and for the picture. The order of draws hangs on it, not on the place in the list: the inputs that two
	// variants of a plan share are drawn alike in both, so that their difference is not the luck of the draw.
	Name string
	// Range is of the value: hours, rounds, or money at once.
	Range Range
	// Chance is that it happens at all, more than 0 and at most 1: 1 for what always does, 0.2 for a weather day that comes one time in
	// five. When it does not happen it adds nothing. 0 is refused, for it may as well be a figure forgotten.
	Chance float64
	// Cost is what a value adds to the total, in money; it may bend, as overtime does. Nil when the value is money already.
	Cost func(x float64) float64
}

// check says in words what is wrong with the input, or nil.
func (in Input) check() error {
	if err := in.Range.Check(); err != nil {
		return fmt.Errorf("%s: %w", in.Name, err)
	}
	if !(in.Chance > 0 && in.Chance <= 1) { // false for NaN too
		return fmt.Errorf("%s: its chance is %s; it must be more than 0 and at most 1 (1: it always happens)", in.Name, figure(in.Chance))
	}
	return nil
}

// cost is what the value x adds to the total.
func (in Input) cost(x float64) (float64, error) {
	if in.Cost == nil {
		return x, nil
	}
	c := in.Cost(x)
	if !(math.Abs(c) <= Most) {
		return 0, fmt.Errorf("%s: its cost at %s is %s; that cannot be counted", in.Name, figure(x), figure(c))
	}
	return c, nil
}

// at is what the input adds at the share u of all its cases, those in which it does not happen first.
func (in Input) at(u float64) (float64, error) {
	if u < 1-in.Chance {
		return 0, nil
	}
	return in.cost(in.Range.Quantile((u - (1 - in.Chance)) / in.Chance))
}

// Run draws the total of fixed and all inputs that many times (10,000 are plenty; the package comment says how far off they may be)
// and returns how the totals lie. It stops early with ctx's error.
func Run(ctx context.Context, seed uint64, draws int, fixed float64, inputs []Input) (Outcome, error) {
	if draws < 1 || draws > MaxDraws {
		return Outcome{}, fmt.Errorf("%d draws; it must be 1 to %d", draws, MaxDraws)
	}
	if err := check(fixed, inputs); err != nil {
		return Outcome{}, err
	}
	totals := make([]float64, draws)
	for i := range totals {
		totals[i] = fixed
	}
	order := make([]int, draws)
	seen := map[string]uint64{} // two inputs of one name must not be drawn in step
	for _, in := range inputs {
		if err := ctx.Err(); err != nil {
			return Outcome{}, err
		}
		shuffle(order, seed, in.Name, seen[in.Name])
		seen[in.Name]++
		for i, stretch := range order {
			c, err := in.at((float64(stretch) + 0.5) / float64(draws))
			if err != nil {
				return Outcome{}, err
			}
			totals[i] += c
		}
	}
	return newOutcome(totals), nil
}

// check says in words what is wrong with what a total is made of, or nil.
func check(fixed float64, inputs []Input) error {
	if !(math.Abs(fixed) <= Most) {
		return errors.New("the part of the total that is sure is not a number that can be counted")
	}
	for _, in := range inputs {
		if err := in.check(); err != nil {
			return err
		}
	}
	return nil
}

// shuffle fills order with 0, 1, 2 ... in an order that hangs on seed, name and nth alone.
func shuffle(order []int, seed uint64, name string, nth uint64) {
	h := fnv.New64a()
	h.Write(binary.LittleEndian.AppendUint64([]byte(name), nth))
	random := rand.New(rand.NewPCG(seed, h.Sum64()))
	for i := range order {
		order[i] = i
	}
	random.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
}

// Outcome is how the totals lie. It is not changed once made.
type Outcome struct {
	Mean      float64 // the average total, in money
	Deviation float64 // the standard deviation of the totals, in money

	totals []float64 // sorted
}

func newOutcome(totals []float64) Outcome {
	slices.Sort(totals)
	o := Outcome{totals: totals}
	n := float64(len(totals))
	for _, t := range totals {
		o.Mean += t / n
	}
	o.Mean = min(max(o.Mean, totals[0]), totals[len(totals)-1]) // rounding must not carry it past all totals
	squares := 0.0
	for _, t := range totals {
		squares += (t - o.Mean) * (t - o.Mean) / n
	}
	o.Deviation = math.Sqrt(squares)
	return o
}

// Draws is how many totals there are; none in the zero Outcome, whose figures are all 0.
func (o Outcome) Draws() int { return len(o.totals) }

// Quantile is the least total that at least a share q of the draws does not go over: at q = 0.8 what holds in 8 cases of 10.
// (The inverse of the empirical distribution: definition 1 of R. J. Hyndman and Y. Fan, Sample Quantiles in Statistical
// Packages, 1996.) Below 0 and above 1 it is the least and the greatest total.
func (o Outcome) Quantile(q float64) float64 {
	n := len(o.totals)
	if n == 0 || math.IsNaN(q) {
		return 0
	}
	rank := math.Ceil(min(max(q, 0), 1)*float64(n) - 1e-6) // 0.07 of 100 is the 7th, though a float64 says 7.000000000000001
	return o.totals[max(int(rank), 1)-1]
}

// Chance is the share of draws over a figure, 0 to 1: with costs as the total and a price as the figure, how often it loses money.
func (o Outcome) Chance(above float64) float64 {
	if len(o.totals) == 0 {
		return 0
	}
	upTo, _ := slices.BinarySearchFunc(o.totals, above, func(t, above float64) int {
		if t <= above {
			return -1
		}
		return 1
	})
	return float64(len(o.totals)-upTo) / float64(len(o.totals))
}

// Bar is one bar of a picture: how many totals lie from From up to To (in money), To itself in the last bar only.
type Bar struct {
	From, To float64
	Draws    int
}

// Bars cuts the stretch from the least to the greatest total into n equal bars. It is one bar where all totals are the same, and none
// where there are no totals or n is less than 1.
func (o Outcome) Bars(n int) []Bar {
	if len(o.totals) == 0 || n < 1 {
		return nil
	}
	low, high := o.totals[0], o.totals[len(o.totals)-1]
	width := (high - low) / float64(n)
	if low+width == low { // all the same, or apart by less than a float64 can cut
		return []Bar{{low, high, len(o.totals)}}
	}
	bars := make([]Bar, n)
	for i := range bars {
		bars[i] = Bar{From: low + float64(i)*width, To: low + float64(i+1)*width}
	}
	bars[n-1].To = high
	b := 0
	for _, t := range o.totals {
		for b < n-1 && t >= bars[b].To {
			b++
		}
		bars[b].Draws++
	}
	return bars
}
