package page

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// flow lays objects out in a row as far as they fit, and goes on in another row: so buttons find room at any size of text.
type flow struct {
	rest bool    // the last object takes the rest of its row, as a field to type in does
	wide float32 // as it was laid out last
}

func (f *flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			size.Width = max(size.Width, o.MinSize().Width)
		}
	}
	size.Height = f.place(objects, f.wide, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
	return size
}

func (f *flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.wide = size.Width
	f.place(objects, size.Width, func(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
		o.Move(at)
		o.Resize(size)
	})
}

// place tells where each object goes within a width, and how high they are together. Without a width they are one row.
func (f *flow) place(objects []fyne.CanvasObject, wide float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	var at fyne.Position
	var row float32 // how high the row is
	for i, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		last := f.rest && i == len(objects)-1
		if last {
			size.Width = max(size.Width, leastField*theme.TextSize())
		}
		if at.X > 0 && wide > 0 && at.X+size.Width > wide {
			at, row = fyne.NewPos(0, at.Y+row+theme.Padding()), 0
		}
		if last {
			size.Width = max(size.Width, wide-at.X)
		}
		put(o, at, size)
		at.X += size.Width + theme.Padding()
		row = max(row, size.Height)
	}
	return at.Y + row
}
