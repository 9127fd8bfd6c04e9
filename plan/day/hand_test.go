package day

import (
	"context"
	"testing"
	"time"

	"eavelight/plan"
)

// moved is a plan with a scene pinned a while later than it is on a day.
func moved(d Day, p *plan.Plan, id plan.ID, by time.Duration) plan.Plan {
	q := p.Clone()
	at, _ := d.Placed(id)
	q.SceneAt(id).Pin = plan.Pin{Date: d.Date, Start: plan.ClockOn(d.Date, at.Start.Add(by), d.Zone)}
	q.Shooting.Date = d.Date
	return q
}

// What the hand shows while it moves is what the plan gives when it is placed: or the board would jump when it lets go.
func TestByHandIsWhatThePlanGives(t *testing.T) {
	p := demo(t)
	before, err := Chosen(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range before.Scenes {
		for _, by := range []time.Duration{-180, -65, -20, -5, 5, 30, 60, 240} {
			q := moved(before, p, s.Scene, by*time.Minute)
			sc, _ := p.Scene(s.Scene)
			t0 := time.Now()
			kept, hand, why := before.ByHand(&q, s.Scene)
			took := time.Since(t0)
			if why != nil {
				t.Logf("%s by %d: %s (%s)", sc.Name(), by, why, took)
				continue
			}
			t1 := time.Now()
			want, err := Place(context.Background(), &kept, before.Date)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s by %d: %s, placed %s; %d moved, left out %d, %v", sc.Name(), by, took, time.Since(t1), movedCount(before, hand), len(hand.LeftOut), hand.Status)
			if !sameStarts(want, hand) || len(want.Meals) != len(hand.Meals) || want.Loss != hand.Loss {
				t.Errorf("scene %s by %d: the hand shows %v, the plan gives %v", sc.Name(), by, clocks(hand), clocks(want))
			}
		}
	}
}

func movedCount(a, b Day) (n int) {
	for _, s := range a.Scenes {
		if o, ok := b.Placed(s.Scene); !ok || !o.Start.Equal(s.Start) {
			n++
		}
	}
	return n
}

// clocks lists the starts of a day, with a star where a scene is free to move.
func clocks(d Day) (out []string) {
	for _, s := range d.Scenes {
		mark := ""
		if !s.Pinned && !s.Held {
			mark = "*"
		}
		out = append(out, string(s.Scene)+" "+plan.ClockOn(d.Date, s.Start, d.Zone).String()+mark)
	}
	return out
}
