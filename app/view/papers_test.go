package view

import (
	"strings"
	"testing"

	"eavelight/plan/papers"
)

func TestPapersTold(t *testing.T) {
	for _, c := range []struct {
		wrote papers.Written
		has   []string
		lacks string
	}{
		{papers.Written{}, []string{""}, "Written"},
		{papers.Written{Paths: []string{"x/a.pdf", "x/manifest.txt"}, Papers: 1}, []string{"Written: 1 paper into x."}, "calendar"},
		{papers.Written{Paths: []string{"x/a.pdf", "x/c.ics", "x/manifest.txt"}, Papers: 2, Remember: true}, []string{"Written: 2 papers into x.", "When you have sent them"}, "Send"},
		{papers.Written{Paths: []string{"x/all.zip"}, Papers: 40}, []string{"Written: 40 papers into x/all.zip."}, "sent"},
		{papers.Written{Paths: []string{"x/a.pdf", "x/c.ics"}, Off: []string{"x/c.ics"}}, []string{"Send c.ics too: it takes out of a calendar what no longer holds."}, "they"},
		{papers.Written{Paths: []string{"x/c.ics"}, Off: []string{"1.ics", "2.ics", "3.ics", "4.ics", "5.ics", "6.ics"}}, []string{"5.ics and 1 more too: they take"}, "6.ics"},
	} {
		got := PapersTold(c.wrote)
		for _, words := range c.has {
			if !strings.Contains(got, words) || strings.Contains(got, c.lacks) {
				t.Errorf("%+v: %q", c.wrote, got)
			}
		}
	}
}
