package papers

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

func demoSet(t testing.TB) (Set, plan.Plan, day.Day) {
	t.Helper()
	p, d := demo(t)
	return NewSet(Job{Plan: &p, Days: []day.Day{d}, Made: madeAt}), p, d
}

// daySet is what is written for a shooting day.
func daySet(t testing.TB) Set {
	s, _, _ := demoSet(t)
	return s.Only(KindCallSheets, KindCalendars)
}

func TestWriteMakesTheFolderAndPrivateFiles(t *testing.T) {
	set, p, d := demoSet(t)
	dir := filepath.Join(t.TempDir(), "papers", "march")
	wrote, err := set.Write(t.Context(), dir, Writing{})
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, paper := range set.Papers {
		want = append(want, filepath.Join(dir, filepath.FromSlash(paper.Name)))
	}
	want = append(want, filepath.Join(dir, "manifest.txt"))
	if !slices.Equal(wrote.Paths, want) || wrote.Papers != len(want)-1 || len(wrote.Off) > 0 {
		t.Fatalf("got %+v, want %q", wrote, want)
	}
	content, err := os.ReadFile(filepath.Join(dir, "call-sheet-2027-03-06.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	if want := printed(t, CallSheet(&p, d), plan.Letter); string(content) != string(want) {
		t.Error("the file is not the call sheet")
	}
	if content, err := os.ReadFile(filepath.Join(dir, "calendar.ics")); err != nil || string(content) != string(NewCalendars(&p, []day.Day{d}, madeAt).Files[0].Content) {
		t.Errorf("the file is not the calendar for all (%v)", err)
	}
	for _, path := range []string{"people/calendar-mia.ics", "releases/release-r-grete.pdf"} {
		info, err := os.Stat(filepath.Join(dir, path))
		if err != nil {
			t.Fatal(err)
		}
		if runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
			t.Errorf("the mode of %s is %v, want owner only", path, info.Mode())
		}
	}
}

// TestManifestIsCheckedBySha256sum has the GNU coreutils check what was written, and find what was changed.
func TestManifestIsCheckedBySha256sum(t *testing.T) {
	tool, err := exec.LookPath("sha256sum")
	if err != nil {
		t.Skip("sha256sum is not installed (GNU coreutils): the manifest is not checked")
	}
	set, _, _ := demoSet(t)
	dir := t.TempDir()
	wrote, err := set.Write(t.Context(), dir, Writing{})
	if err != nil {
		t.Fatal(err)
	}
	check := func() (string, error) {
		cmd := exec.Command(tool, "-c", "--strict", "manifest.txt")
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	if out, err := check(); err != nil || strings.Count(out, ": OK\n") != wrote.Papers {
		t.Errorf("%v: %s", err, out)
	}
	if err := os.WriteFile(filepath.Join(dir, "calendar.ics"), []byte("other"), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := check(); err == nil || !strings.Contains(out, "calendar.ics: FAILED") {
		t.Errorf("a changed file goes unnoticed: %s", out)
	}
}

// TestNamesAreSafeEverywhere holds the names to what Windows forbids beyond Unix: signs, devices, ends, and names that differ by case alone
// (Microsoft, "Naming Files, Paths, and Namespaces"). No path grows long either.
func TestNamesAreSafeEverywhere(t *testing.T) {
	p, d := torture(t)
	p.People[0].ID, p.People[1].ID, p.People[2].ID = `a<b>:"\|?*c`, "CON", "con"
	p.Releases = append(p.Releases, plan.Release{ID: "../../up", Kind: plan.ModelRelease, Party: "CON"}, plan.Release{ID: "NUL.", Kind: plan.ModelRelease})
	seen := map[string]bool{}
	for _, paper := range NewSet(Job{Plan: &p, Days: []day.Day{d, d}, Made: madeAt}).Papers {
		if lower := strings.ToLower(paper.Name); seen[lower] {
			t.Errorf("%q comes twice", paper.Name)
		} else {
			seen[lower] = true
		}
		folder, name := filepath.Split(paper.Name)
		if strings.ContainsAny(name, "<>:\"\\|?*/\x00") || strings.HasSuffix(strings.TrimSuffix(name, filepath.Ext(name)), ".") || strings.Count(folder, "/") > 1 ||
			len([]rune(paper.Name)) > 100 || strings.HasPrefix(name, ".") {
			t.Errorf("%q is no name for every system", paper.Name)
		}
		if stem, _, _ := strings.Cut(strings.ToUpper(name), "."); slices.Contains([]string{"CON", "PRN", "AUX", "NUL", "COM1", "LPT1"}, stem) {
			t.Errorf("%q is a device", paper.Name)
		}
	}
}

// TestSameJobSameBytes: a difference between two archives means a change of the plan.
func TestSameJobSameBytes(t *testing.T) {
	job := func() Set {
		p, days := costed(t)
		return NewSet(Job{Plan: &p, Days: days, Made: madeAt})
	}
	archive := func() []byte {
		set := job()
		path := filepath.Join(t.TempDir(), "papers.zip")
		wrote, err := set.Zip(t.Context(), path, Writing{})
		if err != nil || !slices.Equal(wrote.Paths, []string{path}) || wrote.Papers != len(set.Papers) {
			t.Fatalf("%+v, %v", wrote, err)
		}
		content, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	first := archive()
	time.Sleep(time.Until(time.Now().Truncate(time.Second).Add(time.Second))) // what holds the time of making changes by the second
	if !bytes.Equal(first, archive()) {
		t.Error("the same job gives other bytes")
	}
	set := job()
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	if len(z.File) != len(set.Papers)+1 {
		t.Errorf("%d files in the archive, want %d", len(z.File), len(set.Papers)+1)
	}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(io.Discard, in); err != nil { // checks its checksum
			t.Errorf("%s: %v", f.Name, err)
		}
	}
}

// TestStoppedWriteLeavesNothing: neither a file nor a folder.
func TestStoppedWriteLeavesNothing(t *testing.T) {
	for name, write := range map[string]func(context.Context, Set, string, Writing) error{
		"folder": func(ctx context.Context, s Set, at string, how Writing) error {
			_, err := s.Write(ctx, at, how)
			return err
		},
		"zip": func(ctx context.Context, s Set, at string, how Writing) error {
			_, err := s.Zip(ctx, filepath.Join(at, "papers.zip"), how)
			return err
		},
	} {
		set, _, _ := demoSet(t)
		root := t.TempDir()
		ctx, stop := context.WithCancel(t.Context())
		how := Writing{Told: func(done, all int) {
			if all != len(set.Papers) {
				t.Errorf("%s: told of %d papers", name, all)
			}
			if done == 5 {
				stop()
			}
		}}
		if err := write(ctx, set, filepath.Join(root, "a", "b"), how); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: got %v", name, err)
		}
		if found, _ := os.ReadDir(root); len(found) > 0 {
			t.Errorf("%s: it left %v", name, found)
		}
	}
}

func TestWriteKeepsWhatIsThere(t *testing.T) {
	set := daySet(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "call-sheet-2027-03-06.pdf")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	wrote, err := set.Write(t.Context(), dir, Writing{})
	var exists *ExistsError
	if !errors.As(err, &exists) || exists.Path != path || !errors.Is(err, fs.ErrExist) || !strings.Contains(err.Error(), path) || wrote.Paths != nil {
		t.Fatalf("got %v, %v", wrote, err)
	}
	if content, _ := os.ReadFile(path); string(content) != "mine" {
		t.Error("the file was touched")
	}
	if _, err := set.Write(t.Context(), dir, Writing{Overwrite: true}); err != nil {
		t.Fatal(err)
	}
	if content, _ := os.ReadFile(path); string(content) == "mine" {
		t.Error("the file was not replaced")
	}
}

func TestFailedWriteLeavesNothing(t *testing.T) {
	set := daySet(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "call-sheet-2027-03-06.pdf")
	if err := os.MkdirAll(filepath.Join(path, "in the way"), 0o700); err != nil { // a folder can't be replaced by a file
		t.Fatal(err)
	}
	if _, err := set.Write(t.Context(), dir, Writing{Overwrite: true}); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("got %v, want an error that names the file", err)
	}
	if found, _ := os.ReadDir(dir); len(found) != 1 {
		t.Errorf("the folder holds %v", found)
	}
	if _, err := set.Write(t.Context(), filepath.Join(dir, "\x00"), Writing{}); err == nil {
		t.Error("an impossible folder gives no error")
	}
}

func TestWriteWithoutADate(t *testing.T) {
	p := plan.New()
	wrote, err := NewSet(Job{Plan: &p, Days: []day.Day{{}}, Made: madeAt}).Only(KindCallSheets).Write(t.Context(), t.TempDir(), Writing{})
	if err != nil || wrote.Papers != 1 || filepath.Base(wrote.Paths[0]) != "call-sheet-no-date.pdf" {
		t.Errorf("got %v, %v", wrote, err)
	}
}

// BenchmarkAllPapers makes every paper of the demo, all of them in one archive.
func BenchmarkAllPapers(b *testing.B) {
	p, days := costed(b)
	set := NewSet(Job{Plan: &p, Days: days, Made: madeAt})
	path := filepath.Join(b.TempDir(), "papers.zip")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := set.Zip(b.Context(), path, Writing{Overwrite: true}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(set.Papers)), "papers")
}

// BenchmarkLiveMemory writes the papers of few and of many people, and reports the most memory that is in use between two of them: as
// many megabytes for many as for few, but for the prints that wait for their mails.
func BenchmarkLiveMemory(b *testing.B) {
	for _, n := range []int{0, 20, 60} {
		b.Run(fmt.Sprint(10+n, " people"), func(b *testing.B) {
			p, days := toWrite(b)
			many(&p, days, n)
			most := uint64(0)
			told := func(int, int) {
				runtime.GC()
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapAlloc)
			}
			for b.Loop() {
				if _, err := NewSet(Job{Plan: &p, Days: days, Made: madeAt}).Zip(b.Context(), filepath.Join(b.TempDir(), "a.zip"), Writing{Told: told}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(most)/(1<<20), "live-MB")
		})
	}
}
