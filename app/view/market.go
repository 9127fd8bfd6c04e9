package view

import (
	"strings"

	"eavelight/app/tongue"
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
func OnlyNoted() string { return tongue.Say("This knows only what you noted.") }

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
		out.Lines = []string{tongue.Say("Nothing is noted yet: note what others nearby ask for something alike, and what is in it."), OnlyNoted()}
		return out
	}
	ours := p.Quote.Net
	out.Ours = Point{ours.InexactFloat64(), tongue.Say("our price: %s", p.Money(ours))}
	for i := range q {
		out.Quartiles[i] = q[i].InexactFloat64()
	}
	out.Lines = []string{standsAt(p, figures) + "."}
	if len(figures) > 1 {
		out.Lines = []string{tongue.Say("%s; the median is %s.", standsAt(p, figures), p.Money(q[1])), quartileLine(p, q, len(figures))}
	}
	if bare > 0 {
		out.Lines = append(out.Lines, tongue.Count(bare, "Not counted, as no amount is noted: %d offer.", "Not counted, as no amount is noted: %d offers."))
	}
	out.Lines = append(out.Lines, OnlyNoted())
	return out
}

// standsAt says where the net price stands among the offers, without a stop.
func standsAt(p Priced, figures []decimal.Decimal) string {
	ours := p.Quote.Net
	n, below := len(figures), price.Below(ours, figures)
	switch {
	case n == 1 && ours.LessThan(figures[0]):
		return tongue.Say("Our price, %s, is less than the one offer that you noted", p.net())
	case n == 1 && ours.Equal(figures[0]):
		return tongue.Say("Our price, %s, is the same as the one offer that you noted", p.net())
	case n == 1:
		return tongue.Say("Our price, %s, is more than the one offer that you noted", p.net())
	case below == 0:
		return tongue.Say("Our price, %s, is more than none of the %d that you noted", p.net(), n)
	case below == n:
		return tongue.Say("Our price, %s, is more than all %d that you noted", p.net(), n)
	}
	return tongue.Say("Our price, %s, is more than %d of %d that you noted", p.net(), below, n)
}

func quartileLine(p Priced, q [3]decimal.Decimal, n int) string {
	text := tongue.Say("The middle half lies between %s and %s, the quartiles.", p.Money(q[0]), p.Money(q[2]))
	if n < fewOffers {
		text += " " + tongue.Say("Quartiles of so few mean little: note at least %d.", fewOffers)
	}
	return text
}
