package view

import (
	"cmp"
	"fmt"
	"maps"
	"strings"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/people"
)

// ReleaseCaution stands by the text of a release.
const ReleaseCaution = "A template, not legal advice; have a licensed lawyer check it for your place."

// Doubts are the signatures that do not hold: for their text, or for a scan as it was read last.
func Doubts(st session.State) people.Doubts {
	out := maps.Clone(st.Results.Scans)
	if out == nil {
		out = people.Doubts{}
	}
	maps.Copy(out, people.Stale(&st.Plan, st.Results.Chosen.Date))
	return out
}

// Cleared is what the film needs signed, by the day shown.
func Cleared(st session.State) people.Clearance {
	return people.Cleared(&st.Plan, st.Results.Chosen.Date, Doubts(st))
}

// ReleaseRows is the list of releases.
func ReleaseRows(st session.State) []Row {
	date := st.Results.Chosen.Date
	doubts := Doubts(st)
	rows := make([]Row, 0, len(st.Plan.Releases))
	for _, r := range st.Plan.Releases {
		row := Row{ID: r.ID, Title: ReleaseAbout(st.Plan, r), Mark: string(people.StatusOn(r, date)), Sub: string(cmp.Or(r.Kind, "unspecified")) + " release"}
		if why, doubted := doubts[r.ID]; doubted {
			row.Mark = "scan in doubt"
			if why.Code == plan.TextChanged {
				row.Mark = "text changed"
			}
		}
		if n := len(r.Scenes); n > 0 {
			row.Sub += " · " + count(n, "scene", "scenes")
		}
		if r.Media != "" {
			row.Sub += " · " + r.Media
		}
		rows = append(rows, row)
	}
	return rows
}

// ReleaseAbout says whom or what a release is about.
func ReleaseAbout(p plan.Plan, r plan.Release) string {
	if who, ok := p.Person(r.Party); ok && (r.Kind.Own() || r.Subject == "") {
		return who.Called()
	}
	return cmp.Or(r.Subject, "about nothing yet")
}

// ReleaseStanding says how a release stands: what is not filled in, and whether what was signed still holds.
func ReleaseStanding(st session.State, id plan.ID) string {
	date := st.Results.Chosen.Date
	for _, r := range st.Plan.Releases {
		if r.ID != id {
			continue
		}
		if why, doubted := Doubts(st)[id]; doubted {
			return sentence(why.String())
		}
		if open := people.Unfilled(&st.Plan, r, date); len(open) > 0 && r.Signature == nil {
			return "Its text asks for what is not filled in yet: " + strings.Join(open, ", ") + "."
		}
		if s := r.Signature; s != nil {
			return fmt.Sprintf("Signed in the window by %s; the text is still the one that was signed.", s.Name)
		}
		text := "It is " + string(people.StatusOn(r, date))
		if !r.Changed.IsZero() {
			text += " since " + r.Changed.Long()
		}
		if r.Scan != nil {
			text += "; its scan is " + r.Scan.Path
		}
		return text + "."
	}
	return ""
}

// ClearedLines say of each deliverable whether it can be published, and for what it waits; then what drone flights lack besides.
func ClearedLines(st session.State) []string {
	c := Cleared(st)
	var out []string
	for _, d := range c.Deliverables {
		name := DeliverableName(st.Plan.Brief.Deliverables[d.Deliverable])
		if d.Clear() {
			out = append(out, name+": cleared.")
			continue
		}
		out = append(out, fmt.Sprintf("%s: waits for %s in %s.", name, count(d.Signatures, "signature", "signatures"), count(len(d.Waiting), "scene", "scenes")))
	}
	for _, f := range people.FlightPapers(&st.Plan, st.Results.Chosen.Date) {
		out = append(out, sentence(f.String()))
	}
	return out
}
