package locate

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"eavelight/plan"
)

// plusCodes: middle points of two areas of the standard's published decoding tests (test_data/decoding.csv, 2025-06-20).
var plusCodes = []written{
	{"8FVC2222+22", 47.0000625, 8.0000625},
	{"8fvc2222+22", 47.0000625, 8.0000625},
	{"4VCPPQGP+Q9", -41.2730625, 174.7859375},
}

func TestPlusCode(t *testing.T) { check(t, plusCodes, "plus code") }

// The standard's published encoding tests (test_data/encoding.csv, 2025-06-20): the area must hold the point and be as
// large as the number of digits says (20, 1, 0.05, 0.0025, 0.000125 degrees; then a fifth by a quarter).
func TestPlusCodeEncodingRows(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		digits   int
		code     string
	}{
		{20.375, 2.775, 6, "7FG49Q00+"},
		{20.3700625, 2.7821875, 10, "7FG49QCJ+2V"},
		{20.3701125, 2.782234375, 11, "7FG49QCJ+2VX"},
		{20.3701135, 2.78223535156, 13, "7FG49QCJ+2VXGJ"},
		{47.0000625, 8.0000625, 10, "8FVC2222+22"},
		{-41.2730625, 174.7859375, 10, "4VCPPQGP+Q9"},
		{0.5, -179.5, 4, "62G20000+"},
		{-89.9999375, -179.9999375, 10, "22222222+22"},
		{90, 1, 10, "CFX3X2X2+X2"},
		{92, 1, 4, "CFX30000+"},
		{1, 180, 4, "62H20000+"},
		{1, 181, 4, "62H30000+"},
		{1.2, 3.4, 10, "6FH56C22+22"},
		{-41.2730625, 1254.7859375, 10, "4VCPPQGP+Q9"},
	} {
		cell, err := decodePlus(c.code)
		if err != nil {
			t.Errorf("%s: %v", c.code, err)
			continue
		}
		lat, lon := min(c.lat, 90), math.Remainder(c.lon, 360)
		if lon >= 180 { // the date line is the western edge of the first cells
			lon -= 360
		}
		south, west := float64(cell.south)/latUnits-90, float64(cell.west)/lonUnits-180
		height, width := float64(cell.height)/latUnits, float64(cell.width)/lonUnits
		const dust = 1e-12 // of floating point
		if lat < south-dust || lat > south+height || lon < west-dust || lon >= west+width {
			t.Errorf("%s is %g..%g, %g..%g, without %g, %g", c.code, south, south+height, west, west+width, lat, lon)
		}
		wantHeight, wantWidth := 400/math.Pow(20, float64(min(c.digits, 10)/2)), 400/math.Pow(20, float64(min(c.digits, 10)/2))
		for range c.digits - 10 {
			wantHeight, wantWidth = wantHeight/5, wantWidth/4
		}
		if math.Abs(height-wantHeight) > 1e-12 || math.Abs(width-wantWidth) > 1e-12 {
			t.Errorf("%s is %g by %g, want %g by %g", c.code, height, width, wantHeight, wantWidth)
		}
		if c.digits == 10 {
			if got := encodePlus(plan.Position{Lat: lat, Lon: lon}); got != strings.Replace(c.code, "+", "", 1) {
				t.Errorf("%g, %g encodes to %s, want %s", lat, lon, got, c.code)
			}
		}
	}
}

// The standard's published validity and short code tests (test_data/validityTests.csv, shortCodeTests.csv, 2025-06-20).
func TestPlusCodeValidityRows(t *testing.T) {
	for _, code := range []string{"8FWC2345+G6", "8FWCX400+", "84000000+"} {
		if found, err := Parse(code); err != nil || found[0].How != "plus code" {
			t.Errorf("Parse(%q) = %v, %v", code, found, err)
		}
	}
	for _, code := range []string{"G+", "+", "8FWC2345+G", "8FWC2300+G6", "84900000+"} {
		if found, err := Parse(code); err == nil {
			t.Errorf("Parse(%q) = %v", code, found)
		}
	}
}

func TestPlusCodeShortRows(t *testing.T) {
	for _, c := range []struct {
		short    string
		lat, lon float64
	}{
		{"+2VX", 51.3701125, -1.217765625},
		{"CJ+2VX", 51.3708675, -1.217765625},
		{"9QCJ+2VX", 51.3852125, -1.217765625},
	} {
		want, err := decodePlus("9C3W9QCJ+2VX")
		if err != nil {
			t.Fatal(err)
		}
		if got := recoverPlus(c.short, plan.Position{Lat: c.lat, Lon: c.lon}); got != want {
			t.Errorf("%s near %g, %g is %v, want %v", c.short, c.lat, c.lon, got, want)
		}
	}
}

// A position lies in the area of its code, and a shortened code comes back from any point nearby, over the date line too.
func TestPlusCodeReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.Position{Lat: rapid.Float64Range(-89.5, 89.5).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")}
		digits := encodePlus(p)
		full := digits[:8] + "+" + digits[8:]
		cell, err := decodePlus(full)
		if err != nil {
			t.Fatal(err)
		}
		mid := cell.middle()
		if math.Abs(mid.Lat-p.Lat) > 0.0000626 || math.Abs(math.Remainder(mid.Lon-p.Lon, 360)) > 0.0000626 {
			t.Fatalf("%v encodes to %s, the middle of which is %v", p, full, mid)
		}
		near := plan.Position{
			Lat: p.Lat + rapid.Float64Range(-0.4, 0.4).Draw(t, "dlat"),
			Lon: math.Remainder(p.Lon+rapid.Float64Range(-0.4, 0.4).Draw(t, "dlon"), 360),
		}
		if got := recoverPlus(full[4:], near); got != cell {
			t.Fatalf("%s near %v is %v, want %v", full[4:], near, got, cell)
		}
	})
}
