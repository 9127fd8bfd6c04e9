package day

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/people"
)

// flying is the small plan with one flight, pinned to a time, whose papers are all there.
func flying(t testing.TB, rules plan.FlightRules, at string, shoot plan.Minutes) *plan.Plan {
	p := small(plan.Scene{Number: "1", Space: "air", Setup: 30, Shoot: shoot, Pin: plan.Pin{Start: clock(t, at)}})
	p.Property.Spaces = append(p.Property.Spaces, plan.Space{ID: "air", Kind: plan.Aerial})
	p.People = []plan.Person{{ID: "suri", Name: "Suri Kaanen", Role: plan.Crew, Weight: 1,
		Certificate: plan.Certificate{Number: "1", Trained: date(t, "2026-01-01")}}}
	p.Releases = []plan.Release{{ID: "flight", Kind: plan.DroneRelease, Party: "suri"}}
	p.Shooting.Flying = plan.Flying{Rules: rules, Read: date(t, "2026-01-02"), ReadBy: "suri", Light: true}
	p.Shooting.EarliestCall, p.Shooting.LatestWrap = plan.ClockAt(0), clock(t, "30:00")
	return p
}

// atUtqiagvik is where the sun at midsummer stands 4.7 degrees high at its lowest, and at midwinter 4.7 degrees under the horizon at its
// highest: the latitude against the tilt of the Earth's axis.
func atUtqiagvik(p *plan.Plan) {
	p.Property.Position, p.Property.Zone = &plan.Position{Lat: 71.29, Lon: -156.79}, "America/Anchorage"
}

// atFairbanks the midsummer sun sets and is no lower than 1.7 degrees under the horizon, counted in the same way: civil twilight lasts
// all night. By the clock the night's middle is near 1:52, for the place lies 12.7 degrees west of its zone's noon of 13:00.
func atFairbanks(p *plan.Plan) {
	p.Property.Position, p.Property.Zone = &plan.Position{Lat: 64.84, Lon: -147.72}, "America/Anchorage"
}

// TestFlightLight is 14 CFR 107.29(b) and (c) on placed days: civil twilight is the 30 minutes before official sunrise and after official
// sunset, in Alaska that of the Air Almanac (-6 degrees). Los Angeles, computed with two outside libraries (see
// people.TestDroneLight): on 2026-06-21 the sun rises at 5:42:04, sets at 20:07:39 and is 6 degrees under at 20:36:54, so that by the
// section twilight ends at 20:37:39; on 2027-12-21 it sets at 16:47:35 and is 6 degrees under at 17:15:23, against 17:17:35. So that
// the Alaskan rule is held against the same figures, it is asked of Los Angeles too. Set-up, half an hour before, is no flight.
func TestFlightLight(t *testing.T) {
	const us, alaska = plan.USPart107, plan.USPart107Alaska
	for _, c := range []struct {
		name  string
		rules plan.FlightRules
		day   string
		at    string
		shoot plan.Minutes
		there func(*plan.Plan)
		light people.FlightLight
		words string
	}{
		{"noon", us, "2026-06-21", "12:00", 20, nil, people.FlightDay, "by day"},
		{"to the minute before sunset", us, "2026-06-21", "19:47", 20, nil, people.FlightDay, "by day"},
		{"a minute more", us, "2026-06-21", "19:48", 20, nil, people.FlightTwilight, "in civil twilight until 20:37: anti-collision light"},
		{"to the last minute of twilight", us, "2026-06-21", "20:27", 10, nil, people.FlightTwilight, "in civil twilight until 20:37: anti-collision light"},
		{"the trap: not by the Air Almanac", alaska, "2026-06-21", "20:27", 10, nil, people.FlightNight, "at night: anti-collision light, and a pilot trained for it"},
		{"by the Air Almanac a minute earlier", alaska, "2026-06-21", "20:26", 10, nil, people.FlightTwilight, "in civil twilight until 20:36: anti-collision light"},
		{"a minute into the night", us, "2026-06-21", "20:28", 10, nil, people.FlightNight, "at night: anti-collision light, and a pilot trained for it"},
		{"the trap in winter", us, "2027-12-21", "17:07", 10, nil, people.FlightTwilight, "in civil twilight until 17:17: anti-collision light"},
		{"not by the Air Almanac in winter", alaska, "2027-12-21", "17:07", 10, nil, people.FlightNight, "at night: anti-collision light, and a pilot trained for it"},
		{"set up before sunrise", us, "2026-06-21", "5:43", 10, nil, people.FlightDay, "by day"},
		{"a minute too early", us, "2026-06-21", "5:42", 10, nil, people.FlightTwilight, "in civil twilight, by day from 05:43: anti-collision light"},
		{"the first minute of twilight", us, "2026-06-21", "5:13", 10, nil, people.FlightTwilight, "in civil twilight, by day from 05:43: anti-collision light"},
		{"before it", us, "2026-06-21", "5:12", 10, nil, people.FlightNight, "at night: anti-collision light, and a pilot trained for it"},
		{"the next morning", us, "2026-06-21", "29:30", 10, nil, people.FlightTwilight, "in civil twilight, by day from 05:43: anti-collision light"},
		{"skyline, sea and height don't count", us, "2026-06-21", "19:47", 20, func(p *plan.Plan) {
			p.Property.Skyline = []plan.SkyPoint{{Bearing: 0, Altitude: 30}, {Bearing: 180, Altitude: 30}}
			p.Property.Elevation, p.Property.SeaHorizon = 900, true
		}, people.FlightDay, "by day"},
		{"nor from the sea a minute later", us, "2026-06-21", "19:48", 20, func(p *plan.Plan) {
			p.Property.Elevation, p.Property.SeaHorizon = 900, true
		}, people.FlightTwilight, "in civil twilight until 20:37: anti-collision light"},
		{"no rules", "", "2026-06-21", "20:28", 10, nil, "", ""},
		{"midnight sun", alaska, "2026-06-21", "12:00", 10, atUtqiagvik, people.LightUnknown, "light not known: the sun does not set that day"},
		{"polar night", alaska, "2026-12-21", "13:00", 10, atUtqiagvik, people.LightUnknown, "light not known: the sun does not rise that day"},
		{"across the middle of a bright night", alaska, "2026-06-21", "25:30", 45, atFairbanks, people.FlightTwilight, ""},
		// by the clock of New Zealand, 19 hours ahead, its sunset of the 21st is at 15:07:39 on the 22nd
		{"the clock of elsewhere", us, "2026-06-22", "15:08", 10, func(p *plan.Plan) { p.Property.Zone = "Pacific/Auckland" },
			people.FlightTwilight, "in civil twilight until 15:37: anti-collision light"},
		{"all day and all night and all day", us, "2026-06-21", "4:00", 29 * 60, func(p *plan.Plan) {
			p.Shooting.Longest, p.Shooting.MealWithin, p.Shooting.LatestWrap = 36*60, 36*60, clock(t, "36:00")
		}, people.FlightNight, ""},
		{"no position", us, "2026-06-21", "12:00", 10, func(p *plan.Plan) {
			p.Property.Position = nil
			p.Scenes[0].From = clock(t, "11:00") // a plan by the clock alone is placed without one
		}, people.LightUnknown, "light not known: the position is not set"},
	} {
		p := flying(t, c.rules, c.at, c.shoot)
		if c.there != nil {
			c.there(p)
		}
		d := placed(t, p, date(t, c.day))
		f, ok := d.Flight("s1")
		if !ok || f.Light != c.light {
			t.Errorf("%s: %q, want %q (left out: %v)", c.name, f.Light, c.light, d.LeftOut)
		}
		if got := f.Words(d.Zone).String(); got != c.words && c.words != "" {
			t.Errorf("%s: %q, want %q", c.name, got, c.words)
		}
	}
}

// TestOfficialSun holds the sun that flights are told by against the same outside figures, to the second or two that two methods differ by.
func TestOfficialSun(t *testing.T) {
	for rules, want := range map[plan.FlightRules]string{plan.USPart107: "2026-06-22T03:37:39Z", plan.USPart107Alaska: "2026-06-22T03:36:54Z"} {
		d := placed(t, flying(t, rules, "12:00", 20), date(t, "2026-06-21"))
		f, _ := d.Flight("s1")
		for _, c := range []struct {
			got  time.Time
			want string
		}{{f.sun.rise, "2026-06-21T12:42:04Z"}, {f.sun.set, "2026-06-22T03:07:39Z"}, {f.sun.dusk, want}} {
			at, err := time.Parse(time.RFC3339, c.want)
			if off := c.got.Sub(at); err != nil || off.Abs() > 3*time.Second {
				t.Errorf("%s: %s is %s from %s", rules, c.got, off, c.want)
			}
		}
	}
}

// TestFlightWarnings: what is told of a flight, in the words that are shown; the times are those of TestFlightLight.
func TestFlightWarnings(t *testing.T) {
	const us = plan.USPart107
	dim := func(p *plan.Plan) { p.Shooting.Flying.Light = false }
	const noLight = "the drone has no anti-collision light filled in that is seen for 3 statute miles"
	for _, c := range []struct {
		name   string
		rules  plan.FlightRules
		at     string
		change func(*plan.Plan)
		want   []string
	}{
		{"by day without a light", us, "12:00", dim, nil},
		{"twilight with a light", us, "20:10", nil, nil},
		{"night with a light and training", us, "21:00", nil, nil},
		{"twilight without", us, "20:10", dim,
			[]string{"scene 1 is flown in civil twilight until 20:37, and " + noLight + "; start it at 19:57 or earlier to fly by day"}},
		{"morning twilight without", us, "5:20", dim,
			[]string{"scene 1 is flown in civil twilight, by day from 05:43, and " + noLight + "; start it at 05:43 or later to fly by day"}},
		{"night without", us, "21:00", dim,
			[]string{"scene 1 is flown at night, and " + noLight + "; start it at 19:57 or earlier to fly by day"}},
		// such a training has lapsed long before that day as well
		{"night, trained before April 2021", us, "21:00", func(p *plan.Plan) {
			p.People[0].Certificate.Trained = date(t, "2021-04-06")
		}, []string{"scene 1 is flown, and the training of Suri Kaanen holds only to Sunday 30 April 2023 (24 calendar months, 107.65); it must be done again before the day",
			"scene 1 is flown at night, and Suri Kaanen was not tested or trained after 6 April 2021; start it at 20:27 or earlier to fly in twilight"}},
		{"no rules, no light", "", "21:00", dim, nil},
		{"no papers at all", us, "12:00", func(p *plan.Plan) {
			p.People, p.Releases, p.Shooting.Flying = nil, nil, plan.Flying{Rules: us}
		}, []string{
			"scene 1 is flown, and nobody of the crew has a drone pilot's certificate; fill it in with the pilot",
			"scene 1 is flown, and nobody has said by then that they read the rules of the local aviation authority; say it with the rules of the day",
			"scene 1 is flown, and no drone release covers that; add one",
		}},
		{"people in it", us, "12:00", func(p *plan.Plan) {
			p.People = append(p.People, plan.Person{ID: "ann", Name: "Ann Dell"}, plan.Person{ID: "tom", Name: "Tom Dell"})
			p.Scenes[0].People = []plan.ID{"ann", "tom"}
		}, []string{"scene 1 is flown with Ann Dell and Tom Dell in it: not over people who take no part in the flight (107.39); ask the pilot where they may stand"}},
		{"people in it, elsewhere", "", "12:00", func(p *plan.Plan) {
			p.People = append(p.People, plan.Person{ID: "ann", Name: "Ann Dell"})
			p.Scenes[0].People = []plan.ID{"ann"}
		}, []string{"scene 1 is flown with Ann Dell in it: not over people who take no part in the flight; ask the pilot where they may stand"}},
		{"midnight sun", us, "12:00", atUtqiagvik,
			[]string{"scene 1 is flown, and the sun does not set that day, so the rules can't tell its light; ask the local aviation authority"}},
		{"on the ground", us, "21:00", func(p *plan.Plan) {
			p.Scenes[0].Space, p.People, p.Releases, p.Shooting.Flying = "garden", nil, nil, plan.Flying{}
		}, nil},
		{"on the ground, named by a drone release", us, "20:10", func(p *plan.Plan) {
			p.Scenes[0].Space, p.Releases[0].Scenes = "garden", []plan.ID{"s1"}
			dim(p)
		}, []string{"scene 1 is flown in civil twilight until 20:37, and " + noLight + "; start it at 19:57 or earlier to fly by day"}},
	} {
		p := flying(t, c.rules, c.at, 10)
		if c.change != nil {
			c.change(p)
		}
		d := placed(t, p, date(t, "2026-06-21"))
		sound(t, c.name, p, d)
		var got []string
		for _, problem := range d.Problems {
			if strings.HasPrefix(string(problem.Code), "flight-") {
				got = append(got, problem.String())
				if problem.Level != plan.Warning || problem.Path == "" {
					t.Errorf("%s: %+v", c.name, problem)
				}
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// TestHelpingStart: a flight moved to the start that its warning names has that light, and a minute beyond it has not.
func TestHelpingStart(t *testing.T) {
	for _, c := range []struct {
		at, to string
		beyond plan.Minutes
	}{{"20:10", "19:57", 1}, {"5:20", "5:43", -1}} {
		p := flying(t, plan.USPart107, c.at, 10)
		p.Shooting.Flying.Light = false
		d := placed(t, p, date(t, "2026-06-21"))
		if !slices.ContainsFunc(d.Problems, func(q plan.Problem) bool {
			return q.Code == plan.FlightDark && strings.Contains(q.String(), "start it at "+clock(t, c.to).String())
		}) {
			t.Fatalf("%s: %v", c.at, d.Problems)
		}
		p.Scenes[0].Pin.Start = clock(t, c.to)
		if f, _ := placed(t, p, date(t, "2026-06-21")).Flight("s1"); f.Light != people.FlightDay {
			t.Errorf("at %s: %s", c.to, f.Light)
		}
		p.Scenes[0].Pin.Start = plan.ClockAt(clock(t, c.to).Minutes() + int(c.beyond))
		if f, _ := placed(t, p, date(t, "2026-06-21")).Flight("s1"); f.Light != people.FlightTwilight {
			t.Errorf("a minute beyond %s: %s", c.to, f.Light)
		}
	}
}

// TestDemoFlights: the scenes that the demo's drone release names, and no other; all that is missing for them is the signature.
func TestDemoFlights(t *testing.T) {
	p := demo(t)
	d := placed(t, p, date(t, "2027-10-16"))
	var got []plan.ID
	for _, f := range d.Flights {
		got = append(got, f.Scene)
	}
	if !slices.Equal(got, []plan.ID{"first-light", "dusk"}) || len(people.FlightPapers(p, d.Date)) > 0 {
		t.Errorf("%v, %v", got, people.FlightPapers(p, d.Date))
	}
}
