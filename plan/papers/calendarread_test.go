package papers

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os/exec"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// pythonWith finds a Python that has a module. The system's own is looked at too: another that comes first in the path may lack it.
func pythonWith(t testing.TB, module, debian string) string {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import "+module).Run() == nil {
			return python
		}
	}
	t.Skipf("no python3 with %s here (Debian: apt install %s); calendars are held against our own reader only", module, debian)
	return ""
}

// icsRead is an event as a general-purpose library has it. The local times beside it are those of Python's zoneinfo.
type icsRead struct {
	UID, Status, Summary, Location, Description, Organizer string
	Sequence                                               int
	Start, End                                             string // RFC 3339, UTC
	StartShows, EndShows                                   string // on the clock that the library reads from our VTIMEZONE
	StartTrue, EndTrue                                     string // on the clock of the place, by zoneinfo
	Geo                                                    []float64
	Rings                                                  []string // RFC 3339, UTC, of the display alarms
}

// Each zone is given a name that no library knows, so that it has to go by our definition and not by its own tables. A time in UTC
// shows nothing of it, and is turned into the place's by zoneinfo.
const icsHead = `
import sys, json, datetime, zoneinfo
utc = lambda d: d.astimezone(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%M:%SZ")
here = lambda d: d.astimezone(true).strftime("%Y-%m-%d %H:%M")
shows = lambda d: here(d) if d.tzinfo.utcoffset(d) == datetime.timedelta(0) and "UTC" in str(d.tzinfo.tzname(d)) else d.strftime("%Y-%m-%d %H:%M")
def told(e, start, end, geo, rings):
    return dict(e, Start=utc(start), End=utc(end), StartShows=shows(start), EndShows=shows(end), StartTrue=here(start), EndTrue=here(end), Geo=geo,
                Rings=[utc(start.astimezone(datetime.timezone.utc) + r) for r in rings])
`

const icsTail = `
all = []
for i, f in enumerate(json.load(sys.stdin)):
    text, true, name = f["Text"], zoneinfo.ZoneInfo(f["Zone"]), "Somewhere-%d" % i
    for at in ("TZID:", "TZID="):
        text = text.replace(at + f["Zone"], at + name)
    all.append(read(text, name))
json.dump(all, sys.stdout)
`

const byIcalendar = icsHead + `
import icalendar
def read(text, name):
    cal = icalendar.Calendar.from_ical(text)
    for c in cal.walk():
        assert not c.errors, c.errors
    return [event(e) for e in cal.walk("VEVENT")]
def event(e):
    s = lambda n: str(e.get(n, ""))
    geo = [e["GEO"].latitude, e["GEO"].longitude] if "GEO" in e else None
    rings = [a.decoded("TRIGGER") for a in e.walk("VALARM") if a["ACTION"] == "DISPLAY"]
    return told({"UID": s("UID"), "Status": s("STATUS"), "Summary": s("SUMMARY"), "Location": s("LOCATION"), "Description": s("DESCRIPTION"),
        "Organizer": s("ORGANIZER"), "Sequence": int(e["SEQUENCE"])}, e.decoded("DTSTART"), e.decoded("DTEND"), geo, rings)
` + icsTail

// vobject 0.9.6 throws a zone away that was UTC from 2000 to 2020, as London's is in a definition that begins later; so it is given ours,
// as the library reads it that vobject reads zones with.
const byVobject = icsHead + `
import io, re, vobject, dateutil.tz
def read(text, name):
    for zone in re.findall("BEGIN:VTIMEZONE.*?END:VTIMEZONE\r\n", text, re.S):
        vobject.icalendar.registerTzid(name, dateutil.tz.tzical(io.StringIO(zone)).get())
    cal = vobject.readOne(text)
    cal.validate(raiseException=True)
    return [event(e) for e in cal.vevent_list]
def event(e):
    s = lambda n: getattr(e, n).value if hasattr(e, n) else ""
    geo = [float(g) for g in e.geo.value.split(";")] if hasattr(e, "geo") else None
    rings = [a.trigger.value for a in getattr(e, "valarm_list", []) if a.action.value == "DISPLAY"]
    return told({"UID": s("uid"), "Status": s("status"), "Summary": s("summary"), "Location": s("location"), "Description": s("description"),
        "Organizer": s("organizer"), "Sequence": int(s("sequence"))}, e.dtstart.value, e.dtend.value, geo, rings)
` + icsTail

type icsFile struct{ Zone, Text string }

// readBy has the events of each file.
func readBy(t testing.TB, python, script string, files []icsFile) [][]icsRead {
	t.Helper()
	in, err := json.Marshal(files)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-X", "utf8", "-c", script)
	cmd.Stdin = bytes.NewReader(in)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	told, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, complaint.String())
	}
	var out [][]icsRead
	if err := json.Unmarshal(told, &out); err != nil || len(out) != len(files) {
		t.Fatalf("%v: %s", err, told)
	}
	return out
}

// icsReaders are those that Debian has.
var icsReaders = []struct{ module, debian, script string }{
	{"icalendar", "python3-icalendar", byIcalendar},
	{"vobject", "python3-vobject", byVobject},
}

// clockChanges are shooting days on which clocks change, or could. The moments are in UTC; what the clock shows then, Python's zoneinfo
// says.
var clockChanges = []struct{ zone, date, call, wrap string }{
	{"America/Los_Angeles", "2026-10-31", "2026-11-01T00:30:00Z", "2026-11-01T10:30:00Z"}, // over the night of the change
	{"America/Los_Angeles", "2026-11-01", "2026-11-01T13:00:00Z", "2026-11-02T02:00:00Z"},
	{"America/Los_Angeles", "2026-10-31", "2026-11-01T02:00:00Z", "2026-11-01T08:30:00Z"}, // ends in the hour that is shown twice, the first
	{"America/Los_Angeles", "2026-10-31", "2026-11-01T02:00:00Z", "2026-11-01T09:30:00Z"}, // and the second time
	{"America/Los_Angeles", "2026-03-08", "2026-03-08T09:30:00Z", "2026-03-08T20:00:00Z"},
	{"Europe/London", "2026-03-29", "2026-03-29T00:30:00Z", "2026-03-29T01:30:00Z"},
	{"Europe/London", "2026-10-25", "2026-10-25T05:00:00Z", "2026-10-25T18:00:00Z"},
	{"Pacific/Auckland", "2026-04-05", "2026-04-04T17:00:00Z", "2026-04-05T06:00:00Z"},
	{"Pacific/Auckland", "2026-09-27", "2026-09-26T13:30:00Z", "2026-09-27T06:00:00Z"},
	{"Asia/Kathmandu", "2026-03-29", "2026-03-29T00:15:00Z", "2026-03-29T12:00:00Z"},
	{"Atlantic/Reykjavik", "2026-06-21", "2026-06-21T02:00:00Z", "2026-06-21T23:00:00Z"},
	{"Africa/Casablanca", "2026-03-22", "2026-03-21T20:00:00Z", "2026-03-22T12:00:00Z"},   // changes around Ramadan, by no rule
	{"Australia/Lord_Howe", "2026-04-05", "2026-04-04T14:00:00Z", "2026-04-05T06:00:00Z"}, // by half an hour
	{"Europe/Dublin", "2026-10-25", "2026-10-24T20:00:00Z", "2026-10-25T12:00:00Z"},
	{"UTC", "2026-10-25", "2026-10-25T05:00:00Z", "2026-10-25T18:00:00Z"},
}

// nightOf is Grete's calendar of a day in a zone.
func nightOf(t testing.TB, zone, date, call, wrap string) icsFile {
	p, _ := toWrite(t)
	p.Property.Zone = zone
	on, err := plan.ParseDate(date)
	if err != nil {
		t.Fatal(err)
	}
	d := day.Day{Date: on, Zone: zoneNamed(t, zone), Call: moment(t, call), Wrap: moment(t, wrap)}
	d.People = []day.Presence{{Person: "grete", Call: d.Call, Release: d.Wrap}}
	f, _ := NewCalendars(&p, []day.Day{d}, madeAt).of("grete")
	strictly(t, f.Content)
	return icsFile{zone, string(f.Content)}
}

// TestOthersReadCalendars: both libraries read each file, find the moments that we mean and the clock of the place from our definition of
// its zone alone, and ring on the evening before and two hours before.
func TestOthersReadCalendars(t *testing.T) {
	var files []icsFile
	for _, c := range clockChanges {
		files = append(files, nightOf(t, c.zone, c.date, c.call, c.wrap))
	}
	for _, reader := range icsReaders {
		t.Run(reader.module, func(t *testing.T) {
			for i, got := range readBy(t, pythonWith(t, reader.module, reader.debian), reader.script, files) {
				c := clockChanges[i]
				if len(got) != 1 || got[0].Start != c.call || got[0].End != c.wrap || got[0].StartShows != got[0].StartTrue || got[0].EndShows != got[0].EndTrue {
					t.Errorf("%s from %s to %s is read %+v from\n%s", c.zone, c.call, c.wrap, got, files[i].Text)
					continue
				}
				zone, call := zoneNamed(t, c.zone), moment(t, c.call)
				evening := plan.Instant(plan.DateOf(call.In(zone)).AddDays(-1), plan.ClockAt(19*60), zone)
				want := evening.UTC().Format(time.RFC3339) + " " + call.Add(-2*time.Hour).UTC().Format(time.RFC3339)
				if strings.Join(got[0].Rings, " ") != want {
					t.Errorf("%s: rings %v, want %s", c.zone, got[0].Rings, want)
				}
			}
		})
	}
}

// TestOthersReadTheWords: every file of the demo, before and after somebody is dropped, with names in any script.
func TestOthersReadTheWords(t *testing.T) {
	p, days := toWrite(t)
	// No n behind the backslash: icalendar 4.0.3 takes an escaped backslash with one for a line break.
	p.Title = "שלום, 家; 👩‍👩‍👧 \\ \"quoted\": " + strings.TrimSpace(strings.Repeat("ещё ", 40))
	p.Papers.Access = "first line\n\nthird; with, signs\\"
	c := NewCalendars(&p, days, madeAt)
	p.Papers.Calendar = c.Sent
	days[0].People = days[0].People[:4]
	var files []icsFile
	for _, f := range append(append(c.Files, NewCalendars(&p, days, madeAt).Files...), CalledOff(&p, madeAt).Files...) {
		files = append(files, icsFile{p.Property.Zone, string(f.Content)})
	}
	for _, reader := range icsReaders {
		t.Run(reader.module, func(t *testing.T) {
			for n, got := range readBy(t, pythonWith(t, reader.module, reader.debian), reader.script, files) {
				ours := strictly(t, []byte(files[n].Text)).named("VEVENT")
				if len(got) != len(ours) || len(got) == 0 {
					t.Fatalf("%d events, want %d, in %s", len(got), len(ours), files[n].Text)
				}
				for i, e := range got {
					o := ours[i]
					if e.UID != o.get("UID") || e.Status != o.get("STATUS") || e.Summary != o.get("SUMMARY") || e.Location != o.get("LOCATION") ||
						e.Description != o.get("DESCRIPTION") || fmt.Sprint(e.Sequence) != o.get("SEQUENCE") || e.Organizer != "mailto:noor@example.org" || !strings.Contains(e.Summary, p.Title) {
						t.Errorf("read %+v", e)
					}
					if e.Status == "CONFIRMED" && (len(e.Geo) != 2 || e.Geo[0] != 34.1234 || e.Geo[1] != -116.4321 || !strings.Contains(e.Description, p.Papers.Access)) {
						t.Errorf("read %+v", e)
					}
				}
			}
		})
	}
}
