package store

import (
	"bytes"
	"strings"

	"gopkg.in/yaml.v3"
)

// keepComments writes the comments of an old text of the plan into a new one, each to the key or the item it stood at.
// It is a kindness, not a promise: what would change the plan, or would not stay put on the next save, is left out,
// and then the backup has it still.
func keepComments(data, old []byte) []byte {
	if bytes.IndexByte(old, '#') < 0 {
		return data
	}
	from, err := tree("", old, planFile)
	if err != nil {
		return data
	}
	with, ok := annotated(data, from)
	if !ok {
		return data
	}
	back, err := Decode("", with)
	if err != nil {
		return data
	}
	if plain, err := encode(back); err != nil || !bytes.Equal(plain, data) {
		return data
	}
	from, err = tree("", with, planFile)
	if err != nil {
		return data
	}
	if again, ok := annotated(data, from); !ok || !bytes.Equal(again, with) {
		return data
	}
	return with
}

// annotated is data with the comments of a tree.
func annotated(data []byte, from *yaml.Node) ([]byte, bool) {
	to, err := tree("", data, planFile)
	if err != nil {
		return nil, false
	}
	carry(to, from)
	out, err := layOut(to)
	return out, err == nil
}

// carry copies the comments of one tree to the like places of another: of keys by their name, of items by their id or,
// where they have none, by what they say. A comment without its like is dropped rather than put beside something else.
func carry(to, from *yaml.Node) {
	to.HeadComment, to.LineComment, to.FootComment = from.HeadComment, from.LineComment, from.FootComment
	if to.Kind != from.Kind {
		return
	}
	switch to.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(to.Content); i += 2 {
			for j := 0; j+1 < len(from.Content); j += 2 {
				if to.Content[i].Value == from.Content[j].Value {
					carry(to.Content[i], from.Content[j])
					carry(to.Content[i+1], from.Content[j+1])
					raise(to.Content[i], to.Content[i+1])
				}
			}
		}
	case yaml.SequenceNode:
		was := map[string]*yaml.Node{}
		for _, item := range from.Content {
			was[identity(item)] = item
		}
		for _, item := range to.Content {
			if old := was[identity(item)]; old != nil {
				carry(item, old)
				lift(item)
			}
		}
	}
}

// raise moves a comment behind a value to its key, where the value goes on over the next lines.
func raise(key, val *yaml.Node) {
	if isBlock(val) && val.LineComment != "" {
		key.LineComment, val.LineComment = val.LineComment, ""
	}
}

// lift moves a comment behind an item above it, likewise.
func lift(item *yaml.Node) {
	if isBlock(item) && item.LineComment != "" {
		item.HeadComment = strings.TrimPrefix(item.HeadComment+"\n"+item.LineComment, "\n")
		item.LineComment = ""
	}
}

func isBlock(n *yaml.Node) bool { return n.Kind != yaml.ScalarNode && n.Style&yaml.FlowStyle == 0 }

// identity is what an item of a list is known by.
func identity(n *yaml.Node) string {
	var all strings.Builder
	for i, c := range n.Content {
		if c.Value == "id" && i+1 < len(n.Content) {
			return n.Content[i+1].Value
		}
		all.WriteString(c.Value + "\n")
	}
	return all.String() + n.Value
}
