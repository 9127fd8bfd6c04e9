package app

import (
	"fmt"
	"slices"

	"eavelight/app/page"
	"eavelight/app/session"
	"eavelight/app/tongue"
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
			w.commit()
			do()
		}
	}
}

// commit takes what is being written in a table.
func (w *Window) commit() {
	if c, ok := w.page(w.current).(page.Committer); ok {
		c.Commit()
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
	copyRow    *fyne.MenuItem
}

func (w *Window) buildMenu() {
	w.menu = menu{} // nothing is left of one in another language
	m := &w.menu
	m.recent = fyne.NewMenuItem(tongue.Say("Open recent"), nil)
	m.recent.ChildMenu = fyne.NewMenu("")
	quit := w.item(tongue.Say("Quit"), fyne.KeyQ, 0, w.Close)
	quit.IsQuit = true
	m.undo = fyne.NewMenuItem(tongue.Say("Undo"), w.unlessAsked(w.undo))
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = fyne.NewMenuItem(tongue.Say("Redo"), w.unlessAsked(w.session.Redo))
	m.redo.Shortcut = &fyne.ShortcutRedo{}
	const shift = fyne.KeyModifierShift
	m.lists = []*fyne.MenuItem{
		w.item(tongue.Say("Add"), fyne.KeyA, shift, w.onList(page.Lister.Add)),
		w.item(tongue.Say("Duplicate"), fyne.KeyD, 0, w.onList(page.Lister.Duplicate)),
		w.item(tongue.Say("Move up"), fyne.KeyUp, shift, w.onList(func(l page.Lister) { l.Shift(-1) })),
		w.item(tongue.Say("Move down"), fyne.KeyDown, shift, w.onList(func(l page.Lister) { l.Shift(1) })),
		w.item(tongue.Say("Delete"), fyne.KeyDelete, shift, w.onList(page.Lister.Delete)),
	}
	m.copyRow = w.item(tongue.Say("Copy row"), fyne.KeyC, shift, func() {
		if c, ok := w.page(w.current).(page.RowCopier); ok {
			c.CopyRow()
		}
	})
	m.find = w.item(tongue.Say("Find…"), fyne.KeyK, 0, w.find)
	for i, p := range view.Pages {
		m.pages = append(m.pages, w.item(p.Title(), fyne.KeyName(fmt.Sprint(i+1)), 0, func() { w.goTo(p) }))
	}
	m.theme = fyne.NewMenuItem("", w.switchTheme)
	file := fyne.NewMenu(tongue.Say("File"),
		w.item(tongue.Say("New"), fyne.KeyN, 0, func() { w.unlessUnsaved(w.fresh) }),
		w.item(tongue.Say("Open…"), fyne.KeyO, 0, func() { w.unlessUnsaved(w.askOpen) }),
		m.recent,
		w.item(tongue.Say("Start page"), "", 0, func() { w.unlessUnsaved(w.startAnew) }),
		fyne.NewMenuItemSeparator(),
		w.item(tongue.Say("Save"), fyne.KeyS, 0, func() { w.save(nil) }),
		w.item(tongue.Say("Save as…"), fyne.KeyS, shift, func() { w.askSaveAs(nil) }),
		fyne.NewMenuItemSeparator(),
		quit,
	)
	edit := fyne.NewMenu(tongue.Say("Edit"), append([]*fyne.MenuItem{m.undo, m.redo, fyne.NewMenuItemSeparator(), m.find, fyne.NewMenuItemSeparator()}, append(slices.Clone(m.lists), m.copyRow,
		fyne.NewMenuItemSeparator(), w.item(tongue.Say("Settings…"), fyne.KeyComma, 0, w.settings))...)...)
	show := fyne.NewMenu(tongue.Say("View"), append(slices.Clone(m.pages), fyne.NewMenuItemSeparator(), m.theme)...)
	help := fyne.NewMenu(tongue.Say("Help"), w.item(tongue.Say("Keyboard"), fyne.KeyF1, 0, w.keyboard), w.item(tongue.Say("About"), "", 0, w.about))
	m.main = fyne.NewMainMenu(file, edit, show, help)
	w.nameTheme()
	w.fillRecent()
	w.win.SetMainMenu(m.main)
}

// undo takes back text that made no sense and was never taken, and only then the last edit.
func (w *Window) undo() {
	if p, ok := w.page(w.current).(page.Reverter); ok && p.Revert() {
		return
	}
	w.session.Undo()
}

// onList sends a menu item to the page shown, if it has a list.
func (w *Window) onList(do func(page.Lister)) func() {
	return func() {
		if l, ok := w.page(w.current).(page.Lister); ok {
			do(l)
		}
	}
}

// refreshMenu names what can be undone and redone. Only a change of words rebuilds the menu.
func (w *Window) refreshMenu(st session.State) {
	undo, redo := tongue.Say("Undo"), tongue.Say("Redo")
	if st.Undo != "" {
		undo = tongue.Say("Undo %s", st.Undo)
	}
	if st.Redo != "" {
		redo = tongue.Say("Redo %s", st.Redo)
	}
	_, hasList := w.page(w.current).(page.Lister)
	_, hasRows := w.page(w.current).(page.RowCopier)
	if w.menu.undo.Label == undo && w.menu.redo.Label == redo && w.menu.lists[0].Disabled == !hasList && w.menu.copyRow.Disabled == !hasRows {
		return
	}
	w.menu.undo.Label, w.menu.undo.Disabled = undo, st.Undo == ""
	w.menu.redo.Label, w.menu.redo.Disabled = redo, st.Redo == ""
	for _, l := range w.menu.lists {
		l.Disabled = !hasList
	}
	w.menu.copyRow.Disabled = !hasRows
	w.menu.main.Refresh()
}
