package store

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"eavelight/plan/say"
)

// The limits of a file. A plan of fourteen scenes takes about 15 kB and 600 marks.
const (
	maxBytes = 1 << 20
	maxMarks = 100_000 // characters that can make a node of the tree, which takes about 300 bytes
)

func tooBig(name string, k fileKind) error {
	return Faults{{File: name, Text: say.That("this file is larger than %d kB, so it is no %s", maxBytes>>10, k.word)}}
}

// screen looks at a file before the YAML parser does: it must be text, and small enough to be parsed in little memory.
// It returns the data without the mark that some editors put before UTF-8.
func screen(name string, data []byte, k fileKind) ([]byte, error) {
	if len(data) > maxBytes {
		return nil, tooBig(name, k)
	}
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return nil, Faults{{File: name, Text: say.That("this file is in UTF-16; save it as UTF-8 in your editor")}}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if i := firstBad(data); i >= 0 {
		before := data[:i]
		line := 1 + bytes.Count(before, []byte("\n"))
		column := 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
		what := say.That("this byte is not text in UTF-8; save the file as UTF-8 in your editor")
		if data[i] < ' ' || data[i] == 0x7f {
			what = say.That("this is no text file: a control character (byte %d) stands here", data[i])
		}
		return nil, Faults{{name, line, column, "", what}}
	}
	if marks(data) > maxMarks {
		return nil, Faults{{File: name, Text: say.That("this file has over %d lines and marks, so it is no %s", maxMarks, k.word)}}
	}
	return data, nil
}

// marks counts the characters that can begin or end a node.
func marks(data []byte) int {
	n := 0
	for _, b := range data {
		if strings.IndexByte("\n,:-?[]{}#", b) >= 0 {
			n++
		}
	}
	return n
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
