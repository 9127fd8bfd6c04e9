package app

import (
	"image/png"
	"os"
	"testing"

	"fyne.io/fyne/v2"
)

func TestPictures(t *testing.T) {
	d, b, _ := handDesk(t)
	if os.Getenv("BOARD_DARK") != "" {
		d.switchTheme()
	}
	at := spot(t, b, "3")
	grip(b, at, at.AddXY(-20, 0), at.AddXY(-60, 0))
	release(b, at.AddXY(-60, 0))
	d.settle()
	capture(t, d, "/tmp/board-offer.png")
	b.TypedRune('+')
	b.TypedRune('+')
	at = spot(t, b, "6")
	grip(b, at.AddXY(-130, -60), at.AddXY(-20, 0), at.AddXY(230, 60))
	capture(t, d, "/tmp/board-frame.png")
	release(b, at.AddXY(230, 60))
	d.win.Resize(fyne.NewSize(1440, 900))
	at = spot(t, b, "6")
	grip(b, at, at.AddXY(20, 0), at.AddXY(31, 0))
	capture(t, d, "/tmp/board-group.png")
}

func capture(t *testing.T, d *desk, path string) {
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	png.Encode(f, d.win.Canvas().Capture())
}
