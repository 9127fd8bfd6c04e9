package papers

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/people"
)

// RegisterFile is what the register of releases is called in a folder.
const RegisterFile = "release-register.pdf"

// ReleaseRegister is the paper of everything that the film needs signed: each release that is written down or still to be, how it
// stands on the last shooting day, and what may be published. It shows nobody's day of birth, phone or mail. doubts are what is
// known to be wrong with what was filed (people.Scans); texts that have changed are found here.
func ReleaseRegister(p *plan.Plan, days []day.Day, doubts people.Doubts) Sheet {
	r := newRegistrar(p, days, doubts)
	sheet := Sheet{
		Kind:     "Release register",
		Title:    cmp.Or(strings.TrimSpace(p.Title), "Untitled plan"),
		Lines:    []string{orEmpty(p.Property.Name, "Property not named"), r.judged()},
		Sections: []Section{r.releases(), r.deliverables(), r.flights()},
		Foot:     r.judged(),
		Zone:     zoneOf(p),
	}
	sheet.Key, sheet.KeyNote = r.key()
	return sheet
}

// registrar collects what the sections of the register have in common.
type registrar struct {
	*plan.Plan
	style
	date    plan.Date // that lapsing is judged by
	doubts  people.Doubts
	cleared people.Clearance
}

func newRegistrar(p *plan.Plan, days []day.Day, doubts people.Doubts) registrar {
	r := registrar{Plan: p, style: styleOf(p), date: p.Shooting.LastDate(), doubts: people.Doubts{}}
	for _, d := range days {
		if len(d.Scenes) > 0 {
			r.date = d.Date
		}
	}
	for _, known := range []people.Doubts{doubts, people.Stale(p, r.date)} {
		for id, why := range known {
			r.doubts[id] = why
		}
	}
	r.cleared = people.Cleared(p, r.date, r.doubts)
	return r
}

func (r registrar) judged() string {
	if r.date.IsZero() {
		return "judged without a date: nothing lapses"
	}
	return "judged by " + r.long(r.date)
}

// key is how many of the permissions that the scenes need are there.
func (r registrar) key() (Fact, string) {
	all := len(r.cleared.Permissions)
	if all == 0 {
		return Fact{}, ""
	}
	return Fact{"Signed", fmt.Sprintf("%d of %d", all-len(r.cleared.Open()), all)}, "of what the scenes need"
}

// releases are a row each: those written down, then what is needed and is not.
func (r registrar) releases() Section {
	s := Section{Heading: "Releases", Table: Table{Columns: []Column{{"About", 52}, {"Scenes", 28}, {"Status", 44}, {"Evidence", 54}}}}
	for _, release := range r.Releases {
		s.Table.Rows = append(s.Table.Rows, r.row(release))
	}
	for _, o := range r.cleared.Open() {
		if o.By != "" {
			continue
		}
		about := capital(o.About(r.Plan).String())
		if o.Person == "" {
			about = "Flights"
		}
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{about, kindName(o.Kind)}, {Text: r.scenes(o.Scenes)}, {Strong: "not written down"}, {Text: "missing: the release itself"}}})
	}
	if len(s.Table.Rows) == 0 {
		s.Text = []string{"No release is written down, and no scene needs one yet."}
	}
	return s
}

func (r registrar) row(release plan.Release) Row {
	use := strings.Join(filled(release.Media, release.Territory, release.Term), ", ")
	signed := r.signed(release)
	if missing := r.missing(release); len(missing) > 0 {
		signed = lines(signed, "missing: "+strings.Join(missing, "; "))
	}
	return Row{Cells: []Cell{{r.about(release), lines(kindName(release.Kind), use)}, {Text: r.scenes(r.covered(release))}, r.status(release), {Text: signed}}}
}

// filled leaves out what is not filled in.
func filled(texts ...string) []string {
	return slices.DeleteFunc(texts, func(s string) bool { return strings.TrimSpace(s) == "" })
}

// about is whom or what a release is about.
func (r registrar) about(release plan.Release) string {
	party, _ := r.Person(release.Party)
	who, what := party.Called(), strings.TrimSpace(release.Subject)
	if !release.Kind.Own() {
		who, what = what, who
	}
	return cmp.Or(who, what, string(release.ID), "about nothing yet")
}

func (r registrar) covered(release plan.Release) []plan.ID {
	var out []plan.ID
	for _, s := range r.Scenes {
		if people.Covers(r.Plan, release, s) {
			out = append(out, s.ID)
		}
	}
	return out
}

// scenes are the numbers of some scenes, or that it is all of them.
func (r registrar) scenes(ids []plan.ID) string {
	switch {
	case len(ids) == 0:
		return "none"
	case len(ids) == len(r.Scenes) && len(ids) > 1:
		return fmt.Sprintf("all %d", len(ids))
	}
	var names []string
	for _, id := range ids {
		s, _ := r.Scene(id)
		names = append(names, s.Name())
	}
	return strings.Join(names, ", ")
}

// status is how far a release is, since when, and until when it holds.
func (r registrar) status(release plan.Release) Cell {
	status := people.StatusOn(release, r.date)
	words := string(status)
	switch _, doubted := r.doubts[release.ID]; {
	case status == plan.Signed && doubted:
		words = "signed, in doubt"
	case status == plan.Needed:
		words = "not sent yet"
	case status == plan.Sent:
		words = "sent, not signed yet"
	}
	since, until := "", ""
	if !release.Changed.IsZero() {
		since = "since " + r.long(release.Changed)
	}
	switch {
	case status == plan.Lapsed && !release.Until.IsZero():
		since, until = "", "held until "+r.long(release.Until)
	case !release.Until.IsZero():
		until = "holds until " + r.long(release.Until)
	case status == plan.Signed:
		until = "no last day is set"
	}
	return Cell{words, lines(since, until)}
}

// signed says who signed, for whom, and how that is kept.
func (r registrar) signed(release plan.Release) string {
	status := people.StatusOn(release, r.date)
	if status != plan.Signed && status != plan.Lapsed {
		return ""
	}
	by := strings.TrimSpace(release.SignedBy)
	if release.Signature != nil {
		by = cmp.Or(strings.TrimSpace(release.Signature.Name), by)
	}
	if by != "" {
		by = "by " + by
		if relation := strings.TrimSpace(release.Relation); relation != "" {
			by += " (" + relation + ")"
		}
	}
	how := ""
	switch {
	case release.Signature != nil:
		how = "in the window, " + r.long(plan.DateOf(release.Signature.At.In(zoneOf(r.Plan))))
	case release.Scan != nil:
		how = "on paper; scan: " + release.Scan.Path
	}
	return lines(by, how)
}

// missing is what a release lacks to hold.
func (r registrar) missing(release plan.Release) []string {
	var out []string
	say := func(is bool, words string) {
		if is {
			out = append(out, words)
		}
	}
	status := people.StatusOn(release, r.date)
	kept := release.Signature != nil || release.Scan != nil
	say(len(r.covered(release)) == 0, "a scene that needs it")
	switch status {
	case plan.Signed:
		why, doubted := r.doubts[release.ID]
		say(doubted, why.String())
		say(release.Signature == nil && strings.TrimSpace(release.SignedBy) == "", "the name of who signed")
		say(release.Kind == plan.MinorRelease && strings.TrimSpace(release.Relation) == "", "what the signer is to the minor")
		say(!kept, "the signature itself, or a scan of it")
	case plan.Declined:
		out = append(out, "a yes: it was declined, so what it is about can't be shown")
	case plan.Lapsed:
		out = append(out, "a new signature: it has lapsed")
	default:
		open := people.Unfilled(r.Plan, release, r.date)
		say(len(open) > 0, "what its text asks for: "+strings.Join(open, ", "))
		out = append(out, "the signature")
	}
	return out
}

// deliverables say what may be published, and what waits for what.
func (r registrar) deliverables() Section {
	s := Section{Heading: "What may be published", Table: Table{Columns: []Column{{"Delivered", 54}, {"Releases", 124}}}}
	for _, d := range r.cleared.Deliverables {
		words := Cell{Strong: "cleared"}
		if !d.Clear() {
			scenes := "scenes "
			if len(d.Waiting) == 1 {
				scenes = "scene "
			}
			if len(d.Waiting) == len(r.Scenes) {
				scenes = "scenes: "
			}
			words = Cell{Text: "waits for " + counted(d.Signatures, "signature", "signatures") + ", in " + scenes + r.scenes(d.Waiting)}
		}
		s.Table.Rows = append(s.Table.Rows, Row{Cells: []Cell{{Strong: called(r.Brief.Deliverables[d.Deliverable])}, words}})
	}
	return s
}

// flights are the papers of drone flights that are missing beside a release. What stands on a certificate is printed nowhere.
func (r registrar) flights() Section {
	s := Section{Heading: "Missing for the drone's flights"}
	for _, p := range people.FlightPapers(r.Plan, r.date) {
		words := "the pilot's certificate or training does not hold on that day"
		switch p.Code {
		case plan.FlightNoPilot:
			words = "nobody with a drone pilot's certificate is named"
		case plan.FlightUnread:
			words = "nobody has said that they read the rules of the local aviation authority"
		}
		s.List = append(s.List, capital(words)+".")
	}
	return s
}
