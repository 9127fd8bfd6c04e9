package plan

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestParseClock(t *testing.T) {
	for in, want := range map[string]int{
		"7:05": 425, "07:05": 425, "18.30": 1110, "7pm": 1140, "7:05 PM": 1145, "12 am": 0, "12pm": 720, "25:30": 1530, "0:00": 0, "36:00": 2160,
	} {
		got, err := ParseClock(in)
		if err != nil || !got.IsSet() || got.Minutes() != want {
			t.Errorf("ParseClock(%q) = %v, %v; want %d minutes", in, got, err, want)
		}
	}
	for _, in := range []string{"", "7", "7:5", "7:60", "36:01", "13pm", "0am", "-1:00", "7:05:00", "noon", "99999999999999999999:00", "+7:05"} {
		if got, err := ParseClock(in); err == nil {
			t.Errorf("ParseClock(%q) = %v; want an error", in, got)
		}
	}
}

func TestClockPrintsWhatItReads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := ClockAt(rapid.IntRange(0, LastClock).Draw(t, "minutes"))
		if got, err := ParseClock(c.String()); err != nil || got != c {
			t.Fatalf("%v reads back as %v, %v", c, got, err)
		}
	})
}

func TestParseDate(t *testing.T) {
	if d, err := ParseDate("2028-02-29"); err != nil || d != (Date{2028, time.February, 29}) {
		t.Errorf("got %v, %v", d, err)
	}
	for _, in := range []string{"2027-02-29", "2027-13-01", "2027-00-10", "27-01-01", "2027/01/01", "", "2027-1-1"} {
		if d, err := ParseDate(in); err == nil {
			t.Errorf("ParseDate(%q) = %v; want an error", in, d)
		}
	}
}

// The clock changes of these places and dates: IANA 2025b (see testdata/tables/sun-events.tsv for the dates).
func TestInstantOnClockChanges(t *testing.T) {
	zone, err := time.LoadLocation("America/Los_Angeles")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		date  Date
		clock string
		want  string
	}{
		{Date{2026, time.March, 8}, "0:00", "2026-03-08T08:00:00Z"},
		{Date{2026, time.March, 8}, "3:00", "2026-03-08T10:00:00Z"}, // 2:00 to 3:00 is left out
		{Date{2026, time.March, 8}, "12:00", "2026-03-08T19:00:00Z"},
		{Date{2026, time.November, 1}, "0:30", "2026-11-01T07:30:00Z"},
		{Date{2026, time.November, 1}, "1:30", "2026-11-01T08:30:00Z"}, // comes twice: the first
		{Date{2026, time.November, 1}, "2:30", "2026-11-01T10:30:00Z"},
		{Date{2026, time.October, 31}, "26:30", "2026-11-01T10:30:00Z"},
	} {
		clock, err := ParseClock(c.clock)
		if err != nil {
			t.Fatal(err)
		}
		got := Instant(c.date, clock, zone)
		if got.UTC().Format(time.RFC3339) != c.want {
			t.Errorf("%v %v is %v, want %v", c.date, c.clock, got.UTC(), c.want)
		}
		if back := ClockOn(c.date, got, zone); back != clock {
			t.Errorf("%v %v comes back as %v", c.date, c.clock, back)
		}
	}
}

// TestInstantOfALeftOutHour: the hour that the clock skips is read as if it did not, on both sides of Greenwich
// (IANA 2025b: Santiago 2026-09-06 from 00:00, Havana 2026-03-08 from 00:00, Los Angeles 2026-03-08 from 02:00, London
// 2026-03-29 from 01:00).
func TestInstantOfALeftOutHour(t *testing.T) {
	for _, c := range []struct {
		zone  string
		date  Date
		clock int
		shows string
	}{
		{"America/Santiago", Date{2026, time.September, 6}, 0, "2026-09-06 01:00"},
		{"America/Havana", Date{2026, time.March, 8}, 30, "2026-03-08 01:30"},
		{"America/Los_Angeles", Date{2026, time.March, 8}, 150, "2026-03-08 03:30"},
		{"Europe/London", Date{2026, time.March, 29}, 90, "2026-03-29 02:30"},
	} {
		zone, err := time.LoadLocation(c.zone)
		if err != nil {
			t.Fatal(err)
		}
		if got := Instant(c.date, ClockAt(c.clock), zone).In(zone).Format("2006-01-02 15:04"); got != c.shows {
			t.Errorf("%s %v + %d min shows %s, want %s", c.zone, c.date, c.clock, got, c.shows)
		}
	}
}

func TestBearing(t *testing.T) {
	for in, want := range map[Bearing]Bearing{-10: 350, 360: 0, 725: 5, -1e-20: 0} {
		if got := in.Norm(); got != want {
			t.Errorf("%v.Norm() = %v, want %v", float64(in), float64(got), float64(want))
		}
	}
	if got := Bearing(350).Apart(10); got != 20 {
		t.Errorf("350 and 10 are %v apart", got)
	}
	for in, want := range map[Bearing]string{248: "248° WSW", 0: "0° N", 359.9: "0° N", 11.2: "11° N", 11.3: "11° NNE"} {
		if got := in.String(); got != want {
			t.Errorf("%v prints %q, want %q", float64(in), got, want)
		}
	}
}

// RFC 5870: plain decimal numbers, latitude first; its own example of section 6.1 is geo:48.2010,16.3695, where trailing
// zeros do not matter.
func ExamplePosition_GeoURI() {
	fmt.Println(Position{Lat: 48.2010, Lon: 16.3695}.GeoURI())
	fmt.Println(Position{Lat: -0.00000001, Lon: 1e-7}.GeoURI())
	// Output:
	// geo:48.201,16.3695
	// geo:0,0
}

func TestMinutesString(t *testing.T) {
	for in, want := range map[Minutes]string{0: "0 min", 45: "45 min", 60: "1 h", 65: "1 h 05", -70: "-1 h 10"} {
		if got := in.String(); got != want {
			t.Errorf("%d prints %q, want %q", int(in), got, want)
		}
	}
}

func TestSuggest(t *testing.T) {
	known := []string{"bearing", "name", "altitude"}
	for in, want := range map[string]string{
		"baering": `; did you mean "bearing"?`, "Name": `; did you mean "name"?`, "xyzzy": "", "": "",
	} {
		if got := Suggest(in, known).String(); got != want {
			t.Errorf("Suggest(%q) = %q, want %q", in, got, want)
		}
	}
}

// TestCloneSharesNothing fills every field of a plan by reflection, clones it, changes everything in the clone and demands
// that the original is what it was. A new slice or pointer that Clone forgets fails here.
func TestCloneSharesNothing(t *testing.T) {
	var a, same Plan
	fillValue(reflect.ValueOf(&a).Elem(), 1)
	fillValue(reflect.ValueOf(&same).Elem(), 1)
	b := a.Clone()
	if !reflect.DeepEqual(a, b) {
		t.Fatal("a clone differs from its original")
	}
	scramble(reflect.ValueOf(&b).Elem())
	if !reflect.DeepEqual(a, same) {
		t.Fatal("a change to the clone shows in the original")
	}
}

func fillValue(v reflect.Value, n int) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				fillValue(f, n+i)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fillValue(v.Index(0), n)
		fillValue(v.Index(1), n+1)
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fillValue(v.Elem(), n)
	case reflect.String:
		v.SetString(string(rune('a' + n%26)))
	case reflect.Int:
		v.SetInt(int64(n))
	case reflect.Float64:
		v.SetFloat(float64(n))
	case reflect.Bool:
		v.SetBool(true)
	}
}

func scramble(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				scramble(f)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			scramble(v.Index(i))
		}
	case reflect.Pointer:
		scramble(v.Elem())
	case reflect.String:
		v.SetString("changed")
	case reflect.Int:
		v.SetInt(-7)
	case reflect.Float64:
		v.SetFloat(-7)
	case reflect.Bool:
		v.SetBool(false)
	}
}

// sample is a small plan in which everything refers to everything.
func sample() Plan {
	p := New()
	p.Title = "Sample"
	p.Brief.Deliverables = []Deliverable{{Name: "Film"}, {Name: "Cut", Scenes: []ID{"a"}}}
	p.Property.Position = &Position{Lat: 46, Lon: -121}
	p.Property.Zone = "America/Los_Angeles"
	p.Property.Faces = []Face{{ID: "south", Bearing: 180}, {ID: "west", Bearing: 270}}
	p.Property.Spaces = []Space{{ID: "kitchen", Kind: Indoor, Faces: []ID{"south"}}, {ID: "terrace", Kind: Outdoor, Faces: []ID{"west"}}}
	p.Property.Moves = []Move{{"kitchen", "terrace", 5}}
	p.People = []Person{{ID: "ada", Weight: 1}, {ID: "tom", Minor: true, Guardian: "ada", Weight: 1}}
	p.Scenes = []Scene{
		{ID: "a", Number: "1", Space: "kitchen", People: []ID{"ada", "tom"}, Looks: []Look{{"tom", "pyjamas"}, {"ada", "dressing gown"}}, Shoot: 20,
			Lights: "morning", Values: []Value{{ClockAt(600), ClockAt(660), 0.5}, {ClockAt(660), ClockAt(720), 1}}},
		{ID: "b", Number: "2", Space: "terrace", Pictures: []Picture{{"sample-pictures/dusk.jpg", strings.Repeat("0", 64), "So blue"}, {File: "lamp.jpg"}}, People: []ID{"ada"}, Shoot: 20, After: []ID{"a"}, Cover: "a", Wish: Wish{Kind: FaceLit, Face: "west"}},
	}
	p.Shooting.Kit = []Kit{{Name: "Crane", Availability: []Availability{{From: ClockAt(600), To: ClockAt(900)}}}, {Name: "Drone"}}
	p.Shooting.Overtime = []Overtime{{600, 5}, {720, 10}}
	p.Shooting.Flying = Flying{Rules: USPart107, Read: Date{2027, 2, 20}, ReadBy: "ada", Light: true}
	p.Releases = []Release{{ID: "r", Kind: ModelRelease, Party: "ada", Scenes: []ID{"a"}, Scan: &Scan{"ada.pdf", strings.Repeat("0", 64)}},
		{ID: "q", Kind: MinorRelease, Party: "tom", Signature: &Signature{Name: "Ada", At: time.Unix(1_800_000_000, 0).UTC(), Consent: true,
			Digest: strings.Repeat("0", 64), Size: PadSize{60, 20}, Strokes: []Stroke{{{0, 0}, {60, 20}}, {{5, 5}}}}}}
	p.Wordings = []Wording{{PetRelease, "{party} lets us film {subject}."}, {MusicRelease, "It may sound."}}
	p.Papers.Calendar = Calendar{Key: strings.Repeat("0", 64), Events: []Event{
		{Day: 1, Digest: strings.Repeat("1", 64), From: time.Unix(1_800_000_000, 0).UTC(), To: time.Unix(1_800_040_000, 0).UTC()},
		{Person: "gone", Day: 1, Digest: strings.Repeat("2", 64), From: time.Unix(1_800_000_000, 0).UTC(), To: time.Unix(1_800_040_000, 0).UTC()}}}
	p.Papers.Sheets = []SentSheet{{Day: 1, Revision: 2, Date: Date{2027, 3, 6}, Before: Date{2027, 3, 5}, Items: []SentItem{
		{Key: "Where/Parking", Name: "Parking", Digest: strings.Repeat("1", 64)},
		{Key: "scene gone", Name: "Scene 7", Digest: strings.Repeat("2", 64), From: time.Unix(1_800_000_000, 0).UTC(), Change: ItemGone}}}, {Day: 2, Revision: 1}}
	p.Log = []LogEntry{{Scene: "a", Date: Date{2027, 3, 6}}}
	return p
}

// TestEditsKeepThePlanSound runs random edits and demands after each that nothing refers to nothing, that no id is used
// twice, and that the plan before the edit is what it was.
func TestEditsKeepThePlanSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sample()
		for range rapid.IntRange(1, 25).Draw(t, "edits") {
			before := p.Clone()
			next := p.Clone()
			name := randomEdit(t, &next)
			if found := Validate(next); len(found) > 0 {
				t.Fatalf("after %s: %v at %s", name, found[0], found[0].Path)
			}
			if !reflect.DeepEqual(before, p) {
				t.Fatalf("%s changed the snapshot it started from", name)
			}
			p = next
		}
	})
}

// anEdit is an edit of the i-th of so many things that it is able to be made of.
type anEdit struct {
	name string
	able int
	do   func(i int)
}

func pricingEdits(p *Plan, pick func(int) int) []anEdit {
	card := &p.Pricing.Card
	terms := &card.Terms
	someCrew := func() ID {
		if n := pick(1 + len(card.Crew)); n < len(card.Crew) {
			return card.Crew[n].ID
		}
		return ""
	}
	return []anEdit{
		{"AddLine", 1, func(int) { p.AddLine(Groups[pick(len(Groups))]) }},
		{"SetOverride", len(p.Pricing.Lines), func(i int) { p.SetOverride(Override{Line: p.Pricing.Lines[i].BudgetLine(), Out: pick(2) == 0}) }},
		{"RemoveLine", len(p.Pricing.Lines), p.RemoveLine},
		{"AddCrewRate", 1, func(int) { card.AddCrewRate() }},
		{"SetBasis", len(card.Crew), func(i int) { card.Crew[i].SetBasis(Bases[pick(len(Bases))]) }},
		{"RemoveCrewRate", len(card.Crew), p.RemoveCrewRate},
		{"AddRule", 1 + len(card.Overtime), func(i int) { card.AddRule(i) }},
		{"DuplicateRule", len(card.Overtime), func(i int) { card.DuplicateRule(i, nil) }},
		{"SetWeekly", len(card.Overtime), func(i int) { card.Overtime[i].SetWeekly(Minutes(pick(2) * 2400)) }},
		{"RemoveOvertimeRule", len(card.Overtime), p.RemoveOvertimeRule},
		{"AddKit", 1, func(int) { card.AddKit(nil) }},
		{"SetOwned", len(card.Kit), func(i int) { card.Kit[i].SetOwned(pick(2) == 0) }},
		{"AddRate", 1 + len(card.Rates), func(i int) { card.AddRate(i) }},
		{"DuplicateRate", len(card.Rates), func(i int) { card.DuplicateRate(i, nil) }},
		{"SetWho", len(card.Rates), func(i int) { card.Rates[i].SetWho(someCrew()) }},
		{"AddPayment", 1, func(int) { terms.AddPayment() }},
		{"SetShare", len(terms.Payments), func(i int) {
			last := terms.Payments[len(terms.Payments)-1]
			if share := terms.Payments[i].Percent; i < len(terms.Payments)-1 {
				terms.SetShare(i, share.Add(last.Percent.Div(decimal.NewFromInt(2)).Round(2)))
			}
		}},
		{"RemovePayment", len(terms.Payments), terms.RemovePayment},
	}
}

func randomEdit(t *rapid.T, p *Plan) string {
	pick := func(n int) int { return rapid.IntRange(0, n-1).Draw(t, "index") }
	edits := []anEdit{
		{"AddScene", 1 + len(p.Scenes), func(i int) { p.AddScene(i) }},
		{"DuplicateScene", len(p.Scenes), func(i int) { p.DuplicateScene(i, nil) }},
		{"RemoveScene", len(p.Scenes), p.RemoveScene},
		{"AddPerson", 1 + len(p.People), func(i int) { p.AddPerson(i) }},
		{"DuplicatePerson", len(p.People), func(i int) { p.DuplicatePerson(i, nil) }},
		{"RemovePerson", len(p.People), p.RemovePerson},
		{"AddSpace", 1 + len(p.Property.Spaces), func(i int) { p.AddSpace(i) }},
		{"DuplicateSpace", len(p.Property.Spaces), func(i int) { p.DuplicateSpace(i, nil) }},
		{"RemoveSpace", len(p.Property.Spaces), p.RemoveSpace},
		{"AddFace", 1, func(int) { p.AddFace() }},
		{"RemoveFace", len(p.Property.Faces), p.RemoveFace},
		{"Shift", len(p.Scenes), func(i int) { Shift(p.Scenes, i, pick(5)-2) }},
		{"SetWishKind", len(p.Scenes), func(i int) { p.Scenes[i].SetWishKind(WishKinds[pick(len(WishKinds))]) }},
		{"AddPicture", len(p.Scenes), func(i int) { p.AddPicture(p.Scenes[i].ID, Picture{File: fmt.Sprintf("p/%d.jpg", pick(20))}) }},
		{"SetIn", len(p.Scenes), func(i int) {
			if n := len(p.People); n > 0 {
				p.Scenes[i].SetIn(p.People[pick(n)].ID, pick(2) == 0)
			}
		}},
		{"SetOwnRelease", len(p.People), func(i int) { p.SetOwnRelease(p.People[i].ID, ModelRelease, Sent, Date{2027, 1, 2}) }},
	}
	edits = append(edits, pricingEdits(p, pick)...)
	e := edits[pick(len(edits))]
	if e.able > 0 {
		e.do(pick(e.able))
	}
	return e.name
}

// TestOnePersonsPapers: a certificate is not copied to somebody else, and rules that only somebody gone has read are not read.
func TestOnePersonsPapers(t *testing.T) {
	p := sample()
	p.People[0].Certificate = Certificate{Number: "1", Trained: Date{2027, 1, 2}}
	p.DuplicatePerson(0, nil)
	if p.People[0].Certificate.Number != "1" || p.People[1].Certificate != (Certificate{}) {
		t.Errorf("the copy has the certificate %+v", p.People[1].Certificate)
	}
	p.RemovePerson(1)
	if p.Shooting.Flying.ReadBy != "ada" {
		t.Error("the copy's going takes the reader")
	}
	p.RemovePerson(0)
	if want := (Flying{Rules: USPart107, Light: true}); p.Shooting.Flying != want {
		t.Errorf("without the reader: %+v", p.Shooting.Flying)
	}
}

func TestValidateFindsEachFault(t *testing.T) {
	for _, c := range []struct {
		name string
		hurt func(*Plan)
		code Code
		path string
	}{
		{"twice the same scene id", func(p *Plan) { p.Scenes = append(p.Scenes, Scene{ID: "a"}) }, DuplicateID, "scenes[2].id"},
		{"no such space", func(p *Plan) { p.Scenes[0].Space = "kitchn" }, DanglingID, "scenes[0].space"},
		{"no such person", func(p *Plan) { p.Scenes[1].People[0] = "bob" }, DanglingID, "scenes[1].people[0]"},
		{"a circle of scenes", func(p *Plan) { p.Scenes[0].After = []ID{"b"} }, Cycle, "scenes[0].after"},
		{"latitude off the Earth", func(p *Plan) { p.Property.Position.Lat = 91 }, OutOfRange, "property.position.lat"},
		{"an evening that ends before it starts", func(p *Plan) { p.Scenes[0].From, p.Scenes[0].To = ClockAt(900), ClockAt(800) }, EndsBeforeStart, "scenes[0].to"},
		{"a figure that the wish has no use for", func(p *Plan) { p.Scenes[0].Wish.Direct = true }, UnusedFigure, "scenes[0].light.direct"},
		{"30 February", func(p *Plan) { p.Brief.Due = Date{2027, 2, 30} }, NoDate, "brief.due"},
		{"a zone of nowhere", func(p *Plan) { p.Property.Zone = "Mars/Olympus" }, BadZone, "property.zone"},
		{"no grid", func(p *Plan) { p.Shooting.Grid = 0 }, OutOfRange, "shooting.grid"},
		{"a look of somebody unknown", func(p *Plan) { p.Scenes[0].Looks[0].Person = "bob" }, DanglingID, "scenes[0].looks[0].person"},
		{"a look of nobody", func(p *Plan) { p.Scenes[0].Looks[0].Person = "" }, MissingName, "scenes[0].looks[0].person"},
		{"a look of somebody who is not in the scene", func(p *Plan) { p.Scenes[1].Looks = []Look{{"tom", "suit"}} }, NotInScene, "scenes[1].looks[0].person"},
		{"two looks of one person", func(p *Plan) { p.Scenes[0].Looks[1].Person = "tom" }, NamedTwice, "scenes[0].looks[1].person"},
		{"a look without a name", func(p *Plan) { p.Scenes[0].Looks[1].Look = " " }, MissingName, "scenes[0].looks[1].look"},
		{"a lighting as long as a book", func(p *Plan) { p.Scenes[0].Lights = strings.Repeat("a", maxText+1) }, TooLong, "scenes[0].lights"},
		{"light by the clock and by a wish", func(p *Plan) { p.Scenes[0].Wish.Kind = Dark }, ValuesAndWish, "scenes[0].values"},
		{"light without a start", func(p *Plan) { p.Scenes[0].Values[0].From = NoClock }, MissingTime, "scenes[0].values[0].from"},
		{"light without an end", func(p *Plan) { p.Scenes[0].Values[1].To = NoClock }, MissingTime, "scenes[0].values[1].to"},
		{"light that ends before it starts", func(p *Plan) { p.Scenes[0].Values[0].From = ClockAt(660) }, EndsBeforeStart, "scenes[0].values[0].to"},
		{"light twice in a minute", func(p *Plan) { p.Scenes[0].Values[1].From = ClockAt(659) }, TimesOverlap, "scenes[0].values[1].from"},
		{"more light than there is", func(p *Plan) { p.Scenes[0].Values[0].Share = 1.1 }, OutOfRange, "scenes[0].values[0].share"},
		{"light that is no number", func(p *Plan) { p.Scenes[0].Values[0].Share = math.NaN() }, OutOfRange, "scenes[0].values[0].share"},
		{"changing in no time", func(p *Plan) { p.People[0].Change = -1 }, OutOfRange, "people[0].change"},
		{"longer there than a day", func(p *Plan) { p.People[0].Longest = 2161 }, OutOfRange, "people[0].longest"},
		{"work of less than nothing", func(p *Plan) { p.People[0].Work = -1 }, OutOfRange, "people[0].work"},
		{"four days", func(p *Plan) { p.Shooting.Days = 4 }, OutOfRange, "shooting.days"},
		{"less than no day", func(p *Plan) { p.Shooting.Days = -1 }, OutOfRange, "shooting.days"},
		{"rest of less than nothing", func(p *Plan) { p.Shooting.Rest = -1 }, OutOfRange, "shooting.rest"},
		{"meals further apart than they may be", func(p *Plan) { p.Shooting.MealApart = p.Shooting.MealWithin + 1 }, MealsApart, "shooting.meal-apart"},
		{"overtime in no order", func(p *Plan) { p.Shooting.Overtime[1].After = 600 }, NotRising, "shooting.overtime[1].after"},
		{"overtime from the start", func(p *Plan) { p.Shooting.Overtime[0].After = 0 }, OutOfRange, "shooting.overtime[0].after"},
		{"overtime that gives", func(p *Plan) { p.Shooting.Overtime[0].Points = -1 }, OutOfRange, "shooting.overtime[0].points"},
		{"a further day that gives", func(p *Plan) { p.Shooting.Weights.Day = -1 }, OutOfRange, "shooting.weights.day"},
		{"coming again that gives", func(p *Plan) { p.Shooting.Weights.Again = -1 }, OutOfRange, "shooting.weights.again"},
		{"kit without a name", func(p *Plan) { p.Shooting.Kit[0].Name = "" }, MissingName, "shooting.kit[0].name"},
		{"kit twice", func(p *Plan) { p.Shooting.Kit[1].Name = "crane " }, DuplicateName, "shooting.kit[1].name"},
		{"kit that goes before it comes", func(p *Plan) { p.Shooting.Kit[0].Availability[0].To = ClockAt(500) }, EndsBeforeStart, "shooting.kit[0].availability[0].to"},
		{"kit on 31 April", func(p *Plan) { p.Shooting.Kit[0].Availability[0].Date = Date{2027, 4, 31} }, NoDate, "shooting.kit[0].availability[0].date"},
		{"born after the day", func(p *Plan) { p.Shooting.Date, p.People[1].Born = Date{2027, 3, 6}, Date{2027, 3, 7} }, BornLater, "people[1].born"},
		{"born after the first of the candidates", func(p *Plan) {
			p.Shooting.Dates, p.People[1].Born = []Date{{2027, 3, 20}, {2027, 3, 6}}, Date{2027, 3, 10}
		}, BornLater, "people[1].born"},
		{"born on 30 February", func(p *Plan) { p.People[1].Born = Date{2019, 2, 30} }, NoDate, "people[1].born"},
		{"a certificate of 30 February", func(p *Plan) { p.People[1].Certificate.Trained = Date{2027, 2, 30} }, NoDate, "people[1].certificate.trained"},
		{"a certificate that ends on no day", func(p *Plan) { p.People[1].Certificate.Until = Date{2027, 13, 1} }, NoDate, "people[1].certificate.until"},
		{"a certificate as long as a book", func(p *Plan) { p.People[1].Certificate.Number = strings.Repeat("a", maxText+1) }, TooLong, "people[1].certificate.number"},
		{"flight rules of nowhere", func(p *Plan) { p.Shooting.Flying.Rules = "us-part-170" }, NotOneOf, "shooting.flying.rules"},
		{"flight rules read by nobody known", func(p *Plan) { p.Shooting.Flying.ReadBy = "bob" }, DanglingID, "shooting.flying.read-by"},
		{"flight rules read on no day", func(p *Plan) { p.Shooting.Flying.Read = Date{2027, 2, 30} }, NoDate, "shooting.flying.read"},
		{"a guardian nowhere", func(p *Plan) { p.People[1].GuardianThere = "near" }, NotOneOf, "people[1].guardian-there"},
		{"a diet as long as a book", func(p *Plan) { p.People[1].Diet = strings.Repeat("a", maxText+1) }, TooLong, "people[1].diet"},
		{"a cut from no such scene", func(p *Plan) { p.Brief.Deliverables[1].Scenes[0] = "aa" }, DanglingID, "brief.deliverables[1].scenes[0]"},
		{"a cut from a scene twice", func(p *Plan) { p.Brief.Deliverables[1].Scenes = []ID{"b", "b"} }, NamedTwice, "brief.deliverables[1].scenes[1]"},
		{"a calendar without a key", func(p *Plan) { p.Papers.Calendar.Key = "" }, BadDigest, "papers.calendar.key"},
		{"an event of nobody possible", func(p *Plan) { p.Papers.Calendar.Events[1].Person = "a b" }, BadID, "papers.calendar.events[1].person"},
		{"an event twice", func(p *Plan) { p.Papers.Calendar.Events[1].Person = "" }, NamedTwice, "papers.calendar.events[1]"},
		{"an event on a fourth day", func(p *Plan) { p.Papers.Calendar.Events[0].Day = 4 }, OutOfRange, "papers.calendar.events[0].day"},
		{"an event changed less than never", func(p *Plan) { p.Papers.Calendar.Events[0].Sequence = -1 }, OutOfRange, "papers.calendar.events[0].sequence"},
		{"an event that said nothing", func(p *Plan) { p.Papers.Calendar.Events[0].Digest = "" }, BadDigest, "papers.calendar.events[0].digest"},
		{"an event that begins nowhere", func(p *Plan) { p.Papers.Calendar.Events[0].From = time.Time{} }, MissingInstant, "papers.calendar.events[0].from"},
		{"a call sheet of a fourth day", func(p *Plan) { p.Papers.Sheets[0].Day = 4 }, OutOfRange, "papers.sheets[0].day"},
		{"two call sheets of a day", func(p *Plan) { p.Papers.Sheets[1].Day = 1 }, NamedTwice, "papers.sheets[1].day"},
		{"a call sheet before the first", func(p *Plan) { p.Papers.Sheets[1].Revision = 0 }, OutOfRange, "papers.sheets[1].revision"},
		{"a call sheet of no day", func(p *Plan) { p.Papers.Sheets[0].Date = Date{2027, 2, 30} }, NoDate, "papers.sheets[0].date"},
		{"a call sheet moved from no day", func(p *Plan) { p.Papers.Sheets[0].Before = Date{2027, 2, 30} }, NoDate, "papers.sheets[0].before"},
		{"a part of a call sheet twice", func(p *Plan) { p.Papers.Sheets[0].Items[1].Key = "Where/Parking" }, NamedTwice, "papers.sheets[0].items[1].key"},
		{"a part of a call sheet without a key", func(p *Plan) { p.Papers.Sheets[0].Items[1].Key = " " }, MissingName, "papers.sheets[0].items[1].key"},
		{"a part of a call sheet that said nothing", func(p *Plan) { p.Papers.Sheets[0].Items[1].Digest = "" }, BadDigest, "papers.sheets[0].items[1].digest"},
		{"a part of a call sheet as long as a book", func(p *Plan) { p.Papers.Sheets[0].Items[0].Name = strings.Repeat("a", maxText+1) }, TooLong, "papers.sheets[0].items[0].name"},
		{"a part of a call sheet with an odd fate", func(p *Plan) { p.Papers.Sheets[0].Items[0].Change = "lost" }, NotOneOf, "papers.sheets[0].items[0].change"},
		{"a part of a call sheet of long ago", func(p *Plan) { p.Papers.Sheets[0].Items[1].Was.To = time.Date(1066, 1, 1, 0, 0, 0, 0, time.UTC) }, OutOfRange, "papers.sheets[0].items[1].was-to"},
		{"an event of long ago", func(p *Plan) { p.Papers.Calendar.Events[0].To = time.Date(1066, 1, 1, 0, 0, 0, 0, time.UTC) }, OutOfRange, "papers.calendar.events[0].to"},
		{"a picture of nothing", func(p *Plan) { p.Scenes[1].Pictures[0].File = "" }, MissingName, "scenes[1].pictures[0].file"},
		{"a picture outside the plan's folder", func(p *Plan) { p.Scenes[1].Pictures[1].File = "../lamp.jpg" }, NotBelow, "scenes[1].pictures[1].file"},
		{"a picture from the root", func(p *Plan) { p.Scenes[1].Pictures[1].File = "/etc/lamp.jpg" }, NotBelow, "scenes[1].pictures[1].file"},
		{"a picture on a drive of Windows", func(p *Plan) { p.Scenes[1].Pictures[1].File = "C:/lamp.jpg" }, NotBelow, "scenes[1].pictures[1].file"},
		{"a picture by a path of Windows", func(p *Plan) { p.Scenes[1].Pictures[1].File = `..\lamp.jpg` }, NotBelow, "scenes[1].pictures[1].file"},
		{"a picture with a sum that is none", func(p *Plan) { p.Scenes[1].Pictures[0].SHA256 = "0123" }, BadDigest, "scenes[1].pictures[0].sha256"},
		{"a caption as long as a book", func(p *Plan) { p.Scenes[1].Pictures[0].Caption = strings.Repeat("a", maxText+1) }, TooLong, "scenes[1].pictures[0].caption"},
		{"an album", func(p *Plan) { p.Scenes[1].Pictures = slices.Repeat([]Picture{{File: "lamp.jpg"}}, MaxPictures+1) }, TooManyPictures, "scenes[1].pictures"},
		{"a scan of nothing", func(p *Plan) { p.Releases[0].Scan.Path = "" }, MissingName, "releases[0].scan.path"},
		{"a sum that is none", func(p *Plan) { p.Releases[0].Scan.SHA256 = "0123" }, BadDigest, "releases[0].scan.sha256"},
		{"a sum with a letter g", func(p *Plan) { p.Releases[1].Signature.Digest = strings.Repeat("g", 64) }, BadDigest, "releases[1].signature.digest"},
		{"signed by nobody", func(p *Plan) { p.Releases[1].Signature.Name = " " }, MissingName, "releases[1].signature.name"},
		{"signed at no time", func(p *Plan) { p.Releases[1].Signature.At = time.Time{} }, MissingInstant, "releases[1].signature.at"},
		{"signed in another age", func(p *Plan) { p.Releases[1].Signature.At = time.Unix(0, 0).AddDate(200, 0, 0) }, OutOfRange, "releases[1].signature.at"},
		{"no consent", func(p *Plan) { p.Releases[1].Signature.Consent = false }, NoConsent, "releases[1].signature.consent"},
		{"no pad", func(p *Plan) { p.Releases[1].Signature.Size.Width = 20_000 }, OutOfRange, "releases[1].signature.size.width"},
		{"a point off the pad", func(p *Plan) { p.Releases[1].Signature.Strokes[0][1].Y = 21 }, OffPad, "releases[1].signature.strokes[0]"},
		{"a point left of the pad", func(p *Plan) { p.Releases[1].Signature.Strokes[1][0].X = -1 }, OffPad, "releases[1].signature.strokes[1]"},
		{"a stroke of nothing", func(p *Plan) { p.Releases[1].Signature.Strokes[1] = nil }, NoStrokes, "releases[1].signature.strokes[1]"},
		{"nothing drawn", func(p *Plan) { p.Releases[1].Signature.Strokes = nil }, NoStrokes, "releases[1].signature.strokes"},
		{"201 strokes", func(p *Plan) { p.Releases[1].Signature.Strokes = slices.Repeat([]Stroke{{{1, 1}}}, 201) }, TooManyStrokes, "releases[1].signature.strokes"},
		{"20,001 points", func(p *Plan) {
			p.Releases[1].Signature.Strokes = []Stroke{slices.Repeat(Stroke{{1, 1}}, 10_000), slices.Repeat(Stroke{{1, 1}}, 10_001)}
		}, TooManyStrokes, "releases[1].signature.strokes"},
		{"two wordings of a kind", func(p *Plan) { p.Wordings[1].Kind = PetRelease }, NamedTwice, "wordings[1].kind"},
		{"a wording of no kind", func(p *Plan) { p.Wordings[1].Kind = "" }, MissingName, "wordings[1].kind"},
		{"a wording of an unknown kind", func(p *Plan) { p.Wordings[1].Kind = "dog" }, NotOneOf, "wordings[1].kind"},
		{"a wording without words", func(p *Plan) { p.Wordings[1].Text = "\n " }, MissingText, "wordings[1].text"},
		{"a field that is none", func(p *Plan) { p.Wordings[1].Text = "{party}\n{patry}" }, UnknownField, "wordings[1].text"},
		{"a brace alone", func(p *Plan) { p.Wordings[1].Text = "{party}\n{party" }, LooseBrace, "wordings[1].text"},
		{"a brace across lines", func(p *Plan) { p.Wordings[1].Text = "{par\nparty" }, LooseBrace, "wordings[1].text"},
		{"guardian of oneself", func(p *Plan) { p.People[1].Guardian = "tom" }, SelfReference, "people[1].guardian"},
	} {
		p := sample()
		c.hurt(&p)
		found := Validate(p)
		if len(found) != 1 || found[0].Code != c.code || found[0].Path != c.path {
			t.Errorf("%s: got %v", c.name, found)
		}
	}
	if found := Validate(sample()); len(found) > 0 {
		t.Errorf("the sample itself: %v", found)
	}
}

// TestMinorOn: of age is who has their 18th birthday on the day (design, "a person turning 18 that day is an adult"; the project's
// own rule); who was born on 29 February has it on 1 March.
func TestMinorOn(t *testing.T) {
	leap := Date{2008, 2, 29}
	for _, c := range []struct {
		name  string
		who   Person
		on    Date
		minor bool
	}{
		{"nothing known", Person{}, Date{2027, 10, 16}, false},
		{"marked", Person{Minor: true}, Date{2027, 10, 16}, true},
		{"marked, no date", Person{Minor: true}, Date{}, true},
		{"marked and of age: the law of the place", Person{Minor: true, Born: Date{2000, 1, 1}}, Date{2027, 10, 16}, true},
		{"the day before 18", Person{Born: Date{2009, 10, 17}}, Date{2027, 10, 16}, true},
		{"18 on the day", Person{Born: Date{2009, 10, 16}}, Date{2027, 10, 16}, false},
		{"18 the day before", Person{Born: Date{2009, 10, 15}}, Date{2027, 10, 16}, false},
		{"a month short", Person{Born: Date{2009, 11, 1}}, Date{2027, 10, 31}, true},
		{"no date", Person{Born: Date{2020, 1, 1}}, Date{}, false},
		{"born on the day", Person{Born: Date{2027, 10, 16}}, Date{2027, 10, 16}, true},
		{"a leap day's child on 28 February", Person{Born: leap}, Date{2026, 2, 28}, true},
		{"a leap day's child on 1 March", Person{Born: leap}, Date{2026, 3, 1}, false},
		{"a leap day's child, long of age", Person{Born: leap}, Date{2028, 2, 28}, false},
	} {
		if got := c.who.MinorOn(c.on); got != c.minor {
			t.Errorf("%s: minor %v", c.name, got)
		}
	}
}

// TestAgeOn: a year older exactly on each birthday, for every birthday that the calendar has.
func TestAgeOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		born := Date{1950, 1, 1}.AddDays(rapid.IntRange(0, 25_000).Draw(t, "born"))
		years := rapid.IntRange(0, 90).Draw(t, "years")
		birthday := DateOf(Date{born.Year + years, born.Month, born.Day}.utc()) // 1 March where there is no 29 February
		who := Person{Born: born}
		if age, known := who.AgeOn(birthday); !known || age != years {
			t.Fatalf("born %v: %d on %v", born, age, birthday)
		}
		if age, known := who.AgeOn(birthday.AddDays(-1)); known != (years > 0) || known && age != years-1 {
			t.Fatalf("born %v: %d, %v on the day before %v", born, age, known, birthday)
		}
	})
}

func TestLastDate(t *testing.T) {
	a, b, c := Date{2027, 10, 9}, Date{2027, 10, 16}, Date{2027, 10, 23}
	for _, x := range []struct {
		s    Shooting
		want Date
	}{{Shooting{}, Date{}}, {Shooting{Dates: []Date{b, c, a}}, c}, {Shooting{Date: a, Dates: []Date{a, b}}, a}} {
		if got := x.s.LastDate(); got != x.want {
			t.Errorf("%v: %v", x.s, got)
		}
	}
}

func TestParseStroke(t *testing.T) {
	for in, want := range map[string]Stroke{"12,40": {{12, 40}}, " 0,0  65535,7\n": {{0, 0}, {65535, 7}}} {
		if got, err := ParseStroke(in); err != nil || !slices.Equal(got, want) {
			t.Errorf("%q: %v, %v", in, got, err)
		}
	}
	for _, in := range []string{"", " ", "12", "12,", ",40", "12, 40", "-1,4", "+1,4", "1.5,4", "1,4,5", "65536,1", "12;40", strings.Repeat("1,1 ", MaxPoints+1)} {
		if got, err := ParseStroke(in); err == nil {
			t.Errorf("%.20q: %v", in, got)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		point := rapid.Custom(func(t *rapid.T) Point {
			return Point{rapid.IntRange(0, maxPad).Draw(t, "x"), rapid.IntRange(0, maxPad).Draw(t, "y")}
		})
		s := Stroke(rapid.SliceOfN(point, 1, 50).Draw(t, "stroke"))
		if got, err := ParseStroke(s.String()); err != nil || !slices.Equal(got, s) {
			t.Fatalf("%v: %v, %v", s, got, err)
		}
	})
}

func FuzzParseStroke(f *testing.F) {
	f.Add("12,40 14,43")
	f.Add("+1,2 ,")
	f.Fuzz(func(t *testing.T, in string) {
		s, err := ParseStroke(in)
		if err != nil {
			return
		}
		if again, err := ParseStroke(s.String()); err != nil || !slices.Equal(again, s) {
			t.Errorf("%q is read as %v, which is read as %v, %v", in, s, again, err)
		}
	})
}

// TestFillOnce: a value that looks like a field is a value.
func TestFillOnce(t *testing.T) {
	got := Fill("{party} and {subject}, {}", func(field string) string { return "<" + field + ">{term}" })
	if want := "<party>{term} and <subject>{term}, <>{term}"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestNeedsSun: what is placed by the clock alone can be placed anywhere.
func TestNeedsSun(t *testing.T) {
	values := []Value{{ClockAt(600), ClockAt(660), 1}}
	for _, c := range []struct {
		name   string
		scenes []Scene
		needs  bool
	}{
		{"nothing yet", nil, true},
		{"no wish said", []Scene{{ID: "a"}}, true},
		{"any light", []Scene{{ID: "a", Wish: Wish{Kind: Any}}}, true},
		{"any light within limits", []Scene{{ID: "a", Wish: Wish{Kind: Any}, From: ClockAt(600)}}, false},
		{"daylight within limits", []Scene{{ID: "a", Wish: Wish{Kind: Daylight}, From: ClockAt(600)}}, true},
		{"daylight", []Scene{{ID: "a"}, {ID: "b", Wish: Wish{Kind: Daylight}}}, true},
		{"by the clock", []Scene{{ID: "a", Values: values}, {ID: "b", To: ClockAt(660)}}, false},
	} {
		p := New()
		p.Scenes = c.scenes
		if got := p.NeedsSun(); got != c.needs {
			t.Errorf("%s: needs the sun: %v", c.name, got)
		}
		for _, path := range []string{"property.position", "property.zone"} {
			if lacks := len(Lacks(p).Under(path)) > 0; lacks != c.needs {
				t.Errorf("%s: lacks %s: %v", c.name, path, lacks)
			}
		}
	}
}

// TestAWishTakesThePlaceOfValues, and only a wish does.
func TestAWishTakesThePlaceOfValues(t *testing.T) {
	for kind, kept := range map[WishKind]bool{"": true, Any: true, Daylight: false, FaceLit: false} {
		s := sample().Scenes[0]
		if s.SetWishKind(kind); (len(s.Values) > 0) != kept {
			t.Errorf("with the wish %q the values are %v", kind, s.Values)
		}
	}
}

func TestLimitedKit(t *testing.T) {
	p := sample()
	for kit, want := range map[string]int{"crane": 1, " CRANE ": 1, "Cranes": 0, "": 0, "drone": 1} {
		if got := p.Limited(Scene{Kit: []string{"gimbal", kit}}); len(got) != want {
			t.Errorf("%q needs %v", kit, got)
		}
	}
}

// TestEveryProblemIsWorded keeps codes and wordings together.
func TestEveryProblemIsWorded(t *testing.T) {
	p := sample()
	p.Scenes[0].Space = "kitchn"
	if got, want := Validate(p)[0].String(), `there is no space with the id "kitchn"; did you mean "kitchen"?`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestPaymentsMakeAHundred: what one payment takes another gives; that they make 100 is the rule of this program.
func TestPaymentsMakeAHundred(t *testing.T) {
	var terms Terms
	shares := func() string {
		var out []string
		for _, p := range terms.Payments {
			out = append(out, p.Percent.String())
		}
		return strings.Join(out, " ")
	}
	for _, step := range []struct {
		do   func()
		want string
	}{
		{terms.AddPayment, "100"},
		{terms.AddPayment, "100 0"},
		{func() { terms.SetShare(0, decimal.NewFromInt(40)) }, "40 60"},
		{terms.AddPayment, "40 60 0"},
		{func() { terms.SetShare(1, decimal.NewFromInt(30)) }, "40 30 30"},
		{func() { terms.SetShare(2, decimal.NewFromInt(20)) }, "40 40 20"},
		{func() { terms.RemovePayment(0) }, "40 60"},
		{func() { terms.RemovePayment(1) }, "100"},
		{func() { terms.SetShare(0, decimal.NewFromInt(90)) }, "90"}, // refused then, for it does not make 100
		{func() { terms.RemovePayment(0) }, ""},
	} {
		if step.do(); shares() != step.want {
			t.Errorf("%q, want %q", shares(), step.want)
		}
	}
}

func TestByNumber(t *testing.T) {
	names := []string{"Toast", "12", "7B", "100", "7", "", "7A", "Arrival", "0012"}
	slices.SortFunc(names, ByNumber)
	if want := []string{"7", "7A", "7B", "0012", "12", "100", "", "Arrival", "Toast"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}
