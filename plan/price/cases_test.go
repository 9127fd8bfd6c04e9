package price

import (
	"context"
	"os"
	"slices"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"
)

func demo(t testing.TB) plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	p, err := store.Decode("demo", data)
	if err != nil {
		t.Fatal(err)
	}
	p.Shooting.Date = october
	return p
}

func answered(t *testing.T, c Case) Answer {
	t.Helper()
	a, err := c.Answer(context.Background())
	if err != nil || !c.Lack.IsZero() {
		t.Fatalf("%s: %v %s", c.Name, err, c.Lack)
	}
	return a
}

// TestCases: each question, asked of the demo, moves what it must and leaves what it must not touch.
func TestCases(t *testing.T) {
	p := demo(t)
	before := p.Clone()
	base := answered(t, CaseOf(AsItIs, &p))
	if base.Light <= 0.5 || base.Crew == 0 || base.Waiting == 0 || base.LeftOut != 0 && len(base.Days) != 1 {
		t.Fatalf("as it is: light %v, crew %v, waiting %v", base.Light, base.Crew, base.Waiting)
	}
	paid := answered(t, CaseOf(PaidTalent, &p))
	if paid.Waiting != base.Waiting || !paid.Sheet.Direct.GreaterThan(base.Sheet.Direct) || paid.Light != base.Light {
		t.Errorf("paid talent: waiting %v for %v, direct %s for %s", paid.Waiting, base.Waiting, paid.Sheet.Direct, base.Sheet.Direct)
	}
	two := answered(t, CaseOf(OtherDays, &p))
	if len(two.Days) != 2 || two.Name.String() != "two half days" || two.Light <= 0 || two.Light > 1 {
		t.Errorf("%s: %d days, light %v", two.Name, len(two.Days), two.Light)
	}
	for _, d := range two.Days {
		if d.Length() > p.Shooting.Longest/2+60 {
			t.Errorf("a half day of %s", d.Length())
		}
	}
	rain := answered(t, CaseOf(RainDay, &p))
	if rain.Light != base.Light || rain.Crew != 2*base.Crew || !rain.Sheet.Floor.GreaterThan(base.Sheet.Floor) {
		t.Errorf("rain day: crew %v for %v", rain.Crew, base.Crew)
	}
	if slices.ContainsFunc(rain.Sheet.Problems, func(q plan.Problem) bool { return q.Code == plan.NightShort }) {
		t.Error("the day that is paid again begins before the night")
	}
	second := answered(t, CaseOf(SecondCamera, &p))
	if len(second.Sheet.Hours) != len(base.Sheet.Hours)+1 || second.Days[0].Length() > base.Days[0].Length() {
		t.Errorf("second camera: %d in the crew, a day of %s for %s", len(second.Sheet.Hours), second.Days[0].Length(), base.Days[0].Length())
	}
	more := answered(t, CaseOf(OneMore, &p))
	if more.Light != base.Light || !more.Sheet.Direct.GreaterThan(base.Sheet.Direct) {
		t.Errorf("one more: %s for %s", more.Sheet.Direct, base.Sheet.Direct)
	}
	if a, b := Of(&p, base.Days), Of(&before, base.Days); !a.Floor.Equal(b.Floor) || len(p.People) != len(before.People) {
		t.Error("a case changed the plan itself")
	}
}

// TestCasesThatLack: what a question can't be asked without is said.
func TestCasesThatLack(t *testing.T) {
	p := demo(t)
	p.Pricing.WhatIf = plan.WhatIf{}
	p.Shooting.Dates = nil
	for _, kind := range []CaseKind{PaidTalent, OtherDays, SecondCamera, OneMore} {
		c := CaseOf(kind, &p)
		if a, err := c.Answer(context.Background()); c.Lack.IsZero() || err != nil || a.Sheet.Lines != nil {
			t.Errorf("%s: %q, %v", kind, c.Lack, err)
		}
	}
}

func TestPackages(t *testing.T) {
	p := demo(t)
	all := answered(t, PackageCase(&p, plan.Package{Name: "All"}))
	small := answered(t, PackageCase(&p, p.Pricing.Packages[1]))
	if len(small.Plan.Scenes) != 4 || len(small.Plan.Brief.Deliverables) != 2 || !small.Quote.Price.LessThan(all.Quote.Price) {
		t.Errorf("%d scenes, %d deliverables, %s for %s", len(small.Plan.Scenes), len(small.Plan.Brief.Deliverables), small.Quote.Price, all.Quote.Price)
	}
	gone := plan.Package{Name: "Gone", Scenes: []plan.ID{"not-there"}, Deliverables: []string{"Nothing"}}
	if c := PackageCase(&p, gone); c.Lack.IsZero() {
		t.Error("a package of nothing is offered")
	}
	if got := Gone(&p, gone); len(got) != 2 {
		t.Errorf("gone: %v", got)
	}
}

// TestCaseStops: an ended context is an error, not half an answer.
func TestCaseStops(t *testing.T) {
	p := demo(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := CaseOf(AsItIs, &p).Answer(ctx); err == nil {
		t.Error("an answer after the end")
	}
}

// TestRecorded: the demo's hero film by hand: 120 s x 14 at 200 Mbit/s is 28 min and 42 GB; media has its own checks.
func TestRecorded(t *testing.T) {
	p := demo(t)
	var days []day.Day
	n, ok, err := Recorded(&p, days)
	if err != nil || !ok || n.Films[0].Data.String() != "42 GB" || n.Cards.Count == 0 || n.Drives.Count == 0 {
		t.Errorf("%+v, %v, %v", n, ok, err)
	}
	p.Pricing.Card.Rates = append(p.Pricing.Card.Rates, plan.Rate{ID: "cards", Per: plan.PerCard, Amount: dec("40")})
	s := Of(&p, days)
	if l, ok := s.line("rate/cards"); !ok || l.Amount.IsZero() {
		t.Error("cards cost nothing")
	}
	p.Pricing.Recording = plan.Recording{}
	if _, ok, _ := Recorded(&p, days); ok {
		t.Error("nothing is said of recording, and something is reckoned")
	}
}

// TestPackagesOfAQuote: one of the whole is the plan's own price on its own days; any other is what its case comes to.
func TestPackagesOfAQuote(t *testing.T) {
	p := demo(t)
	p.Pricing.Asked = dec("12345")
	days := answered(t, CaseOf(AsItIs, &p)).Days
	gone := plan.Package{Name: "Gone", Scenes: []plan.ID{"not-there"}}
	var every []plan.ID
	for _, s := range p.Scenes {
		every = append(every, s.ID)
	}
	p.Pricing.Packages = append(p.Pricing.Packages, gone, plan.Package{Scenes: every}, plan.Package{Scenes: every, Deliverables: []string{"Stills"}})
	got, err := Packages(context.Background(), &p, days)
	if err != nil || len(got) != 5 {
		t.Fatal(len(got), err)
	}
	small := answered(t, PackageCase(&p, p.Pricing.Packages[1]))
	if !got[0].Quote.Price.Equal(dec("12345")) || !got[3].Quote.Price.Equal(dec("12345")) || len(got[0].Days) != len(days) {
		t.Errorf("the whole is offered at %s and %s", got[0].Quote.Price, got[3].Quote.Price)
	}
	if !got[1].Quote.Total.Equal(small.Quote.Total) || got[2].Placed() || got[4].Quote.Price.Equal(dec("12345")) {
		t.Errorf("the others: %s, %v, %s", got[1].Quote.Total, got[2].Placed(), got[4].Quote.Price)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Packages(ctx, &p, days); err == nil {
		t.Error("answers after the end")
	}
}
