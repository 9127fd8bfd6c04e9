package contacts

import (
	"net/url"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
)

// reading puts one person together out of what a file says. Whatever fits nowhere becomes a line of the notes.
type reading struct {
	c     Contact
	notes []string
	today plan.Date // nobody is born later; zero: not checked
	found *problems
}

func newReading(line int, today plan.Date, found *problems) *reading {
	return &reading{c: Contact{Person: plan.NewPerson(), Line: line}, today: today, found: found}
}

// note keeps a text in the notes, under a label where it has one.
func (r *reading) note(label, text string) {
	if text = manyLines(text); text == "" {
		return
	}
	if label = oneLine(label); label != "" {
		text = label + ": " + text
	}
	r.notes = append(r.notes, text)
}

// place is where in the file something stands, and what it is called there.
type place struct {
	line, column int
	label        string
}

// name sets the name, once.
func (r *reading) name(at place, text string) {
	text = oneLine(text)
	switch {
	case r.c.Person.Name != "":
		r.note(at.label, text)
	case utf8.RuneCountInString(text) > maxName:
		r.found.add(at.line, at.column, say.That("this is too long for a name (%d characters at most); it stands in the notes", maxName))
		r.note(at.label, text)
	default:
		r.c.Person.Name = text
	}
}

// spreadsheetNumber is what spreadsheets make of a long row of digits.
var spreadsheetNumber = regexp.MustCompile(`^\d+([.,]\d+)?[eE]\+\d+$`)

// phone sets the phone; a second one goes to the notes.
func (r *reading) phone(at place, text string) {
	text = phoneOf(text)
	switch {
	case text == "":
	case spreadsheetNumber.MatchString(text):
		r.found.add(at.line, at.column, say.That("a spreadsheet has rounded this phone number to %s; it stands in the notes, look it up again",
			short(text)))
		r.note(at.label, text)
	case digitCount(text) < 3, utf8.RuneCountInString(text) > maxPhone:
		r.found.add(at.line, at.column, say.That("%q is no phone number; it stands in the notes", short(text)))
		r.note(at.label, text)
	case r.c.Person.Phone != "":
		r.note(at.label, text)
	default:
		r.c.Person.Phone = text
	}
}

// phoneOf takes the number out of a tel URI (RFC 3966).
func phoneOf(s string) string {
	s = oneLine(s)
	rest, isURI := cutFold(s, "tel:")
	if !isURI {
		return s
	}
	number, params, _ := strings.Cut(rest, ";")
	for _, p := range strings.Split(params, ";") {
		if ext, ok := cutFold(p, "ext="); ok {
			number += " ext. " + ext
		}
	}
	if plain, err := url.PathUnescape(number); err == nil {
		number = plain
	}
	return without("tel:", oneLine(number))
}

// without takes a prefix off, as often as it is there.
func without(prefix, s string) string {
	for more := true; more; {
		s, more = cutFold(strings.TrimSpace(s), prefix)
	}
	return s
}

func cutFold(s, prefix string) (rest string, ok bool) {
	if len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix) {
		return s[len(prefix):], true
	}
	return s, false
}

func digitCount(s string) (n int) {
	for _, c := range s {
		if unicode.IsDigit(c) {
			n++
		}
	}
	return n
}

// address matches an email address as far as it matters here: one word with one @ inside it.
var address = regexp.MustCompile(`^[^\s@,;<>]+@[^\s@,;<>]+$`)

// email sets the email address; a second one, in the same place too, goes to the notes.
func (r *reading) email(at place, text string) {
	text = without("mailto:", oneLine(text))
	between := func(c rune) bool { return unicode.IsSpace(c) || c == ',' || c == ';' }
	all := strings.FieldsFunc(text, between)
	if slices.ContainsFunc(all, func(s string) bool { return !address.MatchString(s) || len(s) > maxEmail }) {
		r.found.add(at.line, at.column, say.That("%q is no email address; it stands in the notes", short(text)))
		r.note(at.label, text)
		return
	}
	for _, one := range all {
		if r.c.Person.Email == "" {
			r.c.Person.Email = one
		} else {
			r.note(at.label, one)
		}
	}
}

// role sets what the person does in the film; other words for it are their job.
func (r *reading) role(at place, text string) {
	role, known := roleOf(text)
	if known && r.c.Person.Role == "" {
		r.c.Person.Role = role
		return
	}
	r.fact(at, &r.c.Person.Job, text)
}

// born sets the date of birth, once.
func (r *reading) born(at place, d plan.Date, text string) {
	p := &r.c.Person
	switch {
	case !r.today.IsZero() && r.today.Before(d):
		r.found.add(at.line, at.column, say.That("the date of birth %s is in the future; it stands in the notes", short(text)))
	case p.Born.IsZero() || p.Born == d:
		p.Born = d
		return
	}
	r.note(at.label, text)
}

// fact sets a text of one line, once.
func (r *reading) fact(at place, field *string, text string) {
	if *field != "" || utf8.RuneCountInString(text) > maxName {
		r.note(at.label, text)
		return
	}
	*field = oneLine(text)
}

// done is the person as read.
func (r *reading) done() Contact {
	notes := []rune(manyLines(strings.Join(r.notes, "\n")))
	if len(notes) > maxNotes {
		r.found.add(r.c.Line, 0, say.That("there is more about %s than notes can hold (%d characters); the end was left out",
			short(r.c.Person.Called()), maxNotes))
		notes = []rune(strings.TrimSpace(string(notes[:maxNotes])))
	}
	r.c.Person.Notes = string(notes)
	return r.c
}
