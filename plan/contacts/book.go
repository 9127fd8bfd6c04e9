package contacts

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"
	"eavelight/plan/store"
)

// Book is the address book: the people of earlier jobs, in a vCard file of its own.
//
// It keeps what belongs to a person whatever the job. Left out are the id, which is of one plan; when they are free, which is
// about dates that pass; a pilot's certificate, which is to be looked at anew; and whether they are paid and at which rate, which
// is agreed anew each time: nobody shall get a fee, or lose one, because of another job.
type Book struct {
	People   []Contact // each with a UID that no other has
	Problems []Problem // what stands in the file and could not be taken as it stands; while there are any, it is not written

	path  string
	found [sha256.Size]byte // the sum of what was read; zero where there was no file
}

// ErrBookChanged is for errors.Is.
var ErrBookChanged = say.Error("the address book was changed by another program meanwhile; look at it again")

var errNoBook = say.Error("there is no folder for the address book on this computer")

// BookPath is where a user's address book lies: in the folder of their settings.
func BookPath() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", say.Error("there is no folder for the address book: %v", err)
	}
	return filepath.Join(dir, "eavelight", "people.vcf"), nil
}

// ReadBook reads the address book at path; where there is none yet, it is empty. The error is in the user's words;
// the Book that comes with it can't be written.
func ReadBook(path string) (Book, error) {
	b := Book{path: path}
	if path == "" {
		return b, errNoBook
	}
	data, found, err := bytesOf(path)
	b.found = found
	if err == nil && len(bytes.TrimSpace(data)) == 0 {
		return b, nil
	}
	if err == nil {
		b.People, b.Problems, err = ReadCards(bytes.NewReader(data), plan.Date{})
	}
	if errors.Is(err, ErrNobody) {
		err = say.Error("no vCard is in it")
	}
	if err != nil {
		return Book{}, say.Error("%s can't be read as an address book, and was left as it is: %v; move it away, or mend it", path, err)
	}
	b.identify()
	return b, nil
}

// bytesOf reads a file and its sum; both are empty where there is none.
func bytesOf(path string) ([]byte, [sha256.Size]byte, error) {
	f, err := Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, [sha256.Size]byte{}, nil
	}
	if err != nil {
		return nil, [sha256.Size]byte{}, err
	}
	defer f.Close()
	data, err := readAll(f)
	return data, sha256.Sum256(data), err
}

// identify gives a UID to who has none, or that of somebody else.
func (b *Book) identify() {
	has := map[string]bool{}
	for i := range b.People {
		c := &b.People[i]
		for n := 1; c.UID == "" || has[c.UID]; n++ {
			c.UID = UID(plan.Person{ID: plan.ID(fmt.Sprintf("%s %d", c.UID, n)), Name: c.Person.Name})
		}
		has[c.UID] = true
	}
}

// Persons are the people of the book as Propose takes them; their ids are their UIDs.
func (b Book) Persons() []plan.Person {
	has := map[string]bool{}
	for _, c := range b.People {
		has[c.UID] = true
	}
	out := personsOf(b.People)
	for i, c := range b.People {
		out[i].ID = plan.ID(c.UID)
		if has[c.Guardian] {
			out[i].Guardian = plan.ID(c.Guardian)
		}
	}
	return out
}

// With is the book after what was proposed for its Persons is done.
func (b Book) With(proposals []Proposal) Book {
	p := plan.Plan{People: b.Persons()}
	fresh := map[plan.ID]Contact{}
	adds := slices.DeleteFunc(slices.Clone(proposals), func(pr Proposal) bool { return pr.Action != Add })
	for i, id := range Apply(&p, proposals) {
		fresh[id] = adds[i].Contact
	}
	old := b.People
	b.People = make([]Contact, len(p.People))
	uid := map[plan.ID]string{}
	for i, q := range p.People {
		if i < len(old) {
			b.People[i] = old[i]
		} else {
			b.People[i] = fresh[q.ID]
			b.People[i].Line = 0
		}
		q.Notes = manyLines(q.Notes) // of two put together, the ends may be blank
		b.People[i].Person = q
	}
	b.identify()
	for i, q := range p.People {
		uid[q.ID] = b.People[i].UID
	}
	for i := range b.People {
		c := &b.People[i]
		c.Guardian = cmp.Or(uid[c.Person.Guardian], c.Guardian)
		c.Person.ID, c.Person.Guardian = "", ""
	}
	return b
}

// Without is the book without those of the UIDs; nobody has them for a guardian any more.
func (b Book) Without(uids []string) Book {
	gone := map[string]bool{}
	for _, u := range uids {
		gone[u] = true
	}
	b.People = slices.DeleteFunc(slices.Clone(b.People), func(c Contact) bool { return gone[c.UID] })
	for i := range b.People {
		if gone[b.People[i].Guardian] {
			b.People[i].Guardian = ""
		}
	}
	return b
}

// Write puts the book in place of the one that was read, and returns it as it can be written again. It refuses while there
// are Problems, when somebody else has changed the file, and what would not read back as it is; the file is as it was then.
func (b Book) Write() (Book, error) {
	if len(b.Problems) > 0 {
		return b, say.Error("the address book %s was left as it is, because writing it would lose something in it: %s", b.path, b.Problems[0])
	}
	if b.path == "" {
		return b, errNoBook
	}
	data, err := b.encode()
	if err != nil {
		return b, err
	}
	_, now, err := bytesOf(b.path)
	if err == nil && now != b.found {
		return b, ErrBookChanged
	}
	if err == nil {
		err = os.MkdirAll(filepath.Dir(b.path), 0o700)
	}
	if err == nil {
		err = store.Replace(b.path, data)
	}
	if errors.Is(err, fs.ErrPermission) {
		err = say.Error("the folder does not let it be written; look at its permissions")
	}
	if err != nil {
		return b, say.Error("the address book %s was not written: %v", b.path, err)
	}
	b.found = sha256.Sum256(data)
	return b, nil
}

// encode is the file, once it is sure that it reads back.
func (b Book) encode() ([]byte, error) {
	var out bytes.Buffer
	if err := writeCards(&out, b.People, writeOwn); err != nil {
		return nil, err
	}
	if len(b.People) == 0 {
		return nil, nil
	}
	if out.Len() > MaxBytes || len(b.People) > MaxPeople {
		return nil, say.Error("the address book is full (%d people, %d MB); forget some first", MaxPeople, MaxBytes/1_000_000)
	}
	back, found, err := ReadCards(bytes.NewReader(out.Bytes()), plan.Date{})
	if err != nil || len(found) > 0 || len(back) != len(b.People) {
		return nil, say.Error("the address book was not written, as it would not read back: %v %v", err, found)
	}
	for i, c := range b.People {
		if back[i].Line = c.Line; !reflect.DeepEqual(back[i], c) {
			return nil, say.Error("the address book was not written: %s would not read back as they are", short(c.Person.Called()))
		}
	}
	return out.Bytes(), nil
}

// ForBook are the people of a plan as the address book keeps them. What its fields can't hold stands in the notes, as in any
// file that is read, and a Problem says so; who has no name, or none that fits, is not among them.
func ForBook(people []plan.Person) ([]Contact, []Problem) {
	var out []Contact
	var found problems
	uids := map[plan.ID]string{}
	for _, q := range people {
		uids[q.ID] = UID(q)
	}
	for i, q := range people {
		if oneLine(q.Name) == "" || utf8.RuneCountInString(q.Name) > maxName {
			found.add(0, 0, say.That("%s has no name that fits, and is not shown here", short(cmp.Or(oneLine(q.Name), string(q.ID)))))
			continue
		}
		var file bytes.Buffer
		c := Contact{Person: q, UID: UID(q), Guardian: uids[q.Guardian]}
		c.Person.Role = q.Role.Or()
		err := writeCards(&file, []Contact{c}, writeOwn)
		back, odd, readErr := ReadCards(&file, plan.Date{})
		if err = errors.Join(err, readErr); err != nil {
			found.add(0, 0, say.That("%s: %s", short(q.Name), err))
			continue
		}
		for _, p := range odd {
			found.add(0, 0, say.That("%s: %s", short(q.Name), p.Text))
		}
		back[0].Line = i + 1
		out = append(out, back[0])
	}
	return out, found.all()
}
