package day

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"eavelight/plan"
	"eavelight/plan/say"
)

// TestFreeingSentences: for every kind of change, a small plan that it frees a scene of, and all that is told. The figures are
// counted by hand; a golden evening is 19:31-20:26 that day (see tableDay), 50 minutes on the grid.
func TestFreeingSentences(t *testing.T) {
	after := func(s plan.Scene, id plan.ID) plan.Scene {
		s.After = []plan.ID{id}
		return s
	}
	for _, c := range []struct {
		name   string
		scenes []plan.Scene
		people []plan.Person
		change func(*plan.Plan)
		want   []string
	}{
		{"60 minutes into 50", []plan.Scene{must("1", 30, plan.GoldenEvening), must("2", 30, plan.GoldenEvening)}, nil, nil, []string{
			"shorten scene 2 by 10 min", "count scene 2 as should instead of must", "shorten scene 1 by 10 min", "count scene 1 as should instead of must"}},
		{"pins that overlap by 10", []plan.Scene{pinned(t, must("1", 30, plan.Any), "9:00"), pinned(t, must("2", 20, plan.Any), "9:20")}, nil,
			func(p *plan.Plan) { p.Scenes[1].Importance = plan.Nice }, []string{
				"take out the pin of scene 2", "shorten scene 1 by 10 min", "take out the pin of scene 1"}},
		// half an hour to prepare and 20 minutes to pack up make 170 minutes
		{"a day of 150 minutes", []plan.Scene{must("1", 120, plan.Any)}, nil, func(p *plan.Plan) { p.Shooting.Longest = 150 }, []string{
			"shorten scene 1 by 20 min", "let the day be 20 min longer, up to 2 h 50"}},
		// shot from 4:30 at the latest, set up from 3:30, called at 3:00
		{"a call before the earliest", []plan.Scene{{Number: "1", Setup: 60, Shoot: 20, Importance: plan.Must, To: clock(t, "4:50")}}, nil, nil, []string{
			"take out the clock limits of scene 1", "call up to 1 h earlier, from 03:00"}},
		{"a wrap after the latest", []plan.Scene{pinned(t, must("1", 20, plan.Any), "23:30")}, nil, nil, []string{
			"shorten scene 1 by 10 min", "take out the pin of scene 1", "wrap up to 10 min later, by 24:10"}},
		// which is after the night's middle, where the light was first computed to
		{"a wrap long after the latest", []plan.Scene{pinned(t, must("1", 20, plan.Any), "25:30")}, nil, nil, []string{
			"take out the pin of scene 1", "wrap up to 2 h 10 later, by 26:10"}},
		// she is ready 20 minutes after she comes
		{"half an hour of Ann", []plan.Scene{with(plan.Scene{Number: "1", Shoot: 30}, "ann")}, ann(t, "9:00", "9:30"), nil, []string{
			"shorten scene 1 by 20 min", "have Ann Dell 20 min earlier, from 08:40", "have Ann Dell 20 min longer, until 09:50"}},
		{"Ann on another date", []plan.Scene{with(plan.Scene{Number: "1", Shoot: 30}, "ann")},
			[]plan.Person{{ID: "ann", Name: "Ann Dell", Weight: 1, Availability: []plan.Availability{{Date: date(t, "2026-06-22"), From: clock(t, "9:00"), To: clock(t, "12:00")}}}},
			func(p *plan.Plan) { p.Shooting.Dates = []plan.Date{date(t, tableDay), date(t, "2026-06-22")} }, []string{
				"have Ann Dell all day", "shoot on Mon 22 Jun 2026"}},
		{"an order against the pins", []plan.Scene{after(pinned(t, must("1", 20, plan.Any), "9:00"), "s2"), pinned(t, must("2", 20, plan.Any), "10:00")}, nil,
			func(p *plan.Plan) { p.Scenes[1].Importance = plan.Nice }, []string{
				"take out the pin of scene 2", "take out the pin of scene 1", "let scene 1 come before scene 2"}},
		// 70 minutes at 10 points an hour cost more than the 4 points of a should, less than the 20 of a must
		{"not worth it", []plan.Scene{{Number: "1", Shoot: 20, Importance: plan.Nice}}, nil,
			func(p *plan.Plan) { p.Shooting.Weights.LeftOut, p.Shooting.Weights.Length = 1, 10 }, []string{
				"count scene 1 as must instead of nice"}},
		{"light that never comes", []plan.Scene{must("1", 20, plan.Dark)}, nil, atLongyearbyen, []string{"count scene 1 as should instead of must"}},
		{"no shooting minutes", []plan.Scene{{Number: "1"}}, nil, nil, nil},
	} {
		p := small(c.scenes...)
		p.People = c.people
		if c.change != nil {
			c.change(p)
		}
		d := placed(t, p, date(t, tableDay))
		found, err := d.Freeing(context.Background())
		var got []string
		for _, f := range found {
			for _, change := range f.Changes {
				got = append(got, change.Change.Words(p).String())
				if words := change.Words(d).String(); !strings.Contains(words, "finds a place") {
					t.Errorf("%s: %q", c.name, words)
				}
			}
		}
		if err != nil || len(d.LeftOut) != 1 || !slices.Equal(got, c.want) {
			t.Errorf("%s: %v left out, %v\n got %q\nwant %q", c.name, d.LeftOut, err, got, c.want)
		}
	}
}

// TestHereSentences: figures by hand, from the usual weights: a minute of waiting 0.2, an hour of day 2, a should left out 400.
func TestHereSentences(t *testing.T) {
	second := with(plan.Scene{Number: "2", Shoot: 30, After: []plan.ID{"s1"}}, "ann")
	for _, c := range []struct {
		name   string
		scenes []plan.Scene
		people []plan.Person
		want   []string // of the last scene of the day
	}{
		{"light", []plan.Scene{must("1", 20, plan.GoldenEvening)}, nil, []string{
			"An hour earlier: cannot be, its light (golden evening) begins at 19:31", "An hour later: cannot be, its light (golden evening) ends at 20:26"}},
		{"limits", []plan.Scene{limited(t, plan.Scene{Number: "1", Shoot: 20}, "10:00", "11:00")}, nil, []string{
			"An hour earlier: cannot be, it is limited to 10:00-11:00", "An hour later: cannot be, it is limited to 10:00-11:00"}},
		{"a pin", []plan.Scene{pinned(t, plan.Scene{Number: "1", Shoot: 20}, "10:00")}, nil, []string{
			"An hour earlier: cannot be, it is pinned to 10:00", "An hour later: cannot be, it is pinned to 10:00"}},
		{"a person", []plan.Scene{with(plan.Scene{Number: "1", Shoot: 20}, "ann")}, ann(t, "9:00", "10:00"), []string{
			"An hour earlier: cannot be, Ann Dell is free 09:00-10:00", "An hour later: cannot be, Ann Dell is free 09:00-10:00"}},
		{"the ends of the day", []plan.Scene{limited(t, plan.Scene{Number: "1", Shoot: 20}, "23:15", "25:00")}, nil, []string{
			"An hour earlier: cannot be, it is limited to 23:15-25:00", "An hour later: cannot be, because of the latest wrap (24:00)"}},
		// after 9:00-10:00 at once; before it only without it: 400 points, and 10000 for its pin, less an hour of day. An hour later Ann waits it through.
		{"an order", []plan.Scene{with(pinned(t, plan.Scene{Number: "1", Shoot: 60}, "9:00"), "ann"), second},
			[]plan.Person{{ID: "ann", Name: "Ann Dell", Weight: 1}}, []string{
				"An hour earlier: 10398 points more: scene 1 is left out; 1 h shorter day",
				"An hour later: 14 points more: Ann Dell waits 1 h longer; 1 h longer day"}},
	} {
		p := small(c.scenes...)
		p.People = c.people
		d := placed(t, p, date(t, tableDay))
		found, err := d.WhyHere(context.Background())
		if err != nil || len(found) != len(c.scenes) {
			t.Errorf("%s: %v, %v", c.name, found, err)
			continue
		}
		if got := english(found[len(found)-1].Words(d)); !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// TestWaitingSentences: Ann's hour between two pinned scenes, with one of somebody else in it.
func TestWaitingSentences(t *testing.T) {
	p := small(
		with(pinned(t, plan.Scene{Number: "1", Shoot: 60, Space: "room"}, "9:00"), "ann"),
		with(pinned(t, plan.Scene{Number: "2", Shoot: 15, Setup: 5, Space: "garden"}, "10:15"), "bo"),
		with(pinned(t, plan.Scene{Number: "3", Shoot: 30, Setup: 10, Space: "garden"}, "11:00"), "ann"),
	)
	p.People = []plan.Person{{ID: "ann", Name: "Ann Dell", Weight: 1}, {ID: "bo", Name: "Bo", Weight: 1}}
	d := placed(t, p, date(t, tableDay))
	found, err := d.WhyWaiting(context.Background())
	if err != nil || len(found) != 1 || found[0].Person != "ann" {
		t.Fatalf("%+v, %v", found, err)
	}
	want := []string{
		"1 h between scenes 1 and 3: 20 min for scene 2, 5 min for moving kit, 10 min for the set-up of scene 3 and 25 min in which " +
			"nothing is made (scene 2 can't be sooner, it is pinned to 10:15; scene 3 can't be sooner, it is pinned to 11:00)",
		"It can't be less with these scenes",
	}
	if got := english(found[0].Words(d)); !slices.Equal(got, want) {
		t.Errorf("\n got %q\nwant %q", got, want)
	}
}

// evening is a day with a scene in the morning and one that wants the evening, for the same person.
func evening(t *testing.T) *plan.Plan {
	p := small(
		with(limited(t, plan.Scene{Number: "1", Shoot: 20}, "9:00", "10:00"), "ann"),
		with(plan.Scene{Number: "2", Shoot: 20, Wish: plan.Wish{Kind: plan.GoldenEvening}}, "ann"),
	)
	p.People = []plan.Person{{ID: "ann", Name: "Ann Dell", Weight: 1}}
	return p
}

// TestSpared: who waits for a light need not wait without it. Where waiting is dear, the best day does without, and the one
// with the light is told as another.
func TestSpared(t *testing.T) {
	p := evening(t)
	p.Shooting.Weights.Waiting, p.Shooting.Weights.Length = 0.01, 0
	d := placed(t, p, date(t, tableDay))
	found, err := d.WhyWaiting(context.Background())
	if err != nil || len(found) != 1 || found[0].Waits < 9*60 || found[0].Without == nil {
		t.Fatalf("%+v, %v", found, err)
	}
	if w := found[0].Without; w.Waits != 0 || !w.Proven || len(w.Cost.Light) != 1 || w.Cost.Light[0].Scene != "s2" || w.Cost.Light[0].Minutes < 19 {
		t.Errorf("spared: %+v", w)
	}
	if words := english(found[0].Words(d)); !strings.HasPrefix(words[1], "None of it need be: ") || !strings.Contains(words[1], "20 min less light: scene 2") {
		t.Errorf("%q", words)
	}

	p = evening(t) // nine and a half hours at 0.2 a minute are more than the 40 points of the light
	d = placed(t, p, date(t, tableDay))
	others, err := d.Others(context.Background())
	i := slices.IndexFunc(others, func(o Other) bool { return o.Kind == MostLight })
	if err != nil || i < 0 {
		t.Fatalf("%v, %v", others, err)
	}
	if o := others[i]; !o.Most || o.Loss.Light > 1e-6 || d.Loss.Light < 39 || o.Figures().KeptShare() < 0.999 {
		t.Errorf("most light keeps %v, the best day %v", o.Figures().KeptShare(), d.Figures().KeptShare())
	}
	if words := others[i].Words(d).String(); !strings.HasPrefix(words, "most light: ") || !strings.Contains(words, "20 min more light: scene 2") {
		t.Errorf("%q", words)
	}
}

// TestEarliestWrap: called at 4:00, shot at 4:30, wrapped 20 minutes after the scene, which is then in the dark: 20 points.
func TestEarliestWrap(t *testing.T) {
	p := small(plan.Scene{Number: "1", Shoot: 20, Importance: plan.Nice, Wish: plan.Wish{Kind: plan.GoldenEvening}})
	d := placed(t, p, date(t, tableDay))
	others, err := d.Others(context.Background())
	if err != nil || len(others) != 1 || !others[0].Most {
		t.Fatalf("%+v, %v", others, err)
	}
	if at := others[0].Sky.Clock(others[0].Sky.MinuteOf(others[0].Wrap)); at != clock(t, "5:10") {
		t.Errorf("wraps at %v", at)
	}
	if words := others[0].Words(d).String(); words != "earliest wrap: 20 points more: 20 min less light: scene 1" {
		t.Errorf("%q", words)
	}
}

// TestGainSentences: what the morning of a person costs the evening's scene, 40 points for a should, and what is not worth
// telling. A second day costs 150 points more than it takes, so that it is not bought for 40.
func TestGainSentences(t *testing.T) {
	p := evening(t)
	p.RemoveScene(0)
	p.People = ann(t, "9:00", "12:00")
	p.People[0].Availability = append(p.People[0].Availability, plan.Availability{Date: date(t, "2026-06-22")})
	p.Shooting.Dates = []plan.Date{date(t, tableDay), date(t, "2026-06-22")}
	d := placed(t, p, date(t, tableDay))
	told := func() (out []string) {
		found, err := d.Gains(context.Background())
		if err != nil {
			t.Error(err)
		}
		for _, g := range found {
			out = append(out, g.Words(d).String())
		}
		return out
	}
	if got, want := told(), []string{"have Ann Dell all day: gains 40 points: 20 min more light: scene 2"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	p.Shooting.Weights.Day, p.Shooting.Weights.Again = 10, 1000 // she comes once, on whichever day
	d = placed(t, p, date(t, tableDay))
	if got, want := told()[1:], []string{"add a second day on Mon 22 Jun 2026 for scene 2: gains 30 points"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestSecondDayKeepsTheOrder: a scene that must come after another can go to a later date, not to an earlier one.
func TestSecondDayKeepsTheOrder(t *testing.T) {
	for second, want := range map[string]int{"2026-06-20": 0, "2026-06-22": 1} {
		first := pinned(t, plan.Scene{Number: "1", Shoot: 20}, "21:00")
		third := must("2", 20, plan.GoldenEvening)
		third.After = []plan.ID{"s1"}
		p := small(first, third)
		p.Scenes[0].Pin.Date = date(t, tableDay)
		p.Shooting.Dates = []plan.Date{date(t, tableDay), date(t, second)}
		p.Scenes[0].Importance = plan.Must
		p.Scenes[1].Importance = plan.Should
		p.Scenes[1].To = clock(t, "20:30")
		d := placed(t, p, date(t, tableDay))
		found, err := d.Gains(context.Background())
		seconds := 0
		for _, g := range found {
			if g.Kind == SecondDate {
				seconds++
			}
		}
		if err != nil || len(d.LeftOut) != 1 || seconds != want {
			t.Errorf("second day on %s: %v left out, %d gains, %v", second, d.LeftOut, seconds, err)
		}
	}
}

func english(texts []say.Text) (out []string) {
	for _, t := range texts {
		out = append(out, t.String())
	}
	return out
}

// TestCompare: a difference is what it says, the other way round the same below 0, and worded with the most points first.
func TestCompare(t *testing.T) {
	p := demo(t)
	a := Figures{
		Light:   []SceneLight{{"lengths", 25, 25}, {"piano", 12, 20}, {"nook", 15, 15}},
		People:  []PersonWait{{"nina", 60}, {"theo", 30}, {"ivy", 5}},
		Moving:  20,
		LeftOut: []plan.ID{"toast", "fire", "dusk"},
		Loss:    Loss{Light: 8, Waiting: 19, Moves: 2, LeftOut: 2000},
	}
	b := Figures{
		Light:   []SceneLight{{"lengths", 17, 25}, {"piano", 20, 20}, {"toast", 20, 20}, {"fire", 2.5, 10}, {"dusk", 5, 5}},
		People:  []PersonWait{{"nina", 95}, {"theo", 30}, {"marek", 10}},
		Moving:  15,
		LeftOut: []plan.ID{"nook"},
		Loss:    Loss{Light: 16, Waiting: 26, Moves: 1.5, LeftOut: 100},
	}
	x, y := Compare(a, b), Compare(b, a)
	want := "scenes 11 and 14 find a place, scene 13 finds a place with 25 % of its light; scene 5 is left out; 8 min more light: scene 8, 8 min less light: scene 6; " +
		"40 min more waiting (Nina Valdry +35 min, Marek Osei-Dahl +10 min, Ivy Marchetti-Lund -5 min); 5 min less moving of kit"
	if got := x.Words(p).String(); got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
	if x.Points.Total() != -1885.5 || y.Points.Total() != 1885.5 || len(x.Light) != 2 || len(y.Waiting) != 3 || y.Moving != 5 {
		t.Errorf("%+v and back %+v", x, y)
	}
	if words := Compare(a, a).Words(p); !words.IsZero() {
		t.Errorf("a day differs from itself: %s", words)
	}
	if got := Beats(p, b, a).String(); got != "1886 points better: "+want+"; the same length" {
		t.Error(got)
	}
	if got := Beats(p, a, a).String(); got != "the same day; it is only earlier" {
		t.Error(got)
	}
}

func TestPointWords(t *testing.T) {
	for x, want := range map[float64]string{0: "0 points", 0.04: "0 points", 0.26: "0.3 points", 1: "1 point", 1.04: "1 point", 9.94: "9.9 points", 9.96: "10 points", 1558.7: "1559 points"} {
		if got := PointWords(x).String(); got != want {
			t.Errorf("%v is %q, want %q", x, got, want)
		}
	}
}

// dying is a context that ends after a number of looks at it, from wherever they come.
type dying struct {
	context.Context
	looks atomic.Int64
}

func (d *dying) Err() error {
	if d.looks.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// TestToldUntilTheEnd: what is told when the context ends is some of what is told in full, with the context's error; what
// has no day tells nothing.
func TestToldUntilTheEnd(t *testing.T) {
	p := demo(t)
	d := placed(t, p, date(t, "2027-10-16"))
	for name, tell := range map[string]func(context.Context, Day) ([]string, error){
		"here": func(ctx context.Context, d Day) (out []string, err error) {
			found, err := d.WhyHere(ctx)
			for _, h := range found {
				out = append(out, fmt.Sprint(h.Scene, h.Words(d)))
			}
			return out, err
		},
		"waiting": func(ctx context.Context, d Day) (out []string, err error) {
			found, err := d.WhyWaiting(ctx)
			for _, w := range found {
				out = append(out, fmt.Sprint(w.Person, w.Words(d)))
			}
			return out, err
		},
		"freeing": func(ctx context.Context, d Day) (out []string, err error) {
			found, err := d.Freeing(ctx)
			for _, f := range found {
				for _, c := range f.Changes {
					out = append(out, c.Words(d).String())
				}
			}
			return out, err
		},
		"gains": func(ctx context.Context, d Day) (out []string, err error) {
			found, err := d.Gains(ctx)
			for _, g := range found {
				out = append(out, g.Words(d).String())
			}
			return out, err
		},
		"others": func(ctx context.Context, d Day) (out []string, err error) {
			found, err := d.Others(ctx)
			for _, o := range found {
				out = append(out, o.Words(d).String())
			}
			return out, err
		},
	} {
		full, err := tell(context.Background(), d)
		if err != nil || len(full) == 0 {
			t.Errorf("%s: %q, %v", name, full, err)
		}
		for _, looks := range []int64{0, 3, 40, 200, 700} {
			ctx := &dying{Context: context.Background()}
			ctx.looks.Store(looks)
			some, err := tell(ctx, d)
			if ended := ctx.looks.Load() < 0; ended && !errors.Is(err, context.Canceled) || !ended && len(some) != len(full) || looks == 0 && len(some) > 0 {
				t.Errorf("%s, %d looks: %q, %v", name, looks, some, err)
			}
			for _, s := range some {
				if !slices.Contains(full, s) {
					t.Errorf("%s, %d looks: told %q, in full %q", name, looks, s, full)
				}
			}
		}
		if none, err := tell(context.Background(), Day{}); err != nil || len(none) > 0 {
			t.Errorf("%s of no day: %q, %v", name, none, err)
		}
	}
}

// TestToldOfTheDayAsItWas: what is done to the plan after placing changes nothing in what is told.
func TestToldOfTheDayAsItWas(t *testing.T) {
	p := evening(t)
	d := placed(t, p, date(t, tableDay))
	before, err := d.WhyHere(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	p.Scenes[1].Pin, p.People[0].Weight = plan.Pin{Start: clock(t, "12:00")}, 50
	p.RemoveScene(0)
	after, err := d.WhyHere(context.Background())
	if err != nil || len(after) != len(before) {
		t.Fatalf("%v, %v", after, err)
	}
	for i := range before {
		if a, b := english(before[i].Words(d)), english(after[i].Words(d)); !slices.Equal(a, b) {
			t.Errorf("%q, then %q", a, b)
		}
	}
}

// BenchmarkTold is all that --why asks of the demo.
func BenchmarkTold(b *testing.B) {
	d := placed(b, demo(b), date(b, "2027-10-16"))
	ctx := context.Background()
	for b.Loop() {
		_, e1 := d.WhyHere(ctx)
		_, e2 := d.WhyWaiting(ctx)
		_, e3 := d.Freeing(ctx)
		_, e4 := d.Gains(ctx)
		_, e5 := d.Others(ctx)
		if err := errors.Join(e1, e2, e3, e4, e5); err != nil {
			b.Fatal(err)
		}
	}
}
