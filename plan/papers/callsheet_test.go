package papers

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"
	"eavelight/plan/people"
)

var update = flag.Bool("update", false, "write the golden files anew")

// all is everything that a sheet says, a text a line, its spaces plain.
func all(s Sheet) string {
	var b strings.Builder
	s.each(func(text string) { b.WriteString(spaces.Replace(text) + "\n") })
	return b.String()
}

func TestGoldenText(t *testing.T) {
	p, d := demo(t)
	for name, s := range map[string]Sheet{"callsheet": CallSheet(&p, d), "sceneplan": ScenePlan(&p, []day.Day{d}), "shotlist": ShotList(&p, d)} {
		got := s.Text()
		golden := filepath.Join("testdata", name+".txt")
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("the text of the %s has changed; look at it, then run with -update. Now:\n%s", name, got)
		}
	}
}

func TestSheetHoldsEveryPersonSceneAndTime(t *testing.T) {
	p, d := demo(t)
	s := CallSheet(&p, d)
	for name, text := range map[string]string{"content": all(s), "text": s.Text()} {
		for _, want := range wanted(&p, d) {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q", name, want)
			}
		}
	}
}

// wanted lists what nobody may have to ask about: every person, scene and time.
func wanted(p *plan.Plan, d day.Day) []string {
	w := wall{styleOf(p), d.Date, d.Zone}
	out := []string{p.Title, p.Property.Name, p.Property.Address, d.Date.Long(), "day 1 of 1", w.clock(d.Call), w.clock(d.Wrap), p.Papers.Hospital, p.Papers.Access, p.Papers.Parking}
	for _, q := range p.People {
		out = append(out, q.Called())
		if !q.Minor {
			out = append(out, q.Phone)
		}
	}
	for _, c := range d.People {
		out = append(out, w.span(plan.Span{From: c.Call, To: c.Release}))
	}
	for _, c := range d.Scenes {
		sc, _ := p.Scene(c.Scene)
		out = append(out, sc.Title, sc.Action, w.clock(c.Setup), w.span(plan.Span{From: c.Start, To: c.End}))
		out = append(out, sc.Kit...)
	}
	for _, m := range d.Meals {
		out = append(out, w.span(m))
	}
	for _, m := range d.Moves {
		out = append(out, w.span(m.Span))
	}
	for i := range out {
		out[i] = spaces.Replace(out[i])
	}
	return out
}

// private marks every field that no sheet for all may show, so that one that leaks is seen by its name.
func private(p *plan.Plan) {
	p.Brief.Notes = "LEAK brief notes"
	p.Brief.Purpose = "LEAK purpose"
	p.Brief.Budget.Currency = "LEAKbudget"
	p.Brief.Deliverables = []plan.Deliverable{{Name: "LEAK deliverable", Format: "LEAK format"}}
	for i := range p.People {
		q := &p.People[i]
		q.Email = "LEAK-email-" + string(q.ID)
		q.Notes = "LEAK notes, born 2019-05-05"
		q.Diet, q.Sizes, q.Pronouns = "LEAK diet", "LEAK sizes", "LEAK pronouns"
		q.Born = plan.Date{Year: 1984, Month: 2, Day: 5}
		q.Certificate = plan.Certificate{Number: "LEAK certificate", Trained: q.Born, Until: q.Born}
		if q.Minor {
			q.Born.Year = 2017
		}
		q.Paid = !q.Paid
		if q.Minor {
			q.Phone = "LEAK-phone-" + string(q.ID)
		}
	}
	for i := range p.Releases {
		r := &p.Releases[i]
		r.Subject, r.SignedBy, r.Media, r.Term = "LEAK subject", "LEAK signer", "LEAK media", "LEAK term"
	}
	p.Log = []plan.LogEntry{{Scene: "s1", Note: "LEAK log"}}
}

func TestNothingPrivateLeaks(t *testing.T) {
	p, d := demo(t)
	before := all(CallSheet(&p, d))
	private(&p)
	for name, uncalled := range map[string]bool{"called": false, "not called": true} {
		t.Run(name, func(t *testing.T) {
			d := d
			if uncalled {
				d.People, d.Scenes = nil, nil
			}
			s := CallSheet(&p, d)
			for _, text := range []string{all(s), s.Text(), pdfText(t, s, plan.Letter)} {
				if strings.Contains(text, "LEAK") || strings.Contains(text, "1984") || strings.Contains(text, "2017") {
					t.Errorf("a private field is on the sheet:\n%s", text)
				}
			}
			if !strings.Contains(all(s), "guardian: Amara Sandoval") {
				t.Error("the guardian's name is missing")
			}
			if !uncalled && all(s) != before {
				t.Error("a private field changes the sheet")
			}
		})
	}
}

// A minor by the day of birth alone is one on the sheet too.
func TestMinorByBirthKeepsTheirPhone(t *testing.T) {
	p, d := demo(t)
	for i, q := range p.People {
		if q.Minor {
			p.People[i].Minor, p.People[i].Born = false, plan.Date{Year: 2017, Month: 2, Day: 5}
		}
	}
	if marked, _ := demo(t); all(CallSheet(&p, d)) != all(CallSheet(&marked, d)) {
		t.Errorf("the sheet differs from that of marked minors:\n%s", all(CallSheet(&p, d)))
	}
}

// A guardian who is a minor too is a slip of the plan; their phone is a minor's all the same.
func TestMinorGuardianKeepsTheirPhone(t *testing.T) {
	p, d := demo(t)
	for i := range p.People {
		if p.People[i].ID == "amara" {
			p.People[i].Minor = true
		}
	}
	if text := all(CallSheet(&p, d)); strings.Contains(text, "555 0107") {
		t.Error("a minor's phone is on the sheet")
	}
}

func TestReleaseStates(t *testing.T) {
	p, d := demo(t)
	note := func() string {
		for _, sec := range CallSheet(&p, d).Sections {
			for _, r := range sec.Table.Rows {
				if len(r.Cells) > 1 && r.Cells[1].Strong == "Paul Sandoval" {
					return r.Note
				}
			}
		}
		t.Fatal("Paul is not on the sheet")
		return ""
	}
	release := func(status plan.ReleaseStatus, until plan.Date, scenes ...plan.ID) {
		p.Releases = []plan.Release{{ID: "r", Kind: plan.ModelRelease, Party: "paul", Status: status, Until: until, Scenes: scenes}}
	}
	for _, c := range []struct {
		status plan.ReleaseStatus
		until  plan.Date
		scenes []plan.ID
		want   string
	}{
		{plan.Signed, plan.Date{}, nil, ""},
		{plan.Needed, plan.Date{}, nil, "model release: needed – please sign before you arrive"},
		{plan.Sent, plan.Date{}, nil, "model release: sent – please sign before you arrive"},
		{plan.Declined, plan.Date{}, nil, "model release: declined – not to be filmed"},
		{plan.Signed, plan.Date{Year: 2027, Month: 3, Day: 5}, nil, "model release: lapsed – please sign again before you arrive"},
		{plan.Signed, plan.Date{}, []plan.ID{"s2", "s3", "s5", "s9"}, "model release for scene 7: needed – please sign before you arrive"},
	} {
		release(c.status, c.until, c.scenes...)
		if got := note(); got != c.want {
			t.Errorf("%s until %s for %v: got %q, want %q", c.status, c.until, c.scenes, got, c.want)
		}
	}
	release(plan.Signed, plan.Date{})
	p.Releases[0].Signature = &plan.Signature{Name: "Paul Sandoval", Digest: strings.Repeat("0", 64)} // of no text
	if got, want := note(), "model release: signed, but it no longer holds – please sign again before you arrive"; got != want {
		t.Errorf("signed under another text: got %q, want %q", got, want)
	}
}

func TestEmptyPlanSaysSoInWords(t *testing.T) {
	p := plan.New()
	text := all(CallSheet(&p, day.Day{}))
	for _, want := range []string{"Untitled plan", "Property not named", "Date not set", "not set", "the day is not placed yet",
		"not filled in", "Nobody is called yet.", "No scene is placed on this day yet.", "The light is not computed", "the time zone is not set"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet of an empty plan lacks %q", want)
		}
	}
	for _, size := range plan.PaperSizes {
		if pdfText(t, CallSheet(&p, day.Day{}), size) == "" {
			t.Error("nothing is printed")
		}
	}
}

// A day may refer to what an edit has since taken out of the plan: it prints ids, and does not fail.
func TestStaleDay(t *testing.T) {
	p, d := demo(t)
	p.Scenes, p.People, p.Property.Spaces = nil, nil, nil
	text := all(CallSheet(&p, d))
	for _, want := range []string{"s3", "noor"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks the id %q", want)
		}
	}
}

// North of the polar circles the sun does not set at midsummer and does not rise at midwinter (the definition of the
// circles); 78 north is far enough that golden light and civil dawn fail too.
func TestPolarLightInWords(t *testing.T) {
	p, d := demo(t)
	p.Property.Position = &plan.Position{Lat: 78.2, Lon: 15.6}
	d.Zone = zone(t, "Arctic/Longyearbyen")
	for _, c := range []struct {
		date plan.Date
		want []string
	}{
		{plan.Date{Year: 2027, Month: 6, Day: 21}, []string{"the sun does not set", "none, it stays light", "none, the sun stays high"}},
		{plan.Date{Year: 2027, Month: 12, Day: 21}, []string{"the sun does not rise", "none, it stays dark", "none, the sun stays too low", "° down"}},
	} {
		d.Date = c.date
		d.Sky = light.NewSky(&p, d.Zone, d.Date)
		text := all(CallSheet(&p, d))
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the sheet lacks %q", c.date, want)
			}
		}
	}
}

func TestCautionsApplyWhereTheyShould(t *testing.T) {
	const lens, minors, drone, weather = "Sun: never", "Minors: local law", "Drone: the local", "Weather: in lightning"
	for _, c := range []struct {
		name   string
		scene  plan.Scene
		minor  bool
		want   []string
		wanton []string // not wanted
	}{
		{"indoor, any light", plan.Scene{Space: "living"}, false, nil, []string{lens, minors, drone, weather}},
		{"terrace", plan.Scene{Space: "terrace"}, false, []string{weather, "loose step"}, []string{lens, minors, drone, "hot stove"}},
		{"drone", plan.Scene{Space: "air"}, false, []string{drone, weather}, []string{lens, minors}},
		{"golden glow", plan.Scene{Space: "living", Wish: plan.Wish{Kind: plan.GoldenEvening}}, false, nil, []string{lens}},
		{"golden direct", plan.Scene{Space: "living", Wish: plan.Wish{Kind: plan.GoldenEvening, Direct: true}}, false, []string{lens}, nil},
		{"backlit", plan.Scene{Space: "living", Wish: plan.Wish{Kind: plan.Backlit}}, false, []string{lens}, nil},
		{"sunset", plan.Scene{Space: "living", Wish: plan.Wish{Kind: plan.Sunset}}, false, []string{lens}, nil},
		{"minor", plan.Scene{Space: "living"}, true, []string{minors}, []string{lens, drone, weather}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, d := demo(t)
			p.Papers.Safety = nil
			c.scene.ID = "only"
			p.Scenes = []plan.Scene{c.scene}
			d.Scenes = []day.Placed{{Scene: "only", Start: d.Call, End: d.Wrap}}
			d.People = nil
			if c.minor {
				d.People = []day.Presence{{Person: "mia"}}
			}
			text := all(CallSheet(&p, d))
			for _, want := range c.want {
				if !strings.Contains(text, want) {
					t.Errorf("lacks %q", want)
				}
			}
			for _, not := range c.wanton {
				if strings.Contains(text, not) {
					t.Errorf("has %q without need", not)
				}
			}
		})
	}
}

// TestFlightsAreTold: the light of a flight stands by its scene, as package day words it, and the caution where a drone release names a
// scene on the ground; nothing of the light where no rules are chosen.
func TestFlightsAreTold(t *testing.T) {
	p, d := demo(t)
	p.Scenes = []plan.Scene{{ID: "only", Number: "1", Space: "living"}}
	p.Releases = []plan.Release{{ID: "r", Kind: plan.DroneRelease, Scenes: []plan.ID{"only"}}}
	d.Scenes = []day.Placed{{Scene: "only", Start: d.Call, End: d.Wrap}}
	d.Flights = []day.Flight{{Scene: "only", Light: people.FlightDay}}
	if text := all(CallSheet(&p, d)); !strings.Contains(text, "flight by day") || !strings.Contains(text, "Drone: the local aviation authority") {
		t.Errorf("by day:\n%s", text)
	}
	d.Flights[0].Light = ""
	if text := all(CallSheet(&p, d)); strings.Contains(text, "flight ") || !strings.Contains(text, "Drone: the local aviation authority") {
		t.Errorf("without rules:\n%s", text)
	}
}

func TestCoverSceneWithoutAPlaceIsDescribed(t *testing.T) {
	p, d := demo(t)
	for i := range p.Scenes {
		if p.Scenes[i].ID == "s9" {
			p.Scenes[i].Cover = "s13"
		}
	}
	text := all(CallSheet(&p, d))
	for _, want := range []string{"weather cover: scene 13", "If the weather takes the light", "Scene 13 Bath time instead of scene 9: Bedroom, Mia Sandoval."} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
}

func TestScheduleRunsByTheClock(t *testing.T) {
	p, d := demo(t)
	for _, sec := range CallSheet(&p, d).Sections {
		if sec.Heading != "Schedule" {
			continue
		}
		if len(sec.Table.Rows) != len(d.Scenes)+len(d.Meals)+2 {
			t.Errorf("%d rows", len(sec.Table.Rows))
		}
		byTheClock(t, sec.Table.Rows)
		return
	}
	t.Error("no schedule")
}

// byTheClock checks that no row of a day begins, with its set-up, before the one above it. Shots to be ticked have no time.
func byTheClock(t *testing.T, rows []Row) {
	t.Helper()
	before := ""
	for _, r := range rows {
		if r.Tick {
			continue
		}
		at := r.Cells[0].Strong[:5]
		if _, setup, ok := strings.Cut(r.Cells[0].Text, "set up "); ok {
			at = setup[:5]
		}
		if at < before {
			t.Errorf("%s comes after %s", at, before)
		}
		before = at
	}
}

func TestTimesAfterMidnightAreMarked(t *testing.T) {
	p, d := demo(t)
	last := &d.Scenes[len(d.Scenes)-1]
	last.Setup = plan.Instant(d.Date, plan.ClockAt(23*60+45), d.Zone)
	last.Start, last.End = last.Setup.Add(30*time.Minute), last.Setup.Add(60*time.Minute)
	d.Wrap = last.End.Add(20 * time.Minute)
	text := CallSheet(&p, d).Text()
	for _, want := range []string{"00:15–00:45 +1 · 12 Stars over the pool", "set up 23:45", "01:05 +1 · Wrap", "wrap 01:05 +1"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
}

// The weather that somebody expects is told as they said it, that of other dates is not.
func TestExpectedWeather(t *testing.T) {
	p, d := demo(t)
	p.Shooting.Weather = []plan.Weather{
		{Date: d.Date, From: plan.ClockAt(360), To: plan.ClockAt(660), Cloud: 70, Rain: 20},
		{Date: d.Date.AddDays(1), Cloud: 99},
	}
	text := strings.ReplaceAll(all(CallSheet(&p, d)), "\u00a0", " ")
	if want := "expected when this was written: 06:00–11:00: 70 % cloud, 20 % chance of rain\n"; strings.Count(text, want) != 1 {
		t.Errorf("the sheet lacks %q", want)
	}
}
