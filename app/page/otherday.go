package page

import (
	"slices"
	"time"

	"eavelight/app/draw"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// carried tells what would come of blocks that a hand carries above the board: over the button of another day they go there.
func (h *hand) carried(g draw.Grab) {
	n := h.dayAt(g.Out)
	h.mark(n)
	h.arranged, h.moved, h.grab, h.cannot = nil, nil, g, ""
	h.day.board.Set(boardData(h.day.state, h.day.axis(), h.day.selected, h.also))
	if n < 0 {
		h.write()
		return
	}
	m := view.MoveToDay(h.day.state, planIDs(g.IDs), h.day.state.Results.Shoot.Days[n])
	h.moved, h.movedTo = &m, n
	importance := widget.MediumImportance
	if m.Cannot != "" {
		importance = widget.WarningImportance
	}
	h.say(view.MovedLine(h.day.state, m, planIDs(g.IDs)), importance)
}

// dayAt is the day whose button lies at a point of the board's measure, or -1; it is not the one shown.
func (h *hand) dayAt(p fyne.Position) int {
	driver := fyne.CurrentApp().Driver()
	at := driver.AbsolutePositionForObject(h.day.board).Add(p)
	for i, o := range h.day.days.Objects {
		from := driver.AbsolutePositionForObject(o)
		within := at.X >= from.X && at.Y >= from.Y && at.X < from.X+o.Size().Width && at.Y < from.Y+o.Size().Height
		if within && o.Visible() && h.day.days.Visible() && i != h.shown() {
			return i
		}
	}
	return -1
}

// shown is the place of the day shown among those of the shoot.
func (h *hand) shown() int {
	return slices.IndexFunc(h.day.state.Results.Shoot.Days, func(d day.Day) bool { return d.Sky == h.day.state.Results.Chosen.Sky })
}

// mark lights up the button of the day that would take what a hand carries; -1: none.
func (h *hand) mark(n int) {
	h.day.showDays()
	if n >= 0 {
		b := h.day.days.Objects[n].(*widget.Button)
		b.Importance = widget.HighImportance
		b.Refresh()
	}
}

// toDay takes the selected scenes to the day before or after the one shown, by a key.
func (h *hand) toDay(by int) {
	n, ids := h.shown()+by, h.chosen()
	if days := h.day.state.Results.Shoot.Days; len(days) < 2 || n < 0 || n >= len(days) || len(ids) == 0 {
		return
	}
	m := view.MoveToDay(h.day.state, ids, h.day.state.Results.Shoot.Days[n])
	h.moved, h.movedTo = &m, n
	h.settle()
}

// settle makes what a hand carried to another day an edit, and shows that day.
func (h *hand) settle() {
	m, n := h.moved, h.movedTo
	h.moved, h.arranged = nil, nil
	h.mark(-1)
	switch {
	case m == nil:
		h.day.show()
		return
	case m.Cannot != "":
		h.cannot = m.Cannot
		h.day.show()
		return
	}
	to := m.Plan
	if wrong := h.day.asker.EditDay(m.Name, "", func(p *plan.Plan) { *p = to.Clone() }, m.Days...); len(wrong) > 0 {
		h.cannot = tongue.Of(wrong[0])
		h.day.show()
		return
	}
	h.day.asker.ShowDay(n)
}

// slideStep is how far the day is looked along in each step while a hand holds a scene beyond the end of what is shown.
const slideStep, slideEvery = 0.02, 50 * time.Millisecond

// reached looks along the day while a hand that holds scenes is beyond an end of what is shown.
func (h *hand) reached(by int) {
	if h.sliding != nil {
		h.sliding.Stop()
		h.sliding = nil
	}
	if by == 0 || h.near == h.far {
		return
	}
	var last time.Time
	h.sliding = fyne.NewAnimation(time.Hour, func(float32) {
		if now := time.Now(); now.Sub(last) >= slideEvery {
			last = now
			h.slide(float64(by) * slideStep)
		}
	})
	h.sliding.Start()
}

// slide looks along the day by a share of what is shown; what a hand holds comes along.
func (h *hand) slide(by float64) {
	d := h.day
	axis := d.axis()
	span := axis.To.Sub(axis.From)
	h.window(axis.From.Add(time.Duration(by*float64(span))), span)
	axis = d.axis()
	d.sky.Set(skyData(d.state, d.state.Results.Chosen, axis))
	d.faces.Set(faceData(d.state.Plan, d.state.Results.Chosen, axis))
	d.board.Look(axis)
}
