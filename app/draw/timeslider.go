package draw

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
	"eavelight/app/tongue"
)

// SliderData is what a time slider shows.
type SliderData struct {
	Axis  Axis      // the stretch of time, and its zone
	Value time.Time // brought inside the axis
	Empty string    // shown instead when the axis has no length
}

// TimeSlider chooses a moment to the minute by dragging, or by keys: the arrows by 5 minutes, Page Up and Page Down by an
// hour, Home and End.
type TimeSlider struct {
	widget.BaseWidget
	OnChange func(t time.Time) // the moment was changed here

	data    SliderData
	focused bool
	grab    float32 // from the pointer to the handle's middle while it is held
}

var (
	_ fyne.Focusable     = (*TimeSlider)(nil)
	_ fyne.Draggable     = (*TimeSlider)(nil)
	_ fyne.Scrollable    = (*TimeSlider)(nil)
	_ desktop.Mouseable  = (*TimeSlider)(nil)
	_ desktop.Cursorable = (*TimeSlider)(nil)
)

// NewTimeSlider returns an empty slider.
func NewTimeSlider() *TimeSlider {
	w := &TimeSlider{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, without telling OnChange. Call it on the UI goroutine.
func (w *TimeSlider) Set(d SliderData) {
	w.data = d
	w.data.Value = w.clamp(d.Value)
	w.Refresh()
}

// Value is the moment shown.
func (w *TimeSlider) Value() time.Time { return w.data.Value }

func (w *TimeSlider) clamp(t time.Time) time.Time {
	if a := w.data.Axis; t.Before(a.From) {
		return a.From
	} else if t.After(a.To) {
		return a.To
	}
	return t
}

// empty reports that there is nothing to slide over.
func (w *TimeSlider) empty() bool { return !w.data.Axis.To.After(w.data.Axis.From) }

// CreateRenderer is Fyne's.
func (w *TimeSlider) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

// handle is half the width of what is dragged.
const handle = 7

func (w *TimeSlider) least() fyne.Size {
	f, a := small(w.Theme()), w.data.Axis
	return fyne.NewSize(a.Left+a.Right+10*f.height(), plain(w.Theme()).height()+2*handle+6+f.height())
}

// lay is the axis with room for the handle and an hour at its ends, and the height of the track.
func (w *TimeSlider) lay() (a Axis, track float32) {
	a = w.data.Axis
	end := max(handle, small(w.Theme()).measure(tongue.FullHour(midnight)).Width/2) + 3
	a.Left, a.Right = max(a.Left, end), max(a.Right, end)
	return a, plain(w.Theme()).height() + handle + 2
}

func (w *TimeSlider) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	c, f := look.Of(th), small(th)
	if w.empty() {
		paintEmpty(p, th, size, w.data.Empty)
	} else {
		a, track := w.lay()
		x := a.X(w.data.Value, size.Width)
		p.rect(a.Left, track-1, a.plot(size.Width), 2, c.Present)
		p.rect(a.Left, track-2, x-a.Left, 4, c.Accent)
		paintHours(p, a, size.Width, track+handle, f, c)
		p.box(x-handle, track-handle, 2*handle, 2*handle, c.Card, c.Accent, 2.5, handle)
		p.box(x-2, track-2, 4, 4, c.Accent, c.Accent, 0, 2)
		w.paintValue(p, x, size.Width, c)
	}
	if w.focused {
		p.ring(0, 0, size.Width, size.Height, c.Accent, 2, th.Size(theme.SizeNameInputRadius))
	}
}

// paintValue writes the moment over the handle.
func (w *TimeSlider) paintValue(p *pieces, x, width float32, c *look.Palette) {
	f := plain(w.Theme()).bold()
	words := tongue.Hour(w.data.Axis.in(w.data.Value))
	half := f.measure(words).Width/2 + 3
	p.textMid(words, max(half, min(width-half, x)), 1, width, f, c.Ink)
}

// paintHours writes the hours of an axis under a track or a picture that ends at top, each with its tick.
func paintHours(p *pieces, a Axis, width, top float32, f font, c *look.Palette) {
	var labels []label
	hours := a.hours(width, hourGap())
	for _, h := range hours {
		x := a.X(h.at, width)
		p.rect(x, top, 1, 3, c.Muted)
		labels = append(labels, label{mid: x, width: f.measure(h.label).Width})
	}
	x, placed := spread(labels, max(0, a.Left-f.size), width, 2)
	for i, h := range hours {
		if placed[i] {
			p.text(h.label, x[i], top+2, labels[i].width+1, f, c.Muted)
		}
	}
}

// FocusGained is Fyne's.
func (w *TimeSlider) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *TimeSlider) FocusLost() { w.setFocus(false) }

func (w *TimeSlider) setFocus(on bool) {
	w.focused = on
	w.Refresh()
}

// TypedRune is Fyne's; the slider takes no text.
func (w *TimeSlider) TypedRune(rune) {}

// keyStep is what an arrow key moves by.
const keyStep = 5 * time.Minute

// TypedKey moves the moment.
func (w *TimeSlider) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyDown:
		w.change(w.data.Value.Add(-keyStep))
	case fyne.KeyRight, fyne.KeyUp:
		w.change(w.data.Value.Add(keyStep))
	case fyne.KeyPageDown:
		w.change(w.data.Value.Add(-time.Hour))
	case fyne.KeyPageUp:
		w.change(w.data.Value.Add(time.Hour))
	case fyne.KeyHome:
		w.change(w.data.Axis.From)
	case fyne.KeyEnd:
		w.change(w.data.Axis.To)
	}
}

// change shows another moment, brought inside the axis, and tells of it if it is another than before.
func (w *TimeSlider) change(t time.Time) {
	if t = w.clamp(t); w.empty() || t.Equal(w.data.Value) {
		return
	}
	w.data.Value = t
	w.Refresh()
	if w.OnChange != nil {
		w.OnChange(t)
	}
}

// MouseDown takes the focus and the handle, or brings the handle under the pointer.
func (w *TimeSlider) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	a, _ := w.lay()
	w.grab = a.X(w.data.Value, w.Size().Width) - e.Position.X
	if w.grab < -handle || w.grab > handle {
		w.grab = 0
		w.slide(e.Position.X)
	}
}

// MouseUp is Fyne's; the moment follows the pointer at once.
func (w *TimeSlider) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the handle with the pointer.
func (w *TimeSlider) Dragged(e *fyne.DragEvent) { w.slide(e.Position.X) }

// DragEnd is Fyne's.
func (w *TimeSlider) DragEnd() {}

// slide puts the handle where the pointer holds it, on the nearest minute.
func (w *TimeSlider) slide(x float32) {
	a, _ := w.lay()
	w.change(a.Time(x+w.grab, w.Size().Width).Round(time.Minute))
}

// Scrolled moves the moment by an arrow key's step for each turn of the wheel.
func (w *TimeSlider) Scrolled(e *fyne.ScrollEvent) {
	switch turn := e.Scrolled.DY + e.Scrolled.DX; {
	case turn > 0:
		w.change(w.data.Value.Add(keyStep))
	case turn < 0:
		w.change(w.data.Value.Add(-keyStep))
	}
}

// Cursor is a hand.
func (w *TimeSlider) Cursor() desktop.Cursor {
	if w.empty() {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}
