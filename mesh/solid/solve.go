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
	for range 30 {
		var a [6]float64 // JᵀJ: xx, yy, zz, xy, xz, yz
		var b r3.Vec     // Jᵀ residual
		worst := 0.0
		add := func(v float64, g r3.Vec) {
			worst = max(worst, math.Abs(v))
			a[0] += g.X * g.X
			a[1] += g.Y * g.Y
			a[2] += g.Z * g.Z
			a[3] += g.X * g.Y
			a[4] += g.X * g.Z
			a[5] += g.Y * g.Z
			b = r3.Add(b, r3.Scale(v, g))
		}
		for i, f := range t.faces {
			if !t.spare[i] {
				add(t.p.sites[f].at(x))
			}
		}
		for _, c := range t.cuts {
			add(c.at(x))
		}
		if worst < exact {
			return x, r3.Norm(r3.Sub(x, from)) <= reach && t.agree(x)
		}
		x = r3.Sub(x, leastSquares(a, b))
		if !(r3.Norm(r3.Sub(x, from)) <= 4*reach) {
			return x, false
		}
	}
	return x, false
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

// leastSquares returns the shortest s with A s = b for a symmetric A given as
// xx, yy, zz, xy, xz, yz, leaving out directions in which A is nearly zero.
func leastSquares(a [6]float64, b r3.Vec) r3.Vec {
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
