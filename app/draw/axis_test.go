package draw

import (
	"math"
	"slices"
	"testing"
	"time"
	_ "time/tzdata"

	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

func local(t *testing.T, name, from, to string) Axis {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	parse := func(s string) time.Time {
		at, err := time.Parse(time.RFC3339, s)
		if err != nil {
			t.Fatal(err)
		}
		return at
	}
	return Axis{From: parse(from), To: parse(to), Zone: z}
}

// The clock changes are those of the IANA time zone database: Berlin on the last Sundays of March (02:00 becomes 03:00) and
// October (03:00 becomes 02:00); Lord Howe on the first Sunday of April by half an hour only (02:00 becomes 01:30);
// Kathmandu is 5 h 45 ahead of UTC all year.
func TestHoursFollowTheWallClock(t *testing.T) {
	for _, c := range []struct {
		name     string
		axis     Axis
		per      float32 // units an hour gets
		gap      float32
		want     []string
		distance []float64 // hours from the first
	}{
		{"plain", local(t, "UTC", "2026-06-01T05:30:00Z", "2026-06-01T09:00:00Z"), 50, 40,
			[]string{"06:00", "07:00", "08:00", "09:00"}, []float64{0, 1, 2, 3}},
		{"begins on the hour", local(t, "UTC", "2026-06-01T06:00:00Z", "2026-06-01T08:59:00Z"), 50, 40,
			[]string{"06:00", "07:00", "08:00"}, []float64{0, 1, 2}},
		{"close", local(t, "UTC", "2026-06-01T05:30:00Z", "2026-06-01T13:00:00Z"), 15, 40,
			[]string{"06:00", "09:00", "12:00"}, []float64{0, 3, 6}},
		{"Berlin, clock forward", local(t, "Europe/Berlin", "2026-03-29T00:00:00+01:00", "2026-03-29T05:00:00+02:00"), 50, 40,
			[]string{"00:00", "01:00", "03:00", "04:00", "05:00"}, []float64{0, 1, 2, 3, 4}},
		{"Berlin, clock back", local(t, "Europe/Berlin", "2026-10-25T01:00:00+02:00", "2026-10-25T04:00:00+01:00"), 50, 40,
			[]string{"01:00", "02:00", "02:00", "03:00", "04:00"}, []float64{0, 1, 2, 3, 4}},
		{"Lord Howe, half an hour back", local(t, "Australia/Lord_Howe", "2026-04-05T00:00:00+11:00", "2026-04-05T03:00:00+10:30"), 50, 40,
			[]string{"00:00", "01:00", "02:00", "03:00"}, []float64{0, 1, 2.5, 3.5}},
		{"Kathmandu", local(t, "Asia/Kathmandu", "2026-06-01T00:00:00Z", "2026-06-01T03:00:00Z"), 50, 40,
			[]string{"06:00", "07:00", "08:00"}, []float64{0, 1, 2}},
	} {
		width := c.per * float32(c.axis.To.Sub(c.axis.From).Hours())
		var labels []string
		var distance []float64
		hours := c.axis.hours(width, c.gap)
		for _, h := range hours {
			labels = append(labels, h.label)
			distance = append(distance, h.at.Sub(hours[0].at).Hours())
		}
		if !slices.Equal(labels, c.want) || !slices.Equal(distance, c.distance) {
			t.Errorf("%s: %v at %v, want %v at %v", c.name, labels, distance, c.want, c.distance)
		}
	}
}

func TestTimeUndoesX(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "from"), 0)
		length := time.Duration(rapid.Int64Range(3600, 26*3600).Draw(t, "length")) * time.Second
		a := Axis{From: from, To: from.Add(length), Left: float32(rapid.IntRange(0, 200).Draw(t, "left")), Right: float32(rapid.IntRange(0, 90).Draw(t, "right"))}
		width := a.Left + a.Right + float32(rapid.IntRange(100, 3000).Draw(t, "plot"))
		at := from.Add(time.Duration(rapid.Int64Range(-7200, int64(length.Seconds())+7200).Draw(t, "at")) * time.Second)
		if d := a.Time(a.X(at, width), width).Sub(at).Abs(); d > 2*time.Second+length/100000 { // float32 keeps seven digits
			t.Fatalf("%v came back %v off", at, d)
		}
		if a.X(from, width) != a.Left || math.Abs(float64(a.X(a.To, width)-(width-a.Right))) > 0.01 {
			t.Fatal("the axis does not end at its ends")
		}
	})
}

func TestAxisWithoutRoomOrTime(t *testing.T) {
	zero := Axis{Left: 80}
	if x := zero.X(at(9, 0), 300); x != 80 {
		t.Errorf("a zero axis puts a time at %v, want its left end", x)
	}
	a := sampleAxis()
	if got := a.Time(50, 60); !got.Equal(a.From) {
		t.Errorf("without room the time is %v, want the beginning", got)
	}
	if hours := zero.hours(300, 40); len(hours) > 1 {
		t.Errorf("a zero axis has hours %v", hours)
	}
}

func TestGutterGrowsWithTheTextAndHasAnEnd(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	short := Gutter("Pool", "Kitchen")
	if short <= Gutter("Pool") || Gutter(longText) > 256 {
		t.Errorf("gutters %v, %v, %v", Gutter("Pool"), short, Gutter(longText))
	}
	test.NewTempApp(t).Settings().SetTheme(look.New(false).Scaled(1.5))
	if big := Gutter("Pool", "Kitchen"); big < 1.3*short {
		t.Errorf("at 150 %% the gutter is %v, at 100 %% %v", big, short)
	}
}

const longText = "Die sehr lange Überschrift einer Szene auf der überdachten Terrasse hinter der Orangerie"
