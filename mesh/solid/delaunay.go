package solid

import "math"

// relax flips inner edges until the triangles are Delaunay in the chart,
// starting from those given, and returns all that it looked at, in order.
func (s *sheet) relax(stack []int32) []int32 {
	seen := make([]bool, len(s.tri))
	queued := make([]bool, len(s.tri))
	for _, t := range stack {
		seen[t], queued[t] = true, true
	}
	for budget := 20 * (len(s.tri) + 100) * (len(s.tri) + 100); len(stack) > 0 && budget > 0; {
		t := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		queued[t] = false
		for e := range 3 {
			budget--
			o, ok := s.flip(t, e)
			if !ok {
				continue
			}
			seen[t], seen[o] = true, true
			for _, n := range [2]int32{t, o} {
				if !queued[n] {
					queued[n] = true
					stack = append(stack, n)
				}
			}
			break
		}
	}
	var touched []int32
	for t, ok := range seen {
		if ok {
			touched = append(touched, int32(t))
		}
	}
	return touched
}

// flip turns the edge opposite corner e of t if that makes the pair Delaunay.
func (s *sheet) flip(t int32, e int) (int32, bool) {
	o := s.adjacent[t][e]
	if o < 0 {
		return o, false
	}
	a, p, q := s.tri[t][e], s.tri[t][(e+1)%3], s.tri[t][(e+2)%3]
	k := 0
	for s.tri[o][(k+1)%3] != q || s.tri[o][(k+2)%3] != p {
		k++
	}
	d := s.tri[o][k]
	// A triangle whose corner lies on the edge has to go whatever its circle.
	least := nearby * math.Hypot(s.uv[p].u-s.uv[q].u, s.uv[p].v-s.uv[q].v)
	thin := turnOf(s.uv[a], s.uv[p], s.uv[q]) <= least || turnOf(s.uv[d], s.uv[q], s.uv[p]) <= least
	if !thin && !inCircle(s.uv[a], s.uv[p], s.uv[q], s.uv[d]) {
		return o, false
	}
	for _, x := range [2][2]int32{{p, q}, {q, p}} { // both new triangles must turn left
		u, v, w := s.uv[a], s.uv[d], s.uv[x[0]]
		if x[0] == p {
			u, v = s.uv[d], s.uv[a]
		}
		l := max(math.Hypot(u.u-v.u, u.v-v.v), math.Hypot(w.u-v.u, w.v-v.v), math.Hypot(w.u-u.u, w.v-u.v))
		if turnOf(u, v, w) <= nearby*l {
			return o, false
		}
	}
	// t: a p d, o: d q a
	ap, aq := s.adjacent[t][(e+2)%3], s.adjacent[t][(e+1)%3]
	dq, dp := s.adjacent[o][(k+2)%3], s.adjacent[o][(k+1)%3]
	s.tri[t], s.adjacent[t] = [3]int32{a, p, d}, [3]int32{dp, o, ap}
	s.tri[o], s.adjacent[o] = [3]int32{d, q, a}, [3]int32{aq, t, dq}
	s.replace(dp, o, t)
	s.replace(aq, t, o)
	return o, true
}

// inCircle reports whether d lies inside the circle through a, b, c by more
// than rounding.
func inCircle(a, b, c, d point) bool {
	ax, ay, bx, by, cx, cy := a.u-d.u, a.v-d.v, b.u-d.u, b.v-d.v, c.u-d.u, c.v-d.v
	aa, bb, cc := ax*ax+ay*ay, bx*bx+by*by, cx*cx+cy*cy
	det := aa*(bx*cy-by*cx) - bb*(ax*cy-ay*cx) + cc*(ax*by-ay*bx)
	size := aa*(math.Abs(bx*cy)+math.Abs(by*cx)) + bb*(math.Abs(ax*cy)+math.Abs(ay*cx)) + cc*(math.Abs(ax*by)+math.Abs(ay*bx))
	return det > 1e-11*size
}
