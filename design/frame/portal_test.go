package frame_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"mastwright/design/frame"
)

// bar is a slender section that neither stretches nor shears, bending stiffly in every way but about its x.
func bar(i float64) []frame.Station {
	return frame.Uniform(frame.Section{A: 1, Ix: i, Iy: 1e-6, J: 1e-6, Left: 1e-3, Right: 1e-3, Bottom: 1e-3, Top: 1e-3})
}

// ladder is two posts of a second moment fixed at their feet, a width apart across, tied at even heights by beams of another.
func ladder(height, width, post, beam float64, ties int) frame.Model {
	elastic := frame.Elastic{E: 2e9, G: 1e9, Density: 1}
	m := frame.Model{}
	for side := range 2 {
		for k := range ties + 1 {
			m.Nodes = append(m.Nodes, frame.Node{At: r3.Vec{Y: (float64(side) - 0.5) * width, Z: height * float64(k) / float64(ties)}})
		}
		first := side * (ties + 1)
		for k := range ties {
			m.Members = append(m.Members, frame.Member{A: first + k, B: first + k + 1, Stations: bar(post), Material: elastic, Elements: 1})
		}
		m.Supports = append(m.Supports, frame.Clamp(first))
	}
	for k := 1; k <= ties; k++ {
		// A beam runs to the left: forward is its section's x, so it too bends about x in the plane of the ladder.
		m.Members = append(m.Members, frame.Member{A: k, B: ties + 1 + k, Stations: bar(beam), Material: elastic, Elements: 1})
	}
	return m
}

// sidesway is the force in N for a metre of movement across at the top, half of it on each post.
func sidesway(t *testing.T, m frame.Model, ties int) float64 {
	t.Helper()
	half := r3.Vec{Y: 0.5}
	r, err := frame.Statics(m, []frame.Case{{Loads: []frame.Load{{Node: ties, Force: half}, {Node: 2*ties + 1, Force: half}}}})
	if err != nil {
		t.Fatal(err)
	}
	return 1 / r[0].Nodes[ties].Move.Y
}

// A portal frame with fixed feet sways with
//
//	k = 24 E I/h³ (6γ + 1)/(6γ + 4), γ = (I_b/w)/(I/h),
//
// 24 E I/h³ under a rigid beam and 6 E I/h³ under one of no stiffness. Source: A. K. Chopra, Dynamics of Structures, section 1.3
// (there for w = 2h), from memory; it follows from slope deflection.
func TestPortalFrame(t *testing.T) {
	const h, w, post, e = 0.1, 0.02, 5e-11, 2e9
	for _, c := range []struct {
		name  string
		gamma float64
		want  float64 // of E I/h³
	}{
		{"rigid beam", 1e9, 24},
		{"beam of no stiffness", 1e-9, 6},
		{"equal stiffness", 1, 24 * 7.0 / 10},
		{"stiff beam", 5, 24 * 31.0 / 34},
		{"soft beam", 0.1, 24 * 1.6 / 4.6},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := sidesway(t, ladder(h, w, post, c.gamma*post*w/h, 1), 1) / (e * post / h / h / h)
			if math.Abs(got/c.want-1) > 1e-5 { // the posts stretch a little
				t.Errorf("k = %.6f E I/h³; want %.6f", got, c.want)
			}
		})
	}
}

// Posts tied by rigid beams bend together, a bay of length a besides as fixed posts under the shear:
//
//	δ = h³/(3 E I_c) + h a²/(24 E I), I_c = 2 (I + A (w/2)²) (parallel axis)
//
// Source: Vierendeel girder, any structural handbook; the parallel-axis theorem. With many beams the second term goes.
func TestRigidTiesMakeOneSection(t *testing.T) {
	const h, w, e = 0.1, 0.017, 2e9
	post, err := frame.Rectangle(0.024, 0.003, 0)
	if err != nil {
		t.Fatal(err)
	}
	post.ShearX, post.ShearY = 0, 0
	whole := 2 * (post.Ix + post.A*w*w/4)
	before := math.Inf(1)
	for _, ties := range []int{2, 5, 10, 40, 80} {
		t.Run(fmt.Sprint(ties), func(t *testing.T) {
			m := ladder(h, w, 1, 1, ties)
			for i := range m.Members {
				if i < 2*ties {
					m.Members[i].Stations = frame.Uniform(post)
				}
			}
			got, a := 1/sidesway(t, m, ties), h/float64(ties)
			composite := h * h * h / (3 * e * whole)
			// The bays' own bending adds to the ends' shear: what the closed form leaves out shrinks with the bays.
			want := composite + h*a*a/(24*e*post.Ix)
			if math.Abs(got/want-1) > 0.01 {
				t.Errorf("gives %.6g m/N; want %.6g", got, want)
			}
			if off := got / composite; off > before || off < 1-1e-6 {
				t.Errorf("%.4f of the composite section's; the bays before gave %.4f, and it is at least 1", off, before)
			} else {
				before = off
			}
		})
	}
	if before > 1.01 {
		t.Errorf("eighty ties give %.4f of the composite section's movement; want 1 within 1 %%", before)
	}
}
