package mesh_test

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// box returns a box of twelve triangles between two corners.
func box(low, high r3.Vec) *mesh.Mesh {
	m := &mesh.Mesh{}
	for i := range 8 {
		v := low
		if i&1 != 0 {
			v.X = high.X
		}
		if i&2 != 0 {
			v.Y = high.Y
		}
		if i&4 != 0 {
			v.Z = high.Z
		}
		m.Vertices = append(m.Vertices, v)
	}
	for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
		m.Triangles = append(m.Triangles, [3]int32{q[0], q[1], q[2]}, [3]int32{q[0], q[2], q[3]})
	}
	return m
}

func cube(x, y, z, side float64) *mesh.Mesh {
	return box(r3.Vec{X: x, Y: y, Z: z}, r3.Vec{X: x + side, Y: y + side, Z: z + side})
}

func join(ms ...*mesh.Mesh) *mesh.Mesh {
	all := &mesh.Mesh{}
	for _, m := range ms {
		all.Append(m)
	}
	return all
}

// sphere returns an octahedron divided n-fold and blown up to the radius.
func sphere(radius float64, n int) *mesh.Mesh {
	m := &mesh.Mesh{}
	for _, s := range [][3]float64{{1, 1, 1}, {-1, 1, -1}, {-1, -1, 1}, {1, -1, -1}, {-1, 1, 1}, {1, 1, -1}, {1, -1, 1}, {-1, -1, -1}} {
		at := func(i, j int) r3.Vec {
			v := r3.Vec{X: s[0] * float64(n-i-j), Y: s[1] * float64(i), Z: s[2] * float64(j)}
			return r3.Scale(radius, r3.Unit(v))
		}
		add := func(a, b, c r3.Vec) {
			if s[0]*s[1]*s[2] < 0 {
				b, c = c, b
			}
			k := int32(len(m.Vertices))
			m.Vertices = append(m.Vertices, a, b, c)
			m.Triangles = append(m.Triangles, [3]int32{k, k + 1, k + 2})
		}
		for i := range n {
			for j := range n - i {
				add(at(i, j), at(i+1, j), at(i, j+1))
				if j < n-i-1 {
					add(at(i+1, j), at(i+1, j+1), at(i, j+1))
				}
			}
		}
	}
	return m.Weld()
}

// revolved returns the surface that a closed profile of (radius, z) points,
// counter-clockwise with radius to the right, sweeps around z in n steps.
func revolved(profile [][2]float64, n int) *mesh.Mesh {
	m := &mesh.Mesh{}
	k := len(profile)
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		for _, p := range profile {
			m.Vertices = append(m.Vertices, r3.Vec{X: p[0] * c, Y: p[0] * s, Z: p[1]})
		}
	}
	at := func(i, j int) int32 { return int32(i%n*k + j%k) }
	for i := range n {
		for j := range k {
			a, b, c, d := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
			m.Triangles = append(m.Triangles, [3]int32{a, b, c}, [3]int32{a, c, d})
		}
	}
	return m
}

// torus returns a ring of n by n quads: R to the middle of the tube, r thick.
func torus(R, r float64, n int) *mesh.Mesh {
	profile := make([][2]float64, n)
	for j := range profile {
		s, c := math.Sincos(2 * math.Pi * float64(j) / float64(n))
		profile[j] = [2]float64{R + r*c, r * s}
	}
	return revolved(profile, n)
}

// tube returns a cylinder of height h with a hole through it.
func tube(outer, inner, h float64, n int) *mesh.Mesh {
	return revolved([][2]float64{{inner, 0}, {outer, 0}, {outer, h}, {inner, h}}, n)
}
