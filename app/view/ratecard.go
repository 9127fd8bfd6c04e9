package view

import (
	"cmp"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// CardLine says what the rate card of a plan is.
func CardLine(p plan.Plan) string {
	card := p.Pricing.Card
	switch {
	case card.Empty():
		return tongue.Say("There is no rate card yet. Take the starter card and put your own figures in, or open one of yours.")
	case card.Starter:
		return tongue.Say("These figures are invented, to begin from. Put your own in, then untick it here.")
	}
	return tongue.Say("The plan keeps its own copy, so that a quote stays what it was when your card changes.")
}

// RateRows are the lines of the list of rates.
func RateRows(p plan.Plan) []Row {
	card := &p.Pricing.Card
	sheet := price.Sheet{Places: price.Places(card.Currency)}
	rows := make([]Row, 0, len(card.Rates))
	for _, r := range card.Rates {
		what := tongue.Number(sheet.Amount(r.Amount))
		if crew, ok := card.CrewRate(r.Who); ok {
			what = tongue.Say("time of a person|%s of %s", r.Time, CrewName(crew))
		}
		sub := tongue.Say("%s for each %s", what, r.Per.Or())
		if r.For != "" {
			sub = tongue.Say("%s for each %s, %s only", what, r.Per.Or(), r.For)
		}
		rows = append(rows, Row{ID: r.ID, Title: cmp.Or(r.Name, tongue.Say("unnamed rate")), Sub: sub, Mark: tongue.Of(r.Group.Or())})
	}
	return rows
}

// CrewName is what a rate of the crew is called.
func CrewName(r plan.CrewRate) string { return cmp.Or(r.Name, string(r.ID)) }

// RuleName is what an overtime rule is called.
func RuleName(r plan.OvertimeRule) string { return cmp.Or(r.Name, string(r.ID)) }

// RuleRows are the lines of the list of overtime rules.
func RuleRows(p plan.Plan) []Row {
	var rows []Row
	for _, r := range p.Pricing.Card.Overtime {
		var users []string
		for _, c := range p.Pricing.Card.Crew {
			if c.Overtime == r.ID {
				users = append(users, CrewName(c))
			}
		}
		sub := tongue.Say("nobody is paid by it")
		if len(users) > 0 {
			sub = strings.Join(users, ", ")
		}
		rows = append(rows, Row{ID: r.ID, Title: cmp.Or(r.Name, tongue.Say("unnamed rule")), Sub: sub})
	}
	return rows
}

// YearLine says what a year makes of an hour and of a day.
func YearLine(p plan.Plan) string {
	card := &p.Pricing.Card
	b := card.Business
	if b.Days == 0 || b.Hours == 0 {
		return tongue.Say("Say how many days of how many hours you can bill in a year: your pay and the overheads are shared out among them.")
	}
	yearly := decimal.Zero
	for _, o := range b.Overheads {
		yearly = yearly.Add(o.Yearly)
	}
	sheet := price.Sheet{Places: price.Places(card.Currency)}
	hours := decimal.NewFromInt(int64(b.Days) * int64(b.Hours))
	hour := b.Pay.Mul(decimal.NewFromInt(60)).DivRound(hours, sheet.Places)
	overhead := yearly.DivRound(decimal.NewFromInt(int64(b.Days)), sheet.Places)
	amount := func(a decimal.Decimal) string { return tongue.Number(sheet.Amount(a)) }
	return tongue.Say("Your hour is worth %s. The overheads are %s a year, %s for each of %d billable days.",
		amount(hour), amount(yearly), amount(overhead), b.Days)
}
