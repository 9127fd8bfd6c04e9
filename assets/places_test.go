package assets

import (
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestFold(t *testing.T) {
	for _, c := range []struct{ name, key string }{
		{"Lüneburg", "luneburg"},
		{"LÜNEBURG", "luneburg"},
		{"Łódź", "lodz"},
		{"Århus", "arhus"},
		{"Tromsø", "tromso"},
		{"Weißwasser/Oberlausitz", "weisswasser oberlausitz"},
		{"Coeur d'Alene", "coeur dalene"},
		{"Coeur d’Alene", "coeur dalene"},
		{"St. Paul", "saint paul"},
		{"Saint Paul", "saint paul"},
		{"Winston-Salem", "winston salem"},
		{"Hafnarfjörður", "hafnarfjordur"},
		{"Đà Nẵng", "da nang"},
		{"Αθήνα", "αθηνα"},
		{"İzmir", "izmir"},
		{" \t", ""},
		{"\xff", ""},
	} {
		if got := Fold(c.name); got != c.key {
			t.Errorf("Fold(%q) = %q, want %q", c.name, got, c.key)
		}
	}
}

func TestFoldTwiceIsFoldOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "name")
		if once := Fold(s); Fold(once) != once {
			t.Fatalf("Fold(%q) = %q, folded again %q", s, once, Fold(once))
		}
	})
}

// The tables are what lookups rest on: whole, in order, on the Earth.
func TestTablesAreSound(t *testing.T) {
	for name, table := range map[string]*table{"towns": towns(), "postal": postal()} {
		n := table.len()
		if len(table.names.starts) != n || len(table.region) != n || len(table.lat) != n || len(table.lon) != n {
			t.Fatalf("%s: columns of %d, %d, %d, %d and %d rows", name,
				len(table.names.starts), len(table.region), len(table.lat), len(table.lon), n)
		}
		if len(table.others.starts) != len(table.called) {
			t.Fatalf("%s: %d other names for %d towns", name, len(table.others.starts), len(table.called))
		}
		for i := range n {
			p := table.town(i)
			if p.Name == "" || !utf8.ValidString(p.Name) || len(p.Country) != 2 ||
				math.Abs(p.Lat) > 90 || math.Abs(p.Lon) > 180 || p.Population < 0 {
				t.Fatalf("%s: row %d is %+v", name, i, p)
			}
		}
	}
	last := ""
	for town := range TownsStarting("") {
		key := Fold(town.Name)
		if key < last {
			t.Fatalf("%q stands after %q", key, last)
		}
		last = key
	}
	if !slices.IsSorted(postal().numbers) {
		t.Error("postal codes are not in order")
	}
	for i := 1; i < len(towns().others.starts); i++ {
		if towns().others.at(i) < towns().others.at(i-1) {
			t.Fatalf("other name %d is out of order", i)
		}
	}
	if n := towns().len(); n < 130000 || n > 135233 {
		// GeoNames' readme: cities1000 holds about 130,000; the file read has 135,233 lines
		t.Errorf("%d towns", n)
	}
}

// Positions: the six places of the project's table of day events, whose positions come from outside GeoNames' file.
func TestTownsAreWhereTheyAre(t *testing.T) {
	for _, c := range []struct {
		name, country string
		lat, lon      float64
	}{
		{"Los Angeles", "US", 34.0522, -118.2437},
		{"Auckland", "NZ", -36.8485, 174.7633},
		{"Reykjavik", "IS", 64.1466, -21.9426},
		{"Quito", "EC", -0.1807, -78.4678},
		{"Longyearbyen", "SJ", 78.2232, 15.6267},
		{"Kathmandu", "NP", 27.7172, 85.3240},
	} {
		own, _ := TownsNamed(c.name)
		i := slices.IndexFunc(own, func(p Town) bool {
			return p.Country == c.country && math.Abs(p.Lat-c.lat) < 0.1 && math.Abs(p.Lon-c.lon) < 0.1
		})
		if i < 0 {
			t.Errorf("%s, %s is not near %g, %g: %+v", c.name, c.country, c.lat, c.lon, own)
		}
	}
}

// Names in other languages: general knowledge.
func TestTownsAreKnownByOtherNames(t *testing.T) {
	for name, own := range map[string]string{"München": "Munich", "Wien": "Vienna", "Firenze": "Florence", "Cologne": "Köln",
		"Praha": "Prague", "Αθήνα": "Athens", "Москва": "Moscow", "Lueneburg": "Lüneburg"} {
		_, other := TownsNamed(name)
		if !slices.ContainsFunc(other, func(p Town) bool { return p.Name == own }) {
			t.Errorf("%s does not lead to %s: %+v", name, own, other)
		}
	}
}

// Positions: internal points of the US Census Bureau's 2022 gazetteer of ZIP code tabulation areas (00601, 10020), and
// another public list (99501, 90057, 94108); towns and states are general knowledge.
func TestPostalAreas(t *testing.T) {
	for _, c := range []struct {
		code, town, state string
		lat, lon          float64
	}{
		{"00601", "Adjuntas", "PR", 18.180555, -66.749961},
		{"10020", "New York", "NY", 40.759174, -73.980715},
		{"99501", "Anchorage", "AK", 61.218982, -149.860062},
		{"90057", "Los Angeles", "CA", 34.061918, -118.277939},
		{"94108", "San Francisco", "CA", 37.791998, -122.408653},
	} {
		p, ok := PostalArea(c.code)
		if !ok || p.Name != c.town || p.Admin != c.state || p.Country != "US" {
			t.Errorf("%s is %+v, want %s, %s", c.code, p, c.town, c.state)
		}
		if math.Abs(p.Lat-c.lat) > 0.1 || math.Abs(p.Lon-c.lon) > 0.1 {
			t.Errorf("%s lies at %g, %g, want %g, %g", c.code, p.Lat, p.Lon, c.lat, c.lon)
		}
	}
	for _, code := range []string{"", "9770", "977011", "00000", "09001", "9770a", "-9770", "+9770"} { // 09001 is a military code
		if p, ok := PostalArea(code); ok {
			t.Errorf("PostalArea(%q) = %+v", code, p)
		}
	}
}

func TestTownsStarting(t *testing.T) {
	n := 0
	for p := range TownsStarting("Lüneb") {
		n++
		if !strings.HasPrefix(Fold(p.Name), "luneb") {
			t.Errorf("%q does not start so", p.Name)
		}
	}
	if n == 0 {
		t.Error("no town starts with Lüneb")
	}
	for range TownsStarting("zzzzzz") {
		t.Error("a town starts with zzzzzz")
	}
}

func TestManyMayLookUpAtOnce(t *testing.T) {
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if own, _ := TownsNamed("Bend"); len(own) == 0 {
				t.Error("Bend is not found")
			}
			if _, ok := PostalArea("97701"); !ok {
				t.Error("97701 is not found")
			}
		})
	}
	wg.Wait()
}

func BenchmarkUnpackTowns(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		unpack(townsGz)
	}
}

func BenchmarkUnpackPostal(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		unpack(postalGz)
	}
}

func BenchmarkTownsNamed(b *testing.B) {
	towns()
	for b.Loop() {
		TownsNamed("San Antonio")
	}
}
