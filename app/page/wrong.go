package page

import (
	"slices"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// wrongs is the list under the board: what is wrong with the day, a line each, and most of them lead to what they are about. A line
// that stays keeps its widget, and with it the keyboard.
type wrongs struct {
	follow func(view.Hit)
	box    *fyne.Container
	scroll *container.Scroll
}

func newWrongs(follow func(view.Hit)) *wrongs {
	w := &wrongs{follow: follow, box: container.New(&stacked{close: true})}
	w.scroll = container.NewVScroll(w.box)
	return w
}

// show brings the list up to some lines, for a scene that is selected on the board. What is the same is left alone: the page is
// shown anew for every step of much that goes on.
func (w *wrongs) show(lines []view.Wrong, selected plan.ID) {
	old := w.box.Objects
	objects := make([]fyne.CanvasObject, len(lines))
	for i, line := range lines {
		objects[i] = w.line(line, line.Word(selected), old)
	}
	if slices.Equal(objects, old) {
		w.box.Refresh()
		return
	}
	w.handOn(old, objects)
	w.box.Objects = objects
	w.box.Refresh()
	w.scroll.Refresh() // it makes room for them
}

// line is the widget of a line: the one that said the same before, if there was one.
func (w *wrongs) line(line view.Wrong, word string, old []fyne.CanvasObject) fyne.CanvasObject {
	if word == "" {
		if i := slices.IndexFunc(old, func(o fyne.CanvasObject) bool { s, ok := o.(*draw.Said); return ok && s.Text() == line.Text }); i >= 0 {
			return old[i]
		}
		return draw.NewSaid(line.Text)
	}
	var lead *draw.Lead
	if i := slices.IndexFunc(old, func(o fyne.CanvasObject) bool { l, ok := o.(*draw.Lead); return ok && l.Data().Text == line.Text }); i >= 0 {
		lead = old[i].(*draw.Lead)
	} else {
		lead = draw.NewLead(nil)
	}
	lead.OnPress = func() { w.press(lead, line.Hits) }
	lead.Set(draw.LeadData{Text: line.Text, Word: word})
	return lead
}

// handOn gives the keyboard, where a line has it that goes, to the one that comes to its place.
func (w *wrongs) handOn(old, objects []fyne.CanvasObject) {
	i := slices.IndexFunc(old, func(o fyne.CanvasObject) bool { l, ok := o.(*draw.Lead); return ok && l.Focused() })
	if i < 0 || slices.Contains(objects, old[i]) {
		return
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(w.scroll)
	if c == nil {
		return
	}
	c.Unfocus()
	if i < len(objects) {
		if next, ok := objects[i].(*draw.Lead); ok {
			c.Focus(next)
		}
	}
}

// press goes where a line leads, or asks where to. The line stays under the pointer as far as the list can be scrolled, though others
// come in before it: a second press leads further.
func (w *wrongs) press(lead *draw.Lead, hits []view.Hit) {
	if len(hits) > 1 {
		w.ask(lead, hits)
		return
	}
	seen := lead.Position().Y - w.scroll.Offset.Y
	w.follow(hits[0])
	w.scroll.ScrollToOffset(fyne.NewPos(0, max(0, lead.Position().Y-seen)))
}

// ask lists where a line can lead.
func (w *wrongs) ask(lead *draw.Lead, hits []view.Hit) {
	c := fyne.CurrentApp().Driver().CanvasForObject(lead)
	if c == nil {
		return
	}
	var items []*fyne.MenuItem
	for _, h := range hits {
		items = append(items, fyne.NewMenuItem(h.Title, func() { w.follow(h) }))
	}
	widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), c, fyne.NewPos(theme.InnerPadding(), lead.Size().Height), lead)
}

// choose selects a scene on the board, as a press there does, and brings it into sight.
func (d *Day) choose(id plan.ID) {
	d.hand.also = nil
	d.selectScene(id)
	at, size, ok := d.board.Where(string(id))
	if !ok && d.hand.near != d.hand.far {
		d.hand.zoom(0, 0.5)
		at, size, ok = d.board.Where(string(id))
	}
	if !ok {
		return
	}
	top, room := d.board.Position().Y+at.Y, d.rows.Size().Height
	if from := d.rows.Offset.Y; top < from || top+size.Height > from+room {
		d.rows.ScrollToOffset(fyne.NewPos(0, max(0, min(top-(room-size.Height)/2, d.rows.Content.Size().Height-room))))
	}
}

// follow goes to what a line is about: a scene is selected first, and opened when it is already.
func (d *Day) follow(h view.Hit) {
	switch {
	case h.Kind == view.SceneHit && h.ID != d.selected:
		d.choose(h.ID)
	case h.Kind == view.RuleHit:
		d.openRule(h.ID)
	default:
		d.open(h)
	}
}

// openRule opens the rules of the day, at the one asked for if it is far down.
func (d *Day) openRule(path plan.ID) {
	d.side.Show()
	d.object.Refresh()
	e, ok := d.ruleAt[path]
	if !ok {
		d.side.ScrollToTop()
		return
	}
	driver, room := fyne.CurrentApp().Driver(), d.side.Size().Height
	down := driver.AbsolutePositionForObject(e).Y - driver.AbsolutePositionForObject(d.side.Content).Y
	d.side.ScrollToOffset(fyne.NewPos(0, max(0, min(down-room/2, d.side.Content.Size().Height-room))))
	if c := driver.CanvasForObject(e); c != nil {
		c.Focus(e)
	}
}
