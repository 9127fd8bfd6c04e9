package price

import (
	"context"
	"math"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

func sure(t testing.TB, p *plan.Plan, days []day.Day) (Sheet, Sure) {
	t.Helper()
	s := Of(p, days)
	out, err := HowSure(context.Background(), p, days, &s)
	if err != nil {
		t.Fatal(err)
	}
	return s, out
}

// TestOneUnsureRate: with one input the costs are fixed + likely x a triangular share, whose mean is (a+b+c)/3 and whose 80 percent
// quantile is b - sqrt(0.2 (b-a)(b-c)) (Kotz and van Dorp, Beyond Beta, ch. 1).
func TestOneUnsureRate(t *testing.T) {
	p := small()
	p.Pricing.Card.Rates[1].Low, p.Pricing.Card.Rates[1].High = 80, 200 // editing, 450.00 likely
	p.Pricing.Card.Terms.Step = dec("0")
	days := []day.Day{dayOf(&p, october, 720, 60)}
	s, got := sure(t, &p, days)
	fixed := s.Floor.Sub(s.Contingency).InexactFloat64() - 450
	if want := fixed + 450*(0.8+1+2)/3; math.Abs(got.Costs.Mean-want) > 0.01 {
		t.Errorf("mean %v, want %v", got.Costs.Mean, want)
	}
	want := fixed + 450*(2-math.Sqrt(0.2*1.2*1))
	if q := got.Costs.Quantile(0.8); math.Abs(q-want) > 0.2 { // a ten-thousandth of the draws lies within it
		t.Errorf("8 of 10 are covered by %v, want %v", q, want)
	}
	if h := got.Holds.InexactFloat64(); h < got.Costs.Quantile(0.8) || h > got.Costs.Quantile(0.8)+0.02 {
		t.Errorf("the price that holds is %v", h)
	}
	p.Pricing.Asked = got.Holds
	if _, again := sure(t, &p, days); math.Abs(again.Loses-0.2) > 0.001 {
		t.Errorf("at that price %v of the draws lose money", again.Loses)
	}
}

// TestLateDays: the chance that the day runs over costs overtime, and by no more than the overtime of the latest wrap; by hand: 90
// minutes more at 60 an hour, twice 30, beyond 12 h (California Labor Code 510(a)), and the owner's at 50.
func TestLateDays(t *testing.T) {
	p := small()
	p.Pricing.Unsure.Late = 90
	p.People[1].Travel = 30 // 12 h are worked
	days := []day.Day{dayOf(&p, october, 720, 60)}
	s, got := sure(t, &p, days)
	most := s.costs().InexactFloat64() + 1.5*60 + 1.5*50
	if max := got.Costs.Quantile(1); math.Abs(max-most) > 2 {
		t.Errorf("at worst %v, want %v", max, most)
	}
	if len(got.Swings) != 1 || got.Swings[0].High <= got.Swings[0].Low {
		t.Errorf("swings %+v", got.Swings)
	}
}

// TestWeatherAndRounds: an event adds its chance times its cost to the mean; rounds are counted from what is likely.
func TestWeatherAndRounds(t *testing.T) {
	p := small()
	days := []day.Day{dayOf(&p, october, 720, 60)}
	p.Pricing.Unsure.Weather = 25
	s, got := sure(t, &p, days)
	further := furtherDay(&p, days, &s)
	if want := s.costs().InexactFloat64() + 0.25*further; further < 900 || math.Abs(got.Costs.Mean-want) > 0.01*further {
		t.Errorf("mean %v, want %v; a further day costs %v", got.Costs.Mean, want, further)
	}
	p.Pricing.Unsure = plan.Unsure{Rounds: 1, MostRounds: 4}
	p.Pricing.Card.Rates = append(p.Pricing.Card.Rates, plan.Rate{ID: "round", Per: plan.PerRound, Amount: dec("100")})
	s, got = sure(t, &p, days)
	if want := s.costs().InexactFloat64() + 100; math.Abs(got.Costs.Mean-want) > 0.05 { // (1+1+4)/3 rounds, of which 1 is in the sheet
		t.Errorf("mean %v, want %v", got.Costs.Mean, want)
	}
}

// TestSureAgain: nothing unsure is one figure, and the same plan gives the same picture.
func TestSureAgain(t *testing.T) {
	p := small()
	days := []day.Day{dayOf(&p, october, 720, 60)}
	s, got := sure(t, &p, days)
	if got.Costs.Quantile(0) != got.Costs.Quantile(1) || len(got.Inputs) != 0 || !got.Holds.GreaterThan(s.Unpaid()) {
		t.Errorf("%+v", got)
	}
	p.Pricing.Unsure = plan.Unsure{Early: 30, Late: 120, Rounds: 2, MostRounds: 5, Weather: 10}
	_, a := sure(t, &p, days)
	_, b := sure(t, &p, days)
	for _, q := range []float64{0, 0.1, 0.5, 0.8, 1} {
		if a.Costs.Quantile(q) != b.Costs.Quantile(q) {
			t.Errorf("quantile %v: %v, then %v", q, a.Costs.Quantile(q), b.Costs.Quantile(q))
		}
	}
}

// BenchmarkSure is the picture of 10,000 draws.
func BenchmarkSure(b *testing.B) {
	p := small()
	p.Pricing.Unsure = plan.Unsure{Early: 30, Late: 120, Rounds: 2, MostRounds: 5, Weather: 10}
	p.Pricing.Card.Rates[1].Low, p.Pricing.Card.Rates[1].High = 80, 200
	days := []day.Day{dayOf(&p, october, 720, 60)}
	s := Of(&p, days)
	for b.Loop() {
		if _, err := HowSure(context.Background(), &p, days, &s); err != nil {
			b.Fatal(err)
		}
	}
}

// TestSaidByHand: what the user has said a line costs is sure; a note on it changes nothing.
func TestSaidByHand(t *testing.T) {
	p := small()
	days := []day.Day{dayOf(&p, october, 720, 60)}
	p.Pricing.Card.Rates[1].Low, p.Pricing.Card.Rates[1].High = 80, 200
	p.Pricing.Unsure = plan.Unsure{Rounds: 2, MostRounds: 4}
	p.Pricing.Card.Rates = append(p.Pricing.Card.Rates, plan.Rate{ID: "round", Per: plan.PerRound, Amount: dec("100")})
	p.Pricing.Overrides = []plan.Override{{Line: "rate/edit", Note: "as last year"}, {Line: "rate/round", Note: "two are usual"}}
	if _, got := sure(t, &p, days); len(got.Inputs) != 2 {
		t.Errorf("with notes %d inputs are unsure, want 2", len(got.Inputs))
	}
	three := dec("3")
	p.Pricing.Overrides[0].Quantity, p.Pricing.Overrides[1].Quantity = &three, &three
	s, got := sure(t, &p, days)
	if want := s.costs().InexactFloat64(); len(got.Inputs) != 0 || math.Abs(got.Costs.Mean-want) > 0.001 {
		t.Errorf("%d inputs are unsure; mean %v, want %v", len(got.Inputs), got.Costs.Mean, want)
	}
}

// TestWrapping: to the minute, a day that wraps later never costs less, though its last meal be in what it may wrap early.
func TestWrapping(t *testing.T) {
	p := small()
	p.Pricing.Unsure = plan.Unsure{Early: 90, Late: 100}
	d := dayOf(&p, october, 720, 0)
	d.Meals = []plan.Span{{From: d.Wrap.Add(-80 * time.Minute), To: d.Wrap.Add(-20 * time.Minute)}}
	days := []day.Day{d}
	s := Of(&p, days)
	cost := wrapping(&p, days, &s)
	for m := 1.0; m <= 190; m++ {
		if cost(m) < cost(m-1) {
			t.Fatalf("%v min: %v after %v", m, cost(m), cost(m-1))
		}
	}
	if got := cost(90); got != 0 {
		t.Errorf("at the placed wrap it adds %v", got)
	}
	if got := cost(150) - cost(90); math.Abs(got-110) > 0.02 { // an hour more: the owner's at 50; 12 h less a meal of 1 h and 1 h of travel were worked, so it is at 60
		t.Errorf("an hour later adds %v, want 110", got)
	}
}
