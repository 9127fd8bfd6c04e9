package view

import (
	"fmt"

	"eavelight/app/session"
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

// Money is an amount with the currency of the card.
func (p Priced) Money(amount decimal.Decimal) string {
	words := p.Sheet.Amount(amount)
	if p.Sheet.Currency != "" {
		words += " " + p.Sheet.Currency
	}
	return words
}

// priceLine is what stands under the name of the page.
func priceLine(st session.State) string {
	p := PriceOf(st)
	if lacks := p.Sheet.Problems.Lacks(); len(lacks) > 0 {
		return lacks[0].String()
	}
	return p.Money(p.Quote.Price)
}

// DayNote says how good the day shown is proven to be, and what it costs to pay hours more than once on it.
func DayNote(st session.State) string {
	note := Proof(st.Results.Chosen)
	p := PriceOf(st)
	if over := p.Sheet.OvertimeOn(&st.Plan.Pricing.Card, st.Results.Chosen.Date); over.IsPositive() {
		note += "  ·  overtime pay " + p.Money(over)
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
	out := Summary{Price: p.Money(q.Price), Margin: at.Margin.StringFixed(2) + " %", Markup: at.Markup.StringFixed(2) + " %"}
	out.Whence = "Worked out: the floor and your margin."
	if p.Plan.Pricing.Asked.IsPositive() {
		out.Whence = "As you ask. The card makes it " + s.Amount(s.Computed()) + "."
	}
	if q.Discount.IsPositive() {
		name := "Discount " + p.Plan.Pricing.Card.Terms.Discount.String() + " %"
		out.Asked = append(out.Asked, Figure{Name: name, Value: "-" + s.Amount(q.Discount)}, Figure{Name: "Net price", Value: s.Amount(q.Net)})
	}
	for _, t := range q.Taxes {
		out.Asked = append(out.Asked, Figure{Name: taxName(t.Name, t.Percent), Value: s.Amount(t.Amount)})
	}
	out.Asked = append(out.Asked, Figure{Name: "Total", Value: s.Amount(q.Total), Sum: true})
	out.Costs = []Figure{
		{Name: "Direct lines", Value: s.Amount(s.Direct)},
		{Name: "Contingency, " + p.Plan.Pricing.Card.Terms.Contingency.String() + " %", Value: s.Amount(s.Contingency)},
		{Name: "Your time, " + s.OwnerTime.String(), Value: s.Amount(s.Owner)},
		{Name: "Overhead, " + s.JobDays.String() + " days", Value: s.Amount(s.Overhead)},
		{Name: "Floor", Value: s.Amount(s.Floor), Sum: true},
	}
	if s.OwnerTime > 0 {
		out.Owner = append(out.Owner, Figure{Name: "You earn an hour", Value: s.Amount(at.OwnerPerHour)})
	}
	out.Owner = append(out.Owner, Figure{Name: "Pays all but you", Value: s.Amount(s.Unpaid())})
	for _, problem := range s.Problems {
		out.Problems = append(out.Problems, sentence(problem.String()))
	}
	return out
}

func taxName(name string, percent decimal.Decimal) string {
	if name == "" {
		name = "Tax"
	}
	return fmt.Sprintf("%s, %s %%", name, percent)
}

// groupName is a group's name on screen.
func groupName(g plan.Group) string {
	words := sentence(string(g.Or()))
	return words[:len(words)-1]
}
