package draw

import (
	"cmp"
	"fmt"
	"image/color"
	"math"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
	"eavelight/app/tongue"
	"eavelight/plan/say"
)

// StripData is what a date strip shows.
type StripData struct {
	Cards  []Card
	Chosen string // ID of the chosen card
	Beside string // ID of the card that is compared with it; empty: none
	Empty  string // shown instead when there are no cards
}

// Card is one candidate date.
type Card struct {
	ID   string
	Date string  // "Thu 14 May"
	Kept float64 // share of the light kept, 0..1; below 0 is not known
	Note string  // one short line: "the best of 3", "computing…"
	Why  string  // another: what it keeps or leaves out
}

// DateStrip shows a card a date. Cards that do not fit are reached by the arrow keys, the wheel, or the buttons at the ends.
type DateStrip struct {
	widget.BaseWidget
	OnSelect  func(id string) // a date was chosen here
	OnCompare func(id string) // one is to be compared with the chosen one; the one that is already, or none: no more
	OnRemove  func(id string) // the chosen one is to go

	data    StripData
	first   int // the first card shown
	focused bool
	hover   fyne.Position
}

var (
	_ fyne.Focusable     = (*DateStrip)(nil)
	_ fyne.Shortcutable  = (*DateStrip)(nil)
	_ fyne.Scrollable    = (*DateStrip)(nil)
	_ desktop.Mouseable  = (*DateStrip)(nil)
	_ desktop.Hoverable  = (*DateStrip)(nil)
	_ desktop.Cursorable = (*DateStrip)(nil)
)

// NewDateStrip returns an empty strip.
func NewDateStrip() *DateStrip {
	w := &DateStrip{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data, with the chosen card in sight. Call it on the UI goroutine.
func (w *DateStrip) Set(d StripData) {
	w.data = d
	w.reveal()
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *DateStrip) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *DateStrip) least() fyne.Size {
	th := w.Theme()
	gap := th.Size(theme.SizeNamePadding)
	return fyne.NewSize(w.cardWidth()+2*w.buttonWidth(), plain(th).height()+3*small(th).height()+4*gap)
}

// cardWidth is the least width of a card: a date in bold.
func (w *DateStrip) cardWidth() float32 {
	th := w.Theme()
	return plain(th).bold().measure(tongue.Of(say.ShortDate(wideDate))).Width + 4*th.Size(theme.SizeNamePadding)
}

// wideDate is a date whose words are as wide as any.
var wideDate = time.Date(2026, time.September, 30, 0, 0, 0, 0, time.UTC)

func (w *DateStrip) buttonWidth() float32 {
	return small(w.Theme()).measure("‹ 00").Width + 2*w.Theme().Size(theme.SizeNamePadding)
}

// strip is where cards lie for a width: how many from first, the first one's x, and the distance from one to the next.
type strip struct {
	first, count int
	x, step      float32
}

// lay fits the cards into a width; when they do not all fit, both ends keep room for a button.
func (w *DateStrip) lay(width float32) strip {
	all, least := len(w.data.Cards), w.cardWidth()
	if float32(all)*least <= width {
		return strip{count: all, step: min(width/float32(max(1, all)), 1.6*least)}
	}
	room := width - 2*w.buttonWidth()
	count := max(1, int(room/least))
	return strip{first: max(0, min(w.first, all-count)), count: min(count, all), x: w.buttonWidth(), step: room / float32(count)}
}

// reveal scrolls so that the chosen card is in sight.
func (w *DateStrip) reveal() {
	if w.Size().Width <= 0 {
		return
	}
	s := w.lay(w.Size().Width)
	if i := w.chosen(); i >= 0 {
		s.first = min(s.first, i)
		s.first = max(s.first, i-s.count+1)
	}
	w.first = s.first
}

// chosen is the index of the chosen card, or -1.
func (w *DateStrip) chosen() int { return w.index(w.data.Chosen) }

func (w *DateStrip) index(id string) int {
	return slices.IndexFunc(w.data.Cards, func(c Card) bool { return c.ID == id })
}

// Resize keeps the chosen card in sight.
func (w *DateStrip) Resize(size fyne.Size) {
	if size == w.Size() {
		return
	}
	w.BaseWidget.Resize(size)
	w.reveal()
	w.Refresh()
}

func (w *DateStrip) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Cards) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
	}
	s := w.lay(size.Width)
	for i := range s.count {
		w.paintCard(p, th, w.data.Cards[s.first+i], s.x+float32(i)*s.step, s.step-2, size.Height)
	}
	c, f := look.Of(th), small(th)
	y, gap := (size.Height-f.height())/2, th.Size(theme.SizeNamePadding)
	if s.first > 0 {
		p.text(fmt.Sprintf("‹ %d", s.first), gap, y, s.x, f, c.Accent)
	}
	if rest := len(w.data.Cards) - s.first - s.count; rest > 0 {
		p.textRight(fmt.Sprintf("%d ›", rest), size.Width-gap, y, s.x, f, c.Accent)
	}
	if w.focused {
		p.ring(0, 0, size.Width, size.Height, c.Accent, 2, th.Size(theme.SizeNameInputRadius))
	}
}

func (w *DateStrip) paintCard(p *pieces, th fyne.Theme, card Card, x, width, height float32) {
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	top, radius := gap, th.Size(theme.SizeNameInputRadius)
	fill, edge, thick, title := c.Card, c.Rule, float32(1), plain(th)
	if card.ID == w.data.Chosen {
		fill, edge, thick, title = c.Must.Soft, c.Accent, 2, plain(th).bold()
	}
	p.box(x+2, top, width-2, height-2*gap, fill, edge, thick, radius)
	if card.ID == w.data.Beside {
		p.ring(x+2, top, width-2, height-2*gap, c.Ink, 2, radius)
	}
	left, room := x+2+2*gap, width-2-4*gap
	y := top + (height-2*gap-title.height()-3*f.height())/2
	p.text(card.Date, left, y, room, title, c.Ink)
	y += title.height()
	if card.Kept >= 0 {
		number := f.measure("100 %").Width
		p.text(percent(card.Kept), left, y, number+1, f, c.Ink)
		paintBar(p, left+number+gap, y+f.height()/2-2.5, room-number-gap, 5, card.Kept, c.Accent)
		y += f.height()
	}
	p.text(card.Note, left, y, room, f, c.Muted)
	p.text(card.Why, left, y+f.height(), room, f, c.Muted)
}

// percent writes a share of 0..1 in whole percent; only the whole is 100 %.
func percent(share float64) string {
	n := math.Round(max(0, min(1, share)) * 100)
	if n == 100 && share < 1 {
		n = 99
	}
	return fmt.Sprintf("%.0f %%", n)
}

// paintBar draws a share as the filled part of a framed bar.
func paintBar(p *pieces, x, y, width, height float32, share float64, c color.NRGBA) {
	p.ring(x, y, width, height, c, 1, 0)
	p.rect(x, y, width*float32(max(0, min(1, share))), height, c)
}

// FocusGained is Fyne's.
func (w *DateStrip) FocusGained() { w.setFocus(true) }

// FocusLost is Fyne's.
func (w *DateStrip) FocusLost() { w.setFocus(false) }

func (w *DateStrip) setFocus(on bool) {
	w.focused = on
	w.Refresh()
}

// TypedRune is Fyne's; the strip takes no text.
func (w *DateStrip) TypedRune(rune) {}

// TypedKey chooses by Left, Right, Home and End. Delete takes the chosen date out, and Escape ends the comparison.
func (w *DateStrip) TypedKey(e *fyne.KeyEvent) {
	at, last := w.chosen(), len(w.data.Cards)-1
	switch e.Name {
	case fyne.KeyLeft:
		w.choose(max(0, at-1))
	case fyne.KeyRight:
		w.choose(min(last, at+1))
	case fyne.KeyHome:
		w.choose(0)
	case fyne.KeyEnd:
		w.choose(last)
	case fyne.KeyDelete, fyne.KeyBackspace:
		if at >= 0 && w.OnRemove != nil {
			w.OnRemove(w.data.Chosen)
		}
	case fyne.KeyEscape:
		w.compare("")
	}
}

// TypedShortcut compares with an earlier or a later date by Control and Left or Right.
func (w *DateStrip) TypedShortcut(s fyne.Shortcut) {
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || c.Modifier != fyne.KeyModifierControl {
		return
	}
	by := map[fyne.KeyName]int{fyne.KeyLeft: -1, fyne.KeyRight: 1}[c.KeyName]
	at := w.index(cmp.Or(w.data.Beside, w.data.Chosen))
	for i := at + by; by != 0 && at >= 0 && i >= 0 && i < len(w.data.Cards); i += by {
		if id := w.data.Cards[i].ID; id != w.data.Chosen {
			w.compare(id)
			return
		}
	}
}

// compare tells of the card that is to be compared with the chosen one.
func (w *DateStrip) compare(id string) {
	if id != w.data.Chosen && w.OnCompare != nil {
		w.OnCompare(id)
	}
}

// choose makes the card of an index the chosen one, if there is one and it was not chosen already.
func (w *DateStrip) choose(i int) {
	if i < 0 || i >= len(w.data.Cards) || w.data.Cards[i].ID == w.data.Chosen {
		return
	}
	w.data.Chosen = w.data.Cards[i].ID
	w.reveal()
	w.Refresh()
	if w.OnSelect != nil {
		w.OnSelect(w.data.Chosen)
	}
}

// MouseDown takes the focus and chooses the card under the pointer, or compares it while Control or Shift is held, or scrolls by
// what is in sight.
func (w *DateStrip) MouseDown(e *desktop.MouseEvent) {
	takeFocus(w)
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	s := w.lay(w.Size().Width)
	i := int(math.Floor(float64((e.Position.X - s.x) / s.step)))
	switch {
	case i < 0:
		w.scroll(-s.count)
	case i >= s.count:
		w.scroll(s.count)
	case e.Modifier&(fyne.KeyModifierControl|fyne.KeyModifierShift) != 0:
		w.compare(w.data.Cards[s.first+i].ID)
	default:
		w.choose(s.first + i)
	}
}

// MouseUp is Fyne's; the choice is made on MouseDown.
func (w *DateStrip) MouseUp(*desktop.MouseEvent) {}

// Scrolled moves the strip by a card for each turn of the wheel, either way round.
func (w *DateStrip) Scrolled(e *fyne.ScrollEvent) {
	turn := e.Scrolled.DY
	if turn == 0 {
		turn = e.Scrolled.DX
	}
	switch {
	case turn > 0:
		w.scroll(-1)
	case turn < 0:
		w.scroll(1)
	}
}

// scroll moves what is in sight, not the choice.
func (w *DateStrip) scroll(cards int) {
	w.first = w.lay(w.Size().Width).first + cards
	w.first = max(0, w.lay(w.Size().Width).first)
	w.Refresh()
}

// MouseIn is Fyne's.
func (w *DateStrip) MouseIn(e *desktop.MouseEvent) { w.hover = e.Position }

// MouseMoved is Fyne's.
func (w *DateStrip) MouseMoved(e *desktop.MouseEvent) { w.hover = e.Position }

// MouseOut is Fyne's.
func (w *DateStrip) MouseOut() {}

// Cursor is a hand where a press does something.
func (w *DateStrip) Cursor() desktop.Cursor {
	s := w.lay(w.Size().Width)
	if len(w.data.Cards) > 0 && (s.x > 0 || w.hover.X < float32(s.count)*s.step) {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// takeFocus gives a widget the keyboard.
func takeFocus(w interface {
	fyne.CanvasObject
	fyne.Focusable
}) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(w); c != nil {
		c.Focus(w)
	}
}
