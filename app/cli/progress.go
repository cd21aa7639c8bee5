package cli

import (
	"fmt"
	"io"
	"strings"
)

// progress is one line on a terminal that says how far long work is. It shows nothing in a pipe.
type progress struct {
	out   io.Writer
	shown bool
}

// report says that done of total of a task is done.
func (p progress) report(task string, done, total int) {
	if p.shown && total > 0 {
		fmt.Fprintf(p.out, "\r%-40.40s %3d %%", task, 100*done/total)
	}
}

// clear takes the line away.
func (p progress) clear() {
	if p.shown {
		fmt.Fprintf(p.out, "\r%s\r", strings.Repeat(" ", 46))
	}
}
