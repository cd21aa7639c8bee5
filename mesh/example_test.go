package mesh_test

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

func tetrahedron() *mesh.Mesh {
	return &mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: 6}, {Y: 6}, {Z: 6}},
		Triangles: [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
}

func ExampleMesh_Body() {
	b := tetrahedron().Body()
	fmt.Printf("%.0f mm³, %.1f mm², centre (%.1f, %.1f, %.1f) mm\n", b.Volume, b.Area, b.Centroid.X, b.Centroid.Y, b.Centroid.Z)
	// Output: 36 mm³, 85.2 mm², centre (1.5, 1.5, 1.5) mm
}

func ExampleMesh_Inspect() {
	m := tetrahedron()
	m.Triangles = m.Triangles[1:]
	d := m.Inspect(mesh.Options{})
	fmt.Println(d.Closed(), d.Boundary)
	fmt.Println(d.Describe(m)[0])
	// Output:
	// false [[0 1] [0 2] [1 2]]
	// 3 open edges at (3, 0, 0) mm, (0, 3, 0) mm, (3, 3, 0) mm
}

func ExampleGate() {
	m := tetrahedron()
	rounded, err := mesh.Gate(m)
	fmt.Println(len(rounded.Triangles), err)
	m.Append(m.Moved(mesh.Move(r3.Vec{X: 6})))
	_, err = mesh.Gate(m)
	fmt.Println(err)
	// Output:
	// 4 <nil>
	// mesh does not bound a solid: 1 vertices where the surface only touches itself at (6, 0, 0) mm; mesh the part with smaller cells or move the faces that touch apart
}

func ExampleMesh_OnBed() {
	m := tetrahedron().OnBed(mesh.Turn(r3.Vec{Y: 1}, math.Pi))
	fmt.Println(m.Box())
	// Output: {{0 0 0} {6 6 6}}
}
