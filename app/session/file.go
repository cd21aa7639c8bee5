package session

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"mastwright/design"
)

// file is where the design comes from.
type file struct {
	path    string // absolute; "" for none
	name    string // shown when neither a path nor the design names it
	text    []byte // as it was read or written; for an example, the example's
	sum     [sha256.Size]byte
	known   bool   // sum is that of the file as it was read or written
	saved   string // the document there, as text
	savedAt time.Time
}

// open reads a shelf file beside the design.
func (f file) open(shelf string) ([]byte, error) {
	if f.path == "" {
		return nil, errors.New("the design has no folder yet; save it first")
	}
	return readFile(filepath.Join(filepath.Dir(f.path), filepath.FromSlash(shelf)))
}

// Unreadable says that a file is no design; nothing was opened.
type Unreadable struct {
	File     string
	Problems []design.Problem
}

// Error lists every problem.
func (u Unreadable) Error() string {
	var all []error
	for _, p := range u.Problems {
		all = append(all, p)
	}
	return errors.Join(all...).Error()
}

// Reason is why a design was not written over a file.
type Reason int

// The reasons.
const (
	Unnamed Reason = iota // it has no file yet: ask for one
	Changed               // the file was changed since it was read
	Exists                // there is another file of the name
)

// Conflict says that a design was not saved, and why; Save again with another name, or with SaveOver.
type Conflict struct {
	File   string
	Reason Reason
}

// Error is a sentence.
func (c Conflict) Error() string {
	switch c.Reason {
	case Changed:
		return filepath.Base(c.File) + " was changed on disk since it was opened; replace it, or save under another name"
	case Exists:
		return filepath.Base(c.File) + " exists already; replace it, or save under another name"
	}
	return "the design has no file yet; give it a name"
}

// Open opens a design file. One that cannot be built is opened all the same, with its problems; the error is Unreadable or that
// of the file, and then what was open stays open.
func (s *Session) Open(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("open %s: %w", path, err)
	}
	f, doc, err := readDesign(path)
	if err != nil {
		return err
	}
	s.replace(doc, f)
	s.remember(path)
	return nil
}

func readDesign(path string) (file, *design.Document, error) {
	data, err := readFile(path)
	if err != nil {
		return file{}, nil, fmt.Errorf("open %s: %w", path, withoutPath(err))
	}
	f := file{path: path, text: data, sum: sha256.Sum256(data), known: true}
	doc, problems := design.Decode(data, design.Options{Name: filepath.Base(path), Open: f.open})
	if doc == nil {
		return file{}, nil, Unreadable{path, problems}
	}
	f.saved = stateOf(doc).text
	return f, doc, nil
}

// Save writes the design to its file, whole or not at all; what stood there before stays beside it under the same name with a
// "~". A design that is saved already is not written again, and of one that is edited only what
// changed is written, so that the builder's comments and order stay. The error is a Conflict when there is something to ask.
func (s *Session) Save() error {
	n := s.Snapshot()
	if n.File == "" {
		return Conflict{Reason: Unnamed}
	}
	return s.save(n.File, false)
}

// SaveAs writes the design to another file, which becomes its own. It does not replace an existing one.
func (s *Session) SaveAs(path string) error { return s.save(path, false) }

// SaveOver is SaveAs and replaces whatever file is there: ask before.
func (s *Session) SaveOver(path string) error { return s.save(path, true) }

func (s *Session) save(path string, replace bool) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	s.saving.Lock()
	defer s.saving.Unlock()
	s.mu.Lock()
	now, f, opened := s.history.now, s.file, s.opened
	s.mu.Unlock()

	old, err := readFile(path)
	there := !errors.Is(err, fs.ErrNotExist)
	if there && err != nil {
		return fmt.Errorf("save %s: %w", path, withoutPath(err))
	}
	own := path == f.path && f.known
	switch same := own && there && sha256.Sum256(old) == f.sum; {
	case same && now.text == f.saved:
		return nil
	case there && !replace && own && !same:
		return Conflict{path, Changed}
	case there && !replace && !own:
		return Conflict{path, Exists}
	}
	base := f.text
	if own && there {
		base = old
	}
	data, err := design.Revise(base, now.doc)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if filepath.Dir(path) != filepath.Dir(f.path) {
		moved := file{path: path}
		if doc, problems := design.Decode(data, design.Options{Name: filepath.Base(path), Open: moved.open}); doc == nil {
			return fmt.Errorf("save %s: %w", path, Unreadable{path, problems})
		}
	}
	if err := replaceFile(path, data, old, there); err != nil {
		return fmt.Errorf("save %s: %w", path, withoutPath(err))
	}
	s.mu.Lock()
	if s.opened == opened {
		s.file = file{path: path, text: data, sum: sha256.Sum256(data), known: true, saved: now.text, savedAt: s.options.Now()}
		s.history.sealed = true
		s.publish()
	}
	s.mu.Unlock()
	s.remember(path)
	s.keep()
	s.tell()
	return nil
}

// OnDisk reports whether the design's file is still as it was read or written; true without a file.
func (s *Session) OnDisk() bool {
	s.mu.Lock()
	f := s.file
	s.mu.Unlock()
	if f.path == "" {
		return true
	}
	data, err := readFile(f.path)
	return err == nil && sha256.Sum256(data) == f.sum
}

// mostBytes is more than any design file has; no more than that is read.
const mostBytes = 8 << 20

func readFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is not a file")
	}
	if info.Size() > mostBytes {
		return nil, fmt.Errorf("it has more than %d bytes, so it is no design", mostBytes)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, mostBytes))
	return data, errors.Join(err, f.Close())
}

// withoutPath is an error about a file without the file's name.
func withoutPath(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
