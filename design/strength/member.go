package strength

import "math"

// Member is one section in the load path of a blow on the mast top.
type Member struct {
	Name       string
	Kind       Kind
	Section    Section
	Kt         float64       // stress concentration; 0 means 1
	Unit       [3]Resultants // resultants per newton on the mast top along body x, y, z
	Buckling   float64       // Euler force of the column the section belongs to, N; 0 means it cannot buckle
	Strength   Spread        // in the loaded direction, Pa
	Modulus    float64       // in the loaded direction, Pa
	Elongation float64       // elongation at break in the loaded direction, low end, as a fraction; 0 means brittle
}

// Resultants returns the section's resultants under a force in N on the mast top.
func (m Member) Resultants(force [3]float64) Resultants {
	var r Resultants
	for i, u := range m.Unit {
		r = r.plus(force[i], u)
	}
	return r
}

// Capacity returns the force in N along a unit direction on the mast top at which
// the section reaches a strength in Pa,
//
//	Kt √((F (n/A + σ_b/(1 - F n/P_cr)))² + 3 (F τ)²) = σ
//
// per newton, the amplification only where the section is pressed. It is +Inf when
// the blow does not load the section.
func (m Member) Capacity(direction [3]float64, strength float64) float64 {
	r := m.Resultants(direction)
	linear := strength / m.Section.Stress(r, m.Kt)
	if m.Buckling <= 0 || r.N >= 0 || math.IsInf(linear, 1) {
		return linear
	}
	high := math.Min(linear, m.Buckling/-r.N)
	low := 0.0
	for high-low > 1e-12*high {
		F := (low + high) / 2
		if F == low || F == high {
			break
		}
		a := 1 / (1 - F*-r.N/m.Buckling)
		amplified := Resultants{N: F * r.N, My: F * a * r.My, Mz: F * a * r.Mz, T: F * r.T}
		if m.Section.Stress(amplified, m.Kt) < strength {
			low = F
		} else {
			high = F
		}
	}
	return low
}

// Link returns the section as a link of the load path of a blow along a unit direction.
func (m Member) Link(direction [3]float64) Link {
	r, strength := m.Resultants(direction), m.Strength.filled()
	link := Link{
		Name: m.Name, Kind: m.Kind,
		Capacity: strength.each(func(s float64) float64 { return m.Capacity(direction, s) }),
	}
	if bending := m.Section.Bending(r); bending > 0 && m.Elongation > 0 {
		link.Hinge = Hinge{
			Strength: strength, Modulus: m.Modulus, Elongation: m.Elongation, Kt: m.Kt,
			SectionModulus: math.Hypot(r.My, r.Mz) / bending,
		}
	}
	return link
}
