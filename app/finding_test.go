package app

import (
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestFindAndGo types words into the box and presses keys, as a user does.
func TestFindAndGo(t *testing.T) {
	d, _ := openDemo(t)
	sees := func(words string) bool { // a title in an entry of the page
		return len(seen(d, func(e *widget.Entry) bool { return e.Text == words })) > 0
	}
	p := d.plan()
	for _, c := range []struct {
		words string
		keys  []fyne.KeyName
		there func() bool
	}{
		{"breakfast", nil, func() bool { s, _ := p.Scene("breakfast"); return d.current == view.Scenes && sees(s.Title) }},
		{strings.ToUpper(p.People[2].Name), nil, func() bool { return d.current == view.People && sees(p.People[2].Name) }},
		{"space " + p.Property.Spaces[3].Name, nil, func() bool { return d.current == view.Property && sees(p.Property.Spaces[3].Name) }},
		{"page day", nil, func() bool { return d.current == view.Day }},
		{"dark", nil, func() bool { return d.dark }},
		{"zzz", nil, func() bool { return d.says("Nothing here has these words.") }},
		{"", []fyne.KeyName{fyne.KeyDown, fyne.KeyUp, fyne.KeyUp, fyne.KeyDown}, func() bool { return d.current == view.Property }},
	} {
		d.menuItem("Find…").Action()
		entry, ok := d.win.Canvas().Focused().(fyne.Focusable)
		if !ok {
			t.Fatal("the cursor is not in the box")
		}
		test.Type(entry, c.words)
		for _, k := range append(c.keys, fyne.KeyReturn) {
			entry.TypedKey(&fyne.KeyEvent{Name: k})
		}
		if !c.there() {
			t.Errorf("%q does not lead there: on page %s", c.words, d.current)
		}
		entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if d.win.Canvas().Overlays().Top() != nil {
			t.Errorf("%q: the box stays", c.words)
		}
	}
}

// TestFoundReleaseIsShown: a release is found by whom it is about, and shown on its half of the page.
func TestFoundReleaseIsShown(t *testing.T) {
	d, _ := openDemo(t)
	r := d.plan().Releases[1]
	d.goToHit(view.Hit{Kind: view.ReleaseHit, Page: view.People, ID: r.ID})
	if !d.says(view.ReleaseAbout(d.plan(), r)) || len(seen(d, func(b *widget.Button) bool { return b.Text == "Read and sign" })) != 1 {
		t.Error("the release is not shown")
	}
	d.goToHit(view.Hit{Kind: view.PersonHit, Page: view.People, ID: d.plan().People[0].ID})
	if len(seen(d, func(b *widget.Button) bool { return b.Text == "Write as PDF" })) > 0 {
		t.Error("the releases stay in front of the person")
	}
}

// TestWrongIsGoneTo: what is wrong with the day leads to the scene on its own page, by two presses of Space.
func TestWrongIsGoneTo(t *testing.T) {
	d, _ := openDemo(t)
	d.goTo(view.Day)
	d.settle()
	found := seen(d, func(l *draw.Lead) bool { return strings.Contains(l.Data().Text, "Scene 12 has the sun") })
	if len(found) != 1 {
		t.Fatalf("%d lines tell of it", len(found))
	}
	for range 2 {
		found[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	}
	if len(seen(d, func(e *widget.Entry) bool { return e.Text == d.plan().Scenes[11].Title })) == 0 || d.current != view.Scenes {
		t.Errorf("it leads to page %s", d.current)
	}
}

// TestEveryActionIsFound: what the menu can do is found by its own words, the pages and recent plans too.
func TestEveryActionIsFound(t *testing.T) {
	d, path := openDemo(t)
	all := append(view.Findable(d.session.State()), d.actions()...)
	for _, m := range d.menu.main.Items {
		for _, i := range m.Items {
			if i.IsSeparator || i.Disabled || i.Label == "Find…" {
				continue
			}
			if found := view.Find(all, i.Label); len(found) == 0 {
				t.Errorf("%q is not found", i.Label)
			}
		}
	}
	if found := view.Find(all, path); len(found) != 1 || found[0].Do == nil {
		t.Errorf("the recent plan is found as %+v", found)
	}
}

func TestKeyWords(t *testing.T) {
	for _, c := range []struct {
		system string
		mod    fyne.KeyModifier
		key    fyne.KeyName
		want   string
	}{
		{"linux", fyne.KeyModifierControl | fyne.KeyModifierShift, fyne.KeyS, "Ctrl+Shift+S"},
		{"darwin", fyne.KeyModifierSuper | fyne.KeyModifierShift, fyne.KeyS, "Shift+Cmd+S"},
		{"windows", 0, fyne.KeyF1, "F1"},
	} {
		if got := keysOn(c.system, c.mod, c.key); got != c.want {
			t.Errorf("on %s it is %q, want %q", c.system, got, c.want)
		}
	}
}
