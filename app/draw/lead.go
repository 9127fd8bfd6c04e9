package draw

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// LeadData is what a lead says: its text, as high as it takes, and a word at the right on what a press does.
type LeadData struct{ Text, Word string }

// Lead is a line of text that leads somewhere: a press, Space or Return go there. It is quieter than a button, for lists of them.
type Lead struct {
	widget.BaseWidget
	OnPress func()

	data           LeadData
	focused, hover bool
}

var (
	_ fyne.Focusable     = (*Lead)(nil)
	_ fyne.Tappable      = (*Lead)(nil)
	_ desktop.Hoverable  = (*Lead)(nil)
	_ desktop.Cursorable = (*Lead)(nil)
)

// NewLead returns a lead that says nothing yet.
func NewLead(press func()) *Lead {
	w := &Lead{OnPress: press}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other words. Call it on the UI goroutine.
func (w *Lead) Set(d LeadData) {
	if d != w.data {
		w.data = d
		w.Refresh()
	}
}

// Data is what it says.
func (w *Lead) Data() LeadData { return w.data }

// Focused tells whether it has the keyboard.
func (w *Lead) Focused() bool { return w.focused }

// CreateRenderer is Fyne's.
func (w *Lead) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *Lead) least() fyne.Size { return leastLine(w.Theme(), w.data, w.Size().Width) }

func (w *Lead) paint(p *pieces, size fyne.Size) {
	c := look.Of(w.Theme())
	if w.hover || w.focused {
		p.box(1, 1, size.Width-2, size.Height-2, c.Lane, c.Lane, 0, 3)
	}
	paintLine(p, w.Theme(), w.data, size)
	if w.focused {
		p.ring(1, 1, size.Width-2, size.Height-2, c.Accent, 2, 3)
	}
}

// Tapped is Fyne's.
func (w *Lead) Tapped(*fyne.PointEvent) {
	takeFocus(w)
	w.press()
}

func (w *Lead) press() {
	if w.OnPress != nil {
		w.OnPress()
	}
}

// FocusGained is Fyne's.
func (w *Lead) FocusGained() { w.focused = true; w.Refresh() }

// FocusLost is Fyne's.
func (w *Lead) FocusLost() { w.focused = false; w.Refresh() }

// TypedRune is Fyne's; a lead takes no text.
func (w *Lead) TypedRune(rune) {}

// TypedKey goes there by Space and Return.
func (w *Lead) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		w.press()
	}
}

// MouseIn is Fyne's.
func (w *Lead) MouseIn(*desktop.MouseEvent) { w.hover = true; w.Refresh() }

// MouseMoved is Fyne's.
func (w *Lead) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is Fyne's.
func (w *Lead) MouseOut() { w.hover = false; w.Refresh() }

// Cursor is a hand: here something can be pressed.
func (w *Lead) Cursor() desktop.Cursor { return desktop.PointerCursor }

// Said is a line of text among leads that leads nowhere.
type Said struct {
	widget.BaseWidget
	text string
}

// NewSaid returns a line of text.
func NewSaid(text string) *Said {
	w := &Said{text: text}
	w.ExtendBaseWidget(w)
	return w
}

// Text is what it says.
func (w *Said) Text() string { return w.text }

// CreateRenderer is Fyne's.
func (w *Said) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *Said) least() fyne.Size {
	return leastLine(w.Theme(), LeadData{Text: w.text}, w.Size().Width)
}

func (w *Said) paint(p *pieces, size fyne.Size) {
	paintLine(p, w.Theme(), LeadData{Text: w.text}, size)
}

const (
	lineAir = 3 // over the text and under it
	lineEnd = 8 // at the right, where the bar of a scroll lies
)

// leadRoom is how wide a text may be, and its word with the sign behind it.
func leadRoom(th fyne.Theme, d LeadData, width float32) (text, word float32) {
	pad := th.Size(theme.SizeNameInnerPadding)
	if d.Word != "" {
		word = small(th).measure(d.Word).Width + leadSign(th) + 2*pad
	}
	return width - 2*pad - lineEnd - word, word
}

// leadSign is how wide the sign behind the word is, with the gap before it.
func leadSign(th fyne.Theme) float32 { return 10 * th.Size(theme.SizeNameText) / 14 }

// leastLine is what a line needs in a width; before it has one, it is that of some words.
func leastLine(th fyne.Theme, d LeadData, width float32) fyne.Size {
	f := plain(th)
	_, word := leadRoom(th, d, 0)
	least := word + lineEnd + 2*th.Size(theme.SizeNameInnerPadding) + 12*f.size
	room, _ := leadRoom(th, d, max(width, least))
	n := max(1, len(folded([]string{d.Text}, room, f)))
	return fyne.NewSize(least, whole(float32(n)*f.height())+2*lineAir)
}

func paintLine(p *pieces, th fyne.Theme, d LeadData, size fyne.Size) {
	c, f, pad := look.Of(th), plain(th), th.Size(theme.SizeNameInnerPadding)
	room, word := leadRoom(th, d, size.Width)
	for i, line := range folded([]string{d.Text}, room, f) {
		p.text(line, pad, lineAir+float32(i)*f.height(), room+1, f, c.Ink)
	}
	if d.Word == "" || word > size.Width {
		return
	}
	s, sign, right := small(th), leadSign(th), size.Width-pad-lineEnd
	p.textRight(d.Word, right-sign, lineAir+(f.height()-s.height())/2, word, s, c.Muted)
	end, mid, arm := right, lineAir+f.height()/2, sign*0.4
	p.line(end-arm, mid-arm, end, mid, 1.5, c.Accent)
	p.line(end, mid, end-arm, mid+arm, 1.5, c.Accent)
}
