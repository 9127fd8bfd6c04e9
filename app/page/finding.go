package page

import (
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// FindBox is one entry and the list of what is found by the words in it. Arrows move in the list while one types, Enter goes to
// the line marked, and so does a click.
type FindBox struct {
	Entry  *findEntry
	all    []view.Hit
	found  []view.Hit
	at     int
	moving bool // the list is told which line is marked, and is not clicked
	list   *widget.List
	none   *widget.Label
	gone   func(view.Hit)
	object fyne.CanvasObject
}

// NewFindBox builds the box. gone hears what the user goes to, and closed of Escape.
func NewFindBox(all []view.Hit, gone func(view.Hit), closed func()) *FindBox {
	f := &FindBox{all: all, gone: gone, none: widget.NewLabel(tongue.Say("Nothing here has these words."))}
	f.none.Importance = widget.LowImportance
	f.list = widget.NewList(func() int { return len(f.found) }, newLine, func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(f.found) {
			h := f.found[i]
			fillRow(o, view.Row{Title: h.Title, Sub: h.Sub, Mark: h.Kind.Word()})
		}
	})
	f.list.OnSelected = func(i widget.ListItemID) {
		if !f.moving {
			f.mark(i)
			f.enter()
		}
	}
	f.Entry = &findEntry{keys: map[fyne.KeyName]func(){
		fyne.KeyUp:       func() { f.mark(f.at - 1) },
		fyne.KeyDown:     func() { f.mark(f.at + 1) },
		fyne.KeyPageUp:   func() { f.mark(f.at - 8) },
		fyne.KeyPageDown: func() { f.mark(f.at + 8) },
		fyne.KeyReturn:   f.enter,
		fyne.KeyEnter:    f.enter,
		fyne.KeyEscape:   closed,
	}}
	f.Entry.ExtendBaseWidget(f.Entry)
	f.Entry.SetPlaceHolder(tongue.Say("a scene, a person, a space, a release, a page or what to do"))
	f.Entry.OnChanged = f.find
	f.find("")
	f.object = container.NewBorder(f.Entry, nil, nil, nil, container.NewStack(container.NewVBox(f.none), f.list))
	return f
}

// Object is the box.
func (f *FindBox) Object() fyne.CanvasObject { return f.object }

func (f *FindBox) find(words string) {
	f.found = view.Find(f.all, words)
	setVisible(f.none, len(f.found) == 0)
	f.list.Refresh()
	f.mark(0)
}

// mark marks a line, or the nearest there is.
func (f *FindBox) mark(i int) {
	f.at = max(0, min(i, len(f.found)-1))
	f.moving = true
	f.list.UnselectAll()
	if len(f.found) > 0 {
		f.list.Select(f.at)
	}
	if f.list.Size().Height == 0 { // not laid out yet: it would scroll to nowhere
		f.list.ScrollToTop()
	}
	f.moving = false
}

func (f *FindBox) enter() {
	if f.at < len(f.found) {
		f.gone(f.found[f.at])
	}
}

// findEntry is an entry that gives some keys away.
type findEntry struct {
	widget.Entry
	keys map[fyne.KeyName]func()
}

// TypedKey is Fyne's.
func (e *findEntry) TypedKey(k *fyne.KeyEvent) {
	if do, ok := e.keys[k.Name]; ok {
		do()
		return
	}
	e.Entry.TypedKey(k)
}

// Select shows one space.
func (h *Property) Select(id plan.ID) {
	h.wanted = id
	h.showItems(h.shown, h.rows)
}

// Select shows one person.
func (s *People) Select(id plan.ID) {
	s.halves.turn(everybodyHalf)
	s.contacts.Close()
	s.wanted = id
	s.Show(s.state)
}

// SelectRelease shows one release.
func (s *People) SelectRelease(id plan.ID) {
	s.halves.turn(releasesHalf)
	s.releases.open(id)
}
