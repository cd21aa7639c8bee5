package solid

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Shares of the tolerance: for chords of edges and, as the diagonals between
// them may span a little more, for the inside of curved faces. The rest is
// for the volume, which needs the mean error well below the largest.
const (
	chordShare = 0.4
	innerShare = 0.65
)

// hopeless is how many tolerances off the solid a mesh is not worth the gate.
const hopeless = 20

// build turns the quads into the mesh of an attempt: edges sampled once,
// every patch filled from its border. Finer chords wait for the third grid,
// unless there is none to come or all has begun again.
func (m *maker) build(a *attempt, q *quads, round int) {
	asked := a.finer
	m.fit = make([]float64, len(m.p.sites))
	for i := range m.fit {
		m.fit[i] = 1
	}
	for range mostTight {
		m.fill(a, q)
		if a.mesh != nil || m.ctx.Err() != nil || !m.eager && round <= 2 && len(a.finer) > 0 || !m.tighten(a) {
			return
		}
		*a = attempt{spacing: a.spacing, bricks: a.bricks, moved: a.moved, finer: asked}
	}
	m.fill(a, q)
}

// mostTight is how often faces that run through one another are made finer on
// one grid, by how much each time, and what share of the tolerance is enough.
const (
	mostTight = 3
	tighter   = 0.35
	tightest  = 0.01
)

// tighten asks for a closer fit of the faces whose borders run through one
// another, and of the curved ones at the crossings and folds of a mesh: between
// faces at a flat angle the chords of one may run through the other. It
// reports whether there are any to gain by.
func (m *maker) tighten(a *attempt) bool {
	gained := false
	done := map[int32]bool{}
	tighten := func(n int32) {
		if !done[n] && m.fit[n] > tightest {
			m.fit[n] *= tighter
			done[n], gained = true, true
		}
	}
	for _, l := range a.blocked {
		tighten(l / 2)
	}
	if a.candidate == nil {
		return gained
	}
	r := a.candidate.Rounded()
	for _, p := range slices.Concat(a.defects.Folded, a.defects.Crossing) {
		for _, i := range p {
			t := r.Triangles[i]
			x := r3.Scale(1.0/3, r3.Add(r3.Add(r.Vertices[t[0]], r.Vertices[t[1]]), r.Vertices[t[2]]))
			if _, l := m.p.root.eval(x); !m.p.sites[l/2].flat() {
				tighten(l / 2)
			}
		}
	}
	return gained
}

// fitOf returns the share of the tolerance that a chain between faces, or the
// inside of one, may take of its own share.
func (m *maker) fitOf(labels ...int32) float64 {
	f := 1.0
	for _, l := range labels {
		f = min(f, m.fit[l/2])
	}
	return f
}

func (m *maker) fill(a *attempt, q *quads) {
	s := q.place(m.ctx, m.p, m.o.Workers, nearShare*m.o.Tolerance, &m.evaluations)
	if m.ctx.Err() != nil {
		return
	}
	m.tick(0.65)
	patches := q.patches()
	s.absorb(&patches, m)
	b := s.border()
	for v, ok := range s.ok {
		if !ok && b.corner[v] >= 0 {
			a.unresolved++
			a.finer = append(a.finer, s.closer(int32(v)))
		}
	}
	least := make([]int, len(b.chains))
	for i := range b.chains {
		c := &b.chains[i]
		if c.path[0] == c.path[len(c.path)-1] {
			least[i] = 3
		}
	}
	m.tick(0.7)
	m.sample(b, least)
	m.tick(0.75)
	if m.ctx.Err() != nil {
		return
	}
	b.contract()
	// Two chords between the same corners would be one edge of four triangles.
	seen := map[[2]int32]int{}
	for i := range b.chains {
		c := &b.chains[i]
		if len(c.points) != 2 || c.gone {
			continue
		}
		p, r := b.corner[c.path[0]], b.corner[c.path[len(c.path)-1]]
		k := [2]int32{min(p, r), max(p, r)}
		if j, twice := seen[k]; twice {
			for _, n := range []int{i, j} {
				b.sample(&b.chains[n], m.fitOf(b.chains[n].labels[:]...)*chordShare*m.o.Tolerance, 2)
			}
			continue
		}
		seen[k] = i
	}
	out := &mesh.Mesh{Vertices: make([]r3.Vec, b.count)}
	for v, n := range b.corner {
		if n >= 0 {
			out.Vertices[n] = b.at[v]
		}
	}
	for i := range b.chains {
		c := &b.chains[i]
		c.first = int32(len(out.Vertices))
		out.Vertices = append(out.Vertices, c.points[1:len(c.points)-1]...)
	}
	loops := b.loops(len(patches))
	labels := make([]int32, len(patches))
	middle := make([]int32, len(patches))
	for i, d := range b.quad {
		labels[d.patch], middle[d.patch] = d.label, int32(i)
	}
	sheets := make([]*sheet, len(patches))
	failed := make([]error, len(patches))
	var filled atomic.Int64
	parallel(m.o.Workers, len(patches), func(i int) {
		if patches[i] == 0 || m.ctx.Err() != nil {
			return
		}
		defer func() { m.tick(0.75 + 0.15*float64(filled.Add(1))/float64(len(patches))) }()
		sheets[i], failed[i] = b.sheet(m.ctx, labels[i], loops[i], m.fitOf(labels[i])*innerShare*m.o.Tolerance)
	})
	if m.ctx.Err() != nil {
		return
	}
	for i, err := range failed {
		if err != nil {
			a.blocked = append(a.blocked, labels[i])
		}
	}
	var of []int32 // label of each triangle
	for i, s := range sheets {
		if failed[i] != nil {
			a.finer = append(a.finer, b.around(int32(i))...)
			a.err, a.placed = errors.New("unfinished"), b.placed
			return
		}
		if s == nil {
			continue
		}
		for k, id := range s.id {
			if id < 0 {
				s.id[k] = int32(len(out.Vertices))
				out.Vertices = append(out.Vertices, s.at[k])
			}
		}
		for _, t := range s.tri {
			out.Triangles = append(out.Triangles, [3]int32{s.id[t[0]], s.id[t[1]], s.id[t[2]]})
			of = append(of, labels[i])
		}
	}
	out, _ = m.cure(out, of)
	compact(out)
	// A mesh far off the solid has missed something: the gate can wait.
	a.reached = m.measure(out, s, &a.finer)
	m.tick(0.95)
	if a.reached > hopeless*m.o.Tolerance {
		a.err, a.placed, a.candidate = errors.New("unfinished"), s, out
		return
	}
	if !m.accept(a, out, s) {
		a.finer = append(a.finer, m.atDefects(a, out, s)...)
		a.placed, a.candidate = s, out
	}
}

func (m *maker) sample(b *border, least []int) {
	parallel(m.o.Workers, len(b.chains), func(i int) {
		if m.ctx.Err() == nil {
			c := &b.chains[i]
			b.sample(c, m.fitOf(c.labels[:]...)*chordShare*m.o.Tolerance, max(1, least[i]))
		}
	})
}

// accept takes the mesh of an attempt if it encloses what its quads do and
// passes the gate.
func (m *maker) accept(a *attempt, out *mesh.Mesh, s *placed) bool {
	if v, slack := s.volume(); math.Abs(out.Volume()-v) > slack {
		a.err = fmt.Errorf("the mesh encloses %.4g mm³ where the solid has %.4g", out.Volume(), v)
		return false
	}
	return m.gate(a, out)
}

// gate takes the mesh if it passes the gate of package mesh.
func (m *maker) gate(a *attempt, out *mesh.Mesh) bool {
	r := out.Rounded()
	a.defects = r.Inspect(mesh.Options{MostCrossings: 20})
	if !a.defects.None() || len(r.Triangles) == 0 {
		_, a.err = mesh.Gate(out)
		return false
	}
	a.mesh, a.err, a.raw = r, nil, false
	return true
}

// measure finds how far a mesh strays from the solid at vertices and at the
// middles of edges and triangles, and asks for a finer grid where that is
// more than the tolerance.
func (m *maker) measure(out *mesh.Mesh, s *placed, finer *[]request) float64 {
	worst := m.each(out, func(x r3.Vec, near *[3]int) float64 {
		*near = s.g.cellOf(x, *near)
		return math.Abs(s.value(x, *near))
	})
	reached := 0.0
	for k, w := range worst {
		reached = max(reached, w)
		if w > m.o.Tolerance {
			t := out.Triangles[k]
			*finer = append(*finer, s.g.finerAt(r3.Scale(1.0/3, r3.Add(r3.Add(out.Vertices[t[0]], out.Vertices[t[1]]), out.Vertices[t[2]]))))
		}
	}
	return reached
}

// strays finds how far a mesh strays from the solid as it was given, before
// faces were made one.
func (m *maker) strays(out *mesh.Mesh) float64 {
	p := compile(m.solid, m.wider)
	return slices.Max(m.each(out, func(x r3.Vec, _ *[3]int) float64 {
		v, _ := p.root.eval(x)
		return math.Abs(v)
	}))
}

// each returns for every triangle of a mesh the largest of what strays tells
// of its vertices and of the middles of its edges and itself.
func (m *maker) each(out *mesh.Mesh, strays func(x r3.Vec, near *[3]int) float64) []float64 {
	const share = 256
	each := func(n int, work func(i int, near *[3]int)) {
		parallel(m.o.Workers, (n+share-1)/share, func(k int) {
			var near [3]int
			for i := k * share; i < min(n, (k+1)*share) && m.ctx.Err() == nil; i++ {
				work(i, &near)
			}
		})
	}
	vertex := make([]float64, len(out.Vertices))
	each(len(vertex), func(i int, near *[3]int) { vertex[i] = strays(out.Vertices[i], near) })
	worst := make([]float64, len(out.Triangles))
	each(len(worst), func(i int, near *[3]int) {
		t := out.Triangles[i]
		x, y, z := out.Vertices[t[0]], out.Vertices[t[1]], out.Vertices[t[2]]
		w := max(vertex[t[0]], vertex[t[1]], vertex[t[2]], strays(r3.Scale(1.0/3, r3.Add(r3.Add(x, y), z)), near))
		for k, p := range t {
			if q := t[(k+1)%3]; p < q { // the triangle beside has the same edge
				w = max(w, strays(r3.Scale(0.5, r3.Add(out.Vertices[p], out.Vertices[q])), near))
			}
		}
		worst[i] = w
	})
	m.evaluations.Add(int64(len(vertex) + 5*len(worst)/2))
	return worst
}

// closerShare is the share of the spacing that is asked for at a vertex that
// found no place: half of it is often not enough.
const closerShare = 0.35

// closer asks for a closer spacing at a vertex.
func (s *placed) closer(v int32) request {
	c := s.cell[v]
	i := [3]int{int(c[0]), int(c[1]), int(c[2])}
	lo, hi := s.g.corner(i), s.g.corner([3]int{i[0] + 1, i[1] + 1, i[2] + 1})
	return request{r3.Box{Min: lo, Max: hi}, r3.Scale(closerShare, r3.Sub(hi, lo))}
}

// finerAt asks for half the spacing at a point.
func (g *grid) finerAt(x r3.Vec) request {
	var lo, hi [3]float64
	for a, c := range components(x) {
		at := g.at[a]
		i := 0
		for i < len(at)-2 && at[i+1] <= c {
			i++
		}
		lo[a], hi[a] = at[i], at[i+1]
	}
	return request{r3.Box{Min: vector(lo), Max: vector(hi)}, r3.Scale(0.5, r3.Sub(vector(hi), vector(lo)))}
}

// around asks for a finer grid along a patch where its vertices found no
// place, or all along it where they all did.
func (b *border) around(patch int32) []request {
	var all, astray []request
	for v := range b.cell {
		if !b.edge[v] {
			continue
		}
		for _, l := range b.round(int32(v)) {
			if b.quad[l>>2].patch != patch {
				continue
			}
			r := b.closer(int32(v))
			if all = append(all, r); !b.ok[v] {
				astray = append(astray, r)
			}
			break
		}
	}
	if len(astray) > 0 {
		return astray
	}
	return all
}

// atDefects asks for a finer grid at the defects of a mesh.
func (m *maker) atDefects(a *attempt, out *mesh.Mesh, s *placed) []request {
	r := out.Rounded()
	var all []request
	triangle := func(i int) {
		t := r.Triangles[i]
		for _, k := range t {
			all = append(all, s.g.finerAt(r.Vertices[k]))
		}
	}
	d := a.defects
	for _, i := range append(append([]int{}, d.Flat...), d.Duplicate...) {
		triangle(i)
	}
	for _, p := range append(append([][2]int{}, d.Folded...), d.Crossing...) {
		triangle(p[0])
		triangle(p[1])
	}
	for _, list := range [][]mesh.Edge{d.Boundary, d.NonManifold, d.Misoriented} {
		for _, e := range list {
			all = append(all, s.g.finerAt(r.Vertices[e[0]]), s.g.finerAt(r.Vertices[e[1]]))
		}
	}
	for _, v := range d.Pinched {
		all = append(all, s.g.finerAt(r.Vertices[v]))
	}
	return all
}

// compact drops the vertices that no triangle uses.
func compact(m *mesh.Mesh) {
	number := make([]int32, len(m.Vertices))
	for _, t := range m.Triangles {
		for _, v := range t {
			number[v] = 1
		}
	}
	n := int32(0)
	for v, used := range number {
		if used == 1 {
			m.Vertices[n] = m.Vertices[v]
			number[v] = n
			n++
		}
	}
	m.Vertices = m.Vertices[:n]
	for i, t := range m.Triangles {
		m.Triangles[i] = [3]int32{number[t[0]], number[t[1]], number[t[2]]}
	}
}
