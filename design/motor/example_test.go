package motor_test

import (
	"fmt"

	"mastwright/design/motor"
)

func ExampleEstimate() {
	rotors, err := motor.Estimate(motor.Drive{KV: 1300, Cells: 6, Blades: 2, Diameter: .1778, Mass: 1.2})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("hover %.0f Hz, working %.0f to %.0f Hz, full %.0f Hz\n", rotors.Hover.Mid, rotors.Working.Low, rotors.Working.High, rotors.Full.Mid)
	fmt.Printf("unbalance %.2f g·mm, %.2f N in hover\n", rotors.Unbalance*1e6, rotors.UnbalanceForce(rotors.Hover.Mid))
	// Output:
	// hover 148 Hz, working 116 to 183 Hz, full 385 Hz
	// unbalance 0.57 g·mm, 0.49 N in hover
}
