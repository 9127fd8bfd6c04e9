package day

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/place"

	"pgregory.net/rapid"
)

// movedBy is the plan of a day with a scene pinned some minutes later than it is there.
func movedBy(d Day, p *plan.Plan, id plan.ID, minutes int) plan.Plan {
	q := p.Clone()
	at, _ := d.Placed(id)
	q.SceneAt(id).Pin = plan.Pin{Date: d.Date, Start: plan.ClockOn(d.Date, at.Start.Add(time.Duration(minutes)*time.Minute), d.Zone)}
	return q
}

// starts lists a day: "1 09:00", with a star where the scene is neither pinned nor held.
func starts(d Day) (out []string) {
	for _, s := range d.Scenes {
		sc, _ := d.made.plan.Scene(s.Scene)
		mark := ""
		if !s.Pinned && !s.Held {
			mark = "*"
		}
		out = append(out, sc.Name()+" "+plan.ClockOn(d.Date, s.Start, d.Zone).String()+mark)
	}
	return out
}

// What the hand shows while it moves is what the plan gives when it is placed, or the board would jump when it lets go; but
// the demo's scene that is left out may find room.
func TestByHandIsWhatThePlanGives(t *testing.T) {
	p := demo(t)
	before, err := Chosen(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	worked := 0
	for _, s := range before.Scenes {
		for _, by := range []int{-65, -5, 5, 30, 240} {
			q := movedBy(before, p, s.Scene, by)
			kept, hand, why := before.ByHand(&q, s.Scene)
			if why != nil {
				continue
			}
			worked++
			want, err := Place(context.Background(), &kept, before.Date)
			if err != nil {
				t.Fatal(err)
			}
			found := len(want.Scenes)
			want.Scenes = slices.DeleteFunc(want.Scenes, func(s Placed) bool { _, was := before.Placed(s.Scene); return !was })
			if found -= len(want.Scenes); found > 1 {
				t.Errorf("%d scenes find room", found)
			}
			if !sameStarts(want, hand) || found == 0 && (want.Loss != hand.Loss ||
				!slices.EqualFunc(want.Meals, hand.Meals, func(a, b plan.Span) bool { return a.From.Equal(b.From) })) {
				t.Errorf("scene %s by %d: the hand shows %v, the plan gives %v", s.Scene, by, starts(hand), starts(want))
			}
		}
	}
	if worked < 30 {
		t.Errorf("only %d moves are possible", worked)
	}
}

// TestMakeWay: by hand. Every scene is 10 minutes of set-up and 20 of shooting in the room, but for those that say otherwise;
// a move takes 5. A block is dropped on others, and they make way.
func TestMakeWay(t *testing.T) {
	for _, c := range []struct {
		name   string
		scenes string // number and start, with ! where it is pinned by hand
		move   string
		to     string
		change func(*plan.Plan)
		want   string
		cannot string
	}{
		{"onto nothing", "1 9:00, 2 10:00, 3 11:00", "3", "12:00", nil, "1 09:00, 2 10:00, 3 12:00", ""},
		{"to the middle of the next", "1 9:00, 2 10:00, 3 11:00", "1", "9:45", nil, "1 09:45, 2 10:15, 3 11:00", ""},
		{"pushed ones push", "1 9:00, 2 10:00, 3 10:35", "1", "9:45", nil, "1 09:45, 2 10:15, 3 10:45", ""},
		{"beyond the middle of the next, which goes before", "1 9:00, 2 10:00, 3 11:00", "1", "10:05", nil, "2 09:35, 1 10:05, 3 11:00", ""},
		{"between two without the room", "1 9:00, 2 9:30, 3 10:00, 4 11:30", "4", "9:50", nil, "1 08:50, 2 09:20, 4 09:50, 3 10:20", ""},
		{"against one pinned by hand, so that the search finds a place", "1 9:00, 2 10:00!, 3 9:30", "1", "9:05", func(p *plan.Plan) { p.Shooting.EarliestCall = clock(t, "8:20") },
			"1 09:05, 2 10:00, 3 10:30*", ""},
		{"a move between", "1 9:00, 2 10:00, 3 11:00", "1", "9:40", func(p *plan.Plan) { p.SceneAt("s2").Space = "garden" }, "1 09:40, 2 10:15, 3 11:00", ""},
		{"where its people are not", "1 9:00, 2 10:00", "1", "12:00", func(p *plan.Plan) {
			p.People = []plan.Person{free(t, "9:00", "11:00")}
			p.Scenes[0].People = []plan.ID{"ann"}
		}, "", "Ann is free 09:00-11:00"},
		{"onto one pinned by hand", "1 9:00, 2 10:00!", "1", "10:05", nil, "", "2"},
	} {
		p := small()
		p.Property.Spaces = []plan.Space{{ID: "room"}, {ID: "garden"}}
		p.Shooting.Ready, p.Shooting.MealWithin = 0, 10*60
		var ids []plan.ID
		for _, part := range strings.Split(c.scenes, ", ") {
			var number, at string
			fmt.Sscan(part, &number, &at)
			s := plan.Scene{ID: plan.ID("s" + number), Number: number, Space: "room", Setup: 10, Shoot: 20, Importance: plan.Should}
			s.Pin = plan.Pin{Start: clock(t, strings.TrimSuffix(at, "!")), Held: !strings.HasSuffix(at, "!")}
			p.Scenes, ids = append(p.Scenes, s), append(ids, s.ID)
		}
		if c.change != nil {
			c.change(p)
		}
		d := placed(t, p, date(t, tableDay))
		if len(d.Scenes) != len(ids) {
			t.Fatalf("%s: %v", c.name, starts(d))
		}
		q := p.Clone()
		id := plan.ID("s" + c.move)
		q.SceneAt(id).Pin = plan.Pin{Start: clock(t, c.to)}
		kept, hand, why := d.ByHand(&q, id)
		if c.cannot != "" {
			if why == nil || !strings.Contains(why.String(), c.cannot) {
				t.Errorf("%s: %v, want %q", c.name, why, c.cannot)
			}
			continue
		}
		if got := strings.Join(starts(hand), ", "); why != nil || got != c.want {
			t.Errorf("%s: %s, want %s (%v)", c.name, got, c.want, why)
		}
		if at, _ := kept.Scene(id); at.Pin.Held || at.Pin.Start != clock(t, c.to) {
			t.Errorf("%s: the scene moved is not pinned", c.name)
		}
	}
}

// free is Ann, who is free only then on the day of the tables.
func free(t *testing.T, from, to string) plan.Person {
	who := plan.NewPerson()
	who.ID, who.Name = "ann", "Ann"
	who.Availability = []plan.Availability{{Date: date(t, tableDay), From: clock(t, from), To: clock(t, to)}}
	return who
}

// Whatever the plan and the move: what the hand moved is where it was put, a scene is left alone unless something met it, the
// solver's own judge finds the day in order, and it is what the plan gives.
func TestByHandAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t, 5)
		if len(plan.Validate(p).At(plan.Wrong)) > 0 {
			return
		}
		on, _ := plan.ParseDate(rapid.SampledFrom(dates).Draw(t, "date"))
		d, err := Place(context.Background(), &p, on)
		if err != nil {
			t.Fatal(err)
		}
		if len(d.Scenes) == 0 {
			return
		}
		s := rapid.SampledFrom(d.Scenes).Draw(t, "scene")
		q := movedBy(d, &p, s.Scene, 5*rapid.IntRange(-40, 40).Draw(t, "by"))
		kept, hand, why := d.ByHand(&q, s.Scene)
		if why != nil {
			if why.String() == "" {
				t.Fatal("no reason")
			}
			return
		}
		at, ok := hand.Placed(s.Scene)
		wanted, _ := q.Scene(s.Scene)
		if !ok || !at.Start.Equal(plan.Instant(on, wanted.Pin.Start, d.Zone)) {
			t.Fatalf("the scene is at %v, put to %s", at.Start, wanted.Pin.Start)
		}
		if loss, err := place.Judge(hand.made.problem, hand.made.result); err != nil || loss != hand.made.result.Loss {
			t.Fatalf("the judge finds %v, %v", loss, err)
		}
		want, err := Place(context.Background(), &kept, on)
		if err != nil {
			t.Fatal(err)
		}
		if more := want.Loss.Total() - hand.Loss.Total(); more > 1e-6 || more < -1e-6 && len(d.LeftOut) == 0 && len(hand.LeftOut) == 0 {
			t.Fatalf("the hand loses %v in %v, the plan %v in %v", hand.Loss, starts(hand), want.Loss, starts(want))
		}
	})
}

// TestOfferLetsGo: the best day, with one scene shoved aside by hand and back again, is on offer as it was.
func TestOfferLetsGo(t *testing.T) {
	p := demo(t)
	before, err := Chosen(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	q := movedBy(before, p, "breakfast", -60)
	q.Shooting.Date = before.Date
	kept, hand, why := before.ByHand(&q, "breakfast")
	if why != nil {
		t.Fatal(why)
	}
	kept.SceneAt("breakfast").Pin.Held = true // nothing is pinned by its own word any more
	better, ok, err := Offer(context.Background(), &kept, Shoot{Days: []Day{hand}})
	if err != nil || !ok || math.Abs(better.Total()-before.Loss.Total()) > 1e-6 {
		t.Errorf("on offer: %v that loses %v, want %v; %v", ok, better.Total(), before.Loss.Total(), err)
	}
	if _, ok, _ := Offer(context.Background(), p, Shoot{Days: []Day{before}}); ok {
		t.Error("something is on offer where nothing is held")
	}
}

// BenchmarkByHand is a step of the hand, beside the whole search for the same day.
func BenchmarkByHand(b *testing.B) {
	p := demo(b)
	d, err := Chosen(context.Background(), p)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("hand", func(b *testing.B) {
		for i := range b.N {
			q := movedBy(d, p, "piano", 5*(i%20))
			d.ByHand(&q, "piano")
		}
	})
	b.Run("search", func(b *testing.B) {
		for range b.N {
			if _, err := Place(context.Background(), p, d.Date); err != nil {
				b.Fatal(err)
			}
		}
	})
}
