package page

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// framed sets a drop-down into the frame that an entry has: Fyne's has none, and is lower than the label beside it.
func framed(s *widget.Select) *fyne.Container {
	f := &frame{}
	f.ExtendBaseWidget(f)
	return container.NewStack(s, f)
}

// frame is the border of an entry, as high as one at least, and nothing else.
type frame struct{ widget.BaseWidget }

// CreateRenderer is Fyne's.
func (f *frame) CreateRenderer() fyne.WidgetRenderer {
	r := &frameRenderer{line: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type frameRenderer struct{ line *canvas.Rectangle }

func (r *frameRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.line} }
func (r *frameRenderer) Destroy()                     {}

func (r *frameRenderer) MinSize() fyne.Size {
	return fyne.NewSize(0, fyne.MeasureText("M", theme.TextSize(), fyne.TextStyle{}).Height+2*theme.InnerPadding())
}

// Layout puts the line where an entry's is.
func (r *frameRenderer) Layout(size fyne.Size) {
	border := theme.InputBorderSize()
	r.line.Move(fyne.NewSquareOffsetPos(border / 2))
	r.line.Resize(fyne.NewSize(size.Width-border-0.5, size.Height-border-0.5))
}

func (r *frameRenderer) Refresh() {
	r.line.StrokeColor = theme.Color(theme.ColorNameInputBorder)
	r.line.StrokeWidth, r.line.CornerRadius = theme.InputBorderSize(), theme.InputRadiusSize()
	r.line.Refresh()
}
