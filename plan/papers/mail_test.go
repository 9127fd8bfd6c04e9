package papers

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"io"
	"mime"
	"mime/multipart"
	"mime/quotedprintable"
	"net/mail"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// readBack is a message as a reader that is not ours has it.
type readBack struct {
	Date     string `json:"date"` // RFC 3339
	From, To [][2]string
	Subject  string
	Unsent   string
	Headers  []string // their names
	Kinds    []string // of the parts, outermost first, as they stand
	Text     string
	HTML     string
	Files    []readFile
}

type readFile struct{ Name, Type, Content string } // in base64

// byGo reads a message with Go's net/mail and mime.
func byGo(t testing.TB, raw []byte) readBack {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatalf("%v in\n%s", err, raw)
		}
	}
	m, err := mail.ReadMessage(bytes.NewReader(raw))
	must(err)
	var out readBack
	at, err := m.Header.Date()
	must(err)
	out.Date = at.Format(time.RFC3339)
	for _, f := range []struct {
		name string
		to   *[][2]string
	}{{"From", &out.From}, {"To", &out.To}} {
		if m.Header.Get(f.name) == "" {
			continue
		}
		list, err := m.Header.AddressList(f.name)
		must(err)
		for _, a := range list {
			*f.to = append(*f.to, [2]string{a.Name, a.Address})
		}
	}
	out.Subject, err = new(mime.WordDecoder).DecodeHeader(m.Header.Get("Subject"))
	must(err)
	out.Unsent = m.Header.Get("X-Unsent")
	for name := range m.Header {
		out.Headers = append(out.Headers, name)
	}
	out.byGo(t, m.Header.Get("Content-Type"), "", quotedprintable.NewReader(m.Body), m.Body)
	return out
}

// byGo reads a part, and the parts in it. The body of a message is still encoded; mime/multipart undoes the quoted-printable of its parts.
func (out *readBack) byGo(t testing.TB, head, name string, text, raw io.Reader) {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	kind, params, err := mime.ParseMediaType(head)
	must(err)
	out.Kinds = append(out.Kinds, kind)
	if !strings.HasPrefix(kind, "multipart/") {
		content, err := io.ReadAll(text)
		must(err)
		switch {
		case name != "":
			out.Files = append(out.Files, readFile{name, kind, strings.ReplaceAll(string(content), "\r\n", "")})
		case kind == "text/plain":
			out.Text = string(content)
		case kind == "text/html":
			out.HTML = string(content)
		default:
			t.Fatalf("a part of %s without a name", kind)
		}
		return
	}
	for r := multipart.NewReader(raw, params["boundary"]); ; {
		part, err := r.NextPart()
		if err == io.EOF {
			return
		}
		must(err)
		out.byGo(t, part.Header.Get("Content-Type"), part.FileName(), part, part)
	}
}

// python reads a message with the standard library's parser under its modern policy, and tells what it finds defective. Names are
// taken by its older one: the modern one of Python 3.11 puts a space between the encoded words of a name, against RFC 2047, section 6.2.
const python = `
import base64, email, email.header, email.policy, email.utils, json, sys
raw = sys.stdin.buffer.read()
m = email.message_from_bytes(raw, policy=email.policy.default)
old = email.message_from_bytes(raw)
def people(name):
    spec = [a.addr_spec for a in m[name].addresses] if m[name] else []
    names = [str(email.header.make_header(email.header.decode_header(n))) for n, _ in email.utils.getaddresses(old.get_all(name, []))]
    assert len(spec) == len(names)
    return list(map(list, zip(names, spec)))
defects = [repr(d) for part in m.walk() for d in part.defects]
defects += [repr(d) for k in m for d in m[k].defects]
body, page = m.get_body(("plain",)), m.get_body(("html",))
files = [{"Name": a.get_filename(), "Type": a.get_content_type(), "Content": base64.b64encode(a.get_payload(decode=True)).decode()} for a in m.iter_attachments()]
json.dump({"date": m["Date"].datetime.isoformat(), "From": people("From"), "To": people("To"), "Subject": m["Subject"], "Unsent": m["X-Unsent"],
           "Headers": list(m.keys()), "Text": body.get_content(), "HTML": page.get_content() if page else "",
           "Kinds": [part.get_content_type() for part in m.walk()], "Files": files, "defects": defects}, sys.stdout)
`

// byPython reads a message with Python's standard parser.
func byPython(t testing.TB, raw []byte) readBack {
	t.Helper()
	tool, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed: mails are read back by Go alone")
	}
	cmd := exec.Command(tool, "-c", python)
	cmd.Stdin = bytes.NewReader(raw)
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	told, err := cmd.Output()
	if err != nil {
		t.Fatalf("python3: %v %s\n%s", err, complaints.String(), raw)
	}
	out := struct {
		readBack
		Defects []string
	}{}
	if err := json.Unmarshal(told, &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Defects) > 0 {
		t.Errorf("python3 finds %v in\n%s", out.Defects, raw)
	}
	return out.readBack
}

// wellFormed holds what RFC 5322 and MIME ask of every message: lines of 998 octets at most without their CRLF, which stands nowhere
// else (section 2.1.1, 2.3); ASCII alone (2.1); quoted-printable and base64 lines of 76 (RFC 2045, sections 6.7 (5), 6.8); every
// encoded word of 75 and on a line of 76 at most (RFC 2047, section 2).
func wellFormed(t testing.TB, raw []byte) {
	t.Helper()
	if !bytes.HasSuffix(raw, []byte("\r\n")) && bytes.Contains(raw, []byte("multipart")) {
		t.Error("the last line has no end")
	}
	bare := strings.ReplaceAll(string(raw), "\r\n", "")
	if strings.ContainsAny(bare, "\r\n") {
		t.Errorf("a bare CR or LF in %q", raw)
	}
	head := true
	for line := range strings.SplitSeq(string(raw), "\r\n") {
		if line == "" {
			head = false
		}
		most := 998
		if !head && !strings.HasPrefix(line, "Content-") && !strings.HasPrefix(line, " filename") && !strings.HasPrefix(line, " name") {
			most = 76
		}
		if strings.Contains(line, "=?utf-8?") && head {
			most = 76
		}
		if len(line) > most || strings.ContainsFunc(line, func(r rune) bool { return r > '~' || r < ' ' && r != '\t' }) {
			t.Errorf("a line of %d octets, %d at most: %q", len(line), most, line)
		}
		for _, word := range encodedWord.FindAllString(line, -1) {
			if len(word) > 75 {
				t.Errorf("an encoded word of %d: %s", len(word), word)
			}
			code := strings.TrimSuffix(strings.TrimPrefix(word, "=?utf-8?B?"), "?=")
			if letters, err := base64.StdEncoding.DecodeString(code); err != nil || !utf8.Valid(letters) { // section 5
				t.Errorf("%s cuts a letter in two (%v)", word, err)
			}
		}
	}
}

var encodedWord = regexp.MustCompile(`=\?[^? ]+\?[^? ]\?[^? ]*\?=`)

// TestRFC5322AppendixA_1_1 is the RFC's example of simple addressing: the date in its form, and its people and words read back.
func TestRFC5322AppendixA_1_1(t *testing.T) {
	m := message{
		Date:    time.Date(1997, 11, 21, 9, 55, 6, 0, time.FixedZone("", -6*60*60)),
		From:    mail.Address{Name: "John Doe", Address: "jdoe@machine.example"},
		To:      mail.Address{Name: "Mary Smith", Address: "mary@example.net"},
		Subject: "Saying Hello",
		Text:    "This is a message just to say hello.\nSo, \"Hello\".\n",
	}
	raw := string(m.bytes())
	for _, want := range []string{"Date: Fri, 21 Nov 1997 09:55:06 -0600\r\n", "Subject: Saying Hello\r\n", "\r\n\r\nThis is a message just to say hello.\r\nSo, \"Hello\".\r\n", "X-Unsent: 1\r\n", "MIME-Version: 1.0\r\n"} {
		if !strings.Contains(raw, want) {
			t.Errorf("%q is not in\n%s", want, raw)
		}
	}
	wellFormed(t, []byte(raw))
	for name, got := range map[string]readBack{"Go": byGo(t, []byte(raw)), "Python": byPython(t, []byte(raw))} {
		if got.From[0] != [2]string{"John Doe", "jdoe@machine.example"} || got.To[0] != [2]string{"Mary Smith", "mary@example.net"} ||
			got.Subject != "Saying Hello" || got.Date != "1997-11-21T09:55:06-06:00" || got.Unsent != "1" {
			t.Errorf("%s reads %+v", name, got)
		}
	}
}

// TestRFC2047 holds our encoded words against those of section 8 of the RFC, but for the character set, and against its limits.
func TestRFC2047(t *testing.T) {
	for text, want := range map[string]string{
		"If you can read this yo":   "=?utf-8?B?SWYgeW91IGNhbiByZWFkIHRoaXMgeW8=?=", // section 8, there in ISO-8859-1
		"u understand the example.": "=?utf-8?B?dSB1bmRlcnN0YW5kIHRoZSBleGFtcGxlLg==?=",
		"":                          "",
	} {
		if got := encodedWords("", text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for _, text := range []string{"Keld Jørn Simonsen", strings.Repeat("é", 200), strings.Repeat("家", 200), strings.Repeat("👩‍👩‍👧 ", 50), strings.Repeat("x", 300), "=?utf-8?B?aGVsbG8=?="} {
		raw := field("Subject", text)
		got, err := new(mime.WordDecoder).DecodeHeader(strings.ReplaceAll(strings.TrimSuffix(strings.TrimPrefix(raw, "Subject: "), "\r\n"), "\r\n", ""))
		if err != nil || got != strings.TrimSpace(text) {
			t.Errorf("%q is read as %q (%v)", text, got, err)
		}
		wellFormed(t, []byte(raw))
	}
}

// TestRFC2045QuotedPrintable: rules (1) to (5) of section 6.7 on a text with what they are about: "=", a space at the end of a line,
// letters beyond ASCII, a long line. The readers give back what went in.
func TestRFC2045QuotedPrintable(t *testing.T) {
	text := "1 + 1 = 2 \nÅse, שלום, 家, 👩‍👩‍👧\n" + strings.Repeat("long ", 300) + "\n.\nFrom here\n"
	raw := message{Date: madeAt, Subject: "x", Text: text}.bytes()
	wellFormed(t, raw)
	for _, want := range []string{"1 + 1 =3D 2=20\r\n", "=C3=85se"} {
		if !bytes.Contains(raw, []byte(want)) {
			t.Errorf("%q is not in\n%s", want, raw)
		}
	}
	unix := func(s string) string { return strings.ReplaceAll(s, "\r\n", "\n") }
	if got := unix(byGo(t, raw).Text); got != text {
		t.Errorf("Go reads %q", got)
	}
	if got := unix(byPython(t, raw).Text); got != text {
		t.Errorf("Python reads %q", got)
	}
}

func TestMailAddress(t *testing.T) {
	long := strings.Repeat("a", 250) + "@b.example"
	for _, c := range []struct{ text, want, says string }{
		{" nina@example.org ", "nina@example.org", ""},
		{"Nina <nina@example.org>", "nina@example.org", ""},
		{`"two words"@example.org`, "two words@example.org", ""},
		{"", "", "no mail address"},
		{"nina", "", "is no mail address"},
		{"nina@example.org, theo@example.org", "", "is no mail address"},
		{"nina@example.org\r\nBcc: all@example.org", "", "line break"},
		{"nina@example.org\nBcc: all@example.org", "", "line break"},
		{"nina@example.org\x00", "", "line break"},
		{"üli@example.org", "", "English letters"},
		{long, "", "too long"}, // RFC 5321, section 4.5.3.1.3
	} {
		got, err := mailAddress(c.text)
		if got != c.want || (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %q, %v", c.text, got, err)
		}
	}
}

// TestAttachments: a file comes back octet by octet, its name too, and the parts are told apart whatever is in them.
func TestAttachments(t *testing.T) {
	all := make([]byte, 300)
	for i := range all {
		all[i] = byte(i)
	}
	m := message{Date: madeAt, To: mail.Address{Address: "a@example.org"}, Subject: "x", Text: "--=_0\n--\n"}
	m.Files = []attachment{{Name: "release-model-nina.pdf", Type: "application/pdf", Content: all}, {Name: "release-Åse-家.pdf", Type: "application/pdf", Content: []byte("--=_")}, {Name: "empty.pdf", Type: "application/pdf"}}
	raw := m.bytes()
	wellFormed(t, raw)
	for name, got := range map[string]readBack{"Go": byGo(t, raw), "Python": byPython(t, raw)} {
		var want []readFile
		for _, f := range m.Files {
			want = append(want, readFile{f.Name, f.Type, base64.StdEncoding.EncodeToString(f.Content)})
		}
		if !slices.Equal(got.Files, want) {
			t.Errorf("%s reads %+v", name, got.Files)
		}
		if text := strings.ReplaceAll(got.Text, "\r\n", "\n"); strings.TrimSpace(text) != "--=_0\n--" {
			t.Errorf("%s reads %q", name, text)
		}
	}
	if again := m.bytes(); !bytes.Equal(raw, again) {
		t.Error("the same message is written in two ways")
	}
}

// injections are names and titles that would write header fields of their own, or break one.
var injections = []string{
	"Nina\r\nBcc: everybody@example.org", "Nina\nBcc: everybody@example.org", "Nina\rX-Evil: 1", "a\r\n\r\n<html>body", "\u2028Bcc: x@example.org",
	"\"quoted\" \\ name", "a <b@example.org>", "a, b; c: d", "=?utf-8?B?QmNj?=", "שלום עולם", "\u202egnp.evil", "👩‍👩‍👧 Åse", strings.Repeat("Ødegård ", 25),
	strings.Repeat("x", 200), "\x00\x07", "\xff\xfe", " ", "a\tb", "(comment) name", "name@example.org",
}

func TestHeaderInjection(t *testing.T) {
	for _, s := range injections {
		holdsOne(t, s, byGo)
		holdsOne(t, s, byPython)
	}
}

// holdsOne writes a message with a text everywhere that a plan's text can stand, and finds its own fields in it and no other.
func holdsOne(t testing.TB, s string, read func(testing.TB, []byte) readBack) {
	t.Helper()
	// Go's reader takes a path for its last part, and an encoded word for a word, which RFC 2047, section 5 (3), has it leave alone.
	file := strings.NewReplacer("/", "-", `\`, "-", "=?", "-").Replace(oneLine(s)) + ".pdf"
	raw := message{Date: madeAt, From: mail.Address{Name: s, Address: "jo@example.org"}, To: mail.Address{Name: s, Address: "nina@example.org"},
		Subject: s, Text: s, HTML: s + ".", Files: []attachment{{Name: file, Type: "application/pdf", Content: []byte(s)}}}.bytes()
	wellFormed(t, raw)
	got := read(t, raw)
	// RFC 2046, section 5.1.4: the plainest first; section 5.1.3: the files after it.
	if want := []string{"multipart/mixed", "multipart/alternative", "text/plain", "text/html", "application/pdf"}; !slices.Equal(got.Kinds, want) {
		t.Errorf("%q: the parts are %v", s, got.Kinds)
	}
	if len(got.Files) != 1 || got.Files[0].Name != file {
		t.Errorf("%q: the files are %+v, want %q", s, got.Files, file)
	}
	slices.Sort(got.Headers)
	if want := []string{"Content-Type", "Date", "From", "Mime-Version", "Subject", "To", "X-Unsent"}; !slices.EqualFunc(got.Headers, want, strings.EqualFold) {
		t.Errorf("%q: the fields are %v", s, got.Headers)
	}
	name := oneLine(s)
	if len(got.To) != 1 || got.To[0] != [2]string{name, "nina@example.org"} || len(got.From) != 1 || got.From[0] != [2]string{name, "jo@example.org"} || got.Subject != name {
		t.Errorf("%q is read as from %q, to %q, %q", s, got.From, got.To, got.Subject)
	}
}

func FuzzMail(f *testing.F) {
	for _, s := range injections {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 5000 {
			return
		}
		holdsOne(t, s, byGo)
	})
}
