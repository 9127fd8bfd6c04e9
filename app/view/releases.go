package view

import (
	"cmp"
	"maps"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/people"
)

// ReleaseCaution stands by the text of a release.
func ReleaseCaution() string {
	return tongue.Say("A template, not legal advice; have a licensed lawyer check it for your place.")
}

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
		row := Row{ID: r.ID, Title: ReleaseAbout(st.Plan, r), Mark: tongue.Of(people.StatusOn(r, date)), Sub: releaseKind(r.Kind)}
		if why, doubted := doubts[r.ID]; doubted {
			row.Mark = tongue.Say("scan in doubt")
			if why.Code == plan.TextChanged {
				row.Mark = tongue.Say("text changed")
			}
		}
		if n := len(r.Scenes); n > 0 {
			row.Sub += " · " + tongue.Count(n, "%d scene", "%d scenes")
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
	return cmp.Or(r.Subject, tongue.Say("about nothing yet"))
}

// ReleaseStanding says how a release stands: what is not filled in, and whether what was signed still holds.
func ReleaseStanding(st session.State, id plan.ID) string {
	date := st.Results.Chosen.Date
	for _, r := range st.Plan.Releases {
		if r.ID != id {
			continue
		}
		if why, doubted := Doubts(st)[id]; doubted {
			return sentence(tongue.Of(why))
		}
		if open := people.Unfilled(&st.Plan, r, date); len(open) > 0 && r.Signature == nil {
			return tongue.Say("Its text asks for what is not filled in yet: %s.", plan.FieldsSaid(open))
		}
		if s := r.Signature; s != nil {
			return tongue.Say("Signed in the window by %s; the text is still the one that was signed.", s.Name)
		}
		text := tongue.Say("It is %s", people.StatusOn(r, date))
		if !r.Changed.IsZero() {
			text = tongue.Say("It is %s since %s", people.StatusOn(r, date), r.Changed.SaidLong())
		}
		if r.Scan != nil {
			text += "; " + tongue.Say("its scan is %s", r.Scan.Path)
		}
		return text + "."
	}
	return ""
}

// ClearedLines say of each deliverable whether it can be published, and for what it waits; then what drone flights lack besides. Where
// there are more deliverables than so many, the cleared ones are counted, and so are those that wait beyond that number.
func ClearedLines(st session.State, most int) []string {
	all := Cleared(st).Deliverables
	var cleared, wait, out []string
	for _, d := range all {
		name := DeliverableName(st.Plan.Brief.Deliverables[d.Deliverable])
		line := tongue.Say("%s: cleared.", name)
		if d.Clear() {
			cleared = append(cleared, line)
		} else {
			line = tongue.Say("%s: waits for %s in %s.", name, tongue.Count(d.Signatures, "%d signature", "%d signatures"),
				tongue.Count(len(d.Waiting), "%d scene", "%d scenes"))
			wait = append(wait, line)
		}
		out = append(out, line)
	}
	if len(all) > most {
		out = append([]string{tongue.Count(len(all), "%[2]d of %[1]d deliverable is cleared.", "%[2]d of %[1]d deliverables are cleared.", len(cleared))},
			wait[:min(most, len(wait))]...)
		if more := len(wait) - most; more > 0 {
			out = append(out, tongue.Count(more, "%d more waits.", "%d more wait."))
		}
	}
	for _, f := range people.FlightPapers(&st.Plan, st.Results.Chosen.Date) {
		out = append(out, sentence(tongue.Of(f)))
	}
	return out
}
