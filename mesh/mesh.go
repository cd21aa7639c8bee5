// Package mesh holds indexed triangle meshes of solid parts: their volume and
// inertia, their defects, and the gate that every part passes before export.
//
// Lengths are in millimetres. Axes are right-handed, z up from the print bed.
// A triangle lists its corners counter-clockwise as seen from outside the
// solid, so a well-made mesh encloses a positive volume.
package mesh

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Mesh is a surface of triangles that share corners by index. Two triangles
// are neighbours only where they name the same indices; equal coordinates at
// different indices are not joined (see Weld).
type Mesh struct {
	Vertices  []r3.Vec   // corners in mm
	Triangles [][3]int32 // indices into Vertices, counter-clockwise from outside
}

// Reach is the largest coordinate in mm, of either sign, that a mesh may have.
// A float32 still resolves 0.06 mm there.
const Reach = 1e6

// Check returns an error unless every coordinate is finite and within Reach
// and every triangle names existing vertices. Code that reads a mesh from
// elsewhere calls it first; it says nothing about the surface (see Inspect).
func (m *Mesh) Check() error {
	for i, v := range m.Vertices {
		if !within(v) {
			return fmt.Errorf("vertex %d at %s: not a number, or beyond the %g mm a mesh may reach; use smaller, finite dimensions", i, place(v), Reach)
		}
	}
	for i, t := range m.Triangles {
		for _, k := range t {
			if k < 0 || int(k) >= len(m.Vertices) {
				return fmt.Errorf("triangle %d names vertex %d of %d; the mesh is damaged, make it again", i, k, len(m.Vertices))
			}
		}
	}
	return nil
}

// Box returns the smallest box in mm around all vertices that lie within
// Reach. The box of an empty mesh has both corners at the origin.
func (m *Mesh) Box() r3.Box {
	b, found := r3.Box{}, false
	for _, v := range m.Vertices {
		if !within(v) {
			continue
		}
		if !found {
			b, found = r3.Box{Min: v, Max: v}, true
			continue
		}
		b.Min = r3.Vec{X: min(b.Min.X, v.X), Y: min(b.Min.Y, v.Y), Z: min(b.Min.Z, v.Z)}
		b.Max = r3.Vec{X: max(b.Max.X, v.X), Y: max(b.Max.Y, v.Y), Z: max(b.Max.Z, v.Z)}
	}
	return b
}

// Append adds the triangles of n to m. Vertices at the same place stay apart.
func (m *Mesh) Append(n *Mesh) {
	if len(m.Vertices)+len(n.Vertices) > math.MaxInt32 {
		panic(errors.New("mesh: more vertices than an int32 can name"))
	}
	first := int32(len(m.Vertices))
	m.Vertices = append(m.Vertices, n.Vertices...)
	for _, t := range n.Triangles {
		m.Triangles = append(m.Triangles, [3]int32{t[0] + first, t[1] + first, t[2] + first})
	}
}

// corners returns the corners of a triangle, and false where one is missing
// or out of reach.
func (m *Mesh) corners(t [3]int32) (a, b, c r3.Vec, ok bool) {
	n := uint32(len(m.Vertices))
	if uint32(t[0]) >= n || uint32(t[1]) >= n || uint32(t[2]) >= n {
		return a, b, c, false
	}
	a, b, c = m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
	return a, b, c, within(a) && within(b) && within(c)
}

func within(v r3.Vec) bool {
	return math.Abs(v.X) <= Reach && math.Abs(v.Y) <= Reach && math.Abs(v.Z) <= Reach
}

// place writes a position in mm for an error text.
func place(v r3.Vec) string {
	return fmt.Sprintf("(%.6g, %.6g, %.6g) mm", v.X, v.Y, v.Z)
}
