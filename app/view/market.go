package view

import (
	"fmt"
	"strings"

	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// Market is what the user has noted of others nearby, and where this quote stands.
type Market struct {
	Lines     []string
	Offers    []Point // none: there is nothing to draw
	Quartiles [3]float64
	Ours      Point
}

// OnlyNoted stands by whatever is said of the market.
const OnlyNoted = "This knows only what you noted."

// fewOffers is how many it takes before a quartile has an offer of its own.
const fewOffers = 4

// MarketOf holds the net price against what was noted. An offer without an amount is not counted.
func MarketOf(p Priced) Market {
	var figures []decimal.Decimal
	var out Market
	bare := 0
	for _, o := range p.Plan.Pricing.Market {
		if o.Amount.IsZero() {
			bare++
			continue
		}
		figures = append(figures, o.Amount)
		out.Offers = append(out.Offers, Point{o.Amount.InexactFloat64(), strings.TrimSpace(p.Money(o.Amount) + "  " + o.Who)})
	}
	q, ok := price.Quartiles(figures)
	if !ok {
		out.Lines = []string{"Nothing is noted yet: note what others nearby ask for something alike, and what is in it.", OnlyNoted}
		return out
	}
	ours := p.Quote.Net
	out.Ours = Point{ours.InexactFloat64(), "our price: " + p.Money(ours)}
	for i := range q {
		out.Quartiles[i] = q[i].InexactFloat64()
	}
	out.Lines = []string{standsAt(p, figures)}
	if len(figures) > 1 {
		out.Lines[0] += fmt.Sprintf("; the median is %s.", p.Money(q[1]))
		out.Lines = append(out.Lines, quartileLine(p, q, len(figures)))
	} else {
		out.Lines[0] += "."
	}
	if bare > 0 {
		out.Lines = append(out.Lines, fmt.Sprintf("Not counted, as no amount is noted: %s.", count(bare, "offer", "offers")))
	}
	out.Lines = append(out.Lines, OnlyNoted)
	return out
}

// standsAt says where the net price stands among the offers.
func standsAt(p Priced, figures []decimal.Decimal) string {
	ours := p.Quote.Net
	this, n, below := "Our price, "+p.Money(ours)+",", len(figures), price.Below(ours, figures)
	if p.Quote.Discount.IsPositive() {
		this = "Our price, " + p.Money(ours) + " after the discount,"
	}
	if n == 1 {
		words := map[int]string{-1: "less than", 0: "the same as", 1: "more than"}
		return fmt.Sprintf("%s is %s the one offer that you noted", this, words[ours.Cmp(figures[0])])
	}
	switch below {
	case 0:
		return fmt.Sprintf("%s is more than none of the %d that you noted", this, n)
	case n:
		return fmt.Sprintf("%s is more than all %d that you noted", this, n)
	}
	return fmt.Sprintf("%s is more than %d of %d that you noted", this, below, n)
}

func quartileLine(p Priced, q [3]decimal.Decimal, n int) string {
	text := fmt.Sprintf("The middle half lies between %s and %s, the quartiles.", p.Money(q[0]), p.Money(q[2]))
	if n < fewOffers {
		text += fmt.Sprintf(" Quartiles of so few mean little: note at least %d.", fewOffers)
	}
	return text
}
