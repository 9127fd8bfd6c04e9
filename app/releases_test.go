package app

import (
	"strings"
	"testing"

	"eavelight/plan"

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
