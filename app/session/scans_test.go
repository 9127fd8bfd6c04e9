package session

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"eavelight/plan"
)

// abc is the SHA-256 of the three letters abc: FIPS 180-2, appendix B.1.
const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

// TestScansAreRead: in the background when the plan opens, when a release changes, and when the window asks; undo brings back
// what was so before.
func TestScansAreRead(t *testing.T) {
	path := demo(t)
	b := newBench(t)
	if err := b.open(t, path); err != nil {
		t.Fatal(err)
	}
	b.settle()
	until := func(what string, so func() bool) {
		t.Helper()
		for late := time.After(time.Minute); !so(); {
			select {
			case f := <-b.queue:
				f()
			case <-late:
				t.Fatalf("it never comes about that %s", what)
			}
		}
	}
	code := func(id plan.ID) plan.Code { return b.State().Results.Scans[id].Code }
	scan := filepath.Join(filepath.Dir(path), "nina.pdf")
	b.Edit("file the scan", "", func(p *plan.Plan) { p.Releases[0].Scan = &plan.Scan{Path: "nina.pdf", SHA256: abc} })
	until("a scan that is not there is told", func() bool { return code("model-nina") == plan.ScanMissing })
	if err := os.WriteFile(scan, []byte("abc"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.CheckScans()
	until("the scan is there", func() bool { return code("model-nina") == "" })
	if err := os.WriteFile(scan, []byte("abd"), 0o600); err != nil {
		t.Fatal(err)
	}
	b.CheckScans()
	until("the scan has changed", func() bool { return code("model-nina") == plan.ScanChanged })
	b.Undo()
	until("a release without a scan is in no doubt", func() bool { return len(b.State().Results.Scans) == 0 })
	b.Redo()
	until("the scan is read again", func() bool { return code("model-nina") == plan.ScanChanged })
	b.Fresh(plan.New())
	if len(b.State().Results.Scans) > 0 {
		t.Error("what was found for one plan is told of another")
	}
}

// TestScansLieBesideThePlan: saved elsewhere, the plan looks for them there.
func TestScansLieBesideThePlan(t *testing.T) {
	path := demo(t)
	if err := os.WriteFile(filepath.Join(filepath.Dir(path), "nina.pdf"), []byte("abc"), 0o600); err != nil {
		t.Fatal(err)
	}
	b := newBench(t)
	if err := b.open(t, path); err != nil {
		t.Fatal(err)
	}
	b.Edit("file the scan", "", func(p *plan.Plan) { p.Releases[0].Scan = &plan.Scan{Path: "nina.pdf", SHA256: abc} })
	b.settle()
	if scans := b.State().Results.Scans; len(scans) > 0 {
		t.Fatalf("the scan that is there is doubted: %v", scans)
	}
	if err := b.save(t, func(done func(error)) { b.SaveAs(filepath.Join(t.TempDir(), "other.eavelight"), false, done) }); err != nil {
		t.Fatal(err)
	}
	for b.State().Results.Scans["model-nina"].Code != plan.ScanMissing {
		(<-b.queue)()
	}
}
