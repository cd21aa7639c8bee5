package solid_test

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh"
	"mastwright/mesh/outline"
	"mastwright/mesh/solid"
)

// printSize shows a body's size and volume, measured on a fine mesh of it.
func printSize(n solid.Node) {
	m, _, err := solid.Polygonise(context.Background(), n, solid.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	d := r3.Sub(m.Box().Max, m.Box().Min)
	fmt.Printf("%.2f x %.2f x %.2f mm, %.0f mm³\n", d.X, d.Y, d.Z, m.Volume())
}

// Bars stand on z = 0 about the z axis.
func ExampleTaperedPrism() {
	printSize(solid.Box(10, 6, 4))
	printSize(solid.RoundedPrism(10, 6, 4, 1))
	printSize(solid.TaperedPrism(solid.Section{X: 18, Y: 18}, solid.Section{X: 12, Y: 12}, 30))
	printSize(solid.Cylinder(5, 4))
	printSize(solid.Cone(5, 2.5, 4))
	// Output:
	// 10.00 x 6.00 x 4.00 mm, 240 mm³
	// 10.00 x 6.00 x 4.00 mm, 237 mm³
	// 18.00 x 18.00 x 30.00 mm, 6840 mm³
	// 10.00 x 10.00 x 4.00 mm, 314 mm³
	// 10.00 x 10.00 x 4.00 mm, 183 mm³
}

// Balls and rings have the origin in their middle.
func ExampleSphere() {
	fmt.Println(solid.Sphere(5).Value(r3.Vec{X: 7}))
	fmt.Println(solid.Torus(8, 3).Value(r3.Vec{X: 8}))
	// Output:
	// 2
	// -3
}

// Outlines of lines and arcs become plates, letters and arrows.
func ExampleExtrude() {
	printSize(solid.Extrude(3, outline.Outline{Outer: outline.Rectangle(20, 10), Holes: []outline.Loop{outline.Slot(8, 4)}}))
	// Output: 20.00 x 10.00 x 3.00 mm, 514 mm³
}

// Cutters for screws, nuts and straps.
func ExampleCounterbore() {
	plate := solid.Box(40, 12, 5)
	screw := solid.Move(solid.Counterbore(3.2, 6, 6.5, 3), r3.Vec{X: -12, Z: 5})
	nut := solid.Move(solid.HexPocket(5.5, 3), r3.Vec{Z: 3})
	strap := solid.Move(solid.Slot(8, 3, 7), r3.Vec{X: 13, Z: -1})
	printSize(solid.Difference(plate, screw, nut, strap))
	// Output: 40.00 x 12.00 x 5.00 mm, 2122 mm³
}

// A root fillet and a flare go round a stem; the stem is bored afterwards.
func ExampleFillet() {
	stem := solid.Cylinder(5, 30)
	foot := solid.Move(solid.Cylinder(12, 3), r3.Vec{Z: -3})
	head := solid.Move(solid.Cylinder(9, 2), r3.Vec{Z: 30})
	body := solid.Union(stem, foot, head, solid.Fillet(stem, 0, solid.Above, 4), solid.Chamfer(stem, 30, solid.Below, 3))
	printSize(solid.Difference(body, solid.Move(solid.Cylinder(3, 40), r3.Vec{Z: -4})))
	// Output: 24.00 x 24.00 x 35.00 mm, 3528 mm³
}

// Half-spaces cut at a slant.
func ExampleHalfSpace() {
	wedge := solid.Difference(solid.Box(20, 10, 6), solid.HalfSpace(r3.Vec{Z: 3}, r3.Vec{X: -0.1, Z: 1}))
	printSize(wedge)
	// Output: 20.00 x 10.00 x 4.00 mm, 600 mm³
}

// Bodies keep their names when they are placed and combined.
func ExampleNamed() {
	foot := solid.Named("foot", solid.Box(20, 20, 4))
	post := solid.Named("post", solid.Rotate(solid.Box(4, 4, 10), math.Pi/4, r3.Vec{Z: 1}))
	part := solid.Union(foot, solid.Place(post, mesh.Move(r3.Vec{Z: 4})))
	fmt.Println(part.Face(r3.Vec{X: 9, Z: 4.1}))
	fmt.Println(solid.Intersection(part, solid.Cylinder(3, 20)).Face(r3.Vec{Z: 14.1}))
	// Output:
	// foot/top
	// post/top
}

// A bad parameter waits in the node for whoever asks.
func ExampleNode_Err() {
	fmt.Println(solid.Named("tray", solid.RoundedPrism(10, 6, 2, 4)).Err())
	// Output: tray: corner radius 4 mm in a section of 10 x 6 mm; use at most 3 mm
}
