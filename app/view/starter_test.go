package view

import (
	"slices"
	"testing"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/store"
)

// TestStarterCardInSpanish: nothing of the starter card stays English but laws, and the kit of the ready-made scenes goes by the
// names that the card has for it, so that it costs something.
func TestStarterCardInSpanish(t *testing.T) {
	english, err := store.DecodeCard("starter", assets.StarterCard)
	if err != nil {
		t.Fatal(err)
	}
	c := english.Clone()
	laws := []string{"California Labor Code 510(a)", "29 USC 207(a)(1)"}
	said := map[string]bool{}
	for _, words := range cardWords(&c) {
		said["starter|"+*words] = true
		if form := "starter|" + *words; !slices.Contains(starterForms, form) && !slices.Contains(laws, *words) {
			t.Errorf("%q has no form", *words)
		}
	}
	for _, form := range starterForms {
		if !said[form] {
			t.Errorf("%q is not on the card", form)
		}
	}
	spanish(t)
	SayStarter(&c)
	if c.Name == english.Name || c.Crew[1].Name != "Cámara" {
		t.Errorf("%q has %+v", c.Name, c.Crew[1])
	}
	if wrong := plan.ValidateCard(c); len(wrong) > 0 {
		t.Error(wrong)
	}
	for i, r := range ReadyScenes() {
		for j, name := range plan.ReadyScenes()[i].Kit {
			k := slices.IndexFunc(english.Kit, func(k plan.KitRate) bool { return k.Name == name })
			if k >= 0 && c.Kit[k].Name != r.Kit[j] {
				t.Errorf("%s needs %q, and the card has %q", r.Title, r.Kit[j], c.Kit[k].Name)
			}
		}
	}
}
