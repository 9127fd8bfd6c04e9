package papers

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// costed is the demo with a price: people by the hour and by the day, overtime, the owner, what others pay, and what is taken out.
func costed(t testing.TB) (plan.Plan, []day.Day) {
	p, d := demo(t)
	for i := range d.People {
		for _, on := range d.People[i].OnCamera {
			d.People[i].Filmed += on.Minutes()
		}
	}
	rates := map[plan.ID]plan.ID{"noor": "owner", "teo": "hand", "ines": "pilot"}
	for i, who := range p.People {
		p.People[i].Rate = rates[who.ID]
	}
	p.Pricing = plan.Pricing{Distance: 31, Card: plan.RateCard{
		Currency: "USD", TimeStep: 1,
		Overtime: []plan.OvertimeRule{{ID: "long", Daily: []plan.OvertimeStep{{After: 480, Times: dec("1.5")}, {After: 720, Times: dec("2")}}}},
		Crew: []plan.CrewRate{{ID: "owner", Name: "Owner", Basis: plan.OwnTime}, {ID: "hand", Name: "Assistant", Rate: dec("31.15"), Overtime: "long"},
			{ID: "pilot", Name: "Pilot", Basis: plan.ByDay, Rate: dec("640"), Hours: 600}},
		Kit: []plan.KitRate{{Name: "drone", Owned: true, Cost: dec("3100"), Salvage: dec("350"), Years: 3, Days: 37}, {Name: "water housing", Day: dec("45"), Week: dec("160")}},
		Rates: []plan.Rate{{ID: "km", Name: "Driving", Group: plan.TravelGroup, Per: plan.PerKilometre, Amount: dec("0.455")},
			{ID: "releases", Name: "Releases", Group: plan.PrepGroup, Per: plan.PerRelease, Time: 10, Who: "owner"},
			{ID: "food", Name: "Meals", Group: plan.CateringGroup, Per: plan.PerMeal, Amount: dec("17.35")},
			{ID: "song", Name: "Music licence", Group: plan.LicenceGroup, Amount: dec("220"), Untaxed: true},
			{ID: "house", Name: "The house for the day", Group: plan.LocationGroup, Amount: dec("900"), Pays: plan.ClientPays}},
		Business: plan.Business{Overheads: []plan.Overhead{{Name: "Insurance", Yearly: dec("2400")}, {Name: "Vehicle", Yearly: dec("7100")}}, Days: 110, Hours: 480, Pay: dec("62000")},
		Terms: plan.Terms{Contingency: dec("7.5"), Margin: dec("22.5"), Discount: dec("3"), Step: dec("25"),
			Taxes: []plan.Tax{{Name: "State tax", Percent: dec("7.25")}, {Name: "=City tax", Percent: dec("1.125")}}},
	}, Lines: []plan.TypedLine{{ID: "flowers", Group: plan.LocationGroup, Text: "Flowers", Quantity: dec("3"), Unit: "bunch", Rate: dec("14.9")},
		{ID: "ice", Group: plan.CateringGroup, Text: "@Ice", Quantity: dec("1.25"), Unit: "kg", Rate: dec("2.02"), Note: "+ a cool box"}},
		Overrides: []plan.Override{{Line: "kit/water housing", Out: true}}}
	return p, []day.Day{d}
}

func budgetOf(t testing.TB, p *plan.Plan, days []day.Day) (Book, price.Sheet) {
	t.Helper()
	if wrong := plan.Validate(*p).At(plan.Wrong); len(wrong) > 0 {
		t.Fatalf("the plan is wrong: %v", wrong)
	}
	s := price.Of(p, days)
	return BudgetBook(p, days, &s), s
}

func workbook(t testing.TB, b Book) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.XLSX(&out, plan.Letter, madeAt); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// sameFigures holds every figure that LibreOffice reckoned against that of package price.
func sameFigures(t testing.TB, name string, b Book, dir string) {
	t.Helper()
	for _, l := range b.leaves {
		rows := opened(t, dir, name, l.name)
		for i, r := range l.rows {
			for j, c := range r.cells {
				got := ""
				if i+1 < len(rows) && j < len(rows[i+1]) {
					got = rows[i+1][j]
				}
				if n, err := strconv.ParseFloat(got, 64); c.format != "" && (err != nil || math.Abs(n-c.figure) > 1e-6) {
					t.Errorf("%s, %s!%s: LibreOffice makes it %q of %s, package price %s", name, l.name, cellName(j, i+2), got, c.formula, c.plain)
				}
			}
		}
	}
}

// TestBudgetIsReckonedTheSame: LibreOffice, made to reckon every formula anew, comes to what package price says: for the demo, in
// currencies with no and with three decimals (ISO 4217), with tax by line, with a price asked, with nothing at all, and for jobs made
// by chance.
func TestBudgetIsReckonedTheSame(t *testing.T) {
	base, days := costed(t)
	books, files := map[string]Book{}, map[string][]byte{}
	try := func(name string, p plan.Plan, days []day.Day) {
		b, _ := budgetOf(t, &p, days)
		books[name], files[name+".xlsx"] = b, workbook(t, b)
	}
	for name, change := range map[string]func(p *plan.Plan){
		"demo":   func(*plan.Plan) {},
		"byline": func(p *plan.Plan) { p.Pricing.Card.Terms.TaxByLine = true },
		"yen":    func(p *plan.Plan) { p.Pricing.Card.Currency = "JPY" },
		"dinar":  func(p *plan.Plan) { p.Pricing.Card.Currency, p.Pricing.Card.Terms.TaxByLine = "KWD", true },
		"asked":  func(p *plan.Plan) { p.Pricing.Asked = dec("4999.995") },
		"finer":  func(p *plan.Plan) { p.Pricing.Card.Terms.Step = dec("0.005") },
		"nocard": func(p *plan.Plan) { unrated(p) },
		"nocosts": func(p *plan.Plan) {
			terms := p.Pricing.Card.Terms
			unrated(p)
			p.Pricing.Asked, p.Pricing.Card.Terms = dec("100"), terms
			p.Pricing.Card.Terms.TaxByLine = true
		},
	} {
		p := base.Clone()
		change(&p)
		try(name, p, days)
	}
	try("nodays", base, nil)
	for i := range 25 {
		try(fmt.Sprintf("chance%d", i), anyCosted(base).Example(i), days)
	}
	dir := office(t, asIs, files)
	for name, b := range books {
		sameFigures(t, name, b, dir)
	}
}

func unrated(p *plan.Plan) {
	p.Pricing = plan.Pricing{}
	for i := range p.People {
		p.People[i].Rate = ""
	}
}

// anyCosted are jobs with figures by chance, among them many that make half a minor unit or an exact multiple of the step. They are
// small enough for tax by line, which reckons with whole numbers up to 2^53.
func anyCosted(base plan.Plan) *rapid.Generator[plan.Plan] {
	return rapid.Custom(func(t *rapid.T) plan.Plan {
		p := base.Clone()
		places := rapid.Int32Range(0, 4)
		figure := func(name string, most int64) decimal.Decimal {
			return decimal.New(rapid.Int64Range(0, most).Draw(t, name), -places.Draw(t, "places"))
		}
		card := &p.Pricing.Card
		card.Currency = rapid.SampledFrom([]string{"USD", "JPY", "KWD"}).Draw(t, "currency")
		card.Terms = plan.Terms{Contingency: figure("contingency", 20), Margin: figure("margin", 60), Discount: figure("discount", 20),
			Step: rapid.SampledFrom([]decimal.Decimal{{}, dec("0.05"), dec("1"), dec("10"), dec("50"), dec("0.3")}).Draw(t, "step"), TaxByLine: rapid.Bool().Draw(t, "by line")}
		for range rapid.IntRange(0, 2).Draw(t, "taxes") {
			card.Terms.Taxes = append(card.Terms.Taxes, plan.Tax{Name: "tax", Percent: figure("tax", 25)})
		}
		for i := range card.Crew {
			card.Crew[i].Rate = figure("rate", 500)
		}
		card.Business.Pay, card.Business.Days = figure("pay", 90_000), rapid.IntRange(60, 300).Draw(t, "days")
		p.Pricing.Lines = nil
		for i := range rapid.IntRange(0, 6).Draw(t, "lines") {
			p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: plan.ID(fmt.Sprint("l", i)), Text: "line", Quantity: figure("quantity", 20), Rate: figure("rate", 500),
				Group: rapid.SampledFrom(plan.Groups).Draw(t, "group"), Pays: rapid.SampledFrom(plan.Payers).Draw(t, "pays"), Untaxed: rapid.Bool().Draw(t, "untaxed")})
		}
		for _, line := range []string{"crew/noor", "crew/teo", "crew/ines", "kit/drone"} {
			o := plan.Override{Line: line, Out: rapid.IntRange(0, 5).Draw(t, "out") == 0}
			if rapid.Bool().Draw(t, "hours") {
				q := figure("hours", 20)
				o.Quantity = &q
			}
			p.Pricing.Overrides = append(p.Pricing.Overrides, o)
		}
		return p
	})
}

// TestBudgetFollowsAChange: a figure changed in the file makes what package price makes of the changed plan. The line of the kit is
// taken out in both, so that no figure of it may count.
func TestBudgetFollowsAChange(t *testing.T) {
	base, days := costed(t)
	base.Pricing.Card.Terms.TaxByLine = true
	for i, who := range base.People { // a line of one part, for a plan's change to be one cell's
		if who.ID == "teo" {
			base.People[i].Rate = "owner"
		}
	}
	before, _ := budgetOf(t, &base, days)
	number := func(s string) *decimal.Decimal { d := dec(s); return &d }
	files, after, totals := map[string][]byte{}, map[string]Book{}, map[string]string{}
	for name, c := range map[string]struct {
		line string
		col  int
		to   *decimal.Decimal
	}{
		"rate": {"crew/ines", 4, number("701.255")}, "hours": {"crew/noor", 2, number("9.25")}, "owner": {"rate/releases", 2, number("40")},
		"meals": {"rate/food", 2, number("11")}, "untaxed": {"rate/song", 4, number("333.33")}, "client": {"rate/house", 4, number("1")},
		"out": {"kit/water housing", 2, number("7")},
	} {
		p := base.Clone()
		o := plan.Override{Line: c.line, Out: c.line == "kit/water housing", Quantity: c.to}
		if c.col == 4 {
			o.Quantity, o.Rate = nil, c.to
		}
		p.Pricing.Overrides = append(slices.DeleteFunc(p.Pricing.Overrides, func(o plan.Override) bool { return o.Line == c.line }), o)
		changed, s := budgetOf(t, &p, days)
		row := 2 + slices.IndexFunc(before.leaves[0].rows, func(r leafRow) bool { return r.at(1).plain == textOf(s, c.line) })
		f := reread(t, workbook(t, before))
		if err := f.SetCellValue(budgetLeaf, cellName(c.col, row), c.to.InexactFloat64()); err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		files[name+".xlsx"], after[name], totals[name] = out.Bytes(), changed, s.Quote(&p, s.Price()).Total.StringFixed(s.Places)
	}
	dir := office(t, asIs, files)
	for name, b := range after {
		sameFigures(t, name, b, dir)
		i := slices.IndexFunc(b.leaves[0].rows, func(r leafRow) bool { return r.at(1).plain == "Total with tax" })
		got := dec(opened(t, dir, name, budgetLeaf)[i+1][6])
		was := before.leaves[0].rows[i].at(6).plain
		if !got.Equal(dec(totals[name])) || (totals[name] == was) != (name == "client" || name == "out") {
			t.Errorf("%s: the total is %s, of package price %s; before the change %s", name, got, totals[name], was)
		}
	}
}

func textOf(s price.Sheet, line string) string {
	i := slices.IndexFunc(s.Lines, func(l price.Line) bool { return l.ID == line })
	return s.Lines[i].Text
}

// TestBudgetSaysWhatThePriceSays: the totals of the book, by their labels, are those of package price.
func TestBudgetSaysWhatThePriceSays(t *testing.T) {
	p, days := costed(t)
	b, s := budgetOf(t, &p, days)
	q := s.Quote(&p, s.Price())
	at := s.At(q.Net)
	for label, want := range map[string]string{
		"Direct costs": s.Direct.StringFixed(s.Places), "Contingency": s.Contingency.StringFixed(s.Places), "Owner's time": s.Owner.StringFixed(s.Places),
		"Share of the year's overhead": s.Overhead.StringFixed(s.Places), "Floor: below it the job loses money": s.Floor.StringFixed(s.Places), "Price by the card": s.Computed().StringFixed(s.Places),
		"Price": q.Price.StringFixed(s.Places), "Discount": q.Discount.StringFixed(s.Places), "Price less discount": q.Net.StringFixed(s.Places), "State tax": q.Taxes[0].Amount.StringFixed(s.Places),
		"=City tax": q.Taxes[1].Amount.StringFixed(s.Places), "Total with tax": q.Total.StringFixed(s.Places), "Left after the floor": at.Profit.StringFixed(s.Places)} {
		i := slices.IndexFunc(b.leaves[0].rows, func(r leafRow) bool { return r.at(1).plain == label })
		if i < 0 || b.leaves[0].rows[i].at(6).plain != want {
			t.Errorf("%s: want %s, in row %d", label, want, i)
		}
	}
	amounts := map[string]decimal.Decimal{}
	for _, r := range b.leaves[0].rows {
		if r.at(7).plain != "" {
			amounts[r.at(7).plain] = amounts[r.at(7).plain].Add(dec(r.at(6).plain))
		}
	}
	// What counts are the direct costs and the owner's; the client pays 900 for the house, and a day of the water housing is taken out.
	if !amounts["us"].Equal(s.Direct) || !amounts["owner"].Equal(s.Owner) || amounts["client"].String() != "900" || amounts["taken out"].String() != "45" {
		t.Errorf("by who pays: %v", amounts)
	}
}
