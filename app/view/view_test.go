package view

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/store"
)

// state is what the session would hold once the background has come to rest.
func state(t *testing.T, p plan.Plan) session.State {
	t.Helper()
	chosen, err := day.Chosen(context.Background(), &p)
	if err != nil {
		t.Fatal(err)
	}
	return session.State{Plan: p, Results: session.Results{
		Wrong: plan.Validate(p), Lacks: plan.Lacks(p), Chosen: chosen, Placed: true, Days: []day.Day{chosen}, Of: 1, Shoot: day.Shoot{Days: []day.Day{chosen}},
	}}
}

func demo(t *testing.T) plan.Plan {
	t.Helper()
	p, _, err := store.Read("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestLacking(t *testing.T) {
	empty, full := state(t, plan.New()), state(t, demo(t))
	for _, c := range []struct {
		page        Page
		empty, full string
	}{
		{Brief, "the plan has no title, and 2 more", "Harrow Lane Estates"},
		{Property, "the position is not set, so the light can't be computed, and 3 more", "7 spaces"},
		{Scenes, "there is no scene yet", "14 scenes"},
		{People, "nobody is listed", "4 releases to be signed"},
		{Day, "no date is proposed", "1 scene left out"},
		{Papers, "the nearest hospital is not filled in, and 1 more", "call sheet; 4 releases to be signed"},
	} {
		if got := Lacking(c.page, empty); got != c.empty {
			t.Errorf("%s of an empty plan: %q, want %q", c.page, got, c.empty)
		}
		if got := Lacking(c.page, full); got != c.full {
			t.Errorf("%s of the demo: %q, want %q", c.page, got, c.full)
		}
	}
}

// TestNoDayYet: while the first placing is under way no date is told, and nobody is asked for one.
func TestNoDayYet(t *testing.T) {
	st := session.State{Plan: demo(t)}
	st.Results.Busy = true
	if got := Lacking(Day, st); got != "no day is placed yet" {
		t.Errorf("the rail says %q", got)
	}
	if got := NoDay(st); got != "No day is placed yet." {
		t.Errorf("the page says %q", got)
	}
	for part, got := range map[string]string{
		"a person": PersonDay(st, "nina"), "a scene": SceneDay(st, "coffee"), "its lamp": LampLine(st, "coffee"), "a space": SpaceSun(st, nil, "kitchen", 0),
		"the house": NoSky(st, "set something"),
	} {
		if got != "No day is placed yet." {
			t.Errorf("of %s is said %q", part, got)
		}
	}
	st.Plan.Property.Position = nil
	if got := SpaceSun(st, nil, "kitchen", 0); got != "Set the position and a date, and the sun in this space is told." {
		t.Errorf("without a position of a space is said %q", got)
	}
}

func TestTitle(t *testing.T) {
	for _, c := range []struct {
		st   session.State
		want string
	}{
		{session.State{}, "Untitled plan – Eavelight"},
		{session.State{Plan: plan.Plan{Title: "A"}, Dirty: true}, "• A – Eavelight"},
	} {
		if got := Title(c.st); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// TestEverySceneIsSpokenFor: each scene of the demo has a line, and its line and its sentence tell the same.
func TestEverySceneIsSpokenFor(t *testing.T) {
	st := state(t, demo(t))
	rows := SceneRows(st)
	if len(rows) != len(st.Plan.Scenes) {
		t.Fatalf("%d lines for %d scenes", len(rows), len(st.Plan.Scenes))
	}
	out := 0
	for _, r := range rows {
		said := SceneDay(st, r.ID)
		if r.Mark == "left out" {
			out++
			if !strings.Contains(said, "cenes 11 and 12") {
				t.Errorf("%s is left out, and the sentence is %q", r.Title, said)
			}
			continue
		}
		if !strings.Contains(said, "shooting "+r.Mark) || !strings.Contains(said, "% of its light") {
			t.Errorf("%s at %s, and the sentence is %q", r.Title, r.Mark, said)
		}
	}
	if out != 1 {
		t.Errorf("%d scenes are left out, want 1", out)
	}
}

func TestPeople(t *testing.T) {
	st := state(t, demo(t))
	rows := PersonRows(st)
	i := slices.IndexFunc(rows, func(r Row) bool { return r.ID == "ivy" })
	if !strings.Contains(rows[i].Sub, "minor") || !strings.Contains(rows[i].Sub, "not signed") {
		t.Errorf("the child's line: %+v", rows[i])
	}
	if got := PersonDay(st, "odile"); !strings.HasPrefix(got, "Not called on ") {
		t.Errorf("somebody who is in no scene: %q", got)
	}
	if got := PersonDay(st, "marek"); !strings.Contains(got, "Waiting 0 min") {
		t.Errorf("somebody in one scene: %q", got)
	}
}

func TestTroublesTellEachOnce(t *testing.T) {
	st := state(t, demo(t))
	got := Troubles(st.Results.Chosen)
	sorted := slices.Clone(got)
	slices.Sort(sorted)
	if len(slices.Compact(sorted)) != len(got) || !strings.HasPrefix(got[0], "Scenes 11 and 12") {
		t.Errorf("%q", got)
	}
	if last := got[len(got)-1]; strings.Count(last, " waits ") < 2 {
		t.Errorf("those who wait are not one line: %q", last)
	}
}

func TestStatus(t *testing.T) {
	st := state(t, demo(t))
	if got := Status(st); !strings.HasPrefix(got, "Sat 16 Oct 2027") || !strings.Contains(got, "proven best") {
		t.Errorf("%q", got)
	}
	st.Results.Busy, st.Results.Of, st.Results.Days = true, 3, nil
	if got := Status(st); got != "Placing the scenes: date 1 of 3…" {
		t.Errorf("%q", got)
	}
	if got := Status(state(t, plan.New())); got != "The position is not set, so the light can't be computed." {
		t.Errorf("%q", got)
	}
}

// TestLightBandsInOrder: blue before golden in the morning, after it in the evening, and the marks between them.
func TestLightBandsInOrder(t *testing.T) {
	d := state(t, demo(t)).Results.Chosen
	bands := LightBands(d)
	if len(bands) != 4 {
		t.Fatalf("%d bands", len(bands))
	}
	for i := 1; i < len(bands); i++ {
		if bands[i].From.Before(bands[i-1].To) {
			t.Errorf("%s begins before %s ends", bands[i].Name, bands[i-1].Name)
		}
	}
	if marks := SunMarks(d); len(marks) != 3 || !marks[0].From.Before(marks[1].From) || !marks[1].From.Before(marks[2].From) {
		t.Errorf("%+v", marks)
	}
}

// TestShelf: every paper of the set is on it once, and can be looked at.
func TestShelf(t *testing.T) {
	st := state(t, demo(t))
	shelf := ShelfOf(st, time.Date(2027, 9, 1, 12, 0, 0, 0, time.UTC))
	var kinds []string
	all := 0
	for _, k := range shelf.Kinds {
		kinds = append(kinds, k.Kind)
		for _, p := range k.Papers {
			all++
			looked := shelf.Look(p.Name, 99, 300)
			if (looked.Picture == nil) == (looked.Words == "") || looked.Page != looked.Pages || p.About == "" {
				t.Errorf("%s, %q: page %d of %d, %q", p.Name, p.About, looked.Page, looked.Pages, looked.Words)
			}
			if looked.Picture != nil && looked.Picture.Rect.Dx() != 300 {
				t.Errorf("%s is drawn %d wide", p.Name, looked.Picture.Rect.Dx())
			}
		}
	}
	if all < 10 || shelf.Count(kinds) != all || shelf.Count(nil) != 0 {
		t.Errorf("%d papers, %d counted", all, shelf.Count(kinds))
	}
	if !slices.Contains(shelf.Missing, "Ruth Åsgård: the model release is sent, not signed.") {
		t.Errorf("missing: %q", shelf.Missing)
	}
}

// TestShelfWithoutADay says why there are no call sheets, and offers what needs no day.
func TestShelfWithoutADay(t *testing.T) {
	p := plan.New()
	p.Releases = []plan.Release{{ID: "r", Kind: plan.MusicRelease}}
	shelf := ShelfOf(state(t, p), time.Time{})
	if len(shelf.Missing) == 0 || shelf.Missing[0] != "There are no call sheets yet. The position is not set, so the light can't be computed." {
		t.Errorf("missing: %q", shelf.Missing)
	}
	if looked := shelf.Look("releases/release-r.pdf", 1, 100); looked.Pages != 1 {
		t.Errorf("%+v", looked)
	}
}

func TestLamp(t *testing.T) {
	p := demo(t)
	st := state(t, p)
	if got := LampLine(st, "piano"); !strings.Contains(got, "the lamp gives 710 lux at 1.8 m") || !strings.Contains(got, "exposure value") {
		t.Errorf("indoors: %q", got) // 6500 lux at 1 m, 1.8 m away, 1.5 stops lost: 6500 / 3.24 / 2.83 = 709
	}
	i := slices.IndexFunc(p.Scenes, func(s plan.Scene) bool { return s.ID == "lengths" })
	p.Scenes[i].Lamp = &plan.Lamp{Lux: 6500, Rated: 1, Subject: 3}
	if got := LampLine(state(t, p), "lengths"); !strings.Contains(got, "stops under") || !strings.Contains(got, "small lamps seldom overpower daylight") {
		t.Errorf("in the sun: %q", got)
	}
	if got := LampLine(state(t, p), "toast"); got != "The scene is not placed on Sat 16 Oct 2027." {
		t.Errorf("a scene left out: %q", got)
	}
}

func TestSunWords(t *testing.T) {
	p := demo(t)
	p.Shooting.Date = plan.Date{Year: 2027, Month: 10, Day: 16}
	st := state(t, p)
	d := st.Results.Chosen
	minute := func(h, m int) int { return d.Sky.MinuteAt(plan.ClockAt(60*h + m)) }
	for _, c := range []struct {
		h, m int
		want string
	}{
		{12, 0, "12:00: sun 40° high at 164° SSE"},
		{7, 20, "07:20: sun 1° high at 102° ESE, behind the skyline"},
		{5, 0, "05:00: the sun is 27° under the horizon"},
	} {
		if got := SunLine(d.Sky, minute(c.h, c.m)); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	if got := SpaceSun(st, d.Sky, "north-room", minute(12, 0)); got != "No sun reaches it that day. At 12:00 it lies in open shade." {
		t.Errorf("a room to the north: %q", got)
	}
	if got := BearingAdvice(p); !strings.Contains(got, "13.2° are added") {
		t.Errorf("%q", got)
	}
	if got := ObstacleAngles(p); !strings.HasPrefix(got, "Spruce row stands 1.4° high, Boat house roof stands 2.9° high.") {
		t.Errorf("%q", got) // atan(4/160) and atan(3/60)
	}
}

func TestCloudSpansJoin(t *testing.T) {
	p := demo(t)
	p.Shooting.Date = plan.Date{Year: 2027, Month: 10, Day: 9}
	d := state(t, p).Results.Chosen
	spans := CloudSpans(d)
	if len(spans) != 1 || spans[0].Share != 0.8 || clock(d, spans[0].From) != "05:00" || clock(d, spans[0].To) != "11:00" {
		t.Errorf("%+v", spans)
	}
}

// TestWhatIsSaidHasEffect: the way from home, the shoot log and the releases about things are not only stored.
func TestWhatIsSaidHasEffect(t *testing.T) {
	p := demo(t)
	p.Log = []plan.LogEntry{{Scene: "coffee", Date: plan.Date{Year: 2027, Month: 10, Day: 16}, Start: plan.ClockAt(450), End: plan.ClockAt(475), Note: "two takes"}}
	st := state(t, p)
	if got := PersonDay(st, "nina"); !strings.Contains(got, "called 07:10") || !strings.Contains(got, "Leaves home by 06:45.") {
		t.Errorf("25 minutes before the call: %q", got)
	}
	if got := SceneDay(st, "coffee"); !strings.HasPrefix(got, "Shot Sat 16 Oct 2027, 07:30–07:55 (two takes). ") {
		t.Errorf("the shoot log: %q", got)
	}
	want := "Flights over the tarn and the house: the drone release is needed, not signed"
	if got := Unsigned(st); len(got) != 4 || got[3] != want {
		t.Errorf("%q, want %q last", got, want)
	}
}

// TestReleaseRows: whom each is about, how far it is, and what the deliverables wait for.
func TestReleaseRows(t *testing.T) {
	st := session.State{Plan: plan.New()}
	st.Plan.Brief.Deliverables = []plan.Deliverable{{Name: "Film"}, {Name: "Cut", Scenes: []plan.ID{"b"}}}
	st.Plan.People = []plan.Person{{ID: "ann", Name: "Ann Wray"}}
	st.Plan.Scenes = []plan.Scene{{ID: "a", Number: "1", People: []plan.ID{"ann"}}, {ID: "b", Number: "2"}}
	st.Plan.Releases = []plan.Release{
		{ID: "own", Kind: plan.ModelRelease, Party: "ann", Status: plan.Sent, Media: "web"},
		{ID: "song", Kind: plan.MusicRelease, Subject: "A song", Status: plan.Signed, Scenes: []plan.ID{"a"}},
	}
	want := []Row{
		{ID: "own", Title: "Ann Wray", Sub: "model release · web", Mark: "sent"},
		{ID: "song", Title: "A song", Sub: "music release · 1 scene", Mark: "signed"},
	}
	if got := ReleaseRows(st); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v", got)
	}
	lines := []string{"Film: waits for 1 signature in 1 scene.", "Cut: cleared."}
	if got := ClearedLines(st, 4); !slices.Equal(got, lines) {
		t.Errorf("got %q", got)
	}
	st.Plan.Releases[1].Signature = &plan.Signature{Name: "B. Singer", Digest: strings.Repeat("0", 64)}
	if got := ReleaseStanding(st, "song"); !strings.Contains(got, "text") || ReleaseRows(st)[1].Mark != "text changed" {
		t.Errorf("a signature under another text: %q", got)
	}
}
