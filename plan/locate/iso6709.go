package locate

import (
	"regexp"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

// ISO 6709, Annex H: degrees, degrees and minutes, or degrees, minutes and seconds without any mark between; two figures
// of degrees in a latitude, three in a longitude; then perhaps a height, a reference system and a stroke.
var iso6709Form = regexp.MustCompile(`^([+-])([0-9]{2}|[0-9]{4}|[0-9]{6})(\.[0-9]+)?` +
	`([+-])([0-9]{3}|[0-9]{5}|[0-9]{7})(\.[0-9]+)?` +
	`(?:[+-][0-9]+(?:\.[0-9]+)?)?(?:CRS([^/]*))?(/?)$`)

// iso6709 reads "+27.5916+086.5640+8850CRSWGS_84/". The height is dropped.
func iso6709(text string) ([]Found, error) {
	m := iso6709Form.FindStringSubmatch(text)
	if m == nil {
		return nil, nil
	}
	crs := strings.NewReplacer("_", "", " ", "", "-", "").Replace(m[7])
	if crs != "" && !strings.EqualFold(crs, "WGS84") && crs != "EPSG:4326" {
		return nil, say.Error("%q counts in %q; only WGS 84, as phones and maps give it, is understood", text, m[7])
	}
	lat, err := packedAngle(m[1], m[2], m[3], 2)
	if err != nil {
		return nil, say.Error("%q: %v", text, err)
	}
	lon, err := packedAngle(m[4], m[5], m[6], 3)
	if err != nil {
		return nil, say.Error("%q: %v", text, err)
	}
	return position(lat, lon, "ISO 6709")
}

// packedAngle reads DD, DDMM or DDMMSS with that many figures of degrees and a fraction of the last unit.
func packedAngle(sign, digits, fraction string, degrees int) (float64, error) {
	parts := []string{digits[:degrees]}
	for rest := digits[degrees:]; rest != ""; rest = rest[2:] {
		parts = append(parts, rest[:2])
	}
	parts[len(parts)-1] += fraction
	var figures []float64
	for _, p := range parts {
		v, _ := strconv.ParseFloat(p, 64) // a few digits, or a long fraction: never wrong
		figures = append(figures, v)
	}
	return sexagesimal(figures, sign == "-")
}

// sexagesimal puts degrees, minutes and seconds together.
func sexagesimal(figures []float64, negative bool) (float64, error) {
	value, unit := 0.0, 1.0
	for i, f := range figures {
		if i > 0 && f >= 60 {
			return 0, say.Error("%s is too much; minutes and seconds stay below 60", figure(f))
		}
		value += f / unit
		unit *= 60
	}
	if negative {
		value = -value
	}
	return value, nil
}
