package contacts

import (
	"slices"
	"strconv"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// vCard has no property for some of what makes a volunteer easy to call again. These stand in the address book under names of
// our own (RFC 6350, 6.10), which other programs pass over; the guardian is who may act for somebody (RELATED, type agent, 6.6.6).
const (
	ownMark      = "X-EAVELIGHT"
	guardianMark = "guardian"
)

// ownForm is one such field: its text, empty for what is usual, and how that is set. set reports a text that is none of it.
type ownForm struct {
	name  string // after ownMark and a dash
	field Field
	get   func(*plan.Person) string
	set   func(*plan.Person, string) bool
}

var ownFields = []ownForm{
	ownText("SIZES", FieldSizes),
	ownText("DIET", FieldDiet),
	{"MINOR", FieldMinor, func(p *plan.Person) string {
		if p.Minor {
			return "yes"
		}
		return ""
	}, func(p *plan.Person, s string) bool {
		p.Minor = strings.EqualFold(s, "yes")
		return p.Minor
	}},
	ownMinutes("TRAVEL", FieldTravel, func(p *plan.Person) *plan.Minutes { return &p.Travel }),
	ownMinutes("CHANGE", FieldChange, func(p *plan.Person) *plan.Minutes { return &p.Change }),
	ownMinutes("LONGEST", FieldLongest, func(p *plan.Person) *plan.Minutes { return &p.Longest }),
	ownMinutes("WORK", FieldWork, func(p *plan.Person) *plan.Minutes { return &p.Work }),
	{"WEIGHT", FieldWeight, func(p *plan.Person) string {
		if p.Weight == plan.NewPerson().Weight {
			return ""
		}
		return strconv.FormatFloat(p.Weight, 'g', -1, 64)
	}, func(p *plan.Person, s string) bool {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || !(v >= 0 && v <= maxWeight) {
			return false
		}
		p.Weight = v
		return true
	}},
	{"GUARDIAN-THERE", FieldGuardianThere, func(p *plan.Person) string { return string(p.GuardianThere) }, func(p *plan.Person, s string) bool {
		p.GuardianThere = plan.GuardianThere(strings.ToLower(s))
		return slices.Contains(plan.GuardiansThere, p.GuardianThere)
	}},
}

func ownText(name string, f Field) ownForm {
	return ownForm{name, f, func(p *plan.Person) string { return oneLine(*textOf(p, f)) }, func(p *plan.Person, s string) bool {
		*textOf(p, f) = oneLine(s)
		return len([]rune(s)) <= maxNotes
	}}
}

func ownMinutes(name string, f Field, at func(*plan.Person) *plan.Minutes) ownForm {
	return ownForm{name, f, func(p *plan.Person) string {
		usual := plan.NewPerson()
		if *at(p) == *at(&usual) {
			return ""
		}
		return strconv.Itoa(int(*at(p)))
	}, func(p *plan.Person, s string) bool {
		n, err := strconv.Atoi(s)
		if err != nil || n < 0 || n > maxMinutes {
			return false
		}
		*at(p) = plan.Minutes(n)
		return true
	}}
}

// ownField finds the field that a property of ours holds.
func ownField(property string) (ownForm, bool) {
	name, ours := strings.CutPrefix(property, ownMark+"-")
	i := slices.IndexFunc(ownFields, func(o ownForm) bool { return o.name == name })
	if !ours || i < 0 {
		return ownForm{}, false
	}
	return ownFields[i], true
}

// own sets a field of ours, once; what is none of it goes to the notes.
func (r *reading) own(at place, o ownForm, text string) {
	q, text := r.c.Person, oneLine(text)
	switch {
	case o.get(&q) != "":
		r.note(string(o.field), text)
	case !o.set(&q, text):
		r.found.add(at.line, at.column, say.That("%q can't be read as %s; it stands in the notes", short(text), o.field))
		r.note(string(o.field), text)
	default:
		r.c.Person = q
	}
}

// writeOwn adds to a card what only the address book keeps.
func writeOwn(c Contact, line func(name, value string)) {
	for _, o := range ownFields {
		line(ownMark+"-"+o.name, escaped.Replace(o.get(&c.Person)))
	}
	if c.Guardian != "" {
		uid(line, "RELATED;TYPE=agent;"+ownMark+"="+guardianMark, oneLine(c.Guardian))
	}
}
