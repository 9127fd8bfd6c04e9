package light

import (
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestForecastRows, by hand: a date's own row goes before one of every date, the later row before the earlier, open ends reach
// to the ends of the shooting day, and hours that no row covers are clear.
func TestForecastRows(t *testing.T) {
	p, zone := at(t, "LAX")
	d := date(t, "2027-03-06")
	hour := func(h int) plan.Clock { return plan.ClockAt(h * 60) }
	p.Shooting.Weather = []plan.Weather{
		{Date: d, From: hour(14), To: hour(16), Cloud: 80, Rain: 40},
		{From: hour(10), To: hour(20), Cloud: 20, Rain: 5},
		{Date: d.AddDays(1), Cloud: 100, Rain: 100},
		{Date: d, From: hour(15), To: hour(16), Cloud: 90, Rain: 50},
		{From: hour(22), Cloud: 30},
		{To: hour(2), Rain: 10},
	}
	s := NewSky(p, zone, d)
	for clock, want := range map[int][2]float64{0: {0, 0.1}, 2: {0, 0}, 9: {0, 0}, 10: {0.2, 0.05}, 14: {0.8, 0.4}, 15: {0.9, 0.5}, 16: {0.2, 0.05}, 20: {0, 0}, 22: {0.3, 0}, 24: {0.3, 0}} {
		i := s.MinuteAt(hour(clock))
		if s.Cloud(i) != want[0] || s.Rain(i) != want[1] {
			t.Errorf("%d:00: cloud %v, rain %v, want %v", clock, s.Cloud(i), s.Rain(i), want)
		}
	}
	at := func(h int) time.Time { return s.Time(s.MinuteAt(hour(h))) }
	cloud, rain := s.Expect(at(14), at(16))
	close(t, "mean cloud", cloud, 0.85, 1e-9)
	close(t, "mean rain", rain, 0.45, 1e-9)
	cloud, _ = s.Expect(at(19), at(21))
	close(t, "half covered", cloud, 0.1, 1e-9)
	cloud, _ = s.Expect(at(15), at(15))
	close(t, "a moment", cloud, 0.9, 1e-9)
	clear, _ := NewSky(p, zone, d.AddDays(2)).Expect(at(7), at(8))
	close(t, "another date", clear, 0, 1e-9)
}

// TestWeatherOnClockChangeDays: hours of the wall clock, on the day of 23 and that of 25.
func TestWeatherOnClockChangeDays(t *testing.T) {
	for _, day := range []string{"2026-03-08", "2026-11-01"} {
		p, zone := at(t, "LAX")
		p.Shooting.Weather = []plan.Weather{{From: plan.ClockAt(9 * 60), To: plan.ClockAt(11 * 60), Cloud: 50}}
		s := NewSky(p, zone, date(t, day))
		for i := range s.Minutes {
			if c := s.Clock(i).Minutes(); (s.Cloud(i) > 0) != (c >= 9*60 && c < 11*60) {
				t.Fatalf("%s %v: cloud %v", day, s.Clock(i), s.Cloud(i))
			}
		}
	}
}

// TestWeatherOnlyLowers: weather never raises a value and never moves a window; of a wish that asks for the sun it takes the
// covered share, of another nothing.
func TestWeatherOnlyLowers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := cabin(t)
		q := p
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			from := rapid.IntRange(0, 24*60).Draw(t, "from")
			q.Shooting.Weather = append(q.Shooting.Weather, plan.Weather{From: plan.ClockAt(from), To: plan.ClockAt(from + rapid.IntRange(1, 600).Draw(t, "length")),
				Cloud: rapid.IntRange(0, 100).Draw(t, "cloud"), Rain: rapid.IntRange(0, 100).Draw(t, "rain")})
		}
		day := anyDate(t)
		s, grey := NewSky(&p, time.UTC, day), NewSky(&q, time.UTC, day)
		for _, sc := range wishes(plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "camera"))) {
			a, b := s.Score(sc), grey.Score(sc)
			for i := range a.Value {
				want := a.Value[i]
				if NeedsSun(sc.Wish) {
					want *= 1 - grey.Cloud(i)
				}
				if b.Value[i] > a.Value[i] || b.Value[i] != want || a.Holds[i] != b.Holds[i] {
					t.Fatalf("%s at minute %d: %v, under cloud of %v %v", sc.ID, i, a.Value[i], grey.Cloud(i), b.Value[i])
				}
			}
		}
	})
}

// TestNeedsSun: which wishes ask for the sun itself, by the table of the design.
func TestNeedsSun(t *testing.T) {
	needs := map[plan.WishKind]bool{plan.Sunrise: true, plan.Sunset: true, plan.FaceLit: true, plan.Backlit: true, plan.SideLit: true,
		plan.FrontLit: true, plan.SunPatch: true, plan.HighSun: true}
	for _, k := range plan.WishKinds {
		if got := NeedsSun(plan.Wish{Kind: k}); got != needs[k] {
			t.Errorf("%s needs the sun: %v", k, got)
		}
	}
	if !NeedsSun(plan.Wish{Kind: plan.GoldenEvening, Direct: true}) || NeedsSun(plan.Wish{}) {
		t.Error("direct gold, or no wish at all")
	}
}
