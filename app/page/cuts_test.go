package page

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestCutLine: the seconds of a deliverable never stand on its name.
func TestCutLine(t *testing.T) {
	test.NewTempApp(t)
	for _, name := range []string{"Hero film: all scenes", strings.Repeat("A cut for the channel ", 4)} {
		fold, give := widget.NewButton(name, nil), widget.NewLabel("scenes give 36 s of 30 s")
		row := container.New(&cutLine{}, fold, give)
		for range 2 { // as high as the first layout found that it must be
			row.Resize(fyne.NewSize(600, row.MinSize().Height))
		}
		beside, under := give.Position().X >= fold.MinSize().Width, give.Position().Y >= fold.Size().Height
		if !beside && !under || give.Position().Y+give.MinSize().Height > row.Size().Height {
			t.Errorf("%q takes %v, the seconds stand at %v", name, fold.MinSize(), give.Position())
		}
	}
}
