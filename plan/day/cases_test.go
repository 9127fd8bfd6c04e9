package day

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/light"
	"eavelight/plan/place"
)

func sound(t *testing.T, name string, p *plan.Plan, d Day) {
	t.Helper()
	for _, f := range check(p, d) {
		t.Errorf("%s: %s", name, f)
	}
}

func scene(t testing.TB, p *plan.Plan, id plan.ID) *plan.Scene {
	t.Helper()
	for i := range p.Scenes {
		if p.Scenes[i].ID == id {
			return &p.Scenes[i]
		}
	}
	t.Fatalf("no scene %s", id)
	return nil
}

func at(t testing.TB, d Day, id plan.ID) (Placed, bool) {
	t.Helper()
	i := slices.IndexFunc(d.Scenes, func(s Placed) bool { return s.Scene == id })
	if i < 0 {
		return Placed{}, false
	}
	return d.Scenes[i], true
}

// TestPinsAreKept: to the minute, on the grid and off it, alone and together; on another date they fix nothing.
func TestPinsAreKept(t *testing.T) {
	on := date(t, "2027-10-16")
	for name, pins := range map[string]map[plan.ID]string{
		"on the grid":   {"lengths": "13:00"},
		"off the grid":  {"nook": "15:07"},
		"two, off":      {"lengths": "13:02", "drawing": "11:04"},
		"out of light":  {"coffee": "9:40"}, // a must, pinned outside its light: the hand is stronger
		"before dinner": {"dressing": "16:33"},
	} {
		p := demo(t)
		for id, c := range pins {
			scene(t, p, id).Pin = plan.Pin{Date: on, Start: clock(t, c)}
		}
		d := placed(t, p, on)
		sound(t, name, p, d)
		for id, c := range pins {
			if s, ok := at(t, d, id); !ok || !s.Pinned || d.Sky.Clock(d.Sky.MinuteOf(s.Start)) != clock(t, c) {
				t.Errorf("%s: %s is pinned to %s and starts at %v", name, id, c, s.Start.In(d.Zone))
			}
		}
		if err := judged(p, on); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		other := placed(t, p, date(t, "2027-10-09"))
		sound(t, name, p, other)
		if slices.ContainsFunc(other.Scenes, func(s Placed) bool { return s.Pinned }) {
			t.Errorf("%s: pinned on another date too", name)
		}
	}
}

// small is a plan of one house in Los Angeles with nothing in it but the scenes: no moves, no meal, short ends.
func small(scenes ...plan.Scene) *plan.Plan {
	p := plan.New()
	p.Property.Position = &plan.Position{Lat: 34.0522, Lon: -118.2437}
	p.Property.Zone = "America/Los_Angeles"
	p.Property.Faces = []plan.Face{{ID: "west", Bearing: 270}}
	p.Property.Spaces = []plan.Space{{ID: "room", Faces: []plan.ID{"west"}, Head: 2.4}, {ID: "garden"}}
	p.Shooting.MealLength, p.Shooting.MealApart = 0, 0
	for i, s := range scenes {
		if s.ID == "" {
			s.ID = plan.ID("s" + s.Number)
		}
		scenes[i] = s
	}
	p.Scenes = scenes
	return &p
}

// TestClockChange: a scene pinned by the wall clock on the day when the clock changes, with a grid of which the change is no
// multiple, starts when the wall clock shows that. An hour of the 23 is missing, and the day still fits.
func TestClockChange(t *testing.T) {
	for _, day := range []string{"2026-03-08", "2026-11-01"} {
		for _, grid := range []plan.Minutes{1, 5, 7, 45, 60} {
			p := small(
				plan.Scene{Number: "1", Shoot: 20, Pin: plan.Pin{Start: clock(t, "18:00")}},
				plan.Scene{Number: "2", Shoot: 30, Setup: 10, From: clock(t, "9:00"), To: clock(t, "10:30")},
				plan.Scene{Number: "3", Shoot: 10, Wish: plan.Wish{Kind: plan.GoldenEvening}},
			)
			p.Shooting.Grid = grid
			d := placed(t, p, date(t, day))
			sound(t, day, p, d)
			if _, ok := at(t, d, "s1"); !ok {
				t.Errorf("%s, grid %d: the pinned scene is left out: %v", day, grid, d.LeftOut)
			}
		}
	}
}

// TestPolarDays: at Longyearbyen in June every hour is day, and golden light never comes; in December every hour is night.
func TestPolarDays(t *testing.T) {
	for _, c := range []struct {
		day           string
		comes, missed plan.WishKind
	}{
		{"2026-06-21", plan.Daylight, plan.GoldenEvening}, {"2026-06-21", plan.Daylight, plan.Dark},
		{"2026-12-21", plan.Dark, plan.Daylight}, {"2026-12-21", plan.Dark, plan.Sunrise},
	} {
		p := small(
			plan.Scene{Number: "1", Shoot: 20, Importance: plan.Must, Wish: plan.Wish{Kind: c.comes}},
			plan.Scene{Number: "2", Shoot: 20, Importance: plan.Must, Wish: plan.Wish{Kind: c.missed}},
			plan.Scene{Number: "3", Shoot: 20, Wish: plan.Wish{Kind: c.missed}},
		)
		p.Property.Position = &plan.Position{Lat: 78.2232, Lon: 15.6267}
		p.Property.Zone = "Arctic/Longyearbyen"
		d := placed(t, p, date(t, c.day))
		sound(t, c.day, p, d)
		if s, ok := at(t, d, "s1"); !ok || s.Kept != 1 {
			t.Errorf("%s: %s keeps %v", c.day, c.comes, s.Kept)
		}
		if _, ok := at(t, d, "s2"); ok || len(d.LeftOut) != 1 || d.LeftOut[0].Why.Code != plan.NeverLight {
			t.Errorf("%s: %s left out with %v", c.day, c.missed, d.LeftOut)
		}
		if s, ok := at(t, d, "s3"); !ok || s.Kept != 0 || len(d.Problems.Under("scenes[2]")) != 1 {
			t.Errorf("%s: %s keeps %v, with %v", c.day, c.missed, s.Kept, d.Problems)
		}
	}
}

// TestPastMidnight: Reykjavik's midsummer sun sets four minutes after midnight; the golden light goes on, and a day that may
// wrap at 26:00 uses it.
func TestPastMidnight(t *testing.T) {
	p := small(
		plan.Scene{Number: "1", Shoot: 20, Importance: plan.Must, Wish: plan.Wish{Kind: plan.GoldenEvening}, From: clock(t, "24:10")},
		plan.Scene{Number: "2", Shoot: 20, Importance: plan.Must, Wish: plan.Wish{Kind: plan.Sunset}},
		plan.Scene{Number: "3", Shoot: 20, Pin: plan.Pin{Start: clock(t, "25:05")}},
	)
	p.Property.Position = &plan.Position{Lat: 64.1466, Lon: -21.9426}
	p.Property.Zone = "Atlantic/Reykjavik"
	p.Shooting.LatestWrap = clock(t, "26:00")
	d := placed(t, p, date(t, "2026-06-21"))
	sound(t, "26:00", p, d)
	if len(d.LeftOut) > 0 {
		t.Errorf("left out: %v", d.LeftOut)
	}
	if s, _ := at(t, d, "s3"); plan.DateOf(s.Start.In(d.Zone)) != date(t, "2026-06-22") {
		t.Errorf("25:05 is %v", s.Start)
	}
	p.Shooting.LatestWrap = clock(t, "24:00")
	d = placed(t, p, date(t, "2026-06-21"))
	sound(t, "24:00", p, d)
	if _, ok := at(t, d, "s1"); ok {
		t.Error("a scene after the latest wrap")
	}
}

// TestCallsAndWrap: the day begins with the first set-up, which may reach back before the earliest call allows: then the
// scene waits.
func TestCallsAndWrap(t *testing.T) {
	p := small(plan.Scene{Number: "1", Setup: 60, Shoot: 20, From: clock(t, "5:00"), To: clock(t, "6:00")})
	p.Shooting.Prepare, p.Shooting.EarliestCall = 30, clock(t, "4:00")
	d := placed(t, p, date(t, "2026-06-21"))
	sound(t, "set-up", p, d)
	if s, ok := at(t, d, "s1"); !ok || d.Sky.Clock(d.Sky.MinuteOf(s.Start)) != clock(t, "5:30") || d.Sky.Clock(d.Sky.MinuteOf(d.Call)) != clock(t, "4:00") {
		t.Errorf("starts at %v, call %v", s.Start.In(d.Zone), d.Call.In(d.Zone))
	}
	if d.Length() != 30+60+20+20 {
		t.Errorf("the day is %v", d.Length())
	}
}

// TestLimitsBetweenLines: limits that lie between two lines of the grid are kept to the minute.
func TestLimitsBetweenLines(t *testing.T) {
	for name, change := range map[string]func(*plan.Plan){
		"call":   func(p *plan.Plan) { p.Shooting.EarliestCall, p.Scenes[0].To = clock(t, "9:03"), clock(t, "10:00") },
		"wrap":   func(p *plan.Plan) { p.Shooting.LatestWrap, p.Scenes[0].From = clock(t, "11:58"), clock(t, "11:05") },
		"length": func(p *plan.Plan) { p.Shooting.Longest = 68 },
	} {
		p := small(plan.Scene{Number: "1", Shoot: 20}, plan.Scene{Number: "2", Shoot: 20, Importance: plan.Nice})
		p.Shooting.Prepare, p.Shooting.PackUp, p.Shooting.Grid = 15, 15, 5
		change(p)
		p.Scenes[1].From, p.Scenes[1].To = p.Scenes[0].From, p.Scenes[0].To
		d := placed(t, p, date(t, "2026-06-21"))
		sound(t, name, p, d)
		if len(d.Scenes) == 0 {
			t.Errorf("%s: nothing placed: %v", name, d.LeftOut)
		}
	}
}

// TestAbsencesInOrder: a meal after somebody's time away, and one before it.
func TestAbsencesInOrder(t *testing.T) {
	on := date(t, "2026-06-21")
	p := small()
	m := newModel(p, light.NewSky(p, Zone(p), on), on)
	span := func(from, to string) plan.Span {
		return plan.Span{From: plan.Instant(on, clock(t, from), Zone(p)), To: plan.Instant(on, clock(t, to), Zone(p))}
	}
	ann := plan.Person{Availability: []plan.Availability{{From: clock(t, "8:00"), To: clock(t, "12:00")}, {From: clock(t, "15:00"), To: clock(t, "20:00")}}}
	pr := Presence{OnCamera: []OnCamera{{"s1", span("9:00", "10:00")}, {"s2", span("18:00", "18:30")}}}
	pr.wait(m.absences(&Day{Meals: []plan.Span{span("10:30", "11:15"), span("16:00", "16:45")}}, ann))
	want := []plan.Span{span("10:00", "10:30"), span("11:15", "12:00"), span("15:00", "16:00"), span("16:45", "18:00")}
	if pr.Waits != 30+45+60+75 || len(pr.Waiting) != len(want) {
		t.Fatalf("waits %v: %v", pr.Waits, pr.Waiting)
	}
	for i, w := range want {
		if !pr.Waiting[i].From.Equal(w.From) || !pr.Waiting[i].To.Equal(w.To) {
			t.Errorf("waiting %v, want %v", pr.Waiting[i], w)
		}
	}
}

// TestMealBetween: a long day has a meal between its two scenes; the move is drawn after it, and nobody waits through it.
func TestMealBetween(t *testing.T) {
	p := small(
		plan.Scene{Number: "1", Shoot: 60, Space: "room", People: []plan.ID{"ann", "gus"}, Pin: plan.Pin{Start: clock(t, "9:00")}},
		plan.Scene{Number: "2", Shoot: 60, Space: "garden", People: []plan.ID{"ann", "gus"}, Pin: plan.Pin{Start: clock(t, "15:00")}},
	)
	p.People = []plan.Person{{ID: "ann", Weight: 1}, {ID: "gus", Weight: 1, Role: plan.Crew}, {ID: "kai", Role: plan.Crew}, {ID: "lou", Role: plan.Client}}
	p.Shooting.MealLength, p.Shooting.Longest = 45, 10*60 // a day of up to twice six hours has one meal
	d := placed(t, p, date(t, "2026-06-21"))
	sound(t, "meal", p, d)
	ann, _ := d.Presence("ann")
	if len(d.Meals) != 1 || len(d.Moves) != 1 || ann.Waits != 5*60-45 {
		t.Errorf("meals %v, moves %v, ann waits %v", d.Meals, d.Moves, ann.Waits)
	}
	// gus is in the same scenes, but as one of the crew he works between them, and nothing is lost by it
	if gus, _ := d.Presence("gus"); gus.Waits != 0 || gus.Filmed != 120 || d.Loss.Waiting != 0.2*float64(ann.Waits) {
		t.Errorf("gus waits %v, waiting loses %v", gus.Waits, d.Loss.Waiting)
	}
	if _, ok := d.Presence("lou"); ok {
		t.Error("the client is called, without a scene")
	}
}

// TestAwayBetween: somebody free in the morning and again in the evening is not waiting in between.
func TestAwayBetween(t *testing.T) {
	p := small(
		plan.Scene{Number: "1", Shoot: 60, People: []plan.ID{"ann"}, Pin: plan.Pin{Start: clock(t, "9:00")}},
		plan.Scene{Number: "2", Shoot: 60, People: []plan.ID{"ann"}, Pin: plan.Pin{Start: clock(t, "15:00")}},
	)
	on := date(t, "2026-06-21")
	p.People = []plan.Person{{ID: "ann", Weight: 1, Availability: []plan.Availability{
		{Date: on, From: clock(t, "14:30"), To: clock(t, "18:00")}, {Date: on, From: clock(t, "8:00"), To: clock(t, "10:10")}}}}
	d := placed(t, p, on)
	sound(t, "away", p, d)
	if ann, _ := d.Presence("ann"); ann.Waits != 10+30 {
		t.Errorf("ann waits %v: %v", ann.Waits, ann.Waiting)
	}
}

// TestBadFigures: a plan that Validate lets pass gives a day or problems, never an error.
func TestBadFigures(t *testing.T) {
	for name, change := range map[string]func(*plan.Shooting){
		"no latest wrap":              func(s *plan.Shooting) { s.LatestWrap = plan.NoClock },
		"no earliest call":            func(s *plan.Shooting) { s.EarliestCall = plan.NoClock },
		"a day between two lines":     func(s *plan.Shooting) { s.EarliestCall, s.LatestWrap = plan.ClockAt(1438), plan.ClockAt(1439) },
		"a meal rule below the grid":  func(s *plan.Shooting) { s.Grid, s.MealWithin, s.MealLength = 60, 30, 10 },
		"a meal a minute":             func(s *plan.Shooting) { s.MealWithin, s.MealLength = 1, 1 },
		"a day shorter than the grid": func(s *plan.Shooting) { s.Grid, s.Longest = 60, 30 },
		"the largest weights": func(s *plan.Shooting) {
			s.Weights, s.Grid = plan.Weights{Light: 1e6, Waiting: 1e6, Minor: 1e6, Moving: 1e6, Length: 1e6, LeftOut: 1e6}, 60
		},
		"no weights": func(s *plan.Shooting) { s.Weights = plan.Weights{} },
		"up to noon": func(s *plan.Shooting) { s.LatestWrap, s.Longest = plan.ClockAt(plan.LastClock), 36*60 },
		"from night": func(s *plan.Shooting) {
			s.EarliestCall, s.LatestWrap = plan.ClockAt(30*60), plan.ClockAt(plan.LastClock)
		},
		"wraps early": func(s *plan.Shooting) { s.EarliestCall, s.LatestWrap = plan.ClockAt(0), plan.ClockAt(1) },
	} {
		p := small(
			plan.Scene{Number: "1", Shoot: 20, Setup: 10, Space: "room", People: []plan.ID{"ann"}, Importance: plan.Must},
			plan.Scene{Number: "2", Shoot: 2160, Space: "garden", People: []plan.ID{"ann"}, Wish: plan.Wish{Kind: plan.GoldenMorning}},
			plan.Scene{Number: "3", Shoot: 20, Space: "garden", People: []plan.ID{"ann"}, Wish: plan.Wish{Kind: plan.GoldenMorning}},
		)
		p.People = []plan.Person{{ID: "ann", Weight: 1000, Minor: true}}
		change(&p.Shooting)
		if wrong := plan.Validate(*p); len(wrong) > 0 {
			t.Fatalf("%s: %v", name, wrong)
		}
		for _, day := range []string{"2026-06-21", "2026-03-08", "1900-01-01", "2100-12-31"} {
			d, err := Place(context.Background(), p, date(t, day))
			if err != nil {
				t.Errorf("%s, %s: %v", name, day, err)
				continue
			}
			sound(t, name+", "+day, p, d)
		}
	}
}

// TestLacking: what a day cannot do without comes as problems.
func TestLacking(t *testing.T) {
	codes := func(ps plan.Problems) (out []plan.Code) {
		for _, p := range ps {
			out = append(out, p.Code)
		}
		return out
	}
	on := date(t, "2026-06-21")
	for _, c := range []struct {
		name   string
		change func(*plan.Plan)
		want   []plan.Code
	}{
		{"all there", func(p *plan.Plan) {}, nil},
		{"no position", func(p *plan.Plan) { p.Property.Position = nil }, []plan.Code{plan.LackPosition}},
		{"no zone", func(p *plan.Plan) { p.Property.Zone = "" }, []plan.Code{plan.LackZone}},
		{"neither", func(p *plan.Plan) { p.Property.Position, p.Property.Zone = nil, "" }, []plan.Code{plan.LackPosition, plan.LackZone}},
		{"no date", func(p *plan.Plan) { p.Shooting.Dates = nil }, []plan.Code{plan.LackDates}},
		{"nothing at all", func(p *plan.Plan) { *p = plan.New() }, []plan.Code{plan.LackPosition, plan.LackZone, plan.LackDates}},
		{"a bad zone", func(p *plan.Plan) { p.Property.Zone = "Mars/Olympus" }, []plan.Code{plan.BadZone}},
		{"no scene", func(p *plan.Plan) { p.Scenes = nil }, nil},
		{"65 scenes", func(p *plan.Plan) {
			for range 64 {
				p.AddScene(0)
			}
		}, []plan.Code{plan.TooManyScenes}},
	} {
		p := small(plan.Scene{Number: "1", Shoot: 20})
		p.Shooting.Dates = []plan.Date{on}
		c.change(p)
		d, err := Chosen(context.Background(), p)
		if err != nil || !slices.Equal(codes(d.Problems), c.want) {
			t.Errorf("%s: %v %v, want %v", c.name, d.Problems, err, c.want)
		}
	}
}

// TestBestDate: the chosen date, or the one that loses least, the earlier of equals.
func TestBestDate(t *testing.T) {
	p := demo(t)
	var days []Day
	if err := Dates(context.Background(), p, func(d Day) { days = append(days, d) }); err != nil || len(days) != 3 {
		t.Fatalf("%d days, %v", len(days), err)
	}
	best, ok := Best(p, days)
	for _, d := range days {
		if !ok || d.Loss.Total() < best.Loss.Total() {
			t.Errorf("%s loses less than %s", d.Date, best.Date)
		}
	}
	if got, err := Chosen(context.Background(), p); err != nil || got.Date != best.Date {
		t.Errorf("chosen %v, %v", got.Date, err)
	}
	p.Shooting.Date = date(t, "2027-10-09")
	if best, ok := Best(p, days); !ok || best.Date != p.Shooting.Date {
		t.Errorf("best %v, chosen by hand %v", best.Date, p.Shooting.Date)
	}
	p.Shooting.Date = date(t, "2027-11-20")
	if got := Candidates(p); len(got) != 4 || got[3] != p.Shooting.Date {
		t.Errorf("candidates %v", got)
	}
	same := []Day{{Date: date(t, "2027-10-16")}, {Date: date(t, "2027-10-23")}}
	if got, _ := Best(p, same); got.Date != same[0].Date {
		t.Errorf("of equals, %v", got.Date)
	}
	if _, ok := Best(p, nil); ok {
		t.Error("the best of no day")
	}
}

// TestCancelled: an ended context gives the best so far, legal and marked as not proven, or its error; Dates stops with it.
func TestCancelled(t *testing.T) {
	p := demo(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	d, err := Place(ctx, p, date(t, "2027-10-16"))
	if err != nil && !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	if err == nil {
		sound(t, "cancelled", p, d)
		if unproven := slices.ContainsFunc(d.Problems, func(p plan.Problem) bool { return p.Code == plan.NoBound }); unproven != (d.Status != place.Proven) {
			t.Errorf("%v, with %v", d.Status, d.Problems)
		}
	}
	if err := Dates(ctx, p, func(d Day) { t.Errorf("%s handed over after the end", d.Date) }); !errors.Is(err, context.Canceled) {
		t.Errorf("Dates ends with %v", err)
	}
	if _, err := Chosen(ctx, p); !errors.Is(err, context.Canceled) {
		t.Errorf("Chosen ends with %v", err)
	}
}

// TestSameAgain: the same plan and date give the same day, and the plan stays as it was.
func TestSameAgain(t *testing.T) {
	p, before := demo(t), demo(t)
	on := date(t, "2027-10-16")
	a, b := placed(t, p, on), placed(t, p, on)
	a.Sky, b.Sky = nil, nil // holds the zone, which is loaded anew
	a.Zone, b.Zone = time.UTC, time.UTC
	if !reflect.DeepEqual(a.Loss, b.Loss) || !reflect.DeepEqual(a.LeftOut, b.LeftOut) || len(a.Scenes) != len(b.Scenes) {
		t.Error("another day the second time")
	}
	for i := range a.Scenes {
		if a.Scenes[i].Scene != b.Scenes[i].Scene || !a.Scenes[i].Start.Equal(b.Scenes[i].Start) {
			t.Errorf("%+v, then %+v", a.Scenes[i], b.Scenes[i])
		}
	}
	if !reflect.DeepEqual(p, before) {
		t.Error("placing changed the plan")
	}
}

// BenchmarkDemo places the demo plan: on one date, and on all three.
func BenchmarkDemo(b *testing.B) {
	p := demo(b)
	b.Run("one date", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			placed(b, p, date(b, "2027-10-16"))
		}
	})
	b.Run("all dates", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if err := Dates(context.Background(), p, func(Day) {}); err != nil {
				b.Fatal(err)
			}
		}
	})
}
