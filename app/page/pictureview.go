package page

import (
	"context"
	"path"

	"eavelight/app/tongue"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// largePixels is the longest side that a picture is read at to be seen alone. Copies are smaller; a file put there by hand may not be.
const largePixels = 2400

// largerPicture shows one picture of the selected scene in place of the table and the form, as large as there is room. Escape goes
// back, the arrows go on to the others.
type largerPicture struct {
	of     *scenePictures
	open   func() // shows the panel
	close  func()
	index  int
	shown  pictureKey
	reader *latest

	title, number  *widget.Label
	caption, wrong *widget.Label
	image          *canvas.Image
	back           *keyButton
	turns          [2]*keyButton
	head           *fyne.Container
	object         fyne.CanvasObject
}

func newLargerPicture(of *scenePictures) *largerPicture {
	l := &largerPicture{of: of, reader: newLatest(of.files.Async), number: widget.NewLabel(""), caption: wrapped(), wrong: wrapped(),
		image: &canvas.Image{FillMode: canvas.ImageFillContain}}
	l.title = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.title.Truncation = fyne.TextTruncateEllipsis
	l.wrong.Importance = widget.WarningImportance
	keys := map[fyne.KeyName]func(){
		fyne.KeyEscape: func() { l.close() },
		fyne.KeyLeft:   func() { l.turn(-1) },
		fyne.KeyRight:  func() { l.turn(1) },
	}
	l.back = newKeyButton(tongue.Say("Back to the scene"), theme.NavigateBackIcon(), keys, func() { l.close() })
	for i, icon := range []fyne.Resource{theme.NavigateBackIcon(), theme.NavigateNextIcon()} {
		l.turns[i] = newKeyButton("", icon, keys, func() { l.turn(2*i - 1) })
		l.turns[i].Importance = widget.LowImportance
	}
	l.head = container.NewBorder(nil, nil, l.back, container.NewHBox(l.turns[0], l.number, l.turns[1]), l.title)
	l.object = container.NewBorder(l.head, stack(l.caption, l.wrong), nil, nil, l.image)
	l.object.Hide()
	return l
}

// at opens the panel on a picture.
func (l *largerPicture) at(i int) {
	l.index = i
	l.open()
	if !l.object.Visible() {
		return // what is being written in the table makes no sense yet
	}
	l.show(l.of.scenes.shown)
	if c := fyne.CurrentApp().Driver().CanvasForObject(l.object); c != nil {
		c.Focus(l.back)
	}
}

func (l *largerPicture) turn(by int) {
	if n := len(l.of.all(l.of.scenes.shown)); n > 0 {
		l.index = (l.index + by + n) % n
		l.show(l.of.scenes.shown)
	}
}

// show brings the panel up to a plan. A picture that undo takes away under it closes it with the last one.
func (l *largerPicture) show(p *plan.Plan) {
	if !l.object.Visible() {
		return
	}
	all := l.of.all(p)
	if len(all) == 0 {
		l.close()
		return
	}
	l.index = min(l.index, len(all)-1)
	q := all[l.index]
	sc, _ := p.Scene(l.of.scenes.selected)
	l.title.SetText(tongue.Say("Scene %s", sc.Name()) + " · " + path.Base(q.File))
	l.number.SetText(tongue.Say("%d of %d", l.index+1, len(all)))
	l.caption.SetText(q.Caption)
	setVisible(l.caption, q.Caption != "")
	for _, b := range l.turns {
		setVisible(b, len(all) > 1)
	}
	setVisible(l.number, len(all) > 1)
	l.head.Refresh()
	l.look(q)
}

// look reads the picture, unless it is the one that stands there. Until it is there, the small one does.
func (l *largerPicture) look(q plan.Picture) {
	key := l.of.key(q)
	if key == l.shown && l.image.Image != nil {
		return
	}
	l.shown = key
	l.set(l.of.got(q))
	if l.of.path == "" {
		return
	}
	l.reader.run(func(ctx context.Context) func() {
		got := readPictureIn(ctx, key.dir, q, largePixels)
		return func() { l.set(got) }
	})
}

func (l *largerPicture) set(got readPicture) {
	if l.image.Image = nil; got.image != nil {
		l.image.Image = got.image
	}
	l.wrong.SetText(got.wrong)
	setVisible(l.wrong, got.wrong != "")
	l.image.Refresh()
	l.object.Refresh()
}

// keyButton is a button that does something by other keys too while it has the focus.
type keyButton struct {
	widget.Button
	keys map[fyne.KeyName]func()
}

func newKeyButton(words string, icon fyne.Resource, keys map[fyne.KeyName]func(), tapped func()) *keyButton {
	b := &keyButton{keys: keys}
	b.Text, b.Icon, b.OnTapped = words, icon, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey is Fyne's.
func (b *keyButton) TypedKey(k *fyne.KeyEvent) {
	if do, ok := b.keys[k.Name]; ok {
		do()
		return
	}
	b.Button.TypedKey(k)
}
