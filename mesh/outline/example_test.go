package outline_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"mastwright/mesh/outline"
)

func ExampleLoop_Offset() {
	outside := outline.RoundedRectangle(18, 18, 4)
	bore, err := outside.Offset(-2.4)
	wall := outline.Plate(outside, bore).Section()
	fmt.Printf("%v, %.2f mm², %.0f mm⁴\n", err, wall.Area, wall.Ixx)
	// Output: <nil>, 138.22 mm², 5394 mm⁴
}

func ExampleOutline_Check() {
	plate := outline.Plate(outline.Rectangle(40, 20), outline.Circle(1.6).Translate(19, 0))
	fmt.Println(plate.Check())
	// Output: outer loop and hole 1 meet at (20, 1.249) mm; move them apart
}

func ExampleOutline_Distance() {
	plate := outline.Plate(outline.Slot(30, 10), outline.Circle(2))
	fmt.Println(plate.Distance(r2.Vec{X: 5}), plate.Distance(r2.Vec{X: 1}))
	// Output: -3 1
}

func ExampleText() {
	text, err := outline.Text("L", 7)
	fmt.Println(text[0].Outer, err)
	// Output: [{-2.5 -3.5 0} {2.5 -3.5 0} {2.5 -2.5 0} {-1.5 -2.5 0} {-1.5 3.5 0} {-2.5 3.5 0}] <nil>
}

func ExamplePolygon() {
	nut := outline.Polygon(6, 5.5)
	fmt.Printf("%.3f mm across corners\n", nut.Box().Max.X-nut.Box().Min.X)
	// Output: 6.351 mm across corners
}
