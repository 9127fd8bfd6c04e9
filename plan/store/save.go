package store

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"

	"eavelight/plan"
	"eavelight/plan/say"
)

// Write saves the plan at path. last is what the caller has read from there or written there last, the zero Stamp for
// a new file: when anything else stands there it refuses with ErrChanged or ErrExists. It returns what to hold as last
// for the next time. The package comment says why no half file is ever seen. Where both an error and a Stamp come
// back, the plan is in place, but the disk has not confirmed that it will be there after a power cut.
func Write(path string, p plan.Plan, last Stamp) (Stamp, error) {
	return save{}.write(path, p, unchanged(last))
}

// unchanged allows to write over nothing but what was there last.
func unchanged(last Stamp) func(now Stamp) error {
	return func(now Stamp) error {
		switch {
		case last.IsZero() && !now.IsZero():
			return ErrExists
		case !now.Same(last):
			return ErrChanged
		}
		return nil
	}
}

// Overwrite saves the plan at path whatever stands there, after the user said so. What stood there is the backup then.
func Overwrite(path string, p plan.Plan) (Stamp, error) {
	return save{}.write(path, p, func(Stamp) error { return nil })
}

// Backup is the name under which the version before the last is kept: NAME~, beside the file that path means.
func Backup(path string) string {
	target, err := follow(path)
	if err != nil {
		target = path
	}
	return target + "~"
}

// save is one act of saving. Tests make it fail before a step of their choice.
type save struct {
	fail func(step string) error
}

func (s save) step(name string) error {
	if s.fail == nil {
		return nil
	}
	return s.fail(name)
}

func (s save) write(path string, p plan.Plan, allowed func(now Stamp) error) (Stamp, error) {
	data, err := Encode(p)
	if err != nil {
		return Stamp{}, err
	}
	return s.put(path, data, planFile, allowed)
}

func (s save) put(path string, data []byte, k fileKind, allowed func(now Stamp) error) (Stamp, error) {
	target, err := follow(path)
	if err != nil {
		return Stamp{}, notSaved(path, err)
	}
	old, now, err := readFile(target, k)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return Stamp{}, notSaved(path, err)
	}
	if err := allowed(now); err != nil {
		return Stamp{}, notSaved(path, err)
	}
	removeLeftovers(target)
	data = keepComments(data, old)
	if !now.IsZero() && !bytes.Equal(old, data) {
		if err := s.replace(Backup(target), old); err != nil {
			return Stamp{}, notSaved(path, say.Error("the backup could not be made: %v", err))
		}
	}
	if err := s.replace(target, data); err != nil {
		return Stamp{}, notSaved(path, err)
	}
	stamp := Stamp{Size: int64(len(data)), Sum: sha256.Sum256(data)}
	if info, err := os.Stat(target); err == nil {
		stamp.ModTime = info.ModTime()
	}
	if err := s.syncFolder(filepath.Dir(target)); err != nil {
		return stamp, say.Error("%s is saved, but the disk did not confirm it: %v", path, err)
	}
	return stamp, nil
}

func notSaved(path string, err error) error {
	return say.Error("%s was not saved: %v", path, err)
}

// replace makes data the whole content of the file at path, in one step that either happened or did not.
func (s save) replace(path string, data []byte) (err error) {
	if err := s.step("create"); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), leftover(path)) // born readable by its owner only
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	for _, do := range []struct {
		name string
		act  func() error
	}{
		{"write", func() error { _, err := f.Write(data); return err }},
		{"sync", f.Sync},
		{"close", f.Close},
		{"rename", func() error { return os.Rename(f.Name(), path) }},
	} {
		if err := s.step(do.name); err != nil {
			return err
		}
		if err := do.act(); err != nil {
			return err
		}
	}
	return nil
}

// leftover is the pattern of the temporary files of path: hidden, in its own folder, so that a rename stays on one disk.
func leftover(path string) string { return "." + filepath.Base(path) + ".*.part" }

// removeLeftovers takes away what saves that were killed have left. Should it take the file of a save that is going
// on in another process, that save fails and says so; one of the two had to.
func removeLeftovers(target string) {
	entries, err := os.ReadDir(filepath.Dir(target))
	if err != nil {
		return // no reason not to save
	}
	for _, name := range []string{target, Backup(target)} {
		before, after, _ := strings.Cut(leftover(name), "*")
		for _, e := range entries {
			middle := strings.TrimSuffix(strings.TrimPrefix(e.Name(), before), after)
			if e.Name() == before+middle+after && strings.Trim(middle, "0123456789") == "" {
				os.Remove(filepath.Join(filepath.Dir(target), e.Name()))
			}
		}
	}
}

// follow returns the file that path means: where path is a link, what it points at, so that saving keeps the link.
func follow(path string) (string, error) {
	info, err := os.Lstat(path)
	if err != nil || info.Mode()&fs.ModeSymlink == 0 {
		return path, nil
	}
	target, err := filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		return "", say.Error("it is a link to a file that is not there")
	}
	return target, err
}

// Replace makes data the whole content of the file at path, which is no plan: as safely as Write does it, but whatever stands
// there, and without a backup. Only its owner can read it.
func Replace(path string, data []byte) error {
	target, err := follow(path)
	if err != nil {
		return err
	}
	removeLeftovers(target)
	if err := (save{}).replace(target, data); err != nil {
		return err
	}
	return save{}.syncFolder(filepath.Dir(target))
}

// syncFolder makes the new names in a folder last through a power cut, where the system can.
func (s save) syncFolder(dir string) error {
	if err := s.step("sync folder"); err != nil {
		return err
	}
	if runtime.GOOS == "windows" {
		return nil // it has no such call; its journal keeps renames
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, syscall.EINVAL) {
		return err // some network folders can't, and say so in these two ways
	}
	return nil
}
