package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// SliderData is what a time slider shows.
type SliderData struct {
	Axis  Axis      // the stretch of time, and its zone
	Value time.Time // brought inside the axis
	Empty string    // shown instead when the axis has no length
}

// TimeSlider chooses a moment by dragging or by keys: the arrows by 5 minutes, Page Up and Page Down by an hour.
type TimeSlider struct {
	widget.BaseWidget
	OnChange func(t time.Time) // the moment was changed here

	data    SliderData
	focused bool
}

// NewTimeSlider returns an empty slider.
func NewTimeSlider() *TimeSlider {
	w := &TimeSlider{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, without telling OnChange. Call it on the UI goroutine.
func (w *TimeSlider) Set(d SliderData) {
	w.data = d
	w.Refresh()
}

// Value is the moment shown.
func (w *TimeSlider) Value() time.Time { return w.data.Value }

// CreateRenderer is Fyne's.
func (w *TimeSlider) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *TimeSlider) least() fyne.Size {
	line := small(w.Theme()).height()
	return fyne.NewSize(w.data.Axis.Left+w.data.Axis.Right+12*line, 3*line)
}

func (w *TimeSlider) paint(p *pieces, size fyne.Size) {
	if !w.data.Axis.To.After(w.data.Axis.From) {
		paintEmpty(p, w.Theme(), size, w.data.Empty)
	}
}
