package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// matrix12 is an element matrix over the twelve freedoms of its two ends.
type matrix12 [12][12]float64

// element is one beam element after it was turned into the body's axes and onto its nodes' freedoms.
type element struct {
	a, b       int    // places: nodes of the model first, then the members' own
	armA, armB r3.Vec // from the node that carries the freedoms to the end of the element
	k, m       *matrix12
	strain     *strain
}

// strain is the stiffness of an element against the six ways its ends move relative to each other.
// Energy taken from those keeps the digits that the sums over whole displacements lose.
type strain struct {
	axes         [3]r3.Vec // principal
	L            float64
	axial, twist float64
	bend1, bend2 [3]float64 // movement and slope of the far end: uu, ut, tt
	c1, c2       float64    // shear centre
}

// energy returns twice the strain energy under the displacements of the two ends.
func (s *strain) energy(a, b Displacement) float64 {
	move, turn := r3.Sub(b.Move, a.Move), r3.Sub(b.Turn, a.Turn)
	u1, u2, u3 := r3.Dot(move, s.axes[0]), r3.Dot(move, s.axes[1]), r3.Dot(move, s.axes[2])
	t1, t2, t3 := r3.Dot(turn, s.axes[0]), r3.Dot(turn, s.axes[1]), r3.Dot(turn, s.axes[2])
	u1 -= s.L*r3.Dot(a.Turn, s.axes[1]) + s.c2*t3
	u2 += s.L*r3.Dot(a.Turn, s.axes[0]) + s.c1*t3
	form := func(k *[3]float64, u, t float64) float64 { return k[0]*u*u + 2*k[1]*u*t + k[2]*t*t }
	return s.axial*u3*u3 + s.twist*t3*t3 + form(&s.bend1, u1, t2) + form(&s.bend2, u2, -t1)
}

// rootedStation keeps the figures of a station as roots that vary linearly with the outline's
// dimensions; askew is Ixy over the root of Ix Iy.
type rootedStation struct {
	at, area, ix, iy, askew, j, shearX, shearY, mass float64
	cx, cy                                           float64
}

func root4(v float64) float64 { return math.Sqrt(math.Sqrt(v)) }

func rooted(s Station, density float64) rootedStation {
	c := s.Section
	mass := s.Mass
	if mass == 0 {
		mass = density * c.A
	}
	return rootedStation{
		at: s.At, area: math.Sqrt(c.A), ix: root4(c.Ix), iy: root4(c.Iy), askew: c.Ixy / math.Sqrt(c.Ix*c.Iy), j: root4(c.J),
		shearX: math.Sqrt(c.ShearX), shearY: math.Sqrt(c.ShearY), mass: math.Sqrt(mass),
		cx: c.ShearCentreX, cy: c.ShearCentreY,
	}
}

// slice is a section at one point of an element, about its principal axes.
type slice struct {
	area, i1, i2, j, shear1, shear2, mass float64
	angle                                 float64
	c1, c2                                float64 // shear centre
}

// sliceAt interpolates the stations at a share of the member.
func sliceAt(stations []rootedStation, share float64) slice {
	s := stations[0]
	if len(stations) > 1 {
		k := 1
		for k < len(stations)-1 && stations[k].at < share {
			k++
		}
		p, q := stations[k-1], stations[k]
		f := (share - p.at) / (q.at - p.at)
		mix := func(a, b float64) float64 { return a + f*(b-a) }
		s = rootedStation{
			area: mix(p.area, q.area), ix: mix(p.ix, q.ix), iy: mix(p.iy, q.iy), askew: mix(p.askew, q.askew), j: mix(p.j, q.j),
			shearX: mix(p.shearX, q.shearX), shearY: mix(p.shearY, q.shearY), mass: mix(p.mass, q.mass),
			cx: mix(p.cx, q.cx), cy: mix(p.cy, q.cy),
		}
	}
	square := func(v float64) float64 { return v * v }
	power4 := func(v float64) float64 { return v * v * v * v }
	i1, i2, angle := Section{Ix: power4(s.ix), Iy: power4(s.iy), Ixy: s.askew * square(s.ix*s.iy)}.Principal()
	cos, sin := 1.0, 0.0
	if angle != 0 {
		sin, cos = math.Sincos(angle)
	}
	return slice{
		area: square(s.area), i1: i1, i2: i2, j: power4(s.j), shear1: square(s.shearX), shear2: square(s.shearY),
		mass: square(s.mass), angle: angle, c1: cos*s.cx + sin*s.cy, c2: cos*s.cy - sin*s.cx,
	}
}

// gauss4 holds abscissae and weights of the four-point rule on 0..1, exact to the seventh power.
var gauss4 = [4][2]float64{
	{0.06943184420297371, 0.17392742256872692},
	{0.33000947820757187, 0.32607257743127308},
	{0.66999052179242813, 0.32607257743127308},
	{0.93056815579702629, 0.17392742256872692},
}

// beam is what local computes of one element.
type beam struct {
	k, m   matrix12
	strain strain
}

// local sets stiffness and mass of an element of length L over the shares from..to of its
// member, in principal axes, freedoms u1 u2 u3 r1 r2 r3 at each end with 3 along the axis. It returns
// the angle of those axes.
//
// The stiffness is the inverse of the end flexibility (Przemieniecki, Theory of Matrix Structural
// Analysis, 1968, chapter 5), integrated over the taper, so that an element carries end loads exactly
// however its section varies. The mass is consistent with rotary inertia, on the shapes of Friedman &
// Kosmatka, Comput. Struct. 47 (1993) 473-481, for the element's mean ratio of bending to shear.
func (b *beam) local(stations []rootedStation, mat Elastic, L, from, to float64) (angle float64) {
	k, m := &b.k, &b.m
	var slices [4]slice
	for g, p := range gauss4 {
		slices[g] = sliceAt(stations, from+p[0]*(to-from))
	}
	var axial, twist, c1, c2 float64
	var bend1, bend2 flexibility // moving along 1 and along 2
	for g, p := range gauss4 {
		s, w := &slices[g], p[1]*L
		axial += w / (mat.E * s.area)
		twist += w / (mat.G * s.j)
		bend1.add(w, L*(1-p[0]), mat.E*s.i2, mat.G*s.shear1)
		bend2.add(w, L*(1-p[0]), mat.E*s.i1, mat.G*s.shear2)
		angle += p[1] * s.angle
		c1 += p[1] * s.c1
		c2 += p[1] * s.c2
	}
	st := strain{L: L, axial: 1 / axial, twist: 1 / twist, bend1: bend1.inverse(), bend2: bend2.inverse(), c1: c1, c2: c2}
	b.strain = st
	pair(k, 2, 8, st.axial)
	pair(k, 5, 11, st.twist)
	// along 1 the slope is +r2, along 2 it is -r1
	plane(k, [4]int{0, 4, 6, 10}, 1, ends(st.bend1, L))
	plane(k, [4]int{1, 3, 7, 9}, -1, ends(st.bend2, L))
	if c1 != 0 || c2 != 0 {
		k.twistAbout(c1, c2)
	}

	shape1, shape2 := shapes{ratio: bend1.ratio(L), L: L}, shapes{ratio: bend2.ratio(L), L: L}
	var mass1, mass2 [4][4]float64
	var lin [2][2]float64
	var spin [2][2]float64
	for g, p := range gauss4 {
		s := &slices[g]
		w := p[1] * L * s.mass
		rotary1, rotary2 := s.i1/s.area, s.i2/s.area
		n := [2]float64{1 - p[0], p[0]}
		for r := range 2 {
			for c := range 2 {
				lin[r][c] += w * n[r] * n[c]
				spin[r][c] += w * (rotary1 + rotary2) * n[r] * n[c]
			}
		}
		shape1.add(&mass1, p[0], w, rotary2)
		shape2.add(&mass2, p[0], w, rotary1)
	}
	for r := range 2 {
		for c := range 2 {
			m[2+6*r][2+6*c] = lin[r][c]
			m[5+6*r][5+6*c] = spin[r][c]
		}
	}
	plane(m, [4]int{0, 4, 6, 10}, 1, mass1)
	plane(m, [4]int{1, 3, 7, 9}, -1, mass2)
	return angle
}

// flexibility of a cantilever's end in one plane: movement and slope there under a force and a
// moment there.
type flexibility struct{ uu, ut, tt, shear float64 }

// add integrates over dz at the lever arm from the loaded end; a shear stiffness of 0 has no shear flexibility.
func (f *flexibility) add(dz, lever, EI, GA float64) {
	f.uu += dz * lever * lever / EI
	f.ut += dz * lever / EI
	f.tt += dz / EI
	if GA > 0 {
		f.shear += dz / GA
	}
}

// inverse returns the stiffness of the far end: uu, ut, tt.
func (f *flexibility) inverse() [3]float64 {
	uu := f.uu + f.shear
	det := uu*f.tt - f.ut*f.ut
	return [3]float64{f.tt / det, -f.ut / det, uu / det}
}

// ends spreads the stiffness of the far end over both, by balance.
func ends(far [3]float64, L float64) (k [4][4]float64) {
	// relative motion of the far end: u2 - u1 - L t1, t2 - t1
	h := [2][4]float64{{-1, -L, 1, 0}, {0, -1, 0, 1}}
	for r := range 4 {
		for s := range 4 {
			k[r][s] = h[0][r]*(far[0]*h[0][s]+far[1]*h[1][s]) + h[1][r]*(far[1]*h[0][s]+far[2]*h[1][s])
		}
	}
	return k
}

// ratio is 12 EI/(GA L²) of the mean section.
func (f *flexibility) ratio(L float64) float64 { return 12 * f.shear / (f.tt * L * L) }

// shapes are the movement and slope between two ends in one plane.
type shapes struct{ ratio, L float64 }

func (s shapes) add(m *[4][4]float64, x, w, rotary float64) {
	p, L := s.ratio, s.L
	q := 1 / (1 + p)
	u := [4]float64{
		q * (1 - 3*x*x + 2*x*x*x + p*(1-x)),
		q * L * (x - 2*x*x + x*x*x + p/2*(x-x*x)),
		q * (3*x*x - 2*x*x*x + p*x),
		q * L * (x*x*x - x*x - p/2*(x-x*x)),
	}
	t := [4]float64{
		q * 6 / L * (x*x - x),
		q * (1 - 4*x + 3*x*x + p*(1-x)),
		q * 6 / L * (x - x*x),
		q * (3*x*x - 2*x + p*x),
	}
	for r := range 4 {
		for c := range 4 {
			m[r][c] += w * (u[r]*u[c] + rotary*t[r]*t[c])
		}
	}
}

func pair(k *matrix12, i, j int, v float64) {
	k[i][i], k[j][j], k[i][j], k[j][i] = v, v, -v, -v
}

// plane places a matrix over (u, slope, u, slope) on freedoms whose rotation is slope × sign.
func plane(k *matrix12, at [4]int, sign float64, b [4][4]float64) {
	s := [4]float64{1, sign, 1, sign}
	for r := range 4 {
		for c := range 4 {
			k[at[r]][at[c]] = s[r] * s[c] * b[r][c]
		}
	}
}

// twistAbout moves a stiffness from the shear centre to the centroid: the shear centre at (c1, c2)
// moves by -c2 along 1 and +c1 along 2 per radian of twist.
func (k *matrix12) twistAbout(c1, c2 float64) {
	for _, e := range [2]int{0, 6} {
		for r := range 12 {
			k[r][e+5] += -c2*k[r][e] + c1*k[r][e+1]
		}
	}
	for _, e := range [2]int{0, 6} {
		for c := range 12 {
			k[e+5][c] += -c2*k[e][c] + c1*k[e+1][c]
		}
	}
}

// turn takes a matrix from axes (unit vectors in body axes) to body axes.
func (k *matrix12) turn(axes [3]r3.Vec) {
	if axes == ([3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}) {
		return
	}
	R := [3][3]float64{
		{axes[0].X, axes[0].Y, axes[0].Z},
		{axes[1].X, axes[1].Y, axes[1].Z},
		{axes[2].X, axes[2].Y, axes[2].Z},
	}
	for r := 0; r < 12; r += 3 {
		for c := 0; c < 12; c += 3 {
			var half [3][3]float64
			for i := range 3 {
				for j := range 3 {
					half[i][j] = k[r+i][c]*R[0][j] + k[r+i][c+1]*R[1][j] + k[r+i][c+2]*R[2][j]
				}
			}
			for i := range 3 {
				for j := range 3 {
					k[r+i][c+j] = R[0][i]*half[0][j] + R[1][i]*half[1][j] + R[2][i]*half[2][j]
				}
			}
		}
	}
}

// offset moves the ends of a matrix in body axes onto nodes that are armA and armB away from them:
// an end moves by u + r × arm.
func (k *matrix12) offset(armA, armB r3.Vec) {
	for e, a := range [2]r3.Vec{armA, armB} {
		if a == (r3.Vec{}) {
			continue
		}
		s := 6 * e
		for r := range 12 {
			x, y, z := k[r][s], k[r][s+1], k[r][s+2]
			k[r][s+3] += a.Y*z - a.Z*y
			k[r][s+4] += a.Z*x - a.X*z
			k[r][s+5] += a.X*y - a.Y*x
		}
		for c := range 12 {
			x, y, z := k[s][c], k[s+1][c], k[s+2][c]
			k[s+3][c] += a.Y*z - a.Z*y
			k[s+4][c] += a.Z*x - a.X*z
			k[s+5][c] += a.X*y - a.Y*x
		}
	}
}

// principal turns section axes by an angle about the member's own.
func principal(axes [3]r3.Vec, angle float64) [3]r3.Vec {
	if angle == 0 {
		return axes
	}
	sin, cos := math.Sincos(angle)
	return [3]r3.Vec{
		r3.Add(r3.Scale(cos, axes[0]), r3.Scale(sin, axes[1])),
		r3.Sub(r3.Scale(cos, axes[1]), r3.Scale(sin, axes[0])),
		axes[2],
	}
}
