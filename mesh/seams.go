package mesh

import (
	"cmp"
	"slices"
)

// seam is one side of an edge: the edge as one of its triangles sees it.
type seam struct {
	low, high int32 // vertices of the edge
	opposite  int32 // the triangle's third vertex
	triangle  int32
	corner    uint8 // which corner of the triangle starts the edge
	forward   bool  // the triangle runs from low to high
}

// seams holds every side of every edge, sorted by edge, then by opposite
// vertex and triangle, and which triangle corners belong to one fan.
type seams struct {
	mesh  *Mesh
	sides []seam
	fans  forest // over 3·triangle + corner
}

func (m *Mesh) seams(sound []bool) *seams {
	start := make([]int32, len(m.Vertices)+1)
	for i, t := range m.Triangles {
		if sound[i] {
			for k := range 3 {
				start[min(t[k], t[(k+1)%3])+1]++
			}
		}
	}
	for v := range m.Vertices {
		start[v+1] += start[v]
	}
	s := &seams{mesh: m, sides: make([]seam, start[len(m.Vertices)])}
	next := slices.Clone(start)
	for i, t := range m.Triangles {
		if !sound[i] {
			continue
		}
		for k := range 3 {
			a, b := t[k], t[(k+1)%3]
			low, high := min(a, b), max(a, b)
			s.sides[next[low]] = seam{low, high, t[(k+2)%3], int32(i), uint8(k), a == low}
			next[low]++
		}
	}
	for v := range m.Vertices {
		slices.SortFunc(s.sides[start[v]:start[v+1]], func(p, q seam) int {
			return cmp.Or(cmp.Compare(p.high, q.high), cmp.Compare(p.opposite, q.opposite), cmp.Compare(p.triangle, q.triangle))
		})
	}
	s.fans = newForest(3 * len(m.Triangles))
	for e := range s.edges {
		for i := 1; i < len(e); i++ {
			lowA, highA := e[i-1].ends()
			lowB, highB := e[i].ends()
			s.fans.join(lowA, lowB)
			s.fans.join(highA, highB)
		}
	}
	return s
}

// ends returns the triangle corners, 3·triangle + corner, at low and high.
func (s seam) ends() (low, high int) {
	a := 3*int(s.triangle) + int(s.corner)
	b := 3*int(s.triangle) + int(s.corner+1)%3
	if s.forward {
		return a, b
	}
	return b, a
}

// edges yields the sides of each edge in turn.
func (s *seams) edges(yield func([]seam) bool) {
	for i := 0; i < len(s.sides); {
		j := i + 1
		for j < len(s.sides) && s.sides[j].low == s.sides[i].low && s.sides[j].high == s.sides[i].high {
			j++
		}
		if !yield(s.sides[i:j]) {
			return
		}
		i = j
	}
}

// components numbers the pieces joined through edges: the piece of every
// sound triangle, -1 for the others, and the first triangle of every piece.
func (s *seams) components(sound []bool) (piece, first []int) {
	joined := newForest(len(sound))
	for e := range s.edges {
		for i := 1; i < len(e); i++ {
			joined.join(int(e[i-1].triangle), int(e[i].triangle))
		}
	}
	piece = make([]int, len(sound))
	number := make([]int, len(sound)) // of a root, plus one
	for i := range piece {
		if !sound[i] {
			piece[i] = -1
			continue
		}
		r := joined.root(i)
		if number[r] == 0 {
			first = append(first, i)
			number[r] = len(first)
		}
		piece[i] = number[r] - 1
	}
	return piece, first
}

// pinched returns the vertices whose triangles fall into several fans.
func (s *seams) pinched() []int {
	fans := make([]uint8, len(s.mesh.Vertices))
	for _, e := range s.sides {
		c := 3*int(e.triangle) + int(e.corner)
		v := s.mesh.Triangles[e.triangle][e.corner]
		if s.fans.root(c) == c && fans[v] < 2 {
			fans[v]++
		}
	}
	var out []int
	for v, n := range fans {
		if n > 1 {
			out = append(out, v)
		}
	}
	return out
}

// genus returns the handles of a closed two-manifold from Euler's formula
// V - E + F = 2 components - 2 genus.
func (s *seams) genus(sound []bool, components int) int {
	used := make([]bool, len(s.mesh.Vertices))
	vertices, edges, faces := 0, 0, len(s.sides)/3
	for range s.edges {
		edges++
	}
	for i, t := range s.mesh.Triangles {
		if !sound[i] {
			continue
		}
		for _, v := range t {
			if !used[v] {
				used[v] = true
				vertices++
			}
		}
	}
	return components - (vertices-edges+faces)/2
}

// forest groups numbers; every group is known by its smallest member.
type forest []int32

func newForest(n int) forest {
	f := make(forest, n)
	for i := range f {
		f[i] = int32(i)
	}
	return f
}

func (f forest) root(i int) int {
	for f[i] != int32(i) {
		f[i] = f[f[i]]
		i = int(f[i])
	}
	return i
}

func (f forest) join(i, j int) {
	i, j = f.root(i), f.root(j)
	f[max(i, j)] = int32(min(i, j))
}
