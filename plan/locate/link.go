package locate

import (
	"net/url"
	"regexp"
	"strconv"
	"strings"

	"eavelight/plan/say"
)

const number = `([+-]?[0-9]{1,3}(?:\.[0-9]+)?)`

var (
	linkForm = regexp.MustCompile(`(?i)[a-z][a-z0-9+.-]*://\S+|^(?:[a-z0-9-]+\.)+[a-z]{2,}/\S*$`)
	pairForm = regexp.MustCompile(`^(?:loc:)?\s*` + number + `\s*[,~; ]\s*` + number + `(?:[^0-9.].*)?$`)

	// where links carry a position, the surest first: a place's own, then the middle of the map
	pinForm  = regexp.MustCompile(`!3d` + number + `!4d` + number)
	atForm   = regexp.MustCompile(`@` + number + `,` + number)
	mapForm  = regexp.MustCompile(`#map=[0-9.]+/` + number + `/` + number)
	pathForm = regexp.MustCompile(`/` + number + `,\s?` + number + `\b`)
)

// mapLink reads a link that carries a position in one of the ways that are common among maps. A link with several, as for
// a way from one place to another, gives them all.
func mapLink(text string) ([]Found, error) {
	if strings.Contains(strings.ToLower(text), "%3a%2f%2f") { // a link inside another, taken out
		text, _ = url.QueryUnescape(text)
	}
	text = linkForm.FindString(text) // phones share a link with words before it
	if text == "" {
		return nil, nil
	}
	plain := text
	if p, err := url.PathUnescape(text); err == nil {
		plain = p
	}
	if found := pairs(pinForm, plain); found != nil {
		return onEarth(found)
	}
	address, fragment, _ := strings.Cut(text, "#")
	_, query, _ := strings.Cut(address, "?")
	for _, q := range []string{query, fragment} {
		if found := inQuery(q); found != nil {
			return onEarth(found)
		}
	}
	for _, form := range []*regexp.Regexp{atForm, mapForm, pathForm} {
		if found := pairs(form, plain); found != nil {
			return onEarth(found)
		}
	}
	return nil, say.Error("this link carries no position; open it first, wait until the map is there, and copy the full link, " +
		"or copy latitude and longitude from the map")
}

// a pair is latitude and longitude as a link gives them, not yet checked.
type pair struct{ lat, lon float64 }

func pairs(form *regexp.Regexp, text string) []pair {
	var out []pair
	for _, m := range form.FindAllStringSubmatch(text, maxFound) {
		out = append(out, toPair(m[1], m[2]))
	}
	return out
}

func toPair(lat, lon string) pair {
	a, _ := strconv.ParseFloat(lat, 64) // the patterns let only numbers through
	o, _ := strconv.ParseFloat(lon, 64)
	return pair{a, o}
}

// inQuery looks into the named values of a link: two that make a position, or one that is a position.
func inQuery(query string) []pair {
	values, _ := url.ParseQuery(query) // what can be read of it
	for _, names := range [][2]string{{"mlat", "mlon"}, {"lat", "lon"}, {"lat", "lng"}, {"latitude", "longitude"}} {
		if m := pairForm.FindStringSubmatch(values.Get(names[0]) + "," + values.Get(names[1])); m != nil {
			return []pair{toPair(m[1], m[2])}
		}
	}
	for _, name := range []string{"q", "query", "destination", "daddr", "ll", "coordinate", "loc", "center", "cp"} {
		if m := pairForm.FindStringSubmatch(values.Get(name)); m != nil {
			return []pair{toPair(m[1], m[2])}
		}
	}
	return nil
}

// onEarth checks the pairs and leaves out repetitions.
func onEarth(pairs []pair) ([]Found, error) {
	var out []Found
	seen := map[pair]bool{}
	for _, p := range pairs {
		if seen[p] {
			continue
		}
		seen[p] = true
		found, err := position(p.lat, p.lon, "map link")
		if err != nil {
			return nil, err
		}
		out = append(out, found...)
	}
	return out, nil
}
