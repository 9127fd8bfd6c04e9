package view

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
)

// handState is the demo's best day, chosen, as the Day page has it.
func handState(t *testing.T) session.State {
	t.Helper()
	p := demo(t)
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil {
		t.Fatal(err)
	}
	return session.State{Plan: p, Results: session.Results{Shoot: shoot, Chosen: shoot.Days[0], Days: shoot.Days}}
}

// The figures are read off the demo's day as the command prints it before and after (waiting 14 h 15; scene 8 in the light of
// 14:43 to 18:14); the words are ours.
func TestHandWords(t *testing.T) {
	st := handState(t)
	kitchen := plan.ID("kitchen")
	a := ArrangeDay(st, Arrange{Scenes: []plan.ID{"piano"}, Move: -time.Hour, Space: &kitchen})
	if a.Cannot != "" || a.Name != "move scene 8" {
		t.Fatalf("%q, %q", a.Name, a.Cannot)
	}
	if got := HandTag(a.State, "piano"); got != "15:15–15:35 · 100 % of its light, which ends 18:14" {
		t.Error(got)
	}
	if got := HandLine(st, a.State); got != "Light 92 % · waiting 15 h 25 (+1 h 10) · overtime 297.00 USD · price 8,750.00 USD" {
		t.Error(got)
	}
	if got := HeldLine(a.State); got != "12 scenes are held where they were while you moved others." {
		t.Error(got)
	}
	if HeldLine(st) != "" || OfferLine(st) != "" {
		t.Error("something is held or on offer before anything is done")
	}
	for _, c := range []struct {
		arrange      Arrange
		name, cannot string
	}{
		{Arrange{Scenes: []plan.ID{"lunch"}, Move: 90 * time.Minute}, "move scene 7", "Scene 7 can't be shot at 15:05: it is limited to 11:30-14:30."},
		{Arrange{Scenes: []plan.ID{"coffee"}, Move: -3 * time.Hour}, "move scene 2", "Scene 2 can't be shot at 04:30: Nina Valdry is free 06:00-20:00."},
		{Arrange{Scenes: []plan.ID{"drawing"}, SetUp: 5}, "set-up of scene 4", ""},
		{Arrange{Scenes: []plan.ID{"drawing"}, Shoot: -100}, "shooting of scene 4", ""},
		{Arrange{Scenes: []plan.ID{"drawing", "lengths"}, Move: 5 * time.Minute}, "move 2 scenes", ""},
	} {
		if a := ArrangeDay(st, c.arrange); a.Name != c.name || a.Cannot != c.cannot {
			t.Errorf("%+v: %q, %q", c.arrange, a.Name, a.Cannot)
		}
	}
}

// What can't be leaves the day and the plan as they were, and the plan before is never written to.
func TestArrangeLeavesThePlanAlone(t *testing.T) {
	st := handState(t)
	before := st.Plan.Clone()
	for _, move := range []time.Duration{-12 * time.Hour, -time.Hour, 5 * time.Minute, 12 * time.Hour} {
		for _, s := range st.Results.Chosen.Scenes {
			a := ArrangeDay(st, Arrange{Scenes: []plan.ID{s.Scene}, Move: move})
			if at, _ := a.Results.Chosen.Placed(s.Scene); a.Cannot != "" && !at.Start.Equal(s.Start) {
				t.Errorf("%s can't move by %v, and did", s.Scene, move)
			}
		}
	}
	if !reflect.DeepEqual(before, st.Plan) {
		t.Error("the plan was written to")
	}
}

func TestShelfIsWhatHasNoPlace(t *testing.T) {
	st := handState(t)
	shelf := BoardShelf(st)
	if len(shelf) != 1 || shelf[0].Scene != "toast" && shelf[0].Scene != "jetty" {
		t.Fatalf("%+v", shelf)
	}
	// Its light (golden evening) begins at 17:48; 17:50 is the first line of the grid in it.
	if got := Clock(st.Results.Chosen, shelf[0].Start); got != "17:50" {
		t.Errorf("it would begin at %s", got)
	}
	a := ArrangeDay(st, Arrange{Scenes: []plan.ID{shelf[0].Scene}})
	if line := HandLine(st, a.State); a.Cannot != "" || !strings.HasPrefix(line, "Scene ") || !strings.Contains(line, "would find no place · Light") {
		t.Errorf("put into the light of another, it says %q %q", line, a.Cannot)
	}
}

// Pinning keeps the day's date; a pin that held on any date goes on to.
func TestPinScenes(t *testing.T) {
	st := handState(t)
	date := st.Results.Chosen.Date
	name, edit := PinScenes(st, []plan.ID{"piano", "lunch"})
	p := st.Plan.Clone()
	edit(&p)
	piano, _ := p.Scene("piano")
	if name != "pin 2 scenes" || piano.Pin != (plan.Pin{Date: date, Start: plan.ClockAt(16*60 + 15)}) || p.Shooting.Date != date {
		t.Errorf("%q: %+v on %s", name, piano.Pin, p.Shooting.Date)
	}
	st.Plan.SceneAt("piano").Pin = plan.Pin{Start: plan.ClockAt(16*60 + 15)}
	a := ArrangeDay(st, Arrange{Scenes: []plan.ID{"piano"}, Move: 5 * time.Minute})
	if piano, _ = a.Plan.Scene("piano"); piano.Pin != (plan.Pin{Start: plan.ClockAt(16*60 + 20)}) {
		t.Errorf("moved: %+v", piano.Pin)
	}
}

func TestPointLine(t *testing.T) {
	st := handState(t)
	d := st.Results.Chosen
	at := plan.Instant(d.Date, plan.ClockAt(15*60+9), d.Zone)
	if got := PointLine(st, at); got != "15:09: sun 32° high at 222° SW · it lights the Pool side, Tarn side" {
		t.Error(got)
	}
	if got := PointLine(st, d.Sky.Start); !strings.HasPrefix(got, "00:00: the sun is ") {
		t.Error(got)
	}
}

// On a shoot of two days, the scenes of the other day are held too: the plan gives both days as they are shown.
func TestArrangeOneOfTwoDays(t *testing.T) {
	p := demo(t)
	p.Shooting.Days = 2
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil || len(shoot.Days) != 2 {
		t.Fatalf("%d days, %v", len(shoot.Days), err)
	}
	for n, d := range shoot.Days { // its last scene later: nothing has to make way
		st := session.State{Plan: p, Results: session.Results{Shoot: shoot, Chosen: d, Days: shoot.Days}}
		a := ArrangeDay(st, Arrange{Scenes: []plan.ID{d.Scenes[len(d.Scenes)-1].Scene}, Move: 10 * time.Minute})
		if a.Cannot != "" {
			t.Fatalf("day %d: %s", n+1, a.Cannot)
		}
		again, err := day.ChosenShoot(context.Background(), &a.Plan, nil)
		if err != nil || len(again.Days) != 2 {
			t.Fatalf("day %d: %d days, %v", n+1, len(again.Days), err)
		}
		for k, want := range a.Results.Shoot.Days {
			got := again.Days[k]
			same := slices.EqualFunc(got.Scenes, want.Scenes, func(x, y day.Placed) bool { return x.Scene == y.Scene && x.Start.Equal(y.Start) })
			if got.Date != want.Date || !same {
				t.Errorf("day %d moved: the plan gives %s %v, shown is %s %v", n+1, got.Date, got.Scenes, want.Date, want.Scenes)
			}
		}
	}
}
