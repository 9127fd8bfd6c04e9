package locate

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"eavelight/plan/say"
)

// coordinates reads latitude and longitude as people write them: decimal degrees, or degrees with minutes and seconds; with
// signs, or letters for the four directions before or after; with marks or without; with decimal points or commas.
func coordinates(text string) ([]Found, error) {
	points, err := scan(text, false)
	if err != nil {
		if looksLike.MatchString(text) {
			return nil, err
		}
		return nil, nil // a name, then
	}
	if !hasNumber(points) {
		return nil, nil
	}
	found, err := pairOf(text, points)
	if !digitComma.MatchString(text) || digitPoint.MatchString(text) {
		return found, err
	}
	if oneComma.MatchString(text) {
		return nil, say.Error("%q may be one figure with a decimal comma, or two; write two figures with a space between, "+
			"as in 44,05 -121,31", text)
	}
	commas, scanErr := scan(text, true)
	if scanErr != nil {
		return found, err
	}
	switch other, otherErr := pairOf(text, commas); {
	case otherErr != nil && err == nil:
		return found, nil
	case err != nil:
		return other, otherErr
	}
	return nil, say.Error("the commas in %q can be read in two ways; write decimal points, as in 44.05, -121.31", text)
}

var (
	digitComma = regexp.MustCompile(`[0-9],[0-9]`)
	digitPoint = regexp.MustCompile(`[0-9]\.[0-9]`)
	oneComma   = regexp.MustCompile(`^[0-9]+,[0-9]+$`)
	looksLike  = regexp.MustCompile(`[°º˚]|[0-9][.,][0-9]+[^0-9]+[0-9]+[.,][0-9]|(?i)^[nsewo]?[0-9][0-9nsewo.,; ]*$`)
)

// A token is one part of a text: its kind, and a number's value.
type token struct {
	kind    kind
	text    string
	value   float64
	signed  bool
	decimal bool
}

type kind int

const (
	isNumber  kind = iota
	isDegree       // marks follow their number
	isMinute       // in this order
	isSecond       // isDegree + 2
	isNorth        // letters come before or after
	isSouth        //
	isEast         //
	isWest         //
	isLat          // labels come before
	isLon          //
	isDivider      // a comma, semicolon or stroke between the two
)

var marks = map[string]kind{
	"°": isDegree, "º": isDegree, "˚": isDegree, "deg": isDegree, "degree": isDegree, "degrees": isDegree, "d": isDegree,
	"'": isMinute, "’": isMinute, "‘": isMinute, "′": isMinute, "ʹ": isMinute, "´": isMinute, "`": isMinute,
	"m": isMinute, "min": isMinute, "minute": isMinute, "minutes": isMinute,
	`"`: isSecond, "”": isSecond, "“": isSecond, "„": isSecond, "″": isSecond, "ʺ": isSecond,
	"''": isSecond, "’’": isSecond, "′′": isSecond, "sec": isSecond, "second": isSecond, "seconds": isSecond,
	"n": isNorth, "north": isNorth, "nord": isNorth, "norte": isNorth,
	"s": isSouth, "south": isSouth, "süd": isSouth, "sud": isSouth, "sur": isSouth,
	"e": isEast, "east": isEast, "ost": isEast, "est": isEast, "este": isEast,
	"w": isWest, "west": isWest, "ouest": isWest, "oeste": isWest, "ovest": isWest,
	"lat": isLat, "latitude": isLat, "lon": isLon, "lng": isLon, "long": isLon, "longitude": isLon,
	",": isDivider, ";": isDivider, "/": isDivider,
}

// scan cuts a text into tokens; with commas, a comma between digits is a decimal mark.
func scan(text string, commas bool) ([]token, error) {
	number := pointNumber
	if commas {
		number = commaNumber
	}
	var out []token
	for rest := text; rest != ""; {
		n := len(number.FindString(rest))
		if n > 0 {
			v, _ := strconv.ParseFloat(strings.Replace(rest[:n], ",", ".", 1), 64) // so large a number that it overflows is refused later
			out = append(out, token{kind: isNumber, text: rest[:n], value: v, signed: rest[0] == '+' || rest[0] == '-',
				decimal: strings.ContainsAny(rest[:n], ".,")})
			rest = rest[n:]
			continue
		}
		n = wordLength(rest)
		word := strings.ToLower(rest[:n])
		k, known := marks[word]
		switch {
		case known:
			out = append(out, token{kind: k, text: rest[:n]})
		case word == "o":
			return nil, say.Error("the O in %q is east in German and west in Spanish and French; write E or W", text)
		case word != " " && word != ":" && word != "=" && word != "(" && word != ")":
			return nil, say.Error("%q in %q is not understood; write only latitude and longitude, as in 44.05, -121.31", rest[:n], text)
		}
		rest = rest[n:]
	}
	return out, nil
}

var (
	pointNumber = regexp.MustCompile(`^[+-]?[0-9]+(?:\.[0-9]+)?`)
	commaNumber = regexp.MustCompile(`^[+-]?[0-9]+(?:[.,][0-9]+)?`)
)

// wordLength is the length of the letters that a text starts with, or of its first mark; doubled minute marks are one.
func wordLength(text string) int {
	n := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsLetter(r) || r == 'º' || r == 'ʹ' || r == 'ʺ' })
	if n < 0 {
		return len(text)
	}
	if n > 0 {
		return n
	}
	_, n = utf8.DecodeRuneInString(text)
	if _, doubled := marks[text[:min(2*n, len(text))]]; doubled && strings.HasPrefix(text[n:], text[:n]) {
		return 2 * n
	}
	return n
}

func hasNumber(tokens []token) bool {
	for _, t := range tokens {
		if t.kind == isNumber {
			return true
		}
	}
	return false
}

// pairOf makes latitude and longitude of the tokens.
func pairOf(text string, tokens []token) ([]Found, error) {
	first, second, err := halves(tokens)
	if err != nil {
		return nil, say.Error("%q: %v", text, err)
	}
	a, err := readAngle(first)
	if err != nil {
		return nil, say.Error("%q: %v", text, err)
	}
	b, err := readAngle(second)
	if err != nil {
		return nil, say.Error("%q: %v", text, err)
	}
	switch {
	case a.axis == b.axis && a.axis != 0:
		return nil, say.Error("%q gives %s twice; write one latitude (N or S) and one longitude (E or W)", text, say.Marked(axes[a.axis]))
	case a.axis == isLon || b.axis == isLat:
		a, b = b, a
	}
	how := "decimal degrees"
	if max(len(a.figures), len(b.figures)) > 1 {
		how = "degrees and minutes"
	}
	return position(a.value, b.value, how)
}

var errTwo = say.Error("latitude and longitude are two figures, as in 44.05, -121.31 or 44°3'N 121°18'36\"W")

// halves finds where the first figure ends and the second begins, by the surest sign there is.
func halves(tokens []token) (first, second []token, err error) {
	var dividers, labels, letters, degrees, signs, numbers []int // where they stand
	for i, t := range tokens {
		switch {
		case t.kind == isDivider:
			dividers = append(dividers, i)
		case t.isLabel():
			labels = append(labels, i)
		case t.isLetter():
			letters = append(letters, i)
		case t.kind == isDegree:
			degrees = append(degrees, i)
		case t.kind == isNumber:
			if t.signed && len(numbers) > 0 {
				signs = append(signs, i)
			}
			numbers = append(numbers, i)
		}
	}
	cut := 0
	switch {
	case len(dividers) == 1:
		return tokens[:dividers[0]], tokens[dividers[0]+1:], nil
	case len(dividers) > 1:
	case len(labels) == 2:
		cut = labels[1]
	case len(letters) == 2 && letters[0] == 0:
		cut = letters[1]
	case len(letters) == 2:
		cut = letters[0] + 1
	case len(degrees) == 2:
		cut = degrees[1] - 1
	case len(signs) == 1:
		cut = signs[0]
	case len(numbers) == 2 || len(numbers) == 4 || len(numbers) == 6:
		cut = numbers[len(numbers)/2]
	}
	if cut <= 0 {
		return nil, nil, errTwo
	}
	return tokens[:cut], tokens[cut:], nil
}

func (t token) isLabel() bool  { return t.kind == isLat || t.kind == isLon }
func (t token) isLetter() bool { return t.kind >= isNorth && t.kind <= isWest }

// An angle is one of the two figures, as far as it has been read.
type angle struct {
	figures  []float64 // degrees, minutes, seconds
	axis     kind      // isLat or isLon, or zero when nothing tells
	letter   kind      // isNorth to isWest, or zero
	mark     kind      // the last mark, or zero
	signed   bool
	negative bool
	decimals bool // the last figure has them
	closed   bool // by a letter after the figures
	value    float64
}

var axes = map[kind]string{isLat: say.Mark("a latitude"), isLon: say.Mark("a longitude")}

// readAngle reads one figure: label, letter, degrees, minutes, seconds, letter; most of them may be missing.
func readAngle(tokens []token) (angle, error) {
	var a angle
	for _, t := range tokens {
		take := a.takeMark
		switch {
		case t.isLabel():
			take = a.takeLabel
		case t.isLetter():
			take = a.takeLetter
		case t.kind == isNumber:
			take = a.takeNumber
		}
		if err := take(t); err != nil {
			return a, err
		}
	}
	return a, a.finish()
}

func misplaced(t token) error {
	return say.Error("%q stands in an unexpected place; write as in 44°3'N 121°18'36\"W", t.text)
}

func (a *angle) takeLabel(t token) error {
	if len(a.figures) > 0 || a.axis != 0 {
		return misplaced(t)
	}
	a.axis = t.kind
	return nil
}

func (a *angle) takeLetter(t token) error {
	if a.letter != 0 {
		return misplaced(t)
	}
	a.letter, a.closed = t.kind, len(a.figures) > 0
	return nil
}

func (a *angle) takeNumber(t token) error {
	switch {
	case a.closed || len(a.figures) == 3:
		return errTwo
	case len(a.figures) == 0:
		a.signed, a.negative = t.signed, strings.HasPrefix(t.text, "-")
	case t.signed:
		return say.Error("%q can't be minutes or seconds; only degrees have a sign", t.text)
	case a.decimals:
		return say.Error("%q can't come after decimals; write the degrees or minutes before it whole", t.text)
	}
	a.figures = append(a.figures, math.Abs(t.value))
	a.decimals = t.decimal
	return nil
}

// takeMark takes the mark of the figure just read: the first is degrees, the second minutes, the third seconds.
func (a *angle) takeMark(t token) error {
	if a.closed || t.kind <= a.mark || int(t.kind-isDegree) != len(a.figures)-1 {
		return misplaced(t)
	}
	a.mark = t.kind
	return nil
}

// finish puts the figures, the letter and the sign together.
func (a *angle) finish() error {
	if len(a.figures) == 0 {
		return errTwo
	}
	if a.letter != 0 && a.signed {
		return say.Error("a figure has both a sign and a direction; write one of them")
	}
	axis := map[kind]kind{isNorth: isLat, isSouth: isLat, isEast: isLon, isWest: isLon}[a.letter]
	if axis != 0 && a.axis != 0 && axis != a.axis {
		return say.Error("what is called %s has the direction of the other", say.Marked(axes[a.axis]))
	}
	if axis != 0 {
		a.axis = axis
	}
	var err error
	a.value, err = sexagesimal(a.figures, a.negative || a.letter == isSouth || a.letter == isWest)
	return err
}
