//go:build cgo && linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/people"
	"eavelight/plan/store"
)

// testSign signs a release by dragging the mouse over the pad, saves, finds the signature when the plan is opened again, and
// writes it as a PDF that other programs read.
func testSign(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	w.page(4, "Part or job")
	w.click("Releases", 0)
	w.click("Marek Osei-Dahl", 0)
	w.click("Read and sign", 0)
	w.see("To be signed by Marek Osei-Dahl.")
	w.click("your full name", 0)
	w.write("Marek Osei-Dahl")
	w.click("the town you sign in", 0)
	w.write("Nettle Fork")
	pad := w.screen().find("I agree to sign electronically")[0] // what is still to do says it again, below
	w.do("xdotool", "mousemove", fmt.Sprint(pad.Min.X+20), fmt.Sprint((pad.Min.Y+pad.Max.Y)/2), "sleep", "0.1", "click", "1")
	w.drag(pad.Min.X, pad.Max.Y+60, [][2]int{{30, -20}, {30, 40}, {40, -50}, {60, 30}})
	w.drag(pad.Min.X+40, pad.Max.Y+90, [][2]int{{50, -10}, {90, 5}})
	w.keep("sign-drawn", w.still())
	row := w.see("Clear") // the button beside it, for other words say "sign" too
	for _, at := range w.screen().find("Sign") {
		if at.Min.Y < row.Max.Y && at.Max.Y > row.Min.Y {
			w.do("xdotool", "mousemove", fmt.Sprint(at.Min.X+5), fmt.Sprint((at.Min.Y+at.Max.Y)/2), "sleep", "0.1", "click", "1")
		}
	}
	w.see("The text is still the one that was signed.")
	w.keep("sign-signed", w.still())
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	w.press("ctrl+q")
	w.untilEnded()

	p, _, err := store.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(p.Releases, func(r plan.Release) bool { return r.ID == "model-marek" })
	r := p.Releases[i]
	if r.Status != plan.Signed || r.Signature == nil || len(r.Signature.Strokes) != 2 || r.Signature.Name != "Marek Osei-Dahl" {
		t.Fatalf("the file has %+v", r)
	}
	if !people.Matches(&p, r, p.Shooting.LastDate()) && !people.Matches(&p, r, p.Shooting.Dates[1]) {
		t.Error("the signature does not match the text it was made under")
	}

	w = d.open(file, demoTitle)
	w.page(4, "Part or job")
	w.click("Releases", 0)
	w.click("Marek Osei-Dahl", 0)
	w.click("Read and sign", 0)
	w.see("The text is still the one that was signed.")
	w.keep("sign-again", w.still())
	w.click("Write as PDF", 0)
	paper := filepath.Join(filepath.Dir(file), "papers", "release-model-marek.pdf")
	w.until("the paper is written", func() bool { _, err := os.Stat(paper); return err == nil })
	w.press("ctrl+q")
	w.untilEnded()
	if text, err := exec.Command("pdftotext", paper, "-").Output(); err == nil && !bytes.Contains(text, []byte("Marek Osei-Dahl")) {
		t.Errorf("the paper says %s", text)
	}
}

// testContacts brings 300 people in from a file of contacts.
func testContacts(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	var cards strings.Builder
	for i := range 300 {
		fmt.Fprintf(&cards, "BEGIN:VCARD\r\nVERSION:4.0\r\nFN:Person %c%c Orvane\r\nEMAIL:p%d@example.org\r\nEND:VCARD\r\n", 'A'+i/26, 'a'+i%26, i)
	}
	contacts := filepath.Join(d.home, "people.vcf")
	if err := os.WriteFile(contacts, []byte(cards.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	w := d.open(file, demoTitle)
	w.page(4, "Part or job")
	w.click("Import contacts…", 0)
	w.click("the file with its folder", 0)
	w.write(contacts)
	w.press("Return")
	w.click("Take 300 people", 0)
	w.see("Undo takes it back.")
	w.keep("contacts-in", w.still())
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	if p, _, err := store.Read(file); err != nil || len(p.People) != 309 {
		t.Errorf("%d people, %v", len(p.People), err)
	}
	w.press("ctrl+q")
	w.untilEnded()
}

// testDrop takes a person out of the film and sees the day change.
func testDrop(t *testing.T, program string) {
	d := newDesk(t, program, 1280, 800)
	file := d.copyDemo()
	w := d.open(file, demoTitle)
	before := w.page(5, "Dates and rules")
	w.page(4, "Part or job")
	w.click("Ruth Åsgård", 0)
	w.see("If they drop out")
	w.keep("drop-told", w.still())
	w.press("ctrl+shift+Delete")
	w.untilTitle("• " + demoTitle)
	after := w.page(5, "Dates and rules")
	w.keep("drop-day", after)
	if part := changed(before.screen, after.screen, after.Bounds()); part < 0.002 {
		t.Errorf("the day looks as before: %.2f %% of it differ", 100*part)
	}
	if len(after.find("Ruth Åsgård")) > 0 {
		t.Error("the day still has the person")
	}
	w.press("ctrl+s")
	w.untilTitle(demoTitle)
	w.press("ctrl+q")
	w.untilEnded()
}
