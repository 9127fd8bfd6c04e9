package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

// releases runs the command on a plan that was changed, saved in a folder of its own.
func releases(t *testing.T, change func(dir string, p *plan.Plan), args ...string) (int, string) {
	t.Helper()
	p, _, err := store.Read(demo)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	change(dir, &p)
	data, err := store.Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "film.eavelight")
	write(t, path, string(data))
	code, out, stderr := eavelight(append(args, path)...)
	if code == 2 {
		t.Fatal(stderr)
	}
	return code, out
}

func sign(p *plan.Plan) {
	for i := range p.Releases {
		p.Releases[i].Status, p.Releases[i].Until = plan.Signed, plan.Date{}
	}
}

// TestReleasesJSON: what the demo lacks, as its file says it.
func TestReleasesJSON(t *testing.T) {
	code, out := releases(t, func(string, *plan.Plan) {}, "releases", "--json")
	r := fromJSON[releasesReport](t, out)
	if code != 1 || r.Cleared || r.Date != "2027-10-23" || len(r.Missing) != 4 || len(r.Deliverables) != 3 {
		t.Fatalf("exit %d, %s", code, out)
	}
	ivy := r.Missing[0]
	if ivy.Kind != "minor" || ivy.Person != "ivy" || ivy.Release != "minor-ivy" || ivy.Status != plan.Sent || ivy.Reason != "" ||
		!slices.Equal(ivy.Scenes, []plan.ID{"breakfast", "drawing", "lunch", "path"}) ||
		ivy.Losses[0] != (lostReport{"Hero film", 14 + 8 + 13 + 9, 86}) {
		t.Errorf("%+v", ivy)
	}
	if cut := r.Deliverables[1]; !cut.Cleared || cut.Signatures != 0 || cut.Waiting == nil || r.Deliverables[0].Signatures != 4 {
		t.Errorf("%+v", r.Deliverables)
	}
}

func TestReleasesAllSigned(t *testing.T) {
	code, out := releases(t, func(_ string, p *plan.Plan) { sign(p) }, "releases")
	if code != 0 || !strings.Contains(out, "everything that the film needs is signed") || strings.Count(out, " cleared\n") != 3 {
		t.Errorf("exit %d, %s", code, out)
	}
	code, out = releases(t, func(_ string, p *plan.Plan) { sign(p) }, "releases", "--json")
	if r := fromJSON[releasesReport](t, out); code != 0 || !r.Cleared || len(r.Missing) != 0 || !strings.Contains(out, `"missing": []`) {
		t.Errorf("exit %d, %s", code, out)
	}
}

// TestReleasesByDate: what lapses, and who is of age, goes by the date.
func TestReleasesByDate(t *testing.T) {
	change := func(_ string, p *plan.Plan) {
		sign(p)
		p.Releases[0].Until = plan.Date{Year: 2027, Month: 10, Day: 16}
		p.People[1].Born = plan.Date{Year: 2009, Month: 10, Day: 16} // Theo, 18 that day
	}
	for date, want := range map[string]string{"2027-10-15": "minor Theo", "2027-10-16": "", "2027-10-17": "model Nina"} {
		_, out := releases(t, change, "releases", "--json", "--date", date)
		r := fromJSON[releasesReport](t, out)
		var got []string
		for _, m := range r.Missing {
			got = append(got, m.Kind+" "+strings.Fields(m.About)[0])
		}
		if strings.Join(got, ", ") != want || r.Date != date {
			t.Errorf("%s: %v, want %s", date, got, want)
		}
	}
}

// TestReleasesEvidence: a signature under another text and a scan that is gone or a folder keep the film from being cleared, and
// check tells them too.
func TestReleasesEvidence(t *testing.T) {
	signature := func(p *plan.Plan, i int) {
		p.Releases[i].Signature = &plan.Signature{Name: "Nina Valdry", At: time.Date(2027, 9, 20, 10, 0, 0, 0, time.UTC), Consent: true,
			Digest: people.Digest(people.Text(p, p.Releases[i], plan.Date{})), Size: plan.PadSize{Width: 9, Height: 9}, Strokes: []plan.Stroke{{{X: 1, Y: 1}}}}
	}
	for _, c := range []struct {
		name   string
		change func(dir string, p *plan.Plan)
		says   string // empty: cleared
	}{
		{"signed in the window", func(_ string, p *plan.Plan) { signature(p, 0) }, ""},
		{"then given more territory", func(_ string, p *plan.Plan) {
			signature(p, 0)
			p.Releases[0].Territory = "the solar system"
		}, "the text has changed since it was signed"},
		{"a scan", func(dir string, p *plan.Plan) {
			write(t, filepath.Join(dir, "nina.pdf"), "abc")
			p.Releases[0].Scan = &plan.Scan{Path: "nina.pdf", SHA256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"} // FIPS 180-4's example
		}, ""},
		{"a scan that changed", func(dir string, p *plan.Plan) {
			write(t, filepath.Join(dir, "nina.pdf"), "abd")
			p.Releases[0].Scan = &plan.Scan{Path: "nina.pdf", SHA256: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"}
		}, "the scan nina.pdf is not what it was when it was filed"},
		{"a scan that is gone", func(_ string, p *plan.Plan) {
			p.Releases[0].Scan = &plan.Scan{Path: "nina.pdf", SHA256: strings.Repeat("0", 64)}
		}, "the scan nina.pdf is not there"},
		{"a scan that is a folder", func(dir string, p *plan.Plan) {
			if err := os.Mkdir(filepath.Join(dir, "scans"), 0o700); err != nil {
				t.Fatal(err)
			}
			p.Releases[0].Scan = &plan.Scan{Path: "scans", SHA256: strings.Repeat("0", 64)}
		}, "the scan scans is a folder, not a file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			change := func(dir string, p *plan.Plan) {
				sign(p)
				p.Scenes = p.Scenes[:2] // a short day
				p.Scenes[1].Cover = ""
				p.Brief.Deliverables = nil
				p.Releases = p.Releases[:6]
				p.Scenes[0].Space = "deck"
				c.change(dir, p)
			}
			code, out := releases(t, change, "releases")
			if (code == 0) != (c.says == "") || !strings.Contains(out, c.says) {
				t.Errorf("exit %d, %s", code, out)
			}
			_, checked := releases(t, change, "check")
			if c.says == "" && strings.Contains(checked, "release model-nina") || !strings.Contains(checked, c.says) {
				t.Errorf("check: %s", checked)
			}
			code, out = releases(t, change, "releases", "--json")
			if r := fromJSON[releasesReport](t, out); c.says != "" && (code != 1 || len(r.Missing) != 1 || !strings.Contains(r.Missing[0].Reason, c.says)) {
				t.Errorf("exit %d, %s", code, out)
			}
		})
	}
}

// TestReleasesDeclined: what to cut, in words that fit the screen, with names as long as they come.
func TestReleasesDeclined(t *testing.T) {
	code, out := releases(t, func(_ string, p *plan.Plan) {
		p.Releases[2].Status = plan.Declined
		p.People[2].Name = strings.Repeat("Ivy 山の家 ", 25)
		p.Brief.Deliverables[0].Name = strings.Repeat("Hero ", 40)
	}, "releases")
	flat := strings.Join(strings.Fields(out), " ")
	if code != 1 || !strings.Contains(flat, "if it stays so, scenes 3, 4, 7, 9 can't be shown") || !strings.Contains(flat, "loses 44 s, which leaves 86 s for its 120 s") {
		t.Errorf("exit %d, %s", code, out)
	}
	for _, line := range strings.Split(out, "\n") {
		if utf8.RuneCountInString(line) > columns || strings.HasSuffix(line, " ") {
			t.Errorf("%q", line)
		}
	}
}
