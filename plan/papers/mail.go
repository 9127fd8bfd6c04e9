package papers

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"maps"
	"mime"
	"mime/quotedprintable"
	"net/mail"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"eavelight/plan/say"
)

// message is a mail that nobody has sent yet, as RFC 5322 and MIME have it. It has no From where nobody is known to send it, and no
// Message-ID: the program that sends it fills them in.
type message struct {
	Date     time.Time
	From, To mail.Address // an empty address is none
	Subject  string
	Text     string // its lines ended by LF
	HTML     string // the same, for who can show it; empty: none
	Files    []attachment
}

type attachment struct {
	Name, Type string
	Params     map[string]string // of the type
	Content    []byte
}

const (
	crlf     = "\r\n"
	mailDate = "Mon, 02 Jan 2006 15:04:05 -0700" // RFC 5322, section 3.3
	lineMost = 78                                // characters a line should have, RFC 5322, section 2.1.1
)

// mailAddress reads the one address that a field of the plan may hold, without a name. RFC 5321, section 4.5.3.1.3, allows a path
// of 256 octets, its brackets included; letters other than English ones would need RFC 6531, which few programs have.
func mailAddress(text string) (string, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", say.Error("no mail address")
	}
	if strings.ContainsFunc(text, unicode.IsControl) {
		return "", say.Error("%q is no mail address: it holds a line break or another sign that can't be seen", shortened(text))
	}
	a, err := mail.ParseAddress(text)
	switch {
	case err != nil || strings.ContainsFunc(a.Address, unicode.IsControl): // "a\<LF>b"@c
		return "", say.Error("%q is no mail address", shortened(text))
	case len(a.Address) > 254:
		return "", say.Error("%q is too long for a mail address", shortened(text))
	case strings.ContainsFunc(a.Address, func(r rune) bool { return r > unicode.MaxASCII }):
		return "", say.Error("%q holds letters that many mail programs can't send to; use an address of English letters", shortened(text))
	}
	return a.Address, nil
}

func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}

// bytes is the whole message, the same for the same content.
func (m message) bytes() []byte {
	var out bytes.Buffer
	out.WriteString("X-Unsent: 1" + crlf) // mail programs open it for editing
	out.WriteString("Date: " + m.Date.Format(mailDate) + crlf)
	for _, at := range []struct {
		name string
		mail.Address
	}{{"From", m.From}, {"To", m.To}} {
		if at.Address.Address != "" {
			out.WriteString(addressField(at.name, at.Address))
		}
	}
	out.WriteString(field("Subject", m.Subject))
	out.WriteString("MIME-Version: 1.0" + crlf)
	body := textPart("text/plain", m.Text)
	if m.HTML != "" {
		// The plainest comes first, and a reader shows the last that it can (RFC 2046, section 5.1.4).
		body = manyParts("alternative", [][]byte{body, textPart("text/html", m.HTML)})
	}
	if len(m.Files) > 0 {
		parts := [][]byte{body}
		for _, f := range m.Files {
			parts = append(parts, filePart(f))
		}
		body = manyParts("mixed", parts)
	}
	out.Write(body)
	return out.Bytes()
}

// manyParts puts parts into one. "=_" stands in no quoted-printable and in no base64 text (RFC 2045, section 6.7), and no two digests are
// the same, so that no line of a part is the boundary.
func manyParts(kind string, parts [][]byte) []byte {
	sum := sha256.Sum256(bytes.Join(parts, nil))
	boundary := "=_" + hex.EncodeToString(sum[:16])
	var out bytes.Buffer
	out.WriteString("Content-Type: multipart/" + kind + ";" + crlf + ` boundary="` + boundary + `"` + crlf + crlf)
	for _, part := range parts {
		out.WriteString("--" + boundary + crlf)
		out.Write(part)
		out.WriteString(crlf)
	}
	out.WriteString("--" + boundary + "--" + crlf)
	return out.Bytes()
}

func textPart(kind, text string) []byte {
	var out bytes.Buffer
	out.WriteString("Content-Type: " + kind + "; charset=utf-8" + crlf + "Content-Transfer-Encoding: quoted-printable" + crlf + crlf)
	w := quotedprintable.NewWriter(&out)
	_, _ = w.Write([]byte(strings.ToValidUTF8(text, "\ufffd"))) // a buffer takes everything
	_ = w.Close()
	return out.Bytes()
}

func filePart(f attachment) []byte {
	var out bytes.Buffer
	param := func(head, key string, more map[string]string) {
		params := map[string]string{key: f.Name}
		maps.Copy(params, more)
		out.WriteString(strings.Replace(mime.FormatMediaType(head, params), "; ", ";"+crlf+" ", len(params)) + crlf)
	}
	out.WriteString("Content-Type: ")
	param(f.Type, "name", f.Params)
	out.WriteString("Content-Disposition: ")
	param("attachment", "filename", nil)
	out.WriteString("Content-Transfer-Encoding: base64" + crlf + crlf)
	code := base64.StdEncoding.EncodeToString(f.Content)
	for len(code) > 76 { // RFC 2045, section 6.8
		out.WriteString(code[:76] + crlf)
		code = code[76:]
	}
	out.WriteString(code)
	return out.Bytes()
}

// addressField is a header field of one address, on a line of its own where the name leaves no room.
func addressField(name string, a mail.Address) string {
	spec := (&mail.Address{Address: a.Address}).String()
	who := oneLine(a.Name)
	switch quoted := `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(who) + `"`; {
	case who == "":
		return name + ": " + spec + crlf
	case plainWords(who) && len(name+": "+quoted) <= lineMost:
		return name + ": " + quoted + crlf + " " + spec + crlf
	}
	return encodedWords(name+": ", who) + crlf + " " + spec + crlf
}

// field is a header field of any text.
func field(name, text string) string {
	text = oneLine(text)
	if plainWords(text) && len(name+": "+text) <= lineMost {
		return name + ": " + text + crlf
	}
	return encodedWords(name+": ", text) + crlf
}

// plainWords reports whether a text can stand in a header as it is: nothing but ASCII, and nothing that reads as an encoded word.
func plainWords(s string) bool {
	for _, r := range s {
		if r < ' ' || r > '~' {
			return false
		}
	}
	return !strings.Contains(s, "=?")
}

// encodedWords writes a text in the words of RFC 2047, a line each, the first behind the name of its field. A word is 75 characters
// at most, a line with one 76 (section 2), and no letter is cut in two (section 5).
func encodedWords(head, s string) string {
	const open, end = "=?utf-8?B?", "?="
	out := head
	for room := 76 - len(head); len(s) > 0; room = 75 {
		n := min((room-len(open+end))/4*3, len(s)) // octets that fit
		for n < len(s) && !utf8.RuneStart(s[n]) {
			n--
		}
		if out != head {
			out += crlf + " "
		}
		out += open + base64.StdEncoding.EncodeToString([]byte(s[:n])) + end
		s = s[n:]
	}
	return out
}

// oneLine takes out of a name or a title whatever could end a line.
func oneLine(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.In(r, unicode.Zl, unicode.Zp) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return strings.Join(strings.Fields(s), " ")
}

// manyLines is a text of several lines, without blank ones and whatever can't be seen.
func manyLines(s string) string {
	var out []string
	for line := range strings.FieldsFuncSeq(s, func(r rune) bool { return strings.ContainsRune("\n\r\v\f\u0085\u2028\u2029", r) }) {
		if line = oneLine(line); line != "" {
			out = append(out, line)
		}
	}
	return strings.Join(out, "\n")
}
