package page

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// flow lays objects out in a row as far as they fit, and goes on in another row: so buttons find room at any size of text.
type flow struct{ wide float32 } // as it was laid out last

func (f *flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			size.Width = max(size.Width, o.MinSize().Width)
		}
	}
	size.Height = f.place(objects, f.wide, func(fyne.CanvasObject, fyne.Position) {})
	return size
}

func (f *flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.wide = size.Width
	f.place(objects, size.Width, func(o fyne.CanvasObject, at fyne.Position) {
		o.Move(at)
		o.Resize(o.MinSize())
	})
}

// place tells where each object goes within a width, and how high they are together. Without a width they are one row.
func (f *flow) place(objects []fyne.CanvasObject, wide float32, put func(fyne.CanvasObject, fyne.Position)) float32 {
	var at fyne.Position
	var row float32 // how high the row is
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		if at.X > 0 && wide > 0 && at.X+size.Width > wide {
			at, row = fyne.NewPos(0, at.Y+row+theme.Padding()), 0
		}
		put(o, at)
		at.X += size.Width + theme.Padding()
		row = max(row, size.Height)
	}
	return at.Y + row
}
