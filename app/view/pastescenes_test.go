package view

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"eavelight/app/session"
	"eavelight/plan"

	"pgregory.net/rapid"
)

func pastePlan() plan.Plan {
	p := plan.New()
	p.Property.Spaces = []plan.Space{{ID: "kitchen", Name: "Kitchen"}, {ID: "deck", Name: "Garden deck"}, {ID: "deck-2", Name: "Tarn deck"}, {ID: "k2", Name: "Old, the kitchen"}}
	p.People = []plan.Person{{ID: "nina", Name: "Nina Valdry"}, {ID: "theo", Name: "Theo Lund"}, {ID: "theo-2", Name: "Theo Lund"}, {ID: "odd"}}
	p.Scenes = []plan.Scene{{ID: "first", Number: "1", Title: "First"}}
	return p
}

// TestReadScenes: cells as spreadsheets put them on the clipboard, divided by tabs, those with line breaks, tabs or quotation marks
// in quotation marks, these doubled (as LibreOffice and others do; from memory), and as RFC 4180 writes them, divided by commas.
func TestReadScenes(t *testing.T) {
	for _, test := range []struct{ name, text, want, refused string }{
		{"headings in any order", "Title\tMinutes\tRoom\tBudget\nCoffee\t25\tgarden\t900\n", "2|Coffee|deck||any|15|25|0|should", ""},
		{"the order of the table", "2\tCoffee\tKitchen\tNina\tgolden evening\t10\t25\t8\tmust\tShe pours.", "2|Coffee|kitchen|nina|golden evening|10|25|8|must", ""},
		{"titles alone", "Coffee\nSupper", "2|Coffee||||15|20|0|should 3|Supper||||15|20|0|should", ""},
		{"no numbers", "Coffee\tkitchen\nSupper\tkitchen", "2|Coffee|kitchen|||15|20|0|should 3|Supper|kitchen|||15|20|0|should", ""},
		{"commas and units", "scene no.,TITLE,Set-up (min),Shoot min,screen time\r\n7A,Coffee,10 min,1:05,0:08\r\n", "7A|Coffee||||10|65|8|should", ""},
		{"semicolons", "Title;Space\nCoffee;Kitchen\n", "2|Coffee|kitchen|||15|20|0|should", ""},
		{"quoted cells", "Title\tAction\tPeople\n\"Say \"\"tea\"\"\"\t\"one\ntwo\"\t\"Nina; odd\"\n", `2|Say "tea"||nina odd||15|20|0|should`, ""},
		{"an inch sign", "Title\tKit\nCoffee 5\" pan\tpan, lid\n", `2|Coffee 5" pan||||15|20|0|should`, ""},
		{"figures as spreadsheets show them", "Title\tSet-up\tSeconds\nCoffee\t10.00\t8,0\n", "2|Coffee||||10|20|8|should", ""},
		{"a taken number", "No.\tTitle\n1\tCoffee\n4\tTea\n4\tMilk\n", "5|Coffee||||15|20|0|should 4|Tea||||15|20|0|should 6|Milk||||15|20|0|should",
			`number: "1" is taken; it gets another number: "4" is taken; it gets another`},
		{"cells that make no sense", "Title\tSpace\tPeople\tLight\tShooting\nCoffee\tsauna\tTheo L\tgolden\tsoon\n", "2|Coffee||||15|20|0|should",
			`space: no space is called "sauna"; there is Kitchen, Garden deck, Tarn deck or Old, the kitchen ` +
				`people: "Theo L" may be Theo Lund (theo) or Theo Lund (theo-2): write more of it ` +
				`light wish: "golden" may be golden morning or golden evening: write more of it shooting minutes: "soon" is not a whole number of minutes`},
		{"out of range", "Title\tShooting\nCoffee\t99999\n", "2|Coffee||||15|20|0|should", "shooting minutes: 99999 is outside 0 to 2160"},
	} {
		p := pastePlan()
		got, err := ReadScenes(&p, test.text)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		var rows, refused []string
		ids := got.AddTo(&p, len(p.Scenes))
		for i, id := range ids {
			s, _ := p.Scene(id)
			var people []string
			for _, q := range s.People {
				people = append(people, string(q))
			}
			rows = append(rows, strings.Join([]string{s.Number, s.Title, string(s.Space), strings.Join(people, " "), string(s.Wish.Kind),
				fmt.Sprint(int(s.Setup)), fmt.Sprint(int(s.Shoot)), fmt.Sprint(s.Seconds), string(s.Importance)}, "|"))
			refused = append(refused, got.Rows[i].Refused...)
		}
		want := strings.ReplaceAll(test.want, "|any|", "||")
		if r := strings.Join(rows, " "); r != want {
			t.Errorf("%s:\n%s, want\n%s", test.name, r, want)
		}
		if r := strings.Join(refused, " "); r != test.refused {
			t.Errorf("%s: refused is\n%s, want\n%s", test.name, r, test.refused)
		}
	}
	p := pastePlan()
	got, _ := ReadScenes(&p, "Title\tAction\tBudget\nCoffee\t\"one\ntwo\"\t900\n")
	if a := got.Rows[0].Scene.Action; a != "one\ntwo" {
		t.Errorf("a cell of two lines gives %q", a)
	}
	if want := `1 scene would be added, with title, action. The column "Budget" is not taken.`; got.Summary() != want {
		t.Errorf("%q, want %q", got.Summary(), want)
	}
	if got, _ = ReadScenes(&p, "Title\tAction\nA\t\"open\nB\tb\n"); !strings.Contains(got.Summary(), "A quotation mark in line 2 has no partner") {
		t.Errorf("a quotation mark without a partner is not told: %q", got.Summary())
	}
	for text, want := range map[string]string{"": "nothing to paste", " \n\t\n": "nothing to paste", "Title\tSpace\n": "no row of a scene", strings.Repeat("x\t", 400): "more than a table"} {
		if _, err := ReadScenes(&p, text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.20q is answered with %v", text, err)
		}
	}
}

// TestCellsRoundTrip: what each column writes of a scene it reads again, whatever people and spaces are called; a row that the writer
// of Go's standard library makes of it (RFC 4180, with tabs) is read as it was.
func TestCellsRoundTrip(t *testing.T) {
	name := rapid.SampledFrom([]string{"", "Deck", "deck", "Deck, upper", "Ä b", "x", "Nina", "Nina Valdry", "a\nb", `"q"`, "nina"})
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		for i := range rapid.IntRange(0, 4).Draw(t, "spaces") {
			p.Property.Spaces = append(p.Property.Spaces, plan.Space{ID: plan.ID(fmt.Sprint("s", i)), Name: name.Draw(t, "space")})
			p.People = append(p.People, plan.Person{ID: plan.ID(fmt.Sprint("p", i)), Name: name.Draw(t, "person")})
		}
		s := plan.Scene{ID: "x", Number: rapid.StringMatching(`[0-9]{0,3}[A-C]?`).Draw(t, "number"), Title: rapid.StringMatching(`[a-zé"',;]{1,9}`).Draw(t, "title"),
			Setup: plan.Minutes(rapid.IntRange(0, 2000).Draw(t, "setup")), Shoot: plan.Minutes(rapid.IntRange(0, 2000).Draw(t, "shoot")),
			Seconds: rapid.IntRange(0, 5000).Draw(t, "seconds"), Importance: rapid.SampledFrom(plan.Importances).Draw(t, "importance")}
		s.SetWishKind(rapid.SampledFrom(plan.WishKinds).Draw(t, "wish"))
		for _, sp := range p.Property.Spaces {
			s.Space = sp.ID
		}
		for _, q := range p.People {
			if rapid.Bool().Draw(t, "in") {
				s.People = append(s.People, q.ID)
			}
		}
		var heads, cells []string
		for _, c := range SceneColumns {
			text := c.Text(&p, &s)
			change, err := c.Read(&p, text)
			if err != nil {
				t.Fatalf("%s: %q: %v", c.Field, text, err)
			}
			got := s
			got.People = slices.Clone(s.People)
			if change(&got); fmt.Sprint(got) != fmt.Sprint(s) {
				t.Fatalf("%s: %q makes %v of %v", c.Field, text, got, s)
			}
			heads, cells = append(heads, c.Field), append(cells, text)
		}
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		w.Comma = '\t'
		w.WriteAll([][]string{heads, cells})
		pasted, err := ReadScenes(&p, b.String())
		if err != nil || len(pasted.Rows) != 1 || len(pasted.Rows[0].Refused) > 0 {
			t.Fatalf("%q: %v, %+v", b.String(), err, pasted)
		}
		got := pasted.Rows[0].Scene
		if got.ID = s.ID; s.Setup == 0 || s.Shoot == 0 || s.Wish.Kind == plan.Any { // an empty cell leaves what is usual
			return
		}
		if fmt.Sprint(got) != fmt.Sprint(s) {
			t.Fatalf("%v comes back as %v", s, got)
		}
	})
}

// FuzzReadScenes: nothing that is on a clipboard makes it fall over, or a plan wrong; a row is a scene, or is told of.
func FuzzReadScenes(f *testing.F) {
	for _, s := range []string{"Title\tSpace\nCoffee\tKitchen\n", "1,a,b\n2,\"c\nd\",e", "\"", "a\t\"b\nc\t\"d", "No.\nNo.\n", "\xff\xfeT\x00", "sep=;\nTitle;x", "7\t\t\tNina; Theo\tdark\t-1\t1e9\t:\tmust"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := pastePlan()
		got, err := ReadScenes(&p, text)
		if err != nil {
			if len(got.Rows) > 0 || err.Error() == "" {
				t.Fatalf("%d rows and %v", len(got.Rows), err)
			}
			return
		}
		if got.Summary() == "" || len(got.Rows) == 0 || len(got.Rows) > mostPasted || strings.ContainsAny(got.Summary(), "\n\r") {
			t.Fatalf("%d rows: %q", len(got.Rows), got.Summary())
		}
		ids := got.AddTo(&p, 1)
		if len(ids) != len(got.Rows) || len(p.Scenes) != 1+len(ids) {
			t.Fatalf("%d scenes of %d rows", len(p.Scenes)-1, len(got.Rows))
		}
		if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
			t.Fatal(wrong)
		}
		for _, s := range p.Scenes {
			if s.Number == "" {
				t.Fatal("a scene has no number")
			}
		}
	})
}

// TestSceneLines: people by their first names where these tell them apart, and what nobody said is faint.
func TestSceneLines(t *testing.T) {
	p := pastePlan()
	p.Scenes = []plan.Scene{{ID: "a", Space: "k2", People: []plan.ID{"nina", "theo", "odd"}}}
	rows := SceneLines(session.State{Plan: p}, "", "")
	want := []string{"", "untitled scene", "Old, the kitchen", "Nina, Theo Lund, odd", "any", "", "", "", "should"}
	if !slices.Equal(rows[0].Cells, want) || !rows[0].Faint(1) || rows[0].Faint(2) {
		t.Errorf("%q, want %q", rows[0].Cells, want)
	}
}
