package papers

import (
	"regexp"
	"strings"
	"time"

	"eavelight/plan"

	"github.com/go-playground/locales"
	"github.com/go-playground/locales/cs"
	"github.com/go-playground/locales/da"
	"github.com/go-playground/locales/de"
	"github.com/go-playground/locales/el"
	"github.com/go-playground/locales/en_US"
	"github.com/go-playground/locales/es"
	"github.com/go-playground/locales/fr"
	"github.com/go-playground/locales/it"
	"github.com/go-playground/locales/nb"
	"github.com/go-playground/locales/nl"
	"github.com/go-playground/locales/pl"
	"github.com/go-playground/locales/pt"
	"github.com/go-playground/locales/sv"
)

// style is how the papers of a plan write dates and times of day.
type style struct {
	dates plan.DateWords
	clock plan.HourClock
}

func styleOf(p *plan.Plan) style { return style{p.Papers.Dates.Or(), p.Papers.Clock.Or()} }

// dateWords knows the dates of the languages as the Unicode CLDR has them. What is not in it is English.
// Finnish is left out: its weekday comes out as the letters of its pattern.
var dateWords = map[plan.DateWords]locales.Translator{
	plan.USEnglish: en_US.New(), "es": es.New(), "fr": fr.New(), "de": de.New(), "it": it.New(), "nl": nl.New(), "pt": pt.New(),
	"pl": pl.New(), "sv": sv.New(), "da": da.New(), "nb": nb.New(), "el": el.New(), "cs": cs.New(),
}

// long writes a date with its weekday, and nothing for the zero Date.
func (s style) long(d plan.Date) string {
	words, ok := dateWords[s.dates]
	switch {
	case d.IsZero():
		return ""
	case !ok:
		return d.Long()
	}
	return words.FmtDateFull(time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC))
}

// DateExample is a date as it is written in a language.
func DateExample(l plan.DateWords) string {
	return style{dates: l}.long(plan.Date{Year: 2027, Month: time.March, Day: 6})
}

// hour writes a local time as the clock shows it: "18:05", or "6:05\u00a0pm".
func (s style) hour(local time.Time) string {
	if s.clock == plan.Clock12 {
		return local.Format("3:04\u00a0pm")
	}
	return local.Format("15:04")
}

// hours writes a span of one day; what both ends share of the twelve-hour clock stands once: "6:05–6:40\u00a0pm".
func (s style) hours(from, to time.Time) string {
	first, half, _ := strings.Cut(s.hour(from), "\u00a0")
	if last := s.hour(to); strings.HasSuffix(last, half) {
		return first + "–" + last
	}
	return s.hour(from) + "–" + s.hour(to)
}

// clockForm finds the times in what other packages word: they have the 24-hour clock.
var clockForm = regexp.MustCompile(`\b\d\d:\d\d\b`)

// clocks writes the times in a sentence of another package by the reader's clock.
func (s style) clocks(words string) string {
	return clockForm.ReplaceAllStringFunc(words, func(word string) string {
		t, err := time.Parse("15:04", word)
		if err != nil {
			return word
		}
		return s.hour(t)
	})
}
