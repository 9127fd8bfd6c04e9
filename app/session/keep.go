package session

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"eavelight/plan"
	"eavelight/plan/store"
)

// Changes that no file holds yet are kept aside in a folder of the user's settings, so that they are not lost when the program
// ends before they are saved: one file a document, locked by the window that has it open, and taken away as soon as nothing
// would be lost any more. It is a plan file, whose first line tells whose changes they are.

// Changes are written so long after the last of them, and so long after the first at the latest.
const (
	keepAfter   = 10 * time.Second
	keepAtLeast = time.Minute
)

// keeper keeps the changes of the open document aside.
type keeper struct {
	dir    string    // "" keeps nothing
	aside  *aside    // of the open document; nil where nothing is kept
	number int       // of the snapshot that is kept, or is being kept
	first  time.Time // when the first change was made that is not kept
	stop   func()    // calls off the writing that is due
	after  func(time.Duration, func()) (stop func())
	last   chan struct{} // closed when all that was to be done to the files is done
	err    error         // of the last writing
}

func afterFunc(d time.Duration, f func()) func() {
	t := time.AfterFunc(d, f)
	return func() { t.Stop() }
}

// KeepIn keeps unsaved changes aside in a folder from now on; "" keeps them nowhere.
func (s *Session) KeepIn(dir string) { s.keeper.dir = dir }

// keep brings what is kept aside, or is due to be, up to the snapshot shown.
func (s *Session) keep() {
	k := &s.keeper
	number := s.snapshots[s.at].number
	switch {
	case k.dir == "":
	case number == s.saved:
		s.dropKept()
	case number != k.number:
		if k.first.IsZero() {
			k.first = s.now()
		}
		k.stop()
		wait := max(0, min(keepAfter, k.first.Add(keepAtLeast).Sub(s.now())))
		k.stop = k.after(wait, func() { s.post(s.KeepNow) })
	}
}

// KeepNow keeps what is not saved aside at once, as when the user turns to another program.
func (s *Session) KeepNow() {
	k, snap := &s.keeper, s.snapshots[s.at]
	if k.dir == "" || s.closed || snap.number == s.saved || snap.number == k.number {
		return
	}
	if k.aside == nil {
		k.aside = &aside{file: filepath.Join(k.dir, asideName(s.path))}
	}
	a, path, doc := k.aside, s.path, s.doc
	k.number, k.first = snap.number, time.Time{}
	s.toFiles(func() error { return a.write(path, snap.plan) }, func(err error) {
		if s.doc != doc {
			return
		}
		if err != nil { // it is tried again
			k.number = 0
			s.keep()
		}
		if told := k.err; (told == nil) != (err == nil) {
			k.err = err
			s.changed()
		}
	})
}

// dropKept takes away what is kept of the open document: it is saved, or is not wanted any more.
func (s *Session) dropKept() {
	k := &s.keeper
	k.stop()
	k.number, k.first, k.err = 0, time.Time{}, nil
	if a := k.aside; a != nil {
		k.aside = nil
		s.toFiles(a.remove, func(error) {})
	}
}

// toFiles does something to the files kept aside in the background, after what was to be done to them before.
func (s *Session) toFiles(do func() error, done func(error)) {
	before, mine := s.keeper.last, make(chan struct{})
	s.keeper.last = mine
	s.background(func() func() {
		if before != nil {
			<-before
		}
		err := do()
		close(mine)
		return func() { done(err) }
	})
}

// aside is the file in which the changes of one document are kept. Only what toFiles runs touches it.
type aside struct {
	file  string
	claim *store.Claim
}

// asideName names the file for a plan. All names for a plan that has a file begin alike, so that they are found again.
func asideName(path string) string {
	if path == "" {
		return "untitled-" + rand.Text() + suffix
	}
	return fmt.Sprintf("%x%s", sha256.Sum256([]byte(path)), suffix)
}

const suffix = ".eavelight"

// heading begins the first line of such a file; the plan's path follows in quotes.
const heading = "# Unsaved changes of "

func (a *aside) write(path string, p plan.Plan) error {
	if err := os.MkdirAll(filepath.Dir(a.file), 0o700); err != nil {
		return err
	}
	if err := a.take(); err != nil {
		return err
	}
	data, err := store.Encode(p)
	if err != nil {
		return err
	}
	return store.Replace(a.file, append([]byte(heading+strconv.Quote(path)+"\n"), data...))
}

// take claims the file. Where one stands that was left to be asked about another time, it takes another name.
func (a *aside) take() error {
	if a.claim != nil {
		return nil
	}
	claim, err := store.Lock(a.file)
	_, there := os.Stat(a.file)
	if locked := (*store.LockedError)(nil); there == nil || errors.As(err, &locked) {
		release(claim)
		a.file = strings.TrimSuffix(a.file, suffix) + "-" + rand.Text() + suffix
		claim, err = store.Lock(a.file)
	}
	a.claim = claim
	return err
}

func (a *aside) remove() error {
	if a.claim == nil { // nothing was written
		return nil
	}
	err := os.Remove(a.file)
	release(a.claim)
	a.claim = nil
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// Lost are changes that were kept aside by a window that ended before they were saved.
type Lost struct {
	Path  string // of the plan's file; "" where it had none
	Title string
	When  time.Time // of the last writing
	Since time.Time // when the plan's file was changed after that; zero where it was not
	plan  plan.Plan
	aside *aside
}

// FindLost looks in the background for what was kept aside and never saved: of one plan, or of all where path is empty. What a
// window that is open keeps is none of it. What it finds is held back from other windows until it is brought back, thrown away
// or left.
func (s *Session) FindLost(path string, found func([]Lost)) {
	dir := s.keeper.dir
	if dir == "" {
		found(nil)
		return
	}
	var lost []Lost
	s.toFiles(func() error {
		pattern := "*" + suffix
		if path != "" {
			pattern = strings.TrimSuffix(asideName(absolute(path)), suffix) + pattern
		}
		files, _ := filepath.Glob(filepath.Join(dir, pattern)) // a folder that is not there holds none
		for _, file := range files {
			if l, ok := lostIn(file); ok {
				lost = append(lost, l)
			}
		}
		slices.SortFunc(lost, func(a, b Lost) int { return b.When.Compare(a.When) }) // the last first
		return nil
	}, func(error) { found(lost) })
}

// lostIn reads a file that was kept aside. One that can't be read, as it may be of a later version, is left where it is; one
// that holds just what the plan's file does is taken away.
func lostIn(file string) (Lost, bool) {
	if strings.HasPrefix(filepath.Base(file), ".") {
		return Lost{}, false
	}
	claim, err := store.Lock(file)
	if err != nil {
		return Lost{}, false
	}
	a := &aside{file, claim}
	l, err := a.read()
	if err != nil {
		release(claim)
		return Lost{}, false
	}
	if p, stamp, err := store.Read(l.Path); err == nil {
		if reflect.DeepEqual(p, l.plan) {
			a.remove()
			return Lost{}, false
		}
		if stamp.ModTime.After(l.When) {
			l.Since = stamp.ModTime
		}
	}
	return l, true
}

func (a *aside) read() (Lost, error) {
	info, err := os.Stat(a.file)
	if err != nil {
		return Lost{}, err
	}
	data, err := os.ReadFile(a.file)
	if err != nil {
		return Lost{}, err
	}
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	path, err := strconv.Unquote(strings.TrimPrefix(string(first), heading))
	if err != nil {
		return Lost{}, err
	}
	p, err := store.Decode(a.file, rest)
	return Lost{Path: path, Title: p.Title, When: info.ModTime(), plan: p, aside: a}, err
}

// BringBack opens the plan of lost changes with them as an edit of a name, which is not saved and can be undone. A plan whose file can't be
// read any more comes back as one without a file. On an error the open plan stays, and the changes are kept.
func (s *Session) BringBack(l Lost, name string, done func(error)) {
	back := func(err error) {
		if err == nil {
			s.Edit(name, "", func(p *plan.Plan) { *p = l.plan.Clone() })
			s.dropKept()
			s.keeper.aside = l.aside // taken away when they are saved, or not wanted
			s.keep()
		}
		done(err)
	}
	switch {
	case l.Path == "":
		s.Fresh(plan.New())
		back(nil)
	case l.Path == s.path:
		back(nil)
	default:
		s.Open(l.Path, func(err error) {
			var locked *store.LockedError
			switch {
			case errors.As(err, &locked) || errors.Is(err, errChanged):
				s.Leave(l)
				done(err)
				return
			case err != nil:
				s.Fresh(plan.New())
			}
			back(nil)
		})
	}
}

// ThrowAway throws lost changes away.
func (s *Session) ThrowAway(l Lost) { s.toFiles(l.aside.remove, func(error) {}) }

// Leave leaves lost changes to be asked about another time.
func (s *Session) Leave(l Lost) {
	s.toFiles(func() error { release(l.aside.claim); return nil }, func(error) {})
}
