package solid

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
)

// Extrude carries outlines of lines and arcs in the xy plane from z = 0 to
// z = height. Loops may run either way round.
func Extrude(height float64, outlines ...outline.Outline) Node {
	if !finite(height) || height <= 0 {
		return invalid("extrusion by %g mm; use a height above 0", height)
	}
	var all []Node
	for _, o := range outlines {
		e := &extrusion{h: height}
		for i, l := range append([]outline.Loop{o.Outer}, o.Holes...) {
			if err := e.add(l, i > 0); err != nil {
				return invalid("outline loop %d: %w", i, err)
			}
		}
		all = append(all, newLeaf(e))
	}
	return Union(all...)
}

// extrusion keeps its edges with the material on the left. Its faces are the
// edges in order, then bottom and top.
type extrusion struct {
	edges []*edge
	h     float64
	total int // edges of the whole extrusion; edges may hold only those near a place
}

func (e *extrusion) add(l outline.Loop, hole bool) error {
	var loop outline.Loop
	for i, v := range l {
		if !finite(v.X, v.Y, v.Bulge) {
			return fmt.Errorf("vertex %d is (%g, %g) with bulge %g; use finite numbers", i, v.X, v.Y, v.Bulge)
		}
		w := l[(i+1)%len(l)]
		if math.Hypot(w.X-v.X, w.Y-v.Y) > 1e-9 {
			loop = append(loop, v)
		}
	}
	area := 0.0
	for i, v := range loop {
		w := loop[(i+1)%len(loop)]
		area += v.X*w.Y - w.X*v.Y
		if v.Bulge != 0 {
			turn := 4 * math.Atan(v.Bulge)
			r := math.Hypot(w.X-v.X, w.Y-v.Y) / 2 / math.Sin(turn/2)
			area += r * r * (turn - math.Sin(turn))
		}
	}
	if len(loop) < 2 || math.Abs(area) < 1e-12 {
		return fmt.Errorf("%d vertices enclose no area; use at least three corners, or two joined by arcs", len(l))
	}
	if (area < 0) != hole { // turn it round
		back := make(outline.Loop, len(loop))
		for i := range loop {
			back[i] = loop[len(loop)-1-i]
			back[i].Bulge = -loop[(2*len(loop)-2-i)%len(loop)].Bulge
		}
		loop = back
	}
	start := len(e.edges)
	for i, v := range loop {
		for _, g := range edgesOf(v, loop[(i+1)%len(loop)]) {
			e.edges = append(e.edges, &g)
		}
	}
	n := len(e.edges) - start
	for i := range n {
		a, b := e.edges[start+i], e.edges[start+(i+1)%n]
		ux, uy := a.tangent(a.bx, a.by)
		vx, vy := b.tangent(b.ax, b.ay)
		a.b = jointOf(ux, uy, vx, vy)
		b.a = a.b
		a.index, a.next, b.previous = start+i, start+(i+1)%n, start+i
	}
	e.total = len(e.edges)
	return nil
}

func (e *extrusion) value(p r3.Vec) (float64, int) {
	best, in, f := math.Inf(1), false, 0
	for i := range e.edges {
		if d, inside := e.edges[i].distance(p.X, p.Y); d < best {
			best, in, f = d, inside, e.edges[i].index
		}
	}
	v := math.Sqrt(best)
	if in {
		v = -v
	}
	if -p.Z > v {
		v, f = -p.Z, e.total
	}
	if p.Z-e.h > v {
		v, f = p.Z-e.h, e.total+1
	}
	return v, f
}

// prune returns the extrusion with only those edges that can be the nearest
// of some point of a block, or only an end where no edge matters.
func (e *extrusion) prune(b block, _ float64) leaf {
	var room [64]float64
	d := room[:0]
	best, in := math.Inf(1), false
	for _, g := range e.edges {
		d2, inside := g.distance(b.middle.X, b.middle.Y)
		d = append(d, math.Sqrt(d2))
		if l := d[len(d)-1]; l < best {
			best, in = l, inside
		}
	}
	wall := best
	if in {
		wall = -best
	}
	level := math.Hypot(b.half.X, b.half.Y)
	if l := endOnly(e, wall, level, e.h, b, e.total); l != nil {
		return l.inReach(b)
	}
	most, n := best+2.001*level, 0
	for _, l := range d {
		if l <= most {
			n++
		}
	}
	if n == len(e.edges) {
		return e
	}
	kept := &extrusion{h: e.h, total: e.total, edges: make([]*edge, 0, n)}
	for i, g := range e.edges {
		if d[i] <= most {
			kept.edges = append(kept.edges, g)
		}
	}
	return kept
}

// end is a bar of which only one end matters: material lies on one side of a
// level.
type end struct {
	leaf
	level, sign float64
	face        int
}

func (e *end) value(p r3.Vec) (float64, int) { return e.sign * (p.Z - e.level), e.face }

func (e *end) prune(b block, _ float64) leaf { return e.inReach(b) }

func (e *end) inReach(b block) leaf {
	if math.Abs(b.middle.Z-e.level) > b.half.Z {
		return nil
	}
	return e
}

// endOnly returns the end of a bar from z = 0 to h that alone matters in a
// block, if one does. The bar's wall has the given value in the middle, which
// changes by at most so much. The faces of the ends are bottom and bottom + 1.
func endOnly(bar leaf, wall, change, h float64, b block, bottom int) *end {
	switch z := b.middle.Z; {
	case -z > max(wall+change, z-h+b.half.Z)+b.half.Z:
		return &end{bar, 0, -1, bottom}
	case z-h > max(wall+change, -z+b.half.Z)+b.half.Z:
		return &end{bar, h, 1, bottom + 1}
	}
	return nil
}

func (e *extrusion) faces() []face {
	all := make([]face, e.total+2)
	for i, g := range e.edges {
		f := &all[i]
		f.part = fmt.Sprintf("edge %d", i)
		if g.r == 0 {
			n := r3.Vec{X: g.ty, Y: -g.tx}
			f.surface = plane{n, n.X*g.ax + n.Y*g.ay}
		} else {
			f.surface = sector{cx: g.cx, cy: g.cy, r: g.r, mx: g.mx, my: g.my, widest: g.r, hollow: !g.left}
		}
		// Across the corner at b, where the next edge begins.
		h := e.edges[g.next]
		ux, uy := g.tangent(g.bx, g.by)
		vx, vy := h.tangent(h.ax, h.ay)
		t := r3.Vec{X: ux + vx, Y: uy + vy}
		if l := r3.Norm(t); l > 0.1 {
			t = r3.Scale(1/l, t)
			cut := plane{t, t.X*g.bx + t.Y*g.by}
			f.seams = append(f.seams, seam{g.next, cut})
			all[g.next].seams = append(all[g.next].seams, seam{i, cut})
		}
	}
	all[e.total] = face{surface: plane{r3.Vec{Z: -1}, 0}, part: "bottom"}
	all[e.total+1] = face{surface: plane{r3.Vec{Z: 1}, e.h}, part: "top"}
	return all
}

func (e *extrusion) box() r3.Box {
	i := math.Inf(1)
	b := r3.Box{Min: r3.Vec{X: i, Y: i}, Max: r3.Vec{X: -i, Y: -i, Z: e.h}}
	for k := range e.edges {
		g := e.edges[k].box()
		b.Min.X, b.Min.Y = min(b.Min.X, g.Min.X), min(b.Min.Y, g.Min.Y)
		b.Max.X, b.Max.Y = max(b.Max.X, g.Max.X), max(b.Max.Y, g.Max.Y)
	}
	return b
}

// requests asks for spacings across each edge's gap or web to the others,
// which is least at an end of one of the two, and along short edges.
func (e *extrusion) requests() []request {
	none := math.Inf(1)
	all := []request{{e.box(), r3.Vec{X: none, Y: none, Z: e.h * cellsPerWidth}}}
	for i := range e.edges {
		g := e.edges[i]
		s := r3.Vec{X: g.length * cellsPerArc, Y: g.length * cellsPerArc, Z: none}
		if g.r == 0 {
			s.X, s.Y = s.X/max(math.Abs(g.tx), 1e-9), s.Y/max(math.Abs(g.ty), 1e-9)
		}
		for j := range e.edges {
			if j == i || j == g.next || j == g.previous {
				continue
			}
			h := e.edges[j]
			for _, d := range [2][2]float64{g.way(h.ax, h.ay), h.way(g.ax, g.ay)} {
				l2 := d[0]*d[0] + d[1]*d[1]
				w := cellsPerWidth * math.Sqrt(l2)
				if g.r == 0 { // only across
					s.X = min(s.X, cellsPerWidth*l2/max(math.Abs(d[0]), 1e-9))
					s.Y = min(s.Y, cellsPerWidth*l2/max(math.Abs(d[1]), 1e-9))
				} else {
					s.X, s.Y = min(s.X, w), min(s.Y, w)
				}
			}
		}
		b := g.box()
		pad := r3.Vec{X: min(s.X, s.Y), Y: min(s.X, s.Y)}
		b = r3.Box{Min: r3.Sub(b.Min, pad), Max: r3.Add(b.Max, r3.Vec{X: pad.X, Y: pad.Y, Z: e.h})}
		all = append(all, request{b, s})
	}
	return all
}
