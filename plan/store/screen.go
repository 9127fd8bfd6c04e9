package store

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The limits of a plan file. A plan of fourteen scenes takes about 15 kB and 600 marks.
const (
	maxBytes = 1 << 20
	maxItems = 500     // of any list
	maxMarks = 100_000 // characters that can make a node of the tree, which takes about 300 bytes
)

func tooBig(name string) error {
	return Faults{{File: name, Text: fmt.Sprintf("this file is larger than %d kB, so it is no plan file", maxBytes>>10)}}
}

// screen looks at a file before the YAML parser does: it must be text, and small enough to be parsed in little memory.
// It returns the data without the mark that some editors put before UTF-8.
func screen(name string, data []byte) ([]byte, error) {
	if len(data) > maxBytes {
		return nil, tooBig(name)
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return nil, Faults{{File: name, Text: "this file is in UTF-16; save it as UTF-8 in your editor"}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if i := firstBad(data); i >= 0 {
		before := data[:i]
		line := 1 + bytes.Count(before, []byte("\n"))
		column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
		what := "this byte is not text in UTF-8; save the file as UTF-8 in your editor"
		if data[i] < ' ' || data[i] == 0x7f {
			what = "this file is not text: it holds the control character " + strconv.QuoteRune(rune(data[i]))
		}
		return nil, Faults{{name, line, column, "", what}}
	}
	marks := 0
	for _, b := range data {
		if strings.IndexByte("\n,:-?[]{}#", b) >= 0 {
			marks++
		}
	}
	if marks > maxMarks {
		return nil, Faults{{File: name, Text: fmt.Sprintf("this file has over %d lines and marks, so it is no plan file", maxMarks)}}
	}
	return data, nil
}

// firstBad is the index of the first byte that is no text, or -1.
func firstBad(data []byte) int {
	for i := 0; i < len(data); {
		r, n := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && n == 1 || r < ' ' && r != '\n' && r != '\r' && r != '\t' || r == 0x7f {
			return i
		}
		i += n
	}
	return -1
}

var syntaxForm = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// syntaxWords says in plain words what the YAML parser found, by a part of its message.
var syntaxWords = []struct{ found, text string }{
	{"mapping values are not allowed", "a colon stands where none can; put a text that holds a colon in quotes, and check that the lines begin in the same column"},
	{"did not find expected key", "the lines around here do not fit together; check that keys of one group begin in the same column, and that a quote is closed"},
	{"cannot start any token", "this line begins with a tab or a mark such as @ or `; indent by spaces, and put such a text in quotes"},
	{"tab character", "a tab stands where only spaces can; indent by spaces"},
	{"did not find expected ',' or ']'", "a list between [ and ] is not closed, or lacks a comma"},
	{"did not find expected ',' or '}'", "a group between { and } is not closed, or lacks a comma"},
	{"did not find expected '-' indicator", "the items of a list do not begin in the same column"},
	{"could not find expected ':'", "a key lacks its colon"},
	{"unexpected end of stream", "a quote is opened and never closed"},
	{"unknown anchor", "a plan file takes no references (& and *); put a text that begins with * in quotes"},
	{"unknown escape character", "a backslash in double quotes means something to YAML; write it twice, or use single quotes"},
	{"exceeded max depth", "this is nested too deeply for a plan"},
}

// syntax makes a fault of the YAML parser's error.
func syntax(name string, err error) error {
	part := syntaxForm.FindStringSubmatch(err.Error())
	if part == nil {
		return Faults{{File: name, Text: err.Error()}}
	}
	line, _ := strconv.Atoi(part[1])
	for _, w := range syntaxWords {
		if strings.Contains(part[2], w.found) {
			return Faults{{File: name, Line: line, Text: w.text}}
		}
	}
	return Faults{{File: name, Line: line, Text: "this is not YAML as a plan file has it: " + part[2]}}
}
