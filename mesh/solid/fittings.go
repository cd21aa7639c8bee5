package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
)

// Counterbore is the cutter for a screw with a sunk head: its mouth is at
// z = 0 and it goes down, the head's bore headDepth mm deep, the hole's depth
// mm in all. Sizes are diameters in mm.
func Counterbore(hole, depth, head, headDepth float64) Node {
	if !finite(hole, depth, head, headDepth) || hole <= 0 || head <= hole || headDepth <= 0 || depth <= headDepth {
		return invalid("counterbore of %g mm to %g mm depth with a head of %g mm to %g mm; use a head wider than the hole and less deep",
			hole, depth, head, headDepth)
	}
	return Union(
		Move(Cylinder(hole/2, depth), r3.Vec{Z: -depth}),
		Move(Cylinder(head/2, headDepth), r3.Vec{Z: -headDepth}))
}

// HexPocket is a hexagonal prism, from z = 0 up, with two flats square to y.
func HexPocket(acrossFlats, height float64) Node {
	if !finite(acrossFlats) || acrossFlats <= 0 {
		return invalid("hexagon %g mm across flats; use a size above 0", acrossFlats)
	}
	r := acrossFlats / math.Sqrt(3)
	var loop outline.Loop
	for i := range 6 {
		s, c := math.Sincos(float64(i) * math.Pi / 3)
		loop = append(loop, outline.Vertex{X: r * c, Y: r * s})
	}
	return Extrude(height, outline.Outline{Outer: loop})
}

// Slot is a bar along x with round ends, length mm over all, from z = 0 up.
func Slot(length, width, height float64) Node {
	if !finite(length, width) || width <= 0 || length < width {
		return invalid("slot %g mm long and %g mm wide; use a width above 0 and a length no smaller", length, width)
	}
	return RoundedPrism(length, width, height, width/2)
}
