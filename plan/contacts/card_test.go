package contacts

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"eavelight/plan"
)

// readOne reads a file of one card and returns its person and the problems.
func readOne(t testing.TB, file string) (Contact, []Problem) {
	t.Helper()
	all, found, err := ReadCards(strings.NewReader(file), today)
	if err != nil || len(all) != 1 {
		t.Fatalf("%d people, %v, from\n%s", len(all), err, file)
	}
	return all[0], found
}

// today is the day on which the tests read.
var today = plan.Date{Year: 2027, Month: 10, Day: 16}

// cardOf puts lines into a card of a version.
func cardOf(version string, lines ...string) string {
	return "BEGIN:VCARD\r\nVERSION:" + version + "\r\n" + strings.Join(lines, "\r\n") + "\r\nEND:VCARD\r\n"
}

func wantText(t testing.TB, what, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("%s is %q, want %q", what, got, want)
	}
}

// The examples and rules of RFC 6350, by section (from memory; those of 6.2.2, 6.2.5, 6.4.2 and 6.7.2 also seen in the tests of
// other readers). A person here has one phone, one email and notes, so that the second of each stands in the notes.

func TestRFC6350Section3_2_LineFolding(t *testing.T) {
	for _, file := range []string{
		cardOf("4.0", "FN:A", "NOTE:This is a long description that exists on a long line."),
		cardOf("4.0", "FN:A", "NOTE:This is a long description", "  that exists on a long line."),
		cardOf("4.0", "FN:A", "NOTE:This is a long descrip", " tion that exists o", "\tn a long line."),
		cardOf("4.0", "FN:A", "NO", " TE:This is a long description that exists on a long line."),
	} {
		c, found := readOne(t, file)
		wantText(t, "the note", c.Person.Notes, "This is a long description that exists on a long line.")
		if len(found) > 0 {
			t.Error(found)
		}
	}
	// Older writers cut between octets; unfolding comes before the letters are read.
	c, _ := readOne(t, cardOf("3.0", "FN:Zo\xc3", " \xab"))
	wantText(t, "the name", c.Person.Name, "Zoë")
}

func TestRFC6350Section3_3_Form(t *testing.T) {
	// Names and parameters in any case; groups; values in quotation marks hold the marks; a line ends with CRLF, and other
	// ends are taken too.
	file := strings.ReplaceAll("begin:vcard\nversion:4.0\nFn;LANGUAGE=en:A B\na.TEL;type=\"x;y:z\":+1 555 0100\nend:vcard\n", "\n", "\r")
	c, found := readOne(t, file)
	wantText(t, "the name", c.Person.Name, "A B")
	wantText(t, "the phone", c.Person.Phone, "+1 555 0100")
	if len(found) > 0 {
		t.Error(found)
	}
}

func TestRFC6350Section3_4_Escaping(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", `FN:A\, B\; C\\D`, `NOTE:one\ntwo\Nthree\\n`))
	wantText(t, "the name", c.Person.Name, `A, B; C\D`)
	wantText(t, "the note", c.Person.Notes, "one\ntwo\nthree\\n")
}

func TestRFC6350Section6_2_1_FN(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", `FN:Mr. John Q. Public\, Esq.`))
	wantText(t, "the name", c.Person.Name, "Mr. John Q. Public, Esq.")
}

func TestRFC6350Section6_2_2_N(t *testing.T) {
	// vCard 4.0 demands an FN; where somebody forgot it, the name is put together.
	c, _ := readOne(t, cardOf("4.0", "N:Public;John;Quinlan;Mr.;Esq."))
	wantText(t, "the name", c.Person.Name, "Mr. John Quinlan Public Esq.")
	c, _ = readOne(t, cardOf("4.0", "N:Stevenson;John;Philip,Paul;Dr.;Jr.,M.D.,A.C.P."))
	wantText(t, "the name", c.Person.Name, "Dr. John Philip Paul Stevenson Jr. M.D. A.C.P.")
	// Beside an FN only what that does not say is kept.
	c, _ = readOne(t, cardOf("4.0", "N:Public;John;;;", "FN:John Public"))
	wantText(t, "the notes", c.Person.Notes, "")
	c, _ = readOne(t, cardOf("4.0", "N:Public;John;Quinlan;;", "FN:John Public"))
	wantText(t, "the notes", c.Person.Notes, "Name in parts: John Quinlan Public")
}

func TestRFC6350Section6_2_5_BDAY(t *testing.T) {
	for _, c := range []struct {
		line string
		born plan.Date
		note string
	}{
		{"BDAY:19960415", plan.Date{Year: 1996, Month: 4, Day: 15}, ""},
		{"BDAY:19531015T231000Z", plan.Date{Year: 1953, Month: 10, Day: 15}, ""},
		{"BDAY:--0415", plan.Date{}, "Born: --0415"},
		{"BDAY;VALUE=text:circa 1800", plan.Date{}, "Born: circa 1800"},
		{"BDAY:1996-04-15", plan.Date{Year: 1996, Month: 4, Day: 15}, ""}, // as vCard 3.0 writes it
		{"BDAY:20230229", plan.Date{}, "Born: 20230229"},                  // a day that the calendar lacks
		{"BDAY:1996", plan.Date{}, "Born: 1996"},
		{"BDAY:20271016", today, ""},
		{"BDAY:20271017", plan.Date{}, "Born: 20271017"},
	} {
		got, found := readOne(t, cardOf("4.0", "FN:A", c.line))
		if got.Person.Born != c.born {
			t.Errorf("%s: born %v, want %v", c.line, got.Person.Born, c.born)
		}
		wantText(t, c.line, got.Person.Notes, c.note)
		if told := len(found) == 1 && found[0].Line == 4; told != (c.note != "") {
			t.Errorf("%s: %v", c.line, found)
		}
	}
}

func TestRFC6350Section6_4_1_TEL(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", "FN:A",
		"TEL;VALUE=uri;TYPE=home:tel:+33-01-23-45-67",
		`TEL;VALUE=uri;PREF=1;TYPE="voice,home":tel:+1-555-555-5555;ext=5555`))
	wantText(t, "the phone", c.Person.Phone, "+1-555-555-5555 ext. 5555")
	wantText(t, "the notes", c.Person.Notes, "Phone (home): +33-01-23-45-67")
}

func TestRFC6350Section6_4_2_EMAIL(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", "FN:A", "EMAIL;TYPE=work:jqpublic@xyz.example.com", "EMAIL;PREF=1:jane_doe@example.com"))
	wantText(t, "the email", c.Person.Email, "jane_doe@example.com")
	wantText(t, "the notes", c.Person.Notes, "Email (work): jqpublic@xyz.example.com")
}

func TestRFC6350Section6_6_Organizational(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", "FN:A", "TITLE:Research Scientist", "ROLE:Project Leader",
		`ORG:ABC\, Inc.;North American Division;Marketing`))
	wantText(t, "the job", c.Person.Job, "Project Leader")
	wantText(t, "the notes", c.Person.Notes, "Title: Research Scientist\nOrganization: ABC, Inc., North American Division, Marketing")
}

func TestRFC6350Section6_7_2_NOTE(t *testing.T) {
	c, _ := readOne(t, cardOf("4.0", "FN:A", `NOTE:This fax number is operational 0800 to 1715`, `  EST\, Mon-Fri.`))
	wantText(t, "the notes", c.Person.Notes, "This fax number is operational 0800 to 1715 EST, Mon-Fri.")
}

func TestRFC6350Section6_7_6_UID(t *testing.T) {
	const id = "urn:uuid:4fbe8971-0bc3-424c-9c26-36c3e1eff6b1"
	c, _ := readOne(t, cardOf("4.0", "FN:A", "UID:"+id))
	wantText(t, "the uid", c.UID, id)
	c, _ = readOne(t, cardOf("4.0", "FN:A", `UID;VALUE=text:a\,b`))
	wantText(t, "the uid", c.UID, "a,b")
}

// TestOldVersions reads what vCard 2.1 (its specification of 1996, sections 2.1 to 2.4, from memory) and 3.0 (RFC 2426) do otherwise.
func TestOldVersions(t *testing.T) {
	for _, c := range []struct {
		name, file string
		want       plan.Person
	}{
		{"2.1: bare types, quoted-printable over two lines, another charset",
			cardOf("2.1", "N;CHARSET=ISO-8859-1;ENCODING=QUOTED-PRINTABLE:M=FCller;J=F6rg;;;",
				"TEL;WORK;VOICE:030 1234567", "TEL;CELL;PREF:0171 7654321",
				"NOTE;ENCODING=QUOTED-PRINTABLE;CHARSET=UTF-8:Erste=0D=0AZeile =C3=BC=", "ber allem; C:\\neu"),
			plan.Person{Name: "Jörg Müller", Phone: "0171 7654321", Notes: "Erste\nZeile über allem; C:\\neu\nPhone (work): 030 1234567"}},
		{"2.1: a blank at a fold belongs to the text",
			cardOf("2.1", "FN:A", "NOTE:one", " two"), plan.Person{Name: "A", Notes: "one two"}},
		{"2.1: Cyrillic", cardOf("2.1", "FN;CHARSET=windows-1251;QUOTED-PRINTABLE:=C0=ED=ED=E0"), plan.Person{Name: "Анна"}},
		{"2.1: Japanese", cardOf("2.1", "FN;CHARSET=SHIFT_JIS:\x8e\x52\x93\x63"), plan.Person{Name: "山田"}},
		{"3.0: types with equals signs, a label of Apple's",
			cardOf("3.0", "FN:A B", "N:B;A;;;", "item1.TEL;type=pref:+1 555 0100", "item1.X-ABLabel:_$!<HomeFax>!$_",
				"item2.TEL:+1 555 0101", "item2.X-ABLabel:Boat", "EMAIL;type=INTERNET;type=WORK:a@example.org"),
			plan.Person{Name: "A B", Phone: "+1 555 0100", Email: "a@example.org", Notes: "Phone (Boat): +1 555 0101"}},
		{"3.0: the sign = at the end goes on only in quoted-printable", cardOf("3.0", "FN:parser=", "NOTE:x="), plan.Person{Name: "parser=", Notes: "x="}},
		{"Windows-1252 without saying so", cardOf("3.0", "FN:Andr\xe9 \x8aubic"), plan.Person{Name: "André Šubic"}},
		{"text in base64", cardOf("3.0", "FN;ENCODING=b:Wm/Dqw=="), plan.Person{Name: "Zoë"}},
		{"a fax is nobody's phone", cardOf("3.0", "FN:A", "TEL;TYPE=FAX:+1 555 0100", "TEL:+1 555 0101"),
			plan.Person{Name: "A", Phone: "+1 555 0101", Notes: "Phone (fax): +1 555 0100"}},
		{"addresses as URIs", cardOf("3.0", "FN:A", "TEL: tel:+1-555-0100", "EMAIL:mailto:a@example.org"),
			plan.Person{Name: "A", Phone: "+1-555-0100", Email: "a@example.org"}},
		{"what has no field", cardOf("3.0", "FN:A", "ADR;TYPE=home:;;12 Mill Lane;Alder Bend;;97000;USA", "URL:https://example.org/a,b", "X-SIZES:M; shoes 41"),
			plan.Person{Name: "A", Notes: "Address (home): 12 Mill Lane, Alder Bend, 97000, USA\nWebsite: https://example.org/a,b\nX-SIZES: M; shoes 41"}},
		{"a role as WriteCards writes it", cardOf("4.0", "FN:A", "CATEGORIES:Friends,Crew"), plan.Person{Name: "A", Role: plan.Crew, Notes: "Categories: Friends"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, found := readOne(t, c.file)
			usual := plan.NewPerson()
			c.want.Weight, c.want.Change = usual.Weight, usual.Change
			if fmt.Sprintf("%+v", got.Person) != fmt.Sprintf("%+v", c.want) {
				t.Errorf("got  %+v\nwant %+v", got.Person, c.want)
			}
			if len(found) > 0 {
				t.Error(found)
			}
		})
	}
}

// TestNamesSurvive reads the names that bad readers break; each as UTF-8, with and without a mark, and as UTF-16.
func TestNamesSurvive(t *testing.T) {
	for _, name := range []string{
		strings.Repeat("Ānna-María ", 18) + "Ø",     // 199 letters
		strings.Repeat("名", 200),                    // 600 octets
		"נועה לוי",                                  // right to left
		"\u200fليلى حدّاد\u200f (Layla)",            // with marks of direction
		"👩🏽\u200d🎤 Noor 🎬",                          // joined emoji
		"山田　太郎",                                     // an ideographic space
		"Nguye\u0302\u0303n",                        // marks that stand alone
		"ᚠᚢᚦ",                                       // runes
		"அனிதா",                                     // a script with vowel signs
		`O'Brien; "Bo", the \ 2nd`,                  // everything that is escaped
		"\U0001F1F3\U0001F1F4 \U00020000\U0010FFFD", // beyond the first plane
	} {
		file := cardOf("4.0", "FN:"+escaped.Replace(name))
		for what, f := range map[string]string{"plain": file, "marked": "\ufeff" + file, "UTF-16": utf16Of(file)} {
			c, found := readOne(t, f)
			wantText(t, "a name, "+what+",", c.Person.Name, name)
			if len(found) > 0 {
				t.Error(found)
			}
		}
	}
}

// TestOddCards reads what is wrong, and says so.
func TestOddCards(t *testing.T) {
	photo := strings.Repeat("QUJD", 30)
	for _, c := range []struct {
		name, file string
		people     []string // name, then notes
		problems   []string
	}{
		{"no end", "BEGIN:VCARD\nFN:A\nBEGIN:VCARD\nFN:B\nEND:VCARD\n", []string{"A", "", "B", ""},
			[]string{"line 1: this card has no end (END:VCARD); it was read as far as it goes"}},
		{"one in another", cardOf("2.1", "FN:A", "AGENT:", "BEGIN:VCARD", "VERSION:2.1", "FN:B", "END:VCARD", "NOTE:of A"),
			[]string{"A", "of A", "B", ""}, nil},
		{"no end of file", "BEGIN:VCARD\nFN:A\nEND:VCARD", []string{"A", ""}, nil},
		{"outside of cards", "hello\nBEGIN:VCARD\nFN:A\nEND:VCARD\nEND:VCARD\n", []string{"A", ""},
			[]string{`line 1: "hello" stands outside of every card; it was left out`, `line 5: "END:VCARD" stands outside of every card; it was left out`}},
		{"a line that is none", cardOf("4.0", "FN:A", "sizes M"), []string{"A", "sizes M"},
			[]string{`line 4: "sizes M" is no line of a card (NAME:VALUE); it stands in the notes`}},
		{"an open quotation mark", cardOf("4.0", "FN:A", `NOTE;X="a:b`), []string{"A", "b"}, nil},
		{"nothing in it", cardOf("4.0", "FN:A") + cardOf("3.0", "N:;;;;", "TEL:"), []string{"A", ""},
			[]string{"line 5: this card says nothing; it was left out"}},
		{"no name", cardOf("4.0", "EMAIL:a@example.org"), []string{"", ""}, []string{"line 1: this person has no name; type one"}},
		{"a firm", cardOf("4.0", "KIND:org", "ORG:Alder Lamps"), []string{"Alder Lamps", "Kind: org"},
			[]string{`line 3: this card is of the kind "org", not of a person`}},
		{"a picture", cardOf("2.1", "FN:A", "PHOTO;JPEG;ENCODING=BASE64:"+photo, " "+photo, photo, "", "NOTE:n"), []string{"A", "n"},
			[]string{"line 4: a picture can't be kept; it was left out"}},
		{"a picture of 4.0", cardOf("4.0", "FN:A", "PHOTO:data:image/png;base64,"+photo), []string{"A", ""},
			[]string{"line 4: a picture can't be kept; it was left out"}},
		{"no such encoding", cardOf("2.1", "FN;CHARSET=KLINGON:caf\xe9"), []string{"café", ""},
			[]string{"line 3: this is said to be in the encoding KLINGON, and is not; look whether its letters are right"}},
		{"no number, no address", cardOf("4.0", "FN:A", "TEL:ask Bo", "EMAIL:none"), []string{"A", "Phone: ask Bo\nEmail: none"},
			[]string{`line 4: "ask Bo" is no phone number; it stands in the notes`, `line 5: "none" is no email address; it stands in the notes`}},
		{"a value too long", cardOf("4.0", "FN:A", "X-A:"+strings.Repeat("é", maxValue)), []string{"A", "X-A: " + strings.Repeat("é", maxNotes-5)},
			[]string{"line 1: there is more about A than notes can hold (20000 characters); the end was left out",
				"line 4: this is longer than notes can hold; the end was left out"}},
		{"a name too long", cardOf("4.0", "FN:"+strings.Repeat("a", 1001)), []string{"", "Name: " + strings.Repeat("a", 1001)},
			[]string{"line 1: this person has no name; type one", "line 3: this is too long for a name (1000 characters at most); it stands in the notes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			all, found, err := ReadCards(strings.NewReader(c.file), today)
			var people, problems []string
			for _, p := range all {
				people = append(people, p.Person.Name, p.Person.Notes)
			}
			for _, p := range found {
				problems = append(problems, p.String())
			}
			if err != nil || fmt.Sprintf("%q", people) != fmt.Sprintf("%q", c.people) {
				t.Errorf("%v\ngot  %q\nwant %q", err, people, c.people)
			}
			if fmt.Sprintf("%q", problems) != fmt.Sprintf("%q", c.problems) {
				t.Errorf("got  %q\nwant %q", problems, c.problems)
			}
		})
	}
}

func TestRefusedFiles(t *testing.T) {
	readers := map[string]func(string) error{
		"vCard": func(s string) error { _, _, err := ReadCards(strings.NewReader(s), today); return err },
		"CSV":   func(s string) error { _, err := ReadTable(strings.NewReader(s)); return err },
	}
	for _, c := range []struct {
		reader, name, file string
		want               error
	}{
		{"vCard", "empty", "", ErrNobody},
		{"vCard", "a picture", "\x89PNG\r\n\x1a\n\x00\x00", ErrNobody},
		{"vCard", "empty card", cardOf("4.0"), ErrNobody},
		{"vCard", "10 MB and one", cardOf("4.0", "FN:A") + strings.Repeat("\n", MaxBytes), ErrTooLarge},
		{"vCard", "too many", strings.Repeat("BEGIN:VCARD\nFN:A\nEND:VCARD\n", MaxPeople+1), ErrTooMany},
		{"CSV", "empty", "", ErrNobody},
		{"CSV", "blank", "\ufeff \r\n;;\r\n", ErrNobody},
		{"CSV", "headings alone", "name,phone\n", ErrNobody},
		{"CSV", "10 MB and one", "name\n" + strings.Repeat("a\n", MaxBytes/2), ErrTooLarge},
		{"CSV", "too many", "name,phone\n" + strings.Repeat("A,\n", MaxPeople+1), ErrTooMany},
		{"CSV", "too wide", "name" + strings.Repeat(",a", maxColumns), ErrTooWide},
		{"CSV", "far too wide", strings.Repeat(",", MaxBytes), ErrTooWide},
	} {
		if err := readers[c.reader](c.file); !errors.Is(err, c.want) {
			t.Errorf("%s, %s: %v, want %v", c.reader, c.name, err, c.want)
		}
	}
	// What just fits is read.
	if err := readers["vCard"](strings.Repeat("BEGIN:VCARD\nFN:A\nEND:VCARD\n", MaxPeople)); err != nil {
		t.Error(err)
	}
	if err := readers["CSV"]("name\n" + strings.Repeat("A\n", MaxPeople)); err != nil {
		t.Error(err)
	}
	broken := errors.New("the disk is gone")
	if _, _, err := ReadCards(failing{broken}, today); !errors.Is(err, broken) {
		t.Error(err)
	}
	if _, err := ReadTable(failing{broken}); !errors.Is(err, broken) {
		t.Error(err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// TestManyProblems holds the list of problems to what somebody could read.
func TestManyProblems(t *testing.T) {
	_, found, err := ReadCards(strings.NewReader(cardOf("4.0", "FN:A")+strings.Repeat("x\n", 2000)), today)
	if err != nil || len(found) != maxProblems+1 || found[maxProblems].String() != "and 1500 more like these" {
		t.Errorf("%v, %d problems, the last %q", err, len(found), found[len(found)-1])
	}
}

// TestLongNotes holds the notes to what a plan takes, as plan.Validate judges.
func TestLongNotes(t *testing.T) {
	c, found := readOne(t, cardOf("4.0", "FN:A", "NOTE:"+strings.Repeat("é", maxNotes+5)))
	if len(found) != 1 || !strings.Contains(found[0].Text.String(), "left out") {
		t.Error(found)
	}
	c.Person.ID = "a"
	p := plan.New()
	p.People = []plan.Person{c.Person}
	if wrong := plan.Validate(p); len(wrong) > 0 {
		t.Error(wrong)
	}
	p.People[0].Notes += "éé" // one more than it takes: so that maxNotes is the plan's own figure
	if wrong := plan.Validate(p); len(wrong) != 1 {
		t.Errorf("maxNotes is less than a plan takes: %v", wrong)
	}
}
