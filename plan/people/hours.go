package people

import (
	"embed"
	"fmt"
	"sync"
	"time"

	"eavelight/plan"
)

// HoursCaution stands wherever a table of hours is used.
const HoursCaution = "Local law decides; ask a licensed adviser of the place."

// HourTable is a rule table of minors' hours: what the law of a place allows by age, as data with its source. It helps to plan;
// it is not the law (HoursCaution).
type HourTable struct {
	ID       plan.ID
	Name     string
	Source   string
	Verified []string  // what was checked, and against what
	Memory   []string  // what stands here from memory; nobody may rely on it
	Notes    []string  // what the rows can't say
	Rows     []HourRow // ages rising, without a gap
}

// HourRow is what holds from one age to the next: From belongs to it, To does not.
type HourRow struct {
	From, To             Age
	WorkSchool, WorkFree plan.Minutes // longest work on a day of a school session, and out of one
	Lessons              plan.Minutes // owed on a day of a school session
	Limit                Limit        // the rest, the same in and out of school
}

// Limit is what holds for one minor on one day. Zeros and unset clocks say that the table limits nothing there.
type Limit struct {
	Place      plan.Minutes // longest time at the property, call to release
	Work       plan.Minutes // longest time in front of the camera
	AtOnce     plan.Minutes // longest time in front of the camera without a break
	Lessons    plan.Minutes // owed within Place
	Rest       plan.Minutes // owed within Place: rest and recreation
	Overnight  plan.Minutes // shortest time from release to the next day's call
	Earliest   plan.Clock   // no call before
	Latest     plan.Clock   // no release after
	LatestFree plan.Clock   // instead of Latest, on the eve of a day without school; unset: Latest holds then too
	Note       string
}

// Hours looks up what a table allows somebody born on a day, on another. school says whether their school is in session. ok is
// false where the table has no row for that age, because they are too young for it or of age, or where a date is not known.
func Hours(t HourTable, born, on plan.Date, school bool) (limit Limit, ok bool) {
	if born.IsZero() || on.IsZero() {
		return Limit{}, false
	}
	for _, r := range t.Rows {
		if on.Before(r.From.Reached(born)) || !on.Before(r.To.Reached(born)) {
			continue
		}
		limit = r.Limit
		limit.Work = r.WorkFree
		if school {
			limit.Work, limit.Lessons = r.WorkSchool, r.Lessons
		}
		return limit, true
	}
	return Limit{}, false
}

// HourTableOf is the table of that id, of those that come with the program.
func HourTableOf(id plan.ID) (HourTable, bool) {
	for _, t := range HourTables() {
		if t.ID == id {
			return t, true
		}
	}
	return HourTable{}, false
}

// Limited is what one person may do on a date: what the plan says of them and, for a minor whose day of birth is known, what
// the table of the plan says, whichever is less. table tells whether the table limits them at all.
func Limited(p *plan.Plan, who plan.Person, d plan.Date) (limit Limit, table bool) {
	least := func(a, b plan.Minutes) plan.Minutes { // 0 is no limit
		if a == 0 || b == 0 {
			return a + b
		}
		return min(a, b)
	}
	if t, ok := HourTableOf(p.Shooting.Minors); ok && Minor(p, who, d) {
		limit, table = Hours(t, who.Born, d, p.Shooting.School)
	}
	limit.Place, limit.Work = least(limit.Place, who.Longest), least(limit.Work, who.Work)
	return limit, table
}

// Age is a length of life in whole months, and days beyond them.
type Age struct{ Months, Days int }

// Reached is the day on which somebody is that old. A day that the calendar lacks, the 29 February of most years, counts as the
// first of the next month: the cautious reading, for nobody is then taken for older than they are (as plan.Person.AgeOn does).
func (a Age) Reached(born plan.Date) plan.Date {
	first := plan.DateOf(time.Date(born.Year, born.Month+time.Month(a.Months), 1, 0, 0, 0, 0, time.UTC))
	day := first.AddDays(born.Day - 1)
	if day.Month != first.Month {
		day = plan.DateOf(time.Date(first.Year, first.Month+1, 1, 0, 0, 0, 0, time.UTC))
	}
	return day.AddDays(a.Days)
}

// Before reports whether a is younger than b.
func (a Age) Before(b Age) bool {
	return a.Months < b.Months || a.Months == b.Months && a.Days < b.Days
}

// String prints what a table has: "birth", "15 days", "6 months", "2 years 6 months".
func (a Age) String() string {
	out := ""
	for _, part := range []struct {
		n    int
		word string
	}{{a.Months / 12, "year"}, {a.Months % 12, "month"}, {a.Days, "day"}} {
		switch {
		case part.n == 0:
			continue
		case out != "":
			out += " "
		}
		out += fmt.Sprintf("%d %s", part.n, part.word)
		if part.n > 1 {
			out += "s"
		}
	}
	if out == "" {
		return "birth"
	}
	return out
}

//go:embed hours/*.yaml
var hourFiles embed.FS

// HourTables are the tables that come with the program, in the order of their file names. They are not to be written to.
var HourTables = sync.OnceValue(func() []HourTable {
	var out []HourTable
	files, _ := hourFiles.ReadDir("hours") // built in
	for _, f := range files {
		data, _ := hourFiles.ReadFile("hours/" + f.Name())
		if t, err := ReadHours(f.Name(), data); err == nil { // a test reads them all
			out = append(out, t)
		}
	}
	return out
})
