package people

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"eavelight/assets"
	"eavelight/plan"
)

// Wording is the text of a kind of release before its fields are filled in: the plan's own, or else the built-in one. It is
// a template, not legal advice.
func Wording(p *plan.Plan, kind plan.ReleaseKind) string {
	for _, w := range p.Wordings {
		if w.Kind == kind {
			return w.Text
		}
	}
	return assets.ReleaseWording(string(kind))
}

// Text is the exact text of a release: what is shown, printed and signed, its lines ended by LF. A field that the plan says
// nothing for is marked in brackets. No built-in wording names the shooting day; one that does, by {date}, has to be signed anew
// when the day moves from d, or from the chosen one where d is zero.
func Text(p *plan.Plan, r plan.Release, d plan.Date) string {
	text := plan.Fill(Wording(p, r.Kind), func(field string) string {
		if v := value(p, r, d, field); v != "" {
			return v
		}
		return "[" + field + ": not filled in]"
	})
	return strings.TrimSpace(unixLines(text))
}

// Unfilled lists the fields that the text of a release asks for and the plan says nothing for, each once, in the order of the
// text: nobody should be asked to sign a text with any.
func Unfilled(p *plan.Plan, r plan.Release, d plan.Date) []string {
	var out []string
	plan.Fill(Wording(p, r.Kind), func(field string) string {
		if value(p, r, d, field) == "" && !slices.Contains(out, field) {
			out = append(out, field)
		}
		return ""
	})
	return out
}

// Digest is the SHA-256 of a text as UTF-8 with its lines ended by LF, in hex.
func Digest(text string) string {
	sum := sha256.Sum256([]byte(unixLines(text)))
	return hex.EncodeToString(sum[:])
}

// Matches reports whether a release that was signed in the window still has the text that was signed. One that was not has
// nothing to differ from.
func Matches(p *plan.Plan, r plan.Release, d plan.Date) bool {
	return r.Signature == nil || strings.EqualFold(r.Signature.Digest, Digest(Text(p, r, d)))
}

func unixLines(text string) string {
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
}

// value is what a field of plan.WordingFields stands for in a release; empty where the plan does not say.
func value(p *plan.Plan, r plan.Release, d plan.Date, field string) string {
	party, named := p.Person(r.Party)
	switch field {
	case "film":
		return p.Title
	case "property":
		return cmp.Or(p.Property.Name, p.Property.Address)
	case "address":
		return p.Property.Address
	case "producer":
		return p.Papers.Producer
	case "client":
		return p.Brief.Client
	case "agent":
		return p.Brief.Agent
	case "party":
		return party.Called()
	case "guardian":
		guardian, _ := p.Person(party.Guardian)
		return guardian.Called()
	case "subject":
		return r.Subject
	case "scenes":
		return scenesValue(p, r)
	case "media":
		return r.Media
	case "territory":
		return r.Territory
	case "term":
		if r.Term == "" && !r.Until.IsZero() {
			return "until " + r.Until.Long()
		}
		return r.Term
	case "compensation":
		if r.Compensation == "" && !(named && party.Paid) { // who is paid should know what
			return "none"
		}
		return r.Compensation
	case "date":
		if on := cmp.Or(d, p.Shooting.Date); !on.IsZero() {
			return on.Long()
		}
	}
	return ""
}

// listed joins words for a sentence: "7, 9 and 12".
func listed(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// scenesValue names the scenes that a release is for.
func scenesValue(p *plan.Plan, r plan.Release) string {
	var names []string
	for _, s := range p.Scenes {
		if slices.Contains(r.Scenes, s.ID) {
			name := s.Name()
			if s.Title != "" && s.Title != name {
				name = fmt.Sprintf("%s (%s)", name, s.Title)
			}
			names = append(names, name)
		}
	}
	who, _ := p.Person(r.Party)
	switch {
	case len(names) > 0:
		return listed(names)
	case r.Kind.Own() && who.Called() == "":
		return ""
	case r.Kind.Own():
		return "all with " + who.Called()
	case r.Kind == plan.DroneRelease:
		return "all that are shot from the air"
	}
	return "the whole film"
}
