package say

import (
	"errors"
	"fmt"
	"io/fs"
	"testing"
)

// spanish is a tongue for these tests; its plurals go as the CLDR has them for "es": one for 1, other for 0 and 2.
func spanish(form string, n int) string {
	if form == "%d scenes" {
		if n == 1 {
			return "%d escena"
		}
		return "%d escenas"
	}
	if s, ok := map[string]string{
		"%s and %s": "%s y %s", "scene %s waits for %s": "%[2]s espera la escena %[1]s", "theme|Light": "Claro", "Light": "Luz",
		"decimal mark|.": ",", "thousands mark|,": ".", "%.1f points": "%.1f puntos", "not read": "no leído", "%s: %w": "%s: %w", "file %s: %v": "archivo %s: %v",
	}[form]; ok {
		return s
	}
	return form
}

func TestTexts(t *testing.T) {
	for _, c := range []struct {
		text   Text
		en, es string
	}{
		{Text{}, "", ""},
		{Plain("40 %"), "40 %", "40 %"},
		{That("40 % of it"), "40 % of it", "40 % of it"},
		{That("scene %s waits for %s", "7", That("Light")), "scene 7 waits for Light", "Luz espera la escena 7"},
		{That("theme|Light"), "Light", "Claro"},
		{That("%.1f points", 0.4), "0.4 points", "0,4 puntos"},
		{Number("12,345.60"), "12,345.60", "12.345,60"},
		{Count(1, "%d scene", "%d scenes"), "1 scene", "1 escena"},
		{Count(0, "%d scene", "%d scenes"), "0 scenes", "0 escenas"},
		{Count(1, "a scene", "%d scenes, all"), "a scene", "a scene"},
		{Names([]string{"7"}), "7", "7"},
		{Names([]string{"7", "9", "12"}), "7, 9 and 12", "7, 9 y 12"},
		{Names(nil), "", ""},
		{Join("; ", That("Light"), Text{}, Count(2, "%d scene", "%d scenes")), "Light; 2 scenes", "Luz; 2 escenas"},
	} {
		if en, es := c.text.String(), c.text.In(spanish); en != c.en || es != c.es {
			t.Errorf("%+v says %q and %q, want %q and %q", c.text, en, es, c.en, c.es)
		}
		if c.text.IsZero() != (c.en == "") {
			t.Errorf("%+v: IsZero is %v", c.text, c.text.IsZero())
		}
	}
	if s := fmt.Sprintf("%s, %v", That("Light"), Count(2, "%d scene", "%d scenes")); s != "Light, 2 scenes" {
		t.Errorf("printed by fmt: %q", s)
	}
}

func TestErrors(t *testing.T) {
	inner := Error("not read")
	outer := Error("file %s: %v", "a.txt", inner)
	if outer.Error() != "file a.txt: not read" || Tongue(spanish).Error(outer) != "archivo a.txt: no leído" {
		t.Errorf("says %q and %q", outer, Tongue(spanish).Error(outer))
	}
	if !errors.Is(outer, inner) || !errors.Is(Error("%v", fs.ErrExist), fs.ErrExist) {
		t.Error("an error among the arguments is not found again")
	}
	if s := Tongue(spanish).Error(errors.Join(inner, fs.ErrExist)); s != "no leído\nfile already exists" {
		t.Errorf("joined errors say %q", s)
	}
	if s := Tongue(spanish).Error(fs.ErrExist); s != fs.ErrExist.Error() {
		t.Errorf("a foreign error says %q", s)
	}
}
