package view

import (
	"fmt"
	"path/filepath"

	"eavelight/app/session"
	"eavelight/plan/day"
	"eavelight/plan/papers"
)

// hasDay reports whether there is a day to show; while another one is computed, it is the one from before.
func hasDay(st session.State) bool { return st.Results.Placed && st.Results.Chosen.Sky != nil }

// CanWrite reports whether there is a day to write about, and it is that of the plan as it stands.
func CanWrite(st session.State) bool { return hasDay(st) && !st.Results.Busy }

// SheetText is the call sheet in words.
func SheetText(st session.State) string {
	if !hasDay(st) {
		return NoDay(st.Results.Chosen)
	}
	return papers.CallSheet(&st.Plan, st.Results.Chosen).Text()
}

// PapersTold says what was written, and what has to be done with it that nobody would guess.
func PapersTold(wrote papers.Written) string {
	if len(wrote.Paths) == 0 {
		return ""
	}
	calendars := 0
	for _, path := range wrote.Paths {
		if filepath.Ext(path) == ".ics" {
			calendars++
		}
	}
	sheets := len(wrote.Paths) - calendars
	out := "Written: " + count(sheets, "call sheet", "call sheets")
	if calendars > 0 {
		out += " and " + count(calendars, "calendar", "calendars")
	}
	out += " into " + filepath.Dir(wrote.Paths[0]) + "."
	if calendars > 0 {
		out += " The plan remembers what the calendars say, so that the next ones move these days instead of doubling them; save it."
	}
	if len(wrote.Off) > 0 {
		var names []string
		for _, path := range wrote.Off {
			names = append(names, filepath.Base(path))
		}
		if more := len(names) - mostNamed; more > 0 {
			names = append(names[:mostNamed], fmt.Sprint(more, " more"))
		}
		out += " Send " + listed(names) + " too: " + verb(len(wrote.Off), "it takes", "they take") + " out of a calendar what no longer holds."
	}
	return out
}

// Unsigned names every release that the film still needs signed, or signed anew.
func Unsigned(st session.State) []string {
	var out []string
	for _, u := range day.Unsigned(&st.Plan, st.Results.Chosen.Date, Doubts(st)) {
		out = append(out, u.String())
	}
	return out
}

// Unready lists what is missing before the papers should be sent.
func Unready(st session.State) []string {
	var out []string
	for _, l := range st.Results.Lacks.Under("papers") {
		out = append(out, sentence(l.String()))
	}
	for _, u := range Unsigned(st) {
		out = append(out, sentence(u))
	}
	if hasDay(st) {
		if lost := boxes(papers.CallSheet(&st.Plan, st.Results.Chosen)); lost != "" {
			out = append(out, lost)
		}
	}
	return out
}
