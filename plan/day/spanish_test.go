package day

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/say"
)

// spanish is the tongue of the window's Spanish.
func spanish(t *testing.T) say.Tongue {
	t.Helper()
	files, err := filepath.Glob("../../assets/tongues/es/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("%v, %v", files, err)
	}
	words := map[string]any{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err == nil {
			err = json.Unmarshal(data, &words)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return func(form string, n int) string {
		switch w := words[form].(type) {
		case string:
			return w
		case map[string]any:
			if n == 1 {
				return w["one"].(string)
			}
			return w["other"].(string)
		}
		t.Errorf("%q has no Spanish", form)
		return form
	}
}

// TestComparedInSpanish: article, verb and number go with each other in another language too (Spanish, from memory).
func TestComparedInSpanish(t *testing.T) {
	p := demo(t)
	x := Difference{
		Points:  Loss{Light: 8, Waiting: 7, Moves: 0.5, Length: 0.4},
		Light:   []SceneLost{{"lengths", 8}, {"piano", -8}},
		Waiting: []PersonWait{{"nina", 35}, {"ivy", -5}},
		Moving:  -5, Length: 60,
		Out: []plan.ID{"nook"},
		In:  []SceneLight{{"toast", 20, 20}, {"fire", 2.5, 10}, {"dusk", 5, 5}},
	}
	want := "16 puntos más: las escenas 11 y 14 obtienen sitio, la escena 13 obtiene sitio con el 25 % de su luz; la escena 5 queda fuera; " +
		"8 min más de luz: escena 8, 8 min menos de luz: escena 6; Nina Valdry espera 35 min más, Ivy Marchetti-Lund espera 5 min menos; " +
		"5 min menos de traslados; día 1 h más largo"
	if got := x.cost(p).In(spanish(t)); got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
}

// TestToldInSpanish: all that the demo's day tells has Spanish words, down to the last fragment.
func TestToldInSpanish(t *testing.T) {
	tongue, ctx := spanish(t), context.Background()
	d := placed(t, demo(t), date(t, "2027-10-22"))
	here, err := d.WhyHere(ctx)
	if err != nil || len(here) == 0 {
		t.Fatal(here, err)
	}
	waiting, err := d.WhyWaiting(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var texts []say.Text
	for _, h := range here {
		texts = append(texts, h.Words(d)...)
	}
	for _, w := range waiting {
		texts = append(texts, w.Words(d)...)
	}
	for _, p := range d.Problems {
		texts = append(texts, p.Said())
	}
	for _, out := range d.LeftOut {
		texts = append(texts, out.Why.Said())
	}
	english := []string{"scene", "earlier", "light", " min for ", "points", " and ", "because", "free"}
	for _, text := range texts {
		words := text.In(tongue)
		for _, e := range english {
			if strings.Contains(words, e) || strings.Contains(words, "%!") {
				t.Errorf("%q is told as %q", text, words)
			}
		}
	}
}
