package certainty

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"

	"mastwright/design"
	"mastwright/design/review"
	"mastwright/design/sizing"
)

// Options are how a design is sampled.
type Options struct {
	Samples  int                   // 0 means 200; at least 10
	Seed     uint64                // of the drawing
	Workshop *review.Workshop      // shared with other work on the same design; nil: one of its own
	Workers  int                   // goroutines; 0 means one for each processor; results do not depend on it
	Progress func(done, total int) // told how far the work is, from one goroutine at a time; may be nil
}

// Bounds of the samples.
const (
	usualSamples = 200
	leastSamples = 10
	mostSamples  = 20000
)

// Result is how sure the verdicts are.
type Result struct {
	Samples    int
	Properties []Property // what was drawn
	Chances    []Chance   // of every check, in their order
	NoneFails  Share      // nothing fails, verdicts that the design accepts aside
	AllPass    Share      // everything with data passes, verdicts that the design accepts aside
}

// Chance is how likely a check says what.
type Chance struct {
	Check, Title         string
	Known                bool // the check has data; without, there is nothing else
	State                review.State
	Figure               review.Figure // the deciding one of the design as it stands
	Pass, Marginal, Fail Share
	Low, Middle, High    float64     // places on the verdict scale below which 5, 50 and 95 % of the samples are
	Influences           []Influence // what its place hangs on, the most first; empty where it hangs on nothing that was drawn
}

// Influence is a property that a verdict hangs on.
type Influence struct {
	Property int     // index into Result.Properties
	Name     string  // of the property
	Rank     float64 // Spearman's coefficient with the place of the verdict: above 0, more of it is worse
}

// sampled are the verdicts on one sample: places on the verdict scale, and states.
type sampled struct {
	places []float64
	states []review.State
}

// Study samples a design and judges every sample. The error is the context's, sizing.Unbuildable for a design that cannot be
// reviewed, or says what is wrong with the request.
func Study(ctx context.Context, doc *design.Document, o Options) (Result, error) {
	if o.Samples == 0 {
		o.Samples = usualSamples
	}
	if o.Samples < leastSamples || o.Samples > mostSamples {
		return Result{}, fmt.Errorf("%d samples are outside %d to %d; leave them out for %d", o.Samples, leastSamples, mostSamples, usualSamples)
	}
	if o.Workshop == nil {
		o.Workshop = &review.Workshop{}
	}
	var ids []string
	for _, c := range review.Checks() {
		ids = append(ids, c.ID)
	}
	present, problems, err := o.Workshop.Judge(ctx, doc, ids...)
	if err != nil {
		return Result{}, err
	}
	if len(problems) > 0 {
		return Result{}, sizing.Unbuildable(problems)
	}
	s, err := newStudy(doc, o)
	if err != nil {
		return Result{}, err
	}
	samples, err := s.run(ctx)
	if err != nil {
		return Result{}, err
	}
	return s.result(present, samples), nil
}

// study is a design with what is drawn of it.
type study struct {
	Options
	press      press
	properties []Property
	points     [][]float64 // a row a sample, a column a property
}

func newStudy(doc *design.Document, o Options) (study, error) {
	p, err := newPress(doc)
	if err != nil {
		return study{}, err
	}
	list := properties(doc)
	return study{Options: o, press: p, properties: list, points: Hypercube(o.Samples, len(list), o.Seed)}, nil
}

// run judges every sample.
func (s study) run(ctx context.Context) ([]sampled, error) {
	workers := s.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	out, errs := make([]sampled, len(s.points)), make([]error, len(s.points))
	var mutex sync.Mutex
	var group sync.WaitGroup
	next, done := 0, 0
	for range min(workers, len(s.points)) {
		group.Go(func() {
			for {
				mutex.Lock()
				i := next
				next++
				mutex.Unlock()
				if i >= len(s.points) || ctx.Err() != nil {
					return
				}
				out[i], errs[i] = s.judge(s.points[i])
				mutex.Lock()
				if done++; s.Progress != nil {
					s.Progress(done, len(s.points))
				}
				mutex.Unlock()
			}
		})
	}
	group.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("sample %d: %w", i+1, err)
		}
	}
	return out, nil
}

// judge judges the design that a point stands for.
func (s study) judge(point []float64) (sampled, error) {
	l := s.press.lot()
	for k, p := range s.properties {
		p.draw(&l, point[k])
	}
	doc, err := s.press.document(l)
	if err != nil {
		return sampled{}, err
	}
	verdicts, problems, err := s.Workshop.Try(doc, review.Lot{Yield: l.yield})
	if err != nil {
		return sampled{}, err
	}
	if len(problems) > 0 {
		return sampled{}, sizing.Unbuildable(problems)
	}
	var out sampled
	for _, v := range verdicts {
		place := 0.0
		if v.State != review.NoData { // a check may be milder than its figure
			place = min(max(v.Figure.Place(), float64(v.State)), float64(v.State)+1)
		}
		out.places, out.states = append(out.places, place), append(out.states, v.State)
	}
	return out, nil
}

// result counts the samples.
func (s study) result(present review.Result, samples []sampled) Result {
	r := Result{Samples: len(samples), Properties: s.properties}
	n := len(samples)
	failing, troubled := make([]bool, n), make([]bool, n)
	for k, v := range present.Verdicts {
		c := Chance{Check: v.ID, Title: v.Title, Known: v.State != review.NoData, State: v.State, Figure: v.Figure}
		if c.Known {
			var count [review.NoData + 1]int
			places := make([]float64, n)
			for i, x := range samples {
				count[x.states[k]]++
				places[i] = x.places[k]
				failing[i] = failing[i] || x.states[k] == review.Fail && v.Accepted == ""
				troubled[i] = troubled[i] || x.states[k] != review.Pass && v.Accepted == ""
			}
			c.Pass, c.Marginal, c.Fail = ShareOf(count[review.Pass], n), ShareOf(count[review.Marginal], n), ShareOf(count[review.Fail], n)
			c.Influences = s.influences(places)
			slices.Sort(places)
			c.Low, c.Middle, c.High = places[n/20], places[n/2], places[n-1-n/20]
		}
		r.Chances = append(r.Chances, c)
	}
	fails, trouble := 0, 0
	for i := range n {
		if failing[i] {
			fails++
		}
		if troubled[i] {
			trouble++
		}
	}
	r.NoneFails, r.AllPass = ShareOf(n-fails, n), ShareOf(n-trouble, n)
	return r
}

// influences returns the properties whose rank correlation with the places is more than chance: three of its standard
// deviations 1/√(n-1) when there is none.
func (s study) influences(places []float64) []Influence {
	column := make([]float64, len(places))
	var list []Influence
	for k, p := range s.properties {
		for i := range column {
			column[i] = s.points[i][k]
		}
		if rank := RankCorrelation(column, places); math.Abs(rank) > 3/math.Sqrt(float64(len(places)-1)) {
			list = append(list, Influence{Property: k, Name: p.Name, Rank: rank})
		}
	}
	slices.SortStableFunc(list, func(a, b Influence) int {
		switch x, y := math.Abs(a.Rank), math.Abs(b.Rank); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return list
}
