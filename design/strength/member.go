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
	return m.capacity(m.Resultants(direction), strength)
}

// capacity is Capacity for the resultants of 1 N. The stress grows ever faster with the force, so that Newton's steps
// from above stay above the answer and close in on it.
func (m Member) capacity(r Resultants, strength float64) float64 {
	linear := strength / m.Section.Stress(r, m.Kt)
	if m.Buckling <= 0 || r.N >= 0 || math.IsInf(linear, 1) {
		return linear
	}
	kt := m.Kt
	if kt == 0 {
		kt = 1
	}
	axial, bending := quotient(-r.N, m.Section.Area), m.Section.Bending(r)
	shear := 0.0
	if m.Section.Torsion > 0 {
		shear = r.T / m.Section.Torsion
	}
	press := -r.N / m.Buckling // share of the Euler force, per newton
	stress := func(F float64) (value, slope float64) {
		a := 1 / (1 - F*press)
		normal, rise := F*(axial+bending*a), axial+bending*a*a
		torsion := F * shear
		sum := math.Sqrt(normal*normal + 3*torsion*torsion)
		if sum == 0 {
			return 0, kt * rise
		}
		return kt * sum, kt * (normal*rise + 3*torsion*shear) / sum
	}
	low, high := 0.0, linear
	if high*press >= 1 {
		high = 1 / press // here the stress is infinite: halve until it is not beyond all reach of Newton's steps
		for range 60 {
			F := (low + high) / 2
			value, _ := stress(F)
			if value < strength {
				low = F
			} else {
				high = F
				if value < 4*strength {
					break
				}
			}
		}
	}
	for range 60 {
		value, slope := stress(high)
		step := (value - strength) / slope
		if !(step > 1e-13*high) {
			break
		}
		high = math.Max(high-step, low)
	}
	return high
}

// Link returns the section as a link of the load path of a blow along a unit direction.
func (m Member) Link(direction [3]float64) Link {
	r, strength := m.Resultants(direction), m.Strength.filled()
	link := Link{
		Name: m.Name, Kind: m.Kind,
		Capacity: strength.each(func(s float64) float64 { return m.capacity(r, s) }),
	}
	// a section that is only pressed or pulled has no hinge; what bends it then is rounding
	if bending := m.Section.Bending(r); bending > 1e-9*math.Abs(quotient(r.N, m.Section.Area)) && m.Elongation > 0 {
		link.Hinge = Hinge{
			Strength: strength, Modulus: m.Modulus, Elongation: m.Elongation, Kt: m.Kt,
			SectionModulus: math.Hypot(r.My, r.Mz) / bending,
		}
	}
	return link
}
