package people

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the golden file anew")

// film is an invented plan with a release of each kind, all of it filled in.
func film() plan.Plan {
	p := plan.New()
	p.Title = "A day at Marl House"
	p.Brief.Client, p.Brief.Agent = "Tallmoss Homes", "Dora Wexhall"
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Film", Seconds: 30}, {Name: "Cut", Seconds: 10, Scenes: []plan.ID{"swim"}}, {Name: "Stills"}}
	p.Property.Name, p.Property.Address = "Marl House", "4 Sandgrouse Lane, Lower Marl"
	p.Property.Spaces = []plan.Space{{ID: "pool", Kind: plan.Outdoor}, {ID: "air", Kind: plan.Aerial}}
	p.Papers.Producer = "Noor Halvardsen"
	p.People = []plan.Person{
		{ID: "grete", Name: "Grete Sandoval", Role: plan.Talent, Job: "the grandmother"},
		{ID: "amara", Name: "Amara Sandoval", Role: plan.Talent},
		{ID: "mia", Name: "Mia Sandoval", Role: plan.Talent, Born: plan.Date{Year: 2020, Month: 2, Day: 3}, Guardian: "amara"},
		{ID: "ines", Name: "Ines Calloway", Role: plan.Crew, Job: "drone pilot", Paid: true, Certificate: plan.Certificate{Number: "1"}},
	}
	p.Scenes = []plan.Scene{
		{ID: "rise", Number: "1", Title: "First light", Space: "air", Seconds: 8},
		{ID: "swim", Number: "2", Title: "Swim", Space: "pool", People: []plan.ID{"mia", "grete"}, Seconds: 14},
		{ID: "toast", Number: "3", Space: "pool", People: []plan.ID{"amara", "grete"}, Seconds: 9},
	}
	scope := plan.Release{Media: "web and social", Territory: "worldwide", Term: "three years", Status: plan.Signed}
	for _, r := range []plan.Release{
		{ID: "m-grete", Kind: plan.ModelRelease, Party: "grete"},
		{ID: "m-mia", Kind: plan.MinorRelease, Party: "mia", Compensation: "a copy of the film"},
		{ID: "house", Kind: plan.PropertyRelease, Subject: "Marl House and its garden"},
		{ID: "song", Kind: plan.MusicRelease, Subject: "“Slow tide”, piano", Scenes: []plan.ID{"swim", "toast"}, Compensation: "USD 200"},
		{ID: "mural", Kind: plan.ArtworkRelease, Subject: "the mural beside the pool", Scenes: []plan.ID{"swim"}},
		{ID: "next", Kind: plan.NeighbourRelease, Subject: "the terrace at 6 Sandgrouse Lane", Scenes: []plan.ID{"toast"}},
		{ID: "dog", Kind: plan.PetRelease, Subject: "Biscuit, a terrier", Scenes: []plan.ID{"swim", "rise", "toast"}},
		{ID: "flight", Kind: plan.DroneRelease, Party: "ines", Subject: "over the house and garden, below 60 m", Compensation: "as agreed for the day"},
	} {
		r.Media, r.Territory, r.Term, r.Status = scope.Media, scope.Territory, scope.Term, scope.Status
		p.Releases = append(p.Releases, r)
	}
	p.Shooting.Dates = []plan.Date{day(9), day(16)}
	p.Shooting.Flying = plan.Flying{Read: day(1), ReadBy: "ines"}
	return p
}

// TestTexts holds the text of each kind of release, filled in, against testdata/releases.txt, which is written with -update and
// then read by a person. A built-in wording that changes shows here: the signatures made under it will no longer match.
func TestTexts(t *testing.T) {
	p := film()
	var got strings.Builder
	for i, kind := range plan.ReleaseKinds {
		r := p.Releases[i]
		if r.Kind != kind {
			t.Fatalf("release %d is a %s release", i, r.Kind)
		}
		if gaps := Unfilled(&p, r, plan.Date{}); len(gaps) > 0 {
			t.Errorf("%s: %v are not filled in", kind, gaps)
		}
		text := Text(&p, r, plan.Date{})
		if n := len([]rune(text)); n > 2200 {
			t.Errorf("%s: %d letters are more than fit on a page with a signature", kind, n)
		}
		got.WriteString("=== " + string(kind) + " ===\n" + text + "\n\n")
	}
	const golden = "testdata/releases.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil || got.String() != string(want) {
		t.Errorf("%v; the texts differ from %s:\n%s", err, golden, got.String())
	}
}

// TestEveryFieldIsKnown: the built-in wordings are sound by the plan's own rules, and every field that the plan lets a wording have
// can be filled in.
func TestEveryFieldIsKnown(t *testing.T) {
	p := film()
	for _, kind := range plan.ReleaseKinds {
		p.Wordings = append(p.Wordings, plan.Wording{Kind: kind, Text: Wording(&p, kind)})
	}
	for _, problem := range plan.Validate(p) {
		t.Errorf("%s: %s", problem.Path, problem)
	}
	for _, field := range plan.WordingFields {
		r := p.Releases[1] // a minor's
		r.Subject = "Mia"
		if value(&p, r, day(16), field) == "" {
			t.Errorf("{%s} is not filled in", field)
		}
		if field != "compensation" && field != "scenes" && value(&plan.Plan{}, plan.Release{Kind: plan.ModelRelease}, plan.Date{}, field) != "" {
			t.Errorf("{%s} is filled in from nothing", field)
		}
	}
}

func TestValues(t *testing.T) {
	p := film()
	until := plan.Release{Until: plan.Date{Year: 2030, Month: 9, Day: 20}}
	for _, c := range []struct {
		name, field string
		r           plan.Release
		on          plan.Date
		want        string
	}{
		{"one scene", "scenes", plan.Release{Scenes: []plan.ID{"swim"}}, plan.Date{}, "2 (Swim)"},
		{"one without a title", "scenes", plan.Release{Scenes: []plan.ID{"toast"}}, plan.Date{}, "3"},
		{"three, in the plan's order", "scenes", plan.Release{Scenes: []plan.ID{"toast", "swim", "rise"}}, plan.Date{}, "1 (First light), 2 (Swim) and 3"},
		{"all of a person", "scenes", plan.Release{Kind: plan.ModelRelease, Party: "grete"}, plan.Date{}, "all with Grete Sandoval"},
		{"all of nobody", "scenes", plan.Release{Kind: plan.ModelRelease}, plan.Date{}, ""},
		{"all flights", "scenes", plan.Release{Kind: plan.DroneRelease, Party: "ines"}, plan.Date{}, "all that are shot from the air"},
		{"all of the house", "scenes", plan.Release{Kind: plan.PropertyRelease}, plan.Date{}, "the whole film"},
		{"a term", "term", plan.Release{Term: "two years", Until: until.Until}, plan.Date{}, "two years"},
		{"a term by its last day", "term", until, plan.Date{}, "until Friday 20 September 2030"},
		{"no fee", "compensation", plan.Release{Party: "grete"}, plan.Date{}, "none"},
		{"a fee that is not said", "compensation", plan.Release{Party: "ines"}, plan.Date{}, ""},
		{"the guardian", "guardian", plan.Release{Party: "mia"}, plan.Date{}, "Amara Sandoval"},
		{"no guardian", "guardian", plan.Release{Party: "grete"}, plan.Date{}, ""},
		{"no day yet", "date", plan.Release{}, plan.Date{}, ""},
		{"a day", "date", plan.Release{}, day(16), "Saturday 16 October 2027"},
		{"no such field", "moon", plan.Release{}, day(16), ""},
	} {
		if got := value(&p, c.r, c.on, c.field); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestGapsAreMarked(t *testing.T) {
	p := film()
	p.Papers.Producer, p.Wordings = "", []plan.Wording{{Kind: plan.PetRelease, Text: "{producer} films {subject}, {subject}: {media}.\r\n\r\n"}}
	r := plan.Release{Kind: plan.PetRelease, Media: "web {party}"}
	if got, want := Text(&p, r, plan.Date{}), "[producer: not filled in] films [subject: not filled in], [subject: not filled in]: web {party}."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Unfilled(&p, r, plan.Date{}); !slices.Equal(got, []string{"producer", "subject"}) {
		t.Errorf("not filled in: %v", got)
	}
	p.Wordings[0].Text = "One\r\ntwo\rthree.\n"
	if got, want := Text(&p, r, plan.Date{}), "One\ntwo\nthree."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Text(&p, plan.Release{Kind: "dog"}, plan.Date{}); got != "" {
		t.Errorf("a kind without a wording says %q", got)
	}
}

// SHA-256 of "abc": FIPS 180-4's example, as published by NIST (from memory; the system's sha256sum says the same); of the others:
// the system's sha256sum of the same bytes.
func TestDigest(t *testing.T) {
	for text, want := range map[string]string{
		"abc":       "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
		"a\nb\nc":   "ea7fb08b7a2dc4619ffb7c7bb38d95a2047935fa165d71b12efd3852a2e6d0cc",
		"a\r\nb\rc": "ea7fb08b7a2dc4619ffb7c7bb38d95a2047935fa165d71b12efd3852a2e6d0cc",
		"Åsgård 山":  "6d5c717591d45331f930a140bea9b6cac3bedd48af730c13c1d51ebed386934d",
	} {
		if got := Digest(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// signed is the film with the grandmother's signature under her release as it stands.
func signed() (plan.Plan, *plan.Release) {
	p := film()
	r := &p.Releases[0]
	r.SignedBy, r.Changed = "Grete Sandoval", day(1)
	r.Signature = &plan.Signature{Name: "Grete Sandoval", At: time.Date(2027, 10, 1, 17, 45, 0, 0, time.UTC), Place: "Lower Marl", Consent: true,
		Digest: Digest(Text(&p, *r, plan.Date{})), Size: plan.PadSize{Width: 600, Height: 200}, Strokes: []plan.Stroke{{{X: 12, Y: 40}, {X: 14, Y: 43}}}}
	return p, r
}

// TestTampering: what changes the text that was signed shows; what the signature itself, or the work, changes does not.
func TestTampering(t *testing.T) {
	for _, c := range []struct {
		name    string
		tamper  func(*plan.Plan, *plan.Release)
		matches bool
	}{
		{"nothing", func(*plan.Plan, *plan.Release) {}, true},
		{"one letter of the media", func(_ *plan.Plan, r *plan.Release) { r.Media = "Web and social" }, false},
		{"a space at the end of the term", func(_ *plan.Plan, r *plan.Release) { r.Term += " " }, false},
		{"more territory", func(_ *plan.Plan, r *plan.Release) { r.Territory = "the universe" }, false},
		{"other pay", func(_ *plan.Plan, r *plan.Release) { r.Compensation = "USD 1" }, false},
		{"no pay, said", func(_ *plan.Plan, r *plan.Release) { r.Compensation = "none" }, true},
		{"fewer scenes", func(_ *plan.Plan, r *plan.Release) { r.Scenes = []plan.ID{"swim"} }, false},
		{"another kind", func(_ *plan.Plan, r *plan.Release) { r.Kind = plan.PetRelease }, false},
		{"another party", func(_ *plan.Plan, r *plan.Release) { r.Party = "amara" }, false},
		{"another client", func(p *plan.Plan, _ *plan.Release) { p.Brief.Client = "Tallmoss Houses" }, false},
		{"another producer", func(p *plan.Plan, _ *plan.Release) { p.Papers.Producer = "N. Halvardsen" }, false},
		{"another wording", func(p *plan.Plan, _ *plan.Release) {
			p.Wordings = []plan.Wording{{Kind: plan.ModelRelease, Text: Wording(p, plan.ModelRelease) + "\n8. And all else."}}
		}, false},
		{"the same wording, in a file of the other line ends", func(p *plan.Plan, _ *plan.Release) {
			p.Wordings = []plan.Wording{{Kind: plan.ModelRelease, Text: strings.ReplaceAll(Wording(p, plan.ModelRelease), "\n", "\r\n")}}
		}, true},
		{"another wording of another kind", func(p *plan.Plan, _ *plan.Release) {
			p.Wordings = []plan.Wording{{Kind: plan.PetRelease, Text: "Woof."}}
		}, true},
		{"a letter of the digest", func(_ *plan.Plan, r *plan.Release) {
			first := map[bool]string{true: "1", false: "0"}[r.Signature.Digest[0] == '0']
			r.Signature.Digest = first + r.Signature.Digest[1:]
		}, false},
		{"the digest in capitals", func(_ *plan.Plan, r *plan.Release) { r.Signature.Digest = strings.ToUpper(r.Signature.Digest) }, true},
		{"a stroke moved", func(_ *plan.Plan, r *plan.Release) { r.Signature.Strokes[0][0].X++ }, true},
		{"the typed name", func(_ *plan.Plan, r *plan.Release) { r.Signature.Name, r.SignedBy = "G. Sandoval", "G." }, true},
		{"another day", func(p *plan.Plan, _ *plan.Release) { p.Shooting.Date = day(9) }, true},
		{"a scene more", func(p *plan.Plan, _ *plan.Release) { p.AddScene(0) }, true},
		{"a note", func(p *plan.Plan, _ *plan.Release) { p.People[0].Notes = "Bring her coat." }, true},
	} {
		p, r := signed()
		c.tamper(&p, r)
		if got := Matches(&p, *r, plan.Date{}); got != c.matches {
			t.Errorf("%s: matches %v", c.name, got)
		}
		doubt, doubted := Stale(&p, plan.Date{})[r.ID]
		if doubted == c.matches || doubted && (doubt.Code != plan.TextChanged || doubt.Path != "releases[0].signature") {
			t.Errorf("%s: %v", c.name, doubt)
		}
		if clear := stands(&p, Permission{Kind: plan.ModelRelease, Person: "grete"}, p.Scenes[len(p.Scenes)-1], plan.Date{}, Stale(&p, plan.Date{})).Clear(); clear && !c.matches {
			t.Errorf("%s: still cleared", c.name)
		}
	}
}

// TestEveryLetterCounts: any one letter of a wording that changes shows.
func TestEveryLetterCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, r := signed()
		text := []rune(strings.TrimSpace(Wording(&p, r.Kind)))
		i := rapid.IntRange(0, len(text)-1).Draw(t, "letter")
		if text[i] == '\n' {
			text[i] = ' ' // not by a few: the other line end is the same text
		}
		text[i] += rune(rapid.IntRange(1, 5).Draw(t, "by"))
		p.Wordings = []plan.Wording{{Kind: r.Kind, Text: string(text)}}
		if Matches(&p, *r, plan.Date{}) {
			t.Fatalf("%q is taken for what was signed", string(text[max(0, i-10):min(len(text), i+10)]))
		}
	})
}

// A wording that names the day has to be signed anew when the day moves.
func TestAWordingThatNamesTheDay(t *testing.T) {
	p, r := signed()
	p.Wordings = []plan.Wording{{Kind: r.Kind, Text: "Filmed on {date}."}}
	r.Signature.Digest = Digest("Filmed on Saturday 16 October 2027.")
	for _, c := range []struct {
		on, chosen plan.Date
		want       bool
	}{{day(16), plan.Date{}, true}, {day(9), plan.Date{}, false}, {plan.Date{}, day(16), true}, {plan.Date{}, day(9), false}, {plan.Date{}, plan.Date{}, false}} {
		if p.Shooting.Date = c.chosen; Matches(&p, *r, c.on) != c.want {
			t.Errorf("on %v, chosen %v: matches %v", c.on, c.chosen, !c.want)
		}
	}
}
