package papers

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// khal is a calendar program for the terminal, with a calendar of its own in a folder of the test.
type khal struct{ home string }

// newKhal sets a calendar up for somebody whose clock shows the time of a zone.
func newKhal(t testing.TB, zone string) khal {
	t.Helper()
	if _, err := exec.LookPath("khal"); err != nil {
		t.Skip("no khal here (Debian: apt install khal); calendars are held against libraries only")
	}
	k := khal{t.TempDir()}
	settings := fmt.Sprintf(`[calendars]
[[shoot]]
path = %[1]s/shoot
[default]
default_calendar = shoot
[sqlite]
path = %[1]s/khal.db
[locale]
local_timezone = %[2]s
default_timezone = %[2]s
timeformat = %%H:%%M
dateformat = %%Y-%%m-%%d
longdateformat = %%Y-%%m-%%d
datetimeformat = %%Y-%%m-%%d %%H:%%M
longdatetimeformat = %%Y-%%m-%%d %%H:%%M
`, k.home, zone)
	if err := os.WriteFile(filepath.Join(k.home, "settings"), []byte(settings), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(k.home, "shoot"), 0o700); err != nil {
		t.Fatal(err)
	}
	return k
}

func (k khal) run(t testing.TB, args ...string) string {
	t.Helper()
	cmd := exec.Command("khal", append([]string{"-c", filepath.Join(k.home, "settings")}, args...)...)
	cmd.Dir = k.home
	cmd.Env = append(os.Environ(), "HOME="+k.home, "XDG_CONFIG_HOME="+k.home, "XDG_DATA_HOME="+k.home, "XDG_CACHE_HOME="+k.home, "LC_ALL=C.UTF-8")
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("khal %v: %v: %s", args, err, complaint.String())
	}
	return string(out)
}

// take opens a calendar file, as somebody does who gets it.
func (k khal) take(t testing.TB, content []byte) {
	t.Helper()
	file := filepath.Join(k.home, "got.ics")
	if err := os.WriteFile(file, content, 0o600); err != nil {
		t.Fatal(err)
	}
	k.run(t, "import", "--batch", "-a", "shoot", file)
}

// shows are the events of a week, a line each.
func (k khal) shows(t testing.TB, from plan.Date) []string {
	t.Helper()
	var out []string
	for line := range strings.SplitSeq(k.run(t, "list", "--once", "--day-format", "", "--format", "{start-long} to {end-long}: {title} {status}", from.String(), "7d"), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			out = append(out, line)
		}
	}
	return out
}

// TestKhalShowsLocalTimes: days on which clocks change are shown by the clock of whoever looks. In the United States clocks go from 2:00 to
// 3:00 on the second Sunday in March and from 2:00 to 1:00 on the first in November (15 U.S.C. 260a), in the European Union from 1:00 UTC
// on the last Sunday in October (Directive 2000/84/EC, article 3).
func TestKhalShowsLocalTimes(t *testing.T) {
	const pacific, central = "America/Los_Angeles", "Europe/Berlin"
	type night struct{ zone, date, call, wrap, shown string }
	for _, c := range []struct {
		viewer string
		from   plan.Date
		nights []night
	}{
		{pacific, plan.Date{Year: 2026, Month: 3, Day: 5}, []night{
			{pacific, "2026-03-07", "2026-03-08T00:00:00Z", "2026-03-08T11:30:00Z", "2026-03-07 16:00 to 2026-03-08 04:30"}, // over the night of the change
			{pacific, "2026-03-08", "2026-03-08T12:00:00Z", "2026-03-09T01:00:00Z", "2026-03-08 05:00 to 2026-03-08 18:00"}}},
		{pacific, plan.Date{Year: 2026, Month: 10, Day: 29}, []night{
			{pacific, "2026-10-31", "2026-11-01T00:30:00Z", "2026-11-01T10:30:00Z", "2026-10-31 17:30 to 2026-11-01 02:30"},
			{pacific, "2026-11-01", "2026-11-01T13:00:00Z", "2026-11-02T02:00:00Z", "2026-11-01 05:00 to 2026-11-01 18:00"}}},
		{central, plan.Date{Year: 2026, Month: 10, Day: 22}, []night{
			{central, "2026-10-24", "2026-10-24T20:00:00Z", "2026-10-25T05:00:00Z", "2026-10-24 22:00 to 2026-10-25 06:00"},
			{central, "2026-10-25", "2026-10-25T06:00:00Z", "2026-10-25T17:00:00Z", "2026-10-25 07:00 to 2026-10-25 18:00"}}},
		{central, plan.Date{Year: 2026, Month: 3, Day: 5}, []night{ // somebody who looks from elsewhere, where clocks have not changed yet
			{pacific, "2026-03-08", "2026-03-08T12:00:00Z", "2026-03-08T22:00:00Z", "2026-03-08 13:00 to 2026-03-08 23:00"}}},
	} {
		k := newKhal(t, c.viewer)
		var want []string
		for _, n := range c.nights {
			k.take(t, []byte(nightOf(t, n.zone, n.date, n.call, n.wrap).Text))
			want = append(want, n.shown+": A day at Quillfern House CONFIRMED")
		}
		if got := k.shows(t, c.from); !slices.Equal(got, want) {
			t.Errorf("%s shows %q, want %q", c.viewer, got, want)
		}
	}
}

// TestKhalMovesEvents: a calendar that is sent again moves its events instead of doubling them, and one of a shoot that is called off says so
// of each; a guardian has the minors' beside their own.
func TestKhalMovesEvents(t *testing.T) {
	p, days := toWrite(t)
	k := newKhal(t, p.Property.Zone)
	take := func(c Calendars) []string {
		p = remembered(t, p, c)
		f, _ := c.of("amara")
		k.take(t, f.Content)
		got := k.shows(t, plan.Date{Year: 2027, Month: 3, Day: 4})
		slices.Sort(got)
		return got
	}
	events := func(date string) []string {
		return []string{date + " 06:30 to " + date + " 18:15: A day at Quillfern House CONFIRMED", date + " 07:20 to " + date + " 16:45: Jon Sandoval: A day at Quillfern House CONFIRMED",
			date + " 07:20 to " + date + " 16:45: Mia Sandoval: A day at Quillfern House CONFIRMED"}
	}
	if got, want := take(NewCalendars(&p, days, madeAt)), events("2027-03-06"); !slices.Equal(got, want) {
		t.Errorf("khal shows %q, want %q", got, want)
	}
	moved := []day.Day{movedBy(days[0], 48*time.Hour)}
	if got, want := take(NewCalendars(&p, moved, madeAt)), events("2027-03-08"); !slices.Equal(got, want) {
		t.Errorf("moved: khal shows %q, want %q", got, want)
	}
	off := []string{"2027-03-08 06:30 to 2027-03-08 18:15: Called off: A day at Quillfern House CANCELLED"}
	for range 2 {
		off = append(off, "2027-03-08 07:20 to 2027-03-08 16:45: Called off: A day at Quillfern House CANCELLED")
	}
	if got := take(CalledOff(&p, madeAt)); !slices.Equal(got, off) {
		t.Errorf("called off: khal shows %q, want %q", got, off)
	}
}
