// Package tongue is the language of the window. Everything that a person reads in it comes through Say, Count or Of, which ask
// Fyne's lang; so Fyne's own words and ours change together, and while the window is open.
package tongue

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	_ "eavelight/app/locale" // before Fyne
	"eavelight/assets"
	"eavelight/plan/say"

	"fyne.io/fyne/v2/lang"
)

// Language is one that the window speaks.
type Language struct {
	Code string // ISO 639
	Name string // as its speakers call it
}

// Languages lists them, English first.
var Languages = []Language{{"en", "English"}, {"es", "Español"}}

// System is the language of this computer, or English where the window does not speak it.
func System() string {
	code := systems()
	for _, l := range Languages {
		if l.Code == code {
			return code
		}
	}
	return Languages[0].Code
}

func systems() string {
	code, _, _ := strings.Cut(string(lang.SystemLocale()), "-")
	return code
}

// What was looked up is kept: a form is asked for many times in each frame of a drag, and lang takes microseconds.
var (
	guard sync.RWMutex
	known = map[asked]string{}
	now   string
)

type asked struct {
	form string
	n    int
}

// Use has the window speak a language from now on. What is on screen already stays as it is.
func Use(code string) error {
	if code == Code() || Code() == "" && code == "en" && systems() == "en" { // English words are there already
		setCode(code)
		return nil
	}
	table, err := table(code)
	if err != nil {
		return err
	}
	guard.Lock()
	defer guard.Unlock()
	// Fyne chooses a language by the computer and has no way to be told another. So the one that is wanted takes the place of
	// the computer's; it says every form, so that none is left of the language before.
	if err := lang.AddTranslationsForLocale(table, lang.SystemLocale()); err != nil {
		return err
	}
	clear(known)
	now = code
	return nil
}

func setCode(code string) {
	guard.Lock()
	defer guard.Unlock()
	now = code
}

// Code is the language in use; empty before the first is.
func Code() string {
	guard.RLock()
	defer guard.RUnlock()
	return now
}

// table lists every form of the window in a language, as lang reads it.
func table(code string) ([]byte, error) {
	all := map[string]any{}
	for _, l := range Languages[1:] {
		forms, err := Forms(l.Code)
		if err != nil {
			return nil, err
		}
		for form := range forms {
			all[form] = form
		}
	}
	forms, err := Forms(code)
	if err != nil {
		return nil, err
	}
	for form, words := range forms {
		all[form] = words
	}
	var messages []map[string]any // a list, for as a map a form that is called "other" would be taken for a plural
	for form, words := range all {
		message, plural := words.(map[string]any)
		if !plural {
			message = map[string]any{"other": words}
		}
		message["id"] = form
		messages = append(messages, message)
	}
	return json.Marshal(messages)
}

// Forms reads what a language has for each form: a string, or plurals by the names that the CLDR has for them.
func Forms(code string) (map[string]any, error) {
	files, err := fs.Glob(assets.Tongues, "tongues/"+code+"/*.json")
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("there are no words for the language %q", code)
	}
	out := map[string]any{}
	for _, name := range files {
		data, err := assets.Tongues.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal(data, &out); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return out, nil
}

// lookup is the window's language as a say.Tongue.
func lookup(form string, n int) string {
	switch {
	case form == "":
		return ""
	case form == say.LengthUnit && Feet():
		return say.Feet
	case form == say.LengthUnit: // no language has another symbol
		return form
	}
	key := asked{form, min(n, pluralsEnd)}
	guard.RLock()
	words, ok := known[key]
	guard.RUnlock()
	if ok {
		return words
	}
	guard.Lock()
	defer guard.Unlock()
	switch {
	case now == "" || now == "en": // forms are English
		words = form
	case n < 0:
		words = lang.X(form, form)
	default:
		words = lang.XN(form, form, n)
	}
	known[key] = words
	return words
}

// pluralsEnd is more than the plurals of our languages tell apart one by one.
const pluralsEnd = 100

// Say is a form in the language of the window; see say.That.
func Say(form string, args ...any) string { return say.That(form, args...).In(lookup) }

// Count is a phrase that goes by a number in the language of the window; see say.Count.
func Count(n int, one, many string, more ...any) string {
	return say.Count(n, one, many, more...).In(lookup)
}

// List is names as a sentence lists them: "7, 9 and 12".
func List(names []string) string { return say.Names(names).In(lookup) }

// Of is what another package says, in the language of the window.
func Of(text interface{ In(say.Tongue) string }) string { return clocked(text.In(lookup)) }

// Marked says a form that was marked with say.Mark.
func Marked(form string) string { return say.Tongue(lookup).Form(form) }

// Error is an error's words.
func Error(err error) string { return clocked(say.Tongue(lookup).Error(err)) }

// Current is the language of the window, for what is written into a plan in it: the name of a copy, a ready-made scene.
func Current() say.Tongue { return lookup }

// Hour is a time of day as the clock of the window shows it: "18:05", or "6:05 pm".
func Hour(t time.Time) string {
	if clock12.Load() {
		return t.Format("3:04\u00a0pm")
	}
	return t.Format("15:04")
}

// FullHour is Hour for a full hour, where room is short: "18:00", or "6 pm".
func FullHour(t time.Time) string {
	if clock12.Load() {
		return t.Format("3\u00a0pm")
	}
	return t.Format("15:04")
}

// UseClock12 has the window show the time of day in twelve hours, or in twenty-four.
func UseClock12(on bool) { clock12.Store(on) }

var clock12 atomic.Bool

// UseWeekStart has weeks begin on a day.
func UseWeekStart(d time.Weekday) { weekStart.Store(int32(d)) }

// WeekStart is the day that a week begins on.
func WeekStart() time.Weekday { return time.Weekday(weekStart.Load()) }

var weekStart atomic.Int32

// clockForm finds the times in what other packages say: they have the 24-hour clock.
var clockForm = regexp.MustCompile(`\b[0-3]\d:[0-5]\d\b`)

// clocked writes the times in a sentence as the clock of the window shows them.
func clocked(words string) string {
	if !clock12.Load() {
		return words
	}
	return clockForm.ReplaceAllStringFunc(words, func(word string) string {
		t, err := time.Parse("15:04", word)
		if err != nil { // past midnight, "25:10"
			return word
		}
		return Hour(t)
	})
}

// Number writes a number, given as "-12,345.60" or "12345.60", with the marks of the language.
func Number(s string) string { return say.Tongue(lookup).Number(s) }
