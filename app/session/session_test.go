package session

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/store"

	"pgregory.net/rapid"
)

// bench is a session with a queue in place of the window's goroutine and a clock that stands still until told.
type bench struct {
	*Session
	queue   chan func()
	clock   time.Time
	changes int
}

func newBench(t interface{ Cleanup(func()) }) *bench {
	b := &bench{queue: make(chan func(), 1000), clock: time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)}
	b.Session = New(func(f func()) { b.queue <- f }, func() { b.changes++ })
	b.now = func() time.Time { return b.clock }
	t.Cleanup(b.Close)
	return b
}

// settle runs what the background brings until the results are complete.
func (b *bench) settle() {
	for b.State().Results.Busy {
		(<-b.queue)()
	}
}

// wait runs what the background brings until done.
func (b *bench) wait(done *bool) {
	for !*done {
		(<-b.queue)()
	}
}

func (b *bench) open(t *testing.T, path string) error {
	t.Helper()
	done, result := false, error(nil)
	b.Open(path, func(err error) { done, result = true, err })
	b.wait(&done)
	return result
}

func (b *bench) save(t *testing.T, save func(done func(error))) error {
	t.Helper()
	done, result := false, error(nil)
	save(func(err error) { done, result = true, err })
	b.wait(&done)
	return result
}

func demo(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "demo.eavelight")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func setTitle(s string) func(*plan.Plan) { return func(p *plan.Plan) { p.Title = s } }

func TestEditsMergeByKeyAndTime(t *testing.T) {
	b := newBench(t)
	b.Edit("change title", "title", setTitle("A"))
	b.Edit("change title", "title", setTitle("AB"))
	b.clock = b.clock.Add(mergeWithin)
	b.Edit("change title", "title", setTitle("ABC"))
	b.Edit("change client", "client", func(p *plan.Plan) { p.Brief.Client = "C" })
	var titles []string
	for b.State().Undo != "" {
		titles = append(titles, b.State().Undo+":"+b.State().Plan.Title)
		b.Undo()
	}
	want := []string{"change client:ABC", "change title:ABC", "change title:AB"}
	if !reflect.DeepEqual(titles, want) {
		t.Errorf("undone: %q, want %q", titles, want)
	}
	if st := b.State(); st.Plan.Title != "" || st.Dirty || st.Redo != "change title" {
		t.Errorf("all undone: title %q, dirty %v, redo %q", st.Plan.Title, st.Dirty, st.Redo)
	}
	b.Redo()
	b.Edit("change agent", "", func(p *plan.Plan) { p.Brief.Agent = "X" })
	if st := b.State(); st.Redo != "" || st.Plan.Title != "AB" {
		t.Errorf("a new edit leaves something to redo: %q", st.Redo)
	}
}

func TestWrongEditIsNotMade(t *testing.T) {
	b := newBench(t)
	wrong := b.Edit("change elevation", "", func(p *plan.Plan) { p.Property.Elevation = 1e9 })
	if len(wrong) == 0 || b.State().Undo != "" || b.State().Plan.Property.Elevation != 0 {
		t.Errorf("wrong %v, undo %q", wrong, b.State().Undo)
	}
}

// TestUndoRestoresEverySnapshot: whatever was edited, undoing it all and redoing it all gives the same plans again.
func TestUndoRestoresEverySnapshot(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var cleanup []func()
		b := newBench(cleaner(func(f func()) { cleanup = append(cleanup, f) }))
		defer func() {
			for _, f := range cleanup {
				f()
			}
		}()
		plans := []plan.Plan{b.State().Plan.Clone()}
		for range rapid.IntRange(1, 20).Draw(r, "edits") {
			b.Edit("edit", "", func(p *plan.Plan) {
				switch rapid.IntRange(0, 3).Draw(r, "which") {
				case 0:
					p.AddScene(0)
				case 1:
					p.AddPerson(0)
				case 2:
					if len(p.Scenes) > 0 {
						p.RemoveScene(0)
					}
				default:
					p.Title += "x"
				}
			})
			if now := b.State().Plan; !reflect.DeepEqual(now, plans[len(plans)-1]) { // an edit that changes nothing is no step
				plans = append(plans, now.Clone())
			}
		}
		for i := len(plans) - 1; i >= 0; i-- {
			if !reflect.DeepEqual(plans[i], b.State().Plan) {
				r.Fatalf("undoing gives another plan at step %d", i)
			}
			b.Undo()
		}
		for _, p := range plans {
			if !reflect.DeepEqual(p, b.State().Plan) {
				r.Fatal("redoing gives another plan")
			}
			b.Redo()
		}
	})
}

type cleaner func(func())

func (c cleaner) Cleanup(f func()) { c(f) }

func TestOpenPlacesTheDay(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	b.settle()
	st := b.State()
	if st.Dirty || !st.Results.Placed || len(st.Results.Days) != 3 || len(st.Results.Chosen.Scenes) == 0 {
		t.Fatalf("dirty %v, %d days, %d scenes placed", st.Dirty, len(st.Results.Days), len(st.Results.Chosen.Scenes))
	}
}

// TestOnlyWhatMattersIsPlacedAgain: a title leaves the days as they are; a scene's minutes don't.
func TestOnlyWhatMattersIsPlacedAgain(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	b.settle()
	b.Edit("change title", "", setTitle("Another"))
	if b.State().Results.Busy {
		t.Error("a new title places the scenes again")
	}
	before := b.State().Results.Chosen
	b.Edit("change action", "", func(p *plan.Plan) { p.Scenes[2].Action, p.People[0].Notes = "Prose", "Prose" })
	b.Edit("add picture", "", func(p *plan.Plan) { p.AddPicture(p.Scenes[2].ID, plan.Picture{File: "dusk.jpg"}) })
	b.Edit("add shot", "", func(p *plan.Plan) { p.Scenes[2].Shots, p.Scenes[2].Audio = []plan.Shot{{Frame: "wide"}}, "Wild sound" })
	if b.State().Results.Busy {
		t.Error("prose places the scenes again")
	}
	b.Edit("change kit", "", func(p *plan.Plan) { p.Scenes[2].Kit = append(p.Scenes[2].Kit, "crane") })
	if b.State().Results.Busy {
		t.Error("kit that is always there places the scenes again")
	}
	b.Edit("hire kit", "", func(p *plan.Plan) { p.Shooting.Kit = []plan.Kit{{Name: "Crane"}} })
	if !b.State().Results.Busy {
		t.Error("hired kit places no scene again")
	}
	b.settle()
	b.Edit("change kit", "", func(p *plan.Plan) { p.Scenes[2].Kit = []string{"a broom"} })
	if !b.State().Results.Busy {
		t.Error("a scene without its hired kit is not placed again")
	}
	b.settle()
	b.Edit("change a drone release", "", func(p *plan.Plan) { p.Releases[len(p.Releases)-1].Scenes = []plan.ID{"dusk"} })
	if !b.State().Results.Busy {
		t.Error("the flights of the day stay, though the drone release names others")
	}
	b.settle()
	if _, flies := b.State().Results.Chosen.Flight("dusk"); !flies {
		t.Error("a scene that the drone release names is no flight")
	}
	b.Edit("change minutes", "", func(p *plan.Plan) { p.Scenes[2].Shoot = 5 })
	if !b.State().Results.Busy || !reflect.DeepEqual(b.State().Results.Chosen.Date, before.Date) {
		t.Error("new minutes place no scene again, or the old day is not shown meanwhile")
	}
	b.settle()
	if reflect.DeepEqual(b.State().Results.Chosen.Scenes, before.Scenes) {
		t.Error("the day is the same with shorter minutes")
	}
}

// TestLateResultsAreDropped: results of an old snapshot that come after a new edit change nothing.
func TestLateResultsAreDropped(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	for i := range 8 { // each edit overtakes the placing of the one before
		b.Edit("remove scene", "", func(p *plan.Plan) { p.RemoveScene(0) })
		if i == 3 {
			time.Sleep(20 * time.Millisecond) // let some of it arrive
		}
	}
	b.settle()
	b.work.Wait()
	for len(b.queue) > 0 {
		(<-b.queue)()
	}
	st := b.State()
	if len(st.Results.Days) != 3 {
		t.Fatalf("%d days, want 3", len(st.Results.Days))
	}
	for _, d := range st.Results.Days {
		if got := len(d.Scenes) + len(d.LeftOut); got != len(st.Plan.Scenes) {
			t.Errorf("a day of %d scenes for a plan of %d", got, len(st.Plan.Scenes))
		}
	}
}

func TestSaveAndReopen(t *testing.T) {
	b := newBench(t)
	path := filepath.Join(t.TempDir(), "new.eavelight")
	b.Edit("change title", "", setTitle("Saved"))
	if err := b.save(t, func(done func(error)) { b.SaveAs(path, false, done) }); err != nil {
		t.Fatal(err)
	}
	if st := b.State(); st.Dirty || st.Path != path {
		t.Errorf("after saving: dirty %v, path %q", st.Dirty, st.Path)
	}
	b.Edit("change title", "", setTitle("Saved twice"))
	if err := b.save(t, b.Save); err != nil {
		t.Fatal(err)
	}
	b.Undo()
	if !b.State().Dirty {
		t.Error("undoing past the saved state is not seen as a change")
	}
	b.Redo()
	if b.State().Dirty {
		t.Error("redoing to the saved state is seen as a change")
	}
	other := newBench(t)
	err := other.open(t, path)
	if locked := (*store.LockedError)(nil); !errors.As(err, &locked) {
		t.Errorf("a second window opens the file: %v", err)
	}
	b.Close()
	if err := other.open(t, path); err != nil || other.State().Plan.Title != "Saved twice" {
		t.Errorf("reopened: %v, title %q", err, other.State().Plan.Title)
	}
}

// TestSaveThenAnotherDocument: a save that ends after another document was put in place does not tie that one to the file.
func TestSaveThenAnotherDocument(t *testing.T) {
	b := newBench(t)
	path := demo(t)
	if err := b.open(t, path); err != nil {
		t.Fatal(err)
	}
	b.Edit("change title", "", setTitle("Mine"))
	done := false
	b.Save(func(err error) { done = true })
	b.Fresh(plan.New())
	b.wait(&done)
	if st := b.State(); st.Path != "" || st.Plan.Title != "" || st.Results.Placed && len(st.Results.Chosen.Scenes) > 0 {
		t.Errorf("the new plan has path %q and %d scenes placed", st.Path, len(st.Results.Chosen.Scenes))
	}
	if p, _, err := store.Read(path); err != nil || p.Title != "Mine" {
		t.Errorf("the file holds %q, %v", p.Title, err)
	}
}

// TestTwoQuickSaves: the second waits for the first, and neither takes the other for a stranger.
func TestTwoQuickSaves(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	var results []error
	both := false
	done := func(err error) { results = append(results, err); both = len(results) == 2 }
	b.Edit("change title", "", setTitle("One"))
	b.Save(done)
	b.Edit("change agent", "", func(p *plan.Plan) { p.Brief.Agent = "Two" })
	b.Save(done)
	b.wait(&both)
	if results[0] != nil || results[1] != nil || b.State().Dirty {
		t.Errorf("results %v, dirty %v", results, b.State().Dirty)
	}
}

// TestEditWhileOpening: what was typed while a file was being read is not dropped.
func TestEditWhileOpening(t *testing.T) {
	b := newBench(t)
	done, result := false, error(nil)
	b.Open(demo(t), func(err error) { done, result = true, err })
	b.Edit("change title", "", setTitle("Typed"))
	b.wait(&done)
	if result == nil || b.State().Plan.Title != "Typed" {
		t.Errorf("opened over it: %v, title %q", result, b.State().Plan.Title)
	}
}

// TestStoppedPlacingGoesOn: the next change of anything places again.
func TestStoppedPlacingGoesOn(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	b.Stop()
	b.settle()
	if !b.State().Results.Stopped {
		t.Skip("it was placed before it could be stopped")
	}
	b.Edit("change title", "", setTitle("Another"))
	b.settle()
	if st := b.State(); st.Results.Stopped || len(st.Results.Days) != 3 {
		t.Errorf("stopped %v, %d days", st.Results.Stopped, len(st.Results.Days))
	}
}

func TestFileChangedBehindTheWindow(t *testing.T) {
	b := newBench(t)
	path := demo(t)
	if err := b.open(t, path); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte("eavelight: 1\ntitle: From elsewhere\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.Edit("change title", "", setTitle("Mine"))
	if err := b.save(t, b.Save); !errors.Is(err, store.ErrChanged) {
		t.Fatalf("saved over a file that changed: %v", err)
	}
	if p, _, err := store.Read(path); err != nil || p.Title != "From elsewhere" {
		t.Errorf("the file is %q, %v", p.Title, err)
	}
	if err := b.save(t, b.Overwrite); err != nil {
		t.Fatal(err)
	}
	if p, _, err := store.Read(path); err != nil || p.Title != "Mine" || b.State().Dirty {
		t.Errorf("the file is %q, %v", p.Title, err)
	}
	if p, _, err := store.Read(store.Backup(path)); err != nil || p.Title != "From elsewhere" {
		t.Errorf("the backup is %q, %v", p.Title, err)
	}
}

// TestAfterSaving: who asks whether anything is unsaved while it is being saved hears it after that.
func TestAfterSaving(t *testing.T) {
	b := newBench(t)
	if err := b.open(t, demo(t)); err != nil {
		t.Fatal(err)
	}
	heard, dirty := 0, false
	both := false
	ask := func() { heard++; dirty = dirty || b.State().Dirty; both = heard == 2 }
	b.Edit("change title", "", setTitle("One"))
	b.Save(func(error) {})
	b.AfterSaving(ask)
	if heard > 0 {
		t.Error("heard before the save was done")
	}
	b.Save(func(error) { b.AfterSaving(ask) })
	b.wait(&both)
	if dirty {
		t.Error("unsaved after the save")
	}
}

func TestSaveAsLeavesOtherFilesAlone(t *testing.T) {
	b := newBench(t)
	path := demo(t)
	err := b.save(t, func(done func(error)) { b.SaveAs(path, false, done) })
	if !errors.Is(err, store.ErrExists) || b.State().Path != "" {
		t.Errorf("saved over another file: %v", err)
	}
	if err := b.save(t, func(done func(error)) { b.SaveAs(path, true, done) }); err != nil || b.State().Path != path {
		t.Errorf("not saved when asked to replace: %v", err)
	}
}

// TestSaveAsOntoItself: the plan's own file is saved, as by Save.
func TestSaveAsOntoItself(t *testing.T) {
	b := newBench(t)
	path := demo(t)
	if err := b.open(t, path); err != nil {
		t.Fatal(err)
	}
	b.Edit("change title", "", setTitle("Mine"))
	if err := b.save(t, func(done func(error)) { b.SaveAs(path, false, done) }); err != nil || b.State().Dirty {
		t.Errorf("not saved: %v", err)
	}
}

func TestBadFileLeavesTheOpenPlan(t *testing.T) {
	b := newBench(t)
	b.Edit("change title", "", setTitle("Kept"))
	path := filepath.Join(t.TempDir(), "bad.eavelight")
	if err := os.WriteFile(path, []byte("eavelight: 1\ntitel: x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := b.open(t, path); err == nil || b.State().Plan.Title != "Kept" || !b.State().Dirty {
		t.Errorf("err %v, title %q", err, b.State().Plan.Title)
	}
	if err := b.open(t, path+"nowhere"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file that is not there: %v", err)
	}
}
