package price

import (
	"strings"

	"github.com/shopspring/decimal"
)

// Amount prints an amount with the decimals of the sheet's currency: "1250.00", in JPY "1250".
func (s *Sheet) Amount(a decimal.Decimal) string { return a.StringFixed(s.Places) }

// Explain prints how a line's amount comes about: "6.5 h x 55.00 + 1 h x 82.50".
func (s *Sheet) Explain(parts []Part) string {
	var out []string
	for _, p := range parts {
		words := p.Quantity.String()
		if p.Unit != "" {
			words += " " + Units(p.Unit, p.Quantity)
		}
		out = append(out, words+" x "+s.rate(p.Rate.Mul(p.Times)))
	}
	return strings.Join(out, " + ")
}

// rate prints a rate with at least the currency's decimals, and with those beyond that it has.
func (s *Sheet) rate(r decimal.Decimal) string {
	short := r.Truncate(s.Places)
	if short.Equal(r) {
		return short.StringFixed(s.Places)
	}
	return r.String()
}

// Units is the unit for so many: "day", "days", "persons on camera".
func Units(unit string, n decimal.Decimal) string {
	if n.Equal(one) || unit == "h" {
		return unit
	}
	for _, tail := range []string{" called", " on camera", " of changes"} {
		if head, ok := strings.CutSuffix(unit, tail); ok {
			return Units(head, n) + tail
		}
	}
	switch {
	case strings.HasPrefix(unit, "person"):
		return "people" + strings.TrimPrefix(unit, "person")
	case strings.HasSuffix(unit, "day"), !strings.HasSuffix(unit, "s"):
		return unit + "s"
	}
	return unit
}
