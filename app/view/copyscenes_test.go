package view

import (
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
)

// sceneTexts are all that the columns say of a scene.
func sceneTexts(p *plan.Plan, s *plan.Scene) (out []string) {
	for _, c := range SceneColumns {
		out = append(out, c.Text(p, s))
	}
	return out
}

// copied copies all scenes of a plan and pastes them into one with its people and spaces, but without scenes.
func copied(t *testing.T, p plan.Plan) {
	t.Helper()
	var ids []plan.ID
	for _, s := range p.Scenes {
		ids = append(ids, s.ID)
	}
	other := p.Clone()
	other.Scenes = nil
	got, err := ReadScenes(&other, CopyScenes(&p, ids...))
	if err != nil || len(got.Told) > 0 || len(got.Columns) != len(SceneColumns) {
		t.Fatalf("%v, %q, %q", err, got.Told, got.Columns)
	}
	got.AddTo(&other, 0)
	if len(other.Scenes) != len(p.Scenes) {
		t.Fatalf("%d scenes of %d", len(other.Scenes), len(p.Scenes))
	}
	for i := range p.Scenes {
		if r := got.Rows[i].Refused; len(r) > 0 {
			t.Errorf("refused: %q", r)
		}
		if a, b := sceneTexts(&p, &p.Scenes[i]), sceneTexts(&other, &other.Scenes[i]); !slices.Equal(a, b) {
			t.Errorf("%q comes back as %q", a, b)
		}
	}
}

// TestCopyAndPaste: what is copied in one plan is what is pasted in another, in each language of the window: the demo's scenes, and one
// whose words have in them what divides cells.
func TestCopyAndPaste(t *testing.T) {
	p := demo(t)
	p.Scenes = append(p.Scenes, plan.Scene{ID: "odd", Number: "99", Title: `Say "tea", 5" pan`, Action: "one\n\ttwo; \"three", Notes: `"`, Kit: []string{"pan", "lid"}},
		plan.Scene{ID: "bare", Number: "100", Importance: plan.Nice})
	copied(t, p)
	spanish(t)
	copied(t, p)
}

// TestCopySome: those asked for, in the order of the film, under one row of headings; of none nothing. Light by the clock stands in the
// plan file only, and its cell is empty.
func TestCopySome(t *testing.T) {
	p := pastePlan()
	p.Scenes = []plan.Scene{{ID: "a", Number: "1", Title: "One"}, {ID: "b", Number: "2", Title: "Two"},
		{ID: "c", Number: "3", Title: "Three", Values: []plan.Value{{Share: 1}}}}
	want := "No.\tTitle\tSpace\tPeople\tLight\tSet-up\tShooting\tSeconds\tImportance\tAction\tKit\tNotes\n" +
		"1\tOne\t\t\tany\t0\t0\t0\tshould\t\t\t\n3\tThree\t\t\t\t0\t0\t0\tshould\t\t\t\n"
	if got := CopyScenes(&p, "c", "a", "gone"); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := CopyScenes(&p, "gone"); strings.TrimSpace(got) != "" {
		t.Errorf("%q", got)
	}
}
