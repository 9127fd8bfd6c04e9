package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/store"
)

// imports puts a file of people beside a copy of the demo, and returns both.
func imports(t *testing.T, name, text string) (planFile, file string) {
	t.Helper()
	data, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	planFile, file = filepath.Join(t.TempDir(), "copy.eavelight"), filepath.Join(t.TempDir(), name)
	write(t, planFile, string(data))
	write(t, file, text)
	return planFile, file
}

const newPeople = "Name;Mobile;Born;Shoe\nPell Orrin;+1 555 010 0001;03/04/1990;39\nNina Valdry;+1 555 010 0044;;\n"

// manyPeople are as many as a plan holds; the demo has nine besides.
func manyPeople() string {
	var rows strings.Builder
	for i := range plan.MaxItems {
		fmt.Fprintf(&rows, "Guest %d,+1 555 %07d\n", i, i)
	}
	return rows.String()
}

func TestPeopleExitCodes(t *testing.T) {
	p, csv := imports(t, "new.csv", newPeople)
	_, plain := imports(t, "plain.csv", "Name,Phone\nPell Orrin,+1 555 010 0001\n")
	_, nobody := imports(t, "none.csv", "")
	_, card := imports(t, "one.vcf", "BEGIN:VCARD\nVERSION:4.0\nFN:Pell Orrin\nEND:VCARD\n")
	_, many := imports(t, "many.csv", "Name,Phone\n"+manyPeople())
	out := filepath.Join(t.TempDir(), "out.vcf")
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"the list", []string{}, 0, "the daughter, six        scenes 3, 4, 7, 9"},
		{"import of a file without doubt", []string{"--import", plain}, 0, "add --yes to take 1 person"},
		{"import of more than a plan holds", []string{"--import", many}, 1, "9 of the new ones do not fit: the plan holds 500 people at most"},
		{"import with a date that can be two", []string{"--import", csv}, 1, "! line 2, column 3: \"03/04/1990\" can be two dates"},
		{"import with its order", []string{"--import", csv, "--dates", "day first"}, 0, "add --yes to take 1 person"},
		{"an order that is none", []string{"--import", csv, "--dates", "day"}, 2, "'month first'"},
		{"a column by its heading", []string{"--import", csv, "--column", "Shoe=sizes"}, 1, `column 4 "Shoe": sizes`},
		{"a column by its number", []string{"--import", csv, "--column", "4=leave out"}, 1, `column 4 "Shoe": leave out`},
		{"a column that is not there", []string{"--import", csv, "--column", "Hat=sizes"}, 2, `the headings are "Name", "Mobile"`},
		{"a field that is none", []string{"--import", csv, "--column", "Shoe=hat"}, 2, `the fields are "notes", "name"`},
		{"a column without a field", []string{"--import", csv, "--column", "Shoe"}, 2, "Mobile=phone"},
		{"columns of cards", []string{"--import", card, "--column", "Shoe=sizes"}, 2, "are for tables"},
		{"nobody", []string{"--import", nobody}, 2, "nobody in this file"},
		{"no such file", []string{"--import", "nowhere.csv"}, 2, "there is no file nowhere.csv"},
		{"a folder", []string{"--import", t.TempDir()}, 2, "is a folder"},
		{"both at once", []string{"--import", plain, "--export", out}, 2, "can't be used together"},
		{"yes to nothing", []string{"--yes"}, 2, "--import FILE"},
		{"over nothing", []string{"--overwrite"}, 2, "--export FILE"},
		{"export", []string{"--export", out}, 0, out},
		{"export over a file", []string{"--export", out}, 2, "add --overwrite"},
		{"export over a file, said so", []string{"--export", out, "--overwrite", "--json"}, 0, `"written"`},
		{"what was exported", []string{"--import", out}, 0, "There is nothing to take."},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, _ := os.ReadFile(p)
			code, out, err := eavelight(append([]string{"people", p}, c.args...)...)
			if flat := strings.Join(strings.Fields(out+err), " "); code != c.code || !strings.Contains(flat, strings.Join(strings.Fields(c.says), " ")) {
				t.Errorf("exit %d, want %d and %q\n%s%s", code, c.code, c.says, out, err)
			}
			if after, _ := os.ReadFile(p); string(after) != string(before) {
				t.Error("the plan was changed")
			}
		})
	}
}

// TestPeopleImport: --yes takes who is in no doubt, and leaves what the plan says otherwise as it is.
func TestPeopleImport(t *testing.T) {
	path, csv := imports(t, "new.csv", newPeople)
	code, out, _ := eavelight("people", path, "--import", csv, "--yes", "--dates", "day first", "--column", "Shoe=sizes", "--json")
	r := fromJSON[importReport](t, out)
	if code != 0 || !r.Saved || len(r.People) != 2 || len(r.Columns) != 4 || r.Columns[3].Field != "sizes" {
		t.Fatalf("exit %d, %s", code, out)
	}
	if known := r.People[1]; known.Action != "update" || known.Match != "nina" || len(known.Fields) != 0 || !strings.Contains(known.Note, "phone 555 0141 in the plan") {
		t.Errorf("%+v", known)
	}
	p, _, err := store.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	added := p.People[len(p.People)-1]
	if added.ID != "pell-orrin" || added.Born.String() != "1990-04-03" || added.Sizes != "39" || added.Phone != "+1 555 010 0001" {
		t.Errorf("%+v", added)
	}
	if nina, _ := p.Person("nina"); nina.Phone != "555 0141" {
		t.Errorf("Nina's phone is %s now", nina.Phone)
	}
	code, out, _ = eavelight("people", path, "--import", csv, "--yes", "--dates", "day first", "--column", "Shoe=sizes")
	if code != 0 || !strings.Contains(out, "There is nothing to take.") {
		t.Errorf("a second time: exit %d, %s", code, out)
	}
	list := fromJSON[[]personReport](t, func() string { _, out, _ := eavelight("people", path, "--json"); return out }())
	if len(list) != len(p.People) || !list[2].Minor || len(list[2].Scenes) != 4 {
		t.Errorf("%+v", list)
	}
}

// TestPeopleLines: whatever the names are, the lines fit the screen.
func TestPeopleLines(t *testing.T) {
	path, csv := imports(t, "long.csv", "Name,Phone,Remarks\n"+strings.Repeat("山の家 Ivy ", 30)+",12,"+strings.Repeat("word ", 300)+"\n")
	_, out, _ := eavelight("people", path, "--import", csv, "--yes")
	_, list, _ := eavelight("people", path)
	for line := range strings.SplitSeq(out+list, "\n") {
		if utf8.RuneCountInString(line) > columns || strings.HasSuffix(line, " ") {
			t.Errorf("%q", line)
		}
	}
}

// TestPeopleBook: what one plan keeps, another finds, in a book that is named; and what can't be done is said.
func TestPeopleBook(t *testing.T) {
	one, other := filepath.Join(t.TempDir(), "one.eavelight"), filepath.Join(t.TempDir(), "other.eavelight")
	data, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	write(t, one, string(data))
	write(t, other, "eavelight: 1\n")
	book, closed := filepath.Join(t.TempDir(), "mine", "book.vcf"), filepath.Join(t.TempDir(), "closed.vcf")
	write(t, closed, "no cards")
	picture := filepath.Join(t.TempDir(), "picture.vcf")
	write(t, picture, "BEGIN:VCARD\nVERSION:4.0\nFN:Bo\nPHOTO:data:image/png;base64,AAAA\nEND:VCARD\n")
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"nobody yet", []string{other, "--find", "", "--book", book}, 0, "0 people found in the address book. There is nothing to take."},
		{"kept", []string{one, "--keep", "--book", book}, 0, "In the address book: 9 people added. These are other people's details"},
		{"kept again", []string{one, "--keep", "--book", book}, 0, "There is nothing to take."},
		{"all of them", []string{other, "--find", "", "--book", book}, 0, "9 people found in the address book: 9 new."},
		{"by words", []string{other, "--find", "PILOT suri", "--book", book}, 0, "add. crew · drone pilot, second camera · 555 0103 · 1 h of travel Nothing is changed yet; add --yes to take 1 person"},
		{"nobody of these words", []string{other, "--find", "pilot nina", "--book", book}, 0, "There is nothing to take."},
		{"a child with who signs", []string{other, "--find", "daughter", "--book", book}, 0, "add --yes to take 2 people"},
		{"in the plan already", []string{one, "--find", "", "--book", book}, 0, "9 with nothing new"},
		{"no book", []string{other, "--find", "x", "--book", closed}, 2, "was left as it is: no vCard is in it"},
		{"kept in no book", []string{one, "--keep", "--book", closed}, 2, "was left as it is"},
		{"kept in one that would lose", []string{one, "--keep", "--book", picture}, 2, "would lose something in it: line 4"},
		{"found in one that would lose", []string{other, "--find", "bo", "--book", picture}, 1, "! line 4: a picture can't be kept"},
		{"a folder", []string{other, "--find", "x", "--book", t.TempDir()}, 2, "is a folder"},
		{"a book for nothing", []string{other, "--book", book}, 2, "--book goes with --find"},
		{"both at once", []string{other, "--keep", "--find", "x"}, 2, "can't be used together"},
		{"keep needs no yes", []string{other, "--keep", "--yes"}, 2, "--yes goes with"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, _ := os.ReadFile(closed)
			code, out, err := eavelight(append([]string{"people"}, c.args...)...)
			if flat := strings.Join(strings.Fields(out+err), " "); code != c.code || !strings.Contains(flat, c.says) {
				t.Errorf("exit %d, want %d and %q\n%s%s", code, c.code, c.says, out, err)
			}
			if after, _ := os.ReadFile(closed); string(after) != string(before) {
				t.Error("what is no book was changed")
			}
		})
	}
	code, out, _ := eavelight("people", other, "--find", "daughter", "--book", book, "--yes", "--json")
	if r := fromJSON[importReport](t, out); code != 0 || !r.Saved || len(r.People) != 2 || r.People[1].Phone != "555 0142" {
		t.Fatalf("exit %d, %s", code, out)
	}
	p, _, err := store.Read(other)
	if err != nil || len(p.People) != 2 || !p.People[0].Minor || p.People[0].Guardian != p.People[1].ID {
		t.Errorf("%v, %+v", err, p.People)
	}
}

// TestPeopleUsualBook: without --book it is the one in the folder of the user's settings.
func TestPeopleUsualBook(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "AppData"} { // as os.UserConfigDir documents
		t.Setenv(name, dir)
	}
	config, err := os.UserConfigDir()
	if err != nil {
		t.Fatal(err)
	}
	if code, out, complaint := eavelight("people", demo, "--keep", "--json"); code != 0 || !fromJSON[importReport](t, out).Saved {
		t.Fatalf("exit %d, %s%s", code, out, complaint)
	}
	if _, err := os.Stat(filepath.Join(config, "eavelight", "people.vcf")); err != nil {
		t.Error(err)
	}
}
