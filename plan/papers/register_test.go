package papers

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

func TestRegisterGoldenText(t *testing.T) {
	p, days, _ := tarn(t)
	golden(t, "register.txt", ReleaseRegister(&p, days, nil))
}

// row is what the register says of one release.
func registerRow(t *testing.T, s Sheet, about string) string {
	t.Helper()
	rows := s.Sections[0].Table.Rows
	i := slices.IndexFunc(rows, func(r Row) bool { return r.Cells[0].Strong == about })
	if i < 0 {
		t.Fatalf("nothing is said about %s:\n%s", about, s.Text())
	}
	return s.Sections[0].Table.say(rows[i])
}

// How far a release can be, in words.
func TestRegisterStates(t *testing.T) {
	base, d := demo(t)
	signedHere := func(r *plan.Release) { *r = signed(&base, *r, "Grete Sandoval", "") }
	for name, c := range map[string]struct {
		change     func(*plan.Release)
		doubts     people.Doubts
		has, lacks []string
	}{
		"sent":     {func(r *plan.Release) {}, nil, []string{"sent, not signed yet", "scenes: 3, 4, 6, 7, 9", "what its text asks for: ", "the signature"}, nil},
		"needed":   {func(r *plan.Release) { r.Status = "" }, nil, []string{"not sent yet", "the signature"}, nil},
		"declined": {func(r *plan.Release) { r.Status = plan.Declined }, nil, []string{"declined", "can't be shown"}, nil},
		"window":   {signedHere, nil, []string{"signed", "by Grete Sandoval", "in the window, Monday 1 March 2027", "no last day is set", "since Monday 1 March 2027"}, []string{"missing", "doubt"}},
		"changed":  {func(r *plan.Release) { signedHere(r); r.Media = "cinema" }, nil, []string{"signed, in doubt", "the text has changed since it was signed"}, nil},
		"until":    {func(r *plan.Release) { r.Until = plan.Date{Year: 2029, Month: 3, Day: 5}; signedHere(r) }, nil, []string{"holds until Monday 5 March 2029"}, []string{"missing"}},
		"lapsed": {func(r *plan.Release) { r.Until = plan.Date{Year: 2027, Month: 3, Day: 5}; signedHere(r) }, nil,
			[]string{"lapsed", "held until Friday 5 March 2027", "a new signature: it has lapsed", "by Grete Sandoval"}, []string{"since"}},
		"paper": {func(r *plan.Release) {
			r.Status, r.SignedBy, r.Scan = plan.Signed, "Grete Sandoval", &plan.Scan{Path: "signed/grete.pdf"}
		}, nil, []string{"by Grete Sandoval", "on paper; scan: signed/grete.pdf"}, []string{"missing"}},
		"scan gone": {func(r *plan.Release) {
			r.Status, r.SignedBy, r.Scan = plan.Signed, "Grete Sandoval", &plan.Scan{Path: "signed/grete.pdf"}
		}, people.Doubts{"r-grete": {Code: plan.ScanMissing, Facts: []any{"signed/grete.pdf"}}}, []string{"signed, in doubt", "the scan signed/grete.pdf is not there"}, nil},
		"unkept":   {func(r *plan.Release) { r.Status = plan.Signed }, nil, []string{"the name of who signed", "the signature itself, or a scan of it"}, []string{"by "}},
		"no scene": {func(r *plan.Release) { r.Scenes = []plan.ID{"s1"} }, nil, []string{"scenes: none", "a scene that needs it"}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			p := base.Clone()
			i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == "r-grete" })
			c.change(&p.Releases[i])
			text := registerRow(t, ReleaseRegister(&p, []day.Day{d}, c.doubts), "Grete Sandoval")
			for _, want := range c.has {
				if !strings.Contains(text, want) {
					t.Errorf("it lacks %q:\n%s", want, text)
				}
			}
			for _, other := range c.lacks {
				if strings.Contains(text, other) {
					t.Errorf("it has %q:\n%s", other, text)
				}
			}
		})
	}
}

// What is needed and not written down has a row too: Mia's release, and that of the flights in the demo; and a release that
// was signed for somebody asks who signed.
func TestRegisterOfWhatIsNotWrittenDown(t *testing.T) {
	p, d := demo(t)
	s := ReleaseRegister(&p, []day.Day{d}, nil)
	if text := registerRow(t, s, "Mia Sandoval"); !strings.Contains(text, "not written down") || !strings.Contains(text, "Minor's release") || !strings.Contains(text, "3, 5, 6, 10, 13") {
		t.Errorf("Mia: %s", text)
	}
	if text := registerRow(t, s, "Flights"); !strings.Contains(text, "Drone release") || !strings.Contains(text, "scenes: 1") {
		t.Errorf("flights: %s", text)
	}
	if text := registerRow(t, s, "Jon Sandoval"); !strings.Contains(text, "what the signer is to the minor") {
		t.Errorf("Jon: %s", text)
	}
	if !strings.Contains(all(s), "Nobody with a drone pilot's certificate is named.") || !strings.Contains(all(s), "Nobody has said that they read the rules") {
		t.Errorf("the papers of the flights are not asked for:\n%s", s.Text())
	}
	if s.Key.Text != "3 of 6" { // Paul's, Amara's and Jon's; not Grete's, Mia's and the flights'
		t.Errorf("key %v", s.Key)
	}
}

// The deliverables are cleared or wait, and how many signatures they wait for is what people.Cleared counts.
func TestRegisterOfDeliverables(t *testing.T) {
	p, d := demo(t)
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Film", Seconds: 90}, {Name: "Evening", Seconds: 20, Scenes: []plan.ID{"s11"}}, {Name: "Piano", Seconds: 5, Scenes: []plan.ID{"s8", "s10"}}}
	text := ReleaseRegister(&p, []day.Day{d}, nil).Text()
	for _, want := range []string{"Film\n  releases: waits for 3 signatures, in scenes 1, 3, 4, 5, 6, 7, 9, 10, 13\n", "Evening · cleared\n", "Piano\n  releases: waits for 1 signature, in scene 10\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("it lacks %q:\n%s", want, text)
		}
	}
}

// No day of birth, no phone, no mail, nothing of a certificate, no fee is in the register; the names of those who sign are.
func TestRegisterLeaksNothing(t *testing.T) {
	p, d := demo(t)
	for i := range p.People {
		p.People[i].Phone = "LEAK 555 0199"
	}
	releases := slices.Clone(p.Releases)
	secretly(&p)
	p.Releases = releases
	for i := range p.Releases {
		p.Releases[i].Compensation, p.Releases[i].SignedBy, p.Releases[i].Subject = "LEAK 400.00", "Amara Sandoval", ""
	}
	p.People[2].Certificate = plan.Certificate{Number: "LEAK", Trained: plan.Date{Year: 1984, Month: time.May, Day: 5}, Until: plan.Date{Year: 1984, Month: time.June, Day: 5}}
	p.Shooting.Flying.ReadBy, p.Shooting.Flying.Read = "ines", d.Date
	text := everything(t, ReleaseRegister(&p, []day.Day{d}, nil))
	for _, leak := range []string{"LEAK", "1984", "2017", "555", "@", "400.00"} {
		if strings.Contains(text, leak) {
			t.Errorf("%q is in the register", leak)
		}
	}
	if !strings.Contains(text, "by Amara Sandoval") || !strings.Contains(text, "certificate or training does not hold") {
		t.Errorf("the register:\n%s", text)
	}
}
