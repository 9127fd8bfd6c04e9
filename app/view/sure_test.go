package view

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/chance"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
)

// pricedAt is a price, and nothing else, in a currency.
func pricedAt(net, discount, currency string) Priced {
	d := decimal.RequireFromString
	p := Priced{State: session.State{Plan: plan.New()}}
	p.Sheet.Currency, p.Sheet.Places = currency, price.Places(currency)
	p.Quote = price.Quote{Price: d(net).Add(d(discount)), Net: d(net), Discount: d(discount)}
	return p
}

// TestSureWords: the shares are given; the words are this program's own.
func TestSureWords(t *testing.T) {
	for _, c := range []struct {
		loses    float64
		discount string
		holds    string
		want     string
	}{
		{0.15, "0", "7500", "In 15 cases of 100 this price, 8,000.00 USD, does not cover the costs. 7,500.00 USD covers them in 8 of 10."},
		{0.01, "0", "7500", "In 1 case of 100 this price, 8,000.00 USD, does not cover the costs. 7,500.00 USD covers them in 8 of 10."},
		{0.0004, "0", "7500", "In fewer than 1 case of 100 this price, "},
		{0.9999, "0", "7500", "In more than 99 cases of 100 this price, "},
		{0, "0", "7500", "This price, 8,000.00 USD, covers the costs in every case that was drawn. "},
		{1, "0", "7500", "This price, 8,000.00 USD, covers the costs in no case that was drawn. "},
		{0.5, "500", "9000", "In 50 cases of 100 this price, 8,000.00 USD after the discount, does not cover the costs. 9,000.00 USD before the discount covers them in 8 of 10."},
		{1, "500", "0", "This price, 8,000.00 USD after the discount, covers the costs in no case that was drawn. After this discount no price covers them in 8 of 10."},
	} {
		p := pricedAt("8000", c.discount, "USD")
		got := SureOf(p, price.Sure{Inputs: []chance.Input{{}}, Loses: c.loses, Holds: decimal.RequireFromString(c.holds)})
		if !strings.HasPrefix(got.Lines[0], c.want) {
			t.Errorf("%v: %q", c, got.Lines[0])
		}
	}
}

// TestSureOfADraw: one triangular input of 0, 100, 400 on 1000 that are sure: the mean of Kotz and van Dorp, Beyond Beta, ch. 1, is
// 1000 + 500/3, and every draw lies between 1000 and 1400.
func TestSureOfADraw(t *testing.T) {
	in := []chance.Input{{Name: "Editing", Range: chance.Range{Likely: 100, High: 400}, Chance: 1},
		{Name: "Rain", Range: chance.Range{Low: 50, Likely: 50, High: 50}, Chance: 0.2}}
	costs, err := chance.Run(context.Background(), 1, price.Draws, 1000, in[:1])
	if err != nil {
		t.Fatal(err)
	}
	swings, err := chance.Swings(1000, in)
	if err != nil {
		t.Fatal(err)
	}
	got := SureOf(pricedAt("1200", "0", "JPY"), price.Sure{Inputs: in, Costs: costs, Swings: swings, Holds: decimal.NewFromInt(1250)})
	if !strings.HasPrefix(got.Lines[1], "On average the costs are 1,167 JPY;") || got.Over != 1200 || got.Base != "likely costs: 1,100 JPY" {
		t.Errorf("%q, over %v, %q", got.Lines[1], got.Over, got.Base)
	}
	if got.Marks[0].Words != "the price: 1,200 JPY" || got.Marks[1].Words != "holds in 8 of 10: 1,250 JPY" || got.Marks[1].At != 1250 {
		t.Errorf("marks %v", got.Marks)
	}
	edit, rain := got.Swings[0], got.Swings[1]
	if edit.Name != "Editing" || edit.Note != "" || edit.Low >= 0 || !strings.HasPrefix(edit.Less, "−") || !strings.HasPrefix(edit.More, "+") {
		t.Errorf("editing %+v", edit)
	}
	if rain.Note != "happens in 20 cases of 100" || rain.Low != 0 || rain.High != 50 || rain.Less != "" || rain.More != "+50 JPY" {
		t.Errorf("rain %+v", rain)
	}
	sum := 0
	for _, b := range got.Bars {
		sum += b.Draws
	}
	if sum != price.Draws || got.Bars[0].From < 1000 || got.Bars[len(got.Bars)-1].To > 1400 {
		t.Errorf("%d draws between %v and %v", sum, got.Bars[0].From, got.Bars[len(got.Bars)-1].To)
	}
	if !strings.HasPrefix(got.Method, "10,000 draws, triangular between your low, likely and high; inputs are drawn independently") {
		t.Errorf("the method is %q", got.Method)
	}
}

func TestSureOfNothing(t *testing.T) {
	p := pricedAt("8000", "0", "USD")
	if got := SureOf(p, price.Sure{}); !strings.HasPrefix(got.Empty, "Nothing is unsure yet: ") || got.Bars != nil {
		t.Errorf("%+v", got)
	}
	if got := SureFailed(errors.New("editing: the low figure is not a number")).Empty; got != "How sure this is can't be worked out: editing: the low figure is not a number." {
		t.Error(got)
	}
	p.Plan.Pricing.Unsure = plan.Unsure{Late: 30, MostRounds: 2}
	if got := SureLacks(p); len(got) != 2 || !strings.Contains(got[0], "no rate for a round") || !strings.Contains(got[1], "no day is placed") {
		t.Errorf("lacks %q", got)
	}
	p.Plan.Pricing.Card.Rates = []plan.Rate{{Per: plan.PerRound}}
	p.Plan.Pricing.Unsure.Late = 0
	if got := SureLacks(p); got != nil {
		t.Errorf("lacks %q", got)
	}
}

// TestScale: round figures inside both ends, by hand.
func TestScale(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      []string
	}{
		{6300, 11100, []string{"7,000", "8,000", "9,000", "10,000", "11,000"}},
		{0, 1, []string{"0.00", "0.25", "0.50", "0.75", "1.00"}},
		{1234567, 1234567, []string{"1,234,567"}},
		{980000, 1210000, []string{"1,000,000", "1,050,000", "1,100,000", "1,150,000", "1,200,000"}},
	} {
		var got []string
		for _, f := range scale(c.low, c.high) {
			got = append(got, f.Words)
			if f.At < c.low || f.At > c.high {
				t.Errorf("%v lies outside %v to %v", f.At, c.low, c.high)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v to %v: %q", c.low, c.high, got)
		}
	}
}

// TestMarketWords: quartiles of 1, 2, 3, 4 thousand by definition 7 of Hyndman and Fan are 1750, 2500 and 3250 (by hand).
func TestMarketWords(t *testing.T) {
	for _, c := range []struct {
		ours    string
		amounts []int64
		want    []string
	}{
		{"2600", nil, []string{"Nothing is noted yet: note what others nearby ask for something alike, and what is in it."}},
		{"2600", []int64{3000}, []string{"Our price, 2,600.000 KWD, is less than the one offer that you noted."}},
		{"3000", []int64{3000}, []string{"Our price, 3,000.000 KWD, is the same as the one offer that you noted."}},
		{"2600", []int64{0, 3000}, []string{"Our price, 2,600.000 KWD, is less than the one offer that you noted.", "Not counted, as no amount is noted: 1 offer."}},
		{"2600", []int64{1000, 3000, 2000}, []string{"Our price, 2,600.000 KWD, is more than 2 of 3 that you noted; the median is 2,000.000 KWD.",
			"The middle half lies between 1,500.000 KWD and 2,500.000 KWD, the quartiles. Quartiles of so few mean little: note at least 4."}},
		{"2600", []int64{4000, 1000, 3000, 2000}, []string{"Our price, 2,600.000 KWD, is more than 2 of 4 that you noted; the median is 2,500.000 KWD.",
			"The middle half lies between 1,750.000 KWD and 3,250.000 KWD, the quartiles."}},
		{"900", []int64{1000, 2000}, []string{"Our price, 900.000 KWD, is more than none of the 2 that you noted; the median is 1,500.000 KWD.",
			"The middle half lies between 1,250.000 KWD and 1,750.000 KWD, the quartiles. Quartiles of so few mean little: note at least 4."}},
		{"9000", []int64{1000, 2000}, []string{"Our price, 9,000.000 KWD, is more than all 2 that you noted; the median is 1,500.000 KWD.",
			"The middle half lies between 1,250.000 KWD and 1,750.000 KWD, the quartiles. Quartiles of so few mean little: note at least 4."}},
	} {
		p := pricedAt(c.ours, "0", "KWD")
		counted := 0
		for _, a := range c.amounts {
			p.Plan.Pricing.Market = append(p.Plan.Pricing.Market, plan.Offer{Who: "A studio", Amount: decimal.NewFromInt(a)})
			if a > 0 {
				counted++
			}
		}
		got := MarketOf(p)
		if !slices.Equal(got.Lines, append(c.want, OnlyNoted())) || len(got.Offers) != counted {
			t.Errorf("%v: %q, %d drawn", c.amounts, got.Lines, len(got.Offers))
		}
	}
}
