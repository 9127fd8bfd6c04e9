package plan

import (
	"cmp"
	"slices"

	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// TakeCard puts a copy of a rate card in the place of the plan's own. What names a rate that it does not have names none.
func (p *Plan) TakeCard(c RateCard) {
	p.Pricing.Card = c.Clone()
	p.dropGoneRates()
}

// RemoveCrewRate takes a rate of the crew off the card, and from whoever has it.
func (p *Plan) RemoveCrewRate(i int) {
	card := &p.Pricing.Card
	gone := card.Crew[i].ID
	card.Crew = slices.Delete(card.Crew, i, i+1)
	// A rate that is a time of this position has no meaning without it.
	card.Rates = slices.DeleteFunc(card.Rates, func(r Rate) bool { return r.Who == gone })
	p.dropGoneRates()
}

// RemoveOvertimeRule takes a rule off the card, and from the rates that name it.
func (p *Plan) RemoveOvertimeRule(i int) {
	card := &p.Pricing.Card
	gone := card.Overtime[i].ID
	card.Overtime = slices.Delete(card.Overtime, i, i+1)
	for j := range card.Crew {
		if card.Crew[j].Overtime == gone {
			card.Crew[j].Overtime = ""
		}
	}
}

func (p *Plan) dropGoneRates() {
	keep := func(id *ID) {
		if _, ok := p.Pricing.Card.CrewRate(*id); !ok {
			*id = ""
		}
	}
	for i := range p.People {
		keep(&p.People[i].Rate)
	}
	keep(&p.Pricing.WhatIf.Talent)
	keep(&p.Pricing.WhatIf.Camera)
}

// SetOverride puts a word of the user's on a line of the budget in the place of an older one; one that says nothing takes it back.
func (p *Plan) SetOverride(o Override) {
	list := &p.Pricing.Overrides
	i := slices.IndexFunc(*list, func(old Override) bool { return old.Line == o.Line })
	empty := !o.Out && o.Quantity == nil && o.Rate == nil && o.Pays == "" && o.Note == ""
	switch {
	case i >= 0 && empty:
		*list = slices.Delete(*list, i, i+1)
	case i >= 0:
		(*list)[i] = o
	case !empty:
		*list = append(*list, o)
	}
}

// OverrideOf is what the user has said of a line; ok is false where nothing was said.
func (p *Plan) OverrideOf(line string) (o Override, ok bool) {
	return find(p.Pricing.Overrides, func(o Override) bool { return o.Line == line })
}

// AddLine puts a line that is typed under the others and returns where.
func (p *Plan) AddLine(group Group) int {
	list := &p.Pricing.Lines
	id := fresh("line", *list, func(l TypedLine) ID { return l.ID })
	*list = append(*list, TypedLine{ID: id, Group: group, Quantity: decimal.NewFromInt(1)})
	return len(*list) - 1
}

// RemoveLine takes typed line i out, and what was said over it.
func (p *Plan) RemoveLine(i int) {
	p.SetOverride(Override{Line: p.Pricing.Lines[i].BudgetLine()})
	p.Pricing.Lines = slices.Delete(p.Pricing.Lines, i, i+1)
}

// BudgetLine is the id of the line in the budget, which overrides go by.
func (l TypedLine) BudgetLine() string { return "typed/" + string(l.ID) }

// AddCrewRate puts a rate by the hour under the others.
func (c *RateCard) AddCrewRate() {
	c.Crew = append(c.Crew, CrewRate{ID: fresh("crew", c.Crew, func(r CrewRate) ID { return r.ID }), Basis: ByHour})
}

// SetBasis says what a crew rate is paid for. A day that was not said to be of any hours is of ten, half a day of five, as rates
// by the day often are (common practice, no published source).
func (r *CrewRate) SetBasis(b Basis) {
	r.Basis = b
	switch {
	case r.Hours > 0:
	case b == ByDay:
		r.Hours = 10 * 60
	case b == ByHalfDay:
		r.Hours = 5 * 60
	}
}

// AddKit puts a piece of kit under the others. Kit goes by its name, so it has one from the start, in a tongue.
func (c *RateCard) AddKit(in say.Tongue) {
	name := fresh(say.That("called|kit").In(in), c.Kit, func(k KitRate) ID { return ID(k.Name) })
	c.Kit = append(c.Kit, KitRate{Name: string(name)})
}

// SetOwned says whether the kit is the business's own. Kit of which nothing was said is kept for five years and used on fifty
// days of each (common practice, no published source).
func (k *KitRate) SetOwned(owned bool) {
	k.Owned = owned
	if owned {
		k.Years, k.Days = cmp.Or(k.Years, 5), cmp.Or(k.Days, 50)
	}
}

// AddRule puts an overtime rule at index at and returns where.
func (c *RateCard) AddRule(at int) int {
	at = min(max(at, 0), len(c.Overtime))
	id := fresh("rule", c.Overtime, func(r OvertimeRule) ID { return r.ID })
	c.Overtime = slices.Insert(c.Overtime, at, OvertimeRule{ID: id})
	return at
}

// DuplicateRule puts a copy of rule i right after it and returns where.
func (c *RateCard) DuplicateRule(i int, in say.Tongue) int {
	r := c.Overtime[i]
	r.ID, r.Name = fresh(string(r.ID), c.Overtime, func(r OvertimeRule) ID { return r.ID }), copyName(r.Name, in)
	r.Daily, r.Seventh = slices.Clone(r.Daily), slices.Clone(r.Seventh)
	c.Overtime = slices.Insert(c.Overtime, i+1, r)
	return i + 1
}

// SetWeekly says after how much straight time in a week hours are paid more: one and a half times where nothing was said, as
// 29 USC 207(a)(1) has it.
func (r *OvertimeRule) SetWeekly(after Minutes) {
	r.Weekly = after
	if after > 0 && r.WeeklyTimes.IsZero() {
		r.WeeklyTimes = decimal.New(15, -1)
	}
}

// AddRate puts a rate for the job at index at and returns where.
func (c *RateCard) AddRate(at int) int {
	at = min(max(at, 0), len(c.Rates))
	c.Rates = slices.Insert(c.Rates, at, Rate{ID: fresh("rate", c.Rates, func(r Rate) ID { return r.ID }), Group: OtherGroup, Per: PerJob})
	return at
}

// DuplicateRate puts a copy of rate i right after it and returns where.
func (c *RateCard) DuplicateRate(i int, in say.Tongue) int {
	r := c.Rates[i]
	r.ID, r.Name = fresh(string(r.ID), c.Rates, func(r Rate) ID { return r.ID }), copyName(r.Name, in)
	c.Rates = slices.Insert(c.Rates, i+1, r)
	return i + 1
}

// SetWho makes a rate a time of somebody in the crew, an hour where no time was said; of nobody, an amount of money.
func (r *Rate) SetWho(who ID) {
	r.Who = who
	if who == "" {
		r.Time = 0
		return
	}
	r.Time, r.Amount = cmp.Or(r.Time, 60), decimal.Zero
}

// AddPayment puts a payment of nothing under the others; the first is of everything.
func (t *Terms) AddPayment() {
	p := Payment{When: AtDelivery}
	if len(t.Payments) == 0 {
		p.Percent = decimal.NewFromInt(100)
	}
	t.Payments = append(t.Payments, p)
}

// SetShare says how much of the total payment i is. What it takes the last payment gives, or the last takes from the one before
// it, so that they go on making 100.
func (t *Terms) SetShare(i int, percent decimal.Decimal) {
	other := len(t.Payments) - 1
	if i == other {
		other--
	}
	if other >= 0 {
		rest := &t.Payments[other].Percent
		*rest = rest.Add(t.Payments[i].Percent).Sub(percent)
	}
	t.Payments[i].Percent = percent
}

// RemovePayment takes payment i out; the last of those that stay takes its share.
func (t *Terms) RemovePayment(i int) {
	share := t.Payments[i].Percent
	t.Payments = slices.Delete(t.Payments, i, i+1)
	if n := len(t.Payments); n > 0 {
		t.Payments[n-1].Percent = t.Payments[n-1].Percent.Add(share)
	}
}
