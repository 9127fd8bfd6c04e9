package page

import (
	"eavelight/app/session"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
)

// Price is the page of what the job costs and what to ask for it. Its parts are shown one at a time.
type Price struct {
	parts  []pricePart
	halves *halves
	shown  view.Priced
}

// pricePart is one part of the page of the price.
type pricePart interface {
	Object() fyne.CanvasObject
	show(view.Priced)
}

// NewPrice builds the page.
func NewPrice(edit Editor) *Price {
	s := &Price{}
	names := s.build(edit)
	var objects []fyne.CanvasObject
	for _, part := range s.parts {
		objects = append(objects, part.Object())
	}
	s.halves = newHalves(names, objects...)
	s.halves.onTurn = s.showFront
	return s
}

// build makes the parts and returns their names.
func (s *Price) build(edit Editor) []string {
	s.parts = []pricePart{newBudget(edit)}
	return []string{"Budget"}
}

// Object is the page.
func (s *Price) Object() fyne.CanvasObject { return s.halves.object }

// Show brings the page up to the state.
func (s *Price) Show(st session.State) {
	s.shown = view.PriceOf(st)
	s.showFront()
}

func (s *Price) showFront() { s.parts[s.halves.front].show(s.shown) }
