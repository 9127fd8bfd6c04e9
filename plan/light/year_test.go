package light

import (
	"context"
	"errors"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// TestYearIsItsDays: each date of a year tells what the sky of that date alone tells, at places and of wishes drawn at random, in
// zones of every kind.
func TestYearIsItsDays(t *testing.T) {
	scenes := wishes(200)
	for seed, name := range []string{"UTC", "America/Los_Angeles", "Asia/Kathmandu", "Pacific/Chatham", "Pacific/Kiritimati", "Europe/Oslo"} {
		zone, err := time.LoadLocation(name)
		if err != nil {
			t.Fatal(err)
		}
		p := rapid.Custom(cabin).Example(seed)
		sc := scenes[seed*5%len(scenes)]
		sc.Space = "terrace"
		year, err := YearOf(t.Context(), &p, zone, sc, 2020+8*seed)
		if err != nil {
			t.Fatal(err)
		}
		for i := 0; i < len(year); i += 17 {
			day := year[i]
			if want := (plan.Date{Year: 2020 + 8*seed, Month: 1, Day: 1}).AddDays(i); day.Date != want {
				t.Fatalf("%v at place %d, want %v", day.Date, i, want)
			}
			s := NewSky(&p, zone, day.Date)
			windows := s.Windows(s.Score(sc))
			if len(windows) != len(day.Holds) {
				t.Fatalf("seed %d, %s on %v: %v, its sky has %v", seed, sc.ID, day.Date, day.Holds, windows)
			}
			for i, w := range windows {
				from, to := s.Clock(s.MinuteOf(w.From)).Minutes(), s.Clock(s.MinuteOf(w.To)).Minutes()
				close(t, name+" begins", float64(day.Holds[i].From.Minutes()), float64(from), 1)
				close(t, name+" ends", float64(day.Holds[i].To.Minutes()), float64(to), 1)
			}
		}
	}
}

// TestYearByTheTables: golden evenings of Los Angeles (testdata/tables/sun-events.tsv, in local time), among them the days on
// which its clocks change.
func TestYearByTheTables(t *testing.T) {
	p, zone := at(t, "LAX")
	year, err := YearOf(t.Context(), p, zone, plan.Scene{Wish: plan.Wish{Kind: plan.GoldenEvening}}, 2026)
	if err != nil || len(year) != 365 {
		t.Fatalf("%d days, %v", len(year), err)
	}
	found := 0
	for _, day := range year {
		want, ok := map[string][4]int{ // rise, set, 6 degrees, -4 degrees, in minutes of the day
			"2026-03-08": {7*60 + 12, 18*60 + 55, 18*60 + 22, 19*60 + 11},
			"2026-06-21": {5*60 + 42, 20*60 + 8, 19*60 + 31, 20*60 + 25},
			"2026-11-01": {6*60 + 13, 17*60 + 0, 16*60 + 25, 17*60 + 16},
		}[day.Date.String()]
		if len(day.Holds) != 1 {
			t.Fatalf("%v: golden evening at %v", day.Date, day.Holds)
		}
		if !ok {
			continue
		}
		found++
		for i, got := range []plan.Clock{day.Rise, day.Set, day.Holds[0].From, day.Holds[0].To} {
			close(t, day.Date.String(), float64(got.Minutes()), float64(want[i]), 1.01)
		}
	}
	if found != 3 {
		t.Errorf("%d of 3 days", found)
	}
}

// TestPolarYear: over Longyearbyen the sun does not set from about 20 April to 23 August nor rise from about 26 October to 16
// February (published for that town, from memory; a week is allowed).
func TestPolarYear(t *testing.T) {
	p, zone := at(t, "LYR")
	year, err := YearOf(t.Context(), p, zone, plan.Scene{Wish: plan.Wish{Kind: plan.Daylight}}, 2027)
	if err != nil {
		t.Fatal(err)
	}
	light, dark := 0, 0
	for _, d := range year {
		switch {
		case len(d.Holds) == 0:
			dark++
		case !d.Rise.IsSet() && !d.Set.IsSet():
			light++
		}
	}
	close(t, "days of midnight sun", float64(light), 125, 7)
	close(t, "days of polar night", float64(dark), 113, 7)
}

// TestYearCanBeCancelled: and then says so.
func TestYearCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	p, zone := at(t, "LAX")
	if year, err := YearOf(ctx, p, zone, plan.Scene{}, 2027); !errors.Is(err, context.Canceled) || year != nil {
		t.Errorf("%d days, %v", len(year), err)
	}
	if year, err := YearOf(t.Context(), p, zone, plan.Scene{Wish: plan.Wish{Kind: plan.Backlit}}, 2028); err != nil || len(year) != 366 || year[100].Holds != nil || !year[100].Rise.IsSet() {
		t.Errorf("a wish that lacks its camera: %d days, %v", len(year), err)
	}
}
