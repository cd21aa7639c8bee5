package design_test

import (
	"fmt"
	"os"

	"mastwright/design"
	"mastwright/design/units"
)

func ExampleDecode() {
	file := "mastwright: 1\nmast:\n  height: 3.6 in\n  tip: {x: 6 mm}\n  corner: 1 mm\n  wall: 4 mm\nmotors:\n  cels: 6\n"
	_, problems := design.Decode([]byte(file), design.Options{Name: "post.yaml"})
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// post.yaml:2: mast.cable_way.width: 5 mm is wider than the mast's flat side of 4 mm; use at most that, a smaller corner or a wider mast
	// post.yaml:6: mast.wall: 4 mm leaves no bore in a 6 mm section; use less than 3 mm
	// post.yaml:8: motors.cels: "cels" is not a key here; did you mean "cells"?
}

func ExampleEncode() {
	d := design.New()
	for _, answer := range [][2]string{{"name", "Survey"}, {"mast.height", "3.6 in"}, {"mast.root.x", "18"}, {"loads.sideways", "4"}} {
		if err := d.Set(answer[0], answer[1]); err != nil {
			fmt.Println(err)
		}
	}
	if err := design.Encode(os.Stdout, d); err != nil {
		fmt.Println(err)
	}
	// Output:
	// mastwright: 1
	// name: Survey
	// mast:
	//   height: 91.44 mm
	//   root: {x: 18 mm}
	// loads:
	//   sideways: 4 g
}

func ExampleDocument_Set() {
	d := design.New()
	err := d.Set("mast.height", "1,000")
	fmt.Println(err)
	fmt.Println(d.Get("mast.height"), d.Origin("mast.height"))
	// Output:
	// mast.height: "1,000" can be read two ways; write 1000 or 1.0
	// 100 mm default
}

func ExampleProblem_Sentence() {
	d := design.New()
	if err := d.Insert("airframe.places", 0); err != nil {
		fmt.Println(err)
	}
	err := d.Set("airframe.places[0].holes.along", "305")
	fmt.Println(err.(design.Problem).Sentence())
	// Output: Hole spacing: 305 mm is outside 10 to 120 mm. Did you mean 30.5 mm?
}

func ExampleDocument_Missing() {
	d := design.New()
	for _, a := range d.Missing()[:3] {
		fmt.Printf("%s (%d checks): %s\n", a.Title, len(a.Checks), a.Measure)
	}
	// Output:
	// Places (10 checks): Look for three or four holes with free room above them: the stack, a rear plate, an arm root.
	// Receiver mass (6 checks): Letter scale, the cable unplugged or held up.
	// Take-off mass (5 checks): Kitchen scale, ready to fly with its pack; leave off the mount and the receiver.
}

func ExampleHoles_Centres() {
	h := design.Holes{As: "distances", Distances: []design.Distance{{From: 1, To: 2, Length: 30}, {From: 2, To: 3, Length: 40}, {From: 1, To: 3, Length: 50}}}
	spots, residual, err := h.Centres()
	for i, s := range spots {
		fmt.Printf("%d: %.2f forward, %.2f left\n", i+1, s.X.Millimetres(), s.Y.Millimetres())
	}
	fmt.Println(residual < units.Millimetres(0.001), err)
	// Output:
	// 1: -20.00 forward, -13.33 left
	// 2: 10.00 forward, -13.33 left
	// 3: 10.00 forward, 26.67 left
	// true <nil>
}

func ExampleFieldOf() {
	f, _ := design.FieldOf("airframe.places[0].holes.diameter")
	fmt.Println(f.Title+":", f.Help)
	fmt.Println(f.Measure)
	// Output:
	// Hole diameter: Diameter of each hole in the frame.
	// Caliper's inside jaws across one hole, turned once; take the largest reading.
}
