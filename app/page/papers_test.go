package page

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// TestPapersStandUnderTheirKind: the names of papers begin where the name of their kind does, which has a tick before it.
func TestPapersStandUnderTheirKind(t *testing.T) {
	test.NewTempApp(t)
	s := newShelf(func() {}, func() {})
	s.rows = []shelfRow{{kind: "sheets", text: "Call sheets (2)"}, {kind: "sheets", paper: "all", text: "For all"}}
	kind, paper := newShelfLine().(*fyne.Container), newShelfLine().(*fyne.Container)
	for i, line := range []*fyne.Container{kind, paper} {
		line.Resize(fyne.NewSize(300, 40))
		s.fill(i, line)
	}
	if at, under := kind.Objects[0].Position().X, paper.Objects[0].Position().X; at < theme.IconInlineSize() || under != at {
		t.Errorf("a kind begins at %v, its paper at %v", at, under)
	}
}

// TestPagesStayReadable: a page takes the room there is, but no more than it needs to be read, and then it lies in the middle.
func TestPagesStayReadable(t *testing.T) {
	test.NewTempApp(t)
	s := newPreview(func(func() func()) {})
	for _, wide := range []float32{600, 1700} {
		s.object.Resize(fyne.NewSize(wide, 800))
		want := min(wide-2*theme.Padding(), mostPage*theme.TextSize())
		if got, at := s.scroll.Size().Width, s.scroll.Position().X; got != want || at != (wide-want)/2 || s.wide != want {
			t.Errorf("%v wide: the page is %v wide at %v", wide, got, at)
		}
	}
}

// TestTabsStay: whichever part is shown, its button and the others stand where they stood.
func TestTabsStay(t *testing.T) {
	test.NewTempApp(t)
	h := newHalves([]string{"Budget", "Quote", "How sure"}, slab(10, 10), slab(10, 10), slab(10, 10))
	test.NewTempWindow(t, h.object).Resize(fyne.NewSize(600, 200))
	places := func() (all []float32) {
		for _, b := range h.buttons {
			all = append(all, b.Position().X, b.Size().Width)
		}
		return all
	}
	before := places()
	for _, b := range h.buttons {
		test.Tap(b)
		if after := places(); !slices.Equal(after, before) {
			t.Errorf("%s shown: %v, before %v", b.Text, after, before)
		}
	}
}
