package plan

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"eavelight/plan/say"
)

// HourTable is a rule table of minors' hours: what the law of a place allows by age, as data with its source. It helps to plan;
// it is not the law. Some come with the program (package people); a plan may carry its own.
type HourTable struct {
	ID       ID
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
	WorkSchool, WorkFree Minutes // longest work on a day of a school session, and out of one
	Lessons              Minutes // owed on a day of a school session
	Limit                Limit   // the rest, the same in and out of school
}

// Limit is what holds for one minor on one day. Zeros and unset clocks say that the table limits nothing there.
type Limit struct {
	Place      Minutes // longest time at the property, call to release
	Work       Minutes // longest time in front of the camera
	AtOnce     Minutes // longest time in front of the camera without a break
	Lessons    Minutes // owed within Place
	Rest       Minutes // owed within Place: rest and recreation
	Overnight  Minutes // shortest time from release to the next day's call
	Earliest   Clock   // no call before
	Latest     Clock   // no release after
	LatestFree Clock   // instead of Latest, on the eve of a day without school; unset: Latest holds then too
	Note       string
}

// Age is a length of life in whole months, and days beyond them.
type Age struct{ Months, Days int }

// Reached is the day on which somebody is that old. A day that the calendar lacks, the 29 February of most years, counts as the
// first of the next month: the cautious reading, for nobody is then taken for older than they are (as Person.AgeOn does).
func (a Age) Reached(born Date) Date {
	first := DateOf(time.Date(born.Year, born.Month+time.Month(a.Months), 1, 0, 0, 0, 0, time.UTC))
	day := first.AddDays(born.Day - 1)
	if day.Month != first.Month {
		day = DateOf(time.Date(first.Year, first.Month+1, 1, 0, 0, 0, 0, time.UTC))
	}
	return day.AddDays(a.Days)
}

// Before reports whether a is younger than b.
func (a Age) Before(b Age) bool {
	return a.Months < b.Months || a.Months == b.Months && a.Days < b.Days
}

// String prints what a table has: "birth", "15 days", "6 months", "2 years 6 months".
func (a Age) String() string { return a.In(nil) }

// In is String in a tongue. A table is written in English.
func (a Age) In(tongue say.Tongue) string {
	var parts []say.Text
	if n := a.Months / 12; n > 0 {
		parts = append(parts, say.Count(n, "%d year", "%d years"))
	}
	if n := a.Months % 12; n > 0 {
		parts = append(parts, say.Count(n, "%d month", "%d months"))
	}
	if a.Days > 0 {
		parts = append(parts, say.Count(a.Days, "%d day", "%d days"))
	}
	if len(parts) == 0 {
		return say.That("age|birth").In(tongue)
	}
	return say.Join(" ", parts...).In(tongue)
}

var (
	ageForm    = regexp.MustCompile(`^(?:(\d{1,2}) years?)? ?(?:(\d{1,2}) months?)? ?(?:(\d{1,2}) days?)?$`)
	lengthForm = regexp.MustCompile(`^(?:(\d{1,2}) h)? ?(?:(\d{1,4})(?: min)?)?$`)
)

// What a table of hours may hold.
const (
	MaxHourRows = 100
	maxMonths   = 100*12 - 1 // of an age: what ParseAge reads back
	maxAgeDays  = 99
	dayMinutes  = 24 * 60
)

// ParseAge reads what Age.String prints, and "18 months" too.
func ParseAge(s string) (Age, error) {
	if s == "birth" {
		return Age{}, nil
	}
	m := ageForm.FindStringSubmatch(s)
	if m == nil || s == "" || 12*digits(m[1])+digits(m[2]) > maxMonths {
		return Age{}, say.Error("%.40q is not an age; write birth, 15 days, 6 months, 2 years or 2 years 6 months", s)
	}
	return Age{Months: 12*digits(m[1]) + digits(m[2]), Days: digits(m[3])}, nil
}

// ParseLength reads a length of time of a day at most, as Minutes.String prints it, or minutes alone.
func ParseLength(s string) (Minutes, error) {
	m := lengthForm.FindStringSubmatch(s)
	minutes := 0
	if m != nil {
		minutes = 60*digits(m[1]) + digits(m[2])
	}
	switch {
	case m == nil || s == "" || m[1] != "" && digits(m[2]) > 59:
		return 0, say.Error("%.40q is not a length of time; write 2 h, 2 h 30, 45 min or minutes alone", s)
	case minutes > dayMinutes:
		return 0, say.Error("%.40q is longer than a day", s)
	}
	return Minutes(minutes), nil
}

// digits is a number of figures that a form has let through; nothing is 0.
func digits(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}

// Faults tells what can't be meant in a row, before being the one above it, nil where there is none.
func (r HourRow) Faults(before *HourRow) Problems {
	var out Problems
	wrong := func(code Code, facts ...any) {
		out = append(out, Problem{Code: code, Level: Wrong, Facts: facts})
	}
	switch {
	case !r.From.Before(r.To):
		wrong(AgesEnd, r.To, r.From)
	case before != nil && r.From.Before(before.To):
		wrong(AgesOverlap, r.From, before.To)
	case before != nil && before.To.Before(r.From):
		wrong(AgesGap, before.To, r.From)
	}
	l := r.Limit
	if l.Place == 0 {
		wrong(NoTimeThere)
	}
	for _, part := range []struct {
		what say.Text
		Minutes
	}{{say.That("the work"), max(r.WorkSchool, r.WorkFree)}, {say.That("the lessons"), r.Lessons}, {say.That("the rest"), l.Rest}} {
		if part.Minutes > l.Place {
			wrong(MoreThanThere, part.what, part.Minutes, l.Place)
		}
	}
	for _, latest := range []Clock{l.Latest, l.LatestFree} {
		if l.Earliest.IsSet() && latest.IsSet() && latest.Minutes() <= l.Earliest.Minutes() {
			wrong(LatestTooEarly, latest, l.Earliest)
		}
	}
	return out
}

func (t HourTable) clone() HourTable {
	t.Verified, t.Memory, t.Notes, t.Rows = slices.Clone(t.Verified), slices.Clone(t.Memory), slices.Clone(t.Notes), slices.Clone(t.Rows)
	return t
}

// hours checks the tables that the plan carries.
func (v *validator) hours() {
	unique(v, "hours", v.plan.Hours, func(t HourTable) ID { return t.ID }, "table")
	for i, t := range v.plan.Hours {
		at := fmt.Sprintf("hours[%d]", i)
		v.name(at+".name", t.Name)
		v.text(at+".source", t.Source)
		if strings.TrimSpace(t.Source) == "" {
			v.wrong(at+".source", MissingSource)
		}
		for _, list := range []struct {
			key   string
			texts []string
		}{{"verified", t.Verified}, {"memory", t.Memory}, {"notes", t.Notes}} {
			for j, s := range list.texts {
				v.text(fmt.Sprintf("%s.%s[%d]", at, list.key, j), s)
			}
		}
		if n := len(t.Rows); n == 0 || n > MaxHourRows {
			v.wrong(at+".rows", HourRows, MaxHourRows, n)
		}
		v.hourRows(at, t.Rows)
	}
}

func (v *validator) hourRows(table string, rows []HourRow) {
	var before *HourRow
	for i, r := range rows {
		at := fmt.Sprintf("%s.rows[%d]", table, i)
		l := r.Limit
		for _, m := range []struct {
			key string
			Minutes
		}{{"place", l.Place}, {"work-school", r.WorkSchool}, {"work-free", r.WorkFree}, {"at-once", l.AtOnce}, {"lessons", r.Lessons},
			{"rest", l.Rest}, {"overnight", l.Overnight}} {
			v.within(at+"."+m.key, float64(m.Minutes), 0, dayMinutes)
		}
		for _, a := range []struct {
			key string
			Age
		}{{"from", r.From}, {"to", r.To}} {
			v.within(at+"."+a.key, float64(a.Months), 0, maxMonths)
			v.within(at+"."+a.key, float64(a.Days), 0, maxAgeDays)
		}
		v.text(at+".note", l.Note)
		for _, fault := range r.Faults(before) {
			v.wrong(at, fault.Code, fault.Facts...)
		}
		before = &r
	}
}
