package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// Box returns the mesh of a box with level edges, such as a neighbour on the
// frame. Corners in the wrong order are exchanged.
func Box(b r3.Box) *mesh.Mesh {
	lo := r3.Vec{X: min(b.Min.X, b.Max.X), Y: min(b.Min.Y, b.Max.Y), Z: min(b.Min.Z, b.Max.Z)}
	hi := r3.Vec{X: max(b.Min.X, b.Max.X), Y: max(b.Min.Y, b.Max.Y), Z: max(b.Min.Z, b.Max.Z)}
	m := &mesh.Mesh{}
	for i := range 8 {
		v := lo
		if i&1 != 0 {
			v.X = hi.X
		}
		if i&2 != 0 {
			v.Y = hi.Y
		}
		if i&4 != 0 {
			v.Z = hi.Z
		}
		m.Vertices = append(m.Vertices, v)
	}
	for _, q := range [...][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Triangles = append(m.Triangles, [3]int32{q[0], q[1], q[2]}, [3]int32{q[0], q[2], q[3]})
	}
	return m
}

// Cylinder returns the mesh of a round bar from one end's middle to the
// other's, such as a motor. It is empty where the ends coincide or the radius
// is not above 0.
func Cylinder(from, to r3.Vec, radius float64) *mesh.Mesh {
	return Wire([]r3.Vec{from, to}, 2*radius)
}

// Wire returns the mesh of a round wire of a thickness in mm along a chain of
// points, mitred at its bends, with flat ends. Points that repeat are passed
// over; bends sharper than a right angle are mitred as a right angle. It is
// empty with fewer than two points apart or no thickness.
func Wire(points []r3.Vec, thickness float64) *mesh.Mesh {
	m := &mesh.Mesh{}
	path := make([]r3.Vec, 0, len(points))
	for _, p := range points {
		if finite(p) && (len(path) == 0 || r3.Norm(r3.Sub(p, path[len(path)-1])) > 1e-6) {
			path = append(path, p)
		}
	}
	if len(path) < 2 || !(thickness > 0) || math.IsInf(thickness, 0) {
		return m
	}
	sides := min(max(int(12*math.Sqrt(thickness/3)), 12), 48)
	var u r3.Vec // across the wire, carried along without twist
	for i := range path {
		in, out := direction(path, i-1), direction(path, i)
		if i == 0 {
			u = perpendicular(out)
		}
		u = r3.Unit(r3.Sub(u, r3.Scale(r3.Dot(u, in), in)))
		v := r3.Cross(in, u)
		mitre := r3.Add(in, out)
		if r3.Norm(mitre) < 1e-6 {
			mitre = in
		}
		mitre = r3.Unit(mitre)
		slant := max(r3.Dot(in, mitre), math.Sqrt2/2)
		for k := range sides {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(sides))
			q := r3.Scale(thickness/2, r3.Add(r3.Scale(cos, u), r3.Scale(sin, v)))
			q = r3.Sub(q, r3.Scale(r3.Dot(q, mitre)/slant, in)) // slid along the wire onto the mitre
			m.Vertices = append(m.Vertices, r3.Add(path[i], q))
		}
		if turn := 1 + r3.Dot(in, out); turn > 1e-6 {
			u = r3.Sub(u, r3.Scale(r3.Dot(u, out)/turn, r3.Add(in, out)))
		} else {
			u = r3.Scale(-1, u)
		}
	}
	cover(m, len(path), sides)
	return m
}

// cover joins rings of vertices into a tube and closes its ends.
func cover(m *mesh.Mesh, rings, sides int) {
	at := func(ring, side int) int32 { return int32(ring*sides + side%sides) }
	for r := range rings - 1 {
		for k := range sides {
			a, b, c, d := at(r, k), at(r, k+1), at(r+1, k+1), at(r+1, k)
			m.Triangles = append(m.Triangles, [3]int32{a, b, c}, [3]int32{a, c, d})
		}
	}
	for k := 1; k < sides-1; k++ {
		m.Triangles = append(m.Triangles,
			[3]int32{at(0, 0), at(0, k+1), at(0, k)},
			[3]int32{at(rings-1, 0), at(rings-1, k), at(rings-1, k+1)})
	}
}

// direction returns the unit vector along piece i of a path, that of the first
// or last piece beyond its ends.
func direction(path []r3.Vec, i int) r3.Vec {
	i = min(max(i, 0), len(path)-2)
	return r3.Unit(r3.Sub(path[i+1], path[i]))
}

// perpendicular returns a unit vector across v, level where it can be.
func perpendicular(v r3.Vec) r3.Vec {
	if math.Abs(v.Z) > 0.999*r3.Norm(v) {
		return r3.Unit(r3.Cross(r3.Vec{X: 1}, v))
	}
	return r3.Unit(r3.Cross(r3.Vec{Z: 1}, v))
}
