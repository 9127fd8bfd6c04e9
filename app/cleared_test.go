package app

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

func (d *desk) clearance() *draw.Clearance {
	d.t.Helper()
	found := seen(d, func(*draw.Clearance) bool { return true })
	if len(found) != 1 {
		d.t.Fatalf("%d pictures of what is cleared are to be seen", len(found))
	}
	return found[0]
}

func keys(w fyne.Focusable, names ...fyne.KeyName) {
	for _, k := range names {
		w.TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// TestClearedHalf: what is missing first is told of, the keys go from one to the next, and Return goes to its release, which is
// found signed there and cleared here.
func TestClearedHalf(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("People").Action()
	d.press("Cleared")
	if !d.says("Vertical cut: cleared.") || !d.says("5 of 14 scenes are cleared") {
		t.Error("the page does not say how the deliverables stand")
	}
	if !d.says("If it is not given, scenes 3, 4, 7 and 9 fall away") {
		t.Error("what falls away without Ivy's is not told")
	}
	w := d.clearance()
	keys(w, fyne.KeyDown) // scene 1, which Ivy is not in
	if !d.says("does not need it") {
		t.Error("a scene without her is not told of")
	}
	keys(w, fyne.KeyDown, fyne.KeyDown)
	if !d.says("for scene 3  Breakfast is sent, not signed yet") {
		t.Error("the breakfast is not told of")
	}
	keys(w, fyne.KeyReturn)
	if !d.says("It is sent since Tuesday 21 September 2027.") {
		t.Fatal("Return does not lead to the release")
	}
	status := seen(d, func(s *widget.Select) bool { return s.Selected == string(plan.Sent) })
	status[0].SetSelected(string(plan.Signed))
	d.press("Cleared")
	if !d.says("for scene 3  Breakfast is signed") || !d.says("Every scene that needs it has it.") {
		t.Error("the choice is not kept, or the signature is not seen")
	}
	d.undo()
	if !d.says("for scene 3  Breakfast is sent") {
		t.Error("after undo it is still told as signed")
	}
}

// TestClearedWritesTheReleaseDown: where no release is written down yet, the button adds it and shows it.
func TestClearedWritesTheReleaseDown(t *testing.T) {
	d, _ := openDemo(t)
	d.session.Edit("take two out", "", func(p *plan.Plan) {
		p.Releases = append(p.Releases[:2:2], p.Releases[3], p.Releases[4], p.Releases[5]) // neither Ivy's nor the flight's
	})
	d.menuItem("People").Action()
	d.press("Cleared")
	d.press("Write the release down")
	if r := d.plan().Releases; len(r) != 6 || r[5].Party != "ivy" || r[5].Kind != plan.MinorRelease || r[5].Status.Or() != plan.Needed {
		t.Fatalf("the releases are %+v", r)
	}
	if !d.says("Its text asks for what is not filled in yet") && !d.says("It is needed") {
		t.Error("the new release is not shown")
	}
	d.press("Cleared")
	keys(d.clearance(), fyne.KeyEnd)
	d.press("Write the release down")
	if r := d.plan().Releases; len(r) != 7 || r[6].Kind != plan.DroneRelease {
		t.Errorf("the releases are %+v", r)
	}
}

// TestClearedDoubtsScans: a scan that is not there is found in the background, and told.
func TestClearedDoubtsScans(t *testing.T) {
	d, path := openDemo(t)
	d.menuItem("People").Action()
	d.press("Cleared")
	d.session.Edit("file the scan", "", func(p *plan.Plan) {
		p.Releases[0].Scan = &plan.Scan{Path: filepath.Join(filepath.Dir(path), "nina.pdf"), SHA256: strings.Repeat("0", 64)}
	})
	w := d.clearance()
	d.until("the missing scan is known", func() bool { return len(d.session.State().Results.Scans) == 1 })
	keys(w, fyne.KeyHome)
	if !d.says("signed, but does not count") || !d.says("nina.pdf is not there") || !d.says("Vertical cut: waits for 1 signature") {
		t.Error("a scan that is not there still counts")
	}
	if got := d.lacking["people"]; got != "5 releases to be signed" {
		t.Errorf("the rail says %q", got)
	}
}

// TestClearedShowsAnything: an empty plan, one without people, and one of 60 scenes and 40 permissions.
func TestClearedShowsAnything(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("People").Action()
	d.press("Cleared")
	nobody := d.plan().Clone()
	nobody.Releases, nobody.People = nil, nil
	for i := range nobody.Scenes {
		nobody.Scenes[i].People, nobody.Scenes[i].Looks = nil, nil
	}
	large := plan.New()
	for i := range 40 {
		id := plan.ID(fmt.Sprint("p", i))
		large.People = append(large.People, plan.Person{ID: id, Name: strings.Repeat("Wölfe", i+1)})
		large.Releases = append(large.Releases, plan.Release{ID: id, Kind: plan.ModelRelease, Party: id, Status: plan.ReleaseStatuses[i%5]})
	}
	for i := range 60 {
		s := plan.Scene{ID: plan.ID(fmt.Sprint("s", i)), Title: strings.Repeat("Åßæ ", i)}
		for _, q := range large.People {
			s.People = append(s.People, q.ID)
		}
		large.Scenes = append(large.Scenes, s)
	}
	for _, c := range []struct {
		name string
		p    plan.Plan
		says string
	}{{"an empty plan", plan.New(), ""}, {"nobody", nobody, "Flights, for which no release is written down"}, {"large", large, "The model release is"}} {
		d.session.Fresh(c.p)
		d.press("Cleared") // another document, the first half again
		if c.says != "" && !d.says(c.says) {
			t.Errorf("%s: it does not say %q", c.name, c.says)
		}
		w := d.clearance()
		keys(w, fyne.KeyEnd, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageDown, fyne.KeyPageDown)
		d.win.Canvas().Capture()
		if size := d.win.Canvas().Size(); size.Width > 1280 || size.Height > 800 {
			t.Errorf("%s: the window grows to %v", c.name, size)
		}
		if got := len(seen(d, func(b *widget.Button) bool {
			return strings.HasSuffix(b.Text, "release") || strings.HasSuffix(b.Text, "down")
		})); (got > 0) != (c.says != "") {
			t.Errorf("%s: %d buttons to a release", c.name, got)
		}
	}
	if !d.says("for scene ") {
		t.Error("the last cell of the large plan is not told of")
	}
}

// TestDeliverableIsCutFromScenes: chosen on the page of the brief, with the seconds that they give.
func TestDeliverableIsCutFromScenes(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	if !d.says("scenes give 130 s of 120 s") || !d.says("scenes give 36 s of 30 s") {
		t.Error("the seconds that scenes give are not told")
	}
	cut := func() []plan.ID { return d.plan().Brief.Deliverables[1].Scenes }
	tick := func(text string, on bool) {
		t.Helper()
		found := seen(d, func(c *widget.Check) bool { return c.Text == text })
		if len(found) != 1 {
			t.Fatalf("%d ticks for %q", len(found), text)
		}
		found[0].SetChecked(on)
	}
	d.press("Vertical cut: 4 of 14 scenes")
	tick("12  The jetty, the two of them", false)
	tick("3  Breakfast", true)
	if got := fmt.Sprint(cut()); got != "[coffee lengths dressing breakfast]" {
		t.Errorf("it is cut from %v", got)
	}
	const all = "those that come later too"
	tick(all, true)
	if len(cut()) != 0 || !d.says("scenes give 130 s of 30 s") {
		t.Errorf("it is cut from %v, not from all", cut())
	}
	tick(all, false)
	if len(cut()) != 14 {
		t.Errorf("it is cut from %v, not from each by name", cut())
	}
	tick(all, true)
	tick("3  Breakfast", true)
	tick("3  Breakfast", false) // none is left, so all
	if len(cut()) != 0 || !seen(d, func(c *widget.Check) bool { return c.Text == all })[0].Checked {
		t.Errorf("without a scene it is cut from %v", cut())
	}
	d.press("Hero film: all scenes")
	tick("14  The house at dusk", true)
	if got := d.plan().Brief.Deliverables; len(got[0].Scenes) != 1 || len(got[1].Scenes) != 0 {
		t.Errorf("the wrong one was changed: %+v", got)
	}
	d.press("Hero film: 1 of 14 scenes")
	if n := len(seen(d, func(*widget.Check) bool { return true })); n != 0 {
		t.Errorf("folded up, %d ticks are to be seen", n)
	}
}
