package solid_test

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/mesh/outline"
	. "mastwright/mesh/solid"
)

func at(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }

var axisX, axisY, axisZ = at(1, 0, 0), at(0, 1, 0), at(0, 0, 1)

// four puts a node at the corners of a rectangle.
func four(n Node, x, y, z float64) []Node {
	return []Node{Move(n, at(x, y, z)), Move(n, at(-x, y, z)), Move(n, at(x, -y, z)), Move(n, at(-x, -y, z))}
}

// referencePart is a foot with four counterbored holes, a hollow tapered mast
// with a root fillet and a cable slot, and a tray with a rim.
func referencePart() Node {
	foot := Named("foot", RoundedPrism(44, 44, 4, 4))
	mast := Named("mast", Move(TaperedPrism(Section{X: 18, Y: 18, Radius: 2}, Section{X: 12, Y: 12, Radius: 2}, 120), at(0, 0, 4)))
	tray := Named("tray", Move(RoundedPrism(32, 32, 7, 3), at(0, 0, 124)))
	cutters := []Node{
		Named("bore", Move(TaperedPrism(Section{X: 13.45, Y: 13.45, Radius: 0.4}, Section{X: 7.15, Y: 7.15, Radius: 0.4}, 126), at(0, 0, -1))),
		Named("pocket", Move(RoundedPrism(28.8, 28.8, 10, 1.4), at(0, 0, 127))),
		Named("opening", Move(Box(8, 8, 10), at(0, 0, 123.9))),
		Named("cable slot", Move(Box(6, 20, 14), at(0, -10, 13))),
	}
	cutters = append(cutters, four(Named("foot hole", Counterbore(3.2, 5, 6.5, 2)), 15.25, 15.25, 4)...)
	cutters = append(cutters, four(Named("tray hole", Cylinder(1.1, 10)), 12, 12, 120)...)
	return Difference(Union(foot, mast, tray, Named("root", Fillet(mast, 0, Above, 4))), cutters...)
}

// wedgeFoot is a round foot with a sloping underside, a ring of slots, a
// round mast with fillets at both ends and a thin weakened ring.
func wedgeFoot() Node {
	disc := Named("foot", Cylinder(24, 9))
	mast := Named("mast", Move(Cone(7, 5.5, 60), at(0, 0, 9)))
	top := Named("top", Move(Cylinder(12, 3), at(0, 0, 69)))
	cutters := []Node{
		Named("slope", HalfSpace(at(0, 0, 2.5), at(math.Sin(-0.1), 0, math.Cos(0.1)))),
		Named("bore", Move(Cylinder(3.6, 90), at(0, 0, -5))),
		Named("fuse", Move(Torus(8, 2), at(0, 0, 40))),
		Named("cable exit", Move(Rotate(Slot(9, 5, 20), math.Pi/2, axisY), at(0, 0, 18))),
	}
	for i := range 3 {
		cutters = append(cutters, Named("slot", Rotate(Move(Slot(9, 3.2, 20), at(17, 0, -2)), 2*math.Pi*float64(i)/3+0.2, axisZ)))
	}
	return Difference(Union(disc, mast, top, Named("root", Fillet(mast, 0, Above, 3)), Named("head", Fillet(mast, 60, Below, 3))), cutters...)
}

// clamp is a split tube clamp with a clamp screw, a nut pocket and a key.
func clamp() Node {
	body := Named("clamp", Union(RoundedPrism(26, 20, 25, 3), Move(RoundedPrism(14, 10, 25, 1), at(17, 0, 0))))
	screw := func(n Node) Node { return Move(Rotate(n, math.Pi/2, axisX), at(19, 0, 12.5)) }
	return Difference(body,
		Named("tube", Move(Cylinder(6.1, 40), at(0, 0, -5))),
		Named("split", Move(Box(30, 1.5, 40), at(15, 0, -5))),
		Named("key", Move(Box(1.2, 2, 40), at(-6.3, 0, -5))),
		Named("screw", Move(screw(Cylinder(1.6, 40)), at(0, 20, 0))),
		Named("nut", Move(screw(HexPocket(5.5, 3)), at(0, 5.01, 0))),
		Named("head", Move(screw(Cylinder(3.1, 3)), at(0, -2.5, 0))))
}

// letteredTray is a tray with rim, engraved letters and an arrow, strap slots
// and a chamfered stub of a mast below.
func letteredTray() Node {
	letters, err := outline.Text("FWD 5", 5)
	if err != nil {
		panic(err)
	}
	mast := Named("mast", Move(TaperedPrism(Section{X: 14, Y: 16, Radius: 3}, Section{X: 12, Y: 12, Radius: 2}, 20), at(0, 0, -20)))
	tray := Named("tray", RoundedPrism(36, 30, 6, 4))
	cutters := []Node{
		Named("pocket", Move(RoundedPrism(33, 27, 6, 2.5), at(0, 0, 2.4))),
		Named("bore", Move(TaperedPrism(Section{X: 10, Y: 12, Radius: 1}, Section{X: 8, Y: 8, Radius: 0.5}, 19), at(0, 0, -21))),
		Named("letters", Move(Extrude(1, letters...), at(0, 6, 1.9))),
		Named("arrow", Move(Extrude(1, outline.Outline{Outer: outline.Arrow(12, 6)}), at(0, -5, 1.9))),
	}
	cutters = append(cutters, Named("strap", Move(Slot(10, 2.4, 10), at(0, 11.4, -3))), Named("strap", Move(Slot(10, 2.4, 10), at(0, -11.4, -3))))
	return Difference(Union(tray, mast, Named("flare", Chamfer(mast, 20, Below, 2.5))), cutters...)
}

// plate is a slotted plate of lines and arcs with a window and letters.
func plate() Node {
	o := outline.Outline{
		Outer: outline.Loop{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 4}, {X: 36, Y: 4, Bulge: 0.3}, {X: 36, Y: 16}, {X: 30, Y: 16}, {X: 30, Y: 60, Bulge: 1}, {X: 0, Y: 60}},
		Holes: []outline.Loop{outline.Circle(3).Translate(15, 60), outline.Slot(12, 4).Rotate(0.7).Translate(15, 35), outline.RoundedRectangle(14, 8, 1.5).Translate(15, 12)},
	}
	letters, err := outline.Text("K7", 6)
	if err != nil {
		panic(err)
	}
	return Difference(Named("plate", Extrude(3, o)), Named("letters", Move(Extrude(2, letters...), at(15, 23, 2.4))))
}

// parts are the shapes every test of whole parts runs over.
func parts() map[string]Node {
	tilt := at(0.3, -0.5, 0.8)
	return map[string]Node{
		"reference":       referencePart(),
		"wedge foot":      wedgeFoot(),
		"clamp":           clamp(),
		"lettered tray":   letteredTray(),
		"plate":           plate(),
		"tilted wedge":    Rotate(wedgeFoot(), 0.7, tilt),
		"tilted clamp":    Rotate(clamp(), 1.1, tilt),
		"tilted tray":     Rotate(letteredTray(), 0.4, tilt),
		"tilted plate":    Rotate(plate(), 0.9, tilt),
		"tilted original": Rotate(referencePart(), 0.5, tilt),
	}
}
