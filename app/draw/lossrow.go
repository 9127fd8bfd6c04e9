package draw

import (
	"slices"
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
	width := 2 * (w.widestPart() + 3*gap)
	height := max(partHeight(th), noteLines*small(th).height())
	if at := w.arrange(max(width, w.Size().Width)); at.below {
		height = max(height, float32(at.ranks)*partHeight(th)+gap+float32(len(at.lines))*small(th).height())
	}
	return fyne.NewSize(width, height+2*gap)
}

func partHeight(th fyne.Theme) float32 { return small(th).height() + plain(th).height() }

// needs is how wide the total and each part must be for their names and their points.
func (w *LossRow) needs() []float32 {
	f, value, gap := small(w.Theme()), plain(w.Theme()).bold(), w.Theme().Size(theme.SizeNamePadding)
	var out []float32
	for _, p := range append([]LossPart{w.data.Total}, w.data.Parts...) {
		out = append(out, max(f.measure(p.Name).Width, value.measure(p.Points).Width)+2*gap)
	}
	return out
}

func (w *LossRow) widestPart() float32 { return slices.Max(w.needs()) }

// lossPlaces are where things stand in a loss row: the places of the total and of each part, in how many ranks they stand, and the
// lines of the notes, which stand at the right of the parts or below them.
type lossPlaces struct {
	parts []rect
	ranks int
	lines []string
	x, y  float32 // of the lines
	room  float32 // that they have
	below bool
}

// arrange finds the places within a width. The notes stand at the right where they leave each part room for its name and lose no
// word: one of them is a caution.
func (w *LossRow) arrange(width float32) lossPlaces {
	th := w.Theme()
	f, gap, needs := small(th), th.Size(theme.SizeNamePadding), w.needs()
	n, least := float32(len(needs)), slices.Max(needs)
	notes := min(widestLine(w.data.Notes, f)+4*gap, max(0, width-n*least))
	if lines := folded(w.data.Notes, notes-3*gap, f); len(lines) <= noteLines && widestLine(lines, f) <= notes-3*gap {
		cell := min((width-notes)/n, w.widest())
		out := lossPlaces{ranks: 1, lines: lines, x: n*cell + 3*gap, y: gap, room: notes - 3*gap}
		out.parts = w.ranked(len(needs), cell)
		return out
	}
	out := w.stack(width, needs, least)
	out.lines, out.below, out.room = folded(w.data.Notes, width-3*gap, f), true, width-2*gap
	out.x, out.y = gap, float32(out.ranks)*partHeight(th)+2*gap
	return out
}

// stack finds the places of the parts over the notes: in one rank, each with the room that it needs and its share of what is left,
// or in several of the same width where one does not do.
func (w *LossRow) stack(width float32, needs []float32, least float32) (out lossPlaces) {
	all := float32(0)
	for _, need := range needs {
		all += need
	}
	if all > width {
		across := max(1, int(width/least))
		out.ranks = (len(needs) + across - 1) / across
		across = (len(needs) + out.ranks - 1) / out.ranks // none of the ranks much shorter than the others
		out.parts = w.ranked(across, min(width/float32(across), w.widest()))
		return out
	}
	out.ranks = 1
	x, spare := float32(0), (width-all)/float32(len(needs))
	for _, need := range needs {
		wide := min(need+spare, max(need, w.widest()))
		out.parts = append(out.parts, rect{x: x, w: wide})
		x += wide
	}
	return out
}

// widest is how wide a part is at most.
func (w *LossRow) widest() float32 { return 140 * w.Theme().Size(theme.SizeNameText) / 13 }

// ranked places the total and the parts in ranks, so many side by side.
func (w *LossRow) ranked(across int, wide float32) (out []rect) {
	for i := range len(w.data.Parts) + 1 {
		out = append(out, rect{x: float32(i%across) * wide, y: float32(i/across) * partHeight(w.Theme()), w: wide})
	}
	return out
}

func widestLine(lines []string, f font) (wide float32) {
	for _, l := range lines {
		wide = max(wide, f.measure(l).Width)
	}
	return wide
}

func (w *LossRow) paint(p *pieces, size fyne.Size) {
	th := w.Theme()
	if len(w.data.Parts) == 0 {
		paintEmpty(p, th, size, w.data.Empty)
		return
	}
	c, f, gap := look.Of(th), small(th), th.Size(theme.SizeNamePadding)
	at := w.arrange(size.Width)
	number := float32(0)
	for _, part := range w.data.Parts {
		number = max(number, plain(th).bold().measure(part.Points).Width)
	}
	total := at.parts[0].w - 2*gap
	p.text(w.data.Total.Name, gap, gap, total, f, c.Muted)
	p.text(w.data.Total.Points, gap, gap+f.height(), total, plain(th).bold(), c.Ink)
	for i, part := range w.data.Parts {
		place := at.parts[i+1]
		w.paintPart(p, th, part, place.x+gap, place.y+gap, place.w-2*gap, number)
	}
	for i, s := range at.lines {
		p.text(s, at.x, at.y+float32(i)*f.height(), at.room, f, c.Muted)
	}
}

// noteLines is how many lines of notes there is room for beside the parts: where the row is narrow, a note takes two.
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
	left := number + 1.5*gap
	if bar := room - left - 2*gap; bar >= thin { // farther from the next part than from its own number
		paintBar(p, x+left, y+value.height()/2-2.5, bar, 5, part.Share, c.Accent)
	}
}
