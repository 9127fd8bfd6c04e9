package page

import (
	"context"
	"image"
	"image/color"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
	"eavelight/plan/pictures"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// PictureFiles is what the pictures of scenes need of the window: work off the UI goroutine, a file to be chosen, and the plan to be
// saved where it has no file yet, for its pictures lie beside it.
type PictureFiles struct {
	Async Async
	Pick  func(chosen func(path string))
	Save  func(then func())
}

// scenePictures is the field of a scene's pictures: a row for each, and what adds one. Files are read off the UI goroutine, one
// after another, and what was read is kept while the scene is shown.
type scenePictures struct {
	scenes *items[plan.Scene]
	files  PictureFiles
	path   string  // of the plan; empty where it has no file
	of     plan.ID // the scene that was shown last

	read     map[pictureKey]readPicture
	reader   *latest
	reading  bool
	queue    []newPicture // to be added
	adding   context.CancelFunc
	unsaved  []newPicture // to be added as soon as the plan has a file; one without a path asks for it
	rows     []*pictureRow
	stands   []standing // what is shown
	list     *fyne.Container
	hint     *widget.Label
	said     *widget.Label
	busy     *fyne.Container
	busyText *widget.Label
	bar      *widget.ProgressBarInfinite
	ask      *fyne.Container // to save the plan first
	larger   *largerPicture
	object   fyne.CanvasObject
}

// pictureKey is a picture in a file, by all that may change of it.
type pictureKey struct{ dir, file, sum string }

// readPicture is what came of reading one: the picture, or words.
type readPicture struct {
	image *image.RGBA
	wrong string
}

// newPicture is a file that is to become a scene's picture.
type newPicture struct {
	scene plan.ID
	path  string
}

// thumbPixels is the longest side that small pictures are read at: enough for a screen of two pixels a unit.
const thumbPixels = 320

// keptPictures is how many small pictures are kept at most, at a third of a megabyte each.
const keptPictures = 120

func newScenePictures(of *items[plan.Scene], files PictureFiles) *scenePictures {
	s := &scenePictures{scenes: of, files: files, read: map[pictureKey]readPicture{}, reader: newLatest(files.Async), adding: func() {}}
	s.list, s.hint, s.said = stack(), wrapped(), told()
	s.hint.Importance = widget.LowImportance
	add := widget.NewButtonWithIcon(tongue.Say("Add a picture…"), theme.ContentAddIcon(), s.choose)
	add.Importance = widget.LowImportance
	s.bar, s.busyText = widget.NewProgressBarInfinite(), widget.NewLabel("")
	s.bar.Stop()
	s.busyText.Truncation = fyne.TextTruncateEllipsis
	s.busy = container.NewBorder(nil, nil, nil, widget.NewButton(tongue.Say("Stop reading"), s.stop), container.NewGridWithColumns(2, s.busyText, s.bar))
	s.busy.Hide()
	ask := wrapped()
	ask.SetText(tongue.Say("Pictures are kept in a folder beside the plan, so it must be saved first."))
	s.ask = stack(ask, container.NewHBox(widget.NewButton(tongue.Say("Save and add"), s.saveFirst)))
	s.ask.Hide()
	s.object = stack(s.hint, s.list, container.NewHBox(add), s.ask, s.busy, s.said)
	s.larger = newLargerPicture(s)
	return s
}

// pictureFields adds the field to the form of a scene.
func (s *Scenes) pictureFields(files PictureFiles) {
	s.pictures = newScenePictures(s.items, files)
	s.pictures.larger.open = func() { s.open(s.pictures.larger.object) }
	s.pictures.larger.close = s.close
	s.form.heading(tongue.Say("Pictures"))
	s.form.row("", s.pictures.object)
	s.form.syncs = append(s.form.syncs, func(p *plan.Plan) { s.pictures.show(s.state, p) })
}

// Drop is Dropper's: a file dropped on the page is a picture of the selected scene.
func (s *Scenes) Drop(path string) bool {
	inSight := s.work.Visible() || s.pictures.larger.object.Visible()
	if s.selected == "" || !inSight || !s.Commit() {
		return false
	}
	s.pictures.add(path)
	s.pictures.reveal()
	return true
}

// Escape closes what lies over the page, and reports whether there was anything.
func (s *Scenes) Escape() bool {
	open := s.pictures.larger.object.Visible()
	if open {
		s.close()
	}
	return open
}

// LookAgain reads pictures again that were not found, or not as they were: files change behind the window.
func (s *Scenes) LookAgain() {
	s.pictures.forgetWrong()
	s.pictures.look()
}

// all are the pictures of the selected scene.
func (s *scenePictures) all(p *plan.Plan) []plan.Picture {
	return read(s.scenes, func(sc *plan.Scene) []plan.Picture { return sc.Pictures })(p)
}

// show brings the field up to a plan. What was said is about another scene.
func (s *scenePictures) show(st session.State, p *plan.Plan) {
	if s.path != st.Path || s.of != s.scenes.selected {
		s.reader.stop()
		s.reading = false
		s.forgetWrong()
		if s.of != s.scenes.selected {
			s.said.Hide()
			s.ask.Hide()
		}
		s.path, s.of = st.Path, s.scenes.selected
	}
	s.fill(p)
	s.look()
}

func (s *scenePictures) fill(p *plan.Plan) {
	all := s.all(p)
	if now := s.standing(all); slices.Equal(now, s.stands) {
		return
	} else {
		s.stands = now
	}
	for len(s.rows) < len(all) {
		s.addRow(len(s.rows))
	}
	s.hint.SetText(tongue.Say("Drop a picture on the window, or choose one. A small copy of it is kept beside the plan."))
	if len(all) > 0 {
		s.hint.SetText(tongue.Say("A click on a picture shows it larger. The first one stands for the scene."))
	}
	for i, row := range s.rows {
		setVisible(row.object, i < len(all))
		if i < len(all) {
			row.show(p, all[i], s.got(all[i]), i+1 < len(all))
		}
	}
	s.list.Refresh()
	s.object.Refresh()
	s.scenes.form.lay()
	s.larger.show(p)
}

func (s *scenePictures) key(q plan.Picture) pictureKey {
	return pictureKey{filepath.Dir(s.path), q.File, q.SHA256}
}

// standing is all that the pictures' fields show of them.
func (s *scenePictures) standing(all []plan.Picture) []standing {
	out := []standing{{picture: plan.Picture{File: string(s.of)}}}
	for _, q := range all {
		out = append(out, standing{q, s.got(q)})
	}
	return out
}

type standing struct {
	picture plan.Picture
	got     readPicture
}

// got is what came of reading a picture; nothing while it is not read yet.
func (s *scenePictures) got(q plan.Picture) readPicture {
	if s.path == "" {
		return readPicture{wrong: tongue.Say("It would lie beside the plan, which has no file yet.")}
	}
	return s.read[s.key(q)]
}

// forgetWrong forgets what was wrong with pictures, so that they are read again.
func (s *scenePictures) forgetWrong() {
	for key, got := range s.read {
		if got.wrong != "" {
			delete(s.read, key)
		}
	}
}

// look reads the pictures of the scene that are not read yet, one after another, so that each shows as soon as it is there.
func (s *scenePictures) look() {
	if s.reading || s.path == "" {
		return
	}
	all := s.all(s.scenes.shown)
	i := slices.IndexFunc(all, func(q plan.Picture) bool { _, known := s.read[s.key(q)]; return !known })
	if i < 0 {
		return
	}
	q, key := all[i], s.key(all[i])
	s.reading = true
	s.reader.run(func(ctx context.Context) func() {
		got := readPictureIn(ctx, key.dir, q, thumbPixels)
		return func() {
			s.reading = false
			if len(s.read) >= keptPictures {
				clear(s.read)
			}
			s.read[key] = got
			s.fill(s.scenes.shown)
			s.look()
		}
	})
}

func readPictureIn(ctx context.Context, dir string, q plan.Picture, longest int) readPicture {
	img, changed, err := pictures.Look(ctx, dir, q, longest)
	switch {
	case err != nil:
		return readPicture{wrong: tongue.Error(err)}
	case changed:
		return readPicture{img, tongue.Say("This is not the picture that was added: its file has changed.")}
	}
	return readPicture{image: img}
}

// choose asks for a file.
func (s *scenePictures) choose() {
	if s.path == "" {
		s.askToSave(newPicture{scene: s.scenes.selected})
		return
	}
	scene := s.scenes.selected
	s.files.Pick(func(path string) { s.addTo(newPicture{scene, path}) })
}

func (s *scenePictures) add(path string) { s.addTo(newPicture{s.scenes.selected, path}) }

// addTo reads a file for a scene, after those that are being read.
func (s *scenePictures) addTo(n newPicture) {
	if s.path == "" {
		s.askToSave(n)
		return
	}
	if len(s.queue) == 0 {
		s.said.SetText("")
		s.said.Hide()
	}
	if s.queue = append(s.queue, n); len(s.queue) == 1 {
		s.addNext()
	}
}

// askToSave offers to save the plan. What is to be added waits for it.
func (s *scenePictures) askToSave(n newPicture) {
	if !s.ask.Visible() {
		s.unsaved = nil
	}
	s.unsaved = append(s.unsaved, n)
	s.ask.Show()
	s.fill(s.scenes.shown)
}

func (s *scenePictures) saveFirst() {
	s.files.Save(func() {
		waiting := s.unsaved
		s.unsaved = nil
		s.ask.Hide()
		s.fill(s.scenes.shown)
		for _, n := range waiting {
			switch {
			case s.path == "":
			case n.path == "":
				s.choose()
			default:
				s.addTo(n)
			}
		}
	})
}

// addNext reads the first file of the queue.
func (s *scenePictures) addNext() {
	if len(s.queue) == 0 {
		return
	}
	n, planPath := s.queue[0], s.path
	if sc, ok := s.scenes.shown.Scene(n.scene); ok && len(sc.Pictures) >= plan.MaxPictures {
		full := plan.Problem{Code: plan.TooManyPictures, Level: plan.Wrong, Facts: []any{plan.MaxPictures, len(sc.Pictures) + 1}}
		s.queue = nil
		s.refuse(sentenceOf(tongue.Of(full)))
		return
	}
	ctx, cancel := context.WithCancel(context.Background())
	s.adding = cancel
	s.busyText.SetText(tongue.Say("Reading %s…", filepath.Base(n.path)))
	s.files.Async(func() func() {
		select {
		case <-ctx.Done():
		case <-time.After(patience):
		}
		return func() {
			if ctx.Err() == nil {
				s.setBusy(true)
			}
		}
	})
	s.files.Async(func() func() {
		q, err := pictures.Add(ctx, planPath, n.path)
		return func() {
			if ctx.Err() != nil {
				return // stopped
			}
			cancel()
			s.setBusy(false)
			s.made(n, planPath, q, err)
		}
	})
}

// made makes a picture the scene's, or says why not, and goes on with the next one.
func (s *scenePictures) made(n newPicture, planPath string, q plan.Picture, err error) {
	if planPath != s.path && err == nil { // the plan was saved elsewhere meanwhile: there the copy must lie
		s.addNext()
		return
	}
	s.queue = s.queue[1:]
	sc, _ := s.scenes.shown.Scene(n.scene)
	switch {
	case err != nil:
		s.refuse(tongue.Error(err) + ".")
	case slices.ContainsFunc(sc.Pictures, func(has plan.Picture) bool { return has.File == q.File }):
		s.refuse(tongue.Say("The scene has this picture already: %s.", path.Base(q.File)))
	default:
		wrong := s.scenes.form.edit(tongue.Say("add a picture"), "", func(p *plan.Plan) { p.AddPicture(n.scene, q) })
		if len(wrong) > 0 {
			s.refuse(sentenceOf(tongue.Of(wrong[0])))
		}
	}
	s.addNext()
}

// stop ends the reading of files; nothing comes of those that are not read yet.
func (s *scenePictures) stop() {
	s.adding()
	s.queue = nil
	s.setBusy(false)
}

func (s *scenePictures) setBusy(on bool) {
	setVisible(s.busy, on)
	if on {
		s.bar.Start()
	} else {
		s.bar.Stop()
	}
	s.object.Refresh()
	s.scenes.form.box.Refresh()
}

// refuse says why a file is none of the scene's pictures, beside what was said of the files before it.
func (s *scenePictures) refuse(words string) {
	if s.said.Text != "" {
		words = s.said.Text + "\n" + words
	}
	s.said.SetText(words)
	s.said.Show()
	s.fill(s.scenes.shown)
}

// sentenceOf makes a sentence of a phrase.
func sentenceOf(words string) string {
	if words == "" {
		return ""
	}
	first := []rune(words)
	return strings.ToUpper(string(first[0])) + string(first[1:]) + "."
}

// reveal scrolls the form to the pictures, with their heading above them.
func (s *scenePictures) reveal() {
	if s.scenes.detail.Size().Height == 0 {
		return // not laid out yet
	}
	s.scenes.detail.ScrollToOffset(fyne.NewPos(0, s.object.Position().Y-3*theme.TextSize()))
}

// pictureRow is one picture in the form: small, with its caption, and what is done with it.
type pictureRow struct {
	image   *still
	blank   *widget.Icon // while there is none
	caption *bound
	note    *widget.Label
	down    *widget.Button
	object  fyne.CanvasObject
}

// thumbSize is how large a small picture is at most, in Fyne units.
var thumbSize = fyne.NewSize(132, 99)

func (s *scenePictures) addRow(i int) {
	r := &pictureRow{image: newStill(thumbSize), blank: widget.NewIcon(theme.MediaPhotoIcon()), note: wrapped()}
	r.note.SizeName = theme.SizeNameCaptionText
	area := newArea(3)
	r.caption = newBound(&area.Entry, tongue.Say("what to take from it: the light, the colours, the frame"), func(p *plan.Plan) string {
		if all := s.all(p); i < len(all) {
			return all[i].Caption
		}
		return ""
	}, func(text string) string {
		wrong := s.scenes.form.edit(tongue.Say("change a caption"), s.scenes.form.subject()+"/picture/"+r.caption.subject, s.each(i, func(sc *plan.Scene) { sc.Pictures[i].Caption = text }))
		if len(wrong) > 0 {
			return tongue.Of(wrong[0])
		}
		return ""
	})
	s.scenes.form.fields = append(s.scenes.form.fields, r.caption)
	open := widget.NewButton("", func() { s.larger.at(i) })
	open.Importance = widget.LowImportance
	desk := canvas.NewRectangle(color.NRGBA{0x80, 0x80, 0x80, 0x30}) // so that a picture has an edge in either theme
	thumb := container.NewStack(open, container.NewPadded(container.NewStack(desk, container.NewCenter(r.blank), r.image)))
	under := container.NewBorder(nil, nil, nil, s.buttons(i, r), r.note)
	r.object = container.NewBorder(nil, nil, container.NewVBox(thumb), nil, stack(area, r.caption.wrong, under))
	s.rows = append(s.rows, r)
	s.list.Add(r.object)
}

// buttons are what stands at the end of row i.
func (s *scenePictures) buttons(i int, r *pictureRow) fyne.CanvasObject {
	button := func(icon fyne.ThemeIconName, name string, do func(*plan.Scene)) *widget.Button {
		b := widget.NewButtonWithIcon("", theme.Icon(icon), func() { s.scenes.form.edit(name, "", s.each(i, do)) })
		b.Importance = widget.LowImportance
		return b
	}
	move := tongue.Say("move a picture")
	up := button(theme.IconNameMoveUp, move, func(sc *plan.Scene) { plan.Shift(sc.Pictures, i, -1) })
	if i == 0 {
		up.Disable()
	}
	r.down = button(theme.IconNameMoveDown, move, func(sc *plan.Scene) { plan.Shift(sc.Pictures, i, 1) })
	away := button(theme.IconNameDelete, tongue.Say("take out a picture"), func(sc *plan.Scene) { sc.Pictures = removed(sc.Pictures, i) })
	return container.NewVBox(container.NewHBox(up, r.down, away))
}

// each is an edit of the selected scene that needs its picture i: undo takes rows away under the cursor.
func (s *scenePictures) each(i int, do func(*plan.Scene)) func(*plan.Plan) {
	return s.scenes.edited(func(sc *plan.Scene) {
		if i < len(sc.Pictures) {
			do(sc)
		}
	})
}

func (r *pictureRow) show(p *plan.Plan, q plan.Picture, got readPicture, more bool) {
	r.caption.sync(p, q.File)
	setEnabled(r.down, more)
	r.image.set(got.image)
	r.blank.SetResource(theme.MediaPhotoIcon())
	if got.wrong != "" {
		r.blank.SetResource(theme.BrokenImageIcon())
	}
	setVisible(r.blank, got.image == nil)
	r.note.Importance = widget.LowImportance
	words := path.Base(q.File)
	if got.wrong != "" {
		r.note.Importance = widget.WarningImportance
		words = got.wrong
	}
	r.note.SetText(words)
	r.note.Refresh()
}

// still shows a picture, and draws it anew only when it is another one: with every key that is pressed in a form, all that the form
// holds is refreshed.
type still struct {
	widget.BaseWidget
	image *canvas.Image
}

func newStill(least fyne.Size) *still {
	s := &still{image: &canvas.Image{FillMode: canvas.ImageFillContain}}
	s.image.SetMinSize(least)
	s.ExtendBaseWidget(s)
	return s
}

// CreateRenderer is Fyne's.
func (s *still) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.image) }

// Refresh is Fyne's.
func (s *still) Refresh() {}

// set shows a picture, or nothing.
func (s *still) set(img *image.RGBA) {
	var now image.Image
	if img != nil {
		now = img
	}
	if s.image.Image != now {
		s.image.Image = now
		s.image.Refresh()
	}
}
