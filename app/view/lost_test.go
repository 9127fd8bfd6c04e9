package view

import (
	"testing"
	"time"

	"eavelight/app/session"
)

func TestLostWords(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2027, 3, day, hour, 42, 0, 0, time.UTC) }
	for _, test := range []struct {
		lost session.Lost
		want string
	}{
		{session.Lost{When: at(6, 17)}, "Eavelight ended while changes to “Untitled plan” were not saved (17:42)."},
		{session.Lost{Title: "A day", When: at(5, 17), Path: "/home/a/b.eavelight"},
			"Eavelight ended while changes to “A day” were not saved (Fri 5 Mar 2027, 17:42).\n/home/a/b.eavelight"},
		{session.Lost{Title: "A day", When: at(6, 7), Since: at(6, 8), Path: "b"},
			"Eavelight ended while changes to “A day” were not saved (07:42). Its file was changed after that (08:42); " +
				"bring the changes back, and saving them replaces what the file says now.\nb"},
	} {
		if got := LostWords(test.lost, at(6, 18)); got != test.want {
			t.Errorf("it says %q,\nwant    %q", got, test.want)
		}
	}
}
