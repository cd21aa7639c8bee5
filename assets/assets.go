// Package assets holds what is embedded in the commands: the example designs.
package assets

import (
	"embed"
	"strings"
)

// FirstStart is the name of the example that a first start makes.
const FirstStart = "river-survey"

// Example is a design to begin with.
type Example struct {
	Name  string // "river-survey"
	Story string // what it shows, one or two sentences
	Data  []byte // the design file
}

//go:embed examples/*.yaml
var examples embed.FS

// Examples returns every example by name. The story of an example is the comment that opens its file.
func Examples() []Example {
	entries, err := examples.ReadDir("examples")
	if err != nil {
		panic(err) // embedded: it cannot be absent
	}
	out := make([]Example, len(entries))
	for i, entry := range entries {
		data, err := examples.ReadFile("examples/" + entry.Name())
		if err != nil {
			panic(err)
		}
		out[i] = Example{Name: strings.TrimSuffix(entry.Name(), ".yaml"), Story: opening(string(data)), Data: data}
	}
	return out
}

// opening is the comment at the head of a file, on one line.
func opening(text string) string {
	var said []string
	for line := range strings.Lines(text) {
		words, isComment := strings.CutPrefix(line, "#")
		if !isComment {
			break
		}
		said = append(said, strings.TrimSpace(words))
	}
	return strings.Join(said, " ")
}
