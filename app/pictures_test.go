package app

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// photo makes a picture file of one colour.
func photo(t testing.TB, path string, wide, high int, c color.Color) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			img.Set(x, y, c)
		}
	}
	var data bytes.Buffer
	if err := jpeg.Encode(&data, img, nil); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

var rust = color.RGBA{160, 80, 40, 255}

// thumbs are the sizes of the pictures in sight.
func (d *desk) thumbs() (out []image.Point) {
	for _, i := range seen(d, func(i *canvas.Image) bool { _, drawn := i.Image.(*image.RGBA); return drawn }) {
		out = append(out, i.Image.Bounds().Size())
	}
	return out
}

// scenes opens the page of scenes and returns the pictures of the scene that is selected there.
func (d *desk) scenes() func() []plan.Picture {
	d.t.Helper()
	d.menuItem("Scenes").Action()
	d.settle()
	return func() []plan.Picture { return d.plan().Scenes[0].Pictures }
}

// TestDropAPicture: a file dropped with a scene selected is copied beside the plan, stands in the plan, and shows in the form; it is
// seen larger, taken back by undo, and kept by the file.
func TestDropAPicture(t *testing.T) {
	d, path := openDemo(t)
	of := d.scenes()
	d.dropped(photo(t, filepath.Join(t.TempDir(), "Dusk at sea.jpg"), 2000, 1000, rust))
	d.until("the picture is the scene's", func() bool { return len(of()) == 1 })
	d.until("it shows", func() bool { return len(d.thumbs()) == 1 })
	q := of()[0]
	if q.File != "demo-pictures/Dusk at sea.jpg" || len(q.SHA256) != 64 {
		t.Fatalf("%+v", q)
	}
	f, err := os.Open(filepath.Join(filepath.Dir(path), filepath.FromSlash(q.File)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if copied, err := jpeg.DecodeConfig(f); err != nil || copied.Width != 1200 || copied.Height != 600 {
		t.Errorf("the copy is %d × %d, %v", copied.Width, copied.Height, err)
	}
	if got := d.thumbs()[0]; got != image.Pt(320, 160) {
		t.Errorf("it shows %v", got)
	}
	caption := d.entry("what to take from it: the light, the colours, the frame")
	test.Type(caption, "So low a sun")
	if of()[0].Caption != "So low a sun" {
		t.Errorf("%+v", of()[0])
	}
	d.dropped(filepath.Join(filepath.Dir(path), filepath.FromSlash(q.File))) // the copy itself
	d.until("a second one is the scene's, or it is told why not", func() bool { return len(of()) == 2 || d.says("The scene has this picture already") })
	d.settle()
	d.larger(t)
	for d.session.State().Undo != "" {
		d.menuItem(d.menu.undo.Label).Action()
	}
	d.settle()
	if len(of()) != 0 || len(d.thumbs()) != 0 {
		t.Errorf("undo leaves %v", of())
	}
	d.menuItem("Redo add a picture").Action()
	d.settle()
	if len(d.thumbs()) != 1 {
		t.Error("redo does not show it again")
	}
	d.menuItem("Save").Action()
	d.settle()
	if back, _, err := store.Read(path); err != nil || !slices.Equal(back.Scenes[0].Pictures, of()) {
		t.Errorf("read back: %v", err)
	}
}

// larger looks at the first picture of the scene in sight alone, and goes back by Escape, with the focus and without.
func (d *desk) larger(t *testing.T) {
	t.Helper()
	for range 2 {
		d.openPicture()
		d.until("it shows large", func() bool { return slices.Contains(d.thumbs(), image.Pt(1200, 600)) })
		if !d.says("So low a sun") || !d.says("Dusk at sea.jpg") {
			t.Error("the large picture is without its words")
		}
		if f := d.win.Canvas().Focused(); f == nil {
			t.Error("nothing has the focus")
		} else {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
		if slices.Contains(d.thumbs(), image.Pt(1200, 600)) {
			t.Fatal("Escape does not close it")
		}
		d.openPicture()
		d.win.Canvas().Unfocus()
		d.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if slices.Contains(d.thumbs(), image.Pt(1200, 600)) {
			t.Fatal("Escape does not close it where nothing has the focus")
		}
	}
}

// openPicture presses the first small picture.
func (d *desk) openPicture() {
	d.t.Helper()
	d.walk(func(o fyne.CanvasObject) {
		c, ok := o.(*fyne.Container)
		if !ok || len(c.Objects) != 2 {
			return
		}
		if b, ok := c.Objects[0].(*widget.Button); ok && b.Text == "" && b.Icon == nil {
			test.Tap(b)
		}
	})
}

// pictureButtons are those of every picture in sight: up, down, and away.
func (d *desk) pictureButtons() (out [][3]*widget.Button) {
	d.walk(func(o fyne.CanvasObject) {
		c, ok := o.(*fyne.Container)
		if !ok || len(c.Objects) != 3 {
			return
		}
		var row [3]*widget.Button
		for i, o := range c.Objects {
			if row[i], ok = o.(*widget.Button); !ok || row[i].Text != "" {
				return
			}
		}
		out = append(out, row)
	})
	return out
}

// TestPicturesInOrder: pictures come by the dialog too, several at once, change places and are taken out; their captions go with them.
func TestPicturesInOrder(t *testing.T) {
	d, path := openDemo(t)
	of := d.scenes()
	photo(t, filepath.Join(filepath.Dir(path), "a.jpg"), 40, 30, rust)
	d.press("Add a picture…")
	d.choose("a.jpg")
	d.until("it is the scene's", func() bool { return len(of()) == 1 })
	dir := t.TempDir()
	d.dropped(photo(t, filepath.Join(dir, "b.jpg"), 30, 40, color.White))
	d.dropped(photo(t, filepath.Join(dir, "c.jpg"), 50, 50, color.Black))
	d.until("all are the scene's", func() bool { return len(of()) == 3 })
	d.settle()
	names := func() (out string) {
		for _, q := range of() {
			out += strings.TrimSuffix(filepath.Base(q.File), ".jpg") + q.Caption
		}
		return out
	}
	d.entry("what to take from it: the light, the colours, the frame").SetText("1")
	if names() != "a1bc" {
		t.Fatalf("%s", names())
	}
	row := func(i, button int) { test.Tap(d.pictureButtons()[i][button]) }
	row(0, 1)
	row(2, 0)
	if names() != "bca1" {
		t.Errorf("moved: %s", names())
	}
	row(1, 2)
	d.settle()
	if names() != "ba1" || len(d.thumbs()) != 2 {
		t.Errorf("taken out: %s, and %d show", names(), len(d.thumbs()))
	}
}

// TestPicturesByKeyboard: Tab comes to all that is done with pictures, and keys do it, in the form and where one is seen larger.
func TestPicturesByKeyboard(t *testing.T) {
	d, _ := openDemo(t)
	of := d.scenes()
	d.dropped(photo(t, filepath.Join(t.TempDir(), "b.jpg"), 30, 40, color.White))
	d.dropped(photo(t, filepath.Join(t.TempDir(), "c.jpg"), 50, 50, color.Black))
	d.until("all are the scene's", func() bool { return len(of()) == 2 })
	d.settle()
	d.byKeys(t, view.Scenes, nil, true)
	d.openPicture()
	d.settle()
	name := func() string {
		return seen(d, func(l *widget.Label) bool { return strings.HasPrefix(l.Text, "Scene 1 · ") })[0].Text
	}
	first := name()
	d.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if name() == first {
		t.Error("the arrow goes to no other picture")
	}
	d.byKeys(t, view.Scenes, nil, true)
}

// TestBadPictures: what is no picture is told in the form and changes nothing.
func TestBadPictures(t *testing.T) {
	d, path := openDemo(t)
	of := d.scenes()
	beside(t, path, "letter.txt", "Dear Ada")
	beside(t, path, "cut.jpg", "\xff\xd8\xff\xe0")
	for file, says := range map[string]string{
		"letter.txt": "letter.txt is no picture that can be read here; JPEG, PNG, WebP, GIF, TIFF and BMP can.",
		"gone.jpg":   "gone.jpg is not there; it was looked for in " + filepath.Dir(path) + ".",
		"cut.jpg":    "cut.jpg is damaged or not complete",
	} {
		d.dropped(filepath.Join(filepath.Dir(path), file))
		d.until(file+" is refused", func() bool { return d.says(says) })
		if len(of()) != 0 {
			t.Fatalf("%s is in the plan", file)
		}
	}
	full := slices.Repeat([]plan.Picture{{File: "p.jpg"}}, plan.MaxPictures)
	d.session.Edit("fill", "", func(p *plan.Plan) { p.Scenes[0].Pictures = full })
	d.dropped(filepath.Join(filepath.Dir(path), "letter.txt"))
	if !d.says("A scene has at most 24 pictures; this one has 25.") {
		t.Error("it does not say that there is no room for more")
	}
	d.settle()
	if !d.says("p.jpg is not there; it was looked for in " + filepath.Dir(path)) {
		t.Error("it does not say which picture is missing")
	}
	photo(t, filepath.Join(filepath.Dir(path), "p.jpg"), 40, 30, rust)
	d.lookAgain() // as when the window comes back to the front
	d.settle()
	if d.says("p.jpg is not there") || len(d.thumbs()) != plan.MaxPictures {
		t.Error("a picture that is put back does not show")
	}
}

// TestPicturesOfAPlanWithoutAFile wait until it is saved.
func TestPicturesOfAPlanWithoutAFile(t *testing.T) {
	d, _ := openDemo(t)
	d.session.Fresh(d.plan())
	d.settle()
	of := d.scenes()
	dir := t.TempDir()
	d.dropped(photo(t, filepath.Join(t.TempDir(), "dusk.jpg"), 40, 30, rust))
	if !d.says("Pictures are kept in a folder beside the plan, so it must be saved first.") || len(of()) != 0 {
		t.Fatal("it does not ask to save first")
	}
	d.press("Save and add")
	entries := seen(d, func(e *widget.Entry) bool { return strings.HasSuffix(e.Text, Suffix) })
	if len(entries) != 1 {
		t.Fatal("it does not ask where to save")
	}
	d.saveIn(dir, "job.eavelight")
	d.until("the picture is the scene's", func() bool { return len(of()) == 1 })
	d.settle()
	if of()[0].File != "job-pictures/dusk.jpg" || d.says("must be saved first") || len(d.thumbs()) != 1 {
		t.Errorf("%+v", of())
	}
}

// saveIn answers the question where to save.
func (d *desk) saveIn(dir, name string) {
	d.t.Helper()
	over := d.win.Canvas().Overlays().Top()
	var entries []*widget.Entry
	d.walk(func(o fyne.CanvasObject) {
		if e, ok := o.(*widget.Entry); ok {
			entries = append(entries, e)
		}
	})
	if over == nil || len(entries) < 2 {
		d.t.Fatal("nothing asks where to save")
	}
	entries = entries[len(entries)-2:] // the folder and the name, over the page
	entries[0].SetText(dir)
	entries[1].SetText(name)
	d.press("Save")
	d.settle()
}

// TestPicturesComeAlong: a plan saved in another folder brings its pictures; what can't be brought is told.
func TestPicturesComeAlong(t *testing.T) {
	d, path := openDemo(t)
	of := d.scenes()
	d.dropped(photo(t, filepath.Join(t.TempDir(), "dusk.jpg"), 40, 30, rust))
	d.until("it is the scene's", func() bool { return len(of()) == 1 })
	other := t.TempDir()
	d.menuItem("Save as…").Action()
	d.saveIn(other, "copy.eavelight")
	if d.says("not all of its pictures") || len(d.thumbs()) != 1 {
		t.Error("the picture is not told to be there")
	}
	if _, err := os.Stat(filepath.Join(other, "demo-pictures", "dusk.jpg")); err != nil {
		t.Error(err)
	}
	if err := os.RemoveAll(filepath.Join(other, "demo-pictures")); err != nil {
		t.Fatal(err)
	}
	third := t.TempDir()
	d.menuItem("Save as…").Action()
	d.saveIn(third, "copy.eavelight")
	if !d.says("dusk.jpg is not there; it was looked for in " + filepath.Join(other, "demo-pictures")) {
		t.Error("it does not say that a picture stayed behind")
	}
	if st := d.session.State(); st.Dirty || st.Path != filepath.Join(third, "copy.eavelight") {
		t.Errorf("the plan is not saved: %s after %s", st.Path, path)
	}
}
