package assets

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// letters that do not come apart into a plain letter and a mark.
var plain = map[rune]string{
	'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'ł': "l", 'đ': "d", 'ð': "d", 'þ': "th", 'ħ': "h", 'ı': "i",
}

// short forms that towns are written with, and what they stand for.
var long = map[string]string{"st": "saint", "ste": "sainte", "ft": "fort", "mt": "mount"}

// Fold brings the name of a place to the form under which such names are compared: that of Plain, with short forms written out.
// Lüneburg becomes luneburg, St. Paul becomes saint paul, Coeur d'Alene becomes coeur dalene.
func Fold(name string) string {
	words := strings.Fields(Plain(name))
	for i, w := range words {
		if l, ok := long[w]; ok {
			words[i] = l
		}
	}
	return strings.Join(words, " ")
}

// Plain brings a text to the form under which it is searched: small letters without marks, one space between words.
func Plain(name string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(name) {
		r = unicode.ToLower(r)
		switch {
		case unicode.Is(unicode.Mn, r), strings.ContainsRune("'’‘ʻʼ`´", r):
		case plain[r] != "":
			b.WriteString(plain[r])
		case unicode.IsLetter(r), unicode.IsDigit(r):
			b.WriteRune(r)
		default:
			b.WriteByte(' ')
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
