package papers

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
)

// htmlMay are the elements of a letter, each with the attributes that it may have; nothing in them loads anything.
var htmlMay = map[string][]string{
	"html": {"lang", "style"}, "head": nil, "meta": {"charset", "name", "content"}, "title": nil, "body": {"style"}, "div": {"style"},
	"p": {"dir", "style"}, "h2": {"dir", "style"}, "ul": {"style"}, "li": {"style"}, "span": {"dir"}, "strong": {"style"}, "br": nil, "a": {"href", "style"},
}

// htmlLinks are RFC 3966, section 3, without its separators, and RFC 5870, section 3.3, of two coordinates.
var htmlLinks = regexp.MustCompile(`^(tel:\+?[0-9]{3,}|geo:-?[0-9]+(\.[0-9]+)?,-?[0-9]+(\.[0-9]+)?)$`)

// strictHTML reads a letter as XML, which forgives nothing, holds it to the table above and returns what its body shows, word by word.
func strictHTML(t testing.TB, page string) (words []string) {
	t.Helper()
	body := false
	for d := xml.NewDecoder(strings.NewReader(page)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return words
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, page)
		}
		switch token := token.(type) {
		case xml.StartElement:
			body = body || token.Name.Local == "body"
			may, known := htmlMay[token.Name.Local]
			if !known {
				t.Errorf("<%s> in\n%s", token.Name.Local, page)
			}
			for _, a := range token.Attr {
				if !slices.Contains(may, a.Name.Local) || a.Name.Local == "href" && !htmlLinks.MatchString(a.Value) || a.Name.Local == "style" && strings.Contains(a.Value, "url") {
					t.Errorf(`<%s %s="%s"> in`+"\n%s", token.Name.Local, a.Name.Local, a.Value, page)
				}
			}
		case xml.CharData:
			if body {
				words = append(words, strings.Fields(string(token))...)
			}
		case xml.Comment, xml.ProcInst:
			t.Errorf("%T in\n%s", token, page)
		}
	}
}

// textWords are the words of a letter's text, without the dashes before its points. What no document may hold is shown as lost.
func textWords(text string) []string {
	var out []string
	text = strings.NewReplacer("\ufffe", "\ufffd", "\uffff", "\ufffd").Replace(text)
	for line := range strings.SplitSeq(text, "\n") {
		out = append(out, strings.Fields(strings.TrimPrefix(line, "- "))...)
	}
	return out
}

// sameWords holds both forms of a letter against each other. Words may be set apart otherwise: a link begins within none.
func sameWords(t testing.TB, d Draft) {
	t.Helper()
	text, page := strings.Join(textWords(d.Text), ""), strings.Join(strictHTML(t, d.HTML), "")
	if text != page {
		t.Errorf("the text says %q,\nthe HTML %q", text, page)
	}
}

// everyDraft are the letters of the demo at every stage of the shoot.
func everyDraft(p *plan.Plan, days []day.Day) []Draft {
	var out []Draft
	for _, today := range []plan.Date{{Year: 2027, Month: 2, Day: 1}, {Year: 2027, Month: 3, Day: 5}, {Year: 2027, Month: 3, Day: 20}} {
		out = append(append(out, Drafts(p, days, today)...), SheetDrafts(p, days, today)...)
	}
	return out
}

func TestLetterHTML(t *testing.T) {
	p, days := toWrite(t)
	all := everyDraft(&p, days)
	other := p.Clone()
	other.Papers.Clock, other.Papers.Dates = plan.Clock12, "el"
	for _, d := range append(all, everyDraft(&other, days)...) {
		sameWords(t, d)
		for _, want := range []string{`<html lang="en"`, `name="viewport"`, `content="light dark"`, "max-width:600px", "font-size:17px", "<title>" + htmlEscaped(d.Subject) + "</title>"} {
			if !strings.Contains(d.HTML, want) {
				t.Errorf("%q is not in\n%s", want, d.HTML)
			}
		}
		for size := range strings.SplitSeq(d.HTML, "font-size:") {
			if strings.HasPrefix(size, "<!") {
				continue
			}
			if px, _, ok := strings.Cut(size, "px"); !ok || px < "16" || len(px) != 2 {
				t.Errorf("letters of %s px", px)
			}
		}
	}
	sheet := draftTo(t, SheetDrafts(&p, days, plan.Date{Year: 2027, Month: 2, Day: 1}), "grete")
	for _, want := range []string{`href="tel:+17605550101"`, `href="geo:34.1234,-116.4321"`, "<h2", "<ul"} {
		if !strings.Contains(sheet.HTML, want) {
			t.Errorf("%q is not in\n%s", want, sheet.HTML)
		}
	}
}

// byHTMLParser reads pages as Python's html.parser does, which is no reader of XML: what each shows, word by word, and its elements.
const byHTMLParser = `
import html.parser, json, sys
class Reader(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.words, self.tags, self.body = [], [], False
    def handle_starttag(self, tag, attrs):
        self.body = self.body or tag == "body"
        self.tags.append([tag] + sorted(a for a, _ in attrs))
    def handle_data(self, data):
        if self.body:
            self.words += data.split()
out = []
for page in json.load(sys.stdin):
    r = Reader()
    r.feed(page)
    r.close()
    out.append({"Words": r.words, "Tags": r.tags})
json.dump(out, sys.stdout)
`

// TestOthersReadLetterHTML: of every letter, with hostile names too, Python shows the words of the text and sees no element but ours.
func TestOthersReadLetterHTML(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed: HTML is read back as XML alone")
	}
	p, days := toWrite(t)
	all := everyDraft(&p, days)
	for _, s := range append(injections, htmlInjections...) {
		all = append(all, hostileDraft(t, s))
	}
	var pages []string
	for _, d := range all {
		pages = append(pages, d.HTML)
	}
	in, err := json.Marshal(pages)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-X", "utf8", "-c", byHTMLParser)
	cmd.Stdin = bytes.NewReader(in)
	told, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var out []struct {
		Words []string
		Tags  [][]string
	}
	if err := json.Unmarshal(told, &out); err != nil || len(out) != len(all) {
		t.Fatal(err)
	}
	for i, got := range out {
		if text, page := strings.Join(textWords(all[i].Text), ""), strings.Join(got.Words, ""); text != page {
			t.Errorf("the text says %q,\nthe HTML %q", text, page)
		}
		for _, tag := range got.Tags {
			if may, known := htmlMay[tag[0]]; !known || slices.ContainsFunc(tag[1:], func(a string) bool { return !slices.Contains(may, a) }) {
				t.Errorf("%v in\n%s", tag, all[i].HTML)
			}
		}
	}
}

// htmlInjections are texts that would be tags, attributes or links of their own.
var htmlInjections = []string{
	`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onclick='x`, `</title><b>`, `&lt;b&gt; &amp;#60; &`, `javascript:alert(1)`, `<!-- `, `]]>`, `<a href="http://example.org">`,
	"+1 760\" onclick=\"x", "&#0;", "\ufffe\uffff", "+49 (0)30 1234567", "<\n<b\n>", "\u0000<\u2028", "{{.}}", "</div></body></html>",
}

// hostileDraft is a letter with a text everywhere that a plan's text can stand in it.
func hostileDraft(t testing.TB, s string) Draft {
	t.Helper()
	p, days := toWrite(t)
	p.Title, p.Property.Name, p.Property.Address, p.Papers.Access, p.Papers.Parking, p.Papers.Hospital = s, s, s, s, s, s
	for i := range p.People {
		if q := &p.People[i]; q.ID == "noor" {
			q.Phone = s
		} else {
			q.Name = s
		}
	}
	for i := range p.Scenes {
		p.Scenes[i].Number, p.Scenes[i].Looks = s, []plan.Look{{Person: "grete", Look: s}, {Person: "mia", Look: s}}
	}
	for i := range p.Releases {
		p.Releases[i].Subject = s
	}
	return draftTo(t, Drafts(&p, days, plan.Date{Year: 2027, Month: 3, Day: 5}), "amara")
}

// TestHTMLInjection: no text of a plan makes a tag, an attribute or a link, and none is lost.
func TestHTMLInjection(t *testing.T) {
	for _, s := range append(injections, htmlInjections...) {
		sameWords(t, hostileDraft(t, s))
	}
}

func FuzzLetterHTML(f *testing.F) {
	for _, s := range append(injections, htmlInjections...) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if len(s) > 2000 {
			return
		}
		sameWords(t, hostileDraft(t, s))
	})
}

// TestTelURI: RFC 3966, section 3, whose example of a global number is the first; and what is better not dialled.
func TestTelURI(t *testing.T) {
	for phone, want := range map[string]string{
		"+1-201-555-0123":           "tel:+12015550123",
		" +44 (0)20 7946 0018 ":     "tel:+442079460018", // ITU-T E.123 has no (0) in an international number; 020 7946 is kept for fiction
		"(760) 555-0101":            "tel:7605550101",
		"+1\u00a0760.555.0101":      "tel:+17605550101",
		"+1 760 555 0101 ext. 5":    "",
		"030/1234567":               "",
		"555 0101, 555 0102":        "",
		"12":                        "",
		"":                          "",
		"javascript:alert(1234)":    "",
		"+1 760 555 0101\" x=\"":    "",
		"٠٣٠١٢٣٤":                   "",
		"call me 555 0101":          "",
		"+1 760 555 0101\r\nBcc: x": "",
	} {
		if got := telURI(phone); got != want {
			t.Errorf("%q is dialled as %q, want %q", phone, got, want)
		}
	}
}
