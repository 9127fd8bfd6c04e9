package price

import (
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// Hours are the paid hours of one person of the crew, or of paid talent, on one day.
type Hours struct {
	Person  plan.ID
	Rate    plan.ID // on the card
	Date    plan.Date
	Call    time.Time
	Release time.Time
	Meals   plan.Minutes // taken out
	Travel  plan.Minutes // taken in, there and back
	Worked  plan.Minutes // in the card's steps
	Units   int          // days or half days that are paid; 0 by the hour
	Paid    []Paid
}

// hoursOf lists who is paid for which hours, by person in the plan's order and then by day.
func hoursOf(p *plan.Plan, days []day.Day) []Hours {
	card := &p.Pricing.Card
	var out []Hours
	for _, who := range p.People {
		rate, ok := card.CrewRate(who.Rate)
		if !ok {
			continue
		}
		var mine []Hours
		var worked []Worked
		var covers []plan.Minutes
		for _, d := range days {
			if h, ok := hoursOn(who, rate, d, card.TimeStep); ok {
				units, cover := covered(rate, h.Worked)
				h.Units = units
				mine, worked, covers = append(mine, h), append(worked, Worked{d.Date, h.Worked}), append(covers, cover)
			}
		}
		rule, _ := card.Rule(rate.Overtime)
		for i, paid := range Overtime(rule, worked, covers) {
			mine[i].Paid = paid
		}
		out = append(out, mine...)
	}
	return out
}

// hoursOn is call to release, the meals out and, where the rate says so, the way there and back in.
func hoursOn(who plan.Person, rate plan.CrewRate, d day.Day, step plan.Minutes) (Hours, bool) {
	at, ok := d.Presence(who.ID)
	if !ok {
		return Hours{}, false
	}
	h := Hours{Person: who.ID, Rate: rate.ID, Date: d.Date, Call: at.Call, Release: at.Release}
	for _, meal := range d.Meals {
		if there := (plan.Span{From: later(meal.From, at.Call), To: earlier(meal.To, at.Release)}); there.From.Before(there.To) {
			h.Meals += there.Minutes()
		}
	}
	if rate.Travel {
		h.Travel = 2 * who.Travel
	}
	h.Worked = roundUp(plan.Span{From: at.Call, To: at.Release}.Minutes()-h.Meals+h.Travel, step)
	return h, true
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
