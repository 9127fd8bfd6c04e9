package store

import (
	"bytes"
	"errors"
	"fmt"

	"eavelight/plan"

	"gopkg.in/yaml.v3"
)

// Encode writes a plan as the text of a plan file. It reads back what it wrote, and refuses, with Faults that name the
// fields, a plan that Decode would refuse: nobody shall find that out on the next morning.
func Encode(p plan.Plan) ([]byte, error) {
	if wrong := plan.Validate(p).At(plan.Wrong); len(wrong) > 0 {
		var faults Faults
		for _, w := range wrong {
			faults = append(faults, Fault{Path: w.Path, Text: w.String()})
		}
		return nil, unsavable(faults)
	}
	data, err := encode(p)
	if err != nil {
		return nil, unsavable(err)
	}
	back, err := Decode("", data)
	if err != nil {
		return nil, unsavable(err)
	}
	if again, err := encode(back); err != nil || !bytes.Equal(data, again) {
		return nil, unsavable(errors.New("a text in it would not read back as it is"))
	}
	return data, nil
}

func unsavable(err error) error {
	var faults Faults
	if errors.As(err, &faults) {
		for i := range faults {
			faults[i].Line, faults[i].Column = 0, 0 // of a text that nobody has seen
		}
	}
	return fmt.Errorf("the plan can't be saved as it stands:\n%w", err)
}

func encode(p plan.Plan) ([]byte, error) { return layOut(document(&p).write()) }

// layOut writes the sections of a plan's tree one by one, with an empty line between them.
func layOut(root *yaml.Node) ([]byte, error) {
	var out bytes.Buffer
	if root.HeadComment != "" {
		out.WriteString(root.HeadComment + "\n\n")
	}
	for i := 0; i+1 < len(root.Content); i += 2 {
		if root.Content[i+1].Kind != yaml.ScalarNode {
			out.WriteByte('\n')
		}
		to := yaml.NewEncoder(&out)
		to.SetIndent(2)
		if err := to.Encode(&yaml.Node{Kind: yaml.MappingNode, Content: root.Content[i : i+2]}); err != nil {
			return nil, err
		}
		if err := to.Close(); err != nil {
			return nil, err
		}
	}
	if root.FootComment != "" {
		out.WriteString("\n" + root.FootComment + "\n")
	}
	return out.Bytes(), nil
}
