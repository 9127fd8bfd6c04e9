package light

import (
	"math"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/say"

	"pgregory.net/rapid"
)

// TestDaylightModel: IES RP-21 (1984), evaluated in Python by altitude and day of the year.
func TestDaylightModel(t *testing.T) {
	for _, c := range []struct {
		altitude             plan.Angle
		date                 string
		sun, clear, overcast float64
	}{
		{10, "2027-01-02", 6831.1, 7259.0, 3946.6}, {30, "2027-06-21", 40495.4, 11760.2, 10800},
		{45, "2027-03-20", 67544.1, 13833.9, 15149.2}, {60, "2027-06-21", 83764.4, 15224.4, 18486.5}, {90, "2027-12-21", 106788.7, 16300, 21300},
	} {
		clear, grey := DaylightAt(c.altitude, date(t, c.date), 0), DaylightAt(c.altitude, date(t, c.date), 1)
		close(t, "sun", clear.Sun, c.sun, 0.1)
		close(t, "clear sky", clear.Sky, c.clear, 0.1)
		close(t, "overcast sky", grey.Sky, c.overcast, 0.1)
		close(t, "overcast sun", grey.Sun, 0, 0)
		half := DaylightAt(c.altitude, date(t, c.date), 0.5)
		close(t, "half covered", half.Total(), (clear.Total()+grey.Total())/2, 0.1)
	}
}

// TestTwilight: what the American Meteorological Society's Glossary gives for clear evenings (stored text): 585 to 410 lux at
// sunset, 3.5 to 2 at the end of civil twilight, about 0.008 at that of nautical and 6e-4 at that of astronomical twilight.
func TestTwilight(t *testing.T) {
	for _, c := range []struct {
		altitude  plan.Angle
		low, high float64
	}{{RiseAltitude, 410, 585}, {-6, 2, 3.7}, {-12, 0.0075, 0.009}, {-18, 5.5e-4, 7e-4}, {-40, 5.5e-4, 7e-4}} {
		if got := DaylightAt(c.altitude, date(t, "2027-03-20"), 0).Total(); got < c.low || got > c.high {
			t.Errorf("at %v degrees: %.3g lux, want %g to %g", c.altitude, got, c.low, c.high)
		}
	}
}

// TestDaylightGlides: the light grows with the sun's altitude, has no step over 2 % where the models meet, and cloud never
// adds to it.
func TestDaylightGlides(t *testing.T) {
	day := date(t, "2027-03-20")
	rapid.Check(t, func(t *rapid.T) {
		h := plan.Angle(rapid.Float64Range(-20, 90).Draw(t, "altitude"))
		cloud, more := rapid.Float64Range(0, 1).Draw(t, "cloud"), rapid.Float64Range(0, 1).Draw(t, "more")
		light := DaylightAt(h, day, cloud)
		if higher := DaylightAt(h+0.1, day, cloud); higher.Total() < light.Total()*0.999 {
			t.Fatalf("%v at %v, %v higher up", light, h, higher)
		}
		if grey := DaylightAt(h, day, max(cloud, more)); grey.Total() > light.Total()*(1+1e-12) {
			t.Fatalf("%v under cloud of %v, %v under %v", light, cloud, grey, more)
		}
	})
	for _, joint := range []plan.Angle{0, -0.8, -5, -12, -18} {
		below, above := DaylightAt(joint-1e-6, day, 0).Total(), DaylightAt(joint+1e-6, day, 0).Total()
		close(t, "joint", below/above, 1, 0.02)
	}
}

// TestExposureValue: at ISO 100, f/8 and 1/125 s are EV 12.966 = log2(64 * 125), and a flat receptor with C = 250 asks for 20 000 lux
// there (N^2/t = E S/C, ISO 2720); 2.5 lux are EV 0, 5 are EV 1, 40 are EV 4 (makers' tables, stored text). Photographers' rule of
// f/16 at 1/100 s in full sun is EV 14.6.
func TestExposureValue(t *testing.T) {
	for lux, ev := range map[float64]float64{20000: 12.966, 2.5: 0, 5: 1, 40: 4} {
		close(t, "EV", ExposureValue(lux), ev, 0.0005)
	}
	close(t, "full sun, half a stop", ExposureValue(DaylightAt(45, date(t, "2027-03-20"), 0).Total()), math.Log2(16*16*100), 0.6)
}

// TestDaylightInSpaces: outdoors all of it, in open shade the sky's, in a room the usual 2 % of the sky's and the sun's in the
// patch; cloud takes from each.
func TestDaylightInSpaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := cabin(t)
		p.Shooting.Weather = []plan.Weather{{Cloud: rapid.SampledFrom([]int{0, 40, 100}).Draw(t, "cloud")}}
		s := NewSky(&p, time.UTC, anyDate(t))
		for i := 0; i < len(s.Minutes); i += 7 {
			open := DaylightAt(s.Minutes[i].Altitude, s.Events.Date, s.Cloud(i))
			for _, sp := range p.Property.Spaces {
				want := open
				if sp.Kind == plan.Indoor {
					want.Sky = open.Sky / 50
				}
				if !s.spot(sp.ID).sunlit(i) {
					want.Sun = 0
				}
				if got := s.Daylight(sp.ID, i); math.Abs(got.Total()-want.Total()) > 1e-6 {
					t.Fatalf("%s at minute %d: %+v, want %+v", sp.ID, i, got, want)
				}
			}
		}
	})
}

// TestLamps: the inverse square law (a textbook's: 100 lux at 1 m are 25 at 2 m and 11.1 at 3 m) and a stop for each halving.
func TestLamps(t *testing.T) {
	lamp := func(lux float64, rated, subject plan.Metres, loss float64) plan.Lamp {
		return plan.Lamp{Lux: lux, Rated: rated, Loss: loss, Subject: subject}
	}
	for _, c := range []struct {
		lamp plan.Lamp
		want float64
	}{
		{lamp(100, 1, 2, 0), 25}, {lamp(100, 1, 3, 0), 11.11}, {lamp(100, 1, 1, 0), 100}, {lamp(100, 1, 1, 1), 50},
		{lamp(100, 1, 1, 2), 25}, {lamp(7000, 1, 2.5, 1), 560}, {lamp(100, 3, 1, 0), 900}, {lamp(100, 0, 1, 0), 0}, {lamp(100, 1, 0, 0), 0},
	} {
		close(t, "lux", LampAt(c.lamp), c.want, 0.005)
	}
	for _, c := range []struct {
		lamp    plan.Lamp
		ambient float64
		holds   bool
		says    string
	}{
		{lamp(7000, 1, 2.5, 1), 900, false, "the lamp gives 560 lux at 2.5 m, the window light 900 lux: 0.7 stops under"},
		{lamp(7000, 1, 2.5, 1), 140, true, "the lamp gives 560 lux at 2.5 m, the window light 140 lux: 2.0 stops over"},
		{lamp(7000, 1, 2.5, 1), 560, true, "the lamp gives 560 lux at 2.5 m, the window light 560 lux: as much"},
		{lamp(0, 1, 2.5, 1), 560, false, "the lamp gives no light as it is described"},
		{lamp(7000, 1, 2.5, 1), 0, true, "the lamp gives 560 lux at 2.5 m, the window light 0 lux: 29.1 stops over"},
	} {
		got := LampHolds(c.lamp, c.ambient, say.That("lit by|the window light"))
		if got.Holds() != c.holds || got.String() != c.says {
			t.Errorf("%v %q, want %v %q", got.Holds(), got, c.holds, c.says)
		}
	}
}

// TestSmallLampsLoseToTheSun: by day, outdoors, a lamp of 7000 lux at 1 m does not hold at 2.5 m; at night it does (common
// practice, no published source).
func TestSmallLampsLoseToTheSun(t *testing.T) {
	p, zone := at(t, "LAX")
	p.Property.Faces = []plan.Face{{ID: "front", Bearing: 180}}
	p.Property.Spaces = []plan.Space{{ID: "room", Faces: []plan.ID{"front"}, Head: 2.2}, {ID: "lawn", Kind: plan.Outdoor}}
	s := NewSky(p, zone, date(t, "2027-03-06"))
	lamp := &plan.Lamp{Lux: 7000, Rated: 1, Subject: 2.5}
	for _, c := range []struct {
		space  plan.ID
		hour   int
		holds  bool
		called string
	}{{"lawn", 12, false, "the sun"}, {"lawn", 23, true, "the daylight"}, {"room", 12, false, "the sun in the room"}, {"room", 23, true, "the window light"}} {
		got, ok := s.Lamp(plan.Scene{Space: c.space, Lamp: lamp}, s.MinuteAt(plan.ClockAt(c.hour*60)))
		if !ok || got.Holds() != c.holds || got.Called.String() != c.called {
			t.Errorf("%s at %d: %v", c.space, c.hour, got)
		}
	}
	if _, ok := s.Lamp(plan.Scene{Space: "room"}, 700); ok {
		t.Error("a scene without a lamp")
	}
	if _, ok := s.Lamp(plan.Scene{Space: "room", Lamp: lamp}, -1); ok {
		t.Error("a minute outside the sky")
	}
}
