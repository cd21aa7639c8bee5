package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// level is a flat face of a leaf where the leaf's box lies.
type level struct {
	n    r3.Vec
	d    float64
	site int32
	box  r3.Box
}

// steps asks for grid planes between flat faces that lie a little apart one
// behind the other, as the seat of a screw's head just under a plate's top:
// no leaf alone knows of such a step.
func (p *program) steps(part r3.Box, coarse float64, workers int) []request {
	type step struct {
		request
		a, b int // levels
	}
	levels := make([]level, len(p.levels))
	for i, l := range p.levels {
		levels[i] = l
		levels[i].box = clipped(l.box, part)
	}
	var found []step
	asked := make([]bool, len(levels))
	for i, a := range levels {
		for j, b := range levels[:i] {
			if a.site == b.site || math.Abs(r3.Dot(a.n, b.n)) < 1-1e-9 {
				continue
			}
			gap := math.Abs(a.d - b.d*math.Copysign(1, r3.Dot(a.n, b.n)))
			axis, c := steepest(a.n)
			size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
			size[axis] = cellsPerWidth * gap
			box, ok := common(a.box, b.box, 2*gap)
			if gap < finest/2 || size[axis] > coarse/2 || c < 1-1e-9 || !ok {
				continue
			}
			lo, hi := components(box.Min), components(box.Max)
			u, v := a.d*components(a.n)[axis], b.d*components(b.n)[axis]
			lo[axis], hi[axis] = min(u, v), max(u, v)
			found = append(found, step{request{r3.Box{Min: vector(lo), Max: vector(hi)}, vector(size)}, i, j})
			asked[i], asked[j] = true, true
		}
	}
	shown := make([]bool, len(levels))
	parallel(workers, len(shown), func(i int) { shown[i] = asked[i] && levels[i].shows(p.root) })
	all := p.ledges(coarse)
	for _, s := range found {
		if shown[s.a] && shown[s.b] {
			all = append(all, s.request)
		}
	}
	return all
}

// ledges asks for grid planes in the rings between round bars about the same
// axis, as the seat of a counterbore.
func (p *program) ledges(coarse float64) []request {
	var all []request
	for i, a := range p.rounds {
		for _, b := range p.rounds[:i] {
			box, ok := common(a, b, finest)
			if !ok {
				continue
			}
			for axis := range 3 {
				lo, hi := components(a.Min)[axis]-components(b.Min)[axis], components(a.Max)[axis]-components(b.Max)[axis]
				size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
				size[axis] = cellsPerWidth * math.Abs(hi)
				if math.Abs(lo+hi) > 1e-6 || math.Abs(hi) < finest/2 || size[axis] > coarse {
					continue
				}
				for _, ends := range [2][2]r3.Vec{{a.Min, b.Min}, {a.Max, b.Max}} {
					u, v := components(ends[0])[axis], components(ends[1])[axis]
					from, to := components(box.Min), components(box.Max)
					from[axis], to[axis] = min(u, v), max(u, v)
					all = append(all, request{r3.Box{Min: vector(from), Max: vector(to)}, vector(size)})
				}
			}
		}
	}
	return all
}

// clipped returns the part of a box that lies in another. A turned
// half-space's box is not a number where it has no end.
func clipped(b, in r3.Box) r3.Box {
	lo, hi := components(b.Min), components(b.Max)
	from, to := components(in.Min), components(in.Max)
	for a := range 3 {
		if lo[a] > from[a] {
			from[a] = min(lo[a], to[a])
		}
		if hi[a] < to[a] {
			to[a] = max(hi[a], from[a])
		}
	}
	return r3.Box{Min: vector(from), Max: vector(to)}
}

// common returns the intersection of two boxes that are grown by a margin.
func common(a, b r3.Box, margin float64) (r3.Box, bool) {
	m := r3.Vec{X: margin, Y: margin, Z: margin}
	lo := r3.Vec{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y), Z: max(a.Min.Z, b.Min.Z)}
	hi := r3.Vec{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y), Z: min(a.Max.Z, b.Max.Z)}
	lo, hi = r3.Sub(lo, m), r3.Add(hi, m)
	return r3.Box{Min: lo, Max: hi}, lo.X < hi.X && lo.Y < hi.Y && lo.Z < hi.Z
}

// shows reports whether the face comes to the surface anywhere.
func (l level) shows(c *code) bool {
	axis, _ := steepest(l.n)
	at := l.d * components(l.n)[axis]
	lo, hi := components(l.box.Min), components(l.box.Max)
	lo[axis], hi[axis] = at, at
	return shows(&arena{}, c, lo, hi, l.site)
}

// leastShown is the radius in mm of the pieces in whose middle a face is
// looked for. What is missed there asks for finer cells later.
const leastShown = 1.0

func shows(a *arena, c *code, lo, hi [3]float64, site int32) bool {
	b := newBlock(vector(lo), vector(hi))
	near, v := c.near(a, &b)
	if near == nil {
		return false
	}
	if math.Abs(v) < 1e-9 {
		if _, k := near.eval(b.middle); k/2 == site {
			return true
		}
	}
	if b.radius < leastShown {
		return false
	}
	long := 0
	for a := range 3 {
		if hi[a]-lo[a] > hi[long]-lo[long] {
			long = a
		}
	}
	below, above := hi, lo
	below[long], above[long] = (lo[long]+hi[long])/2, (lo[long]+hi[long])/2
	return shows(a, near, lo, below, site) || shows(a, near, above, hi, site)
}
