// Package locate turns what a person types or pastes into a position, and a position into a time zone, without a network.
//
// Parse reads decimal degrees, degrees with minutes and seconds, ISO 6709, geo: addresses (RFC 5870), plus codes (Open Location
// Code), map links that carry a position, US postal codes, and the names of towns. Zone names the time zone.
//
// Traps of the field, once and for all:
//   - latitude comes first, as people and ISO 6709 write it. GeoJSON (RFC 7946) and some map services put longitude
//     first; that can't be told from the figures, so it is not guessed, only hinted at when the figures leave the Earth;
//   - a comma may divide two figures or be a decimal mark. What can be read both ways is refused;
//   - O is east in German and west in Spanish and French. It is refused;
//   - a position read from a town or a postal code is a middle point, some kilometres from a house. That is good enough
//     for the sun (a tenth of a degree is half a minute) and the zone, but not for directions.
//
// All functions may be called at once from many goroutines. The first look-up of a town unpacks a table (about 50 ms), the
// first Zone another (about 0.6 s, 30 MB kept); so call them off the window's thread.
//
// Invariants: imports assets and plan, opens no file, uses no network, never panics on a text.
package locate

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Found is a place that a text may mean.
type Found struct {
	Position plan.Position
	Name     say.Text // "Bend, Oregon, US", or nothing where the text was a position
	How      string   // what the text was read as, for those who look into it: "decimal degrees", "town"
}

const (
	maxText  = 4000 // bytes; a pasted link can be long
	maxFound = 20   // towns of one name
)

// A reader reads one way of writing. It answers neither found places nor an error when the text is not written its way.
type reader func(text string) ([]Found, error)

var readers = []reader{geoURI, mapLink, iso6709, plusCode, postalCode, coordinates, town}

// Parse finds the places that the text may mean, the likeliest first: at least one, or an error that says what to do.
func Parse(text string) ([]Found, error) {
	if len(text) > maxText {
		return nil, say.Error("this is too long for a place; write a town, or latitude and longitude such as 44.05, -121.31")
	}
	if !utf8.ValidString(text) {
		return nil, say.Error("this is not readable text; type the place instead of pasting it")
	}
	text = tidy(text)
	if text == "" {
		return nil, say.Error("nothing is written; write a town, or latitude and longitude such as 44.05, -121.31")
	}
	for _, read := range readers {
		if found, err := read(text); len(found) > 0 || err != nil {
			return found, err
		}
	}
	return nil, say.Error("%q is no place that is known here; write a town with its state or country, such as Bend, Oregon, "+
		"or latitude and longitude such as 44.05, -121.31", text)
}

// tidy makes all spaces plain and single, takes out marks that can't be seen, and makes the minus sign a hyphen.
func tidy(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.IsControl(r):
			return ' '
		case unicode.Is(unicode.Cf, r): // byte order marks, direction marks, zero-width spaces
			return -1
		case r == '−' || r == '﹣' || r == '-':
			return '-'
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// position checks that the figures lie on the Earth, with a hint when they look swapped.
func position(lat, lon float64, how string) ([]Found, error) {
	lat, lon = lat+0, lon+0 // no negative zero
	p := plan.Position{Lat: lat, Lon: lon}
	switch {
	case p.Valid():
		return []Found{{Position: p, How: how}}, nil
	case plan.Position{Lat: lon, Lon: lat}.Valid():
		return nil, say.Error("%s can't be a latitude, which goes from -90 to 90; latitude comes first: is it %s, %s?",
			figure(lat), figure(lon), figure(lat))
	case math.Abs(lat) > 90:
		return nil, say.Error("%s can't be a latitude, which goes from -90 to 90", figure(lat))
	}
	return nil, say.Error("%s can't be a longitude, which goes from -180 to 180", figure(lon))
}

func figure(v float64) string { return fmt.Sprintf("%.8g", v) }
