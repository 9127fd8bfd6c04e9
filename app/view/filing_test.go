package view

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/people"
)

func filmed() plan.Plan {
	p := plan.New()
	p.Title = "A day at Quillfern House"
	p.People = []plan.Person{{ID: "grete", Name: "Grete Sandoval"}, {ID: "jon", Name: "Jon Sandoval", Minor: true}, {ID: "ming", Name: "王小明"}}
	p.Releases = []plan.Release{{ID: "model-grete", Kind: plan.ModelRelease, Party: "grete"}, {ID: "minor-jon", Kind: plan.MinorRelease, Party: "jon"},
		{ID: "model-ming", Kind: plan.ModelRelease, Party: "ming"}}
	return p
}

func TestScanWords(t *testing.T) {
	scan := &plan.Scan{Path: "scans/a.pdf", SHA256: strings.Repeat("a", 64)}
	day := plan.Date{Year: 2027, Month: 3, Day: 6}
	for _, c := range []struct {
		name        string
		r           plan.Release
		paper       bool
		open, stand string
	}{
		{"nothing", plan.Release{}, false, "", ""},
		{"signed by nobody", plan.Release{Status: plan.Signed}, false, "", ""},
		{"sent, with a name already", plan.Release{Status: plan.Sent, SignedBy: "Grete"}, false, "", ""},
		{"drawn in the window", plan.Release{Status: plan.Signed, SignedBy: "Grete", Scan: scan, Signature: &plan.Signature{}}, false, "Still to be said: the day of signing.", ""},
		{"a scan alone", plan.Release{Scan: scan}, true, "Still to be said: who signed it; that it is signed, as its status; the day of signing.",
			"A scan is filed, scans/a.pdf, and the release is needed. If the paper is signed, say so under “What is agreed”."},
		{"a minor's", plan.Release{Kind: plan.MinorRelease, Scan: scan, Status: plan.Signed, Changed: day, SignedBy: "Amara"}, true, "Still to be said: what they are to the minor.",
			"Signed on paper by Amara, Saturday 6 March 2027. The scan is scans/a.pdf."},
		{"all said", plan.Release{Kind: plan.MinorRelease, Party: "jon", Scan: scan, Status: plan.Signed, Changed: day, SignedBy: "Amara", Relation: "mother"}, true, "",
			"Signed on paper by Amara (mother) for Jon Sandoval, Saturday 6 March 2027. The scan is scans/a.pdf."},
		{"no scan", plan.Release{Status: plan.Signed, SignedBy: "Grete"}, true, "", "Signed on paper by Grete. No scan of it is filed."},
	} {
		p := filmed()
		if got := OnPaper(c.r); got != c.paper {
			t.Errorf("%s: on paper %v", c.name, got)
		}
		if got := ScanOpen(c.r); got != c.open {
			t.Errorf("%s: %q", c.name, got)
		}
		if c.paper && PaperStanding(&p, c.r) != c.stand {
			t.Errorf("%s: %q", c.name, PaperStanding(&p, c.r))
		}
	}
}

// TestWordingTrial: only signatures that hold now and would not afterwards are lost; what already fails, another kind's and what is
// on paper is not among them. Nothing of a trial is in the plan.
func TestWordingTrial(t *testing.T) {
	p := filmed()
	sign := func(i int) {
		r := &p.Releases[i]
		r.Status, r.SignedBy = plan.Signed, "somebody"
		r.Signature = &plan.Signature{Digest: people.Digest(people.Text(&p, *r, plan.Date{}))}
	}
	sign(0)
	sign(1)
	p.Releases[2].Status, p.Releases[2].SignedBy = plan.Signed, "Ming"
	got := TryWording(&p, plan.ModelRelease, "I, {party}, agree.", plan.Date{})
	if len(got.Wrong) != 0 || !slices.Equal(got.Loses, []string{"Grete Sandoval"}) || !slices.Equal(got.Paper, []string{"王小明"}) || len(p.Wordings) != 0 {
		t.Errorf("%+v; %+v", got, p.Wordings)
	}
	p.Releases[0].Media = "everywhere" // its signature fails already
	if got = TryWording(&p, plan.ModelRelease, "I, {party}, agree.", plan.Date{}); len(got.Loses) != 0 {
		t.Errorf("%+v", got)
	}
	if got = TryWording(&p, plan.ModelRelease, BuiltInWording(plan.ModelRelease), plan.Date{}); len(got.Wrong)+len(got.Loses) != 0 {
		t.Errorf("the built-in one: %+v", got)
	}
	for text, want := range map[string]string{
		"I agree to {everything}.": "In line 1 there is no field {everything}; the fields are ",
		"I, {partie}, agree.":      `In line 1 there is no field {partie}; did you mean "party"?`,
		"One\nand {party":          "In line 2 a { or } stands alone",
		" ":                        "A text is needed here.",
	} {
		if got = TryWording(&p, plan.ModelRelease, text, plan.Date{}); len(got.Wrong) != 1 || !strings.HasPrefix(got.Wrong[0], want) {
			t.Errorf("%q: %q", text, got.Wrong)
		}
	}
}

func TestSetWording(t *testing.T) {
	p := filmed()
	SetWording(&p, plan.ModelRelease, BuiltInWording(plan.ModelRelease))
	if p.Wordings != nil {
		t.Errorf("the built-in one is in the plan: %+v", p.Wordings)
	}
	SetWording(&p, plan.ModelRelease, "one")
	SetWording(&p, plan.PetRelease, "pet")
	SetWording(&p, plan.ModelRelease, "two")
	if len(p.Wordings) != 2 || p.Wordings[0].Text != "two" {
		t.Errorf("%+v", p.Wordings)
	}
	SetWording(&p, plan.ModelRelease, BuiltInWording(plan.ModelRelease))
	SetWording(&p, plan.PetRelease, BuiltInWording(plan.PetRelease))
	if p.Wordings != nil {
		t.Errorf("%+v", p.Wordings)
	}
}

func TestBoxes(t *testing.T) {
	st := session.State{Plan: filmed()}
	if got := Boxes(st, "model-grete"); got != "" {
		t.Errorf("%q", got)
	}
	if got := Boxes(st, "model-ming"); got != "3 letters or signs have no shape in the type of the papers and print as an empty box: 王小明. Write the name in Latin letters beside it." {
		t.Errorf("%q", got)
	}
	st.Plan.People[2].Name = "J. 王"
	if got := Boxes(st, "model-ming"); !strings.HasPrefix(got, "1 letter or sign has no shape in the type of the papers and prints as an empty box: 王.") {
		t.Errorf("%q", got)
	}
}

func TestHoursSource(t *testing.T) {
	p := plan.New()
	if got := HoursSource(&p); got != "" {
		t.Errorf("%q", got)
	}
	p.Shooting.Minors = "atlantis"
	if got := HoursSource(&p); !strings.HasPrefix(got, `There is no table called "atlantis"`) {
		t.Errorf("%q", got)
	}
	for _, h := range people.HourTables() {
		p.Shooting.Minors = h.ID
		if got := HoursSource(&p); !strings.Contains(got, h.Source) || !strings.HasSuffix(got, people.HoursCaution) || !strings.Contains(got, h.Memory[0]) {
			t.Errorf("%s: %q", h.ID, got)
		}
	}
	TakeHours(&p, plan.HourTable{ID: "brindle", Name: "One", Source: "a letter"})
	TakeHours(&p, plan.HourTable{ID: "brindle", Name: "Two", Source: "a letter"})
	if len(p.Hours) != 1 || p.Hours[0].Name != "Two" || p.Shooting.Minors != "brindle" || !CarriesHours(&p) {
		t.Errorf("%+v", p.Hours)
	}
	p.Shooting.Minors = "california"
	DropHours(&p, "brindle")
	if p.Hours != nil || p.Shooting.Minors != "california" || CarriesHours(&p) {
		t.Errorf("%+v, %q", p.Hours, p.Shooting.Minors)
	}
}
