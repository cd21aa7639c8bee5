package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"mastwright/design"
	"mastwright/design/review"
)

// mostBytes is more than any design file may have; no more than that is read.
const mostBytes = 8 << 20

// source is a design with the file it came from.
type source struct {
	name string
	text []byte     // of the file
	root *yaml.Node // for the lines of problems that are found after reading
	doc  *design.Document
}

// readDesign reads a design file and the shelf files beside it. The error is every problem of it.
func readDesign(name string) (source, error) {
	data, err := readFile(name)
	if err != nil {
		return source{}, problems{{File: name, Text: reason(err) + "; give the name of a design file, or write one with mastwright new"}}
	}
	doc, wrong := design.Decode(data, design.Options{Name: name, Open: beside(name)})
	if len(wrong) > 0 {
		return source{}, problems(wrong)
	}
	var root yaml.Node
	if err := yaml.Unmarshal(data, &root); err != nil {
		return source{}, problems{{File: name, Text: err.Error()}}
	}
	return source{name, data, &root, doc}, nil
}

// write writes the design, changed, to a file that is not there yet, after it has been read back from what is written. What is not
// changed stands there as it does in the design's own file, with its comments.
func (d source) write(name string, changed *design.Document) error {
	text, err := design.Revise(d.text, changed)
	if err != nil {
		return err
	}
	if _, wrong := design.Decode(text, design.Options{Name: name, Open: beside(name)}); len(wrong) > 0 {
		return problems(wrong)
	}
	return writeNew(name, text)
}

// beside opens the shelf files beside a file.
func beside(name string) func(shelf string) ([]byte, error) {
	return func(shelf string) ([]byte, error) {
		return readFile(filepath.Join(filepath.Dir(name), filepath.FromSlash(shelf)))
	}
}

// review runs every check. The error is every problem of the design.
func (d source) review() (review.Result, error) {
	result, wrong := review.Run(d.doc)
	return result, d.located(wrong)
}

// located gives problems that name no file the design's, and the line of their path or of the nearest section around it. It
// returns nil for no problems.
func (d source) located(wrong []design.Problem) error {
	if len(wrong) == 0 {
		return nil
	}
	out := make(problems, len(wrong))
	for i, p := range wrong {
		if p.File == "" {
			p.File, p.Line = d.name, d.line(p.Path)
		}
		out[i] = p
	}
	return out
}

// line is where a path stands in the design file, or the nearest section around it; 0 where none of it does.
func (d source) line(path string) int {
	if len(d.root.Content) == 0 || path == "" {
		return 0
	}
	node, line := d.root.Content[0], 0
	for _, key := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		if node = child(node, key); node == nil {
			break
		}
		line = node.Line
	}
	return line
}

// child is the value of a key of a mapping, or an entry of a list.
func child(node *yaml.Node, key string) *yaml.Node {
	if i, err := strconv.Atoi(key); err == nil && node.Kind == yaml.SequenceNode && i < len(node.Content) {
		return node.Content[i]
	}
	for i := 0; node.Kind == yaml.MappingNode && i+1 < len(node.Content); i += 2 {
		if node.Content[i].Value == key {
			return node.Content[i+1]
		}
	}
	return nil
}

func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &os.PathError{Op: "read", Path: name, Err: errors.New("is not a file")}
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(file, mostBytes+1))
	if err = errors.Join(err, file.Close()); err != nil {
		return nil, err
	}
	if len(data) > mostBytes {
		return nil, &os.PathError{Op: "read", Path: name, Err: fmt.Errorf("has more than %d bytes", mostBytes)}
	}
	return data, nil
}

// reason is an error about a file without the file's name.
func reason(err error) string {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err.Error()
	}
	return err.Error()
}
