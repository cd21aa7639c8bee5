package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Body holds what a mesh weighs in at as a solid of density 1.
type Body struct {
	Volume   float64 // mm³, negative for a surface turned inside out
	Area     float64 // mm²
	Centroid r3.Vec  // mm; the origin where the volume is zero
	Inertia  Tensor  // mm⁵, about the centroid, axes parallel to the mesh's
}

// Tensor is a symmetric inertia tensor. The off-diagonal entries are those of
// the tensor, the products of inertia with a minus sign: XY = -∫ x y dV.
type Tensor struct{ XX, YY, ZZ, XY, YZ, ZX float64 }

// Body returns volume, area, centroid and inertia of the solid that the
// surface encloses, exact for the triangles up to rounding. A triangle with a
// corner missing or out of Reach adds nothing. The volume of an open surface
// depends on its place; Inspect tells whether the surface is closed.
//
// Every triangle is the base of a tetrahedron with its tip at the middle of
// the box; the tetrahedron's second moments are those of
//
//	∫ x_i x_j dV = (V/20) (a_i a_j + b_i b_j + c_i c_j + s_i s_j), s = a + b + c.
//
// Source: F. Tonon, "Explicit exact formulas for the 3-D tetrahedron inertia
// tensor", J. Mathematics and Statistics 1 (2005) 8-11, with one corner at 0.
func (m *Mesh) Body() Body {
	box := m.Box()
	tip := r3.Scale(0.5, r3.Add(box.Min, box.Max))
	var sum Body
	var first r3.Vec
	var second Tensor // plain second moments ∫ x², ∫ x y, ... about the tip
	for _, t := range m.Triangles {
		a, b, c, ok := m.corners(t)
		if !ok {
			continue
		}
		a, b, c = r3.Sub(a, tip), r3.Sub(b, tip), r3.Sub(c, tip)
		sum.Area += r3.Norm(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) / 2
		v := r3.Dot(a, r3.Cross(b, c)) / 6
		s := r3.Add(r3.Add(a, b), c)
		sum.Volume += v
		first = r3.Add(first, r3.Scale(v/4, s))
		second.XX += v / 20 * (a.X*a.X + b.X*b.X + c.X*c.X + s.X*s.X)
		second.YY += v / 20 * (a.Y*a.Y + b.Y*b.Y + c.Y*c.Y + s.Y*s.Y)
		second.ZZ += v / 20 * (a.Z*a.Z + b.Z*b.Z + c.Z*c.Z + s.Z*s.Z)
		second.XY += v / 20 * (a.X*a.Y + b.X*b.Y + c.X*c.Y + s.X*s.Y)
		second.YZ += v / 20 * (a.Y*a.Z + b.Y*b.Z + c.Y*c.Z + s.Y*s.Z)
		second.ZX += v / 20 * (a.Z*a.X + b.Z*b.X + c.Z*c.X + s.Z*s.X)
	}
	if sum.Volume == 0 {
		return sum
	}
	g := r3.Scale(1/sum.Volume, first)
	if !within(g) { // an open or flat surface whose volume is only rounding
		return Body{Volume: sum.Volume, Area: sum.Area}
	}
	second.XX -= sum.Volume * g.X * g.X
	second.YY -= sum.Volume * g.Y * g.Y
	second.ZZ -= sum.Volume * g.Z * g.Z
	sum.Centroid = r3.Add(tip, g)
	sum.Inertia = Tensor{
		XX: second.YY + second.ZZ,
		YY: second.ZZ + second.XX,
		ZZ: second.XX + second.YY,
		XY: sum.Volume*g.X*g.Y - second.XY,
		YZ: sum.Volume*g.Y*g.Z - second.YZ,
		ZX: sum.Volume*g.Z*g.X - second.ZX,
	}
	return sum
}

// Volume returns the enclosed volume in mm³ (see Body).
func (m *Mesh) Volume() float64 { return m.Body().Volume }

// Area returns the surface in mm² (see Body).
func (m *Mesh) Area() float64 { return m.Body().Area }
