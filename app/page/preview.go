package page

import (
	"context"
	"image/color"

	"eavelight/app/tongue"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// preview shows a paper as it will be: its pages, one at a time and as wide as reads well, or its words. They are drawn off the UI
// goroutine; until they are there, what was drawn last stands.
type preview struct {
	*latest
	shelf  view.Shelf
	name   string // of the paper
	asked  int    // page
	shown  view.Looked
	wide   float32 // that the page has
	drawn  int     // pixels that it was drawn wide
	title  *widget.Label
	number *widget.Label
	turns  [2]*widget.Button
	paper  *canvas.Image
	words  *widget.Label
	scroll *container.Scroll
	head   *fyne.Container
	object fyne.CanvasObject
}

func newPreview(async Async) *preview {
	s := &preview{latest: newLatest(async), asked: 1, title: widget.NewLabel(""), number: widget.NewLabel(""), paper: &canvas.Image{}, words: wrapped()}
	s.title.Truncation = fyne.TextTruncateEllipsis
	s.title.TextStyle.Bold = true
	s.paper.FillMode = canvas.ImageFillStretch // it is drawn in its own shape
	s.paper.ScaleMode = canvas.ImageScaleFastest
	for i, icon := range []fyne.ThemeIconName{theme.IconNameNavigateBack, theme.IconNameNavigateNext} {
		s.turns[i] = widget.NewButtonWithIcon("", theme.Icon(icon), func() { s.turn(2*i - 1) })
		s.turns[i].Importance = widget.LowImportance
	}
	desk := canvas.NewRectangle(color.NRGBA{0x80, 0x80, 0x80, 0x30}) // so that the paper has an edge in either theme
	s.scroll = container.NewVScroll(container.NewStack(s.paper, s.words))
	s.head = container.NewBorder(nil, nil, nil, container.NewHBox(s.turns[0], s.number, s.turns[1]), s.title)
	s.object = container.NewBorder(s.head, nil, nil, nil, container.NewStack(desk, container.New(&pageRoom{s}, s.scroll)))
	return s
}

// show looks at a paper of a shelf; another one begins at its first page.
func (s *preview) show(shelf view.Shelf, name, title string) {
	if name != s.name {
		s.asked = 1
	}
	s.shelf, s.name = shelf, name
	s.title.SetText(title)
	s.look()
}

func (s *preview) turn(by int) {
	s.asked = s.shown.Page + by
	s.look()
}

// look draws the page that is asked for, as soon as it is known how wide.
func (s *preview) look() {
	if s.wide <= 0 || s.name == "" {
		return
	}
	scale := float32(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.scroll); c != nil {
		scale = c.Scale()
	}
	s.drawn = int(s.wide * scale)
	shelf, name, page, pixels := s.shelf, s.name, s.asked, s.drawn
	s.run(func(context.Context) func() {
		found := shelf.Look(name, page, pixels)
		return func() { s.found(found) }
	})
}

func (s *preview) found(l view.Looked) {
	turned := l.Name != s.shown.Name || l.Page != s.shown.Page
	s.shown = l
	s.paper.Image = nil
	if l.Picture != nil {
		s.paper.Image = l.Picture
	}
	s.words.SetText(l.Words)
	setVisible(s.words, l.Words != "")
	setVisible(s.paper, l.Picture != nil)
	s.number.SetText(tongue.Say("page %d of %d", l.Page, l.Pages))
	setVisible(s.number, l.Pages > 0)
	for i, at := range []int{1, l.Pages} {
		setVisible(s.turns[i], l.Pages > 1)
		if l.Page == at {
			s.turns[i].Disable()
		} else {
			s.turns[i].Enable()
		}
	}
	s.head.Refresh()
	s.fit()
	s.paper.Refresh()
	if turned {
		s.scroll.ScrollToTop()
	}
	s.scroll.Refresh()
}

// fit gives the page its height.
func (s *preview) fit() {
	if s.shown.Picture != nil {
		s.paper.SetMinSize(fyne.NewSize(10, s.wide/float32(s.shown.Shape)))
	}
}

// pageRoom gives the page all the room up to a width that is read with ease, and has it drawn anew when that has changed.
type pageRoom struct{ of *preview }

// mostPage is how wide a page is at most, in heights of the text: larger, less of it would be seen at a time.
const mostPage = 66

func (r *pageRoom) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(200, 100) }

func (r *pageRoom) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	pad := theme.Padding()
	wide := min(size.Width-2*pad, mostPage*theme.TextSize())
	objects[0].Move(fyne.NewPos((size.Width-wide)/2, pad))
	if wide != r.of.wide {
		r.of.wide = wide
		r.of.fit()
		r.of.look()
	}
	objects[0].Resize(fyne.NewSize(wide, size.Height-2*pad))
}
