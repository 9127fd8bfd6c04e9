package page

import (
	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

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
func NewPrice(edit Editor, async Async, today func() plan.Date) *Price {
	s := &Price{}
	names := s.build(edit, async, today)
	var objects []fyne.CanvasObject
	for _, part := range s.parts {
		objects = append(objects, part.Object())
	}
	s.halves = newHalves(names, objects...)
	s.halves.onTurn = s.showFront
	return s
}

// build makes the parts and returns their names.
func (s *Price) build(edit Editor, async Async, today func() plan.Date) []string {
	s.parts = []pricePart{newBudget(edit)}
	names := []string{"Budget"}
	add := func(name string, part pricePart) {
		s.parts, names = append(s.parts, part), append(names, name)
	}
	add("How sure", newSure(edit, async))
	add("What if", newWhatIf(edit, async))
	add("Packages", newPackages(edit, async))
	add("Local market", newMarket(edit, today))
	add("Recording", newRecording(edit))
	return names
}

// Object is the page.
func (s *Price) Object() fyne.CanvasObject { return s.halves.object }

// Revert is Reverter's.
func (s *Price) Revert() bool {
	any := false
	for _, part := range s.parts {
		if r, ok := part.(Reverter); ok {
			any = r.Revert() || any
		}
	}
	return any
}

// Show brings the page up to the state.
func (s *Price) Show(st session.State) {
	s.shown = view.PriceOf(st)
	s.showFront()
}

func (s *Price) showFront() { s.parts[s.halves.front].show(s.shown) }
