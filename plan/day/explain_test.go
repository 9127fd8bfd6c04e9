package day

import (
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
)

// The day of the table below: in Los Angeles on 2026-06-21 the sun passes 6 degrees at 19:30:41, -4 at 20:25:25, sinking
// (testdata/tables/sun-events.tsv), so a golden evening is 19:31-20:26 in whole minutes. The sentences are ours.
const tableDay = "2026-06-21"

func must(number string, shoot plan.Minutes, kind plan.WishKind) plan.Scene {
	return plan.Scene{Number: number, Shoot: shoot, Importance: plan.Must, Wish: plan.Wish{Kind: kind}}
}

func direct(s plan.Scene) plan.Scene {
	s.Wish.Direct = true
	return s
}

func with(s plan.Scene, who ...plan.ID) plan.Scene {
	s.People = who
	return s
}

func limited(t *testing.T, s plan.Scene, from, to string) plan.Scene {
	s.From, s.To = clock(t, from), clock(t, to)
	return s
}

func pinned(t *testing.T, s plan.Scene, at string) plan.Scene {
	s.Pin = plan.Pin{Start: clock(t, at)}
	return s
}

// ann is free for a while on the table's day.
func ann(t *testing.T, from, to string) []plan.Person {
	free := plan.Availability{Date: date(t, tableDay), From: clock(t, from), To: clock(t, to)}
	return []plan.Person{{ID: "ann", Name: "Ann Dell", Weight: 1, Availability: []plan.Availability{free}}}
}

func atLongyearbyen(p *plan.Plan) {
	p.Property.Position, p.Property.Zone = &plan.Position{Lat: 78.2232, Lon: 15.6267}, "Arctic/Longyearbyen"
}

// reason is a small plan with a scene that can't be placed, and what is said about it.
type reason struct {
	code   plan.Code
	scenes []plan.Scene
	people []plan.Person
	change func(*plan.Plan)
	out    string // scenes left out, by number
	want   string
}

// TestNeverSentences: for every reason for which no start suits a scene, a small plan that has it, and the sentence.
func TestNeverSentences(t *testing.T) {
	for _, c := range []reason{
		{plan.NeverLight, []plan.Scene{must("1", 20, plan.GoldenEvening)}, nil, atLongyearbyen, "1",
			"the light that scene 1 wants (golden evening) does not come on Sun 21 Jun 2026"},
		{plan.NeverBoth, []plan.Scene{must("1", 60, plan.GoldenEvening)}, nil, nil, "1",
			"scene 1 wants golden evening (19:31-20:26), but it shoots for 1 h"},
		{plan.NeverBoth, []plan.Scene{must("1", 53, plan.GoldenEvening)}, nil, func(p *plan.Plan) { p.Shooting.Grid = 60 }, "1",
			"scene 1 wants golden evening (19:31-20:26), but no start on the grid of 1 h keeps it for all of 53 min"},
		{plan.NeverFree, []plan.Scene{with(must("1", 20, plan.Any), "ann")}, ann(t, "9:00", "9:30"), nil, "1",
			"scene 1 needs Ann Dell, who is not there long enough on Sun 21 Jun 2026 (Ann Dell is free 09:00-09:30)"},
		{plan.NeverFree, []plan.Scene{with(must("1", 20, plan.Any), "ann")},
			[]plan.Person{{ID: "ann", Availability: []plan.Availability{{Date: date(t, tableDay).AddDays(1)}}}}, nil, "1",
			"scene 1 needs ann, who is not there long enough on Sun 21 Jun 2026 (ann is not free that day)"},
		{plan.NeverBoth, []plan.Scene{with(must("1", 20, plan.GoldenEvening), "ann")}, ann(t, "9:00", "19:45"), nil, "1",
			"scene 1 wants golden evening (19:31-20:26), but Ann Dell is free 09:00-19:45"},
		{plan.NeverBoth, []plan.Scene{limited(t, must("1", 20, plan.GoldenEvening), "9:00", "10:00")}, nil, nil, "1",
			"scene 1 wants golden evening (19:31-20:26), but it is limited to 09:00-10:00"},
		{plan.PinForbidden, []plan.Scene{pinned(t, limited(t, must("1", 20, plan.Any), "9:00", "10:00"), "11:00")}, nil, nil, "1",
			"scene 1 is pinned to 11:00, where it can't be shot: it is limited to 09:00-10:00"},
		{plan.PinForbidden, []plan.Scene{pinned(t, with(must("1", 20, plan.Any), "ann"), "9:10")}, ann(t, "9:00", "12:00"), nil, "1",
			"scene 1 is pinned to 09:10, where it can't be shot: Ann Dell is free 09:00-12:00"},
		{plan.PinForbidden, []plan.Scene{pinned(t, must("1", 20, plan.Any), "30:00")}, nil, nil, "1",
			"scene 1 is pinned to 30:00, where it can't be shot: the day wraps by 24:00"},
	} {
		c.check(t)
	}
}

// TestLeftOutSentences: the same for scenes that others, or the day's ends, leave no place.
func TestLeftOutSentences(t *testing.T) {
	for _, c := range []reason{
		{plan.LeftOutAlone, []plan.Scene{pinned(t, must("1", 20, plan.Any), "3:00")}, nil, nil, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the earliest call (04:00)"},
		{plan.LeftOutAlone, []plan.Scene{pinned(t, must("1", 20, plan.Any), "23:30")}, nil, nil, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the latest wrap (24:00)"},
		{plan.LeftOutAlone, []plan.Scene{must("1", 120, plan.Any)}, nil,
			func(p *plan.Plan) { p.Shooting.Longest = 150 }, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the longest day (2 h 30)"},
		{plan.LeftOutAlone, []plan.Scene{must("1", 120, plan.Any)}, nil,
			func(p *plan.Plan) { p.Shooting.MealLength, p.Shooting.MealWithin = 30, 100 }, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the meal rule (a meal within 1 h 40)"},
		{plan.LeftOutAlone, []plan.Scene{must("1", 120, plan.Any)}, nil,
			func(p *plan.Plan) { p.Shooting.Longest, p.Shooting.MealLength, p.Shooting.MealWithin = 150, 30, 100 }, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the longest day (2 h 30) and the meal rule (a meal within 1 h 40), which would both have to give"},
		// with an hour of set-up before 4:30, half an hour to prepare before that, and no more than half past three
		{plan.LeftOutAlone, []plan.Scene{{Number: "1", Setup: 60, Shoot: 20, Importance: plan.Must, To: clock(t, "4:50")}}, nil, nil, "1",
			"scene 1 is left out: it does not fit into this day at all, not even alone, because of the earliest call (04:00)"},
		{plan.LeftOutClash, []plan.Scene{pinned(t, must("1", 30, plan.Any), "9:00"), pinned(t, must("2", 20, plan.Any), "9:20")}, nil,
			func(p *plan.Plan) { p.Scenes[1].Importance = plan.Nice }, "2",
			"scene 2 is left out: it does not fit beside 1. Move one to another date, shorten one, or drop one"},
		{plan.WindowFull, []plan.Scene{must("12", 30, plan.GoldenEvening), must("7A", 20, plan.GoldenEvening), must("7", 20, plan.GoldenEvening)}, nil, nil, "12",
			"scenes 7, 7A and 12 need the same golden evening window, 19:31-20:26. Together 70 minutes into 55: shorten by 15, move one to another light, or add a second day"},
		// the glow begins at -4 degrees, 12:24:18 UTC, the sun itself shows after its rise at 12:42:04; the window is both
		{plan.WindowFull, []plan.Scene{direct(must("1", 35, plan.GoldenMorning)), must("2", 25, plan.GoldenMorning)}, nil, nil, "1",
			"scenes 1 and 2 need the same golden morning window, 05:25-06:20. Together 60 minutes into 55: shorten by 5, move one to another light, or add a second day"},
		{plan.LeftOutClash, []plan.Scene{must("1", 25, plan.GoldenEvening), must("2", 30, plan.GoldenEvening)}, nil, nil, "2",
			"scene 2 is left out: it does not fit beside 1. Move one to another date, shorten one, or drop one"}, // 55 minutes, between the grid's lines
		{plan.LeftOutClash, []plan.Scene{must("1", 165, plan.Dark), must("2", 170, plan.Dark)}, nil, nil, "2",
			"scene 2 is left out: it does not fit beside 1. Move one to another date, shorten one, or drop one"}, // dark twice that day
		{plan.LeftOutCheap, []plan.Scene{{Number: "1", Shoot: 20, Importance: plan.Nice}}, nil,
			func(p *plan.Plan) { p.Shooting.Weights.LeftOut, p.Shooting.Weights.Length = 1, 10 }, "1",
			"scene 1 is left out: keeping it would cost the day more than leaving it out (it is only nice)"},
		{plan.LackMinutesOf, []plan.Scene{{Number: "1"}}, nil, nil, "1", "scene 1 has no shooting minutes"},
	} {
		c.check(t)
	}
}

func (c reason) check(t *testing.T) {
	t.Helper()
	p := small(c.scenes...)
	p.People = c.people
	if c.change != nil {
		c.change(p)
	}
	d := placed(t, p, date(t, tableDay))
	sound(t, string(c.code), p, d)
	var numbers []string
	for _, out := range d.LeftOut {
		s, _ := p.Scene(out.Scene)
		numbers = append(numbers, s.Number)
	}
	i := slices.IndexFunc(d.LeftOut, func(o LeftOut) bool { return o.Why.Code == c.code })
	if i < 0 || strings.Join(numbers, " ") != c.out {
		t.Errorf("%s: scenes %v left out: %v", c.code, numbers, d.LeftOut)
		return
	}
	if got := d.LeftOut[i].Why.String(); got != c.want {
		t.Errorf("%s:\n got %s\nwant %s", c.code, got, c.want)
	}
}

// TestWarnings: what will hurt on a placed day, and the sentence.
func TestWarnings(t *testing.T) {
	on := date(t, tableDay)
	pinned := func(number, at string, who ...plan.ID) plan.Scene {
		return plan.Scene{Number: number, Shoot: 20, People: who, Pin: plan.Pin{Start: clock(t, at)}}
	}
	dark := pinned("1", "12:00")
	dark.Wish.Kind = plan.Dark
	young := plan.Date{Year: on.Year - 18, Month: on.Month, Day: on.Day + 1} // 18 the day after
	half := plan.Scene{Number: "1", Shoot: 40, Wish: plan.Wish{Kind: plan.Daylight}, Pin: plan.Pin{Start: clock(t, "5:25")}}
	for _, c := range []struct {
		name   string
		scenes []plan.Scene
		people []plan.Person
		want   []string
	}{
		{"nothing", []plan.Scene{pinned("1", "12:00")}, nil, nil},
		{"no light", []plan.Scene{dark}, nil, []string{"scene 1 keeps only 0% of its light"}},
		{"most of its light", []plan.Scene{half}, nil, nil},
		// 30 minutes before the first scene, 20 after the last, so that 12 hours to the minute is no long day
		{"twelve hours", []plan.Scene{pinned("1", "6:00"), pinned("2", "16:50")}, nil, nil},
		{"a long day", []plan.Scene{pinned("1", "6:00"), pinned("2", "16:51")}, nil,
			[]string{"the day is 12 h 01 from call to wrap; overtime and meal rules may apply (local law decides)"}},
		{"90 minutes", []plan.Scene{pinned("1", "9:00", "ann"), pinned("2", "10:50", "ann")}, []plan.Person{{ID: "ann", Name: "Ann Dell"}},
			[]string{"Ann Dell waits 1 h 30"}},
		{"89 minutes", []plan.Scene{pinned("1", "9:00", "ann"), pinned("2", "10:49", "ann")}, []plan.Person{{ID: "ann", Name: "Ann Dell"}}, nil},
		{"crew between scenes", []plan.Scene{pinned("1", "9:00", "ann"), pinned("2", "10:50", "ann")}, []plan.Person{{ID: "ann", Role: plan.Crew}}, nil},
		{"a guardian away", []plan.Scene{pinned("1", "9:00", "ivy")},
			[]plan.Person{{ID: "ivy", Name: "Ivy", Minor: true, Guardian: "gus"}, {ID: "gus", Name: "Gus Holt"}},
			[]string{"Ivy is a minor; Gus Holt, the guardian, is not called for all of that time and must be there all the same"}},
		{"a guardian away from a minor by birth", []plan.Scene{pinned("1", "9:00", "ivy")},
			[]plan.Person{{ID: "ivy", Name: "Ivy", Born: young, Guardian: "gus"}, {ID: "gus", Name: "Gus Holt"}},
			[]string{"Ivy is a minor; Gus Holt, the guardian, is not called for all of that time and must be there all the same"}},
		{"18 that day", []plan.Scene{pinned("1", "9:00", "ivy")},
			[]plan.Person{{ID: "ivy", Born: young.AddDays(-1), Guardian: "gus"}, {ID: "gus"}}, nil},
		{"a guardian who leaves before", []plan.Scene{pinned("1", "9:00", "gus"), pinned("2", "12:00", "ivy")},
			[]plan.Person{{ID: "ivy", Name: "Ivy", Minor: true, Guardian: "gus"}, {ID: "gus", Name: "Gus Holt"}},
			[]string{"Ivy is a minor; Gus Holt, the guardian, is not called for all of that time and must be there all the same"}},
		{"a guardian of somebody grown up", []plan.Scene{pinned("1", "9:00", "ivy")}, []plan.Person{{ID: "ivy", Guardian: "gus"}, {ID: "gus"}}, nil},
		{"a guardian in the scene", []plan.Scene{pinned("1", "9:00", "ivy", "gus")},
			[]plan.Person{{ID: "ivy", Minor: true, Guardian: "gus"}, {ID: "gus"}}, nil},
		{"a guardian in the crew", []plan.Scene{pinned("1", "9:00", "ivy")},
			[]plan.Person{{ID: "ivy", Minor: true, Guardian: "gus"}, {ID: "gus", Role: plan.Crew}}, nil},
	} {
		p := small(c.scenes...)
		p.People = c.people
		d := placed(t, p, on)
		sound(t, c.name, p, d)
		var got []string
		for _, problem := range d.Problems {
			got = append(got, problem.String())
			if problem.Level != plan.Warning || problem.Path == "" {
				t.Errorf("%s: %+v", c.name, problem)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]int{0: 0, 0.004: 0, 0.005: 1, 0.494: 49, 0.994: 99, 0.9999: 99, 1: 100} {
		if got := Percent(share); got != want {
			t.Errorf("%v is %d %%, want %d", share, got, want)
		}
	}
}

// TestWeatherCallsForCover: cloud over a scene that wants the sun itself, and rain on one outside, call for the cover
// scene; cloud takes from its light. Indoors, in clear hours and where the light does not come, nothing is said.
func TestWeatherCallsForCover(t *testing.T) {
	on := date(t, "2027-10-16")
	p := demo(t)
	for i := len(p.Scenes) - 1; i >= 0; i-- {
		if id := p.Scenes[i].ID; id != "coffee" && id != "nook" && id != "breakfast" {
			p.RemoveScene(i)
		}
	}
	clear := placed(t, p, on)
	p.Shooting.Weather = []plan.Weather{{Date: on, To: plan.ClockAt(9 * 60), Cloud: 80, Rain: 40}}
	d := placed(t, p, on)
	var got []string
	for _, problem := range d.Problems {
		if problem.Code == plan.CloudExpected || problem.Code == plan.RainExpected {
			got = append(got, problem.String())
		}
	}
	want := []string{
		"scene 2 wants the sun itself, and 80% cloud is expected; its cover is scene 5",
		"scene 2 is outside, and the chance of rain is 40%; its cover is scene 5",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	kept := func(d Day) float64 {
		i := slices.IndexFunc(d.Scenes, func(s Placed) bool { return s.Scene == "coffee" })
		return d.Scenes[i].Kept
	}
	if kept(clear) != 1 || kept(d) > 0.21 || kept(d) < 0.19 {
		t.Errorf("coffee keeps %v of its light when clear, %v under 80%% cloud", kept(clear), kept(d))
	}
}

// TestFrameIsWarned: a lens that looks at the low sun has it in the frame; one that looks away from it has the shadow.
func TestFrameIsWarned(t *testing.T) {
	on := date(t, "2027-10-16")
	for camera, want := range map[plan.Bearing]plan.Code{115: plan.SunInFrame, 295: plan.ShadowInFrame, 25: ""} {
		p := demo(t)
		i := slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == "coffee" })
		p.Scenes[i].Wish.Camera, p.Scenes[i].View = &camera, 60
		var got plan.Code
		for _, problem := range placed(t, p, on).Problems {
			ours := problem.Code == plan.SunInFrame || problem.Code == plan.ShadowInFrame
			if ours && problem.Facts[0] == p.Scenes[i].Number {
				got = problem.Code
			}
		}
		if got != want {
			t.Errorf("a lens toward %v: %q, want %q", camera, got, want)
		}
	}
}
