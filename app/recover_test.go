package app

import (
	"os"
	"path/filepath"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"
)

// crashed leaves behind what a run leaves that ends with changes to a plan kept aside and not saved.
func crashed(t *testing.T, dir, path string, change func(*plan.Plan)) {
	t.Helper()
	queue, aside := make(chan func(), 1000), t.TempDir()
	s := session.New(func(f func()) { queue <- f }, func() {})
	defer s.Close()
	s.KeepIn(aside)
	rest := func() {
		for len(queue) > 0 || !s.Idle() {
			(<-queue)()
		}
	}
	if path != "" {
		s.Open(path, func(err error) {
			if err != nil {
				t.Fatal(err)
			}
		})
		rest()
	}
	s.Edit("change", "", change)
	s.KeepNow()
	rest()
	if err := os.CopyFS(dir, os.DirFS(aside)); err != nil { // without the lock, which ends with the run
		t.Fatal(err)
	}
}

func TestStartAfterACrash(t *testing.T) {
	d, path := newDesk(t), demoCopy(t)
	aside := d.aside
	crashed(t, aside, path, func(p *plan.Plan) { p.Title = "Changed" })
	crashed(t, aside, "", func(p *plan.Plan) { p.Brief.Client = "Somebody" })
	d.Start()
	d.settle()
	if !d.says("“Untitled plan”") || d.says("“Changed”") {
		t.Fatal("it does not ask about the last changes alone")
	}
	d.press("Throw them away")
	d.settle()
	if !d.says("“Changed”") {
		t.Fatal("it does not ask about the changes before")
	}
	d.press("Bring them back")
	d.settle()
	if st := d.session.State(); st.Path != path || !st.Dirty || st.Plan.Title != "Changed" || d.recentFiles()[0] != path {
		t.Errorf("brought back %q at %q, dirty %v", st.Plan.Title, st.Path, st.Dirty)
	}
}

func TestOpeningAPlanAfterACrash(t *testing.T) {
	d, path := newDesk(t), demoCopy(t)
	aside := d.aside
	crashed(t, aside, path, func(p *plan.Plan) { p.Title = "Changed" })
	crashed(t, aside, "", func(p *plan.Plan) { p.Title = "Another one" })
	d.Open(path)
	d.settle()
	if !d.says("“Changed” were not saved") || d.says("Another one") || d.plan().Title == "Changed" {
		t.Fatal("it does not ask about this plan's changes alone")
	}
	d.asking.Hide()
	d.settle()
	if d.session.State().Dirty {
		t.Error("without an answer something came back")
	}
	d.Open(path)
	d.settle()
	d.press("Bring them back")
	d.settle()
	if st := d.session.State(); st.Path != path || !st.Dirty || st.Plan.Title != "Changed" {
		t.Errorf("brought back %q at %q, dirty %v", st.Plan.Title, st.Path, st.Dirty)
	}
	d.menuItem("Save").Action()
	d.settle()
	d.Open(path)
	d.settle()
	if d.win.Canvas().Overlays().Top() != nil {
		t.Error("saved, it asks again")
	}
	if files, _ := filepath.Glob(filepath.Join(aside, "*.eavelight")); len(files) != 1 {
		t.Errorf("kept aside is %v, want the other plan's alone", files)
	}
}
