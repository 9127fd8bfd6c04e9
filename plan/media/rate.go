package media

import (
	"math/big"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

// Rate is a number of frames a second as a fraction, for 23.976 is 24000/1001 and no decimal. The zero Rate means "not said".
// Rates from ParseRate are in lowest terms and compare with ==.
type Rate struct {
	Num, Den int64
}

// fastest is more frames a second than any camera on a house shoot makes.
const fastest = 1000

// ParseRate reads whole rates ("24", "25", "120"), fractions ("24000/1001"), and the decimals that are written for whole
// rates slowed by 1000/1001 since colour television ("23.976", "29.97", "59.94"). It takes a unit behind: "24 fps".
func ParseRate(text string) (Rate, error) {
	t := strings.TrimSpace(text)
	for _, unit := range []string{"fps", "frames a second", "frames per second"} {
		if rest, found := strings.CutSuffix(strings.ToLower(t), unit); found {
			t = strings.TrimSpace(rest)
			break
		}
	}
	if whole, places, found := strings.Cut(t, "."); found && places != "" && strings.Trim(places, "0") == "" {
		t = whole // "25.00"
	}
	if num, den, found := strings.Cut(t, "/"); found {
		n, err1 := strconv.ParseUint(num, 10, 31)
		d, err2 := strconv.ParseUint(den, 10, 31)
		if err1 == nil && err2 == nil && d > 0 {
			return checked(text, big.NewRat(int64(n), int64(d)))
		}
	} else if n, err := strconv.ParseUint(t, 10, 31); err == nil {
		return checked(text, big.NewRat(int64(n), 1))
	} else if r, found := slowed(t); found {
		return r, nil
	}
	return Rate{}, say.Error("%q is not a number of frames a second; write 24, 25, 23.976 or 24000/1001", text)
}

// slowed reads a decimal of two or more places that is what a whole rate times 1000/1001 rounds or breaks off to: "23.976", "23.98".
func slowed(t string) (Rate, bool) {
	_, places, found := strings.Cut(t, ".")
	v, err := strconv.ParseFloat(t, 64)
	if !found || err != nil || len(places) < 2 || len(places) > 9 || !(v > 1 && v < fastest) || strings.ContainsAny(t, "eE_+xX") {
		return Rate{}, false
	}
	r := rate(big.NewRat((int64(v)+1)*1000, 1001))
	written := strconv.FormatFloat(v, 'f', len(places), 64)
	decimals := r.rat().FloatString(12)
	if written == r.rat().FloatString(len(places)) || strings.HasPrefix(decimals, written) {
		return r, true
	}
	return Rate{}, false
}

func checked(text string, r *big.Rat) (Rate, error) {
	if r.Cmp(big.NewRat(1, 1)) < 0 || r.Cmp(big.NewRat(fastest, 1)) > 0 {
		return Rate{}, say.Error("%q: the frames a second must be 1 to %d", text, fastest)
	}
	return rate(r), nil
}

func rate(r *big.Rat) Rate { return Rate{r.Num().Int64(), r.Denom().Int64()} }

func (r Rate) rat() *big.Rat { return big.NewRat(r.Num, r.Den) }

// check says in words what is wrong with the rate, or nil.
func (r Rate) check() error {
	if r == (Rate{}) {
		return say.Error("say how many frames a second")
	}
	if r.Den < 1 || r.Num < r.Den || r.Num/r.Den > fastest {
		return say.Error("the frames a second are %d/%d; they must be 1 to %d", r.Num, r.Den, fastest)
	}
	return nil
}

// String prints it as people write it, which ParseRate reads back: "24", "23.976", "59.94", "25/2"; nothing for the zero Rate.
func (r Rate) String() string {
	if r.Den == 0 {
		return ""
	}
	text := strings.TrimRight(r.rat().FloatString(3), "0")
	if same, found := slowed(text); found && same == r {
		return text
	}
	return r.rat().RatString()
}

// In is String with the marks of a tongue.
func (r Rate) In(tongue say.Tongue) string { return tongue.Number(r.String()) }

// Frames is how many frames a stretch of time has, exactly: an hour at 23.976 has a broken number of them.
func (r Rate) Frames(s Seconds) (*big.Rat, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	return new(big.Rat).Mul(r.rat(), big.NewRat(int64(s), 1)), nil
}

// Slower is how many times slower than life a shot recorded at r plays at the rate played: 5 for 120 at 24.
func (r Rate) Slower(played Rate) (*big.Rat, error) {
	for _, each := range []Rate{r, played} {
		if err := each.check(); err != nil {
			return nil, err
		}
	}
	slower := new(big.Rat).Quo(r.rat(), played.rat())
	if slower.Cmp(big.NewRat(1, 1)) < 0 {
		return nil, say.Error("recorded at %s frames a second and played at %s it runs faster than life; only slow motion is reckoned",
			r, played)
	}
	return slower, nil
}
