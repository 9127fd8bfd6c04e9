package papers

import (
	"path/filepath"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
)

// TestMailTakesItsOwnSheet: two people whose ids differ only behind what a file's name has room for get each their own call sheet.
func TestMailTakesItsOwnSheet(t *testing.T) {
	p, d := demo(t)
	long := plan.ID(strings.Repeat("a", 60))
	rename := map[plan.ID]plan.ID{"grete": long + "1", "paul": long + "2"}
	for i := range p.People {
		q := &p.People[i]
		if id, ok := rename[q.ID]; ok {
			q.ID, q.Email = id, "a@example.org"
		}
	}
	for i := range d.People {
		if id, ok := rename[d.People[i].Person]; ok {
			d.People[i].Person = id
		}
	}
	dir := t.TempDir()
	set := NewSet(Job{Plan: &p, Days: []day.Day{d}, Made: madeAt})
	if _, err := set.Write(t.Context(), dir, Writing{}); err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, paper := range set.Papers {
		who, _ := p.Person(paper.For)
		if paper.Kind != KindMails || !strings.HasPrefix(string(who.ID), string(long)) {
			continue
		}
		found++
		text := readable(t, filepath.Join(dir, filepath.FromSlash(paper.Name)))
		if !strings.Contains(text, who.Name+"\nA day at Quillfern House") {
			t.Errorf("the mail to %s has no call sheet of theirs: %.400s", who.Name, text)
		}
	}
	if found != 2 {
		t.Errorf("%d mails", found)
	}
}
