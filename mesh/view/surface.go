package view

import (
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Surface is a mesh made ready to be drawn: its feature edges found, and a
// normal for every corner of every triangle. It does not change and may be
// shared by scenes and goroutines.
type Surface struct {
	points    []r3.Vec
	used      []bool // by a triangle
	normals   []r3.Vec
	triangles []facet
	edges     []edge
}

// facet is a triangle: three points and the normals there.
type facet struct{ point, normal [3]int32 }

// edge is a line between two points that may be drawn. Next to it lie two
// facets; right is -1 at the rim of an open surface.
type edge struct {
	a, b        int32
	left, right int32
	crease      bool // drawn wherever it is seen, not only as a silhouette
}

const (
	creaseCos = 0.8829476 // 28°: above, an edge is a feature
	planeCos  = 1 - 1e-6  // 0.08°: below, two facets lie in one plane
	// sagitta in mm that a chord may have and still be part of a curve. Two
	// wide faces that meet at a slight angle stand farther from any curve.
	curveSagitta = 0.15
)

// Prepare finds the feature edges and normals of a mesh. Where two triangles
// meet at more than 28° the shading breaks and an edge is drawn; plane regions
// are shaded flat; everything else is smooth. Triangles without area, or with
// a corner missing or not a number, are left out. The mesh is not kept.
func Prepare(m *mesh.Mesh) *Surface {
	if m == nil {
		return &Surface{}
	}
	s := &Surface{
		points:    append([]r3.Vec(nil), m.Vertices...),
		used:      make([]bool, len(m.Vertices)),
		triangles: make([]facet, 0, len(m.Triangles)),
	}
	b := builder{Surface: s}
	for _, t := range m.Triangles {
		b.add(t)
	}
	b.join()
	b.findRegions()
	b.findNormals()
	return s
}

// Displace returns the displacement of every vertex for Thing.Shift.
func (s *Surface) Displace(shape func(r3.Vec) r3.Vec) []r3.Vec {
	out := make([]r3.Vec, len(s.points))
	for i, p := range s.points {
		out[i] = shape(p)
	}
	return out
}

// Triangles returns how many triangles the surface draws.
func (s *Surface) Triangles() int { return len(s.triangles) }

// builder holds what is known of a surface while it is prepared.
type builder struct {
	*Surface
	face    []r3.Vec  // unit normal of each triangle
	area    []float64 // mm² of each triangle
	borders []border
	region  []int32 // plane region of each triangle
	flat    []bool  // whether a region is shaded flat
	plane   []r3.Vec
}

// border is where two triangles meet; the angle between them decides what it
// is.
type border struct {
	left, right   int32
	leftAt        int8 // the border runs from this corner of left to the next
	rightAt       int8 // and back from this corner of right to the next
	smooth, plane bool
	cos           float64
}

func (b *builder) add(t [3]int32) {
	n := uint32(len(b.points))
	for _, k := range t {
		if uint32(k) >= n || !finite(b.points[k]) || r3.Norm(b.points[k]) > 2*mesh.Reach {
			return
		}
	}
	u := r3.Cross(r3.Sub(b.points[t[1]], b.points[t[0]]), r3.Sub(b.points[t[2]], b.points[t[0]]))
	size := r3.Norm(u)
	if size < 1e-14 {
		return
	}
	for _, k := range t {
		b.used[k] = true
	}
	b.triangles = append(b.triangles, facet{point: t})
	b.face = append(b.face, r3.Scale(1/size, u))
	b.area = append(b.area, size/2)
}

// join pairs the half edges: those of one lower vertex lie together, so a few
// comparisons find the partner.
func (b *builder) join() {
	first := make([]int32, len(b.points)+1)
	ends := func(half int32) (from, to int32) {
		t := &b.triangles[half/3].point
		return t[half%3], t[(half+1)%3]
	}
	halves := int32(3 * len(b.triangles))
	for h := range halves {
		from, to := ends(h)
		first[min(from, to)+1]++
	}
	for i := 1; i < len(first); i++ {
		first[i] += first[i-1]
	}
	sorted := make([]int32, halves)
	fill := append([]int32(nil), first...)
	for h := range halves {
		from, to := ends(h)
		k := min(from, to)
		sorted[fill[k]] = h
		fill[k]++
	}
	paired := make([]bool, halves)
	b.borders = make([]border, 0, halves/2)
	for low := range int32(len(b.points)) {
		group := sorted[first[low]:first[low+1]]
		for i, h := range group {
			if paired[h] {
				continue
			}
			from, to := ends(h)
			mate := int32(-1)
			for _, g := range group[i+1:] {
				if f, t := ends(g); !paired[g] && f == to && t == from {
					mate = g
					break
				}
			}
			if mate < 0 {
				b.edges = append(b.edges, edge{a: from, b: to, left: h / 3, right: -1, crease: true})
				continue
			}
			paired[mate] = true
			b.meet(h, mate)
		}
	}
}

// meet records the border between two half edges.
func (b *builder) meet(h, mate int32) {
	l, r := h/3, mate/3
	d := border{left: l, right: r, leftAt: int8(h % 3), rightAt: int8(mate % 3), cos: r3.Dot(b.face[l], b.face[r])}
	d.plane = d.cos > planeCos
	d.smooth = d.cos > creaseCos
	if !d.plane {
		t := &b.triangles[l].point
		b.edges = append(b.edges, edge{a: t[d.leftAt], b: t[(d.leftAt+1)%3], left: l, right: r, crease: !d.smooth})
	}
	b.borders = append(b.borders, d)
}
