package day

import (
	"context"
	"slices"
	"testing"
	"time"

	"eavelight/plan"
)

// TestShootOnTwoDays: the demo on two days in a row and on two a week apart: every scene once, in order, rested between.
func TestShootOnTwoDays(t *testing.T) {
	for _, dates := range [][]string{{"2027-10-16", "2027-10-17"}, {"2027-10-23", "2027-10-09"}} {
		p := demo(t)
		p.Shooting.Days = 2
		var on []plan.Date
		for _, d := range dates {
			on = append(on, date(t, d))
		}
		s, err := PlaceShoot(context.Background(), p, on)
		if err != nil {
			t.Fatal(err)
		}
		shot := map[plan.ID]int{}
		for i, d := range s.Days {
			if d.Number != i+1 || d.Of != len(s.Days) || len(d.Scenes) == 0 {
				t.Errorf("%v: day %d of %d with %d scenes", dates, d.Number, d.Of, len(d.Scenes))
			}
			if i > 0 && d.Call.Sub(s.Days[i-1].Wrap) < time.Duration(p.Shooting.Rest)*time.Minute {
				t.Errorf("%v: called at %v after a wrap at %v", dates, d.Call, s.Days[i-1].Wrap)
			}
			for _, sc := range d.Scenes {
				shot[sc.Scene]++
			}
			if again, err := Place(context.Background(), d.made.plan, d.Date); err != nil || again.Loss.Total() > d.Loss.Total()+0.001 {
				t.Errorf("%v: its scenes alone lose %v, %v; the day says %v", dates, again.Loss.Total(), err, d.Loss.Total())
			}
		}
		for _, out := range s.LeftOut() {
			shot[out.Scene]++
		}
		for _, sc := range p.Scenes {
			if shot[sc.ID] != 1 {
				t.Errorf("%v: scene %s is there %d times", dates, sc.Name(), shot[sc.ID])
			}
		}
		t.Logf("%v: %d days, %.1f points, gap %.1f, %d left out", dates, len(s.Days), s.Total(), s.Gap, len(s.LeftOut()))
	}
}

// TestChosenShoot: two days are only taken where they lose less than one, and the chosen date is among them.
func TestChosenShoot(t *testing.T) {
	p := demo(t)
	one, err := ChosenShoot(context.Background(), p, nil)
	if err != nil || len(one.Days) != 1 || one.Total() != one.Days[0].Loss.Total() {
		t.Fatalf("one day: %d days, %v, %v", len(one.Days), one.Total(), err)
	}
	p.Shooting.Days, p.Shooting.Date = 2, date(t, "2027-10-23")
	var told []int
	two, err := ChosenShoot(context.Background(), p, func(placed, of int) { told = append(told, placed, of) })
	if err != nil {
		t.Fatal(err)
	}
	if want := []int{0, 3, 1, 3, 2, 3, 3, 3}; !slices.Equal(told, want) { // the demo has three candidates
		t.Errorf("told %v, want %v", told, want)
	}
	if !slices.ContainsFunc(two.Days, func(d Day) bool { return d.Date == p.Shooting.Date }) {
		t.Error("the chosen date is not among the days")
	}
	p.Shooting.Weights.Day = 1e6
	if alone, err := ChosenShoot(context.Background(), p, nil); err != nil || len(alone.Days) != 1 {
		t.Errorf("a dear second day is taken: %d days, %v", len(alone.Days), err)
	}
}
