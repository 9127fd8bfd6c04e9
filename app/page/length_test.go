package page

import (
	"math"
	"strings"
	"testing"

	"eavelight/app/tongue"
	"eavelight/plan"

	"pgregory.net/rapid"
)

// measured runs a test in every language, with both units of length.
func measured(t *testing.T, run func(t *testing.T)) {
	for _, l := range tongue.Languages {
		for unit, feet := range map[string]bool{"m": false, "ft": true} {
			t.Run(l.Code+" "+unit, func(t *testing.T) {
				speak(t, l.Code, false)
				inFeet(t, feet)
				run(t)
			})
		}
	}
}

// inFeet has the window show feet, or metres, until the test is over.
func inFeet(t testing.TB, on bool) {
	t.Helper()
	tongue.UseFeet(on)
	t.Cleanup(func() { tongue.UseFeet(false) })
}

// TestLengthsAreRead: a foot is 0.3048 m and an inch a twelfth of it, exactly (agreement of 1959; NIST SP 811, appendix B).
func TestLengthsAreRead(t *testing.T) {
	measured(t, func(t *testing.T) {
		for in, want := range map[string]float64{ // whatever the window shows
			"12 ft": 3.6576, "12ft": 3.6576, "12'": 3.6576, "12’": 3.6576, "12′": 3.6576, "12 FT.": 3.6576, "12 feet": 3.6576, "1 foot": 0.3048,
			"12 pies": 3.6576, " 12  ft ": 3.6576, "-12 ft": -3.6576, "7' 6\"": 2.286, "7'6\"": 2.286, "-7' 6\"": -2.286, "7 ft 6 in": 2.286, "30\"": 0.762, "30 in": 0.762,
			"3 m": 3, "3m": 3, "-3 m": -3, "+3 metres": 3, "3 meters": 3, "1 metre": 1, "3 metros": 3, "3 M": 3, "1000 ft": 304.8, "0 ft": 0,
			printNumber(3.5) + " m": 3.5, printNumber(3.5) + " ft": 1.0668, printNumber(3.5) + "'": 1.0668, printNumber(0.9): tongue.Metres(0.9),
		} {
			if got, err := parseLength(in); err != nil || math.Abs(float64(got)-want) > 1e-9 {
				t.Errorf("%q is %v, %v; want %v", in, got, err, want)
			}
		}
		for _, in := range []string{"", "ft", "m", "'", "twelve", "12 yd", "12 km", "3 m 2 ft", "12' 6", "1.2.3 m", "..", ".. ft", "12 ft m", "NaN", "Inf ft", "--3 m", "12 \" 3'"} {
			if got, err := parseLength(in); err == nil {
				t.Errorf("%q is %v; want an error", in, got)
			}
		}
		words := tongue.Error(func() error { _, err := parseLength("?"); return err }())
		for _, example := range []string{printNumber(3.5) + " m", "12 ft"} {
			if _, err := parseLength(example); err != nil || !strings.Contains(words, example) {
				t.Errorf("%q shows no %q, or that is not understood: %v", words, example, err)
			}
		}
	})
}

func TestLengthsAsTheyAreShown(t *testing.T) {
	for _, c := range []struct {
		code  string
		feet  bool
		in    plan.Metres
		shown string
	}{
		{"en", false, 3.5, "3.5"}, {"es", false, 3.5, "3,5"}, {"en", true, 3.5, "11.5"}, {"es", true, 3.5, "11,5"},
		{"en", true, 4, "13.1"}, {"en", true, 0, "0.0"}, {"en", true, 3.6576, "12.0"}, {"en", false, 3.6576, "3.6576"}, {"es", true, -0.01, "-0,03"},
	} {
		speak(t, c.code, false)
		inFeet(t, c.feet)
		if got := printLength(c.in); got != c.shown {
			t.Errorf("%s, feet %v: %v is shown as %q, want %q", c.code, c.feet, c.in, got, c.shown)
		}
	}
}

// TestShownLengthsReadTheSame: what is shown is read as a length that is shown the same; metres are read as what they were.
func TestShownLengthsReadTheSame(t *testing.T) {
	measured(t, func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			m := plan.Metres(rapid.OneOf(rapid.Float64Range(-500, 9000), rapid.Float64Range(-1, 1), rapid.Just(0.0)).Draw(t, "metres"))
			if rapid.Bool().Draw(t, "to the centimetre") {
				m = plan.Metres(math.Round(float64(m)*100) / 100)
			}
			shown := printLength(m)
			for _, text := range []string{shown, shown + " " + tongue.LengthUnit()} {
				got, err := parseLength(text)
				if strings.Contains(shown, "e-") && text != shown { // nobody has such a length
					continue
				}
				if err != nil || printLength(got) != shown {
					t.Fatalf("%v is shown as %q, and that as %q: %v", m, text, printLength(got), err)
				}
				if !tongue.Feet() && math.Abs(float64(got-m)) > 1e-8 {
					t.Fatalf("%v is read back as %v", m, got)
				}
			}
		})
	})
}

// FuzzParseLength: whatever is typed gives a number or a complaint.
func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"12 ft", "7' 6\"", "3,5 m", "-", "''", "1e309 m", "9999999999999999999999 ft"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := parseLength(text)
		if err == nil && (math.IsNaN(float64(v)) || math.IsInf(float64(v), 0)) {
			t.Errorf("%q is %v", text, v)
		}
	})
}

// TestLookingWritesNothing: feet are shown rounded, and what the plan has stays as exact as it was until something else is typed.
func TestLookingWritesNothing(t *testing.T) {
	inFeet(t, true)
	p := plan.New()
	p.Property.Elevation = 4
	p.Property.Obstacles = []plan.Obstacle{{Height: 5, Distance: 50}}
	edits := 0
	var f *form
	f = newForm(func(_, _ string, change func(*plan.Plan)) plan.Problems {
		edits++
		p = p.Clone()
		change(&p)
		f.show(&p)
		return nil
	}, nil)
	f.length("Elevation", "", func(p *plan.Plan) *plan.Metres { return &p.Property.Elevation }, printLength, parseLength)
	f.table("Obstacles", table{item: "obstacle", count: func(p *plan.Plan) int { return len(p.Property.Obstacles) },
		columns: []column{lengthColumn("Height", 14, 1, func(p *plan.Plan, i int) *plan.Metres { return &p.Property.Obstacles[i].Height })}})
	f.show(&p)
	high, obstacle := f.fields[0], f.fields[1]
	if high.Text != "13.1" || obstacle.Text != "16.4" { // 4 and 5 m over 0.3048
		t.Fatalf("shows %q and %q", high.Text, obstacle.Text)
	}
	high.FocusGained()
	high.FocusLost()
	high.OnChanged(high.Text)
	obstacle.OnChanged(obstacle.Text)
	f.show(&p)
	if edits != 0 || p.Property.Elevation != 4 {
		t.Fatalf("%d edits: %v", edits, p.Property.Elevation)
	}
	high.SetText("13.1 yards")
	high.SetText("13.1")
	if edits != 0 || high.wrong.Visible() {
		t.Fatalf("%d edits, %q", edits, high.wrong.Text)
	}
	before := p
	high.SetText("13.14")
	f.show(&p)
	if edits != 1 || high.Text != "13.14" || math.Abs(float64(p.Property.Elevation)-13.14*0.3048) > 1e-9 {
		t.Fatalf("%d edits, %q, %v", edits, high.Text, p.Property.Elevation)
	}
	p = before // undone: the figure is the same by one decimal
	f.show(&p)
	if high.Text != "13.1" {
		t.Errorf("after undo it shows %q", high.Text)
	}
	high.SetText("13.14")
	high.SetText("13.1") // now it is meant
	if math.Abs(float64(p.Property.Elevation)-13.1*0.3048) > 1e-9 {
		t.Errorf("%v", p.Property.Elevation)
	}
	obstacle.SetText("12 ft")
	if p.Property.Obstacles[0].Height != 3.6576 {
		t.Errorf("%v", p.Property.Obstacles[0].Height)
	}
}
