package day

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
)

// TestLightingIsShared: the second scene in a lighting needs no set-up, and the two are shot together for it.
func TestLightingIsShared(t *testing.T) {
	p := small(
		plan.Scene{Number: "1", Space: "room", Setup: 30, Shoot: 20, Lights: "Evening lamps"},
		plan.Scene{Number: "2", Space: "garden", Setup: 30, Shoot: 20},
		plan.Scene{Number: "3", Space: "room", Setup: 30, Shoot: 20, Lights: "evening lamps "},
	)
	d := placed(t, p, date(t, "2026-06-21"))
	one, _ := d.Placed("s1")
	three, _ := d.Placed("s3")
	if one.Start.Sub(one.Setup)+three.Start.Sub(three.Setup) != 30*time.Minute || d.Length() != 30+3*20+2*30+5+20 { // and a move
		t.Errorf("set-ups of %v and %v, a day of %v", one.Start.Sub(one.Setup), three.Start.Sub(three.Setup), d.Length())
	}
}

// TestOvertimeByHand: 2 h of call to wrap with 4 points an hour after 1 h and 6 more after 1 h 30 cost 4 + 3.
func TestOvertimeByHand(t *testing.T) {
	p := small(plan.Scene{Number: "1", Space: "room", Setup: 10, Shoot: 60})
	p.Shooting.Overtime = []plan.Overtime{{After: 60, Points: 4}, {After: 90, Points: 6}}
	d := placed(t, p, date(t, "2026-06-21"))
	if d.Length() != 120 || math.Abs(d.Loss.Overtime-7) > 1e-9 {
		t.Errorf("a day of %v costs %v of overtime", d.Length(), d.Loss.Overtime)
	}
}

// TestHoursAreNamed: a child who may be there for two hours is not kept from morning to evening, and is named for it.
func TestHoursAreNamed(t *testing.T) {
	p := small(
		plan.Scene{Number: "1", Space: "room", Shoot: 20, People: []plan.ID{"kit"}, From: plan.ClockAt(8 * 60), To: plan.ClockAt(9 * 60)},
		plan.Scene{Number: "2", Space: "room", Shoot: 20, People: []plan.ID{"kit"}, From: plan.ClockAt(14 * 60), To: plan.ClockAt(15 * 60)},
	)
	p.People = []plan.Person{{ID: "kit", Name: "Kit Marlow", Minor: true, Weight: 1, Longest: 120}}
	d := placed(t, p, date(t, "2026-06-21"))
	if len(d.Scenes) != 1 || len(d.LeftOut) != 1 || !strings.Contains(d.LeftOut[0].Why.String(), "the hours of Kit Marlow (at most 2 h there).") {
		t.Errorf("%d placed; %v", len(d.Scenes), d.LeftOut)
	}
	p.People[0].Longest, p.People[0].Work = 0, 30
	if d = placed(t, p, date(t, "2026-06-21")); len(d.Scenes) != 1 || !strings.Contains(d.LeftOut[0].Why.String(), "the hours of Kit Marlow (at most 30 min in front of the camera).") {
		t.Errorf("filmed for 40 of 30 minutes: %d placed; %v", len(d.Scenes), d.LeftOut)
	}
	p.People[0].Work = 40
	if d = placed(t, p, date(t, "2026-06-21")); len(d.Scenes) != 2 {
		t.Errorf("filmed for 40 of 40 minutes: %v", d.LeftOut)
	}
}

// TestKitIsNamed: what is hired for the morning keeps its scene there, or out of a day on which it is not there.
func TestKitIsNamed(t *testing.T) {
	p := small(plan.Scene{Number: "1", Space: "room", Setup: 30, Shoot: 30, Kit: []string{"Crane"}})
	on := date(t, "2026-06-21")
	p.Shooting.Kit = []plan.Kit{{Name: "crane", Availability: []plan.Availability{{Date: on, From: plan.ClockAt(600), To: plan.ClockAt(660)}}}}
	d := placed(t, p, on)
	if at, ok := d.Placed("s1"); !ok || d.Sky.Clock(d.Sky.MinuteOf(at.Setup)) != plan.ClockAt(600) {
		t.Errorf("placed %+v; %v", at, d.LeftOut)
	}
	if d = placed(t, p, on.AddDays(1)); len(d.LeftOut) != 1 || !strings.Contains(d.LeftOut[0].Why.String(), "crane is not there") {
		t.Errorf("%v", d.LeftOut)
	}
}

// TestByTheClockAlone: without a property, what a plan says by the clock is placed by it.
func TestByTheClockAlone(t *testing.T) {
	p := plan.New()
	p.Scenes = []plan.Scene{
		{ID: "a", Number: "1", Shoot: 30, Values: []plan.Value{
			{From: plan.ClockAt(600), To: plan.ClockAt(660), Share: 0.5}, {From: plan.ClockAt(700), To: plan.ClockAt(730), Share: 1},
		}},
		{ID: "b", Number: "2", Shoot: 30, From: plan.ClockAt(640), To: plan.ClockAt(720)},
	}
	d := placed(t, &p, date(t, "2026-06-21"))
	a, _ := d.Placed("a")
	if d.Sky == nil || len(d.Scenes) != 2 || a.Kept != 1 || !a.Start.Equal(time.Date(2026, 6, 21, 11, 40, 0, 0, time.UTC)) {
		t.Errorf("%v, %v", d.Scenes, d.Problems)
	}
	if m := d.Sky.Moon(0); m.Altitude > 0 || slices.ContainsFunc(d.Problems, func(q plan.Problem) bool { return q.Code == plan.LackPosition }) {
		t.Errorf("the moon is at %v; %v", m.Altitude, d.Problems)
	}
}

// TestGuardianThere: a guardian who is not called while the minor is there is warned of, unless to be in reach is enough.
func TestGuardianThere(t *testing.T) {
	p := small(plan.Scene{Number: "1", Space: "room", Shoot: 20, People: []plan.ID{"kit"}})
	p.People = []plan.Person{{ID: "kit", Name: "Kit", Born: date(t, "2018-02-01"), Guardian: "ada"}, {ID: "ada", Name: "Ada"}}
	warned := func() bool {
		d := placed(t, p, date(t, "2026-06-21"))
		return slices.ContainsFunc(d.Problems, func(q plan.Problem) bool { return q.Code == plan.GuardianAbsent })
	}
	if !warned() {
		t.Error("the absent guardian is not told")
	}
	p.People[0].GuardianThere = plan.Reachable
	if warned() {
		t.Error("a guardian in reach is told to be absent")
	}
	p.People[0].GuardianThere, p.People[0].Born = plan.Present, date(t, "2008-06-21")
	if warned() {
		t.Error("who turns 18 on the day needs no guardian")
	}
}

// TestTableOfHours: a six-year-old may be at the place for 8 hours in California (8 CCR 11760) and work for 6 out of school and
// 4 in it; the table names who keeps a scene out, and one that is not there, or a minor without a day of birth, is told.
func TestTableOfHours(t *testing.T) {
	at := func(n string, hour, minutes int) plan.Scene {
		return plan.Scene{Number: n, Space: "room", Shoot: plan.Minutes(minutes), People: []plan.ID{"kit"}, From: plan.ClockAt(hour * 60), To: plan.ClockAt(hour*60 + minutes)}
	}
	p := small(at("1", 8, 150), at("2", 14, 120))
	p.Shooting.MealLength = 0
	p.People = []plan.Person{{ID: "kit", Name: "Kit Marlow", Weight: 1, Born: date(t, "2020-01-10")}}
	on := date(t, "2026-06-21")
	for _, c := range []struct {
		table  plan.ID
		school bool
		placed int
		code   plan.Code
	}{
		{"", true, 2, ""}, {"california", false, 1, plan.LeftOutHours}, {"california", true, 1, plan.LeftOutHours}, {"atlantis", false, 2, plan.NoHourTable},
	} {
		p.Shooting.Minors, p.Shooting.School = c.table, c.school
		d := placed(t, p, on)
		told := slices.Clone(d.Problems)
		for _, out := range d.LeftOut {
			told = append(told, out.Why)
		}
		if len(d.Scenes) != c.placed || c.code != "" && !slices.ContainsFunc(told, func(q plan.Problem) bool { return q.Code == c.code }) {
			t.Errorf("%q, school %v: %d placed, %v", c.table, c.school, len(d.Scenes), told)
		}
	}
	p.Shooting.Minors, p.Shooting.School = "california", true
	if out := placed(t, p, on).LeftOut; len(out) != 1 || !strings.Contains(out[0].Why.String(), "the hours of Kit Marlow (at most 8 h there and 4 h in front of the camera; California: minors in film, 8 CCR 11760).") {
		t.Errorf("the limit is not named: %v", out)
	}
	// the figures of a table that a plan carries are the test's own
	p.Hours = []plan.HourTable{{ID: "brindle", Name: "Brindle County", Source: "a letter", Rows: []plan.HourRow{{To: plan.Age{Months: 216}, WorkSchool: 200, WorkFree: 300, Limit: plan.Limit{Place: 12 * 60}}}}}
	p.Shooting.Minors = "brindle"
	if d := placed(t, p, on); len(d.LeftOut) != 1 || !strings.Contains(d.LeftOut[0].Why.String(), "(at most 12 h there and 3 h 20 in front of the camera; Brindle County)") {
		t.Errorf("the plan's own table: %v", d.LeftOut)
	}
	if p.Shooting.School = false; len(placed(t, p, on).LeftOut) != 0 {
		t.Error("out of school the plan's own table leaves room for both")
	}
	p.Shooting.Minors, p.Hours = "", nil
	p.Scenes[1].From, p.Scenes[1].To = plan.ClockAt(13*60), plan.ClockAt(15*60) // 8 to 15 h with 20 min before: 7 h 20 there, 4 h 30 of work
	for school, want := range map[bool]int{false: 2, true: 1} {
		p.Shooting.Minors, p.Shooting.School = "california", school
		if d := placed(t, p, on); len(d.Scenes) != want {
			t.Errorf("school %v: %d placed, want %d; %v", school, len(d.Scenes), want, d.LeftOut)
		}
	}
	p.People[0].Born, p.People[0].Minor = plan.Date{}, true
	if d := placed(t, p, on); !slices.ContainsFunc(d.Problems, func(q plan.Problem) bool { return q.Code == plan.NoBirth }) {
		t.Errorf("the missing day of birth is not told: %v", d.Problems)
	}
}
