package view

import (
	"cmp"
	"fmt"
	"strings"

	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// ComputedLine says what price the card makes of the floor.
func ComputedLine(p Priced) string {
	terms := p.Plan.Pricing.Card.Terms
	text := fmt.Sprintf("The floor of %s with a margin of %s %% makes %s", p.Sheet.Amount(p.Sheet.Floor), terms.Margin, p.Sheet.Amount(p.Sheet.Computed()))
	if terms.Step.IsPositive() {
		text += ", rounded up to a step of " + p.Sheet.Amount(terms.Step)
	}
	return text + "."
}

// StandingLine says how the job stands at the price.
func StandingLine(p Priced) string {
	return standing(p, p.Quote.Net, "At "+p.Sheet.Amount(p.Quote.Net))
}

// FriendLine says what it would mean to do the job at the price that is looked at; nothing where there is none.
func FriendLine(p Priced) string {
	try := p.Plan.Pricing.Try
	if !try.IsPositive() {
		return ""
	}
	q := p.Sheet.Quote(&p.Plan, try)
	return standing(p, q.Net, "At "+p.Sheet.Amount(try)) + " With tax the client pays " + p.Sheet.Amount(q.Total) + "."
}

func standing(p Priced, net decimal.Decimal, at string) string {
	s := p.Sheet.At(net)
	result := "make " + p.Sheet.Amount(s.Profit)
	switch {
	case s.Profit.IsNegative():
		result = "lose " + p.Sheet.Amount(s.Profit.Neg())
	case s.Profit.IsZero():
		result = "make nothing and lose nothing"
	}
	text := at + " you " + result
	if p.Sheet.OwnerTime > 0 {
		text += " and earn " + p.Sheet.Amount(s.OwnerPerHour) + " an hour"
	}
	return fmt.Sprintf("%s: a margin of %s %%, a markup of %s %%.", text, s.Margin.StringFixed(2), s.Markup.StringFixed(2))
}

// TaxLines say what each tax comes to.
func TaxLines(p Priced) string {
	var out []string
	for _, t := range p.Quote.Taxes {
		out = append(out, fmt.Sprintf("%s of %s: %s", taxName(t.Name, t.Percent), p.Sheet.Amount(t.Base), p.Sheet.Amount(t.Amount)))
	}
	return strings.Join(out, "\n")
}

// PaymentLines say what each payment comes to and when it is due.
func PaymentLines(p Priced) string {
	var out []string
	for i, due := range p.Quote.Payments {
		when := "no date yet: it counts from the " + string(p.Plan.Pricing.Card.Terms.Payments[i].When.Or())
		if !due.Date.IsZero() {
			when = due.Date.Short()
		}
		out = append(out, fmt.Sprintf("%s: %s, %s", cmp.Or(due.Name, fmt.Sprint("Payment ", i+1)), p.Money(due.Amount), when))
	}
	return strings.Join(out, "\n")
}

var hundred = decimal.NewFromInt(100)

// MarkupOf is the markup that a margin is, both in percent.
func MarkupOf(margin decimal.Decimal) decimal.Decimal {
	return price.Percent(margin, hundred.Sub(margin))
}

// MarginOf is the margin that a markup is, both in percent, to so many places that the markup reads back as it was.
func MarginOf(markup decimal.Decimal) decimal.Decimal {
	return markup.Mul(hundred).DivRound(hundred.Add(markup), 6)
}
