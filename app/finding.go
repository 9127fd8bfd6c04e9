package app

import (
	"slices"
	"strings"

	"eavelight/app/page"
	"eavelight/app/tongue"
	"eavelight/app/view"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
)

// find asks for words, and goes to what the user chooses of what has them.
func (w *Window) find() {
	var d *dialog.CustomDialog
	box := page.NewFindBox(slices.Concat(view.Findable(w.session.State()), w.actions()), func(h view.Hit) {
		d.Hide()
		w.goToHit(h)
	}, func() { d.Hide() })
	d = dialog.NewCustom(tongue.Say("Find"), tongue.Say("Close"), box.Object(), w.win)
	w.ask(d, fyne.NewSize(620, 520))
	w.win.Canvas().Focus(box.Entry)
}

func (w *Window) goToHit(h view.Hit) {
	if h.Do != nil {
		h.Do()
		return
	}
	w.goTo(h.Page)
	switch p := w.page(h.Page).(type) {
	case *page.Scenes:
		p.Select(h.ID)
	case *page.Property:
		if h.ID != "" {
			p.Select(h.ID)
		}
	case *page.People:
		switch h.Kind {
		case view.PersonHit:
			p.Select(h.ID)
		case view.ReleaseHit:
			p.SelectRelease(h.ID)
		}
	}
}

// actions are what the menu can do now, but for the pages, which are found as such, and for finding.
func (w *Window) actions() []view.Hit {
	var hits []view.Hit
	for _, m := range w.menu.main.Items {
		for _, i := range m.Items {
			if i.IsSeparator || i.Disabled || i == w.menu.find || slices.Contains(w.menu.pages, i) {
				continue
			}
			if i.ChildMenu == nil {
				hits = append(hits, action(m.Label, i.Label, i))
				continue
			}
			for _, c := range i.ChildMenu.Items {
				hits = append(hits, action(m.Label, i.Label+": "+c.Label, c))
			}
		}
	}
	return hits
}

func action(menu, label string, i *fyne.MenuItem) view.Hit {
	sub := menu
	if keys := keyWords(i.Shortcut); keys != "" {
		sub += " · " + keys
	}
	return view.Hit{Kind: view.ActionHit, Title: strings.TrimSuffix(label, "…"), Sub: sub, Do: i.Action}
}
