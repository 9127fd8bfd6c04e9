package page

import (
	"context"
	"slices"
	"testing"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// clerk answers when it is told to.
type clerk struct {
	questions []session.Question
	answers   []func(session.Answer)
	stopped   []bool
	shown     int
}

func (c *clerk) Ask(q session.Question, done func(session.Answer)) func() {
	n := len(c.questions)
	c.questions, c.answers, c.stopped = append(c.questions, q), append(c.answers, done), append(c.stopped, false)
	return func() { c.stopped[n] = true }
}

func (c *clerk) ShowDay(n int) { c.shown = n }

func (c *clerk) EditDay(string, string, func(*plan.Plan), ...day.Day) plan.Problems { return nil }

func (c *clerk) TakeOffer(string) {}

func (c *clerk) LeaveOffer() {}

// asking is a Day page on the demo, in a window, with a clerk behind it.
func asking(t *testing.T) (*Day, *clerk, session.State) {
	t.Helper()
	test.NewTempApp(t)
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	chosen, err := day.Chosen(context.Background(), &p)
	if err != nil {
		t.Fatal(err)
	}
	c := &clerk{}
	d := NewDay(nil, func(view.Hit) {}, nil, nil, c, nil)
	test.NewTempWindow(t, d.Object()).Resize(fyne.NewSize(1100, 760))
	st := session.State{Plan: p, Results: session.Results{Chosen: chosen, Days: []day.Day{chosen}, Shoot: day.Shoot{Days: []day.Day{chosen}}}}
	d.Show(st)
	return d, c, st
}

func (c *clerk) expect(t *testing.T, what string, questions ...session.Question) {
	t.Helper()
	if !slices.Equal(c.questions, questions) {
		t.Errorf("%s: asked %q, want %q", what, c.questions, questions)
	}
}

// TestTheDayIsAskedOnlyForWhatIsInSight, once, and what nobody waits for any more is given up.
func TestTheDayIsAskedOnlyForWhatIsInSight(t *testing.T) {
	d, c, st := asking(t)
	tell := d.telling
	d.board.OnSelect("path")
	tell.choose(view.TellGains)
	c.expect(t, "while closed")
	tell.choose(view.TellDay)
	d.toggleTelling()
	c.expect(t, "of the day itself")
	tell.choose(view.TellWaiting)
	d.Show(st)
	c.expect(t, "who waits", session.WhyWaiting)
	tell.choose(view.TellScene)
	c.expect(t, "then the scene", session.WhyWaiting, session.WhyHere)
	if !c.stopped[0] || c.stopped[1] {
		t.Errorf("given up: %v", c.stopped)
	}
	c.answers[0](session.Answer{Stopped: true})
	if len(tell.answers) > 0 || tell.status.Text != "Looking an hour earlier and later…" {
		t.Errorf("an answer that nobody waits for is taken; %q", tell.status.Text)
	}
	c.answers[1](session.Answer{})
	d.board.OnSelect("piano")
	c.expect(t, "another scene, of the same answer", session.WhyWaiting, session.WhyHere)
	tell.choose(view.TellWaiting)
	c.expect(t, "again who waits", session.WhyWaiting, session.WhyHere, session.WhyWaiting)
	d.toggleTelling()
	if !c.stopped[2] {
		t.Error("closed, it goes on looking")
	}
}

// TestAnotherDayIsAskedAnew: while the plan is being placed, and of another day, no answer stays.
func TestAnotherDayIsAskedAnew(t *testing.T) {
	d, c, st := asking(t)
	d.toggleTelling()
	d.telling.choose(view.TellOthers)
	c.answers[0](session.Answer{})
	busy := st
	busy.Results.Busy = true
	d.Show(busy)
	if len(d.telling.answers) > 0 || d.telling.status.Text != "The scenes are being placed anew…" {
		t.Errorf("while placing, it says %q", d.telling.status.Text)
	}
	c.expect(t, "while placing", session.Others)
	other, err := day.Place(context.Background(), &st.Plan, plan.Date{Year: 2027, Month: 10, Day: 9})
	if err != nil {
		t.Fatal(err)
	}
	st.Results.Chosen = other
	d.Show(st)
	c.expect(t, "of another day", session.Others, session.Others)
	c.answers[0](session.Answer{})
	if len(d.telling.answers) > 0 {
		t.Error("an answer of the day before is taken")
	}
}

func TestStopAndLookAgain(t *testing.T) {
	d, c, _ := asking(t)
	d.toggleTelling()
	d.telling.choose(view.TellGains)
	if !d.telling.stopper.Visible() || d.telling.again.Visible() {
		t.Fatal("while it looks, it can't be stopped")
	}
	test.Tap(d.telling.stopper)
	if !c.stopped[0] {
		t.Fatal("it is not stopped")
	}
	c.answers[0](session.Answer{Stopped: true, Gains: []day.Gain{{Change: day.Change{Kind: day.NoMoves}, Points: 12}}})
	if d.telling.stopper.Visible() || !d.telling.again.Visible() || d.telling.status.Text != "Stopped; there may be more to tell." {
		t.Errorf("stopped, it says %q", d.telling.status.Text)
	}
	if got := d.telling.shown.Items[0].Choices; len(got) != 1 || got[0].Worth != "12 points" {
		t.Errorf("what was found by then: %+v", got)
	}
	test.Tap(d.telling.again)
	c.expect(t, "again", session.Gains, session.Gains)
}

func TestDaysOfAShoot(t *testing.T) {
	d, c, st := asking(t)
	if d.days.Visible() {
		t.Error("one day has a row of days")
	}
	second, err := day.Place(context.Background(), &st.Plan, plan.Date{Year: 2027, Month: 10, Day: 23})
	if err != nil {
		t.Fatal(err)
	}
	first := st.Results.Chosen
	first.Number, first.Of, second.Number, second.Of = 1, 2, 2, 2
	st.Results.Shoot.Days = []day.Day{first, second}
	d.Show(st)
	b := d.days.Objects[1].(*widget.Button)
	if !d.days.Visible() || len(d.days.Objects) != 2 || b.Text != "Day 2 · Sat 23 Oct" {
		t.Fatalf("%d buttons, the second %q", len(d.days.Objects), b.Text)
	}
	test.Tap(b)
	if c.shown != 1 {
		t.Errorf("day %d is shown", c.shown)
	}
}
