package page

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// desk is the panel of contacts in a window, with a plan behind it and work that is done when it is told to.
type desk struct {
	*Contacts
	t     testing.TB
	state session.State
	edits []string
	wrong plan.Problems
	work  []func() func()
	picks []func(string)

	book     string // the path of the address book
	selected plan.ID
}

func newDesk(t testing.TB) *desk {
	t.Helper()
	test.NewTempApp(t)
	d := &desk{t: t, state: session.State{Plan: plan.New()}, book: filepath.Join(t.TempDir(), "book", "people.vcf")}
	for _, name := range []string{"Pell Orrin", "Suri Vane"} {
		q := plan.NewPerson()
		q.ID, q.Name, q.Role = plan.ID(strings.ToLower(name[:4])), name, plan.Talent
		d.state.Plan.People = append(d.state.Plan.People, q)
	}
	edit := func(name, _ string, f func(*plan.Plan)) plan.Problems {
		if len(d.wrong) > 0 {
			return d.wrong
		}
		d.edits = append(d.edits, name)
		next := d.state.Plan.Clone()
		f(&next)
		d.state.Plan = next
		d.Show(d.state)
		return nil
	}
	d.Contacts = NewContacts(edit, func(work func() func()) { d.work = append(d.work, work) },
		func(chosen func(string)) { d.picks = append(d.picks, chosen) },
		func() plan.Date { return plan.Date{Year: 2027, Month: 9, Day: 30} },
		d.book, func() plan.ID { return d.selected })
	test.NewTempWindow(t, container.NewBorder(nil, d.Bar(), nil, nil, container.NewStack(d.Object()))).Resize(fyne.NewSize(1090, 760))
	d.Show(d.state)
	return d
}

// settle does the work that was asked for, the oldest first.
func (d *desk) settle() {
	for len(d.work) > 0 {
		done := d.work[0]()
		d.work = d.work[1:]
		done()
	}
}

func (d *desk) read(name, text string) {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		d.t.Fatal(err)
	}
	test.Tap(d.bar.Objects[0].(*widget.Button))
	d.importing.path.SetText(path)
	d.importing.path.OnSubmitted(path)
	d.settle()
}

func (d *desk) names() string {
	var out []string
	for _, q := range d.state.Plan.People {
		out = append(out, q.Name)
	}
	return strings.Join(out, ", ")
}

// line draws one line of the list and returns it.
func (d *desk) line(i int) *incomingLine {
	l := d.importing.people.newLine().(*incomingLine)
	d.importing.people.fill(i, l)
	return l
}

const threeNew = "Name;Phone;Remark\nPell Orrin;+1 555 010 0001;tea\nIvo Lunt;+1 555 010 0002;van\nKit Marr;+1 555 010 0003;\n"

// TestImportIsOneEdit: nothing changes before people are taken, and then all at once, under one name.
func TestImportIsOneEdit(t *testing.T) {
	d := newDesk(t)
	d.read("list.csv", threeNew)
	s := d.importing
	if s.told.Text != "3 people in the file: 2 new, 1 to update. Read as UTF-8, divided by semicolons, with headings." || s.take.Text != "Take 3 people" {
		t.Fatalf("%q, %q", s.told.Text, s.take.Text)
	}
	if l := d.line(0); !l.offer.Visible() || l.what.Visible() || l.offer.Selected != "update: phone, notes" || !l.tick.Checked {
		t.Errorf("of who is known, it says %q", l.offer.Selected)
	}
	if l := d.line(1); l.offer.Visible() || l.what.Text != "add" || l.facts.Text != "+1 555 010 0002 · notes: Remark: van" && l.facts.Text != "+1 555 010 0002 · notes: van" {
		t.Errorf("of a new one, it says %q, %q", l.what.Text, l.facts.Text)
	}
	test.Tap(d.line(1).tick)
	if s.take.Text != "Take 2 people" || len(d.edits) != 0 || d.names() != "Pell Orrin, Suri Vane" {
		t.Fatalf("%q, %q", s.take.Text, d.edits)
	}
	test.Tap(s.take)
	d.settle()
	if !slices.Equal(d.edits, []string{"import 2 people"}) || d.names() != "Pell Orrin, Suri Vane, Kit Marr" || d.state.Plan.People[0].Phone == "" {
		t.Errorf("%q, %s", d.edits, d.names())
	}
	if s.told.Text != "1 person added, 1 person updated. Undo takes it back." || s.take.Text != "Take nobody" || !s.take.Disabled() {
		t.Errorf("%q, %q", s.told.Text, s.take.Text)
	}
	if l := d.line(2); !l.tick.Disabled() || l.what.Text != "nothing new" {
		t.Errorf("of who was taken, it says %q", l.what.Text)
	}
	d.state.Plan.People = d.state.Plan.People[:2] // as undo does
	d.Show(d.state)
	d.settle()
	if s.take.Text != "Take 1 person" || !strings.HasPrefix(s.told.Text, "3 people in the file: 2 new, 1 with nothing new.") {
		t.Errorf("after undo: %q, %q", s.told.Text, s.take.Text)
	}
}

// TestImportMatch: another field for a column, or another order of dates, shows at once what would become of the rows.
func TestImportMatch(t *testing.T) {
	d := newDesk(t)
	d.read("list.csv", "Name;Shoe;Born;Fax\nIvo Lunt;39;03/04/1990;\n")
	s := d.importing
	if len(s.columns.cells.Objects) != 3 {
		t.Fatalf("%d columns are shown", len(s.columns.cells.Objects))
	}
	if !s.faults.Visible() || !strings.Contains(s.wrong.Text, "line 2, column 3: ") || !s.columns.births.Visible() {
		t.Errorf("the problem is not shown: %q", s.wrong.Text)
	}
	sizes := s.columns.cells.Objects[1].(*fyne.Container).Objects[0].(*fyne.Container).Objects[1].(*fyne.Container).Objects[0].(*widget.Select)
	sizes.SetSelected(string(contacts.FieldSizes))
	if !s.take.Disabled() {
		t.Error("while it reads, people can be taken")
	}
	d.settle()
	s.columns.order.SetSelected(string(contacts.DayFirst))
	d.settle()
	if l := d.line(0); l.facts.Text != "born 1990-04-03 · 39" || s.faults.Visible() {
		t.Errorf("%q, problems %q", l.facts.Text, s.wrong.Text)
	}
	test.Tap(s.take)
	if q := d.state.Plan.People[2]; q.Sizes != "39" || q.Notes != "" || q.Born.String() != "1990-04-03" {
		t.Errorf("%+v", q)
	}
}

// TestImportDecide: who is in doubt is not ticked; choosing what to do ticks them, and all that are sure leaves them alone.
func TestImportDecide(t *testing.T) {
	d := newDesk(t)
	d.read("list.csv", "Name,Phone\nIvo Lunt,+1 555 010 0002\nIvo Lunt,+1 555 010 0002\nSuri Vane,\n")
	s := d.importing
	if s.take.Text != "Take 1 person" || d.line(1).tick.Checked {
		t.Fatalf("%q", s.take.Text)
	}
	s.people.tickAll(false)
	if s.take.Text != "Take nobody" {
		t.Errorf("none: %q", s.take.Text)
	}
	s.people.tickAll(true)
	if s.take.Text != "Take 1 person" {
		t.Errorf("all: %q", s.take.Text)
	}
	s.people.only.SetSelected("1 to decide")
	if len(s.people.rows) != 1 || d.line(0).note.Text != "Seems to stand in line 2 of the file already" {
		t.Errorf("%d lines, %q", len(s.people.rows), d.line(0).note.Text)
	}
	for _, want := range []string{"Take 2 people", "Take 1 person", "Take 2 people"} {
		if s.people.list.Select(0); s.take.Text != want {
			t.Errorf("pressed: %q, want %q", s.take.Text, want)
		}
	}
	s.people.only.SetSelected("1 with nothing new")
	s.people.list.Select(0)
	if s.take.Text != "Take 2 people" {
		t.Errorf("who has nothing new is taken: %q", s.take.Text)
	}
	// The plan changes meanwhile: it is compared anew, and the choice stays.
	d.state.Plan.People = d.state.Plan.People[:1]
	d.Show(d.state)
	d.settle()
	if s.take.Text != "Take 3 people" || s.people.kind != "" {
		t.Errorf("after a change of the plan: %q", s.take.Text)
	}
}

// TestImportWriteOver: what the plan says otherwise is written over only when it is chosen.
func TestImportWriteOver(t *testing.T) {
	d := newDesk(t)
	d.state.Plan.People[1].Phone = "+1 555 010 0009"
	d.Show(d.state)
	d.read("list.csv", "Name,Phone\nSuri Vane,+1 555 010 0002\n")
	l := d.line(0)
	if l.tick.Checked || l.note.Text != "In the plan already, by name; phone +1 555 010 0009 in the plan, +1 555 010 0002 in the file" {
		t.Errorf("ticked %v, %q", l.tick.Checked, l.note.Text)
	}
	l.offer.SetSelected("add as another person")
	l.offer.SetSelected("update, writing over phone")
	test.Tap(d.importing.take)
	if d.state.Plan.People[1].Phone != "+1 555 010 0002" || len(d.state.Plan.People) != 2 {
		t.Errorf("%+v", d.state.Plan.People)
	}
}

// TestImportFails: what can't be read, or would not fit, is told, and the plan stays.
func TestImportFails(t *testing.T) {
	d := newDesk(t)
	d.importing.read()
	if len(d.work) != 0 || d.importing.told.Text != importHint {
		t.Errorf("no path: %q", d.importing.told.Text)
	}
	for name, says := range map[string]string{"none.csv": "nobody in this file", "none.vcf": "line 1: \"something else\" stands outside of every card"} {
		d.read(name, map[string]string{"none.vcf": "something else\n"}[name])
		if !strings.Contains(d.importing.told.Text, says) || d.importing.chosen.Visible() {
			t.Errorf("%s: %q", name, d.importing.told.Text)
		}
	}
	d.read("list.csv", threeNew)
	d.wrong = plan.Problems{{Code: plan.TooLong, Path: "people[2].name"}}
	test.Tap(d.importing.take)
	if !strings.HasPrefix(d.importing.told.Text, "Nothing was taken: ") || len(d.edits) != 0 {
		t.Errorf("%q", d.importing.told.Text)
	}
}

// TestImportDropped: an answer that nobody waits for is dropped, and closing forgets the file.
func TestImportDropped(t *testing.T) {
	d := newDesk(t)
	opened := []bool{}
	d.OnOpen = func(open bool) { opened = append(opened, open) }
	d.read("list.csv", threeNew)
	d.importing.read()
	late := d.work[0]()
	d.work = nil
	d.Close()
	late()
	if d.importing.file != nil || d.importing.chosen.Visible() || d.object.Visible() || !slices.Equal(opened, []bool{true, false}) {
		t.Errorf("closed, it shows what was read late; opened %v", opened)
	}
	test.Tap(d.bar.Objects[0].(*widget.Button))
	if !d.object.Visible() || d.importing.told.Text != importHint || d.exporting.object.Visible() {
		t.Errorf("opened again, it says %q", d.importing.told.Text)
	}
}

// TestImportPicked: a file from the window's dialog is read at once.
func TestImportPicked(t *testing.T) {
	d := newDesk(t)
	path := filepath.Join(t.TempDir(), "one.vcf")
	if err := os.WriteFile(path, []byte("BEGIN:VCARD\nVERSION:4.0\nFN:Ivo Lunt\nEND:VCARD\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.open("", d.importing.object)
	top := d.importing.object.Objects[1].(*fyne.Container).Objects[0].(*fyne.Container)
	test.Tap(top.Objects[1].(*fyne.Container).Objects[0].(*widget.Button))
	d.picks[0](path)
	d.settle()
	if d.importing.take.Text != "Take 1 person" || d.importing.columns.object.Visible() || d.importing.path.Text != path {
		t.Errorf("%q, columns shown: %v", d.importing.told.Text, d.importing.columns.object.Visible())
	}
}

// TestWriteContacts: all are written beside the plan; over a file only when that is said, of that file.
func TestWriteContacts(t *testing.T) {
	d := newDesk(t)
	e := d.exporting
	test.Tap(d.bar.Objects[1].(*widget.Button))
	e.run()
	if len(d.work) != 0 || !strings.Contains(e.told.Text, "Type the file") {
		t.Fatalf("without a path: %q", e.told.Text)
	}
	d.state.Path = filepath.Join(t.TempDir(), "tarn.eavelight")
	d.Show(d.state)
	path := view.ContactsPath(d.state)
	if e.path.Text != path {
		t.Fatalf("it proposes %q", e.path.Text)
	}
	write := func() {
		test.Tap(e.write)
		d.settle()
	}
	write()
	if e.told.Text != "Written: "+path || e.over.Visible() {
		t.Fatalf("%q", e.told.Text)
	}
	write()
	if !e.over.Visible() || e.told.Text != path+" is there already." {
		t.Errorf("again: %q", e.told.Text)
	}
	e.over.SetChecked(true)
	e.path.SetText(path + "x")
	e.path.SetText(path)
	if e.over.Checked || e.over.Visible() {
		t.Error("the leave to replace outlives its file")
	}
	write()
	e.over.SetChecked(true)
	write()
	if e.told.Text != "Written: "+path {
		t.Errorf("replaced: %q", e.told.Text)
	}
	f, err := contacts.ReadFile(path, plan.Date{})
	if err != nil || len(f.Contacts) != 2 {
		t.Errorf("%d people, %v", len(f.Contacts), err)
	}
	e.path.SetText("mine.vcf")
	d.state.Path = "other.eavelight"
	d.state.Plan.People = nil
	d.Show(d.state)
	if e.path.Text != "mine.vcf" || !e.write.Disabled() {
		t.Errorf("a path of the user's own becomes %q", e.path.Text)
	}
}

// crowd is a file of so many people, some of them in doubt.
func crowd(n int) string {
	var b strings.Builder
	b.WriteString("Name;Phone;E-mail;Remark\n")
	for i := range n {
		fmt.Fprintf(&b, "Person %d;+1 555 01 %05d;p%d@example.com;%s\n", i, i-i%50/49, i, strings.Repeat("long 山 ", i%40))
	}
	return b.String()
}

// TestOnlyWhatIsInSightIsDrawn: of a thousand people, no more lines are made than the panel has room for.
func TestOnlyWhatIsInSightIsDrawn(t *testing.T) {
	d := newDesk(t)
	made := 0
	list := d.importing.people.list
	create := list.CreateItem
	list.CreateItem = func() fyne.CanvasObject { made++; return create() }
	d.read("crowd.csv", crowd(1000))
	first := made
	for i := range 20 {
		list.ScrollTo(i * 50)
	}
	const insight = 15 // at most, at this size
	if len(d.importing.people.rows) != 1000 || first == 0 || first > 2*insight || made > first+20*insight {
		t.Errorf("%d lines are made for %d people, and %d more for twenty jumps", first, len(d.importing.people.rows), made-first)
	}
}

func BenchmarkScrollThousand(b *testing.B) {
	d := newDesk(b)
	d.read("crowd.csv", crowd(1000))
	for i := 0; b.Loop(); i++ {
		d.importing.people.list.ScrollTo(i * 37 % 1000)
	}
}

func BenchmarkImportThousand(b *testing.B) {
	d := newDesk(b)
	d.read("crowd.csv", crowd(1000))
	for b.Loop() {
		d.importing.read()
		d.settle()
	}
}
