//go:build cgo

package main

import (
	"errors"
	"os"
	"runtime"
	"runtime/debug"

	"eavelight/app"
	"eavelight/plan/contacts"

	"fyne.io/fyne/v2"
	fyneapp "fyne.io/fyne/v2/app"
)

// appID is the program's name among programs: its settings' folder, and its entry in a desktop's menu (FyneApp.toml).
const appID = "eavelight.window"

type openCommand struct {
	Plan string `arg:"" optional:"" help:"The plan to open."`
}

// Run is kong's. It returns when the window is closed.
func (c openCommand) Run(w world) error {
	// The window is drawn through X11, which a Wayland desktop offers under the same name.
	if onX := runtime.GOOS != "windows" && runtime.GOOS != "darwin"; onX && os.Getenv("DISPLAY") == "" {
		return errors.New("there is no display to open a window on; the other commands work without one (eavelight --help)")
	}
	// GLFW calls a window after its first title unless this is set, and a desktop could not tell which program's icon and place in
	// its bar the window is to have (StartupWMClass in assets/desktop).
	os.Setenv("RESOURCE_NAME", appID)
	// All that touches the window comes by fyne.Do (Config.Post). Fyne need not look with every refresh which goroutine it is on, which took
	// a twelfth of the time to the first page.
	fyneapp.SetMetadata(fyne.AppMetadata{ID: appID, Name: "Eavelight", Version: version, Migrations: map[string]bool{"fyneDo": true}})
	// Nearly all that is made until the first frame stays. To collect garbage meanwhile takes a tenth of the time and finds little.
	usual := debug.SetGCPercent(-1)
	a := fyneapp.NewWithID(appID)
	a.Lifecycle().SetOnStarted(func() { debug.SetGCPercent(usual) })
	book, _ := contacts.BookPath() // without one, the page says so
	aside, _ := app.AsideFolder()  // without one, nothing is kept
	win := app.New(app.Config{App: a, Post: fyne.Do, Now: w.now, Book: book, Aside: aside, Version: version})
	if c.Plan != "" {
		win.Open(c.Plan)
	} else {
		win.Start()
	}
	win.Win().ShowAndRun()
	return nil
}
