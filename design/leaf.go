package design

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
)

// Origin is where a leaf's value comes from.
type Origin uint8

// The origins.
const (
	Unanswered Origin = iota // no answer, no default: the value is the type's zero
	Defaulted                // the table's default
	Shelved                  // a shelf file
	Given                    // the design itself
)

// String is the origin's name, "given".
func (o Origin) String() string { return [...]string{"unanswered", "default", "shelf", "given"}[o] }

// New returns a document in which nothing is given: every leaf holds its default.
func New() *Document {
	d := &Document{Schema: schema, origin: map[string]Origin{}}
	fill(reflect.ValueOf(d).Elem(), "")
	return d
}

// fill sets every leaf below a section to its default; lists stay empty.
func fill(v reflect.Value, at string) {
	for _, m := range members(v.Type()) {
		p, leaf := join(at, m.key), v.Field(m.index)
		if leaf.Kind() == reflect.Struct {
			fill(leaf, p)
		} else if value, ok := table.defaults[p]; ok {
			put(leaf, value)
		}
	}
}

// put stores a parsed answer.
func put(leaf reflect.Value, value any) {
	switch value := value.(type) {
	case float64:
		leaf.SetFloat(value)
	case int:
		leaf.SetInt(int64(value))
	case string:
		leaf.SetString(value)
	case bool:
		leaf.SetBool(value)
	}
}

func join(at, key string) string {
	if at == "" {
		return key
	}
	return at + "." + key
}

func entry(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// Has reports whether the design or a shelf file answers a leaf or holds a list.
func (d *Document) Has(path string) bool { return d.origin[path] != Unanswered }

// Origin tells where a leaf's or a list's value comes from.
func (d *Document) Origin(path string) Origin {
	if o := d.origin[path]; o != Unanswered {
		return o
	}
	if f, ok := FieldOf(path); ok && f.Default != "" {
		return Defaulted
	}
	return Unanswered
}

// Get returns a leaf as a file holds it, "100 mm", or "" when it has neither an answer nor a default, or does not exist.
func (d *Document) Get(path string) string {
	f, leaf, ok := d.leaf(path)
	if !ok || d.Origin(path) == Unanswered {
		return ""
	}
	return text(f, leaf)
}

func text(f Field, leaf reflect.Value) string {
	switch f.Form {
	case Quantity:
		return f.format(leaf.Float())
	case Count:
		return strconv.FormatInt(leaf.Int(), 10)
	case Flag:
		return strconv.FormatBool(leaf.Bool())
	case Text, Choice:
		return leaf.String()
	}
	return ""
}

// Set answers a leaf with a text as a file or a person writes it. The error is a Problem, and then nothing has changed. What
// a shelf file says about other leaves stays; an entry of a shelf file's list makes the whole list the design's own. Setting a
// from line does not read that file: encode and decode for that.
func (d *Document) Set(path, text string) error {
	f, leaf, ok := d.leaf(path)
	if !ok || f.Form == List {
		return Problem{Path: path, Value: text, Text: fmt.Sprintf("%q cannot be set here; %s", text, d.unknown(path))}
	}
	value, err := f.parse(text)
	if err != nil {
		return Problem{Path: path, Value: text, Text: err.Error()}
	}
	if strings.Contains(path, "[") {
		d.takeOver(path)
	}
	put(leaf, value)
	d.origin[path] = Given
	return nil
}

func (d *Document) unknown(path string) string {
	if f, ok := FieldOf(path); ok && f.Form == List {
		return "insert entries and set their fields"
	}
	if _, ok := FieldOf(path); ok {
		return "the list has no such entry"
	}
	var paths []string
	for _, f := range table.rows {
		paths = append(paths, f.Path)
	}
	if near, ok := nearest(pattern(path), paths); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "there is no such field"
}

// leaf finds a leaf or list with its row.
func (d *Document) leaf(path string) (Field, reflect.Value, bool) {
	f, ok := FieldOf(path)
	if !ok {
		return Field{}, reflect.Value{}, false
	}
	v := reflect.ValueOf(d).Elem()
	for key := range strings.SplitSeq(path, ".") {
		name, index, indexed := strings.Cut(key, "[")
		m, ok := memberOf(v.Type(), name)
		if !ok {
			return Field{}, reflect.Value{}, false
		}
		v = v.Field(m.index)
		if !indexed {
			continue
		}
		i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
		if err != nil || v.Kind() != reflect.Slice || i >= v.Len() {
			return Field{}, reflect.Value{}, false
		}
		v = v.Index(i)
	}
	return f, v, true
}

// Paths lists every leaf and every list of the document as it stands, in file order, a list before its entries' leaves.
func (d *Document) Paths() []string {
	var paths []string
	walk(reflect.ValueOf(d).Elem(), "", func(path string, _ reflect.Value) { paths = append(paths, path) })
	return paths
}

// walk visits every leaf and list below a section in file order.
func walk(v reflect.Value, at string, visit func(path string, leaf reflect.Value)) {
	for _, m := range members(v.Type()) {
		p, leaf := join(at, m.key), v.Field(m.index)
		switch leaf.Kind() {
		case reflect.Struct:
			walk(leaf, p, visit)
		case reflect.Slice:
			visit(p, leaf)
			for i := range leaf.Len() {
				walk(leaf.Index(i), entry(p, i), visit)
			}
		default:
			visit(p, leaf)
		}
	}
}

// Clone returns a copy that shares nothing that either may change.
func (d *Document) Clone() *Document {
	c := *d
	c.origin = map[string]Origin{}
	for path, o := range d.origin {
		c.origin[path] = o
	}
	detach(reflect.ValueOf(&c).Elem())
	return &c
}

// detach replaces every list below a section by a copy.
func detach(v reflect.Value) {
	for _, m := range members(v.Type()) {
		switch leaf := v.Field(m.index); leaf.Kind() {
		case reflect.Struct:
			detach(leaf)
		case reflect.Slice:
			if leaf.IsNil() {
				continue
			}
			fresh := reflect.MakeSlice(leaf.Type(), leaf.Len(), leaf.Len())
			reflect.Copy(fresh, leaf)
			leaf.Set(fresh)
			for i := range fresh.Len() {
				detach(fresh.Index(i))
			}
		}
	}
}
