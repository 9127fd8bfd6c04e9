package contacts

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// failer is a test, or a property of rapid.
type failer interface{ Fatal(...any) }

// utf16Of writes a text as some spreadsheets do: UTF-16, little end first, with its mark.
func utf16Of(s string) string {
	b := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u), byte(u>>8))
	}
	return string(b)
}

func written(t failer, contacts ...Contact) string {
	var b bytes.Buffer
	if err := WriteCards(&b, contacts); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestWriteCards(t *testing.T) {
	c := Contact{
		Person: plan.Person{ID: "noor", Name: "Noor Castellan", Role: plan.Talent, Job: "the aunt", Phone: "+1 555 0100", Email: "noor@example.org",
			Notes: "Vegetarian; no nuts, please.\nC:\\shoes 41", Paid: true, Guardian: "x",
			Pronouns: "she/her", Sizes: "M", Diet: "vegan", Born: plan.Date{Year: 1990, Month: 2, Day: 3}},
		UID: "urn:uuid:4fbe8971-0bc3-424c-9c26-36c3e1eff6b1",
	}
	want := strings.ReplaceAll(`BEGIN:VCARD
VERSION:4.0
UID:urn:uuid:4fbe8971-0bc3-424c-9c26-36c3e1eff6b1
FN:Noor Castellan
TEL:+1 555 0100
EMAIL:noor@example.org
ROLE:the aunt
CATEGORIES:talent
PRONOUNS:she/her
BDAY:19900203
NOTE:Vegetarian\; no nuts\, please.\nC:\\shoes 41
END:VCARD
`, "\n", "\r\n")
	wantText(t, "the card", written(t, c), want)
	// Somebody of whom only an address is known has a name all the same (RFC 6350, 6.2.1: exactly one or more).
	if got := written(t, Contact{Person: plan.Person{ID: "a", Email: "a@example.org"}}); !strings.Contains(got, "\r\nFN:a@example.org\r\n") {
		t.Error(got)
	}
	if err := WriteCards(failingWriter{}, []Contact{c}); err == nil {
		t.Error("a failure of writing is not told")
	}
}

type failingWriter struct{}

func (failingWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }

// TestUID holds identifiers to their purpose: the same for one person, another for another.
func TestUID(t *testing.T) {
	// RFC 9562, appendix A.4: the name www.example.com in the name space of DNS names; Python's uuid5 gives the same.
	dns := [16]byte{0x6b, 0xa7, 0xb8, 0x10, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8}
	wantText(t, "the uuid", uuid5(dns, "www.example.com"), "2ed6657d-e927-568b-95e1-2665a8aea6a2")
	a := plan.Person{ID: "person-1", Name: "Ada"}
	changed := a
	changed.Phone, changed.Notes = "+1 555 0100", "new"
	if UID(a) != UID(changed) {
		t.Error("a new phone makes another person")
	}
	if UID(a) == UID(plan.Person{ID: "person-1", Name: "Bo"}) || UID(a) == UID(plan.Person{ID: "person-2", Name: "Ada"}) {
		t.Error("two people have one identifier")
	}
	once := written(t, FromPerson(a))
	back, _ := readOne(t, once)
	back.Person.Name = "Ada Lind"
	if again, _ := readOne(t, written(t, back)); again.UID != back.UID {
		t.Error("the identifier of somebody from a file changes")
	}
}

// letters draws texts in which everything occurs that is escaped, folded, joined or written from right to left.
func letters() *rapid.Generator[string] {
	special := rapid.SampledFrom([]rune(",;\\\n\t :\"=^%é名ל\u200f\u200d👩🏽\u0301 \u3000'.@-"))
	return rapid.StringOf(rapid.OneOf(special, special, rapid.Rune()))
}

// someContact draws a contact that WriteCards has all of: in the form in which texts are kept.
func someContact() *rapid.Generator[Contact] {
	return rapid.Custom(func(t *rapid.T) Contact {
		c := Contact{Person: plan.NewPerson()}
		p := &c.Person
		p.Name = oneLine(letters().Filter(func(s string) bool { return oneLine(s) != "" }).Draw(t, "name"))
		p.Job = oneLine(letters().Draw(t, "job"))
		p.Pronouns = oneLine(letters().Draw(t, "pronouns"))
		p.Notes = manyLines(strings.Repeat(letters().Draw(t, "notes"), rapid.IntRange(1, 20).Draw(t, "times")))
		p.Phone = rapid.SampledFrom([]string{"", "+1 555 0100", "030/1234", "112", "+44 (0)20 7946 0000 ext. 5"}).Draw(t, "phone")
		p.Email = rapid.SampledFrom([]string{"", "a@example.org", "ö+x@example.org"}).Draw(t, "email")
		p.Role = rapid.SampledFrom(append(plan.Roles, "")).Draw(t, "role")
		c.UID = oneLine(letters().Filter(func(s string) bool { return oneLine(s) != "" }).Draw(t, "uid"))
		if rapid.Bool().Draw(t, "born") {
			p.Born = plan.Date{Year: 2000, Month: 2, Day: 29}.AddDays(rapid.IntRange(-30_000, 10_000).Draw(t, "day"))
		}
		return c
	})
}

// TestRoundTrip reads what was written, and finds the same people; in the order, and however long.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.SliceOfN(someContact(), 1, 5).Draw(t, "contacts")
		file := written(t, want...)
		got, found, err := ReadCards(strings.NewReader(file), today)
		if err != nil || len(found) > 0 {
			t.Fatalf("%v %v\n%s", err, found, file)
		}
		for i := range got {
			got[i].Line = 0
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("got  %+v\nwant %+v\nfrom\n%s", got, want, file)
		}
		for i := range got {
			if again := written(t, got[i]); !strings.Contains(file, again) {
				t.Fatalf("written again it is\n%s\nnot as in\n%s", again, file)
			}
		}
	})
}

// TestFolding holds the lines to RFC 6350, section 3.2: at most 75 octets, CRLF, and no letter cut.
func TestFolding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		file := written(t, rapid.SliceOfN(someContact(), 1, 3).Draw(t, "contacts")...)
		if strings.Count(file, "\n") != strings.Count(file, "\r\n") || strings.Count(file, "\r") != strings.Count(file, "\r\n") {
			t.Fatalf("a line does not end with CRLF:\n%q", file)
		}
		for line := range strings.SplitSeq(file, "\r\n") {
			if len(line) > 75 || !utf8.ValidString(line) {
				t.Fatalf("%d octets, or half a letter: %q", len(line), line)
			}
		}
	})
	// By the count: 75 octets stand on one line, the 76th on the next, a letter of two that would straddle too.
	for name, want := range map[string]string{
		strings.Repeat("a", 72):       "FN:" + strings.Repeat("a", 72) + "\r\n",
		strings.Repeat("a", 73):       "FN:" + strings.Repeat("a", 72) + "\r\n a\r\n",
		strings.Repeat("a", 71) + "é": "FN:" + strings.Repeat("a", 71) + "\r\n é\r\n",
		strings.Repeat("a", 146):      "FN:" + strings.Repeat("a", 72) + "\r\n " + strings.Repeat("a", 74) + "\r\n",
		strings.Repeat("a", 147):      "FN:" + strings.Repeat("a", 72) + "\r\n " + strings.Repeat("a", 74) + "\r\n a\r\n",
	} {
		if got := written(t, Contact{Person: plan.Person{Name: name}}); !strings.Contains(got, "\r\n"+want) {
			t.Errorf("want %q in %q", want, got)
		}
	}
}
