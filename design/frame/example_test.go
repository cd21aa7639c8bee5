package frame_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

// A printed rod of 10 mm, 100 mm tall, with 20 g on top.
func rodWithReceiver() frame.Model {
	section, _ := frame.Round(0.010, 0.35)
	return frame.Model{
		Nodes:    []frame.Node{{Name: "root"}, {Name: "tray", At: r3.Vec{Z: 0.1}}},
		Members:  []frame.Member{{A: 0, B: 1, Stations: frame.Uniform(section), Material: frame.Elastic{E: 2e9, G: 0.74e9, Density: 1250}, Elements: 20}},
		Bodies:   []frame.Body{{Node: 1, Mass: 0.020}},
		Supports: []frame.Support{frame.Clamp(0)},
	}
}

func ExampleModes() {
	modes, err := frame.Modes(rodWithReceiver(), frame.Options{Count: 3})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range modes {
		fmt.Printf("%.0f Hz %s\n", m.Frequency, m.Label)
	}
	// Output:
	// 58 Hz bending fore-aft
	// 58 Hz bending sideways
	// 775 Hz second bending fore-aft
}

func ExampleStatics() {
	results, err := frame.Statics(rodWithReceiver(), []frame.Case{
		{Loads: []frame.Load{{Node: 1, Force: r3.Vec{X: 5}}}},
		{Field: r3.Vec{X: 3 * 9.80665}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range results {
		root := r.Members[0][0]
		fmt.Printf("tray moves %.2f mm, root bears %.3f N·m\n", 1e3*r.Nodes[1].Move.X, root.My)
	}
	// Output:
	// tray moves 1.71 mm, root bears 0.500 N·m
	// tray moves 0.24 mm, root bears 0.073 N·m
}

func ExampleSystem_Compliance() {
	s, err := frame.Assemble(rodWithReceiver())
	if err != nil {
		fmt.Println(err)
		return
	}
	c, _ := s.Compliance(1, 1)
	fmt.Printf("%.2f mm per newton\n", 1e3*c[0][0])
	// Output:
	// 0.34 mm per newton
}

func ExampleNewResponse() {
	s, err := frame.Assemble(rodWithReceiver())
	if err != nil {
		fmt.Println(err)
		return
	}
	modes, _ := s.Modes(frame.Options{Count: 2})
	zeta := modes[0].Damping(0.01, []float64{0.02}, nil)
	r, err := frame.NewResponse(s, modes, []float64{zeta, zeta})
	if err != nil {
		fmt.Println(err)
		return
	}
	f := modes[0].Frequency
	tray := r.Shaken(f, [6]complex128{1}, 1).Derivative(2, f)
	fmt.Printf("at resonance the tray shakes %.0f times as hard as the ground\n", tray.Peak())
	// Output:
	// at resonance the tray shakes 27 times as hard as the ground
}

func ExampleIntegrate() {
	// A round tube, 10 mm outside, 8 mm bore, as an outline of arcs.
	section, err := frame.Integrate([]frame.Loop{
		{{X: 0.005, Bulge: 1}, {X: -0.005, Bulge: 1}},
		{{X: 0.004, Bulge: -1}, {X: -0.004, Bulge: -1}},
	}, frame.SectionOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("A %.2f mm², I %.1f mm⁴, J %.1f mm⁴\n", section.A*1e6, section.Ix*1e12, section.J*1e12)
	// Output:
	// A 28.27 mm², I 289.8 mm⁴, J 579.6 mm⁴
}

func ExampleBox() {
	_, err := frame.Box(0.006, 0.006, 0, 0.004, 0.38)
	fmt.Println(err)
	// Output:
	// box: wall 0.004 m leaves no bore in 0.006 m; use less than 0.003 m, or a rectangle
}

func ExamplePlate_Compliance() {
	square := func(side float64) frame.Loop {
		a := side / 2
		return frame.Loop{{X: -a, Y: -a}, {X: a, Y: -a}, {X: a, Y: a}, {X: -a, Y: a}}
	}
	a := 0.01525 // screws on 30.5 mm
	foot := frame.Plate{
		Outline: []frame.Loop{square(0.044)}, Hub: square(0.018), Thickness: 0.004, E: 1.8e9, Poisson: 0.38,
		Pins: []frame.Pin{{X: a, Y: a}, {X: -a, Y: a}, {X: -a, Y: -a}, {X: a, Y: -a}},
	}
	c, err := foot.Compliance()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N·m/rad\n", 1/c.C[2][2])
	// Output:
	// 596 N·m/rad
}
