package frame_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"mastwright/design/frame"
)

// steel is the material of the NAFEMS free-vibration benchmarks.
var steel = frame.Elastic{E: 200e9, G: 200e9 / 2.6, Density: 8000}

// Source: NAFEMS, Selected Benchmarks for Natural Frequency Analysis (R0015), test FV4: cantilever
// with off-centre point masses. Target values as published; the figures with shear were computed
// independently with Timoshenko elements, kappa .886.
func TestNAFEMSFV4(t *testing.T) {
	model := func(shear float64) frame.Model {
		s, err := frame.Round(0.5, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		s.ShearX, s.ShearY = shear*s.A, shear*s.A
		return frame.Model{
			Nodes:    []frame.Node{{}, {At: r3.Vec{X: 10}}, {At: r3.Vec{X: 10, Y: 2}}, {At: r3.Vec{X: 10, Y: -2}}},
			Members:  []frame.Member{{A: 0, B: 1, Stations: frame.Uniform(s), Material: steel, Elements: 20}},
			Links:    []frame.Link{{Master: 1, Slave: 2}, {Master: 1, Slave: 3}},
			Bodies:   []frame.Body{{Node: 2, Mass: 10000}, {Node: 3, Mass: 1000}},
			Supports: []frame.Support{frame.Clamp(0)},
		}
	}
	cases := []struct {
		name   string
		shear  float64
		want   []float64
		relTol float64
	}{
		{"target, shear left out", 0, []float64{1.723, 1.727, 7.413, 9.972, 18.155, 26.957}, 1e-3},
		{"with shear", 0.886, []float64{1.72198, 1.72548, 7.40980, 9.94683, 18.04323, 26.68775}, 2e-5},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			modes, err := frame.Modes(model(c.shear), frame.Options{Count: 6})
			if err != nil {
				t.Fatal(err)
			}
			for i, want := range c.want {
				closeTo(t, modes[i].Label, modes[i].Frequency, want, c.relTol)
			}
		})
	}
}

// Source: NAFEMS R0015, test FV5: deep simply supported beam. Analytical values of the document, with
// the torsion constant of a square; a list with 77.54 and 233.10 Hz took the polar moment.
func TestNAFEMSFV5(t *testing.T) {
	s, err := frame.Rectangle(2, 2, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	m := frame.Model{
		Nodes:   []frame.Node{{}, {At: r3.Vec{X: 10}}},
		Members: []frame.Member{{A: 0, B: 1, Stations: frame.Uniform(s), Material: steel, Elements: 40}},
		Supports: []frame.Support{
			{Node: 0, Fixed: [6]bool{true, true, true, true}},
			{Node: 1, Fixed: [6]bool{1: true, 2: true}},
		},
	}
	modes, err := frame.Modes(m, frame.Options{Count: 9})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{42.650, 42.650, 71.20, 125.00, 148.15, 148.15, 213.61, 283.47, 283.47} {
		closeTo(t, "mode", modes[i].Frequency, want, 1e-3)
	}
}

// omegas returns the dimensionless frequencies ω L² sqrt(ρA0/EI0) of unit-like models in one plane.
func omegas(t *testing.T, m frame.Model, count int) []float64 {
	t.Helper()
	modes, err := frame.Modes(m, frame.Options{Count: count})
	if err != nil {
		t.Fatal(err)
	}
	var out []float64
	for _, mode := range modes {
		out = append(out, 2*math.Pi*mode.Frequency)
	}
	return out
}

func TestTapers(t *testing.T) {
	const slender = 1e-12 // second moment at the root: no rotary inertia to speak of
	model := func(depth, width func(x float64) float64, elements int) frame.Model {
		stations, err := frame.Taper(2*elements, func(x float64) (frame.Section, error) {
			d, w := depth(x), width(x)
			s := euler()
			s.A = d * w
			s.Iy = slender * d * d * d * w // moving along x, the plane under test
			s.Ix = 1e6 * s.Iy
			return s, nil
		})
		if err != nil {
			t.Fatal(err)
		}
		m := unit(elements)
		m.Members[0].Stations = stations
		return m
	}
	flat := func(float64) float64 { return 1 }
	half := func(x float64) float64 { return 1 - x/2 }
	toPoint := func(x float64) float64 { return 1 - 0.999*x }
	cases := []struct {
		name, source string
		m            frame.Model
		want         []float64
		relTol       float64
	}{
		{"depth to a half", "Downs 1977, J. Mech. Des. 99; Blevins", model(half, flat, 20), []float64{3.823784847, 18.3172609}, 1e-4},
		{"depth and width to a half", "Downs 1977; Blevins", model(half, half, 20), []float64{4.625150252, 19.54761318}, 1e-4},
		// A thousandth of the depth is left at the tip: a limit study, not the limit.
		{"wedge", "Kirchhoff 1882", model(toPoint, flat, 200), []float64{5.3150994, 15.2071680}, 2e-3},
		{"cone", "Kirchhoff 1882", model(toPoint, toPoint, 200), []float64{8.7192589, 21.1456624}, 2e-3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := omegas(t, c.m, len(c.want))
			for i, want := range c.want {
				closeTo(t, c.source, got[i], want, c.relTol)
			}
		})
	}
}

// Halving the elements of a mast's taper moves no frequency by more than 0.1 %.
func TestTaperElements(t *testing.T) {
	frequencies := func(elements int) []frame.Mode {
		m := mast(t, elements)
		modes, err := frame.Modes(m, frame.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return modes
	}
	fine, coarse := frequencies(40), frequencies(20)
	for i := range fine {
		closeTo(t, fine[i].Label, coarse[i].Frequency, fine[i].Frequency, 1e-3)
	}
}

// Source: λ tan λ = 1/j, root .860333589019 for j 1.
func TestTorsionWithTipInertia(t *testing.T) {
	s := euler()
	s.Ix, s.Iy = 1, 1 // polar 2
	s.J = 2e-6
	m := unit(80) // linear twist: the error falls with the square
	m.Members[0].Stations = frame.Uniform(s)
	m.Members[0].Material = frame.Elastic{E: 1e12, G: 1, Density: 1}
	m.Bodies = []frame.Body{{Node: 1, Mass: 1, Inertia: [3][3]float64{{1e-6}, {0, 1e-6}, {0, 0, 2}}}}
	modes, err := frame.Modes(m, frame.Options{Count: 2})
	if err != nil {
		t.Fatal(err)
	}
	// ω = λ/L sqrt(GJ/ρIp) = λ sqrt(1e-6)
	closeTo(t, "λ", 2*math.Pi*modes[0].Frequency*1e3, 0.860333589019, 1e-5)
	if modes[0].Label != "torsion" {
		t.Errorf("label %q, want torsion", modes[0].Label)
	}
}

// Source: roots of Timoshenko's frequency equation for a rectangle, h/L .1, nu .3, kappa 5/6, derived
// independently; ω L² sqrt(ρA/EI).
func TestTimoshenkoCantilever(t *testing.T) {
	const h, nu = 0.1, 0.3
	s := frame.Section{A: h * 10, Ix: 1e3, Iy: 10 * h * h * h / 12, J: 1e3, ShearX: 5. / 6 * h * 10, ShearY: 5. / 6 * h * 10, Left: 1, Right: 1, Bottom: 1, Top: 1}
	m := unit(40)
	m.Members[0].Stations = frame.Uniform(s)
	m.Members[0].Material = frame.Elastic{E: 1, G: 1 / (2 * (1 + nu)), Density: 1}
	modes, err := frame.Modes(m, frame.Options{Count: 8})
	if err != nil {
		t.Fatal(err)
	}
	var got []float64
	for _, mode := range modes {
		if mode.Share.ForeAft > 0.9 {
			got = append(got, 2*math.Pi*mode.Frequency*math.Sqrt(s.A/s.Iy))
		}
	}
	for i, want := range []float64{3.48835495, 20.9069154} {
		closeTo(t, "mode", got[i], want, 1e-4)
	}
}

// rod is the printed rod of the deflection checks: L 100 mm, d 10 mm, E 2000 MPa, nu .35.
func rod(t *testing.T) frame.Model {
	t.Helper()
	s, err := frame.Round(0.01, 0.35)
	if err != nil {
		t.Fatal(err)
	}
	return frame.Model{
		Nodes:    []frame.Node{{Name: "root"}, {Name: "tip", At: r3.Vec{Z: 0.1}}},
		Members:  []frame.Member{{A: 0, B: 1, Stations: frame.Uniform(s), Material: frame.Elastic{E: 2e9, G: 2e9 / 2.7, Density: 1250}, Elements: 20}},
		Supports: []frame.Support{frame.Clamp(0)},
	}
}

// Source: PL³/3EI, PL²/2EI, wL⁴/8EI and PL/κAG (Roark's Formulas for Stress and Strain, table 8.1;
// shear coefficient after Cowper).
func TestCantileverDeflections(t *testing.T) {
	const tol = 1e-8 // the elements carry end loads exactly; what is left is rounding
	full := rod(t)
	bare := rod(t)
	bare.Members[0].Stations[0].Section.ShearX, bare.Members[0].Stations[0].Section.ShearY = 0, 0
	P := frame.Case{Loads: []frame.Load{{Node: 1, Force: r3.Vec{X: 5}}}}
	w := frame.Case{Lines: []frame.LineLoad{{Member: 0, PerMetre: r3.Vec{Y: 50}}}}
	r, err := frame.Statics(bare, []frame.Case{P, w})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "P, tip", r[0].Nodes[1].Move.X, 1.697652726e-3, 1e-9)
	closeTo(t, "P, slope", r[0].Nodes[1].Turn.Y, 0.02546479089, tol)
	closeTo(t, "w, tip", r[1].Nodes[1].Move.Y, 0.6366197724e-3, tol)
	closeTo(t, "root shear", r[0].Members[0][0].Vx, 5, tol)
	closeTo(t, "root moment", r[0].Members[0][0].My, -0.5*-1, tol)
	closeTo(t, "root moment of w", r[1].Members[0][0].Mx, -0.25, tol)
	closeTo(t, "middle moment of w", r[1].Members[0][10].Mx, -0.0625, tol)
	if tip := r[1].Members[0][20].Mx; math.Abs(tip) > 1e-10 {
		t.Errorf("tip moment of w: got %g N·m, want 0", tip)
	}
	s, err := frame.Statics(full, []frame.Case{P})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "shear", s[0].Nodes[1].Move.X-r[0].Nodes[1].Move.X, 0.009655399881e-3, tol)
}

// Source: π²EI/(KL)², K 2 (Euler; Timoshenko & Gere, Theory of Elastic Stability).
func TestColumn(t *testing.T) {
	m := rod(t)
	I := m.Members[0].Stations[0].Section.Ix
	closeTo(t, "closed form", frame.Euler(2e9*I, 0.1, 2), 242.2365366, 1e-9)
	m.Members[0].Stations[0].Section.ShearX, m.Members[0].Stations[0].Section.ShearY = 0, 0
	s, err := frame.Assemble(m)
	if err != nil {
		t.Fatal(err)
	}
	factor, err := s.Buckling(frame.Case{Loads: []frame.Load{{Node: 1, Force: r3.Vec{Z: -10}}}})
	if err != nil {
		t.Fatal(err)
	}
	closeTo(t, "elements", factor*10, 242.2365366, 1e-6)
	factor, err = s.Buckling(frame.Case{Loads: []frame.Load{{Node: 1, Force: r3.Vec{Z: 10}}}})
	if err != nil || !math.IsInf(factor, 1) {
		t.Errorf("pulled column: got %g, %v, want +Inf", factor, err)
	}
}

// Source: Harris' Shock and Vibration Handbook, closed forms evaluated independently.
func TestOscillator(t *testing.T) {
	for _, c := range []struct{ r, want float64 }{{0.5, 1.332042}, {1, 10.049876}, {math.Sqrt2, 1}, {2, 0.339182}} {
		closeTo(t, "transmissibility", frame.Transmissibility(c.r, 0.05), c.want, 1e-6)
	}
	r, T := frame.PeakTransmissibility(0.05)
	closeTo(t, "peak at", r, 0.99752162, 1e-8)
	closeTo(t, "peak", T, 10.06221373, 1e-9)
	closeTo(t, "half-power width", frame.HalfPowerWidth(0.05), 0.10025221, 1e-7)
	closeTo(t, "log decrement", frame.LogDecrement(0.05), 0.3145527023, 1e-9)
	closeTo(t, "Miles", frame.Miles(100, 10, 0.04), 7.92665460, 1e-8)
}
