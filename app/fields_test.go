package app

import (
	"slices"
	"testing"

	"eavelight/app/draw"
	"eavelight/app/page"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

const looksHint = "what they wear, a line each:\nNina: linen dress"

// TestLooksAreTyped: a line a person; who is not in the scene is told of, and who leaves it takes their look along.
func TestLooksAreTyped(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	d.page(view.Scenes).(*page.Scenes).Select("breakfast")
	scene := func() plan.Scene {
		p := d.plan()
		s, _ := p.Scene("breakfast")
		return s
	}
	looks, before := d.entry(looksHint), scene().Looks
	looks.SetText("nina: linen dress\nOdile: raincoat")
	if !d.says(`line 2: nobody in this scene is called "Odile"`) || !slices.Equal(scene().Looks, before) {
		t.Errorf("somebody who is not there wears something: %v", scene().Looks)
	}
	looks.SetText("nina: linen dress\nNina Valdry: raincoat")
	if !d.says(`"nina" stands here twice`) || !slices.Equal(scene().Looks, before) {
		t.Errorf("somebody wears two things: %v", scene().Looks)
	}
	looks.SetText("nina: linen dress\nIvy: pyjamas")
	want := []plan.Look{{Person: "nina", Look: "linen dress"}, {Person: "ivy", Look: "pyjamas"}}
	if got := scene().Looks; !slices.Equal(got, want) || d.says("line 2") {
		t.Errorf("the looks are %v", got)
	}
	ticks := seen(d, func(c *widget.Check) bool { return c.Text == "Ivy Marchetti-Lund" })
	if len(ticks) != 1 || !ticks[0].Checked {
		t.Fatalf("%d ticks for Ivy", len(ticks))
	}
	ticks[0].SetChecked(false)
	if got := scene().Looks; !slices.Equal(got, want[:1]) || looks.Text != "Nina Valdry: linen dress" {
		t.Errorf("without Ivy the looks are %v, and %q is shown", got, looks.Text)
	}
	d.menuItem("People").Action() // Nina is the first
	ticks = seen(d, func(c *widget.Check) bool { return c.Text == "3  Breakfast" })
	ticks[0].SetChecked(false)
	if got := scene(); len(got.Looks) > 0 || slices.Contains(got.People, "nina") {
		t.Errorf("without Nina the looks are %v", got.Looks)
	}
}

// cells are the texts that the table of scenes shows.
func (d *desk) cells() (out []string) {
	for _, g := range seen(d, func(*draw.Grid) bool { return true }) {
		for _, o := range test.WidgetRenderer(g).Objects() {
			if text, ok := o.(*canvas.Text); ok && text.Visible() {
				out = append(out, text.Text)
			}
		}
	}
	return out
}

// TestLightByTheClockIsKept through edits of its scene, shown, and taken out only by another wish.
func TestLightByTheClockIsKept(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	d.page(view.Scenes).(*page.Scenes).Select("breakfast")
	d.session.Edit("say the light", "", func(p *plan.Plan) {
		p.Scenes[2].SetWishKind(plan.Any)
		p.Scenes[2].Values = []plan.Value{{From: plan.ClockAt(600), To: plan.ClockAt(660), Share: 0.5}}
	})
	d.entry("a name: right after another scene with it in this space, no set-up").SetText("morning")
	if s := d.plan().Scenes[2]; len(s.Values) != 1 || s.Lights != "morning" || !d.says("10:00–11:00 50 %; none at other times.") || !slices.Contains(d.cells(), "light by the clock") {
		t.Errorf("the light by the clock is %v, the lighting %q", s.Values, s.Lights)
	}
	wish := seen(d, func(s *widget.Select) bool { return slices.Contains(s.Options, string(plan.Daylight)) })
	wish[0].SetSelected(string(plan.Daylight))
	if s := d.plan().Scenes[2]; len(s.Values) > 0 || s.Wish.Kind != plan.Daylight || d.says("none at other times") {
		t.Errorf("with the wish %q the light by the clock is %v", s.Wish.Kind, s.Values)
	}
}

// TestLimitsOfAPerson are typed beside what makes them a minor.
func TestLimitsOfAPerson(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("People").Action()
	d.entry("minutes a day, call to release; empty: no limit").SetText("480")
	d.entry("minutes a day; empty: no limit").SetText("240")
	change := d.entry("that another look takes; empty: none")
	if change.Text != "15" {
		t.Errorf("a change takes %q usually", change.Text)
	}
	change.SetText("")
	if q := d.plan().People[0]; q.Longest != 480 || q.Work != 240 || q.Change != 0 {
		t.Errorf("there %v, filmed %v, change %v", q.Longest, q.Work, q.Change)
	}
	change.SetText("a while")
	if !d.says(`"a while" is not a whole number`) {
		t.Error("a word for minutes is not told")
	}
}

// TestKitAndOvertimeAreTyped in the panel of the rules.
func TestKitAndOvertimeAreTyped(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	d.press("Dates and rules")
	kit := d.entry("a line each:\nCrane: 2027-10-16 09:00-17:00")
	kit.SetText("Crane: 2027-10-16 09:00-17:00\nDrone: 17-9")
	if !d.says("it ends at 09:00, which is not after its start at 17:00") || len(d.plan().Shooting.Kit) > 0 {
		t.Errorf("the kit is %v", d.plan().Shooting.Kit)
	}
	kit.SetText("Crane: 2027-10-16 09:00-17:00\nDrone: 9-17")
	if got := d.plan().Shooting.Kit; len(got) != 2 || got[0].Name != "Crane" || got[0].Availability[0].Date.Day != 16 || got[1].Availability[0].To != plan.ClockAt(17*60) {
		t.Errorf("the kit is %v", got)
	}
	d.press("Add step")
	d.press("Add step")
	if got := d.plan().Shooting.Overtime; len(got) != 2 || got[1].After <= got[0].After {
		t.Fatalf("overtime goes by %v", got)
	}
	after := seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == "600" })
	after[1].SetText("60")
	if !d.says("1 h is not after the step before it, at 10 h") {
		t.Error("a step before the one before it is not told")
	}
	after[1].SetText("660")
	if got := d.plan().Shooting.Overtime[1].After; got != 660 {
		t.Errorf("the second step is at %v", got)
	}
	days := d.entry("1 to 3")
	days.SetText("4")
	if !d.says("4 is outside 1 to 3") {
		t.Error("four days are not told of")
	}
	if days.SetText("2"); d.plan().Shooting.Days != 2 {
		t.Errorf("%d days", d.plan().Shooting.Days)
	}
}

// TestCloseTakesWhatIsBeingWritten: the window's own button commits a cell that is half written, so that it asks.
func TestCloseTakesWhatIsBeingWritten(t *testing.T) {
	d, _ := openDemo(t)
	d.goTo(view.Scenes)
	d.settle()
	grid := seen(d, func(*draw.Grid) bool { return true })[0]
	d.win.Canvas().Focus(grid)
	grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) // from the number to the title
	grid.TypedRune('X')
	if d.session.State().Dirty {
		t.Fatal("a cell that is still being written is in the plan")
	}
	d.Close()
	if !d.session.State().Dirty || !d.says("has changes that are not saved") || d.plan().Scenes[0].Title != "X" {
		t.Errorf("the cell is lost: the title is %q", d.plan().Scenes[0].Title)
	}
}
