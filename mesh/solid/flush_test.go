package solid_test

import (
	"context"
	"math"
	"testing"

	. "mastwright/mesh/solid"
)

// TestNearlyFlush drags a face through another: parts in which two faces that
// look the same way lie a millionth to a tenth of a millimetre apart, either
// way. Each must be made, with its triangles simplified, to the tolerance or
// to about the step itself, and its volume must agree with the closed form to
// what the mesh is told to stray.
func TestNearlyFlush(t *testing.T) {
	const pi = math.Pi
	cases := []struct {
		name   string
		make   func(d float64) Node
		volume func(d float64) float64
	}{
		{"two square bores", func(d float64) Node {
			return Difference(Box(20, 20, 10), Move(Box(6, 6, 6), at(0, 0, -1)), Move(Box(6, 6+2*d, 7), at(0, 0, 4)))
		}, func(d float64) float64 { return 4000 - 6*6*4 - 6*(6+2*d)*6 - 6*max(0, -2*d) }},
		{"two tops", func(d float64) Node {
			return Union(Move(Box(10, 10, 4), at(-5, 0, 0)), Move(Box(10, 10, 4+d), at(5, 0, 0)))
		}, func(d float64) float64 { return 800 + 100*d }},
		{"a block let in", func(d float64) Node {
			return Union(Box(20, 20, 4), Move(Box(8, 8, 4), at(1, 0, d)))
		}, func(d float64) float64 { return 1600 + 64*math.Abs(d) }},
		{"a block on a plate", func(d float64) Node {
			return Union(Box(20, 20, 4), Move(Box(8, 20+2*d, 4), at(1, 0, 4)))
		}, func(d float64) float64 { return 1600 + 32*(20+2*d) }},
		{"a slot along a plate", func(d float64) Node {
			return Difference(Union(Box(30, 20, 4), Move(Box(12, 12, 20), at(0, 0, 4))), Move(Box(6, 20, 8), at(0, -10, 4+d)))
		}, func(d float64) float64 { return 2400 + 12*12*20 - 6*6*(8+min(d, 0)) - 6*10*max(0, -d) }},
		{"two round bores", func(d float64) Node {
			return Difference(Box(20, 20, 10), Move(Cylinder(3, 6), at(0, 0, -1)), Move(Cylinder(3+d, 7), at(0, 0, 4)))
		}, func(d float64) float64 {
			r := max(3, 3+d) // where they overlap
			return 4000 - pi*9*4 - pi*r*r - pi*(3+d)*(3+d)*5
		}},
		{"a round bore turned on another", func(d float64) Node {
			return Difference(Box(20, 20, 10), Move(Cylinder(3, 6), at(0, 0, -1)), Rotate(Move(Cylinder(3+d, 7), at(0, 0, 4)), 0.5, axisZ))
		}, func(d float64) float64 {
			r := max(3, 3+d)
			return 4000 - pi*9*4 - pi*r*r - pi*(3+d)*(3+d)*5
		}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, size := range []float64{0, 1e-6, 1e-3, 0.005, 0.0055, 0.015, 0.1} {
				for _, d := range []float64{size, -size} {
					for _, tolerance := range []float64{0.1, 0.01} {
						n := c.make(d)
						m, r, err := Polygonise(context.Background(), n, Options{Tolerance: tolerance})
						if err != nil {
							t.Errorf("%g apart at %g mm: %v", d, tolerance, err)
							continue
						}
						// A bar's wall a step wide may take the chord's share as well.
						if r.Coarse || r.Tolerance > tolerance+size {
							t.Errorf("%g apart at %g mm: strays %g mm, coarse %v", d, tolerance, r.Tolerance, r.Coarse)
						}
						// 1e-3 mm³ for coordinates rounded to 32 bits.
						if want := c.volume(d); math.Abs(m.Volume()-want) > m.Area()*r.Tolerance+1e-3 {
							t.Errorf("%g apart at %g mm: volume %g, want %g", d, tolerance, m.Volume(), want)
						}
						for _, v := range m.Vertices {
							if s := math.Abs(n.Value(v)); s > r.Tolerance+1e-6 {
								t.Errorf("%g apart at %g mm: a vertex strays %g mm, told is %g", d, tolerance, s, r.Tolerance)
								break
							}
						}
					}
				}
			}
		})
	}
}
