package view

import (
	"errors"
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/say"
)

// What is taken at once: more than any film of a house has.
const (
	mostPasted = 300
	mostText   = 500_000 // bytes of it
)

var errTooMuch = say.Error("that is more than a table of scenes: copy fewer rows and columns")

// Pasted is what was read from rows of a spreadsheet: the scenes that would be added, and what could not be taken.
type Pasted struct {
	Columns []string // what columns were taken for
	Rows    []PastedRow
	Told    []string // about the whole
}

// PastedRow is one scene as it would be added.
type PastedRow struct {
	Scene   plan.Scene
	Cells   []string // as the table would show it
	Refused []string // what of it was not taken, and why
	Without []string // the same, by name
}

// ReadScenes reads what was copied from a spreadsheet, a scene a row. The columns go by their headings, or without any by the
// order of the table.
func ReadScenes(p *plan.Plan, text string) (Pasted, error) {
	if len(text) > mostText {
		return Pasted{}, errTooMuch
	}
	rows, unpaired, err := contacts.Cells(text)
	switch {
	case errors.Is(err, contacts.ErrTooWide) || errors.Is(err, contacts.ErrTooMany):
		return Pasted{}, errTooMuch
	case err != nil:
		return Pasted{}, err
	case len(rows) == 0:
		return Pasted{}, say.Error("there is nothing to paste: copy the rows in your spreadsheet first, then come back")
	}
	var out Pasted
	columns, headed := headings(rows[0].Cells)
	if headed {
		for i, c := range columns {
			if c == nil {
				out.Told = append(out.Told, tongue.Say("The column %q is not taken.", quoted(rows[0].Cells[i])))
			}
		}
		rows = rows[1:]
	} else {
		columns = inOrder(rows)
	}
	if len(rows) > mostPasted {
		out.Told = append(out.Told, tongue.Say("Only the first %d rows are taken.", mostPasted))
		rows = rows[:mostPasted]
	}
	if unpaired > 0 {
		out.Told = append(out.Told, tongue.Say("A quotation mark in line %d has no partner: look whether the rows from there on are whole.", unpaired))
	}
	for _, c := range columns {
		if c != nil {
			out.Columns = append(out.Columns, c.Name())
		}
	}
	if len(rows) == 0 {
		return out, say.Error("there is no row of a scene under the headings")
	}
	taken := map[string]bool{}
	for _, s := range p.Scenes {
		taken[s.Number] = true
	}
	for _, r := range rows {
		out.Rows = append(out.Rows, readScene(p, columns, r.Cells, taken))
	}
	return out, nil
}

// headings tells the columns by what stands over them; ok is false where that is the first scene. A column that is there twice
// counts once.
func headings(cells []string) (columns []*SceneColumn, ok bool) {
	columns = make([]*SceneColumn, len(cells))
	known := 0
	for i, cell := range cells {
		if c := headed(cell); c != nil && !slices.Contains(columns, c) {
			columns[i] = c
			known++
		}
	}
	return columns, known > 1 || known == 1 && len(cells) == 1
}

// headed is the column with such a heading, in the window's language or in English; nil where there is none.
func headed(cell string) *SceneColumn {
	name := heading(cell)
	if name == "" {
		return nil
	}
	for _, words := range []func(string) string{tongue.Marked, say.Tongue(nil).Form} {
		for i := range SceneColumns {
			c := &SceneColumns[i]
			called := append(strings.Split(words(c.Called), ", "), words(c.Head), words(c.Field))
			if slices.ContainsFunc(called, func(word string) bool { return heading(word) == name }) {
				return c
			}
		}
	}
	return nil
}

// heading is what of a heading counts: neither what stands in brackets, as a unit does, nor capitals, accents and stops.
func heading(cell string) string {
	name, _, _ := strings.Cut(oneLine(cell), "(")
	if plain := assets.Plain(name); plain != "" {
		return plain
	}
	return strings.Trim(name, " .:*")
}

// inOrder takes the columns as the table has them; the number may be left out.
func inOrder(rows []contacts.Row) []*SceneColumn {
	numbered, widest := 0, 0
	for _, r := range rows {
		widest = max(widest, len(r.Cells))
		if first := r.Cells[0]; first == "" || first[0] >= '0' && first[0] <= '9' {
			numbered++
		}
	}
	first := 0
	if widest == 1 || 2*numbered < len(rows) {
		first = 1
	}
	columns := make([]*SceneColumn, widest)
	for i := range columns {
		if first+i < len(SceneColumns) {
			columns[i] = &SceneColumns[first+i]
		}
	}
	return columns
}

// readScene reads a row cell by cell; one that makes no sense, or that the plan refuses, is told and left out. taken are the
// numbers that scenes have already.
func readScene(p *plan.Plan, columns []*SceneColumn, cells []string, taken map[string]bool) PastedRow {
	row := PastedRow{Scene: plan.Scene{ID: "pasted", Setup: 15, Shoot: 20, Importance: plan.Should}}
	for i, cell := range cells {
		if cell = strings.TrimSpace(cell); cell == "" {
			continue
		}
		if i >= len(columns) || columns[i] == nil {
			continue
		}
		c := columns[i]
		refuse := func(why string) {
			row.Refused, row.Without = append(row.Refused, c.Name()+": "+why), append(row.Without, c.Name())
		}
		change, err := c.Read(p, cell)
		if err != nil {
			refuse(tongue.Error(err))
			continue
		}
		tried := plan.New()
		tried.Property, tried.People, tried.Scenes = p.Property, p.People, []plan.Scene{row.Scene}
		change(&tried.Scenes[0])
		// What the rest of the plan names, as a person a rate of the card, is not tried with it.
		if wrong := plan.Validate(tried).At(plan.Wrong).Under("scenes"); len(wrong) > 0 {
			refuse(tongue.Of(wrong[0]))
			continue
		}
		if n := tried.Scenes[0].Number; c.Field == "number" {
			if taken[n] {
				refuse(tongue.Say("%q is taken; it gets another", quoted(n)))
				continue
			}
			taken[n] = true
		}
		row.Scene = tried.Scenes[0]
	}
	for _, c := range TableColumns() {
		text := c.Text
		if c.Shown != nil {
			text = c.Shown
		}
		row.Cells = append(row.Cells, oneLine(text(p, &row.Scene)))
	}
	return row
}

// AddTo puts the scenes into a plan from an index on, and returns their ids.
func (d Pasted) AddTo(p *plan.Plan, at int) []plan.ID {
	var ids []plan.ID
	for i, row := range d.Rows {
		n := p.AddScene(at + i)
		s := row.Scene
		s.ID = p.Scenes[n].ID
		p.Scenes[n] = s
		ids = append(ids, s.ID)
	}
	p.NumberScenes(ids)
	return ids
}

// Summary says what would be added.
func (d Pasted) Summary() string {
	n := 0
	for _, r := range d.Rows {
		n += len(r.Refused)
	}
	text := []string{tongue.Count(len(d.Rows), "%d scene would be added, with %s.", "%d scenes would be added, with %s.", strings.Join(d.Columns, ", "))}
	if n > 0 {
		text = append(text, tongue.Count(n, "Not taken: %d cell, told at the right; the scenes are added without.",
			"Not taken: %d cells, told at the right; the scenes are added without."))
	}
	return strings.Join(append(text, d.Told...), " ")
}

// Refusals list what was not taken, a line a row, as far as anybody reads; nothing where all was.
func (d Pasted) Refusals() string {
	const most = 40
	var lines []string
	for i, r := range d.Rows {
		if len(r.Refused) > 0 {
			name := tongue.Say("Row %d", i+1)
			if title := r.Scene.Title; title != "" {
				name += " (" + quoted(title) + ")"
			}
			lines = append(lines, name+": "+strings.Join(r.Refused, "; ")+".")
		}
	}
	if len(lines) > most {
		lines = append(lines[:most], tongue.Say("And %d rows more.", len(lines)-most))
	}
	return strings.Join(lines, "\n")
}
