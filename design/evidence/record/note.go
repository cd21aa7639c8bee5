package record

import (
	"fmt"
	"strings"
)

// Note is something a reader should know about a record that does not stop its use: a guess, or what was left out.
type Note struct {
	About string // column, or what the note is about: "time", "acc x", "rows", "invented"
	Text  string // a clause: "taken from column \"ax\", guessed from its name"
}

// String is "acc x: taken from column \"ax\", guessed from its name".
func (n Note) String() string { return n.About + ": " + n.Text }

// Problem is one thing wrong in a record.
type Problem struct {
	File   string // name of the record
	Line   int    // from 1; 0 for the record as a whole
	Column string // as the header writes it, or the role that is missing; "" for the whole line
	Value  string // as it is written in the file
	Text   string // what is wrong and what to do
}

// String is `log.csv:12: "ax": "1.2.3" is no number; ...`.
func (p Problem) String() string {
	var b strings.Builder
	switch {
	case p.File != "" && p.Line > 0:
		fmt.Fprintf(&b, "%s:%d: ", p.File, p.Line)
	case p.File != "":
		b.WriteString(p.File + ": ")
	case p.Line > 0:
		fmt.Fprintf(&b, "line %d: ", p.Line)
	}
	if p.Column != "" {
		b.WriteString(p.Column + ": ")
	}
	return b.String() + p.Text
}

// Error is String.
func (p Problem) Error() string { return p.String() }

// Problems is everything wrong in a record, in the order of its lines. As an error it is one line each.
type Problems []Problem

// Error joins the problems, one a line.
func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, q := range p {
		lines[i] = q.String()
	}
	return strings.Join(lines, "\n")
}
