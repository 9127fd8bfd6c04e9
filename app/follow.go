package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

// follow brings what Tab goes to into sight. Fyne 2.7.1 moves the keyboard on and leaves it where it is, below the edge of a scroll
// too; and it tells nobody but the widget itself. But on its way it asks each visible object, from the first of the content or from
// the last one, whether it is disabled. So one that is never seen stands at either end, and takes that question for the sign that
// Tab was pressed. What lies over the window has ends of its own: its scrolls are not followed.
type follow struct {
	fyne.CanvasObject
	asked func()
}

func newFollow(asked func()) *follow {
	return &follow{CanvasObject: canvas.NewRectangle(color.Transparent), asked: asked}
}

// Disabled, Enable and Disable are fyne.Disableable's: it is asked by Tab alone.
func (f *follow) Disabled() bool { f.asked(); return false }
func (*follow) Enable()          {}
func (*follow) Disable()         {}

// following puts what follows Tab at both ends of a content.
func (w *Window) following(content fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(newFollow(w.tabbed), content, newFollow(w.tabbed))
}

// tabbed has what is focused brought into sight, once Fyne has found what that is.
func (w *Window) tabbed() {
	if w.tabs {
		return
	}
	w.tabs = true
	w.post(func() {
		w.tabs = false
		if o, ok := w.win.Canvas().Focused().(fyne.CanvasObject); ok {
			reveal(w.win.Content(), o)
		}
	})
}

// scroller is a scroll of Fyne's, or what is made of one.
type scroller interface {
	fyne.CanvasObject
	ScrollToOffset(fyne.Position)
}

// reveal moves the scrolls around an object, from the inmost one outwards, as far as it takes to see it.
func reveal(root, it fyne.CanvasObject) {
	path := pathTo(root, it)
	for i := len(path) - 2; i >= 0; i-- {
		s, ok := path[i].(scroller)
		if !ok {
			continue
		}
		at := fyne.Position{}
		for _, o := range path[i+1:] {
			at = at.Add(o.Position())
		}
		offset, content := path[i+1].Position(), path[i+1].Size()
		to := fyne.NewPos(
			stepped(-offset.X, at.X, it.Size().Width, s.Size().Width, content.Width),
			stepped(-offset.Y, at.Y, it.Size().Height, s.Size().Height, content.Height))
		s.ScrollToOffset(to)
		if list, ok := s.(*container.Scroll); ok && list.OnScrolled != nil { // a list brings up the rows that come into sight
			list.OnScrolled(list.Offset)
		}
	}
}

// stepped is how far a scroll must be moved so that what begins at some place in the sight of it, and is so long, is seen with some
// air around it; where it is longer than the sight, so that it fills it, or that its beginning is seen.
func stepped(offset, at, long, sight, content float32) float32 {
	air := min(2*theme.Padding(), max(0, (sight-long)/2))
	switch from, to := at-air, at+long+air; {
	case long >= sight && at <= 0 && at+long >= sight:
	case long >= sight || from < 0:
		offset += from
	case to > sight:
		offset += to - sight
	}
	return max(0, min(offset, content-sight))
}

// pathTo is the way from a root to a visible object in it, both ends included; nothing where it is not there.
func pathTo(root, it fyne.CanvasObject) []fyne.CanvasObject {
	if root == nil || !root.Visible() {
		return nil
	}
	if root == it {
		return []fyne.CanvasObject{root}
	}
	var parts []fyne.CanvasObject
	switch v := root.(type) {
	case *fyne.Container:
		parts = v.Objects
	case fyne.Widget:
		parts = test.WidgetRenderer(v).Objects() // the one way to them from outside of Fyne
	}
	for _, o := range parts {
		if path := pathTo(o, it); path != nil {
			return append([]fyne.CanvasObject{root}, path...)
		}
	}
	return nil
}
