package price

import (
	"fmt"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
)

// plainJob has nothing but so many typed lines of an amount, in a currency, at plain terms.
func plainJob(currency, amount string, lines int) plan.Plan {
	p := plan.New()
	p.Pricing.Card.Currency = currency
	for i := range lines {
		p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: plan.ID(fmt.Sprint("l", i)), Quantity: one, Rate: dec(amount)})
	}
	return p
}

// TestTaxOfQuotes: sales tax of 8.25 percent on three lines of 0.99, once on the invoice or line by line: 0.25 or 0.24; on 19.99 it
// is 1.65, and 21.64 in all. Arithmetic; that a seller may do either is from memory of the US Streamlined Sales and Use Tax
// Agreement, section 324.
func TestTaxOfQuotes(t *testing.T) {
	for _, c := range []struct {
		amount    string
		lines     int
		byLine    bool
		untaxed   bool // the first of them
		base, tax string
		total     string
	}{
		{"0.99", 3, false, false, "2.97", "0.25", "3.22"},
		{"0.99", 3, true, false, "2.97", "0.24", "3.21"},
		{"19.99", 1, false, false, "19.99", "1.65", "21.64"},
		{"19.99", 1, true, false, "19.99", "1.65", "21.64"},
		{"0.99", 3, false, true, "1.98", "0.16", "3.13"},
		{"0.99", 3, true, true, "1.98", "0.16", "3.13"},
		{"0.99", 1, false, true, "0", "0", "0.99"},
	} {
		p := plainJob("USD", c.amount, c.lines)
		p.Pricing.Lines[0].Untaxed = c.untaxed
		p.Pricing.Card.Terms = plan.Terms{TaxByLine: c.byLine, Taxes: []plan.Tax{{Name: "Sales tax", Percent: dec("8.25")}}}
		s := Of(&p, nil)
		q := s.Quote(&p, s.Price())
		if got, want := fmt.Sprint(q.Taxes[0].Base, q.Tax, q.Total), fmt.Sprintf("%s %s %s", c.base, c.tax, c.total); got != want {
			t.Errorf("%d lines of %s, by line %v, untaxed %v: %s, want %s", c.lines, c.amount, c.byLine, c.untaxed, got, want)
		}
	}
}

// TestOwnerUntaxed: the owner's time on an untaxed rate is not taxed either. By hand: 2 h at 50 of a floor that also has the
// overhead's share, 10,000 over 800 h, 25.
func TestOwnerUntaxed(t *testing.T) {
	p := small()
	card := &p.Pricing.Card
	card.Rates = []plan.Rate{{ID: "scout", Time: 120, Who: "owner", Untaxed: true}}
	p.People, card.Terms.Margin, card.Terms.Step = nil, decimal.Zero, decimal.Zero
	for _, byLine := range []bool{false, true} {
		card.Terms.TaxByLine = byLine
		s := Of(&p, nil)
		if q := s.Quote(&p, s.Price()); !q.Net.Equal(dec("125")) || !q.Taxes[0].Base.Equal(dec("25")) {
			t.Errorf("by line %v: taxed on %s of %s", byLine, q.Taxes[0].Base, q.Net)
		}
	}
}

// TestTermsAtTheirEnds: discounts, margins, steps and totals as far as they go. Arithmetic; minor units by ISO 4217.
func TestTermsAtTheirEnds(t *testing.T) {
	terms := func(margin, discount, step string) plan.Terms {
		return plan.Terms{Margin: dec(margin), Discount: dec(discount), Step: dec(step), Payments: []plan.Payment{
			{Percent: dec("40")}, {Percent: dec("30")}, {Percent: dec("30")}}}
	}
	for _, c := range []struct {
		currency, cost string
		terms          plan.Terms
		want           string // price, total, payments
	}{
		{"USD", "0.01", terms("0", "0", "0"), "0.01 0.01 0.01 0.00 0.00"},
		{"USD", "100", terms("99", "0", "0"), "10,000.00 10,000.00 4,000.00 3,000.00 3,000.00"},
		{"USD", "100", terms("40", "100", "0"), "166.67 0.00 0.00 0.00 0.00"},
		{"USD", "3", terms("0", "0", "50"), "50.00 50.00 20.00 15.00 15.00"},
		{"USD", "0", terms("99", "50", "50"), "0.00 0.00 0.00 0.00 0.00"},
		{"USD", "1", terms("1", "0", "0.003"), "1.02 1.02 0.41 0.31 0.30"}, // 1.0101, up to 1.011, up to a cent
		{"JPY", "1000", terms("0", "0", "0.5"), "1,000 1,000 400 300 300"},
		{"JPY", "1", terms("0", "0", "0"), "1 1 1 0 0"},
		{"KWD", "1", terms("40", "0", "0"), "1.667 1.667 0.667 0.500 0.500"},
		{"CLF", "0.0001", terms("0", "0", "0"), "0.0001 0.0001 0.0001 0.0000 0.0000"},
	} {
		p := plainJob(c.currency, c.cost, 1)
		p.Pricing.Card.Terms = c.terms
		s := Of(&p, nil)
		q := s.Quote(&p, s.Price())
		got := s.Amount(s.Price()) + " " + s.Amount(q.Total)
		for _, due := range q.Payments {
			got += " " + s.Amount(due.Amount)
		}
		if got != c.want {
			t.Errorf("%s %s at %+v: %s, want %s", c.currency, c.cost, c.terms, got, c.want)
		}
	}
}

// TestAskedPrice is rounded to the minor unit, as it is billed.
func TestAskedPrice(t *testing.T) {
	p := plainJob("JPY", "100", 1)
	p.Pricing.Asked = dec("1234.5")
	s := Of(&p, nil)
	if q := s.Quote(&p, s.Price()); !s.Price().Equal(dec("1235")) || !q.Price.Equal(s.Price()) {
		t.Errorf("%s is asked, %s quoted", s.Price(), q.Price)
	}
}

// TestDaysOfTheBusiness: a shooting day takes a whole day of the year, however little of it the owner is there; what the owner
// does before and after comes on top; and an hour's pay is of the hours that the owner works. By hand: 4 h on the day, of 8 h, and 8 h
// of preparation, at 40,000 over 100 such days; overhead 10,000 a year.
func TestDaysOfTheBusiness(t *testing.T) {
	p := small()
	card := &p.Pricing.Card
	card.Rates, card.Kit, card.Terms = []plan.Rate{{ID: "prep", Time: 480, Who: "owner"}}, nil, plan.Terms{}
	p.People = p.People[:1]
	s := Of(&p, []day.Day{dayOf(&p, october, 240, 0)})
	if s.OwnerTime != 720 || !s.Owner.Equal(dec("600")) || s.JobDays.String() != "2" || !s.Overhead.Equal(dec("200")) {
		t.Errorf("%s of the owner's for %s; %s days for %s", s.OwnerTime, s.Owner, s.JobDays, s.Overhead)
	}
	if got := s.At(s.Floor).OwnerPerHour; !got.Equal(dec("50")) {
		t.Errorf("an hour is %s at the floor", got)
	}
}
