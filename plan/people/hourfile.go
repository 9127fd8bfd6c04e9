package people

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// maxHourFile is the largest file of a table that is read; those that come with the program have 4 kB.
const maxHourFile = 100_000

// ReadHours reads a rule table from a file of the form that the built-in ones have (hours/*.yaml): YAML with the keys id, name,
// source, verified, memory, notes and rows. A row has from, to and place; work, or work-school and work-free where they differ; and
// whatever of at-once, lessons, rest, overnight, earliest, latest, latest-free and note there is. Ages are "birth", "15 days",
// "6 months", "2 years"; lengths of time "2 h 30", "45 min"; clocks "7:00". The error tells every fault with its line.
func ReadHours(file string, data []byte) (plan.HourTable, error) {
	r := hourReader{file: file}
	var t plan.HourTable
	if len(data) > maxHourFile {
		return t, say.Error("%s: this is too long for a table of hours (100 kB at most)", file)
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return t, say.Error("%s: this is not laid out as a table of hours: %s", file, strings.TrimPrefix(err.Error(), "yaml: "))
	}
	if len(doc.Content) == 0 {
		return t, say.Error("%s: this file is empty", file)
	}
	root := doc.Content[0]
	r.group(root, map[string]func(*yaml.Node){
		"id":       func(n *yaml.Node) { t.ID = plan.ID(r.text(n)) },
		"name":     func(n *yaml.Node) { t.Name = r.text(n) },
		"source":   func(n *yaml.Node) { t.Source = r.text(n) },
		"verified": func(n *yaml.Node) { t.Verified = r.texts(n) },
		"memory":   func(n *yaml.Node) { t.Memory = r.texts(n) },
		"notes":    func(n *yaml.Node) { t.Notes = r.texts(n) },
		"rows": func(n *yaml.Node) {
			for _, item := range r.list(n) {
				t.Rows = append(t.Rows, r.row(item))
			}
		},
	}, "id", "name", "source", "rows")
	if len(r.faults) == 0 && len(t.Rows) == 0 {
		r.fault(root, say.Error("there is no row in it"))
	}
	if n := len(t.Rows); n > plan.MaxHourRows {
		r.fault(root, say.Error("a table has %d rows at most; this one has %d", plan.MaxHourRows, n))
	}
	if len(r.faults) > 0 {
		return plan.HourTable{}, errors.Join(r.faults...)
	}
	return t, nil
}

// hourReader reads one table and collects what is wrong in it.
type hourReader struct {
	file   string
	before *plan.HourRow // the row before, when it was whole
	faults []error
}

func (r *hourReader) fault(n *yaml.Node, err error) {
	r.faults = append(r.faults, hourFault{fmt.Sprintf("%s:%d", r.file, n.Line), err})
}

// hourFault is what is wrong in a line of a file.
type hourFault struct {
	at   string
	what error
}

func (f hourFault) Error() string { return f.In(nil) }

// In is Error in a tongue.
func (f hourFault) In(tongue say.Tongue) string { return f.at + ": " + tongue.Error(f.what) }

func (f hourFault) Unwrap() error { return f.what }

// group reads keys and their values.
func (r *hourReader) group(n *yaml.Node, keys map[string]func(*yaml.Node), needed ...string) {
	if n.Kind != yaml.MappingNode {
		r.fault(n, say.Error("here belong keys with values, such as %s: ...", needed[0]))
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		switch read, known := keys[key.Value]; {
		case !known:
			var names []string
			for k := range keys {
				names = append(names, k)
			}
			slices.Sort(names)
			r.fault(key, say.Error("%q is none of %s%s", key.Value, strings.Join(names, ", "), plan.Suggest(key.Value, names)))
		case seen[key.Value]:
			r.fault(key, say.Error("%q stands here twice; take one out", key.Value))
		default:
			read(value)
		}
		seen[key.Value] = true
	}
	for _, k := range needed {
		if !seen[k] {
			r.fault(n, say.Error("%q is missing", k))
		}
	}
}

func (r *hourReader) list(n *yaml.Node) []*yaml.Node {
	if n.Kind != yaml.SequenceNode {
		r.fault(n, say.Error("here belongs a list, each item after a dash"))
		return nil
	}
	return n.Content
}

func (r *hourReader) text(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || strings.TrimSpace(n.Value) == "" {
		r.fault(n, say.Error("here belongs a text"))
		return ""
	}
	return n.Value
}

func (r *hourReader) texts(n *yaml.Node) []string {
	var out []string
	for _, item := range r.list(n) {
		out = append(out, r.text(item))
	}
	return out
}

// parsed reads a text with a function that may refuse it.
func parsed[T any](r *hourReader, to *T, parse func(string) (T, error)) func(*yaml.Node) {
	return func(n *yaml.Node) {
		s := r.text(n)
		if s == "" {
			return
		}
		v, err := parse(s)
		if err != nil {
			r.fault(n, err)
			return
		}
		*to = v
	}
}

// row reads what holds for one span of ages.
func (r *hourReader) row(n *yaml.Node) plan.HourRow {
	var row plan.HourRow
	l := &row.Limit
	work := plan.Minutes(-1)
	sound := len(r.faults)
	row.WorkSchool, row.WorkFree = -1, -1
	r.group(n, map[string]func(*yaml.Node){
		"from":        parsed(r, &row.From, plan.ParseAge),
		"to":          parsed(r, &row.To, plan.ParseAge),
		"place":       parsed(r, &l.Place, plan.ParseLength),
		"work":        parsed(r, &work, plan.ParseLength),
		"work-school": parsed(r, &row.WorkSchool, plan.ParseLength),
		"work-free":   parsed(r, &row.WorkFree, plan.ParseLength),
		"at-once":     parsed(r, &l.AtOnce, plan.ParseLength),
		"lessons":     parsed(r, &row.Lessons, plan.ParseLength),
		"rest":        parsed(r, &l.Rest, plan.ParseLength),
		"overnight":   parsed(r, &l.Overnight, plan.ParseLength),
		"earliest":    parsed(r, &l.Earliest, plan.ParseClock),
		"latest":      parsed(r, &l.Latest, plan.ParseClock),
		"latest-free": parsed(r, &l.LatestFree, plan.ParseClock),
		"note":        func(n *yaml.Node) { l.Note = r.text(n) },
	}, "from", "to", "place")
	if len(r.faults) > sound {
		return row
	}
	parted := row.WorkSchool >= 0 || row.WorkFree >= 0
	switch {
	case work >= 0 && parted:
		r.fault(n, say.Error("write work, or work-school and work-free, not both"))
	case work >= 0:
		row.WorkSchool, row.WorkFree = work, work
	case row.WorkSchool < 0 || row.WorkFree < 0:
		r.fault(n, say.Error("the longest work is missing: work, or both of work-school and work-free"))
	}
	for _, fault := range row.Faults(r.before) {
		r.fault(n, refusal{fault})
	}
	r.before = &row
	return row
}
