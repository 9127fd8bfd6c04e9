package page

import (
	"testing"

	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestListShowsWhatIsSelected: whether it was pressed, or found and brought there: what is drawn already is compared with what is drawn now.
func TestListShowsWhatIsSelected(t *testing.T) {
	test.NewTempApp(t)
	rows := []view.Row{{ID: "a", Title: "Ada"}, {ID: "b", Title: "Ben"}, {ID: "c", Title: "Cleo"}}
	l := newListPane("person", "", nil, listOps{}, func() {})
	marked, selected := -1, l.list.OnSelected
	l.list.OnSelected = func(i int) {
		marked = i
		selected(i)
	}
	test.NewTempWindow(t, l.object).Resize(fyne.NewSize(300, 400))
	l.show(rows)
	for i, id := range []plan.ID{"a", "c"} {
		l.list.Select(1) // a press
		if l.selected != "b" || marked != 1 {
			t.Fatalf("%q is selected, the row %d is marked", l.selected, marked)
		}
		l.wanted = id
		if l.show(rows); l.selected != id || marked != 2*i {
			t.Errorf("%q is selected, the row %d is marked", l.selected, marked)
		}
	}
}
