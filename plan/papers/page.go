package papers

import (
	"fmt"
	"time"

	"eavelight/plan"
)

// layout is a sheet laid out on pages.
type layout struct {
	Sheet
	made       time.Time
	wide, tall float64 // of a page, in millimetres
	pages      [][]laid
}

// lay lays the sheet out. made is the moment it says it was made.
func (s Sheet) lay(size plan.PaperSize, made time.Time) layout {
	l := layout{Sheet: s, made: made, wide: 215.9, tall: 279.4} // ANSI/ASME Y14.1, size A
	if size == plan.A4 {
		l.wide, l.tall = 210, 297 // ISO 216
	}
	set := l.setter()
	l.pages = fit(set.runs(s), l.tall-marginTop-marginBottom)
	return l
}

func (l layout) setter() setter { return setter{measure: widthOf, width: l.wide - 2*marginSide} }

// draw draws one page, counted from 0.
func (l layout) draw(on surface, page int) {
	width := l.wide - 2*marginSide
	for _, r := range l.pages[page] {
		r.draw(on, width)
	}
	l.foot(on, page+1)
}

func (r laid) draw(on surface, width float64) {
	top := marginTop + r.y + r.above
	if r.fill != (tint{}) {
		block(on, marginSide, top, width, r.height()-r.above, r.fill)
	}
	if r.rule != (tint{}) {
		rule(on, marginSide, marginSide+width, top, r.thick, r.rule)
	}
	if r.bar {
		bar(on, top, r.height()-r.above)
	}
	if r.write > 0 {
		rule(on, marginSide+r.write, marginSide+width, marginTop+r.y+r.height()-r.below, 0.2, soft)
	}
	if r.tick {
		tickBox(on, marginSide, top+r.pad+(faceText.lead-tickSide)/2, tickSide)
	}
	if r.figure != nil {
		r.figure.draw(on, marginSide+r.left, top+r.pad, width-r.left)
	}
	for _, c := range r.cells {
		c.draw(on, top+r.pad)
	}
}

func (c cell) draw(on surface, y float64) {
	for _, l := range c.lines {
		x := marginSide + c.x
		if c.right {
			x += c.width - widthOf(l.text, l.face)
		}
		put(on, x, y, l.text, l.face)
		if l.face.bar {
			bar(on, y, l.face.lead)
		}
		y += l.face.lead
	}
}

// bar stands in the left margin beside what has changed, so that it shows in black and white.
func bar(on surface, y, tall float64) { block(on, marginSide-barOut, y, barWide, tall, ink) }

// baseline is how far the foot of the letters lies under the top of their line: the line's slack is shared evenly, and the
// type stands about four fifths of its size above its base.
func baseline(f face) float64 {
	size := f.size * millimetres
	return (f.lead-size)/2 + 0.8*size
}

// millimetres of a point, which is a 72nd of an inch.
const millimetres = 25.4 / 72

// foot prints page number, title, making time and what the times mean. A title that is too long gives way to the rest
// on a line of its own above.
func (l layout) foot(on surface, page int) {
	zone := l.Zone
	if zone == nil {
		zone = time.UTC
	}
	set := l.setter()
	number := fmt.Sprintf("page %d of %d", page, len(l.pages))
	right := widthOf(number, faceFoot)
	made := " · written\u00a0" + l.made.In(zone).Format("2006-01-02\u00a015:04")
	lines := set.wrap(l.Title+" · "+l.Foot+made, faceFoot, set.width-right-gutter)
	if len(lines) > 2 { // the title stands in full on the first page
		lines = set.wrap(l.Foot+made, faceFoot, set.width-right-gutter)
	}
	y := l.tall - footBase - float64(len(lines)-1)*faceFoot.lead
	on.text(l.wide-marginSide-right, y, line{number, faceFoot})
	for _, text := range lines {
		on.text(marginSide, y, text)
		y += faceFoot.lead
	}
}
