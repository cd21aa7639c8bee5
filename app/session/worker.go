package session

import (
	"context"
	"fmt"
	"time"

	"mastwright/design"
	"mastwright/design/parts"
	"mastwright/design/review"
	"mastwright/mesh/solid"
)

// previewTolerance in mm is how far a preview may stray from the solid.
const previewTolerance = 0.1

// A preview may go on when a newer document waits, half as long again as the last one took and within these bounds: a mount that
// is dragged is seen to move, and one that is slow to mesh does not hold up the checks.
const leastPatience, mostPatience = 250 * time.Millisecond, time.Second

// engines are what the worker asks.
type engines struct {
	review  func(*design.Document) (review.Result, []design.Problem)
	build   func(*design.Document) (parts.Assembly, []design.Problem)
	mesh    func(context.Context, parts.Assembly) ([]Piece, error)
	compare func(context.Context, *design.Document) ([]review.Candidate, []design.Problem, error)
}

func realEngines() engines { return engines{review.Run, parts.Build, polygonise, review.Compare} }

func polygonise(ctx context.Context, a parts.Assembly) ([]Piece, error) {
	shapes, _, err := a.Meshes(ctx, solid.Options{Tolerance: previewTolerance})
	if err != nil {
		return nil, err
	}
	pieces := make([]Piece, len(shapes))
	for i, shape := range shapes {
		pieces[i] = Piece{a.Parts[i], shape}
	}
	return pieces, nil
}

// findings are what the worker has found out, each with the serial of the document it is about.
type findings struct {
	since         uint64 // the document that was opened; what is found of an earlier one is dropped
	checked       uint64
	previewDue    bool // of the last review, before the next
	problems      []design.Problem
	review        *Review
	previewed     uint64
	preview       *Preview
	previewReason string
	compared      uint64
	comparison    *Comparison
}

func (f findings) patience() time.Duration {
	if f.preview == nil {
		return leastPatience
	}
	return min(max(f.preview.Took*3/2, leastPatience), mostPatience)
}

// cancellation ends a preview that a newer document has overtaken.
type cancellation struct {
	cancel   context.CancelFunc // nil when none is being made
	since    time.Time
	patience time.Duration
}

// hurry gives a running preview what is left of its patience.
func (c *cancellation) hurry() {
	if c.cancel != nil {
		time.AfterFunc(c.patience-time.Since(c.since), c.cancel)
	}
}

// Counts tells what the background has done.
type Counts struct {
	Edits                                 uint64 // documents that were to be checked
	Reviews, Previews, Abandoned, Compare uint64 // begun; previews given up
}

// Counts returns what the background has done so far.
func (s *Session) Counts() Counts {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.counted.Edits = s.serial
	return s.counted
}

// check is the worker: the checks of the newest document, then its preview, until nothing newer is there. Documents that came and
// went meanwhile are skipped.
func (s *Session) check() {
	for {
		select {
		case <-s.ctx.Done():
			return
		case <-s.wake:
			for s.ctx.Err() == nil && s.checkOnce() {
			}
		}
	}
}

// checkOnce does what is most needed; it reports whether there was anything.
func (s *Session) checkOnce() bool {
	s.mu.Lock()
	doc, serial, found := s.history.now.doc, s.serial, s.found
	switch {
	case found.checked != serial && !found.previewDue:
		s.counted.Reviews++
		s.mu.Unlock()
		s.review(doc, serial)
		return true
	case found.previewDue:
		ctx, cancel := context.WithCancel(s.ctx)
		s.preview = cancellation{cancel, time.Now(), found.patience()}
		if found.checked != serial {
			s.preview.hurry()
		}
		s.found.previewDue = false
		s.counted.Previews++
		s.mu.Unlock()
		s.show(ctx, found.review)
		cancel()
		return true
	}
	s.mu.Unlock()
	signal(s.idle)
	return false
}

func (s *Session) review(doc *design.Document, serial uint64) {
	began := time.Now()
	r := &Review{Serial: serial, Document: doc}
	problems := s.judge(r)
	r.Took = time.Since(began)
	s.mu.Lock()
	if serial >= s.found.since {
		s.found.checked, s.found.problems = serial, problems
		if s.found.previewDue = len(problems) == 0; s.found.previewDue {
			s.found.review = r
		}
		s.study()
		s.publish()
	}
	s.mu.Unlock()
	s.tell()
}

// judge fills a review in.
func (s *Session) judge(r *Review) []design.Problem {
	return guarded("check", func() []design.Problem {
		problems := r.Document.Problems()
		if len(problems) == 0 {
			r.Assembly, problems = s.engines.build(r.Document)
		}
		if len(problems) == 0 {
			r.Result, problems = s.engines.review(r.Document)
		}
		return problems
	})
}

func (s *Session) show(ctx context.Context, of *Review) {
	began := time.Now()
	p := &Preview{Serial: of.Serial}
	var err error
	problems := guarded("preview", func() []design.Problem {
		p.Pieces, err = s.engines.mesh(ctx, of.Assembly)
		return nil
	})
	p.Took = time.Since(began)
	s.mu.Lock()
	s.preview = cancellation{}
	switch {
	case ctx.Err() != nil && err != nil:
		s.counted.Abandoned++
		s.mu.Unlock()
		return
	case of.Serial < s.found.since:
		s.mu.Unlock()
		return
	case err != nil:
		s.found.previewReason = err.Error()
	case len(problems) > 0:
		s.found.previewReason = problems[0].Text
	default:
		s.found.preview, s.found.previewReason = p, ""
	}
	s.found.previewed = of.Serial
	s.publish()
	s.mu.Unlock()
	s.tell()
}

// Compare asks for the comparison of materials to follow the document, or no longer.
func (s *Session) Compare(on bool) {
	s.mu.Lock()
	s.comparing = on
	s.publish()
	s.mu.Unlock()
	s.tell()
	signal(s.idle)
}

// compare keeps the comparison of materials up to date, after everything else: it takes as long as all materials' checks.
func (s *Session) compare() {
	for {
		select {
		case <-s.ctx.Done():
			return
		case <-s.idle:
		}
		s.mu.Lock()
		doc, serial, found, on := s.history.now.doc, s.serial, s.found, s.comparing
		if on && found.compared != serial && found.checked == serial && len(found.problems) == 0 {
			s.counted.Compare++
			s.mu.Unlock()
			s.tabulate(doc, serial)
			continue
		}
		s.mu.Unlock()
	}
}

func (s *Session) tabulate(doc *design.Document, serial uint64) {
	c := &Comparison{Serial: serial}
	var stopped error
	problems := guarded("comparison", func() (problems []design.Problem) {
		c.Candidates, problems, stopped = s.engines.compare(s.ctx, doc)
		return problems
	})
	if stopped != nil {
		return // the session is closing
	}
	s.mu.Lock()
	s.found.compared = serial
	if len(problems) == 0 && serial >= s.found.since {
		s.found.comparison = c
	}
	s.publish()
	s.mu.Unlock()
	s.tell()
	signal(s.idle)
}

// guarded turns a crash of an engine into a problem: the builder keeps the design and can undo.
func guarded(task string, do func() []design.Problem) (problems []design.Problem) {
	defer func() {
		if cause := recover(); cause != nil {
			problems = []design.Problem{{Text: fmt.Sprintf("the %s broke off on this design (%v); undo the last change, and please report it with the design file", task, cause)}}
		}
	}()
	return do()
}
