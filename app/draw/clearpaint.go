package draw

import (
	"image"
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/theme"
	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"eavelight/app/look"
)

func (w *Clearance) paint(p *pieces, size fyne.Size) {
	if w.blank() {
		paintEmpty(p, w.Theme(), size, w.data.Empty)
		return
	}
	b := w.lay(size)
	w.top = clampInt(w.top, 0, len(w.data.Rows)-b.rows)
	if left := clampInt(w.left, 0, w.last(b)); left != w.left {
		w.left = left
		b = w.lay(size)
	}
	w.box = b
	w.paintRows(p)
	w.paintChoice(p)
	w.paintBars(p)
	w.paintFoot(p, size)
	p.pic(0, 0, size.Width, size.Height)
}

// paintRows draws the grounds of rows and what rows are called.
func (w *Clearance) paintRows(p *pieces) {
	th := w.Theme()
	c, f, gap, b := look.Of(th), small(th), th.Size(theme.SizeNamePadding), w.box
	right := b.x + b.cell*float32(b.columns)
	name, note := w.heads(w.Size().Width)
	for i := range b.rows {
		y := b.y + float32(i)*b.cell
		if (w.top+i)%2 == 0 {
			p.rect(0, y, right, b.cell, c.Lane)
		}
		row := w.data.Rows[w.top+i]
		p.text(row.Name, gap, y+(b.cell-plain(th).height())/2, name+1, plain(th), c.Ink)
		p.textRight(row.Note, b.x-2*gap, y+(b.cell-f.height())/2, note+1, f, c.Muted)
	}
	for i := range b.columns + 1 {
		p.rect(b.x+float32(i)*b.cell-0.5, b.y, 1, b.cell*float32(b.rows), c.Rule)
	}
}

// paintChoice frames the selected cell or column, and the cell under the pointer.
func (w *Clearance) paintChoice(p *pieces) {
	c, b := look.Of(w.Theme()), w.box
	frame := func(at spot, edge color.Color, width float32) {
		row, rows := at.row-w.top, 1
		if at.row == -1 {
			row, rows = 0, b.rows
		}
		column := at.column - w.left
		if row < 0 || row >= b.rows || column < 0 || column >= b.columns {
			return
		}
		p.ring(b.x+float32(column)*b.cell-1, b.y+float32(row)*b.cell-1, b.cell+2, b.cell*float32(rows)+2, edge, width, 3)
	}
	frame(w.hover, c.Muted, 1)
	edge := c.Ink
	if w.focused {
		edge = c.Accent
	}
	frame(spot{w.data.Row, w.data.Column}, edge, 2)
}

// paintBars draws how much of the table is in sight, where that is not all.
func (w *Clearance) paintBars(p *pieces) {
	c, b := look.Of(w.Theme()), w.box
	const thin = clearBar - 2
	if all := len(w.data.Rows); b.rows < all {
		long := b.cell * float32(b.rows)
		p.box(b.beside, b.y, thin, long, c.Lane, color.Transparent, 0, thin/2)
		p.box(b.beside, b.y+long*float32(w.top)/float32(all), thin, long*float32(b.rows)/float32(all), c.Present, color.Transparent, 0, thin/2)
	}
	if all := len(w.data.Columns); b.columns < all {
		long := b.cell * float32(b.columns)
		p.box(b.x, b.below, long, thin, c.Lane, color.Transparent, 0, thin/2)
		p.box(b.x+long*float32(w.left)/float32(all), b.below, long*float32(b.columns)/float32(all), thin, c.Present, color.Transparent, 0, thin/2)
	}
}

// paintFoot writes the caption and the words of the legend.
func (w *Clearance) paintFoot(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, f, gap, b := look.Of(th), small(th), th.Size(theme.SizeNamePadding), w.box
	at := w.hover
	if at == nowhere {
		at = spot{w.data.Row, w.data.Column}
	}
	p.text(w.caption(at), gap, b.foot, size.Width-2*gap, f, c.Ink)
	for i, line := range w.legend(size.Width) {
		for _, k := range line {
			x := k.x + f.height() + gap
			p.text(w.data.Words[k.standing], x, b.foot+f.height()*float32(i+1), size.Width-x, f, c.Muted)
		}
	}
}

// drawMarks draws the picture over the whole widget: the marks, and the names of columns.
func (w *Clearance) drawMarks(p *pen) {
	th := w.Theme()
	c, f, b := look.Of(th), small(th), w.box
	w.makeStamps(p, c)
	w.slanted.begin(p.scale, f, c.Ink)
	for i := range b.columns {
		x := b.x + (float32(i)+0.5)*b.cell
		name := w.slanted.of(f.fit(w.data.Columns[w.left+i].Name, w.name()))
		at := point{x - slant45*f.height()/2, b.y - 2 - float32(len(name.rows))/p.scale}
		p.stamp(name, at)
		for j := range b.rows {
			if s := w.standing(spot{w.top + j, w.left + i}); s != NotNeeded {
				p.stamp(w.stamps[s], point{x - b.cell/2, b.y + float32(j)*b.cell})
			}
		}
	}
	for i, line := range w.legend(w.Size().Width) { // as its words are: whole pixels may be less
		for _, k := range line {
			y := b.foot + f.height()*(float32(i)+1.5) - b.cell/2
			p.stamp(w.stamps[k.standing], point{k.x + f.height()/2 - b.cell/2, y})
		}
	}
}

func (p *pen) scaleDown(pixels int) float32 { return float32(pixels) / p.scale }

// stamp is a small picture that is laid over others many times. Most of it is empty: of each row it knows the part that is not,
// which makes it many times as fast as image/draw.
type stamp struct {
	img  *image.RGBA // its corner is at zero
	rows []struct{ from, to int }
}

func newStamp(img *image.RGBA) stamp {
	s := stamp{img, make([]struct{ from, to int }, img.Rect.Dy())}
	for y := range s.rows {
		for x := range img.Rect.Dx() {
			if img.Pix[img.PixOffset(x, y)+3] == 0 {
				continue
			}
			if row := &s.rows[y]; row.to == 0 {
				row.from, row.to = x, x+1
			} else {
				row.to = x + 1
			}
		}
	}
	return s
}

// stamp lays a stamp on whole pixels, with its upper left corner at a point.
func (p *pen) stamp(s stamp, at point) {
	left, top := floor(at.x*p.scale+0.5), floor(at.y*p.scale+0.5)
	for y, row := range s.rows {
		from, to := max(row.from, -left), min(row.to, p.img.Rect.Dx()-left)
		if from >= to || top+y < 0 || top+y >= p.img.Rect.Dy() {
			continue
		}
		ink := s.img.Pix[s.img.PixOffset(from, y):][:4*(to-from)]
		onto := p.img.Pix[p.img.PixOffset(left+from, top+y):][:4*(to-from)]
		for i := 0; i < len(ink); i += 4 {
			through := 255 - uint32(ink[i+3])
			if through == 255 {
				continue
			}
			for j := i; j < i+4; j++ {
				onto[j] = ink[j] + uint8(uint32(onto[j])*through/255)
			}
		}
	}
}

// stampKey is what stamps look by.
type stampKey struct {
	cell, scale float32
	colours     *look.Palette
}

// makeStamps draws each mark once for a size and a theme: a table has thousands of them.
func (w *Clearance) makeStamps(p *pen, c *look.Palette) {
	now := stampKey{w.box.cell, p.scale, c}
	if w.stamps != nil && w.stamped == now {
		return
	}
	w.stamped, w.stamps = now, map[Standing]stamp{}
	side := int(w.box.cell*p.scale + 0.5)
	for _, s := range standings {
		img := image.NewRGBA(image.Rect(0, 0, side, side))
		mid := p.scaleDown(side) / 2
		drawStanding(&pen{img: img, scale: p.scale}, s, point{mid, mid}, 0.27*w.box.cell, tint(c, s))
		w.stamps[s] = newStamp(img)
	}
}

// drawStanding draws a mark about a point, half as wide as it is.
func drawStanding(p *pen, s Standing, at point, half float32, c color.NRGBA) {
	thick := max(1.6, half/3)
	by := func(x, y float32) point { return point{at.x + x*half, at.y + y*half} }
	ring := func() {
		hole := circle(at, half-thick)
		slices.Reverse(hole) // turning the other way
		p.fill(c, circle(at, half), hole)
	}
	switch s {
	case Signed:
		p.stroke([]point{by(-1, 0), by(-0.3, 0.75), by(1, -0.8)}, thick, c)
	case Needed:
		ring()
	case Sent:
		ring()
		p.disc(at, half*0.4, c)
	case Doubted:
		p.stroke([]point{by(0, -1.1), by(0, 0.35)}, thick*1.2, c)
		p.disc(by(0, 0.9), thick*0.75, c)
	case Lapsed:
		p.fill(c, []point{by(-0.85, -1), by(0.85, -1), at})
		p.fill(c, []point{at, by(0.85, 1), by(-0.85, 1)})
	case Declined:
		p.fill(c, outline([]point{by(-0.85, -0.85), by(0.85, 0.85)}, thick/2))
		p.fill(c, outline([]point{by(-0.85, 0.85), by(0.85, -0.85)}, thick/2))
	}
}

// slant45 is the sine and the cosine of 45 degrees.
const slant45 = 0.70710678

// slantedHeight is how high a text of a width rises at 45 degrees, and how far it goes to the right.
func slantedHeight(width float32, f font) float32 { return slant45 * (width + f.height()) }

// slantedNames are texts that rise to the right by 45 degrees, as stamps, each drawn once for a size and a colour.
type slantedNames struct {
	scale  float32
	font   font
	ink    color.NRGBA
	stamps map[string]stamp
}

// begin forgets what was drawn otherwise.
func (s *slantedNames) begin(scale float32, f font, ink color.NRGBA) {
	if s.stamps == nil || s.scale != scale || s.font != f || s.ink != ink {
		*s = slantedNames{scale, f, ink, map[string]stamp{}}
	}
}

// of draws a text level by Fyne, so that it has the letters of every script that the rest of the window has, and turns it. Twice
// the size it ends up with makes the turned letters even.
func (s *slantedNames) of(text string) stamp {
	if drawn, ok := s.stamps[text]; ok {
		return drawn
	}
	const finer = 2
	level := canvas.NewText(text, s.ink)
	level.TextSize, level.TextStyle = s.font.size, s.font.style
	size := s.font.measure(text)
	c := software.NewTransparentCanvas()
	c.SetPadded(false)
	c.SetScale(s.scale * finer)
	c.SetContent(level)
	c.Resize(size)
	src := c.Capture()
	side := int(slant45*(size.Width+size.Height)*s.scale + 1)
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	turn := float64(slant45 / finer)
	down := float64(slant45 * size.Width * s.scale)
	xdraw.BiLinear.Transform(img, f64.Aff3{turn, turn, 0, -turn, turn, down}, src, src.Bounds(), xdraw.Over, nil)
	s.stamps[text] = newStamp(img)
	return s.stamps[text]
}
