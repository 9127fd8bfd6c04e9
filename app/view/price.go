package view

import (
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// Priced is a state with the price worked out from it.
type Priced struct {
	session.State
	Sheet price.Sheet
	Quote price.Quote
}

// PriceOf works out the price of what is shown: the snapshot, on the days as they were placed last. It takes about a millisecond for
// a budget of hundreds of lines, so that a changed rate shows at once.
func PriceOf(st session.State) Priced {
	out := Priced{State: st, Sheet: price.Of(&st.Plan, st.Results.Shoot.Days)}
	out.Quote = out.Sheet.Quote(&st.Plan, out.Sheet.Price())
	return out
}

// Amount is an amount with the marks of the window's language.
func (p Priced) Amount(amount decimal.Decimal) string { return tongue.Number(p.Sheet.Amount(amount)) }

// number is a number without an amount's places.
func number(n decimal.Decimal) string { return tongue.Number(n.String()) }

// Money is an amount with the currency of the card.
func (p Priced) Money(amount decimal.Decimal) string {
	words := p.Amount(amount)
	if p.Sheet.Currency != "" {
		words += " " + p.Sheet.Currency
	}
	return words
}

// net is the net price, and that a discount is taken off it.
func (p Priced) net() string {
	if p.Quote.Discount.IsPositive() {
		return tongue.Say("%s after the discount", p.Money(p.Quote.Net))
	}
	return p.Money(p.Quote.Net)
}

// priceLine is what stands under the name of the page.
func priceLine(st session.State) string {
	p := PriceOf(st)
	if lacks := p.Sheet.Problems.Lacks(); len(lacks) > 0 {
		return tongue.Of(lacks[0])
	}
	return p.Money(p.Quote.Price)
}

// DayNote says how good the day shown is proven to be, and what it costs to pay hours more than once on it.
func DayNote(st session.State) string {
	note := Proof(st.Results.Chosen)
	p := PriceOf(st)
	if over := p.Sheet.OvertimeOn(&st.Plan.Pricing.Card, st.Results.Chosen.Date); over.IsPositive() {
		note += "  ·  " + tongue.Say("overtime pay %s", p.Money(over))
	}
	return note
}

// Figure is a name and what stands for it.
type Figure struct {
	Name, Value string
	Sum         bool // of those above it
}

// Summary is what the job comes to, at a glance.
type Summary struct {
	Price    string
	Whence   string // how the price comes about
	Margin   string
	Markup   string
	Asked    []Figure // from the price to the total
	Costs    []Figure // up to the floor
	Owner    []Figure // what it means to the owner
	Problems []string
}

// SummaryOf sums a price up.
func SummaryOf(p Priced) Summary {
	s, q := &p.Sheet, p.Quote
	at := s.At(q.Net)
	out := Summary{Price: p.Money(q.Price), Margin: tongue.Number(at.Margin.StringFixed(2)) + " %", Markup: tongue.Number(at.Markup.StringFixed(2)) + " %"}
	out.Whence = tongue.Say("Worked out: the floor and your margin.")
	if p.Plan.Pricing.Asked.IsPositive() {
		out.Whence = tongue.Say("As you ask. The card makes it %s.", p.Amount(s.Computed()))
	}
	if q.Discount.IsPositive() {
		name := tongue.Say("Discount %s %%", number(p.Plan.Pricing.Card.Terms.Discount))
		out.Asked = append(out.Asked, Figure{Name: name, Value: "-" + p.Amount(q.Discount)}, Figure{Name: tongue.Say("Net price"), Value: p.Amount(q.Net)})
	}
	for _, t := range q.Taxes {
		out.Asked = append(out.Asked, Figure{Name: taxName(t.Name, t.Percent), Value: p.Amount(t.Amount)})
	}
	out.Asked = append(out.Asked, Figure{Name: tongue.Say("Total"), Value: p.Amount(q.Total), Sum: true})
	out.Costs = []Figure{
		{Name: tongue.Say("Direct lines"), Value: p.Amount(s.Direct)},
		{Name: tongue.Say("Contingency, %s %%", number(p.Plan.Pricing.Card.Terms.Contingency)), Value: p.Amount(s.Contingency)},
		{Name: tongue.Say("Your time, %s", s.OwnerTime), Value: p.Amount(s.Owner)},
		{Name: tongue.Say("Overhead, %s days", number(s.JobDays)), Value: p.Amount(s.Overhead)},
		{Name: tongue.Say("Floor"), Value: p.Amount(s.Floor), Sum: true},
	}
	if s.OwnerTime > 0 {
		out.Owner = append(out.Owner, Figure{Name: tongue.Say("You earn an hour"), Value: p.Amount(at.OwnerPerHour)})
	}
	out.Owner = append(out.Owner, Figure{Name: tongue.Say("Pays all but you"), Value: p.Amount(s.Unpaid())})
	for _, problem := range s.Problems {
		out.Problems = append(out.Problems, sentence(tongue.Of(problem)))
	}
	return out
}

func taxName(name string, percent decimal.Decimal) string {
	if name == "" {
		name = tongue.Say("Tax")
	}
	return name + ", " + number(percent) + " %"
}

// groupName is a group's name on screen.
func groupName(g plan.Group) string { return upper(tongue.Of(g.Or())) }
