package price

import (
	"context"
	"testing"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"

	"github.com/shopspring/decimal"
)

// FuzzCard: whatever rate card can be read prices a job without a panic, to the minor unit, and adds up; the price covers the floor.
func FuzzCard(f *testing.F) {
	f.Add(assets.StarterCard)
	for _, text := range []string{
		"currency: CLF\ncrew: [{id: owner, basis: owner}]\nbusiness: {days: 1, hours: 1, pay: \"1e12\"}\n",
		"currency: JPY\ntime-step: 60\ncrew: [{id: camera, basis: half day, rate: \"0.005\", hours: 1, overtime: a}]\n" +
			"overtime: [{id: a, beyond: true, daily: [{after: 0, times: \"10\"}], weekly: 1, weekly-times: \"1.000000000001\"}]\n",
		"kit: [{name: drone, week: \"0.000000000001\"}, {name: b, always: true, owned: true, cost: \"1e12\", years: 7, days: 366}]\n",
		"rates: [{id: a, per: finished minute, amount: \"1e12\", low: 1, high: 1000}, {id: b, per: battery, amount: \"1\", untaxed: true}]\n",
		"terms: {contingency: \"33.333\", margin: \"99\", discount: \"100\", step: \"0.0003\", tax-by-line: true, taxes: [{percent: \"8.875\"}]}\n",
	} {
		f.Add([]byte("eavelight-rates: 1\n" + text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		card, err := store.DecodeCard("fuzzed", data)
		if err != nil {
			return
		}
		p := small()
		p.Pricing.Unsure = plan.Unsure{Early: 10, Late: 20, Rounds: 1, MostRounds: 2, Weather: 5}
		rates := card.Crew
		p.TakeCard(card)
		for i := range p.People {
			if len(rates) > 0 {
				p.People[i].Rate = rates[i%len(rates)].ID
			}
		}
		days := []day.Day{dayOf(&p, october, 720, 60), dayOf(&p, october.AddDays(1), 1000, 30)}
		s := Of(&p, days)
		q := s.Quote(&p, s.Price())
		paid := decimal.Zero
		for _, due := range q.Payments {
			paid = paid.Add(due.Amount)
		}
		if len(q.Payments) > 0 && !paid.Equal(q.Total) || !q.Total.Equal(q.Total.Round(s.Places)) || s.Floor.GreaterThan(s.Computed()) || s.Floor.IsNegative() {
			t.Fatalf("floor %s, price %s, %+v", s.Floor, s.Computed(), q)
		}
		for _, l := range s.Lines {
			s.Explain(l.Parts)
		}
		if _, err := HowSure(context.Background(), &p, days, &s); err != nil && s.Floor.LessThan(decimal.New(1, 14)) {
			t.Fatal(err)
		}
	})
}
