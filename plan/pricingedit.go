package plan

import "slices"

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
