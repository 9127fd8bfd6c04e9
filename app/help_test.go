package app

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"eavelight/app/view"
	"eavelight/assets"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"pgregory.net/rapid"
)

// TestKeyboardListsTheMenu: whatever has a key in the menu stands in the list with it, and a key stands for one thing.
func TestKeyboardListsTheMenu(t *testing.T) {
	d := newDesk(t)
	d.menuItem("Keyboard").Action()
	count := 0
	for _, m := range d.menu.main.Items {
		for _, i := range m.Items {
			if i.Shortcut == nil {
				continue
			}
			count++
			if !d.says(strings.TrimSuffix(i.Label, "…")) || !d.says(keyWords(i.Shortcut)) {
				t.Errorf("%s, %s: is not listed", i.Label, keyWords(i.Shortcut))
			}
		}
	}
	if count < 15 {
		t.Errorf("%d items of the menu have keys", count)
	}
	keys := map[string]bool{}
	for _, g := range d.keyGroups()[:len(d.menu.main.Items)] {
		for _, l := range g.Lines {
			if keys[l.Keys] {
				t.Errorf("%s stands for two things", l.Keys)
			}
			keys[l.Keys] = true
		}
	}
	d.asking.Hide()
	d.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyF1})
	if !d.says("another line of what is found") {
		t.Error("F1 does not show the keys")
	}
}

// TestKeysAreOfPagesThatAre: the keys of a page stand under the name that the page has.
func TestKeysAreOfPagesThatAre(t *testing.T) {
	for _, g := range view.PageKeys() {
		page, _, ofPage := strings.Cut(g.Title, ":")
		if ofPage && !slices.ContainsFunc(view.Pages, func(p view.Page) bool { return p.Title() == page }) {
			t.Errorf("there is no page %q", page)
		}
	}
}

func TestAboutNamesEverything(t *testing.T) {
	d := newDesk(t)
	d.version = "1.2.3"
	d.menuItem("About").Action()
	for _, l := range assets.Libraries {
		if !d.says(l.Module) {
			t.Errorf("%s is not named", l.Module)
		}
	}
	if !d.says("1.2.3") {
		t.Error("the version is not told")
	}
	d.press("Licence texts")
	grids := seen(d, func(*widget.TextGrid) bool { return true })
	if len(grids) != 1 || !strings.Contains(grids[0].Text(), "SIL OPEN FONT LICENSE") || !strings.Contains(grids[0].Text(), "GeoNames") ||
		strings.Contains(grids[0].Text(), "\n## ") {
		t.Error("the texts are not shown")
	}
}

// TestBrokenLosesNothing: breaking lines keeps every word in its order, and makes no line longer than asked but for one word.
func TestBrokenLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("aé \n家b"))).Draw(t, "text")
		got := broken(text, 7)
		if !slices.Equal(strings.Fields(got), strings.Fields(text)) {
			t.Fatalf("%q becomes %q", text, got)
		}
		for line := range strings.SplitSeq(got, "\n") {
			if utf8.RuneCountInString(line) > 7 && strings.Contains(strings.TrimSpace(line), " ") {
				t.Fatalf("%q is too long", line)
			}
		}
	})
}
