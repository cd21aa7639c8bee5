package threemf

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Decimals of a coordinate: as the format's readers expect them, and the most
// that are tried.
const (
	fewest = 4
	most   = 7
)

// round returns a mesh with its coordinates rounded to so many decimals that it
// bounds a solid, and welded.
func round(m *mesh.Mesh) (*mesh.Mesh, int, error) {
	if m == nil {
		return nil, 0, fmt.Errorf("it has no mesh")
	}
	if err := m.Check(); err != nil {
		return nil, 0, err
	}
	var faults string
	for places := fewest; places <= most; places++ {
		lattice := steps(m, places)
		defects := lattice.Inspect(mesh.Options{})
		shape := scaled(lattice, places)
		if len(shape.Triangles) > 0 && defects.None() {
			return shape, places, nil
		}
		faults = strings.Join(defects.Describe(shape), "; ")
	}
	if faults == "" {
		faults = "it has no triangle of any size"
	}
	return nil, 0, fmt.Errorf("it does not bound a solid: %s; pass the mesh through the gate first", faults)
}

// unit is the length of a step of the last decimal in the mesh that is
// inspected: a power of two, so that all of its coordinates are exact, and
// small enough for mesh.Reach.
const unit = 1.0 / (1 << 14)

// steps is the mesh in steps of the last decimal. Where decimals lie on a line
// or meet is decided there: in millimetres most decimals are not exact.
func steps(m *mesh.Mesh, places int) *mesh.Mesh {
	to := math.Pow10(places)
	step := func(x float64) float64 { return math.Round(x*to) * unit }
	out := &mesh.Mesh{Vertices: make([]r3.Vec, len(m.Vertices)), Triangles: m.Triangles}
	for i, v := range m.Vertices {
		out.Vertices[i] = r3.Vec{X: step(v.X), Y: step(v.Y), Z: step(v.Z)}
	}
	return out.Weld()
}

// scaled is such a mesh in millimetres again.
func scaled(m *mesh.Mesh, places int) *mesh.Mesh {
	to := math.Pow10(places)
	out := &mesh.Mesh{Vertices: make([]r3.Vec, len(m.Vertices)), Triangles: m.Triangles}
	for i, v := range m.Vertices {
		out.Vertices[i] = r3.Vec{X: v.X / unit / to, Y: v.Y / unit / to, Z: v.Z / unit / to}
	}
	return out
}
