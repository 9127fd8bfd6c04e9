package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// choose picks a file of the plan's folder in the dialog that lies over the window.
func (d *desk) choose(name string) {
	d.t.Helper()
	stem := strings.TrimSuffix(name, filepath.Ext(name)) // as the dialog shows it
	named := seen(d, func(o fyne.CanvasObject) bool {
		_, tappable := o.(fyne.Tappable)
		w, isWidget := o.(fyne.Widget)
		if !tappable || !isWidget {
			return false
		}
		for _, c := range test.WidgetRenderer(w).Objects() {
			if l, ok := c.(*widget.Label); ok && l.Text == stem {
				return true
			}
		}
		return false
	})
	if len(named) == 0 {
		d.t.Fatalf("the dialog shows no %q", name)
	}
	named[0].(fyne.Tappable).Tapped(&fyne.PointEvent{})
	d.press("Open")
}

// beside writes a file beside the plan.
func beside(t *testing.T, plan, name, text string) string {
	t.Helper()
	path := filepath.Join(filepath.Dir(plan), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestOwnHours: a table of minors' hours is brought in from a file through the dialog, holds, is told with its source, is saved
// and read back, and is taken out. The figures are the test's own. One with faults is refused with its lines.
func TestOwnHours(t *testing.T) {
	d, path := openDemo(t)
	beside(t, path, "brindle.yaml", "id: brindle\nname: Brindle County\nsource: a letter of the school board\nmemory: [the rest]\nrows:\n- {from: birth, to: 18 years, place: 2 h, work: 30 min}\n")
	beside(t, path, "bad.yaml", "id: brindle\nname: Brindle County\nsource: a letter\nrows:\n- {from: birth, to: 18 years, place: 2 h, work: lots}\n")
	beside(t, path, "taken.yaml", "id: england\nname: Ours\nsource: a letter\nrows:\n- {from: birth, to: 18 years, place: 2 h, work: 1 h}\n")
	beside(t, path, "long-id.yaml", "id: two words\nname: Ours\nsource: a letter\nrows:\n- {from: birth, to: 18 years, place: 2 h, work: 1 h}\n")
	d.menuItem("Day").Action()
	d.press("Dates and rules")
	before := d.plan().Shooting.Minors
	for name, says := range map[string]string{
		"bad.yaml":     `bad.yaml:5: "lots" is not a length of time`,
		"taken.yaml":   `taken.yaml: id: "england" is the id of a table that comes with the program`,
		"long-id.yaml": `long-id.yaml: id: the id "two words" may hold only letters`,
	} {
		d.press("From a file…")
		d.choose(name)
		d.until(name+" is refused", func() bool { return d.says(says) })
		if p := d.plan(); len(p.Hours) != 0 || p.Shooting.Minors != before {
			t.Fatalf("%s: %+v", name, p.Hours)
		}
	}
	d.press("From a file…")
	d.choose("brindle.yaml")
	d.until("the table is in the plan", func() bool { return len(d.plan().Hours) == 1 })
	d.settle()
	if p := d.plan(); p.Shooting.Minors != "brindle" {
		t.Fatalf("%q holds", p.Shooting.Minors)
	}
	for _, words := range []string{"Source: a letter of the school board.", "not to be relied on: the rest.", "Local law decides; ask a licensed adviser"} {
		if !d.says(words) {
			t.Errorf("it does not say %q", words)
		}
	}
	said := false
	for _, out := range d.session.State().Results.Chosen.LeftOut {
		said = said || strings.Contains(out.Why.String(), "30 min in front of the camera; Brindle County")
	}
	if !said {
		t.Errorf("no scene is left out for the half hour: %v", d.session.State().Results.Chosen.LeftOut)
	}
	d.menuItem("Save").Action()
	d.settle()
	if back, _, err := store.Read(path); err != nil || len(back.Hours) != 1 || back.Hours[0].Source != "a letter of the school board" {
		t.Errorf("read back: %+v, %v", back.Hours, err)
	}
	d.press("Take it out")
	d.settle()
	if p := d.plan(); len(p.Hours) != 0 || p.Shooting.Minors != "" {
		t.Errorf("taken out, and there are %+v", p.Hours)
	}
	d.menuItem("Undo take the table of hours out").Action()
	d.settle()
	if len(d.plan().Hours) != 1 {
		t.Error("undo does not bring it back")
	}
}
