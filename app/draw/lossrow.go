package draw

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"eavelight/app/look"
)

// LossData is what a loss row shows.
type LossData struct {
	Total LossPart
	Parts []LossPart
	Notes []string // up to two lines at the right
	Empty string   // shown instead when there are no parts
}

// LossPart is one part of a loss, or all of it. One that loses nothing is left quiet.
type LossPart struct {
	Name, Points string
	Share        float64 // of the total, 0..1; the total itself has no bar
}

// LossRow shows the parts of a loss side by side, each with a bar of its share.
type LossRow struct {
	widget.BaseWidget
	data LossData
}

// NewLossRow returns an empty row.
func NewLossRow() *LossRow {
	w := &LossRow{}
	w.ExtendBaseWidget(w)
	return w
}

// Set shows other data. Call it on the UI goroutine.
func (w *LossRow) Set(d LossData) {
	w.data = d
	w.Refresh()
}

// CreateRenderer is Fyne's.
func (w *LossRow) CreateRenderer() fyne.WidgetRenderer { return newDrawing(w, nil) }

func (w *LossRow) least() fyne.Size {
	th := w.Theme()
	gap := th.Size(theme.SizeNamePadding)
	number := plain(th).bold().measure("0000").Width
	height := max(small(th).height()+plain(th).height(), noteLines*small(th).height())
	return fyne.NewSize(float32(len(w.data.Parts)+1)*(number+3*gap), height+2*gap)
}

// cell is how wide each part is, and the notes: they take what they need, but leave each part room for its name.
func (w *LossRow) cell(width float32) (cell, notes float32) {
	const widest = 140
	th := w.Theme()
	f, gap, n := small(th), th.Size(theme.SizeNamePadding), float32(len(w.data.Parts)+1)
	name := f.measure(w.data.Total.Name).Width
	for _, p := range w.data.Parts {
		name = max(name, f.measure(p.Name).Width)
	}
	for _, s := range w.data.Notes {
		notes = max(notes, f.measure(s).Width+4*gap)
	}
	notes = min(notes, max(0, width-n*(name+2*gap)))
	return min((width-notes)/n, widest*th.Size(theme.SizeNameText)/13), notes
}

func (w *LossRow) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Parts) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	cell, notes := w.cell(size.Width)
	number := float32(0)
	for _, part := range w.data.Parts {
		number = max(number, plain(th).bold().measure(part.Points).Width)
	}
	y := gap
	p.text(w.data.Total.Name, gap, y, cell-2*gap, f, c.Muted)
	p.text(w.data.Total.Points, gap, y+f.height(), cell-2*gap, plain(th).bold(), c.Ink)
	for i, part := range w.data.Parts {
		w.paintPart(p, th, part, float32(i+1)*cell+gap, y, cell-2*gap, number)
	}
	x := float32(len(w.data.Parts)+1)*cell + 3*gap
	for i, s := range folded(w.data.Notes, notes-3*gap, f) {
		p.text(s, x, y+float32(i)*f.height(), notes-3*gap, f, c.Muted)
	}
}

// noteLines is how many lines of notes there is room for: where the row is narrow, a note takes two.
const noteLines = 3

// folded breaks notes at spaces into lines of a width.
func folded(notes []string, room float32, f font) []string {
	var out []string
	for _, note := range notes {
		line := ""
		for _, word := range strings.Fields(note) {
			if longer := strings.TrimSpace(line + " " + word); line == "" || f.measure(longer).Width <= room {
				line = longer
				continue
			}
			out = append(out, line)
			line = word
		}
		out = append(out, line)
	}
	if len(out) > noteLines { // the last line says as much of the rest as fits
		out[noteLines-1] = strings.Join(out[noteLines-1:], " ")
		out = out[:noteLines]
	}
	return out
}

func (w *LossRow) paintPart(p *pieces, th fyne.Theme, part LossPart, x, y, room, number float32) {
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	p.text(part.Name, x, y, room, f, c.Muted)
	y += f.height()
	if part.Share <= 0 {
		p.text(part.Points, x, y, room, plain(th), c.Muted)
		return
	}
	value := plain(th).bold()
	p.text(part.Points, x, y, room+1, value, c.Ink)
	const thin = 8 // a bar narrower than this tells nothing
	if bar := room - number - gap; bar >= thin {
		paintBar(p, x+number+gap, y+value.height()/2-2.5, bar, 5, part.Share, c.Accent)
	}
}
