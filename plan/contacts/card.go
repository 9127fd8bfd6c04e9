package contacts

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"io"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
)

// card is the properties of one person, in the order of the file.
type card struct {
	number  int // in the file, from 0
	line    int
	version string
	props   []property // those that say something about the person
	full    bool
}

// The most that is read of one card, and of one value in octets; it is more than notes can hold.
const (
	maxLines = 5_000
	maxValue = 5 * maxNotes
)

// ReadCards reads people from a file of vCards, in its order. The problems tell what could not be taken as it stands, in the
// order of the lines; the error, that nothing could: ErrTooLarge, ErrTooMany, ErrNobody, or a failure of reading. A date of
// birth after today is refused; a zero today checks nothing.
func ReadCards(r io.Reader, today plan.Date) ([]Contact, []Problem, error) {
	data, err := readAll(r)
	if err != nil {
		return nil, nil, err
	}
	data, _ = unmarked(data)
	var found problems
	all, err := readCards(data, today, &found)
	if err != nil {
		return nil, nil, err
	}
	slices.SortStableFunc(found.list, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	var out []Contact
	for _, c := range all {
		if c != nil {
			out = append(out, *c)
		}
	}
	if len(out) == 0 {
		return nil, found.all(), ErrNobody
	}
	return out, found.all(), nil
}

// readCards finds the cards of a file and reads them; those that say nothing are nil. One may lie within another (AGENT, in
// vCard 2.1); and where one forgot to end, the next is read all the same.
func readCards(data []byte, today plan.Date, found *problems) ([]*Contact, error) {
	var all []*Contact
	var open []*card
	end := func() {
		c := open[len(open)-1]
		open = open[:len(open)-1]
		all[c.number] = c.contact(today, found)
	}
	for l := range unfold(data) {
		p, ok := parse(l)
		switch {
		case ok && p.name == "BEGIN" && is(p.value, "VCARD"):
			if len(all) == MaxPeople {
				return nil, ErrTooMany
			}
			open = append(open, &card{number: len(all), line: l.number})
			all = append(all, nil)
		case len(bytes.TrimSpace(l.text)) == 0:
		case len(open) == 0:
			text, _ := decoded(l.text)
			found.add(l.number, 0, say.That("%q stands outside of every card; it was left out", short(text)))
		case ok && p.name == "END" && is(p.value, "VCARD"):
			end()
		default:
			open[len(open)-1].take(l, p, ok, found)
		}
	}
	for len(open) > 0 {
		found.add(open[len(open)-1].line, 0, say.That("this card has no end (END:VCARD); it was read as far as it goes"))
		end()
	}
	return all, nil
}

// take puts a line into the card.
func (c *card) take(l logical, p property, ok bool, found *problems) {
	if !ok {
		text, _ := decoded(l.text)
		found.add(l.number, 0, say.That("%q is no line of a card (NAME:VALUE); it stands in the notes", short(text)))
		p = property{line: l.number, value: l.text}
	}
	if p.name == "VERSION" {
		c.version = strings.TrimSpace(string(p.value))
	}
	switch {
	case silent[p.name] || strings.Trim(string(p.value), " ;,\t") == "":
	case len(c.props) < maxLines:
		c.props = append(c.props, p)
	case !c.full:
		c.full = true
		found.add(l.number, 0, say.That("this card has more than %d lines; the others were left out", maxLines))
	}
}

func is(value []byte, word string) bool {
	return strings.EqualFold(strings.TrimSpace(string(value)), word)
}

// silent are the properties that are about the card and not about a person.
var silent = map[string]bool{"VERSION": true, "PRODID": true, "REV": true, "CLIENTPIDMAP": true, "BEGIN": true, "END": true,
	"PROFILE": true, "MAILER": true}

// contact makes a person of the card, nil where it says nothing.
func (c *card) contact(today plan.Date, found *problems) *Contact {
	if len(c.props) == 0 {
		found.add(c.line, 0, say.That("this card says nothing; it was left out"))
		return nil
	}
	r := cardReading{newReading(c.line, today, found), c, map[string]string{}, map[int]bool{}}
	r.labels()
	for p := range r.called("NOTE") {
		r.note("", r.text(p))
	}
	r.names()
	r.best("TEL", func(p property) { r.phone(r.at(p, "Phone"), r.text(p)) })
	r.best("EMAIL", func(p property) { r.email(r.at(p, "Email"), r.text(p)) })
	for _, name := range []string{"ROLE", "TITLE"} {
		for p := range r.called(name) {
			r.fact(r.at(p, words[name]), &r.c.Person.Job, r.text(p))
		}
	}
	for _, p := range c.props {
		r.rest(p)
	}
	if r.c.Person.Name == "" {
		found.add(c.line, 0, say.That("this person has no name; type one"))
	}
	out := r.done()
	return &out
}

// cardReading reads one card.
type cardReading struct {
	*reading
	card  *card
	label map[string]string // by group: what its owner calls the properties in it
	told  map[int]bool      // the lines whose encoding was told of
}

// called goes through the properties of a name.
func (r *cardReading) called(name string) iter.Seq[property] {
	return func(yield func(property) bool) {
		for _, p := range r.card.props {
			if p.name == name && !yield(p) {
				return
			}
		}
	}
}

// labels finds what the groups are called: item1.TEL goes with item1.X-ABLabel.
func (r *cardReading) labels() {
	for p := range r.called("X-ABLABEL") {
		if p.group != "" {
			r.label[p.group] = strings.TrimSuffix(strings.TrimPrefix(oneLine(r.text(p)), "_$!<"), ">!$_")
		}
	}
}

// raw is the value with its encodings undone, its escapes still in it; ok is false for what is no text. What is odd about it
// is told once.
func (r *cardReading) raw(p property) (text string, ok bool) {
	b := p.value
	what := say.That("file (%s)", short(p.name))
	if kind, ok := binary[p.name]; ok {
		what = say.Marked(kind)
	}
	switch {
	case p.has("ENCODING", "quoted-printable"), p.has("ENCODING", "q"):
		b = quotedPrintable(b)
	case p.has("ENCODING", "base64"), p.has("ENCODING", "b"):
		plain, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(string(b)), ""))
		if err != nil || binary[p.name] != "" || !utf8.Valid(plain) || bytes.IndexByte(plain, 0) >= 0 {
			r.tell(p, say.That("a %s can't be kept; it was left out", what))
			return "", false
		}
		b = plain
	}
	if len(b) > maxValue && binary[p.name] == "" {
		r.tell(p, say.That("this is longer than notes can hold; the end was left out"))
		cut := maxValue
		for !utf8.RuneStart(b[cut]) && cut > maxValue-utf8.UTFMax {
			cut--
		}
		b = b[:cut]
	}
	charset := strings.Join(p.get("CHARSET"), "")
	text, known := decodedAs(b, charset)
	if !known {
		r.tell(p, say.That("this is said to be in the encoding %s, and is not; look whether its letters are right", short(charset)))
	}
	if _, inside := cutFold(text, "data:"); inside && binary[p.name] != "" {
		r.tell(p, say.That("a %s can't be kept; it was left out", what))
		return "", false
	}
	return text, true
}

// tell adds a problem, one for a line.
func (r *cardReading) tell(p property, text say.Text) {
	if !r.told[p.line] {
		r.told[p.line] = true
		r.found.add(p.line, 0, text)
	}
}

// text is a value of plain text.
func (r *cardReading) text(p property) string {
	raw, _ := r.raw(p)
	return r.plain(raw)
}

// plain undoes the escapes of text.
func (r *cardReading) plain(raw string) string {
	if r.card.version == "2.1" {
		return unescapedOld.Replace(raw)
	}
	return unescaped.Replace(raw)
}

// list is a value of several texts, some of which may be empty.
func (r *cardReading) list(p property, mark byte) []string {
	raw, _ := r.raw(p)
	all := parts(raw, mark)
	for i := range all {
		all[i] = oneLine(r.plain(all[i]))
	}
	return all
}

// joined is a compound value on one line, empty parts left out.
func (r *cardReading) joined(p property) string {
	return strings.Join(slices.DeleteFunc(r.list(p, ';'), func(s string) bool { return s == "" }), ", ")
}

// at is where a property stands, and how it is called in the notes: "Phone (work)".
func (r *cardReading) at(p property, label string) place {
	var kinds []string
	if own := r.label[p.group]; own != "" {
		kinds = append(kinds, own)
	}
	for _, t := range p.get("TYPE") {
		if t = strings.ToLower(oneLine(t)); t != "" && !slices.Contains([]string{"pref", "voice", "internet", "x-internet", "other"}, t) {
			kinds = append(kinds, t)
		}
	}
	if len(kinds) > 0 {
		label += " (" + strings.Join(kinds, ", ") + ")"
	}
	return place{line: p.line, label: label}
}

// best goes through the properties of a name, the preferred one first.
func (r *cardReading) best(name string, take func(property)) {
	all := slices.Collect(r.called(name))
	slices.SortStableFunc(all, func(a, b property) int { return cmp.Compare(rank(a), rank(b)) })
	for _, p := range all {
		take(p)
	}
}

// rank orders properties of one name: those marked as preferred (PREF=1 to 100, or a type of vCard 2.1 and 3.0), phones
// that are carried along, the others, and last those on which nobody is reached.
func rank(p property) int {
	if n, err := strconv.Atoi(strings.Join(p.get("PREF"), "")); err == nil && n >= 1 && n <= 100 {
		return n
	}
	switch {
	case p.has("TYPE", "pref"):
		return 1
	case p.has("TYPE", "fax"), p.has("TYPE", "pager"), p.has("TYPE", "modem"):
		return 400
	case p.has("TYPE", "cell"):
		return 200
	}
	return 300
}

// names finds the name: the formatted one, or else one put together from its parts, or else what comes nearest.
func (r *cardReading) names() {
	for p := range r.called("FN") {
		r.name(r.at(p, "Name"), r.text(p))
	}
	for p := range r.called("N") {
		raw, _ := r.raw(p)
		n := parts(raw, ';')
		for len(n) < 5 {
			n = append(n, "")
		}
		n = append([]string{n[3], n[1], n[2], n[0], n[4]}, n[5:]...) // a card has family, given, further, prefix, suffix
		for i := range n {
			n[i] = r.plain(strings.Join(parts(n[i], ','), " "))
		}
		whole := strings.Join(strings.Fields(strings.Join(n, " ")), " ")
		if !within(whole, r.c.Person.Name) {
			r.name(r.at(p, "Name in parts"), whole)
		}
	}
	for _, name := range []string{"NICKNAME", "ORG"} {
		for p := range r.called(name) {
			if r.c.Person.Name == "" {
				r.name(r.at(p, words[name]), r.joined(p))
			}
		}
	}
}

// within reports whether every word of a stands in b.
func within(a, b string) bool {
	have := map[string]bool{}
	between := func(c rune) bool { return c == ' ' || c == ',' }
	for _, w := range strings.FieldsFunc(strings.ToLower(b), between) {
		have[w] = true
	}
	return !slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(a), between), func(w string) bool { return !have[w] })
}

// words are what properties are called in the notes: those are the plan's, and the same in every tongue.
var words = map[string]string{"ORG": "Organization", "ADR": "Address", "LABEL": "Address label", "NICKNAME": "Nickname",
	"URL": "Website", "TITLE": "Title", "ROLE": "Role", "GENDER": "Gender", "PRONOUNS": "Pronouns", "ANNIVERSARY": "Anniversary",
	"BDAY": "Born", "CATEGORIES": "Categories", "TZ": "Time zone", "GEO": "Position", "IMPP": "Messages", "LANG": "Language",
	"RELATED": "Related", "KIND": "Kind", "MEMBER": "Member"}

// binary are the properties that are pictures, sounds and keys.
var binary = map[string]string{"PHOTO": say.Mark("picture"), "LOGO": say.Mark("logo"), "SOUND": say.Mark("sound"), "KEY": say.Mark("key")}

// taken are the properties that rest has nothing to do with.
var taken = map[string]bool{"FN": true, "N": true, "NOTE": true, "TEL": true, "EMAIL": true, "ROLE": true, "TITLE": true}

// rest takes the other properties.
func (r *cardReading) rest(p property) {
	if taken[p.name] || r.label[p.group] != "" && p.name == "X-ABLABEL" {
		return
	}
	raw, isText := r.raw(p)
	if !isText {
		return
	}
	at := r.at(p, cmp.Or(words[p.name], binary[p.name], p.name))
	switch p.name {
	case "UID":
		r.c.UID = cmp.Or(r.c.UID, r.identifier(p, raw))
	case "BDAY":
		r.birthday(at, p, r.plain(raw))
	case "CATEGORIES":
		r.categories(at, p)
	case "RELATED":
		if !p.has(ownMark, guardianMark) || r.c.Guardian != "" {
			r.note(at.label, r.plain(raw))
		} else {
			r.c.Guardian = r.identifier(p, raw)
		}
	case "PRONOUNS": // RFC 9554
		r.fact(at, &r.c.Person.Pronouns, r.plain(raw))
	case "KIND":
		if raw = oneLine(raw); !strings.EqualFold(raw, "individual") {
			r.found.add(p.line, 0, say.That("this card is of the kind %q, not of a person", short(raw)))
			r.note(at.label, raw)
		}
	default:
		text := r.plain(raw)
		if f, own := ownField(p.name); own {
			r.own(at, f, text)
			return
		}
		if p.name == "ORG" || p.name == "ADR" || p.name == "GENDER" {
			text = r.joined(p)
		}
		if text != r.c.Person.Name {
			r.note(at.label, text)
		}
	}
}

// identifier is one to the letter. In vCard 4.0 it is a URI, in which nothing is escaped, unless it says otherwise.
func (r *cardReading) identifier(p property, raw string) string {
	if r.card.version != "4.0" || p.has("VALUE", "text") {
		raw = r.plain(raw)
	}
	return oneLine(raw)
}

// birthday reads a date of birth. A card may know only a part of it, or only words (RFC 6350, 6.2.5): those go to the notes.
func (r *cardReading) birthday(at place, p property, text string) {
	text = oneLine(text)
	day, _, _ := strings.Cut(text, "T")
	if d, ok := wholeDate(day); ok && !p.has("VALUE", "text") {
		r.born(at, d, text)
		return
	}
	r.found.add(p.line, 0, say.That("%q is not a whole date of birth; it stands in the notes", short(text)))
	r.note(at.label, text)
}

// categories finds the role that WriteCards puts there; other categories go to the notes.
func (r *cardReading) categories(at place, p property) {
	var others []string
	for _, c := range r.list(p, ',') {
		role := plan.Role(strings.ToLower(c))
		switch {
		case r.c.Person.Role == "" && slices.Contains(plan.Roles, role):
			r.c.Person.Role = role
		case c != "":
			others = append(others, c)
		}
	}
	r.note(at.label, strings.Join(others, ", "))
}
