package desktop

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
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

// name is a word for it.
func (s origin) name() string {
	if s.file != "" {
		return filepath.Base(s.file)
	}
	return "the record"
}

// try does an attempt with the readings; it may take a while. Progress is told the share of the file that is read.
func (s origin) try(ctx context.Context, doc *design.Document, test string, a attempt, progress func(share float64)) (prove.Result, error) {
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
		size := int64(0)
		if info, err := file.Stat(); err == nil {
			size = info.Size()
		}
		return a(doc, &watched{ctx: ctx, file: file, size: size, progress: progress}, filepath.Base(s.file))
	}
	return a(doc, nil, "")
}

// watched is a file that tells how much of it was read, by hundredths, and ends when its reading is given up.
type watched struct {
	ctx        context.Context
	file       io.Reader
	size, read int64
	told       int64 // hundredths
	progress   func(share float64)
}

// Read is the file's.
func (w *watched) Read(p []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := w.file.Read(p)
	w.read += int64(n)
	if now := 100 * w.read / max(1, w.size); now > w.told {
		w.told = now
		w.progress(float64(now) / 100)
	}
	return n, err
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
