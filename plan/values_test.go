package plan

import (
	"slices"
	"testing"

	"eavelight/plan/say"
)

func listed[V interface {
	~string
	In(say.Tongue) string
}](t *testing.T, all []V, forms map[V]string) {
	t.Helper()
	for _, v := range all {
		if _, ok := forms[v]; !ok || v.In(nil) != string(v) {
			t.Errorf("%T %q is said as %q", v, string(v), v.In(nil))
		}
	}
	if len(forms) != len(all) {
		t.Errorf("%T: %d of %d have words", all, len(forms), len(all))
	}
}

// TestValuesHaveWords: every value that is offered has a form of its own, which in English is the word of the plan file.
func TestValuesHaveWords(t *testing.T) {
	listed(t, SpaceKinds, spaceKindForms)
	listed(t, Importances, importanceForms)
	listed(t, WishKinds, wishKindForms)
	var figures []WishFigure
	for _, k := range WishKinds {
		for _, f := range k.Uses() {
			if !slices.Contains(figures, f) {
				figures = append(figures, f)
			}
		}
	}
	listed(t, figures, wishFigureForms)
	listed(t, Roles, roleForms)
	listed(t, GuardiansThere, guardianThereForms)
	listed(t, ReleaseKinds, releaseKindForms)
	listed(t, ReleaseStatuses, releaseStatusForms)
	listed(t, Bases, basisForms)
	listed(t, Groups, groupForms)
	listed(t, Measures, measureForms)
	listed(t, Payers, payerForms)
	listed(t, Moments, momentForms)
	listed(t, DeliverableKinds, deliverableKindForms)
	listed(t, PaperSizes, paperSizeForms)
	if got := WishKind("moonlit").In(nil); got != "moonlit" {
		t.Errorf("a value that is none is said as %q", got)
	}
}

func TestEveryFieldOfAWordingHasItsWord(t *testing.T) {
	for _, f := range append(slices.Clone(WordingFields), "else") {
		if got := FieldsSaid([]string{f}).String(); got != f {
			t.Errorf("the field %s is said %q in English", f, got)
		}
		if _, ok := wordingFieldForms[f]; ok == (f == "else") {
			t.Errorf("the field %s has a word: %v", f, ok)
		}
	}
}
