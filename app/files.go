package app

import (
	"cmp"
	"eavelight/app/session"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"eavelight/app/page"
	"eavelight/app/tongue"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/store"
	"eavelight/testdata"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Suffix is the ending that a plan's file name gets when the user gives none.
const Suffix = ".eavelight"

// suffixes are the endings of the files that the Open dialog shows.
var suffixes = []string{Suffix, ".yaml", ".yml"}

// What the program remembers from one run to the next. Nothing of a plan is among it but its path.
const (
	prefTheme    = "theme"    // light, dark or system
	prefText     = "text"     // percent
	prefLanguage = "language" // ISO 639; none: the system's
	prefClock    = "clock"    // 12 or 24 hours
	prefLength   = "length"   // m or ft
	prefWeek     = "week"     // the day that it begins on
	prefSize     = "size"     // one text, because Fyne loses one of two numbers that are set at once before it ends
	prefRecent   = "recent"
)

const mostRecent = 8

func (w *Window) savedSize() fyne.Size {
	size := fyne.NewSize(1280, 800)
	var width, height float32
	if n, _ := fmt.Sscanf(w.app.Preferences().String(prefSize), "%gx%g", &width, &height); n == 2 && width > 100 && height > 100 {
		size = fyne.NewSize(width, height)
	}
	return size
}

func (w *Window) open(path string) {
	w.status.SetText(tongue.Say("Opening %s…", filepath.Base(path)))
	w.session.Open(path, func(err error) {
		if err != nil {
			w.forget(path, err)
			w.goToFirst(view.Start)
			w.changed()
			w.complain(tongue.Say("The plan was not opened"), err)
			return
		}
		w.remember(path)
		w.goToFirst(view.Brief)
		w.askLost(path)
	})
}

// goToFirst goes to a page where none was shown yet.
func (w *Window) goToFirst(p view.Page) {
	if w.current == "" {
		w.goTo(p)
	}
}

// dropped gives a file to the page in sight, or else opens it as a plan. What is called like a plan is one.
func (w *Window) dropped(path string) {
	if w.win.Canvas().Overlays().Top() == nil && !w.droppedOnPage(path) { // else a question is open
		w.unlessUnsaved(func() { w.open(path) })
	}
}

func (w *Window) droppedOnPage(path string) bool {
	p, ok := w.page(w.current).(page.Dropper)
	return ok && !slices.Contains(suffixes, strings.ToLower(filepath.Ext(path))) && p.Drop(path)
}

// droppedAll takes files that were dropped together: the page takes all it can, but of plans the first alone is opened.
func (w *Window) droppedAll(files []fyne.URI) {
	w.dropped(files[0].Path())
	for _, f := range files[1:] {
		if w.win.Canvas().Overlays().Top() == nil {
			w.droppedOnPage(f.Path())
		}
	}
}

func (w *Window) fresh() { w.session.Fresh(plan.New()) }

// startAnew goes back to where one begins.
func (w *Window) startAnew() {
	w.fresh()
	w.goTo(view.Start)
}

// openDemo shows the demo as a plan without a file, so that nothing can happen to it.
func (w *Window) openDemo() {
	w.async(func() func() {
		p, err := store.Decode(tongue.Say("the demo"), testdata.Demo)
		return func() {
			if err != nil {
				w.complain(tongue.Say("The demo was not opened"), err)
				return
			}
			w.unlessUnsaved(func() { w.session.Fresh(p) })
		}
	})
}

// save writes the plan, asking for a file name where it has none; then, where the file is safe, it goes on.
func (w *Window) save(then func()) {
	if w.session.State().Path == "" {
		w.askSaveAs(then)
		return
	}
	w.status.SetText(tongue.Say("Saving…"))
	w.session.Save(func(err error) { w.saved(err, then) })
}

func (w *Window) saved(err error, then func()) {
	if errors.Is(err, store.ErrChanged) {
		w.askOverwrite(then)
		return
	}
	w.changed()
	if err != nil {
		w.complain(tongue.Say("The plan was not saved"), err)
		return
	}
	if path := w.session.State().Path; path != "" { // else another document is open by now
		w.remember(path)
		w.status.SetText(tongue.Say("Saved at %s.", tongue.Hour(w.now())))
	}
	if then != nil {
		w.unlessUnsaved(then) // something may have been typed meanwhile
	}
}

// askOverwrite is asked when another program changed the file since it was read.
func (w *Window) askOverwrite(then func()) {
	text := tongue.Say("The file was changed by another program since you opened it. Save over it? What stands there now is kept as the backup.")
	w.question(tongue.Say("The file has changed"), text, fyne.NewSize(560, 180), w.changed,
		answer{tongue.Say("Leave it"), w.changed},
		answer{tongue.Say("Save over it"), func() { w.session.Overwrite(func(err error) { w.saved(err, then) }) }})
}

// answer is what a question can be answered with, and what is done then.
type answer struct {
	words string
	do    func()
}

// question asks one. The last answer is the one proposed; unanswered is done when it is closed without one.
func (w *Window) question(title, text string, size fyne.Size, unanswered func(), answers ...answer) {
	words := widget.NewLabel(text)
	words.Wrapping = fyne.TextWrapWord
	d, do := dialog.NewCustomWithoutButtons(title, words, w.win), unanswered
	var buttons []fyne.CanvasObject
	for i, a := range answers {
		b := widget.NewButton(a.words, func() { do = a.do; d.Hide() })
		if i == len(answers)-1 {
			b.Importance = widget.HighImportance
		}
		buttons = append(buttons, b)
	}
	d.SetOnClosed(func() {
		answered := do
		do = func() {} // Escape may close it once more
		answered()
	})
	d.SetButtons(buttons)
	w.ask(d, size)
}

// unlessUnsaved goes on at once when nothing would be lost, and asks otherwise. A save under way is waited for.
func (w *Window) unlessUnsaved(then func()) { w.session.AfterSaving(func() { w.unlessDirty(then) }) }

func (w *Window) unlessDirty(then func()) {
	st := w.session.State()
	if !st.Dirty {
		then()
		return
	}
	text := tongue.Say("“%s” has changes that are not saved.", cmp.Or(st.Plan.Title, tongue.Say("Untitled plan")))
	stay := func() {}
	w.question(tongue.Say("Save the changes?"), text, fyne.NewSize(420, 160), stay,
		answer{tongue.Say("Go on working"), stay}, answer{tongue.Say("Don't save"), then}, answer{tongue.Say("Save"), func() { w.save(then) }})
}

// contactFiles are the endings of files of contacts.
var contactFiles = []string{".vcf", ".vcard", ".csv", ".tsv", ".txt"}

// picker asks for a file, of one of some endings where there are any.
func (w *Window) picker(endings ...string) func(chosen func(path string)) {
	return func(chosen func(path string)) { w.pick(endings, chosen) }
}

func (w *Window) pick(endings []string, chosen func(path string)) {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		if err != nil {
			w.complain(tongue.Say("The file was not opened"), err)
			return
		}
		if r != nil {
			path := r.URI().Path()
			r.Close()
			chosen(path)
		}
	}, w.win)
	if len(endings) > 0 {
		d.SetFilter(storage.NewExtensionFileFilter(endings))
	}
	w.startIn(d)
	w.ask(d, fyne.NewSize(820, 560))
}

func (w *Window) askOpen() { w.pick(suffixes, w.open) }

func (w *Window) startIn(d *dialog.FileDialog) {
	if dir, err := storage.ListerForURI(storage.NewFileURI(w.folder())); err == nil {
		d.SetLocation(dir)
	}
}

// folder is where the open plan lies, or where the user's things are.
func (w *Window) folder() string {
	if path := w.session.State().Path; path != "" {
		return filepath.Dir(path)
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	return home
}

func (w *Window) browseFolder(chosen func(string)) {
	d := dialog.NewFolderOpen(func(dir fyne.ListableURI, err error) {
		if err == nil && dir != nil {
			chosen(dir.Path())
		}
	}, w.win)
	w.startIn(d)
	w.ask(d, fyne.NewSize(820, 560))
}

// askSaveAs asks where to save the plan.
func (w *Window) askSaveAs(then func()) {
	st := w.session.State()
	name := fileName(st.Plan.Title)
	if st.Path != "" {
		name = filepath.Base(st.Path)
	}
	var left session.LeftBehind // the plan is saved all the same
	write := func(path string, over bool, done func(error)) {
		w.session.SaveAs(path, over, func(err error) {
			if errors.As(err, &left) {
				err = nil
			}
			done(err)
		})
	}
	w.askWhere(tongue.Say("Save the plan as"), name, withSuffix, write, func() {
		if left.Err == nil {
			w.saved(nil, then)
			return
		}
		w.saved(nil, nil) // what follows, such as closing the window, would take away what is told
		w.complain(tongue.Say("The plan is saved, but not all of its pictures came along"), left.Err)
	})
}

// askWhere asks for a folder and a name, whose ending ends adds, and writes there; saved hears when that went well. It is not
// Fyne's own dialog, because that one empties the chosen file before anything is written.
func (w *Window) askWhere(title, proposed string, ends func(name string) string, write func(path string, over bool, done func(error)), saved func()) {
	folder := widget.NewEntry()
	folder.SetText(w.folder())
	name := widget.NewEntry()
	name.SetText(proposed)
	said := widget.NewLabel("")
	said.Wrapping = fyne.TextWrapWord
	said.Importance = widget.DangerImportance
	browse := widget.NewButtonWithIcon("", theme.FolderOpenIcon(), func() { w.browseFolder(folder.SetText) })
	over := widget.NewCheck(tongue.Say("Replace the file that is there"), nil)
	over.Hide()
	form := widget.NewForm(
		widget.NewFormItem(tongue.Say("Folder"), container.NewBorder(nil, nil, nil, browse, folder)),
		widget.NewFormItem(tongue.Say("File name"), name),
	)
	box := container.NewVBox(form, said, over)
	d := dialog.NewCustomWithoutButtons(title, box, w.win)
	save := widget.NewButton(tongue.Say("Save"), func() {
		if strings.TrimSpace(name.Text) == "" {
			said.SetText(tongue.Say("Type a file name."))
			return
		}
		path := filepath.Join(folder.Text, ends(name.Text))
		write(path, over.Checked, func(err error) {
			if errors.Is(err, store.ErrExists) {
				said.SetText(tongue.Say("%s is there already.", filepath.Base(path)))
				over.Show()
				box.Refresh() // else it lies over the folder
				return
			}
			if err != nil {
				said.SetText(tongue.Error(err))
				return
			}
			d.Hide()
			saved()
		})
	})
	save.Importance = widget.HighImportance
	reset := func(string) { // the leave to replace was for another name
		over.SetChecked(false)
		over.Hide()
		said.SetText("")
	}
	name.OnChanged, folder.OnChanged = reset, reset
	name.OnSubmitted = func(string) { save.OnTapped() }
	d.SetButtons([]fyne.CanvasObject{widget.NewButton(tongue.Say("Cancel"), d.Hide), save})
	w.ask(d, fyne.NewSize(620, 280))
	w.win.Canvas().Focus(name)
}

// fileName makes a file name of a plan's title.
func fileName(title string) string { return withSuffix(fileStem(cmp.Or(title, tongue.Say("plan")))) }

// fileStem makes the name of a file, without its ending, that every system takes.
func fileStem(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`<>:"/\|?*`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.TrimSpace(name))
	return cmp.Or(strings.Trim(name, ". "), "plan")
}

func withSuffix(name string) string { return ended(name, suffixes) }

// ended gives a file name the first of some endings, unless it has one of them: a dot in a title is no ending.
func ended(name string, endings []string) string {
	name = strings.TrimSpace(name)
	if !slices.Contains(endings, strings.ToLower(filepath.Ext(name))) {
		name += endings[0]
	}
	return name
}

func (w *Window) recentFiles() []string { return w.app.Preferences().StringList(prefRecent) }

// remember puts a plan at the top of the recent ones, and proposes a folder for its papers.
func (w *Window) remember(path string) {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	list := slices.DeleteFunc(w.recentFiles(), func(p string) bool { return p == path })
	list = append([]string{path}, list...)
	w.app.Preferences().SetStringList(prefRecent, list[:min(len(list), mostRecent)])
	if papers, ok := w.pages[view.Papers].(*page.Papers); ok {
		papers.SetFolder(papersFolder(path))
	}
	w.fillRecent()
}

// forget takes a plan that is no longer there off the recent ones.
func (w *Window) forget(path string, err error) {
	if errors.Is(err, os.ErrNotExist) {
		w.app.Preferences().SetStringList(prefRecent, slices.DeleteFunc(w.recentFiles(), func(p string) bool { return p == path }))
		w.fillRecent()
	}
}

func (w *Window) fillRecent() {
	var items []*fyne.MenuItem
	for _, path := range w.recentFiles() {
		items = append(items, fyne.NewMenuItem(path, func() { w.unlessUnsaved(func() { w.open(path) }) }))
	}
	w.menu.recent.ChildMenu.Items = items
	w.menu.recent.Disabled = len(items) == 0
	w.menu.main.Refresh()
}

// complain shows an error that has no field to stand beside: a file that can't be read may have a line for each fault.
func (w *Window) complain(title string, err error) {
	text := widget.NewLabel(tongue.Error(err))
	text.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustom(title, tongue.Say("Close"), container.NewVScroll(text), w.win)
	w.ask(d, fyne.NewSize(640, 320))
}

// Close asks about unsaved changes, what is being written in a table among them, keeps the window's size, and closes.
func (w *Window) Close() {
	w.commit()
	w.unlessUnsaved(func() {
		size := w.win.Canvas().Size()
		w.app.Preferences().SetString(prefSize, fmt.Sprintf("%gx%g", size.Width, size.Height))
		if w.alarm != nil {
			w.alarm.Stop()
		}
		w.session.Close()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}
