package price

import (
	"strings"

	"eavelight/plan"

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

// Explain prints how a line's amount comes about: "6.5 h x 55.00 + 1 h x 82.50".
func (s *Sheet) Explain(parts []Part) string {
	var out []string
	for _, p := range parts {
		rate := exact{p.rate.number.Mul(p.Times), p.rate.over}
		out = append(out, p.much()+" x "+s.rate(rate.rounded(s.Places+2)))
	}
	return strings.Join(out, " + ")
}

// much is the quantity with its unit: "2 days"; "6.5 h", and where that has no end, "1 h 10".
func (p Part) much() string {
	if p.Unit == "" {
		return p.Quantity.String()
	}
	if minutes := p.quantity.minutes(); p.Unit == "h" && !p.Quantity.Mul(sixty).Equal(minutes) && minutes.IsInteger() {
		return plan.Minutes(minutes.IntPart()).String()
	}
	return p.Quantity.String() + " " + Units(p.Unit, p.Quantity)
}

// rate prints a rate with at least the currency's decimals, and with those beyond that it has.
func (s *Sheet) rate(r decimal.Decimal) string {
	short := r.Truncate(s.Places)
	if short.Equal(r) {
		return s.Amount(r)
	}
	return grouped(r.String())
}

// Units is the unit for so many: "day", "days", "people on camera". What is short is a sign, not a word: "kg", "min".
func Units(unit string, n decimal.Decimal) string {
	if n.Equal(one) || len(unit) < 3 || unit == "min" {
		return unit
	}
	for _, tail := range []string{" called", " on camera", " of changes"} {
		if head, ok := strings.CutSuffix(unit, tail); ok {
			return Units(head, n) + tail
		}
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
