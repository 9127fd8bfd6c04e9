package price

import (
	"cmp"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"

	"github.com/shopspring/decimal"
)

// CrewLine is the id of the line that pays somebody's hours.
func CrewLine(person plan.ID) string { return "crew/" + string(person) }

// OvertimeOn is what one day costs by paying hours more than once, of those whom we pay.
func (s *Sheet) OvertimeOn(card *plan.RateCard, date plan.Date) decimal.Decimal {
	sum := decimal.Zero
	for _, h := range s.Hours {
		rate, ok := card.CrewRate(h.Rate)
		i := slices.IndexFunc(s.Lines, func(l Line) bool { return l.ID == CrewLine(h.Person) })
		if h.Date != date || !ok || i < 0 || !s.Lines[i].Counts() || s.Lines[i].Owner {
			continue
		}
		for _, t := range beyond(h, rate) {
			if t.Times.GreaterThan(one) {
				sum = sum.Add(s.part(inHours(t.Minutes), "h", s.hourly(card, rate), t.Times).Amount)
			}
		}
	}
	return sum
}

// crewLines are one a person: their hours over all days.
func (s *Sheet) crewLines(p *plan.Plan) {
	for _, who := range p.People {
		rate, ok := p.Pricing.Card.CrewRate(who.Rate)
		if !ok {
			continue
		}
		group := plan.CrewGroup
		if who.Role.Or() == plan.Talent {
			group = plan.TalentGroup
		}
		l := Line{ID: CrewLine(who.ID), Group: group, Text: who.Called() + ", " + cmp.Or(rate.Name, string(rate.ID)),
			Source: FromDays, Taxed: true, Owner: rate.Basis == plan.OwnTime}
		var times []Paid
		units := 0
		for _, h := range s.Hours {
			if h.Person == who.ID {
				units += h.Units
				times = merged(slices.Concat(times, beyond(h, rate)))
			}
		}
		l.Parts = s.crewParts(&p.Pricing.Card, rate, units, times)
		s.add(l)
	}
}

// crewParts are the days that are paid, then the hours, those paid most last. Who has none has none of what the rate is for.
func (s *Sheet) crewParts(card *plan.RateCard, rate plan.CrewRate, units int, times []Paid) []Part {
	var out []Part
	share := exact{one, 1}
	if byDays(rate) {
		share = hourOf(rate)
		out = append(out, s.part(whole(units), string(rate.Basis), exact{rate.Rate, 1}, one))
	} else if len(times) == 0 {
		times = []Paid{{0, one}}
	}
	for _, t := range times {
		part := s.part(inHours(t.Minutes), "h", s.hourly(card, rate), t.Times)
		part.share = share
		out = append(out, part)
	}
	return out
}

func byDays(r plan.CrewRate) bool { return r.Basis == plan.ByDay || r.Basis == plan.ByHalfDay }

// hourOf is the share of a day's rate, or of half a day's, that an hour beyond it is.
func hourOf(r plan.CrewRate) exact { return exact{sixty, int64(r.Hours)} }

// beyond is what is paid by the hour: all of it, or what is beyond the hours that the day's rate is for.
func beyond(h Hours, rate plan.CrewRate) []Paid {
	_, covers := covered(rate, h.Worked)
	var out []Paid
	for _, p := range h.Paid {
		if p.Times.Equal(one) {
			p.Minutes -= min(covers, p.Minutes)
		}
		out = append(out, p)
	}
	return merged(out)
}

// hourly is what an hour of a crew rate is: the owner's by the yearly pay over the billable hours of a year.
func (s *Sheet) hourly(card *plan.RateCard, r plan.CrewRate) exact {
	b := card.Business
	switch {
	case r.Basis == plan.OwnTime && (b.Days == 0 || b.Hours == 0):
		return exact{decimal.Zero, 1}
	case r.Basis == plan.OwnTime:
		return exact{b.Pay.Mul(sixty), int64(b.Days) * int64(b.Hours)}
	case byDays(r):
		hour := hourOf(r)
		return exact{r.Rate.Mul(hour.number), hour.over}
	}
	return exact{r.Rate, 1}
}

// kitLines are one a piece of kit that some placed scene names, or that always comes.
func (s *Sheet) kitLines(p *plan.Plan, days []day.Day) {
	for _, k := range p.Pricing.Card.Kit {
		var used []plan.Date
		for _, d := range days {
			if k.Always || slices.ContainsFunc(d.Scenes, func(at day.Placed) bool { return needs(p, at.Scene, k.Name) }) {
				used = append(used, d.Date)
			}
		}
		if len(used) == 0 {
			continue
		}
		l := Line{ID: "kit/" + k.Name, Group: plan.KitGroup, Text: k.Name, Source: FromDays, Taxed: true}
		if k.Owned {
			perDay := exact{k.Cost.Sub(k.Salvage), int64(k.Years) * int64(k.Days)}
			l.Parts, l.Note = []Part{s.part(whole(len(used)), string(plan.ByDay), perDay, one)}, "owned, straight-line depreciation"
		} else {
			l.Parts, l.Note = s.hired(k, used), "hired"
		}
		s.add(l)
	}
}

// hired are the weeks and days for which kit is hired: by the week where the days of use in seven days in a row would cost more, or
// where it has no price by the day.
func (s *Sheet) hired(k plan.KitRate, used []plan.Date) []Part {
	weeks, days := 0, 0
	for i := 0; i < len(used); {
		next := used[i].AddDays(7)
		n := countOf(used[i:], func(d plan.Date) bool { return d.Before(next) })
		if k.Week.IsPositive() && (k.Day.IsZero() || k.Day.Mul(decimal.NewFromInt(int64(n))).GreaterThan(k.Week)) {
			weeks, i = weeks+1, i+n
		} else {
			days, i = days+1, i+1
		}
	}
	var out []Part
	if weeks > 0 {
		out = append(out, s.part(whole(weeks), weekUnit, exact{k.Week, 1}, one))
	}
	if days > 0 {
		out = append(out, s.part(whole(days), string(plan.ByDay), exact{k.Day, 1}, one))
	}
	return out
}

func needs(p *plan.Plan, id plan.ID, name string) bool {
	scene, _ := p.Scene(id)
	same := func(k string) bool { return strings.EqualFold(strings.TrimSpace(k), strings.TrimSpace(name)) }
	return slices.ContainsFunc(scene.Kit, same)
}

// rateLines are one a rate of the card that the job has any of.
func (s *Sheet) rateLines(p *plan.Plan, days []day.Day) {
	card := &p.Pricing.Card
	for _, r := range card.Rates {
		n := count(p, days, r)
		if n.number.IsZero() {
			continue
		}
		l := Line{ID: "rate/" + string(r.ID), Group: r.Group.Or(), Text: cmp.Or(r.Name, string(r.ID)), Source: FromCard, Note: r.Note,
			Pays: r.Pays, Taxed: !r.Untaxed, Rate: r.ID}
		if crew, ok := card.CrewRate(r.Who); ok {
			l.Owner = crew.Basis == plan.OwnTime
			l.Text += ", " + cmp.Or(crew.Name, string(crew.ID))
			time := exact{n.number.Mul(decimal.NewFromInt(int64(r.Time))), n.over * 60}
			l.Parts = []Part{s.part(time, "h", s.hourly(card, crew), one)}
		} else {
			l.Parts = []Part{s.part(n, string(r.Per.Or()), exact{r.Amount, 1}, one)}
		}
		s.add(l)
	}
}

func (s *Sheet) typedLines(p *plan.Plan) {
	for _, t := range p.Pricing.Lines {
		s.add(Line{ID: t.BudgetLine(), Group: t.Group.Or(), Text: t.Text, Source: FromTyped, Note: t.Note, Pays: t.Pays,
			Taxed: !t.Untaxed, Parts: []Part{s.part(exact{t.Quantity, 1}, t.Unit, exact{t.Rate, 1}, one)}})
	}
}

// count is how many the job has of what a rate is counted by.
func count(p *plan.Plan, days []day.Day, r plan.Rate) exact {
	switch r.Per.Or() {
	case plan.PerJob:
		return whole(1)
	case plan.PerDay:
		return whole(len(days))
	case plan.PerScene:
		return whole(len(p.Scenes))
	case plan.PerTalent:
		return whole(countOf(p.People, func(q plan.Person) bool { return onCamera(p, q.ID) }))
	case plan.PerRelease:
		return whole(len(p.Releases))
	case plan.PerMeal:
		return whole(meals(days))
	case plan.PerHead:
		return whole(heads(days))
	case plan.PerKilometre:
		return whole(2 * p.Pricing.Distance * len(days))
	case plan.PerFlyingDay:
		return whole(countOf(days, func(d day.Day) bool { return flies(p, d) }))
	case plan.PerRound:
		return whole(p.Pricing.Unsure.Rounds)
	case plan.PerCard, plan.PerDrive, plan.PerBattery:
		return kept(p, days, r)
	}
	return delivered(p, r)
}

// delivered counts by what is handed over.
func delivered(p *plan.Plan, r plan.Rate) exact {
	pieces, seconds, stills, exposures := 0, 0, 0, 0
	for _, d := range p.Brief.Deliverables {
		if r.For != "" && r.For != d.KindOr() {
			continue
		}
		pieces, seconds, stills = pieces+1, seconds+d.Seconds, stills+d.Stills
		exposures += d.Stills * max(d.Exposures, 1)
	}
	switch r.Per {
	case plan.PerMinute:
		return exact{decimal.NewFromInt(int64(seconds)), 60}
	case plan.PerStill:
		return whole(stills)
	case plan.PerExposure:
		return whole(exposures)
	}
	return whole(pieces)
}

func countOf[T any](list []T, is func(T) bool) int {
	n := 0
	for _, t := range list {
		if is(t) {
			n++
		}
	}
	return n
}

func onCamera(p *plan.Plan, id plan.ID) bool {
	return slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return slices.Contains(s.People, id) })
}

// meals counts one for each person who is there when a meal begins.
func meals(days []day.Day) int {
	n := 0
	for _, d := range days {
		for _, meal := range d.Meals {
			n += countOf(d.People, func(q day.Presence) bool { return plan.Span{From: q.Call, To: q.Release}.Contains(meal.From) })
		}
	}
	return n
}

func heads(days []day.Day) int {
	n := 0
	for _, d := range days {
		n += len(d.People)
	}
	return n
}

func flies(p *plan.Plan, d day.Day) bool {
	return slices.ContainsFunc(d.Scenes, func(at day.Placed) bool { return aerial(p, at.Scene) })
}
