package strength_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"mastwright/design/strength"
)

// rod is a round bar of a diameter in m.
func rod(d float64) strength.Section {
	I := math.Pi * math.Pow(d, 4) / 64
	return strength.Section{Area: math.Pi * d * d / 4, Iy: I, Iz: I, Y: d / 2, Z: d / 2, Torsion: math.Pi * d * d * d / 16, Round: true}
}

// bar is a rectangle b along y by h along z, in m.
func bar(b, h float64) strength.Section {
	return strength.Section{Area: b * h, Iy: b * h * h * h / 12, Iz: h * b * b * b / 12, Y: b / 2, Z: h / 2}
}

func TestStress(t *testing.T) {
	for _, c := range []struct {
		name string
		sec  strength.Section
		r    strength.Resultants
		kt   float64
		want float64 // Pa, worked by hand
	}{
		{"rod pulled", rod(.01), strength.Resultants{N: 100}, 0, 400 / (math.Pi * 1e-4)},
		{"rod pressed", rod(.01), strength.Resultants{N: -100}, 0, 400 / (math.Pi * 1e-4)},
		{"rod bent, 32 M/(π d³)", rod(.01), strength.Resultants{My: 3, Mz: 4}, 0, 32 * 5 / (math.Pi * 1e-6)},
		{"rod twisted, √3 16 T/(π d³)", rod(.01), strength.Resultants{T: 1}, 0, math.Sqrt(3) * 16 / (math.Pi * 1e-6)},
		{"rod bent and twisted, 16/(π d³) √(4 M² + 3 T²)", rod(.01), strength.Resultants{My: 2, T: 3}, 0, 16 / (math.Pi * 1e-6) * math.Sqrt(4*4+3*9)},
		{"bar bent both ways, 6 M/(b h²) at the corner", bar(.02, .01), strength.Resultants{My: 1, Mz: -1}, 0, 6/(.02*1e-4) + 6/(.01*4e-4)},
		{"notched", bar(.02, .01), strength.Resultants{My: 1}, 1.5, 1.5 * 6 / (.02 * 1e-4)},
		{"nothing", strength.Section{}, strength.Resultants{}, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) { near(t, "stress", c.sec.Stress(c.r, c.kt), c.want, 1e-12) })
	}
}

func TestEuler(t *testing.T) {
	I := math.Pi * math.Pow(.01, 4) / 64
	// Rod of 10 mm and 100 mm, E 2000 MPa, clamped and free: π² E I/(4 L²), worked outside this package.
	near(t, "buckling force", strength.Euler(2e9, I, .1, 2), 242.2365366, 1e-9)
	if a, err := strength.Amplification(50, 100); err != nil || a != 2 {
		t.Errorf("amplification at half the buckling force: got %g, %v, want 2", a, err)
	}
	if a, err := strength.Amplification(-50, 100); err != nil || a != 1 {
		t.Errorf("amplification of a pull: got %g, %v, want 1", a, err)
	}
	if _, err := strength.Amplification(100, 100); err == nil {
		t.Error("amplification at the buckling force: got no error")
	}
}

func TestLayers(t *testing.T) {
	near(t, "across", strength.LayerStrength(48e6, 31e6, 0), 31e6, 1e-12)
	near(t, "along", strength.LayerStrength(48e6, 31e6, math.Pi/2), 48e6, 1e-12)
	near(t, "at 45 degrees", strength.LayerStrength(48e6, 31e6, math.Pi/4), 2*48e6*31e6/(48e6+31e6), 1e-12) // Hankinson: harmonic mean
	near(t, "unfilled", strength.AcrossLayers(48e6, false), 24e6, 1e-12)
	near(t, "filled", strength.AcrossLayers(90e6, true), 31.5e6, 1e-12)
}

// cantilever is a member at the root of a mast of a height in m.
func cantilever(sec strength.Section, height float64) strength.Member {
	return strength.Member{
		Name: "root", Section: sec,
		Unit: [3]strength.Resultants{{My: height}, {Mz: height}, {N: 1}},
	}
}

func TestCapacity(t *testing.T) {
	sec, sigma := rod(.01), 40e6
	m := cantilever(sec, .1)
	W := math.Pi * 1e-6 / 32
	near(t, "sideways", m.Capacity([3]float64{1, 0, 0}, sigma), sigma*W/.1, 1e-12)
	near(t, "any azimuth", m.Capacity([3]float64{.6, -.8, 0}, sigma), sigma*W/.1, 1e-12)
	near(t, "straight down", m.Capacity([3]float64{0, 0, -1}, sigma), sigma*sec.Area, 1e-12)

	slanted := [3]float64{math.Sqrt2 / 2, 0, -math.Sqrt2 / 2}
	m.Buckling = 242.2365366
	F := m.Capacity(slanted, sigma)
	// The beam-column's quadratic in F: n F + b F/(1 - c F) = σ with n = s/A, b = s L/W, c = s/P, s = 1/√2.
	s := math.Sqrt2 / 2
	n, b, c := s/sec.Area, s*.1/W, s/m.Buckling
	p, q := n+b+sigma*c, n*c
	want := (p - math.Sqrt(p*p-4*q*sigma)) / (2 * q)
	near(t, "slanted, amplified", F, want, 1e-9)
	if linear := sigma / (n + b); F >= linear {
		t.Errorf("amplified capacity: got %g, want below the linear %g", F, linear)
	}
	m.Unit[2] = strength.Resultants{}
	if got := m.Capacity([3]float64{0, 0, 1}, sigma); !math.IsInf(got, 1) {
		t.Errorf("capacity along an idle direction: got %g, want +Inf", got)
	}
	short := cantilever(sec, .1)
	short.Buckling = 1
	if got := short.Capacity([3]float64{0, 0, -1}, sigma); got > 1 || got < 1-1e-9 {
		t.Errorf("capacity of a column that buckles first: got %g, want 1", got)
	}
}

// A stronger material never gives way sooner, and a capacity is the force that brings the section to its strength.
func TestCapacityIsTheForceAtStrength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1, 1)
		m := strength.Member{Section: bar(.008, .012), Kt: 1.3}
		m.Section.Torsion = 2e-7
		for i := range m.Unit {
			m.Unit[i] = strength.Resultants{N: x.Draw(t, "n"), My: x.Draw(t, "my"), Mz: x.Draw(t, "mz"), T: x.Draw(t, "t")}
		}
		way := [3]float64{x.Draw(t, "x"), x.Draw(t, "y"), .5}
		F := m.Capacity(way, 30e6)
		r := m.Resultants([3]float64{F * way[0], F * way[1], F * way[2]})
		if got := m.Section.Stress(r, m.Kt); math.Abs(got-30e6) > 1 {
			t.Errorf("stress at capacity: got %g, want 30e6", got)
		}
		m.Buckling = 500
		low, high := m.Capacity(way, 30e6), m.Capacity(way, 40e6)
		if !(low <= high && low <= F*(1+1e-12)) {
			t.Errorf("capacities %g at 30 MPa, %g at 40 MPa, %g at 30 MPa unamplified", low, high, F)
		}
	})
}
