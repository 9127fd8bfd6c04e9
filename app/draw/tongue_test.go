package draw

import (
	"strings"
	"testing"

	"eavelight/app/tongue"
)

// TestOtherTongue draws the year and the hours for who reads Spanish by a clock of twelve hours.
func TestOtherTongue(t *testing.T) {
	w := &YearMap{data: YearData{Year: 2028, Days: make([]YearDay, 366), Marks: []YearMark{{Day: 59, Label: "29 feb"}, {Day: 59, Label: "la mejor"}}}}
	w.data.Days[59] = YearDay{[]MinuteSpan{{1090, 1131}}, MinuteSpan{407, 1440}}
	t.Cleanup(func() {
		tongue.Use("en")
		tongue.UseClock12(false)
	})
	if err := tongue.Use("es"); err != nil {
		t.Fatal(err)
	}
	if got, want := w.caption(59), "mar, 29 de febrero: 18:10–18:51, 41 min. Sol 06:47–24:00. la mejor"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	tongue.UseClock12(true)
	plain := func(s string) string { return strings.ReplaceAll(s, "\u00a0", " ") }
	if got, want := plain(w.caption(59)), "mar, 29 de febrero: 6:10 pm–6:51 pm, 41 min. Sol 6:47 am–12:00 am. la mejor"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	hours := local(t, "UTC", "2026-06-01T11:00:00Z", "2026-06-01T13:00:00Z").hours(500, 40)
	for i, want := range []string{"11 am", "12 pm", "1 pm"} {
		if got := plain(hours[i].label); got != want {
			t.Errorf("hour %d is %q, want %q", i, got, want)
		}
	}
	if got := plain(beadHour(18)); got != "6 pm" {
		t.Errorf("the bead of 18 is %q", got)
	}
}
