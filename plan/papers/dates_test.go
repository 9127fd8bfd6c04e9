package papers

import (
	"testing"
	"time"

	"eavelight/plan"
)

// TestDatesInLanguages holds the dates against the full date patterns, month and weekday names of the Unicode CLDR (unicode.org/cldr,
// gregorian calendar, "dateFormats full"), written down here from memory for 6 March 2027, which was made a Saturday by the calendar.
func TestDatesInLanguages(t *testing.T) {
	d := plan.Date{Year: 2027, Month: time.March, Day: 6}
	for language, want := range map[plan.DateWords]string{
		plan.English:   "Saturday 6 March 2027", // ours, without CLDR's comma
		plan.USEnglish: "Saturday, March 6, 2027",
		"es":           "sábado, 6 de marzo de 2027",
		"fr":           "samedi 6 mars 2027",
		"de":           "Samstag, 6. März 2027",
		"it":           "sabato 6 marzo 2027",
		"nl":           "zaterdag 6 maart 2027",
		"pt":           "sábado, 6 de março de 2027",
		"pl":           "sobota, 6 marca 2027",
		"sv":           "lördag 6 mars 2027",
		"da":           "lørdag den 6. marts 2027",
		"nb":           "lørdag 6. mars 2027",
		"el":           "Σάββατο, 6 Μαρτίου 2027",
		"cs":           "sobota 6. března 2027",
	} {
		if got := (style{dates: language}).long(d); got != want {
			t.Errorf("%s: %q, want %q", language, got, want)
		}
	}
	if got := (style{dates: "es"}).long(plan.Date{}); got != "" {
		t.Errorf("no date is written %q", got)
	}
}

// TestEveryDateLanguageIsKnown fails when a language is offered whose words nobody has.
func TestEveryDateLanguageIsKnown(t *testing.T) {
	for _, language := range plan.DateLanguages {
		if _, ok := dateWords[language]; !ok && language != plan.English {
			t.Errorf("%s is offered, and its dates would be English", language)
		}
	}
}

// TestTwelveHourClock has noon as 12 pm and midnight as 12 am (NIST, "Times of Day FAQs": how most digital clocks show them).
func TestTwelveHourClock(t *testing.T) {
	zone := zone(t, "America/Los_Angeles")
	w := wall{style{clock: plan.Clock12}, plan.Date{Year: 2027, Month: 3, Day: 6}, zone}
	at := func(hour, minute int) time.Time { return time.Date(2027, 3, 6, hour, minute, 0, 0, zone) }
	for _, c := range []struct {
		from, to time.Time
		want     string
	}{
		{at(18, 5), at(18, 40), "6:05–6:40 pm"},
		{at(11, 30), at(12, 15), "11:30 am–12:15 pm"},
		{at(12, 0), at(13, 0), "12:00–1:00 pm"},
		{at(0, 0), at(1, 0), "12:00–1:00 am"},
		{at(23, 30), at(24, 20), "11:30 pm–12:20 am +1"},
		{at(24, 10), at(24, 20), "12:10–12:20 am +1"},
	} {
		if got := spaces.Replace(w.span(plan.Span{From: c.from, To: c.to})); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
