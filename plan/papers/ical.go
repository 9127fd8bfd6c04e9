package papers

import (
	"bytes"
	"net/mail"
	"net/url"
	"strings"
	"unicode"
	"unicode/utf8"
)

// calendarFold is how many octets a line of a calendar should have at most, without its end (RFC 5545, section 3.1).
const calendarFold = 75

// calendarLine writes a content line, folded where it is too long, but never within a letter.
func calendarLine(out *bytes.Buffer, line string) {
	for room := calendarFold; len(line) > room; room = calendarFold - 1 { // the blank is one octet
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		out.WriteString(line[:cut] + crlf + " ")
		line = line[cut:]
	}
	out.WriteString(line + crlf)
}

// calendarText is any text as a TEXT value (RFC 5545, section 3.3.11): its line breaks, of whatever kind, are written \n, so that
// nothing in it ends the line. Other signs that can't be seen are none of a text.
func calendarText(s string) string {
	s = strings.ReplaceAll(strings.ToValidUTF8(s, "\ufffd"), crlf, "\n")
	var out strings.Builder
	for _, r := range strings.TrimSpace(s) {
		switch {
		case r == '\n', r == '\r', r == '\v', r == '\f', r == '\u0085', unicode.In(r, unicode.Zl, unicode.Zp):
			out.WriteString(`\n`)
		case r == '\t':
			out.WriteByte(' ')
		case unicode.IsControl(r):
		case r == '\\', r == ';', r == ',':
			out.WriteString(`\` + string(r))
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}

// organizer names who makes the film (RFC 5545, section 3.8.4.3). A quoted parameter can hold no quotation mark (section 3.2), and a
// circumflex only doubled (RFC 6868).
func organizer(a mail.Address) string {
	spec := strings.Trim((&mail.Address{Address: a.Address}).String(), "<>")
	out := "ORGANIZER"
	if name := strings.NewReplacer(`"`, "’", "^", "^^").Replace(oneLine(a.Name)); name != "" {
		out += `;CN="` + name + `"`
	}
	return out + ":mailto:" + url.PathEscape(spec) // RFC 6068, section 2
}
