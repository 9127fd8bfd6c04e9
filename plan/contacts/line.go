package contacts

import (
	"bytes"
	"iter"
	"regexp"
	"slices"
	"strings"
)

// property is one content line of a card (RFC 6350, section 3.3), taken apart. The value is as it stands in the file.
type property struct {
	line   int
	group  string
	name   string // in capitals
	params []param
	value  []byte
}

// param is a parameter of a property; its name is in capitals.
type param struct {
	name   string
	values []string
}

// get returns all values of a parameter.
func (p property) get(name string) []string {
	var out []string
	for _, q := range p.params {
		if q.name == name {
			out = append(out, q.values...)
		}
	}
	return out
}

// has reports whether a parameter has a value, in whatever case.
func (p property) has(name, value string) bool {
	return slices.ContainsFunc(p.get(name), func(v string) bool { return strings.EqualFold(v, value) })
}

// logical is a line after unfolding, and where it began.
type logical struct {
	text   []byte
	number int
}

// unfold makes the content lines whole again, empty ones left out. A line that begins with a blank goes on with the line
// before (RFC 6350, section 3.2). In vCard 2.1 the blank belongs to the text; there, quoted-printable text goes on after a
// line that ends with "=", and base64 also goes on without any blank.
func unfold(data []byte) iter.Seq[logical] {
	return func(yield func(logical) bool) {
		var last logical
		old := false // the card is a 2.1
		for number := 1; len(data) > 0; number++ {
			var l []byte
			l, data = cutLine(data)
			head := headOf(last.text)
			switch {
			case head.quoted && bytes.HasSuffix(last.text, []byte("=")):
				last.text = append(last.text[:len(last.text)-1], l...)
			case len(last.text) > 0 && len(l) > 0 && (l[0] == ' ' || l[0] == '\t'):
				if !old || head.base64 {
					l = l[1:]
				}
				last.text = append(last.text, l...)
			case head.base64 && base64Line.Match(l):
				last.text = append(last.text, l...)
			case len(l) > 0:
				if len(last.text) > 0 && !yield(last) {
					return
				}
				old = is(l, "VERSION:2.1") || old && !is(l, "BEGIN:VCARD")
				last = logical{slices.Clone(l), number}
			}
		}
		if len(last.text) > 0 {
			yield(last)
		}
	}
}

var base64Line = regexp.MustCompile(`^[A-Za-z0-9+/]{4,}={0,2}$`)

// cutLine cuts the first line off, which ends with CRLF, or as it should not with LF or CR alone.
func cutLine(data []byte) (line, rest []byte) {
	i := bytes.IndexAny(data, "\r\n")
	if i < 0 {
		return data, nil
	}
	if data[i] == '\r' && i+1 < len(data) && data[i+1] == '\n' {
		return data[:i], data[i+2:]
	}
	return data[:i], data[i+1:]
}

// headOf tells from the beginning of a content line how its value is encoded. It looks at no more than could be a head, so
// that a line which grows to megabytes isn't looked through at each step.
func headOf(line []byte) (is struct{ quoted, base64 bool }) {
	head, _, ok := bytes.Cut(line[:min(len(line), 500)], []byte(":"))
	if !ok || !bytes.Contains(head, []byte(";")) {
		return is
	}
	head = bytes.ToUpper(head)
	is.quoted = bytes.Contains(head, []byte("QUOTED-PRINTABLE"))
	is.base64 = bytes.Contains(head, []byte("BASE64")) || bytes.Contains(head, []byte("ENCODING=B"))
	return is
}

var (
	propertyName = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)
	bareEncoding = regexp.MustCompile(`^(?i:quoted-printable|base64|8bit|7bit)$`)
)

// parse takes a content line apart. ok is false for what is none.
func parse(l logical) (p property, ok bool) {
	end := outside(l.text, ':')
	if end < 0 { // a quotation mark that nobody closed
		end = bytes.IndexByte(l.text, ':')
	}
	if end < 0 {
		return p, false
	}
	head, _ := decoded(l.text[:end])
	parts := splitOutside(head, ';')
	p = property{line: l.number, name: strings.TrimSpace(parts[0]), value: l.text[end+1:]}
	if i := strings.LastIndexByte(p.name, '.'); i >= 0 {
		p.group, p.name = strings.ToUpper(p.name[:i]), p.name[i+1:]
	}
	if !propertyName.MatchString(p.name) {
		return p, false
	}
	p.name = strings.ToUpper(p.name)
	for _, s := range parts[1:] {
		if s = strings.TrimSpace(s); s != "" {
			p.params = append(p.params, parseParam(s))
		}
	}
	return p, true
}

// parseParam reads NAME=VALUE,VALUE. In vCard 2.1 a value may stand alone; it is then a type, or an encoding.
func parseParam(s string) param {
	name, rest, named := strings.Cut(s, "=")
	if !named {
		name, rest = "TYPE", s
		if bareEncoding.MatchString(s) {
			name = "ENCODING"
		}
	}
	p := param{name: strings.ToUpper(strings.TrimSpace(name))}
	for _, v := range splitOutside(rest, ',') {
		v = strings.Trim(strings.TrimSpace(v), `"`)
		// Types in quotation marks may hold several (RFC 6350 prints such a one); nothing else has commas in it.
		for _, one := range strings.Split(v, ",") {
			p.values = append(p.values, caret.Replace(one))
		}
	}
	return p
}

// caret undoes the escapes of parameter values (RFC 6868).
var caret = strings.NewReplacer("^^", "^", "^n", "\n", "^'", `"`)

// outside finds a byte that does not stand in quotation marks; -1 where there is none.
func outside(s []byte, c byte) int {
	quoted := false
	for i, b := range s {
		switch {
		case b == '"':
			quoted = !quoted
		case b == c && !quoted:
			return i
		}
	}
	return -1
}

// splitOutside splits at every c that does not stand in quotation marks. It returns one part at least.
func splitOutside(s string, c byte) []string {
	quoted := false
	var out []string
	from := 0
	for i := range len(s) {
		switch {
		case s[i] == '"':
			quoted = !quoted
		case s[i] == c && !quoted:
			out, from = append(out, s[from:i]), i+1
		}
	}
	return append(out, s[from:])
}

// parts splits a compound value at a mark that is not escaped; the parts are still escaped.
func parts(s string, mark byte) []string {
	var out []string
	from := 0
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case mark:
			out, from = append(out, s[from:i]), i+1
		}
	}
	return append(out, s[from:])
}

// The escapes of text (RFC 6350, section 3.4). vCard 2.1 knew them for the marks of a compound value only; there, C:\new is
// what it looks like.
var (
	unescaped    = strings.NewReplacer(`\\`, `\`, `\n`, "\n", `\N`, "\n", `\,`, ",", `\;`, ";", `\:`, ":")
	unescapedOld = strings.NewReplacer(`\,`, ",", `\;`, ";")
	escaped      = strings.NewReplacer(`\`, `\\`, "\n", `\n`, ",", `\,`, ";", `\;`)
)
