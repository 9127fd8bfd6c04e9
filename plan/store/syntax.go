package store

import (
	"bytes"
	"errors"
	"io"
	"regexp"
	"sort"
	"strings"

	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// tree parses the text of one YAML document.
func tree(name string, data []byte, k fileKind) (*yaml.Node, error) {
	data, err := screen(name, data, k)
	if err != nil {
		return nil, err
	}
	doc, err := parse(data)
	var second *secondDocument
	switch {
	case errors.Is(err, io.EOF):
		return nil, Faults{{File: name, Text: say.That("this file is empty")}}
	case errors.As(err, &second):
		return nil, Faults{{name, second.Line, second.Column, "", second.said()}}
	case err != nil:
		return nil, Faults{{File: name, Line: brokenLine(data, err), Text: syntaxText(err)}}
	}
	root := doc.Content[0]
	root.HeadComment, root.FootComment = doc.HeadComment, doc.FootComment // of the file, above its first key and below its last
	return root, nil
}

func parse(data []byte) (*yaml.Node, error) {
	in := yaml.NewDecoder(bytes.NewReader(data))
	var doc, more yaml.Node
	if err := in.Decode(&doc); err != nil {
		return nil, err
	}
	switch err := in.Decode(&more); {
	case errors.Is(err, io.EOF):
		return &doc, nil
	case err != nil:
		return nil, err
	}
	return nil, &secondDocument{more}
}

type secondDocument struct{ yaml.Node }

func (d *secondDocument) Error() string { return d.said().String() }

func (*secondDocument) said() say.Text {
	return say.That("this line begins a second document; a plan file holds one, so take it out")
}

// brokenLine finds the line at which a syntax error comes to light: the first one up to which the file fails as the
// whole file does. The parser itself names the line where the broken group or list began, or the one before.
func brokenLine(data []byte, err error) int {
	lines := bytes.SplitAfter(data, []byte("\n"))
	ends := make([]int, len(lines)+1)
	for i, l := range lines {
		ends[i+1] = ends[i] + len(l)
	}
	return sort.Search(len(lines), func(i int) bool {
		_, e := parse(data[:ends[i]])
		return e != nil && e.Error() == err.Error()
	})
}

// syntaxWords says in plain words what the YAML parser found, by a part of its message.
var syntaxWords = []struct{ found, text string }{
	{"mapping values are not allowed", say.Mark("a colon stands where none can; a text that holds a colon goes in quotes, a key begins in the column of its neighbours, and a space follows its colon (look at the line above, too)")},
	{"did not find expected key", say.Mark("this line does not fit the ones above; check that it begins in the same column as its neighbours, and that nothing follows a closing quote or bracket")},
	{"cannot start any token", say.Mark("this line begins with a tab, or a text on it with a mark such as @, % or `; indent by spaces, and put such a text in quotes")},
	{"tab character", say.Mark("a tab stands where only spaces can; indent by spaces")},
	{"did not find expected ',' or ']'", say.Mark("the list that begins with [ is not closed, or lacks a comma")},
	{"did not find expected ',' or '}'", say.Mark("the group that begins with { is not closed, or lacks a comma")},
	{"did not find expected '-' indicator", say.Mark("this line does not fit the list above; check that its dash begins in the same column as the others")},
	{"could not find expected ':'", say.Mark("a key is not followed by a colon and a space")},
	{"did not find expected node content", say.Mark("something is missing here, or a mark such as % stands where a text should; put such a text in quotes")},
	{"sequence entries are not allowed", say.Mark("a dash begins an item where none can; write it on a line of its own below the key")},
	{"mapping keys are not allowed", say.Mark("a question mark with a space after it means something to YAML; put such a text in quotes")},
	{"unexpected end of stream", say.Mark("a quote is opened here and never closed")},
	{"anchor", say.Mark("a plan file takes no references (& and *); put a text that begins with such a mark in quotes")},
	{"unknown escape character", say.Mark("a backslash between double quotes means something to YAML; write it twice, or use single quotes")},
	{"exceeded max depth", say.Mark("this is nested too deeply for a plan")},
	{"control characters", say.Mark("this file holds a character that is not text")},
}

var syntaxForm = regexp.MustCompile(`^yaml: (line \d+: )?`)

func syntaxText(err error) say.Text {
	found := syntaxForm.ReplaceAllString(err.Error(), "")
	for _, w := range syntaxWords {
		if strings.Contains(found, w.found) {
			return say.Marked(w.text)
		}
	}
	return say.That("this is not YAML as a plan file has it: %s", found)
}
