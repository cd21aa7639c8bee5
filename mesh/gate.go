package mesh

import (
	"errors"
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// Gate rounds the mesh to the 32-bit coordinates of a file, welds it again
// and returns that mesh if it bounds a solid: closed, two-manifold, oriented
// outward, free of flat and duplicate triangles, of folds and of crossings.
// Otherwise the error lists every kind of defect with its count and the first
// few places in mm. Export what Gate returns: it is what was checked.
func Gate(m *Mesh) (*Mesh, error) {
	if err := m.Check(); err != nil {
		return nil, err
	}
	r := m.Rounded()
	if len(r.Triangles) == 0 {
		return nil, errors.New("mesh has no triangle of any size; the part is empty or far smaller than 32-bit coordinates resolve")
	}
	d := r.Inspect(Options{})
	if d.None() {
		return r, nil
	}
	return nil, fmt.Errorf("mesh does not bound a solid: %s; mesh the part with smaller cells or move the faces that touch apart",
		strings.Join(d.Describe(r), "; "))
}

// shown is how many places a description names for one kind of defect.
const shown = 3

// Describe puts every kind of defect that m has into words, with its count
// and the first few places in mm. m is the mesh that was inspected.
func (d Defects) Describe(m *Mesh) []string {
	var out []string
	add := func(count int, what string, where func(i int) r3.Vec) {
		if count == 0 {
			return
		}
		places := make([]string, min(count, shown))
		for i := range places {
			places[i] = place(where(i))
		}
		if count > shown {
			places = append(places, "...")
		}
		out = append(out, fmt.Sprintf("%d %s at %s", count, what, strings.Join(places, ", ")))
	}
	triangles := func(list []int, what string) {
		add(len(list), what, func(i int) r3.Vec { return m.middle(list[i]) })
	}
	edges := func(list []Edge, what string) {
		add(len(list), what, func(i int) r3.Vec {
			return r3.Scale(0.5, r3.Add(m.Vertices[list[i][0]], m.Vertices[list[i][1]]))
		})
	}
	pairs := func(list [][2]int, what string) {
		add(len(list), what, func(i int) r3.Vec { return m.middle(list[i][0]) })
	}
	if len(d.Broken) > 0 {
		out = append(out, fmt.Sprintf("%d triangles with a corner missing or beyond %g mm, first is triangle %d", len(d.Broken), Reach, d.Broken[0]))
	}
	triangles(d.Flat, "triangles without area")
	triangles(d.Duplicate, "duplicate triangles")
	edges(d.Boundary, "open edges")
	edges(d.NonManifold, "edges of more than two triangles")
	edges(d.Misoriented, "edges between triangles that face opposite ways")
	add(len(d.Pinched), "vertices where the surface only touches itself", func(i int) r3.Vec { return m.Vertices[d.Pinched[i]] })
	pairs(d.Folded, "folds")
	pairs(d.Crossing, "pairs of crossing triangles")
	triangles(d.InsideOut, "pieces turned inside out")
	if d.CrossingsCut {
		out = append(out, "the search for crossings was cut short")
	}
	return out
}

// middle returns the centre of a triangle.
func (m *Mesh) middle(i int) r3.Vec {
	t := m.Triangles[i]
	return r3.Scale(1.0/3, r3.Add(r3.Add(m.Vertices[t[0]], m.Vertices[t[1]]), m.Vertices[t[2]]))
}
