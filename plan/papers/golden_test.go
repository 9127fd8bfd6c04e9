package papers

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
	"eavelight/plan/day"
)

// A golden page is a page as poppler draws it at 100 dots an inch, coarsely: a letter for every cell of four millimetres, the darker the
// later in shades. What moves, goes missing or runs over shows in it, and in a diff of it; how a letter is smoothed does not.
const (
	goldenDPI  = 100
	goldenCell = 16 // pixels
	shades     = " .:-=+*#%@"
)

// coarse is a page in letters.
func coarse(page *image.Gray) []string {
	var out []string
	for y := 0; y < page.Rect.Dy(); y += goldenCell {
		var line strings.Builder
		for x := 0; x < page.Rect.Dx(); x += goldenCell {
			cell := image.Rect(x, y, x+goldenCell, y+goldenCell).Intersect(page.Rect)
			line.WriteByte(shades[min(int(darkness(page, cell)*2*float64(len(shades))), len(shades)-1)])
		}
		out = append(out, strings.TrimRight(line.String(), " "))
	}
	return out
}

// pagesOf draws the pages of a PDF in grey.
func pagesOf(t *testing.T, pdf []byte) []*image.Gray {
	t.Helper()
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed (package poppler-utils): the pages are not looked at")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(tool, "-gray", "-png", "-r", fmt.Sprint(goldenDPI), path, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "page*.png"))
	slices.Sort(files)
	var out []*image.Gray
	for _, file := range files {
		content, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		page, _, err := image.Decode(bytes.NewReader(content))
		if err != nil {
			t.Fatal(err)
		}
		gray := image.NewGray(page.Bounds())
		draw.Draw(gray, gray.Rect, page, page.Bounds().Min, draw.Src)
		out = append(out, gray)
	}
	return out
}

// alike reports whether two pages in letters are: a cell at the edge of two shades may be one step off.
func alike(a, b []string) bool {
	return slices.EqualFunc(a, b, func(a, b string) bool {
		for i := range max(len(a), len(b)) {
			at := func(line string) int { return strings.IndexByte(shades, (line + strings.Repeat(" ", i+1))[i]) }
			if far := at(a) - at(b); far < -1 || far > 1 {
				return false
			}
		}
		return true
	})
}

// threeDays is a shoot of forty scenes with sixty people on three days, their names long and of many scripts. Each is on one day.
func threeDays(t testing.TB) (plan.Plan, []day.Day) {
	p, d := torture(t)
	p.Title, p.Property.Name, p.Property.Address = "Три дня на озере / Τρεις μέρες / Ba ngày bên hồ", "Het oude huis aan het meer", "Überlinger Straße 218a, Haus im Grünen, Żółta Góra"
	p.Papers.Notes, p.Papers.Access = strings.Repeat("The gate stays shut. ", 30), strings.Repeat("Second gate on the left, then along the reeds. ", 8)
	for i := range p.People {
		p.People[i].Name = fmt.Sprintf("%s %d", names[i%len(names)], i)
		p.People[i].Job = []string{"the grandmother who once danced in Odessa", "light", "die Tochter", "ο γείτονας"}[i%4]
	}
	for i := range p.Scenes {
		p.Scenes[i].Title = fmt.Sprintf("%s, and what comes of it %d", names[(i+3)%len(names)], i)
		p.Scenes[i].Action = strings.Repeat("They come in from the garden and sit down. ", 1+i%4)
		p.Scenes[i].Audio = "the room, for a minute"
		for j := range p.Scenes[i].Shots {
			p.Scenes[i].Shots[j] = plan.Shot{Frame: "wide, then close", Lens: "35 mm", Movement: "slow push-in along the table", Note: names[j]}
		}
		p.Scenes[i].People = p.Scenes[i].People[:min(len(p.Scenes[i].People), 9)]
	}
	var days []day.Day
	for n := range 3 {
		one := d
		one.Number, one.Of, one.Date = n+1, 3, d.Date.AddDays(n)
		shift := func(at time.Time) time.Time { return at.AddDate(0, 0, n) }
		one.Call, one.Scenes, one.People, one.Meals, one.Moves = shift(d.Call), nil, nil, nil, nil
		for _, s := range d.Scenes[n*14 : min(n*14+14, len(d.Scenes))] {
			back := time.Duration(n*14*20) * time.Minute
			s.Setup, s.Start, s.End = shift(s.Setup.Add(-back)), shift(s.Start.Add(-back)), shift(s.End.Add(-back))
			one.Scenes = append(one.Scenes, s)
			one.Wrap = s.End
		}
		for _, q := range d.People[n*20 : n*20+20] {
			one.People = append(one.People, day.Presence{Person: q.Person, Call: one.Call, Release: one.Wrap, OnCamera: onCamera(&p, one, q.Person)})
		}
		days = append(days, one)
	}
	return p, days
}

// TestGoldenPages holds every page of every print to how it looked when somebody looked at it. With -update the pages are written anew;
// look at them: EAVELIGHT_PAGES=FOLDER keeps their pictures.
func TestGoldenPages(t *testing.T) {
	for name, job := range map[string]func(testing.TB) (plan.Plan, []day.Day){"demo": costed, "threedays": threeDays} {
		p, days := job(t)
		var got strings.Builder
		kept := map[Kind]int{}
		for _, paper := range NewSet(Job{Plan: &p, Days: days, Made: madeAt}).Papers {
			sheet, ok := paper.Sheet()
			if kept[paper.Kind]++; !ok || paper.For != "" && kept[paper.Kind] > 6 { // of the sixty people's some will do
				continue
			}
			for i, page := range pagesOf(t, printed(t, sheet, plan.Letter)) {
				fmt.Fprintf(&got, "== %s, page %d\n%s\n", paper.Name, i+1, strings.Join(coarse(page), "\n"))
				keepPage(t, fmt.Sprintf("%s-%s-%d", name, strings.ReplaceAll(paper.Name, "/", "-"), i+1), page)
			}
		}
		golden := filepath.Join("testdata", "pages-"+name+".txt")
		if *update {
			if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		samePages(t, name, strings.Split(got.String(), "== "), strings.Split(string(want), "== "))
	}
}

func samePages(t *testing.T, name string, got, want []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d pages, not %d; look at them, then run with -update", name, len(got)-1, len(want)-1)
		return
	}
	for i := range got {
		a, b := strings.Split(got[i], "\n"), strings.Split(want[i], "\n")
		if a[0] != b[0] || !alike(a[1:], b[1:]) {
			t.Errorf("%s: a page has changed; look at it, then run with -update: %s", name, got[i])
		}
	}
}

func keepPage(t *testing.T, name string, page *image.Gray) {
	dir := os.Getenv("EAVELIGHT_PAGES")
	if dir == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(dir, name+".png"), pngOf(t, page), 0o600); err != nil {
		t.Fatal(err)
	}
}

func pngOf(t *testing.T, page image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, page); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
