package locate

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

// The grammar of RFC 5870, section 3.3. Schemes and names of parameters are read without regard to case.
var (
	geoNumber    = `-?[0-9]+(?:\.[0-9]+)?`
	geoPath      = regexp.MustCompile(`^(` + geoNumber + `),(` + geoNumber + `)(?:,` + geoNumber + `)?$`)
	geoName      = regexp.MustCompile(`^[A-Za-z0-9-]+$`)
	geoUncertain = regexp.MustCompile(`^[0-9]+(?:\.[0-9]+)?$`)
	geoValue     = regexp.MustCompile(`^(?:[A-Za-z0-9\-_.!~*'()\[\]:&+$]|%[0-9A-Fa-f]{2})+$`)
)

// geoURI reads an address of RFC 5870: "geo:48.2010,16.3695,183;crs=wgs84;u=40". Altitude, uncertainty and parameters of
// other makers are checked and dropped. At a pole the longitude becomes 0 (section 3.4.2).
func geoURI(text string) ([]Found, error) {
	if len(text) < 4 || !strings.EqualFold(text[:4], "geo:") {
		return nil, nil
	}
	if path, query, ok := strings.Cut(text[4:], "?"); ok { // not in the RFC, but phones share it: geo:0,0?q=44.05,-121.31(Home)
		if found := inQuery(query); len(found) > 0 {
			return onEarth(found)
		}
		text = "geo:" + path
	}
	parts := strings.Split(text[4:], ";")
	figures := geoPath.FindStringSubmatch(parts[0])
	if figures == nil {
		return nil, say.Error("%q is not a geo address; it looks like geo:44.05,-121.31", text)
	}
	if err := geoParameters(parts[1:]); err != nil {
		return nil, err
	}
	lat, _ := strconv.ParseFloat(figures[1], 64) // too large a number becomes infinite, and is refused below
	lon, _ := strconv.ParseFloat(figures[2], 64)
	found, err := position(lat, lon, "geo address")
	if err == nil && math.Abs(lat) == 90 {
		found[0].Position.Lon = 0
	}
	return found, err
}

// geoParameters checks the part after the coordinates: crs, then u, then any others.
func geoParameters(parameters []string) error {
	for i, p := range parameters {
		name, value, valued := strings.Cut(p, "=")
		if !geoName.MatchString(name) || valued && !geoValue.MatchString(value) {
			return say.Error("%q in the geo address can't be read; leave out everything from the first semicolon on", p)
		}
		switch strings.ToLower(name) {
		case "crs":
			if i != 0 {
				return say.Error("%q must be the first parameter of a geo address", p)
			}
			if !strings.EqualFold(value, "wgs84") {
				return say.Error("the geo address counts in %q; only WGS 84, as phones and maps give it, is understood", value)
			}
		case "u":
			if first := i == 0 || i == 1 && isCRS(parameters[0]); !first {
				return say.Error("%q must come before the other parameters of a geo address, and once", p)
			}
			if !geoUncertain.MatchString(value) {
				return say.Error("%q in the geo address must be a number of metres", p)
			}
		}
	}
	return nil
}

func isCRS(parameter string) bool {
	name, _, _ := strings.Cut(parameter, "=")
	return strings.EqualFold(name, "crs")
}
