package solid

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// sheet is the triangulation of one patch, laid out in the chart of its face.
// The triangle across the edge opposite corner e of triangle t is
// adjacent[t][e], -1 at the border.
type sheet struct {
	face     *place
	mirror   float64 // -1 where the chart shows the face from behind
	id       []int32 // mesh vertices; -1 for new ones
	at       []r3.Vec
	uv       []point
	tri      [][3]int32
	adjacent [][3]int32
}

type point struct{ u, v float64 }

// turnOf is twice the area of a triangle, positive counter-clockwise.
func turnOf(a, b, c point) float64 { return (b.u-a.u)*(c.v-a.v) - (b.v-a.v)*(c.u-a.u) }

var (
	errNoOuter  = errors.New("a patch without an outer border")
	errNoBridge = errors.New("a hole outside its patch")
	errNoEar    = errors.New("a border that crosses itself")
)

// node is one place in the border while it is clipped.
type node struct {
	p          int32
	prev, next int32
}

type clipper struct {
	*sheet
	nodes []node
}

// nearby is how far apart in the chart, in mm, a point and a line may be and
// still count as touching.
const nearby = 1e-7

// triangulate fills the rings, the largest of which is the outer border, by
// clipping ears. Holes are first joined to the border around them. Source:
// D. Eberly, "Triangulation by ear clipping", 2002.
func (s *sheet) triangulate(rings [][]int32) error {
	outer, size := 0, 0.0
	for i, r := range rings {
		if a := math.Abs(s.area(r)); a > size {
			outer, size = i, a
		}
	}
	if size == 0 {
		return errNoOuter
	}
	s.mirror = 1
	if s.area(rings[outer]) < 0 {
		s.mirror = -1
		for i := range s.uv {
			s.uv[i].u = -s.uv[i].u
		}
	}
	c := clipper{sheet: s}
	start := c.ring(rings[outer])
	var holes [][]int32
	for i, r := range rings {
		if i == outer {
			continue
		}
		if s.area(r) >= 0 {
			return errNoBridge
		}
		holes = append(holes, r)
	}
	left := func(r []int32) int {
		best := 0
		for i, p := range r {
			a, b := s.uv[p], s.uv[r[best]]
			if a.u < b.u || a.u == b.u && a.v < b.v {
				best = i
			}
		}
		return best
	}
	slices.SortStableFunc(holes, func(a, b []int32) int {
		p, q := s.uv[a[left(a)]], s.uv[b[left(b)]]
		switch {
		case p.u < q.u || p.u == q.u && p.v < q.v:
			return -1
		case p == q:
			return 0
		}
		return 1
	})
	count := len(rings[outer])
	for _, h := range holes {
		k := left(h)
		at := c.ring(append(slices.Clone(h[k:]), h[:k]...))
		to := c.bridge(at, start)
		if to < 0 {
			return errNoBridge
		}
		c.join(to, at)
		count += len(h) + 2
	}
	if err := c.clip(start, count); err != nil {
		return err
	}
	return s.link()
}

// ring enters a ring of points and returns its first node.
func (c *clipper) ring(r []int32) int32 {
	first, n := int32(len(c.nodes)), int32(len(r))
	for i, p := range r {
		k := int32(i)
		c.nodes = append(c.nodes, node{p, first + (k+n-1)%n, first + (k+1)%n})
	}
	return first
}

func (c *clipper) uvOf(n int32) point { return c.uv[c.nodes[n].p] }

// bridge returns a node of the border that a hole's leftmost node can see.
func (c *clipper) bridge(hole, start int32) int32 {
	h := c.uvOf(hole)
	best, far := int32(-1), math.Inf(-1)
	for n := start; ; {
		m := c.nodes[n].next
		p, q := c.uvOf(n), c.uvOf(m)
		if p.v >= h.v && q.v <= h.v && p.v != q.v {
			u := p.u + (h.v-p.v)*(q.u-p.u)/(q.v-p.v)
			if u <= h.u+nearby && u > far {
				far, best = u, m
				if p.u < q.u {
					best = n
				}
				if p.v == h.v {
					best = n
				} else if q.v == h.v {
					best = m
				}
			}
		}
		if n = m; n == start {
			break
		}
	}
	if best < 0 {
		return -1
	}
	// Another node may stand in the triangle between the hole, the border
	// straight left of it and that node: then the one nearest the line.
	hit, b := point{far, h.v}, c.uvOf(best)
	slope := math.Inf(1)
	chosen := best
	for n := start; ; {
		p := c.uvOf(n)
		if p.u <= h.u && p.u >= b.u && p != h && (p != b || n != best) && within(p, h, hit, b) && c.sees(n, h) {
			if t := math.Abs(p.v-h.v) / (h.u - p.u); t < slope || t == slope && p.u > c.uvOf(chosen).u {
				slope, chosen = t, n
			}
		}
		if n = c.nodes[n].next; n == start {
			break
		}
	}
	if chosen == best && !c.sees(best, h) {
		for n := start; ; { // the same place, seen from another wedge
			if c.uvOf(n) == b && c.sees(n, h) {
				return n
			}
			if n = c.nodes[n].next; n == start {
				break
			}
		}
	}
	return chosen
}

// within reports whether p lies in the closed triangle, of either turn.
func within(p, a, b, c point) bool {
	x, y, z := turnOf(a, b, p), turnOf(b, c, p), turnOf(c, a, p)
	return x >= 0 && y >= 0 && z >= 0 || x <= 0 && y <= 0 && z <= 0
}

// sees reports whether the way from a node to a point starts inside the border.
func (c *clipper) sees(n int32, h point) bool {
	a, p, b := c.uvOf(c.nodes[n].prev), c.uvOf(n), c.uvOf(c.nodes[n].next)
	if turnOf(a, p, b) > 0 {
		return turnOf(p, b, h) >= 0 && turnOf(a, p, h) >= 0
	}
	return turnOf(p, b, h) > 0 || turnOf(a, p, h) > 0
}

// join cuts the border open from node a to node h of a hole.
func (c *clipper) join(a, h int32) {
	a2, h2 := int32(len(c.nodes)), int32(len(c.nodes)+1)
	next, last := c.nodes[a].next, c.nodes[h].prev
	c.nodes = append(c.nodes, node{c.nodes[a].p, h2, next}, node{c.nodes[h].p, last, a2})
	c.nodes[next].prev = a2
	c.nodes[last].next = h2
	c.nodes[a].next, c.nodes[h].prev = h, a
}

func (c *clipper) clip(start int32, count int) error {
	reflex := make([]bool, len(c.nodes))
	var bent []int32
	height := func(n int32) float64 { // of the ear over its longest side
		a, p, b := c.uvOf(c.nodes[n].prev), c.uvOf(n), c.uvOf(c.nodes[n].next)
		l := max(math.Hypot(p.u-a.u, p.v-a.v), math.Hypot(b.u-p.u, b.v-p.v), math.Hypot(b.u-a.u, b.v-a.v))
		if l == 0 {
			return 0
		}
		return turnOf(a, p, b) / l
	}
	for n, i := start, 0; i < count; n, i = c.nodes[n].next, i+1 {
		if height(n) <= nearby {
			reflex[n] = true
			bent = append(bent, n)
		}
	}
	free := func(n int32) bool {
		ia, ib := c.nodes[n].prev, c.nodes[n].next
		a, p, b := c.uvOf(ia), c.uvOf(n), c.uvOf(ib)
		lo, hi := min(a.u, p.u, b.u), max(a.u, p.u, b.u)
		ab, pb, ap := math.Hypot(a.u-b.u, a.v-b.v), math.Hypot(p.u-b.u, p.v-b.v), math.Hypot(a.u-p.u, a.v-p.v)
		for _, r := range bent {
			if !reflex[r] || r == ia || r == ib {
				continue
			}
			q := c.uvOf(r)
			if q.u < lo-nearby || q.u > hi+nearby || q == a || q == b || q == p {
				continue
			}
			if turnOf(a, p, q) >= -nearby*ap && turnOf(p, b, q) >= -nearby*pb && turnOf(b, a, q) >= -nearby*ab {
				return false
			}
		}
		return true
	}
	n, tries := start, 0
	for count > 3 {
		if tries > count {
			return errNoEar
		}
		if reflex[n] || height(n) <= nearby || !free(n) {
			n = c.nodes[n].next
			tries++
			continue
		}
		a, b := c.nodes[n].prev, c.nodes[n].next
		c.tri = append(c.tri, [3]int32{c.nodes[a].p, c.nodes[n].p, c.nodes[b].p})
		c.nodes[a].next, c.nodes[b].prev = b, a
		for _, m := range []int32{a, b} {
			if reflex[m] && height(m) > nearby {
				reflex[m] = false
			} else if !reflex[m] && height(m) <= nearby {
				reflex[m] = true
				bent = append(bent, m)
			}
		}
		count--
		tries = 0
		n = c.nodes[b].next // leave one out: rounder triangles
		if count%64 == 0 {
			bent = slices.DeleteFunc(bent, func(r int32) bool {
				return !reflex[r] || c.nodes[c.nodes[r].next].prev != r
			})
		}
	}
	a, b := c.nodes[n].prev, c.nodes[n].next
	if turnOf(c.uvOf(a), c.uvOf(n), c.uvOf(b)) <= 0 {
		return errNoEar
	}
	c.tri = append(c.tri, [3]int32{c.nodes[a].p, c.nodes[n].p, c.nodes[b].p})
	return nil
}

// link finds the neighbours of all triangles.
func (s *sheet) link() error {
	type side struct{ t, e int32 }
	known := make(map[[2]int32]side, 2*len(s.tri))
	s.adjacent = make([][3]int32, len(s.tri))
	for t := range s.tri {
		for e := range 3 {
			s.adjacent[t][e] = -1
			p, q := s.tri[t][(e+1)%3], s.tri[t][(e+2)%3]
			if o, ok := known[[2]int32{q, p}]; ok {
				s.adjacent[t][e] = o.t
				s.adjacent[o.t][o.e] = int32(t)
			}
			if _, ok := known[[2]int32{p, q}]; ok {
				return errNoEar
			}
			known[[2]int32{p, q}] = side{int32(t), int32(e)}
		}
	}
	return nil
}
