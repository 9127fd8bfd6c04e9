package papers

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"

	"pgregory.net/rapid"
)

// sent is the demo whose call sheet was sent as it stands. The slices of the day are its own.
func sent(t testing.TB) (plan.Plan, day.Day) {
	p, d := demo(t)
	p.Papers.Producer = "Noor Halvardsen"
	p.Papers.Sheets = SentSheets(&p, []day.Day{d})
	return p, d
}

// changed is the demo with something of each kind changed since its call sheet was sent.
func changed(t testing.TB) (plan.Plan, day.Day) {
	p, d := sent(t)
	for _, e := range edits {
		if slices.Contains([]string{"another call", "a scene later", "a scene longer", "a scene gone", "somebody gone", "another parking", "another caution"}, e.name) {
			e.do(&p, &d)
		}
	}
	return p, d
}

// edits are changes of a plan and its day, and what the sheet says of them.
var edits = []struct {
	name  string
	do    func(*plan.Plan, *day.Day)
	marks map[string]string // by the first words of what is marked
	lines []string
}{
	{"another call", func(_ *plan.Plan, d *day.Day) { d.Call = d.Call.Add(-10 * time.Minute) },
		map[string]string{"General call": "was 05:25", "05:15 General call": "was 05:25"}, []string{"General call: 05:15, was 05:25"}},
	{"a person's call", func(_ *plan.Plan, d *day.Day) { d.People[4].Call = d.People[4].Call.Add(15 * time.Minute) },
		map[string]string{"07:35–17:35 Grete Sandoval": "was 07:20"}, []string{"Grete Sandoval: 07:35, was 07:20"}},
	{"a person goes later", func(_ *plan.Plan, d *day.Day) { d.People[3].Release = d.People[3].Release.Add(20 * time.Minute) },
		map[string]string{"07:20–13:45 Dora Wexhall": "was until 13:25"}, []string{"Dora Wexhall: until 13:45, was 13:25"}},
	{"a scene later", func(_ *plan.Plan, d *day.Day) {
		d.Scenes[3].Start, d.Scenes[3].End = d.Scenes[3].Start.Add(5*time.Minute), d.Scenes[3].End.Add(5*time.Minute)
	}, map[string]string{"10:50–11:20 5 Swim": "was 10:45"}, []string{"Scene 5 Swim: 10:50, was 10:45"}},
	{"a scene longer", func(_ *plan.Plan, d *day.Day) { d.Scenes[5].End = d.Scenes[5].End.Add(5 * time.Minute) },
		map[string]string{"13:00–13:30 7 Lunch on the terrace": "was until 13:25"}, []string{"Scene 7 Lunch on the terrace: until 13:30, was 13:25"}},
	{"a scene gone", func(_ *plan.Plan, d *day.Day) { d.Scenes = d.Scenes[:len(d.Scenes)-1] },
		map[string]string{"Safety": ""}, []string{"Scene 12 Stars over the pool: not on this day any more"}},
	{"somebody gone", func(_ *plan.Plan, d *day.Day) { d.People = d.People[1:] },
		map[string]string{"Not on this day": "changed"}, []string{"Noor Halvardsen: not called any more"}},
	{"a new scene", func(p *plan.Plan, d *day.Day) {
		p.Scenes = append(p.Scenes, plan.Scene{ID: "s14", Number: "14", Title: "Goodbye", Space: "terrace"})
		d.Scenes = append(d.Scenes, day.Placed{Scene: "s14", Setup: d.Wrap.Add(-20 * time.Minute), Start: d.Wrap.Add(-20 * time.Minute), End: d.Wrap})
	}, map[string]string{"19:30–19:50 14 Goodbye": "new"}, []string{"Scene 14 Goodbye: 19:30, new"}},
	{"another action", func(p *plan.Plan, _ *day.Day) { p.Scenes[1].Action = "Paul opens them." },
		map[string]string{"06:50–07:15 2 Waking": "changed"}, []string{"Scene 2 Waking: 06:50, changed"}},
	{"clothes", func(p *plan.Plan, _ *day.Day) { p.Scenes[1].Looks = []plan.Look{{Person: "paul", Look: "a robe"}} },
		map[string]string{"06:50–07:15 2 Waking": "changed"}, []string{"Scene 2 Waking: 06:50, changed"}},
	{"another parking", func(p *plan.Plan, _ *day.Day) { p.Papers.Parking = "In the yard." }, map[string]string{"Parking": "changed"}, []string{"Parking: changed"}},
	{"a note", func(p *plan.Plan, _ *day.Day) { p.Papers.Notes = "Bring a torch." }, map[string]string{"Note": "new"}, []string{"Note: new"}},
	{"another caution", func(p *plan.Plan, _ *day.Day) { p.Papers.Safety = []string{"Wasps."} }, map[string]string{"Safety": "changed"}, []string{"Safety: changed"}},
	{"a title", func(p *plan.Plan, _ *day.Day) { p.Title = "Another day" }, nil, []string{"Title: changed"}},
	{"a further day", func(_ *plan.Plan, d *day.Day) { d.Of = 2 }, nil, []string{"Number of days: changed"}},
	{"weather", func(p *plan.Plan, d *day.Day) { p.Shooting.Weather = []plan.Weather{{Date: d.Date, Cloud: 40}} },
		map[string]string{"Weather": "changed"}, []string{"Weather: changed"}},
	{"a signature", func(p *plan.Plan, _ *day.Day) { p.Releases[2].Status = plan.Signed },
		map[string]string{"07:20–17:35 Grete Sandoval": "changed"}, []string{"Grete Sandoval: 07:20, changed"}},
	// What no sheet for all says is no change of it.
	{"a fee", func(p *plan.Plan, _ *day.Day) { p.People[4].Paid = true }, nil, nil},
	{"the clock and the language", func(p *plan.Plan, _ *day.Day) { p.Papers.Clock, p.Papers.Dates = plan.Clock12, "es" }, nil, nil},
	{"paper", func(p *plan.Plan, _ *day.Day) { p.Papers.Size = plan.A4 }, nil, nil},
}

// marks are what is marked on a sheet, by the first words of it.
func marks(s Sheet) map[string]string {
	out := map[string]string{}
	put := func(name, mark string) {
		if mark != "" {
			out[spaces.Replace(name)] = spaces.Replace(mark)
		}
	}
	put(s.Key.Name, s.KeyMark)
	for _, sec := range s.Sections {
		put(sec.Heading, sec.Marks[""])
		for _, f := range sec.Facts {
			put(f.Name, sec.Marks[f.Name])
		}
		for _, r := range sec.Table.Rows {
			put(r.Cells[0].Strong+" "+r.Cells[1].Strong+map[bool]string{true: r.Cells[1].Text}[r.Aside], r.Mark)
		}
	}
	return out
}

func listOf(s Sheet, heading string) []string {
	var out []string
	for _, sec := range s.Sections {
		if sec.Heading == heading {
			for _, line := range slices.Concat(sec.List, sec.Text) {
				out = append(out, spaces.Replace(line))
			}
		}
	}
	return out
}

func TestFirstSheetHasNothingToMark(t *testing.T) {
	p, d := demo(t)
	s := CallSheet(&p, d)
	if len(marks(s)) > 0 || !strings.Contains(s.Text(), "day 1 of 1, revision 1\n") || strings.Contains(s.Text(), "CHANGED") {
		t.Errorf("the first sheet:\n%s", s.Text())
	}
	p, d = sent(t)
	if got, want := CallSheet(&p, d), CallSheet(&p, d); got.Text() != want.Text() || len(marks(got)) > 0 || !strings.Contains(got.Foot, "revision 1 ") {
		t.Errorf("sent and unchanged:\n%s", got.Text())
	}
}

// TestWhatHasChangedIsMarked goes through changes one by one: the number, the marks, the list, and that the same revision printed
// again once it is remembered says the same.
func TestWhatHasChangedIsMarked(t *testing.T) {
	for _, e := range edits {
		t.Run(e.name, func(t *testing.T) {
			p, d := sent(t)
			e.do(&p, &d)
			s := CallSheet(&p, d)
			number := 1
			if e.lines != nil {
				number = 2
			}
			if want := fmt.Sprintf("revision %d", number); !strings.HasSuffix(s.Lines[2], want) || !strings.Contains(s.Foot, want+" ") {
				t.Errorf("%q and %q, want %s", s.Lines[2], s.Foot, want)
			}
			got := marks(s)
			for name, mark := range e.marks {
				if got[name] != mark {
					t.Errorf("%q is marked %q, want %q; all: %q", name, got[name], mark, got)
				}
			}
			list := listOf(s, "Changed since revision 1")
			for _, want := range e.lines {
				if !slices.Contains(list, want) {
					t.Errorf("the list lacks %q: %q", want, list)
				}
			}
			if e.lines == nil && (len(got) > 0 || len(list) > 0) {
				t.Errorf("marked %q, listed %q", got, list)
			}
			p.Papers.Sheets = SentSheets(&p, []day.Day{d})
			if found := plan.Validate(p); len(found) > 0 {
				t.Errorf("what is remembered: %v", found)
			}
			if again := CallSheet(&p, d); again.Text() != s.Text() {
				t.Errorf("sent, and then:\n%s\nbefore:\n%s", again.Text(), s.Text())
			}
		})
	}
}

// TestRevisionRisesWithTheWords makes changes at random and sends some of them: the number rises exactly when the words of the sheet,
// leaving number and marks aside, are others than those sent last.
func TestRevisionRisesWithTheWords(t *testing.T) {
	words := func(p plan.Plan, d day.Day) string {
		p.Papers.Dates, p.Papers.Clock = "", ""
		return all(newCaller(&p, d).callSheet()) + fmt.Sprint(max(1, d.Of))
	}
	rapid.Check(t, func(rt *rapid.T) {
		p, d := sent(t)
		d.Scenes, d.People = slices.Clone(d.Scenes), slices.Clone(d.People)
		said, number := words(p, d), 1
		for range rapid.IntRange(1, 4).Draw(rt, "times") {
			for range rapid.IntRange(0, 3).Draw(rt, "changes") {
				p = p.Clone()
				p.Papers.Notes = rapid.SampledFrom([]string{"", "One.", "Another."}).Draw(rt, "note")
				d.People[4].Call = d.Call.Add(time.Duration(rapid.IntRange(0, 1).Draw(rt, "call")) * time.Hour)
				p.Scenes[1].Title = rapid.SampledFrom([]string{"Waking", "Sleep"}).Draw(rt, "title")
				p.People[4].Notes = rapid.SampledFrom([]string{"", "private"}).Draw(rt, "private")
			}
			now, want := words(p, d), number
			if now != said {
				want++
			}
			s := CallSheet(&p, d)
			if !strings.HasSuffix(s.Lines[2], fmt.Sprintf("revision %d", want)) {
				rt.Fatalf("%q, want revision %d", s.Lines[2], want)
			}
			if rapid.Bool().Draw(rt, "sent") {
				p.Papers.Sheets, said, number = SentSheets(&p, []day.Day{d}), now, want
			}
		}
	})
}

// TestADayThatMoves: the same times by the clock on another date are no other times.
func TestADayThatMoves(t *testing.T) {
	p, d := sent(t)
	const week = 7 * 24 * time.Hour
	d.Date, d.Call, d.Wrap = d.Date.AddDays(7), d.Call.Add(week), d.Wrap.Add(week)
	d.Scenes, d.People, d.Meals = slices.Clone(d.Scenes), slices.Clone(d.People), slices.Clone(d.Meals)
	for i := range d.Scenes {
		s := &d.Scenes[i]
		s.Setup, s.Start, s.End = s.Setup.Add(week), s.Start.Add(week), s.End.Add(week)
	}
	for i := range d.People {
		d.People[i].Call, d.People[i].Release = d.People[i].Call.Add(week), d.People[i].Release.Add(week)
	}
	for i, m := range d.Meals {
		d.Meals[i] = plan.Span{From: m.From.Add(week), To: m.To.Add(week)}
	}
	s := CallSheet(&p, d)
	if list := listOf(s, "Changed since revision 1"); len(list) == 0 || list[0] != "Date: Saturday 13 March 2027, was Saturday 6 March 2027" {
		t.Errorf("listed %q", list)
	}
	for name, mark := range marks(s) {
		if strings.HasPrefix(mark, "was") {
			t.Errorf("%q is marked %q", name, mark)
		}
	}
}

// TestManyChangesAreNotAllListed: nobody reads a list as long as the sheet.
func TestManyChangesAreNotAllListed(t *testing.T) {
	p, d := torture(t)
	p.Papers.Sheets = SentSheets(&p, []day.Day{d})
	if found := plan.Validate(p).Under("papers"); len(found) > 0 {
		t.Fatal(found)
	}
	for i := range d.Scenes {
		d.Scenes[i].Start = d.Scenes[i].Start.Add(time.Minute)
	}
	s := CallSheet(&p, d)
	list := listOf(s, "Changed since revision 1")
	if n := len(list); n != mostChanges+1 || list[n-1] != "and 20 more, marked below; please read it all" {
		t.Errorf("%d lines, the last %q", n, list[len(list)-1])
	}
	if n := len(marks(s)); n != len(d.Scenes) {
		t.Errorf("%d marks for %d scenes", n, len(d.Scenes))
	}
}

// TestSentSheetsOfSomeDays: what is not written again is not forgotten, but a day that the shoot has no more is.
func TestSentSheetsOfSomeDays(t *testing.T) {
	p, d := demo(t)
	of := func(number, of int) day.Day {
		d := d
		d.Number, d.Of, d.Date = number, of, d.Date.AddDays(number-1)
		return d
	}
	numbers := func() (out []int) {
		for _, s := range p.Papers.Sheets {
			out = append(out, s.Day)
		}
		return out
	}
	p.Papers.Sheets = SentSheets(&p, []day.Day{of(1, 3), of(2, 3), of(3, 3)})
	before := p.Papers.Sheets
	if p.Papers.Sheets = SentSheets(&p, []day.Day{of(2, 3)}); !reflect.DeepEqual(p.Papers.Sheets, before) {
		t.Errorf("of one day again: %v", numbers())
	}
	if p.Papers.Sheets = SentSheets(&p, nil); !reflect.DeepEqual(p.Papers.Sheets, before) {
		t.Errorf("of no day: %v", numbers())
	}
	if p.Papers.Sheets = SentSheets(&p, []day.Day{of(1, 2)}); !slices.Equal(numbers(), []int{1, 2}) {
		t.Errorf("of two days: %v", numbers())
	}
	if got := SentSheets(&plan.Plan{}, []day.Day{{}}); len(got) > 0 {
		t.Errorf("of a day that is not placed: %v", got)
	}
}

// TestTheNextDayIsTold in advance, and is no part of this day's revision.
func TestTheNextDayIsTold(t *testing.T) {
	p, d := demo(t)
	d.Number, d.Of = 1, 2
	next := d
	next.Number, next.Date = 2, d.Date.AddDays(1)
	p.Papers.Sheets = SentSheets(&p, []day.Day{d})
	s := CallSheet(&p, d, d, next)
	list := strings.Join(listOf(s, "The next day"), "\n")
	for _, want := range []string{"Sunday 7 March 2027, day 2 of 2. In advance", "General call 05:25", "Scene 5 Swim, Pool", "Called: Noor Halvardsen 05:25"} {
		if !strings.Contains(list, want) {
			t.Errorf("the next day lacks %q:\n%s", want, list)
		}
	}
	if strings.Contains(CallSheet(&p, d).Text(), "THE NEXT DAY") || !strings.HasSuffix(s.Lines[2], "revision 1") {
		t.Error("the last day has a next one, or its times count for this sheet")
	}
}
