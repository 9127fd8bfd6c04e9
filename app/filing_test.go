package app

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"eavelight/plan"
	"eavelight/plan/store"

	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// abc is the SHA-256 of "abc": FIPS 180-4's example.
const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

// release opens a release on its half of the page of people and returns where it stands in the plan.
func (d *desk) release(id plan.ID) int {
	d.t.Helper()
	d.menuItem("People").Action()
	d.press("Releases")
	i := slices.IndexFunc(d.plan().Releases, func(r plan.Release) bool { return r.ID == id })
	lists := seen(d, func(l *widget.List) bool { return l.Length() == len(d.plan().Releases) })
	lists[0].Select((i + 1) % len(d.plan().Releases)) // so that it is looked at anew
	lists[0].Select(i)
	d.settle()
	return i
}

// TestFileAScan: a scan is filed through the dialog, by its path from the plan and its checksum; the release is signed only when
// the user says so, and it is told what is still to be said; the file is changed behind the program's back, which is told; and it
// is taken away and brought back.
func TestFileAScan(t *testing.T) {
	d, path := openDemo(t)
	scan := beside(t, path, "marek.pdf", "abc")
	i := d.release("model-marek")
	before := d.plan().Releases[i].Status
	d.press("File a scan…")
	d.choose("marek.pdf")
	d.until("the scan is filed", func() bool { return d.plan().Releases[i].Scan != nil })
	d.settle()
	r := d.plan().Releases[i]
	if *r.Scan != (plan.Scan{Path: "marek.pdf", SHA256: abc}) || r.Status != before {
		t.Fatalf("filed: %+v, %v", *r.Scan, r.Status)
	}
	if !d.says("Still to be said: who signed it; that it is signed, as its status; the day of signing.") || !d.says("It is what it was when it was filed.") {
		t.Error("it does not say what is still to be said, or that the scan holds")
	}
	d.entry("the name on the paper").SetText("Marek Osei-Dahl")
	status := seen(d, func(s *widget.Select) bool { return slices.Contains(s.Options, string(plan.Declined)) })
	status[0].SetSelected(string(plan.Signed))
	d.entry("the day it was signed, sent or declined").SetText("2027-09-12")
	d.settle()
	if r = d.plan().Releases[i]; d.says("Still to be said") || r.Changed != (plan.Date{Year: 2027, Month: 9, Day: 12}) {
		t.Errorf("all is said, and it asks on: %+v", r)
	}
	d.menuItem("Save").Action()
	d.settle()
	if back, _, err := store.Read(path); err != nil || *back.Releases[i].Scan != *r.Scan {
		t.Errorf("read back: %v", err)
	}
	for what, tamper := range map[string]func() error{
		"is not what it was when it was filed": func() error { return os.WriteFile(scan, []byte("abd"), 0o600) },
		"is not there; put it back":            func() error { return os.Remove(scan) },
	} {
		if err := os.WriteFile(scan, []byte("abc"), 0o600); err != nil {
			t.Fatal(err)
		}
		d.release("model-marek")
		if d.says("The scan marek.pdf") {
			t.Error("a scan that holds is doubted")
		}
		if err := tamper(); err != nil {
			t.Fatal(err)
		}
		d.release("model-marek")
		if !d.says("The scan marek.pdf "+what) || d.says("It is what it was") {
			t.Errorf("it does not say that it %s", what)
		}
	}
	d.press("Take it away")
	if r = d.plan().Releases[i]; r.Scan != nil || r.Status != plan.Signed {
		t.Errorf("taken away: %+v", r)
	}
	d.menuItem("Undo take the scan away").Action()
	if d.plan().Releases[i].Scan == nil {
		t.Error("undo does not bring it back")
	}
}

// TestBadScans: what can't be filed is told beside the button and changes nothing. They come by being dropped on the window,
// which a dialog would not let through.
func TestBadScans(t *testing.T) {
	d, path := openDemo(t)
	i := d.release("model-marek")
	dir := filepath.Dir(path)
	if err := os.Mkdir(filepath.Join(dir, "scans"), 0o700); err != nil {
		t.Fatal(err)
	}
	beside(t, path, "empty.pdf", "")
	for file, says := range map[string]string{
		"scans":     "The scan scans is a folder, not a file; name the file.",
		"gone.pdf":  "The scan gone.pdf is not there; put it back, or name another.",
		"empty.pdf": "The scan empty.pdf is an empty file; scan the paper again, or name another.",
	} {
		d.dropped(storage.NewFileURI(filepath.Join(dir, file)).Path())
		d.until(file+" is refused", func() bool { return d.says(says) })
		if d.plan().Releases[i].Scan != nil {
			t.Fatalf("%s is filed", file)
		}
	}
	locked := beside(t, path, "locked.pdf", "abc")
	if err := os.Chmod(locked, 0); err != nil {
		t.Fatal(err)
	}
	if _, err := os.ReadFile(locked); err != nil { // root may read everything
		d.dropped(locked)
		d.until("an unreadable file is refused", func() bool { return d.says("can't be read (permission denied)") })
	}
}

// TestDropAScan: a file dropped while a release is open is its scan, from the root where it does not lie below the plan; a plan
// that is dropped is opened all the same, and so is anything dropped on another page.
func TestDropAScan(t *testing.T) {
	d, path := openDemo(t)
	i := d.release("model-marek")
	elsewhere := filepath.Join(t.TempDir(), "photo.jpg")
	if err := os.WriteFile(elsewhere, []byte("abc"), 0o600); err != nil {
		t.Fatal(err)
	}
	d.dropped(elsewhere)
	d.until("the scan is filed", func() bool { return d.plan().Releases[i].Scan != nil })
	d.settle()
	if s := d.plan().Releases[i].Scan; *s != (plan.Scan{Path: filepath.ToSlash(elsewhere), SHA256: abc}) {
		t.Errorf("filed: %+v", *s)
	}
	d.menuItem("Undo file the scan").Action()
	other := demoCopy(t)
	d.menuItem("Save").Action()
	d.settle()
	d.dropped(other)
	d.settle()
	if got := d.session.State().Path; got != other {
		t.Errorf("%s is open, not %s after %s", got, other, path)
	}
	d.menuItem("Day").Action()
	d.dropped(elsewhere)
	d.until("a file that is no plan is refused", func() bool { return d.says("this is not a plan file") })
}

// TestOnPaper: who reads a release that is on paper is not asked to sign it, and still can.
func TestOnPaper(t *testing.T) {
	d, _ := openDemo(t)
	d.release("model-marek")
	d.press("Read and sign")
	if !d.says("To be signed by Marek Osei-Dahl.") {
		t.Fatal("a release that nobody signed does not ask for it")
	}
	i := slices.IndexFunc(d.plan().Releases, func(r plan.Release) bool {
		return r.Status == plan.Signed && r.Signature == nil && r.SignedBy != ""
	})
	r := d.plan().Releases[i]
	d.release(r.ID)
	if d.says("To be signed by") || !d.says("Signed on paper by "+r.SignedBy) || !d.says("No scan of it is filed.") ||
		!d.says("Whether the paper says the same as this text is for you to compare.") {
		t.Error("a release signed on paper is to be signed")
	}
	if len(seen(d, func(b *widget.Button) bool { return b.Text == "Sign" })) != 0 {
		t.Error("there is a button to sign with")
	}
	d.press("Sign in the window")
	if !d.says("To be signed by") {
		t.Error("it can't be signed in the window")
	}
	d.press("Leave it on paper")
	if d.says("To be signed by") {
		t.Error("it is not left on paper")
	}
}

// TestChangeTheWording: a new wording is a draft until it is used. Before, it says what is wrong in it and whose signature it would
// cost; after, that signature no longer matches. Back to the built-in one, it matches again.
func TestChangeTheWording(t *testing.T) {
	d, path := openDemo(t)
	i := d.release("model-marek")
	d.press("Read and sign")
	d.sign("Marek Osei-Dahl")
	if d.plan().Releases[i].Signature == nil {
		t.Fatal("not signed")
	}
	d.press("The wording for all model releases")
	entry := d.entry("the text of the release")
	builtIn := entry.Text
	if !strings.Contains(builtIn, "{party}") || !d.says("A template, not legal advice; have a licensed lawyer check it for your place.") {
		t.Fatal("the template is not shown with its caution")
	}
	use := seen(d, func(b *widget.Button) bool { return b.Text == "Use this wording" })[0]
	if !use.Disabled() {
		t.Error("an unchanged wording can be used")
	}
	entry.SetText("I, {parti}, take part.")
	if !d.says(`In line 1 there is no field {parti}; did you mean "party"?`) || !use.Disabled() {
		t.Error("a field that is none is not told, or can be used")
	}
	entry.SetText("I, {party}, take part in {film}.")
	if !d.says("One signature would no longer match its text, and would have to be made anew: Marek Osei-Dahl.") {
		t.Error("it does not say which signature is lost")
	}
	if len(d.plan().Wordings) != 0 {
		t.Fatal("a draft is in the plan")
	}
	test.Type(entry, " More")
	if d.menu.undo.Action(); strings.Contains(entry.Text, "More") || d.plan().Releases[i].Signature == nil {
		t.Fatalf("undo takes back the signature, and not what was typed last: %q", entry.Text)
	}
	d.press("Drop the changes")
	if entry.Text != builtIn {
		t.Fatal("the changes are not dropped")
	}
	entry.SetText("I, {party}, take part in {film}.")
	d.press("Use this wording")
	d.settle()
	if w := d.plan().Wordings; len(w) != 1 || w[0] != (plan.Wording{Kind: plan.ModelRelease, Text: "I, {party}, take part in {film}."}) {
		t.Fatalf("%+v", w)
	}
	if !d.says("text changed") {
		t.Error("the list does not say that the text has changed")
	}
	d.menuItem("Save").Action()
	d.settle()
	if back, _, err := store.Read(path); err != nil || len(back.Wordings) != 1 {
		t.Errorf("read back: %v", err)
	}
	d.press("Back to the built-in wording")
	if len(d.plan().Wordings) != 1 || !d.says("No signature made in the window is lost by this.") {
		t.Error("it goes back without being told to")
	}
	d.press("Use this wording")
	d.settle()
	if len(d.plan().Wordings) != 0 || d.says("text changed") {
		t.Errorf("not back: %+v", d.plan().Wordings)
	}
}

// TestNameWithoutLetters: the paper of a release can't print a name in Han or Arabic letters. The user hears so, with the
// letters, and the plan keeps the name.
func TestNameWithoutLetters(t *testing.T) {
	d, path := openDemo(t)
	i := d.release("model-marek")
	who := slices.IndexFunc(d.plan().People, func(q plan.Person) bool { return q.ID == d.plan().Releases[i].Party })
	d.session.Edit("rename", "", func(p *plan.Plan) { p.People[who].Name = "王小明 نور" })
	d.settle()
	d.press("Write as PDF")
	d.until("the paper is written", func() bool { return d.says("Written: ") })
	if !d.says("6 letters or signs have no shape in the type of the papers and print as an empty box: 王小明نور.") {
		for _, l := range seen(d, func(l *widget.Label) bool { return strings.Contains(l.Text, "Written") }) {
			t.Errorf("it says %q", l.Text)
		}
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(path), "papers", "release-model-marek.pdf")); err != nil {
		t.Error(err)
	}
	if d.plan().People[who].Name != "王小明 نور" {
		t.Error("the plan lost the name")
	}
}

// TestProducer: who makes the film is said on the page of papers, and stands in the releases.
func TestProducer(t *testing.T) {
	d, _ := openDemo(t)
	d.menuItem("Papers").Action()
	d.press("What they say")
	e := d.entry("who makes the film, as it stands in the releases")
	e.SetText("")
	test.Type(e, "Marl & Lantern Pictures")
	if got := d.plan().Papers.Producer; got != "Marl & Lantern Pictures" {
		t.Fatalf("%q", got)
	}
	d.release("model-marek")
	d.press("Read and sign")
	if !d.says("Made by: Marl & Lantern Pictures") {
		t.Error("the release does not name who makes the film")
	}
}
