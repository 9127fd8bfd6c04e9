package papers

import (
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
		say(s.Key.Name, ": ", s.Key.Text)
	}
	for _, sec := range s.Sections {
		if sec.empty() {
			continue
		}
		say()
		say(strings.ToUpper(sec.Heading))
		for _, f := range append(sec.Strip[:len(sec.Strip):len(sec.Strip)], sec.Facts...) {
			say(f.Name, ": ", strings.ReplaceAll(f.Text, "\n", "\n  "))
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
	}
	say()
	say(s.Foot)
	return b.String()
}

func (s Section) empty() bool {
	return len(s.Strip)+len(s.Facts)+len(s.Text)+len(s.Table.Rows)+len(s.List) == 0
}

// say is a row on one line where it is short, else with a line for each further cell under its column's name.
func (t Table) say(r Row) string {
	var cells []string
	for i, c := range r.Cells {
		text := c.Strong
		if c.Text != "" {
			text = lines(text, c.Text)
		}
		text = strings.ReplaceAll(text, "\n", "; ")
		if i > 0 && !r.Aside && i < len(t.Columns) {
			text = strings.ToLower(t.Columns[i].Head) + " " + text
		}
		cells = append(cells, text)
	}
	one := strings.Join(cells, " · ")
	if utf8.RuneCountInString(one) <= textWidth {
		return one
	}
	return strings.Join(cells, "\n  ")
}
