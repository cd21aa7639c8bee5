package session

import (
	"context"
	"path/filepath"
	"time"

	"mastwright/app/build"
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
	now, opened, checked := s.history.now, s.opened, s.latest.Load()
	s.mu.Unlock()
	if !checked.Current() {
		r := &Review{Document: now.doc}
		if problems := s.judge(r); len(problems) > 0 {
			return build.Made{}, build.Problems(problems)
		}
		checked = &Snapshot{Review: r}
	}
	made, err := build.Make(ctx, build.Folder{Path: folder, Force: o.Replace}, now.doc, checked.Review.Result,
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

// written is what was written, with the text of the document it was made from; "" for nothing yet.
type written struct {
	text string
	Written
}
