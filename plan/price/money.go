package price

import (
	"slices"

	"github.com/shopspring/decimal"
)

var (
	one     = decimal.NewFromInt(1)
	sixty   = decimal.NewFromInt(60)
	hundred = decimal.NewFromInt(100)
)

// places are the minor units of the currencies that do not have two decimals: ISO 4217, list one. From memory but for JPY, KRW,
// CLP, ISK, KWD, BHD, TND and CLF.
var places = map[string]int32{
	"BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0, "UGX": 0, "VND": 0,
	"VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0,
	"BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
	"CLF": 4, "UYW": 4,
}

// Places is the number of decimals of a currency's minor unit (ISO 4217): 2 for most, and for what is not known.
func Places(currency string) int32 {
	if n, ok := places[currency]; ok {
		return n
	}
	return 2
}

// Split divides a total among weights, in whole minor units of so many places, so that the shares add up to it exactly: the
// largest-remainder method (Hamilton's), the first of equal remainders first. Weights are not negative. Where all are zero the
// first takes everything.
func Split(total decimal.Decimal, places int32, weights []decimal.Decimal) []decimal.Decimal {
	if len(weights) == 0 {
		return nil
	}
	sum := decimal.Zero
	for _, w := range weights {
		sum = sum.Add(w)
	}
	shares := make([]decimal.Decimal, len(weights))
	if sum.IsZero() {
		shares[0] = total
		return shares
	}
	rests := make([]decimal.Decimal, len(weights))
	left := total
	for i, w := range weights {
		var rest decimal.Decimal
		shares[i], rest = total.Mul(w).QuoRem(sum, places)
		rests[i], left = rest, left.Sub(shares[i])
	}
	order := make([]int, len(weights))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return rests[b].Cmp(rests[a]) })
	unit := decimal.New(1, -places)
	for _, i := range order {
		if left.LessThan(unit) {
			break
		}
		shares[i], left = shares[i].Add(unit), left.Sub(unit)
	}
	return shares
}

// upTo rounds an exact quotient up to a multiple of a step, and that up to the minor unit where the step is finer.
func upTo(a, over, step decimal.Decimal, places int32) decimal.Decimal {
	if step.IsZero() {
		step = decimal.New(1, -places)
	}
	whole, rest := a.QuoRem(over.Mul(step), 0)
	if rest.IsPositive() {
		whole = whole.Add(one)
	}
	return whole.Mul(step).RoundUp(places)
}

// Percent is a share of a whole in percent, to two places; zero of nothing.
func Percent(part, whole decimal.Decimal) decimal.Decimal {
	if whole.IsZero() {
		return decimal.Zero
	}
	return part.Mul(hundred).DivRound(whole, 2)
}

// Quartiles are the three that divide figures into four parts of equal number, by linear interpolation between the order
// statistics: definition 7 of Hyndman and Fan, Sample Quantiles in Statistical Packages, The American Statistician 50 (1996).
// ok is false where there is no figure.
func Quartiles(figures []decimal.Decimal) (q [3]decimal.Decimal, ok bool) {
	sorted := slices.SortedFunc(slices.Values(figures), decimal.Decimal.Cmp)
	if len(sorted) == 0 {
		return q, false
	}
	for k := range q {
		at := (len(sorted) - 1) * (k + 1) // in quarters of a place
		low := sorted[at/4]
		q[k] = low
		if part := int64(at % 4); part > 0 {
			q[k] = low.Add(sorted[at/4+1].Sub(low).Mul(decimal.New(part*25, -2)))
		}
	}
	return q, true
}

// Below counts the figures that are less than a price.
func Below(price decimal.Decimal, figures []decimal.Decimal) int {
	n := 0
	for _, f := range figures {
		if f.LessThan(price) {
			n++
		}
	}
	return n
}
