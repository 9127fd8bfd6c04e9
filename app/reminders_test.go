package app

import (
	"net/mail"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// TestRemindersPart: somebody reads what is due, copies a text, notes that a release was sent, and writes the mails, which are not
// written over unasked.
func TestRemindersPart(t *testing.T) {
	d, path := openDemo(t) // it is 30 September 2027
	d.menuItem("People").Action()
	d.press("Reminders")
	if !d.says("Nothing is late.") || !d.says("Hello Suri Kaanen,") || !d.says("phone 555 0103 (no mail address)") {
		t.Error("the first reminder is not told")
	}
	d.press("Copy the text")
	if got := fyne.CurrentApp().Clipboard().Content(); !strings.HasPrefix(got, "Hello Suri Kaanen,\n") || !d.says("The text is copied") {
		t.Errorf("copied: %q", got)
	}
	d.press("I have sent the release")
	flight := func() plan.Release {
		rs := d.plan().Releases
		return rs[slices.IndexFunc(rs, func(r plan.Release) bool { return r.ID == "flight" })]
	}
	if r := flight(); r.Status != plan.Sent || r.Changed != (plan.Date{Year: 2027, Month: 9, Day: 30}) {
		t.Errorf("noted: %+v", r)
	}
	d.settle()
	d.session.Undo()
	if r := flight(); r.Status != plan.Needed {
		t.Errorf("after undo: %+v", r)
	}
	d.settle()
	rows := seen(d, func(l *widget.List) bool { return l.Length() > 10 })[0]
	rows.Select(1)
	if !d.says("Hello Marek Osei-Dahl,") || !d.says("Goes with it: release-model-marek.pdf") || d.says("The text is copied") {
		t.Error("the second reminder is not told")
	}
	d.press("Write the mail drafts")
	d.until("the mails are written", func() bool { return d.says("Written: 3 mail drafts into ") })
	f, err := os.Open(filepath.Join(filepath.Dir(path), "papers", "mail-marek.eml"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if m, err := mail.ReadMessage(f); err != nil || !strings.Contains(m.Header.Get("To"), "<marek@example.org>") || m.Header.Get("X-Unsent") != "1" {
		t.Errorf("the mail: %v", err)
	}
	d.press("Write the mail drafts")
	d.until("it is asked before they are written over", func() bool { return d.says("is already there") })
	d.press("Write over them")
	d.until("they are written over", func() bool { return d.says("Written: ") })
	people := len(d.plan().People)
	d.menuItem("Delete").Action() // there is no list of the plan's things in sight
	if got := len(d.plan().People); got != people {
		t.Errorf("Delete took somebody out: %d people after %d", got, people)
	}
}
