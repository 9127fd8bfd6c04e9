package locate

import (
	"math"
	"strings"
	"testing"
)

// Positions of the first six: the table of places in the project's reference values (from outside GeoNames). The others are
// rounded by hand from general knowledge.
func TestTowns(t *testing.T) {
	for _, c := range []struct {
		text     string
		lat, lon float64
		name     string
	}{
		{"Los Angeles", 34.0522, -118.2437, "Los Angeles, California, US"},
		{"auckland", -36.8485, 174.7633, "Auckland, New Zealand"},
		{"Reykjavik", 64.1466, -21.9426, "Reykjavík, Iceland"},
		{"QUITO", -0.1807, -78.4678, "Quito, Ecuador"},
		{"Longyearbyen", 78.2232, 15.6267, "Longyearbyen, Svalbard & Jan Mayen"},
		{"Kathmandu, Nepal", 27.7172, 85.3240, "Kathmandu, Nepal"},
		{"Bend", 44.06, -121.31, "Bend, Oregon, US"},
		{"bend, or", 44.06, -121.31, "Bend, Oregon, US"},
		{"Bend OR", 44.06, -121.31, "Bend, Oregon, US"},
		{"Bend, Oregon, USA", 44.06, -121.31, "Bend, Oregon, US"},
		{"Lüneburg", 53.25, 10.41, "Lüneburg, Germany"},
		{"luneburg", 53.25, 10.41, "Lüneburg, Germany"},
		{"Lueneburg, Deutschland", 53.25, 10.41, "Lüneburg, Germany"},
		{"Paris", 48.86, 2.35, "Paris, France"},
		{"Paris, FR", 48.86, 2.35, "Paris, France"},
		{"Paris, TX", 33.66, -95.56, "Paris, Texas, US"},
		{"paris texas", 33.66, -95.56, "Paris, Texas, US"},
		{"London", 51.51, -0.13, "London, England, UK"},
		{"London, Ontario", 42.98, -81.25, "London, Ontario, Canada"},
		{"London, ON", 42.98, -81.25, "London, Ontario, Canada"},
		{"St Paul MN", 44.95, -93.09, "Saint Paul, Minnesota, US"},
		{"Saint Paul, Minnesota", 44.95, -93.09, "Saint Paul, Minnesota, US"},
		{"Charleston West Virginia", 38.35, -81.63, "Charleston, West Virginia, US"},
		{"Melbourne, VIC", -37.81, 144.96, "Melbourne, Victoria, Australia"},
		{"Melbourne, FL", 28.08, -80.61, "Melbourne, Florida, US"},
		{"München", 48.14, 11.58, "Munich, Germany"},
		{"Florence", 43.77, 11.25, "Florence, Italy"},
		{"O Grove", 42.49, -8.86, "O Grove, Spain"},
		{"12 Rue Neuve, 75001 Paris, France", 48.86, 2.35, "Paris, France"},
		{"Am Markt 1, 21335 Lüneburg", 53.25, 10.41, "Lüneburg, Germany"},
	} {
		found, err := Parse(c.text)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
			continue
		}
		p := found[0]
		if p.Name.String() != c.name || math.Abs(p.Position.Lat-c.lat) > 0.1 || math.Abs(p.Position.Lon-c.lon) > 0.1 {
			t.Errorf("Parse(%q) = %+v, want %s at %g, %g", c.text, p, c.name, c.lat, c.lon)
		}
	}
}

// ZIP codes: towns and states are general knowledge.
func TestPostalCodes(t *testing.T) {
	for text, name := range map[string]string{
		"97701": "Bend, Oregon, US", "97701-1234": "Bend, Oregon, US", " 90210 ": "Beverly Hills, California, US",
		"123 Main St, Bend, OR 97701": "Bend, Oregon, US", "123 Main St, Bend, Oregon 97701-1234, USA": "Bend, Oregon, US",
		"bend 97701": "Bend, Oregon, US", "00901": "San Juan, Puerto Rico, US",
	} {
		found, err := Parse(text)
		if err != nil || len(found) != 1 || found[0].Name.String() != name || found[0].How != "US postal code" {
			t.Errorf("Parse(%q) = %+v, %v; want %s", text, found, err, name)
		}
	}
}

// Five digits after a French town are not those of a town in Texas.
func TestForeignPostalCodeIsNoZIP(t *testing.T) {
	found, err := Parse("Paris 75001")
	if err != nil || found[0].Name.String() != "Paris, France" {
		t.Errorf("got %+v, %v", found, err)
	}
}

func TestTownsOfOneNameAreRankedAndToldApart(t *testing.T) {
	for _, text := range []string{"Springfield", "San Antonio", "Neustadt", "Paris", "Richmond"} {
		found, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if len(found) < 5 || len(found) > maxFound {
			t.Errorf("%s: %d towns", text, len(found))
		}
		seen := map[string]bool{}
		for _, p := range found {
			if seen[p.Name.String()] {
				t.Errorf("%s: two are called %s", text, p.Name)
			}
			seen[p.Name.String()] = true
		}
	}
	found, err := Parse("Neustadt, Germany") // several in one country: told apart by a larger town
	if err != nil || !strings.Contains(found[0].Name.String(), "(near ") {
		t.Errorf("got %+v, %v", found, err)
	}
}

func TestOtherNamesSayThatTheyAre(t *testing.T) {
	found, err := Parse("Cologne, Germany")
	if err != nil || found[0].Name.String() != "Köln, Germany" || found[0].How != "town, by another name" {
		t.Errorf("got %+v, %v", found, err)
	}
}

func TestShortPlusCodeNearATown(t *testing.T) {
	found, err := Parse("3M5P+7J Bend, Oregon") // 84PW is the cell of 44..45, -122..-121
	if err != nil || found[0].How != "plus code in a town" {
		t.Fatalf("got %+v, %v", found, err)
	}
	want, err := decodePlus("84PW3M5P+7J")
	if err != nil {
		t.Fatal(err)
	}
	if p := found[0].Position; p != want.middle() {
		t.Errorf("got %v, want %v", p, want.middle())
	}
}
