package view

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"eavelight/app/session"
	"eavelight/plan"
	"eavelight/plan/contacts"
)

// ContactFile is a file of people as it was read.
type ContactFile struct {
	Name     string // of the file, without its folder
	Table    *contacts.Table
	Match    contacts.Match // of the table's columns, as it is used
	Contacts []contacts.Contact
	Problems []contacts.Problem
}

// ReadContacts reads a file of vCards, or of rows and columns, whichever it holds. The error is in the user's words; there may
// be problems with it that tell more.
func ReadContacts(path string, today plan.Date) (ContactFile, error) {
	out := ContactFile{Name: filepath.Base(path)}
	info, err := os.Stat(path)
	if err != nil {
		return out, unread(path, err)
	}
	if info.IsDir() {
		return out, fmt.Errorf("%s is a folder; name a file in it", path)
	}
	if !info.Mode().IsRegular() {
		return out, fmt.Errorf("%s is no file that can be read to its end", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return out, unread(path, err)
	}
	defer f.Close()
	if err = out.read(f, today); err != nil {
		return out, fmt.Errorf("%s: %w", out.Name, err)
	}
	return out, nil
}

// errNoText is said of what spreadsheets and the like keep for themselves.
var errNoText = errors.New("this is not a text file; save the list as CSV, or export it as vCard")

func (f *ContactFile) read(file io.Reader, today plan.Date) error {
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
		f.Contacts, f.Problems, err = contacts.ReadCards(r, today)
		return err
	}
	t, err := contacts.ReadTable(r)
	if err == nil {
		f.Table = &t
		*f = f.Matched(t.Match, today)
	}
	return err
}

func unread(path string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file %s", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read; look at its permissions", path)
	}
	return fmt.Errorf("%s can't be read: %w", path, err)
}

// Matched is the file with its columns read another way.
func (f ContactFile) Matched(m contacts.Match, today plan.Date) ContactFile {
	if f.Table != nil {
		f.Match = m
		f.Contacts, f.Problems = f.Table.Contacts(m, today)
	}
	return f
}

// ContactsPath proposes where the people of a plan are written to: beside it.
func ContactsPath(st session.State) string {
	if st.Path == "" {
		return ""
	}
	return strings.TrimSuffix(st.Path, filepath.Ext(st.Path)) + "-people.vcf"
}

// WriteContacts writes people as vCards into a file that only its owner can read, whole or not at all. What stands there is
// written over only when told to; otherwise the error is fs.ErrExist.
func WriteContacts(path string, people []plan.Person, overwrite bool) (err error) {
	var all []contacts.Contact
	for _, q := range people {
		all = append(all, contacts.FromPerson(q))
	}
	if _, err := os.Lstat(path); err == nil && !overwrite {
		return &existsError{path}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".people-*")
	if err != nil {
		return fmt.Errorf("%s was not written: %w", path, err)
	}
	defer func() {
		_ = os.Remove(f.Name()) // where it took its name, nothing is there
		if err != nil && !errors.Is(err, fs.ErrExist) {
			err = fmt.Errorf("%s was not written: %w", path, err)
		}
	}()
	err = contacts.WriteCards(f, all)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if overwrite {
		return os.Rename(f.Name(), path)
	}
	return nameNew(f.Name(), path)
}

// nameNew gives a whole file its name, unless another has it by now. Where the disk knows no links, looking has to do.
func nameNew(from, to string) error {
	if err := os.Link(from, to); err == nil {
		return nil
	}
	if _, err := os.Lstat(to); err == nil {
		return &existsError{to}
	}
	return os.Rename(from, to)
}

type existsError struct{ path string }

func (e *existsError) Error() string { return e.path + " is there already" }

func (*existsError) Is(target error) bool { return target == fs.ErrExist }
