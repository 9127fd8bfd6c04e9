package view

import (
	"cmp"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/contacts"
	"eavelight/plan/people"
	"eavelight/plan/say"
)

// mostHours is how much of a file of hours is read: one byte more than people.ReadHours takes, so that it can refuse it.
const mostHours = 100_001

// ReadHours reads a table of minors' hours from a file, to be carried by a plan. The error tells every fault, each on a line
// with the file, and the line in it or the field.
func ReadHours(path string) (plan.HourTable, error) {
	f, err := contacts.Open(path)
	if err != nil {
		return plan.HourTable{}, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostHours))
	if err != nil {
		return plan.HourTable{}, say.Error("%s can't be read: %v", path, err)
	}
	name := filepath.Base(path)
	t, err := people.ReadHours(name, data)
	if err != nil {
		return plan.HourTable{}, err
	}
	if builtIn := func(o plan.HourTable) bool { return o.ID == t.ID }; slices.ContainsFunc(people.HourTables(), builtIn) {
		return plan.HourTable{}, say.Error("%s: id: %q is the id of a table that comes with the program; give yours another", name, t.ID)
	}
	for _, w := range plan.Validate(plan.Plan{Hours: []plan.HourTable{t}}).Under("hours[0]") {
		err = errors.Join(err, say.Error("%s: %s: %s", name, strings.TrimPrefix(w.Path, "hours[0]."), w))
	}
	return t, err
}

// TakeHours puts a table into a plan, in place of one with its id, and lets it hold.
func TakeHours(p *plan.Plan, t plan.HourTable) {
	p.Shooting.Minors = t.ID
	if i := ownHours(p, t.ID); i >= 0 {
		p.Hours[i] = t
		return
	}
	p.Hours = append(p.Hours, t)
}

// DropHours takes the plan's own table of an id out of it; then none holds that was this one.
func DropHours(p *plan.Plan, id plan.ID) {
	if i := ownHours(p, id); i >= 0 {
		p.Hours = slices.Delete(p.Hours, i, i+1)
		if p.Shooting.Minors == id {
			p.Shooting.Minors = ""
		}
	}
	if len(p.Hours) == 0 {
		p.Hours = nil
	}
}

func ownHours(p *plan.Plan, id plan.ID) int {
	return slices.IndexFunc(p.Hours, func(t plan.HourTable) bool { return t.ID == id })
}

// CarriesHours reports whether the table that holds is the plan's own.
func CarriesHours(p *plan.Plan) bool { return ownHours(p, p.Shooting.Minors) >= 0 }

// HoursSource says where the figures of the table that holds are from, what of them is from memory, and that local law decides;
// nothing where none holds.
func HoursSource(p *plan.Plan) string {
	if p.Shooting.Minors == "" {
		return ""
	}
	t, ok := people.HourTableOf(p, p.Shooting.Minors)
	if !ok {
		return tongue.Say("There is no table called %q: choose one, or bring it in from a file.", p.Shooting.Minors)
	}
	out := []string{tongue.Say("Source: %s.", strings.TrimRight(cmp.Or(t.Source, tongue.Say("source|not said")), "."))}
	if len(t.Memory) > 0 {
		out = append(out, tongue.Say("From memory, so not to be relied on: %s.", strings.Join(t.Memory, "; ")))
	}
	return strings.Join(append(out, tongue.Marked(people.HoursCaution)), "\n")
}
