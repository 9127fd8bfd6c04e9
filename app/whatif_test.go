package app

import (
	"slices"
	"strings"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/shopspring/decimal"
)

// onPrice opens the demo on a part of the page of the price.
func onPrice(t *testing.T, part string) *desk {
	t.Helper()
	d, _ := openDemo(t)
	d.menuItem("Price").Action()
	d.press(part)
	return d
}

func (d *desk) buttons(text string) int {
	return len(seen(d, func(b *widget.Button) bool { return b.Text == text }))
}

func (d *desk) tick(text string) *widget.Check {
	d.t.Helper()
	found := seen(d, func(c *widget.Check) bool { return strings.Contains(c.Text, text) })
	if len(found) != 1 {
		d.t.Fatalf("%d ticks for %q", len(found), text)
	}
	return found[0]
}

// done waits until no case is being worked out.
func (d *desk) done() {
	d.t.Helper()
	d.until("the cases are worked out", func() bool { return d.buttons("Stop") == 0 })
}

// TestHowSure: it is told without being asked for, follows what is typed, and says what to do where nothing is unsure.
func TestHowSure(t *testing.T) {
	d := onPrice(t, "How sure")
	d.until("it is told", func() bool { return d.says("cases of 100 this price, ") && d.says("covers them in 8 of 10.") })
	if !d.says("10,000 draws, triangular between your low, likely and high") {
		t.Error("the method is not told")
	}
	if len(seen(d, func(*draw.Histogram) bool { return true })) != 1 || len(seen(d, func(*draw.Swings) bool { return true })) != 1 {
		t.Error("the pictures are not there")
	}
	fields := seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == "of 100 times" })
	fields[0].SetText("100")
	d.until("rain is as good as sure", func() bool { return d.says("covers the costs in no case") || d.says("In more than 99 cases of 100") })
	if d.plan().Pricing.Unsure.Weather != 100 {
		t.Errorf("the chance is %d", d.plan().Pricing.Unsure.Weather)
	}
	fields[0].SetText("101")
	if !d.says("101 is outside 0 to 100") {
		t.Error("more than all cases is not told of")
	}
	d.session.Fresh(plan.New())
	d.settle()
	d.press("How sure")
	d.until("nothing is unsure", func() bool { return d.says("Nothing is unsure yet: ") })
	if len(seen(d, func(*draw.Histogram) bool { return true })) != 0 {
		t.Error("a picture of nothing is shown")
	}
}

// TestWhatIf asks four cases, stops them, works them out, changes the plan and works them out again.
func TestWhatIf(t *testing.T) {
	d := onPrice(t, "What if")
	if rain := d.tick("Rain day"); !rain.Disabled() {
		t.Error("a fifth column can be chosen")
	}
	d.tick("Two half days").SetChecked(false)
	d.tick("Rain day").SetChecked(true)
	if !d.says("Not worked out yet.") || !d.says("The last day is paid for twice") {
		t.Error("what was chosen is not shown, or not how it is meant")
	}
	d.press("Work it out")
	if !d.says("Working out “as it is”, 1 of 4…") {
		t.Error("how far it is is not told")
	}
	d.press("Stop")
	if !d.says("Stopped: 0 of 4 worked out.") || d.buttons("Stop") != 0 {
		t.Error("it does not stop")
	}
	d.press("Work it out")
	d.done()
	if d.says("Not worked out yet.") || d.says("Of the plan as it was.") || d.buttons("Work it out") != 0 {
		t.Error("not all are worked out")
	}
	if !d.says("USD more") || !d.says("the same") {
		t.Error("the differences are not told")
	}
	d.session.Edit("note", "", func(p *plan.Plan) { p.Pricing.Market = nil })
	if d.says("Of the plan as it was.") {
		t.Error("what no price depends on makes the figures old")
	}
	d.entry("percent of the shooting minutes").SetText("30")
	old := seen(d, func(l *widget.Label) bool { return strings.Contains(l.Text, "Of the plan as it was.") })
	if len(old) != 1 || !d.says("The plan has changed since.") {
		t.Errorf("another saving makes %d columns old, want the second camera's alone", len(old))
	}
	d.session.Edit("pay more", "", func(p *plan.Plan) { p.Pricing.Card.Crew[1].Rate = decimal.NewFromInt(900) })
	d.press("Work it out again")
	d.done()
	if d.says("Of the plan as it was.") || d.buttons("Work it out again") != 0 {
		t.Error("not all are worked out again")
	}
	d.undo()
	if !d.says("Of the plan as it was.") {
		t.Error("after undo the figures of the other plan pass for new")
	}
}

// TestCasesOfAnotherDocument are not shown, and those that would follow are not begun.
func TestCasesOfAnotherDocument(t *testing.T) {
	d := onPrice(t, "What if")
	d.press("Work it out")
	d.session.Fresh(plan.New())
	d.settle()
	d.press("What if")
	if !d.says("Not worked out yet.") || d.says("Working out") || d.buttons("Stop") != 0 {
		t.Error("what was asked of the demo goes on for another document")
	}
}

// TestWhatIfLacks: what is not filled in yet is said under the name, and cannot be worked out.
func TestWhatIfLacks(t *testing.T) {
	d := onPrice(t, "What if")
	d.session.Edit("clear", "", func(p *plan.Plan) { p.Pricing.WhatIf = plan.WhatIf{} })
	if !d.says("Choose the rate that paid talent would get.") || !d.says("Choose the rate that a second camera would get.") {
		t.Error("what is lacking is not said")
	}
	choices := seen(d, func(s *widget.Select) bool { return slices.Contains(s.Options, "Paid talent") })
	if len(choices) != 2 {
		t.Fatalf("%d choices of a rate", len(choices))
	}
	choices[0].SetSelected("Paid talent")
	if d.plan().Pricing.WhatIf.Talent != "talent" || d.says("Choose the rate that paid talent would get.") {
		t.Errorf("the rate is %q", d.plan().Pricing.WhatIf.Talent)
	}
}

// TestPackagesInTheWindow: they are worked out without being asked for, ticked, copied, moved, and told what is gone.
func TestPackagesInTheWindow(t *testing.T) {
	d := onPrice(t, "Packages")
	worked := func() {
		t.Helper()
		d.until("both are worked out", func() bool {
			return d.buttons("Stop") == 0 && !d.says("Not worked out yet.") && !d.says("Of the plan as it was.") && d.says("14, 1 left out")
		})
	}
	worked()
	list := seen(d, func(l *widget.List) bool { return l.Length() == 2 })
	list[0].Select(1)
	if !d.tick("3  Breakfast").Checked || d.tick("7  Long lunch").Checked || d.says("is ticked:") {
		t.Error("the ticks are not those of the second package")
	}
	d.tick("7  Long lunch").SetChecked(true)
	d.tick("Stills").SetChecked(false)
	if k := d.plan().Pricing.Packages[1]; len(k.Scenes) != 5 || !slices.Equal(k.Deliverables, []string{"Vertical cut"}) {
		t.Errorf("the package is %+v", k)
	}
	worked()
	d.entry("what the client reads").SetText("Half a day")
	if k := d.plan().Pricing.Packages[1]; k.Name != "Half a day" || !d.says("Half a day") {
		t.Errorf("it is called %q", k.Name)
	}
	d.entry("what the client reads").SetText("")
	if k := d.plan().Pricing.Packages[1]; k.Name != "Half a day" {
		t.Errorf("a package without a name was taken: %q", k.Name)
	}
	d.session.Edit("cut the lunch", "", func(p *plan.Plan) {
		p.RemoveScene(slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == p.Pricing.Packages[1].Scenes[4] }))
	})
	if !d.says("It names what is no longer in the plan: ") {
		t.Error("what is gone is not told")
	}
	d.press("Take out what is gone")
	if k := d.plan().Pricing.Packages[1]; len(k.Scenes) != 4 || d.says("no longer in the plan") {
		t.Errorf("the package is %+v", k)
	}
	d.settle()
	d.press("Add package")
	if ks := d.plan().Pricing.Packages; len(ks) != 3 || ks[2].Name != "Package 3" || !d.says("Nothing is ticked: every scene") {
		t.Errorf("packages %+v", ks)
	}
	icon := func(i int) { // beside Add: copy, up, down, delete
		bar := seen(d, func(b *widget.Button) bool { return b.Text == "" && b.Icon != nil })
		test.Tap(bar[i])
	}
	icon(1)
	if ks := d.plan().Pricing.Packages; ks[1].Name != "Package 3" || d.entry("what the client reads").Text != "Package 3" {
		t.Errorf("moved up: %+v", ks)
	}
	icon(0)
	if ks := d.plan().Pricing.Packages; len(ks) != 4 || ks[2].Name != "Package 3 (copy)" {
		t.Errorf("copied: %+v", ks)
	}
	icon(3)
	icon(3)
	icon(3)
	icon(3)
	if ks := d.plan().Pricing.Packages; len(ks) != 0 || !d.says("No package yet: ") {
		t.Errorf("deleted: %+v", ks)
	}
	d.settle()
}

// TestMarket of many, one and none, as it is typed.
func TestMarket(t *testing.T) {
	d := onPrice(t, "Local market")
	if !d.says("of 3 that you noted; the median is 9,800.00 USD.") || !d.says("Quartiles of so few mean little") || !d.says(view.OnlyNoted()) {
		t.Error("where the price stands is not told")
	}
	d.press("Add offer")
	if got := d.plan().Pricing.Market; len(got) != 4 || got[3].Noted.String() != "2027-09-30" {
		t.Fatalf("offers %+v", got)
	}
	if !d.says("Not counted, as no amount is noted: 1 offer.") {
		t.Error("an offer without an amount is not told of")
	}
	amounts := seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == "4200" })
	amounts[3].SetText("cheap")
	if !d.says(`"cheap" is not a figure`) {
		t.Error("nonsense is not told")
	}
	amounts[3].SetText("7,250.50")
	if got := d.plan().Pricing.Market[3].Amount; !got.Equal(decimal.RequireFromString("7250.50")) || d.says("mean little") || !d.says("of 4 that you noted") {
		t.Errorf("the amount is %s", got)
	}
	d.session.Edit("forget", "", func(p *plan.Plan) { p.Pricing.Market = p.Pricing.Market[:1] })
	if !d.says("than the one offer that you noted.") || d.says("median") {
		t.Error("one offer is told as several")
	}
	d.session.Edit("forget", "", func(p *plan.Plan) { p.Pricing.Market = nil })
	if !d.says("Nothing is noted yet: ") || len(seen(d, func(*draw.Offers) bool { return true })) != 0 {
		t.Error("a picture of nothing is shown")
	}
}

// TestRecordingFilled with the usual values by one edit, then changed.
func TestRecordingFilled(t *testing.T) {
	d := onPrice(t, "Recording")
	if !d.says("Hero film: 28 min of footage, 42 GB") || !d.says("Camera battery: ") {
		t.Error("the figures are not shown")
	}
	d.session.Edit("clear", "", func(p *plan.Plan) { p.Pricing.Recording = plan.Recording{} })
	if !d.says("common practice without a published source") || d.says("Hero film: ") {
		t.Error("nothing is said of recording, and that is not told")
	}
	d.press("Fill in usual values")
	if st := d.session.State(); st.Undo != "fill in usual values of recording" || st.Plan.Pricing.Recording.Copies != 3 || !d.says("Hero film: 24 min of footage") {
		t.Errorf("%q, %+v", st.Undo, st.Plan.Pricing.Recording)
	}
	copies := seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == "3" })
	copies[0].SetText("1")
	if !d.says("2 is outside 0 to 1") {
		t.Error("more copies on drives than there are is not told")
	}
	d.entry("of the camera's format").SetText("")
	if !d.says("Films are not counted: fill in the shooting ratio and the bit rate.") {
		t.Error("what is not counted is not told")
	}
	flying := seen(d, func(c *widget.Check) bool { return c.Text == "" }) // of the batteries; the others say what they are
	flying[0].SetChecked(true)
	if !d.plan().Pricing.Recording.Batteries[0].Flying {
		t.Error("the battery is not needed in the air")
	}
}

// TestPriceFitsAnything: every part, of no plan, of the demo, and of long names, at 1280x800.
func TestPriceFitsAnything(t *testing.T) {
	d, _ := openDemo(t)
	long := d.plan().Clone()
	wordy := strings.Repeat("Wölfeschlegel ", 15)
	for i := range long.Scenes {
		long.Scenes[i].Title = wordy
	}
	q := &long.Pricing
	for i := range q.Packages {
		q.Packages[i].Name = wordy
	}
	for i := range q.Market {
		q.Market[i].Who, q.Market[i].Includes = wordy, wordy
	}
	for i := range q.Card.Rates {
		q.Card.Rates[i].Name = wordy
	}
	q.WhatIf.More.Name, q.Recording.Batteries[0].Name = wordy, wordy
	for _, p := range []plan.Plan{plan.New(), d.plan(), long} {
		d.session.Fresh(p)
		d.settle()
		d.goTo(view.Price)
		for _, part := range []string{"How sure", "What if", "Packages", "Local market", "Recording"} {
			d.press(part)
			d.settle()
			if got := d.win.Canvas().Capture().Bounds(); got.Dx() != 1280 || got.Dy() != 800 {
				t.Errorf("%s of %q does not fit 1280x800: %v", part, p.Title, got)
			}
		}
		d.switchTheme()
	}
}
