// The least that a window of Fyne can be, to measure ours against.
package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	w := app.NewWithID("eavelight.least").NewWindow("Least")
	w.SetContent(widget.NewLabel("A window"))
	w.Resize(fyne.NewSize(1280, 800))
	w.ShowAndRun()
}
