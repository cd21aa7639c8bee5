package sizing

import (
	"context"
	"maps"
	"runtime"
	"slices"
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

// bench reviews changed copies of one design and remembers them. A review is done in stages, the quickest first, so that a search can
// drop a design that its mass or a quick check already rules out: an outcome of some stages holds a plain pass for every check that was
// not asked yet, and is never worse than the whole one.
type bench struct {
	doc     *design.Document
	ids     []string
	titles  []string
	stages  [stages][]string // ids of each stage's checks
	shop    *review.Workshop
	workers int
	present outcome

	sync.Mutex
	seen map[string]*entry
}

const stages = 3

// stageOf is the stage of a check: what solves the structure throughout takes most of a review's time, distances and rooms and a single
// solution most of the rest.
func stageOf(id string) int {
	switch id {
	case "sway", "modes", "shake", "strength", "tipover":
		return 2
	case "clearance", "sky", "level", "hardware":
		return 1
	}
	return 0
}

// entry is an outcome that one goroutine works out and all others wait for.
type entry struct {
	stages [stages]struct {
		sync.Once
		outcome outcome
		err     error
	}
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
		b.stages[stageOf(c.ID)] = append(b.stages[stageOf(c.ID)], c.ID)
	}
	r, wrong, err := b.shop.Judge(ctx, doc, b.ids...)
	if err != nil {
		return nil, err
	}
	if len(wrong) > 0 {
		return nil, Unbuildable(wrong)
	}
	b.present = b.outcome()
	b.keep(&b.present, r)
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
	o, _, err := b.when(ctx, changes, func(outcome) bool { return true })
	return o, err
}

// when reviews the design with some answers changed and reports whether something holds for it, which must hold for the first stages
// where it holds for all: where it does not, the others are not asked.
func (b *bench) when(ctx context.Context, changes []Change, holds func(outcome) bool) (outcome, bool, error) {
	e := b.entry(changes)
	o := b.outcome()
	for i := range e.stages {
		stage := &e.stages[i]
		stage.Do(func() { stage.outcome, stage.err = b.review(ctx, changes, o, b.stages[i]) })
		if o = stage.outcome; stage.err != nil || o.problem != "" || !holds(o) {
			return o, false, stage.err
		}
	}
	return o, true, nil
}

// until reviews the design with some answers changed up to a stage. Of the checks beyond it the outcome says nothing.
func (b *bench) until(ctx context.Context, changes []Change, last int) (outcome, error) {
	stage := -1
	o, _, err := b.when(ctx, changes, func(outcome) bool { stage++; return stage < last })
	return o, err
}

func (b *bench) entry(changes []Change) *entry {
	var key strings.Builder
	for _, c := range changes {
		key.WriteString(c.Path + "\x00" + c.Value + "\x00")
	}
	b.Lock()
	defer b.Unlock()
	e := b.seen[key.String()]
	if e == nil {
		e = &entry{}
		b.seen[key.String()] = e
	}
	return e
}

// whole are the outcomes of all checks so far, in an order that does not depend on which goroutine came first.
func (b *bench) whole() []outcome {
	list := []outcome{b.present}
	for _, key := range slices.Sorted(maps.Keys(b.seen)) {
		if o := b.seen[key].stages[stages-1].outcome; o.verdicts != nil {
			list = append(list, o)
		}
	}
	return list
}

// review adds some checks to an outcome.
func (b *bench) review(ctx context.Context, changes []Change, so outcome, ids []string) (outcome, error) {
	doc, err := apply(b.doc, changes)
	if err != nil {
		return outcome{problem: err.Error()}, ctx.Err()
	}
	if wrong := doc.Problems(); len(wrong) > 0 { // what reading it back would say
		return outcome{problem: wrong[0].Text}, ctx.Err()
	}
	r, wrong, err := b.shop.Judge(ctx, doc, ids...)
	switch {
	case err != nil:
		return outcome{}, err
	case len(wrong) > 0:
		return outcome{problem: wrong[0].Text}, nil
	}
	so.verdicts = slices.Clone(so.verdicts)
	b.keep(&so, r)
	return so, nil
}

// outcome is one of which nothing is known yet.
func (b *bench) outcome() outcome { return outcome{verdicts: make([]finding, len(b.ids))} }

// keep puts a review's verdicts into an outcome.
func (b *bench) keep(o *outcome, r review.Result) {
	o.mass = r.Mass
	for _, v := range r.Verdicts {
		f := finding{state: v.State, figure: v.Figure, accepted: v.Accepted != ""}
		if v.State != review.NoData { // a check may be milder than its figure
			f.place = min(max(v.Figure.Place(), float64(v.State)), float64(v.State)+1)
		}
		o.verdicts[slices.Index(b.ids, v.ID)] = f
	}
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
		if c.Value == "" {
			changed.Clear(c.Path)
		} else if err := changed.Set(c.Path, c.Value); err != nil {
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
