package say_test

import (
	"testing"

	"eavelight/plan/say"
)

// TestListsInSpanish: the Spanish "y" is "e" before the vowel i, however that is spelt, and stays before the consonant that i is
// in front of another vowel (Real Academia Española and ASALE, Diccionario panhispánico de dudas, 2005, "y"; Ortografía de la lengua
// española, 2010; from memory, some of the words from there, others like them).
func TestListsInSpanish(t *testing.T) {
	spanish := realSpanish(t)
	for _, c := range []struct{ first, last, want string }{
		{"Pedro", "Ignacio", "Pedro e Ignacio"},
		{"madre", "hija", "madre e hija"},
		{"aguja", "hilo", "aguja e hilo"},
		{"cocina", "Interior de día", "cocina e Interior de día"},
		{"Ana", "Íñigo", "Ana e Íñigo"},
		{"Ana", "ÍÑIGO", "Ana e ÍÑIGO"},
		{"Ana", "Yvonne", "Ana e Yvonne"},
		{"salón", "«Invierno»", "salón e «Invierno»"},
		{"IRPF", "IVA", "IRPF e IVA"},
		{"agua", "hielo", "agua y hielo"},
		{"cobre", "hierro", "cobre y hierro"},
		{"moléculas", "iones", "moléculas y iones"},
		{"diptongo", "hiato", "diptongo y hiato"},
		{"Ana", "Yolanda", "Ana y Yolanda"},
		{"barco", "yate", "barco y yate"},
		{"Ana", "Hugo", "Ana y Hugo"},
		{"salón", "cocina", "salón y cocina"},
		{"7", "12 Interior", "7 y 12 Interior"}, // it is read "doce"
	} {
		list := say.Names([]string{c.first, c.last})
		if got := list.In(spanish); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
		if got, want := list.String(), c.first+" and "+c.last; got != want {
			t.Errorf("in English %q, want %q", got, want)
		}
	}
	if got := say.Names([]string{"Irene", "Ana", "Inés"}).In(spanish); got != "Irene, Ana e Inés" {
		t.Errorf("three: %q", got)
	}
}
