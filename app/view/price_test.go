package view

import (
	"context"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// pricedDemo is the demo with its days placed and its price worked out, after an edit.
func pricedDemo(t *testing.T, edit func(*plan.Plan)) Priced {
	t.Helper()
	p := demo(t)
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil {
		t.Fatal(err)
	}
	if edit != nil {
		edit(&p)
	}
	st := state(t, p)
	st.Results.Shoot, st.Results.Chosen = shoot, shoot.Days[0]
	return PriceOf(st)
}

func figureOf(t *testing.T, figures []Figure, name string) string {
	t.Helper()
	i := slices.IndexFunc(figures, func(f Figure) bool { return strings.HasPrefix(f.Name, name) })
	if i < 0 {
		t.Fatalf("%v has no %s", figures, name)
	}
	return figures[i].Value
}

// TestSummary says what the command says of the demo; what the figures must be is tested in plan/price, against outside values.
func TestSummary(t *testing.T) {
	s := SummaryOf(pricedDemo(t, nil))
	for _, c := range []struct{ got, want string }{
		{s.Price, "8,750.00 USD"}, {s.Margin, "20.17 %"}, {s.Markup, "25.27 %"}, {s.Whence, "Worked out: the floor and your margin."},
		{figureOf(t, s.Asked, "Total"), "9,446.04"}, {figureOf(t, s.Asked, "Sales tax, 8.25 %"), "696.04"},
		{figureOf(t, s.Costs, "Direct lines"), "4,639.20"}, {figureOf(t, s.Costs, "Contingency, 8 %"), "371.14"},
		{figureOf(t, s.Costs, "Your time, 21 h 40"), "1,526.52"}, {figureOf(t, s.Costs, "Overhead, 2.71 days"), "448.11"},
		{figureOf(t, s.Costs, "Floor"), "6,984.97"}, {figureOf(t, s.Owner, "Pays all but you"), "5,458.45"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	asked := SummaryOf(pricedDemo(t, func(p *plan.Plan) {
		p.Pricing.Asked, p.Pricing.Card.Terms.Discount = dec("9000"), dec("10")
	}))
	if got := figureOf(t, asked.Asked, "Discount 10 %") + " " + figureOf(t, asked.Asked, "Net price"); got != "-900.00 8,100.00" || asked.Whence != "As you ask. The card makes it 8,750.00." {
		t.Errorf("with a discount of a tenth: %s; %s", got, asked.Whence)
	}
	if !slices.Contains(s.Problems, "The figures come from the starter card and are invented; put your own in before you quote.") {
		t.Errorf("problems: %q", s.Problems)
	}
	empty := SummaryOf(PriceOf(state(t, plan.New())))
	if empty.Price != "0.00" || len(empty.Problems) != 2 {
		t.Errorf("an empty plan: %+v", empty)
	}
}

// TestCurrencies: amounts have the decimals of their currency (ISO 4217: JPY none, EUR two, KWD three).
func TestCurrencies(t *testing.T) {
	for currency, want := range map[string]string{"JPY": "34", "EUR": "34.20", "KWD": "34.200"} {
		p := pricedDemo(t, func(p *plan.Plan) { p.Pricing.Card.Currency = currency })
		if row := rowOf(t, p, "rate/way"); row.Amount != want {
			t.Errorf("%s: %+v", currency, row)
		}
	}
}

func rowOf(t *testing.T, p Priced, id string) BudgetRow {
	t.Helper()
	rows := BudgetRows(p)
	i := slices.IndexFunc(rows, func(r BudgetRow) bool { return r.ID == id })
	if i < 0 {
		t.Fatalf("there is no line %s", id)
	}
	return rows[i]
}

func TestBudgetRows(t *testing.T) {
	three := dec("3")
	p := pricedDemo(t, func(p *plan.Plan) {
		p.SetOverride(plan.Override{Line: "kit/drone", Out: true})
		p.SetOverride(plan.Override{Line: "rate/food", Pays: plan.ClientPays, Note: "their cook"})
		p.SetOverride(plan.Override{Line: "kit/gimbal", Rate: &three})
		p.SetOverride(plan.Override{Line: "kit/crane", Out: true})
		p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: "x", Group: plan.KitGroup, Quantity: dec("2"), Rate: dec("7.5"), Untaxed: true})
	})
	for id, want := range map[string]BudgetRow{
		"kit/drone":     {Text: "drone", How: "1 day x 15.00", Amount: "15.00", Mark: "taken out", Quiet: true},
		"rate/food":     {Text: "Meals", How: "12 meals x 16.00", Amount: "192.00", Mark: "the client pays", Quiet: true},
		"kit/gimbal":    {Text: "gimbal", How: "1 day x 3.00", Amount: "3.00", Mark: "changed by hand"},
		"typed/x":       {Text: "no text yet", How: "2 x 7.50", Amount: "15.00", Mark: "typed"},
		"rate/scouting": {Text: "Scouting visit, Owner", How: "3 h x 70.4545", Amount: "211.36", Mark: "your time"},
	} {
		want.ID = id
		if got := rowOf(t, p, id); got != want {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	heads := map[string]BudgetRow{}
	for _, r := range BudgetRows(p) {
		if r.ID == "" {
			heads[r.Text] = r
		}
	}
	if got := heads["Kit"]; got.Amount != "87.00" || got.How != "6 lines" { // 30 + 3 + 4 + 35 + 15
		t.Errorf("%+v", got)
	}
	if got := heads["Crew"]; got.Amount != "1,617.00" || got.How != "3 lines, and 810.23 of your own time" {
		t.Errorf("%+v", got)
	}
	for _, c := range []struct{ got, want string }{
		{LineComputed(p, "kit/gimbal"), "1 day x 5.00 = 5.00"},
		{LineComputed(p, "kit/slider"), ""},
		{LineAmount(p, "rate/food"), "12 meals x 16.00 = 192.00. The client pays it beside the price, so it does not count."},
		{LineAmount(p, "kit/drone"), "1 day x 15.00 = 15.00. You took it out, so it does not count."},
		{LineAmount(p, "typed/x"), "2 x 7.50 = 15.00. It is not taxed."},
		{LineSource(p, "rate/edit-film"), "The rate card, for each finished minute, film only."},
		{LineSource(p, "typed/x"), "Typed by you."},
		{LineSource(p, "kit/slider"), "The placed days: those that use it; owned, straight-line depreciation."},
		{strings.Join(GoneLines(p), " "), "kit/crane"},
		{DropWords(GoneLines(p)), "Forget 1 change of a line that is gone"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// TestHours of the camera on the demo's day: what is beyond the ten hours of the day's rate is paid one and a half times.
func TestHours(t *testing.T) {
	p := pricedDemo(t, nil)
	i := slices.IndexFunc(p.Plan.People, func(q plan.Person) bool { return q.Rate == "camera" })
	line := "crew/" + string(p.Plan.People[i].ID)
	var got []string
	for _, row := range HoursGrid(p, line) {
		got = append(got, strings.Join(row, " "))
	}
	want := []string{" Sat 16 Oct 2027", "Call 06:10", "Free to go 19:10", "Meals, out -1 h 30", "Travel, in none", "Paid time 11 h 30", "of it x1 10 h", "of it x1.5 1 h 30"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := LineRule(p, line); got != "Beyond the hours of the day rate (common practice, no published source). "+OvertimeCaution() {
		t.Error(got)
	}
	if got := HoursGrid(p, "rate/food"); got != nil {
		t.Errorf("meals have hours: %v", got)
	}
	if got := DayNote(p.State); !strings.HasSuffix(got, "overtime pay 297.00 USD") { // 1.5 h x 93 + 1.5 h x 105
		t.Error(got)
	}
	bare := pricedDemo(t, func(p *plan.Plan) { p.TakeCard(plan.RateCard{}) })
	if got := DayNote(bare.State); strings.Contains(got, "overtime") {
		t.Error(got)
	}
}

func TestQuoteWords(t *testing.T) {
	p := pricedDemo(t, func(p *plan.Plan) { p.Pricing.Try = dec("6500") })
	// 6500 - 6984.97 = -484.97; of 6500 -7.46 %, of 6984.97 -6.94 %; (1526.52 - 484.97) / 21.6667 h = 48.07
	if got, want := FriendLine(p), "At 6,500.00 you lose 484.97 and earn 48.07 an hour: a margin of -7.46 %, a markup of -6.94 %. With tax the client pays "; !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := FriendLine(pricedDemo(t, nil)); got != "" {
		t.Errorf("no price to look at: %q", got)
	}
	for _, c := range []struct{ got, want string }{
		{ComputedLine(p), "The floor of 6,984.97 with a margin of 20 % makes 8,750.00, rounded up to a step of 50.00."},
		{TaxLines(p), "Sales tax, 8.25 % of 8,436.83: 696.04"},
		{PaymentLines(p), "On booking: 3,778.42 USD, Fri 10 Sep 2027\nBefore the shoot: 2,833.81 USD, Sat 9 Oct 2027\nOn delivery: 2,833.81 USD, Fri 12 Nov 2027"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	open := pricedDemo(t, func(p *plan.Plan) { p.Pricing.Booked = plan.Date{} })
	if got := PaymentLines(open); !strings.HasPrefix(got, "On booking: 3,778.42 USD, no date yet: it counts from the booking\n") {
		t.Error(got)
	}
}

// TestMarginAndMarkup: a margin of 20 % is a markup of 25 %, one of 50 % is 100 % (retail arithmetic, as any handbook has it), and
// what is typed as a markup reads back.
func TestMarginAndMarkup(t *testing.T) {
	for margin, markup := range map[string]string{"20": "25", "50": "100", "0": "0", "75": "300"} {
		if got := MarkupOf(dec(margin)); !got.Equal(dec(markup)) {
			t.Errorf("a margin of %s is a markup of %s, want %s", margin, got, markup)
		}
		if got := MarginOf(dec(markup)); !got.Equal(dec(margin)) {
			t.Errorf("a markup of %s is a margin of %s, want %s", markup, got, margin)
		}
	}
	for cents := int64(0); cents < 50_000; cents += 37 {
		markup := decimal.New(cents, -2)
		if got := MarkupOf(MarginOf(markup)); !got.Equal(markup) {
			t.Fatalf("a markup of %s reads back as %s", markup, got)
		}
	}
}

func TestRateCardWords(t *testing.T) {
	p := demo(t)
	rows := RateRows(p)
	i := slices.IndexFunc(rows, func(r Row) bool { return r.ID == "edit-film" })
	if got := rows[i]; got.Sub != "9 h of Editor for each finished minute, film only" || got.Mark != "post-production" {
		t.Errorf("%+v", got)
	}
	rules := RuleRows(p)
	i = slices.IndexFunc(rules, func(r Row) bool { return r.ID == "california" })
	if got := rules[i]; got.Title != "California, by the day and the week" || got.Sub != "Assistant" {
		t.Errorf("%+v", got)
	}
	// 62,000 over 110 days of 8 h; 18,200 over 110 days
	if got, want := YearLine(p), "Your hour is worth 70.45. The overheads are 18,200.00 a year, 165.45 for each of 110 billable days."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for want, card := range map[string]plan.RateCard{"There is no rate card yet.": {}, "These figures are invented": p.Pricing.Card,
		"The plan keeps its own copy": {Business: plan.Business{Pay: dec("1")}}} {
		p.Pricing.Card = card
		if got := CardLine(p); !strings.HasPrefix(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
