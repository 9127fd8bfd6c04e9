package page

import (
	"strings"
	"testing"

	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestCutLine: the seconds of a deliverable never stand on its name, and the name stays in the line, with the scenes behind it.
func TestCutLine(t *testing.T) {
	test.NewTempApp(t)
	for _, name := range []string{"Hero film", strings.Repeat("A cut for the channel ", 4), strings.Repeat("Unbreakable", 20), strings.Repeat("光の家 ", 60), ""} {
		c := newCutLine(nil)
		c.show(&plan.Plan{}, plan.Deliverable{Name: name}, false)
		for _, wide := range []float32{600, 300, 900} {
			for range 2 { // as high as the first layout found that it must be
				c.object.Resize(fyne.NewSize(wide, c.object.MinSize().Height))
			}
			at := c.give.Position()
			beside, under := at.X >= c.fold.MinSize().Width, at.Y >= c.fold.Size().Height
			if !beside && !under || at.Y+c.give.MinSize().Height > c.object.Size().Height {
				t.Errorf("%q takes %v, the seconds stand at %v", name, c.fold.MinSize(), at)
			}
			if c.fold.MinSize().Width > wide || !strings.HasSuffix(c.fold.Text, ": all scenes") {
				t.Errorf("%v wide: %q takes %v", wide, c.fold.Text, c.fold.MinSize().Width)
			}
			if wide == 900 && c.fold.MinSize().Width < 600 && len(name) > 100 {
				t.Errorf("there is room for more than %q", c.fold.Text)
			}
		}
	}
}
