package solid

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Options steers Polygonise. The zero value is for printing.
type Options struct {
	// Tolerance in mm is how far the mesh may stray from the solid. 0 means
	// 0.01, for printing; 0.1 is quick, for a preview. At least 0.0005.
	Tolerance float64
	// Workers is how many processors to use. 0 means all. It does not change
	// the mesh.
	Workers int
	// Progress, where set, is called with the work done so far, from any
	// goroutine but one at a time.
	Progress func(done, total int)
}

// Report tells what Polygonise did.
type Report struct {
	Triangles   int
	Volume      float64 // mm³, of the mesh
	Genus       int     // handles of all pieces
	Pieces      int     // closed surfaces, cavities included
	Tolerance   float64 // mm, the farthest a vertex, edge middle or triangle middle was found from the solid
	Spacing     float64 // mm, the closest grid planes
	Rounds      int     // grids used; more than one where faces were finer than foreseen
	Evaluations int64   // of the solid
	Unresolved  int     // edge points that found no exact place
	Coarse      bool    // simplification failed the gate: the mesh is the grid's own
}

const (
	leastTolerance = 0.0005
	mostRounds     = 6
	mostThin       = 3      // rounds in which thin walls alone ask for another
	mostBricks     = 200000 // about 300 MB
	enoughBricks   = 80000  // no finer grid after one of so many
	largest        = 2000   // mm, of a part
)

// Polygonise returns a closed two-manifold mesh of n that has passed the gate
// of package mesh: outward, without folds or crossings, its edges exact and
// its curved faces within the tolerance. The same solid and tolerance give
// the same mesh on any number of workers. An error names the feature and
// what would help. It returns the context's error soon after that ends.
func Polygonise(ctx context.Context, n Node, o Options) (*mesh.Mesh, Report, error) {
	if o.Tolerance == 0 {
		o.Tolerance = 0.01
	}
	if !(o.Tolerance >= leastTolerance) || math.IsInf(o.Tolerance, 0) {
		return nil, Report{}, fmt.Errorf("tolerance %g mm; use %g mm or more", o.Tolerance, leastTolerance)
	}
	if err := n.Err(); err != nil {
		return nil, Report{}, err
	}
	if n.t == nil {
		return nil, Report{}, errors.New("the solid is empty; unite at least one body")
	}
	box := n.Bounds()
	size := r3.Sub(box.Max, box.Min)
	if math.IsInf(size.X, 0) || math.IsInf(size.Y, 0) || math.IsInf(size.Z, 0) {
		return nil, Report{}, errors.New("the solid has no end; intersect the half-space with a body")
	}
	if !(size.X > 0 && size.Y > 0 && size.Z > 0) {
		return nil, Report{}, errors.New("the solid is empty; its bodies do not meet")
	}
	longest := max(size.X, size.Y, size.Z)
	if longest > largest || longest < 10*finest {
		return nil, Report{}, fmt.Errorf("the solid is %.4g mm long; parts from %g to %d mm can be made: check the unit", longest, 10*finest, largest)
	}
	m := maker{ctx: ctx, o: o, p: compile(n.t), box: box, longest: longest}
	return m.run()
}

type maker struct {
	ctx         context.Context
	o           Options
	p           *program
	box         r3.Box
	longest     float64
	evaluations atomic.Int64
	ticks       ticker
	report      Report
}

func (m *maker) run() (*mesh.Mesh, Report, error) {
	m.ticks.call = m.o.Progress
	asked := m.o.Tolerance
	best, err := m.refine()
	// Where faces run into one another at too flat an angle for the tolerance,
	// a larger one may still join them.
	for _, times := range []float64{4, 16} {
		m.o.Tolerance = times * asked
		if err != nil || best.err == nil && best.reached <= m.o.Tolerance || best.err != nil && best.placed == nil {
			break
		}
		if looser, err := m.refine(); err == nil && looser.err == nil && looser.reached <= m.o.Tolerance {
			best = looser
		}
	}
	m.o.Tolerance = asked
	if err == nil && best.err != nil && best.placed != nil {
		m.keepRaw(best)
	}
	if m.ctx.Err() != nil {
		err = m.ctx.Err()
	}
	if err == nil {
		err = best.err
	}
	if err != nil {
		return nil, Report{}, err
	}
	r := m.report
	r.Triangles = len(best.mesh.Triangles)
	r.Tolerance, r.Spacing, r.Unresolved = best.reached, best.spacing, best.unresolved
	r.Genus, r.Pieces, r.Coarse = best.defects.Genus, best.defects.Components, best.raw
	r.Volume = best.mesh.Volume()
	r.Evaluations = m.evaluations.Load()
	m.ticks.tick(1, 1)
	return best.mesh, r, nil
}

// refine makes the mesh on finer and finer grids, until one shows every face,
// and returns the best.
func (m *maker) refine() (*attempt, error) {
	asked := m.p.boxed
	coarse := m.longest / 24
	if m.longest > 24 {
		coarse = max(1, min(m.longest/36, 1.7))
	}
	asked = append(asked[:len(asked):len(asked)], m.p.steps(coarse)...)
	var best *attempt
	for round := 1; ; round++ {
		m.report.Rounds++
		a, err := m.try(asked, coarse, round)
		if err != nil && (best == nil || m.ctx.Err() != nil) {
			return nil, err
		}
		if err != nil { // the finer grid is out of reach: keep what there was
			return best, nil
		}
		if best == nil || a.better(best) {
			best = a
		}
		if a.good(m.o.Tolerance) || len(a.finer) == 0 || round == mostRounds || a.bricks > enoughBricks {
			return best, nil
		}
		for _, r := range a.finer {
			if a.thin || min(r.size.X, r.size.Y, r.size.Z) > finest {
				asked = append(asked, r)
			}
		}
	}
}

// attempt is the mesh from one grid.
type attempt struct {
	mesh       *mesh.Mesh
	defects    mesh.Defects
	err        error
	raw        bool
	reached    float64
	spacing    float64
	bricks     int
	unresolved int
	thin       bool // a wall or gap was seen that the grid may have missed
	finer      []request
	placed     *placed    // where the mesh failed
	candidate  *mesh.Mesh // not shown to the gate yet
}

// good reports whether nothing is left to wish for.
func (a *attempt) good(tolerance float64) bool {
	return a.mesh != nil && !a.raw && !a.thin && a.reached <= tolerance
}

func (a *attempt) better(b *attempt) bool {
	switch {
	case (a.err == nil) != (b.err == nil):
		return a.err == nil
	case a.err != nil:
		return a.unresolved < b.unresolved
	case a.thin != b.thin:
		return !a.thin
	case a.raw != b.raw:
		return !a.raw
	}
	return a.reached < b.reached
}

// try makes the mesh on the grid that the requests ask for, and asks for a
// finer one where the surface shows what the grid did not resolve.
func (m *maker) try(asked []request, coarse float64, round int) (*attempt, error) {
	g, narrow := newGrid(m.box, coarse, asked)
	if narrow != nil {
		c := r3.Scale(0.5, r3.Add(narrow.box.Min, narrow.box.Max))
		return nil, fmt.Errorf("%s: too thin for a part %.4g mm long, it would need cells of %.3g mm; make it thicker or the part smaller",
			m.nearest(c), m.longest, min(narrow.size.X, narrow.size.Y, narrow.size.Z))
	}
	bricks, narrower, err := m.p.samples(m.ctx, g, m.o.Workers, mostBricks, &m.evaluations, m.ticks.part(m.report.Rounds-1))
	if err == errTooManyCells {
		c, s := m.smallest(asked)
		return nil, fmt.Errorf("%s: cells of %.3g mm over a part of %.4g mm take too much memory; make the feature thicker or the part smaller", m.nearest(c), s, m.longest)
	}
	if err != nil {
		return nil, err
	}
	a := &attempt{spacing: math.Inf(1), bricks: len(bricks)}
	for _, at := range g.at {
		for i := 1; i < len(at); i++ {
			a.spacing = min(a.spacing, at[i]-at[i-1])
		}
	}
	a.finer = narrower
	a.thin = len(a.finer) > 0 && round <= mostThin
	if len(bricks) == 0 {
		a.err = errors.New("the solid is empty: nothing of it is thicker than the finest cell; check that the cutters leave something")
		if len(a.finer) == 0 && round == 1 { // look closer once
			s := coarse / 4
			a.finer = []request{{m.box, r3.Vec{X: s, Y: s, Z: s}}}
		}
		return a, nil
	}
	q, err := newQuads(g, bricks, m.o.Workers)
	if err != nil {
		return nil, err
	}
	if m.ctx.Err() != nil {
		return nil, m.ctx.Err()
	}
	m.build(a, q)
	return a, m.ctx.Err()
}

func (m *maker) smallest(asked []request) (r3.Vec, float64) {
	best, at := math.Inf(1), r3.Vec{}
	for _, r := range asked {
		if s := min(r.size.X, r.size.Y, r.size.Z); s < best {
			best, at = s, r3.Scale(0.5, r3.Add(r.box.Min, r.box.Max))
		}
	}
	return at, best
}

// nearest names the face nearest to a point.
func (m *maker) nearest(x r3.Vec) string {
	_, l := m.p.root.eval(x)
	return fmt.Sprintf("%s near (%.4g, %.4g, %.4g) mm", m.p.sites[l/2].name, x.X, x.Y, x.Z)
}

// ticker passes progress on, one call at a time and never backwards.
type ticker struct {
	call func(done, total int)
	busy atomic.Bool
	most int
}

const tickTotal = 1000

func (t *ticker) tick(done, total int) {
	if t.call == nil || !t.busy.CompareAndSwap(false, true) {
		return
	}
	defer t.busy.Store(false)
	if n := done * tickTotal / total; n > t.most {
		t.most = n
		t.call(n, tickTotal)
	}
}

// part returns a ticker for one of the rounds: each takes half of what is left.
func (t *ticker) part(round int) func(done, total int) {
	before := 1 - math.Pow(0.5, float64(round))
	share := math.Pow(0.5, float64(round+1))
	return func(done, total int) {
		t.tick(int(1e6*(before+share*0.7*float64(done)/float64(total))), 1e6)
	}
}
