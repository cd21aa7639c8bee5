package frame

import (
	"errors"
	"fmt"
	"math"
)

// PlateEdge says how the outer outline of a plate is held.
type PlateEdge int

const (
	EdgeFree      PlateEdge = iota
	EdgeSupported           // no movement across the plate
	EdgeClamped             // and no slope
)

// Pin is a point where a plate is held.
type Pin struct {
	X, Y    float64 // m
	Clamped bool    // slopes are held too; a screw in a thin plate is a pin without it
}

// Plate is a thin plate of even thickness in the plane of x and y that carries a rigid hub: the foot
// under a mast, or the top plate of an airframe under a foot.
type Plate struct {
	// Outline is the outer loop, counter-clockwise, then holes, m. A hole within the hub or around a
	// pin or tie, a screw's own, counts as filled.
	Outline   []Loop
	Thickness float64
	E         float64 // Young's modulus in bending, Pa
	Poisson   float64
	Hub       Loop // outline of the rigid part, m; may be empty where Ties carry the hub
	// Ties are points of the plate, such as screws, that move with the hub.
	Ties [][2]float64
	Pins []Pin
	Edge PlateEdge
	Mesh float64 // edge of the elements, m; 0 takes one that suits hub, pins and outline
}

// Rigidity returns the plate's bending rigidity D = E t³/(12(1-ν²)) in N·m.
func (p Plate) Rigidity() float64 {
	t := p.Thickness
	return p.E * t * t * t / (12 * (1 - p.Poisson*p.Poisson))
}

// PlateCompliance is what a hub on a plate yields: movement along z in m and rotations about x and y in
// rad, per force along z in N and moment about x and y in N·m, all at the hub's centre (X, Y).
type PlateCompliance struct {
	X, Y float64
	C    [3][3]float64
}

// Spring returns the stiffness of the hub at its centre, with the three freedoms in the plate's plane
// given stiffnesses of their own: along x and y in N/m, about z in N·m/rad.
func (c PlateCompliance) Spring(x, y, rz float64) (k [6][6]float64, err error) {
	inv, ok := invert3(c.C)
	if !ok {
		return k, errors.New("plate compliance is singular")
	}
	at := [3]int{2, 3, 4}
	for r, row := range inv {
		for s, v := range row {
			k[at[r]][at[s]] = v
		}
	}
	k[0][0], k[1][1], k[5][5] = x, y, rz
	return k, nil
}

// Compliance solves the plate by finite elements: the discrete Kirchhoff triangle of Batoz, Bathe &
// Ho, Int. J. Numer. Meth. Eng. 15 (1980) 1771-1812. Shear flexibility is left out.
func (p Plate) Compliance() (PlateCompliance, error) {
	p, err := p.checked()
	if err != nil {
		return PlateCompliance{}, fmt.Errorf("plate: %w", err)
	}
	loops := p.cutOut()
	var out PlateCompliance
	if len(p.Hub) > 0 {
		m := p.Hub.moments(p.Hub[0].X, p.Hub[0].Y)
		out.X, out.Y = p.Hub[0].X+m.x/m.a, p.Hub[0].Y+m.y/m.a
		hole := make(Loop, 0, len(p.Hub))
		for i := range p.Hub {
			k := (len(p.Hub) - i) % len(p.Hub)
			hole = append(hole, Vertex{p.Hub[k].X, p.Hub[k].Y, -p.Hub[(k+len(p.Hub)-1)%len(p.Hub)].Bulge})
		}
		loops = append(loops, hole)
	} else {
		for _, t := range p.Ties {
			out.X += t[0] / float64(len(p.Ties))
			out.Y += t[1] / float64(len(p.Ties))
		}
	}
	points := append([][2]float64(nil), p.Ties...)
	for _, pin := range p.Pins {
		points = append(points, [2]float64{pin.X, pin.Y})
	}
	size := p.Mesh
	if size == 0 {
		size = p.elementSize(loops)
	}
	for i, at := range points {
		what := fmt.Sprintf("tie %d", i)
		if i >= len(p.Ties) {
			what = fmt.Sprintf("pin %d", i-len(p.Ties))
		}
		for k, l := range loops {
			if l.covers(at[0], at[1]) != (k == 0) || l.distance(at[0], at[1]) < 0.02*size {
				return PlateCompliance{}, fmt.Errorf("plate: %s at (%g, %g) m is not on the bending part; move it inside the outline and out of the hub", what, at[0], at[1])
			}
		}
	}
	mesh, err := triangulate(loops, size, points)
	if err != nil {
		return PlateCompliance{}, fmt.Errorf("plate: %w", err)
	}
	if out.C, err = p.solve(mesh, len(loops)-1, out.X, out.Y); err != nil {
		return PlateCompliance{}, fmt.Errorf("plate: %w", err)
	}
	return out, nil
}

// checked returns the plate with tidy loops, or the first fault of its data.
func (p Plate) checked() (Plate, error) {
	if !(p.Thickness > 0) || !(p.E > 0) || !(p.Poisson > -1 && p.Poisson <= 0.5) || !finite(p.Thickness, p.E) {
		return p, fmt.Errorf("thickness %g m, E %g Pa, Poisson's ratio %g; the first two must be above zero, the last -1 to 0.5", p.Thickness, p.E, p.Poisson)
	}
	if !(p.Mesh >= 0) || math.IsInf(p.Mesh, 0) {
		return p, fmt.Errorf("element edge %g m; use a length above zero, or 0", p.Mesh)
	}
	var err error
	if p.Outline, err = checkLoops(p.Outline); err != nil {
		return p, err
	}
	if p.Outline[0].moments(p.Outline[0][0].X, p.Outline[0][0].Y).a <= 0 {
		return p, errors.New("the first loop is the outer one and runs counter-clockwise")
	}
	if len(p.Hub) > 0 {
		hub, err := checkLoops([]Loop{p.Hub})
		if err != nil {
			return p, fmt.Errorf("hub: %w", err)
		}
		p.Hub = hub[0]
		if p.Hub.moments(p.Hub[0].X, p.Hub[0].Y).a <= 0 {
			return p, errors.New("the hub's outline runs counter-clockwise")
		}
	} else if len(p.Ties) < 2 {
		return p, errors.New("no hub; give its outline or two ties")
	}
	for i, t := range p.Ties {
		if !finite(t[0], t[1]) {
			return p, fmt.Errorf("tie %d is not finite", i)
		}
	}
	for i, pin := range p.Pins {
		if !finite(pin.X, pin.Y) {
			return p, fmt.Errorf("pin %d is not finite", i)
		}
	}
	return p, nil
}

// Filled returns the plate without the holes that count as filled. It is the same plate.
func (p Plate) Filled() Plate {
	if len(p.Outline) > 1 {
		p.Outline = p.cutOut()
	}
	return p
}

// cutOut returns the outer loop and the holes that weaken the plate.
func (p Plate) cutOut() []Loop {
	out := []Loop{p.Outline[0]}
holes:
	for _, l := range p.Outline[1:] {
		m := l.moments(l[0].X, l[0].Y)
		if p.Hub.covers(l[0].X+m.x/m.a, l[0].Y+m.y/m.a) {
			continue
		}
		for _, t := range p.Ties {
			if l.covers(t[0], t[1]) {
				continue holes
			}
		}
		for _, pin := range p.Pins {
			if l.covers(pin.X, pin.Y) {
				continue holes
			}
		}
		out = append(out, l)
	}
	return out
}

// covers reports whether a point lies inside the loop: the winding of its edges, arcs as their chords
// and the segments beyond. The point is looked at a hair aside, so that none lies on a chord, such as
// the middle of a circle that is drawn as two halves.
func (l Loop) covers(x, y float64) bool {
	in := false
	hair := 1e-9 * l.length()
	x, y = x+hair, y+0.7*hair
	for k, p := range l {
		q := l[(k+1)%len(l)]
		if (p.Y > y) != (q.Y > y) && x < p.X+(y-p.Y)/(q.Y-p.Y)*(q.X-p.X) {
			in = !in
		}
		if p.Bulge != 0 {
			a := arcOf(p, q)
			chordSide := (x-a.x)*a.ux + (y-a.y)*a.uy
			if math.Hypot(x-a.x, y-a.y) < a.r && chordSide > a.r*math.Cos(a.angle/2) {
				in = !in
			}
		}
	}
	return in
}

// elementSize gives some 300 elements over the plate, and a dozen edges round the hub.
func (p Plate) elementSize(loops []Loop) float64 {
	var area float64
	for _, l := range loops {
		area += l.moments(l[0].X, l[0].Y).a
	}
	size := math.Sqrt(math.Max(area, 0) / 250)
	if len(p.Hub) > 0 {
		size = math.Min(size, p.Hub.length()/16)
	}
	return size
}
