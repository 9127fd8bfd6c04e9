package light

import (
	"math"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// at builds a plan at a place of places.tsv.
func at(t testing.TB, code string) (*plan.Plan, *time.Location) {
	t.Helper()
	where, ok := places(t)[code]
	if !ok {
		t.Fatalf("no place %s", code)
	}
	p := plan.New()
	p.Property.Position = &where.Position
	return &p, where.zone
}

// TestClockChangeDays: how many hours a date has (IANA 2025b, as noted under testdata/tables), and that minutes and wall
// clock lead to each other and back.
func TestClockChangeDays(t *testing.T) {
	for _, c := range []struct {
		code, date string
		hours      int
		skipped    int // the hour the wall clock leaves out, -1 for none
	}{
		{"LAX", "2026-03-08", 23, 2}, {"LAX", "2026-11-01", 25, -1}, {"LAX", "2026-06-21", 24, -1},
		{"AKL", "2026-04-05", 25, -1}, {"AKL", "2026-09-27", 23, 2},
		{"LYR", "2027-03-28", 23, 2}, {"KTM", "2026-01-14", 24, -1}, {"REK", "2027-03-20", 24, -1},
	} {
		p, zone := at(t, c.code)
		s := NewSky(p, zone, date(t, c.date))
		if got := s.MinuteAt(plan.ClockAt(24 * 60)); got != c.hours*60 {
			t.Errorf("%s %s has %d minutes, want %d hours", c.code, c.date, got, c.hours)
		}
		if first := s.Start.In(zone); plan.DateOf(first) != s.Events.Date || plan.DateOf(first.Add(-time.Minute)) == s.Events.Date {
			t.Errorf("%s %s starts at %v", c.code, c.date, first)
		}
		for m := 0; m <= 30*60; m++ {
			clock := plan.ClockAt(m)
			if got := s.Clock(s.MinuteAt(clock)); got != clock && m/60 != c.skipped {
				t.Errorf("%s %s: %v comes back as %v", c.code, c.date, clock, got)
			}
		}
		for i := range s.Minutes {
			if s.MinuteOf(s.Time(i)) != i {
				t.Fatalf("minute %d is %d", i, s.MinuteOf(s.Time(i)))
			}
		}
		noon := s.Clock(s.MinuteOf(s.Events.Noon)).Minutes()
		if noon < 11*60 || noon > 14*60 { // these six places are within two hours of their zones' meridians
			t.Errorf("%s %s: noon at %v", c.code, c.date, s.Clock(s.MinuteOf(s.Events.Noon)))
		}
	}
}

// TestSkyIsTheSun: every minute of a sky on a day when the clock changes is the sun of that very instant.
func TestSkyIsTheSun(t *testing.T) {
	for _, day := range []string{"2026-03-08", "2026-11-01"} {
		p, zone := at(t, "LAX")
		s := NewSky(p, zone, date(t, day))
		for _, clock := range []int{60, 9 * 60, 16*60 + 30, 23 * 60} {
			i := s.MinuteAt(plan.ClockAt(clock))
			want := SunAt(*p.Property.Position, plan.Instant(s.Events.Date, plan.ClockAt(clock), zone))
			if d := skyApart(want, s.Minutes[i].Sun); !(d < 0.001) {
				t.Errorf("%s %v: %.4f degrees off", day, plan.ClockAt(clock), d)
			}
		}
	}
}

// TestPolarDay: on midsummer's day the sun over Longyearbyen goes all the way round (testdata/tables/sun-events.tsv), on
// midwinter's it stays down. That is a result, not an error.
func TestPolarDay(t *testing.T) {
	p, zone := at(t, "LYR")
	s := NewSky(p, zone, date(t, "2026-06-21"))
	if over := s.SunOver(); len(over) != 1 || over[0].From != s.Start || over[0].To != s.Time(len(s.Minutes)) {
		t.Errorf("the sun is up %v", over)
	}
	for b := plan.Bearing(0); b < 360; b += 15 {
		if len(s.FaceHours(b)) == 0 {
			t.Errorf("no sun from %v", b)
		}
	}
	if b := s.Events.EveningBand(s.Events.GoldenLow, s.Events.GoldenHigh); b.To.After(b.From) {
		t.Errorf("golden evening %v with the sun above 11 degrees all night", b)
	}
	s = NewSky(p, zone, date(t, "2026-12-21"))
	if over := s.SunOver(); over != nil {
		t.Errorf("the sun is up %v in the polar night", over)
	}
	for _, k := range []plan.WishKind{plan.Daylight, plan.HighSun, plan.GoldenEvening, plan.Sunset} {
		if w := s.Windows(s.Score(plan.Scene{Wish: plan.Wish{Kind: k}})); w != nil {
			t.Errorf("%s holds at %v in the polar night", k, w)
		}
	}
	if w := s.Windows(s.Score(plan.Scene{Wish: plan.Wish{Kind: plan.Dark}})); len(w) != 1 {
		t.Errorf("dark at %v in the polar night", w)
	}
}

// TestEveningPastMidnight: Reykjavik's midsummer sun sets at 00:03:58 of the next date (testdata/tables/sun-events.tsv). The
// sky runs on to the lower transit, and the wishes find it there, not in the small hours that end the evening before.
func TestEveningPastMidnight(t *testing.T) {
	p, zone := at(t, "REK")
	s := NewSky(p, zone, date(t, "2026-06-21"))
	golden := s.Windows(s.Score(plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening}}))
	if len(golden) != 1 {
		t.Fatalf("golden evening at %v", golden)
	}
	near(t, "begins as the sun sinks past 6 degrees", golden[0].From, utc(t, "2026-06-21T22:06:50Z"), time.Minute)
	near(t, "lasts to the lower transit", golden[0].To, s.Events.After, time.Minute)
	if clock := s.Clock(s.MinuteOf(golden[0].To)); clock.Minutes() <= 25*60 {
		t.Errorf("ends at %v, want past 25:00", clock)
	}
}

// TestBands: the golden stretches of days on which the sun does not pass both limits (testdata/tables/sun-events.tsv). Where
// it stays above the lower one they begin or end at midnight's transit, where it stays below the upper one at noon.
func TestBands(t *testing.T) {
	for _, c := range []struct {
		code, date             string
		from, to, again, until string // "before", "noon" and "after" are the day's transits; none: empty
	}{
		{"REK", "2026-06-21", "before", "04:52:21", "22:06:50", "after"},
		{"REK", "2026-12-21", "10:30:09", "noon", "noon", "16:21:35"},
		{"UIO", "2026-03-20", "11:05:20", "11:45:19", "22:57:10", "23:37:09"},
		{"LYR", "2026-06-21", "", "", "", ""},
		{"LYR", "2026-12-21", "", "", "", ""},
	} {
		p, zone := at(t, c.code)
		e := EventsOf(p.Property, zone, date(t, c.date), usual)
		morning, evening := e.MorningBand(e.GoldenLow, e.GoldenHigh), e.EveningBand(e.GoldenLow, e.GoldenHigh)
		transits := map[string]time.Time{"before": e.Before, "noon": e.Noon, "after": e.After, "": {}}
		for cell, got := range map[[2]string]time.Time{{"morning", c.from}: morning.From, {"morning ", c.to}: morning.To, {"evening", c.again}: evening.From, {"evening ", c.until}: evening.To} {
			want, ok := transits[cell[1]]
			if !ok {
				want, _ = moment(t, e.Date, cell[1])
			}
			near(t, c.code+" "+c.date+" "+cell[0], got, want, 15*time.Second)
		}
	}
}

// TestBandsOfAPolarDay: two degrees from the pole, at the equinox, the sun circles between -2 and 2 degrees: golden all day.
func TestBandsOfAPolarDay(t *testing.T) {
	e := EventsOf(under(plan.Position{Lat: 88}), time.UTC, date(t, "2026-03-20"), usual)
	if got, want := e.MorningBand(e.GoldenLow, e.GoldenHigh), (plan.Span{From: e.Before, To: e.Noon}); got != want {
		t.Errorf("golden morning %v, want %v", got, want)
	}
	if got, want := e.EveningBand(e.GoldenLow, e.GoldenHigh), (plan.Span{From: e.Noon, To: e.After}); got != want {
		t.Errorf("golden evening %v, want %v", got, want)
	}
	if got := e.EveningBand(e.BlueLow, e.BlueHigh); got != (plan.Span{}) {
		t.Errorf("blue evening %v", got)
	}
}

// TestLastMidnightSun: the season's last night with sun at Longyearbyen leads to its first sunset: that day has a sunset and
// no sunrise, and its morning belongs to the light all the same.
func TestLastMidnightSun(t *testing.T) {
	p, zone := at(t, "LYR")
	for d := date(t, "2026-06-21"); d.Year == 2026; d = d.AddDays(1) {
		e := EventsOf(p.Property, zone, d, usual)
		if e.Rise.Down.IsZero() {
			continue
		}
		if !e.Rise.Up.IsZero() || !e.Rise.Above {
			t.Errorf("%s: sunrise %v, stays above %v", d, e.Rise.Up, e.Rise.Above)
		}
		if b := e.MorningBand(e.Rise, e.GoldenHigh); b.From != e.Before || !b.To.After(b.From) {
			t.Errorf("%s: the morning's low sun is %v", d, b)
		}
		if d.Month != time.August { // the published end of its midnight sun is about 23 August (from memory)
			t.Errorf("first sunset on %s", d)
		}
		return
	}
	t.Error("the sun never sets")
}

// TestSkyReachesTheWrap: a sky holds every minute up to the lower transit after noon, and up to the latest wrap.
func TestSkyReachesTheWrap(t *testing.T) {
	p, zone := at(t, "LAX")
	for wrap, want := range map[int]string{20 * 60: "2026-06-22T07:54:58Z", 30 * 60: "2026-06-22T13:00:00Z", 36 * 60: "2026-06-22T19:00:00Z"} {
		p.Shooting.LatestWrap = plan.ClockAt(wrap)
		s := NewSky(p, zone, date(t, "2026-06-21"))
		near(t, "the sky's end", s.Time(len(s.Minutes)), utc(t, want), time.Minute) // the transit: 12 hours after noon's 19:54:52
	}
}

// TestCrossingsOfTheSkyline: over a level horizon the sun of a winter's day comes and goes once; behind a tower due south twice;
// in a canyon it comes late and goes early, or not at all. The tower is 40 degrees high, over the noon altitude of 32.509, and
// 20 degrees wide; the sun passes due south at noon (testdata/tables/sun-events.tsv).
func TestCrossingsOfTheSkyline(t *testing.T) {
	wall := func(altitude plan.Angle) []plan.SkyPoint {
		return []plan.SkyPoint{{Bearing: 0, Altitude: altitude}, {Bearing: 160, Altitude: altitude}, {Bearing: 161, Altitude: 5},
			{Bearing: 199, Altitude: 5}, {Bearing: 200, Altitude: altitude}}
	}
	for _, c := range []struct {
		name  string
		line  []plan.SkyPoint
		tower []plan.Obstacle
		want  int
	}{
		{"level", nil, nil, 1},
		{"tower", nil, []plan.Obstacle{{Name: "Tower", Height: 84, Distance: 100, From: 170, To: 190}}, 2},
		{"canyon", wall(60), nil, 1},
		{"pit", []plan.SkyPoint{{Bearing: 0, Altitude: 33}}, nil, 0},
	} {
		p, zone := at(t, "LAX")
		p.Property.Skyline, p.Property.Obstacles = c.line, c.tower
		s := NewSky(p, zone, date(t, "2027-12-21"))
		over := s.SunOver()
		if len(over) != c.want {
			t.Errorf("%s: sun at %v", c.name, over)
			continue
		}
		for i := 1; i < len(over); i++ {
			if !over[i].From.After(over[i-1].To) {
				t.Errorf("%s: out of order %v", c.name, over)
			}
		}
		noon := s.Events.Noon
		if seen := s.Minutes[s.MinuteOf(noon)].Direct(); seen != (c.name == "level" || c.name == "canyon") {
			t.Errorf("%s: sun at noon %v", c.name, seen)
		}
		if c.name == "canyon" && (noon.Sub(over[0].From) > 90*time.Minute || over[0].To.Sub(noon) > 90*time.Minute) {
			t.Errorf("sun in a canyon of 40 degrees at %v", over)
		}
	}
}

// TestZenith: at an equinox noon the sun stands over Quito's roofs (89.999 degrees, testdata/tables/sun-events.tsv): no wall
// is in its light but by a hair, and it falls no way into any room.
func TestZenith(t *testing.T) {
	p, zone := at(t, "UIO")
	s := NewSky(p, zone, date(t, "2027-09-23"))
	close(t, "noon altitude", float64(s.Events.NoonAltitude), 89.999, 0.01)
	noon := s.Minutes[s.MinuteOf(s.Events.Noon)]
	for b := plan.Bearing(0); b < 360; b += 5 {
		close(t, "incidence", float64(noon.Incidence(b)), 90, 0.2)
		if reach := math.Abs(float64(noon.Reach(b, 3))); !(reach < 0.02) {
			t.Errorf("the sun falls %.3f m into a room that looks %v", reach, b)
		}
	}
	if w := s.Windows(s.Score(plan.Scene{Wish: plan.Wish{Kind: plan.HighSun, MinAltitude: new(plan.Angle(89))}})); len(w) != 1 {
		t.Errorf("sun above 89 degrees at %v", w)
	}
}

// TestFarZones: where the zone's date is a day ahead of what the longitude alone would give, a date's events still fall on
// it. Kiritimati keeps UTC+14 at 157.4 W: mean noon is at 00:29 UTC less 24 hours' shift, 12:29 by its clock, and the true
// one within 17 minutes of that (the equation of time's range, Meeus ch. 28).
func TestFarZones(t *testing.T) {
	for _, c := range []struct {
		zone     string
		pos      plan.Position
		meanNoon int
	}{
		{"Pacific/Kiritimati", plan.Position{Lat: 1.87, Lon: -157.36}, 12*60 + 29},
		{"Pacific/Pago_Pago", plan.Position{Lat: -14.28, Lon: -170.7}, 12*60 + 23}, // UTC-11
		{"Asia/Kathmandu", plan.Position{Lat: 27.7172, Lon: 85.3240}, 12*60 + 4},   // UTC+5:45
		{"Pacific/Chatham", plan.Position{Lat: -43.95, Lon: -176.55}, 12*60 + 31},  // UTC+12:45, +1 in summer
		{"Asia/Shanghai", plan.Position{Lat: 39.47, Lon: 75.99}, 14*60 + 56},       // Kashgar keeps Peking's time
	} {
		zone, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		for _, day := range []string{"2026-02-11", "2026-05-14", "2026-07-26", "2026-11-03"} {
			e := EventsOf(under(c.pos), zone, date(t, day), usual)
			local := e.Noon.In(zone)
			got := local.Hour()*60 + local.Minute()
			if local.IsDST() {
				got -= 60
			}
			if plan.DateOf(local) != e.Date || got < c.meanNoon-18 || got > c.meanNoon+18 {
				t.Errorf("%s %s: noon at %v", c.zone, day, local)
			}
			if d := plan.DateOf(e.Rise.Up.In(zone)); d != e.Date {
				t.Errorf("%s: the sun of %s rises on %s", c.zone, day, d)
			}
			if d := plan.DateOf(e.Rise.Down.In(zone)); d != e.Date {
				t.Errorf("%s: the sun of %s sets on %s", c.zone, day, d)
			}
		}
	}
}

// TestEventsInOrder: a day's moments come in the order of their altitudes, those that come at all, and at each the sun
// stands where its name says. Only within a degree of the poles, where the sun's altitude follows the season and not the
// hour, is there no order.
func TestEventsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pos := anyPosition(t)
		pos.Lat *= 89.0 / 90
		zone := time.FixedZone("", rapid.IntRange(-12, 14).Draw(t, "offset")*3600)
		e := EventsOf(under(pos), zone, anyDate(t), usual)
		up := []Crossing{e.Astronomical, e.Nautical, e.Civil, e.GoldenLow, e.Rise, e.GoldenHigh}
		heights := []plan.Angle{-18, -12, -6, -4, RiseAltitude, 6}
		last, lastDown := e.Before, e.After
		for i, c := range up {
			for _, at := range []time.Time{c.Up, c.Down} {
				if at.IsZero() {
					continue
				}
				if h := SunAt(pos, at).Altitude; math.Abs(float64(h-heights[i])) > 0.01 {
					t.Fatalf("%v at %v, want %v", h, at, heights[i])
				}
			}
			if !c.Up.IsZero() {
				if c.Up.Before(last.Add(-time.Second)) {
					t.Fatalf("%v up at %v, before %v", heights[i], c.Up, last)
				}
				last = c.Up
			}
			if !c.Down.IsZero() {
				if c.Down.After(lastDown.Add(time.Second)) {
					t.Fatalf("%v down at %v, after %v", heights[i], c.Down, lastDown)
				}
				lastDown = c.Down
			}
			for _, side := range []struct{ at, transit time.Time }{{c.Up, e.Before}, {c.Down, e.After}} {
				low := SunAt(pos, side.transit).Altitude
				if above := low > heights[i]; side.at.IsZero() && c.Above != above && math.Abs(float64(low-heights[i])) > 0.001 {
					t.Fatalf("no crossing of %v, stays above %v, with %v at the transit %v", heights[i], c.Above, low, side.transit)
				}
			}
		}
		if last.After(e.Noon.Add(time.Second)) || lastDown.Before(e.Noon.Add(-time.Second)) {
			t.Fatalf("noon %v is not between %v and %v", e.Noon, last, lastDown)
		}
	})
}

func anyDate(t *rapid.T) plan.Date {
	return plan.Date{Year: 1900, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 73413).Draw(t, "day")) // to 2100-12-31
}

// TestSkylineRows are bearings and what stands there, by hand.
func TestSkylineRows(t *testing.T) {
	point := func(b plan.Bearing, h plan.Angle) plan.SkyPoint { return plan.SkyPoint{Bearing: b, Altitude: h} }
	tree := func(from, to plan.Bearing) plan.Obstacle {
		return plan.Obstacle{Height: 96, Distance: 120, From: from, To: to}
	}
	for _, c := range []struct {
		name  string
		house plan.Property
		at    plan.Bearing
		want  float64
	}{
		{"nothing", plan.Property{}, 200, 0},
		{"one corner is a wall all round", plan.Property{Skyline: []plan.SkyPoint{point(90, 4)}}, 271, 4},
		{"halfway between two", plan.Property{Skyline: []plan.SkyPoint{point(100, 2), point(200, 8)}}, 150, 5},
		{"over north", plan.Property{Skyline: []plan.SkyPoint{point(350, 2), point(30, 6)}}, 0, 3},
		{"over north, before it", plan.Property{Skyline: []plan.SkyPoint{point(350, 2), point(30, 6)}}, 355, 2.5},
		{"out of order", plan.Property{Skyline: []plan.SkyPoint{point(200, 8), point(100, 2)}}, 150, 5},
		{"a step: right of it", plan.Property{Skyline: []plan.SkyPoint{point(100, 2), point(100, 8), point(200, 8)}}, 100.001, 8},
		{"north written as 360", plan.Property{Skyline: []plan.SkyPoint{point(360, 4), point(180, 8)}}, 90, 6},
		{"a tree", plan.Property{Obstacles: []plan.Obstacle{tree(80, 100)}}, 90, 38.66},
		{"its edges", plan.Property{Obstacles: []plan.Obstacle{tree(80, 100)}}, 100, 38.66},
		{"beside it", plan.Property{Obstacles: []plan.Obstacle{tree(80, 100)}}, 101, 0},
		{"a tree across north", plan.Property{Obstacles: []plan.Obstacle{tree(350, 10)}}, 0, 38.66},
		{"its left half", plan.Property{Obstacles: []plan.Obstacle{tree(350, 10)}}, 351, 38.66},
		{"opposite", plan.Property{Obstacles: []plan.Obstacle{tree(350, 10)}}, 180, 0},
		{"the long way round", plan.Property{Obstacles: []plan.Obstacle{tree(10, 350)}}, 180, 38.66},
		{"and its gap", plan.Property{Obstacles: []plan.Obstacle{tree(10, 350)}}, 0, 0},
		{"trees all round", plan.Property{Obstacles: []plan.Obstacle{tree(0, 360)}}, 123, 38.66},
		{"bearing beyond a turn", plan.Property{Obstacles: []plan.Obstacle{tree(80, 100)}}, 90 + 720, 38.66},
	} {
		close(t, c.name, float64(NewSkyline(c.house).At(c.at)), c.want, 0.005)
	}
}

func anyHouse(t *rapid.T) plan.Property {
	h := plan.Property{Position: new(anyPosition(t))}
	bearing, altitude := rapid.Float64Range(0, 360), rapid.Float64Range(-2, 40)
	for range rapid.IntRange(0, 6).Draw(t, "corners") {
		h.Skyline = append(h.Skyline, plan.SkyPoint{
			Bearing: plan.Bearing(bearing.Draw(t, "bearing")), Altitude: plan.Angle(altitude.Draw(t, "altitude")),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "obstacles") {
		h.Obstacles = append(h.Obstacles, anyObstacle(t))
	}
	return h
}

func anyObstacle(t *rapid.T) plan.Obstacle {
	bearing := rapid.Float64Range(0, 360)
	return plan.Obstacle{
		Height:   plan.Metres(rapid.Float64Range(0, 50).Draw(t, "height")),
		Distance: plan.Metres(rapid.Float64Range(1, 300).Draw(t, "distance")),
		From:     plan.Bearing(bearing.Draw(t, "from")),
		To:       plan.Bearing(bearing.Draw(t, "to")),
	}
}

// TestSkylineOnlyTakesLight: raising the drawn line or planting another tree never lowers the skyline anywhere, and never
// adds a minute of direct sun.
func TestSkylineOnlyTakesLight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := anyHouse(t)
		high := low
		high.Skyline = nil
		raise := plan.Angle(rapid.Float64Range(0, 20).Draw(t, "raise"))
		for _, p := range low.Skyline {
			high.Skyline = append(high.Skyline, plan.SkyPoint{Bearing: p.Bearing, Altitude: p.Altitude + raise})
		}
		high.Obstacles = append([]plan.Obstacle{anyObstacle(t)}, low.Obstacles...)
		a, b := NewSkyline(low), NewSkyline(high)
		for bearing := plan.Bearing(0); bearing < 360; bearing += 7.3 {
			if b.At(bearing) < a.At(bearing)-1e-9 {
				t.Fatalf("at %v raised from %v to %v", bearing, a.At(bearing), b.At(bearing))
			}
		}
		day := anyDate(t)
		p, q := plan.New(), plan.New()
		p.Property, q.Property = low, high
		s, dim := NewSky(&p, time.UTC, day), NewSky(&q, time.UTC, day)
		for i := range s.Minutes {
			if dim.Minutes[i].Direct() && !s.Minutes[i].Direct() {
				t.Fatalf("sun at minute %d only behind the higher skyline", i)
			}
		}
	})
}

// TestSkylineClosesOverNorth: a full turn leads to the same place, and the drawn line has no seam at north.
func TestSkylineClosesOverNorth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHouse(t)
		line := NewSkyline(h)
		b := plan.Bearing(rapid.Float64Range(-360, 720).Draw(t, "bearing"))
		close := func(x, y plan.Angle) bool { return math.Abs(float64(x-y)) < 1e-3 }
		drawn := Skyline{corners: line.corners}
		for _, c := range drawn.corners {
			if c.Bearing < 1 || c.Bearing > 359 {
				return // a corner at north may be a step
			}
		}
		if !close(drawn.At(b), drawn.At(b+360)) && !close(drawn.At(b+1e-9), drawn.At(b+360-1e-9)) {
			t.Fatalf("%v at %v, %v a turn later", drawn.At(b), b, drawn.At(b+360))
		}
		if left, right := drawn.At(359.99999), drawn.At(0.00001); !close(left, right) {
			t.Fatalf("a seam at north: %v, %v", left, right)
		}
	})
}

// TestOppositeWalls: the sun is never on both sides of a house at once, and never on any while behind the skyline.
func TestOppositeWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		p.Property = anyHouse(t)
		s := NewSky(&p, time.UTC, anyDate(t))
		face := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))
		for i, m := range s.Minutes {
			lit, back := m.Lit(face), m.Lit(face+180)
			if lit && back {
				t.Fatalf("both sides lit at minute %d", i)
			}
			if (lit || back) && !m.Direct() {
				t.Fatalf("lit from behind the skyline at minute %d", i)
			}
		}
	})
}

// TestFaceHoursAreMinutes: the stretches of a face join exactly the minutes in which it is lit.
func TestFaceHoursAreMinutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		p.Property = anyHouse(t)
		s := NewSky(&p, time.UTC, anyDate(t))
		face := plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "face"))
		in := make([]bool, len(s.Minutes))
		for _, span := range s.FaceHours(face) {
			for i := s.MinuteOf(span.From); i < s.MinuteOf(span.To); i++ {
				in[i] = true
			}
		}
		for i, m := range s.Minutes {
			if in[i] != m.Lit(face) {
				t.Fatalf("minute %d: in a stretch %v, lit %v", i, in[i], m.Lit(face))
			}
		}
	})
}

// TestOfficialSun: of the dates around the sky's, and as on a free horizon at the height of the sea, whatever hill stands there and
// however thin the air is. Rise and set of Quito's equinox are as in TestRiseByHorizonAndAir.
func TestOfficialSun(t *testing.T) {
	p, zone := at(t, "UIO")
	p.Property.SeaHorizon, p.Property.Elevation, p.Property.Air = true, 100, &plan.Air{Pressure: 720, Temperature: 10}
	p.Property.Obstacles = []plan.Obstacle{{Height: 50, Distance: 100, From: 0, To: 359}}
	around := NewSky(p, zone, date(t, "2026-03-20")).Official()
	for i, want := range []string{"2026-03-19", "2026-03-20", "2026-03-21", "2026-03-22"} {
		if len(around) != 4 || around[i].Date != date(t, want) {
			t.Fatalf("%d dates, the first of %v", len(around), around[0].Date)
		}
	}
	near(t, "rise", around[1].Rise.Up, utc(t, "2026-03-20T11:18:00Z"), 3*time.Second)
	near(t, "set", around[1].Rise.Down, utc(t, "2026-03-20T23:24:29Z"), 3*time.Second)
	p.Property.Position = nil
	if got := NewSky(p, zone, date(t, "2026-03-20")).Official(); got != nil {
		t.Errorf("without a position: %v", got)
	}
}
