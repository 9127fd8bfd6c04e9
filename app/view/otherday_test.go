package view

import (
	"context"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
)

// TestMoveToDay takes each scene of a shoot of two days to the other day. What is shown then is what the plan gives when it is
// placed anew, and the scene is there and nowhere else. The source is our own rule: what
// is seen is what is kept.
func TestMoveToDay(t *testing.T) {
	p := demo(t)
	p.Shooting.Days = 2
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil || len(shoot.Days) != 2 {
		t.Fatalf("%d days, %v", len(shoot.Days), err)
	}
	moved := 0
	for n, from := range shoot.Days {
		to := shoot.Days[1-n]
		st := session.State{Plan: p, Results: session.Results{Shoot: shoot, Chosen: from, Days: shoot.Days}}
		for _, s := range from.Scenes {
			m := MoveToDay(st, []plan.ID{s.Scene}, to)
			line := MovedLine(st, m, []plan.ID{s.Scene})
			if m.Cannot != "" {
				if line != m.Cannot || len(m.Days) > 0 {
					t.Errorf("%s can't be there, and says %q", s.Scene, line)
				}
				continue
			}
			moved++
			if _, ok := m.Days[0].Placed(s.Scene); ok {
				t.Errorf("%s is still on the day that it left", s.Scene)
			}
			if !strings.Contains(line, to.Date.DayMonth()) && !strings.Contains(line, "no place") {
				t.Errorf("%s: %q", s.Scene, line)
			}
			again, err := day.ChosenShoot(context.Background(), &m.Plan, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, want := range m.Results.Shoot.Days {
				for _, at := range want.Scenes { // a day that nothing is left on is none
					// The whole shoot also counts who has to come twice, and may sooner leave out another scene of theirs.
					if got, ok := placedIn(again, at.Scene); !got.Start.Equal(at.Start) && (ok || at.Scene == s.Scene) {
						t.Errorf("%s to %s: shown is %s at %v, the plan gives %v", s.Scene, to.Date, at.Scene, at.Start, got.Start)
					}
				}
			}
		}
	}
	if moved < 5 {
		t.Errorf("only %d scenes could go to the other day", moved)
	}
	if slices.ContainsFunc(p.Scenes, func(s plan.Scene) bool { return s.Pin != plan.Pin{} }) {
		t.Error("the plan was written to")
	}
}
