package tongue

import (
	"encoding/json"
	"io/fs"
	"testing"

	"eavelight/assets"

	"fyne.io/fyne/v2/lang"
)

func files(t *testing.T, code string) []string {
	t.Helper()
	names, err := fs.Glob(assets.Tongues, "tongues/"+code+"/*.json")
	if err != nil || len(names) == 0 {
		t.Fatalf("%s: %v, %v", code, names, err)
	}
	return names
}

func read(t *testing.T, name string) map[string]any {
	t.Helper()
	data, err := assets.Tongues.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(data, &out); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

// TestUse switches there and back: Fyne's own words and ours change together.
func TestUse(t *testing.T) {
	t.Cleanup(func() { Use("en") })
	for _, c := range []struct{ code, cancel, list, monday, number string }{
		{"en", "Cancel", "7, 9 and 12", "Mon", "-8,750.20"},
		{"es", "Cancelar", "7, 9 y 12", "lun", "-8.750,20"},
		{"en", "Cancel", "7, 9 and 12", "Mon", "-8,750.20"},
	} {
		if err := Use(c.code); err != nil {
			t.Fatal(err)
		}
		if got := lang.L("Cancel"); got != c.cancel || Say("Cancel") != c.cancel {
			t.Errorf("%s: Cancel is %q for Fyne and %q for us", c.code, got, Say("Cancel"))
		}
		if got := List([]string{"7", "9", "12"}); got != c.list {
			t.Errorf("%s: a list is %q", c.code, got)
		}
		if got := lang.X("monday.short", "?"); got != c.monday {
			t.Errorf("%s: Monday is %q", c.code, got)
		}
		if got := Number("-8,750.20"); got != c.number {
			t.Errorf("%s: a number is %q", c.code, got)
		}
		if Code() != c.code {
			t.Errorf("%s is in use as %s", c.code, Code())
		}
	}
	if err := Use("xx"); err == nil {
		t.Error("a language without words is taken")
	}
}

func BenchmarkSay(b *testing.B) {
	for b.Loop() {
		Say("%s and %s", "7", "9")
	}
}
