package store

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"eavelight/plan"

	"github.com/shopspring/decimal"
	"gopkg.in/yaml.v3"
)

// value is a place in a plan bound to the form it takes in the file. The description of the format is made of values;
// the same one reads the file and writes it.
type value interface {
	read(r *reader, path string, n *yaml.Node)
	write() *yaml.Node
	unsaid() bool // as it was before anything was read into it, so that it can be left out
}

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
		r.fault(n, path, "here belongs a single value, not %s", kind(n))
		return
	}
	if err := s.parse(n.Value); err != nil {
		r.fault(n, path, "%v", err)
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
	keyForm    = regexp.MustCompile(`^[\pL\pN_-]{1,40}$`)
)

// number is a decimal number. What is written reads back to the last bit.
func number[T ~float64](to *T) value { return numberOr(to, 0) }

// numberOr is a number that is usual when it is left out; the reader starts from it.
func numberOr[T ~float64](to *T, usual T) value {
	parse := func(s string) (T, error) {
		if !numberForm.MatchString(s) {
			return 0, fmt.Errorf("%s is not a number; write figures alone, with a point, as in 12 or -4.5", clip(s))
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			return 0, fmt.Errorf("%s is too large a number", clip(s))
		}
		return T(v), nil
	}
	return scalarOf(to, *to == usual, parse, func(v T) *yaml.Node {
		return plain(strconv.FormatFloat(float64(v), 'f', -1, 64))
	})
}

// whole is a whole number, of minutes or seconds.
func whole[T ~int](to *T) value {
	parse := func(s string) (T, error) {
		if !wholeForm.MatchString(s) {
			return 0, fmt.Errorf("%s is not a whole number; write figures alone, as in 45", clip(s))
		}
		v, err := strconv.Atoi(s)
		return T(v), err
	}
	return scalarOf(to, *to == 0, parse, func(v T) *yaml.Node { return plain(strconv.Itoa(int(v))) })
}

// truth is true or false.
func truth(to *bool) value {
	parse := func(s string) (bool, error) {
		if s != "true" && s != "false" {
			return false, fmt.Errorf("%s is neither true nor false; write one of these", clip(s))
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

func orEmpty[T any](parse func(string) (T, error)) func(string) (T, error) {
	return func(s string) (v T, err error) {
		switch {
		case s == "":
			return v, nil
		case len(s) > 40:
			return v, fmt.Errorf("%s is too long for a date or a time", clip(s))
		}
		return parse(s)
	}
}

// amount is an exact decimal number; its places are kept, 1250.00 stays 1250.00.
func amount(to *decimal.Decimal) value {
	parse := func(s string) (decimal.Decimal, error) {
		if !numberForm.MatchString(s) || len(s) > 60 {
			return decimal.Zero, fmt.Errorf("%s is not an amount; write figures and a point, without a sign or commas, as in 1250.00", clip(s))
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

// field is one key of a group.
type field struct {
	key string
	value
	when presence
}

// presence tells when a key stands in the file.
type presence int

const (
	maybe    presence = iota // left out where there is nothing to say
	always                   // written out; where it is missing, the usual value holds
	required                 // written out; where it is missing, it was forgotten
)

// readFrom reads the field, unless nothing follows its key: that is not said.
func (f field) readFrom(r *reader, path string, n *yaml.Node) {
	switch {
	case !isNull(n):
		r.read(f.value, path, n)
	case f.when == required:
		r.fault(n, path, "nothing is written after this key; write the figure in")
	}
}

// may, says and must are fields by their presence.
func may(key string, v value) field  { return field{key, v, maybe} }
func says(key string, v value) field { return field{key, v, always} }
func must(key string, v value) field { return field{key, v, required} }

// group is a value made of keys.
type group struct {
	fields []field
	style  yaml.Style
}

// block is a group with a line for each key; inline one on a single line.
func block(fields ...field) value  { return group{fields, 0} }
func inline(fields ...field) value { return group{fields, yaml.FlowStyle} }

func (g group) unsaid() bool {
	for _, f := range g.fields {
		if f.when == required || !f.unsaid() {
			return false
		}
	}
	return true
}

func (g group) write() *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode, Style: g.style}
	for _, f := range g.fields {
		if f.when != maybe || !f.unsaid() {
			n.Content = append(n.Content, plain(f.key), f.write())
		}
	}
	return n
}

func (g group) read(r *reader, path string, n *yaml.Node) {
	if n.Kind != yaml.MappingNode {
		r.fault(n, path, "here %s, not %s", g.looks(), kind(n))
		return
	}
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		f, ok := g.field(r, path, key)
		switch {
		case !ok:
		case first[f.key] != nil:
			r.fault(key, join(path, f.key), "this key stands twice, first on line %d; take one out", first[f.key].Line)
		default:
			first[f.key] = key
			f.readFrom(r, join(path, f.key), val)
		}
	}
	for _, f := range g.fields {
		if f.when == required && first[f.key] == nil {
			r.fault(n, join(path, f.key), "the key %q is missing here; write it in", f.key)
		}
	}
}

// field finds the field of a key. An unknown key that is a slip of the finger is told and then read as what was meant,
// so that one slip makes one fault.
func (g group) field(r *reader, path string, key *yaml.Node) (field, bool) {
	if key.Kind != yaml.ScalarNode {
		r.fault(key, path, "a key is a plain word, not %s", kind(key))
		return field{}, false
	}
	for _, f := range g.fields {
		if f.key == key.Value {
			return f, true
		}
	}
	at := join(path, key.Value)
	if !keyForm.MatchString(key.Value) {
		at = join(path, clip(key.Value))
	}
	hint := plan.Suggest(key.Value, g.keys())
	for _, f := range g.fields {
		if hint != "" && hint == plan.Suggest(key.Value, []string{f.key}) {
			r.fault(key, at, "there is no such key here%s", hint)
			r.guessed = append(r.guessed, join(path, f.key))
			return f, true
		}
	}
	r.fault(key, at, "there is no such key here; the keys are %s", strings.Join(g.keys(), ", "))
	return field{}, false
}

// looks tells what a group looks like in the file.
func (g group) looks() string {
	if g.style == yaml.FlowStyle {
		return "belongs {" + strings.Join(g.keys(), ": ..., ") + ": ...}"
	}
	return "belong keys, each on a line of its own (" + strings.Join(g.keys(), ", ") + ")"
}

func (g group) keys() []string {
	keys := make([]string, len(g.fields))
	for i, f := range g.fields {
		keys[i] = f.key
	}
	return keys
}

// list is a value of many items of one form.
type list[T any] struct {
	to    *[]T
	item  func(*T) value
	fresh T // what an item is before anything is read into it
	style yaml.Style
}

// items is a list with a line or more for each item; row one on a single line, between brackets.
func items[T any](to *[]T, item func(*T) value) value { return list[T]{to: to, item: item} }
func row[T any](to *[]T, item func(*T) value) value {
	return list[T]{to: to, item: item, style: yaml.FlowStyle}
}

func (l list[T]) unsaid() bool { return len(*l.to) == 0 }

func (l list[T]) write() *yaml.Node {
	n := &yaml.Node{Kind: yaml.SequenceNode, Style: l.style}
	for i := range *l.to {
		n.Content = append(n.Content, l.item(&(*l.to)[i]).write())
	}
	return n
}

func (l list[T]) read(r *reader, path string, n *yaml.Node) {
	if n.Kind != yaml.SequenceNode {
		r.fault(n, path, "here belongs a list, not %s; write each item on a line of its own after a dash, or all between [ and ]", kind(n))
		return
	}
	if len(n.Content) > maxItems {
		r.fault(n, path, "this list has %d items; a plan holds %d at most", len(n.Content), maxItems)
		return
	}
	out := make([]T, len(n.Content))
	for i, c := range n.Content {
		out[i] = l.fresh
		at := fmt.Sprintf("%s[%d]", path, i)
		if isNull(c) {
			r.fault(c, at, "this item is empty; fill it in, or take its dash out")
			continue
		}
		r.read(l.item(&out[i]), at, c)
	}
	if len(out) > 0 {
		*l.to = out
	}
}

// optional is a value that may be missing altogether, held by pointer.
type optional[T any] struct {
	to   **T
	form func(*T) value
}

func option[T any](to **T, form func(*T) value) value { return optional[T]{to, form} }

func (o optional[T]) unsaid() bool      { return *o.to == nil }
func (o optional[T]) write() *yaml.Node { return o.form(*o.to).write() }

func (o optional[T]) read(r *reader, path string, n *yaml.Node) {
	v := new(T)
	before := len(r.faults)
	o.form(v).read(r, path, n)
	if len(r.faults) == before {
		*o.to = v
	}
}

// isNull tells a key with nothing after it, or YAML's own word for nothing. In quotes it is a text.
func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// kind names what stands at a node, for a fault.
func kind(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a group of keys"
	case yaml.SequenceNode:
		return "a list"
	}
	return "the single value " + clip(n.Value)
}

// clip quotes a piece of the file for a message: one line of it, and not all of a long one.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return strconv.Quote(string(r[:40])) + "..."
	}
	return strconv.Quote(s)
}

// join is the path of a key below a path.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
