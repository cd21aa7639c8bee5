package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"

	"mastwright/design"
	"mastwright/design/review"
)

// Options are how a sweep is run.
type Options struct {
	Checks   []string              // ids whose figures are kept; none means all
	Workshop *review.Workshop      // shared with other work on the same design; nil: one of its own
	Workers  int                   // goroutines; 0 means one for each processor; results do not depend on it
	Progress func(done, total int) // told how far the work is, from one goroutine at a time; may be nil
}

// Result is a design over its axes.
type Result struct {
	Design string
	Axes   []Axis
	Checks []string
	Points []Point // the last axis the fastest
	Curves []Curve // the mass, and every figure of the checks, in their order
	Front  []int   // points that no other beats both in mass and in worst place, the lightest first
}

// Point is one design of a sweep.
type Point struct {
	At       []int            // index into each axis
	Problems []design.Problem // why it cannot be built; then there is nothing else
	Mass     float64          // g
	Verdicts []review.Verdict // of the checks
	Bands    []review.Band    // what the rotors excite
	Worst    float64          // place of the worst verdict of all checks that is not accepted, on the verdict scale
	Binds    string           // id of that check; "" without any data
}

// Run reviews a design at every combination of one or two fields' values. The error is the context's or says what is wrong with the
// request; designs that cannot be built are points with problems.
func Run(ctx context.Context, doc *design.Document, axes []Axis, o Options) (Result, error) {
	r := Result{Design: doc.Name, Axes: axes, Checks: o.Checks}
	if err := o.check(axes); err != nil {
		return Result{}, err
	}
	if len(r.Checks) == 0 {
		r.Checks = design.Checks()
	}
	if o.Workshop == nil {
		o.Workshop = &review.Workshop{}
	}
	r.Points = grid(axes)
	if err := o.each(ctx, len(r.Points), func(i int) error { return r.look(ctx, doc, o.Workshop, &r.Points[i]) }); err != nil {
		return Result{}, err
	}
	r.Curves = curves(r.Checks, r.Points)
	r.Front = front(r.Points)
	return r, nil
}

func (o Options) check(axes []Axis) error {
	points := 1
	for _, a := range axes {
		points *= len(a.Texts)
	}
	switch {
	case len(axes) == 0:
		return errors.New("no field to sweep; name one such as mast.height")
	case len(axes) > 2:
		return fmt.Errorf("%d fields to sweep; name one or two", len(axes))
	case len(axes) == 2 && axes[0].Path == axes[1].Path:
		return fmt.Errorf("%s is swept twice; name two fields", axes[0].Path)
	case points > MostPoints:
		return fmt.Errorf("%d times %d points are more than %d; take fewer steps", len(axes[0].Texts), len(axes[1].Texts), MostPoints)
	}
	for _, id := range o.Checks {
		if !slices.Contains(design.Checks(), id) {
			return fmt.Errorf("%q is no check; the checks are %s", id, strings.Join(design.Checks(), ", "))
		}
	}
	return nil
}

// grid lays out every combination of the axes.
func grid(axes []Axis) []Point {
	points := []Point{{}}
	for _, a := range axes {
		var next []Point
		for _, p := range points {
			for i := range a.Texts {
				next = append(next, Point{At: append(slices.Clone(p.At), i)})
			}
		}
		points = next
	}
	return points
}

// look reviews a point.
func (r Result) look(ctx context.Context, doc *design.Document, shop *review.Workshop, p *Point) error {
	changed := doc.Clone()
	for k, a := range r.Axes {
		var problem design.Problem
		switch err := changed.Set(a.Path, a.Texts[p.At[k]]); {
		case errors.As(err, &problem):
			p.Problems = []design.Problem{problem}
			return nil
		case err != nil:
			return err
		}
	}
	found, problems, err := shop.Judge(ctx, changed)
	if err != nil || len(problems) > 0 {
		p.Problems = problems
		return err
	}
	p.Mass, p.Bands = found.Mass, found.Bands
	for _, v := range found.Verdicts {
		if slices.Contains(r.Checks, v.ID) {
			p.Verdicts = append(p.Verdicts, v)
		}
		if at := Place(v); v.State != review.NoData && v.Accepted == "" && (p.Binds == "" || at > p.Worst) {
			p.Worst, p.Binds = at, v.ID
		}
	}
	return nil
}

// Place is a verdict's place on the verdict scale, in the lane of its state: a check may be milder than its figure. It is 0 without
// data.
func Place(v review.Verdict) float64 {
	if v.State == review.NoData {
		return 0
	}
	return math.Min(math.Max(v.Figure.Place(), float64(v.State)), float64(v.State)+1)
}

// each does a task for every index, on several goroutines. The error is that of the least index.
func (o Options) each(ctx context.Context, n int, task func(i int) error) error {
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	errs := make([]error, n)
	var mutex sync.Mutex
	var group sync.WaitGroup
	next, done := 0, 0
	for range min(workers, n) {
		group.Go(func() {
			for {
				mutex.Lock()
				i := next
				next++
				mutex.Unlock()
				if i >= n || ctx.Err() != nil {
					return
				}
				errs[i] = task(i)
				mutex.Lock()
				if done++; o.Progress != nil {
					o.Progress(done, n)
				}
				mutex.Unlock()
			}
		})
	}
	group.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
