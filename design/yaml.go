package design

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// parse turns a file into its one root mapping, or nil when it holds none; everything that a design file may not use is
// reported on the way.
func (r *reader) parse(data []byte) *yaml.Node {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if len(data) > largestFile {
		r.say("", nil, "the file has %d bytes; a design is far below %d, so this is some other file", len(data), largestFile)
		return nil
	}
	if !r.readable(data) {
		return nil
	}
	documents := yaml.NewDecoder(bytes.NewReader(data))
	var file, more yaml.Node
	if err := documents.Decode(&file); errors.Is(err, io.EOF) {
		r.say("", nil, "the file is empty; begin it with \"mastwright: %d\"", schema)
		return nil
	} else if err != nil {
		r.syntax(data, err)
		return nil
	}
	if err := documents.Decode(&more); err == nil {
		r.say("", &yaml.Node{Line: more.Line}, "a second document begins after \"---\"; a file holds one design, so keep the others in files of their own")
	} else if !errors.Is(err, io.EOF) {
		r.syntax(data, err)
	}
	root := file.Content[0]
	if root.Kind != yaml.MappingNode {
		r.say("", &yaml.Node{Line: root.Line}, "the file does not hold keys and values; begin it with \"mastwright: %d\"", schema)
		return nil
	}
	if !r.plain(root, "", 1) {
		return nil
	}
	return root
}

// readable refuses bytes that are no text.
func (r *reader) readable(data []byte) bool {
	line := 1
	for i := 0; i < len(data); {
		c, size := utf8.DecodeRune(data[i:])
		switch {
		case c == utf8.RuneError && size <= 1:
			r.say("", &yaml.Node{Line: line}, "byte %#x is not UTF-8; save the file as UTF-8", data[i])
			return false
		case c == '\n':
			line++
		case c == '\t' || c == '\r':
		case !unicode.IsGraphic(c):
			r.say("", &yaml.Node{Line: line}, "an invisible character (U+%04X) stands here; take it out", c)
			return false
		}
		i += size
	}
	return true
}

// plain refuses anchors, aliases, merges, tags and depth below a node; it reports false when the rest cannot be read.
func (r *reader) plain(n *yaml.Node, path string, depth int) bool {
	if depth > deepestFile {
		r.say(path, n, "the file is nested deeper than %d levels; no design needs that, so check its brackets and indents", deepestFile)
		return false
	}
	switch {
	case n.Kind == yaml.AliasNode:
		r.say(path, n, "%q is an alias; write the value out", "*"+brief(n.Value))
		return true
	case n.Anchor != "":
		r.say(path, n, "%q is an anchor; take it out and write values where they belong", "&"+brief(n.Anchor))
	case n.Style&yaml.TaggedStyle != 0:
		r.say(path, n, "%q is a tag; take it out", brief(n.Tag))
	}
	if n.Kind == yaml.MappingNode {
		for _, p := range pairs(n) {
			if p.key.Value == "<<" && p.key.Tag == "!!merge" {
				r.say(join(path, "<<"), p.key, "\"<<\" merges another mapping; write its keys out")
				continue
			}
			if !r.plain(p.key, path, depth+1) || !r.plain(p.value, join(path, brief(p.key.Value)), depth+1) {
				return false
			}
		}
		return true
	}
	for i, item := range n.Content {
		if !r.plain(item, entry(path, i), depth+1) {
			return false
		}
	}
	return true
}

var yamlError = regexp.MustCompile(`^yaml: (?:line (\d+): )?(?s:(.*))$`)

var ofParser = regexp.MustCompile(`^did not find expected (node content|key|',' or|'-'|<)`)

// syntax words what the YAML parser said, with the line it stumbled on.
func (r *reader) syntax(data []byte, err error) {
	parts := yamlError.FindStringSubmatch(err.Error())
	if parts == nil {
		r.say("", nil, "the file is not YAML (%v); check its brackets, quotes and indents", err)
		return
	}
	line, _ := strconv.Atoi(parts[1])
	said := parts[2]
	if ofParser.MatchString(said) {
		line++ // the parser counts from 0, the scanner below it from 1
	}
	lines := strings.Split(string(data), "\n")
	remedy := "check brackets, quotes and indents on and above this line"
	switch {
	case strings.HasPrefix(said, "unknown anchor"):
		name := strings.Split(said+"''", "'")[1]
		for i, text := range lines {
			if line == 0 && strings.Contains(text, "*"+name) {
				line = i + 1
			}
		}
		said, remedy = fmt.Sprintf("%q is an alias", "*"+brief(name)), "write the value out"
	case strings.Contains(said, "cannot start any token"):
		said, remedy = "a tab or a reserved sign begins a value", "indent with spaces and put a text that begins with @ or ` in quotes"
	case strings.Contains(said, "mapping values are not allowed"):
		said, remedy = "a second colon or a wrong indent", "write one key a line, indent by two spaces, and put a text that holds a colon in quotes"
	case strings.Contains(said, "max depth"):
		said = fmt.Sprintf("the file is nested deeper than %d levels", deepestFile)
	}
	n := yaml.Node{Line: line}
	if line > 0 && line <= len(lines) {
		n.Value = strings.TrimSpace(lines[line-1])
	}
	r.say("", &n, "%s; %s", said, remedy)
}
