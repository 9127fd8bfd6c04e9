package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/chance"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// Sure is how sure the price is, ready to show.
type Sure struct {
	Empty  string   // shown in place of everything else
	Lines  []string // the answer first
	Method string
	Bars   []chance.Bar
	Over   float64 // costs above it are not covered by the price
	Marks  []Point
	Scale  []Point
	Base   string // the likely total
	Swings []Swing
}

// Point is a figure on a picture and what it is.
type Point struct {
	At    float64
	Words string
}

// Swing is how far one input moves the costs from the likely total, and the same in words.
type Swing struct {
	Name, Note string
	Low, High  float64
	Less, More string
}

// sureMethod names what was done, and what it leaves out.
func sureMethod() string {
	return tongue.Say("%s draws, triangular between your low, likely and high; inputs are drawn independently of each other; the same plan "+
		"always gives the same picture. When several things go wrong together, it comes out worse than told here.", grouped(strconv.Itoa(price.Draws)))
}

// SureOf words how sure the price is.
func SureOf(p Priced, s price.Sure) Sure {
	if len(s.Inputs) == 0 {
		return Sure{Empty: tongue.Say("Nothing is unsure yet: say here how early or late a day may wrap, how many rounds of changes there may be, and how " +
			"likely weather costs a day; and on the rate card give rates a low and a high.")}
	}
	net := p.Quote.Net
	out := Sure{Method: sureMethod(), Bars: s.Costs.Bars(30), Over: net.InexactFloat64()}
	out.Lines = append(out.Lines, loses(p, s.Loses)+" "+holdsLine(p, s),
		tongue.Say("On average the costs are %s; in 8 cases of 10 they lie between %s and %s. Contingency is left out of them: it is there to meet them.",
			p.float(s.Costs.Mean), p.float(s.Costs.Quantile(0.1)), p.float(s.Costs.Quantile(0.9))),
		tongue.Say("The picture is of the costs; the bars right of the price are the cases that it does not cover."))
	out.Marks = []Point{{out.Over, tongue.Say("the price: %s", p.Money(net))}}
	if held := p.Sheet.Quote(&p.Plan, s.Holds).Net; held.IsPositive() {
		out.Marks = append(out.Marks, Point{held.InexactFloat64(), tongue.Say("holds in 8 of 10: %s", p.Money(held))})
	}
	out.Scale = scale(s.Costs.Quantile(0), s.Costs.Quantile(1))
	for _, w := range s.Swings {
		out.Base = tongue.Say("likely costs: %s", p.float(w.Base))
		out.Swings = append(out.Swings, swingOf(p, w))
	}
	return out
}

// loses says how often the price does not cover the costs.
func loses(p Priced, share float64) string {
	switch share {
	case 0:
		return tongue.Say("This price, %s, covers the costs in every case that was drawn.", p.net())
	case 1:
		return tongue.Say("This price, %s, covers the costs in no case that was drawn.", p.net())
	}
	return tongue.Say("%s this price, %s, does not cover the costs.", upper(ofHundred(share)), p.net())
}

// ofHundred says a share that is neither none nor all.
func ofHundred(share float64) string {
	switch n := int(math.Round(100 * share)); n {
	case 0:
		return tongue.Say("in fewer than 1 case of 100")
	case 100:
		return tongue.Say("in more than 99 cases of 100")
	default:
		return tongue.Count(n, "in %d case of 100", "in %d cases of 100")
	}
}

func holdsLine(p Priced, s price.Sure) string {
	switch {
	case !s.Holds.IsPositive():
		return tongue.Say("After this discount no price covers them in 8 of 10.")
	case p.Quote.Discount.IsPositive():
		return tongue.Say("%s before the discount covers them in 8 of 10.", p.Money(s.Holds))
	}
	return tongue.Say("%s covers them in 8 of 10.", p.Money(s.Holds))
}

// SureLacks say what is unsure but costs nothing yet, and why.
func SureLacks(p Priced) []string {
	var out []string
	u := p.Plan.Pricing.Unsure
	rounds := slices.ContainsFunc(p.Plan.Pricing.Card.Rates, func(r plan.Rate) bool { return r.Per == plan.PerRound })
	if max(u.Rounds, u.MostRounds) > 0 && !rounds {
		out = append(out, tongue.Say("Rounds of changes cost nothing yet: the rate card has no rate for a round of changes."))
	}
	if (u.Early > 0 || u.Late > 0 || u.Weather > 0) && p.Sheet.First.IsZero() {
		out = append(out, tongue.Say("The wrap and the weather cost nothing yet: no day is placed."))
	}
	return out
}

func swingOf(p Priced, w chance.Swing) Swing {
	out := Swing{Name: tongue.Of(price.InputName(w.Name)), Low: w.Low - w.Base, High: w.High - w.Base}
	if w.Chance < 1 {
		out.Note = tongue.Say("happens %s", ofHundred(w.Chance))
	}
	low, high := math.Min(out.Low, out.High), math.Max(out.Low, out.High)
	if low < 0 {
		out.Less = withSign(p, decimal.NewFromFloat(low))
	}
	if high > 0 {
		out.More = withSign(p, decimal.NewFromFloat(high))
	}
	return out
}

// withSign is an amount with its sign, always.
func withSign(p Priced, a decimal.Decimal) string {
	a = a.Round(p.Sheet.Places)
	if a.IsNegative() {
		return "−" + p.Money(a.Neg())
	}
	return "+" + p.Money(a)
}

func (p Priced) float(v float64) string { return p.Money(decimal.NewFromFloat(v)) }

// scale are round figures between two others, some four to eight of them.
func scale(low, high float64) []Point {
	span := high - low
	if !(span > 0) || math.IsInf(span, 0) {
		return []Point{{low, grouped(strconv.FormatFloat(low, 'f', 0, 64))}}
	}
	step := math.Pow(10, math.Floor(math.Log10(span/4)))
	for _, more := range []float64{2.5, 2, 2} { // 2.5, 5, 10
		if span/step > 8 {
			step *= more
		}
	}
	places := 0
	for f := step; math.Abs(f-math.Round(f)) > 1e-6*f && places < 6; f *= 10 {
		places++
	}
	var out []Point
	for at := math.Ceil(low/step) * step; at <= high && len(out) < 20; at += step {
		out = append(out, Point{at, grouped(strconv.FormatFloat(at, 'f', places, 64))})
	}
	return out
}

// grouped divides the thousands of a figure, and gives it the marks of the language.
func grouped(figure string) string {
	whole, rest, broken := strings.Cut(figure, ".")
	from := 0
	if strings.HasPrefix(whole, "-") {
		from = 1
	}
	for i := len(whole) - 3; i > from; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if broken {
		whole += "." + rest
	}
	return tongue.Number(whole)
}

// SureFailed says why it could not be worked out.
func SureFailed(err error) Sure {
	return Sure{Empty: tongue.Say("How sure this is can't be worked out: %v.", err)}
}
