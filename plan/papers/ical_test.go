package papers

import (
	"bytes"
	"net/mail"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// icsComponent is a part of a calendar as our own strict reader has it.
type icsComponent struct {
	name  string
	lines []icsLine
	parts []icsComponent
}

type icsLine struct{ name, params, value string }

// contentLine is RFC 5545, section 3.1, for the properties that we write.
var contentLine = regexp.MustCompile(`^([A-Z-]+)((?:;[A-Z-]+=(?:"[^"\x00-\x1f\x7f]*"|[^";:,\x00-\x1f\x7f]*))*):([^\x00-\x1f\x7f]*)$`)

// icsOnce are the properties that each component may have, once each (sections 3.6, 3.6.1, 3.6.5, 3.6.6), those it must have first.
var icsOnce = map[string]struct {
	must int
	all  []string
}{
	"VCALENDAR": {2, []string{"VERSION", "PRODID", "CALSCALE", "METHOD"}},
	"VTIMEZONE": {1, []string{"TZID"}},
	"STANDARD":  {3, []string{"DTSTART", "TZOFFSETFROM", "TZOFFSETTO", "TZNAME"}},
	"DAYLIGHT":  {3, []string{"DTSTART", "TZOFFSETFROM", "TZOFFSETTO", "TZNAME"}},
	"VEVENT": {5, []string{"UID", "DTSTAMP", "DTSTART", "SEQUENCE", "SUMMARY", "DTEND", "STATUS", "LOCATION", "GEO", "ORGANIZER",
		"DESCRIPTION", "TRANSP"}},
	"VALARM": {3, []string{"ACTION", "DESCRIPTION", "TRIGGER"}},
}

// strictly reads a calendar and holds it against RFC 5545: lines that end with CRLF, of 75 octets of whole letters (section 3.1), nested
// parts, the properties above and no other.
func strictly(t testing.TB, raw []byte) icsComponent {
	t.Helper()
	if !bytes.HasSuffix(raw, []byte("\r\n")) || strings.ContainsAny(strings.ReplaceAll(string(raw), "\r\n", ""), "\r\n") {
		t.Fatalf("a line ends otherwise than with CRLF in %q", raw)
	}
	for line := range strings.SplitSeq(strings.TrimSuffix(string(raw), "\r\n"), "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
	open := []icsComponent{{}}
	for line := range strings.SplitSeq(strings.TrimSuffix(unfolded(string(raw)), "\r\n"), "\r\n") {
		m := contentLine.FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("no content line: %q", line)
		}
		switch top := &open[len(open)-1]; m[1] {
		case "BEGIN":
			open = append(open, icsComponent{name: m[3]})
		case "END":
			if top.name != m[3] {
				t.Fatalf("%s ends in %s", m[3], top.name)
			}
			icsWhole(t, *top)
			open = open[:len(open)-1]
			open[len(open)-1].parts = append(open[len(open)-1].parts, *top)
		default:
			top.lines = append(top.lines, icsLine{m[1], m[2], m[3]})
		}
	}
	if len(open) != 1 || len(open[0].lines) > 0 || len(open[0].parts) != 1 || open[0].parts[0].name != "VCALENDAR" {
		t.Fatalf("no single calendar: %+v", open)
	}
	return open[0].parts[0]
}

func unfolded(s string) string { return strings.ReplaceAll(s, "\r\n ", "") }

func icsWhole(t testing.TB, c icsComponent) {
	t.Helper()
	rule, ok := icsOnce[c.name]
	if !ok {
		t.Fatalf("a part %s", c.name)
	}
	for i, name := range rule.all {
		if n := len(c.all(name)); n > 1 || n == 0 && i < rule.must {
			t.Errorf("%s has %d of %s", c.name, n, name)
		}
	}
	for _, l := range c.lines {
		if !slices.Contains(rule.all, l.name) {
			t.Errorf("%s has %s", c.name, l.name)
		}
	}
}

func (c icsComponent) all(name string) []icsLine {
	var out []icsLine
	for _, l := range c.lines {
		if l.name == name {
			out = append(out, l)
		}
	}
	return out
}

// get is the value of a property, unescaped, or "".
func (c icsComponent) get(name string) string {
	for _, l := range c.all(name) {
		return unescaped(l.value)
	}
	return ""
}

func (c icsComponent) named(name string) []icsComponent {
	return slices.DeleteFunc(slices.Clone(c.parts), func(p icsComponent) bool { return p.name != name })
}

// unescaped undoes RFC 5545, section 3.3.11.
func unescaped(s string) string {
	return strings.NewReplacer(`\\`, `\`, `\;`, ";", `\,`, ",", `\n`, "\n", `\N`, "\n").Replace(s)
}

// TestRFC5545Section3_1: the example of a long line, cut where it is told to be, and lines at the limit.
func TestRFC5545Section3_1(t *testing.T) {
	const long = "DESCRIPTION:This is a long description that exists on a long line."
	if got := unfolded("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n"); got != long+"\r\n" {
		t.Fatalf("our reader unfolds the example to %q", got)
	}
	for line, want := range map[string]string{
		long:                          long + "\r\n",
		strings.Repeat("a", 75):       strings.Repeat("a", 75) + "\r\n",
		strings.Repeat("a", 76):       strings.Repeat("a", 75) + "\r\n a\r\n",
		strings.Repeat("a", 74) + "é": strings.Repeat("a", 74) + "\r\n é\r\n",
		strings.Repeat("a", 75) + strings.Repeat("b", 74) + "c": strings.Repeat("a", 75) + "\r\n " + strings.Repeat("b", 74) + "\r\n c\r\n",
	} {
		var out bytes.Buffer
		if calendarLine(&out, line); out.String() != want {
			t.Errorf("%q is folded to %q", line, out.String())
		}
	}
}

// TestFoldingLosesNothing: of any text, lines are short, of whole letters, and unfold to what went in (RFC 5545, section 3.1).
func TestFoldingLosesNothing(t *testing.T) {
	letters := rapid.OneOf(rapid.Rune(), rapid.SampledFrom([]rune("aé家\U0001f469\u200d ש")))
	rapid.Check(t, func(t *rapid.T) {
		line := "DESCRIPTION:" + calendarText(string(rapid.SliceOfN(letters, 0, 400).Draw(t, "text")))
		var out bytes.Buffer
		calendarLine(&out, line)
		if got := unfolded(out.String()); got != line+"\r\n" {
			t.Fatalf("%q unfolds to %q", line, got)
		}
		for physical := range strings.SplitSeq(strings.TrimSuffix(out.String(), "\r\n"), "\r\n") {
			if len(physical) > 75 || !utf8.ValidString(physical) || strings.ContainsAny(physical, "\r\n") {
				t.Fatalf("%q has the line %q", line, physical)
			}
		}
	})
}

// TestRFC5545Section3_3_11: its example, that of a location (3.8.1.7), and what a text may not hold.
func TestRFC5545Section3_3_11(t *testing.T) {
	for text, want := range map[string]string{
		"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.": `Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`,
		"Conference Room - F123, Bldg. 002":                              `Conference Room - F123\, Bldg. 002`, // 3.8.1.7
		`a\b;c,d:e"f`:                                                    `a\\b\;c\,d:e"f`,                     // neither colon nor quotation mark is escaped
		`\n`:                                                             `\\n`,
		"a\r\nb\rc\nd\u2028e\u2029f\u0085g\vh":                           `a\nb\nc\nd\ne\nf\ng\nh`,
		"bell\a, \x00nul\x7f, tab\tx\xff":                                "bell\\, nul\\, tab x\ufffd",
		" \n ":                                                           "",
	} {
		if got := calendarText(text); got != want {
			t.Errorf("%q is written %q, want %q", text, got, want)
		}
	}
}

// FuzzCalendarText: any text is one line of what RFC 5545 allows, and is read back as it was, but for how its lines end and for signs
// that can't be seen.
func FuzzCalendarText(f *testing.F) {
	for _, s := range append(injections, `\n`, `\\;,`, "\u2028", "\xff\xfe", "שלום\u202e", "👩‍👩‍👧", "END:VEVENT\r\nBEGIN:VALARM") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := calendarText(s)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, unicode.IsControl) || !contentLine.MatchString("X:"+got) {
			t.Fatalf("%q is written %q", s, got)
		}
		plain := strings.NewReplacer("\r\n", "\n", "\r", "\n", "\v", "\n", "\f", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n", "\t", " ").Replace(strings.TrimSpace(strings.ToValidUTF8(s, "\ufffd")))
		plain = strings.Map(func(r rune) rune {
			if unicode.IsControl(r) && r != '\n' {
				return -1
			}
			return r
		}, plain)
		if back := unescaped(got); back != plain {
			t.Fatalf("%q is read back as %q", s, back)
		}
	})
}

// TestRFC5545Section3_2_2: the organizer of its example, and names and addresses that would end a parameter or a line.
func TestRFC5545Section3_2_2(t *testing.T) {
	for _, c := range []struct{ name, address, want string }{
		{"John Smith", "jsmith@example.com", `ORGANIZER;CN="John Smith":mailto:jsmith@example.com`}, // quoted here, which means the same (3.2)
		{"", "jsmith@example.com", `ORGANIZER:mailto:jsmith@example.com`},
		{`"Al": x;y` + "\r\nATTENDEE:mailto:e@example.com", "al@example.com", `ORGANIZER;CN="’Al’: x;y ATTENDEE:mailto:e@example.com":mailto:al@example.com`},
		{"a^nb", "al@example.com", `ORGANIZER;CN="a^^nb":mailto:al@example.com`},     // RFC 6868, section 3.1
		{"", `a b"c@example.com`, `ORGANIZER:mailto:%22a%20b%5C%22c%22@example.com`}, // RFC 6068, section 2
	} {
		got := organizer(mail.Address{Name: c.name, Address: c.address})
		if got != c.want || !contentLine.MatchString(got) {
			t.Errorf("%q is written %q, want %q", c.name, got, c.want)
		}
	}
}
