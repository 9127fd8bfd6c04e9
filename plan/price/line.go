package price

import (
	"slices"

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
	Quantity decimal.Decimal // to four places where it has no end; exact otherwise
	Unit     string
	Rate     decimal.Decimal
	Times    decimal.Decimal // of an hour that is paid more; else one
	Amount   decimal.Decimal // rounded to the minor unit from exact figures

	quantity, rate exact // not rounded
	share          exact // of the line's first rate that this part's rate is; zero where it has one of its own
}

// QuantityOver is the quantity before any rounding, a number over a whole one: 70 minutes are 70 over 60 hours.
func (p Part) QuantityOver() (decimal.Decimal, int64) { return p.quantity.number, p.quantity.over }

// RateOver is the rate before any rounding, a number over a whole one.
func (p Part) RateOver() (decimal.Decimal, int64) { return p.rate.number, p.rate.over }

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

// minutes is a time in hours in minutes, to six places.
func (e exact) minutes() decimal.Decimal {
	return e.number.Mul(sixty).DivRound(decimal.NewFromInt(e.over), 6)
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
	return Part{Quantity: quantity.rounded(4), Unit: unit, Rate: rate.rounded(s.Places + 2), Times: times,
		Amount: product.rounded(s.Places).Round(s.Places), quantity: quantity, rate: rate}
}

// add puts a line on the sheet, with what the user has said of it in its place.
func (s *Sheet) add(l Line) {
	l.Pays = l.Pays.Or()
	if o, ok := s.overrides[l.ID]; ok {
		s.used[l.ID] = true
		s.override(&l, o)
	}
	l.Amount = l.Parts[0].Amount
	for _, p := range l.Parts[1:] {
		l.Amount = l.Amount.Add(p.Amount)
	}
	s.Lines = append(s.Lines, l)
}

// override puts the user's figures in the place of the computed ones. A rate alone keeps the hours, and what is paid more still is.
// A number of hours alone keeps what each hour is paid. Any other quantity, or both figures, are all that the line is.
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
	first := l.Parts[0]
	l.Computed = l.Parts
	switch {
	case o.Quantity == nil:
		l.Parts = s.atRate(l.Parts, *o.Rate)
	case o.Rate != nil:
		l.Parts = []Part{s.part(exact{*o.Quantity, 1}, first.Unit, exact{*o.Rate, 1}, one)}
	case first.Unit == "h":
		l.Parts = s.lasting(l.Parts, *o.Quantity)
	default:
		l.Parts = []Part{s.part(exact{*o.Quantity, 1}, first.Unit, first.rate, one)}
	}
}

// atRate are the parts with another rate for the first, and for those whose rate is a share of it.
func (s *Sheet) atRate(parts []Part, rate decimal.Decimal) []Part {
	out := slices.Clone(parts)
	out[0] = s.part(parts[0].quantity, parts[0].Unit, exact{rate, 1}, parts[0].Times)
	for i, p := range parts[1:] {
		if p.share.over > 0 {
			out[i+1] = s.part(p.quantity, p.Unit, exact{rate.Mul(p.share.number), p.share.over}, p.Times)
		}
	}
	return out
}

// lasting are the parts of a line in hours with so many hours in all: fewer leave out those that are paid most, and further ones are
// paid as the last.
func (s *Sheet) lasting(parts []Part, hours decimal.Decimal) []Part {
	var out []Part
	left := exact{hours.Mul(sixty), 60}
	for i, p := range parts {
		q := left
		if i < len(parts)-1 && p.quantity.number.LessThan(left.number) { // both are minutes over 60 where there are several parts
			q = p.quantity
		}
		if i == 0 || q.number.IsPositive() {
			out = append(out, s.part(q, p.Unit, p.rate, p.Times))
		}
		left.number = left.number.Sub(q.number)
	}
	return out
}
