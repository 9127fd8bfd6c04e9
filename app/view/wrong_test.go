package view

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/say"
)

// TestWrongsLead: what is wrong with the demo's day, in the words that it has always had, leads to what it is about.
func TestWrongsLead(t *testing.T) {
	st := state(t, demo(t))
	got := DayLines(st, "")
	texts := append(Troubles(st.Results.Chosen), FlightLines(st.Plan, st.Results.Chosen)...)
	for i, w := range got {
		if i >= len(texts) || w.Text != texts[i] {
			t.Errorf("line %d is %q", i, w.Text)
		}
	}
	if len(got) != len(texts) {
		t.Errorf("%d lines, want %d", len(got), len(texts))
	}
	left := st.Results.Chosen.LeftOut[0].Scene
	if h := got[0].Hits; len(h) != 1 || h[0].Kind != SceneHit || h[0].ID != left || h[0].Page != Scenes || !strings.HasPrefix(h[0].Title, "11 ") {
		t.Errorf("the scene left out leads to %+v", h)
	}
	i := slices.IndexFunc(got, func(w Wrong) bool { return strings.Contains(w.Text, " waits ") })
	if h := got[i].Hits; len(h) != strings.Count(got[i].Text, " waits ") || h[0].Kind != PersonHit || !strings.HasPrefix(got[i].Text, h[0].Title) {
		t.Errorf("%q leads to %+v", got[i].Text, h)
	}
	if w := got[len(got)-1]; w.Hits != nil || w.Word("") != "" {
		t.Errorf("what is no trouble leads to %+v", w.Hits)
	}
	if w := DayLines(st, left)[0]; w.Text != SelectedScene(st, left) || w.Word(left) != "Open" || len(DayLines(st, left)) != len(got)+1 {
		t.Errorf("the selected scene: %+v", w)
	}
}

// TestWhatAProblemIsAbout: by its path and whom it names; the day may be of the plan as it was, and names may be two people's.
func TestWhatAProblemIsAbout(t *testing.T) {
	p := plan.New()
	p.Scenes = []plan.Scene{{ID: "a", Number: "1"}, {ID: "b", Number: "2"}}
	p.People = []plan.Person{{ID: "nina", Name: "Nina"}, {ID: "theo", Name: "Theo"}, {ID: "theo-2", Name: "Theo"}}
	p.Property.Spaces = []plan.Space{{ID: "deck", Name: "Deck"}}
	p.Releases = []plan.Release{{ID: "r", Party: "nina"}}
	for _, c := range []struct {
		path  string
		facts []any
		want  string
	}{
		{"scenes[1]", []any{"2", 40}, "scene scenes b"},
		{"scenes[1].shoot", []any{"2"}, "scene scenes b"},
		{"scenes[0]", []any{"2"}, "scene scenes b"}, // moved since
		{"scenes[9]", []any{"2"}, "scene scenes b"},
		{"scenes[-1]", []any{"7"}, "page scenes "},
		{"scenes[99999999999999999999]", nil, "page scenes "},
		{"people", []any{"Nina", plan.Minutes(95)}, "person people nina"},
		{"people", []any{"Theo", plan.Minutes(95)}, "page people "},
		{"people[2].certificate", []any{say.That("scene %s is flown", "1"), "Theo"}, "person people theo-2"},
		{"people", []any{say.That("scene %s is flown", "1")}, "page people "},
		{"property.spaces[0].faces", []any{"Deck"}, "space property deck"},
		{"property.position", nil, "page property "},
		{"releases[0].signature", nil, "release people r"},
		{"releases[4]", nil, "release people "},
		{"releases", nil, "release people "},
		{"shooting.flying", nil, "rule day flying"},
		{"shooting", nil, ""},
		{"brief.title", nil, "page brief "},
		{"", nil, ""},
	} {
		got := ""
		for _, h := range about(p, plan.Problem{Path: c.path, Facts: c.facts}) {
			got += fmt.Sprintf("%s %s %s", h.Kind, h.Page, h.ID)
			if h.Title == "" {
				t.Errorf("%s: no title", c.path)
			}
		}
		if got != c.want {
			t.Errorf("%s %v is about %q, want %q", c.path, c.facts, got, c.want)
		}
	}
}

// TestOneLineOfManyProblems leads to each of them once, and its word says what a press does.
func TestOneLineOfManyProblems(t *testing.T) {
	p := plan.New()
	p.Scenes = []plan.Scene{{ID: "a", Number: "1"}, {ID: "b", Number: "2"}}
	full := plan.Problem{Code: plan.WindowFull, Facts: []any{"1 and 2", "golden", "", 1, 2, 3}}
	got := Wrongs(p, day.Day{LeftOut: []day.LeftOut{{Scene: "a", Why: full}, {Scene: "b", Why: full}, {Scene: "b", Why: full}}})
	if len(got) != 1 || len(got[0].Hits) != 2 || got[0].Word("a") != "Choose" {
		t.Errorf("%+v", got)
	}
	one := Wrong{Hits: got[0].Hits[:1]}
	if one.Word("") != "Show" || one.Word("b") != "Show" || one.Word("a") != "Open" {
		t.Errorf("%q, %q, %q", one.Word(""), one.Word("b"), one.Word("a"))
	}
}
