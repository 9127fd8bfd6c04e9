package papers

import (
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// All of the plans here are invented, as are their people. Phone numbers are from the range kept for fiction
// (North American Numbering Plan, 555-0100 to 555-0199).

var madeAt = time.Date(2027, 3, 2, 22, 5, 0, 0, time.UTC)

// demo is a plan as a small business would have it: twelve scenes, nine people, one day.
func demo(t testing.TB) (plan.Plan, day.Day) {
	t.Helper()
	p := plan.New()
	p.Title = "A day at Quillfern House"
	p.Brief = plan.Brief{Client: "Tallmoss Homes", Agent: "Dora Wexhall", Notes: "PRIVATE brief", Budget: plan.Money{Currency: "USD"},
		Purpose:      "Show a house that a family fills from morning to night",
		Deliverables: []plan.Deliverable{{Name: "Film", Seconds: 90, Format: "UHD, 24 fps"}, {Name: "Short cut", Seconds: 30, Scenes: []plan.ID{"s2", "s9"}}, {Name: "Stills", Stills: 12}}}
	p.Property = plan.Property{
		Name: "Quillfern House", Address: "418 Sandgrouse Lane, Lower Marl", Zone: "America/Los_Angeles",
		Position:  &plan.Position{Lat: 34.1234, Lon: -116.4321},
		Faces:     []plan.Face{{ID: "east", Name: "east face", Bearing: 92}, {ID: "west", Name: "garden face", Bearing: 268}},
		Obstacles: []plan.Obstacle{{Name: "ridge", Height: 20, Distance: 700, From: 240, To: 290}},
		Spaces: []plan.Space{
			{ID: "bedroom", Name: "Bedroom", Kind: plan.Indoor, Faces: []plan.ID{"east"}, Head: 2.2},
			{ID: "kitchen", Name: "Kitchen", Kind: plan.Indoor, Faces: []plan.ID{"east"}, Head: 2.2, Safety: "hot stove during scene 3; the cook alone handles it"},
			{ID: "terrace", Name: "Terrace", Kind: plan.Outdoor, Faces: []plan.ID{"west"}, Safety: "loose step at the north end, marked with tape"},
			{ID: "pool", Name: "Pool", Kind: plan.Outdoor, Safety: "no cables within two metres of the water; one adult watches, always"},
			{ID: "living", Name: "Living room", Kind: plan.Indoor, Faces: []plan.ID{"west"}},
			{ID: "air", Name: "Air above the garden", Kind: plan.Aerial},
		},
	}
	p.People = []plan.Person{
		{ID: "noor", Name: "Noor Halvardsen", Role: plan.Crew, Job: "director and camera", Phone: "+1 760 555 0101", Paid: true},
		{ID: "teo", Name: "Teo Brackwater", Role: plan.Crew, Job: "light and sound", Phone: "+1 760 555 0102", Paid: true},
		{ID: "ines", Name: "Ines Calloway-Ruiz", Role: plan.Crew, Job: "drone pilot", Phone: "+1 760 555 0103", Paid: true},
		{ID: "dora", Name: "Dora Wexhall", Role: plan.Client, Job: "agent", Phone: "+1 760 555 0104"},
		{ID: "grete", Name: "Grete Sandoval", Role: plan.Talent, Job: "the grandmother", Phone: "+1 760 555 0105"},
		{ID: "paul", Name: "Paul Sandoval", Role: plan.Talent, Job: "the father", Phone: "+1 760 555 0106"},
		{ID: "amara", Name: "Amara Sandoval", Role: plan.Talent, Job: "the mother", Phone: "+1 760 555 0107"},
		{ID: "mia", Name: "Mia Sandoval", Role: plan.Talent, Job: "the daughter, 7", Minor: true, Guardian: "amara", Phone: "+1 760 555 0198", Email: "mia@example.org"},
		{ID: "jon", Name: "Jon Sandoval", Role: plan.Talent, Job: "the son, 11", Minor: true, Guardian: "amara", Phone: "+1 760 555 0199"},
		{ID: "otto", Name: "Otto Lindqvarn", Role: plan.Owner, Phone: "+1 760 555 0108"},
	}
	for _, id := range []plan.ID{"paul", "amara"} {
		p.Releases = append(p.Releases, plan.Release{ID: "r-" + id, Kind: plan.ModelRelease, Party: id, Status: plan.Signed})
	}
	p.Releases = append(p.Releases,
		plan.Release{ID: "r-grete", Kind: plan.ModelRelease, Party: "grete", Status: plan.Sent},
		plan.Release{ID: "r-jon", Kind: plan.MinorRelease, Party: "jon", Status: plan.Signed})
	p.Papers = plan.PaperFacts{
		Access:   "From Highway 62 take the Marl turn-off, then the second gate on the left. The gate code comes by phone.",
		Parking:  "Along the lane, right side only; the drive stays free for the kit van.",
		Hospital: "Lower Marl General, 2200 Basin Road, +1 760 555 0150",
		Safety:   []string{"Shoes on in the garden: cactus spines."},
	}
	p.Scenes = demoScenes()
	for i := range p.Scenes {
		p.Scenes[i].Seconds = 5 + i
	}
	p.Scenes[1].Shots = []plan.Shot{{Frame: "wide", Lens: "24 mm", Movement: "static", Note: "the curtains open"}, {Frame: "close-up", Lens: "50 mm", Movement: "gimbal push-in"}}
	p.Scenes[1].Audio = "Wild sound of the rings on the rail."
	p.Scenes[8].Shots = []plan.Shot{{Frame: "medium", Lens: "85 mm", Movement: "hand-held", Note: "glasses against the sun"}}
	return p, demoDay(t, &p)
}

func demoScenes() []plan.Scene {
	camera := plan.Bearing(268)
	return []plan.Scene{
		{ID: "s1", Number: "1", Title: "First light over the garden", Space: "air", Action: "The drone rises over the roof as the sun comes up.", Kit: []string{"drone"}, Wish: plan.Wish{Kind: plan.GoldenMorning, Direct: true}, Setup: 15, Shoot: 20, Cover: "s6"},
		{ID: "s2", Number: "2", Title: "Waking", Space: "bedroom", Action: "Amara opens the curtains; sun falls on the bed.", People: []plan.ID{"amara", "paul"}, Kit: []string{"gimbal", "35 mm"}, Wish: plan.Wish{Kind: plan.SunPatch}, Setup: 15, Shoot: 25},
		{ID: "s3", Number: "3", Title: "Breakfast", Space: "kitchen", Action: "The family around the table; Grete turns pancakes, Mia steals one.", People: []plan.ID{"grete", "paul", "amara", "mia", "jon"}, Kit: []string{"gimbal", "50 mm", "two soft lights"}, Wish: plan.Wish{Kind: plan.FaceLit, Face: "east"}, Setup: 20, Shoot: 40, Notes: "Batter is prepared; one spare set of aprons."},
		{ID: "s4", Number: "4", Title: "Homework at the counter", Space: "kitchen", Action: "Jon writes, Grete looks on.", People: []plan.ID{"jon", "grete"}, Kit: []string{"50 mm"}, Wish: plan.Wish{Kind: plan.SoftWindow}, Setup: 10, Shoot: 20},
		{ID: "s5", Number: "5", Title: "Swim", Space: "pool", Action: "The children swim; Paul throws the ball.", People: []plan.ID{"paul", "mia", "jon"}, Kit: []string{"85 mm", "water housing"}, Wish: plan.Wish{Kind: plan.HighSun}, Setup: 20, Shoot: 30},
		{ID: "s6", Number: "6", Title: "Reading corner", Space: "living", Action: "Grete reads to Mia.", People: []plan.ID{"grete", "mia"}, Kit: []string{"50 mm"}, Wish: plan.Wish{Kind: plan.Any}, Setup: 10, Shoot: 20},
		{ID: "s7", Number: "7", Title: "Lunch on the terrace", Space: "terrace", Action: "Plates come out, wind in the cloth.", People: []plan.ID{"grete", "paul", "amara"}, Wish: plan.Wish{Kind: plan.Daylight}, Setup: 15, Shoot: 25},
		{ID: "s8", Number: "8", Title: "Piano", Space: "living", Action: "Jon plays; the camera circles him.", People: []plan.ID{"jon"}, Kit: []string{"gimbal"}, Wish: plan.Wish{Kind: plan.FaceLit, Face: "west"}, Setup: 15, Shoot: 25},
		{ID: "s9", Number: "9", Title: "Toast", Space: "terrace", Action: "Glasses against the low sun.", People: []plan.ID{"amara", "paul", "grete"}, Kit: []string{"85 mm"}, Wish: plan.Wish{Kind: plan.GoldenEvening, Direct: true}, Setup: 15, Shoot: 25, Cover: "s6"},
		{ID: "s10", Number: "10", Title: "Garden run", Space: "terrace", Action: "The children run toward the camera, sun behind them.", People: []plan.ID{"mia", "jon"}, Kit: []string{"gimbal"}, Wish: plan.Wish{Kind: plan.Backlit, Camera: &camera}, Setup: 5, Shoot: 15},
		{ID: "s11", Number: "11", Title: "Lamps come on", Space: "living", Action: "From the garden: one window after the other.", People: []plan.ID{"amara"}, Wish: plan.Wish{Kind: plan.BlueEvening}, Setup: 10, Shoot: 10},
		{ID: "s12", Number: "12", Title: "Stars over the pool", Space: "pool", Action: "Long exposure, nobody in frame.", Kit: []string{"tripod", "14 mm"}, Wish: plan.Wish{Kind: plan.Dark}, Setup: 20, Shoot: 30},
		{ID: "s13", Number: "13", Title: "Bath time", Space: "bedroom", Action: "Foam and ducks.", People: []plan.ID{"mia"}, Wish: plan.Wish{Kind: plan.Any}, Shoot: 20, Importance: plan.Nice},
	}
}

// demoDay is a day written by hand, as the solver could have placed it.
func demoDay(t testing.TB, p *plan.Plan) day.Day {
	date := plan.Date{Year: 2027, Month: 3, Day: 6}
	zone, err := time.LoadLocation(p.Property.Zone)
	if err != nil {
		t.Fatal(err)
	}
	at := func(s string) time.Time {
		c, err := plan.ParseClock(s)
		if err != nil {
			t.Fatal(err)
		}
		return plan.Instant(date, c, zone)
	}
	span := func(from, to string) plan.Span { return plan.Span{From: at(from), To: at(to)} }
	d := day.Day{Date: date, Zone: zone, Sky: light.NewSky(p, zone, date), Windows: map[plan.ID][]plan.Span{}, Call: at("5:25"), Wrap: at("19:50")}
	for _, s := range p.Scenes {
		d.Windows[s.ID] = d.Sky.Windows(d.Sky.Score(s))
	}
	for _, s := range []struct {
		scene             plan.ID
		setup, start, end string
	}{{"s1", "5:55", "6:10", "6:30"}, {"s2", "6:35", "6:50", "7:15"}, {"s3", "7:20", "7:40", "8:20"},
		{"s5", "10:25", "10:45", "11:15"}, {"s6", "12:10", "12:20", "12:40"}, {"s7", "12:45", "13:00", "13:25"}, {"s4", "13:30", "13:40", "14:00"}, {"s8", "15:10", "15:25", "15:50"},
		{"s10", "16:15", "16:30", "16:45"}, {"s9", "16:50", "17:10", "17:35"}, {"s11", "17:55", "18:05", "18:15"}, {"s12", "18:40", "19:00", "19:30"}} {
		score := d.Sky.Score(mustScene(t, p, s.scene))
		kept, _ := score.Mean(d.Sky.MinuteOf(at(s.start)), int(span(s.start, s.end).Minutes()))
		d.Scenes = append(d.Scenes, day.Placed{Scene: s.scene, Setup: at(s.setup), Start: at(s.start), End: at(s.end), Kept: kept})
	}
	d.LeftOut = []day.LeftOut{{Scene: "s13", Why: plan.Problem{Code: plan.LeftOutCheap, Facts: []any{"13", plan.Nice}}}}
	d.Moves = []day.Move{{From: "air", To: "bedroom", Span: span("6:30", "6:35")}, {From: "bedroom", To: "kitchen", Span: span("7:15", "7:20")},
		{From: "kitchen", To: "pool", Span: span("10:15", "10:25")}, {From: "pool", To: "living", Span: span("11:15", "11:25")},
		{From: "living", To: "terrace", Span: span("12:40", "12:45")}, {From: "terrace", To: "kitchen", Span: span("13:25", "13:30")}, {From: "kitchen", To: "living", Span: span("15:05", "15:10")},
		{From: "living", To: "terrace", Span: span("16:10", "16:15")}, {From: "terrace", To: "living", Span: span("17:40", "17:45")},
		{From: "living", To: "pool", Span: span("18:15", "18:20")}}
	d.Meals = []plan.Span{span("11:25", "12:10")}
	for _, q := range []struct {
		who      plan.ID
		from, to string
	}{{"noor", "5:25", "19:50"}, {"teo", "5:25", "19:50"}, {"ines", "5:25", "6:30"}, {"dora", "7:20", "13:25"}, {"grete", "7:20", "17:35"},
		{"paul", "6:30", "17:35"}, {"amara", "6:30", "18:15"}, {"mia", "7:20", "16:45"}, {"jon", "7:20", "16:45"}} {
		d.People = append(d.People, day.Presence{Person: q.who, Call: at(q.from), Release: at(q.to), OnCamera: onCamera(p, d, q.who)})
	}
	return d
}

func mustScene(t testing.TB, p *plan.Plan, id plan.ID) plan.Scene {
	s, ok := p.Scene(id)
	if !ok {
		t.Fatalf("no scene %s", id)
	}
	return s
}

func onCamera(p *plan.Plan, d day.Day, who plan.ID) []day.OnCamera {
	var out []day.OnCamera
	for _, placed := range d.Scenes {
		s, _ := p.Scene(placed.Scene)
		for _, id := range s.People {
			if id == who {
				out = append(out, day.OnCamera{Scene: s.ID, Span: plan.Span{From: placed.Start, To: placed.End}})
			}
		}
	}
	return out
}
