package page

import (
	"slices"
	"strings"
	"time"

	"eavelight/app/draw"
	"eavelight/app/look"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// hand is the part of the Day page that bends the day: it tells the view what a hand does on the board, shows the day as it
// would be, and makes it an edit when the hand lets go.
type hand struct {
	day       *Day
	also      []plan.ID      // selected beside the one that is told of
	arranged  *view.Arranged // while a hand holds something
	grab      draw.Grab
	cannot    string        // why the last thing that was tried can't be
	near, far time.Duration // from the sky's start to the ends of what is shown; equal: all of it
	keys      bool          // the board has the keyboard
	moved     *view.MovedTo // while a hand carries scenes over another day's button
	movedTo   int           // that day
	sliding   *fyne.Animation
	modifiers func() fyne.KeyModifier

	line   *widget.Label
	take   *widget.Button
	leave  *widget.Button
	letGo  *widget.Button
	row    fyne.CanvasObject
	cursor *cursor
}

func newHand(d *Day) *hand {
	h := &hand{day: d, line: widget.NewLabel(view.HandRule()), modifiers: heldKeys}
	h.line.Wrapping = fyne.TextWrapWord
	h.take = widget.NewButtonWithIcon(tongue.Say("Take it"), theme.ConfirmIcon(), func() { d.asker.TakeOffer(tongue.Say("take the offer")) })
	h.leave = widget.NewButton(tongue.Say("offer|Leave it"), d.asker.LeaveOffer)
	h.letGo = widget.NewButton(tongue.Say("Let them move"), func() { d.edit(tongue.Say("let the scenes move"), "", (*plan.Plan).LetGo) })
	h.row = container.NewBorder(nil, nil, nil, container.NewHBox(h.take, h.leave, h.letGo), h.line)
	h.cursor = newCursor()
	b := d.board
	b.OnAlso = func(ids []string) { h.also = planIDs(ids) }
	b.OnGrab, b.OnDrop, b.OnCancel, b.OnNudge = h.grabbed, h.dropped, h.cancelled, h.nudged
	b.OnPin = func() {
		name, edit := view.PinScenes(d.state, h.chosen())
		d.edit(name, "", edit)
	}
	b.OnFocus = func(on bool) {
		h.keys = on
		h.write()
	}
	b.OnZoom = func(in int) { h.zoom(in, 0.5) }
	b.OnDay, b.OnReach = h.toDay, h.reached
	b.OnPan = func(by int) { h.pan(float64(by) / 2) }
	d.sky.OnPoint, d.faces.OnPoint, d.board.OnPoint, d.people.OnPoint = h.pointed, h.pointed, h.pointed, h.pointed
	return h
}

// heldKeys are the keys held with the mouse, where the driver knows them.
func heldKeys() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

func planIDs(ids []string) (out []plan.ID) {
	for _, id := range ids {
		out = append(out, plan.ID(id))
	}
	return out
}

func (h *hand) chosen() []plan.ID {
	if h.day.selected == "" {
		return nil
	}
	return append([]plan.ID{h.day.selected}, h.also...)
}

// show writes the line, and offers what there is. While a hand holds something, the day is shown as it would be.
func (h *hand) show() {
	st := h.day.state
	h.also = slices.DeleteFunc(h.also, func(id plan.ID) bool { _, ok := st.Plan.Scene(id); return !ok })
	if h.arranged != nil {
		h.grabbed(h.grab)
	}
	h.write()
}

// write shows the line that matters most now.
func (h *hand) write() {
	st := h.day.state
	if h.moved != nil { // it says what would come of that
		return
	}
	offer, held := view.OfferLine(st), view.HeldLine(st)
	busy := h.arranged != nil || h.cannot != ""
	before := h.row.MinSize()
	setVisible(h.take, !busy && offer != "")
	setVisible(h.leave, !busy && offer != "")
	setVisible(h.letGo, !busy && offer == "" && held != "" && !st.Results.Busy)
	if h.row.MinSize() != before {
		h.row.Refresh()
	}
	switch {
	case h.cannot != "":
		h.say(h.cannot, widget.WarningImportance)
	case h.arranged != nil:
		h.say(view.HandLine(st, h.arranged.State), widget.MediumImportance)
	case offer != "":
		h.say(offer, widget.MediumImportance)
	case held != "":
		h.say(held, widget.MediumImportance)
	case h.keys:
		h.say(view.KeyRule(), widget.LowImportance)
	default:
		h.say(view.HandRule(), widget.LowImportance)
	}
}

func (h *hand) say(text string, importance widget.Importance) {
	if h.line.Text != text || h.line.Importance != importance {
		h.line.Importance = importance
		h.line.SetText(text)
	}
}

// arrange is what a grab asks for.
func (h *hand) arrange(g draw.Grab) view.Arrange {
	a := view.Arrange{Scenes: planIDs(g.IDs)}
	minutes := plan.Minutes(g.By / time.Minute)
	switch g.Part {
	case draw.SetUpEdge:
		a.SetUp = -minutes
	case draw.EndEdge:
		a.Shoot = minutes
	default:
		a.Move = g.By
	}
	if spaces := h.day.state.Plan.Property.Spaces; g.Part == draw.Whole && g.Row >= 0 {
		id := plan.ID("")
		if g.Row < len(spaces) {
			id = spaces[g.Row].ID
		}
		a.Space = &id
	}
	return a
}

// grabbed shows the day as it would be.
func (h *hand) grabbed(g draw.Grab) {
	d := h.day
	if d.state.Results.Chosen.Sky == nil {
		return
	}
	if !g.Out.IsZero() {
		h.carried(g)
		return
	}
	if h.moved != nil {
		h.moved = nil
		h.mark(-1)
	}
	arranged := view.ArrangeDay(d.state, h.arrange(g))
	h.arranged, h.grab, h.cannot = &arranged, g, arranged.Cannot
	shown, axis := arranged.State, d.axis()
	data := boardData(shown, axis, d.selected, h.also)
	lift(&data, g, arranged.Cannot != "")
	if arranged.Cannot == "" {
		at, _ := shown.Results.Chosen.Placed(plan.ID(g.IDs[0]))
		data.Tag = draw.Mark{At: at.Start, Label: view.HandTag(shown, plan.ID(g.IDs[0]))}
	}
	d.board.Set(data)
	d.people.Set(peopleData(shown.Plan, shown.Results.Chosen, axis))
	d.loss.Set(lossData(shown))
	h.write()
}

// lift marks the blocks that a hand holds. Where they can't be, they are shown there all the same, among the others as they
// were.
func lift(data *draw.BoardData, g draw.Grab, cannot bool) {
	for i := range data.Blocks {
		b := &data.Blocks[i]
		if b.Lifted = slices.Contains(g.IDs, b.ID); !b.Lifted || !cannot {
			continue
		}
		b.Problem = true
		switch g.Part {
		case draw.SetUpEdge:
			b.SetUp = b.SetUp.Add(g.By)
		case draw.EndEdge:
			b.End = b.End.Add(g.By)
		default:
			b.SetUp, b.Start, b.End = b.SetUp.Add(g.By), b.Start.Add(g.By), b.End.Add(g.By)
			if g.Row >= 0 {
				b.Row = g.Row
			}
		}
	}
}

// dropped makes what the hand did an edit.
func (h *hand) dropped(g draw.Grab) {
	h.grabbed(g)
	if !g.Out.IsZero() {
		h.settle()
		return
	}
	h.done(g, "")
}

// nudged is a step by a key. Steps that follow each other quickly are one edit.
func (h *hand) nudged(g draw.Grab) {
	d := h.day
	row := -1
	if sc, ok := d.state.Plan.Scene(plan.ID(g.IDs[0])); ok && g.Row != 0 && len(g.IDs) == 1 {
		was := slices.IndexFunc(d.state.Plan.Property.Spaces, func(s plan.Space) bool { return s.ID == sc.Space })
		if row = was + g.Row; was < 0 || row < 0 || row >= len(d.state.Plan.Property.Spaces) {
			return
		}
	}
	g.Row = row
	h.grabbed(g)
	h.done(g, "nudge "+strings.Join(g.IDs, " "))
}

func (h *hand) done(g draw.Grab, key string) {
	a := h.arranged
	h.arranged = nil
	if a == nil || a.Cannot != "" {
		h.day.show()
		return
	}
	to, shown := a.Plan, a.Results.Chosen
	wrong := h.day.asker.EditDay(a.Name, key, func(p *plan.Plan) { *p = to.Clone() }, shown)
	if len(wrong) > 0 {
		h.cannot = tongue.Of(wrong[0])
		h.day.show()
	}
}

// cancelled puts back what the hand took.
func (h *hand) cancelled() {
	h.arranged, h.moved, h.cannot = nil, nil, ""
	h.mark(-1)
	h.day.show()
}

// pointed draws the line through the rows, and tells of the light there.
func (h *hand) pointed(x float32) {
	d := h.day
	axis, width := d.axis(), d.board.Size().Width
	if x < axis.Left || x > width-axis.Right || d.state.Results.Chosen.Sky == nil {
		h.cursor.object.Hide()
		return
	}
	top, foot := d.sky.Position().Y, d.people.Position().Y+d.people.Size().Height
	h.cursor.show(view.PointLine(d.state, axis.Time(x, width)), x, top, foot, width-axis.Right)
}

// cursor is a line through the rows of the day, with words beside its head.
type cursor struct {
	line, ground *canvas.Rectangle
	words        *canvas.Text
	object       *fyne.Container
}

func newCursor() *cursor {
	c := &cursor{line: canvas.NewRectangle(nil), ground: canvas.NewRectangle(nil), words: canvas.NewText("", nil)}
	c.object = container.NewWithoutLayout(c.line, c.ground, c.words)
	c.object.Hide()
	return c
}

// show puts the line at an x, from a top to a foot, and the words at its right, or at its left where they would go beyond the
// end.
func (c *cursor) show(words string, x, top, foot, end float32) {
	colors, pad := look.Of(theme.Current()), theme.Padding()
	c.line.FillColor, c.ground.FillColor = colors.Accent, colors.Casing
	c.words.Text, c.words.Color, c.words.TextSize = words, colors.Curve, theme.CaptionTextSize()
	size := c.words.MinSize()
	at := x + 2*pad
	if at+size.Width+pad > end {
		at = x - 2*pad - size.Width
	}
	y := top + size.Height + 2*pad // under the names of the golden and blue hours
	c.line.Resize(fyne.NewSize(1, foot-top))
	c.line.Move(fyne.NewPos(x, top))
	c.ground.Resize(fyne.NewSize(size.Width+2*pad, size.Height))
	c.ground.Move(fyne.NewPos(at-pad, y))
	c.words.Resize(size)
	c.words.Move(fyne.NewPos(at, y))
	c.object.Show()
	c.object.Refresh()
}

// wheeled zooms with Control and goes along the time sideways; what else the wheel does is not its own.
func (h *hand) wheeled(e *fyne.ScrollEvent) bool {
	axis, width := h.day.axis(), h.day.board.Size().Width
	plot := width - axis.Left - axis.Right
	switch {
	case plot <= 0:
		return false
	case h.modifiers()&fyne.KeyModifierControl != 0 && e.Scrolled.DY != 0:
		in := 1
		if e.Scrolled.DY < 0 {
			in = -1
		}
		h.zoom(in, float64(max(0, min(1, (e.Position.X-axis.Left)/plot))))
	case h.near != h.far && e.Scrolled.DX != 0:
		h.pan(float64(-e.Scrolled.DX / plot))
	default:
		return false
	}
	return true
}

// wheelScroll scrolls its content up and down where the wheel is not for something else. (The rows themselves take no wheel:
// what does is a clip of its own to Fyne's painters, and would be drawn beyond the scroll.)
type wheelScroll struct {
	container.Scroll
	wheel func(e *fyne.ScrollEvent) (done bool)
}

func newWheelScroll(content fyne.CanvasObject, wheel func(e *fyne.ScrollEvent) bool) *wheelScroll {
	s := &wheelScroll{wheel: wheel}
	s.Direction, s.Content = container.ScrollVerticalOnly, content
	s.ExtendBaseWidget(s)
	return s
}

// Scrolled is Fyne's.
func (s *wheelScroll) Scrolled(e *fyne.ScrollEvent) {
	if !s.wheel(e) {
		s.Scroll.Scrolled(e)
	}
}

// zoomStep is how much closer a step looks, and closest is the closest look.
const (
	zoomStep = 1.5
	closest  = time.Hour
)

// zoom looks closer (1) or wider (-1) and keeps the moment at a share of what is shown where it is; 0 shows all.
func (h *hand) zoom(in int, at float64) {
	if h.day.state.Results.Chosen.Sky == nil || h.arranged != nil {
		return
	}
	axis := h.day.axis()
	span := axis.To.Sub(axis.From)
	still := axis.From.Add(time.Duration(at * float64(span)))
	next := map[int]time.Duration{1: time.Duration(float64(span) / zoomStep), -1: time.Duration(float64(span) * zoomStep)}[in]
	if in > 0 {
		next = max(next, min(span, closest))
	}
	h.look(still.Add(-time.Duration(at*float64(next))), next)
}

// pan goes along the time by a share of what is shown.
func (h *hand) pan(by float64) {
	if h.near == h.far || h.day.state.Results.Chosen.Sky == nil || h.arranged != nil {
		return
	}
	axis := h.day.axis()
	span := axis.To.Sub(axis.From)
	h.look(axis.From.Add(time.Duration(by*float64(span))), span)
}

// look shows a stretch of the day, held within it; no length, or all of it, shows all.
func (h *hand) look(from time.Time, span time.Duration) {
	h.window(from, span)
	h.day.show()
}

// window keeps a stretch of the day, held within it, as what is looked at.
func (h *hand) window(from time.Time, span time.Duration) {
	sky := h.day.state.Results.Chosen.Sky
	all := h.day.wholeAxis()
	h.near, h.far = 0, 0
	if whole := all.To.Sub(all.From); span > 0 && span < whole {
		if from.Before(all.From) {
			from = all.From
		}
		if from.Add(span).After(all.To) {
			from = all.To.Add(-span)
		}
		h.near = from.Sub(sky.Start)
		h.far = h.near + span
	}
}

// closer is the part of an axis that is looked at.
func (h *hand) closer(a draw.Axis, d day.Day) draw.Axis {
	if h.near != h.far && d.Sky != nil {
		a.From, a.To = d.Sky.Start.Add(h.near), d.Sky.Start.Add(h.far)
	}
	return a
}

// boardGrid is the grid of the board: the plan's.
func boardGrid(st session.State) time.Duration {
	return time.Duration(max(1, st.Plan.Shooting.Grid)) * time.Minute
}
