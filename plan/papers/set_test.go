package papers

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestSetOfMails: among the papers are a mail to each who is called and has an address, a message to all and to each adult, and the contacts;
// the plan is to remember what the calendars in the mails say, though they lie nowhere else.
func TestSetOfMails(t *testing.T) {
	p, days := toWrite(t)
	p.People[5].Email = "" // Paul's
	set := NewSet(Job{Plan: &p, Days: days, Made: madeAt}).Only(KindMails, KindMessages, KindContacts)
	var names []string
	for _, paper := range set.Papers {
		names = append(names, paper.Name)
		if paper.Words() == "" || paper.About == "" {
			t.Errorf("nothing can be read of %s", paper.Name)
		}
	}
	slices.Sort(names)
	want := []string{"contacts.vcf", "message-2027-03-06.txt"}
	for _, who := range []string{"amara", "dora", "grete", "ines", "teo"} {
		want = append(want, "people/mail-call-sheet-"+who+".eml")
	}
	for _, who := range []string{"amara", "dora", "grete", "ines", "noor", "paul", "teo"} {
		want = append(want, "people/message-2027-03-06-"+who+".txt")
	}
	if !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	dir := t.TempDir()
	wrote, err := set.Only(KindMails).Write(t.Context(), dir, Writing{})
	if err != nil || !wrote.Remember || len(wrote.Calendar.Events) == 0 {
		t.Fatalf("%+v, %v", wrote, err)
	}
	raw, err := os.ReadFile(filepath.Join(dir, "people", "mail-call-sheet-amara.eml"))
	if err != nil {
		t.Fatal(err)
	}
	wellFormed(t, raw)
	if got := byGo(t, raw); got.To[0][1] != "amara@example.org" || len(got.Files) != 4 || !strings.HasPrefix(strings.ReplaceAll(got.Text, "\r\n", "\n"), "Hello Amara Sandoval,\n") {
		t.Errorf("%+v", got.To)
	}
	if wrote, err := set.Only(KindMessages).Write(t.Context(), t.TempDir(), Writing{}); err != nil || wrote.Remember {
		t.Errorf("messages alone are to be remembered (%v)", err)
	}
}

// TestCalledOffSet: a shoot that is called off is calendars alone, and nothing where none was written.
func TestCalledOffSet(t *testing.T) {
	p, days := toWrite(t)
	if set := NewCalledOff(Job{Plan: &p, Made: madeAt}); len(set.Papers) > 0 {
		t.Errorf("%+v", set.Papers)
	}
	p = remembered(t, p, NewCalendars(&p, days, madeAt))
	set := NewCalledOff(Job{Plan: &p, Made: madeAt})
	for _, paper := range set.Papers {
		if paper.Kind != KindCalendars || !paper.Off {
			t.Errorf("%+v", paper)
		}
	}
	wrote, err := set.Write(t.Context(), t.TempDir(), Writing{})
	if err != nil || len(wrote.Off) != len(set.Papers) || len(wrote.Off) != 10 || wrote.Calendar.Events[0].Sequence != 1 {
		t.Errorf("%+v, %v", wrote, err)
	}
}

// BenchmarkMails is all that goes to people of a day with six who have an address.
func BenchmarkMails(b *testing.B) {
	p, days := toWrite(b)
	for b.Loop() {
		var out bytes.Buffer
		for _, paper := range NewSet(Job{Plan: &p, Days: days, Made: madeAt}).Only(KindMails, KindMessages, KindContacts).Papers {
			if err := paper.write(&out); err != nil {
				b.Fatal(err)
			}
		}
	}
}
