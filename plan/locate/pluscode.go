package locate

import (
	"math"
	"regexp"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Open Location Code, an open standard: pairs of digits to base 20, latitude first, each pair cutting the cell into 20 by 20;
// after ten digits, one digit cuts it into 4 columns by 5 rows.
const (
	codeDigits = "23456789CFGHJMPQRVWX"
	pairDigits = 10
	maxDigits  = 15
	latUnits   = 8000 * 5 * 5 * 5 * 5 * 5 // a degree of latitude, in the height of the smallest cell
	lonUnits   = 8000 * 4 * 4 * 4 * 4 * 4
)

var (
	fullCode  = regexp.MustCompile(`(?i)^([23456789CFGHJMPQRVWX]{2,8}0*)\+([23456789CFGHJMPQRVWX]*)$`)
	shortCode = regexp.MustCompile(`(?i)^((?:[23456789CFGHJMPQRVWX]{2}){1,3}\+[23456789CFGHJMPQRVWX]{2,7})(?:[, ]+(.*))?$`)
)

// plusCode reads "8FVC2222+22", or a shortened code and its town: "2222+22 Bend, Oregon".
func plusCode(text string) ([]Found, error) {
	if m := fullCode.FindStringSubmatch(text); m != nil && len(m[1]) == 8 {
		cell, err := decodePlus(text)
		if err != nil {
			return nil, err
		}
		mid := cell.middle()
		return position(mid.Lat, mid.Lon, "plus code")
	}
	m := shortCode.FindStringSubmatch(text)
	if m == nil {
		return nil, nil
	}
	if m[2] == "" {
		return nil, say.Error("%q is the short form of a plus code; write its town after it, as in %s Bend, Oregon", text, m[1])
	}
	near, err := town(m[2])
	if err != nil || len(near) == 0 {
		return nil, err
	}
	for i, n := range near {
		near[i].Position = recoverPlus(m[1], n.Position).middle()
		near[i].How = "plus code in a town"
	}
	return near, nil
}

// cell is the area of a code, in the smallest cell's units from the south pole and the date line.
type cell struct{ south, west, height, width int64 }

// middle is the cell's middle point.
func (c cell) middle() plan.Position {
	return plan.Position{
		Lat: min((float64(c.south)+float64(c.height)/2)/latUnits-90, 90),
		Lon: (float64(c.west)+float64(c.width)/2)/lonUnits - 180,
	}
}

// decodePlus reads a full code: eight digits before the plus sign, the last of them perhaps zeros in pairs.
func decodePlus(code string) (cell, error) {
	bad := say.Error("%q is not a whole plus code, such as 8FVC2222+22; copy it again", code)
	before, after, _ := strings.Cut(strings.ToUpper(code), "+")
	digits := strings.TrimRight(before, "0")
	if len(before) != 8 || len(digits)%2 != 0 || len(digits) < len(before) && after != "" || len(after) == 1 {
		return cell{}, bad
	}
	digits += after
	c := cell{height: 400 * latUnits, width: 400 * lonUnits}
	for i := 0; i < min(len(digits), maxDigits); i++ { // digits past the fifteenth say nothing a house would notice
		d := int64(strings.IndexByte(codeDigits, digits[i]))
		switch {
		case d < 0:
			return cell{}, bad
		case i >= pairDigits:
			c.height, c.width = c.height/5, c.width/4
			c.south, c.west = c.south+d/4*c.height, c.west+d%4*c.width
		case i%2 == 0:
			c.height /= 20
			c.south += d * c.height
		default:
			c.width /= 20
			c.west += d * c.width
		}
	}
	if c.south >= 180*latUnits || c.west >= 360*lonUnits {
		return cell{}, say.Error("the plus code %q lies off the Earth; check its first two digits", code)
	}
	return c, nil
}

// encodePlus writes the ten-digit code of a position, without its plus sign.
func encodePlus(p plan.Position) string {
	south := min(int64(math.Floor((p.Lat+90)*8000)), 180*8000-1)
	west := int64(math.Floor((p.Lon+180)*8000)) % (360 * 8000)
	code := make([]byte, pairDigits)
	for i := pairDigits - 2; i >= 0; i -= 2 {
		code[i], code[i+1] = codeDigits[south%20], codeDigits[west%20]
		south, west = south/20, west/20
	}
	return string(code)
}

// recoverPlus finds the cell of a short code that lies nearest to a position. The code has been checked.
func recoverPlus(short string, near plan.Position) cell {
	missing := 8 - strings.IndexByte(short, '+')
	c, _ := decodePlus(encodePlus(near)[:missing] + short)
	step := 400.0
	for range missing / 2 {
		step /= 20
	}
	mid := c.middle()
	c.south += shift(near.Lat-mid.Lat, step, latUnits)
	c.west += shift(math.Remainder(near.Lon-mid.Lon, 360), step, lonUnits)
	if c.south < 0 || c.south >= 180*latUnits { // the nearer one would lie beyond a pole
		c, _ = decodePlus(encodePlus(near)[:missing] + short)
	}
	const turn = 360 * lonUnits
	c.west = (c.west + turn) % turn
	return c
}

// shift is one step toward the wanted point if it lies more than half a step away.
func shift(away, step float64, units int64) int64 {
	switch {
	case away > step/2:
		return int64(step * float64(units))
	case away < -step/2:
		return -int64(step * float64(units))
	}
	return 0
}
