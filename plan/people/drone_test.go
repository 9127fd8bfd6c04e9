package people

import (
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func utc(t testing.TB, s string) time.Time {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04:05", s)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// TestDroneLight is 14 CFR 107.29(b) and (c), verified against stored copies of the section: civil twilight is the 30 minutes before
// official sunrise and the 30 minutes after official sunset, but in Alaska that of the Air Almanac (-6 degrees). Sunrise, sunset and
// -6 degrees at three places: computed with two libraries (astronomy-engine 2.1.19, PyEphem 4.1.4), which agree within 0.36 s. On the
// long evenings of Los Angeles the sun is at -6 degrees before the half hour is over, in midsummer by 45 s, in midwinter by 2 min 12 s.
func TestDroneLight(t *testing.T) {
	type sun struct{ dawn, rise, set, dusk string }
	summer := sun{"2026-06-21 12:12:49", "2026-06-21 12:42:04", "2026-06-22 03:07:39", "2026-06-22 03:36:54"} // Los Angeles
	winter := sun{"2027-12-21 14:26:44", "2027-12-21 14:54:33", "2027-12-22 00:47:35", "2027-12-22 01:15:23"} // Los Angeles
	quito := sun{"2026-03-20 10:57:20", "2026-03-20 11:18:00", "2026-03-20 23:24:29", "2026-03-20 23:45:09"}
	north := sun{"2026-12-21 10:03:01", "2026-12-21 11:22:22", "2026-12-21 15:29:22", "2026-12-21 16:48:42"} // Reykjavik, as if in Alaska
	for _, c := range []struct {
		name     string
		sun      sun
		from, to string
		want     FlightLight
		alaska   FlightLight // by -6 degrees
	}{
		{"noon", summer, "2026-06-21 19:00:00", "2026-06-21 19:30:00", FlightDay, FlightDay},
		{"from sunrise to sunset", summer, "2026-06-21 12:42:04", "2026-06-22 03:07:39", FlightDay, FlightDay},
		{"one second past sunset", summer, "2026-06-22 03:00:00", "2026-06-22 03:07:40", FlightTwilight, FlightTwilight},
		{"begins at sunset", summer, "2026-06-22 03:07:39", "2026-06-22 03:20:00", FlightTwilight, FlightTwilight},
		{"the trap: below -6, yet within the half hour", summer, "2026-06-22 03:30:00", "2026-06-22 03:37:39", FlightTwilight, FlightNight},
		{"a second more", summer, "2026-06-22 03:30:00", "2026-06-22 03:37:40", FlightNight, FlightNight},
		{"begins when twilight ends", summer, "2026-06-22 03:37:39", "2026-06-22 03:45:00", FlightNight, FlightNight},
		{"the trap before sunrise", summer, "2026-06-21 12:12:04", "2026-06-21 12:30:00", FlightTwilight, FlightNight},
		{"a second earlier", summer, "2026-06-21 12:12:03", "2026-06-21 12:30:00", FlightNight, FlightNight},
		{"by both, before sunrise", summer, "2026-06-21 12:12:49", "2026-06-21 12:42:04", FlightTwilight, FlightTwilight},
		{"the trap in winter", winter, "2027-12-22 01:00:00", "2027-12-22 01:17:35", FlightTwilight, FlightNight},
		{"after it", winter, "2027-12-22 01:00:00", "2027-12-22 01:17:36", FlightNight, FlightNight},
		{"short twilight near the equator", quito, "2026-03-20 23:45:10", "2026-03-20 23:54:29", FlightTwilight, FlightNight},
		{"long twilight in the north", north, "2026-12-21 16:00:00", "2026-12-21 16:48:42", FlightNight, FlightTwilight},
		{"all day and all night", summer, "2026-06-21 00:00:00", "2026-06-22 06:00:00", FlightNight, FlightNight},
		{"an instant by day", summer, "2026-06-21 19:00:00", "2026-06-21 19:00:00", FlightDay, FlightDay},
		{"an instant at sunset", summer, "2026-06-22 03:07:39", "2026-06-22 03:07:39", FlightTwilight, FlightTwilight},
		{"ends before it begins", summer, "2026-06-21 19:00:00", "2026-06-21 18:00:00", FlightDay, FlightDay},
	} {
		rise, set, from, to := utc(t, c.sun.rise), utc(t, c.sun.set), utc(t, c.from), utc(t, c.to)
		if got := DroneLight(rise, set, from, to); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
		if got := DroneLightBetween(utc(t, c.sun.dawn), rise, set, utc(t, c.sun.dusk), from, to); got != c.alaska {
			t.Errorf("%s, in Alaska: %s, want %s", c.name, got, c.alaska)
		}
	}
	now := utc(t, "2026-06-21 19:00:00")
	for name, got := range map[string]FlightLight{
		"no sunrise":            DroneLight(time.Time{}, now, now, now),
		"no sunset":             DroneLight(now, time.Time{}, now, now),
		"sunset before sunrise": DroneLight(now, now.Add(-time.Hour), now, now),
	} {
		if got != LightUnknown {
			t.Errorf("%s: %s", name, got)
		}
	}
}

// TestDroneLightIsTheDarkest cuts flights in two: the whole is as dark as the darker half.
func TestDroneLightIsTheDarkest(t *testing.T) {
	rise, set := utc(t, "2026-06-21 12:42:04"), utc(t, "2026-06-22 03:07:39")
	dark := map[FlightLight]int{FlightDay: 0, FlightTwilight: 1, FlightNight: 2}
	rapid.Check(t, func(t *rapid.T) {
		at := func(label string) time.Time {
			return rise.Add(time.Duration(rapid.IntRange(-3600, 17*3600).Draw(t, label)) * time.Second)
		}
		times := []time.Time{at("one"), at("another"), at("a third")}
		slices.SortFunc(times, time.Time.Compare)
		a, b, c := times[0], times[1].Add(time.Second), times[2].Add(2*time.Second) // flights of a second at least
		one, two, all := DroneLight(rise, set, a, b), DroneLight(rise, set, b, c), DroneLight(rise, set, a, c)
		if dark[all] != max(dark[one], dark[two]) {
			t.Fatalf("%v to %v is %s, to %v is %s, all is %s", a, b, one, c, two, all)
		}
	})
}

// TestDroneRules holds that every rule names its section, and that what is from memory is marked so: 107.12 and 107.41, as in the
// reference notes. 107.65 was since held against a stored copy of the eCFR of 5 April 2026.
func TestDroneRules(t *testing.T) {
	for _, r := range DroneRules {
		memory := strings.Contains(r.Section, "107.12") || r.Section == "107.41"
		if !strings.HasPrefix(r.Section, "107.") || r.Says == "" || r.Verified == memory {
			t.Errorf("%+v", r)
		}
	}
}
