package price

import (
	"cmp"
	"slices"
	"time"

	"eavelight/plan"

	"github.com/shopspring/decimal"
)

// Worked is the paid time of one person on one day.
type Worked struct {
	Date plan.Date
	plan.Minutes
}

// Paid is a part of a day's work and how many times it is paid. In the hours that a day's rate is for, once.
type Paid struct {
	plan.Minutes
	Times decimal.Decimal
}

// Overtime divides days of work by what each minute is paid under a rule, day by day, each with its times rising. covers, by
// day, is the time that a day's rate is for: it is paid once whatever the rule says. Days are in the order of their dates,
// one a date.
//
// A workweek begins on Sunday (common practice; an employer may fix another day). Straight time beyond the rule's Weekly is
// paid WeeklyTimes; time that a day's step pays more already is not counted again, as California Labor Code 510(a) has it.
func Overtime(rule plan.OvertimeRule, days []Worked, covers []plan.Minutes) [][]Paid {
	out := make([][]Paid, len(days))
	var straight plan.Minutes // in this week so far
	for i, d := range days {
		if i == 0 || weekOf(d.Date) != weekOf(days[i-1].Date) {
			straight = 0
		}
		steps, from := rule.Daily, plan.Minutes(0)
		if rule.Beyond {
			from = covers[i]
		}
		if len(rule.Seventh) > 0 && seventh(days[:i+1]) {
			steps, from = rule.Seventh, 0
		}
		paid := divide(d.Minutes, covers[i], from, steps)
		out[i] = paid
		if rule.Weekly > 0 {
			out[i], straight = beyondWeek(paid, covers[i], straight, rule)
		}
	}
	return out
}

func weekOf(d plan.Date) plan.Date { return d.AddDays(-int(d.Weekday())) }

// seventh reports whether the last of the days is the seventh that was worked in its week.
func seventh(days []Worked) bool {
	if len(days) < 7 {
		return false
	}
	week := days[len(days)-7:]
	last := week[6].Date
	worked := !slices.ContainsFunc(week, func(w Worked) bool { return w.Minutes <= 0 })
	return worked && last.Weekday() == time.Saturday && weekOf(week[0].Date) == weekOf(last)
}

// divide cuts a day at the steps that begin at from; before covers nothing is paid more than once.
func divide(worked, covers, from plan.Minutes, steps []plan.OvertimeStep) []Paid {
	var out []Paid
	at, times := plan.Minutes(0), one
	cut := func(to plan.Minutes) {
		if to = min(to, worked); to > at {
			out = append(out, Paid{to - at, times})
			at = to
		}
	}
	for _, s := range steps {
		cut(max(from+s.After, covers))
		times = s.Times
	}
	cut(worked)
	return merged(out)
}

// beyondWeek takes from the straight time of a day what is beyond the week's.
func beyondWeek(paid []Paid, covers, straight plan.Minutes, rule plan.OvertimeRule) ([]Paid, plan.Minutes) {
	var out []Paid
	for _, p := range paid {
		if !p.Times.Equal(one) {
			out = append(out, p)
			continue
		}
		room := max(rule.Weekly-straight, 0)
		once := min(p.Minutes, max(room, covers))
		straight += p.Minutes
		out = append(out, Paid{once, one}, Paid{p.Minutes - once, rule.WeeklyTimes})
	}
	return merged(out), straight
}

// merged puts what is paid the same together, in rising order.
func merged(paid []Paid) []Paid {
	var out []Paid
	for _, p := range slices.SortedStableFunc(slices.Values(paid), func(a, b Paid) int { return a.Times.Cmp(b.Times) }) {
		switch last := len(out) - 1; {
		case p.Minutes <= 0:
		case last >= 0 && out[last].Times.Equal(p.Times):
			out[last].Minutes += p.Minutes
		default:
			out = append(out, p)
		}
	}
	return out
}

// covered is how much of a day's work the rate for the day is for (as agreed; a law may have it that some of it is overtime already), and how many times the rate is paid: one day, or one or
// two half days.
func covered(r plan.CrewRate, worked plan.Minutes) (units int, covers plan.Minutes) {
	switch {
	case worked <= 0:
		return 0, 0
	case r.Basis == plan.ByHalfDay && worked > r.Hours:
		return 2, 2 * r.Hours
	case byDays(r):
		return 1, r.Hours
	}
	return 0, 0
}

// roundUp is paid time in the card's steps.
func roundUp(m, step plan.Minutes) plan.Minutes {
	step = cmp.Or(step, 1)
	return (m + step - 1) / step * step
}
