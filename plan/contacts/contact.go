package contacts

import (
	"crypto/sha1"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
)

// The limits of a file of contacts. A phone with 10,000 people in it writes about 5 MB without pictures.
const (
	MaxBytes  = 10_000_000
	MaxPeople = 10_000
)

// What a plan takes: longer notes would make it one that can't be saved (plan.Validate, too-long). No name, address or number
// comes near the other limits.
const (
	maxNotes = 20_000
	maxName  = 1_000
	maxEmail = 320
	maxPhone = 100

	maxMinutes = 36 * 60
	maxWeight  = 1_000
)

// maxProblems is how many problems are told of one file. Nobody reads more, and a hostile file has one a byte.
const maxProblems = 500

// Why a file is refused as a whole, for errors.Is.
var (
	ErrTooLarge = say.Error("the file has more than 10 MB; export fewer people, or leave out their pictures")
	ErrTooMany  = say.Error("the file has more than 10,000 people; export a part of them")
	ErrNobody   = say.Error("there is nobody in this file")
)

// Contact is one person as a file tells of them. The Person has no ID: who it is in a plan, Propose says. It has the usual
// figures of plan.NewPerson, and no Role where the file says none.
type Contact struct {
	Person   plan.Person
	UID      string // by which other programs know the person again (RFC 6350, 6.7.6); empty: none yet
	Guardian string // the UID of who signs for them; Person.Guardian is empty, as it is of one plan
	Line     int    // of the file where they begin, from 1; 0 where there is no file
}

// FromPerson is the contact of somebody in a plan.
func FromPerson(p plan.Person) Contact { return Contact{Person: p, UID: UID(p)} }

// UID makes the identifier under which a person goes out who has none from a file: the same as long as id and name stay.
// Both are in it, because ids such as person-1 stand for others in the next plan, and two people may have one name.
func UID(p plan.Person) string {
	return "urn:uuid:" + uuid5(personSpace, string(p.ID)+"\n"+p.Name)
}

// personSpace is the name space of our own in which people's identifiers are made; drawn once by chance.
var personSpace = [16]byte{0x6e, 0x1d, 0x0b, 0x5a, 0x93, 0x2f, 0x4c, 0x81, 0xb6, 0x40, 0x27, 0xd5, 0x1f, 0x8a, 0x3c, 0xe4}

// uuid5 makes an identifier out of a name, always the same one (RFC 9562, section 5.5).
func uuid5(space [16]byte, name string) string {
	sum := sha1.Sum(append(space[:], name...))
	u := sum[:16]
	u[6] = u[6]&0x0f | 0x50
	u[8] = u[8]&0x3f | 0x80
	return fmt.Sprintf("%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}

// Problem is something in a file that could not be taken as it stands: where, and what became of it.
type Problem struct {
	Line   int // from 1; 0: the file as a whole
	Column int // of a table, from 1; 0: the row, or the card, as a whole
	Text   say.Text
}

// String prints "line 3, column 2: text".
func (p Problem) String() string { return p.In(nil) }

// In is String in a tongue.
func (p Problem) In(tongue say.Tongue) string {
	switch {
	case p.Line == 0:
		return p.Text.In(tongue)
	case p.Column == 0:
		return say.That("line %d: %s", p.Line, p.Text).In(tongue)
	}
	return say.That("line %d, column %d: %s", p.Line, p.Column, p.Text).In(tongue)
}

// problems collects what is told of one file.
type problems struct {
	list []Problem
	more int
}

func (ps *problems) add(line, column int, text say.Text) {
	if len(ps.list) >= maxProblems {
		ps.more++
		return
	}
	ps.list = append(ps.list, Problem{line, column, text})
}

func (ps *problems) all() []Problem {
	if ps.more > 0 {
		return append(ps.list, Problem{Text: say.Count(ps.more, "and %d more like these", "and %d more like these")})
	}
	return ps.list
}

// readAll reads a file up to the limit.
func readAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	switch {
	case err != nil:
		return nil, say.Error("the file can't be read: %v", err)
	case len(data) > MaxBytes:
		return nil, ErrTooLarge
	}
	return data, nil
}

// oneLine is text for a field of one line: no control characters, nothing blank around it. All else stays as it is, the
// marks of right-to-left names too.
func oneLine(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s))
}

// manyLines is text for the notes: lines that end with \n, and no other control characters but tabs.
func manyLines(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return ' '
		}
		return r
	}, lineEnds.Replace(s)))
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n")

// short is text for a message: one line, not too long, the letters whole.
func short(s string) string {
	s = oneLine(s)
	if utf8.RuneCountInString(s) > 60 {
		s = string([]rune(s)[:60]) + "…"
	}
	return s
}
