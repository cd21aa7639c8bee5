package session

import (
	"context"
	"io"
	"path/filepath"
	"time"

	"mastwright/app/build"
	"mastwright/design"
)

// Selection says what Make writes. The zero value is all parts.
type Selection struct {
	Parts   []string    // names; nil for all
	Fit     bool        // the fit pieces too
	Sheet   build.Sheet // the build sheet beside them
	Replace bool        // files too that Mastwright did not write, or that were changed since: ask before
}

// Written is what Make wrote last.
type Written struct {
	Current bool // the document is still the one that was written
	Folder  string
	Files   []string // names in the folder
	Removed []string // written earlier, not made by this design any more
	At      time.Time
}

// Make writes the parts of the document as it stands, its build sheet, its results and a summary into a folder, which is made when it is not there.
// It returns when all is done: call it beside the window's thread. Progress is called now and then, from any goroutine but one at
// a time; nil for nobody. When the context ends nothing is written. Errors that can be asked about are build.InTheWay and
// build.Problems.
func (s *Session) Make(ctx context.Context, folder string, o Selection, progress func(part string, done, total int)) (build.Made, error) {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return build.Made{}, err
	}
	s.mu.Lock()
	now, opened := s.history.now, s.opened
	s.mu.Unlock()
	checked, err := s.checked(now.doc)
	if err != nil {
		return build.Made{}, err
	}
	made, err := build.Make(ctx, build.Folder{Path: folder, Force: o.Replace}, now.doc, checked.Result,
		build.Options{Only: o.Parts, Fit: o.Fit, Sheet: o.Sheet, Progress: progress})
	if err != nil {
		return build.Made{}, err
	}
	s.mu.Lock()
	if s.opened == opened {
		s.written = written{text: now.text, Written: Written{Folder: folder, Files: made.Files, Removed: made.Removed, At: s.options.Now()}}
		s.publish()
	}
	s.mu.Unlock()
	s.tell()
	return made, nil
}

// Sheet writes the build sheet of the document as it stands as a PDF, to be looked at before anything is made. Errors are as those of Make.
func (s *Session) Sheet(ctx context.Context, w io.Writer, o build.Sheet) error {
	s.mu.Lock()
	doc := s.history.now.doc
	s.mu.Unlock()
	checked, err := s.checked(doc)
	if err != nil {
		return err
	}
	return o.Encode(ctx, w, doc, checked.Result)
}

// checked returns the review of a document: the latest where it is of that, or a new one.
func (s *Session) checked(doc *design.Document) (*Review, error) {
	if latest := s.latest.Load(); latest.Current() && latest.Document == doc {
		return latest.Review, nil
	}
	r := &Review{Document: doc}
	if problems := s.judge(r); len(problems) > 0 {
		return nil, build.Problems(problems)
	}
	return r, nil
}

// written is what was written, with the text of the document it was made from; "" for nothing yet.
type written struct {
	text string
	Written
}
