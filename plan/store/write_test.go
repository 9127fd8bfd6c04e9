package store

import (
	"strings"
	"testing"

	"eavelight/plan"
)

// TestTextsThatOtherReadersTakeForSomethingElse holds that a text which a reader of YAML 1.1 would take for a truth, a
// number, a time or a mark is written in quotes. The texts are the examples of the type repository of YAML 1.1
// (https://yaml.org/type/: bool, int, float, null, merge, value, timestamp), written down from memory. By hand, 600
// drawn plans were also written and read with PyYAML 6.0.3, which found the same texts, numbers and dates in all.
func TestTextsThatOtherReadersTakeForSomethingElse(t *testing.T) {
	for _, s := range strings.Split("y|Y|yes|Yes|YES|n|N|no|No|NO|true|True|TRUE|false|False|FALSE|on|On|ON|off|Off|OFF|"+
		"685230|+685_230|02472256|0x_0A_74_AE|0b1010_0111_0100_1010_1110|190:20:30|"+
		"6.8523015e+5|685.230_15e+03|685_230.15|190:20:30.15|-.inf|.NaN|~|null|Null|NULL||<<|=|"+
		"2001-12-15T02:59:43.1Z|2001-12-14t21:59:43.10-05:00|2001-12-14 21:59:43.10 -5|2002-12-14|18:30", "|") {
		p := plan.New()
		p.Scenes = []plan.Scene{{ID: "a", Kit: []string{s}}}
		if data := encoded(t, p); !strings.Contains(string(data), "- \""+s+"\"\n") {
			t.Errorf("%q is written without quotes:\n%s", s, data[:80])
		}
	}
}

// TestEncodeReadsWell shows what texts look like: plain where they can be, blocks where they have lines.
func TestEncodeReadsWell(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Pancakes, the dog waits.", "Pancakes, the dog waits."},
		{"Café 山 🏡", "Café 山 🏡"},
		{"👩\u200d🍳\nserves", "|-\n    👩\u200d🍳\n    serves"},
		{"\ue000 🏡", "\"\ue000 \\U0001F3E1\""},
		{"one: two", "'one: two'"},
		{"a\nb", "|-\n    a\n    b"},
		{"a\n  b\n", "|\n    a\n      b"},
		{"a\r\nb", `"a\r\nb"`},
		{"it's \"good\"", `it's "good"`},
	} {
		p := plan.New()
		p.Brief.Notes = c.text
		_, got, _ := strings.Cut(string(encoded(t, p)), "  notes: ")
		if !strings.HasPrefix(got, c.want+"\n") {
			t.Errorf("%q is written as %.60q", c.text, got)
		}
	}
}
