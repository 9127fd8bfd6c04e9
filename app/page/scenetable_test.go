package page

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/app/view"
	"eavelight/plan"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// sheet is the page of the scenes in a window, with a plan that is edited as the session edits it.
type sheet struct {
	*Scenes
	*testing.T
	plan  plan.Plan
	names []string // of the edits
	win   fyne.Window
}

func newSheet(t *testing.T, scenes ...plan.Scene) *sheet {
	t.Helper()
	test.NewTempApp(t)
	d := &sheet{T: t, plan: plan.New()}
	p := &d.plan
	p.Scenes = scenes
	p.Property.Spaces = []plan.Space{{ID: "kitchen", Name: "Kitchen"}, {ID: "pool", Name: "Pool", Kind: plan.Outdoor}, {ID: "deck", Name: "Deck", Kind: plan.Outdoor}}
	p.People = []plan.Person{{ID: "nina", Name: "Nina Valdry"}, {ID: "theo", Name: "Theo Lund"}}
	d.Scenes = NewScenes(func(name, _ string, f func(*plan.Plan)) plan.Problems {
		next := d.plan.Clone()
		f(&next)
		if wrong := plan.Validate(next).At(plan.Wrong); len(wrong) > 0 {
			return wrong
		}
		d.names, d.plan = append(d.names, name), next
		d.Show(session.State{Plan: d.plan})
		return nil
	}, PictureFiles{})
	d.win = test.NewTempWindow(t, d.Object())
	d.win.Resize(fyne.NewSize(1080, 740))
	d.Show(session.State{Plan: d.plan})
	d.table.focus(d.table.grid)
	return d
}

func three() []plan.Scene {
	return []plan.Scene{{ID: "a", Number: "1", Title: "Coffee", Space: "deck", Setup: 10, Shoot: 20, People: []plan.ID{"nina"}},
		{ID: "b", Number: "2A", Title: "Swim", Space: "pool"}, {ID: "c", Number: "7", Title: "Supper", Space: "kitchen"}}
}

// keys sends what is typed to whatever has the focus: names of keys, or else text.
func (d *sheet) keys(keys ...string) {
	d.Helper()
	for _, k := range keys {
		f := d.win.Canvas().Focused()
		if f == nil {
			d.Fatalf("%q goes nowhere: nothing has the focus", k)
		}
		switch name := fyne.KeyName(k); name {
		case fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyReturn, fyne.KeyTab, fyne.KeyEscape, fyne.KeyF2, fyne.KeyDelete, fyne.KeyHome, fyne.KeyEnd:
			f.TypedKey(&fyne.KeyEvent{Name: name})
		case "shift down":
			f.(desktop.Keyable).KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		case "shift up":
			f.(desktop.Keyable).KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
		default:
			for _, r := range k {
				d.win.Canvas().Focused().TypedRune(r) // the first one opens the editor
			}
		}
	}
}

// at is where a point of a cell lies in the grid.
func (d *sheet) at(row, column int) fyne.Position {
	g := d.table.grid
	g.Point(row, column)
	at, size, ok := g.Cell()
	if !ok {
		d.Fatalf("the cell %d, %d is out of sight", row, column)
	}
	return at.AddXY(size.Width/2, size.Height/2)
}

func (d *sheet) wantNames(want ...string) {
	d.Helper()
	if !slices.Equal(d.names, want) {
		d.Errorf("undo would say %q, want %q", d.names, want)
	}
}

// TestTableByKeyboard writes a row from left to right without a mouse.
func TestTableByKeyboard(t *testing.T) {
	d := newSheet(t, three()...)
	d.keys("Down", "Right", "Night swim", "Tab", "de", "Tab", "nina, theo", "Tab", "blue e", "Tab", "15", "Tab", "1:10", "Tab", "9", "Tab", "mu", "Return")
	want := plan.Scene{ID: "b", Number: "2A", Title: "Night swim", Space: "deck", People: []plan.ID{"nina", "theo"}, Wish: plan.Wish{Kind: plan.BlueEvening},
		Setup: 15, Shoot: 70, Seconds: 9, Importance: plan.Must}
	if got := d.plan.Scenes[1]; fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", want) {
		t.Errorf("the row says\n%+v, want\n%+v", got, want)
	}
	d.wantNames("change title", "change space", "change people", "change light wish", "change set-up minutes", "change shooting minutes",
		"change seconds on screen", "change importance")
	if row, column := d.table.grid.Cursor(); row != 2 || column != 8 || d.selected != "c" || d.table.entry.Visible() {
		t.Errorf("Return leads to %d, %d with %q selected", row, column, d.selected)
	}
	d.keys("Home", "F2", "Escape", "Up", "Delete")
	if d.plan.Scenes[1].Number != "" || d.names[len(d.names)-1] != "change number" {
		t.Errorf("Delete leaves the number %q", d.plan.Scenes[1].Number)
	}
	before := len(d.names)
	d.keys("Right", "nonsense", "Escape", "Return", "Return") // given up; and opened, not changed and left
	if len(d.names) != before || d.plan.Scenes[1].Title != "Night swim" {
		t.Errorf("what was given up is an edit: %q, %q", d.names[before:], d.plan.Scenes[1].Title)
	}
}

// TestTableGoesBack: Shift and Tab lead back, and over the beginning of a row to the end of the one before.
func TestTableGoesBack(t *testing.T) {
	d := newSheet(t, three()...)
	d.keys("Down", "Right", "Dip", "shift down", "Tab", "3", "Tab", "shift up", "nice", "Return")
	if s := d.plan.Scenes; s[1].Title != "Dip" || s[1].Number != "3" || s[0].Importance != plan.Nice {
		t.Errorf("going back gives %q, %q and %q", s[1].Title, s[1].Number, s[0].Importance)
	}
}

// TestTableRefuses: what makes no sense, or is refused by the plan, is told in words and stays to be put right.
func TestTableRefuses(t *testing.T) {
	d := newSheet(t, three()...)
	for _, c := range []struct{ column, typed, told string }{
		{"5", "soon", `"soon" is not a whole number of minutes`},
		{"5", "99999", "outside 0 to 2160"},
		{"0", "7", `7`}, // scene c has it
		{"2", "sauna", `no space is called "sauna"; there is Kitchen, Pool or Deck`},
		{"3", "Nina, Bo", `no person is called "Bo"; there is Nina Valdry or Theo Lund`},
		{"4", "golden", `"golden" may be golden morning or golden evening: write more of it`},
		{"8", "very", `no importance is called "very"; there is must, should or nice`},
	} {
		column := int(c.column[0] - '0')
		d.table.grid.Point(0, column)
		d.keys(c.typed, "Return")
		if !d.table.wrong.Visible() || !strings.Contains(d.table.wrong.Text, c.told) {
			t.Errorf("%q is answered with %q", c.typed, d.table.wrong.Text)
		}
		if !d.table.entry.Visible() || d.table.entry.Text != c.typed || d.win.Canvas().Focused() != d.table.entry || len(d.names) > 0 {
			t.Errorf("%q is gone, or was taken: %q", c.typed, d.names)
		}
		d.table.grid.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(200, 100)}})
		if row, now := d.table.grid.Cursor(); row != 0 || now != column || d.table.entry.Text != c.typed {
			t.Errorf("a press elsewhere loses %q", c.typed)
		}
		if !d.Revert() || d.table.wrong.Visible() || d.table.entry.Visible() || d.Revert() {
			t.Error("undo does not give it up, once")
		}
		d.table.focus(d.table.grid)
	}
}

// TestTableLosesNothing: a cell that is left by the mouse, by a button or for the menu is done.
func TestTableLosesNothing(t *testing.T) {
	d := newSheet(t, three()...)
	d.keys("Right", "By mouse")
	d.table.grid.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(90, 100)}})
	if d.plan.Scenes[0].Title != "By mouse" {
		t.Error("a press on another cell loses what was typed")
	}
	d.table.grid.Point(0, 1)
	d.keys("By button")
	d.Duplicate()
	if d.plan.Scenes[0].Title != "By button" || d.plan.Scenes[1].Title != "By button (copy)" || d.selected == "a" {
		t.Errorf("a button loses what was typed, or comes first: %q, %q", d.plan.Scenes[0].Title, d.plan.Scenes[1].Title)
	}
	d.table.focus(d.table.grid)
	d.table.grid.Point(0, 1)
	d.keys("By menu")
	if !d.Commit() || d.plan.Scenes[0].Title != "By menu" || d.table.entry.Visible() {
		t.Error("the menu loses what was typed")
	}
}

// TestTableOffers: where there are words to choose from, Return and a press on the cursor list them.
func TestTableOffers(t *testing.T) {
	d := newSheet(t, three()...)
	p := d.at(0, 2)
	press := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: p}}
	d.table.grid.Point(1, 0)
	d.table.grid.MouseDown(press)
	d.table.grid.MouseUp(press)
	if len(d.win.Canvas().Overlays().List()) != 0 {
		t.Fatal("the first press, which only moves the cursor here, lists something")
	}
	d.table.grid.MouseDown(press)
	d.table.grid.MouseUp(press)
	if _, ok := d.win.Canvas().Focused().(*widget.PopUpMenu); !ok {
		t.Fatalf("a press on the cursor lists nothing: %T", d.win.Canvas().Focused())
	}
	d.keys("Down", "Down", "Return")
	if d.plan.Scenes[0].Space != "pool" {
		t.Errorf("the second of them is the pool, and %q is taken", d.plan.Scenes[0].Space)
	}
	d.keys("Right", "Right", "Return", "Down", "Return")
	if d.plan.Scenes[0].Wish.Kind.Or() != plan.Any || d.win.Canvas().Focused() != d.table.grid {
		t.Errorf("%q is taken, and the focus is on %T", d.plan.Scenes[0].Wish.Kind, d.win.Canvas().Focused())
	}
	d.wantNames("change space")
}

// TestTableDrag moves a row by the mouse, in all of the film and in what a filter leaves of it; Escape leaves it where it was.
func TestTableDrag(t *testing.T) {
	d := newSheet(t, three()...)
	order := func() (out string) {
		for _, s := range d.plan.Scenes {
			out += string(s.ID)
		}
		return out
	}
	drag := func(from, before int, end func()) {
		g := d.table.grid
		start, row := d.at(from, 1), d.at(1, 1).Y-d.at(0, 1).Y
		target := fyne.NewPos(start.X, d.at(0, 1).Y+row*(float32(before)-0.4))
		g.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: start}})
		step := target.Subtract(start)
		g.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: target}, Dragged: fyne.NewDelta(step.X, step.Y)})
		end()
		g.DragEnd()
	}
	nothing := func() {}
	for _, c := range []struct {
		from, before int
		want         string
	}{{0, 3, "bca"}, {2, 0, "abc"}, {1, 0, "bac"}, {0, 2, "abc"}, {1, 1, "abc"}, {1, 2, "abc"}} {
		if drag(c.from, c.before, nothing); order() != c.want {
			t.Fatalf("row %d dragged to before %d: %s, want %s", c.from, c.before, order(), c.want)
		}
	}
	drag(0, 3, func() { d.table.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) })
	if order() != "abc" {
		t.Error("Escape does not give up a drag")
	}
	d.filter.SetText("s") // Swim and Supper; the selected one stays too
	d.Select("c")
	if n := len(d.table.lines); n != 2 || d.left.Text != "2 of 3" {
		t.Fatalf("the filter leaves %d rows and says %q", n, d.left.Text)
	}
	if drag(1, 0, nothing); order() != "acb" {
		t.Errorf("in a filtered table: %s", order())
	}
	if slices.ContainsFunc(d.names, func(n string) bool { return n != "move scene" }) {
		t.Errorf("undo would say %q", d.names)
	}
}

// TestTableFilter: every word counts, in whatever case; a scene that is being worked on does not vanish under the hand.
func TestTableFilter(t *testing.T) {
	d := newSheet(t, three()...)
	for filter, want := range map[string]string{"": "1 2A 7", "SWIM": "1 2A", "nina": "1", "kitchen sup": "1 7", "valdry deck": "1", "2a": "1 2A", "zzz": "1"} {
		d.filter.SetText(filter)
		var got []string
		for _, l := range d.table.lines {
			got = append(got, l.Cells[0])
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q leaves %q, want %q", filter, got, want)
		}
	}
	d.filter.SetText("coffee")
	d.keys("Right", "Tea", "Return")
	if len(d.table.lines) != 1 || d.plan.Scenes[0].Title != "Tea" {
		t.Error("the row under the hand is gone")
	}
	d.Add()
	if len(d.table.lines) != 1 || d.table.lines[0].ID != d.selected || !d.table.lines[0].Faint(1) {
		t.Errorf("a new scene is out of sight: %+v", d.table.lines)
	}
}

func TestRenumber(t *testing.T) {
	d := newSheet(t, three()...)
	tapped := within[*widget.Button](d.bar)
	i := slices.IndexFunc(tapped, func(b *widget.Button) bool { return b.Text == "Renumber" })
	test.Tap(tapped[i])
	if s := d.plan.Scenes; s[0].Number != "1" || s[1].Number != "2" || s[2].Number != "3" {
		t.Errorf("numbers %q, %q, %q", s[0].Number, s[1].Number, s[2].Number)
	}
	d.wantNames("renumber scenes")
}

// TestReadyMade ticks two and adds them in one edit; each is where the house suits it, and the first one is selected.
func TestReadyMade(t *testing.T) {
	d := newSheet(t, three()...)
	d.open(d.ready.object)
	if !d.ready.add.Disabled() {
		t.Error("nothing is ticked, and it can be added")
	}
	for i, r := range d.ready.rows {
		if r.Scene.ID == "pool" || r.Scene.ID == "cooking" {
			d.ready.ticks[i].SetChecked(true)
		}
	}
	if d.ready.add.Text != "Add 2 scenes" {
		t.Errorf("the button says %q", d.ready.add.Text)
	}
	test.Tap(d.ready.add)
	d.wantNames("add 2 scenes")
	if s := d.plan.Scenes; len(s) != 5 || s[3].Space != "pool" || s[4].Space != "kitchen" || s[3].Number != "8" || d.selected != s[3].ID {
		t.Errorf("%+v; %q is selected", s, d.selected)
	}
	if d.ready.object.Visible() || !d.work.Visible() || len(d.ready.chosen()) > 0 {
		t.Error("it stays open, or ticked")
	}
}

// TestTableBothWays lays the form beside the table on a wide window and under it on a small one.
func TestTableBothWays(t *testing.T) {
	d := newSheet(t, three()...)
	place := func() fyne.Position { return fyne.CurrentApp().Driver().AbsolutePositionForObject(d.detail) }
	if p := place(); p.Y < 200 || p.X > 100 {
		t.Errorf("on a small window the form begins at %v", p)
	}
	d.win.Resize(fyne.NewSize(1700, 1000))
	if p := place(); p.Y > 100 || p.X < 700 {
		t.Errorf("on a wide window the form begins at %v", p)
	}
}

// TestPaste: what is on the clipboard is shown before it is added, in one edit, and what is not taken is told.
func TestPaste(t *testing.T) {
	d := newSheet(t, three()...)
	clip := fyne.CurrentApp().Clipboard()
	clip.SetContent("")
	d.table.grid.TypedShortcut(&fyne.ShortcutPaste{})
	if !d.paste.object.Visible() || d.work.Visible() || !d.paste.add.Disabled() || !strings.Contains(d.paste.told.Text, "nothing to paste") {
		t.Errorf("with nothing on the clipboard it says %q", d.paste.told.Text)
	}
	d.Add()
	d.Delete()
	d.Shift(1)
	if len(d.names) > 0 {
		t.Errorf("the menu works on what is out of sight: %q", d.names)
	}
	clip.SetContent("No.\tTitle\tSpace\n7\tTea\tdeck\n8\tMilk\tsauna\n")
	d.paste.read()
	if d.paste.add.Text != "Add 2 scenes" || !d.paste.aside.Visible() || !strings.Contains(d.paste.refused.Text, `Row 2 (Milk): space: no space is called "sauna"`) {
		t.Errorf("%q; refused: %q", d.paste.add.Text, d.paste.refused.Text)
	}
	test.Tap(d.paste.add)
	d.wantNames("add 2 scenes")
	if s := d.plan.Scenes; len(s) != 5 || s[3].Title != "Tea" || s[3].Space != "deck" || s[3].Number != "9" || s[4].Number != "8" || d.selected != s[3].ID {
		t.Errorf("%+v; %q is selected", s, d.selected)
	}
	if d.paste.object.Visible() || !d.work.Visible() {
		t.Error("it stays open")
	}
}

// TestTableCopies: Control and C copy the cell under the cursor, which is pasted in another one; the row goes with its headings, and
// comes back as a scene.
func TestTableCopies(t *testing.T) {
	d := newSheet(t, three()...)
	clip := fyne.CurrentApp().Clipboard()
	d.table.grid.Point(0, 3)
	d.table.grid.TypedShortcut(&fyne.ShortcutCopy{})
	if clip.Content() != "Nina Valdry" {
		t.Errorf("the cell is copied as %q", clip.Content())
	}
	d.table.grid.Point(2, 3)
	d.table.grid.TypedShortcut(&fyne.ShortcutPaste{})
	if p := d.plan.Scenes[2].People; len(p) != 1 || p[0] != "nina" || d.paste.object.Visible() {
		t.Errorf("it is pasted as %q", p)
	}
	d.wantNames("change people")
	d.table.grid.Point(2, 2)
	d.table.grid.TypedShortcut(&fyne.ShortcutPaste{})
	if !strings.Contains(d.table.wrong.Text, `no space is called "Nina Valdry"`) {
		t.Errorf("in a cell where it makes no sense it says %q", d.table.wrong.Text)
	}
	d.table.grid.Point(2, len(d.table.columns))
	d.table.grid.TypedShortcut(&fyne.ShortcutPaste{}) // when it is shot is not typed
	d.wantNames("change people")
	d.CopyRow()
	if want := view.CopyScenes(&d.plan, d.plan.Scenes[2].ID); clip.Content() != want || want == "" {
		t.Errorf("the row is copied as %q", clip.Content())
	}
	d.table.grid.TypedShortcut(&fyne.ShortcutPaste{})
	if !d.paste.object.Visible() || d.paste.add.Text != "Add 1 scene" {
		t.Fatalf("the row is not offered as a scene: %q", d.paste.add.Text)
	}
	was := clip.Content()
	d.CopyRow()
	if clip.Content() != was {
		t.Error("the menu copies what is out of sight")
	}
	test.Tap(d.paste.add)
	if s := d.plan.Scenes; len(s) != 4 || s[3].Title != s[2].Title || len(s[3].People) != 1 {
		t.Errorf("%+v", s)
	}
}

func TestTableCopiesNothing(t *testing.T) {
	d := newSheet(t)
	fyne.CurrentApp().Clipboard().SetContent("kept")
	d.table.grid.TypedShortcut(&fyne.ShortcutCopy{})
	d.CopyRow()
	if got := fyne.CurrentApp().Clipboard().Content(); got != "kept" {
		t.Errorf("the clipboard has %q", got)
	}
}

// five are scenes to mark some of, "a" to "e".
func five() []plan.Scene {
	return append(three(), plan.Scene{ID: "d", Number: "8", Title: "Night"}, plan.Scene{ID: "e", Number: "9", Title: "Dawn"})
}

func (d *sheet) wantMarked(want string) {
	d.Helper()
	var got string
	for _, id := range d.table.marked() {
		got += string(id)
	}
	if got != want {
		d.Errorf("marked are %q, want %q", got, want)
	}
}

func (d *sheet) titles() (out []string) {
	for _, s := range d.plan.Scenes {
		out = append(out, s.Title)
	}
	return out
}

// TestMarkedRows: with Shift, the keys mark several rows. They are copied, duplicated and taken out together, each in one step.
func TestMarkedRows(t *testing.T) {
	d, clip := newSheet(t, five()...), fyne.CurrentApp().Clipboard()
	d.keys("Down", "shift down", "Down", "Down")
	d.wantMarked("bcd")
	if d.selected != "d" {
		t.Errorf("%q is selected", d.selected)
	}
	d.keys("Up")
	d.wantMarked("bc")
	d.table.grid.TypedShortcut(&fyne.ShortcutCopy{})
	rows := view.CopyScenes(&d.plan, "b", "c")
	if clip.Content() != rows || strings.Count(rows, "\n") != 3 {
		t.Errorf("the rows are copied as %q", clip.Content())
	}
	clip.SetContent("")
	d.CopyRow()
	if clip.Content() != rows {
		t.Errorf("the menu copies %q", clip.Content())
	}
	d.Duplicate()
	if got := d.titles(); !slices.Equal(got, []string{"Coffee", "Swim", "Swim (copy)", "Supper", "Supper (copy)", "Night", "Dawn"}) {
		t.Errorf("duplicated: %q", got)
	}
	d.wantNames("duplicate 2 rows")
	if s := d.plan.Scenes; s[2].Number != "10" || s[4].Number != "11" {
		t.Errorf("the copies are numbered %q and %q", s[2].Number, s[4].Number)
	}
	if from, to := d.table.grid.Marked(); from != 4 || to != 5 {
		t.Errorf("after it the rows from %d to %d are marked, not the last copy alone", from, to)
	}
	d.keys("Up", "Up") // Shift is still down
	d.Delete()
	if got := d.titles(); !slices.Equal(got, []string{"Coffee", "Swim", "Night", "Dawn"}) || d.selected != "d" {
		t.Errorf("deleted: %q, and %q is selected", got, d.selected)
	}
	d.wantNames("duplicate 2 rows", "delete 3 rows")
	d.wantMarked("d")
}

// TestTableMarks: the keys and the mouse mark with Shift, and whatever else moves the cursor ends the marking.
func TestTableMarks(t *testing.T) {
	scenes := five()
	d := newSheet(t, append(scenes[:2:2], scenes[3:]...)...) // without "c"
	d.keys("Down", "Down", "shift down", "Up", "Down", "Down", "Down", "Down", "Down", "shift up", "Escape")
	d.wantMarked("e")
	d.keys("Up")
	d.wantMarked("d")
	d.table.grid.Point(0, 1)
	at := d.at(2, 1)
	d.table.grid.Point(0, 1)
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: fyne.KeyModifierShift, PointEvent: fyne.PointEvent{Position: at}}
	d.table.grid.MouseDown(e)
	d.table.grid.MouseUp(e)
	d.wantMarked("abd")
	d.table.grid.MouseDown(e)
	d.table.grid.MouseUp(e)
	if d.wantMarked("abd"); d.table.entry.Visible() {
		t.Error("a second press with Shift opens the editor")
	}
	d.filter.SetText("swim")
	d.wantMarked("d") // the rows are others
	d.filter.SetText("")
	d.keys("Up", "shift down", "Up", "Up", "shift up")
	d.wantMarked("ab")
	e.Modifier = 0
	d.table.grid.MouseDown(e)
	d.wantMarked("d")
	d.Select("a")
	d.keys("shift down", "Down", "Down", "Down")
	d.wantMarked("abde")
	d.Delete()
	if len(d.plan.Scenes) > 0 {
		t.Errorf("all were marked, and %q are left", d.titles())
	}
	d.Delete()
	d.Duplicate()
	d.wantNames("delete 4 rows")
}

// TestTableMarksStayOnTheirScenes: as many rows as before, but others, are not marked in the place of those that were.
func TestTableMarksStayOnTheirScenes(t *testing.T) {
	d := newSheet(t, append(three(), plan.Scene{ID: "d", Number: "8", Title: "Coffee after supper"})...)
	d.Select("a")
	d.filter.SetText("coffee")
	d.win.Canvas().Focus(d.table.grid)
	d.keys("shift down", "Down", "shift up")
	if got := d.table.marked(); !slices.Equal(got, []plan.ID{"a", "d"}) {
		t.Fatalf("marked are %q", got)
	}
	d.Show(session.State{Plan: d.plan})
	if got := d.table.marked(); !slices.Equal(got, []plan.ID{"a", "d"}) {
		t.Errorf("shown again, marked are %q", got)
	}
	d.filter.SetText("supper")
	if got := d.table.marked(); !slices.Equal(got, []plan.ID{"d"}) {
		t.Errorf("of other rows marked are %q", got)
	}
}

// TestSceneForgetsAFaceThatIsGone: its drop-down does not go on naming what was taken out of the house.
func TestSceneForgetsAFaceThatIsGone(t *testing.T) {
	d := newSheet(t, plan.Scene{ID: "a", Wish: plan.Wish{Kind: plan.FaceLit, Face: "south"}})
	d.plan.Property.Faces = []plan.Face{{ID: "north", Name: "Street"}, {ID: "south", Name: "Garden", Bearing: 180}}
	named := func() bool {
		for _, o := range test.LaidOutObjects(d.Object()) {
			if s, ok := o.(*widget.Select); ok && strings.HasPrefix(s.Selected, "Garden") {
				return true
			}
		}
		return false
	}
	d.Show(session.State{Plan: d.plan})
	if !named() {
		t.Fatal("the face is not named")
	}
	d.plan = d.plan.Clone()
	d.plan.RemoveFace(1)
	d.Show(session.State{Plan: d.plan})
	if named() {
		t.Error("a face that is gone is named still")
	}
}
