package review

import (
	"context"
	"fmt"
	"slices"
	"sync"

	"mastwright/design"
	"mastwright/design/frame"
	"mastwright/design/magnetic"
)

// Workshop reviews designs that have much in common and keeps what they share: the plates that a mast stands on, the sections of
// its members, and what the leads do to the compass. An answer is kept under everything that it was computed from, to the last bit,
// so that a review in a workshop is the review outside of it. The zero value is ready; it may be used from several goroutines, and what it
// keeps is bounded.
type Workshop struct {
	plates   shelf[[6][6]float64]
	sections shelf[frame.Section]
	headings shelf[magnetic.HeadingError]

	mutex sync.Mutex
	work  Work
}

// Judge reviews a design without what only pictures need. With the ids of checks it runs those alone, in the order of Checks, and the
// result holds their verdicts, the design's name and its mass, and nothing else; of the design only what they ask is worked out. The
// problems are those of a design that cannot be built. The error is the context's, which is looked at before every check, or names an id
// that is no check's.
func (w *Workshop) Judge(ctx context.Context, doc *design.Document, ids ...string) (Result, []design.Problem, error) {
	asked, err := chosen(ids)
	if err != nil {
		return Result{}, nil, err
	}
	if err := ctx.Err(); err != nil {
		return Result{}, nil, err
	}
	s, problems := w.prepared(doc, rigid(asked))
	if len(problems) > 0 {
		return Result{}, problems, nil
	}
	defer w.count(s)
	r, err := s.judge(ctx, asked)
	if err != nil {
		return Result{}, nil, err
	}
	if len(ids) == 0 {
		s.report(&r)
	}
	return r, nil, nil
}

// Work returns what the workshop has done so far, Bench.Try included.
func (w *Workshop) Work() Work {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	return w.work
}

func (w *Workshop) subject(doc *design.Document) (*subject, []design.Problem) {
	return w.prepared(doc, false)
}

func (w *Workshop) prepared(doc *design.Document, rigid bool) (*subject, []design.Problem) {
	s := &subject{doc: doc, library: libraryOf(doc), shop: w, rigid: rigid, answers: newAnswers()}
	problems := s.prepare()
	if len(problems) > 0 {
		w.count(s)
	}
	return s, problems
}

func (w *Workshop) count(s *subject) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	w.work.add(s.work)
	s.work = Work{}
}

// rigid says whether nothing is asked that depends on what bends.
func rigid(asked []Check) bool {
	return !slices.ContainsFunc(asked, func(c Check) bool { return !c.rigid })
}

// chosen returns the checks of ids, all where there are none.
func chosen(ids []string) ([]Check, error) {
	if len(ids) == 0 {
		return checks, nil
	}
	wanted := map[string]bool{}
	for _, id := range ids {
		if _, ok := Find(id); !ok {
			return nil, fmt.Errorf("%q is no check; Checks lists them", id)
		}
		wanted[id] = true
	}
	var list []Check
	for _, c := range checks {
		if wanted[c.ID] {
			list = append(list, c)
		}
	}
	return list, nil
}
