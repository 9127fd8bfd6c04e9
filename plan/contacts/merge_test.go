package contacts

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// Who counts as the same person is the project's own rule (doc of Propose); these tests are that rule by hand.

func person(id, name, phone, email string) plan.Person {
	p := plan.NewPerson()
	p.ID, p.Name, p.Phone, p.Email, p.Role = plan.ID(id), name, phone, email, plan.Talent
	return p
}

func contact(name, phone, email string) Contact {
	p := person("", name, phone, email)
	p.Role = ""
	return Contact{Person: p}
}

func TestPropose(t *testing.T) {
	noor := person("noor", "Noor Castellan", "+1 (555) 010-0123", "noor@example.org")
	ida := person("ida", "Ida Berg", "0171 7654321", "")
	ida2 := person("ida-2", "Ida Berg", "", "ida@example.org")
	nameless := person("person-1", "", "+1 555 010 0999", "")
	known := []plan.Person{noor, ida, ida2, nameless}
	for _, c := range []struct {
		name string
		c    Contact
		want string // action, match, by, others, changes; an exclamation mark for what is not taken by itself
	}{
		{"nobody like them", contact("Bo Lind", "+1 555 010 0777", "bo@example.org"), "add   [] []"},
		{"nothing to tell them by", contact("", "", ""), "add   [] []"},
		{"the same", contact("noor  castellan", "+15550100123", "NOOR@example.org"), "nothing new noor name, email, phone [] []"},
		{"the same name, new phone", contact("NOOR CASTELLAN", "+1 555 010 0124", ""), "update noor name [] [phone!]"},
		{"last name first", contact("Castellan, Noor", "", ""), "nothing new noor name [] []"},
		{"the same email, another name", contact("N. Castellan", "", "noor@example.org"), "update noor email [] [name!]"},
		{"the same phone, another name", contact("Tim Castellan", "(555) 010 0123", ""), "unsure noor phone [] [name!]"},
		{"the same phone, no name", contact("", "555 010 0123", "n@example.org"), "update noor phone [] [email!]"},
		{"two of that name", contact("Ida Berg", "", ""), "unsure ida name [ida-2] []"},
		{"two of that name, told by the phone", contact("Ida Berg", "0171/7654321", ""), "nothing new ida name, phone [ida-2] []"},
		{"a phone that says the country too", contact("Ida Berg", "+49 171 7654321", ""), "update ida name, phone [ida-2] [phone!]"},
		{"a phone with an extension", contact("Noor Castellan", "+1 555 010 0123 ext. 7", ""), "update noor name, phone [] [phone!]"},
		{"two of that name, told by the email", contact("Ida Berg", "", "ida@example.org"), "nothing new ida-2 name, email [ida] []"},
		{"like one by this, another by that", contact("Noor Castellan", "", "ida@example.org"), "unsure noor name [ida-2] [email!]"},
		{"more facts", Contact{Person: plan.Person{Name: "noor castellan", Pronouns: "she/her", Diet: "vegan", Sizes: "M", Born: today, Paid: true, Travel: 20, Weight: 1, Change: 15}},
			"update noor name [] [pronouns sizes allergies and diet date of birth travel minutes paid]"},
		{"somebody of no name yet", contact("Ann Vale", "+1 555 010 0999", ""), "update person-1 phone [] [name]"},
		{"short numbers tell nothing", contact("Bo", "0123", ""), "add   [] []"},
	} {
		p := Propose(known, []Contact{c.c})[0]
		if got := proposalText(p); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
	// A name that is written from right to left, with and without marks of direction; ß and SS; letters with marks apart.
	for _, two := range [][2]string{{"\u200fנועה לוי\u200f", "נועה לוי"}, {"Jörg Weiß", "JO\u0308RG WEISS"}, {"ΣΊΣΥΦΟΣ", "Σίσυφος"}} {
		p := Propose([]plan.Person{person("x", two[0], "", "")}, []Contact{contact(two[1], "", "")})
		if p[0].Action != Same {
			t.Errorf("%q and %q: %+v", two[0], two[1], p[0])
		}
	}
}

func proposalText(p Proposal) string {
	var changes []string
	for _, c := range p.Changes {
		s := string(c.Field)
		if !c.Take {
			s += "!"
		}
		changes = append(changes, s)
	}
	var by []string
	for _, f := range p.By {
		by = append(by, string(f))
	}
	return fmt.Sprintf("%s %s %s %v %v", p.Action, p.Match, strings.Join(by, ", "), p.Others, changes)
}

// TestFamily is what a shared phone and email of three children and their mother must not do: make one of four.
func TestFamily(t *testing.T) {
	mother := person("mo", "Mo Vale", "+1 555 010 0123", "vale@example.org")
	var read []Contact
	for i, n := range []string{"Ann Vale", "Bea Vale", "Cy Vale", "Cy Vale"} {
		c := contact(n, mother.Phone, mother.Email)
		c.Line = i + 2
		read = append(read, c)
	}
	for i, p := range Propose([]plan.Person{mother}, read) {
		if p.Action != Unsure || p.Match != "mo" {
			t.Errorf("child %d: %s", i, proposalText(p))
		}
	}
	all := Propose(nil, read)
	for i, want := range []Action{Add, Add, Add, Unsure} {
		if all[i].Action != want {
			t.Errorf("into an empty plan, child %d: %s", i, proposalText(all[i]))
		}
	}
	if all[3].Earlier != 4 {
		t.Errorf("the one who stands in the file twice is first at line 4, not %d", all[3].Earlier)
	}
	// Two of one name with phones of their own are two.
	read = []Contact{contact("Ann Vale", "+1 555 010 0123", ""), contact("Ann Vale", "+1 555 010 0124", "")}
	if p := Propose(nil, read)[1]; p.Action != Add {
		t.Error(proposalText(p))
	}
}

func TestApply(t *testing.T) {
	p := plan.New()
	p.People = []plan.Person{person("noor-castellan", "Noor Castellan", "", "noor@example.org"), person("bo", "Bo Lind", "+1 555 010 0777", "")}
	p.People[0].Notes = "no nuts"
	before := p.Clone()
	read := []Contact{
		contact("Noor Castellan", "+1 555 010 0123", "noor.castellan@example.org"),
		contact("Noor Castellán", "", ""),
		contact("Noor Castellan", "+1 555 010 9999", "another@example.net"),
		contact("名前", "", ""), contact("🎬", "", ""), contact("🎬", "", ""),
		contact("Bo Lind", "+1 555 010 0777", ""),
	}
	read[0].Person.Notes, read[0].Person.Job, read[0].Person.Minor = "no nuts\nshoes 41", "the aunt", true
	all := Propose(p.People, read)
	if !reflect.DeepEqual(p, before) {
		t.Fatal("proposing changes the plan")
	}
	all[2].Action = Add // the user says that these are two
	all[5].Action = Add
	all[6].Action = Skip
	clone := p.Clone()
	added := Apply(&clone, all)
	want := []plan.ID{"noor-castellán", "noor-castellan-2", "名前", "person", "person-2"}
	if !slices.Equal(added, want) {
		t.Errorf("added %q, want %q", added, want)
	}
	if !reflect.DeepEqual(p, before) {
		t.Fatal("applying to the clone changes the plan")
	}
	// The email that was there stays: Take was not set for it. The job and phone were not there.
	got := clone.People[0]
	if got.Email != "noor@example.org" || got.Phone != "+1 555 010 0123" || got.Notes != "no nuts\nshoes 41" || got.Job != "the aunt" || !got.Minor {
		t.Errorf("%+v", got)
	}
	if !reflect.DeepEqual(clone.People[1], p.People[1]) {
		t.Error("somebody left out has changed")
	}
	if wrong := plan.Validate(clone); len(wrong) > 0 {
		t.Error(wrong)
	}
	// Once more, there is nothing new.
	again := Propose(clone.People, []Contact{{Person: clone.People[1]}, {Person: clone.People[2]}})
	for _, a := range again {
		if a.Action != Same {
			t.Errorf("again: %s", proposalText(a))
		}
	}
	all[0].Changes[slices.IndexFunc(all[0].Changes, func(c Change) bool { return c.Field == FieldEmail })].Take = true
	Apply(&clone, all[:1])
	wantText(t, "the email the user chose", clone.People[0].Email, "noor.castellan@example.org")
	wantText(t, "notes taken twice", clone.People[0].Notes, "no nuts\nshoes 41")
}

// TestAnyMergeIsRight applies what is proposed for anybody to a plan of anybody, and finds the plan whole: no id twice, nobody
// gone, and every field that held something before as it was, notes longer at most.
func TestAnyMergeIsRight(t *testing.T) {
	few := rapid.Custom(func(t *rapid.T) Contact {
		c := contact(rapid.SampledFrom([]string{"", "Ida", "IDA", "Bo Lind", "Lind, Bo", "🎬"}).Draw(t, "name"),
			rapid.SampledFrom([]string{"", "+49 171 7654321", "0171 7654321", "112"}).Draw(t, "phone"),
			rapid.SampledFrom([]string{"", "a@example.org", "A@example.org"}).Draw(t, "email"))
		c.Person.Notes = rapid.SampledFrom([]string{"", "x", "y\nx"}).Draw(t, "notes")
		c.Person.Job = rapid.SampledFrom([]string{"", "camera"}).Draw(t, "job")
		return c
	})
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		var asThey []Proposal
		for _, c := range rapid.SliceOfN(few, 0, 6).Draw(t, "in the plan") {
			asThey = append(asThey, Proposal{Contact: c, Action: Add})
		}
		Apply(&p, asThey)
		before := p.Clone()
		all := Propose(p.People, rapid.SliceOfN(few, 0, 6).Draw(t, "read"))
		added := Apply(&p, all)
		if wrong := plan.Validate(p); len(wrong) > 0 {
			t.Fatal(wrong)
		}
		if len(p.People) != len(before.People)+len(added) {
			t.Fatal("somebody is gone")
		}
		for i, was := range before.People {
			now := p.People[i]
			for _, f := range [][2]string{{was.Name, now.Name}, {was.Phone, now.Phone}, {was.Email, now.Email}, {was.Job, now.Job}} {
				if f[0] != "" && f[0] != f[1] {
					t.Fatalf("%q has become %q", f[0], f[1])
				}
			}
			if was.ID != now.ID || !strings.HasPrefix(now.Notes, was.Notes) {
				t.Fatalf("%+v has become %+v", was, now)
			}
		}
		for _, a := range Propose(p.People, contactsOf(p.People[len(before.People):])) {
			if a.Action == Add {
				t.Fatalf("somebody just added would be added again: %+v", a)
			}
		}
	})
}

func contactsOf(people []plan.Person) []Contact {
	var out []Contact
	for _, p := range people {
		if p.Name != "" { // without a name, a phone or an email nobody is found again
			out = append(out, FromPerson(p))
		}
	}
	return out
}
