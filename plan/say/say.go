// Package say keeps what is said apart from the language it is said in. A Text is a form in English with what fills it; it is
// put into words where somebody reads it, by the Tongue of the reader. By itself it speaks English, so that it prints with
// %s and %v as a string would.
package say

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
)

// Tongue gives the form of a language for an English one: the one that goes with a count, or with none where n is negative.
// What it does not know it gives back as it came. The nil Tongue is English.
type Tongue func(form string, n int) string

// Text is something said. The zero Text says nothing.
type Text struct {
	kind kind
	form string // in English, as fmt takes it; what stands between the parts of a join
	one  string // the form for a count of one
	n    int
	args []any
}

type kind byte

const (
	plain kind = iota
	filled
	counted
	joined
	list
	number
)

// That is a sentence or a phrase. A form without arguments is taken as it stands, a per cent sign and all. Where one English
// word has two meanings, the form begins with the one that is meant and a bar, which nobody reads: "theme|Light".
// Arguments that are Texts, or errors of this package, are said in the reader's tongue too.
func That(form string, args ...any) Text { return Text{kind: filled, form: form, args: args} }

// Count is a phrase that goes by a number, which is the first argument of both forms: Count(2, "%d scene", "%d scenes").
func Count(n int, one, many string, more ...any) Text {
	return Text{kind: counted, form: many, one: one, n: n, args: append([]any{n}, more...)}
}

// Plain is a name, a figure or anything else that is the same in every tongue.
func Plain(s string) Text { return Text{form: s} }

// Number is a number that is written already, as "-12,345.60" or "12.5 GB"; it is said with the marks of the tongue.
func Number(s string) Text { return Text{kind: number, form: s} }

// Join puts texts behind each other with something between them; those that say nothing are left out.
func Join(between string, parts ...Text) Text {
	return Text{kind: joined, form: between, args: said(parts)}
}

// List is texts as a sentence lists them: "7, 9 and 12".
func List(parts ...Text) Text { return Text{kind: list, args: said(parts)} }

// Names is List of names.
func Names(names []string) Text {
	var parts []Text
	for _, n := range names {
		parts = append(parts, Plain(n))
	}
	return List(parts...)
}

// Marked is That of a form which was marked with Mark where it is written.
func Marked(form string, args ...any) Text { return Text{kind: filled, form: form, args: args} }

// Mark does nothing to a form. It marks one that is said by Marked somewhere else, so that translators are told of it.
func Mark(form string) string { return form }

func said(parts []Text) []any {
	var out []any
	for _, p := range parts {
		if !p.IsZero() {
			out = append(out, p)
		}
	}
	return out
}

// IsZero reports whether nothing is said.
func (t Text) IsZero() bool {
	if t.kind == joined || t.kind == list {
		return len(t.args) == 0
	}
	return t.form == ""
}

// String is the text in English.
func (t Text) String() string { return t.In(nil) }

// In is the text in a tongue.
func (t Text) In(tongue Tongue) string {
	switch t.kind {
	case filled:
		return fill(tongue.form(t.form, -1), tongue, t.args)
	case counted:
		form := tongue.form(t.form, t.n)
		if t.n == 1 && form == t.form { // English, or not translated
			form = t.one
		}
		return fill(form, tongue, t.args)
	case joined:
		return strings.Join(words(tongue, t.args), t.form)
	case list:
		return tongue.list(words(tongue, t.args))
	case number:
		return tongue.Number(t.form)
	}
	return t.form
}

// Form says a form that was marked.
func (tongue Tongue) Form(form string) string { return unmarked(tongue.form(form, -1)) }

// Number writes a number, given as "-12,345.60" or "12.5 GB", with the marks of a language.
func (tongue Tongue) Number(s string) string {
	if tongue == nil {
		return s
	}
	return strings.NewReplacer(".", tongue.Form("decimal mark|."), ",", tongue.Form("thousands mark|,")).Replace(s)
}

func (tongue Tongue) form(form string, n int) string {
	if tongue == nil {
		return form
	}
	return tongue(form, n)
}

func (tongue Tongue) list(words []string) string {
	if n := len(words); n > 1 {
		form := "%s and %s"
		if beginsWithI(words[n-1]) {
			form = "before the vowel i|%s and %s"
		}
		return fmt.Sprintf(tongue.Form(form), strings.Join(words[:n-1], ", "), words[n-1])
	}
	return strings.Join(words, "")
}

// vowelI is how words begin whose first sound is the vowel i: with i, hi or y, behind which no other vowel makes a consonant of it, as
// in "hielo" and "iones".
var vowelI = regexp.MustCompile(`(?i)^[^\p{L}\p{N}]*(?:h?(?:í|i(?:[^aeouáéóú]|$))|y[b-df-hj-np-tv-xzñ])`)

// beginsWithI reports that a word begins with the vowel i as Spanish is spelt: "y" is "e" before it ("y" in the Diccionario
// panhispánico de dudas, and the Ortografía de la lengua española, both of the Real Academia Española; from memory).
func beginsWithI(word string) bool { return vowelI.MatchString(word) }

func words(tongue Tongue, args []any) []string {
	var out []string
	for _, a := range args {
		out = append(out, a.(Text).In(tongue))
	}
	return out
}

// fill puts the arguments into a form.
func fill(form string, tongue Tongue, args []any) string {
	form = unmarked(form)
	if len(args) == 0 || !strings.Contains(form, "%") {
		return form
	}
	filled := make([]any, len(args))
	for i, a := range args {
		filled[i] = tongue.arg(a)
	}
	return fmt.Sprintf(form, filled...)
}

// unmarked takes away the meaning in front of a form.
func unmarked(form string) string {
	if i := strings.IndexByte(form, '|'); i > 0 {
		return form[i+1:]
	}
	return form
}

func (tongue Tongue) arg(a any) any {
	switch a := a.(type) {
	case interface{ In(Tongue) string }:
		return a.In(tongue)
	case error:
		return tongue.Error(a)
	case float64:
		if mark := tongue.Form("decimal mark|."); mark != "." {
			return marked{a, mark}
		}
	}
	return a
}

// marked is a number that is written with a decimal mark other than a point.
type marked struct {
	value float64
	mark  string
}

func (m marked) Format(s fmt.State, verb rune) {
	fmt.Fprint(s, strings.Replace(fmt.Sprintf(fmt.FormatString(s, verb), m.value), ".", m.mark, 1))
}

// Error makes an error that can be said in every tongue. Errors among the arguments are wrapped.
func Error(form string, args ...any) error { return &fault{That(form, args...)} }

type fault struct{ Text }

func (f *fault) Error() string { return f.String() }

func (f *fault) Unwrap() []error {
	var out []error
	for _, a := range f.args {
		if err, ok := a.(error); ok {
			out = append(out, err)
		}
	}
	return out
}

// Error is an error's words in a tongue. One of another package is said as it is, but what the system says of files.
func (tongue Tongue) Error(err error) string {
	if f, ok := err.(interface{ In(Tongue) string }); ok {
		return f.In(tongue)
	}
	var parts interface{ Unwrap() []error }
	if errors.As(err, &parts) && err == parts.(error) { // joined errors, a line each
		var lines []string
		for _, e := range parts.Unwrap() {
			lines = append(lines, tongue.Error(e))
		}
		return strings.Join(lines, "\n")
	}
	return tongue.system(err)
}
