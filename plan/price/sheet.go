package price

import (
	"fmt"
	"slices"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
)

// Sheet is what a job costs, line by line, up to the floor.
type Sheet struct {
	Currency string    // ISO 4217; empty where the card names none
	Places   int32     // decimals of its minor unit
	First    plan.Date // of the shooting days; zero where none is placed
	Days     int       // of shooting that have a scene
	Hours    []Hours
	Lines    []Line // in the order of their groups
	Groups   []Subtotal

	Direct      decimal.Decimal // the lines that count, without the owner's time
	Overtime    decimal.Decimal // what of it pays hours more than once
	Contingency decimal.Decimal
	Owner       decimal.Decimal // the owner's time
	OwnerTime   plan.Minutes    // that Owner pays
	DaysRest    plan.Minutes    // that the owner's hours on the shooting days leave of them
	JobDays     decimal.Decimal // billable days that the job takes of the year, to two places
	Overhead    decimal.Decimal // the share of the year's
	Floor       decimal.Decimal // below this the job loses money

	Problems plan.Problems

	terms     plan.Terms
	asked     decimal.Decimal
	overrides map[string]plan.Override
	used      map[string]bool
}

// Subtotal is what a group costs us, without the owner's time.
type Subtotal struct {
	Group  plan.Group
	Amount decimal.Decimal
}

// Of works out the sheet of a plan whose days are placed. Without days it has no crew hours, and says so.
func Of(p *plan.Plan, days []day.Day) Sheet {
	card := &p.Pricing.Card
	s := Sheet{Currency: card.Currency, Places: Places(card.Currency), terms: card.Terms, asked: p.Pricing.Asked,
		overrides: map[string]plan.Override{}, used: map[string]bool{}}
	for _, o := range p.Pricing.Overrides {
		s.overrides[o.Line] = o
	}
	days = slices.DeleteFunc(slices.Clone(days), func(d day.Day) bool { return len(d.Scenes) == 0 })
	if s.Days = len(days); s.Days > 0 {
		s.First = days[0].Date
	}
	s.Hours = hoursOf(p, days)
	s.Lines = make([]Line, 0, len(p.People)+len(card.Kit)+len(card.Rates)+len(p.Pricing.Lines))
	s.crewLines(p)
	s.kitLines(p, days)
	s.rateLines(p, days)
	s.typedLines(p)
	s.Lines = byGroup(s.Lines)
	s.addUp(p, days)
	s.Problems = append(s.lacks(p, days), rests(days)...)
	return s
}

func byGroup(lines []Line) []Line {
	out := make([]Line, 0, len(lines))
	for _, g := range plan.Groups {
		for i := range lines {
			if lines[i].Group == g {
				out = append(out, lines[i])
			}
		}
	}
	return out
}

// addUp makes the totals. Each is the sum of figures that are shown, or rounded once.
func (s *Sheet) addUp(p *plan.Plan, days []day.Day) {
	for _, l := range s.Lines {
		if !l.Counts() {
			continue
		}
		if l.Owner {
			s.Owner = s.Owner.Add(l.Amount)
			continue
		}
		s.Overtime = s.Overtime.Add(l.overtime())
		if n := len(s.Groups); n > 0 && s.Groups[n-1].Group == l.Group {
			s.Groups[n-1].Amount = s.Groups[n-1].Amount.Add(l.Amount)
		} else {
			s.Groups = append(s.Groups, Subtotal{l.Group, l.Amount})
		}
	}
	for _, g := range s.Groups {
		s.Direct = s.Direct.Add(g.Amount)
	}
	s.Contingency = s.Direct.Mul(s.terms.Contingency).DivRound(hundred, s.Places)
	b := p.Pricing.Card.Business
	s.OwnerTime = s.ownerTime()
	if b.Hours > 0 && b.Days > 0 {
		yearly := decimal.Zero
		for _, o := range b.Overheads {
			yearly = yearly.Add(o.Yearly)
		}
		time := decimal.NewFromInt(int64(s.jobTime(b, days)))
		s.JobDays = time.DivRound(decimal.NewFromInt(int64(b.Hours)), 2)
		s.Overhead = yearly.Mul(time).DivRound(decimal.NewFromInt(int64(b.Hours)*int64(b.Days)), s.Places)
	}
	s.Floor = s.Direct.Add(s.Contingency).Add(s.Owner).Add(s.Overhead)
}

// ownerTime is the time in the lines that are the owner's.
func (s *Sheet) ownerTime() plan.Minutes {
	minutes := decimal.Zero
	for _, l := range s.Lines {
		if l.Owner && l.Counts() {
			for _, part := range l.Parts {
				minutes = minutes.Add(part.quantity.minutes())
			}
		}
	}
	return plan.Minutes(minutes.Round(0).IntPart())
}

// jobTime is the time that the job takes of the business: the owner's, and what is left of each shooting day, for on these nothing
// else is sold.
func (s *Sheet) jobTime(b plan.Business, days []day.Day) plan.Minutes {
	onSet := map[plan.Date]plan.Minutes{}
	for _, h := range s.Hours {
		if l, ok := s.line("crew/" + string(h.Person)); ok && l.Owner && l.Counts() {
			onSet[h.Date] += h.Worked
		}
	}
	for _, d := range days {
		s.DaysRest += max(b.Hours-onSet[d.Date], 0)
	}
	return max(s.OwnerTime+s.DaysRest, plan.Minutes(s.Days)*b.Hours)
}

// lacks is what keeps the sheet from being right.
func (s *Sheet) lacks(p *plan.Plan, days []day.Day) plan.Problems {
	var out plan.Problems
	tell := func(missing bool, level plan.Severity, path string, code plan.Code, facts ...any) {
		if missing {
			out = append(out, plan.Problem{Code: code, Level: level, Path: path, Facts: facts})
		}
	}
	card := &p.Pricing.Card
	tell(card.Empty(), plan.Lack, "pricing.card", plan.LackCard)
	tell(!card.Empty() && card.Currency == "", plan.Lack, "pricing.card.currency", plan.LackCurrency)
	tell(card.Starter, plan.Warning, "pricing.card.starter", plan.StarterCard)
	tell(len(days) == 0, plan.Lack, "shooting.dates", plan.NotPlaced)
	for i, who := range p.People {
		tell(!card.Empty() && who.Rate == "" && (who.Role.Or() == plan.Crew || who.Paid), plan.Lack, path("people[%d].rate", i), plan.LackRate, who.Called())
	}
	b := card.Business
	tell((len(b.Overheads) > 0 || b.Pay.IsPositive()) && (b.Days == 0 || b.Hours == 0), plan.Lack, "pricing.card.business.days", plan.LackBillable)
	for i, o := range p.Pricing.Overrides {
		tell(!s.used[o.Line], plan.Warning, path("pricing.overrides[%d]", i), plan.OverrideGone, o.Line)
	}
	return out
}

func path(form string, i int) string { return fmt.Sprintf(form, i) }
