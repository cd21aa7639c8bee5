package session

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/mesh"
)

// Snapshot is what a session knows at one moment. Neither it nor what it points to is ever changed: read it from anywhere, and
// write to none of it.
type Snapshot struct {
	Serial   uint64           // of the document; grows with every change of it
	Opened   uint64           // how many designs have been opened: another number, another design
	Document *design.Document // with the last good value of every field

	Name   string    // of the design, or of its file
	File   string    // absolute; "" when it has none yet
	Dirty  bool      // there is something to save
	Saved  time.Time // by this session; zero when it has not
	Unkept string    // why unsaved work is not being kept against a crash; "" when it is

	Undo, Redo string // what the next one takes back or brings again, "Height"; "" when there is nothing
	Grouping   bool   // between Begin and End

	Errors   []FieldError     // typed and not understood, in document order
	Missing  []design.Answer  // still to be answered, the most useful first
	Problems []design.Problem // why Document cannot be built, as far as it is checked; Review is of an earlier one then

	Review        *Review // the newest; nil before the first
	Preview       *Preview
	PreviewReason string      // why there is no preview of the reviewed document
	Comparison    *Comparison // nil unless asked for by Compare
	Heights       *Heights    // the newest; nil before the first, and unless asked for by Heights
	Advice        *Advice     // the newest for the check asked about by Advise; nil while there is none; while Advising of Document what was found so far
	Advising      bool        // it is being looked for
	Sought        float64     // share of that which is done
	Chances       *Chances    // of Document; nil unless asked for by Doubt
	Doubting      bool        // they are being computed
	Doubted       float64     // share of that which is done
	Checking      bool        // Review or Problems is of an earlier document
	Previewing    bool        // Preview is of an earlier document and a new one is being made
	Written       *Written    // by Make, since the design was opened; nil when nothing was
	Stages        []Stage     // of the road, five of them
}

// FieldError is a text that was typed into a field and is no answer to it.
type FieldError struct {
	Path     string
	Text     string // as it was typed
	Sentence string // what is wrong and what to do, "Wall: ..."
}

// Review is what the checks say of a document.
type Review struct {
	Serial   uint64 // of the document that was checked
	Document *design.Document
	Assembly parts.Assembly
	Result   review.Result
	Took     time.Duration
}

// Preview is how the parts of a document look.
type Preview struct {
	Serial uint64
	Pieces []Piece
	Took   time.Duration
}

// Piece is a part with a coarse mesh of it in place axes, mm.
type Piece struct {
	Part parts.Part
	Mesh *mesh.Mesh
}

// Comparison is the same design in every print material, the best first.
type Comparison struct {
	Serial     uint64
	Candidates []review.Candidate
}

// Current reports whether the figures are those of the document as it stands.
func (s *Snapshot) Current() bool {
	return !s.Checking && len(s.Problems) == 0 && s.Review != nil && s.Review.Serial == s.Serial
}

// Error returns what is wrong with a field as it was typed, or as it stands in the document.
func (s *Snapshot) Error(path string) (sentence string, ok bool) {
	for _, e := range s.Errors {
		if e.Path == path {
			return e.Sentence, true
		}
	}
	for _, p := range s.Problems {
		if p.Path == path {
			return p.Sentence(), true
		}
	}
	return "", false
}

// publish makes a new snapshot; the session is locked.
func (s *Session) publish() {
	doc := s.history.now.doc
	n := &Snapshot{
		Serial: s.serial, Opened: s.opened, Document: doc,
		Name: cmp.Or(doc.Name, s.file.name), File: s.file.path, Dirty: s.dirty(), Saved: s.file.savedAt,
		Grouping: s.history.depth > 0,
		Missing:  s.missing, Problems: s.found.problems,
		Review: s.found.review, Preview: s.found.preview, PreviewReason: s.found.previewReason, Comparison: s.found.comparison,
		Checking: s.found.checked != s.serial,
	}
	n.Previewing = n.Checking || len(n.Problems) == 0 && s.found.previewed != s.serial
	n.Undo, n.Redo = s.history.titles()
	if n.File != "" && doc.Name == "" {
		n.Name = strings.TrimSuffix(filepath.Base(n.File), filepath.Ext(n.File))
	}
	if len(s.errors) > 0 {
		for _, path := range doc.Paths() {
			if e, ok := s.errors[path]; ok {
				n.Errors = append(n.Errors, e)
			}
		}
	}
	if s.written.text != "" {
		w := s.written.Written
		w.Current = s.written.text == s.history.now.text
		n.Written = &w
	}
	s.studied(n)
	if !s.comparing {
		n.Comparison = nil
	}
	if s.keepError != nil {
		n.Unkept = s.keepError.Error()
	}
	n.Stages = n.stages()
	s.latest.Store(n)
}

func (s *Session) dirty() bool { return s.history.now.text != s.file.saved }

// forgetErrors drops the field errors of paths.
func (s *Session) forgetErrors(drop func(path string) bool) {
	for path := range s.errors {
		if drop(path) {
			delete(s.errors, path)
		}
	}
}

// prune drops the field errors of fields that are gone or whose value has changed since another document.
func (s *Session) prune(before *design.Document) {
	if len(s.errors) == 0 {
		return
	}
	now := s.history.now.doc
	paths := now.Paths()
	s.forgetErrors(func(path string) bool { return !slices.Contains(paths, path) || now.Get(path) != before.Get(path) })
}
