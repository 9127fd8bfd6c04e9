package day

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"eavelight/plan"

	"pgregory.net/rapid"
)

// sites are places with all kinds of light and clocks.
var sites = []struct {
	pos  plan.Position
	zone string
}{
	{plan.Position{Lat: 34.0522, Lon: -118.2437}, "America/Los_Angeles"},
	{plan.Position{Lat: -36.8485, Lon: 174.7633}, "Pacific/Auckland"},
	{plan.Position{Lat: 64.1466, Lon: -21.9426}, "Atlantic/Reykjavik"},
	{plan.Position{Lat: 78.2232, Lon: 15.6267}, "Arctic/Longyearbyen"},
	{plan.Position{Lat: 27.7172, Lon: 85.3240}, "Asia/Kathmandu"},
	{plan.Position{Lat: -31.55, Lon: 159.08}, "Australia/Lord_Howe"}, // its clock changes by half an hour
	{plan.Position{Lat: -33.45, Lon: -70.67}, "America/Santiago"},    // its clock changes at midnight
	{plan.Position{Lat: 90, Lon: 0}, "UTC"},
}

// dates are ordinary ones, solstices, days of 23, 23.5, 24.5 and 25 hours, a leap day, a date that Samoa never had.
var dates = []string{"2026-03-08", "2026-11-01", "2026-06-21", "2026-12-21", "2026-04-05", "2026-09-06", "2026-09-27", "2026-10-04",
	"2028-02-29", "2027-10-16", "2011-12-30", "1900-01-01", "2100-12-31"}

func anyPlan(t *rapid.T, step plan.Minutes) plan.Plan {
	p := plan.New()
	site := rapid.SampledFrom(sites).Draw(t, "site")
	p.Property.Position, p.Property.Zone = &site.pos, site.zone
	p.Property.Faces = []plan.Face{{ID: "east", Bearing: 80}, {ID: "west", Bearing: 260}}
	p.Property.Skyline = []plan.SkyPoint{{Bearing: 90, Altitude: 3}, {Bearing: 270, Altitude: 1}}
	p.Property.Spaces = []plan.Space{{ID: "hall", Faces: []plan.ID{"east", "west"}, Head: 2.4}, {ID: "lawn"}, {ID: "air"}}
	minutes := func(name string, most plan.Minutes) plan.Minutes {
		return step * plan.Minutes(rapid.IntRange(0, int(most/step)).Draw(t, name))
	}
	p.Property.Moves = []plan.Move{{From: "hall", To: "lawn", Minutes: minutes("move", 20)}}
	r := &p.Shooting
	r.Grid = rapid.SampledFrom([]plan.Minutes{1, 5, 5, 5, 7, 15, 60}).Draw(t, "grid")
	if step == 5 {
		r.Grid = 5
	}
	r.Prepare, r.Ready, r.PackUp = minutes("prepare", 40), minutes("ready", 60), minutes("pack-up", 30)
	r.Longest = step + minutes("longest", 15*60)
	r.MealWithin, r.MealLength = max(step, minutes("meal within", 400)), minutes("meal length", 60)
	if r.MealWithin < 60 {
		r.MealWithin += 60 // a meal every few minutes is TestBadFigures' matter
	}
	r.MealApart = min(r.MealApart, r.MealWithin)
	r.LatestWrap = rapid.SampledFrom([]plan.Clock{{}, plan.ClockAt(20 * 60), plan.ClockAt(24 * 60), plan.ClockAt(26 * 60), plan.ClockAt(36 * 60)}).Draw(t, "wrap")
	p.People = anyPeople(t)
	for i := range rapid.IntRange(0, 5).Draw(t, "scenes") {
		p.Scenes = append(p.Scenes, anyScene(t, i, minutes))
	}
	if rapid.Bool().Draw(t, "rich") {
		enrich(t, &p, minutes)
	}
	return p
}

// enrich adds what a plan may say beyond the plainest: lightings, looks, hours, hired kit, overtime.
func enrich(t *rapid.T, p *plan.Plan, minutes func(string, plan.Minutes) plan.Minutes) {
	for i := range p.People {
		q := &p.People[i]
		q.Change = minutes("change", 30)
		if rapid.Bool().Draw(t, "limited") {
			q.Longest, q.Work = minutes("at most there", 6*60), minutes("at most filmed", 120)
		}
	}
	p.Shooting.Overtime = []plan.Overtime{{After: 60 + minutes("overtime", 600), Points: 10}}
	p.Shooting.Kit = []plan.Kit{{Name: "crane", Availability: []plan.Availability{{From: plan.ClockAt(600), To: plan.ClockAt(900)}}}}
	for i := range p.Scenes {
		s := &p.Scenes[i]
		s.Lights = rapid.SampledFrom([]string{"", "lamps", "candles"}).Draw(t, "lighting")
		if rapid.IntRange(0, 3).Draw(t, "crane") == 0 {
			s.Kit = []string{"crane"}
		}
		for _, who := range s.People {
			if look := rapid.SampledFrom([]string{"", "gown", "linen"}).Draw(t, "look"); look != "" {
				s.Looks = append(s.Looks, plan.Look{Person: who, Look: look})
			}
		}
		if rapid.IntRange(0, 4).Draw(t, "values") == 0 {
			s.Wish = plan.Wish{}
			s.Values = []plan.Value{{From: plan.ClockAt(500), To: plan.ClockAt(700), Share: 0.5}, {From: plan.ClockAt(700), To: plan.ClockAt(800), Share: 1}}
		}
	}
}

func anyPeople(t *rapid.T) []plan.Person {
	ids := []plan.ID{"ann", "bo", "cy", "dee"}
	var out []plan.Person
	for i, id := range ids {
		q := plan.Person{ID: id, Weight: rapid.SampledFrom([]float64{0, 1, 1, 2.5}).Draw(t, "weight")}
		q.Role = rapid.SampledFrom([]plan.Role{"", plan.Talent, plan.Talent, plan.Crew, plan.Client}).Draw(t, "role")
		if q.Minor = rapid.IntRange(0, 3).Draw(t, "minor") == 0; q.Minor && i > 0 {
			q.Guardian = ids[0]
			if rapid.Bool().Draw(t, "by birth") {
				q.Minor, q.Born = false, plan.Date{Year: 2019, Month: 6, Day: 30}
			}
		}
		for range max(0, rapid.IntRange(-3, 3).Draw(t, "stretches")) {
			from := 5 * rapid.IntRange(0, 250).Draw(t, "from")
			q.Availability = append(q.Availability, plan.Availability{From: plan.ClockAt(from), To: plan.ClockAt(from + 5*rapid.IntRange(1, 150).Draw(t, "length"))})
		}
		out = append(out, q)
	}
	return out
}

func anyScene(t *rapid.T, i int, minutes func(string, plan.Minutes) plan.Minutes) plan.Scene {
	s := plan.Scene{ID: plan.ID(fmt.Sprintf("s%d", i)), Number: fmt.Sprint(i), Shoot: minutes("shoot", 90), Setup: minutes("set-up", 40)}
	s.Space = rapid.SampledFrom([]plan.ID{"", "hall", "lawn", "air"}).Draw(t, "space")
	s.Importance = rapid.SampledFrom([]plan.Importance{"", plan.Must, plan.Should, plan.Nice}).Draw(t, "importance")
	s.Wish.Kind = rapid.SampledFrom(plan.WishKinds).Draw(t, "wish")
	if slices.Contains(s.Wish.Kind.Uses(), plan.FigureFace) && rapid.Bool().Draw(t, "face") {
		s.Wish.Face = "west"
	}
	if slices.Contains(s.Wish.Kind.Uses(), plan.FigureCamera) && rapid.Bool().Draw(t, "camera") {
		s.Wish.Camera = new(plan.Bearing(200))
	}
	for _, who := range []plan.ID{"ann", "bo", "cy", "dee"} {
		if rapid.IntRange(0, 2).Draw(t, "in") == 0 {
			s.People = append(s.People, who)
		}
	}
	switch rapid.IntRange(0, 7).Draw(t, "clock") {
	case 0:
		s.Pin.Start = plan.ClockAt(int(minutes("pin", plan.LastClock)))
	case 1:
		s.From = plan.ClockAt(int(minutes("from", 20*60)))
	case 2:
		s.To = plan.ClockAt(60 + int(minutes("to", 30*60)))
	}
	if i > 0 && rapid.IntRange(0, 4).Draw(t, "after") == 0 {
		s.After = []plan.ID{"s0"}
	}
	return s
}

// TestAnyPlan: whatever a plan says that Validate lets pass, its day keeps every rule (check), is the same the second time,
// and the solver's judge agrees.
func TestAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]plan.Minutes{1, 5}).Draw(t, "step")
		p := anyPlan(t, step)
		if wrong := plan.Validate(p); len(wrong) > 0 {
			t.Fatalf("the generator makes bad plans: %v", wrong)
		}
		on, err := plan.ParseDate(rapid.SampledFrom(dates).Draw(t, "date"))
		if err != nil {
			t.Fatal(err)
		}
		d, err := Place(context.Background(), &p, on)
		if err != nil {
			t.Fatal(err)
		}
		faults := check(&p, d)
		if step == 5 && oneStretchEach(p, on) {
			checkLoss(&p, d, func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) })
		}
		for _, f := range faults {
			t.Error(f)
		}
		if err := judged(&p, on); err != nil {
			t.Error(err)
		}
		again, err := Place(context.Background(), &p, on)
		if err != nil || fmt.Sprint(again.Scenes, again.Loss, again.LeftOut, again.Problems) != fmt.Sprint(d.Scenes, d.Loss, d.LeftOut, d.Problems) {
			t.Errorf("another day the second time: %v", err)
		}
	})
}

// oneStretchEach: a gap in which somebody is away is no waiting for them, but the solver charges it.
func oneStretchEach(p plan.Plan, on plan.Date) bool {
	return !slices.ContainsFunc(p.People, func(q plan.Person) bool { return len(q.Availability) > 1 })
}
