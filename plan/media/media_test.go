package media

import (
	"fmt"
	"math"
	"math/big"
	"reflect"
	"strings"
	"testing"

	"eavelight/plan/say"

	"pgregory.net/rapid"
)

// Source of the forms: how rates are written (from memory); 1000/1001 as in the reference values, section 7.
func TestParseRate(t *testing.T) {
	for _, c := range []struct {
		text    string
		want    Rate
		written string
	}{
		{"24", Rate{24, 1}, "24"},
		{" 25 fps", Rate{25, 1}, "25"},
		{"50 frames a second", Rate{50, 1}, "50"},
		{"25.00", Rate{25, 1}, "25"},
		{"100", Rate{100, 1}, "100"},
		{"120", Rate{120, 1}, "120"},
		{"23.976", Rate{24000, 1001}, "23.976"},
		{"23.98", Rate{24000, 1001}, "23.976"},
		{"23.97", Rate{24000, 1001}, "23.976"},
		{"23.976024", Rate{24000, 1001}, "23.976"},
		{"47.952", Rate{48000, 1001}, "47.952"},
		{"59.94 FPS", Rate{60000, 1001}, "59.94"},
		{"119.88", Rate{120000, 1001}, "119.88"},
		{"24000/1001", Rate{24000, 1001}, "23.976"},
		{"48/2", Rate{24, 1}, "24"},
		{"25/2", Rate{25, 2}, "25/2"},
		{"1", Rate{1, 1}, "1"},
		{"1000", Rate{1000, 1}, "1000"},
	} {
		got, err := ParseRate(c.text)
		if err != nil || got != c.want || got.String() != c.written {
			t.Errorf("%q is %v, written %q, %v; want %v, %q", c.text, got, got, err, c.want, c.written)
		}
	}
	for _, text := range []string{"", "fps", "0", "-24", "24.5", "29.9", "23.96", "1001", "1e3", "0x18", "0x1.8p4", "NaN", "Inf", "24/0", "0/1",
		"24/-1", "1/2", "99999999999", "24,5", "twenty", "2_4.97", "+23.976", "24fps fps", ".", "24.", "1/2/3"} {
		if got, err := ParseRate(text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
	if got := (Rate{}).String(); got != "" {
		t.Errorf("no rate is written %q", got)
	}
}

// FuzzParseRate: what is read can be written and read back, and is within bounds.
func FuzzParseRate(f *testing.F) {
	for _, s := range []string{"24", "23.976", "24000/1001", "59.94 fps", "25.00", "2147483647/2147483646"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseRate(text)
		if err != nil {
			return
		}
		if err := r.check(); err != nil {
			t.Fatalf("%q is %v: %v", text, r, err)
		}
		if again, err := ParseRate(r.String()); err != nil || again != r {
			t.Fatalf("%q is %v, written %q, read back as %v, %v", text, r, r, again, err)
		}
	})
}

// The forms are the project's own; no published source.
func TestParseSize(t *testing.T) {
	for text, want := range map[string]Size{"3840 × 2160": UHD, " 1080X1920 ": Vertical, "dci 4k": DCI4K, "1x1": {1, 1}} {
		if got, err := ParseSize(text); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "3840", "3840x", "x2160", "0x5", "5x0", "65537x1", "1x65537", "-3x4", "3840x2160x3", "UHD 3840x2160", "4K"} {
		if got, err := ParseSize(text); err == nil {
			t.Errorf("%q is taken for %v", text, got)
		}
	}
}

// The first three are the demo plan's; all are the project's own, no published source.
func TestFindFormat(t *testing.T) {
	for _, c := range []struct {
		text string
		size Size
		rate Rate
	}{
		{"UHD 3840x2160, 24 fps", UHD, Rate{24, 1}},
		{"1080x1920, 24 fps", Vertical, Rate{24, 1}},
		{"18 frames, retouched", Size{}, Rate{}},
		{"hd, 23.976 frames per second", HD, Rate{24000, 1001}},
		{"vertical, 25fps", Vertical, Rate{25, 1}},
		{"24000/1001 fps", Size{}, Rate{24000, 1001}},
		{"3840x2160 or 1920x1080, 25 or 50 fps", Size{}, Rate{50, 1}},
		{"25 fps and 50 fps", Size{}, Rate{}},
		{"0x0, 5000 fps", Size{}, Rate{}},
		{"", Size{}, Rate{}},
	} {
		if size, rate := FindFormat(c.text); size != c.size || rate != c.rate {
			t.Errorf("%q is %v at %v, want %v at %v", c.text, size, rate, c.size, c.rate)
		}
	}
}

// Units: SI prefixes and IEC 80000-13; by hand.
func TestWrittenUnits(t *testing.T) {
	for b, want := range map[Bytes]string{0: "0 B", 999: "999 B", 1000: "1 kB", 1500: "1.5 kB", 999_994_999: "999.99 MB", 999_995_000: "1 GB",
		36 * GB: "36 GB", 115_200_000_000: "115.2 GB", 1_789_800_000_000: "1.79 TB", MaxBytes: "1000000 TB"} {
		if got := b.String(); got != want {
			t.Errorf("%d bytes are %q, want %q", int64(b), got, want)
		}
	}
	if got := Bytes(1 << 30).GiB(); got != "1 GiB" {
		t.Errorf("2^30 bytes are %q", got)
	}
	for s, want := range map[Seconds]string{0: "0 s", 40: "40 s", 60: "1 min", 90: "1 min 30 s", 3600: "1 h", 3601: "1 h 1 s", 360_000: "100 h"} {
		if got := s.String(); got != want {
			t.Errorf("%d s are %q, want %q", int64(s), got, want)
		}
	}
}

// Source: by hand; 60 s at 23.976 have 1438.56 frames.
func TestRounding(t *testing.T) {
	frames, err := (Rate{24000, 1001}).Frames(60)
	if err != nil || nearest(frames) != 1439 || about(frames).String() != "about 1439 frames" {
		t.Errorf("60 s at 23.976 have %s, %v", about(frames), err)
	}
	if nearest(big.NewRat(1, 2)) != 1 || nearest(big.NewRat(1, 3)) != 0 || about(big.NewRat(1, 1)).String() != "1 frame" {
		t.Error("halves go up, thirds down")
	}
	most := big.NewRat(int64(MaxBytes), 1)
	if got, err := up(most); err != nil || got != int64(MaxBytes) {
		t.Errorf("the most is %d, %v", got, err)
	}
	whole64 := new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), 64)) // its low 64 bits are 0
	for _, over := range []*big.Rat{new(big.Rat).Add(most, big.NewRat(1, 3)), whole64} {
		if got, err := up(over); err == nil {
			t.Errorf("%s is taken for %d", over.FloatString(1), got)
		}
	}
}

// demo is a shoot with everything in it.
func demo() Shoot {
	return Shoot{
		Films: []Film{
			{Name: "Film", Seconds: 120, Size: UHD, Rate: Rate{24, 1}, Ratio: 12, Bitrate: 200},
			{Name: "Slow shots", Seconds: 20, Rate: Rate{24, 1}, Recorded: Rate{120, 1}, Ratio: 6, Bitrate: 200},
			{Name: "Vertical cut", Seconds: 30, Size: Vertical, Rate: Rate{24000, 1001}},
		},
		Stills:    []Stills{{Name: "Stills", Frames: 40, Brackets: 3, Megapixels: 61, Bits: 14, Compressed: true, Selects: 18}},
		Card:      Store{128 * GB, UsualFill},
		Drive:     Store{2 * TB, UsualFill},
		Backup:    ThreeTwoOne,
		Offload:   200,
		Batteries: []Battery{{"Camera", 80, 6, 25}, {"Drone", 18, 0.75, 0}, {"Lamp", 60, 2, 0}},
	}
}

// TestBatteriesForWholeMinutes: worked by hand. A day of 785 minutes is no decimal of hours; 157 goes into it 5 times, and no rest. Hours
// that somebody typed stay theirs, those that 100 times give no whole number among floating points too.
func TestBatteriesForWholeMinutes(t *testing.T) {
	s := demo()
	s.Batteries = []Battery{{"Camera", 110, 785.0 / 60, 30}, {"Monitor", 157, 785.0 / 60, 0}, {"Lamp", 30, 5.0 / 60, 0}, {"Sound", 33, 1.1, 0}}
	got, err := Reckon(s)
	if err != nil {
		t.Fatal(err)
	}
	want := []Count{
		{"Camera", 10, say.Plain("785 min + 30 % = 1020.5 min; 1020.5 min / 110 min = 10 batteries, rounded up")},
		{"Monitor", 5, say.Plain("785 min / 157 min = 5 batteries")},
		{"Lamp", 1, say.Plain("5 min / 30 min = 1 battery, rounded up")},
		{"Sound", 2, say.Plain("1.1 h = 66 min; 66 min / 33 min = 2 batteries")},
	}
	if got := english(got).Batteries; !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v\nwant %+v", got, want)
	}
}

// Every figure worked by hand from the definitions (data = bit rate x time / 8); the shooting ratio, the fill, the half of a compressed
// raw file and the copies are common practice, no published source.
func TestReckon(t *testing.T) {
	got, err := Reckon(demo())
	if err != nil {
		t.Fatal(err)
	}
	want := Needs{
		Films: []Footage{
			{"Film", 2880, 1440, 1440, 36 * GB, 4608, say.Plain("2 min on screen at 24 frames a second = 2880 frames of 3840x2160; " +
				"2 min x 12 = 24 min; 200 Mbit/s x 24 min / 8 = 36 GB (33.53 GiB)")},
			{"Slow shots", 480, 120, 600, 15 * GB, 4608, say.Plain("20 s on screen at 24 frames a second = 480 frames; " +
				"20 s x 6 = 2 min, x 120 / 24 slow motion = 10 min; 200 Mbit/s x 10 min / 8 = 15 GB (13.97 GiB)")},
			{"Vertical cut", 719, 0, 0, 0, 0, say.Plain("30 s on screen at 23.976 frames a second = about 719 frames of 1080x1920; " +
				"cut from other footage, nothing is recorded for it")},
		},
		Stills: []Exposures{{"Stills", 120, 53_375_000, 6_405_000_000, 18, say.Plain("40 pictures x 3 exposures = 120 files; " +
			"61 Mpx x 14 bit / 8, about half of it when compressed, = 53.38 MB each; 120 x 53.38 MB = 6.41 GB (5.97 GiB); 18 to deliver")}},
		Data:    Amount{57_405_000_000, say.Plain("36 GB + 15 GB + 6.41 GB = 57.41 GB (53.46 GiB)")},
		Stored:  Amount{172_215_000_000, say.Plain("57.41 GB x 3 copies = 172.22 GB")},
		Cards:   Count{"Cards", 1, say.Plain("57.41 GB / 115.2 GB (128 GB filled to 90 %) = 1 card, rounded up")},
		Drives:  Count{"Drives", 2, say.Plain("57.41 GB / 1.8 TB (2 TB filled to 90 %) = 1 drive, rounded up; x 2 copies on drives = 2 drives")},
		Offload: Time{288, say.Plain("57.41 GB / 200 MB a second = 4 min 48 s for one copy")}, // 287.025 s
		Batteries: []Count{
			{"Camera", 6, say.Plain("6 h + 25 % = 450 min; 450 min / 80 min = 6 batteries, rounded up")},
			{"Drone", 3, say.Plain("0.75 h = 45 min; 45 min / 18 min = 3 batteries, rounded up")},
			{"Lamp", 2, say.Plain("2 h = 120 min; 120 min / 60 min = 2 batteries")},
		},
	}
	g, w := reflect.ValueOf(english(got)), reflect.ValueOf(want)
	for i := range g.NumField() {
		if !reflect.DeepEqual(g.Field(i).Interface(), w.Field(i).Interface()) {
			t.Errorf("%s:\n got %+v\nwant %+v", g.Type().Field(i).Name, g.Field(i).Interface(), w.Field(i).Interface())
		}
	}
}

// english is what a shoot needs with all its words as they are in English.
func english(n Needs) Needs {
	words := func(w *say.Text) { *w = say.Plain(w.String()) }
	for i := range n.Films {
		words(&n.Films[i].Words)
	}
	for i := range n.Stills {
		words(&n.Stills[i].Words)
	}
	for i := range n.Batteries {
		words(&n.Batteries[i].Words)
	}
	for _, w := range []*say.Text{&n.Data.Words, &n.Stored.Words, &n.Cards.Words, &n.Drives.Words, &n.Offload.Words} {
		words(w)
	}
	return n
}

func inEnglish(texts []say.Text) (out []string) {
	for _, t := range texts {
		out = append(out, t.String())
	}
	return out
}

// What is not said is not counted, and the words say so. The project's own; no published source.
func TestNotSaid(t *testing.T) {
	got, err := Reckon(Shoot{Backup: Backup{Copies: 1, OnDrives: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if got.Data.Bytes != 0 || got.Data.Words.String() != "nothing is recorded" || got.Cards.Count != 0 || got.Drives.Count != 0 || got.Offload.Seconds != 0 {
		t.Errorf("nothing to record needs %+v", got)
	}
	for _, words := range []say.Text{got.Cards.Words, got.Drives.Words, got.Offload.Words} {
		if !strings.HasPrefix(words.String(), "say how ") {
			t.Errorf("%q does not ask", words)
		}
	}
	want := []string{"Only 1 copy: three are safer.", "All copies are on one kind of media: two kinds are safer.",
		"No copy is kept elsewhere: one at another place is safer."}
	if !reflect.DeepEqual(inEnglish(got.Warnings), want) {
		t.Errorf("warnings %q", got.Warnings)
	}
}

// Refusals are the project's own wording; no published source.
func TestRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		spoil func(*Shoot)
		want  string
	}{
		{func(s *Shoot) { s.Films[0].Seconds = -1 }, "Film: the time on screen, in seconds, is -1"},
		{func(s *Shoot) { s.Films[0].Seconds = 360_001 }, "Film: the time on screen"},
		{func(s *Shoot) { s.Films[0].Size.Width = -5 }, "Film: a picture must be"},
		{func(s *Shoot) { s.Films[0].Rate = Rate{} }, "Film: say how many frames a second"},
		{func(s *Shoot) { s.Films[0].Rate = Rate{24, 0} }, "Film: the frames a second are 24/0"},
		{func(s *Shoot) { s.Films[0].Rate = Rate{math.MinInt64, -1} }, "Film: the frames a second are"},
		{func(s *Shoot) { s.Films[0].Rate = Rate{math.MaxInt64, 1} }, "Film: the frames a second are"},
		{func(s *Shoot) { s.Films[1].Recorded = Rate{12, 1} }, "Slow shots: recorded at 12 frames a second and played at 24 it runs faster"},
		{func(s *Shoot) { s.Films[1].Recorded = Rate{1, -1} }, "Slow shots: the frames a second are"},
		{func(s *Shoot) { s.Films[0].Ratio = nan }, "Film: the shooting ratio is not a number"},
		{func(s *Shoot) { s.Films[0].Ratio = -1 }, "Film: the shooting ratio is -1; it must be 0 to 1000"},
		{func(s *Shoot) { s.Films[0].Ratio = 1001 }, "Film: the shooting ratio is 1001"},
		{func(s *Shoot) { s.Films[0].Ratio = 1e-300 }, "Film: the shooting ratio is too small"},
		{func(s *Shoot) { s.Films[0].Bitrate = 0 }, "Film: say its bit rate"},
		{func(s *Shoot) { s.Films[0].Bitrate = inf }, "Film: the bit rate, in Mbit/s, is not a number"},
		{func(s *Shoot) { s.Films[0].Bitrate = 0.0001 }, "Film: the bit rate, in Mbit/s, is 0.0001"},
		{func(s *Shoot) { // 45 million TB
			s.Films[0].Seconds, s.Films[0].Ratio, s.Films[0].Bitrate = 360_000, 1000, 1e6
		}, "Film: that comes to more data than can be reckoned with"},
		{func(s *Shoot) { // 0.9 million TB each: one can be reckoned with, not both, and not three copies
			big := Film{Name: "Big", Seconds: 7200, Rate: Rate{24, 1}, Ratio: 1000, Bitrate: 1e6}
			s.Films = []Film{big, big}
		}, "Big: that comes to more data than can be reckoned with"},
		{func(s *Shoot) {
			s.Films = []Film{{Name: "Big", Seconds: 7200, Rate: Rate{24, 1}, Ratio: 1000, Bitrate: 1e6}}
		}, "all copies: that comes to more data than can be reckoned with"},
		{func(s *Shoot) { s.Stills[0].Frames = -1 }, "Stills: the number of pictures is -1"},
		{func(s *Shoot) { s.Stills[0].Brackets = 0 }, "Stills: the number of exposures of a picture is 0; it must be 1 to 99"},
		{func(s *Shoot) { s.Stills[0].Bits = 33 }, "Stills: the number of bits is 33"},
		{func(s *Shoot) { s.Stills[0].Selects = 41 }, "Stills: the number of pictures to deliver is 41; it must be 0 to 40"},
		{func(s *Shoot) { s.Stills[0].Megapixels = 0 }, "Stills: say how many megapixels"},
		{func(s *Shoot) { s.Stills[0].Megapixels = inf }, "Stills: the number of megapixels is not a number"},
		{func(s *Shoot) {
			s.Stills[0] = Stills{Name: "Stills", Frames: 1e6, Brackets: 99, Megapixels: 10_000, Bits: 32}
		}, "Stills: that comes to more data"},
		{func(s *Shoot) { s.Card.Capacity = -1 }, "card: it holds -1 bytes"},
		{func(s *Shoot) { s.Card.Fill = 0 }, "card: how far it is filled, in percent, is 0; it must be 1 to 100"},
		{func(s *Shoot) { s.Drive.Fill = 101 }, "drive: how far it is filled"},
		{func(s *Shoot) { s.Drive.Capacity = math.MaxInt64 }, "drive: it holds"},
		{func(s *Shoot) { s.Backup = Backup{} }, "the number of copies is 0"},
		{func(s *Shoot) { s.Backup.OnDrives = 4 }, "the number of copies on drives is 4; it must be 0 to 3"},
		{func(s *Shoot) { s.Backup.Elsewhere = -1 }, "the number of copies elsewhere is -1"},
		{func(s *Shoot) { s.Offload = -1 }, "the speed of copying, in MB a second, is -1"},
		{func(s *Shoot) { s.Batteries[1].Lasts = 0 }, "Drone: say how long a battery lasts"},
		{func(s *Shoot) { s.Batteries[1].Lasts = nan }, "Drone: how long a battery lasts, in minutes, is not a number"},
		{func(s *Shoot) { s.Batteries[1].Hours = -1 }, "Drone: the time to be carried, in hours, is -1"},
		{func(s *Shoot) { s.Batteries[1].Spare = -1 }, "Drone: what is to spare, in percent, is -1"},
	} {
		s := demo()
		c.spoil(&s)
		got, err := Reckon(s)
		if err == nil || !strings.Contains(err.Error(), c.want) || !reflect.DeepEqual(got, Needs{}) {
			t.Errorf("want %q, got %v with %+v", c.want, err, got)
		}
	}
}

// Source: definitions. More is never less; copies and parts add up; a typed decimal is what it says.
func TestReckonHangsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tenths := func(name string, low, high int) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) / 10 }
		film := func(i int) Film {
			return Film{Name: fmt.Sprint("film ", i), Seconds: rapid.IntRange(0, 7200).Draw(t, "seconds"), Rate: Rate{24000, 1001},
				Recorded: rapid.SampledFrom([]Rate{{}, {24000, 1001}, {60000, 1001}, {120, 1}}).Draw(t, "recorded"),
				Ratio:    tenths("ratio", 0, 400), Bitrate: tenths("bitrate", 1, 10_000)}
		}
		s := Shoot{Films: []Film{film(0), film(1)}, Card: Store{Bytes(rapid.IntRange(1, 1000).Draw(t, "card")) * GB, rapid.IntRange(1, 100).Draw(t, "fill")},
			Backup: ThreeTwoOne, Offload: tenths("speed", 1, 20_000)}
		n, err := Reckon(s)
		if err != nil {
			t.Fatal(err)
		}
		if n.Data.Bytes != n.Films[0].Data+n.Films[1].Data || n.Stored.Bytes != 3*n.Data.Bytes {
			t.Fatalf("parts %v, %v; sum %v; stored %v", n.Films[0].Data, n.Films[1].Data, n.Data.Bytes, n.Stored.Bytes)
		}
		usable := int64(s.Card.Capacity) / 100 * int64(s.Card.Fill)
		if room := usable * n.Cards.Count; room < int64(n.Data.Bytes) || room-usable >= int64(n.Data.Bytes) && n.Cards.Count > 0 {
			t.Fatalf("%d cards of %d for %d", n.Cards.Count, usable, n.Data.Bytes)
		}
		f, got := s.Films[0], n.Films[0]
		bits := big.NewRat(int64(math.Round(f.Bitrate*10))*100_000*int64(got.Footage), 8) // the tenths that were drawn
		if over := new(big.Rat).Sub(big.NewRat(int64(got.Data), 1), bits); over.Sign() < 0 || over.Cmp(big.NewRat(1, 1)) >= 0 {
			t.Fatalf("%v s at %v Mbit/s are %d bytes", got.Footage, f.Bitrate, got.Data)
		}
		if exactly := int64(math.Round(f.Ratio*10)) * int64(f.Seconds); int64(got.Running) != (exactly+9)/10 {
			t.Fatalf("%d s x %v = %d", f.Seconds, f.Ratio, got.Running)
		}
		s.Films[0].Seconds++
		s.Films[0].Ratio += 0.1
		more, err := Reckon(s)
		if err != nil || more.Data.Bytes < n.Data.Bytes || more.Cards.Count < n.Cards.Count || more.Offload.Seconds < n.Offload.Seconds {
			t.Fatalf("more film needs less: %+v, %+v, %v", n, more, err)
		}
	})
}
