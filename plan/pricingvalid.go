package plan

import (
	"fmt"

	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// amount checks an amount of money, or a count that may be broken.
func (v *validator) amount(path string, a decimal.Decimal) {
	v.figure(path, say.That("the amount"), a, maxAmount)
}

func (v *validator) percent(path string, a decimal.Decimal, most int64) {
	v.figure(path, say.That("the share"), a, decimal.NewFromInt(most))
}

// figure refuses what is out of bounds, and what has so many places that reckoning with it would take forever.
func (v *validator) figure(path string, what say.Text, a, most decimal.Decimal) {
	if a.Exponent() > 12 || a.Exponent() < -12 || a.IsNegative() || a.GreaterThan(most) {
		v.outside(path, what, plainNumber(0), number(most))
	}
}

func number(d decimal.Decimal) say.Text { return say.Number(d.String()) }

func (v *validator) crewRateIDs() []string {
	return ids(v.plan.Pricing.Card.Crew, func(r CrewRate) ID { return r.ID })
}

// ids lists the ids of a list that is checked elsewhere.
func ids[T any](list []T, id func(T) ID) []string {
	var out []string
	for _, item := range list {
		if id(item) != "" {
			out = append(out, string(id(item)))
		}
	}
	return out
}

// ValidateCard returns everything on a rate card that is Wrong, as Validate does for a plan.
func ValidateCard(c RateCard) Problems {
	v := validator{}
	v.card("", c)
	return v.found
}

func (v *validator) pricing() {
	p := v.plan.Pricing
	v.card("pricing.card.", p.Card)
	v.within("pricing.distance", float64(p.Distance), 0, maxDistance)
	unique(v, "pricing.lines", p.Lines, func(l TypedLine) ID { return l.ID }, "line")
	for i, l := range p.Lines {
		at := fmt.Sprintf("pricing.lines[%d]", i)
		v.text(at+".text", l.Text)
		oneOf(v, at+".group", l.Group, Groups)
		oneOf(v, at+".pays", l.Pays, Payers)
		v.amount(at+".quantity", l.Quantity)
		v.amount(at+".rate", l.Rate)
	}
	v.overrides()
	v.unsure()
	v.recording()
	v.whatIf()
	v.amount("pricing.asked", p.Asked)
	v.amount("pricing.try", p.Try)
	v.date("pricing.quoted", p.Quoted)
	v.date("pricing.booked", p.Booked)
	v.packages()
	for i, o := range p.Market {
		at := fmt.Sprintf("pricing.market[%d]", i)
		v.amount(at+".amount", o.Amount)
		v.text(at+".includes", o.Includes)
		v.date(at+".noted", o.Noted)
	}
}

func (v *validator) overrides() {
	first := map[string]string{}
	for i, o := range v.plan.Pricing.Overrides {
		at := fmt.Sprintf("pricing.overrides[%d]", i)
		v.name(at+".line", o.Line)
		if first[o.Line] != "" {
			v.wrong(at+".line", DuplicateName, o.Line, first[o.Line])
		}
		first[o.Line] = at + ".line"
		oneOf(v, at+".pays", o.Pays, Payers)
		for key, figure := range map[string]*decimal.Decimal{"quantity": o.Quantity, "rate": o.Rate} {
			if figure != nil {
				v.amount(at+"."+key, *figure)
			}
		}
	}
}

func (v *validator) unsure() {
	u := v.plan.Pricing.Unsure
	v.within("pricing.unsure.early", float64(u.Early), 0, maxMinutes)
	v.within("pricing.unsure.late", float64(u.Late), 0, maxMinutes)
	v.within("pricing.unsure.rounds", float64(u.Rounds), 0, 99)
	v.within("pricing.unsure.most-rounds", float64(u.MostRounds), 0, 99)
	v.within("pricing.unsure.weather", float64(u.Weather), 0, 100)
}

func (v *validator) recording() {
	const at = "pricing.recording."
	r := v.plan.Pricing.Recording
	v.within(at+"ratio", r.Ratio, 0, 1000)
	v.within(at+"bitrate", r.Bitrate, 0, 100_000)
	v.within(at+"megapixels", r.Megapixels, 0, 1000)
	for _, f := range []struct {
		key  string
		n    int
		most float64
	}{{"bits", r.Bits, 32}, {"card", r.Card, maxCount}, {"drive", r.Drive, 10 * maxCount}, {"offload", r.Offload, maxCount},
		{"copies", r.Copies, 20}, {"on-drives", r.OnDrives, float64(r.Copies)}, {"elsewhere", r.Elsewhere, float64(r.Copies)}} {
		v.within(at+f.key, float64(f.n), 0, f.most)
	}
	for i, b := range r.Batteries {
		at := fmt.Sprintf("%sbatteries[%d]", at, i)
		v.within(at+".lasts", float64(b.Lasts), 1, maxMinutes)
		v.within(at+".spare", float64(b.Spare), 0, 1000)
	}
}

func (v *validator) whatIf() {
	w := v.plan.Pricing.WhatIf
	rates := v.crewRateIDs()
	v.refer("pricing.what-if.talent", w.Talent, rates, aCrewRate)
	v.refer("pricing.what-if.camera", w.Camera, rates, aCrewRate)
	v.within("pricing.what-if.saves", float64(w.Saves), 0, 90)
	v.deliverable("pricing.what-if.more", w.More, v.sceneIDs())
}

// packages may name scenes and deliverables that are gone: to take these names out as well would turn a package of one scene
// into one of all. The price says so.
func (v *validator) packages() {
	for i, k := range v.plan.Pricing.Packages {
		v.name(fmt.Sprintf("pricing.packages[%d].name", i), k.Name)
	}
}

// card checks a rate card whose paths begin with at.
func (v *validator) card(at string, c RateCard) {
	v.text(at+"name", c.Name)
	if c.Currency != "" && !currencyForm.MatchString(c.Currency) {
		v.wrong(at+"currency", BadCurrency, c.Currency)
	}
	v.within(at+"time-step", float64(c.TimeStep), 0, 60)
	rules := unique(v, at+"overtime", c.Overtime, func(r OvertimeRule) ID { return r.ID }, "rule")
	for i, r := range c.Overtime {
		at := fmt.Sprintf("%sovertime[%d]", at, i)
		v.steps(at+".daily", r.Daily, r.Beyond)
		v.steps(at+".seventh", r.Seventh, true)
		v.within(at+".weekly", float64(r.Weekly), 0, 7*24*60)
		v.figure(at+".weekly-times", say.That("the times"), r.WeeklyTimes, decimal.NewFromInt(maxTimes))
		if r.Weekly > 0 && r.WeeklyTimes.LessThan(decimal.NewFromInt(1)) {
			v.wrong(at+".weekly-times", PaysLess, number(r.WeeklyTimes))
		}
	}
	crew := unique(v, at+"crew", c.Crew, func(r CrewRate) ID { return r.ID }, "crew")
	for i, r := range c.Crew {
		at := fmt.Sprintf("%screw[%d]", at, i)
		oneOf(v, at+".basis", r.Basis, Bases)
		v.amount(at+".rate", r.Rate)
		v.within(at+".hours", float64(r.Hours), 0, 24*60)
		v.refer(at+".overtime", r.Overtime, rules, anOvertimeRule)
		if (r.Basis == ByDay || r.Basis == ByHalfDay) && r.Hours == 0 {
			v.wrong(at+".hours", MissingHours, r.Basis)
		}
	}
	v.kitRates(at, c.Kit)
	unique(v, at+"rates", c.Rates, func(r Rate) ID { return r.ID }, "rate")
	for i, r := range c.Rates {
		v.rate(fmt.Sprintf("%srates[%d]", at, i), r, crew)
	}
	v.business(at+"business", c.Business)
	v.terms(at+"terms", c.Terms)
}

// maxTimes is how many times an hour can be paid at most.
const maxTimes = 10

// steps checks that steps rise, in time and in what they pay.
func (v *validator) steps(at string, steps []OvertimeStep, fromZero bool) {
	for i, s := range steps {
		at := fmt.Sprintf("%s[%d]", at, i)
		low := 1.0
		if fromZero {
			low = 0
		}
		v.within(at+".after", float64(s.After), low, 24*60)
		v.figure(at+".times", say.That("the times"), s.Times, decimal.NewFromInt(maxTimes))
		switch {
		case i > 0 && s.After <= steps[i-1].After:
			v.wrong(at+".after", NotRising, s.After, steps[i-1].After)
		case s.Times.LessThan(decimal.NewFromInt(1)) || i > 0 && s.Times.LessThan(steps[i-1].Times):
			v.wrong(at+".times", PaysLess, number(s.Times))
		}
	}
}

func (v *validator) kitRates(at string, kit []KitRate) {
	for i, k := range kit {
		at := fmt.Sprintf("%skit[%d]", at, i)
		v.name(at+".name", k.Name)
		for key, a := range map[string]decimal.Decimal{"cost": k.Cost, "salvage": k.Salvage, "day": k.Day, "week": k.Week} {
			v.amount(at+"."+key, a)
		}
		v.within(at+".years", float64(k.Years), 0, 100)
		v.within(at+".days", float64(k.Days), 0, 366)
		if k.Owned && (k.Years == 0 || k.Days == 0) {
			v.wrong(at+".years", MissingUse, k.Name)
		}
		if k.Owned && k.Salvage.GreaterThan(k.Cost) {
			v.outside(at+".salvage", say.That("the amount"), plainNumber(0), number(k.Cost))
		}
	}
}

func (v *validator) rate(at string, r Rate, crew []string) {
	v.text(at+".name", r.Name)
	v.text(at+".note", r.Note)
	oneOf(v, at+".group", r.Group, Groups)
	oneOf(v, at+".per", r.Per, Measures)
	oneOf(v, at+".for", r.For, DeliverableKinds)
	oneOf(v, at+".pays", r.Pays, Payers)
	v.amount(at+".amount", r.Amount)
	v.within(at+".time", float64(r.Time), 0, 100*24*60)
	v.refer(at+".who", r.Who, crew, aCrewRate)
	if (r.Time > 0) != (r.Who != "") || r.Time > 0 && !r.Amount.IsZero() {
		v.wrong(at+".time", TimeOrAmount)
	}
	v.within(at+".low", float64(r.Low), 0, 100)
	if r.High != 0 {
		v.within(at+".high", float64(r.High), 100, 1000)
	}
}

func (v *validator) business(at string, b Business) {
	for i, o := range b.Overheads {
		v.amount(fmt.Sprintf("%s.overheads[%d].yearly", at, i), o.Yearly)
	}
	v.within(at+".days", float64(b.Days), 0, 366)
	v.within(at+".hours", float64(b.Hours), 0, 24*60)
	v.amount(at+".pay", b.Pay)
}

func (v *validator) terms(at string, t Terms) {
	v.percent(at+".contingency", t.Contingency, 100)
	v.percent(at+".margin", t.Margin, 99)
	v.percent(at+".discount", t.Discount, 100)
	v.amount(at+".step", t.Step)
	for i, x := range t.Taxes {
		v.percent(fmt.Sprintf("%s.taxes[%d].percent", at, i), x.Percent, 100)
	}
	sum := decimal.Zero
	for i, x := range t.Payments {
		at := fmt.Sprintf("%s.payments[%d]", at, i)
		v.percent(at+".percent", x.Percent, 100)
		oneOf(v, at+".when", x.When, Moments)
		v.within(at+".days", float64(x.Days), -366, 366)
		sum = sum.Add(x.Percent)
	}
	if hundred := decimal.NewFromInt(100); len(t.Payments) > 0 && !sum.Equal(hundred) {
		v.wrong(at+".payments", PaymentsNot100, number(sum))
	}
	v.within(at+".valid", float64(t.Valid), 0, 366)
	v.text(at+".wording", t.Wording)
}
