package papers

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// The grammar of our pages, in millimetres and points: one column of sections under a thin copper rule each, two weights of
// one type, and nothing under nine points but the foot and the words within figures.
const (
	marginSide   = 16.0
	marginTop    = 12.5
	marginBottom = 15.0
	footBase     = 9.0  // the foot's base line over the bottom edge
	gutter       = 4.0  // between columns
	factName     = 31.0 // the column of a fact's names
	stripAcross  = 5    // figures side by side
	keyShare     = 0.36 // of the head's width, for the key figure
	indent       = 4.0  // of a list's texts
	blankTall    = 8.5  // of a line to write on
	signTall     = 16.0 // of one to sign on
	drawingTall  = 26.0
	besideWide   = 24.0 // of a figure beside facts
	tickSide     = 3.0  // of a box to tick
	tickRoom     = 5.0  // what its row's first cell gives it
	short        = 10.0 // what is lower does not stand alone
	barOut       = 3.4  // from a mark's bar to the text, in the margin
	barWide      = 1.2
)

var (
	ink    = tint{28, 28, 32}
	soft   = tint{92, 86, 80}
	copper = tint{168, 92, 40}
	hair   = tint{205, 198, 190}
	faint  = tint{228, 224, 219}
	wash   = tint{243, 240, 236}
	white  = tint{255, 255, 255}

	faceTitle   = face{bold: true, size: 19, lead: 8.2, tint: ink}
	faceLong    = face{bold: true, size: 13, lead: 5.6, tint: ink} // a title of more than three lines
	faceKind    = face{bold: true, size: 10, lead: 5.6, tint: copper}
	faceLead    = face{size: 10.5, lead: 5.1, tint: ink}
	faceKey     = face{bold: true, size: 32, lead: 13.3, tint: ink}
	faceKeyLong = face{bold: true, size: 15, lead: 6.6, tint: ink}
	faceHeading = face{bold: true, size: 11, lead: 5, tint: ink}
	faceText    = face{size: 9, lead: 4, tint: ink}
	faceStrong  = face{bold: true, size: 9, lead: 4, tint: ink}
	faceSoft    = face{size: 9, lead: 4, tint: soft}
	faceFoot    = face{size: 8, lead: 3.6, tint: soft}
	faceFigure  = face{size: 8, lead: 3.6, tint: ink}
	faceMark    = face{bold: true, size: 8, lead: 4, tint: copper}
)

// ruler measures texts, in millimetres.
type ruler func(text string, f face) float64

// setter turns a sheet's parts into rows.
type setter struct {
	measure ruler
	width   float64 // of the column of text
}

// runs sets a whole sheet.
func (s setter) runs(sh Sheet) []run {
	out := []run{{rows: []row{s.head(sh)}}}
	for _, sec := range sh.Sections {
		if body := s.body(sec); len(body.rows) > 0 {
			heading := s.heading(sec)
			body.rows = append([]row{heading}, body.rows...)
			body.lead++
			out = append(out, body)
		}
	}
	return out
}

// heading stands under a copper rule, with what has changed in the section at its right end.
func (s setter) heading(sec Section) row {
	mark := s.cell(0, s.width, sec.Marks[""], faceMark)
	mark.right = true
	name := s.cell(0, s.width, sec.Heading, faceHeading)
	return row{cells: []cell{name, mark}, bar: len(mark.lines) > 0, above: 3.2, pad: 0.9, below: 0.6, rule: copper, thick: 0.35, keep: true}
}

// head sets the title on the left and the key figure on the right.
func (s setter) head(sh Sheet) row {
	right := 0.0
	var cells []cell
	if sh.Key != (Fact{}) {
		right = s.width * keyShare
		f := faceKey
		if s.measure(printable(sh.Key.Text), f) > right-gutter {
			f = faceKeyLong
		}
		key := s.cell(s.width-right+gutter, right-gutter, sh.Key.Name, faceKind)
		key.lines = append(key.lines, s.wrap(sh.Key.Text, f, right-gutter)...)
		key.lines = append(key.lines, s.wrap(sh.KeyMark, faceKind, right-gutter)...)
		key.lines = append(key.lines, s.wrap(sh.KeyNote, faceLead, right-gutter)...)
		key.right = true
		cells = append(cells, key)
	}
	left := s.cell(0, s.width-right, sh.Kind, faceKind)
	title := s.wrap(sh.Title, faceTitle, s.width-right)
	if len(title) > 3 {
		title = s.wrap(sh.Title, faceLong, s.width-right)
	}
	left.lines = append(left.lines, title...)
	for _, l := range sh.Lines {
		left.lines = append(left.lines, s.wrap(l, faceLead, s.width-right)...)
	}
	return row{cells: append([]cell{left}, cells...), below: 2}
}

// body sets the parts of a section.
func (s setter) body(sec Section) run {
	var out run
	if sec.Figure != nil {
		out.rows = append(out.rows, row{figure: sec.Figure, tall: sec.Figure.tall(s.width), below: 2, keep: len(sec.Facts) > 0})
	}
	for i := 0; i < len(sec.Strip); i += stripAcross {
		out.rows = append(out.rows, s.strip(sec.Strip[i:min(i+stripAcross, len(sec.Strip))]))
	}
	facts := sec.Facts
	if sec.Beside != nil {
		var r row
		r, facts = s.beside(sec.Beside, facts, sec.Marks)
		out.rows = append(out.rows, r)
	}
	for _, f := range facts {
		name := s.cell(0, factName-gutter, f.Name, faceSoft)
		name.lines = append(name.lines, s.wrap(sec.Marks[f.Name], faceMark, factName-gutter)...)
		text := s.cell(factName, s.width-factName, f.Text, faceText)
		out.rows = append(out.rows, row{cells: []cell{name, text}, bar: sec.Marks[f.Name] != "", below: 0.5})
	}
	for _, t := range sec.Text {
		out.rows = append(out.rows, row{cells: []cell{s.cell(0, s.width, t, faceText)}, below: 1.2})
	}
	if len(sec.Table.Rows) > 0 {
		head := s.tableHead(sec.Table)
		out.head = &head
		if len(out.rows) > 0 {
			head.above = 1.6
		}
		out.rows = append(out.rows, head)
		out.lead = len(out.rows)
		for _, r := range sec.Table.Rows {
			out.rows = append(out.rows, s.tableRow(sec.Table, r)...)
		}
	}
	for _, t := range sec.List {
		dot := cell{x: 0, width: indent, lines: []line{{"•", faceText}}}
		out.rows = append(out.rows, row{cells: []cell{dot, s.cell(indent, s.width-indent, t, faceText)}, below: 0.5})
	}
	if n := len(out.rows); n > 1 { // no short row stands alone, under the heading or on the next page
		first := &out.rows[min(out.lead, n-2)]
		first.keep = first.keep || first.height() < short
		out.rows[n-2].keep = out.rows[n-2].keep || out.rows[n-1].height() < short
	}
	for i, name := range sec.Blanks {
		name, tall := s.cell(0, factName-gutter, name, faceSoft), blankTall
		if i == len(sec.Blanks)-1 {
			tall = signTall
		}
		out.rows = append(out.rows, row{cells: []cell{name}, pad: tall - height(name.lines), write: factName})
	}
	for i, t := range sec.Small {
		r := row{cells: []cell{s.cell(0, s.width, t, faceFoot)}}
		if i == 0 {
			r.above = 1.6
		}
		out.rows = append(out.rows, r)
	}
	if _, signed := sec.Figure.(Drawing); signed || len(sec.Blanks) > 0 {
		for i := range out.rows[:len(out.rows)-1] {
			out.rows[i].keep = true
		}
	}
	return out
}

// beside sets a figure at the right margin, and left of it as many facts as are about as high, in one row, so that they stay together.
// It returns the facts that are left.
func (s setter) beside(f Figure, facts []Fact, marks map[string]string) (row, []Fact) {
	left := s.width - besideWide
	names, texts := s.cell(0, factName-gutter, "", faceSoft), s.cell(factName, left-gutter-factName, "", faceText)
	r := row{figure: f, left: left, tall: f.tall(besideWide), below: 0.5}
	for len(facts) > 0 && height(texts.lines) < r.tall {
		name, text := s.wrap(facts[0].Name, faceSoft, names.width), s.wrap(facts[0].Text, faceText, texts.width)
		if height(texts.lines)+height(text) > 2*r.tall { // a long tale takes the whole width
			break
		}
		mark := s.wrap(marks[facts[0].Name], faceMark, names.width)
		name = append(name, mark...)
		for len(name) != len(text) { // the lines of both columns keep pace
			if len(name) < len(text) {
				name = append(name, line{face: faceSoft})
			} else {
				text = append(text, line{face: faceText})
			}
		}
		if last := len(text) - 1; last >= 0 {
			name[last].face.lead += 0.5
			text[last].face.lead += 0.5
		}
		for i := range name {
			name[i].face.bar = len(mark) > 0
		}
		names.lines, texts.lines = append(names.lines, name...), append(texts.lines, text...)
		facts = facts[1:]
	}
	r.cells = []cell{names, texts}
	return r, facts
}

func (s setter) strip(facts []Fact) row {
	r := row{below: 1.6}
	w := s.width / stripAcross
	for i, f := range facts {
		c := s.cell(float64(i)*w, w-gutter, f.Name, faceSoft)
		c.lines = append(c.lines, s.wrap(f.Text, faceStrong, w-gutter)...)
		r.cells = append(r.cells, c)
	}
	return r
}

func (s setter) tableHead(t Table) row {
	r := row{below: 1, keep: true}
	for i, x := range s.edges(t)[:len(t.Columns)] {
		w := s.edges(t)[i+1] - x
		if i < len(t.Columns)-1 {
			w -= gutter
		}
		head := s.cell(x, w, t.Columns[i].Head, faceSoft)
		head.right = t.right(i)
		r.cells = append(r.cells, head)
	}
	return r
}

func (s setter) tableRow(t Table, in Row) []row {
	r := row{bar: in.Mark != "", pad: 0.7, below: 0.7, rule: hair, thick: 0.2, keep: in.Keep}
	if in.Aside {
		r.pad, r.below = 0.3, 0.4
		r.fill = wash
	}
	if in.Opens {
		r.pad, r.rule, r.thick, r.keep = 1.1, soft, 0.35, true
	}
	r.tick = in.Tick
	x := s.edges(t)
	for i, c := range in.Cells[:min(len(in.Cells), len(t.Columns))] {
		end := x[i+1]
		if i == len(in.Cells)-1 {
			end = x[len(x)-1]
		}
		w := end - x[i]
		if end < s.width {
			w -= gutter
		}
		out := cell{x: x[i], width: w, right: t.right(i)}
		if in.Tick && i == 0 {
			out.x, out.width = x[i]+tickRoom, w-tickRoom
		}
		if c.Strong != "" {
			out.lines = s.wrap(c.Strong, faceStrong, out.width)
		}
		if i == 0 && in.Note == "" {
			out.lines = append(out.lines, s.wrap(in.Mark, faceMark, w)...)
		}
		if c.Text != "" {
			out.lines = append(out.lines, s.wrap(c.Text, faceText, out.width)...)
		}
		r.cells = append(r.cells, out)
	}
	if in.Note == "" {
		return []row{r}
	}
	under := x[min(1, len(t.Columns)-1)]
	mark := s.cell(0, max(under-gutter, gutter), in.Mark, faceMark) // under the first cell, beside the note
	note := row{cells: []cell{mark, s.cell(under, s.width-under, in.Note, faceText)}, bar: r.bar, below: r.below, keep: in.Keep}
	r.below, r.keep = 0, true
	return []row{r, note}
}

// edges are where the columns begin, and the right margin.
func (s setter) edges(t Table) []float64 {
	sum := 0.0
	for _, c := range t.Columns {
		sum += c.Width
	}
	out, x := []float64{0}, 0.0
	for _, c := range t.Columns {
		x += c.Width
		out = append(out, x/sum*s.width)
	}
	return out
}

func (s setter) cell(x, width float64, text string, f face) cell {
	return cell{x: x, width: width, lines: s.wrap(text, f, width)}
}

// wrap breaks a text into lines of a width: after spaces, hyphens and slashes, and within a word that is too long for a
// line by itself. Nothing is lost but the spaces at the breaks.
func (s setter) wrap(text string, f face, width float64) []line {
	var out []line
	for part := range strings.SplitSeq(printable(text), "\n") {
		now := ""
		flush := func() {
			if now = strings.TrimRight(now, " "); now != "" {
				out = append(out, line{now, f})
			}
			now = ""
		}
		for word := range pieces(part) {
			if s.measure(strings.TrimRight(now+word, " "), f) <= width {
				now += word
				continue
			}
			flush()
			for s.measure(strings.TrimRight(word, " "), f) > width {
				n := s.fitting(word, f, width)
				now, word = word[:n], word[n:]
				flush()
			}
			now = word
		}
		flush()
	}
	return out
}

// pieces yields a text in the parts that may not be broken, their spaces behind them.
func pieces(text string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		start := 0
		for i, r := range text {
			end := i + utf8.RuneLen(r)
			next, _ := utf8.DecodeRuneInString(text[end:])
			space := r == ' ' && next != ' ' && end < len(text)
			joint := strings.ContainsRune("-–/", r) && unicode.IsLetter(next) // not within times and phone numbers
			if space || joint {
				if !yield(text[start:end]) {
					return
				}
				start = end
			}
		}
		yield(text[start:])
	}
}

// fitting is how many bytes of a word fill a width: at least one letter, and an accent stays with its letter.
func (s setter) fitting(word string, f face, width float64) int {
	best := 0
	for i, r := range word {
		if i > 0 && !unicode.Is(unicode.Mn, r) {
			if best > 0 && s.measure(word[:i], f) > width {
				return best
			}
			best = i
		}
	}
	if best == 0 || s.measure(word, f) <= width {
		return len(word)
	}
	return best
}
