package papers

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// textWidth is how long a line of plain text grows before a row is written on several.
const textWidth = 76

// spaces turns the spaces that keep a print together into plain ones, which a search finds.
var spaces = strings.NewReplacer("\u00a0", " ", "\u2002", " ")

// Text says the sheet in plain text, for a preview and for a message: no columns, no marks, one thing a line.
func (s Sheet) Text() string {
	var b strings.Builder
	say := func(parts ...string) {
		text := spaces.Replace(strings.Join(parts, ""))
		b.WriteString(strings.TrimRight(text, " "))
		b.WriteByte('\n')
	}
	say(strings.ToUpper(s.Kind))
	say(s.Title)
	for _, l := range s.Lines {
		say(l)
	}
	if s.Key != (Fact{}) {
		say(s.Key.Name, ": ", s.Key.Text, marked(s.KeyMark))
	}
	if s.KeyNote != "" {
		say(s.KeyNote)
	}
	for _, sec := range s.Sections {
		if sec.empty() {
			continue
		}
		say()
		say(strings.ToUpper(sec.Heading), marked(sec.Marks[""]))
		if sec.Figure != nil {
			say(sec.Figure.Words())
		}
		for _, f := range sec.Strip {
			say(f.Name, ": ", f.Text)
		}
		for _, f := range sec.Facts {
			say(f.Name, marked(sec.Marks[f.Name]), ": ", strings.ReplaceAll(f.Text, "\n", "\n  "))
		}
		if sec.Beside != nil {
			say(sec.Beside.Words())
		}
		for _, t := range sec.Text {
			say(t)
		}
		for _, r := range sec.Table.Rows {
			say(sec.Table.say(r))
		}
		for _, t := range sec.List {
			say("- ", strings.ReplaceAll(t, "\n", "\n  "))
		}
		for _, name := range sec.Blanks {
			say(name, ": ____________________")
		}
		for _, t := range sec.Small {
			say(t)
		}
	}
	say()
	say(s.Foot)
	return b.String()
}

// marked is a mark in plain text.
func marked(mark string) string {
	if mark == "" {
		return ""
	}
	return " [" + mark + "]"
}

func (s Section) empty() bool {
	return s.Figure == nil && s.Beside == nil && len(s.Strip)+len(s.Facts)+len(s.Text)+len(s.Table.Rows)+len(s.List)+len(s.Blanks)+len(s.Small) == 0
}

// say is a row: its strong parts on a line, and its figures, then what else its cells hold, under their columns' names where they
// have no strong part of their own; on one line where it is short.
func (t Table) say(r Row) string {
	var first, rest []string
	for i, c := range r.Cells {
		text := strings.ReplaceAll(c.Text, "\n", "; ")
		switch {
		case c.Strong != "":
			first = append(first, c.Strong)
			rest = append(rest, strings.Split(c.Text, "\n")...)
		case text == "":
		case r.Aside, r.Tick, i < len(t.Columns) && (i == 0 || t.right(i)):
			first = append(first, text)
		case i < len(t.Columns) && t.Columns[i].Head != "":
			rest = append(rest, strings.ToLower(t.Columns[i].Head)+": "+text)
		default:
			rest = append(rest, text)
		}
	}
	rest = slices.DeleteFunc(rest, func(s string) bool { return s == "" })
	title := strings.Join(slices.DeleteFunc(first, func(s string) bool { return s == "" }), " · ") + marked(r.Mark)
	if r.Tick {
		title = "[ ] " + title
	}
	if one := strings.Join(rest, " · "); utf8.RuneCountInString(one) <= textWidth {
		rest = rest[:0]
		if one != "" {
			rest = append(rest, one)
		}
	}
	if r.Note != "" {
		rest = append(rest, strings.ReplaceAll(r.Note, "\n", "; "))
	}
	return strings.Join(append([]string{title}, rest...), "\n  ")
}
