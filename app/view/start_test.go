package view

import (
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"eavelight/app/session"
)

func TestRecentLine(t *testing.T) {
	if got := RecentLine(filepath.FromSlash("/films/harbour.eavelight")); got != "harbour.eavelight   in "+filepath.FromSlash("/films") {
		t.Error(got)
	}
	long := RecentLine(filepath.Join("/"+strings.Repeat("日本", 200)+"end", strings.Repeat("é", 300)))
	if n := utf8.RuneCountInString(long); n != 40+6+50 || !strings.HasSuffix(long, "end") || !utf8.ValidString(long) {
		t.Errorf("%d letters: %s", n, long)
	}
}

func TestFirstLightWithoutADay(t *testing.T) {
	if got := FirstLight(session.State{}); !strings.Contains(got, "With a position and a date") {
		t.Error(got)
	}
}
