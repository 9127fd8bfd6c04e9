package papers

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"eavelight/assets"
	"eavelight/plan"
	"eavelight/plan/day"
)

func printed(t testing.TB, s Sheet, size plan.PaperSize) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := s.PDF(&b, size, madeAt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// pdfText reads a print back with pdftotext (poppler), a reader that is not ours, in the order in which it was drawn.
func pdfText(t testing.TB, s Sheet, size plan.PaperSize) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (package poppler-utils): the print is not read back")
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, printed(t, s, size), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(tool, "-raw", "-enc", "UTF-8", path, "-")
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("pdftotext: %v %s", err, complaints.String())
	}
	return string(out)
}

// dense drops all space, so that a line break makes no difference.
func dense(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

// holds checks that a print has every text of its sheet.
func holds(t *testing.T, s Sheet, size plan.PaperSize) {
	t.Helper()
	text := dense(pdfText(t, s, size))
	s.each(func(part string) {
		for line := range strings.SplitSeq(printable(part), "\n") {
			if !strings.Contains(text, dense(line)) {
				t.Errorf("%s: the print lacks %.300q", size, line)
			}
		}
	})
}

func pages(t *testing.T, s Sheet, size plan.PaperSize) int {
	t.Helper()
	n := 0
	last := ""
	for line := range strings.Lines(pdfText(t, s, size)) {
		if strings.Contains(line, "page ") && strings.Contains(line, " of ") {
			last = line
		}
	}
	if _, err := fmt.Sscanf(last[strings.Index(last, "page "):], "page %d of %d", &n, new(int)); err != nil {
		t.Fatalf("no page number in %q: %v", last, err)
	}
	return n
}

func TestPrintHoldsTheSheet(t *testing.T) {
	p, d := demo(t)
	s := CallSheet(&p, d)
	for _, size := range plan.PaperSizes {
		holds(t, s, size)
		text := dense(pdfText(t, s, size))
		for _, want := range append(wanted(&p, d), "page 1 of 2", "page 2 of 2", "times are local: America/Los_Angeles (UTC-8)", "written 2027-03-02 14:05") {
			if !strings.Contains(text, dense(want)) {
				t.Errorf("%s: the print lacks %q", size, want)
			}
		}
		if n := pages(t, s, size); n != 2 {
			t.Errorf("%s: %d pages", size, n)
		}
	}
}

var names = []string{"Ελένη Παπαδοπούλου", "Людмила Щербакова", "Ґрунтовська Їжакова", "Żółć Gęślą-Jaźńska", "Nguyễn Thị Hồng Ngọc",
	"Łukasz Dźwięczyński", "Þórdís Ævarsdóttir", "Çağrı Yıldırım", "Đặng Thuỳ Trâm", "Müller‑Größ", "José Ñuñez d’Ávila"}

func TestPrintHoldsNamesOfOtherLetters(t *testing.T) {
	p, d := demo(t)
	for i := range p.People {
		p.People[i].Name = names[i%len(names)]
	}
	p.Title, p.Property.Name = names[4], names[10]
	s := CallSheet(&p, d)
	if lost := s.Unprintable(); len(lost) > 0 {
		t.Errorf("the fonts lack %q", lost)
	}
	for _, size := range plan.PaperSizes {
		holds(t, s, size)
	}
}

// A name typed as letter and accent apart, as some systems give file names, prints like the composed one.
func TestDecomposedNamesPrintComposed(t *testing.T) {
	p, d := demo(t)
	p.People[0].Name = "Nguye\u0302\u0303n Ho\u0302\u0300ng"
	s := CallSheet(&p, d)
	if text := pdfText(t, s, plan.A4); !strings.Contains(text, "Nguyễn Hồng") {
		t.Error("the print lacks the composed name")
	}
}

func TestUnprintableIsToldAndPrintedAsABox(t *testing.T) {
	p, d := demo(t)
	p.People[0].Name = "名前 Noor 🎬\u200d\ufe0f \x00\u202e"
	p.Property.Address = "line one\r\nline\ttwo \xff 名"
	s := CallSheet(&p, d)
	if got, want := s.Unprintable(), []rune("名前🎬"); !slices.Equal(got, want) {
		t.Errorf("unprintable: got %q, want %q", string(got), string(want))
	}
	text := dense(pdfText(t, s, plan.Letter))
	for _, want := range []string{"□□Noor□", "lineonelinetwo\ufffd□"} {
		if !strings.Contains(text, want) {
			t.Errorf("the print lacks %q", want)
		}
	}
}

func TestSameInputSameBytes(t *testing.T) {
	regular, bold := sha256.Sum256(assets.SansRegular), sha256.Sum256(assets.SansBold)
	p, d := demo(t)
	p.People[0].Name = names[0]
	first := printed(t, CallSheet(&p, d), plan.A4)
	for range 10 {
		p, d := demo(t)
		p.People[0].Name = names[0]
		if !bytes.Equal(first, printed(t, CallSheet(&p, d), plan.A4)) {
			t.Fatal("the same call sheet gives other bytes")
		}
	}
	for _, entry := range []string{"/CreationDate (D:20270302220500)", "/ModDate (D:20270302220500)"} {
		if !bytes.Contains(first, []byte(entry)) {
			t.Errorf("the print lacks %s, so it holds the clock's time", entry)
		}
	}
	var later bytes.Buffer
	if err := CallSheet(&p, d).PDF(&later, plan.A4, madeAt.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(first, later.Bytes()) {
		t.Error("the making time makes no difference")
	}
	if regular != sha256.Sum256(assets.SansRegular) || bold != sha256.Sum256(assets.SansBold) {
		t.Error("printing wrote into the built-in fonts")
	}
}

func TestPaperSizes(t *testing.T) {
	p, d := demo(t)
	s := CallSheet(&p, d)
	// 8.5 x 11 inches; 210 x 297 mm (ISO 216), in points of 1/72 inch
	for size, box := range map[plan.PaperSize]string{plan.Letter: "/MediaBox [0 0 612.00 792.00]", plan.A4: "/MediaBox [0 0 595.28 841.89]", "": "/MediaBox [0 0 612.00 792.00]"} {
		if !bytes.Contains(printed(t, s, size), []byte(box)) {
			t.Errorf("%q: the print lacks %s", size, box)
		}
	}
}

// torture is a day of many scenes and people with very long names, each with its number in it.
func torture(t testing.TB) (plan.Plan, day.Day) {
	p, d := demo(t)
	long := func(what string, i int) string {
		s := fmt.Sprintf("%s %d ", what, i)
		return s + strings.Repeat("Abracadabrantesque ", 12)[:200-len(s)-1] + "Z"
	}
	p.Title = long("Title", 0)
	p.Property.Name, p.Property.Address = long("Property", 0), long("Address", 0)
	p.Papers.Notes = strings.Repeat("A very long note that runs over more than one page. ", 300) + "END"
	p.Papers.Access = strings.Repeat("W", 3000) + "END"
	people, scenes := p.People, p.Scenes
	p.People, p.Scenes, d.Scenes, d.People, d.Moves = nil, nil, nil, nil, nil
	for i := range 60 {
		q := people[i%len(people)]
		q.ID, q.Name, q.Job = plan.ID(fmt.Sprintf("p%d", i)), long("Person", i), long("Job", i)
		if q.Minor {
			q.Guardian = "p0"
		}
		p.People = append(p.People, q)
	}
	at := d.Call
	for i := range 40 {
		s := scenes[i%len(scenes)]
		s.ID, s.Number, s.Title, s.Action, s.People, s.Cover = plan.ID(fmt.Sprintf("c%d", i)), fmt.Sprint(100+i), long("Scene", i), long("Action", i), nil, ""
		s.Audio = long("Sound", i) + names[i%len(names)]
		for j := range i % 4 {
			s.Shots = append(s.Shots, plan.Shot{Frame: long("Frame", j), Lens: names[j], Movement: long("Movement", i), Note: long("Note", i)})
		}
		crowd := i % 10
		if i == 30 {
			crowd = len(p.People) // a row higher than a page
		}
		for _, q := range p.People[:crowd] {
			s.People = append(s.People, q.ID)
		}
		p.Scenes = append(p.Scenes, s)
		d.Scenes = append(d.Scenes, day.Placed{Scene: s.ID, Setup: at, Start: at.Add(10 * time.Minute), End: at.Add(20 * time.Minute), Kept: 0.5})
		at = at.Add(20 * time.Minute)
	}
	for _, q := range p.People {
		d.People = append(d.People, day.Presence{Person: q.ID, Call: d.Call, Release: at, OnCamera: onCamera(&p, d, q.ID)})
	}
	d.Wrap = at
	return p, d
}

// holdsWords is holds for a sheet with rows higher than a page, whose texts are read back in pieces: every word is there as
// often as it was said. Words that are broken at a line's end are left to TestWrapKeepsEveryLetterWithinTheWidth.
func holdsWords(t *testing.T, s Sheet, size plan.PaperSize) {
	t.Helper()
	count := map[string]int{}
	for _, word := range strings.Fields(pdfText(t, s, size)) {
		count[word]++
	}
	s.each(func(part string) {
		for _, word := range strings.Fields(part) {
			if len(word) < 30 {
				count[word]--
			}
		}
	})
	for word, n := range count {
		if n < 0 {
			t.Errorf("%s: the print lacks %q %d times", size, word, -n)
		}
	}
}

// holdsLetters is holdsWords for narrow columns, in which long words are broken: every letter is there as often as it was said.
func holdsLetters(t *testing.T, s Sheet, size plan.PaperSize) {
	t.Helper()
	count := map[rune]int{}
	for _, r := range dense(pdfText(t, s, size)) {
		count[r]++
	}
	s.each(func(part string) {
		for _, r := range dense(printable(part)) {
			count[r]--
		}
	})
	for r, n := range count {
		if n < 0 {
			t.Errorf("%s, %s: the print lacks %q %d times", s.Kind, size, r, -n)
		}
	}
}

func TestTortureLosesNothing(t *testing.T) {
	p, d := torture(t)
	for _, s := range []Sheet{ScenePlan(&p, []day.Day{d}), ShotList(&p, d)} {
		if lost := s.Unprintable(); len(lost) > 0 {
			t.Errorf("%s: the fonts lack %q", s.Kind, lost)
		}
		for _, size := range plan.PaperSizes {
			holdsLetters(t, s, size)
		}
	}
	s := CallSheet(&p, d)
	for _, size := range plan.PaperSizes {
		holdsWords(t, s, size)
		if text := dense(pdfText(t, s, size)); !strings.Contains(text, strings.Repeat("W", 3000)+"END") {
			t.Errorf("%s: a word of 3000 letters lost some", size)
		}
		if n := pages(t, s, size); n < 10 {
			t.Errorf("%s: %d pages", size, n)
		}
	}
}

// Times and figures stand in columns only if every digit is as wide as the next.
func TestDigitsAreTabular(t *testing.T) {
	for _, f := range weights() {
		for r := '0'; r <= '9'; r++ {
			g, _ := f.GlyphIndex(nil, r)
			zero, _ := f.GlyphIndex(nil, '0')
			w, errW := f.GlyphAdvance(nil, g, 1000<<6, 0)
			z, errZ := f.GlyphAdvance(nil, zero, 1000<<6, 0)
			if errW != nil || errZ != nil || w != z {
				t.Errorf("%c is %v wide, 0 is %v", r, w, z)
			}
		}
	}
}

func BenchmarkCallSheet(b *testing.B) {
	for name, make := range map[string]func(testing.TB) (plan.Plan, day.Day){"demo": demo, "torture": torture} {
		b.Run(name, func(b *testing.B) {
			p, d := make(b)
			for b.Loop() {
				var out bytes.Buffer
				if err := CallSheet(&p, d).PDF(&out, plan.Letter, madeAt); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
