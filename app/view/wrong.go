package view

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/day"
)

// Wrong is a line of what is wrong with a day, and what it is about, to go to; nothing where there is no such thing.
type Wrong struct {
	Text string
	Hits []Hit
}

// Word says what a press does while a scene is selected on the board; nothing where it does nothing.
func (w Wrong) Word(selected plan.ID) string {
	switch {
	case len(w.Hits) == 0:
		return ""
	case len(w.Hits) > 1:
		return tongue.Say("wrong|Choose")
	case w.Hits[0].Kind == SceneHit && w.Hits[0].ID != selected:
		return tongue.Say("wrong|Show")
	}
	return tongue.Say("wrong|Open")
}

// DayLines are what stands under the board: what becomes of the selected scene, what is wrong with the day, and its flights. While
// there is no day, they are what it lacks.
func DayLines(st session.State, selected plan.ID) []Wrong {
	var out []Wrong
	if s, ok := st.Plan.Scene(selected); ok {
		out = append(out, Wrong{SelectedScene(st, selected), []Hit{toScene(s)}})
	}
	out = append(out, Wrongs(st.Plan, st.Results.Chosen)...)
	if st.Results.Chosen.Sky == nil {
		out = append(out, dayLacks(st, out)...)
	}
	for _, line := range FlightLines(st.Plan, st.Results.Chosen) {
		out = append(out, Wrong{Text: line})
	}
	return out
}

// dayLacks are what the plan lacks before a day can be placed, beside what is told already.
func dayLacks(st session.State, told []Wrong) (out []Wrong) {
	for _, page := range []Page{Property, Scenes, Day} {
		for _, part := range parts[page] {
			for _, q := range st.Results.Lacks.Under(part) {
				line := Wrong{sentence(tongue.Of(q)), about(st.Plan, q)}
				if !slices.ContainsFunc(told, func(w Wrong) bool { return w.Text == line.Text }) {
					out = append(out, line)
				}
			}
		}
	}
	return out
}

// Wrongs lists what is wrong with a day, the worst first: scenes left out, then warnings. Who waits long is one line.
func Wrongs(p plan.Plan, d day.Day) []Wrong {
	var out []Wrong
	tell := func(text string, hits []Hit) {
		i := slices.IndexFunc(out, func(w Wrong) bool { return w.Text == text })
		if i < 0 { // a full window is one trouble, not one a scene
			i, out = len(out), append(out, Wrong{Text: text})
		}
		out[i].Hits = joined(out[i].Hits, hits)
	}
	for _, l := range d.LeftOut {
		hits := about(p, l.Why)
		if s, ok := p.Scene(l.Scene); ok {
			hits = []Hit{toScene(s)}
		}
		tell(sentence(tongue.Of(l.Why)), hits)
	}
	var waits []string
	var waiting []Hit
	for _, q := range d.Problems {
		if q.Code == plan.WaitsLong {
			waits, waiting = append(waits, tongue.Of(q)), joined(waiting, about(p, q))
			continue
		}
		tell(sentence(tongue.Of(q)), about(p, q))
	}
	if len(waits) > 0 {
		tell(sentence(strings.Join(waits, ", ")), waiting)
	}
	return out
}

// Troubles are the words of what is wrong with a day.
func Troubles(d day.Day) []string {
	var out []string
	for _, w := range Wrongs(plan.Plan{}, d) {
		out = append(out, w.Text)
	}
	return out
}

// joined adds hits to others that lead elsewhere.
func joined(hits, more []Hit) []Hit {
	for _, m := range more {
		if !slices.ContainsFunc(hits, func(h Hit) bool { return h.Kind == m.Kind && h.Page == m.Page && h.ID == m.ID }) {
			hits = append(hits, m)
		}
	}
	return hits
}

// pathHead is the beginning of a problem's path: a part of the document, and the place in its list.
var pathHead = regexp.MustCompile(`^(scenes|people|releases|property\.spaces)(?:\[(\d{1,6})\])?`)

// about is what a problem of a day is about. The day may be of the plan as it was before the last edits, when things stood
// elsewhere in it: a thing counts only where the problem names it.
func about(p plan.Plan, q plan.Problem) []Hit {
	part, at := "", -1
	if m := pathHead.FindStringSubmatch(q.Path); m != nil {
		part = m[1]
		if n, err := strconv.Atoi(m[2]); err == nil {
			at = n
		}
	}
	switch part {
	case "scenes":
		return aboutOne(p.Scenes, at, q, plan.Scene.Name, toScene, Scenes)
	case "people":
		return aboutOne(p.People, at, q, plan.Person.Called, toPerson, People)
	case "property.spaces":
		return aboutOne(p.Property.Spaces, at, q, SpaceName, toSpace, Property)
	case "releases":
		if at >= 0 && at < len(p.Releases) {
			return []Hit{toRelease(p, p.Releases[at])}
		}
		return []Hit{{Kind: ReleaseHit, Title: tongue.Say("Releases"), Page: People}}
	}
	return aboutRest(q.Path)
}

// aboutOne is the one of some things that a problem names, at its place or anywhere; their page where none can be told.
func aboutOne[T any](all []T, at int, q plan.Problem, name func(T) string, to func(T) Hit, page Page) []Hit {
	named := func(v T) bool { return slices.Contains(q.Facts, any(name(v))) }
	if at >= 0 && at < len(all) && named(all[at]) {
		return []Hit{to(all[at])}
	}
	var found []Hit
	for _, v := range all {
		if len(q.Facts) > 0 && q.Facts[0] == any(name(v)) {
			found = append(found, to(v))
		}
	}
	if len(found) == 1 {
		return found
	}
	return []Hit{toPage(page)}
}

// aboutRest is the page of a field that is no thing of its own; a rule of the day stands on the page of the day. What is about
// the day as a whole leads nowhere.
func aboutRest(path string) []Hit {
	head, field, _ := strings.Cut(path, ".")
	switch {
	case head == "brief":
		return []Hit{toPage(Brief)}
	case head == "property":
		return []Hit{toPage(Property)}
	case head == "shooting" && field != "":
		return []Hit{{Kind: RuleHit, Title: tongue.Say("Dates and rules"), Page: Day, ID: plan.ID(field)}}
	}
	return nil
}

func toPage(p Page) Hit { return Hit{Kind: PageHit, Title: p.Title(), Page: p} }

func toScene(s plan.Scene) Hit {
	return Hit{Kind: SceneHit, Title: SceneName(s), Page: Scenes, ID: s.ID}
}

func toPerson(q plan.Person) Hit {
	return Hit{Kind: PersonHit, Title: q.Called(), Page: People, ID: q.ID}
}

func toSpace(s plan.Space) Hit {
	return Hit{Kind: SpaceHit, Title: SpaceName(s), Page: Property, ID: s.ID}
}

func toRelease(p plan.Plan, r plan.Release) Hit {
	return Hit{Kind: ReleaseHit, Title: ReleaseAbout(p, r), Page: People, ID: r.ID}
}
