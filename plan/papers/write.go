package papers

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// ExistsError says that a paper would replace a file that is already there.
type ExistsError struct{ Path string }

func (e *ExistsError) Error() string {
	return fmt.Sprintf("%s is already there; say that it may be replaced, or choose another folder", e.Path)
}

// Is makes errors.Is(err, fs.ErrExist) true.
func (e *ExistsError) Is(target error) bool { return target == fs.ErrExist }

// Written is what was written.
type Written struct {
	Paths    []string
	Off      []string      // of them, the calendars that hold nothing but what is called off
	Calendar plan.Calendar // what the calendars say, for the plan to remember once they are sent
}

// Write writes the papers of the days of a shoot into a folder, which it makes where there is none: the call sheets, and the calendars
// for all and for each person. A paper is written whole or not at all, and only its owner can read it. A file that is there already
// stays as it is, with an *ExistsError and nothing written, unless overwrite is set.
func Write(dir string, p *plan.Plan, days []day.Day, made time.Time, overwrite bool) (Written, error) {
	var w Written
	var contents [][]byte
	for _, d := range days {
		var content bytes.Buffer
		if err := CallSheet(p, d).PDF(&content, p.Papers.Size.Or(), made); err != nil {
			return Written{}, err
		}
		w.Paths, contents = append(w.Paths, filepath.Join(dir, sheetFile(d))), append(contents, content.Bytes())
	}
	calendars := NewCalendars(p, days, made)
	w.Calendar = calendars.Sent
	for _, f := range calendars.Files {
		path := besides(w.Paths, filepath.Join(dir, f.Name))
		if f.Off {
			w.Off = append(w.Off, path)
		}
		w.Paths, contents = append(w.Paths, path), append(contents, f.Content)
	}
	if err := makeFolder(dir); err != nil {
		return Written{}, err
	}
	if err := writeAll(w.Paths, contents, overwrite); err != nil {
		return Written{}, err
	}
	return w, nil
}

func makeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("the folder for the papers: %w", err)
	}
	return nil
}

// writeFile puts a whole file in place at once: beside it first, then under its name.
func writeFile(path string, content []byte, overwrite bool) error {
	return writeAll([]string{path}, [][]byte{content}, overwrite)
}

// writeAll puts all files in place or none: they are written beside their places first. When one can't get its name after all,
// those are taken back that were not there before.
func writeAll(paths []string, contents [][]byte, overwrite bool) (err error) {
	var there []bool
	for _, path := range paths {
		_, err := os.Lstat(path)
		if there = append(there, err == nil); err == nil && !overwrite {
			return &ExistsError{path}
		}
	}
	var beside []string
	defer func() {
		for _, name := range beside {
			_ = os.Remove(name)
		}
	}()
	for i, path := range paths {
		name, err := writeBeside(path, contents[i])
		if err != nil {
			return fmt.Errorf("writing %s: %w", path, err)
		}
		beside = append(beside, name)
	}
	for i, path := range paths {
		if err := os.Rename(beside[i], path); err != nil {
			for j := range i {
				if !there[j] {
					_ = os.Remove(paths[j])
				}
			}
			return fmt.Errorf("writing %s: %w", path, err)
		}
	}
	return nil
}

// writeBeside writes what is to become a file, into the same folder, and returns its path.
func writeBeside(path string, content []byte) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".paper-*") // readable by its owner only
	if err != nil {
		return "", err
	}
	_, err = f.Write(content)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		_ = os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}
