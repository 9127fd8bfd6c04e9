// Package app is the window: it assembles the pages, the menu with its shortcuts, and the life of the window. It takes a
// fyne.App and never makes one, so that everything here runs without a display.
package app

import (
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	_ "eavelight/app/locale" // before Fyne
	"eavelight/app/page"
	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/pictures"
	"eavelight/plan/say"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Window is Eavelight's one window.
type Window struct {
	app     fyne.App
	win     fyne.Window
	session *session.Session
	post    func(func())
	under   atomic.Int32 // what async has under way
	now     func() time.Time
	book    string
	aside   string
	version string

	pages   map[view.Page]page.Page        // those that were looked at
	makers  map[view.Page]func() page.Page // of all
	current view.Page
	doc     int // the document that the pages are for
	rail    *widget.List
	lacking map[view.Page]string
	left    *fyne.Container // the rail, and the line beside it
	body    *fyne.Container
	status  *widget.Label
	stop    *widget.Button // ends a long placing
	ground  *canvas.Rectangle
	busy    time.Time   // when the placing under way began
	alarm   *time.Timer // looks whether it is still under way
	menu    menu
	asking  dialog.Dialog // the last dialog shown, for Escape; hiding one that is gone does nothing
	dark    bool
	tabs    bool // Tab was pressed, and what it came to is not brought into sight yet

	systemDark func() bool // whether the system's own windows are dark
}

// Config is what a window needs from outside.
type Config struct {
	App  fyne.App
	Post func(func()) // runs a function on the UI goroutine; fyne.Do but in tests
	Now  func() time.Time
	Book string // the path of the address book; empty: there is no place for one
	// Aside is the folder in which changes are kept that are not saved yet; empty: they are kept nowhere.
	Aside   string
	Version string // of the program
}

// New builds the window without a page in it, so that it is on screen soon: Open and Start go to the first one. Win().ShowAndRun() shows it.
func New(c Config) *Window {
	w := &Window{app: c.App, post: c.Post, now: c.Now, book: c.Book, aside: c.Aside, version: c.Version, lacking: map[view.Page]string{}}
	w.systemDark = func() bool { return w.app.Settings().ThemeVariant() == theme.VariantDark }
	w.takeLook()
	w.takeTongue()
	w.win = w.app.NewWindow("Eavelight")
	w.win.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	w.win.SetPadded(false)
	w.session = session.New(w.post, w.changed)
	w.session.KeepIn(w.aside)
	w.build()
	w.win.Resize(w.savedSize())
	w.win.SetCloseIntercept(w.Close)
	w.app.Lifecycle().SetOnEnteredForeground(func() { w.post(w.lookAgain) }) // back from where files are moved
	w.app.Lifecycle().SetOnExitedForeground(func() { w.post(w.session.KeepNow) })
	w.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) {
		switch {
		case e.Name == fyne.KeyEscape && w.win.Canvas().Overlays().Top() == nil && w.current == view.Start:
			w.goTo(view.Brief)
		case e.Name == fyne.KeyEscape && w.win.Canvas().Overlays().Top() == nil && w.escape():
		case e.Name == fyne.KeyEscape && w.asking != nil:
			w.asking.Hide()
		case e.Name == fyne.KeyF1: // without Ctrl it comes here only while no field has the cursor: Fyne gives it no menu
			w.unlessAsked(w.keyboard)()
		}
	})
	w.win.SetOnDropped(func(_ fyne.Position, files []fyne.URI) {
		if len(files) > 0 {
			w.droppedAll(files)
		}
	})
	w.app.Settings().AddListener(func(fyne.Settings) { w.post(w.systemChanged) })
	return w
}

// lookAgain looks at the files again that lie beside the plan.
func (w *Window) lookAgain() {
	w.session.CheckScans()
	if p, ok := w.pages[view.Scenes].(*page.Scenes); ok {
		p.LookAgain()
	}
}

// escape has the page in sight close what lies over it.
func (w *Window) escape() bool {
	p, ok := w.page(w.current).(page.Escaper)
	return ok && p.Escape()
}

// Win is Fyne's window.
func (w *Window) Win() fyne.Window { return w.win }

// Open shows a plan file, in place of what is open. Where nothing is, a file that cannot be opened leads to the start page.
func (w *Window) Open(path string) { w.open(path) }

func (w *Window) today() plan.Date { return plan.DateOf(w.now()) }

// makePages has the pages made anew for the document that is open, each when it is looked at first: nothing that was typed, selected
// or looked up for another document is left, and what still comes from the pages of another one is dropped.
func (w *Window) makePages() {
	st := w.session.State()
	w.doc = st.Doc
	edit := page.Editor(func(name, key string, f func(*plan.Plan)) plan.Problems {
		if w.session.State().Doc != st.Doc {
			return nil
		}
		return w.session.Edit(name, key, f)
	})
	pictureFiles := page.PictureFiles{Async: w.asyncOf(st.Doc), Pick: w.picker(pictures.Endings...), Save: w.save}
	w.pages = map[view.Page]page.Page{}
	w.makers = map[view.Page]func() page.Page{
		view.Brief:    func() page.Page { return page.NewBrief(edit) },
		view.Property: func() page.Page { return page.NewProperty(edit, w.async) },
		view.Scenes:   func() page.Page { return page.NewScenes(edit, pictureFiles) },
		view.People: func() page.Page {
			return page.NewPeople(edit, w.now, w.writeRelease, w.writeDrafts, w.async, w.picker(contactFiles...), w.picker(), w.book)
		},
		view.Day: func() page.Page {
			return page.NewDay(edit, w.goToHit, w.today, w.async, w.session, w.picker(".yaml", ".yml", ".txt"))
		},
		view.Price: func() page.Page {
			return page.NewPrice(edit, page.Cards{Starter: w.starterCard, Open: w.askCard, Save: w.saveCard}, w.asyncOf(st.Doc), w.today)
		},
		view.Papers: func() page.Page {
			papers := page.NewPapers(edit, w.now, w.asyncOf(st.Doc), w.writePapers, w.browseFolder)
			papers.SetFolder(papersFolder(w.session.State().Path))
			return papers
		},
		view.Start: func() page.Page {
			return page.NewStart(edit, w.asyncOf(st.Doc), page.StartActions{
				Demo: w.openDemo, Open: func() { w.unlessUnsaved(w.askOpen) },
				Recent: w.recentFiles, OpenRecent: func(path string) { w.unlessUnsaved(func() { w.open(path) }) },
				Leave: w.goTo,
			})
		},
	}
}

// page is a page of the window, which is made when it is asked for first.
func (w *Window) page(p view.Page) page.Page {
	if make := w.makers[p]; make != nil && w.pages[p] == nil { // none is current while the window is built
		w.pages[p] = make()
	}
	return w.pages[p]
}

// build lays the window out: the rail of pages at the left, the page, the status line at the foot.
func (w *Window) build() {
	w.makePages()
	w.rail = widget.NewList(func() int { return len(view.Pages) }, newRailLine, w.fillRail)
	w.rail.OnSelected = func(i widget.ListItemID) { w.goTo(view.Pages[i]) }
	w.body = container.NewStack()
	w.status = widget.NewLabel("")
	w.status.Truncation = fyne.TextTruncateEllipsis
	w.left = container.NewBorder(nil, nil, nil, widget.NewSeparator(), container.New(railWidth{}, w.rail))
	w.stop = widget.NewButton(tongue.Say("Stop"), func() { w.session.Stop() })
	w.stop.Hide()
	w.ground = canvas.NewRectangle(theme.Color(theme.ColorNameBackground))
	foot := container.NewStack(w.ground, container.NewVBox(widget.NewSeparator(), container.NewBorder(nil, nil, nil, w.stop, w.status)))
	w.win.SetContent(w.following(container.NewBorder(nil, foot, w.left, nil, w.body)))
	w.buildMenu()
}

// ask shows a dialog, which Escape closes.
func (w *Window) ask(d dialog.Dialog, size fyne.Size) {
	if !size.IsZero() {
		d.Resize(size)
	}
	w.asking = d
	w.win.Canvas().Unfocus() // so that Escape reaches the window
	d.Show()
}

// railWidth is how wide the rail of pages is; it grows with the text.
type railWidth struct{}

func (railWidth) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(190*theme.TextSize()/14, 0)
}

func (railWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

func newRailLine() fyne.CanvasObject {
	name := widget.NewLabelWithStyle("Page", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	lacks := widget.NewLabel("what it lacks\nover two lines")
	lacks.Wrapping = fyne.TextWrapWord
	lacks.SizeName = theme.SizeNameCaptionText
	lacks.Importance = widget.LowImportance
	return container.New(railLine{}, name, lacks)
}

// railLine gives a page's line room for its name and two lines of what it lacks.
type railLine struct{}

func (railLine) lines() (name, lacks float32) {
	return theme.TextSize() + 2*theme.InnerPadding(), 2.6*theme.CaptionTextSize() + theme.InnerPadding()
}

func (l railLine) MinSize([]fyne.CanvasObject) fyne.Size {
	name, lacks := l.lines()
	return fyne.NewSize(100, name+lacks)
}

func (l railLine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	name, _ := l.lines()
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(size.Width, name))
	top := name - theme.InnerPadding()
	objects[1].Move(fyne.NewPos(0, top))
	objects[1].Resize(fyne.NewSize(size.Width, size.Height-top))
}

func (w *Window) fillRail(i widget.ListItemID, o fyne.CanvasObject) {
	line := o.(*fyne.Container)
	line.Objects[0].(*widget.Label).SetText(view.Pages[i].Title())
	lacks := line.Objects[1].(*widget.Label)
	wide := lacks.Size().Width
	if wide == 0 { // it is laid out later
		wide = railWidth{}.MinSize(nil).Width - 3*theme.Padding()
	}
	lacks.SetText(clip(w.lacking[view.Pages[i]], wide))
}

// clip keeps a text within the two lines that the rail has for it, as wide as they are, so that it never runs into the next page's.
func clip(s string, wide float32) string {
	letters := []rune(s)
	for n := min(len(letters), 90); n > 0; n-- { // no more than 90 find room
		t := s
		if n < len(letters) {
			t = strings.TrimSpace(string(letters[:n-1])) + "…"
		}
		if linesOf(t, wide) <= 2 {
			return t
		}
	}
	return ""
}

// linesOf tells how many lines the words of a text in small letters take within a width; a word that is wider goes on in the next line.
func linesOf(s string, wide float32) int {
	measure := func(s string) float32 { return fyne.MeasureText(s, theme.CaptionTextSize(), fyne.TextStyle{}).Width }
	wide -= 2*theme.InnerPadding() + 1
	lines, x := 1, float32(0)
	for _, word := range strings.Fields(s) {
		w := measure(word)
		if x > 0 && x+w > wide {
			lines, x = lines+1, 0
		}
		if w > wide {
			letters := []rune(word)
			for n := 1; n < len(letters); n++ { // a line holds whole letters
				if measure(string(letters[:n+1])) > wide {
					letters, lines, n = letters[n:], lines+1, 0
				}
			}
			w = measure(string(letters))
		}
		x += w + measure(" ")
	}
	return lines
}

// goTo shows a page.
func (w *Window) goTo(p view.Page) {
	if w.current == p {
		return
	}
	w.current = p
	if p == view.Start {
		w.left.Hide()
	} else {
		w.left.Show()
	}
	w.win.Content().Refresh() // the page takes the room of the rail
	if p == view.People {
		w.session.CheckScans()
	}
	w.changed()
	w.showPage()
	if i := slices.Index(view.Pages, p); i >= 0 {
		w.rail.Select(i)
	} else {
		w.rail.UnselectAll()
	}
}

func (w *Window) showPage() {
	w.body.Objects = []fyne.CanvasObject{container.NewPadded(w.page(w.current).Object())}
	w.body.Refresh()
}

// changed brings everything on screen up to the session.
func (w *Window) changed() {
	if w.current == "" {
		return
	}
	st := w.session.State()
	if st.Doc != w.doc {
		w.makePages()
		if w.current == view.Start { // there is a plan now
			w.current = ""
			w.goTo(view.Brief)
		}
		w.showPage()
	}
	w.win.SetTitle(view.Title(st))
	w.tellLacking(st)
	w.tellStatus(st)
	w.refreshMenu(st)
	w.page(w.current).Show(st)
}

// tellLacking shows what the pages lack, beside their names. Most of what changes changes none of it, and the rail is left alone.
func (w *Window) tellLacking(st session.State) {
	before := maps.Clone(w.lacking)
	for _, p := range view.Pages {
		w.lacking[p] = view.Lacking(p, st)
	}
	if !maps.Equal(before, w.lacking) {
		w.rail.Refresh()
	}
}

// patience is how long a placing may take before the window says so and offers to stop it.
const patience = 200 * time.Millisecond

// tellStatus shows the line at the foot. A placing that is over soon leaves the line alone, so that it does not flicker.
func (w *Window) tellStatus(st session.State) {
	switch {
	case !st.Results.Busy:
		w.busy = time.Time{}
	case w.busy.IsZero():
		w.busy = time.Now()
		w.alarm = time.AfterFunc(patience, func() { w.post(w.changed) })
		return
	case time.Since(w.busy) < patience:
		return
	}
	if w.current == view.Start && !st.Results.Busy { // it would tell of what nobody has begun
		w.status.SetText("")
	} else {
		w.status.SetText(view.Status(st))
	}
	if st.Results.Busy {
		w.stop.Show()
	} else {
		w.stop.Hide()
	}
}

// async runs work off the UI goroutine and what it returns on it.
func (w *Window) async(work func() func()) {
	w.under.Add(1)
	go func() {
		done := work()
		w.post(func() {
			w.under.Add(-1)
			done()
		})
	}()
}

// asyncOf is async for the pages of a document: what comes when another one is open is dropped, and so is what would follow it.
func (w *Window) asyncOf(doc int) page.Async {
	return func(work func() func()) {
		w.async(func() func() {
			done := work()
			return func() {
				if w.doc == doc {
					done()
				}
			}
		})
	}
}

func (w *Window) writePapers(o page.Order, told func(string), done func(page.Outcome)) (stop func()) {
	if o.Path == "" {
		done(page.Outcome{Err: say.Error("choose a folder first")})
		return func() {}
	}
	ctx, cancel := context.WithCancel(context.Background())
	last := time.Now()
	how := papers.Writing{Overwrite: o.Overwrite, Told: func(n, all int) {
		if time.Since(last) > patience {
			last = time.Now()
			w.post(func() { told(tongue.Say("Writing %d of %d…", n+1, all)) })
		}
	}}
	w.async(func() func() {
		defer cancel()
		wrote, err := o.Shelf.Write(ctx, o.Path, o.Kinds, how)
		if errors.Is(err, context.Canceled) {
			err = say.Error("stopped: nothing was written")
		}
		out := page.Outcome{Words: view.PapersTold(wrote), Exists: errors.Is(err, fs.ErrExist), Err: err}
		if err == nil && wrote.Remember {
			out.Sent = func() { w.rememberPapers(o.Doc, wrote, nil) }
		}
		return func() { done(out) }
	})
	return cancel
}

// rememberPapers has the plan keep what its call sheets and calendars say that were just written, unless another plan has been opened since.
func (w *Window) rememberPapers(doc int, wrote papers.Written, err error) {
	if err == nil && wrote.Remember && w.session.State().Doc == doc {
		w.session.Edit(tongue.Say("remember the papers"), "", wrote.Keep)
	}
}

// writeRelease writes the paper of a release into the folder of the papers.
func (w *Window) writeRelease(id plan.ID, overwrite bool, done func(string, bool, error)) {
	st := w.session.State()
	i := slices.IndexFunc(st.Plan.Releases, func(r plan.Release) bool { return r.ID == id })
	if i < 0 {
		done("", false, say.Error("choose a release first"))
		return
	}
	w.async(func() func() {
		path, err := papers.WriteRelease(papersFolder(st.Path), &st.Plan, st.Plan.Releases[i], st.Results.Chosen.Date, w.now(), overwrite)
		return func() { done(path, errors.Is(err, fs.ErrExist), err) }
	})
}

// writeDrafts writes the mail drafts into the folder of the papers.
func (w *Window) writeDrafts(overwrite bool, done func(words string, exists bool, err error)) {
	st, today := w.session.State(), w.today()
	w.async(func() func() {
		days := st.Results.Shoot.Days
		wrote, err := papers.WriteDrafts(papersFolder(st.Path), &st.Plan, days, papers.Drafts(&st.Plan, days, today), w.now(), overwrite)
		words, exists := view.DraftsTold(wrote.Paths, err)
		return func() {
			w.rememberPapers(st.Doc, wrote, err)
			done(words, exists, err)
		}
	})
}

// papersFolder is the folder proposed for the papers: beside the plan, or at home.
func papersFolder(path string) string {
	if path != "" {
		return filepath.Join(filepath.Dir(path), "papers")
	}
	if home, err := os.UserHomeDir(); err == nil {
		return filepath.Join(home, "papers")
	}
	return ""
}
