package design

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// schema is the version of the file's form that this package reads and writes.
const schema = 1

// Bounds of a file.
const (
	largestFile = 1 << 20 // bytes
	deepestFile = 16      // levels
)

// Options are the surroundings of a design file.
type Options struct {
	Name string                            // of the file, for problems; "" when it has none
	Open func(name string) ([]byte, error) // reads a shelf file by its name relative to the design; nil: none can be read
}

// Decode reads a design file. The problems are all of them, by file and line. The document is nil when something in the file
// was not understood; when the problems are only those of Document.Problems, it is there to be worked on.
func Decode(data []byte, o Options) (*Document, []Problem) {
	r := reader{doc: New(), open: o.Open, design: o.Name, file: o.Name, origin: Given, lines: map[string]position{}}
	root := r.parse(data)
	if root == nil {
		return nil, sorted(r.problems, o.Name)
	}
	if !r.version(root) {
		return nil, sorted(r.problems, o.Name)
	}
	r.shelves(root)
	r.section(root, reflect.ValueOf(r.doc).Elem(), "")
	unread := map[string]bool{}
	for _, p := range r.problems {
		section, _, _ := strings.Cut(p.Path, ".")
		section, _, _ = strings.Cut(section, "[")
		unread[section] = true
	}
	doc := r.doc
	if len(r.problems) > 0 {
		doc = nil
	}
	for _, p := range r.doc.judged(unread) {
		at := r.near(p.Path)
		p.File, p.Line = at.file, at.line
		r.problems = append(r.problems, p)
	}
	return doc, sorted(r.problems, o.Name)
}

// reader walks the nodes of a design and its shelf files.
type reader struct {
	doc      *Document
	open     func(string) ([]byte, error)
	design   string
	file     string // being read
	origin   Origin // of what is being read
	top      string // path of the file's root mapping
	lines    map[string]position
	problems []Problem
}

type position struct {
	file string
	line int
}

// near is the position of a path, or of the nearest section around it that was read.
func (r *reader) near(path string) position {
	for path != "" {
		if at, ok := r.lines[path]; ok {
			return at
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return position{file: r.design}
}

func (r *reader) say(path string, n *yaml.Node, format string, args ...any) {
	p := Problem{Path: path, File: r.file, Text: fmt.Sprintf(format, args...)}
	if n != nil {
		p.Line, p.Value = n.Line, brief(n.Value)
	}
	r.problems = append(r.problems, p)
}

// version reads the schema line; it reports false when nothing else in the file can be read.
func (r *reader) version(root *yaml.Node) bool {
	i := slices.IndexFunc(pairs(root), func(p pair) bool { return p.key.Value == "mastwright" })
	if i < 0 {
		r.say("mastwright", nil, "the file has no schema; its first line must be \"mastwright: %d\"", schema)
		return true
	}
	line := pairs(root)[i].value
	f, _ := FieldOf("mastwright")
	f.High = 1e6
	value, err := f.parse(line.Value)
	number, _ := value.(int)
	switch {
	case line.Kind != yaml.ScalarNode || err != nil:
		r.say("mastwright", line, "%q is not a schema; write \"mastwright: %d\"", brief(line.Value), schema)
		return true
	case number > schema:
		r.problems = nil
		r.say("mastwright", line, "This design is from a newer Mastwright (schema %d; this one reads up to %d). Nothing was changed.", number, schema)
		return false
	case i > 0:
		r.say("mastwright", line, "the schema stands below other keys; make \"mastwright: %d\" the first line", schema)
	}
	for _, migrate := range migrations[number-1:] {
		migrate(root)
	}
	return true
}

// migrations turn the nodes of schema i+1 into those of schema i+2, in memory only.
var migrations = []func(root *yaml.Node){}

type pair struct{ key, value *yaml.Node }

func pairs(n *yaml.Node) []pair {
	var list []pair
	for i := 0; i+1 < len(n.Content); i += 2 {
		list = append(list, pair{n.Content[i], n.Content[i+1]})
	}
	return list
}

// section reads a mapping into a struct.
func (r *reader) section(n *yaml.Node, v reflect.Value, at string) {
	if n.Kind != yaml.MappingNode {
		r.wrongKind(n, at, "the keys "+keysOf(v.Type()))
		return
	}
	seen := map[string]int{}
	for _, p := range pairs(n) {
		key := brief(p.key.Value)
		path := join(at, key)
		if p.key.Kind != yaml.ScalarNode {
			r.say(at, p.key, "a key is a list or a mapping; write one of %s", keysOf(v.Type()))
			continue
		}
		if first, twice := seen[key]; twice {
			r.say(path, p.key, "%q stands twice, first on line %d; keep one of them", key, first)
			continue
		}
		seen[key] = p.key.Line
		m, ok := memberOf(v.Type(), key)
		switch {
		case p.key.Tag == "!!merge" || key == "mastwright" && at == r.top:
			continue // refused or read already
		case !ok:
			r.say(path, p.key, "%q is not a key here; %s", key, oneOf(key, keyList(v.Type())))
			continue
		case key == "from" && r.origin == Shelved && !strings.Contains(at, "["):
			r.say(path, p.value, "a shelf file cannot name another one; write the answers into this file")
			continue
		}
		r.lines[path] = position{r.file, p.key.Line}
		r.member(p.value, v.Field(m.index), path)
	}
}

func (r *reader) member(n *yaml.Node, v reflect.Value, path string) {
	if n.Kind == yaml.AliasNode {
		return // refused already
	}
	if n.Kind == yaml.ScalarNode && n.Tag == "!!null" {
		r.say(path, n, "nothing stands after the colon; write a value or take the line out")
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		r.section(n, v, path)
	case reflect.Slice:
		r.list(n, v, path)
	default:
		r.scalar(n, v, path)
	}
}

func (r *reader) list(n *yaml.Node, v reflect.Value, path string) {
	if n.Kind != yaml.SequenceNode {
		r.wrongKind(n, path, "a list, each entry after a dash")
		return
	}
	f, _ := FieldOf(path)
	if count := float64(len(n.Content)); count > f.High {
		r.say(path, n, "the list has %v entries; at most %v are read", count, f.High)
		return
	}
	r.doc.forget(path)
	maps.DeleteFunc(r.lines, func(p string, _ position) bool { return strings.HasPrefix(p, path+"[") })
	r.doc.origin[path] = r.origin
	v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
	for i, item := range n.Content {
		p := entry(path, i)
		r.lines[p] = position{r.file, item.Line}
		fillEntry(v.Index(i), path)
		r.member(item, v.Index(i), p)
	}
}

func (r *reader) scalar(n *yaml.Node, v reflect.Value, path string) {
	f, _ := FieldOf(path)
	if n.Kind != yaml.ScalarNode {
		r.wrongKind(n, path, "a "+f.Form.String())
		return
	}
	value, err := f.parse(n.Value)
	if err != nil {
		r.say(path, n, "%v", err)
		return
	}
	put(v, value)
	r.doc.origin[path] = r.origin
}

func (r *reader) wrongKind(n *yaml.Node, path, want string) {
	found := map[yaml.Kind]string{yaml.MappingNode: "a mapping", yaml.SequenceNode: "a list"}[n.Kind]
	if found == "" {
		found = fmt.Sprintf("%q", brief(n.Value))
	}
	r.say(path, n, "%s stands where %s belongs; write %s", found, want, example(path))
}

// example is a line that would do at a path.
func example(path string) string {
	key := path[strings.LastIndex(path, ".")+1:]
	f, ok := FieldOf(path)
	switch {
	case !ok && strings.HasSuffix(pattern(path), "[]"):
		return "its keys after the dash"
	case !ok:
		return fmt.Sprintf("its keys below %q, each on a line of its own", key+":")
	case f.Form == List:
		return fmt.Sprintf("its entries below %q", key+":")
	case f.Form == Quantity:
		return fmt.Sprintf("%q", key+": "+f.sample())
	case f.Form == Choice:
		return fmt.Sprintf("%q", key+": "+f.Choices[0])
	}
	return fmt.Sprintf("%q and one value", key+":")
}

func keyList(t reflect.Type) []string {
	var keys []string
	for _, m := range members(t) {
		keys = append(keys, m.key)
	}
	return keys
}

func keysOf(t reflect.Type) string { return strings.Join(keyList(t), ", ") }
