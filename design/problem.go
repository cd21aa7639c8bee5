package design

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one thing wrong in a design, with the place, the value and the remedy.
type Problem struct {
	Path  string // "mast.wall"; "" for the file as a whole
	Line  int    // in File, from 1; 0 when unknown
	File  string // name of the design or the shelf file
	Value string // as it was typed
	Text  string // what is wrong and what to do; begins with the value where there is one
}

// String is the place and the text: "file.yaml:14: mast.wall: 4 mm leaves no bore in a 6 mm section; use less than 3 mm".
func (p Problem) String() string {
	var b strings.Builder
	if p.File != "" {
		b.WriteString(p.File)
		if p.Line > 0 {
			fmt.Fprintf(&b, ":%d", p.Line)
		}
		b.WriteString(": ")
	} else if p.Line > 0 {
		fmt.Fprintf(&b, "line %d: ", p.Line)
	}
	if p.Path != "" {
		b.WriteString(p.Path + ": ")
	}
	return b.String() + p.Text
}

// Error is String.
func (p Problem) Error() string { return p.String() }

// Sentence is the text under the field's title, as a form shows it: "Hole spacing: 305 mm is outside 10 to 120 mm. Did you mean
// 30.5 mm?"
func (p Problem) Sentence() string {
	if f, ok := FieldOf(p.Path); ok {
		return f.Title + ": " + p.Text
	}
	return p.Text
}

// sorted orders problems by file (the design first), line and path.
func sorted(problems []Problem, design string) []Problem {
	file := func(p Problem) string {
		if p.File == design {
			return ""
		}
		return p.File
	}
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(file(a), file(b)), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Path, b.Path))
	})
	return problems
}
