package view

import (
	"cmp"
	"time"

	"eavelight/app/session"
	"eavelight/app/tongue"
	"eavelight/plan"
)

// LostWords tells of changes that were not saved when the program ended.
func LostWords(l session.Lost, now time.Time) string {
	text := tongue.Say("Eavelight ended while changes to “%s” were not saved (%s).", cmp.Or(l.Title, tongue.Say("Untitled plan")), moment(l.When, now))
	if !l.Since.IsZero() {
		text += " " + tongue.Say("Its file was changed after that (%s); bring the changes back, and saving them replaces what the file says now.", moment(l.Since, now))
	}
	if l.Path != "" {
		text += "\n" + l.Path
	}
	return text
}

// moment is a time of this computer's clock, with its date unless that is today.
func moment(t, now time.Time) string {
	t = t.In(now.Location())
	if d := plan.DateOf(t); d != plan.DateOf(now) {
		return shortDate(d) + ", " + tongue.Hour(t)
	}
	return tongue.Hour(t)
}
