package price

import (
	"eavelight/plan"

	"github.com/shopspring/decimal"
)

// Quote is the price offered, with tax and when it is to be paid.
type Quote struct {
	Price    decimal.Decimal
	Discount decimal.Decimal
	Net      decimal.Decimal // price less discount
	Taxes    []TaxRow
	Tax      decimal.Decimal
	Total    decimal.Decimal
	Payments []Due
}

// TaxRow is one tax of a quote.
type TaxRow struct {
	Name    string
	Percent decimal.Decimal
	Base    decimal.Decimal
	Amount  decimal.Decimal
}

// Due is one payment. Date is zero where what it counts from is not known yet.
type Due struct {
	Name   string
	Amount decimal.Decimal
	Date   plan.Date
}

// Price is the price that the user asks, or else Computed.
func (s *Sheet) Price() decimal.Decimal {
	if s.asked.IsPositive() {
		return s.asked.Round(s.Places)
	}
	return s.Computed()
}

// Computed is the price that covers the floor and keeps the margin, which is a share of the price: floor / (1 - margin), rounded
// up to the card's step.
func (s *Sheet) Computed() decimal.Decimal {
	return upTo(s.Floor.Mul(hundred), hundred.Sub(s.terms.Margin), s.terms.Step, s.Places)
}

// Quote is the quote at a price.
func (s *Sheet) Quote(p *plan.Plan, price decimal.Decimal) Quote {
	price = price.Round(s.Places)
	q := Quote{Price: price, Discount: price.Mul(s.terms.Discount).DivRound(hundred, s.Places)}
	q.Net = q.Price.Sub(q.Discount)
	bases := s.taxed(q.Net)
	for _, t := range s.terms.Taxes {
		row := TaxRow{Name: t.Name, Percent: t.Percent}
		for _, base := range bases {
			row.Base = row.Base.Add(base)
			row.Amount = row.Amount.Add(taxOn(base, t.Percent, s.Places))
		}
		q.Taxes, q.Tax = append(q.Taxes, row), q.Tax.Add(row.Amount)
	}
	q.Total = q.Net.Add(q.Tax)
	q.Payments = payments(s.terms.Payments, q.Total, s.Places, map[plan.Moment]plan.Date{
		plan.AtBooking: p.Pricing.Booked, plan.AtShoot: s.First, plan.AtDelivery: p.Brief.Due})
	return q
}

func taxOn(base, percent decimal.Decimal, places int32) decimal.Decimal {
	return base.Mul(percent).DivRound(hundred, places)
}

// taxed is what of the net price is taxed: one sum, or by line where the terms say so. The price is shared out in proportion to the
// costs; what is no line (contingency, overhead) is taxed.
func (s *Sheet) taxed(net decimal.Decimal) []decimal.Decimal {
	if s.terms.TaxByLine {
		return s.taxedLines(net)
	}
	untaxed := decimal.Zero
	for _, l := range s.Lines {
		if l.Counts() && !l.Taxed {
			untaxed = untaxed.Add(l.Amount)
		}
	}
	return Split(net, s.Places, []decimal.Decimal{s.Floor.Sub(untaxed), untaxed})[:1]
}

func (s *Sheet) taxedLines(net decimal.Decimal) []decimal.Decimal {
	weights, is := []decimal.Decimal{s.Contingency.Add(s.Overhead)}, []bool{true}
	for _, l := range s.Lines {
		if l.Counts() {
			weights, is = append(weights, l.Amount), append(is, l.Taxed)
		}
	}
	var out []decimal.Decimal
	for i, share := range Split(net, s.Places, weights) {
		if is[i] {
			out = append(out, share)
		}
	}
	return out
}

// payments divides a total by percentages, exactly.
func payments(terms []plan.Payment, total decimal.Decimal, places int32, known map[plan.Moment]plan.Date) []Due {
	var weights []decimal.Decimal
	for _, t := range terms {
		weights = append(weights, t.Percent)
	}
	var out []Due
	for i, amount := range Split(total, places, weights) {
		due := Due{Name: terms[i].Name, Amount: amount}
		if from := known[terms[i].When.Or()]; !from.IsZero() {
			due.Date = from.AddDays(terms[i].Days)
		}
		out = append(out, due)
	}
	return out
}

// Standing is how the job stands at a price.
type Standing struct {
	Profit       decimal.Decimal // net of discount, less the floor
	Margin       decimal.Decimal // of the net price, in percent
	Markup       decimal.Decimal // on the floor, in percent
	OwnerPerHour decimal.Decimal // what is left to the owner for an hour, when everything else is paid; contingency counts as spent
}

// At is how the job stands at a price after discount.
func (s *Sheet) At(net decimal.Decimal) Standing {
	out := Standing{Profit: net.Sub(s.Floor)}
	out.Margin, out.Markup = Percent(out.Profit, net), Percent(out.Profit, s.Floor)
	if s.OwnerTime > 0 {
		left := net.Sub(s.Floor).Add(s.Owner).Mul(sixty)
		out.OwnerPerHour = left.DivRound(decimal.NewFromInt(int64(s.OwnerTime)), s.Places)
	}
	return out
}

// Unpaid is the price at which everybody is paid but the owner.
func (s *Sheet) Unpaid() decimal.Decimal { return s.Floor.Sub(s.Owner) }
