package store

import "eavelight/plan"

// The keys of what the price is worked out from. A rate card has the same keys in a plan and in a file of its own.

func pricing(p *plan.Pricing) value {
	return block(
		may("card", card(&p.Card)),
		may("distance", whole(&p.Distance)),
		may("lines", items(&p.Lines, typedLine)),
		may("overrides", items(&p.Overrides, override)),
		may("unsure", unsure(&p.Unsure)),
		may("recording", recording(&p.Recording)),
		may("what-if", whatIf(&p.WhatIf)),
		may("asked", amount(&p.Asked)),
		may("try", amount(&p.Try)),
		may("quoted", date(&p.Quoted)),
		may("booked", date(&p.Booked)),
		may("packages", items(&p.Packages, pack)),
		may("market", items(&p.Market, offer)),
	)
}

func card(c *plan.RateCard) value { return block(cardFields(c)...) }

func cardFields(c *plan.RateCard) []field {
	return []field{
		may("name", text(&c.Name)),
		may("starter", truth(&c.Starter)),
		may("currency", text(&c.Currency)),
		may("time-step", whole(&c.TimeStep)),
		may("overtime", items(&c.Overtime, overtimeRule)),
		may("crew", items(&c.Crew, crewRate)),
		may("kit", items(&c.Kit, kitRate)),
		may("rates", items(&c.Rates, rate)),
		may("business", business(&c.Business)),
		may("terms", terms(&c.Terms)),
	}
}

func overtimeRule(r *plan.OvertimeRule) value {
	return block(
		may("id", text(&r.ID)),
		may("name", text(&r.Name)),
		may("source", text(&r.Source)),
		may("daily", items(&r.Daily, overtimeStep)),
		may("beyond", truth(&r.Beyond)),
		may("seventh", items(&r.Seventh, overtimeStep)),
		may("weekly", whole(&r.Weekly)),
		may("weekly-times", amount(&r.WeeklyTimes)),
	)
}

func overtimeStep(s *plan.OvertimeStep) value {
	return inline(
		must("after", whole(&s.After)),
		must("times", amount(&s.Times)),
	)
}

func crewRate(r *plan.CrewRate) value {
	return block(
		may("id", text(&r.ID)),
		may("name", text(&r.Name)),
		may("basis", text(&r.Basis)),
		may("rate", amount(&r.Rate)),
		may("hours", whole(&r.Hours)),
		may("overtime", text(&r.Overtime)),
		may("travel", truth(&r.Travel)),
	)
}

func kitRate(k *plan.KitRate) value {
	return block(
		may("name", text(&k.Name)),
		may("always", truth(&k.Always)),
		may("owned", truth(&k.Owned)),
		may("cost", amount(&k.Cost)),
		may("salvage", amount(&k.Salvage)),
		may("years", whole(&k.Years)),
		may("days", whole(&k.Days)),
		may("day", amount(&k.Day)),
		may("week", amount(&k.Week)),
	)
}

func rate(r *plan.Rate) value {
	return block(
		may("id", text(&r.ID)),
		may("name", text(&r.Name)),
		may("group", text(&r.Group)),
		may("per", text(&r.Per)),
		may("for", text(&r.For)),
		may("amount", amount(&r.Amount)),
		may("time", whole(&r.Time)),
		may("who", text(&r.Who)),
		may("low", whole(&r.Low)),
		may("high", whole(&r.High)),
		may("untaxed", truth(&r.Untaxed)),
		may("pays", text(&r.Pays)),
		may("note", text(&r.Note)),
	)
}

func business(b *plan.Business) value {
	return block(
		may("overheads", items(&b.Overheads, overhead)),
		may("days", whole(&b.Days)),
		may("hours", whole(&b.Hours)),
		may("pay", amount(&b.Pay)),
	)
}

func overhead(o *plan.Overhead) value {
	return inline(
		may("name", text(&o.Name)),
		may("yearly", amount(&o.Yearly)),
	)
}

func terms(t *plan.Terms) value {
	return block(
		may("contingency", amount(&t.Contingency)),
		may("margin", amount(&t.Margin)),
		may("discount", amount(&t.Discount)),
		may("step", amount(&t.Step)),
		may("taxes", items(&t.Taxes, tax)),
		may("tax-by-line", truth(&t.TaxByLine)),
		may("payments", items(&t.Payments, payment)),
		may("valid", whole(&t.Valid)),
		may("wording", text(&t.Wording)),
	)
}

func tax(t *plan.Tax) value {
	return inline(
		may("name", text(&t.Name)),
		may("percent", amount(&t.Percent)),
	)
}

func payment(p *plan.Payment) value {
	return inline(
		may("name", text(&p.Name)),
		may("percent", amount(&p.Percent)),
		may("when", text(&p.When)),
		may("days", whole(&p.Days)),
	)
}

func typedLine(l *plan.TypedLine) value {
	return block(
		may("id", text(&l.ID)),
		may("group", text(&l.Group)),
		may("text", text(&l.Text)),
		may("quantity", amount(&l.Quantity)),
		may("unit", text(&l.Unit)),
		may("rate", amount(&l.Rate)),
		may("untaxed", truth(&l.Untaxed)),
		may("pays", text(&l.Pays)),
		may("note", text(&l.Note)),
	)
}

func override(o *plan.Override) value {
	return block(
		must("line", text(&o.Line)),
		may("out", truth(&o.Out)),
		may("quantity", option(&o.Quantity, amount)),
		may("rate", option(&o.Rate, amount)),
		may("pays", text(&o.Pays)),
		may("note", text(&o.Note)),
	)
}

func unsure(u *plan.Unsure) value {
	return block(
		may("early", whole(&u.Early)),
		may("late", whole(&u.Late)),
		may("rounds", whole(&u.Rounds)),
		may("most-rounds", whole(&u.MostRounds)),
		may("weather", whole(&u.Weather)),
	)
}

func pack(k *plan.Package) value {
	return block(
		must("name", text(&k.Name)),
		may("scenes", row(&k.Scenes, text)),
		may("deliverables", items(&k.Deliverables, text)),
	)
}

func offer(o *plan.Offer) value {
	return block(
		may("who", text(&o.Who)),
		may("amount", amount(&o.Amount)),
		may("includes", text(&o.Includes)),
		may("noted", date(&o.Noted)),
	)
}

func recording(r *plan.Recording) value {
	return block(
		may("ratio", number(&r.Ratio)),
		may("bitrate", number(&r.Bitrate)),
		may("megapixels", number(&r.Megapixels)),
		may("bits", whole(&r.Bits)),
		may("packed", truth(&r.Packed)),
		may("card", whole(&r.Card)),
		may("drive", whole(&r.Drive)),
		may("offload", whole(&r.Offload)),
		may("copies", whole(&r.Copies)),
		may("on-drives", whole(&r.OnDrives)),
		may("elsewhere", whole(&r.Elsewhere)),
		may("batteries", items(&r.Batteries, battery)),
	)
}

func battery(b *plan.Battery) value {
	return inline(
		may("name", text(&b.Name)),
		must("lasts", whole(&b.Lasts)),
		may("spare", whole(&b.Spare)),
		may("flying", truth(&b.Flying)),
	)
}

func whatIf(w *plan.WhatIf) value {
	return block(
		may("talent", text(&w.Talent)),
		may("camera", text(&w.Camera)),
		may("saves", whole(&w.Saves)),
		may("more", deliverable(&w.More)),
	)
}
