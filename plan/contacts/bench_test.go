package contacts

import (
	"fmt"
	"strings"
	"testing"

	"eavelight/plan"
)

// thousand makes people enough for any film, with phones, emails and notes.
func thousand() []Contact {
	var out []Contact
	for i := range 1000 {
		p := person(fmt.Sprintf("p%d", i), fmt.Sprintf("Ida Möller the %dth", i), fmt.Sprintf("+1 555 %07d", i), fmt.Sprintf("ida%d@example.org", i))
		p.Notes = strings.Repeat("no nuts; shoes 41, ", 10)
		out = append(out, FromPerson(p))
	}
	return out
}

func BenchmarkReadCards1000(b *testing.B) {
	file := written(b, thousand()...)
	b.SetBytes(int64(len(file)))
	for b.Loop() {
		if all, _, err := ReadCards(strings.NewReader(file), today); err != nil || len(all) != 1000 {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadTable1000(b *testing.B) {
	var file strings.Builder
	file.WriteString("name;phone;email;notes\n")
	for _, c := range thousand() {
		p := c.Person
		fmt.Fprintf(&file, "%s;%s;%s;\"%s\"\n", p.Name, p.Phone, p.Email, p.Notes)
	}
	b.SetBytes(int64(file.Len()))
	for b.Loop() {
		table, err := ReadTable(strings.NewReader(file.String()))
		if all, found := table.Contacts(table.Match, today); err != nil || len(all) != 1000 || len(found) > 0 {
			b.Fatal(err, found)
		}
	}
}

func BenchmarkMerge1000Into1000(b *testing.B) {
	all := thousand()
	people := personsOf(all)
	for i := range all[:500] {
		all[i].Person.Name = fmt.Sprintf("Bo Lind the %dth", i)
		all[i].Person.Phone, all[i].Person.Email = "", ""
	}
	for b.Loop() {
		p := plan.Plan{People: append([]plan.Person(nil), people...)}
		if added := Apply(&p, Propose(p.People, all)); len(added) != 500 {
			b.Fatal(len(added))
		}
	}
}
