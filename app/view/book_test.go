package view

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/contacts"
)

// family is a child with its guardian, and somebody else.
func family() []plan.Person {
	kit := person("kit", "Kit Marr", "", "")
	kit.Minor, kit.Guardian, kit.Diet = true, "ruth", "no nuts"
	return []plan.Person{kit, person("ruth", "Ruth Marr", "+1 555 010 0001", ""), person("ada", "Ada Lunt", "", "")}
}

// bookOf is an address book with people in it.
func bookOf(t *testing.T, people ...plan.Person) contacts.Book {
	t.Helper()
	b, err := contacts.ReadBook(filepath.Join(t.TempDir(), "people.vcf"))
	if err != nil {
		t.Fatal(err)
	}
	all, _ := contacts.ForBook(people)
	var add []contacts.Proposal
	for _, c := range all {
		add = append(add, contacts.Proposal{Contact: c, Action: contacts.Add})
	}
	return b.With(add)
}

// ticks are the names of a list, with a star at those that are ticked.
func ticks(all []Incoming) string {
	var out []string
	for _, in := range all {
		name := in.Name
		if in.On {
			name += "*"
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

// TestBookSides: who is shown, in which order, and who is ticked.
func TestBookSides(t *testing.T) {
	empty, full := bookOf(t), bookOf(t, family()...)
	into := func(b contacts.Book, who plan.ID) []Incoming { all, _ := IntoBook(b, family(), who); return all }
	for _, c := range []struct {
		name string
		all  []Incoming
		want string
	}{
		{"into an empty book", into(empty, "ada"), "Kit Marr, Ruth Marr, Ada Lunt*"},
		{"into it, a child", into(empty, "kit"), "Kit Marr*, Ruth Marr*, Ada Lunt"},
		{"into it, nobody", into(empty, ""), "Kit Marr, Ruth Marr, Ada Lunt"},
		{"into a book that has them", into(full, "ada"), "Kit Marr, Ruth Marr, Ada Lunt"},
		{"from the book", FromBook(full, nil), "Ada Lunt, Kit Marr, Ruth Marr"},
		{"found by what nobody has", Found(full, nil, "nuts piano"), ""},
		{"found, a child", Found(full, nil, "NUTS"), "Kit Marr*, Ruth Marr*"},
		{"found, a child whose guardian is there", Found(full, []plan.Person{person("r", "Ruth Marr", "+1 555 010 0001", "")}, "kit"), "Kit Marr*"},
		{"found, who is there", Found(full, family(), "ada"), "Ada Lunt"},
		{"all of them", Found(full, nil, ""), "Ada Lunt*, Kit Marr*, Ruth Marr*"},
	} {
		if got := ticks(c.all); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// TestRoom: more than fit are told of before, not ticked, and not sure.
func TestRoom(t *testing.T) {
	var many []plan.Person
	for i := range plan.MaxItems {
		many = append(many, person(plan.ID(fmt.Sprint("p", i)), fmt.Sprint("Guest ", i), "", ""))
	}
	b := bookOf(t, append(many, family()...)...)
	all := Found(b, many[:499], "")
	if got := ticks(all[:2]); got != "Ada Lunt*, Guest 0" {
		t.Error(got)
	}
	if want := "503 people in the address book: 4 new, 499 with nothing new. 3 of the new ones do not fit: the plan holds 500 people at most."; IncomingSummary(BookToPlan, all) != want {
		t.Error(IncomingSummary(BookToPlan, all))
	}
	last := &all[len(all)-1]
	if last.Name != "Ruth Marr" || last.Sure() || !last.NoRoom || TooMany(BookToPlan, 499, all) != "" {
		t.Errorf("%+v", last)
	}
	last.On = true
	if got := TooMany(BookToPlan, 499, all); got != "The plan holds 500 people at most, and has 499: untick 1 of the 2 new ones." {
		t.Error(got)
	}
	if all := FromBook(b, nil); all[502].NoRoom || !all[502].Sure() {
		t.Error("of those who are only shown, nobody is too many")
	}
}

func TestBookWords(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{ForgetWords(0), "Forget nobody"},
		{ForgetWords(1), "Forget 1 person"},
		{Forgotten(2), "2 people are out of the address book. The plans they are in still have them."},
		{Kept(nil), "In the address book: Nobody was added or updated."},
		{TakeWords(PlanToBook, 3), "Keep 3 people"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
	twice, _ := IntoBook(bookOf(t), []plan.Person{person("a", "Ada Lunt", "", ""), person("b", "Ada Lunt", "", "")}, "")
	if twice[1].Kind != Undecided || twice[1].Note != "Seems to stand in the plan twice" {
		t.Errorf("%+v", twice[1])
	}
}
