package light

import (
	"math"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestSPAAir: the worked example of NREL/TP-560-34302 with its own air, 820 mbar and 11 C: refraction 0.0163320721 degrees
// (NREL's code) and zenith 50.11162.
func TestSPAAir(t *testing.T) {
	air := &plan.Air{Pressure: 820, Temperature: 11}
	close(t, "refraction", float64(Refraction(39.8720459038, air)), 0.0163320721, 1e-6)
	at := utc(t, "2003-10-17T19:30:30Z")
	sun := NewTrack(plan.Property{Position: &spaPlace, Air: air}, at, at).At(at)
	close(t, "zenith", 90-float64(sun.Apparent), 50.11162, 0.003) // the sun itself is within that of the table
	close(t, "lift", float64(sun.Apparent-sun.Altitude), 0.0163320721, 1e-5)
}

// TestAirFactors: Meeus ch. 16: refraction grows with the pressure and falls with the absolute temperature; standard air is
// 1010 hPa and 10 C. What is no air counts as standard.
func TestAirFactors(t *testing.T) {
	for _, c := range []struct {
		air  *plan.Air
		want float64
	}{
		{nil, 1}, {&plan.Air{Pressure: 1010, Temperature: 10}, 1}, {&plan.Air{Pressure: 505, Temperature: 10}, 0.5},
		{&plan.Air{Pressure: 1010, Temperature: 293}, 0.5}, {&plan.Air{Pressure: 0, Temperature: 10}, 1},
		{&plan.Air{Pressure: 1010, Temperature: -273}, 1}, {&plan.Air{Pressure: math.NaN()}, 1},
	} {
		close(t, "factor", float64(Refraction(10, c.air)/Refraction(10, nil)), c.want, 1e-12)
	}
}

// TestTabledRefraction: the table that tracks read agrees with the formula everywhere, and ends where it ends.
func TestTabledRefraction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(-95, 95).Draw(t, "altitude")
		if got, want := standard.at(h), float64(Refraction(plan.Angle(min(h, 90)), nil)); !(math.Abs(got-want) < 0.00002) {
			t.Fatalf("at %v: %v, want %v", h, got, want)
		}
	})
	if standard.at(math.NaN()) != 0 {
		t.Error("refraction of no altitude")
	}
}

// TestDip: 0.97' times the square root of the height in feet, as textbooks of navigation have it beside 1.76' in metres (a
// glossary of celestial navigation in stored text; 0.97 from there, 0.3048 m a foot).
func TestDip(t *testing.T) {
	for _, h := range []float64{1, 2.4, 10, 48, 100, 2850} {
		p := plan.Property{SeaHorizon: true, Elevation: plan.Metres(h)}
		feet := 0.97 / 60 * math.Sqrt(h/0.3048)
		close(t, "dip", float64(Dip(p)), feet, 0.003*feet)
	}
	for _, p := range []plan.Property{{Elevation: 100}, {SeaHorizon: true}, {SeaHorizon: true, Elevation: -3}} {
		if Dip(p) != 0 {
			t.Errorf("%+v dips by %v", p, Dip(p))
		}
	}
}

// TestRiseByHorizonAndAir: at Quito's equinox the sun climbs straight up, 15' a minute (testdata/tables/sun-events.tsv for
// the level horizon, arithmetic by hand). 100 m over the sea the horizon lies 17.6' lower: 70 s earlier. Air of 720 hPa at 10
// C lifts by 34' * 720/1010 = 24.2' instead of 34': 39 s later. Sunset the other way round.
func TestRiseByHorizonAndAir(t *testing.T) {
	p, zone := at(t, "UIO")
	d := date(t, "2026-03-20")
	rise, set := utc(t, "2026-03-20T11:18:00Z"), utc(t, "2026-03-20T23:24:29Z")
	for _, c := range []struct {
		name  string
		house plan.Property
		later time.Duration
	}{
		{"level", plan.Property{}, 0},
		{"sea", plan.Property{SeaHorizon: true, Elevation: 100}, -70 * time.Second},
		{"thin air", plan.Property{Air: &plan.Air{Pressure: 720, Temperature: 10}}, 39 * time.Second},
		{"both", plan.Property{SeaHorizon: true, Elevation: 100, Air: &plan.Air{Pressure: 720, Temperature: 10}}, -31 * time.Second},
	} {
		c.house.Position = p.Property.Position
		e := EventsOf(c.house, zone, d, usual)
		near(t, c.name+" rise", e.Rise.Up, rise.Add(c.later), 3*time.Second)
		near(t, c.name+" set", e.Rise.Down, set.Add(-c.later), 3*time.Second)
		close(t, c.name+" altitude", float64(SunAt(*p.Property.Position, e.Rise.Up).Altitude), float64(e.RiseAltitude), 0.005)
	}
}

// TestSeaHorizonIsTheSkyline: over the sea the free horizon lies under the level by the dip, and light comes from there; what
// stands before it stands as it stood.
func TestSeaHorizonIsTheSkyline(t *testing.T) {
	house := plan.Property{SeaHorizon: true, Elevation: 100, Obstacles: []plan.Obstacle{{Height: 1, Distance: 100, From: 80, To: 100}}}
	line := NewSkyline(house)
	close(t, "free", float64(line.At(200)), -17.6/60, 1e-9)
	close(t, "behind the wall", float64(line.At(90)), 0.5729, 0.0001) // arctangent of 0.01
	p, zone := at(t, "LAX")
	level := NewSky(p, zone, date(t, "2027-03-06")).SunOver()
	p.Property.SeaHorizon, p.Property.Elevation = true, 100
	sea := NewSky(p, zone, date(t, "2027-03-06")).SunOver()
	if len(level) != 1 || len(sea) != 1 || !sea[0].From.Before(level[0].From) || !sea[0].To.After(level[0].To) {
		t.Errorf("sun %v over the sea, %v over land", sea, level)
	}
}

// TestCompassBearing: east is added, west is taken off ("declination east, magnetic least": the compass reads less than true).
func TestCompassBearing(t *testing.T) {
	for _, c := range []struct {
		reading     plan.Bearing
		declination plan.Angle
		want        plan.Bearing
	}{{90, 12, 102}, {90, -12, 78}, {355, 12, 7}, {5, -12, 353}, {0, 0, 0}, {360, 0, 0}} {
		if got := CompassBearing(c.reading, c.declination); got != c.want {
			t.Errorf("%v with %v: %v, want %v", c.reading, c.declination, got, c.want)
		}
	}
}
