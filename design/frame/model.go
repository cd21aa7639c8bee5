package frame

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Ground stands for the second end of a spring that is held by the world.
const Ground = -1

// Elastic is an isotropic material.
type Elastic struct {
	E       float64 // Young's modulus, Pa
	G       float64 // shear modulus, Pa
	Density float64 // kg/m³
}

// Node is a point of the model with six freedoms.
type Node struct {
	Name string // appears in errors; may be empty
	At   r3.Vec // m
}

// Station is a section at a place along a member.
type Station struct {
	At      float64 // 0 at A to 1 at B
	Section Section
	Mass    float64 // kg/m where it differs from density × area, as in a print with infill; 0 takes density × area
}

// Uniform is the station list of a member of one section.
func Uniform(s Section) []Station { return []Station{{Section: s}} }

// Taper samples n+1 stations, n at least 1, from a section that varies along a member.
func Taper(n int, at func(share float64) (Section, error)) ([]Station, error) {
	stations := make([]Station, n+1)
	for i := range stations {
		share := float64(i) / float64(n)
		s, err := at(share)
		if err != nil {
			return nil, fmt.Errorf("taper at %g: %w", share, err)
		}
		stations[i] = Station{At: share, Section: s}
	}
	return stations, nil
}

// Member is a straight beam from node A to node B.
type Member struct {
	Name             string
	A, B             int
	SectionX         r3.Vec // where the section's x points; made square to the axis. Zero: forward, or up for a member that runs forward
	OffsetA, OffsetB r3.Vec // rigid offsets from the nodes to the ends of the beam, body axes, m
	// Stations runs from 0 to 1, or holds one section for the whole length. Between two stations the
	// outline's dimensions run linearly: area with their square, second moments with their fourth
	// power. That is exact for similar sections; for others give more stations.
	Stations []Station
	Material Elastic
	Elements int // 0 means 8
}

// Body is a rigid mass on a node.
type Body struct {
	Node    int
	Mass    float64       // kg
	CG      r3.Vec        // centre of gravity from the node, m
	Inertia [3][3]float64 // about the centre of gravity, body axes, products with their minus sign, kg·m²
}

// Spring joins two nodes, or a node and Ground. It sits at A: B's motion is carried there rigidly
// before the difference is taken, so that a spring of any length passes rigid motion freely.
type Spring struct {
	Name string
	A, B int
	K    [6][6]float64 // force and moment on A's side per displacement and rotation, body axes, N and m; symmetric
}

// Uncoupled is a spring matrix without coupling: three translations in N/m, three rotations in N·m/rad.
func Uncoupled(x, y, z, rx, ry, rz float64) (k [6][6]float64) {
	for i, v := range [6]float64{x, y, z, rx, ry, rz} {
		k[i][i] = v
	}
	return k
}

// Link makes a node part of the rigid body of another.
type Link struct{ Master, Slave int }

// Support holds freedoms of a node still.
type Support struct {
	Node  int
	Fixed [6]bool
}

// Clamp holds all six freedoms of a node.
func Clamp(node int) Support {
	return Support{Node: node, Fixed: [6]bool{true, true, true, true, true, true}}
}

// Model is a space frame.
type Model struct {
	Nodes    []Node
	Members  []Member
	Bodies   []Body
	Springs  []Spring
	Links    []Link
	Supports []Support
}

// Mass returns the mass of the model in kg.
func (m Model) Mass() (float64, error) {
	s, err := Assemble(m)
	if err != nil {
		return 0, err
	}
	return s.Mass(), nil
}

func (m *Model) nodeName(i int) string {
	if n := m.Nodes[i].Name; n != "" {
		return fmt.Sprintf("node %q", n)
	}
	return fmt.Sprintf("node %d", i)
}

func (m *Model) memberName(i int) string {
	if n := m.Members[i].Name; n != "" {
		return fmt.Sprintf("member %q", n)
	}
	return fmt.Sprintf("member %d", i)
}

func (m *Model) springName(i int) string {
	if n := m.Springs[i].Name; n != "" {
		return fmt.Sprintf("spring %q", n)
	}
	return fmt.Sprintf("spring %d", i)
}

// check returns the first fault of the data. An index out of range panics.
func (m *Model) check() error {
	if len(m.Nodes) == 0 {
		return fmt.Errorf("model has no nodes")
	}
	for i, n := range m.Nodes {
		if !finite(n.At.X, n.At.Y, n.At.Z) {
			return fmt.Errorf("%s: place %v is not finite", m.nodeName(i), n.At)
		}
	}
	for i := range m.Members {
		if err := m.Members[i].check(m); err != nil {
			return fmt.Errorf("%s: %w", m.memberName(i), err)
		}
	}
	for i, b := range m.Bodies {
		name := m.nodeName(b.Node)
		if !(b.Mass >= 0) || !finite(b.Mass, b.CG.X, b.CG.Y, b.CG.Z) {
			return fmt.Errorf("body %d at %s: mass %g kg at %v; both must be finite and the mass not negative", i, name, b.Mass, b.CG)
		}
		if err := checkSymmetric(3, func(r, c int) float64 { return b.Inertia[r][c] }); err != nil {
			return fmt.Errorf("body %d at %s: inertia %w", i, name, err)
		}
	}
	for i, s := range m.Springs {
		m.nodeName(s.A)
		if s.B != Ground {
			m.nodeName(s.B)
		}
		if err := checkSymmetric(6, func(r, c int) float64 { return s.K[r][c] }); err != nil {
			return fmt.Errorf("%s: stiffness %w", m.springName(i), err)
		}
	}
	return nil
}

func (b *Member) check(m *Model) error {
	m.nodeName(b.A)
	m.nodeName(b.B)
	if e := b.Material; !(e.E > 0) || !(e.G > 0) || !(e.Density >= 0) || !finite(e.E, e.G, e.Density) {
		return fmt.Errorf("material E %g, G %g Pa, density %g kg/m³; moduli must be above zero", e.E, e.G, e.Density)
	}
	if b.Elements < 0 {
		return fmt.Errorf("%d elements; use 1 or more, or 0 for 8", b.Elements)
	}
	if len(b.Stations) == 0 {
		return fmt.Errorf("no section; give at least one station")
	}
	for i, s := range b.Stations {
		c := s.Section
		if !(c.A > 0) || !(c.Ix > 0) || !(c.Iy > 0) || !(c.J > 0) || !(c.ShearX >= 0) || !(c.ShearY >= 0) || !(s.Mass >= 0) ||
			c.Ix*c.Iy <= c.Ixy*c.Ixy || !finite(c.A, c.Ix, c.Iy, c.Ixy, c.J, c.ShearX, c.ShearY, c.ShearCentreX, c.ShearCentreY, s.Mass) {
			return fmt.Errorf("station %d: A %g m², Ix %g, Iy %g, Ixy %g, J %g m⁴, mass %g kg/m is no section; area and moments must be above zero",
				i, c.A, c.Ix, c.Iy, c.Ixy, c.J, s.Mass)
		}
		if len(b.Stations) > 1 {
			if i == 0 && s.At != 0 || i == len(b.Stations)-1 && s.At != 1 {
				return fmt.Errorf("station %d at %g; the list runs from 0 to 1", i, s.At)
			}
			if i > 0 && !(s.At > b.Stations[i-1].At) {
				return fmt.Errorf("station %d at %g does not follow %g", i, s.At, b.Stations[i-1].At)
			}
		}
	}
	if !finite(b.OffsetA.X, b.OffsetA.Y, b.OffsetA.Z, b.OffsetB.X, b.OffsetB.Y, b.OffsetB.Z) {
		return fmt.Errorf("offsets %v, %v are not finite", b.OffsetA, b.OffsetB)
	}
	from, to := b.ends(m)
	if l := r3.Norm(r3.Sub(to, from)); !(l > 0) {
		return fmt.Errorf("no length between %s and %s; move a node or use a spring", m.nodeName(b.A), m.nodeName(b.B))
	}
	return nil
}

// ends returns the two ends of the beam proper, offsets in.
func (b *Member) ends(m *Model) (from, to r3.Vec) {
	return r3.Add(m.Nodes[b.A].At, b.OffsetA), r3.Add(m.Nodes[b.B].At, b.OffsetB)
}

// axes returns the member's section x, section y and axis as unit vectors.
func (b *Member) axes(m *Model) (axes [3]r3.Vec, length float64, err error) {
	from, to := b.ends(m)
	d := r3.Sub(to, from)
	length = r3.Norm(d)
	z := r3.Scale(1/length, d)
	hint := b.SectionX
	if hint == (r3.Vec{}) {
		hint = r3.Vec{X: 1}
		if math.Abs(z.X) > 0.9 {
			hint = r3.Vec{Z: 1}
		}
	}
	x := r3.Sub(hint, r3.Scale(r3.Dot(hint, z), z))
	if n := r3.Norm(x); !(n > 1e-6*r3.Norm(hint)) || !finite(n) {
		return axes, 0, fmt.Errorf("section x %v lies along the member; point it across", hint)
	}
	x = r3.Unit(x)
	return [3]r3.Vec{x, r3.Cross(z, x), z}, length, nil
}

func checkSymmetric(n int, at func(r, c int) float64) error {
	var scale float64
	for r := range n {
		for c := range n {
			if !finite(at(r, c)) {
				return fmt.Errorf("row %d column %d is not finite", r, c)
			}
			scale = math.Max(scale, math.Abs(at(r, c)))
		}
	}
	for r := range n {
		if at(r, r) < 0 {
			return fmt.Errorf("row %d has the diagonal %g below zero", r, at(r, r))
		}
		for c := range r {
			if math.Abs(at(r, c)-at(c, r)) > 1e-9*scale {
				return fmt.Errorf("is not symmetric: row %d column %d is %g, the other way %g", r, c, at(r, c), at(c, r))
			}
		}
	}
	return nil
}
