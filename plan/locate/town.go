package locate

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/say"
)

var (
	zipAlone = regexp.MustCompile(`^([0-9]{5})(?:-[0-9]{4})?$`)
	zipLast  = regexp.MustCompile(`^(.*\pL.*?)[, ]+([0-9]{5})(?:-[0-9]{4})?` +
		`(?:[, ]+(?i:USA?|U\.S\.A?\.?|United States(?: of America)?))?$`)
)

// postalCode reads a US postal code, alone or at the end of an address whose state or town agrees with it.
func postalCode(text string) ([]Found, error) {
	if m := zipAlone.FindStringSubmatch(text); m != nil {
		area, ok := assets.PostalArea(m[1])
		if !ok {
			return nil, say.Error("%s is no US postal code that is known here; check it, or write the town, "+
				"or latitude and longitude", m[1])
		}
		return []Found{inTown(area, "US postal code")}, nil
	}
	m := zipLast.FindStringSubmatch(text)
	if m == nil {
		return nil, nil
	}
	area, ok := assets.PostalArea(m[2])
	address := " " + assets.Fold(m[1]) + " "
	for _, word := range []string{area.Admin, divisions["US "+area.Admin].name, area.Name} {
		if ok && word != "" && strings.Contains(address, " "+assets.Fold(word)+" ") {
			return []Found{inTown(area, "US postal code")}, nil
		}
	}
	return nil, nil // five digits of another country, or a house number
}

func inTown(t assets.Town, how string) Found {
	return Found{Position: plan.Position{Lat: t.Lat, Lon: t.Lon}, Name: say.Plain(fullName(t)), How: how}
}

// town reads the name of a town, perhaps with its state and country, or an address that ends so.
func town(text string) ([]Found, error) {
	var parts []string
	for part := range strings.SplitSeq(text, ",") {
		if part = assets.Fold(part); part != "" {
			parts = append(parts, part)
		}
	}
	if len(parts) == 0 {
		return nil, nil
	}
	if towns := lookUp(parts); len(towns) > 0 {
		return ranked(towns, "town"), nil
	}
	if address, ok := afterStreet(parts); ok {
		if towns := lookUp(address); len(towns) > 0 {
			return ranked(towns, "town of the address"), nil
		}
	}
	return nil, unknown(text, parts)
}

// afterStreet drops the parts of an address up to the last with a house number, and postal codes from what is left.
func afterStreet(parts []string) ([]string, bool) {
	hasDigit := func(s string) bool { return strings.ContainsFunc(s, unicode.IsDigit) }
	var out []string
	for i, part := range parts {
		words := slices.DeleteFunc(strings.Fields(part), hasDigit)
		if i == 0 && len(parts) > 1 && hasDigit(part) || len(words) == 0 {
			continue
		}
		out = append(out, strings.Join(words, " "))
	}
	return out, len(out) > 0 && !slices.Equal(out, parts)
}

// a match is a town that bears the wanted name, and whether that is its own.
type match struct {
	assets.Town
	own bool
}

// lookUp finds the towns named by the first part that lie in all the others. Without a comma, the last words of the name may
// be the state or the country: "bend oregon".
func lookUp(parts []string) []match {
	words := strings.Fields(parts[0])
	for in := range min(len(words), 4) {
		name, tail := words[:len(words)-in], words[len(words)-in:]
		where := parts[1:]
		if in > 0 {
			where = append([]string{strings.Join(tail, " ")}, where...)
		}
		if towns := named(strings.Join(name, " "), where); len(towns) > 0 {
			return towns
		}
	}
	return nil
}

func named(name string, where []string) []match {
	var out []match
	own, other := assets.TownsNamed(name)
	add := func(towns []assets.Town, isOwn bool) {
		for _, t := range towns {
			if !slices.ContainsFunc(where, func(w string) bool { return !isIn(t, w) }) {
				out = append(out, match{t, isOwn})
			}
		}
	}
	add(own, true)
	add(other, false)
	return out
}

// weight ranks towns by people, those called so only otherwise with a handicap: who writes Florence in English may
// mean the one in Italy, but who writes Bend means Bend.
func (m match) weight() int {
	if m.own {
		return m.Population
	}
	return m.Population / 50
}

// ranked brings the likeliest first and gives each a name that tells it from the others.
func ranked(towns []match, how string) []Found {
	slices.SortStableFunc(towns, func(a, b match) int { return cmp.Compare(b.weight(), a.weight()) })
	towns = towns[:min(len(towns), maxFound)]
	var out []Found
	for _, t := range towns {
		f := inTown(t.Town, how)
		if !t.own {
			f.How += ", by another name"
		}
		out = append(out, f)
	}
	tellApart(out, func(f Found) say.Text { return say.That("%s (near %s)", f.Name, nearestLarge(f.Position)) })
	tellApart(out, func(f Found) say.Text {
		return say.Join(" ", f.Name, say.Plain(fmt.Sprintf("(%.2f, %.2f)", f.Position.Lat, f.Position.Lon)))
	})
	return out
}

// tellApart gives fuller names to those whose name comes more than once.
func tellApart(found []Found, fuller func(Found) say.Text) {
	count := map[string]int{}
	for _, f := range found {
		count[f.Name.String()]++
	}
	for i, f := range found {
		if count[f.Name.String()] > 1 {
			found[i].Name = fuller(f)
		}
	}
}

const large = 50000 // inhabitants of a town that others are told by

var largeTowns = sync.OnceValue(func() []assets.Town {
	var out []assets.Town
	for t := range assets.TownsStarting("") {
		if t.Population >= large {
			out = append(out, t)
		}
	}
	return out
})

// nearestLarge names the nearest large town that is not the place itself.
func nearestLarge(p plan.Position) string {
	best, name := math.Inf(1), ""
	shrink := math.Cos(p.Lat * math.Pi / 180) // of a degree of longitude, beside one of latitude
	for _, t := range largeTowns() {
		dLat, dLon := t.Lat-p.Lat, math.Remainder(t.Lon-p.Lon, 360)*shrink
		if d := dLat*dLat + dLon*dLon; d > 0.001 && d < best { // 0.03 degrees, some 3 km
			best, name = d, t.Name
		}
	}
	return name
}

// unknown says what is not known, and what is: towns of that name elsewhere, or a name that is nearly so.
func unknown(text string, parts []string) error {
	advice := say.That("write a larger town nearby with its state or country, or latitude and longitude such as 44.05, -121.31")
	if elsewhere := ranked(named(parts[0], nil), ""); len(elsewhere) > 0 {
		var names []say.Text
		for _, f := range elsewhere[:min(len(elsewhere), 3)] {
			names = append(names, f.Name)
		}
		return say.Error("%q is not known here, but there is %s; %s", text, say.Join("; ", names...), advice)
	}
	if hint := plan.Suggest(parts[0], alike(parts[0])); !hint.IsZero() {
		return say.Error("no town %q is known here%s If not, %s", text, hint, advice)
	}
	return say.Error("no town %q is known here; %s", text, advice)
}

// alike are the names of towns that start with the same three letters, large towns first.
func alike(key string) []string {
	letters := []rune(key)
	if len(letters) < 4 {
		return nil
	}
	var towns []assets.Town
	for t := range assets.TownsStarting(string(letters[:3])) {
		towns = append(towns, t)
	}
	slices.SortStableFunc(towns, func(a, b assets.Town) int { return cmp.Compare(b.Population, a.Population) })
	var names []string
	for _, t := range towns {
		names = append(names, t.Name)
	}
	return names
}
