package light

import (
	"testing"
	"time"

	"eavelight/plan"
)

// TestMoonDays: moonrise, moonset and the lit share at six places (testdata/tables/sun-moon-positions.tsv) within the table's
// own tolerances, 120 s and 0.005.
func TestMoonDays(t *testing.T) {
	all := places(t)
	for _, r := range table(t, "sun-moon-positions.tsv") {
		at, d := all[r[0]], date(t, r[1])
		m := MoonDayOf(under(at.Position), at.zone, d)
		for name, c := range map[string]struct {
			got  time.Time
			cell string
		}{" moonrise": {m.Rise, r[10]}, " moonset": {m.Set, r[11]}} {
			if c.cell == "none" {
				if !c.got.IsZero() {
					t.Errorf("%s %s%s at %v, want none", r[0], r[1], name, c.got)
				}
				continue
			}
			want, _ := moment(t, d, c.cell)
			near(t, r[0]+" "+r[1]+name, c.got, want, 120*time.Second)
			if on := plan.DateOf(c.got.In(at.zone)); on != d {
				t.Errorf("%s %s%s on %s", r[0], r[1], name, on)
			}
		}
		close(t, r[0]+" "+r[1]+" lit at nine", m.Lit, number(t, r[9]), 0.005)
		if m.Rise.IsZero() == m.Set.IsZero() { // both or none: it ends the day as it began it
			continue
		}
		if m.Up != m.Rise.IsZero() {
			t.Errorf("%s %s: up at midnight %v, rises at %v, sets at %v", r[0], r[1], m.Up, m.Rise, m.Set)
		}
	}
}

// TestMoonByHorizonAndAir: as with the sun, over the sea (100 m: 17.6') the moon rises earlier and sets later, in thin air (half of
// 34' at 505 hPa) the other way round; at that moment its upper limb stands on that horizon.
func TestMoonByHorizonAndAir(t *testing.T) {
	p, zone := at(t, "LAX")
	d := date(t, "2026-06-21")
	level := MoonDayOf(p.Property, zone, d)
	for _, c := range []struct {
		house   plan.Property
		horizon float64 // minutes of arc
		earlier bool
	}{
		{plan.Property{SeaHorizon: true, Elevation: 100}, -34 - 17.6, true},
		{plan.Property{Air: &plan.Air{Pressure: 505, Temperature: 10}}, -17, false},
	} {
		c.house.Position = p.Property.Position
		m := MoonDayOf(c.house, zone, d)
		if m.Rise.Before(level.Rise) != c.earlier || m.Set.After(level.Set) != c.earlier {
			t.Errorf("%+v: %v to %v, level %v to %v", c.house, m.Rise, m.Set, level.Rise, level.Set)
		}
		for _, at := range []time.Time{m.Rise, m.Set} {
			limb := MoonAt(*p.Property.Position, at)
			close(t, "upper limb", 60*float64(limb.Altitude+limb.Radius), c.horizon, 0.3) // a second is worth 0.25'
		}
	}
}

// TestMoonUpOrDown: at Longyearbyen the moon stays up on 2026-12-21 and down on 2027-03-28 (its altitudes at 21:00 are +35.57
// and -36.51 in the notes under testdata/tables' sources).
func TestMoonUpOrDown(t *testing.T) {
	p, zone := at(t, "LYR")
	for day, altitude := range map[string]float64{"2026-12-21": 35.57, "2027-03-28": -36.51, "2028-10-05": 19.58} {
		m := MoonDayOf(p.Property, zone, date(t, day))
		if m.Up != (altitude > 0) || !m.Rise.IsZero() || !m.Set.IsZero() {
			t.Errorf("%s: %+v", day, m)
		}
		s := NewSky(p, zone, date(t, day))
		close(t, day+" altitude", float64(s.Moon(s.MinuteAt(plan.ClockAt(21*60))).Altitude), altitude, 0.05)
	}
}

// TestMoonQuarters: how much is lit at the moon's quarters of 2026 (astronomy-engine 2.1.19): nothing, half, all, half.
func TestMoonQuarters(t *testing.T) {
	for at, want := range map[string]float64{"2026-06-15T02:54:00Z": 0, "2026-06-21T21:55:00Z": 0.5, "2026-06-29T23:57:00Z": 1, "2026-07-07T19:29:00Z": 0.5} {
		close(t, at, MoonAt(plan.Position{}, utc(t, at)).Lit, want, 0.005)
	}
}

// TestMoonRadius: the moon is 14.7' to 16.8' in radius (Meeus ch. 55 and the extremes of its distance, ch. 50).
func TestMoonRadius(t *testing.T) {
	for at := utc(t, "2026-01-01T00:00:00Z"); at.Year() < 2028; at = at.AddDate(0, 0, 3) {
		if r := MoonAt(plan.Position{}, at).Radius * 60; r < 14.69 || r > 16.77 {
			t.Errorf("%v: %.2f minutes of arc", at, r)
		}
	}
}
