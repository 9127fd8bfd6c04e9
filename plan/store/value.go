package store

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"eavelight/plan"
	"eavelight/plan/say"

	"gopkg.in/yaml.v3"
)

// value is a place in a plan bound to the form it takes in the file. The description of the format is made of values;
// the same one reads the file and writes it.
type value interface {
	read(r *reader, path string, n *yaml.Node)
	write() *yaml.Node
	unsaid() bool // as it was before anything was read into it, so that it can be left out
}

// keyForm is what a key of at most 40 letters can look like in a path without quotes.
var keyForm = regexp.MustCompile(`^[\pL\pN_-]+$`)

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
		r.fault(n, path, say.That("nothing is written after this key; write it in"))
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
		r.fault(n, path, g.belongs(kind(n)))
		return
	}
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		f, ok := g.field(r, path, key, n)
		switch {
		case !ok:
		case first[f.key] != nil:
			r.fault(key, join(path, f.key), say.That("this key stands twice, first on line %d; take one out", first[f.key].Line))
		default:
			first[f.key] = key
			f.readFrom(r, join(path, f.key), val)
		}
	}
	for _, f := range g.fields {
		if f.when == required && first[f.key] == nil {
			r.fault(n, join(path, f.key), say.That("the key %q is missing here; write it in", f.key))
		}
	}
}

// field finds the field of a key of n. An unknown key that is a slip of the finger is told and then read as what was
// meant, so that one slip makes one fault.
func (g group) field(r *reader, path string, key, n *yaml.Node) (field, bool) {
	if key.Kind != yaml.ScalarNode {
		r.fault(key, path, say.That("a key is a plain word, not %s", kind(key)))
		return field{}, false
	}
	for _, f := range g.fields {
		if f.key == key.Value {
			return f, true
		}
	}
	at := join(path, key.Value)
	if utf8.RuneCountInString(key.Value) > 40 || !keyForm.MatchString(key.Value) {
		at = join(path, clip(key.Value))
	}
	hint := plan.Suggest(key.Value, g.keys())
	if !hint.IsZero() {
		r.fault(key, at, say.That("there is no such key here%s", hint))
		meant := slices.IndexFunc(g.fields, func(f field) bool { return plan.Suggest(key.Value, []string{f.key}).String() == hint.String() })
		if meant < 0 || hasKey(n, g.fields[meant].key) {
			return field{}, false
		}
		r.guessed = append(r.guessed, join(path, g.fields[meant].key))
		return g.fields[meant], true
	}
	r.fault(key, at, say.That("there is no such key here; the keys are %s", strings.Join(g.keys(), ", ")))
	return field{}, false
}

func hasKey(n *yaml.Node, key string) bool {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return true
		}
	}
	return false
}

// belongs tells what a group looks like in the file, where something else stands.
func (g group) belongs(stands say.Text) say.Text {
	if g.style == yaml.FlowStyle {
		return say.That("here belongs {%s: ...}, not %s", strings.Join(g.keys(), ": ..., "), stands)
	}
	return say.That("here belong keys, each on a line of its own (%s), not %s", strings.Join(g.keys(), ", "), stands)
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
		r.fault(n, path, say.That("here belongs a list, not %s; write each item on a line of its own after a dash, or all between [ and ]", kind(n)))
		return
	}
	if len(n.Content) > plan.MaxItems {
		r.fault(n, path, say.That("this list has %d items; a plan holds %d at most", len(n.Content), plan.MaxItems))
		return
	}
	out := make([]T, len(n.Content))
	for i, c := range n.Content {
		out[i] = l.fresh
		at := fmt.Sprintf("%s[%d]", path, i)
		if isNull(c) {
			r.fault(c, at, say.That("this item is empty; fill it in, or take its dash out"))
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
func kind(n *yaml.Node) say.Text {
	switch n.Kind {
	case yaml.MappingNode:
		return say.That("a group of keys")
	case yaml.SequenceNode:
		return say.That("a list")
	}
	return say.That("the single value %s", clip(n.Value))
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
