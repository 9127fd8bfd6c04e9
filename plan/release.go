package plan

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"eavelight/plan/say"
)

// ReleaseKind is what a permission is about.
type ReleaseKind string

// The kinds of release.
const (
	ModelRelease     ReleaseKind = "model"
	MinorRelease     ReleaseKind = "minor"
	PropertyRelease  ReleaseKind = "property"
	MusicRelease     ReleaseKind = "music"
	ArtworkRelease   ReleaseKind = "artwork"
	NeighbourRelease ReleaseKind = "neighbour"
	PetRelease       ReleaseKind = "pet"
	DroneRelease     ReleaseKind = "drone"
)

// ReleaseKinds lists them in the order they are offered.
var ReleaseKinds = []ReleaseKind{ModelRelease, MinorRelease, PropertyRelease, MusicRelease, ArtworkRelease,
	NeighbourRelease, PetRelease, DroneRelease}

// Own reports whether a release of this kind is that of a person on camera.
func (k ReleaseKind) Own() bool { return k == ModelRelease || k == MinorRelease }

// ReleaseStatus is how far a release has come.
type ReleaseStatus string

// The states of a release. Needed is the usual one.
const (
	Needed   ReleaseStatus = "needed"
	Sent     ReleaseStatus = "sent"
	Signed   ReleaseStatus = "signed"
	Declined ReleaseStatus = "declined"
	Lapsed   ReleaseStatus = "lapsed"
)

// ReleaseStatuses lists them in the order they are offered.
var ReleaseStatuses = []ReleaseStatus{Needed, Sent, Signed, Declined, Lapsed}

// Release is a written permission.
type Release struct {
	ID           ID
	Kind         ReleaseKind
	Party        ID     // the person it is about; where it is about something else, who gives it
	Subject      string // what it is about otherwise: the house, the song, the painting
	Scenes       []ID   // which scenes need it; none named: all those the party is in, or that it can be about
	SignedBy     string
	Relation     string // of who signed to the party, as in "mother"; empty: they signed for themselves
	Media        string
	Territory    string
	Term         string
	Compensation string // what the party gets for it; empty is none
	Status       ReleaseStatus
	Changed      Date // when the status became so
	Until        Date // it lapses after this day
	Scan         *Scan
	Signature    *Signature
}

// Scan is a signed paper in a file.
type Scan struct {
	Path   string // from the folder of the plan, with /; or from the root
	SHA256 string // of the file when it was filed, in hex
}

// Signature is a release signed in the window.
type Signature struct {
	Name    string    // as the signer typed it
	At      time.Time // UTC, to the second
	Place   string
	Consent bool   // to sign electronically
	Digest  string // SHA-256 of the text that was signed, in hex
	Size    PadSize
	Strokes []Stroke
}

// PadSize is how large the pad was, in its own whole units.
type PadSize struct{ Width, Height int }

// Stroke is what was drawn from pen down to pen up: corners of a line, or a single point.
type Stroke []Point

// Point is a place on the pad, from its left and its top.
type Point struct{ X, Y int }

// What a signature holds: more is no signature, and would fill the plan's file.
const (
	MaxStrokes = 200
	MaxPoints  = 20_000 // of all strokes together
	maxPad     = 10_000
)

// String is the stroke as it stands in a plan file: "12,40 14,43".
func (s Stroke) String() string {
	var out []byte
	for i, p := range s {
		if i > 0 {
			out = append(out, ' ')
		}
		out = strconv.AppendInt(out, int64(p.X), 10)
		out = append(out, ',')
		out = strconv.AppendInt(out, int64(p.Y), 10)
	}
	return string(out)
}

// ParseStroke reads what String prints, with any spaces between the points.
func ParseStroke(s string) (Stroke, error) {
	points := strings.Fields(s)
	if len(points) > MaxPoints {
		return nil, say.Error("a signature holds at most %d points", MaxPoints)
	}
	var out Stroke
	for _, word := range points {
		x, y, _ := strings.Cut(word, ",")
		left, err := strconv.ParseUint(x, 10, 16)
		top, err2 := strconv.ParseUint(y, 10, 16)
		if err != nil || err2 != nil {
			return nil, say.Error("%.20q is no point of a stroke; write the points as in 12,40 14,43", word)
		}
		out = append(out, Point{int(left), int(top)})
	}
	if len(out) == 0 {
		return nil, say.Error("a stroke has at least one point; write the points as in 12,40 14,43")
	}
	return out, nil
}

// Wording is the text of a kind of release, with fields such as {party} that are filled in for each.
type Wording struct {
	Kind ReleaseKind
	Text string
}

// WordingFields are the fields that a wording may hold; package people fills them in.
var WordingFields = []string{"film", "property", "address", "producer", "client", "agent", "party", "guardian", "subject", "scenes",
	"media", "territory", "term", "compensation", "date"}

var fieldForm = regexp.MustCompile(`\{([^{}\n]*)\}`)

// Fill puts values in the place of the fields of a wording, once: a value with a field in it stays as it is.
func Fill(wording string, value func(field string) string) string {
	return fieldForm.ReplaceAllStringFunc(wording, func(s string) string { return value(s[1 : len(s)-1]) })
}

func (v *validator) releases() {
	quiet := &validator{plan: v.plan}
	people, scenes := quiet.personIDs(), v.sceneIDs()
	unique(v, "releases", v.plan.Releases, func(r Release) ID { return r.ID }, "release")
	for i, r := range v.plan.Releases {
		at := fmt.Sprintf("releases[%d]", i)
		oneOf(v, at+".kind", r.Kind, ReleaseKinds)
		oneOf(v, at+".status", r.Status, ReleaseStatuses)
		v.refer(at+".party", r.Party, people, aPerson)
		v.referAll(at+".scenes", r.Scenes, scenes, aScene)
		v.date(at+".changed", r.Changed)
		v.date(at+".until", r.Until)
		for _, t := range []struct{ key, text string }{{"subject", r.Subject}, {"signed-by", r.SignedBy}, {"relation", r.Relation},
			{"media", r.Media}, {"territory", r.Territory}, {"term", r.Term}, {"compensation", r.Compensation}} {
			v.text(at+"."+t.key, t.text)
		}
		if r.Scan != nil {
			v.name(at+".scan.path", r.Scan.Path)
			v.digest(at+".scan.sha256", r.Scan.SHA256)
		}
		if r.Signature != nil {
			v.signature(at+".signature", *r.Signature)
		}
	}
}

var digestForm = regexp.MustCompile(`^[0-9a-fA-F]{64}$`)

func (v *validator) digest(at, sum string) {
	if !digestForm.MatchString(sum) {
		v.wrong(at, BadDigest)
	}
}

func (v *validator) signature(at string, s Signature) {
	v.name(at+".name", s.Name)
	v.instant(at+".at", s.At)
	v.text(at+".place", s.Place)
	if !s.Consent {
		v.wrong(at+".consent", NoConsent)
	}
	v.digest(at+".digest", s.Digest)
	v.within(at+".size.width", float64(s.Size.Width), 1, maxPad)
	v.within(at+".size.height", float64(s.Size.Height), 1, maxPad)
	v.strokes(at+".strokes", s)
}

func (v *validator) strokes(at string, s Signature) {
	points := 0
	for i, stroke := range s.Strokes {
		points += len(stroke)
		off := func(p Point) bool { return p.X < 0 || p.Y < 0 || p.X > s.Size.Width || p.Y > s.Size.Height }
		if len(stroke) == 0 {
			v.wrong(fmt.Sprintf("%s[%d]", at, i), NoStrokes)
		} else if j := slices.IndexFunc(stroke, off); j >= 0 {
			v.wrong(fmt.Sprintf("%s[%d]", at, i), OffPad, stroke[j:j+1], s.Size.Width, s.Size.Height)
		}
	}
	switch {
	case len(s.Strokes) == 0:
		v.wrong(at, NoStrokes)
	case len(s.Strokes) > MaxStrokes || points > MaxPoints:
		v.wrong(at, TooManyStrokes, MaxStrokes, MaxPoints)
	}
}

func (v *validator) wordings() {
	for i, w := range v.plan.Wordings {
		at := fmt.Sprintf("wordings[%d]", i)
		same := func(o Wording) bool { return o.Kind == w.Kind }
		switch {
		case w.Kind == "":
			v.wrong(at+".kind", MissingName)
		case slices.IndexFunc(v.plan.Wordings, same) < i:
			v.wrong(at+".kind", NamedTwice, w.Kind)
		}
		oneOf(v, at+".kind", w.Kind, ReleaseKinds)
		if strings.TrimSpace(w.Text) == "" {
			v.wrong(at+".text", MissingText)
		}
		v.text(at+".text", w.Text)
		v.fields(at+".text", w.Text)
	}
}

// fields finds what stands between braces and is no field.
func (v *validator) fields(at, text string) {
	for n, line := range strings.Split(text, "\n") {
		for _, m := range fieldForm.FindAllStringSubmatch(line, -1) {
			if !slices.Contains(WordingFields, m[1]) {
				known := v.suggest(m[1], WordingFields)
				if known.IsZero() {
					known = say.That("; the fields are %s", strings.Join(WordingFields, ", "))
				}
				v.wrong(at, UnknownField, n+1, m[1], known)
			}
		}
		if strings.ContainsAny(fieldForm.ReplaceAllString(line, ""), "{}") {
			v.wrong(at, LooseBrace, n+1)
		}
	}
}
