package view

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"

	"pgregory.net/rapid"
)

func TestFind(t *testing.T) {
	p := plan.New()
	p.Scenes = []plan.Scene{
		{ID: "a", Number: "1", Title: "Morgenkaffee im Café", Action: "Zoë stirs."},
		{ID: "b", Number: "2", Title: "Stairs to the pool", Space: "pool"},
		{ID: "c", Number: "12", Title: "Dusk outside"},
	}
	p.Property.Spaces = []plan.Space{{ID: "pool", Name: "Pool"}}
	p.People = []plan.Person{{ID: "zoe", Name: "Zoë Ångström", Job: "Pilot"}, {ID: "wang", Name: "王小明"}}
	p.Releases = []plan.Release{{ID: "zr", Kind: plan.ModelRelease, Party: "zoe"}}
	all := Findable(session.State{Plan: p})
	for words, want := range map[string]string{
		"cafe":         "a",
		"KAFFEE":       "a", // in the middle of a word
		"st":           "b", // St. is no saint here
		"zoe":          "zoe zr a",
		"zoe angstrom": "zoe zr",
		"ångström":     "zoe zr",
		"pool":         "pool b",
		"pool stairs":  "b",
		"pilot":        "zoe",
		"12":           "c",
		"小明":           "wang",
		"scene":        "scenes a b c",
		"release zoe":  "zr",
		"unheard-of":   "",
		"   ":          strings.Join(ids(all), " "),
	} {
		if got := strings.Join(ids(Find(all, words)), " "); !strings.HasPrefix(got, want) || want == "" && got != "" {
			t.Errorf("%q finds %q, want %q first", words, got, want)
		}
	}
}

// ids name hits: things by their id, pages by their name.
func ids(hits []Hit) []string {
	var out []string
	for _, h := range hits {
		if h.ID != "" {
			out = append(out, string(h.ID))
		} else {
			out = append(out, string(h.Page))
		}
	}
	return out
}

// TestMoreWordsFindLess: whatever is typed, a further word never finds more, and the order of the words does not matter.
func TestMoreWordsFindLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringOfN(rapid.SampledFrom([]rune("abÄö家 ·'")), 0, 4, -1)
		var hits []Hit
		for range rapid.IntRange(0, 8).Draw(t, "hits") {
			hits = append(hits, Hit{Title: word.Draw(t, "title"), Sub: word.Draw(t, "sub"), Text: word.Draw(t, "text")})
		}
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		one, both, swapped := Find(hits, a), Find(hits, a+" "+b), Find(hits, b+" "+a)
		same := func(x, y Hit) bool { return x.Title == y.Title && x.Sub == y.Sub && x.Text == y.Text }
		if !slices.EqualFunc(both, swapped, same) {
			t.Fatalf("%q and %q find other things the other way round", a, b)
		}
		if len(both) > len(one) {
			t.Fatalf("%q finds %d, with %q too %d", a, len(one), b, len(both))
		}
	})
}
