package draw

import "fyne.io/fyne/v2/driver/desktop"

// pointing tells a page where the pointer stands over one of the rows that share a time-line. It is part of the widgets
// that are such rows.
type pointing struct {
	OnPoint func(x float32) // below 0: it is gone
}

func (p *pointing) point(x float32) {
	if p.OnPoint != nil {
		p.OnPoint(x)
	}
}

// MouseIn is Fyne's.
func (p *pointing) MouseIn(e *desktop.MouseEvent) { p.point(e.Position.X) }

// MouseMoved is Fyne's.
func (p *pointing) MouseMoved(e *desktop.MouseEvent) { p.point(e.Position.X) }

// MouseOut is Fyne's.
func (p *pointing) MouseOut() { p.point(-1) }
