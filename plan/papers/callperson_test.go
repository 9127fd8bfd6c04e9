package papers

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// dressed is the demo with clothes, a wait and somebody to ask.
func dressed(t testing.TB) (plan.Plan, day.Day) {
	p, d := demo(t)
	p.Papers.Producer = "Noor Halvardsen"
	p.Scenes[2].Looks = []plan.Look{{Person: "mia", Look: "yellow apron"}, {Person: "amara", Look: "linen dress"}}
	for i := range d.People {
		if d.People[i].Person == "mia" {
			d.People[i].Waiting = []plan.Span{{From: d.Call.Add(3 * time.Hour), To: d.Call.Add(4 * time.Hour)}}
		}
	}
	return p, d
}

func TestGoldenPersonSheets(t *testing.T) {
	p, d := dressed(t)
	got := PersonSheet(&p, d, "amara").Text() + "\n\n" + PersonSheet(&p, d, "mia").Text()
	golden := filepath.Join("testdata", "personsheets.txt")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || got != string(want) {
		t.Errorf("a person's call sheet has changed (%v); look at it, then run with -update. Now:\n%s", err, got)
	}
}

// TestNothingPrivateLeaksToOnePerson: one person's sheet holds no phone but the maker's, no fee, no birth, no diet, for anybody.
func TestNothingPrivateLeaksToOnePerson(t *testing.T) {
	p, d := dressed(t)
	private(&p)
	d.LeftOut = nil
	for _, who := range p.People {
		for _, uncalled := range []bool{false, true} {
			d := d
			if uncalled {
				d.People = slices.DeleteFunc(slices.Clone(d.People), func(c day.Presence) bool { return c.Person == who.ID })
			}
			s := PersonSheet(&p, d, who.ID, d)
			for _, text := range []string{all(s), s.Text(), pdfText(t, s, plan.Letter)} {
				for _, secret := range []string{"LEAK", "1984", "2017", "@"} {
					if strings.Contains(text, secret) {
						t.Errorf("%s reads %q:\n%s", who.ID, secret, text)
					}
				}
				for _, other := range p.People {
					if other.ID != "noor" && strings.Contains(text, other.Phone) {
						t.Errorf("%s reads the phone of %s", who.ID, other.ID)
					}
				}
			}
			if !strings.Contains(s.Text(), "Questions: Noor Halvardsen, +1 760 555 0101") {
				t.Errorf("%s does not know whom to ask", who.ID)
			}
		}
	}
}

// TestPersonSheetIsTheirs: their own scenes with clothes, meals and waits, and nobody else's; crew have them all.
func TestPersonSheetIsTheirs(t *testing.T) {
	p, d := dressed(t)
	for _, called := range d.People {
		text := spaces.Replace(PersonSheet(&p, d, called.Person).Text())
		who, _ := p.Person(called.Person)
		for _, placed := range d.Scenes {
			sc := mustScene(t, &p, placed.Scene)
			theirs := who.Role == plan.Crew || slices.Contains(sc.People, who.ID)
			for _, q := range p.People {
				theirs = theirs || q.Minor && q.Guardian == who.ID && slices.Contains(sc.People, q.ID)
			}
			if got := strings.Contains(text, sc.Number+" "+sc.Title+"\n"); got != theirs {
				t.Errorf("%s reads of scene %s: %v", who.ID, sc.Number, got)
			}
		}
	}
	for who, wants := range map[plan.ID][]string{
		"mia": {"for Amara Sandoval, the guardian", "The call of Mia Sandoval: 07:20", "until about 16:45", "wear: yellow apron", "08:25–09:25 · Free until the next scene, 1 h",
			"11:25–12:10 · Meal, 45 min", "Guardian: Amara Sandoval, at the property the whole time", "Release: minor's release: needed – please sign before you arrive",
			"Minors: local law", "16:45 · Free to go, at about this time"},
		"amara": {"Your call: 06:30", "Mia Sandoval 07:20", "wear: linen dress", "THE DAY OF MIA SANDOVAL", "THE DAY OF JON SANDOVAL", "Release: signed", "golden evening, direct, 17:13–17:36"},
		"paul":  {"Wear: what you like and can move in"},
		"teo":   {"Your call: 05:25", "SCHEDULE", "Drone: the local", "move 06:30–06:35"},
		"otto":  {"Your call: not called", "You are not called on this day.", "Getting there: From Highway 62"},
		"gone":  {"gone", "not called"},
	} {
		text := spaces.Replace(PersonSheet(&p, d, who).Text())
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("the sheet of %s lacks %q:\n%s", who, want, text)
			}
		}
	}
	if text := PersonSheet(&p, d, "paul").Text(); strings.Contains(text, "Drone:") || strings.Contains(text, "SCHEDULE") {
		t.Error("Paul is told of what he has no part in")
	}
}

// TestPersonSheetWithoutTheirGuardian: a minor whose guardian is not filled in, or is a minor, has a sheet all the same.
func TestPersonSheetWithoutTheirGuardian(t *testing.T) {
	p, d := dressed(t)
	for i := range p.People {
		if p.People[i].ID == "mia" {
			p.People[i].Guardian, p.People[i].GuardianThere = "", plan.Reachable
		}
		if p.People[i].ID == "jon" {
			p.People[i].Guardian = "mia"
		}
	}
	text := PersonSheet(&p, d, "mia").Text()
	if !strings.Contains(text, "for the guardian, who is not filled in") || !strings.Contains(text, "Guardian: not filled in") || strings.Contains(text, "THE DAY OF JON") {
		t.Errorf("got\n%s", text)
	}
}

// TestChangesThatConcernSomebody: each reads of what is on their sheet, and of scenes they were in; crew of all.
func TestChangesThatConcernSomebody(t *testing.T) {
	p, d := changed(t)
	const since = "Changed since revision 1"
	for who, want := range map[plan.ID][]string{
		"paul": {"Parking: changed", "Scene 5 Swim: 10:50, was 10:45", "Scene 7 Lunch on the terrace: until 13:30, was 13:25", "Safety: changed"},
		"amara": {"Parking: changed", "Scene 5 Swim: 10:50, was 10:45", "Scene 6 Reading corner: 12:20, changed", // the move before it
			"Scene 7 Lunch on the terrace: until 13:30, was 13:25", "Scene 4 Homework at the counter: 13:40, changed", "Safety: changed"},
		"noor": {"Noor Halvardsen: not called any more", "Parking: changed", "Safety: changed"},
	} {
		s := PersonSheet(&p, d, who)
		if got := listOf(s, since); !slices.Equal(got, want) {
			t.Errorf("%s reads %q, want %q", who, got, want)
		}
		if !strings.Contains(s.Text(), "day 1 of 1, revision 2\n") {
			t.Errorf("%s has another revision:\n%s", who, s.Text())
		}
	}
	if got := listOf(PersonSheet(&p, d, "teo"), since); !slices.Equal(got, listOf(CallSheet(&p, d), since)) {
		t.Errorf("crew read %q", got)
	}
	p, d = sent(t)
	d.People[3].Release = d.Wrap // Dora's
	s := PersonSheet(&p, d, "paul")
	if got := listOf(s, since); !slices.Equal(got, []string{"Nothing that is on this sheet."}) {
		t.Errorf("nothing of Paul's has changed: %q", got)
	}
	d.People[5].Call = d.Call // Paul's
	if got := marks(PersonSheet(&p, d, "paul")); got["Your call"] != "was 06:30" {
		t.Errorf("Paul's call is marked %q", got)
	}
}

// TestPersonSheetsPrint in both sizes, clocks and other languages: every text is there, and no time is broken.
func TestPersonSheetsPrint(t *testing.T) {
	p, d := changed(t)
	for _, size := range plan.PaperSizes {
		for _, clock := range plan.HourClocks {
			p.Papers.Clock, p.Papers.Dates = clock, "es"
			for _, s := range []Sheet{CallSheet(&p, d), PersonSheet(&p, d, "amara"), PersonSheet(&p, d, "teo")} {
				holds(t, s, size)
			}
		}
	}
	tortured, on := torture(t)
	holdsWords(t, PersonSheet(&tortured, on, "p0"), plan.A4)
}

// TestTimesStandOnOneLine measures the longest times in the columns that they have.
func TestTimesStandOnOneLine(t *testing.T) {
	p, d := dressed(t)
	late := plan.Instant(d.Date, plan.ClockAt(22*60+55), d.Zone)
	for _, clock := range plan.HourClocks {
		p.Papers.Clock = clock
		d.Scenes[0] = day.Placed{Scene: "s2", Setup: late.Add(-20 * time.Minute), Start: late, End: late.Add(2 * time.Hour)}
		d.Moves = []day.Move{{Span: plan.Span{From: d.Scenes[0].Setup.Add(-12 * time.Hour), To: d.Scenes[0].Setup}}}
		for i := range d.People {
			d.People[i].Call, d.People[i].Release = late.Add(-12*time.Hour), late.Add(2*time.Hour)
			d.People[i].OnCamera = onCamera(&p, d, d.People[i].Person)
		}
		for _, s := range []Sheet{CallSheet(&p, d), PersonSheet(&p, d, "amara")} {
			set := s.lay(plan.A4, madeAt).setter()
			for _, sec := range s.Sections {
				if len(sec.Table.Columns) == 0 {
					continue
				}
				for _, r := range sec.Table.Rows {
					x := set.edges(sec.Table)
					for text, f := range map[string]face{r.Cells[0].Strong: faceStrong, r.Cells[0].Text: faceText} {
						if got, want := len(set.wrap(text, f, x[1]-gutter)), strings.Count(text, "\n")+1; got > want {
							t.Errorf("%s, %s: %q takes %d lines", clock, sec.Heading, text, got)
						}
					}
				}
			}
		}
	}
}
