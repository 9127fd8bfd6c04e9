package draw

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"eavelight/app/look"
)

func TestSpread(t *testing.T) {
	for _, c := range []struct {
		name   string
		labels []label
		x      []float32
		placed []bool
	}{
		{"alone", []label{{mid: 50, width: 20}}, []float32{40}, []bool{true}},
		{"at the left end", []label{{mid: 3, width: 20}}, []float32{0}, []bool{true}},
		{"at the right end", []label{{mid: 99, width: 20}}, []float32{80}, []bool{true}},
		{"too wide", []label{{mid: 50, width: 120}}, []float32{0}, []bool{false}},
		{"two close ones part", []label{{mid: 50, width: 20}, {mid: 55, width: 20}}, []float32{40, 62}, []bool{true, true}},
		{"the lower rank stays", []label{{mid: 50, width: 20, rank: 1}, {mid: 55, width: 20}}, []float32{23, 45}, []bool{true, true}},
		{"no room near enough", []label{{mid: 50, width: 90}, {mid: 50, width: 30}}, []float32{5, 0}, []bool{true, false}},
	} {
		x, placed := spread(c.labels, 0, 100, 2)
		for i := range c.labels {
			if placed[i] != c.placed[i] || placed[i] && x[i] != c.x[i] {
				t.Errorf("%s: label %d at %v (%v), want %v (%v)", c.name, i, x[i], placed[i], c.x[i], c.placed[i])
			}
		}
	}
}

func TestSpreadNeverOverlaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const left, right, gap = 20, 400, 5
		labels := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) label {
			return label{rapid.Float32Range(-50, 500).Draw(t, "mid"), rapid.Float32Range(1, 150).Draw(t, "width"), rapid.IntRange(0, 3).Draw(t, "rank")}
		}), 0, 12).Draw(t, "labels")
		x, placed := spread(labels, left, right, gap)
		for i, l := range labels {
			if !placed[i] {
				continue
			}
			if x[i] < left || x[i]+l.width > right {
				t.Fatalf("label %d leaves the line: %v + %v", i, x[i], l.width)
			}
			for j, m := range labels[:i] {
				if placed[j] && x[i] < x[j]+m.width+gap && x[j] < x[i]+l.width+gap {
					t.Fatalf("labels %d and %d are closer than the gap", j, i)
				}
			}
		}
	})
}

func TestFitKeepsToTheRoom(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(false))
	f := font{size: 13}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOfN(rapid.RuneFrom([]rune("aio MW7é\u0301°ł")), 0, 30, -1).Draw(t, "text")
		room := rapid.Float32Range(-5, 200).Draw(t, "room")
		got := f.fit(s, room)
		if got != "" && f.measure(got).Width > room {
			t.Fatalf("%q is cut to %q, wider than %v", s, got, room)
		}
		if cut := strings.TrimSuffix(got, "…"); !strings.HasPrefix(s, cut) || got == "…" {
			t.Fatalf("%q is cut to %q", s, got)
		}
		if got != s && strings.HasPrefix(strings.TrimPrefix(s, strings.TrimSuffix(got, "…")), "\u0301") && got != "" {
			t.Fatalf("%q is cut to %q, before an accent", s, got)
		}
	})
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.005: "1 %", 0.924: "92 %", 0.996: "99 %", 1: "100 %", 1.3: "100 %", -2: "0 %"} {
		if got := percent(share); got != want {
			t.Errorf("%v: %q, want %q", share, got, want)
		}
	}
}

func zero() float64 { return 0 }
func nan() float64  { return zero() / zero() }
