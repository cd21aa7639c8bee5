package design

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// page is a file's text with the places of its nodes in it.
type page struct {
	text  []byte
	lines []int  // where each begins, in bytes
	eol   string // how they end
}

func newPage(text []byte) page {
	p := page{text: text, lines: []int{0}, eol: "\n"}
	if bytes.HasPrefix(text, []byte("\ufeff")) {
		p.lines[0] = len("\ufeff")
	}
	if bytes.Contains(text, []byte("\r\n")) {
		p.eol = "\r\n"
	}
	for i, c := range text {
		if c == '\n' || c == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			p.lines = append(p.lines, i+1)
		}
	}
	return p
}

// start is the byte at which a node begins.
func (p page) start(n *yaml.Node) int {
	at := p.lines[min(n.Line, len(p.lines))-1]
	for range n.Column - 1 {
		_, size := utf8.DecodeRune(p.text[at:])
		at += size
	}
	return at
}

// end is the byte after a node, whose key or dash stands in a column, from 0.
func (p page) end(n *yaml.Node, column int) int {
	at := p.start(n)
	switch {
	case n.Kind == yaml.MappingNode || n.Kind == yaml.SequenceNode:
		for i, c := range n.Content {
			if n.Kind == yaml.MappingNode && i%2 == 1 {
				column = p.column(n.Content[i-1])
			}
			at = p.end(c, column)
		}
		if n.Style&yaml.FlowStyle == 0 {
			return at
		}
		if len(n.Content) == 0 {
			at++
		}
		return p.bracket(at)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return p.block(at, column)
	case n.Style&yaml.SingleQuotedStyle != 0:
		for at++; at < len(p.text); at++ {
			if p.text[at] != '\'' {
				continue
			}
			if at+1 == len(p.text) || p.text[at+1] != '\'' {
				return at + 1
			}
			at++
		}
	case n.Style&yaml.DoubleQuotedStyle != 0:
		for at++; at < len(p.text) && p.text[at] != '"'; at++ {
			if p.text[at] == '\\' {
				at++
			}
		}
		return min(at+1, len(p.text))
	default:
		for i, word := range strings.Fields(n.Value) {
			for i > 0 && at < len(p.text) && strings.IndexByte(" \t\r\n", p.text[at]) >= 0 {
				at++
			}
			at = min(at+len(word), len(p.text))
		}
	}
	return at
}

// bracket is the byte after the next closing bracket; comments before it are passed over.
func (p page) bracket(at int) int {
	for ; at < len(p.text); at++ {
		switch p.text[at] {
		case '#':
			at = p.nextLine(at) - 1
		case '}', ']':
			return at + 1
		}
	}
	return at
}

// block is the end of the last line of a text that stands indented below its key.
func (p page) block(at, column int) int {
	end := p.lineEnd(at)
	for next := p.nextLine(at); next < len(p.text); next = p.nextLine(next) {
		line := p.text[next:p.lineEnd(next)]
		indent := len(line) - len(bytes.TrimLeft(line, " "))
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		if indent <= column {
			break
		}
		end = p.lineEnd(next)
	}
	return end
}

// column is the column in which a node begins, from 0.
func (p page) column(n *yaml.Node) int { return n.Column - 1 }

// place is the column of a byte, from 0.
func (p page) place(at int) int { return utf8.RuneCount(p.text[p.line(at):at]) }

// line is where the line of a byte begins.
func (p page) line(at int) int {
	i, begins := slices.BinarySearch(p.lines, at)
	if begins {
		return at
	}
	return p.lines[max(0, i-1)]
}

// nextLine is where the line after that of a byte begins.
func (p page) nextLine(at int) int {
	i, begins := slices.BinarySearch(p.lines, at)
	if begins {
		i++
	}
	if i == len(p.lines) {
		return len(p.text)
	}
	return p.lines[i]
}

// lineEnd is the end of a byte's line, without what ends it.
func (p page) lineEnd(at int) int {
	return at + len(bytes.TrimRight(p.text[at:p.nextLine(at)], "\r\n"))
}

// opens reports whether nothing but spaces stands before a byte on its line.
func (p page) opens(at int) bool { return len(bytes.TrimSpace(p.text[p.line(at):at])) == 0 }

// dash is the dash of the entry that begins at a byte.
func (p page) dash(at int) int {
	for line := p.line(at); ; line = p.line(line - 1) {
		before := p.text[line:at]
		if i := bytes.IndexByte(before, '-'); i >= 0 && len(bytes.TrimSpace(before[:i])) == 0 {
			return line + i
		}
		if line == p.lines[0] {
			return at
		}
	}
}

// remarks is where the comments begin that stand right above the line of a byte, in its column; without any, where that line begins.
func (p page) remarks(at int) int {
	column, from := p.place(at), p.line(at)
	for from > p.lines[0] {
		above := p.line(from - 1)
		line := p.text[above:from]
		rest := bytes.TrimLeft(line, " ")
		if len(line)-len(rest) != column || rest[0] != '#' {
			break
		}
		from = above
	}
	return from
}
