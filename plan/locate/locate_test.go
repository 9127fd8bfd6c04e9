package locate

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"eavelight/plan"
)

// A written is a text and the one position that it means.
type written struct {
	text     string
	lat, lon float64
}

// check parses each text and wants the one position, to a millionth of a degree (a hand's breadth).
func check(t *testing.T, cases []written, how string) {
	t.Helper()
	for _, c := range cases {
		found, err := Parse(c.text)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
			continue
		}
		p := found[0].Position
		if len(found) != 1 || math.Abs(p.Lat-c.lat) > 1e-6 || math.Abs(p.Lon-c.lon) > 1e-6 {
			t.Errorf("Parse(%q) = %+v, want %g, %g", c.text, found, c.lat, c.lon)
		}
		if how != "" && found[0].How != how {
			t.Errorf("Parse(%q) was read as %q, want %q", c.text, found[0].How, how)
		}
	}
}

// decimals are the writings of 44.05 N 121.31 W that the format of the task names.
var decimals = []written{
	{"44.05, -121.31", 44.05, -121.31},
	{"44.05,-121.31", 44.05, -121.31},
	{"44.05 -121.31", 44.05, -121.31},
	{"44.05 / -121.31", 44.05, -121.31},
	{"+44.05 -121.31", 44.05, -121.31},
	{"(44.05, -121.31)", 44.05, -121.31},
	{"44.05N 121.31W", 44.05, -121.31},
	{"44.05 n, 121.31 w", 44.05, -121.31},
	{"N44.05 W121.31", 44.05, -121.31},
	{"N 44.05° W 121.31°", 44.05, -121.31},
	{"44.05° North, 121.31° West", 44.05, -121.31},
	{"44.05° Nord 8.5° Ost", 44.05, 8.5},
	{"121.31W 44.05N", 44.05, -121.31},
	{"44.05N -121.31", 44.05, -121.31},
	{"44,05; -121,31", 44.05, -121.31},
	{"44,05 -121,31", 44.05, -121.31},
	{"44,05, -121,31", 44.05, -121.31},
	{"44,05,-121,31", 44.05, -121.31},
	{"44,05,121,31", 44.05, 121.31},
	{"44,05N 121,31W", 44.05, -121.31},
	{"44, -121", 44, -121},
	{"44,-121", 44, -121},
	{"44 -121", 44, -121},
	{"lat: 44.05, lon: -121.31", 44.05, -121.31},
	{"Longitude -121.31 Latitude 44.05", 44.05, -121.31},
	{"lat=44.05 lng=-121.31", 44.05, -121.31},
	{"44.05\u00a0\u2212121.31", 44.05, -121.31},      // a space that does not break, a real minus sign
	{"\ufeff44.05, \u200e-121.31\n", 44.05, -121.31}, // marks that can't be seen
	{"-0.0, -0.0", 0, 0},
	{"90, 180", 90, 180},
	{"-90 -180", -90, -180},
}

func TestDecimalDegrees(t *testing.T) { check(t, decimals, "decimal degrees") }

// sexagesimals: 40°26'46"N 79°58'56"W = 40.446111, -79.982222 is the worked example in ISO 6709's published test corpus (and
// 40°26.767' is its second form, to a thousandth of a minute); the rest are ways of writing it.
var sexagesimals = []written{
	{`40°26'46"N 79°58'56"W`, 40.446111, -79.982222},
	{`40° 26' 46" N, 79° 58' 56" W`, 40.446111, -79.982222},
	{"40°26′46″N 79°58′56″W", 40.446111, -79.982222},
	{"40°26’46”N 79°58’56”W", 40.446111, -79.982222},
	{"40°26‘46“N 79°58‘56“W", 40.446111, -79.982222},
	{"40°26'46''N 79°58'56''W", 40.446111, -79.982222},
	{"40°26′46′′N 79°58′56′′W", 40.446111, -79.982222},
	{"40º26'46\"N 79º58'56\"W", 40.446111, -79.982222}, // the sign for a masculine ordinal, as on Spanish keyboards
	{"40 26 46 N 79 58 56 W", 40.446111, -79.982222},
	{"N 40 26 46 W 79 58 56", 40.446111, -79.982222},
	{"40 26 46 -79 58 56", 40.446111, -79.982222},
	{"40 26 46,-79 58 56", 40.446111, -79.982222},
	{"40d26m46N 79d58m56W", 40.446111, -79.982222},
	{"40 deg 26 min 46 sec N 79 deg 58 min 56 sec W", 40.446111, -79.982222},
	{`-40°26'46" 79°58'56"`, -40.446111, 79.982222},
	{`40°26'46"S 79°58'56"E`, -40.446111, 79.982222},
	{"40° 26.767' N 79° 58.933' W", 40.446117, -79.982217},
	{"40° 26,767' N 79° 58,933' W", 40.446117, -79.982217},
	{"40 26.767 N 79 58.933 W", 40.446117, -79.982217},
	{"40 26.767, -79 58.933", 40.446117, -79.982217},
	{`0°0'1"S 0°0'1"W`, -0.000278, -0.000278},
	{`-0°0'1", -0°0'1"`, -0.000278, -0.000278}, // the sign of a zero counts
}

func TestDegreesAndMinutes(t *testing.T) { check(t, sexagesimals, "degrees and minutes") }

// iso6709s: the forms of ISO 6709 Annex H, from a published test corpus; the two +DDMM rows are worked out by hand.
var iso6709s = []written{
	{"+27.5916+086.5640+8850CRSWGS_84/", 27.5916, 86.5640},
	{"+1234.7-09854.1/", 12.578333, -98.901667},
	{"+48.8577+002.295", 48.8577, 2.295},
	{"+48.52+002.20/", 48.52, 2.20},
	{"+46+002/", 46, 2},
	{"+00-025/", 0, -25},
	{"+90+000/", 90, 0},
	{"-90+000+2800CRSWGS_84/", -90, 0},
	{"+4026-07958/", 40.433333, -79.966667},
	{"+402646-0795856/", 40.446111, -79.982222},
	{"+402646.00-0795856.00+300/", 40.446111, -79.982222},
}

func TestISO6709(t *testing.T) { check(t, iso6709s, "ISO 6709") }

// geoURIs: the examples of RFC 5870, sections 1, 6.1 to 6.4. At the pole the longitude is 0 (3.4.2), so that geo:90,-22.43 equals
// geo:90,46.
var geoURIs = []written{
	{"geo:13.4125,103.8667", 13.4125, 103.8667},
	{"geo:48.2010,16.3695,183", 48.2010, 16.3695},
	{"geo:48.198634,16.371648;crs=wgs84;u=40", 48.198634, 16.371648},
	{"geo:90,-22.43;crs=WGS84", 90, 0},
	{"geo:90,46", 90, 0},
	{"geo:-90,46", -90, 0},
	{"geo:66,30;u=6.500;FOo=this%2dthat", 66, 30},
	{"geo:66.0,30;u=6.5;foo=this-that", 66, 30},
	{"geo:70,20;foo=1.00;bar=white", 70, 20},
	{"geo:70,20;foo;bar=white", 70, 20},
	{"GEO:70,20;CRS=Wgs84;U=0", 70, 20},
	{"geo:0,-180", 0, -180},
}

func TestGeoURI(t *testing.T) { check(t, geoURIs, "geo address") }

// A query after a geo address is a custom of phones, not of the RFC: general knowledge.
func TestGeoURIWithQuery(t *testing.T) {
	check(t, []written{
		{"geo:0,0?q=44.05,-121.31", 44.05, -121.31},
		{"geo:0,0?q=44.05,-121.31(The%20House)", 44.05, -121.31},
		{"geo:44.05,-121.31?z=15", 44.05, -121.31},
	}, "")
}

var links = []written{ // the general patterns, on invented hosts
	{"https://maps.example/@44.05,-121.31,15z", 44.05, -121.31},
	{"https://maps.example/place/House/@44.1,-121.2,17z/data=!3m1!4b1!8m2!3d44.05!4d-121.31", 44.05, -121.31},
	{"https://maps.example/?q=44.05,-121.31", 44.05, -121.31},
	{"https://maps.example/?q=44.05%2C-121.31&z=12", 44.05, -121.31},
	{"https://maps.example/?q=44.05,+-121.31", 44.05, -121.31},
	{"https://maps.example/?q=loc:44.05,-121.31", 44.05, -121.31},
	{"https://maps.example/?ll=44.05,-121.31&q=House", 44.05, -121.31},
	{"https://maps.example/?cp=44.05~-121.31&lvl=16", 44.05, -121.31},
	{"https://maps.example/?mlat=44.05&mlon=-121.31#map=15/44.1/-121.2", 44.05, -121.31},
	{"https://maps.example/#map=15/44.05/-121.31", 44.05, -121.31},
	{"https://maps.example/#map=15.5/44.05/-121.31&layers=N", 44.05, -121.31},
	{"https://maps.example/view?lat=44.05&lng=-121.31", 44.05, -121.31},
	{"https://maps.example/#lat=44.05&lon=-121.31", 44.05, -121.31},
	{"https%3A%2F%2Fmaps.example%2F%4044.05%2C-121.31", 44.05, -121.31},
	{"maps.example/44.05,-121.31", 44.05, -121.31},
	{"Dropped pin https://maps.example/?q=44.05,-121.31", 44.05, -121.31},
}

func TestMapLink(t *testing.T) { check(t, links, "map link") }

func TestMapLinkWithSeveralPositions(t *testing.T) {
	found, err := Parse("https://maps.example/dir/44.05,-121.31/44.06,-121.32/44.05,-121.31/")
	from, to := plan.Position{Lat: 44.05, Lon: -121.31}, plan.Position{Lat: 44.06, Lon: -121.32}
	if err != nil || len(found) != 2 || found[0].Position != from || found[1].Position != to {
		t.Errorf("got %+v, %v; want both ends of the way", found, err)
	}
}

// refused texts, and a word of what the message must say so that the person knows what to do.
var refused = []struct{ text, says string }{
	{"", "write a town"},
	{"  \n", "write a town"},
	{"\xff\xfe", "type the place"},
	{strings.Repeat("44.05 ", 1000), "too long"},
	{"44.05", "two figures"},
	{"44.05N", "two figures"},
	{"44.05, -121.31, 1100", "two figures"},
	{"1 2 3 4 5", "two figures"},
	{"44,121", "decimal comma"},
	{"44.05N 8.5O", "write E or W"},
	{"44N 8O", "write E or W"},
	{`40°26'46"N 3°42'0"O`, "write E or W"},
	{"-121.31, 44.05", "is it 44.05, -121.31?"},

	{"95, 10", "is it 10, 95?"},
	{"95, 200", "-90 to 90"},
	{"10, 200", "-180 to 180"},
	{"44.05N 45.06N", "twice"},
	{"-44.05S 121.31E", "sign and a direction"},
	{`40°60'0"N 79°58'56"W`, "below 60"},
	{`40°26'61"N 79°58'56"W`, "below 60"},
	{`40.5°26'N 79°58'W`, "decimals"},
	{`40°-26'N 79°58'W`, "sign"},
	{`40'26"N 79'58"W`, "unexpected place"},
	{"lat 44.05E lon 121.31W", "direction of the other"},
	{"44.05, -121.31 or so", "only latitude and longitude"},
	{"+402661-0795856/", "below 60"},
	{"+95+000/", "-90 to 90"},
	{"+27.5916+086.5640+8850CRSNAD_27/", "WGS 84"},
	{"geo:94,0", "-90 to 90"}, // RFC 5870, 6.4: invalid
	{"geo:", "geo:44.05,-121.31"},
	{"geo:44.05", "geo:44.05,-121.31"},
	{"geo:+44.05,-121.31", "geo:44.05,-121.31"},
	{"geo:44.05,-121.31,1,2", "geo:44.05,-121.31"},
	{"geo:44.,-121.31", "geo:44.05,-121.31"},
	{"geo:44.05,-121.31;crs=nad27", "WGS 84"},
	{"geo:44.05,-121.31;u=5;crs=wgs84", "first parameter"},
	{"geo:44.05,-121.31;foo=1;u=5", "before the other"},
	{"geo:44.05,-121.31;u=5;u=6", "before the other"},
	{"geo:44.05,-121.31;u=-5", "metres"},
	{"geo:44.05,-121.31;foo=%zz", "semicolon"},
	{"geo:44.05,-121.31;foo=", "semicolon"},
	{"geo:44.05,-121.31;=1", "semicolon"},
	{"https://short.example/aBc12", "copy the full link"},
	{"https://maps.example/?q=Bend", "copy the full link"},
	{"https://maps.example/?q=144.05,-121.31", "-90 to 90"},
	{"8FWC2345+G", "plus code"},
	{"8FWC2300+G6", "plus code"},
	{"84900000+", "plus code"},
	{"X2222222+22", "off the Earth"},
	{"CWC8+R9", "write its town"},
	{"00000", "postal code"},
	{"Bend, Idaho", "Bend, Oregon"},
	{"Lunebrug", "Lüneburg"},
	{"Nowhere at All", "larger town nearby"},
	{",,,", "latitude and longitude"},
	{"?", "latitude and longitude"},
}

func TestRefusedWithAWayOut(t *testing.T) {
	for _, c := range refused {
		found, err := Parse(c.text)
		if err == nil {
			t.Errorf("Parse(%.80q) = %+v, want a refusal", c.text, found)
		} else if !strings.Contains(err.Error(), c.says) {
			t.Errorf("Parse(%.80q): %q does not say %q", c.text, err, c.says)
		}
	}
}

func anyPosition(t *rapid.T) plan.Position {
	return plan.Position{Lat: rapid.Float64Range(-90, 90).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")}
}

// What plan writes, Parse reads back, to the last figure written.
func TestReadsBackWhatPlanWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPosition(t)
		for text, step := range map[string]float64{p.String(): 1e-5, p.GeoURI(): 1e-6} {
			found, err := Parse(text)
			if err != nil {
				t.Fatalf("Parse(%q): %v", text, err)
			}
			got := found[0].Position
			pole := strings.HasPrefix(text, "geo:90,") || strings.HasPrefix(text, "geo:-90,") // the longitude there says nothing
			if math.Abs(got.Lat-p.Lat) > step || !pole && math.Abs(got.Lon-p.Lon) > step {
				t.Fatalf("%v, written %q, reads back as %v", p, text, got)
			}
		}
	})
}

// A position written in degrees, minutes and seconds reads back, whatever the marks.
func TestReadsBackDegreesAndMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPosition(t)
		marks := rapid.SampledFrom([][3]string{
			{"°", "'", `"`}, {"°", "′", "″"}, {"° ", "’ ", "” "}, {" ", " ", " "}, {"d", "m", ""},
		}).Draw(t, "marks")
		dms := func(v float64, plus, minus string) string {
			letter := plus
			if v < 0 {
				letter = minus
			}
			s := int(math.Round(math.Abs(v) * 3600 * 100)) // hundredths of a second
			return fmt.Sprintf("%d%s%d%s%d.%02d%s%s", s/360000, marks[0], s/6000%60, marks[1], s/100%60, s%100, marks[2], letter)
		}
		text := dms(p.Lat, "N", "S") + " " + dms(p.Lon, "E", "W")
		found, err := Parse(text)
		if err != nil {
			t.Fatalf("Parse(%q): %v", text, err)
		}
		if got := found[0].Position; math.Abs(got.Lat-p.Lat) > 2e-6 || math.Abs(got.Lon-p.Lon) > 2e-6 {
			t.Fatalf("%v, written %q, reads back as %v", p, text, got)
		}
	})
}

func TestManyMayParseAtOnce(t *testing.T) {
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			found, err := Parse("Bend, Oregon")
			if err != nil {
				t.Error(err)
				return
			}
			if zone, err := Zone(found[0].Position); zone != "America/Los_Angeles" || err != nil {
				t.Errorf("Bend keeps the time of %q, %v", zone, err)
			}
		})
	}
	wg.Wait()
}

// Whatever is written, there is either an error with words or places on the Earth, the same each time.
func FuzzParse(f *testing.F) {
	for _, table := range [][]written{decimals, sexagesimals, iso6709s, geoURIs, links, plusCodes} {
		for _, c := range table {
			f.Add(c.text)
		}
	}
	for _, c := range refused {
		f.Add(c.text)
	}
	for _, text := range []string{"Bend", "Paris, TX", "97701-1234", "12 Rue Neuve, 75001 Paris, France", "2222+22 Bend, Oregon",
		"st", "𝐁end", "0\u0300"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		found, err := Parse(text)
		if (err == nil) != (len(found) > 0) || err != nil && err.Error() == "" {
			t.Fatalf("Parse(%q) = %v, %v", text, found, err)
		}
		names := map[string]bool{}
		for _, p := range found {
			if !p.Position.Valid() || p.How == "" {
				t.Errorf("Parse(%q) found %+v", text, p)
			}
			if !p.Name.IsZero() && names[p.Name.String()] {
				t.Errorf("Parse(%q) found %q twice", text, p.Name)
			}
			names[p.Name.String()] = true
		}
		again, err2 := Parse(text)
		if fmt.Sprint(again, err2) != fmt.Sprint(found, err) {
			t.Errorf("Parse(%q) = %v, %v and then %v, %v", text, found, err, again, err2)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"44.05, -121.31", `40°26'46"N 79°58'56"W`, "8FVC2222+22", "geo:48.2010,16.3695,183", "97701",
		"Bend, Oregon", "San Antonio", "Lunebrug"} {
		b.Run(text, func(b *testing.B) {
			Parse(text) // unpack first
			for b.Loop() {
				Parse(text)
			}
		})
	}
}
