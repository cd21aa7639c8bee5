package desktop

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"mastwright/app/prove"
	"mastwright/design"
)

// origin is where a test's readings are from. The zero value is what was typed.
type origin struct {
	file     string
	invented bool // made up on the spot
}

// words say it.
func (s origin) words() string {
	switch {
	case s.invented:
		return "A record that was made up, to try the test out."
	case s.file != "":
		return filepath.Base(s.file)
	}
	return "What was typed."
}

// try does an attempt with the readings; it may take a while.
func (s origin) try(doc *design.Document, test string, a attempt) (prove.Result, error) {
	switch {
	case s.invented:
		var made bytes.Buffer
		if err := prove.Example(&made, doc, test, prove.ExampleOptions{}); err != nil {
			return prove.Result{}, err
		}
		return a(doc, &made, "made-up record")
	case s.file != "":
		file, err := os.Open(s.file)
		if err != nil {
			return prove.Result{}, fmt.Errorf("%s cannot be read: %w", filepath.Base(s.file), reason(err))
		}
		defer file.Close()
		return a(doc, file, filepath.Base(s.file))
	}
	return a(doc, nil, "")
}

// reason is what is wrong with a file, without its path.
func reason(err error) error {
	var at *os.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// sentencesOf are the reasons why a test did not answer.
func sentencesOf(err error) []string {
	var refusal prove.Refusal
	if errors.As(err, &refusal) {
		return refusal.Sentences
	}
	return []string{capital(err.Error())}
}
