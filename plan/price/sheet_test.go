package price

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// dayOf is a placed day of so many hours for everybody of the crew, a meal in it, without asking the solver.
func dayOf(p *plan.Plan, date plan.Date, length, meal plan.Minutes) day.Day {
	call := time.Date(date.Year, date.Month, date.Day, 13, 0, 0, 0, time.UTC)
	after := func(m plan.Minutes) time.Time { return call.Add(time.Duration(m) * time.Minute) }
	d := day.Day{Date: date, Call: call, Wrap: after(length), Zone: time.UTC}
	for _, s := range p.Scenes {
		d.Scenes = append(d.Scenes, day.Placed{Scene: s.ID, Start: call, End: after(s.Shoot)})
	}
	if meal > 0 {
		d.Meals = []plan.Span{{From: after(min(length/2, 300)), To: after(min(length/2, 300) + meal)}}
	}
	for _, q := range p.People {
		d.People = append(d.People, day.Presence{Person: q.ID, Call: call, Release: d.Wrap})
	}
	return d
}

var october = plan.Date{Year: 2027, Month: time.October, Day: 16}

// small is a job that can be reckoned by hand.
func small() plan.Plan {
	p := plan.New()
	p.Property.Spaces = []plan.Space{{ID: "air", Kind: plan.Aerial}}
	p.Scenes = []plan.Scene{{ID: "a", Kit: []string{"Drone"}, Space: "air", Shoot: 30, People: []plan.ID{"tal"}}}
	p.People = []plan.Person{
		{ID: "own", Name: "Own", Role: plan.Crew, Rate: "owner"},
		{ID: "cam", Name: "Cam", Role: plan.Crew, Rate: "camera", Travel: 30},
		{ID: "tal", Name: "Tal"},
	}
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Film", Seconds: 90}, {Name: "Stills", Stills: 10, Exposures: 3}}
	p.Brief.Due = october.AddDays(20)
	p.Pricing = plan.Pricing{Distance: 10, Booked: october.AddDays(-30), Card: plan.RateCard{
		Currency: "USD", Overtime: []plan.OvertimeRule{{ID: "ca", Daily: california.Daily}},
		Crew: []plan.CrewRate{{ID: "owner", Basis: plan.OwnTime}, {ID: "camera", Basis: plan.ByHour, Rate: dec("30"), Overtime: "ca", Travel: true}},
		Kit:  []plan.KitRate{{Name: "drone", Owned: true, Cost: dec("10000"), Salvage: dec("2000"), Years: 5, Days: 40}},
		Rates: []plan.Rate{
			{ID: "km", Group: plan.TravelGroup, Per: plan.PerKilometre, Amount: dec("0.45")},
			{ID: "edit", Group: plan.PostGroup, Per: plan.PerMinute, For: plan.Film, Time: 600, Who: "camera"},
			{ID: "raw", Group: plan.PostGroup, Per: plan.PerExposure, Amount: dec("0.5")},
			{ID: "song", Group: plan.LicenceGroup, Amount: dec("100"), Untaxed: true},
			{ID: "house", Group: plan.LocationGroup, Amount: dec("500"), Pays: plan.ClientPays},
		},
		Business: plan.Business{Overheads: []plan.Overhead{{Yearly: dec("10000")}}, Days: 100, Hours: 480, Pay: dec("40000")},
		Terms: plan.Terms{Contingency: dec("10"), Margin: dec("20"), Step: dec("10"), Taxes: []plan.Tax{{Name: "Sales tax", Percent: dec("8.25")}},
			Payments: []plan.Payment{{Name: "Booking", Percent: dec("33.3")}, {Name: "Shoot", Percent: dec("33.3"), When: plan.AtShoot, Days: -7},
				{Name: "Delivery", Percent: dec("33.4"), When: plan.AtDelivery}}},
	}}
	return p
}

// TestSheetByHand: a day of 12 h with a meal of 1 h, reckoned by hand. The camera works 11 h and drives 1 h: 8 x 30 and 4 x 45 as
// in the publisher's example of California wages (TestOvertimePay). The drone loses 1,600 a year (straight line, a textbook's
// 10,000 less 2,000 over 5 years), over 40 days.
func TestSheetByHand(t *testing.T) {
	p := small()
	s := Of(&p, []day.Day{dayOf(&p, october, 720, 60)})
	for id, want := range map[string]string{
		"crew/own":   "550.00 = 11 h x 50.00", // 40,000 over 100 days of 8 h
		"crew/cam":   "420.00 = 8 h x 30.00 + 4 h x 45.00",
		"kit/drone":  "40.00 = 1 day x 40.00",
		"rate/km":    "9.00 = 20 kilometres x 0.45",
		"rate/edit":  "450.00 = 15 h x 30.00", // 1.5 min, 10 h each
		"rate/raw":   "15.00 = 30 exposures x 0.50",
		"rate/song":  "100.00 = 1 job x 100.00",
		"rate/house": "500.00 = 1 job x 500.00",
	} {
		i := slices.IndexFunc(s.Lines, func(l Line) bool { return l.ID == id })
		if i < 0 {
			t.Errorf("there is no line %s", id)
			continue
		}
		if got := s.Amount(s.Lines[i].Amount) + " = " + s.Explain(s.Lines[i].Parts).String(); got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
	for _, c := range []struct{ name, got, want string }{
		{"direct", s.Amount(s.Direct), "1,034.00"}, // 420 + 40 + 9 + 450 + 15 + 100; the client pays the house
		{"overtime", s.Amount(s.Overtime), "180.00"},
		{"contingency", s.Amount(s.Contingency), "103.40"},
		{"owner", s.Amount(s.Owner), "550.00"},
		{"job days", s.JobDays.String(), "1.38"}, // 11 of 8 h
		{"overhead", s.Amount(s.Overhead), "137.50"},
		{"floor", s.Amount(s.Floor), "1,824.90"},
		{"price", s.Amount(s.Price()), "2,290.00"}, // 1824.90 / 0.8 = 2281.125
		{"unpaid", s.Amount(s.Unpaid()), "1,274.90"},
		{"margin", s.At(s.Price()).Margin.String(), "20.31"},
		{"markup", s.At(s.Price()).Markup.String(), "25.49"},
		{"owner an hour", s.Amount(s.At(s.Price()).OwnerPerHour), "92.28"}, // (2290 - 1274.90) / 11
		{"owner an hour at the floor", s.Amount(s.At(s.Floor).OwnerPerHour), "50.00"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.name, c.got, c.want)
		}
	}
	if got := s.Amount(s.OvertimeOn(&p.Pricing.Card, october)) + " " + s.Amount(s.OvertimeOn(&p.Pricing.Card, october.AddDays(1))); got != "180.00 0.00" {
		t.Errorf("overtime of the day, and of another one: %s", got)
	}
	q := s.Quote(&p, s.Price())
	// 100 of the floor of 1824.90 is not taxed: 125.49 of 2290, so 2164.51 are: 178.57
	if got := fmt.Sprint(q.Taxes[0].Base, q.Tax, q.Total); got != "2164.51 178.57 2468.57" {
		t.Errorf("tax and total: %s", got)
	}
	if got := fmt.Sprint(q.Payments); got != "[{Booking 822.04 2027-09-16} {Shoot 822.03 2027-10-09} {Delivery 824.5 2027-11-05}]" {
		t.Errorf("payments: %s", got)
	}
	if len(s.Problems) != 1 || s.Problems[0].Code != plan.MealSecond { // 11 h of work
		t.Errorf("problems: %v", s.Problems)
	}
}

// TestMarginAndMarkup: the first three rows are an accounting page's, the fourth arithmetic.
func TestMarginAndMarkup(t *testing.T) {
	for _, c := range []struct{ cost, price, margin, markup string }{
		{"200", "300", "33.33", "50"},
		{"10", "15", "33.33", "50"},
		{"100", "125", "20", "25"},
		{"100", "166.67", "40", "66.67"},
	} {
		s := Sheet{Floor: dec(c.cost), Places: 2}
		if at := s.At(dec(c.price)); at.Margin.String() != c.margin || at.Markup.String() != c.markup {
			t.Errorf("cost %s, price %s: margin %s, markup %s", c.cost, c.price, at.Margin, at.Markup)
		}
	}
	s := Sheet{Floor: dec("100"), Places: 2, terms: plan.Terms{Margin: dec("40")}}
	if got := s.Price().String(); got != "166.67" {
		t.Errorf("cost 100 at a margin of 40 percent: %s", got)
	}
}

// TestCostOfDoingBusiness: a freelance guide's year of 40,000 pay and 10,000 overhead is 500 a day at 100 days with a quarter on
// top, 454.55 at 110 and so on; here the day's cost before it.
func TestCostOfDoingBusiness(t *testing.T) {
	p := small()
	p.Pricing.Card.Rates, p.Pricing.Card.Kit, p.Pricing.Card.Terms = nil, nil, plan.Terms{}
	p.People = p.People[:1]
	for days, want := range map[int]string{125: "400", 100: "500"} { // 62,500 a year with its quarter is 500 at 125 days: 400 x 1.25
		p.Pricing.Card.Business.Days = days
		s := Of(&p, []day.Day{dayOf(&p, october, 480, 0)})
		if !s.Floor.Equal(dec(want)) {
			t.Errorf("at %d days: %s, want %s", days, s.Floor, want)
		}
	}
}

func TestOverrides(t *testing.T) {
	p := small()
	three, rate := dec("3"), dec("25")
	p.Pricing.Overrides = []plan.Override{
		{Line: "crew/cam", Quantity: &three, Note: "half a day"},
		{Line: "rate/km", Rate: &rate},
		{Line: "kit/drone", Out: true},
		{Line: "rate/song", Pays: plan.AgentPays},
		{Line: "kit/crane", Out: true},
	}
	s := Of(&p, []day.Day{dayOf(&p, october, 660, 60)})
	for _, l := range s.Lines {
		want, ok := map[string]string{"crew/cam": "3 h x 30.00 true", "rate/km": "20 kilometres x 25.00 true", "kit/drone": "1 day x 40.00 false",
			"rate/song": "1 job x 100.00 false"}[l.ID]
		if got := fmt.Sprint(s.Explain(l.Parts), " ", l.Counts()); ok && (got != want || !l.Overridden) {
			t.Errorf("%s: %s", l.ID, got)
		}
	}
	if !s.Direct.Equal(dec("1055")) { // 90 + 500 + 450 + 15
		t.Errorf("direct %s", s.Direct)
	}
	if got := s.Problems; len(got) != 1 || got[0].Code != plan.OverrideGone {
		t.Errorf("problems %v", got)
	}
}

// TestLacks: what is not there is told, and costs nothing.
func TestLacks(t *testing.T) {
	empty := plan.New()
	s := Of(&empty, nil)
	if !s.Floor.IsZero() || !s.Price().IsZero() || len(s.Lines) != 0 {
		t.Errorf("an empty plan costs %s", s.Floor)
	}
	p := small()
	p.People[1].Rate, p.Pricing.Card.Currency, p.Pricing.Card.Business.Days, p.Pricing.Card.Starter = "", "", 0, true
	var got []plan.Code
	for _, problem := range append(s.Problems, Of(&p, nil).Problems...) {
		got = append(got, problem.Code)
	}
	want := []plan.Code{plan.LackCard, plan.NotPlaced, plan.LackCurrency, plan.StarterCard, plan.NotPlaced, plan.LackRate, plan.LackBillable}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestRests: a first meal after 5 h and one meal in more than 10 h of work (California Labor Code 512(a), from memory), and a night
// under 11 h (Working Time Regulations 1998, reg. 10).
func TestRests(t *testing.T) {
	p := small()
	fine := []day.Day{dayOf(&p, october, 630, 30), dayOf(&p, october.AddDays(1), 600, 30)}
	if got := rests(fine); len(got) != 0 {
		t.Errorf("told %v", got)
	}
	long := []day.Day{dayOf(&p, october, 800, 0), dayOf(&p, october.AddDays(1), 301, 0), dayOf(&p, october.AddDays(2), 631, 30)}
	var got []plan.Code
	for _, problem := range rests(long) {
		got = append(got, problem.Code)
	}
	if want := []plan.Code{plan.MealLate, plan.MealLate, plan.NightShort, plan.MealSecond}; !slices.Equal(got, want) {
		t.Errorf("told %v, want %v", got, want)
	}
}

// randomly draws a job with hostile rates in any currency.
func randomly(t *rapid.T) plan.Plan {
	p := small()
	c := &p.Pricing.Card
	c.Currency = rapid.SampledFrom([]string{"USD", "JPY", "KWD", "EUR", "CLF"}).Draw(t, "currency")
	money := func(name string) decimal.Decimal {
		return rapid.SampledFrom(decs("0 0.005 0.0000001 1 19.99 33.333 12345678.9 1000000000000")).Draw(t, name)
	}
	c.Crew[1].Rate, c.Business.Pay = money("rate"), money("pay")
	c.Business.Overheads[0].Yearly = money("yearly")
	c.Crew[1].Overtime = rapid.SampledFrom([]plan.ID{"", "ca"}).Draw(t, "rule")
	c.Terms.Margin = decimal.NewFromInt(rapid.Int64Range(0, 99).Draw(t, "margin"))
	c.Terms.Discount = decimal.NewFromInt(rapid.Int64Range(0, 100).Draw(t, "discount"))
	c.Terms.TaxByLine = rapid.Bool().Draw(t, "by line")
	c.Terms.Step = rapid.SampledFrom(decs("0 0.05 50")).Draw(t, "step")
	for i := range rapid.IntRange(0, 30).Draw(t, "lines") {
		p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: plan.ID(fmt.Sprint("l", i)), Quantity: money("quantity"), Rate: money("each"),
			Group: rapid.SampledFrom(plan.Groups).Draw(t, "group"), Pays: rapid.SampledFrom(plan.Payers).Draw(t, "pays"),
			Untaxed: rapid.Bool().Draw(t, "untaxed")})
	}
	return p
}

// TestPartsAddUp: in any currency every total is the sum of what is shown under it, to the minor unit; the order of the lines
// changes none of them; and the floor never exceeds the price at a margin of zero or more.
func TestPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomly(t)
		length := plan.Minutes(rapid.IntRange(0, 1400).Draw(t, "length"))
		days := []day.Day{dayOf(&p, october, length, 0)}
		s := Of(&p, days)
		minor := func(name string, a decimal.Decimal) {
			if !a.Equal(a.Round(s.Places)) || a.IsNegative() {
				t.Fatalf("%s is %s in %s", name, a, s.Currency)
			}
		}
		direct, owner, groups := decimal.Zero, decimal.Zero, decimal.Zero
		for _, l := range s.Lines {
			sum := decimal.Zero
			for _, part := range l.Parts {
				minor("a part of "+l.ID, part.Amount)
				sum = sum.Add(part.Amount)
			}
			if !sum.Equal(l.Amount) {
				t.Fatalf("%s is %s, its parts %s", l.ID, l.Amount, sum)
			}
			switch {
			case !l.Counts():
			case l.Owner:
				owner = owner.Add(l.Amount)
			default:
				direct = direct.Add(l.Amount)
			}
		}
		for _, g := range s.Groups {
			groups = groups.Add(g.Amount)
		}
		if !direct.Equal(s.Direct) || !groups.Equal(s.Direct) || !owner.Equal(s.Owner) {
			t.Fatalf("direct %s, %s, %s; owner %s, %s", s.Direct, direct, groups, s.Owner, owner)
		}
		if !s.Floor.Equal(s.Direct.Add(s.Contingency).Add(s.Owner).Add(s.Overhead)) || s.Floor.GreaterThan(s.Price()) {
			t.Fatalf("floor %s, price %s", s.Floor, s.Price())
		}
		q := s.Quote(&p, s.Price())
		paid := decimal.Zero
		for _, due := range q.Payments {
			minor("a payment", due.Amount)
			paid = paid.Add(due.Amount)
		}
		minor("tax", q.Tax)
		if !paid.Equal(q.Total) || !q.Total.Equal(q.Net.Add(q.Tax)) || !q.Net.Equal(q.Price.Sub(q.Discount)) {
			t.Fatalf("%+v, paid %s", q, paid)
		}
		slices.Reverse(p.Pricing.Lines)
		slices.Reverse(p.Pricing.Card.Rates)
		if again := Of(&p, days); !again.Floor.Equal(s.Floor) || !again.Price().Equal(s.Price()) {
			t.Fatalf("the other way round: %s, not %s", again.Floor, s.Floor)
		}
		if longer := Of(&p, []day.Day{dayOf(&p, october, length+30, 0)}); longer.Floor.LessThan(s.Floor) {
			t.Fatalf("half an hour more costs %s, less than %s", longer.Floor, s.Floor)
		}
	})
}

// BenchmarkSheet prices a plan of 500 lines.
func BenchmarkSheet(b *testing.B) {
	p := small()
	for i := range 492 {
		p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: plan.ID(fmt.Sprint("l", i)), Quantity: dec("2.5"), Rate: dec("19.99"),
			Group: plan.Groups[i%len(plan.Groups)]})
	}
	days := []day.Day{dayOf(&p, october, 720, 60)}
	for b.Loop() {
		s := Of(&p, days)
		s.Quote(&p, s.Price())
	}
}
