package materials

import (
	"fmt"
	"strings"
)

// Problem is one thing wrong in a materials file.
type Problem struct {
	Path string // "pla.density.low"
	Line int    // from 1; 0 when there is none
	Text string // what is wrong and what to write
}

// Error is place and text.
func (p Problem) Error() string {
	place := p.Path
	if p.Line > 0 {
		place = strings.TrimSuffix(fmt.Sprintf("line %d: %s", p.Line, p.Path), ": ")
	}
	return strings.TrimPrefix(place+": "+p.Text, ": ")
}

// Problems is every problem of a file, in the file's order.
type Problems []Problem

// Error is a line for each problem.
func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, problem := range p {
		lines[i] = problem.Error()
	}
	return strings.Join(lines, "\n")
}
