package app

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/contacts"
)

// TestBookBetweenPlans: who is kept from one plan is found in the next; what was taken can be undone like any edit.
func TestBookBetweenPlans(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("People").Action()
	d.press("Keep in the book…")
	d.settle()
	d.press("Tick all that are sure")
	d.press("Keep 9 people")
	d.settle()
	if !d.says("In the address book: 9 people added.") {
		t.Fatal("it is not said that they are kept")
	}
	d.press("Close")
	d.fresh()
	d.settle()
	d.press("From the address book…")
	d.settle()
	if !d.says("9 people in the address book: 9 new.") || !d.says("These are other people's details") {
		t.Error("the book is not shown, or without its caution")
	}
	d.entry("Find: a name, a part, a note").SetText("drone")
	d.press("Tick all that are sure")
	d.press("Take 1 person")
	d.settle()
	if p := d.plan(); len(p.People) != 1 || p.People[0].Job != "drone pilot, second camera" || p.People[0].Paid || len(p.People[0].Availability) != 0 {
		t.Errorf("%+v", p.People)
	}
	d.menuItem("Undo import 1 person").Action()
	d.settle()
	if len(d.plan().People) != 0 {
		t.Error("undo does not take it back")
	}
}

// TestBookOfHundreds: a book of 2,000 is read and looked through without the window standing still.
func TestBookOfHundreds(t *testing.T) {
	d := newDesk(t)
	var people []plan.Person
	for i := range 2000 {
		q := plan.NewPerson()
		q.ID, q.Name, q.Phone, q.Notes = plan.ID(fmt.Sprint("p", i)), fmt.Sprint("Guest ", i), fmt.Sprintf("+1 555 %07d", i), strings.Repeat("rides a horse; ", 20)
		people = append(people, q)
	}
	b, err := contacts.ReadBook(d.book)
	if err != nil {
		t.Fatal(err)
	}
	all, _ := contacts.ForBook(people)
	if _, err = b.With(contacts.Propose(nil, all)).Write(); err != nil {
		t.Fatal(err)
	}
	d.menuItem("People").Action()
	took := func(what string, f func()) {
		start := time.Now()
		f()
		t.Logf("%s takes %v", what, time.Since(start)) // measured: 20 ms at most
	}
	took("opening", func() { d.press("From the address book…") })
	d.settle()
	took("finding", func() { d.entry("Find: a name, a part, a note").SetText("horse 1999") })
	took("ticking", func() { d.press("Tick all that are sure") })
	if !d.says("Guest 1999") || d.says("Guest 1998") || !d.says("2000 people in the address book") {
		t.Error("the search finds others")
	}
	took("showing all", func() { d.entry("Find: a name, a part, a note").SetText("") })
	took("ticking all", func() { d.press("Tick all that are sure") })
	if !d.says("untick 1500 of the 2000 new ones") {
		t.Error("it is not said that so many do not fit")
	}
}
