package papers

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	_ "image/png"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/people"
)

// wordingOfDemo is an invented wording, so that what is tested here does not change with the built-in ones.
const wordingOfDemo = `A template, not legal advice. Have a licensed lawyer check it for your place.

Film: {film}
Person: {party}

I take part in the film. It is shown in {media}, for {term}.

I get for it: {compensation}.
`

// paper is the demo with a release of that kind, one of a minor's with a wording and a guardian.
func paper(t testing.TB, kind plan.ReleaseKind) (plan.Plan, plan.Release) {
	p, _ := demo(t)
	p.Papers.Producer = "Marl & Lantern Pictures"
	r := plan.Release{ID: plan.ID(kind) + "-demo", Kind: kind, Media: "web and social", Territory: "worldwide", Term: "three years", Status: plan.Sent}
	switch kind {
	case plan.ModelRelease:
		r.Party = "grete"
		p.Wordings = []plan.Wording{{Kind: kind, Text: wordingOfDemo}}
	case plan.MinorRelease:
		r.Party = "jon"
	case plan.PropertyRelease:
		r.Party, r.Subject = "otto", "Quillfern House, inside and outside"
	default:
		r.Subject = "The " + string(kind) + " of the third scene"
	}
	return p, r
}

// signed is a release as the window signs it.
func signed(p *plan.Plan, r plan.Release, name, relation string) plan.Release {
	r.Status, r.SignedBy, r.Relation, r.Changed = plan.Signed, name, relation, plan.Date{Year: 2027, Month: 3, Day: 1}
	r.Signature = &plan.Signature{Name: name, At: time.Date(2027, 3, 2, 1, 30, 20, 0, time.UTC), Place: "Lower Marl", Consent: true,
		Digest: people.Digest(people.Text(p, r, plan.Date{})), Size: plan.PadSize{Width: 2000, Height: 600}, Strokes: scrawl()}
	return r
}

// scrawl is an invented signature: loops that shrink along a slope, a flourish under them, and a dot.
func scrawl() []plan.Stroke {
	var loops, flourish plan.Stroke
	for t := 0.0; t < 1; t += 0.004 {
		size := 190 * (1 - 0.6*t) * (1 + 0.3*math.Sin(31*t))
		loops = append(loops, plan.Point{X: 260 + int(1250*t+0.7*size*math.Sin(50*t)), Y: 300 - int(60*t+size*math.Cos(50*t))})
	}
	for t := 0.0; t < 1; t += 0.02 {
		flourish = append(flourish, plan.Point{X: 1650 - int(1300*t), Y: 470 + int(40*math.Sin(9*t)-90*t)})
	}
	return []plan.Stroke{loops, flourish, {{X: 1720, Y: 170}}}
}

// releases are the papers that were looked at: how far a release can be, by name.
func releases(t testing.TB) map[string]Sheet {
	model, m := paper(t, plan.ModelRelease)
	minor, n := paper(t, plan.MinorRelease)
	house, h := paper(t, plan.PropertyRelease)
	grete := signed(&model, m, "Grete Sandoval", "")
	changed := grete
	changed.Term = "for ever"
	scanned := h
	scanned.Status, scanned.SignedBy, scanned.Relation = plan.Signed, "Otto Lindqvarn", "owner"
	scanned.Scan = &plan.Scan{Path: "signed/house.pdf", SHA256: strings.Repeat("0123456789abcdef", 4)}
	lapsed := grete
	lapsed.Until = plan.Date{Year: 2027, Month: 3, Day: 3}
	lapsed.Signature = signed(&model, lapsed, "Grete Sandoval", "").Signature
	unkept := m
	unkept.Status = plan.Signed
	date := plan.Date{Year: 2027, Month: 3, Day: 6}
	return map[string]Sheet{
		"unsigned": Release(&model, m, date),
		"signed":   Release(&model, grete, date),
		"changed":  Release(&model, changed, date),
		"minor":    Release(&minor, signed(&minor, n, "Amara Sandoval", "mother"), date),
		"to-sign":  Release(&minor, n, date),
		"scanned":  Release(&house, scanned, date),
		"lapsed":   Release(&model, lapsed, date),
		"unkept":   Release(&model, unkept, date),
	}
}

func TestReleaseGoldenText(t *testing.T) {
	sheets := releases(t)
	for _, name := range []string{"unsigned", "signed", "changed"} {
		got, golden := sheets[name].Text(), filepath.Join("testdata", "release-"+name+".txt")
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("the text of the %s release has changed; look at it, then run with -update. Now:\n%s", name, got)
		}
	}
}

func TestReleaseSaysHowFarItIs(t *testing.T) {
	sheets := releases(t)
	for name, c := range map[string]struct{ has, lacks []string }{
		"unsigned": {[]string{"Model release", "By Grete Sandoval.", "Signature", "Relation"}, []string{"SHA-256", "Status"}},
		"signed": {[]string{"signed", "Grete Sandoval", "themselves", "Lower Marl", "consented to sign electronically", "2027-03-02T01:30:20Z",
			"Monday 1 March 2027, 17:30 (UTC-8, America/Los_Angeles)", "SHA-256 of the text that was signed: "}, []string{"changed", "printed here"}},
		"changed": {[]string{"text changed", "does not count", "SHA-256 of the text printed here: ", "for ever"}, []string{"three years"}},
		"minor":   {[]string{"Minor's release", "Amara Sandoval", "mother", "Jon Sandoval"}, []string{"themselves"}},
		"to-sign": {[]string{"By Amara Sandoval, for Jon Sandoval."}, []string{"SHA-256"}},
		"scanned": {[]string{"Signed on paper", "Otto Lindqvarn", "owner", "signed/house.pdf", "SHA-256 of the scan: 0123"}, []string{"Signature"}},
		"lapsed":  {[]string{"lapsed", "held until Wednesday 3 March 2027", "themselves"}, nil},
		"unkept":  {[]string{"holds neither the signature nor a scan", "Signature"}, []string{"SHA-256"}},
	} {
		text := all(sheets[name])
		for _, want := range c.has {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q:\n%s", name, want, text)
			}
		}
		for _, other := range c.lacks {
			if strings.Contains(text, other) {
				t.Errorf("%s has %q:\n%s", name, other, text)
			}
		}
	}
}

// What is signed is the text, the whole text, and nothing beside it.
func TestReleaseHoldsTheExactText(t *testing.T) {
	for _, kind := range plan.ReleaseKinds {
		p, r := paper(t, kind)
		s := Release(&p, r, plan.Date{})
		i := slices.IndexFunc(s.Sections, func(sec Section) bool { return sec.Heading == "What is agreed" })
		if got, want := strings.Join(s.Sections[i].Text, "\n\n"), people.Text(&p, r, plan.Date{}); got != want {
			t.Errorf("%s: got %q, want %q", kind, got, want)
		}
		if n := strings.Count(all(s), "not legal advice"); n != 1 {
			t.Errorf("%s: the caution stands there %d times", kind, n)
		}
	}
	p, r := paper(t, plan.ModelRelease)
	p.Wordings[0].Text = "\r\n\r\nMy lawyer's own.\r\nIn two lines.\r\n\r\n\r\n\r\n  Indented.\r\n"
	s := Release(&p, r, plan.Date{})
	if got := s.Sections[1].Text; !slices.Equal(got, []string{"My lawyer's own.\nIn two lines.", "  Indented."}) || !strings.Contains(all(s), Caution) {
		t.Errorf("an own wording became %q", got)
	}
}

// The built-in wordings, signed or to be signed, take one page each.
func TestReleasesTakeOnePage(t *testing.T) {
	for _, kind := range plan.ReleaseKinds {
		p, r := paper(t, kind)
		p.Wordings = nil
		for name, r := range map[string]plan.Release{"to be signed": r, "signed": signed(&p, r, "Otto Lindqvarn", "manager")} {
			s := Release(&p, r, plan.Date{})
			for _, size := range plan.PaperSizes {
				holds(t, s, size)
				if n := pages(t, s, size); n != 1 {
					t.Errorf("%s, %s, %s: %d pages", kind, name, size, n)
				}
			}
		}
	}
}

// qpdf is a checker of PDF files that is not ours (Debian package qpdf).
func TestReleasesAreSoundFiles(t *testing.T) {
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed (package qpdf): the print's file is not checked")
	}
	for name, s := range releases(t) {
		path := filepath.Join(t.TempDir(), "release.pdf")
		if err := os.WriteFile(path, printed(t, s, plan.A4), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(tool, "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
	}
}

// rendered is a page as pdftoppm (poppler) sees it, in pixels of a fifth of a millimetre.
func rendered(t *testing.T, s Sheet) *image.Gray {
	t.Helper()
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed (package poppler-utils): the print is not looked at")
	}
	path := filepath.Join(t.TempDir(), "release.pdf")
	if err := os.WriteFile(path, printed(t, s, plan.A4), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-png", "-singlefile", "-r", "127", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	page, _, err := image.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	gray := image.NewGray(page.Bounds())
	draw.Draw(gray, gray.Rect, page, page.Bounds().Min, draw.Src)
	return gray
}

// The strokes are printed in the pad's own shape: what two papers differ by that differ only in their strokes is as large as
// those strokes are, in millimetres by the pad's unit, and the line's width.
func TestSignatureIsPrintedInItsShape(t *testing.T) {
	for _, c := range []struct {
		size plan.PadSize
		unit float64
	}{{plan.PadSize{Width: 2000, Height: 600}, 26.0 / 600}, {plan.PadSize{Width: 300, Height: 300}, 26.0 / 300}, {plan.PadSize{Width: 9000, Height: 900}, (210.0/2 - 16) / 9000}} {
		sheet := func(strokes ...plan.Stroke) Sheet {
			return Sheet{Sections: []Section{{Figure: Drawing{c.size, strokes}}}}
		}
		w, h := c.size.Width, c.size.Height
		dot := plan.Stroke{{X: w / 2, Y: h / 2}}
		cross := plan.Stroke{{X: w / 10, Y: h / 5}, {X: w / 2, Y: h / 2}, {X: 9 * w / 10, Y: 4 * h / 5}}
		box := difference(rendered(t, sheet(dot)), rendered(t, sheet(dot, cross)))
		for _, d := range []struct{ got, want float64 }{{float64(box.Dx()), 0.8 * float64(w)}, {float64(box.Dy()), 0.6 * float64(h)}} {
			if got, want := d.got/5, d.want*c.unit+0.35; math.Abs(got-want) > 0.5 {
				t.Errorf("%v: %.1f mm, want %.1f", c.size, got, want)
			}
		}
	}
}

func difference(a, b *image.Gray) image.Rectangle {
	var out image.Rectangle
	for i := range a.Pix {
		if a.Pix[i] != b.Pix[i] {
			x, y := i%a.Stride, i/a.Stride
			out = out.Union(image.Rect(x, y, x+1, y+1))
		}
	}
	return out
}

func TestSameReleaseSameBytes(t *testing.T) {
	for name, s := range releases(t) {
		if again := releases(t)[name]; !bytes.Equal(printed(t, s, plan.A4), printed(t, again, plan.A4)) {
			t.Errorf("%s: the same release gives other bytes", name)
		}
	}
}

func TestReleasesOfNamesInAnyScript(t *testing.T) {
	long := strings.Repeat("Abracadabrantesque ", 11)[:199] + "Z"
	for _, c := range []struct {
		name string
		lost string
	}{{"Ґрунтовська Їжакова", ""}, {long, ""}, {"נינה 🎬 Valdry", "נינה🎬"}, {"名前", "名前"}} {
		p, r := paper(t, plan.ModelRelease)
		p.Title, p.People[4].Name = c.name, c.name
		r = signed(&p, r, c.name, c.name)
		r.Signature.Place = c.name
		s := Release(&p, r, plan.Date{})
		for _, lost := range c.lost {
			if !slices.Contains(s.Unprintable(), lost) {
				t.Errorf("%s: %q is not told as unprintable", c.name, lost)
			}
		}
		if told := strings.Contains(all(s), "An empty box stands for"); told != (c.lost != "") {
			t.Errorf("%s: the paper explains its boxes: %v", c.name, told)
		}
		holds(t, s, plan.Letter)
	}
}

// A text of many pages is printed whole, and a signature is never parted.
func TestReleaseOfManyPages(t *testing.T) {
	p, r := paper(t, plan.ModelRelease)
	for n := range 40 {
		p.Wordings[0].Text = strings.Repeat("A clause of the invented wording, so long that it takes more than one line of the paper.\n\n", 20+n)
		for name, r := range map[string]plan.Release{"to be signed": r, "signed": signed(&p, r, "Grete Sandoval", "")} {
			s := Release(&p, r, plan.Date{})
			set := setter{measure: perLetter, width: 178}
			for _, page := range flow(set.runs(s), 250) {
				last := page[len(page)-1]
				if last.keep {
					t.Fatalf("%d, %s: a page ends within the signature", n, name)
				}
			}
		}
	}
	s := Release(&p, signed(&p, r, "Grete Sandoval", ""), plan.Date{})
	holdsWords(t, s, plan.Letter)
	if n := pages(t, s, plan.Letter); n < 2 {
		t.Errorf("%d pages", n)
	}
}

func TestReleaseOfAnEmptyPlan(t *testing.T) {
	p := plan.New()
	for _, r := range []plan.Release{{}, {Kind: "unheard-of", Party: "nobody", Status: plan.Declined}, {Signature: &plan.Signature{Strokes: []plan.Stroke{{}}}, Status: plan.Signed}} {
		s := Release(&p, r, plan.Date{})
		printed(t, s, plan.A4)
		if s.Title == "" || s.Kind == "" || !strings.Contains(all(s), "UTC") {
			t.Errorf("%+v: %s", r, all(s))
		}
	}
}

func TestWriteRelease(t *testing.T) {
	p, r := paper(t, plan.ModelRelease)
	r.ID = "model-grete"
	dir := filepath.Join(t.TempDir(), "papers", "signed")
	path, err := WriteRelease(dir, &p, r, plan.Date{}, madeAt, false)
	if want := filepath.Join(dir, "release-model-grete.pdf"); err != nil || path != want {
		t.Fatalf("got %q, %v; want %q", path, err, want)
	}
	content, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(content, printed(t, Release(&p, r, plan.Date{}), plan.Letter)) {
		t.Errorf("the file is not the release (%v)", err)
	}
	if info, err := os.Stat(path); runtime.GOOS != "windows" && (err != nil || info.Mode().Perm() != 0o600) {
		t.Errorf("the file's mode is %v, want owner only (%v)", info.Mode(), err)
	}
	var exists *ExistsError
	if again, err := WriteRelease(dir, &p, r, plan.Date{}, madeAt, false); !errors.As(err, &exists) || exists.Path != path || !errors.Is(err, fs.ErrExist) || again != "" {
		t.Errorf("over a file that is there: %q, %v", again, err)
	}
	if _, err := WriteRelease(dir, &p, r, plan.Date{}, madeAt.Add(time.Hour), true); err != nil {
		t.Error(err)
	}
	if changed, err := os.ReadFile(path); err != nil || bytes.Equal(changed, content) {
		t.Errorf("the file was not replaced (%v)", err)
	}
	if found, err := os.ReadDir(dir); err != nil || len(found) != 1 {
		t.Errorf("the folder holds %v (%v)", found, err)
	}
	if _, err := WriteRelease(filepath.Join(dir, "\x00"), &p, r, plan.Date{}, madeAt, false); err == nil {
		t.Error("an impossible folder gives no error")
	}
}

// An id of a plan with something wrong in it can't leave the folder.
func TestReleaseFileNames(t *testing.T) {
	p, r := paper(t, plan.ModelRelease)
	for id, want := range map[plan.ID]string{"model-nina": "model-nina", "Łukasz-2": "Łukasz-2", "": "no-id", "../../etc/x": "------etc-x", `a\b:c*d` + "\x00": "a-b-c-d-",
		plan.ID(strings.Repeat("x", 300)): strings.Repeat("x", 40)} {
		r.ID = id
		dir := t.TempDir()
		path, err := WriteRelease(dir, &p, r, plan.Date{}, madeAt, false)
		if err != nil || path != filepath.Join(dir, fmt.Sprintf("release-%s.pdf", want)) {
			t.Errorf("%q: %q, %v", id, path, err)
		}
	}
}
