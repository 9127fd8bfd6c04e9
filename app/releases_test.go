package app

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestReleasesHalf: a release about a thing is added and filled in on its half of the page of people, and taken out by the
// Edit menu, which works on the list in sight.
func TestReleasesHalf(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("People").Action()
	before := len(d.plan().Releases)
	d.press("Releases")
	if !d.says("Vertical cut: cleared.") {
		t.Error("the page does not say which deliverables are cleared")
	}
	d.press("Add release")
	d.entry("the house, the song, the painting").SetText("The piano piece")
	d.entry("three years").SetText("for ever")
	p := d.plan()
	if len(p.Releases) != before+1 {
		t.Fatalf("%d releases after %d", len(p.Releases), before)
	}
	i := 0
	for i < len(p.Releases) && p.Releases[i].Subject != "The piano piece" {
		i++
	}
	if i == len(p.Releases) || p.Releases[i].Term != "for ever" || p.Releases[i].Status != plan.Needed {
		t.Fatalf("the releases are %+v", p.Releases)
	}
	people := len(p.People)
	d.menuItem("Delete").Action()
	if p = d.plan(); len(p.Releases) != before || len(p.People) != people {
		t.Errorf("after Delete there are %d releases and %d people", len(p.Releases), len(p.People))
	}
	d.press("Everybody")
	if len(seen(d, func(b *widget.Button) bool { return strings.HasPrefix(b.Text, "Add person") })) != 1 {
		t.Error("the people are not back")
	}
}

// TestSignInTheWindow: somebody reads their release, types, draws, and signs; the plan has the signature, and it stops
// matching when the text changes.
func TestSignInTheWindow(t *testing.T) {
	d, path := openDemo(t)
	d.win.Resize(fyne.NewSize(1280, 800))
	d.menuItem("People").Action()
	d.press("Releases")
	i := slices.IndexFunc(d.plan().Releases, func(r plan.Release) bool { return r.ID == "model-marek" })
	seen(d, func(l *widget.List) bool { return l.Length() == len(d.plan().Releases) })[0].Select(i)
	d.press("Read and sign")
	d.sign("Marek Osei-Dahl")
	r := d.plan().Releases[i]
	if r.Status != plan.Signed || r.SignedBy != "Marek Osei-Dahl" || r.Signature == nil || len(r.Signature.Strokes) == 0 {
		t.Fatalf("signed: %+v", r)
	}
	if !d.says("Signed by Marek Osei-Dahl") {
		t.Error("the page does not say that it is signed")
	}
	if d.says("Only for scenes") {
		t.Error("what is agreed shows through the signed release")
	}
	d.press("Write as PDF")
	d.until("the release is written", func() bool { return d.says("Written: ") })
	pdf := filepath.Join(filepath.Dir(path), "papers", "release-model-marek.pdf")
	if data, err := os.ReadFile(pdf); err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
		t.Errorf("the paper: %v", err)
	}
	d.press("Write as PDF")
	d.until("it is asked before it is written over", func() bool { return d.says("is already there") })
	d.press("Write over it")
	d.until("it is written over", func() bool { return d.says("Written: ") })
	d.press("What is agreed")
	d.entry("three years").SetText("for ever")
	if !d.says("text changed") {
		t.Error("another text is not told")
	}
}

// sign fills in and signs what is to be read.
func (d *desk) sign(name string) {
	d.t.Helper()
	d.entry("your full name").SetText(name)
	d.entry("the town you sign in").SetText("Nettle Fork")
	seen(d, func(c *widget.Check) bool { return c.Text == "I agree to sign electronically" })[0].SetChecked(true)
	pad := seen(d, func(*draw.SignPad) bool { return true })[0]
	at := d.win.Canvas()
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(pad)
	test.Drag(at, corner.Add(fyne.NewPos(60, 60)), 120, 20)
	test.Drag(at, corner.Add(fyne.NewPos(180, 80)), 60, -30)
	d.press("Sign")
}
