package page

import (
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
