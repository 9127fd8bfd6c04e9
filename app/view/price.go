package view

import (
	"eavelight/app/session"
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
