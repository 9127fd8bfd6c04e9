package contacts

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Action is what is to be done with somebody who was read from a file.
type Action string

// The actions. Unsure is for the user to settle, by choosing another; Apply passes over it.
const (
	Add    Action = "add"
	Update Action = "update"
	Same   Action = "nothing new"
	Unsure Action = "unsure"
	Skip   Action = "leave out"
)

// Proposal says what could be done with one contact.
type Proposal struct {
	Contact Contact
	Action  Action
	Match   plan.ID   // who in the plan it seems to be; empty where nobody is like them
	Others  []plan.ID // who else it could be
	By      []Field   // what they have in common with Match: name, email, phone
	Earlier int       // the line of the file at which the same person seems to stand already; 0: nowhere
	Changes []Change  // to Match: what an update does, line by line

	guardian plan.ID // who in the plan their guardian is; empty where that is nobody, or not certain
}

// Change is one field of a person in the plan that a contact says something else about.
type Change struct {
	Field    Field
	Was, Now string
	Take     bool // proposed where nothing stands yet, and for notes, which are added; to write over something is the user's word
}

// Said is what the plan says and what the contact says, for the user.
func (c Change) Said() (was, now say.Text) { return c.Field.said(c.Was), c.Field.said(c.Now) }

func (f Field) said(value string) say.Text {
	switch f {
	case FieldRole:
		return say.Marked("%s", plan.Role(value))
	case FieldGuardianThere:
		return say.Marked("%s", plan.GuardianThere(value))
	}
	return say.Plain(value)
}

// Propose tells who of the contacts is in the plan already: who has the same email, the same phone or the same name. It
// changes nothing. There is one proposal for each contact, in their order.
//
// It leaves Unsure whoever is as much like one person in the plan as like another, whose only likeness is a phone, or an
// email that several in the file have (a child's is often the parent's), and who stands in the file twice.
func Propose(people []plan.Person, contacts []Contact) []Proposal {
	known, read := newIndex(people), newIndex(personsOf(contacts))
	out := make([]Proposal, len(contacts))
	for i, c := range contacts {
		out[i] = propose(people, known, c, len(read.email[emailKey(c.Person.Email)]) > 1)
		if j := read.earlier(contacts, i); j >= 0 && out[i].Action == Add {
			out[i].Action, out[i].Earlier = Unsure, contacts[j].Line
		}
	}
	proposeGuardians(people, out)
	return out
}

// proposeGuardians finds the guardians of those who have one in their file.
func proposeGuardians(people []plan.Person, all []Proposal) {
	byUID := map[string]Proposal{}
	for _, pr := range all {
		byUID[pr.Contact.UID] = pr
	}
	at := map[plan.ID]plan.Person{}
	for _, q := range people {
		at[q.ID] = q
	}
	for i := range all {
		pr := &all[i]
		g, ok := byUID[pr.Contact.Guardian]
		if pr.Contact.Guardian == "" || !ok || g.Action != Same && g.Action != Update || g.Match == pr.Match {
			continue
		}
		pr.guardian = g.Match
		who, known := at[pr.Match]
		if !known || who.Guardian == g.Match {
			continue
		}
		was := ""
		if who.Guardian != "" {
			was = at[who.Guardian].Called()
		}
		pr.Changes = append(pr.Changes, Change{FieldGuardian, was, at[g.Match].Called(), who.Guardian == ""})
		if pr.Action == Same {
			pr.Action = Update
		}
	}
}

func personsOf(contacts []Contact) []plan.Person {
	out := make([]plan.Person, len(contacts))
	for i, c := range contacts {
		out[i] = c.Person
	}
	return out
}

func propose(people []plan.Person, known index, c Contact, sharedEmail bool) Proposal {
	p := Proposal{Contact: c, Action: Add}
	common := known.common(people, c.Person)
	if len(common) == 0 {
		return p
	}
	like := slices.Sorted(maps.Keys(common))
	best := slices.MaxFunc(like, func(a, b int) int { return len(common[a]) - len(common[b]) }) // of several, the first
	tie := false
	for _, i := range like {
		if i != best {
			p.Others = append(p.Others, people[i].ID)
			tie = tie || len(common[i]) == len(common[best])
		}
	}
	who, by := people[best], common[best]
	p.Match, p.By, p.Changes = who.ID, by, changes(who, c)
	proof := slices.Contains(by, FieldName) || slices.Contains(by, FieldEmail) && !sharedEmail || who.Name == "" || c.Person.Name == ""
	switch {
	case tie || !proof:
		p.Action = Unsure
	case len(p.Changes) == 0:
		p.Action = Same
	default:
		p.Action = Update
	}
	return p
}

// index finds people by what they can be known by.
type index struct {
	name, email, phone map[string][]int
}

func newIndex(people []plan.Person) index {
	x := index{map[string][]int{}, map[string][]int{}, map[string][]int{}}
	const enough = 20 // what so many share tells nobody from another
	put := func(m map[string][]int, key string, i int) {
		if key != "" && len(m[key]) < enough {
			m[key] = append(m[key], i)
		}
	}
	for i, p := range people {
		put(x.name, nameKey(p.Name), i)
		put(x.email, emailKey(p.Email), i)
		put(x.phone, tail(digits(p.Phone)), i)
	}
	return x
}

// common tells what each of those who are like a person has in common with them.
func (x index) common(people []plan.Person, p plan.Person) map[int][]Field {
	out := map[int][]Field{}
	for _, i := range x.name[nameKey(p.Name)] {
		out[i] = append(out[i], FieldName)
	}
	for _, i := range x.email[emailKey(p.Email)] {
		out[i] = append(out[i], FieldEmail)
	}
	for _, i := range x.phone[tail(digits(p.Phone))] {
		if samePhone(people[i].Phone, p.Phone) {
			out[i] = append(out[i], FieldPhone)
		}
	}
	return out
}

// earlier finds somebody before contact i in its file who seems to be the same: of the same name, and with the same email or
// phone, or with neither. It is -1 where there is nobody.
func (x index) earlier(contacts []Contact, i int) int {
	p := contacts[i].Person
	for _, j := range x.name[nameKey(p.Name)] {
		q := contacts[j].Person
		if j >= i {
			break
		}
		bare := p.Email+p.Phone == "" || q.Email+q.Phone == ""
		if bare || p.Email != "" && emailKey(p.Email) == emailKey(q.Email) || samePhone(p.Phone, q.Phone) {
			return j
		}
	}
	return -1
}

// samePhone compares two phones by their digits; one of them may lack the country or the area.
func samePhone(a, b string) bool {
	x, y := digits(a), digits(b)
	return tail(x) != "" && tail(y) != "" && (strings.HasSuffix(x, y) || strings.HasSuffix(y, x))
}

// shortest is the fewest digits by which a phone is told: without country and area it could be anybody's.
const shortest = 7

// digits are the digits of a phone without an extension, and without the zeros that stand for a country or an area:
// +49 171 1234567 and 0171 1234567 end alike.
func digits(phone string) string {
	phone, _, _ = strings.Cut(strings.ToLower(phone), "ext")
	phone, _, _ = strings.Cut(phone, "x")
	return strings.TrimLeft(figures(phone), "0")
}

// figures are all the digits of a text.
func figures(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, norm.NFKC.String(s))
}

// tail is the end of the digits, under which a phone is filed; empty for what is too short to tell anybody by.
func tail(digits string) string {
	if len(digits) < shortest {
		return ""
	}
	return digits[len(digits)-shortest:]
}

// nameKey is the form in which names are compared: without regard to case, to marks of writing direction, and to "Last, First".
func nameKey(name string) string {
	if last, first, ok := strings.Cut(name, ","); ok && !strings.Contains(first, ",") {
		name = first + " " + last
	}
	name = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, name)
	return strings.Join(strings.Fields(cases.Fold().String(norm.NFKC.String(name))), " ")
}

func emailKey(email string) string { return cases.Fold().String(strings.TrimSpace(email)) }

// changes lists what a contact says otherwise than the plan. A name that differs only in case, or a phone that says no more
// digits, is no change.
func changes(who plan.Person, c Contact) []Change {
	var out []Change
	p := c.Person
	add := func(f Field, was, now string, same bool) {
		if now != "" && !same {
			out = append(out, Change{f, was, now, was == ""})
		}
	}
	add(FieldName, who.Name, p.Name, nameKey(who.Name) == nameKey(p.Name))
	sameLine := who.Phone == p.Phone || samePhone(who.Phone, p.Phone) && strings.HasSuffix(figures(who.Phone), strings.TrimLeft(figures(p.Phone), "0"))
	add(FieldPhone, who.Phone, p.Phone, sameLine)
	add(FieldEmail, who.Email, p.Email, emailKey(who.Email) == emailKey(p.Email))
	add(FieldRole, string(who.Role), string(p.Role), who.Role.Or() == p.Role)
	for _, f := range []Field{FieldJob, FieldPronouns, FieldSizes, FieldDiet} {
		was, now := *textOf(&who, f), *textOf(&p, f)
		add(f, was, now, was == now)
	}
	add(FieldBorn, who.Born.String(), p.Born.String(), who.Born == p.Born)
	for _, o := range ownFields { // the usual figure is as good as none
		was, now := o.get(&who), o.get(&p)
		if o.field != FieldSizes && o.field != FieldDiet && o.field != FieldMinor {
			add(o.field, was, now, was == now)
		}
	}
	if p.Minor && !who.Minor {
		add(FieldMinor, "", "yes", false)
	}
	if p.Paid && !who.Paid {
		add(FieldPaid, "", "yes", false)
	}
	if now := bothNotes(who.Notes, p.Notes); now != who.Notes {
		out = append(out, Change{FieldNotes, who.Notes, now, utf8.RuneCountInString(now) <= maxNotes})
	}
	return out
}

// bothNotes are the old notes, and under them those lines of the new ones that they do not have.
func bothNotes(old, now string) string {
	have := map[string]bool{"": true}
	for l := range strings.SplitSeq(old, "\n") {
		have[strings.TrimSpace(l)] = true
	}
	var all []string
	if old != "" {
		all = append(all, old)
	}
	for l := range strings.SplitSeq(now, "\n") {
		if !have[strings.TrimSpace(l)] {
			all = append(all, l)
		}
	}
	return strings.Join(all, "\n")
}

// Apply does what the proposals say: it adds people after those in the plan, under ids of their own made from their names,
// and takes over the changes with Take. It returns the ids of those it added. Call it on a plan.Clone.
func Apply(p *plan.Plan, proposals []Proposal) []plan.ID {
	at, used := map[plan.ID]int{}, map[string]int{}
	for i, q := range p.People {
		at[q.ID] = i
	}
	var added []plan.ID
	is := map[string]plan.ID{} // who somebody of the file is now
	for _, pr := range proposals {
		switch i, ok := at[pr.Match]; {
		case pr.Action == Add:
			q := pr.Contact.Person
			q.ID = freshID(q.Name, at, used)
			q.Role = q.Role.Or()
			q.Availability = slices.Clone(q.Availability)
			at[q.ID] = len(p.People)
			p.People = append(p.People, q)
			added = append(added, q.ID)
			is[pr.Contact.UID] = q.ID
		case pr.Action == Update && ok:
			update(&p.People[i], pr)
			is[pr.Contact.UID] = pr.Match
		}
	}
	for _, pr := range proposals {
		id, done := is[pr.Contact.UID]
		g := cmp.Or(is[pr.Contact.Guardian], pr.guardian)
		takes := pr.Action == Add || slices.ContainsFunc(pr.Changes, func(c Change) bool { return c.Field == FieldGuardian && c.Take })
		if done && takes && pr.Contact.Guardian != "" && g != "" && g != id {
			p.People[at[id]].Guardian = g
		}
	}
	return added
}

// update takes over the changes that were chosen. The notes are put together anew: another proposal for the same person may
// have added to them.
func update(who *plan.Person, pr Proposal) {
	from := pr.Contact.Person
	for _, c := range pr.Changes {
		if !c.Take {
			continue
		}
		switch c.Field {
		case FieldName, FieldPhone, FieldEmail, FieldJob, FieldPronouns, FieldSizes, FieldDiet:
			*textOf(who, c.Field) = *textOf(&from, c.Field)
		case FieldRole:
			who.Role = from.Role
		case FieldBorn:
			who.Born = from.Born
		case FieldMinor, FieldTravel, FieldChange, FieldLongest, FieldWork, FieldWeight, FieldGuardianThere:
			o := ownFields[slices.IndexFunc(ownFields, func(o ownForm) bool { return o.field == c.Field })]
			o.set(who, o.get(&from))
		case FieldPaid:
			who.Paid = true
		case FieldNotes:
			notes := []rune(bothNotes(who.Notes, from.Notes))
			who.Notes = string(notes[:min(len(notes), maxNotes)])
		}
	}
}

// freshID makes an id from a name that nobody has yet: "Noor Castellan" is noor-castellan, a second one noor-castellan-2.
// used holds the last number given to each name, so that a thousand of one name are quick too.
func freshID(name string, taken map[plan.ID]int, used map[string]int) plan.ID {
	words := strings.FieldsFunc(strings.ToLower(norm.NFC.String(name)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r)
	})
	stem := strings.Map(func(r rune) rune {
		if unicode.IsMark(r) { // an id has none
			return -1
		}
		return r
	}, strings.Join(words, "-"))
	if r := []rune(stem); len(r) > 30 {
		stem = string(r[:30])
	}
	if stem = strings.Trim(stem, "-"); stem == "" {
		stem = "person"
	}
	for {
		used[stem]++
		id := plan.ID(stem)
		if n := used[stem]; n > 1 {
			id = plan.ID(fmt.Sprintf("%s-%d", stem, n))
		}
		if _, is := taken[id]; !is {
			return id
		}
	}
}
