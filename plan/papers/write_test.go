package papers

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/day"
)

func TestWriteMakesTheFolderAndAPrivateFile(t *testing.T) {
	p, d := demo(t)
	dir := filepath.Join(t.TempDir(), "papers", "march")
	wrote, err := Write(dir, &p, []day.Day{d}, madeAt, false)
	if err != nil {
		t.Fatal(err)
	}
	paths := wrote.Paths
	want := []string{"call-sheet-2027-03-06.pdf", "calendar.ics", "calendar-noor.ics", "calendar-teo.ics", "calendar-ines.ics", "calendar-dora.ics",
		"calendar-grete.ics", "calendar-paul.ics", "calendar-amara.ics", "calendar-mia.ics", "calendar-jon.ics"}
	for i := range want {
		want[i] = filepath.Join(dir, want[i])
	}
	if !slices.Equal(paths, want) || len(wrote.Off) > 0 {
		t.Fatalf("got %+v, want %q", wrote, want)
	}
	content, err := os.ReadFile(paths[0])
	if err != nil {
		t.Fatal(err)
	}
	if want := printed(t, CallSheet(&p, d), plan.Letter); string(content) != string(want) {
		t.Error("the file is not the call sheet")
	}
	if content, err := os.ReadFile(paths[1]); err != nil || string(content) != string(NewCalendars(&p, []day.Day{d}, madeAt).Files[0].Content) {
		t.Errorf("the file is not the calendar for all (%v)", err)
	}
	if info, err := os.Stat(paths[0]); runtime.GOOS != "windows" && (err != nil || info.Mode().Perm() != 0o600) {
		t.Errorf("the file's mode is %v, want owner only (%v)", info.Mode(), err)
	}
	if found, err := os.ReadDir(dir); err != nil || len(found) != len(want) {
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
	wrote, err := Write(dir, &p, []day.Day{d}, madeAt, false)
	var exists *ExistsError
	if !errors.As(err, &exists) || exists.Path != path || !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), path) || wrote.Paths != nil {
		t.Fatalf("got %v, %v", wrote, err)
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
	wrote, err := Write(t.TempDir(), &p, []day.Day{{}}, madeAt, false)
	if err != nil || len(wrote.Paths) != 1 || filepath.Base(wrote.Paths[0]) != "call-sheet-no-date.pdf" {
		t.Errorf("got %v, %v", wrote, err)
	}
}
