package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"eavelight/plan"
)

// titled is a plan that differs from others by its title and length.
func titled(title string) plan.Plan {
	p := plan.New()
	p.Title = title
	p.Brief.Notes = strings.Repeat(title+" ", 300)
	return p
}

func encoded(t testing.TB, p plan.Plan) []byte {
	t.Helper()
	data, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// holds demands that the file at path is exactly the plan, and its owner's alone. A nil plan demands that there is no file.
func holds(t *testing.T, path string, p *plan.Plan) {
	t.Helper()
	got, err := os.ReadFile(path)
	if p == nil {
		if !errors.Is(err, fs.ErrNotExist) {
			t.Fatalf("%s is there: %v", filepath.Base(path), err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if want := encoded(t, *p); !bytes.Equal(got, want) {
		t.Fatalf("%s holds %d bytes, %.40q..., not the plan %q", filepath.Base(path), len(got), got, p.Title)
	}
	onlyOwners(t, path)
}

func onlyOwners(t *testing.T, path string) {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	if runtime.GOOS != "windows" && info.Mode() != 0o600 { // Windows tells by lists of access, taken from the folder
		t.Fatalf("%s has the mode %v", filepath.Base(path), info.Mode())
	}
}

// names lists a folder.
func names(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return strings.Join(out, " ")
}

func must1[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func TestWriteKeepsTheVersionBefore(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	one, two, three := titled("one"), titled("two"), titled("three")
	stamp := must1[Stamp](t)(Write(path, one, Stamp{}))
	holds(t, path, &one)
	holds(t, Backup(path), nil)

	stamp = must1[Stamp](t)(Write(path, two, stamp))
	holds(t, path, &two)
	holds(t, Backup(path), &one)

	stamp = must1[Stamp](t)(Write(path, two, stamp)) // saved twice in a row: the backup still differs
	holds(t, Backup(path), &one)

	must1[Stamp](t)(Write(path, three, stamp))
	holds(t, path, &three)
	holds(t, Backup(path), &two)
	if got := names(t, filepath.Dir(path)); got != "day.plan.yaml day.plan.yaml~" {
		t.Errorf("the folder holds %s", got)
	}

	p, read, err := Read(path)
	if err != nil || !same(p, three) {
		t.Errorf("read %v, %v", p.Title, err)
	}
	if info, _ := os.Stat(path); read.Size != info.Size() || !read.ModTime.Equal(info.ModTime()) {
		t.Errorf("the stamp %v is not of the file", read)
	}
}

func TestWriteNarrowsAFileThatOthersCouldRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	if err := os.WriteFile(path, encoded(t, titled("one")), 0o644); err != nil {
		t.Fatal(err)
	}
	_, stamp, err := Read(path)
	if err != nil {
		t.Fatal(err)
	}
	two := titled("two")
	must1[Stamp](t)(Write(path, two, stamp))
	holds(t, path, &two)
	onlyOwners(t, Backup(path))
}

func TestWriteRefusesWhatItDidNotLeave(t *testing.T) {
	mine, theirs, next := titled("mine"), titled("theirs"), titled("next")
	for _, c := range []struct {
		name    string
		meddle  func(path string) error
		last    func(Stamp) Stamp
		want    error
		remains *plan.Plan
	}{
		{"changed by another", func(path string) error { return os.WriteFile(path, encoded(t, theirs), 0o600) }, nil, ErrChanged, &theirs},
		{"one byte changed", func(path string) error {
			data := encoded(t, mine)
			data[len(data)/2] ^= 1
			return os.WriteFile(path, data, 0o600)
		}, nil, ErrChanged, nil},
		{"deleted", os.Remove, nil, ErrChanged, nil},
		{"new, but there is a file", func(string) error { return nil }, func(Stamp) Stamp { return Stamp{} }, ErrExists, &mine},
		{"touched only", func(path string) error { return os.WriteFile(path, encoded(t, mine), 0o600) }, nil, nil, &next},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "day.plan.yaml")
			stamp := must1[Stamp](t)(Write(path, mine, Stamp{}))
			if err := c.meddle(path); err != nil {
				t.Fatal(err)
			}
			if c.last != nil {
				stamp = c.last(stamp)
			}
			if _, err := Write(path, next, stamp); !errors.Is(err, c.want) {
				t.Fatalf("got %v", err)
			}
			if c.remains != nil {
				holds(t, path, c.remains)
			}
			must1[Stamp](t)(Overwrite(path, next)) // the user said so
			holds(t, path, &next)
		})
	}
}

// TestWriteFailingAtEachStep walks the argument of the package comment: whatever step fails, the file is the old one
// until the last step, and the new one from there; the backup is whole; nothing is left lying about.
func TestWriteFailingAtEachStep(t *testing.T) {
	steps := stepsOfSaving(t)
	if len(steps) != 11 {
		t.Fatalf("saving over a file takes the steps %v", steps)
	}
	oldest, old, new := titled("oldest"), titled("old"), titled("new")
	broken := errors.New("the disk is full")
	for at, step := range steps {
		t.Run(step, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "day.plan.yaml")
			stamp := must1[Stamp](t)(Write(path, oldest, Stamp{}))
			stamp = must1[Stamp](t)(Write(path, old, stamp))
			n := -1
			s := save{fail: func(string) error {
				if n++; n == at {
					return broken
				}
				return nil
			}}
			got, err := s.write(path, new, func(now Stamp) error {
				if !now.Same(stamp) {
					return ErrChanged
				}
				return nil
			})
			if !errors.Is(err, broken) {
				t.Fatalf("got %v", err)
			}
			inPlace := at == len(steps)-1
			if got.IsZero() == inPlace {
				t.Errorf("the stamp is %v", got)
			}
			backup := &oldest
			if at >= 5 {
				backup = &old
			}
			holds(t, path, map[bool]*plan.Plan{false: &old, true: &new}[inPlace])
			holds(t, Backup(path), backup)
			if got := names(t, filepath.Dir(path)); got != "day.plan.yaml day.plan.yaml~" {
				t.Errorf("the folder holds %s", got)
			}
		})
	}
}

// stepsOfSaving records the steps that saving over a file takes.
func stepsOfSaving(t *testing.T) (steps []string) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	must1[Stamp](t)(Write(path, titled("old"), Stamp{}))
	s := save{fail: func(step string) error { steps = append(steps, step); return nil }}
	must1[Stamp](t)(s.write(path, titled("new"), func(Stamp) error { return nil }))
	return steps
}

func TestWriteFailingOnANewFileLeavesNothing(t *testing.T) {
	for _, step := range []string{"create", "write", "sync", "close", "rename"} {
		dir := t.TempDir()
		s := save{fail: func(at string) error {
			if at == step {
				return errors.New("no")
			}
			return nil
		}}
		if _, err := s.write(filepath.Join(dir, "day.plan.yaml"), titled("new"), func(Stamp) error { return nil }); err == nil {
			t.Errorf("%s: no error", step)
		}
		if got := names(t, dir); got != "" {
			t.Errorf("%s: the folder holds %s", step, got)
		}
	}
}

func TestWriteRefusesAPlanThatWouldNotReadBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	p := titled("wrong")
	p.Scenes = []plan.Scene{{ID: "a", Space: "nowhere"}, {ID: "a"}}
	_, err := Write(path, p, Stamp{})
	var faults Faults
	if !errors.As(err, &faults) || len(faults) != 2 || faults[0].Path != "scenes[1].id" && faults[1].Path != "scenes[1].id" {
		t.Errorf("got %v", err)
	}
	p = titled("broken letter \xff")
	if _, err := Write(path, p, Stamp{}); err == nil {
		t.Errorf("wrote bytes that are no text")
	}
	p = titled("long")
	p.Papers.Parking = strings.Repeat("x", maxBytes)
	if _, err := Write(path, p, Stamp{}); !errors.As(err, &faults) {
		t.Errorf("too long a plan gives %v", err)
	}
	holds(t, path, nil)
}

func TestWriteTakesAwayWhatKilledSavesLeft(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "day.plan.yaml")
	stays := []string{".day.plan.yaml.mine.part", ".other.plan.yaml.123.part", "day.plan.yaml.123.part", ".day.plan.yaml.lock"}
	for _, name := range append(stays, ".day.plan.yaml.123.part", ".day.plan.yaml~.9.part") {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	must1[Stamp](t)(Write(path, titled("one"), Stamp{}))
	want := ".day.plan.yaml.lock .day.plan.yaml.mine.part .other.plan.yaml.123.part day.plan.yaml day.plan.yaml.123.part"
	if got := names(t, dir); got != want {
		t.Errorf("the folder holds %s", got)
	}
}

func TestWriteFollowsALink(t *testing.T) {
	dir, far := t.TempDir(), t.TempDir()
	link, target := filepath.Join(dir, "day.plan.yaml"), filepath.Join(far, "real.plan.yaml")
	one, two := titled("one"), titled("two")
	must1[Stamp](t)(Write(target, one, Stamp{}))
	if err := os.Symlink(target, link); err != nil {
		t.Skip("this system makes no links: ", err)
	}
	_, stamp, err := Read(link)
	if err != nil {
		t.Fatal(err)
	}
	must1[Stamp](t)(Write(link, two, stamp))
	holds(t, target, &two)
	holds(t, target+"~", &one)
	holds(t, Backup(link), &one)
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v, %v", info, err)
	}
	if err := os.Remove(target); err != nil {
		t.Fatal(err)
	}
	if _, err := Overwrite(link, two); err == nil || !strings.Contains(err.Error(), "link") {
		t.Errorf("a link to nothing gives %v", err)
	}
}

func TestFoldersArePlansToNobody(t *testing.T) {
	dir := t.TempDir()
	if _, _, err := Read(dir); err == nil || !strings.Contains(err.Error(), "a folder, not a plan file") {
		t.Errorf("reading: %v", err)
	}
	if _, err := Overwrite(dir, titled("one")); err == nil || !strings.Contains(err.Error(), "a folder, not a plan file") {
		t.Errorf("writing: %v", err)
	}
	if _, _, err := Read(filepath.Join(dir, "none")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("reading nothing: %v", err)
	}
	if _, err := Write(filepath.Join(dir, "none", "day.plan.yaml"), titled("one"), Stamp{}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("writing into no folder: %v", err)
	}
}
