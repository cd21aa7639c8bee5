package materials

import (
	"bufio"
	"fmt"
	"io"

	"gopkg.in/yaml.v3"

	"mastwright/design/units"
)

// Encode writes a list as Decode reads it, every figure in full.
func Encode(w io.Writer, l List) error {
	top := &yaml.Node{Kind: yaml.SequenceNode}
	for i := range l {
		m := &l[i]
		entry := &yaml.Node{Kind: yaml.MappingNode}
		for _, word := range words {
			if text := word.get(m); text != "" {
				put(entry, word.key, text)
			}
		}
		for _, f := range figures {
			low, typical, high, source := f.in(m).get()
			if source == "" {
				continue
			}
			figure := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
			put(figure, "low", f.kind.Format(low))
			put(figure, "typical", f.kind.Format(typical))
			put(figure, "high", f.kind.Format(high))
			put(figure, "source", source)
			entry.Content = append(entry.Content, scalar(f.key), figure)
		}
		top.Content = append(top.Content, entry)
	}
	out := bufio.NewWriter(w)
	encoder := yaml.NewEncoder(out)
	encoder.SetIndent(2)
	if err := encoder.Encode(top); err != nil {
		return fmt.Errorf("write materials: %w", err)
	}
	if err := encoder.Close(); err != nil {
		return fmt.Errorf("write materials: %w", err)
	}
	return out.Flush()
}

func put(mapping *yaml.Node, key, value string) {
	mapping.Content = append(mapping.Content, scalar(key), scalar(value))
}

// scalar leaves numbers and true plain and quotes what would not read as text.
func scalar(text string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Value: text}
	if _, err := units.RatioKind.Parse(text); err != nil && text != "true" {
		n.SetString(text)
	}
	return n
}
