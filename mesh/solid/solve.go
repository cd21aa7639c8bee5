package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// touch is the point where surfaces meet: the set of faces, by surface
// number, and the seams between them. Of two faces with a seam one and the
// seam make the equations: the other agrees there.
type touch struct {
	p     *program
	faces []int32
	spare []bool // of each face
	cuts  []cutAt
}

// meet prepares the equations of a set of labels near a point. Where two
// faces have several seams, the nearest counts.
func (p *program) meet(labels []int32, near r3.Vec, t *touch) {
	t.p = p
	t.faces, t.cuts = t.faces[:0], t.cuts[:0]
	for _, l := range labels {
		known := false
		for _, f := range t.faces {
			known = known || f == l/2
		}
		if !known {
			t.faces = append(t.faces, l/2)
		}
	}
	t.spare = append(t.spare[:0], make([]bool, len(t.faces))...)
	for i, a := range t.faces {
		for j := i + 1; j < len(t.faces); j++ {
			b := t.faces[j]
			best := math.Inf(1)
			var nearest cutAt
			for _, c := range p.seams[[2]int32{min(a, b), max(a, b)}] {
				if v, _ := c.at(near); math.Abs(v) < best {
					best, nearest = math.Abs(v), c
				}
			}
			if best < math.Inf(1) {
				t.cuts = append(t.cuts, nearest)
				if p.sites[a].flat() || t.spare[j] {
					t.spare[j] = true
				} else {
					t.spare[i] = true
				}
			}
		}
	}
}

const exact = 1e-9 // mm, residual of a point on its faces

// solve moves a point to where all surfaces vanish, by Gauss-Newton steps of
// least length, and reports whether it got there within reach mm.
func (t *touch) solve(from r3.Vec, reach float64) (r3.Vec, bool) {
	x := from
	var room [8]residual
	for range 30 {
		all := room[:0]
		worst := 0.0
		for i, f := range t.faces {
			if !t.spare[i] {
				v, g := t.p.sites[f].at(x)
				all = append(all, residual{v, g})
				worst = max(worst, math.Abs(v))
			}
		}
		for _, c := range t.cuts {
			v, g := c.at(x)
			all = append(all, residual{v, g})
			worst = max(worst, math.Abs(v))
		}
		if worst < exact {
			return x, length(r3.Sub(x, from)) <= reach && t.agree(x)
		}
		s, ok := shortest(all)
		if !ok {
			s = leastSquares(all)
		}
		x = r3.Sub(x, s)
		if !(length(r3.Sub(x, from)) <= 4*reach) {
			return x, false
		}
	}
	return x, false
}

// residual is the value of a surface at a point and its gradient.
type residual struct {
	v float64
	g r3.Vec
}

// shortest returns the shortest s with g·s = v for one to three residuals
// whose gradients are well apart.
func shortest(all []residual) (r3.Vec, bool) {
	const flattest = 1e-3 // squared sine between two gradients
	switch len(all) {
	case 1:
		a := all[0]
		n := r3.Dot(a.g, a.g)
		return r3.Scale(a.v/n, a.g), n > 0
	case 2:
		a, b := all[0], all[1]
		aa, ab, bb := r3.Dot(a.g, a.g), r3.Dot(a.g, b.g), r3.Dot(b.g, b.g)
		d := aa*bb - ab*ab
		return r3.Add(r3.Scale((a.v*bb-b.v*ab)/d, a.g), r3.Scale((b.v*aa-a.v*ab)/d, b.g)), d > flattest*aa*bb
	case 3:
		a, b, c := all[0], all[1], all[2]
		bc, ca, ab := r3.Cross(b.g, c.g), r3.Cross(c.g, a.g), r3.Cross(a.g, b.g)
		d := r3.Dot(a.g, bc)
		s := r3.Add(r3.Add(r3.Scale(a.v/d, bc), r3.Scale(b.v/d, ca)), r3.Scale(c.v/d, ab))
		return s, d*d > flattest*r3.Dot(a.g, a.g)*r3.Dot(b.g, b.g)*r3.Dot(c.g, c.g)
	}
	return r3.Vec{}, false
}

// agree reports whether a point lies on the faces left out of the equations.
func (t *touch) agree(x r3.Vec) bool {
	for i, f := range t.faces {
		if !t.spare[i] {
			continue
		}
		if v, _ := t.p.sites[f].at(x); math.Abs(v) > 100*exact {
			return false
		}
	}
	return true
}

// leastSquares returns the shortest s that comes nearest to g·s = v for all
// residuals, leaving out directions in which they say nearly nothing.
func leastSquares(all []residual) r3.Vec {
	var a [6]float64 // JᵀJ: xx, yy, zz, xy, xz, yz
	var b r3.Vec     // Jᵀ v
	for _, r := range all {
		g := r.g
		a[0] += g.X * g.X
		a[1] += g.Y * g.Y
		a[2] += g.Z * g.Z
		a[3] += g.X * g.Y
		a[4] += g.X * g.Z
		a[5] += g.Y * g.Z
		b = r3.Add(b, r3.Scale(r.v, g))
	}
	m := [3][3]float64{{a[0], a[3], a[4]}, {a[3], a[1], a[5]}, {a[4], a[5], a[2]}}
	v := [3][3]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	for range 12 { // Jacobi rotations
		off := math.Abs(m[0][1]) + math.Abs(m[0][2]) + math.Abs(m[1][2])
		if off < 1e-15*(m[0][0]+m[1][1]+m[2][2]) {
			break
		}
		for _, pq := range [3][2]int{{0, 1}, {0, 2}, {1, 2}} {
			p, q := pq[0], pq[1]
			if m[p][q] == 0 {
				continue
			}
			th := (m[q][q] - m[p][p]) / (2 * m[p][q])
			t := 1 / (math.Abs(th) + math.Sqrt(th*th+1))
			if th < 0 {
				t = -t
			}
			c := 1 / math.Sqrt(t*t+1)
			s := t * c
			for k := range 3 {
				m[k][p], m[k][q] = c*m[k][p]-s*m[k][q], s*m[k][p]+c*m[k][q]
			}
			for k := range 3 {
				m[p][k], m[q][k] = c*m[p][k]-s*m[q][k], s*m[p][k]+c*m[q][k]
			}
			for k := range 3 {
				v[k][p], v[k][q] = c*v[k][p]-s*v[k][q], s*v[k][p]+c*v[k][q]
			}
		}
	}
	limit := 1e-7 * max(m[0][0], m[1][1], m[2][2]) // faces within 0.02° count as one
	var s r3.Vec
	for i := range 3 {
		if m[i][i] <= limit {
			continue
		}
		e := r3.Vec{X: v[0][i], Y: v[1][i], Z: v[2][i]}
		s = r3.Add(s, r3.Scale(r3.Dot(e, b)/m[i][i], e))
	}
	return s
}
