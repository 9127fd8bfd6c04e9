package media

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

// Bytes is an amount of data.
type Bytes int64

// Decimal steps, as capacities are sold.
const (
	KB Bytes = 1000
	MB       = 1000 * KB
	GB       = 1000 * MB
	TB       = 1000 * GB
)

// MaxBytes is the most that is reckoned with: a million terabytes.
const MaxBytes = 1_000_000 * TB

// String prints two places of the decimal unit that fits: "36 GB", "106.75 MB", "1.79 TB".
func (b Bytes) String() string {
	unit, name := KB, "kB"
	switch {
	case b < KB:
		return fmt.Sprintf("%d B", int64(b))
	case b >= TB-TB/200_000: // what would round to 1000 GB
		unit, name = TB, "TB"
	case b >= GB-GB/200_000:
		unit, name = GB, "GB"
	case b >= MB-MB/200_000:
		unit, name = MB, "MB"
	}
	return places(b, unit) + " " + name
}

// In is String with the marks of a tongue.
func (b Bytes) In(tongue say.Tongue) string { return tongue.Number(b.String()) }

// GiB prints the same in units of 2^30 bytes, which many file windows show as GB: "33.53 GiB".
func (b Bytes) GiB() string { return places(b, 1<<30) + " GiB" }

// places prints b in a unit with at most two places.
func places(b, unit Bytes) string {
	text := big.NewRat(int64(b), int64(unit)).FloatString(2)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// Seconds is a length of time in whole seconds.
type Seconds int64

// String prints hours, minutes and seconds, without those that are none: "24 min", "2 h 50 min 40 s".
func (s Seconds) String() string {
	var parts []string
	for _, p := range []struct {
		count Seconds
		unit  string
	}{{s / 3600, "h"}, {s / 60 % 60, "min"}, {s % 60, "s"}} {
		if p.count != 0 {
			parts = append(parts, fmt.Sprintf("%d %s", p.count, p.unit))
		}
	}
	if parts == nil {
		return "0 s"
	}
	return strings.Join(parts, " ")
}

// exact reads a typed figure, which must lie between low and high, as the fraction that its shortest decimal is.
func exact(name say.Text, v, low, high float64) (*big.Rat, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil, say.Error("%s is not a number", name)
	}
	if v < low || v > high {
		return nil, say.Error("%s is %s; it must be %s to %s", name, said(v), said(low), said(high))
	}
	if v != 0 && math.Abs(v) < 1e-9 {
		return nil, say.Error("%s is too small to reckon with", name)
	}
	r, _ := new(big.Rat).SetString(number(v)) // number writes plain decimals
	return r, nil
}

// counted checks a count.
func counted(name say.Text, v, low, high int) error {
	if v < low || v > high {
		return say.Error("%s is %d; it must be %d to %d", name, v, low, high)
	}
	return nil
}

// number writes a figure plainly: "12", "0.5".
func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// said is number in the reader's tongue.
func said(v float64) say.Text { return say.Number(number(v)) }

var errTooMuch = say.Error("that comes to more data than can be reckoned with; look for a figure that is far too large")

// up rounds up to a whole number, at most MaxBytes.
func up(r *big.Rat) (int64, error) {
	whole, rest := new(big.Int).DivMod(r.Num(), r.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		whole.Add(whole, big.NewInt(1))
	}
	if !whole.IsInt64() || whole.Int64() > int64(MaxBytes) {
		return 0, errTooMuch
	}
	return whole.Int64(), nil
}

// add adds amounts that are each at most MaxBytes.
func add(a, b Bytes) (Bytes, error) {
	if a+b > MaxBytes {
		return 0, errTooMuch
	}
	return a + b, nil
}

// times multiplies an amount.
func times(b Bytes, n int64) (Bytes, error) {
	if n != 0 && b > MaxBytes/Bytes(n) {
		return 0, errTooMuch
	}
	return b * Bytes(n), nil
}
