package page

import (
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Price is the page of what the job costs and what to ask for it. Its parts are shown one at a time; what it all comes to stands
// at the right of each.
type Price struct {
	parts   []pricePart
	halves  *halves
	summary *summary
	shown   view.Priced
	object  fyne.CanvasObject
}

// pricePart is one part of the page of the price.
type pricePart interface {
	Object() fyne.CanvasObject
	show(view.Priced)
}

// NewPrice builds the page. cards reads and writes rate cards.
func NewPrice(edit Editor, cards Cards, async Async, today func() plan.Date) *Price {
	s := &Price{summary: newSummary()}
	names := s.build(edit, cards, async, today)
	var objects []fyne.CanvasObject
	for _, part := range s.parts {
		objects = append(objects, part.Object())
	}
	s.halves = newHalves(names, objects...)
	s.halves.onTurn = s.showFront
	rail := container.NewBorder(nil, nil, widget.NewSeparator(), nil, s.summary.object)
	s.object = container.NewBorder(nil, nil, nil, container.New(wide(270), rail), s.halves.object)
	return s
}

// build makes the parts and returns their names.
func (s *Price) build(edit Editor, cards Cards, async Async, today func() plan.Date) []string {
	var names []string
	add := func(name string, part pricePart) {
		names, s.parts = append(names, name), append(s.parts, part)
	}
	add(tongue.Say("Budget"), newBudget(edit, cards))
	add(tongue.Say("Quote"), newQuote(edit))
	add(tongue.Say("Rate card"), newRateCard(edit, cards))
	add(tongue.Say("How sure"), newSure(edit, async))
	add(tongue.Say("What if"), newWhatIf(edit, async))
	add(tongue.Say("Packages"), newPackages(edit, async))
	add(tongue.Say("Local market"), newMarket(edit, today))
	add(tongue.Say("Recording"), newRecording(edit))
	return names
}

// Object is the page.
func (s *Price) Object() fyne.CanvasObject { return s.object }

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
	s.summary.show(s.shown)
	s.showFront()
}

func (s *Price) showFront() { s.parts[s.halves.front].show(s.shown) }
