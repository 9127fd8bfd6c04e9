package pictures

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"eavelight/plan"
)

func write(t *testing.T, path string, data []byte) string {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func add(t *testing.T, planPath, from string) plan.Picture {
	t.Helper()
	q, err := Add(context.Background(), planPath, from)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// TestFolder: the folder is called like the plan, and is always one that a plan may name.
func TestFolder(t *testing.T) {
	for path, want := range map[string]string{
		"/x/tarn-ledge.eavelight":                       "tarn-ledge-pictures",
		"/x/A day. At.yaml":                             "A day. At-pictures",
		"/x/.eavelight":                                 "plan-pictures",
		"/x/a:b\\c.eavelight":                           "a-b-c-pictures",
		"/x/\xff\xfe.eavelight":                         "--pictures",
		"/x/" + strings.Repeat("ä", 100) + ".eavelight": strings.Repeat("ä", 60) + "-pictures",
	} {
		if runtime.GOOS == "windows" && strings.Contains(path, "\\") {
			continue
		}
		if got := Folder(path); got != want {
			t.Errorf("%q: %q, not %q", path, got, want)
		}
		p := plan.New()
		p.Scenes = []plan.Scene{{ID: "a", Pictures: []plan.Picture{{File: Folder(path) + "/x.jpg"}}}}
		if wrong := plan.Validate(p); len(wrong) > 0 {
			t.Errorf("%q: %v", path, wrong)
		}
	}
}

// TestAdd: a copy is small, upright and says nothing but its pixels; the same picture is copied once, and another one of the same
// name beside it.
func TestAdd(t *testing.T) {
	dir := t.TempDir()
	planPath := filepath.Join(dir, "job", "demo.eavelight")
	write(t, planPath, nil)
	large := write(t, filepath.Join(dir, "camera", "Dusk: 1.JPG"), turned(asJPEG(t, quarters(2400, 1600)), 6, "GPS 46.1 N 121.5 W"))
	q := add(t, planPath, large)
	if q.File != "demo-pictures/Dusk- 1.jpg" || len(q.SHA256) != 64 {
		t.Fatalf("%+v", q)
	}
	data, err := os.ReadFile(filepath.Join(dir, "job", filepath.FromSlash(q.File)))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(data, []byte("GPS")) || bytes.Contains(data, []byte("Exif")) {
		t.Error("the copy says where it was taken")
	}
	img, changed, err := Look(context.Background(), filepath.Dir(planPath), q, 5000)
	if err != nil || changed || img.Rect != image.Rect(0, 0, 800, 1200) {
		t.Fatalf("%v, changed %v, %v", img.Bounds(), changed, err)
	}
	for i, want := range [4]color.Color{blue, red, grey, green} {
		if !near(corners(img)[i], want) {
			t.Errorf("corner %d is %v", i, corners(img)[i])
		}
	}
	if again := add(t, planPath, large); again != q {
		t.Errorf("the same again: %+v", again)
	}
	other := write(t, filepath.Join(dir, "phone", "Dusk: 1.png"), asJPEG(t, quarters(40, 30))) // its ending lies
	if q2 := add(t, planPath, other); q2.File != "demo-pictures/Dusk- 1-2.jpg" {
		t.Errorf("another one of the same name: %+v", q2)
	}
	write(t, filepath.Join(dir, "job", filepath.FromSlash(q.File)), asJPEG(t, quarters(8, 8)))
	if _, changed, err := Look(context.Background(), filepath.Dir(planPath), q, 5000); err != nil || !changed {
		t.Errorf("another picture in its place: changed %v, %v", changed, err)
	}
	if _, changed, err := Look(context.Background(), filepath.Dir(planPath), plan.Picture{File: q.File}, 5000); err != nil || changed {
		t.Errorf("of whose sum nothing is said: changed %v, %v", changed, err)
	}
}

func TestAddWhereNothingCanBeWritten(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "demo-pictures"), []byte("a file in the way"))
	from := write(t, filepath.Join(dir, "a.jpg"), asJPEG(t, quarters(40, 30)))
	_, err := Add(context.Background(), filepath.Join(dir, "demo.eavelight"), from)
	if err == nil || !strings.HasPrefix(err.Error(), "The copy of a.jpg can't be written into demo-pictures (") {
		t.Errorf("%v", err)
	}
}

// TestBring: the pictures of a plan come along to another folder; what is not there is told, and what is there is not written over.
func TestBring(t *testing.T) {
	from, to := t.TempDir(), t.TempDir()
	a := add(t, filepath.Join(from, "demo.eavelight"), write(t, filepath.Join(from, "a.jpg"), asJPEG(t, quarters(40, 30))))
	b := add(t, filepath.Join(from, "demo.eavelight"), write(t, filepath.Join(from, "b.jpg"), asJPEG(t, quarters(30, 40))))
	p := plan.New()
	p.Scenes = []plan.Scene{{ID: "x", Pictures: []plan.Picture{a, b}}, {ID: "y", Pictures: []plan.Picture{a}}}
	for range 2 { // the second time all are there
		if err := Bring(context.Background(), &p, from, to); err != nil {
			t.Fatal(err)
		}
	}
	for _, q := range []plan.Picture{a, b} {
		if _, changed, err := Look(context.Background(), to, q, 100); err != nil || changed {
			t.Errorf("%s: changed %v, %v", q.File, changed, err)
		}
	}
	inTheWay := asJPEG(t, quarters(8, 8))
	write(t, filepath.Join(to, filepath.FromSlash(a.File)), inTheWay)
	p.Scenes[1].Pictures = append(p.Scenes[1].Pictures, plan.Picture{File: "gone.jpg"})
	err := Bring(context.Background(), &p, from, to)
	want := filepath.FromSlash(a.File) + " was not copied: another file of that name is in " + to + " already\ngone.jpg is not there; it was looked for in " + from
	if err == nil || err.Error() != want {
		t.Errorf("it says\n%v\nnot\n%s", err, want)
	}
	if there, _ := os.ReadFile(filepath.Join(to, filepath.FromSlash(a.File))); !bytes.Equal(there, inTheWay) {
		t.Error("a file was written over")
	}
}
