package page

import (
	"eavelight/app/draw"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// cells lays out the cells of a table's row side by side, by their columns' shares, none narrower than its head or than is of use.
// Where there is no room for that, they stand in ranks, each under its own head. The objects are the cells, and then their heads.
type cells struct {
	columns []column
	wide    float32 // as it was laid out last
}

// least is how wide a column is at least: for its head, and for what is written there by way of its hint, if that is short.
func (c column) least() float32 {
	words := func(s string) float32 {
		return fyne.MeasureText(s, theme.TextSize(), fyne.TextStyle{}).Width + 2*theme.InnerPadding() + theme.Padding()
	}
	head, ts := words(c.head), theme.TextSize()
	switch {
	case c.ticks:
		return head
	case c.options != nil || c.suggest != nil:
		return max(head, 5.5*ts)
	}
	return max(head, 4*ts, min(words(c.hint), 6.5*ts))
}

// ranks are the columns that stand side by side within a width: all of them, or as many a rank as have room, none of the ranks much
// shorter than the others.
func (c *cells) ranks(wide float32) [][]column {
	out := c.filled(wide, len(c.columns))
	if n := len(out); n > 1 {
		if even := c.filled(wide, (len(c.columns)+n-1)/n); len(even) == n {
			return even
		}
	}
	return out
}

// filled fills one rank after another, with so many columns at most.
func (c *cells) filled(wide float32, most int) (out [][]column) {
	x := float32(0)
	for _, col := range c.columns {
		if n := len(out); n == 0 || x+theme.Padding()+col.least() > wide || len(out[n-1]) == most {
			out, x = append(out, nil), -theme.Padding()
		}
		out[len(out)-1] = append(out[len(out)-1], col)
		x += theme.Padding() + col.least()
	}
	return out
}

// widths shares a width out to columns by their shares; those that would be too narrow get their least first.
func widths(columns []column, wide float32) []float32 {
	var shares, leasts []float32
	for _, c := range columns {
		shares, leasts = append(shares, c.share), append(leasts, c.least())
	}
	return draw.ShareOut(wide-theme.Padding()*float32(len(columns)-1), shares, leasts)
}

// narrowest is how wide the widest of the columns is at least.
func (c *cells) narrowest() (wide float32) {
	for _, col := range c.columns {
		wide = max(wide, col.least())
	}
	return wide
}

func (c *cells) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(c.narrowest(), c.place(objects, c.wide, func(fyne.CanvasObject, fyne.Position, fyne.Size) {}))
}

func (c *cells) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	c.wide = size.Width
	for _, head := range objects[len(c.columns):] {
		setVisible(head, len(c.ranks(size.Width)) > 1)
	}
	c.place(objects, size.Width, func(o fyne.CanvasObject, at fyne.Position, size fyne.Size) {
		o.Move(at)
		o.Resize(size)
	})
}

// place tells where each object goes within a width, and how high they are together. Without a width they are one rank.
func (c *cells) place(objects []fyne.CanvasObject, wide float32, put func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	ranks, n := [][]column{c.columns}, 0
	if wide > 0 {
		ranks = c.ranks(wide)
	}
	y := float32(0)
	for _, rank := range ranks {
		x, high, head := float32(0), float32(0), float32(0)
		for i := range rank {
			high = max(high, objects[n+i].MinSize().Height)
			if len(ranks) > 1 {
				head = objects[len(c.columns)+n+i].MinSize().Height - theme.InnerPadding()
			}
		}
		for i, w := range widths(rank, wide) {
			if len(ranks) > 1 {
				put(objects[len(c.columns)+n+i], fyne.NewPos(x, y), fyne.NewSize(w, head+theme.InnerPadding()))
			}
			put(objects[n+i], fyne.NewPos(x, y+head), fyne.NewSize(w, high))
			x += w + theme.Padding()
		}
		y += head + high + theme.Padding()
		n += len(rank)
	}
	return max(0, y-theme.Padding())
}

// overCells lays out the heads over a table's rows, which are not there where the rows have their own.
type overCells struct{ *cells }

func (o overCells) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if len(o.ranks(o.wide)) > 1 && o.wide > 0 {
		return fyne.NewSize(o.narrowest(), 0)
	}
	return fyne.NewSize(o.narrowest(), objects[0].MinSize().Height)
}

func (o overCells) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	o.wide = size.Width
	over := len(o.ranks(size.Width)) == 1
	for _, head := range objects {
		setVisible(head, over)
	}
	x := float32(0)
	for i, w := range widths(o.columns, size.Width) {
		objects[i].Move(fyne.NewPos(x, 0))
		objects[i].Resize(fyne.NewSize(w, size.Height))
		x += w + theme.Padding()
	}
}

// heads are the names of the columns.
func (t table) heads() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for _, c := range t.columns {
		l := widget.NewLabel(c.head)
		l.Importance = widget.LowImportance
		out = append(out, l)
	}
	return out
}

// ownHeads are those of a row that stands in ranks: small ones.
func (t table) ownHeads() []fyne.CanvasObject {
	out := t.heads()
	for _, o := range out {
		o.(*widget.Label).SizeName = theme.SizeNameCaptionText
		o.Hide()
	}
	return out
}
