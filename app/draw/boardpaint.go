package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
)

func (w *Board) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c := look.Of(th)
	if len(w.data.Rows) > 0 {
		w.paintRows(p, c, th, size)
		w.paintShelf(p, th, size)
		w.paintLimits(p, c, th, size)
	}
	if len(w.data.Rows) == 0 || len(w.all) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
	} else {
		for _, lifted := range []bool{false, true} { // what a hand holds lies on top
			for _, i := range w.order {
				if r, ok := w.spot(i, size); ok && w.all[i].Lifted == lifted {
					w.paintBlock(p, c, w.all[i], r, size)
				}
			}
		}
		w.paintMoves(p, c, size)
		w.paintChoice(p, c, size)
	}
	if w.hand.frames() {
		r := cornered(w.hand.from, w.hand.to)
		p.ring(r.x, r.y, r.w, r.h, c.Accent, 1.5, 2)
	}
	if w.focused {
		p.ring(0, 0, size.Width, size.Height, c.Accent, 2, th.Size(theme.SizeNameInputRadius))
	}
}

// paintRows draws the lanes, the light windows of the selected block behind its lane, and the meals across all lanes.
func (w *Board) paintRows(p *pieces, c *look.Palette, th fyne.Theme, size fyne.Size) {
	g, a := w.grid(size), w.data.Axis
	for i, name := range w.data.Rows {
		y := g.top + float32(i)*g.row
		paintRow(p, th, a, name, "", y, g.row, size.Width)
	}
	height := g.row * float32(len(w.data.Rows))
	a.drawHours(p, c, size.Width, g.top, height)
	for _, m := range w.data.Meals {
		if x0, x1, ok := a.shown(m, size.Width); ok {
			p.rect(x0, g.top, x1-x0, height, c.Meal.Area)
			p.rect(x0, g.top, 1, height, c.Meal.Edge)
			p.rect(x1-1, g.top, 1, height, c.Meal.Edge)
		}
	}
	if i := w.selected(); i >= 0 {
		b := w.all[w.order[i]]
		for _, s := range b.Windows {
			if x0, x1, ok := a.shown(s, size.Width); ok && b.Row >= 0 && b.Row < len(w.data.Rows) {
				p.box(x0, g.top+float32(b.Row)*g.row, x1-x0, g.row, c.Light.Area, c.Light.Edge, 1.5, 0)
			}
		}
	}
}

// paintShelf draws the lane of those that found no place.
func (w *Board) paintShelf(p *pieces, th fyne.Theme, size fyne.Size) {
	if len(w.data.Shelf) > 0 {
		g := w.grid(size)
		paintRow(p, th, w.data.Axis, w.data.ShelfName, "", g.top+float32(len(w.data.Rows))*g.row, g.row, size.Width)
	}
}

// paintLimits draws call and wrap as lines, and writes their words and the meals' above the rows.
func (w *Board) paintLimits(p *pieces, c *look.Palette, th fyne.Theme, size fyne.Size) {
	g, a, f := w.grid(size), w.data.Axis, small(th)
	var labels []label
	var words []string
	add := func(x float32, word string, rank int) {
		labels = append(labels, label{mid: x, width: f.measure(word).Width, rank: rank})
		words = append(words, word)
	}
	if m := w.data.Tag; m.Label != "" {
		x := a.clampX(m.At, size.Width)
		p.rect(x-0.75, g.top-3, 1.5, g.row*float32(len(w.data.Rows))+3, c.Accent)
		add(x, m.Label, -1)
	}
	for _, m := range w.data.Limits {
		if m.At.Before(a.From) || m.At.After(a.To) {
			continue
		}
		x := a.X(m.At, size.Width)
		p.rect(x-1, g.top-3, 2, g.row*float32(len(w.data.Rows))+3, c.Limit)
		add(x, m.Label, 0)
	}
	for _, m := range w.data.Meals {
		if x0, x1, ok := a.shown(m, size.Width); ok {
			add((x0+x1)/2, m.Label, 1)
		}
	}
	x, placed := spread(labels, a.Left-f.size, size.Width, f.size/2)
	for i, word := range words {
		if placed[i] {
			p.text(word, x[i], 0, labels[i].width+1, f, c.Ink)
		}
	}
}

// paintBlock draws a block: set-up pale, shooting full, a left edge by importance, two lines of text, the light kept.
func (w *Board) paintBlock(p *pieces, c *look.Palette, b Block, r rect, size fyne.Size) {
	const radius = 3
	colors := tone(c, b.Importance)
	start := max(r.x, min(r.x+r.w, w.data.Axis.X(b.Start, size.Width)))
	p.box(r.x, r.y, r.w, r.h, colors.Area, colors.Edge, 1, radius)
	if setup := min(start, r.x+r.w-1) - r.x - 1; setup > 0 { // within the edge, with square corners: round ones are dear to paint
		p.rect(r.x+1, r.y+1.5, setup, r.h-3, colors.Soft)
	}
	if b.Lifted {
		ring := c.Accent
		if b.Problem {
			ring = c.Bad
		}
		p.ring(r.x-1.5, r.y-1.5, r.w+3, r.h+3, ring, 2.5, 4)
	}
	edge := float32(b.Importance) * 2.5
	if edge > 0 {
		p.rect(r.x, r.y+1, min(edge, r.w), r.h-2, colors.Edge)
	}
	if start > r.x+edge+2 { // where shooting begins, under the text
		p.rect(start, r.y+r.h-7, 1, 6, colors.Edge)
	}
	pad := max(1, min(4, (r.w-edge-w.signed(b, r.w-edge-2))/2)) // a narrow block keeps its number and its signs rather than its margins
	in := rect{r.x + edge + pad, r.y + 1, r.w - edge - 2*pad, r.h - 2}
	if from := max(in.x, start+3); b.Kept >= 0 && from < in.x+in.w {
		paintBar(p, from, in.y+in.h-6, in.x+in.w-from, 4, b.Kept, colors.Edge)
	}
	if small(w.Theme()).measure(b.Number).Width > in.w {
		w.paintBeside(p, c, b, r, size)
		return
	}
	w.paintWords(p, c, b, in)
	if b.Pinned && !w.pinFits(b, in) {
		paintPin(p, r.x+r.w+2, r.y+3, true, c)
	}
}

// The room that a block's signs take beside its number.
const pinRoom, markGap = 10, 3

func (w *Board) markRoom() float32 { return small(w.Theme()).bold().measure("!").Width + markGap }

// signed is how wide a block's number is with those of its signs that find room beside it.
func (w *Board) signed(b Block, room float32) float32 {
	wide := small(w.Theme()).measure(b.Number).Width
	if mark := w.markRoom(); b.Problem && wide+mark <= room {
		wide += mark
	}
	if (b.Pinned || b.Held) && wide+pinRoom <= room {
		wide += pinRoom
	}
	return wide
}

// pinFits tells whether a block's pin has room beside its number; a pin by hand stands beside the block else.
func (w *Board) pinFits(b Block, in rect) bool {
	need := small(w.Theme()).measure(b.Number).Width + pinRoom
	if mark := w.markRoom(); b.Problem && need-pinRoom+mark <= in.w {
		need += mark
	}
	return need <= in.w
}

// paintWords writes a block's number and title, its note under them, its mark and its pin. What does not fit goes in this
// order: the title's end, the title, the pin, the note's words, the note. A mark without room beside the number takes the
// note's line.
func (w *Board) paintWords(p *pieces, c *look.Palette, b Block, in rect) {
	f := small(w.Theme())
	x, room, below := in.x, in.w, in.x
	number, mark := f.measure(b.Number).Width, w.markRoom()
	switch {
	case b.Problem && mark+number <= room:
		p.text("!", x, in.y, mark, f.bold(), c.Bad)
		x, room = x+mark, room-mark
	case b.Problem && in.h >= 2*f.height():
		p.text("!", x, in.y+f.height(), mark, f.bold(), c.Bad)
		below += mark
	}
	if (b.Pinned || b.Held) && w.pinFits(b, in) {
		paintPin(p, in.x+in.w-7, in.y+3, b.Pinned, c)
		room -= pinRoom
	}
	title := f.fit(b.Number+" "+b.Title, room)
	if len(title) < len(b.Number)+len(" xxxx…") && title != b.Number+" "+b.Title { // two letters of a title help nobody
		title = b.Number
	}
	p.text(title, x, in.y, room, f, c.Ink)
	if in.h < 2*f.height()+8 { // a low row: the bar tells what the note would
		return
	}
	note := b.Note
	if f.measure(note).Width > in.x+in.w-below && b.Kept >= 0 {
		note = percent(b.Kept)
	}
	if f.measure(note).Width <= in.x+in.w-below {
		p.text(note, below, in.y+f.height(), in.w, f, c.Ink)
	}
}

// paintBeside writes the number of a block too narrow for it on the lane to its right, if no other block is there.
func (w *Board) paintBeside(p *pieces, c *look.Palette, b Block, r rect, size fyne.Size) {
	f := small(w.Theme())
	need := f.measure(b.Number).Width
	x := r.x + r.w + 2
	for _, other := range w.data.Blocks {
		if other.Row != b.Row {
			continue
		}
		if o, ok := w.place(other, size); ok && o.x < x+need && x < o.x+o.w {
			return
		}
	}
	p.text(b.Number, x, r.y+(r.h-f.height())/2, need, f, c.Ink)
}

// paintPin draws a pin: a head on a needle; the head of one that only holds is empty.
func paintPin(p *pieces, x, y float32, full bool, c *look.Palette) {
	if full {
		p.rect(x, y, 7, 7, c.Ink).CornerRadius = 3.5
	} else {
		p.ring(x, y, 7, 7, c.Ink, 1.25, 3.5)
	}
	p.rect(x+3, y+7, 1.5, 5, c.Ink)
}

// paintMoves draws the kit's way from row to row, with a dot where it arrives, and a thin line while it waits there for the
// next scene.
func (w *Board) paintMoves(p *pieces, c *look.Palette, size fyne.Size) {
	g, a, rows := w.grid(size), w.data.Axis, len(w.data.Rows)
	middle := func(row int) float32 { return g.top + (float32(row)+0.5)*g.row }
	for _, m := range w.data.Moves {
		if min(m.FromRow, m.ToRow) < 0 || max(m.FromRow, m.ToRow) >= rows || m.To.Before(a.From) || m.From.After(a.To) {
			continue
		}
		x0, x1 := a.clampX(m.From, size.Width), a.clampX(m.To, size.Width)
		p.line(x0, middle(m.FromRow), x1, middle(m.ToRow), 1.5, c.Moving)
		p.rect(x1-2.5, middle(m.ToRow)-2.5, 5, 5, c.Moving).CornerRadius = 2.5
		if next, ok := w.nextOn(m.ToRow, m.To); ok {
			p.rect(x1, middle(m.ToRow)-0.5, max(0, a.clampX(next, size.Width)-x1), 1, c.Moving)
		}
	}
}

// nextOn is when the first scene on a row after a moment is set up.
func (w *Board) nextOn(row int, after time.Time) (at time.Time, ok bool) {
	for _, b := range w.data.Blocks {
		if b.Row == row && !b.SetUp.Before(after) && (!ok || b.SetUp.Before(at)) {
			at, ok = b.SetUp, true
		}
	}
	return at, ok
}

// paintChoice draws a ring around the selected blocks.
func (w *Board) paintChoice(p *pieces, c *look.Palette, size fyne.Size) {
	for _, id := range w.chosen() {
		r, ok := rect{}, false
		if i := w.index(id); i >= 0 {
			r, ok = w.spot(i, size)
		}
		if !ok {
			continue
		}
		edge := c.Ink
		if w.focused {
			edge = c.Accent
		}
		p.ring(r.x-1, r.y-1, r.w+2, r.h+2, edge, 2.5, 4)
	}
}
