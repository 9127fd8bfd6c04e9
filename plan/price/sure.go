package price

import (
	"cmp"
	"context"
	"slices"
	"time"

	"eavelight/plan"
	"eavelight/plan/chance"
	"eavelight/plan/day"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// Draws is how many times the cost is drawn; package chance says how sure that is.
const Draws = 10_000

// seed makes the same plan give the same picture, always.
const seed = 39

// Sure is how sure the price is. The costs drawn are everything below the floor but the contingency, which is there to meet
// them. Inputs are drawn independently of each other.
type Sure struct {
	Costs  chance.Outcome
	Inputs []chance.Input
	Swings []chance.Swing
	Loses  float64         // the share of draws in which the net price does not cover the costs
	Holds  decimal.Decimal // the price, up to the card's step, at which 8 draws of 10 are covered after discount
}

// What is not sure beside the card's own rates. The draws go by these names, so they are the same in every tongue.
var (
	changesInput = say.Mark("Rounds of changes")
	wrapInput    = say.Mark("When the day wraps")
	weatherInput = say.Mark("A further day for the weather")
)

// InputName is what an input or its swing is called.
func InputName(name string) say.Text {
	if name == changesInput || name == wrapInput || name == weatherInput {
		return say.Marked(name)
	}
	return say.Plain(name)
}

// HowSure draws the costs of a sheet that was worked out from a plan and its days.
func HowSure(ctx context.Context, p *plan.Plan, days []day.Day, s *Sheet) (Sure, error) {
	fixed, inputs := unsure(p, days, s)
	out := Sure{Inputs: inputs}
	var err error
	if out.Costs, err = chance.Run(ctx, seed, Draws, fixed, inputs); err != nil {
		return Sure{}, err
	}
	if out.Swings, err = chance.Swings(fixed, inputs); err != nil {
		return Sure{}, err
	}
	net := s.Quote(p, s.Price()).Net
	out.Loses = out.Costs.Chance(net.InexactFloat64())
	left := hundred.Sub(s.terms.Discount)
	if left.IsPositive() {
		cover := decimal.NewFromFloat(out.Costs.Quantile(0.8)).RoundUp(s.Places)
		out.Holds = upTo(cover.Mul(hundred), left, s.terms.Step, s.Places)
	}
	return out, nil
}

// unsure divides the costs into what is fixed and what is not, each input with what its value adds.
func unsure(p *plan.Plan, days []day.Day, s *Sheet) (fixed float64, inputs []chance.Input) {
	fixed = s.costs().InexactFloat64()
	for _, r := range p.Pricing.Card.Rates {
		l, ok := s.line("rate/" + string(r.ID))
		if !ok || !l.Counts() || l.Computed != nil || r.Low == 0 && r.High == 0 || r.Per == plan.PerRound { // rounds: their number is unsure
			continue
		}
		likely := l.Amount.InexactFloat64()
		fixed -= likely
		share := chance.Range{Low: float64(cmp.Or(r.Low, 100)) / 100, Likely: 1, High: float64(cmp.Or(r.High, 100)) / 100}
		inputs = append(inputs, chance.Input{Name: l.Text, Chance: 1, Range: share, Cost: func(x float64) float64 { return likely * x }})
	}
	u := p.Pricing.Unsure
	if most := max(u.MostRounds, u.Rounds); most > 0 {
		if each := eachRound(p, days); each > 0 {
			fixed -= each * float64(u.Rounds)
			inputs = append(inputs, chance.Input{Name: changesInput, Chance: 1, Cost: func(x float64) float64 { return each * x },
				Range: chance.Range{Low: float64(min(1, u.Rounds)), Likely: float64(u.Rounds), High: float64(most)}})
		}
	}
	if (u.Early > 0 || u.Late > 0) && len(days) > 0 {
		inputs = append(inputs, chance.Input{Name: wrapInput, Chance: 1, Cost: wrapping(p, days, s),
			Range: chance.Range{Likely: float64(u.Early), High: float64(u.Early + u.Late)}})
	}
	if further := furtherDay(p, days, s); u.Weather > 0 && further > 0 {
		inputs = append(inputs, chance.Input{Name: weatherInput, Chance: float64(u.Weather) / 100,
			Range: chance.Range{Low: further, Likely: further, High: further}})
	}
	return fixed, inputs
}

func (s *Sheet) line(id string) (Line, bool) {
	for _, l := range s.Lines {
		if l.ID == id {
			return l, true
		}
	}
	return Line{}, false
}

// costs are everything below the floor but the contingency.
func (s *Sheet) costs() decimal.Decimal { return s.Floor.Sub(s.Contingency) }

// eachRound is what one more round of changes costs; nothing where the user has said what they cost in all.
func eachRound(p *plan.Plan, days []day.Day) float64 {
	with := func(rounds int) decimal.Decimal {
		q := *p
		q.Pricing.Unsure.Rounds = rounds
		s := Of(&q, days)
		return s.costs()
	}
	likely := p.Pricing.Unsure.Rounds
	return with(likely + 1).Sub(with(likely)).InexactFloat64()
}

// wrapping is what it adds to the pay of the crew when every day wraps so many minutes after the earliest wrap that is thought of.
// It steps as the overtime does; between the minutes that were worked out it runs straight.
func wrapping(p *plan.Plan, days []day.Day, s *Sheet) func(minutes float64) float64 {
	u := p.Pricing.Unsure
	span := u.Early + u.Late
	points := min(span, 240)
	costs := make([]float64, points+1)
	placed := s.wages(p, days)
	for i := range costs {
		at := span*plan.Minutes(i)/points - u.Early
		costs[i] = s.wages(p, shifted(days, at)).Sub(placed).InexactFloat64()
	}
	return func(minutes float64) float64 {
		x := min(max(minutes/float64(span)*float64(points), 0), float64(points))
		i := min(int(x), int(points)-1)
		return costs[i] + (costs[i+1]-costs[i])*(x-float64(i))
	}
}

// wages are the lines of the crew alone.
func (s *Sheet) wages(p *plan.Plan, days []day.Day) decimal.Decimal {
	alone := Sheet{Places: s.Places, overrides: s.overrides, used: map[string]bool{}, Hours: hoursOf(p, days)}
	alone.crewLines(p)
	sum := decimal.Zero
	for _, l := range alone.Lines {
		if l.Counts() {
			sum = sum.Add(l.Amount)
		}
	}
	return sum
}

// shifted are days that wrap later by some minutes, but no earlier than they are called.
func shifted(days []day.Day, by plan.Minutes) []day.Day {
	out := make([]day.Day, len(days))
	for i, d := range days {
		later := max(by, -d.Length())
		wrap := d.Wrap
		d.Wrap = wrap.Add(time.Duration(later) * time.Minute)
		d.People = slices.Clone(d.People)
		for j := range d.People {
			if d.People[j].Release.Equal(wrap) {
				d.People[j].Release = d.Wrap
			}
		}
		out[i] = d
	}
	return out
}

// furtherDay is what one more day like the last, on the day after it, adds to the costs.
func furtherDay(p *plan.Plan, days []day.Day, s *Sheet) float64 {
	if len(days) == 0 {
		return 0
	}
	more := Of(p, andAgain(days))
	return more.costs().Sub(s.costs()).InexactFloat64()
}

// andAgain are the days, and the last of them once more on the day after it.
func andAgain(days []day.Day) []day.Day {
	if len(days) == 0 {
		return nil
	}
	next := func(t time.Time) time.Time { return t.Add(24 * time.Hour) }
	d := days[len(days)-1]
	d.Date, d.Call, d.Wrap = d.Date.AddDays(1), next(d.Call), next(d.Wrap)
	d.Meals, d.People = slices.Clone(d.Meals), slices.Clone(d.People)
	for i, m := range d.Meals {
		d.Meals[i] = plan.Span{From: next(m.From), To: next(m.To)}
	}
	for i, q := range d.People {
		d.People[i].Call, d.People[i].Release = next(q.Call), next(q.Release)
	}
	return append(slices.Clone(days), d)
}
