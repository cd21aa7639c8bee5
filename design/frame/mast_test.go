package frame_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

// tapered is a hollow printed mast, 18 to 12 mm square, wall 2.4 mm, corners 2 mm.
func tapered(share float64) (frame.Section, error) {
	side := 0.018 - 0.006*share
	return frame.Box(side, side, 0.002, 0.0024, 0.38)
}

// mast is a 100 mm column of an invented 7-inch aircraft, held at the base through a soft foot, with a
// receiver on top.
func mast(tb testing.TB, elements int) frame.Model {
	tb.Helper()
	stations, err := frame.Taper(4, tapered)
	if err != nil {
		tb.Fatal(err)
	}
	printed := frame.Elastic{E: 1.7e9, G: 1.7e9 / 2.76, Density: 1250}
	return frame.Model{
		Nodes:    []frame.Node{{Name: "deck"}, {Name: "root"}, {Name: "tray", At: r3.Vec{Z: 0.1}}},
		Members:  []frame.Member{{Name: "mast", A: 1, B: 2, SectionX: r3.Vec{X: 1}, Stations: stations, Material: printed, Elements: elements}},
		Springs:  []frame.Spring{{Name: "foot", A: 1, B: 0, K: frame.Uncoupled(1e8, 1e8, 1e6, 400, 400, 1e4)}},
		Bodies:   []frame.Body{{Node: 2, Mass: 0.021, CG: r3.Vec{Z: 0.006}, Inertia: [3][3]float64{{2e-6}, {0, 2e-6}, {0, 0, 3e-6}}}},
		Supports: []frame.Support{frame.Clamp(0)},
	}
}

// flying sets the mast on an aircraft free in space.
func flying(tb testing.TB, elements int) frame.Model {
	m := mast(tb, elements)
	m.Supports = nil
	m.Bodies = append(m.Bodies, frame.Body{Node: 0, Mass: 1.2, CG: r3.Vec{X: 0.01, Z: -0.03}, Inertia: [3][3]float64{{0.004}, {0, 0.005}, {0, 0, 0.008}}})
	return m
}

func TestLabels(t *testing.T) {
	for _, c := range []struct {
		name  string
		model frame.Model
	}{{"held", mast(t, 20)}, {"flying", flying(t, 20)}} {
		t.Run(c.name, func(t *testing.T) {
			modes, err := frame.Modes(c.model, frame.Options{Count: 6})
			if err != nil {
				t.Fatal(err)
			}
			seen := map[string]bool{}
			for _, m := range modes {
				t.Logf("%8.2f Hz %-24s %+v spring %.3f", m.Frequency, m.Label, m.Share, m.Springs[0])
				if seen[m.Label] {
					t.Errorf("label %q twice", m.Label)
				}
				seen[m.Label] = true
			}
			for _, want := range []string{"bending fore-aft", "bending sideways", "torsion", "axial", "second bending fore-aft", "second bending sideways"} {
				if !seen[want] {
					t.Errorf("no %q among %v", want, seen)
				}
			}
		})
	}
}

// The force of an unbalance goes with the square of the speed: at twice the speed four times as
// much, and with it the response at one and the same frequency.
func TestUnbalanceQuadruples(t *testing.T) {
	m := flying(t, 20)
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	modes, err := s.Modes(frame.Options{})
	if err != nil {
		t.Fatal(err)
	}
	damping := make([]float64, len(modes))
	for i := range damping {
		damping[i] = modes[i].Damping(0.01, []float64{0.02}, []float64{0.01})
	}
	r, err := frame.NewResponse(s, modes, damping)
	if err != nil {
		t.Fatal(err)
	}
	const U = 1.5e-7 // kg·m
	load := func(speed float64) []frame.Harmonic {
		F := complex(U*math.Pow(2*math.Pi*speed, 2), 0)
		return []frame.Harmonic{{Node: 0, Force: [3]complex128{F, -1i * F, 0}}}
	}
	slow, fast := r.Forced(60, load(60), 2), r.Forced(60, load(120), 2)
	closeTo(t, "four times", fast.Peak(), 4*slow.Peak(), 1e-12)
}

// Far below its modes a flying aircraft moves as one body: a push through its centre of gravity
// accelerates every point by force over mass. First mode 115 Hz, push at 1 Hz: (1/115)² off.
func TestRigidResponse(t *testing.T) {
	m := flying(t, 20)
	m.Bodies[1].CG.X = 0 // all of the mass on the z axis
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	modes, err := s.Modes(frame.Options{})
	if err != nil {
		t.Fatal(err)
	}
	damping := []float64{0.02, 0.02, 0.02, 0.02, 0.02, 0.02}
	r, err := frame.NewResponse(s, modes, damping)
	if err != nil {
		t.Fatal(err)
	}
	up := r.Forced(1, []frame.Harmonic{{Node: 0, Force: [3]complex128{0, 0, 1}}}, 2)
	closeTo(t, "heave", up.Derivative(2, 1).Peak(), 1/s.Mass(), 1e-3)
	if turn := up.PeakTurn(); turn > 1e-12 {
		t.Errorf("a push through the centre of gravity turns the aircraft by %g rad", turn)
	}
}

// A mode retuned keeps its peak's height per modal force times the square of its frequency.
func TestRetuned(t *testing.T) {
	s, err := frame.Assemble(mast(t, 10))
	if err != nil {
		t.Fatal(err)
	}
	modes, err := s.Modes(frame.Options{Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	at := func(m frame.Mode) float64 {
		r, err := frame.NewResponse(s, []frame.Mode{m}, []float64{0.02})
		if err != nil {
			t.Fatal(err)
		}
		return r.Forced(m.Frequency, []frame.Harmonic{{Node: 2, Force: [3]complex128{1}}}, 2).Derivative(2, m.Frequency).Peak()
	}
	closeTo(t, "acceleration at resonance", at(modes[0].Retuned(150)), at(modes[0]), 1e-9)
}

// Source: the single-degree transmissibility table, Harris' handbook; a rigid mass on a spring.
func TestShakenOscillator(t *testing.T) {
	m := frame.Model{
		Nodes:   []frame.Node{{}},
		Bodies:  []frame.Body{{Mass: 2, Inertia: [3][3]float64{{1}, {0, 1}, {0, 0, 1}}}},
		Springs: []frame.Spring{{A: 0, B: frame.Ground, K: frame.Uncoupled(200, 3e4, 4e4, 5e4, 6e4, 7e4)}},
	}
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	modes, err := s.Modes(frame.Options{Count: 1})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "natural frequency", modes[0].Frequency, 10/(2*math.Pi), 1e-12)
	r, err := frame.NewResponse(s, modes, []float64{0.05})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ ratio, want float64 }{{0.5, 1.332042}, {1, 10.049876}, {math.Sqrt2, 1}, {2, 0.339182}} {
		f := c.ratio * modes[0].Frequency
		got := r.Shaken(f, [6]complex128{1}, 0).Derivative(2, f).Peak()
		closeTo(t, "transmissibility", got, c.want, 2e-6)
	}
}
