package say

import "testing"

// TestLengths: a foot is 0.3048 m, exactly (agreement of 1959; NIST SP 811, appendix B.8 lists "foot (ft) to metre: 3.048 E-01").
func TestLengths(t *testing.T) {
	inFeet := func(form string, _ int) string {
		if form == LengthUnit {
			return Feet
		}
		return form
	}
	spanish := func(form string, n int) string {
		if form == "decimal mark|." {
			return ","
		}
		return inFeet(form, n)
	}
	for _, c := range []struct {
		text                  Text
		metres, feet, spanish string
	}{
		{That("%s", Length(0.3048)), "0.3048 m", "1.0 ft", "1,0 ft"},
		{That("%s", Length(9000)), "9000 m", "29527.6 ft", "29527,6 ft"},
		{That("%s", Length(0)), "0 m", "0.0 ft", "0,0 ft"},
		{That("%s", Length(0.01)), "0.01 m", "0.03 ft", "0,03 ft"},
		{That("%s", Length(-0.01)), "-0.01 m", "-0.03 ft", "-0,03 ft"},
		{That("%s", RoughLength(1.8288)), "1.8 m", "6.0 ft", "6,0 ft"},
		{That("%v", LengthFigure(-500)), "-500", "-1640.4", "-1640,4"},
		{That("%v", LengthFigure(100_000)), "100000", "328084.0", "328084,0"},
	} {
		if got := c.text.String(); got != c.metres {
			t.Errorf("%q, want %q", got, c.metres)
		}
		if got := c.text.In(inFeet); got != c.feet {
			t.Errorf("%q, want %q", got, c.feet)
		}
		if got := c.text.In(spanish); got != c.spanish {
			t.Errorf("%q, want %q", got, c.spanish)
		}
	}
}
