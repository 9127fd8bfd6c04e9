package contacts

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
	"eavelight/plan/store"
)

// File is a file of people as it was read.
type File struct {
	Name     string // of the file, without its folder
	Table    *Table // nil where it holds cards
	Match    Match  // of the table's columns, as it is used
	Contacts []Contact
	Problems []Problem
}

// ReadFile reads a file of vCards, or of rows and columns, whichever it holds. The error is in the user's words; there may be
// problems with it that tell more.
func ReadFile(path string, today plan.Date) (File, error) {
	out := File{Name: filepath.Base(path)}
	f, err := Open(path)
	if err != nil {
		return out, err
	}
	defer f.Close()
	if err = out.read(f, today); err != nil {
		return out, say.Error("%s: %v", out.Name, err)
	}
	return out, nil
}

// Open opens a file that can be read to its end. The error is in the user's words.
func Open(path string) (*os.File, error) {
	info, err := os.Stat(path) // before opening: to open a pipe would wait for its other end
	switch {
	case err != nil:
		return nil, unread(path, err)
	case info.IsDir():
		return nil, say.Error("%s is a folder; name a file in it", path)
	case !info.Mode().IsRegular():
		return nil, say.Error("%s is no file that can be read to its end", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unread(path, err)
	}
	return f, nil
}

func unread(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &pathError{say.That("there is no file %s", path), fs.ErrNotExist}
	case errors.Is(err, fs.ErrPermission):
		return say.Error("%s may not be read; look at its permissions", path)
	}
	return say.Error("%s can't be read: %v", path, err)
}

// pathError says in the user's words what errors.Is knows under another name.
type pathError struct {
	say.Text
	is error
}

func (e *pathError) Error() string { return e.String() }

func (e *pathError) Unwrap() error { return e.is }

// errNoText is said of what spreadsheets and the like keep for themselves.
var errNoText = say.Error("this is not a text file; save the list as CSV, or export it as vCard")

func (f *File) read(file io.Reader, today plan.Date) error {
	r := bufio.NewReader(file)
	head, _ := r.Peek(2_000) // a failure comes again
	wide := bytes.HasPrefix(head, []byte("\xff\xfe")) || bytes.HasPrefix(head, []byte("\xfe\xff"))
	if !wide && bytes.IndexByte(head, 0) >= 0 {
		return errNoText
	}
	letters := bytes.ToUpper(bytes.ReplaceAll(head, []byte{0}, nil))
	kind := strings.ToLower(filepath.Ext(f.Name))
	if bytes.Contains(letters, []byte("BEGIN:VCARD")) || kind == ".vcf" || kind == ".vcard" {
		var err error
		f.Contacts, f.Problems, err = ReadCards(r, today)
		return err
	}
	t, err := ReadTable(r)
	if err == nil {
		f.Table = &t
		*f = f.Matched(t.Match, today)
	}
	return err
}

// Matched is the file with its columns read another way.
func (f File) Matched(m Match, today plan.Date) File {
	if f.Table != nil {
		f.Match = m
		f.Contacts, f.Problems = f.Table.Contacts(m, today)
	}
	return f
}

// WriteFile writes people as vCards into a file that only its owner can read, whole or not at all. What stands there is
// written over only when told to; otherwise the error is fs.ErrExist.
func WriteFile(path string, people []plan.Person, overwrite bool) error {
	if _, err := os.Lstat(path); err == nil && !overwrite {
		return &pathError{say.That("%s is there already", path), fs.ErrExist}
	}
	var all []Contact
	for _, q := range people {
		all = append(all, FromPerson(q))
	}
	var out bytes.Buffer
	err := WriteCards(&out, all)
	if err == nil {
		err = store.Replace(path, out.Bytes())
	}
	if err != nil {
		return say.Error("%s was not written: %v", path, err)
	}
	return nil
}
