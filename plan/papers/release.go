package papers

import (
	"cmp"
	"io"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// Caution goes with every wording of a release.
const Caution = "A template, not legal advice; have a licensed lawyer check it for your place."

// Release says what one release is about and what is agreed, in its exact text on a date, and how it was signed: in the window,
// with the strokes and the digest, or on paper. One that is not signed has lines to sign on. A zero date is the chosen one.
func Release(p *plan.Plan, r plan.Release, d plan.Date) Sheet {
	s := releaser{Plan: p, release: r, text: people.Text(p, r, d), status: people.StatusOn(r, d), matches: people.Matches(p, r, d)}
	s.style = styleOf(p)
	s.party, _ = p.Person(r.Party)
	s.named = true
	if s.zone, _ = time.LoadLocation(p.Property.Zone); s.zone == nil || p.Property.Zone == "" {
		s.zone, s.named = time.UTC, false
	}
	sheet := Sheet{
		Kind:     kindName(r.Kind),
		Title:    s.title(),
		Lines:    s.lines(),
		Sections: []Section{s.warning(), s.wording(), s.signature()},
		Foot:     s.foot(),
		Zone:     s.zone,
	}
	sheet.Key, sheet.KeyNote = s.key()
	if len(sheet.Unprintable()) > 0 {
		last := &sheet.Sections[len(sheet.Sections)-1]
		last.Small = append(last.Small, "An empty box stands for a letter or sign that this type lacks; the plan holds it as it was written.")
	}
	return sheet
}

// kindName is a kind of release as a heading.
func kindName(k plan.ReleaseKind) string {
	switch k {
	case plan.MinorRelease, plan.NeighbourRelease:
		k += "'s"
	}
	return capital(string(k)) + " release"
}

// releaser collects what the sections of one release have in common.
type releaser struct {
	*plan.Plan
	wall
	release plan.Release
	party   plan.Person
	text    string
	status  plan.ReleaseStatus
	matches bool
	named   bool // whether the zone is the property's
}

// title is whom it is about, or what.
func (s releaser) title() string {
	who, what := strings.TrimSpace(s.party.Called()), strings.TrimSpace(s.release.Subject)
	if !s.release.Kind.Own() {
		who, what = what, who
	}
	return cmp.Or(who, what, string(s.release.ID), "not named yet")
}

// releaseAbout is a release in a line.
func releaseAbout(p *plan.Plan, r plan.Release) say.Text {
	s := releaser{Plan: p, release: r}
	s.party, _ = p.Person(r.Party)
	kind := say.That("%s release", r.Kind)
	if r.Kind == plan.MinorRelease || r.Kind == plan.NeighbourRelease {
		kind = people.KindWords(r.Kind)
	}
	return say.Join(": ", kind, say.Plain(oneLine(s.title())))
}

func (s releaser) lines() []string {
	out := []string{lines(s.Title, s.Property.Name)}
	if !strings.Contains(strings.ToLower(s.text), "not legal advice") {
		out = append(out, Caution)
	}
	return out
}

// key is how far it is, once it is more than to be signed.
func (s releaser) key() (key Fact, note string) {
	on := ""
	if !s.release.Changed.IsZero() {
		on = "since " + s.long(s.release.Changed)
	}
	switch {
	case s.status == plan.Signed && !s.matches:
		return Fact{"Status", "text changed"}, "since it was signed"
	case s.status == plan.Signed:
		return Fact{"Status", "signed"}, on
	case s.status == plan.Lapsed && !s.release.Until.IsZero():
		return Fact{"Status", "lapsed"}, "held until " + s.long(s.release.Until)
	case s.status == plan.Declined, s.status == plan.Lapsed:
		return Fact{"Status", string(s.status)}, on
	}
	return Fact{}, ""
}

// warning is what must be read before anything else.
func (s releaser) warning() Section {
	if s.matches {
		return Section{}
	}
	return Section{Heading: "The text has changed since it was signed", Text: []string{
		"The signature below was made under another text than the one printed here, and does not count for this one. Have this text signed, or bring back the one that was."}}
}

// wording is the exact text, a paragraph each.
func (s releaser) wording() Section {
	out := Section{Heading: "What is agreed"}
	for part := range strings.SplitSeq(s.text, "\n\n") {
		if part = strings.Trim(part, "\n"); part != "" {
			out.Text = append(out.Text, part)
		}
	}
	return out
}

func (s releaser) signature() Section {
	switch r := s.release; {
	case r.Signature != nil:
		return s.drawn(*r.Signature)
	case s.status == plan.Signed && r.Scan != nil:
		out := Section{Heading: "Signed on paper", Facts: append(s.signer(r.SignedBy), Fact{"Scan", r.Scan.Path})}
		out.Small = []string{"SHA-256 of the scan: " + r.Scan.SHA256}
		return out
	}
	out := Section{Heading: "To be signed", Blanks: []string{"Name", "Relation", "Place", "Date", "Signature"}}
	if who := s.signs(); who != "" {
		out.Text = append(out.Text, "By "+who+".")
	}
	if s.status == plan.Signed {
		out.Text = append(out.Text, "The plan says that this is signed, and holds neither the signature nor a scan of it.")
	}
	out.Text = append(out.Text, "Relation: only where you sign for somebody else, such as mother, guardian or manager.")
	return out
}

// signs names who is to sign, or is empty.
func (s releaser) signs() string {
	if s.release.Kind != plan.MinorRelease {
		return s.party.Called()
	}
	if guardian, ok := s.Person(s.party.Guardian); ok {
		return guardian.Called() + ", for " + s.party.Called()
	}
	return "a parent or guardian of " + cmp.Or(s.party.Called(), "the minor")
}

// drawn is a signature made in the window.
func (s releaser) drawn(sig plan.Signature) Section {
	out := Section{Heading: "Signature", Facts: s.signer(sig.Name)}
	if pen := (Drawing{sig.Size, sig.Strokes}); !pen.empty() {
		out.Figure = pen
	}
	at := sig.At.In(s.zone)
	zone := s.offset(sig.At)
	if s.named {
		zone += ", " + s.zone.String()
	}
	consent := "consented to sign electronically"
	if !sig.Consent {
		consent = "not given: a signature counts only with the consent to sign electronically"
	}
	out.Facts = append(out.Facts,
		Fact{"Date and time", s.long(plan.DateOf(at)) + ", " + s.hour(at) + " (" + zone + ")"},
		Fact{"Place", orEmpty(sig.Place, notFilledIn)},
		Fact{"Consent", consent})
	out.Small = []string{"SHA-256 of the text that was signed: " + strings.ToLower(sig.Digest)}
	if !s.matches {
		out.Small = append(out.Small, "SHA-256 of the text printed here: "+people.Digest(s.text))
	}
	out.Small = append(out.Small, "Signed at "+sig.At.UTC().Format(time.RFC3339)+", in the window of Eavelight.")
	return out
}

// signer says who signed, and for whom.
func (s releaser) signer(name string) []Fact {
	out := []Fact{{"Signed by", orEmpty(name, notFilledIn)}}
	if relation := strings.TrimSpace(s.release.Relation); relation != "" {
		return append(out, Fact{"For", orEmpty(s.party.Called(), s.release.Subject)}, Fact{"Relation", relation})
	}
	return append(out, Fact{"For", "themselves"})
}

func (s releaser) foot() string {
	if s.named {
		return "times are local: " + s.zone.String()
	}
	return "times are in UTC: the time zone is not set"
}

// WriteRelease writes the paper of one release into a folder, which it makes where there is none, and returns its path; as Write
// does in all else.
func WriteRelease(dir string, p *plan.Plan, r plan.Release, d plan.Date, made time.Time, overwrite bool) (path string, err error) {
	path = filepath.Join(dir, releaseFile(r))
	print := func(w io.Writer) error { return Release(p, r, d).PDF(w, p.Papers.Size.Or(), made) }
	if err := writeAll(dir, []file{{path, print}}, overwrite); err != nil {
		return "", err
	}
	return path, nil
}

// fileName is an id as every file system takes it: ids of a plan with nothing wrong in it stay as they are.
func fileName(id string) string {
	letters := []rune(id)
	for i, r := range letters {
		if !unicode.IsLetter(r) && !unicode.IsNumber(r) && r != '-' {
			letters[i] = '-'
		}
	}
	return cmp.Or(string(letters[:min(40, len(letters))]), "no-id")
}
