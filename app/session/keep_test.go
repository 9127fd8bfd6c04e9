package session

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/store"
)

// keeping is a bench that keeps unsaved changes aside; what is due waits for the test.
type keeping struct {
	*bench
	dir   string
	delay time.Duration // how long the writing that is due was to wait
	due   func()
}

func newKeeping(t *testing.T, dir string) *keeping {
	k := &keeping{bench: newBench(t), dir: dir}
	k.keeper.after = func(d time.Duration, f func()) func() {
		k.delay, k.due = d, f
		return func() { k.due = nil }
	}
	k.KeepIn(dir)
	return k
}

// rest runs what the background brings until it is idle.
func (k *keeping) rest() {
	for !k.Idle() {
		(<-k.queue)()
	}
}

// keepIt lets the time come at which changes are written.
func (k *keeping) keepIt() {
	if k.due != nil {
		k.due()
	}
	for len(k.queue) > 0 || !k.Idle() {
		(<-k.queue)()
	}
}

func (k *keeping) files() []string {
	files, _ := filepath.Glob(filepath.Join(k.dir, "*"+suffix))
	return files
}

func (k *keeping) lost(path string) []Lost {
	var lost []Lost
	k.FindLost(path, func(l []Lost) { lost = l })
	k.rest()
	return lost
}

// crash ends a session as kill -9 does: nothing of it goes on, and the system takes its locks.
func (k *keeping) crash() {
	k.rest()
	k.due = nil
	release(k.claim)
	if a := k.keeper.aside; a != nil {
		release(a.claim)
	}
	k.claim, k.keeper = nil, keeper{after: afterFunc, stop: func() {}}
}

func TestChangesAreWrittenAfterTenSecondsAndAMinuteAtMost(t *testing.T) {
	k := newKeeping(t, t.TempDir())
	k.rest()
	if k.due != nil {
		t.Fatal("a plan without changes is to be written")
	}
	for at, want := range map[time.Duration]time.Duration{0: keepAfter, 45 * time.Second: keepAfter, 55 * time.Second: 5 * time.Second, 90 * time.Second: 0} {
		k := newKeeping(t, t.TempDir())
		k.Edit("change title", "", setTitle("A"))
		k.clock = k.clock.Add(at)
		k.Edit("change title", "", setTitle("AB"))
		if k.delay != want {
			t.Errorf("%v after the first change, the writing waits %v, want %v", at, k.delay, want)
		}
	}
}

func TestKeptAsideUntilSaved(t *testing.T) {
	k := newKeeping(t, filepath.Join(t.TempDir(), "new", "folder"))
	path := demo(t)
	before, _ := os.ReadFile(path)
	if err := k.open(t, path); err != nil {
		t.Fatal(err)
	}
	k.Edit("change title", "", setTitle("Changed"))
	k.keepIt()
	files := k.files()
	if len(files) != 1 {
		t.Fatalf("kept in %v", files)
	}
	if info, _ := os.Stat(files[0]); info.Mode().Perm() != 0o600 {
		t.Errorf("others may read what is kept: %v", info.Mode())
	}
	if p, _, err := store.Read(files[0]); err != nil || p.Title != "Changed" {
		t.Errorf("what is kept is no plan file: %q, %v", p.Title, err)
	}
	if after, _ := os.ReadFile(path); string(after) != string(before) {
		t.Error("the user's file was written")
	}
	if err := k.save(t, k.Save); err != nil {
		t.Fatal(err)
	}
	k.rest()
	if files := k.files(); len(files) != 0 || k.due != nil {
		t.Errorf("after saving there is still %v", files)
	}
	k.Edit("change title", "", setTitle("Again"))
	k.keepIt()
	k.Undo()
	k.rest()
	if files := k.files(); len(files) != 0 {
		t.Errorf("after undoing to what is saved there is still %v", files)
	}
}

// TestNothingStaysOfWhatIsNotWanted: closing, and opening another plan, come after the question whether to save.
func TestNothingStaysOfWhatIsNotWanted(t *testing.T) {
	for name, leave := range map[string]func(*keeping){
		"closed":       func(k *keeping) { k.Close() },
		"another plan": func(k *keeping) { k.Fresh(plan.New()); k.rest() },
		"saved elsewhere": func(k *keeping) {
			done := false
			k.SaveAs(filepath.Join(t.TempDir(), "other.eavelight"), false, func(error) { done = true })
			k.wait(&done)
			k.rest()
		},
	} {
		k := newKeeping(t, t.TempDir())
		k.Edit("change title", "", setTitle("Unwanted"))
		k.keepIt()
		if len(k.files()) != 1 {
			t.Fatalf("%s: nothing was kept", name)
		}
		leave(k)
		all, _ := os.ReadDir(k.dir)
		if len(all) != 0 {
			t.Errorf("%s: there is still %v", name, all)
		}
	}
}

func TestBringBackAfterACrash(t *testing.T) {
	dir, path := t.TempDir(), demo(t)
	k := newKeeping(t, dir)
	if err := k.open(t, path); err != nil {
		t.Fatal(err)
	}
	title := k.State().Plan.Title
	k.Edit("change title", "", setTitle("Changed"))
	k.keepIt()
	if other := newKeeping(t, dir).lost(""); len(other) != 0 {
		t.Fatalf("what an open window keeps is taken for lost: %+v", other)
	}
	k.crash()

	again := newKeeping(t, dir)
	lost := again.lost("")
	if len(lost) != 1 || lost[0].Path != path || lost[0].Title != "Changed" || !lost[0].Since.IsZero() {
		t.Fatalf("lost: %+v", lost)
	}
	if other := newKeeping(t, dir).lost(""); len(other) != 0 {
		t.Error("two windows ask about the same changes")
	}
	again.BringBack(lost[0], "bring back the unsaved changes", func(err error) {
		if err != nil {
			t.Error(err)
		}
	})
	again.rest()
	st := again.State()
	if st.Plan.Title != "Changed" || !st.Dirty || st.Path != path || st.Undo != "bring back the unsaved changes" {
		t.Fatalf("brought back: %q at %s, dirty %v, undo %q", st.Plan.Title, st.Path, st.Dirty, st.Undo)
	}
	if len(again.files()) != 1 {
		t.Error("what was brought back is kept no more, though nothing is saved")
	}
	again.Undo()
	if st := again.State(); st.Plan.Title != title || st.Dirty {
		t.Errorf("undone it is %q, dirty %v", st.Plan.Title, st.Dirty)
	}
	again.Redo()
	if err := again.save(t, again.Save); err != nil {
		t.Fatal(err)
	}
	again.rest()
	if p, _, err := store.Read(path); err != nil || p.Title != "Changed" || len(again.files()) != 0 {
		t.Errorf("saved %q, %v; kept %v", p.Title, err, again.files())
	}
}

// TestWhenTheFileHasMovedOn: the plan's file was changed, is gone or makes no sense by the time the changes are found.
func TestWhenTheFileHasMovedOn(t *testing.T) {
	for _, test := range []struct {
		name string
		then func(path string) error
		path bool // it comes back with its path
	}{
		{"changed", func(path string) error { return os.WriteFile(path, []byte("eavelight: 1\ntitle: Theirs\n"), 0o600) }, true},
		{"gone", os.Remove, false},
		{"broken", func(path string) error { return os.WriteFile(path, []byte("nonsense"), 0o600) }, false},
	} {
		dir, path := t.TempDir(), demo(t)
		k := newKeeping(t, dir)
		if err := k.open(t, path); err != nil {
			t.Fatal(err)
		}
		k.Edit("change title", "", setTitle("Changed"))
		k.keepIt()
		old := time.Now().Add(-time.Hour)
		os.Chtimes(k.files()[0], old, old)
		k.crash()
		if err := test.then(path); err != nil {
			t.Fatal(err)
		}
		again := newKeeping(t, dir)
		lost := again.lost("")
		if len(lost) != 1 || lost[0].Since.IsZero() == test.path {
			t.Fatalf("%s: lost %+v", test.name, lost)
		}
		again.BringBack(lost[0], "bring back the unsaved changes", func(err error) {
			if err != nil {
				t.Errorf("%s: %v", test.name, err)
			}
		})
		again.rest()
		if st := again.State(); st.Plan.Title != "Changed" || !st.Dirty || (st.Path == path) != test.path {
			t.Errorf("%s: %q at %q, dirty %v", test.name, st.Plan.Title, st.Path, st.Dirty)
		}
	}
}

func TestThrownAwayOrLeft(t *testing.T) {
	dir, path := t.TempDir(), demo(t)
	k := newKeeping(t, dir)
	if err := k.open(t, path); err != nil {
		t.Fatal(err)
	}
	k.Edit("change title", "", setTitle("Changed"))
	k.keepIt()
	k.crash()

	left := newKeeping(t, dir)
	if err := left.open(t, path); err != nil {
		t.Fatal(err)
	}
	left.Leave(left.lost(path)[0])
	left.Edit("change title", "", setTitle("On the saved plan"))
	left.keepIt()
	if n := len(left.files()); n != 2 {
		t.Fatalf("%d files are kept, want what was left and the new changes", n)
	}
	left.Undo()
	left.rest()
	lost := left.lost(path)
	if len(lost) != 1 || lost[0].Title != "Changed" {
		t.Fatalf("what was left is not found again: %+v", lost)
	}
	left.ThrowAway(lost[0])
	left.rest()
	if all, _ := os.ReadDir(dir); len(all) != 0 {
		t.Errorf("thrown away, there is still %v", all)
	}
}

// TestKeptButSavedMeanwhile: killed between saving and tidying up, there is nothing to ask about; what can't be read is left.
func TestKeptButSavedMeanwhile(t *testing.T) {
	dir, path := t.TempDir(), demo(t)
	p, _, err := store.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	a := &aside{file: filepath.Join(dir, asideName(path))}
	if err := a.write(path, p); err != nil {
		t.Fatal(err)
	}
	release(a.claim)
	later := filepath.Join(dir, "later"+suffix)
	if err := os.WriteFile(later, []byte(heading+"\"\"\neavelight: 99\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	k := newKeeping(t, dir)
	if lost := k.lost(""); len(lost) != 0 {
		t.Errorf("lost: %+v", lost)
	}
	if files := k.files(); len(files) != 1 || files[0] != later {
		t.Errorf("there is %v", files)
	}
}

// TestPathsOfAnyLetters: a path may hold quotes, line breaks and letters of any script.
func TestPathsOfAnyLetters(t *testing.T) {
	path := "/tmp/Ein \"Haus\"\n" + strings.Repeat("家", 300) + ".eavelight"
	a := &aside{file: filepath.Join(t.TempDir(), asideName(path))}
	if err := a.write(path, plan.New()); err != nil {
		t.Fatal(err)
	}
	if l, err := a.read(); err != nil || l.Path != path {
		t.Errorf("read back %q, %v", l.Path, err)
	}
	a.remove()
}

// TestFolderThatTakesNothing: that changes can't be kept aside is told, and tried again.
func TestFolderThatTakesNothing(t *testing.T) {
	inTheWay := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	k := newKeeping(t, filepath.Join(inTheWay, "folder"))
	k.Edit("change title", "", setTitle("A"))
	k.keepIt()
	if k.State().Unkept == nil || k.due == nil {
		t.Fatalf("told %v, tried again %v", k.State().Unkept, k.due != nil)
	}
	os.Remove(inTheWay)
	k.keepIt()
	if k.State().Unkept != nil || len(k.files()) != 1 {
		t.Errorf("then it is told %v, and kept %v", k.State().Unkept, k.files())
	}
}
