package papers

import (
	"slices"
	"strings"
	"testing"
	"time"
)

func zoneNamed(t testing.TB, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func moment(t testing.TB, s string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, s)
	if err != nil {
		t.Fatal(err)
	}
	return at
}

// TestRFC5545Section3_6_5: the two observances of its examples for New York, from 1997 on; offsets as in section 3.3.14.
func TestRFC5545Section3_6_5(t *testing.T) {
	zone := strings.Join(timeZone(zoneNamed(t, "America/New_York"), moment(t, "1997-07-01T00:00:00Z"), moment(t, "1997-07-02T00:00:00Z")), "\n")
	for _, want := range []string{
		"BEGIN:VTIMEZONE\nTZID:America/New_York\n",
		"BEGIN:STANDARD\nDTSTART:19971026T020000\nTZOFFSETFROM:-0400\nTZOFFSETTO:-0500\nTZNAME:EST\nEND:STANDARD\n",
		"BEGIN:DAYLIGHT\nDTSTART:19970406T020000\nTZOFFSETFROM:-0500\nTZOFFSETTO:-0400\nTZNAME:EDT\nEND:DAYLIGHT\n",
	} {
		if !strings.Contains(zone, want) {
			t.Errorf("%q is not in\n%s", want, zone)
		}
	}
}

// TestTimeZones: the changes of 2026 are those of the IANA data of 2025b as Python's zoneinfo has them; the times on the clock at the
// changes follow from them by arithmetic.
func TestTimeZones(t *testing.T) {
	at := moment(t, "2026-06-01T00:00:00Z")
	for zone, want := range map[string][]string{
		"America/Los_Angeles": {"DAYLIGHT 20260308T020000 -0800 -0700", "STANDARD 20261101T020000 -0700 -0800"},
		"Europe/London":       {"DAYLIGHT 20260329T010000 +0000 +0100", "STANDARD 20261025T020000 +0100 +0000"},
		"Pacific/Auckland":    {"STANDARD 20260405T030000 +1300 +1200", "DAYLIGHT 20260927T020000 +1200 +1300"},
		"Asia/Kathmandu":      {"STANDARD 19860101T000000 +0530 +0545"},
		"Atlantic/Reykjavik":  {"STANDARD 19700101T000000 +0000 +0000"},
	} {
		got := observances(timeZone(zoneNamed(t, zone), at, at))
		for _, w := range want {
			if !slices.Contains(got, w) {
				t.Errorf("%s: %q is not in %q", zone, w, got)
			}
		}
		if steady := len(want) == 1; steady != (len(got) == 1) {
			t.Errorf("%s: %q", zone, got)
		}
	}
	for _, zone := range []string{"UTC", "Etc/UTC"} {
		if got := timeZone(zoneNamed(t, zone), at, at); got != nil {
			t.Errorf("%s: %q", zone, got)
		}
	}
}

func observances(lines []string) []string {
	var out []string
	for i, line := range lines {
		if kind, ok := strings.CutPrefix(line, "BEGIN:"); ok && kind != "VTIMEZONE" {
			value := func(n int) string { _, v, _ := strings.Cut(lines[i+n], ":"); return v }
			out = append(out, kind+" "+value(1)+" "+value(2)+" "+value(3))
		}
	}
	return out
}

// TestRFC5545Section3_3_5: its forms of one moment, and the hour that is shown twice. Changes as in TestTimeZones.
func TestRFC5545Section3_3_5(t *testing.T) {
	for _, c := range []struct{ zone, at, want string }{
		{"America/New_York", "1998-01-19T07:00:00Z", "X;TZID=America/New_York:19980119T020000"}, // form 3
		{"UTC", "1998-01-19T07:00:00Z", "X:19980119T070000Z"},                                   // form 2
		{"Etc/UTC", "1998-01-19T07:00:00Z", "X:19980119T070000Z"},
		{"Atlantic/Reykjavik", "1998-01-19T07:00:00Z", "X;TZID=Atlantic/Reykjavik:19980119T070000"},
		{"America/Los_Angeles", "2026-11-01T07:59:00Z", "X;TZID=America/Los_Angeles:20261101T005900"},
		{"America/Los_Angeles", "2026-11-01T08:00:00Z", "X:20261101T080000Z"}, // 01:00 for the first time
		{"America/Los_Angeles", "2026-11-01T09:59:00Z", "X:20261101T095900Z"}, // 01:59 for the second time
		{"America/Los_Angeles", "2026-11-01T10:00:00Z", "X;TZID=America/Los_Angeles:20261101T020000"},
		{"Europe/London", "2026-03-29T00:59:00Z", "X;TZID=Europe/London:20260329T005900"},
		{"Europe/London", "2026-03-29T01:00:00Z", "X;TZID=Europe/London:20260329T020000"},
		{"Asia/Kathmandu", "2026-03-29T01:00:00Z", "X;TZID=Asia/Kathmandu:20260329T064500"},
	} {
		if got := dateTime("X", moment(t, c.at), zoneNamed(t, c.zone)); got != c.want {
			t.Errorf("%s in %s: %s, want %s", c.at, c.zone, got, c.want)
		}
	}
}

// TestRFC5545Section3_3_6: "-PT15M" stands in section 3.8.6.3; the others follow from the grammar.
func TestRFC5545Section3_3_6(t *testing.T) {
	for d, want := range map[time.Duration]string{15 * time.Minute: "-PT15M", 2 * time.Hour: "-PT2H", 25*time.Hour + 5*time.Minute: "-PT25H5M"} {
		if got := durationBefore(d); got != want {
			t.Errorf("%v: %s, want %s", d, got, want)
		}
	}
}

// TestRFC5545Section3_3_14: its two examples, and the seconds that it allows.
func TestRFC5545Section3_3_14(t *testing.T) {
	for d, want := range map[time.Duration]string{-5 * time.Hour: "-0500", time.Hour: "+0100", 0: "+0000", 5*time.Hour + 45*time.Minute: "+0545", -(75*time.Second + time.Hour): "-010115"} {
		if got := utcOffset(d); got != want {
			t.Errorf("%v: %s, want %s", d, got, want)
		}
	}
}
