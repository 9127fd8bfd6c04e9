package chance

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// near reports whether two figures agree to one part in a thousand million, or as much of 1 near 0.
func near(got, want float64) bool { return math.Abs(got-want) <= 1e-9*max(1, math.Abs(want)) }

// Source: the closed forms of the triangular distribution, worked by hand: mean (a+b+c)/3, variance (a²+b²+c²-ab-ac-bc)/18, and the
// quantile a + sqrt(u (b-a)(c-a)) up to the mode c, b - sqrt((1-u)(b-a)(b-c)) above it. The first two: Kotz and van Dorp,
// Beyond Beta, chapter 1, from memory; the quantile also the pseudo-code of OpenModelica's DESLib, Variates.Continuous.Triangular.
func TestTriangle(t *testing.T) {
	for _, c := range []struct {
		name           string
		r              Range
		mean, variance float64
		u, quantile    float64
	}{
		{"even", Range{0, 1, 2}, 1, 1.0 / 6, 0.5, 1},
		{"even, upper part", Range{0, 1, 2}, 1, 1.0 / 6, 0.875, 1.5}, // 2 - sqrt(0.125 * 2 * 1)
		{"DESLib's example, at the mode", Range{1, 3, 6}, 10.0 / 3, (1 + 9 + 36 - 3 - 6 - 18) / 18.0, 0.4, 3},
		{"8 of 10", Range{1, 3, 6}, 10.0 / 3, 19.0 / 18, 0.8, 6 - math.Sqrt(3)}, // 6 - sqrt(0.2 * 5 * 3)
		{"rising only", Range{0, 1, 1}, 2.0 / 3, 1.0 / 18, 0.25, 0.5},           // right-angled: the square root of u
		{"falling only", Range{0, 0, 1}, 1.0 / 3, 1.0 / 18, 0.75, 0.5},          // 1 - the square root of 1-u
		{"known", Range{7, 7, 7}, 7, 0, 0.3, 7},
		{"large and close", Range{1e12, 1e12 + 1, 1e12 + 2}, 1e12 + 1, 1.0 / 6, 0.5, 1e12 + 1},
		{"nothing", Range{}, 0, 0, 1, 0},
	} {
		if got := c.r.Mean(); !near(got, c.mean) {
			t.Errorf("%s: mean %v, want %v", c.name, got, c.mean)
		}
		if got := c.r.Variance(); !near(got, c.variance) {
			t.Errorf("%s: variance %v, want %v", c.name, got, c.variance)
		}
		if got := c.r.Quantile(c.u); !near(got, c.quantile) {
			t.Errorf("%s: quantile(%v) is %v, want %v", c.name, c.u, got, c.quantile)
		}
	}
}

// Refusals are the project's own wording; no published source.
func TestRangesRefused(t *testing.T) {
	for _, c := range []struct {
		r    Range
		want string // "" means taken
	}{
		{Range{1, 2, 3}, ""},
		{Range{2, 2, 2}, ""},
		{Range{0, 0, 0}, ""},
		{Range{math.NaN(), 2, 3}, "low figure is not a number"},
		{Range{1, math.NaN(), 3}, "likely figure is not a number"},
		{Range{1, 2, math.Inf(1)}, "high figure is not a number"},
		{Range{math.Inf(-1), 2, 3}, "low figure is not a number"},
		{Range{-1, 2, 3}, "low figure is -1; it cannot be less than 0"},
		{Range{1, 2, 2e15}, "more than can be counted"},
		{Range{3, 2, 4}, "the low figure 3 is above the likely one, 2"},
		{Range{1, 4.5, 4}, "the likely figure 4.5 is above the high one, 4"},
	} {
		err := c.r.Check()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%v: %v, want %q", c.r, err, c.want)
		}
	}
}

// ranges draws any range that Check takes.
func ranges(t *rapid.T) Range {
	least := rapid.SampledFrom([]float64{0, 1, 1e6, 1e14}).Draw(t, "least")
	side := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 10), rapid.Float64Range(0, 1e14))
	r := Range{Low: least + side.Draw(t, "low")}
	r.Likely = r.Low + side.Draw(t, "left")
	r.High = r.Likely + side.Draw(t, "right")
	return r
}

// Source: what any quantile function is by definition: it never falls, and ends at the ends.
func TestQuantileNeverFalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := ranges(t)
		if err := r.Check(); err != nil {
			t.Fatal(err)
		}
		top := (r.Likely - r.Low) / (r.High - r.Low) // where the two sides meet; no number if r is known
		if math.IsNaN(top) {
			top = 0.5
		}
		shares := rapid.OneOf(rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{top, math.Nextafter(top, 0), math.Nextafter(top, 1)}))
		u, v := shares.Draw(t, "u"), shares.Draw(t, "v")
		if u > v {
			u, v = v, u
		}
		if a, b := r.Quantile(u), r.Quantile(v); a > b {
			t.Fatalf("%v: quantile(%v) is %v, over quantile(%v), %v", r, u, a, v, b)
		}
		if r.Quantile(0) != r.Low || r.Quantile(1) != r.High || r.Quantile(-1) != r.Low || r.Quantile(2) != r.High {
			t.Fatalf("%v runs from %v to %v", r, r.Quantile(0), r.Quantile(1))
		}
		if m := r.Mean(); m < r.Low || m > r.High || r.Variance() < 0 {
			t.Fatalf("%v: mean %v, variance %v", r, m, r.Variance())
		}
	})
}
