package design

import (
	"bytes"
	"errors"
	"io/fs"
	"reflect"
	"strings"

	"gopkg.in/yaml.v3"
	"mastwright/materials"
)

// shelves reads the shelf files that sections name, and the materials file.
func (r *reader) shelves(root *yaml.Node) {
	for _, p := range pairs(root) {
		m, ok := memberOf(reflect.TypeFor[Document](), p.key.Value)
		if !ok || m.Kind() != reflect.Struct || p.value.Kind != yaml.MappingNode {
			continue
		}
		if _, ok := memberOf(m.Type, "from"); !ok {
			continue
		}
		for _, q := range pairs(p.value) {
			if q.key.Value == "from" && q.value.Kind == yaml.ScalarNode && q.value.Value != "" {
				r.shelf(m, q.value)
				break
			}
		}
	}
	if r.doc.shelf != nil {
		r.doc.shelf = r.doc.Clone()
		r.doc.shelf.shelf = nil
	}
}

// shelf reads one shelf file into its section.
func (r *reader) shelf(m member, from *yaml.Node) {
	path := join(m.key, "from")
	name := brief(from.Value)
	if !fs.ValidPath(name) || name == "." || strings.ContainsAny(name, `\:`) {
		r.say(path, from, "%q is no file beside the design; write a relative name without \"..\", like \"%s.yaml\"", name, m.key)
		return
	}
	if r.open == nil {
		r.say(path, from, "%q cannot be read here; write its answers into the design", name)
		return
	}
	data, err := r.open(name)
	if err != nil {
		r.say(path, from, "%q cannot be read (%v); put the file beside the design or correct the name", name, err)
		return
	}
	if m.key == "materials" {
		r.materials(path, from, name, data)
		return
	}
	r.doc.shelf = r.doc // marks that there is a shelf; the copy is taken when all are read
	s := reader{doc: r.doc, design: r.design, file: name, origin: Shelved, top: m.key, lines: r.lines}
	if root := s.parse(data); root != nil && s.version(root) {
		s.section(root, reflect.ValueOf(r.doc).Elem().Field(m.index), m.key)
	}
	r.problems = append(r.problems, s.problems...)
}

func (r *reader) materials(path string, from *yaml.Node, name string, data []byte) {
	list, err := materials.Decode(bytes.NewReader(data))
	var found materials.Problems
	switch {
	case err == nil:
		r.doc.own = list
	case !errors.As(err, &found):
		r.say(path, from, "%q: %v", name, err)
	}
	for _, p := range found {
		r.problems = append(r.problems, Problem{Path: join("materials", p.Path), Line: p.Line, File: name, Text: p.Text})
	}
}
