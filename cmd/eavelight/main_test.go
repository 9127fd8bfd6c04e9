package main

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/store"
)

const demo = "../../testdata/tarn-ledge.eavelight"

func clockwork() time.Time { return time.Date(2027, 9, 30, 18, 0, 0, 0, time.UTC) }

// eavelight runs a command line and returns what a shell would see.
func eavelight(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, world{context.Background(), &out, io.Discard, clockwork}, &err)
	return code, out.String(), err.String()
}

func TestExitCodes(t *testing.T) {
	bad := filepath.Join(t.TempDir(), "bad.eavelight")
	write(t, bad, "eavelight: 1\ntitel: A slip\n")
	newer := filepath.Join(t.TempDir(), "newer.eavelight")
	write(t, newer, "eavelight: 99\n")
	fresh := filepath.Join(t.TempDir(), "fresh.eavelight")
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"help", []string{"--help"}, 0, "Place the scenes"},
		{"an unknown command", []string{"light", demo, "--frobnicate"}, 2, "unknown flag"},
		{"no such file", []string{"place", "nowhere.eavelight"}, 2, "nowhere.eavelight"},
		{"a file with a slip", []string{"place", bad}, 1, `did you mean "title"`},
		{"check tells the slip", []string{"check", bad}, 1, bad + ":2:1: titel: "},
		{"a newer file", []string{"check", newer}, 2, "newer"},
		{"a scene is left out", []string{"place", demo}, 1, "scenes 11 and 12"},
		{"a date on which more is left out", []string{"place", demo, "--date", "2027-10-09"}, 1, "golden"},
		{"the dates", []string{"place", demo, "--dates"}, 1, "Sat 16 Oct 2027 before Sat 9 Oct 2027: "},
		{"one date and all", []string{"place", demo, "--dates", "--date", "2027-10-16"}, 2, "can't be used together"},
		{"why", []string{"place", demo, "--why"}, 1, "An hour later: cannot be, its light (golden evening) ends at"},
		{"a limit that is long enough", []string{"place", demo, "--limit", "1h"}, 1, "proven best"},
		{"no time at all", []string{"place", demo, "--limit", "1ns"}, 2, "give it longer"},
		{"no time at all for the dates", []string{"place", demo, "--dates", "--limit", "1ns"}, 2, "give it longer"},
		{"no time at all for a date", []string{"place", demo, "--date", "2027-10-16", "--limit", "1ns"}, 1, "stopped after 1ns"},
		{"a limit below nothing", []string{"place", demo, "--limit", "-1s"}, 2, "no time to search"},
		{"a date that does not exist", []string{"place", demo, "--date", "2027-02-30"}, 2, "2027-02-30"},
		{"light without a place", []string{"light"}, 2, "--at"},
		{"light with two", []string{"light", demo, "--at", "1,2"}, 2, "not both"},
		{"light of the demo", []string{"light", demo}, 0, "golden evening"},
		{"light where both figures are whole", []string{"light", "--at", "51,0", "--date", "2027-06-21"}, 0, "Europe/London"},
		{"light south of the equator", []string{"light", "--at", "-36.8485,174.7633", "--date", "2027-12-22", "--json"}, 0, "Pacific/Auckland"},
		{"light of a name that many towns have", []string{"light", "--at", "Springfield"}, 2, "add the state or country"},
		{"light of a far year", []string{"light", demo, "--date", "9999-01-01"}, 2, "1900 to 2100"},
		{"a picture of a strange size", []string{"picture", demo, "--size", "1440x900abc", "-o", "x.png"}, 2, "1440x900"},
		{"a moment that is none", []string{"light", demo, "--instant", "noon"}, 2, "2027-10-16T18:00:00Z"},
		{"a new plan", []string{"new", fresh}, 0, fresh},
		{"a new plan over an old one", []string{"new", fresh}, 2, "already"},
		{"the new plan lacks all", []string{"check", fresh}, 1, "no title"},
		{"the dates of the new plan", []string{"place", fresh, "--dates"}, 2, "no date is proposed"},
		{"papers of nothing", []string{"papers", fresh, "-o", t.TempDir()}, 2, "position"},
		{"releases", []string{"releases", demo}, 1, "waits for 4 signatures, in scenes 1, 3,"},
		{"releases of a slip", []string{"releases", bad}, 1, `did you mean "title"`},
		{"releases of no file", []string{"releases", "nowhere.eavelight"}, 2, "nowhere.eavelight"},
		{"releases by a day that is none", []string{"releases", demo, "--date", "16 Oct"}, 2, "year-month-day"},
		{"releases of nothing", []string{"releases", fresh}, 0, "everything that the film needs is signed, whatever the date"},
		{"a picture of no page", []string{"picture", demo, "--page", "moon", "-o", "x.png"}, 2, "moon"},
		{"a picture of no size", []string{"picture", demo, "--size", "big", "-o", "x.png"}, 2, "1440x900"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, err := eavelight(c.args...)
			if code != c.code || !strings.Contains(out+err, c.says) {
				t.Errorf("eavelight %s: exit %d, want %d and %q\n%s%s", strings.Join(c.args, " "), code, c.code, c.says, out, err)
			}
		})
	}
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func fromJSON[T any](t *testing.T, text string) (v T) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return v
}

// TestLightJSON asks as a machine would: the NREL worked example's place and moment (Reda & Andreas, NREL/TP-560-34302,
// Table A5.1), and a day of polar night, where everything but noon is null.
func TestLightJSON(t *testing.T) {
	code, out, _ := eavelight("light", "--at", "39.742476,-105.1786", "--instant", "2003-10-17T12:30:30-07:00", "--json")
	r := fromJSON[lightReport](t, out)
	if code != 0 || r.Instant == nil || r.Zone != "America/Denver" || len(r.Days) != 1 || r.Days[0].Date != "2003-10-17" {
		t.Fatalf("exit %d, %s", code, out)
	}
	// Zenith 50.11162 with refraction at 820 hPa and 11 C; airless altitude 39.87205; azimuth 194.34024.
	if d := float64(r.Instant.TrueAltitude) - 39.87205; d > 0.01 || d < -0.01 {
		t.Errorf("true altitude %v", r.Instant.TrueAltitude)
	}
	if d := float64(r.Instant.Azimuth) - 194.34024; d > 0.01 || d < -0.01 {
		t.Errorf("azimuth %v", r.Instant.Azimuth)
	}
	if r.Instant.ApparentAltitude <= r.Instant.TrueAltitude {
		t.Errorf("refraction does not lift the sun: %v, %v", r.Instant.ApparentAltitude, r.Instant.TrueAltitude)
	}

	_, out, _ = eavelight("light", "--at", "78.2232,15.6267", "--date", "2026-12-21", "--json")
	polar := fromJSON[map[string]any](t, out)["days"].([]any)[0].(map[string]any)
	for _, key := range []string{"sunrise", "sunset", "civilDawn", "civilDusk"} {
		if v, there := polar[key]; !there || v != nil {
			t.Errorf("polar night: %s is %v, want null", key, v)
		}
	}
	if polar["noon"] == nil || polar["goldenMorning"].(map[string]any)["start"] != nil {
		t.Errorf("polar night: %v", polar)
	}
}

func TestPlaceJSON(t *testing.T) {
	code, out, _ := eavelight("place", demo, "--json")
	r := fromJSON[placeReport](t, out)
	if code != 1 || r.Status != "proven" || r.Date != "2027-10-16" || len(r.Scenes) != 13 || len(r.LeftOut) != 1 {
		t.Fatalf("exit %d, %s", code, out)
	}
	if sum := r.Loss.Light + r.Loss.Waiting + r.Loss.Moves + r.Loss.Length + r.Loss.Overtime + r.Loss.LeftOut; sum-r.Loss.Total > 1e-9 || r.Loss.Total-sum > 1e-9 {
		t.Errorf("the parts of the loss add up to %v, not %v", sum, r.Loss.Total)
	}
	if _, again, _ := eavelight("place", demo, "--json"); again != out {
		t.Error("the same plan gives another answer")
	}
}

// TestPlaceWhyJSON: the demo's reasons, other days and gains are there for a machine, and their numbers agree with each other.
func TestPlaceWhyJSON(t *testing.T) {
	code, out, _ := eavelight("place", demo, "--why", "--json")
	r := fromJSON[placeReport](t, out)
	if code != 1 || r.Why == nil || r.Stopped || r.Bound != r.Loss.Total-r.Gap || r.Figures.Loss != r.Loss {
		t.Fatalf("exit %d, %s", code, out)
	}
	near := func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }
	sums := func(l lossReport) bool { return near(l.Total, l.Light+l.Waiting+l.Moves+l.Length+l.Overtime+l.LeftOut) }
	costs := 0
	for _, s := range r.Scenes {
		if s.Why == nil || len(s.Why.Words) != 2 {
			t.Errorf("scene %s: %+v", s.Number, s.Why)
			continue
		}
		for _, shift := range []*shiftReport{s.Why.Earlier, s.Why.Later} {
			switch {
			case shift == nil || (shift.Cost == nil) != (shift.Cannot != ""):
				t.Errorf("scene %s: %+v", s.Number, shift)
			case shift.Cost != nil:
				costs++
				if !sums(shift.Cost.Loss) || shift.Cost.Loss.Total < 0 || shift.Start == nil {
					t.Errorf("scene %s: %+v", s.Number, shift.Cost)
				}
			}
		}
	}
	waits := map[string]int{}
	for _, q := range r.Why.Waiting {
		for _, b := range q.Between {
			waits[string(q.ID)] += int(b.Waits)
		}
		if q.Without == nil || q.Without.Waits > q.Waits || len(q.Words) != len(q.Between)+1 {
			t.Errorf("%+v", q)
		}
	}
	for _, q := range r.People {
		if waits[string(q.ID)] != int(q.Waits) {
			t.Errorf("%s waits %d, told %d", q.ID, q.Waits, waits[string(q.ID)])
		}
	}
	if costs == 0 || len(r.Why.Freeing) != 1 || len(r.Why.Freeing[0].Changes) == 0 || len(r.Why.Others) == 0 || len(r.Why.Gains) == 0 {
		t.Errorf("%d costs, freeing %v, others %v, gains %v", costs, r.Why.Freeing, r.Why.Others, r.Why.Gains)
	}
	for _, o := range r.Why.Others {
		if !near(o.Cost.Loss.Total, o.Figures.Loss.Total-r.Loss.Total) || len(o.Scenes) != len(r.Scenes) {
			t.Errorf("%+v", o)
		}
	}
}

// TestPlaceDatesJSON: all candidates, best first, each better than the next by some words.
func TestPlaceDatesJSON(t *testing.T) {
	code, out, _ := eavelight("place", demo, "--dates", "--json")
	r := fromJSON[ranking](t, out)
	if code != 1 || len(r.Dates) != 3 || r.Stopped {
		t.Fatalf("exit %d, %s", code, out)
	}
	for i, d := range r.Dates {
		if d.Status != "proven" || (d.Beats == "") != (i == 2) || i > 0 && d.Loss.Total < r.Dates[i-1].Loss.Total {
			t.Errorf("%+v", d)
		}
	}
}

// TestPlaceFitsTheScreen: no line that people read is longer than 100 columns.
func TestPlaceFitsTheScreen(t *testing.T) {
	for _, args := range [][]string{{"place", demo}, {"place", demo, "--why"}, {"place", demo, "--dates"}} {
		_, out, _ := eavelight(args...)
		for _, line := range strings.Split(out, "\n") {
			if utf8.RuneCountInString(line) > columns || strings.HasSuffix(line, " ") {
				t.Errorf("%v: %q", args, line)
			}
		}
	}
}

func TestParagraph(t *testing.T) {
	var out strings.Builder
	words := strings.Repeat("word ", 18) + "1 h 05 longer"
	paragraph(&out, "    - ", words)
	want := "    - " + strings.TrimSpace(strings.Repeat("word ", 18)) + "\n      1 h 05 longer\n" // 95 columns, and 6 more do not fit
	if out.String() != want {
		t.Errorf("%q, want %q", out.String(), want)
	}
}

func TestCheckJSON(t *testing.T) {
	code, out, _ := eavelight("check", demo, "--json")
	found := fromJSON[[]finding](t, out)
	if code != 1 || len(found) == 0 {
		t.Fatalf("exit %d, %s", code, out)
	}
	for _, f := range found {
		if f.Text == "" || f.File != demo {
			t.Errorf("a finding without words or file: %+v", f)
		}
	}
}

// TestNewPlanIsReadable: what new writes, the program reads.
func TestNewPlanIsReadable(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.eavelight")
	if code, _, err := eavelight("new", path); code != 0 {
		t.Fatal(err)
	}
	if _, _, err := store.Read(path); err != nil {
		t.Error(err)
	}
}

func TestPapers(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "papers")
	code, out, err := eavelight("papers", demo, "-o", dir, "--json")
	report := fromJSON[papersReport](t, out)
	written := report.Written
	if code != 0 || len(written) < 3 || filepath.Base(written[len(written)-1]) != "manifest.txt" || !slices.Contains(written, filepath.Join(dir, "people", "calendar-marek.ics")) || len(report.Off) > 0 || report.Remembered {
		t.Fatalf("exit %d, %s%s", code, out, err)
	}
	first, readErr := os.ReadFile(written[0])
	if readErr != nil || !bytes.HasPrefix(first, []byte("%PDF-1.")) {
		t.Fatalf("%s is no PDF: %v", written[0], readErr)
	}
	for _, path := range written { // a limit of our own, so that a message can be read in a chat
		if text, err := os.ReadFile(path); strings.HasPrefix(filepath.Base(path), "message-") && (err != nil || utf8.RuneCount(text) > 1200) {
			t.Errorf("%s has %d letters (%v)", path, utf8.RuneCount(text), err)
		}
	}
	if code, _, err := eavelight("papers", demo, "-o", dir); code != 2 || !strings.Contains(err, "--overwrite") {
		t.Errorf("written over without asking: exit %d, %s", code, err)
	}
	if code, _, err := eavelight("papers", demo, "-o", dir, "--overwrite"); code != 0 {
		t.Errorf("not written over when asked: %s", err)
	}
	if again, _ := os.ReadFile(written[0]); !bytes.Equal(first, again) {
		t.Error("the same plan and clock give other bytes")
	}
}

// TestPapersOnly writes some kinds, and into an archive.
func TestPapersOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.zip")
	code, out, err := eavelight("papers", demo, "-o", path, "--only", "call-sheets,releases", "--json")
	if report := fromJSON[papersReport](t, out); code != 0 || !slices.Equal(report.Written, []string{path}) || report.Remembered { // the call sheets are not sent
		t.Fatalf("exit %d, %s%s", code, out, err)
	}
	z, zipErr := zip.OpenReader(path)
	if zipErr != nil {
		t.Fatal(zipErr)
	}
	defer z.Close()
	for _, f := range z.File {
		if strings.HasSuffix(f.Name, ".ics") {
			t.Errorf("%s was not asked for", f.Name)
		}
	}
	if code, _, err := eavelight("papers", demo, "-o", path, "--only", "postcards"); code != 2 || !strings.Contains(err, `no papers called "postcards"`) {
		t.Errorf("exit %d, %s", code, err)
	}
}

// TestPapersSent: the plan remembers what its calendars say when it is told that they are sent, and then moves the days and calls off
// what is no more. RFC 5545, section 3.8.7.4: SEQUENCE.
func TestPapersSent(t *testing.T) {
	text, readErr := os.ReadFile(demo)
	if readErr != nil {
		t.Fatal(readErr)
	}
	path, dir := filepath.Join(t.TempDir(), "mine.eavelight"), t.TempDir()
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	papers := func(more ...string) string {
		t.Helper()
		code, out, err := eavelight(append([]string{"papers", path, "-o", dir, "--overwrite"}, more...)...)
		if code != 0 {
			t.Fatalf("exit %d, %s", code, err)
		}
		return out
	}
	calendar := func() string {
		t.Helper()
		content, err := os.ReadFile(filepath.Join(dir, "calendar.ics"))
		if err != nil {
			t.Fatal(err)
		}
		return string(content)
	}
	if out := papers(); !strings.Contains(out, "calendar-marek.ics\n") || !strings.Contains(out, "add --sent") {
		t.Errorf("not sent yet: %s", out)
	}
	if now, _ := os.ReadFile(path); !bytes.Equal(now, text) {
		t.Error("the plan was changed unasked")
	}
	if out := papers("--sent"); strings.Contains(out, "add --sent") {
		t.Errorf("sent: %s", out)
	}
	first := calendar()
	if out := papers(); strings.Contains(out, "add --sent") || calendar() != first {
		t.Error("nothing changed, and it is not remembered")
	}
	papers("--date", "2027-10-23", "--sent")
	uid := regexp.MustCompile(`UID:.*`)
	if moved := calendar(); !strings.Contains(moved, "SEQUENCE:1\r\n") || !strings.Contains(first, "SEQUENCE:0\r\n") || uid.FindString(moved) != uid.FindString(first) {
		t.Errorf("moved to another date:\n%s\nfrom\n%s", moved, first)
	}
	p, stamp, readErr := store.Read(path)
	if readErr != nil {
		t.Fatal(readErr)
	}
	if s := p.Papers.Sheets; len(s) != 1 || s[0].Revision != 2 || s[0].Date.String() != "2027-10-23" || s[0].Before.String() != "2027-10-16" {
		t.Errorf("of the call sheets the plan remembers %+v", s)
	}
	p.Papers.Calendar.Events = append(p.Papers.Calendar.Events, p.Papers.Calendar.Events[0])
	p.Papers.Calendar.Events[len(p.Papers.Calendar.Events)-1].Person = "gone"
	if _, err := store.Write(path, p, stamp); err != nil {
		t.Fatal(err)
	}
	if out := papers("--date", "2027-10-23"); !strings.Contains(strings.Join(strings.Fields(out), " "), "calendar-gone.ics only takes out of a calendar what no longer holds; send it too.") {
		t.Errorf("somebody is gone: %s", out)
	}
	claim, lockErr := store.Lock(path)
	if lockErr != nil {
		t.Fatal(lockErr)
	}
	defer claim.Release()
	if code, _, err := eavelight("papers", path, "-o", dir, "--overwrite", "--sent"); code != 2 || !strings.Contains(err, "the papers are written, but the plan does not remember them") {
		t.Errorf("open in a window: exit %d, %s", code, err)
	}
}

// TestPapersCalledOff: no day is placed for it, nothing but calendars is written, and the plan remembers what was sent.
func TestPapersCalledOff(t *testing.T) {
	text, readErr := os.ReadFile(demo)
	if readErr != nil {
		t.Fatal(readErr)
	}
	path, dir := filepath.Join(t.TempDir(), "mine.eavelight"), t.TempDir()
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
	if code, _, err := eavelight("papers", path, "-o", dir, "--called-off"); code != 2 || !strings.Contains(err, "nothing to call off") {
		t.Errorf("nothing was sent: exit %d, %s", code, err)
	}
	if code, _, err := eavelight("papers", path, "-o", dir, "--called-off", "--date", "2027-10-16"); code != 2 || !strings.Contains(err, "can't be used together") {
		t.Errorf("called off on a date: exit %d, %s", code, err)
	}
	if code, _, err := eavelight("papers", path, "-o", dir, "--sent"); code != 0 {
		t.Fatal(err)
	}
	before, _ := filepath.Glob(filepath.Join(dir, "people", "*.ics"))
	p, stamp, readErr := store.Read(path)
	if readErr != nil {
		t.Fatal(readErr)
	}
	p.Shooting.Date, p.Shooting.Dates = plan.Date{}, nil // no day can be placed any more
	if _, err := store.Write(path, p, stamp); err != nil {
		t.Fatal(err)
	}
	off := t.TempDir()
	code, out, err := eavelight("papers", path, "-o", off, "--called-off", "--json")
	report := fromJSON[papersReport](t, out)
	if code != 0 || len(report.Written) != len(before)+2 || len(before) == 0 || !slices.Equal(report.Off, report.Written[:len(before)+1]) || report.Remembered {
		t.Errorf("exit %d, %+v, %s", code, report, err)
	}
	for _, file := range report.Off {
		if content, err := os.ReadFile(file); err != nil || !strings.Contains(string(content), "STATUS:CANCELLED") || strings.Contains(string(content), "STATUS:CONFIRMED") {
			t.Errorf("%s: %v\n%s", file, err, content)
		}
	}
	if code, _, err := eavelight("papers", path, "-o", off, "--called-off"); code != 2 || !strings.Contains(err, "--overwrite") {
		t.Errorf("written over: exit %d, %s", code, err)
	}
	code, out, _ = eavelight("papers", path, "-o", off, "--called-off", "--overwrite", "--sent")
	if code != 0 || !strings.Contains(strings.Join(strings.Fields(out), " "), "it takes the days out of the calendar.") || strings.Contains(out, "add --sent") {
		t.Errorf("sent: exit %d, %s", code, out)
	}
	if p, _, err := store.Read(path); err != nil || p.Papers.Calendar.Events[0].Sequence != 1 {
		t.Errorf("the plan remembers %+v (%v)", p.Papers.Calendar, err)
	}
}

// TestPictures draws every page, light and dark, and demands the size that was asked for and that no two are the same.
func TestPictures(t *testing.T) {
	seen := map[string]string{}
	for _, page := range []string{"brief", "property", "scenes", "people", "day", "papers"} {
		for _, dark := range []bool{false, true} {
			path := filepath.Join(t.TempDir(), "page.png")
			args := []string{"picture", demo, "--page", page, "-o", path, "--size", "1280x800"}
			if dark {
				args = append(args, "--dark")
			}
			if code, _, err := eavelight(args...); code != 0 {
				t.Fatalf("%v: %s", args, err)
			}
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			img, err := png.Decode(bytes.NewReader(data))
			if err != nil || img.Bounds().Dx() != 1280 || img.Bounds().Dy() != 800 {
				t.Errorf("%v: %v, %v", args, err, img.Bounds())
			}
			if other, twice := seen[string(data)]; twice {
				t.Errorf("%v gives the same picture as %s", args, other)
			}
			seen[string(data)] = strings.Join(args, " ")
		}
	}
}
