package session

import (
	"bytes"

	"gopkg.in/yaml.v3"
)

// withComments is a design's text with the comments of the file it replaces, each at the key where it stood; comments at keys
// that are gone go with them. Where that cannot be had without changing the design it is the text as it is.
func withComments(text, old []byte) []byte {
	var now, before yaml.Node
	if yaml.Unmarshal(text, &now) != nil || yaml.Unmarshal(old, &before) != nil || len(before.Content) == 0 {
		return text
	}
	carry(&now, &before)
	var b bytes.Buffer
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if e.Encode(&now) != nil || e.Close() != nil || !sameDesign(b.Bytes(), text) {
		return text
	}
	return b.Bytes()
}

// carry copies the comments of a node and of what is in it.
func carry(to, from *yaml.Node) {
	to.HeadComment, to.LineComment, to.FootComment = from.HeadComment, from.LineComment, from.FootComment
	if to.Kind != from.Kind {
		return
	}
	if to.Kind == yaml.SequenceNode {
		for i, item := range to.Content {
			if same := counterpart(item, i, len(to.Content), from.Content); same != nil {
				carry(item, same)
			}
		}
		return
	}
	if to.Kind != yaml.MappingNode {
		for i := range min(len(to.Content), len(from.Content)) { // a document
			carry(to.Content[i], from.Content[i])
		}
		return
	}
	for i := 0; i+1 < len(to.Content); i += 2 {
		for j := 0; j+1 < len(from.Content); j += 2 {
			if to.Content[i].Value == from.Content[j].Value {
				carry(to.Content[i], from.Content[j])
				carry(to.Content[i+1], from.Content[j+1])
			}
		}
	}
}

// counterpart finds an entry of a list in the list as it was: by its name, or by its place where nothing was put in or taken out.
func counterpart(item *yaml.Node, at, length int, before []*yaml.Node) *yaml.Node {
	if name := nameOf(item); name != "" {
		for _, other := range before {
			if nameOf(other) == name {
				return other
			}
		}
	}
	if length != len(before) {
		return nil
	}
	return before[at]
}

func nameOf(entry *yaml.Node) string {
	for i := 0; i+1 < len(entry.Content); i += 2 {
		if entry.Content[i].Value == "name" {
			return entry.Content[i+1].Value
		}
	}
	return ""
}

// sameDesign reports whether two texts are the same nodes but for comments.
func sameDesign(a, b []byte) bool {
	bare := func(text []byte) (string, bool) {
		var n yaml.Node
		if yaml.Unmarshal(text, &n) != nil {
			return "", false
		}
		strip(&n)
		out, err := yaml.Marshal(&n)
		return string(out), err == nil
	}
	x, okX := bare(a)
	y, okY := bare(b)
	return okX && okY && x == y
}

func strip(n *yaml.Node) {
	n.HeadComment, n.LineComment, n.FootComment = "", "", ""
	for _, c := range n.Content {
		strip(c)
	}
}
