package app

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/app/draw"
	"eavelight/app/page"
	"eavelight/app/view"
	"eavelight/plan"
	"eavelight/plan/papers"
	"eavelight/plan/store"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// desk is a window in the test driver, with a queue in place of the UI goroutine's.
type desk struct {
	*Window
	t     testing.TB
	queue chan func()
}

func newDesk(t testing.TB) *desk {
	t.Helper()
	d := &desk{t: t, queue: make(chan func(), 1000)}
	a := test.NewTempApp(t)
	a.Preferences().SetString(prefLanguage, "en") // whatever this computer speaks
	now := func() time.Time { return time.Date(2027, 9, 30, 18, 0, 0, 0, time.UTC) }
	d.Window = New(Config{App: a, Post: func(f func()) { d.queue <- f }, Now: now, Book: filepath.Join(t.TempDir(), "book", "people.vcf"), Aside: filepath.Join(t.TempDir(), "unsaved")})
	d.goTo(view.Brief)
	d.win.Resize(fyne.NewSize(1280, 800))
	t.Cleanup(d.session.Close)
	d.settle()
	return d
}

// settle runs what the background brings until nothing is under way.
func (d *desk) settle() {
	d.t.Helper()
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); {
		select {
		case f := <-d.queue:
			f()
		case <-time.After(300 * time.Millisecond):
			if d.session.Idle() && d.under.Load() == 0 {
				return
			}
		}
	}
	d.t.Fatal("the background does not come to rest")
}

// until runs what the background brings until something is so.
func (d *desk) until(what string, so func() bool) {
	d.t.Helper()
	for deadline := time.After(time.Minute); !so(); {
		select {
		case f := <-d.queue:
			f()
		case <-deadline:
			d.t.Fatalf("it never comes about that %s", what)
		}
	}
}

func (d *desk) plan() plan.Plan { return d.session.State().Plan }

func demoCopy(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("../testdata/tarn-ledge.eavelight")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "demo.eavelight")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func openDemo(t testing.TB) (*desk, string) {
	t.Helper()
	d, path := newDesk(t), demoCopy(t)
	d.Open(path)
	d.settle()
	if d.plan().Title == "" {
		t.Fatal("the demo was not opened")
	}
	return d, path
}

// walk visits every object that can be seen, in the window and in what lies over it.
func (d *desk) walk(visit func(fyne.CanvasObject)) {
	var into func(fyne.CanvasObject)
	into = func(o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		visit(o)
		switch v := o.(type) {
		case *fyne.Container:
			for _, c := range v.Objects {
				into(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(v).Objects() {
				into(c)
			}
		}
	}
	into(d.win.Content())
	for _, over := range d.win.Canvas().Overlays().List() {
		into(over)
	}
}

// seen finds the visible objects of a kind that fit.
func seen[T fyne.CanvasObject](d *desk, fits func(T) bool) []T {
	var out []T
	d.walk(func(o fyne.CanvasObject) {
		if v, ok := o.(T); ok && fits(v) {
			out = append(out, v)
		}
	})
	return out
}

// entry finds the entry that says a hint while it is empty; it may be extended by a type of the page's own.
func (d *desk) entry(hint string) *widget.Entry {
	d.t.Helper()
	for _, o := range seen(d, func(fyne.CanvasObject) bool { return true }) {
		e, ok := o.(*widget.Entry)
		if v := reflect.ValueOf(o); !ok && v.Kind() == reflect.Pointer && v.Elem().Kind() == reflect.Struct {
			if f := v.Elem().FieldByName("Entry"); f.IsValid() && f.CanAddr() {
				e, _ = f.Addr().Interface().(*widget.Entry)
			}
		}
		if e != nil && e.PlaceHolder == hint {
			return e
		}
	}
	d.t.Fatalf("no entry with the hint %q is to be seen", hint)
	return nil
}

func (d *desk) says(words string) bool {
	return len(seen(d, func(l *widget.Label) bool { return strings.Contains(l.Text, words) })) > 0 ||
		len(seen(d, func(l *draw.Lead) bool { return strings.Contains(l.Data().Text, words) })) > 0 ||
		len(seen(d, func(s *draw.Said) bool { return strings.Contains(s.Text(), words) })) > 0
}

// check finds a tick by its words, which stand in a label beside it where they need several lines.
func (d *desk) check(text string) *widget.Check {
	d.t.Helper()
	var found *widget.Check
	d.walk(func(o fyne.CanvasObject) {
		if c, ok := o.(*widget.Check); ok && c.Text == text {
			found = c
		}
		if box, ok := o.(*fyne.Container); ok && len(box.Objects) == 2 {
			c, isTick := box.Objects[0].(*widget.Check)
			if l, ok := box.Objects[1].(*widget.Label); ok && isTick && l.Text == text {
				found = c
			}
		}
	})
	if found == nil {
		d.t.Fatalf("no tick says %q", text)
	}
	return found
}

func (d *desk) press(text string) {
	d.t.Helper()
	found := seen(d, func(b *widget.Button) bool { return b.Text == text })
	if len(found) == 0 {
		d.t.Fatalf("no button %q is to be seen", text)
	}
	test.Tap(found[len(found)-1])
}

func (d *desk) menuItem(label string) *fyne.MenuItem {
	d.t.Helper()
	for _, m := range d.menu.main.Items {
		for _, i := range m.Items {
			if i.Label == label {
				return i
			}
		}
	}
	d.t.Fatalf("the menu has no %q", label)
	return nil
}

// TestWalk is the walk of the first issue: open, add a scene, give it a wish, see the day change, save, open again.
func TestWalk(t *testing.T) {
	d, path := openDemo(t)
	before := d.session.State().Results.Chosen
	d.menuItem("Scenes").Action()
	d.press("Add scene")
	title := d.entry("Coffee in the first sun")
	title.SetText("")
	test.Type(title, "Moths round the lamp")
	wish := seen(d, func(s *widget.Select) bool { return slices.Contains(s.Options, string(plan.Dark)) })
	if len(wish) != 1 {
		t.Fatalf("%d drop-downs offer a dark wish", len(wish))
	}
	wish[0].SetSelected(string(plan.Dark))
	d.settle()
	after := d.session.State().Results.Chosen
	i := slices.IndexFunc(d.plan().Scenes, func(s plan.Scene) bool { return s.Title == "Moths round the lamp" })
	if i < 0 || d.plan().Scenes[i].Wish.Kind != plan.Dark {
		t.Fatalf("the scene is not in the plan: %+v", d.plan().Scenes)
	}
	id := d.plan().Scenes[i].ID
	if len(after.Scenes) != len(before.Scenes)+1 || after.Windows[id] == nil {
		t.Errorf("%d scenes on the day, %d before", len(after.Scenes), len(before.Scenes))
	}
	d.menuItem("Save").Action()
	d.settle()
	if d.session.State().Dirty {
		t.Error("still marked as unsaved")
	}
	p, _, err := store.Read(path)
	if err != nil {
		t.Fatal(err)
	}
	if s, ok := p.Scene(id); !ok || s.Title != "Moths round the lamp" {
		t.Error("the scene is not in the file")
	}
}

// TestTypingKeepsTheCursor: an edit comes back through the session while one types; the text under the cursor stays.
func TestTypingKeepsTheCursor(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	e := d.entry("what the film is called")
	e.SetText("")
	test.Type(e, "Tarn")
	if e.Text != "Tarn" || e.CursorColumn != 4 || d.plan().Title != "Tarn" {
		t.Errorf("typed %q, cursor %d, plan %q", e.Text, e.CursorColumn, d.plan().Title)
	}
	d.session.Undo()
	if e.Text != d.plan().Title {
		t.Errorf("after undo the entry says %q, the plan %q", e.Text, d.plan().Title)
	}
}

func TestNonsenseIsToldBesideTheField(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	before := d.plan().Scenes[0].Setup
	e := d.entry("15")
	e.SetText("soon")
	if !d.says(`"soon" is not a whole number`) || d.plan().Scenes[0].Setup != before {
		t.Error("nonsense in a field of minutes is not told, or was taken")
	}
	e.SetText("99999")
	if !d.says("outside 0 to") || d.plan().Scenes[0].Setup != before {
		t.Error("minutes out of range are not told, or were taken")
	}
	e.SetText("25")
	if d.says("outside 0 to") || d.plan().Scenes[0].Setup != 25 {
		t.Error("the complaint stays, or good minutes were not taken")
	}
}

func TestListEditsAndUndo(t *testing.T) {
	for _, v := range []view.Page{view.Scenes, view.People, view.Property} {
		d, _ := openDemo(t)
		d.goTo(v)
		l := d.page(v).(page.Lister)
		start := d.plan()
		l.Add()
		l.Duplicate()
		l.Shift(-1)
		l.Shift(1)
		l.Delete()
		l.Delete()
		l.Delete()
		d.settle()
		if d.session.State().Undo == "" || !d.session.State().Dirty {
			t.Errorf("%s: nothing was edited", v)
		}
		for d.session.State().Undo != "" {
			d.menuItem(d.menu.undo.Label).Action()
		}
		d.settle()
		if got, _ := store.Encode(d.plan()); string(got) != string(must(store.Encode(start))) || d.session.State().Dirty {
			t.Errorf("%s: undoing everything does not give the plan as it was", v)
		}
	}
}

func must(data []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return data
}

// TestEveryPageShowsAnything shows each page on an empty plan, on the demo, and on one of long names, light and dark.
func TestEveryPageShowsAnything(t *testing.T) {
	d, _ := openDemo(t)
	long := d.plan().Clone()
	for i := range long.Scenes {
		long.Scenes[i].Title = strings.Repeat("Åßæ ", 60)
	}
	for i := range long.People {
		long.People[i].Name = strings.Repeat("Wölfeschlegel", 15)
	}
	for _, p := range []plan.Plan{plan.New(), d.plan(), long} {
		d.session.Fresh(p)
		d.settle()
		for range 2 {
			for _, v := range view.Pages {
				d.goTo(v)
				if got := d.win.Canvas().Capture().Bounds(); got.Dx() != 1280 || got.Dy() != 800 {
					t.Errorf("%s does not fit 1280x800: %v", v, got)
				}
			}
			d.switchTheme()
		}
	}
}

// TestScenesFilterIsOneLine: the field that looks for scenes is as high as one line, in a row with the buttons where there is room.
func TestScenesFilterIsOneLine(t *testing.T) {
	d, _ := openDemo(t)
	d.goTo(view.Scenes)
	d.settle()
	field := d.entry("only scenes with…")
	add := seen(d, func(b *widget.Button) bool { return b.Text == "Add scene" })[0]
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject
	if field.Size().Height > 1.5*add.Size().Height || at(field).Y > at(add).Y+add.Size().Height/2 || field.Size().Width < 300 {
		t.Errorf("it is %v at %v beside a button of %v at %v", field.Size(), at(field), add.Size(), at(add))
	}
}

// TestRailKeepsItsLines: whatever stands under a page's name in the rail takes the room of two lines, and as much of it as they hold.
func TestRailKeepsItsLines(t *testing.T) {
	d, _ := openDemo(t)
	for _, client := range []string{"Hohenlohe-Öhringen, Papadimitrakopoulos, Featherstonehaugh & Company",
		"Wölfeschlegelsteinhausenbergerdorff Smith-1 has no rate, so their hours cost nothing here"} {
		long := d.plan().Clone()
		long.Brief.Client = client
		d.session.Fresh(long)
		d.settle()
		lines := seen(d, func(l *widget.Label) bool { return strings.HasPrefix(l.Text, client[:9]) })
		if len(lines) != 1 {
			t.Fatalf("%d lines name the client", len(lines))
		}
		if l := lines[0]; l.MinSize().Height > l.Size().Height+theme.InnerPadding() || !strings.HasSuffix(l.Text, "…") {
			t.Errorf("%q needs %v and has %v", l.Text, l.MinSize(), l.Size())
		}
	}
}

// TestEmptyPlanSaysWhatComesFirst: without a day its page is a list of what it lacks, each leading there, and without a rate card the
// page of the price has one button that matters.
func TestEmptyPlanSaysWhatComesFirst(t *testing.T) {
	d, path := openDemo(t)
	why := func() bool { return len(seen(d, func(b *widget.Button) bool { return b.Text == "Why this day" })) > 0 }
	board := func() bool { return len(seen(d, func(*draw.Board) bool { return true })) > 0 }
	d.goTo(view.Day)
	if !why() || !board() || d.says("No day is placed yet.") {
		t.Error("a placed day is not shown")
	}
	d.press("Why this day")
	d.settle()
	d.session.Edit("take the dates out", "", func(p *plan.Plan) { p.Shooting.Dates = nil })
	d.settle()
	if why() || !d.says("No date is proposed.") {
		t.Error("a day that is no more is still told")
	}
	d.session.Fresh(plan.New())
	d.settle()
	if why() || board() || !d.says("No day is placed yet.") {
		t.Error("there is a board without a day")
	}
	var words []string
	for _, l := range seen(d, func(*draw.Lead) bool { return true }) {
		words = append(words, l.Data().Text)
	}
	d.session.Edit("work longer", "", func(p *plan.Plan) { p.Shooting.Longest = 600 })
	if why() || board() {
		t.Error("while the next placing is under way there is a board without a day")
	}
	d.settle()
	if want := []string{"The position is not set, so the light can't be computed.", "The time zone is not set.", "No face of the house is described.",
		"No space is described.", "There is no scene yet.", "No date is proposed."}; !slices.Equal(words, want) {
		t.Errorf("it lacks %q", words)
	}
	d.goTo(view.Price)
	if main := seen(d, func(b *widget.Button) bool { return b.Importance == widget.HighImportance }); len(main) != 1 || main[0].Text != "Take the starter card" {
		t.Errorf("%d buttons matter most", len(main))
	}
	d.Open(path)
	d.settle()
	d.goTo(view.Day)
	if !why() || !board() {
		t.Error("the day of another plan is not shown")
	}
	d.goTo(view.Price)
	d.press("Rate card")
	if main := seen(d, func(b *widget.Button) bool { return b.Importance == widget.HighImportance }); len(main) > 0 {
		t.Errorf("%q matters most where there is a card", main[0].Text)
	}
}

func TestUnsavedQuestion(t *testing.T) {
	d, path := openDemo(t)
	d.menuItem("Brief").Action()
	d.entry("what the film is called").SetText("Changed")
	d.menuItem("New").Action()
	if !d.says("not saved") || d.plan().Title != "Changed" {
		t.Fatal("a new plan drops the changes unasked")
	}
	d.press("Go on working")
	if d.plan().Title != "Changed" || d.says("not saved") {
		t.Fatal("going on working does not go on")
	}
	d.menuItem("New").Action()
	d.press("Save")
	d.settle()
	if p, _, err := store.Read(path); err != nil || p.Title != "Changed" || d.plan().Title != "" {
		t.Errorf("saved %q, %v; the window shows %q", p.Title, err, d.plan().Title)
	}
}

// TestAnsweredQuestionIsOver: Escape closes what was asked last, but does not answer it once more.
func TestAnsweredQuestionIsOver(t *testing.T) {
	d, _ := openDemo(t)
	d.entry("what the film is called").SetText("Changed")
	d.menuItem("New").Action()
	d.press("Don't save")
	d.settle()
	d.goTo(view.Brief)
	d.entry("what the film is called").SetText("The next film")
	d.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.settle()
	if got := d.plan().Title; got != "The next film" {
		t.Errorf("the new plan went as the old one did: the title is %q", got)
	}
}

func TestFileChangedElsewhereIsAsked(t *testing.T) {
	d, path := openDemo(t)
	d.menuItem("Brief").Action()
	d.entry("what the film is called").SetText("Mine")
	if err := os.WriteFile(path, []byte("eavelight: 1\ntitle: Theirs\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.menuItem("Save").Action()
	d.settle()
	if !d.says("changed by another program") {
		t.Fatal("a changed file is not told")
	}
	d.asking.Hide() // closed without an answer
	if d.status.Text == "Saving…" {
		t.Error("it seems to be saving still")
	}
	d.menuItem("Save").Action()
	d.settle()
	d.press("Leave it")
	if p, _, _ := store.Read(path); p.Title != "Theirs" {
		t.Error("the file was written over")
	}
	d.menuItem("Save").Action()
	d.settle()
	d.press("Save over it")
	d.settle()
	if p, _, _ := store.Read(path); p.Title != "Mine" {
		t.Error("the file was not written over when asked")
	}
}

func TestBadFileIsTold(t *testing.T) {
	d := newDesk(t)
	path := filepath.Join(t.TempDir(), "bad.eavelight")
	if err := os.WriteFile(path, []byte("eavelight: 1\ntitel: x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.Open(path)
	d.settle()
	if !d.says(`did you mean "title"`) {
		t.Error("the slip in the file is not told in the window")
	}
}

func TestRecentFiles(t *testing.T) {
	d, path := openDemo(t)
	if got := d.recentFiles(); len(got) != 1 || got[0] != path {
		t.Fatalf("recent files: %v", got)
	}
	d.session.Fresh(plan.New())
	d.settle()
	d.menu.recent.ChildMenu.Items[0].Action()
	d.settle()
	if d.session.State().Path != path {
		t.Error("a recent file does not open")
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	d.session.Fresh(plan.New())
	d.open(path)
	d.settle()
	if len(d.recentFiles()) != 0 {
		t.Error("a file that is gone stays among the recent ones")
	}
}

func TestSaveAsAddsTheSuffixAndAsksBeforeReplacing(t *testing.T) {
	d := newDesk(t)
	dir := t.TempDir()
	d.menuItem("Save as…").Action()
	entries := seen(d, func(e *widget.Entry) bool { return e.Text == "plan"+Suffix })
	folders := seen(d, func(e *widget.Entry) bool { return e.Text == d.folder() })
	if len(entries) != 1 || len(folders) != 1 {
		t.Fatalf("%d names, %d folders proposed", len(entries), len(folders))
	}
	if err := os.WriteFile(filepath.Join(dir, "mine"+Suffix), []byte("eavelight: 1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	folders[0].SetText(dir)
	entries[0].SetText("mine")
	d.press("Save")
	d.settle()
	if !d.says("is there already") {
		t.Fatal("a file of that name is not told")
	}
	replace := seen(d, func(c *widget.Check) bool { return strings.HasPrefix(c.Text, "Replace") })[0]
	if replace.Position().Y == 0 {
		t.Error("the leave to replace it lies over the folder")
	}
	replace.SetChecked(true)
	entries[0].SetText("another")
	if replace.Checked {
		t.Error("the leave to replace one file is kept for another")
	}
	entries[0].SetText("mine")
	d.press("Save")
	d.settle()
	replace.SetChecked(true)
	d.press("Save")
	d.settle()
	if got := d.session.State().Path; got != filepath.Join(dir, "mine"+Suffix) {
		t.Errorf("saved to %q", got)
	}
}

func TestWritePapersFromThePage(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Papers").Action()
	d.settle()
	dir := filepath.Join(t.TempDir(), "papers")
	d.entry("the folder to write into").SetText(dir)
	written := func() bool { return d.says("Written: ") }
	p := d.plan()
	count := len(papers.NewSet(papers.Job{Plan: &p, Days: d.session.State().Results.Shoot.Days, Made: d.Window.now()}).Papers)
	press := fmt.Sprintf("Write %d papers", count)
	d.press(press)
	d.until("the papers are written", written)
	if files, _ := filepath.Glob(filepath.Join(dir, "call-sheet-*.pdf")); len(files) != 1 {
		t.Fatalf("written: %v", files)
	}
	called := d.session.State().Results.Chosen.People
	if files, _ := filepath.Glob(filepath.Join(dir, "people", "calendar-*.ics")); len(files) < len(called) {
		t.Fatalf("calendars: %v", files)
	}
	if sent := d.plan().Papers; sent.Calendar.Key != "" || len(sent.Sheets) > 0 {
		t.Errorf("nothing is sent, and the plan remembers %+v", sent)
	}
	d.press("I have sent these")
	if sent := d.plan().Papers.Calendar; len(sent.Events) != 1+len(called) || len(d.plan().Papers.Sheets) != 1 || d.session.State().Undo != "remember the papers" {
		t.Errorf("the plan remembers %+v", sent)
	}
	d.settle()
	d.press(press)
	d.until("the page asks before it replaces", func() bool { return d.says("already there") })
	d.press("Replace them")
	d.until("the papers are replaced", written)
	d.press("I have sent these")
	if sent := d.plan().Papers.Calendar; slices.ContainsFunc(sent.Events, func(e plan.Event) bool { return e.Sequence != 0 }) {
		t.Errorf("nothing has changed: %+v", sent)
	}
	if sent := d.plan().Papers.Sheets; len(sent) != 1 || sent[0].Revision != 1 {
		t.Errorf("nothing has changed: %+v", sent)
	}
}

// TestPapersOfAnotherPlan: what was written of one plan is not remembered by the one that was opened meanwhile.
func TestPapersOfAnotherPlan(t *testing.T) {
	d, _ := openDemo(t)
	st := d.session.State()
	wrote, err := papers.NewSet(papers.Job{Plan: &st.Plan, Days: st.Results.Shoot.Days, Made: d.Window.now()}).Write(t.Context(), t.TempDir(), papers.Writing{})
	if err != nil {
		t.Fatal(err)
	}
	d.session.Fresh(plan.New())
	d.rememberPapers(st.Doc, wrote, nil)
	if sent := d.plan().Papers; sent.Calendar.Key != "" || len(sent.Sheets) > 0 {
		t.Errorf("the new plan remembers %+v", sent)
	}
}

func TestFindThePosition(t *testing.T) {
	d := newDesk(t)
	d.menuItem("Property").Action()
	e := d.entry("a town, ZIP, 39.23 -120.91, map link…")
	e.SetText("geo:64.1466,-21.9426")
	e.OnSubmitted(e.Text)
	d.until("the position is set", func() bool { return d.plan().Property.Position != nil })
	if p := d.plan().Property; p.Position.Lat != 64.1466 || p.Zone != "Atlantic/Reykjavik" {
		t.Errorf("position %v, zone %q", p.Position, p.Zone)
	}
	e.SetText("nowhere at all, really")
	e.OnSubmitted(e.Text)
	d.until("a place that is not found is told", func() bool { return d.says("is known here") })
}

func TestChooseTheDate(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	day := d.page(view.Day).(*page.Day)
	day.ChooseDate("2027-10-23")
	d.settle()
	if got := d.session.State().Results.Chosen.Date.String(); got != "2027-10-23" {
		t.Errorf("the day shown is %s", got)
	}
	day.ChooseDate("2027-10-23")
	d.settle()
	if st := d.session.State(); !st.Plan.Shooting.Date.IsZero() || st.Results.Chosen.Date.String() != "2027-10-16" {
		t.Errorf("pressed once more, the best date does not win: %s", st.Results.Chosen.Date)
	}
}

// TestStopALongPlacing: a plan of many scenes without light windows keeps the solver busy; the window says so and stops it.
func TestStopALongPlacing(t *testing.T) {
	d, _ := openDemo(t)
	d.session.Edit("fill", "", func(p *plan.Plan) {
		for i := range 30 {
			at := p.AddScene(len(p.Scenes))
			p.Scenes[at].People = []plan.ID{p.People[i%4].ID, p.People[(i+1)%4].ID}
			p.Scenes[at].Shoot = plan.Minutes(5 + i%7)
		}
	})
	d.until("the window offers to stop", func() bool { return d.stop.Visible() || !d.session.State().Results.Busy })
	if !d.session.State().Results.Busy {
		t.Skip("this machine places 44 scenes on three dates before the window would say so")
	}
	d.press("Stop")
	d.until("it is stopped", func() bool { return !d.session.State().Results.Busy })
	if st := d.session.State(); !st.Results.Stopped || len(st.Results.Chosen.Scenes) == 0 || d.stop.Visible() {
		t.Errorf("stopped %v, %d scenes placed", st.Results.Stopped, len(st.Results.Chosen.Scenes))
	}
}

// TestSliderMovesTheLight: the arrow keys on the time slider of the Property page change what is said of the sun in the
// selected space.
func TestSliderMovesTheLight(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Property").Action()
	slider := seen(d, func(*draw.TimeSlider) bool { return true })[0]
	if !d.says("At 10:00 the sun falls on the floor") {
		t.Fatal("the sun in the kitchen at ten is not told")
	}
	slider.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if !d.says("At 10:05 the sun falls on the floor") || d.says("At 10:00 the sun") {
		t.Error("five minutes later the text is still that of ten")
	}
}

// TestYearProposesADate: the year is drawn for a scene, and a date chosen in it becomes a candidate that is placed too.
func TestYearProposesADate(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	d.press("Year")
	maps := seen(d, func(*draw.YearMap) bool { return true })
	if len(maps) != 1 {
		t.Fatalf("%d year maps", len(maps))
	}
	want := plan.Date{Year: 2027, Month: time.January, Day: 2}
	proposed := func() bool { return slices.Contains(d.plan().Shooting.Dates, want) }
	d.until("the second of January is placed", func() bool {
		if !proposed() { // the keys do nothing until the year is there
			for _, key := range []fyne.KeyName{fyne.KeyHome, fyne.KeyRight, fyne.KeyReturn} {
				maps[0].TypedKey(&fyne.KeyEvent{Name: key})
			}
		}
		return proposed() && len(d.session.State().Results.Days) == 4
	})
}

// TestWeatherIsTyped: a line of expected weather takes the light it speaks of, and calls for the cover scene.
func TestWeatherIsTyped(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Day").Action()
	d.press("Dates and rules")
	e := d.entry("type or paste, a line each:\n06:00-11:00 cloud 70 rain 20")
	e.SetText("2027-10-16 05:00-09:00 clout 90")
	if !d.says("is not understood") {
		t.Error("a line that makes no sense is not told")
	}
	e.SetText("2027-10-16 05:00-09:00 cloud 90")
	d.until("the day calls for the cover scene", func() bool {
		return d.says("Scene 2 wants the sun itself, and 90% cloud is expected; its cover is scene 5.")
	})
}

// TestShortcutsWaitBehindAQuestion: while a question lies over the window, menu actions do nothing behind it.
func TestShortcutsWaitBehindAQuestion(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	d.entry("what the film is called").SetText("Changed")
	d.menuItem("New").Action()
	d.menuItem("Day").Action()
	d.menuItem("New").Action()
	if d.current != view.Brief || len(d.win.Canvas().Overlays().List()) != 1 {
		t.Errorf("on page %s, %d things lie over it", d.current, len(d.win.Canvas().Overlays().List()))
	}
	d.asking.Hide() // what Escape does
	if len(d.win.Canvas().Overlays().List()) != 0 || d.plan().Title != "Changed" {
		t.Error("the question stays, or was answered")
	}
}

// TestUndoTakesBackNonsenseFirst: text that was never taken is put right before an edit is undone.
func TestUndoTakesBackNonsenseFirst(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	d.entry("what the film is called").SetText("Changed")
	due := d.entry("2027-11-12 or 12 Nov 2027")
	due.SetText("2027-11-12x")
	d.undo()
	if due.Text != "2027-11-12" || d.plan().Title != "Changed" || d.says("2027-11-12x") {
		t.Errorf("the field says %q, the title is %q", due.Text, d.plan().Title)
	}
	d.undo()
	if d.plan().Title == "Changed" {
		t.Error("then the edit is not undone")
	}
}

// TestAddPutsTheCursorInTheName: one can type the title of a new scene at once, and Tab leaves a field of many lines.
func TestAddPutsTheCursorInTheName(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	d.menuItem("Add").Action()
	e, ok := d.win.Canvas().Focused().(*widget.Entry)
	if !ok || e.PlaceHolder != "Coffee in the first sun" {
		t.Errorf("the cursor is in %v", d.win.Canvas().Focused())
	}
	d.walk(func(o fyne.CanvasObject) {
		if tab, ok := o.(fyne.Tabbable); ok && tab.AcceptsTab() {
			t.Errorf("%T keeps the Tab key", o)
		}
	})
}

// TestWindowSizeIsKept: the size at closing is the size at the next opening.
func TestWindowSizeIsKept(t *testing.T) {
	d := newDesk(t)
	d.win.Resize(fyne.NewSize(1110, 690))
	want := d.win.Canvas().Size()
	d.app.Preferences().SetString(prefSize, fmt.Sprintf("%gx%g", want.Width, want.Height))
	if got := d.savedSize(); got != want {
		t.Errorf("%v is kept as %v", want, got)
	}
	d.app.Preferences().SetString(prefSize, "nonsense")
	if got := d.savedSize(); got != fyne.NewSize(1280, 800) {
		t.Errorf("nonsense is read as %v", got)
	}
}

// TestTypingInARowThatUndoTookAway: the cursor may stand in a row that is no longer in the plan.
func TestTypingInARowThatUndoTookAway(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	d.press("Add deliverable")
	rows := seen(d, func(e *widget.Entry) bool { return e.PlaceHolder == "Hero film" })
	last := rows[len(rows)-1]
	d.undo()
	before := len(d.plan().Brief.Deliverables)
	last.SetText("Gone")
	if got := len(d.plan().Brief.Deliverables); got != before {
		t.Errorf("%d deliverables, %d before", got, before)
	}
}

// TestRefusedTickIsTold: a scene can't come after one that comes after it; the tick says so and does not stay.
func TestRefusedTickIsTold(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	first := d.plan().Scenes[2] // Breakfast, which the drawing comes after
	d.page(view.Scenes).(*page.Scenes).Select(first.ID)
	ticks := seen(d, func(c *widget.Check) bool { return c.Text == "4  Ivy draws the house" })
	if len(ticks) != 1 {
		t.Fatalf("%d ticks for scene 4", len(ticks))
	}
	ticks[0].SetChecked(true)
	if ticks[0].Checked || len(d.plan().Scenes[2].After) > 0 || !d.says("would have to come before itself") {
		t.Errorf("ticked %v, after %v", ticks[0].Checked, d.plan().Scenes[2].After)
	}
}

// TestPairIsTriedAgain: a start after the end is refused, and taken as soon as the end allows it.
func TestPairIsTriedAgain(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Scenes").Action()
	d.page(view.Scenes).(*page.Scenes).Select("breakfast") // 08:00 to 10:45
	d.entry("a clock limit beside the wish, as in 14:00").SetText("12:00")
	if !d.says("which is not after its start") {
		t.Fatal("an end before the start is not told")
	}
	d.entry("as in 15:30").SetText("14:00")
	p := d.plan()
	s, _ := p.Scene("breakfast")
	if s.From.String() != "12:00" || s.To.String() != "14:00" || d.says("which is not after its start") {
		t.Errorf("limits %v to %v", s.From, s.To)
	}
}

// TestWeatherKeepsItsDate: a line typed for one date stays that date's when another is shown.
func TestWeatherKeepsItsDate(t *testing.T) {
	d, _ := openDemo(t)
	day := d.page(view.Day).(*page.Day)
	d.menuItem("Day").Action()
	d.press("Dates and rules")
	day.ChooseDate("2027-10-09")
	d.until("the ninth is shown", func() bool { return d.session.State().Results.Chosen.Date.Day == 9 })
	hint := "type or paste, a line each:\n06:00-11:00 cloud 70 rain 20"
	d.entry(hint).SetText("06:00-11:00 cloud 70")
	day.ChooseDate("2027-10-16")
	d.until("the sixteenth is shown", func() bool { return d.session.State().Results.Chosen.Date.Day == 16 })
	e := d.entry(hint)
	e.SetText(e.Text + "\ncloud 10")
	w := d.plan().Shooting.Weather
	if len(w) != 2 || w[0].Date.Day != 9 || w[1].Date.Day != 16 {
		t.Errorf("the field says %q, the plan %v", e.Text, w)
	}
}

// TestNothingOfAnotherPlanStays: text that was not taken is not shown in the next plan, and its papers go beside it.
func TestNothingOfAnotherPlanStays(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Brief").Action()
	d.entry("2027-11-12 or 12 Nov 2027").SetText("next week")
	other := demoCopy(t)
	d.Open(other)
	d.until("the other plan is open", func() bool { return d.session.State().Path == other })
	d.settle()
	if got := d.entry("2027-11-12 or 12 Nov 2027").Text; got != "2027-11-12" || d.says("next week") {
		t.Errorf("the other plan's date says %q", got)
	}
	d.menuItem("Papers").Action()
	if got := d.entry("the folder to write into").Text; got != filepath.Join(filepath.Dir(other), "papers") {
		t.Errorf("its papers go to %q", got)
	}
}
