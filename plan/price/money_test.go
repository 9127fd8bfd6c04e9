package price

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func decs(s string) []decimal.Decimal {
	var out []decimal.Decimal
	for _, f := range strings.Fields(s) {
		out = append(out, dec(f))
	}
	return out
}

func words(ds []decimal.Decimal) string {
	var out []string
	for _, d := range ds {
		out = append(out, d.String())
	}
	return strings.Join(out, " ")
}

// TestSplit: the largest-remainder method. The first row is a textbook exercise of apportionment (42 seats); the second a
// lecture's percentages of 51, 18 and 11, which plain rounding makes 101; the others are arithmetic.
func TestSplit(t *testing.T) {
	for _, c := range []struct {
		total   string
		places  int32
		weights string
		want    string
	}{
		{"42", 0, "247000 185000 459000 400000 413000", "6 5 11 10 10"},
		{"100", 0, "51 18 11", "64 22 14"},
		{"100.00", 2, "1 1 1", "33.34 33.33 33.33"},
		{"0.05", 2, "1 1", "0.03 0.02"},
		{"10.00", 2, "1 1 1 1 1 1 1", "1.43 1.43 1.43 1.43 1.43 1.43 1.42"},
		{"1000", 0, "1 1 1", "334 333 333"},
		{"1.000", 3, "1 1 1", "0.334 0.333 0.333"},
		{"5.00", 2, "0 0", "5 0"},
		{"0", 2, "1 2", "0 0"},
	} {
		if got := words(Split(dec(c.total), c.places, decs(c.weights))); got != c.want {
			t.Errorf("%s among %s: %s, want %s", c.total, c.weights, got, c.want)
		}
	}
}

// TestSplitAddsUp: whatever the currency and the weights, the shares add up, and none is a unit or more off its quota.
func TestSplitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.Int32Range(0, 4).Draw(t, "places")
		total := decimal.New(rapid.Int64Range(0, 1e15).Draw(t, "total"), -places)
		var weights []decimal.Decimal
		sum := decimal.Zero
		for range rapid.IntRange(1, 12).Draw(t, "n") {
			w := decimal.New(rapid.Int64Range(0, 1e6).Draw(t, "w"), -2)
			weights, sum = append(weights, w), sum.Add(w)
		}
		got := decimal.Zero
		for i, share := range Split(total, places, weights) {
			got = got.Add(share)
			off := share.Mul(sum).Sub(total.Mul(weights[i])).Abs() // times the sum, so that it is exact
			if sum.IsPositive() && !off.LessThan(decimal.New(1, -places).Mul(sum)) {
				t.Fatalf("share %d of %s is %s", i, total, share)
			}
		}
		if !got.Equal(total) {
			t.Fatalf("the shares add up to %s, not %s", got, total)
		}
	})
}

// TestPlaces: ISO 4217, minor units; HUF has 2 there, though nobody pays them in cash.
func TestPlaces(t *testing.T) {
	for code, want := range map[string]int32{"JPY": 0, "KRW": 0, "CLP": 0, "ISK": 0, "USD": 2, "EUR": 2, "GBP": 2, "CHF": 2,
		"NOK": 2, "HUF": 2, "KWD": 3, "BHD": 3, "TND": 3, "CLF": 4} {
		if got := Places(code); got != want {
			t.Errorf("%s has %d decimals, want %d", code, got, want)
		}
	}
}

// TestQuartiles: the medians are those of any textbook; the quartiles of 1 to 4 and 1 to 9 by definition 7 of Hyndman and Fan
// (what R's quantile and NumPy's percentile give by default: 1.75 2.5 3.25, and 3 5 7).
func TestQuartiles(t *testing.T) {
	for in, want := range map[string]string{
		"1 3 3 6 7 8 9":     "3 6 7.5",
		"1 2 3 4 5 6 8 9":   "2.75 4.5 6.5",
		"4 1 3 2":           "1.75 2.5 3.25",
		"9 1 8 2 7 3 6 4 5": "3 5 7",
		"12":                "12 12 12",
	} {
		q, ok := Quartiles(decs(in))
		if got := words(q[:]); !ok || got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
	if _, ok := Quartiles(nil); ok {
		t.Error("quartiles of nothing")
	}
}

// TestUpTo: a price never falls below what covers its margin.
func TestUpTo(t *testing.T) {
	for _, c := range []struct {
		a, over, step string
		places        int32
		want          string
	}{
		{"10000", "60", "0", 2, "166.67"}, // cost 100 at a margin of 40 percent: 166.666...
		{"10000", "60", "50", 2, "200"},
		{"100", "1", "50", 2, "100"},
		{"100.01", "1", "5", 2, "105"},
		{"1", "3", "0", 0, "1"},
		{"0", "1", "100", 2, "0"},
	} {
		if got := upTo(dec(c.a), dec(c.over), dec(c.step), c.places); !got.Equal(dec(c.want)) {
			t.Errorf("%s/%s up to %s: %s, want %s", c.a, c.over, c.step, got, c.want)
		}
	}
}

// TestTaxRounding: sales tax of 8.25 percent, once on the sum or line by line; half away from zero. Arithmetic: 1.649175,
// 3 x 0.081675, and 0.245025.
func TestTaxRounding(t *testing.T) {
	if got := taxOn(dec("19.99"), dec("8.25"), 2); got.String() != "1.65" {
		t.Errorf("on 19.99: %s", got)
	}
	if got := taxOn(dec("2.97"), dec("8.25"), 2); got.String() != "0.25" {
		t.Errorf("on 2.97 at once: %s", got)
	}
	line := taxOn(dec("0.99"), dec("8.25"), 2)
	if got := line.Mul(dec("3")); got.String() != "0.24" {
		t.Errorf("line by line: %s", got)
	}
	if got := taxOn(dec("0.125"), dec("100"), 2); got.String() != "0.13" {
		t.Errorf("half: %s", got)
	}
}

// TestAmountIsGrouped: by threes from the point; common practice in English, no published source.
func TestAmountIsGrouped(t *testing.T) {
	for _, c := range []struct {
		places   int32
		in, want string
	}{{2, "0", "0.00"}, {2, "999.994", "999.99"}, {2, "1000", "1,000.00"}, {2, "-100", "-100.00"}, {2, "-1234.5", "-1,234.50"}, {0, "123456", "123,456"}, {0, "-123456", "-123,456"},
		{3, "1234567.8", "1,234,567.800"}, {4, "0.0001", "0.0001"}} {
		s := Sheet{Places: c.places}
		if got := s.Amount(dec(c.in)); got != c.want {
			t.Errorf("%s: %s, want %s", c.in, got, c.want)
		}
	}
}
