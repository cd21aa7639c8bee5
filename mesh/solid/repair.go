package solid

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// absorb gives small patches to a neighbour: those without any area, the tip
// of a face that pokes through a single grid line beside its corner, and those
// that lie nowhere farther from a larger neighbour's surface than faces count
// as meeting, the islands between two faces that run along one another, where
// the mesh failed with them.
func (s *placed) absorb(sizes *[]int32, m *maker) {
	const small = 8    // quads, without area
	const island = 512 // quads
	var t touch
	var labels []int32
	for range 4 {
		members := map[int32][]int32{}
		for i := range s.quad {
			if p := s.quad[i].patch; (*sizes)[p] <= island {
				members[p] = append(members[p], int32(i))
			}
		}
		changed := false
		for p := range int32(len(*sizes)) {
			quads := members[p]
			if len(quads) == 0 {
				continue
			}
			to, size := s.neighbour(p, quads, *sizes)
			if to < 0 || !(m.again && int(size) > len(quads) && s.hugs(quads, to)) && !(len(quads) <= small && s.bare(quads)) {
				continue
			}
			for _, q := range quads {
				s.quad[q].label = to
			}
			for _, q := range quads {
				for _, v := range s.quad[q].corner {
					m.evaluations.Add(s.settle(v, &t, &labels))
				}
			}
			changed = true
		}
		if !changed {
			return
		}
		*sizes = s.patches()
	}
}

// hugs reports whether quads lie within what counts as meeting of a face that
// looks the same way.
func (s *placed) hugs(quads []int32, label int32) bool {
	f := &s.p.sites[label/2]
	for _, q := range quads {
		d := &s.quad[q]
		v, g := f.at(d.at)
		_, n := s.p.sites[d.label/2].at(d.at)
		if math.Abs(v) > s.near || (r3.Dot(g, n) > 0) != (label&1 == d.label&1) {
			return false
		}
	}
	return true
}

// bare reports whether a patch of quads has no area.
func (s *placed) bare(quads []int32) bool {
	f := &s.p.sites[s.quad[quads[0]].label/2]
	area, scale := 0.0, 0.0
	for _, q := range quads {
		var c [4]point
		for k, v := range s.quad[q].corner {
			c[k].u, c[k].v = f.chart(s.at[v])
		}
		area += turnOf(c[0], c[1], c[2]) + turnOf(c[0], c[2], c[3])
		g := s.size(s.quad[q].corner[0])
		scale += g.X*g.Y + g.Y*g.Z + g.Z*g.X
	}
	return math.Abs(area) <= 1e-6*scale*stretch
}

// neighbour returns the label of the largest patch beside one, -1 if none, and
// how many quads that has.
func (s *placed) neighbour(p int32, quads, sizes []int32) (label, size int32) {
	label = -1
	for _, q := range quads {
		for k, v := range s.quad[q].corner {
			links := s.round(v)
			for j, l := range links {
				if l != 4*q+int32(k) {
					continue
				}
				for _, o := range []int32{links[(j+1)%len(links)] >> 2, links[(j+len(links)-1)%len(links)] >> 2} {
					if d := s.quad[o]; d.patch != p && sizes[d.patch] > size {
						size, label = sizes[d.patch], d.label
					}
				}
			}
		}
	}
	return label, size
}

// cure puts a vertex on edges that more than two triangles share, one for
// each pair, so that each pair gets an edge of its own.
func (m *maker) cure(in *mesh.Mesh, of []int32) (*mesh.Mesh, []int32) {
	if !repeated(in.Triangles) {
		return in, of
	}
	type half struct{ t, e int32 }
	halves := map[[2]int32][]half{}
	for t, c := range in.Triangles {
		for e := range 3 {
			p, q := c[(e+1)%3], c[(e+2)%3]
			k := [2]int32{min(p, q), max(p, q)}
			halves[k] = append(halves[k], half{int32(t), int32(e)})
		}
	}
	for t := 0; t < len(in.Triangles); t++ {
		for e := range 3 {
			c := in.Triangles[t]
			p, q := c[(e+1)%3], c[(e+2)%3]
			k := [2]int32{min(p, q), max(p, q)}
			all := halves[k]
			if len(all) <= 2 {
				continue
			}
			// Split the pairs that lie within one face.
			for i, h := range all {
				for _, o := range all[i+1:] {
					if of[h.t] != of[o.t] || len(halves[k]) <= 2 {
						continue
					}
					if in.Triangles[h.t][(h.e+1)%3] == in.Triangles[o.t][(o.e+1)%3] {
						continue
					}
					m.divide(in, &of, h.t, o.t, k)
					halves[k] = halves[k][:2]
				}
			}
		}
	}
	return in, of
}

// repeated reports whether two triangles run along an edge the same way, as
// some do wherever more than two share it.
func repeated(triangles [][3]int32) bool {
	all := make([]uint64, 0, 3*len(triangles))
	for _, c := range triangles {
		for e := range 3 {
			all = append(all, uint64(uint32(c[e]))<<32|uint64(uint32(c[(e+1)%3])))
		}
	}
	slices.Sort(all)
	for i := 1; i < len(all); i++ {
		if all[i] == all[i-1] {
			return true
		}
	}
	return false
}

// divide splits the edge k of triangles t and o of one face in its middle.
func (m *maker) divide(in *mesh.Mesh, of *[]int32, t, o int32, k [2]int32) {
	x := r3.Scale(0.5, r3.Add(in.Vertices[k[0]], in.Vertices[k[1]]))
	s := placed{p: m.p}
	x = s.project(x, (*of)[t])
	n := int32(len(in.Vertices))
	in.Vertices = append(in.Vertices, x)
	for _, i := range []int32{t, o} {
		c := in.Triangles[i]
		for e := range 3 {
			a, p, q := c[e], c[(e+1)%3], c[(e+2)%3]
			if min(p, q) == k[0] && max(p, q) == k[1] {
				in.Triangles[i] = [3]int32{a, p, n}
				in.Triangles = append(in.Triangles, [3]int32{a, n, q})
				*of = append(*of, (*of)[t])
				break
			}
		}
	}
}

// keepRaw makes the attempt's mesh from the quads as they are: with every
// vertex on its faces, or else, where that folds the surface, inside its cell.
func (m *maker) keepRaw(a *attempt) {
	s := a.placed
	var wish []request
	if a.candidate != nil && a.defects.None() && m.accept(a, a.candidate, s) {
		return
	}
	for _, sharp := range []bool{true, false} {
		if m.ctx.Err() != nil || m.gate(a, m.rawMesh(s, sharp)) {
			break
		}
	}
	if a.mesh != nil {
		a.raw = true
		a.reached = m.measure(a.mesh, s, &wish)
	}
}

func (m *maker) rawMesh(s *placed, sharp bool) *mesh.Mesh {
	out := &mesh.Mesh{Vertices: make([]r3.Vec, len(s.at))}
	var labels []int32
	for v := range s.at {
		links := s.round(int32(v))
		x := r3.Vec{}
		for _, l := range links {
			x = r3.Add(x, s.quad[l>>2].at)
		}
		x = r3.Scale(1/float64(len(links)), x)
		out.Vertices[v] = x
		if !sharp {
			continue
		}
		if s.edge[v] && s.ok[v] {
			x = s.at[v]
		} else {
			labels = s.labels(int32(v), labels)
			x = s.project(x, labels[0])
		}
		if length(r3.Sub(x, out.Vertices[v])) < 0.7*length(s.size(int32(v))) {
			out.Vertices[v] = x
		}
	}
	middles := s.twins(out)
	for i, d := range s.quad {
		c := d.corner
		var ring []int32
		turn := 0
		for k, v := range c {
			ring = append(ring, v)
			if m, ok := middles[[2]int32{int32(i), int32(k)}]; ok {
				turn = len(ring)
				ring = append(ring, m)
			}
		}
		if len(ring) == 4 && flatness(out.Vertices[c[0]], out.Vertices[c[1]], out.Vertices[c[2]], out.Vertices[c[3]]) <
			flatness(out.Vertices[c[1]], out.Vertices[c[2]], out.Vertices[c[3]], out.Vertices[c[0]]) {
			turn = 1
		}
		for k := 1; k+1 < len(ring); k++ {
			n := len(ring)
			out.Triangles = append(out.Triangles, [3]int32{ring[turn], ring[(turn+k)%n], ring[(turn+k+1)%n]})
		}
	}
	return out
}

// twins puts a vertex on every side of a quad whose two vertices another side
// joins too, as the two sheets would share an edge there. It returns the new
// vertices by quad and side.
func (s *placed) twins(out *mesh.Mesh) map[[2]int32]int32 {
	count := map[[2]int32]int{}
	each := func(visit func(key [2]int32, v, w, left, right int32)) {
		for v := range int32(len(s.cell)) {
			links := s.round(v)
			for j, l := range links {
				if w := s.across(l); v < w {
					visit([2]int32{v, w}, v, w, l, links[(j+1)%len(links)])
				}
			}
		}
	}
	each(func(key [2]int32, _, _, _, _ int32) { count[key]++ })
	middles := map[[2]int32]int32{}
	each(func(key [2]int32, v, w, one, two int32) {
		if count[key] < 2 {
			return
		}
		n := int32(len(out.Vertices))
		a, b := &s.quad[one>>2], &s.quad[two>>2]
		x := r3.Scale(0.5, r3.Add(out.Vertices[v], out.Vertices[w]))
		// A little to the side of its own quads, so that twins stay apart.
		x = r3.Add(r3.Scale(0.5, x), r3.Scale(0.25, r3.Add(a.at, b.at)))
		out.Vertices = append(out.Vertices, x)
		middles[[2]int32{one >> 2, (one + 3) & 3}] = n
		middles[[2]int32{two >> 2, two & 3}] = n
	})
	return middles
}

// flatness is the cosine between the two triangles of a quad cut from a to c.
func flatness(a, b, c, d r3.Vec) float64 {
	n := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	k := r3.Cross(r3.Sub(c, a), r3.Sub(d, a))
	l := length(n) * length(k)
	if l == 0 {
		return -1
	}
	return r3.Dot(n, k) / l
}
