package contacts

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Contacts makes people of the rows, one each, in their order. The problems tell what could not be taken as it stands; such
// a cell is in the notes of its person. A date of birth after today is refused; a zero today checks nothing.
func (t *Table) Contacts(m Match, today plan.Date) ([]Contact, []Problem) {
	found := problems{list: slices.Clone(t.found.list), more: t.found.more}
	for _, r := range t.Above {
		found.add(r.Line, 0, say.That("this stands above the headings and was left out: %s", short(strings.Join(r.Cells, " "))))
	}
	m.Dates = cmp.Or(m.Dates, t.dates(m))
	labels := slices.Clone(t.Headings) // in the notes; remarks stand there without
	for i, h := range labels {
		if isNotes(h) {
			labels[i] = ""
		}
	}
	out := make([]Contact, 0, len(t.Rows))
	for _, row := range t.Rows {
		r := newReading(row.Line, today, &found)
		t.names(r, row, m)
		for i, text := range row.Cells {
			if text == "" {
				continue
			}
			at := place{row.Line, i + 1, t.heading(i)}
			if i < len(labels) && m.field(i) == FieldNotes {
				at.label = labels[i]
			}
			t.cell(r, at, m.field(i), m.Dates, text)
		}
		if r.c.Person.Name == "" {
			found.add(row.Line, 0, say.That("this person has no name; type one"))
		}
		if len(row.Cells) > len(t.Headings) {
			found.add(row.Line, len(t.Headings)+1, say.That("this row has more cells than there are headings; they stand in the notes"))
		}
		out = append(out, r.done())
	}
	return out, found.all()
}

func (m Match) field(column int) Field {
	if column < len(m.Fields) {
		return m.Fields[column]
	}
	return FieldNotes
}

// heading is what a column is called in the notes.
func (t *Table) heading(column int) string {
	if column < len(t.Headings) {
		return t.Headings[column]
	}
	return unnamed(column)
}

// Heading is what a column is called to the user.
func (t *Table) Heading(column int) say.Text {
	if h := t.heading(column); h != unnamed(column) {
		return say.Plain(short(h))
	}
	return say.That("Column %d", column+1)
}

// unnamed is what a column without a heading is called.
func unnamed(column int) string { return fmt.Sprintf("Column %d", column+1) }

// names puts the name together: a whole one, or else first and last names. What of these is in no whole name is noted.
func (t *Table) names(r *reading, row Row, m Match) {
	of := func(want Field) (all []string, at place) {
		for i, text := range row.Cells {
			if m.field(i) == want && text != "" {
				if at.line == 0 {
					at = place{row.Line, i + 1, t.heading(i)}
				}
				all = append(all, oneLine(text))
			}
		}
		return all, at
	}
	whole, at := of(FieldName)
	for _, n := range whole {
		r.name(at, n)
	}
	given, at := of(FieldGiven)
	family, familyAt := of(FieldFamily)
	if at.line == 0 {
		at = familyAt
	}
	if inParts := strings.Join(append(given, family...), " "); !within(inParts, r.c.Person.Name) {
		r.name(at, inParts)
	}
}

// cell takes one cell that holds something. names has seen to the names.
func (t *Table) cell(r *reading, at place, f Field, dates DateOrder, text string) {
	p := &r.c.Person
	unread := func(problem say.Text) {
		r.found.add(at.line, at.column, problem)
		r.note(at.label, text)
	}
	switch f {
	case FieldName, FieldGiven, FieldFamily, FieldLeaveOut:
	case FieldPhone:
		r.phone(at, text)
	case FieldEmail:
		r.email(at, text)
	case FieldRole:
		r.role(at, text)
	case FieldJob, FieldPronouns, FieldSizes, FieldDiet:
		r.fact(at, textOf(p, f), text)
	case FieldMinor, FieldPaid:
		yes, ok := truth(text)
		switch {
		case !ok:
			unread(say.That("%s: %q is no yes or no; it stands in the notes", t.Heading(at.column-1), short(text)))
		case f == FieldMinor:
			p.Minor = p.Minor || yes
		default:
			p.Paid = p.Paid || yes
		}
	case FieldTravel:
		switch n, ok := minutes(text); {
		case !ok:
			unread(say.That("%s: %q is no number of minutes; it stands in the notes", t.Heading(at.column-1), short(text)))
		case p.Travel > 0 && n != p.Travel:
			r.note(at.label, text)
		default:
			p.Travel = n
		}
	case FieldBorn:
		r.bornOn(at, text, dates)
	default:
		r.note(at.label, text)
	}
}

// bornOn sets the date of birth.
func (r *reading) bornOn(at place, text string, order DateOrder) {
	d, clash, ok := readDate(text, order)
	switch {
	case ok:
		r.born(at, d, text)
		return
	case clash:
		r.found.add(at.line, at.column, say.That("%q can be two dates; say whether the day or the month comes first. It stands in the notes", short(text)))
	default:
		r.found.add(at.line, at.column, say.That("%q is not a date of birth, as in 2015-04-03; it stands in the notes", short(text)))
	}
	r.note(at.label, text)
}

var minutesForm = regexp.MustCompile(`^(\d{1,4})\s*(?i:m|min|min\.|mins|minutes|minuten|minutos)?$`)

// minutes reads whole minutes, up to a day.
func minutes(s string) (plan.Minutes, bool) {
	m := minutesForm.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, false
	}
	n, err := strconv.Atoi(m[1])
	return plan.Minutes(n), err == nil && n <= 24*60
}
