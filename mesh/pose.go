package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Pose is a rigid motion, or a mirror image where the axes are left-handed:
// a point p goes to p.X·X + p.Y·Y + p.Z·Z + At. Make one with Move or
// Turn; the zero value collapses everything to the origin.
type Pose struct {
	X, Y, Z r3.Vec // images of the unit axes
	At      r3.Vec // image of the origin in mm
}

// Move returns the shift by v in mm.
func Move(v r3.Vec) Pose {
	return Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}, At: v}
}

// Turn returns the rotation by angle in radians about an axis through the
// origin, positive by the right-hand rule. Quarter turns about a coordinate
// axis are exact. An axis of length zero turns nothing.
func Turn(axis r3.Vec, angle float64) Pose {
	if r3.Norm(axis) == 0 {
		return Move(r3.Vec{})
	}
	turn := r3.NewRotation(angle, axis)
	image := func(v r3.Vec) r3.Vec {
		v = turn.Rotate(v)
		return r3.Vec{X: snap(v.X), Y: snap(v.Y), Z: snap(v.Z)}
	}
	return Pose{X: image(r3.Vec{X: 1}), Y: image(r3.Vec{Y: 1}), Z: image(r3.Vec{Z: 1})}
}

// snap rounds a direction cosine that is a few roundings away from -1, 0 or 1.
func snap(c float64) float64 {
	if r := math.Round(c); math.Abs(c-r) < 1e-15 {
		return r + 0
	}
	return c
}

// Then returns the motion p followed by q.
func (p Pose) Then(q Pose) Pose {
	o := q.Apply(r3.Vec{})
	return Pose{
		X:  r3.Sub(q.Apply(p.X), o),
		Y:  r3.Sub(q.Apply(p.Y), o),
		Z:  r3.Sub(q.Apply(p.Z), o),
		At: q.Apply(p.At),
	}
}

// Apply returns where the point v goes.
func (p Pose) Apply(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: p.X.X*v.X + p.Y.X*v.Y + p.Z.X*v.Z + p.At.X,
		Y: p.X.Y*v.X + p.Y.Y*v.Y + p.Z.Y*v.Z + p.At.Y,
		Z: p.X.Z*v.X + p.Y.Z*v.Y + p.Z.Z*v.Z + p.At.Z,
	}
}

// mirrors reports whether the pose turns a right hand into a left one.
func (p Pose) mirrors() bool { return r3.Dot(r3.Cross(p.X, p.Y), p.Z) < 0 }

// Moved returns a copy of the mesh in the pose. A mirror image gets its
// triangles turned over, so that outside stays outside.
func (m *Mesh) Moved(p Pose) *Mesh {
	out := &Mesh{
		Vertices:  make([]r3.Vec, len(m.Vertices)),
		Triangles: append([][3]int32(nil), m.Triangles...),
	}
	for i, v := range m.Vertices {
		out.Vertices[i] = p.Apply(v)
	}
	if p.mirrors() {
		for i, t := range out.Triangles {
			out.Triangles[i] = [3]int32{t[0], t[2], t[1]}
		}
	}
	return out
}

// OnBed returns a copy turned into its print orientation and shifted so that
// it stands on z = 0 in the positive octant, touching all three planes.
func (m *Mesh) OnBed(turn Pose) *Mesh {
	out := m.Moved(turn)
	low := out.Box().Min
	for i, v := range out.Vertices {
		out.Vertices[i] = r3.Sub(v, low)
	}
	return out
}
