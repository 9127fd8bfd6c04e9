package papers

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"eavelight/plan"
	"eavelight/plan/say"
)

// ExistsError says that a paper would replace a file that is already there.
type ExistsError struct{ Path string }

func (e *ExistsError) Error() string { return e.In(nil) }

// In is Error in a tongue.
func (e *ExistsError) In(tongue say.Tongue) string {
	return say.That("%s is already there; say that it may be replaced, or choose another folder", e.Path).In(tongue)
}

// Is makes errors.Is(err, fs.ErrExist) true.
func (e *ExistsError) Is(target error) bool { return target == fs.ErrExist }

// Written is what was written.
type Written struct {
	Paths    []string         // the papers; where they lie in an archive, the archive alone
	Papers   int              // how many there are, without the manifest
	Off      []string         // of them, the calendars that hold nothing but what is called off
	Calendar plan.Calendar    // what the calendars say, for the plan to remember once they are sent
	Sheets   []plan.SentSheet // what the call sheets say, likewise
	Remember bool             // there are such among the papers
}

// Keep has a plan remember what was written and is sent.
func (w Written) Keep(p *plan.Plan) { p.Papers.Calendar, p.Papers.Sheets = w.Calendar, w.Sheets }

// Kept reports whether a plan remembers it already.
func (w Written) Kept(p *plan.Plan) bool {
	return reflect.DeepEqual(w.Calendar, p.Papers.Calendar) && reflect.DeepEqual(w.Sheets, p.Papers.Sheets)
}

// remember puts what a set says into what was written of it. Of papers that are not in it, the plan remembers what it did.
func (w *Written) remember(s Set) {
	w.Calendar, w.Sheets = s.job.Plan.Papers.Calendar, s.job.Plan.Papers.Sheets
	if s.has(KindCalendars, KindMails) {
		w.Calendar, w.Remember = s.sent, true
	}
	if s.has(KindCallSheets, KindMails) {
		w.Sheets, w.Remember = SentSheets(s.job.Plan, s.job.Days), true
	}
}

// Writing is how a set is written.
type Writing struct {
	Overwrite bool                // files that are there already are replaced
	Told      func(done, all int) // hears of each paper; may be nil
}

// WriteTo writes into an archive where the path ends in .zip, and else into a folder.
func (s Set) WriteTo(ctx context.Context, path string, how Writing) (Written, error) {
	if strings.EqualFold(filepath.Ext(path), ".zip") {
		return s.Zip(ctx, path, how)
	}
	return s.Write(ctx, path, how)
}

// Write writes the papers of a set and their manifest into a folder, which it makes where there is none: all of them or, when one
// fails or the context ends, none. Only their owner can read them. A file that is there already stays as it is, with an *ExistsError
// and nothing written, unless it may be overwritten. One paper at a time is in memory.
func (s Set) Write(ctx context.Context, dir string, how Writing) (Written, error) {
	out := Written{Papers: len(s.Papers)}
	out.remember(s)
	var list manifest
	var files []file
	for i, p := range s.Papers {
		path := filepath.Join(dir, filepath.FromSlash(p.Name))
		if p.Off {
			out.Off = append(out.Off, path)
		}
		out.Paths = append(out.Paths, path)
		files = append(files, file{path, func(w io.Writer) error { return how.paper(ctx, w, &list, p, i, len(s.Papers)) }})
	}
	if len(files) > 0 {
		out.Paths = append(out.Paths, filepath.Join(dir, manifestName))
		files = append(files, file{out.Paths[len(files)], func(w io.Writer) error { return list.write(w, s.job) }})
	}
	if err := writeAll(dir, files, how.Overwrite); err != nil {
		return Written{}, err
	}
	return out, nil
}

// Zip writes the same into one archive (APPNOTE 6.3), in which everything is of the moment it was made.
func (s Set) Zip(ctx context.Context, path string, how Writing) (Written, error) {
	out := Written{Paths: []string{path}, Papers: len(s.Papers)}
	out.remember(s)
	archive := func(w io.Writer) error {
		z := zip.NewWriter(w)
		entry := func(name string, write func(io.Writer) error) error {
			in, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: packing(name), Modified: s.job.Made.UTC()})
			if err != nil {
				return err
			}
			return write(in)
		}
		var list manifest
		for i, p := range s.Papers {
			if p.Off {
				out.Off = append(out.Off, p.Name)
			}
			if err := entry(p.Name, func(w io.Writer) error { return how.paper(ctx, w, &list, p, i, len(s.Papers)) }); err != nil {
				return err
			}
		}
		if err := entry(manifestName, func(w io.Writer) error { return list.write(w, s.job) }); err != nil {
			return err
		}
		return z.Close()
	}
	if err := writeAll(filepath.Dir(path), []file{{path, archive}}, how.Overwrite); err != nil {
		return Written{}, err
	}
	return out, nil
}

// packing leaves alone what is packed already.
func packing(name string) uint16 {
	switch filepath.Ext(name) {
	case ".pdf", ".png", ".xlsx":
		return zip.Store
	}
	return zip.Deflate
}

// paper writes one paper and puts it on the list.
func (how Writing) paper(ctx context.Context, w io.Writer, list *manifest, p Paper, i, all int) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if how.Told != nil {
		how.Told(i, all)
	}
	sum := sha256.New()
	if err := p.write(io.MultiWriter(w, sum)); err != nil {
		return err
	}
	list.add(p, sum.Sum(nil))
	return nil
}

const manifestName = "manifest.txt"

// manifest lists what was written, in lines that "sha256sum -c" of the GNU coreutils checks; what begins with # is for people.
type manifest struct {
	lines []string
	kind  Kind
}

func (m *manifest) add(p Paper, sum []byte) {
	if p.Kind != m.kind {
		m.lines, m.kind = append(m.lines, "#", "# "+strings.ToUpper(p.Kind.Title().String())), p.Kind
	}
	m.lines = append(m.lines, "# "+oneLine(p.About.String()), fmt.Sprintf("%x  %s", sum, p.Name))
}

func (m *manifest) write(w io.Writer, j Job) error {
	zone := zoneOf(j.Plan)
	head := []string{
		fmt.Sprintf("# Papers of “%s”, made %s (%s)", filmTitle(j.Plan), j.Made.In(zone).Format("2006-01-02 15:04"), zone),
		"# What lies in " + ownerFolder + " is for the owner's eyes only. \"sha256sum -c " + manifestName + "\" tells whether a file was changed since.",
	}
	_, err := io.WriteString(w, strings.Join(append(head, m.lines...), "\n")+"\n")
	return err
}

// file is one file to be written.
type file struct {
	path  string
	write func(io.Writer) error
}

// holding is a file whose content is there already.
func holding(path string, content []byte) file {
	return file{path, func(w io.Writer) error {
		_, err := w.Write(content)
		return err
	}}
}

// writeAll puts all files in place or none: they are written beside their places first. When one can't get its name after all,
// those are taken back that were not there before. The folders that they lie in, at or under dir, are made where they are missing.
func writeAll(dir string, files []file, overwrite bool) (err error) {
	var there []bool
	for _, f := range files {
		_, err := os.Lstat(f.path)
		if there = append(there, err == nil); err == nil && !overwrite {
			return &ExistsError{f.path}
		}
	}
	made, err := makeFolders(dir, files)
	var beside []string
	defer func() {
		for _, name := range beside {
			_ = os.Remove(name)
		}
		if err != nil {
			for _, folder := range slices.Backward(made) { // one that holds anything stays
				_ = os.Remove(folder)
			}
		}
	}()
	if err != nil {
		return say.Error("the folder for the papers: %v", err)
	}
	for _, f := range files {
		name, err := writeBeside(f)
		if err != nil {
			return writing(f.path, err)
		}
		beside = append(beside, name)
	}
	for i, f := range files {
		if err := os.Rename(beside[i], f.path); err != nil {
			for j := range i {
				if !there[j] {
					_ = os.Remove(files[j].path)
				}
			}
			return writing(f.path, err)
		}
	}
	return nil
}

func writing(path string, err error) error {
	if errors.Is(err, context.Canceled) {
		return err
	}
	return say.Error("writing %s: %v", path, err)
}

// makeFolders makes the folders that are missing and returns them, the outer before the inner.
func makeFolders(dir string, files []file) (made []string, err error) {
	folders := []string{dir}
	for _, f := range files {
		folders = append(folders, filepath.Dir(f.path))
	}
	for _, folder := range folders {
		var missing []string
		for at := folder; ; at = filepath.Dir(at) {
			if _, err := os.Lstat(at); !errors.Is(err, fs.ErrNotExist) || at == filepath.Dir(at) {
				break
			}
			missing = append(missing, at)
		}
		if err := os.MkdirAll(folder, 0o700); err != nil {
			return made, err
		}
		slices.Reverse(missing)
		made = append(made, missing...)
	}
	return made, nil
}

// writeBeside writes what is to become a file, into the same folder, and returns its path.
func writeBeside(to file) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(to.path), ".paper-*") // readable by its owner only
	if err != nil {
		return "", err
	}
	err = to.write(f)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		_ = os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}
