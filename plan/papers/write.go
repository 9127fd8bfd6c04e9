package papers

import (
	"bytes"
	"cmp"
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

// Write writes the papers of the days of a shoot into a folder, which it makes where there is none, and returns their paths.
// A paper is written whole or not at all, and only its owner can read it. A file that is there already stays as it is, with
// an *ExistsError and nothing written, unless overwrite is set.
func Write(dir string, p *plan.Plan, days []day.Day, made time.Time, overwrite bool) (paths []string, err error) {
	var contents [][]byte
	for _, d := range days {
		var content bytes.Buffer
		if err := CallSheet(p, d).PDF(&content, p.Papers.Size.Or(), made); err != nil {
			return nil, err
		}
		path := filepath.Join(dir, "call-sheet-"+cmp.Or(d.Date.String(), "no-date")+".pdf")
		if _, err := os.Lstat(path); err == nil && !overwrite {
			return nil, &ExistsError{path}
		}
		paths, contents = append(paths, path), append(contents, content.Bytes())
	}
	if err := makeFolder(dir); err != nil {
		return nil, err
	}
	for i, path := range paths {
		if err := writeFile(path, contents[i], overwrite); err != nil {
			return paths[:i], err
		}
	}
	return paths, nil
}

func makeFolder(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("the folder for the papers: %w", err)
	}
	return nil
}

// writeFile puts a whole file in place at once: beside it first, then under its name.
func writeFile(path string, content []byte, overwrite bool) (err error) {
	if _, err := os.Lstat(path); err == nil && !overwrite {
		return &ExistsError{path}
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".paper-*") // readable by its owner only
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	defer func() {
		if err != nil {
			_ = os.Remove(f.Name())
			err = fmt.Errorf("writing %s: %w", path, err)
		}
	}()
	_, err = f.Write(content)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
