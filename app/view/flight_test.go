package view

import (
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
)

// TestFlightsAreSaid beside the troubles of the day, by the scene, and beside what is cleared. The light is that of package day, whose
// tests hold it against the regulation.
func TestFlightsAreSaid(t *testing.T) {
	st := state(t, demo(t))
	want := []string{"Flown: scene 1 in civil twilight, by day from 07:15: anti-collision light; scene 14 in civil twilight until 18:53: anti-collision light. " +
		"The local aviation authority and the pilot's certificate decide."}
	if got := FlightLines(st.Plan, st.Results.Chosen); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	if got := SceneDay(st, "dusk"); !strings.Contains(got, "Its flight is in civil twilight until 18:53: anti-collision light. ") {
		t.Errorf("the scene: %q", got)
	}
	if got := SceneDay(st, "coffee"); strings.Contains(got, "flight") {
		t.Errorf("a scene on the ground: %q", got)
	}
	if got := PersonDrop(st, "suri"); got != "Scenes 1 and 14 have no other pilot." {
		t.Errorf("without the pilot: %q", got)
	}
	if got := ClearedLines(st, 4); len(got) != 3 {
		t.Errorf("all papers of the flights are there, and it says %q", got)
	}
}

func TestFlightsWithoutPapers(t *testing.T) {
	p := demo(t)
	p.Shooting.Flying = plan.Flying{}
	st := state(t, p)
	want := []string{"Flown: 2 scenes (1, 14). No rules for drones are chosen in Dates and rules, so nothing is told of their light. " +
		"The local aviation authority and the pilot's certificate decide."}
	if got := FlightLines(st.Plan, st.Results.Chosen); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	if got := ClearedLines(st, 4); len(got) != 4 || !strings.HasPrefix(got[3], "Scenes 1 and 14 are flown, and nobody has said by then that they read the rules") {
		t.Errorf("what is cleared: %q", got)
	}
	if got := Troubles(st.Results.Chosen); !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, "read the rules of the local aviation authority") }) {
		t.Errorf("the troubles: %q", got)
	}
	p.Releases, p.Scenes[0].Space = p.Releases[:6], "deck"
	if got := FlightLines(p, state(t, p).Results.Chosen); got != nil {
		t.Errorf("no flight: %q", got)
	}
}

// TestFlightRules: each section that is told of, what is from memory marked so, and with no rules whom to ask.
func TestFlightRules(t *testing.T) {
	var p plan.Plan
	if got := FlightRules(&p); !strings.HasPrefix(got, "Ask the local aviation authority") {
		t.Errorf("no rules: %q", got)
	}
	p.Shooting.Flying.Rules = plan.USPart107
	got := FlightRules(&p)
	for _, part := range []string{"107.29(b), (c): ", "107.65: ", "107.12: The pilot holds a remote pilot certificate. (From memory: look it up.)"} {
		if !strings.Contains(got, part) {
			t.Errorf("%q is not in %q", part, got)
		}
	}
}
