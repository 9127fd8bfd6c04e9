package locate

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"eavelight/plan"
)

// The first six: the project's reference values, section 1.4. The others: the time zone that GeoNames' file cities1000.txt gives
// for the town (2020); half-hour zones, zones within a state, and towns a few kilometres from a border.
func TestZones(t *testing.T) {
	for _, c := range []struct {
		place    string
		lat, lon float64
		zone     string
	}{
		{"Los Angeles", 34.0522, -118.2437, "America/Los_Angeles"},
		{"Auckland", -36.8485, 174.7633, "Pacific/Auckland"},
		{"Reykjavik", 64.1466, -21.9426, "Atlantic/Reykjavik"},
		{"Quito", -0.1807, -78.4678, "America/Guayaquil"},
		{"Longyearbyen", 78.2232, 15.6267, "Arctic/Longyearbyen"},
		{"Kathmandu", 27.7172, 85.3240, "Asia/Kathmandu"},

		{"St. John's", 47.56494, -52.70931, "America/St_Johns"},
		{"Adelaide", -34.92866, 138.59863, "Australia/Adelaide"},
		{"Darwin", -12.46113, 130.84185, "Australia/Darwin"},
		{"Yangon", 16.80528, 96.15611, "Asia/Yangon"},
		{"Tehran", 35.69439, 51.42151, "Asia/Tehran"},
		{"Kabul", 34.52813, 69.17233, "Asia/Kabul"},
		{"Kolkata", 22.56263, 88.36304, "Asia/Kolkata"},
		{"Taiohae", -8.91093, -140.09972, "Pacific/Marquesas"},
		{"Broken Hill", -31.9652, 141.4512, "Australia/Broken_Hill"},

		{"Ontario, Oregon", 44.02655, -116.96294, "America/Boise"},
		{"Pensacola, Florida", 30.42131, -87.21691, "America/Chicago"},
		{"Gary, Indiana", 41.59337, -87.34643, "America/Chicago"},
		{"Louisville, Kentucky", 38.25424, -85.75941, "America/Kentucky/Louisville"},
		{"El Paso, Texas", 31.75872, -106.48693, "America/Denver"},
		{"Phoenix, Arizona", 33.44838, -112.07404, "America/Phoenix"},
		{"Tuba City, Arizona", 36.13499, -111.23986, "America/Denver"},
		{"West Wendover, Nevada", 40.7391, -114.07335, "America/Denver"},
		{"Tijuana", 32.5027, -117.00371, "America/Tijuana"},
		{"Coolangatta, Queensland", -28.16944, 153.53471, "Australia/Brisbane"},
		{"Tweed Heads, New South Wales", -28.17671, 153.5452, "Australia/Sydney"},
		{"Tornio, Finland", 65.84811, 24.14662, "Europe/Helsinki"},
		{"Haparanda, Sweden", 65.83549, 24.13676, "Europe/Stockholm"},
		{"Büsingen, Germany", 47.69638, 8.68759, "Europe/Busingen"},
		{"Basel", 47.55839, 7.57327, "Europe/Zurich"},
		{"Weil am Rhein", 47.59331, 7.62082, "Europe/Berlin"},
		{"Ceuta", 35.88919, -5.32042, "Africa/Ceuta"},
		{"Kirkenes, Norway", 69.72706, 30.04578, "Europe/Oslo"},
	} {
		zone, err := Zone(plan.Position{Lat: c.lat, Lon: c.lon})
		if err != nil || zone != c.zone {
			t.Errorf("%s keeps the time of %q, %v; want %q", c.place, zone, err, c.zone)
		}
	}
}

// At sea: nautical zones of 15 degrees; the IANA data's file etcetera explains the sign.
func TestZonesAtSea(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		zone     string
	}{
		{0, 0, "Etc/GMT"}, {40, -30, "Etc/GMT+2"}, {40, -37.4, "Etc/GMT+2"}, {40, -37.6, "Etc/GMT+3"}, {-30, 90, "Etc/GMT-6"},
		{10, 179.9, "Etc/GMT-12"}, {10, -179.9, "Etc/GMT+12"},
	} {
		if zone, err := Zone(plan.Position{Lat: c.lat, Lon: c.lon}); err != nil || zone != c.zone {
			t.Errorf("at %g, %g the zone is %q, %v; want %q", c.lat, c.lon, zone, err, c.zone)
		}
		if got := nautical(c.lon); got != c.zone {
			t.Errorf("nautical(%g) = %q, want %q", c.lon, got, c.zone)
		}
	}
}

func TestZoneOffTheEarth(t *testing.T) {
	for _, p := range []plan.Position{{Lat: 91}, {Lon: -181}, {Lat: math.NaN()}, {Lon: math.Inf(1)}} {
		if zone, err := Zone(p); err == nil {
			t.Errorf("Zone(%v) = %q", p, zone)
		}
	}
}

// Every place on the Earth has a zone, and Go's own zone data has it too.
func TestEveryPlaceHasAZone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPosition(t)
		zone, err := Zone(p)
		if err != nil {
			t.Fatalf("Zone(%v): %v", p, err)
		}
		if _, err := time.LoadLocation(zone); err != nil || zone == "" {
			t.Fatalf("Zone(%v) = %q: %v", p, zone, err)
		}
	})
}

func BenchmarkZone(b *testing.B) {
	Zone(plan.Position{}) // unpack first
	for b.Loop() {
		Zone(plan.Position{Lat: 44.05, Lon: -121.31})
	}
}

func BenchmarkUnpackZones(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := unpackZones(); err != nil {
			b.Fatal(err)
		}
	}
}
