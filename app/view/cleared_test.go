package view

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/people"
)

// clearing is an invented film: Ann has signed, with a scan, Bo's is sent, Cy declined, nothing is written down for Di or for the
// flight, and the song lapsed. The figures in the tests are counted by hand from here.
func clearing() session.State {
	p := plan.New()
	p.Property.Spaces = []plan.Space{{ID: "pool", Kind: plan.Outdoor}, {ID: "air", Kind: plan.Aerial}}
	p.People = []plan.Person{{ID: "ann", Name: "Ann Wray"}, {ID: "bo", Name: "Bo Lund", Minor: true}, {ID: "cy", Name: "Cy Dorn"}, {ID: "di", Name: "Di Falk"}}
	p.Scenes = []plan.Scene{
		{ID: "a", Number: "1", Title: "Breakfast", Space: "pool", Seconds: 10, People: []plan.ID{"ann", "bo"}},
		{ID: "b", Number: "2", Title: "Lengths", Space: "pool", Seconds: 20, People: []plan.ID{"ann"}},
		{ID: "c", Number: "3", Title: "Dusk", Space: "air", Seconds: 30},
		{ID: "d", Number: "4", Title: "Toast", Space: "pool", Seconds: 40, People: []plan.ID{"bo", "cy", "di"}},
	}
	on := func(day int) plan.Date { return plan.Date{Year: 2027, Month: 9, Day: day} }
	p.Releases = []plan.Release{
		{ID: "ann", Kind: plan.ModelRelease, Party: "ann", Status: plan.Signed, SignedBy: "Ann Wray", Changed: on(20), Scan: &plan.Scan{Path: "ann.pdf"}},
		{ID: "bo", Kind: plan.MinorRelease, Party: "bo", Status: plan.Sent, Changed: on(21)},
		{ID: "cy", Kind: plan.ModelRelease, Party: "cy", Status: plan.Declined},
		{ID: "song", Kind: plan.MusicRelease, Subject: "the slow song", Status: plan.Signed, SignedBy: "E. Voss", Relation: "publisher", Until: on(30), Scenes: []plan.ID{"b"}},
	}
	p.Brief.Deliverables = []plan.Deliverable{{Name: "Film", Seconds: 90}, {Name: "Cut", Seconds: 15, Scenes: []plan.ID{"b"}}, {Scenes: []plan.ID{"d"}}}
	st := session.State{Plan: p}
	st.Results.Chosen.Date = plan.Date{Year: 2027, Month: 10, Day: 16}
	return st
}

func TestTellPermission(t *testing.T) {
	st := clearing()
	gone := plan.Problem{Code: plan.ScanMissing, Facts: []any{"ann.pdf"}}
	for _, c := range []struct {
		name        string
		row, column int
		doubted     bool
		want        Permission
	}{
		{"one that is cleared", -1, 0, false, Permission{"Ann Wray", []string{"The model release is signed.", "Signed by Ann Wray.",
			"It stands so since Monday 20 September 2027.", "Every scene that needs it has it."}, "ann"}},
		{"in one scene", 1, 0, false, Permission{"Ann Wray", []string{"The model release for scene 2  Lengths is signed.", "Signed by Ann Wray.",
			"It stands so since Monday 20 September 2027.", "Every scene that needs it has it."}, "ann"}},
		{"in doubt", -1, 0, true, Permission{"Ann Wray", []string{"The model release is signed, but does not count.",
			"Why it does not count: the scan ann.pdf is not there; put it back, or name another.", "Signed by Ann Wray.",
			"It stands so since Monday 20 September 2027.", "Scenes 1 and 2 wait for it.",
			"If it is not given, scenes 1 and 2 fall away; Film loses 30 s, which leaves 70 s for its 90 s; Cut loses 20 s, which leaves 0 s for its 15 s."}, "ann"}},
		{"a minor's, in a scene without them", 1, 1, false, Permission{"Bo Lund", []string{"Scene 2  Lengths does not need it.",
			"The minor release is sent, not signed yet.", "It stands so since Tuesday 21 September 2027.", "Scenes 1 and 4 wait for it.",
			"If it is not given, scenes 1 and 4 fall away; Film loses 50 s, which leaves 50 s for its 90 s."}, "bo"}},
		{"declined", 3, 2, false, Permission{"Cy Dorn", []string{"The model release for scene 4  Toast is declined.", "Scene 4 waits for it.",
			"If it is not given, scene 4 falls away; Film loses 40 s, which leaves 60 s for its 90 s."}, "cy"}},
		{"not written down", -1, 3, false, Permission{"Di Falk", []string{"The model release is not written down yet.", "Scene 4 waits for it.",
			"If it is not given, scene 4 falls away; Film loses 40 s, which leaves 60 s for its 90 s."}, ""}},
		{"lapsed", -1, 4, false, Permission{"The slow song", []string{"The music release is lapsed.", "It lapses after Thursday 30 September 2027.",
			"Scene 2 waits for it.", "If it is not given, scene 2 falls away; Film loses 20 s, which leaves 80 s for its 90 s; Cut loses 20 s, which leaves 0 s for its 15 s."}, "song"}},
		{"a flight", 2, 5, false, Permission{"Flights, for which no release is written down", []string{"The drone release for scene 3  Dusk is not written down yet.",
			"Scene 3 waits for it.", "If it is not given, scene 3 falls away; Film loses 30 s, which leaves 70 s for its 90 s."}, ""}},
	} {
		st.Results.Scans = nil
		if c.doubted {
			st.Results.Scans = people.Doubts{"ann": gone}
		}
		if got := TellPermission(st, Cleared(st), c.row, c.column); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s:\n got %q\nwant %q", c.name, got, c.want)
		}
	}
}

// TestClearedHeads: how each row and column stands, in a few words, and the sums.
func TestClearedHeads(t *testing.T) {
	st := clearing()
	c := Cleared(st)
	var rows, columns []string
	for _, s := range c.Scenes {
		rows = append(rows, SceneClearance(s))
	}
	for i := range c.Permissions {
		columns = append(columns, PermissionClearance(c, i))
	}
	if want := []string{"waits for 1", "waits for 1", "waits for 1", "waits for 3"}; !slices.Equal(rows, want) {
		t.Errorf("rows %q", rows)
	}
	if want := []string{"model release, cleared", "minor release, 2 scenes wait for it", "model release, 1 scene waits for it",
		"model release, 1 scene waits for it", "music release, 1 scene waits for it", "drone release, 1 scene waits for it"}; !slices.Equal(columns, want) {
		t.Errorf("columns %q", columns)
	}
	lines := []string{"Film: waits for 5 signatures in 4 scenes.", "Cut: waits for 1 signature in 1 scene.", "unnamed deliverable: waits for 3 signatures in 1 scene."}
	lines = append(lines, "Scene 3 is flown, and nobody of the crew has a drone pilot's certificate; fill it in with the pilot.",
		"Scene 3 is flown, and nobody has said by then that they read the rules of the local aviation authority; say it with the rules of the day.")
	if got := ClearedLines(st, 4); !slices.Equal(got, lines) {
		t.Errorf("lines %q", got)
	}
	few := []string{"0 of 3 deliverables are cleared.", lines[0], "2 more wait."}
	if got := ClearedLines(st, 1); !slices.Equal(got, append(few, lines[3:]...)) {
		t.Errorf("where one alone has room: %q", got)
	}
	st.Results.Chosen.Date = plan.Date{Year: 2027, Month: 9, Day: 30} // the song's last day
	if got, want := ClearedSum(st, Cleared(st)), "1 of 4 scenes are cleared, judged by Thu 30 Sep 2027."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := ClearedSum(session.State{}, people.Clearance{}); got != "" {
		t.Errorf("without scenes: %q", got)
	}
}

// TestDoubtedScanIsToldEverywhere: on the rail, in the lists, and beside the release.
func TestDoubtedScanIsToldEverywhere(t *testing.T) {
	st := state(t, demo(t))
	if row := PersonRows(st)[0]; row.ID != "nina" || strings.Contains(row.Sub, "not signed") {
		t.Fatalf("Nina has signed: %+v", row)
	}
	st.Results.Scans = people.Doubts{"model-nina": {Code: plan.ScanChanged, Facts: []any{"nina.pdf"}}, "house": {Code: plan.ScanMissing, Facts: []any{"house.pdf"}}}
	if got := Lacking(People, st); got != "6 releases to be signed" {
		t.Errorf("the rail says %q", got)
	}
	if row := PersonRows(st)[0]; !strings.Contains(row.Sub, "not signed") {
		t.Errorf("her line says %q", row.Sub)
	}
	if row := ReleaseRows(st)[0]; row.Mark != "scan in doubt" {
		t.Errorf("her release's line says %q", row.Mark)
	}
	if got := ReleaseStanding(st, "model-nina"); !strings.HasPrefix(got, "The scan nina.pdf is not what it was") {
		t.Errorf("beside her release: %q", got)
	}
	want := "Nina Valdry: the model release is signed, but does not count: the scan nina.pdf is not what it was when it was filed; look at it, and file it again or put the old one back"
	if got := Unsigned(st); got[0] != want {
		t.Errorf("unsigned: %q", got[0])
	}
}

func TestCutWords(t *testing.T) {
	p := clearing().Plan
	for i, want := range [][2]string{
		{"Film: all scenes", "scenes give 100 s of 90 s"}, {"Cut: 1 of 4 scenes", "scenes give 20 s of 15 s"}, {"unnamed deliverable: 1 of 4 scenes", "scenes give 40 s"},
	} {
		d := p.Brief.Deliverables[i]
		if from, gives := CutFrom(p, d), CutSeconds(p, d); from != want[0] || gives != want[1] {
			t.Errorf("%q, %q; want %q", from, gives, want)
		}
	}
	if got := CutSeconds(p, plan.Deliverable{Seconds: 45, Scenes: []plan.ID{"a", "c"}}); got != "scenes give 40 s of 45 s, 5 s too few" {
		t.Errorf("%q", got)
	}
}

// TestManyScenesInASentence: some are named, short, and the rest counted.
func TestManyScenesInASentence(t *testing.T) {
	p := plan.New()
	var ids []plan.ID
	for i := range mostScenes + 3 {
		p.Scenes = append(p.Scenes, plan.Scene{ID: plan.ID(fmt.Sprint("s", i)), Number: fmt.Sprint(i + 1)})
		ids = append(ids, p.Scenes[i].ID)
	}
	p.Scenes[0] = plan.Scene{ID: "s0", Title: strings.Repeat("long ", 50)}
	got := sceneNumbers(p, ids, "scene %s falls", "scenes %s fall")
	if !strings.HasPrefix(got, "scenes long long long long long long…, 2, 3,") || !strings.HasSuffix(got, ", 23, 24 and 3 more fall") {
		t.Errorf("%q", got)
	}
	if got := sceneNumbers(p, ids[1:mostScenes+2], "scene %s falls", "scenes %s fall"); !strings.HasSuffix(got, ", 25 and 26 fall") {
		t.Errorf("one more is named: %q", got)
	}
}

// TestStandingWords: every status has a word.
func TestStandingWords(t *testing.T) {
	seen := map[string]bool{StandingWord(people.Standing{}): true}
	for _, s := range plan.ReleaseStatuses {
		seen[StandingWord(people.Standing{Needed: true, Status: s})] = true
	}
	seen[StandingWord(people.Standing{Needed: true, Status: plan.Signed, Doubt: &plan.Problem{}})] = true
	if len(seen) != len(plan.ReleaseStatuses)+2 || seen[""] {
		t.Errorf("the words are %v", seen)
	}
}
