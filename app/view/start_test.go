package view

import (
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"eavelight/app/session"
)

func TestRecentNames(t *testing.T) {
	if name, where := RecentNames(filepath.FromSlash("/films/harbour.eavelight")); name != "harbour.eavelight" || where != "in "+filepath.FromSlash("/films") {
		t.Error(name, where)
	}
	name, where := RecentNames(filepath.Join("/"+strings.Repeat("日本", 200)+"end", strings.Repeat("é", 300)))
	if n, m := utf8.RuneCountInString(name), utf8.RuneCountInString(where); n != 40 || m != 3+50 || !strings.HasSuffix(where, "end") || !utf8.ValidString(name+where) {
		t.Errorf("%d and %d letters: %s %s", n, m, name, where)
	}
}

func TestFirstLightWithoutADay(t *testing.T) {
	if got := FirstLight(session.State{}); !strings.Contains(got, "With a position and a date") {
		t.Error(got)
	}
}
