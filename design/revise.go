package design

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// Revise returns the text of a design file such that it reads as the document. What says the same as the document stays byte for byte:
// comments, empty lines, units, order and style. A changed answer is written in the place of the old one, a new one after its
// neighbour in the field table, and the line of a withdrawn one goes; comments on lines of their own stay, but those above an entry
// of a list go with it. Text that is no design file is replaced by what Encode writes.
func Revise(text []byte, d *Document) ([]byte, error) {
	var plain bytes.Buffer
	if err := Encode(&plain, d); err != nil {
		return nil, err
	}
	want := plain.Bytes()
	r := reader{doc: New()}
	root := r.parse(text)
	if root == nil || len(r.problems) > 0 {
		return want, nil
	}
	m := manuscript{page: newPage(text), doc: d}
	m.mapping(root, reflect.ValueOf(d).Elem(), "", false)
	out := m.revised()
	if !sameAnswers(out, want) {
		return want, nil
	}
	return out, nil
}

// sameAnswers reports whether two files give the same answers to the same questions.
func sameAnswers(a, b []byte) bool {
	read := func(text []byte) (map[string]any, bool) {
		r, found := reader{doc: New()}, map[string]any{}
		root := r.parse(text)
		if root == nil || len(r.problems) > 0 {
			return nil, false
		}
		gather(root, "", found)
		return found, true
	}
	x, okX := read(a)
	y, okY := read(b)
	return okX && okY && maps.Equal(x, y)
}

// gather collects the answers below a node by their paths, and the lengths of lists.
func gather(n *yaml.Node, at string, into map[string]any) {
	switch n.Kind {
	case yaml.MappingNode:
		for _, p := range pairs(n) {
			gather(p.value, join(at, p.key.Value), into)
		}
	case yaml.SequenceNode:
		into[at] = len(n.Content)
		for i, item := range n.Content {
			gather(item, entry(at, i), into)
		}
	default:
		f, _ := FieldOf(at)
		value, err := f.parse(n.Value)
		if err != nil {
			value = n.Value
		}
		into[at] = value
	}
}

// manuscript is a file's text with the edits that turn it into a document's.
type manuscript struct {
	page
	doc   *Document
	edits []edit
}

type edit struct {
	from, to int // bytes of the old text
	text     string
}

// revised is the text after the edits; of those at one place, what is put in comes in the order in which it was asked for.
func (m *manuscript) revised() []byte {
	slices.SortStableFunc(m.edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to
	})
	var out []byte
	done := 0
	for _, e := range m.edits {
		if e.from < done { // inside what went already
			continue
		}
		out = append(append(out, m.text[done:e.from]...), e.text...)
		done = e.to
	}
	return append(out, m.text[done:]...)
}

func (m *manuscript) put(from, to int, text string) {
	m.edits = append(m.edits, edit{from, to, strings.ReplaceAll(text, "\n", m.eol)})
}

// part is a key with its value or an entry of a list, as it stands in the text.
type part struct {
	from, to int // bytes; of an entry, from its dash
	node     *yaml.Node
	gone     bool
}

// addition is a part that is to stand after another.
type addition struct {
	after int // index of a part that stays; -1: before all of those
	node  *yaml.Node
}

// mapping revises a section. It reports false where nothing of the text could be kept, and has changed nothing then.
func (m *manuscript) mapping(n *yaml.Node, v reflect.Value, at string, flow bool) bool {
	flow = flow || n.Style&yaml.FlowStyle != 0
	list := members(v.Type())
	fresh := &yaml.Node{Kind: yaml.MappingNode}
	m.doc.section(fresh, v, at)
	wanted := map[string]*yaml.Node{}
	for _, p := range pairs(fresh) {
		wanted[p.key.Value] = p.value
	}
	if at == "" {
		wanted["mastwright"] = plainScalar(fmt.Sprint(schema))
	}
	old := pairs(n)
	parts := make([]part, len(old))
	for i, p := range old {
		parts[i] = part{m.start(p.key), m.end(p.value, m.column(p.key)), p.value, wanted[p.key.Value] == nil}
	}
	stays := slices.ContainsFunc(parts, func(p part) bool { return !p.gone })
	if !stays && (len(parts) == 0 || len(wanted) == 0 || flow || !m.opens(parts[0].from)) {
		return len(parts) == len(wanted)
	}
	for i, p := range old {
		if parts[i].gone {
			continue
		}
		value, _ := memberOf(v.Type(), p.key.Value)
		m.value(p, v.Field(value.index), join(at, p.key.Value), flow)
	}
	var added []addition
	anchor := -1
	for _, k := range list {
		i := slices.IndexFunc(old, func(p pair) bool { return p.key.Value == k.key })
		switch {
		case i >= 0 && !parts[i].gone:
			anchor = i
		case i < 0 && wanted[k.key] != nil:
			one := &yaml.Node{Kind: yaml.MappingNode}
			add(one, k.key, wanted[k.key])
			added = append(added, addition{anchor, one})
		}
	}
	if flow {
		m.alterFlow(parts, added)
		return true
	}
	m.strike(old, parts)
	m.insert(parts, added, m.column(n.Content[0]))
	return true
}

// value revises what stands behind a key that stays.
func (m *manuscript) value(p pair, leaf reflect.Value, path string, flow bool) {
	kept := true
	switch leaf.Kind() {
	case reflect.Struct:
		if kept = p.value.Kind == yaml.MappingNode && m.mapping(p.value, leaf, path, flow); kept {
			return
		}
	case reflect.Slice:
		if kept = p.value.Kind == yaml.SequenceNode && m.list(p.value, leaf, path, flow); kept {
			return
		}
	default:
		f, _ := FieldOf(path)
		if value, err := f.parse(p.value.Value); err == nil && reflect.ValueOf(value).Convert(leaf.Type()).Equal(leaf) {
			return
		}
		kept = p.value.Kind == yaml.ScalarNode
	}
	fresh := m.fresh(leaf, path)
	if fresh.Kind == yaml.ScalarNode && p.value.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		fresh.Style = p.value.Style
	}
	one := &yaml.Node{Kind: yaml.MappingNode}
	add(one, p.key.Value, fresh)
	to := m.end(p.value, m.column(p.key))
	if fresh.Kind == yaml.ScalarNode && kept {
		m.put(m.start(p.value), to, strings.TrimPrefix(rendered(one, flow, 0), p.key.Value+": "))
	} else {
		m.put(m.end(p.key, 0), to, strings.TrimPrefix(rendered(one, flow, m.column(p.key)), p.key.Value))
	}
}

// fresh is the node that Encode writes for a section, a list or an answer.
func (m *manuscript) fresh(v reflect.Value, path string) *yaml.Node {
	switch v.Kind() {
	case reflect.Struct:
		n := &yaml.Node{Kind: yaml.MappingNode}
		m.doc.section(n, v, path)
		return n
	case reflect.Slice:
		return m.doc.entries(v, path)
	}
	f, _ := FieldOf(path)
	return scalar(f, v)
}

// list revises a list. It reports false where no entry of the text stays, and has changed nothing then.
func (m *manuscript) list(n *yaml.Node, v reflect.Value, path string, flow bool) bool {
	flow = flow || n.Style&yaml.FlowStyle != 0
	fresh := m.doc.entries(v, path).Content
	kept := counterparts(n.Content, fresh)
	if len(n.Content) == 0 && len(fresh) == 0 {
		return true
	}
	parts := make([]part, len(n.Content))
	for i, item := range n.Content {
		from := m.start(item)
		if !flow {
			from = m.dash(from)
		}
		parts[i] = part{from, m.end(item, max(0, m.place(from)-1)), item, !slices.Contains(kept, i)}
	}
	if !slices.ContainsFunc(parts, func(p part) bool { return !p.gone }) {
		return false
	}
	var added []addition
	anchor := -1
	for j, i := range kept {
		if i < 0 {
			one := &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{fresh[j]}}
			added = append(added, addition{anchor, one})
			continue
		}
		anchor = i
		if old := parts[i]; !m.mapping(old.node, v.Index(j), entry(path, j), flow) && len(fresh[j].Content)+len(old.node.Content) > 0 {
			m.put(m.start(old.node), old.to, item(fresh[j], flow, m.column(old.node)))
		}
	}
	if flow {
		m.alterFlow(parts, added)
		return true
	}
	for _, p := range parts {
		if p.gone {
			m.put(m.remarks(p.from), m.nextLine(p.to), "")
		}
	}
	m.insert(parts, added, m.place(parts[0].from))
	return true
}

// counterparts finds for each new entry of a list the old one that it was, or -1: as many as can be in the same order, those that are
// equal before those of the same name and those before others.
func counterparts(old, fresh []*yaml.Node) []int {
	alike := func(a, b *yaml.Node) int {
		x, y := map[string]any{}, map[string]any{}
		gather(a, "", x)
		gather(b, "", y)
		switch {
		case maps.Equal(x, y):
			return 10
		case x["name"] != nil && x["name"] == y["name"]:
			return 6
		}
		return 1
	}
	most := make([][]int, len(old)+1) // of the entries from i and j on
	for i := range most {
		most[i] = make([]int, len(fresh)+1)
	}
	for i := len(old) - 1; i >= 0; i-- {
		for j := len(fresh) - 1; j >= 0; j-- {
			most[i][j] = max(most[i+1][j], most[i][j+1], most[i+1][j+1]+alike(old[i], fresh[j]))
		}
	}
	found := make([]int, len(fresh))
	i := 0
	for j := range fresh {
		found[j] = -1
		for i < len(old) && most[i][j] == most[i+1][j] {
			i++
		}
		if i < len(old) && most[i][j] > most[i][j+1] {
			found[j], i = i, i+1
		}
	}
	return found
}

// strike takes the keys of a section out that are gone. Behind a dash the next key moves up, unless there are comments between.
func (m *manuscript) strike(old []pair, parts []part) {
	next := slices.IndexFunc(parts, func(p part) bool { return !p.gone })
	if next > 0 && !m.opens(parts[0].from) {
		if between := m.text[m.nextLine(parts[0].to):parts[next].from]; bytes.IndexByte(between, '#') < 0 {
			m.put(parts[0].from, parts[next].from, "")
			old, parts = old[next:], parts[next:]
		} else {
			m.put(m.line(parts[0].from)+len(bytes.TrimRight(m.text[m.line(parts[0].from):parts[0].from], " ")), m.lineEnd(parts[0].to), "")
			old, parts = old[1:], parts[1:]
		}
	}
	for i, p := range parts {
		if p.gone {
			m.strikeLines(old[i])
		}
	}
}

// strikeLines takes the lines of a key out, and of the keys below it; comments between them stay.
func (m *manuscript) strikeLines(p pair) {
	from := m.line(m.start(p.key))
	if p.value.Kind != yaml.MappingNode || p.value.Style&yaml.FlowStyle != 0 {
		m.put(from, m.nextLine(m.end(p.value, m.column(p.key))), "")
		return
	}
	m.put(from, m.nextLine(m.start(p.key)), "")
	for _, below := range pairs(p.value) {
		m.strikeLines(below)
	}
}

// insert puts parts on lines of their own.
func (m *manuscript) insert(parts []part, added []addition, column int) {
	first := max(0, slices.IndexFunc(parts, func(p part) bool { return !p.gone }))
	for _, a := range added {
		text := rendered(a.node, false, column)
		switch {
		case a.after >= 0 && m.nextLine(parts[a.after].to) == len(m.text) && !bytes.HasSuffix(m.text, []byte("\n")):
			m.put(len(m.text), len(m.text), "\n"+strings.Repeat(" ", column)+text)
		case a.after >= 0:
			at := m.nextLine(parts[a.after].to)
			m.put(at, at, strings.Repeat(" ", column)+text+"\n")
		case m.opens(parts[first].from):
			at := m.remarks(parts[first].from)
			m.put(at, at, strings.Repeat(" ", column)+text+"\n")
		default: // behind a dash
			at := parts[first].from
			m.put(at, at, text+"\n"+strings.Repeat(" ", column))
		}
	}
}

// alterFlow takes parts out of a section or list between brackets and puts parts in.
func (m *manuscript) alterFlow(parts []part, added []addition) {
	for i := 0; i < len(parts); i++ {
		last := i
		for last+1 < len(parts) && parts[i].gone && parts[last+1].gone {
			last++
		}
		switch {
		case !parts[i].gone:
		case last+1 < len(parts):
			m.put(parts[i].from, parts[last+1].from, "")
		default:
			m.put(parts[i-1].to, parts[last].to, "")
		}
		i = last
	}
	first := slices.IndexFunc(parts, func(p part) bool { return !p.gone })
	for _, a := range added {
		text := rendered(a.node, true, 0)
		if a.after >= 0 {
			m.put(parts[a.after].to, parts[a.after].to, ", "+text)
		} else {
			m.put(parts[first].from, parts[first].from, text+", ")
		}
	}
}

// rendered is the text of what a section or list holds, on one line without its brackets, or on lines indented by so many columns but
// for the first; without an end of line.
func rendered(n *yaml.Node, flow bool, column int) string {
	text := item(n, flow, column)
	if flow {
		return text[1 : len(text)-1]
	}
	return text
}

// item is a node's text, like that of what it holds.
func item(n *yaml.Node, flow bool, column int) string {
	if flow {
		n.Style |= yaml.FlowStyle
	}
	var b strings.Builder
	e := yaml.NewEncoder(&b)
	e.SetIndent(2)
	if err := errors.Join(e.Encode(n), e.Close()); err != nil {
		panic(err) // a builder takes everything, and our own nodes are whole
	}
	text := strings.TrimSuffix(b.String(), "\n")
	return strings.ReplaceAll(text, "\n", "\n"+strings.Repeat(" ", column))
}
