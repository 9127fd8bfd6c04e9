package say_test

import (
	"encoding/json"
	"os"
	"testing"
	"time"

	"eavelight/plan/say"

	"github.com/go-playground/locales/es"
)

// realSpanish speaks with the words of the window.
func realSpanish(t *testing.T) say.Tongue {
	t.Helper()
	data, err := os.ReadFile("../../assets/tongues/es/say.json")
	if err != nil {
		t.Fatal(err)
	}
	words := map[string]string{}
	if err := json.Unmarshal(data, &words); err != nil {
		t.Fatal(err)
	}
	return func(form string, _ int) string { return words[form] }
}

// TestDatesInSpanish holds the dates of a year against the Unicode CLDR, as github.com/go-playground/locales has it.
func TestDatesInSpanish(t *testing.T) {
	spanish, cldr := realSpanish(t), es.New()
	for day := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC); day.Year() == 2027; day = day.AddDate(0, 0, 1) {
		if got, want := say.LongDate(day).In(spanish), cldr.FmtDateFull(day); got != want {
			t.Fatalf("%s is %q, and %q in the CLDR", day.Format(time.DateOnly), got, want)
		}
		if got, want := say.ShortMonth(day.Month()).In(spanish), cldr.MonthAbbreviated(day.Month()); got != want && got+"." != want {
			t.Fatalf("the month is %q, and %q in the CLDR", got, want)
		}
		if got, want := say.ShortWeekday(day.Weekday()).In(spanish), cldr.WeekdayAbbreviated(day.Weekday()); got != want && got+"." != want {
			t.Fatalf("the weekday is %q, and %q in the CLDR", got, want)
		}
	}
}
