package light

import (
	"math"
	"testing"
	"time"

	"eavelight/plan"
)

func close(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.5f, want %.5f within %g", what, got, want, within)
	}
}

func near(t *testing.T, what string, got, want time.Time, within time.Duration) {
	t.Helper()
	if diff := got.Sub(want).Abs(); diff > within {
		t.Errorf("%s: %v, want %v (%v apart)", what, got.UTC(), want, diff)
	}
}

// under is a property that says nothing but its position.
func under(p plan.Position) plan.Property { return plan.Property{Position: &p} }

func utc(t testing.TB, s string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339Nano, s)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// The worked example of Reda & Andreas, Solar Position Algorithm, NREL/TP-560-34302, rev. January 2008, appendix A.5:
// 2003-10-17 12:30:30 at UTC-7.
var spaPlace = plan.Position{Lat: 39.742476, Lon: -105.1786}

// TestSPAExample holds the sun against the intermediate and final figures of Table A5.1 (and of NREL's own code, where the
// table prints fewer digits), within the 0.01 degrees that SunAt promises.
func TestSPAExample(t *testing.T) {
	at := utc(t, "2003-10-17T19:30:30Z")
	r := apparentSun(at)
	close(t, "declination", r.declination*deg, -9.31434, 0.01)
	hourAngle := math.Remainder(r.hourAngle*deg+spaPlace.Lon, 360)
	close(t, "hour angle", hourAngle, 11.105900, 0.01)
	close(t, "distance", r.distance, 0.9965422974, 0.0001)
	s := SunAt(spaPlace, at)
	close(t, "airless altitude e0", float64(s.Altitude), 39.8720459, 0.01)
	close(t, "azimuth", float64(s.Azimuth), 194.34024, 0.01)
	// The example's air is thin (820 mbar, 11 C) and lifts the sun by 0.0163 degrees; our standard air by 0.0202.
	close(t, "apparent altitude, zenith 50.11162", float64(s.Apparent), 90-50.11162, 0.01+0.0039)
}

// TestSPARefraction brings our standard air to the example's pressure and temperature (equation 42): delta e is 0.0163320721.
func TestSPARefraction(t *testing.T) {
	thin := 820.0 / 1010 * 283 / (273 + 11)
	close(t, "refraction", float64(Refraction(39.8720459038, nil))*thin, 0.0163320721, 1e-6)
}

// TestSPAEvents: transit, sunrise and sunset of the example. The printed sunset, 00:20:19.19 UT, belongs to the UT day and so
// to the local evening before; the day's own is 00:18:51Z (astronomy-engine 2.1.19). SPA counts rise and set
// geocentrically, worth 0.7 s.
func TestSPAEvents(t *testing.T) {
	zone := time.FixedZone("UTC-7", -7*3600)
	day := plan.Date{Year: 2003, Month: 10, Day: 17}
	e := EventsOf(under(spaPlace), zone, day, usual)
	near(t, "transit", e.Noon, utc(t, "2003-10-17T18:46:04.97Z"), 3*time.Second)
	near(t, "sunrise", e.Rise.Up, utc(t, "2003-10-17T13:12:43.46Z"), 5*time.Second)
	near(t, "the day's own sunset", e.Rise.Down, utc(t, "2003-10-18T00:18:51Z"), 5*time.Second)
	before := EventsOf(under(spaPlace), zone, day.AddDays(-1), usual)
	near(t, "printed sunset", before.Rise.Down, utc(t, "2003-10-17T00:20:19.19Z"), 5*time.Second)
}

// TestSPATableA21: sunrise and sunset on the meridian of Greenwich, almanac minute and SPA second (the report's Table A2.1).
func TestSPATableA21(t *testing.T) {
	for _, row := range []struct {
		date      string
		lat       float64
		rise, set string
	}{
		{"1994-01-02", 35, "07:08:12.8", "16:59:55.9"},  // almanac 07:08, 17:00
		{"1996-07-05", -35, "07:08:15.4", "17:01:04.5"}, // almanac 07:08, 17:00 (so printed)
		{"2004-12-04", -35, "04:38:57.1", "19:02:02.5"}, // almanac 04:39, 19:02
	} {
		e := EventsOf(under(plan.Position{Lat: row.lat}), time.UTC, date(t, row.date), usual)
		near(t, row.date+" rise", e.Rise.Up, utc(t, row.date+"T"+row.rise+"Z"), 6*time.Second)
		near(t, row.date+" set", e.Rise.Down, utc(t, row.date+"T"+row.set+"Z"), 6*time.Second)
	}
}

// TestNOAADaySpreadsheet: one row of NOAA's solar calculator, latitude 40, longitude -105, 2010-06-21 00:06 at UTC-7. Its
// equation of time gives the transit. NOAA claims 0.01 degrees. Its refraction of a sun deep under the horizon (0.0115) has
// no meaning and is none here.
func TestNOAADaySpreadsheet(t *testing.T) {
	pos := plan.Position{Lat: 40, Lon: -105}
	at := utc(t, "2010-06-21T07:06:00Z")
	r := apparentSun(at)
	close(t, "declination", r.declination*deg, 23.4383706192869, 0.01)
	s := SunAt(pos, at)
	close(t, "altitude", float64(s.Altitude), -26.5537621191813, 0.01)
	close(t, "azimuth", float64(s.Azimuth), 1.09867118388445, 0.02)
	if s.Apparent != s.Altitude {
		t.Errorf("refraction of %v under the horizon", s.Apparent-s.Altitude)
	}
	equationOfTime := -1.71536757846953 // minutes
	noon := utc(t, "2010-06-21T19:00:00Z").Add(-time.Duration(equationOfTime * float64(time.Minute)))
	e := EventsOf(under(pos), time.FixedZone("UTC-7", -7*3600), date(t, "2010-06-21"), usual)
	// the equation of time grows by 13 s a day in June, so by 7 s from the row's midnight to noon
	near(t, "transit", e.Noon, noon, 10*time.Second)
}

// TestNOAARefraction holds our refraction against NOAA's formulas (Calculation Details, table of refraction; h is the true
// altitude): another author, another fit, so within 0.003 degrees from 5 degrees up and 0.012 below.
func TestNOAARefraction(t *testing.T) {
	for h := -0.5; h <= 84; h += 0.5 {
		tan := math.Tan(h / deg)
		seconds, within := 58.1/tan-0.07/math.Pow(tan, 3)+0.000086/math.Pow(tan, 5), 0.003
		if h < 5 {
			seconds, within = 1735-518.2*h+103.4*h*h-12.79*math.Pow(h, 3)+0.711*math.Pow(h, 4), 0.012
		}
		if got := float64(Refraction(plan.Angle(h), nil)); math.Abs(got-seconds/3600) > within {
			t.Errorf("at %.1f degrees: %.5f, NOAA %.5f", h, got, seconds/3600)
		}
	}
}

// TestMeeusExample16a: Astronomical Algorithms, 2nd ed., example 16.a, p. 107. The sun's lower limb is seen at 30'; its true
// altitude is 1.246', that of the upper limb 33.246', whose refraction by (16.4) is 24.618'. The two formulas of the chapter
// undo each other to 0.1' (p. 106).
func TestMeeusExample16a(t *testing.T) {
	close(t, "upper limb's refraction", float64(Refraction(33.246/60, nil))*60, 24.618, 0.001)
	close(t, "lower limb, seen", 1.246+float64(Refraction(1.246/60, nil))*60, 30, 0.1)
}

// TestMeeusExample25a: p. 165, the sun on 1992 October 13.0 TD: declination -7 47'01.74" by the full theory.
func TestMeeusExample25a(t *testing.T) {
	// TD is 59 s ahead of UT then (Meeus ch. 10, table 10.A), worth 0.0003 degrees of declination
	r := apparentSun(utc(t, "1992-10-12T23:59:01Z"))
	close(t, "declination", r.declination*deg, -(7 + 47.0/60 + 1.74/3600), 0.002)
	close(t, "distance", r.distance, 0.99760853, 0.0001)
}

// TestSeasons: at the pole the sun's altitude is its declination (less its parallax, 0.0024 degrees), so it is 0 at the
// equinoxes and turns at the solstices. Moments from astronomy-engine 2.1.19, to the minute.
func TestSeasons(t *testing.T) {
	pole := plan.Position{Lat: 90}
	height := func(at time.Time) float64 { return float64(SunAt(pole, at).Altitude) + 8.794/3600 }
	for _, year := range []struct{ march, june, september, december string }{
		{"2026-03-20T14:45:00Z", "2026-06-21T08:25:00Z", "2026-09-23T00:05:00Z", "2026-12-21T20:50:00Z"},
		{"2027-03-20T20:24:00Z", "2027-06-21T14:10:00Z", "2027-09-23T06:01:00Z", "2027-12-22T02:42:00Z"},
		{"2028-03-20T02:17:00Z", "2028-06-20T20:01:00Z", "2028-09-22T11:45:00Z", "2028-12-21T08:20:00Z"},
	} {
		close(t, year.march, height(utc(t, year.march)), 0, 0.003)
		close(t, year.september, height(utc(t, year.september)), 0, 0.003)
		for sign, moment := range map[float64]string{1: year.june, -1: year.december} {
			at := utc(t, moment)
			close(t, moment, sign*height(at), 23.436, 0.005) // obliquity of date, 23.4392911 - 0.0130042 T (Meeus (22.2)), nutation
			early, late := height(at.AddDate(0, 0, -5)), height(at.AddDate(0, 0, 5))
			close(t, moment+": as high five days before as after", early, late, 0.006) // 2 hours are worth 0.006
			if sign*early >= sign*height(at) {
				t.Errorf("%s is no turning point: %.4f five days before, %.4f then", moment, early, height(at))
			}
		}
	}
}

// TestIncidenceOnWalls: equation 47 of the SPA report for a slope of 90 degrees, with the sun of its example (apparent
// altitude 39.88838, azimuth 194.34024); arithmetic done in Python.
func TestIncidenceOnWalls(t *testing.T) {
	sun := Sun{Apparent: 39.88838, Azimuth: 194.34024}
	for _, wall := range []struct {
		name    string
		faces   plan.Bearing
		angle   float64
		sunlit  bool
		profile float64 // vertical shadow angle, tan p = tan a / cos(z - n); formula from memory
	}{
		{"S", 180, 41.9792, true, 40.7832},
		{"W", 270, 79.0447, true, 73.4932},
		{"SW", 225, 48.6974, true, 44.1749},
		{"SE", 135, 66.9662, true, 0},
		{"E", 90, 100.9553, false, 0},
		{"N", 0, 138.0208, false, 0},
	} {
		close(t, wall.name, float64(sun.Incidence(wall.faces)), wall.angle, 0.0001)
		if m := (Minute{Sun: sun}); m.Lit(wall.faces) != wall.sunlit {
			t.Errorf("%s: lit %v", wall.name, !wall.sunlit)
		}
		if wall.profile > 0 {
			close(t, wall.name+" reach", float64(sun.Reach(wall.faces, 1)), 1/math.Tan(wall.profile/deg), 0.0001)
		}
		if reach := sun.Reach(wall.faces, 2.4); (reach > 0) != wall.sunlit {
			t.Errorf("%s: the sun falls %.2f m into the room", wall.name, reach)
		}
	}
}

// TestReachByCotangent: a window's head of 1 m, the sun straight before it, throws light as far as the cotangent of the
// sun's altitude (table of cotangents, computed in Python); a 10 m object's shadow under the SPA example's sun is
// 11.9647968 m (an open library's test for that instant).
func TestReachByCotangent(t *testing.T) {
	for alt, cot := range map[plan.Angle]float64{1: 57.2900, 3: 19.0811, 5: 11.4301, 6: 9.5144, 10: 5.6713, 15: 3.7321,
		20: 2.7475, 30: 1.7321, 45: 1, 60: 0.5774, 75: 0.2679} {
		for _, face := range []plan.Bearing{0, 77, 192, 359} {
			close(t, "reach", float64(Sun{Apparent: alt, Azimuth: face}.Reach(face, 1)), cot, 0.00005)
		}
	}
	close(t, "shadow", float64(Sun{Apparent: 39.88838, Azimuth: 194.34024}.Reach(194.34024, 10)), 11.9647968, 0.0002)
	low := Sun{Apparent: 0, Azimuth: 90}.Reach(90, 2)
	close(t, "sun on the horizon, counted half a degree up", float64(low), 2*114.5887, 0.001) // cot 0.5 degrees
}

// TestObstacleAltitude: textbook exercises on angles of elevation (stored exercise pages, recomputed); any unit of length
// does.
func TestObstacleAltitude(t *testing.T) {
	for _, c := range []struct{ height, away, angle float64 }{
		{96, 120, 38.66}, {100, 150, 33.69}, {86.53, 89.39, 44.07}, {226.85, 40, 80}, {43.30, 75, 30}, {43.30, 25, 60},
	} {
		close(t, "angle", float64(ObstacleAltitude(plan.Metres(c.height), plan.Metres(c.away))), c.angle, 0.005)
	}
}
