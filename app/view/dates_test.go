package view

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// datesState is the demo with every candidate date placed.
func datesState(t *testing.T) session.State {
	t.Helper()
	p := demo(t)
	st := state(t, p)
	st.Results.Days = nil
	for _, date := range p.Shooting.Dates {
		one := p.Clone()
		one.Shooting.Date = date
		d, err := day.Chosen(context.Background(), &one)
		if err != nil {
			t.Fatal(err)
		}
		st.Results.Days = append(st.Results.Days, d)
	}
	return st
}

// TestDatesAreRanked holds what is said of each date to the figures of its day, by sums made here.
func TestDatesAreRanked(t *testing.T) {
	st := datesState(t)
	for _, d := range st.Results.Days {
		place := 1
		for _, o := range st.Results.Days {
			if o.Loss.Total() < d.Loss.Total() {
				place++
			}
		}
		want := fmt.Sprintf("no. %d of 3", place)
		if place == 1 {
			want = "the best of 3"
		}
		if got := DateNote(st, d); got != want {
			t.Errorf("%s: %q, want %q", d.Date, got, want)
		}
		for _, l := range d.LeftOut { // in the demo they weigh most on every date
			sc, _ := st.Plan.Scene(l.Scene)
			if got := DateReason(st, d); !strings.Contains(got, "without ") || !strings.Contains(got, sc.Name()) {
				t.Errorf("%s: %q does not name scene %s", d.Date, got, sc.Name())
			}
		}
	}
	st.Plan.Shooting.Date = st.Results.Days[0].Date
	if got := DateNote(st, st.Results.Days[0]); got != "no. 2 of 3, chosen" {
		t.Errorf("chosen by hand: %q", got)
	}
	st.Results.Busy = true
	if got := DateNote(st, st.Results.Days[0]); !strings.HasPrefix(got, "loses ") {
		t.Errorf("not all placed yet: %q", got)
	}
}

// TestDatesOfALongerShoot: the card of a date that is one of several days tells of that day, not of all scenes on that date alone.
func TestDatesOfALongerShoot(t *testing.T) {
	st := datesState(t)
	one := st.Results.Days[1]
	one.Number, one.Of, one.Scenes = 2, 2, one.Scenes[:3]
	st.Plan.Shooting.Days, st.Results.Shoot.Days = 2, []day.Day{one}
	d, ok := DatePlaced(st, one.Date)
	if !ok || DateNote(st, d) != "day 2 of 2" || DateReason(st, d) != "3 scenes" {
		t.Errorf("a day of the shoot: %q, %q", DateNote(st, d), DateReason(st, d))
	}
	if d, ok := DatePlaced(st, st.Results.Days[0].Date); !ok || d.Of != 1 || len(d.Scenes) != len(st.Results.Days[0].Scenes) {
		t.Errorf("another date is day %d of %d with %d scenes", d.Number, d.Of, len(d.Scenes))
	}
	if _, ok := DatePlaced(st, plan.Date{Year: 2030, Month: 1, Day: 1}); ok {
		t.Error("a date that is not placed is")
	}
}

// TestDateReason: common practice, no published source; what weighs most is said, as the best date's gain or another one's cost.
func TestDateReason(t *testing.T) {
	first := plan.Date{Year: 2027, Month: 10, Day: 9}
	call := time.Date(2027, 10, 9, 8, 0, 0, 0, time.UTC)
	placed := func(n, hours int, loss day.Loss) day.Day {
		return day.Day{Date: first.AddDays(n), Sky: &light.Sky{}, Call: call, Wrap: call.Add(time.Duration(hours) * time.Hour), Loss: loss}
	}
	for _, c := range []struct {
		what        string
		a, b        day.Day
		best, other string
	}{
		{"longer", placed(0, 8, day.Loss{}), placed(1, 10, day.Loss{Length: 20}), "2 h shorter", "2 h longer"},
		{"the larger of two", placed(0, 8, day.Loss{}), placed(1, 10, day.Loss{Length: 20, Moves: 30}), "fewer moves", "more moves"},
		{"what outweighs the rest", placed(0, 10, day.Loss{Length: 20}), placed(1, 8, day.Loss{Overtime: 50}), "less overtime", "more overtime"},
		{"weights without minutes", placed(0, 8, day.Loss{}), placed(1, 8, day.Loss{Light: 5}), "more light", "less light"},
		{"waiting", placed(0, 8, day.Loss{Waiting: 1}), placed(1, 8, day.Loss{Waiting: 9}), "less waiting", "more waiting"},
		{"no difference", placed(0, 8, day.Loss{Length: 3}), placed(1, 8, day.Loss{Length: 3}), "as good as 10 Oct", "as good as 9 Oct"},
	} {
		st := session.State{Results: session.Results{Days: []day.Day{c.b, c.a}}}
		if c.what == "no difference" {
			st.Results.Days = []day.Day{c.a, c.b}
		}
		if best, other := DateReason(st, c.a), DateReason(st, c.b); best != c.best || other != c.other {
			t.Errorf("%s: %q and %q, want %q and %q", c.what, best, other, c.best, c.other)
		}
	}
	alone := session.State{Results: session.Results{Days: []day.Day{placed(0, 8, day.Loss{Length: 3})}}}
	if got := DateReason(alone, alone.Results.Days[0]); got != "" {
		t.Errorf("a date alone: %q", got)
	}
}

// TestCompare holds the table to the figures of the days.
func TestCompare(t *testing.T) {
	st := datesState(t)
	a, b := st.Results.Days[0], st.Results.Days[1]
	two := Compare(st, a.Date, b.Date)
	if len(two) != 2 {
		t.Fatalf("%d dates", len(two))
	}
	at := func(head string) int { return slices.Index(CompareHeads, head) }
	for i, d := range []day.Day{a, b} {
		waits := plan.Minutes(0)
		for _, p := range d.People {
			waits += p.Waits
		}
		if got := two[i].Values[at("Waiting")]; got != waits.String() {
			t.Errorf("%s waits %s, want %s", d.Date, got, waits)
		}
		if got := two[i].Values[at("Length")]; got != d.Length().String() {
			t.Errorf("%s is %s long", d.Date, got)
		}
		if got := two[i].Values[at("Light kept")]; !strings.HasPrefix(got, fmt.Sprintf("%.0f %%, ", 100*d.LightKept(&st.Plan))) {
			t.Errorf("%s keeps %q, want %.3f", d.Date, got, d.LightKept(&st.Plan))
		}
	}
	for j, head := range CompareHeads {
		if two[0].Better[j] && two[1].Better[j] {
			t.Errorf("%s: both are better", head)
		}
	}
	if !two[1].Better[at("Loses")] || !two[1].Better[at("Left out")] || !two[0].Better[at("Waiting")] {
		t.Errorf("better: %v and %v", two[0].Better, two[1].Better)
	}
	if Compare(st, a.Date, a.Date) != nil || Compare(st, a.Date, a.Date.AddDays(1)) != nil {
		t.Error("a date is compared with itself, or with one that was not placed")
	}
	if got := CompareWith(st, b.Date); got != a.Date {
		t.Errorf("the best of the others is %s", got)
	}
}
