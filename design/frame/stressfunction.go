package frame

import (
	"fmt"
	"math"
)

// stressFunction fills torsion, shear areas and shear centre from finite elements over the outline:
// six-node triangles with curved edges.
//
// Torsion is Prandtl's problem, ∇²φ = -2 with φ zero on the outer loop and constant on each hole,
// J = 2∫φ + 2Σ φ_hole A_hole (Timoshenko & Goodier, Theory of Elasticity, arts. 104 and 115). Shear
// coefficients are Cowper's integral over his flexure function (J. Appl. Mech. 33, 1966, eq. for k),
// in principal axes; the shear centre is Trefftz's, from the warping function.
func (s Section) stressFunction(loops []Loop, o SectionOptions) (Section, error) {
	outer := 0
	var length float64
	hole := make([]float64, len(loops)) // area of a hole, 0 for the outer loop
	for i, l := range loops {
		a := l.moments(l[0].X, l[0].Y).a
		length += l.length()
		if a > 0 {
			outer++
		} else {
			hole[i] = -a
		}
	}
	if outer != 1 {
		return Section{}, fmt.Errorf("section: %d separate outlines; integrate each on its own", outer)
	}
	size := o.Mesh
	if size == 0 {
		size = 2 * s.A / length / 4 // a quarter of the mean wall
	} else if !(size > 0) {
		return Section{}, fmt.Errorf("section: element edge %g m; use a length above zero, or 0", size)
	}
	i1, i2, angle := s.Principal()
	mesh, err := meshOutline(loops, size)
	if err != nil {
		return Section{}, fmt.Errorf("section: %w", err)
	}
	mesh.move(s.X, s.Y, angle)

	J, err := mesh.prandtl(hole)
	if err != nil {
		return Section{}, fmt.Errorf("section: %w", err)
	}
	s.J = J
	f, err := mesh.flexure(o.Poisson)
	if err != nil {
		return Section{}, fmt.Errorf("section: %w", err)
	}
	nu := o.Poisson
	s.ShearX = s.A * 2 * (1 + nu) * i2 / (nu/2*(i1-i2) - s.A/i2*f.alongX)
	s.ShearY = s.A * 2 * (1 + nu) * i1 / (nu/2*(i2-i1) - s.A/i1*f.alongY)
	c1, c2 := -f.warpY/i1, f.warpX/i2
	sin, cos := math.Sincos(angle)
	s.ShearCentreX, s.ShearCentreY = cos*c1-sin*c2, sin*c1+cos*c2
	return s, nil
}

// quadratic is a mesh of six-node triangles: corners, then the middles of edges 0-1, 1-2, 2-0.
type quadratic struct {
	x, y   []float64
	tri    [][6]int
	onLoop []int // the loop a node lies on, or -1
}

func meshOutline(loops []Loop, size float64) (*quadratic, error) {
	t, err := triangulate(loops, size, nil)
	if err != nil {
		return nil, err
	}
	q := &quadratic{x: t.x, y: t.y, onLoop: make([]int, len(t.x), 4*len(t.x))}
	for i := range q.onLoop {
		q.onLoop[i] = -1
	}
	middle := make(map[[2]int]int, 3*len(t.x))
	for _, e := range t.edges {
		x, y := e.middle(t.x, t.y)
		q.x, q.y = append(q.x, x), append(q.y, y)
		middle[[2]int{e.a, e.b}] = len(q.x) - 1
		q.onLoop[e.a], q.onLoop[e.b] = e.loop, e.loop
		q.onLoop = append(q.onLoop, e.loop)
	}
	for _, c := range t.tri {
		n := [6]int{c[0], c[1], c[2]}
		for i := range 3 {
			a, b := c[i], c[(i+1)%3]
			m, ok := middle[[2]int{a, b}]
			if !ok {
				m, ok = middle[[2]int{b, a}]
			}
			if !ok {
				q.x, q.y = append(q.x, (q.x[a]+q.x[b])/2), append(q.y, (q.y[a]+q.y[b])/2)
				q.onLoop = append(q.onLoop, -1)
				m = len(q.x) - 1
				middle[[2]int{a, b}] = m
			}
			n[3+i] = m
		}
		q.tri = append(q.tri, n)
	}
	return q, nil
}

// move shifts the origin to (x, y) and turns the axes by an angle.
func (q *quadratic) move(x, y, angle float64) {
	sin, cos := math.Sincos(angle)
	for i := range q.x {
		dx, dy := q.x[i]-x, q.y[i]-y
		q.x[i], q.y[i] = cos*dx+sin*dy, cos*dy-sin*dx
	}
}

// triangle6 is a six-point rule, exact to the fourth power (Dunavant, Int. J. Numer. Meth. Eng. 21, 1985).
var triangle6 = [6][3]float64{ // two area coordinates and the weight
	{0.445948490915965, 0.445948490915965, 0.111690794839005},
	{0.445948490915965, 0.108103018168070, 0.111690794839005},
	{0.108103018168070, 0.445948490915965, 0.111690794839005},
	{0.091576213509771, 0.091576213509771, 0.054975871827661},
	{0.091576213509771, 0.816847572980459, 0.054975871827661},
	{0.816847572980459, 0.091576213509771, 0.054975871827661},
}

// point is what an element knows at one point of the rule.
type point struct {
	x, y, weight float64
	n, dx, dy    [6]float64 // shapes and their derivatives
}

// each calls do at every point of the rule in every element.
func (q *quadratic) each(do func(n *[6]int, p *point)) {
	var p point
	for e := range q.tri {
		n := &q.tri[e]
		for _, g := range triangle6 {
			r, s := g[0], g[1]
			t := 1 - r - s
			p.n = [6]float64{t * (2*t - 1), r * (2*r - 1), s * (2*s - 1), 4 * t * r, 4 * r * s, 4 * s * t}
			dr := [6]float64{1 - 4*t, 4*r - 1, 0, 4 * (t - r), 4 * s, -4 * s}
			ds := [6]float64{1 - 4*t, 0, 4*s - 1, -4 * r, 4 * r, 4 * (t - s)}
			var xr, xs, yr, ys float64
			p.x, p.y = 0, 0
			for i, k := range n {
				p.x += p.n[i] * q.x[k]
				p.y += p.n[i] * q.y[k]
				xr += dr[i] * q.x[k]
				xs += ds[i] * q.x[k]
				yr += dr[i] * q.y[k]
				ys += ds[i] * q.y[k]
			}
			det := xr*ys - xs*yr
			p.weight = g[2] * det
			for i := range p.dx {
				p.dx[i] = (ys*dr[i] - yr*ds[i]) / det
				p.dy[i] = (xr*ds[i] - xs*dr[i]) / det
			}
			do(n, &p)
		}
	}
}

// laplace assembles ∫∇u·∇v over the unknowns that eq gives the nodes; -1 is a zero.
func (q *quadratic) laplace(eq []int) *envelope {
	n := 0
	for _, e := range eq {
		n = max(n, e+1)
	}
	first := make([]int, n)
	for i := range first {
		first[i] = i
	}
	for _, c := range q.tri {
		least := n
		for _, k := range c {
			if eq[k] >= 0 {
				least = min(least, eq[k])
			}
		}
		for _, k := range c {
			if eq[k] >= 0 {
				first[eq[k]] = min(first[eq[k]], least)
			}
		}
	}
	m := newEnvelope(first)
	q.each(func(c *[6]int, p *point) {
		for i, a := range c {
			for j := range i + 1 {
				if ea, eb := eq[a], eq[c[j]]; ea >= 0 && eb >= 0 {
					v := p.weight * (p.dx[i]*p.dx[j] + p.dy[i]*p.dy[j])
					if ea == eb && i != j {
						v *= 2 // both halves fall on one diagonal
					}
					m.add(ea, eb, v)
				}
			}
		}
	})
	return m
}

// ordered numbers the nodes for which keep is true, neighbours close together.
func (q *quadratic) ordered(keep func(node int) bool) (eq []int, count int) {
	joined := make([][]int, len(q.x))
	for _, c := range q.tri {
		for _, a := range c {
			for _, b := range c {
				if a != b {
					joined[a] = append(joined[a], b)
				}
			}
		}
	}
	eq = make([]int, len(q.x))
	for _, k := range cuthillMcKee(joined) {
		eq[k] = -1
		if len(joined[k]) > 0 && keep(k) {
			eq[k] = count
			count++
		}
	}
	return eq, count
}

// prandtl returns the torsion constant; hole holds the area of each loop that is a hole.
func (q *quadratic) prandtl(hole []float64) (J float64, err error) {
	eq, n := q.ordered(func(k int) bool { return q.onLoop[k] < 0 })
	constant := make([]int, len(hole))
	for l, a := range hole {
		constant[l] = -1
		if a > 0 { // one unknown for all its nodes, after the rest
			constant[l] = n
			n++
		}
	}
	for k, l := range q.onLoop {
		if l >= 0 {
			eq[k] = constant[l]
		}
	}
	if n == 0 {
		return 0, fmt.Errorf("mesh has no node inside; use smaller elements")
	}
	f, bad, _ := q.laplace(eq).reduce(nil, false)
	if bad >= 0 {
		return 0, errMesh
	}
	load := make([]float64, n)
	q.each(func(c *[6]int, p *point) {
		for i, k := range c {
			if eq[k] >= 0 {
				load[eq[k]] += 2 * p.weight * p.n[i]
			}
		}
	})
	for l, e := range constant {
		if e >= 0 {
			load[e] += 2 * hole[l]
		}
	}
	phi := append([]float64(nil), load...)
	f.solve(phi)
	return dot(phi, load), nil
}

// flexures are ∫x(χ + xy²), ∫y(χ' + yx²) of Cowper's functions for forces along x and y, and
// ∫xω, ∫yω of the warping function.
type flexures struct{ alongX, alongY, warpX, warpY float64 }

func (q *quadratic) flexure(nu float64) (flexures, error) {
	eq, n := q.ordered(func(k int) bool { return true })
	held := make([]bool, n)
	held[0] = true // the functions are free by a constant, which the integrals about the centroid do not see
	f, bad, _ := q.laplace(eq).reduce(held, false)
	if bad >= 0 {
		return flexures{}, errMesh
	}
	// ∇²u = 0 with a boundary flux F·n: ∫∇u·∇v = ∫F·∇v + ∫v div F
	chiX, chiY, warp := make([]float64, n), make([]float64, n), make([]float64, n)
	q.each(func(c *[6]int, p *point) {
		x, y, w := p.x, p.y, p.weight
		for i, k := range c {
			e := eq[k]
			chiX[e] -= w * (p.dx[i]*(nu/2*x*x+(1-nu/2)*y*y) + p.dy[i]*(2+nu)*x*y + p.n[i]*2*(1+nu)*x)
			chiY[e] -= w * (p.dy[i]*(nu/2*y*y+(1-nu/2)*x*x) + p.dx[i]*(2+nu)*x*y + p.n[i]*2*(1+nu)*y)
			warp[e] += w * (p.dx[i]*y - p.dy[i]*x)
		}
	})
	for _, u := range [][]float64{chiX, chiY, warp} {
		f.solve(u)
	}
	var out flexures
	q.each(func(c *[6]int, p *point) {
		x, y, w := p.x, p.y, p.weight
		var cx, cy, om float64
		for i, k := range c {
			cx += p.n[i] * chiX[eq[k]]
			cy += p.n[i] * chiY[eq[k]]
			om += p.n[i] * warp[eq[k]]
		}
		out.alongX += w * x * (cx + x*y*y)
		out.alongY += w * y * (cy + y*x*x)
		out.warpX += w * x * om
		out.warpY += w * y * om
	})
	return out, nil
}
