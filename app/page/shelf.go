package page

import (
	"fmt"
	"slices"

	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// shelf lists the papers: their kinds, each with a tick for whether it is written, and those of the kind in hand.
type shelf struct {
	shown    view.Shelf
	left     map[string]bool // kinds that are not to be written
	open     string          // the kind in hand
	chosen   string          // the name of the paper in hand
	rows     []shelfRow
	filling  bool
	onChoose func() // hears of another paper in hand
	onTick   func()
	list     *widget.List
}

// shelfRow is one line: a kind, or a paper of the kind in hand.
type shelfRow struct {
	kind  string
	paper string // the name of a paper; empty: it is the kind's line
	text  string
}

func newShelf(onChoose, onTick func()) *shelf {
	s := &shelf{left: map[string]bool{}, onChoose: onChoose, onTick: onTick}
	s.list = widget.NewList(func() int { return len(s.rows) }, newShelfLine, s.fill)
	s.list.OnSelected = s.pick
	s.list.HideSeparators = true
	return s
}

func newShelfLine() fyne.CanvasObject {
	text := widget.NewLabel("")
	text.Truncation = fyne.TextTruncateEllipsis
	return container.New(afterTick{}, text, widget.NewCheck("", nil))
}

// afterTick puts words at the right of a tick; where it is hidden too, so that papers stand in under the name of their kind.
type afterTick struct{}

func (afterTick) MinSize(objects []fyne.CanvasObject) fyne.Size {
	text, tick := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(tick.Width+text.Width, max(tick.Height, text.Height))
}

func (afterTick) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left := objects[1].MinSize().Width
	objects[1].Resize(fyne.NewSize(left, size.Height))
	objects[0].Move(fyne.NewPos(left, 0))
	objects[0].Resize(fyne.NewSize(size.Width-left, size.Height))
}

func (s *shelf) fill(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(s.rows) {
		return
	}
	row, line := s.rows[i], o.(*fyne.Container)
	text, tick := line.Objects[0].(*widget.Label), line.Objects[1].(*widget.Check)
	tick.OnChanged = nil
	if row.paper == "" {
		tick.SetChecked(!s.left[row.kind])
		tick.OnChanged = func(on bool) {
			s.left[row.kind] = !on
			s.onTick()
		}
		tick.Enable()
		tick.Show()
	} else {
		tick.Disable()
		tick.Hide()
	}
	text.TextStyle.Bold = row.paper == ""
	text.SetText(row.text)
	line.Refresh()
}

// pick takes a paper in hand, or the first of a kind.
func (s *shelf) pick(i widget.ListItemID) {
	if s.filling || i >= len(s.rows) {
		return
	}
	row := s.rows[i]
	s.open = row.kind
	if s.chosen = row.paper; row.paper == "" {
		s.chosen = s.first(row.kind)
	}
	s.lay()
	s.onChoose()
}

func (s *shelf) first(kind string) string {
	for _, k := range s.shown.Kinds {
		if k.Kind == kind {
			return k.Papers[0].Name
		}
	}
	return ""
}

// show brings the list up to a shelf, and keeps in hand what is still there.
func (s *shelf) show(v view.Shelf) {
	s.shown = v
	if s.about() == "" && len(v.Kinds) > 0 {
		kind := v.Kinds[0]
		if i := slices.IndexFunc(v.Kinds, func(k view.ShelfKind) bool { return k.Kind == s.open }); i >= 0 {
			kind = v.Kinds[i]
		}
		s.open, s.chosen = kind.Kind, kind.Papers[0].Name
	}
	s.lay()
}

// about says what the paper in hand is; nothing where it is gone.
func (s *shelf) about() string {
	for _, k := range s.shown.Kinds {
		for _, p := range k.Papers {
			if p.Name == s.chosen {
				return p.About
			}
		}
	}
	return ""
}

// lay makes the lines anew and marks the paper in hand.
func (s *shelf) lay() {
	s.rows = s.rows[:0]
	at := 0
	for _, k := range s.shown.Kinds {
		title := k.Title
		if len(k.Papers) > 1 {
			title = fmt.Sprintf("%s (%d)", k.Title, len(k.Papers))
		}
		if k.Kind == s.open {
			at = len(s.rows)
		}
		s.rows = append(s.rows, shelfRow{kind: k.Kind, text: title})
		if k.Kind != s.open || len(k.Papers) == 1 {
			continue
		}
		for _, p := range k.Papers {
			if p.Name == s.chosen {
				at = len(s.rows)
			}
			s.rows = append(s.rows, shelfRow{k.Kind, p.Name, p.Label})
		}
	}
	s.list.Refresh()
	s.filling = true
	if len(s.rows) > 0 {
		s.list.Select(at)
	}
	s.filling = false
}

// ticked lists the kinds to be written.
func (s *shelf) ticked() []string {
	var out []string
	for _, k := range s.shown.Kinds {
		if !s.left[k.Kind] {
			out = append(out, k.Kind)
		}
	}
	return out
}
