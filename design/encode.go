package design

import (
	"fmt"
	"io"
	"reflect"
	"strconv"

	"gopkg.in/yaml.v3"
)

// Encode writes a document as a design file: the schema and every answer that is the design's own, in the order of the field
// table. Answers from shelf files stay there. Decode reads back an equal document.
func Encode(w io.Writer, d *Document) error {
	root := &yaml.Node{Kind: yaml.MappingNode}
	add(root, "mastwright", plainScalar(strconv.Itoa(schema)))
	d.section(root, reflect.ValueOf(d).Elem(), "")
	e := yaml.NewEncoder(w)
	e.SetIndent(2)
	if err := e.Encode(root); err != nil {
		return fmt.Errorf("write design: %w", err)
	}
	if err := e.Close(); err != nil {
		return fmt.Errorf("write design: %w", err)
	}
	return nil
}

func (d *Document) section(n *yaml.Node, v reflect.Value, at string) {
	if short(v.Type()) {
		n.Style = yaml.FlowStyle
	}
	for _, m := range members(v.Type()) {
		path, leaf := join(at, m.key), v.Field(m.index)
		switch leaf.Kind() {
		case reflect.Struct:
			below := &yaml.Node{Kind: yaml.MappingNode}
			if d.section(below, leaf, path); len(below.Content) > 0 {
				add(n, m.key, below)
			}
		case reflect.Slice:
			if d.origin[path] == Given {
				add(n, m.key, d.entries(leaf, path))
			}
		default:
			if d.origin[path] == Given {
				f, _ := FieldOf(path)
				add(n, m.key, scalar(f, leaf))
			}
		}
	}
}

func (d *Document) entries(list reflect.Value, path string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.SequenceNode}
	if list.Len() == 0 {
		n.Style = yaml.FlowStyle
	}
	for i := range list.Len() {
		item := &yaml.Node{Kind: yaml.MappingNode}
		if d.section(item, list.Index(i), entry(path, i)); len(item.Content) == 0 {
			item.Style = yaml.FlowStyle
		}
		n.Content = append(n.Content, item)
	}
	return n
}

func add(n *yaml.Node, key string, value *yaml.Node) {
	n.Content = append(n.Content, plainScalar(key), value)
}

func plainScalar(value string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: value} }

// scalar is a leaf's node; a text that YAML would take for something else is quoted.
func scalar(f Field, leaf reflect.Value) *yaml.Node {
	if f.Form == Text {
		n := &yaml.Node{}
		n.SetString(leaf.String())
		return n
	}
	return plainScalar(text(f, leaf))
}

// short reports whether a section reads better on one line: a few numbers and nothing else.
func short(t reflect.Type) bool {
	list := members(t)
	for _, m := range list {
		if m.Kind() != reflect.Float64 && m.Kind() != reflect.Int {
			return false
		}
	}
	return len(list) <= 4
}
