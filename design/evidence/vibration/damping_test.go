package vibration_test

import (
	"math"
	"testing"

	"mastwright/design/evidence/vibration"
)

// Figures worked out apart from this package from the formulas of Thomson & Dahleh, Theory of Vibration with Applications, 5th
// edition: the logarithmic decrement (chapter 2) and the sharpness of resonance (chapter 3, with the exact roots in place of
// the usual 2ζ). Chapters from memory.
func TestDampingFigures(t *testing.T) {
	for _, c := range []struct {
		name              string
		got, want, within float64
	}{
		{"decrement of .05", vibration.Decrement(.05), .3145527023, 1e-10},
		{"half-power width of .05", vibration.HalfPowerWidth(.05), .10025221, 1e-8},
		{"damping of decrement .3145527023", vibration.DampingOfDecrement(.3145527023), .05, 1e-10},
		{"no damping", vibration.DampingOfHalfPower(1, 1), 0, 1e-15},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: got %.10g, want %.10g", c.name, c.got, c.want)
		}
	}
}

// The half-power frequencies are looked for on the response itself, by bisection.
func TestHalfPowerOnTheResponse(t *testing.T) {
	for _, zeta := range []float64{.002, .01, .05, .1, .2, .3} {
		response := func(r float64) float64 { return 1 / math.Hypot(1-r*r, 2*zeta*r) }
		top := math.Sqrt(1 - 2*zeta*zeta)
		want := response(top) / math.Sqrt2
		cross := func(a, b float64) float64 { // response(a) is below, response(b) above
			for range 100 {
				if m := (a + b) / 2; response(m) < want {
					a = m
				} else {
					b = m
				}
			}
			return a
		}
		low, high := cross(0, top), cross(2, top)
		if got := vibration.HalfPowerWidth(zeta); math.Abs(got-(high-low)) > 1e-12 {
			t.Errorf("width of %g: got %.14g, want %.14g", zeta, got, high-low)
		}
		if got := vibration.DampingOfHalfPower(low, high); math.Abs(got-zeta) > 1e-12 {
			t.Errorf("damping of %g to %g: got %.14g, want %g", low, high, got, zeta)
		}
		if got := vibration.DampingOfDecrement(vibration.Decrement(zeta)); math.Abs(got-zeta) > 1e-15 {
			t.Errorf("damping of the decrement of %g: got %g", zeta, got)
		}
	}
}
