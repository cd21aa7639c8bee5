package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
)

// prism returns an upright prism over a loop, counter-clockwise from above, all of which is seen from its first corner.
func prism(loop []r2.Vec, bottom, top float64) *mesh.Mesh {
	n := int32(len(loop))
	m := &mesh.Mesh{}
	for _, z := range [2]float64{bottom, top} {
		for _, p := range loop {
			m.Vertices = append(m.Vertices, r3.Vec{X: p.X, Y: p.Y, Z: z})
		}
	}
	for i := int32(1); i+1 < n; i++ {
		m.Triangles = append(m.Triangles, [3]int32{0, i + 1, i}, [3]int32{n, n + i, n + i + 1})
	}
	for i := range n {
		j := (i + 1) % n
		m.Triangles = append(m.Triangles, [3]int32{i, j, n + j}, [3]int32{i, n + j, n + i})
	}
	return m
}

// rounded returns a rectangle about a middle with rounded corners.
func rounded(middle r2.Vec, x, y, radius float64) []r2.Vec {
	radius = min(radius, x/2, y/2)
	if radius <= 0 {
		return []r2.Vec{{X: middle.X - x/2, Y: middle.Y - y/2}, {X: middle.X + x/2, Y: middle.Y - y/2}, {X: middle.X + x/2, Y: middle.Y + y/2}, {X: middle.X - x/2, Y: middle.Y + y/2}}
	}
	const steps = 5
	var loop []r2.Vec
	for corner, sign := range [4]r2.Vec{{X: 1, Y: 1}, {X: -1, Y: 1}, {X: -1, Y: -1}, {X: 1, Y: -1}} {
		for i := range steps + 1 {
			sin, cos := math.Sincos((float64(corner) + float64(i)/steps) * math.Pi / 2)
			loop = append(loop, r2.Vec{
				X: middle.X + sign.X*(x/2-radius) + radius*cos,
				Y: middle.Y + sign.Y*(y/2-radius) + radius*sin,
			})
		}
	}
	return loop
}

// bar returns a flat bar of a width from one point to another.
func bar(from, to r2.Vec, width, bottom, top float64) *mesh.Mesh {
	along := r2.Sub(to, from)
	if r2.Norm(along) == 0 {
		return &mesh.Mesh{}
	}
	across := r2.Scale(width/2/r2.Norm(along), r2.Vec{X: -along.Y, Y: along.X})
	return prism([]r2.Vec{r2.Sub(from, across), r2.Sub(to, across), r2.Add(to, across), r2.Add(from, across)}, bottom, top)
}

// arrow returns an arrow that points along x, its middle at the origin.
func arrow(length, width, bottom, top float64) *mesh.Mesh {
	neck, shaft := length/2-0.55*width, 0.19*width
	return prism([]r2.Vec{
		{X: length / 2}, {X: neck, Y: width / 2}, {X: neck, Y: shaft}, {X: -length / 2, Y: shaft},
		{X: -length / 2, Y: -shaft}, {X: neck, Y: -shaft}, {X: neck, Y: -width / 2},
	}, bottom, top)
}
