package strength_test

import (
	"fmt"

	"mastwright/design/strength"
)

func ExampleTipOver() {
	vehicle := strength.Vehicle{
		Mass:            1.2,
		CentreOfGravity: [3]float64{0, 0, .01},
		Inertia:         [3][3]float64{{.003, 0, 0}, {0, .003, 0}, {0, 0, .006}},
		ArmEnds:         [][3]float64{{.11, .11, -.02}, {-.11, .11, -.02}, {-.11, -.11, -.02}, {.11, -.11, -.02}},
		Top:             [3]float64{0, 0, .12},
		Compliance:      [3][3]float64{{1e-4, 0, 0}, {0, 1e-4, 0}, {0, 0, 2e-6}},
	}
	root := strength.Member{
		Name:     "mast root",
		Section:  strength.Section{Area: 150e-6, Iy: 6.2e-9, Iz: 6.2e-9, Y: .009, Z: .009},
		Kt:       1.4,
		Unit:     [3]strength.Resultants{{My: .11}, {Mz: .11}, {N: 1}},
		Strength: strength.Spread{Low: 25e6, Typical: 31e6, High: 43e6},
	}
	links := func(blow [3]float64) []strength.Link { return []strength.Link{root.Link(blow)} }
	falls, worst, err := strength.TipOver(vehicle, links, strength.Rule{})
	if err != nil {
		fmt.Println(err)
		return
	}
	f := falls[worst]
	fmt.Printf("strikes at %.2f m/s with %.2f kg\n", f.Speed, f.Mass)
	fmt.Printf("%s breaks at %.2f m/s, %.2f (%.2f at low strength) times that\n", f.Outcome.Typical.Broken, f.Outcome.Typical.BreakSpeed, f.Ratio.Typical, f.Ratio.Low)
	// Output:
	// strikes at 1.36 m/s with 0.59 kg
	// mast root breaks at 2.26 m/s, 1.66 (1.34 at low strength) times that
}

func ExampleShoulderFillet() {
	root := strength.ShoulderFillet(.020, .010, .001)
	sharp := strength.ShoulderFillet(.020, .010, .0001)
	fmt.Printf("Kt %.4f\n", root.Kt)
	fmt.Printf("Kt %.2f: %s\n", sharp.Kt, sharp.Note)
	// Output:
	// Kt 1.9175
	// Kt 2.90: h/r 50 is sharper than the table's 20: Kt is that of 20 and too low; use a larger fillet
}

func ExampleFoot_Capacity() {
	foot := strength.Foot{
		Outline: [][2]float64{{.02, .02}, {-.02, .02}, {-.02, -.02}, {.02, -.02}},
		Screws:  [][2]float64{{.015, .015}, {-.015, .015}, {-.015, -.015}, {.015, -.015}},
	}
	nylon := strength.NylonTension(.003)
	screw := strength.Screw{Tension: nylon, Shear: strength.ScrewShear(nylon)}
	fmt.Printf("%.0f N sideways at 100 mm\n", foot.Capacity([3]float64{0, 0, .1}, [3]float64{1, 0, 0}, screw))
	// Output:
	// 137 N sideways at 100 mm
}

func ExampleWithstand() {
	pin := strength.Link{Name: "shear pin", Kind: strength.Fuse, Capacity: strength.Spread{Low: 60, Typical: 70, High: 80}}
	mast := strength.Link{Name: "mast", Capacity: strength.Spread{Low: 110, Typical: 140, High: 170}}
	outcome, err := strength.Withstand(strength.Blow{Mass: .5, Compliance: 1e-4}, []strength.Link{mast, pin}, strength.Rule{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("the %s (%s) goes first, at %.2f m/s\n", outcome.Typical.Broken, outcome.Typical.Kind, outcome.Typical.BreakSpeed)
	// Output:
	// the shear pin (fuse) goes first, at 0.99 m/s
}

func ExampleLoads_Cases() {
	cases := strength.Loads{Azimuths: 1}.Cases()
	for _, c := range cases {
		fmt.Println(c.Name)
	}
	// Output:
	// manoeuvre, 0 degrees
	// hand, 0 degrees
	// hand, 0 degrees, upwards
	// hand, 0 degrees, downwards
	// hand, up
	// hand, down
	// axial
}
