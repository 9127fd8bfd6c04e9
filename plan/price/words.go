package price

import (
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
)

// Amount prints an amount with the decimals of the sheet's currency: "1,250.00", in JPY "1,250".
func (s *Sheet) Amount(a decimal.Decimal) string { return grouped(a.StringFixed(s.Places)) }

// grouped puts a comma before every third figure in front of the point: figures in a column are told apart at a glance.
func grouped(number string) string {
	end := strings.IndexByte(number, '.')
	if end < 0 {
		end = len(number)
	}
	for i := end - 3; i > 0 && number[i-1] != '-'; i -= 3 {
		number = number[:i] + "," + number[i:]
	}
	return number
}

// Explain says how a line's amount comes about: "6.5 h x 55.00 + 1 h x 82.50".
func (s *Sheet) Explain(parts []Part) say.Text {
	var out []say.Text
	for _, p := range parts {
		rate := exact{p.rate.number.Mul(p.Times), p.rate.over}
		out = append(out, say.Join(" x ", p.much(), say.Number(s.rate(rate.rounded(s.Places+2)))))
	}
	return say.Join(" + ", out...)
}

// much is the quantity with its unit: "2 days"; "6.5 h", and where that has no end, "1 h 10".
func (p Part) much() say.Text {
	if p.Unit == "" {
		return say.Number(p.Quantity.String())
	}
	if minutes := p.quantity.minutes(); p.Unit == "h" && !p.Quantity.Mul(sixty).Equal(minutes) && minutes.IsInteger() {
		return say.Plain(plan.Minutes(minutes.IntPart()).String())
	}
	return say.Join(" ", say.Number(p.Quantity.String()), Units(p.Unit, p.Quantity))
}

// rate prints a rate with at least the currency's decimals, and with those beyond that it has.
func (s *Sheet) rate(r decimal.Decimal) string {
	short := r.Truncate(s.Places)
	if short.Equal(r) {
		return s.Amount(r)
	}
	return grouped(r.String())
}

// weekUnit is what kit is hired by where that costs less than the days.
const weekUnit = "week"

// Units is the unit for so many: "day", "days", "people on camera". What is short is a sign, not a word: "kg", "min".
func Units(unit string, n decimal.Decimal) say.Text {
	many := 2
	if n.Equal(one) {
		many = 1
	}
	switch unit {
	case string(plan.ByDay):
		return say.Count(many, "unit|day", "unit|days")
	case string(plan.ByHalfDay):
		return say.Count(many, "unit|half day", "unit|half days")
	case weekUnit:
		return say.Count(many, "unit|week", "unit|weeks")
	}
	if text := measured(plan.Measure(unit), many); !text.IsZero() {
		return text
	}
	several := typedUnits(unit, many)
	if several == unit {
		return say.Plain(unit)
	}
	return say.That("a unit as typed, and its English plural|%.0s%s", unit, several) // other languages say the one, for they know no other
}

// measured is what rates are counted by, for one or for several; nothing for what is none of those.
func measured(m plan.Measure, many int) say.Text {
	switch m {
	case plan.PerJob:
		return say.Count(many, "unit|job", "unit|jobs")
	case plan.PerDay:
		return say.Count(many, "unit|shooting day", "unit|shooting days")
	case plan.PerScene:
		return say.Count(many, "unit|scene", "unit|scenes")
	case plan.PerTalent:
		return say.Count(many, "unit|person on camera", "unit|people on camera")
	case plan.PerRelease:
		return say.Count(many, "unit|release", "unit|releases")
	case plan.PerMeal:
		return say.Count(many, "unit|meal", "unit|meals")
	case plan.PerHead:
		return say.Count(many, "unit|person called", "unit|people called")
	case plan.PerKilometre:
		return say.Count(many, "unit|kilometre", "unit|kilometres")
	case plan.PerFlyingDay:
		return say.Count(many, "unit|flying day", "unit|flying days")
	case plan.PerDeliverable:
		return say.Count(many, "unit|deliverable", "unit|deliverables")
	case plan.PerMinute:
		return say.Count(many, "unit|finished minute", "unit|finished minutes")
	case plan.PerStill:
		return say.Count(many, "unit|still", "unit|stills")
	case plan.PerExposure:
		return say.Count(many, "unit|exposure", "unit|exposures")
	case plan.PerRound:
		return say.Count(many, "unit|round of changes", "unit|rounds of changes")
	case plan.PerCard:
		return say.Count(many, "unit|memory card", "unit|memory cards")
	case plan.PerDrive:
		return say.Count(many, "unit|drive", "unit|drives")
	case plan.PerBattery:
		return say.Count(many, "unit|battery", "unit|batteries")
	}
	return say.Text{}
}

// typedUnits puts a unit that the user has typed into the English plural.
func typedUnits(unit string, many int) string {
	if many == 1 || len(unit) < 3 || unit == "min" {
		return unit
	}
	head, last := unit[:len(unit)-1], unit[len(unit)-1]
	switch {
	case unit == "person":
		return "people"
	case last == 's':
		return unit
	case last == 'y' && !strings.ContainsAny(head[len(head)-1:], "aeiou"):
		return head + "ies"
	case last == 'x' || strings.HasSuffix(unit, "ch") || strings.HasSuffix(unit, "sh"):
		return unit + "es"
	}
	return unit + "s"
}
