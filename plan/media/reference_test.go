package media

import (
	"math"
	"math/big"
	"testing"
)

// Every row here is one of the project's reference values, section 7, with its status there: C computed from definitions, M from memory,
// CP common practice, no published source.

// Sizes: M / C.
func TestReferenceSizes(t *testing.T) {
	for _, c := range []struct {
		text   string
		size   Size
		pixels int
	}{
		{"UHD", Size{3840, 2160}, 8_294_400},
		{"3840x2160", UHD, 8_294_400},
		{"HD", Size{1920, 1080}, 1920 * 1080},
		{"DCI 4K", Size{4096, 2160}, 4096 * 2160},
		{"vertical", Size{1080, 1920}, 1080 * 1920},
	} {
		got, err := ParseSize(c.text)
		if err != nil || got != c.size || got.Width*got.Height != c.pixels {
			t.Errorf("%s is %v of %d pixels, %v; want %v, %d", c.text, got, got.Width*got.Height, err, c.size, c.pixels)
		}
	}
}

// Rates: M / C.
func TestReferenceRates(t *testing.T) {
	for _, c := range []struct {
		text   string
		rate   Rate
		places string
	}{
		{"23.976", Rate{24000, 1001}, "23.976023976"},
		{"29.97", Rate{30000, 1001}, "29.970029970"},
		{"59.94", Rate{60000, 1001}, "59.940059940"},
	} {
		got, err := ParseRate(c.text)
		if err != nil || got != c.rate || got.rat().FloatString(9) != c.places {
			t.Errorf("%s is %v, %v; want %v", c.text, got, err, c.rate)
		}
	}
}

// Frames: C.
func TestReferenceFrames(t *testing.T) {
	if got, err := (Rate{24, 1}).Frames(60); err != nil || got.Cmp(big.NewRat(1440, 1)) != 0 {
		t.Errorf("60 s at 24 have %v frames, %v", got, err)
	}
	if got, err := (Rate{24000, 1001}).Frames(3600); err != nil || got.FloatString(3) != "86313.686" {
		t.Errorf("an hour at 23.976 has %v frames, %v; want 86313.686", got, err)
	}
	for _, c := range []struct {
		recorded, played Rate
		want             *big.Rat
	}{
		{Rate{60000, 1001}, Rate{24000, 1001}, big.NewRat(5, 2)},
		{Rate{120, 1}, Rate{24, 1}, big.NewRat(5, 1)},
	} {
		if got, err := c.recorded.Slower(c.played); err != nil || got.Cmp(c.want) != 0 {
			t.Errorf("%s at %s is %v times slower, %v; want %v", c.recorded, c.played, got, err, c.want)
		}
	}
}

// recorded is a film of so many hours of footage; the card holds 128 GB and is filled to the brim.
func recorded(t *testing.T, hours int, mbits float64, copies int) Needs {
	t.Helper()
	n, err := Reckon(Shoot{
		Films:  []Film{{Name: "film", Seconds: hours * 3600, Rate: Rate{25, 1}, Ratio: 1, Bitrate: mbits}},
		Card:   Store{128 * GB, 100},
		Backup: Backup{Copies: copies},
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Data = bit rate x time / 8: C.
func TestReferenceData(t *testing.T) {
	for _, c := range []struct {
		mbits      float64
		hours      int
		want       Bytes
		text, gibs string
	}{
		{100, 1, 45 * GB, "45 GB", "41.91 GiB"},
		{200, 1, 90 * GB, "90 GB", ""},
		{400, 1, 180 * GB, "180 GB", ""},
		{100, 6, 270 * GB, "270 GB", ""},
	} {
		got := recorded(t, c.hours, c.mbits, 1).Data.Bytes
		if got != c.want || got.String() != c.text || c.gibs != "" && got.GiB() != c.gibs {
			t.Errorf("%v h at %v Mbit/s: %d bytes, %s, %s; want %s %s", c.hours, c.mbits, got, got, got.GiB(), c.text, c.gibs)
		}
	}
	if got := recorded(t, 6, 100, 3).Stored.Bytes; got != 810*GB {
		t.Errorf("three copies of 6 h at 100 Mbit/s: %s, want 810 GB", got)
	}
	if got := recorded(t, 1, 100, 1).Films[0].CardTime; got != 2*3600+50*60+40 || got.String() != "2 h 50 min 40 s" {
		t.Errorf("128 GB at 100 Mbit/s last %s, want 2 h 50 min 40 s", got)
	}
}

// An hour of uncompressed UHD, 10 bit 4:2:2 at 24000/1001, which is 3.97733 Gbit/s: C.
func TestReferenceUncompressed(t *testing.T) {
	if hour := recorded(t, 1, 3977.33, 1).Data.Bytes; math.Abs(float64(hour)/1e9-1789.8) > 0.05 || hour.String() != "1.79 TB" {
		t.Errorf("it is %d bytes, want 1789.8 GB", hour)
	}
}

// A raw still of 61 Mpx and 14 bit: C; compressed about half: CP.
func TestReferenceStill(t *testing.T) {
	one := Stills{Name: "stills", Frames: 1, Brackets: 1, Megapixels: 61, Bits: 14}
	got, err := stills(one)
	if err != nil || got.Each != 106_750_000 || got.Each.String() != "106.75 MB" {
		t.Errorf("packed: %s, %v; want 106.75 MB", got.Each, err)
	}
	one.Compressed = true
	if got, err = stills(one); err != nil || got.Each != 53_375_000 {
		t.Errorf("compressed: %s, %v; want half of 106.75 MB", got.Each, err)
	}
	one.Brackets = 3 // -2, 0, +2 EV: CP
	if got, err = stills(one); err != nil || got.Exposures != 3 || got.Data != 3*53_375_000 {
		t.Errorf("bracketed: %d exposures, %s, %v", got.Exposures, got.Data, err)
	}
}

// 3-2-1: CP, M.
func TestReferenceCopies(t *testing.T) {
	if ThreeTwoOne.Copies != 3 || ThreeTwoOne.OnDrives == 0 || ThreeTwoOne.OnDrives == 3 || ThreeTwoOne.Elsewhere != 1 {
		t.Errorf("%+v is not 3 copies on 2 kinds, 1 elsewhere", ThreeTwoOne)
	}
	if got := ThreeTwoOne.warnings(); got != nil {
		t.Errorf("3-2-1 is warned of: %q", got)
	}
}
