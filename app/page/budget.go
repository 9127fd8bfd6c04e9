package page

import (
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// budget is the part of the page of the price with every line.
type budget struct {
	floor *widget.Label
}

func newBudget(Editor) *budget { return &budget{floor: widget.NewLabel("")} }

// Object is pricePart's.
func (b *budget) Object() fyne.CanvasObject { return b.floor }

func (b *budget) show(p view.Priced) { b.floor.SetText(p.Money(p.Sheet.Floor)) }
