package papers

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"eavelight/plan"

	"pgregory.net/rapid"
)

var plain = face{size: 9, lead: 4}

// perLetter measures two millimetres a letter, whatever the letter; an accent takes none.
func perLetter(text string, _ face) float64 {
	width := 0.0
	for _, r := range text {
		if !unicode.Is(unicode.Mn, r) {
			width += 2
		}
	}
	return width
}

// randomRuns draws sections as the grammar makes them: a heading, sometimes a head, then rows; each line has its own text.
func randomRuns(t *rapid.T) (runs []run, texts []string) {
	lines := func(least, most int) (out []line) {
		for range rapid.IntRange(least, most).Draw(t, "lines") {
			texts = append(texts, fmt.Sprintf("line %d", len(texts)))
			out = append(out, line{texts[len(texts)-1], plain})
		}
		return out
	}
	for range rapid.IntRange(1, 8).Draw(t, "runs") {
		r := run{lead: 1, rows: []row{{cells: []cell{{lines: lines(1, 1)}}, above: 3, keep: true}}}
		if rapid.Bool().Draw(t, "table") {
			r.head, r.lead = &row{cells: []cell{{lines: []line{{"HEAD", plain}}}}, keep: true}, 2
			r.rows = append(r.rows, *r.head)
		}
		for range rapid.IntRange(1, 12).Draw(t, "rows") {
			keep := rapid.IntRange(0, 4).Draw(t, "keep") == 0
			r.rows = append(r.rows, row{cells: []cell{{lines: lines(1, 60)}}, pad: 1, below: 1, keep: keep})
		}
		r.rows[len(r.rows)-1].keep = false
		runs = append(runs, r)
	}
	return runs, texts
}

func TestFlowKeepsEveryLineOnAPage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs, texts := randomRuns(t)
		tall := rapid.Float64Range(60, 250).Draw(t, "tall")
		var got []string
		for _, page := range flow(runs, tall) {
			if len(page) == 0 {
				t.Fatal("an empty page")
			}
			end := 0.0
			for i, r := range page {
				if r.y < end-1e-9 {
					t.Fatalf("row %d at %g lies on the one before, which ends at %g", i, r.y, end)
				}
				end = r.y + r.height()
				for _, l := range r.cells[0].lines {
					if l.text != "HEAD" {
						got = append(got, l.text)
					}
				}
			}
			if end > tall+1e-9 {
				t.Fatalf("a page of %g is filled to %g", tall, end)
			}
		}
		if strings.Join(got, ";") != strings.Join(texts, ";") {
			t.Fatalf("got lines\n%v, want\n%v", got, texts)
		}
	})
}

func TestFlowLeavesNoHeadingAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs, _ := randomRuns(t)
		for _, page := range flow(runs, rapid.Float64Range(60, 250).Draw(t, "tall")) {
			if last := page[len(page)-1]; last.above > 0 || last.cells[0].lines[0].text == "HEAD" {
				t.Fatal("a heading or a head ends a page")
			}
		}
	})
}

func TestFlowRepeatsHeads(t *testing.T) {
	head := row{cells: []cell{{lines: []line{{"HEAD", plain}}}}, keep: true}
	r := run{lead: 2, head: &head, rows: []row{{cells: []cell{{lines: []line{{"heading", plain}}}}, keep: true}, head}}
	for i := range 30 {
		r.rows = append(r.rows, row{cells: []cell{{lines: []line{{fmt.Sprint(i), plain}}}}})
	}
	pages := flow([]run{r}, 40) // ten lines a page
	if len(pages) != 4 {
		t.Fatalf("%d pages, want 4: 8, 9, 9 and 4 rows", len(pages))
	}
	for i, page := range pages {
		at := 0
		if i == 0 {
			at = 1
		}
		if page[at].cells[0].lines[0].text != "HEAD" {
			t.Errorf("page %d has no head", i+1)
		}
	}
}

func TestFitSavesAPage(t *testing.T) {
	rows := func(n int) []run {
		r := run{}
		for i := range n {
			r.rows = append(r.rows, row{cells: []cell{{lines: []line{{fmt.Sprint(i), plain}}}}})
		}
		return []run{r}
	}
	const tall = 100 // 25 lines, 26 when set closer
	for _, c := range []struct {
		lines, pages int
		lead         float64
	}{{25, 1, 4}, {26, 1, 3.76}, {27, 2, 4}, {52, 2, 3.76}, {53, 3, 4}} {
		pages := fit(rows(c.lines), tall)
		if lead := pages[0][0].cells[0].lines[0].face.lead; len(pages) != c.pages || fmt.Sprintf("%.2f", lead) != fmt.Sprintf("%.2f", c.lead) {
			t.Errorf("%d lines: %d pages set at %g, want %d at %g", c.lines, len(pages), lead, c.pages, c.lead)
		}
	}
}

func TestWrapKeepsEveryLetterWithinTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("ab é ñ\u0301 -–/,.\u00a0\n名Щ9")), 0, 300, -1).Draw(t, "text")
		width := rapid.Float64Range(2, 80).Draw(t, "width")
		s := setter{measure: perLetter}
		var got strings.Builder
		for _, l := range s.wrap(text, plain, width) {
			if perLetter(l.text, plain) > width {
				t.Fatalf("%q is wider than %g", l.text, width)
			}
			got.WriteString(l.text)
		}
		if dense(got.String()) != dense(printable(text)) {
			t.Fatalf("got %q of %q", got.String(), text)
		}
	})
}

func TestWrapBreaksWhereReadersExpect(t *testing.T) {
	s := setter{measure: perLetter}
	for _, c := range []struct {
		name, text string
		letters    float64
		want       []string
	}{
		{"spaces", "one two three", 7, []string{"one two", "three"}},
		{"hyphen", "Calloway-Ruiz", 10, []string{"Calloway-", "Ruiz"}},
		{"no break in a span", "at 17:13–17:20", 11, []string{"at", "17:13–17:20"}},
		{"no-break space", "keeps 96\u00a0%", 8, []string{"keeps", "96\u00a0%"}},
		{"long word", "abcdefghij", 4, []string{"abcd", "efgh", "ij"}},
		{"typed line", "one\n\ntwo", 9, []string{"one", "two"}},
		{"nothing", "", 9, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, l := range s.wrap(c.text, plain, 2*c.letters) {
				got = append(got, l.text)
			}
			if strings.Join(got, "|") != strings.Join(c.want, "|") {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// Any text at all, in any field, gives a print.
func TestAnyTextPrints(t *testing.T) {
	p, d := demo(t)
	rapid.Check(t, func(rt *rapid.T) {
		p, d := p.Clone(), d
		text := rapid.String()
		p.Title, p.Property.Name, p.Papers.Access = text.Draw(rt, "title"), text.Draw(rt, "name"), text.Draw(rt, "access")
		p.People[0].Name, p.People[1].Job, p.Scenes[0].Action = text.Draw(rt, "person"), text.Draw(rt, "job"), text.Draw(rt, "action")
		if len(printed(t, CallSheet(&p, d), plan.Letter)) == 0 {
			rt.Fatal("nothing printed")
		}
	})
}

// TestLastPageIsNotLonely: a last page that would hold a line or two gets some of the page before, and no page more is used.
func TestLastPageIsNotLonely(t *testing.T) {
	line := row{cells: []cell{{lines: []line{{"x", faceText}}}}}
	for n := range 200 {
		runs := []run{{rows: slices.Repeat([]row{line}, n+1)}}
		plain, got := flow(runs, 250), fit(runs, 250)
		if len(got) > len(plain) {
			t.Errorf("%d lines on %d pages instead of %d", n+1, len(got), len(plain))
		}
		if last := reach(got[len(got)-1]); len(got) > 1 && last < lonely {
			t.Errorf("%d lines: the last page is filled to %.0f mm", n+1, last)
		}
		rows := 0
		for _, page := range got {
			rows += len(page)
		}
		if rows != n+1 {
			t.Errorf("%d rows of %d", rows, n+1)
		}
	}
}
