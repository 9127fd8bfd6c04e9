package papers

import (
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
)

// scenePapers are the papers by scenes, of a plan of one day.
func scenePapers(p *plan.Plan, d day.Day) []Sheet {
	return []Sheet{ScenePlan(p, []day.Day{d}), ShotList(p, d)}
}

// section is the one of a sheet under a heading.
func section(t *testing.T, s Sheet, heading string) Section {
	t.Helper()
	i := slices.IndexFunc(s.Sections, func(sec Section) bool { return sec.Heading == heading })
	if i < 0 {
		t.Fatalf("the %s has no section %q", s.Kind, heading)
	}
	return s.Sections[i]
}

func TestScenePapersPrintAllTheySay(t *testing.T) {
	p, d := demo(t)
	for i := range p.People {
		p.People[i].Name = names[i%len(names)]
	}
	p.Scenes[1].Shots[0] = plan.Shot{Frame: names[0], Lens: "35\u00a0mm", Movement: names[4], Note: "line\nand " + names[1]}
	for _, s := range scenePapers(&p, d) {
		if lost := s.Unprintable(); len(lost) > 0 {
			t.Errorf("%s: the fonts lack %q", s.Kind, lost)
		}
		for _, size := range plan.PaperSizes {
			holds(t, s, size)
		}
	}
}

// TestScenePapersLeakNothing: beside what no sheet for all may show, these show nobody's phone at all, and no scene's note. Purpose
// and deliverables are what the scene plan is about; the shot list has none of them.
func TestScenePapersLeakNothing(t *testing.T) {
	p, d := demo(t)
	private(&p)
	for i := range p.People {
		p.People[i].Phone, p.People[i].Rate = "LEAK-phone", "LEAKrate"
	}
	for i := range p.Scenes {
		p.Scenes[i].Notes = "LEAK note"
	}
	p.Pricing.Card.Crew = []plan.CrewRate{{ID: "LEAKrate", Name: "LEAK rate"}}
	shots := ShotList(&p, d)
	p.Brief.Purpose, p.Brief.Deliverables = "", nil
	for _, s := range []Sheet{shots, ScenePlan(&p, []day.Day{d})} {
		for _, text := range []string{all(s), s.Text(), pdfText(t, s, plan.Letter)} {
			for _, secret := range []string{"LEAK", "1984", "2017", "555"} {
				if strings.Contains(text, secret) {
					t.Errorf("%s: %q is on it:\n%s", s.Kind, secret, text)
				}
			}
		}
	}
}

// TestScenePlanCallsByFirstNames, and by the whole name where the first is another's too.
func TestScenePlanCallsByFirstNames(t *testing.T) {
	p, d := demo(t)
	text := all(ScenePlan(&p, []day.Day{d}))
	if !strings.Contains(text, "Grete and Mia") || strings.Contains(text, "Sandoval") {
		t.Errorf("not by first names:\n%s", text)
	}
	p.People[0].Name = "Mia Halvardsen"
	if text := all(ScenePlan(&p, []day.Day{d})); !strings.Contains(text, "Grete and Mia Sandoval") {
		t.Errorf("one of two Mias is called by the first name:\n%s", text)
	}
}

// TestScenePlanIsInTheOrderOfTheFilm, whatever the order of the plan's list and of the days.
func TestScenePlanIsInTheOrderOfTheFilm(t *testing.T) {
	p, d := demo(t)
	slices.Reverse(p.Scenes)
	p.Scenes[0].Number = "7A"
	var got []string
	for _, r := range section(t, ScenePlan(&p, []day.Day{d}), "The scenes, in the order of the film").Table.Rows {
		got = append(got, r.Cells[0].Strong)
	}
	want := []string{"1", "2", "3", "4", "5", "6", "7", "7A", "8", "9", "10", "11", "12", ""} // the last is their sum
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestScenePlanOfSeveralDays dates every scene, and tells no scene as waiting that another day has.
func TestScenePlanOfSeveralDays(t *testing.T) {
	p, first := demo(t)
	second := first
	second.Date = first.Date.AddDays(1)
	first.Scenes, second.Scenes = first.Scenes[:6], first.Scenes[6:]
	for i := range second.Scenes {
		s := &second.Scenes[i]
		s.Setup, s.Start, s.End = s.Setup.AddDate(0, 0, 1), s.Start.AddDate(0, 0, 1), s.End.AddDate(0, 0, 1)
	}
	text := all(ScenePlan(&p, []day.Day{first, second}))
	for _, want := range []string{"Saturday 6 March 2027 and Sunday 7 March 2027\n", "Sunday 7 March 2027\n17:10–17:35", "Saturday 6 March 2027\n06:10–06:30"} {
		if !strings.Contains(text, want) {
			t.Errorf("lacks %q:\n%s", want, text)
		}
	}
	if n := strings.Count(text, "not on the day yet"); n != 1 {
		t.Errorf("%d scenes wait, not scene 13 alone", n)
	}
}

// TestWaitingIsToldKindly: every reason for which package day leaves a scene out is told without a name, a figure or a number, but for
// those that the client may hear as they are.
func TestWaitingIsToldKindly(t *testing.T) {
	for _, code := range []plan.Code{plan.NeverLight, plan.NeverFree, plan.NeverBoth, plan.PinForbidden, plan.LeftOutClash, plan.LeftOutHours,
		plan.LeftOutAlone, plan.LeftOutCheap, plan.WindowFull} {
		text := waits(plan.Problem{Code: code, Facts: []any{"SECRET", "SECRET", "SECRET", "SECRET", "SECRET", "SECRET"}})
		if strings.Contains(text, "SECRET") || strings.Contains(text, "left out") || !strings.HasSuffix(text, ".") {
			t.Errorf("%s: %s", code, text)
		}
	}
	if got, want := waits(plan.Problem{Code: plan.LeftOutUnknown, Facts: []any{"4"}}),
		"It waits for a place: scene 4 is left out: no place was found for it in the time given to the search."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestRunningTimes(t *testing.T) {
	for seconds, want := range map[int]string{0: "0 s", 59: "59 s", 60: "1 min", 130: "2 min 10 s", 3600: "60 min"} {
		if got := spaces.Replace(runs(seconds)); got != want {
			t.Errorf("%d: %q, want %q", seconds, got, want)
		}
	}
}

// TestShotListRunsByTheClock: every scene, shot, move and meal of the day, call and wrap, none before the one above it, and a box for
// each shot or, where none is written down, for the scene.
func TestShotListRunsByTheClock(t *testing.T) {
	p, d := demo(t)
	opens, ticks, asides := 0, 0, 0
	rows := section(t, ShotList(&p, d), "Shots").Table.Rows
	byTheClock(t, rows)
	for _, r := range rows {
		switch {
		case r.Tick:
			ticks++
		case r.Opens:
			opens++
		case r.Aside:
			asides++
		}
	}
	shots := 0
	for _, s := range d.Scenes {
		shots += max(1, len(mustScene(t, &p, s.Scene).Shots))
	}
	if opens != len(d.Scenes) || ticks != shots || asides != len(d.Moves)+len(d.Meals)+2 {
		t.Errorf("%d scenes, %d boxes and %d asides; want %d, %d and %d", opens, ticks, asides, len(d.Scenes), shots, len(d.Moves)+len(d.Meals)+2)
	}
	if n := boxes(ShotList(&p, d), plan.A4); n != shots {
		t.Errorf("%d boxes are drawn, not %d", n, shots)
	}
}

// strokes is a surface that keeps the ways of the pen.
type strokes []path

func (*strokes) fill([]point, tint)                 {}
func (s *strokes) stroke(p path, _ float64, _ tint) { *s = append(*s, p) }
func (*strokes) text(float64, float64, line)        {}

// boxes counts the squares that are drawn on all pages of a sheet.
func boxes(s Sheet, size plan.PaperSize) (n int) {
	l := s.lay(size, madeAt)
	var drawn strokes
	for i := range l.pages {
		l.draw(&drawn, i)
	}
	for _, p := range drawn {
		if len(p.steps) == 4 && p.steps[3].to == p.from {
			n++
		}
	}
	return n
}

// TestShotListTellsStandIns with their shots, where bad weather alone brings them.
func TestShotListTellsStandIns(t *testing.T) {
	p, d := demo(t)
	p.Scenes[8].Cover = "s13"
	p.Scenes[12].Shots = []plan.Shot{{Frame: "overhead", Note: "ducks"}}
	rows := section(t, ShotList(&p, d), coversHeading).Table.Rows
	if len(rows) != 2 || rows[0].Cells[1].Strong != titled(p.Scenes[12]) || rows[1].Cells[1].Text != "overhead" ||
		!strings.Contains(spaces.Replace(rows[0].Cells[0].Text), "instead of scene 9") {
		t.Errorf("%+v", rows)
	}
}

// TestSunOfTheShotList holds the words against the worked example of Reda & Andreas, NREL/TP-560-34302, table A5.1: on 17 October 2003
// at 12:30:30 (UTC-7), at 39.742476 north and 105.1786 west, the sun stands at azimuth 194.34 and zenith 50.11.
func TestSunOfTheShotList(t *testing.T) {
	camera := plan.Bearing(210)
	p := plan.New()
	p.Property = plan.Property{Zone: "America/Denver", Position: &plan.Position{Lat: 39.742476, Lon: -105.1786}, Elevation: 1830,
		Faces: []plan.Face{{ID: "south", Bearing: 180}, {ID: "north", Bearing: 0}},
		Spaces: []plan.Space{{ID: "room", Kind: plan.Indoor, Faces: []plan.ID{"south"}}, {ID: "study", Kind: plan.Indoor, Faces: []plan.ID{"north"}},
			{ID: "lawn", Kind: plan.Outdoor}}}
	start := time.Date(2003, 10, 17, 19, 30, 30, 0, time.UTC)
	d := day.Day{Date: plan.Date{Year: 2003, Month: 10, Day: 17}, Zone: zone(t, p.Property.Zone), Call: start, Wrap: start.Add(time.Hour),
		Scenes: []day.Placed{{Scene: "s", Setup: start, Start: start, End: start.Add(20 * time.Minute), Kept: 1}}}
	for _, c := range []struct {
		scene plan.Scene
		wall  bool
		want  string
	}{
		{plan.Scene{Space: "lawn"}, false, "sun at 13:31: 194° SSW, 40° high\n"},
		{plan.Scene{Space: "room"}, false, "194° SSW, 40° high, in through the windows\n"},
		{plan.Scene{Space: "study"}, false, "194° SSW, 40° high, not on this side of the house\n"},
		{plan.Scene{Space: "lawn"}, true, "194° SSW, 40° high, behind the skyline\n"},
		{plan.Scene{Space: "lawn", Wish: plan.Wish{Camera: &camera}}, false, "40° high; camera to 210° SSW: backlit, the sun 16° to the left\n"},
		{plan.Scene{Space: "lawn", Wish: plan.Wish{Kind: plan.Backlit, Camera: &camera}}, false, "40° high, backlit, the sun 16° to the left\n"},
	} {
		c.scene.ID, c.scene.Title = "s", "Any"
		p.Scenes, p.Property.Skyline = []plan.Scene{c.scene}, nil
		if c.wall {
			p.Property.Skyline = []plan.SkyPoint{{Bearing: 0, Altitude: 60}, {Bearing: 180, Altitude: 60}}
		}
		d.Sky = light.NewSky(&p, d.Zone, d.Date)
		if text := all(ShotList(&p, d)); !strings.Contains(text, c.want) {
			t.Errorf("%+v: lacks %q:\n%s", c.scene.Wish, c.want, text)
		}
	}
}

// TestLensSide by hand: clockwise of where one looks is to the right.
func TestLensSide(t *testing.T) {
	for _, c := range []struct {
		sun, camera plan.Bearing
		want        string
	}{
		{240, 225, "backlit, the sun 15° to the right"}, {210, 225, "backlit, the sun 15° to the left"}, {10, 350, "backlit, the sun 20° to the right"},
		{350, 10, "backlit, the sun 20° to the left"}, {90, 0, "side-lit from the right"}, {270, 0, "side-lit from the left"}, {45, 315, "side-lit from the right"},
		{180, 0, "front-lit"}, {170, 0, "front-lit"}, {0, 190, "front-lit"},
	} {
		if got := lensSide(light.Sun{Azimuth: c.sun}, c.camera); got != c.want {
			t.Errorf("sun %v, camera %v: %q, want %q", c.sun, c.camera, got, c.want)
		}
	}
}

// TestDroneShotsAskForCare, also in a scene that no release and no space calls a flight.
func TestDroneShotsAskForCare(t *testing.T) {
	p, d := demo(t)
	d.Scenes = d.Scenes[1:2]
	caution := func() bool { return strings.Contains(all(ShotList(&p, d)), "Drone: the local aviation authority") }
	if caution() {
		t.Error("a day without a drone cautions for one")
	}
	p.Scenes[1].Shots[1].Movement = "Drone orbit"
	if !caution() {
		t.Error("a drone shot asks for no care")
	}
}

func TestScenePapersOfNothing(t *testing.T) {
	empty := plan.New()
	p, d := demo(t)
	p.Scenes, p.People, p.Property.Spaces = nil, nil, nil // an edit has since taken them out
	for _, s := range append(scenePapers(&empty, day.Day{}), ScenePlan(&empty, nil)) {
		for _, want := range []string{"Untitled plan", "Property not named", "Date not set"} {
			if !strings.Contains(all(s), want) {
				t.Errorf("%s of an empty plan lacks %q", s.Kind, want)
			}
		}
		pdfText(t, s, plan.A4)
	}
	if text := all(ScenePlan(&empty, nil)); !strings.Contains(text, "The day is not placed yet") || !strings.Contains(text, "No scene is written yet.") {
		t.Errorf("a scene plan of nothing:\n%s", text)
	}
	if text := all(ShotList(&p, d)); !strings.Contains(text, "s3") {
		t.Errorf("a shot list of a day whose scenes are gone lacks the id s3:\n%s", text)
	}
	pdfText(t, ScenePlan(&p, []day.Day{d}), plan.A4)
}
