package people

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"eavelight/plan"
)

// abc is the SHA-256 of "abc": FIPS 180-4's example.
const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestScans(t *testing.T) {
	dir := t.TempDir()
	elsewhere := filepath.Join(t.TempDir(), "c.pdf")
	write(t, filepath.Join(dir, "scans", "a.pdf"), "abc")
	write(t, filepath.Join(dir, "scans", "empty.pdf"), "")
	write(t, elsewhere, "abc")
	big := filepath.Join(dir, "big.pdf")
	write(t, big, "")
	if err := os.Truncate(big, maxScan+1); err != nil { // takes no room on the disk
		t.Fatal(err)
	}
	for link, to := range map[string]string{"link.pdf": "scans/a.pdf", "loop.pdf": "loop.pdf", "broken.pdf": "gone.pdf", "folder.pdf": "scans"} {
		if err := os.Symlink(to, filepath.Join(dir, link)); err != nil {
			t.Skipf("no links here: %v", err)
		}
	}
	for _, c := range []struct {
		name, path, sum string
		code            plan.Code // none: it holds
		says            string
	}{
		{"as it was", "scans/a.pdf", abc, "", ""},
		{"its sum in capitals", "scans/a.pdf", strings.ToUpper(abc), "", ""},
		{"from the root", filepath.ToSlash(elsewhere), abc, "", ""},
		{"a link", "link.pdf", abc, "", ""},
		{"changed", "scans/empty.pdf", abc, plan.ScanChanged, "the scan scans/empty.pdf is not what it was when it was filed; look at it, and file it again or put the old one back"},
		{"gone", "scans/b.pdf", abc, plan.ScanMissing, "the scan scans/b.pdf is not there; put it back, or name another"},
		{"a link to nothing", "broken.pdf", abc, plan.ScanMissing, "the scan broken.pdf is not there; put it back, or name another"},
		{"a folder", "scans", abc, plan.ScanNoFile, "the scan scans is a folder, not a file; name the file"},
		{"a link to a folder", "folder.pdf", abc, plan.ScanNoFile, "the scan folder.pdf is a folder, not a file; name the file"},
		{"the folder of the plan", ".", abc, plan.ScanNoFile, "the scan . is a folder, not a file; name the file"},
		{"a link to itself", "loop.pdf", abc, plan.ScanUnreadable, "the scan loop.pdf can't be read (too many levels of symbolic links)"},
		{"below a file", "scans/a.pdf/b.pdf", abc, plan.ScanUnreadable, "the scan scans/a.pdf/b.pdf can't be read (not a directory)"},
		{"a name that no file can have", "a\x00b", abc, plan.ScanUnreadable, "the scan a\x00b can't be read (invalid argument)"},
		{"too large", "big.pdf", abc, plan.ScanTooLarge, "the scan big.pdf is larger than 1 GB, so it is no scan of a paper; name another"},
	} {
		why, ok := CheckScan(context.Background(), dir, plan.Scan{Path: c.path, SHA256: c.sum})
		if ok != (c.code == "") || why.Code != c.code {
			t.Errorf("%s: %v, %v", c.name, ok, why)
			continue
		}
		if !ok && (runtime.GOOS == "linux" || c.code != plan.ScanUnreadable) && why.String() != c.says {
			t.Errorf("%s: %q, want %q", c.name, why, c.says)
		}
	}
}

func TestScanThatCannotBeOpened(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "a.pdf"), "abc")
	if err := os.Chmod(filepath.Join(dir, "a.pdf"), 0); err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadFile(filepath.Join(dir, "a.pdf")); err == nil {
		t.Skip("this user may read everything")
	}
	if why, ok := CheckScan(context.Background(), dir, plan.Scan{Path: "a.pdf", SHA256: abc}); ok || why.Code != plan.ScanUnreadable {
		t.Errorf("%v, %v", ok, why)
	}
}

func TestScanOfADevice(t *testing.T) {
	if info, err := os.Stat(os.DevNull); err != nil || info.Mode().IsRegular() {
		t.Skip("no device here")
	}
	why, ok := CheckScan(context.Background(), "", plan.Scan{Path: os.DevNull, SHA256: abc})
	if want := "the scan " + os.DevNull + " is a device or a pipe, not a file; name the file"; ok || why.String() != want {
		t.Errorf("%v, %q, want %q", ok, why, want)
	}
}

func TestNewScan(t *testing.T) {
	dir := t.TempDir()
	elsewhere := filepath.Join(t.TempDir(), "c.pdf")
	write(t, filepath.Join(dir, "scans", "a.pdf"), "abc")
	write(t, elsewhere, "abc")
	for path, want := range map[string]string{
		filepath.Join(dir, "scans", "a.pdf"): "scans/a.pdf",
		elsewhere:                            filepath.ToSlash(elsewhere),
		filepath.Join("scans", "a.pdf"):      "scans/a.pdf",
	} {
		scan, err := NewScan(context.Background(), dir, path)
		if err != nil || scan != (plan.Scan{Path: want, SHA256: abc}) {
			t.Errorf("%s: %v, %v", path, scan, err)
			continue
		}
		if why, ok := CheckScan(context.Background(), dir, scan); !ok {
			t.Errorf("%s: %v", path, why)
		}
	}
	if scan, err := NewScan(context.Background(), dir, filepath.Join(dir, "scans")); err == nil || err.Error() != "the scan scans is a folder, not a file; name the file" {
		t.Errorf("a folder: %v, %v", scan, err)
	}
	if scan, err := NewScan(context.Background(), dir, dir); err == nil || err.Error() != "the scan "+filepath.ToSlash(dir)+" is a folder, not a file; name the file" {
		t.Errorf("the folder of the plan: %v, %v", scan, err)
	}
	write(t, filepath.Join(dir, "empty.pdf"), "")
	if scan, err := NewScan(context.Background(), dir, filepath.Join(dir, "empty.pdf")); err == nil ||
		err.Error() != "the scan empty.pdf is an empty file; scan the paper again, or name another" {
		t.Errorf("an empty file: %v, %v", scan, err)
	}
}

// TestEvidence: only what says it is signed is asked for evidence, each release has one doubt at most, with its place.
func TestEvidence(t *testing.T) {
	p, _ := signed()
	dir := t.TempDir()
	write(t, filepath.Join(dir, "a.pdf"), "abc")
	good, gone := &plan.Scan{Path: "a.pdf", SHA256: abc}, &plan.Scan{Path: "b.pdf", SHA256: abc}
	p.Releases[0].Scan, p.Releases[0].Media = gone, "anything" // stale before gone
	p.Releases[1].Scan = good
	p.Releases[2].Scan = gone
	p.Releases[3].Scan, p.Releases[3].Status = gone, plan.Sent
	doubts, err := Evidence(context.Background(), dir, &p, day(16))
	if err != nil || len(doubts) != 2 || doubts["m-grete"].Code != plan.TextChanged || doubts["house"].Code != plan.ScanMissing ||
		doubts["house"].Path != "releases[2].scan" || doubts["house"].Level != plan.Warning {
		t.Errorf("%v, %v", doubts, err)
	}
	ended, end := context.WithCancel(context.Background())
	end()
	if why, ok := CheckScan(ended, dir, *good); ok || why.Code != plan.ScanUnreadable {
		t.Errorf("ended, and read all the same: %v, %v", ok, why)
	}
	if doubts, err := Evidence(ended, dir, &p, day(16)); !errors.Is(err, context.Canceled) || doubts != nil {
		t.Errorf("ended: %v, %v", doubts, err)
	}
}

func BenchmarkCheckScan(b *testing.B) {
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "a.pdf"), make([]byte, 8<<20), 0o600); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(8 << 20)
	for b.Loop() {
		CheckScan(context.Background(), dir, plan.Scan{Path: "a.pdf", SHA256: abc})
	}
}
