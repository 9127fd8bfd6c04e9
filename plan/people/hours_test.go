package people

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"

	"pgregory.net/rapid"
)

func table(t testing.TB, id plan.ID) plan.HourTable {
	t.Helper()
	for _, h := range HourTables() {
		if h.ID == id {
			return h
		}
	}
	t.Fatalf("no table %s", id)
	return plan.HourTable{}
}

func date(t testing.TB, s string) plan.Date {
	t.Helper()
	d, err := plan.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestTablesRead holds that every file that is built in is read, and says where it is from.
func TestTablesRead(t *testing.T) {
	files, err := hourFiles.ReadDir("hours")
	if err != nil || len(HourTables()) != len(files) || len(files) != 2 {
		t.Fatalf("%d tables from %d files, %v", len(HourTables()), len(files), err)
	}
	for _, f := range files {
		data, _ := hourFiles.ReadFile("hours/" + f.Name())
		if _, err := ReadHours(f.Name(), data); err != nil {
			t.Error(err)
		}
	}
	for _, h := range HourTables() {
		if h.ID == "" || h.Name == "" || h.Source == "" || len(h.Verified) == 0 || len(h.Memory) == 0 {
			t.Errorf("%+v does not say what of it is verified", h)
		}
	}
}

// TestCalifornia is 8 CCR 11760, case by case. Time at the place and work: verified against a stored reference page that copies the
// agency's pamphlet; lessons and rest: from memory. 12 h from dismissal to the next call (11760(i)) and the clock (Labor Code 1308.7):
// verified. That the lower age belongs to a band and the upper does not: from memory.
func TestCalifornia(t *testing.T) {
	h := table(t, "california")
	for _, c := range []struct {
		from, to                          string // the age, first day and first day after, of a child born on 1 March 2010
		place, school, off, lessons, rest plan.Minutes
		earliest, latest, free            string
	}{
		{"2010-03-16", "2010-09-01", 120, 20, 20, 0, 0, "9:30", "16:30", ""},
		{"2010-09-01", "2012-03-01", 240, 120, 120, 0, 120, "5:00", "22:00", "24:30"},
		{"2012-03-01", "2016-03-01", 360, 180, 180, 0, 180, "5:00", "22:00", "24:30"},
		{"2016-03-01", "2019-03-01", 480, 240, 360, 180, 60, "5:00", "22:00", "24:30"},
		{"2019-03-01", "2026-03-01", 540, 300, 420, 180, 60, "5:00", "22:00", "24:30"},
		{"2026-03-01", "2028-03-01", 600, 360, 480, 180, 60, "5:00", "22:00", "24:30"},
	} {
		for _, on := range []plan.Date{date(t, c.from), date(t, c.to).AddDays(-1)} { // the first and the last day of the age
			for _, school := range []bool{true, false} {
				got, ok := Hours(h, date(t, "2010-03-01"), on, school)
				got.Note = ""
				want := plan.Limit{Place: c.place, Work: c.off, Rest: c.rest, Overnight: 12 * 60,
					Earliest: clock(t, c.earliest), Latest: clock(t, c.latest), LatestFree: clock(t, c.free)}
				if school {
					want.Work, want.Lessons = c.school, c.lessons
				}
				if !ok || got != want {
					t.Errorf("on %v, school %v: %v\ngot  %+v\nwant %+v", on, school, ok, got, want)
				}
			}
		}
	}
	for _, on := range []string{"2010-02-28", "2010-03-01", "2010-03-15", "2028-03-01", "2040-01-01"} {
		if l, ok := Hours(h, date(t, "2010-03-01"), date(t, on), true); ok {
			t.Errorf("on %s, unborn, under 15 days or of age, they may %+v", on, l)
		}
	}
}

// TestEngland is SI 2014/3384, case by case. Times of the clock and at the place, and 12 h overnight: verified against a stored page
// of an arts organization; performing: from memory, and so is when the table ends.
func TestEngland(t *testing.T) {
	h := table(t, "england")
	for _, c := range []struct {
		from, to            string // of a child born on 1 March 2010
		place, work, atOnce plan.Minutes
		earliest, latest    string
	}{
		{"2010-03-01", "2015-03-01", 5 * 60, 2 * 60, 30, "7:00", "22:00"},
		{"2015-03-01", "2019-03-01", 8 * 60, 3 * 60, 150, "7:00", "23:00"},
		{"2019-03-01", "2027-03-01", 9*60 + 30, 5 * 60, 150, "7:00", "23:00"},
	} {
		for _, on := range []plan.Date{date(t, c.from), date(t, c.to).AddDays(-1)} {
			for _, school := range []bool{true, false} {
				got, ok := Hours(h, date(t, "2010-03-01"), on, school)
				want := plan.Limit{Place: c.place, Work: c.work, AtOnce: c.atOnce, Overnight: 12 * 60, Earliest: clock(t, c.earliest), Latest: clock(t, c.latest)}
				if !ok || got != want {
					t.Errorf("on %v: %v\ngot  %+v\nwant %+v", on, ok, got, want)
				}
			}
		}
	}
	if _, ok := Hours(h, date(t, "2010-03-01"), date(t, "2027-03-01"), true); ok {
		t.Error("at 17 they have left school")
	}
	// Whoever turns 16 on the last day of a school year, 31 August, left school that June; who does on the first, the June after,
	// at 16 years and under 10 months: before 17 always.
	if left := date(t, "2027-06-25"); !left.Before((plan.Age{Months: 17 * 12}).Reached(date(t, "2010-09-01"))) {
		t.Error("the table ends too early")
	}
}

// TestReached counts ages by hand, those that the calendar makes hard above all. Of a birthday that a year lacks the law of most
// places says 1 March (from memory: it differs); the shorter hours until then are the cautious reading.
func TestReached(t *testing.T) {
	for _, c := range []struct {
		born string
		age  plan.Age
		want string
	}{
		{"2010-03-01", plan.Age{Months: 18 * 12}, "2028-03-01"},
		{"2008-02-29", plan.Age{Months: 12}, "2009-03-01"},
		{"2008-02-29", plan.Age{Months: 18 * 12}, "2026-03-01"},
		{"2008-02-29", plan.Age{Months: 16 * 12}, "2024-02-29"},
		{"2010-08-31", plan.Age{Months: 6}, "2011-03-01"},
		{"2011-08-31", plan.Age{Months: 6}, "2012-03-01"}, // 2012 has 29 February, and no 31
		{"2011-08-29", plan.Age{Months: 6}, "2012-02-29"},
		{"2010-10-31", plan.Age{Months: 1}, "2010-12-01"},
		{"2010-12-31", plan.Age{Months: 2}, "2011-03-01"},
		{"2010-12-20", plan.Age{Days: 15}, "2011-01-04"},
		{"2010-01-31", plan.Age{Months: 1, Days: 2}, "2010-03-03"},
		{"1996-02-29", plan.Age{Months: 4 * 12}, "2000-02-29"},
		{"1896-02-29", plan.Age{Months: 4 * 12}, "1900-03-01"}, // 1900 was no leap year
		{"2010-05-07", plan.Age{}, "2010-05-07"},
	} {
		if got := c.age.Reached(date(t, c.born)).String(); got != c.want {
			t.Errorf("born %s, %v: %s, want %s", c.born, c.age, got, c.want)
		}
	}
}

// TestReachedAgreesWithAgeOn holds the two ways to tell an age to each other: whole years are reached on the day that AgeOn says so.
func TestReachedAgreesWithAgeOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.Person{Born: plan.Date{Year: 2000, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 4*366).Draw(t, "born"))}
		years := rapid.IntRange(1, 20).Draw(t, "years")
		day := plan.Age{Months: 12 * years}.Reached(p.Born)
		now, _ := p.AgeOn(day)
		before, _ := p.AgeOn(day.AddDays(-1))
		if now != years || before != years-1 {
			t.Fatalf("born %v, %d on %v, but AgeOn says %d, and %d the day before", p.Born, years, day, now, before)
		}
	})
}

// TestHoursByEveryDay goes through every day of childhoods: one row and only one holds from the first age to the last, and of age is
// who plan says.
func TestHoursByEveryDay(t *testing.T) {
	h := table(t, "california")
	for _, born := range []string{"2008-02-29", "2010-08-31", "2010-12-31", "2011-01-01"} {
		p := plan.Person{Born: date(t, born)}
		for on := p.Born.AddDays(-3); on.Before(p.Born.AddDays(19 * 366)); on = on.AddDays(1) {
			_, ok := Hours(h, p.Born, on, true)
			young := on.Before(p.Born.AddDays(15))
			if want := !young && p.MinorOn(on); ok != want {
				t.Fatalf("born %s, on %v: a row %v, want %v", born, on, ok, want)
			}
		}
	}
	for _, c := range [][2]plan.Date{{{}, date(t, "2020-01-01")}, {date(t, "2010-01-01"), {}}} {
		if _, ok := Hours(h, c[0], c[1], true); ok {
			t.Errorf("hours without a date: %v", c)
		}
	}
}

func TestAgeString(t *testing.T) {
	for want, a := range map[string]plan.Age{"birth": {}, "15 days": {Days: 15}, "1 day": {Days: 1}, "6 months": {Months: 6}, "2 years": {Months: 24},
		"1 year 1 month 3 days": {Months: 13, Days: 3}} {
		if a.String() != want {
			t.Errorf("%+v is %q, want %q", a, a, want)
		}
		if back, err := plan.ParseAge(want); err != nil || back != a {
			t.Errorf("%q is read as %+v, %v", want, back, err)
		}
	}
}

// TestUsersTable reads a table as somebody would write it.
func TestUsersTable(t *testing.T) {
	h, err := ReadHours("mine.yaml", []byte(`
id: here
name: Here
source: a letter of the school board
rows:
- from: 3 years
  to: 18 years
  place: 4 h
  work: 90
  earliest: 8am
  note: with a parent
`))
	if err != nil {
		t.Fatal(err)
	}
	got, ok := Hours(h, date(t, "2015-01-01"), date(t, "2027-10-16"), true)
	want := plan.Limit{Place: 240, Work: 90, Earliest: plan.ClockAt(8 * 60), Note: "with a parent"}
	if !ok || got != want {
		t.Errorf("%v\ngot  %+v\nwant %+v", ok, got, want)
	}
}

// manyRows is a table of rows of two days each.
func manyRows(n int) string {
	out := "id: x\nname: X\nsource: s\nrows:\n"
	for i := range n {
		months, days := 2*i/30, 2*i%30
		next, over := (2*i+2)/30, (2*i+2)%30
		out += fmt.Sprintf("- {from: %v, to: %v, place: 1 h, work: 1 h}\n", plan.Age{Months: months, Days: days}, plan.Age{Months: next, Days: over})
	}
	return out
}

// TestBadTables holds the words for what is wrong in a user's table, each with its line.
func TestBadTables(t *testing.T) {
	const head = "id: x\nname: X\nsource: s\n"
	row := func(rest string) string { return head + "rows:\n- {" + rest + "}\n" }
	for _, c := range []struct{ name, file, want string }{
		{"empty", "", "t: this file is empty"},
		{"no table", "hello", "t:1: here belong keys with values, such as id: ..."},
		{"no YAML", "id: [\n", "t: this is not laid out as a table of hours: line 1: did not find expected node content"},
		{"a slip in a key", head + "row: []\n", `t:4: "row" is none of id, memory, name, notes, rows, source, verified; did you mean "rows"?|t:1: "rows" is missing`},
		{"a key twice", head + "id: y\nrows: []\n", `t:4: "id" stands here twice; take one out`},
		{"no rows", head + "rows: []\n", "t:1: there is no row in it"},
		{"no list", head + "rows: {}\n", "t:4: here belongs a list, each item after a dash"},
		{"no group", head + "rows: [1]\n", "t:4: here belong keys with values, such as from: ..."},
		{"no text", "id: [x]\nname:\nsource: s\nrows: []\n", "t:1: here belongs a text|t:2: here belongs a text"},
		{"no age", row("from: 3, to: old, place: 1 h, work: 1 h"), `t:5: "3" is not an age; write birth, 15 days, 6 months, 2 years or 2 years 6 months|` +
			`t:5: "old" is not an age; write birth, 15 days, 6 months, 2 years or 2 years 6 months`},
		{"no age that anybody has", row("from: birth, to: 99 years 12 months, place: 1 h, work: 1 h"), `t:5: "99 years 12 months" is not an age; write birth, 15 days, 6 months, 2 years or 2 years 6 months`},
		{"too many rows", manyRows(101), "t:1: a table has 100 rows at most; this one has 101"},
		{"no length", row("from: birth, to: 3 years, place: 1.5 h, work: 25 h"),
			`t:5: "1.5 h" is not a length of time; write 2 h, 2 h 30, 45 min or minutes alone|t:5: "25 h" is longer than a day`},
		{"61 minutes past an hour", row("from: birth, to: 3 years, place: 2 h 61, work: 1 h"),
			`t:5: "2 h 61" is not a length of time; write 2 h, 2 h 30, 45 min or minutes alone`},
		{"no clock", row("from: birth, to: 3 years, place: 1 h, work: 1 h, latest: late"),
			`t:5: "late" is not a time; write it as in 18:30 or 6:30 pm (25:30 is half past one the next morning)`},
		{"no place", row("from: birth, to: 3 years, work: 1 h"), `t:5: "place" is missing`},
		{"no time at the place", row("from: birth, to: 3 years, place: 0, work: 0"), "t:5: the time at the place is nothing; who may not come at all needs no row"},
		{"no work", row("from: birth, to: 3 years, place: 1 h, work-school: 1 h"), "t:5: the longest work is missing: work, or both of work-school and work-free"},
		{"work twice", row("from: birth, to: 3 years, place: 1 h, work: 1 h, work-school: 1 h"), "t:5: write work, or work-school and work-free, not both"},
		{"backwards", row("from: 3 years, to: 36 months, place: 1 h, work: 1 h"), "t:5: the row ends at 3 years, which is not after its beginning at 3 years"},
		{"more work than time", row("from: birth, to: 3 years, place: 1 h, work: 61"), "t:5: the work can't be 1 h 01, longer than the time at the place, 1 h"},
		{"ends before it begins", row(`from: birth, to: 3 years, place: 1 h, work: 1 h, earliest: "9:00", latest: "9:00"`), "t:5: the latest time, 09:00, is not after the earliest, 09:00"},
		{"ages overlap", row("from: birth, to: 3 years, place: 1 h, work: 1 h") + "- {from: 2 years, to: 4 years, place: 1 h, work: 1 h}\n",
			"t:6: the row begins at 2 years, before the one above ends at 3 years; put the ages in rising order"},
		{"ages with a gap", row("from: birth, to: 3 years, place: 1 h, work: 1 h") + "- {from: 4 years, to: 5 years, place: 1 h, work: 1 h}\n",
			"t:6: nothing is said of the ages from 3 years to 4 years"},
		{"too long", strings.Repeat("#", maxHourFile+1), "t: this is too long for a table of hours (100 kB at most)"},
	} {
		_, err := ReadHours("t", []byte(c.file))
		if err == nil || strings.ReplaceAll(err.Error(), "\n", "|") != c.want {
			t.Errorf("%s:\ngot  %v\nwant %s", c.name, err, c.want)
		}
	}
}

// FuzzReadHours asks of any bytes: no panic; a refusal that names the file; or a table in which every age of a row has hours that fit
// into the day.
func FuzzReadHours(f *testing.F) {
	files, err := filepath.Glob("hours/*.yaml")
	if err != nil || len(files) == 0 {
		f.Fatal(err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte("id: &a x\nname: *a\nsource: !!int s\nrows: [{from: birth, to: 99 years 99 months 99 days, place: 1440, work: 0}]\n---\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := ReadHours("fuzz", data)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "fuzz:") || len(h.Rows) > 0 {
				t.Fatalf("%+v, %v", h, err)
			}
			return
		}
		born := plan.Date{Year: 2000, Month: time.February, Day: 29}
		for i, r := range h.Rows {
			l, ok := Hours(h, born, r.From.Reached(born), i%2 == 0)
			if on := r.From.Reached(born); !ok && on.Before(r.To.Reached(born)) {
				t.Fatalf("no hours at %v", r.From)
			}
			if l.Work > l.Place || l.Work < 0 || l.Place > 24*60 {
				t.Fatalf("at %v: %+v", r.From, l)
			}
		}
	})
}

// ExampleHours asks for the hours of a child of six in a school week.
func ExampleHours() {
	california := HourTables()[slices.IndexFunc(HourTables(), func(h plan.HourTable) bool { return h.ID == "california" })]
	born, shoot := plan.Date{Year: 2021, Month: 5, Day: 2}, plan.Date{Year: 2027, Month: 10, Day: 16}
	limit, ok := Hours(california, born, shoot, true)
	fmt.Println(ok, limit.Place, limit.Work, limit.Latest)
	fmt.Println(HoursCaution)
	// Output:
	// true 8 h 4 h 22:00
	// Local law decides; ask a licensed adviser of the place.
}
