package papers

import (
	"strings"
	"sync"
	"unicode"

	"eavelight/assets"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// box stands for a character that the fonts lack. They lack it too, which is why it prints as their empty box.
const box = '□'

// printable brings a text into the form that prints: composed letters, plain line ends, no invisible marks, and a box for
// each character that the fonts lack.
func printable(s string) string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(lineEnds, r):
			return '\n'
		case r == '\t':
			return ' '
		case invisible(r):
			return -1
		case !hasGlyph(r):
			return box
		}
		return r
	}, norm.NFC.String(s))
}

const lineEnds = "\n\r\v\f\u2028\u2029"

// invisible tells the controls, joiners and direction marks that leave nothing on paper.
func invisible(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r)
}

// hasGlyph reports whether both weights have a character. The print library holds characters of the basic plane only.
func hasGlyph(r rune) bool {
	if r > 0xFFFF {
		return false
	}
	for _, f := range weights() {
		if g, err := f.GlyphIndex(nil, r); err != nil || g == 0 {
			return false
		}
	}
	return true
}

// weights are the two weights of our type, the regular one first.
var weights = sync.OnceValue(func() []*sfnt.Font {
	var out []*sfnt.Font
	for _, data := range [][]byte{assets.SansRegular, assets.SansBold} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic("the built-in font is damaged: " + err.Error()) // a fault of the build, not of a plan
		}
		out = append(out, f)
	}
	return out
})

// Unprintable lists, in the order they come, the characters of the sheet that print as an empty box, each once.
func (s Sheet) Unprintable() []rune {
	var out []rune
	seen := map[rune]bool{}
	for _, r := range lineEnds {
		seen[r] = true
	}
	s.each(func(text string) {
		for _, r := range norm.NFC.String(text) {
			if !seen[r] && !invisible(r) && !hasGlyph(r) {
				out = append(out, r)
			}
			seen[r] = true
		}
	})
	return out
}

// each visits every text of the sheet in reading order.
func (s Sheet) each(visit func(string)) {
	all := func(texts ...string) {
		for _, t := range texts {
			visit(t)
		}
	}
	mark := func(words string) {
		if words != "" {
			visit(words)
		}
	}
	facts := func(list []Fact, marks map[string]string) {
		for _, f := range list {
			all(f.Name, f.Text)
			mark(marks[f.Name])
		}
	}
	all(s.Kind, s.Title)
	all(s.Lines...)
	facts([]Fact{s.Key}, nil)
	all(s.KeyNote)
	mark(s.KeyMark)
	for _, sec := range s.Sections {
		if sec.empty() {
			continue
		}
		all(sec.Heading)
		mark(sec.Marks[""])
		facts(sec.Strip, nil)
		facts(sec.Facts, sec.Marks)
		all(sec.Text...)
		for _, c := range sec.Table.Columns {
			if len(sec.Table.Rows) > 0 {
				all(c.Head)
			}
		}
		for _, row := range sec.Table.Rows {
			for _, cell := range row.Cells {
				all(cell.Strong, cell.Text)
			}
			all(row.Note)
			mark(row.Mark)
		}
		all(sec.List...)
		all(sec.Blanks...)
		all(sec.Small...)
	}
	all(s.Foot)
}
