// Package outline holds planar outlines of straight lines and circular arcs:
// plates, holes, sections and the letters cut into a part.
//
// Lengths are in millimetres, areas in mm², second moments in mm⁴. Axes are
// x to the right and y up; angles and loops are positive counter-clockwise.
package outline

// Vertex is a corner of a loop and the shape of the edge that leaves it.
type Vertex struct {
	X, Y float64 // position in mm

	// Bulge is the tangent of a quarter of the angle that the edge to the next
	// vertex turns through: 0 a straight line, 1 a half circle to the right of
	// the chord (counter-clockwise), -1 a half circle to its left.
	Bulge float64
}

// Loop is a closed chain of edges; the last vertex joins the first.
type Loop []Vertex

// Outline is a plane region: inside Outer, which runs counter-clockwise, and
// outside every one of Holes, which run clockwise.
type Outline struct {
	Outer Loop
	Holes []Loop
}
