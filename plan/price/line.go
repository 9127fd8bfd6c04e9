package price

import (
	"eavelight/plan"

	"github.com/shopspring/decimal"
)

// Source tells where a line comes from.
type Source string

// The sources.
const (
	FromDays  Source = "placed day"
	FromCard  Source = "rate card"
	FromTyped Source = "typed"
)

// Line is one priced row of the budget.
type Line struct {
	ID         string // of overrides: stays the same when the days are placed again
	Group      plan.Group
	Text       string
	Parts      []Part
	Amount     decimal.Decimal // the sum of the parts
	Source     Source
	Note       string
	Pays       plan.Payer
	Taxed      bool
	Owner      bool    // the owner's own time
	Overridden bool    // by the user
	Computed   []Part  // what stood there without the override
	Out        bool    // the user took it out: it counts for nothing
	Rate       plan.ID // of the card's rates; else empty
}

// Part is one term of a line: so much of a unit, at a rate, so many times.
type Part struct {
	Quantity decimal.Decimal // to two places, where it is a time; exact otherwise
	Unit     string
	Rate     decimal.Decimal
	Times    decimal.Decimal // of an hour that is paid more; else one
	Amount   decimal.Decimal // rounded to the minor unit from exact figures
}

// Counts reports whether the line is a cost of ours.
func (l Line) Counts() bool { return !l.Out && l.Pays == plan.WePay }

// overtime is what the line pays for the hours that are paid more than once.
func (l Line) overtime() decimal.Decimal {
	sum := decimal.Zero
	for _, p := range l.Parts {
		if p.Times.GreaterThan(one) {
			sum = sum.Add(p.Amount)
		}
	}
	return sum
}

// exact is a quantity or a rate that may not be a finite decimal: a number over a whole one.
type exact struct {
	number decimal.Decimal
	over   int64
}

func whole(n int) exact { return exact{decimal.NewFromInt(int64(n)), 1} }

// inHours is a time in hours.
func inHours(m plan.Minutes) exact { return exact{decimal.NewFromInt(int64(m)), 60} }

// rounded is the number itself where it is finite.
func (e exact) rounded(places int32) decimal.Decimal {
	if e.over == 1 {
		return e.number
	}
	return e.number.DivRound(decimal.NewFromInt(e.over), places)
}

// part multiplies out exactly and rounds once.
func (s *Sheet) part(quantity exact, unit string, rate exact, times decimal.Decimal) Part {
	product := exact{quantity.number.Mul(rate.number), quantity.over * rate.over}
	if !times.Equal(one) {
		product.number = product.number.Mul(times)
	}
	return Part{Quantity: quantity.rounded(2), Unit: unit, Rate: rate.rounded(s.Places + 2), Times: times, Amount: product.rounded(s.Places).Round(s.Places)}
}

// add puts a line on the sheet, with what the user has said of it in its place.
func (s *Sheet) add(l Line) {
	l.Pays = l.Pays.Or()
	if o, ok := s.overrides[l.ID]; ok {
		s.used[l.ID] = true
		s.override(&l, o)
	}
	l.Amount = decimal.Zero
	for _, p := range l.Parts {
		l.Amount = l.Amount.Add(p.Amount)
	}
	s.Lines = append(s.Lines, l)
}

func (s *Sheet) override(l *Line, o plan.Override) {
	l.Overridden, l.Out = true, o.Out
	if o.Pays != "" {
		l.Pays = o.Pays
	}
	if o.Note != "" {
		l.Note = o.Note
	}
	if o.Quantity == nil && o.Rate == nil {
		return
	}
	first := Part{Times: one}
	if len(l.Parts) > 0 {
		first = l.Parts[0]
	}
	quantity, rate := first.Quantity, first.Rate
	if o.Quantity != nil {
		quantity = *o.Quantity
	}
	if o.Rate != nil {
		rate = *o.Rate
	}
	l.Computed = l.Parts
	l.Parts = []Part{s.part(exact{quantity, 1}, first.Unit, exact{rate, 1}, one)}
}
