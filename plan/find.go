package plan

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Scene returns the scene with that id.
func (p *Plan) Scene(id ID) (Scene, bool) {
	return find(p.Scenes, func(s Scene) bool { return s.ID == id })
}

// Person returns the person with that id.
func (p *Plan) Person(id ID) (Person, bool) {
	return find(p.People, func(q Person) bool { return q.ID == id })
}

// Space returns the space with that id.
func (p *Plan) Space(id ID) (Space, bool) {
	return find(p.Property.Spaces, func(s Space) bool { return s.ID == id })
}

// Face returns the face with that id.
func (p *Plan) Face(id ID) (Face, bool) {
	return find(p.Property.Faces, func(f Face) bool { return f.ID == id })
}

// Limited returns the kit that the scene needs and that is there only at times.
func (p *Plan) Limited(s Scene) []Kit {
	var out []Kit
	for _, k := range p.Shooting.Kit {
		if slices.ContainsFunc(s.Kit, k.Is) {
			out = append(out, k)
		}
	}
	return out
}

// Is reports whether a scene that names its kit so means this, in whatever case.
func (k Kit) Is(name string) bool {
	return strings.EqualFold(strings.TrimSpace(k.Name), strings.TrimSpace(name))
}

func find[T any](list []T, is func(T) bool) (T, bool) {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i], true
	}
	var none T
	return none, false
}

// Name is how people call the scene: its number, or its title where it has none.
func (s Scene) Name() string {
	switch {
	case s.Number != "":
		return s.Number
	case s.Title != "":
		return s.Title
	}
	return string(s.ID)
}

// ByNumber compares scene numbers, or names, as people count them: 7, 7A, 12, and titles after the numbers.
func ByNumber(a, b string) int {
	number := func(name string) int {
		if n, ok := leadingNumber(name); ok {
			return n
		}
		return math.MaxInt
	}
	return cmp.Or(cmp.Compare(number(a), number(b)), cmp.Compare(a, b))
}

// leadingNumber is the number that a name begins with.
func leadingNumber(name string) (int, bool) {
	n, err := strconv.Atoi(name[:len(name)-len(strings.TrimLeft(name, "0123456789"))])
	return n, err == nil
}

// ofAge is the age from which a person signs for themselves. Where the law of the place says another, the mark Minor does.
const ofAge = 18

// AgeOn is how many years old the person is on a date; not known without a day of birth, or a date, or before birth. Born on
// 29 February, they are a year older on 1 March of other years: the cautious reading, for laws differ.
func (p Person) AgeOn(d Date) (years int, known bool) {
	if p.Born.IsZero() || d.IsZero() || d.Before(p.Born) {
		return 0, false
	}
	years = d.Year - p.Born.Year
	if d.Before(Date{d.Year, p.Born.Month, p.Born.Day}) {
		years--
	}
	return years, true
}

// MinorOn reports whether the person counts as a minor on a date: marked so, or not yet 18 on it. Who turns 18 that day is
// of age. Without a date only the mark counts; Shooting.LastDate is the one to ask about then.
func (p Person) MinorOn(d Date) bool {
	age, known := p.AgeOn(d)
	return p.Minor || known && age < ofAge
}

// LastDate is the date to judge by before a day is settled: the chosen one, or the last of the candidates, or none.
func (s Shooting) LastDate() Date {
	last := s.Date
	for _, d := range s.Dates {
		if s.Date.IsZero() && last.Before(d) {
			last = d
		}
	}
	return last
}

// Called is the person's name, or the id where none was typed yet.
func (p Person) Called() string {
	if p.Name != "" {
		return p.Name
	}
	return string(p.ID)
}
