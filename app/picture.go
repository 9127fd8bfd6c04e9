package app

import (
	"cmp"
	"context"
	"fmt"
	"image"
	"slices"
	"time"

	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// Look is how a picture is to look.
type Look struct {
	Dark     bool
	Text     int    // percent of the usual size; 0 is the usual one
	Language string // by its code; English where there is none
}

// Picture draws a page of the window as it would stand on screen, without a display. It waits until the plan is placed and what
// the page has drawn in the background is there, or the context ends.
func Picture(ctx context.Context, p plan.Plan, page view.Page, size fyne.Size, how Look, now func() time.Time) (image.Image, error) {
	if !slices.Contains(view.Pages, page) {
		return nil, fmt.Errorf("there is no page %q; the pages are %v", page, view.Pages)
	}
	queue := make(chan func(), 100)
	a := test.NewApp()
	if how.Dark {
		a.Preferences().SetString(prefTheme, darkTheme)
	}
	a.Preferences().SetInt(prefText, how.Text)
	a.Preferences().SetString(prefLanguage, cmp.Or(how.Language, "en"))
	w := New(Config{App: a, Post: func(f func()) { queue <- f }, Now: now}) // without an address book
	defer w.session.Close()
	w.session.Fresh(p)
	settle := func() error {
		for ctx.Err() == nil && (w.session.State().Results.Busy || w.under.Load() > 0) {
			select {
			case f := <-queue:
				f()
			case <-ctx.Done():
			}
		}
		return ctx.Err()
	}
	if err := settle(); err != nil {
		return nil, err
	}
	w.goTo(page)
	w.win.Resize(size)
	w.dress()
	if err := settle(); err != nil {
		return nil, err
	}
	return w.win.Canvas().Capture(), nil
}
