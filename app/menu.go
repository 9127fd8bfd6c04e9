package app

import (
	"fmt"
	"slices"

	"eavelight/app/page"
	"eavelight/app/session"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Every shortcut stands in the main menu: Fyne offers a key to the menu first, and a focused entry swallows what the menu
// does not know.

func (w *Window) item(label string, key fyne.KeyName, mod fyne.KeyModifier, do func()) *fyne.MenuItem {
	m := fyne.NewMenuItem(label, w.unlessAsked(do))
	if key != "" {
		m.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | mod}
	}
	return m
}

// unlessAsked holds an action back while a question lies over the window: a shortcut would act behind it. What is being written
// in a table is taken first.
func (w *Window) unlessAsked(do func()) func() {
	return func() {
		if w.win.Canvas().Overlays().Top() == nil {
			if c, ok := w.pages[w.current].(page.Committer); ok {
				c.Commit()
			}
			do()
		}
	}
}

// menu keeps the items whose words follow the state.
type menu struct {
	main       *fyne.MainMenu
	undo, redo *fyne.MenuItem
	recent     *fyne.MenuItem
	theme      *fyne.MenuItem
	find       *fyne.MenuItem
	pages      []*fyne.MenuItem
	lists      []*fyne.MenuItem
}

func (w *Window) buildMenu() {
	m := &w.menu
	m.recent = fyne.NewMenuItem("Open recent", nil)
	m.recent.ChildMenu = fyne.NewMenu("")
	quit := w.item("Quit", fyne.KeyQ, 0, w.Close)
	quit.IsQuit = true
	m.undo = fyne.NewMenuItem("Undo", w.unlessAsked(w.undo))
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = fyne.NewMenuItem("Redo", w.unlessAsked(w.session.Redo))
	m.redo.Shortcut = &fyne.ShortcutRedo{}
	const shift = fyne.KeyModifierShift
	m.lists = []*fyne.MenuItem{
		w.item("Add", fyne.KeyA, shift, w.onList(page.Lister.Add)),
		w.item("Duplicate", fyne.KeyD, 0, w.onList(page.Lister.Duplicate)),
		w.item("Move up", fyne.KeyUp, shift, w.onList(func(l page.Lister) { l.Shift(-1) })),
		w.item("Move down", fyne.KeyDown, shift, w.onList(func(l page.Lister) { l.Shift(1) })),
		w.item("Delete", fyne.KeyDelete, shift, w.onList(page.Lister.Delete)),
	}
	m.find = w.item("Find…", fyne.KeyK, 0, w.find)
	for i, p := range view.Pages {
		m.pages = append(m.pages, w.item(p.Title(), fyne.KeyName(fmt.Sprint(i+1)), 0, func() { w.goTo(p) }))
	}
	m.theme = fyne.NewMenuItem("", w.switchTheme)
	file := fyne.NewMenu("File",
		w.item("New", fyne.KeyN, 0, func() { w.unlessUnsaved(w.fresh) }),
		w.item("Open…", fyne.KeyO, 0, func() { w.unlessUnsaved(w.askOpen) }),
		m.recent,
		w.item("Start page", "", 0, func() { w.unlessUnsaved(w.startAnew) }),
		fyne.NewMenuItemSeparator(),
		w.item("Save", fyne.KeyS, 0, func() { w.save(nil) }),
		w.item("Save as…", fyne.KeyS, shift, func() { w.askSaveAs(nil) }),
		fyne.NewMenuItemSeparator(),
		quit,
	)
	edit := fyne.NewMenu("Edit", append([]*fyne.MenuItem{m.undo, m.redo, fyne.NewMenuItemSeparator(), m.find, fyne.NewMenuItemSeparator()}, append(m.lists,
		fyne.NewMenuItemSeparator(), w.item("Settings…", fyne.KeyComma, 0, w.settings))...)...)
	show := fyne.NewMenu("View", append(slices.Clone(m.pages), fyne.NewMenuItemSeparator(), m.theme)...)
	help := fyne.NewMenu("Help", w.item("Keyboard", fyne.KeyF1, 0, w.keyboard), w.item("About", "", 0, w.about))
	m.main = fyne.NewMainMenu(file, edit, show, help)
	w.nameTheme()
	w.fillRecent()
	w.win.SetMainMenu(m.main)
}

// undo takes back text that made no sense and was never taken, and only then the last edit.
func (w *Window) undo() {
	if p, ok := w.pages[w.current].(page.Reverter); ok && p.Revert() {
		return
	}
	w.session.Undo()
}

// onList sends a menu item to the page shown, if it has a list.
func (w *Window) onList(do func(page.Lister)) func() {
	return func() {
		if l, ok := w.pages[w.current].(page.Lister); ok {
			do(l)
		}
	}
}

// refreshMenu names what can be undone and redone. Only a change of words rebuilds the menu.
func (w *Window) refreshMenu(st session.State) {
	undo, redo := named("Undo", st.Undo), named("Redo", st.Redo)
	_, hasList := w.pages[w.current].(page.Lister)
	if w.menu.undo.Label == undo && w.menu.redo.Label == redo && w.menu.lists[0].Disabled == !hasList {
		return
	}
	w.menu.undo.Label, w.menu.undo.Disabled = undo, st.Undo == ""
	w.menu.redo.Label, w.menu.redo.Disabled = redo, st.Redo == ""
	for _, l := range w.menu.lists {
		l.Disabled = !hasList
	}
	w.menu.main.Refresh()
}

func named(verb, edit string) string {
	if edit == "" {
		return verb
	}
	return verb + " " + edit
}
