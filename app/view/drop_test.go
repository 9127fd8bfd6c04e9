package view

import (
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
)

// TestPersonDrop: what goes on without somebody, what does not, and who is free to stand in.
func TestPersonDrop(t *testing.T) {
	st := session.State{Plan: plan.New()}
	st.Plan.People = []plan.Person{
		{ID: "ann", Name: "Ann Wray"}, {ID: "bo", Name: "Bo Lind"}, {ID: "cy", Name: "Cy Roe", Minor: true, Guardian: "ann"},
		{ID: "jo", Name: "Jo Teel", Role: plan.Crew},
	}
	st.Plan.Scenes = []plan.Scene{
		{ID: "a", Number: "1", People: []plan.ID{"ann"}}, {ID: "b", Number: "2", People: []plan.ID{"ann", "bo"}},
		{ID: "c", Number: "3", People: []plan.ID{"ann", "cy"}},
	}
	for id, want := range map[plan.ID]string{
		"ann": "Scene 1 has nobody else. Scenes 2 and 3 go on with the others. Cy Roe needs another guardian. Free then and of the same role: Bo Lind.",
		"bo":  "Scene 2 goes on with the others. Nobody of the same role is free then.",
		"jo":  "",
	} {
		if got := PersonDrop(st, id); got != want {
			t.Errorf("%s: %q", id, got)
		}
	}
}
