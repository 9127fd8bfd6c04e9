package papers

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/price"
)

func booksOf(p *plan.Plan, days []day.Day) []Book {
	s := price.Of(p, days)
	return []Book{ScheduleBook(p, days), PeopleBook(p, days), BudgetBook(p, days, &s)}
}

func plainRows(t testing.TB, b Book) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.CSV(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestBooksText(t *testing.T) {
	p, days := costed(t)
	for _, b := range booksOf(&p, days) {
		path, got := filepath.Join("testdata", b.Name+".csv"), plainRows(t, b)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if want, err := os.ReadFile(path); err != nil || !bytes.Equal(want, got) {
			t.Errorf("the rows of the %s have changed (%v); look at them, then run with -update. Now:\n%s", b.Name, err, got)
		}
	}
}

// TestSamePlanSameBook: the library streams leaves in the order of a map, so two of them are written many times.
func TestSamePlanSameBook(t *testing.T) {
	p, days := costed(t)
	p.Pricing.Card.Terms.TaxByLine = true
	for i, b := range booksOf(&p, days) {
		want := workbook(t, b)
		for range 12 {
			if !bytes.Equal(want, workbook(t, booksOf(&p, days)[i])) {
				t.Fatalf("%s: the same plan gives other bytes", b.Name)
			}
		}
		archive, err := zip.NewReader(bytes.NewReader(want), int64(len(want)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range archive.File {
			if !f.Modified.Equal(madeAt) {
				t.Errorf("%s: %s is of %v, want the making time", b.Name, f.Name, f.Modified)
			}
		}
		if about, err := reread(t, want).GetDocProps(); err != nil || about.Created != "2027-03-02T22:05:00Z" || about.Modified != about.Created {
			t.Errorf("%s: made %v (%v)", b.Name, about, err)
		}
	}
}

func TestBookIsReadyForPrint(t *testing.T) {
	p, days := costed(t)
	p.Pricing.Card.Terms.TaxByLine = true
	p.Title = strings.Repeat("A & B, 100 ", 60)
	for size, number := range map[plan.PaperSize]int{plan.Letter: 1, plan.A4: 9} { // ECMA-376, part 1, section 18.3.1.63
		for _, b := range booksOf(&p, days) {
			var out bytes.Buffer
			if err := b.XLSX(&out, size, madeAt); err != nil {
				t.Fatal(err)
			}
			f := reread(t, out.Bytes())
			for _, leaf := range f.GetSheetList() {
				layout, err := f.GetPageLayout(leaf)
				if err != nil || *layout.Size != number || *layout.Orientation != "landscape" || *layout.FitToWidth != 1 || *layout.FitToHeight != 0 {
					t.Errorf("%s: layout %+v (%v)", leaf, layout, err)
				}
				panes, err := f.GetPanes(leaf)
				if err != nil || !panes.Freeze || panes.YSplit != 1 {
					t.Errorf("%s: panes %+v (%v)", leaf, panes, err)
				}
				titles := false
				for _, name := range f.GetDefinedName() {
					titles = titles || name.Name == "_xlnm.Print_Titles" && name.Scope == leaf && strings.HasSuffix(name.RefersTo, "!$1:$1")
				}
				if props, err := f.GetSheetProps(leaf); err != nil || !*props.FitToPage || !titles {
					t.Errorf("%s: fit to page, and the heads on every page: %v, %v", leaf, *props.FitToPage, titles)
				}
			}
		}
	}
}

// dangerous are beginnings of a formula by OWASP's page on CSV Injection, and other texts that have gone wrong in cells.
var dangerous = []string{"=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\r=1+1", "\n=1+1", " =1+1", "\x00=1+1", "＝1+1", "=HYPERLINK(\"http://127.0.0.1\")",
	"a\";=1+1", "x;=1+1;", "x\r\n=1+1", "\"=1+1", "_x003D_1+1", "_x000D_", "0012", "1e5", "TRUE", "3/4", "<b>&amp;", "日本語の家", "بيت", "\xff\xfe", "\ufeff=1+1", "\uffff",
	strings.Repeat("long ", 20_000), strings.Repeat("𝄞", 40_000)}

// typed puts a text wherever a user can, as far as a book shows it.
func typed(p plan.Plan, text string) plan.Plan {
	p = p.Clone()
	p.Title, p.Property.Name = text, text
	for i := range p.Scenes {
		s := &p.Scenes[i]
		s.Number, s.Title, s.Kit = text, text, []string{text, text}
	}
	for i := range p.People {
		p.People[i].Name, p.People[i].Job, p.People[i].Phone = text, text, text
	}
	for i := range p.Property.Spaces {
		p.Property.Spaces[i].Name = text
	}
	for i := range p.Property.Faces {
		p.Property.Faces[i].Name = text
	}
	for i := range p.Pricing.Card.Rates {
		p.Pricing.Card.Rates[i].Name, p.Pricing.Card.Rates[i].Note = text, text
	}
	for i := range p.Pricing.Lines {
		p.Pricing.Lines[i].Text, p.Pricing.Lines[i].Unit, p.Pricing.Lines[i].Note = text, text, text
	}
	p.Pricing.Card.Terms.Taxes[0].Name, p.Pricing.Card.Terms.TaxByLine = text, true
	return p
}

// TestTypedTextIsNoFormula: what a user typed is words in a workbook, whatever it begins with, and fits a cell: 32,767 characters
// of UTF-16 (Microsoft, Excel specifications and limits).
func TestTypedTextIsNoFormula(t *testing.T) {
	base, days := costed(t)
	for _, text := range dangerous {
		p := typed(base, text)
		for j, b := range booksOf(&p, days) {
			content := workbook(t, b)
			f := reread(t, content)
			for k, l := range b.leaves {
				if f.GetSheetList()[k] != l.name {
					t.Fatalf("the leaves are %v", f.GetSheetList())
				}
				for n, r := range l.rows {
					for m, c := range r.cells {
						formula, err := f.GetCellFormula(l.name, cellName(m, n+2))
						got, err2 := f.GetCellValue(l.name, cellName(m, n+2))
						if err != nil || err2 != nil || formula != c.formula || c.format == "" && got != c.plain {
							t.Fatalf("%d, %s!%s: %.60q with the formula %q, want %.60q, %q (%v, %v)", j, l.name, cellName(m, n+2), got, formula, c.plain, c.formula, err, err2)
						}
						if len(utf16.Encode([]rune(got))) > 32767 {
							t.Fatalf("%s!%s is too long", l.name, cellName(m, n+2))
						}
					}
				}
			}
		}
	}
	b := bookOf(dangerous)
	rows := opened(t, office(t, asShown, map[string][]byte{"list.xlsx": workbook(t, b)}), "list", "List")
	for i, r := range b.leaves[0].rows {
		if got := rows[i+1][1]; got != r.at(1).plain {
			t.Errorf("LibreOffice makes %.60q of %.60q", got, r.at(1).plain)
		}
	}
}

// bookOf is a book of texts, each beside its number.
func bookOf(texts []string) Book {
	l := leaf{name: "List", columns: []leafColumn{{"Number", 9, true}, {"Text", 90, false}}}
	for i, text := range texts {
		l.add(false, whole(i, ""), words(text))
	}
	return Book{Name: "list", leaves: []leaf{l}, zone: time.UTC}
}

// inertRows reads plain rows back and finds what a spreadsheet program could take for a formula: in the cells, and in those it would make
// of the line where the semicolon parts cells.
func inertRows(t testing.TB, b Book) {
	t.Helper()
	content := plainRows(t, b)
	if !bytes.HasPrefix(content, []byte("\xef\xbb\xbf")) {
		t.Fatal("there is no byte order mark")
	}
	rows, err := csv.NewReader(bytes.NewReader(content[3:])).ReadAll() // and all of one length
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Count(content, []byte("\n")) != len(rows) || bytes.Count(content, []byte("\r\n")) != len(rows) {
		t.Error("a line is not ended by CR LF, or in a cell")
	}
	l := b.leaves[0]
	full := slices.DeleteFunc(slices.Clone(l.rows), func(r leafRow) bool { return len(r.cells) == 0 })
	for i, r := range rows[1:] {
		for j, cell := range r {
			if full[i].at(j).format == "" && strings.IndexAny(strings.TrimLeft(cell, " \""), "=+-@\t\r＝＋－＠") == 0 {
				t.Errorf("%s: a cell is %q", l.columns[j].head, cell)
			}
		}
	}
	for _, piece := range strings.Split(string(content), ";")[1:] {
		if strings.IndexAny(strings.TrimLeft(piece, " \""), "=+-@\t＝＋－＠") == 0 {
			t.Errorf("after a semicolon stands %.40q", piece)
		}
	}
}

// TestPlainRowsAreInert: by our reader, by Python's, and by LibreOffice, which makes a formula of what looks like one.
func TestPlainRowsAreInert(t *testing.T) {
	base, days := costed(t)
	for _, text := range dangerous {
		p := typed(base, text)
		for _, b := range booksOf(&p, days) {
			inertRows(t, b)
		}
	}
	rows := plainRows(t, bookOf(dangerous))
	for i, r := range pythonRows(t, rows) {
		if want := bookOf(dangerous).leaves[0].rows; i > 0 && (len(r) != 2 || r[0] != fmt.Sprint(i-1) || r[1] != want[i-1].at(1).inert()) {
			t.Errorf("Python reads row %d as %.60q", i, r)
		}
	}
	dir := office(t, "xlsx", map[string][]byte{"list.csv": rows, "control.csv": []byte("Number,Text\r\n0,=1+1\r\n")})
	for name, want := range map[string]int{"list": 0, "control": 1} {
		content, err := os.ReadFile(filepath.Join(dir, name+".xlsx"))
		if err != nil {
			t.Fatal(err)
		}
		f, formulas := reread(t, content), 0
		for i := range len(dangerous) + 1 {
			if formula, err := f.GetCellFormula(name, cellName(1, i+1)); err != nil || formula != "" {
				formulas++
			}
		}
		if formulas != want {
			t.Errorf("%s: LibreOffice finds %d formulas, want %d", name, formulas, want)
		}
	}
}

func FuzzPlainRows(f *testing.F) {
	for _, text := range dangerous[:27] {
		f.Add(text)
	}
	base, days := costed(f)
	f.Fuzz(func(t *testing.T, text string) {
		p := typed(base, text)
		for _, b := range booksOf(&p, days) {
			inertRows(t, b)
		}
	})
}

// TestBooksForAllAreDiscreet: neither the schedule nor the people's times hold anything private, in any part of the file.
func TestBooksForAllAreDiscreet(t *testing.T) {
	p, days := costed(t)
	before := booksOf(&p, days)
	private(&p)
	p.Pricing.Card.Crew[1].Rate = dec("98765.43")
	for i, b := range booksOf(&p, days)[:2] {
		content := workbook(t, b)
		archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
		if err != nil {
			t.Fatal(err)
		}
		text := string(plainRows(t, b))
		if text != string(plainRows(t, before[i])) {
			t.Errorf("%s: a private field changes it", b.Name)
		}
		for _, f := range archive.File {
			r, err := f.Open()
			if err != nil {
				t.Fatal(err)
			}
			part, err := io.ReadAll(r)
			if err != nil {
				t.Fatal(err)
			}
			text += string(part)
		}
		for _, leak := range []string{"LEAK", "1984", "2017", "98765", "555 0198", "555 0199", "mia@"} {
			if strings.Contains(text, leak) {
				t.Errorf("%s has %s in it", b.Name, leak)
			}
		}
		if b.Name == "people" && strings.Count(text, "ask guardian") != 4 { // Mia and Jon, in each form
			t.Errorf("it asks for a guardian %d times", strings.Count(text, "ask guardian"))
		}
	}
}

// TestTimesAreThoseOfTheWallClock: LibreOffice shows what the clock on the wall did, and reckons minutes that passed: the night to
// 28 March 2027 has 02:00 to 03:00 in Berlin left out (Directive 2000/84/EC), and scene 2 is shot past midnight.
func TestTimesAreThoseOfTheWallClock(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	at := func(day, hour, minute int) time.Time { return time.Date(2027, 3, day, hour, minute, 0, 0, zone) }
	p := plan.New()
	p.Property.Zone = "Europe/Berlin"
	p.Scenes = []plan.Scene{{ID: "a", Number: "1", Title: "Dusk"}, {ID: "b", Number: "2", Title: "Night"}, {ID: "c", Title: "Left out"}}
	p.People = []plan.Person{{ID: "x", Name: "Xaver"}}
	d := day.Day{Date: plan.Date{Year: 2027, Month: 3, Day: 27}, Zone: zone, Call: at(27, 18, 0), Wrap: at(28, 3, 20), Scenes: []day.Placed{
		{Scene: "a", Setup: at(27, 18, 10), Start: at(27, 18, 25), End: at(27, 19, 10), Kept: 0.996}, {Scene: "b", Setup: at(28, 0, 5), Start: at(28, 1, 40), End: at(28, 3, 20)}},
		People: []day.Presence{{Person: "x", Call: at(27, 18, 0), Release: at(28, 3, 20)}}}
	files := map[string][]byte{}
	for _, b := range booksOf(&p, []day.Day{d, {}})[:2] {
		files[b.Name+".xlsx"] = workbook(t, b)
	}
	us := p.Clone()
	us.Papers.Dates, us.Papers.Clock = plan.USEnglish, plan.Clock12
	files["us.xlsx"] = workbook(t, ScheduleBook(&us, []day.Day{d}))
	dir := office(t, asShown, files)
	for i, want := range []string{
		"Date|Scene|Title|Set-up|Start|End|Minutes|Space|People|Light wish|Kept|Kit",
		"Sat 27 Mar 2027|1|Dusk|18:10|18:25|19:10|45|space not said||any light||",
		"Sat 27 Mar 2027|2|Night|00:05 +1|01:40 +1|03:20 +1|40|space not said||any light||",
		"Sat 27 Mar 2027||2 scenes; call 18:00, wrap 03:20 +1||||85|||||",
		"no date||0 scenes||||0|||||",
		"||2 days||||85|||||",
		"||Left out|not placed||||space not said||any light||",
	} {
		if got := strings.Join(opened(t, dir, "schedule", "Schedule")[i], "|"); got != want {
			t.Errorf("row %d: %s, want %s", i+1, got, want)
		}
	}
	if got := strings.Join(opened(t, dir, "us", "Schedule")[2], "|"); !strings.HasPrefix(got, "Sat, Mar 27, 2027|2|Night|12:05 AM +1|1:40 AM +1|3:20 AM +1|40|") {
		t.Errorf("in American order, by the twelve-hour clock: %s", got)
	}
	// 18:00 to 03:20 on the wall are 560 minutes, of which 60 never were.
	if got := strings.Join(opened(t, dir, "people", "People")[1], "|"); got != "Sat 27 Mar 2027|Xaver|talent|18:00|03:20 +1|500|0|0|none|not filled in|" {
		t.Errorf("a person's row is %s", got)
	}
}

func TestBooksOfAnEmptyPlan(t *testing.T) {
	for name, p := range map[string]plan.Plan{"new": plan.New(), "zero": {}} {
		for _, days := range [][]day.Day{nil, {{}}} {
			for _, b := range booksOf(&p, days) {
				inertRows(t, b)
				if heads, err := reread(t, workbook(t, b)).GetCellValue(b.leaves[0].name, "A1"); err != nil || heads != b.leaves[0].columns[0].head {
					t.Errorf("%s, %s: %q (%v)", name, b.Name, heads, err)
				}
				if err := b.XLSX(io.Discard, plan.A4, time.Time{}); err != nil {
					t.Errorf("without a making time: %v", err)
				}
			}
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestBookSaysThatItCantBeWritten(t *testing.T) {
	p, days := costed(t)
	for _, b := range booksOf(&p, days) {
		if b.CSV(broken{}) == nil || b.XLSX(broken{}, plan.Letter, madeAt) == nil {
			t.Errorf("%s: no error", b.Name)
		}
	}
}

// crowd is a day of sixty people in forty scenes, twelve in each.
func crowd(t testing.TB) (plan.Plan, []day.Day) {
	p, days := costed(t)
	for len(p.People) < 60 {
		who := p.People[len(p.People)%9]
		who.ID = plan.ID(string(who.ID) + "x")
		p.People = append(p.People, who)
	}
	d := &days[0]
	d.People = d.People[:0:0]
	for _, who := range p.People {
		d.People = append(d.People, day.Presence{Person: who.ID, Call: d.Call, Release: d.Wrap})
	}
	return p, []day.Day{*d, *d, *d}
}

func BenchmarkBooks(b *testing.B) {
	for name, of := range map[string]func(testing.TB) (plan.Plan, []day.Day){"demo": costed, "crowd": crowd} {
		p, days := of(b)
		for i, book := range booksOf(&p, days) {
			b.Run(name+"/"+book.Name, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if err := booksOf(&p, days)[i].XLSX(io.Discard, plan.Letter, madeAt); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
