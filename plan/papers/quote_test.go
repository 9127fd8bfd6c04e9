package papers

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"
	"eavelight/plan/store"

	"github.com/shopspring/decimal"
)

// tarn is the demo plan that comes with the program, placed, and its packages answered.
func tarn(t testing.TB) (plan.Plan, []day.Day, []price.Answer) {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil {
		t.Fatal(err)
	}
	packages, err := price.Packages(context.Background(), &p, shoot.Days)
	if err != nil {
		t.Fatal(err)
	}
	return p, shoot.Days, packages
}

// ours is tarn with a card that is not the starter's, quoted on a day.
func ours(t testing.TB) (plan.Plan, []day.Day, []price.Answer) {
	p, days, packages := tarn(t)
	p.Pricing.Card.Starter = false
	p.Pricing.Quoted = plan.Date{Year: 2027, Month: 9, Day: 1}
	return p, days, packages
}

// golden holds a sheet's text against a file that was looked at.
func golden(t *testing.T, name string, s Sheet) {
	t.Helper()
	got, path := s.Text(), filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; look at it, then run with -update. Now:\n%s", name, got)
	}
}

func TestQuoteGoldenText(t *testing.T) {
	p, days, packages := ours(t)
	golden(t, "quote.txt", Quote(&p, days, packages...))
	d, days, _ := tarn(t)
	d.Pricing.Packages = nil
	golden(t, "quote-draft.txt", Quote(&d, days))
}

// priced are the papers of a price and of what is signed, by name, of a plan.
func priced(p *plan.Plan, days []day.Day, packages ...price.Answer) map[string]Sheet {
	return map[string]Sheet{"quote": Quote(p, days, packages...), "budget": Budget(p, days), "register": ReleaseRegister(p, days, nil)}
}

// everything is all that can be read of a paper: its content, its text and its print.
func everything(t *testing.T, s Sheet) string {
	return all(s) + s.Text() + spaces.Replace(pdfText(t, s, plan.Letter))
}

// secretly marks what the client may not read: texts with LEAK, and figures that nothing else comes to.
func secretly(p *plan.Plan) {
	private(p)
	c := &p.Pricing
	leak := func(s string) decimal.Decimal { return decimal.RequireFromString(s) }
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Hero film", Seconds: 90, Exposures: 77}, {Name: "Stills", Stills: 12}}
	p.Brief.Budget = plan.Money{Amount: leak("77123"), Currency: "LEAK"}
	p.Shooting.Weather = []plan.Weather{{Cloud: 77}}
	*c = plan.Pricing{Distance: 77, Try: leak("77321.99"), Booked: plan.Date{Year: 2027, Month: 2, Day: 1},
		Quoted: plan.Date{Year: 2027, Month: 1, Day: 20}, Market: []plan.Offer{{Who: "LEAK rival", Amount: leak("77654.32"), Includes: "LEAK offer"}},
		Unsure:   plan.Unsure{Early: 77, Late: 771, MostRounds: 77, Rounds: 2, Weather: 77},
		WhatIf:   plan.WhatIf{Talent: "camera", Saves: 77, More: plan.Deliverable{Name: "LEAK more", Seconds: 77}},
		Packages: []plan.Package{{Name: "Films", Deliverables: []string{"Hero film"}}, {Name: "Everything"}}}
	c.Lines = []plan.TypedLine{{ID: "x", Text: "LEAK typed", Quantity: leak("3"), Unit: "LEAK unit", Rate: leak("77.13"), Note: "LEAK"},
		{ID: "y", Text: "Permit of the town", Quantity: leak("1"), Rate: leak("77.81"), Pays: plan.ClientPays, Note: "LEAK"},
		{ID: "z", Text: "LEAK taken out", Quantity: leak("1"), Rate: leak("77.82"), Pays: plan.ClientPays}}
	rate := leak("77.17")
	c.Overrides = []plan.Override{{Line: "rate/food", Rate: &rate, Note: "LEAK"}, {Line: "typed/z", Out: true, Note: "LEAK"}}
	c.Card = plan.RateCard{Name: "LEAK card", Currency: "USD",
		Overtime: []plan.OvertimeRule{{ID: "o", Name: "LEAK rule", Source: "LEAK source", Daily: []plan.OvertimeStep{{After: 480, Times: leak("1.77")}}}},
		Crew: []plan.CrewRate{{ID: "camera", Name: "LEAK crew rate", Basis: plan.ByHour, Rate: leak("77.19"), Overtime: "o"},
			{ID: "owner", Name: "LEAK owner", Basis: plan.OwnTime}},
		Kit: []plan.KitRate{{Name: "LEAK kit", Always: true, Day: leak("77.23")}},
		Rates: []plan.Rate{{ID: "food", Name: "LEAK food", Per: plan.PerMeal, Amount: leak("77.29"), Note: "LEAK"},
			{ID: "music", Name: "The song", Amount: leak("77.31"), Pays: plan.AgentPays, Note: "LEAK"},
			{ID: "edit", Name: "Cut of the trailer", Per: plan.PerJob, Time: 77, Who: "camera", Pays: plan.ClientPays, Note: "LEAK"}},
		Business: plan.Business{Overheads: []plan.Overhead{{Name: "LEAK overhead", Yearly: leak("77777.77")}}, Days: 97, Hours: 470, Pay: leak("77551.33")},
		Terms: plan.Terms{Contingency: leak("7.77"), Margin: leak("27.77"), Step: leak("0.77"), Discount: leak("5"), Valid: 30,
			Taxes: []plan.Tax{{Name: "Sales tax", Percent: leak("8.25")}}, Payments: []plan.Payment{{Name: "Deposit", Percent: leak("40")}, {Name: "Rest", Percent: leak("60"), When: plan.AtDelivery}}}}
	for i := range p.People {
		switch p.People[i].Role {
		case plan.Crew:
			p.People[i].Rate = "camera"
		case plan.Owner:
			p.People[i].Rate, p.People[i].Role = "owner", plan.Crew
		}
	}
}

// Nothing of what the job costs is on the client's paper: no text that is ours, and none of the figures behind the price.
func TestQuoteLeaksNothing(t *testing.T) {
	p, d := demo(t)
	secretly(&p)
	d.People = append(d.People, day.Presence{Person: "otto", Call: d.Call, Release: d.Wrap})
	answer := price.Answer{Case: price.PackageCase(&p, p.Pricing.Packages[0]), Days: []day.Day{d}}
	answer.Sheet = price.Of(&answer.Plan, answer.Days)
	answer.Quote = answer.Sheet.Quote(&answer.Plan, answer.Sheet.Computed())
	quote := Quote(&p, []day.Day{d}, answer)
	for _, want := range []string{"Permit of the town", "The song", "Cut of the trailer", answer.Sheet.Amount(answer.Quote.Total), "Discount, 5"} {
		if !strings.Contains(all(quote), want) {
			t.Errorf("the quote lacks %q", want)
		}
	}
	text := everything(t, quote)
	if i := strings.Index(text, "LEAK"); i >= 0 {
		t.Errorf("a private text is on the quote: %.60q", text[i:])
	}
	for _, figure := range costs(&p, []day.Day{d}) {
		if found := regexp.MustCompile(`(^|[^\d.,])` + regexp.QuoteMeta(figure) + `($|[^\d])`).FindString(text); found != "" {
			t.Errorf("%q, a figure of ours, is on the quote", figure)
		}
	}
	for _, part := range []string{"77", "1.77", "Owner", "margin", "Margin", "floor", "Floor", "overhead", "1984", "555"} {
		if found := regexp.MustCompile(`(^|[^\d.,])` + regexp.QuoteMeta(part)).FindString(strings.ReplaceAll(text, "Total in USD", "")); found != "" {
			t.Errorf("%q is on the quote", part)
		}
	}
}

// costs are all the figures of a budget that are no figures of its quote.
func costs(p *plan.Plan, days []day.Day) []string {
	s := price.Of(p, days)
	q := s.Quote(p, s.Price())
	at := s.At(q.Net)
	out := []string{at.Margin.StringFixed(2), at.Markup.StringFixed(2), s.JobDays.String(), s.OwnerTime.String()}
	amounts := []decimal.Decimal{s.Direct, s.Overtime, s.Contingency, s.Owner, s.Overhead, s.Floor, at.Profit, at.OwnerPerHour, s.Unpaid()}
	for _, g := range s.Groups {
		amounts = append(amounts, g.Amount)
	}
	for _, l := range s.Lines {
		amounts = append(amounts, l.Amount)
		for _, part := range l.Parts {
			amounts = append(amounts, part.Amount)
			out = append(out, part.Rate.String(), part.Rate.StringFixed(2))
		}
	}
	for _, a := range amounts {
		out = append(out, s.Amount(a), a.StringFixed(2))
	}
	return slices.DeleteFunc(out, func(s string) bool { return len(s) < 4 })
}

// The leak test itself can see: the owner's paper has every figure that it looks for.
func TestBudgetHasTheCosts(t *testing.T) {
	p, d := demo(t)
	secretly(&p)
	s := price.Of(&p, []day.Day{d})
	text := everything(t, Budget(&p, []day.Day{d}))
	for _, l := range s.Lines {
		if !strings.Contains(text, l.Text) || !strings.Contains(text, s.Amount(l.Amount)) || !strings.Contains(text, s.Explain(l.Parts).String()) {
			t.Errorf("the budget lacks %s: %s = %s", l.Text, s.Explain(l.Parts), s.Amount(l.Amount))
		}
	}
	for _, want := range []string{"For the owner only", s.Amount(s.Floor), s.Amount(s.Contingency), s.Amount(s.Overhead), "taken out by hand", "the client pays it", "the agent pays it", "changed by hand; computed: "} {
		if !strings.Contains(text, want) {
			t.Errorf("the budget lacks %q", want)
		}
	}
}

// What a quote says of its day, its days and its payments.
func TestQuoteSays(t *testing.T) {
	base, days, packages := ours(t)
	for name, c := range map[string]struct {
		change     func(*plan.Plan)
		has, lacks []string
	}{
		"as it is": {func(*plan.Plan) {}, []string{"Valid until\nFriday 1 October 2027\n", "9,446.04", "“The whole day”", "5,548.94", "not legal advice", "Signature"},
			[]string{"draft", "Discount", "on request"}},
		"no day":   {func(p *plan.Plan) { p.Pricing.Quoted = plan.Date{} }, []string{"for 30 days from the day it was made"}, []string{"Valid until"}},
		"for ever": {func(p *plan.Plan) { p.Pricing.Card.Terms.Valid = 0 }, []string{"Date\nWednesday 1 September 2027"}, []string{"Valid"}},
		"starter":  {func(p *plan.Plan) { p.Pricing.Card.Starter = true }, []string{"Quote, draft", "it offers nothing yet"}, []string{"Accepted", "starter", "invented"}},
		"asked of a starter": {func(p *plan.Plan) { p.Pricing.Card.Starter, p.Pricing.Asked = true, decimal.NewFromInt(12345) }, []string{"12,345.00", "Accepted"},
			[]string{"draft"}},
		"no currency": {func(p *plan.Plan) { p.Pricing.Card.Currency = "" }, []string{"Quote, draft", "the currency is not set"}, []string{" in \n", "Accepted"}},
		"yen":         {func(p *plan.Plan) { p.Pricing.Card.Currency = "JPY" }, []string{"Amount in JPY"}, []string{".00", ".04"}},
		"no tax":      {func(p *plan.Plan) { p.Pricing.Card.Terms.Taxes = nil }, []string{"no tax is added"}, []string{"with tax"}},
		"not booked": {func(p *plan.Plan) {
			p.Pricing.Booked, p.Brief.Due = plan.Date{}, plan.Date{}
			p.Pricing.Card.Terms.Payments[0].Days, p.Pricing.Card.Terms.Payments[2].Days = 1, -14
		}, []string{"1 day after the booking", "14 days before the delivery"}, []string{"Delivery\n"}},
		"own terms":  {func(p *plan.Plan) { p.Pricing.Card.Terms.Wording = "Our one term.\r\n\r\nAnother." }, []string{"Our one term.\nAnother.\n"}, []string{"not legal advice"}},
		"no package": {func(p *plan.Plan) { p.Pricing.Packages = nil }, []string{"Accepted"}, []string{"Package"}},
		"gone": {func(p *plan.Plan) {
			p.Pricing.Packages[1].Scenes = []plan.ID{"gone"}
			p.Pricing.Packages[1].Deliverables = []string{"gone"}
		}, []string{"The whole day"}, []string{"Morning"}},
		"spanish":     {func(p *plan.Plan) { p.Papers.Dates = "es" }, []string{"viernes, 1 de octubre de 2027"}, []string{"Friday"}},
		"own client":  {func(p *plan.Plan) { p.Brief.Agent = p.Brief.Client }, []string{"To\nHarrow Lane Estates\n"}, []string{"Agent"}},
		"no delivery": {func(p *plan.Plan) { p.Brief.Deliverables, p.Pricing.Packages = nil, nil }, []string{"still to be agreed"}, []string{"Hero film"}},
	} {
		t.Run(name, func(t *testing.T) {
			p := base.Clone()
			c.change(&p)
			text := all(Quote(&p, days, packages...))
			for _, want := range c.has {
				if !strings.Contains(text, want) {
					t.Errorf("it lacks %q:\n%s", want, text)
				}
			}
			for _, other := range c.lacks {
				if strings.Contains(text, other) {
					t.Errorf("it has %q:\n%s", other, text)
				}
			}
		})
	}
}

// A package whose price is not worked out is offered on request; without a day nothing is placed and dates are to be agreed.
func TestQuoteWithoutAnswersAndDays(t *testing.T) {
	p, days, _ := ours(t)
	if text := all(Quote(&p, days)); !strings.Contains(text, "on request") {
		t.Errorf("a package has a price from nowhere:\n%s", text)
	}
	if text := all(Quote(&p, nil)); !strings.Contains(text, "to be agreed") || !strings.Contains(text, "Quote, draft") {
		t.Errorf("without a day:\n%s", text)
	}
}

// The deposit comes first however the terms are listed, and each payment keeps its own amount. They make the total.
func TestPaymentsOfAQuote(t *testing.T) {
	p, days, _ := ours(t)
	slices.Reverse(p.Pricing.Card.Terms.Payments)
	s := Quote(&p, days)
	i := slices.IndexFunc(s.Sections, func(sec Section) bool { return sec.Heading == "Payments" })
	sum := decimal.Zero
	var names []string
	for _, r := range s.Sections[i].Table.Rows {
		names = append(names, r.Cells[0].Strong)
		sum = sum.Add(figure(t, r.Cells[3].Text))
	}
	if want := []string{"On booking", "Before the shoot", "On delivery"}; !slices.Equal(names, want) || !sum.Equal(decimal.RequireFromString("9446.04")) {
		t.Errorf("%q make %s", names, sum)
	}
}

// figure reads a printed amount.
func figure(t testing.TB, s string) decimal.Decimal {
	t.Helper()
	d, err := decimal.NewFromString(strings.ReplaceAll(s, ",", ""))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestExtent(t *testing.T) {
	for want, d := range map[string]plan.Deliverable{"": {}, "30 s": {Seconds: 30}, "1 min": {Seconds: 60}, "2 min 5 s": {Seconds: 125}, "1 still": {Stills: 1},
		"90 min, 3 stills": {Seconds: 5400, Stills: 3}} {
		if got := spaces.Replace(extent(d)); got != want {
			t.Errorf("%+v: %q, want %q", d, got, want)
		}
	}
}

// The papers of plans with little in them say so, and of plans with much lose nothing.
func TestPricedPapersOfLittleAndMuch(t *testing.T) {
	empty := plan.New()
	for name, s := range priced(&empty, nil) {
		for _, size := range plan.PaperSizes {
			holds(t, s, size)
		}
		if s.Title != "Untitled plan" {
			t.Errorf("%s: %q", name, s.Title)
		}
	}
	if s := Quote(&empty, nil); !strings.Contains(all(s), "not filled in") || strings.Contains(all(s), "Accepted") {
		t.Errorf("an empty quote:\n%s", s.Text())
	}
	p, d := torture(t)
	secretly(&p)
	p.Brief.Client, p.Papers.Producer = strings.Repeat("Abracadabrantesque ", 10)+"END", "Їжакова Ґрунтовська"
	for i := range 40 {
		p.Pricing.Lines = append(p.Pricing.Lines, plan.TypedLine{ID: plan.ID(p.Scenes[i].ID), Text: p.Scenes[i].Title, Quantity: decimal.NewFromInt(1e6), Unit: "thing",
			Rate: decimal.RequireFromString("987654.321"), Note: "one\ntwo"})
		p.Pricing.Packages = append(p.Pricing.Packages, plan.Package{Name: p.Scenes[i].Title, Scenes: []plan.ID{p.Scenes[i].ID}})
	}
	for _, s := range priced(&p, []day.Day{d}) {
		for _, size := range plan.PaperSizes {
			holdsWords(t, s, size)
		}
	}
}

// qpdf is a checker of PDF files that is not ours (Debian package qpdf).
func TestPricedPapersAreSoundFiles(t *testing.T) {
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed (package qpdf): the print's file is not checked")
	}
	p, days, packages := ours(t)
	for name, s := range priced(&p, days, packages...) {
		path := filepath.Join(t.TempDir(), name+".pdf")
		if err := os.WriteFile(path, printed(t, s, plan.A4), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(tool, "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
		if again := priced(&p, days, packages...)[name]; !bytes.Equal(printed(t, s, plan.A4), printed(t, again, plan.A4)) {
			t.Errorf("%s: the same plan gives other bytes", name)
		}
	}
}

// Amounts stand flush right, by pdftotext's own boxes: what ends at the right margin ends there to a tenth of a point.
func TestFiguresAreFlushRight(t *testing.T) {
	p, days, packages := ours(t)
	word := regexp.MustCompile(`xMax="([\d.]+)" yMax="[\d.]+">(-?[\d,]+\.\d\d)</word>`)
	for name, s := range priced(&p, days, packages...) {
		if name == "register" {
			continue
		}
		at := map[string]int{}
		amounts := 0
		for _, m := range word.FindAllStringSubmatch(pdfBoxes(t, s), -1) {
			at[m[1][:strings.Index(m[1], ".")+2]]++
			amounts++
		}
		most := 0
		for _, n := range at {
			most = max(most, n)
		}
		rows := 0
		for _, sec := range s.Sections {
			if sec.Table.Right > 0 {
				rows += len(sec.Table.Rows)
			}
		}
		if most < rows || rows < 8 {
			t.Errorf("%s: of %d amounts %d end at one place, want %d: %v", name, amounts, most, rows, at)
		}
	}
}

func pdfBoxes(t *testing.T, s Sheet) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (package poppler-utils): the print is not read back")
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, printed(t, s, plan.Letter), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-bbox", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func BenchmarkPricedPapers(b *testing.B) {
	p, days, packages := ours(b)
	for b.Loop() {
		for _, s := range priced(&p, days, packages...) {
			var out bytes.Buffer
			if err := s.PDF(&out, plan.Letter, time.Unix(0, 0)); err != nil {
				b.Fatal(err)
			}
		}
	}
}
