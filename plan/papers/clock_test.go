package papers

import (
	"testing"
	"time"

	"eavelight/plan"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func TestClockMarksOtherDates(t *testing.T) {
	w := wall{style{}, plan.Date{Year: 2027, Month: 3, Day: 6}, zone(t, "America/Los_Angeles")}
	at := func(day, hour, minute, second int) time.Time {
		return time.Date(2027, 3, day, hour, minute, second, 0, w.zone)
	}
	for _, c := range []struct {
		name string
		at   time.Time
		want string
	}{
		{"evening", at(6, 18, 5, 0), "18:05"},
		{"first minute", at(6, 0, 0, 0), "00:00"},
		{"next date", at(7, 0, 20, 0), "00:20\u00a0+1"},
		{"rounded over midnight", at(6, 23, 59, 40), "00:00\u00a0+1"},
		{"date before", at(5, 23, 50, 0), "23:50\u00a0-1"},
		{"two dates on, past the last Clock", at(8, 13, 0, 0), "13:00\u00a0+2"},
		{"given in another zone", time.Date(2027, 3, 7, 8, 20, 0, 0, time.UTC), "00:20\u00a0+1"},
		{"no time", time.Time{}, "not set"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := w.clock(c.at); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
	if got, want := w.span(plan.Span{From: at(6, 23, 40, 0), To: at(7, 0, 20, 0)}), "23:40–00:20\u00a0+1"; got != want {
		t.Errorf("over midnight: got %q, want %q", got, want)
	}
	if got, want := w.span(plan.Span{From: at(7, 0, 10, 0), To: at(7, 0, 20, 0)}), "00:10–00:20\u00a0+1"; got != want {
		t.Errorf("after midnight: got %q, want %q", got, want)
	}
}

// The offsets are those of the IANA time zone database: US daylight time begins on 14 March 2027 at 02:00; Nepal is 5:45
// ahead, the Marquesas 9:30 behind.
func TestOffsets(t *testing.T) {
	for _, c := range []struct {
		zone, at, want string
	}{
		{"America/Los_Angeles", "2027-03-14T09:59:00Z", "UTC-8"},
		{"America/Los_Angeles", "2027-03-14T10:00:00Z", "UTC-7"},
		{"Asia/Kathmandu", "2027-03-14T10:00:00Z", "UTC+5:45"},
		{"Pacific/Marquesas", "2027-03-14T10:00:00Z", "UTC-9:30"},
		{"UTC", "2027-03-14T10:00:00Z", "UTC"},
	} {
		at, err := time.Parse(time.RFC3339, c.at)
		if err != nil {
			t.Fatal(err)
		}
		if got := (wall{zone: zone(t, c.zone)}).offset(at); got != c.want {
			t.Errorf("%s at %s: got %s, want %s", c.zone, c.at, got, c.want)
		}
	}
}

func TestFootTellsAChangeOfTheClock(t *testing.T) {
	p, d := demo(t)
	d.Date = plan.Date{Year: 2027, Month: 3, Day: 14}
	d.Call = plan.Instant(d.Date, plan.ClockAt(60), d.Zone)
	d.Wrap = plan.Instant(d.Date, plan.ClockAt(12*60), d.Zone)
	if got, want := CallSheet(&p, d).Foot, "day 1 of 1, revision 1 · times are local: America/Los_Angeles (UTC-8 at call, UTC-7 at wrap)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
