package papers

import "slices"

// face is how a line of text is set.
type face struct {
	bold bool
	size float64 // points
	lead float64 // millimetres from line to line
	tint tint
	bar  bool // a heavy bar stands beside the line, in the margin: it has changed
}

// tint is a colour; all of them keep apart in black and white.
type tint struct{ r, g, b int }

// line is one line of text, ready to be drawn.
type line struct {
	text string
	face face
}

// cell is a column of lines within a row.
type cell struct {
	x, width float64 // millimetres from the left margin
	right    bool    // set flush right
	lines    []line
}

// row is cells side by side. Nothing breaks within it.
type row struct {
	cells      []cell
	above      float64 // room before the row; dropped at the top of a page
	pad, below float64 // room within the row, over and under its texts
	rule       tint    // drawn along the row's top unless it is the zero tint
	thick      float64 // of the rule
	fill       tint    // drawn behind the texts unless it is the zero tint
	figure     Figure  // nil: none
	tall       float64 // of the figure
	left       float64 // of the figure, from the left margin; it reaches to the right one
	bar        bool    // a heavy bar stands beside it, in the margin
	write      float64 // a line to write on runs along the row's foot from here to the right margin; 0 is none
	keep       bool    // stays on the page of the row after it
	tick       bool    // a box to tick by hand stands at its left
}

func (r row) height() float64 {
	h := r.tall
	for _, c := range r.cells {
		h = max(h, height(c.lines))
	}
	return r.above + r.pad + h + r.below
}

func height(lines []line) float64 {
	h := 0.0
	for _, l := range lines {
		h += l.face.lead
	}
	return h
}

// run is rows that belong together. Where a page ends after its lead, head comes again on the next.
type run struct {
	rows []row
	lead int  // how many rows at the front are heading and head
	head *row // of a table
}

// laid is a row with its place on a page, in millimetres under the top margin.
type laid struct {
	row
	y float64
}

// flow lays runs of rows onto pages of a height. Every row comes out whole and in order; only one that is higher than a
// page by itself is cut, between lines.
func flow(runs []run, tall float64) [][]laid {
	pages := [][]laid{nil}
	y := 0.0
	put := func(r row) {
		last := len(pages) - 1
		if len(pages[last]) == 0 {
			r.above = 0
		}
		pages[last] = append(pages[last], laid{r, y})
		y += r.height()
	}
	for _, run := range runs {
		rows := run.cut(tall)
		for i, r := range rows {
			need := r.height()
			if i == 0 || !rows[i-1].keep {
				need = kept(rows[i:])
			}
			if y > 0 && y+need > tall {
				pages, y = append(pages, nil), 0
				if run.head != nil && i >= run.lead {
					put(*run.head)
				}
			}
			put(r)
		}
	}
	return pages
}

// fit lays runs of rows onto pages, a little closer where that saves a page: a sheet of two pages is read, a line alone on a
// third is not. Where that page can't be saved, the pages before it end a little sooner.
func fit(runs []run, tall float64) [][]laid {
	pages := flow(runs, tall)
	if tight := tightened(runs); len(flow(tight, tall)) < len(pages) {
		runs, pages = tight, flow(tight, tall)
	}
	for less := lonely / 4; less <= tall/4 && len(pages) > 1 && reach(pages[len(pages)-1]) < lonely; less += lonely / 4 {
		if shorter := flow(runs, tall-less); len(shorter) == len(pages) {
			pages = shorter
		}
	}
	return pages
}

// lonely is how little a last page may hold, in millimetres, before something comes over to it from the one before.
const lonely = 24.0

// reach is how far down a page is filled.
func reach(page []laid) float64 {
	last := page[len(page)-1]
	return last.y + last.height()
}

// tightened sets everything closer by the share that the type still bears.
func tightened(runs []run) []run {
	const share = 0.94
	tight := func(r row) row {
		r.above, r.pad, r.below = share*r.above, share*r.pad, share*r.below
		r.cells = slices.Clone(r.cells)
		for i := range r.cells {
			r.cells[i].lines = slices.Clone(r.cells[i].lines)
			for j := range r.cells[i].lines {
				r.cells[i].lines[j].face.lead *= share
			}
		}
		return r
	}
	var out []run
	for _, r := range runs {
		r.rows = slices.Clone(r.rows)
		for i := range r.rows {
			r.rows[i] = tight(r.rows[i])
		}
		if r.head != nil {
			head := tight(*r.head)
			r.head = &head
		}
		out = append(out, r)
	}
	return out
}

// kept is the height of the first row and of those it stays with.
func kept(rows []row) float64 {
	h := 0.0
	for _, r := range rows {
		h += r.height()
		if !r.keep {
			break
		}
	}
	return h
}

// cut replaces each row that would not fit on a page under its heading and head by pieces that do.
func (r run) cut(tall float64) []row {
	lead := 0.0
	for _, r := range r.rows[:r.lead] {
		lead += r.height()
	}
	var out []row
	for _, row := range r.rows {
		for row.height() > tall-lead && len(out) < maxRows {
			var piece, rest = row.split(tall - lead)
			if rest.height() >= row.height() {
				break // one line alone is higher than the page
			}
			out, row = append(out, piece), rest
		}
		out = append(out, row)
	}
	return out
}

// maxRows bounds the pieces of one run; no text that a plan can hold comes near it.
const maxRows = 100_000

// split takes as many lines off the front of each cell as a height holds.
func (r row) split(tall float64) (piece, rest row) {
	piece, rest = r, r
	piece.cells, rest.cells = slices.Clone(r.cells), slices.Clone(r.cells)
	room := tall - r.above - r.pad - r.below
	for i, c := range r.cells {
		n, used := 0, 0.0
		for n < len(c.lines) && used+c.lines[n].face.lead <= room {
			used += c.lines[n].face.lead
			n++
		}
		piece.cells[i].lines, rest.cells[i].lines = c.lines[:n], c.lines[n:]
	}
	piece.keep, rest.rule, rest.figure, rest.tall, rest.tick = false, tint{}, nil, 0, false
	return piece, rest
}
