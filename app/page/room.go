package page

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// What makes pages fit a small screen at any size of text: each gives its objects another order where they have too little room
// beside each other, and asks for no more width than that other order takes.

// flowing is a row of objects, of buttons mostly, that goes on in another row.
func flowing(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flow{}, objects...)
}

// fields lays out pairs: a label, and at its right what it names; where there is no room for both, the label stands above. What comes
// from the object second on stands in a column of its own where there is room for two.
type fields struct {
	second int     // 0: there is one column
	first  float32 // the share of the first column
	wide   float32 // as it was laid out last
}

// leastField is how wide a field must be beside its label, in heights of the text.
const leastField = 11

// twoColumns is how wide two columns are at least, in heights of the text.
const twoColumns = 88

// fieldColumn is a column of pairs: where it begins, how wide it is, and whether labels stand above what they name.
type fieldColumn struct {
	pairs        [][2]fyne.CanvasObject
	left, wide   float32
	label, named float32 // the width of the widest label, none where no label says anything, and the least width of what they name
	above        bool
}

// columns are those that objects take within a width; without a width they are one, with labels at the left.
func (f *fields) columns(objects []fyne.CanvasObject, wide float32) []fieldColumn {
	if f.second == 0 {
		return []fieldColumn{newFieldColumn(objects, 0, wide)}
	}
	if wide < twoColumns*theme.TextSize() {
		return []fieldColumn{newFieldColumn(objects, 0, min(wide, comfortable.width()))}
	}
	gap := 2 * theme.TextSize()
	first := (wide - gap) * f.first
	return []fieldColumn{newFieldColumn(objects[:f.second], 0, first), newFieldColumn(objects[f.second:], first+gap, wide-first-gap)}
}

// speaks reports whether a label says anything.
func speaks(label fyne.CanvasObject) bool { return label.MinSize().Width > 2*theme.InnerPadding() }

// newFieldColumn makes one of the visible pairs of some objects.
func newFieldColumn(objects []fyne.CanvasObject, left, wide float32) fieldColumn {
	c := fieldColumn{left: left, wide: wide}
	for i := 0; i+1 < len(objects); i += 2 {
		if objects[i].Visible() || objects[i+1].Visible() {
			c.pairs = append(c.pairs, [2]fyne.CanvasObject{objects[i], objects[i+1]})
			if speaks(objects[i]) {
				c.label = max(c.label, objects[i].MinSize().Width)
			}
			c.named = max(c.named, objects[i+1].MinSize().Width)
		}
	}
	c.above = wide > 0 && wide-c.label-theme.Padding() < max(c.named, leastField*theme.TextSize())
	return c
}

// head is how much height a label takes above what it names: none where it says nothing.
func (fieldColumn) head(label fyne.CanvasObject) float32 {
	if !speaks(label) {
		return 0
	}
	return label.MinSize().Height - theme.InnerPadding()/2
}

func (c fieldColumn) minSize() fyne.Size {
	size := fyne.NewSize(max(c.label, c.named), theme.Padding()*float32(len(c.pairs)-1))
	for _, r := range c.pairs {
		if c.above {
			size.Height += c.head(r[0]) + r[1].MinSize().Height
		} else {
			size.Height += max(r[0].MinSize().Height, r[1].MinSize().Height)
		}
	}
	return size
}

func (c fieldColumn) layOut() {
	left := c.label + theme.Padding()
	if c.above || c.label == 0 {
		left = 0
	}
	y := float32(0)
	for _, r := range c.pairs {
		label, it := r[0].MinSize(), r[1]
		it.Resize(fyne.NewSize(c.wide-left, it.MinSize().Height))
		least := it.MinSize().Height // now that wrapped text knows its width
		r[0].Move(fyne.NewPos(c.left, y))
		if c.above {
			r[0].Resize(label)
			y += c.head(r[0])
		} else {
			least = max(least, label.Height)
			r[0].Resize(fyne.NewSize(c.label, least))
		}
		it.Move(fyne.NewPos(c.left+left, y))
		it.Resize(fyne.NewSize(c.wide-left, least))
		y += least + theme.Padding()
	}
}

func (f *fields) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, c := range f.columns(objects, f.wide) {
		size = size.Max(c.minSize())
	}
	return size
}

func (f *fields) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.wide = size.Width
	for _, c := range f.columns(objects, size.Width) {
		c.layOut()
	}
}

// turning sets two parts side by side, or one above the other where they have too little room for that, with a line between them
// that can be dragged.
type turning struct {
	split *container.Split
	least float32 // that they need side by side, in heights of the text
	other float64 // where the line stands in the other order
}

// newTurning makes one of two parts. across and down are where the line stands side by side, and one above the other.
func newTurning(first, second fyne.CanvasObject, across, down float64, least float32) *fyne.Container {
	t := &turning{split: container.NewHSplit(first, second), least: least, other: down}
	t.split.Offset = across
	return container.New(t, t.split)
}

// turned reports whether one stands above the other within a width.
func (t *turning) turned(wide float32) bool {
	if !t.split.Leading.Visible() || !t.split.Trailing.Visible() {
		return !t.split.Horizontal // nothing to turn
	}
	need := t.split.Leading.MinSize().Width + t.split.Trailing.MinSize().Width + 2*theme.Padding()
	return wide < max(need, t.least*theme.TextSize())
}

func (t *turning) MinSize(objects []fyne.CanvasObject) fyne.Size {
	first, second := t.split.Leading.MinSize(), t.split.Trailing.MinSize()
	return fyne.NewSize(max(first.Width, second.Width), objects[0].MinSize().Height)
}

func (t *turning) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	if turned := t.turned(size.Width); turned == t.split.Horizontal {
		t.split.Horizontal = !turned
		t.split.Offset, t.other = t.other, t.split.Offset
		t.split.Resize(size)
		t.split.Refresh()
		return
	}
	t.split.Resize(size)
}

// ticked is a tick with words at its right, which wrap where there is no room for them in one line.
type ticked struct {
	tick   *widget.Check
	words  *widget.Label
	text   string
	object *fyne.Container
}

func newTicked(text string, changed func(on bool)) *ticked {
	t := &ticked{tick: widget.NewCheck("", changed), words: wrapped()}
	t.object = container.New(wrapping{t}, t.tick, t.words)
	t.say(text)
	return t
}

// say gives it other words.
func (t *ticked) say(text string) {
	if t.text != text {
		t.text = text
		t.words.SetText(text)
	}
	t.arrange(t.object.Size().Width)
}

// able has it take a press or not, and look like it.
func (t *ticked) able(on bool) {
	t.words.Importance = widget.MediumImportance
	if on {
		t.tick.Enable()
	} else {
		t.words.Importance = widget.LowImportance // which has the colour of what is disabled
		t.tick.Disable()
	}
	t.words.Refresh()
}

// line is how wide it is in one line.
func (t *ticked) line() float32 {
	return theme.IconInlineSize() + 2*theme.InnerPadding() + fyne.MeasureText(t.text, theme.TextSize(), fyne.TextStyle{}).Width
}

// arrange has the tick say the words itself where they fit in one line, and the label say them otherwise.
func (t *ticked) arrange(wide float32) {
	text := t.text
	if wide > 0 && t.line() > wide {
		text = ""
	}
	setVisible(t.words, text != t.text)
	if t.tick.Text != text {
		t.tick.SetText(text)
	}
}

// wrapping lays out a tick and its words.
type wrapping struct{ *ticked }

// tickWidth is how far from the left of a tick a label begins whose words stand where the tick's own would.
func tickWidth() float32 { return theme.IconInlineSize() + 2*theme.InputBorderSize() }

// leastTick is how wide a tick is at least that has more words than fit there, in heights of the text.
const leastTick = 9

func (w wrapping) MinSize([]fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(min(w.line(), leastTick*theme.TextSize()), w.tick.MinSize().Height)
	if w.words.Visible() {
		size.Height = max(size.Height, w.words.MinSize().Height)
	}
	return size
}

func (w wrapping) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	w.arrange(size.Width)
	w.tick.Resize(fyne.NewSize(size.Width, w.tick.MinSize().Height))
	if w.words.Visible() {
		box := tickWidth()
		w.tick.Resize(fyne.NewSize(box, w.tick.MinSize().Height))
		w.words.Move(fyne.NewPos(box, 0))
		w.words.Resize(fyne.NewSize(size.Width-box, size.Height))
	}
}

// ranks lays objects out in columns of the same width: as many as it is told, or fewer where they would be too narrow.
type ranks struct {
	most int
	wide float32 // as it was laid out last
}

func (r *ranks) columns(objects []fyne.CanvasObject, wide float32) int {
	least := leastTick * theme.TextSize()
	for _, o := range objects {
		if o.Visible() {
			least = max(least, o.MinSize().Width)
		}
	}
	return min(r.most, max(1, int((wide+theme.Padding())/(least+theme.Padding()))))
}

func (r *ranks) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, o := range objects {
		if o.Visible() {
			size.Width = max(size.Width, o.MinSize().Width)
		}
	}
	size.Height = r.place(objects, r.wide, func(fyne.CanvasObject, fyne.Position, fyne.Size) {})
	return size
}

func (r *ranks) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	r.wide = size.Width
	put := func(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
		o.Move(at)
		o.Resize(size)
	}
	r.place(objects, size.Width, put)
	r.place(objects, size.Width, put) // now that wrapped words know their width
}

// place tells where each object goes within a width, and how high they are together.
func (r *ranks) place(objects []fyne.CanvasObject, wide float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	n := r.most
	if wide > 0 {
		n = r.columns(objects, wide)
	}
	each := (wide - theme.Padding()*float32(n-1)) / float32(n)
	var shown []fyne.CanvasObject
	for _, o := range objects {
		if o.Visible() {
			shown = append(shown, o)
		}
	}
	y := float32(0)
	for len(shown) > 0 {
		rank := shown[:min(n, len(shown))]
		shown = shown[len(rank):]
		high := float32(0)
		for _, o := range rank {
			high = max(high, o.MinSize().Height)
		}
		for i, o := range rank {
			put(o, fyne.NewPos(float32(i)*(each+theme.Padding()), y), fyne.NewSize(each, high))
		}
		y += high + theme.Padding()
	}
	return max(0, y-theme.Padding())
}

// aside lays a scroll of fields out at the left of what comes of them, with a width for text of 14; or above it, no higher than it
// needs, where that leaves too little room.
type aside float32

func (a aside) width(fields fyne.CanvasObject) float32 {
	return max(float32(a)*theme.TextSize()/14, fields.MinSize().Width)
}

func (a aside) MinSize(objects []fyne.CanvasObject) fyne.Size {
	first, second := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(max(first.Width, second.Width), first.Height+theme.Padding()+second.Height)
}

func (a aside) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left, second := a.width(objects[0]), objects[1]
	if size.Width-left-theme.Padding() >= max(second.MinSize().Width, 24*theme.TextSize()) {
		objects[0].Resize(fyne.NewSize(left, size.Height))
		second.Move(fyne.NewPos(left+theme.Padding(), 0))
		second.Resize(fyne.NewSize(size.Width-left-theme.Padding(), size.Height))
		return
	}
	objects[0].Resize(fyne.NewSize(size.Width, objects[0].MinSize().Height)) // so that what wraps knows its width
	high := min(objects[0].(*container.Scroll).Content.MinSize().Height, size.Height*0.4)
	objects[0].Resize(fyne.NewSize(size.Width, high))
	second.Move(fyne.NewPos(0, high+theme.Padding()))
	second.Resize(fyne.NewSize(size.Width, size.Height-high-theme.Padding()))
}

// lined lays labels out in columns, row by row, as wide as their words need: where they have no room in one line, they wrap, and no
// column is narrower than its longest word.
type lined struct {
	columns int
	wide    float32 // as it was laid out last
}

// needs are, for each column, how wide its longest word is and its longest text.
func (l *lined) needs(objects []fyne.CanvasObject) (words, texts []float32) {
	words, texts = make([]float32, l.columns), make([]float32, l.columns)
	for i, o := range objects {
		label, at := o.(*widget.Label), i%l.columns
		measure := func(s string) float32 {
			return fyne.MeasureText(s, theme.TextSize(), label.TextStyle).Width + 2*theme.InnerPadding() + 1
		}
		texts[at] = max(texts[at], measure(label.Text))
		for _, word := range strings.Fields(label.Text) {
			words[at] = max(words[at], measure(word))
		}
	}
	return words, texts
}

// widths shares a width out: to each column its longest word, and of what is left as much as its longest text wants, or more.
func (l *lined) widths(objects []fyne.CanvasObject, wide float32) []float32 {
	words, texts := l.needs(objects)
	var least, most float32
	for i := range words {
		least, most = least+words[i], most+texts[i]
	}
	spare := max(0, wide-least)
	for i := range words {
		switch {
		case wide >= most:
			words[i] = texts[i] + (wide-most)/float32(l.columns)
		case most > least:
			words[i] += spare * (texts[i] - words[i]) / (most - least)
		}
	}
	return words
}

func (l *lined) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	words, _ := l.needs(objects)
	for _, w := range words {
		size.Width += w
	}
	size.Height = l.place(objects, max(l.wide, size.Width))
	return size
}

func (l *lined) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.wide = size.Width
	l.place(objects, size.Width)
}

// place lays the labels out within a width, and tells how high they are.
func (l *lined) place(objects []fyne.CanvasObject, wide float32) float32 {
	widths, y := l.widths(objects, wide), float32(0)
	for from := 0; from < len(objects); from += l.columns {
		x, high := float32(0), float32(0)
		for i, o := range objects[from:min(len(objects), from+l.columns)] {
			o.Move(fyne.NewPos(x, y))
			o.Resize(fyne.NewSize(widths[i], o.MinSize().Height))
			high = max(high, o.MinSize().Height) // now that it knows its width
			x += widths[i]
		}
		y += high - (tight{}).overlap()
	}
	return y + (tight{}).overlap()
}
