package strength_test

import (
	"fmt"
	"math"
	"testing"

	"mastwright/design/strength"
)

// By hand, μ .2 (common practice): two screws of 100 N on a tube of 10 mm hold 2 x 2 x .2 x 100 N x 5 mm = .4 N·m and 80 N; a cross
// screw of 120 N adds 120 N at 5 mm.
func TestClamp(t *testing.T) {
	for _, c := range []struct {
		name         string
		clamp        strength.Clamp
		torque, pull float64
	}{
		{"two screws", strength.Clamp{Preload: 100, Screws: 2, Radius: .005}, .4, 80},
		{"keyed", strength.Clamp{Preload: 100, Screws: 2, Radius: .005, Key: 120}, 1, 200},
		{"smooth", strength.Clamp{Preload: 100, Screws: 1, Radius: .005, Friction: .1}, .1, 20},
		{"loose", strength.Clamp{Screws: 1, Radius: .005}, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.clamp.Torque(); math.Abs(got-c.torque) > 1e-12 {
				t.Errorf("torque %g N·m; want %g", got, c.torque)
			}
			if got := c.clamp.Pull(); math.Abs(got-c.pull) > 1e-12 {
				t.Errorf("pull %g N; want %g", got, c.pull)
			}
		})
	}
}

func ExampleClamp() {
	c := strength.Clamp{Preload: 80, Screws: 1, Radius: .005} // an M3 of nylon, at 0.4 of its breaking load
	fmt.Printf("it turns at %.2f N·m and slides at %.0f N\n", c.Torque(), c.Pull())
	// Output:
	// it turns at 0.16 N·m and slides at 32 N
}
