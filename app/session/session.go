// Package session holds the open plan: the only mutable thing in the program. An edit makes a new snapshot; undo and redo
// move between snapshots; what is derived from a snapshot is computed in the background, tagged with its number, and
// dropped when it comes late.
//
// All methods are for one goroutine, the one that post hands functions to (the window's). The session knows no Fyne.
package session

import (
	"context"
	"path/filepath"
	"reflect"
	"sync"
	"sync/atomic"
	"time"

	"eavelight/plan"
	"eavelight/plan/pictures"
	"eavelight/plan/say"
	"eavelight/plan/store"
)

// Session is one open plan, saved or not.
type Session struct {
	post    func(func())
	changed func()

	path  string
	stamp store.Stamp
	claim *store.Claim

	snapshots []snapshot
	at        int // index of the one shown
	saved     int // number of the one on disk
	counter   int
	doc       int      // counts documents, so that what comes late for another one is known
	saving    bool     // a write is under way
	later     []func() // saves asked for meanwhile
	results   Results
	basis     plan.Plan // what the days were, or are being, computed from
	placing   int       // counts placings, so that a late one is known
	cancel    context.CancelFunc
	read      []plan.Release // whose scans are, or are being, read
	unread    func()         // gives up reading them
	work      sync.WaitGroup
	under     atomic.Int32 // what background has under way, and not yet delivered
	now       func() time.Time
	keeper    keeper
	closed    bool
}

// snapshot is the plan after an edit. Nobody changes its plan any more.
type snapshot struct {
	number int
	plan   plan.Plan
	edit   string // the name of the edit that made it
	key    string
	when   time.Time
}

// mergeWithin is how soon an edit with the same key must follow to become one step of undo with the one before.
const mergeWithin = 1500 * time.Millisecond

// undoSteps is how many snapshots are kept. A plan is some tens of kilobytes.
const undoSteps = 500

// New starts with a new, empty plan. changed is called after everything that State would show differently.
func New(post func(func()), changed func()) *Session {
	s := &Session{post: post, changed: changed, now: time.Now, unread: func() {}, keeper: keeper{after: afterFunc, stop: func() {}}}
	s.restart(plan.New(), "", store.Stamp{}, nil)
	return s
}

// restart puts another document in place of the open one.
func (s *Session) restart(p plan.Plan, path string, stamp store.Stamp, claim *store.Claim) {
	if claim != s.claim {
		release(s.claim)
	}
	s.path, s.stamp, s.claim = path, stamp, claim
	s.dropKept()
	if s.cancel != nil {
		s.cancel()
		s.cancel = nil
	}
	s.unread()
	s.results, s.later, s.read = Results{}, nil, nil
	s.doc++
	s.counter++
	s.saved = s.counter
	s.snapshots, s.at = []snapshot{{number: s.counter, plan: p}}, 0
	s.recompute()
}

// State is everything there is to show. Plan is a snapshot: read it, never write to it.
type State struct {
	Plan       plan.Plan
	Doc        int    // changes when another document is opened
	Path       string // "" for a plan that has no file yet
	Dirty      bool
	Undo, Redo string // the names of the edits; "" where there is none
	Unkept     error  // why the changes could not be kept aside; nil when they are, or will be soon
	Results    Results
}

// State returns the current state.
func (s *Session) State() State {
	st := State{
		Plan:    s.snapshots[s.at].plan,
		Doc:     s.doc,
		Path:    s.path,
		Dirty:   s.snapshots[s.at].number != s.saved,
		Unkept:  s.keeper.err,
		Results: s.results,
	}
	if s.at > 0 {
		st.Undo = s.snapshots[s.at].edit
	}
	if s.at+1 < len(s.snapshots) {
		st.Redo = s.snapshots[s.at+1].edit
	}
	return st
}

// Edit makes a new snapshot with f done to a copy of the plan. Edits with the same key that follow each other quickly, such
// as keystrokes in one field, are one step of undo; an empty key never merges. An edit that would leave the plan
// contradicting itself is not made, and what would be wrong is returned: so a plan in the window is always one that can be
// saved and read back.
func (s *Session) Edit(name, key string, f func(*plan.Plan)) plan.Problems {
	next := s.snapshots[s.at].plan.Clone()
	f(&next)
	if wrong := plan.Validate(next).At(plan.Wrong); len(wrong) > 0 {
		return wrong
	}
	if reflect.DeepEqual(next, s.snapshots[s.at].plan) {
		return nil // nothing to undo
	}
	s.counter++
	snap := snapshot{number: s.counter, plan: next, edit: name, key: key, when: s.now()}
	top := s.snapshots[s.at]
	merge := s.at > 0 && key != "" && key == top.key && snap.when.Sub(top.when) < mergeWithin && top.number != s.saved
	if !merge {
		s.at++
	}
	s.snapshots = append(s.snapshots[:s.at:s.at], snap)
	if drop := len(s.snapshots) - undoSteps; drop > 0 {
		s.snapshots, s.at = s.snapshots[drop:], s.at-drop
	}
	s.recompute()
	return nil
}

// Undo goes one step back, Redo one forward. Neither does anything at the end of the line.
func (s *Session) Undo() { s.step(-1) }

// Redo goes one step forward.
func (s *Session) Redo() { s.step(1) }

func (s *Session) step(by int) {
	if to := s.at + by; to >= 0 && to < len(s.snapshots) {
		s.at = to
		s.recompute()
	}
}

var errChanged = say.Error("the open plan was changed meanwhile; save it, then open the other one again")

// Open reads a plan file in the background and puts it in place of the open plan. done hears how it went, on the session's
// own goroutine; on an error the open plan stays.
func (s *Session) Open(path string, done func(error)) {
	path = absolute(path)
	shown := s.snapshots[s.at].number
	opened := func(p plan.Plan, stamp store.Stamp, claim *store.Claim, err error) func() {
		return func() {
			if err == nil && s.snapshots[s.at].number != shown {
				err = errChanged
			}
			s.opened(p, path, stamp, claim, err, done)
		}
	}
	if path == s.path { // our own claim would be in the way
		claim := s.claim
		s.background(func() func() {
			p, stamp, err := store.Read(path)
			return opened(p, stamp, claim, err)
		})
		return
	}
	s.background(func() func() {
		claim, err := store.Lock(path)
		if err != nil {
			return func() { done(err) }
		}
		p, stamp, err := store.Read(path)
		return opened(p, stamp, claim, err)
	})
}

func (s *Session) opened(p plan.Plan, path string, stamp store.Stamp, claim *store.Claim, err error, done func(error)) {
	switch {
	case err == nil:
		s.restart(p, path, stamp, claim)
	case claim != s.claim:
		release(claim)
	}
	done(err)
}

// Fresh puts a plan without a file in place of the open one.
func (s *Session) Fresh(p plan.Plan) {
	s.restart(p, "", store.Stamp{}, nil)
}

// Save writes the plan to its file in the background. A file that changed on disk behind the window is left alone and done
// hears store.ErrChanged.
func (s *Session) Save(done func(error)) {
	if s.saving { // the stamp to compare with is not there yet
		s.later = append(s.later, func() { s.Save(done) })
		return
	}
	last := s.stamp
	s.write(s.path, s.claim, done, func(path string, p plan.Plan) (store.Stamp, error) { return store.Write(path, p, last) })
}

// AfterSaving goes on when no save is under way any more: at once, or after it and those asked for meanwhile.
func (s *Session) AfterSaving(then func()) {
	if !s.saving {
		then()
		return
	}
	s.later = append(s.later, func() { s.AfterSaving(then) })
}

// Overwrite saves over a file that changed behind the window, after the user has said so.
func (s *Session) Overwrite(done func(error)) { s.write(s.path, s.claim, done, store.Overwrite) }

// LeftBehind are the pictures that did not come along when a plan was saved in another folder. The plan itself is safe there.
type LeftBehind struct{ Err error }

// Error is an error's.
func (l LeftBehind) Error() string { return l.Err.Error() }

// SaveAs writes the plan to another file and goes on with that one, and brings its pictures along where that is in another folder.
// A file that exists is left alone, and done hears store.ErrExists, unless overwrite is set.
func (s *Session) SaveAs(path string, overwrite bool, done func(error)) {
	path = absolute(path)
	write := func(path string, p plan.Plan) (store.Stamp, error) { return store.Write(path, p, store.Stamp{}) }
	if overwrite {
		write = store.Overwrite
	}
	if path == s.path {
		s.Save(done)
		return
	}
	s.background(func() func() {
		claim, err := store.Lock(path)
		return func() {
			if err != nil {
				done(err)
				return
			}
			s.write(path, claim, done, write)
		}
	})
}

// write saves the snapshot shown. A claim on another file than the open one is kept when that went well, else given back.
func (s *Session) write(path string, claim *store.Claim, done func(error), write func(string, plan.Plan) (store.Stamp, error)) {
	snap, doc, other, from := s.snapshots[s.at], s.doc, claim != s.claim, s.path
	s.saving = true
	s.background(func() func() {
		stamp, err := write(path, snap.plan)
		if err == nil {
			err = bring(&snap.plan, from, path)
		}
		return func() {
			s.saving = false
			switch stays := s.doc == doc && !stamp.IsZero(); {
			case stays:
				if other {
					release(s.claim)
				}
				moved := path != s.path
				s.path, s.stamp, s.claim, s.saved = path, stamp, claim, snap.number
				if moved {
					s.dropKept() // its name is the other plan's
				}
				s.keep()
				if moved { // scans are looked for beside the plan
					s.CheckScans()
				}
				s.changed()
			case other: // not written, or another document is open by now
				release(claim)
			}
			done(err)
			later := s.later
			s.later = nil
			for _, save := range later {
				save()
			}
		}
	})
}

// bring copies the pictures of a plan that was saved elsewhere.
func bring(p *plan.Plan, from, to string) error {
	if from == "" || filepath.Dir(from) == filepath.Dir(to) {
		return nil
	}
	if err := pictures.Bring(context.Background(), p, filepath.Dir(from), filepath.Dir(to)); err != nil {
		return LeftBehind{err}
	}
	return nil
}

func release(c *store.Claim) {
	if c != nil {
		c.Release()
	}
}

// background runs work off the session's goroutine and brings what it returns back onto it.
func (s *Session) background(work func() func()) {
	s.under.Add(1)
	s.work.Go(func() {
		done := work()
		s.post(func() {
			s.under.Add(-1)
			done()
		})
	})
}

// Idle reports that nothing is being read, saved or placed. For those who wait for it, as tests do.
func (s *Session) Idle() bool { return s.under.Load() == 0 && !s.results.Busy }

// Close stops the background work, waits for it and lets the file go. What was kept aside of the open plan is taken away: who
// closes has saved it, or does not want it.
func (s *Session) Close() {
	s.closed = true
	s.dropKept()
	if s.cancel != nil {
		s.cancel()
	}
	s.unread()
	s.work.Wait()
	release(s.claim)
	s.claim = nil
}

func absolute(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}
