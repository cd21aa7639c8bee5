// Package session holds the design a builder is working on: the document, its undo, its file, what is wrong with it, and the
// checks and the preview that follow every edit in the background. It knows no window.
//
// A Session may be used from any goroutine. What it knows at one moment is a Snapshot, which never changes; edits and results
// make new ones, and Options.Changed says so.
package session

import (
	"context"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"mastwright/assets"
	"mastwright/design"
)

// Options are the surroundings of a session.
type Options struct {
	State   string           // folder for unsaved work and the list of recent files; "" keeps neither
	Changed func()           // called after each new snapshot, from any goroutine and never with the session locked; nil for nobody
	Pause   time.Duration    // edits of one field that follow closer than this are undone together; 0 means 1 s
	KeepIn  time.Duration    // unsaved work is kept this long after an edit; 0 means 2 s
	Now     func() time.Time // nil means time.Now
}

// Session is an open design. Close it.
type Session struct {
	options     Options
	engines     engines
	sizers      sizers
	latest      atomic.Pointer[Snapshot]
	wake        chan struct{} // something may be there to check
	idle        chan struct{} // something may be there to compare
	ctx         context.Context
	stop        context.CancelFunc
	keeper      keeper
	saving      sync.Mutex // one save at a time
	remembering sync.Mutex

	mu        sync.Mutex // all below
	history   history
	serial    uint64 // of the document
	opened    uint64 // how many documents have been opened
	file      file
	errors    map[string]FieldError
	missing   []design.Answer
	found     findings
	studies   studies
	comparing bool
	written   written
	preview   cancellation
	keepTimer *time.Timer
	closed    bool
	counted   Counts
	keepError error
}

// New opens a session on the example of the first start.
func New(o Options) *Session { return start(o, realEngines(), realSizers()) }

func start(o Options, e engines, z sizers) *Session {
	if o.Pause == 0 {
		o.Pause = time.Second
	}
	if o.KeepIn == 0 {
		o.KeepIn = 2 * time.Second
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Changed == nil {
		o.Changed = func() {}
	}
	s := &Session{options: o, engines: e, sizers: z, wake: make(chan struct{}, 1), idle: make(chan struct{}, 1), keeper: keeper{folder: recoveryFolder(o.State)}}
	s.ctx, s.stop = context.WithCancel(context.Background())
	doc := design.New()
	for _, e := range assets.Examples() {
		if e.Name == assets.FirstStart {
			doc, _ = design.Decode(e.Data, design.Options{Name: e.Name})
		}
	}
	s.mu.Lock()
	s.adopt(doc, file{name: assets.FirstStart})
	s.mu.Unlock()
	go s.check()
	go s.compare()
	return s
}

// Close ends the background work and throws unsaved work away: ask before. It waits for nothing; a last call of Options.Changed
// may be under way.
func (s *Session) Close() {
	s.mu.Lock()
	if s.closed {
		s.mu.Unlock()
		return
	}
	s.closed = true
	if s.keepTimer != nil {
		s.keepTimer.Stop()
	}
	s.mu.Unlock()
	s.stop()
	s.keeper.release()
}

// Snapshot is the newest one.
func (s *Session) Snapshot() *Snapshot { return s.latest.Load() }

// Example begins with an example design, as one without a file. The error says that there is none of the name.
func (s *Session) Example(name string) error {
	var names []string
	for _, e := range assets.Examples() {
		names = append(names, e.Name)
		if e.Name != name {
			continue
		}
		doc, problems := design.Decode(e.Data, design.Options{Name: name})
		if doc == nil {
			return Unreadable{File: name, Problems: problems}
		}
		s.replace(doc, file{name: name, text: e.Data})
		return nil
	}
	return unknownExample{name, strings.Join(names, ", ")}
}

type unknownExample struct{ name, known string }

func (e unknownExample) Error() string {
	return "there is no example " + e.name + "; choose one of " + e.known
}

// Blank begins with a design in which nothing is answered.
func (s *Session) Blank() { s.replace(design.New(), file{name: "new design"}) }

// replace makes another document the open one.
func (s *Session) replace(doc *design.Document, f file) {
	s.mu.Lock()
	s.adopt(doc, f)
	s.mu.Unlock()
	s.tell()
	s.keep()
}

// adopt begins anew with a document; the session is locked.
func (s *Session) adopt(doc *design.Document, f file) {
	now := stateOf(doc)
	if f.saved == "" {
		f.saved = now.text
	}
	s.history, s.file, s.errors, s.written = history{now: now}, f, map[string]FieldError{}, written{}
	s.found = findings{since: s.serial + 1}
	s.opened++
	s.restudy()
	s.edited()
}

// edited follows a change of the document; the session is locked.
func (s *Session) edited() {
	s.serial++
	s.missing = s.history.now.doc.Missing()
	s.preview.hurry()
	s.studies.family = s.familyOf(s.history.now.doc)
	s.study()
	s.publish()
	signal(s.wake)
	if s.keeper.folder == "" || s.closed {
		return
	}
	if s.keepTimer == nil {
		s.keepTimer = time.AfterFunc(s.options.KeepIn, s.keep)
	} else {
		s.keepTimer.Reset(s.options.KeepIn)
	}
}

// tell says that there is a new snapshot; the session is not locked.
func (s *Session) tell() {
	if s.ctx.Err() == nil {
		s.options.Changed()
	}
}

func signal(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}
