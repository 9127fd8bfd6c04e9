package app

import "testing"

// TestStepped: the least step that brings a stretch into sight, with some air (8 at the usual padding of 4).
func TestStepped(t *testing.T) {
	for _, c := range []struct {
		name                               string
		offset, at, long, sight, all, want float32
	}{
		{"in sight", 100, 50, 30, 200, 1000, 100},
		{"below", 100, 190, 30, 200, 1000, 128},
		{"far below", 0, 700, 30, 200, 1000, 538},
		{"above", 300, -120, 30, 200, 1000, 172},
		{"at the very end", 0, 970, 30, 200, 1000, 800},
		{"at the very beginning", 40, -40, 30, 200, 1000, 0},
		{"as long as the sight", 0, 250, 200, 200, 1000, 250},
		{"longer, and out of sight", 0, 250, 400, 200, 1000, 250},
		{"longer, and filling it", 350, -100, 400, 200, 1000, 350},
		{"nothing to scroll", 0, 10, 30, 200, 150, 0},
	} {
		if got := stepped(c.offset, c.at, c.long, c.sight, c.all); got != c.want {
			t.Errorf("%s: to %v, want %v", c.name, got, c.want)
		}
	}
}
