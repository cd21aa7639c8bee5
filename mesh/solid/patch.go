package solid

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// arc is a chain in one direction: its number, or the complement of it for
// the way from end to start.
type arc int32

// loops returns for every patch its border, as closed runs of arcs with the
// patch on their left. Where a patch touches itself in a corner its border
// passes the corner once for each wedge.
func (b *border) loops(patches int) [][][]arc {
	all := make([][][]arc, patches)
	done := make([]bool, 2*len(b.chains))
	slot := func(a arc) int {
		if a < 0 {
			return 2*int(^a) + 1
		}
		return 2 * int(a)
	}
	for i := range b.chains {
		for _, a := range []arc{arc(i), ^arc(i)} {
			if done[slot(a)] {
				continue
			}
			patch := b.chains[i].left
			if a < 0 {
				patch = b.chains[i].right
			}
			var run []arc
			for n := a; !done[slot(n)]; n = b.next(n) {
				done[slot(n)] = true
				run = append(run, n)
			}
			all[patch] = append(all[patch], run)
		}
	}
	return all
}

// next returns the arc that follows along the same patch.
func (b *border) next(a arc) arc {
	var w int32
	if a >= 0 {
		path := b.chains[a].path
		w = path[len(path)-1]
	} else {
		w = b.chains[^a].path[0]
	}
	n := int(b.start[w+1] - b.start[w])
	k := 0
	for b.gap[b.start[w]+int32(k)] != int32(^a) {
		k++
	}
	for {
		k = (k + n - 1) % n
		if g := b.gap[b.start[w]+int32(k)]; g != borderless {
			return arc(g)
		}
	}
}

// vertices returns the mesh vertices along an arc without its end, with their
// positions.
func (b *border) vertices(a arc, ids []int32, at []r3.Vec) ([]int32, []r3.Vec) {
	c := &b.chains[max(a, ^a)]
	n := len(c.points) - 1
	for i := range n {
		k := i
		if a < 0 {
			k = n - i
		}
		id := c.first + int32(k) - 1
		switch k {
		case 0:
			id = b.corner[c.path[0]]
		case n:
			id = b.corner[c.path[len(c.path)-1]]
		}
		ids = append(ids, id)
		at = append(at, c.points[k])
	}
	return ids, at
}

// sheet builds the triangles of one patch from its border.
func (b *border) sheet(ctx context.Context, label int32, border [][]arc, tolerance float64) (*sheet, error) {
	f := &b.p.sites[label/2]
	s := &sheet{face: f}
	var rings [][]int32
	for _, run := range border {
		first := len(s.id)
		for _, a := range run {
			if !b.chains[max(a, ^a)].gone {
				s.id, s.at = b.vertices(a, s.id, s.at)
			}
		}
		if len(s.id)-first < 3 {
			s.id, s.at = s.id[:first], s.at[:first]
			continue
		}
		ring := make([]int32, len(s.id)-first)
		for i := range ring {
			ring[i] = int32(first + i)
		}
		rings = append(rings, ring)
	}
	if len(rings) == 0 {
		return nil, nil
	}
	for _, x := range s.at {
		u, v := f.chart(x)
		s.uv = append(s.uv, point{u, v})
	}
	if err := s.triangulate(rings); err != nil {
		return nil, err
	}
	s.relax(s.all())
	if !f.flat() {
		s.refine(ctx, tolerance)
	}
	return s, nil
}

// area returns the signed area of a ring in the chart.
func (s *sheet) area(ring []int32) float64 {
	a := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		a += s.uv[p].u*s.uv[q].v - s.uv[q].u*s.uv[p].v
	}
	return a / 2
}

// refine splits inner edges whose middle strays from the face by more than
// the tolerance, and keeps the mesh Delaunay in the chart.
func (s *sheet) refine(ctx context.Context, tolerance float64) {
	work := s.all()
	most := 40*len(s.tri) + 4000
	for pass := 0; pass < 40 && ctx.Err() == nil; pass++ {
		var changed []int32
		busy := make([]bool, len(s.tri))
		for _, t := range work {
			if busy[t] || len(s.tri) >= most {
				continue
			}
			// The edge that strays most, if its other triangle is still as it was.
			worst, edge, at := tolerance, -1, r3.Vec{}
			for e := range 3 {
				if o := int(s.adjacent[t][e]); o < 0 || o >= len(busy) || busy[o] {
					continue
				}
				m := r3.Scale(0.5, r3.Add(s.at[s.tri[t][(e+1)%3]], s.at[s.tri[t][(e+2)%3]]))
				v, g := s.face.at(m)
				if d := math.Abs(v) / max(length(g), 1e-12); d > worst {
					worst, edge, at = d, e, m
				}
			}
			if edge < 0 {
				continue
			}
			o := s.adjacent[t][edge]
			if s.split(t, edge, at) {
				busy[t], busy[o] = true, true
				n := int32(len(s.tri))
				changed = append(changed, t, o, n-2, n-1)
			}
		}
		if len(changed) == 0 {
			return
		}
		work = s.relax(changed)
	}
}

func (s *sheet) all() []int32 {
	t := make([]int32, len(s.tri))
	for i := range t {
		t[i] = int32(i)
	}
	return t
}

// split puts a new vertex on the face near the middle of an inner edge.
func (s *sheet) split(t int32, e int, m r3.Vec) bool {
	for range 20 {
		v, g := s.face.at(m)
		n := r3.Dot(g, g)
		if math.Abs(v) < exact || n == 0 {
			break
		}
		m = r3.Sub(m, r3.Scale(v/n, g))
	}
	u, v := s.face.chart(m)
	c := point{s.mirror * u, v}
	o := s.adjacent[t][e]
	a, p, q := s.tri[t][e], s.tri[t][(e+1)%3], s.tri[t][(e+2)%3]
	k := 0
	for s.adjacent[o][k] != t || s.tri[o][(k+1)%3] != q {
		k++
	}
	d := s.tri[o][k]
	for _, pair := range [4][2]int32{{a, p}, {p, d}, {d, q}, {q, a}} {
		x, y := s.uv[pair[0]], s.uv[pair[1]]
		if turnOf(x, y, c) <= 1e-9*math.Hypot(y.u-x.u, y.v-x.v) {
			return false
		}
	}
	n := int32(len(s.at))
	s.at, s.uv, s.id = append(s.at, m), append(s.uv, c), append(s.id, -1)
	// t: a p n, new: a n q; o: d q n, new: d n p
	t2, o2 := int32(len(s.tri)), int32(len(s.tri)+1)
	ap, aq := s.adjacent[t][(e+2)%3], s.adjacent[t][(e+1)%3]
	dq, dp := s.adjacent[o][(k+2)%3], s.adjacent[o][(k+1)%3]
	s.tri[t], s.adjacent[t] = [3]int32{a, p, n}, [3]int32{o2, t2, ap}
	s.tri[o], s.adjacent[o] = [3]int32{d, q, n}, [3]int32{t2, o2, dq}
	s.tri = append(s.tri, [3]int32{a, n, q}, [3]int32{d, n, p})
	s.adjacent = append(s.adjacent, [3]int32{o, aq, t}, [3]int32{t, dp, o})
	s.replace(aq, t, t2)
	s.replace(dp, o, o2)
	return true
}

func (s *sheet) replace(t, from, to int32) {
	if t < 0 {
		return
	}
	for k, o := range s.adjacent[t] {
		if o == from {
			s.adjacent[t][k] = to
			return
		}
	}
}
