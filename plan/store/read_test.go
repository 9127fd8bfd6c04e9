package store

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"eavelight/plan"
)

func TestReadTakesTheUsualWhereNothingIsSaid(t *testing.T) {
	for _, c := range []struct {
		name, file string
		want       func(*plan.Plan)
	}{
		{"nothing", "", func(*plan.Plan) {}},
		{"empty sections", "brief:\nscenes: []\npeople: ~\nshooting:\npapers: {}\n", func(*plan.Plan) {}},
		{"one rule", "shooting: {longest: 600}", func(p *plan.Plan) { p.Shooting.Longest = 600 }},
		{"a zero is a zero", "shooting: {prepare: 0, weights: {light: 0}, light: {golden-high: 0}}", func(p *plan.Plan) {
			p.Shooting.Prepare, p.Shooting.Weights.Light, p.Shooting.Light.GoldenHigh = 0, 0, 0
		}},
		{"no earliest call", `shooting: {earliest-call: ""}`, func(p *plan.Plan) { p.Shooting.EarliestCall = plan.NoClock }},
		{"a person weighs one and changes in fifteen minutes", "people: [{id: ada}, {id: tom, weight: 0, change: 0}]", func(p *plan.Plan) {
			p.People = []plan.Person{{ID: "ada", Weight: 1, Change: 15}, {ID: "tom"}}
		}},
		{"no further days, and they cost nothing", "shooting: {days: 0, rest: 0, weights: {again: 0, day: 0}}", func(p *plan.Plan) {
			p.Shooting.Days, p.Shooting.Rest, p.Shooting.Weights.Again, p.Shooting.Weights.Day = 0, 0, 0, 0
		}},
		{"meals sooner than usually apart", "shooting: {meal-within: 150}", func(p *plan.Plan) {
			p.Shooting.MealWithin, p.Shooting.MealApart = 150, 150
		}},
		{"meals later than usual", "shooting: {meal-within: 400, meal-apart: ~}", func(p *plan.Plan) { p.Shooting.MealWithin = 400 }},
		{"a wish's unset figures stay unset", "scenes: [{id: a, light: {wish: backlit, camera: 0}}]", func(p *plan.Plan) {
			north := plan.Bearing(0)
			p.Scenes = []plan.Scene{{ID: "a", Wish: plan.Wish{Kind: plan.Backlit, Camera: &north}}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := plan.New()
			c.want(&want)
			got, err := Decode(c.name, []byte("eavelight: 1\n"+c.file))
			if err != nil {
				t.Fatal(err)
			}
			if !same(got, want) {
				t.Errorf("got %+v\nwant %+v", got, want)
			}
		})
	}
}

// TestReadWritings reads one value written in many ways. Times are not taken for numbers to the base of sixty, nor
// words for truths, as YAML 1.1 has it (https://yaml.org/type/int.html, https://yaml.org/type/bool.html).
func TestReadWritings(t *testing.T) {
	clockAt := func(h, m int) string { return plan.ClockAt(h*60 + m).String() }
	for _, c := range []struct{ line, want string }{
		{"title: 18:30", "18:30"}, {"title: yes", "yes"}, {"title: 007", "007"}, {"title: 2027-03-06", "2027-03-06"},
		{"title: 'it''s'", "it's"}, {"title: |\n  a\n  b", "a\nb\n"}, {"title: |-\n  a\n  b", "a\nb"}, {"title: >\n  a\n  b", "a b\n"}, {"title: ~", ""}, {"title: '~'", "~"},
		{"title: Caf\u00e9 \u5c71 \U0001f3e1", "Café 山 🏡"}, {"title: a  # remark", "a"}, {"title:", ""},
		{"shooting: {earliest-call: 18:30}", clockAt(18, 30)}, {"shooting: {earliest-call: '06:05'}", clockAt(6, 5)},
		{"shooting: {earliest-call: 7 pm}", clockAt(19, 0)}, {"shooting: {latest-wrap: 25:30, earliest-call: 24:10}", clockAt(24, 10)},
	} {
		p, err := Decode("file", []byte("eavelight: 1\n"+c.line+"\n"))
		if err != nil {
			t.Errorf("%s: %v", c.line, err)
			continue
		}
		got := p.Title
		if strings.HasPrefix(c.line, "shooting") {
			got = p.Shooting.EarliestCall.String()
		}
		if got != c.want {
			t.Errorf("%s: read %q", c.line, got)
		}
	}
}

func TestReadTakesTheMarksOfOtherSystems(t *testing.T) {
	want := must1[plan.Plan](t)(Decode("doc", example(t)))
	for name, change := range map[string]func([]byte) []byte{
		"byte order mark": func(b []byte) []byte { return append([]byte("\ufeff"), b...) },
		"CRLF":            func(b []byte) []byte { return bytes.ReplaceAll(b, []byte("\n"), []byte("\r\n")) },
		"document start":  func(b []byte) []byte { return append([]byte("---\n"), b...) },
		"no last newline": bytes.TrimSpace,
	} {
		got, err := Decode(name, change(example(t)))
		if err != nil || !same(got, want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// hostile are files made to eat time or memory, by what they repeat: as often as the limits let pass, and once more.
func hostile() map[string][]byte {
	fill := func(unit string) []byte {
		times := (maxBytes - 20) / len(unit)
		if n := marks([]byte(unit)); n > 0 {
			times = min(times, (maxMarks-3)/n)
		}
		return []byte("eavelight: 1\nx: " + strings.Repeat(unit, times))
	}
	files := map[string][]byte{"100 MB": make([]byte, 100<<20), "stairs": stairs(), "long list": longList(),
		"too many marks": append(fill(","), ','), "too many bytes": append(fill("a"), "aaaaaaaaa"...)}
	for _, unit := range []string{"[", "{a: ", "{", "[a,", "- ", "\n- ", "? ", "a: ", "\na:\n", "&a ", "*a ", "! ", "!!a ", "\n---\n", "[],",
		"\"", "'", "\\", "?:", "|\n", "\n|", "%a\n", "\n\t", "`", "\n  #", "<<: ", "\x00", "\xff", "\u2028", "a "} {
		files[fmt.Sprintf("%q", unit)] = fill(unit)
	}
	return files
}

// stairs go down one key a line.
func stairs() []byte {
	out := []byte("eavelight: 1\n")
	for i := 0; len(out)+i+4 < maxBytes; i++ {
		out = append(out, strings.Repeat(" ", i)+"a:\n"...)
	}
	return out
}

func longList() []byte {
	return []byte("eavelight: 1\nscenes:\n" + strings.Repeat("  - {}\n", plan.MaxItems+1))
}

// TestHostileFilesAreRefusedInLittleMemory bounds what is allocated in all, freed or not.
func TestHostileFilesAreRefusedInLittleMemory(t *testing.T) {
	for name, data := range hostile() {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Decode("hostile", data)
		runtime.ReadMemStats(&after)
		if err == nil {
			t.Errorf("%s: read as a plan", name)
			continue
		}
		checkRefusal(t, err)
		if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 150 { // 98 MB without the race detector, of which most is the words of 100,000 faults
			t.Errorf("%s: took %d MB", name, used)
		} else if testing.Verbose() {
			t.Logf("%-10s %3d MB: %.160s", name, used, err)
		}
	}
}

func TestALargeFileIsNotReadToItsEnd(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.plan.yaml")
	f := must1[*os.File](t)(os.Create(path))
	if err := errors.Join(f.Truncate(1<<40), f.Close()); err != nil { // a hole, not a terabyte
		t.Skip("this disk makes no holes: ", err)
	}
	_, _, err := Read(path)
	var faults Faults
	if !errors.As(err, &faults) || !strings.Contains(err.Error(), "larger than 1024 kB") {
		t.Errorf("got %v", err)
	}
}

func TestTooManyFaultsAreCut(t *testing.T) {
	_, err := Decode("file", []byte("eavelight: 1\npapers:\n  safety:\n"+strings.Repeat("    -\n", 400)))
	var faults Faults
	if !errors.As(err, &faults) || len(faults) != maxFaults+1 || faults[maxFaults].Text.String() != "and 300 more like these" {
		t.Errorf("got %v", err)
	}
}

func TestNewerFormatIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "day.plan.yaml")
	data := []byte("eavelight: 7\nshots: [later]\n")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	_, _, err := Read(path)
	var newer *NewerError
	if !errors.As(err, &newer) || newer.Format != "7" || !strings.Contains(err.Error(), "update the program") {
		t.Errorf("got %v", err)
	}
	if got := must1[[]byte](t)(os.ReadFile(path)); !bytes.Equal(got, data) {
		t.Errorf("the file became %q", got)
	}
}

// fourteen is the example with its scenes and people repeated to the size of a full day.
func fourteen(b *testing.B) plan.Plan {
	p := must1[plan.Plan](b)(Decode("doc", example(b)))
	for i := len(p.Scenes); i < 14; i++ {
		s := p.Scenes[i%5]
		s.ID, s.Number = plan.ID(fmt.Sprint("more-", i)), ""
		s.Action, s.Notes = strings.Repeat("They lay the table. ", 8), strings.Repeat("Hold for the swallows.\n", 4)
		p.Scenes = append(p.Scenes, s)
	}
	for i := len(p.People); i < 12; i++ {
		q := p.People[0]
		q.ID = plan.ID(fmt.Sprint("more-", i))
		p.People = append(p.People, q)
	}
	return p
}

func BenchmarkDecode(b *testing.B) {
	data := encoded(b, fourteen(b))
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Decode("plan", data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEncode(b *testing.B) {
	p := fourteen(b)
	for b.Loop() {
		if _, err := Encode(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	p, path := fourteen(b), filepath.Join(b.TempDir(), "day.plan.yaml")
	var stamp Stamp
	for i := 0; b.Loop(); i++ {
		p.Brief.Due = plan.Date{Year: 2027, Month: 1, Day: 1 + i%2}
		stamp = must1[Stamp](b)(Write(path, p, stamp))
	}
}

// BenchmarkReadDemo opens the demo plan from its file.
func BenchmarkReadDemo(b *testing.B) {
	for b.Loop() {
		if _, _, err := Read("../../testdata/tarn-ledge.eavelight"); err != nil {
			b.Fatal(err)
		}
	}
}

// TestLargestSignature: a signature with all the strokes and points that it may have is saved and read back.
func TestLargestSignature(t *testing.T) {
	p := plan.New()
	line := make(plan.Stroke, plan.MaxPoints/plan.MaxStrokes)
	for i := range line {
		line[i] = plan.Point{X: 10_000 - i, Y: 9_000 + i}
	}
	p.Releases = []plan.Release{{ID: "r", Signature: &plan.Signature{Name: "Ada Brook", At: time.Unix(1_800_000_000, 0).UTC(), Consent: true,
		Digest: strings.Repeat("0", 64), Size: plan.PadSize{Width: 10_000, Height: 10_000}, Strokes: slices.Repeat([]plan.Stroke{line}, plan.MaxStrokes)}}}
	data, err := Encode(p)
	if err != nil {
		t.Fatal(err)
	}
	if back, err := Decode("plan", data); err != nil || !same(p, back) {
		t.Errorf("%v; %d bytes", err, len(data))
	}
}
