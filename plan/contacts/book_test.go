package contacts

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// bookFile reads the book at path, or fails.
func bookFile(t failer, path string) Book {
	b, err := ReadBook(path)
	if err != nil || len(b.Problems) > 0 {
		t.Fatal(err, b.Problems)
	}
	return b
}

// sure are the proposals that are in no doubt.
func sure(all []Proposal) []Proposal {
	return slices.DeleteFunc(all, func(p Proposal) bool { return p.Action != Add && p.Action != Update })
}

// keep puts people into the book at path, as the window and the command do.
func keep(t failer, path string, people ...plan.Person) Book {
	b := bookFile(t, path)
	all, _ := ForBook(people)
	b, err := b.With(sure(Propose(b.Persons(), all))).Write()
	if err != nil {
		t.Fatal(err)
	}
	if again := bookFile(t, path); len(again.People) != len(b.People) {
		t.Fatal("read again, the book has others in it")
	}
	return b
}

// calls brings people of the book into a plan.
func calls(t failer, path string, p plan.Plan) plan.Plan {
	p = p.Clone()
	Apply(&p, sure(Propose(p.People, bookFile(t, path).People)))
	return p
}

// somePerson draws a person with any of everything that a plan knows of one.
func somePerson() *rapid.Generator[plan.Person] {
	return rapid.Custom(func(t *rapid.T) plan.Person {
		q := someContact().Draw(t, "contact").Person
		q.ID = "any"
		q.Role = q.Role.Or()
		q.Sizes, q.Diet = oneLine(letters().Draw(t, "sizes")), oneLine(letters().Draw(t, "diet"))
		q.Paid, q.Minor = rapid.Bool().Draw(t, "paid"), rapid.Bool().Draw(t, "minor")
		for _, m := range []*plan.Minutes{&q.Travel, &q.Change, &q.Longest, &q.Work} {
			*m = plan.Minutes(rapid.IntRange(0, 36*60).Draw(t, "minutes"))
		}
		q.Rate = rapid.SampledFrom([]plan.ID{"", "extra"}).Draw(t, "rate")
		q.Weight = rapid.Float64Range(0, 1000).Draw(t, "weight")
		q.Guardian = rapid.SampledFrom([]plan.ID{"", "guardian"}).Draw(t, "guardian")
		q.GuardianThere = rapid.SampledFrom(append(plan.GuardiansThere, "")).Draw(t, "there")
		q.Availability = []plan.Availability{{From: plan.ClockAt(600), To: plan.ClockAt(700)}}
		return q
	})
}

// TestBookKeepsEverything: through the book and into another plan, all that is of a person comes along, and nothing that is of one job.
func TestBookKeepsEverything(t *testing.T) {
	dir, n := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		n++
		path := filepath.Join(dir, fmt.Sprint(n), "people.vcf")
		q := somePerson().Draw(t, "person")
		guardian := person("guardian", "The Guardian", "", "guardian@example.org")
		if nameKey(q.Name) == nameKey(guardian.Name) {
			t.Skip("one of that name")
		}
		keep(t, path, q, guardian)
		got := calls(t, path, plan.New()).People
		want := q
		want.ID, want.Paid, want.Rate, want.Availability = got[0].ID, false, "", nil
		if q.Guardian != "" {
			want.Guardian = got[1].ID
		}
		if len(got) != 2 || !reflect.DeepEqual(got[0], want) {
			t.Fatalf("got  %+v\nwant %+v", got[0], want)
		}
	})
}

// TestBookKnowsEveryField fails when a plan learns more of people and nobody has said whether the book keeps it.
func TestBookKnowsEveryField(t *testing.T) {
	ofOneJob := []string{"ID", "Paid", "Rate", "Availability", "Certificate"}
	kind := reflect.TypeFor[plan.Person]()
	seen := map[string]bool{}
	for i := range 300 {
		v := reflect.ValueOf(somePerson().Example(i))
		for f := range kind.NumField() {
			seen[kind.Field(f).Name] = seen[kind.Field(f).Name] || !v.Field(f).IsZero()
		}
	}
	for f := range kind.NumField() {
		if name := kind.Field(f).Name; !seen[name] && !slices.Contains(ofOneJob, name) {
			t.Errorf("%s is neither drawn by somePerson nor of one job", name)
		}
	}
}

// TestBookTakesAnything: whatever stands in the fields of a plan, the book can be written and read, and the words are in it.
func TestBookTakesAnything(t *testing.T) {
	dir, n := t.TempDir(), 0
	rapid.Check(t, func(t *rapid.T) {
		n++
		path := filepath.Join(dir, fmt.Sprint(n), "people.vcf")
		q := person("any", oneLine(letters().Filter(func(s string) bool { return nameKey(oneLine(s)) != "" }).Draw(t, "name")), "", "")
		for _, text := range []*string{&q.Phone, &q.Email, &q.Job, &q.Pronouns, &q.Sizes, &q.Diet, &q.Notes} {
			*text = letters().Draw(t, "text")
		}
		got := keep(t, path, q).People[0]
		kept := strings.ToLower(keptText(got))
		for _, text := range []string{q.Job, q.Pronouns, q.Sizes, q.Diet} {
			if !strings.Contains(kept, strings.ToLower(oneLine(text))) {
				t.Fatalf("%q is lost from %q", text, kept)
			}
		}
		if keep(t, path, q); len(bookFile(t, path).People) != 1 {
			t.Fatal("kept a second time, there are two")
		}
	})
}

// TestTwoPlansShareABook: what each knows comes together, what they say otherwise stays as it was, and neither loses anything.
func TestTwoPlansShareABook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "folder", "people.vcf")
	ida := person("person-1", "Ida Berg", "+1 555 010 0001", "")
	ida.Notes, ida.Weight = "brings her dog", 2
	keep(t, path, ida)
	other := person("person-1", "Ida Berg", "+1 555 010 0099", "ida@example.org")
	other.Notes, other.Travel = "early riser", 40
	bo := person("person-2", "Bo Lind", "", "bo@example.org")
	b := keep(t, path, other, bo)
	if len(b.People) != 2 {
		t.Fatalf("%+v", b.People)
	}
	q := b.People[0].Person
	if q.Phone != "+1 555 010 0001" || q.Email != "ida@example.org" || q.Notes != "brings her dog\nearly riser" || q.Travel != 40 || q.Weight != 2 {
		t.Errorf("%+v", q)
	}
	if b.People[0].UID != UID(ida) {
		t.Error("Ida is another person now")
	}
	third := plan.New()
	third.People = []plan.Person{person("ida", "Ida Berg", "", "")}
	third = calls(t, path, third)
	if len(third.People) != 2 || third.People[0].ID != "ida" || third.People[0].Phone != "+1 555 010 0001" || third.People[0].Weight != 2 || third.People[1].Name != "Bo Lind" {
		t.Errorf("%+v", third.People)
	}
	if runtime.GOOS != "windows" { // which tells by lists of access
		for p, want := range map[string]os.FileMode{path: 0o600, filepath.Dir(path): 0o700} {
			if info, err := os.Stat(p); err != nil || info.Mode().Perm() != want {
				t.Errorf("%s: %v, %v", p, info.Mode(), err)
			}
		}
	}
}

// TestGuardianOfTheBook: a guardian is found again under whatever id, and goes with the one who is forgotten.
func TestGuardianOfTheBook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "people.vcf")
	kit, ruth := person("kit", "Kit Vane", "", ""), person("ruth", "Ruth Vane", "+1 555 010 0002", "")
	kit.Minor, kit.Guardian = true, "ruth"
	all, _ := ForBook([]plan.Person{kit, ruth})
	if _, err := bookFile(t, path).With(Propose(nil, all[:1])).Write(); err != nil { // the guardian comes later
		t.Fatal(err)
	}
	b := keep(t, path, ruth)
	if b.People[0].Guardian != b.People[1].UID {
		t.Fatalf("%+v", b.People)
	}
	p := plan.New()
	p.People = []plan.Person{person("someone", "Ruth Vane", "", ""), person("kit-2", "Kit Vane", "", "")}
	if p = calls(t, path, p); p.People[1].Guardian != "someone" || !p.People[1].Minor {
		t.Errorf("%+v", p.People)
	}
	p.People[0].ID, p.People[1].Guardian = "other", "other"
	for _, pr := range Propose(p.People, b.People) {
		if pr.Action != Same {
			t.Errorf("%s: %s %+v", pr.Contact.Person.Name, pr.Action, pr.Changes)
		}
	}
	p.People = append(p.People, person("aunt", "The Aunt", "", ""))
	p.People[1].Guardian = "aunt"
	if pr := Propose(p.People, b.People)[0]; len(pr.Changes) != 1 || pr.Changes[0] != (Change{FieldGuardian, "The Aunt", "Ruth Vane", false}) {
		t.Errorf("%+v", pr)
	}
	if b = b.Without([]string{UID(ruth)}); len(b.People) != 1 || b.People[0].Guardian != "" {
		t.Errorf("%+v", b.People)
	}
	if b, err := b.Without([]string{UID(kit)}).Write(); err != nil || len(bookFile(t, path).People) != 0 || len(b.People) != 0 {
		t.Errorf("the last one stays: %v", err)
	}
}

// TestBrokenBook: a book that can't be read whole is told in words, and never written over.
func TestBrokenBook(t *testing.T) {
	card := func(lines string) string {
		return "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Ida\r\n" + lines + "END:VCARD\r\n"
	}
	for name, c := range map[string]struct{ text, reads, writes string }{
		"no cards":         {"eavelight: 1\n", "no vCard is in it", ""},
		"binary":           {"\x00\x01\x02", "no vCard is in it", ""},
		"too large":        {strings.Repeat("x", MaxBytes+1), "10 MB", ""},
		"with a picture":   {card("PHOTO:data:image/png;base64,AAAA\r\n"), "", "line 4: a picture can't be kept"},
		"cut off":          {strings.TrimSuffix(card(""), "END:VCARD\r\n"), "", "no end"},
		"odd figures":      {card("X-EAVELIGHT-TRAVEL:soon\r\n"), "", `"soon" can't be read as travel minutes`},
		"figures too high": {card("X-EAVELIGHT-WEIGHT:NaN\r\n"), "", "weight of waiting"},
	} {
		t.Run(name, func(t *testing.T) {
			path := file(t, "people.vcf", c.text)
			b, err := ReadBook(path)
			if c.reads != "" {
				if err == nil || !strings.Contains(err.Error(), c.reads) || !strings.Contains(err.Error(), path) {
					t.Fatalf("%v, want %q", err, c.reads)
				}
			} else if err != nil || len(b.People) != 1 {
				t.Fatal(b, err)
			}
			all, _ := ForBook([]plan.Person{person("bo", "Bo", "", "")})
			b = b.With(Propose(b.Persons(), all))
			if _, err = b.Write(); err == nil || !strings.Contains(err.Error(), c.writes) {
				t.Errorf("writing: %v, want %q", err, c.writes)
			}
			if after, _ := os.ReadFile(path); string(after) != c.text {
				t.Error("the file was changed")
			}
		})
	}
	if _, err := ReadBook(t.TempDir()); err == nil || !strings.Contains(err.Error(), "is a folder") {
		t.Error(err)
	}
}

// TestBookOfAnother: two windows, or another program, do not write over each other.
func TestBookOfAnother(t *testing.T) {
	path := filepath.Join(t.TempDir(), "people.vcf")
	mine := bookFile(t, path)
	keep(t, path, person("ida", "Ida", "", ""))
	if _, err := mine.Write(); !errors.Is(err, ErrBookChanged) {
		t.Error(err)
	}
	mine = bookFile(t, path)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if _, err := mine.Write(); !errors.Is(err, ErrBookChanged) {
		t.Error("somebody took the book away:", err)
	}
	b := keep(t, path, person("bo", "Bo", "", ""))
	if b, err := b.Without(nil).Write(); err != nil {
		t.Error("a second time:", err)
	} else if _, err = b.Write(); err != nil {
		t.Error("a third time:", err)
	}
}

// TestBookInAClosedFolder: where nothing may be written, that is said, and nothing is left behind.
func TestBookInAClosedFolder(t *testing.T) {
	dir := t.TempDir()
	for name, path := range map[string]string{
		"under a file": filepath.Join(file(t, "plain", "x"), "people.vcf"), "read-only": filepath.Join(dir, "people.vcf")} {
		if name == "read-only" {
			if os.Geteuid() <= 0 {
				continue // for the super-user, and on Windows, no folder is closed
			}
			if err := os.Chmod(dir, 0o500); err != nil {
				t.Fatal(err)
			}
			defer os.Chmod(dir, 0o700)
		}
		b, err := ReadBook(path)
		if err == nil {
			all, _ := ForBook([]plan.Person{person("ida", "Ida", "", "")})
			_, err = b.With(Propose(nil, all)).Write()
		}
		if err == nil || !strings.Contains(err.Error(), "address book") {
			t.Errorf("%s: %v", name, err)
		}
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Error("something is left behind")
	}
}

// TestBookOfHundreds: five hundred go in, five hundred come out, and again nothing is new.
func TestBookOfHundreds(t *testing.T) {
	path := filepath.Join(t.TempDir(), "people.vcf")
	people := personsOf(thousand()[:500])
	for i := range people {
		people[i].ID = plan.ID(fmt.Sprintf("p%d", i))
	}
	keep(t, path, people...)
	if p := calls(t, path, plan.New()); len(p.People) != plan.MaxItems {
		t.Errorf("%d came out", len(p.People))
	}
	before, _ := os.ReadFile(path)
	keep(t, path, people...)
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("kept again, the book is another")
	}
}

// TestBookUIDs: identifiers that are missing, or stand there twice, tell people apart all the same.
func TestBookUIDs(t *testing.T) {
	one := "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Ida\r\n%sEND:VCARD\r\n"
	path := file(t, "people.vcf", strings.Repeat(fmt.Sprintf(one, "UID:x\r\n"), 2)+strings.Repeat(fmt.Sprintf(one, ""), 2))
	b := bookFile(t, path)
	uids := map[string]bool{}
	for _, c := range b.People {
		uids[c.UID] = true
	}
	if len(uids) != 4 || !uids["x"] || uids[""] {
		t.Errorf("%v", uids)
	}
	if b = b.Without([]string{"x"}); len(b.People) != 3 {
		t.Errorf("%d are left", len(b.People))
	}
}

// TestForBook: who has no name is told of.
func TestForBook(t *testing.T) {
	odd := person("odd", "Odd", "ask Ida", "")
	all, found := ForBook([]plan.Person{person("x", " ", "", ""), odd, person("long", strings.Repeat("n", maxName+1), "", "")})
	if len(all) != 1 || all[0].Person.Notes != "Phone: ask Ida" || all[0].Line != 2 {
		t.Errorf("%+v", all)
	}
	wantList(t, "problems", texts(found), []string{"x has no name that fits, and is not shown here",
		`Odd: "ask Ida" is no phone number; it stands in the notes`, strings.Repeat("n", 60) + "… has no name that fits, and is not shown here"})
}
