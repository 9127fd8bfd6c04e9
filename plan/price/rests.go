package price

import (
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// Where a rest is shorter than this somebody's law may be broken, so it is told. Local law decides.
const (
	firstMeal  = 5 * time.Hour  // of the call: California Labor Code 512(a), from memory; films go by six (Wage Order 12-2001)
	secondMeal = 10 * time.Hour // of work: the same, from memory; it may be waived up to 12 h
	turnaround = 11 * time.Hour // from wrap to call: Working Time Regulations 1998, reg. 10; films go by 10 to 12, common practice
)

// rests tells late and missing meals and short nights.
func rests(days []day.Day) plan.Problems {
	var out plan.Problems
	tell := func(code plan.Code, facts ...any) {
		out = append(out, plan.Problem{Code: code, Level: plan.Warning, Path: "shooting", Facts: facts})
	}
	for i, d := range days {
		free := d.Wrap
		if len(d.Meals) > 0 {
			free = d.Meals[0].From
		}
		if after := free.Sub(d.Call); after > firstMeal {
			tell(plan.MealLate, d.Date.SaidShort(), minutesOf(after))
		}
		if len(d.Meals) == 1 {
			if work := d.Wrap.Sub(d.Call) - d.Meals[0].To.Sub(d.Meals[0].From); work > secondMeal {
				tell(plan.MealSecond, d.Date.SaidShort(), minutesOf(work))
			}
		}
		if i > 0 {
			if night := d.Call.Sub(days[i-1].Wrap); night < turnaround {
				tell(plan.NightShort, d.Date.SaidShort(), minutesOf(night))
			}
		}
	}
	return out
}

func minutesOf(d time.Duration) plan.Minutes { return plan.Minutes(d / time.Minute) }
