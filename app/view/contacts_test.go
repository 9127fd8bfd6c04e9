package view

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/say"
)

var readOn = plan.Date{Year: 2027, Month: 9, Day: 30}

// person makes one of invented people.
func person(id plan.ID, name, phone, email string) plan.Person {
	q := plan.NewPerson()
	q.ID, q.Name, q.Phone, q.Email, q.Role = id, name, phone, email, plan.Talent
	return q
}

func file(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestIncomings: what is offered of each person, in words, and what is ticked.
func TestIncomings(t *testing.T) {
	in := []plan.Person{
		person("pell", "Pell Orrin", "", "pell@example.com"),
		person("suri", "Suri Vane", "+1 555 010 0002", "suri@example.com"),
		person("bram", "Bram Sole", "+1 555 010 0003", ""),
		person("fay", "Fay Sole", "+1 555 010 0003", ""),
		person("long", strings.Repeat("山の家 ", 60), "+1 555 010 0009", ""),
	}
	for _, c := range []struct {
		name   string
		who    plan.Person
		kind   IncomingKind
		on     bool
		offers string
		note   string
	}{
		{"a new one", person("", "Ivo Lunt", "+1 555 010 0077", ""), Newcomer, true, "add", ""},
		{"without a name", person("", "", "+1 555 010 0078", ""), Newcomer, true, "add", ""},
		{"with a phone that was missing", person("", "Pell Orrin", "+1 555 010 0001", ""), Known, true,
			"update: phone|add as another person", "In the plan already, by name"},
		{"with another phone only", person("", "Suri Vane", "+1 555 010 0099", ""), Known, false,
			"update, writing over phone|add as another person",
			"In the plan already, by name; phone +1 555 010 0002 in the plan, +1 555 010 0099 in the file"},
		{"with another name, by email", person("", "Suri Vane-Holt", "", "suri@example.com"), Known, false,
			"update Suri Vane, writing over name|add as another person", "by email; name Suri Vane in the plan, Suri Vane-Holt in the file"},
		{"with nothing new", person("", "Suri Vane", "", "suri@example.com"), Unchanged, false, "", "In the plan already, by name, email"},
		{"with the phone of two", person("", "Gil Ward", "+1 555 010 0003", ""), Undecided, false,
			"update Bram Sole, writing over name|update Fay Sole, writing over name|add as another person",
			"Is this Bram Sole or Fay Sole? The same phone"},
		{"like one of a long name", person("", "Gil Ward", "+1 555 010 0009", ""), Undecided, false,
			"update " + clipped(strings.Repeat("山の家 ", 60), 40) + ", writing over name|add as another person", "The same phone"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.who.Role = ""
			got := Incomings(FileToPlan, in, []contacts.Contact{{Person: c.who, Line: 7}})[0]
			var words []string
			for _, o := range got.Offers {
				words = append(words, o.Words)
			}
			if offers := strings.Join(words, "|"); got.Kind != c.kind || got.On != c.on || offers != c.offers {
				t.Errorf("%s, ticked %v: %q, want %q", got.Kind, got.On, offers, c.offers)
			}
			if !strings.Contains(got.Note, c.note) || (c.note == "") != (got.Note == "") {
				t.Errorf("note %q, want %q", got.Note, c.note)
			}
		})
	}
}

// TestOffersDoWhatTheySay: each offer, applied, changes what its words name and nothing else.
func TestOffersDoWhatTheySay(t *testing.T) {
	in := []plan.Person{person("suri", "Suri Vane", "+1 555 010 0002", ""), person("fay", "Fay Sole", "+1 555 010 0003", "")}
	read := person("", "Suri Vane", "+1 555 010 0099", "suri@example.com")
	read.Role = ""
	one := Incomings(FileToPlan, in, []contacts.Contact{{Person: read}})[0]
	for i, want := range []string{
		"Suri Vane +1 555 010 0002 suri@example.com, Fay Sole +1 555 010 0003 ",
		"Suri Vane +1 555 010 0099 suri@example.com, Fay Sole +1 555 010 0003 ",
		"Suri Vane +1 555 010 0002 , Fay Sole +1 555 010 0003 , Suri Vane +1 555 010 0099 suri@example.com",
	} {
		one.Chosen, one.On = i, true
		p := plan.New()
		p.People = append([]plan.Person{}, in...)
		contacts.Apply(&p, Proposed([]Incoming{one}))
		var got []string
		for _, q := range p.People {
			got = append(got, q.Name+" "+q.Phone+" "+q.Email)
		}
		if text := strings.Join(got, ", "); text != want {
			t.Errorf("%s: %s, want %s", one.Offers[i].Words, text, want)
		}
	}
	one.On = false
	if len(Proposed([]Incoming{one})) != 0 {
		t.Error("who is not ticked is proposed")
	}
}

// TestTwiceInAFile: who stands in a file twice is added once, unless the user says otherwise.
func TestTwiceInAFile(t *testing.T) {
	who := person("", "Ivo Lunt", "+1 555 010 0077", "")
	all := Incomings(FileToPlan, nil, []contacts.Contact{{Person: who, Line: 2}, {Person: who, Line: 3}})
	if !all[0].On || all[1].On || all[1].Note != "Seems to stand in line 2 of the file already" || all[1].Offers[0].Words != "add all the same" {
		t.Errorf("%+v", all[1])
	}
	if got := IncomingSummary(FileToPlan, all); got != "2 people in the file: 1 new, 1 to decide." {
		t.Error(got)
	}
}

// TestKeep: asked again, a choice stays where the same is offered, and only there.
func TestKeep(t *testing.T) {
	in := []plan.Person{person("suri", "Suri Vane", "+1 555 010 0002", "")}
	read := []contacts.Contact{{Person: person("", "Ivo Lunt", "", ""), Line: 2}, {Person: person("", "Suri Vane", "+1 555 010 0099", ""), Line: 3}}
	before := Incomings(FileToPlan, in, read)
	before[0].On, before[1].On = false, true
	now := Keep(before, Incomings(FileToPlan, in, read))
	if now[0].On || !now[1].On {
		t.Error("choices are lost")
	}
	in = append(in, person("ivo", "Ivo Lunt", "", ""))
	if now = Keep(before, Incomings(FileToPlan, in, read)); len(now[0].Offers) != 0 || now[0].On || !now[1].On {
		t.Errorf("what is no longer offered stays chosen: %+v", now[0])
	}
}

func TestImportWords(t *testing.T) {
	add, suri := contacts.Proposal{Action: contacts.Add}, contacts.Proposal{Action: contacts.Update, Match: "suri"}
	for _, c := range []struct {
		got, want string
	}{
		{ImportName(1), "import 1 person"},
		{ImportName(12), "import 12 people"},
		{TakeWords(FileToPlan, 0), "Take nobody"},
		{TakeWords(FileToPlan, 1), "Take 1 person"},
		{Imported([]contacts.Proposal{add, add, suri, suri}), "2 people added, 1 person updated."},
		{Imported([]contacts.Proposal{suri}), "1 person updated."},
		{IncomingSummary(FileToPlan, nil), "0 people in the file."},
		{WritingWords(nil, readOn), "There is nobody in the plan to write."},
		{ContactsPath(session.State{Path: "/x/tarn.eavelight"}), "/x/tarn-people.vcf"},
		{ContactsPath(session.State{}), ""},
		{ProblemLines([]contacts.Problem{{Text: say.Plain("a")}, {Line: 2, Column: 1, Text: say.Plain("b")}, {Line: 9, Text: say.Plain("c")}, {Line: 3, Column: 1, Text: say.Plain("b")}}),
			"a\nlines 2 and 3, column 1: b\nline 9: c"},
		{lineWords([]int{2, 3, 4, 5, 6, 7, 8}), "2, 3, 4, 5, 6 and 2 more"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	child := person("kit", "Kit Vane", "", "")
	child.Born = plan.Date{Year: 2021, Month: 4, Day: 3}
	if got := WritingWords([]plan.Person{child, person("suri", "Suri Vane", "", "")}, readOn); !strings.Contains(got, "2 people") || !strings.Contains(got, "1 of them is a minor") {
		t.Error(got)
	}
}

// TestColumns: those that hold nothing are not shown, and another match is another reading.
func TestColumns(t *testing.T) {
	f, err := contacts.ReadFile(file(t, "list.csv", "Name;Fax;Shoe;Born\nPell Orrin;;"+strings.Repeat("4", 90)+";03/04/1990\n"), readOn)
	if err != nil {
		t.Fatal(err)
	}
	cols := Columns(f)
	if len(cols) != 3 || cols[1].At != 2 || cols[1].Heading != "Shoe" || len([]rune(cols[1].Samples[0])) != 40 {
		t.Fatalf("%+v", cols)
	}
	if !HasBirths(f) || TableWords(f) != "Read as UTF-8, divided by semicolons, with headings." || !strings.Contains(ProblemLines(f.Problems), "line 2, column 4: ") {
		t.Errorf("%v, %q, %q", HasBirths(f), TableWords(f), ProblemLines(f.Problems))
	}
	m := f.Match
	m.Dates = contacts.DayFirst
	m.Fields = append([]contacts.Field{}, m.Fields...)
	m.Fields[2] = contacts.FieldLeaveOut
	now := f.Matched(m, readOn)
	if q := now.Contacts[0].Person; q.Born.String() != "1990-04-03" || q.Notes != "" || len(now.Problems) != 0 {
		t.Errorf("%+v, %v", q, now.Problems)
	}
	if !strings.HasSuffix(TableWords(now), ", with headings, dates with the day first.") {
		t.Errorf("%q", TableWords(now))
	}
	if f.Contacts[0].Person.Notes == "" {
		t.Error("the other reading changed this one")
	}
}
