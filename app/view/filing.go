package view

import (
	"slices"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/people"
)

// OnPaper reports whether a release is signed on paper, or at least has a scan of one: there is nothing to draw in the window.
func OnPaper(r plan.Release) bool {
	signed := r.Status.Or() == plan.Signed && strings.TrimSpace(r.SignedBy) != ""
	return r.Signature == nil && (r.Scan != nil || signed)
}

// PaperStanding tells how a release on paper stands, for whoever looks for a place to sign.
func PaperStanding(p *plan.Plan, r plan.Release) string {
	if r.Status.Or() != plan.Signed {
		return tongue.Say("A scan is filed, %s, and the release is %s. If the paper is signed, say so under “What is agreed”.", r.Scan.Path, r.Status.Or())
	}
	out := tongue.Say("Signed on paper")
	if by := strings.TrimSpace(r.SignedBy); by != "" {
		out = tongue.Say("Signed on paper by %s", by)
	}
	if relation := strings.TrimSpace(r.Relation); relation != "" {
		out += " (" + relation + ")"
		if party, ok := p.Person(r.Party); ok {
			out = tongue.Say("signed|%s for %s", out, party.Called())
		}
	}
	if !r.Changed.IsZero() {
		out += ", " + tongue.Of(r.Changed.SaidLong())
	}
	if r.Scan == nil {
		return out + ". " + tongue.Say("No scan of it is filed.")
	}
	return out + ". " + tongue.Say("The scan is %s.", r.Scan.Path)
}

// ScanFiled says which scan a release has, or what a scan would be good for.
func ScanFiled(r plan.Release) string {
	if r.Scan == nil {
		return tongue.Say("None. When the paper is signed, file a scan or a photo of it: the plan keeps where it lies and its checksum, so that a later change shows.")
	}
	return r.Scan.Path + "\nSHA-256 " + r.Scan.SHA256[:min(16, len(r.Scan.SHA256))] + "…"
}

// ScanOpen says what the release of a scan must still say before the scan counts; nothing where it says all.
func ScanOpen(r plan.Release) string {
	if r.Scan == nil {
		return ""
	}
	var open []string
	if strings.TrimSpace(r.SignedBy) == "" {
		open = append(open, tongue.Say("who signed it"))
	}
	if r.Kind == plan.MinorRelease && strings.TrimSpace(r.Relation) == "" {
		open = append(open, tongue.Say("what they are to the minor"))
	}
	if r.Status.Or() != plan.Signed {
		open = append(open, tongue.Say("that it is signed, as its status"))
	}
	if r.Changed.IsZero() || r.Status.Or() != plan.Signed {
		open = append(open, tongue.Say("the day of signing"))
	}
	if len(open) == 0 {
		return ""
	}
	return tongue.Say("Still to be said: %s.", strings.Join(open, "; "))
}

// SetWording lets a text stand for all releases of a kind; the built-in one needs no place in the plan.
func SetWording(p *plan.Plan, kind plan.ReleaseKind, text string) {
	same := func(w plan.Wording) bool { return w.Kind == kind }
	i := slices.IndexFunc(p.Wordings, same)
	switch builtIn := text == BuiltInWording(kind); {
	case builtIn && i >= 0:
		if p.Wordings = slices.Delete(p.Wordings, i, i+1); len(p.Wordings) == 0 {
			p.Wordings = nil
		}
	case builtIn:
	case i >= 0:
		p.Wordings[i].Text = text
	default:
		p.Wordings = append(p.Wordings, plan.Wording{Kind: kind, Text: text})
	}
}

// BuiltInWording is the text that a kind of release has where a plan says nothing.
func BuiltInWording(kind plan.ReleaseKind) string { return people.Wording(&plan.Plan{}, kind) }

// WordingTrial is what a new wording would do, before anybody has to want it.
type WordingTrial struct {
	Wrong []string // why it can't be used
	Loses []string // whose signature in the window would no longer match its text
	Paper []string // who signed on paper, under a text that the program can't see
}

// TryWording looks what a text would do as the wording of a kind of release, on the date shown.
func TryWording(p *plan.Plan, kind plan.ReleaseKind, text string, d plan.Date) WordingTrial {
	next := p.Clone()
	SetWording(&next, kind, text)
	var out WordingTrial
	for _, w := range plan.Validate(next).Under("wordings") {
		out.Wrong = append(out.Wrong, strings.Replace(sentence(tongue.Of(w)), "?.", "?", 1)) // did you mean it?
	}
	for _, r := range p.Releases {
		switch {
		case r.Kind != kind:
		case r.Signature != nil && people.Matches(p, r, d) && !people.Matches(&next, r, d):
			out.Loses = append(out.Loses, ReleaseAbout(*p, r))
		case OnPaper(r) && r.Status.Or() == plan.Signed:
			out.Paper = append(out.Paper, ReleaseAbout(*p, r))
		}
	}
	return out
}

// LosesWords tells what a trial would cost.
func (t WordingTrial) LosesWords() string {
	out := tongue.Say("No signature made in the window is lost by this.")
	if n := len(t.Loses); n > 0 {
		out = tongue.Count(n, "One signature would no longer match its text, and would have to be made anew: %[2]s.",
			"%d signatures would no longer match their text, and would have to be made anew: %s.", strings.Join(t.Loses, ", "))
	}
	if len(t.Paper) > 0 {
		out += " " + tongue.Say("Signed on paper, so compare what stands there yourself: %s.", strings.Join(t.Paper, ", "))
	}
	return out
}

// ScanTold is what was found about a scan, as a sentence.
func ScanTold(why string) string { return sentence(why) }

// Boxes tells of the letters of a release that its paper has no shape for; nothing where it has all.
func Boxes(st session.State, id plan.ID) string {
	for _, r := range st.Plan.Releases {
		if r.ID == id {
			return boxes(papers.Release(&st.Plan, r, st.Results.Chosen.Date).Unprintable())
		}
	}
	return ""
}

// boxes tells of the letters of a paper that print as an empty box.
func boxes(lost []rune) string {
	if len(lost) == 0 {
		return ""
	}
	const most = 12
	shown := string(lost[:min(most, len(lost))])
	if len(lost) > most {
		shown += "…"
	}
	return tongue.Count(len(lost),
		"%d letter or sign has no shape in the type of the papers and prints as an empty box: %s. Write the name in Latin letters beside it.",
		"%d letters or signs have no shape in the type of the papers and print as an empty box: %s. Write the name in Latin letters beside it.", shown)
}
