package sizing

import (
	"context"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"mastwright/design"
	"mastwright/design/review"
)

// Options are common to everything that is sized.
type Options struct {
	Workshop *review.Workshop      // shared with other work on the same design; nil: one of its own
	Workers  int                   // goroutines; 0 means one for each processor; results do not depend on it
	Progress func(done, total int) // told how far the work is, from one goroutine at a time; may be nil
}

// Unbuildable is the error of a design that cannot be reviewed: everything that is wrong with it.
type Unbuildable []design.Problem

// Error is a line for each problem.
func (u Unbuildable) Error() string {
	lines := make([]string, len(u))
	for i, p := range u {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// outcome is what is kept of a review.
type outcome struct {
	mass     float64 // g
	verdicts []finding
	problem  string // why it cannot be built; then there is nothing else
}

// finding is a check's verdict.
type finding struct {
	state    review.State
	place    float64 // on the verdict scale; without data 0
	figure   review.Figure
	accepted bool
}

// counts reports whether a verdict is to be minded: it has data and the design does not accept it as it is.
func (f finding) counts() bool { return f.state != review.NoData && !f.accepted }

// bench reviews changed copies of one design and remembers them.
type bench struct {
	doc     *design.Document
	ids     []string
	titles  []string
	shop    *review.Workshop
	workers int
	present outcome

	sync.Mutex
	seen map[string]*entry
}

// entry is an outcome that one goroutine works out and all others wait for.
type entry struct {
	sync.Once
	outcome outcome
	err     error
}

func newBench(ctx context.Context, doc *design.Document, o Options) (*bench, error) {
	b := &bench{doc: doc, shop: o.Workshop, workers: o.Workers, seen: map[string]*entry{}}
	if b.shop == nil {
		b.shop = &review.Workshop{}
	}
	if b.workers <= 0 {
		b.workers = runtime.GOMAXPROCS(0)
	}
	for _, c := range review.Checks() {
		b.ids, b.titles = append(b.ids, c.ID), append(b.titles, c.Title)
	}
	r, wrong, err := b.shop.Judge(ctx, doc, b.ids...)
	if err != nil {
		return nil, err
	}
	if len(wrong) > 0 {
		return nil, Unbuildable(wrong)
	}
	b.present = b.keep(r)
	return b, nil
}

// reviews is how many different designs have been looked at, the present one included.
func (b *bench) reviews() int {
	b.Lock()
	defer b.Unlock()
	return 1 + len(b.seen)
}

// try reviews the design with some answers changed. The error is that of the context alone.
func (b *bench) try(ctx context.Context, changes []Change) (outcome, error) {
	var key strings.Builder
	for _, c := range changes {
		key.WriteString(c.Path + "\x00" + c.Value + "\x00")
	}
	b.Lock()
	e := b.seen[key.String()]
	if e == nil {
		e = &entry{}
		b.seen[key.String()] = e
	}
	b.Unlock()
	e.Do(func() { e.outcome, e.err = b.review(ctx, changes) })
	return e.outcome, e.err
}

func (b *bench) review(ctx context.Context, changes []Change) (outcome, error) {
	doc, err := apply(b.doc, changes)
	if err != nil {
		return outcome{problem: err.Error()}, ctx.Err()
	}
	r, wrong, err := b.shop.Judge(ctx, doc, b.ids...)
	switch {
	case err != nil:
		return outcome{}, err
	case len(wrong) > 0:
		return outcome{problem: wrong[0].Text}, nil
	}
	return b.keep(r), nil
}

func (b *bench) keep(r review.Result) outcome {
	o := outcome{mass: r.Mass}
	for _, v := range r.Verdicts {
		f := finding{state: v.State, figure: v.Figure, accepted: v.Accepted != ""}
		if v.State != review.NoData { // a check may be milder than its figure
			f.place = min(max(v.Figure.Place(), float64(v.State)), float64(v.State)+1)
		}
		o.verdicts = append(o.verdicts, f)
	}
	return o
}

// title is a check's title.
func (b *bench) title(id string) string {
	if c, ok := review.Find(id); ok {
		return c.Title
	}
	return id
}

// apply makes a changed copy of a design.
func apply(doc *design.Document, changes []Change) (*design.Document, error) {
	changed := doc.Clone()
	for _, c := range changes {
		if err := changed.Set(c.Path, c.Value); err != nil {
			return nil, err
		}
	}
	return changed, nil
}

// each runs a task for every number below n on the bench's workers and returns the first error in order of the numbers.
func (b *bench) each(n int, task func(i int) error) error {
	errs := make([]error, n)
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(b.workers, n) {
		wait.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				if errs[i] = task(i); errs[i] != nil {
					return
				}
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
