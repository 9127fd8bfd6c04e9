package page

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// The buttons of the bar that open the two sides of the book.
const (
	fromBook = 2
	intoBook = 3
)

func (d *desk) openBook(button int) *booking {
	d.t.Helper()
	test.Tap(d.bar.Objects[button].(*widget.Button))
	d.settle()
	if button == intoBook {
		return d.into
	}
	return d.from
}

// tick presses the tick of somebody in the list.
func (d *desk) tick(s *booking, name string) {
	d.t.Helper()
	for i := range s.people.rows {
		if s.people.at(i).Name == name {
			l := s.people.newLine().(*incomingLine)
			s.people.fill(i, l)
			test.Tap(l.tick)
			return
		}
	}
	d.t.Fatalf("%s is not in the list", name)
}

// inBook are the names in the book's file.
func (d *desk) inBook() string {
	d.t.Helper()
	b, err := contacts.ReadBook(d.book)
	if err != nil {
		d.t.Fatal(err)
	}
	var names []string
	for _, c := range b.People {
		names = append(names, c.Person.Name)
	}
	return strings.Join(names, ", ")
}

// another is a person for a plan.
func another(id plan.ID, name string) plan.Person {
	q := plan.NewPerson()
	q.ID, q.Name, q.Role = id, name, plan.Talent
	return q
}

// TestKeepInTheBook: the selected person is ticked, the others can be; what is written can be put back.
func TestKeepInTheBook(t *testing.T) {
	d := newDesk(t)
	d.selected = "suri"
	s := d.openBook(intoBook)
	if s.take.Text != "Keep 1 person" || s.take.Disabled() || s.forget.Visible() || s.undo.Visible() || s.says.Text != "2 people in the plan: 2 new." {
		t.Fatalf("%q, %q", s.take.Text, s.says.Text)
	}
	test.Tap(s.take)
	if d.inBook() != "" {
		t.Error("it was written on the UI goroutine")
	}
	d.settle()
	if d.inBook() != "Suri Vane" || s.says.Text != "In the address book: 1 person added." || !s.take.Disabled() || len(d.edits) != 0 {
		t.Errorf("%s, %q, %q", d.inBook(), s.says.Text, s.take.Text)
	}
	test.Tap(s.people.bar.Objects[2].(*widget.Button)) // all that are sure
	if s.take.Text != "Keep 1 person" {
		t.Errorf("%q", s.take.Text)
	}
	test.Tap(s.take)
	d.settle()
	if d.inBook() != "Suri Vane, Pell Orrin" {
		t.Error(d.inBook())
	}
	test.Tap(s.undo)
	d.settle()
	if d.inBook() != "Suri Vane" || s.says.Text != "The address book is as it was." {
		t.Errorf("%s, %q", d.inBook(), s.says.Text)
	}
	test.Tap(s.undo) // once more is redo
	d.settle()
	if d.inBook() != "Suri Vane, Pell Orrin" {
		t.Error(d.inBook())
	}
}

// TestFromTheBook: another plan finds its people, takes them in one edit, and forgets them; a child brings who signs for it.
func TestFromTheBook(t *testing.T) {
	d := newDesk(t)
	kit, ruth := another("kit", "Kit Marr"), another("ruth", "Ruth Marr")
	kit.Minor, kit.Guardian, kit.Notes = true, "ruth", "plays the piano"
	d.state.Plan.People = append(d.state.Plan.People, kit, ruth)
	d.Show(d.state)
	s := d.openBook(intoBook)
	test.Tap(s.people.bar.Objects[2].(*widget.Button))
	test.Tap(s.take)
	d.settle()
	d.Close()

	d.state.Plan = plan.New()
	d.state.Plan.People = []plan.Person{another("suri", "Suri Vane")}
	d.Show(d.state)
	s = d.openBook(fromBook)
	if s.says.Text != "4 people in the address book: 3 new, 1 with nothing new." || s.take.Text != "Take nobody" || !s.forget.Visible() {
		t.Fatalf("%q, %q", s.says.Text, s.take.Text)
	}
	s.people.find.SetText("PIANO kit")
	if len(s.people.rows) != 1 {
		t.Errorf("%d are found", len(s.people.rows))
	}
	d.tick(s, "Kit Marr")
	if s.take.Text != "Take 2 people" {
		t.Errorf("%q, without the guardian", s.take.Text)
	}
	test.Tap(s.take)
	d.settle()
	people := d.state.Plan.People
	if !slices.Equal(d.edits, []string{"import 2 people"}) || d.names() != "Suri Vane, Kit Marr, Ruth Marr" || people[1].Guardian != people[2].ID || !people[1].Minor {
		t.Fatalf("%q, %+v", d.edits, people)
	}
	if s.says.Text != "2 people added. Undo takes it back." {
		t.Errorf("%q", s.says.Text)
	}
	s.people.find.SetText("")
	d.tick(s, "Ruth Marr") // she is in the plan, and can be forgotten all the same
	if s.take.Text != "Take nobody" || s.forget.Text != "Forget 1 person" {
		t.Errorf("%q, %q", s.take.Text, s.forget.Text)
	}
	test.Tap(s.forget)
	d.settle()
	if d.inBook() != "Pell Orrin, Suri Vane, Kit Marr" || !strings.HasPrefix(s.says.Text, "1 person is out of the address book.") || d.names() != "Suri Vane, Kit Marr, Ruth Marr" {
		t.Errorf("%s, %q, %s", d.inBook(), s.says.Text, d.names())
	}
	test.Tap(s.undo)
	d.settle()
	if d.inBook() != "Pell Orrin, Suri Vane, Kit Marr, Ruth Marr" {
		t.Error(d.inBook())
	}
}

// TestBookThatCannotBeUsed: what is wrong is said, nothing can be pressed that would not work, and the file stays as it is.
func TestBookThatCannotBeUsed(t *testing.T) {
	card := "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Ida\r\nPHOTO:data:image/png;base64,AAAA\r\nEND:VCARD\r\n"
	for _, c := range []struct {
		name, text, says string
		takes            bool
	}{
		{"no book", "this is a letter", "no vCard is in it", false},
		{"a picture in it", card, "line 4: a picture can't be kept", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDesk(t)
			d.selected = "pell"
			if err := os.MkdirAll(filepath.Dir(d.book), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(d.book, []byte(c.text), 0o600); err != nil {
				t.Fatal(err)
			}
			s := d.openBook(intoBook)
			if !strings.Contains(s.says.Text, c.says) || !s.take.Disabled() {
				t.Errorf("%q, %v", s.says.Text, s.take.Disabled())
			}
			d.Close()
			s = d.openBook(fromBook)
			test.Tap(s.people.bar.Objects[2].(*widget.Button))
			if !strings.Contains(s.says.Text, c.says) || s.take.Disabled() == c.takes || !s.forget.Disabled() {
				t.Errorf("%q, %v, %v", s.says.Text, s.take.Disabled(), s.forget.Disabled())
			}
			if after, _ := os.ReadFile(d.book); string(after) != c.text {
				t.Error("the file was changed")
			}
		})
	}
	d := newDesk(t)
	d.from.path = ""
	if s := d.openBook(fromBook); !strings.Contains(s.says.Text, "no folder") || !s.take.Disabled() {
		t.Errorf("%q", s.says.Text)
	}
}

// TestBookChangedMeanwhile: what another window wrote is read again, not written over.
func TestBookChangedMeanwhile(t *testing.T) {
	d := newDesk(t)
	d.selected = "pell"
	s := d.openBook(intoBook)
	theirs, err := contacts.ReadBook(d.book)
	if err != nil {
		t.Fatal(err)
	}
	all, _ := contacts.ForBook([]plan.Person{another("ida", "Ida Berg")})
	if _, err = theirs.With(contacts.Propose(nil, all)).Write(); err != nil {
		t.Fatal(err)
	}
	test.Tap(s.take)
	d.settle()
	if d.inBook() != "Ida Berg" || !strings.HasPrefix(s.says.Text, "Nothing was written: ") {
		t.Errorf("%s, %q", d.inBook(), s.says.Text)
	}
	d.tick(s, "Pell Orrin")
	test.Tap(s.take)
	d.settle()
	if d.inBook() != "Ida Berg, Pell Orrin" {
		t.Error(d.inBook())
	}
}

// TestNoRoom: an import tells before what a plan has no room for, and takes nothing that could not be saved.
func TestNoRoom(t *testing.T) {
	d := newDesk(t)
	var rows strings.Builder
	for i := range plan.MaxItems {
		fmt.Fprintf(&rows, "Guest %d;+1 555 %07d\n", i, i)
	}
	d.read("list.csv", "Name;Phone\n"+rows.String())
	s := d.importing
	if !strings.Contains(s.told.Text, "500 new. 2 of the new ones do not fit: the plan holds 500 people at most.") || s.take.Text != "Take 498 people" || s.take.Disabled() {
		t.Fatalf("%q, %q", s.told.Text, s.take.Text)
	}
	last := d.line(499)
	if last.note.Text != "No room: the plan holds 500 people at most" {
		t.Errorf("%q", last.note.Text)
	}
	test.Tap(last.tick)
	if s.told.Text != "The plan holds 500 people at most, and has 2: untick 1 of the 499 new ones." || !s.take.Disabled() {
		t.Errorf("%q", s.told.Text)
	}
	test.Tap(d.line(0).tick)
	if !strings.HasPrefix(s.told.Text, "500 people in the file") || s.take.Disabled() {
		t.Errorf("%q", s.told.Text)
	}
	test.Tap(s.take)
	d.settle()
	if len(d.state.Plan.People) != plan.MaxItems {
		t.Errorf("%d people", len(d.state.Plan.People))
	}
}
