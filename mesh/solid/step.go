package solid

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// level is a flat face of a leaf where the leaf's box lies.
type level struct {
	n    r3.Vec
	d    float64
	site int32
	box  r3.Box
}

// along returns where the face crosses the four edges of a box that run along
// an axis.
func (l *level) along(axis int, b r3.Box) (at [4]float64) {
	n := components(l.n)
	lo, hi := components(b.Min), components(b.Max)
	u, v := (axis+1)%3, (axis+2)%3
	for i := range at {
		p := [2]float64{lo[u], lo[v]}
		if i&1 == 1 {
			p[0] = hi[u]
		}
		if i&2 == 2 {
			p[1] = hi[v]
		}
		at[i] = (l.d - n[u]*p[0] - n[v]*p[1]) / n[axis]
	}
	return at
}

// parallel faces have normals closer than this cosine: 6 degrees.
const parallelCosine = 0.995

// requests asks for the grid planes that show every face as far as that can
// be told beforehand: what the leaves ask for and what two of them together
// need. The coarse spacing stands everywhere; faces count as meeting within
// near mm.
func (p *program) requests(part r3.Box, coarse, near float64) []request {
	asked := slices.Concat(p.boxed, p.ledges(coarse), p.walls(coarse), p.shores(coarse, near), p.spurs(coarse))
	return p.steps(part, coarse, asked)
}

// steps adds requests for grid planes between flat faces that lie a little
// apart one behind the other, as the seat of a screw's head just under a
// plate's top: no leaf alone knows of such a step.
func (p *program) steps(part r3.Box, coarse float64, asked []request) []request {
	type step struct {
		request
		a, b *level
	}
	levels := make([]level, len(p.levels))
	for i, l := range p.levels {
		levels[i] = l
		levels[i].box = clipped(l.box, part)
	}
	var found []step
	for i := range levels {
		a := &levels[i]
		axis, c := steepest(a.n)
		if c < parallelCosine {
			continue
		}
		for j := range levels[:i] {
			b := &levels[j]
			if a.site == b.site || math.Abs(r3.Dot(a.n, b.n)) < parallelCosine {
				continue
			}
			if r, ok := between(a, b, axis, coarse); ok {
				found = append(found, step{r, a, b})
			}
		}
	}
	for i := range levels {
		a := &levels[i]
		axis, c := steepest(a.n)
		if c < parallelCosine {
			continue
		}
		for k := range p.bars {
			if r, ok := p.bars[k].dips(a, axis, part, coarse); ok {
				found = append(found, step{r, a, a})
			}
		}
	}
	var pieces arena
	for i := range found {
		f := &found[i]
		axis, _ := steepest(f.a.n)
		if !covered(asked, axis, f.request) && f.a.shows(&pieces, p.root, axis, f.box) && f.b.shows(&pieces, p.root, axis, f.box) {
			asked = append(asked, f.request)
		}
	}
	return asked
}

// covered reports whether planes across an axis as close as a request's are
// asked for already.
func covered(asked []request, axis int, r request) bool {
	lo, hi, size := components(r.box.Min)[axis], components(r.box.Max)[axis], components(r.size)[axis]
	for _, a := range asked {
		if components(a.size)[axis] <= size && components(a.box.Min)[axis] <= lo && components(a.box.Max)[axis] >= hi {
			return true
		}
	}
	return false
}

// between asks for planes across an axis between two faces nearly square to
// it, if they lie closer than the coarse grid shows.
func between(a, b *level, axis int, coarse float64) (request, bool) {
	box, ok := common(a.box, b.box, coarse/2/cellsPerWidth)
	if !ok {
		return request{}, false
	}
	u, v := a.along(axis, box), b.along(axis, box)
	gap, widest := math.Inf(1), 0.0
	for i := range u {
		if (u[i] > v[i]) != (u[0] > v[0]) { // they cross: the edge shows
			return request{}, false
		}
		gap, widest = min(gap, math.Abs(u[i]-v[i])), max(widest, math.Abs(u[i]-v[i]))
	}
	if widest > 2*gap { // a wedge
		return request{}, false
	}
	size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	size[axis] = cellsPerWidth * gap
	if box, ok = common(a.box, b.box, 2*gap); size[axis] < finest/4 || size[axis] > coarse/2 || !ok {
		return request{}, false
	}
	lo, hi := components(box.Min), components(box.Max)
	lo[axis], hi[axis] = math.Inf(1), math.Inf(-1)
	for i := range u {
		lo[axis], hi[axis] = min(lo[axis], u[i], v[i]), max(hi[axis], u[i], v[i])
	}
	return request{r3.Box{Min: vector(lo), Max: vector(hi)}, vector(size)}, true
}

// dips asks for planes across an axis between a flat face nearly square to it
// and the farthest line of a bar's corners beyond it, as in the seat of a
// screw's head in a round clamp: the face is as wide as a chord there.
func (b *bar) dips(l *level, axis int, part r3.Box, coarse float64) (request, bool) {
	n := r3.Vec{X: r3.Dot(l.n, b.pose.X), Y: r3.Dot(l.n, b.pose.Y), Z: r3.Dot(l.n, b.pose.Z)}
	if b.r == 0 || b.dr != 0 || math.Abs(n.Z) > 1e-6 {
		return request{}, false
	}
	middle, reach := r3.Dot(l.n, b.pose.At)-l.d, b.x*math.Abs(n.X)+b.y*math.Abs(n.Y)+b.r
	gap, side := reach-middle, -1.0
	if middle < 0 {
		gap, side = reach+middle, 1
	}
	size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	size[axis] = cellsPerWidth * gap
	box, ok := common(l.box, clipped(b.frame.box, part), gap)
	if gap < finest/2 || size[axis] > coarse/2 || !ok {
		return request{}, false
	}
	lo, hi := components(box.Min), components(box.Max)
	at := l.along(axis, box)[0]
	beyond := at + side*math.Copysign(gap, components(l.n)[axis])
	lo[axis], hi[axis] = min(at, beyond), max(at, beyond)
	return request{r3.Box{Min: vector(lo), Max: vector(hi)}, vector(size)}, true
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

// leastShown is the radius in mm of the pieces in whose middle a face is
// looked for. What is missed there asks for finer cells later.
const leastShown = 1.0

// has reports whether a program still holds a face of a surface.
func (c *code) has(site int32) bool {
	if c.op != primitive {
		return slices.ContainsFunc(c.kids, func(k *code) bool { return k.has(site) })
	}
	switch l := c.leaf.(type) {
	case *end:
		return c.labels[l.face]/2 == site
	case *taperWall:
		if l.only != anywhere {
			return c.labels[l.face]/2 == site
		}
	}
	return slices.Contains(c.labels, 2*site)
}

// shows reports whether the face comes to the surface anywhere in a box.
func (l *level) shows(pieces *arena, c *code, axis int, box r3.Box) bool {
	at := l.along(axis, box)
	lo, hi := components(box.Min), components(box.Max)
	lo[axis], hi[axis] = min(at[0], at[1], at[2], at[3]), max(at[0], at[1], at[2], at[3])
	b := newBlock(vector(lo), vector(hi))
	near, _ := c.near(pieces, &b)
	if near == nil || !near.has(l.site) {
		return false
	}
	middle := components(b.middle)
	middle[axis] = (at[0] + at[1] + at[2] + at[3]) / 4
	if v, k := near.eval(vector(middle)); math.Abs(v) < 1e-9 && k/2 == l.site {
		return true
	}
	if b.radius < leastShown {
		return false
	}
	long := (axis + 1) % 3
	if other := (axis + 2) % 3; hi[other]-lo[other] > hi[long]-lo[long] {
		long = other
	}
	below, above := hi, lo
	below[long], above[long] = (lo[long]+hi[long])/2, (lo[long]+hi[long])/2
	return l.shows(pieces, near, axis, r3.Box{Min: vector(lo), Max: vector(below)}) ||
		l.shows(pieces, near, axis, r3.Box{Min: vector(above), Max: vector(hi)})
}
