package papers

import (
	"fmt"

	"eavelight/plan"
)

// surface is what a page is drawn on: a sheet of a PDF, or a picture. Places are in millimetres from the page's top left corner.
type surface interface {
	fill(corners []point, t tint) // a polygon
	stroke(p path, thick float64, t tint)
	text(x, y float64, l line) // y is the foot of its letters
}

type point struct{ x, y float64 }

// path is a pen's way over the page.
type path struct {
	from  point
	steps []step
}

// step is a straight line to a point, or a cubic curve.
type step struct {
	to     point
	curved bool
	c1, c2 point // of a curve
}

func straight(points ...point) path {
	p := path{from: points[0]}
	for _, to := range points[1:] {
		p.steps = append(p.steps, step{to: to})
	}
	return p
}

// points are all that the path goes through or is pulled by; it runs within them.
func (p path) points() []point {
	out := []point{p.from}
	for _, s := range p.steps {
		if out = append(out, s.to); s.curved {
			out = append(out, s.c1, s.c2)
		}
	}
	return out
}

func rule(on surface, x0, x1, y, thick float64, t tint) {
	on.stroke(straight(point{x0, y}, point{x1, y}), thick, t)
}

func block(on surface, x, y, w, h float64, t tint) {
	on.fill([]point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, t)
}

// tickBox is a square to tick by hand.
func tickBox(on surface, x, y, side float64) {
	on.stroke(straight(point{x, y}, point{x + side, y}, point{x + side, y + side}, point{x, y + side}, point{x, y}), 0.25, ink)
}

// Figure is something drawn: a section begins with it, or has it beside its facts. What it says to a reader of plain text are its Words.
type Figure interface {
	tall(width float64) float64 // how much height it takes of a page, in millimetres, where it has a width
	draw(on surface, x, y, width float64)
	Words() string // says it where nothing can be drawn
}

// Drawing is what a pen drew, such as a signature, on a pad of a size in its own units. It stands on a line.
type Drawing struct {
	Size    plan.PadSize
	Strokes []plan.Stroke
}

func (d Drawing) empty() bool { return len(d.Strokes) == 0 || d.Size.Width <= 0 || d.Size.Height <= 0 }

func (d Drawing) tall(float64) float64 { return drawingTall }

// Words is a Figure's.
func (d Drawing) Words() string { return fmt.Sprintf("(drawn by hand: %d strokes)", len(d.Strokes)) }

// draw draws at most half the width: each stroke runs through the middles of its pieces, as the window shows it, so that no corner
// shows where the pen was fast.
func (d Drawing) draw(on surface, x, y, width float64) {
	unit := min(drawingTall/float64(d.Size.Height), width/2/float64(d.Size.Width))
	at := func(q plan.Point) point { return point{x + unit*float64(q.X), y + unit*float64(q.Y)} }
	rule(on, x, x+unit*float64(d.Size.Width), y+0.77*unit*float64(d.Size.Height), 0.2, soft)
	for _, stroke := range d.Strokes {
		if len(stroke) == 0 {
			continue
		}
		p := path{from: at(stroke[0])}
		last := p.from
		for i := 1; i+1 < len(stroke); i++ {
			c, to := at(stroke[i]), middle(at(stroke[i]), at(stroke[i+1])) // c pulls the curve
			p.steps = append(p.steps, step{to, true, toward(last, c), toward(to, c)})
			last = to
		}
		p.steps = append(p.steps, step{to: at(stroke[len(stroke)-1])}) // of a single point: a dot
		on.stroke(p, 0.35, ink)
	}
}

func middle(a, b point) point { return point{(a.x + b.x) / 2, (a.y + b.y) / 2} }

// toward is two thirds of the way: what makes of a quadratic curve's one handle the two of a cubic.
func toward(a, c point) point { return point{(a.x + 2*c.x) / 3, (a.y + 2*c.y) / 3} }
