package people

import (
	"embed"
	"slices"
	"sync"

	"eavelight/plan"
	"eavelight/plan/say"
)

// HoursCaution stands wherever a table of hours is used. It is a form.
var HoursCaution = say.Mark("Local law decides; ask a licensed adviser of the place.")

// Hours looks up what a table allows somebody born on a day, on another. school says whether their school is in session. ok is
// false where the table has no row for that age, because they are too young for it or of age, or where a date is not known.
func Hours(t plan.HourTable, born, on plan.Date, school bool) (limit plan.Limit, ok bool) {
	if born.IsZero() || on.IsZero() {
		return plan.Limit{}, false
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
	return plan.Limit{}, false
}

// HourTableOf is the table of that id: the plan's own, or else one of those that come with the program.
func HourTableOf(p *plan.Plan, id plan.ID) (plan.HourTable, bool) {
	for _, tables := range [][]plan.HourTable{p.Hours, HourTables()} {
		if i := slices.IndexFunc(tables, func(t plan.HourTable) bool { return t.ID == id }); i >= 0 {
			return tables[i], true
		}
	}
	return plan.HourTable{}, false
}

// Limited is what one person may do on a date: what the plan says of them and, for a minor whose day of birth is known, what
// the table of the plan says, whichever is less. table tells whether the table limits them at all.
func Limited(p *plan.Plan, who plan.Person, d plan.Date) (limit plan.Limit, table bool) {
	least := func(a, b plan.Minutes) plan.Minutes { // 0 is no limit
		if a == 0 || b == 0 {
			return a + b
		}
		return min(a, b)
	}
	if t, ok := HourTableOf(p, p.Shooting.Minors); ok && Minor(p, who, d) {
		limit, table = Hours(t, who.Born, d, p.Shooting.School)
	}
	limit.Place, limit.Work = least(limit.Place, who.Longest), least(limit.Work, who.Work)
	return limit, table
}

//go:embed hours/*.yaml
var hourFiles embed.FS

// HourTables are the tables that come with the program, in the order of their file names. They are not to be written to.
var HourTables = sync.OnceValue(func() []plan.HourTable {
	var out []plan.HourTable
	files, _ := hourFiles.ReadDir("hours") // built in
	for _, f := range files {
		data, _ := hourFiles.ReadFile("hours/" + f.Name())
		if t, err := ReadHours(f.Name(), data); err == nil { // a test reads them all
			out = append(out, t)
		}
	}
	return out
})
