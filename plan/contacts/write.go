package contacts

import (
	"bufio"
	"cmp"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"
)

// foldAt is the most octets of a line, its end left out (RFC 6350, section 3.2).
const foldAt = 75

// WriteCards writes people as vCard 4.0 (RFC 6350, and RFC 9554 for pronouns): name, phone, email, job, role, date of birth,
// notes, and the identifier, which is made by UID where a contact has none. What a plan knows of a person besides (hours, pay,
// guardian, sizes, and diet, which is a note on health) stays in it.
// Who may be given whose contact, a minor's above all, is for the caller to say. The error is one of writing.
func WriteCards(w io.Writer, contacts []Contact) error { return writeCards(w, contacts, nil) }

// writeCards writes cards, and in each what more adds.
func writeCards(w io.Writer, contacts []Contact, more func(c Contact, line func(name, value string))) error {
	out := bufio.NewWriter(w)
	for _, c := range contacts {
		p := c.Person
		line := func(name, value string) {
			if value != "" {
				fold(out, name+":"+value)
			}
		}
		text := func(name, value string) { line(name, escaped.Replace(value)) }
		line("BEGIN", "VCARD")
		line("VERSION", "4.0")
		uid(line, "UID", cmp.Or(oneLine(c.UID), UID(p)))
		text("FN", cmp.Or(oneLine(p.Name), oneLine(p.Email), oneLine(p.Phone), string(p.ID), "?")) // there must be one
		text("TEL", oneLine(p.Phone))
		text("EMAIL", oneLine(p.Email))
		text("ROLE", oneLine(p.Job))
		text("CATEGORIES", string(p.Role))
		text("PRONOUNS", oneLine(p.Pronouns))
		line("BDAY", strings.ReplaceAll(p.Born.String(), "-", ""))
		text("NOTE", manyLines(p.Notes))
		if more != nil {
			more(c, line)
		}
		line("END", "VCARD")
	}
	return out.Flush()
}

// uri matches what may stand in a card as it is; what other programs have as identifiers is often none.
var uri = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:[!-~]+$`)

func uid(line func(name, value string), property, id string) {
	if uri.MatchString(id) {
		line(property, id)
		return
	}
	line(property+";VALUE=text", escaped.Replace(id))
}

// fold writes one content line, cut where it would be too long, but never within a letter.
func fold(w *bufio.Writer, line string) {
	line = strings.ToValidUTF8(line, "\ufffd")
	room := foldAt
	for len(line) > room {
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		w.WriteString(line[:cut] + "\r\n ")
		line, room = line[cut:], foldAt-1 // the blank is one octet
	}
	w.WriteString(line + "\r\n")
}
