package solid

import (
	"context"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Options steers Polygonise. The zero value is for printing.
type Options struct {
	// Tolerance in mm is how far the mesh may stray from the solid. 0 means
	// 0.01, for printing; 0.1 is quick, for a preview. At least 0.0005.
	Tolerance float64
	// FullHoles makes the chords of round holes touch the circle from outside
	// where they otherwise lie inside: every cylinder or cone that cuts is as
	// much wider as chords can take away.
	FullHoles bool
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
	enoughBricks   = 150000 // of the grids from one start: no finer one after so many
	enoughInAll    = 450000 // of all grids: no other start after so many
	rawBricks      = 20000  // some 700000 triangles, should the grid's own be kept
	otherGrid      = 0.73   // of the spacing, where a grid failed
	farthestFlush  = 0.05   // mm of tolerance beyond which no faces are made one for want of a mesh
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
	m := maker{ctx: ctx, o: o, solid: n.t, box: box, longest: longest}
	m.ticks.call = o.Progress
	type outcome struct {
		mesh   *mesh.Mesh
		report Report
		err    error
	}
	done := make(chan outcome, 1)
	go func() {
		m, r, err := m.run()
		done <- outcome{m, r, err}
	}()
	select {
	case <-ctx.Done(): // what still runs stops at its next look at the context
		m.ticks.stop()
		return nil, Report{}, ctx.Err()
	case o := <-done:
		return o.mesh, o.report, o.err
	}
}
