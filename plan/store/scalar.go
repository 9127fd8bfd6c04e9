package store

import (
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"eavelight/plan"
	"eavelight/plan/say"

	"github.com/shopspring/decimal"
	"gopkg.in/yaml.v3"
)

// scalar is a value of one word, number or text.
type scalar struct {
	empty bool
	parse func(string) error
	node  func() *yaml.Node
}

func (s scalar) unsaid() bool      { return s.empty }
func (s scalar) write() *yaml.Node { return s.node() }

func (s scalar) read(r *reader, path string, n *yaml.Node) {
	if n.Kind != yaml.ScalarNode {
		r.fault(n, path, say.That("here belongs a single value, not %s", kind(n)))
		return
	}
	if err := s.parse(n.Value); err != nil {
		r.fault(n, path, say.Marked("%v", err)) // in its own words
	}
}

// scalarOf makes a scalar out of a way to parse T and a way to put it in a node.
func scalarOf[T any](to *T, empty bool, parse func(string) (T, error), node func(T) *yaml.Node) value {
	return scalar{
		empty: empty,
		parse: func(s string) error {
			v, err := parse(s)
			if err == nil {
				*to = v
			}
			return err
		},
		node: func() *yaml.Node { return node(*to) },
	}
}

// text is words, on one line or many. An id is text too.
func text[T ~string](to *T) value {
	return scalarOf(to, *to == "", func(s string) (T, error) { return T(s), nil }, func(v T) *yaml.Node {
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: string(v), Style: textStyle(string(v))}
	})
}

// otherKinds matches the texts that readers of YAML 1.1 take for truths, times or numbers to the base of sixty, or for
// marks of their own. What YAML 1.2 takes for something else is quoted by the library.
var otherKinds = regexp.MustCompile(`^(?i:y|n|yes|no|on|off|=|<<|[-+.]?[0-9][0-9_:.,]*|[0-9]{4}-[0-9]+-[0-9]+[t ].*)$`)

// textStyle writes lines of text as a block, and quotes what a block, or another reader of YAML, would change.
func textStyle(s string) yaml.Style {
	const joiners = "\u200c\u200d" // of scripts and of pictures
	odd := func(r rune) bool {     // tabs, returns, line separators, byte order marks, controls
		return r != '\n' && !unicode.IsPrint(r) && !strings.ContainsRune(joiners, r)
	}
	lines := strings.Split(s, "\n")
	switch {
	case s == "" || strings.ContainsFunc(s, odd) || otherKinds.MatchString(s):
		return yaml.DoubleQuotedStyle
	case len(lines) == 1:
		return 0
	case strings.TrimSpace(lines[0]) != lines[0] || lines[0] == "" || strings.HasSuffix(s, "\n\n"):
		return yaml.DoubleQuotedStyle
	}
	return yaml.LiteralStyle
}

// plain is a value that needs no quotes; clocks and amounts get them, against readers that know older rules of YAML.
func plain(s string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: s} }

func quoted(s string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Value: s, Style: yaml.DoubleQuotedStyle}
}

var (
	numberForm = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
	wholeForm  = regexp.MustCompile(`^-?[0-9]{1,9}$`)
)

// number is a decimal number. What is written reads back to the last bit.
func number[T ~float64](to *T) value { return numberOr(to, 0) }

// numberOr is a number that is usual when it is left out; the reader starts from it.
func numberOr[T ~float64](to *T, usual T) value {
	parse := func(s string) (T, error) {
		if !numberForm.MatchString(s) {
			return 0, say.Error("%s is not a number; write figures alone, with a point, as in 12 or -4.5", clip(s))
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return 0, say.Error("%s is too large a number", clip(s))
		}
		return T(v), nil
	}
	return scalarOf(to, *to == usual, parse, func(v T) *yaml.Node {
		return plain(strconv.FormatFloat(float64(v), 'f', -1, 64))
	})
}

// whole is a whole number, of minutes or seconds.
func whole[T ~int](to *T) value { return wholeOr(to, 0) }

// wholeOr is a whole number that is usual when it is left out; the reader starts from it.
func wholeOr[T ~int](to *T, usual T) value {
	parse := func(s string) (T, error) {
		if !wholeForm.MatchString(s) {
			return 0, say.Error("%s is not a whole number; write figures alone, as in 45", clip(s))
		}
		v, err := strconv.Atoi(s)
		return T(v), err
	}
	return scalarOf(to, *to == usual, parse, func(v T) *yaml.Node { return plain(strconv.Itoa(int(v))) })
}

// truth is true or false.
func truth(to *bool) value {
	parse := func(s string) (bool, error) {
		if s != "true" && s != "false" {
			return false, say.Error("%s is neither true nor false; write one of these", clip(s))
		}
		return s == "true", nil
	}
	return scalarOf(to, !*to, parse, func(v bool) *yaml.Node { return plain(strconv.FormatBool(v)) })
}

// date is a day of the calendar; "" is the date not said.
func date(to *plan.Date) value {
	return scalarOf(to, to.IsZero(), orEmpty(plan.ParseDate), func(d plan.Date) *yaml.Node {
		if d.IsZero() {
			return quoted("")
		}
		return plain(d.String())
	})
}

// clock is a time on the clock; "" is the time not said.
func clock(to *plan.Clock) value {
	return scalarOf(to, !to.IsSet(), orEmpty(plan.ParseClock), func(c plan.Clock) *yaml.Node { return quoted(c.String()) })
}

// notSaid is a length of time that was not said, where none at all would be one.
const notSaid = -1

// length is a length of time as people write it in a table: "2 h 30", "45 min"; usual is the one left out.
func length(to *plan.Minutes, usual plan.Minutes) value {
	return scalarOf(to, *to == usual, plan.ParseLength, func(m plan.Minutes) *yaml.Node { return plain(m.String()) })
}

// age is an age in words: "birth", "15 days", "2 years 6 months".
func age(to *plan.Age) value {
	return scalarOf(to, false, plan.ParseAge, func(a plan.Age) *yaml.Node { return plain(a.String()) })
}

// instant is a moment, to the second.
func instant(to *time.Time) value {
	parse := func(s string) (time.Time, error) {
		t, err := time.Parse(time.RFC3339, s)
		if err != nil {
			return t, say.Error("%s is not a moment; write it as in 2027-03-06T18:30:00Z, or with the hours from UTC in place of the Z, as in -08:00", clip(s))
		}
		return t.UTC().Truncate(time.Second), nil
	}
	return scalarOf(to, to.IsZero(), parse, func(t time.Time) *yaml.Node { return quoted(t.UTC().Format(time.RFC3339)) })
}

// stroke is one line of a signature, its points in a row.
func stroke(to *plan.Stroke) value {
	return scalarOf(to, len(*to) == 0, plan.ParseStroke, func(s plan.Stroke) *yaml.Node { return quoted(s.String()) })
}

func orEmpty[T any](parse func(string) (T, error)) func(string) (T, error) {
	return func(s string) (v T, err error) {
		switch {
		case s == "":
			return v, nil
		case len(s) > 40:
			return v, say.Error("%s is too long for a date or a time", clip(s))
		}
		return parse(s)
	}
}

// amount is an exact decimal number; its places are kept, 1250.00 stays 1250.00.
func amount(to *decimal.Decimal) value {
	parse := func(s string) (decimal.Decimal, error) {
		if !numberForm.MatchString(s) || len(s) > 60 {
			return decimal.Zero, say.Error("%s is not an amount; write figures and a point, without a sign or commas, as in 1250.00", clip(s))
		}
		return decimal.NewFromString(s)
	}
	return scalarOf(to, to.IsZero(), parse, func(d decimal.Decimal) *yaml.Node {
		return quoted(d.StringFixed(max(-d.Exponent(), 0)))
	})
}

// version is the number of the format. It is checked before anything else is read, so here it can't be wrong.
type version struct{}

func (version) unsaid() bool                     { return false }
func (version) write() *yaml.Node                { return plain(strconv.Itoa(format)) }
func (version) read(*reader, string, *yaml.Node) {}
