package frame

import (
	"errors"
	"fmt"
	"math"
)

// Vertex is a corner of an outline in m. Bulge is the tangent of a quarter of the angle of the arc
// that leads to the next vertex, positive counter-clockwise; 0 is a straight edge.
type Vertex struct{ X, Y, Bulge float64 }

// Loop is a closed outline; the last vertex leads back to the first. Outer loops run
// counter-clockwise, holes clockwise.
type Loop []Vertex

// Torsion says how Integrate finds the torsion constant.
type Torsion int

const (
	// TorsionAuto takes a closed form for circles, round tubes, rectangles and closed walls of even
	// thickness, and the stress function for everything else.
	TorsionAuto Torsion = iota
	// TorsionStressFunction solves the Prandtl problem by finite elements (milliseconds), together
	// with Cowper's shear coefficients and the shear centre.
	TorsionStressFunction
	// TorsionClosedWall takes the closed-wall form for an outer loop and one hole without looking
	// whether the wall is even.
	TorsionClosedWall
	// TorsionClosedForm takes a closed form where TorsionAuto would; elsewhere it leaves torsion and
	// shear at 0, for a caller that fills them from sections nearby.
	TorsionClosedForm
)

// SectionOptions guide Integrate.
type SectionOptions struct {
	Poisson float64 // Poisson's ratio for the shear coefficients; 0 means 0.3
	Torsion Torsion
	Mesh    float64 // edge of the stress function's elements, m; 0 picks one by the outline's walls
}

// Integrate returns the section enclosed by the loops. Area, centroid and second moments are exact
// for lines and arcs (Green's theorem); torsion, shear areas and shear centre as the options say.
func Integrate(loops []Loop, o SectionOptions) (Section, error) {
	if o.Poisson == 0 {
		o.Poisson = 0.3
	}
	if !(o.Poisson > -1 && o.Poisson <= 0.5) {
		return Section{}, fmt.Errorf("section: Poisson's ratio %g; use -1 to 0.5", o.Poisson)
	}
	loops, err := checkLoops(loops)
	if err != nil {
		return Section{}, fmt.Errorf("section: %w", err)
	}
	var m moments
	box := emptyBox()
	base := loops[0][0] // integrals are taken about a point of the outline, to keep their digits
	for i, l := range loops {
		one := l.moments(base.X, base.Y)
		if one.a == 0 {
			return Section{}, fmt.Errorf("section: loop %d encloses no area", i)
		}
		m.add(one)
		l.grow(&box)
	}
	if !(m.a > 0) {
		return Section{}, errors.New("section: outline encloses no positive area; outer loops run counter-clockwise, holes clockwise")
	}
	x, y := m.x/m.a, m.y/m.a
	s := Section{
		A: m.a, X: x + base.X, Y: y + base.Y,
		Ix: m.yy - y*y*m.a, Iy: m.xx - x*x*m.a, Ixy: m.xy - x*y*m.a,
	}
	s.Left, s.Right = s.X-box.x0, box.x1-s.X
	s.Bottom, s.Top = s.Y-box.y0, box.y1-s.Y
	if o.Torsion != TorsionStressFunction && s.closedForms(loops, box, o) || o.Torsion == TorsionClosedForm {
		return s, nil
	}
	if o.Torsion == TorsionClosedWall {
		return Section{}, fmt.Errorf("section: %d loops are no closed wall; give an outer loop and one hole", len(loops))
	}
	return s.stressFunction(loops, o)
}

// closedForms fills torsion and shear where the outline is one that has them, and reports whether it did.
func (s *Section) closedForms(loops []Loop, box box, o SectionOptions) bool {
	w, h := box.x1-box.x0, box.y1-box.y0
	switch len(loops) {
	case 1:
		if _, _, r, ok := loops[0].circle(); ok {
			s.setTube(2*r, 0, o.Poisson)
			return true
		}
		if a, b, ok := loops[0].rectangle(); ok && o.Torsion != TorsionClosedWall {
			s.J = rectangleTorsion(a, b)
			s.ShearX = s.A * cowperRectangle(o.Poisson)
			s.ShearY = s.ShearX
			return true
		}
	case 2:
		outer, inner := loops[0], loops[1]
		if inner.moments(0, 0).a > 0 {
			outer, inner = inner, outer
		}
		X, Y, R, outerRound := outer.circle()
		x, y, r, innerRound := inner.circle()
		if outerRound && innerRound && math.Hypot(X-x, Y-y) < 1e-9*R {
			s.setTube(2*R, 2*r, o.Poisson)
			return true
		}
		Ao, po := outer.moments(outer[0].X, outer[0].Y).a, outer.length()
		Ai, pi := -inner.moments(inner[0].X, inner[0].Y).a, inner.length()
		bore := emptyBox()
		inner.grow(&bore)
		t := (w - (bore.x1 - bore.x0)) / 2
		if Ai <= 0 || Ao <= Ai || !(t > 0) {
			return false
		}
		r, even := hollowBox(w, h, t, Ao, po, Ai, pi)
		switch {
		case even && outer.evenWall(inner, t):
			s.J = boxTorsion(w, h, r, t)
		case o.Torsion == TorsionClosedWall:
			t = 2 * (Ao - Ai) / (po + pi)
			s.J = closedWall(t, Ao, po, pi)
		default:
			return false
		}
		s.ShearX = s.A * shearOfWall(h, w, t, Ao, o.Poisson)
		s.ShearY = s.A * shearOfWall(w, h, t, Ao, o.Poisson)
		return true
	}
	return false
}

// hollowBox reports whether areas and lengths are those of a hollow rectangle w × h with a wall t, and
// the radius of its outer corners.
func hollowBox(w, h, t, Ao, po, Ai, pi float64) (r float64, ok bool) {
	// each corner takes (1 - π/4) r² of area and (2 - π/2) r of length
	corner := func(w, h, A, p float64) (r float64, ok bool) {
		r = (2*(w+h) - p) / (8 - 2*math.Pi)
		return r, math.Abs(w*h-(4-math.Pi)*r*r-A) < 1e-4*A
	}
	r, outerOK := corner(w, h, Ao, po)
	ri, innerOK := corner(w-2*t, h-2*t, Ai, pi)
	r = math.Max(r, 0)
	return r, outerOK && innerOK && math.Abs(ri-math.Max(r-t, 0)) < 0.05*t
}

func (s *Section) setTube(D, d, nu float64) {
	s.J = s.Ix + s.Iy
	s.ShearX = s.A * cowperTube(d/D, nu)
	s.ShearY = s.ShearX
	s.Circular = true
}

// checkLoops returns the loops without edges of no length, or the first fault.
func checkLoops(loops []Loop) ([]Loop, error) {
	if len(loops) == 0 {
		return nil, errors.New("no loops")
	}
	for i, l := range loops {
		size := emptyBox()
		for k, v := range l {
			if !finite(v.X, v.Y, v.Bulge) {
				return nil, fmt.Errorf("loop %d vertex %d is not finite", i, k)
			}
			size.include(v.X, v.Y)
		}
		least := 1e-9 * math.Hypot(size.x1-size.x0, size.y1-size.y0)
		short := func(k int) bool {
			n := l[(k+1)%len(l)]
			return math.Hypot(n.X-l[k].X, n.Y-l[k].Y) <= least
		}
		for k := range l {
			if !short(k) {
				continue
			}
			var kept Loop
			for k, v := range l {
				if !short(k) {
					kept = append(kept, v)
				}
			}
			loops = append([]Loop(nil), loops...)
			l, loops[i] = kept, kept
			break
		}
		if len(l) < 2 {
			return nil, fmt.Errorf("loop %d has %d edges; it needs two arcs or three edges", i, len(l))
		}
	}
	return loops, nil
}

// moments are the integrals of 1, x, y, x², y², xy over an outline.
type moments struct{ a, x, y, xx, yy, xy float64 }

func (m *moments) add(o moments) {
	m.a += o.a
	m.x += o.x
	m.y += o.y
	m.xx += o.xx
	m.yy += o.yy
	m.xy += o.xy
}

// moments integrates over the loop about the point (ox, oy).
func (l Loop) moments(ox, oy float64) moments {
	var m moments
	for k, p := range l {
		q := l[(k+1)%len(l)]
		x0, y0, x1, y1 := p.X-ox, p.Y-oy, q.X-ox, q.Y-oy
		c := x0*y1 - x1*y0
		m.a += c / 2
		m.x += c * (x0 + x1) / 6
		m.y += c * (y0 + y1) / 6
		m.xx += c * (x0*x0 + x0*x1 + x1*x1) / 12
		m.yy += c * (y0*y0 + y0*y1 + y1*y1) / 12
		m.xy += c * (2*x0*y0 + x0*y1 + x1*y0 + 2*x1*y1) / 24
		if p.Bulge != 0 {
			a := arcOf(p, q)
			a.x -= ox
			a.y -= oy
			m.add(a.segment())
		}
	}
	return m
}

// arc is a circular edge: its centre, radius and signed angle, and the unit vector from the centre
// to the middle of the arc.
type arc struct{ x, y, r, angle, ux, uy float64 }

func arcOf(p, q Vertex) arc {
	dx, dy := q.X-p.X, q.Y-p.Y
	chord := math.Hypot(dx, dy)
	b := math.Abs(p.Bulge)
	sign := math.Copysign(1, p.Bulge)
	// sin and cos of half the angle from the bulge, tan of a quarter
	sin, cos := 2*b/(1+b*b), (1-b*b)/(1+b*b)
	r := chord / (2 * sin)
	ux, uy := sign*dy/chord, -sign*dx/chord
	return arc{
		x: (p.X+q.X)/2 - ux*r*cos, y: (p.Y+q.Y)/2 - uy*r*cos,
		r: r, angle: sign * 4 * math.Atan(b), ux: ux, uy: uy,
	}
}

// segment integrates over the area between the arc and its chord, negative where the arc runs clockwise.
func (a arc) segment() moments {
	angle, sign := math.Abs(a.angle), math.Copysign(1, a.angle)
	sinHalf := math.Sin(angle / 2)
	sin := math.Sin(angle)
	r2 := a.r * a.r
	A := r2 / 2 * (angle - sin)
	U := 2.0 / 3 * r2 * a.r * sinHalf * sinHalf * sinHalf
	UU := r2 * r2 / 8 * (angle - sin + 2*sin*sinHalf*sinHalf)
	VV := r2 * r2 / 24 * (3*angle - 3*sin - 2*sin*sinHalf*sinHalf)
	return moments{
		a:  sign * A,
		x:  sign * (a.x*A + a.ux*U),
		y:  sign * (a.y*A + a.uy*U),
		xx: sign * (a.x*a.x*A + 2*a.x*a.ux*U + a.ux*a.ux*UU + a.uy*a.uy*VV),
		yy: sign * (a.y*a.y*A + 2*a.y*a.uy*U + a.uy*a.uy*UU + a.ux*a.ux*VV),
		xy: sign * (a.x*a.y*A + (a.x*a.uy+a.y*a.ux)*U + a.ux*a.uy*(UU-VV)),
	}
}

// at returns the point at a share 0..1 of the arc.
func (a arc) at(share float64) (x, y float64) {
	sin, cos := math.Sincos((share - 0.5) * a.angle)
	return a.x + a.r*(cos*a.ux-sin*a.uy), a.y + a.r*(sin*a.ux+cos*a.uy)
}

// holds reports whether the direction (dx, dy) from the centre meets the arc.
func (a arc) holds(dx, dy float64) bool {
	return dx*a.ux+dy*a.uy >= math.Cos(a.angle/2)*math.Hypot(dx, dy)
}

// length returns the length of the loop in m.
func (l Loop) length() float64 {
	var sum float64
	for k, p := range l {
		q := l[(k+1)%len(l)]
		if p.Bulge == 0 {
			sum += math.Hypot(q.X-p.X, q.Y-p.Y)
		} else {
			a := arcOf(p, q)
			sum += a.r * math.Abs(a.angle)
		}
	}
	return sum
}

type box struct{ x0, y0, x1, y1 float64 }

func emptyBox() box {
	return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

func (b *box) include(x, y float64) {
	b.x0, b.x1 = math.Min(b.x0, x), math.Max(b.x1, x)
	b.y0, b.y1 = math.Min(b.y0, y), math.Max(b.y1, y)
}

// grow widens the box until it holds the loop, arcs included.
func (l Loop) grow(b *box) {
	for k, p := range l {
		b.include(p.X, p.Y)
		if p.Bulge == 0 {
			continue
		}
		a := arcOf(p, l[(k+1)%len(l)])
		for _, d := range [4][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			if a.holds(d[0], d[1]) {
				b.include(a.x+a.r*d[0], a.y+a.r*d[1])
			}
		}
	}
}

// circle reports whether the loop is one whole circle, and which.
func (l Loop) circle() (x, y, r float64, ok bool) {
	for k, p := range l {
		if p.Bulge == 0 {
			return 0, 0, 0, false
		}
		a := arcOf(p, l[(k+1)%len(l)])
		if k == 0 {
			x, y, r = a.x, a.y, a.r
		} else if math.Hypot(a.x-x, a.y-y) > 1e-9*r || math.Abs(a.r-r) > 1e-9*r {
			return 0, 0, 0, false
		}
	}
	return x, y, r, true
}

// rectangle reports whether the loop is a rectangle, at any angle, and its sides.
func (l Loop) rectangle() (a, b float64, ok bool) {
	if len(l) != 4 {
		return 0, 0, false
	}
	var e [4][2]float64
	for k, p := range l {
		if p.Bulge != 0 {
			return 0, 0, false
		}
		q := l[(k+1)%4]
		e[k] = [2]float64{q.X - p.X, q.Y - p.Y}
	}
	a, b = math.Hypot(e[0][0], e[0][1]), math.Hypot(e[1][0], e[1][1])
	square := math.Abs(e[0][0]*e[1][0]+e[0][1]*e[1][1]) < 1e-9*a*b
	closed := math.Hypot(e[0][0]+e[2][0], e[0][1]+e[2][1]) < 1e-9*a
	return a, b, square && closed
}

// evenWall reports whether every edge of the inner loop lies the distance t inside the loop.
func (l Loop) evenWall(inner Loop, t float64) bool {
	for k, p := range inner {
		q := inner[(k+1)%len(inner)]
		x, y := (p.X+q.X)/2, (p.Y+q.Y)/2
		if p.Bulge != 0 {
			x, y = arcOf(p, q).at(0.5)
		}
		if d := l.distance(x, y); math.Abs(d-t) > 0.03*t {
			return false
		}
	}
	return true
}

// distance returns the distance in m from a point to the loop.
func (l Loop) distance(x, y float64) float64 {
	least := math.Inf(1)
	for k, p := range l {
		q := l[(k+1)%len(l)]
		if p.Bulge != 0 {
			a := arcOf(p, q)
			if a.holds(x-a.x, y-a.y) {
				least = math.Min(least, math.Abs(math.Hypot(x-a.x, y-a.y)-a.r))
			}
			least = math.Min(least, math.Hypot(x-p.X, y-p.Y))
			continue
		}
		dx, dy := q.X-p.X, q.Y-p.Y
		s := ((x-p.X)*dx + (y-p.Y)*dy) / (dx*dx + dy*dy)
		s = math.Min(math.Max(s, 0), 1)
		least = math.Min(least, math.Hypot(x-p.X-s*dx, y-p.Y-s*dy))
	}
	return least
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
