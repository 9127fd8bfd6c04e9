package papers

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/day"
	"eavelight/plan/light"

	"pgregory.net/rapid"
)

// record is a surface that remembers what is drawn on it.
type record struct {
	texts []area
	fills []area
	marks []area
}

// area is the room that something takes.
type area struct {
	text           string
	x0, y0, x1, y1 float64
	tint           tint
}

func around(points []point, t tint) area {
	b := area{x0: math.Inf(1), y0: math.Inf(1), x1: math.Inf(-1), y1: math.Inf(-1), tint: t}
	for _, p := range points {
		b.x0, b.y0, b.x1, b.y1 = min(b.x0, p.x), min(b.y0, p.y), max(b.x1, p.x), max(b.y1, p.y)
	}
	return b
}

func (r *record) fill(corners []point, t tint) { r.fills = append(r.fills, around(corners, t)) }

func (r *record) stroke(p path, _ float64, t tint) { r.marks = append(r.marks, around(p.points(), t)) }

// text takes the room from its lines' tops to under its base: an x-height of our type is about half its size, its descent a fifth.
func (r *record) text(x, y float64, l line) {
	size := l.face.size * millimetres
	r.texts = append(r.texts, area{l.text, x, y - 0.75*size, x + widthOf(l.text, l.face), y + 0.2*size, l.face.tint})
}

// anyDay draws a plan anywhere on Earth on any day: any clock, any call, any length, any skyline, scenes and people as they fall.
func anyDay(t *rapid.T) (plan.Plan, day.Day) {
	word := rapid.SampledFrom(append([]string{"", " ", "7", "a\nb", "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW", "名前", "The evening toast on the terrace"}, names...))
	p := plan.New()
	p.Papers.Clock = rapid.SampledFrom([]plan.HourClock{plan.Clock12, ""}).Draw(t, "clock")
	p.Property.Zone = rapid.SampledFrom([]string{"America/Los_Angeles", "Europe/Oslo", "Australia/Lord_Howe", "Asia/Kathmandu", "Pacific/Kiritimati", "UTC"}).Draw(t, "zone")
	p.Property.Position = &plan.Position{Lat: rapid.Float64Range(-90, 90).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")}
	for i := range rapid.IntRange(0, 4).Draw(t, "faces") {
		p.Property.Faces = append(p.Property.Faces, plan.Face{ID: plan.ID(fmt.Sprint("f", i)), Name: word.Draw(t, "face"), Bearing: plan.Bearing(rapid.Float64Range(0, 360).Draw(t, "bearing"))})
	}
	for range rapid.IntRange(0, 3).Draw(t, "obstacles") {
		p.Property.Obstacles = append(p.Property.Obstacles, plan.Obstacle{Height: plan.Metres(rapid.Float64Range(1, 300).Draw(t, "height")), Distance: 100,
			From: plan.Bearing(rapid.Float64Range(0, 359).Draw(t, "from")), To: plan.Bearing(rapid.Float64Range(0, 359).Draw(t, "to"))})
	}
	zone, err := time.LoadLocation(p.Property.Zone)
	if err != nil {
		t.Fatal(err)
	}
	date := plan.Date{Year: 2027, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 365).Draw(t, "date"))
	d := day.Day{Date: date, Zone: zone, Sky: light.NewSky(&p, zone, date)}
	if rapid.Bool().Draw(t, "placed") {
		d.Call = plan.Instant(date, plan.ClockAt(rapid.IntRange(0, 1439).Draw(t, "call")), zone)
		anySchedule(t, &p, &d, word)
	}
	return p, d
}

func anySchedule(t *rapid.T, p *plan.Plan, d *day.Day, word *rapid.Generator[string]) {
	for i := range rapid.IntRange(1, 4).Draw(t, "spaces") {
		p.Property.Spaces = append(p.Property.Spaces, plan.Space{ID: plan.ID(fmt.Sprint("s", i)), Name: word.Draw(t, "space")})
	}
	at := d.Call
	pass := func(most int, what string) time.Time {
		at = at.Add(time.Duration(rapid.IntRange(0, most).Draw(t, what)) * time.Minute)
		return at
	}
	for i := range rapid.IntRange(0, 20).Draw(t, "scenes") {
		id := plan.ID(fmt.Sprint("c", i))
		wish := rapid.SampledFrom([]plan.WishKind{plan.Any, plan.Daylight}).Draw(t, "wish")
		p.Scenes = append(p.Scenes, plan.Scene{ID: id, Number: rapid.SampledFrom([]string{"", "1", "12", "104B"}).Draw(t, "number"), Title: word.Draw(t, "title"),
			Space: rapid.SampledFrom(p.Property.Spaces).Draw(t, "where").ID, Wish: plan.Wish{Kind: wish}})
		d.Scenes = append(d.Scenes, day.Placed{Scene: id, Setup: pass(30, "before"), Start: pass(30, "setup"), End: pass(60, "shoot"), Kept: rapid.Float64Range(0, 1).Draw(t, "kept")})
	}
	meal := plan.Span{From: pass(60, "gap"), To: pass(60, "meal")}
	d.Meals, d.Wrap = []plan.Span{meal}, pass(60, "wrap").Add(time.Minute)
	for i := range rapid.IntRange(0, 12).Draw(t, "people") {
		id := plan.ID(fmt.Sprint("p", i))
		p.People = append(p.People, plan.Person{ID: id, Name: word.Draw(t, "name"), Job: word.Draw(t, "job")})
		d.People = append(d.People, day.Presence{Person: id, Call: d.Call, Release: d.Wrap, Waiting: d.Meals})
	}
}

// TestFiguresKeepTheirWordsApart draws figures of any day: no words lie on others, and nothing leaves the figure's room.
func TestFiguresKeepTheirWordsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, d := anyDay(t)
		c := newCaller(&p, d)
		width := rapid.Float64Range(150, 192).Draw(t, "width")
		picture, ok := DayPicture(&p, d)
		if !ok {
			t.Fatal("no picture")
		}
		for _, f := range []Figure{c.skyRibbon(), picture} {
			var on record
			f.draw(&on, 0, 0, width)
			within(t, on, width, f.tall(width))
			apart(t, on.texts)
			for _, b := range on.texts {
				if strings.ContainsAny(b.text, "\n\t") || b.text == "" {
					t.Errorf("%q can't be set on a line", b.text)
				}
			}
		}
	})
}

// within checks that nothing leaves the room, but for the thickness of a pen and the feet of marks on its edge.
func within(t rapid.TB, on record, width, tall float64) {
	const pen = 1.0
	for _, b := range on.texts {
		if b.x0 < -1e-6 || b.x1 > width+1e-6 || b.y0 < -1e-6 || b.y1 > tall+1e-6 {
			t.Errorf("%q leaves the room of %.1f × %.1f: %.2f to %.2f, %.2f to %.2f", b.text, width, tall, b.x0, b.x1, b.y0, b.y1)
		}
	}
	for _, b := range append(on.fills, on.marks...) {
		if !(b.x0 >= -pen && b.x1 <= width+pen && b.y0 >= 0 && b.y1 <= tall) { // false for NaN too
			t.Errorf("a mark leaves the room of %.1f × %.1f: %+v", width, tall, b)
		}
	}
}

func apart(t rapid.TB, texts []area) {
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q lies on %q: %+v, %+v", a.text, b.text, a, b)
			}
		}
	}
}

// TestRibbonTellsThePlacesOfTheSun: the curve leaves the horizon and meets it where the sun rises and sets; package light holds those
// moments against sources outside the project.
func TestRibbonTellsThePlacesOfTheSun(t *testing.T) {
	p, d := demo(t)
	p.Property.Obstacles = nil
	f := newCaller(&p, d).skyRibbon().(skyRibbon)
	var on record
	const width = 180.0
	f.draw(&on, 0, 0, width)
	way := area{}
	for _, m := range on.marks {
		if m.tint == ink && m.x1-m.x0 > 100 && m.y1-m.y0 > 5 {
			way = m
		}
	}
	e := d.Sky.Events
	for name, c := range map[string]struct {
		got  float64
		want time.Time
	}{"its beginning": {way.x0, e.Rise.Up}, "its end": {way.x1, e.Rise.Down}} {
		if want := f.at(c.want, width); math.Abs(c.got-want) > 0.9 { // the curve is of the disc's middle, whose edge is 16' ahead: 3 minutes are 0.6 mm
			t.Errorf("%s stands at %.1f mm, the event at %.1f", name, c.got, want)
		}
	}
}

// TestSkylineBites has the sun's way end where a wall hides it.
func TestSkylineBites(t *testing.T) {
	p, d := demo(t)
	p.Property.Obstacles = []plan.Obstacle{{Name: "cliff", Height: 100, Distance: 100, From: 180, To: 300}}
	d.Sky = light.NewSky(&p, d.Zone, d.Date)
	f := newCaller(&p, d).skyRibbon().(skyRibbon)
	var on record
	f.draw(&on, 0, 0, 180)
	over := d.Sky.SunOver()
	gone := f.at(over[len(over)-1].To, 180)
	for _, m := range on.marks {
		if m.tint == ink && m.y1-m.y0 > 2.5 && math.Abs(m.x1-gone) > 1 {
			t.Errorf("the sun's way ends at %.1f mm, but the cliff takes the sun at %.1f", m.x1, gone)
		}
	}
	dots := 0
	for _, b := range on.fills {
		if b.tint == white && b.x1-b.x0 < 0.6 && b.x0 > gone-1 {
			dots++
		}
	}
	if dots < 10 {
		t.Errorf("%d dots on the hidden way", dots)
	}
}

// TestHoursOfTheWallClock: 2027-03-14 has no 02:00 in Los Angeles, 2027-11-07 has two 01:00 (tz database, rule US since 2007); Lord Howe
// changes by half an hour on 2027-04-04 (rule LH since 2008).
func TestHoursOfTheWallClock(t *testing.T) {
	for _, c := range []struct {
		zone string
		date plan.Date
		hour int
		want int
	}{{"America/Los_Angeles", plan.Date{Year: 2027, Month: 3, Day: 14}, 2, 0}, {"America/Los_Angeles", plan.Date{Year: 2027, Month: 11, Day: 7}, 1, 2},
		{"Australia/Lord_Howe", plan.Date{Year: 2027, Month: 4, Day: 4}, 2, 1}} {
		zone, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		l := timeline{wall{date: c.date, zone: zone}, plan.Span{From: plan.Instant(c.date, plan.ClockAt(0), zone), To: plan.Instant(c.date, plan.ClockAt(24*60), zone)}}
		count := map[int]int{}
		for _, h := range l.hours() {
			if h.Minute() != 0 {
				t.Errorf("%s is no whole hour", h)
			}
			count[h.Hour()]++
		}
		if count[c.hour] != c.want || count[12] != 1 || count[23] != 1 {
			t.Errorf("%s, %s: hours %v", c.zone, c.date, count)
		}
	}
}

func TestNoFigureWithoutAPosition(t *testing.T) {
	p, d := demo(t)
	p.Property.Position = nil
	d.Sky = light.NewSky(&p, d.Zone, d.Date)
	c := newCaller(&p, d)
	if c.skyRibbon() != nil || c.geoCode() != nil {
		t.Error("a figure of nowhere")
	}
	if f, ok := DayPicture(&p, d); ok || f != nil {
		t.Error("a picture of nowhere")
	}
	var out bytes.Buffer
	if err := DayPNG(&out, &p, d, 1600); err == nil || out.Len() > 0 {
		t.Error("a file of nowhere")
	}
	p, d = demo(t)
	for _, width := range []int{-1, 0, 199, 10_001} {
		if err := DayPNG(&out, &p, d, width); err == nil {
			t.Errorf("a picture %d wide", width)
		}
	}
}

// TestDayPictureIsPrivate: a picture that goes round names nobody's family, and holds no contact.
func TestDayPictureIsPrivate(t *testing.T) {
	p, d := demo(t)
	private(&p)
	p.People[0].Name, p.People[1].Name = "Noor Halvardsen", "Noor Brackwater"
	p.People[2].Name = ""
	f, _ := DayPicture(&p, d)
	var on record
	f.draw(&on, 0, 0, 184)
	var said []string
	for _, b := range on.texts {
		said = append(said, b.text)
	}
	all := strings.Join(said, "\n")
	for _, secret := range []string{"LEAK", "Halvardsen", "Sandoval", "555", "ines"} {
		if strings.Contains(all, secret) {
			t.Errorf("the picture tells %q:\n%s", secret, all)
		}
	}
	for _, want := range []string{"Noor, director", "Noor, light an", "drone pilot", "Amara", "Breakfast", "Living room", "garden face, 268°"} {
		if !strings.Contains(all, want) {
			t.Errorf("the picture lacks %q:\n%s", want, all)
		}
	}
}

func TestDayPictureFitsAPage(t *testing.T) {
	p, d := torture(t)
	f, _ := DayPicture(&p, d)
	for _, size := range plan.PaperSizes {
		l := Sheet{Title: "T", Sections: []Section{{Heading: "The day", Figure: f}}}.lay(size, madeAt)
		if len(l.pages) != 1 {
			t.Errorf("%s: a picture of %.0f mm takes %d pages", size, f.tall(l.wide-2*marginSide), len(l.pages))
		}
	}
}

// TestDayPNG: the same bytes for the same day, as wide as asked, and the grey of it still tells the sun on a face from its shade.
func TestDayPNG(t *testing.T) {
	p, d := demo(t)
	var first, second bytes.Buffer
	for _, out := range []*bytes.Buffer{&first, &second} {
		if err := DayPNG(out, &p, d, 1600); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the same day gives other bytes")
	}
	got, err := png.Decode(&first)
	if err != nil {
		t.Fatal(err)
	}
	if got.Bounds().Dx() != 1600 {
		t.Errorf("%d pixels wide", got.Bounds().Dx())
	}
}

// Contrasts after WCAG 2.2, 1.4.11 and 1.4.3: 3 to 1 for marks, 4.5 to 1 for words, by the relative luminance of its definition.
func TestFiguresReadInGrey(t *testing.T) {
	for altitude := -20.0; altitude < 91; altitude += 0.5 {
		s := skyAt(altitude)
		for _, sky := range []tint{s.high, s.low} {
			if best := max(contrast(ink, sky), contrast(white, sky)); best < 3 {
				t.Errorf("the sun's way has a contrast of %.1f to the sky at %.1f°", best, altitude)
			}
		}
	}
	if c := contrast(ink, bright); c < 3 {
		t.Errorf("the sun's edge on a face: %.1f", c)
	}
	if c := contrast(bright, shade); c < 1.8 {
		t.Errorf("the sun on a face to its shade: %.1f, besides the line between them", c)
	}
	for name, c := range map[string]float64{"a filled bar": contrast(copper, white), "a bar that asks for none": contrast(soft, white), "hours": contrast(soft, white)} {
		if c < 3 {
			t.Errorf("%s: %.1f", name, c)
		}
	}
}

func contrast(a, b tint) float64 {
	luminance := func(t tint) float64 {
		linear := func(v int) float64 {
			if c := float64(v) / 255; c > 0.04045 {
				return math.Pow((c+0.055)/1.055, 2.4)
			} else {
				return c / 12.92
			}
		}
		return 0.2126*linear(t.r) + 0.7152*linear(t.g) + 0.0722*linear(t.b)
	}
	hi, lo := luminance(a), luminance(b)
	return (max(hi, lo) + 0.05) / (min(hi, lo) + 0.05)
}

// readCode reads the codes in a picture with zbar, a reader that is not ours.
func readCode(t *testing.T, picture image.Image) string {
	t.Helper()
	tool, err := exec.LookPath("zbarimg")
	if err != nil {
		t.Skip("zbarimg is not installed (package zbar-tools): the code is not read back")
	}
	path := filepath.Join(t.TempDir(), "page.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, picture); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "--quiet", "--raw", path).Output()
	if err != nil {
		t.Errorf("zbarimg: %v", err)
	}
	return strings.TrimSpace(string(out))
}

// TestCodeIsRead has the position read off the page, from our picture and from poppler's of the print. The URIs are written by hand after
// RFC 5870.
func TestCodeIsRead(t *testing.T) {
	p, d := demo(t)
	for want, at := range map[string]plan.Position{"geo:34.1234,-116.4321": {Lat: 34.1234, Lon: -116.4321}, "geo:-33.123456,151.654321": {Lat: -33.123456, Lon: 151.654321},
		"geo:0,0": {}, "geo:-89.999999,-179.999999": {Lat: -89.999999, Lon: -179.999999}} {
		p.Property.Position = &at
		d.Sky = light.NewSky(&p, d.Zone, d.Date)
		s := CallSheet(&p, d)
		if got := readCode(t, s.Pages(plan.A4, madeAt).Picture(0, 1000)); got != want {
			t.Errorf("our picture: %q, want %q", got, want)
		}
		if got := readCode(t, rendered(t, s)); got != want {
			t.Errorf("the print: %q, want %q", got, want)
		}
	}
}

// TestCodeStandsFree: nothing lies within four modules of the code (ISO/IEC 18004), on a page as it is.
func TestCodeStandsFree(t *testing.T) {
	p, d := demo(t)
	p.Property.Address = strings.Repeat("W", 200)
	const quiet = 4
	for _, size := range plan.PaperSizes {
		l := CallSheet(&p, d).lay(size, madeAt)
		for _, r := range l.pages[0] {
			g, ok := r.figure.(geoCode)
			if !ok {
				continue
			}
			m := besideWide / float64(g.code.Size()+quiet)
			x1, y0 := l.wide-marginSide, marginTop+r.y+r.above+r.pad
			free := area{x0: x1 - besideWide, y0: y0 - quiet*m, x1: x1 + quiet*m, y1: y0 + besideWide}
			var on record
			l.draw(&on, 0)
			inside := 0
			for _, b := range append(append(on.texts, on.fills...), on.marks...) {
				if b.x0 >= x1-besideWide+quiet*m-1e-6 && b.y0 >= y0-1e-6 && b.y1 <= free.y1-quiet*m+1e-6 {
					inside++ // the code itself
				} else if b.x0 < free.x1 && free.x0 < b.x1 && b.y0 < free.y1-1e-6 && free.y0 < b.y1 {
					t.Errorf("%s: %+v lies in the quiet zone %+v", size, b, free)
				}
			}
			if inside < 100 {
				t.Errorf("%s: a code of %d runs", size, inside)
			}
			return
		}
		t.Errorf("%s: no code on the first page", size)
	}
}

// TestFiguresAreSoundPDF has qpdf, a checker that is not ours, read the prints that hold figures.
func TestFiguresAreSoundPDF(t *testing.T) {
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed: the print is not checked")
	}
	p, d := demo(t)
	f, _ := DayPicture(&p, d)
	for name, s := range map[string]Sheet{"call sheet": CallSheet(&p, d), "day": {Title: "T", Sections: []Section{{Heading: "The day", Figure: f}}}} {
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, printed(t, s, plan.A4), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(tool, "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
	}
}

// TestLongFactsStandBesideTheCode: facts that are higher than a figure lose nothing, and the code stays on the page.
func TestLongFactsStandBesideTheCode(t *testing.T) {
	p, d := demo(t)
	for _, n := range []int{0, 1, 40, 400} {
		p.Papers.Access = strings.Repeat("Along the lane and over the bridge. ", n)
		s := CallSheet(&p, d)
		for _, size := range plan.PaperSizes {
			holdsWords(t, s, size)
		}
	}
}

func TestCutKeepsLettersWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(append([]string{"", " ", "a\u0301\u0302\u0303\u0304b", "…", "名前\nNoor"}, names...)).Draw(t, "text")
		width := rapid.Float64Range(-1, 60).Draw(t, "width")
		got := cutTo(text, faceText, width)
		if got != "" && widthOf(got, faceText) > width {
			t.Errorf("%q is wider than %.1f", got, width)
		}
		whole := flat(text)
		short := strings.TrimSuffix(got, "…")
		rest, _ := utf8.DecodeRuneInString(strings.TrimPrefix(whole, short))
		if got != whole && (!strings.HasPrefix(whole, short) || got == "…" || got != "" && unicode.Is(unicode.M, rest)) {
			t.Errorf("%q cut to %q", whole, got)
		}
	})
}
