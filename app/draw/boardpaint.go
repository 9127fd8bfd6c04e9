package draw

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"eavelight/app/look"
)

func (w *Board) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c := look.Of(th)
	if len(w.data.Rows) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
	} else {
		w.paintRows(p, c, th, size)
		w.paintLimits(p, c, th, size)
		for _, i := range w.order {
			if r, ok := w.place(w.data.Blocks[i], size); ok {
				w.paintBlock(p, c, w.data.Blocks[i], r, size.Width)
			}
		}
		w.paintMoves(p, c, size)
		w.paintChoice(p, c, size)
	}
	if w.focused {
		p.ring(0, 0, size.Width, size.Height, c.Accent, 2, th.Size(theme.SizeNameInputRadius))
	}
}

// paintRows draws the lanes, the light windows of the selected block behind its lane, and the meals across all lanes.
func (w *Board) paintRows(p *pieces, c *look.Palette, th fyne.Theme, size fyne.Size) {
	g, a, f := w.grid(size), w.data.Axis, plain(th)
	for i, name := range w.data.Rows {
		y := g.top + float32(i)*g.row
		p.text(name, 4, y+(g.row-f.height())/2, a.Left-2*th.Size(theme.SizeNamePadding)-4, f, c.Ink)
		p.rect(a.Left, y+1, a.plot(size.Width), g.row-2, c.Lane)
	}
	height := g.row * float32(len(w.data.Rows))
	for _, m := range w.data.Meals {
		if x0, x1, ok := a.shown(m, size.Width); ok {
			p.rect(x0, g.top, x1-x0, height, c.Meal.Area)
			p.rect(x0, g.top, 1, height, c.Meal.Edge)
			p.rect(x1-1, g.top, 1, height, c.Meal.Edge)
		}
	}
	a.drawHours(p, c, size.Width, g.top, height)
	if i := w.selected(); i >= 0 {
		b := w.data.Blocks[w.order[i]]
		for _, s := range b.Windows {
			if x0, x1, ok := a.shown(s, size.Width); ok && b.Row >= 0 && b.Row < len(w.data.Rows) {
				p.box(x0, g.top+float32(b.Row)*g.row, x1-x0, g.row, c.Light.Area, c.Light.Edge, 1, 0)
			}
		}
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
func (w *Board) paintBlock(p *pieces, c *look.Palette, b Block, r rect, width float32) {
	const radius, pad = 3, 4
	colors := fill(c, b.Importance)
	start := max(r.x, min(r.x+r.w, w.data.Axis.X(b.Start, width)))
	p.box(r.x, r.y, r.w, r.h, colors.Soft, colors.Edge, 1, radius)
	if start < r.x+r.w {
		p.box(start, r.y, r.x+r.w-start, r.h, colors.Area, colors.Edge, 1, radius)
	}
	edge := float32(b.Importance) * 2.5
	p.rect(r.x, r.y+1, min(edge, r.w), r.h-2, colors.Edge)
	in := rect{r.x + edge + pad, r.y + 1, r.w - edge - 2*pad, r.h - 2}
	if r.w < 30 { // a narrow block keeps its number rather than its margins
		in.x, in.w = r.x+edge+1, r.w-edge-2
	}
	if b.Kept >= 0 {
		paintBar(p, in.x, in.y+in.h-6, in.w, 4, b.Kept, colors.Edge)
	}
	w.paintWords(p, c, b, in)
}

// paintWords writes a block's number and title, its note under them, and its pin. What does not fit goes in this order: the
// title's end, the title, the note's words, the percentage, the pin.
func (w *Board) paintWords(p *pieces, c *look.Palette, b Block, in rect) {
	const pin = 10
	f := small(w.Theme())
	x, room := in.x, in.w
	if number := f.measure(b.Number).Width; b.Pinned && room >= number+pin {
		paintPin(p, in.x+in.w-7, in.y+3, c)
		room -= pin
	}
	if b.Problem {
		mark := p.text("!", x, in.y, room, f.bold(), c.Bad) + 2
		x, room = x+mark, room-mark
	}
	title := f.fit(b.Number+" "+b.Title, room)
	if len(title) < len(b.Number)+len(" x…") {
		title = f.fit(b.Number, room)
	}
	p.text(title, x, in.y, room, f, c.Ink)
	note := b.Note
	if f.measure(note).Width > in.w && b.Kept >= 0 {
		note = percent(b.Kept)
	}
	if f.measure(note).Width <= in.w {
		p.text(note, in.x, in.y+f.height(), in.w, f, c.Ink)
	}
}

// paintPin draws a pin: a head on a needle.
func paintPin(p *pieces, x, y float32, c *look.Palette) {
	p.rect(x, y, 7, 7, c.Ink).CornerRadius = 3.5
	p.rect(x+3, y+7, 1.5, 5, c.Ink)
}

// paintMoves draws the kit's way from row to row, with a dot where it arrives.
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
	}
}

// paintChoice draws a ring around the selected block.
func (w *Board) paintChoice(p *pieces, c *look.Palette, size fyne.Size) {
	i := w.selected()
	if i < 0 {
		return
	}
	if r, ok := w.place(w.data.Blocks[w.order[i]], size); ok {
		edge := c.Ink
		if w.focused {
			edge = c.Accent
		}
		p.ring(r.x-2, r.y-2, r.w+4, r.h+4, edge, 2.5, 4)
	}
}
