package view

import (
	"cmp"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/price"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// ComputedLine says what price the card makes of the floor.
func ComputedLine(p Priced) string {
	terms := p.Plan.Pricing.Card.Terms
	floor, margin, made := p.Amount(p.Sheet.Floor), number(terms.Margin), p.Amount(p.Sheet.Computed())
	if terms.Step.IsPositive() {
		return tongue.Say("The floor of %s with a margin of %s %% makes %s, rounded up to a step of %s.", floor, margin, made, p.Amount(terms.Step))
	}
	return tongue.Say("The floor of %s with a margin of %s %% makes %s.", floor, margin, made)
}

// StandingLine says how the job stands at the price.
func StandingLine(p Priced) string {
	return standing(p, p.Quote.Net, p.Quote.Net)
}

// FriendLine says what it would mean to do the job at the price that is looked at; nothing where there is none.
func FriendLine(p Priced) string {
	try := p.Plan.Pricing.Try
	if !try.IsPositive() {
		return ""
	}
	q := p.Sheet.Quote(&p.Plan, try)
	return standing(p, q.Net, try) + " " + tongue.Say("With tax the client pays %s.", p.Amount(q.Total))
}

// standing says what comes of a net price, which is that of the price said.
func standing(p Priced, net, said decimal.Decimal) string {
	s := p.Sheet.At(net)
	result := tongue.Say("make %s", p.Amount(s.Profit))
	switch {
	case s.Profit.IsNegative():
		result = tongue.Say("lose %s", p.Amount(s.Profit.Neg()))
	case s.Profit.IsZero():
		result = tongue.Say("make nothing and lose nothing")
	}
	if p.Sheet.OwnerTime > 0 {
		result = tongue.Say("%s and earn %s an hour", result, p.Amount(s.OwnerPerHour))
	}
	return tongue.Say("At %s you %s: a margin of %s %%, a markup of %s %%.", p.Amount(said), result,
		tongue.Number(s.Margin.StringFixed(2)), tongue.Number(s.Markup.StringFixed(2)))
}

// TaxLines say what each tax comes to.
func TaxLines(p Priced) string {
	var out []string
	for _, t := range p.Quote.Taxes {
		out = append(out, tongue.Say("tax|%s of %s: %s", taxName(t.Name, t.Percent), p.Amount(t.Base), p.Amount(t.Amount)))
	}
	return strings.Join(out, "\n")
}

// PaymentLines say what each payment comes to and when it is due.
func PaymentLines(p Priced) string {
	var out []string
	for i, due := range p.Quote.Payments {
		when := noDateYet(p.Plan.Pricing.Card.Terms.Payments[i].When.Or())
		if !due.Date.IsZero() {
			when = shortDate(due.Date)
		}
		out = append(out, cmp.Or(due.Name, tongue.Say("Payment %d", i+1))+": "+p.Money(due.Amount)+", "+when)
	}
	return strings.Join(out, "\n")
}

var noDateForms = map[plan.Moment]string{
	plan.AtBooking:  say.Mark("no date yet: it counts from the booking"),
	plan.AtShoot:    say.Mark("no date yet: it counts from the shoot"),
	plan.AtDelivery: say.Mark("no date yet: it counts from the delivery"),
}

// noDateYet says what a payment counts from that can't be dated yet; nothing of a moment that is none.
func noDateYet(from plan.Moment) string { return tongue.Marked(noDateForms[from]) }

var hundred = decimal.NewFromInt(100)

// MarkupOf is the markup that a margin is, both in percent.
func MarkupOf(margin decimal.Decimal) decimal.Decimal {
	return price.Percent(margin, hundred.Sub(margin))
}

// MarginOf is the margin that a markup is, both in percent, to so many places that the markup reads back as it was.
func MarginOf(markup decimal.Decimal) decimal.Decimal {
	return markup.Mul(hundred).DivRound(hundred.Add(markup), 6)
}
