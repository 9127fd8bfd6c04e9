package store

import (
	"bytes"
	"cmp"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// Encode writes a plan as the text of a plan file. It reads back what it wrote, and refuses, with Faults that name the
// fields, a plan that Decode would refuse: nobody shall find that out on the next morning.
func Encode(p plan.Plan) ([]byte, error) {
	if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
		var faults Faults
		for _, w := range wrong {
			faults = append(faults, Fault{Path: w.Path, Text: w.Said()})
		}
		return nil, unsavable(planFile, faults)
	}
	data, err := encode(p)
	if err != nil {
		return nil, unsavable(planFile, err)
	}
	back, err := Decode("", data)
	if err != nil {
		return nil, unsavable(planFile, err)
	}
	if again, err := encode(back); err != nil || !bytes.Equal(data, again) {
		return nil, unsavable(planFile, errWouldChange)
	}
	return data, nil
}

var errWouldChange = say.Error("a text in it would not read back as it is")

func unsavable(k fileKind, err error) error {
	var faults Faults
	if errors.As(err, &faults) {
		for i := range faults {
			faults[i].Line, faults[i].Column = 0, 0 // of a text that nobody has seen
		}
	}
	return say.Error("%s can't be saved as it stands:\n%v", k.the, err)
}

func encode(p plan.Plan) ([]byte, error) { return layOut(document(&p).write()) }

// layOut writes the sections of a plan's tree one by one, with an empty line between them.
func layOut(root *yaml.Node) ([]byte, error) {
	back := standIn(root)
	var out bytes.Buffer
	if root.HeadComment != "" {
		out.WriteString(root.HeadComment + "\n\n")
	}
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Content[i+1].Kind != yaml.ScalarNode {
			out.WriteByte('\n')
		}
		to := yaml.NewEncoder(&out)
		to.SetIndent(2)
		if err := to.Encode(&yaml.Node{Kind: yaml.MappingNode, Content: root.Content[i : i+2]}); err != nil {
			return nil, err
		}
		if err := to.Close(); err != nil {
			return nil, err
		}
	}
	if root.FootComment != "" {
		out.WriteString("\n" + root.FootComment + "\n")
	}
	return []byte(back.Replace(out.String())), nil
}

// standIn puts private characters in the place of those above U+FFFF, which the library would write as escapes, and
// returns what puts them back. A plan that has private characters of its own is left to the escapes.
func standIn(root *yaml.Node) *strings.Replacer {
	const first, last = 0xe000, 0xf8ff
	private := false
	walk(root, func(n *yaml.Node) {
		private = private || strings.ContainsFunc(n.Value+n.HeadComment+n.LineComment+n.FootComment,
			func(r rune) bool { return first <= r && r <= last })
	})
	stand := map[rune]rune{}
	var pairs []string
	walk(root, func(n *yaml.Node) {
		if private || !utf8.ValidString(n.Value) || strings.HasPrefix(n.Value, "\ufeff") {
			return // after a byte order mark the library escapes everything
		}
		n.Value = strings.Map(func(r rune) rune {
			if r <= 0xffff || !unicode.IsPrint(r) {
				return r
			}
			if stand[r] == 0 && first+len(stand) <= last {
				stand[r] = rune(first + len(stand))
				pairs = append(pairs, string(stand[r]), string(r))
			}
			return cmp.Or(stand[r], r)
		}, n.Value)
	})
	return strings.NewReplacer(pairs...)
}

func walk(n *yaml.Node, see func(*yaml.Node)) {
	see(n)
	for _, c := range n.Content {
		walk(c, see)
	}
}
