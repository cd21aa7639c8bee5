package vibration_test

import (
	"bytes"
	"fmt"
	"math"

	"mastwright/design/evidence/record"
	"mastwright/design/evidence/vibration"
)

func ExampleTap() {
	var file bytes.Buffer
	if err := (vibration.InventedTap{Hz: 103, Damping: .03}).Write(&file); err != nil {
		fmt.Println(err)
	}
	s, err := record.ReadMotion(&file, record.Options{Name: "invented-tap.csv"})
	if err != nil {
		fmt.Println(err)
	}
	predicted := []vibration.Mode{{Name: "bending fore-aft", Hz: 110, Low: 95, High: 125}}
	r, err := vibration.Tap(s, predicted, vibration.TapOptions{Support: vibration.OnBlock})
	fmt.Printf("%d taps %s: %.0f Hz, damping %.2f, error %v\n", len(r.Taps), r.Support, r.Hz, r.Decay, err)
	fmt.Printf("%s: %.2f times the stiffness\n", r.Match.Mode.Name, r.Match.Factor)
	// Output:
	// 4 taps on a block: 103 Hz, damping 0.03, error <nil>
	// bending fore-aft: 0.88 times the stiffness
}

func ExampleTap_refused() {
	s := vibration.InventedTap{Hz: 108, Rate: 100}.Series()
	_, err := vibration.Tap(s, []vibration.Mode{{Name: "bending", Hz: 110}}, vibration.TapOptions{})
	fmt.Println(err)
	// Output:
	// 100 samples a second are too few for the 110 Hz that is expected: at least 330 are needed; a gyro log with 1000 rows a second or a sound recording serves
}

func ExampleImplied() {
	// A mast in series with a foot three times as stiff.
	model := func(scale float64) (float64, error) { return 100 * math.Sqrt(scale*3/(scale+3)), nil }
	s, err := vibration.Implied(80, 79, 81, model)
	fmt.Printf("%.3f (%.3f to %.3f) times the modulus, error %v\n", s.Value, s.Low, s.High, err)
	// Output: 0.814 (0.788 to 0.840) times the modulus, error <nil>
}

func ExampleHover() {
	s := vibration.InventedHover{Speeds: []float64{71, 74, 76.5, 79}, Blades: 3}.Series()
	r, err := vibration.Hover(s, 3, vibration.HoverOptions{Low: 60, High: 90})
	fmt.Printf("%.0f rev/s, %d rotors, %.1f m/s² rms, error %v\n", r.Speed, len(r.Rotors), r.Level, err)
	// Output: 75 rev/s, 4 rotors, 4.6 m/s² rms, error <nil>
}

func ExampleDecrement() {
	fmt.Printf("%.4f %.4f\n", vibration.Decrement(.05), vibration.HalfPowerWidth(.05))
	// Output: 0.3146 0.1003
}
