package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/store"
)

// The days that things are due on are common practice, no published source. It is 30 September 2027, the shoot the 16 October.

func TestReminders(t *testing.T) {
	code, out := releases(t, func(string, *plan.Plan) {}, "releases", "--reminders")
	flat := strings.Join(strings.Fields(out), " ")
	if code != 0 || !strings.Contains(flat, "18 things to send, ask or settle, 0 late.") ||
		!strings.Contains(flat, "Saturday 2 October 2027 Suri Kaanen send the drone authorisation: Flights over the tarn and the house Saturday 9 October 2027 Marek") {
		t.Errorf("exit %d, %s", code, out)
	}
	code, out = releases(t, func(_ string, p *plan.Plan) {
		p.Shooting.Dates = []plan.Date{{Year: 2027, Month: 10, Day: 9}}
		p.People[2].Name = strings.TrimSpace(strings.Repeat("Ivy 山の家 ", 25))
	}, "releases", "--reminders")
	if code != 1 || !strings.Contains(out, "  ! Suri Kaanen ") {
		t.Errorf("late: exit %d, %s", code, out)
	}
	for _, line := range strings.Split(out, "\n") {
		if utf8.RuneCountInString(line) > columns || strings.HasSuffix(line, " ") {
			t.Errorf("%q", line)
		}
	}
}

func TestRemindersJSON(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "mails")
	code, out := releases(t, func(string, *plan.Plan) {}, "releases", "--reminders", "--json", "-o", dir)
	r := fromJSON[remindersReport](t, out)
	if code != 0 || len(r.Reminders) != 18 || len(r.Drafts) != 6 || len(r.Written) != 3 {
		t.Fatalf("exit %d, %s", code, out)
	}
	if got := r.Reminders[0]; got.To != "suri" || got.Release != "flight" || got.Due != "2027-10-02" || got.Late || got.Why == "" || got.First != "" {
		t.Errorf("%+v", got)
	}
	if got := r.Drafts[0]; got.To != "suri" || got.NoMail != "no mail address" || !strings.HasPrefix(got.Text, "Hello Suri Kaanen,\n") || strings.Join(got.Attached, " ") != "release-flight.pdf calendar-suri.ics" {
		t.Errorf("%+v", got)
	}
	for _, path := range r.Written {
		if raw, err := os.ReadFile(path); err != nil || !strings.HasPrefix(string(raw), "X-Unsent: 1\r\nDate: Thu, 30 Sep 2027 11:00:00 -0700\r\n") {
			t.Errorf("%s: %v", path, err)
		}
	}
	code, _, stderr := eavelight("releases", demo, "--reminders", "-o", dir)
	if code != 2 || !strings.Contains(stderr, "add --overwrite") {
		t.Errorf("exit %d, %s", code, stderr)
	}
	if code, out, stderr = eavelight("releases", demo, "--reminders", "-o", dir, "--overwrite"); code != 0 || !strings.Contains(out, "! no mail for Ruth Åsgård: no mail address") {
		t.Errorf("exit %d, %s %s", code, out, stderr)
	}
	if code, _, stderr = eavelight("releases", demo, "-o", dir); code != 2 || !strings.Contains(stderr, "--reminders") {
		t.Errorf("exit %d, %s", code, stderr)
	}
	for _, args := range [][]string{{"--reminders", "--sent"}, {"--sent"}} {
		if code, _, stderr = eavelight(append([]string{"releases", demo}, args...)...); code != 2 || !strings.Contains(stderr, "--sent goes with --reminders and --out DIR") {
			t.Errorf("%v: exit %d, %s", args, code, stderr)
		}
	}
	releases(t, func(where string, p *plan.Plan) { dir = where }, "releases", "--reminders", "-o", t.TempDir(), "--sent")
	p, _, err := store.Read(filepath.Join(dir, "film.eavelight"))
	if err != nil || len(p.Papers.Calendar.Events) < 3 {
		t.Errorf("sent: the plan remembers %+v (%v)", p.Papers.Calendar, err)
	}
	if clockwork() != time.Date(2027, 9, 30, 18, 0, 0, 0, time.UTC) {
		t.Error("these tests are for another clock")
	}
}
