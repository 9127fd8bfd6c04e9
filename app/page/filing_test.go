package page

import (
	"os"
	"path/filepath"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// filer is the field of a scan in a window, with a plan behind it and work that is done when it is told to.
type filer struct {
	*filing
	state session.State
	work  []func() func()
	edits []string
	wrong plan.Problems
}

func newFiler(t *testing.T) *filer {
	t.Helper()
	test.NewTempApp(t)
	f := &filer{state: session.State{Plan: plan.New(), Path: filepath.Join(t.TempDir(), "film.eavelight")}}
	f.state.Plan.Releases = []plan.Release{{ID: "house", Kind: plan.PropertyRelease}, {ID: "song", Kind: plan.MusicRelease}}
	edit := func(name, _ string, change func(*plan.Plan)) plan.Problems {
		if len(f.wrong) > 0 {
			return f.wrong
		}
		f.edits = append(f.edits, name)
		f.state.Plan = f.state.Plan.Clone()
		change(&f.state.Plan)
		f.see(0)
		return nil
	}
	f.filing = newFiling(edit, func(work func() func()) { f.work = append(f.work, work) }, nil, func() {})
	test.NewTempWindow(t, f.object).Resize(fyne.NewSize(600, 400))
	f.see(0)
	return f
}

func (f *filer) see(release int) { f.show(f.state, f.state.Plan.Releases[release]) }

// next does the oldest work that was asked for.
func (f *filer) next() {
	done := f.work[0]()
	f.work = f.work[1:]
	done()
}

func (f *filer) lay(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(filepath.Dir(f.state.Path), name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// abc is the SHA-256 of "abc": FIPS 180-4's example.
const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

// TestSlowScanIsToldAndStopped: after 200 ms it is said that the file is being read; stopped, nothing comes of it, and another
// is filed in its place.
func TestSlowScanIsToldAndStopped(t *testing.T) {
	f := newFiler(t)
	f.file(f.lay(t, "slow.pdf", "abc"))
	if f.busy.Visible() || !f.take.Disabled() {
		t.Fatal("it says at once that it takes long, or lets another be chosen")
	}
	f.next() // the wait; the reading comes after it
	if !f.busy.Visible() {
		t.Fatal("after the wait nothing says that the scan is being read")
	}
	for _, o := range f.busy.Objects {
		if b, ok := o.(*widget.Button); ok {
			test.Tap(b)
		}
	}
	f.next()
	if f.busy.Visible() || f.state.Plan.Releases[0].Scan != nil || len(f.edits) != 0 || f.said.Visible() {
		t.Fatalf("stopped, and %v, %q", f.edits, f.said.Text)
	}
	f.file(f.lay(t, "a.pdf", "abc"))
	f.next() // it waits for all of the 200 ms, since nobody stops it
	f.next()
	if s := f.state.Plan.Releases[0].Scan; s == nil || *s != (plan.Scan{Path: "a.pdf", SHA256: abc}) || f.busy.Visible() || len(f.work) != 0 {
		t.Fatalf("%+v, %d more to do", s, len(f.work))
	}
}

// TestScanOfAnotherRelease: a reading that was begun for one release files nothing once another one is shown.
func TestScanOfAnotherRelease(t *testing.T) {
	f := newFiler(t)
	f.file(f.lay(t, "a.pdf", "abc"))
	f.see(1)
	f.next()
	f.next()
	if len(f.edits) != 0 || f.busy.Visible() {
		t.Errorf("%v", f.edits)
	}
}

// TestRefusedScan: what the session refuses is said, and the field goes on.
func TestRefusedScan(t *testing.T) {
	f := newFiler(t)
	f.wrong = plan.Problems{{Code: plan.MissingName, Level: plan.Wrong}}
	f.file(f.lay(t, "a.pdf", "abc"))
	f.next()
	f.next()
	if !f.said.Visible() || f.said.Text != "a name is needed here" || f.take.Disabled() {
		t.Errorf("%q", f.said.Text)
	}
}
