package view

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/place"
)

// answers asks a day everything.
func answers(t *testing.T, d day.Day) *session.Answer {
	t.Helper()
	ctx := context.Background()
	var a session.Answer
	var errs [5]error
	a.Here, errs[0] = d.WhyHere(ctx)
	a.Waiting, errs[1] = d.WhyWaiting(ctx)
	a.Freeing, errs[2] = d.Freeing(ctx)
	a.Gains, errs[3] = d.Gains(ctx)
	a.Others, errs[4] = d.Others(ctx)
	if err := errors.Join(errs[:]...); err != nil {
		t.Fatal(err)
	}
	return &a
}

// text is all that a part says.
func (t Told) text() string {
	lines := []string{t.Head, t.Status}
	for _, it := range t.Items {
		lines = append(append(lines, it.Title), it.Lines...)
		for _, c := range it.Choices {
			lines = append(lines, c.Do.Button+"|"+c.Worth+"|"+c.Text)
		}
	}
	for _, r := range t.Table.Rows {
		lines = append(lines, r.Name+": "+strings.Join(r.Cells, ", "))
	}
	return strings.Join(lines, "\n")
}

func TestTell(t *testing.T) {
	st := state(t, demo(t))
	busy, empty := st, state(t, plan.New())
	busy.Results.Busy = true
	full := answers(t, st.Results.Chosen)
	calm := state(t, quiet(t))
	nina, _ := st.Results.Chosen.Presence("nina")
	for _, c := range []struct {
		name string
		part Part
		a    Asking
		want []string
		not  string
	}{
		{"no position", TellGains, Asking{State: empty}, []string{"The position is not set, so the light can't be computed."}, ""},
		{"the day", TellDay, Asking{State: st}, []string{"The day of Sat 16 Oct 2027", "Proven best. No other order", "Scenes 11 and 12 need the same golden evening"}, "Why this date"},
		{"nothing selected", TellScene, Asking{State: st}, []string{"Select a scene on the board"}, "hour"},
		{"a scene, not yet", TellScene, Asking{State: st, Scene: "path", Looking: true}, []string{"Why scene 9 is here", "Looking an hour earlier and later…", "It keeps 100 % of its light"}, "An hour"},
		{"a scene", TellScene, Asking{State: st, Scene: "path", Answer: full}, []string{"An hour earlier: cannot be, its light (backlit) begins at 15:08.", "An hour later: "}, "…"},
		{"a scene left out", TellScene, Asking{State: st, Scene: "toast", Answer: full}, []string{"Scene 11\n", "Scenes 11 and 12 need"}, "An hour"},
		{"who waits, not yet", TellWaiting, Asking{State: st}, []string{"Nina Valdry waits " + nina.Waits.String()}, "between"},
		{"who waits", TellWaiting, Asking{State: st, Answer: full}, []string{"Nina Valdry waits " + nina.Waits.String(), " between scenes ", " for the set-up of scene "}, ""},
		{"nobody waits", TellWaiting, Asking{State: calm}, []string{"Nobody waits."}, ""},
		{"left out, not yet", TellLeftOut, Asking{State: st, Looking: true}, []string{"11  A toast to the evening", "Trying one change after another…"}, "No single change"},
		{"left out", TellLeftOut, Asking{State: st, Answer: full}, []string{"Do it||Count scene 12 as should instead of must: scene 11 finds a place; "}, "No single change"},
		{"left out for good", TellLeftOut, Asking{State: st, Answer: &session.Answer{}}, []string{"No single change that was tried gives it a place."}, "Do it"},
		{"left out, stopped", TellLeftOut, Asking{State: st, Answer: &session.Answer{Stopped: true}}, []string{"Stopped; there may be more to tell."}, "No single change"},
		{"nothing left out", TellLeftOut, Asking{State: calm}, []string{"No scene is left out."}, ""},
		{"gains", TellGains, Asking{State: st, Answer: full}, []string{"|" + day.PointWords(full.Gains[0].Points).String() + "|", "Add a second day on Sat 23 Oct 2027 for scene 11.", "Have kit of its own in "}, "Nothing"},
		{"no gains", TellGains, Asking{State: st, Answer: &session.Answer{}}, []string{"Nothing that was tried gains much"}, ""},
		{"gains that failed", TellGains, Asking{State: st, Answer: &session.Answer{Err: errors.New("no room")}}, []string{"It could not be told: no room"}, "Nothing"},
		{"other days", TellOthers, Asking{State: st, Answer: full}, []string{"Waiting: " + st.Results.Chosen.Figures().Waiting().String() + ", " + full.Others[0].Figures().Waiting().String(), "Least waiting: "}, "No other day"},
		{"no other day", TellOthers, Asking{State: st, Answer: &session.Answer{}}, []string{"No other day with these scenes"}, "pins"},
		{"while placing", TellOthers, Asking{State: busy}, []string{"The scenes are being placed anew…"}, ""},
	} {
		got := c.part.Tell(c.a).text()
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q is not said in\n%s", c.name, want, got)
			}
		}
		if c.not != "" && strings.Contains(got, c.not) {
			t.Errorf("%s: %q is said in\n%s", c.name, c.not, got)
		}
	}
}

// quiet is the demo with one scene of one person: nobody waits, nothing is left out.
func quiet(t *testing.T) plan.Plan {
	p := demo(t)
	for i := len(p.Scenes) - 1; i >= 0; i-- {
		if p.Scenes[i].ID != "path" {
			p.RemoveScene(i)
		}
	}
	return p
}

func TestQuestions(t *testing.T) {
	st, calm := state(t, demo(t)), state(t, quiet(t))
	for _, c := range []struct {
		part  Part
		st    session.State
		scene plan.ID
		asks  bool
		label string
	}{
		{TellDay, st, "", false, "The day"},
		{TellScene, st, "", false, "Scene"},
		{TellScene, st, "path", true, "Scene 9"},
		{TellScene, st, "toast", false, "Scene 11"},
		{TellWaiting, st, "", true, "Waiting (4)"},
		{TellWaiting, calm, "", false, "Waiting"},
		{TellLeftOut, st, "", true, "Left out (1)"},
		{TellLeftOut, calm, "", false, "Left out"},
		{TellGains, st, "", true, "What more buys"},
		{TellOthers, st, "", true, "Other days"},
		{TellOthers, state(t, plan.New()), "", false, "Other days"},
	} {
		if _, asks := c.part.Question(c.st, c.scene); asks != c.asks || c.part.Label(c.st, c.scene) != c.label {
			t.Errorf("%s of %q asks %v, called %q; want %v, %q", c.part, c.scene, asks, c.part.Label(c.st, c.scene), c.asks, c.label)
		}
	}
}

// TestDatesAreHeldAgainstEachOther, whichever of them is shown.
func TestDatesAreHeldAgainstEachOther(t *testing.T) {
	p := demo(t)
	st := state(t, p)
	if err := day.Dates(context.Background(), &p, func(d day.Day) {
		st.Results.Days = append(st.Results.Days, d)
	}); err != nil {
		t.Fatal(err)
	}
	st.Results.Days = st.Results.Days[1:] // state put the one shown there too
	lines := whyDate(st).Lines
	points := day.PointWords(st.Results.Days[0].Loss.Total() - st.Results.Chosen.Loss.Total()).String()
	if len(lines) != 2 || !strings.HasPrefix(lines[0], "Rather than Sat 9 Oct 2027: "+points+" better: ") ||
		!strings.HasPrefix(lines[1], "Rather than Sat 23 Oct 2027: ") {
		t.Errorf("of the best date it is said %q", lines)
	}
	st.Results.Chosen = st.Results.Days[0]
	if lines = whyDate(st).Lines; len(lines) != 2 || !strings.HasPrefix(lines[0], "Sat 16 Oct 2027 would be "+points+" better: ") {
		t.Errorf("of the ninth it is said %q", lines)
	}
}

// TestDoChangesThePlanAsItSays: what is offered for a scene left out gives it a place, and the day taken is the one promised.
func TestDoChangesThePlanAsItSays(t *testing.T) {
	p := demo(t)
	st := state(t, p)
	a := Asking{State: st, Answer: answers(t, st.Results.Chosen)}
	done := func(do Do) day.Day {
		changed := p.Clone()
		do.Edit(&changed)
		if wrong := plan.Validate(changed).At(plan.Wrong); len(wrong) > 0 {
			t.Fatalf("%s: %v", do.Name, wrong)
		}
		return state(t, changed).Results.Chosen
	}
	choices := TellLeftOut.Tell(a).Items[0].Choices
	if len(choices) == 0 {
		t.Fatal("nothing frees scene 11")
	}
	for _, c := range choices {
		if d := done(c.Do); len(d.LeftOut) > 0 {
			t.Errorf("%s leaves out %v", c.Do.Name, d.LeftOut)
		}
	}
	table := TellOthers.Tell(a).Table
	do := table.Do[1]
	if do.Name != "take the day of least waiting" || table.Do[0].Button != "" {
		t.Fatalf("offered: %+v", table.Do)
	}
	got, want := done(do), a.Answer.Others[0].Day
	if got.Date != want.Date || len(got.Scenes) != len(want.Scenes) {
		t.Fatalf("taken: %s with %d scenes, want %s with %d", got.Date, len(got.Scenes), want.Date, len(want.Scenes))
	}
	for i, at := range got.Scenes {
		if at.Scene != want.Scenes[i].Scene || !at.Start.Equal(want.Scenes[i].Start) || !at.Pinned {
			t.Errorf("scene %s at %s, want %s at %s", at.Scene, at.Start, want.Scenes[i].Scene, want.Scenes[i].Start)
		}
	}
	pinned := p.Clone()
	do.Edit(&pinned)
	items := TellOthers.Tell(Asking{State: state(t, pinned)}).Items
	out := items[len(items)-1].Choices[0].Do
	out.Edit(&pinned)
	if out.Button != "Take out the pins" || slices.ContainsFunc(pinned.Scenes, func(s plan.Scene) bool { return s.Pin != plan.Pin{} }) {
		t.Errorf("%q leaves pins", out.Button)
	}
}

func TestTableMarksTheBest(t *testing.T) {
	st := state(t, demo(t))
	table := TellOthers.Tell(Asking{State: st, Answer: answers(t, st.Results.Chosen)}).Table
	for _, c := range []struct {
		row  string
		best []bool
	}{
		{"Light kept", []bool{true, false}}, {"Waiting", []bool{false, true}}, {"Call", []bool{false, false}},
		{"Wrap", []bool{false, false}}, {"Points lost", []bool{true, false}},
	} {
		i := slices.IndexFunc(table.Rows, func(r TableRow) bool { return r.Name == c.row })
		if i < 0 || !slices.Equal(table.Rows[i].Best, c.best) {
			t.Errorf("%s: row %d of %+v", c.row, i, table.Rows)
		}
	}
}

func TestProof(t *testing.T) {
	for _, c := range []struct {
		d    day.Day
		want string
	}{
		{day.Day{Status: place.Proven}, "proven best"},
		{day.Day{Gap: 12.2, Status: place.Within}, "within 12 points of the best possible"},
		{day.Day{Gap: 1, Status: place.Within}, "within 1 point of the best possible"},
		{day.Day{Gap: 0.01, Status: place.Within}, "within 0.1 points of the best possible"},
		{day.Day{Gap: 340, Status: place.Cancelled}, "stopped early: within 340 points of the best possible"},
		{day.Day{Status: place.Cancelled}, "proven best"},
	} {
		if got := Proof(c.d); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestLosses(t *testing.T) {
	parts, total := Losses(day.Loss{Light: 30, Waiting: 60, Moves: 0.4, Overtime: 9.6})
	var got []string
	sum := 0.0
	for _, p := range parts {
		got = append(got, p.Name+" "+p.Points)
		sum += p.Share
		if (p.Share == 0) != (p.Points == "0") {
			t.Errorf("%+v", p)
		}
	}
	want := []string{"Light 30", "Waiting 60", "Moves 0.4", "Length 0", "Overtime 9.6", "Left out 0"}
	if !slices.Equal(got, want) || total != "100" || sum < 0.999 || sum > 1.001 {
		t.Errorf("%q, %s, shares of %v together", got, total, sum)
	}
	if parts, total = Losses(day.Loss{}); total != "0" || slices.ContainsFunc(parts, func(p Loss) bool { return p.Share != 0 }) {
		t.Errorf("nothing is lost: %+v, %s", parts, total)
	}
}

func TestDayLabel(t *testing.T) {
	if got := DayLabel(day.Day{Number: 2, Of: 2, Date: plan.Date{Year: 2027, Month: 10, Day: 9}}); got != "Day 2 · Sat 9 Oct" {
		t.Errorf("%q", got)
	}
}
