package session

import (
	"context"
	"reflect"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// starts is when each scene of the day shown is shot.
func starts(b *bench) map[plan.ID]time.Time {
	out := map[plan.ID]time.Time{}
	for _, s := range b.State().Results.Chosen.Scenes {
		out[s.Scene] = s.Start.UTC()
	}
	return out
}

// shoved is the demo with its breakfast an hour earlier by hand, as the window makes it, but placed on the plan alone.
func shoved(t *testing.T, b *bench) (best map[plan.ID]time.Time) {
	t.Helper()
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	b.settle()
	best = starts(b)
	d, p := b.State().Results.Chosen, b.State().Plan.Clone()
	p.Shooting.Date = d.Date
	at, _ := d.Placed("breakfast")
	p.SceneAt("breakfast").Pin = plan.Pin{Date: d.Date, Start: plan.ClockOn(d.Date, at.Start.Add(-time.Hour), d.Zone)}
	kept, hand, why := d.ByHand(&p, "breakfast")
	if why != nil {
		t.Fatal(why)
	}
	kept.SceneAt("breakfast").Pin.Held = true
	if wrong := b.EditDay("move scene 3", "", func(p *plan.Plan) { *p = kept.Clone() }, hand); wrong != nil {
		t.Fatal(wrong)
	}
	return best
}

// The day that an edit is known to give is shown at once, and is the one that comes; so it is when the plan is opened.
func TestEditDayShowsTheDayAtOnce(t *testing.T) {
	b := newBench(t)
	best := shoved(t, b)
	at := starts(b)
	if !b.State().Results.Busy || at["breakfast"].Equal(best["breakfast"]) || !at["breakfast"].Equal(best["breakfast"].Add(-time.Hour)) {
		t.Fatalf("busy %v, breakfast at %v, before at %v", b.State().Results.Busy, at["breakfast"], best["breakfast"])
	}
	if chosen := b.State().Results.Chosen.Date; len(b.State().Results.Shoot.Days) != 1 || b.State().Results.Shoot.Days[0].Date != chosen {
		t.Error("the shoot is not of the day shown")
	}
	b.settle()
	if !reflect.DeepEqual(starts(b), at) {
		t.Errorf("placed, the day is another: %v, shown were %v", starts(b), at)
	}
	p := b.State().Plan
	shoot, err := day.ChosenShoot(context.Background(), &p, nil)
	if err != nil {
		t.Fatal(err)
	}
	b.Undo()
	b.settle()
	if !reflect.DeepEqual(starts(b), best) || len(b.State().Results.Offer.Days) > 0 {
		t.Error("undone, the day is not the one before, or something is on offer")
	}
	for _, s := range shoot.Days[0].Scenes {
		if !s.Start.Equal(at[s.Scene]) {
			t.Errorf("a command that reads the plan shoots %s at %v, the window at %v", s.Scene, s.Start, at[s.Scene])
		}
	}
}

func TestOfferTakenAndLeft(t *testing.T) {
	b := newBench(t)
	best := shoved(t, b)
	b.settle()
	at := starts(b)
	if len(b.State().Results.Offer.Days) != 1 {
		t.Fatal("nothing is on offer")
	}
	b.LeaveOffer()
	if len(b.State().Results.Offer.Days) != 0 || !reflect.DeepEqual(starts(b), at) || b.State().Results.Busy {
		t.Error("left, the offer is still there, or the day is another")
	}
	b.TakeOffer("take the offer")
	if b.State().Undo != "move scene 3" {
		t.Error("an offer is taken that was left")
	}
	b.Edit("change minutes", "", func(p *plan.Plan) { p.Scenes[0].Notes, p.Shooting.PackUp = "again", 25 })
	b.settle()
	b.TakeOffer("take the offer")
	if !reflect.DeepEqual(starts(b), best) || b.State().Undo != "take the offer" {
		t.Errorf("taken, the day is not shown at once; undo is of %q", b.State().Undo)
	}
	b.settle()
	if !reflect.DeepEqual(starts(b), best) || len(b.State().Results.Offer.Days) != 0 {
		t.Error("placed, the day is not the one that was offered")
	}
	for _, s := range b.State().Plan.Scenes {
		if s.Pin.Held {
			t.Errorf("scene %s is still held", s.ID)
		}
	}
}

// An edit that is refused, or changes nothing, shows nothing.
func TestEditDayRefused(t *testing.T) {
	b := newBench(t)
	shoved(t, b)
	b.settle()
	before := b.State()
	if wrong := b.EditDay("break", "", func(p *plan.Plan) { p.Scenes[0].Shoot = -1 }, day.Day{Date: before.Results.Chosen.Date}); len(wrong) == 0 {
		t.Error("a wrong plan is taken")
	}
	b.EditDay("nothing", "", func(*plan.Plan) {}, day.Day{Date: before.Results.Chosen.Date})
	if !reflect.DeepEqual(b.State().Results.Chosen.Scenes, before.Results.Chosen.Scenes) || b.State().Undo != before.Undo {
		t.Error("an edit that was not made shows its day")
	}
}
