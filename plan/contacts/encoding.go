package contacts

import (
	"bytes"
	"encoding/hex"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"
)

// unmarked takes the byte-order mark off a file. UTF-16, which can't be told without one, becomes UTF-8.
func unmarked(data []byte) (rest []byte, encoding string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		return data[3:], "UTF-8"
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		out, err := unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder().Bytes(data)
		if err == nil {
			return out, "UTF-16"
		}
	}
	return data, ""
}

// decoded is the text of some bytes: UTF-8, or else Windows-1252, which almost no text in other encodings passes for.
func decoded(b []byte) (text string, isUTF8 bool) {
	if utf8.Valid(b) {
		return string(b), true
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(b)
	if err != nil { // it knows every byte
		return strings.ToValidUTF8(string(b), "\ufffd"), false
	}
	return string(out), false
}

// decodedAs is decoded for an encoding that the file names. ok is false where nobody knows that name, or the bytes are
// none of it; the text is then what decoded makes of them.
func decodedAs(b []byte, charset string) (text string, ok bool) {
	if charset == "" || strings.EqualFold(charset, "utf-8") && utf8.Valid(b) {
		text, _ = decoded(b)
		return text, true
	}
	known, err := htmlindex.Get(charset)
	if err != nil {
		text, _ = decoded(b)
		return text, false
	}
	out, err := known.NewDecoder().Bytes(b)
	if err != nil || bytes.ContainsRune(out, utf8.RuneError) {
		text, _ = decoded(b)
		return text, false
	}
	return string(out), true
}

// quotedPrintable undoes the encoding of RFC 2045, section 6.7. What is none of it stays: "a=b" is found in real files.
func quotedPrintable(b []byte) []byte {
	out := make([]byte, 0, len(b))
	for i := 0; i < len(b); i++ {
		if b[i] == '=' && i+2 < len(b) {
			var one [1]byte
			if _, err := hex.Decode(one[:], b[i+1:i+3]); err == nil {
				out = append(out, one[0])
				i += 2
				continue
			}
		}
		out = append(out, b[i])
	}
	return out
}
