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

var errThin = errors.New("walls thinner than the grid shows")

// maker is the work on one solid.
type maker struct {
	ctx         context.Context
	o           Options
	solid       *tree
	wider       float64   // mm, of the radius of round holes
	p           *program  // of the solid, some faces made one
	fit         []float64 // by surface: the share of the tolerance it keeps
	eager       bool      // all has begun again: finer chords at once
	again       bool      // a mesh failed before
	moved       int       // of such faces
	farthest    float64   // mm, of one
	box         r3.Box
	longest     float64
	evaluations atomic.Int64
	ticks       ticker
	bricks      int // of all grids so far
	report      Report
}

func (m *maker) run() (*mesh.Mesh, Report, error) {
	asked := m.o.Tolerance
	if m.o.FullHoles {
		m.wider = innerShare * asked
	}
	best, err := m.refine(asked, 1)
	// Finer chords on the first grids may cure what finer grids did not. Where
	// faces run into one another at too flat an angle for the tolerance, a larger
	// one may still join them: first of faces that are made one, then of all.
	// What fails on one grid may be seen on another.
	for _, again := range []struct{ flush, tolerance, spacing float64 }{
		{1, 1, 1}, {4, 1, 1}, {9, 1, 1}, {1, 1, otherGrid}, {4, 4, 1}, {4, 4, otherGrid}, {16, 16, 1}, {16, 16, otherGrid},
	} {
		m.o.Tolerance = again.tolerance * asked
		if err != nil || best.err == nil && best.reached <= m.o.Tolerance || best.err != nil && best.placed == nil || m.bricks > enoughInAll {
			break
		}
		if again.spacing != 1 && best.err == nil {
			continue
		}
		flush := min(again.flush*asked, max(asked, farthestFlush))
		if _, n, _ := m.solid.flushed(flush); again.flush > again.tolerance && n == best.moved {
			continue
		}
		m.eager, m.again = true, best.err != nil
		if other, err := m.refine(flush, again.spacing); err == nil && other.err == nil && (best.err != nil && other.reached <= max(again.flush, again.tolerance)*asked || best.err == nil && other.reached < best.reached) {
			best = other
		}
	}
	m.o.Tolerance = asked
	if err == nil && best.err != nil && best.placed != nil {
		m.p = best.placed.p
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
	m.ticks.tick(1)
	return best.mesh, r, nil
}

// refine makes the mesh on finer and finer grids, until one shows every face,
// and returns the best. Faces close by the tolerance flush in mm are made one;
// the grids are wider than others by the share spacing.
func (m *maker) refine(flush, spacing float64) (*attempt, error) {
	var t *tree
	t, m.moved, m.farthest = m.solid.flushed(flush)
	m.p = compile(t, m.wider)
	best, err := m.refined(spacing)
	if err == nil && best.mesh != nil && m.moved > 0 {
		best.reached = max(m.farthest, m.strays(best.mesh))
	}
	return best, err
}

func (m *maker) refined(spacing float64) (*attempt, error) {
	coarse := m.longest / 24
	if m.longest > 24 {
		coarse = max(1, min(m.longest/36, 1.7))
	}
	coarse *= spacing
	asked := m.p.requests(m.box, coarse, nearShare*m.o.Tolerance)
	var best *attempt
	var of []request // the best was made with
	bricks := 0
	for round := 1; ; round++ {
		m.report.Rounds++
		a, err := m.try(asked, coarse, round)
		if err != nil && (best == nil || m.ctx.Err() != nil) {
			return nil, err
		}
		out := err != nil // of reach: keep what there was
		if !out && !a.thin {
			bricks += a.bricks
			m.bricks += a.bricks
		}
		if !out && (best == nil || a.better(best)) {
			best, of = a, asked
		}
		if out || a.good(m.o.Tolerance) || len(a.finer) == 0 || round == mostRounds || bricks > enoughBricks {
			if best.thin {
				return m.try(of, coarse, mostThin+1)
			}
			return best, nil
		}
		asked = asked[:len(asked):len(asked)]
		for _, r := range a.finer {
			if a.thin || min(r.size.X, r.size.Y, r.size.Z) > finest {
				asked = append(asked, r)
			}
		}
	}
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
	bricks, narrower, err := m.p.samples(m.ctx, g, m.o.Workers, mostBricks, &m.evaluations, func(done float64) { m.tick(0.6 * done) })
	if err == errTooManyCells {
		c, s := m.smallest(asked)
		return nil, fmt.Errorf("%s: cells of %.3g mm over a part of %.4g mm take too much memory; make the feature thicker or the part smaller", m.nearest(c), s, m.longest)
	}
	if err != nil {
		return nil, err
	}
	a := &attempt{spacing: math.Inf(1), moved: m.moved, bricks: len(bricks)}
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
	if a.thin { // the next grid will show more: no mesh of this one
		a.err = errThin
		return a, nil
	}
	q, err := newQuads(g, bricks, m.o.Workers)
	if err != nil {
		return nil, err
	}
	if m.ctx.Err() != nil {
		return nil, m.ctx.Err()
	}
	m.build(a, q, round)
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
