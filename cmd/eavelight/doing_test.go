package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"eavelight/plan"
	"eavelight/plan/store"
)

// TestDoing: what is short is not told of; what is not is told on one line, which is wiped out in the end.
func TestDoing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var out bytes.Buffer
		w := world{told: &out}
		_, end := w.doing("Guessing")
		time.Sleep(patience - 1)
		end()
		if out.Len() > 0 {
			t.Errorf("short work was told of: %q", out.String())
		}
		hear, end := w.doing("Placing")
		time.Sleep(2*time.Second + patience/2)
		hear("Sharing")
		time.Sleep(patience)
		end()
		first, second, third := "Placing… 0 s (Ctrl+C stops it)", "Placing… 1 s (Ctrl+C stops it)", "Placing… 2 s (Ctrl+C stops it)"
		gone := "\r" + strings.Repeat(" ", len([]rune(first))) + "\r"
		want := "\r\r" + first + gone + second + gone + third + gone + strings.Replace(third, "Placing", "Sharing", 1) + gone
		if out.String() != want {
			t.Errorf("told\n%q, want\n%q", out.String(), want)
		}
	})
}

// TestNoProgressInFiles: a script that keeps what is said gets no line that is written over.
func TestNoProgressInFiles(t *testing.T) {
	f, err := os.Create(filepath.Join(t.TempDir(), "log"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if onTerminal(f) != io.Discard {
		t.Error("progress goes into a file")
	}
	if null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0); err == nil {
		defer null.Close()
		if onTerminal(null) != null { // a device that takes letters, as a terminal is
			t.Error("progress goes nowhere")
		}
	}
}

// TestStopped: whatever places a day can be stopped, and then says so, prints and writes nothing, and ends as is custom: with 128
// and the number of the signal (POSIX.1-2017, XCU 2.8.2, asks for more than 128; SIGINT is 2).
func TestStopped(t *testing.T) {
	stopped, stop := context.WithCancel(context.Background())
	stop()
	dir := t.TempDir()
	for _, args := range [][]string{
		{"check", demo}, {"place", demo}, {"place", demo, "--date", "2027-10-16"}, {"place", demo, "--why"}, {"place", demo, "--json"}, {"place", demo, "--dates"},
		{"price", demo}, {"papers", demo, "-o", filepath.Join(dir, "papers")}, {"picture", demo, "-o", filepath.Join(dir, "x.png")},
		{"releases", demo, "--reminders", "-o", filepath.Join(dir, "mails")},
	} {
		var out, err bytes.Buffer
		code := run(args, world{stopped, &out, io.Discard, clockwork}, &err)
		if code != 130 || out.Len() > 0 || err.String() != "eavelight: stopped: nothing was written\n" {
			t.Errorf("%v: exit %d, %q, %q", args, code, out.String(), err.String())
		}
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("it left %v (%v)", left, err)
	}
}

// TestStoppedWhilePlacing stops a plan that takes a minute to place, once it is told that this goes on.
func TestStoppedWhilePlacing(t *testing.T) {
	path := largePlan(t)
	for _, command := range []string{"check", "place"} {
		ctx, stop := context.WithCancel(context.Background())
		var out, err bytes.Buffer
		told := &onWrite{do: stop}
		if code := run([]string{command, path}, world{ctx, &out, told, clockwork}, &err); code != 130 || out.Len() > 0 {
			t.Errorf("%s: exit %d, %q, %q", command, code, out.String(), err.String())
		}
		if !strings.Contains(told.String(), "Placing the scenes: date 1 of 4… 0 s") {
			t.Errorf("%s: told %q", command, told.String())
		}
	}
}

// onWrite keeps what is written, and does something then.
type onWrite struct {
	bytes.Buffer
	do func()
}

func (w *onWrite) Write(p []byte) (int, error) {
	w.do()
	return w.Buffer.Write(p)
}

// largePlan is the demo with 60 scenes, 40 people, 3 days and 4 dates.
func largePlan(t *testing.T) string {
	t.Helper()
	p, _, err := store.Read(demo)
	if err != nil {
		t.Fatal(err)
	}
	for len(p.People) < 40 {
		p.DuplicatePerson(0, nil)
	}
	p.Shooting.Date, p.Shooting.Dates = plan.Date{}, append(p.Shooting.Dates, p.Shooting.Dates[0].AddDays(1))
	p.Shooting.Days, p.Shooting.EarliestCall, p.Shooting.LatestWrap, p.Shooting.Longest = 3, plan.ClockAt(4*60), plan.ClockAt(24*60), 18*60
	for n := 0; len(p.Scenes) < 60; n++ {
		s := &p.Scenes[p.AddScene(len(p.Scenes))]
		s.Setup, s.Shoot, s.People = 5, 10, []plan.ID{p.People[n%40].ID, p.People[(n+13)%40].ID}
	}
	path := filepath.Join(t.TempDir(), "large.eavelight")
	if _, err := store.Write(path, p, store.Stamp{}); err != nil {
		t.Fatal(err)
	}
	return path
}
