package papers

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
)

func TestWriteMakesTheFolderAndAPrivateFile(t *testing.T) {
	p, d := demo(t)
	dir := filepath.Join(t.TempDir(), "papers", "march")
	paths, err := Write(dir, &p, []day.Day{d}, madeAt, false)
	if err != nil {
		t.Fatal(err)
	}
	if want := filepath.Join(dir, "call-sheet-2027-03-06.pdf"); len(paths) != 1 || paths[0] != want {
		t.Fatalf("got %q, want %q", paths, want)
	}
	content, err := os.ReadFile(paths[0])
	if err != nil {
		t.Fatal(err)
	}
	if want := printed(t, CallSheet(&p, d), plan.Letter); string(content) != string(want) {
		t.Error("the file is not the call sheet")
	}
	if info, err := os.Stat(paths[0]); runtime.GOOS != "windows" && (err != nil || info.Mode().Perm() != 0o600) {
		t.Errorf("the file's mode is %v, want owner only (%v)", info.Mode(), err)
	}
	if found, err := os.ReadDir(dir); err != nil || len(found) != 1 {
		t.Errorf("the folder holds %v (%v)", found, err)
	}
}

func TestWriteKeepsWhatIsThere(t *testing.T) {
	p, d := demo(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "call-sheet-2027-03-06.pdf")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	paths, err := Write(dir, &p, []day.Day{d}, madeAt, false)
	var exists *ExistsError
	if !errors.As(err, &exists) || exists.Path != path || !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), path) || paths != nil {
		t.Fatalf("got %v, %v", paths, err)
	}
	if content, _ := os.ReadFile(path); string(content) != "mine" {
		t.Error("the file was touched")
	}
	if _, err := Write(dir, &p, []day.Day{d}, madeAt, true); err != nil {
		t.Fatal(err)
	}
	if content, _ := os.ReadFile(path); string(content) == "mine" {
		t.Error("the file was not replaced")
	}
}

func TestFailedWriteLeavesNothing(t *testing.T) {
	p, d := demo(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "call-sheet-2027-03-06.pdf")
	if err := os.MkdirAll(filepath.Join(path, "in the way"), 0o700); err != nil { // a folder can't be replaced by a file
		t.Fatal(err)
	}
	if _, err := Write(dir, &p, []day.Day{d}, madeAt, true); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("got %v, want an error that names the file", err)
	}
	if found, _ := os.ReadDir(dir); len(found) != 1 {
		t.Errorf("the folder holds %v", found)
	}
	if _, err := Write(filepath.Join(dir, "\x00"), &p, []day.Day{d}, madeAt, false); err == nil {
		t.Error("an impossible folder gives no error")
	}
}

func TestWriteWithoutADate(t *testing.T) {
	p := plan.New()
	paths, err := Write(t.TempDir(), &p, []day.Day{{}}, madeAt, false)
	if err != nil || len(paths) != 1 || filepath.Base(paths[0]) != "call-sheet-no-date.pdf" {
		t.Errorf("got %v, %v", paths, err)
	}
}
