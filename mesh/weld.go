package mesh

import "gonum.org/v1/gonum/spatial/r3"

// Weld returns a copy in which vertices with equal coordinates are one, in the
// order of their first use. Triangles with two equal corners or a corner
// missing or out of Reach are left out, and so are vertices that no triangle
// names.
func (m *Mesh) Weld() *Mesh {
	out := &Mesh{Triangles: make([][3]int32, 0, len(m.Triangles))}
	at := make(map[r3.Vec]int32, len(m.Vertices))
	moved := make([]int32, len(m.Vertices)) // new index plus one
	for _, t := range m.Triangles {
		if a, b, c, ok := m.corners(t); !ok || a == b || b == c || c == a {
			continue
		}
		var w [3]int32
		for i, k := range t {
			if moved[k] == 0 {
				v := m.Vertices[k]
				v = r3.Vec{X: v.X + 0, Y: v.Y + 0, Z: v.Z + 0} // -0 is 0
				n, ok := at[v]
				if !ok {
					n = int32(len(out.Vertices))
					at[v] = n
					out.Vertices = append(out.Vertices, v)
				}
				moved[k] = n + 1
			}
			w[i] = moved[k] - 1
		}
		out.Triangles = append(out.Triangles, w)
	}
	return out
}

// Rounded returns the mesh as a file with 32-bit coordinates holds it: every
// coordinate rounded to float32, then welded.
func (m *Mesh) Rounded() *Mesh {
	out := &Mesh{Vertices: make([]r3.Vec, len(m.Vertices)), Triangles: m.Triangles}
	for i, v := range m.Vertices {
		out.Vertices[i] = r3.Vec{X: float64(float32(v.X)), Y: float64(float32(v.Y)), Z: float64(float32(v.Z))}
	}
	return out.Weld()
}
