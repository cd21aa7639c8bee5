package solid

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// probe looks in a brick for walls and gaps that run between the grid's
// planes, and asks for closer ones. c is the program in a wider neighbourhood.
func (s *sampler) probe(c *code, first [3]int) {
	lo := s.g.corner(first)
	hi := s.g.corner([3]int{first[0] + brickCells, first[1] + brickCells, first[2] + brickCells})
	p := r3.Scale(0.5, r3.Add(lo, hi))
	q, n, ok := s.foot(c, p)
	if !ok || q.X < lo.X || q.Y < lo.Y || q.Z < lo.Z || q.X > hi.X || q.Y > hi.Y || q.Z > hi.Z {
		return
	}
	// Two cells across are as much as the planes may miss.
	axis, d := steepest(n)
	widest := 0.0
	for i := range brickCells {
		widest = max(widest, s.g.at[axis][first[axis]+i+1]-s.g.at[axis][first[axis]+i])
	}
	reach := 2.2 * widest / d
	for _, sign := range []float64{-1, 1} {
		t, ok := s.far(c, q, r3.Scale(sign, n), sign < 0, reach)
		if !ok {
			continue
		}
		e := r3.Add(q, r3.Scale(sign*t, n))
		if s.shown(axis, components(q)[axis], components(e)[axis], t/d) {
			continue
		}
		size := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
		size[axis] = 0.55 * t / d
		r := request{size: vector(size)}
		pad := r3.Vec{X: t / 2, Y: t / 2, Z: t / 2}
		r.box = r3.NewBox(q.X, q.Y, q.Z, e.X, e.Y, e.Z)
		r.box.Min, r.box.Max = r3.Sub(r.box.Min, pad), r3.Add(r.box.Max, pad)
		s.narrow = append(s.narrow, r)
	}
}

func steepest(n r3.Vec) (axis int, size float64) {
	for a, c := range components(n) {
		if math.Abs(c) > size {
			axis, size = a, math.Abs(c)
		}
	}
	return axis, size
}

// shown reports whether a wall from p to q along an axis holds a plane of the
// grid, and will hold one beside here too if it is not square to the axis.
func (s *sampler) shown(axis int, p, q, width float64) bool {
	at := s.g.at[axis]
	i, _ := slices.BinarySearch(at, min(p, q))
	if i == 0 || i == len(at) || at[i] >= max(p, q) {
		return false
	}
	square := math.Abs(math.Abs(p-q)-width) < 1e-9*width
	return square || at[i]-at[i-1] < 0.9*width || i+1 < len(at) && at[i+1] < max(p, q)
}

// foot returns the surface point near p, on the face next to it, and the
// outward direction there.
func (s *sampler) foot(c *code, p r3.Vec) (q, n r3.Vec, ok bool) {
	const small = 1e-4
	_, l := c.eval(p)
	f := &s.p.sites[l/2]
	q = (&placed{p: s.p}).project(p, l)
	v, _ := c.eval(q)
	s.evaluations += 2
	if math.Abs(v) > 1e-7 {
		return q, n, false
	}
	_, n = f.at(q)
	if l&1 == 1 {
		n = r3.Scale(-1, n)
	}
	if k := length(n); k > 0 {
		n = r3.Scale(1/k, n)
	}
	in, _ := c.eval(r3.Sub(q, r3.Scale(small, n)))
	out, _ := c.eval(r3.Add(q, r3.Scale(small, n)))
	s.evaluations += 2
	return q, n, in < 0 && out > 0
}

// far returns how far it is from a surface point along a direction to a face
// that looks the other way, if that is within reach.
func (s *sampler) far(c *code, q, d r3.Vec, inside bool, reach float64) (float64, bool) {
	const step = 1e-3
	// One look at the middle tells where nothing is within reach.
	v, _ := c.eval(r3.Add(q, r3.Scale(reach/2, d)))
	s.evaluations++
	if v < 0 == inside && math.Abs(v) > reach/2-finest/2 {
		return 0, false
	}
	for t := step; t < reach; {
		x := r3.Add(q, r3.Scale(t, d))
		v, l := c.eval(x)
		s.evaluations++
		if v < 0 != inside {
			_, n := s.p.sites[l/2].at(x)
			if l&1 == 1 {
				n = r3.Scale(-1, n)
			}
			along := r3.Dot(n, d)
			if !inside {
				along = -along
			}
			// Faces that are not parallel meet in an edge nearby: no wall.
			return t, along > 0.999 || along > 0.95 && t > 10*finest
		}
		t += max(math.Abs(v), step)
	}
	return 0, false
}
