package materials

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// largestFile bounds what Decode reads, in bytes.
const largestFile = 1 << 20

// Decode reads a file of materials: a YAML list, one entry a material.
//
//   - id: petg
//     title: PETG
//     form: print
//     density: {typical: 1.25 g/cm3, source: manufacturers' technical data sheets}
//     strength-in-layer: {low: 33 MPa, typical: 48 MPa, high: 52 MPa, source: …}
//
// A figure without low or high has no spread on that side; one with low and
// high only is typically halfway. What a file leaves out is filled in by the
// rules of common practice and says so in its source. The error is [Problems]:
// all of them, with their lines.
func Decode(r io.Reader) (List, error) {
	text, err := io.ReadAll(io.LimitReader(r, largestFile+1))
	if err != nil {
		return nil, fmt.Errorf("read materials: %w", err)
	}
	if len(text) > largestFile {
		return nil, Problems{{Text: "the file is over 1 MiB; a materials file is a short list"}}
	}
	var d decoder
	list := d.file(string(text))
	if len(d.problems) > 0 {
		slices.SortStableFunc(d.problems, func(a, b Problem) int { return a.Line - b.Line })
		return nil, d.problems
	}
	return list, nil
}

type decoder struct{ problems Problems }

func (d *decoder) say(line int, path, format string, args ...any) {
	d.problems = append(d.problems, Problem{path, line, fmt.Sprintf(format, args...)})
}

func (d *decoder) file(text string) List {
	documents := yaml.NewDecoder(strings.NewReader(text))
	var root yaml.Node
	if err := documents.Decode(&root); errors.Is(err, io.EOF) {
		d.say(0, "", "the file holds no materials; write a list of them")
		return nil
	} else if err != nil {
		d.syntax(err)
		return nil
	}
	var second yaml.Node
	if err := documents.Decode(&second); err == nil {
		d.say(second.Line, "", "a second document begins here; keep all materials in one list")
	} else if !errors.Is(err, io.EOF) {
		d.syntax(err)
	}
	top := root.Content[0]
	if top.Kind != yaml.SequenceNode || len(top.Content) == 0 {
		d.say(top.Line, "", "the file is not a list of materials; begin each with \"- id:\"")
		return nil
	}
	var list List
	firstLine := map[string]int{}
	for i, n := range top.Content {
		m := d.material(n, i)
		if line, twice := firstLine[m.ID]; twice && m.ID != "" {
			d.say(n.Line, m.ID, "the same id as the material in line %d; give one another id", line)
		}
		firstLine[m.ID] = n.Line
		list = append(list, m)
	}
	return list
}

// yamlLine finds the line in an error of the YAML reader.
var yamlLine = regexp.MustCompile(`^line (\d+): `)

func (d *decoder) syntax(err error) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 0
	if found := yamlLine.FindStringSubmatch(text); found != nil {
		line, _ = strconv.Atoi(found[1])
		text = strings.TrimPrefix(text, found[0])
	}
	d.say(line, "", "this is not YAML (%s); check indentation, colons and quotes", text)
}

func (d *decoder) material(n *yaml.Node, index int) (m Material) {
	before := len(d.problems)
	path := materialPath(n, index)
	keys := d.mapping(n, path)
	for _, w := range words {
		if value := take(keys, w.key); value != nil && d.plain(value, path+"."+w.key) {
			if text := w.set(&m, value); text != "" {
				d.say(value.Line, path+"."+w.key, "%s", text)
			}
		}
	}
	for _, f := range figures {
		if value := take(keys, f.key); value != nil {
			d.figure(f, value, path+"."+f.key, &m)
		} else if f.needed {
			d.say(n.Line, path, "%s is missing; write %s: {typical: …, source: …}", f.key, f.key)
		}
	}
	for _, key := range sorted(keys) {
		d.say(keys[key].Line, path, "unknown key %q; the keys are %s", key, strings.Join(allKeys(), ", "))
	}
	if len(d.problems) > before {
		return m
	}
	for _, key := range []struct{ name, value string }{{"id", m.ID}, {"title", m.Title}, {"form", string(m.Form)}} {
		if key.value == "" {
			d.say(n.Line, path, "%s is missing", key.name)
		}
	}
	if text := m.checkStock(); text != "" {
		d.say(n.Line, path+".stock", "%s", text)
	}
	if len(d.problems) == before {
		for _, key := range m.complete() {
			d.say(n.Line, path, "%s is missing and no rule gives it for a %s; write %s: {typical: …, source: …}", key, m.described(), key)
		}
	}
	return m
}

// materialPath is the id of an entry, or its number.
func materialPath(n *yaml.Node, index int) string {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if id := n.Content[i+1].Value; n.Content[i].Value == "id" && validID.MatchString(id) {
			return id
		}
	}
	return fmt.Sprintf("material %d", index+1)
}

func (m Material) described() string {
	if m.FibreFilled {
		return "fibre-filled " + string(m.Form)
	}
	return string(m.Form)
}

// figure reads one figure with its spread and its source.
func (d *decoder) figure(f figure, n *yaml.Node, path string, m *Material) {
	if n.Kind != yaml.MappingNode {
		d.say(n.Line, path, "write {typical: …, source: …}")
		return
	}
	before := len(d.problems)
	keys := d.mapping(n, path)
	value := map[string]float64{}
	for _, key := range []string{"low", "typical", "high"} {
		if number := take(keys, key); number != nil && d.plain(number, path+"."+key) {
			if v, text := f.read(number.Value); text != "" {
				d.say(number.Line, path+"."+key, "%s", text)
			} else {
				value[key] = v
			}
		}
	}
	var source string
	if text := take(keys, "source"); text == nil {
		d.say(n.Line, path, "source is missing; say where the figure is from")
	} else if d.plain(text, path+".source") {
		if problem := setText(&source, text); problem != "" {
			d.say(text.Line, path+".source", "%s", problem)
		}
	}
	for _, key := range sorted(keys) {
		d.say(keys[key].Line, path, "unknown key %q; the keys are low, typical, high, source", key)
	}
	if len(d.problems) > before {
		return
	}
	low, hasLow := value["low"]
	typical, hasTypical := value["typical"]
	high, hasHigh := value["high"]
	switch {
	case !hasTypical && !(hasLow && hasHigh):
		d.say(n.Line, path, "typical is missing; write it, or both low and high")
		return
	case !hasTypical:
		typical = (low + high) / 2
	}
	if !hasLow {
		low = typical
	}
	if !hasHigh {
		high = typical
	}
	if low > typical || typical > high {
		d.say(n.Line, path, "low %s, typical %s, high %s are not in rising order; put them in order",
			f.kind.Format(low), f.kind.Format(typical), f.kind.Format(high))
		return
	}
	f.in(m).set(low, typical, high, source)
}

// read parses a number of a figure and checks it for a slip of the unit.
func (f figure) read(text string) (value float64, problem string) {
	value, err := f.kind.Parse(text)
	if err != nil {
		return 0, err.Error()
	}
	if value < f.min || value > f.max {
		return 0, fmt.Sprintf("%s is outside %s to %s; check the unit", f.kind.Format(value), f.kind.Format(f.min), f.kind.Format(f.max))
	}
	return value, ""
}

// mapping returns the values of a mapping by key and reports keys given twice.
func (d *decoder) mapping(n *yaml.Node, path string) map[string]*yaml.Node {
	if n.Kind != yaml.MappingNode {
		d.say(n.Line, path, "this is not a list of key: value")
		return nil
	}
	if n.Anchor != "" || n.Style&yaml.TaggedStyle != 0 {
		d.say(n.Line, path, "anchors and tags are not read here; write the values out")
	}
	values := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if !d.plain(key, path) {
			continue
		}
		if first := values[key.Value]; first != nil {
			d.say(key.Line, path, "%s is given twice, first in line %d; keep one", key.Value, first.Line)
			continue
		}
		values[key.Value] = n.Content[i+1]
	}
	return values
}

// plain is whether a node is a scalar with a value, and reports it if not.
func (d *decoder) plain(n *yaml.Node, path string) bool {
	switch {
	case n.Kind == yaml.AliasNode || n.Anchor != "" || n.Style&yaml.TaggedStyle != 0 || n.ShortTag() == "!!merge":
		d.say(n.Line, path, "anchors, aliases and tags are not read here; write the value out")
	case n.Kind != yaml.ScalarNode:
		d.say(n.Line, path, "write a single value here")
	case n.ShortTag() == "!!null":
		d.say(n.Line, path, "the value is missing; write it or leave the key out")
	default:
		return true
	}
	return false
}

func setID(id *string, n *yaml.Node) string {
	if !validID.MatchString(n.Value) {
		return fmt.Sprintf("%q is not an id; use lower-case letters, digits and dashes, like pa6-cf", n.Value)
	}
	*id = n.Value
	return ""
}

var validID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

func setText(text *string, n *yaml.Node) string {
	*text = strings.Join(strings.Fields(n.Value), " ")
	if *text == "" {
		return "the text is empty; write it or leave the key out"
	}
	return ""
}

func setForm(form *Form, n *yaml.Node) string {
	switch f := Form(n.Value); f {
	case Print, Sheet, Tube:
		*form = f
		return ""
	}
	return fmt.Sprintf("unknown form %q; write print, sheet or tube", n.Value)
}

func setBool(b *bool, n *yaml.Node) string {
	if n.Value != "true" && n.Value != "false" {
		return fmt.Sprintf("%q is neither true nor false", n.Value)
	}
	*b = n.Value == "true"
	return ""
}

func take(values map[string]*yaml.Node, key string) *yaml.Node {
	n := values[key]
	delete(values, key)
	return n
}

func sorted(values map[string]*yaml.Node) []string {
	var keys []string
	for key := range values {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

func allKeys() []string {
	var keys []string
	for _, w := range words {
		keys = append(keys, w.key)
	}
	for _, f := range figures {
		keys = append(keys, f.key)
	}
	return keys
}
